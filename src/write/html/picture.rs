//! What every picture has: a title and a description that a screen reader reads, a caption, and its figures as a table for
//! whoever wants the numbers.

use maud::{Markup, html};

use super::text::{cut, plain};
use crate::document::block::{Column, Table};
use crate::document::cell::Cell;
use crate::document::chart::{Chart, Kind, Point};

/// How many colors, marks and dashes there are before they come again.
pub(super) const LOOKS: usize = 7;

/// A picture in its frame.
pub(super) fn framed(name: &str, title: &str, text: &str, drawn: &Markup, figures: Option<&Markup>) -> Markup {
    html! {
        figure {
            figcaption id={ (name) "-caption" } { (plain(title)) }
            (drawn)
            p.small dir="auto" { (plain(text)) }
            @if let Some(figures) = figures { details.figures-of { summary { "The figures: " (plain(title)) } (figures) } }
        }
    }
}

/// The frame of a drawing: what it is called and what it says.
pub(super) fn svg(name: &str, size: (f64, f64), title: &str, text: &str, inside: &Markup) -> Markup {
    let (width, height) = (size.0.round(), size.1.round());
    html! {
        svg viewBox={ "0 0 " (width) " " (height) } width=(width) height=(height) role="img"
            aria-labelledby={ (name) "-title " (name) "-text" } {
            title id={ (name) "-title" } { (plain(title)) }
            desc id={ (name) "-text" } { (plain(text)) }
            (inside)
        }
    }
}

/// A place in a drawing, to a tenth: finer is not seen.
pub(super) fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0 + 0.0
}

/// A legend of what is drawn, in rows below a drawing; and how high it is.
pub(super) fn legend(names: &[&str], top: f64, width: f64, dashed: bool) -> (Markup, f64) {
    const LINE: f64 = 17.0;
    /// Of a letter at most, on the average, and of the mark before a name.
    const LETTER: f64 = 6.6;
    const MARK: f64 = 34.0;
    let names: Vec<String> = names.iter().map(|name| cut(name, ((width - 8.0 - MARK) / LETTER) as usize)).collect();
    let (mut x, mut y) = (8.0, top + 12.0);
    let mut places = Vec::with_capacity(names.len());
    for name in &names {
        let needs = MARK + name.chars().count() as f64 * LETTER;
        if x + needs > width && x > 8.0 {
            (x, y) = (8.0, y + LINE);
        }
        places.push((x, y));
        x += needs;
    }
    let markup = html! {
        @for (at, ((x, y), name)) in places.iter().zip(&names).enumerate() {
            @if dashed { (line_of(at, &format!("M{x} {}h20", y - 4.0))) (mark_of(at, x + 10.0, y - 4.0)) }
            @else { rect class={ "fill c" (at % LOOKS) } x=(x) y=(y - 9.0) width="12" height="10" {} }
            text x=(x + 25.0 - if dashed { 0.0 } else { 8.0 }) y=(y) { (plain(name)) }
        }
    };
    (markup, y + 8.0 - top)
}

/// A line of a series.
pub(super) fn line_of(series: usize, path: &str) -> Markup {
    html! { path class={ "line c" (series % LOOKS) " d" (series % LOOKS) } d=(path) {} }
}

/// The mark of a series at a place: its shape tells it apart where colors do not.
pub(super) fn mark_of(series: usize, x: f64, y: f64) -> Markup {
    let (x, y) = (tenth(x), tenth(y));
    let shape = match series % 4 {
        0 => "m-3.2 0a3.2 3.2 0 1 0 6.4 0a3.2 3.2 0 1 0-6.4 0z",
        1 => "m-3-3h6v6h-6z",
        2 => "m0-3.8l3.8 6.8h-7.6z",
        _ => "m0-4l4 4l-4 4l-4-4z",
    };
    html! { path class={ "mark c" (series % LOOKS) } d={ "M" (x) " " (y) (shape) } {} }
}

/// The figures of a chart as a table.
pub(super) fn figures_of(chart: &Chart) -> Table {
    let ranged = |points: &[Point]| points.iter().any(|point| point.range.is_some());
    let digits = |value: f64| {
        if value.abs() < 10.0 {
            2
        } else if value.abs() < 100.0 {
            1
        } else {
            0
        }
    };
    let number = |value: f64| Cell::number(value, digits(value));
    if let Kind::Bars(names) = &chart.kind {
        let mut columns = vec![Column::new("")];
        for series in &chart.series {
            columns.push(Column::of(&series.name, &chart.upward.unit));
            if ranged(&series.points) {
                columns.extend(["low", "high"].map(|side| Column::of(side, &chart.upward.unit)));
            }
        }
        columns[0].title = chart.across.heading();
        let mut table = Table::new(format!("{}: the figures", chart.title), columns);
        for (at, name) in names.iter().enumerate() {
            let mut row = vec![Cell::text(name)];
            for series in &chart.series {
                let point = series.points.get(at);
                row.push(number(point.map_or(f64::NAN, |point| point.y)));
                if ranged(&series.points) {
                    let range = point.and_then(|point| point.range);
                    row.extend(
                        [range.map(|(low, _)| low), range.map(|(_, high)| high)]
                            .map(|side| number(side.unwrap_or(f64::NAN))),
                    );
                }
            }
            table.rows.push(row);
        }
        return table;
    }
    let columns = vec![
        Column::new("Series"),
        Column::of(&chart.across.title, &chart.across.unit),
        Column::of(&chart.upward.title, &chart.upward.unit),
    ];
    let mut table = Table::new(format!("{}: the figures", chart.title), columns);
    for series in &chart.series {
        for point in &series.points {
            table.rows.push(vec![Cell::text(&series.name), number(point.x), number(point.y)]);
        }
    }
    table
}
