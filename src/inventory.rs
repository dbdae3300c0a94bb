//! From files to located, unproven rows.
//!
//! [`Inventory::open`] judges every file (format, encoding, headings) and makes the plan of its tables; the rows are then
//! streamed: [`Inventory::next_batch`] is sequential and cheap, [`Batch::drafts`] does the work and runs on all cores.
//! The checks room turns drafts into wells. Refuses to know what a value means for a well.

mod batch;
mod bytes;
pub mod cell;
pub mod choices;
mod columns;
pub mod corrections;
mod dated_heading;
mod dates;
pub mod description;
mod ditto;
mod draft;
mod fate;
mod file;
pub mod fill_down;
mod first_reading;
mod guard;
pub mod heading;
mod id_groups;
mod identity;
mod intervals;
mod layout;
mod legend;
mod levels;
pub mod lexicon;
mod list_names;
mod list_rules;
mod multiple_choice;
mod naming;
mod notes;
mod one_cell;
mod opening;
mod other_sheets;
mod parquet;
mod paths;
mod phrases;
mod pointed;
mod profile;
mod prompt;
pub mod remarks;
mod row_kind;
mod rows;
mod sources;
mod split;
mod stacked;
mod stamp;
mod survey;
mod suspicion;
mod table;
mod text;
mod type_of_list;
mod unit_columns;
mod workbook;

use std::sync::Arc;

pub use batch::Batch;
pub use cell::{Datum, Form, is_aside};
pub use draft::Draft;
pub use file::sheets_of;
pub use identity::identity;
pub use intervals::ListedInterval;
pub use list_names::list_names;
pub use one_cell::{cell_value, fixed_value};
pub use prompt::typed;
pub use row_kind::{NoWell, RowKind};
pub use rows::{CellKind, Rows};
pub use sources::SourceInfo;
pub use stamp::can_be_read_again;
pub use survey::{Drawn, FEWEST_WELLS};
pub use table::{Opened, Payload, RowSource};

use batch::Content;
use bytes::Tally;
use corrections::{Corrections, Unapplied};
use intervals::Intervals;
use sources::{Beside, Source};

use crate::error::Result;
use crate::field::rules::Correction;
use crate::finding::{Finding, Severity};
use crate::place::Origin;

/// The campaign's lists, open for reading.
pub struct Inventory {
    sources: Vec<Source>,
    beside: Vec<Beside>,
    intervals: Arc<Intervals>,
    current: usize,
    carried: Vec<String>,
    findings: Vec<Finding>,
    corrections: Arc<Corrections>,
    total_bytes: u64,
}

impl Inventory {
    /// The next rows, about so many, all of one table; nothing when everything is read.
    ///
    /// # Errors
    /// [`crate::error::Error::Input`] where a file breaks off or turns out to be damaged.
    pub fn next_batch(&mut self, rows: usize) -> Result<Option<Batch>> {
        while let Some(source) = self.sources.get_mut(self.current) {
            if let Some(rows_from) = &mut source.rows_from {
                if let Some(payload) = rows_from.next(rows)? {
                    let rows = payload.rows();
                    source.rows += rows as u64;
                    let origin = &source.table.origin;
                    let corrections = self.corrections.concern(origin).then(|| Arc::clone(&self.corrections));
                    let content = match payload {
                        Payload::Chunk(chunk) => Content::Chunk(chunk),
                        Payload::Rows(mut rows) => {
                            self.corrections.apply(origin, &mut rows);
                            source.table.cut_descriptions(&mut rows);
                            Content::Rows(Arc::new(rows))
                        }
                    };
                    return Ok(Some(Batch { table: Arc::clone(&source.table), corrections, content, rows }));
                }
                source.rows_from = None; // Closes the file.
            }
            self.current += 1;
        }
        Ok(None)
    }

    /// Findings that make a whole file or sheet useless: nothing is planned with such a list, and the rest of it is not either.
    pub fn unusable(&self) -> Vec<&Finding> {
        let whole = |finding: &&Finding| finding.place.row.is_none() && finding.place.column.is_none();
        self.findings.iter().filter(whole).filter(|finding| finding.code.severity() == Severity::Error).collect()
    }

    /// Findings about files and headings, in canonical order; known as soon as the inventory is open.
    pub fn file_findings(&self) -> &[Finding] {
        &self.findings
    }

    /// Findings that can only be made when everything is read, in canonical order: corrections that came to nothing, casing
    /// intervals that belong to no well.
    pub fn closing_findings(&self) -> Vec<Finding> {
        let mut findings = self.corrections.findings(&self.origins());
        findings.extend(self.intervals.without_well());
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        findings
    }

    fn origins(&self) -> Vec<&Origin> {
        let beside = self.beside.iter().map(|beside| &beside.origin);
        self.sources.iter().map(|source| &source.table.origin).chain(beside).collect()
    }

    /// The corrections that came to nothing, each with the reason; known when everything is read.
    pub fn unapplied_corrections(&self) -> Vec<(&Correction, Unapplied)> {
        self.corrections.unapplied(&self.origins())
    }

    /// The corrections that were applied to what was read so far.
    pub fn applied_corrections(&self) -> Vec<Correction> {
        self.corrections.applied()
    }

    /// Headings of the columns that are not fields, over all tables, in order of appearance.
    pub fn carried_columns(&self) -> &[String] {
        &self.carried
    }

    /// Rows of wells read so far; casing intervals are not counted.
    pub fn rows_read(&self) -> u64 {
        self.sources.iter().map(|source| source.rows).sum()
    }

    /// Bytes read and bytes in all, for progress; the total does not count standard input.
    pub fn rows_hint(&self) -> (u64, u64) {
        let mut read = 0;
        let mut last: Option<&Arc<Tally>> = None;
        for source in self.sources.iter().take(self.current + 1) {
            // The sheets of one workbook share a tally.
            if !last.is_some_and(|last| Arc::ptr_eq(last, &source.tally)) {
                read += source.tally.bytes();
            }
            last = Some(&source.tally);
        }
        (read, self.total_bytes)
    }
}
