//! The standing water of a row, by the way of describing it that the row allows.

use super::bore::by_bore;
use super::contradictions::contradictions;
use super::spread;
use super::standing::{self, Standing, diameter, given, given_or_assumed, missing};
use super::{length, volume};
use crate::field::rules::ReadingRules;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft};
use crate::quantity::Band;
use crate::well::StandingWater;

/// The standing water of a row; `None` where something it rests on is missing or cannot be, which is then said.
pub(super) fn standing(
    draft: &mut Draft,
    well_type: Option<WellType>,
    rules: &ReadingRules,
    assumed: &mut Vec<Field>,
) -> Option<Standing> {
    contradictions(draft);
    if let Some(volume) = given(draft, Field::WaterVolume) {
        return by_volume(draft, volume);
    }
    if draft.datum(Field::WaterVolume) == Datum::Unread {
        return None;
    }
    let depth_and_level = given(draft, Field::TotalDepth).is_some() && given(draft, Field::StaticWaterLevel).is_some();
    if !depth_and_level && given(draft, Field::WaterColumn).is_some() {
        if level_from_column(draft) {
            return by_bore(draft, well_type, rules, assumed);
        }
        return by_column(draft, well_type, rules, assumed);
    }
    let can_assume = |draft: &Draft, field| standing::can_assume(draft, field, well_type, rules);
    let known_or_assumed = |draft: &Draft, field| given(draft, field).is_some() || can_assume(draft, field);
    let bore = known_or_assumed(draft, Field::TotalDepth) && known_or_assumed(draft, Field::StaticWaterLevel);
    if !bore && can_assume(draft, Field::WaterVolume) {
        let volume = given_or_assumed(draft, Field::WaterVolume, well_type, rules, assumed)?;
        return by_volume(draft, volume);
    }
    if !bore && can_assume(draft, Field::WaterColumn) {
        return by_column(draft, well_type, rules, assumed);
    }
    if !bore && well_type == Some(WellType::SpringBox) && given(draft, Field::TotalDepth).is_none() {
        missing(
            draft,
            catalogue::SPRING_BOX_VOLUME_MISSING,
            Field::WaterVolume,
            "the volume of the spring box is not given",
        );
        return None;
    }
    by_bore(draft, well_type, rules, assumed)
}

/// Where the depth is known and the well is not of one diameter all the way, the height of the water gives its level.
fn level_from_column(draft: &mut Draft) -> bool {
    let several = !draft.intervals().is_empty() || draft.number(Field::OpenHoleDiameter).is_some();
    let (Some(depth), Some(column)) = (draft.number(Field::TotalDepth), draft.number(Field::WaterColumn)) else {
        return false;
    };
    if !several || column > depth || draft.datum(Field::StaticWaterLevel) != Datum::Missing {
        return false;
    }
    if let Some((low, high)) = draft.spread(Field::WaterColumn) {
        draft.set_spread(Field::StaticWaterLevel, (depth - high).max(0.0), depth - low);
    }
    draft.set_number(Field::StaticWaterLevel, depth - column);
    true
}

fn by_volume(draft: &mut Draft, band: Band<f64>) -> Option<Standing> {
    let water = |si| StandingWater::Volume { volume: volume(si) };
    if !spread::is_narrow(draft, &[Field::WaterVolume], |_, si| water(si)) {
        return None;
    }
    let number = |field| draft.number(field);
    Some(Standing {
        water: water(band.mid),
        range: (!band.is_exact()).then(|| Box::new((water(band.low), water(band.high)))),
        total_depth: number(Field::TotalDepth),
        static_water_level: number(Field::StaticWaterLevel),
        casing_diameter: number(Field::CasingDiameter),
        casing_depth: number(Field::CasingDepth),
        open_hole_diameter: number(Field::OpenHoleDiameter),
    })
}

fn by_column(
    draft: &mut Draft,
    well_type: Option<WellType>,
    rules: &ReadingRules,
    assumed: &mut Vec<Field>,
) -> Option<Standing> {
    let height = given_or_assumed(draft, Field::WaterColumn, well_type, rules, assumed);
    let diameter = diameter(draft, well_type, rules, assumed);
    let (height, diameter) = (height?, diameter?);
    let water = |height, diameter| StandingWater::Column { height: length(height), diameter: length(diameter) };
    let narrow = spread::is_narrow(draft, &[Field::WaterColumn, Field::CasingDiameter], |field, si| match field {
        Field::WaterColumn => water(si, diameter.mid),
        _ => water(height.mid, si),
    });
    if !narrow {
        return None;
    }
    let exact = height.is_exact() && diameter.is_exact();
    Some(Standing {
        water: water(height.mid, diameter.mid),
        range: (!exact).then(|| Box::new((water(height.low, diameter.low), water(height.high, diameter.high)))),
        total_depth: draft.number(Field::TotalDepth),
        static_water_level: draft.number(Field::StaticWaterLevel),
        casing_diameter: Some(diameter.mid),
        casing_depth: draft.number(Field::CasingDepth),
        open_hole_diameter: draft.number(Field::OpenHoleDiameter),
    })
}
