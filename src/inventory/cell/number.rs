//! What there is to say of a number that was read in a cell.

use super::ColumnUnit;
use super::understood::{Datum, Understood};
use crate::field::Field;
use crate::finding::{Words, catalogue};
use crate::quantity::parse::{self, Comma, Nature};
use crate::quantity::unit::Unit;

/// What [`parse`] notes where it took a comma for the decimal mark.
const DECIMAL_MARK: &str = "the comma read as the decimal mark";

pub(super) const IF_RIGHT: &str = "no action needed if correct";

pub(super) fn written(
    field: Field,
    text: &str,
    reading: &parse::Reading,
    column: ColumnUnit,
    comma: Comma,
) -> Understood {
    let quantity = field.quantity();
    let zero = reading.si == reading.unit.to_si(0.0);
    if zero && quantity.is_some_and(|quantity| !quantity.zero_possible) {
        return zero_for_missing(field);
    }
    let value = |before, after: &str| Words::value(before, reading.si, reading.unit, after);
    let mut understood = Understood::of(Datum::Number(reading.si));
    understood.unit_written = reading.unit_was_written;
    understood.unit = Some(reading.unit);
    match reading.nature {
        Nature::Exact => {}
        Nature::Range { low_si, high_si } => {
            understood.spread = Some((low_si, high_si));
            let says = value("a range; its middle, ", ", is used");
            understood = understood.say(catalogue::RANGE, says, "give one value if you know it");
        }
        Nature::AtLeast => {
            let says = value("", " or more; it is read as this value");
            understood = understood.say(catalogue::BOUND, says, "give the value if you know it");
        }
        Nature::AtMost => {
            let says = value("", " or less; it is read as this value");
            understood = understood.say(catalogue::BOUND, says, "give the value if you know it");
        }
    }
    // Where the whole list writes decimals with a comma, that is said once, about the list.
    let expected = comma == Comma::Decimal && reading.note.as_deref() == Some(DECIMAL_MARK);
    if let Some(note) = reading.note.as_ref().filter(|_| !expected) {
        if note.contains("comma") && ambiguous_comma(text) {
            if field == Field::UsersServed {
                return understood; // People come in whole numbers.
            }
            let says = value("read as ", &format!(" ({note})"));
            let help = "write the number without separators, with a point for decimals";
            understood = understood.say(catalogue::AMBIGUOUS_COMMA, says, help);
        } else if reading.nature == Nature::Exact || !note.contains("read as") {
            let says = value("read as ", &format!(" ({note})"));
            understood = understood.say(catalogue::REMARK_AFTER_NUMBER, says, IF_RIGHT);
        }
    }
    if reading.unit_was_written
        && column.stated
        && let Some(column) = column.unit
        && column.symbol != reading.unit.symbol
        && column.dimension == reading.unit.dimension
        && !same_family(column, reading.unit)
    {
        understood = understood.say(
            catalogue::UNIT_DIFFERS_FROM_COLUMN,
            format!("the cell says {}, the column {}; the cell counts", reading.unit.symbol, column.symbol),
            IF_RIGHT,
        );
    }
    understood
}

pub(super) fn zero_for_missing(field: Field) -> Understood {
    Understood::default().say(
        catalogue::ZERO_FOR_MISSING,
        format!("{} cannot be zero; read as missing", field.name()),
        "leave the cell blank where the value is not known",
    )
}

fn ambiguous_comma(text: &str) -> bool {
    let mut parts = text.split(',');
    let before = parts.next().unwrap_or_default();
    let after = parts.next().unwrap_or_default();
    let digits = after.chars().take_while(char::is_ascii_digit).count();
    parts.next().is_none()
        && digits == 3
        && !before.trim_start_matches(['-', '+']).starts_with('0')
        && !text.contains('.')
}

/// Feet and inches in a feet column, centimetres in a metre column: nothing to remark.
pub fn same_family(a: &Unit, b: &Unit) -> bool {
    let family = |unit: &Unit| match unit.symbol {
        "ft" | "in" | "yd" => 1,
        "m" | "cm" | "mm" => 2,
        _ => 0,
    };
    // Inches in a millimetre column are a change of system worth a remark; in a feet column they are plain English.
    family(a) != 0 && family(a) == family(b)
}
