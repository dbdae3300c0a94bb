//! Choices and flags: a few words, in many spellings.

use std::collections::{BTreeMap, HashMap};

use foldhash::fast::FixedState;

use super::super::choices;
use super::{Datum, Understood};
use crate::field::rules::{NO_WELL, NOT_KNOWN};
use crate::field::{DischargeRoute, Field, Kind, WellType};
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
}

impl Choices {
    pub(super) fn of(field: Field) -> Self {
        let mut found = Self::default();
        if let Kind::Choice(choices) = field.definition().kind {
            for (at, (name, others)) in choices.iter().enumerate() {
                for word in std::iter::once(name).chain(*others) {
                    found.exact.entry(fold(word)).or_insert(at as u8);
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

    /// Whether the campaign has none.
    pub(super) fn are_none(&self) -> bool {
        self.0.is_empty()
    }

    /// What this text means in a field, where the campaign says so.
    pub(super) fn read(&self, field: Field, text: &str) -> Option<Understood> {
        if self.are_none() {
            return None;
        }
        Some(match self.0.get(&(field, fold(text)))? {
            Meaning::Is(datum) => Understood::of(*datum),
            Meaning::NoWell => Understood::of(Datum::Unread).say(
                catalogue::NOT_A_WELL,
                "the scenario file says that this is not a well that is treated",
                "no action needed if correct; otherwise take the word out of [inventory.words.well_type]",
            ),
        })
    }
}

/// Whether the cell of a type says outright that there is no well: the word that stands for it in words and repairs.
pub fn says_no_well(field: Field, text: &str) -> bool {
    field == Field::WellType && text.trim().eq_ignore_ascii_case(NO_WELL)
}

/// Reads a cell as one of the words of a field, by the campaign's own words first.
pub(super) fn choice(field: Field, words: &[(&str, &[&str])], known: &Choices, text: &str) -> Understood {
    if let Some(at) = words.iter().position(|(name, _)| *name == text) {
        return Understood::of(Datum::Choice(at as u8));
    }
    if let Some(at) = known.exact.get(&fold(text)) {
        return Understood::of(Datum::Choice(*at));
    }
    if says_no_well(field, text) {
        let says = "this says that it is not a well that is treated";
        return Understood::of(Datum::Unread).say(catalogue::NOT_A_WELL, says, "no action needed if correct");
    }
    // `Drilled (rotary)`, `hand dug well, brick`: by what the words mean.
    let meaning = if field == Field::WellType {
        choices::well_type(text).map(WellType::name)
    } else {
        choices::route(text).map(DischargeRoute::name)
    };
    meant(field, words, meaning, text)
}

/// A choice by what its words, or its ticks, mean. `text` is what could be given a meaning once for all; empty for ticks.
pub(super) fn meant(
    field: Field,
    words: &[(&str, &[&str])],
    meaning: choices::Meaning<&'static str>,
    text: &str,
) -> Understood {
    let is_type = field == Field::WellType;
    let place = |name: &str| words.iter().position(|(known, _)| *known == name).unwrap_or_default() as u8;
    let why = match meaning {
        choices::Meaning::Is(name) => return Understood::of(Datum::Choice(place(name))),
        choices::Meaning::Read(name, why) => {
            let why = if why.is_empty() { why } else { format!(": {why}") };
            return Understood::of(Datum::Choice(place(name))).say(
                catalogue::CHOICE_FROM_PHRASE,
                format!("read as {}{why}", name.replace('_', " ")),
                "no action needed if correct",
            );
        }
        choices::Meaning::Missing => return Understood::default(),
        choices::Meaning::NotAWell(kind) => {
            return Understood::of(Datum::Unread).say(
                catalogue::NOT_A_WELL,
                format!("by its type this is {}, not a well", kind.phrase()),
                "take the row out of the list; if it is a well, write its type",
            );
        }
        choices::Meaning::Ask(why) => why,
    };
    let names = words.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let name = field.name();
    let meant = if is_type { "TYPE" } else { "ROUTE" };
    let mut help = format!("write one of: {names}");
    if !text.is_empty() {
        help = format!("{help}; once for all rows: [inventory.words.{name}] {text:?} = \"{meant}\"");
    }
    let code = if is_type { catalogue::UNKNOWN_WELL_TYPE } else { catalogue::UNKNOWN_CHOICE };
    let after = if is_type { "" } else { "; it is left blank" };
    // A word that was not understood is not a blank cell: no value for blank cells stands in for it.
    Understood::of(Datum::Unread).say(code, format!("{why}{after}"), help)
}

/// Reads a cell as yes or no, or as what was said instead.
pub(super) fn flag(field: Field, text: &str) -> Understood {
    let why = match choices::flag(field, text) {
        choices::Meaning::Is(answer) => return Understood::of(Datum::Flag(answer)),
        choices::Meaning::Read(answer, why) => {
            let understood = Understood::of(Datum::Flag(answer));
            let answer = if answer { "yes" } else { "no" };
            let why = if why.is_empty() { why } else { format!(": {why}") };
            return understood.say(
                catalogue::CHOICE_FROM_PHRASE,
                format!("read as {answer}{why}"),
                "no action needed if correct",
            );
        }
        choices::Meaning::Missing | choices::Meaning::NotAWell(_) => return Understood::default(),
        choices::Meaning::Ask(why) => why,
    };
    let help =
        format!("write yes or no; once for all rows: [inventory.words.{}] {text:?} = \"yes\" or \"no\"", field.name());
    Understood::of(Datum::Unread).say(catalogue::FLAG_NOT_UNDERSTOOD, format!("{why}; it is left blank"), help)
}
