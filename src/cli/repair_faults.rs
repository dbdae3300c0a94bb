//! Right values of a book that cannot be followed: what is typed, or where it belongs, is asked by the cell that says so. Nothing
//! on the sheet of repairs is passed over in silence.

use crate::book::{Book, Repair};
use crate::field::rules::ReadingRules;
use crate::inventory::corrections::{Unapplied, is_no_well};
use crate::inventory::{Inventory, SourceInfo, cell_value};
use crate::place::Column;
use crate::scenario::section::near;
use crate::scenario::stated::{At, Document};

/// Notes the right values that cannot be read as what their column is, and headings that are not those of their columns.
pub(super) fn unreadable(book: &Book, rules: &ReadingRules, inventory: &Inventory, document: &Document<'_>) {
    let sources = inventory.sources();
    for Repair { correction, heading: heading_at, right, .. } in &book.repairs {
        let is_it = |source: &&SourceInfo| {
            *source.origin.file == *correction.file
                && (correction.sheet.is_none() || source.origin.sheet.as_deref() == correction.sheet.as_deref())
        };
        let Some(source) = sources.iter().find(is_it) else { continue };
        let of_column = (correction.column as usize).checked_sub(1).and_then(|at| source.examples.get(at));
        let of_column = of_column.map_or("", |(heading, _)| heading.as_str());
        // A heading that is corrected is no value.
        if correction.typed == correction.heading && !correction.heading.is_empty()
            || same(&correction.corrected, of_column)
        {
            continue;
        }
        let heading = if correction.heading.is_empty() { of_column } else { correction.heading.as_str() };
        if correction.is_for_any && !of_column.is_empty() && !same(heading, of_column) {
            let letters = letters(correction.column);
            let reason = format!(
                "column {letters} of {} is headed {of_column:?}: write its letters as they are there, or its heading",
                correction.file
            );
            document.fault(heading_at, reason);
            continue;
        }
        let Some((_, field, _)) = source.fields.iter().find(|(name, ..)| name == heading) else { continue };
        // (blank) empties a cell, and one answer for the whole row may stand in any of its lines.
        let corrected = &correction.corrected;
        if corrected.eq_ignore_ascii_case("(blank)") || is_no_well(corrected) {
            continue;
        }
        if let Err(why) = cell_value(&rules.of(&source.origin), *field, corrected) {
            document.fault(right, format!("{corrected:?} cannot be read as {}: {why}", field.name().replace('_', " ")));
        }
    }
}

/// Notes the right values that no cell of the lists takes, once the lists are read.
pub(super) fn unapplied(book: &Book, inventory: &Inventory, document: &Document<'_>) {
    let sources = inventory.sources();
    for (correction, why) in inventory.unapplied_corrections() {
        let Some(repair) = book.repairs.iter().find(|repair| repair.correction.written_in == correction.written_in)
        else {
            continue;
        };
        let (at, reason) = told(repair, &why, &sources);
        document.fault(at, reason);
    }
}

/// The cell that is wrong, and what to do.
fn told<'a>(repair: &'a Repair, why: &Unapplied, sources: &[SourceInfo]) -> (&'a At, String) {
    let correction = &repair.correction;
    let (file, row) = (&correction.file, correction.row);
    match why {
        Unapplied::Different(found) => {
            let expected = match correction.typed.as_str() {
                "" => "was blank when this line was written".to_owned(),
                typed => format!("does not hold {typed:?}"),
            };
            let holds = if found.is_empty() { "is blank".to_owned() } else { format!("holds {found:?}") };
            let reason = format!(
                "the cell {expected}, and {holds} now: look at it again, and write here what stands there, or take the right value out",
            );
            (&repair.typed, reason)
        }
        Unapplied::Second => {
            (&repair.right, "another line gives the same cell another right value: keep one of the two".to_owned())
        }
        Unapplied::NoList => no_list(repair, sources),
        Unapplied::NoCell if row == 0 => {
            (&repair.row, "write the number of the row in the list, as a spreadsheet program shows it".to_owned())
        }
        Unapplied::NoCell => (
            &repair.column,
            "write the letters of the column in the list, as a spreadsheet program shows them".to_owned(),
        ),
        Unapplied::NoColumn(last) => {
            let reason = format!("{file} has no such column: its last is {}", letters(*last));
            (&repair.column, reason)
        }
        Unapplied::NoRow => {
            let reason = format!(
                "{file} has nothing in row {row}, so that nothing can be repaired there: write the number of the row as a spreadsheet \
                 program shows it"
            );
            (&repair.row, reason)
        }
    }
}

/// A list or a sheet that is not read.
fn no_list<'a>(repair: &'a Repair, sources: &[SourceInfo]) -> (&'a At, String) {
    let correction = &repair.correction;
    let named = |name: &str, known: &[&str]| format!("{}; there are: {}", near(name, known), known.join(", "));
    let of_file = sources.iter().filter(|source| *source.origin.file == *correction.file);
    let sheets: Vec<&str> = of_file.clone().filter_map(|source| source.origin.sheet.as_deref()).collect();
    if of_file.count() == 0 {
        let mut files: Vec<&str> = sources.iter().map(|source| &*source.origin.file).collect();
        files.dedup();
        return (
            &repair.file,
            format!("no list of this book is called {:?}{}", correction.file, named(&correction.file, &files)),
        );
    }
    match &correction.sheet {
        Some(sheet) if sheets.is_empty() => {
            (&repair.sheet, format!("{} has no sheets: leave {sheet:?} out", correction.file))
        }
        Some(sheet) => (
            &repair.sheet,
            format!("no sheet of {} that is read is called {sheet:?}{}", correction.file, named(sheet, &sheets)),
        ),
        None => (&repair.sheet, format!("say which sheet of {} it is: {}", correction.file, sheets.join(", "))),
    }
}

fn letters(column: u32) -> String {
    Column { number: column, heading: "".into() }.letters()
}

/// Whether two headings are the same but for blanks.
fn same(one: &str, other: &str) -> bool {
    one.split_whitespace().eq(other.split_whitespace())
}
