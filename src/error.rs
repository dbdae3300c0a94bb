//! The few ways the program itself can fail. What is wrong with the user's *data* is a finding, not an error.
//!
//! Every room returns these; only `cli` shows them. An error names the file or the option it is about, shows the line
//! where there is one, and says what would be right.

use std::fmt;
use std::path::{Path, PathBuf};

/// Shorthand used across the library.
pub type Result<T> = std::result::Result<T, Error>;

/// Why the program cannot go on.
#[derive(Debug)]
pub enum Error {
    /// An input file cannot be read at all.
    Input {
        /// The file.
        path: PathBuf,
        /// Why, in words.
        reason: String,
    },
    /// The campaign, in a scenario file or a campaign book, says things that cannot be followed: all of them, in order.
    Scenario(Vec<Fault>),
    /// An output cannot be written.
    Output {
        /// The file or folder.
        path: PathBuf,
        /// Why, in words.
        reason: String,
    },
    /// What was asked for on the command line cannot be done.
    Request(String),
    /// Something that should be impossible; the message says where.
    Internal(String),
}

impl Error {
    /// An input file that cannot be read.
    pub fn input(path: &Path, reason: impl Into<String>) -> Self {
        Self::Input { path: path.to_owned(), reason: reason.into() }
    }

    /// An output that cannot be written.
    pub fn output(path: &Path, reason: impl fmt::Display) -> Self {
        Self::Output { path: path.to_owned(), reason: reason.to_string() }
    }

    /// A request that cannot be followed.
    pub fn request(reason: impl Into<String>) -> Self {
        Self::Request(reason.into())
    }
}

/// An entry of a campaign that cannot be followed.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The scenario file or the book.
    pub path: PathBuf,
    /// Where in it.
    pub place: FaultPlace,
    /// What is wrong and what would be right.
    pub reason: String,
}

/// Where in a campaign a fault stands.
#[derive(Debug, Clone, PartialEq)]
pub enum FaultPlace {
    /// In the file as a whole.
    Whole,
    /// At a row and column of a text, from 1, with the line as written.
    Line {
        /// The row.
        row: usize,
        /// The column.
        column: usize,
        /// The line.
        line: String,
    },
    /// In a cell of a workbook, with what stands in it.
    Cell {
        /// The sheet.
        sheet: String,
        /// The cell, as a spreadsheet program shows it.
        cell: String,
        /// What is typed there.
        typed: String,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let path = self.path.display();
        match &self.place {
            FaultPlace::Whole => write!(f, "{path}: {}", self.reason),
            FaultPlace::Line { row, column, line } => {
                let number = row.to_string();
                let margin = " ".repeat(number.len());
                write!(f, "{path}:{row}:{column}: {}", self.reason)?;
                write!(f, "\n {number} | {line}\n {margin} | {}^", " ".repeat(column.saturating_sub(1)))
            }
            FaultPlace::Cell { sheet, cell, typed } => {
                write!(f, "{path}, sheet {sheet}, {cell}: {}", self.reason)?;
                match typed.is_empty() {
                    true => Ok(()),
                    false => write!(f, "\n {cell} | {typed}"),
                }
            }
        }
    }
}

/// A system error in plain words, without its number.
pub fn describe(error: &std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        std::io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        std::io::ErrorKind::UnexpectedEof | std::io::ErrorKind::InvalidInput | std::io::ErrorKind::InvalidData => {
            format!("it is damaged or cut short ({error})")
        }
        _ => error.to_string(),
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input { path, reason } if path.as_os_str() == "-" => {
                write!(f, "cannot read standard input: {reason}")
            }
            Self::Input { path, reason } => write!(f, "cannot read {}: {reason}", path.display()),
            Self::Output { path, reason } => write!(f, "cannot write {}: {reason}", path.display()),
            Self::Scenario(faults) => {
                for (place, fault) in faults.iter().enumerate() {
                    if place > 0 {
                        writeln!(f)?;
                    }
                    write!(f, "{fault}")?;
                }
                match faults.len() {
                    0 | 1 => Ok(()),
                    count => write!(f, "\n{count} entries to correct; nothing was written"),
                }
            }
            Self::Request(reason) => write!(f, "{reason}"),
            Self::Internal(reason) => write!(f, "this should not happen: {reason}; please report it"),
        }
    }
}

impl std::error::Error for Error {}
