//! Findings: statements about the user's data, collected, counted and sorted; never failures of the program.
//!
//! The inventory and checks rooms make them, everything above shows them. A finding names its place, quotes what was
//! typed, gives the rule (from the [`catalogue`]) and the instance, and says what to do. No rendering here.

pub mod catalogue;
mod words;

use std::ops::{Deref, DerefMut};

use compact_str::CompactString;

use crate::place::Place;
pub use catalogue::Code;
pub use words::Words;

/// What a finding means for the well it is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The row is not computed: held back.
    Error,
    /// Computed, and marked in the results.
    Warning,
    /// Computed; it tells people how something was read, or what stands out.
    Note,
}

impl Severity {
    /// The word programs read, in JSON; it stays as it is.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }

    /// The word people read: what it does to the well.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Error => "held back",
            Self::Warning => "check",
            Self::Note => "note",
        }
    }
}

/// Other places that belong to a finding, each with a phrase: `total depth = 42`.
pub type Related = Vec<(Place, Box<str>)>;

/// One statement about the data; a pointer, because they are passed on and sorted by the million.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding(Box<Statement>);

/// What a finding says.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// Entry of the catalogue: code, name, severity, rule.
    pub code: Code,
    /// The cell, row, sheet or file that it is about.
    pub place: Place,
    /// The well, where the row has an id.
    pub well: Option<CompactString>,
    /// The text as typed; empty where the place holds nothing.
    pub seen: CompactString,
    /// The instance, in one phrase: `57.3 m is below the bottom at 42 m`.
    pub says: Words,
    /// What whoever keeps the list should do, in a phrase.
    pub help: Words,
    /// What was probably meant, as it would stand in the cell: asked for, never taken.
    pub suggested: Option<Box<str>>,
    /// Other places that belong to it.
    pub related: Related,
}

impl Deref for Finding {
    type Target = Statement;

    fn deref(&self) -> &Statement {
        &self.0
    }
}

impl DerefMut for Finding {
    fn deref_mut(&mut self) -> &mut Statement {
        &mut self.0
    }
}

impl Finding {
    /// A finding at a place, about no well and no text in particular.
    pub fn new(code: Code, place: Place, says: impl Into<Words>, help: impl Into<Words>) -> Self {
        Self(Box::new(Statement {
            code,
            place,
            well: None,
            seen: CompactString::default(),
            says: says.into(),
            help: help.into(),
            suggested: None,
            related: Vec::new(),
        }))
    }

    /// Quotes what was typed.
    #[must_use]
    pub fn seen(mut self, typed: &str) -> Self {
        self.seen = typed.into();
        self
    }

    /// With the id of the well as typed; `None` where the row has none.
    #[must_use]
    pub fn of_well(mut self, id: Option<&str>) -> Self {
        self.well = id.map(Into::into);
        self
    }

    /// Points to other places.
    #[must_use]
    pub fn related(mut self, related: Related) -> Self {
        self.related = related;
        self
    }

    /// Says what was probably meant.
    #[must_use]
    pub fn suggesting(mut self, text: Option<String>) -> Self {
        self.suggested = text.map(Into::into);
        self
    }

    /// Canonical order: file, sheet, row, column, severity, code.
    pub fn sort_key(&self) -> (&Place, Severity, Code) {
        (&self.place, self.code.severity(), self.code)
    }
}
