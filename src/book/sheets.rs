//! What the sheets of a book have in common: their titles, blank cells and drop-downs.

use super::form::{axis_title, form_not_read, sheet, slots};
use super::plain;
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::entry::{Allowed, Entry};
use crate::field::{BOOK_TITLE, FIELDS};
use crate::kernel::neutralizer::Agent;
use crate::parameter::PRACTICE;
use crate::quantity::unit;
use crate::scenario::product::built_in_products;
use crate::scenario::stated::Table;

/// Blank rows below what is filled in, with drop-downs and bounds.
pub(super) const SPARE_ROWS: usize = 12;

/// Words that are too many for a drop-down of their own cell.
pub(super) struct Choices(Vec<(&'static str, Vec<String>)>);

impl Choices {
    pub fn of(stated: &Table) -> Self {
        let mut products: Vec<String> =
            tables(stated, "product").filter_map(|table| text_of(table, "name")).map(str::to_owned).collect();
        for product in built_in_products().unwrap_or_default() {
            if !products.contains(&product.name) {
                products.push(product.name);
            }
        }
        let mut read_as: Vec<String> = vec![form_not_read().to_owned()];
        read_as.extend(FIELDS.iter().map(|definition| plain::shown(definition.name)));
        let measured = FIELDS.iter().filter(|definition| definition.field.quantity().is_some());
        read_as.extend(measured.map(|definition| format!("unit of {}", plain::shown(definition.name))));
        let settings = slots(&PRACTICE).into_iter().map(|slot| slot.title).collect();
        let axes = ["product", "age_days", "storage"].into_iter().chain(PRACTICE.own.iter().map(|of| of.key));
        let agents = Agent::ALL.iter().map(|agent| plain::shown(agent.name()));
        let sold = products.iter().cloned().chain(agents).collect();
        Self(vec![
            ("Products", products),
            ("Products and neutralizers", sold),
            ("Read as", read_as),
            ("Units", unit::all().map(|unit| unit.symbol.to_owned()).collect()),
            ("Settings", settings),
            ("What varies", axes.map(axis_title).collect()),
        ])
    }

    pub(super) fn among(&self, name: &str) -> Allowed {
        let column = self.0.iter().position(|(list, _)| *list == name).unwrap_or_default();
        let words = self.0.get(column).map_or(0, |(_, words)| words.len());
        Allowed::AmongCells { sheet: sheet::CHOICES, column: column as u16, rows: (3, (words as u32).max(1) + 2) }
    }

    pub fn sheet(&self) -> Sheet {
        let mut made = titled(sheet::CHOICES, "choices for the drop-downs");
        made.note("The other sheets take their longer lists from here.");
        made.heads(self.0.iter().map(|(name, _)| (*name).to_owned()));
        made.layout.filter_row = None;
        let longest = self.0.iter().map(|(_, words)| words.len()).max().unwrap_or_default();
        for row in 0..longest {
            let word = |(_, words): &(&str, Vec<String>)| words.get(row).map_or(Cell::empty(), Cell::text);
            made.push(self.0.iter().map(word).collect());
        }
        made.layout.widths = vec![24.0, 28.0, 30.0, 12.0, 52.0, 52.0];
        // It is chosen from, never read.
        made.layout.is_unprinted = true;
        made
    }
}

pub(super) fn titled(name: &'static str, title: &str) -> Sheet {
    let mut made = Sheet::new(name);
    made.title(format!("{BOOK_TITLE}{title}"));
    made
}

pub(super) fn tables<'a>(stated: &'a Table, key: &str) -> impl Iterator<Item = &'a Table> {
    let list = stated.get(key).and_then(|stated| stated.value.list()).unwrap_or_default();
    list.iter().filter_map(|stated| stated.value.table())
}

pub(super) fn text_of<'a>(table: &'a Table, key: &str) -> Option<&'a str> {
    table.get(key).and_then(|stated| stated.value.text())
}

/// A drop-down of yes and no.
pub(super) fn titled_yes_no(column: u16, rows: (u32, u32), title: &str) -> Entry {
    among(Allowed::Among(["yes", "no"].map(str::to_owned).to_vec()), column, rows, title)
}

pub(super) fn blank() -> Cell {
    Cell::new(Value::Empty, Role::Blank)
}

pub(super) fn among(allowed: Allowed, column: u16, rows: (u32, u32), title: &str) -> Entry {
    Entry {
        column,
        first_row: rows.0,
        last_row: rows.1,
        allowed,
        title: title.to_owned(),
        help: "Choose from the list.".to_owned(),
        refusal: "This is not in the list. It is read if it makes sense; keep it?".to_owned(),
    }
}
