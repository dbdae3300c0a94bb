//! Rows on their way from a file to the checks.

use std::sync::Arc;

use super::corrections::Corrections;
use super::draft::{self, Draft, Table};
use super::rows::Rows;
use super::split;

/// Rows on their way from a file to the checks.
pub struct Batch {
    pub(super) table: Arc<Table>,
    pub(super) corrections: Option<Arc<Corrections>>,
    pub(super) content: Content,
    pub(super) rows: usize,
}

/// What a file gave: lines that are still to be cut into cells, or cells.
pub(super) enum Content {
    Chunk(split::Chunk),
    Rows(Arc<Rows>),
}

impl Batch {
    /// Reads every cell. Pure: the same batch gives the same drafts, on any thread.
    pub fn drafts(&self) -> Vec<Draft> {
        let rows = match &self.content {
            Content::Chunk(chunk) => {
                let mut rows = chunk.cells();
                if let Some(corrections) = &self.corrections {
                    corrections.apply(&self.table.origin, &mut rows);
                }
                self.table.cut_descriptions(&mut rows);
                Arc::new(rows)
            }
            Content::Rows(rows) => Arc::clone(rows),
        };
        draft::drafts(&self.table, &rows)
    }

    /// How many rows it holds.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// How many bytes it holds.
    pub fn bytes(&self) -> usize {
        match &self.content {
            Content::Chunk(chunk) => chunk.bytes(),
            Content::Rows(rows) => rows.bytes(),
        }
    }
}
