//! Formulas that are copied down a column, written once: programs read a sheet of many thousands of them in seconds.

use std::collections::HashMap;
use std::sync::Arc;

use foldhash::fast::FixedState;

use crate::document::cell::{Sheet, Value};
use crate::document::formula::{Formula, Piece};

/// Copies that are worth it.
const FEWEST: usize = 8;

/// One run of copies.
pub(super) struct Group {
    pub number: usize,
    pub first: u32,
    pub last: u32,
    count: usize,
}

/// The copies of a sheet, by column and by what they hold.
pub(super) struct Groups(HashMap<(u16, *const Piece), Group, FixedState>);

impl Groups {
    /// Finds the copies of a sheet.
    pub fn of(sheet: &Sheet) -> Self {
        let mut groups = HashMap::default();
        for (row, cells) in sheet.rows.iter().enumerate() {
            for (column, cell) in cells.iter().enumerate() {
                let Value::Formula(formula) = &cell.value else { continue };
                if Arc::strong_count(&formula.pieces) < FEWEST {
                    continue;
                }
                let number = groups.len();
                let key = (column as u16, formula.pieces.as_ptr());
                let new = || Group { number, first: row as u32, last: 0, count: 0 };
                let group: &mut Group = groups.entry(key).or_insert_with(new);
                group.last = row as u32;
                group.count += 1;
            }
        }
        Self(groups)
    }

    /// The copies to which a formula of a column belongs; nothing where it stands in full.
    pub fn group(&self, formula: &Formula, column: u16) -> Option<&Group> {
        self.0.get(&(column, formula.pieces.as_ptr())).filter(|group| group.count >= FEWEST)
    }
}
