//! Formulas of a workbook: text with places in it. Whoever makes a sheet names cells by where they stand; the writer turns that
//! into addresses.

use std::sync::Arc;

/// A part of a formula.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Operators, functions, names of cells: as they stand.
    Text(String),
    /// The cell of this row in another column.
    Here(u16),
    /// A cell, of this sheet or another; it stays where it is when its formula is copied.
    At(Place),
}

/// Where a cell stands: row and column from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Name of its sheet.
    pub sheet: &'static str,
    /// Row, from 0 at the top of the sheet.
    pub row: u32,
    /// Column, from 0 at the left of the sheet.
    pub column: u16,
}

/// What a formula comes to as long as nothing is changed.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A number at full precision; the cell shows as many digits as the formula says.
    Number(f64),
    /// A text; empty for no value.
    Text(String),
}

/// A formula with what it comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// Its parts; formulas that hold the same parts are the same formula, copied down.
    pub pieces: Arc<[Piece]>,
    /// What it comes to.
    pub outcome: Outcome,
    /// Digits shown of a number.
    pub digits: usize,
}

/// A name of one or more cells in a column.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// How formulas call the cells.
    pub name: String,
    /// The uppermost of its cells, with the sheet it is on.
    pub first: Place,
    /// Row of the last.
    pub last_row: u32,
}

/// Pieces that are put together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pieces(pub Vec<Piece>);

impl Pieces {
    /// A text as it stands.
    pub fn text(text: impl Into<String>) -> Self {
        Self(vec![Piece::Text(text.into())])
    }

    /// A text that a formula gives: in quotes.
    pub fn quoted(text: &str) -> Self {
        Self::text(format!("\"{}\"", text.replace('"', "\"\"")))
    }

    /// The cell of this row in a column.
    pub fn here(column: u16) -> Self {
        Self(vec![Piece::Here(column)])
    }

    /// A reference to one cell, which may be on another sheet.
    pub fn at(place: Place) -> Self {
        Self(vec![Piece::At(place)])
    }

    /// Followed by a text.
    #[must_use]
    pub fn then(mut self, text: impl Into<String>) -> Self {
        self.0.push(Piece::Text(text.into()));
        self
    }

    /// These pieces with those of another behind them.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }

    /// A function of several parts: `MAX(a,b)`.
    pub fn call(function: &str, parts: impl IntoIterator<Item = Self>) -> Self {
        let mut all = Self::text(format!("{function}("));
        for (at, part) in parts.into_iter().enumerate() {
            if at > 0 {
                all = all.then(",");
            }
            all = all.and(part);
        }
        all.then(")")
    }

    /// A formula of these pieces; what is not a number comes to nothing.
    pub fn giving(self, value: f64, digits: usize) -> Formula {
        self.copied().giving(value, digits)
    }

    /// The same pieces, for many rows.
    pub fn copied(self) -> Copied {
        Copied(self.0.into())
    }

    /// A formula of these pieces that gives a text.
    pub fn saying(self, text: impl Into<String>) -> Formula {
        self.copied().saying(text)
    }
}

/// Pieces that many rows hold in common.
#[derive(Debug, Clone)]
pub struct Copied(Arc<[Piece]>);

impl Copied {
    /// The formula of one row; what is not a number comes to nothing.
    pub fn giving(&self, value: f64, digits: usize) -> Formula {
        let outcome = if value.is_nan() { Outcome::Text(String::new()) } else { Outcome::Number(value) };
        Formula { pieces: Arc::clone(&self.0), outcome, digits }
    }

    /// The formula of one row that gives a text.
    pub fn saying(&self, text: impl Into<String>) -> Formula {
        Formula { pieces: Arc::clone(&self.0), outcome: Outcome::Text(text.into()), digits: 0 }
    }
}
