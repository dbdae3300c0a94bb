//! The living part of Summary: which scenario is picked, its headline, and totals that follow the inputs.

use super::super::Matter;
use super::super::show::Shown;
use super::inputs::tidy;
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::entry::{Allowed, Entry};
use crate::document::formula::{Name, Pieces, Place};

const SHEET: &str = "Summary";

/// The drop-down that Summary and Order follow, and what the picked scenario comes to.
pub(in crate::report) fn picker(matter: &Matter<'_>, sheet: &mut Sheet, names: &mut Vec<Name>) {
    let Some(case) = matter.plan.cases.first() else { return };
    let campaign = matter.plan.campaign;
    let row = sheet.rows.len() as u32;
    let place = |column| Place { sheet: SHEET, row, column };
    let number = Pieces::call("MATCH", [Pieces::at(place(0)), Pieces::text("Scenario_names"), Pieces::text("0")]);
    sheet.push(vec![
        Cell::text(&case.scenario.name).with_role(Role::Input),
        Cell::text("the scenario picked: choose another from the list, and Order follows").with_role(Role::Note),
        Cell::formula(number.giving(1.0, 0)).with_role(Role::Note),
    ]);
    sheet.layout.entries.push(Entry {
        column: 0,
        first_row: row,
        last_row: row,
        allowed: Allowed::Cells("Scenario_names".to_owned()),
        title: "Scenario".to_owned(),
        help: "The scenario that Summary and Order show; one of those on the Scenarios sheet.".to_owned(),
        refusal: "Pick one of the scenarios on the Scenarios sheet.".to_owned(),
    });
    names.push(Name { name: "Picked_scenario".to_owned(), first: place(0), last_row: row });
    names.push(Name { name: "Picked".to_owned(), first: place(2), last_row: row });
    let liquid = campaign.products[case.scenario.product].chemical.is_liquid();
    let shown = Shown::of(if liquid { "L" } else { "kg" }, campaign.system);
    let sums = matter.run.totals.overall(0);
    let of = |name: &str| Pieces::text(format!("SUMIFS({name},Needs_scenario,Picked,Needs_slot,1)"));
    let total =
        of("Needs_first").and(Pieces::text("+")).and(of("Needs_repeat")).and(Pieces::text("+")).and(of("Needs_loss"));
    let unit = Pieces::text("IF(INDEX(Liquid,Picked)=1,\"")
        .then(Shown::of("L", campaign.system).symbol)
        .then("\",\"")
        .then(Shown::of("kg", campaign.system).symbol)
        .then("\")");
    let cost = matter.orders.lines.iter().filter(|line| line.scenario == 0).filter_map(|line| line.cost).sum();
    let mut line =
        |title: &str, value: Cell, unit: Cell| sheet.push(vec![Cell::text(title), value.with_role(Role::Total), unit]);
    let product = tidy(shown.value(sums.product));
    line(
        "Product, first round",
        Cell::formula(of("Needs_first").giving(product, 1)),
        Cell::formula(unit.clone().saying(shown.symbol)),
    );
    let all = tidy(shown.value(sums.product_in_all()));
    line(
        "Total, incl. repeats and losses",
        Cell::formula(total.giving(all, 1)),
        Cell::formula(unit.saying(shown.symbol)),
    );
    let now = Pieces::text("SUMIFS(Needs_cost,Needs_scenario,Picked)");
    line("Order cost", Cell::formula(now.giving(cost, 2)), Cell::text(&campaign.currency));
    let short = Pieces::text("SUMPRODUCT((Needs_scenario=Picked)*(Needs_short>0))");
    let lines = matter.orders.lines.iter().filter(|line| line.scenario == 0);
    let open = lines.filter(|line| line.short > 0.0 || (line.bought.is_empty() && line.gap > 0.0)).count();
    line("Needs that the packages do not cover", Cell::formula(short.giving(open as f64, 0)), Cell::text("see Order"));
    sheet.gap();
}

/// Puts a formula in place of a number, which stays what the formula comes to.
fn live(cell: &mut Cell, pieces: Pieces) {
    if let Value::Number { value, digits } = cell.value {
        cell.value = Value::Formula(Box::new(pieces.giving(tidy(value), digits)));
    }
}

fn added(name: &str) -> Pieces {
    let by = Pieces::call("MATCH", [Pieces::here(0), Pieces::text("Scenario_names"), Pieces::text("0")]);
    Pieces::call("SUMIFS", [Pieces::text(name), Pieces::text("Wells_scenario"), by])
}

/// Makes the sums of a scenario follow the wells: from the water treated on.
pub(in crate::report) fn follow(row: &mut [Cell], liquid: bool) {
    let by = |liters: &str, kilograms: &str| added(if liquid { liters } else { kilograms });
    let sums = [
        (5, added("Wells_treated")),
        (6, added("Wells_chlorine")),
        (8, by("Wells_product_l", "Wells_product_kg")),
        (9, by("Wells_low_l", "Wells_low_kg")),
        (10, by("Wells_high_l", "Wells_high_kg")),
        (11, by("Wells_repeat_l", "Wells_repeat_kg")),
        (12, by("Wells_loss_l", "Wells_loss_kg")),
        (13, Pieces::here(8).then("+").and(Pieces::here(11)).then("+").and(Pieces::here(12))),
    ];
    for (at, pieces) in sums {
        if let Some(cell) = row.get_mut(at) {
            live(cell, pieces);
        }
    }
}

/// The same of what stands behind the product.
pub(in crate::report) fn follow_rest(row: &mut [Cell]) {
    let by = Pieces::call("MATCH", [Pieces::here(0), Pieces::text("Scenario_names"), Pieces::text("0")]);
    let cost = Pieces::call("SUMIFS", [Pieces::text("Needs_cost"), Pieces::text("Needs_scenario"), by.clone()]);
    let missing = Pieces::call("SUMIFS", [Pieces::text("Needs_unpriced"), Pieces::text("Needs_scenario"), by]);
    let cost = Pieces::call("IF", [missing.then(">0"), Pieces::text("\"\""), cost]);
    for (at, pieces) in
        [(14, added("Wells_neutralizer_kg")), (15, added("Wells_flush")), (16, added("Wells_hours")), (17, cost)]
    {
        if let Some(cell) = row.get_mut(at) {
            live(cell, pieces);
        }
    }
}
