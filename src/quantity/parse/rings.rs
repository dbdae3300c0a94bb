//! Narrower rings at the bottom of a dug well: `5 buses de 0,5 m, Ø 100`, `4 x 1,0 Ø 140`. Wells of concrete rings are often
//! sunk so: the lower rings slide down inside the upper ones. Common practice, no source.

use super::super::unit::Unit;
use super::characters::small_letters;
use super::items::{Item, items};
use super::number::Comma;

/// Rings set inside the bottom of a well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rings {
    /// How high they stand in all, in metres.
    pub height: f64,
    /// How wide they are, in metres; nothing where that is not written.
    pub diameter: Option<f64>,
}

/// Words for rings and between their numbers.
const WORDS: &[&str] = &[
    "x",
    "buse",
    "buses",
    "anneau",
    "anneaux",
    "ring",
    "rings",
    "anillo",
    "anillos",
    "anel",
    "aneis",
    "anéis",
    "manilha",
    "manilhas",
    "tile",
    "tiles",
    "de",
    "of",
    "each",
    "high",
    "dia",
    "diam",
    "diamètre",
    "diametro",
    "diámetro",
    "ø",
    "en",
];

/// Reads rings: their number, the height of one, and how wide they are, in `across` where no unit is written.
pub fn rings(text: &str, across: Option<&'static Unit>, comma: Comma) -> Option<Rings> {
    let lower = small_letters(text);
    let items = items(&lower, comma);
    let known = |item: &Item<'_>| match item {
        Item::Amount(_) => true,
        Item::Word(word) => WORDS.contains(&word.as_ref()),
        Item::Mark(mark) => matches!(mark, '×' | 'ø' | '⌀' | ',' | '.' | ':' | '(' | ')'),
    };
    let amounts: Vec<_> = items.iter().filter_map(Item::amount).collect();
    let ([count, each] | [count, each, _]) = amounts.as_slice() else { return None };
    let counted = count.unit.is_none() && count.value.fract() == 0.0 && (1.0..=40.0).contains(&count.value);
    // A ring is a hand's breadth to a person high.
    let height = each.unit.map_or(each.value, |unit| unit.to_si(each.value));
    if !items.iter().all(known) || !counted || !(0.2..=2.5).contains(&height) {
        return None;
    }
    let diameter = match amounts.get(2) {
        Some(wide) => Some(wide.unit.or(across).map(|unit| unit.to_si(wide.value))?),
        None => None,
    };
    Some(Rings { height: count.value * height, diameter })
}
