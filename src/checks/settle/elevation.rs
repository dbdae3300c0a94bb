//! The bottom of a well as an elevation: below the ground where that is known, else below the water alone.

use super::{replace, shown};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft};
use crate::quantity::parse::Reference;

const BOTTOM: Field = Field::TotalDepth;
const WATER: Field = Field::StaticWaterLevel;
const TOP: Field = Field::GroundElevation;

/// Turns the elevation of the bottom into a depth. Where no ground is known, the difference to that of the water is its
/// height: the datum falls out of it.
pub(super) fn settle(draft: &mut Draft) {
    if draft.reference(BOTTOM) != Some(Reference::SeaLevel) {
        return;
    }
    let Some(bottom) = draft.number(BOTTOM) else { return };
    if let Some(top) = draft.number(TOP) {
        let says = format!(
            "an elevation: the ground or the rim at {} less the bottom at {} is a depth of {}",
            shown(draft, BOTTOM, top),
            shown(draft, BOTTOM, bottom),
            shown(draft, BOTTOM, top - bottom)
        );
        let related = vec![draft.beside(TOP)];
        draft.say_with(catalogue::LEVEL_REDUCED, BOTTOM, says, "no action needed if correct", related);
        replace(draft, BOTTOM, |si| top - si);
        return;
    }
    let water = draft.number(WATER).filter(|_| draft.reference(WATER) == Some(Reference::SeaLevel));
    let Some(water) = water else {
        let says = "this is an elevation of the bottom, and the elevation of the ground is not given";
        draft.say(
            catalogue::GROUND_ELEVATION_MISSING,
            BOTTOM,
            says,
            "write ground_elevation, or the depth from the ground",
        );
        draft.refuse(BOTTOM);
        return;
    };
    if water <= bottom {
        let says = "the elevation of the water is not above that of the bottom";
        draft.say(catalogue::TWO_READINGS, WATER, says, "check both elevations");
        draft.refuse(WATER);
        draft.refuse(BOTTOM);
        return;
    }
    if draft.datum(Field::WaterColumn) == Datum::Missing {
        let says = format!(
            "elevations: the water at {} less the bottom at {} is {} of water",
            shown(draft, WATER, water),
            shown(draft, WATER, bottom),
            shown(draft, WATER, water - bottom)
        );
        let related = vec![draft.beside(BOTTOM)];
        draft.say_with(catalogue::LEVEL_REDUCED, WATER, says, "no action needed if correct", related);
        draft.set_number(Field::WaterColumn, water - bottom);
    }
    draft.forget(WATER);
    draft.forget(BOTTOM);
}
