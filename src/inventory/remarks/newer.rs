//! Whether what a remark gives is later than the cells: it says so outright, was measured once more, or tells the day.

use super::lengths::Reader;
use super::units::is_day_number;
use super::words::{ANEW, DAYS, MONTHS, ONCE_MORE, OUTRIGHT, SEASONS, TAKEN, Way, anchor};
use crate::inventory::phrases::Token;

/// A date with an older year tells nothing of what is later: the list may have been filled in since. Common practice, no source.
const RECENT_YEAR: f64 = 2015.0;

/// Whether a level is told with a deepening or a new well, and nothing else says that it is later than the cell.
pub fn with_the_change_alone(tokens: &[Token]) -> bool {
    let reader = Reader::of(tokens);
    reader.changed_well() && !(reader.taken_anew() || reader.dated() || reader.outright())
}

impl Reader<'_> {
    fn says_at(&self, phrase: &[&str], at: usize) -> bool {
        phrase.iter().enumerate().all(|(nth, word)| self.word(at + nth) == *word)
    }

    /// Whether the remark says that its number counts: `USE THIS`, `not yet in column`.
    pub(super) fn outright(&self) -> bool {
        /// What else may be used: `use this gate`.
        const OTHER: [&str; 14] = [
            "well", "pump", "road", "gate", "door", "key", "drive", "driveway", "entrance", "number", "phone",
            "address", "hydrant", "spigot",
        ];
        const NOT: [&str; 6] = ["not", "don't", "dont", "never", "no", "can't"];
        (0..self.tokens.len()).any(|at| {
            OUTRIGHT.iter().any(|phrase| {
                self.says_at(phrase, at)
                    && !OTHER.contains(&self.word(at + phrase.len()))
                    && !self.has(&NOT, at.saturating_sub(2), at)
            })
        })
    }

    /// Whether the remark says that something was measured once more.
    pub(super) fn taken_anew(&self) -> bool {
        (0..self.tokens.len()).any(|at| {
            let word = self.word(at);
            let behind = |by: usize| at.checked_sub(by).map_or("", |at| self.word(at));
            ANEW.contains(&word)
                || TAKEN.contains(&word)
                    && (behind(1) == "-" && behind(2) == "re" || self.has(ONCE_MORE, at + 1, at + 4))
        })
    }

    /// Whether the remark tells a day or a season of now: `this April`, `on 4/23`, `MEASURED 20240408`. A year alone is none.
    pub(super) fn dated(&self) -> bool {
        const THIS: [&str; 8] = ["this", "last", "este", "esta", "ce", "cette", "deste", "desta"];
        const WEEKS: [&str; 8] = ["week", "month", "semana", "mes", "semaine", "mois", "morning", "afternoon"];
        let number = |at: usize| self.tokens.get(at).and_then(|token| token.number);
        let mark = |at: usize| matches!(self.word(at), "/" | "-" | ".");
        let old = |year: f64| {
            let full = if year < 100.0 { year + if year <= 50.0 { 2000.0 } else { 1900.0 } } else { year };
            full < RECENT_YEAR
        };
        (0..self.tokens.len()).any(|at| {
            let word = self.word(at);
            let this = at > 0 && THIS.contains(&self.word(at - 1));
            if DAYS.contains(&word) || this && (WEEKS.contains(&word) || SEASONS.contains(&word)) {
                return true;
            }
            // `revu le 14 :`, `medido el 3:`
            let day_of_month = || number(at + 1).is_some_and(|day| (1.0..=31.0).contains(&day) && day.fract() == 0.0);
            if ["le", "el"].contains(&word) && matches!(self.word(at + 2), ":" | ",") && day_of_month() {
                return true;
            }
            let Some(first) = number(at) else {
                // `this April`, `April 12`, `12 avril`
                let near =
                    [at.wrapping_sub(1), at + 1].into_iter().filter_map(number).find(|day| (1.0..=31.0).contains(day));
                let year = [at + 1, at + 2, at + 3]
                    .into_iter()
                    .filter_map(number)
                    .find(|year| (1900.0..2051.0).contains(year));
                // `measured Aug`
                let taken = at > 0 && TAKEN.contains(&self.word(at - 1)) && word != "may";
                return MONTHS.contains(&word) && (this || taken || near.is_some()) && !year.is_some_and(old);
            };
            if is_day_number(first) {
                return !old((first / 10_000.0).floor());
            }
            // `4/23`, `5/6/24`, `12-05-2024`
            let slash = self.word(at + 1) == "/";
            let glued =
                |at: usize| self.tokens.get(at + 1).is_some_and(|next: &Token| next.start == self.tokens[at].end);
            let (Some(second), true) = (number(at + 2), mark(at + 1) && glued(at) && glued(at + 1)) else {
                return false;
            };
            let day = (1.0..=31.0).contains(&first) && (1.0..=31.0).contains(&second) && first.min(second) <= 12.0;
            match number(at + 4).filter(|_| mark(at + 3) && glued(at + 2) && glued(at + 3)) {
                Some(year) => day && !old(year),
                None => day && slash && first.fract() == 0.0 && second.fract() == 0.0,
            }
        })
    }

    /// Whether it tells of a deepening, or of a new well: its other measures are those of the well as it is since then.
    pub(super) fn changed_well(&self) -> bool {
        (0..self.tokens.len()).any(|at| {
            anchor(self.word(at)) == Some(Way::Deeper)
                || self.word(at) == "drilled" && at >= 2 && self.word(at - 2) == "re"
                || self.new_well(at)
        })
    }

    /// `new well drilled`, `drilled new well`, `pozo nuevo`, at the word of the well.
    pub(super) fn new_well(&self, at: usize) -> bool {
        const WELL: [&str; 9] = ["well", "hole", "bore", "borehole", "pozo", "sondeo", "puits", "forage", "poco"];
        const NEW: [&str; 6] = ["new", "nuevo", "nouveau", "nouvel", "novo", "neuf"];
        const MADE: [&str; 20] = [
            "drilled",
            "dug",
            "bored",
            "drove",
            "driven",
            "put",
            "made",
            "built",
            "have",
            "has",
            "had",
            "now",
            "perforado",
            "perforaron",
            "excavado",
            "hizo",
            "hicieron",
            "fore",
            "creuse",
            "perfurado",
        ];
        WELL.contains(&self.word(at))
            && (at > 0 && NEW.contains(&self.word(at - 1)) || NEW.contains(&self.word(at + 1)))
            && self.has(&MADE, at.saturating_sub(4), at + 4)
    }
}
