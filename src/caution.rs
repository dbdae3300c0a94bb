//! The cautions: what can hurt someone or kill a stream, each once, with its text and source.
//!
//! General cautions are printed with every answer; the others are raised by a well's own data and travel with its results
//! as a small set. The kernel raises them, the reports print them. Never a substitute for local code.

mod general;
mod raised;

pub use general::{GENERAL, in_short};

use raised::RAISED;

use crate::source::{Provenance, Source};

/// What is printed of a caution: its word in the tables, its text for people, its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// The word in the `cautions` column.
    pub word: &'static str,
    /// Whole sentences, as reports and answers print them; crews' cards have shorter words of their own.
    pub text: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// A caution that a well's own data raise; the order is the order of printing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[repr(u8)]
#[allow(missing_docs)] // Each is spelled out in `RAISED`.
pub enum Caution {
    ConfinedSpace,
    SeawaterDoNotEmpty,
    FlowingWell,
    NeutralizeBeforeStream,
    SepticOverload,
    RouteUnknown,
    FlushRateUnknown,
    FlushLong,
    AboveFiveHundred,
    PhAboveEight,
    PhUnknown,
    AcidAfterNeutralizing,
    SettleLime,
    SulfiteTakesOxygen,
    MetalCasing,
    IronStains,
    AmmoniaBreakpoint,
    AgeOutOfRange,
    StockSpent,
    StockNearlyGone,
    ChlorateLeft,
    Assumed,
    HoldTooShort,
    ResidualTooLow,
    MeasureResidual,
    SpringIsolated,
    SpringFed,
    SpringInflowUnknown,
    EmptyAndRefill,
    CannotBeEmptied,
    HoursAtLeast,
    PlumbingUncounted,
    SepticKeepOut,
}

/// How many raised cautions there are.
const COUNT: usize = 33;
/// A set holds one bit for each.
const _: () = assert!(COUNT <= 64);

const fn seen(citation: &'static str) -> Source {
    Source { citation, locator: "", provenance: Provenance::Seen }
}

const fn practice() -> Source {
    Source { citation: "common practice", locator: "", provenance: Provenance::CommonPractice }
}

const fn derived(citation: &'static str) -> Source {
    Source { citation, locator: "", provenance: Provenance::Derived }
}

/// A set of raised cautions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Cautions(u64);

impl Cautions {
    /// Adds a caution to the set; raising it again changes nothing.
    pub fn raise(&mut self, caution: Caution) {
        self.0 |= 1 << caution as u8;
    }

    /// Adds a caution where `condition` holds.
    pub fn raise_if(&mut self, condition: bool, caution: Caution) {
        if condition {
            self.raise(caution);
        }
    }

    /// Whether it is raised.
    pub const fn has(self, caution: Caution) -> bool {
        self.0 >> caution as u8 & 1 == 1
    }

    /// The raised ones in order of printing.
    pub fn iter(self) -> impl Iterator<Item = &'static Entry> {
        RAISED.iter().filter(move |(caution, _)| self.has(*caution)).map(|(_, entry)| entry)
    }

    /// Their words, separated by blanks, as the `cautions` column prints them.
    pub fn words(self) -> String {
        self.iter().map(|entry| entry.word).collect::<Vec<_>>().join(" ")
    }

    /// What people read of them, separated by blanks.
    pub fn sentences(self) -> String {
        self.iter().map(|entry| entry.text).collect::<Vec<_>>().join(" ")
    }

    /// As bits, for counting and caching.
    pub const fn bits(self) -> u64 {
        self.0
    }
}

/// Every caution that a well's data can raise.
pub fn raised() -> impl Iterator<Item = (Caution, &'static Entry)> {
    RAISED.iter().map(|(caution, entry)| (*caution, entry))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_stand_in_the_order_of_the_cautions() {
        for (place, (caution, _)) in RAISED.iter().enumerate() {
            assert_eq!(*caution as usize, place);
        }
    }
}
