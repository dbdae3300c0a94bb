//! A run of rows as text cells: the common form in which every kind of file hands its rows on.
//!
//! Cells are spans of one shared text, so that a million rows cost a few allocations. The row number is what a person
//! sees: the row that a spreadsheet program shows, also of a text file. Knows nothing of fields.

use std::sync::Arc;

/// What a cell was in its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellKind {
    /// Text, or a number in a text file.
    Text,
    /// A number of a workbook.
    Number,
    /// A number of a workbook that is shown as a percentage: 0.07 for 7 %. Only where a whole workbook is read.
    Percent,
    /// A formula of a workbook without a stored result, as its text. Only where a whole workbook is read.
    Unsolved,
    /// A date or time of a workbook, as ISO text.
    Date,
    /// An error of a workbook such as `#N/A`.
    Error,
}

/// What was wrong with a row as a row, before any cell was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Damage {
    /// A quotation mark that opens a cell is never closed; it was taken as an ordinary character.
    UnclosedQuote,
    /// Bytes that are not UTF-8; the row was read as Windows-1252.
    ForeignBytes,
    /// A cell, or the whole row, is longer than a spreadsheet can hold; it was left out.
    TooLong,
}

/// Letters of the longest cell that is read: the most that a cell of a common spreadsheet program holds (Microsoft,
/// "Excel specifications and limits": 32,767 characters).
pub const LONGEST_CELL: usize = 32_767;
/// Bytes of the longest row that is read.
const LONGEST_ROW: usize = 4 << 20;
/// Bytes of text after which a run of rows ends early, however few rows it has: memory is bounded by what rows hold.
pub const BATCH_BYTES: usize = 16 << 20;

/// Whether a text is longer than a cell can be.
pub fn is_too_long(text: &str) -> bool {
    // A letter takes four bytes at most: what is far too long is not counted.
    text.len() > 4 * LONGEST_CELL || text.len() > LONGEST_CELL && text.chars().count() > LONGEST_CELL
}

/// Where a cell's text lies.
#[derive(Debug, Clone, Copy)]
struct Span {
    start: u32,
    /// Length; the top bit says that the text lies in `extra`.
    length: u32,
}

const IN_EXTRA: u32 = 1 << 31;

#[derive(Debug, Clone, Copy)]
struct RowSpan {
    first: u32,
    count: u32,
    number: u32,
}

/// A run of rows.
#[derive(Debug, Default)]
pub struct Rows {
    text: Arc<String>,
    extra: String,
    cells: Vec<Span>,
    /// One for each cell, or empty where all are text.
    kinds: Vec<CellKind>,
    rows: Vec<RowSpan>,
    damages: Vec<(u32, Damage)>,
    /// Cells that a person gave a right value for, by row and column.
    repaired: Vec<(u32, u32)>,
    /// Rows that a person said are no wells.
    no_wells: Vec<u32>,
    /// Bytes of the last row.
    row_bytes: usize,
}

impl Rows {
    /// Rows whose cells will be spans of this text.
    pub fn over(text: Arc<String>) -> Self {
        Self { text, ..Self::default() }
    }

    /// Begins a row with this number.
    pub fn begin_row(&mut self, number: u32) {
        self.rows.push(RowSpan { first: self.cells.len() as u32, count: 0, number });
        self.row_bytes = 0;
    }

    /// Adds a cell that is a span of the shared text.
    pub fn push_span(&mut self, start: usize, end: usize) {
        let long = end - start > LONGEST_CELL && self.text.get(start..end).is_some_and(is_too_long);
        let end = if self.holds(end - start, long) { end } else { start };
        self.push(Span { start: start as u32, length: (end - start) as u32 });
    }

    /// Whether the last row can take so many bytes more; marks it where it cannot.
    fn holds(&mut self, bytes: usize, long: bool) -> bool {
        if long || self.row_bytes + bytes > LONGEST_ROW {
            self.damage(Damage::TooLong);
            return false;
        }
        self.row_bytes += bytes;
        true
    }

    /// Bytes that these rows hold.
    pub fn bytes(&self) -> usize {
        self.text.len() + self.extra.len() + self.cells.len() * size_of::<Span>()
    }

    /// Adds a cell with text of its own.
    pub fn push_text(&mut self, text: &str) {
        let text = if self.holds(text.len(), is_too_long(text)) { text } else { "" };
        let start = self.extra.len() as u32;
        self.extra.push_str(text);
        self.push(Span { start, length: text.len() as u32 | IN_EXTRA });
    }

    /// Adds a typed cell of a workbook or a Parquet file. Either all cells of a run are typed or none.
    pub fn push_typed(&mut self, text: &str, kind: CellKind) {
        self.push_text(text);
        self.kinds.push(kind);
    }

    fn push(&mut self, span: Span) {
        self.cells.push(span);
        if let Some(row) = self.rows.last_mut() {
            row.count += 1;
        }
    }

    /// Marks the last row.
    pub fn damage(&mut self, damage: Damage) {
        let Some(last) = self.rows.len().checked_sub(1) else { return };
        let damaged = (last as u32, damage);
        // Once a row: it may have thousands of such cells.
        if self.damages.last() != Some(&damaged) {
            self.damages.push(damaged);
        }
    }

    /// Takes the last row back if all its cells are blank.
    pub fn drop_blank_row(&mut self, delimiter: Option<char>) {
        let Some(row) = self.rows.last().copied() else { return };
        let at = self.rows.len() as u32 - 1;
        let mut of_row = self.damages.iter().rev().take_while(|(damaged, _)| *damaged == at);
        if of_row.any(|(_, damage)| *damage == Damage::TooLong) {
            return; // What was left out was not blank.
        }
        let blank = (0..row.count as usize).all(|column| {
            let cell = self.cell(self.rows.len() - 1, column);
            cell.chars().all(|c| matches!(c, ' ' | '\t' | '"' | '\r' | '\n') || Some(c) == delimiter)
        });
        if blank {
            self.rows.pop();
            while self.damages.last().is_some_and(|(damaged, _)| *damaged == at) {
                self.damages.pop();
            }
            self.cells.truncate(row.first as usize);
            self.kinds.truncate(row.first as usize);
        }
    }

    /// Replaces a cell; the row grows where it ends before that column.
    pub fn replace(&mut self, row: usize, column: usize, text: &str) {
        let count = self.width(row);
        if column >= count {
            // Rows share one list of cells: a longer row moves to its end.
            let first = self.rows[row].first as usize;
            self.rows[row].first = self.cells.len() as u32;
            self.rows[row].count = column as u32 + 1;
            self.cells.extend_from_within(first..first + count);
            self.cells.extend(std::iter::repeat_n(Span { start: 0, length: 0 }, column + 1 - count));
            if !self.kinds.is_empty() {
                self.kinds.extend_from_within(first..first + count);
                self.kinds.extend(std::iter::repeat_n(CellKind::Text, column + 1 - count));
            }
        }
        let at = self.rows[row].first as usize + column;
        let start = self.extra.len() as u32;
        self.extra.push_str(text);
        self.cells[at] = Span { start, length: text.len() as u32 | IN_EXTRA };
        if let Some(kind) = self.kinds.get_mut(at) {
            *kind = CellKind::Text;
        }
    }

    /// Marks a cell that a person gave a right value for.
    pub fn mark_repaired(&mut self, row: usize, column: usize) {
        self.repaired.push((row as u32, column as u32));
    }

    /// Whether a person gave a right value for the cell.
    pub fn is_repaired(&self, row: usize, column: usize) -> bool {
        !self.repaired.is_empty() && self.repaired.contains(&(row as u32, column as u32))
    }

    /// Marks a row that a person said is no well.
    pub fn mark_no_well(&mut self, row: usize) {
        self.no_wells.push(row as u32);
    }

    /// Whether a person said that the row is no well.
    pub fn is_no_well(&self, row: usize) -> bool {
        !self.no_wells.is_empty() && self.no_wells.contains(&(row as u32))
    }

    /// Some of the rows, as rows of their own, before anything was repaired.
    pub fn part(&self, of: std::ops::Range<usize>) -> Self {
        let damages = self.damages.iter().filter(|(at, _)| of.contains(&(*at as usize)));
        Self {
            text: Arc::clone(&self.text),
            extra: self.extra.clone(),
            cells: self.cells.clone(),
            kinds: self.kinds.clone(),
            damages: damages.map(|(at, damage)| (at - of.start as u32, *damage)).collect(),
            repaired: Vec::new(),
            no_wells: Vec::new(),
            rows: self.rows[of].to_vec(),
            row_bytes: 0,
        }
    }

    /// How many rows this run holds.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// How many cells the row has.
    pub fn width(&self, row: usize) -> usize {
        self.rows[row].count as usize
    }

    /// The row's number as a person sees it.
    pub fn number(&self, row: usize) -> u32 {
        self.rows[row].number
    }

    /// The text of a cell; empty beyond the end of the row.
    #[inline]
    pub fn cell(&self, row: usize, column: usize) -> &str {
        let Some(at) = self.span(row, column) else { return "" };
        let Span { start, length } = self.cells[at];
        let text: &str = if length & IN_EXTRA == 0 { &self.text } else { &self.extra };
        text.get(start as usize..(start + (length & !IN_EXTRA)) as usize).unwrap_or_default()
    }

    /// The cells of a row that hold more than blanks, trimmed, each with its column.
    pub fn filled(&self, row: usize) -> impl Iterator<Item = (usize, &str)> {
        (0..self.width(row))
            .map(move |column| (column, self.cell(row, column).trim()))
            .filter(|(_, text)| !text.is_empty())
    }

    /// What the cell was in its file.
    pub fn kind(&self, row: usize, column: usize) -> CellKind {
        self.span(row, column).and_then(|at| self.kinds.get(at)).copied().unwrap_or(CellKind::Text)
    }

    fn span(&self, row: usize, column: usize) -> Option<usize> {
        let row = self.rows[row];
        (column < row.count as usize).then(|| row.first as usize + column)
    }

    /// What was wrong with the row as a row.
    pub fn damages(&self, row: usize) -> impl Iterator<Item = Damage> + '_ {
        let row = row as u32;
        let from = self.damages.partition_point(|(at, _)| *at < row);
        self.damages[from..].iter().take_while(move |(at, _)| *at == row).map(|(_, damage)| *damage)
    }
}

/// Without outer blanks; quick where there are none, as nearly always.
pub fn trim(text: &str) -> &str {
    match (text.as_bytes().first(), text.as_bytes().last()) {
        (Some(first), Some(last)) if first.is_ascii_graphic() && last.is_ascii_graphic() => text,
        _ => text.trim(),
    }
}
