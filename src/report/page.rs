//! The report as one page: the director's page first, then what an analyst asks for.
//!
//! Each section has a file. As the rest of this room it computes nothing that is not a sum, a share or a conversion; curves
//! over age and dose are the kernel's own answers for stated inputs.

mod choice;
mod costs;
mod depots;
mod director;
mod lists;
mod map;
mod names;
mod orders;
mod rest;
mod scenarios;
mod strength;
mod suppliers;
mod types;
mod water;

use super::show::Shown;
use super::{AS_IF_TOGETHER, Matter};
use crate::document::block::Document;
use crate::document::cell::Cell;
use crate::document::figure;
use crate::kernel::requirement::Stock;
use crate::parameter::NO_CURRENCY;
use crate::quantity::Reading;
use crate::rollup::orders::orders_at;
use choice::Offer;

/// What the sections are made from.
struct Pages<'a> {
    matter: &'a Matter<'a>,
    /// What each scenario offers.
    offers: Vec<Offer>,
    /// The scenario that depots, types and orders are shown for: the cheapest that can be chosen, else the first.
    shown: usize,
    volume: Shown,
    mass: Shown,
}

impl<'a> Pages<'a> {
    fn new(matter: &'a Matter<'a>) -> Self {
        let plan = matter.plan;
        let campaign = plan.campaign;
        let at = |reading| orders_at(campaign, &plan.poured(), &matter.run.totals, reading);
        let (low, high) = (at(Reading::Low), at(Reading::High));
        let offers = choice::offers(matter, &low, &high);
        let shown = choice::cheapest(&offers).map_or(0, |offer| offer.scenario);
        let (volume, mass) = (Shown::of("L", campaign.system), Shown::of("kg", campaign.system));
        Self { matter, offers, shown, volume, mass }
    }

    /// Name of a scenario.
    fn name(&self, scenario: usize) -> &'a str {
        self.matter.plan.cases.get(scenario).map_or("", |case| case.scenario.name.as_str())
    }

    /// The unit that a scenario's product is bought by.
    fn bought_by(&self, scenario: usize) -> Shown {
        match self.matter.plan.cases.get(scenario).map(|case| &case.stock.prepared.stock) {
            Some(Stock::Dry { .. }) => self.mass,
            _ => self.volume,
        }
    }

    fn currency(&self) -> &'a str {
        &self.matter.plan.campaign.currency
    }
}

/// An amount of product or water: whole from a hundred on, one decimal below.
fn amount(shown: Shown, value: f64) -> Cell {
    let value = shown.value(value);
    Cell::number(value, decimals(value))
}

fn decimals(value: f64) -> usize {
    if value.abs() < 10.0 {
        2
    } else if value.abs() < 100.0 {
        1
    } else {
        0
    }
}

/// The same in words: `171 US gal`.
fn words(shown: Shown, value: f64) -> String {
    let value = shown.value(value);
    format!("{} {}", figure::number(value, decimals(value)), shown.symbol)
}

/// `3,470 USD`; what is not known is said.
fn money(cost: Option<f64>, currency: &str) -> String {
    cost.map_or("not all priced".to_owned(), |cost| format!("{} {}", figure::number(cost, 0), behind(currency)))
}

/// What the order of a scenario costs, or what of it is priced so far.
fn order_cost(pages: &Pages<'_>, scenario: usize) -> String {
    let so_far = pages.matter.orders.priced(scenario);
    let cost = money(Some(so_far.cost), pages.currency());
    if so_far.is_all() { cost } else { format!("{cost} priced so far ({})", so_far.account()) }
}

/// A currency behind its number: `USD`, `(currency not stated)`.
fn behind(currency: &str) -> String {
    if currency == NO_CURRENCY { format!("({currency})") } else { currency.to_owned() }
}

/// A share in percent, in words.
fn percent(part: f64, whole: f64) -> String {
    let share = super::quality::percent(part, whole);
    if share.is_nan() { "0".to_owned() } else { figure::number(share, if share < 1.0 { 1 } else { 0 }) }
}

/// `1 visit`, `2 visits`.
pub(super) fn counted(count: u64, one: &str, many: &str) -> String {
    format!("{} {}", figure::number(count as f64, 0), if count == 1 { one } else { many })
}

/// A depot's name; visits without one have none.
pub(super) use depots::name as depot_name;

/// The cheapest choice that can be made, in a few sentences; nothing where nothing is planned.
pub fn answer(matter: &Matter<'_>) -> Option<String> {
    (!matter.plan.cases.is_empty() && matter.run.planned > 0).then(|| match director::answer(&Pages::new(matter)) {
        (true, text) => format!("The cheapest choice that can be made: {text}"),
        (false, text) => text,
    })
}

/// The scenario that the report proposes: the cheapest of those that can be chosen.
pub(super) fn proposed(matter: &Matter<'_>) -> Option<usize> {
    (matter.run.planned > 0)
        .then(|| Pages::new(matter))
        .and_then(|pages| Some(choice::cheapest(&pages.offers)?.scenario))
}

/// Which days the plan is for. Without a day of the plan stocks are as old as the campaign states, whatever the crews' days.
fn day(matter: &Matter<'_>) -> String {
    let dates = || matter.plan.schedule.iter().flat_map(|schedule| &schedule.days).filter_map(|day| day.date);
    match (matter.date, dates().min().zip(dates().max())) {
        (Some(date), _) => format!("plan for {date}"),
        (None, Some((first, last))) => format!("crews go out from {first} to {last}; ages of stock as stated"),
        (None, None) => "no day of the plan is stated".to_owned(),
    }
}

/// The report of a run.
pub fn document(matter: &Matter<'_>) -> Document {
    let pages = Pages::new(matter);
    let lists = matter.lists.join(", ");
    let day = day(matter);
    let mut document = Document {
        title: matter.plan.campaign.title.clone(),
        subtitle: format!(
            "Shock chlorination of flooded wells. Lists: {}; {day}.",
            super::fitted::shortened(&lists, 160)
        ),
        sections: vec![director::section(&pages)],
    };
    if matter.plan.cases.is_empty() {
        return document;
    }
    document.sections.extend([scenarios::section(&pages), depots::section(&pages), strength::section(&pages)]);
    document.sections.extend(water::section(&pages));
    document.sections.extend([
        types::section(&pages),
        map::section(&pages),
        lists::section(&pages),
        orders::section(&pages),
        rest::assumptions(&pages),
        rest::method(&pages),
        rest::cautions(&pages),
    ]);
    document
}
