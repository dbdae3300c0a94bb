//! What became of each row that is a well: a visit that is planned, held back with its reasons, or left out by a rule of
//! the scenario file. Rows that are not wells are not visits.
//!
//! The engine makes visits of drafts; sums, tables and reports read them. A visit stays typed until somebody writes it down.
//! It computes nothing but by asking the method, in each reading of what is uncertain, and knows no scenario.

mod asked;
mod need;
mod told;
mod treated;
mod turn;

pub use asked::Asked;
pub use need::{Need, Readings, at_rest};
pub use treated::TreatedVisit;
pub use turn::{CrewDay, Turn};

use compact_str::CompactString;

use crate::checks::HeldBack;
use crate::field::Field;
use crate::finding::Code;
use crate::place::Place;
use crate::well::Well;

/// A row of the list after the checks.
#[derive(Debug)]
pub enum Visit {
    /// Proven: every amount can be computed from it.
    Planned {
        /// What was proven, with what was assumed for it.
        well: Well,
        /// Names of the fields that were assumed, separated by blanks.
        assumed: CompactString,
        /// Words of what a person must know before going there.
        flags: String,
        /// The cell that its water rests on most: the volume, else the diameter, else the row.
        cell: Place,
        /// The crew's day that it is made on, where crews are stated and one has a day for it.
        turn: Option<Turn>,
    },
    /// Findings hold it back: nothing is computed, and every total counts it.
    HeldBack {
        /// What is known of it.
        row: Box<HeldBack>,
        /// Codes of the findings that hold it back, each once, in their order.
        codes: Vec<Code>,
        /// The same as words, separated by blanks.
        reasons: String,
        /// Words of what a person must know before going there.
        flags: String,
    },
    /// Left out by a rule of the scenario file.
    Excluded {
        /// What would have come of it.
        visit: Box<Self>,
        /// Why it is left out, as the rule of the scenario file says it.
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

    /// The row of the list that it is: file, sheet and row.
    pub fn row(&self) -> Place {
        Place { column: None, ..self.place().clone() }
    }

    /// A place in its row: the cell that its water rests on most, or the row.
    pub fn place(&self) -> &Place {
        match self {
            Self::Planned { cell, .. } => cell,
            Self::HeldBack { row, .. } => &row.place,
            Self::Excluded { visit, .. } => visit.place(),
        }
    }

    /// Why it is held back, as codes of findings; none of a visit that is planned or left out.
    pub fn held_back_by(&self) -> &[Code] {
        match self {
            Self::HeldBack { codes, .. } => codes,
            Self::Planned { .. } | Self::Excluded { .. } => &[],
        }
    }

    /// Fields whose value was assumed by a stated rule, the route of the flush water among them where none is given.
    pub fn assumed_fields(&self) -> impl Iterator<Item = Field> + '_ {
        let route = self.well().filter(|well| well.discharge_route.is_none()).map(|_| Field::DischargeRoute);
        self.well().into_iter().flat_map(|well| well.assumed.iter().copied()).chain(route)
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
    pub fn carried(&self) -> &[CompactString] {
        match self {
            Self::Planned { well, .. } => &well.carried,
            Self::HeldBack { row, .. } => &row.carried,
            Self::Excluded { visit, .. } => visit.carried(),
        }
    }

    /// When it is made and by whom; nothing where no crew has a day for it, or it is not planned.
    pub fn turn(&self) -> Option<&Turn> {
        match self {
            Self::Planned { turn, .. } => turn.as_ref(),
            Self::HeldBack { .. } | Self::Excluded { .. } => None,
        }
    }

    /// The crew that makes it; empty where none does.
    pub fn crew(&self) -> &str {
        self.turn().map_or("", |turn| &turn.of.crew)
    }

    /// The day on which it is made; empty where it has none.
    pub fn crew_day(&self) -> &str {
        self.turn().map_or("", |turn| &turn.of.day)
    }

    /// The stop on that day; NaN where it has none.
    pub fn crew_stop(&self) -> f64 {
        self.turn().map_or(f64::NAN, |turn| f64::from(turn.stop))
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
