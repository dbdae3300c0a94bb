//! The Storage sheet: what aging leaves of each product: the share of its label by days in store, and how long it keeps four
//! fifths.

use super::Matter;
use super::defaults::aged;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::cell_chart::{CellChart, CellSeries, Cells, Drawn};
use crate::document::chart::Axis;
use crate::field::rules::UnitSystem;
use crate::quantity::basis::celsius_of;
use crate::quantity::format::number;
use crate::quantity::unit;
use crate::scenario::product::Product;

const SHEET: &str = "Storage";
/// Storage temperatures (C) for which the shelf life of each liquid is shown.
pub const SHELF_TEMPERATURES: [f64; 5] = [10.0, 20.0, 25.0, 30.0, 35.0];
/// Share of the label that a stock is held to have kept.
pub const SHELF_SHARE: f64 = 0.8;
/// The temperature of the drawn store, C: a warm depot. Common practice, no source.
const DRAWN_TEMPERATURE: f64 = 30.0;
/// Days in store that are drawn.
const DAYS: [f64; 13] = [0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0, 120.0, 150.0, 180.0, 240.0, 300.0, 360.0];
/// Products that are drawn; more lines cannot be told apart.
const MOST_PRODUCTS: usize = 7;
/// Rows that the chart covers.
const CHART_ROWS: u32 = 20;

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Storage: what aging leaves of each product");
    sheet.note(
        "Values of the typical pace, which do not follow a change on Inputs. The pace differs between stocks by half and more: \
         test before use.",
    );
    super::assumptions::products_in_words(matter).into_iter().for_each(|text| sheet.wide(text, Role::Body));
    shelf_life(matter, &mut sheet);
    left(matter, &mut sheet);
    sheet.layout.widths = vec![30.0, 22.0];
    sheet.layout.widths.extend(std::iter::repeat_n(12.0, SHELF_TEMPERATURES.len()));
    sheet.layout.frozen_rows = 1;
    sheet
}

/// How long each product keeps four fifths of its label, by temperature: the analyst's shelf question.
fn shelf_life(matter: &Matter<'_>, sheet: &mut Sheet) {
    let campaign = matter.plan.campaign;
    sheet.gap();
    sheet.wide(
        format!(
            "Days until {:.0} % of the label is left (typical; fast to slow in brackets, equations A4 and A5)",
            SHELF_SHARE * 100.0
        ),
        Role::Total,
    );
    let heads = ["Product", "Label"].map(str::to_owned).into_iter();
    let temperatures = SHELF_TEMPERATURES.map(|celsius| format!("stored at {}", degrees(celsius, matter)));
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

fn degrees(celsius: f64, matter: &Matter<'_>) -> String {
    match (matter.plan.campaign.system, unit::by_symbol("C"), unit::by_symbol("F")) {
        (UnitSystem::Us, Some(from), Some(to)) => format!("{:.0} °F", to.from_si(from.to_si(celsius))),
        _ => format!("{celsius} °C"),
    }
}

/// The share left by days in store: the chart, and the figures that it draws.
fn left(matter: &Matter<'_>, sheet: &mut Sheet) {
    let plan = matter.plan;
    let is_used = |at: usize| plan.cases.iter().any(|case| case.scenario.product == at);
    let used: Vec<&Product> = plan
        .campaign
        .products
        .iter()
        .enumerate()
        .filter(|(at, product)| is_used(*at) && product.days_until(SHELF_SHARE, DRAWN_TEMPERATURE).is_some())
        .map(|(_, product)| product)
        .take(MOST_PRODUCTS)
        .collect();
    if used.is_empty() {
        return;
    }
    sheet.gap();
    let place = (sheet.rows.len() as u32, 0);
    (0..=CHART_ROWS).for_each(|_| sheet.gap());
    let title = format!("Strength remaining, % of label, stored at {}", degrees(DRAWN_TEMPERATURE, matter));
    sheet.wide(format!("{title} (%)"), Role::Total);
    let heads = std::iter::once("Days in store".to_owned());
    sheet.push(heads.chain(used.iter().map(|product| product.name.clone())).map(Cell::head).collect());
    let first = sheet.rows.len() as u32;
    let share = |product: &Product, days: f64| {
        aged(product, days, celsius_of(DRAWN_TEMPERATURE)).map_or(f64::NAN, |stock| 100.0 * stock.prepared.share_left)
    };
    for days in DAYS {
        let mut row = vec![Cell::number(days, 0)];
        row.extend(used.iter().map(|product| Cell::number(share(product, days), 1)));
        sheet.push(row);
    }
    let rows = (first, sheet.rows.len() as u32 - 1);
    let ends: Vec<String> = used
        .iter()
        .map(|product| format!("{}: {} % after 90 days", product.name, number(share(product, 90.0), 2)))
        .collect();
    let series = |(at, product): (usize, &&Product)| CellSeries {
        name: product.name.clone(),
        values: Cells::column(SHEET, at as u16 + 1, rows),
        range: None,
    };
    sheet.layout.charts.push(CellChart {
        title: title.clone(),
        text: format!("{title}, in percent over days in store. {}.", ends.join("; ")),
        drawn: Drawn::Lines,
        names: Cells::column(SHEET, 0, rows),
        across: Axis::new("Time in store", "days"),
        upward: Axis { from_zero: true, ..Axis::new("Strength remaining", "% of label") },
        series: used.iter().enumerate().map(series).collect(),
        place,
        size: (7, CHART_ROWS),
    });
}
