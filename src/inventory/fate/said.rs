//! What a telling phrase is said of, and what takes its force, by the words around it.

use std::ops::Range;

use super::Role;
use crate::inventory::phrases::{Class, Found, Phrases, Token};
use crate::inventory::remarks::{is_length_unit, is_year};

/// Words that end what a word is said of, beside the marks that do.
const TURNS: [&str; 8] = ["but", "mais", "pero", "mas", "while", "whereas", "although", "however"];

/// A telling phrase with its surroundings.
pub(super) struct Said<'a> {
    pub(super) phrases: &'a Phrases,
    pub(super) tokens: &'a [Token],
    pub(super) found: Found,
    pub(super) role: Role,
}

/// What a word is said of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Subject {
    Well,
    OtherWell,
    Part,
    /// Nothing is named: the row itself.
    None,
    /// Something that is not known.
    Unclear,
}

impl Said<'_> {
    pub(super) fn is(&self, at: usize, class: Class) -> bool {
        self.phrases.is(&self.tokens[at], class)
    }

    fn breaks(&self, at: usize) -> bool {
        let token = &self.tokens[at];
        let apart = || {
            let gap = |one: Option<&Token>, other: Option<&Token>| {
                one.zip(other).is_none_or(|(one, other)| one.end < other.start)
            };
            let before = at.checked_sub(1).and_then(|at| self.tokens.get(at));
            gap(before, Some(token)) && gap(Some(token), self.tokens.get(at + 1))
        };
        token.ends
            || token.word == "-" && apart()
            || matches!(token.word.as_str(), "," | ":" | "–" | "—")
            || TURNS.contains(&token.word.as_str())
    }

    /// First token of the clause, and the one behind its last.
    pub(super) fn clause(&self) -> (usize, usize) {
        let Range { start: first, .. } = self.clause_before(self.found.at);
        let last = (self.found.end..self.tokens.len()).find(|at| self.breaks(*at)).unwrap_or(self.tokens.len());
        (first, last)
    }

    /// The tokens of the clause that ends before the token `end`.
    fn clause_before(&self, end: usize) -> Range<usize> {
        (0..end).rev().find(|at| self.breaks(*at)).map_or(0, |at| at + 1)..end
    }

    pub(super) fn has_before(&self, class: Class, within: usize) -> bool {
        let (first, _) = self.clause();
        let from = first.max(self.found.at.saturating_sub(within));
        (from..self.found.at).any(|at| self.phrases.class_at(&self.tokens[..self.found.at], at, class).is_some())
    }

    /// Whether somebody only thinks so.
    pub(super) fn hedged(&self) -> bool {
        let (_, last) = self.clause();
        self.has_before(Class::Hedge, usize::MAX)
            || self.tokens.get(last).is_some_and(|token| token.word == "?")
            || (self.found.end..last).any(|at| self.is(at, Class::Hedge))
    }

    /// Whether the cell says this and nothing else: the rest are years, numbers, and words that change nothing.
    pub(super) fn whole(&self) -> bool {
        self.alone_in(0, self.tokens.len())
    }

    /// The same of the tokens from `first` to before `last`.
    pub(super) fn alone_in(&self, first: usize, last: usize) -> bool {
        (first..last).all(|at| {
            (self.found.at..self.found.end).contains(&at) || !self.tokens[at].is_word() || self.is(at, Class::Filler)
        })
    }

    /// Whether the clause says that the row itself is it: `MONITORING WELL.`, `monitor well for the landfill`, `this is a
    /// monitoring well of the fuel station`; `monitoring well next door` is another.
    pub(super) fn is_the_row(&self) -> bool {
        let (first, last) = self.clause();
        let word = |at: usize| self.tokens.get(at).map_or("", |token| token.word.as_str());
        let belongs = ["for", "of", "only", "de", "du", "des", "del", "da", "do"].contains(&word(self.found.end));
        let said = |at: usize| {
            ["this", "it", "well", "row", "point", "hole"].contains(&word(at)) && ["is", "was"].contains(&word(at + 1))
        };
        self.alone_in(first, last)
            || self.found.at == first && belongs
            || (first..self.found.at).any(said) && !self.has_before(Class::Negation, usize::MAX)
    }

    /// Whether nothing but numbers and empty words follow.
    pub(super) fn ends_text(&self) -> bool {
        (self.found.end..self.tokens.len())
            .all(|at| !self.tokens[at].is_word() || self.tokens[at].word.len() == 1 || self.is(at, Class::Filler))
    }

    /// Whether the text begins with it, and what follows changes nothing.
    pub(super) fn starts_text(&self) -> bool {
        self.found.at == 0
            && (self.found.end..self.tokens.len()).all(|at| {
                !self.tokens[at].is_word()
                    || self.tokens[at].word.len() == 1
                    || self.is(at, Class::Filler)
                    || self.is(at, Class::Band)
            })
    }

    /// What the word is said of: the nearest thing before it, or the one right behind it.
    pub(super) fn subject(&self) -> Subject {
        let (first, last) = self.clause();
        let mut behind = self.found.end;
        while behind < last
            && (self.tokens[behind].word == "-" || matches!(self.tokens[behind].word.as_str(), "the" | "a" | "an"))
        {
            behind += 1;
        }
        if behind < last {
            if self.is(behind, Class::Other) && (behind + 1..last.min(behind + 4)).any(|at| self.is(at, Class::Well)) {
                return Subject::OtherWell;
            }
            // `replaced pressure switch`: what was replaced may have a word of its own before it.
            let named =
                self.found.class == Class::ReplacedState && behind + 1 < last && self.is(behind + 1, Class::Part);
            if self.is(behind, Class::Part) || named {
                return Subject::Part;
            }
            if self.is(behind, Class::Well) {
                let part = behind + 1 < last && self.is(behind + 1, Class::Part);
                return if part { Subject::Part } else { Subject::Well };
            }
        }
        for at in (first..self.found.at).rev() {
            if self.is(at, Class::Part) {
                return Subject::Part;
            }
            if self.is(at, Class::Well) {
                let other = (first..at).rev().take(3).any(|before| self.is(before, Class::Other));
                return if other { Subject::OtherWell } else { Subject::Well };
            }
        }
        let bare = (first..self.found.at).all(|at| self.is(at, Class::Filler) || !self.tokens[at].is_word());
        // `cap cracked - replaced 6/19`: what was cracked was replaced.
        if bare && self.found.class == Class::ReplacedState && self.part_before(first) {
            return Subject::Part;
        }
        // `4" liner full length, sealed`: the liner was.
        if bare && self.found.class == Class::GoneState && self.liner_before(first) {
            return Subject::Part;
        }
        if bare { Subject::None } else { Subject::Unclear }
    }

    /// Whether the clause before this one speaks of a part and of no well.
    fn part_before(&self, first: usize) -> bool {
        let Some(end) = first.checked_sub(1) else { return false };
        let named = |at: &usize| self.is(*at, Class::Part) || self.is(*at, Class::Well);
        self.clause_before(end).rev().find(named).is_some_and(|at| self.is(at, Class::Part))
    }

    /// Whether the clause before this one speaks of a pipe that was set into the well.
    fn liner_before(&self, first: usize) -> bool {
        const LINERS: [&str; 6] = ["liner", "lined", "relined", "sleeve", "sleeved", "forro"];
        let Some(end) = first.checked_sub(1) else { return false };
        self.tokens[self.clause_before(end)].iter().any(|token| LINERS.contains(&token.word.as_str()))
    }

    /// Whether the clause before it is about another well, and this one says nothing but what became of that: `replaces old
    /// dug well, filled`.
    pub(super) fn goes_on_with_another(&self) -> bool {
        const OTHERS: [&str; 4] = ["replaces", "remplace", "reemplaza", "substitui"];
        let (first, last) = self.clause();
        let comma = first.checked_sub(1).filter(|at| self.tokens[*at].word == ",");
        let before = comma.map_or(0..0, |comma| self.clause_before(comma));
        let replaces = before.clone().any(|at| OTHERS.contains(&self.tokens[at].word.as_str()));
        replaces && before.into_iter().any(|at| self.is(at, Class::Well)) && self.alone_in(first, last)
    }

    /// Whether the text says that the water comes from a public supply now.
    pub(super) fn other_supply(&self) -> bool {
        const WHOSE: [&str; 9] =
            ["rural", "city", "town", "public", "district", "county", "municipal", "village", "township"];
        let supply = |pair: &[Token]| {
            WHOSE.contains(&pair[0].word.as_str()) && ["water", "supply", "main"].contains(&pair[1].word.as_str())
        };
        self.tokens.windows(2).any(supply) && !self.tokens.iter().any(|token| token.word == "new")
    }

    /// `cattle only`, `stock well only`.
    pub(super) fn waters_animals(&self) -> bool {
        const ANIMALS: [&str; 11] = [
            "stock",
            "livestock",
            "cattle",
            "animals",
            "horses",
            "barn",
            "betes",
            "animales",
            "ganado",
            "animais",
            "gado",
        ];
        self.tokens[self.found.at..self.found.end].iter().any(|token| ANIMALS.contains(&token.word.as_str()))
    }

    /// Whether the text says where the house has its water from instead.
    pub(super) fn house_has_other_water(&self) -> bool {
        const INSTEAD: [&str; 9] =
            ["cistern", "hauls", "hauled", "hauling", "bottled", "citerne", "aljibe", "cisterna", "acueducto"];
        self.other_supply() || self.tokens.iter().any(|token| INSTEAD.contains(&token.word.as_str()))
    }

    /// `replaced by well 14`, `by new drilled well`, `by W-12`.
    pub(super) fn by_a_well(&self) -> bool {
        let (_, last) = self.clause();
        (self.found.end..last.min(self.found.end + 6)).any(|at| {
            self.is(at, Class::Well)
                || self.tokens[at].number.is_some_and(|number| !is_year(number))
                || self.tokens[at].word == "new"
        }) || self.phrases.is(&self.tokens[self.found.end - 1], Class::Well)
            || self.tokens[self.found.end - 1].word == "drilled"
    }

    /// Whether it is said of something with a number: `#3 never drilled` in the row of another.
    pub(super) fn of_a_number(&self) -> bool {
        let word = |at: usize| self.tokens.get(at).map_or("", |token| token.word.as_str());
        self.found.at >= 2 && word(self.found.at - 2) == "#" && self.tokens[self.found.at - 1].number.is_some()
    }

    /// Whether a length follows: `sealed 20 ft of casing`, `filled to 60`; then the word is about a part of the hole.
    pub(super) fn with_length(&self) -> bool {
        let (_, last) = self.clause();
        let last = last.min(self.found.end + 7);
        (self.found.end..last).any(|at| {
            let token = &self.tokens[at];
            let Some(number) = token.number else { return false };
            let bags =
                ["bags", "sacks", "bag", "sack"].contains(&self.tokens.get(at + 1).map_or("", |token| &token.word));
            if bags || is_length_unit(self.tokens.get(at + 1)) {
                return true;
            }
            let before = self.tokens[at - 1].word.as_str();
            !is_year(number)
                && matches!(
                    before,
                    "to" | "back" | "from" | "at" | "hasta" | "ate" | "a" | "jusqu'a" | "para" | "top" | "-" | "of"
                )
        })
    }

    /// Whether it happened to a part of the well alone: `filled in some`, `partly filled`.
    pub(super) fn in_part(&self) -> bool {
        const PARTLY: [&str; 12] = [
            "some",
            "somewhat",
            "partly",
            "partially",
            "bit",
            "little",
            "part",
            "partway",
            "half",
            "halfway",
            "peu",
            "partiellement",
        ];
        let (first, last) = self.clause();
        let near = first.max(self.found.at.saturating_sub(2))..last.min(self.found.end + 2);
        near.into_iter().any(|at| PARTLY.contains(&self.tokens[at].word.as_str()))
    }

    /// Whether the text tells what is left of the hole: `aterrado, queda a 9,1 m de fondo`, `filled in, 40 ft left`.
    pub(super) fn leaves_some(&self) -> bool {
        const LEFT: [&str; 11] =
            ["queda", "quedan", "quedo", "reste", "restent", "fica", "ficou", "left", "remains", "remaining", "sobra"];
        let word = |at: usize| self.tokens.get(at).map_or("", |token| token.word.as_str());
        let number =
            |at: &usize| self.tokens.get(*at).is_some_and(|token| token.number.is_some_and(|one| !is_year(one)));
        (self.found.end..self.tokens.len())
            .any(|at| LEFT.contains(&word(at)) && (at.saturating_sub(3)..at + 5).any(|near| number(&near)))
    }

    /// Whether the clause says this and nothing else.
    pub(super) fn is_a_clause(&self) -> bool {
        let (first, last) = self.clause();
        self.alone_in(first, last)
    }

    /// Whether a year follows, or who did it: `sealed 1998`, `sealed by the county`.
    pub(super) fn year_behind(&self) -> bool {
        let (_, last) = self.clause();
        (self.found.end..last.min(self.found.end + 5)).any(|at| {
            self.tokens[at].number.is_some_and(is_year) || matches!(self.tokens[at].word.as_str(), "by" | "par" | "por")
        })
    }
}
