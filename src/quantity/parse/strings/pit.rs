//! A dug well by its widths, which are in the unit of its depths: `8 ft rings to 32'`, `1.40 to 6 m, then 1.00`.

use super::super::items::Amount;
use super::pieces::{Piece, laid};
use super::spoken::Spoken;
use crate::quantity::unit::Unit;

/// How wide the parts of a dug well are, in metres. Common practice, no source.
const PIT_M: std::ops::RangeInclusive<f64> = 0.45..=8.0;

/// `8 ft rings to 32'`: the one width of a dug well, in the unit of its depth.
pub(super) fn pit(one: &Spoken) -> Option<Piece> {
    let unit = one.diameter.unit.filter(|unit| unit.is_of_depths())?;
    let (across, bottom) = (one.diameter.si(unit), one.bottom?.si(unit));
    let sound = PIT_M.contains(&across) && bottom > across && one.top.is_none_or(|top| top.value == 0.0);
    sound.then_some(Piece {
        top: 0.0,
        bottom: Some(bottom),
        diameter: across,
        may_hang_from_ground: false,
        depths_in: None,
    })
}

/// Whether the diameters are in units of widths; or each has its unit, and those of a depth are a dug well's that reaches
/// deeper than it is wide: `3 ft to 20 ft, 6 in below`.
pub(super) fn are_widths(spoken: &[Spoken]) -> bool {
    let of_widths = |one: &Spoken| one.diameter.unit.is_none_or(Unit::is_of_widths);
    let is_dug = |one: &Spoken| {
        one.diameter.unit.is_some_and(|unit| {
            let across = one.diameter.si(unit);
            PIT_M.contains(&across) && one.bottom.is_none_or(|bottom| bottom.si(unit) > across)
        })
    };
    spoken.iter().all(of_widths)
        || spoken.len() > 1 && spoken.iter().all(|one| one.diameter.unit.is_some() && (of_widths(one) || is_dug(one)))
}

/// A dug well that narrows, where widths are in the unit of depths: `1.40 to 6 m, then 1.00`. Each width must be a pit's, each
/// depth more than any width, and the last must go on to the bottom.
pub(super) fn steps(spoken: &[Spoken], unit: &'static Unit) -> Option<Vec<Piece>> {
    let (last, upper) = spoken.split_last().filter(|(_, upper)| !upper.is_empty())?;
    let same = |amount: &Amount| amount.unit.is_none_or(|own| std::ptr::eq(own, unit));
    let is_pit = |one: &Spoken| same(&one.diameter) && PIT_M.contains(&one.diameter.si(unit));
    let widest = spoken.iter().map(|one| one.diameter.value).fold(0.0, f64::max);
    let reaches = |one: &Spoken| one.top.is_none() && one.bottom.is_some_and(|to| same(&to) && to.value > widest);
    let goes_on = last.top.is_none() && last.bottom.is_none() && (last.below || last.joined);
    (spoken.iter().all(is_pit) && upper.iter().all(reaches) && goes_on).then(|| laid(spoken, unit, unit))?
}
