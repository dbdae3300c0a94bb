//! Visits that take an outsized part of an order, in words for the Summary and the Orders sheet.

use super::Matter;
use super::fitted::shortened_within;
use super::show::Shown;
use crate::field::WellType;
use crate::kernel::requirement::Stock;
use crate::quantity::format::number;
use crate::rollup::outsized::Outsized;

/// How many are written out; the rest is counted.
const WRITTEN: usize = 10;

/// One sentence for each such visit, greatest first.
pub fn texts(matter: &Matter<'_>) -> Vec<String> {
    let outsized = matter.run.outsized(matter.plan.campaign);
    let mut texts: Vec<String> = outsized.iter().take(WRITTEN).map(|one| text(matter, one, usize::MAX)).collect();
    if let Some(more) = outsized.len().checked_sub(WRITTEN).filter(|more| *more > 0) {
        texts.push(format!("{more} more visits take as much: sort the table of treatments by product."));
    }
    texts
}

/// The greatest alone, with no name longer than so many letters.
pub fn first_in_brief(matter: &Matter<'_>, letters: usize) -> Option<String> {
    matter.run.outsized(matter.plan.campaign).first().map(|one| text(matter, one, letters))
}

/// A visit in words, with no name longer than so many letters.
fn text(matter: &Matter<'_>, outsized: &Outsized, letters: usize) -> String {
    let of = &outsized.of;
    let system = matter.plan.campaign.system;
    let bought = match matter.plan.cases.first().map(|case| &case.stock.prepared.stock) {
        Some(Stock::Dry { .. }) => "kg",
        _ => "L",
    };
    let show = |symbol: &'static str, value: f64| {
        let shown = Shown::of(symbol, system);
        format!("{} {}", number(shown.value(value), 3), shown.symbol)
    };
    let well_type = if of.well_type == WellType::SpringBox { "spring" } else { of.well_type.name() };
    let depot = match &*of.depot {
        "" => "all visits without a depot".to_owned(),
        depot => format!("depot {}", shortened_within(depot, letters)),
    };
    // The visits are found by the first scenario; under another they take another amount.
    let under = match &matter.plan.cases[..] {
        [first, _, ..] => format!(" under \"{}\"", first.scenario.name),
        _ => String::new(),
    };
    let mut reasons = Vec::new();
    reasons.extend(outsized.share.map(|share| format!("{:.0} % of the product for {depot}", share * 100.0)));
    reasons.extend(outsized.times.map(|times| format!("{times:.0} times the median of its type")));
    format!(
        "Check before ordering: well {} (visit {}, {well_type}) takes {} of product for {} of water{under}, {}. Check {} \
         first.",
        shortened_within(&of.id, letters),
        shortened_within(&of.visit, letters),
        show(bought, of.product),
        show("L", of.water_l),
        reasons.join(" and "),
        shortened_within(&of.cell, letters)
    )
}
