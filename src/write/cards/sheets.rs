//! The crew's file: cover, load lists, cards.

use maud::{Markup, html};

use super::room::{self, HALF, PAGE, Set};
use super::sentences::{boxes, sentence};
use crate::document::card::{Card, CardLabels, CrewSheets, Depot, Load, Size, Stops};

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
        @for cards in in_order(&depot.cards, &depot.title, labels) {
            div class="cards" { @for (one, laid) in cards { (card(one, &laid, &depot.title, labels)) } }
        }
    }
}

/// Cards in the order in which they are printed, those that share pages together: of a crew's day in the order of its stops, of a
/// depot so that no page is half empty.
fn in_order<'a>(cards: &'a [Card], depot: &str, labels: &CardLabels) -> Vec<Vec<(&'a Card, Laid)>> {
    let by_stop = cards.iter().any(|card| card.stop.is_some());
    let mut laid: Vec<(&Card, Laid)> = cards.iter().zip(paired(cards, by_stop, depot, labels)).collect();
    if !by_stop {
        // Cards of a place keep their order.
        laid.sort_by_key(|(_, laid)| laid.place);
    }
    let mut runs: Vec<Vec<(&Card, Laid)>> = Vec::new();
    for one in laid {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|(_, before)| before.place == one.1.place) => run.push(one),
            _ => runs.push(vec![one]),
        }
    }
    runs
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
        h3 { (load.rules_title) }
        ul class="rules" { @for rule in &load.rules { li { (rule) } } }
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
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    /// Half a page, in small type.
    HalfPage,
    Page,
    /// Half a page, in large type: nothing is brought to a well that is only measured.
    ToMeasure,
}

/// Place and type of a card.
struct Laid {
    place: Place,
    class: String,
}

/// How each card is laid out. Two that fit on a page together share it, however they share its height. Of two that do not, one
/// has a page of its own, in larger type: the one with more words, or the first where the order of stops must be kept.
fn paired(cards: &[Card], by_stop: bool, depot: &str, labels: &CardLabels) -> Vec<Laid> {
    let height = |card: &Card, set: &Set| room::height(card, (depot, labels), set);
    // How tall those are that may share a page, in either set.
    let may_share = |card: &Card| card.size == Size::Half && !card.bring.is_empty();
    let tall: Vec<Option<[f64; 2]>> =
        cards.iter().map(|card| may_share(card).then(|| HALF.map(|set| height(card, &set)))).collect();
    let mut shared: Vec<Option<&Set>> = vec![None; cards.len()];
    // The card that waits for another one on its page, and its heights.
    let mut waiting: Option<(usize, [f64; 2])> = None;
    for (at, own) in tall.iter().enumerate() {
        let Some(own) = *own else {
            waiting = waiting.filter(|_| !by_stop);
            continue;
        };
        let Some((before, beside)) = waiting else {
            waiting = Some((at, own));
            continue;
        };
        let both = HALF.iter().zip(own.iter().zip(beside)).find(|(set, (one, other))| **one + other <= set.most);
        waiting = match both {
            Some((set, _)) => {
                shared[before] = Some(set);
                shared[at] = Some(set);
                None
            }
            None if by_stop || beside > own => Some((at, own)),
            None => waiting,
        };
    }
    let laid = |(at, card): (usize, &Card)| match shared[at] {
        Some(set) => shares(set),
        None => alone(card, tall[at], |set| height(card, set)),
    };
    cards.iter().enumerate().map(laid).collect()
}

fn shares(set: &Set) -> Laid {
    Laid { place: Place::HalfPage, class: format!("card {}", set.class) }
}

/// How a card is laid out for which no other one has been found: on half a page where it fits there, so that a page can be cut.
fn alone(card: &Card, tall: Option<[f64; 2]>, height: impl Fn(&Set) -> f64) -> Laid {
    if card.size == Size::Half && card.bring.is_empty() {
        return Laid { place: Place::ToMeasure, class: "card half measure".to_owned() };
    }
    let half = tall.and_then(|tall| HALF.iter().zip(tall).find(|(set, tall)| *tall <= set.most / 2.0));
    if let Some((set, _)) = half {
        return shares(set);
    }
    // The largest type that stays on the page.
    let [.., smallest] = &PAGE;
    let class = PAGE.iter().find(|set| height(set) <= set.most).unwrap_or(smallest).class;
    Laid { place: Place::Page, class: format!("card full {class}") }
}

fn card(card: &Card, laid: &Laid, depot: &str, labels: &CardLabels) -> Markup {
    html! {
        article class=(laid.class) data-well=(card.well) data-visit=(card.visit) {
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
