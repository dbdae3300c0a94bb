//! Visits that take an outsized part of an order, in words for the Summary and the Orders sheet.

use super::Matter;
use super::fitted::{list_name, shortened_within, spot};
use super::show::Shown;
use crate::field::WellType;
use crate::kernel::requirement::Stock;
use crate::quantity::format::number;
use crate::rollup::outsized::Outsized;

/// How many are written out; the rest is counted.
const WRITTEN: usize = 10;

/// One sentence for each reason with the visits that it names, greatest first.
pub fn texts(matter: &Matter<'_>) -> Vec<String> {
    let outsized = matter.run.outsized(matter.plan.campaign);
    let written = outsized.len().min(WRITTEN);
    let by_share = |one: &&Outsized| one.share.is_some();
    let (shares, times): (Vec<&Outsized>, Vec<&Outsized>) = outsized[..written].iter().partition(by_share);
    let mut texts: Vec<String> =
        [(shares, "much of their depot's product"), (times, "many times the median of their type")]
            .into_iter()
            .filter_map(|(alike, what)| match &alike[..] {
                [] => None,
                [one] => Some(text(matter, one, usize::MAX)),
                _ => Some(together(matter, &alike, what)),
            })
            .collect();
    match outsized.len() - written {
        0 => {}
        1 => texts.push("1 more visit takes as much: sort the sheet Wells by product.".to_owned()),
        more => texts.push(format!("{more} more visits take as much: sort the sheet Wells by product.")),
    }
    texts
}

/// The greatest alone, with no name longer than so many letters.
pub fn first_in_brief(matter: &Matter<'_>, letters: usize) -> Option<String> {
    matter.run.outsized(matter.plan.campaign).first().map(|one| text(matter, one, letters))
}

/// One line for the sheet that is signed: the greatest, and where the others are named.
pub fn on_the_order(matter: &Matter<'_>) -> Option<String> {
    let outsized = matter.run.outsized(matter.plan.campaign);
    let greatest = text(matter, outsized.first()?, usize::MAX);
    Some(match outsized.len() - 1 {
        0 => greatest,
        1 => format!("{greatest} Another visit takes as much: Summary names it."),
        more => format!("{greatest} {more} more visits take as much: Summary names them."),
    })
}

/// Several visits that are named for the same reason, by list.
fn together(matter: &Matter<'_>, alike: &[&Outsized], what: &str) -> String {
    let mut lists: Vec<(String, Vec<String>)> = Vec::new();
    for one in alike {
        let list = list_name(&one.of.cell.origin);
        let said = format!(
            "{} ({}{}, {})",
            called(one, usize::MAX),
            spot(&one.of.cell),
            amounts(matter, one),
            reasons(one, usize::MAX)
        );
        match lists.iter_mut().find(|(known, _)| *known == list) {
            Some((_, visits)) => visits.push(said),
            None => lists.push((list, vec![said])),
        }
    }
    let lists = lists.into_iter().map(|(list, visits)| format!("in {list} {}", visits.join(", ")));
    format!(
        "Check before ordering: {} visits take {what}{}. Look at their cells first: {}.",
        alike.len(),
        under(matter),
        lists.collect::<Vec<_>>().join("; ")
    )
}

/// `, dug, 2.09 US gal for 2,500 US gal of water`.
fn amounts(matter: &Matter<'_>, outsized: &Outsized) -> String {
    let (product, water) = product_and_water(matter, outsized);
    format!(", {}, {product} for {water} of water", well_type(outsized))
}

fn product_and_water(matter: &Matter<'_>, outsized: &Outsized) -> (String, String) {
    let bought = match matter.plan.cases.first().map(|case| &case.stock.prepared.stock) {
        Some(Stock::Dry { .. }) => "kg",
        _ => "L",
    };
    let show = |symbol: &'static str, value: f64| {
        let shown = Shown::of(symbol, matter.plan.campaign.system);
        format!("{} {}", number(shown.value(value), 3), shown.symbol)
    };
    (show(bought, outsized.of.product), show("L", outsized.of.water_l))
}

fn well_type(outsized: &Outsized) -> &'static str {
    if outsized.of.well_type == WellType::SpringBox { "spring" } else { outsized.of.well_type.name() }
}

/// The well, and which visit where it is not the first.
fn called(outsized: &Outsized, letters: usize) -> String {
    let id = shortened_within(&outsized.of.id, letters);
    match &*outsized.of.visit {
        "1" => id,
        visit => format!("{id}, visit {}", shortened_within(visit, letters)),
    }
}

/// The visits are found by the first scenario; under another they take another amount.
fn under(matter: &Matter<'_>) -> String {
    match &matter.plan.cases[..] {
        [first, _, ..] => format!(" under \"{}\"", first.scenario.name),
        _ => String::new(),
    }
}

/// Why it is named.
fn reasons(outsized: &Outsized, letters: usize) -> String {
    let depot = match &*outsized.of.depot {
        "" => "all visits without a depot".to_owned(),
        depot => format!("depot {}", shortened_within(depot, letters)),
    };
    let mut reasons = Vec::new();
    reasons.extend(outsized.share.map(|share| format!("{:.0} % of the product for {depot}", share * 100.0)));
    reasons.extend(outsized.times.map(|times| format!("{times:.0} times the median of its type")));
    reasons.join(" and ")
}

/// A visit in words, with no name longer than so many letters.
fn text(matter: &Matter<'_>, outsized: &Outsized, letters: usize) -> String {
    let (product, water) = product_and_water(matter, outsized);
    format!(
        "Check before ordering: well {} ({}) takes {product} of product for {water} of water{}, {}. Look at {} of {} first.",
        called(outsized, letters),
        well_type(outsized),
        under(matter),
        reasons(outsized, letters),
        spot(&outsized.of.cell),
        shortened_within(&list_name(&outsized.of.cell.origin), letters)
    )
}
