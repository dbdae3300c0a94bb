//! Which concepts make a column what it is: for each field, sets of concepts that name it, and concepts that speak
//! against it.
//!
//! The weights are judgments of how sure a reader of the trade would be by the heading alone, from 0 to 1: common practice,
//! no source. What the cells hold is weighed elsewhere.

use crate::field::Field;
use crate::inventory::lexicon::{Concept, Meaning};

/// What a heading's concepts say for one field.
struct Pattern {
    field: Field,
    /// All of these must be named; the weight where they are.
    names: &'static [(&'static [Concept], f64)],
    /// Any of these makes the heading another thing.
    against: &'static [Concept],
    /// What may be named besides without changing what the heading says.
    neutral: &'static [Concept],
}

/// What each concept takes away that a pattern does not ask for.
const STRAY_CONCEPT: f64 = 0.12;
/// What each word takes away that is not known, up to three.
const UNKNOWN_WORD: f64 = 0.06;

use Concept as C;

/// What the length of something else is measured of.
const OTHER_LENGTHS: &[Concept] = &[
    C::Screen,
    C::Grout,
    C::Frost,
    C::Sewage,
    C::Tank,
    C::Distance,
    C::Date,
    C::Testing,
    C::Set,
    C::Pump,
    C::Cost,
    C::Contact,
    C::Power,
    C::Accuracy,
    C::Priority,
];

#[rustfmt::skip]
const PATTERNS: &[Pattern] = &[
    Pattern {
        field: Field::WellId,
        names: &[
            (&[C::Well, C::Identity], 0.95), (&[C::Well, C::Number], 0.95), (&[C::Well, C::IdentityOrInside], 0.95),
            (&[C::Identity, C::Number], 0.85), (&[C::IdentityOrInside], 0.8), (&[C::Identity], 0.75), (&[C::Number], 0.7),
            (&[C::Site, C::Number], 0.85), (&[C::Site, C::Identity], 0.85), (&[C::Well], 0.5), (&[C::Name, C::Well], 0.65),
            (&[C::Bore, C::Number], 0.9), (&[C::Bore, C::Identity], 0.9), (&[C::Site], 0.5), (&[C::Spring, C::Number], 0.85),
            (&[C::Bore], 0.4),
        ],
        against: &[
            C::Depth, C::Diameter, C::Water, C::Level, C::Users, C::Contact, C::Date, C::Kind, C::Built, C::Cost, C::Visit,
            C::Flooded, C::Power, C::Pump, C::Use, C::State, C::Casing, C::Rate, C::Yield, C::Notes, C::Discharge, C::Goes,
            C::Testing, C::Tank, C::Distance, C::Region, C::Address, C::Accuracy, C::Outside, C::Inside, C::Bottom,
            C::TotalDepth, C::StaticWaterLevel, C::Height, C::Around, C::Material, C::Below,
        ],
        neutral: &[C::Name, C::Spring],
    },
    Pattern {
        field: Field::Visit,
        names: &[(&[C::Visit], 0.85), (&[C::Visit, C::Number], 0.9)],
        against: &[C::Date, C::Cost, C::Contact, C::Testing, C::Name],
        neutral: &[C::Well],
    },
    Pattern {
        field: Field::Region,
        names: &[(&[C::Region], 0.8), (&[C::Region, C::Name], 0.8)],
        against: &[C::Date, C::Water, C::Depth, C::Contact, C::Users, C::Discharge, C::Goes, C::Casing, C::Flooded, C::Sewage],
        neutral: &[C::Well, C::Number, C::Identity, C::Site, C::Address],
    },
    Pattern {
        field: Field::Depot,
        names: &[(&[C::Depot], 0.9), (&[C::Depot, C::Name], 0.9)],
        against: &[C::Date, C::Depth, C::Contact],
        neutral: &[C::Number],
    },
    Pattern {
        field: Field::WellType,
        names: &[
            (&[C::Kind, C::Well], 0.9), (&[C::Built, C::Well], 0.85), (&[C::Kind], 0.75), (&[C::Built], 0.75),
            (&[C::Kind, C::Bore], 0.85), (&[C::Kind, C::Spring], 0.8), (&[C::Kind, C::Built], 0.9), (&[C::Well], 0.3),
            (&[C::Kind, C::Water], 0.6),
        ],
        against: &[
            C::Casing, C::Pump, C::Sewage, C::Tank, C::Use, C::Material, C::Rock, C::Testing, C::Date, C::Screen, C::Grout,
            C::Cost, C::Contact, C::Depth, C::Diameter, C::Discharge, C::Goes, C::Region, C::Power, C::Flooded, C::Number,
            C::Inside, C::Outside, C::State, C::Accuracy, C::Visit, C::Yield, C::Elevation,
        ],
        neutral: &[C::Water, C::Site, C::Spring, C::Bore],
    },
    Pattern {
        field: Field::Latitude,
        names: &[(&[C::Latitude], 0.9)],
        against: &[C::Accuracy, C::Date, C::Depth],
        neutral: &[C::Well, C::Site, C::Address],
    },
    Pattern {
        field: Field::Longitude,
        names: &[(&[C::Longitude], 0.9)],
        against: &[C::Accuracy, C::Date, C::Depth],
        neutral: &[C::Well, C::Site, C::Address],
    },
    Pattern {
        field: Field::TotalDepth,
        names: &[
            (&[C::TotalDepth], 0.9), (&[C::Depth, C::Total], 0.95), (&[C::Depth, C::Well], 0.9), (&[C::Depth, C::Bottom], 0.9),
            (&[C::Depth, C::Bore], 0.85), (&[C::Depth], 0.75), (&[C::Well, C::Bottom], 0.7), (&[C::Bottom, C::Distance], 0.85),
            (&[C::Bottom], 0.6), (&[C::Depth, C::Spring], 0.8), (&[C::Depth, C::Built], 0.75), (&[C::Depth, C::Hole], 0.7),
            (&[C::Built, C::Find], 0.72), (&[C::Hole], 0.5), (&[C::Hole, C::Find], 0.6),
            (&[C::Total, C::Length], 0.45), (&[C::Well, C::Length], 0.65), (&[C::Total], 0.5), (&[C::Ground, C::Bottom], 0.85), (&[C::Depth, C::Rim], 0.7),
        ],
        against: &[
            C::Water, C::Level, C::Casing, C::Static, C::StaticWaterLevel, C::Pumping, C::Height, C::Column, C::Diameter,
            C::Rock, C::Screen, C::Grout, C::Frost, C::Sewage, C::Tank, C::Date, C::Testing, C::Set, C::Pump, C::Cost,
            C::Contact, C::Power, C::Accuracy, C::Priority, C::Elevation, C::Volume, C::Flooded, C::Users, C::Number,
            C::Rate, C::Yield, C::Name, C::Kind,
        ],
        neutral: &[C::Well, C::Bore, C::Ground, C::Total, C::Bottom, C::Find, C::Rim, C::Distance, C::Spring, C::Built],
    },
    Pattern {
        field: Field::StaticWaterLevel,
        names: &[
            (&[C::StaticWaterLevel], 0.95), (&[C::Static, C::Level], 0.95), (&[C::Static, C::Water], 0.9),
            (&[C::Static, C::Depth], 0.9), (&[C::Static], 0.8), (&[C::Depth, C::Water, C::Find], 0.9),
            (&[C::Water, C::Find], 0.8), (&[C::Water, C::Level], 0.85), (&[C::Level], 0.6), (&[C::Level, C::Rim], 0.75),
            (&[C::Water, C::Rim], 0.75), (&[C::Level, C::Ground], 0.75), (&[C::Water, C::Ground], 0.6),
            (&[C::Water, C::Distance], 0.75), (&[C::Level, C::Depth], 0.8), (&[C::Water, C::Distance, C::Find], 0.92),
        ],
        against: &[
            C::Pumping, C::Height, C::Column, C::Casing, C::Diameter, C::Rock, C::Screen, C::Grout, C::Frost, C::Sewage, C::Tank,
            C::Date, C::Testing, C::Set, C::Pump, C::Cost, C::Contact, C::Power, C::Accuracy, C::Priority, C::Volume,
            C::Flooded, C::Users, C::Number, C::Discharge, C::Kind, C::Rate, C::Yield, C::Salt, C::Temperature,
            C::Region, C::Name, C::Bottom, C::Identity, C::State, C::Built,
        ],
        neutral: &[C::Well, C::Bore, C::Ground, C::Rim, C::Find, C::Depth, C::Water, C::Distance, C::Elevation, C::Spring],
    },
    Pattern {
        field: Field::StickUp,
        names: &[
            (&[C::StickUp], 0.9), (&[C::Rim, C::StickUp], 0.95), (&[C::Casing, C::StickUp], 0.95), (&[C::Rim, C::Height], 0.9),
            (&[C::Casing, C::Height], 0.8), (&[C::Rim], 0.5), (&[C::Rim, C::Ground], 0.6), (&[C::Rim, C::Height, C::Ground], 0.9),
        ],
        against: &[C::Water, C::Level, C::Depth, C::Diameter, C::Date, C::Static, C::Wall, C::Material, C::Power, C::Elevation,
            C::Kind, C::State, C::StaticWaterLevel, C::Pumping, C::Tank, C::Flooded],
        neutral: &[C::Well, C::Ground, C::Casing, C::Rim, C::Height],
    },
    Pattern {
        field: Field::GroundElevation,
        names: &[(&[C::Elevation, C::Ground], 0.95), (&[C::Elevation], 0.7), (&[C::Elevation, C::Well], 0.75)],
        against: &[C::Water, C::Level, C::Rim, C::Bottom, C::Static, C::Accuracy, C::Depth, C::StaticWaterLevel, C::Casing],
        neutral: &[C::Site],
    },
    Pattern {
        field: Field::WaterColumn,
        names: &[
            (&[C::Height, C::Water], 0.9), (&[C::Column, C::Water], 0.95), (&[C::Height], 0.5), (&[C::Column], 0.5),
            (&[C::Height, C::Column], 0.8), (&[C::Water, C::Well], 0.35), (&[C::Water, C::Length], 0.5),
        ],
        against: &[
            C::Rim, C::Casing, C::Date, C::Pump, C::Tank, C::Flooded, C::Diameter, C::Testing, C::Elevation, C::StickUp,
            C::Ground, C::Rate, C::Find, C::Discharge, C::Goes, C::Volume, C::Pumping,
        ],
        neutral: &[C::Well, C::Static, C::Bore, C::Level],
    },
    Pattern {
        field: Field::CasingDiameter,
        names: &[
            (&[C::Diameter, C::Casing], 0.92), (&[C::Diameter, C::Well], 0.9), (&[C::Diameter, C::Inside], 0.95),
            (&[C::Diameter, C::Bore], 0.85), (&[C::Diameter], 0.8), (&[C::Size, C::Casing], 0.8), (&[C::Size, C::Well], 0.6),
            (&[C::Casing], 0.52), (&[C::Inside, C::Casing], 0.8), (&[C::IdentityOrInside, C::Casing], 0.85),
            (&[C::Size], 0.45), (&[C::Inside], 0.5), (&[C::Bore], 0.56), (&[C::Bore, C::Size], 0.75), (&[C::Radius], 0.6),
            (&[C::Around], 0.6), (&[C::IdentityOrInside], 0.45), (&[C::Diameter, C::Hole, C::Casing], 0.92), (&[C::Casing, C::Hole], 0.6),
            (&[C::Diameter, C::Spring], 0.8), (&[C::Inside, C::Wall], 0.5),
        ],
        against: &[
            C::Lower,
            C::Outside, C::Screen, C::Grout, C::Sewage, C::Tank, C::Date, C::Testing, C::Pump, C::Cost, C::Contact, C::Power,
            C::Accuracy, C::Thickness, C::Rate, C::Yield, C::Number, C::Find, C::Bottom, C::StickUp, C::Height, C::Material,
            C::Users, C::Region, C::Kind, C::State, C::Volume, C::Length, C::TotalDepth, C::Rock,
        ],
        neutral: &[C::Well, C::Casing, C::Bore, C::Inside, C::Rim, C::Level, C::Water, C::Built, C::Spring, C::Depth, C::Hole],
    },
    Pattern {
        field: Field::CasingOutsideDiameter,
        names: &[
            (&[C::Outside, C::Diameter], 0.95), (&[C::Outside, C::Casing], 0.9), (&[C::Outside], 0.8),
            (&[C::Outside, C::Casing, C::Diameter], 0.97),
        ],
        against: &[C::Screen, C::Date, C::Tank, C::Wall, C::Thickness, C::Depth, C::Sewage, C::Discharge, C::Temperature],
        neutral: &[C::Well, C::Casing, C::Bore],
    },
    Pattern {
        field: Field::WallThickness,
        names: &[
            (&[C::Wall, C::Thickness], 0.95), (&[C::Wall], 0.75), (&[C::Casing, C::Thickness], 0.85),
            (&[C::Wall, C::Casing], 0.85), (&[C::Thickness], 0.5),
        ],
        against: &[C::Inside, C::Outside, C::Diameter, C::Material, C::Date, C::Grout, C::Rock, C::Kind, C::State],
        neutral: &[C::Well],
    },
    Pattern {
        field: Field::CasingDepth,
        names: &[
            (&[C::Casing, C::Depth], 0.92), (&[C::Casing, C::Length], 0.9), (&[C::Casing, C::Find], 0.9),
            (&[C::Casing, C::Bottom], 0.9), (&[C::Casing, C::Set], 0.85), (&[C::Casing, C::Set, C::Find], 0.9),
            (&[C::Casing], 0.3), (&[C::Casing, C::Total], 0.7),
        ],
        against: &[
            C::Diameter, C::Water, C::Height, C::StickUp, C::Material, C::Outside, C::Inside, C::Date, C::Screen, C::Grout,
            C::Pump, C::Wall, C::Thickness, C::Kind, C::Size, C::Level, C::Number, C::Power,
        ],
        neutral: &[C::Well, C::Total, C::Ground, C::Bore],
    },
    Pattern {
        field: Field::OpenHoleDiameter,
        names: &[
            (&[C::Hole, C::Diameter], 0.88), (&[C::Diameter, C::Bottom], 0.85), (&[C::Diameter, C::Bottom, C::Casing], 0.9), (&[C::Diameter, C::Lower], 0.85), (&[C::Casing, C::Lower], 0.75), (&[C::Hole, C::Size], 0.85), (&[C::Hole], 0.6), (&[C::Hole, C::Diameter, C::Rock], 0.92),
            (&[C::Hole, C::Rock], 0.7), (&[C::Diameter, C::Rock], 0.88), (&[C::Size, C::Rock], 0.7), (&[C::Hole, C::Find], 0.5), (&[C::Hole, C::Casing], 0.6), (&[C::Hole, C::Bottom, C::Casing], 0.7), (&[C::Hole, C::Below, C::Casing], 0.92), (&[C::Below, C::Casing], 0.62),
            (&[C::Diameter, C::Below], 0.8), (&[C::IdentityOrInside, C::Below], 0.8), (&[C::Inside, C::Below], 0.8),
            (&[C::Size, C::Below], 0.75),
        ],
        against: &[
            C::Depth, C::Date, C::Screen, C::Grout, C::Tank, C::Water, C::Total, C::Number, C::Length, C::Ground, C::Level, C::Static,
            C::StaticWaterLevel,
        ],
        neutral: &[C::Well, C::Bore],
    },
    Pattern {
        field: Field::CasingMaterial,
        names: &[(&[C::Casing, C::Material], 0.95), (&[C::Material], 0.8), (&[C::Casing, C::Kind], 0.9), (&[C::Casing], 0.45)],
        against: &[C::Diameter, C::Depth, C::Size, C::Screen, C::Grout, C::Date, C::Rock, C::Find, C::Sewage, C::Pump, C::Tank],
        neutral: &[C::Well, C::Wall],
    },
    Pattern {
        field: Field::WaterVolume,
        names: &[
            (&[C::Volume, C::Water], 0.9), (&[C::Volume, C::Well], 0.85), (&[C::Volume], 0.7), (&[C::Volume, C::Spring], 0.85),
            (&[C::Static, C::Volume], 0.85), (&[C::Water, C::Static], 0.3),
        ],
        against: &[C::Tank, C::Pump, C::Plumbing, C::Date, C::Rate, C::Yield, C::Testing, C::Discharge, C::Cost, C::Users],
        neutral: &[C::Well, C::Bore, C::Static, C::Column],
    },
    Pattern {
        field: Field::PlumbingVolume,
        names: &[(&[C::Plumbing], 0.7), (&[C::Plumbing, C::Volume], 0.9)],
        against: &[C::Date, C::Material, C::Kind],
        neutral: &[C::Tank, C::Users],
    },
    Pattern {
        field: Field::PumpRate,
        names: &[
            (&[C::Pump, C::Rate], 0.9), (&[C::Pump, C::Yield], 0.85), (&[C::Pump, C::Volume], 0.6), (&[C::Pumping, C::Rate], 0.85),
            (&[C::Pumping, C::Yield], 0.8), (&[C::Rate], 0.4), (&[C::Pump], 0.45),
        ],
        against: &[C::Date, C::Set, C::Depth, C::Power, C::Level, C::Kind, C::Cost],
        neutral: &[C::Well, C::Built],
    },
    Pattern {
        field: Field::WellYield,
        names: &[
            (&[C::Yield], 0.9), (&[C::Yield, C::Well], 0.92), (&[C::Yield, C::Rate], 0.9), (&[C::Rate], 0.6), (&[C::Rate, C::Well], 0.7),
            (&[C::Testing, C::Rate], 0.7),
        ],
        against: &[C::Date, C::Pump, C::Pumping, C::Depth, C::Level, C::Kind],
        neutral: &[C::Well, C::Bore, C::Testing, C::Spring, C::Volume],
    },
    Pattern {
        field: Field::WaterTemperature,
        names: &[(&[C::Temperature], 0.85), (&[C::Temperature, C::Water], 0.95)],
        against: &[C::Date, C::Tank],
        neutral: &[C::Well, C::Ground],
    },
    Pattern { field: Field::Ph, names: &[(&[C::Ph], 0.9)], against: &[C::Date], neutral: &[C::Water, C::Testing, C::Flooded] },
    Pattern {
        field: Field::Alkalinity,
        names: &[(&[C::Alkalinity], 0.9)],
        against: &[C::Date],
        neutral: &[C::Water, C::Total, C::Testing],
    },
    Pattern { field: Field::Iron, names: &[(&[C::Iron], 0.8)], against: &[C::Date, C::Tank], neutral: &[C::Water, C::Total, C::Testing] },
    Pattern {
        field: Field::Manganese,
        names: &[(&[C::Manganese], 0.8)],
        against: &[C::Date, C::Tank],
        neutral: &[C::Water, C::Total, C::Testing],
    },
    Pattern {
        field: Field::DischargeRoute,
        names: &[
            (&[C::Discharge, C::Goes], 0.92), (&[C::Discharge, C::Find], 0.85), (&[C::Discharge], 0.75), (&[C::Water, C::Goes], 0.85),
            (&[C::Discharge, C::Water], 0.85), (&[C::Pumping, C::Goes], 0.85), (&[C::Goes], 0.6), (&[C::Pump, C::Goes], 0.85),
            (&[C::Discharge, C::Goes, C::Water], 0.95),
        ],
        against: &[
            C::Sewage, C::Rate, C::Testing, C::Depth, C::Cost, C::Distance, C::Power, C::Name, C::Users, C::Diameter,
            C::Contact,
        ],
        neutral: &[C::Date, C::Well, C::Water, C::Pump, C::Find, C::Pumping, C::Flooded, C::Site, C::Address],
    },
    Pattern {
        field: Field::Flooded,
        names: &[(&[C::Flooded], 0.85), (&[C::Flooded, C::Well], 0.9), (&[C::Flooded, C::Water], 0.9)],
        against: &[
            C::Date, C::Depth, C::Height, C::Testing, C::Discharge, C::Goes, C::Notes, C::Region, C::Cost, C::Identity, C::Power,
        ],
        neutral: &[C::Well, C::Water, C::Bore, C::State, C::Level, C::Find, C::Site],
    },
    Pattern {
        field: Field::UsersServed,
        names: &[(&[C::Users], 0.8), (&[C::Users, C::Number], 0.9), (&[C::Users, C::Water], 0.85)],
        against: &[C::Date, C::Identity, C::Contact, C::Testing, C::Depth, C::Notes, C::Name, C::Distance],
        neutral: &[C::Well, C::Water, C::Total],
    },
    Pattern {
        field: Field::Seawater,
        names: &[(&[C::Salt], 0.8), (&[C::Salt, C::Flooded], 0.95), (&[C::Salt, C::Water], 0.85)],
        against: &[C::Date, C::Tank, C::Testing],
        neutral: &[C::Well],
    },
    Pattern {
        field: Field::Status,
        names: &[(&[C::State], 0.8), (&[C::State, C::Well], 0.9)],
        against: &[C::Date, C::Sewage, C::Testing, C::Pump, C::Kind, C::Cost, C::Power, C::Tank],
        neutral: &[C::Well, C::Site, C::Bore],
    },
    Pattern {
        field: Field::Notes,
        names: &[(&[C::Notes], 0.9), (&[C::Notes, C::Well], 0.9)],
        against: &[C::Date, C::Testing, C::Contact, C::Depth],
        neutral: &[C::Well, C::Site, C::Cost, C::Flooded, C::State],
    },
];

/// How well each field is named by these concepts, the best first; fields that are not named at all are left out.
pub fn scores(meaning: &Meaning) -> Vec<(Field, f64)> {
    let mut found: Vec<(Field, f64)> =
        PATTERNS.iter().filter_map(|pattern| Some((pattern.field, score(pattern, meaning)?))).collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    found
}

fn score(pattern: &Pattern, meaning: &Meaning) -> Option<f64> {
    if pattern.against.iter().any(|concept| meaning.has(*concept)) {
        return None;
    }
    let all = |names: &&(&[Concept], f64)| names.0.iter().all(|concept| meaning.has(*concept));
    let best = pattern.names.iter().filter(all).map(|(names, weight)| {
        let stray = |concept: &&Concept| {
            **concept != C::Below && !names.contains(concept) && !pattern.neutral.contains(concept)
        };
        let strays = meaning.concepts.iter().filter(stray).count();
        weight - STRAY_CONCEPT * strays as f64
    });
    let best = best.reduce(f64::max)?;
    Some((best - UNKNOWN_WORD * meaning.unknown.len().min(3) as f64).max(0.05))
}

/// Whether a group above the headings speaks against a field.
pub fn speaks_against(meaning: &Meaning, field: Field) -> bool {
    if field == Field::CasingDiameter && meaning.has(C::Hole) && !meaning.has(C::Casing) {
        return true;
    }
    PATTERNS
        .iter()
        .find(|pattern| pattern.field == field)
        .is_some_and(|pattern| pattern.against.iter().any(|concept| meaning.has(*concept)))
}

/// Whether a heading speaks of a length of something that is not a well.
pub fn is_of_something_else(meaning: &Meaning) -> bool {
    OTHER_LENGTHS.iter().any(|concept| meaning.has(*concept))
}
