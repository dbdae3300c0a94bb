//! A spring's box that one cell describes whole: its two sides and how high the water stands in it.

use std::f64::consts::FRAC_PI_4;

use super::super::columns::sides::{Outline, outline};
use super::super::phrases::tokens;
use super::super::remarks;
use super::Draft;
use super::words::Note;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::cell::Datum;
use crate::quantity::parse::plain_or_comma;

/// Sides that differ by less than this share are the same.
const NEARLY: f64 = 0.01;

impl Draft {
    /// Takes the water of a box whose sides and depth of water have columns of their own.
    pub(super) fn basin_in_columns(&mut self) {
        const OTHERS: [Field; 2] = [Field::CasingDiameter, Field::WaterVolume];
        let Some(basin) = self.table.plan.basin else { return };
        let si =
            basin.measures.map(|(column, unit)| plain_or_comma(self.cell(column)).map(|number| unit.to_si(number)));
        let [Some(long), Some(wide), Some(water)] = si else { return };
        let is_box = self.type_of_row().is_none_or(|well_type| well_type == WellType::SpringBox);
        if is_box
            && long > 0.0
            && wide > 0.0
            && water > 0.0
            && OTHERS.iter().all(|of| self.datum(*of) == Datum::Missing)
        {
            let [(side, _), _, (column, _)] = basin.measures;
            // `the box is round, 4 ft across` beside two sides of 4: a round one is as wide as that.
            let round = outline(self.cell_of(Field::Notes)) == Some(Outline::Round);
            if round && (long - wide).abs() > NEARLY * long {
                let says = "two sides that are not the same, and a remark that says round";
                self.say_in(catalogue::TWO_READINGS, side, says, "write how wide it is across");
                return;
            }
            let floor = if round { FRAC_PI_4 } else { 1.0 } * long * wide;
            self.told(Field::WaterVolume, column, floor * water, None);
        }
    }

    /// Takes the water of a box from the words that describe it, in the cell of the depth or in a remark, where no cell measures it.
    pub(super) fn basin_told(&mut self, notes: &[Note]) {
        const DEPTH: Field = Field::TotalDepth;
        const OTHERS: [Field; 4] =
            [Field::StaticWaterLevel, Field::WaterColumn, Field::CasingDiameter, Field::WaterVolume];
        let blank = |draft: &Self, field: Field| draft.datum(field) == Datum::Missing && draft.form(field).is_none();
        let is_box = self.type_of_row().is_none_or(|well_type| well_type == WellType::SpringBox);
        // `conc box` in the column of the casing is no width.
        let worded = |draft: &Self, field: Field| {
            draft.datum(field) == Datum::Unread && !draft.cell_of(field).contains(|c: char| c.is_ascii_digit())
        };
        if !is_box || !OTHERS.into_iter().all(|field| blank(self, field) || worded(self, field)) {
            return;
        }
        let found: Vec<(usize, f64)> = if blank(self, DEPTH) {
            notes.iter().filter_map(|(column, words)| Some((*column, remarks::basin(words)?))).collect()
        } else {
            let column = self.column(DEPTH).filter(|_| self.datum(DEPTH) == Datum::Unread);
            column.and_then(|column| Some((column, remarks::basin(&tokens(self.cell(column)))?))).into_iter().collect()
        };
        let [(column, volume)] = found.as_slice() else { return };
        // What could not be read as a depth is read now.
        let of_cell =
            |place: &crate::place::Place| place.column.as_ref().is_some_and(|at| at.number as usize == column + 1);
        if self.column(DEPTH) == Some(*column) {
            self.findings.retain(|finding| !of_cell(&finding.place));
            self.set(DEPTH, Datum::Missing);
        }
        let unread: Vec<Field> = OTHERS.into_iter().filter(|field| worded(self, *field)).collect();
        for field in unread {
            if let Some(cell) = self.column(field) {
                self.findings
                    .retain(|finding| finding.place.column.as_ref().is_none_or(|at| at.number as usize != cell + 1));
            }
            self.set(field, Datum::Missing);
        }
        self.told(Field::WaterVolume, *column, *volume, None);
    }
}
