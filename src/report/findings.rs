//! The Findings sheet: what is wrong with the lists, in the order of the lists, as work someone can do.

use super::Matter;
use super::cell::{Cell, Role, Sheet};
use crate::finding::{Finding, Severity};

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Findings");
    let all: u64 = matter.run.finding_counts.values().sum();
    sheet.title("Findings: what is wrong with the lists, cell by cell");
    sheet.note(format!("{}. An error holds the row back; a warning and a note do not.", matter.coverage()));
    if (matter.findings.len() as u64) < all {
        sheet.wide(
            format!("The first {} of {all} findings are here; findings.csv has every one.", matter.findings.len()),
            Role::Flagged,
        );
    }
    let heads = [
        "Severity",
        "Code",
        "Place",
        "Well",
        "As typed",
        "What is wrong",
        "The rule",
        "What to do",
        "Suggested",
        "Compare",
    ];
    sheet.heads(heads.map(str::to_owned));
    for finding in matter.findings {
        let role = if finding.code.severity() == Severity::Error { Role::Flagged } else { Role::Body };
        sheet.push(vec![
            Cell::text(finding.code.severity().name()).with_role(role),
            Cell::text(finding.code.id()),
            Cell::text(finding.place.to_string()),
            Cell::text(finding.well.as_deref().unwrap_or_default()),
            Cell::text(finding.seen.as_str()),
            Cell::text(finding.says.to_string()),
            Cell::text(finding.code.rule()),
            Cell::text(finding.help.to_string()),
            Cell::text(finding.suggested.as_deref().unwrap_or_default()),
            Cell::text(related(finding)),
        ]);
    }
    sheet.layout.widths = vec![9.0, 7.0, 30.0, 14.0, 18.0, 46.0, 46.0, 46.0, 16.0, 30.0];
    sheet.layout.landscape = true;
    sheet
}

/// The other places of a finding, each with its phrase.
pub fn related(finding: &Finding) -> String {
    finding.related.iter().map(|(place, phrase)| format!("{place} {phrase}")).collect::<Vec<_>>().join("; ")
}
