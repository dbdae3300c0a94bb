//! The few ways the program itself can fail. What is wrong with the user's *data* is a finding, not an error.
//!
//! Every room returns these; only `cli` shows them. An error names the file or the option it is about, shows the line
//! where there is one, and says what would be right.

use std::fmt;
use std::path::{Path, PathBuf};

/// Shorthand used across the library.
pub type Result<T> = std::result::Result<T, Error>;

/// What went wrong below an error of ours.
pub type Cause = Box<dyn std::error::Error + Send + Sync>;

/// Why the program cannot go on.
#[derive(Debug)]
pub enum Error {
    /// An input file cannot be read at all.
    Input {
        /// The file or the folder that was to be read.
        path: PathBuf,
        /// Why it cannot be read, as a phrase for people.
        reason: String,
        /// What went wrong below, where something did.
        cause: Option<Cause>,
    },
    /// The campaign, in a scenario file or a campaign book, says things that cannot be followed: all of them, in order.
    Scenario(Vec<Fault>),
    /// An output cannot be written.
    Output {
        /// The file or folder.
        path: PathBuf,
        /// Why it cannot be written, as a phrase for people.
        reason: String,
        /// What went wrong below, where something did.
        cause: Option<Cause>,
    },
    /// What was asked for on the command line cannot be done.
    Request(String),
    /// Something that should be impossible; the message says where.
    Internal(String),
}

impl Error {
    /// An input file that cannot be read.
    pub fn input(path: &Path, reason: impl Into<String>) -> Self {
        Self::Input { path: path.to_owned(), reason: reason.into(), cause: None }
    }

    /// An input file that the system could not read, with its error as the cause.
    pub fn unread(path: &Path, error: std::io::Error) -> Self {
        Self::Input { path: path.to_owned(), reason: describe(&error), cause: Some(Box::new(error)) }
    }

    /// An input file that a library could not read, in its words, with its error as the cause.
    pub fn unreadable(path: &Path, error: impl std::error::Error + Send + Sync + 'static) -> Self {
        Self::Input { path: path.to_owned(), reason: error.to_string(), cause: Some(Box::new(error)) }
    }

    /// An output that cannot be written.
    pub fn output(path: &Path, reason: impl fmt::Display) -> Self {
        Self::Output { path: path.to_owned(), reason: reason.to_string(), cause: None }
    }

    /// An output that could not be written, with the error below as the cause.
    pub fn unwritten(path: &Path, error: impl std::error::Error + Send + Sync + 'static) -> Self {
        Self::Output { path: path.to_owned(), reason: error.to_string(), cause: Some(Box::new(error)) }
    }

    /// Goes on past entries of a campaign that cannot be followed, and tells all of them at once.
    ///
    /// # Errors
    /// [`Error::Scenario`] with every fault; at once with an error that is no fault of the campaign.
    pub fn all_told(results: impl IntoIterator<Item = Result<()>>) -> Result<()> {
        let mut faults = Vec::new();
        for result in results {
            match result {
                Ok(()) => {}
                // One entry may be what several others rest on.
                Err(Self::Scenario(more)) => {
                    let new: Vec<_> = more.into_iter().filter(|fault| !faults.contains(fault)).collect();
                    faults.extend(new);
                }
                Err(other) => return Err(other),
            }
        }
        if faults.is_empty() { Ok(()) } else { Err(Self::Scenario(faults)) }
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
    /// The line or the cell that is meant, or the file as a whole.
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
        /// Number of the line in the file, from 1.
        row: usize,
        /// Letter of the line at which it begins, from 1.
        column: usize,
        /// The line as written; a long one ends in `…` some way behind the place.
        line: String,
    },
    /// In a cell of a workbook, with what stands in it.
    Cell {
        /// Name of the sheet as its tab shows it.
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
            Self::Input { path, reason, .. } if path.as_os_str() == "-" => {
                write!(f, "cannot read standard input: {reason}")
            }
            Self::Input { path, reason, .. } => write!(f, "cannot read {}: {reason}", path.display()),
            Self::Output { path, reason, .. } => write!(f, "cannot write {}: {reason}", path.display()),
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

impl std::error::Error for Error {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Input { cause, .. } | Self::Output { cause, .. } => {
                cause.as_deref().map(|cause| cause as &(dyn std::error::Error + 'static))
            }
            Self::Scenario(_) | Self::Request(_) | Self::Internal(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::error::Error as _;

    use super::*;

    #[test]
    fn an_error_keeps_its_cause_and_says_the_same() {
        let path = Path::new("wells.csv");
        let missing = || std::io::Error::from(std::io::ErrorKind::NotFound);
        let error = Error::unread(path, missing());
        assert_eq!(error.to_string(), Error::input(path, describe(&missing())).to_string());
        let kept = error.source().and_then(|cause| cause.downcast_ref::<std::io::Error>());
        assert_eq!(kept.map(std::io::Error::kind), Some(std::io::ErrorKind::NotFound));
        let error = Error::unwritten(path, missing());
        assert_eq!(error.to_string(), Error::output(path, missing()).to_string());
        assert!(error.source().is_some() && Error::input(path, "empty").source().is_none());
    }
}
