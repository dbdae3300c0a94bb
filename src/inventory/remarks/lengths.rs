//! The lengths that a remark writes, by the words around them.

use super::super::phrases::{Class, Phrases, Token};
use super::units::{is_day_number, is_length_unit, is_numbering, is_other_unit, is_year, length_unit};
use super::words::{ABOUT, BY, COUNTED_FROM, STOPS, TO, WATER};
use crate::quantity::unit::Unit;

/// A length as a remark writes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// The number: in metres where it has a unit, else as written.
    pub value: f64,
    /// Its unit; nothing where the remark has none.
    pub unit: Option<&'static Unit>,
}

/// What ties a number to what happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tie {
    /// It is so much now.
    To,
    /// It is so much more or less.
    By,
    /// No small word, but a unit of length.
    Unit,
    None,
}

/// A number found near an anchor.
#[derive(Debug, Clone, Copy)]
pub(super) struct Near {
    pub(super) written: Written,
    pub(super) tie: Tie,
    pub(super) end: usize,
}

/// A remark that is read from word to word.
pub(super) struct Reader<'a> {
    pub(super) phrases: &'static Phrases,
    pub(super) tokens: &'a [Token],
}

impl<'a> Reader<'a> {
    pub(super) fn of(tokens: &'a [Token]) -> Self {
        Self { phrases: Phrases::all(), tokens }
    }
}

impl Reader<'_> {
    pub(super) fn word(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| token.word.as_str())
    }

    /// First token of the sentence, and the one behind its last.
    pub(super) fn sentence(&self, at: usize) -> (usize, usize) {
        let ends = |at: &usize| self.tokens[*at].ends;
        let first = (0..at).rev().find(ends).map_or(0, |at| at + 1);
        let last = (at..self.tokens.len()).find(ends).unwrap_or(self.tokens.len());
        (first, last)
    }

    pub(super) fn has(&self, words: &[&str], from: usize, to: usize) -> bool {
        (from..to).any(|at| words.contains(&self.word(at)))
    }

    pub(super) fn class_within(&self, class: Class, from: usize, to: usize) -> bool {
        (from..to).any(|at| self.phrases.class_at(&self.tokens[..to], at, class).is_some())
    }

    /// Every length of the remark, each with where it begins and ends; nothing where there is a number of something else.
    pub(super) fn lengths(&self) -> Option<Vec<(Written, usize, usize)>> {
        let mut found = Vec::new();
        let mut at = 0;
        while at < self.tokens.len() {
            match self.length(at) {
                Some((written, end)) => {
                    found.push((written, at, end));
                    at = end.max(at + 1);
                }
                None if self.tokens[at].number.is_some() => return None,
                None => at += 1,
            }
        }
        Some(found)
    }

    /// A length that begins at a token, and the token behind it; nothing where the number counts something else.
    pub(super) fn length(&self, at: usize) -> Option<(Written, usize)> {
        let number = self.tokens.get(at)?.number?;
        let glued = |at: usize| at > 0 && self.tokens[at - 1].end == self.tokens[at].start;
        let before = at.checked_sub(1).map_or("", |at| self.word(at));
        if is_numbering(before) || before == "/" && glued(at) || self.word(at + 1) == "/" && glued(at + 1) {
            return None;
        }
        // `555-0147`, `100-120`: a telephone number, a stretch.
        let ranged = |at: usize| at < self.tokens.len() && matches!(self.word(at), "-" | "–");
        if ranged(at + 1) && self.tokens.get(at + 2).is_some_and(|token| token.number.is_some())
            // `deeper 2010 - 260 ft` is a year and a depth.
            || at >= 2 && ranged(at - 1) && self.tokens[at - 2].number.is_some_and(|before| !is_year(before))
        {
            return None;
        }
        let mut next = at + 1;
        if matches!(self.word(next), "." | "-") && is_length_unit(self.tokens.get(next + 1)) {
            next += 1;
        }
        let Some(unit) = length_unit(self.word(next)) else {
            if is_other_unit(self.word(next)) || is_year(number) || is_day_number(number) {
                return None;
            }
            return Some((Written { value: number, unit: None }, at + 1));
        };
        // `in` behind a number is an inch only where it does not begin `in 1994`, `in the`.
        if self.word(next) == "in"
            && (self.tokens.get(next + 1).is_some_and(|token| token.number.is_some())
                || self.word(next + 1) == "'" && self.tokens.get(next + 2).is_some_and(|token| token.number.is_some())
                // Nobody tells a depth of so many inches: `131 in June`, `265 in fall of 2009`.
                || number >= 48.0 && self.tokens.get(next + 1).is_some_and(Token::is_word)
                || ["the", "a", "depth", "bottom", "well"].contains(&self.word(next + 1)))
        {
            return Some((Written { value: number, unit: None }, next));
        }
        let mut end = next + 1;
        if self.word(end) == "." {
            end += 1;
        }
        let mut value = unit.to_si(number);
        if unit.symbol == "ft"
            && let Some(inches) = self.tokens.get(end).and_then(|token| token.number).filter(|inches| *inches < 12.0)
            && let Some(inch) = length_unit(self.word(end + 1)).filter(|unit| unit.symbol == "in")
        {
            value += inch.to_si(inches);
            end += 2;
        }
        Some((Written { value, unit: Some(unit) }, end))
    }

    /// The word that ties a number to what happened.
    pub(super) fn tie(&self, at: usize, written: &Written) -> Tie {
        let mut before = at;
        while before > 0
            && ABOUT.contains(&self.word(before - 1))
            && !(TO.contains(&self.word(before - 1)) && before == at)
        {
            before -= 1;
        }
        let word = before.checked_sub(1).map_or("", |at| self.word(at));
        let near = at.checked_sub(1).map_or("", |at| self.word(at));
        if TO.contains(&word) || TO.contains(&near) {
            Tie::To
        } else if BY.contains(&word) || BY.contains(&near) {
            Tie::By
        } else if written.unit.is_some() {
            Tie::Unit
        } else {
            Tie::None
        }
    }

    /// The numbers behind an anchor, up to the end of the sentence or to a word about something else.
    pub(super) fn behind(&self, at: usize) -> Vec<Near> {
        let (_, last) = self.sentence(at);
        let mut found = Vec::new();
        let mut next = at + 1;
        while next < last.min(at + 14) {
            if STOPS.contains(&self.word(next)) {
                break;
            }
            match self.length(next) {
                Some((written, end)) => {
                    // `from 120 to 240`
                    // `ahora columna de 4,5 m` is how high the water stands.
                    // `128 ft of water`
                    let height = self.has(&["columna", "coluna", "colonne", "column"], next.saturating_sub(2), next)
                        || ["of", "de"].contains(&self.word(end)) && WATER.contains(&self.word(end + 1))
                        || self.word(end) == "d'eau";
                    if height {
                        next = end.max(next + 1);
                        continue;
                    }
                    if !["from", "desde", "originally", "was", "before", "antes", "avant"]
                        .contains(&self.word(next - 1))
                    {
                        let tie = match self.tie(next, &written) {
                            // `29.5 BLS`
                            Tie::None if COUNTED_FROM.contains(&self.word(end)) => Tie::Unit,
                            tie => tie,
                        };
                        found.push(Near { written, tie, end });
                    }
                    next = end.max(next + 1);
                }
                None => next += 1,
            }
        }
        found
    }

    /// The length right before a token: `143 ft deep`, `5 ft of sand`.
    pub(super) fn before(&self, at: usize) -> Option<(Written, usize)> {
        let (first, _) = self.sentence(at);
        let mut end = at;
        while end > first && ["of", "de", "d'"].contains(&self.word(end - 1)) {
            end -= 1;
        }
        (first.max(end.saturating_sub(5))..end).find_map(|from| {
            let (written, stop) = self.length(from)?;
            (stop == end).then_some((written, from))
        })
    }
}
