//! The Wells sheet: one row per visit and scenario, up to a stated number of rows.

use super::Matter;
use super::show::Shown;
use crate::document::cell::{Cell, Role, Sheet};
use crate::engine::KeptCell;
use crate::ledger::COLUMNS;

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Wells");
    sheet.title("Wells: what each visit needs under each scenario");
    sheet.note(format!(
        "{}. Chlorine and doses are as Cl2. Amounts to measure out are rounded up to the measure.",
        matter.coverage()
    ));
    if let Some(rest) = matter.rest() {
        sheet.wide(rest, Role::Flagged);
    }
    let system = matter.plan.campaign.system;
    let shown: Vec<Shown> = COLUMNS.iter().map(|column| Shown::of(column.unit, system)).collect();
    let own = COLUMNS.iter().zip(&shown).map(|(column, shown)| shown.heading(column.title));
    sheet.heads(own.chain(matter.plan.carried.iter().cloned()));
    let outcome = COLUMNS.iter().position(|column| column.id == "outcome");
    for row in matter.rows() {
        let is = |word: &str| outcome.is_some_and(|at| row.get(at) == Some(&KeptCell::Text(word.into())));
        let role = match (is("held_back"), is("excluded")) {
            (true, _) => Role::Flagged,
            (_, true) => Role::Note,
            _ => Role::Body,
        };
        let cells = row.iter().enumerate().map(|(at, cell)| match cell {
            KeptCell::Text(text) => Cell::text(&**text).with_role(role),
            KeptCell::Number(value) => {
                let (digits, shown) = match (COLUMNS.get(at), shown.get(at)) {
                    (Some(column), Some(shown)) => (shown.digits(column.digits), *shown),
                    _ => (3, Shown::of("", system)),
                };
                Cell::number(shown.value(*value), digits)
            }
        });
        sheet.push(cells.collect());
    }
    sheet.layout.widths = COLUMNS.iter().map(|column| width(column.id)).collect();
    sheet.layout.frozen_columns = 4;
    sheet.layout.landscape = true;
    // As many columns as this do not fit one page and stay readable.
    sheet.layout.pages_wide = 3;
    sheet
}

fn width(id: &str) -> f64 {
    match id {
        "scenario" => 30.0,
        "product" | "reasons" | "measured_unit" | "neutralizer" => 14.0,
        "assumed" | "cautions" | "notes" => 36.0,
        "crew_flags" | "status" | "not_understood" => 20.0,
        _ => 12.0,
    }
}
