//! What each depot needs of each item, before anybody looks at stock, packages or prices.

use std::collections::BTreeMap;

use super::Sums;
use crate::kernel::neutralizer::Agent;
use crate::quantity::{Band, Reading};
use crate::scenario::supply::{BoughtBy, SupplyLine};
use crate::scenario::{Campaign, Scenario};

/// What kind of thing an order line is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ItemKind {
    /// What is poured into the wells: bought in liters or kilograms.
    Product,
    /// What takes the chlorine out of the flush water: bought in kilograms.
    Neutralizer,
    /// Something counted that goes with each visit.
    Supply,
}

impl ItemKind {
    /// The word in the orders table.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Product => "product",
            Self::Neutralizer => "neutralizer",
            Self::Supply => "supply",
        }
    }
}

/// What an order line can be about, with what it is known by.
#[derive(Debug, Clone, Copy)]
pub(super) enum Item<'a> {
    /// The product of the scenario.
    Product,
    /// The agent that takes chlorine out of the flush water.
    Neutralizer(Agent),
    /// Something counted that goes with each visit.
    Supply(&'a SupplyLine),
}

impl Item<'_> {
    pub(super) const fn kind(&self) -> ItemKind {
        match self {
            Self::Product => ItemKind::Product,
            Self::Neutralizer(_) => ItemKind::Neutralizer,
            Self::Supply(_) => ItemKind::Supply,
        }
    }
}

/// One item's amounts at one depot.
#[derive(Debug, Clone, Copy)]
pub(super) struct Need {
    /// For the first round.
    pub(super) first: f64,
    /// First round with every well at its lowest.
    pub(super) low: f64,
    /// First round with every well at its highest.
    pub(super) high: f64,
    /// For the repeat round.
    pub(super) repeat: f64,
    /// For what is lost in handling.
    pub(super) loss: f64,
}

impl Need {
    /// Both rounds and what is lost.
    pub(super) fn in_all(&self) -> f64 {
        self.first + self.repeat + self.loss
    }
}

/// What the depots need of one item under one scenario.
pub(super) struct Needed<'a> {
    /// What is needed; one scenario has one product and any number of agents and supplies.
    pub(super) item: Item<'a>,
    /// Its name as people read it in the orders.
    pub(super) name: &'a str,
    /// Unit of every amount: L, kg or pieces.
    pub(super) unit: &'static str,
    /// By depot, in alphabetical order.
    pub(super) at: Vec<(&'a str, Need)>,
}

/// What the depots need of the product, of each neutralizing agent and of each supply.
pub(super) fn of_scenario<'a>(
    campaign: &'a Campaign,
    scenario: &Scenario,
    depots: &'a BTreeMap<String, Sums>,
    reading: Reading,
) -> Vec<Needed<'a>> {
    let product = &campaign.products[scenario.product];
    let mut needed = vec![Needed {
        item: Item::Product,
        name: &product.name,
        unit: product.bought_by().unit(),
        at: depots.iter().map(|(depot, sums)| (depot.as_str(), of_product(sums, reading))).collect(),
    }];
    for (place, agent) in Agent::ALL.into_iter().enumerate() {
        let with_agent = depots.iter().filter(|(_, sums)| sums.neutralizer_kg[place] > 0.0);
        let at: Vec<_> = with_agent.map(|(depot, sums)| (depot.as_str(), of_agent(sums, place))).collect();
        if !at.is_empty() {
            needed.push(Needed { item: Item::Neutralizer(agent), name: agent.name(), unit: BoughtBy::Mass.unit(), at });
        }
    }
    needed.extend(campaign.supplies.iter().map(|supply| {
        let visited = depots.iter().filter(|(_, sums)| sums.planned > 0);
        let at = visited.map(|(depot, sums)| (depot.as_str(), of_supply(sums, supply))).collect();
        Needed { item: Item::Supply(supply), name: &supply.name, unit: "pieces", at }
    }));
    needed
}

fn of_product(sums: &Sums, reading: Reading) -> Need {
    let first = reading.of(Band { low: sums.product_low, mid: sums.product, high: sums.product_high });
    let share = if sums.product > 0.0 { first / sums.product } else { 1.0 };
    Need { first, low: sums.product_low, high: sums.product_high, repeat: sums.repeat * share, loss: sums.loss * share }
}

fn of_agent(sums: &Sums, place: usize) -> Need {
    let first = sums.neutralizer_kg[place];
    let (repeat, loss) = (sums.neutralizer_repeat_kg[place], sums.neutralizer_loss_kg[place]);
    Need { first, low: first, high: first, repeat, loss }
}

/// Pieces are whole: a share of a repeat visit still needs its bottle.
fn of_supply(sums: &Sums, supply: &SupplyLine) -> Need {
    let first = (sums.planned as f64 * supply.per_visit).ceil();
    // Not the zero below zero, which a table would show as -0.
    let repeat = (sums.repeat_visits * supply.per_visit - 1e-9).ceil().max(0.0) + 0.0;
    Need { first, low: first, high: first, repeat, loss: 0.0 }
}
