//! Where things stand on a sheet: the row of headings, groups above it, units below it, notes above and below the table.

mod explained;
mod groups;
mod heading_row;

use explained::{by_first_word, explained, filled_cells, listed};
pub use explained::{units_by_name, words_by_name};
use groups::{group_rows, groups};
use heading_row::goes_on_below;
pub use heading_row::{find_row, find_row_of_any, likeness};

use super::heading::{self, HeadingUnit, tidy};
use super::lexicon::{self, Language};
use super::rows::{CellKind, Rows};
use crate::field::Field;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::plain;
use crate::quantity::unit::Gallon;

/// Where each part of a table stands, with what its headings are told to mean.
#[derive(Debug, Clone, Default)]
pub struct Layout {
    /// The row of the headings, in the sample.
    pub heading_row: usize,
    /// The first row below the headings.
    pub first_row: usize,
    /// Headings as written, trimmed; where the row of headings is blank, what stands above in the same column.
    pub headings: Vec<String>,
    /// The groups above each heading, outermost first, joined; empty where there are none.
    pub groups: Vec<String>,
    /// Units in a row of their own below the headings; empty where there is none.
    pub units: Vec<String>,
    /// Whether the units are those of another sheet.
    pub units_from_elsewhere: bool,
    /// What the file says of each heading in other words: `Dip = from the measuring point down`; empty where nothing.
    pub explained: Vec<String>,
    /// Lines of words above the table and below it.
    pub notes: Vec<String>,
    /// The language of the headings.
    pub language: Language,
}

/// Finds the layout of a sample; nothing where it has no rows.
pub fn find(sample: &Rows, rules: &ReadingRules, heading_row: Option<usize>) -> Option<Layout> {
    let gallon = rules.system.and_then(UnitSystem::gallon);
    let heading_row = heading_row.or_else(|| find_row(sample, rules))?;
    let heading_row = if goes_on_below(sample, heading_row) { heading_row + 1 } else { heading_row };
    let mut headings = heading::cells(sample, heading_row);
    let group_rows = group_rows(sample, heading_row);
    // What stands one row higher may reach further than the row of headings does.
    let reaches = group_rows.iter().map(|row| heading::cells(sample, *row).len()).max().unwrap_or(0);
    headings.resize(headings.len().max(reaches), String::new());
    // What spans the headings' row from above, or stands one row higher, is the heading itself.
    for row in group_rows.iter().rev() {
        for (column, heading) in headings.iter_mut().enumerate() {
            if heading.is_empty() {
                *heading = tidy(sample.cell(*row, column));
            }
        }
    }
    let mut first_row = heading_row + 1;
    let mut units = unit_row(sample, first_row, &headings, gallon);
    if !units.is_empty() {
        first_row += 1;
    }
    if units.iter().all(String::is_empty) {
        units.clear();
    }
    let words: Vec<String> = headings.iter().flat_map(|heading| lexicon::tokens(heading)).collect();
    let above = heading_row.saturating_sub(group_rows.len());
    let mut notes: Vec<String> = (0..above).filter_map(|row| note(sample, row)).collect();
    notes.extend((first_row..sample.len()).filter_map(|row| note(sample, row)));
    Some(Layout {
        heading_row,
        first_row,
        groups: groups(sample, &group_rows, &headings, heading_row),
        headings,
        units,
        notes,
        language: lexicon::language(&words),
        units_from_elsewhere: false,
        explained: Vec::new(),
    })
    .map(|mut layout| {
        layout.explained = layout.headings.iter().map(|heading| explained(heading, &layout.notes)).collect();
        for at in 0..layout.headings.len() {
            if layout.explained[at].is_empty() {
                layout.explained[at] = by_first_word(at, &layout.headings, &layout.notes);
            }
        }
        for (at, says) in listed(&layout.headings, &layout.notes) {
            if layout.explained[at].is_empty() {
                layout.explained[at] = says;
            }
        }
        layout
    })
}

impl Layout {
    /// Takes what another sheet says of the headings, where it speaks of at least three of them.
    pub fn take_words<'a>(&mut self, words: impl Iterator<Item = &'a (String, String)> + Clone) {
        let of =
            |heading: &String| words.clone().find(|(name, _)| *name == heading::squash(heading)).map(|(_, says)| says);
        if self.headings.iter().filter(|heading| !heading.is_empty() && of(heading).is_some()).count() < 3 {
            return;
        }
        for (heading, explained) in self.headings.iter().zip(&mut self.explained) {
            if let (true, Some(says)) = (explained.is_empty(), of(heading)) {
                explained.clone_from(says);
            }
        }
    }

    /// Takes units of columns from another sheet, where at least two of its names are headings here.
    pub fn take_units<'a>(&mut self, units: impl Iterator<Item = &'a (String, String)>) {
        let mut taken = vec![String::new(); self.headings.len()];
        for (name, unit) in units {
            if let Some(at) = self.headings.iter().position(|heading| heading::squash(heading) == *name) {
                taken[at].clone_from(unit);
            }
        }
        if self.units.is_empty() && taken.iter().filter(|unit| !unit.is_empty()).count() >= 2 {
            self.units = taken;
            self.units_from_elsewhere = true;
        }
    }

    /// What there is to say about where the table stands.
    pub fn findings(&self, sample: &Rows, origin: &Origin) -> Vec<Finding> {
        let mut notes = Vec::new();
        let mut say = |code, says: String, help: &'static str| {
            notes.push(Finding::new(code, Place::whole(origin), says, help));
        };
        if !self.units.is_empty() {
            let row = sample.number(self.first_row - 1);
            say(catalogue::UNIT_ROW, format!("row {row} holds units; they are read as those of the columns"), IF_RIGHT);
        }
        let grouped = self.groups.iter().any(|group| !group.is_empty());
        if grouped {
            let says =
                "the row above the headings names groups of columns; each heading is read with its group before it";
            say(catalogue::GROUPED_HEADINGS, says.to_owned(), IF_RIGHT);
        }
        if self.heading_row > usize::from(grouped) {
            let number = sample.number(self.heading_row);
            let says = format!("the heading is row {number}; the rows above it were left out");
            say(catalogue::ROWS_ABOVE_HEADING, says, "no action needed if those rows are a title");
        }
        notes
    }
}

const IF_RIGHT: &str = "no action needed if correct";

/// A line of words in one or two cells: what people write above and below a table.
fn note(rows: &Rows, row: usize) -> Option<String> {
    let mut different = filled_cells(rows, row, usize::MAX);
    different.dedup();
    let text = different.join(": ");
    (different.len() <= 2 && text.len() >= 10 && text.split_whitespace().count() >= 3).then_some(text)
}

/// The cells of the row below the heading, if it holds units and little else: at least two, and no values.
fn unit_row(rows: &Rows, row: usize, headings: &[String], gallon: Option<Gallon>) -> Vec<String> {
    if row >= rows.len() || rows.width(row) == 0 {
        return Vec::new();
    }
    let gallon = gallon.or(Some(Gallon::Us));
    let (mut units, mut others) = (0, 0);
    let mut cells = Vec::new();
    for column in 0..rows.width(row).max(headings.len()) {
        let cell = tidy(rows.cell(row, column));
        if rows.kind(row, column) != CellKind::Text || plain(&cell).is_some() {
            return Vec::new();
        }
        let inner = cell.trim_matches(['(', ')', '[', ']']).trim().to_owned();
        if !inner.is_empty() {
            let exact = |field| matches!(heading::unit_below(&inner, field, gallon).0, HeadingUnit::Unit(_));
            let spoken = super::notes::unit_of(&lexicon::tokens(&inner), gallon).is_some();
            // `in above grade`
            let reaches = inner.split_once(' ').is_some_and(|(unit, rest)| {
                unit.eq_ignore_ascii_case("in") && ["above", "below", "from"].iter().any(|word| rest.starts_with(word))
            });
            // `180 ft` is a size and no unit: such a row is a well.
            let is_unit = !inner.starts_with(|c: char| c.is_ascii_digit())
                && (spoken || reaches || [Field::TotalDepth, Field::Iron, Field::WellYield].into_iter().any(exact));
            units += usize::from(is_unit && inner.len() <= 30);
            others += usize::from(!is_unit && (inner.len() > 12 || inner.chars().any(|c| c.is_ascii_digit())));
        }
        cells.push(inner);
    }
    // Beside three units and more, a word or two may stand over columns of other things: `our house no.`
    if units >= 2 && others == 0 || units >= 3 && others * 3 <= units { cells } else { Vec::new() }
}
