//! What every kind of file becomes once it is open: headings, a sample, and a source of rows.

use std::sync::Arc;

use super::description::{self, Described};
use super::heading::{self, HeadingUnit};
use super::layout::Layout;
use super::legend::Legend;
use super::rows::{Rows, trim};
use super::split::Chunk;
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::finding::Finding;
use crate::place::Origin;
use crate::quantity::parse::Comma;
use crate::quantity::unit::{Dimension, Unit};

/// Rows on their way.
#[derive(Debug)]
pub enum Payload {
    /// Text records, to be cut into cells on all cores.
    Chunk(Chunk),
    /// Rows that are cells already.
    Rows(Rows),
}

impl Payload {
    /// How many rows there are.
    pub fn rows(&self) -> usize {
        match self {
            Self::Chunk(chunk) => chunk.rows,
            Self::Rows(rows) => rows.len(),
        }
    }
}

/// Rows below the heading, in order; one for each table of each file. A new format is one more of these.
pub trait RowSource: Send {
    /// The next rows, about so many; nothing at the end. Blank rows are left out.
    fn next(&mut self, rows: usize) -> Result<Option<Payload>>;
}

/// A table found in a file.
pub struct Opened {
    /// File and sheet that the rows come from, as findings name them.
    pub origin: Origin,
    /// Headings as written, trimmed.
    pub headings: Vec<String>,
    /// The row they stand in.
    pub heading_row: u32,
    /// The first rows of the table, heading included; judged, not computed with.
    pub sample: Rows,
    /// Which row of the sample is the first below the heading.
    pub first_row: usize,
    /// Where headings, groups, units and notes stand.
    pub layout: Layout,
    /// What the codes of the file mean, where it explains them.
    pub legend: Arc<Legend>,
    /// The column that describes whole wells, where there is one.
    pub described: Option<Described>,
    /// What a lone comma in a number means here.
    pub comma: Comma,
    /// Whether rows may end early without anything being wrong.
    pub short_rows: bool,
    /// What there is to say about the file.
    pub notes: Vec<Finding>,
    /// Where the rows come from; nothing for an empty table.
    pub source: Option<Box<dyn RowSource>>,
}

impl Opened {
    /// The cells of a column in the sample that hold anything, without outer blanks.
    pub fn filled(&self, column: usize) -> impl Iterator<Item = &str> {
        let cells = (self.first_row..self.sample.len()).map(move |row| trim(self.sample.cell(row, column)));
        cells.filter(|cell| !cell.is_empty())
    }

    /// The unit of length that a heading names, or the row of units below it, for a field of lengths.
    pub fn length_unit(&self, column: usize, field: Field) -> Option<&'static Unit> {
        let own = heading::unit_for(&self.headings[column], field, None).0;
        let below = self.layout.units.get(column).map(|cell| heading::unit_below(cell, field, None).0);
        let mut known = [Some(own), below].into_iter().flatten().filter_map(|unit: HeadingUnit| unit.known());
        known.find(|unit| unit.dimension == Dimension::Length)
    }

    /// Cuts a column that describes whole wells into columns of its parts, where there is one.
    pub fn describe(&mut self, rules: &ReadingRules) {
        let told = (self.layout.notes.as_slice(), self.layout.language);
        self.described = description::find(&self.headings, &self.sample, self.first_row, rules, told);
        if let Some(described) = self.described {
            let parts = described.headings(&self.headings[described.column]);
            self.headings.extend(parts);
            // A row of a short list with a description is no note about it.
            let texts: Vec<String> = self.filled(described.column).map(str::to_owned).collect();
            self.layout.notes.retain(|note| !texts.iter().any(|text| note.contains(text)));
            described.cut(&mut self.sample, self.first_row);
        }
    }

    /// A table without rows.
    pub fn empty(origin: Origin, notes: Vec<Finding>) -> Self {
        Self {
            origin,
            headings: Vec::new(),
            heading_row: 0,
            sample: Rows::default(),
            first_row: 0,
            layout: Layout::default(),
            legend: Arc::default(),
            described: None,
            comma: Comma::ByForm,
            short_rows: false,
            notes,
            source: None,
        }
    }
}
