//! Wells that are emptied and refilled: dug wells and spring boxes, whose water stands still and whose walls are reached.
//!
//! The order of work is that of the emergency guides: brush the walls with strong chlorine, dose, hold, pump the well empty,
//! let it refill, wait, measure; again until little enough is left. What is computed here plans that day; the measurement
//! ends it.

use std::f64::consts::PI;

use uom::si::f64::{Area, Length, VolumeRate};

use super::flush;
use crate::quantity::{ChlorineConcentration, Time, Volume};
use crate::source::{Equation, Provenance, Source};
use crate::well::StandingWater;

/// How chlorine is got out of a well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlushMethod {
    /// Pump on while clean water enters and mixes.
    MixedTank,
    /// Pump empty, let refill, measure, and again.
    EmptyAndRefill,
}

impl FlushMethod {
    /// Every method, in the order in which messages name them.
    pub const ALL: [Self; 2] = [Self::MixedTank, Self::EmptyAndRefill];

    /// The word in scenario files and tables.
    pub const fn name(self) -> &'static str {
        match self {
            Self::MixedTank => "mixed_tank",
            Self::EmptyAndRefill => "empty_and_refill",
        }
    }

    /// The method with this word.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|method| method.name() == name)
    }
}

/// How wells are emptied, with every value typed; the scenario room fills it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Emptying {
    /// The well is ready when less than this is left after a refill.
    pub until: ChlorineConcentration,
    /// Share of the chlorine that is there again after one emptying: what stays in the sump, on the walls and behind them.
    pub carry_over: f64,
    /// Wait after each refill before measuring.
    pub wait: Time,
    /// Strength of the wall wash.
    pub wash: ChlorineConcentration,
    /// Wall wash per wall, as the height of its film: 1 L per square meter is 1 mm.
    pub wash_film: Length,
}

/// A pump must take at least so many times what flows in, or the well is not emptied in any reasonable time: at two, every
/// emptying pumps two volumes. Common practice, no source.
pub const PUMP_OVER_YIELD: f64 = 2.0;

const WHO_WEDC: Source = Source {
    citation: "WHO/WEDC, Technical notes on drinking-water, sanitation and hygiene in emergencies, no. 1 (2011)",
    locator: "step 4: remove all the water, let refill, wait 30 minutes, safe below 0.5 mg/L, else again",
    provenance: Provenance::Seen,
};
const UNHCR: Source = Source {
    citation: "UNHCR/WHO, Guidelines on selecting and using disinfectants (1997)",
    locator: "VII, Disinfecting a well after pollution: brush the walls with 200 ppm",
    provenance: Provenance::Seen,
};

/// Wall of a well.
pub const WALL_AREA: Equation = Equation {
    id: "E1",
    name: "Wall that the flood and the well's own water have wetted",
    statement: "A = sum over i of pi d_i (min(b_i, B) - t_i); of a box given by its volume A = 4 V^(2/3)",
    symbols: &[
        ("A", "m2", "wall to brush"),
        ("d_i", "m", "inside diameter of interval i"),
        ("t_i, b_i", "m", "depth of its top and bottom"),
        ("B", "m", "depth of the bottom: the whole lining, from the ground down"),
        ("V", "m3", "volume of a box of unknown shape, taken as a cube with four walls"),
    ],
    validity: "straight walls; where only a height of water is known, the wall beside that water",
    sources: &[Source { citation: "geometry", locator: "", provenance: Provenance::Derived }, UNHCR],
    checks: &["chemistry::walls_unroll"],
};

/// Wall of a well to brush: the whole lining from the ground to the bottom, because the flood stood in it.
///
/// `A = sum over i of pi d_i (min(b_i, B) - t_i); of a box given by its volume A = 4 V^(2/3)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | A | m2 | wall to brush |
/// | d_i | m | inside diameter of interval i |
/// | t_i, b_i | m | depth of its top and bottom |
/// | B | m | depth of the bottom |
/// | V | m3 | volume of a box of unknown shape, taken as a cube with four walls |
///
/// Where only a height of water is known, the wall beside that water. Source: geometry.
pub fn wall_area(water: &StandingWater) -> Area {
    match water {
        StandingWater::Bore { bottom, intervals, .. } => {
            let mut area = Area::default();
            for interval in intervals {
                let height = interval.bottom.min(*bottom) - interval.top;
                area += PI * interval.diameter * height.max(Length::default());
            }
            area
        }
        StandingWater::Column { height, diameter } => PI * *diameter * *height,
        StandingWater::Volume { volume } => {
            let side = volume.cbrt();
            4.0 * side * side
        }
    }
}

/// What a wall is brushed with and what chlorine that takes.
pub const WALL_WASH: Equation = Equation {
    id: "E2",
    name: "Chlorine in the wall wash",
    statement: "W = A f; M_w = C_w W",
    symbols: &[
        ("W", "m3", "wall wash"),
        ("A", "m2", "wall"),
        ("f", "L/m2", "wash per wall, stated by the practice"),
        ("M_w", "kg", "chlorine in it, as Cl2"),
        ("C_w", "mg/L as Cl2", "strength of the wash: 100 and 200 mg/L are published"),
    ],
    validity: "brushed on from above with a long brush; rough stone takes more than concrete rings",
    sources: &[UNHCR],
    checks: &["EMPT-001", "EMPT-002"],
};

/// Solution to brush a wall with; its chlorine is the solution times its strength.
///
/// `W = A f; M_w = C_w W`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | W | m3 | wall wash |
/// | A | m2 | wall |
/// | f | L/m2 | wash per wall |
/// | M_w | kg | chlorine in it, as Cl2 |
/// | C_w | mg/L as Cl2 | strength of the wash |
///
/// Source: UNHCR/WHO 1997 for the strength; the amount per wall is stated by the practice.
pub fn wall_wash(wall: Area, film: Length) -> Volume {
    wall * film
}

/// How often a well is emptied until little enough chlorine is left.
pub const EMPTYINGS: Equation = Equation {
    id: "E3",
    name: "Emptyings until little enough chlorine is left",
    statement: "n = max(1, ceil(ln(C0 / C) / ln(1 / s)))",
    symbols: &[
        ("n", "1", "times the well is emptied and refills"),
        ("C0", "mg/L as Cl2", "chlorine after the hold"),
        ("C", "mg/L as Cl2", "the well is ready below this"),
        ("s", "1", "carry-over: share that is there again after one emptying, stated by the practice"),
    ],
    validity: "the same share each time; the measurement after each refill decides, not this number",
    sources: &[WHO_WEDC],
    checks: &["chemistry::emptying_by_emptying"],
};

/// Times a well is emptied until less than a limit is there after a refill; at least once.
///
/// `n = max(1, ceil(ln(C0 / C) / ln(1 / s)))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | n | 1 | times the well is emptied and refills |
/// | C0 | mg/L as Cl2 | chlorine after the hold |
/// | C | mg/L as Cl2 | the well is ready below this |
/// | s | 1 | carry-over: share that is there again after one emptying |
///
/// `None` unless the limit is above zero and the share between zero and one. Source: WHO/WEDC Technical Note 1 for the
/// procedure; repeated dilution.
pub fn emptyings(start: ChlorineConcentration, until: ChlorineConcentration, carry_over: f64) -> Option<f64> {
    let ratio = start.milligrams_per_liter() / until.milligrams_per_liter();
    if until.milligrams_per_liter() > 0.0 { emptyings_for(ratio, carry_over) } else { None }
}

/// The same for whatever is dissolved, by how many times too much of it there is.
pub(super) fn emptyings_for(ratio: f64, carry_over: f64) -> Option<f64> {
    if !(carry_over > 0.0 && carry_over < 1.0) || ratio.is_nan() {
        return None;
    }
    // A power of the share that comes out as 2.0000000000000004 is two emptyings, not three.
    let times = ratio.ln() / -carry_over.ln();
    Some((times - 1e-9).ceil().max(1.0))
}

/// Water pumped and time taken by emptyings.
pub const EMPTYING_TIME: Equation = Equation {
    id: "E4",
    name: "Water pumped and time taken by emptying and refilling",
    statement: "F = n V Q_p / (Q_p - Q_w); t = n (V / (Q_p - Q_w) + V / Q_w + t_w)",
    symbols: &[
        ("F", "m3", "water pumped: the well's, and what flows in meanwhile"),
        ("t", "s", "time"),
        ("n", "1", "emptyings"),
        ("V", "m3", "treated volume"),
        ("Q_p, Q_w", "m3/s", "pump rate and yield"),
        ("t_w", "s", "wait after each refill"),
    ],
    validity: "the pump takes at least twice the yield; a rate that is not known adds nothing: the figure is then the least",
    sources: &[Source { citation: "mass balance", locator: "as F4", provenance: Provenance::Derived }],
    checks: &["chemistry::emptying_balances_pump_and_yield"],
};

/// Emptyings planned for one well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycles {
    /// How often it is emptied.
    pub times: f64,
    /// Water pumped in all.
    pub pumped: Volume,
    /// Time in all; `None` where neither pump rate nor yield is known. The least, where one is not.
    pub time: Option<Time>,
    /// Whether both rates are known; else water and time are the least they can be.
    pub complete: bool,
}

/// Whether a pump can empty a well: where one of the rates is not known, it is taken that it can.
pub fn can_empty(pump_rate: Option<VolumeRate>, well_yield: Option<VolumeRate>) -> bool {
    match (pump_rate, well_yield) {
        (Some(pump), Some(supply)) => pump >= PUMP_OVER_YIELD * supply,
        _ => true,
    }
}

/// Water pumped and time taken by emptying a well a number of times, each time letting it refill and waiting.
///
/// `F = n V Q_p / (Q_p - Q_w); t = n (V / (Q_p - Q_w) + V / Q_w + t_w)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | F | m3 | water pumped: the well's, and what flows in meanwhile |
/// | t | s | time |
/// | n | 1 | emptyings |
/// | V | m3 | treated volume |
/// | Q_p, Q_w | m3/s | pump rate and yield |
/// | t_w | s | wait after each refill |
///
/// `None` where the pump cannot empty the well. Source: mass balance, as F4.
pub fn cycles(
    times: f64,
    water: Volume,
    pump_rate: Option<VolumeRate>,
    well_yield: Option<VolumeRate>,
    wait: Time,
) -> Option<Cycles> {
    if !can_empty(pump_rate, well_yield) {
        return None;
    }
    let (pumped, time) = match (pump_rate, well_yield) {
        (Some(pump), Some(supply)) => {
            let cycle = flush::drawdown(water, pump, supply)?;
            (pump * cycle.until_dry, Some(cycle.until_dry + cycle.until_full + wait))
        }
        (Some(rate), None) | (None, Some(rate)) => (water, Some(water / rate + wait)),
        (None, None) => (water, None),
    };
    Some(Cycles {
        times,
        pumped: times * pumped,
        time: time.map(|time| times * time),
        complete: pump_rate.is_some() && well_yield.is_some(),
    })
}
