//! Amounts by type of well.

use super::{Pages, amount, counted};
use crate::document::block::{Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::document::chart::{Axis, Chart, Kind, Point, Series};
use crate::field::WellType;
use crate::report::quality::percent;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("types", "Amounts by type of well");
    let shown = pages.bought_by(pages.shown);
    section.say(format!("For \"{}\", first round.", pages.name(pages.shown)));
    let name = |kind: Option<WellType>| kind.map_or("no type", WellType::name).replace('_', " ");
    let types: Vec<_> = pages.matter.run.types.occurring().collect();
    let all: f64 = types.iter().map(|(_, sums)| sums.product[pages.shown]).sum();
    let visits: u64 = types.iter().map(|(_, sums)| sums.planned).sum();
    let points: Vec<(String, f64, f64)> = types
        .iter()
        .map(|(kind, sums)| {
            (name(*kind), percent(sums.planned as f64, visits as f64), percent(sums.product[pages.shown], all))
        })
        .collect();
    let greatest = points.iter().max_by(|a, b| a.2.total_cmp(&b.2));
    let series = |name: &str, get: &dyn Fn(&(String, f64, f64)) -> f64| Series {
        name: name.to_owned(),
        points: points.iter().map(|point| Point::at(0.0, get(point))).collect(),
    };
    section.push(Chart {
        title: "Share of visits and share of product, by type (%)".to_owned(),
        text: format!(
            "Shares of {} over types of wells.{}",
            counted(visits, "visit", "visits"),
            greatest.map_or(String::new(), |(name, visits, product)| format!(
                " Most product goes to type {name}: {product:.0} % for {visits:.0} % of the visits."
            ))
        ),
        kind: Kind::Bars(points.iter().map(|(name, ..)| name.clone()).collect()),
        across: Axis::new("Type", ""),
        upward: Axis { from_zero: true, ..Axis::new("Share", "%") },
        series: vec![series("Visits planned", &|point| point.1), series("Product", &|point| point.2)],
    });
    let columns = vec![
        Column::new("Type"),
        Column::new("Visits planned"),
        Column::new("Held back"),
        Column::of("Water", pages.volume.symbol),
        Column::of("Product", shown.symbol),
        Column::of("Product a visit", shown.symbol),
        Column::of("Share of product", "%"),
    ];
    let mut table = Table::new("Amounts by type of well", columns);
    for (kind, sums) in types {
        let product = sums.product[pages.shown];
        let held_back = if sums.held_back > 0 { Role::Flagged } else { Role::Body };
        if sums.planned == 0 {
            // A zero would read as "nothing is needed".
            let none = Cell::text("nothing planned").with_role(Role::Flagged);
            table.rows.push(vec![
                Cell::text(name(kind)),
                Cell::count(0),
                Cell::count(sums.held_back).with_role(held_back),
                none,
            ]);
            continue;
        }
        let each = product / sums.planned as f64;
        table.rows.push(vec![
            Cell::text(name(kind)),
            Cell::count(sums.planned),
            Cell::count(sums.held_back).with_role(held_back),
            amount(pages.volume, sums.treated_volume_l[pages.shown]),
            amount(shown, product).with_role(Role::Total),
            amount(shown, each),
            Cell::number(percent(product, all), 0),
        ]);
    }
    section.push(table);
    section
}
