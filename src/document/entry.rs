//! Cells that people fill in: what may be typed into them, and what the spreadsheet program says beside them.
//!
//! A part of a sheet's layout. The writer turns it into data validation and notes; what is allowed comes from the
//! vocabulary of fields.

/// What may be typed.
#[derive(Debug, Clone, PartialEq)]
pub enum Allowed {
    /// Anything; text stays text, so that leading zeros live.
    Text,
    /// One of these words.
    OneOf(Vec<String>),
    /// One of these words, as a rule; something else is asked about, not refused. For tables whose rows people sort: a list
    /// of words stays in its place when its row moves away.
    Among(Vec<String>),
    /// One of the words that stand in the cells of this name.
    Cells(String),
    /// One of the words in a column of another sheet, from one row to another (from 0), as a rule: lists that are too long to
    /// stand in the cell itself.
    AmongCells {
        /// Name of the sheet that holds the words.
        sheet: &'static str,
        /// The column, from 0.
        column: u16,
        /// First and last row, from 0.
        rows: (u32, u32),
    },
    /// A number from the first to the second, both included; something else is asked about, not refused, because a reader
    /// of lists understands `6 1/4` and `not known` as well.
    Between(f64, f64),
    /// Any text, such as `30 gal`; a bare number is asked about, because it has no unit.
    Words,
    /// Any text, such as `20 %` or `30 gal`, or a number from the first to the second; something else is asked about. The last says
    /// whether the first itself is left out.
    TextOrBetween(f64, f64, bool),
}

/// The cells of one column that are filled in.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The column, from 0.
    pub column: u16,
    /// First row, from 0.
    pub first_row: u32,
    /// Last row, from 0, which is filled in too.
    pub last_row: u32,
    /// What may be typed.
    pub allowed: Allowed,
    /// Name of the matter.
    pub title: String,
    /// Shown while a cell is being filled in.
    pub help: String,
    /// Shown when something else was typed.
    pub refusal: String,
}

/// A note that belongs to one cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Row of the cell, from 0 at the top.
    pub row: u32,
    /// Column of the cell, from 0 at the left.
    pub column: u16,
    /// What the note says to whoever points at the cell.
    pub text: String,
}
