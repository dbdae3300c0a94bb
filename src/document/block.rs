//! The blocks of a document: headline, paragraph, list, table, key figures, chart, map, form, caution.
//!
//! A block says what there is to read, never what it looks like. Numbers stay typed and keep their unit until a writer lays
//! them out; every picture carries its text alternative.

use super::cell::{Cell, Value};
use super::chart::{Chart, Map};

/// A document to be read from the top.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Document {
    /// What it is about.
    pub title: String,
    /// One line under the title.
    pub subtitle: String,
    /// Sections in reading order.
    pub sections: Vec<Section>,
}

/// A part of a document under one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Name for links; letters and hyphens.
    pub id: &'static str,
    /// Heading that is printed above it, and its entry among the contents.
    pub title: String,
    /// Whether it is printed on one page of its own.
    pub own_page: bool,
    /// Its content in reading order.
    pub blocks: Vec<Block>,
}

impl Section {
    /// A section that flows on after the one before it.
    pub fn new(id: &'static str, title: impl Into<String>) -> Self {
        Self { id, title: title.into(), own_page: false, blocks: Vec::new() }
    }

    /// Adds a block below those that are there.
    pub fn push(&mut self, block: impl Into<Block>) {
        self.blocks.push(block.into());
    }

    /// Adds a sentence or several.
    pub fn say(&mut self, text: impl Into<String>) {
        self.push(Paragraph::new(text, Tone::Plain));
    }

    /// Adds a sentence that must not be overlooked.
    pub fn flag(&mut self, text: impl Into<String>) {
        self.push(Paragraph::new(text, Tone::Flagged));
    }

    /// Adds a remark in small type.
    pub fn remark(&mut self, text: impl Into<String>) {
        self.push(Paragraph::new(text, Tone::Small));
    }

    /// Adds a heading inside the section.
    pub fn headline(&mut self, text: impl Into<String>) {
        self.push(Block::Headline(text.into()));
    }
}

/// Something to read as a whole; how it looks is the writer's business.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading inside a section.
    Headline(String),
    /// Sentences that belong together, with their tone.
    Paragraph(Paragraph),
    /// Items, counted where their order matters.
    List(List),
    /// Rows and columns under a caption.
    Table(Table),
    /// A few figures that stand out.
    Figures(Vec<KeyFigure>),
    /// Numbers as bars, lines or points, with the same in words.
    Chart(Chart),
    /// Places by their coordinates, with the same in words.
    Map(Map),
    /// Lines to fill in by hand.
    Form(Form),
    /// What can hurt someone.
    Caution(Caution),
    /// Blocks that stand beside one another where the page is wide enough.
    Beside(Vec<Self>),
    /// Blocks that are folded away until somebody asks for them, under a line that says what they are.
    Folded(String, Vec<Self>),
}

/// How a paragraph is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tone {
    /// As running text, neither first nor marked.
    #[default]
    Plain,
    /// As the answer that the section is there for.
    Lead,
    /// As a remark in small type, which may be skipped.
    Small,
    /// As a warning about the figures.
    Flagged,
}

/// Sentences that belong together, all in one tone.
#[derive(Debug, Clone, PartialEq)]
pub struct Paragraph {
    /// The sentences as letters alone, without markup.
    pub text: String,
    /// How it is meant.
    pub tone: Tone,
}

impl Paragraph {
    /// Sentences meant in some way.
    pub fn new(text: impl Into<String>, tone: Tone) -> Self {
        Self { text: text.into(), tone }
    }
}

/// Short texts below one another.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Whether their order matters.
    pub counted: bool,
    /// Texts from the top; numbered from 1 where their order matters.
    pub items: Vec<String>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Heading without the unit.
    pub title: String,
    /// Unit of its numbers; empty for texts and pure numbers.
    pub unit: String,
}

impl Column {
    /// A column of texts or pure numbers.
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), unit: String::new() }
    }

    /// A column of numbers in a unit.
    pub fn of(title: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { title: title.into(), unit: unit.into() }
    }

    /// Title, with its unit behind it in brackets if it has one: `Cost (USD)`.
    pub fn heading(&self) -> String {
        if self.unit.is_empty() { self.title.clone() } else { format!("{} ({})", self.title, self.unit) }
    }
}

/// A table whose first column names its rows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What the rows show, printed with the table and read out for it.
    pub caption: String,
    /// Columns from the left; the first holds the names of the rows.
    pub columns: Vec<Column>,
    /// Rows of cells; a row may be shorter than the columns.
    pub rows: Vec<Vec<Cell>>,
    /// Whether its rows are of one kind, so that people may sort and filter them.
    pub sortable: bool,
}

impl Table {
    /// A table whose rows may be sorted.
    pub fn new(caption: impl Into<String>, columns: Vec<Column>) -> Self {
        Self { caption: caption.into(), columns, rows: Vec::new(), sortable: true }
    }

    /// Whether a column holds numbers.
    pub fn is_numeric(&self, column: usize) -> bool {
        let mut cells = self.rows.iter().filter_map(|row| row.get(column));
        cells.any(|cell| matches!(cell.value, Value::Number { .. } | Value::Count(_)))
    }
}

/// One figure that stands out.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyFigure {
    /// What the figure counts, in a few words.
    pub label: String,
    /// The figure with the digits that are shown of it.
    pub value: Value,
    /// Its unit; empty for a pure number.
    pub unit: String,
    /// What belongs beside it: its range, what it is of.
    pub note: String,
}

/// Lines to fill in by hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// What is filled in.
    pub title: String,
    /// Labels of the lines, from the top; each is followed by room for a pen.
    pub lines: Vec<String>,
}

/// What can hurt someone.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// What to do or to leave, in a sentence or two.
    pub text: String,
    /// How many it concerns, where that is counted, and where it comes from.
    pub note: String,
}

impl From<Paragraph> for Block {
    fn from(paragraph: Paragraph) -> Self {
        Self::Paragraph(paragraph)
    }
}

impl From<Table> for Block {
    fn from(table: Table) -> Self {
        Self::Table(table)
    }
}

impl From<Chart> for Block {
    fn from(chart: Chart) -> Self {
        Self::Chart(chart)
    }
}
