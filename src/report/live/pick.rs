//! The living part of Summary: which scenario is picked, its headline, and totals that follow the inputs.

use super::super::Matter;
use super::super::show::Shown;
use super::follows::{Follows, of_needs, product, product_in_all};
use super::inputs::tidy;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::entry::{Allowed, Entry};
use crate::document::formula::{Name, Pieces, Place};

const SHEET: &str = "Summary";

/// The drop-down that Summary and Order follow, and what the picked scenario comes to.
pub(in crate::report) fn picker(matter: &Matter<'_>, sheet: &mut Sheet, names: &mut Vec<Name>, follows: &Follows) {
    let Some(case) = matter.plan.cases.first() else { return };
    let campaign = matter.plan.campaign;
    sheet.note(if follows.crew.is_some() {
        "Pick a scenario from the list in the framed cell: Summary, Order and Crew follow it; Compare and Charts show all of them."
    } else {
        "Pick a scenario from the list in the framed cell: Summary and Order follow it; Crew has too many rows to follow and is \
         that of the first; Compare and Charts show all of them."
    });
    let row = sheet.rows.len() as u32;
    let place = |column| Place { sheet: SHEET, row, column };
    let number = Pieces::call("MATCH", [Pieces::at(place(0)), Pieces::text("Scenario_names"), Pieces::text("0")]);
    sheet.push(vec![
        Cell::text(&case.scenario.name).with_role(Role::Input),
        Cell::text("is no.").with_role(Role::Note),
        Cell::formula(number.giving(1.0, 0)).with_role(Role::Note),
    ]);
    sheet.layout.entries.push(Entry {
        column: 0,
        first_row: row,
        last_row: row,
        allowed: Allowed::Cells("Scenario_names".to_owned()),
        title: "Scenario".to_owned(),
        help: "The scenario that this sheet and Order show; one of those on the Scenarios sheet.".to_owned(),
        refusal: "Pick one of the scenarios on the Scenarios sheet.".to_owned(),
    });
    names.push(Name { name: "Picked_scenario".to_owned(), first: place(0), last_row: row });
    names.push(Name { name: "Picked".to_owned(), first: place(2), last_row: row });
    let liquid = campaign.products[case.scenario.product].chemical.is_liquid();
    let shown = Shown::of(if liquid { "L" } else { "kg" }, campaign.system);
    let sums = matter.run.totals.overall(0);
    let picked = Pieces::text("Picked");
    let of = |name: &str| product(name, picked.clone());
    let total = product_in_all(&picked);
    let unit = Pieces::text("IF(INDEX(Liquid,Picked)=1,\"")
        .then(Shown::of("L", campaign.system).symbol)
        .then("\",\"")
        .then(Shown::of("kg", campaign.system).symbol)
        .then("\")");
    let so_far = matter.orders.priced(0);
    let mut line = |title: Cell, value: Cell, unit: Cell| sheet.push(vec![title, value.with_role(Role::Total), unit]);
    let first = tidy(shown.value(sums.product));
    line(
        Cell::text("Product, first round"),
        Cell::formula(of("Needs_first").giving(first, 1)),
        Cell::formula(unit.clone().saying(shown.symbol)),
    );
    let all = tidy(shown.value(sums.product_in_all()));
    line(
        Cell::text("Total with repeats and losses"),
        Cell::formula(total.giving(all, 1)),
        Cell::formula(unit.saying(shown.symbol)),
    );
    let now = of_needs("Needs_cost", picked.clone());
    let some_or_all = |some: &str, all: &str| {
        let missing = of_needs("Needs_unpriced", picked.clone()).then(">0");
        let pieces = Pieces::call("IF", [missing, Pieces::quoted(some), Pieces::quoted(all)]);
        Cell::formula(pieces.saying(if so_far.is_all() { all } else { some }))
    };
    line(
        some_or_all("Priced so far, not the order", "Order cost"),
        Cell::formula(now.giving(so_far.cost, 2)),
        Cell::text(&campaign.currency),
    );
    let short = super::alerts::uncovered(Pieces::text("Picked"));
    line(
        Cell::text("Needs not covered"),
        Cell::formula(short.giving(follows.uncovered as f64, 0)),
        Cell::text("needs"),
    );
    if let Some(other) = super::super::page::proposed(matter).filter(|at| *at > 0) {
        let name = |at: usize| &matter.plan.cases[at].scenario.name;
        sheet.wide(
            format!(
                "The cheapest choice that can be made is \"{}\" (report.html): pick it above for its order. The crew sheets are for \
                 \"{}\"; for cards of another {}.",
                name(other),
                name(0),
                matter.cards_of_another()
            ),
            Role::Flagged,
        );
    }
    sheet.gap();
}
