//! The standing water of a bore, by its depth less its level.

use super::casing;
use super::spread;
use super::standing::{Standing, diameter, given, given_or_assumed, missing};
use super::{length, shown};
use crate::field::rules::ReadingRules;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft};
use crate::quantity::Band;
use crate::well::{Interval, StandingWater};

/// Depths closer than this are the same, in metres.
const SAME_M: f64 = 0.01;

/// The least height of water left where assumed values would leave none, in metres.
const LEAST_COLUMN_M: f64 = 0.05;

/// A casing that reaches so many times deeper than the well is asked; one that reaches a little deeper is a measuring rounded in
/// another way. No source.
const FAR_BELOW: f64 = 1.3;

/// One that reaches so many times deeper is asked where the water down to there would be more by a tenth. No source.
const TOO_FAR: f64 = 1.05;

/// Where two diameters are given and not where they change, the wider one is taken all the way if the narrower one would
/// hold no more than this share less.
const MOST_UNSAID: f64 = 0.2;

/// How much narrower than the casing a bit is at most, in metres: a quarter of an inch, as 6 in through a casing of 6 1/4 in.
/// Common practice, no source.
const BIT_CLEARANCE_M: f64 = 0.00635;

pub(super) fn by_bore(
    draft: &mut Draft,
    well_type: Option<WellType>,
    rules: &ReadingRules,
    assumed: &mut Vec<Field>,
) -> Option<Standing> {
    let depth = given_or_assumed(draft, Field::TotalDepth, well_type, rules, assumed);
    if depth.is_none() {
        missing(draft, catalogue::DEPTH_MISSING, Field::TotalDepth, "the depth is not given");
    }
    let level = given_or_assumed(draft, Field::StaticWaterLevel, well_type, rules, assumed);
    if level.is_none() {
        missing(draft, catalogue::LEVEL_MISSING, Field::StaticWaterLevel, "the water level is not given");
    }
    let listed = casing::listed(draft);
    let diameter = match (&listed, given(draft, Field::CasingDiameter)) {
        // What the intervals say makes a diameter in the list, or an assumed one, needless.
        (Some(listed), None) => Some(listed.inner()),
        _ => diameter(draft, well_type, rules, assumed),
    };
    let casing = given_or_assumed(draft, Field::CasingDepth, well_type, rules, assumed);
    let open_hole = given_or_assumed(draft, Field::OpenHoleDiameter, well_type, rules, assumed);
    let (depth, level, diameter) = (depth?, level?, diameter?);
    if level.mid >= depth.mid {
        no_water(draft, depth.mid, level.mid, assumed);
        return None;
    }
    if level.mid < 0.0 {
        let says = format!(
            "the water stands {} above the ground: a flowing well",
            shown(draft, Field::StaticWaterLevel, -level.mid)
        );
        draft.say(
            catalogue::FLOWING_WELL,
            Field::StaticWaterLevel,
            says,
            "no action needed if correct; water is counted up to ground level",
        );
    }
    if let Some(casing) = casing
        && casing.mid > depth.high * (1.0 + 1e-9)
    {
        let reaches = format!(
            "the casing reaches {}, below the bottom at {}",
            shown(draft, Field::CasingDepth, casing.mid),
            shown(draft, Field::TotalDepth, depth.mid)
        );
        let help = "check depth and casing depth, and their units";
        // What the well holds down to the one and to the other differs by more than a tenth, and nothing says which is right.
        let tenth = casing.mid - depth.mid > super::settle::TENTH * (depth.mid - level.mid.max(0.0));
        if casing.mid > depth.high * FAR_BELOW || tenth && casing.mid > depth.high * TOO_FAR {
            let says = format!("{reaches} by far: one of the two is wrong");
            draft.say(catalogue::TWO_READINGS, Field::TotalDepth, says, help);
            return None;
        }
        let says = format!("{reaches}; it is counted down to the bottom only");
        let related = vec![draft.beside(Field::TotalDepth)];
        draft.say_with(catalogue::CASING_BELOW_BOTTOM, Field::CasingDepth, says, help, related);
    }
    if let (Some(hole), None, None) = (open_hole, casing, &listed)
        && (hole.mid / diameter.mid).powi(2) < 1.0 - MOST_UNSAID
    {
        let says = format!(
            "two diameters, {} and {}, and nothing says how deep the first one reaches",
            shown(draft, Field::CasingDiameter, diameter.mid),
            shown(draft, Field::OpenHoleDiameter, hole.mid)
        );
        draft.say(catalogue::TWO_READINGS, Field::OpenHoleDiameter, says, "write how deep the casing reaches");
        return None;
    }
    if open_hole.is_some() && casing.is_none() && listed.is_none() {
        draft.say(
            catalogue::OPEN_HOLE_WITHOUT_CASING_DEPTH,
            Field::OpenHoleDiameter,
            "the open hole's diameter is given and the depth of the casing is not; the casing's diameter is used all the way",
            "write how deep the casing reaches",
        );
    }
    if let Some(hole) = open_hole
        && hole.mid > diameter.mid * 1.5
    {
        let says = format!(
            "the open hole ({}) is much wider than the casing ({})",
            shown(draft, Field::OpenHoleDiameter, hole.mid),
            shown(draft, Field::CasingDiameter, diameter.mid)
        );
        let related = vec![draft.beside(Field::CasingDiameter)];
        draft.say_with(
            catalogue::OPEN_HOLE_WIDER,
            Field::OpenHoleDiameter,
            says,
            "check both diameters and their units",
            related,
        );
    }
    if let Some(listed) = &listed {
        listed.remark(draft, depth.mid);
    }
    // What lies below the casing, where nothing says how wide it is.
    let cased = listed.as_ref().map_or(casing.map(|casing| casing.mid), |listed| Some(listed.end()));
    let open_hole = match (cased, open_hole) {
        (Some(end), None) if end + SAME_M < depth.mid => {
            // Below several strings it is as wide as the innermost.
            let innermost = listed.as_ref().map_or(diameter, casing::Listed::inner);
            Some(hole_below(draft, end, depth.mid, innermost, assumed))
        }
        (_, open_hole) => open_hole,
    };
    let bore = |depth: f64, level: f64, diameter: f64, casing: Option<f64>, hole: Option<f64>| StandingWater::Bore {
        water_level: length(level),
        bottom: length(depth),
        intervals: match &listed {
            Some(listed) => listed.down_to(depth, hole),
            None => intervals(depth, diameter, casing, hole),
        },
    };
    let cased = casing.map(|casing| casing.mid);
    let hole = open_hole.map(|hole| hole.mid);
    let ranges = [
        Field::TotalDepth,
        Field::StaticWaterLevel,
        Field::CasingDiameter,
        Field::CasingDepth,
        Field::OpenHoleDiameter,
    ];
    let narrow = spread::is_narrow(draft, &ranges, |field, si| match field {
        Field::TotalDepth => bore(si, level.mid, diameter.mid, cased, hole),
        Field::StaticWaterLevel => bore(depth.mid, si, diameter.mid, cased, hole),
        Field::CasingDiameter => bore(depth.mid, level.mid, si, cased, hole),
        Field::CasingDepth => bore(depth.mid, level.mid, diameter.mid, Some(si), hole),
        _ => bore(depth.mid, level.mid, diameter.mid, cased, Some(si)),
    });
    if !narrow {
        return None;
    }
    let exact = depth.is_exact() && level.is_exact() && diameter.is_exact() && open_hole.is_none_or(Band::is_exact);
    let range = (!exact).then(|| {
        // Where the assumptions would leave no water, a hand's breadth is left: the range must hold a well.
        let least_level = level.high.min(depth.low - LEAST_COLUMN_M);
        Box::new((
            bore(depth.low, least_level, diameter.low, cased, open_hole.map(|hole| hole.low)),
            bore(depth.high, level.low, diameter.high, cased, open_hole.map(|hole| hole.high)),
        ))
    });
    Some(Standing {
        water: bore(depth.mid, level.mid, diameter.mid, cased, hole),
        range,
        total_depth: Some(depth.mid),
        static_water_level: Some(level.mid),
        casing_diameter: Some(diameter.mid),
        casing_depth: casing.map(|casing| casing.mid),
        open_hole_diameter: open_hole.map(|hole| hole.mid),
    })
}

/// The hole below a casing that ends above the bottom: as wide as the casing at most, at least as the bit that went
/// through it; an assumption, and said so.
fn hole_below(draft: &mut Draft, end: f64, depth: f64, diameter: Band<f64>, assumed: &mut Vec<Field>) -> Band<f64> {
    let low = (diameter.low - BIT_CLEARANCE_M).max(diameter.low * 0.9);
    assumed.push(Field::OpenHoleDiameter);
    let across = |si: f64| shown(draft, Field::CasingDiameter, si);
    let says = format!(
        "the casing ends at {} in a well of {}, and the width of the hole below is not given; {} assumed ({} to {})",
        shown(draft, Field::CasingDepth, end),
        shown(draft, Field::TotalDepth, depth),
        across(diameter.mid),
        across(low),
        across(diameter.high)
    );
    let field = if draft.number(Field::CasingDepth).is_some() { Field::CasingDepth } else { Field::CasingDiameter };
    draft.say(catalogue::HOLE_BELOW_ASSUMED, field, says, "write open_hole_diameter to plan without the assumption");
    Band { low, mid: diameter.mid, high: diameter.high }
}

fn intervals(depth: f64, diameter: f64, casing: Option<f64>, hole: Option<f64>) -> Vec<Interval> {
    let interval =
        |top, bottom, diameter| Interval { top: length(top), bottom: length(bottom), diameter: length(diameter) };
    match (casing, hole) {
        (Some(casing), Some(hole)) if casing < depth => {
            vec![interval(0.0, casing, diameter), interval(casing, depth, hole)]
        }
        _ => vec![interval(0.0, depth, diameter)],
    }
}

/// The level is not above the bottom: by what the list says, or by what was assumed.
fn no_water(draft: &mut Draft, depth: f64, level: f64, assumed: &[Field]) {
    let says = format!(
        "the water level at {} is not above the bottom at {}",
        shown(draft, Field::StaticWaterLevel, level),
        shown(draft, Field::TotalDepth, depth)
    );
    if assumed.contains(&Field::TotalDepth) || assumed.contains(&Field::StaticWaterLevel) {
        let (field, word) = if assumed.contains(&Field::StaticWaterLevel) {
            (Field::StaticWaterLevel, "level")
        } else {
            (Field::TotalDepth, "depth")
        };
        let says = format!("with the {word} assumed for it, {says}");
        draft.say(
            catalogue::ASSUMPTION_LEAVES_NO_WATER,
            field,
            says,
            "write the measured value, or change [missing] for this type",
        );
        return;
    }
    // A depth from the intervals beside the list stands in no cell of this row.
    let typed = draft.datum(Field::TotalDepth) != Datum::Missing;
    let related = typed.then(|| draft.beside(Field::TotalDepth)).into_iter().collect();
    let feet =
        level * 0.3048 < depth && draft.shown_unit(Field::StaticWaterLevel).is_some_and(|unit| unit.symbol == "m");
    let help = if feet {
        "check whether the level is in feet, or whether depth and level are exchanged"
    } else {
        "check whether depth and level are exchanged, and their units"
    };
    draft.say_with(catalogue::WATER_LEVEL_BELOW_BOTTOM, Field::StaticWaterLevel, says, help, related);
}
