//! Visits that take an outsized part of an order: a large share of their depot's product, or many times what wells of their
//! type take.
//!
//! One wrong diameter can swallow a depot's stock. The engine hands every planned visit of the first scenario in; a few
//! candidates for each depot and type are kept, with one number a visit for the medians. It names, and judges nothing: the
//! well may really be that large.

use std::collections::{BTreeMap, HashMap};

use foldhash::fast::FixedState;

use super::Totals;
use crate::field::WellType;
use crate::field::names::is_same;
use crate::place::Place;
use crate::scenario::OutsizedRule;
use crate::visit::Visit;

/// How many visits of one type are named at most.
const NAMED_OF_A_TYPE: usize = 20;
/// How many types of well there are.
const TYPES: usize = WellType::ALL.len();
/// By share, a visit must also take so many times an even share of its depot: with three wells each takes a third.
const EVEN_SHARES: f64 = 2.0;

/// A visit that takes much.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Place in reading order.
    order: u64,
    /// The well's id as typed.
    pub id: Box<str>,
    /// The visit as typed; `1` where the list has no visits.
    pub visit: Box<str>,
    /// Its depot; empty where it has none.
    pub depot: Box<str>,
    /// Type by which it is compared with the median.
    pub well_type: WellType,
    /// Product, L of a liquid or kg of a dry one.
    pub product: f64,
    /// Water to treat at this visit, L.
    pub water_l: f64,
    /// The cell that the water rests on most.
    pub cell: Place,
}

/// A visit that is named, with the reasons.
#[derive(Debug, Clone, PartialEq)]
pub struct Outsized {
    /// The visit as it was kept, to be looked at before anything is ordered.
    pub of: Candidate,
    /// Share of its depot's product, where that is too large.
    pub share: Option<f64>,
    /// How many times the median of its type, where that is too much.
    pub times: Option<f64>,
}

/// What is kept of all planned visits of the first scenario.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sizes {
    by_depot: HashMap<Box<str>, Vec<Candidate>, FixedState>,
    by_type: [Vec<Candidate>; TYPES],
    /// Product of every visit by type, for the medians; single precision is plenty for "twenty times".
    products: [Vec<f32>; TYPES],
}

impl Sizes {
    /// Adds a planned visit; `order` counts in reading order.
    pub fn add(&mut self, order: u64, visit: &Visit, product: f64, water_l: f64, rule: &OutsizedRule) {
        let (depot, Some(well_type)) = (visit.depot(), visit.well().map(|well| well.well_type)) else { return };
        let kind = well_type as usize;
        self.products[kind].push(product as f32);
        let candidate = || Candidate {
            order,
            id: visit.id().into(),
            visit: visit.visit().into(),
            depot: depot.into(),
            well_type,
            product,
            water_l,
            cell: visit.place().clone(),
        };
        let of_depot = match self.by_depot.get_mut(depot) {
            Some(kept) => kept,
            None => self.by_depot.entry(depot.into()).or_default(),
        };
        keep(of_depot, most_of_a_depot(rule), product, candidate);
        keep(&mut self.by_type[kind], NAMED_OF_A_TYPE, product, candidate);
    }

    /// Adds what a later batch kept.
    pub fn absorb(&mut self, later: Self, rule: &OutsizedRule) {
        for (depot, candidates) in later.by_depot {
            let mine = self.by_depot.entry(depot).or_default();
            for candidate in candidates {
                keep(mine, most_of_a_depot(rule), candidate.product, || candidate);
            }
        }
        for (mine, candidates) in self.by_type.iter_mut().zip(later.by_type) {
            for candidate in candidates {
                keep(mine, NAMED_OF_A_TYPE, candidate.product, || candidate);
            }
        }
        for (mine, products) in self.products.iter_mut().zip(later.products) {
            mine.extend(products);
        }
    }

    /// The visits to look at before ordering, greatest first; totals are those of the same run.
    pub fn outsized(&self, totals: &Totals, rule: &OutsizedRule) -> Vec<Outsized> {
        let depots = if totals.scenarios() == 0 { BTreeMap::new() } else { totals.by_depot(0) };
        let mut named: BTreeMap<u64, Outsized> = BTreeMap::new();
        for candidate in self.by_depot.values().flatten() {
            // The totals may know the depot by the spelling of its stock.
            let known = || depots.iter().find(|(depot, _)| is_same(depot, &candidate.depot)).map(|(_, sums)| sums);
            let sums = depots.get(&*candidate.depot).or_else(known);
            let Some(sums) = sums.filter(|sums| sums.product > 0.0) else { continue };
            let share = candidate.product / sums.product;
            if share > rule.share_of_depot && share * sums.planned as f64 > EVEN_SHARES {
                let outsized = Outsized { of: candidate.clone(), share: Some(share), times: None };
                named.insert(candidate.order, outsized);
            }
        }
        for (candidates, products) in self.by_type.iter().zip(&self.products) {
            let Some(median) = median(products).filter(|median| *median > 0.0) else { continue };
            for candidate in candidates {
                let times = candidate.product / median;
                if times > rule.times_median {
                    let unnamed = || Outsized { of: candidate.clone(), share: None, times: None };
                    named.entry(candidate.order).or_insert_with(unnamed).times = Some(times);
                }
            }
        }
        let mut named: Vec<Outsized> = named.into_values().collect();
        named.sort_by(|a, b| b.of.product.total_cmp(&a.of.product).then(a.of.order.cmp(&b.of.order)));
        named
    }
}

/// No more visits than this can each take more than the share of one depot.
fn most_of_a_depot(rule: &OutsizedRule) -> usize {
    (1.0 / rule.share_of_depot).clamp(1.0, 100.0) as usize
}

/// Keeps the greatest, in falling order; of equals the one that was read first.
fn keep(kept: &mut Vec<Candidate>, most: usize, product: f64, candidate: impl FnOnce() -> Candidate) {
    if kept.len() >= most && kept.last().is_some_and(|last| last.product >= product) {
        return;
    }
    let at = kept.partition_point(|other| other.product >= product);
    kept.insert(at, candidate());
    kept.truncate(most);
}

/// The median; of an even number the mean of the two in the middle.
fn median(products: &[f32]) -> Option<f64> {
    if products.is_empty() {
        return None;
    }
    let mut parted = products.to_vec();
    let half = parted.len() / 2;
    let (below, upper, _) = parted.select_nth_unstable_by(half, f32::total_cmp);
    let upper = f64::from(*upper);
    if products.len() % 2 == 1 {
        return Some(upper);
    }
    let lower = below.iter().copied().max_by(f32::total_cmp)?;
    Some(f64::midpoint(f64::from(lower), upper))
}
