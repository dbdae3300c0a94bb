//! A whole well in one cell: `6in drilled, 140 deep, pump hangs at 120, water at 31`.
//!
//! Cuts such a text into the words of each measure; these are read like cells of columns of their own. A number counts only
//! where the words beside it say what it is of, or where it can be but one thing. What is left over is told, and the row is
//! asked about.

mod words;

use super::choices;
use super::phrases::{Token, tokens};
use super::remarks;
use super::rows::{Rows, trim};
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::inventory::heading;
use crate::quantity::parse::{self, Comma, Size, Sort};
use words::{AFTER, AFTER_TOGETHER, BEFORE, BELOW, FROM_BELOW, JOINS, TIMES, TIMES_OF_YEAR};

/// What a number is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Label {
    Depth,
    Level,
    /// Of the standing water.
    Height,
    Width,
    /// Depth of the casing, or its width where the number is small.
    Casing,
    /// Above the ground.
    Rim,
    /// How the well was made: of a small number, its width.
    Made,
    /// Something that no dose rests on.
    Aside,
}

/// What a description may give, in the order of its columns.
pub const FIELDS: [(Field, &str); 6] = [
    (Field::TotalDepth, "depth"),
    (Field::StaticWaterLevel, "water level"),
    (Field::CasingDiameter, "diameter"),
    (Field::CasingDepth, "casing depth"),
    (Field::StickUp, "height of the casing"),
    (Field::WellType, "type"),
];

/// The words of each measure; empty where there are none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Parts {
    /// In the order of [`FIELDS`].
    pub of: [String; FIELDS.len()],
    /// Numbers that nothing says the meaning of.
    pub unread: Vec<String>,
}

const DEPTH: usize = 0;
const LEVEL: usize = 1;
const WIDTH: usize = 2;
const CASING: usize = 3;
const RIM: usize = 4;
const TYPE: usize = 5;

impl Parts {
    /// Whether these are the measures of a well: two of its depth, water and width.
    fn describe_a_well(&self) -> bool {
        self.of[..=WIDTH].iter().filter(|part| !part.is_empty()).count() >= 2
    }
}

/// The parts of a cell of a depth or a level that gives other measures too, as in `140, water at 35`; nothing where it does not, or
/// where a number stays unexplained.
pub fn several(text: &str, field: Field) -> Option<Vec<(Field, String)>> {
    let said = match field {
        Field::TotalDepth => "depth",
        Field::StaticWaterLevel => "static",
        _ => return None,
    };
    let parts = cut(&format!("{said} {text}"), false);
    let measures =
        FIELDS.into_iter().zip(parts.of).filter(|((of, _), part)| *of != Field::WellType && !part.is_empty());
    let measures: Vec<(Field, String)> = measures.map(|((of, _), part)| (of, part)).collect();
    let told = parts.unread.is_empty() && measures.len() > 1 && measures.iter().any(|(of, _)| *of == field);
    told.then_some(measures)
}

/// The column of a table that describes whole wells, and where its parts stand behind the columns of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Described {
    /// The column of the list.
    pub column: usize,
    /// The first column of parts.
    pub first: usize,
    /// Filled cells of the sample.
    pub cells: usize,
    /// Those of them that describe a well.
    pub understood: usize,
}

impl Described {
    /// The headings of the parts, under the heading of the description.
    pub fn headings(heading: &str) -> impl Iterator<Item = String> {
        FIELDS.iter().map(move |(_, part)| format!("{heading}: {part}"))
    }

    /// The field of a column of parts.
    pub fn field_of(&self, column: usize) -> Option<Field> {
        FIELDS.get(column.checked_sub(self.first)?).map(|(field, _)| *field)
    }

    /// Gives each row from `from` on the parts of its description. A row with cells beyond the last heading is left alone:
    /// what is said of such rows stays true.
    pub fn cut(&self, rows: &mut Rows, from: usize) {
        for row in from..rows.len() {
            let text = trim(rows.cell(row, self.column));
            if text.is_empty() || rows.width(row) > self.first {
                continue;
            }
            for (at, part) in parts(text).of.iter().enumerate().filter(|(_, part)| !part.is_empty()) {
                rows.replace(row, self.first + at, part);
            }
        }
    }

    /// Whether the cells behind the last heading are parts of the row's description, and not the list's own.
    pub fn was_cut(&self, rows: &Rows, row: usize) -> bool {
        let parts = parts(trim(rows.cell(row, self.column)));
        rows.width(row) <= self.first + FIELDS.len()
            && parts.of.iter().enumerate().all(|(at, part)| rows.cell(row, self.first + at) == part)
    }
}

/// Finds the column that describes whole wells, under these headings, in rows from `from` on.
pub fn find(headings: &[String], rows: &Rows, from: usize, rules: &ReadingRules) -> Option<Described> {
    /// From this share of its cells on a column is one of descriptions.
    const ENOUGH: f64 = 0.6;
    let count = |column: usize| {
        let texts = (from..rows.len()).map(|row| trim(rows.cell(row, column))).filter(|text| !text.is_empty());
        texts.fold((0, 0), |(cells, understood), text| {
            (cells + 1, understood + usize::from(text.len() >= 8 && parts(text).describe_a_well()))
        })
    };
    let measures = [Field::TotalDepth, Field::StaticWaterLevel, Field::WaterColumn, Field::CasingDiameter];
    let may = |column: &usize| {
        let heading = &headings[*column];
        let named = heading::name(heading, None).is_some_and(|named| measures.contains(&named.field));
        !heading.is_empty() && !named && heading::mapped(heading, rules).is_none()
    };
    (0..headings.len())
        .filter(may)
        .map(|column| (column, count(column)))
        .filter(|(_, (cells, understood))| *understood >= 3 && *understood as f64 >= ENOUGH * *cells as f64)
        .max_by_key(|(column, (_, understood))| (*understood, std::cmp::Reverse(*column)))
        .map(|(column, (cells, understood))| Described { column, first: headings.len(), cells, understood })
}

/// A number with its unit.
#[derive(Debug, Clone, Copy)]
struct Length {
    /// Its first token.
    at: usize,
    /// The token behind its last.
    end: usize,
    value: f64,
    unit: Option<&'static str>,
}

/// Numbers of one measure, with what they are of.
#[derive(Debug, Clone)]
struct Group {
    lengths: Vec<Length>,
    label: Option<Label>,
    /// The token behind the words that belong to it.
    end: usize,
}

/// Cuts a description into its parts.
pub fn parts(text: &str) -> Parts {
    cut(text, true)
}

/// The same; of a whole well, the one number without a word is its depth.
fn cut(text: &str, whole: bool) -> Parts {
    let figures = in_figures(text);
    let text = figures.as_deref().unwrap_or(text);
    let reader = Reader { text, tokens: tokens(text) };
    let mut parts = Parts::default();
    let told: Vec<(usize, usize)> =
        remarks::of_tokens(&reader.tokens).iter().map(|statement| (statement.from, statement.to)).collect();
    let mut groups: Vec<Group> = Vec::new();
    let mut full = String::new();
    for (from, to) in reader.clauses() {
        let clause = reader.slice(from, to);
        if let Ok(Size::Full { .. }) = parse::size(clause, Sort::Level, None, Comma::ByForm) {
            full = clause.to_owned();
            continue;
        }
        groups.extend(reader.groups(from, to, &told));
    }
    let unlabeled = groups.iter().filter(|group| group.label.is_none()).count();
    let depth_told = groups.iter().any(|group| group.label == Some(Label::Depth));
    for group in &mut groups {
        match group.label {
            None if whole && unlabeled == 1 && !depth_told => group.label = Some(Label::Depth),
            None => parts.unread.push(reader.of(group).to_owned()),
            Some(_) => {}
        }
    }
    let of = |label: Label| groups.iter().filter(move |group| group.label == Some(label));
    parts.of[DEPTH] = joined(of(Label::Depth).map(|group| reader.of(group)));
    parts.of[CASING] = joined(of(Label::Casing).map(|group| reader.of(group)));
    parts.of[RIM] = joined(of(Label::Rim).map(|group| reader.of(group)));
    let levels = groups.iter().filter(|group| matches!(group.label, Some(Label::Level | Label::Height)));
    parts.of[LEVEL] = joined(levels.map(|group| reader.level(group)));
    if parts.of[LEVEL].is_empty() {
        parts.of[LEVEL] = full;
    }
    parts.of[WIDTH] = reader.widths(&groups);
    if remarks::names_several_wells(&reader.tokens) {
        parts.unread.push("more than one well".to_owned());
    }
    if choices::well_type(text).value().is_some() {
        text.clone_into(&mut parts.of[TYPE]);
    }
    parts
}

/// The text with the numbers that it writes in words in figures, where they measure something: `one hundred eighty deep`.
fn in_figures(text: &str) -> Option<String> {
    let mut found = false;
    let clauses = text.split_inclusive([',', ';', '.']).map(|clause| {
        let measures = |token: &Token| {
            unit_of(&token.word).is_some()
                || in_table(&AFTER, &token.word).is_some()
                || in_table(&BEFORE, &token.word).is_some()
        };
        let figures = parse::written_out(&clause.to_lowercase()).filter(|_| tokens(clause).iter().any(measures));
        found |= figures.is_some();
        figures.unwrap_or_else(|| clause.to_owned())
    });
    let written = clauses.collect();
    found.then_some(written)
}

/// Several texts for one measure as a choice between them, which the reader of cells refuses.
fn joined<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    texts.collect::<Vec<_>>().join(" or ")
}

struct Reader<'a> {
    text: &'a str,
    tokens: Vec<Token>,
}

impl<'a> Reader<'a> {
    fn word(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| token.word.as_str())
    }

    /// The text of some tokens.
    fn slice(&self, from: usize, to: usize) -> &'a str {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) if from < to => self.text.get(first.start..last.end).unwrap_or_default(),
            _ => "",
        }
    }

    /// The numbers of a group as they are written.
    fn of(&self, group: &Group) -> &'a str {
        let last = group.lengths.last().map_or(0, |length| length.end);
        self.slice(group.lengths[0].at, last)
    }

    /// A level with what it is counted from; a height with the word that says so.
    fn level(&self, group: &Group) -> &'a str {
        let last = group.lengths.last().map_or(0, |length| length.end);
        let to_water = (last..group.end).find(|at| self.label_after(*at, group.end) == Some(Label::Level));
        self.slice(group.lengths[0].at, to_water.unwrap_or(group.end))
    }

    /// First token and the one behind the last of each clause.
    fn clauses(&self) -> Vec<(usize, usize)> {
        let mut clauses = Vec::new();
        let mut from = 0;
        for (at, token) in self.tokens.iter().enumerate() {
            let apart = |at: usize, to: usize| {
                self.tokens.get(at).zip(self.tokens.get(to)).is_none_or(|(a, b)| a.end < b.start)
            };
            let dash = matches!(token.word.as_str(), "-" | "–" | "—" | "/" | "|")
                && at > 0
                && apart(at - 1, at)
                && apart(at, at + 1);
            if token.ends || token.word == "," || dash {
                clauses.push((from, at));
                from = at + 1;
            }
        }
        clauses.push((from, self.tokens.len()));
        clauses.retain(|(from, to)| from < to);
        clauses
    }

    /// The number that begins at a token, with its unit.
    fn length(&self, at: usize) -> Option<Length> {
        let value = self.tokens.get(at)?.number?;
        let mut end = at + 1;
        let gap = usize::from(matches!(self.word(end), "." | "-"));
        let unit = unit_of(self.word(end + gap));
        let timed = self.word(end + gap) == "in"
            && (TIMES_OF_YEAR.contains(&self.word(end + gap + 1))
                || self.tokens.get(end + gap + 1).and_then(|token| token.number).is_some_and(remarks::is_year));
        let unit = unit.filter(|_| !timed);
        if unit.is_some() {
            end += gap + 1;
            end += usize::from(self.word(end) == "." && self.tokens[end - 1].end == self.tokens[end].start);
        }
        // `31 ft 4 in` is one length.
        if unit == Some("ft")
            && self.tokens.get(end).and_then(|token| token.number).is_some_and(|inches| inches < 12.0)
            && unit_of(self.word(end + 1)) == Some("in")
        {
            end += 2;
        }
        Some(Length { at, end, value, unit })
    }

    /// Whether a number counts something that is no length.
    fn counts_other(&self, length: &Length, told: &[(usize, usize)]) -> bool {
        let token = &self.tokens[length.at];
        let before = length.at.checked_sub(1).map(|at| &self.tokens[at]);
        let glued =
            |at: usize, to: usize| self.tokens.get(at).zip(self.tokens.get(to)).is_some_and(|(a, b)| a.end == b.start);
        told.iter().any(|(from, to)| (*from..*to).contains(&token.start))
            || length.unit.is_none()
                && (remarks::is_other_unit(self.word(length.end))
                    || remarks::is_year(length.value)
                    || self.word(length.end) == "/" && glued(length.at, length.end))
            || before.is_some_and(|before| {
                matches!(before.word.as_str(), "$" | "#" | "no" | "nr")
                    || before.end == token.start && (before.is_word() && before.word != "x" || before.word == "/")
            })
    }

    /// The numbers of a clause, those of one measure together, each group with what it is of.
    fn groups(&self, from: usize, to: usize, told: &[(usize, usize)]) -> Vec<Group> {
        let mut lengths: Vec<Length> = Vec::new();
        let mut at = from;
        while at < to {
            match self.length(at) {
                Some(length) => {
                    at = length.end.max(at + 1);
                    lengths.push(length);
                }
                None => at += 1,
            }
        }
        let mut groups: Vec<Group> = Vec::new();
        for length in lengths {
            let single = Group { lengths: vec![length], label: None, end: length.end };
            let joins = groups.last().and_then(|group| group.lengths.last()).map(|last| (last.end, *last));
            match joins {
                Some((end, last))
                    if end + 1 == length.at && JOINS.contains(&self.word(end)) && !self.counts_other(&last, told) =>
                {
                    if let Some(group) = groups.last_mut() {
                        group.lengths.push(length);
                        group.end = length.end;
                    }
                }
                Some((end, last)) if end + 1 == length.at && TIMES.contains(&self.word(end)) => {
                    if !is_across_and_down(&last, &length)
                        && let Some(group) = groups.last_mut()
                    {
                        group.lengths.push(length);
                        group.end = length.end;
                        group.label = Some(Label::Width);
                    } else {
                        if let Some(group) = groups.last_mut() {
                            group.label = Some(Label::Width);
                        }
                        groups.push(Group { label: Some(Label::Depth), ..single });
                    }
                }
                _ => groups.push(single),
            }
        }
        let mut start = from;
        for at in 0..groups.len() {
            let next = groups.get(at + 1).map_or(to, |next| next.lengths[0].at);
            let (first, last) = (groups[at].lengths[0].at, groups[at].end);
            let before = self.label_before(start, first);
            let cut = if at + 1 < groups.len() { self.cut(last, next, before.is_some()) } else { next };
            groups[at].end = cut;
            start = cut;
            if groups[at].label.is_none() {
                groups[at].label = self.label(&groups[at], before, (last, cut), told);
            }
        }
        groups
    }

    /// Where between two numbers the words of the second begin.
    fn cut(&self, from: usize, to: usize, labeled: bool) -> usize {
        (from..to)
            .find(|at| in_table(&BEFORE, self.word(*at)).is_some() && (labeled || self.label_after(*at, to).is_none()))
            .unwrap_or(to)
    }

    /// What the nearest word before a number says.
    fn label_before(&self, from: usize, to: usize) -> Option<Label> {
        (from.max(to.saturating_sub(4))..to).rev().find_map(|at| in_table(&BEFORE, self.word(at)))
    }

    /// What a word behind a number says.
    fn label_after(&self, at: usize, to: usize) -> Option<Label> {
        let second = if at + 1 < to { self.word(at + 1) } else { "" };
        let together = AFTER_TOGETHER
            .iter()
            .find(|(first, then, _)| first.contains(&self.word(at)) && then.contains(&second))
            .map(|(.., label)| *label);
        together.or_else(|| in_table(&AFTER, self.word(at)))
    }

    fn label(
        &self,
        group: &Group,
        before: Option<Label>,
        (from, to): (usize, usize),
        told: &[(usize, usize)],
    ) -> Option<Label> {
        if group.lengths.iter().all(|length| self.counts_other(length, told)) {
            return Some(Label::Aside);
        }
        let after = (from..to.min(from + 4)).find_map(|at| self.label_after(at, to));
        let small = |most: f64| group.lengths[0].unit.is_none() && group.lengths[0].value <= most;
        let across = group.lengths.iter().any(|length| matches!(length.unit, Some("in" | "mm" | "cm")));
        match (before, after) {
            (Some(Label::Aside), _) | (None, Some(Label::Aside)) => Some(Label::Aside),
            (Some(Label::Casing), Some(Label::Rim)) => Some(Label::Rim),
            (Some(Label::Rim), _) | (None, Some(Label::Rim)) => Some(Label::Rim),
            (Some(Label::Level), _) if (from..to).any(|at| FROM_BELOW.contains(&self.word(at))) => None,
            (Some(Label::Level), Some(Label::Height)) => Some(Label::Height),
            (Some(Label::Level), _) => Some(Label::Level),
            (Some(Label::Depth), Some(Label::Height)) => Some(Label::Height),
            (Some(Label::Depth), _) => Some(Label::Depth),
            (Some(Label::Casing), _) => Some(if across || small(24.0) { Label::Width } else { Label::Casing }),
            (_, Some(label @ (Label::Depth | Label::Level | Label::Height))) => Some(label),
            _ if across => Some(Label::Width),
            // `42 ft of casing` is its depth, `4 1/2 pvc` its width.
            (_, Some(Label::Width)) => {
                let lining = ["casing", "csg", "cased", "steel", "stl", "pvc", "pipe", "iron", "plastic", "galv"];
                let long = group.lengths[0].unit.is_some() || !small(48.0);
                if !long {
                    Some(Label::Width)
                } else if (from..to.min(from + 4)).any(|at| lining.contains(&self.word(at))) {
                    None
                } else {
                    Some(Label::Width)
                }
            }
            (_, Some(Label::Made)) if small(12.0) => Some(Label::Width),
            _ => None,
        }
    }

    /// The words of all widths: strings of casing as one text, other widths as a choice between them.
    fn widths(&self, groups: &[Group]) -> String {
        let widths: Vec<&Group> = groups.iter().filter(|group| group.label == Some(Label::Width)).collect();
        let (Some(first), Some(last)) = (widths.first(), widths.last()) else { return String::new() };
        let (from, to) = (first.lengths[0].at, last.lengths.last().map_or(0, |length| length.end));
        let below = (from..self.tokens.len()).any(|at| BELOW.contains(&self.word(at)));
        let apart = groups.iter().any(|group| {
            (from..to).contains(&group.lengths[0].at) && !matches!(group.label, Some(Label::Width | Label::Casing))
        });
        if widths.len() > 1 && below && !apart {
            let end = (to..self.tokens.len()).take_while(|at| self.word(*at) != "," && !self.tokens[*at].ends).last();
            return self.slice(from, end.map_or(to, |end| end + 1)).to_owned();
        }
        joined(widths.into_iter().map(|group| self.of(group)))
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

fn in_table(table: &[(&[&str], Label)], word: &str) -> Option<Label> {
    table.iter().find(|(words, _)| words.contains(&word)).map(|(_, label)| *label)
}

/// The symbol of the unit that a word is.
fn unit_of(word: &str) -> Option<&'static str> {
    remarks::length_unit(word).map(|unit| unit.symbol)
}
