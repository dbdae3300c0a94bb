//! What to buy: per depot, in whole packages, against what is there, with its cost.

use std::collections::{BTreeMap, BTreeSet};

use super::Totals;
use super::packages::{Cover, cover};
use crate::field::names::is_same;
use crate::kernel::neutralizer::Agent;
use crate::scenario::supply::{BoughtBy, Package};
use crate::scenario::written::near;
use crate::scenario::{Campaign, Scenario};

/// What kind of thing an order line is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ItemKind {
    /// The chlorine product.
    Product,
    /// A neutralizing agent.
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

/// One kind of package on an order line.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought {
    /// The package as the scenario file names it.
    pub package: String,
    /// How many.
    pub count: u64,
    /// Price of one.
    pub price: Option<f64>,
}

/// What one depot needs of one item under one scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderLine {
    /// Index of the scenario among those run.
    pub scenario: usize,
    /// The depot; empty for rows without one.
    pub depot: String,
    /// What kind of thing.
    pub kind: ItemKind,
    /// Which.
    pub item: String,
    /// Unit of every amount: L, kg or pieces.
    pub unit: &'static str,
    /// For the first round.
    pub first_round: f64,
    /// For the repeat round.
    pub repeat_round: f64,
    /// For what is lost in handling.
    pub handling_loss: f64,
    /// First round with the lowest assumptions; the same as the first round where nothing is assumed.
    pub first_round_low: f64,
    /// First round with the highest assumptions.
    pub first_round_high: f64,
    /// There already.
    pub on_hand: f64,
    /// On order already.
    pub on_order: f64,
    /// Still to be bought.
    pub gap: f64,
    /// Whole packages to buy; empty where nothing is needed or no package is stated.
    pub bought: Vec<Bought>,
    /// Amount in those packages.
    pub amount: f64,
    /// What cannot be had, because the stated availability runs out.
    pub short: f64,
    /// What it costs; `None` where a price is missing or no package is stated.
    pub cost: Option<f64>,
}

impl OrderLine {
    /// The item as people call it; a product and a supply have the name that the campaign gives them.
    pub fn item_name(&self) -> &str {
        match self.kind {
            ItemKind::Neutralizer => Agent::by_name(&self.item).map_or(&*self.item, |agent| agent.plain_name()),
            ItemKind::Product | ItemKind::Supply => &self.item,
        }
    }
}

/// What rounding up per depot costs against rounding up once for the whole campaign.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundingCost {
    /// Index of the scenario among those run.
    pub scenario: usize,
    /// Which item.
    pub item: String,
    /// Unit of amounts.
    pub unit: &'static str,
    /// Amount bought, rounded up per depot.
    pub per_depot: f64,
    /// Amount bought if it were rounded up once.
    pub once: f64,
    /// Cost of the difference, where prices are known.
    pub cost: Option<f64>,
}

/// Every order line of a run, and what rounding costs.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Orders {
    /// By scenario, depot, kind and item.
    pub lines: Vec<OrderLine>,
    /// By scenario and item.
    pub rounding: Vec<RoundingCost>,
    /// What a planner should look at: stock at a depot that no list has, which no order can count on.
    pub remarks: Vec<String>,
}

impl Orders {
    /// Cost of everything on a scenario's orders; nothing where something is not priced.
    pub fn cost(&self, scenario: usize) -> Option<f64> {
        let mut lines = self.lines.iter().filter(|line| line.scenario == scenario);
        lines.try_fold(0.0, |sum, line| line.cost.map(|cost| sum + cost))
    }
}

/// One item's amounts at one depot.
#[derive(Debug, Clone, Copy, Default)]
struct Need {
    first: f64,
    low: f64,
    high: f64,
    repeat: f64,
    loss: f64,
}

/// Which amount of product is bought, where wells have a low and a high.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// The lowest of every well.
    Low,
    /// The middle.
    Mid,
    /// The highest of every well.
    High,
}

/// What to buy for each of these scenarios.
pub fn orders(campaign: &Campaign, scenarios: &[&Scenario], totals: &Totals) -> Orders {
    orders_at(campaign, scenarios, totals, Reading::Mid)
}

/// What to buy if every well took its lowest or its highest amount; repeats and losses change in proportion.
pub fn orders_at(campaign: &Campaign, scenarios: &[&Scenario], totals: &Totals, reading: Reading) -> Orders {
    let mut orders = Orders { remarks: stray_stock(campaign, totals), ..Orders::default() };
    for (index, scenario) in scenarios.iter().enumerate() {
        let depots = totals.by_depot(index);
        let product = &campaign.products[scenario.product];
        let needs = depots.iter().map(|(depot, sums)| {
            let first = match reading {
                Reading::Low => sums.product_low,
                Reading::Mid => sums.product,
                Reading::High => sums.product_high,
            };
            let share = if sums.product > 0.0 { first / sums.product } else { 1.0 };
            let need = Need {
                first,
                low: sums.product_low,
                high: sums.product_high,
                repeat: sums.repeat * share,
                loss: sums.loss * share,
            };
            (depot.as_str(), need)
        });
        let item = Item {
            kind: ItemKind::Product,
            name: &product.name,
            unit: product.bought_by().unit(),
            packages: &product.packages,
        };
        buy(campaign, index, &item, needs.collect(), &mut orders);
        for (place, agent) in Agent::ALL.iter().enumerate() {
            let needs: Vec<(&str, Need)> = depots
                .iter()
                .filter(|(_, sums)| sums.neutralizer_kg[place] > 0.0)
                .map(|(depot, sums)| {
                    let first = sums.neutralizer_kg[place];
                    let repeat = sums.neutralizer_repeat_kg[place];
                    let loss = sums.neutralizer_loss_kg[place];
                    (depot.as_str(), Need { first, low: first, high: first, repeat, loss })
                })
                .collect();
            if needs.is_empty() {
                continue;
            }
            let packages =
                campaign.neutralizers.iter().find(|line| line.agent == *agent).map_or(&[][..], |line| &line.packages);
            let item = Item { kind: ItemKind::Neutralizer, name: agent.name(), unit: BoughtBy::Mass.unit(), packages };
            buy(campaign, index, &item, needs, &mut orders);
        }
        for supply in &campaign.supplies {
            let packages = [Package {
                text: format!("package of {}", supply.package_of),
                amount: supply.package_of,
                price: supply.price,
                available: None,
            }];
            let needs = depots
                .iter()
                .filter(|(_, sums)| sums.planned > 0)
                .map(|(depot, sums)| {
                    // Pieces are whole: a share of a repeat visit still needs its bottle.
                    let first = (sums.planned as f64 * supply.per_visit).ceil();
                    let repeat = (sums.repeat_visits * supply.per_visit - 1e-9).ceil().max(0.0);
                    (depot.as_str(), Need { first, low: first, high: first, repeat, loss: 0.0 })
                })
                .collect();
            let item = Item { kind: ItemKind::Supply, name: &supply.name, unit: "pieces", packages: &packages };
            buy(campaign, index, &item, needs, &mut orders);
        }
    }
    orders
}

/// Depots that stock is stated for and no row of the lists has.
fn stray_stock(campaign: &Campaign, totals: &Totals) -> Vec<String> {
    let depots = if totals.scenarios() == 0 { BTreeMap::new() } else { totals.by_depot(0) };
    let known: Vec<&str> = depots.keys().map(String::as_str).filter(|depot| !depot.is_empty()).collect();
    let stray: BTreeSet<&str> = campaign
        .stock
        .iter()
        .map(|line| line.depot.as_str())
        .filter(|depot| !known.iter().any(|known| is_same(known, depot)))
        .collect();
    let remark = |depot: &str| format!("stock is stated for depot {depot:?}, which no list has{}", near(depot, &known));
    stray.into_iter().map(remark).collect()
}

struct Item<'a> {
    kind: ItemKind,
    name: &'a str,
    unit: &'static str,
    packages: &'a [Package],
}

fn buy(campaign: &Campaign, scenario: usize, item: &Item<'_>, needs: Vec<(&str, Need)>, orders: &mut Orders) {
    let mut left: Vec<Option<u64>> = item.packages.iter().map(|package| package.available.map(u64::from)).collect();
    let all: Vec<Option<u64>> = left.clone();
    let (mut whole_gap, mut per_depot, mut cost, mut covered) = (0.0, 0.0, Some(0.0), true);
    for (depot, need) in needs {
        let stock = campaign.stock.iter().filter(|line| is_same(&line.depot, depot) && line.item == item.name);
        let (on_hand, on_order) =
            stock.fold((0.0, 0.0), |(hand, order), line| (hand + line.on_hand, order + line.on_order));
        let gap = (need.first + need.repeat + need.loss - on_hand - on_order).max(0.0);
        let cover: Cover = cover(gap, item.packages, &left);
        for (left, count) in left.iter_mut().zip(&cover.counts) {
            *left = left.map(|left| left.saturating_sub(*count));
        }
        let no_package = item.packages.is_empty() && gap > 0.0;
        whole_gap += gap;
        per_depot += cover.amount;
        cost = cost.zip(cover.cost).map(|(sum, more)| sum + more);
        covered &= cover.short == 0.0;
        orders.lines.push(OrderLine {
            scenario,
            depot: depot.to_owned(),
            kind: item.kind,
            item: item.name.to_owned(),
            unit: item.unit,
            first_round: need.first,
            repeat_round: need.repeat,
            handling_loss: need.loss,
            first_round_low: need.low,
            first_round_high: need.high,
            on_hand,
            on_order,
            gap,
            bought: cover
                .counts
                .iter()
                .zip(item.packages)
                .filter(|(count, _)| **count > 0)
                .map(|(&count, package)| Bought { package: package.text.clone(), count, price: package.price })
                .collect(),
            amount: cover.amount,
            short: if no_package { 0.0 } else { cover.short },
            cost: if no_package { None } else { cover.cost },
        });
    }
    if whole_gap > 0.0 && !item.packages.is_empty() && covered {
        let once = cover(whole_gap, item.packages, &all);
        orders.rounding.push(RoundingCost {
            scenario,
            item: item.name.to_owned(),
            unit: item.unit,
            per_depot,
            once: once.amount,
            cost: cost.zip(once.cost).map(|(depots, once)| depots - once),
        });
    }
}
