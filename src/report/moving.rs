//! The steps of the working that water makes which moves: wall wash, spring feed, emptying.
//!
//! Figures are the requirement's own.

use super::show::Shown;
use crate::kernel::emptying::wall_area;
use crate::kernel::moving::is_fed;
use crate::kernel::requirement::{Practice, Requirement};
use crate::quantity::basis::liters_per_minute;
use crate::quantity::format::number;
use crate::quantity::kitchen;
use crate::quantity::liters;
use crate::scenario::product::Product;
use crate::well::Well;

/// Digits that the working shows.
const DIGITS: u32 = 5;

fn n(value: f64) -> String {
    number(value, DIGITS)
}

/// Wall wash and feed, before the chlorine that is made of them.
pub(super) fn wash_and_feed(
    well: &Well,
    practice: &Practice,
    need: &Requirement,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    if let Some(wash) = need.wash {
        let area = wall_area(&well.standing_water).value;
        step(
            "Wall wash",
            "E2",
            format!(
                "{} m2 of wall (E1) x {} L/m2, at {} mg/L",
                n(area),
                n(practice.emptying.wash_film.value * 1000.0),
                n(practice.emptying.wash.milligrams_per_liter())
            ),
            format!("{} with {} g of chlorine as Cl2", both("L", liters(wash.solution)), n(wash.chlorine.grams())),
        );
    }
    if let (Some(feed), Some(inflow)) = (need.feed, well.well_yield) {
        step(
            "Spring feed",
            "Q3",
            format!(
                "{} mg/L x {} L/min x 60 x {} h / 1000",
                n(need.dose.milligrams_per_liter()),
                n(liters_per_minute(inflow)),
                n(need.hold.value / 3600.0)
            ),
            format!(
                "{} as Cl2 over the contact time; {} overflow meanwhile",
                both("g", feed.chlorine.grams()),
                both("L", liters(feed.overflow))
            ),
        );
    }
}

/// The chlorine of water, wash and feed.
pub(super) fn chlorine_working(need: &Requirement, treated: f64) -> String {
    let mut text = format!("{} mg/L x {} L / 1000", n(need.dose.milligrams_per_liter()), n(treated));
    if let Some(wash) = need.wash {
        text += &format!(" + {} g for the walls", n(wash.chlorine.grams()));
    }
    if let Some(feed) = need.feed {
        text += &format!(" + {} g fed", n(feed.chlorine.grams()));
    }
    text
}

/// What is measured out beside the dose of the water, and what that dose comes to in uncounted plumbing.
pub(super) fn measured_beside(
    need: &Requirement,
    product: &Product,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    if let Some(wash) = need.wash {
        step(
            "For the walls",
            "M1",
            "rounded up to what can be measured, by an eighth at most".to_owned(),
            format!(
                "{} of {} in {}, brushed on from above",
                kitchen::words(wash.amount, wash.unit),
                product.name,
                both("L", liters(wash.solution))
            ),
        );
    }
    if let Some(feed) = need.feed {
        let per_hour = match (feed.per_hour.liters(), feed.per_hour.kilograms()) {
            (volume, _) if !volume.is_nan() => both("L", volume),
            (_, mass) => both("kg", mass),
        };
        step(
            "To feed",
            "Q3",
            "after the amount measured out, all through the contact time".to_owned(),
            format!("{per_hour} of {} each hour", product.name),
        );
    }
    if let Some(spread) = need.dose_if_spread {
        step(
            "In plumbing",
            "D5",
            "no plumbing is included; spread through 80 US gal of pipes, tank and heater".to_owned(),
            format!("{} mg/L as Cl2", number(spread.milligrams_per_liter(), 2)),
        );
    }
}

/// Emptying and its time.
pub(super) fn emptying(
    well: &Well,
    practice: &Practice,
    need: &Requirement,
    times: f64,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let rules = &practice.emptying;
    let start = practice.residual(need.measured_dose).milligrams_per_liter();
    step(
        "Emptyings",
        "E3",
        format!(
            "ln({} / {}) / ln(1 / {}), rounded up: {} % of the chlorine is there again after each",
            n(start),
            n(rules.until.milligrams_per_liter()),
            n(rules.carry_over),
            n(rules.carry_over * 100.0)
        ),
        format!(
            "{} expected; after each let it refill, wait {} h and measure; ready below {} mg/L",
            number(times, 3),
            n(rules.wait.value / 3600.0),
            n(rules.until.milligrams_per_liter())
        ),
    );
    let flow = |rate: Option<uom::si::f64::VolumeRate>| {
        rate.map_or_else(|| "unknown".to_owned(), |rate| format!("{} L/min", n(liters_per_minute(rate))))
    };
    let pump = well.pump_rate.or(practice.flush_rate);
    let least = if pump.is_some() && well.well_yield.is_some() { "about" } else { "at least" };
    step(
        "Emptying",
        "E4",
        format!(
            "{} times {} L, pump {}, inflow {}",
            number(times, 3),
            n(liters(need.treated_volume)),
            flow(pump),
            flow(well.well_yield)
        ),
        match need.flush_time {
            Some(time) => format!(
                "{least} {} pumped and {} h, with refilling and waiting",
                both("L", liters(need.flush_volume)),
                number(time.value / 3600.0, 2)
            ),
            None => format!("{least} {} pumped; the hours are not known", both("L", liters(need.flush_volume))),
        },
    );
}

/// What is neutralized beside the flush, in grams of chlorine.
pub(super) fn removed_beside(practice: &Practice, need: &Requirement) -> String {
    let mut text = String::new();
    if let Some(wash) = need.wash {
        text += &format!(" + {} g of the wall wash", n(wash.chlorine.grams()));
    }
    if let Some(feed) = need.feed {
        let limit = practice.discharge_limit.milligrams_per_liter() * liters(feed.overflow) / 1000.0;
        text += &format!(" + {} g that runs over", n((feed.chlorine.grams() - limit).max(0.0)));
    }
    text
}

/// How the chlorine is got out, in words for the answer of one well: `pump empty 3 times`.
pub fn way_out_words(well: &Well, practice: &Practice, need: &Requirement) -> String {
    let volume = Shown::of("L", practice.system);
    let water = format!("{} {}", number(volume.value(liters(need.flush_volume)), 3), volume.symbol);
    match need.emptyings {
        Some(times) => format!(
            "pump empty, let refill, wait {} h, measure; expected {} times, about {water} in all; ready below {} mg/L",
            number(practice.emptying.wait.value / 3600.0, 2),
            number(times, 3),
            number(practice.emptying.until.milligrams_per_liter(), 2)
        ),
        None if is_fed(well, practice) => format!("the spring flushes itself: about {water}"),
        None => format!("about {water}"),
    }
}
