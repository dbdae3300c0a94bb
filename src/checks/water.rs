//! Pump, yield and water quality, seen against one another.

use super::shown;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::Draft;

/// Looks for values of one row that do not go together.
pub(super) fn consistency(draft: &mut Draft) {
    let (Some(pump), Some(well_yield)) = (draft.number(Field::PumpRate), draft.number(Field::WellYield)) else {
        return;
    };
    if pump > 3.0 * well_yield {
        let says = format!(
            "the pump ({}) gives more than three times the yield ({}); flushing is planned at the yield",
            shown(draft, Field::PumpRate, pump),
            shown(draft, Field::WellYield, well_yield)
        );
        let related = vec![draft.beside(Field::WellYield)];
        draft.say_with(
            catalogue::PUMP_EXCEEDS_YIELD,
            Field::PumpRate,
            says,
            "check both rates and their units",
            related,
        );
    }
}
