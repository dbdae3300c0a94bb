//! The Charts sheet: need and cost by scenario, need by depot, each beside the cells that it draws.

use super::super::AS_IF_TOGETHER;
use super::super::show::Shown;
use super::follows::{of_needs, priced, product};
use super::inputs::tidy;
use super::model::Model;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::cell_chart::{CellChart, CellSeries, Cells, Drawn};
use crate::document::chart::Axis;
use crate::document::formula::Pieces;
use crate::kernel::requirement::Stock;
use crate::quantity::format::number;
use crate::rollup::orders::{ItemKind, OrderLine};

const SHEET: &str = "Charts";
/// Columns: what, scenario number, first round, low, high, below, above, cost.
const FIRST_ROUND: u16 = 2;
const COST: u16 = 7;
const COLUMNS: u16 = 8;
/// Most bars of a chart; more cannot be read.
const MOST_BARS: usize = 40;

/// Rows of a chart with so many bars: room for the title and the axis, and for each bar.
fn rows_for(bars: usize) -> u32 {
    7 + (bars as u32 * 13).div_ceil(10)
}

/// A chart that is to come, with rows of its table.
struct Coming {
    title: String,
    text: String,
    across: &'static str,
    upward: Axis,
    column: u16,
    has_range: bool,
    rows: (u32, u32),
}

pub(super) fn sheet(model: &Model<'_>) -> Sheet {
    let cases = &model.matter.plan.cases;
    let liquid = |case: &usize| matches!(cases[*case].stock.prepared.stock, Stock::Liquid { .. });
    let (liquids, dry): (Vec<usize>, Vec<usize>) = (0..cases.len()).partition(liquid);
    let kinds = [(liquids, "liquid", "L"), (dry, "dry", "kg")];
    let depots = model.depots.len().min(MOST_BARS);
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Charts: need and cost, as the workbook stands");
    sheet.note("They draw the table at the end of this sheet, which follows the inputs. A thin line is the range from low to high.");
    sheet.note(AS_IF_TOGETHER);
    let on_page = kinds.iter().map(|kind| kind.0.len().min(MOST_BARS)).filter(|bars| *bars > 0);
    let first_page: u32 = on_page.chain([depots]).map(|bars| rows_for(bars) + 1).sum();
    let some_priced = (0..cases.len()).any(|case| model.matter.orders.priced(case).priced > 0);
    let second_page = if some_priced { rows_for(cases.len().min(MOST_BARS)) + 1 } else { 2 };
    let top = sheet.rows.len() as u32;
    (0..first_page + second_page).for_each(|_| sheet.gap());
    sheet.layout.breaks.push(top + first_page);
    if !some_priced {
        sheet.wide(
            "No price is stated, so there is no chart of cost: write prices on Prices and plan again.",
            Role::Flagged,
        );
    }

    let all_priced = (0..cases.len()).all(|case| model.matter.orders.priced(case).is_all());
    let cost_head = if all_priced { "Order cost" } else { "Priced so far" };
    sheet.push(["Scenario", "No.", "First round", "Low", "High", "Below", "Above", cost_head].map(Cell::head).to_vec());
    let mut coming = Vec::new();
    let start = sheet.rows.len() as u32;
    for (own, kind, unit) in kinds {
        let shown = Shown::of(unit, model.system);
        let first = sheet.rows.len() as u32;
        own.iter().for_each(|case| sheet.push(of_scenario(model, *case, shown, all_priced)));
        if !own.is_empty() {
            let needs = own.iter().map(|case| {
                let sums = model.matter.run.totals.overall(*case);
                let said = |value: f64| number(shown.value(value), 3);
                let (name, low, high) = (&cases[*case].scenario.name, said(sums.product_low), said(sums.product_high));
                format!("{name} {} ({low} to {high})", said(sums.product))
            });
            let title = format!("Need by scenario, {kind} products, first round ({})", shown.symbol);
            coming.push(Coming {
                text: format!("{title}, as planned: {}.", needs.collect::<Vec<_>>().join("; ")),
                title,
                across: "Scenario",
                upward: Axis::new("Product, first round", shown.symbol),
                column: FIRST_ROUND,
                has_range: true,
                rows: (first, sheet.rows.len() as u32 - 1),
            });
        }
    }
    let all = (start, sheet.rows.len() as u32 - 1);
    coming.push(depots_of(model, &mut sheet));
    if some_priced {
        coming.push(costs_of(model, all_priced, all));
    }
    let mut row = top;
    for chart in coming {
        let bars = ((chart.rows.1 + 1 - chart.rows.0) as usize).min(MOST_BARS);
        let rows = rows_for(bars);
        sheet.layout.charts.push(placed(chart, (row, rows)));
        row += rows + 1;
    }
    sheet.layout.widths = vec![34.0, 6.0, 11.0, 11.0, 11.0, 10.0, 10.0, 12.0];
    sheet.layout.frozen_rows = 1;
    sheet
}

/// What the orders cost; where something has no price, what is priced so far, and how much of the order that is.
fn costs_of(model: &Model<'_>, all_priced: bool, rows: (u32, u32)) -> Coming {
    let currency = &model.matter.plan.campaign.currency;
    let cases = &model.matter.plan.cases;
    let costs = (0..cases.len()).map(|case| {
        let so_far = model.matter.orders.priced(case);
        let share = if so_far.is_all() { String::new() } else { format!(" ({})", so_far.share()) };
        format!("{} {}{share}", cases[case].scenario.name, number(so_far.cost, 4))
    });
    let what = if all_priced { "Cost of the order" } else { "Priced so far, not the cost of the order," };
    Coming {
        title: format!("{what} by scenario ({currency})"),
        text: format!("{what} by scenario in {currency}, as planned: {}.", costs.collect::<Vec<_>>().join("; ")),
        across: "Scenario",
        upward: Axis::new(if all_priced { "Order cost" } else { "Priced so far" }, currency.clone()),
        column: COST,
        has_range: false,
        rows,
    }
}

fn placed(chart: Coming, (row, height): (u32, u32)) -> CellChart {
    let rows = (chart.rows.0, chart.rows.1.min(chart.rows.0 + MOST_BARS as u32 - 1));
    let cells = |column| Cells::column(SHEET, column, rows);
    CellChart {
        title: chart.title,
        text: chart.text,
        drawn: Drawn::Bars,
        names: cells(0),
        across: Axis::new(chart.across, ""),
        upward: Axis { from_zero: true, ..chart.upward.clone() },
        series: vec![CellSeries {
            name: chart.upward.heading(),
            values: cells(chart.column),
            range: chart.has_range.then(|| (cells(FIRST_ROUND + 3), cells(FIRST_ROUND + 4))),
        }],
        place: (row, 0),
        size: (COLUMNS, height),
    }
}

/// What is there of a first round, its low and its high, and how far the two are from it.
fn with_range(figures: [(Pieces, f64); 3]) -> Vec<Cell> {
    let here = Pieces::here;
    let [first, low, high] = figures.each_ref().map(|figure| figure.1);
    let mut cells: Vec<Cell> =
        figures.into_iter().map(|(pieces, value)| Cell::formula(pieces.giving(value, 1))).collect();
    let (below, above) = (here(FIRST_ROUND).then("-").and(here(3)), here(4).then("-").and(here(FIRST_ROUND)));
    cells.push(Cell::formula(below.giving(first - low, 1)));
    cells.push(Cell::formula(above.giving(high - first, 1)));
    cells
}

fn of_scenario(model: &Model<'_>, case: usize, shown: Shown, all_priced: bool) -> Vec<Cell> {
    let number = || Pieces::here(1);
    let sums = model.matter.run.totals.overall(case);
    let value = |value: f64| tidy(shown.value(value));
    let name = model.matter.plan.cases[case].scenario.name.as_str();
    let mut row = vec![Cell::text(name), Cell::count(case as u64 + 1)];
    row.extend(with_range([
        (product("Needs_first", number()), value(sums.product)),
        (product("Needs_low", number()), value(sums.product_low)),
        (product("Needs_high", number()), value(sums.product_high)),
    ]));
    let so_far = of_needs("Needs_cost", number());
    let cost = if all_priced { priced(so_far, of_needs("Needs_unpriced", number())) } else { so_far };
    row.push(Cell::formula(cost.giving(model.matter.orders.priced(case).cost, 2)));
    row
}

/// The need of each depot under the scenario that is picked.
fn depots_of(model: &Model<'_>, sheet: &mut Sheet) -> Coming {
    let case = &model.matter.plan.cases[0];
    let symbols = ["L", "kg"].map(|unit| Shown::of(unit, model.system));
    let is_liquid = matches!(case.stock.prepared.stock, Stock::Liquid { .. });
    let shown = symbols[usize::from(!is_liquid)];
    sheet.gap();
    let said = |unit: &str, name: &str| format!("Need by depot, first round ({unit}): {name}");
    let title = Pieces::text(format!(
        "\"Need by depot, first round (\"&IF(INDEX(Liquid,Picked)=1,\"{}\",\"{}\")&\"): \"&Picked_scenario",
        symbols[0].symbol, symbols[1].symbol
    ));
    let row = sheet.rows.len() as u32;
    let title = title.saying(said(shown.symbol, &case.scenario.name));
    sheet.layout.wide_rows.push(row);
    sheet.push(vec![Cell::formula(title).with_role(Role::Total)]);
    sheet.push(["Depot", "No.", "First round", "Low", "High", "Below", "Above"].map(Cell::head).to_vec());
    let first = sheet.rows.len() as u32;
    let mut needs = Vec::new();
    for (at, depot) in model.depots.iter().enumerate() {
        let of = |name: &str| {
            Pieces::text(format!("SUMIFS({name},Needs_scenario,Picked,Needs_slot,1,Needs_depot,"))
                .and(Pieces::here(1))
                .then(")")
        };
        let mut lines = model.matter.orders.lines.iter();
        let line = lines.find(|line| line.scenario == 0 && line.kind == ItemKind::Product && line.depot == *depot);
        let value = |get: fn(&OrderLine) -> f64| tidy(shown.value(line.map_or(0.0, get)));
        let name = if depot.is_empty() { "(no depot)" } else { depot };
        needs.push(format!("{name} {}", number(value(|line| line.first_round), 3)));
        let mut cells = vec![Cell::text(name), Cell::count(at as u64 + 1)];
        cells.extend(with_range([
            (of("Needs_first"), value(|line| line.first_round)),
            (of("Needs_low"), value(|line| line.first_round_low)),
            (of("Needs_high"), value(|line| line.first_round_high)),
        ]));
        sheet.push(cells);
    }
    Coming {
        title: "Need by depot under the scenario that is picked, first round".to_owned(),
        text: format!("{}, as planned: {}.", said(shown.symbol, &case.scenario.name), needs.join("; ")),
        across: "Depot",
        upward: Axis::new("Product, first round, in the unit that it is bought by", ""),
        column: FIRST_ROUND,
        has_range: true,
        rows: (first, sheet.rows.len() as u32 - 1),
    }
}
