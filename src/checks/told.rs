//! What a list says of a row beside what the dose rests on; it travels with the row even where nothing is computed.

use crate::field::Field;
use crate::finding::{Code, catalogue};
use crate::hazard::Hazards;
use crate::inventory::Draft;
use crate::quantity::{Length, meters};

/// Facts and words of a row that is held back.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Told {
    /// Notes, as typed.
    pub notes: Option<Box<str>>,
    /// Words of cells that could not be read and were left blank, each behind its heading.
    pub not_understood: Option<Box<str>>,
    /// State of the well, as typed.
    pub status: Option<Box<str>>,
    /// Casing material, as typed.
    pub casing_material: Option<Box<str>>,
    /// Whether flood water stood over it.
    pub flooded: Option<bool>,
    /// Whether sea water got in.
    pub seawater: Option<bool>,
    /// People served.
    pub users_served: Option<f64>,
    /// Degrees north.
    pub latitude: Option<f64>,
    /// Degrees east.
    pub longitude: Option<f64>,
    /// How far the casing stands above the ground.
    pub stick_up: Option<Length>,
    /// Height of the ground above sea level.
    pub ground_elevation: Option<Length>,
    /// Outside diameter of the casing.
    pub casing_outside_diameter: Option<Length>,
    /// Thickness of the casing's wall.
    pub wall_thickness: Option<Length>,
    /// What a person must know before going there.
    pub hazards: Hazards,
}

impl Told {
    /// What a row says, with the hazards that were found in its words.
    pub(super) fn of(draft: &Draft, hazards: Hazards) -> Self {
        let text = |field| draft.text(field).map(Into::into);
        let length = |field| draft.number(field).map(meters);
        Self {
            notes: text(Field::Notes),
            not_understood: not_understood(draft),
            status: text(Field::Status),
            casing_material: text(Field::CasingMaterial),
            flooded: draft.flag(Field::Flooded),
            seawater: draft.flag(Field::Seawater),
            users_served: draft.number(Field::UsersServed),
            latitude: draft.number(Field::Latitude),
            longitude: draft.number(Field::Longitude),
            stick_up: length(Field::StickUp),
            ground_elevation: length(Field::GroundElevation),
            casing_outside_diameter: length(Field::CasingOutsideDiameter),
            wall_thickness: length(Field::WallThickness),
            hazards,
        }
    }
}

/// Findings that leave a cell blank which holds words all the same.
const LEFT_BLANK: [Code; 4] = [
    catalogue::ASIDE_NOT_UNDERSTOOD,
    catalogue::UNKNOWN_CHOICE,
    catalogue::FLAG_NOT_UNDERSTOOD,
    catalogue::ASIDE_IMPOSSIBLE,
];

/// `Flush to: behind the barn; Submerged: partly`: a person reads what no field could take.
pub(super) fn not_understood(draft: &Draft) -> Option<Box<str>> {
    let mut words: Option<String> = None;
    for finding in draft.findings.iter().filter(|finding| LEFT_BLANK.contains(&finding.code)) {
        let Some(column) = finding.place.column.as_ref().filter(|_| !finding.seen.is_empty()) else { continue };
        let words = words.get_or_insert_default();
        let between = if words.is_empty() { "" } else { "; " };
        words.push_str(&format!("{between}{}: {}", column.heading, finding.seen));
    }
    words.map(Into::into)
}
