//! The type of a well whose list does not say it: what wells of its width and depth usually are.

use super::shown;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::Draft;
use crate::quantity::format::number;
use crate::quantity::parse::unit_is_written;
use crate::quantity::unit::INCH_M;

/// Pipes up to this width are driven. Common practice, no source: points are sold from 1 1/4 to 2 in.
const WIDEST_DRIVEN_M: f64 = 2.5 * INCH_M;
/// A person can stand in a shaft from this width on. Common practice, no source.
const NARROWEST_DUG_M: f64 = 22.0 * INCH_M;
/// Augers bore shafts from this width on. Common practice, no source.
const NARROWEST_BORED_M: f64 = 14.0 * INCH_M;
/// Points are not driven deeper, in meters: the 95th percentile of the British Columbia casing table is 31 m.
const DEEPEST_DRIVEN_M: f64 = 31.0;

/// The type that the width and the depth of the row speak for, which is said; nothing where the row gives no width.
pub(super) fn well_type(draft: &mut Draft, assumed: &mut Vec<Field>) -> Option<WellType> {
    let of_strings = draft.intervals().iter().filter_map(|interval| interval.diameter).reduce(f64::max);
    let width = draft.number(Field::CasingDiameter).or(of_strings)?;
    let depth = draft.number(Field::TotalDepth).or_else(|| draft.listed_depth());
    pipe_in_millimeters(draft);
    let inferred = if width <= WIDEST_DRIVEN_M && depth.is_none_or(|depth| depth <= DEEPEST_DRIVEN_M) {
        WellType::Driven
    } else if width >= NARROWEST_DUG_M {
        WellType::Dug
    } else if width >= NARROWEST_BORED_M {
        WellType::Bored
    } else {
        WellType::Drilled
    };
    assumed.push(Field::WellType);
    let deep = depth.map_or(String::new(), |depth| format!(" and {} deep", shown(draft, Field::TotalDepth, depth)));
    let says = format!(
        "the type of well is not known; taken as {}: {} wide{deep}",
        inferred.name().replace('_', " "),
        shown(draft, Field::CasingDiameter, width)
    );
    let help =
        "write drilled, driven, bored, dug or spring_box, or give the word a meaning in [inventory.words.well_type]";
    draft.say(catalogue::TYPE_INFERRED, Field::WellType, says, help);
    Some(inferred)
}

/// A bare number of inches that would be a very wide pit, and in millimeters a usual pipe: without a type nobody knows which.
fn pipe_in_millimeters(draft: &mut Draft) {
    const FIELD: Field = Field::CasingDiameter;
    let (Some(width), Some(unit)) = (draft.number(FIELD), draft.shown_unit(FIELD)) else { return };
    let written = unit.from_si(width);
    if unit.symbol != "in" || !PIPES_MM.contains(&written) || unit_is_written(draft.typed(FIELD)) {
        return;
    }
    let written = number(written, 5);
    let says = format!(
        "{written} in would be a very wide pit, and {written} mm a usual pipe; without the type of well it cannot be told which"
    );
    let help = format!("write the unit with the value: {written} in or {written} mm; or the type of well");
    draft.say(catalogue::UNIT_IN_DOUBT, FIELD, says, help);
}

/// Pipes in millimeters, from 3 in to 16 in: as inches, wider than nearly all pits. Common practice, no source.
const PIPES_MM: std::ops::RangeInclusive<f64> = 76.0..=406.0;
