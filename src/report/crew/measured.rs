//! What the cards measure out, summed by depot: of product and agents, each amount rounded up to its measure, and what they name to top
//! up with.

use std::collections::BTreeMap;

use super::job::agent_of;
use super::load::{poured, topped_up};
use crate::field::names::is_same;
use crate::report::Matter;
use crate::rollup::orders::{ItemKind, OrderLine};
use crate::visit::Visit;

/// Sums of the cards of a scenario, in liters or kilograms.
#[derive(Debug, Default)]
pub(in crate::report) struct Measured {
    /// By depot as its lists spell it, and item; of an agent its word.
    sums: BTreeMap<(String, ItemKind, String), f64>,
    /// What the cards add once where a strip reads too little, by depot.
    top_up: BTreeMap<String, f64>,
}

impl Measured {
    /// Of a scenario by its place in the plan; nothing where not every visit is at hand.
    pub(in crate::report) fn of(matter: &Matter<'_>, at: usize) -> Option<Self> {
        let case = matter.plan.cases.get(at)?;
        let visits = matter.visits();
        if (visits.len() * matter.plan.cases.len()) as u64 != matter.run.table_rows {
            return None;
        }
        let campaign = matter.plan.campaign;
        let product = &campaign.products[case.scenario.product];
        let by = product.bought_by();
        let mut measured = Self::default();
        for treated in visits {
            let (Visit::Planned { well, .. }, Some(need)) = (&treated.visit, treated.need(at)) else { continue };
            let depot = treated.visit.depot();
            let mut add = |kind: ItemKind, item: &str, amount: f64| {
                *measured.sums.entry((depot.to_owned(), kind, item.to_owned())).or_default() += amount;
            };
            add(ItemKind::Product, &product.name, by.amount(poured(need, &case.stock.prepared.stock)));
            // Its conditions were asked when it was planned.
            let Ok((practice, _)) = matter.plan.practice_for(case, well) else { continue };
            if let Some((agent, _, kilograms)) = agent_of(need, practice.system) {
                add(ItemKind::Neutralizer, agent.name(), kilograms);
            }
            let more = by.amount(topped_up(need, &practice, &case.stock.prepared));
            *measured.top_up.entry(depot.to_owned()).or_default() += more;
        }
        Some(measured)
    }

    /// What the cards of a line's depot measure out of its item in the first round.
    pub(in crate::report) fn first_round(&self, line: &OrderLine) -> f64 {
        let own = self
            .sums
            .iter()
            .filter(|((depot, kind, item), _)| *kind == line.kind && *item == line.item && is_same(depot, &line.depot));
        own.map(|(_, amount)| amount).sum()
    }

    /// How many times what an order line counts the cards measure out; 1 for what is counted in pieces.
    pub(in crate::report) fn times(&self, line: &OrderLine) -> f64 {
        match line.kind {
            ItemKind::Supply => 1.0,
            _ if line.first_round > 0.0 => (self.first_round(line) / line.first_round).max(1.0),
            _ => 1.0,
        }
    }

    /// What they measure out in both rounds, with what is lost.
    pub(in crate::report) fn in_all(&self, line: &OrderLine) -> f64 {
        self.times(line) * (line.first_round + line.repeat_round + line.handling_loss)
    }

    /// What of that is neither bought nor there, of a line whose need is covered.
    pub(in crate::report) fn short(&self, line: &OrderLine) -> f64 {
        let (cards, there) = (self.in_all(line), there(line));
        if line.is_not_covered() || cards <= there * (1.0 + crate::relation::SLACK) { 0.0 } else { cards - there }
    }

    /// What the cards of a line's depot name to top up with, if each does so once.
    pub(in crate::report) fn top_up(&self, line: &OrderLine) -> f64 {
        let own = self.top_up.iter().filter(|(depot, _)| is_same(depot, &line.depot));
        own.map(|(_, amount)| amount).sum()
    }
}

/// What is bought and there for an order line.
pub(in crate::report) fn there(line: &OrderLine) -> f64 {
    line.amount + line.on_hand_counts + line.on_order
}
