//! Which scenario can be chosen, and which of those is the cheapest.
//!
//! A scenario can be chosen where it aims at no less chlorine than the campaign's own practice, its stock is not spent nor
//! younger than the product's own age, all that it needs can be had, and all of it is priced. Whether a lower target is allowed is not for a program to say.

use super::Matter;
use crate::engine::Case;
use crate::kernel::constants::{STOCK_NEARLY_GONE, STOCK_SPENT};
use crate::quantity::format::number;
use crate::rollup::orders::{ItemKind, Orders};
use crate::scenario::Scenario;
use crate::scenario::stock::stock_on_the_day;

/// What one scenario offers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Offer {
    /// Index of the scenario among those run.
    pub(super) scenario: usize,
    /// Cost of everything on its orders; at the lowest and at the highest amounts.
    pub(super) cost: Option<f64>,
    pub(super) cost_low: Option<f64>,
    pub(super) cost_high: Option<f64>,
    /// Why it cannot be chosen.
    pub(super) why_not: Option<WhyNot>,
}

/// Why a scenario cannot be chosen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum WhyNot {
    /// No visit is planned.
    Nothing,
    /// Its stock is younger than the age that the product itself states.
    Younger,
    /// It aims at less chlorine than the campaign's practice.
    AimsLower,
    /// Its stock is spent.
    Spent,
    /// More is needed than can be had.
    Short,
    /// Something has no price or no package.
    Unpriced,
}

impl WhyNot {
    /// The reason as the table of scenarios says it, in a few words.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Nothing => "no: nothing planned",
            Self::Younger => "no: younger stock than stated",
            Self::AimsLower => "no: lower target",
            Self::Spent => "no: stock is spent",
            Self::Short => "no: not enough to be had",
            Self::Unpriced => "not known: not all priced",
        }
    }
}

/// What each scenario offers.
pub(super) fn offers(matter: &Matter<'_>, low: &Orders, high: &Orders) -> Vec<Offer> {
    let cases = matter.plan.cases.iter().enumerate();
    cases
        .map(|(scenario, case)| {
            let cost = matter.orders.cost(scenario);
            Offer {
                scenario,
                cost,
                cost_low: low.cost(scenario),
                cost_high: high.cost(scenario),
                why_not: why_not(matter, case, scenario, cost),
            }
        })
        .collect()
}

/// The cheapest that can be chosen; of equals the first.
pub(super) fn cheapest(offers: &[Offer]) -> Option<&Offer> {
    by_cost(offers).first().copied()
}

/// Those that can be chosen, the cheapest first.
pub(super) fn by_cost(offers: &[Offer]) -> Vec<&Offer> {
    let mut open: Vec<&Offer> = offers.iter().filter(|offer| offer.why_not.is_none()).collect();
    open.sort_by(|a, b| cost_key(a).total_cmp(&cost_key(b)));
    open
}

fn cost_key(offer: &Offer) -> f64 {
    offer.cost.unwrap_or(f64::INFINITY)
}

/// The chlorine that the campaign's own practice aims at, mg/L, before any scenario changes it.
pub(super) fn own_target(matter: &Matter<'_>, scenario: &Scenario) -> f64 {
    let own = Scenario { settings: Vec::new(), ..scenario.clone() };
    matter.plan.campaign.practice_of(&own, 0).target.milligrams_per_liter()
}

/// The chlorine that a scenario aims at, mg/L.
pub(super) fn target(matter: &Matter<'_>, case: &Case<'_>) -> f64 {
    matter.plan.campaign.practice_of(case.scenario, 0).target.milligrams_per_liter()
}

/// `35 % left of the label's strength`, where that is little.
pub(super) fn strength_left(case: &Case<'_>) -> String {
    format!("{} %", number(case.stock.prepared.stock.share_of_label() * 100.0, 2))
}

fn why_not(matter: &Matter<'_>, case: &Case<'_>, scenario: usize, cost: Option<f64>) -> Option<WhyNot> {
    let lines = || matter.orders.lines.iter().filter(|line| line.scenario == scenario);
    let prepared = &case.stock.prepared;
    if matter.run.totals.overall(scenario).planned == 0 {
        Some(WhyNot::Nothing)
    } else if prepared.share_left < STOCK_NEARLY_GONE.value || prepared.stock.share_of_label() < STOCK_SPENT.value {
        Some(WhyNot::Spent)
    } else if target(matter, case) < own_target(matter, case.scenario) * (1.0 - 1e-9) {
        Some(WhyNot::AimsLower)
    } else if is_younger(matter, case) {
        Some(WhyNot::Younger)
    } else if lines().any(|line| line.kind != ItemKind::Supply && line.short > 0.0) {
        Some(WhyNot::Short)
    } else if cost.is_none() {
        Some(WhyNot::Unpriced)
    } else {
        None
    }
}

/// Whether the product's own age, where one is stated, is more than that of the scenario's stock.
fn is_younger(matter: &Matter<'_>, case: &Case<'_>) -> bool {
    let product = &matter.plan.campaign.products[case.scenario.product];
    let own = stock_on_the_day(product, None, case.scenario.storage.as_ref(), matter.date);
    product.age.is_some() && own.is_ok_and(|own| case.stock.age.value < own.age.value * (1.0 - 1e-9))
}
