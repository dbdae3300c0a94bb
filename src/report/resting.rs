//! What the planned visits rest on that nobody gave, in words: sizes with their share of the water; apart from them the type of well
//! and the place of the flush water, which move no water.

use super::Matter;
use super::page::counted;
use crate::document::figure;
use crate::quantity::format::number;
use crate::rollup::resting::Resting;

/// What is assumed under a scenario, each as it is; nothing where nothing is.
pub fn text(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let sums = matter.run.totals.overall(scenario);
    let resting = &sums.resting;
    let mut said = Vec::new();
    if let Some(size) = on_size(resting) {
        let share = 100.0 * resting.on_size_volume_l / sums.treated_volume_l;
        said.push(format!("{size}: {} % of the water to be treated.", number(share, 2)));
    }
    let mut lacking = Vec::new();
    if resting.on_route > 0 {
        lacking.push(on_route(resting));
    }
    if resting.on_type > 0 {
        lacking.push(match lacking.is_empty() {
            true => on_type(resting),
            false => format!("no type of well for {} {TOLD}", figure::number(resting.on_type as f64, 0)),
        });
    }
    if !lacking.is_empty() {
        let text = lacking.join(", ");
        said.push(format!("N{}; that moves none of the water.", &text[1..]));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// The same of lists that are only checked, a line each.
pub fn lines(resting: &Resting) -> Vec<String> {
    let lacking = [(resting.on_route, on_route(resting)), (resting.on_type, on_type(resting))];
    let lacking = lacking.into_iter().filter(|(count, _)| *count > 0).map(|(_, text)| format!("N{}.", &text[1..]));
    on_size(resting).map(|text| format!("{text}.")).into_iter().chain(lacking).collect()
}

const TOLD: &str = "(told from width and depth)";

fn visits(count: u64) -> String {
    counted(count, "visit", "visits")
}

fn on_size(resting: &Resting) -> Option<String> {
    let rest = if resting.on_size == 1 { "rests" } else { "rest" };
    (resting.on_size > 0).then(|| format!("{} {rest} on assumed depths, levels or diameters", visits(resting.on_size)))
}

fn on_route(resting: &Resting) -> String {
    format!("no place for the flush water is given for {} (a stream is counted)", visits(resting.on_route))
}

fn on_type(resting: &Resting) -> String {
    format!("no type of well is given for {} {TOLD}", visits(resting.on_type))
}
