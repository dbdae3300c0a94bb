//! What each depot needs of each item, what is bought for it, and what that costs: Needs and Packages.

use super::super::show::Shown;
use super::alerts::{CARDS_SHORT, IS_CHEAPER};
use super::cheaper::Kinds;
use super::formula::SLACK;
use super::inputs::tidy;
use super::model::{Model, PACKAGES, PackageRow};
use super::prices::{Priced, Visits, from_zero, prices};
use super::stock::{self, Stocked};
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;
use crate::rollup::orders::{ItemKind, OrderLine};

pub(super) const NEEDS: &str = "Needs";

/// The sheets, and how the Order sheet finds its lines.
pub(super) struct Needs {
    pub needs: Sheet,
    pub packages: Sheet,
    pub prices: Sheet,
    pub stock: Sheet,
    /// What an order may hold for a depot, in order: its heading and how many kinds of package.
    pub slots: Vec<(String, usize)>,
}

pub(super) fn sheets(model: &mut Model<'_>, wells: bool) -> Needs {
    let (prices, priced, visits) = prices(model, wells);
    let (stock, stocked) = stock::stock(model);
    let slots = slots(model);
    let mut needs = Sheet::new(NEEDS);
    needs.title("Needs: what each depot needs of each item, by scenario");
    needs.note("Workings; nothing to change here. To buy is the first round, the repeat round and the handling loss, less what is on hand and on order.");
    if !wells {
        needs.note("There are too many wells for formulas: the three rounds are values of the plan; what is bought, its cost and what is not covered follow.");
    }
    let heads = [
        "No.",
        "Scenario no.",
        "Depot no.",
        "Place",
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
        "Bought",
        "Over",
        "Not covered",
        "Cost",
        "First round, low",
        "First round, high",
        "Agent no.",
        "Unpriced: 1",
        "Cards measure out so many times that, as planned",
        "Cards take more than is bought and there by",
        "Another count costs less: 1",
    ];
    needs.heads(heads);
    let mut packages = Sheet::new(PACKAGES);
    packages.title("Packages: how many of each to buy; change a count in a framed cell");
    packages.note("The counts are those that cover each need at least cost, or those that somebody settled on; where a need changes, its alert on Order says whether they still do. When this workbook is planned again, a count that was changed is ordered, with the other counts of its item and depot as they stand; with all of them emptied they are chosen anew.");
    let heads = [
        "No.",
        "Need no.",
        "Kind",
        "Scenario",
        "Depot",
        "Item",
        "Package",
        "Count",
        "Holds",
        "Unit",
        "Price",
        "Amount",
        "Cost",
        "Unpriced: 1",
        "Count as planned",
        "Supplier",
        "Scenario no.",
        "Depot no.",
        "Supplier no.",
        "Rest, if of this kind",
        "Cost, if of this kind and the cheapest for the rest",
    ];
    packages.heads(heads);
    let first = needs.rows.len() as u32;
    let first_package = packages.rows.len() as u32;
    let lines: Vec<OrderLine> = model.matter.orders.lines.clone();
    for (at, line) in lines.iter().enumerate() {
        let shown = Shown::of(line.unit, model.system);
        let digits = if line.kind == ItemKind::Supply { 0 } else { 1 };
        let own = priced.iter().filter(|(kind, item, _)| (*kind, item.as_str()) == (line.kind, line.item.as_str()));
        let mut own: Vec<&Priced> = own.map(|(_, _, priced)| priced).collect();
        own.dedup_by(|a, b| a.price == b.price);
        let kinds = Kinds {
            gap: tidy(shown.value(line.gap)),
            own: &own,
            sizes: own.iter().map(|package| tidy(shown.value(package.amount))).collect(),
            first_row: packages.rows.len() as u32,
        };
        if let Some(alert) = model.alerts.get_mut(at) {
            alert.is_cheaper = kinds.is_cheaper(line.cost);
        }
        for (kind, package) in own.iter().enumerate() {
            push_package(&mut packages, model, line, at, kind, package, shown);
            packages.rows.last_mut().into_iter().for_each(|row| row.extend(kinds.cells(kind)));
        }
        push_need(&mut needs, model, line, at, (!own.is_empty(), wells), &stocked, &visits, (shown, digits));
        let alert = model.alerts.get(at).copied().unwrap_or_default();
        let cards = [
            Cell::number(alert.times, 4),
            Cell::formula(cards_short().giving(tidy(shown.value(alert.cards_short)), digits)),
            kinds.alert(17, 21, alert.is_cheaper),
        ];
        if let Some(row) = needs.rows.last_mut() {
            row.extend(cards);
        }
    }
    let rows = (first, needs.rows.len() as u32 - 1);
    for (name, column) in [
        ("Needs_no", 0),
        ("Needs_scenario", 1),
        ("Needs_depot", 2),
        ("Needs_slot", 3),
        ("Needs_item", 6),
        ("Needs_unit", 7),
        ("Needs_first", 8),
        ("Needs_repeat", 9),
        ("Needs_loss", 10),
        ("Needs_gap", 13),
        ("Needs_bought", 14),
        ("Needs_over", 15),
        ("Needs_short", 16),
        ("Needs_cost", 17),
        ("Needs_low", 18),
        ("Needs_high", 19),
        ("Needs_agent", 20),
        ("Needs_unpriced", 21),
        (CARDS_SHORT, 23),
        (IS_CHEAPER, 24),
    ] {
        model.name(name, NEEDS, column, rows);
    }
    let rows = (first_package, (packages.rows.len() as u32).max(first_package + 1) - 1);
    for (name, column) in [
        ("Packages_no", 0),
        ("Packages_need", 1),
        ("Packages_kind", 2),
        ("Packages_package", 6),
        ("Packages_count", 7),
        ("Packages_price", 10),
        ("Packages_amount", 11),
        ("Packages_cost", 12),
        ("Packages_unpriced", 13),
        ("Packages_planned", 14),
        ("Packages_supplier", 15),
        ("Packages_scenario", 16),
        ("Packages_depot", 17),
        ("Packages_supplier_no", 18),
    ] {
        model.name(name, PACKAGES, column, rows);
    }
    let help = "Whole packages to buy, 0 or more.";
    packages.layout.entries.push(from_zero(7, rows, "Count", help, "A count is 0 or more."));
    needs.layout.widths = vec![4.5, 4.5, 4.5, 4.5, 20.0, 11.0, 17.0, 7.5];
    needs.layout.widths.extend([7.5, 7.0, 7.5, 7.0, 7.0, 7.5, 7.5, 7.0, 8.0, 9.0, 7.5, 7.5, 5.0, 7.0]);
    needs.layout.widths.extend([8.0, 8.0, 8.0]);
    needs.layout.printed_columns = Some(18);
    packages.layout.widths = vec![
        4.0, 5.0, 5.0, 27.0, 12.0, 24.0, 14.0, 6.5, 8.0, 7.0, 8.0, 8.0, 9.0, 8.0, 8.0, 20.0, 7.0, 7.0, 7.0, 8.0, 9.0,
    ];
    Needs { needs, packages, prices, stock, slots }
}

/// What an order may hold for a depot: its product, agents, supplies; each with the most kinds of package it may have.
fn slots(model: &Model<'_>) -> Vec<(String, usize)> {
    let campaign = model.matter.plan.campaign;
    let cases = &model.matter.plan.cases;
    let most = cases.iter().map(|case| campaign.products[case.scenario.product].packages.len()).max().unwrap_or(0);
    let mut slots = vec![("Product".to_owned(), most)];
    slots.extend(model.agents.iter().map(|agent| {
        let own = campaign.neutralizers.iter().find(|line| line.agent == *agent);
        (agent.plain_name().to_owned(), own.map_or(0, |line| line.packages.len()))
    }));
    slots.extend(campaign.supplies.iter().map(|supply| (supply.name.clone(), 1)));
    slots
}

/// Place of a line's item among the slots, from 1.
pub(super) fn slot_of(line: &OrderLine, model: &Model<'_>) -> usize {
    let campaign = model.matter.plan.campaign;
    match line.kind {
        ItemKind::Product => 1,
        ItemKind::Neutralizer => 2 + model.agents.iter().position(|agent| agent.name() == line.item).unwrap_or(0),
        ItemKind::Supply => {
            let place = campaign.supplies.iter().position(|supply| supply.name == line.item).unwrap_or(0);
            2 + model.agents.len() + place
        }
    }
}

#[allow(clippy::too_many_arguments)] // One line of a table, with all that its cells refer to.
fn push_need(
    needs: &mut Sheet,
    model: &Model<'_>,
    line: &OrderLine,
    at: usize,
    (has_packages, wells): (bool, bool),
    stocked: &[Stocked],
    visits: &Visits,
    (shown, digits): (Shown, usize),
) {
    let depot = model.depots.iter().position(|depot| *depot == line.depot).unwrap_or(0);
    let agent = model.agents.iter().position(|agent| line.kind == ItemKind::Neutralizer && agent.name() == line.item);
    let liquid = line.unit == "L";
    let amount = |pieces: Pieces, value: f64| Cell::formula(pieces.giving(tidy(shown.value(value)), digits));
    // What the wells come to is a value where they are.
    let of_wells = |pieces: Pieces, value: f64| match wells {
        true => amount(pieces, value),
        false => Cell::number(tidy(shown.value(value)), digits),
    };
    let here = Pieces::here;
    let added = |name: &str| {
        let mut parts =
            vec![Pieces::text(name), Pieces::text("Wells_scenario"), here(1), Pieces::text("Wells_depot"), here(2)];
        if line.kind == ItemKind::Neutralizer {
            parts.extend([Pieces::text("Wells_agent"), here(20)]);
        }
        Pieces::call("SUMIFS", parts)
    };
    let of = |liters: &str, kilograms: &str| added(if liquid { liters } else { kilograms });
    let (first, repeat, loss, low, high) = match line.kind {
        ItemKind::Product => (
            of("Wells_product_l", "Wells_product_kg"),
            of("Wells_repeat_l", "Wells_repeat_kg"),
            Some(of("Wells_loss_l", "Wells_loss_kg")),
            of("Wells_low_l", "Wells_low_kg"),
            of("Wells_high_l", "Wells_high_kg"),
        ),
        ItemKind::Neutralizer => (
            added("Wells_neutralizer_kg"),
            added("Wells_neutralizer_repeat_kg"),
            Some(added("Wells_neutralizer_loss_kg")),
            here(8),
            here(8),
        ),
        ItemKind::Supply => {
            let each = visits
                .iter()
                .find(|known| known.0 == line.item)
                .map_or_else(|| Pieces::text("1"), |known| Pieces::at(known.1));
            let visits = added("Wells_planned").then("*").and(each.clone());
            let again = added("Wells_repeat_visits").then("*").and(each).then(format!("-{SLACK}"));
            let up = |number: Pieces| Pieces::call("ROUNDUP", [number, Pieces::text("0")]);
            let again = Pieces::call("MAX", [Pieces::text("0"), up(again)]);
            (up(visits), again, None, here(8), here(8))
        }
    };
    let whose = (line.depot.as_str(), line.item.as_str());
    let on_hand = stock::on_hand(stocked, whose, (line.scenario, liquid), || here(1));
    let on_order = stock::on_order(stocked, whose);
    let stock =
        |pieces: Option<Pieces>, value: f64| pieces.map_or_else(|| Cell::number(0.0, digits), |at| amount(at, value));
    let gap =
        Pieces::text("MAX(0,").and(here(8)).then("+").and(here(9)).then("+").and(here(10)).then("-").and(here(11));
    let gap = gap.then("-").and(here(12)).then(")");
    let bought = |name: &str| Pieces::call("SUMIFS", [Pieces::text(name), Pieces::text("Packages_need"), here(0)]);
    let over = Pieces::call("MAX", [Pieces::text("0"), here(14).then("-").and(here(13))]);
    let enough = here(14).then("+").and(here(13)).then(format!("*{SLACK}>=")).and(here(13));
    let short = Pieces::call("IF", [enough, Pieces::text("0"), here(13).then("-").and(here(14))]);
    let unpriced = if has_packages {
        bought("Packages_unpriced")
    } else {
        Pieces::call("IF", [here(13).then(">0"), Pieces::text("1"), Pieces::text("0")])
    };
    let cost = Pieces::call("IF", [here(21).then(">0"), Pieces::text("\"\""), bought("Packages_cost")]);
    let short_value = if has_packages { line.short } else { line.gap };
    needs.push(vec![
        Cell::count(at as u64 + 1),
        Cell::count(line.scenario as u64 + 1),
        Cell::count(depot as u64 + 1),
        Cell::count(slot_of(line, model) as u64),
        Cell::text(&model.matter.plan.cases[line.scenario].scenario.name),
        Cell::text(&line.depot),
        Cell::text(line.item_name()),
        Cell::text(shown.symbol),
        of_wells(first, line.first_round),
        of_wells(repeat, line.repeat_round),
        loss.map_or_else(|| Cell::number(0.0, digits), |loss| of_wells(loss, line.handling_loss)),
        stock(on_hand, line.on_hand_counts),
        stock(on_order, line.on_order),
        amount(gap, line.gap).with_role(Role::Total),
        amount(bought("Packages_amount"), line.amount),
        amount(over, (line.amount - line.gap).max(0.0)),
        amount(short, short_value),
        Cell::formula(cost.giving(line.cost.unwrap_or(f64::NAN), 2)),
        of_wells(low, line.first_round_low),
        of_wells(high, line.first_round_high),
        agent.map_or_else(Cell::empty, |agent| Cell::count(agent as u64 + 1)),
        Cell::formula(unpriced.giving(unpriced_count(line, has_packages), 0)),
    ]);
}

/// What the cards measure out of a covered need beyond what is bought and there.
fn cards_short() -> Pieces {
    let here = Pieces::here;
    let cards =
        || Pieces::text("(").and(here(8)).then("+").and(here(9)).then("+").and(here(10)).then(")*").and(here(22));
    let there = || here(11).then("+").and(here(12)).then("+").and(here(14));
    let enough = there().then("+").and(there_slack(there())).then(">=").and(cards());
    let none = Pieces::call("OR", [here(16).then(">0"), enough]);
    Pieces::call("IF", [none, Pieces::text("0"), cards().then("-").and(Pieces::call("SUM", [there()]))])
}

/// The part of what is there that is taken for rounding dust.
fn there_slack(there: Pieces) -> Pieces {
    Pieces::text(format!("{SLACK}*(")).and(there).then(")")
}

/// Kinds of package that are bought without a price; one where there is no package at all.
fn unpriced_count(line: &OrderLine, has_packages: bool) -> f64 {
    match has_packages {
        true => line.bought.iter().filter(|bought| bought.price.is_none()).count() as f64,
        false if line.gap > 0.0 => 1.0,
        false => 0.0,
    }
}

fn push_package(
    packages: &mut Sheet,
    model: &mut Model<'_>,
    line: &OrderLine,
    at: usize,
    kind: usize,
    package: &Priced,
    shown: Shown,
) {
    let here = Pieces::here;
    let count = line.bought.iter().find(|bought| bought.kind == kind).map_or(0, |bought| bought.count);
    let depot = model.depots.iter().position(|depot| *depot == line.depot).unwrap_or(0) as u64 + 1;
    let supplier = model.suppliers.iter().position(|known| *known == package.supplier).unwrap_or(0) as u64 + 1;
    let number = packages.rows.len() as u64 + 1;
    let first = u64::from(packages.layout.frozen_rows);
    let known = Pieces::call("ISNUMBER", [here(10)]);
    let cost = Pieces::call("IF", [known.clone(), here(7).then("*").and(here(10)), Pieces::text("\"\"")]);
    let missing = Pieces::call("AND", [here(7).then(">0"), Pieces::call("NOT", [known.clone()])]);
    let unpriced = Pieces::call("IF", [missing, Pieces::text("1"), Pieces::text("0")]);
    let price = Pieces::call(
        "IF",
        [Pieces::call("ISNUMBER", [Pieces::at(package.price)]), Pieces::at(package.price), Pieces::text("\"\"")],
    );
    let size = tidy(shown.value(package.amount));
    model.packages.push((at, kind));
    model.package_rows.push(PackageRow {
        package: package.text.clone(),
        supplier: package.supplier.clone(),
        count: count as f64,
        amount: count as f64 * size,
        cost: count as f64 * package.value.unwrap_or(f64::NAN),
        price: package.value.unwrap_or(f64::NAN),
    });
    packages.push(vec![
        Cell::count(number - first),
        Cell::count(at as u64 + 1),
        Cell::count(kind as u64 + 1),
        Cell::text(&model.matter.plan.cases[line.scenario].scenario.name),
        Cell::text(&line.depot),
        Cell::text(line.item_name()),
        Cell::text(&package.text),
        Cell::count(count).with_role(Role::Input),
        Cell::formula(Pieces::at(package.size).giving(size, 2)),
        Cell::text(shown.symbol),
        Cell::formula(price.giving(package.value.unwrap_or(f64::NAN), 2)),
        Cell::formula(here(7).then("*").and(here(8)).giving(count as f64 * size, 2)),
        Cell::formula(cost.giving(count as f64 * package.value.unwrap_or(f64::NAN), 2)),
        Cell::formula(unpriced.giving(f64::from(u8::from(count > 0 && package.value.is_none())), 0)),
        Cell::count(count),
        Cell::text(&package.supplier),
        Cell::count(line.scenario as u64 + 1),
        Cell::count(depot),
        Cell::count(supplier),
    ]);
}
