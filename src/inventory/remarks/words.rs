//! The words that remarks are told by: English by common practice of the trade, no source; French, Spanish and Portuguese from
//! memory. Letters without accents, lower case.

mod anchors;
mod bottoms;
mod doubts;
mod later;
mod levels;
mod numbers;
mod pipes;

pub(super) use anchors::anchor;
pub use anchors::{ANCHORS, Way};
pub(super) use bottoms::{CAVED, GOES_DOWN, LEFT, SOUNDING};
pub(super) use doubts::{DOUBTED, WROTE, is_unknown};
pub use doubts::{SAYS, VERIFY};
pub(super) use later::{ANEW, CONFIRMED, DAYS, MONTHS, ONCE_MORE, OUTRIGHT, SEASONS, TAKEN, WRONG};
pub(super) use levels::{AGAIN, MEASUREMENT, MEASURING, MOVED, NO_LEVEL, NOW, PASSING, REPEATED, RUNNING, WATER};
pub(super) use numbers::{ABOUT, BY, COUNTED_FROM, MEASURES, OTHER_UNITS, STOPS, TO};
pub use pipes::PIPES;
pub(super) use pipes::{CASED, RINGS};
