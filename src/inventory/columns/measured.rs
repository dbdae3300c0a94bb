//! How a column is measured, by its heading and the marks of its cells.

use super::evidence::Reading;
use super::statements::Statements;
use super::{Planner, Shape, is_diameter, units};
use crate::field::Field;
use crate::inventory::heading;
use crate::inventory::lexicon::{self, Concept};

impl Planner<'_> {
    pub(super) fn has_ground_elevation(&self) -> bool {
        self.both_elevations
            || self
                .table
                .headings
                .iter()
                .any(|heading| heading::name(heading, None).is_some_and(|named| named.field == Field::GroundElevation))
    }

    /// A bracket that is not a unit but says something else: `(below rim)`, `(if known)`.
    pub(super) fn is_remark(&self, written: &str) -> bool {
        let words = lexicon::tokens(written);
        let meaning = lexicon::meaning(&words, self.table.layout.language);
        words.len() >= 2 && meaning.unknown.len() < words.len() || !meaning.concepts.is_empty() || words.is_empty()
    }

    /// What was measured: around, from the middle, or straight across.
    pub(super) fn shape(&self, claim: &Reading) -> Shape {
        if !is_diameter(claim.named.field) {
            return Shape::Straight;
        }
        let words = lexicon::tokens(&super::plain_heading::without_brackets(&self.table.headings[claim.column]));
        let meaning = lexicon::meaning(&words, self.table.layout.language);
        if meaning.has(Concept::Around) && !meaning.has(Concept::Diameter) {
            Shape::Around
        } else if meaning.has(Concept::Radius) {
            Shape::Radius
        } else {
            Shape::Straight
        }
    }

    /// Whether a note, a row of units or the cells say the unit of a column.
    pub(super) fn is_unit_stated(&self, statements: &Statements, claim: &Reading) -> bool {
        let (field, column) = (claim.named.field, claim.column);
        statements.unit.is_some()
            || units::by_cells(field, &self.profiles[column], &self.typed_values(column)).is_some()
    }

    /// Whether every filled cell of the sample has letters or marks after its number.
    pub(super) fn cells_carry_units(&self, column: usize) -> bool {
        let sample = &self.table.sample;
        let mut some = false;
        for row in self.table.first_row..sample.len() {
            let cell = sample.cell(row, column).trim();
            if cell.starts_with(|c: char| c.is_ascii_digit()) {
                some = true;
                if !cell.ends_with(|c: char| c.is_alphabetic() || matches!(c, '\'' | '"' | '′' | '″' | '’' | '”'))
                {
                    return false;
                }
            }
        }
        some
    }
}
