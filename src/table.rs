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

impl ColumnCells<'_> {
    /// How many cells.
    pub fn len(&self) -> usize {
        match self {
            Self::Text(cells) => cells.len(),
            Self::Number(cells) => cells.len(),
        }
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// What a column varies with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Varies {
    /// From row to row: one cell a row.
    Row,
    /// From block to block: one cell for all rows of a block.
    Block,
    /// Through a block and the same in each: one cell for each place in it.
    Place,
}

/// A column of a batch.
#[derive(Debug)]
pub struct BatchColumn<'a> {
    /// What its cells stand for.
    pub varies: Varies,
    /// The cells.
    pub cells: ColumnCells<'a>,
}

/// Some rows of a table, column by column. The rows come in blocks of equal length (a well's rows, one a scenario), so that
/// what is the same throughout a block, or in every block, is held once.
#[derive(Debug, Default)]
pub struct TableBatch<'a> {
    /// In the order of the heads.
    pub columns: Vec<BatchColumn<'a>>,
    /// How many blocks.
    pub blocks: usize,
    /// Rows in each.
    pub block_rows: usize,
}

impl TableBatch<'_> {
    /// How many rows.
    pub fn rows(&self) -> usize {
        self.blocks * self.block_rows
    }

    /// Which cell of a column that varies so a row shows.
    pub fn cell_of(&self, varies: Varies, row: usize) -> usize {
        match varies {
            Varies::Row => row,
            Varies::Block => row / self.block_rows,
            Varies::Place => row % self.block_rows,
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
    fn encode(&self, batch: TableBatch<'_>) -> Result<Self::Encoded>;

    /// Writes a batch; the order of calls is the order of rows, and no two are made at once.
    ///
    /// # Errors
    /// When the file cannot be written.
    fn write(&self, encoded: Self::Encoded) -> Result<()>;
}

/// A sink for runs without a table.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoTable;

impl TableSink for NoTable {
    type Encoded = ();

    fn wants_rows(&self) -> bool {
        false
    }

    fn encode(&self, _batch: TableBatch<'_>) -> Result<()> {
        Ok(())
    }

    fn write(&self, _encoded: ()) -> Result<()> {
        Ok(())
    }
}
