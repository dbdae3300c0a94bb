//! Casing written in words: `10 in. to 38 ft, 8 in. below`, `6" 0-40, 4" 40-120`, `6-5/8 OD x .188 to 62, OH 6`.
//!
//! Every word must be known, else nothing is read: what is not surely one string below or inside another is a doubt.

mod length;
mod pieces;
mod pit;
mod signs;
mod spoken;
mod words;

use super::super::unit::{self, Unit};
use super::items::{Amount, Item};
pub(super) use length::across_by_length;
use length::{is_length_first, is_long_casing};
pub use pieces::Piece;
use pieces::laid;
use pit::{are_widths, pit, steps};
use signs::signs;
use spoken::{Spoken, spoken};
use words::{Sign, sign};

/// Strings of casing, where the text is made of nothing else and gives a depth; `default` is the unit of a bare diameter.
pub(super) fn strings(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Vec<Piece>> {
    let mut signs = signs(items)?;
    // `8 x 40, 6 open hole`: the length of the first string.
    if let ([Sign::Amount(across), by @ Sign::By, Sign::Amount(length), _, ..], true) =
        (signs.as_mut_slice(), items.len() > 3)
        && is_long_casing(across, length, default)
    {
        *by = Sign::To;
    }
    if is_length_first(&signs, items) {
        signs.insert(1, Sign::Of);
    }
    let whole = signs.contains(&Sign::Bottom);
    let spoken = spoken(&signs, default)?;
    // `8 in to 30 m, 6 in below` says its own unit.
    let of_pipes = spoken.iter().any(|one| one.diameter.unit.is_some_and(Unit::is_of_widths));
    if let Some(unit) = default.filter(|unit| unit.is_of_depths() && !of_pipes) {
        return steps(&spoken, unit);
    }
    if let [one] = spoken.as_slice()
        && let Some(pit) = pit(one)
    {
        return Some(vec![pit]);
    }
    let depths = |spoken: &Spoken| [spoken.top, spoken.bottom].into_iter().flatten();
    if spoken.is_empty()
        || !are_widths(&spoken)
        || spoken.iter().flat_map(depths).any(|depth| depth.unit.is_some_and(Unit::is_of_widths))
        || !whole && !spoken.iter().any(|one| depths(one).next().is_some())
    {
        return None;
    }
    // A unit that is written once holds for its kind.
    let of_diameter = spoken.iter().find_map(|one| one.diameter.unit);
    let of_diameter = of_diameter.or(default.filter(|unit| unit.is_of_widths()))?;
    let written = spoken.iter().flat_map(depths).find_map(|depth| depth.unit);
    let of_depth = written.or_else(|| unit::by_symbol(if of_diameter.symbol == "in" { "ft" } else { "m" }))?;
    let mut pieces = laid(&spoken, of_diameter, of_depth)?;
    if written.is_none() {
        pieces.iter_mut().for_each(|piece| piece.depths_in = Some(of_depth));
    }
    Some(pieces)
}

/// One diameter of a driven point and its pipe: `1-1/4 pipe & pt`.
pub(super) fn point(items: &[Item<'_>]) -> Option<Amount> {
    let known = |item: &Item<'_>| match item {
        Item::Word(word) => words::POINT.contains(&word.as_ref()) || matches!(sign(item), Some(None)),
        Item::Amount(_) => true,
        Item::Mark(mark) => matches!(mark, '&' | '+' | '.' | ',' | '-'),
    };
    let says = |item: &Item<'_>| item.word().is_some_and(|word| words::POINT.contains(&word) || word == "pipe");
    let mut amounts = items.iter().filter_map(Item::amount);
    let amount = amounts.next()?;
    (amounts.next().is_none() && items.iter().all(known) && items.iter().any(says)).then_some(amount)
}
