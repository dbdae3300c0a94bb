//! Formulas as a workbook has them: places become addresses.

use rust_xlsxwriter::Formula as Written;
use rust_xlsxwriter::utility::{column_number_to_name, row_col_to_cell_absolute};

use super::shared::Groups;
use crate::document::formula::{Formula, Name, Outcome, Piece, Place};

/// A formula with what it comes to, for a cell.
pub(super) fn written(formula: &Formula, place: (u32, u16), copies: &Groups) -> Written {
    let result = match &formula.outcome {
        // As many digits as a number has: what is stored is what the program computed.
        Outcome::Number(number) => number.to_string(),
        Outcome::Text(text) => text.clone(),
    };
    Written::new(copies.marked(formula, place, || text_of(formula, place.0))).set_result(result)
}

fn text_of(formula: &Formula, row: u32) -> String {
    let mut text = String::new();
    for piece in formula.pieces.iter() {
        match piece {
            Piece::Text(piece) => text.push_str(piece),
            Piece::Here(column) => {
                text.push_str(&column_number_to_name(*column));
                text.push_str(&(row + 1).to_string());
            }
            Piece::At(place) => text.push_str(&address(place)),
        }
    }
    text
}

fn address(place: &Place) -> String {
    format!("{}!{}", place.sheet, row_col_to_cell_absolute(place.row, place.column))
}

/// The cells of a name.
pub(super) fn range(name: &Name) -> String {
    let last = row_col_to_cell_absolute(name.last_row, name.first.column);
    let first = address(&name.first);
    if name.last_row == name.first.row { format!("={first}") } else { format!("={first}:{last}") }
}
