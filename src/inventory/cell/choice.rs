//! Choices and flags: a few words, in many spellings.

use std::collections::HashMap;

use foldhash::fast::FixedState;

use super::{Datum, Understood};
use crate::field::{Field, Kind};
use crate::finding::catalogue;

/// Lower case, with underscores, hyphens and runs of blanks as single blanks.
fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for word in text.split(|c: char| c.is_whitespace() || c == '_' || c == '-').filter(|word| !word.is_empty()) {
        if !folded.is_empty() {
            folded.push(' ');
        }
        folded.push_str(word);
    }
    if folded.is_ascii() {
        folded.make_ascii_lowercase();
        return folded;
    }
    folded.to_lowercase()
}

/// The words of one field of choices, folded once.
#[derive(Debug, Default)]
pub(super) struct Choices {
    exact: HashMap<String, u8, FixedState>,
    /// Each word between blanks, for finding it within a phrase.
    within: Vec<(String, u8)>,
}

impl Choices {
    pub(super) fn of(field: Field) -> Self {
        let mut found = Self::default();
        if let Kind::Choice(choices) = field.definition().kind {
            for (at, (name, others)) in choices.iter().enumerate() {
                for word in std::iter::once(name).chain(*others) {
                    let folded = fold(word);
                    found.within.push((format!(" {folded} "), at as u8));
                    found.exact.entry(folded).or_insert(at as u8);
                }
            }
        }
        found
    }
}

/// Reads a choice.
pub(super) fn choice(field: Field, choices: &[(&str, &[&str])], known: &Choices, text: &str) -> Understood {
    if let Some(at) = choices.iter().position(|(name, _)| *name == text) {
        return Understood::of(Datum::Choice(at as u8));
    }
    let folded = fold(text);
    if let Some(at) = known.exact.get(&folded) {
        return Understood::of(Datum::Choice(*at));
    }
    // `Drilled (rotary)`, `hand dug well, brick`: one and only one of the choices is in it.
    let mut padded = String::with_capacity(folded.len() + 2);
    padded.push(' ');
    for word in folded.split(['(', ')', ',', '/', ';', '.', ' ']).filter(|word| !word.is_empty()) {
        padded.push_str(word);
        padded.push(' ');
    }
    let mut found: Option<u8> = None;
    let mut several = false;
    for (word, at) in &known.within {
        if padded.contains(word.as_str()) {
            several |= found.is_some_and(|found| found != *at);
            found = Some(*at);
        }
    }
    if let Some(at) = found.filter(|_| !several) {
        return Understood::of(Datum::Choice(at)).say(
            catalogue::CHOICE_FROM_PHRASE,
            format!("read as {}", choices[usize::from(at)].0),
            "nothing, if that is right",
        );
    }
    let words = choices.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let help = format!("write one of: {words}");
    if field == Field::WellType {
        let says = "this is not a type of well that is known";
        return Understood::of(Datum::Unread).say(catalogue::UNKNOWN_WELL_TYPE, says, help);
    }
    let says = format!("this is not a {} that is known; it is left blank", field.name().replace('_', " "));
    Understood::default().say(catalogue::UNKNOWN_CHOICE, says, help)
}

/// Reads a flag.
pub(super) fn flag(text: &str) -> Understood {
    const YES: &[&str] = &["yes", "y", "true", "t", "1", "x", "✓", "✔", "wahr", "oui", "si", "sí", "SÍ"];
    const NO: &[&str] = &["no", "n", "false", "f", "0", "falsch", "non"];
    let is_one_of = |words: &[&str]| words.iter().any(|word| word.eq_ignore_ascii_case(text));
    if is_one_of(YES) {
        Understood::of(Datum::Flag(true))
    } else if is_one_of(NO) {
        Understood::of(Datum::Flag(false))
    } else {
        Understood::default().say(
            catalogue::FLAG_NOT_UNDERSTOOD,
            "neither yes nor no; it is left blank",
            "write yes or no",
        )
    }
}
