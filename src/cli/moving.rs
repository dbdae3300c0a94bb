//! What `well` asks and says of water that moves: springs, and for machines wall wash, feed, emptying, uncounted plumbing.

use serde::Serialize;

use crate::error::{Error, Result};
use crate::kernel::moving::{HOUSE_PLUMBING_L, unsettled_turnover};
use crate::kernel::requirement::{Practice, Requirement};
use crate::kernel::spring::FlowingSpring;
use crate::quantity::format::number;
use crate::quantity::liters;
use crate::report::show::Shown;
use crate::scenario::section::near;
use crate::well::Well;

/// The choice that was typed for a spring that flows.
pub(super) fn choice(word: &str) -> Result<FlowingSpring> {
    FlowingSpring::by_name(word).ok_or_else(|| {
        let known = FlowingSpring::ALL.map(FlowingSpring::name);
        Error::request(format!("no choice {word:?}{}; known: {}", near(word, &known), known.join(", ")))
    })
}

/// Refuses a spring that flows while nobody has said what is done about it.
pub(super) fn settled(well: &Well, practice: &Practice) -> Result<()> {
    let Some(volumes) = unsettled_turnover(well, practice) else { return Ok(()) };
    Err(Error::request(format!(
        "this spring flows: in a contact time of {} h its inflow replaces the water {} times, so one dose is not enough; give \
         --flowing-spring isolated (overflow closed, supply off) or --flowing-spring feed (chlorine fed all the time)",
        number(practice.hold.value / 3600.0, 3),
        number(volumes, 2)
    )))
}

/// What the amount comes to in plumbing that is not included, where that changes what a small well gets.
pub(super) fn if_spread(practice: &Practice, need: &Requirement) -> Option<String> {
    let spread = need.dose_if_spread?;
    let plumbing = Shown::of("L", practice.system);
    Some(format!(
        "only {} mg/L once it circulates through {} {} of pipes, tank and heater, which are not included: give --plumbing",
        number(spread.milligrams_per_liter(), 2),
        number(plumbing.value(HOUSE_PLUMBING_L), 3),
        plumbing.symbol
    ))
}

/// Keys of `well` for water that moves.
#[derive(Serialize)]
pub(super) struct Moving {
    /// What the chlorine gives once it is spread through the pipes of a house that were not counted, in mg/L as Cl2.
    dose_if_spread_mg_per_l: Option<f64>,
    /// Solution to brush the walls with, in liters.
    wall_wash_l: Option<f64>,
    /// Product to mix into it, in the unit below.
    wall_wash_amount: Option<f64>,
    /// Unit of that amount.
    wall_wash_unit: Option<&'static str>,
    /// Liquid product to feed to a spring that runs, in liters per hour.
    feed_l_per_h: Option<f64>,
    /// Product to feed, in kilograms per hour.
    feed_kg_per_h: Option<f64>,
    /// Liquid product fed over the whole hold, in liters.
    feed_l: Option<f64>,
    /// The same in kilograms.
    feed_kg: Option<f64>,
    /// Water that leaves by the overflow meanwhile, in liters.
    overflow_l: Option<f64>,
    /// `mixed_tank` (pumped on) or `empty_and_refill`.
    flush_method: &'static str,
    /// Times the well is emptied; nothing where it is not.
    emptyings: Option<f64>,
}

impl Moving {
    pub(super) fn of(need: &Requirement) -> Self {
        let known = |value: f64| (!value.is_nan()).then_some(value);
        Self {
            dose_if_spread_mg_per_l: need.dose_if_spread.map(|dose| dose.milligrams_per_liter()),
            wall_wash_l: need.wash.map(|wash| liters(wash.solution)),
            wall_wash_amount: need.wash.map(|wash| wash.amount),
            wall_wash_unit: need.wash.map(|wash| wash.unit),
            feed_l_per_h: need.feed.and_then(|feed| known(feed.per_hour.liters())),
            feed_kg_per_h: need.feed.map(|feed| feed.per_hour.kilograms()),
            feed_l: need.feed.and_then(|feed| known(feed.in_all.liters())),
            feed_kg: need.feed.map(|feed| feed.in_all.kilograms()),
            overflow_l: need.feed.map(|feed| liters(feed.overflow)),
            flush_method: need.flush_method.name(),
            emptyings: need.emptyings,
        }
    }
}
