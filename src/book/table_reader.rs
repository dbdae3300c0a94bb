//! Sheets of a book as tables: where the headings stand, and which cells are filled in.

use super::cells::{self, Typed, UNSOLVED};
use super::figures::BareShare;
use super::form::folded;
use crate::field::BOOK_TITLE;
use crate::inventory::{CellKind, Rows};
use crate::parameter::Parameter;
use crate::place::Column;
use crate::scenario::stated::{At, Document, Stated, Table, Written};

/// Rows above the headings.
const MOST_ABOVE: usize = 20;

pub(super) fn is_titled(rows: &Rows) -> bool {
    !rows.is_empty() && rows.cell(0, 0).starts_with(BOOK_TITLE)
}

pub(super) struct Reader<'a> {
    pub document: &'a Document<'a>,
    pub sheets: &'a [(String, Rows)],
    /// The currency that the book states.
    pub currency: Option<String>,
}

/// A sheet with its headings found.
pub(super) struct Page<'a> {
    pub name: &'a str,
    pub rows: &'a Rows,
    pub heads: Vec<String>,
    pub first: usize,
    /// Whether a formula without a result is refused as soon as it is met.
    document: &'a Document<'a>,
}

/// A cell that is filled in.
pub(super) struct Filled<'a> {
    pub typed: &'a str,
    pub kind: CellKind,
    pub at: At,
}

impl Page<'_> {
    pub fn column(&self, heading: &str) -> Option<usize> {
        let wanted = folded(heading);
        self.heads.iter().position(|head| *head == wanted)
    }

    pub fn at(&self, row: usize, column: usize) -> At {
        let letters = Column { number: column as u32 + 1, heading: "".into() }.letters();
        At::Cell {
            sheet: self.name.to_owned(),
            cell: format!("{letters}{}", self.rows.number(row)),
            typed: self.rows.cell(row, column).to_owned(),
        }
    }

    /// A cell, where it holds anything.
    pub fn filled(&self, row: usize, column: Option<usize>) -> Option<Filled<'_>> {
        let column = column?;
        let (typed, kind) = (self.rows.cell(row, column), self.rows.kind(row, column));
        if kind == CellKind::Unsolved {
            self.document.refuse(&self.at(row, column), UNSOLVED);
        }
        (!typed.trim().is_empty()).then(|| Filled { typed, kind, at: self.at(row, column) })
    }

    /// The unit that a column's heading names: that of `Contact time (h)`.
    pub fn unit_of(&self, column: Option<usize>) -> &str {
        let heading = column.map_or("", |column| self.rows.cell(self.first - 1, column).trim());
        let unit = heading.strip_suffix(')').and_then(|heading| heading.rsplit_once(" (")).map_or("", |(_, unit)| unit);
        if unit.contains(' ') && unit != "L/L or L/kg" || unit == "YYYY-MM-DD" { "" } else { unit }
    }

    pub fn text(&self, row: usize, heading: &str) -> &str {
        self.column(heading).map_or("", |column| self.rows.cell(row, column).trim())
    }

    /// Rows below the headings that hold anything in one of these columns.
    pub fn body(&self) -> impl Iterator<Item = usize> + '_ {
        self.first..self.rows.len()
    }
}

impl<'a> Reader<'a> {
    /// A sheet whose headings begin so; nothing where the book has none.
    pub fn page(&self, name: &'static str, begins: &str) -> Option<Page<'a>> {
        let (written, rows) = self.sheets.iter().find(|(written, _)| written.eq_ignore_ascii_case(name))?;
        let wanted = folded(begins);
        let head = (0..rows.len().min(MOST_ABOVE)).find(|row| folded(rows.cell(*row, 0)) == wanted);
        let Some(head) = head else {
            if !rows.is_empty() {
                let at = At::Cell { sheet: written.clone(), cell: "A1".to_owned(), typed: rows.cell(0, 0).to_owned() };
                let reason = format!("no row of this sheet has {begins:?} in its first column: put the headings back");
                self.document.fault(&at, reason);
            }
            return None;
        };
        let heads = (0..rows.width(head)).map(|column| folded(rows.cell(head, column))).collect();
        Some(Page { name: written, rows, heads, first: head + 1, document: self.document })
    }

    /// The value of a cell; what it cannot be is noted.
    pub fn value(&self, parameter: &Parameter, filled: &Filled<'_>, unit: &str) -> Option<Written> {
        let typed = Typed {
            text: filled.typed,
            kind: filled.kind,
            unit,
            bare: BareShare::Percent,
            currency: self.currency.as_deref(),
        };
        match cells::stated(parameter, &typed, &filled.at) {
            Ok(value) => value,
            Err(reason) => Some(self.document.refuse(&filled.at, reason)),
        }
    }
}

impl Reader<'_> {
    /// Puts a value under a path of keys; tables on the way are made. What is stated already, and otherwise, is a
    /// fault.
    pub fn put(&self, table: &mut Table, path: &[&str], value: Written, at: &At) {
        let Some((first, rest)) = path.split_first() else { return };
        if rest.is_empty() {
            return match table.get(first) {
                None => table.put(*first, value, at.clone()),
                Some(known) if known.value == value => {}
                Some(Stated { at: At::Cell { cell, .. }, .. }) => {
                    self.document.fault(at, format!("{cell} says something else; keep one of the two"));
                }
                Some(_) => {}
            };
        }
        if table.get(first).is_none() {
            table.put(*first, Written::Table(Table::default()), at.clone());
        }
        if let Some(Written::Table(inner)) = value_mut(table, first) {
            self.put(inner, rest, value, at);
        }
    }
}

pub(super) fn value_mut<'t>(table: &'t mut Table, key: &str) -> Option<&'t mut Written> {
    table.entries.iter_mut().find(|entry| entry.key == key).map(|entry| &mut entry.stated.value)
}
