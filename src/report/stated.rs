//! What a plan was made from, at the end of the Assumptions sheet, for the program itself: the workbook can be planned again with
//! the cells that were changed. `book::edited` reads it.

use std::collections::HashMap;

use super::Matter;
use super::live::{Back, CHANGED_CELLS, SLACK};
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::formula::{Name, Pieces, Place};
use crate::field::rules::Correction;

/// Columns that are printed of the sheet; what is added has more.
const PRINTED_COLUMNS: u16 = 5;

/// Where what was planned stands, and where it is marked as changed.
const PLANNED: u16 = 4;
const CHANGED: u16 = 7;

/// 1 where a cell is no longer that of the plan, but for the last digits.
fn is_changed(cell: &Back) -> Pieces {
    let now = Pieces::call("N", [Pieces::at(cell.place)]);
    let planned = || Pieces::call("N", [Pieces::here(PLANNED)]);
    let apart = Pieces::call("ABS", [now.then("-").and(planned())]);
    let most = Pieces::call("MAX", [Pieces::text("1"), Pieces::call("ABS", [planned()])]);
    let same = apart.then(format!("<={SLACK}*")).and(most);
    Pieces::call("IF", [same, Pieces::text("0"), Pieces::text("1")])
}

pub(super) fn add(matter: &Matter<'_>, back: &[Back], names: &mut Vec<Name>, sheet: &mut Sheet) {
    sheet.layout.printed_rows = Some(sheet.rows.len() as u32);
    sheet.layout.printed_columns = Some(PRINTED_COLUMNS);
    sheet.gap();
    sheet.wide("For planning this workbook again: aftercrest plan campaign.xlsx --out NEW", Role::Total);
    sheet.note(
        "It takes the cells below as they stand then, and everything else as it was stated; lists are read from beside the workbook. \
         Leave these rows as they are.",
    );
    sheet.gap();
    let heads = ["Cell that may be changed", "Sheet", "Row", "Column", "As planned", "States", "Unit", "Changed: 1"];
    let first = sheet.rows.len() as u32 + 1;
    sheet.push(heads.map(Cell::head).to_vec());
    for cell in back {
        sheet.push(vec![
            Cell::text(&cell.label),
            Cell::text(cell.place.sheet),
            Cell::count(u64::from(cell.place.row) + 1),
            Cell::count(u64::from(cell.place.column) + 1),
            Cell::number(cell.planned, 9),
            Cell::text(&cell.states),
            Cell::text(cell.unit),
            Cell::formula(is_changed(cell).giving(0.0, 0)),
        ]);
    }
    let last = (sheet.rows.len() as u32 - 1).max(first);
    let place = Place { sheet: sheet.name, row: first, column: CHANGED };
    names.push(Name { name: CHANGED_CELLS.to_owned(), first: place, last_row: last });
    sheet.gap();
    sheet.push(vec![Cell::head("Lists of the plan")]);
    matter.lists.iter().for_each(|list| sheet.push(vec![Cell::text(list)]));
    sheet.gap();
    let heads =
        ["Cell read as corrected", "Sheet", "Row", "Column", "Heading", "As typed", "Right value", "Who and when"];
    sheet.push(heads.map(Cell::head).to_vec());
    // What was read in the place of whatever stands there is from now on known to stand there.
    let applied: HashMap<&str, &Correction> =
        matter.corrections.iter().map(|correction| (correction.written_in.as_str(), correction)).collect();
    for given in &matter.plan.campaign.rules.corrections {
        let correction = applied.get(given.written_in.as_str()).copied().unwrap_or(given);
        sheet.push(vec![
            Cell::text(&correction.file),
            Cell::text(correction.sheet.as_deref().unwrap_or_default()),
            Cell::count(u64::from(correction.row)),
            Cell::count(u64::from(correction.column)),
            Cell::text(&correction.heading),
            Cell::text(&correction.typed),
            Cell::text(&correction.corrected),
            Cell::text(&correction.who),
        ]);
    }
    sheet.gap();
    let lines = matter.stated.lines().count() as u64;
    sheet.push(vec![Cell::head("What was stated, line by line"), Cell::new(Value::Count(lines), Role::Head)]);
    for line in matter.stated.lines() {
        sheet.push(vec![Cell::text(line)]);
    }
}
