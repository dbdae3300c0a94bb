//! The Checks sheet: rows that must add up, needs that must be covered, and what has changed since the plan.

use super::super::show::Shown;
use super::alerts::{IS_CHEAPER, Open};
use super::as_planned::{AS_PLANNED, CHANGED_CELLS};
use super::follows::{of_needs, product, product_in_all};
use super::inputs::tidy;
use super::model::Model;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Pieces, Place};

const SHEET: &str = "Checks";

pub(super) fn sheet(model: &mut Model<'_>, wells: bool) -> Sheet {
    let matter = model.matter;
    let run = matter.run;
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Checks: what must add up, and what has changed since the plan");
    sheet.note("Every result must say OK; changed says that an input is no longer that of the plan.");
    sheet.note(
        "Covered: what is bought and there is enough for both rounds and the handling loss, and for the amounts of the cards, which are \
         rounded up. Topping up is not counted: Order says how much the cards name.",
    );
    sheet.heads(["What", "Now", "Must be", "Unit", "Result"]);
    sheet.layout.filter_row = None;
    let counts = [
        ("Rows read", run.read),
        ("  planned", run.planned),
        ("  held back", run.held_back),
        ("  excluded", run.excluded),
        ("  not wells", run.other_rows.count()),
    ];
    let first = sheet.rows.len() as u32;
    for (title, count) in counts {
        sheet.push(vec![Cell::text(title), Cell::count(count), Cell::empty(), Cell::text("rows")]);
    }
    let place = |row: u32| Pieces::at(crate::document::formula::Place { sheet: SHEET, row, column: 1 });
    let sum = (1..5).fold(Pieces::default(), |sum, at| {
        let sum = if at > 1 { sum.then("+") } else { sum };
        sum.and(place(first + at))
    });
    let cases = matter.plan.cases.len() as f64;
    let total = run.planned + run.held_back + run.excluded + run.other_rows.count();
    let mut line = |title: &str, now: (Pieces, f64), must: (Pieces, f64)| {
        let fits = (now.1 - must.1).abs() <= 1e-9 * must.1.abs().max(1.0);
        let said = Pieces::call("IF", [same(1, 2), Pieces::text("\"OK\""), Pieces::text(format!("\"{MISSING}\""))]);
        sheet.push(vec![
            Cell::text(title),
            Cell::formula(now.0.giving(now.1, 0)),
            Cell::formula(must.0.giving(must.1, 0)),
            Cell::text("rows"),
            Cell::formula(said.saying(if fits { "OK" } else { MISSING })).with_role(Role::Total),
        ]);
    };
    line(
        "Rows read are planned, held back, excluded or not wells",
        (sum, total as f64),
        (place(first), run.read as f64),
    );
    if wells {
        line(
            "Planned visits stand on Wells once for each scenario",
            (Pieces::text("SUM(Wells_planned)"), run.planned as f64 * cases),
            (place(first + 1).then("*ROWS(Scenario_names)"), run.planned as f64 * cases),
        );
    }
    since_the_plan(model, &mut sheet);
    sheet.gap();
    let heads = [
        "Scenario",
        "No.",
        "Needs",
        "Wells",
        "Total product",
        "as planned",
        "Not covered",
        "Cost, priced lines",
        "as planned",
        "Sums",
        "Covered",
        "Since the plan",
        "Cheapest counts",
    ];
    sheet.push(heads.map(Cell::head).to_vec());
    for at in 0..matter.plan.cases.len() {
        let row = of_scenario(model, at, wells);
        sheet.push(row);
    }
    sheet.layout.widths = vec![42.0, 8.0, 9.5, 9.5, 11.0, 9.5, 8.0, 10.0, 10.0, 11.0, 11.0, 12.0, 12.0];
    sheet
}

/// How many cells are no longer those of the plan, and whether sentences with figures of the plan stand as they are.
fn since_the_plan(model: &mut Model<'_>, sheet: &mut Sheet) {
    let now = Pieces::text(format!("SUM({CHANGED_CELLS})+SUMPRODUCT((Packages_count<>Packages_planned)*1)"));
    let row = sheet.rows.len() as u32;
    let place = |row: u32| Pieces::at(Place { sheet: SHEET, row, column: 1 });
    let none = place(row).then("=0");
    let said = Pieces::call("IF", [none.clone(), Pieces::quoted("unchanged"), Pieces::quoted("changed")]);
    sheet.push(vec![
        Cell::text("Inputs and counts that are no longer those of the plan"),
        Cell::formula(now.giving(0.0, 0)),
        Cell::empty(),
        Cell::text("cells"),
        Cell::formula(said.saying("unchanged")).with_role(Role::Total),
    ]);
    let both = Pieces::call("AND", [none, Pieces::text("Picked=1")]);
    sheet.push(vec![
        Cell::text(
            "1: none is, and the plan's first scenario is picked, so that sentences with figures of the plan hold",
        ),
        Cell::formula(Pieces::call("IF", [both, Pieces::text("1"), Pieces::text("0")]).giving(1.0, 0)),
    ]);
    model.name(AS_PLANNED, SHEET, 1, (row + 1, row + 1));
}

const MISSING: &str = "LOOK: rows are missing";

/// Whether two cells of a row are the same, but for the last digits.
fn same(one: u16, other: u16) -> Pieces {
    let here = Pieces::here;
    let within = Pieces::text("ABS(").and(here(one)).then("-").and(here(other));
    within.then(format!(")<={}*MAX(1,ABS(", super::formula::SLACK)).and(here(other)).then("))")
}

/// What a scenario comes to now, as the wells add up, and as it was planned.
fn of_scenario(model: &Model<'_>, at: usize, wells: bool) -> Vec<Cell> {
    let matter = model.matter;
    let case = &matter.plan.cases[at];
    let liquid = matter.plan.campaign.products[case.scenario.product].chemical.is_liquid();
    let unit = Shown::of(if liquid { "L" } else { "kg" }, model.system);
    let number = || Pieces::here(1);
    let sums = matter.run.totals.overall(at);
    let (first, all) = (tidy(unit.value(sums.product)), tidy(unit.value(sums.product_in_all())));
    let added = if liquid { "Wells_product_l" } else { "Wells_product_kg" };
    let of_wells = Pieces::call("SUMIFS", [Pieces::text(added), Pieces::text("Wells_scenario"), number()]);
    let open = Open::of(model, matter.orders.lines.iter().enumerate().filter(|(_, line)| line.scenario == at));
    let short = (open.short + open.cards) as f64;
    let uncovered = super::alerts::uncovered(number());
    let cheaper = Pieces::text(format!("COUNTIFS({IS_CHEAPER},\">0\",Needs_scenario,")).and(number()).then(")");
    let cost = matter.orders.priced(at).cost;
    let said = |when: Pieces, then: &str, otherwise: &str, holds: bool| {
        let texts = [then, otherwise].map(|text| Pieces::text(format!("\"{text}\"")));
        let pieces = Pieces::call("IF", std::iter::once(when).chain(texts));
        Cell::formula(pieces.saying(if holds { then } else { otherwise })).with_role(Role::Total)
    };
    let unchanged = Pieces::call("AND", [same(4, 5), same(7, 8)]);
    vec![
        Cell::text(&case.scenario.name),
        Cell::count(at as u64 + 1),
        Cell::formula(product("Needs_first", number()).giving(first, 1)),
        if wells { Cell::formula(of_wells.giving(first, 1)) } else { Cell::number(first, 1) },
        Cell::formula(product_in_all(&number()).giving(all, 1)),
        Cell::number(all, 1),
        Cell::formula(uncovered.giving(short, 0)),
        Cell::formula(of_needs("Needs_cost", number()).giving(cost, 2)),
        Cell::number(cost, 2),
        said(same(2, 3), "OK", "LOOK: they differ", true),
        said(Pieces::here(6).then("=0"), "OK", "LOOK: see Order", short == 0.0),
        said(unchanged, "unchanged", "changed", true),
        said(cheaper.then("=0"), "OK", "LOOK: cheaper now, see Order", open.cheaper == 0),
    ]
}
