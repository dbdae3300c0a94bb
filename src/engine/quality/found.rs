//! What is found of the worth of the lists.

use super::KINDS;
use crate::field::{Field, WellType};

/// A value that, measured, would narrow the span between low and high.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// Id of the well as typed.
    pub well: Box<str>,
    /// Its visit as typed; `1` where the list has no visits.
    pub visit: Box<str>,
    /// The list, with its sheet.
    pub list: Box<str>,
    /// Row as a person sees it, from 1, headings included.
    pub row: u32,
    /// Fields that were assumed, or given as a range.
    pub fields: Vec<Field>,
    /// Standing water between low and high, L.
    pub span_l: f64,
}

/// What rests on one assumption.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rested {
    /// Planned visits whose value of the field was assumed.
    pub visits: u64,
    /// Their treated water, L.
    pub volume_l: f64,
    /// Their standing water between low and high, L.
    pub span_l: f64,
}

/// The range of a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// What was measured; coordinates have no range.
    pub field: Field,
    /// Of which type of well; nothing for all.
    pub well_type: Option<WellType>,
    /// Values that were read; blank cells and those that could not be read do not count.
    pub count: u64,
    /// The least value that was read, SI.
    pub least: f64,
    /// SI; to half a per cent where the list has more than a few hundred different values.
    pub median: f64,
    /// The greatest value that was read, SI.
    pub greatest: f64,
    /// The most frequent value, SI.
    pub most_frequent: f64,
    /// How often it occurs, at least.
    pub most_frequent_count: u64,
}

/// Something worth a look: it may be right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cluster {
    /// Many values end in 0 in the list's own unit: estimates, perhaps.
    RoundNumbers {
        /// A length, a volume or a rate: what people estimate.
        field: Field,
        /// Values of ten and more.
        of: u64,
        /// Those that end in 0.
        round: u64,
    },
    /// One value stands in a great part of all rows that give any.
    OneValue {
        /// Any measured field but the number of users, which has few values by nature.
        field: Field,
        /// The value that is so frequent, SI.
        value: f64,
        /// Rows that give the field a number.
        of: u64,
        /// How often this one, at least.
        count: u64,
    },
    /// Several rows lie at one place.
    SamePlace {
        /// Decimal degrees, north positive, to the sixth decimal.
        latitude: f64,
        /// Decimal degrees, east positive, to the sixth decimal.
        longitude: f64,
        /// How many rows, at least.
        count: u64,
    },
}

/// How complete a field is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Completeness {
    /// A field that some row gives, or fails to give in a way that can be read.
    pub field: Field,
    /// Rows that give it, by type of well; last those without a type.
    pub given: [u64; KINDS],
    /// Rows in which something stands that could not be read.
    pub unread: u64,
}
