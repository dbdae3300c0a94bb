//! A book that comes back, as the tree of stated values that a scenario file makes too.
//!
//! Every value knows its sheet and cell. Whatever cannot be read as a value is noted with the rest of what is wrong.

use std::path::{Path, PathBuf};

use super::conditions;
use super::read_lists::{self, Repair};
use super::start_here::REPLACES;
use super::table_reader::{Filled, Page, Reader, is_titled, value_mut};

use super::form::{
    OWN_COLUMNS, ROWS, RowForm, Slot, UPRIGHT, axis_title, folded, heading, row_slots, setting_titled, sheet, slots,
};
use crate::error::Result;
use crate::field::names::is_same;
use crate::field::rules::Correction;
use crate::inventory::{Rows, sheets_of};
use crate::kernel::agent::Agent;
use crate::parameter::{GRID, NO_CURRENCY, PACKAGES, PRACTICE, Parameter};
use crate::scenario::section::near;
use crate::scenario::stated::{At, Document, Stated, Table, Written};

/// How the campaign's sheet stands as long as nobody has stated its units.
pub const UNITS_OPEN: &str = "1 open: the units";

/// Rows of a sheet that are read.
const MOST_ROWS: usize = 60_000;
/// The sheet on which wells may stand in the book itself.
pub const LIST_ROWS: &str = sheet::WELLS;
/// The sheet of what products are.
pub const PRODUCTS_SHEET: &str = sheet::PRODUCTS;

/// What a book holds.
#[derive(Debug)]
pub struct Book {
    /// Everything that is stated.
    pub stated: Stated,
    /// The lists that it names, as files.
    pub lists: Vec<PathBuf>,
    /// The lists as they are written in it.
    pub list_names: Vec<String>,
    /// Whether its units were open when it was written: what its sheets ask was asked without them.
    pub were_units_open: bool,
    /// The book that this one replaces, in words.
    pub replaces: Option<String>,
    /// Sheets that are none of the book's.
    pub foreign_sheets: Vec<String>,
    /// The right values on its sheet of repairs.
    pub repairs: Vec<Repair>,
}

impl Book {
    /// The right values, for whoever reads the lists.
    pub fn corrections(&self) -> Vec<Correction> {
        self.repairs.iter().map(|repair| repair.correction.clone()).collect()
    }
}

/// Whether a file is a campaign book.
pub fn is_book(path: &Path) -> bool {
    path.is_file()
        && sheets_of(path, 2).ok().flatten().is_some_and(|sheets| sheets.iter().any(|(_, rows)| is_titled(rows)))
}

/// Reads a book; what is wrong in it is left with the document.
///
/// # Errors
/// When the file cannot be read as a workbook at all.
pub fn read(path: &Path, document: &Document<'_>) -> Result<Book> {
    let sheets = sheets_of(path, MOST_ROWS)?.unwrap_or_default();
    let mut reader = Reader { document, sheets: &sheets, currency: None };
    reader.currency = currency(&reader);
    let mut whole = Table::default();
    for (name, tables) in UPRIGHT {
        for (key, keys) in tables {
            reader.upright(name, key, &slots(keys), &mut whole);
        }
    }
    for form in &ROWS {
        reader.rows(form, &mut whole);
    }
    reader.packages(&mut whole);
    reader.combinations(&mut whole);
    reader.missing(&mut whole);
    let (lists, list_names) = read_lists::files(&reader, path, &mut whole);
    read_lists::columns(&reader, &mut whole);
    read_lists::words(&reader, &mut whole);
    read_lists::names(&reader, &mut whole);
    let repairs = read_lists::repairs(&reader, path);
    let foreign = sheets.iter().filter(|(name, rows)| !is_titled(rows) && !name.eq_ignore_ascii_case(sheet::WELLS));
    let foreign_sheets = foreign.map(|(name, _)| name.clone()).collect();
    let at = At::Cell { sheet: sheet::CAMPAIGN.to_owned(), cell: "A1".to_owned(), typed: String::new() };
    Ok(Book {
        stated: Stated { value: Written::Table(whole), at },
        lists,
        list_names,
        were_units_open: were_units_open(&sheets),
        replaces: replaces(&sheets),
        repairs,
        foreign_sheets,
    })
}

/// What the first sheet says of an older book, without what follows from it.
fn replaces(sheets: &[(String, Rows)]) -> Option<String> {
    let (_, rows) = sheets.iter().find(|(name, _)| name.eq_ignore_ascii_case(sheet::START))?;
    let older = (0..rows.len()).find_map(|row| rows.cell(row, 0).strip_prefix(REPLACES))?;
    older.rsplit_once(": go on here").map(|(older, _)| older.to_owned())
}

fn were_units_open(sheets: &[(String, Rows)]) -> bool {
    let start = sheets.iter().find(|(name, _)| name.eq_ignore_ascii_case(sheet::START));
    start.is_some_and(|(_, rows)| (0..rows.len()).any(|row| rows.cell(row, 3).starts_with(UNITS_OPEN)))
}

/// The currency on the sheet of the campaign.
fn currency(reader: &Reader<'_>) -> Option<String> {
    let (_, rows) = reader.sheets.iter().find(|(name, _)| name.eq_ignore_ascii_case(sheet::CAMPAIGN))?;
    let row = (0..rows.len()).find(|row| folded(rows.cell(*row, 0)) == "currency")?;
    let typed = rows.cell(row, 1).trim();
    (!typed.is_empty() && typed != NO_CURRENCY).then(|| typed.to_owned())
}

impl Reader<'_> {
    /// A sheet with one value a row.
    fn upright(&self, name: &'static str, key: &str, slots: &[Slot], whole: &mut Table) {
        let Some(page) = self.page(name, "What") else { return };
        let mut table = Table::default();
        let mut table_at = page.at(page.first.saturating_sub(1), 0);
        for row in page.body() {
            let title = folded(page.rows.cell(row, 0));
            let Some(slot) = slots.iter().find(|slot| folded(&slot.title) == title) else {
                let known = UPRIGHT
                    .iter()
                    .flat_map(|(_, tables)| tables.iter())
                    .any(|(_, keys)| super::form::slots(keys).iter().any(|slot| folded(&slot.title) == title));
                if !title.is_empty() && !known {
                    let reason = "no setting is called so: take its name back from a new book";
                    self.document.fault(&page.at(row, 0), reason);
                }
                continue;
            };
            if slot.parameter.is_needed {
                table_at = page.at(row, 1);
            }
            let Some(filled) = page.filled(row, page.column("Value")) else { continue };
            if let Some(value) = self.value(slot.parameter, &filled, page.text(row, "Unit")) {
                self.put(&mut table, &slot.path, value, &filled.at);
            }
        }
        plain_method(&mut table);
        if !table.entries.is_empty() || key == "campaign" {
            whole.put(key, Written::Table(table), table_at);
        }
    }

    /// A sheet with one table a row.
    fn rows(&self, form: &RowForm, whole: &mut Table) {
        let slots = row_slots(form);
        let is_conditional = form.key == "override";
        let first = if is_conditional { conditions::COLUMNS[0].0.to_owned() } else { heading(&slots[0]) };
        let Some(page) = self.page(form.sheet, &first) else { return };
        let own: Vec<Slot> = if form.settings.is_some() {
            OWN_COLUMNS.iter().filter_map(|key| setting_titled(key)).collect()
        } else {
            Vec::new()
        };
        let pairs: Vec<(usize, Option<usize>)> = page
            .heads
            .iter()
            .enumerate()
            .filter_map(|(column, head)| {
                let number = head.strip_prefix("setting ").filter(|_| form.settings.is_some())?;
                Some((column, page.column(&format!("value {number}"))))
            })
            .collect();
        let mut known: Vec<String> = slots.iter().chain(&own).map(|slot| folded(&heading(slot))).collect();
        if is_conditional {
            known.extend(conditions::COLUMNS.iter().map(|(title, _)| folded(title)));
            known.push(folded(conditions::OTHERWISE));
        }
        self.strange_columns(&page, &known);
        let mut tables = Vec::new();
        for row in page.body() {
            let mut table = Table::default();
            let mut settings = Table::default();
            for slot in &slots {
                let column = page.column(&heading(slot));
                let Some(filled) = page.filled(row, column) else { continue };
                if let Some(value) = self.value(slot.parameter, &filled, page.unit_of(column)) {
                    self.put(&mut table, &slot.path, value, &filled.at);
                }
            }
            if is_conditional {
                conditions::read(self.document, &page, row, &mut table);
            }
            for slot in &own {
                let column = page.column(&heading(slot));
                let Some(filled) = page.filled(row, column) else { continue };
                if let Some(value) = self.value(slot.parameter, &filled, page.unit_of(column)) {
                    self.put(&mut settings, &slot.path, value, &filled.at);
                }
            }
            for (setting, value) in &pairs {
                self.pair(&page, row, *setting, *value, &mut settings);
            }
            plain_method(&mut settings);
            match form.settings {
                Some("set") if !settings.entries.is_empty() => {
                    table.put("set", Written::Table(settings), page.at(row, 0));
                }
                Some("set") | None => {}
                Some(_) => table.entries.extend(settings.entries),
            }
            if !table.entries.is_empty() {
                tables.push(Stated { value: Written::Table(table), at: page.at(row, 0) });
            }
        }
        put_list(whole, form.key, tables, page.at(page.first - 1, 0));
    }

    /// A setting and its value, in two columns.
    fn pair(&self, page: &Page<'_>, row: usize, setting: usize, value: Option<usize>, settings: &mut Table) {
        let named = page.filled(row, Some(setting));
        let filled = page.filled(row, value);
        let Some(named) = named else {
            if let Some(filled) = filled {
                self.document.fault(&filled.at, "name the setting in the column before this value");
            }
            return;
        };
        let Some(slot) = setting_titled(named.typed) else {
            let titles: Vec<String> = slots(&PRACTICE).into_iter().map(|slot| slot.title).collect();
            let titles: Vec<&str> = titles.iter().map(String::as_str).collect();
            let reason = format!(
                "no setting is called {:?}{}; the sheet Practice lists them",
                named.typed.trim(),
                near(named.typed, &titles)
            );
            return self.document.fault(&named.at, reason);
        };
        let Some(filled) = filled else {
            return self.document.fault(&named.at, "write its value in the column beside it");
        };
        if let Some(value) = self.value(slot.parameter, &filled, "") {
            self.put(settings, &slot.path, value, &filled.at);
        }
    }

    /// Columns that the sheet does not know and that hold something: nothing that was typed is passed over.
    fn strange_columns(&self, page: &Page<'_>, known: &[String]) {
        for (column, head) in page.heads.iter().enumerate() {
            let is_pair = head.starts_with("setting ") || head.starts_with("value ");
            let is_second = page.heads[..column].contains(head);
            if head.is_empty() || (known.contains(head) || is_pair) && !is_second {
                continue;
            }
            if let Some(row) = page.body().find(|row| page.filled(*row, Some(column)).is_some()) {
                let reason = if is_second {
                    format!("the sheet {} has two columns called {head:?}; keep one of the two", page.name)
                } else {
                    format!("no column of the sheet {} is called {head:?}; its cells would not be read", page.name)
                };
                self.document.fault(&page.at(row, column), reason);
            }
        }
    }

    fn packages(&self, whole: &mut Table) {
        let Some(page) = self.page(sheet::PACKAGES, "Product or neutralizer") else { return };
        let slots = slots(&PACKAGES);
        let mut of_products: Vec<(String, Vec<Stated>)> = Vec::new();
        let mut of_agents: Vec<(String, At, Vec<Stated>)> = Vec::new();
        let products: Vec<String> = list_of(whole, "product")
            .iter()
            .filter_map(|stated| stated.value.table()?.get("name")?.value.text().map(str::to_owned))
            .collect();
        for row in page.body() {
            let mut package = Table::default();
            for slot in &slots {
                let column = page.column(&heading(slot));
                let Some(filled) = page.filled(row, column) else { continue };
                if let Some(value) = self.value(slot.parameter, &filled, page.unit_of(column)) {
                    self.put(&mut package, &slot.path, value, &filled.at);
                }
            }
            let Some(item) = page.filled(row, Some(0)) else {
                if !package.entries.is_empty() {
                    self.document.fault(&page.at(row, 0), "say of which product or neutralizer this package is");
                }
                continue;
            };
            let name = item.typed.trim();
            let package =
                (!package.entries.is_empty()).then(|| Stated { value: Written::Table(package), at: page.at(row, 0) });
            let agent = Agent::ALL.iter().map(|agent| agent.name()).find(|agent| is_same(agent, name));
            if let Some(product) = products.iter().find(|product| is_same(product, name)) {
                match of_products.iter_mut().find(|(known, _)| known == product) {
                    Some((_, packages)) => packages.extend(package),
                    None => of_products.push((product.clone(), package.into_iter().collect())),
                }
            } else if let Some(agent) = agent {
                match of_agents.iter_mut().find(|(known, ..)| known == agent) {
                    Some((.., packages)) => packages.extend(package),
                    None => of_agents.push((agent.to_owned(), item.at, package.into_iter().collect())),
                }
            } else {
                let mut known: Vec<&str> = products.iter().map(String::as_str).collect();
                known.extend(Agent::ALL.iter().map(|agent| agent.name()));
                let near = near(name, &known);
                let reason = format!("{name:?} is no product of the sheet Products, and no neutralizer{near}");
                self.document.fault(&item.at, reason);
            }
        }
        if let Some(Written::List(list)) = value_mut(whole, "product") {
            for stated in list {
                let Written::Table(table) = &mut stated.value else { continue };
                let name = table.get("name").and_then(|stated| stated.value.text()).unwrap_or_default().to_owned();
                if let Some((_, packages)) = of_products.iter().find(|(product, _)| *product == name) {
                    table.put("packages", Written::List(packages.clone()), stated.at.clone());
                }
            }
        }
        let neutralizers = of_agents.into_iter().map(|(agent, at, packages)| {
            let mut table = Table::default();
            table.put("agent", Written::Text(agent), at.clone());
            table.put("packages", Written::List(packages), at.clone());
            Stated { value: Written::Table(table), at }
        });
        put_list(whole, "neutralizer", neutralizers.collect(), page.at(page.first - 1, 0));
    }

    fn combinations(&self, whole: &mut Table) {
        let Some(page) = self.page(sheet::COMBINATIONS, "What varies") else { return };
        let mut grid = Table::default();
        for row in page.body() {
            let values: Vec<Filled<'_>> =
                (1..page.rows.width(row)).filter_map(|column| page.filled(row, Some(column))).collect();
            let Some(axis) = page.filled(row, Some(0)) else {
                if let Some(value) = values.first() {
                    self.document.fault(&value.at, "say in the first column what varies");
                }
                continue;
            };
            let titled = |parameter: &&'static Parameter| {
                folded(&axis_title(parameter.key)) == folded(axis.typed) || parameter.key == axis.typed.trim()
            };
            let Some(parameter) = GRID.all().find(titled) else {
                let titles: Vec<&str> = GRID.all().map(|parameter| parameter.title).collect();
                let reason = format!("{:?} cannot vary{}", axis.typed.trim(), near(axis.typed, &titles));
                self.document.fault(&axis.at, reason);
                continue;
            };
            let steps = values.iter().filter_map(|filled| {
                let value = self.value(parameter, filled, "")?;
                Some(Stated { value, at: filled.at.clone() })
            });
            grid.put(parameter.key, Written::List(steps.collect()), axis.at.clone());
        }
        if !grid.entries.is_empty() {
            whole.put("grid", Written::Table(grid), page.at(page.first - 1, 0));
        }
    }
}

fn list_of<'t>(table: &'t Table, key: &str) -> &'t [Stated] {
    table.get(key).and_then(|stated| stated.value.list()).unwrap_or_default()
}

fn put_list(whole: &mut Table, key: &str, tables: Vec<Stated>, at: At) {
    if !tables.is_empty() {
        whole.put(key, Written::List(tables), at);
    }
}

/// A flush of which only the method is stated is that word.
fn plain_method(table: &mut Table) {
    if let Some(flush) = value_mut(table, "flush")
        && let Written::Table(inner) = flush
        && let [entry] = &inner.entries[..]
        && entry.key == "method"
    {
        *flush = entry.stated.value.clone();
    }
}
