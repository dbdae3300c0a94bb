//! The Order sheet: what each depot must buy under the scenario that is picked, to be signed.

use super::super::Matter;
use super::model::{Model, indexed};
use super::needs::Needs;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;
use crate::rollup::orders::OrderLine;

pub(super) const SHEET: &str = "Order";

/// Columns: item, package, count, amount, unit, cost, to buy, over, alert; behind the printed ones which need and package it is.
const NEED: u16 = 9;
const PACKAGE: u16 = 10;
const DEPOT: u16 = 11;
const SLOT: u16 = 12;

pub(super) fn sheet(model: &mut Model<'_>, needs: &Needs) -> Sheet {
    let matter = model.matter;
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Order: what to buy, by depot");
    let picked = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let said = Pieces::text("\"Scenario: \"&Picked_scenario").saying(format!("Scenario: {picked}"));
    // It runs over the columns, like a note.
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![Cell::formula(said).with_role(Role::Title)]);
    sheet.note(format!(
        "The scenario is picked on Summary. Counts are changed on Packages, prices on Prices ({}), stock on Stock.",
        matter.plan.campaign.currency
    ));
    sheet.note(format!("{}; nothing is ordered for visits that are held back.", matter.coverage()));
    for remark in &matter.orders.remarks {
        sheet.wide(format!("Check: {remark}; it was not used."), Role::Flagged);
    }
    for text in super::super::outsized::texts(matter) {
        sheet.wide(text, Role::Flagged);
    }
    if let Some(text) = super::super::agents::text(matter, 0) {
        sheet.wide(text, Role::Flagged);
    }
    let heads = [
        "Item",
        "Package",
        "Count",
        "Amount",
        "Unit",
        "Cost",
        "To buy",
        "Over",
        "Alert",
        "Need no.",
        "Package no.",
        "Depot no.",
        "Place",
    ];
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    sheet.layout.repeat_rows = sheet.layout.frozen_rows.checked_sub(1);
    for (at, depot) in model.depots.iter().enumerate() {
        if at > 0 {
            sheet.layout.breaks.push(sheet.rows.len() as u32);
        }
        let name = if depot.is_empty() { "(no depot)" } else { depot.as_str() };
        sheet.push(vec![Cell::text(name).with_role(Role::Total)]);
        for (slot, (_, kinds)) in needs.slots.iter().enumerate() {
            block(&mut sheet, model, at, slot + 1, *kinds);
        }
        let lines = || matter.orders.lines.iter().filter(|line| line.scenario == 0 && line.depot == *depot);
        let total = lines().filter_map(|line| line.cost).fold(0.0, |sum, cost| sum + cost);
        let sum =
            Pieces::text("SUMIFS(Needs_cost,Needs_scenario,Picked,Needs_depot,").and(Pieces::here(DEPOT)).then(")");
        let missing =
            Pieces::text("SUMIFS(Needs_unpriced,Needs_scenario,Picked,Needs_depot,").and(Pieces::here(DEPOT)).then(")");
        total_row(
            &mut sheet,
            &format!("Total for {name}"),
            sum,
            missing,
            total,
            lines().any(|line| line.cost.is_none()),
            at,
        );
    }
    let lines = || matter.orders.lines.iter().filter(|line| line.scenario == 0);
    let sum = Pieces::text("SUMIFS(Needs_cost,Needs_scenario,Picked)");
    let missing = Pieces::text("SUMIFS(Needs_unpriced,Needs_scenario,Picked)");
    sheet.gap();
    let total = lines().filter_map(|line| line.cost).fold(0.0, |sum, cost| sum + cost);
    total_row(&mut sheet, "Total of the order", sum, missing, total, lines().any(|line| line.cost.is_none()), 0);
    sheet.gap();
    for line in [
        "Ordered by (name, in print): ______________________________",
        "Signature: ______________________________    Date: ______________",
    ] {
        sheet.wide(line, Role::Body);
        sheet.gap();
    }
    sheet.layout.widths = vec![28.0, 14.0, 6.5, 9.0, 7.5, 9.5, 9.0, 8.0, 13.0, 7.0, 7.0, 7.0, 7.0];
    sheet.layout.printed_columns = Some(9);
    sheet
}

fn total_row(sheet: &mut Sheet, title: &str, sum: Pieces, missing: Pieces, value: f64, unpriced: bool, depot: usize) {
    let alert = Pieces::call("IF", [missing.then(">0"), Pieces::text("\"not all priced\""), Pieces::text("\"\"")]);
    let mut row = vec![Cell::text(title).with_role(Role::Total)];
    row.extend((0..4).map(|_| Cell::empty().with_role(Role::Total)));
    row.push(Cell::formula(sum.giving(value, 2)).with_role(Role::Total));
    row.extend([Cell::empty().with_role(Role::Total), Cell::empty().with_role(Role::Total)]);
    row.push(Cell::formula(alert.saying(if unpriced { "not all priced" } else { "" })).with_role(Role::Total));
    row.extend([Cell::empty(), Cell::empty(), Cell::count(depot as u64 + 1)]);
    sheet.push(row);
}

/// One item of a depot: what is to be bought, and a line for each kind of package.
fn block(sheet: &mut Sheet, model: &Model<'_>, depot: usize, slot: usize, kinds: usize) {
    let matter = model.matter;
    let here = Pieces::here;
    let line = line_of(matter, model, depot, slot);
    let place = line.and_then(|line| matter.orders.lines.iter().position(|known| known == line));
    let shown = line.map(|line| super::super::show::Shown::of(line.unit, model.system));
    let value = |get: fn(&OrderLine) -> f64| {
        line.zip(shown).map_or(f64::NAN, |(line, shown)| super::inputs::tidy(shown.value(get(line))))
    };
    let found =
        |name: &str| Pieces::call("IF", [here(NEED).then("=0"), Pieces::text("\"\""), indexed(name, here(NEED))]);
    let need = Pieces::text("SUMIFS(Needs_no,Needs_scenario,Picked,Needs_depot,")
        .and(here(DEPOT))
        .then(",Needs_slot,")
        .and(here(SLOT))
        .then(")");
    let short = Pieces::call(
        "IF",
        [indexed("Needs_short", here(NEED)).then(">0"), Pieces::text("\"NOT COVERED\""), Pieces::text("\"covered\"")],
    );
    let alert = Pieces::call("IF", [here(NEED).then("=0"), Pieces::text("\"\""), short]);
    let said = match line {
        None => "",
        Some(line) if line.short > 0.0 || (line.bought.is_empty() && line.gap > 0.0) => "NOT COVERED",
        Some(_) => "covered",
    };
    let item = line.map_or("", OrderLine::item_name);
    sheet.push(vec![
        Cell::formula(found("Needs_item").saying(item)),
        Cell::empty(),
        Cell::empty(),
        Cell::formula(found("Needs_bought").giving(value(|line| line.amount), 1)),
        Cell::formula(found("Needs_unit").saying(shown.map_or("", |shown| shown.symbol))),
        Cell::formula(found("Needs_cost").giving(line.and_then(|line| line.cost).unwrap_or(f64::NAN), 2)),
        Cell::formula(found("Needs_gap").giving(value(|line| line.gap), 1)),
        Cell::formula(found("Needs_over").giving(value(|line| (line.amount - line.gap).max(0.0)), 1)),
        Cell::formula(alert.saying(said)),
        Cell::formula(need.giving(place.map_or(0.0, |place| place as f64 + 1.0), 0)),
        Cell::empty(),
        Cell::count(depot as u64 + 1),
        Cell::count(slot as u64),
    ]);
    let above = sheet.rows.len() as u32 - 1;
    for kind in 0..kinds {
        package(sheet, model, place, above, kind);
    }
}

fn package(sheet: &mut Sheet, model: &Model<'_>, place: Option<usize>, above: u32, kind: usize) {
    let here = Pieces::here;
    let need = Pieces::at(crate::document::formula::Place { sheet: SHEET, row: above, column: NEED });
    let number =
        Pieces::text("SUMIFS(Packages_no,Packages_need,").and(need).then(",Packages_kind,").and(here(SLOT)).then(")");
    let found =
        |name: &str| Pieces::call("IF", [here(PACKAGE).then("=0"), Pieces::text("\"\""), indexed(name, here(PACKAGE))]);
    let known = place.and_then(|place| model.packages.iter().position(|known| *known == (place, kind)));
    let text = known.and_then(|at| model.package_rows.get(at));
    let count = text.map_or(f64::NAN, |row| row.1);
    sheet.push(vec![
        Cell::empty(),
        Cell::formula(found("Packages_package").saying(text.map_or("", |row| row.0.as_str()))),
        Cell::formula(found("Packages_count").giving(count, 0)),
        Cell::formula(found("Packages_amount").giving(text.map_or(f64::NAN, |row| row.2), 1)),
        Cell::empty(),
        Cell::formula(found("Packages_cost").giving(text.map_or(f64::NAN, |row| row.3), 2)),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
        Cell::formula(number.giving(known.map_or(0.0, |at| at as f64 + 1.0), 0)),
        Cell::empty(),
        Cell::count(kind as u64 + 1),
    ]);
}

fn line_of<'m>(matter: &'m Matter<'_>, model: &Model<'_>, depot: usize, slot: usize) -> Option<&'m OrderLine> {
    let name = &model.depots[depot];
    matter
        .orders
        .lines
        .iter()
        .find(|line| line.scenario == 0 && line.depot == *name && super::needs::slot_of(line, model) == slot)
}
