//! The sheet of visits that are held back: a crew that is there anyway knows who drinks there, what to look out for and what to
//! measure. It is a sheet of its own, so that nothing of it stands below the heading of an amount.

use super::Matter;
use crate::document::cell::{Cell, Role, Sheet};
use crate::finding::{Code, catalogue};
use crate::visit::Visit;

/// What is told of a visit for which nothing is computed, each with its width.
const COLUMNS: [(&str, f64); 10] = [
    ("Depot", 12.0),
    ("Well", 10.0),
    ("Visit", 5.0),
    ("Type", 10.0),
    ("Held back by", 24.0),
    ("Crew flags", 18.0),
    ("Users", 7.0),
    ("Flooded", 8.0),
    ("Notes", 30.0),
    ("Not understood", 16.0),
];

/// The sheet; nothing where no visit is held back.
pub(super) fn sheet(matter: &Matter<'_>) -> Option<Sheet> {
    let visits = matter.visits().iter().map(|treated| &treated.visit);
    let mut rows = visits.filter(|visit| matches!(visit, Visit::HeldBack { .. })).peekable();
    rows.peek()?;
    let mut sheet = Sheet::new("Held back");
    sheet.title("Held back: no amount is computed, do not treat");
    sheet.wide("The Findings sheet says what to measure or ask, cell by cell.", Role::Flagged);
    if visits_are_second(matter) {
        sheet.wide(
            "A row that is held back as a second entry alone is no other well: what its first row says counts, and is planned where \
             nothing is wrong with it.",
            Role::Flagged,
        );
    }
    if let Some(rest) = matter.rest() {
        sheet.wide(rest, Role::Flagged);
    }
    sheet.heads(COLUMNS.map(|column| column.0));
    for visit in rows {
        sheet.push(vec![
            Cell::text(visit.depot()),
            Cell::text(visit.id()),
            Cell::text(visit.visit()),
            Cell::text(visit.well_type().replace('_', " ")),
            Cell::text(reasons(visit)),
            Cell::text(visit.crew_flags()),
            Cell::number(visit.users_served(), 0),
            Cell::text(visit.flooded()),
            Cell::text(visit.notes()),
            Cell::text(visit.not_understood()),
        ]);
    }
    sheet.layout.widths = COLUMNS.iter().map(|column| column.1).collect();
    sheet.layout.frozen_columns = 2;
    Some(sheet)
}

/// Codes of a row that says again what another row of the same well says.
const SECOND: [Code; 2] = [catalogue::REPEATED_VISIT, catalogue::CONFLICTING_VISIT];

/// Whether one of the rows that are held back is a second entry of a well.
fn visits_are_second(matter: &Matter<'_>) -> bool {
    let is_second = |visit: &Visit| visit.held_back_by().iter().any(|code| SECOND.contains(code));
    matter.visits().iter().any(|treated| is_second(&treated.visit))
}

/// Why a visit is held back, in words with the codes behind them: `diameter missing (G206)`.
pub(super) fn reasons(visit: &Visit) -> String {
    let Visit::HeldBack { codes, .. } = visit else { return visit.reasons().to_owned() };
    let name = |code: &Code| match SECOND.contains(code) {
        true => format!("second entry of this well: {}", code.name().replace('-', " ")),
        false => code.name().replace('-', " "),
    };
    let named = codes.iter().map(|code| format!("{} ({})", name(code), code.id()));
    named.collect::<Vec<_>>().join("; ")
}
