//! Ranges that the list gives: planned with only where they change the water by less than a tenth.

use std::f64::consts::FRAC_PI_4;

use super::settle::TENTH;
use super::shown;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::Draft;
use crate::well::StandingWater;

/// The volume of standing water, in cubic meters: V = π/4 · d² · h of each stretch below the level.
fn cubic_meters(water: &StandingWater) -> f64 {
    match water {
        StandingWater::Volume { volume } => volume.value,
        StandingWater::Column { height, diameter } => FRAC_PI_4 * diameter.value.powi(2) * height.value,
        StandingWater::Bore { water_level, intervals, .. } => {
            let level = water_level.value.max(0.0);
            let of = |top: f64, bottom: f64, diameter: f64| {
                FRAC_PI_4 * diameter.powi(2) * (bottom - top.max(level)).max(0.0)
            };
            intervals.iter().map(|one| of(one.top.value, one.bottom.value, one.diameter.value)).sum()
        }
    }
}

/// Whether every range of the row changes the water little enough; one that does not is said. `water` gives the standing
/// water with one field at a value and the others at their middle.
pub(super) fn is_narrow(draft: &mut Draft, fields: &[Field], water: impl Fn(Field, f64) -> StandingWater) -> bool {
    let mut narrow = true;
    for field in fields {
        let (Some((low, high)), Some(mid)) = (draft.spread(*field), draft.number(*field)) else { continue };
        if !draft.is_range(*field) {
            continue;
        }
        let at = |si: f64| cubic_meters(&water(*field, si));
        let change = (at(high) - at(low)).abs() / at(mid);
        if change < TENTH {
            continue;
        }
        narrow = false;
        let says = format!(
            "a range, {} to {}: from end to end it changes the water by {:.0} %",
            shown(draft, *field, low),
            shown(draft, *field, high),
            change * 100.0
        );
        // The middle is not used after all.
        let place = draft.place(*field);
        draft.findings.retain(|finding| finding.code != catalogue::RANGE || finding.place != place);
        draft.say(catalogue::RANGE_TOO_WIDE, *field, says, "write one value");
    }
    narrow
}
