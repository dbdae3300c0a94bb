//! Sentences with figures of the plan: they stand as they are while nothing is changed and the plan's first scenario is picked, and
//! then say of themselves that they are of the plan as it was made.

use super::super::Matter;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;

/// The cell that is 1 while the sentences hold.
pub(super) const AS_PLANNED: &str = "As_planned";
/// Cells that are taken back: 1 for each that was changed.
pub(in crate::report) const CHANGED_CELLS: &str = "Changed_cells";

/// Letters of a text that a formula holds in one piece.
const PIECE: usize = 120;

/// A line across the sheet; where nothing lives, a plain one.
pub(in crate::report) fn say(matter: &Matter<'_>, sheet: &mut Sheet, text: &str, role: Role) {
    if matter.run.planned == 0 {
        sheet.wide(text, role);
        return;
    }
    let before = Pieces::quoted(&format!("{} ", before(matter)));
    let still = Pieces::text(format!("{AS_PLANNED}=1"));
    let mut pieces = Pieces::call("IF", [still, Pieces::quoted(""), before]);
    let letters: Vec<char> = text.chars().collect();
    for piece in letters.chunks(PIECE) {
        pieces = pieces.then("&").and(Pieces::quoted(&piece.iter().collect::<String>()));
    }
    push(sheet, pieces, text, role);
}

/// A line that says of a whole sheet that it is of the plan as it was made; empty as long as that is how things are.
pub(in crate::report) fn warn(matter: &Matter<'_>, sheet: &mut Sheet) {
    if matter.run.planned == 0 {
        return;
    }
    let still = Pieces::text(format!("{AS_PLANNED}=1"));
    let said = Pieces::quoted(&format!("{} ALL OF THIS SHEET. Plan again for what holds now.", before(matter)));
    push(sheet, Pieces::call("IF", [still, Pieces::quoted(""), said]), "", Role::Flagged);
}

/// `AS THE PLAN WAS MADE, for "liquid", and something has been changed since:`.
fn before(matter: &Matter<'_>) -> String {
    let name = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let of: String = name.chars().take(PIECE / 2).collect();
    format!("AS THE PLAN WAS MADE, for \"{of}\"; something else holds now:")
}

fn push(sheet: &mut Sheet, pieces: Pieces, text: &str, role: Role) {
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![Cell::formula(pieces.saying(text)).with_role(role)]);
}
