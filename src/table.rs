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
    /// Whether all its cells are texts or all are numbers.
    pub kind: ColumnKind,
}

/// The cells of one column.
#[derive(Debug)]
pub enum ColumnCells<'a> {
    /// Texts, borrowed from whatever the batch is made of; empty for an absent one.
    Text(Vec<&'a str>),
    /// Numbers; NaN stands for "no number" and is written as an absent cell.
    Number(Vec<f64>),
}

impl ColumnCells<'_> {
    /// How many cells are held: fewer than the rows, where the column varies less often.
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
    /// From group to group of a block's places: one cell for each group of each block.
    Group,
}

/// A column of a batch.
#[derive(Debug)]
pub struct BatchColumn<'a> {
    /// What its cells stand for.
    pub varies: Varies,
    /// As many cells as `varies` asks for, not one a row.
    pub cells: ColumnCells<'a>,
}

/// Some rows of a table, column by column. The rows come in blocks of equal length (a well's rows, one a scenario), so that
/// what is the same throughout a block, or in every block, is held once.
#[derive(Debug, Default)]
pub struct TableBatch<'a> {
    /// In the order of the heads.
    pub columns: Vec<BatchColumn<'a>>,
    /// Blocks, which is as many as wells where a block is a well's rows.
    pub blocks: usize,
    /// Rows in each block, the same in all of them: one a scenario.
    pub block_rows: usize,
    /// The group of each place in a block; the same in every block.
    pub groups: Groups,
}

/// Places of a block that share some of their cells: a well's rows under one practice.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Groups {
    of_place: Vec<usize>,
    count: usize,
}

impl Groups {
    /// Groups the places that are alike; the groups are numbered in the order of their first places.
    pub fn of(places: usize, alike: impl Fn(usize, usize) -> bool) -> Self {
        let mut firsts: Vec<usize> = Vec::new();
        let mut of_place = Vec::with_capacity(places);
        for place in 0..places {
            let known = firsts.iter().position(|first| alike(*first, place));
            of_place.push(known.unwrap_or_else(|| {
                firsts.push(place);
                firsts.len() - 1
            }));
        }
        Self { of_place, count: firsts.len() }
    }

    /// The group of a place.
    pub fn of_place(&self, place: usize) -> usize {
        self.of_place[place]
    }

    /// How many groups the places of a block fall into.
    pub const fn count(&self) -> usize {
        self.count
    }

    /// The first place of each group.
    pub fn firsts(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.count).filter_map(|group| self.of_place.iter().position(|of| *of == group))
    }

    /// Whether a place is the first of its group.
    pub fn is_first(&self, place: usize) -> bool {
        self.of_place.iter().position(|of| *of == self.of_place[place]) == Some(place)
    }
}

impl TableBatch<'_> {
    /// Rows that the batch stands for, in all blocks.
    pub fn rows(&self) -> usize {
        self.blocks * self.block_rows
    }

    /// Which cell of a column that varies so a row shows.
    pub fn cell_of(&self, varies: Varies, row: usize) -> usize {
        self.cell_in(varies, row / self.block_rows, row % self.block_rows)
    }

    /// The same for all rows, in order.
    pub fn cells_of(&self, varies: Varies) -> impl Iterator<Item = usize> + '_ {
        let in_block = move |block| (0..self.block_rows).map(move |place| self.cell_in(varies, block, place));
        (0..self.blocks).flat_map(in_block)
    }

    fn cell_in(&self, varies: Varies, block: usize, place: usize) -> usize {
        match varies {
            Varies::Row => block * self.block_rows + place,
            Varies::Block => block,
            Varies::Place => place,
            Varies::Group => block * self.groups.count() + self.groups.of_place(place),
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

/// A table that may not be wanted.
impl<S: TableSink> TableSink for Option<S> {
    type Encoded = Option<S::Encoded>;

    fn wants_rows(&self) -> bool {
        self.as_ref().is_some_and(S::wants_rows)
    }

    fn encode(&self, batch: TableBatch<'_>) -> Result<Self::Encoded> {
        self.as_ref().map(|sink| sink.encode(batch)).transpose()
    }

    fn write(&self, encoded: Self::Encoded) -> Result<()> {
        match (self, encoded) {
            (Some(sink), Some(encoded)) => sink.write(encoded),
            _ => Ok(()),
        }
    }
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
