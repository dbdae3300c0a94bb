//! Which wells get the older stock of a depot that has it beside new product: in the order of the days and stops each well whose whole
//! amount is still there, so that no well gets some of both.

use std::collections::BTreeMap;

use super::from_stock::Pours;
use super::load::poured;
use super::outing::Outing;
use crate::engine::Plan;
use crate::rollup::orders::Orders;
use crate::visit::Visit;

/// Less than this, in liters or kilograms, is rounding dust.
const DUST: f64 = 1e-9;

/// For each visit of each outing which of its depot's older stocks is poured there; nothing where new product is.
pub(super) fn shared_out(outings: &[Outing<'_>], plan: &Plan<'_>, orders: &Orders) -> Vec<Vec<Option<usize>>> {
    let mut all: Vec<Vec<Option<usize>>> = outings.iter().map(|outing| vec![None; outing.visits.len()]).collect();
    let Some(case) = plan.cases.first() else { return all };
    let product = &plan.campaign.products[case.scenario.product];
    let by = product.bought_by();
    let mut left: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    let mut in_days: Vec<usize> = (0..outings.len()).collect();
    in_days.sort_by_key(|at| (outings[*at].day.date, outings[*at].day.number));
    for at in in_days {
        let outing = &outings[at];
        let pours = Pours::at(&outing.day.depot, case, product, orders);
        let Pours::Either(own) = &pours else { continue };
        let there = || own.iter().map(|own| own.line.on_hand).collect();
        let left = left.entry(outing.day.depot.as_str()).or_insert_with(there);
        for (place, treated) in outing.visits.iter().enumerate() {
            let Visit::Planned { well, .. } = &treated.visit else { continue };
            // Its conditions were asked when it was planned.
            let Ok((practice, _)) = plan.practice_for(case, well) else { continue };
            let needs = pours.in_place(well, &practice);
            let amounts = needs.iter().map(|older| by.amount(poured(&older.need, &older.stock.prepared.stock)));
            let enough = amounts.zip(&mut *left).enumerate().find(|(_, (need, left))| *need <= **left + DUST);
            if let Some((which, (need, left))) = enough {
                *left -= need;
                all[at][place] = Some(which);
            }
        }
    }
    all
}
