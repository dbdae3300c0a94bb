//! The steps of the working that water makes which moves: wall wash, spring feed, emptying.
//!
//! Figures are the requirement's own.

use crate::quantity::format::number;
use crate::quantity::kitchen;
use crate::quantity::liters;
use crate::relation::Given;
use crate::relation::figures::in_figures_of;

/// Digits that the working shows.
const DIGITS: u32 = 5;

fn n(value: f64) -> String {
    number(value, DIGITS)
}

/// Wall wash and feed, before the chlorine that is made of them.
pub(super) fn wash_and_feed(
    given: &Given<'_>,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    if let Some(wash) = given.need.wash {
        step(
            "Wall wash",
            "E2",
            in_figures_of("wall_wash_l", given),
            format!("{} with {} g of chlorine as Cl2", both("L", liters(wash.solution)), n(wash.chlorine.grams())),
        );
    }
    if let Some(feed) = given.need.feed {
        step(
            "Spring feed",
            "Q3",
            in_figures_of("feed_chlorine_g", given),
            format!(
                "{} as Cl2 over the contact time; {} overflow meanwhile",
                both("g", feed.chlorine.grams()),
                both("L", liters(feed.overflow))
            ),
        );
    }
}

/// What is measured out beside the dose of the water, and what that dose comes to in uncounted plumbing.
pub(super) fn measured_beside(
    given: &Given<'_>,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let (need, product) = (given.need, &given.product.name);
    if let Some(wash) = need.wash {
        step(
            "For the walls",
            "M1",
            in_figures_of("wall_wash_amount", given),
            format!(
                "{} of {product} in {}, brushed on from above",
                kitchen::words(wash.amount, wash.unit),
                both("L", liters(wash.solution))
            ),
        );
    }
    if let Some(feed) = need.feed {
        let (id, per_hour) = match (feed.per_hour.liters(), feed.per_hour.kilograms()) {
            (volume, _) if !volume.is_nan() => ("feed_l_per_h", both("L", volume)),
            (_, mass) => ("feed_kg_per_h", both("kg", mass)),
        };
        step(
            "To feed",
            "Q3",
            format!("{}; after the amount measured out, all through the contact time", in_figures_of(id, given)),
            format!("{per_hour} of {product} each hour"),
        );
    }
    if let Some(spread) = need.dose_if_spread {
        step(
            "In plumbing",
            "D5",
            format!(
                "no plumbing is included; spread through 80 US gal of pipes, tank and heater: {}",
                in_figures_of("dose_if_spread_mg_per_l", given)
            ),
            format!("{} mg/L as Cl2", number(spread.milligrams_per_liter(), 2)),
        );
    }
}

/// Emptying and its time.
pub(super) fn emptying(
    given: &Given<'_>,
    times: f64,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let Given { well, practice, need, .. } = *given;
    let rules = &practice.emptying;
    step(
        "Emptyings",
        "E3",
        format!(
            "{}: {} % of the chlorine is there again after each",
            in_figures_of("emptyings", given),
            n(rules.carry_over * 100.0)
        ),
        format!(
            "{} expected; after each let it refill, wait {} h and measure; ready below {} mg/L",
            number(times, 3),
            n(rules.wait.value / 3600.0),
            n(rules.until.milligrams_per_liter())
        ),
    );
    let pump = well.pump_rate.or(practice.flush_rate);
    let least = if pump.is_some() && well.well_yield.is_some() { "about" } else { "at least" };
    step(
        "Emptying",
        "E4",
        in_figures_of("flush_volume_l", given),
        format!("{least} {} pumped", both("L", liters(need.flush_volume))),
    );
    step(
        "Emptying time",
        "E4",
        match need.flush_time {
            Some(_) => in_figures_of("flush_h", given),
            None => "neither pump rate nor yield is known".to_owned(),
        },
        match need.flush_time {
            Some(time) => format!("{least} {} h, with refilling and waiting", number(time.value / 3600.0, 2)),
            None => "the hours are not known".to_owned(),
        },
    );
}
