//! What aging leaves of each product: share of the label's strength over time, at two temperatures of storage.

use super::Pages;
use crate::document::block::{Block, Section};
use crate::document::chart::{Axis, Chart, Kind, Point, Series};

/// Temperatures of storage, C: a cool depot and a hot one. Common practice, no source.
const TEMPERATURES: [f64; 2] = [20.0, 30.0];
/// Days that are drawn.
const DAYS: f64 = 365.0;
/// Least share that is drawn, percent.
const LEAST: u32 = 20;
/// Products that are drawn; more lines cannot be told apart.
const PRODUCTS: usize = 7;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("strength", "Strength remaining over time");
    section.say(
        "How much of the label's strength remains after a time in store, at the typical pace of aging. The pace differs \
         between stocks by half and more: test before use.",
    );
    let campaign = pages.matter.plan.campaign;
    let used: Vec<_> = campaign
        .products
        .iter()
        .enumerate()
        .filter(|(index, _)| pages.matter.plan.cases.iter().any(|case| case.scenario.product == *index))
        .map(|(_, product)| product)
        .collect();
    let lawless: Vec<&str> = used
        .iter()
        .filter(|product| product.days_until(0.9, TEMPERATURES[0]).is_none())
        .map(|product| product.name.as_str())
        .collect();
    let chart = |celsius: f64| {
        let series: Vec<Series> = used
            .iter()
            .filter(|product| !lawless.contains(&product.name.as_str()))
            .take(PRODUCTS)
            .map(|product| {
                let mut points = vec![Point::at(0.0, 100.0)];
                for percent in (LEAST..100).rev() {
                    let Some(days) = product.days_until(f64::from(percent) / 100.0, celsius) else { continue };
                    if days.mid > DAYS {
                        break;
                    }
                    points.push(Point::at(days.mid, f64::from(percent)));
                }
                Series { name: product.name.clone(), points }
            })
            .collect();
        let ends: Vec<String> = series
            .iter()
            .filter_map(|series| {
                let end = series.points.last()?;
                Some(format!("{}: {:.0} % after {:.0} days", series.name, end.y, end.x))
            })
            .collect();
        Chart {
            title: format!("Stored at {celsius} C"),
            text: format!("Share of the label's strength that is left, stored at {celsius} C. {}.", ends.join("; ")),
            kind: Kind::Lines,
            across: Axis { from_zero: true, ..Axis::new("Time in store", "days") },
            upward: Axis { from_zero: true, ..Axis::new("Strength remaining", "% of label") },
            series,
        }
    };
    if lawless.len() < used.len() {
        section.push(Block::Beside(TEMPERATURES.map(|celsius| chart(celsius).into()).to_vec()));
    }
    if used.len() - lawless.len() > PRODUCTS {
        section.remark(format!("The first {PRODUCTS} of {} products are drawn.", used.len() - lawless.len()));
    }
    if !lawless.is_empty() {
        section.say(format!("No law of aging holds for {}: have it tested.", lawless.join(", ")));
    }
    section
}
