//! The crew's file: cover, load lists, cards.

use maud::{Markup, html};

use super::sentences::{boxes, sentence};
use crate::document::card::{Card, CardLabels, CrewSheets, Depot, Load, Part, Sentence, Size};

pub(super) fn body(sheets: &CrewSheets) -> Markup {
    html! {
        section class="cover page" {
            h1 { (sheets.title) }
            @if let Some(banner) = &sheets.banner { p class="banner" { (banner) } }
            @for about in &sheets.about { p { (about) } }
            h2 { (sheets.cautions_title) }
            ul { @for caution in &sheets.cautions { li { (caution) } } }
            h2 { (sheets.reading_title) }
            ul { @for line in &sheets.reading { li { (line) } } }
        }
        @for depot in &sheets.depots { (depot_pages(depot, &sheets.labels)) }
    }
}

fn depot_pages(depot: &Depot, labels: &CardLabels) -> Markup {
    html! {
        section class="page load" {
            (load(&depot.load))
        }
        @for cards in depot.cards.chunk_by(|one, other| one.size == other.size) {
            div class="cards" {
                @for one in cards { (card(one, &depot.title, labels)) }
            }
        }
    }
}

fn load(load: &Load) -> Markup {
    html! {
        h2 { (load.title) }
        p { (load.visits) }
        table {
            thead { tr { @for head in &load.heads { th scope="col" { (head) } } } }
            tbody {
                @for line in &load.lines {
                    tr {
                        th scope="row" {
                            (sentence(&line.item))
                            @if let Some(note) = &line.note { div class="note" { (note) } }
                        }
                        td { (sentence(&line.amount)) }
                        td { span class="tick" {} }
                    }
                }
            }
        }
        h3 { (load.gear_title) }
        ul class="gear" { @for item in &load.gear { li { span class="tick" {} (item) } } }
    }
}

/// Letters of a card above which it takes the next smaller type, to stay in its half of a page or on its page, on A4 and on
/// Letter; measured on the demo's cards as Chromium prints them.
const LETTERS_OF_HALF: [usize; 3] = [2_380, 2_620, 2_880];
const LETTERS_OF_FULL: [usize; 3] = [2_380, 2_680, 3_000];
/// Types, largest first.
const TYPES: [&str; 4] = ["roomy", "usual", "dense", "densest"];

/// Size and type of a card.
fn class(card: &Card) -> String {
    let (size, limits) = match card.size {
        // Nothing is brought to a well that is only measured.
        Size::Half if card.bring.is_empty() => return "card half measure".to_owned(),
        Size::Half => ("half", LETTERS_OF_HALF),
        Size::Full => ("full", LETTERS_OF_FULL),
    };
    let letters = letters(card);
    let passed = limits.iter().filter(|limit| letters > **limit).count();
    format!("card {size} {}", TYPES[passed])
}

/// Letters of a card, about.
fn letters(card: &Card) -> usize {
    let said = |sentences: &[Sentence]| -> usize {
        let parts = sentences.iter().flat_map(|sentence| &sentence.0);
        parts
            .map(|part| match part {
                Part::Text(text) | Part::Strong(text) | Part::Figure { text, .. } => text.chars().count(),
                Part::Room(_) => 8,
            })
            .sum()
    };
    let texts = |texts: &[String]| -> usize { texts.iter().map(|text| text.chars().count()).sum() };
    let facts: usize = card.facts.iter().map(|fact| fact.label.chars().count() + fact.text.chars().count() + 4).sum();
    let assumed = card.assumed.as_ref().map_or(0, |text| text.chars().count());
    assumed + said(&card.bring) + said(&card.steps) + texts(&card.flags) + texts(&card.cautions) + facts
}

fn card(card: &Card, depot: &str, labels: &CardLabels) -> Markup {
    html! {
        article class=(class(card)) data-well=(card.well) data-visit=(card.visit) {
            header {
                h2 {
                    span class="well" { (card.well) }
                    @if let Some(visit) = &card.visit_words { " " span class="visit" { (visit) } }
                    " " span class="kind" { (card.kind) }
                }
                p class="headline" { (sentence(&card.headline)) }
                p class="depot" { (depot) }
                @if let Some(gives) = &card.gives { p class="gives" { (sentence(gives)) } }
            }
            @if let Some(banner) = &card.banner { p class="banner" { (banner) } }
            @if !card.flags.is_empty() {
                p class="flags" {
                    span class="label" { (labels.flags) ": " }
                    @for flag in &card.flags { span class="flag" { (flag) } " " }
                }
            }
            p class="facts" {
                @for fact in &card.facts {
                    span class="fact" { span class="label" { (fact.label) ": " } (fact.text) } " "
                }
            }
            @if let Some(assumed) = &card.assumed { p class="assumed" { (assumed) } }
            @if !card.bring.is_empty() {
                p class="bring" {
                    span class="label" { (labels.bring) ": " }
                    @for (at, item) in card.bring.iter().enumerate() {
                        @if at > 0 { "; " }
                        (sentence(item))
                    }
                    "."
                }
            }
            h3 class="steps-title" { (card.steps_title) }
            ol class="steps" { @for step in &card.steps { li { (sentence(step)) } } }
            @if !card.cautions.is_empty() {
                p class="cautions" {
                    span class="label" { (labels.cautions) ": " }
                    @for caution in &card.cautions { span class="caution" { (caution) } " " }
                }
            }
            div class="record" aria-label=(labels.record) { (boxes(&card.boxes)) }
            footer { (labels.foot) }
        }
    }
}
