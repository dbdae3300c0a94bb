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
    /// The scenario file says something that cannot be followed.
    Scenario {
        /// The file.
        path: PathBuf,
        /// Line and column, from 1, where known.
        position: Option<(usize, usize)>,
        /// The line as written, where known.
        line: Option<String>,
        /// What is wrong and what would be right.
        reason: String,
    },
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
            Self::Scenario { path, position, line, reason } => {
                write!(f, "{}", path.display())?;
                if let Some((row, column)) = position {
                    write!(f, ":{row}:{column}")?;
                }
                write!(f, ": {reason}")?;
                if let (Some((row, column)), Some(line)) = (position, line) {
                    let number = row.to_string();
                    let margin = " ".repeat(number.len());
                    write!(f, "\n {number} | {line}\n {margin} | {}^", " ".repeat(column.saturating_sub(1)))?;
                }
                Ok(())
            }
            Self::Request(reason) => write!(f, "{reason}"),
            Self::Internal(reason) => write!(f, "this should not happen: {reason}; please report it"),
        }
    }
}

impl std::error::Error for Error {}
