//! Formulas that are copied down a column, written once: programs read a sheet of many thousands of them in seconds.
//!
//! The workbook library writes every formula in full. It is given a mark in place of a copy; when the file is made, marks become
//! references to the first of the column.

use std::collections::HashMap;
use std::io::{Cursor, Read, Write};
use std::sync::Arc;

use foldhash::fast::FixedState;
use memchr::memmem::Finder;
use rust_xlsxwriter::XlsxError;
use rust_xlsxwriter::utility::row_col_to_cell;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

use crate::document::cell::{Sheet, Value};
use crate::document::formula::{Formula, Piece};

/// What the marks begin with, as they stand in the file.
const FIRST: &str = "<f>first_of_copies_";
const COPY: &str = "<f>copy_of_";
const END: &str = "</f>";
/// How hard a workbook is packed, 1 to 9: a third of the time of the usual 6, for a third more bytes.
const PACKED: i64 = 2;
/// Copies that are worth it.
const FEWEST: usize = 8;

/// One run of copies.
struct Group {
    number: usize,
    /// What stands for each but the first.
    mark: String,
    first: u32,
    last: u32,
    count: usize,
}

/// The copies of a sheet, by column and by what they hold.
pub(super) struct Groups(HashMap<(u16, *const Piece), Group, FixedState>);

impl Groups {
    /// Finds the copies of a sheet.
    pub fn of(sheet: &Sheet) -> Self {
        let mut groups = HashMap::default();
        for (row, cells) in sheet.rows.iter().enumerate() {
            for (column, cell) in cells.iter().enumerate() {
                let Value::Formula(formula) = &cell.value else { continue };
                if Arc::strong_count(&formula.pieces) < FEWEST {
                    continue;
                }
                let number = groups.len();
                let key = (column as u16, formula.pieces.as_ptr());
                let mark = || format!("copy_of_{number}_");
                let new = || Group { number, mark: mark(), first: row as u32, last: 0, count: 0 };
                let group: &mut Group = groups.entry(key).or_insert_with(new);
                group.last = row as u32;
                group.count += 1;
            }
        }
        Self(groups)
    }

    /// The text that stands for a formula at a place: itself, or a mark.
    pub fn marked(&self, formula: &Formula, (row, column): (u32, u16), whole: impl FnOnce() -> String) -> String {
        match self.0.get(&(column, formula.pieces.as_ptr())).filter(|group| group.count >= FEWEST) {
            None => whole(),
            Some(group) if group.first == row => {
                let area = [group.first, group.last].map(|row| row_col_to_cell(row, column)).join(":");
                format!("first_of_copies_{}_{area}_{}", group.number, whole())
            }
            Some(group) => group.mark.clone(),
        }
    }
}

/// Turns the marks of a finished workbook into references.
pub(super) fn resolved(workbook: Vec<u8>) -> Result<Vec<u8>, XlsxError> {
    let mut parts = ZipArchive::new(Cursor::new(workbook))?;
    let mut made = ZipWriter::new(Cursor::new(Vec::new()));
    // Never the clock.
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(PACKED))
        .last_modified_time(DateTime::default());
    for at in 0..parts.len() {
        let mut packed = parts.by_index(at)?;
        let name = packed.name()?.into_owned();
        let mut text = String::new();
        packed.read_to_string(&mut text)?;
        if name.starts_with("xl/worksheets/sheet") {
            text = with_references(&text);
        }
        made.start_file(name, options)?;
        made.write_all(text.as_bytes())?;
    }
    Ok(made.finish()?.into_inner())
}

fn with_references(sheet: &str) -> String {
    let mut made = String::with_capacity(sheet.len());
    let mut rest = sheet;
    let (begins, ends) = (Finder::new("<f>"), Finder::new(END));
    while let Some(at) = begins.find(rest.as_bytes()) {
        made.push_str(&rest[..at]);
        rest = &rest[at..];
        let end = ends.find(rest.as_bytes()).map_or(rest.len(), |end| end + END.len());
        let formula = &rest[..end];
        if refer(formula, &mut made).is_none() {
            made.push_str(formula);
        }
        rest = &rest[end..];
    }
    made.push_str(rest);
    made
}

/// Writes a reference in place of a formula that is a mark; nothing where it is none.
fn refer(formula: &str, made: &mut String) -> Option<()> {
    let parts = if let Some(number) = formula.strip_prefix(COPY) {
        ["<f t=\"shared\" si=\"", number.strip_suffix(END)?.strip_suffix('_')?, "\"/>", "", "", ""]
    } else {
        let (number, rest) = formula.strip_prefix(FIRST)?.split_once('_')?;
        let (area, text) = rest.split_once('_')?;
        ["<f t=\"shared\" ref=\"", area, "\" si=\"", number, "\">", text]
    };
    made.extend(parts);
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_become_references_and_other_formulas_stay() {
        let sheet = "<c><f>first_of_copies_3_B2:B9_A2*Some_name</f><v>1</v></c><c><f>copy_of_3_</f><v>2</v></c><c><f>A1</f></c>";
        let wanted = "<c><f t=\"shared\" ref=\"B2:B9\" si=\"3\">A2*Some_name</f><v>1</v></c>\
                      <c><f t=\"shared\" si=\"3\"/><v>2</v></c><c><f>A1</f></c>";
        assert_eq!(with_references(sheet), wanted);
    }
}
