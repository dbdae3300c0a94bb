//! A cell of a size: one number, or what stands there instead of it.

use super::ColumnUnit;
use super::number::{IF_RIGHT, written};
use super::understood::{Datum, Form, Said, Understood, unread};
use crate::field::Field;
use crate::finding::catalogue;
use crate::quantity::parse::{self, Comma, Nature, Piece, Reading, Reference, Size, Sort, Trouble};
use crate::quantity::unit::{Dimension, Gallon};

/// What the length of a field is of; nothing for fields of other dimensions.
const fn sort(field: Field) -> Option<Sort> {
    Some(match field {
        Field::TotalDepth | Field::CasingDepth => Sort::Depth,
        Field::StaticWaterLevel => Sort::Level,
        Field::WaterColumn | Field::GroundElevation => Sort::Height,
        Field::StickUp => Sort::Rim,
        Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter | Field::WallThickness => {
            Sort::Diameter
        }
        _ => return None,
    })
}

/// Whether the water of a well is reckoned from the field, so that a bound or a second number there holds the well back.
pub(super) fn measures_water(field: Field) -> bool {
    sort(field).is_some() || matches!(field, Field::WaterVolume | Field::PlumbingVolume)
}

/// Reads a cell that is not a plain number.
pub(super) fn read(
    field: Field,
    text: &str,
    dimension: Dimension,
    column: ColumnUnit,
    gallon: Option<Gallon>,
    comma: Comma,
) -> Result<Understood, Trouble> {
    let Some(sort) = sort(field) else {
        let reading = parse::quantity_with(text, dimension, column.unit, gallon, comma)?;
        let doubt = if measures_water(field) { parse::second(&reading) } else { super::second::value(field, &reading) };
        return doubt.map_or_else(|| Ok(number(field, text, &reading, None, column, comma)), Err);
    };
    let instead = |form| Understood {
        said: Some(Box::new(Said { form: Some(form), ..Said::default() })),
        ..Understood::default()
    };
    if field == Field::OpenHoleDiameter
        && let Some(rings) = parse::rings(text, column.unit, comma)
    {
        return Ok(instead(Form::Rings(rings)));
    }
    let not_here = || Trouble::NotUnderstood { part: text.to_owned(), position: 1, near: None };
    Ok(match parse::size(text, sort, column.unit, comma)? {
        Size::One { reading, from } => number(field, text, &reading, from, column, comma),
        Size::Full { flowing } if field == Field::WaterColumn => {
            instead(if flowing { Form::Flowing } else { Form::Full })
        }
        Size::Level { reading, from } if field == Field::WaterColumn && reading.nature == Nature::Exact => Understood {
            said: Some(Box::new(Said { from, form: Some(Form::Level(reading.si)), ..Said::default() })),
            ..Understood::default()
        },
        Size::Full { flowing: false } => {
            let says = "read as water standing at the ground";
            let mut full = Understood::of(Datum::Number(0.0)).say(catalogue::WATER_IN_WORDS, says, IF_RIGHT);
            // `al ras del suelo` in a column of levels from the rim.
            if parse::names_ground(text) {
                full.said = Some(Box::new(Said { from: Some(Reference::Ground), ..Said::default() }));
            }
            full
        }
        Size::Full { flowing: true } => Understood { datum: Datum::Number(0.0), ..instead(Form::Flowing) },
        Size::Water(reading) if reading.nature == Nature::Exact && reading.si > 0.0 => instead(Form::Water(reading.si)),
        Size::Strings(pieces) if field == Field::CasingDiameter => instead(Form::Strings(pieces)),
        // `10 to 20, 6 below` where the hole was asked: the upper one was drilled for the casing.
        Size::Strings(pieces) if field == Field::OpenHoleDiameter => match pieces.as_slice() {
            [.., above, Piece { bottom: None, diameter, .. }] if above.bottom.is_some() => {
                let says = format!("\"{text}\" is read as the hole below the casing: its last width");
                Understood::of(Datum::Number(*diameter)).say(catalogue::REMARK_AFTER_NUMBER, says, IF_RIGHT)
            }
            _ => return Err(not_here()),
        },
        Size::Pipe(pipe) if matches!(field, Field::CasingDiameter | Field::CasingOutsideDiameter) => {
            instead(Form::Pipe(pipe))
        }
        Size::Water(_) | Size::Level { .. } | Size::Strings(_) | Size::Pipe(_) => return Err(not_here()),
    })
}

/// One value, with its spread and what it is counted from.
fn number(
    field: Field,
    text: &str,
    reading: &Reading,
    from: Option<Reference>,
    column: ColumnUnit,
    comma: Comma,
) -> Understood {
    if measures_water(field) && matches!(reading.nature, Nature::AtLeast | Nature::AtMost) {
        let end = if reading.nature == Nature::AtLeast { "more" } else { "less" };
        let shown = crate::quantity::format::quantity(reading.si, reading.unit, 6);
        let says = format!("{shown} or {end}: a bound is not a size");
        return unread(
            field,
            catalogue::BOUND_FOR_SIZE,
            says,
            "write the measured value; nothing where it is not known",
        );
    }
    let mut understood = written(field, text, reading, column, comma);
    let range = matches!(reading.nature, Nature::Range { .. }) && measures_water(field);
    if reading.about && understood.spread.is_none() && understood.datum == Datum::Number(reading.si) {
        understood.spread = sort(field).map(|sort| spread(sort, reading.si));
    }
    if matches!(from, Some(Reference::Top | Reference::SeaLevel)) {
        // The words are put to use, and a finding of their own says so.
        understood.remarks.retain(|remark| remark.code != catalogue::REMARK_AFTER_NUMBER);
    }
    if range || from.is_some() {
        understood.said = Some(Box::new(Said { from, range, form: None }));
    }
    understood
}

/// Lowest and highest of an estimate: a tenth either way, half of that for a diameter, whose square counts. Common practice,
/// no source.
fn spread(sort: Sort, si: f64) -> (f64, f64) {
    let part = if sort == Sort::Diameter { 0.05 } else { 0.1 };
    let (one, other) = (si * (1.0 - part), si * (1.0 + part));
    (one.min(other), one.max(other))
}
