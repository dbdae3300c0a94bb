//! Columns of widths that no field takes: a second one of the same wells, or sizes in words.

use super::assignment::{Assignment, assign};
use super::evidence::{LIKELY, Reading};
use super::{Feed, Planner};
use crate::field::Field;
use crate::inventory::heading;
use crate::inventory::lexicon::{self, Concept, Meaning};

/// Headings of the land survey: town, range and section.
const SURVEY: [&str; 10] = ["range", "rng", "rge", "twp", "sec", "section", "qtr", "legal", "plss", "trs"];

/// The words of a heading without their number, and the number: `CSG_DIAM2_IN`, `Dia. 2`; `A dia.`, `B dia.`
pub(super) fn in_order(heading: &str) -> (Vec<String>, Option<u32>) {
    let mut number = None;
    let mut words = lexicon::tokens(heading);
    // A capital by itself, as pipes are lettered; the article of `a well` is none.
    let letter = heading.split_whitespace().find_map(|word| ["A", "B", "C"].iter().position(|letter| word == *letter));
    if let Some((letter, at)) = letter.and_then(|letter| {
        let name = ["a", "b", "c"][letter];
        Some((letter, words.iter().position(|word| word == name)?))
    }) {
        words.remove(at);
        return (words, u32::try_from(letter + 1).ok());
    }
    for word in &mut words {
        let (name, own) = match word.parse() {
            Ok(own) => ("", Some(own)),
            Err(_) => lexicon::numbered(word),
        };
        if own.is_some() {
            number = own;
            *word = name.to_owned();
        }
    }
    words.retain(|word| !word.is_empty());
    (words, number)
}

impl Planner<'_> {
    /// The other columns that a heading and its number say to be of the same thing: `Dia. 2` beside `Dia. 1`, or beside `Dia.`
    pub(super) fn others_in_order(&self, first: usize) -> Vec<usize> {
        let (words, own) = in_order(&self.table.headings[first]);
        let same = |at: &usize| {
            let (others, number) = in_order(&self.table.headings[*at]);
            *at != first && others == words && number != own && (own.is_some() || number >= Some(2))
        };
        (0..self.columns.len()).filter(same).filter(|at| self.profiles[*at].measures() > 0).collect()
    }

    /// Another column that says the same field as plainly and holds other numbers, of widths and of levels: which of the two counts
    /// is asked, for nobody would see that the other was passed over.
    pub(super) fn contested(&mut self, first: &Reading, assignment: &Assignment, also: Option<usize>) {
        const FEWEST: usize = 3;
        const APART: f64 = 0.1;
        if !matches!(first.named.field, Field::CasingDiameter | Field::StaticWaterLevel) || first.by_hand || first.exact
        {
            return;
        }
        let rivals: Vec<Reading> = assignment
            .others
            .iter()
            .filter(|other| {
                other.named.field == first.named.field && other.score >= first.score - APART && other.score >= LIKELY
            })
            .filter(|other| {
                Some(other.column) != also && !other.by_hand && !other.exact && !assignment.is_used(other.column)
            })
            .filter(|other| {
                let pairs = self.pairs(first.column, other.column);
                let apart =
                    pairs.iter().filter(|(one, other)| (one - other).abs() > APART * one.abs().max(other.abs()));
                let apart = apart.count();
                apart >= FEWEST && apart * 4 >= pairs.len()
            })
            .cloned()
            .collect();
        for rival in rivals {
            if !self.strings.iter().any(|next| next.width == rival.column) {
                self.open(&rival);
            }
        }
    }

    /// `Dia. 2` beside `Dia. 1`: another width of the same wells, which must not be passed over.
    pub(super) fn second_of(&mut self, first: &Reading, assignment: &Assignment, also: Option<usize>) {
        let chosen = |column: usize| assignment.chosen.iter().flatten().any(|reading| reading.column == column);
        for column in self.others_in_order(first.column) {
            let is_open = self.open.iter().any(|(of, _)| *of == column);
            if Some(column) != also
                && !chosen(column)
                && !is_open
                && !self.strings.iter().any(|next| next.width == column)
            {
                self.open(&Reading { column, by_hand: false, ..first.clone() });
            }
        }
    }

    /// Adds the second width as that of the hole below, where it is given with the depth of the casing and is the smaller one.
    pub(super) fn second_is_below(&self, readings: &mut Vec<Reading>) {
        let first = assign(readings);
        let (Some(upper), Some(change), None) = (
            first.likely(Field::CasingDiameter),
            first.likely(Field::CasingDepth),
            first.likely(Field::OpenHoleDiameter),
        ) else {
            return;
        };
        if self.first_width == Some(upper) {
            return;
        }
        let [lower] = self.others_in_order(upper)[..] else { return };
        let filled = self.profiles[lower].filled;
        let telescopes = self.pairs(lower, upper).len() == filled && self.lies_within(lower, upper, 1);
        if !first.is_used(lower) && telescopes && self.pairs(lower, change).len() == filled {
            let upper = first.chosen[Field::CasingDiameter as usize].iter();
            readings.extend(upper.map(|upper| Reading {
                column: lower,
                named: heading::Named { field: Field::OpenHoleDiameter, ..upper.named.clone() },
                score: LIKELY,
                exact: false,
                by_hand: false,
            }));
        }
    }

    /// The column of screens, where it says how wide they are: `6" scr 79-99`.
    pub(super) fn screens(&self, taken: &[bool]) -> Option<usize> {
        const FEWEST: usize = 3;
        let wide = |column: &usize| {
            let meaning = self.meaning(*column);
            let in_inches = |cell: &&str| cell.starts_with(|c: char| c.is_ascii_digit()) && cell.contains('"');
            meaning.has(Concept::Screen) && self.table.filled(*column).filter(in_inches).count() >= FEWEST
        };
        let mut found = (0..self.columns.len()).filter(|column| !taken[*column]).filter(wide);
        found.next().filter(|_| found.next().is_none())
    }

    /// A column that asks whether the width changes further down, and is answered in words.
    pub(super) fn changes_in_words(&self, taken: &[bool]) -> Option<usize> {
        const CHANGES: [&str; 9] =
            ["change", "changes", "narrow", "narrower", "reduce", "reduced", "telescoped", "telescopes", "cambia"];
        let mut asking = (0..self.columns.len()).filter(|at| {
            let heading = &self.table.headings[*at];
            let words = lexicon::tokens(heading);
            let meaning = lexicon::meaning(&words, self.table.layout.language);
            let width = [Concept::Diameter, Concept::Casing, Concept::Bore, Concept::Hole, Concept::Size];
            !taken[*at]
                && !self.open.iter().any(|(column, _)| column == at)
                && words.iter().any(|word| CHANGES.contains(&word.as_str()))
                && width.iter().any(|concept| meaning.has(*concept))
        });
        asking.next().filter(|_| asking.next().is_none())
    }

    /// A column of sizes in words that nobody reads: it may be what some wells are like further down.
    pub(super) fn unread_sizes(&mut self, taken: &[bool], feeds: &[Option<Feed>]) {
        for (at, profile) in self.profiles.iter().enumerate() {
            let sizes = profile.sizes >= 3 && profile.share(profile.sizes + profile.lengths.len()) >= 0.6;
            let known = taken.get(at).copied().unwrap_or(true) || self.open.iter().any(|(column, _)| *column == at);
            let heading = &self.table.headings[at];
            let explained = self.table.layout.explained.get(at).map_or("", String::as_str);
            let words = lexicon::tokens(&format!("{heading} {explained}"));
            let meaning = lexicon::meaning(&words, self.table.layout.language);
            // `T 7 N, R 12 W`: where a place lies in the land survey.
            let surveyed = meaning.has(Concept::Region)
                || meaning.has(Concept::Address)
                || words.iter().any(|word| SURVEY.contains(&&**word));
            let sizes =
                sizes && !surveyed && !super::patterns::is_of_something_else(&meaning) && !self.numbers_things(at);
            let below = self.may_be_below(at, &meaning, feeds);
            if (sizes || below || self.is_another_width(at, &meaning)) && !known && !heading.is_empty() {
                let named = heading::Named::told(Field::CasingDiameter);
                self.open(&Reading { column: at, named, score: 0.0, exact: false, by_hand: false });
            }
        }
    }

    /// Whether a column that nobody reads may say how wide the well is below its casing, whose end is read and no width below: it is in
    /// a unit of widths and narrower than the casing in every row.
    pub(super) fn may_be_below(&self, at: usize, meaning: &Meaning, feeds: &[Option<Feed>]) -> bool {
        const FEWEST: usize = 3;
        let fed = |field: Field| feeds[field as usize].as_ref().filter(|feed| !feed.barred);
        let (Some(casing), Some(_), None) =
            (fed(Field::CasingDiameter), fed(Field::CasingDepth), fed(Field::OpenHoleDiameter))
        else {
            return false;
        };
        let unit = self.table.length_unit(at, Field::CasingDiameter).map(|unit| unit.symbol);
        let same_unit =
            unit.is_some_and(|unit| ["in", "mm", "cm"].contains(&unit)) && casing.unit.map(|unit| unit.symbol) == unit;
        // A hole that was drilled for the casing is wider than it.
        let is_width = [Concept::Diameter, Concept::Size, Concept::Hole].iter().any(|concept| meaning.has(*concept));
        let profile = &self.profiles[at];
        let pairs = self.pairs(at, casing.column);
        let within = pairs.iter().filter(|(inner, outer)| inner <= outer).count();
        let some_narrower = pairs.iter().any(|(inner, outer)| inner < outer);
        (same_unit || unit.is_none() && is_width)
            && profile.share(profile.measures()) >= 0.7
            && pairs.len() >= FEWEST
            && within * 20 >= pairs.len() * 19
            && some_narrower
            && !meaning.has(Concept::StickUp)
            && !super::patterns::is_of_something_else(meaning)
    }

    /// Whether a column that nobody reads holds widths of the well, by its heading and its unit: with `Top csg, in` the well is not
    /// as wide below as `Bottom csg, in` says.
    fn is_another_width(&self, at: usize, meaning: &Meaning) -> bool {
        const NARROW: [&str; 3] = ["in", "mm", "cm"];
        // The hole that was drilled for the casing is wider, and no water stands between the two.
        const NO_WIDTH: [Concept; 14] = [
            Concept::Bore,
            Concept::Built,
            Concept::Depth,
            Concept::Length,
            Concept::Kind,
            Concept::Number,
            Concept::Identity,
            Concept::StickUp,
            Concept::Height,
            Concept::Wall,
            Concept::Thickness,
            Concept::Water,
            Concept::Material,
            Concept::Rim,
        ];
        let profile = &self.profiles[at];
        let unit = self.table.length_unit(at, Field::CasingDiameter).map(|unit| unit.symbol);
        let of_pipe = meaning.has(Concept::Casing) || meaning.has(Concept::Hole);
        let of_string =
            self.strings.iter().chain(&self.beside).any(|string| string.columns().any(|column| column == at));
        // `Dia. to collar end`: no date.
        let is_to_end = meaning.has(Concept::Diameter) && meaning.has(Concept::Date) && {
            let mut rest = meaning.clone();
            rest.concepts.retain(|concept| *concept != Concept::Date);
            !super::patterns::is_of_something_else(&rest) && profile.dates == 0
        };
        let narrow = unit.is_some_and(|unit| NARROW.contains(&unit));
        // `Lower bore, in`: the hole goes on narrower.
        let lower = narrow && meaning.has(Concept::Lower);
        let named = meaning.has(Concept::Diameter) || (of_pipe || lower) && narrow;
        named
            && !of_string
            && profile.filled >= 3
            && profile.share(profile.measures()) >= 0.7
            && (is_to_end || !super::patterns::is_of_something_else(meaning))
            && !NO_WIDTH.iter().any(|concept| meaning.has(*concept) && !(lower && *concept == Concept::Bore))
    }

    /// Whether the cells are numbers joined by a hyphen, hardly one twice: `163-1`, `163-2` number things and are no sizes.
    fn numbers_things(&self, column: usize) -> bool {
        let profile = &self.profiles[column];
        let sample = &self.table.sample;
        // `6/02`, `8/1974`: month and year.
        let month_of_year = |text: &str| {
            let Some((month, year)) = text.split_once('/') else { return false };
            let part = |part: &str| part.parse::<u32>().ok().filter(|_| part.bytes().all(|byte| byte.is_ascii_digit()));
            part(month).is_some_and(|month| (1..=12).contains(&month))
                && matches!(year.len(), 2 | 4)
                && part(year).is_some()
        };
        let joined = |text: &str| {
            let figures = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
            text.split_once('-').is_some_and(|(thing, part)| figures(thing) && figures(part))
        };
        let cells = (self.table.first_row..sample.len()).map(|row| sample.cell(row, column).trim());
        let months = cells.clone().filter(|text| month_of_year(text)).count();
        if months * 10 >= profile.filled * 8 {
            return true;
        }
        let count = cells.filter(|text| joined(text)).count();
        profile.filled >= 8 && count * 10 >= profile.filled * 9 && profile.distinct * 10 >= profile.filled * 9
    }
}
