//! What the cards measure out beside what the order counts: they round up, so that no well gets less than its amount.

use super::Matter;
use super::crew;
use super::page::depot_name;
use super::show::Shown;
use crate::field::names::is_same;
use crate::quantity::format::number;
use crate::rollup::orders::{ItemKind, OrderLine};

/// What is said of it for the first scenario, each with whether something is to be done about it; nothing where not every visit is at
/// hand, or nothing is poured.
pub fn texts(matter: &Matter<'_>) -> Vec<(String, bool)> {
    let (Some(case), Some(poured)) = (matter.plan.cases.first(), crew::poured_by_depot(matter)) else {
        return Vec::new();
    };
    let lines = matter.orders.lines.iter().filter(|line| line.scenario == 0 && line.kind == ItemKind::Product);
    let lines: Vec<&OrderLine> = lines.collect();
    let Some(first) = lines.first() else { return Vec::new() };
    let shown = Shown::of(first.unit, matter.plan.campaign.system);
    let said = |value: f64| format!("{} {}", number(shown.value(value), 3), shown.symbol);
    let needed: f64 = lines.iter().map(|line| line.first_round).sum();
    let in_all: f64 = poured.values().sum();
    if needed <= 0.0 || in_all <= needed * (1.0 + 1e-9) {
        return Vec::new();
    }
    let mut texts = vec![(
        format!(
            "Under \"{}\" the cards measure out {} in the first round, {} % more than the {} that the order counts: each amount on a \
             card is rounded up to the measure, a few spoons by more than an eighth, so that no well gets less than it needs, and so is each amount of neutralizer. Whole packages cover \
             that, but for what is named here.",
            case.scenario.name,
            said(in_all),
            number((in_all / needed - 1.0) * 100.0, 2),
            said(needed)
        ),
        false,
    )];
    for line in lines.iter().filter(|line| line.first_round > 0.0) {
        let own = poured.iter().filter(|(depot, _)| is_same(depot, &line.depot));
        let cards = own.map(|(_, amount)| amount).sum::<f64>() / line.first_round
            * (line.first_round + line.repeat_round + line.handling_loss);
        let there = line.amount + line.on_hand_counts + line.on_order;
        if cards > there * (1.0 + 1e-9) && !line.is_not_covered() {
            texts.push((
                format!(
                    "{}: the cards measure out {}, and {} is bought and there. Buy one more package, or state a handling loss.",
                    depot_name(&line.depot),
                    said(cards),
                    said(there)
                ),
                true,
            ));
        }
    }
    texts
}
