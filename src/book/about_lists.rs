//! The sheets of a book that are about its lists: files, columns, words, names.

use super::cells::shown;
use super::form::{COLUMN_HEADS, NAME_HEADS, WORD_HEADS, form_not_read, list_parameter, sheet};
use super::lists::Understood;
use super::plain;
use super::sheets::{Choices, SPARE_ROWS, among, blank, tables, text_of, titled};
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::entry::Allowed;
use crate::field::rules::{NO_WELL, NOT_KNOWN, is_named};
use crate::field::{Field, WellType};
use crate::scenario::stated::Table;

/// The lists of the campaign, and what is said of each.
pub(super) fn lists(stated: &Table, understood: &Understood) -> Sheet {
    let mut made = titled(sheet::LISTS, "the lists of wells");
    made.note("Files as they lie from here: beside this book, or in a folder below it. Wells may also stand on a sheet Wells of this book.");
    made.heads(["File", "Sheet", "Units", "Texts that mean \"not known\"", "Rows"]);
    let first = made.rows.len() as u32;
    let (system, texts) = (list_parameter("system"), list_parameter("missing_texts"));
    let row = |file: &str, table: Option<&Table>, rows: Option<u64>| {
        let value = |key: &str, of: Option<&'static crate::parameter::Parameter>| {
            of.map_or_else(blank, |of| shown(of, table.and_then(|table| table.get(key))))
        };
        vec![
            Cell::new(Value::text(file), Role::Blank),
            Cell::new(Value::text(table.and_then(|table| text_of(table, "sheet")).unwrap_or_default()), Role::Blank),
            value("system", system),
            value("missing_texts", texts),
            rows.map_or(Cell::empty(), Cell::count),
        ]
    };
    let called = |at: usize| -> String {
        let file = |path: &str| path.rsplit(['/', '\\']).next().unwrap_or_default().to_owned();
        understood.called.get(at).cloned().unwrap_or_else(|| file(&understood.lists[at].0))
    };
    let mut stated_lists: Vec<&Table> = tables(stated, "list").collect();
    for (number, (path, count)) in understood.lists.iter().enumerate() {
        let whole = |table: &&Table| {
            text_of(table, "file").is_some_and(|file| is_named(file, &called(number))) && table.get("sheet").is_none()
        };
        let at = stated_lists.iter().position(whole);
        let table = at.map(|at| stated_lists.remove(at));
        made.push(row(path, table, Some(*count)));
    }
    for table in stated_lists {
        let file = text_of(table, "file").unwrap_or_default();
        let path = (0..understood.lists.len()).find(|number| is_named(file, &called(*number)));
        made.push(row(path.map_or(file, |number| understood.lists[number].0.as_str()), Some(table), None));
    }
    for _ in 0..SPARE_ROWS / 2 {
        made.push(row("", None, None));
    }
    let last = made.rows.len() as u32 - 1;
    let systems = Allowed::Among(["us", "metric", "imperial"].map(str::to_owned).to_vec());
    made.layout.entries.push(among(systems, 2, (first, last), "Units"));
    made.layout.widths = vec![44.0, 22.0, 12.0, 30.0, 10.0];
    made.layout.filter_row = None;
    made
}

/// Tables that say how lists are read: of all, under a blank name, and of each.
fn about_lists(stated: &Table) -> Vec<(String, String, &Table)> {
    let all = stated.get("inventory").and_then(|stated| stated.value.table());
    let mut about: Vec<(String, String, &Table)> =
        all.map(|table| (String::new(), String::new(), table)).into_iter().collect();
    about.extend(tables(stated, "list").map(|table| {
        let text = |key| text_of(table, key).unwrap_or_default().to_owned();
        (text("file"), text("sheet"), table)
    }));
    about
}

/// Entries of a table of names: name and text.
fn named<'a>(table: &'a Table, key: &str) -> Vec<(&'a str, &'a str)> {
    let names = table.get(key).and_then(|stated| stated.value.table());
    names.map_or_else(Vec::new, |names| {
        names.entries.iter().map(|entry| (entry.key.as_str(), entry.stated.value.text().unwrap_or_default())).collect()
    })
}

struct ColumnRow {
    file: String,
    sheet: String,
    heading: String,
    examples: Vec<String>,
    field: String,
    unit_read: String,
    how_sure: String,
    why: String,
    read_as: String,
    unit: String,
    blank: String,
}

pub(super) fn columns(stated: &Table, understood: &Understood, choices: &Choices) -> Sheet {
    let mut made = titled(sheet::COLUMNS, "columns of the lists");
    made.note("Right as it is: leave the last three columns blank. Else say what a column is, in which unit, or what to take where its cells are blank.");
    made.note("A row without a file is about all lists; one without a heading is about a field that no column shows.");
    made.heads(COLUMN_HEADS);
    let first = made.rows.len() as u32;
    let row_of = |column: &super::lists::Column| ColumnRow {
        file: column.file.clone(),
        sheet: column.sheet.clone().unwrap_or_default(),
        heading: column.heading.clone(),
        examples: column.examples.clone(),
        field: column.field.unwrap_or_default().to_owned(),
        unit_read: column.unit.clone().unwrap_or_default(),
        how_sure: column.how_sure.to_owned(),
        why: column.why.clone(),
        read_as: String::new(),
        unit: String::new(),
        blank: String::new(),
    };
    let mut listed: Vec<ColumnRow> = understood.columns.iter().map(row_of).collect();
    for (file, sheet, table) in about_lists(stated) {
        let concerns = |row: &ColumnRow| row.file == file && row.sheet == sheet;
        let fresh = |heading: &str, read_as: &str| ColumnRow {
            file: file.clone(),
            sheet: sheet.clone(),
            heading: heading.to_owned(),
            examples: Vec::new(),
            field: String::new(),
            unit_read: String::new(),
            how_sure: String::new(),
            why: String::new(),
            read_as: read_as.to_owned(),
            unit: String::new(),
            blank: String::new(),
        };
        for (heading, field) in named(table, "columns") {
            let read_as = if field.is_empty() { form_not_read() } else { field };
            match listed.iter_mut().find(|row| concerns(row) && row.heading == heading) {
                Some(row) => row.read_as = read_as.to_owned(),
                None => listed.push(fresh(heading, read_as)),
            }
        }
        for (key, put) in [
            ("units", (|row, text| row.unit = text) as fn(&mut ColumnRow, String)),
            ("fixed", |row, text| row.blank = text),
        ] {
            for (field, text) in named(table, key) {
                let is_of = |row: &ColumnRow| {
                    concerns(row) && (row.read_as == field || row.read_as.is_empty() && row.field == field)
                };
                let at = listed.iter().position(is_of).unwrap_or_else(|| {
                    listed.push(fresh("", field));
                    listed.len() - 1
                });
                put(&mut listed[at], text.to_owned());
            }
        }
    }
    for row in &listed {
        let open = row.how_sure == "open" && row.read_as.is_empty();
        let text = |text: &str| Cell::text(text);
        let example = |at: usize| Cell::text(row.examples.get(at).cloned().unwrap_or_default());
        let input = |text: &str| Cell::new(Value::text(text), if open { Role::Flagged } else { Role::Blank });
        made.push(vec![
            text(&row.file),
            text(&row.sheet),
            text(&row.heading),
            example(0),
            example(1),
            example(2),
            text(&plain::shown(&row.field)),
            text(&row.unit_read),
            text(&row.how_sure).with_role(if open { Role::Flagged } else { Role::Body }),
            Cell::new(Value::text(row.why.clone()), Role::Note),
            input(&plain::shown(&row.read_as)),
            input(&row.unit),
            Cell::new(Value::text(row.blank.clone()), Role::Blank),
        ]);
    }
    for _ in 0..SPARE_ROWS {
        let mut row = vec![Cell::empty(); 10];
        (0..3).for_each(|column| row[column] = blank());
        row.extend([blank(), blank(), blank()]);
        made.push(row);
    }
    let last = made.rows.len() as u32 - 1;
    made.layout.entries.push(among(choices.among("Read as"), 10, (first, last), "Read as"));
    made.layout.entries.push(among(choices.among("Units"), 11, (first, last), "Unit"));
    made.layout.widths = vec![26.0, 16.0, 26.0, 14.0, 14.0, 14.0, 20.0, 9.0, 10.0, 46.0, 24.0, 12.0, 16.0];
    made.layout.frozen_columns = 3;
    made
}

pub(super) fn words(stated: &Table, understood: &Understood) -> Sheet {
    let mut made = titled(sheet::WORDS, "words of the lists");
    made.note(
        "Say what each word means; what is left blank stays as it is and holds its wells back where they need it.",
    );
    made.note(format!("\"{NOT_KNOWN}\": it says nothing. \"{NO_WELL}\": the row is no well that is treated."));
    made.heads(WORD_HEADS);
    let mut listed: Vec<[String; 7]> = understood
        .unread
        .iter()
        .map(|unread| {
            [
                unread.file.clone(),
                unread.sheet.clone().unwrap_or_default(),
                unread.field.to_owned(),
                unread.word.clone(),
                unread.count.to_string(),
                unread.place.clone(),
                String::new(),
            ]
        })
        .collect();
    for (file, sheet, table) in about_lists(stated) {
        let fields = table.get("words").and_then(|stated| stated.value.table());
        for field in fields.map_or(&[][..], |fields| &fields.entries).iter().filter(|field| !is_of_names(&field.key)) {
            let Some(words) = field.stated.value.table() else { continue };
            for word in &words.entries {
                let meaning = word.stated.value.text().unwrap_or_default();
                let is_row = |row: &&mut [String; 7]| {
                    row[0] == file && row[1] == sheet && row[2] == field.key && row[3] == word.key
                };
                match listed.iter_mut().find(is_row) {
                    Some(row) => meaning.clone_into(&mut row[6]),
                    None => listed.push([
                        file.clone(),
                        sheet.clone(),
                        field.key.clone(),
                        word.key.clone(),
                        String::new(),
                        String::new(),
                        meaning.to_owned(),
                    ]),
                }
            }
        }
    }
    listed.resize_with(listed.len() + SPARE_ROWS, Default::default);
    for row in listed {
        let number = made.rows.len() as u32;
        let field = Field::by_name(&row[2]);
        let meanings = field.and_then(crate::scenario::meanings).unwrap_or_else(|| {
            WellType::ALL.iter().map(|of| of.name()).chain(["yes", "no", NOT_KNOWN, NO_WELL]).collect()
        });
        let meanings = meanings.into_iter().map(plain::shown).collect();
        made.layout.entries.push(among(Allowed::Among(meanings), 6, (number, number), "Means"));
        let open = row[6].is_empty() && !row[4].is_empty();
        let mut cells: Vec<Cell> = row.iter().map(|text| Cell::text(text.clone())).collect();
        for at in [2, 6] {
            cells[at] = Cell::text(plain::shown(&row[at]));
        }
        cells[6].role = if open { Role::Flagged } else { Role::Blank };
        made.push(cells);
    }
    made.layout.widths = vec![28.0, 18.0, 20.0, 34.0, 8.0, 14.0, 20.0];
    made
}

/// Names of depots and regions that look alike, and which of them is kept.
pub(super) fn names(stated: &Table, understood: &Understood) -> Sheet {
    let mut made = titled(sheet::NAMES, "names that look alike");
    made.note(
        "Depots and regions that differ by a letter are counted as two. If they are one, say in the column Keep which name counts; \
         the other is read as if it were that one. The lists stay as they are. Left blank they stay two.",
    );
    if !understood.folded.is_empty() {
        made.note(
            "Spellings that differ in capitals, blanks or marks only are counted as one already: they stand at the end, and need \
             no answer.",
        );
    }
    made.heads(NAME_HEADS);
    let mut listed: Vec<[String; 8]> = Vec::new();
    for alike in &understood.names {
        let (none, field) = (String::new(), alike.field.to_owned());
        let (name, other) = (alike.name.clone(), alike.other.clone());
        listed.push([none.clone(), none.clone(), field, name, other, none, alike.says.clone(), alike.place.clone()]);
    }
    for (file, sheet, table) in about_lists(stated) {
        let fields = table.get("words").and_then(|stated| stated.value.table());
        for field in fields.map_or(&[][..], |fields| &fields.entries).iter().filter(|field| is_of_names(&field.key)) {
            for (name, kept) in fields.map_or_else(Vec::new, |fields| named(fields, &field.key)) {
                let (name, kept) = (name.to_owned(), kept.to_owned());
                let none = String::new;
                listed.push([file.clone(), sheet.clone(), field.key.clone(), name, kept.clone(), kept, none(), none()]);
            }
        }
    }
    let asked = listed.len();
    for alike in &understood.folded {
        let none = String::new;
        let (name, other) = (alike.name.clone(), alike.other.clone());
        let field = alike.field.to_owned();
        listed.push([none(), none(), field, name, other, none(), alike.says.clone(), alike.place.clone()]);
    }
    let told = asked..listed.len();
    listed.resize_with(listed.len() + SPARE_ROWS, Default::default);
    for (at, row) in listed.into_iter().enumerate() {
        let number = made.rows.len() as u32;
        if !row[3].is_empty() {
            let both = Allowed::Among(row[3..5].to_vec());
            made.layout.entries.push(among(both, 5, (number, number), "Keep"));
        }
        let open = row[5].is_empty() && !row[3].is_empty() && !told.contains(&at);
        let role = |at: usize| match at {
            5 if open => Role::Flagged,
            ..=5 => Role::Blank,
            _ => Role::Note,
        };
        made.push(row.into_iter().enumerate().map(|(at, text)| Cell::new(Value::text(text), role(at))).collect());
    }
    made.layout.widths = vec![16.0, 10.0, 9.0, 22.0, 22.0, 20.0, 38.0, 20.0];
    made
}

/// Whether a field's words are names: they have a sheet of their own.
fn is_of_names(field: &str) -> bool {
    Field::by_name(field).is_some_and(Field::is_name_of_places)
}
