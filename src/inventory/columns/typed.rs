//! The types of the wells of a table, as far as its sample tells: for units that go by type, and for the list's own codes.

use super::{Feed, Planner};
use crate::field::{Field, Kind, WellType};
use crate::inventory::cell::Datum;
use crate::inventory::lexicon;
use crate::inventory::rows::CellKind;
use crate::inventory::{heading, notes};
use crate::quantity::parse::{plain, plain_or_comma};
use crate::quantity::unit::{self, Dimension, Meaning, Unit};

/// A column of more different words than this names no places that a note would tell apart.
const MOST_PLACES: usize = 40;

/// `6S` without its letter.
pub fn unlettered(text: &str) -> Option<&str> {
    let number = text.strip_suffix(|c: char| c.is_ascii_uppercase() && c != 'M')?.trim_end();
    plain(number).is_some().then_some(number)
}

impl Planner<'_> {
    /// The bare numbers of a column with the type of their well, where the type is known.
    pub(super) fn typed_values(&self, column: usize) -> Vec<(WellType, f64)> {
        let Some(types) = self.type_column else { return Vec::new() };
        let sample = &self.table.sample;
        (self.table.first_row..sample.len())
            .filter_map(|row| {
                let written = sample.cell(row, column).trim();
                let number = plain_or_comma(written)?;
                Some((self.type_meant(types, sample.cell(row, types).trim())?, number))
            })
            .collect()
    }

    /// The middle of the bare numbers of a column of widths, for each type with enough of them; in inches for wide wells alone.
    pub(super) fn middle_of_type(&self, feed: &Feed) -> Vec<(WellType, f64)> {
        const FEWEST: usize = 6;
        let Some(symbol) = feed.unit.map(|unit| unit.symbol).filter(|symbol| ["cm", "mm", "in"].contains(symbol))
        else {
            return Vec::new();
        };
        let values = self.typed_values(feed.column);
        let middle = |well_type: WellType| {
            let mut own: Vec<f64> = values.iter().filter(|(of, _)| *of == well_type).map(|(_, value)| *value).collect();
            own.sort_by(f64::total_cmp);
            (own.len() >= FEWEST).then(|| (well_type, own[own.len() / 2]))
        };
        let types = [WellType::Bored, WellType::Dug, WellType::Drilled];
        types[..if symbol == "in" { 2 } else { 3 }].iter().copied().filter_map(middle).collect()
    }

    /// Sizes that notes give for cells that say nothing.
    pub(super) fn sizes_unless_noted(&self) -> Vec<(WellType, f64)> {
        self.table.layout.notes.iter().flat_map(|note| notes::sizes_unless_noted(note, &self.own_types)).collect()
    }

    /// The units of length that a column of units writes, each once.
    pub(super) fn units_written(&self, column: usize) -> Vec<&'static Unit> {
        let mut units: Vec<&'static Unit> = Vec::new();
        for cell in self.table.filled(column) {
            if let Some(Meaning::Unit(unit)) = unit::look_up(cell, None)
                && unit.dimension == Dimension::Length
                && !units.iter().any(|known| std::ptr::eq(*known, unit))
            {
                units.push(unit);
            }
        }
        units
    }

    /// The type of well that a cell of the column of types says, also by a code that the file explains.
    fn type_meant(&self, types: usize, text: &str) -> Option<WellType> {
        let Kind::Choice(choices) = Field::WellType.definition().kind else { return None };
        let sheet = self.table.origin.sheet.as_deref().unwrap_or_default();
        let text = self.table.legend.meaning(sheet, &self.table.headings[types], text).unwrap_or(text);
        let read = self.cells.read(Field::WellType, text, CellKind::Text, Default::default(), self.table.comma);
        let Datum::Choice(at) = read.datum else { return None };
        WellType::by_name(choices.get(usize::from(at))?.0)
    }

    /// What levels are counted from, where notes tell it by the words of a column of places.
    pub(super) fn datum_by_place(&self) -> Option<(usize, Vec<(String, heading::Datum)>)> {
        let (table, sample) = (self.table, &self.table.sample);
        if table.layout.notes.is_empty() {
            return None;
        }
        (0..table.headings.len())
            .filter(|column| (2..=MOST_PLACES).contains(&self.profiles[*column].distinct))
            .find_map(|column| {
                let mut places: Vec<String> = (table.first_row..sample.len())
                    .map(|row| lexicon::fold(sample.cell(row, column).trim()))
                    .filter(|text| text.chars().any(char::is_alphabetic))
                    .collect();
                places.sort();
                places.dedup();
                let found =
                    notes::datum_by_place(&table.layout.notes, &table.headings[column], &places, table.layout.language);
                (!found.is_empty()).then_some((column, found))
            })
    }

    /// Whether most cells of a column are a number with one letter behind it that is no unit: `6S`, `36T`.
    pub(super) fn is_lettered(&self, column: usize) -> bool {
        let sample = &self.table.sample;
        let cells: Vec<&str> = (self.table.first_row..sample.len())
            .map(|row| sample.cell(row, column).trim())
            .filter(|cell| !cell.is_empty())
            .collect();
        let lettered = cells.iter().filter(|cell| unlettered(cell).is_some()).count();
        lettered >= 5 && lettered * 10 >= cells.len() * 6
    }

    /// The list's own short words for types of well, as its notes may use them.
    pub(super) fn codes_of_types(&self) -> Vec<(String, WellType)> {
        let Some(types) = self.type_column else { return Vec::new() };
        let sample = &self.table.sample;
        let mut codes: Vec<(String, WellType)> = Vec::new();
        for row in self.table.first_row..sample.len() {
            let text = lexicon::fold(sample.cell(row, types).trim());
            let is_code = (1..=5).contains(&text.chars().count()) && text.chars().all(char::is_alphanumeric);
            if is_code && codes.iter().all(|(code, _)| *code != text) {
                codes.extend(self.type_meant(types, &text).map(|well_type| (text, well_type)));
            }
        }
        codes
    }
}
