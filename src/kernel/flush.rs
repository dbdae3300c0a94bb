//! Flushing the chlorine out: volumes by the mixed tank or by rule, the plug bound, rate by pump and yield, hours.
//!
//! Called after the hold. The figures plan the day; the flush itself stops on a measured residual ([`STOP_ON_RESIDUAL`]).
//! It refuses to know where the water goes.

use uom::si::f64::VolumeRate;

use crate::quantity::{ChlorineConcentration, Time, Volume};
use crate::source::{Equation, Provenance, Source};

/// Printed wherever a flush is planned.
pub const STOP_ON_RESIDUAL: &str = "flush until a test shows the residual, not until the clock does";

/// F1: volumes to pump from an ideal mixed tank until the residual is low enough; at least one.
pub const FLUSH_VOLUMES: Equation = Equation {
    id: "F1",
    name: "Volumes to flush, ideal mixed tank",
    statement: "n = max(1, ln(C0 / C))",
    symbols: &[
        ("n", "1", "volumes of treated water to pump"),
        ("C0", "mg/L as Cl2", "chlorine at the start"),
        ("C", "mg/L as Cl2", "chlorine at which the flush may stop"),
    ],
    validity: "clean water enters and mixes at once; plug flow would need one volume, chlorine in the formation more than n. One \
               measured test: four wells dosed to 200 mg/L at most and purged of four casing volumes, of which one still held \
               free chlorine; n = 4 leaves 1.8 %, 3.7 of 200 mg/L, so a well may need more than four: consistent, no curve",
    sources: &[
        Source { citation: "mixed-tank dilution", locator: "", provenance: Provenance::Derived },
        Source {
            citation: "Walker, Newman: Drink. Water Eng. Sci. 4 (2011) 1, doi 10.5194/dwes-4-1-2011",
            locator: "abstract",
            provenance: Provenance::Seen,
        },
    ],
    checks: &["chemistry::flushing_by_small_steps", "chemistry::four_casing_volumes_leave_what_strips_can_see"],
};

/// Volumes of treated water to pump until a residual is reached in an ideal mixed tank; at least one, the plug-flow bound.
///
/// `n = max(1, ln(C0 / C))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | n | 1 | volumes of treated water to pump |
/// | C0 | mg/L as Cl2 | chlorine at the start |
/// | C | mg/L as Cl2 | chlorine at which the flush may stop |
///
/// Clean water enters and mixes at once. `None` where the residual is not above zero: it is never quite reached. Source:
/// mixed-tank dilution.
pub fn mixed_tank_volumes(start: ChlorineConcentration, until: ChlorineConcentration) -> Option<f64> {
    let ratio = start.milligrams_per_liter() / until.milligrams_per_liter();
    (until.milligrams_per_liter() > 0.0 && !ratio.is_nan()).then(|| ratio.ln().max(PLUG_FLOW_VOLUMES))
}

/// The other bound: in plug flow one volume carries all the chlorine out.
pub const PLUG_FLOW_VOLUMES: f64 = 1.0;

/// Residual after a number of volumes.
pub const FLUSH_RESIDUAL: Equation = Equation {
    id: "F2",
    name: "Share of chlorine left after flushing, ideal mixed tank",
    statement: "C / C0 = exp(-n)",
    symbols: &[("C, C0", "mg/L as Cl2", "chlorine left and at the start"), ("n", "1", "volumes pumped")],
    validity: "as F1: three volumes leave 5 %, five leave 0.7 %",
    sources: &[Source { citation: "mixed-tank dilution", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::flushing_by_small_steps"],
};

/// Chlorine left after pumping a number of volumes from an ideal mixed tank.
///
/// `C / C0 = exp(-n)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | C, C0 | mg/L as Cl2 | chlorine left and at the start |
/// | n | 1 | volumes pumped |
///
/// Source: mixed-tank dilution.
pub fn residual_after_volumes(start: ChlorineConcentration, volumes: f64) -> ChlorineConcentration {
    start * share_after_volumes(volumes)
}

/// Share of anything dissolved that is left after pumping a number of volumes from an ideal mixed tank: `exp(-n)`, as
/// [`residual_after_volumes`].
pub fn share_after_volumes(volumes: f64) -> f64 {
    (-volumes).exp()
}

/// Volumes to pump where a residual and a number of volumes are both asked for: the greater.
pub fn flush_volumes(
    start: ChlorineConcentration,
    until: Option<ChlorineConcentration>,
    volumes: Option<f64>,
) -> Option<f64> {
    let mixed = until.and_then(|until| mixed_tank_volumes(start, until));
    match (mixed, volumes) {
        (Some(mixed), Some(volumes)) => Some(mixed.max(volumes)),
        (one, other) => one.or(other),
    }
}

/// F3: minutes that the flush takes at the lesser of pump rate and yield.
pub const FLUSH_TIME: Equation = Equation {
    id: "F3",
    name: "Time to flush",
    statement: "t = n V_t / min(Q_pump, Q_well)",
    symbols: &[
        ("t", "min", "time"),
        ("n", "1", "volumes"),
        ("V_t", "L", "treated volume"),
        ("Q_pump, Q_well", "L/min", "pump rate and yield, those that are known"),
    ],
    validity: "a pump stronger than the well draws it down and must wait, see F4",
    sources: &[Source { citation: "mass balance", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::flushing_by_small_steps"],
};

/// Rate at which a well can be flushed: the lesser of pump rate and yield, those that are known.
pub fn flush_rate(pump_rate: Option<VolumeRate>, well_yield: Option<VolumeRate>) -> Option<VolumeRate> {
    match (pump_rate, well_yield) {
        (Some(pump), Some(supply)) => Some(pump.min(supply)),
        (one, other) => one.or(other),
    }
}

/// Time to pump a volume at a rate.
///
/// `t = n V_t / min(Q_pump, Q_well)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | t | min | time |
/// | n | 1 | volumes |
/// | V_t | L | treated volume |
/// | Q_pump, Q_well | L/min | pump rate and yield, those that are known |
///
/// Source: mass balance.
pub fn flush_time(volume: Volume, rate: VolumeRate) -> Time {
    volume / rate
}

/// A pump stronger than the well.
pub const RECOVERY: Equation = Equation {
    id: "F4",
    name: "Time until the pump runs dry, and until the well is full again",
    statement: "t_dry = V / (Q_pump - Q_well); t_full = V / Q_well",
    symbols: &[
        ("t_dry", "min", "time of pumping until the standing water is gone"),
        ("t_full", "min", "time of rest until it is back"),
        ("V", "L", "standing volume above the pump"),
        ("Q_pump, Q_well", "L/min", "pump rate and yield"),
    ],
    validity: "yield taken as constant while the level falls; true recovery slows towards the end",
    sources: &[Source { citation: "mass balance", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::drawdown_and_recovery_balance"],
};

/// How a pump stronger than the well must be worked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawdown {
    /// Pumping until the standing water is gone.
    pub until_dry: Time,
    /// Rest until it is back.
    pub until_full: Time,
}

/// When a pump stronger than the well runs dry and when the well is full again; `None` where the well keeps up.
///
/// `t_dry = V / (Q_pump - Q_well); t_full = V / Q_well`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | t_dry | min | time of pumping until the standing water is gone |
/// | t_full | min | time of rest until it is back |
/// | V | L | standing volume above the pump |
/// | Q_pump, Q_well | L/min | pump rate and yield |
///
/// Yield is taken as constant while the level falls. Source: mass balance.
pub fn drawdown(standing: Volume, pump_rate: VolumeRate, well_yield: VolumeRate) -> Option<Drawdown> {
    (pump_rate > well_yield)
        .then(|| Drawdown { until_dry: standing / (pump_rate - well_yield), until_full: standing / well_yield })
}
