//! A length that a row gives in two cells, one for each unit.

use super::super::cell::{ColumnUnit, Datum};
use super::super::columns::{Feed, smaller};
use super::super::ditto::is_ditto;
use super::super::rows::CellKind;
use super::{Draft, trim};
use crate::field::Field;
use crate::finding::catalogue;
use crate::quantity::parse::plain_or_comma;

impl Draft {
    /// Reads the cell of a length together with the one beside it that has its inches or centimeters; whether there was
    /// anything to read so. `text` is what stands in the first.
    pub(super) fn with_left_over(&mut self, field: Field, slot: usize, feed: &Feed, text: &str) -> bool {
        let Some((column, unit)) = feed.left_over.zip(feed.unit) else { return false };
        let Some((small, count)) = smaller(unit) else { return false };
        let rest = trim(self.rows.cell(self.row, column)).to_owned();
        if rest.is_empty() || plain_or_comma(&rest) == Some(0.0) || self.table.cells.says_nothing(field, &rest) {
            return false;
        }
        let doubt = if is_ditto(&rest) || is_ditto(text) {
            Some("this goes with the cell beside it, and one of the two is a ditto mark".to_owned())
        } else if text.is_empty() || self.table.cells.says_nothing(field, text) {
            Some(format!("{rest} {small} stand here, and nothing in the column of {}", unit.symbol))
        } else if plain_or_comma(text).is_none() {
            Some(format!("{rest} {small} stand here, beside \"{text}\""))
        } else {
            plain_or_comma(&rest)
                .filter(|rest| !(0.0..count).contains(rest))
                .map(|_| format!("{rest} {small} are more than one {}", unit.symbol))
        };
        if let Some(says) = doubt {
            self.data[slot] = Datum::Unread;
            self.say_in(catalogue::TWO_READINGS, column, says, "write the whole length in one cell, as in 17 ft 6 in");
            return true;
        }
        let whole = format!("{text} {} {rest} {small}", unit.symbol);
        let understood = self.table.cells.read(
            field,
            &whole,
            CellKind::Text,
            ColumnUnit { unit: Some(unit), stated: true },
            self.table.comma,
        );
        self.take((field, slot), feed, (text, false), &understood, (Some(unit), None));
        true
    }
}
