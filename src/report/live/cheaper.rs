//! Whether another count of packages would cost less now: for each kind as many whole packages as go into the need, and the cheapest
//! single kind for the rest. Counts stay those of the plan; this says when to plan again.

use super::formula::SLACK;
use super::model::PACKAGES;
use super::prices::Priced;
use crate::document::cell::Cell;
use crate::document::formula::{Pieces, Place};

/// Columns of Packages: need, size, price, what its kind leaves of the need, and what that choice costs.
const NEED: u16 = 1;
const SIZE: u16 = 8;
const PRICE: u16 = 10;
const REST: u16 = 19;
const CHOICE: u16 = 20;

/// More kinds than this make a formula too long to be read.
const MOST_KINDS: usize = 20;

/// The packages of a need: how much is to be bought, size and price of each kind, and the row of the first.
pub(super) struct Kinds<'a> {
    pub(super) gap: f64,
    pub(super) own: &'a [&'a Priced],
    pub(super) sizes: Vec<f64>,
    pub(super) first_row: u32,
}

impl Kinds<'_> {
    /// Kinds of which any number can be had.
    fn open(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.own.len()).filter(|kind| !self.own[*kind].is_limited && self.own.len() <= MOST_KINDS)
    }

    fn rest(&self, kind: usize) -> f64 {
        self.gap - (self.gap / self.sizes[kind]).floor() * self.sizes[kind]
    }

    /// What it costs to buy as many of a kind as go into the need, and the rest of the cheapest kind.
    fn choice(&self, kind: usize) -> Option<f64> {
        let price = self.own[kind].value?;
        let rest = |other: usize| {
            let (price, size) = self.own[other].value.map_or((price, self.sizes[kind]), |own| (own, self.sizes[other]));
            (self.rest(kind) / size - crate::relation::SLACK).max(0.0).ceil() * price
        };
        let least = self.open().map(rest).fold(f64::INFINITY, f64::min);
        Some((self.gap / self.sizes[kind]).floor() * price + least)
    }

    /// Whether the packages of a cost could be had for less.
    pub(super) fn is_cheaper(&self, cost: Option<f64>) -> bool {
        let choices = self.open().filter_map(|kind| self.choice(kind));
        let least = choices.fold(f64::INFINITY, f64::min);
        least.is_finite() && cost.is_some_and(|cost| cost > least + crate::relation::SLACK * least.max(1.0))
    }

    /// The cells of a kind's row: what it leaves of the need, and what that choice costs.
    pub(super) fn cells(&self, kind: usize) -> [Cell; 2] {
        if !self.open().any(|open| open == kind) {
            return [Cell::empty(), Cell::empty()];
        }
        let here = Pieces::here;
        let gap = || super::model::indexed("Needs_gap", here(NEED));
        let whole = || Pieces::call("ROUNDDOWN", [gap().then("/").and(here(SIZE)), Pieces::text("0")]);
        let rest = gap().then("-").and(whole()).then("*").and(here(SIZE));
        let up = |size: Pieces, price: Pieces| {
            let parts = here(REST).then("/").and(size).then(format!("-{SLACK}"));
            let none = Pieces::call("MAX", [Pieces::text("0"), parts]);
            Pieces::call("ROUNDUP", [none, Pieces::text("0")]).then("*").and(price)
        };
        let at =
            |row: usize, column: u16| Pieces::at(Place { sheet: PACKAGES, row: self.first_row + row as u32, column });
        // What has no price is not bought: the rest is of the same kind.
        let others = self.open().map(|other| {
            let known = Pieces::call("ISNUMBER", [at(other, PRICE)]);
            Pieces::call("IF", [known, up(at(other, SIZE), at(other, PRICE)), up(here(SIZE), here(PRICE))])
        });
        let cost = whole().then("*").and(here(PRICE)).then("+").and(Pieces::call("MIN", others));
        let known = Pieces::call("ISNUMBER", [here(PRICE)]);
        let choice = Pieces::call("IF", [known, cost, Pieces::quoted("")]);
        [
            Cell::formula(rest.giving(self.rest(kind), 2)),
            Cell::formula(choice.giving(self.choice(kind).unwrap_or(f64::NAN), 2)),
        ]
    }

    /// 1 where another count costs less than the cost in a column of the need's row; `unpriced` counts what has no price there.
    pub(super) fn alert(&self, cost: u16, unpriced: u16, is_cheaper: bool) -> Cell {
        let choices = || {
            self.open()
                .map(|kind| Pieces::at(Place { sheet: PACKAGES, row: self.first_row + kind as u32, column: CHOICE }))
        };
        if choices().next().is_none() {
            return Cell::number(0.0, 0);
        }
        let least = || Pieces::call("MIN", choices());
        let most = least().then(format!("+{SLACK}*")).and(Pieces::call("MAX", [Pieces::text("1"), least()]));
        let more = Pieces::call("N", [Pieces::here(cost)]).then(">").and(most);
        let known = Pieces::call("COUNT", choices()).then(">0");
        let all = Pieces::call("AND", [Pieces::here(unpriced).then("=0"), known, more]);
        let pieces = Pieces::call("IF", [all, Pieces::text("1"), Pieces::text("0")]);
        Cell::formula(pieces.giving(f64::from(u8::from(is_cheaper)), 0))
    }
}
