//! Which containers of a depot go out with a crew: those that its order buys, each on one truck a day. What is too large to be carried,
//! or is on another truck, is filled from; and no more goes out than is there.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::from_stock::Pours;
use super::load::{Loaded, amount};
use super::phrases::Phrase;
use super::transport::MOST_IN_ONE;
use crate::kernel::requirement::Stock;
use crate::report::tables::package_list;
use crate::rollup::orders::{OrderLine, Orders, in_packages};
use crate::rollup::packages::cover;
use crate::scenario::product::Product;
use crate::scenario::supply::{BoughtBy, Package};
use crate::visit::CrewDay;

/// A crew's day: what its cards pour.
pub(super) struct Out<'a> {
    pub(super) day: &'a CrewDay,
    pub(super) loaded: &'a Loaded,
    pub(super) pours: &'a Pours<'a>,
    /// The product on the day of use.
    pub(super) stock: &'a Stock,
}

/// What each crew takes on its day, in words, in the order of `out`: `2 x 5 US gal`; nothing where it pours nothing.
pub(super) fn taken(out: &[Out<'_>], orders: &Orders, product: &Product, amounts: &Amounts<'_>) -> Vec<Option<String>> {
    let mut said = vec![None; out.len()];
    // Day by day, so that what is poured first is gone.
    let mut order: Vec<usize> = (0..out.len()).collect();
    order.sort_by_key(|at| (out[*at].day.date, out[*at].day.number));
    let mut there: BTreeMap<&str, f64> = BTreeMap::new();
    for same in order.chunk_by(|a, b| out[*a].day.day == out[*b].day.day) {
        let mut depots: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        same.iter().for_each(|at| depots.entry(out[*at].day.depot.as_str()).or_default().push(*at));
        for (depot, crews) in depots {
            let line = orders.poured_at(depot, &product.name);
            let by = product.bought_by();
            let first = line.map_or(f64::INFINITY, |line| out[crews[0]].pours.there(line));
            let left = there.entry(depot).or_insert(first);
            let poured: f64 = crews.iter().map(|at| by.amount(out[*at].loaded.poured())).sum();
            // What tops up comes after what the cards of the day pour.
            let mut spare = (*left - poured).max(0.0);
            let mut containers = Containers::of(line, product);
            for at in crews {
                let Out { loaded, stock, .. } = &out[at];
                let more = by.amount(loaded.topping_up());
                let taken = more.min(spare);
                spare -= taken;
                let share = if more > 0.0 { taken / more } else { 1.0 };
                let si = loaded.poured() + loaded.topping_up() * share;
                said[at] = containers.take(si, stock, amounts).map(|said| match share < 1.0 - 1e-9 {
                    true => format!("{said}. {}", amounts.words.say(Phrase::LoadLess)),
                    false => said,
                });
            }
            *left -= poured;
        }
    }
    said
}

/// Containers of the first scenario's product at a depot on a day.
struct Containers<'a> {
    line: Option<&'a OrderLine>,
    by: BoughtBy,
    packages: Vec<Package>,
    /// What is left of each kind of package that a crew can carry.
    left: Vec<Option<u64>>,
}

impl<'a> Containers<'a> {
    fn of(line: Option<&'a OrderLine>, product: &Product) -> Self {
        // What it costs is settled by the order: here the fewest containers count.
        let packages = product.packages.iter().map(|package| Package { price: None, ..package.clone() });
        let packages: Vec<Package> = packages.collect();
        let line = line.filter(|line| !line.bought.is_empty());
        let bought = |kind: usize| line?.bought.iter().find(|bought| bought.kind == kind);
        let count = |(kind, package): (usize, &Package)| {
            let count = bought(kind).map_or(0, |bought| bought.count);
            Some(if package.amount > MOST_IN_ONE { 0 } else { count })
        };
        let left = packages.iter().enumerate().map(count).collect();
        Self { line, by: product.bought_by(), packages, left }
    }

    fn take(&mut self, si: f64, stock: &Stock, amounts: &Amounts<'_>) -> Option<String> {
        let said = amounts.product(amount(si, stock), stock).filter(|_| si > 0.0)?;
        let Some(line) = self.line else {
            return Some(amounts.words.with(Phrase::LoadFilledAny, &[("amount", &said)]));
        };
        let covered = cover(self.by.amount(si), &self.packages, &self.left);
        if covered.short > 0.0 {
            let fills = [("amount", said.as_str()), ("containers", &package_list(line))];
            return Some(amounts.words.with(Phrase::LoadFilled, &fills));
        }
        for (left, count) in self.left.iter_mut().zip(&covered.counts) {
            *left = left.map(|left| left.saturating_sub(*count));
        }
        Some(in_packages(&covered.counts, &self.packages))
    }
}
