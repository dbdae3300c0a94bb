//! What moving water adds to the chain of one well: the water of a spring box, its feed, the wall wash of a well that is
//! emptied, and the way the chlorine gets out again.
//!
//! Called by [`requirement`](super::requirement::requirement), which tells the chain; each figure is a function of a sibling
//! room ([`spring`], [`emptying`], [`flush`]). It refuses to decide what the practice must state.

use uom::si::f64::VolumeRate;
use uom::si::time::hour;

use super::chlorate::emptyings_for_chlorate;
use super::dose;
use super::emptying::{self, FlushMethod};
use super::flush;
use super::neutralizer;
use super::pour::{Amount, Prepared};
use super::practice::Practice;
use super::spring::{self, FlowingSpring};
use super::volume::Water;
use crate::caution::{Caution, Cautions};
use crate::field::{DischargeRoute, WellType};
use crate::quantity::basis::ChlorateConcentration;
use crate::quantity::{ChlorineConcentration, ChlorineMass, Time, Volume, liters_of};
use crate::well::Well;

/// Wall wash of a well that is emptied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallWash {
    /// Solution to brush on.
    pub solution: Volume,
    /// Chlorine that the solution holds.
    pub chlorine: ChlorineMass,
    /// Product to mix into it, as measured out.
    pub amount: f64,
    /// Unit symbol of that measure.
    pub unit: &'static str,
}

/// Feed of a spring that runs over during the hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feed {
    /// Chlorine fed over the whole hold, beside the dose of the standing water.
    pub chlorine: ChlorineMass,
    /// Product fed in one hour.
    pub per_hour: Amount,
    /// Product fed over the whole hold.
    pub in_all: Amount,
    /// Water that leaves by the overflow meanwhile, at the dose.
    pub overflow: Volume,
}

/// How the chlorine gets out of the well again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WayOut {
    /// Pumping on, or emptying.
    pub method: FlushMethod,
    /// Times it is emptied; `None` where it is not.
    pub emptyings: Option<f64>,
    /// Water to pump out.
    pub volume: Volume,
    /// Rate of pumping, where known.
    pub rate: Option<VolumeRate>,
    /// Time of pumping, refilling and waiting, where known.
    pub time: Option<Time>,
    /// Whether the well should be emptied and its pump is too weak for that.
    pub too_weak: bool,
}

/// Inflow of a spring box, where the list gives one: its yield.
pub fn inflow(well: &Well) -> Option<VolumeRate> {
    well.well_yield.filter(|_| well.well_type == WellType::SpringBox)
}

/// Volumes that flow through a spring box during the hold, where that is a considerable part and the practice does not say
/// what is done about it: nothing can be planned for such a well.
pub fn unsettled_turnover(well: &Well, practice: &Practice) -> Option<f64> {
    let settled = matches!(practice.flowing_spring, Some(FlowingSpring::Isolated | FlowingSpring::Feed));
    let standing = super::volume::standing_volume(&well.standing_water);
    let volumes = spring::turnover(inflow(well)?, practice.hold, standing);
    (!settled && volumes > spring::CONSIDERABLE_TURNOVER).then_some(volumes)
}

/// Whether chlorine is fed to this well all through the hold.
pub fn is_fed(well: &Well, practice: &Practice) -> bool {
    practice.flowing_spring == Some(FlowingSpring::Feed) && inflow(well).is_some()
}

/// Water standing in the well while the chlorine is in it: a spring box that is not fed fills to its cover (Q2).
pub fn water_held(well: &Well, practice: &Practice, standing: Volume) -> Volume {
    match inflow(well) {
        Some(inflow) if !is_fed(well, practice) => {
            spring::isolated_volume(standing, inflow, practice.hold, practice.spring_rise)
        }
        _ => standing,
    }
}

/// The method that is wanted for this well: as the practice says, else emptying for dug wells and spring boxes.
///
/// Never emptying where sea water got in (salt water follows from below) or a spring is fed (its own flow flushes it).
pub fn method_wanted(well: &Well, practice: &Practice) -> FlushMethod {
    let usual = match well.well_type {
        WellType::Dug | WellType::SpringBox => FlushMethod::EmptyAndRefill,
        _ => FlushMethod::MixedTank,
    };
    if well.seawater == Some(true) || is_fed(well, practice) {
        FlushMethod::MixedTank
    } else {
        practice.flush_method.unwrap_or(usual)
    }
}

/// Wash for the walls of a well that is emptied, with its chlorine; none for others.
pub fn wash_chlorine(well: &Well, practice: &Practice, water: Water<'_>) -> Option<(Volume, ChlorineMass)> {
    if method_wanted(well, practice) != FlushMethod::EmptyAndRefill {
        return None;
    }
    let rules = &practice.emptying;
    let solution = emptying::wall_wash(water.figure(emptying::wall_area), rules.wash_film);
    let chlorine = rules.wash * solution;
    // A practice without a wash states a strength or an amount of zero.
    (chlorine.grams() > 0.0).then_some((solution, chlorine))
}

/// The wall wash with the product that a person measures out for it; `None` only for what is not a number.
pub fn wall_wash(
    solution: Volume,
    chlorine: ChlorineMass,
    product: &Prepared,
    practice: &Practice,
) -> Option<WallWash> {
    let measured = product.stock.measured(chlorine, practice.system)?;
    Some(WallWash { solution, chlorine, amount: measured.amount, unit: measured.unit })
}

/// Chlorine that is fed to a spring that runs over during the hold; `None` for other wells.
pub fn feed_chlorine(well: &Well, practice: &Practice, dose: ChlorineConcentration) -> Option<ChlorineMass> {
    let inflow = inflow(well).filter(|_| is_fed(well, practice))?;
    Some(spring::fed(dose, inflow, practice.hold))
}

/// What is fed to a spring that runs over during the hold; `None` for other wells.
pub fn feed(well: &Well, practice: &Practice, product: &Prepared, dose: ChlorineConcentration) -> Option<Feed> {
    let chlorine = feed_chlorine(well, practice, dose)?;
    let inflow = inflow(well)?;
    Some(Feed {
        chlorine,
        per_hour: product.stock.holding(spring::fed(dose, inflow, Time::new::<hour>(1.0))),
        in_all: product.stock.holding(chlorine),
        overflow: inflow * practice.hold,
    })
}

/// How the chlorine gets out: emptied where that is wanted and the pump can, else as a mixed tank.
pub fn way_out(well: &Well, practice: &Practice, treated: Volume, start: ChlorineConcentration) -> WayOut {
    let wanted = method_wanted(well, practice);
    if wanted == FlushMethod::EmptyAndRefill {
        let rules = &practice.emptying;
        // A crew without a pump on site brings one that gives the practice's rate.
        let pump = well.pump_rate.or(practice.flush_rate);
        let times = emptying::emptyings(start, rules.until, rules.carry_over).unwrap_or(1.0);
        if let Some(cycles) = emptying::cycles(times, treated, pump, well.well_yield, rules.wait) {
            return WayOut {
                method: wanted,
                emptyings: Some(cycles.times),
                volume: cycles.pumped,
                rate: pump,
                time: cycles.time,
                too_weak: false,
            };
        }
    }
    let volumes = flush::flush_volumes(start, practice.flush_until, practice.flush_volumes).unwrap_or(1.0);
    let volume = treated * volumes;
    // A fed spring flushes itself by its own flow.
    let pump = well.pump_rate.filter(|_| !is_fed(well, practice));
    let rate = flush::flush_rate(pump, well.well_yield).or(practice.flush_rate);
    WayOut {
        method: FlushMethod::MixedTank,
        emptyings: None,
        volume,
        rate,
        time: rate.map(|rate| flush::flush_time(volume, rate)),
        too_weak: wanted == FlushMethod::EmptyAndRefill,
    }
}

/// Share of what chlorine does not use up, such as chlorate, that is left in the well by what is planned: the carry-over of
/// every emptying, or what the ideal mixed tank leaves.
pub fn share_left(practice: &Practice, emptyings: Option<f64>, pumped: Volume, treated: Volume) -> f64 {
    match emptyings {
        Some(times) => practice.emptying.carry_over.powf(times),
        None => flush::share_after_volumes((pumped / treated).value),
    }
}

/// How often a well must be emptied before chlorate is down to the guideline value, whatever the residual says; nothing where
/// none is planned, and where one emptying is enough.
pub fn least_emptyings(
    practice: &Practice,
    planned: Option<f64>,
    chlorate: Option<ChlorateConcentration>,
) -> Option<f64> {
    planned?;
    let times = emptyings_for_chlorate(chlorate?, practice.emptying.carry_over)?;
    (times > 1.0).then_some(times)
}

/// Chlorine to take out of the wash and of what runs over during a feed, beside that of the flush.
pub fn further_to_remove(
    wash: Option<&WallWash>,
    feed: Option<&Feed>,
    dose: ChlorineConcentration,
    limit: ChlorineConcentration,
) -> ChlorineMass {
    let nothing = ChlorineMass::from_grams(0.0);
    let run_over =
        feed.map_or(nothing, |feed| neutralizer::chlorine_to_remove(dose, feed.overflow, limit, feed.overflow));
    wash.map_or(nothing, |wash| wash.chlorine) + run_over
}

/// Plumbing of one house, by which the dose of a small well is judged where nobody counted any: 80 US gal of pipes, pressure
/// tank and heater. Common practice, no source.
pub const HOUSE_PLUMBING_L: f64 = 302.8;

/// The concentration that the chlorine poured would give once it circulates through a house's plumbing, for a driven point
/// or a small well (less water than that plumbing) with no plumbing counted; `None` for others.
pub fn dose_if_spread(
    well: &Well,
    practice: &Practice,
    treated: Volume,
    measured_dose: ChlorineConcentration,
) -> Option<ChlorineConcentration> {
    let house = liters_of(HOUSE_PLUMBING_L);
    let small = treated < house && well.well_type != WellType::SpringBox;
    let uncounted = well.plumbing_volume.is_none() && practice.plumbing_volume.value <= 0.0;
    (uncounted && (small || well.well_type == WellType::Driven))
        .then(|| dose::dose_given(measured_dose * treated, treated + house))
}

/// The cautions that moving water raises.
pub fn cautions(
    well: &Well,
    practice: &Practice,
    way_out: &WayOut,
    spread: Option<ChlorineConcentration>,
    raised: &mut Cautions,
) {
    let spring_box = well.well_type == WellType::SpringBox;
    let fed = is_fed(well, practice);
    raised.raise_if(spring_box && well.well_yield.is_some() && !fed, Caution::SpringIsolated);
    raised.raise_if(fed, Caution::SpringFed);
    raised.raise_if(spring_box && well.well_yield.is_none(), Caution::SpringInflowUnknown);
    raised.raise_if(way_out.method == FlushMethod::EmptyAndRefill, Caution::EmptyAndRefill);
    raised.raise_if(way_out.too_weak, Caution::CannotBeEmptied);
    let rates = way_out.rate.is_some() && well.well_yield.is_some();
    let least = way_out.emptyings.is_some() && way_out.time.is_some() && !rates;
    raised.raise_if(least, Caution::HoursAtLeast);
    raised.raise_if(spread.is_some(), Caution::PlumbingUncounted);
    if well.discharge_route == Some(DischargeRoute::Septic) {
        let counted = practice.neutralize_routes.contains(DischargeRoute::Septic);
        raised.raise(if counted { Caution::SepticOverload } else { Caution::SepticKeepOut });
    }
}
