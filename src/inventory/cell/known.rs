//! Cells already understood: lists repeat themselves, and a cell reads the same wherever it stands in its column.

use std::hash::BuildHasher;

use foldhash::fast::FixedState;

use super::{CellKind, CellRules, ColumnUnit, Understood};
use crate::field::{Field, Kind};
use crate::quantity::parse::Comma;

/// How many cells are kept; a newcomer takes the place of an older one.
const PLACES: usize = 4096;

/// What decides how a cell reads, within one table.
#[derive(PartialEq, Clone, Copy)]
struct Question<'a> {
    field: Field,
    text: &'a str,
    kind: CellKind,
    /// Symbol of the unit of a bare number, and whether the column states it.
    unit: Option<(&'static str, bool)>,
}

/// The cells of one run of rows that were understood already.
pub struct Known<'a> {
    rules: &'a CellRules,
    comma: Comma,
    places: Vec<Option<(Question<'a>, Understood)>>,
    /// The last cell that was not worth keeping.
    passing: Understood,
}

impl<'a> Known<'a> {
    /// Nothing yet, for the rows of one table.
    pub fn new(rules: &'a CellRules, comma: Comma) -> Self {
        Self { rules, comma, places: Vec::new(), passing: Understood::default() }
    }

    /// As [`CellRules::read`], and quicker where the same was read before.
    pub fn read(&mut self, field: Field, text: &'a str, kind: CellKind, unit: ColumnUnit) -> &Understood {
        if field.definition().kind == Kind::Text {
            // Ids and names: read at once, and seldom the same.
            self.passing = self.rules.read(field, text, kind, unit, self.comma);
            return &self.passing;
        }
        if self.places.is_empty() {
            self.places.resize_with(PLACES, || None);
        }
        let question = Question { field, text, kind, unit: unit.unit.map(|known| (known.symbol, unit.stated)) };
        let hash = FixedState::with_seed(field as u64).hash_one(text);
        let place = &mut self.places[hash as usize % PLACES];
        if place.as_ref().is_none_or(|(known, _)| *known != question) {
            *place = None;
        }
        let (_, understood) =
            place.get_or_insert_with(|| (question, self.rules.read(field, text, kind, unit, self.comma)));
        understood
    }
}
