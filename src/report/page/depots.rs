//! What each depot needs, with its range.

use super::{AS_IF_TOGETHER, Pages, amount, counted, words};
use crate::document::block::{Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::document::chart::{Axis, Chart, Kind, Point, Series};
use crate::report::crew_days;
use crate::report::fitted::shortened_within;
use crate::rollup::Sums;

/// Rows of the table.
const ROWS: usize = 500;
/// Bars of the chart.
const BARS: usize = 20;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("depots", "Needs by depot");
    section.say(format!(
        "For \"{}\". totals.csv has every scenario and every group. {AS_IF_TOGETHER}",
        pages.name(pages.shown)
    ));
    for (told, is_open) in crew_days::told(pages.matter) {
        if is_open { section.flag(told) } else { section.say(told) }
    }
    let depots = pages.matter.run.totals.by_depot(pages.shown);
    if depots.len() > ROWS {
        section.flag(format!("The first {ROWS} of {} depots are in the table.", depots.len()));
    }
    section.push(needs(pages, BARS));
    section.push(table(pages));
    section
}

/// A depot's name; visits without one have none.
pub(in crate::report) fn name(depot: &str) -> &str {
    if depot.is_empty() { "(no depot)" } else { depot }
}

/// Product by depot, the greatest first.
pub(super) fn needs(pages: &Pages<'_>, most: usize) -> Chart {
    let shown = pages.bought_by(pages.shown);
    let depots = pages.matter.run.totals.by_depot(pages.shown);
    let mut drawn: Vec<(&String, &Sums)> = depots.iter().filter(|(_, sums)| sums.planned > 0).collect();
    drawn.sort_by(|a, b| b.1.product.total_cmp(&a.1.product));
    let all = drawn.len();
    drawn.truncate(most);
    let of_all = if all > drawn.len() { format!(" (the greatest {} of {all})", drawn.len()) } else { String::new() };
    let first = drawn.first().map_or(String::new(), |(depot, sums)| {
        format!(" {} needs most: {}.", shortened_within(name(depot), 48), words(shown, sums.product))
    });
    let point = |sums: &Sums| Point {
        x: 0.0,
        y: shown.value(sums.product),
        range: Some((shown.value(sums.product_low), shown.value(sums.product_high))),
    };
    Chart {
        title: format!("Product by depot ({}), first round, low to high{of_all}", shown.symbol),
        text: format!(
            "First round of product at {}, each with its range.{first}",
            counted(drawn.len() as u64, "depot", "depots")
        ),
        kind: Kind::Bars(drawn.iter().map(|(depot, _)| shortened_within(name(depot), 48)).collect()),
        across: Axis::new("Depot", ""),
        upward: Axis { from_zero: true, ..Axis::new("Product", shown.symbol) },
        series: vec![Series {
            name: "First round".to_owned(),
            points: drawn.iter().map(|(_, sums)| point(sums)).collect(),
        }],
    }
}

fn table(pages: &Pages<'_>) -> Table {
    let shown = pages.bought_by(pages.shown);
    let unit = shown.symbol;
    let columns = vec![
        Column::new("Depot"),
        Column::new("Visits planned"),
        Column::new("Held back"),
        Column::new("On assumed sizes"),
        Column::of("Water", pages.volume.symbol),
        Column::of("First round", unit),
        Column::of("Low", unit),
        Column::of("High", unit),
        Column::of("Repeat round", unit),
        Column::of("Losses", unit),
        Column::of("Total", unit),
        Column::of("Neutralizer", pages.mass.symbol),
    ];
    let mut table = Table::new("Needs by depot", columns);
    for (depot, sums) in pages.matter.run.totals.by_depot(pages.shown).iter().take(ROWS) {
        let held_back = if sums.held_back > 0 { Role::Flagged } else { Role::Body };
        let depot = if depot.is_empty() { Cell::text(name(depot)).with_role(Role::Flagged) } else { Cell::text(depot) };
        table.rows.push(vec![
            depot,
            Cell::count(sums.planned),
            Cell::count(sums.held_back).with_role(held_back),
            Cell::count(sums.resting.on_size),
            amount(pages.volume, sums.treated_volume_l),
            amount(shown, sums.product).with_role(Role::Total),
            amount(shown, sums.product_low),
            amount(shown, sums.product_high),
            amount(shown, sums.repeat),
            amount(shown, sums.loss),
            amount(shown, sums.product_in_all()).with_role(Role::Total),
            amount(pages.mass, sums.neutralizer_first_kg()),
        ]);
    }
    table
}
