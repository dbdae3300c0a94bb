//! What came of each visit: a proven well with its requirement per scenario, or a row held back with its reasons.

use crate::checks::HeldBack;
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
        /// The cell that its water rests on most: the volume, else the diameter, else the row.
        cell: Place,
    },
    /// Cannot be computed.
    HeldBack {
        /// What is known of it.
        row: Box<HeldBack>,
        /// Codes of the findings that hold it back, separated by blanks.
        reasons: String,
    },
}

impl Visit {
    /// The proven well, where there is one.
    pub fn well(&self) -> Option<&Well> {
        match self {
            Self::Planned { well, .. } => Some(well),
            Self::HeldBack { .. } => None,
        }
    }

    /// The cell that its water rests on most, as a person finds it; empty for a row held back.
    pub fn cell(&self) -> String {
        match self {
            Self::Planned { cell, .. } => cell.to_string(),
            Self::HeldBack { .. } => String::new(),
        }
    }

    /// Names of the fields that were assumed, separated by blanks.
    pub fn assumed(&self) -> &str {
        match self {
            Self::Planned { assumed, .. } => assumed,
            Self::HeldBack { .. } => "",
        }
    }

    /// `planned` or `held_back`.
    pub fn outcome(&self) -> &str {
        match self {
            Self::Planned { .. } => "planned",
            Self::HeldBack { .. } => "held_back",
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
        }
    }

    /// The visit as typed.
    pub fn visit(&self) -> &str {
        match self {
            Self::Planned { well, .. } => &well.visit,
            Self::HeldBack { row, .. } => &row.visit,
        }
    }

    /// The region as typed.
    pub fn region(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.region.as_deref().unwrap_or_default(),
            Self::HeldBack { row, .. } => row.region.as_deref().unwrap_or_default(),
        }
    }

    /// The depot as typed.
    pub fn depot(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.depot.as_deref().unwrap_or_default(),
            Self::HeldBack { row, .. } => row.depot.as_deref().unwrap_or_default(),
        }
    }

    /// The type's name; empty where it is not known.
    pub fn well_type(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.well_type.name(),
            Self::HeldBack { row, .. } => row.well_type.map_or("", |kind| kind.name()),
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
            (Self::Planned { well, .. }, field) => match well.flag(field) {
                Some(true) => "yes",
                Some(false) => "no",
                None => well.text(field).unwrap_or_default(),
            },
            (Self::HeldBack { .. }, _) => "",
        }
    }

    /// Columns of the list that are not fields.
    pub fn carried(&self) -> &[Box<str>] {
        match self {
            Self::Planned { well, .. } => &well.carried,
            Self::HeldBack { row, .. } => &row.carried,
        }
    }

    /// Codes that hold it back; empty for a planned row.
    pub fn reasons(&self) -> &str {
        match self {
            Self::Planned { .. } => "",
            Self::HeldBack { reasons, .. } => reasons,
        }
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
