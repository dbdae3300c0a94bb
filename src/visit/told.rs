//! What a list says of a visit beside what the dose rests on, planned, held back or left out: it travels into every output.

use super::{Asked, Visit};
use crate::field::Field;
use crate::hazard::Hazards;

impl Visit {
    /// What a person must know before going there.
    pub fn hazards(&self) -> Hazards {
        match self {
            Self::Planned { well, .. } => well.hazards,
            Self::HeldBack { row, .. } => row.facts.hazards,
            Self::Excluded { visit, .. } => visit.hazards(),
        }
    }

    /// The file of its row.
    pub fn file(&self) -> &str {
        &self.place().origin.file
    }

    /// The sheet of its row; empty where the file has none.
    pub fn sheet(&self) -> &str {
        self.place().origin.sheet.as_deref().unwrap_or_default()
    }

    /// Its row in the list, from 1.
    pub fn row_number(&self) -> f64 {
        self.place().row.map_or(f64::NAN, f64::from)
    }

    /// The words of [`Visit::hazards`], separated by blanks.
    pub fn crew_flags(&self) -> &str {
        match self {
            Self::Planned { flags, .. } | Self::HeldBack { flags, .. } => flags,
            Self::Excluded { visit, .. } => visit.crew_flags(),
        }
    }

    /// Remarks of the list as typed; empty where there are none.
    pub fn notes(&self) -> &str {
        self.text(Field::Notes).unwrap_or_default()
    }

    /// Words of cells that could not be read and were left blank, each behind its heading.
    pub fn not_understood(&self) -> &str {
        match self {
            Self::Planned { well, .. } => well.not_understood.as_deref().unwrap_or_default(),
            Self::HeldBack { row, .. } => row.facts.not_understood.as_deref().unwrap_or_default(),
            Self::Excluded { visit, .. } => visit.not_understood(),
        }
    }

    /// State of the well, as typed.
    pub fn status(&self) -> &str {
        self.text(Field::Status).unwrap_or_default()
    }

    /// Casing material, as typed.
    pub fn casing_material(&self) -> &str {
        self.text(Field::CasingMaterial).unwrap_or_default()
    }

    /// Whether flood water stood over it: `yes`, `no`, or empty.
    pub fn flooded(&self) -> &str {
        self.yes_or_no(Field::Flooded)
    }

    /// Whether sea water got in: `yes`, `no`, or empty.
    pub fn seawater(&self) -> &str {
        self.yes_or_no(Field::Seawater)
    }

    /// People served; NaN where the list does not say.
    pub fn users_served(&self) -> f64 {
        self.or_nan(Field::UsersServed)
    }

    /// Degrees north; NaN where the list does not say.
    pub fn latitude(&self) -> f64 {
        self.or_nan(Field::Latitude)
    }

    /// Degrees east; NaN where the list does not say.
    pub fn longitude(&self) -> f64 {
        self.or_nan(Field::Longitude)
    }

    /// How far the casing stands above the ground, m; NaN where the list does not say.
    pub fn stick_up_m(&self) -> f64 {
        self.or_nan(Field::StickUp)
    }

    /// Height of the ground above sea level, m; NaN where the list does not say.
    pub fn ground_elevation_m(&self) -> f64 {
        self.or_nan(Field::GroundElevation)
    }

    /// Outside diameter of the casing, mm; NaN where the list does not say.
    pub fn casing_outside_diameter_mm(&self) -> f64 {
        self.or_nan(Field::CasingOutsideDiameter) * 1000.0
    }

    /// Thickness of the casing's wall, mm; NaN where the list does not say.
    pub fn wall_thickness_mm(&self) -> f64 {
        self.or_nan(Field::WallThickness) * 1000.0
    }

    fn yes_or_no(&self, field: Field) -> &'static str {
        self.flag(field).map_or("", |yes| if yes { "yes" } else { "no" })
    }

    fn or_nan(&self, field: Field) -> f64 {
        self.si_value(field).unwrap_or(f64::NAN)
    }
}
