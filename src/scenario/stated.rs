//! What a campaign states, as a tree of values that know their place: the line of a scenario file, or the cell of a book.
//!
//! [`super::file_text`] and the book's reader make it; the readers of this room pull values out of it through
//! [`Section`](super::section::Section). Refuses to know what the keys mean.

use std::cell::RefCell;
use std::ops::Range;
use std::path::{Path, PathBuf};

use super::in_words::in_words;
use crate::error::{Error, Fault, FaultPlace};

/// Letters of a line that are shown after the place that is meant.
const MOST_AFTER: usize = 160;

/// Where a key or a value of the campaign is written.
#[derive(Debug, Clone, PartialEq)]
pub enum At {
    /// In the text of a scenario file, in bytes.
    Bytes(Range<usize>),
    /// In a cell of a book.
    Cell {
        /// Name of the sheet as its tab shows it.
        sheet: String,
        /// The cell, as a spreadsheet program shows it.
        cell: String,
        /// What is typed there.
        typed: String,
    },
}

/// A value and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// The value as written, before any parameter has judged it.
    pub value: Written,
    /// Where the value is written, for the faults that are told of it.
    pub at: At,
}

/// A value as it is written.
#[derive(Debug, Clone, PartialEq)]
pub enum Written {
    /// A text, which may be a quantity with its unit: `30 gal`.
    Text(String),
    /// A number; not a number where it is too great to be one.
    Number(f64),
    /// A choice between true and false.
    Flag(bool),
    /// A day, or a day with a time, as written.
    Date(String),
    /// Values in the order in which they are written.
    List(Vec<Stated>),
    /// Keys with values of their own.
    Table(Table),
}

/// Keys with their values, in the order in which they are written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Keys with their values, from the top.
    pub entries: Vec<Entry>,
}

/// A key with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key as written, whether a vocabulary knows it or not.
    pub key: String,
    /// Where the key stands.
    pub key_at: At,
    /// The value with its own place.
    pub stated: Stated,
}

impl Table {
    /// The value under a key.
    pub fn get(&self, key: &str) -> Option<&Stated> {
        self.entries.iter().find(|entry| entry.key == key).map(|entry| &entry.stated)
    }

    /// Adds a key with its value, both in one place.
    pub fn put(&mut self, key: impl Into<String>, value: Written, at: At) {
        self.entries.push(Entry { key: key.into(), key_at: at.clone(), stated: Stated { value, at } });
    }
}

impl Written {
    /// The text, where it is one.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The list, where it is one.
    pub fn list(&self) -> Option<&[Stated]> {
        match self {
            Self::List(list) => Some(list),
            _ => None,
        }
    }

    /// The table, where it is one.
    pub fn table(&self) -> Option<&Table> {
        match self {
            Self::Table(table) => Some(table),
            _ => None,
        }
    }

    /// What kind of value it is, in words.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Text(_) => "a text",
            Self::Number(number) if !number.is_finite() => "one without end",
            Self::Number(_) => "a number",
            Self::Flag(_) => "true or false",
            Self::Date(_) => "a date",
            Self::List(_) => "a list",
            Self::Table(_) => "a table",
        }
    }
}

/// A place in a campaign, kept for errors that are found later (a condition on a column that no list has).
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    path: PathBuf,
    place: FaultPlace,
}

impl Spot {
    /// A fault at this place.
    pub fn fault(&self, reason: impl Into<String>) -> Fault {
        let mut reason = reason.into();
        if matches!(self.place, FaultPlace::Cell { .. }) {
            reason = in_words(&reason);
        }
        Fault { path: self.path.clone(), place: self.place.clone(), reason }
    }

    /// An error at this place.
    pub fn error(&self, reason: impl Into<String>) -> Error {
        Error::Scenario(vec![self.fault(reason)])
    }

    /// The place in a few words: `sheet Stock, B4`, `line 12`.
    pub fn words(&self) -> String {
        match &self.place {
            FaultPlace::Whole => "the whole file".to_owned(),
            FaultPlace::Line { row, .. } => format!("line {row}"),
            FaultPlace::Cell { sheet, cell, .. } => format!("sheet {sheet}, {cell}"),
        }
    }
}

/// A refusal, with its place in the campaign where there is one: what a command line asks for has none.
pub fn refusal(spot: Option<&Spot>, reason: impl Into<String>) -> Error {
    match spot {
        Some(spot) => spot.error(reason),
        None => Error::request(reason),
    }
}

/// The file that a campaign is stated in, and everything that is wrong with it so far.
#[derive(Debug)]
pub struct Document<'a> {
    path: &'a Path,
    /// The text, where it is one.
    content: &'a str,
    faults: RefCell<Vec<Fault>>,
    /// Places whose value is refused already: what follows from that is no fault of its own.
    refused: RefCell<Vec<At>>,
}

impl<'a> Document<'a> {
    /// A file with its text; a book has none.
    pub fn new(path: &'a Path, content: &'a str) -> Self {
        Self { path, content, faults: RefCell::default(), refused: RefCell::default() }
    }

    /// The text of the scenario file, which places are counted in; a book has none.
    pub fn content(&self) -> &'a str {
        self.content
    }

    /// A place, as people see it.
    pub fn spot(&self, at: &At) -> Spot {
        let place = match at {
            At::Bytes(span) => self.line(span),
            At::Cell { sheet, cell, typed } => {
                FaultPlace::Cell { sheet: sheet.clone(), cell: cell.clone(), typed: shortened(typed) }
            }
        };
        Spot { path: self.path.to_owned(), place }
    }

    fn line(&self, span: &Range<usize>) -> FaultPlace {
        let start = span.start.min(self.content.len());
        let before = &self.content[..start];
        let row = before.matches('\n').count() + 1;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = self.content[line_start..].lines().next().unwrap_or_default();
        let column = before[line_start..].chars().count() + 1;
        let shown = column + MOST_AFTER;
        let line = match line.char_indices().nth(shown) {
            Some((end, _)) => format!("{} …", &line[..end]),
            None => line.to_owned(),
        };
        FaultPlace::Line { row, column, line }
    }

    /// Notes what is wrong at a place; reading goes on.
    pub fn fault(&self, at: &At, reason: impl Into<String>) {
        if matches!(at, At::Cell { .. }) && self.refused.borrow().contains(at) {
            return;
        }
        let fault = self.spot(at).fault(reason);
        let mut faults = self.faults.borrow_mut();
        if !faults.contains(&fault) {
            faults.push(fault);
        }
    }

    /// Notes that the value of a cell cannot be read; nothing more is said of it. What stands for it is a number that is none.
    pub fn refuse(&self, at: &At, reason: impl Into<String>) -> Written {
        self.fault(at, reason);
        self.refused.borrow_mut().push(at.clone());
        Written::Number(f64::NAN)
    }

    /// Everything that is wrong, in the order of the text; nothing where all can be followed.
    pub fn refusal(&self) -> Option<Error> {
        let mut faults = self.faults.take();
        // Cells stay in the order in which they were read: that of the sheets.
        faults.sort_by_key(|fault| match &fault.place {
            FaultPlace::Line { row, column, .. } => (*row, *column),
            _ => (0, 0),
        });
        (!faults.is_empty()).then_some(Error::Scenario(faults))
    }
}

fn shortened(typed: &str) -> String {
    let tame: String = typed.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    match tame.char_indices().nth(MOST_AFTER) {
        Some((end, _)) => format!("{} …", &tame[..end]),
        None => tame,
    }
}
