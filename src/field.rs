//! The inventory's vocabulary: every field once, with its kind, accepted headings, units and help.
//!
//! The readers recognise headings with it, the checks take their bounds from it, overrides and groupings name fields by
//! it, and `columns`, the blank template and the README table are printed from it. Refuses to know about files.

pub mod names;
pub mod rules;
pub mod species;
mod table;

use crate::quantity::unit::{self, Dimension, Unit};

pub use table::{FIELDS, usual};

/// One field of the inventory. The order is the canonical column order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
#[allow(missing_docs)] // Each is described in the table, where people read it.
pub enum Field {
    WellId,
    Visit,
    Region,
    Depot,
    WellType,
    Latitude,
    Longitude,
    TotalDepth,
    StaticWaterLevel,
    StickUp,
    GroundElevation,
    WaterColumn,
    CasingDiameter,
    CasingOutsideDiameter,
    WallThickness,
    CasingDepth,
    OpenHoleDiameter,
    CasingMaterial,
    WaterVolume,
    PlumbingVolume,
    PumpRate,
    WellYield,
    WaterTemperature,
    Ph,
    Alkalinity,
    Iron,
    Manganese,
    Sulfide,
    AmmoniaN,
    NitriteN,
    OrganicCarbon,
    DischargeRoute,
    Flooded,
    UsersServed,
    Seawater,
    Status,
    Notes,
}

/// Title of the help sheet of a blank inventory; the reader passes over a sheet that begins with it.
pub const HELP_SHEET_TITLE: &str = "How to fill in the list of wells";

/// How the first cell of every sheet of a campaign book begins; the reader of lists passes over such sheets.
pub const BOOK_TITLE: &str = "Campaign book: ";

/// How many fields there are.
pub const FIELD_COUNT: usize = 37;

/// What a field holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// Any text; never a number, so that leading zeros live.
    Text,
    /// One of a short list; each choice with the other words accepted for it, in lower case.
    Choice(&'static [(&'static str, &'static [&'static str])]),
    /// Yes or no; a blank cell is neither.
    Flag,
    /// A number with a unit of its dimension, read into SI.
    Quantity(Quantity),
}

/// A measured quantity: its dimension, its default units, and what can be true of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity {
    /// What its units are units of; one of another dimension is an error.
    pub dimension: Dimension,
    /// Unit symbol read where none is written, by the campaign's declared system: us, metric, imperial. `None`: this
    /// field has one unit everywhere (mg/L, pH), the SI-side one named in `unit`.
    pub default_units: Option<[&'static str; 3]>,
    /// Symbol of the unit used in result tables and messages.
    pub unit: &'static str,
    /// Outside these bounds (in `unit`) a value cannot be true: the well is held back where its water is reckoned from the
    /// value, else the value is left out with a warning.
    pub possible: (f64, f64),
    /// Outside these bounds (in `unit`) a value is unlikely: computed, with a warning.
    pub plausible: (f64, f64),
    /// Whether zero can be a measurement; where it cannot, a zero is a missing value in disguise.
    pub zero_possible: bool,
}

impl Quantity {
    /// The unit that is usual in a system, or that of results where nobody has said which system.
    pub fn unit_in(&self, system: Option<rules::UnitSystem>) -> Option<&'static Unit> {
        let usual = system.zip(self.default_units).map(|(system, units)| units[system.index()]);
        unit::by_symbol(usual.unwrap_or(self.unit))
    }
}

/// Whether two bounds hold a value, forgiving the last bits of a conversion.
pub fn within((low, high): (f64, f64), value: f64) -> bool {
    let slack = 1e-9 * (low.abs() + high.abs());
    (low - slack..=high + slack).contains(&value)
}

/// One row of the vocabulary.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Definition {
    /// The field that the row defines; rows stand in the order of the enum.
    pub field: Field,
    /// Canonical heading, also the name in conditions and scenario files.
    pub name: &'static str,
    /// What its cells hold, and so how they are read.
    pub kind: Kind,
    /// Other headings accepted, folded (lower case, words separated by single blanks, no unit).
    pub headings: &'static [&'static str],
    /// One sentence for the person filling the list in.
    pub help: &'static str,
}

/// Letters and digits only, in lower case.
pub fn squash(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Whether two columns that are not fields are one: `Road no.` and `ROAD NO.` are.
pub fn same_column(one: &str, other: &str) -> bool {
    one == other || one.to_lowercase() == other.to_lowercase()
}

impl Field {
    /// The row of the vocabulary for this field.
    pub fn definition(self) -> &'static Definition {
        &FIELDS[self as usize]
    }

    /// Whether it holds names that totals are grouped by, which people spell in several ways.
    pub const fn is_name_of_places(self) -> bool {
        matches!(self, Self::Depot | Self::Region)
    }

    /// Canonical heading, also the name in conditions and scenario files: `total_depth`.
    pub fn name(self) -> &'static str {
        self.definition().name
    }

    /// The field with this canonical name.
    pub fn by_name(name: &str) -> Option<Self> {
        FIELDS.iter().find(|definition| definition.name == name).map(|definition| definition.field)
    }

    /// The field that is known under this heading, where the heading says nothing of a unit.
    pub fn by_heading(heading: &str) -> Option<Self> {
        let wanted = squash(heading);
        let knows = |definition: &&Definition| definition.headings.iter().any(|known| squash(known) == wanted);
        FIELDS.iter().find(knows).map(|definition| definition.field)
    }

    /// The quantity this field measures, if it measures one.
    pub fn quantity(self) -> Option<&'static Quantity> {
        match &self.definition().kind {
            Kind::Quantity(quantity) => Some(quantity),
            _ => None,
        }
    }
}

/// The five types of well.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum WellType {
    /// Rotary, percussion or cable-tool borehole with casing.
    Drilled,
    /// Driven or jetted point.
    Driven,
    /// Augered, large diameter, usually lined with tile or concrete.
    Bored,
    /// Dug by hand or excavator.
    Dug,
    /// Spring with a collection box.
    SpringBox,
}

impl WellType {
    /// All types, in canonical order.
    pub const ALL: [Self; 5] = [Self::Drilled, Self::Driven, Self::Bored, Self::Dug, Self::SpringBox];

    /// The word used in inventories, conditions and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drilled => "drilled",
            Self::Driven => "driven",
            Self::Bored => "bored",
            Self::Dug => "dug",
            Self::SpringBox => "spring_box",
        }
    }

    /// The type with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }
}

/// Where the flushed water goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum DischargeRoute {
    /// Spread on open ground away from water, where chlorine decays.
    Land,
    /// A storm drain, gutter, culvert or road ditch, which is a stream further on.
    StormDrain,
    /// A stream, ditch with flow, pond or lake.
    Stream,
    /// A public sanitary sewer, with its owner's permission.
    SanitarySewer,
    /// An on-site septic system.
    Septic,
    /// Hauled away in a tank.
    Hauled,
}

impl DischargeRoute {
    /// All routes, in canonical order.
    pub const ALL: [Self; 6] =
        [Self::Land, Self::StormDrain, Self::Stream, Self::SanitarySewer, Self::Septic, Self::Hauled];

    /// The word used in inventories, scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Land => "land",
            Self::StormDrain => "storm_drain",
            Self::Stream => "stream",
            Self::SanitarySewer => "sanitary_sewer",
            Self::Septic => "septic",
            Self::Hauled => "hauled",
        }
    }

    /// The route with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|route| route.name() == name)
    }
}
