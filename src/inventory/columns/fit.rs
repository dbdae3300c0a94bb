//! How well the numbers of a column fit what is usual for a field.

use crate::field::Field;
use crate::inventory::profile::Profile;
use crate::quantity::unit::{self, Unit};

/// The share of bare numbers that are usual for a field, in its unit or in the one that suits them best.
pub fn fit(field: Field, profile: &Profile, unit: Option<&'static Unit>) -> f64 {
    // The lower part of a dug well is nearly as wide as the upper one.
    let bounded = if field == Field::OpenHoleDiameter { Field::CasingDiameter } else { field };
    let Some(quantity) = bounded.quantity().filter(|_| !profile.numbers.is_empty()) else { return 1.0 };
    let Some(own) = unit::by_symbol(quantity.unit) else { return 1.0 };
    let bounds = (own.to_si(quantity.plausible.0), own.to_si(quantity.plausible.1));
    let candidates: &[&str] = match field {
        Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter => {
            &["in", "mm", "cm", "ft", "m"]
        }
        Field::WallThickness => &["in", "mm", "cm", "mil"],
        Field::StickUp => &["ft", "m", "in", "cm"],
        _ => &["ft", "m", "cm"],
    };
    // Levels that are written with a minus sign are as far below.
    let turned = |bounds: (f64, f64)| if profile.is_mostly_negative() { (-bounds.1, -bounds.0) } else { bounds };
    let bounds = if field == Field::StaticWaterLevel { turned(bounds) } else { bounds };
    let within = |unit: &Unit| {
        if bounds.0 > 0.0 { profile.filled_within(unit, bounds) } else { profile.within(unit, bounds) }
    };
    match unit {
        Some(unit) => within(unit),
        None => candidates.iter().filter_map(|symbol| unit::by_symbol(symbol)).map(within).fold(0.0, f64::max),
    }
}
