//! Findings about water quality, pump and yield.

use super::{Code, Entry};
use crate::finding::Severity;

catalogue! {
    WATER_VALUE_IMPOSSIBLE = "W301" "water-value-impossible" Error,
        "Concentrations that use up chlorine lie within what water can hold.",
        "What it finds: iron, manganese, sulfide, ammonia, nitrite or organic carbon outside what is possible. The well is held back: the W of the code stands for water, not for warning.\n\
         Why it matters: the dose depends on it; usually the true unit is ug/L.\n\
         Example: iron 2500 mg/L.\n\
         How to fix it: check the unit.";
    ASIDE_IMPOSSIBLE = "W302" "secondary-value-impossible" Warning,
        "pH, temperature, alkalinity, rates, coordinates and counts lie within what is possible.",
        "What it finds: such a value outside what is possible; it is left out.\n\
         Why it matters: the amount does not depend on it, but pH after dosing, hours of flushing or the map do.\n\
         Example: a temperature of 236 C.\n\
         How to fix it: check the value and its unit.";
    PUMP_EXCEEDS_YIELD = "W303" "pump-exceeds-yield" Note,
        "A pump gives about what the well yields.",
        "What it finds: a pump that gives more than three times the well's yield; flushing is planned at the yield.\n\
         Why it matters: one of the two may be in other units.\n\
         Example: pump 40 gpm, yield 2 gpm.\n\
         How to fix it: check both rates and their units.";
}
