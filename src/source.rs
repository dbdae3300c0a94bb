//! What a citation is: [`Source`] for a document, [`Equation`] for a relation that the kernel computes.
//!
//! Every constant and every formula of the kernel carries one of these, as data, so that the workbook's Method sheet,
//! `explain` and the tests print from the same place. Refuses to know what is being computed.

/// How a value came to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Provenance {
    /// The text was read in the document named.
    Seen,
    /// Recalled, with the document named, but its text was not read: verify before relying on it.
    FromMemory,
    /// Derived by us from exact definitions or stoichiometry.
    Derived,
    /// Common practice of the trade, no single source.
    CommonPractice,
}

impl Provenance {
    /// The mark printed beside a source.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Seen => "read in source",
            Self::FromMemory => "not checked against the source",
            Self::Derived => "derived",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// A document, with the place in it, and how it was met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// Author, title, edition, year.
    pub citation: &'static str,
    /// Page, table or section; empty for the whole.
    pub locator: &'static str,
    /// How it came to us.
    pub provenance: Provenance,
}

/// A relation that the kernel computes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equation {
    /// Permanent id, such as `V1`; never reused.
    pub id: &'static str,
    /// What it gives, in words.
    pub name: &'static str,
    /// The relation, as a reader would write it.
    pub statement: &'static str,
    /// Each symbol with its unit and meaning.
    pub symbols: &'static [(&'static str, &'static str, &'static str)],
    /// Limits of validity, and what happens outside them.
    pub validity: &'static str,
    /// Where it comes from.
    pub sources: &'static [Source],
    /// Ids of outside checks in the tests that hold it (fixture rows or named tests).
    pub checks: &'static [&'static str],
}
