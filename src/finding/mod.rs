//! Findings: statements about the user's data, collected, counted and sorted; never failures of the program.
//!
//! The inventory and checks rooms make them, everything above shows them. A finding names its place, quotes what was
//! typed, gives the rule (from the [`catalogue`]) and the instance, and says what to do. No rendering here.

pub mod catalogue;

use crate::place::Place;
pub use catalogue::Code;

/// What a finding means for the well it is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The row is not computed: held back.
    Error,
    /// Computed, and marked in the results.
    Warning,
    /// Information.
    Note,
}

impl Severity {
    /// The word people read.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// One statement about the data.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Entry of the catalogue: code, name, severity, rule.
    pub code: Code,
    /// Where.
    pub place: Place,
    /// The well, where the row has an id.
    pub well: Option<Box<str>>,
    /// The text as typed; empty where the place holds nothing.
    pub seen: Box<str>,
    /// The instance, in one phrase: `57.3 m is below the bottom at 42 m`.
    pub says: Box<str>,
    /// What to do.
    pub help: Box<str>,
    /// Other places that belong to it, each with a phrase: `total depth = 42`.
    pub related: Vec<(Place, Box<str>)>,
}

impl Finding {
    /// Canonical order: file, sheet, row, column, severity, code.
    pub fn sort_key(&self) -> (&Place, Severity, &'static str) {
        (&self.place, self.code.severity(), self.code.id())
    }
}
