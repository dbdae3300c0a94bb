//! The crew's file: cover, load lists, cards.

use maud::{Markup, html};

use super::sentences::{boxes, sentence};
use crate::document::card::{Card, CardLabels, CrewSheets, Depot, Load, Part, Room, Sentence, Size, Stops};

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
        // Cards that share a page stand together, so that no page is half empty.
        @for place in [Place::HalfPage, Place::Page, Place::ToMeasure] {
            @let cards: Vec<&Card> = depot.cards.iter().filter(|card| Place::of(card) == place).collect();
            @if !cards.is_empty() {
                div class="cards" { @for one in cards { (card(one, &depot.title, labels)) } }
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
        @if let Some(of) = &load.stops { (stops(of)) }
        h3 { (load.gear_title) }
        ul class="gear" { @for item in &load.gear { li { span class="tick" {} (item) } } }
    }
}

fn stops(stops: &Stops) -> Markup {
    html! {
        h3 { (stops.title) }
        table class="stops" {
            thead { tr { @for head in &stops.heads { th scope="col" { (head) } } th {} } }
            tbody {
                @for row in &stops.rows {
                    tr { @for cell in row { td { (cell) } } td { span class="tick" {} } }
                }
            }
        }
    }
}

/// How a card is laid out.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Half a page, in small type.
    HalfPage,
    /// A page.
    Page,
    /// Half a page, in large type: nothing is brought to a well that is only measured.
    ToMeasure,
}

impl Place {
    fn of(card: &Card) -> Self {
        match card.size {
            Size::Half if card.bring.is_empty() => Self::ToMeasure,
            Size::Half if lines(card) <= LINES_OF_HALF => Self::HalfPage,
            Size::Half | Size::Full => Self::Page,
        }
    }
}

/// Lines of 9 points that half a page has room for beside heading and boxes, on A4 and on Letter; letters on a line, and on one of
/// its two columns. Measured on the demo's cards as Chromium prints them, on the safe side.
const LINES_OF_HALF: usize = 27;
const LINE: usize = 126;
const COLUMN: usize = 58;
/// The same of the line that says what an amount gives, and lines that a banner is as high as.
const LINE_OF_GIVES: usize = 88;
const BANNER: usize = 3;

/// Letters of a card above which it takes the next smaller type, to stay on its page.
const LETTERS_OF_FULL: [usize; 3] = [2_380, 2_680, 3_000];
/// Types, largest first.
const TYPES: [&str; 4] = ["roomy", "usual", "dense", "densest"];

/// Place and type of a card.
fn class(card: &Card) -> String {
    match Place::of(card) {
        Place::HalfPage => "card half".to_owned(),
        Place::ToMeasure => "card half measure".to_owned(),
        Place::Page => {
            let letters = letters(card);
            let passed = LETTERS_OF_FULL.iter().filter(|limit| letters > **limit).count();
            format!("card full {}", TYPES[passed])
        }
    }
}

/// Letters of a sentence, room for a pen among them.
fn letters_of(sentence: &Sentence) -> usize {
    let letters = |part: &Part| match part {
        Part::Text(text) | Part::Strong(text) => text.chars().count(),
        // Figures are larger and not broken: of many digits, as a date, that shows.
        Part::Figure { text, .. } => text.chars().count() + text.chars().filter(char::is_ascii_digit).count() / 2,
        Part::Room(Room::Reading) => 7,
        Part::Room(Room::Moment) => 12,
        Part::Room(Room::Words) => 12,
    };
    sentence.0.iter().map(letters).sum()
}

/// Letters of paragraphs: what to know first, facts, what was assumed, what to bring, what to mind.
fn paragraphs(card: &Card) -> [usize; 5] {
    // A label or a blank stands beside each.
    let texts = |texts: &[String]| texts.iter().map(|text| text.chars().count() + 1).sum::<usize>();
    let facts = card.facts.iter().map(|fact| fact.label.chars().count() + fact.text.chars().count() + 4);
    let bring = card.bring.iter().map(|item| letters_of(item) + 2);
    let assumed = card.assumed.as_ref().map_or(0, |text| text.chars().count());
    [texts(&card.flags), facts.sum(), assumed, bring.sum(), texts(&card.cautions)]
}

/// Letters of a card, about.
fn letters(card: &Card) -> usize {
    paragraphs(card).iter().sum::<usize>() + card.steps.iter().map(letters_of).sum::<usize>()
}

/// Lines of a card of half a page, about.
fn lines(card: &Card) -> usize {
    let steps: Vec<usize> = card.steps.iter().map(|step| letters_of(step).div_ceil(COLUMN)).collect();
    // No step is cut where the columns part.
    let parted = |at: usize| steps[..at].iter().sum::<usize>().max(steps[at..].iter().sum());
    let columns = (0..=steps.len()).map(parted).min().unwrap_or_default();
    let paragraphs: usize = paragraphs(card).iter().map(|letters| letters.div_ceil(LINE)).sum();
    let gives = card.gives.as_ref().map_or(0, |gives| letters_of(gives).saturating_sub(1) / LINE_OF_GIVES);
    let framed = usize::from(!card.flags.is_empty()) + if card.banner.is_some() { BANNER } else { 0 };
    columns + paragraphs + gives + framed
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
                p class="depot" { (depot) @if let Some(stop) = &card.stop { ", " (stop) } }
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
