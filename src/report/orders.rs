//! The Orders sheet: what each depot must buy, in whole packages, against what it has, and what that costs.

use super::Matter;
use super::show::Shown;
use super::tables::package_list;
use crate::document::cell::{Cell, Role, Sheet};
use crate::rollup::orders::ItemKind;

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Orders");
    let campaign = matter.plan.campaign;
    sheet.title("Orders: what to buy, per depot, in whole packages");
    sheet.note(format!(
        "{}. Nothing is ordered for held-back visits. First round, repeat round and handling loss are three figures; an order \
         covers their sum less what is on hand and on order. Prices in {}.",
        matter.coverage(),
        campaign.currency
    ));
    for remark in &matter.orders.remarks {
        sheet.wide(format!("Check: {remark}; it was not used."), Role::Flagged);
    }
    for text in super::outsized::texts(matter) {
        sheet.wide(text, Role::Flagged);
    }
    let heads = [
        "Scenario",
        "Depot",
        "Item",
        "Unit",
        "First round",
        "Repeat round",
        "Handling loss",
        "On hand",
        "On order",
        "To buy",
        "Packages",
        "Amount bought",
        "Shortfall",
        "Cost",
        "First round, low",
        "First round, high",
    ];
    sheet.heads(heads);
    for line in &matter.orders.lines {
        let shown = Shown::of(line.unit, campaign.system);
        let digits = if line.kind == ItemKind::Supply { 0 } else { 1 };
        let amount = |value: f64| Cell::number(shown.value(value), digits);
        let short = if line.short > 0.0 { amount(line.short).with_role(Role::Flagged) } else { Cell::empty() };
        let packages = match (line.bought.is_empty(), line.gap > 0.0) {
            (true, true) if line.short > 0.0 => Cell::text("not available").with_role(Role::Flagged),
            (true, true) => Cell::text("no package stated").with_role(Role::Flagged),
            (true, false) => Cell::text("none needed"),
            (false, _) => Cell::text(package_list(line)),
        };
        sheet.push(vec![
            Cell::text(scenario(matter, line.scenario)),
            depot(&line.depot),
            Cell::text(&line.item),
            Cell::text(shown.symbol),
            amount(line.first_round),
            amount(line.repeat_round),
            amount(line.handling_loss),
            amount(line.on_hand),
            amount(line.on_order),
            amount(line.gap).with_role(Role::Total),
            packages,
            amount(line.amount),
            short,
            Cell::number(line.cost.unwrap_or(f64::NAN), 2),
            amount(line.first_round_low),
            amount(line.first_round_high),
        ]);
    }
    if !matter.orders.rounding.is_empty() {
        sheet.gap();
        sheet.wide("What rounding up per depot costs, against rounding up once for the whole campaign", Role::Title);
        let heads = ["Scenario", "", "Item", "Unit", "Per depot", "Once", "Difference", "Extra cost"];
        sheet.push(heads.map(Cell::head).to_vec());
        for rounding in &matter.orders.rounding {
            let shown = Shown::of(rounding.unit, campaign.system);
            sheet.push(vec![
                Cell::text(scenario(matter, rounding.scenario)),
                Cell::empty(),
                Cell::text(&rounding.item),
                Cell::text(shown.symbol),
                Cell::number(shown.value(rounding.per_depot), 1),
                Cell::number(shown.value(rounding.once), 1),
                Cell::number(shown.value(rounding.per_depot - rounding.once), 1),
                Cell::number(rounding.cost.unwrap_or(f64::NAN), 2),
            ]);
        }
    }
    sheet.layout.widths =
        vec![30.0, 14.0, 24.0, 8.0, 11.0, 11.0, 11.0, 10.0, 10.0, 11.0, 34.0, 11.0, 9.0, 11.0, 11.0, 11.0];
    sheet.layout.frozen_columns = 3;
    sheet.layout.landscape = true;
    sheet
}

fn scenario<'a>(matter: &Matter<'a>, index: usize) -> &'a str {
    matter.plan.cases.get(index).map_or("", |case| case.scenario.name.as_str())
}

fn depot(name: &str) -> Cell {
    if name.is_empty() { Cell::text("(no depot)").with_role(Role::Flagged) } else { Cell::text(name) }
}
