//! A plan's workbook that comes back: what it was planned from stands in it as text, and cells that a person changed are put in
//! the place of what was stated.

use std::path::Path;

use super::cells::{self, Typed};
use super::counts::{self, Counted};
use super::figures::BareShare;
use crate::error::{Error, Result};
use crate::field::names::is_same;
use crate::field::rules::Correction;
use crate::inventory::{CellKind, Rows, corrections, sheets_of};
use crate::parameter::{FILE, Kind, PRACTICE, Parameter};
use crate::place::Column;
use crate::scenario::stated::{At, Document, Entry, Stated, Table, Written};

/// The sheet that holds what was stated, and the headings of its tables.
const SHEET: &str = "Assumptions";
const CELLS: &str = "Cell that may be changed";
const TEXT: &str = "What was stated, line by line";
const LISTS: &str = "Lists of the plan";
const CORRECTIONS: &str = "Cell read as corrected";
/// Sheets that every such workbook has.
const OTHERS: [&str; 2] = ["Needs", "Packages"];
/// What stands between the keys of a path.
const BETWEEN: &str = " > ";
/// Rows of a sheet that are read.
const MOST_ROWS: usize = 60_000;

/// What a plan's workbook states.
#[derive(Debug)]
pub struct Edited {
    /// What the plan was made from, as the text of a scenario file.
    pub text: String,
    /// Names of the lists.
    pub lists: Vec<String>,
    /// Cells that are read as corrected.
    pub corrections: Vec<Correction>,
    changes: Vec<Change>,
    counts: Vec<Counted>,
}

/// A cell that no longer holds what was planned.
#[derive(Debug)]
struct Change {
    states: Vec<String>,
    typed: String,
    kind: CellKind,
    unit: String,
    at: At,
    /// Whether the row is no longer that of the plan.
    is_moved: bool,
}

/// Whether a file is the workbook of a plan.
pub fn is_edited(path: &Path) -> bool {
    let has = |sheets: &[(String, Rows)], wanted: &str| sheets.iter().any(|(name, _)| name == wanted);
    path.is_file()
        && sheets_of(path, 1)
            .ok()
            .flatten()
            .is_some_and(|sheets| has(&sheets, SHEET) && OTHERS.iter().all(|other| has(&sheets, other)))
}

/// Reads a plan's workbook.
///
/// # Errors
/// When it cannot be read, or holds nothing of what was stated.
pub fn read_edited(path: &Path) -> Result<Edited> {
    let sheets = sheets_of(path, MOST_ROWS)?.unwrap_or_default();
    let lacking = || Error::input(path, format!("its sheet {SHEET} no longer holds what the plan was made from"));
    let (_, rows) = sheets.iter().find(|(name, _)| name == SHEET).ok_or_else(lacking)?;
    let find = |head: &str| (0..rows.len()).find(|row| rows.cell(*row, 0).trim() == head);
    let (Some(cells), Some(text), Some(lists)) = (find(CELLS), find(TEXT), find(LISTS)) else { return Err(lacking()) };
    let Some(corrected) = find(CORRECTIONS) else { return Err(lacking()) };
    // Empty rows are left out by the reader: a gap in the numbers ends a table.
    let is_next = |from: usize, row: usize| rows.number(row) == rows.number(from) + (row - from) as u32;
    let until_blank = |from: usize| (from + 1..rows.len()).take_while(move |row| is_next(from, *row));
    let changes = until_blank(cells).filter_map(|row| change(rows, row, &sheets)).collect();
    // Each line stands at its number, empty ones too.
    let first = rows.number(text);
    let count: u32 = rows.cell(text, 1).trim().parse().map_err(|_| lacking())?;
    let mut lines = vec![""; count as usize];
    for row in text + 1..rows.len() {
        let at = rows.number(row).saturating_sub(first + 1) as usize;
        if let Some(line) = lines.get_mut(at) {
            *line = rows.cell(row, 0);
        }
    }
    let lists = until_blank(lists).map(|row| rows.cell(row, 0).trim().to_owned()).collect();
    let file = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let corrections = until_blank(corrected).map(|row| correction(rows, row, &file)).collect();
    Ok(Edited { text: lines.join("\n"), lists, corrections, changes, counts: counts::changed(&sheets) })
}

/// A cell of a list that is read as if something else were typed in it.
fn correction(rows: &Rows, row: usize, workbook: &str) -> Correction {
    let cell = |column: usize| rows.cell(row, column).to_owned();
    let number = |column: usize| rows.cell(row, column).trim().parse().unwrap_or(0);
    let mut correction = Correction {
        file: cell(0),
        sheet: Some(cell(1)).filter(|sheet| !sheet.is_empty()),
        row: number(2),
        column: number(3),
        heading: cell(4),
        typed: cell(5),
        corrected: cell(6),
        who: cell(7),
        written_in: format!("{workbook}!{SHEET} row {}", rows.number(row)),
        ..Correction::default()
    };
    correction.place = corrections::place_of(&correction);
    correction
}

/// A cell of the table, where it holds something else than planned.
fn change(rows: &Rows, row: usize, sheets: &[(String, Rows)]) -> Option<Change> {
    let [label, sheet, number, column, planned, states, unit] =
        [0, 1, 2, 3, 4, 5, 6].map(|column| rows.cell(row, column).trim());
    let (number, column): (u32, usize) = (number.parse().ok()?, column.parse().ok()?);
    let (_, there) = sheets.iter().find(|(name, _)| name == sheet)?;
    let found = (0..there.len()).find(|row| there.number(*row) == number);
    let column = column.checked_sub(1)?;
    let typed = found.map_or("", |row| there.cell(row, column).trim());
    let kind = found.map_or(CellKind::Text, |row| there.kind(row, column));
    let labels = found.map_or_else(String::new, |row| format!("{}: {}", there.cell(row, 0), there.cell(row, 1)));
    // What is typed as a text is read when it is applied, by the reader of the book.
    let same = match (kind, typed.parse::<f64>(), planned.parse::<f64>()) {
        (CellKind::Number | CellKind::Text, Ok(typed), Ok(planned)) => (typed - planned).abs() <= 1e-9 * planned.abs(),
        _ => typed == planned,
    };
    let is_moved = labels.trim() != label;
    if same && !is_moved {
        return None;
    }
    let letters = Column { number: column as u32 + 1, heading: "".into() }.letters();
    Some(Change {
        states: states.split(BETWEEN).map(str::to_owned).collect(),
        typed: typed.to_owned(),
        kind,
        unit: unit.to_owned(),
        at: At::Cell { sheet: sheet.to_owned(), cell: format!("{letters}{number}"), typed: typed.to_owned() },
        is_moved,
    })
}

impl Edited {
    /// Puts what was changed in the place of what was stated, counts of packages too; what cannot be is noted with its cell.
    pub fn apply(&self, document: &Document<'_>, stated: &mut Stated) {
        let Written::Table(whole) = &mut stated.value else { return };
        let head = whole.get("campaign").and_then(|stated| stated.value.table());
        let currency = head.and_then(|table| table.get("currency")?.value.text()).map(str::to_owned);
        for change in &self.changes {
            if let Err(reason) = change.apply(whole, currency.as_deref()) {
                document.fault(&change.at, reason);
            }
        }
        counts::apply(&self.counts, document, whole);
    }
}

impl Change {
    fn apply(&self, whole: &mut Table, currency: Option<&str>) -> std::result::Result<(), String> {
        if self.is_moved {
            return Err("this row is not where the plan put it: rows of this sheet stay where they are".to_owned());
        }
        let path: Vec<&str> = self.states.iter().map(String::as_str).collect();
        let nowhere = || {
            let what = self.states.join(BETWEEN);
            format!("{what} is stated nowhere by itself: state it in the scenario file or the campaign book")
        };
        let (table, keys) = match &path[..] {
            ["practice", keys @ ..] => (made(whole, "practice", &self.at).ok_or_else(nowhere)?, keys),
            ["override", number, keys @ ..] => {
                let number: usize = number.parse().map_err(|_| nowhere())?;
                let rule = list_mut(whole, "override").and_then(|list| list.get_mut(number.wrapping_sub(1)));
                let rule = rule.and_then(table_of).ok_or_else(nowhere)?;
                (made(rule, "set", &self.at).ok_or_else(nowhere)?, keys)
            }
            ["stock", depot, item, number, key] => {
                let number = number.parse().map_err(|_| nowhere())?;
                (stock(whole, depot, item, number, &self.at).ok_or_else(nowhere)?, std::slice::from_ref(key))
            }
            ["stock", depot, item, keys @ ..] => (stock(whole, depot, item, 1, &self.at).ok_or_else(nowhere)?, keys),
            [kind @ ("product" | "neutralizer"), name, "packages", number, keys @ ..] => {
                let owner = named(whole, kind, name).ok_or_else(nowhere)?;
                let packages = list_mut(owner, "packages").ok_or_else(nowhere)?;
                let number: usize = number.parse().map_err(|_| nowhere())?;
                let package = packages.get_mut(number.wrapping_sub(1)).and_then(table_of);
                (package.ok_or_else(nowhere)?, keys)
            }
            [kind, name, keys @ ..] => (named(whole, kind, name).ok_or_else(nowhere)?, keys),
            _ => return Err(nowhere()),
        };
        // A strength in grams per liter has a key of its own.
        let renamed: Vec<&str> = keys.iter().map(|key| if *key == "grams_per_liter" { "value" } else { key }).collect();
        let keys = renamed.as_slice();
        let value = match self.typed.is_empty() {
            true => None,
            false => self.value(parameter_of(&path, keys).ok_or_else(nowhere)?, currency)?,
        };
        let Some(value) = value else {
            return match keys {
                ["price"] => {
                    table.entries.retain(|entry| entry.key != "price");
                    Ok(())
                }
                _ => Err("it is empty: write a number".to_owned()),
            };
        };
        set(table, keys, value, &self.at).ok_or_else(nowhere)
    }

    /// What is typed, read as in the book; a bare number of a share is a part of one there.
    fn value(&self, parameter: &Parameter, currency: Option<&str>) -> std::result::Result<Option<Written>, String> {
        let unit = if parameter.measured().is_some() { self.unit.as_str() } else { "" };
        let typed = Typed { text: &self.typed, kind: self.kind, unit, bare: BareShare::Part, currency };
        let value = cells::stated(parameter, &typed, &self.at)?;
        Ok(match (value, &*self.unit) {
            (Some(Written::Number(number)), unit) if !unit.is_empty() => {
                Some(Written::Text(format!("{number} {unit}")))
            }
            (value, _) => value,
        })
    }
}

/// The parameter that the keys at the end of a path state.
fn parameter_of(path: &[&str], keys: &[&str]) -> Option<&'static Parameter> {
    let whole = match path {
        ["practice" | "override", ..] => &PRACTICE,
        [_, _, "packages", ..] => FILE.get(path[0])?.keys()?.get("packages")?.keys()?,
        [kind, ..] => FILE.get(kind)?.keys()?,
        [] => return None,
    };
    let (first, rest) = keys.split_first()?;
    rest.iter().try_fold(whole.get(first)?, |parameter, key| parameter.keys()?.get(key)).filter(|parameter| {
        matches!(parameter.kind, Kind::Number { .. } | Kind::Count { .. } | Kind::Share { .. })
            || parameter.measured().is_some()
    })
}

/// The table under a key; made where there is none.
fn made<'t>(whole: &'t mut Table, key: &str, at: &At) -> Option<&'t mut Table> {
    let place = match whole.entries.iter().position(|entry| entry.key == key) {
        Some(place) => place,
        None => {
            whole.put(key, Written::Table(Table::default()), at.clone());
            whole.entries.len() - 1
        }
    };
    table_of(&mut whole.entries.get_mut(place)?.stated)
}

fn table_of(stated: &mut Stated) -> Option<&mut Table> {
    match &mut stated.value {
        Written::Table(table) => Some(table),
        _ => None,
    }
}

fn entry_mut<'t>(table: &'t mut Table, key: &str) -> Option<&'t mut Entry> {
    table.entries.iter_mut().find(|entry| entry.key == key)
}

fn list_mut<'t>(table: &'t mut Table, key: &str) -> Option<&'t mut Vec<Stated>> {
    match &mut entry_mut(table, key)?.stated.value {
        Written::List(list) => Some(list),
        _ => None,
    }
}

/// The table of a list that bears a name; a neutralizer has its agent's.
fn named<'t>(whole: &'t mut Table, kind: &str, name: &str) -> Option<&'t mut Table> {
    let key = if kind == "neutralizer" { "agent" } else { "name" };
    let is_it = |table: &&mut Table| table.get(key).and_then(|stated| stated.value.text()) == Some(name);
    list_mut(whole, kind)?.iter_mut().filter_map(table_of).find(is_it)
}

/// The stock of an item at a depot, of several lines the one of this number; made where nobody has stated any.
fn stock<'t>(whole: &'t mut Table, depot: &str, item: &str, number: usize, at: &At) -> Option<&'t mut Table> {
    if entry_mut(whole, "stock").is_none() {
        whole.put("stock", Written::List(Vec::new()), at.clone());
    }
    let list = list_mut(whole, "stock")?;
    let says = |table: &Table, key: &str, wanted: &str| {
        table.get(key).and_then(|stated| stated.value.text()).is_some_and(|text| is_same(text, wanted))
    };
    let is_it = |stated: &Stated| {
        stated.value.table().is_some_and(|table| says(table, "depot", depot) && says(table, "product", item))
    };
    let known: Vec<usize> = (0..list.len()).filter(|place| list.get(*place).is_some_and(is_it)).collect();
    let place = known.get(number.checked_sub(1)?).copied().unwrap_or_else(|| {
        let mut table = Table::default();
        table.put("depot", Written::Text(depot.to_owned()), at.clone());
        table.put("product", Written::Text(item.to_owned()), at.clone());
        list.push(Stated { value: Written::Table(table), at: at.clone() });
        list.len() - 1
    });
    table_of(list.get_mut(place)?)
}

/// Sets a value under a path of keys; nothing where something else than a table stands on the way.
fn set(table: &mut Table, keys: &[&str], value: Written, at: &At) -> Option<()> {
    let (first, rest) = keys.split_first()?;
    if rest.is_empty() {
        table.entries.retain(|entry| entry.key != *first);
        table.put(*first, value, at.clone());
        return Some(());
    }
    if entry_mut(table, first).is_none() {
        table.put(*first, Written::Table(Table::default()), at.clone());
    }
    set(table_of(&mut entry_mut(table, first)?.stated)?, rest, value, at)
}
