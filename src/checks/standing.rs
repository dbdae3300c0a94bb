//! Values with low, mid and high, and the standing water they give.

use crate::field::rules::ReadingRules;
use crate::field::{Field, WellType};
use crate::finding::{Code, catalogue};
use crate::inventory::{Datum, Draft};
use crate::quantity::Band;
use crate::well::StandingWater;

/// Whether a missing value of this field would be drawn from the list or assumed.
pub(super) fn can_assume(draft: &Draft, field: Field, well_type: Option<WellType>, rules: &ReadingRules) -> bool {
    well_type.is_some_and(|well_type| {
        rules.assumptions.contains_key(&(well_type, field))
            || rules.drawn.contains(&(well_type, field)) && draft.drawn(well_type, field).is_some()
    })
}

/// The standing water of a well and what it rests on, in SI.
pub(super) struct Standing {
    pub(super) water: StandingWater,
    pub(super) range: Option<Box<(StandingWater, StandingWater)>>,
    pub(super) total_depth: Option<f64>,
    pub(super) static_water_level: Option<f64>,
    pub(super) casing_diameter: Option<f64>,
    pub(super) casing_depth: Option<f64>,
    pub(super) open_hole_diameter: Option<f64>,
}

/// The value the list gives, or, for the depth, a table of intervals beside it.
pub(super) fn given(draft: &Draft, field: Field) -> Option<Band<f64>> {
    let Some(mid) = draft.number(field) else {
        if field != Field::TotalDepth || draft.datum(field) != Datum::Missing {
            return None;
        }
        let depth = draft.listed_depth()?;
        return Some(Band::exactly(depth));
    };
    let (low, high) = draft.spread(field).unwrap_or((mid, mid));
    Some(Band { low, mid, high })
}

/// The value the list gives, or the one the campaign assumes for this type of well; an assumption is reported as a finding.
pub(super) fn given_or_assumed(
    draft: &mut Draft,
    field: Field,
    well_type: Option<WellType>,
    rules: &ReadingRules,
    assumed: &mut Vec<Field>,
) -> Option<Band<f64>> {
    if let Some(band) = given(draft, field) {
        return Some(band);
    }
    // What was typed and could not be read is not missing: the row is held back for it.
    if draft.datum(field) != Datum::Missing {
        return None;
    }
    let well_type = well_type?;
    if rules.drawn.contains(&(well_type, field))
        && let Some(drawn) = draft.drawn(well_type, field)
    {
        assumed.push(field);
        let says = format!(
            "{} is not given; {} ({} to {}) estimated from {} {} wells of {}",
            field.name(),
            super::shown(draft, field, drawn.values.mid),
            super::shown(draft, field, drawn.values.low),
            super::shown(draft, field, drawn.values.high),
            drawn.wells,
            well_type.name().replace('_', " "),
            if drawn.regional { "the same region of this list" } else { "this whole list" }
        );
        draft.say(catalogue::DRAWN_FROM_LIST, field, says, "write the measured value to plan without the assumption");
        return Some(drawn.values);
    }
    let assumption = rules.assumptions.get(&(well_type, field))?;
    assumed.push(field);
    let show = |si| super::shown(draft, field, si);
    let says = format!(
        "{} is not given; {} assumed ({} to {}) for a {} well",
        field.name(),
        show(assumption.mid),
        show(assumption.low),
        show(assumption.high),
        well_type.name().replace('_', " ")
    );
    draft.say(catalogue::ASSUMED, field, says, "write the measured value to plan without the assumption");
    Some(*assumption)
}

/// The inside diameter, given or assumed; said to be missing where it is neither.
pub(super) fn diameter(
    draft: &mut Draft,
    well_type: Option<WellType>,
    rules: &ReadingRules,
    assumed: &mut Vec<Field>,
) -> Option<Band<f64>> {
    let diameter = given_or_assumed(draft, Field::CasingDiameter, well_type, rules, assumed);
    if diameter.is_none() {
        missing(draft, catalogue::DIAMETER_MISSING, Field::CasingDiameter, "the inside diameter is not given");
    }
    diameter
}

/// Says that something is missing, unless what was typed there has a finding already.
pub(super) fn missing(draft: &mut Draft, code: Code, field: Field, says: &'static str) {
    if draft.datum(field) == Datum::Missing {
        if draft.place(field).column.is_none() {
            // Said of every row in the same words, so that people are told once a list.
            let says = match field {
                Field::TotalDepth => "the list has no column for the depth",
                Field::StaticWaterLevel => "the list has no column for the water level",
                Field::CasingDiameter => "the list has no column for the diameter",
                _ => "the list has no column for the volume of water",
            };
            let help =
                format!("map its column in [inventory.columns], or let it be assumed: [missing] {}", field.name());
            draft.say(code, field, says, help);
            return;
        }
        let help = format!("write it in the list, or let it be assumed: [missing] {}", field.name());
        draft.say(code, field, says, help);
    }
}
