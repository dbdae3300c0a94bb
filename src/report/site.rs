//! What the lists report of the sites, for the people who go there.

use std::borrow::Cow;

use super::Matter;
use crate::document::cell::{Cell, Role, Sheet};
use crate::hazard::{ENTRIES, Entry};

/// Hazards that some visit reports, worst first, with the number of visits.
pub fn reported<'a>(matter: &'a Matter<'_>) -> impl Iterator<Item = (&'static Entry, u64)> + 'a {
    ENTRIES.iter().map(|entry| (entry, matter.run.tally.of(entry.hazard))).filter(|(_, count)| *count > 0)
}

/// What is told of so many visits: the crew's text speaks of one well.
pub fn told(entry: &Entry, visits: u64) -> Cow<'static, str> {
    if visits > 1 { entry.text.replace("this well", "these wells").into() } else { entry.text.into() }
}

/// `fuel: 3 visits`, and what the crew is told.
pub(super) fn lines(matter: &Matter<'_>, sheet: &mut Sheet) {
    for (entry, count) in reported(matter) {
        let visits = if count == 1 { "visit" } else { "visits" };
        sheet.wide(format!("Flag {} ({count} {visits}): {}", entry.word, told(entry, count)), Role::Caution);
    }
}

/// Rows of the Cautions sheet.
pub(super) fn cautions(matter: &Matter<'_>, sheet: &mut Sheet) {
    for (entry, count) in reported(matter) {
        let source = format!("{} ({})", entry.source.citation, entry.source.provenance.label());
        sheet.push(vec![
            Cell::text(format!("flag: {}", entry.word)),
            Cell::text(entry.text),
            Cell::count(count),
            Cell::text(source),
        ]);
    }
}
