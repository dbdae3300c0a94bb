//! The ledger: every column of the tables of visits and treatments, once: id, unit, meaning, equation, what it varies with,
//! and how a row fills it.
//!
//! Tables, workbook, `explain`, the Method sheet and the second route's expectations all read this one list. Adding a
//! result is adding one entry here and one function in the kernel. It arranges what the engine made and computes nothing.

mod after;
mod given;
mod poured;

pub use given::OF_CREWS;

use after::AFTER;
use poured::POURED;

use std::borrow::Cow;

use crate::field::Field;
use crate::kernel::requirement::Stock;
use crate::quantity::unit;
use crate::table::ColumnCells;
use crate::visit::{Need, Visit};

/// One column of the treatments table.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Permanent id and heading in tables; ends in the unit where there is one.
    pub id: &'static str,
    /// Heading for people, without the unit.
    pub title: &'static str,
    /// Symbol of the unit table; empty for texts and pure numbers.
    pub unit: &'static str,
    /// What it says, in one sentence.
    pub meaning: &'static str,
    /// Equation that fills it; empty where it is carried from the inputs.
    pub equation: &'static str,
    /// Digits after the decimal point that people need to see.
    pub digits: usize,
    /// How it is filled.
    pub get: Get,
    /// What a figure of a requirement varies with; other columns say it by how they are filled.
    pub width: Width,
}

/// What a figure varies with, and so how often it is computed and written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// With the visit alone.
    Visit,
    /// With visit and practice.
    Practice,
    /// With visit, practice and product.
    Product,
}

/// What a row of the treatments table needs to know of its scenario.
#[derive(Debug, Clone, Copy)]
pub struct CaseLabel<'a> {
    /// Name of the scenario.
    pub name: &'a str,
    /// Name of the product.
    pub product: &'a str,
    /// The product on the day of use.
    pub stock: &'a Stock,
}

/// What a column says in one row.
#[derive(Debug, Clone, PartialEq)]
pub enum Datum<'a> {
    /// A text; empty where there is none.
    Text(Cow<'a, str>),
    /// A number in the column's unit; NaN where there is none.
    Number(f64),
}

/// What a column varies with, and how it is filled; texts are empty and numbers NaN where there is none.
#[derive(Debug, Clone, Copy)]
pub enum Get {
    /// A text of the scenario.
    CaseText(for<'a> fn(&CaseLabel<'a>) -> &'a str),
    /// A number of the scenario, in the column's unit.
    CaseNumber(fn(&CaseLabel<'_>) -> f64),
    /// A text of the visit.
    VisitText(fn(&Visit) -> &str),
    /// A number of the visit, in the column's unit.
    VisitNumber(fn(&Visit) -> f64),
    /// What the list gives for a field, in the column's unit.
    Given(Field),
    /// A text of the requirement: Text from a small fixed set.
    NeedText(fn(&Need) -> &'static str),
    /// A number of the requirement, in the column's unit.
    NeedNumber(fn(&Need) -> f64),
    /// Words of the requirement's cautions.
    Cautions,
}

impl Get {
    /// Whether it fills the column with texts.
    pub const fn is_text(self) -> bool {
        matches!(self, Self::CaseText(_) | Self::VisitText(_) | Self::NeedText(_) | Self::Cautions)
    }
}

const fn text(id: &'static str, title: &'static str, meaning: &'static str, get: Get) -> Column {
    Column { id, title, unit: "", meaning, equation: "", digits: 0, get, width: Width::Product }
}

const fn number(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    equation: &'static str,
    meaning: &'static str,
    get: fn(&Need) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation, digits, get: Get::NeedNumber(get), width: Width::Product }
}

const fn told(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    meaning: &'static str,
    get: fn(&Visit) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation: "", digits, get: Get::VisitNumber(get), width: Width::Product }
}

const fn case_number(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    equation: &'static str,
    meaning: &'static str,
    get: fn(&CaseLabel<'_>) -> f64,
) -> Column {
    Column { id, title, unit, meaning, equation, digits, get: Get::CaseNumber(get), width: Width::Product }
}

fn optional(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

/// Every column, in the order of the table: what is poured, then what becomes of it and what the list says besides.
pub static COLUMNS: &[Column] = &joined::<{ POURED.len() + AFTER.len() }>(POURED, AFTER);

const fn joined<const COUNT: usize>(first: &[Column], second: &[Column]) -> [Column; COUNT] {
    let mut all = [first[0]; COUNT];
    let mut at = 0;
    while at < COUNT {
        all[at] = if at < first.len() { first[at] } else { second[at - first.len()] };
        at += 1;
    }
    all
}

impl Column {
    const fn per(self, width: Width) -> Self {
        Self { width, ..self }
    }

    /// Whether it says something of the visit itself, whatever the scenario.
    pub const fn is_of_visit(&self) -> bool {
        matches!(self.get, Get::VisitText(_) | Get::VisitNumber(_) | Get::Given(_))
    }

    /// What it says of a visit in a case; `need` is what the visit needs there, nothing where it is not planned.
    pub fn datum<'a>(&self, case: &CaseLabel<'a>, visit: &'a Visit, need: Option<&Need>) -> Datum<'a> {
        match self.get {
            Get::CaseText(get) => Datum::Text(get(case).into()),
            // Figures of a product are not shown beside a row that has no treatment.
            Get::CaseNumber(get) => Datum::Number(need.map_or(f64::NAN, |_| get(case))),
            Get::VisitText(get) => Datum::Text(get(visit).into()),
            Get::VisitNumber(get) => Datum::Number(get(visit)),
            Get::Given(field) => Datum::Number(given::in_unit(unit::by_symbol(self.unit), visit, field)),
            Get::NeedText(get) => Datum::Text(need.map_or("", get).into()),
            Get::NeedNumber(get) => Datum::Number(need.map_or(f64::NAN, get)),
            Get::Cautions => Datum::Text(need.map_or_else(String::new, |need| need.cautions.words()).into()),
        }
    }
}

/// Columns that find a visit again, in both tables.
const KEYS: [&str; 6] = ["well_id", "visit", "region", "depot", "outcome", "reasons"];

/// Columns of the treatments table: what each visit needs under each scenario, with what finds it again.
pub fn treatments() -> impl Iterator<Item = &'static Column> {
    COLUMNS.iter().filter(|column| match column.get {
        Get::CaseNumber(_) => false,
        _ => !column.is_of_visit() || KEYS.contains(&column.id),
    })
}

/// Columns of the visits table: what was understood of each visit, once.
pub fn visits() -> impl Iterator<Item = &'static Column> {
    let of_visit = COLUMNS.iter().filter(|column| column.is_of_visit());
    let (keys, told): (Vec<_>, Vec<_>) = of_visit.partition(|column| KEYS.contains(&column.id));
    keys.into_iter().chain(given::COLUMNS).chain(told)
}

/// The column with this id.
pub fn column(id: &str) -> Option<&'static Column> {
    COLUMNS.iter().chain(given::COLUMNS).find(|column| column.id == id)
}

impl Column {
    /// Its cells for many visits, where it is of visits.
    pub fn of_visits<'a>(&self, visits: &'a [Visit]) -> Option<ColumnCells<'a>> {
        match self.get {
            Get::VisitText(get) => Some(ColumnCells::Text(visits.iter().map(get).collect())),
            Get::VisitNumber(get) => Some(ColumnCells::Number(visits.iter().map(get).collect())),
            Get::Given(field) => {
                let unit = unit::by_symbol(self.unit);
                Some(ColumnCells::Number(visits.iter().map(|visit| given::in_unit(unit, visit, field)).collect()))
            }
            _ => None,
        }
    }
}
