//! What came of each visit: a proven well with its requirement per scenario, a row held back with its reasons, or one that
//! a rule of the scenario file leaves out. Rows that are no wells are no visits.

use super::condition::Asked;
use crate::checks::{HeldBack, Known};
use crate::field::Field;
use crate::kernel::requirement::Stock;
use crate::place::Place;
use crate::well::Well;

/// A row of the list after the checks.
#[derive(Debug)]
#[allow(clippy::large_enum_variant)] // Nearly every row is planned: boxing wells would cost an allocation for each.
pub enum Visit {
    /// Can be computed.
    Planned {
        /// The proven well.
        well: Well,
        /// Names of the fields that were assumed, separated by blanks.
        assumed: String,
        /// Words of what a person must know before going there.
        flags: String,
        /// The cell that its water rests on most: the volume, else the diameter, else the row.
        cell: Place,
    },
    /// Cannot be computed.
    HeldBack {
        /// What is known of it.
        row: Box<HeldBack>,
        /// Codes of the findings that hold it back, separated by blanks.
        reasons: String,
        /// Words of what a person must know before going there.
        flags: String,
    },
    /// Left out by a rule of the scenario file.
    Excluded {
        /// What would have come of it.
        visit: Box<Self>,
        /// The rule's reason.
        reason: Box<str>,
    },
}

impl Visit {
    /// The proven well, where there is one.
    pub fn well(&self) -> Option<&Well> {
        match self {
            Self::Planned { well, .. } => Some(well),
            Self::HeldBack { .. } | Self::Excluded { .. } => None,
        }
    }

    /// The cell that its water rests on most, as a person finds it; empty where nothing is planned.
    pub fn cell(&self) -> String {
        match self {
            Self::Planned { cell, .. } => cell.to_string(),
            Self::HeldBack { .. } | Self::Excluded { .. } => String::new(),
        }
    }

    /// Names of the fields that were assumed, separated by blanks.
    pub fn assumed(&self) -> &str {
        match self {
            Self::Planned { assumed, .. } => assumed,
            Self::HeldBack { .. } | Self::Excluded { .. } => "",
        }
    }

    /// `planned`, `held_back` or `excluded`.
    pub fn outcome(&self) -> &str {
        match self {
            Self::Planned { .. } => "planned",
            Self::HeldBack { .. } => "held_back",
            Self::Excluded { .. } => "excluded",
        }
    }

    /// Where the list says the water can go; empty where it is not known, or the row is held back.
    pub fn discharge_route(&self) -> &str {
        self.well().and_then(|well| well.discharge_route).map_or("", |route| route.name())
    }

    /// The well's id as typed; the row's place where it has none.
    pub fn id(&self) -> &str {
        match self {
            Self::Planned { well, .. } => &well.id,
            Self::HeldBack { row, .. } => &row.id,
            Self::Excluded { visit, .. } => visit.id(),
        }
    }

    /// The visit as typed.
    pub fn visit(&self) -> &str {
        match self {
            Self::Planned { well, .. } => &well.visit,
            Self::HeldBack { row, .. } => &row.visit,
            Self::Excluded { visit, .. } => visit.visit(),
        }
    }

    /// The region as typed.
    pub fn region(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.region.as_deref().unwrap_or_default(),
            Self::HeldBack { row, .. } => row.region.as_deref().unwrap_or_default(),
            Self::Excluded { visit, .. } => visit.region(),
        }
    }

    /// The depot as typed.
    pub fn depot(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.depot.as_deref().unwrap_or_default(),
            Self::HeldBack { row, .. } => row.depot.as_deref().unwrap_or_default(),
            Self::Excluded { visit, .. } => visit.depot(),
        }
    }

    /// The type's name; empty where it is not known.
    pub fn well_type(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.well_type.name(),
            Self::HeldBack { row, .. } => row.well_type.map_or("", |kind| kind.name()),
            Self::Excluded { visit, .. } => visit.well_type(),
        }
    }

    /// The text of a field that totals may be grouped by; empty where it is not known.
    pub fn group_text(&self, field: Field) -> &str {
        match (self, field) {
            (_, Field::WellId) => self.id(),
            (_, Field::Visit) => self.visit(),
            (_, Field::Region) => self.region(),
            (_, Field::Depot) => self.depot(),
            (_, Field::WellType) => self.well_type(),
            (_, Field::Notes) => self.notes(),
            (_, Field::Status) => self.status(),
            (_, Field::CasingMaterial) => self.casing_material(),
            (_, Field::Flooded) => self.flooded(),
            (_, Field::Seawater) => self.seawater(),
            (Self::Planned { well, .. }, field) => well.text(field).unwrap_or_default(),
            (Self::HeldBack { .. }, _) => "",
            (Self::Excluded { visit, .. }, field) => visit.group_text(field),
        }
    }

    /// Columns of the list that are not fields.
    pub fn carried(&self) -> &[Box<str>] {
        match self {
            Self::Planned { well, .. } => &well.carried,
            Self::HeldBack { row, .. } => &row.carried,
            Self::Excluded { visit, .. } => visit.carried(),
        }
    }

    /// Codes that hold it back, or why it is left out; empty for a planned row.
    pub fn reasons(&self) -> &str {
        match self {
            Self::Planned { .. } => "",
            Self::HeldBack { reasons, .. } => reasons,
            Self::Excluded { reason, .. } => reason,
        }
    }
}

impl Asked for Visit {
    fn si_value(&self, field: Field) -> Option<f64> {
        match self {
            Self::Planned { well, .. } => well.si_value(field),
            Self::HeldBack { row, .. } => match row.told.known(field) {
                Some(Known::Number(si)) => Some(*si),
                _ => None,
            },
            Self::Excluded { visit, .. } => visit.si_value(field),
        }
    }

    fn text(&self, field: Field) -> Option<&str> {
        match self {
            Self::Planned { well, .. } => well.text(field),
            Self::HeldBack { row, .. } => match field {
                Field::WellId => Some(&row.id),
                Field::Visit => Some(&row.visit),
                _ => match row.told.known(field) {
                    Some(Known::Text(text)) => Some(text),
                    _ => None,
                },
            },
            Self::Excluded { visit, .. } => visit.text(field),
        }
    }

    fn flag(&self, field: Field) -> Option<bool> {
        match self {
            Self::Planned { well, .. } => well.flag(field),
            Self::HeldBack { row, .. } => match row.told.known(field) {
                Some(Known::Flag(flag)) => Some(*flag),
                _ => None,
            },
            Self::Excluded { visit, .. } => visit.flag(field),
        }
    }

    fn carried(&self) -> &[Box<str>] {
        self.carried()
    }
}

/// What a row of the treatments table needs to know of its scenario.
#[derive(Debug, Clone, Copy)]
pub struct CaseLabel<'a> {
    /// Name of the scenario.
    pub name: &'a str,
    /// Name of the product.
    pub product: &'a str,
    /// The product on the day of use.
    pub stock: &'a Stock,
}
