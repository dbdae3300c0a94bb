//! A box or chamber that words describe whole: `box is 4 ft by 6 ft, water 3 ft deep`, `chamber 1.5 x 1.0 m, 0.8 m water`.

use super::super::phrases::Token;
use super::lengths::{Reader, Written};

/// Words for what holds the water of a spring, in remarks and headings alike.
pub const BOXES: [&str; 14] = [
    "box",
    "chamber",
    "basin",
    "springbox",
    "springhouse",
    "vault",
    "caja",
    "camara",
    "arqueta",
    "caixa",
    "bassin",
    "chambre",
    "captage",
    "bac",
];
const BY: [&str; 4] = ["x", "by", "×", "por"];
const WATER: [&str; 8] = ["water", "agua", "eau", "d'eau", "lamina", "lame", "tirante", "espejo"];
/// Words between the water and how deep it is.
const BETWEEN: [&str; 12] =
    ["of", "is", "stands", "standing", "about", "at", "de", "in", "it", "holds", "sits", "depth"];

/// The volume of water that such words give, in cubic metres; nothing where one of the three measures is missing or in doubt.
pub fn basin(tokens: &[Token]) -> Option<f64> {
    let reader = Reader::of(tokens);
    let last = tokens.len();
    if !(reader.has(&BOXES, 0, last) || reader.has(&["boite"], 0, last))
        || reader.has(&["?", "or", "not", "inlet", "o", "ou"], 0, last)
    {
        return None;
    }
    let found = reader.lengths()?;
    let [(one, _, one_ends), (other, begins, ends), (height, from, to)] = found.as_slice() else { return None };
    let joined = begins - one_ends == 1 && BY.contains(&reader.word(*one_ends));
    // `3 ft water`, `water stands 3 ft deep`
    let after = (*to..last.min(to + 3)).find(|at| !BETWEEN.contains(&reader.word(*at)));
    let before = (*ends..*from).rev().find(|at| !BETWEEN.contains(&reader.word(*at)));
    let of_water = [after, before].into_iter().flatten().any(|at| WATER.contains(&reader.word(at)));
    // The unit behind the second side is that of both.
    let unit = other.unit.or(one.unit)?;
    let si = |written: &Written| if written.unit.is_some() { written.value } else { unit.to_si(written.value) };
    (joined && of_water).then(|| si(one) * si(other) * si(height))
}
