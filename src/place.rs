//! Where a datum came from: file, sheet, row and column, as a spreadsheet or a text editor shows them.
//!
//! The readers make places, findings carry them, nobody else needs them. Counting is from 1; in a text file a row
//! is a record: a line break inside a quoted cell begins no other one. Conversion from a library's counting happens once, in the readers.

use std::fmt;
use std::ops::Deref;
use std::sync::Arc;

/// One table of an input: a text file, or one sheet of a workbook. Cheap to clone: millions of places name it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Origin(Arc<Names>);

/// What a table is called.
#[derive(Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Names {
    /// The file, as it was named by the user (file name only, so that reports do not depend on folders).
    pub file: Box<str>,
    /// The sheet, where the file has sheets.
    pub sheet: Option<Box<str>>,
}

impl Deref for Origin {
    type Target = Names;

    fn deref(&self) -> &Names {
        &self.0
    }
}

impl Origin {
    /// A file without sheets.
    pub fn file(name: &str) -> Self {
        Self(Arc::new(Names { file: name.into(), sheet: None }))
    }

    /// A sheet of a workbook.
    pub fn sheet(file: &str, sheet: &str) -> Self {
        Self(Arc::new(Names { file: file.into(), sheet: Some(sheet.into()) }))
    }
}

/// A column: its number from 1 and its heading as written.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Column {
    /// Counted from 1 at the left, unnamed columns included.
    pub number: u32,
    /// The heading as written; empty where there is none.
    pub heading: Arc<str>,
}

impl Column {
    /// The letters a spreadsheet shows for this column: A, B, … Z, AA, …
    pub fn letters(&self) -> String {
        let mut number = self.number;
        let mut letters = Vec::new();
        while number > 0 {
            number -= 1;
            letters.push(char::from(b'A' + (number % 26) as u8));
            number /= 26;
        }
        letters.iter().rev().collect()
    }
}

/// A place in the input; absent parts mean "the whole file", "the whole sheet", "the whole row".
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// File, and sheet where the file has sheets.
    pub origin: Origin,
    /// Row as shown to a person, from 1, headings included.
    pub row: Option<u32>,
    /// Column of the cell; `None` for a whole row, sheet or file.
    pub column: Option<Column>,
}

impl Place {
    /// The whole of an origin.
    pub fn whole(origin: &Origin) -> Self {
        Self { origin: origin.clone(), row: None, column: None }
    }

    /// A whole row, counted from 1 as a person sees it.
    pub fn row(origin: &Origin, row: u32) -> Self {
        Self { origin: origin.clone(), row: Some(row), column: None }
    }

    /// One cell: the row counted from 1, the column with its heading.
    pub fn cell(origin: &Origin, row: u32, column: &Column) -> Self {
        Self { origin: origin.clone(), row: Some(row), column: Some(column.clone()) }
    }
}

impl fmt::Display for Place {
    /// `wells.xlsx!North:F14` for a workbook, `wells.csv:14:6` for text.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.origin.file)?;
        match &self.origin.sheet {
            Some(sheet) => {
                write!(f, "!{sheet}")?;
                match (&self.column, self.row) {
                    (Some(column), Some(row)) => write!(f, ":{}{row}", column.letters()),
                    (None, Some(row)) => write!(f, ":{row}"),
                    (Some(column), None) => write!(f, ":{}", column.letters()),
                    (None, None) => Ok(()),
                }
            }
            None => match (self.row, &self.column) {
                (Some(row), Some(column)) => write!(f, ":{row}:{}", column.number),
                (Some(row), None) => write!(f, ":{row}"),
                (None, Some(column)) => write!(f, ":column {}", column.number),
                (None, None) => Ok(()),
            },
        }
    }
}
