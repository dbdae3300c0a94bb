//! Lines and points over two axes.

use maud::{Markup, html};

use super::axes::Scale;
use super::picture::{legend, line_of, mark_of, svg, tenth};
use super::text::plain;
use crate::document::chart::{Chart, Kind, Point};

const LEFT: f64 = 44.0;
/// Half of the last number below stands there.
const RIGHT: f64 = 22.0;
const TOP: f64 = 22.0;
/// Room for the numbers and the title below.
const BELOW: f64 = 36.0;
/// Marks on one line at most: more cover it.
const MARKS: usize = 6;

pub(super) fn drawn(name: &str, chart: &Chart, width: f64) -> Markup {
    let plot = if width < 500.0 { 210.0 } else { 260.0 };
    let points = || chart.series.iter().flat_map(|series| &series.points);
    let across = Scale::new(&chart.across, points().map(|point| point.x), LEFT, width - RIGHT);
    let upward = Scale::new(&chart.upward, points().map(|point| point.y), TOP + plot, TOP);
    let (Some(across), Some(upward)) = (across, upward) else { return html! { p { "Nothing to draw." } } };
    let labels: Vec<&str> = chart.series.iter().map(|series| series.name.as_str()).collect();
    let (key, key_height) = legend(&labels, TOP + plot + BELOW, width, true);
    let bottom = TOP + plot;
    let inside = html! {
        text.axis-title x="2" y="12" { (plain(&chart.upward.heading())) }
        @for (value, text) in upward.ticks() {
            @let y = tenth(upward.place(value));
            line.grid x1=(LEFT) x2=(width - RIGHT) y1=(y) y2=(y) {}
            text.tick.end x=(LEFT - 5.0) y=(y + 4.0) { (text) }
        }
        @for (value, text) in across.ticks() {
            @let x = tenth(across.place(value));
            line.grid x1=(x) x2=(x) y1=(TOP) y2=(bottom) {}
            text.tick.middle x=(x) y=(bottom + 14.0) { (text) }
        }
        text.axis-title.end x=(width - RIGHT) y=(bottom + 30.0) { (plain(&chart.across.heading())) }
        @for (at, series) in chart.series.iter().enumerate() {
            @if chart.kind == Kind::Lines { (line_of(at, &path(&series.points, &across, &upward))) }
            @for point in marked(&series.points, &chart.kind, at) {
                (mark_of(at, across.place(point.x), upward.place(point.y)))
            }
        }
        (key)
    };
    svg(name, (width, bottom + BELOW + key_height), &chart.title, &chart.text, &inside)
}

fn usable(points: &[Point]) -> impl Iterator<Item = &Point> {
    points.iter().filter(|point| point.x.is_finite() && point.y.is_finite())
}

fn path(points: &[Point], across: &Scale, upward: &Scale) -> String {
    let mut path = String::new();
    for point in usable(points) {
        path.push(if path.is_empty() { 'M' } else { 'L' });
        path.push_str(&format!("{} {}", tenth(across.place(point.x)), tenth(upward.place(point.y))));
    }
    path
}

/// The points that get a mark: all, or of a line some, not those of its neighbors.
fn marked<'a>(points: &'a [Point], kind: &Kind, series: usize) -> Vec<&'a Point> {
    let points: Vec<&Point> = usable(points).collect();
    if *kind == Kind::Points || points.len() <= MARKS {
        return points;
    }
    let step = points.len().div_ceil(MARKS);
    points.into_iter().skip(series % step).step_by(step).collect()
}
