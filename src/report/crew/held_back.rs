//! The card of a visit without an amount: what is missing, in words, and room to write down what was measured.

use super::facts::{Told, flags};
use super::phrases::Phrase;
use super::words::{Terms, Words, filled};
use crate::document::card::{Card, Part, Sentence, Size};
use crate::field::rules::UnitSystem;
use crate::visit::Visit;

/// The card of a visit that is held back.
pub(super) fn card(visit: &Visit, carried: &[String], words: &Words, system: UnitSystem) -> Card {
    let missing = visit.held_back_by().iter().map(|code| missing(code.id(), words));
    let kind = match visit.well_type() {
        "" => "unknown",
        kind => kind,
    };
    let how = words.sentence(Phrase::CardMeasureHow, Vec::new());
    Card {
        size: Size::Half,
        well: visit.id().to_owned(),
        visit: visit.visit().to_owned(),
        visit_words: (visit.visit() != "1").then(|| words.with(Phrase::CardVisit, &[("visit", visit.visit())])),
        kind: words.term(Terms::Kind, kind).to_owned(),
        headline: words.sentence(Phrase::CardMeasure, Vec::new()),
        gives: None,
        stop: None,
        banner: None,
        flags: flags(visit.hazards(), words),
        facts: Told::of(visit, carried, words, system).facts(),
        assumed: None,
        bring: Vec::new(),
        steps: missing.map(|text| Sentence(vec![Part::Strong(text)])).chain([how]).collect(),
        steps_title: words.say(Phrase::CardMissing),
        cautions: Vec::new(),
        boxes: [
            Phrase::BoxArrived,
            Phrase::BoxMade,
            Phrase::BoxDepth,
            Phrase::BoxLevel,
            Phrase::BoxAcross,
            Phrase::BoxFlow,
            Phrase::BoxDrains,
            Phrase::BoxSketch,
        ]
        .map(|phrase| words.say(phrase))
        .to_vec(),
    }
}

fn missing(code: &str, words: &Words) -> String {
    let key = if words.has(Terms::Missing, code) { code } else { "other" };
    filled(words.term(Terms::Missing, key).to_owned(), &[("code", code)])
}
