//! A written size cut into amounts, words and marks, so that its form can be told before its numbers are used.
//!
//! Works on the text in small letters with one character for each quote and dash. One pass; the caller caps the length.

use std::borrow::Cow;

use super::super::unit::{self, Dimension, Meaning, Unit};
use super::number::{self, Comma};

/// A number with the unit of length that stands after it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Amount {
    /// As written, in `unit`; the sign is not in it.
    pub(super) value: f64,
    /// The unit, where one of length is written.
    pub(super) unit: Option<&'static Unit>,
    /// Where it starts in the text.
    pub(super) start: usize,
    /// The byte after its last character, its unit included.
    pub(super) end: usize,
    /// Whether a smaller unit was added to it.
    pub(super) compound: bool,
}

impl Amount {
    /// In metres, with a unit for numbers without one.
    pub(super) fn si(&self, default: &'static Unit) -> f64 {
        self.unit.unwrap_or(default).to_si(self.value)
    }
}

/// A part of a written size.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Item<'a> {
    /// A number, with its unit of length if it has one.
    Amount(Amount),
    /// Letters; points between single letters are taken out (`o.d.` is `od`).
    Word(Cow<'a, str>),
    /// Anything else but blanks.
    Mark(char),
}

impl Item<'_> {
    /// The word, where it is one.
    pub(super) fn word(&self) -> Option<&str> {
        match self {
            Self::Word(word) => Some(word),
            _ => None,
        }
    }

    /// The amount, where it is one.
    pub(super) fn amount(&self) -> Option<Amount> {
        match self {
            Self::Amount(amount) => Some(*amount),
            _ => None,
        }
    }

    /// Whether it is this mark.
    pub(super) fn is(&self, mark: char) -> bool {
        matches!(self, Self::Mark(found) if *found == mark)
    }
}

/// Cuts a text in small letters.
pub(super) fn items(text: &str, comma: Comma) -> Vec<Item<'_>> {
    let mut items = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let digit_next = text.as_bytes().get(at + 1).is_some_and(u8::is_ascii_digit);
        if c == ' ' {
            at += 1;
        } else if c.is_ascii_digit() || c == '.' && digit_next {
            let found = number::at(text, at, comma).filter(|found| found.value.is_finite());
            let Some(found) = found else {
                // Digits that make no number: nothing here is read as one.
                let end = text[at..].find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ','));
                items.push(Item::Mark('?'));
                at = end.map_or(text.len(), |end| at + end);
                continue;
            };
            let (unit, end) = unit_after(text, found.end);
            items.push(Item::Amount(Amount { value: found.value, unit, start: at, end, compound: false }));
            at = end;
        } else if c.is_alphabetic() {
            let end = at + letters(&text[at..]);
            let (word, end) = dotted(text, at, end);
            items.push(Item::Word(word));
            at = end;
        } else {
            items.push(Item::Mark(c));
            at += c.len_utf8();
        }
    }
    items
}

/// How many bytes of letters a text begins with.
fn letters(text: &str) -> usize {
    text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len())
}

/// `o.d.` as `od`: single letters with points between them are one word.
fn dotted(text: &str, start: usize, end: usize) -> (Cow<'_, str>, usize) {
    let single = |from: usize| letters(&text[from..]) == 1 && text.as_bytes().get(from + 1) == Some(&b'.');
    if !single(start) || text[end..].get(1..).is_none_or(|rest| letters(rest) == 0) {
        return (Cow::Borrowed(&text[start..end]), end);
    }
    let mut word = String::new();
    let mut at = start;
    while at < text.len() && single(at) {
        word.push_str(&text[at..=at]);
        at += 2;
    }
    let more = at + letters(&text[at..]);
    word.push_str(&text[at..more]);
    (Cow::Owned(word), more)
}

/// The unit of length after a number, and where what belongs to the number ends.
fn unit_after(text: &str, from: usize) -> (Option<&'static Unit>, usize) {
    let at = from + text[from..].bytes().take_while(|byte| *byte == b' ').count();
    // `6-inch`: the hyphen joins.
    let joined = at == from && text[at..].starts_with('-') && letters(&text[at + 1..]) > 1;
    let at = at + usize::from(joined);
    let end = match text.as_bytes().get(at) {
        Some(b'\'' | b'"') => at + 1,
        _ => at + letters(&text[at..]),
    };
    match unit::look_up(&text[at..end], None) {
        Some(Meaning::Unit(unit)) if end > at && unit.dimension == Dimension::Length => {
            let point = text.as_bytes().get(end) == Some(&b'.')
                && !text.as_bytes().get(end + 1).is_some_and(u8::is_ascii_digit);
            (Some(unit), end + usize::from(point))
        }
        _ => (None, from),
    }
}

/// Feet with their inches, metres with their centimetres, as one amount each; `comma` tells whether a comma may stand between.
pub(super) fn compounds<'a>(items: &[Item<'a>], comma: bool) -> Vec<Item<'a>> {
    let mut joined: Vec<Item<'a>> = Vec::with_capacity(items.len());
    let mut at = 0;
    while let Some(item) = items.get(at) {
        at += 1;
        let Item::Amount(mut whole) = item.clone() else {
            joined.push(item.clone());
            continue;
        };
        if let Some(unit) = whole.unit {
            let between = match items.get(at) {
                Some(Item::Mark('-')) if unit.symbol == "ft" => 1,
                Some(Item::Mark(',')) if comma => 1,
                Some(Item::Word(word)) if word == "and" => 1,
                Some(Item::Mark('&')) => 1,
                _ => 0,
            };
            let last = items.len() == at + between + 1;
            if let Some(Item::Amount(part)) = items.get(at + between) {
                let smaller = match part.unit {
                    Some(smaller) => Some(smaller),
                    None if unit.symbol == "ft" && last && between == 0 => unit::by_symbol("in"),
                    // `2 m 40`: two figures after the meters are centimeters.
                    None if unit.symbol == "m" && last && between == 0 && part.end - part.start == 2 => {
                        unit::by_symbol("cm")
                    }
                    None => None,
                };
                if let Some(smaller) = smaller.filter(|smaller| smaller.factor < unit.factor)
                    && part.value * smaller.factor < unit.factor
                {
                    whole.value += part.value * smaller.factor / unit.factor;
                    whole.end = part.end;
                    whole.compound = true;
                    at += between + 1;
                }
            }
        }
        joined.push(Item::Amount(whole));
    }
    joined
}

/// Words after a number that make it a count of something else than a length.
const OTHER: &[&str] = &[
    "gpm", "igpm", "usgpm", "kpa", "bar", "gph", "gpd", "lpm", "lps", "l", "gal", "gals", "gallon", "gallons", "us",
    "hp", "psi", "hr", "hrs", "hour", "hours", "h", "min", "mins", "minutes", "day", "days", "yr", "yrs", "year",
    "years", "deg", "c", "f", "ppm", "mg", "st", "nd", "rd", "th", "people", "users", "houses", "homes", "families",
    "bags", "joints",
];

/// Words before a number that make it a name.
const NAMES: &[&str] = &["no", "nr", "num", "number", "tag", "permit", "id", "well", "lot", "page", "log", "report"];

const MONTHS: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// The amounts that could be a length: not years, dates, numbers of permits, rates or counts.
pub(super) fn lengths<'i>(items: &'i [Item<'_>]) -> impl Iterator<Item = Amount> + 'i {
    (0..items.len()).filter_map(|at| items[at].amount().filter(|amount| amount.unit.is_some() || !excused(items, at)))
}

/// Whether a number without a unit is a year.
pub(super) fn is_year(amount: &Amount) -> bool {
    let four = amount.end - amount.start == 4 && amount.value.fract() == 0.0;
    amount.unit.is_none() && four && (1850.0..2100.0).contains(&amount.value)
}

fn excused(items: &[Item<'_>], at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|before| items.get(before));
    let after = items.get(at + 1);
    let year = items[at].amount().is_some_and(|amount| is_year(&amount));
    let month = |item: Option<&Item<'_>>| {
        item.and_then(Item::word).is_some_and(|word| word.get(..3).is_some_and(|start| MONTHS.contains(&start)))
    };
    let among =
        |item: Option<&Item<'_>>, words: &[&str]| item.and_then(Item::word).is_some_and(|word| words.contains(&word));
    year || month(before)
        || month(after)
        || before.is_some_and(|item| item.is('#'))
        || after.is_some_and(|item| item.is('%'))
        || among(before, NAMES)
        || among(after, OTHER)
        || in_date(items, at)
}

/// `6/12/03`: three numbers with the same mark between them.
fn in_date(items: &[Item<'_>], at: usize) -> bool {
    let triple = |from: usize| {
        let number = |at: usize| items.get(at).and_then(Item::amount).is_some_and(|amount| amount.unit.is_none());
        let mark = |at: usize| items.get(at).is_some_and(|item| item.is('/') || item.is('-'));
        number(from) && mark(from + 1) && number(from + 2) && mark(from + 3) && number(from + 4)
    };
    [0, 2, 4].iter().any(|back| at.checked_sub(*back).is_some_and(triple))
}
