//! The Wells sheet: one row per visit and scenario, up to a stated number of rows.

use super::Matter;
use super::show::Shown;
use crate::document::cell::{Cell, Role, Sheet};
use crate::ledger::{COLUMNS, CaseLabel, Datum};
use crate::visit::Visit;

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Wells");
    sheet.title("Wells: what each visit needs under each scenario");
    sheet.note(format!(
        "{}. Chlorine and doses are as Cl2. Amounts to measure out are rounded up to the measure.",
        matter.coverage()
    ));
    if matter.plan.cases.len() > 1 {
        sheet.note(FILTERED);
    }
    if matter.run.table_rows > super::live::MOST_ROWS {
        sheet.note(format!(
            "More than {} rows: these are values, which do not follow a change; run the plan again.",
            super::live::MOST_ROWS
        ));
    }
    if let Some(rest) = matter.rest() {
        sheet.wide(rest, Role::Flagged);
    }
    let system = matter.plan.campaign.system;
    let shown: Vec<Shown> = COLUMNS.iter().map(|column| Shown::of(column.unit, system)).collect();
    let own = COLUMNS.iter().zip(&shown).map(|(column, shown)| shown.heading(column.title));
    sheet.heads(own.chain(matter.plan.carried.iter().cloned()));
    let labels: Vec<CaseLabel<'_>> = matter.plan.labels().collect();
    for treated in matter.visits() {
        let visit = &treated.visit;
        let role = match visit {
            Visit::Planned { .. } => Role::Body,
            Visit::HeldBack { .. } => Role::Flagged,
            Visit::Excluded { .. } => Role::Note,
        };
        for (case, label) in labels.iter().enumerate() {
            let need = treated.need(case);
            let own = COLUMNS.iter().zip(&shown).map(|(column, shown)| match column.datum(label, visit, need) {
                Datum::Text(text) => Cell::text(text).with_role(role),
                Datum::Number(value) => Cell::number(shown.value(value), shown.digits(column.digits)),
            });
            let carried = (0..matter.plan.carried.len()).map(|at| {
                let text = visit.carried().get(at).map(|text| &**text).unwrap_or_default();
                Cell::text(text).with_role(role)
            });
            sheet.push(own.chain(carried).collect());
        }
    }
    sheet.layout.widths = COLUMNS.iter().map(|column| width(column.id)).collect();
    shown_for_one(matter, &mut sheet);
    sheet
}

/// Shows, and so prints, the rows of the first scenario until another is chosen in the heading.
pub(super) fn shown_for_one(matter: &Matter<'_>, sheet: &mut Sheet) {
    sheet.layout.frozen_columns = 4;
    sheet.layout.repeat_columns = 4;
    // Remarks and whatever the list carries along would make the rows many lines tall: they are for the screen.
    let printed = COLUMNS.iter().position(|column| column.id == FIRST_UNPRINTED).unwrap_or(COLUMNS.len());
    sheet.layout.printed_columns = Some(printed as u16);
    if let ([first, _, ..], Some(_)) = (&matter.plan.cases[..], sheet.layout.filter_row) {
        sheet.layout.filtered = Some((0, first.scenario.name.clone()));
    }
}

/// The first column that is not printed.
const FIRST_UNPRINTED: &str = "assumed";

/// How the rows of the other scenarios are found.
pub(super) const FILTERED: &str = "The rows of one scenario are shown, and so printed: choose another, or all of them, from the \
                                   list in the heading Scenario.";

/// Width of a column, in characters.
pub(super) fn width(id: &str) -> f64 {
    match id {
        "scenario" => 24.0,
        "visit" => 5.5,
        "product" | "reasons" | "measured_unit" | "neutralizer" => 13.0,
        "assumed" | "cautions" | "notes" => 36.0,
        "crew_flags" | "status" | "not_understood" => 20.0,
        _ => 11.0,
    }
}
