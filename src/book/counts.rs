//! Counts of packages in a plan's workbook that a person changed: a plan chooses them anew, and says so cell by cell.

use super::figures;
use crate::inventory::Rows;
use crate::place::Column;
use crate::scenario::stated::{At, Document};

const SHEET: &str = "Packages";
const COUNT: &str = "Count";
const PLANNED: &str = "Count as planned";

/// A count that is no longer that of the plan.
#[derive(Debug)]
pub(super) struct Changed {
    cell: String,
    planned: String,
    typed: String,
}

/// The counts that were changed, in the order of the sheet.
pub(super) fn changed(sheets: &[(String, Rows)]) -> Vec<Changed> {
    let Some((_, rows)) = sheets.iter().find(|(name, _)| name == SHEET) else { return Vec::new() };
    let column = |row: usize, head: &str| (0..rows.width(row)).find(|at| rows.cell(row, *at).trim() == head);
    let heads = (0..rows.len()).find_map(|row| Some((row, column(row, COUNT)?, column(row, PLANNED)?)));
    let Some((head, count, planned)) = heads else { return Vec::new() };
    let letters = Column { number: count as u32 + 1, heading: "".into() }.letters();
    let of_row = |row: usize| {
        let [typed, planned] = [count, planned].map(|column| rows.cell(row, column).trim());
        let same = match (figures::number(typed), figures::number(planned)) {
            (Ok(typed), Ok(planned)) => typed == planned,
            _ => typed == planned,
        };
        let cell = format!("{letters}{}", rows.number(row));
        (!same).then(|| Changed { cell, planned: planned.to_owned(), typed: typed.to_owned() })
    };
    (head + 1..rows.len()).filter_map(of_row).collect()
}

/// Refuses what is no count, each with its cell, and says in one sentence which others are chosen anew; nothing where none is.
pub(super) fn told(changed: &[Changed], document: &Document<'_>) -> Option<String> {
    let mut named = Vec::new();
    for count in changed {
        if figures::number(&count.typed).is_ok_and(|number| number >= 0.0 && number.fract() == 0.0) {
            named.push(format!("{SHEET}!{} ({} changed to {})", count.cell, count.planned, count.typed));
            continue;
        }
        let at = At::Cell { sheet: SHEET.to_owned(), cell: count.cell.clone(), typed: count.typed.clone() };
        document.fault(&at, "a count of packages is a whole number, 0 or more".to_owned());
    }
    (!named.is_empty()).then(|| {
        format!("a plan chooses counts of packages anew, which overrules the change of counts in {}", named.join(", "))
    })
}
