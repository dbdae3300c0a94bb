//! Tables on their way out: batches of columns, and who takes them.
//!
//! The engine fills batches on every core; a [`TableSink`] encodes each where it was made and writes them in order. Neither
//! knows the other's business.

use crate::error::Result;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColumnKind {
    /// Text; an absent text is empty.
    Text,
    /// 64-bit floating point; absent where there is no number.
    Number,
}

/// Name and kind of a column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColumnHead {
    /// Heading, ending in the unit where the column has one.
    pub name: String,
    /// What it holds.
    pub kind: ColumnKind,
}

/// The cells of one column.
#[derive(Debug)]
pub enum ColumnCells<'a> {
    /// Texts.
    Text(Vec<&'a str>),
    /// Numbers; NaN stands for "no number" and is written as an absent cell.
    Number(Vec<f64>),
}

/// Some rows of a table, column by column; every column has the same length.
#[derive(Debug, Default)]
pub struct TableBatch<'a> {
    /// In the order of the heads.
    pub columns: Vec<ColumnCells<'a>>,
}

impl TableBatch<'_> {
    /// How many rows.
    pub fn rows(&self) -> usize {
        match self.columns.first() {
            Some(ColumnCells::Text(cells)) => cells.len(),
            Some(ColumnCells::Number(cells)) => cells.len(),
            None => 0,
        }
    }
}

/// Takes the batches of a table.
pub trait TableSink: Sync {
    /// A batch made ready for the file.
    type Encoded: Send;

    /// Whether anything is written at all; where not, batches need not be filled.
    fn wants_rows(&self) -> bool {
        true
    }

    /// Makes a batch ready; any thread may do it, in any order.
    ///
    /// # Errors
    /// When the batch cannot be encoded.
    fn encode(&self, batch: &TableBatch<'_>) -> Result<Self::Encoded>;

    /// Writes a batch; the order of calls is the order of rows.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn write(&mut self, encoded: Self::Encoded) -> Result<()>;
}

/// A sink for runs without a table.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoTable;

impl TableSink for NoTable {
    type Encoded = ();

    fn wants_rows(&self) -> bool {
        false
    }

    fn encode(&self, _batch: &TableBatch<'_>) -> Result<()> {
        Ok(())
    }

    fn write(&mut self, _encoded: ()) -> Result<()> {
        Ok(())
    }
}
