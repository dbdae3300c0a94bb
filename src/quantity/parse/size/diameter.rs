//! A diameter that is not one number: strings of casing, sides, the way around, a pipe by its outside.

use super::super::items::{Amount, Item, compounds};
use super::super::{Nature, Reading, Trouble, shape, strings};
use super::Size;
use crate::quantity::unit::{self, Dimension, Unit};

/// As [`across`]; a form that would be one in inches lacks only its unit.
pub(super) fn across_or_unit(
    raw: &[Item<'_>],
    whole: &[Item<'_>],
    default: Option<&'static Unit>,
) -> Result<Option<Size>, Trouble> {
    let found = across(raw, whole, default);
    if found.is_none() && default.is_none() && across(raw, whole, unit::by_symbol("in")).is_some() {
        return Err(Trouble::NoUnit { dimension: Dimension::Length });
    }
    Ok(found)
}

/// The forms of a diameter.
fn across(raw: &[Item<'_>], whole: &[Item<'_>], default: Option<&'static Unit>) -> Option<Size> {
    let apart = compounds(raw, false);
    if let Some(pieces) = strings::strings(raw, default).or_else(|| strings::strings(&apart, default)) {
        return Some(Size::Strings(pieces));
    }
    if let Some(piece) = strings::across_by_length(&apart, default) {
        return Some(Size::Strings(vec![piece]));
    }
    if let Some(pipe) = shape::pipe(&apart, default) {
        return Some(Size::Pipe(pipe));
    }
    let one = |amount: Amount, note: &'static str| {
        let unit = amount.unit.or(default).filter(|unit| unit.is_of_widths())?;
        let mut reading = Reading::plain(amount.value, unit, amount.unit.is_some());
        reading.note = Some(note.into());
        Some(Size::one(reading))
    };
    if let Some(amount) = strings::point(&apart) {
        return one(amount, "pipe and drive point");
    }
    if let Some(inside) = shape::inside_of_pair(&apart) {
        return one(inside, "inside and outside: the inside");
    }
    let worked = shape::shape(whole, default)?;
    Some(Size::one(Reading {
        si: worked.si,
        unit: worked.unit,
        unit_was_written: worked.written,
        nature: Nature::Exact,
        note: Some(worked.note.into()),
        about: false,
    }))
}
