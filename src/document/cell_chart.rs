//! Charts of a workbook: they name the cells that they draw, so that they follow what is changed.

use super::chart::Axis;

/// A run of cells, in a row or in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cells {
    /// Name of their sheet.
    pub sheet: &'static str,
    /// Row and column of the first, from 0.
    pub first: (u32, u16),
    /// Row and column of the last.
    pub last: (u32, u16),
}

impl Cells {
    /// Cells of a column.
    pub const fn column(sheet: &'static str, column: u16, rows: (u32, u32)) -> Self {
        Self { sheet, first: (rows.0, column), last: (rows.1, column) }
    }
}

/// How the cells are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawn {
    /// A bar for each name, the first on top.
    Bars,
    /// A line for each series.
    Lines,
}

/// One run of figures.
#[derive(Debug, Clone, PartialEq)]
pub struct CellSeries {
    /// What the legend calls it.
    pub name: String,
    /// Cells that hold its figures, in the order of the chart's names.
    pub values: Cells,
    /// How far the range reaches below and above each, where there is one.
    pub range: Option<(Cells, Cells)>,
}

/// A chart with its text alternative.
#[derive(Debug, Clone, PartialEq)]
pub struct CellChart {
    /// Heading inside the chart, above the drawing.
    pub title: String,
    /// The same in a sentence, for whoever cannot see it.
    pub text: String,
    /// How it is drawn.
    pub drawn: Drawn,
    /// What the figures are of.
    pub names: Cells,
    /// The axis of the names.
    pub across: Axis,
    /// The axis of the figures.
    pub upward: Axis,
    /// Runs of figures over the same names.
    pub series: Vec<CellSeries>,
    /// Row and column of its upper left corner, from 0.
    pub place: (u32, u16),
    /// Columns and rows that it covers.
    pub size: (u16, u32),
}
