//! Notices to users, a page each, and behind each a page of tags to be cut.

use maud::{Markup, html};

use super::sentences::sentence;
use crate::document::card::{LabeledBox, Notice, Notices, Tag};

/// Tags on a page.
const TAGS: usize = 4;

pub(super) fn body(notices: &Notices) -> Markup {
    html! {
        @for notice in &notices.of_wells {
            section class="page notice" {
                h1 { (notices.title) }
                (boxes(&notice.boxes))
                @for says in &notices.says { p { (says) } }
                (boxes(&notice.contacts))
                footer { (notices.foot) }
            }
            section class="page tags" {
                p class="cut" { (notices.tag.cut) }
                @for _ in 0..TAGS { (tag(&notices.tag, notice)) }
            }
        }
    }
}

fn tag(tag: &Tag, notice: &Notice) -> Markup {
    html! {
        div class="tag" {
            div class="hole" {}
            p class="tag-title" { (tag.title) }
            @for says in &tag.says { p { (says) } }
            (boxes(&notice.tag))
            p class="foot" { (tag.foot) }
        }
    }
}

fn boxes(boxes: &[LabeledBox]) -> Markup {
    html! {
        div class="boxes" {
            @for of in boxes {
                div class="box" {
                    span class="label" { (of.label) }
                    @if let Some(filled) = &of.filled { (sentence(filled)) }
                }
            }
        }
    }
}
