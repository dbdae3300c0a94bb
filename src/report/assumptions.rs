//! The Assumptions sheet: everything the figures rest on that no list says: practice, overrides, missing values, stock.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::Matter;
use super::show::Shown;
use crate::document::cell::{Cell, Sheet};
use crate::field::DischargeRoute;
use crate::kernel::requirement::Practice;
use crate::kernel::strength;
use crate::quantity::basis::liters_per_minute;
use crate::quantity::format::number;
use crate::quantity::liters;
use crate::scenario::product::Product;

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Assumptions");
    let campaign = matter.plan.campaign;
    sheet.title("Assumptions: what the figures use that no list gives");
    sheet.note("Practice of each scenario before overrides. Chlorine is expressed as Cl2.");
    let heads = ["Practice", "Unit"].map(str::to_owned).into_iter();
    sheet.heads(heads.chain(matter.plan.cases.iter().map(|case| case.scenario.name.clone())));
    sheet.layout.filter_row = None;
    let practices: Vec<Practice> =
        matter.plan.cases.iter().map(|case| campaign.practice_of(case.scenario, 0)).collect();
    let volume = Shown::of("L", campaign.system);
    let flow = Shown::of("L/min", campaign.system);
    let mass = Shown::of("kg", campaign.system);
    let mut line = |title: &str, unit: &str, get: &dyn Fn(&Practice) -> Cell| {
        let mut row = vec![Cell::text(title), Cell::text(unit)];
        row.extend(practices.iter().map(get));
        sheet.push(row);
    };
    line("Target", "mg/L", &|practice| Cell::number(practice.target.milligrams_per_liter(), 0));
    line("Demand where nothing was measured", "mg/L", &|practice| {
        Cell::number(practice.demand_allowance.milligrams_per_liter(), 1)
    });
    line("Demand factors where something was measured", "", &|practice| Cell::text(practice.demand_factors.name()));
    line("Contact time", "h", &|practice| Cell::number(practice.hold.value / 3600.0, 0));
    line("Contact time that the chosen rule requires at the target", "h", &|practice| {
        let least = practice.hold_rule.as_ref().and_then(|rule| rule.least_hold(practice.target));
        Cell::number(least.map_or(f64::NAN, |least| least.value / 3600.0), 0)
    });
    line("Measured for (the side on which the amount meets the target)", "", &|practice| {
        Cell::text(practice.measure_for.name())
    });
    line("Treated ÷ standing volume", "x", &|practice| Cell::number(practice.volume_allowance, 2));
    line("Plumbing where the list gives none", volume.symbol, &|practice| {
        Cell::number(volume.value(liters(practice.plumbing_volume)), 0)
    });
    line("Water treated at least", volume.symbol, &|practice| {
        Cell::number(practice.least_volume.map_or(f64::NAN, |least| volume.value(liters(least))), 0)
    });
    line("Product added at least, liquid", volume.symbol, &|practice| {
        Cell::number(practice.least_product.liquid.map_or(f64::NAN, |least| volume.value(least.liters())), 3)
    });
    line("Product added at least, dry", mass.symbol, &|practice| {
        Cell::number(practice.least_product.dry.map_or(f64::NAN, |least| mass.value(least.kilograms())), 3)
    });
    line("Springs that flow", "", &|practice| {
        Cell::text(
            practice
                .flowing_spring
                .map_or_else(|| "not stated: held back".to_owned(), |choice| choice.name().replace('_', " ")),
        )
    });
    line("Room above a spring box's overflow, of its water", "%", &|practice| {
        Cell::number(practice.spring_rise * 100.0, 0)
    });
    line("Dilution before pouring, water per product", "L/L or L/kg", &|practice| {
        Cell::number(practice.predilution_ratio, 0)
    });
    line("How the chlorine is removed", "", &|practice| {
        Cell::text(practice.flush_method.map_or_else(
            || "dug wells and spring boxes emptied and refilled, others flushed".to_owned(),
            |method| method.name().replace('_', " "),
        ))
    });
    line("Empty again until below", "mg/L", &|practice| {
        Cell::number(practice.emptying.until.milligrams_per_liter(), 2)
    });
    line("Chlorine back again after one emptying", "%", &|practice| {
        Cell::number(practice.emptying.carry_over * 100.0, 0)
    });
    line("Wait after each refill", "h", &|practice| Cell::number(practice.emptying.wait.value / 3600.0, 1));
    line("Wall wash of wells that are emptied", "mg/L", &|practice| {
        Cell::number(practice.emptying.wash.milligrams_per_liter(), 0)
    });
    line("Wall wash per wall", "L/m2", &|practice| Cell::number(practice.emptying.wash_film.value * 1000.0, 1));
    line("Flush of the others until", "mg/L", &|practice| {
        Cell::number(practice.flush_until.map_or(f64::NAN, |until| until.milligrams_per_liter()), 3)
    });
    line("Flush of the others at least, treated volumes", "", &|practice| {
        Cell::number(practice.flush_volumes.unwrap_or(f64::NAN), 1)
    });
    line("Flush rate where none is known, and of a pump brought to empty a well", flow.symbol, &|practice| {
        Cell::number(practice.flush_rate.map_or(f64::NAN, |rate| flow.value(liters_per_minute(rate))), 1)
    });
    line("Residual after the contact time (none: all is taken to be still there)", "mg/L", &|practice| {
        Cell::number(practice.residual_after_hold.map_or(f64::NAN, |residual| residual.milligrams_per_liter()), 1)
    });
    line("Water temperature where not measured", "C", &|practice| {
        Cell::number(practice.water_temperature.get::<degree_celsius>(), 0)
    });
    line("Discharge limit", "mg/L", &|practice| Cell::number(practice.discharge_limit.milligrams_per_liter(), 4));
    line("Neutralizer", "", &|practice| Cell::text(practice.neutralizer.name().replace('_', " ")));
    line("Agent per chlorine, before the excess", "g/g", &|practice| {
        Cell::number(practice.agent_per_chlorine(practice.neutralizer, None).ratio(), 3)
    });
    line("Extra neutralizer", "%", &|practice| Cell::number(practice.neutralizer_excess * 100.0, 0));
    line("Routes that are neutralized (and every unknown one)", "", &|practice| {
        let routes = DischargeRoute::ALL.into_iter().filter(|route| practice.neutralize_routes.contains(*route));
        Cell::text(routes.map(|route| route.name().replace('_', " ")).collect::<Vec<_>>().join(", "))
    });
    line("Wells re-treated", "%", &|practice| Cell::number(practice.repeat_share * 100.0, 0));
    line("Product lost in handling", "%", &|practice| Cell::number(practice.handling_loss * 100.0, 0));

    overrides(matter, &mut sheet);
    missing(matter, &mut sheet);
    products(matter, &mut sheet);
    sheet.layout.widths = vec![52.0, 14.0];
    sheet.layout.widths.extend(std::iter::repeat_n(18.0, matter.plan.cases.len()));
    sheet.layout.frozen_columns = 1;
    sheet.layout.landscape = true;
    sheet
}

fn overrides(matter: &Matter<'_>, sheet: &mut Sheet) {
    let overrides = &matter.plan.campaign.overrides;
    if overrides.is_empty() {
        return;
    }
    sheet.gap();
    sheet.push(["Overrides: for wells where", "", "these settings apply"].map(Cell::head).to_vec());
    for rule in overrides {
        let settings = rule.settings.iter().map(|setting| format!("{}: {}", setting.key, setting.label));
        sheet.push(vec![
            Cell::text(&rule.condition),
            Cell::empty(),
            Cell::text(settings.collect::<Vec<_>>().join("; ")),
        ]);
    }
}

fn missing(matter: &Matter<'_>, sheet: &mut Sheet) {
    let campaign = matter.plan.campaign;
    sheet.gap();
    let assumptions = &campaign.rules.assumptions;
    let drawn = &campaign.rules.drawn;
    if assumptions.is_empty() && drawn.is_empty() {
        sheet.note("Nothing is assumed for missing depths, diameters or levels: such rows are held back.");
        return;
    }
    sheet.push(["Assumed where the list gives no value", "Unit", "Low", "Mid", "High"].map(Cell::head).to_vec());
    for (well_type, field) in drawn {
        sheet.push(vec![
            Cell::text(format!("{}: {}", well_type.name(), field.name()).replace('_', " ")),
            Cell::empty(),
            Cell::text(
                "estimated from the list's own wells of this type: 10th, 50th and 90th percentile (finding A503 says which)",
            ),
        ]);
    }
    for ((well_type, field), assumption) in assumptions {
        let unit = field.quantity().and_then(|quantity| quantity.unit_in(Some(campaign.system)));
        let symbol = unit.map_or("", |unit| unit.symbol);
        let value = |si: f64| Cell::number(unit.map_or(si, |unit| unit.from_si(si)), 1);
        sheet.push(vec![
            Cell::text(format!("{}: {}", well_type.name(), field.name()).replace('_', " ")),
            Cell::text(symbol),
            value(assumption.low),
            value(assumption.mid),
            value(assumption.high),
        ]);
    }
}

fn products(matter: &Matter<'_>, sheet: &mut Sheet) {
    sheet.gap();
    let heads = ["Product", "Chemical", "Label", "Basis", "The same liquid on every basis", "Source of the figures"];
    sheet.push(heads.map(Cell::head).to_vec());
    let campaign = matter.plan.campaign;
    for (index, product) in campaign.products.iter().enumerate() {
        if !matter.plan.cases.iter().any(|case| case.scenario.product == index) {
            continue;
        }
        sheet.push(vec![
            Cell::text(&product.name),
            Cell::text(product.chemical.name().replace('_', " ")),
            Cell::number(product.label.number, 3),
            Cell::text(product.label.basis.name().replace('_', " ")),
            Cell::text(readings(product)),
            Cell::text(product.source.as_deref().unwrap_or("not stated")),
        ]);
    }
}

/// What a liquid's strength would be called on each basis; empty for a dry product, which has one.
fn readings(product: &Product) -> String {
    let label = strength::liquid_strength(product.label.number, product.label.basis, product.caustic_percent);
    let Some(label) = label.filter(|_| product.chemical.is_liquid()) else { return String::new() };
    let same = strength::liquid_readings(label, product.caustic_percent);
    format!(
        "{} % trade, {} % NaOCl by weight, {} % chlorine by weight, {} g/L, {} lb per US gal",
        number(same.trade_percent, 3),
        number(same.weight_naocl_percent, 3),
        number(same.weight_available_chlorine_percent, 3),
        number(same.grams_per_liter, 3),
        number(same.pounds_per_us_gallon, 3)
    )
}
