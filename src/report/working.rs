//! The working of one well: every step with its numbers put in, its equation, and what it gives.
//!
//! `well` prints it for the well at the prompt, `explain --well` for a well of the list. The figures are the kernel's own,
//! taken from the requirement; nothing is computed a second way here.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::show::Shown;
use super::{consequences, moving};
use crate::field::DischargeRoute;
use crate::kernel::demand;
use crate::kernel::measure::{self, MeasureFor};
use crate::kernel::requirement::{Practice, Requirement, Stock};
use crate::quantity::basis::liters_per_minute;
use crate::quantity::format::number;
use crate::quantity::kitchen;
use crate::quantity::liters;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;
use crate::well::{StandingWater, Well};

/// One step of the chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is worked out.
    pub title: &'static str,
    /// Equation id; empty where none is needed.
    pub equation: &'static str,
    /// The relation with numbers and units put in.
    pub working: String,
    /// What it gives, with its unit, as people of the campaign read it.
    pub result: String,
}

/// Digits that the working shows: enough to follow it with a pocket calculator.
const DIGITS: u32 = 5;

/// The chain for one well, from its water to its neutralizer.
pub fn steps(
    well: &Well,
    practice: &Practice,
    product: &Product,
    stock: &StockOnTheDay,
    need: &Requirement,
) -> Vec<Step> {
    let n = |value: f64| number(value, DIGITS);
    let both = |symbol: &'static str, value: f64| {
        let shown = Shown::of(symbol, practice.system);
        let table = format!("{} {symbol}", n(value));
        if shown.symbol == symbol { table } else { format!("{table} = {} {}", n(shown.value(value)), shown.symbol) }
    };
    let mut steps = Vec::new();
    let mut step =
        |title, equation, working: String, result: String| steps.push(Step { title, equation, working, result });

    let standing = liters(need.standing_volume);
    let water = match &well.standing_water {
        StandingWater::Bore { water_level, bottom, intervals } => {
            let surface = water_level.value.max(0.0);
            let column = bottom.value - surface;
            step("Water column", "V2", format!("{} m - {} m", n(bottom.value), n(surface)), both("m", column));
            intervals
                .iter()
                .filter(|interval| interval.bottom.value > surface)
                .map(|interval| {
                    let wet = interval.bottom.value - interval.top.value.max(surface);
                    format!("pi/4 x ({} m)^2 x {} m", n(interval.diameter.value), n(wet))
                })
                .collect::<Vec<_>>()
                .join(" + ")
        }
        StandingWater::Column { height, diameter } => {
            format!("pi/4 x ({} m)^2 x {} m", n(diameter.value), n(height.value))
        }
        StandingWater::Volume { .. } => "given by the list".to_owned(),
    };
    step("Standing volume", "V2", water, both("L", standing));
    let treated = liters(need.treated_volume);
    let plumbing = liters(well.plumbing_volume.unwrap_or(practice.plumbing_volume));
    step("Treated volume", "V3", treated_working(well, practice, need, standing, plumbing), both("L", treated));
    step(
        "Demand",
        "N1",
        demand_working(well, practice),
        format!("{} mg/L as Cl2", n(need.demand.milligrams_per_liter())),
    );
    step(
        "Dose",
        "D1",
        format!("{} mg/L + {} mg/L", n(practice.target.milligrams_per_liter()), n(need.demand.milligrams_per_liter())),
        format!("{} mg/L as Cl2", n(need.dose.milligrams_per_liter())),
    );
    moving::wash_and_feed(well, practice, need, &both, &mut step);
    step(
        "Chlorine",
        "D2",
        moving::chlorine_working(need, treated),
        format!("{} as Cl2", both("g", need.chlorine.grams())),
    );
    strength(product, stock, &mut step);
    let high = need.measure_for == MeasureFor::High;
    let (strength, form) = match stock.prepared.stock {
        Stock::Liquid { used, .. } => {
            (format!("{} g/L", n(if high { used.high } else { used.mid }.grams_per_liter())), true)
        }
        Stock::Dry { used, .. } => {
            (format!("{} g/kg", n(if high { used.high } else { used.mid }.ratio() * 1000.0)), false)
        }
    };
    step(
        "Product",
        if form { "D3" } else { "D4" },
        if high {
            format!("for the high estimate: the most water and the weakest product, {strength}")
        } else {
            format!("{} g / {strength}", n(need.chlorine.grams()))
        },
        if form { both("L", need.product.mid.liters()) } else { both("kg", need.product.mid.kilograms()) },
    );
    let measured = kitchen::words(need.measured_amount, need.measured_unit);
    step(
        "Measure out",
        "M1",
        "rounded up to what can be measured, by an eighth at most".to_owned(),
        format!("{measured} of {}", product.name),
    );
    let (gives, least) = (need.measured_dose.milligrams_per_liter(), need.least_dose.milligrams_per_liter());
    step(
        "Which gives",
        "D5",
        format!("chlorine in {measured} over {} L", n(treated)),
        if least < gives * (1.0 - 1e-9) {
            format!(
                "{} mg/L as Cl2; {} if there is the most water and the weakest product allowed for",
                n(gives),
                n(least)
            )
        } else {
            format!("{} mg/L as Cl2", n(gives))
        },
    );
    moving::measured_beside(need, product, &both, &mut step);
    match (need.ph_after, need.hocl_share) {
        (Some(ph), Some(share)) => step(
            "pH after dosing",
            "P2",
            format!(
                "from pH {}, alkalinity {} mg/L as CaCO3, {} C; a closed carbonate system, solved by steps",
                n(well.water.ph.unwrap_or(f64::NAN)),
                n(well.water.alkalinity_mg_per_l.unwrap_or(f64::NAN)),
                n(well.water.temperature.unwrap_or(practice.water_temperature).get::<degree_celsius>())
            ),
            format!("pH {}; {} % of the free chlorine is HOCl", number(ph, 3), number(share * 100.0, 2)),
        ),
        _ => step("pH after dosing", "P2", "needs pH and alkalinity".to_owned(), "not known".to_owned()),
    }
    step(
        "Dilute in",
        "L1",
        format!("{} x product measured out", n(practice.predilution_ratio)),
        dilution(need, practice),
    );
    let rule = match need.hold_required {
        Some(least) => format!("; the chosen rule requires {} h", n(least.value / 3600.0)),
        None if practice.hold_rule.is_some() => {
            "; the chosen rule gives no contact time for so low a target".to_owned()
        }
        None => String::new(),
    };
    step("Contact time", "", "stated practice".to_owned(), format!("{} h{rule}", n(need.hold.value / 3600.0)));
    match need.emptyings {
        Some(times) => moving::emptying(well, practice, need, times, &both, &mut step),
        None => flush(practice, need, &both, &mut step),
    }
    neutralize(practice, need, &both, &mut step);
    steps.extend(consequences::steps(well, practice, &stock.prepared, need));
    steps
}

fn treated_working(well: &Well, practice: &Practice, need: &Requirement, standing: f64, plumbing: f64) -> String {
    let n = |value: f64| number(value, DIGITS);
    let held = liters(crate::kernel::moving::water_held(well, practice, need.standing_volume));
    let water = if held > standing {
        format!("({} L + {} L of inflow that fills the closed box)", n(standing), n(held - standing))
    } else {
        format!("{} L", n(standing))
    };
    let sum = format!("{} x {water} + {} L of plumbing", n(practice.volume_allowance), n(plumbing));
    match practice.least_volume.map(liters) {
        Some(least) => format!("the larger of {sum} and the minimum of {} L", n(least)),
        None => sum,
    }
}

/// Water to dilute in, as a person measures it.
pub fn dilution(need: &Requirement, practice: &Practice) -> String {
    match measure::measure_dilution(need.predilution, need.treated_volume, practice.system) {
        Some(water) => format!("{} of clean water, before pouring", kitchen::bucket(water.amount, water.unit)),
        None => "not diluted, by the practice".to_owned(),
    }
}

fn demand_working(well: &Well, practice: &Practice) -> String {
    let factors = practice.demand_factors.per_milligram();
    let terms = [
        ("iron", factors.iron, well.water.iron_mg_per_l),
        ("manganese", factors.manganese, well.water.manganese_mg_per_l),
        ("sulfide", factors.sulfide, well.water.sulfide_mg_per_l),
        ("ammonia N", factors.ammonia_n, well.water.ammonia_n_mg_per_l),
        ("nitrite N", factors.nitrite_n, well.water.nitrite_n_mg_per_l),
        ("organic C", factors.organic_carbon, well.water.organic_carbon_mg_per_l),
    ];
    if demand::demand(&well.water, practice.demand_factors).is_none() {
        return "nothing was measured: the allowance from the scenario's practice".to_owned();
    }
    let sum = terms
        .iter()
        .filter_map(|(name, factor, value)| {
            value.map(|value| format!("{} x {} mg/L {name}", number(*factor, DIGITS), number(value, DIGITS)))
        })
        .collect::<Vec<_>>()
        .join(" + ");
    match well.water.organic_carbon_mg_per_l {
        // US EPA's plant model gives 1.8 to 3.7 at 42 mg/L; the factor is from doses of a few mg/L.
        Some(carbon) if carbon > 0.0 => format!("{sum}; organic carbon takes two to four times that at shock doses"),
        _ => sum,
    }
}

fn strength(
    product: &Product,
    stock: &StockOnTheDay,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let n = |value: f64| number(value, DIGITS);
    let days = stock.age.value / 86_400.0;
    let aged = |left: f64| match (stock.from_test, days > 0.0) {
        (true, false) => "as tested".to_owned(),
        (true, true) => format!("{} days since the test, {} % left", n(days), number(left * 100.0, 3)),
        (false, false) => "fresh".to_owned(),
        (false, true) => format!("{} days old, {} % left", n(days), number(left * 100.0, 3)),
    };
    let basis = product.label.basis.name().replace('_', " ");
    match stock.prepared.stock {
        Stock::Liquid { label, used, .. } => {
            let label = label.grams_per_liter();
            step(
                "Label strength",
                "S1",
                format!("{} by {basis}", n(product.label.number)),
                format!("{} g/L as Cl2", n(label)),
            );
            let used = used.mid.grams_per_liter();
            step("Strength used", "A3", aged(used / label), format!("{} g/L as Cl2", n(used)));
        }
        Stock::Dry { label, used, .. } => {
            let label = label.ratio();
            step(
                "Label strength",
                "S4",
                format!("{} % by {basis}", n(product.label.number)),
                format!("{} g/kg as Cl2", n(label * 1000.0)),
            );
            let used = used.mid.ratio();
            step("Strength used", "A5", aged(used / label), format!("{} g/kg as Cl2", n(used * 1000.0)));
        }
    }
}

fn flush(
    practice: &Practice,
    need: &Requirement,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let n = |value: f64| number(value, DIGITS);
    let treated = liters(need.treated_volume);
    let start = practice.residual(need.measured_dose).milligrams_per_liter();
    let rule = match (practice.flush_until, practice.flush_volumes) {
        (Some(until), None) => format!("ln({} / {})", n(start), n(until.milligrams_per_liter())),
        (None, Some(volumes)) => format!("{} volumes", n(volumes)),
        (Some(until), Some(volumes)) => {
            format!("the larger of ln({} / {}) and {}", n(start), n(until.milligrams_per_liter()), n(volumes))
        }
        (None, None) => "one volume".to_owned(),
    };
    step(
        "Flush",
        "F1",
        format!("{rule} = {} volumes x {} L", n(liters(need.flush_volume) / treated), n(treated)),
        format!(
            "about {}, and {} at the very least (plug flow); stop on a measured residual",
            both("L", liters(need.flush_volume)),
            both("L", treated)
        ),
    );
    match (need.flush_rate, need.flush_time) {
        (Some(rate), Some(time)) => step(
            "Flush time",
            "F3",
            format!("{} L / {} L/min / 60", n(liters(need.flush_volume)), n(liters_per_minute(rate))),
            format!("about {} h", number(time.value / 3600.0, 2)),
        ),
        _ => step("Flush time", "F3", "neither pump rate nor yield is known".to_owned(), "not known".to_owned()),
    }
}

fn neutralize(
    practice: &Practice,
    need: &Requirement,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let n = |value: f64| number(value, DIGITS);
    let Some(agent) = need.neutralizer else {
        let route = need.route.map_or("", |route| route.name()).replace('_', " ");
        step(
            "Neutralizer",
            "R3",
            format!("the water goes to {route}"),
            if need.route == Some(DischargeRoute::Septic) {
                "none included: nothing goes into the septic system; all of it goes to open ground or is hauled away"
                    .to_owned()
            } else {
                "none included; keep flush water away from streams".to_owned()
            },
        );
        return;
    };
    let start = practice.residual(need.measured_dose);
    let remove = need.chlorine_to_remove.grams();
    let per_chlorine = if remove > 0.0 {
        need.neutralizer_mass.grams() / remove / (1.0 + practice.neutralizer_excess)
    } else {
        practice.agent_per_chlorine(agent, need.ph_after).ratio()
    };
    step(
        "Neutralizer",
        "R3",
        format!(
            "(({} mg/L x {} L - {} mg/L x {} L) / 1000{}) x {} g/g x {}",
            n(start.milligrams_per_liter()),
            n(liters(need.treated_volume)),
            n(practice.discharge_limit.milligrams_per_liter()),
            n(liters(need.flush_volume)),
            moving::removed_beside(practice, need),
            n(per_chlorine),
            n(1.0 + practice.neutralizer_excess)
        ),
        format!("{} of {}", both("kg", need.neutralizer_mass.kilograms()), agent.plain_name()),
    );
}
