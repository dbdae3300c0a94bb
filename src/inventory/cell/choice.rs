//! Choices and flags: a few words, in many spellings.

use std::collections::{BTreeMap, HashMap};

use foldhash::fast::FixedState;

use super::{Datum, Understood};
use crate::field::rules::{NO_WELL, NOT_KNOWN};
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

/// What the campaign's own words mean, folded once; looked up before anything else is tried.
#[derive(Debug, Default)]
pub(super) struct OwnWords(HashMap<(Field, String), Meaning, FixedState>);

#[derive(Debug, Clone, Copy)]
enum Meaning {
    Is(Datum),
    NoWell,
}

impl OwnWords {
    pub(super) fn new(words: &BTreeMap<Field, BTreeMap<String, String>>) -> Self {
        let meaning = |field: Field, meaning: &str| match (meaning, field.definition().kind) {
            (NO_WELL, _) => Some(Meaning::NoWell),
            (NOT_KNOWN, _) => Some(Meaning::Is(Datum::Missing)),
            (_, Kind::Flag) => Some(Meaning::Is(Datum::Flag(meaning == "yes"))),
            (_, Kind::Choice(choices)) => {
                let at = choices.iter().position(|(name, _)| *name == meaning)?;
                Some(Meaning::Is(Datum::Choice(at as u8)))
            }
            (_, Kind::Text | Kind::Quantity(_)) => None,
        };
        let each = words.iter().flat_map(|(field, words)| words.iter().map(|(word, says)| (*field, word, says)));
        Self(each.filter_map(|(field, word, says)| Some(((field, fold(word)), meaning(field, says)?))).collect())
    }

    /// What this text means in a field, where the campaign says so.
    pub(super) fn read(&self, field: Field, text: &str) -> Option<Understood> {
        if self.0.is_empty() {
            return None;
        }
        Some(match self.0.get(&(field, fold(text)))? {
            Meaning::Is(datum) => Understood::of(*datum),
            Meaning::NoWell => Understood::of(Datum::Unread).say(
                catalogue::NOT_A_WELL,
                "the scenario file says that this is not a well that is treated",
                "nothing, if that is right; else take the word out of [inventory.words.well_type]",
            ),
        })
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
