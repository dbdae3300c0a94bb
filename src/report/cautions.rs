//! The Cautions sheet: what can hurt someone, first in general, then what this list's own data raise.

use super::Matter;
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Cautions");
    sheet.title("Cautions: read before anyone opens a product or a well");
    sheet.note("These figures are a planning aid. Local code and licensed practice come first.");
    sheet.heads(["Caution", "What to do", "Rows it was raised for (first scenario)", "Source"]);
    for entry in &caution::GENERAL {
        sheet.push(vec![
            Cell::text(entry.word).with_role(Role::Caution),
            Cell::text(entry.text).with_role(Role::Caution),
            Cell::text("every well"),
            Cell::text(source(entry)),
        ]);
    }
    for (caution, entry) in caution::raised() {
        let rows = matter.run.caution_counts.first().map_or(0, |counts| counts[caution as usize]);
        if rows > 0 {
            sheet.push(vec![
                Cell::text(entry.word),
                Cell::text(entry.text),
                Cell::count(rows),
                Cell::text(source(entry)),
            ]);
        }
    }
    super::site::cautions(matter, &mut sheet);
    sheet.layout.widths = vec![16.0, 60.0, 11.0, 28.0];
    sheet
}

fn source(entry: &caution::Entry) -> String {
    format!("{} ({})", entry.source.citation, entry.source.provenance.label())
}
