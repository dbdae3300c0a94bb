//! The Checks sheet: rows that must add up, needs that must be covered, and what has changed since the plan.

use super::super::show::Shown;
use super::inputs::tidy;
use super::model::Model;
use super::needs::Needs;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;

const SHEET: &str = "Checks";

pub(super) fn sheet(model: &mut Model<'_>, _needs: &Needs) -> Sheet {
    let matter = model.matter;
    let run = matter.run;
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Checks: what must add up, and what has changed since the plan");
    sheet.note("Every line must say OK; a difference from the plan says that an input was changed.");
    sheet.heads(["What", "Scenario no.", "Now", "Must be", "Unit", "Result"]);
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
        sheet.push(vec![Cell::text(title), Cell::empty(), Cell::count(count), Cell::empty(), Cell::text("rows")]);
    }
    let place = |row: u32| Pieces::at(crate::document::formula::Place { sheet: SHEET, row, column: 2 });
    let sum = (1..5).fold(Pieces::default(), |sum, at| {
        let sum = if at > 1 { sum.then("+") } else { sum };
        sum.and(place(first + at))
    });
    let cases = matter.plan.cases.len() as f64;
    let total = run.planned + run.held_back + run.excluded + run.other_rows.count();
    let mut line =
        |title: &str, case: Option<usize>, now: (Pieces, f64), must: (Pieces, f64), unit: &str, differs: &str| {
            let same = Pieces::text("ABS(")
                .and(Pieces::here(2))
                .then("-")
                .and(Pieces::here(3))
                .then(format!(")<={}*MAX(1,ABS(", super::formula::SLACK));
            let same = same.and(Pieces::here(3)).then("))");
            let said = Pieces::call("IF", [same, Pieces::text("\"OK\""), Pieces::text(format!("\"{differs}\""))]);
            let fits = (now.1 - must.1).abs() <= 1e-9 * must.1.abs().max(1.0);
            sheet.push(vec![
                Cell::text(title),
                case.map_or_else(Cell::empty, |case| Cell::count(case as u64 + 1)),
                Cell::formula(now.0.giving(now.1, 1)),
                if must.0.0.is_empty() { Cell::number(must.1, 1) } else { Cell::formula(must.0.giving(must.1, 1)) },
                Cell::text(unit),
                Cell::formula(said.saying(if fits { "OK" } else { differs })).with_role(Role::Total),
            ]);
        };
    line(
        "Rows read are planned, held back, excluded or not wells",
        None,
        (sum, total as f64),
        (place(first), run.read as f64),
        "rows",
        "LOOK: rows are missing",
    );
    line(
        "Planned visits stand on Wells once for each scenario",
        None,
        (Pieces::text("SUM(Wells_planned)"), run.planned as f64 * cases),
        (place(first + 1).then("*ROWS(Scenario_names)"), run.planned as f64 * cases),
        "rows",
        "LOOK: rows are missing",
    );
    for (at, case) in matter.plan.cases.iter().enumerate() {
        let liquid = matter.plan.campaign.products[case.scenario.product].chemical.is_liquid();
        let unit = Shown::of(if liquid { "L" } else { "kg" }, model.system);
        let lines = || matter.orders.lines.iter().filter(|line| line.scenario == at);
        let name = &case.scenario.name;
        let of = |name: &str| {
            Pieces::text(format!("SUMIFS({name},Needs_scenario,")).and(Pieces::here(1)).then(",Needs_slot,1)")
        };
        let sums = run.totals.overall(at);
        let product = tidy(unit.value(sums.product));
        let wells = Pieces::text(if liquid {
            "SUMIFS(Wells_product_l,Wells_scenario,"
        } else {
            "SUMIFS(Wells_product_kg,Wells_scenario,"
        });
        let wells = wells.and(Pieces::here(1)).then(")");
        line(
            &format!("{name}: needs are the sum of the wells"),
            Some(at),
            (of("Needs_first"), product),
            (wells, product),
            unit.symbol,
            "LOOK: they differ",
        );
        let all = tidy(unit.value(sums.product_in_all()));
        let in_all = of("Needs_first").then("+").and(of("Needs_repeat")).then("+").and(of("Needs_loss"));
        line(
            &format!("{name}: product in all, as planned"),
            Some(at),
            (in_all, all),
            (Pieces::default(), all),
            unit.symbol,
            "changed since the plan",
        );
        let short: f64 = lines()
            .map(|line| if line.bought.is_empty() && line.gap > 0.0 { line.gap } else { line.short })
            .map(|short| f64::from(u8::from(short > 0.0)))
            .sum();
        let uncovered = Pieces::text("SUMPRODUCT((Needs_scenario=").and(Pieces::here(1)).then(")*(Needs_short>0))");
        line(
            &format!("{name}: needs that are not covered"),
            Some(at),
            (uncovered, short),
            (Pieces::text("0"), 0.0),
            "needs",
            "LOOK: see Order",
        );
        let cost: f64 = lines().filter_map(|line| line.cost).sum();
        let now = Pieces::text("SUMIFS(Needs_cost,Needs_scenario,").and(Pieces::here(1)).then(")");
        line(
            &format!("{name}: cost, as planned"),
            Some(at),
            (now, cost),
            (Pieces::default(), cost),
            &matter.plan.campaign.currency,
            "changed since the plan",
        );
    }
    sheet.layout.widths = vec![62.0, 9.0, 12.0, 12.0, 9.0, 22.0];
    sheet
}
