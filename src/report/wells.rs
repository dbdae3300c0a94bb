//! The Wells sheet: one row per visit and scenario, up to a stated number of rows.

use std::borrow::Cow;

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
                Datum::Text(text) => Cell::text(in_words(column.id, visit, text)).with_role(role),
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
    fit(sheet);
    sheet.layout.frozen_columns = 4;
    sheet.layout.repeat_columns = 4;
    // Remarks and whatever the list carries along would make the rows many lines tall: they are for the screen.
    let printed = COLUMNS.iter().position(|column| column.id == FIRST_UNPRINTED).unwrap_or(COLUMNS.len());
    sheet.layout.printed_columns = Some(printed as u16);
    if let ([first, _, ..], Some(_)) = (&matter.plan.cases[..], sheet.layout.filter_row) {
        sheet.layout.filtered = Some((0, first.scenario.name.clone()));
    }
}

/// What stands on the sheet for a code of the tables: words, and behind them the code of a finding.
pub(super) fn in_words(id: &str, visit: &Visit, text: Cow<'_, str>) -> String {
    match id {
        "reasons" => super::held_back::reasons(visit),
        id if CODED.contains(&id) => text.replace('_', " "),
        _ => text.into_owned(),
    }
}

/// Columns whose words are joined by lines in the tables.
const CODED: [&str; 6] =
    ["well_type", "outcome", "flush_method", "discharge_route", "neutralizer", "neutralizer_instead"];

/// Columns as wide as nearly all of their texts, within bounds: a row of the printed sheet is one line, but for a few.
fn fit(sheet: &mut Sheet) {
    let first = sheet.layout.frozen_rows as usize;
    for (at, column) in COLUMNS.iter().enumerate().take_while(|(_, column)| column.id != FIRST_UNPRINTED) {
        if !column.get.is_text() || column.id == "reasons" {
            continue;
        }
        let cells = sheet.rows[first..].iter().filter_map(|row| row.get(at)?.value.as_text());
        let mut lengths: Vec<usize> = cells.map(|text| text.chars().count()).collect();
        lengths.sort_unstable();
        let place = lengths.len().saturating_sub(1 + lengths.len() / FEW);
        let longest = lengths.get(place).copied().unwrap_or(0) as f64 + 2.5;
        let width = &mut sheet.layout.widths[at];
        *width = width.max(longest.min(WIDEST));
    }
}

/// One text in so many may take more than a line.
const FEW: usize = 20;

/// Width of a column at most, in characters.
const WIDEST: f64 = 34.0;

/// The first column that is not printed.
const FIRST_UNPRINTED: &str = "assumed";

/// How the rows of the other scenarios are found.
pub(super) const FILTERED: &str = "The rows of one scenario are shown, and so printed: choose another, or all of them, from the \
                                   list in the heading Scenario.";

/// Width of a column, in characters.
pub(super) fn width(id: &str) -> f64 {
    match id {
        "scenario" => 12.0,
        "visit" => 5.5,
        "reasons" => 24.0,
        "product" | "measured_unit" | "neutralizer" => 9.0,
        "assumed" | "cautions" | "notes" => 36.0,
        "crew_flags" | "status" | "not_understood" => 20.0,
        _ => 11.0,
    }
}
