//! Which containers of a depot go out with a crew: those that its order buys and what stands in its stock, each on one truck a day,
//! from one day to the next. What is too large to be carried, or is needed by two trucks, stays and is filled from; and no more goes
//! out than is there.

use std::collections::BTreeMap;

use super::amounts::Amounts;
use super::from_stock::Pours;
use super::load::{Loaded, amount};
use super::phrases::Phrase;
use super::shelf::{Part, Shelf};
use crate::kernel::requirement::Stock;
use crate::rollup::orders::{Orders, in_packages};
use crate::scenario::product::Product;
use crate::visit::CrewDay;

/// A crew's day: what its cards pour.
pub(super) struct Out<'a> {
    pub(super) day: &'a CrewDay,
    pub(super) loaded: &'a Loaded,
    pub(super) pours: &'a Pours<'a>,
    /// The product on the day of use.
    pub(super) stock: &'a Stock,
}

/// What each crew takes on its day, in words, in the order of `out`, parts apart by semicolons: `2 x 5 US gal`; nothing where it pours nothing.
pub(super) fn taken(out: &[Out<'_>], orders: &Orders, product: &Product, amounts: &Amounts<'_>) -> Vec<Option<String>> {
    let mut said = vec![None; out.len()];
    let mut shelves: BTreeMap<&str, Option<Shelf<'_>>> = BTreeMap::new();
    // Day by day, so that what is poured first is gone.
    for same in in_days(out).chunk_by(|a, b| out[*a].day.day == out[*b].day.day) {
        let mut depots: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        same.iter().for_each(|at| depots.entry(out[*at].day.depot.as_str()).or_default().push(*at));
        for (depot, crews) in depots {
            let shelf = shelves.entry(depot).or_insert_with(|| {
                let line = orders.poured_at(depot, &product.name)?;
                Shelf::of(line, product, out[crews[0]].pours.loose(line))
            });
            for (at, words) in crews.iter().zip(of_day(shelf.as_mut(), &crews, out, product, amounts)) {
                said[*at] = words;
            }
        }
    }
    said
}

/// Places of crews' days in the order in which they go out.
pub(super) fn in_days(out: &[Out<'_>]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..out.len()).collect();
    order.sort_by_key(|at| (out[*at].day.date, out[*at].day.number));
    order
}

/// What the crews of a depot take on a day, in their order.
fn of_day(
    shelf: Option<&mut Shelf<'_>>,
    crews: &[usize],
    out: &[Out<'_>],
    product: &Product,
    amounts: &Amounts<'_>,
) -> Vec<Option<String>> {
    let by = product.bought_by();
    let words = |at: usize, value: f64| {
        let Out { stock, .. } = &out[at];
        amounts.product(amount(by.si(value), stock), stock).unwrap_or_default()
    };
    let Some(shelf) = shelf else {
        let any = |at: &usize| {
            let all = by.amount(out[*at].loaded.poured() + out[*at].loaded.topping_up());
            (all > 0.0).then(|| amounts.words.with(Phrase::LoadFilledAny, &[("amount", &words(*at, all))]))
        };
        return crews.iter().map(any).collect();
    };
    let poured: Vec<f64> = crews.iter().map(|at| by.amount(out[*at].loaded.poured())).collect();
    let more: Vec<f64> = crews.iter().map(|at| by.amount(out[*at].loaded.topping_up())).collect();
    let day = shelf.day(&poured, &more);
    let shared = day.filled_from(&product.packages);
    let fills = day.crews.iter().filter(|taken| taken.fills()).count();
    let say = |(at, taken): (&usize, &super::shelf::Taken)| {
        let part = |part: &Part| match part {
            Part::Stock(value) => amounts.words.with(Phrase::LoadFilledAny, &[("amount", &words(*at, *value))]),
            Part::Whole(counts) => in_packages(counts, &product.packages),
            Part::Opened(kind, left) => {
                let container = product.packages.get(*kind).map_or("", |package| &package.text);
                let fills = [("container", container), ("amount", &words(*at, *left))];
                amounts.words.with(Phrase::LoadOpened, &fills)
            }
            Part::Filled(value) => {
                let phrase = if fills > 1 { Phrase::LoadFilledShared } else { Phrase::LoadFilled };
                amounts.words.with(phrase, &[("amount", &words(*at, *value)), ("containers", &shared)])
            }
        };
        let older = out[*at].loaded.older(out[*at].stock, amounts).into_iter();
        let older = older
            .map(|[amount, age, _]| amounts.words.with(Phrase::LoadStopOlder, &[("amount", &amount), ("age", &age)]));
        let mut said = older.chain(taken.parts.iter().map(part)).collect::<Vec<_>>().join("; ");
        let mut behind = |sentence: String| {
            let end = if said.ends_with('.') { " " } else { ". " };
            said.push_str(if said.is_empty() { "" } else { end });
            said.push_str(&sentence);
        };
        if taken.missing > 0.0 {
            behind(amounts.words.with(Phrase::LoadMissing, &[("amount", &words(*at, taken.missing))]));
        }
        if taken.is_less {
            behind(amounts.words.say(Phrase::LoadLess));
        }
        (!said.is_empty()).then_some(said)
    };
    crews.iter().zip(&day.crews).map(say).collect()
}
