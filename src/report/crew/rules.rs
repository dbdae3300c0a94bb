//! Figures of the crew's work that no equation gives and no practice states: days of sampling, hours of a day's work, the residual at the end,
//! minutes of pumping clear and of circulating, water for an agent. Each with its source; examples, and said to be such.

use crate::field::rules::UnitSystem;
use crate::kernel::requirement::Practice;
use crate::quantity::unit;
use crate::quantity::{ChlorineConcentration, Volume};

/// Days after the flush before which no sample is taken, so that no chlorine is left in the bottle and what grows back has
/// shown: Iowa DNR, Floods and water wells, 7 to 10 days.
pub(super) const FIRST_SAMPLE_DAYS: u32 = 7;
/// Days from the first sample to the second: Nebraska Extension (Lancaster County), monthly after the first weeks; in J.
/// Environ. Health 68(2), 2005, 7 of 16 wells were positive again after 30 to 60 days.
pub(super) const SECOND_SAMPLE_DAYS: u32 = 30;
/// Hours within which a contact time ends on the day on which it began: a day's work; common practice, no source.
pub(super) const WORKING_HOURS: f64 = 8.0;
/// Residual at the end of the contact time where no rule is stated: Montana ARM 36.21.662 and Howard County, Indiana (1977),
/// 25 ppm left after 24 h.
const END_RESIDUAL_MG_PER_L: f64 = 25.0;
/// Never more than this share of the target, so that weak targets can be met: common practice, no source.
const END_SHARE_OF_TARGET: f64 = 0.5;
/// Minutes of pumping to waste until the water is clear: California DDW, at least 30 min.
pub(super) const CLEAR_MINUTES: f64 = 30.0;
/// Minutes of circulating back into the well: about half an hour where a hose reaches; common practice, no source.
pub(super) const CIRCULATE_MINUTES: f64 = 30.0;
/// Minutes in which bleaching powder settles: Directorate of Health Services, Kerala, notes of 2018.
pub(super) const SETTLE_MINUTES: f64 = 10.0;
/// Liters of water for a kilogram of agent: a solution of about a tenth, which every agent here stays in; common practice,
/// no source.
pub(super) const AGENT_WATER_L_PER_KG: f64 = 10.0;

/// Test strips that a visit usually takes: 10 for high chlorine (taps, well, end), 4 for low chlorine, 2 for pH; common practice, no
/// source.
pub(super) const STRIPS_A_VISIT: u32 = 16;
/// Sample bottles that a visit usually takes, one for each of two samples; common practice, no source.
pub(super) const BOTTLES_A_VISIT: u32 = 2;

/// Drinking water for a person and a day, in whole units that people carry: a gallon a day, advice of US agencies for emergencies,
/// from memory.
pub(super) fn drinking_water(system: UnitSystem) -> Volume {
    let (amount, symbol) = match system {
        UnitSystem::Us => (1.0, "US gal"),
        UnitSystem::Imperial => (1.0, "imp gal"),
        UnitSystem::Metric => (4.0, "L"),
    };
    let value = unit::by_symbol(symbol).map_or(f64::NAN, |unit| unit.to_si(amount));
    Volume { value, ..Volume::default() }
}

/// Free chlorine that is measured at least at the end of the contact time: that of the stated rule, else the usual one.
pub(super) fn end_residual(practice: &Practice) -> ChlorineConcentration {
    let stated = practice.hold_rule.as_ref().and_then(|rule| rule.least_residual);
    stated.unwrap_or_else(|| {
        let target = practice.target.milligrams_per_liter();
        ChlorineConcentration::from_milligrams_per_liter(END_RESIDUAL_MG_PER_L.min(END_SHARE_OF_TARGET * target))
    })
}

/// The usual residual at the end.
pub(super) fn usual_end_residual() -> ChlorineConcentration {
    ChlorineConcentration::from_milligrams_per_liter(END_RESIDUAL_MG_PER_L)
}
