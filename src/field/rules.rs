//! What the scenario file says about reading the list: headings, units, gallon, missing values, repeats.
//!
//! Plain data, filled by the scenario room (or by the command line) and obeyed by the inventory and checks rooms.

use std::collections::{BTreeMap, BTreeSet};

use super::{Field, WellType};
use crate::quantity::unit::{Gallon, Unit};

/// How people of this campaign measure: decides bare gallons and headings without a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum UnitSystem {
    /// Feet, inches, US gallons.
    Us,
    /// Metres, millimetres, litres.
    Metric,
    /// Feet, inches, imperial gallons.
    Imperial,
}

impl UnitSystem {
    /// Place of this system in [`super::Quantity::default_units`].
    pub const fn index(self) -> usize {
        match self {
            Self::Us => 0,
            Self::Metric => 1,
            Self::Imperial => 2,
        }
    }

    /// The word of the scenario file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// What a bare gallon means; nothing in a metric campaign.
    pub const fn gallon(self) -> Option<Gallon> {
        match self {
            Self::Us => Some(Gallon::Us),
            Self::Metric => None,
            Self::Imperial => Some(Gallon::Imperial),
        }
    }
}

/// What to do with several rows of one well and one visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RepeatPolicy {
    /// The first row is planned, each later one is held back with a finding.
    #[default]
    HoldBack,
    /// Each row is a visit of its own, numbered in reading order.
    SeparateVisits,
    /// Of each well only the latest visit is planned; the others are held back with a finding.
    Latest,
}

/// A value assumed where the list says nothing: low, mid and high, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumption {
    /// The lowest value considered.
    pub low: f64,
    /// The value planned with.
    pub mid: f64,
    /// The highest value considered.
    pub high: f64,
}

/// Everything the campaign says about reading its lists.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ReadingRules {
    /// The campaign's declared system, if it declared one.
    pub system: Option<UnitSystem>,
    /// Headings mapped by hand: heading as written → field; `None` leaves the column out of the fields.
    pub columns: BTreeMap<String, Option<Field>>,
    /// Units imposed on a field, whatever the heading says nothing about.
    pub units: BTreeMap<Field, &'static Unit>,
    /// Further texts that mean "not known", beside the built-in ones.
    pub missing_texts: Vec<String>,
    /// Assumed values for missing fields, by well type.
    pub assumptions: BTreeMap<(WellType, Field), Assumption>,
    /// Missing fields whose value is drawn from the list's own wells of the same type and region, before
    /// [`Self::assumptions`] is asked.
    pub drawn: BTreeSet<(WellType, Field)>,
    /// Values used for a whole field where its cell is blank, as text to be read like a cell (`well_type = "drilled"`).
    pub fixed: BTreeMap<Field, String>,
    /// Repeated rows.
    pub repeats: RepeatPolicy,
    /// The campaign's box: south, west, north, east, in degrees.
    pub bounding_box: Option<[f64; 4]>,
}
