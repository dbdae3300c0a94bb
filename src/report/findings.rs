//! The Findings sheets: what is wrong with the lists, cause by cause and with its rule, and then cell by cell.

use super::Matter;
use super::by_sheet::in_words_of_the_book;
use super::causes::Cause;
use super::fitted::whole_place;
use super::{fitted, questions};
use crate::document::cell::{Cell, Role, Sheet};
use crate::finding::{Finding, Severity};

/// Causes that the workbook holds; more are not reading matter.
const MOST_CAUSES: usize = 2_000;
/// Rows of the findings by cell that are printed: that list is worked on at the screen.
const PRINTED_ROWS: u32 = 14;

/// One row a cause.
pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Findings");
    let causes = matter.causes.by_weight();
    sheet.title("Findings: what is wrong with the lists, by cause");
    sheet.note(format!(
        "{}. Amounts leave out what is held back; what is marked check or note does not hold a well back.",
        matter.coverage()
    ));
    sheet.note(
        "Held back by it alone: how many wells can be planned once this is fixed, unless another problem then shows up.",
    );
    if matter.is_of_book {
        sheet.note("Sheets that are named under What to do are those of the campaign book.");
    }
    if causes.len() > MOST_CAUSES {
        sheet.wide(format!("The first {MOST_CAUSES} of {} causes are here.", causes.len()), Role::Flagged);
    }
    let heads = [
        "Severity",
        "Code",
        "Cause",
        "List",
        "For example",
        "Times",
        "Wells held back",
        "Held back by it alone",
        "What to do",
        "The rule",
    ];
    sheet.heads(heads);
    for cause in causes.into_iter().take(MOST_CAUSES) {
        if cause.severity() != Severity::Note {
            sheet.layout.printed_rows = Some(sheet.rows.len() as u32 + 1);
        }
        sheet.push(row(cause, matter));
    }
    sheet.layout.widths = vec![9.0, 6.5, 33.5, 34.5, 10.0, 6.0, 6.0, 6.5, 42.0, 40.0];
    sheet.layout.printed_columns = Some(9);
    sheet
}

fn row(cause: &Cause, matter: &Matter<'_>) -> Vec<Cell> {
    let severity = cause.severity();
    let list = cause.list.and_then(|list| matter.causes.lists().get(list));
    let spots: Vec<String> = cause.examples.iter().map(fitted::spot).filter(|spot| !spot.is_empty()).collect();
    vec![
        severity_cell(severity),
        Cell::text(cause.code.id()),
        Cell::text(questions::what(cause)),
        Cell::text(list.map(fitted::list_name).unwrap_or_default()),
        Cell::text(spots.join(", ")),
        Cell::count(cause.times()),
        Cell::count(cause.wells),
        Cell::count(cause.alone),
        Cell::text(matter.what_to_do(cause)),
        Cell::text(cause.code.rule()),
    ]
}

fn severity_cell(severity: Severity) -> Cell {
    Cell::text(severity.word()).with_role(if severity == Severity::Error { Role::Flagged } else { Role::Body })
}

/// One row a finding; the rules stand with the causes.
pub(super) fn by_cell(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Findings by cell");
    let all: u64 = matter.run.finding_counts.values().sum();
    sheet.title("Findings by cell: where, and what was typed, in the order of the lists");
    sheet.note("The sheet Findings gives the rules, and says how to fix many cells at once.");
    if (matter.findings.len() as u64) < all {
        sheet.wide(
            format!("The first {} of {all} findings are here; findings.csv has every one.", matter.findings.len()),
            Role::Flagged,
        );
    }
    let heads =
        ["Severity", "Code", "Place", "Well", "As typed", "What is wrong", "What to do", "Suggested", "See also"];
    sheet.heads(heads);
    for finding in matter.findings {
        let in_words = matter.is_of_book.then(|| in_words_of_the_book(finding));
        let finding = in_words.as_ref().unwrap_or(finding);
        sheet.push(vec![
            severity_cell(finding.code.severity()),
            Cell::text(finding.code.id()),
            Cell::text(whole_place(&finding.place)),
            Cell::text(finding.well.as_deref().unwrap_or_default()),
            Cell::text(finding.seen.as_str()),
            Cell::text(finding.says.to_string()),
            Cell::text(finding.help.to_string()),
            Cell::text(finding.suggested.as_deref().unwrap_or_default()),
            Cell::text(related(finding)),
        ]);
    }
    sheet.layout.printed_rows = Some(PRINTED_ROWS);
    sheet.layout.widths = vec![9.0, 6.0, 22.0, 10.0, 12.0, 37.0, 34.0, 10.0, 16.0];
    sheet
}

/// The other places of a finding, each with its phrase.
pub fn related(finding: &Finding) -> String {
    finding
        .related
        .iter()
        .map(|(place, phrase)| format!("{} {phrase}", whole_place(place)))
        .collect::<Vec<_>>()
        .join("; ")
}
