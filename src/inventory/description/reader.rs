//! The words of a description, clause by clause, with the numbers in them that are lengths.

use super::lengths::{Group, Length};
use super::words::{AFTER, Label, NOT_LENGTHS, TIMES_OF_YEAR, UNSURE, in_table};
use crate::inventory::phrases::Token;
use crate::inventory::remarks;
use crate::quantity::parse::{self, Comma, Size, Sort};

pub(super) struct Reader<'a> {
    pub(super) text: &'a str,
    pub(super) tokens: &'a [Token],
    /// Bytes that a remark about a later fact takes up.
    pub(super) told: &'a [(usize, usize)],
}

impl<'a> Reader<'a> {
    pub(super) fn word(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| token.word.as_str())
    }

    pub(super) fn has(&self, words: &[&str], from: usize, to: usize) -> bool {
        (from..to).any(|at| words.contains(&self.word(at)))
    }

    /// The text of some tokens.
    pub(super) fn slice(&self, from: usize, to: usize) -> &'a str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) if from < to => self.text.get(first.start..last.end).unwrap_or_default(),
            _ => "",
        }
    }

    /// A number as it is written.
    pub(super) fn of(&self, length: &Length) -> &'a str {
        self.slice(length.at, length.end)
    }

    /// The numbers of a group as they are written.
    pub(super) fn all_of(&self, group: &Group) -> &'a str {
        self.slice(group.first().at, group.behind())
    }

    pub(super) fn glued(&self, at: usize) -> bool {
        self.tokens.get(at).zip(self.tokens.get(at + 1)).is_some_and(|(one, other)| one.end == other.start)
    }

    /// First token and the one behind the last of each clause.
    pub(super) fn clauses(&self) -> Vec<(usize, usize)> {
        let mut clauses = Vec::new();
        let mut from = 0;
        for (at, token) in self.tokens.iter().enumerate() {
            let mark = matches!(token.word.as_str(), "-" | "–" | "—" | "/" | "|");
            let apart = mark && at > 0 && !self.glued(at - 1) && !self.glued(at);
            if token.ends || token.word == "," || apart {
                clauses.push((from, at));
                from = at + 1;
            }
        }
        clauses.push((from, self.tokens.len()));
        clauses.retain(|(from, to)| from < to);
        clauses
    }

    /// The words of a clause that say that the water stands at the ground, where they do.
    pub(super) fn full(&self, from: usize, to: usize) -> Option<&'a str> {
        let says = |at: &usize| parse::FULL_WORDS.contains(&self.word(*at));
        let first = (from..to).find(says)?;
        let last = (from..to).rev().find(says)?;
        if self.has(&UNSURE, from, first) {
            return None;
        }
        // The longest run of words that holds one of them.
        (from..=last).find_map(|start| {
            (first.max(start) + 1..=to).rev().find_map(|end| {
                let words = self.slice(start, end);
                let numbers = (start..end).any(|at| self.tokens[at].number.is_some());
                (!numbers && matches!(parse::size(words, Sort::Level, None, Comma::ByForm), Ok(Size::Full { .. })))
                    .then_some(words)
            })
        })
    }

    /// The number that begins at a token, with its unit.
    pub(super) fn length(&self, at: usize) -> Option<Length> {
        let value = self.tokens.get(at)?.number?;
        let mut end = at + 1;
        let gap = usize::from(matches!(self.word(end), "." | "-"));
        let behind = end + gap + 1;
        // `in` before a time is no inch, and `m3` is no length.
        let timed = self.word(end + gap) == "in"
            && (TIMES_OF_YEAR.contains(&self.word(behind))
                || self.tokens.get(behind).and_then(|token| token.number).is_some_and(remarks::is_year));
        let cubic = self.glued(end + gap) && self.word(behind) == "3" || self.word(behind) == "³";
        let unit = unit_of(self.word(end + gap)).filter(|_| !timed && !cubic);
        if unit.is_some() {
            end += gap + 1;
            end += usize::from(self.word(end) == "." && self.glued(end - 1));
        }
        // `31 ft 4 in` is one length; in `62' 6" csg` the inches are the casing's.
        let inches = self.tokens.get(end).and_then(|token| token.number).is_some_and(|inches| inches < 12.0);
        if unit == Some("ft") && inches && unit_of(self.word(end + 1)) == Some("in") {
            let after = in_table(&AFTER, self.word(end + 2));
            let of_pipe = matches!(after, Some(Label::Width | Label::Made));
            if self.glued(end - 1) || !of_pipe {
                end += 2;
            }
        }
        Some(Length { at, end, value, unit })
    }

    /// Whether a number counts something that is no length.
    pub(super) fn counts_other(&self, length: &Length) -> bool {
        let token = &self.tokens[length.at];
        let before = length.at.checked_sub(1).map(|at| &self.tokens[at]);
        let told = self.told.iter().any(|(from, to)| (*from..*to).contains(&token.start));
        let after = self.word(length.end);
        let counts = counts_other(after) || after == "/" && self.glued(length.at);
        let cubic = unit_of(after) == Some("m");
        let year = remarks::is_year(length.value) || token.word.len() == 2 && token.word.starts_with('0');
        // `in 72`, `'04`: a year; `555-0142`: a telephone.
        let short_year = token.word.len() == 2 && before.is_some_and(|before| before.word == "in");
        let telephone = token.word.len() == 4
            && before.is_some_and(|before| before.word == "-" && before.end == token.start)
            || token.word.len() == 3
                && after == "-"
                && self.glued(length.at)
                && self.tokens.get(length.end + 1).is_some_and(|token| token.word.len() == 4 && token.number.is_some());
        told || length.unit.is_none() && (counts || cubic || year || short_year || telephone)
            || before.is_some_and(|before| {
                remarks::is_numbering(&before.word)
                    || before.end == token.start && (before.is_word() && before.word != "x" || before.word == "/")
            })
    }
}

/// Whether what stands before this word is no length.
pub(super) fn counts_other(word: &str) -> bool {
    remarks::is_other_unit(word) || NOT_LENGTHS.contains(&word)
}

/// The symbol of the unit that a word is.
pub(super) fn unit_of(word: &str) -> Option<&'static str> {
    remarks::length_unit(word).map(|unit| unit.symbol)
}
