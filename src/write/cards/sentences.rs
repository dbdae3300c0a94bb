//! Sentences and boxes.

use maud::{Markup, html};

use crate::document::card::{Part, Room, Sentence};

/// A sentence with its figures in bold, and room for a pen.
pub(super) fn sentence(sentence: &Sentence) -> Markup {
    html! {
        @for part in &sentence.0 {
            @match part {
                Part::Text(text) => (text),
                Part::Strong(text) => strong { (text) },
                Part::Figure { name, text } => b data-figure=(name) { (text) },
                Part::Room(room) => span class=(class(*room)) {},
            }
        }
    }
}

const fn class(room: Room) -> &'static str {
    match room {
        Room::Reading => "room reading",
        Room::Moment => "room moment",
        Room::Words => "room words",
    }
}

/// Boxes to write in; where one would stand alone in a row of four, rows are of five.
pub(super) fn boxes(labels: &[String]) -> Markup {
    html! {
        div class=(if labels.len() % 4 == 1 { "boxes odd" } else { "boxes" }) {
            @for label in labels {
                div class="box" { span class="label" { (label) } }
            }
        }
    }
}
