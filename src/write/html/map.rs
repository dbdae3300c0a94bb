//! Places on a plain map: no tiles, a scale, groups by color and name, states by shape.

use maud::{Markup, html};

use super::picture::{LOOKS, legend, svg, tenth};
use super::text::plain;
use crate::document::chart::{Map, Place};
use crate::document::figure::number;

const MARGIN: f64 = 26.0;
const TALLEST: f64 = 560.0;
/// Kilometers in one degree of latitude: a quarter of the earth's meridian is 10,002 km (WGS 84).
const KM_IN_A_DEGREE: f64 = 10_001.966 / 90.0;
/// International mile.
const KM_IN_A_MILE: f64 = 1.609_344;
/// Groups that are named on the map; more names cover it.
const NAMED: usize = 24;

/// Degrees to places of the drawing: as many units to a kilometer northward as eastward at the map's middle.
struct Projection {
    west: f64,
    north: f64,
    units_in_a_km: f64,
    km_east: f64,
}

impl Projection {
    fn place(&self, place: &Place) -> (f64, f64) {
        let east = (place.longitude - self.west) * self.km_east * self.units_in_a_km;
        let south = (self.north - place.latitude) * KM_IN_A_DEGREE * self.units_in_a_km;
        (tenth(MARGIN + east), tenth(MARGIN + south))
    }
}

pub(super) fn drawn(name: &str, map: &Map, width: f64) -> Markup {
    let bounds = map.places.iter().fold(None, |bounds: Option<[f64; 4]>, place| {
        let [south, north, west, east] =
            bounds.unwrap_or([place.latitude, place.latitude, place.longitude, place.longitude]);
        Some([
            south.min(place.latitude),
            north.max(place.latitude),
            west.min(place.longitude),
            east.max(place.longitude),
        ])
    });
    let Some([south, north, west, east]) = bounds else { return html! { p { "No place is known." } } };
    let km_east = KM_IN_A_DEGREE * ((south + north) / 2.0).to_radians().cos().max(0.01);
    // A single place is drawn as if it had a kilometer around it.
    let (across, upward) = (((east - west) * km_east).max(1.0), ((north - south) * KM_IN_A_DEGREE).max(1.0));
    let units_in_a_km = ((width - 2.0 * MARGIN) / across).min((TALLEST - 2.0 * MARGIN) / upward);
    let drawn_width = (across * units_in_a_km + 2.0 * MARGIN).max(360.0);
    let plot = upward * units_in_a_km + 2.0 * MARGIN;
    let projection = Projection { west, north, units_in_a_km, km_east };
    let (bar, bar_text) = scale_bar(units_in_a_km, drawn_width, map.miles);
    let groups: Vec<&str> = map.groups.iter().take(NAMED).map(String::as_str).collect();
    let (key, key_height) = legend(&groups, plot + 20.0, drawn_width, false);
    let key_top = plot + 36.0 + key_height;
    let inside = html! {
        rect.map-frame x="1" y="1" width=(tenth(drawn_width - 2.0)) height=(tenth(plot - 2.0)) {}
        @for state in 0..map.states.len() { @for group in 0..map.groups.len() {
            @let path = places(map, group, state, &projection);
            @if !path.is_empty() { path class={ "site t" (state % 3) " c" (group % LOOKS) } d=(path) {} }
        } }
        @for (name, x, y) in names(map, &projection) {
            text.place-name.middle x=(x) y=(tenth(y)) { (plain(name)) }
        }
        path.axis d={ "M" (MARGIN) " " (tenth(plot + 8.0)) "v6h" (tenth(bar)) "v-6" } {}
        text x=(tenth(MARGIN + bar + 8.0)) y=(tenth(plot + 15.0)) { (bar_text) }
        text.end x=(tenth(drawn_width - 8.0)) y=(tenth(plot + 15.0)) { "north is up" }
        (key)
        @for (at, state) in map.states.iter().enumerate() {
            @let y = tenth(key_top + at as f64 * 17.0);
            path class={ "site t" (at % 3) " key" } d={ "M" (MARGIN) " " (y - 4.0) (shape(at)) } {}
            text x=(MARGIN + 12.0) y=(y) { (plain(state)) }
        }
    };
    svg(name, (drawn_width, key_top + map.states.len() as f64 * 17.0), &map.title, &map.text, &inside)
}

/// The shape of a state, drawn from its middle.
fn shape(state: usize) -> &'static str {
    match state % 3 {
        0 => "h0",
        1 => "m0-4.5l4.5 4.5l-4.5 4.5l-4.5-4.5z",
        _ => "m-3-3l6 6m0-6l-6 6",
    }
}

fn places(map: &Map, group: usize, state: usize, projection: &Projection) -> String {
    let mut path = String::new();
    for place in map.places.iter().filter(|place| place.group == group && place.state == state) {
        let (x, y) = projection.place(place);
        path.push_str(&format!("M{x} {y}{}", shape(state)));
    }
    path
}

/// Names of groups beside their places; one that would cover another moves down.
fn names<'a>(map: &'a Map, projection: &Projection) -> Vec<(&'a str, f64, f64)> {
    const HEIGHT: f64 = 15.0;
    let mut names: Vec<(&str, f64, f64)> = Vec::new();
    for (group, name) in map.groups.iter().enumerate().take(NAMED) {
        let Some((x, mut y)) = middle(map, group, projection) else { continue };
        let reach = |name: &str| name.chars().count() as f64 * 3.6;
        let covers = |y: f64| {
            names
                .iter()
                .any(|(other, at, down)| (at - x).abs() < reach(other) + reach(name) && (down - y).abs() < HEIGHT)
        };
        while covers(y) {
            y += HEIGHT;
        }
        names.push((name, x, y));
    }
    names
}

/// The middle of a group: half of its places lie on either side.
fn middle(map: &Map, group: usize, projection: &Projection) -> Option<(f64, f64)> {
    let (mut across, mut down): (Vec<f64>, Vec<f64>) =
        map.places.iter().filter(|place| place.group == group).map(|place| projection.place(place)).unzip();
    across.sort_by(f64::total_cmp);
    down.sort_by(f64::total_cmp);
    Some((*across.get(across.len() / 2)?, *down.get(down.len() / 2)?))
}

/// A round distance of about a fifth of the width: its length in the drawing, and its text.
fn scale_bar(units_in_a_km: f64, width: f64, miles: bool) -> (f64, String) {
    let unit_km = if miles { KM_IN_A_MILE } else { 1.0 };
    let wanted = width / 5.0 / units_in_a_km / unit_km;
    let decade = 10_f64.powf(wanted.log10().floor());
    let distance = [5.0, 2.0, 1.0].into_iter().map(|digit| digit * decade).find(|distance| *distance <= wanted);
    let distance = distance.unwrap_or(decade);
    let digits = (-distance.log10().floor()).max(0.0) as usize;
    (distance * unit_km * units_in_a_km, format!("{} {}", number(distance, digits), if miles { "mi" } else { "km" }))
}
