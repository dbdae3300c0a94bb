//! The Compare sheet: the scenarios side by side: strength, amounts, weight to haul, cost, pH, hours.

use super::Matter;
use super::show::Shown;
use crate::caution::Caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::engine::raised;
use crate::kernel::requirement::Stock;
use crate::quantity::format::number;
use crate::rollup::Sums;
use crate::rollup::orders::ItemKind;

/// The figures of one scenario that are compared.
pub(super) struct Figures {
    pub(super) sums: Sums,
    pub(super) product_cost: Option<f64>,
    pub(super) all_cost: Option<f64>,
    bought: f64,
}

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Compare");
    let campaign = matter.plan.campaign;
    sheet.title("Compare: the scenarios side by side");
    sheet.note(format!(
        "{}. Amounts are for the first round unless they say otherwise. Cost per {} of available chlorine is the cost of the \
         packages bought over the chlorine they bring on the day of use.",
        matter.coverage(),
        Shown::of("kg", campaign.system).symbol
    ));
    let heads = std::iter::once("Figure".to_owned()).chain(std::iter::once("Unit".to_owned()));
    sheet.heads(heads.chain(matter.plan.cases.iter().map(|case| case.scenario.name.clone())));
    sheet.layout.filter_row = None;
    let figures: Vec<Figures> = (0..matter.plan.cases.len()).map(|index| figures(matter, index)).collect();
    let mut line = |title: &str, unit: &str, cells: Vec<Cell>| {
        let mut row = vec![Cell::text(title), Cell::text(unit)];
        row.extend(cells);
        sheet.push(row);
    };
    let each = |get: &dyn Fn(usize) -> Cell| (0..figures.len()).map(get).collect::<Vec<_>>();

    let case = |index: usize| &matter.plan.cases[index];
    let practice = |index: usize| campaign.practice_of(case(index).scenario, 0);
    let volume = Shown::of("L", campaign.system);
    let mass = Shown::of("kg", campaign.system);

    line("Product", "", each(&|i| Cell::text(&campaign.products[case(i).scenario.product].name)));
    line("Chemical", "", each(&|i| Cell::text(case(i).stock.prepared.chemical.name().replace('_', " "))));
    line("Age of the stock", "d", each(&|i| Cell::number(case(i).stock.age.value / 86_400.0, 0)));
    line(
        "Target, as Cl2 (before overrides)",
        "mg/L",
        each(&|i| Cell::number(practice(i).target.milligrams_per_liter(), 0)),
    );
    line("Contact time (before overrides)", "h", each(&|i| Cell::number(practice(i).hold.value / 3600.0, 0)));
    line("Label strength, liquid", "g/L", each(&|i| strength(&case(i).stock.prepared.stock, false, true)));
    line("Strength used, liquid", "g/L", each(&|i| strength(&case(i).stock.prepared.stock, true, true)));
    line("Label strength, dry", "g/kg", each(&|i| strength(&case(i).stock.prepared.stock, false, false)));
    line("Strength used, dry", "g/kg", each(&|i| strength(&case(i).stock.prepared.stock, true, false)));
    line(
        "Strength remaining, % of label",
        "%",
        each(&|i| Cell::number(100.0 * share_left(&case(i).stock.prepared.stock), 0)),
    );
    line("Visits planned", "", each(&|i| Cell::count(figures[i].sums.planned)));
    line("Visits held back", "", each(&|i| flagged(figures[i].sums.held_back)));
    line("Visits excluded", "", each(&|i| Cell::count(figures[i].sums.excluded)));
    line("Visits using assumed values", "", each(&|i| Cell::count(figures[i].sums.assumed)));
    line("Water treated", volume.symbol, each(&|i| Cell::number(volume.value(figures[i].sums.treated_volume_l), 0)));
    line("Chlorine, as Cl2", mass.symbol, each(&|i| Cell::number(mass.value(figures[i].sums.chlorine_g / 1000.0), 1)));
    let liquid = |index: usize| matches!(case(index).stock.prepared.stock, Stock::Liquid { .. });
    let product = |get: fn(&Sums) -> f64, of_liquids: bool| -> Vec<Cell> {
        (0..figures.len())
            .map(|i| {
                let shown = if of_liquids { volume } else { mass };
                if liquid(i) == of_liquids {
                    Cell::number(shown.value(get(&figures[i].sums)), 1)
                } else {
                    Cell::empty()
                }
            })
            .collect()
    };
    for (of_liquids, form, unit) in [(true, "liquid", volume.symbol), (false, "dry", mass.symbol)] {
        line(&format!("Product, {form}, first round"), unit, product(|sums| sums.product, of_liquids));
        line("  low: lowest assumptions", unit, product(|sums| sums.product_low, of_liquids));
        line("  high: highest assumptions", unit, product(|sums| sums.product_high, of_liquids));
        line("  repeat round", unit, product(|sums| sums.repeat, of_liquids));
        line("  handling loss", unit, product(|sums| sums.loss, of_liquids));
        line("  total, incl. repeats and losses", unit, product(Sums::product_in_all, of_liquids));
    }
    line(
        "Weight of product to haul, first round",
        mass.symbol,
        each(&|i| Cell::number(mass.value(figures[i].sums.product_kg), 0)),
    );
    line(
        "Cost of product packages",
        &campaign.currency,
        each(&|i| Cell::number(figures[i].product_cost.unwrap_or(f64::NAN), 2)),
    );
    line(
        &format!("Cost per {} of available chlorine bought", mass.symbol),
        &campaign.currency,
        each(&|i| Cell::number(cost_of_chlorine(&figures[i], &case(i).stock.prepared.stock) / mass.value(1.0), 2)),
    );
    line(
        "Cost of everything on the order",
        &campaign.currency,
        each(&|i| Cell::number(figures[i].all_cost.unwrap_or(f64::NAN), 2)),
    );
    line(
        "Neutralizer, all agents, first round",
        mass.symbol,
        each(&|i| Cell::number(mass.value(figures[i].sums.neutralizer_first_kg()), 1)),
    );
    line("Flush water", volume.symbol, each(&|i| Cell::number(volume.value(figures[i].sums.flush_volume_l), 0)));
    line("Flush time, where a rate is known", "h", each(&|i| Cell::number(figures[i].sums.flush_h, 0)));
    line("Visits without a flush time", "", each(&|i| Cell::count(figures[i].sums.flush_unknown)));
    line(
        "Visits with pH above 8.5 after dosing",
        "",
        each(&|i| Cell::count(raised(matter.run, i, Caution::PhAboveEight))),
    );
    line("Visits where that pH is not known", "", each(&|i| Cell::count(raised(matter.run, i, Caution::PhUnknown))));
    line("Visits dosed above 500 mg/L", "", each(&|i| Cell::count(raised(matter.run, i, Caution::AboveFiveHundred))));

    sheet.layout.widths = vec![40.0, 9.0];
    sheet.layout.widths.extend(std::iter::repeat_n(16.0, figures.len()));
    sheet.layout.frozen_columns = 2;
    sheet.layout.landscape = true;
    sheet.layout.pages_wide = figures.len().div_ceil(SCENARIOS_ON_A_PAGE).max(1) as u16;
    shelf_life(matter, &mut sheet);
    sheet
}

/// Scenarios that stay readable side by side on a printed page.
const SCENARIOS_ON_A_PAGE: usize = 8;
/// Storage temperatures (C) for which the shelf life of each liquid is shown.
pub const SHELF_TEMPERATURES: [f64; 5] = [10.0, 20.0, 25.0, 30.0, 35.0];
/// Share of the label that a stock is held to have kept.
pub const SHELF_SHARE: f64 = 0.8;

/// How long each product keeps four fifths of its label, by temperature: the analyst's shelf question.
fn shelf_life(matter: &Matter<'_>, sheet: &mut Sheet) {
    let campaign = matter.plan.campaign;
    sheet.gap();
    sheet.wide(
        format!(
            "Days until {:.0} % of the label is left (typical; fast to slow in brackets, equations A4 and A5)",
            SHELF_SHARE * 100.0
        ),
        Role::Title,
    );
    let heads = ["Product", "Label"].map(str::to_owned).into_iter();
    let temperatures = SHELF_TEMPERATURES.map(|celsius| format!("stored at {celsius} C"));
    sheet.push(heads.chain(temperatures).map(Cell::head).collect());
    for product in &campaign.products {
        let basis = product.label.basis.name().replace('_', " ");
        let mut row = vec![Cell::text(&product.name), Cell::text(format!("{} {basis}", product.label.number))];
        for celsius in SHELF_TEMPERATURES {
            row.push(Cell::text(product.days_until(SHELF_SHARE, celsius).map_or_else(
                || "have it tested".to_owned(),
                |days| format!("{} ({} to {})", number(days.mid, 2), number(days.high, 2), number(days.low, 2)),
            )));
        }
        sheet.push(row);
    }
}

fn flagged(count: u64) -> Cell {
    if count > 0 { Cell::count(count).with_role(Role::Flagged) } else { Cell::count(count) }
}

pub(super) fn figures(matter: &Matter<'_>, index: usize) -> Figures {
    let lines = matter.orders.lines.iter().filter(|line| line.scenario == index);
    let (mut product_cost, mut all_cost, mut bought) = (Some(0.0), Some(0.0), 0.0);
    for line in lines {
        let add = |sum: Option<f64>| sum.zip(line.cost).map(|(sum, cost)| sum + cost);
        all_cost = add(all_cost);
        if line.kind == ItemKind::Product {
            product_cost = add(product_cost);
            bought += line.amount;
        }
    }
    Figures { sums: matter.run.totals.overall(index), product_cost, all_cost, bought }
}

fn strength(stock: &Stock, used_now: bool, liquid: bool) -> Cell {
    match (stock, liquid) {
        (Stock::Liquid { label, used, .. }, true) => {
            Cell::number(if used_now { used.mid } else { *label }.grams_per_liter(), 1)
        }
        (Stock::Dry { label, used, .. }, false) => {
            Cell::number(if used_now { used.mid } else { *label }.ratio() * 1000.0, 0)
        }
        _ => Cell::empty(),
    }
}

pub(super) fn share_left(stock: &Stock) -> f64 {
    match stock {
        Stock::Liquid { label, used, .. } => used.mid.grams_per_liter() / label.grams_per_liter(),
        Stock::Dry { label, used, .. } => used.mid.ratio() / label.ratio(),
    }
}

/// Cost per kilogram of the available chlorine in the packages bought; NaN where a price is missing or nothing is bought.
pub(super) fn cost_of_chlorine(figures: &Figures, stock: &Stock) -> f64 {
    let per_unit = match stock {
        Stock::Liquid { used, .. } => used.mid.grams_per_liter() / 1000.0,
        Stock::Dry { used, .. } => used.mid.ratio(),
    };
    match figures.product_cost {
        Some(cost) if figures.bought > 0.0 => cost / (figures.bought * per_unit),
        _ => f64::NAN,
    }
}
