//! Places on a plain map: no tiles, a scale; groups by shape and color with their names outside, states by how the shape is
//! filled, so that nothing is told by color alone.

use maud::{Markup, html};

use super::map_key::{self, Entry};
use super::map_mark::{look, shape};
use super::picture::{svg, tenth};
use super::text::plain;
use crate::document::chart::{Map, Place};
use crate::document::figure::number;

/// Between the frame and the outermost places.
const MARGIN: f64 = 22.0;
const TALLEST: f64 = 560.0;
/// Low maps leave the names room.
const LOWEST: f64 = 150.0;
/// Room for the names beside the frame; on a drawing narrower than that they all stand below it.
const NAMES: f64 = 190.0;
const NARROWER: f64 = 500.0;
/// Room for the name of a state.
const STATE: f64 = 165.0;
/// Kilometers in one degree of latitude: a quarter of the earth's meridian is 10,002 km (WGS 84).
const KM_IN_A_DEGREE: f64 = 10_001.966 / 90.0;
/// The international mile, which is exact by definition.
const KM_IN_A_MILE: f64 = 1.609_344;

/// Degrees to places of the drawing: as many units to a kilometer northward as eastward at the map's middle.
struct Projection {
    west: f64,
    north: f64,
    units_in_a_km: f64,
    km_east: f64,
    left: f64,
    top: f64,
}

impl Projection {
    fn place(&self, place: &Place) -> (f64, f64) {
        let east = (place.longitude - self.west) * self.km_east * self.units_in_a_km;
        let south = (self.north - place.latitude) * KM_IN_A_DEGREE * self.units_in_a_km;
        (tenth(self.left + east), tenth(self.top + south))
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
    let frame = if width < NARROWER { width } else { width - NAMES };
    let units_in_a_km = ((frame - 2.0 * MARGIN) / across).min((TALLEST - 2.0 * MARGIN) / upward);
    let plot = (upward * units_in_a_km + 2.0 * MARGIN).max(LOWEST);
    // In the middle of the frame.
    let (left, top) = ((frame - across * units_in_a_km) / 2.0, (plot - upward * units_in_a_km) / 2.0);
    let projection = Projection { west, north, units_in_a_km, km_east, left, top };
    let (bar, bar_text) = scale_bar(units_in_a_km, frame, map.miles);
    let entries: Vec<Entry<'_>> = map
        .groups
        .iter()
        .enumerate()
        .filter_map(|(group, name)| Some(Entry { group, name, well: middle(map, group, &projection)? }))
        .collect();
    let (beside, below) = if frame < width { map_key::beside(entries, frame, plot) } else { (html! {}, entries) };
    let states_top = plot + 38.0;
    let states: Vec<usize> =
        (0..map.states.len()).filter(|state| map.places.iter().any(|place| place.state == *state)).collect();
    let in_row = ((width / STATE) as usize).max(1);
    let state_at = |at: usize| (14.0 + (at % in_row) as f64 * STATE, states_top + (at / in_row) as f64 * 17.0);
    let below_top = state_at(states.len().saturating_sub(1)).1 + 12.0;
    let (more, height) = map_key::below(&below, below_top, width);
    let inside = html! {
        rect.map-frame x="1" y="1" width=(tenth(frame - 2.0)) height=(tenth(plot - 2.0)) {}
        (beside)
        @for state in 0..map.states.len() { @for group in 0..map.groups.len() {
            @let path = places(map, group, state, &projection);
            @if !path.is_empty() { path class=(look(group, state)) d=(path) {} }
        } }
        path.axis d={ "M8 " (tenth(plot + 8.0)) "v6h" (tenth(bar)) "v-6" } {}
        text x=(tenth(bar + 16.0)) y=(tenth(plot + 15.0)) { (bar_text) }
        text.end x=(tenth(frame - 2.0)) y=(tenth(plot + 15.0)) { "north is up" }
        @for (at, state) in states.iter().enumerate() {
            @let (x, y) = state_at(at);
            path class={ (look(0, *state)) " key" } d={ "M" (x) " " (tenth(y - 4.0)) (shape(0, *state)) } {}
            text x=(x + 12.0) y=(tenth(y)) { (plain(&map.states[*state])) }
        }
        (more)
    };
    svg(name, (width, below_top + height), &map.title, &map.text, &inside)
}

fn places(map: &Map, group: usize, state: usize, projection: &Projection) -> String {
    let drawn = shape(group, state);
    let mut path = String::new();
    for place in map.places.iter().filter(|place| place.group == group && place.state == state) {
        let (x, y) = projection.place(place);
        path.push_str(&format!("M{x} {y}{drawn}"));
    }
    path
}

/// The place of a group that lies nearest to its middle; half of its places lie on either side of that.
fn middle(map: &Map, group: usize, projection: &Projection) -> Option<(f64, f64)> {
    let places: Vec<(f64, f64)> =
        map.places.iter().filter(|place| place.group == group).map(|place| projection.place(place)).collect();
    let (mut across, mut down): (Vec<f64>, Vec<f64>) = places.iter().copied().unzip();
    across.sort_by(f64::total_cmp);
    down.sort_by(f64::total_cmp);
    let (x, y) = (*across.get(across.len() / 2)?, *down.get(down.len() / 2)?);
    let far = |place: &(f64, f64)| (place.0 - x).hypot(place.1 - y);
    places.into_iter().min_by(|a, b| far(a).total_cmp(&far(b)))
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
