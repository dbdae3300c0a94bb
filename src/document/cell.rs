//! Typed cells and the sheets they stand in: the form in which a report travels to any writer.
//!
//! A cell knows what it is and what part it plays; a writer decides what that looks like. No format is known here.

use std::borrow::Cow;

use chrono::NaiveDate;

use super::cell_chart::CellChart;
use super::entry::{Entry, Remark};
use super::formula::{Formula, Name, Outcome};
use super::plain::plain;

/// What a cell holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A cell that holds no value, not even an empty text.
    Empty,
    /// Text; never a formula, whatever it starts with.
    Text(String),
    /// A number, shown with so many digits after the point.
    Number {
        /// The number itself, at full precision.
        value: f64,
        /// Digits after the point where people read it.
        digits: usize,
    },
    /// How many there are of something: a whole number, shown without a point.
    Count(u64),
    /// A formula, with what it comes to.
    Formula(Box<Formula>),
}

impl Value {
    /// A text; empty text is nothing.
    pub fn text(text: impl Into<String>) -> Self {
        let text = text.into();
        if text.is_empty() { Self::Empty } else { Self::Text(text) }
    }

    /// The text it shows, where it is one.
    pub fn as_text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            Self::Formula(formula) => match &formula.outcome {
                Outcome::Text(text) => Some(text),
                Outcome::Number(_) => None,
            },
            Self::Empty | Self::Number { .. } | Self::Count(_) => None,
        }
    }

    /// A number; what is not a number is nothing.
    pub fn number(value: f64, digits: usize) -> Self {
        if value.is_nan() { Self::Empty } else { Self::Number { value, digits } }
    }

    /// A number that may be absent.
    pub fn optional(value: Option<f64>, digits: usize) -> Self {
        value.map_or(Self::Empty, |value| Self::number(value, digits))
    }
}

/// The part a cell plays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Role {
    /// Name of the sheet's matter.
    Title,
    /// A sentence of explanation.
    Note,
    /// Heading of a column or a block.
    Head,
    /// Content of the sheet, as most cells are.
    #[default]
    Body,
    /// A sum of other cells, which stands out from them.
    Total,
    /// Something to look at: held back, short, assumed.
    Flagged,
    /// Words on what can hurt someone.
    Caution,
    /// A cell to be filled in by hand, as text.
    Blank,
    /// A value that may be changed, and that others follow.
    Input,
    /// A cell to be filled in with a number.
    Figure,
}

/// A value, and the part that it plays on its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// The value, typed until a writer lays it out.
    pub value: Value,
    /// The part it plays.
    pub role: Role,
}

impl Cell {
    /// A cell of a role.
    pub const fn new(value: Value, role: Role) -> Self {
        Self { value, role }
    }

    /// A text of content.
    pub fn text(text: impl Into<String>) -> Self {
        Self::new(Value::text(text), Role::Body)
    }

    /// A heading of a column or a block, as text.
    pub fn head(text: impl Into<String>) -> Self {
        Self::new(Value::text(text), Role::Head)
    }

    /// A number of content.
    pub fn number(value: f64, digits: usize) -> Self {
        Self::new(Value::number(value, digits), Role::Body)
    }

    /// A count as content.
    pub const fn count(count: u64) -> Self {
        Self::new(Value::Count(count), Role::Body)
    }

    /// A formula with its outcome, as content.
    pub fn formula(formula: Formula) -> Self {
        Self::new(Value::Formula(Box::new(formula)), Role::Body)
    }

    /// A cell that only keeps the next ones in their columns.
    pub const fn empty() -> Self {
        Self::new(Value::Empty, Role::Body)
    }

    /// The same cell in another role.
    #[must_use]
    pub fn with_role(mut self, role: Role) -> Self {
        self.role = role;
        self
    }
}

/// What a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// Values that may be changed.
    Input,
    /// What is counted on the way.
    Working,
    /// What is read, shown and signed.
    Presentation,
    /// What shows whether the others can be relied on.
    Control,
}

/// How a sheet is laid out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Layout {
    /// Rows that stay in sight: everything above the first row of content.
    pub frozen_rows: u32,
    /// Columns that stay in sight.
    pub frozen_columns: u16,
    /// Widths of columns, in characters.
    pub widths: Vec<f64>,
    /// Row of headings that can be filtered by, from 0.
    pub filter_row: Option<u32>,
    /// Notes across the whole width: rows (from 0) whose first cell may run over the others.
    pub wide_rows: Vec<u32>,
    /// Columns that people fill in.
    pub entries: Vec<Entry>,
    /// Notes that belong to cells.
    pub remarks: Vec<Remark>,
    /// Columns from the left that are printed on every page.
    pub repeat_columns: u16,
    /// Row of headings that is printed on every page, where nothing is filtered by it.
    pub repeat_rows: Option<u32>,
    /// Rows that begin a page.
    pub breaks: Vec<u32>,
    /// Columns that are printed, from the left; all where nothing is said.
    pub printed_columns: Option<u16>,
    /// Rows that are printed, from the top; all where nothing is said. What is left out is said at the foot of the page.
    pub printed_rows: Option<u32>,
    /// What it is for, where its tab shows that.
    pub class: Option<Class>,
    /// Whether it is left out of print: workings are read on the screen.
    pub is_unprinted: bool,
    /// What is shown of a table until the reader chooses otherwise: rows with this text in this column.
    pub filtered: Option<(u16, String)>,
    /// Rows that are as tall as other cells in their place would need: what formulas may come to say.
    pub room: Vec<(u32, Vec<Cell>)>,
    /// Cells that lead to another sheet: row, column, the sheet.
    pub links: Vec<(u32, u16, &'static str)>,
    /// Charts that follow the cells they name.
    pub charts: Vec<CellChart>,
}

/// One sheet of a workbook: its cells, and how they are laid out.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its name, at most 31 characters.
    pub name: &'static str,
    /// Rows from the top, cells from the left; rows need not be equally long.
    pub rows: Vec<Vec<Cell>>,
    /// How it is laid out.
    pub layout: Layout,
}

impl Sheet {
    /// A sheet without rows, in the plain layout.
    pub fn new(name: &'static str) -> Self {
        Self { name, rows: Vec::new(), layout: Layout::default() }
    }

    /// Shows letters that act without being seen by their number, in every cell: for sheets that people read.
    pub fn show(&mut self) {
        let shown = |text: &mut String| {
            if let Cow::Owned(shown) = plain(text) {
                *text = shown;
            }
        };
        for cell in self.rows.iter_mut().flatten() {
            match &mut cell.value {
                Value::Text(text) => shown(text),
                Value::Formula(formula) => match &mut formula.outcome {
                    Outcome::Text(text) => shown(text),
                    Outcome::Number(_) => {}
                },
                Value::Empty | Value::Number { .. } | Value::Count(_) => {}
            }
        }
    }

    /// Adds a row below the last one.
    pub fn push(&mut self, row: Vec<Cell>) {
        self.rows.push(row);
    }

    /// Adds the name of the sheet's matter.
    pub fn title(&mut self, text: impl Into<String>) {
        self.wide(text, Role::Title);
    }

    /// Adds a sentence of explanation.
    pub fn note(&mut self, text: impl Into<String>) {
        self.wide(text, Role::Note);
    }

    /// Adds a row of one cell that runs over the others.
    pub fn wide(&mut self, text: impl Into<String>, role: Role) {
        self.layout.wide_rows.push(self.rows.len() as u32);
        self.rows.push(vec![Cell::new(Value::text(text), role)]);
    }

    /// Adds an empty row.
    pub fn gap(&mut self) {
        self.rows.push(Vec::new());
    }

    /// Adds headings; what follows scrolls under them and can be filtered.
    pub fn heads<T: Into<String>>(&mut self, heads: impl IntoIterator<Item = T>) {
        self.layout.filter_row = Some(self.rows.len() as u32);
        self.rows.push(heads.into_iter().map(Cell::head).collect());
        self.layout.frozen_rows = self.rows.len() as u32;
    }
}

/// The paper that a workbook is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8.5 by 11 in.
    Letter,
}

/// All sheets of a workbook.
#[derive(Debug, Clone, PartialEq)]
pub struct Book {
    /// Title, for the file's properties and page heads.
    pub title: String,
    /// Date of the plan, where there is one.
    pub date: Option<NaiveDate>,
    /// The sheets in reading order.
    pub sheets: Vec<Sheet>,
    /// Names of cells, for formulas.
    pub names: Vec<Name>,
    /// What it is printed on.
    pub paper: Paper,
}

/// A plain table for machines: headings that end in the unit, and rows at full precision.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Grid {
    /// Headings from the left, with the unit at the end where there is one.
    pub heads: Vec<String>,
    /// Rows from the top, with values in the order of the headings.
    pub rows: Vec<Vec<Value>>,
}
