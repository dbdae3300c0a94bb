//! A casing by its width beside its length: `6 x 42`, `20' 6" steel`.

use super::super::items::{Amount, Item};
use super::pieces::Piece;
use super::words::Sign;
use crate::quantity::unit::{self, Unit};

/// What a pipe is made of, and what it is called.
const PIPE: [&str; 12] =
    ["steel", "stl", "pvc", "plastic", "galv", "galvanized", "iron", "pipe", "csg", "casing", "black", "abs"];

/// `20' 6" steel`: so many feet of a pipe, where feet and inches would be no pipe.
pub(super) fn is_length_first(signs: &[Sign], items: &[Item<'_>]) -> bool {
    /// The widest pipe that is written so, in inches, and the shortest length, in feet. Common practice, no source.
    const WIDEST_IN: f64 = 16.0;
    const SHORTEST_FT: f64 = 10.0;
    let [Sign::Amount(length), Sign::Amount(across), ..] = signs else { return false };
    let is = |amount: &Amount, symbol: &str| amount.unit.is_some_and(|unit| unit.symbol == symbol);
    is(length, "ft")
        && is(across, "in")
        && length.value >= SHORTEST_FT
        && across.value <= WIDEST_IN
        && items.iter().filter_map(Item::word).any(|word| PIPE.contains(&word))
}

/// `6 x 42`: a casing by its width and its length, where no well has such sides; `default` is the unit of a bare width.
pub(in crate::quantity::parse) fn across_by_length(
    items: &[Item<'_>],
    default: Option<&'static Unit>,
) -> Option<Piece> {
    // `4 PVC x 156`: what the pipe is made of changes nothing.
    let is_pipe = |item: &Item<'_>| item.word().is_some_and(|word| PIPE.contains(&word));
    let (across, by, length) = match items {
        [Item::Amount(across), by, Item::Amount(length)] => (across, by, length),
        [Item::Amount(across), of, by, Item::Amount(length)] if is_pipe(of) => (across, by, length),
        _ => return None,
    };
    if !by.is('×') && by.word() != Some("x") || !is_long_casing(across, length, default) {
        return None;
    }
    let of_length = length.unit.or_else(|| unit::by_symbol("ft"))?;
    Some(Piece {
        top: 0.0,
        bottom: Some(of_length.to_si(length.value)),
        diameter: across.unit.or(default)?.to_si(across.value),
        may_hang_from_ground: false,
        depths_in: if length.unit.is_some() { None } else { Some(of_length) },
    })
}

/// Whether two numbers can only be the width of a casing and its length.
pub(super) fn is_long_casing(across: &Amount, length: &Amount, default: Option<&'static Unit>) -> bool {
    /// No casing that is listed so is wider, in inches, and hardly one is shorter, in feet. Common practice, no source.
    const WIDEST_IN: f64 = 12.0;
    /// A casing is so many feet long for each inch of its width. Common practice, no source.
    const LEAST_SLENDER: f64 = 2.0;
    let Some(of_across) = across.unit.or(default).map(|unit| unit.symbol) else { return false };
    let of_length = length.unit.map_or("ft", |unit| unit.symbol);
    if across.value <= 0.0 || !matches!(of_length, "ft" | "m") {
        return false;
    }
    let told = across.unit.is_some_and(Unit::is_of_widths) && length.unit.is_some();
    told || match (of_across, of_length) {
        ("in", "ft") => {
            across.value <= WIDEST_IN && length.value > WIDEST_IN && length.value >= LEAST_SLENDER * across.value
        }
        ("mm", "m") => across.value >= LEAST_SLENDER * length.value,
        _ => false,
    }
}
