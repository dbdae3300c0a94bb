//! The sheet of what was corrected: which cells, what was typed, what was read instead, and who said so.

use super::Matter;
use super::fitted::whole_place;
use crate::document::cell::{Cell, Sheet};
use crate::field::rules::Correction;
use crate::place::{Column, Origin, Place};
use crate::quantity::format::number;

/// A corrected cell as a spreadsheet program shows it.
fn place(correction: &Correction) -> String {
    let origin = match &correction.sheet {
        Some(sheet) => Origin::sheet(&correction.file, sheet),
        None => Origin::file(&correction.file),
    };
    let column = Column { number: correction.column, heading: "".into() };
    whole_place(&Place::cell(&origin, correction.row, &column))
}

/// The sheet; nothing where no cell was corrected.
pub(super) fn sheet(matter: &Matter<'_>) -> Option<Sheet> {
    if matter.corrections.is_empty() {
        return None;
    }
    let mut sheet = Sheet::new("Corrections");
    sheet.title("Corrections: cells that were read as corrected; the lists themselves are as they were");
    let count = number(matter.corrections.len() as f64, 9);
    sheet.note(format!("{count} cells. What could not be applied is among the findings."));
    sheet.heads(["Place", "Heading", "As typed", "Read as", "Who and when", "Written in"]);
    for correction in matter.corrections {
        sheet.push(vec![
            Cell::text(place(correction)),
            Cell::text(&correction.heading),
            Cell::text(&correction.typed),
            Cell::text(&correction.corrected),
            Cell::text(&correction.who),
            Cell::text(&correction.written_in),
        ]);
    }
    sheet.layout.widths = vec![34.0, 26.0, 22.0, 22.0, 26.0, 34.0];
    Some(sheet)
}
