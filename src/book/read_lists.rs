//! What a book says of its lists: which they are, and how their columns and words are read.

use std::path::{Path, PathBuf};

use super::form::{COLUMN_HEADS, NAME_HEADS, WORD_HEADS, form_not_read, list_parameter, sheet};
use super::plain;
use super::table_reader::{Reader, is_titled, value_mut};
use crate::field::Field;
use crate::field::names::is_same;
use crate::field::rules::{CORRECTION_HEADINGS, Correction};
use crate::inventory::{corrections, list_names};
use crate::scenario::stated::{At, Stated, Table, Written};

/// The lists that the book names, and what it says of each as a whole.
pub(super) fn files(reader: &Reader<'_>, book: &Path, whole: &mut Table) -> (Vec<PathBuf>, Vec<String>) {
    let (mut files, mut names): (Vec<PathBuf>, Vec<String>) = (Vec::new(), Vec::new());
    let mut said: Vec<(String, String, &'static str, Written, At)> = Vec::new();
    if let Some(page) = reader.page(sheet::LISTS, "File") {
        for row in page.body() {
            let Some(file) = page.filled(row, Some(0)) else { continue };
            let name = file.typed.trim().replace('\\', "/");
            let path = book.parent().unwrap_or(Path::new("")).join(&name);
            if !names.contains(&name) {
                if !path.exists() {
                    let reason =
                        "there is no such file; it is looked for beside the book, or in the folder that is written";
                    reader.document.fault(&file.at, reason);
                }
                files.push(path);
                names.push(name.clone());
            }
            let sheet = page.text(row, "Sheet").to_owned();
            for (key, heading) in [("system", "Units"), ("missing_texts", "Texts that mean \"not known\"")] {
                let Some(filled) = page.filled(row, page.column(heading)) else { continue };
                let Some(value) = list_parameter(key).and_then(|of| reader.value(of, &filled, "")) else { continue };
                said.push((name.clone(), sheet.clone(), key, value, filled.at));
            }
        }
    }
    // What is said of a list is said of it by the name that it has beside the others.
    let called = list_names(&files);
    for (name, sheet, key, value, at) in said {
        let Some(list) = names.iter().position(|known| *known == name).and_then(|at| called.get(at)) else { continue };
        list_table(whole, list, &sheet, &at, |table| reader.put(table, &[key], value, &at));
    }
    let wells = reader.sheets.iter().find(|(written, _)| written.eq_ignore_ascii_case(sheet::WELLS));
    if wells.is_some_and(|(_, rows)| rows.len() > 1 && !is_titled(rows)) {
        files.push(book.to_owned());
        names.push(book.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default());
    }
    (files, names)
}

pub(super) fn columns(reader: &Reader<'_>, whole: &mut Table) {
    let [file, sheet_head, heading, .., understood, _, _, _, read_as, unit, blank] = COLUMN_HEADS;
    let Some(page) = reader.page(sheet::COLUMNS, file) else { return };
    for row in page.body() {
        let of = (page.text(row, file).to_owned(), page.text(row, sheet_head).to_owned());
        let head = page.column(heading).map_or("", |column| page.rows.cell(row, column));
        let named = page.filled(row, page.column(read_as));
        let field = plain::field(named.as_ref().map_or_else(|| page.text(row, understood), |named| named.typed));
        if let Some(named) = named.as_ref().filter(|_| !head.trim().is_empty()) {
            let meant = if field == form_not_read() { "" } else { field.as_str() };
            about(whole, &of.0, &of.1, &named.at, |table| {
                reader.put(table, &["columns", head], Written::Text(meant.to_owned()), &named.at);
            });
        }
        // What is said of a field that there is not is no fault of its own.
        let is_known = Field::by_name(&field).is_some() || field.is_empty() || field == form_not_read();
        for (key, title) in [("units", unit), ("fixed", blank)].into_iter().filter(|_| is_known) {
            let Some(filled) = page.filled(row, page.column(title)) else { continue };
            if field.is_empty() || field == form_not_read() {
                reader.document.fault(&filled.at, "say in the column Read as what this is");
                continue;
            }
            about(whole, &of.0, &of.1, &filled.at, |table| {
                reader.put(table, &[key, &field], Written::Text(filled.typed.trim().to_owned()), &filled.at);
            });
        }
    }
}

pub(super) fn words(reader: &Reader<'_>, whole: &mut Table) {
    let [file, sheet_head, field, word, .., means] = WORD_HEADS;
    let Some(page) = reader.page(sheet::WORDS, file) else { return };
    for row in page.body() {
        let Some(filled) = page.filled(row, page.column(means)) else { continue };
        let (field, word) = (plain::field(page.text(row, field)), page.text(row, word).to_owned());
        if field.is_empty() || word.is_empty() {
            reader.document.fault(&filled.at, "say of which field and which word this is the meaning");
            continue;
        }
        let of = (page.text(row, file).to_owned(), page.text(row, sheet_head).to_owned());
        about(whole, &of.0, &of.1, &filled.at, |table| {
            reader.put(
                table,
                &["words", &field, &word],
                Written::Text(plain::meaning(&field, filled.typed)),
                &filled.at,
            );
        });
    }
}

/// Names that look alike: the one that is not kept is counted under the other.
pub(super) fn names(reader: &Reader<'_>, whole: &mut Table) {
    let [file, sheet_head, field, name, other, keep, ..] = NAME_HEADS;
    let Some(page) = reader.page(sheet::NAMES, file) else { return };
    for row in page.body() {
        let Some(kept) = page.filled(row, page.column(keep)) else { continue };
        let (field, name, other) = (page.text(row, field), page.text(row, name), page.text(row, other));
        if field.is_empty() || name.is_empty() {
            reader.document.fault(&kept.at, "say of which field and in place of which name this one is kept");
            continue;
        }
        let typed = kept.typed.trim();
        if other.is_empty() || name == other {
            reader.document.fault(&kept.at, "say in the column Looks like which name is counted under this one");
            continue;
        }
        let (chosen, counted) = match typed {
            _ if typed == name => (name, other),
            _ if typed == other => (other, name),
            _ if is_same(typed, name) => (name, other),
            _ if is_same(typed, other) => (other, name),
            _ => {
                let reason = format!("keep one of the two, {name:?} or {other:?}: {typed:?} is neither");
                reader.document.fault(&kept.at, reason);
                continue;
            }
        };
        about(whole, page.text(row, file), page.text(row, sheet_head), &kept.at, |table| {
            reader.put(table, &["words", field, counted], Written::Text(chosen.to_owned()), &kept.at);
        });
    }
}

/// A right value on the sheet of repairs, with the cells of its row that say where it belongs.
#[derive(Debug, Clone)]
pub struct Repair {
    /// What is read in which cell.
    pub correction: Correction,
    /// The cell of the list's file.
    pub file: At,
    /// That of its sheet.
    pub sheet: At,
    /// That of the row's number.
    pub row: At,
    /// That of the column's letters.
    pub column: At,
    /// That of the column's heading.
    pub heading: At,
    /// That of what is typed there.
    pub typed: At,
    /// That of the right value itself.
    pub right: At,
}

/// The right values on the sheet of repairs.
pub(super) fn repairs(reader: &Reader<'_>, book: &Path) -> Vec<Repair> {
    let [severity, file, sheet_head, row_head, column, _, _, heading, typed, _, _, _, right, who] = CORRECTION_HEADINGS;
    let Some(page) = reader.page(sheet::REPAIRS, severity) else { return Vec::new() };
    let book = book.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let mut repairs = Vec::new();
    for row in page.body() {
        let text = |head: &str| page.text(row, head).to_owned();
        let at = |head: &str| page.at(row, page.column(head).unwrap_or_default());
        let Some(filled) = page.filled(row, page.column(right)) else {
            if text(severity).is_empty() && !(text(row_head).is_empty() && text(typed).is_empty()) {
                let reason =
                    "write the right value of this cell under Right value, (blank) to empty it, or take the row out";
                reader.document.fault(&at(right), reason);
            }
            continue;
        };
        let mut correction = Correction {
            file: text(file),
            sheet: Some(text(sheet_head)).filter(|sheet| !sheet.is_empty()),
            row: text(row_head).parse().unwrap_or(0),
            column: corrections::column_number(page.text(row, column)),
            heading: text(heading),
            typed: text(typed),
            is_for_any: corrections::is_for_any(page.text(row, severity), page.text(row, typed)),
            corrected: filled.typed.trim().to_owned(),
            who: text(who),
            written_in: format!("{book}!{} row {}", page.name, page.rows.number(row)),
            place: String::new(),
        };
        correction.place = corrections::place_of(&correction);
        let [file, sheet, number, column, heading, typed] =
            [file, sheet_head, row_head, column, heading, typed].map(at);
        repairs.push(Repair { correction, file, sheet, row: number, column, heading, typed, right: filled.at });
    }
    repairs
}

/// Works on the table that is about all lists, or about one.
fn about(whole: &mut Table, file: &str, sheet: &str, at: &At, work: impl FnOnce(&mut Table)) {
    if !file.is_empty() {
        return list_table(whole, file, sheet, at, work);
    }
    if whole.get("inventory").is_none() {
        whole.put("inventory", Written::Table(Table::default()), at.clone());
    }
    if let Some(Written::Table(table)) = value_mut(whole, "inventory") {
        work(table);
    }
}

/// Works on the `[[list]]` of a file, or of a sheet of it, made where it is not there.
fn list_table(whole: &mut Table, file: &str, sheet: &str, at: &At, work: impl FnOnce(&mut Table)) {
    if whole.get("list").is_none() {
        whole.put("list", Written::List(Vec::new()), at.clone());
    }
    let Some(Written::List(lists)) = value_mut(whole, "list") else { return };
    let is_one = |stated: &Stated| {
        let text = |key| stated.value.table().and_then(|table| table.get(key)).and_then(|stated| stated.value.text());
        text("file") == Some(file) && text("sheet").unwrap_or_default() == sheet
    };
    let place = lists.iter().position(is_one).unwrap_or_else(|| {
        let mut table = Table::default();
        table.put("file", Written::Text(file.to_owned()), at.clone());
        if !sheet.is_empty() {
            table.put("sheet", Written::Text(sheet.to_owned()), at.clone());
        }
        lists.push(Stated { value: Written::Table(table), at: at.clone() });
        lists.len() - 1
    });
    if let Some(Written::Table(table)) = lists.get_mut(place).map(|stated| &mut stated.value) {
        work(table);
    }
}
