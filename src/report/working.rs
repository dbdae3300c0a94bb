//! The working of one well: every step with its numbers put in, its equation, and what it gives.
//!
//! `well` prints it for the well at the prompt, `explain --well` for a well of the list. The figures are the kernel's own, taken
//! from the requirement; how each follows from the others is its relation with the numbers put in.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::show::Shown;
use super::step::Step;
use super::{consequences, moving};
use crate::field::DischargeRoute;
use crate::kernel::demand;
use crate::kernel::measure::{self, MeasureFor};
use crate::kernel::requirement::{Practice, Requirement, Stock};
use crate::kernel::strength::Chemical;
use crate::quantity::format::number;
use crate::quantity::kitchen;
use crate::quantity::liters;
use crate::relation::Given;
use crate::relation::figures::in_figures_of;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;
use crate::visit::Need;
use crate::well::{StandingWater, Well};

/// Digits that the working shows: enough to follow it with a pocket calculator.
const DIGITS: u32 = 5;

/// The chain for one well, from its water to its neutralizer.
pub fn steps(well: &Well, practice: &Practice, product: &Product, stock: &StockOnTheDay, need: &Need) -> Vec<Step> {
    let n = |value: f64| number(value, DIGITS);
    let both = |symbol: &'static str, value: f64| {
        let shown = Shown::of(symbol, practice.system);
        let table = format!("{} {symbol}", n(value));
        if shown.symbol == symbol { table } else { format!("{table} = {} {}", n(shown.value(value)), shown.symbol) }
    };
    let mut steps = Vec::new();
    let mut step =
        |title, equation, working: String, result: String| steps.push(Step { title, equation, working, result });

    let given = Given { well, practice, product, stock, need };
    let figures = |id: &str| in_figures_of(id, &given);
    let standing = liters(need.standing_volume);
    if let (StandingWater::Bore { .. }, Some(column)) = (&well.standing_water, need.water_column) {
        step("Water column", "V2", figures("water_column_m"), both("m", column.value));
    }
    let water = match &well.standing_water {
        StandingWater::Volume { .. } => "given by the list".to_owned(),
        _ => figures("standing_volume_l"),
    };
    step("Standing volume", "V2", water, both("L", standing));
    let held = liters(crate::kernel::moving::water_held(well, practice, need.standing_volume));
    if held > standing {
        step("Closed box", "Q2", format!("{}, as the inflow fills it", figures("water_held_l")), both("L", held));
    }
    let treated = liters(need.treated_volume);
    step("Treated volume", "V3", figures("treated_volume_l"), both("L", treated));
    step(
        "Demand",
        "N1",
        demand_working(well, practice, figures("demand_mg_per_l")),
        format!("{} mg/L as Cl2", n(need.demand.milligrams_per_liter())),
    );
    step("Dose", "D1", figures("dose_mg_per_l"), format!("{} mg/L as Cl2", n(need.dose.milligrams_per_liter())));
    moving::wash_and_feed(&given, &both, &mut step);
    let more = need.wash.is_some() || need.feed.is_some();
    let of_water = figures("water_chlorine_g");
    let chlorine =
        if more { format!("{}, of which {of_water} for the water", figures("chlorine_g")) } else { of_water };
    step("Chlorine", "D2", chlorine, format!("{} as Cl2", both("g", need.chlorine.grams())));
    strength(product, stock, &figures, &mut step);
    let liquid = product.chemical.is_liquid();
    let side = if need.measure_for == MeasureFor::High { ", for the most water and the weakest product" } else { "" };
    step(
        "Product",
        if liquid { "D3" } else { "D4" },
        format!("{}{side}", figures(if liquid { "product_l" } else { "product_kg" })),
        if liquid { both("L", need.product.liters()) } else { both("kg", need.product.kilograms()) },
    );
    let measured = kitchen::words(need.measured_amount, need.measured_unit);
    step(
        "Measure out",
        "M1",
        format!(
            "{}, by an eighth{} at most",
            figures("measured_amount"),
            match need.measured_unit {
                "mL" => " or a spoon of 5 mL",
                "US tsp" => " or an eighth of a teaspoon",
                _ => "",
            }
        ),
        format!("{measured} of {}", product.name),
    );
    let (gives, least) = (need.measured_dose.milligrams_per_liter(), need.least_dose.milligrams_per_liter());
    step(
        "Which gives",
        "D5",
        format!("{} in {measured}", figures("measured_dose_mg_per_l")),
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
    moving::measured_beside(&given, &both, &mut step);
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
        _ if product.chemical == Chemical::ChlorinatedLime => step(
            "pH after dosing",
            "P2",
            "how much of the lime of bleaching powder goes into the well is not known".to_owned(),
            "not known; measure it".to_owned(),
        ),
        _ => step("pH after dosing", "P2", "needs pH and alkalinity".to_owned(), "not known".to_owned()),
    }
    step("Dilute in", "L1", figures("predilution_l"), dilution(need, practice));
    let rule = match need.hold_required {
        Some(least) => format!("; the chosen rule requires {} h", n(least.value / 3600.0)),
        None if practice.hold_rule.is_some() => {
            "; the chosen rule gives no contact time for so low a target".to_owned()
        }
        None => String::new(),
    };
    let from = match practice.hold_stated {
        Some(stated) => format!("{} h stated, less than the chosen rule requires", n(stated.value / 3600.0)),
        None => "stated practice".to_owned(),
    };
    step("Contact time", "", from, format!("{} h{rule}", n(need.hold.value / 3600.0)));
    match need.emptyings {
        Some(times) => moving::emptying(&given, times, &both, &mut step),
        None => flush(&given, &both, &mut step),
    }
    neutralize(&given, &both, &mut step);
    steps.extend(consequences::steps(well, practice, &stock.prepared, need));
    steps
}

/// Water to dilute in, as a person measures it.
fn dilution(need: &Requirement, practice: &Practice) -> String {
    match measure::measure_dilution(need.predilution, need.treated_volume, practice.system) {
        Some(water) => format!("{} of clean water, before pouring", kitchen::bucket(water.amount, water.unit)),
        None => "not diluted, by the practice".to_owned(),
    }
}

/// What the demand is made of; of organic carbon with what US EPA's plant model gives at shock doses: 1.8 to 3.7 at 42 mg/L,
/// where the factor is from doses of a few mg/L.
fn demand_working(well: &Well, practice: &Practice, figures: String) -> String {
    if demand::demand(&well.water, practice.demand_factors).is_none() {
        return "nothing was measured: the allowance from the scenario's practice".to_owned();
    }
    match well.water.organic_carbon_mg_per_l {
        Some(carbon) if carbon > 0.0 => {
            format!("{figures}; organic carbon takes two to four times that at shock doses")
        }
        _ => figures,
    }
}

fn strength(
    product: &Product,
    stock: &StockOnTheDay,
    figures: &impl Fn(&str) -> String,
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
                format!("{} by {basis}: {}", n(product.label.number), figures("strength_label_g_per_l")),
                format!("{} g/L as Cl2", n(label)),
            );
            let used = used.grams_per_liter();
            let said = format!("{}: {}", aged(used / label), figures("strength_used_g_per_l"));
            step("Strength used", "A3", said, format!("{} g/L as Cl2", n(used)));
        }
        Stock::Dry { label, used, .. } => {
            let label = label.ratio();
            step(
                "Label strength",
                "S4",
                format!("{} % by {basis}: {}", n(product.label.number), figures("strength_label_g_per_kg")),
                format!("{} g/kg as Cl2", n(label * 1000.0)),
            );
            let used = used.ratio();
            let said = format!("{}: {}", aged(used / label), figures("strength_used_g_per_kg"));
            step("Strength used", "A5", said, format!("{} g/kg as Cl2", n(used * 1000.0)));
        }
    }
}

fn flush(
    given: &Given<'_>,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let need = given.need;
    step(
        "Flush",
        "F1",
        in_figures_of("flush_volume_l", given),
        format!(
            "about {}, and {} at the very least (plug flow); stop on a measured residual",
            both("L", liters(need.flush_volume)),
            both("L", liters(need.treated_volume))
        ),
    );
    match need.flush_time {
        Some(time) => step(
            "Flush time",
            "F3",
            in_figures_of("flush_h", given),
            format!("about {} h", number(time.value / 3600.0, 2)),
        ),
        None => step("Flush time", "F3", "neither pump rate nor yield is known".to_owned(), "not known".to_owned()),
    }
}

fn neutralize(
    given: &Given<'_>,
    both: &impl Fn(&'static str, f64) -> String,
    step: &mut impl FnMut(&'static str, &'static str, String, String),
) {
    let need = given.need;
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
    step(
        "To neutralize",
        "R3",
        in_figures_of("chlorine_to_remove_g", given),
        format!("{} as Cl2", both("g", need.chlorine_to_remove.grams())),
    );
    step(
        "Neutralizer",
        "R3",
        in_figures_of("neutralizer_kg", given),
        format!("{} of {}", both("kg", need.neutralizer_mass.kilograms()), agent.plain_name()),
    );
}
