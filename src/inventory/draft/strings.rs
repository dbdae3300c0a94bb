//! Casing strings that a row gives in numbered columns.

use super::super::cell::{Datum, Form};
use super::Draft;
use crate::field::Field;
use crate::finding::catalogue;
use crate::quantity::parse::{Piece, Size, Sort, plain, size};

const ACROSS: Field = Field::CasingDiameter;
const END: Field = Field::CasingDepth;

impl Draft {
    /// Takes the strings of the row, the first from the cells of the casing; a row with one string stays as it is.
    pub(super) fn strings_in_columns(&mut self) {
        let mut pieces: Vec<Piece> = Vec::new();
        let mut above = (self.number(ACROSS), self.number(END));
        let mut top = None;
        let mut goes_on = false;
        let mut end = None;
        // The string above has a bottom and no width.
        let mut unsized_to = None;
        for next in self.table.plan.strings.clone() {
            let below = (self.in_column(ACROSS, next.width), self.in_column(END, next.end));
            if below.0 == Datum::Missing {
                if let Datum::Number(bottom) = below.1 {
                    unsized_to = Some((next.width, bottom));
                }
                continue;
            }
            let ((Some(diameter), Some(bottom)), Datum::Number(narrower)) = (above, &below.0) else {
                let says = "this is the width of a second string, and nothing says from where it counts";
                self.say_in(catalogue::TWO_READINGS, next.width, says, "write how deep the string above it reaches");
                self.refuse(ACROSS);
                return;
            };
            if let Some((width, _)) = unsized_to.take().filter(|(_, end)| *end > bottom) {
                let says = "a string ends between two others here, and its width is not given";
                self.say_in(catalogue::TWO_READINGS, width, says, "write how wide this string is");
                self.refuse(ACROSS);
                return;
            }
            pieces.push(piece(&pieces, diameter, Some(bottom), top));
            top = match next.top.map(|column| self.top_in(column)) {
                Some(Err(column)) => {
                    let says = "nothing is known of where this string begins but these words";
                    self.say_in(catalogue::TWO_READINGS, column, says, "write the depth where it begins");
                    self.refuse(ACROSS);
                    return;
                }
                Some(Ok(top)) => top,
                None => next.from_ground.then_some(0.0),
            };
            goes_on = next.goes_on;
            end = Some(next.end);
            above = (Some(*narrower), if let Datum::Number(end) = below.1 { Some(end) } else { None });
        }
        let (false, Some(diameter)) = (pieces.is_empty(), above.0) else { return };
        if let (None, Some(end), true) = (above.1, end, self.number(Field::OpenHoleDiameter).is_some()) {
            let says =
                "a string without an end, and a hole below it: nothing says where the one ends and the other begins";
            self.say_in(catalogue::TWO_READINGS, end, says, "write how deep this string reaches");
            self.refuse(ACROSS);
            return;
        }
        let mut last = piece(&pieces, diameter, above.1, top);
        last.may_hang_from_ground = !goes_on && top.is_none() && last.bottom.is_some();
        pieces.push(last);
        self.set(END, Datum::Missing);
        self.set_form(ACROSS, Form::Strings(pieces));
    }

    /// Takes the screen of a column of its own as a string below those that the cell of the casing tells.
    pub(super) fn screen_beside(&mut self) {
        let (Some(screens), Some(casing)) = (self.table.plan.screens, self.column(ACROSS)) else { return };
        let Some(Form::Strings(told)) = self.form(ACROSS) else { return };
        let (known, screen) = (told.len(), self.cell(screens));
        if screen.is_empty() {
            return;
        }
        let whole = format!("{}, {screen}", self.cell(casing));
        let Ok(Size::Strings(pieces)) = size(&whole, Sort::Diameter, self.unit_of_bare(ACROSS), self.table.comma)
        else {
            return;
        };
        if pieces.len() == known + 1 {
            let says = "read as what lies below the casing: the screen or the hole is as wide as this says";
            self.say_in(catalogue::STRINGS_IN_WORDS, screens, says, "no action needed if correct");
            self.replace_form(ACROSS, Form::Strings(pieces));
        }
    }

    /// Where a string begins by its own column; nothing where that is blank, the column where it cannot be read.
    fn top_in(&mut self, column: usize) -> Result<Option<f64>, usize> {
        let cell = self.cell(column);
        if cell.is_empty() || self.table.cells.says_nothing(END, cell) {
            return Ok(None);
        }
        // No water stands above the ground, and a casing has no depth of zero: `+2`, `-1.5`, `0`.
        if cell.starts_with('+') || plain(cell).is_some_and(|top| top <= 0.0) {
            return Ok(Some(0.0));
        }
        match self.in_column(END, column) {
            Datum::Number(top) => Ok(Some(top)),
            _ => Err(column),
        }
    }

    /// What a cell of another column says in the unit of a field.
    fn in_column(&mut self, field: Field, column: usize) -> Datum {
        let text = self.cell(column).to_owned();
        self.read_text(field, column, &text, self.unit_of_bare(field))
    }
}

/// The string below those that are known, from where its own column says.
fn piece(known: &[Piece], diameter: f64, bottom: Option<f64>, top: Option<f64>) -> Piece {
    let end = known.last().and_then(|piece| piece.bottom).unwrap_or(0.0);
    Piece { top: top.unwrap_or(end), bottom, diameter, may_hang_from_ground: false, depths_in: None }
}
