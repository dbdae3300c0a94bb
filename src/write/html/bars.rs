//! Bars with their names above them, so that long names stay whole; a line across the end shows the range.

use maud::{Markup, html};

use super::axes::Scale;
use super::picture::{LOOKS, legend, svg, tenth};
use super::text::{cut, plain};
use crate::document::chart::{Axis, Chart, Point};
use crate::document::figure::number;

const NAME: f64 = 17.5;
const BAR: f64 = 11.0;
const GAP: f64 = 6.0;
/// Room for a letter of the figures behind a bar.
const LETTER: f64 = 6.4;

pub(super) fn drawn(name: &str, chart: &Chart, names: &[String], width: f64) -> Markup {
    let left = 1.0;
    let values = chart.series.iter().flat_map(|series| &series.points).flat_map(|point| [point.y, high(point)]);
    let axis = Axis { from_zero: true, by_factors: false, ..chart.upward.clone() };
    let points = chart.series.iter().flat_map(|series| &series.points);
    let longest = points.map(|point| figures(point).chars().count()).max().unwrap_or(0);
    let Some(scale) = Scale::new(&axis, values, left, width - 8.0 - longest as f64 * LETTER) else {
        return html! { p { "Nothing to draw." } };
    };
    let row = NAME + BAR * chart.series.len() as f64 + GAP;
    let mut height = names.len() as f64 * row + 4.0;
    let labels: Vec<&str> = chart.series.iter().map(|series| series.name.as_str()).collect();
    let (key, key_height) = if labels.len() > 1 { legend(&labels, height, width, false) } else { (html! {}, 0.0) };
    height += key_height;
    let inside = html! { g.bars {
        @for (at, label) in names.iter().enumerate() {
            @let top = at as f64 * row;
            text x=(left) y=(tenth(top + NAME - 4.0)) { (plain(&cut(label, (width / LETTER) as usize))) }
            @for (series, of) in chart.series.iter().enumerate() {
                @if let Some(point) = of.points.get(at).filter(|point| point.y.is_finite()) {
                    (bar(point, &scale, left, top + NAME + BAR * series as f64, series))
                } @else {
                    text.aside x=(left + 4.0) y=(tenth(top + NAME + BAR * (series as f64 + 1.0) - 2.0)) { "not known" }
                }
            }
        }
        (key)
    } };
    svg(name, (width, height), &chart.title, &chart.text, &inside)
}

fn high(point: &Point) -> f64 {
    point.range.map_or(point.y, |(_, high)| high)
}

/// The range of a point, where it has one that is not a single value.
fn range_of(point: &Point) -> Option<(f64, f64)> {
    point.range.filter(|(low, high)| high > low)
}

/// What is written behind a bar: `3,472 (3,384 to 3,588)`.
fn figures(point: &Point) -> String {
    let figure = |value: f64| number(value, if value.abs() < 10.0 { 1 } else { 0 });
    match range_of(point) {
        Some((low, high)) => format!("{} ({} to {})", figure(point.y), figure(low), figure(high)),
        None => figure(point.y),
    }
}

fn bar(point: &Point, scale: &Scale, left: f64, top: f64, series: usize) -> Markup {
    let end = scale.place(point.y);
    let middle = top + BAR / 2.0 - 1.0;
    html! {
        rect class={ "fill c" (series % LOOKS) } x=(left) y=(tenth(top)) width=(tenth((end - left).max(0.5))) height=(BAR - 2.0) {}
        @if let Some((low, high)) = range_of(point) {
            path.range d={ "M" (tenth(scale.place(low))) " " (tenth(middle)) "H" (tenth(scale.place(high)))
                "M" (tenth(scale.place(low))) " " (tenth(middle - 3.0)) "v6M" (tenth(scale.place(high))) " " (tenth(middle - 3.0)) "v6" } {}
        }
        text.figures x=(tenth(scale.place(high(point)).max(end) + 5.0)) y=(tenth(middle + 4.0)) { (figures(point)) }
    }
}
