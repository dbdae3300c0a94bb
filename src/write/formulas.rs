//! Formulas as a workbook has them: places become addresses.

use rust_xlsxwriter::utility::{column_number_to_name, row_col_to_cell_absolute};

use crate::document::formula::{Formula, Name, Piece, Place};

/// The formula of a row. Its functions are of the first edition of the format: later ones would need a prefix.
pub(super) fn text_of(formula: &Formula, row: u32) -> String {
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
