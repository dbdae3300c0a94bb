//! Texts that stand in no list, read as a cell of a field: values for blank cells, and right values of a table of corrections.

use super::cell::{self, CellRules, Datum};
use super::draft::Fixed;
use super::rows::CellKind;
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::field::{FIELDS, Field, species};
use crate::quantity::parse::Comma;
use crate::quantity::unit;

/// A field's value for blank cells, with its text; nothing where the rules fix none.
///
/// # Errors
/// In words, when the text cannot be read as this field.
pub fn fixed_value(rules: &ReadingRules, field: Field) -> std::result::Result<Option<(Datum, Box<str>)>, String> {
    let Some(text) = rules.fixed.get(&field).map(|text| text.trim()) else { return Ok(None) };
    match read_text(rules, field, text) {
        (Datum::Missing | Datum::Unread, why) => {
            let why = why.unwrap_or_else(|| "it says nothing".to_owned());
            Err(format!("[inventory.fixed] {} = \"{text}\" cannot be used: {why}", field.name()))
        }
        (datum, _) => Ok(Some((datum, text.into()))),
    }
}

/// The values for blank cells, read like cells.
pub(super) fn fixed(rules: &ReadingRules) -> Result<Fixed> {
    let value = |field| fixed_value(rules, field).map_err(Error::request);
    FIELDS.iter().map(|definition| value(definition.field)).collect()
}

/// Whether a text can be read as a cell of a field; a text that says "not known" can.
///
/// # Errors
/// In words, why not.
pub fn cell_value(rules: &ReadingRules, field: Field, text: &str) -> std::result::Result<(), String> {
    if cell::says_no_well(field, text) {
        return Ok(());
    }
    match read_text(rules, field, text.trim()) {
        // Text of a field aside is left blank with a word of it; what says "not known" is blank without one.
        (Datum::Unread | Datum::Missing, Some(why)) => Err(why),
        _ => Ok(()),
    }
}

/// A text as a cell of a field, and why it says nothing where it does not.
fn read_text(rules: &ReadingRules, field: Field, text: &str) -> (Datum, Option<String>) {
    let unit = rules.units.get(&field).copied().or_else(|| {
        let quantity = field.quantity()?;
        match quantity.default_units {
            Some(units) => unit::by_symbol(units[rules.system?.index()]),
            None => unit::by_symbol(quantity.unit),
        }
    });
    let column = cell::ColumnUnit { unit, stated: false };
    let (bare, species) = species::at_end(field, text);
    let read = CellRules::new(rules).read(field, bare, CellKind::Text, column, Comma::ByForm);
    let why = read.remarks.first().map(|remark| remark.says.to_string());
    let datum = match read.datum {
        Datum::Number(si) => {
            let species = species.or_else(|| rules.species.get(&field).copied());
            Datum::Number(species::counted(si, species))
        }
        datum => datum,
    };
    (datum, why)
}
