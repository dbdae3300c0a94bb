//! What to buy: per depot, in whole packages, against what is there, with its cost.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::Totals;
pub use super::needs::ItemKind;
use super::needs::{self, Item, Needed};
use super::packages::{Cover, cover, covered_by};
use crate::field::names::is_same;
use crate::kernel::neutralizer::Agent;
use crate::quantity::Reading;
use crate::scenario::buy::BuyLine;
use crate::scenario::depot_stock::{OwnStock, not_poured};
use crate::scenario::section::near;
use crate::scenario::supply::{Package, sold_by};
use crate::scenario::{Campaign, Scenario};

/// One kind of package on an order line.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought {
    /// The package as the scenario file names it.
    pub package: String,
    /// How many whole packages of this kind are bought.
    pub count: u64,
    /// Price of one package, in the campaign's currency; nothing where it is not stated.
    pub price: Option<f64>,
    /// Who sells it, as the campaign states it; nothing where it names nobody.
    pub supplier: Option<String>,
    /// Place of this kind among the item's packages.
    pub kind: usize,
}

impl Bought {
    /// Who sells it, or that this is not stated.
    pub fn sold_by(&self) -> &str {
        sold_by(self.supplier.as_deref())
    }

    /// What all of them cost.
    pub fn cost(&self) -> Option<f64> {
        self.price.map(|price| price * self.count as f64)
    }
}

/// What one depot needs of one item under one scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderLine {
    /// Index of the scenario among those run.
    pub scenario: usize,
    /// The depot; empty for rows without one.
    pub depot: String,
    /// Whether it is a product, a neutralizer or a supply.
    pub kind: ItemKind,
    /// Name of the product or the supply; of a neutralizer the word of its agent.
    pub item: String,
    /// Unit of every amount: L, kg or pieces.
    pub unit: &'static str,
    /// Needed for the first round.
    pub first_round: f64,
    /// Needed for the repeat round.
    pub repeat_round: f64,
    /// Needed for what is lost in handling.
    pub handling_loss: f64,
    /// First round with the lowest assumptions; the same as the first round where nothing is assumed.
    pub first_round_low: f64,
    /// First round with the highest assumptions.
    pub first_round_high: f64,
    /// What the depot has already.
    pub on_hand: f64,
    /// What that counts as: so much of what the scenario pours has the chlorine that is in it on the day of use.
    pub on_hand_counts: f64,
    /// What was ordered for the depot before, which need not be bought again.
    pub on_order: f64,
    /// What is left to be bought after both; 0 where they are enough.
    pub gap: f64,
    /// Whole packages to buy; empty where nothing is needed or no package is stated.
    pub bought: Vec<Bought>,
    /// Amount in those packages.
    pub amount: f64,
    /// What cannot be had, because the stated availability runs out.
    pub short: f64,
    /// What it costs; `None` where a price is missing or no package is stated.
    pub cost: Option<f64>,
    /// Whether somebody settled on the counts, which then need not be those of least cost.
    pub is_settled: bool,
}

impl OrderLine {
    /// The item as people call it; a product and a supply have the name that the campaign gives them.
    pub fn item_name(&self) -> &str {
        match self.kind {
            ItemKind::Neutralizer => Agent::by_name(&self.item).map_or(&*self.item, |agent| agent.plain_name()),
            ItemKind::Product | ItemKind::Supply => &self.item,
        }
    }

    /// Whether what is bought falls short of the need, or nothing can be bought for it.
    pub fn is_not_covered(&self) -> bool {
        self.short > 0.0 || (self.bought.is_empty() && self.gap > 0.0)
    }
}

/// What rounding up per depot costs against rounding up once for the whole campaign.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundingCost {
    /// Index of the scenario among those run.
    pub scenario: usize,
    /// Name of the item, as on its order lines.
    pub item: String,
    /// Unit of both amounts: L, kg or pieces.
    pub unit: &'static str,
    /// The item as people call it.
    pub name: String,
    /// What all depots have to buy, before it is rounded up.
    pub gap: f64,
    /// Packages that would cover it if it were rounded up once: `1 x 55 gal + 2 x 5 gal`.
    pub packages: String,
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
    /// What a depot needs of a product under the first scenario, which crews go out for.
    pub fn poured_at(&self, depot: &str, product: &str) -> Option<&OrderLine> {
        let of_product =
            |line: &&OrderLine| line.scenario == 0 && line.kind == ItemKind::Product && line.item == product;
        self.lines.iter().filter(of_product).find(|line| is_same(&line.depot, depot))
    }

    /// What of a scenario's orders has a price.
    pub fn priced(&self, scenario: usize) -> PricedSoFar {
        PricedSoFar::of(self.lines.iter().filter(|line| line.scenario == scenario))
    }

    /// Cost of everything on a scenario's orders; nothing where something is not priced.
    pub fn cost(&self, scenario: usize) -> Option<f64> {
        self.priced(scenario).of_all()
    }
}

/// What of an order has a price; what it costs in all is known only where everything has one.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PricedSoFar {
    /// Cost of the lines that are priced.
    pub cost: f64,
    /// How many those are.
    pub priced: usize,
    /// How many lines there are.
    pub lines: usize,
    /// What is not priced at some depot, as people call it, each once.
    pub not_priced: Vec<String>,
}

impl PricedSoFar {
    /// Adds up the lines that have a cost, and names what has none.
    pub fn of<'a>(lines: impl Iterator<Item = &'a OrderLine>) -> Self {
        let mut so_far = Self::default();
        for line in lines {
            so_far.lines += 1;
            match line.cost {
                Some(cost) => {
                    so_far.cost += cost;
                    so_far.priced += 1;
                }
                None if so_far.not_priced.iter().any(|name| name == line.item_name()) => {}
                None => so_far.not_priced.push(line.item_name().to_owned()),
            }
        }
        so_far
    }

    /// Whether the cost is that of everything.
    pub fn is_all(&self) -> bool {
        self.priced == self.lines
    }

    /// Cost of everything; nothing where something is not priced.
    pub fn of_all(&self) -> Option<f64> {
        self.is_all().then_some(self.cost)
    }

    /// `8 of 12 lines priced`.
    pub fn share(&self) -> String {
        format!("{} of {} lines priced", self.priced, self.lines)
    }

    /// `8 of 12 lines priced; not priced: sodium sulfite, gloves`.
    pub fn account(&self) -> String {
        format!("{}; not priced: {}", self.share(), self.not_priced.join(", "))
    }
}

/// A scenario, and what depots have of its product that has a strength of its own.
#[derive(Debug, Clone, Copy)]
pub struct Poured<'a> {
    /// The scenario.
    pub scenario: &'a Scenario,
    /// Stock that counts by the chlorine that is left in it; other stock counts as it is.
    pub own_stock: &'a [OwnStock<'a>],
}

/// What to buy for each of these scenarios.
pub fn orders(campaign: &Campaign, scenarios: &[Poured<'_>], totals: &Totals) -> Orders {
    orders_at(campaign, scenarios, totals, Reading::Mid)
}

/// What to buy if every well took its lowest or its highest amount; repeats and losses change in proportion.
pub fn orders_at(campaign: &Campaign, scenarios: &[Poured<'_>], totals: &Totals, reading: Reading) -> Orders {
    let mut orders = Orders { remarks: stray_depots(campaign, totals), ..Orders::default() };
    orders.remarks.extend(not_poured(&campaign.stock, &campaign.products, &campaign.scenarios));
    for (index, poured) in scenarios.iter().enumerate() {
        for needed in needs::of_scenario(campaign, poured.scenario, &totals.by_depot(index), reading) {
            let packages = packages(campaign, poured.scenario, &needed);
            buy(campaign, (index, *poured), &needed, &packages, &mut orders);
        }
    }
    orders
}

/// The packages in which an item is sold.
fn packages<'a>(campaign: &'a Campaign, scenario: &Scenario, needed: &Needed<'_>) -> Cow<'a, [Package]> {
    match needed.item {
        Item::Product => Cow::Borrowed(&campaign.products[scenario.product].packages),
        Item::Neutralizer(agent) => {
            let sold = campaign.neutralizers.iter().find(|line| line.agent == agent);
            sold.map_or_else(Cow::default, |line| Cow::Borrowed(line.packages.as_slice()))
        }
        Item::Supply(supply) => Cow::Owned(vec![supply.package()]),
    }
}

/// Depots that stock or a count of packages is stated for and no row of the lists has.
fn stray_depots(campaign: &Campaign, totals: &Totals) -> Vec<String> {
    let depots = if totals.scenarios() == 0 { BTreeMap::new() } else { totals.by_depot(0) };
    let known: Vec<&str> = depots.keys().map(String::as_str).filter(|depot| !depot.is_empty()).collect();
    let of_stock = campaign.stock.iter().map(|line| ("stock is", line.depot.as_str()));
    let of_counts = campaign.buy.iter().map(|line| ("a count of packages is", line.depot.as_str()));
    let stray: BTreeSet<(&str, &str)> = of_stock
        .chain(of_counts.filter(|(_, depot)| !depot.is_empty()))
        .filter(|(_, depot)| !known.iter().any(|known| is_same(known, depot)))
        .collect();
    let remark = |(what, depot): (&str, &str)| {
        format!("{what} stated for depot {depot:?}, which no list has{}", near(depot, &known))
    };
    stray.into_iter().map(remark).collect()
}

/// Counts that somebody settled on for an item of a depot, by kind of package; nothing where nobody did.
fn settled(campaign: &Campaign, scenario: &Scenario, item: &str, depot: &str, kinds: usize) -> Option<Vec<u64>> {
    let is_it = |line: &&BuyLine| line.scenario == scenario.number && line.item == item && is_same(&line.depot, depot);
    let mut counts = vec![0; kinds];
    let mut any = false;
    for line in campaign.buy.iter().filter(is_it) {
        if let Some(count) = counts.get_mut(line.kind) {
            *count = u64::from(line.count);
            any = true;
        }
    }
    any.then_some(counts)
}

fn take(left: &mut [Option<u64>], counts: &[u64]) {
    for (left, count) in left.iter_mut().zip(counts) {
        *left = left.map(|left| left.saturating_sub(*count));
    }
}

/// `2 x 55 gal + 1 x 5 gal`.
pub fn in_packages(counts: &[u64], packages: &[Package]) -> String {
    let bought = counts.iter().zip(packages).filter(|(count, _)| **count > 0);
    bought.map(|(count, package)| format!("{count} x {}", package.text)).collect::<Vec<_>>().join(" + ")
}

/// Covers what each depot needs of an item beyond its stock, in whole packages.
fn buy(
    campaign: &Campaign,
    (index, poured): (usize, Poured<'_>),
    needed: &Needed<'_>,
    packages: &[Package],
    orders: &mut Orders,
) {
    let scenario = poured.scenario;
    let mut left: Vec<Option<u64>> = packages.iter().map(|package| package.available.map(u64::from)).collect();
    let all: Vec<Option<u64>> = left.clone();
    let (mut whole_gap, mut per_depot, mut cost, mut covered) = (0.0, 0.0, Some(0.0), true);
    let own: Vec<Option<Vec<u64>>> =
        needed.at.iter().map(|(depot, _)| settled(campaign, scenario, needed.name, depot, packages.len())).collect();
    // What is settled comes first out of what can be had.
    for counts in own.iter().flatten() {
        take(&mut left, counts);
    }
    for ((depot, need), own) in needed.at.iter().zip(own) {
        let stock = campaign.stock.iter().filter(|line| is_same(&line.depot, depot) && line.item == needed.name);
        let (mut on_hand, mut on_hand_counts, mut on_order) = (0.0, 0.0, 0.0);
        for line in stock {
            let own = OwnStock::of(poured.own_stock, line);
            on_hand += line.on_hand;
            on_hand_counts += line.on_hand * own.map_or(1.0, |own| own.counts);
            on_order += line.on_order;
        }
        let gap = (need.in_all() - on_hand_counts - on_order).max(0.0);
        let is_settled = own.is_some();
        let cover: Cover = match own {
            Some(counts) => covered_by(gap, packages, counts),
            None => {
                let cover = cover(gap, packages, &left);
                take(&mut left, &cover.counts);
                cover
            }
        };
        let no_package = packages.is_empty() && gap > 0.0;
        whole_gap += gap;
        per_depot += cover.amount;
        cost = cost.zip(cover.cost).map(|(sum, more)| sum + more);
        covered &= cover.short == 0.0 && !is_settled;
        orders.lines.push(OrderLine {
            scenario: index,
            depot: (*depot).to_owned(),
            kind: needed.item.kind(),
            item: needed.name.to_owned(),
            unit: needed.unit,
            first_round: need.first,
            repeat_round: need.repeat,
            handling_loss: need.loss,
            first_round_low: need.low,
            first_round_high: need.high,
            on_hand,
            on_hand_counts,
            on_order,
            gap,
            bought: cover
                .counts
                .iter()
                .zip(packages)
                .enumerate()
                .filter(|(_, (count, _))| **count > 0)
                .map(|(kind, (&count, package))| Bought {
                    package: package.text.clone(),
                    count,
                    price: package.price,
                    supplier: package.supplier.clone(),
                    kind,
                })
                .collect(),
            amount: cover.amount,
            short: if no_package { 0.0 } else { cover.short },
            cost: if no_package { None } else { cover.cost },
            is_settled,
        });
    }
    if whole_gap > 0.0 && !packages.is_empty() && covered {
        let once = cover(whole_gap, packages, &all);
        orders.rounding.push(RoundingCost {
            scenario: index,
            item: needed.name.to_owned(),
            name: match needed.item {
                Item::Neutralizer(agent) => agent.plain_name().to_owned(),
                Item::Product | Item::Supply(_) => needed.name.to_owned(),
            },
            unit: needed.unit,
            gap: whole_gap,
            packages: in_packages(&once.counts, packages),
            per_depot,
            once: once.amount,
            cost: cost.zip(once.cost).map(|(depots, once)| depots - once),
        });
    }
}
