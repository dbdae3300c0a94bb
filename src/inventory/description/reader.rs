//! The numbers of a description, each with what the words beside it say that it is of.

use super::words::{
    AFTER, AFTER_TOGETHER, ARTICLES, AT, BEFORE, DRIVEN, FROM_BELOW, HIGH, JOINS, LINING, Label, NOT_LENGTHS, OUTSIDE,
    PUMPS, RIMS, STANDS, TAPED, TELLS, TIMES, TIMES_OF_YEAR, UNSURE, UNTIL, WATER,
};
use crate::inventory::phrases::Token;
use crate::inventory::remarks;
use crate::quantity::parse::{self, Comma, Size, Sort};

/// A number with its unit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Length {
    /// Its first token.
    pub(super) at: usize,
    /// The token behind its last.
    pub(super) end: usize,
    pub(super) value: f64,
    pub(super) unit: Option<&'static str>,
}

impl Length {
    pub(super) fn is_across(&self) -> bool {
        matches!(self.unit, Some("in" | "mm" | "cm"))
    }
}

/// Numbers of one measure, with what they are of.
#[derive(Debug, Clone)]
pub(super) struct Group {
    pub(super) lengths: Vec<Length>,
    /// How deep a width reaches.
    pub(super) until: Option<Length>,
    pub(super) label: Option<Label>,
    /// The token behind the words that belong to it.
    pub(super) end: usize,
    /// Whether its clause has a word of casing.
    pub(super) cased: bool,
    /// Whether its clause has other words.
    pub(super) in_words: bool,
    /// Whether a lone `W` stands before it: water, where the width is told otherwise.
    pub(super) after_w: bool,
}

impl Group {
    pub(super) fn first(&self) -> &Length {
        &self.lengths[0]
    }

    /// Takes one number more of the same measure.
    fn join(&mut self, length: Length) {
        self.lengths.push(length);
        self.end = length.end;
    }

    /// Is a width that reaches so deep.
    fn reach(&mut self, length: Length) {
        self.until = Some(length);
        self.label = Some(Label::Width);
        self.end = length.end;
    }

    /// The token behind its last number.
    pub(super) fn behind(&self) -> usize {
        self.lengths.last().map_or(0, |length| length.end)
    }

    /// Whether it is one number with feet or meters.
    pub(super) fn is_long(&self) -> bool {
        self.lengths.len() == 1 && matches!(self.first().unit, Some("ft" | "m"))
    }

    /// Whether no unit is written.
    pub(super) fn is_bare(&self) -> bool {
        self.lengths.iter().all(|length| length.unit.is_none())
    }
}

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

    fn has(&self, words: &[&str], from: usize, to: usize) -> bool {
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

    /// A level with what it is counted from; a height as the reader of cells knows it.
    pub(super) fn level(&self, group: &Group) -> String {
        if group.label == Some(Label::Height) {
            return format!("{} of water", self.all_of(group));
        }
        let to_water = (group.behind()..group.end).find(|at| self.label_after(*at, group.end) == Some(Label::Level));
        self.slice(group.first().at, to_water.unwrap_or(group.end)).replace(" off ", " from ")
    }

    fn glued(&self, at: usize) -> bool {
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
    fn length(&self, at: usize) -> Option<Length> {
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
    fn counts_other(&self, length: &Length) -> bool {
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

    /// The numbers of a clause, those of one measure together, each group with what it is of.
    pub(super) fn groups(&self, from: usize, to: usize) -> Vec<Group> {
        let mut groups = self.strings(self.joined(from, to));
        let mut start = from;
        let other = |group: &Group| group.lengths.iter().all(|length| self.counts_other(length));
        let counts = groups.iter().any(other);
        for at in 0..groups.len() {
            let next = groups.get(at + 1).map_or(to, |next| next.first().at);
            let (first, last) = (groups[at].first().at, groups[at].end);
            let begins = start;
            let before = self.label_before(start, first);
            let cut = if at + 1 < groups.len() { self.cut(last, next, before.is_some()) } else { next };
            let group = &mut groups[at];
            group.end = cut;
            group.cased = self.has(&LINING, from, to);
            let told = first > from && TELLS.contains(&self.word(first - 1));
            group.in_words =
                !told && (from..to).any(|at| self.tokens[at].is_word() && unit_of(self.word(at)).is_none());
            group.after_w = first > from && self.stands_for_water(from, first);
            start = cut;
            if other(group) {
                group.label = Some(Label::Aside);
            } else if group.label.is_none() {
                let at_something = counts && first > from && AT.contains(&self.word(first - 1));
                group.label = self.label(group, before, (last, cut));
                if group.label.is_none() && (at_something || self.has(&OUTSIDE, begins, cut)) {
                    group.label = Some(Label::Aside);
                }
            }
        }
        groups
    }

    /// The numbers of a clause, those that a word or a sign joins together.
    fn joined(&self, from: usize, to: usize) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        let mut at = from;
        while at < to {
            let Some(length) = self.length(at) else {
                at += 1;
                continue;
            };
            at = length.end.max(at + 1);
            let single = Group {
                lengths: vec![length],
                until: None,
                label: None,
                end: length.end,
                cased: false,
                in_words: false,
                after_w: false,
            };
            let Some(group) = groups.last_mut() else {
                groups.push(single);
                continue;
            };
            let last = group.until.unwrap_or(group.lengths[group.lengths.len() - 1]);
            let between: Vec<&str> =
                (last.end..length.at).map(|at| self.word(at)).filter(|word| *word != ".").collect();
            let counted = self.counts_other(&last) || self.counts_other(&length);
            let reaches = between.split_last().is_some_and(|(until, others)| {
                UNTIL.contains(until)
                    && others.iter().all(|word| LINING.contains(word) || ["on", "down"].contains(word))
            });
            let downward = last.is_across() && !length.is_across();
            match between.as_slice() {
                // `6 in to 40 ft`
                _ if reaches && group.lengths.len() == 1 && downward && !counted => group.reach(length),
                // `8 in from 75 to 390 ft`: the second number is how deep it reaches.
                ["to" | "a" | "-"] if group.until.is_some() && !counted => group.reach(length),
                ["from" | "de" | "des"] if downward && !counted => group.reach(length),
                [word] if JOINS.contains(word) && !counted => group.join(length),
                [word] if TIMES.contains(word) => {
                    group.label = Some(Label::Width);
                    if is_across_and_down(&last, &length) {
                        groups.push(Group { label: Some(Label::Depth), ..single });
                    } else {
                        group.join(length);
                    }
                }
                _ => groups.push(single),
            }
        }
        groups
    }

    /// `8" 0-40', 6" open hole 40-165'`: a stretch behind a width says how deep it reaches.
    fn strings(&self, groups: Vec<Group>) -> Vec<Group> {
        let mut found: Vec<Group> = Vec::with_capacity(groups.len());
        for group in groups {
            let stretch = group.lengths.len() == 2 && group.label.is_none() && self.word(group.lengths[0].end) == "-";
            if let Some(width) =
                found.last_mut().filter(|width| stretch && width.until.is_none() && width.first().is_across())
                && (width.end..group.first().at).all(|at| {
                    let word = self.word(at);
                    LINING.contains(&word) || ["open", "hole", "oh", "o", "h", ".", "from", ":"].contains(&word)
                })
            {
                width.reach(group.lengths[1]);
            } else {
                found.push(group);
            }
        }
        found
    }

    /// Where between two numbers the words of the second begin.
    fn cut(&self, from: usize, to: usize, labeled: bool) -> usize {
        let next_counts = self.length(to).is_some_and(|next| self.counts_other(&next));
        (from..to)
            .find(|at| {
                let Some(label) = in_table(&BEFORE, self.word(*at)) else { return false };
                // `130 feet of water`
                if *at > from && together(self.word(at - 1), self.word(*at)).is_some() {
                    return false;
                }
                // `142' swl 38`: of the second, unless it has its own word behind it.
                let next_end = self.length(to).map_or(to, |next| next.end);
                let named_behind = matches!(in_table(&AFTER, self.word(next_end)), Some(Label::Level | Label::Depth));
                let next_to = at + 1 == to && (*at > from || !named_behind);
                let stands_before = next_to || label == Label::Aside && !next_counts;
                let labeled = labeled || (from..*at).any(|at| self.label_after(at, to).is_some());
                labeled || stands_before || self.label_after(*at, to).is_none()
            })
            .unwrap_or(to)
    }

    /// Whether a lone `W`, `W/L` or `W.L.` stands before a number.
    fn stands_for_water(&self, from: usize, at: usize) -> bool {
        let mut before = (from..at).rev().map(|at| self.word(at)).filter(|word| !matches!(*word, "." | "/"));
        match before.next() {
            Some("w") => true,
            Some("l") => before.next() == Some("w"),
            _ => false,
        }
    }

    /// What the nearest word before a number says; `pumping level` is none of the well at rest.
    fn label_before(&self, from: usize, to: usize) -> Option<Label> {
        // `curb stands 2 ft high`: of the curb, where no water is spoken of.
        let high = self.has(&HIGH, to, to + 4);
        let stands = |word: &str| STANDS.contains(&word) || high && word == "is";
        let rim_stands = |at: usize| RIMS.contains(&self.word(at)) && stands(self.word(at + 1));
        if (from.saturating_sub(1)..to.saturating_sub(1)).any(rim_stands) && !self.has(&WATER, from, to) {
            return Some(Label::Rim);
        }
        let from = from.max(to.saturating_sub(4));
        let said = |at: usize| in_table(&BEFORE, self.word(at));
        let label = (from..to).rev().find_map(said)?;
        let also = |other: Label| (from..to).any(|at| said(at) == Some(other));
        Some(match label {
            Label::Level if also(Label::Aside) => Label::Aside,
            // `water comes up to 90 ft`
            Label::Rim if also(Label::Level) => Label::Level,
            label => label,
        })
    }

    /// What a word behind a number says.
    fn label_after(&self, at: usize, to: usize) -> Option<Label> {
        let second = (at + 1..to).map(|at| self.word(at)).find(|word| !ARTICLES.contains(word)).unwrap_or_default();
        together(self.word(at), second).or_else(|| in_table(&AFTER, self.word(at)))
    }

    fn label(&self, group: &Group, before: Option<Label>, (from, to): (usize, usize)) -> Option<Label> {
        let near = to.min(from + 4);
        let after = (from..near).find_map(|at| self.label_after(at, to));
        let small = |most: f64| group.first().unit.is_none() && group.first().value <= most;
        let across = group.lengths.iter().any(Length::is_across);
        let below = self.has(&FROM_BELOW, from, to);
        let first = group.first().at;
        // `taped 9 ft down from the curb`
        if self.has(&TAPED, first.saturating_sub(3), first)
            && self.has(&["down"], from, near)
            && !below
            && !across
            && after != Some(Label::Depth)
        {
            return Some(Label::Level);
        }
        // `hand pump on 2 in pipe driven 30 ft`: a point is its own pipe.
        let on = first.checked_sub(1).filter(|at| self.word(*at) == "on");
        if across
            && on.is_some_and(|on| self.has(&PUMPS, on.saturating_sub(1), on))
            && self.has(&DRIVEN, 0, self.tokens.len())
        {
            return Some(Label::Width);
        }
        match (before, after) {
            (Some(Label::Rim), _) | (None | Some(Label::Casing), Some(Label::Rim)) => Some(Label::Rim),
            (Some(Label::Aside), _) | (None | Some(Label::Made), Some(Label::Aside)) => Some(Label::Aside),
            (_, Some(Label::Height)) if self.has(&["over", "above"], from, to) => None,
            (Some(Label::Height), _) | (_, Some(Label::Height)) => Some(Label::Height),
            (Some(Label::Level), _) if below => None,
            (Some(label @ (Label::Level | Label::Depth | Label::Width)), _) => Some(label),
            (Some(Label::Casing), _) => Some(if across || small(24.0) { Label::Width } else { Label::Casing }),
            (_, Some(Label::Depth)) if across => below.then_some(Label::Width),
            (_, Some(label @ (Label::Depth | Label::Level))) => Some(label),
            (_, Some(Label::Bore)) if across => Some(Label::Bore),
            _ if across => Some(Label::Width),
            // `42 ft of casing` is its depth, `4 1/2 pvc` its width.
            (_, Some(Label::Width)) if small(48.0) || !self.has(&LINING, from, near) => Some(Label::Width),
            (_, Some(Label::Made)) if small(12.0) => Some(Label::Width),
            _ => None,
        }
    }
}

/// Whether `6" x 142'` is a width and a depth, and not two sides.
fn is_across_and_down(first: &Length, second: &Length) -> bool {
    match (first.unit, second.unit) {
        (Some("in" | "mm" | "cm"), Some("ft" | "m")) => true,
        (one, other) if one == other || other.is_none() => second.value > 8.0 * first.value,
        _ => false,
    }
}

/// What two words behind a number say together.
fn together(one: &str, other: &str) -> Option<Label> {
    let found = AFTER_TOGETHER.iter().find(|(first, then, _)| first.contains(&one) && then.contains(&other));
    found.map(|(.., label)| *label)
}

/// Whether what stands before this word is no length.
pub(super) fn counts_other(word: &str) -> bool {
    remarks::is_other_unit(word) || NOT_LENGTHS.contains(&word)
}

/// What a table says of a word; an entry that ends in `*` stands for every word that begins so.
pub(super) fn in_table(table: &[(&[&str], Label)], word: &str) -> Option<Label> {
    let fits = |entry: &&str| match entry.strip_suffix('*') {
        Some(beginning) => word.starts_with(beginning),
        None => *entry == word,
    };
    table.iter().find(|(words, _)| words.iter().any(&fits)).map(|(_, label)| *label)
}

/// The symbol of the unit that a word is.
pub(super) fn unit_of(word: &str) -> Option<&'static str> {
    remarks::length_unit(word).map(|unit| unit.symbol)
}
