//! Counts of packages that somebody settled on, in words for whoever signs the order.

use super::Matter;
use crate::rollup::orders::OrderLine;

/// How many are written out; the rest is counted.
const WRITTEN: usize = 6;

/// Which orders hold counts that somebody settled on; nothing where none does.
pub fn text(matter: &Matter<'_>) -> Option<String> {
    let settled: Vec<&OrderLine> = matter.orders.lines.iter().filter(|line| line.is_settled).collect();
    let name = |line: &OrderLine| {
        let depot = if line.depot.is_empty() { "visits without a depot" } else { &line.depot };
        let scenario = matter.plan.cases.get(line.scenario).map_or("", |case| case.scenario.name.as_str());
        format!("{} for {depot} under \"{scenario}\"", line.item_name())
    };
    let mut names: Vec<String> = settled.iter().take(WRITTEN).map(|line| name(line)).collect();
    if let Some(more) = settled.len().checked_sub(WRITTEN).filter(|more| *more > 0) {
        names.push(format!("{more} more"));
    }
    (!settled.is_empty()).then(|| {
        format!("Counts of packages that somebody settled on, not chosen at least cost: {}.", names.join("; "))
    })
}
