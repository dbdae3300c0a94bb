//! What the planned visits rest on that nobody gave, in words: sizes with their share of the water; apart from them the type of well
//! and the place of the flush water, which move no water.

use super::Matter;
use super::page::counted;
use crate::document::figure;
use crate::quantity::format::number;

/// What is assumed under a scenario, each as it is; nothing where nothing is.
pub fn text(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let sums = matter.run.totals.overall(scenario);
    let resting = &sums.resting;
    let visits = |count: u64| counted(count, "visit", "visits");
    let mut said = Vec::new();
    if resting.on_size > 0 {
        let share = 100.0 * resting.on_size_volume_l / sums.treated_volume_l;
        said.push(format!(
            "{} {} on assumed depths, levels or diameters: {} % of the water to be treated.",
            visits(resting.on_size),
            if resting.on_size == 1 { "rests" } else { "rest" },
            number(share, 2)
        ));
    }
    let mut lacking = Vec::new();
    if resting.on_route > 0 {
        lacking.push(format!(
            "no place for the flush water is given for {} (a stream is counted)",
            visits(resting.on_route)
        ));
    }
    if resting.on_type > 0 {
        let told = "(told from width and depth)";
        lacking.push(match lacking.is_empty() {
            true => format!("no type of well is given for {} {told}", visits(resting.on_type)),
            false => format!("no type of well for {} {told}", figure::number(resting.on_type as f64, 0)),
        });
    }
    if !lacking.is_empty() {
        let text = lacking.join(", ");
        said.push(format!("N{}; that moves none of the water.", &text[1..]));
    }
    (!said.is_empty()).then(|| said.join(" "))
}
