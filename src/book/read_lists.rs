//! What a book says of its lists: which they are, and how their columns and words are read.

use std::path::{Path, PathBuf};

use super::form::{COLUMN_HEADS, NAME_HEADS, WORD_HEADS, form_not_read, list_parameter, sheet};
use super::table_reader::{Reader, is_titled, put, value_mut};
use crate::scenario::stated::{At, Stated, Table, Written};

/// The lists that the book names, and what it says of each as a whole.
pub(super) fn files(reader: &Reader<'_>, book: &Path, whole: &mut Table) -> (Vec<PathBuf>, Vec<String>) {
    let (mut files, mut names): (Vec<PathBuf>, Vec<String>) = (Vec::new(), Vec::new());
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
                list_table(whole, &name, &sheet, &filled.at, |table| put(table, &[key], value, &filled.at));
            }
        }
    }
    let wells = reader.sheets.iter().find(|(written, _)| written.eq_ignore_ascii_case(sheet::WELLS));
    if wells.is_some_and(|(_, rows)| rows.len() > 1 && !is_titled(rows)) {
        files.push(book.to_owned());
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
        let field = named.as_ref().map_or_else(|| page.text(row, understood), |named| named.typed.trim()).to_owned();
        if let Some(named) = named.as_ref().filter(|_| !head.trim().is_empty()) {
            let meant = if field == form_not_read() { "" } else { field.as_str() };
            about(whole, &of.0, &of.1, &named.at, |table| {
                put(table, &["columns", head], Written::Text(meant.to_owned()), &named.at);
            });
        }
        for (key, title) in [("units", unit), ("fixed", blank)] {
            let Some(filled) = page.filled(row, page.column(title)) else { continue };
            if field.is_empty() || field == form_not_read() {
                reader.document.fault(&filled.at, "say in the column Read as what this is");
                continue;
            }
            about(whole, &of.0, &of.1, &filled.at, |table| {
                put(table, &[key, &field], Written::Text(filled.typed.trim().to_owned()), &filled.at);
            });
        }
    }
}

pub(super) fn words(reader: &Reader<'_>, whole: &mut Table) {
    let [file, sheet_head, field, word, .., means] = WORD_HEADS;
    let Some(page) = reader.page(sheet::WORDS, file) else { return };
    for row in page.body() {
        let Some(filled) = page.filled(row, page.column(means)) else { continue };
        let (field, word) = (page.text(row, field).to_owned(), page.text(row, word).to_owned());
        if field.is_empty() || word.is_empty() {
            reader.document.fault(&filled.at, "say of which field and which word this is the meaning");
            continue;
        }
        let of = (page.text(row, file).to_owned(), page.text(row, sheet_head).to_owned());
        about(whole, &of.0, &of.1, &filled.at, |table| {
            put(table, &["words", &field, &word], Written::Text(filled.typed.trim().to_owned()), &filled.at);
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
        let chosen = kept.typed.trim();
        let counted = if chosen == name { other } else { name };
        if counted.is_empty() || counted == chosen {
            reader.document.fault(&kept.at, "say in the column Looks like which name is counted under this one");
            continue;
        }
        about(whole, page.text(row, file), page.text(row, sheet_head), &kept.at, |table| {
            put(table, &["words", field, counted], Written::Text(chosen.to_owned()), &kept.at);
        });
    }
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
fn list_table(whole: &mut Table, path: &str, sheet: &str, at: &At, work: impl FnOnce(&mut Table)) {
    let file = path.rsplit(['/', '\\']).next().unwrap_or_default();
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
