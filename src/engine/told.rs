//! What a list says of a visit beside what the dose rests on, planned or held back: it travels into every output.

use super::outcome::Visit;
use crate::hazard::Hazards;
use crate::quantity::Length;

/// The same of a proven well and of a row that is held back.
macro_rules! told {
    ($visit:expr, $field:ident) => {
        match $visit {
            Visit::Planned { well, .. } => &well.$field,
            Visit::HeldBack { row, .. } => &row.told.$field,
        }
    };
}

fn yes_or_no(flag: Option<bool>) -> &'static str {
    flag.map_or("", |yes| if yes { "yes" } else { "no" })
}

fn or_nan(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

fn meters_of(length: Option<Length>) -> f64 {
    or_nan(length.map(|length| length.value))
}

fn millimeters_of(length: Option<Length>) -> f64 {
    meters_of(length) * 1000.0
}

impl Visit {
    /// What a person must know before going there.
    pub fn hazards(&self) -> Hazards {
        *told!(self, hazards)
    }

    /// The words of [`Visit::hazards`], separated by blanks.
    pub fn crew_flags(&self) -> &str {
        match self {
            Self::Planned { flags, .. } | Self::HeldBack { flags, .. } => flags,
        }
    }

    /// Notes, as typed.
    pub fn notes(&self) -> &str {
        told!(self, notes).as_deref().unwrap_or_default()
    }

    /// Words of cells that could not be read and were left blank, each behind its heading.
    pub fn not_understood(&self) -> &str {
        told!(self, not_understood).as_deref().unwrap_or_default()
    }

    /// State of the well, as typed.
    pub fn status(&self) -> &str {
        told!(self, status).as_deref().unwrap_or_default()
    }

    /// Casing material, as typed.
    pub fn casing_material(&self) -> &str {
        told!(self, casing_material).as_deref().unwrap_or_default()
    }

    /// Whether flood water stood over it: `yes`, `no`, or empty.
    pub fn flooded(&self) -> &str {
        yes_or_no(*told!(self, flooded))
    }

    /// Whether sea water got in: `yes`, `no`, or empty.
    pub fn seawater(&self) -> &str {
        yes_or_no(*told!(self, seawater))
    }

    /// People served; NaN where the list does not say.
    pub fn users_served(&self) -> f64 {
        or_nan(*told!(self, users_served))
    }

    /// Degrees north; NaN where the list does not say.
    pub fn latitude(&self) -> f64 {
        or_nan(*told!(self, latitude))
    }

    /// Degrees east; NaN where the list does not say.
    pub fn longitude(&self) -> f64 {
        or_nan(*told!(self, longitude))
    }

    /// How far the casing stands above the ground, m; NaN where the list does not say.
    pub fn stick_up_m(&self) -> f64 {
        meters_of(*told!(self, stick_up))
    }

    /// Height of the ground above sea level, m; NaN where the list does not say.
    pub fn ground_elevation_m(&self) -> f64 {
        meters_of(*told!(self, ground_elevation))
    }

    /// Outside diameter of the casing, mm; NaN where the list does not say.
    pub fn casing_outside_diameter_mm(&self) -> f64 {
        millimeters_of(*told!(self, casing_outside_diameter))
    }

    /// Thickness of the casing's wall, mm; NaN where the list does not say.
    pub fn wall_thickness_mm(&self) -> f64 {
        millimeters_of(*told!(self, wall_thickness))
    }
}
