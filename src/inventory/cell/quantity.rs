//! A cell of a quantity.

use super::missing::is_sentinel;
use super::number::{IF_RIGHT, zero_for_missing};
use super::understood::{Datum, Understood, unread};
use super::{CellRules, ColumnUnit, size};
use crate::field::{Field, Quantity};
use crate::finding::catalogue;
use crate::inventory::dates;
use crate::inventory::rows::CellKind;
use crate::quantity::parse::{Comma, Trouble, plain};
use crate::quantity::unit::{Dimension, Unit};

const DATE_HELP: &str =
    "a spreadsheet may have turned a range such as 6-8 into a date: format the cell as text and type it again";

/// A plain number that is nothing but itself, in SI: the nine cells in ten that need no thought.
pub fn quick_number(field: Field, text: &str, unit: &Unit) -> Option<f64> {
    let value = plain(text).filter(|value| *value != 0.0 && !is_sentinel(*value, field))?;
    if matches!(field, Field::StaticWaterLevel | Field::TotalDepth) && text.as_bytes()[0] == b'+' {
        return None; // A plus sign is a question: above or below, so much or more.
    }
    (unit.dimension != Dimension::Angle || value.abs() <= 180.0).then(|| unit.to_si(value))
}

impl CellRules {
    pub(super) fn quantity(
        &self,
        field: Field,
        quantity: &Quantity,
        text: &str,
        kind: CellKind,
        column: ColumnUnit,
        comma: Comma,
    ) -> Understood {
        let unit = column.unit;
        // `+80` of a depth is eighty or more.
        let bound = field == Field::TotalDepth && text.starts_with('+');
        if let (Some(value), Some(unit)) = (plain(text), unit)
            && kind != CellKind::Date
            && !bound
        {
            if value == 0.0 && !quantity.zero_possible {
                return zero_for_missing(field);
            }
            if is_sentinel(value, field) {
                return Understood::default().say(
                    catalogue::SENTINEL,
                    format!("{text} stands for \"not known\"; read as missing"),
                    "leave the cell blank where the value is not known",
                );
            }
            if quantity.dimension == Dimension::Angle
                && let Some(degrees) = packed(text, value, quantity.possible.1)
            {
                let says = format!("degrees, minutes and seconds in one number: read as {degrees:.6}");
                return Understood::of(Datum::Number(degrees)).say(catalogue::PACKED_DEGREES, says, IF_RIGHT);
            }
            if field == Field::StaticWaterLevel && text.starts_with('+') {
                return self.trouble(field, quantity, text, &Trouble::PlusLevel);
            }
            return Understood::of(Datum::Number(unit.to_si(value)));
        }
        if self.is_missing(text) {
            return Understood::default();
        }
        if kind == CellKind::Date {
            return unread(field, catalogue::DATE_FOR_NUMBER, "the workbook holds a date here".into(), DATE_HELP);
        }
        size::read(field, text, quantity.dimension, column, self.gallon, comma)
            .unwrap_or_else(|trouble| self.trouble(field, quantity, text, &trouble))
    }

    fn trouble(&self, field: Field, quantity: &Quantity, text: &str, trouble: &Trouble) -> Understood {
        let example = quantity.dimension.example();
        let (code, help) = match trouble {
            Trouble::NoUnit { .. } if plain(text).is_some_and(|value| is_sentinel(value, field)) => {
                return Understood::default();
            }
            Trouble::NoUnit { .. } => (
                catalogue::NO_UNIT,
                format!(
                    "write the unit, or [inventory.units] {} = \"{}\" (or the correct unit)",
                    field.name(),
                    quantity.unit
                ),
            ),
            Trouble::GallonUndeclared { .. } => (
                catalogue::GALLON_UNDECLARED,
                "[campaign] units = \"us\" or \"imperial\", or write US gal or imp gal".to_owned(),
            ),
            Trouble::WrongDimension { .. } => {
                (catalogue::UNIT_OF_OTHER_DIMENSION, format!("write it as in \"{example}\""))
            }
            _ if dates::looks_like_date(text) => {
                return unread(field, catalogue::DATE_FOR_NUMBER, "this looks like a date".into(), DATE_HELP);
            }
            Trouble::TwoValues { .. } if matches!(field, Field::CasingDiameter) => (
                catalogue::TWO_READINGS,
                "write how deep each reaches, as in \"8 in to 60 ft, 6 in below\", or the one that counts".to_owned(),
            ),
            Trouble::TwoValues { .. } => (catalogue::TWO_READINGS, "write the one that counts".to_owned()),
            Trouble::FeetOrRange { .. } => (
                catalogue::TWO_READINGS,
                "write feet and inches as in 8' 11\", or the one value that counts".to_owned(),
            ),
            Trouble::PlusLevel => (
                catalogue::TWO_READINGS,
                "write it as in \"3 ft above ground\" where the water stands above the ground, else take the sign out"
                    .to_owned(),
            ),
            Trouble::Dry => {
                (catalogue::NOT_AT_REST, "leave a dry well out; write the level if there is water".to_owned())
            }
            Trouble::Pumping => (catalogue::NOT_AT_REST, "write the level at rest, before pumping".to_owned()),
            _ => (catalogue::NUMBER_NOT_UNDERSTOOD, format!("write it as in \"{example}\", or leave the cell blank")),
        };
        let mut understood = unread(field, code, trouble.to_string(), help);
        if let Trouble::NotUnderstood { part, near: Some(near), .. } = trouble
            && let Some(remark) = understood.remarks.first_mut()
        {
            remark.suggested = text.strip_suffix(part.as_str()).map(|number| format!("{number}{near}"));
        }
        understood
    }
}

/// Degrees, minutes and seconds packed into one number, as in 443053.32: only what cannot be decimal degrees.
fn packed(text: &str, value: f64, limit: f64) -> Option<f64> {
    let whole = text.trim_start_matches(['-', '+']).split('.').next().unwrap_or_default();
    if value.abs() <= limit || !(6..=7).contains(&whole.len()) {
        return None;
    }
    let magnitude = value.abs();
    let degrees = (magnitude / 10_000.0).floor();
    let minutes = ((magnitude - degrees * 10_000.0) / 100.0).floor();
    let seconds = magnitude - degrees * 10_000.0 - minutes * 100.0;
    let sound = degrees <= limit && minutes < 60.0 && seconds < 60.0;
    sound.then(|| (degrees + minutes / 60.0 + seconds / 3600.0).copysign(value))
}
