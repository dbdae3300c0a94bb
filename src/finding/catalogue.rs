//! The catalogue of findings: each code once, with its name, severity, rule and user page.
//!
//! Codes are permanent: a retired one is never reused. The letter is the family (F file, H heading, C cell, I identity,
//! G geometry, W water, P plausibility, A assumption, S the site and its people), never the severity. Names say the fault.

use std::cmp::Ordering;

use super::Severity;

/// One entry of the catalogue.
#[derive(Debug)]
pub struct Entry {
    /// Permanent code, such as `G203`.
    pub id: &'static str,
    /// The fault, in words joined by hyphens.
    pub name: &'static str,
    /// What it means for the row.
    pub severity: Severity,
    /// The rule, in one sentence.
    pub rule: &'static str,
    /// The user page: what it finds, why it matters, an example, how to fix it.
    pub page: &'static str,
}

/// A reference to an entry; compares and sorts by code.
#[derive(Debug, Clone, Copy)]
pub struct Code(&'static Entry);

impl Code {
    /// The four letters and figures as one number: lists raise millions of findings, and each is counted and sorted.
    const fn rank(self) -> u32 {
        match self.0.id.as_bytes() {
            [a, b, c, d] => u32::from_be_bytes([*a, *b, *c, *d]),
            _ => 0,
        }
    }
    /// Permanent code, a letter for the family and three figures: `G203`.
    pub fn id(self) -> &'static str {
        self.0.id
    }
    /// The fault, in words joined by hyphens.
    pub fn name(self) -> &'static str {
        self.0.name
    }
    /// What it means for the row.
    pub fn severity(self) -> Severity {
        self.0.severity
    }
    /// The rule that was broken or applied, in one sentence.
    pub fn rule(self) -> &'static str {
        self.0.rule
    }
    /// The user page: what it finds, why it matters, an example, how to fix it.
    pub fn page(self) -> &'static str {
        self.0.page
    }
}

impl PartialEq for Code {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}
impl Eq for Code {}
impl PartialOrd for Code {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Code {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}

macro_rules! catalogue {
    ($($constant:ident = $id:literal $name:literal $severity:ident, $rule:literal, $page:literal;)*) => {
        $(#[doc = $rule] pub const $constant: Code = Code(&Entry {
            id: $id, name: $name, severity: Severity::$severity, rule: $rule, page: $page });)*
        /// The entries of this family, in order of code.
        pub(super) const FAMILY: &[Code] = &[$($constant),*];
    };
}

macro_rules! families {
    ($($family:ident)*) => {
        $(mod $family; pub use $family::*;)*

        const COUNT: usize = 0 $(+ $family::FAMILY.len())*;

        /// Every entry: family by family, in order of code.
        pub static ALL: &[Code] = &{
            let mut all = [FIRST; COUNT];
            let mut at = 0;
            $(
                let mut one = 0;
                while one < $family::FAMILY.len() {
                    all[at] = $family::FAMILY[one];
                    at += 1;
                    one += 1;
                }
            )*
            let _ = at;
            all
        };
    };
}

/// Fills the table of all entries before they are copied into it.
const FIRST: Code = file::FAMILY[0];

families! { file heading cell identity geometry water plausibility assumption site }

/// The entry with this code or name.
pub fn find(word: &str) -> Option<Code> {
    ALL.iter().copied().find(|code| code.id().eq_ignore_ascii_case(word) || code.name() == word)
}
