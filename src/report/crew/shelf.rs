//! What stands at a depot of the product that is poured, container by container, and what its crews take out of it day by day: no
//! container goes out twice on a day, what comes back stands there opened on the next, and what two crews need of one stays and is
//! filled from. Counts containers and knows no words.

use super::transport::MOST_IN_ONE;
use crate::rollup::orders::{OrderLine, in_packages};
use crate::rollup::packages::cover;
use crate::scenario::product::Product;
use crate::scenario::supply::Package;

/// Less than this, in liters or kilograms, is rounding dust.
const DUST: f64 = 1e-6;

/// What stands at a depot, in liters or kilograms.
pub(super) struct Shelf<'a> {
    packages: &'a [Package],
    /// Containers that nobody has opened, of each kind.
    full: Vec<u64>,
    /// Opened ones: kind, and what is left in each.
    open: Vec<(usize, f64)>,
    /// What stands there in containers that nobody has stated.
    loose: f64,
}

/// A part of what a crew takes.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Part {
    /// So much of the stock whose containers are not stated.
    Stock(f64),
    /// Whole containers that nobody has opened, so many of each kind.
    Whole(Vec<u64>),
    /// An opened container of a kind, with what is left in it.
    Opened(usize, f64),
    /// So much, filled from what stays at the depot.
    Filled(f64),
}

/// What a crew takes on a day.
#[derive(Debug, Default)]
pub(super) struct Taken {
    pub(super) parts: Vec<Part>,
    /// What its cards pour and is not there.
    pub(super) missing: f64,
    /// Whether not all of the topping up is there.
    pub(super) is_less: bool,
}

impl Taken {
    /// Whether something is filled from what stays.
    pub(super) fn fills(&self) -> bool {
        self.parts.iter().any(|part| matches!(part, Part::Filled(_)))
    }
}

/// What all crews of a depot take on a day.
pub(super) struct Day {
    pub(super) crews: Vec<Taken>,
    /// Containers that stay and are filled from: kind, and whether it was opened before.
    sources: Vec<(usize, bool)>,
}

impl Day {
    /// The containers that stay and are filled from: `1 x 5 US gal`.
    pub(super) fn filled_from(&self, packages: &[Package]) -> String {
        let mut counts = vec![0; packages.len()];
        self.sources.iter().for_each(|(kind, _)| counts[*kind] += 1);
        in_packages(&counts, packages)
    }
}

impl<'a> Shelf<'a> {
    /// What an order brings, and what stands there without a container being stated; nothing where no package is stated at all, so that
    /// nobody can say what the product comes in.
    pub(super) fn of(line: &OrderLine, product: &'a Product, loose: f64) -> Option<Self> {
        let bought = |kind: usize| line.bought.iter().find(|bought| bought.kind == kind).map_or(0, |own| own.count);
        let full = (0..product.packages.len()).map(bought).collect();
        (!product.packages.is_empty()).then_some(Self { packages: &product.packages, full, open: Vec::new(), loose })
    }

    fn there(&self) -> f64 {
        let full: f64 = self.full.iter().zip(self.packages).map(|(count, one)| *count as f64 * one.amount).sum();
        self.loose + full + self.open.iter().map(|(_, left)| left).sum::<f64>()
    }

    fn can_be_carried(&self, kind: usize) -> bool {
        self.packages[kind].amount <= MOST_IN_ONE
    }

    /// What crews take that pour so much on a day, and may need so much more to top up; what they pour is gone afterwards.
    pub(super) fn day(&mut self, poured: &[f64], more: &[f64]) -> Day {
        let mut left = self.there();
        // What tops up comes after what the cards of the day pour.
        let mut spare = (left - poured.iter().sum::<f64>()).max(0.0);
        let mut crews = Vec::new();
        let mut needs = Vec::new();
        let mut used = Vec::new();
        for (poured, more) in poured.iter().zip(more) {
            let had = poured.min(left);
            left -= had;
            let topping = more.min(spare);
            spare -= topping;
            crews.push(Taken {
                parts: Vec::new(),
                missing: if poured - had > DUST { poured - had } else { 0.0 },
                is_less: more - topping > DUST,
            });
            needs.push(had + topping);
            used.push(had);
        }
        for (taken, need) in crews.iter_mut().zip(&mut needs) {
            let own = need.min(self.loose);
            if own > DUST {
                self.loose -= own;
                *need -= own;
                taken.parts.push(Part::Stock(own));
            }
        }
        let before = (self.full.clone(), self.open.clone());
        let mut sources = Vec::new();
        match self.whole(&needs) {
            Some(parts) => crews.iter_mut().zip(parts).for_each(|(taken, parts)| taken.parts.extend(parts)),
            None => {
                (self.full, self.open) = before;
                let parts = self.mixed(&needs);
                let fills = |part: &Part| if let Part::Filled(value) = part { *value } else { 0.0 };
                let filled: f64 = parts.iter().flatten().map(fills).sum();
                sources = self.sources(filled);
                crews.iter_mut().zip(parts).for_each(|(taken, parts)| taken.parts.extend(parts));
            }
        }
        let filled: f64 = crews.iter().zip(&used).map(|(taken, used)| self.come_back(taken, *used)).sum();
        let stays = sources.iter().map(|(kind, left, was_open)| (*kind, *left, *was_open));
        self.draw(stays.collect(), filled);
        Day { crews, sources: sources.into_iter().map(|(kind, _, was_open)| (kind, was_open)).collect() }
    }

    /// Whole containers for each crew, opened ones first; nothing where some crew would go without.
    fn whole(&mut self, needs: &[f64]) -> Option<Vec<Vec<Part>>> {
        // What it costs is settled by the order: here the fewest containers count.
        let unpriced: Vec<Package> =
            self.packages.iter().map(|package| Package { price: None, ..package.clone() }).collect();
        let mut all = Vec::new();
        for need in needs {
            let (mut need, mut parts) = (*need, Vec::new());
            while let Some(at) = self.open.iter().position(|(kind, _)| need > DUST && self.can_be_carried(*kind)) {
                let (kind, left) = self.open.remove(at);
                need -= left;
                parts.push(Part::Opened(kind, left));
            }
            if need > DUST {
                let carried = |kind: usize| Some(if self.can_be_carried(kind) { self.full[kind] } else { 0 });
                let left: Vec<Option<u64>> = (0..self.packages.len()).map(carried).collect();
                let covered = cover(need, &unpriced, &left);
                if covered.short > DUST {
                    return None;
                }
                self.full.iter_mut().zip(&covered.counts).for_each(|(full, count)| *full -= count);
                parts.push(Part::Whole(covered.counts));
            }
            all.push(parts);
        }
        Some(all)
    }

    /// Containers that each crew uses up alone, and what it has to fill from others.
    fn mixed(&mut self, needs: &[f64]) -> Vec<Vec<Part>> {
        let mut largest: Vec<usize> = (0..self.packages.len()).filter(|kind| self.can_be_carried(*kind)).collect();
        largest.sort_by(|a, b| self.packages[*b].amount.total_cmp(&self.packages[*a].amount));
        let mut all = Vec::new();
        for need in needs {
            let (mut need, mut parts) = (*need, Vec::new());
            while let Some(at) = self.open.iter().position(|(kind, left)| self.can_be_carried(*kind) && *left <= need) {
                let (kind, left) = self.open.remove(at);
                need -= left;
                parts.push(Part::Opened(kind, left));
            }
            let mut counts = vec![0; self.packages.len()];
            for kind in &largest {
                let one = self.packages[*kind].amount;
                let count = ((need / one + DUST).floor() as u64).min(self.full[*kind]);
                counts[*kind] = count;
                self.full[*kind] -= count;
                need -= count as f64 * one;
            }
            if counts.iter().any(|count| *count > 0) {
                parts.push(Part::Whole(counts));
            }
            if need > DUST {
                parts.push(Part::Filled(need));
            }
            all.push(parts);
        }
        all
    }

    /// Containers that stay and hold so much: those too large to be carried first, opened ones before others.
    fn sources(&mut self, mut needed: f64) -> Vec<(usize, f64, bool)> {
        let mut found = Vec::new();
        for carried in [false, true] {
            while let Some(at) =
                self.open.iter().position(|(kind, _)| needed > DUST && self.can_be_carried(*kind) == carried)
            {
                let (kind, left) = self.open.remove(at);
                needed -= left;
                found.push((kind, left, true));
            }
            while needed > DUST {
                let there = (0..self.packages.len())
                    .filter(|kind| self.full[*kind] > 0 && self.can_be_carried(*kind) == carried);
                // The smallest that is enough, else the largest.
                let size = |kind: &usize| self.packages[*kind].amount;
                let kinds: Vec<usize> = there.collect();
                let enough = kinds.iter().copied().filter(|kind| size(kind) + DUST >= needed);
                let smallest = enough.min_by(|a, b| size(a).total_cmp(&size(b)));
                let Some(kind) = smallest.or_else(|| kinds.iter().copied().max_by(|a, b| size(a).total_cmp(&size(b))))
                else {
                    break;
                };
                self.full[kind] -= 1;
                needed -= self.packages[kind].amount;
                found.push((kind, self.packages[kind].amount, false));
            }
        }
        found
    }

    /// Puts back what a crew did not use; gives what it used of what it had filled.
    fn come_back(&mut self, taken: &Taken, mut used: f64) -> f64 {
        let mut use_of = |there: f64| {
            let part = used.min(there);
            used -= part;
            part
        };
        let mut filled = 0.0;
        for part in &taken.parts {
            match part {
                Part::Stock(value) => self.loose += value - use_of(*value),
                Part::Filled(value) => filled += use_of(*value),
                Part::Opened(kind, left) => {
                    let rest = left - use_of(*left);
                    self.open.extend((rest > DUST).then_some((*kind, rest)));
                }
                Part::Whole(counts) => {
                    for (kind, count) in counts.iter().enumerate() {
                        for _ in 0..*count {
                            let one = self.packages[kind].amount;
                            let rest = one - use_of(one);
                            if rest > one - DUST {
                                self.full[kind] += 1;
                            } else if rest > DUST {
                                self.open.push((kind, rest));
                            }
                        }
                    }
                }
            }
        }
        filled
    }

    /// Takes so much out of containers that stay, and puts them back.
    fn draw(&mut self, stays: Vec<(usize, f64, bool)>, mut used: f64) {
        for (kind, left, was_open) in stays {
            let part = used.min(left);
            used -= part;
            if !was_open && part <= DUST {
                self.full[kind] += 1;
            } else if left - part > DUST {
                self.open.push((kind, left - part));
            }
        }
    }
}
