//! What each choice costs, drawn; scenarios that come to the same share a bar.

use super::choice::{self, Offer};
use super::names::{LETTERS, named};
use super::{Pages, counted, money};
use crate::document::chart::{Axis, Chart, Kind, Point, Series};
use crate::report::fitted::shortened;

/// Letters of the names beside one bar.
const NAMES: usize = 58;

/// Cost of the order under the scenarios that can be chosen, the cheapest first; where none can, under those that are priced.
/// Nothing where no order is priced whole: an empty picture says less than [`unpriced`].
pub(super) fn drawn(pages: &Pages<'_>, most: usize) -> Option<Chart> {
    let open = choice::by_cost(&pages.offers);
    let shown = if open.is_empty() { pages.offers.iter().filter(|offer| offer.cost.is_some()).collect() } else { open };
    let mut bars: Vec<Vec<&Offer>> = Vec::new();
    for offer in shown {
        match bars.iter_mut().find(|bar| bar.first().is_some_and(|first| alike(pages, first, offer))) {
            Some(bar) => bar.push(offer),
            None => bars.push(vec![offer]),
        }
    }
    bars.truncate(most);
    let first = *bars.first()?.first()?;
    let point =
        |offer: &Offer| Point { x: 0.0, y: offer.cost.unwrap_or(f64::NAN), range: offer.cost_low.zip(offer.cost_high) };
    let label = |bar: &Vec<&Offer>| {
        let names: Vec<String> = bar.iter().map(|offer| named(pages, offer.scenario)).collect();
        match names.as_slice() {
            [one, others @ ..] if others.len() > 1 => shortened(&format!("{one} = {} others", others.len()), NAMES),
            names => shortened(&names.join(" = "), NAMES),
        }
    };
    let mut text = format!(
        "Cost of {}, each with its range. The cheapest is \"{}\" at {}.",
        counted(bars.iter().map(Vec::len).sum::<usize>() as u64, "scenario", "scenarios"),
        named(pages, first.scenario),
        money(first.cost, pages.currency())
    );
    if bars.iter().any(|bar| bar.len() > 1) {
        text += " Scenarios that come to the same share a bar.";
    }
    Some(Chart {
        title: format!("Cost of the order ({}), low to high", pages.currency()),
        text,
        kind: Kind::Bars(bars.iter().map(label).collect()),
        across: Axis::new("Scenario", ""),
        upward: Axis { from_zero: true, ..Axis::new("Cost of the order", pages.currency()) },
        series: vec![Series {
            name: "Cost".to_owned(),
            points: bars.iter().filter_map(|bar| bar.first()).map(|offer| point(offer)).collect(),
        }],
    })
}

/// Why no cost is drawn, in a line.
pub(super) fn unpriced(pages: &Pages<'_>) -> String {
    let so_far = pages.matter.orders.priced(pages.shown);
    let items: Vec<String> = so_far.not_priced.iter().take(3).map(|item| shortened(item, LETTERS)).collect();
    let more = so_far.not_priced.len().saturating_sub(items.len());
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!("No cost is drawn, because no order is priced whole. Without a price: {}{more}.", items.join(", "))
}

/// Whether two scenarios buy the same amounts of the same things at the same cost.
fn alike(pages: &Pages<'_>, one: &Offer, other: &Offer) -> bool {
    let (run, cases) = (pages.matter.run, &pages.matter.plan.cases);
    let amounts = |offer: &Offer| {
        let sums = run.totals.overall(offer.scenario);
        (sums.product, sums.product_in_all(), sums.neutralizer_first_kg(), sums.flush_volume_l)
    };
    cases[one.scenario].scenario.product == cases[other.scenario].scenario.product
        && (one.cost, one.cost_low, one.cost_high) == (other.cost, other.cost_low, other.cost_high)
        && amounts(one) == amounts(other)
}
