//! The ordinary conditions of an exception in columns of their own: these wells, of this type, at this depot, in this region,
//! flooded or not. A scenario file has them as one condition; what is more than that stays in the column for conditions.

use super::plain;
use super::sheets::{among, blank, titled_yes_no};
use super::table_reader::Page;
use crate::document::cell::{Cell, Role, Value};
use crate::document::entry::{Allowed, Entry};
use crate::field::{Field, WellType};
use crate::scenario::stated::{self, At, Document, Stated, Table, Written};

/// Headings of the columns, with the field that each is about.
pub(super) const COLUMNS: [(&str, Field); 5] = [
    ("Wells", Field::WellId),
    ("Type of well", Field::WellType),
    ("Depot", Field::Depot),
    ("Region", Field::Region),
    ("Flooded", Field::Flooded),
];
/// Between several in one cell.
const BETWEEN: char = ';';
/// The heading of the column for whatever else is a condition.
pub(super) const OTHERWISE: &str = "Other condition";

/// What the columns say, by column; and what is left for the column of conditions.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Parts {
    /// The values of each column; yes or no of the last.
    values: [Vec<String>; COLUMNS.len()],
    rest: String,
}

impl Parts {
    /// The condition in parts, where it is written as [`Self::condition`] writes it; else all of it is left.
    pub fn of(condition: &str) -> Self {
        let whole = Self { rest: condition.to_owned(), ..Self::default() };
        let mut parts = Self::default();
        let mut left = condition;
        for (at, (_, field)) in COLUMNS.iter().enumerate() {
            if let Some((values, behind)) = part(*field, left) {
                parts.values[at] = values;
                left = behind.strip_prefix(AND).unwrap_or(behind);
            }
        }
        parts.rest = left.strip_prefix('(').and_then(|left| left.strip_suffix(')')).unwrap_or(left).to_owned();
        if parts.condition() == condition { parts } else { whole }
    }

    /// The condition that they come to.
    pub fn condition(&self) -> String {
        let mut all: Vec<String> = Vec::new();
        for ((_, field), values) in COLUMNS.iter().zip(&self.values) {
            let quoted: Vec<String> = values.iter().map(|value| format!("'{}'", value.replace('\'', "''"))).collect();
            all.extend(match (&values[..], *field) {
                ([], _) => None,
                ([answer], Field::Flooded) => Some(if answer == "yes" { "flooded" } else { "NOT flooded" }.to_owned()),
                ([_], field) => Some(format!("{} = {}", field.name(), quoted[0])),
                (_, field) => Some(format!("{} IN ({})", field.name(), quoted.join(", "))),
            });
        }
        match (self.rest.is_empty(), all.is_empty()) {
            (true, _) => {}
            (false, true) => all.push(self.rest.clone()),
            (false, false) => all.push(format!("({})", self.rest)),
        }
        all.join(AND)
    }

    /// Which names of wells, depots and regions they speak of.
    pub fn names(&self) -> impl Iterator<Item = (Field, &str)> {
        let named = COLUMNS
            .iter()
            .zip(&self.values)
            .filter(|((_, field), _)| matches!(field, Field::WellId | Field::Depot | Field::Region));
        named.flat_map(|((_, field), values)| values.iter().map(|value| (*field, value.as_str())))
    }

    /// Whether something would be lost in cells: a name with the mark that stands between two.
    fn fits_cells(&self) -> bool {
        self.values.iter().flatten().all(|value| !value.contains(BETWEEN) && value.trim() == value && !value.is_empty())
    }
}

const AND: &str = " AND ";

/// Which names of wells, depots and regions the columns of an exception's condition speak of.
pub fn names_in(condition: &str) -> Vec<(Field, String)> {
    Parts::of(condition).names().map(|(field, name)| (field, name.to_owned())).collect()
}

/// A part about a field at the beginning of a condition, with what is behind it.
fn part(field: Field, condition: &str) -> Option<(Vec<String>, &str)> {
    if field == Field::Flooded {
        let (answer, behind) = match condition.strip_prefix("NOT flooded") {
            Some(behind) => ("no", behind),
            None => ("yes", condition.strip_prefix("flooded")?),
        };
        return (behind.is_empty() || behind.starts_with(AND)).then(|| (vec![answer.to_owned()], behind));
    }
    let behind = condition.strip_prefix(field.name())?;
    if let Some(behind) = behind.strip_prefix(" = ") {
        let (value, behind) = quoted(behind)?;
        return Some((vec![value], behind));
    }
    let mut behind = behind.strip_prefix(" IN (")?;
    let mut values = Vec::new();
    loop {
        let (value, next) = quoted(behind)?;
        values.push(value);
        match next.strip_prefix(", ") {
            Some(next) => behind = next,
            None => return Some((values, next.strip_prefix(')')?)),
        }
    }
}

/// A text between quotes, and what is behind it.
fn quoted(text: &str) -> Option<(String, &str)> {
    let inner = text.strip_prefix('\'')?;
    let mut value = String::new();
    let mut rest = inner;
    loop {
        let at = rest.find('\'')?;
        value.push_str(&rest[..at]);
        rest = &rest[at + 1..];
        match rest.strip_prefix('\'') {
            Some(more) => {
                value.push('\'');
                rest = more;
            }
            None => return Some((value, rest)),
        }
    }
}

/// The cells of a condition: a column each, and the one for what is left.
pub(super) fn cells(condition: Option<&str>) -> Vec<Cell> {
    let Some(condition) = condition else { return vec![blank(); COLUMNS.len() + 1] };
    let parts = Parts::of(condition);
    let parts = if parts.fits_cells() { parts } else { Parts { rest: condition.to_owned(), ..Parts::default() } };
    let mut cells: Vec<Cell> = COLUMNS
        .iter()
        .zip(&parts.values)
        .map(|((_, field), values)| {
            let shown = |value: &String| if *field == Field::WellType { plain::shown(value) } else { value.clone() };
            let text = values.iter().map(shown).collect::<Vec<_>>().join("; ");
            Cell::new(Value::text(text), Role::Blank)
        })
        .collect();
    cells.push(Cell::new(Value::text(parts.rest), Role::Blank));
    cells
}

/// Drop-downs of the columns.
pub(super) fn entries(rows: (u32, u32)) -> Vec<Entry> {
    let types = Allowed::Among(WellType::ALL.map(|of| plain::shown(of.name())).to_vec());
    vec![among(types, 1, rows, "Type of well"), titled_yes_no(4, rows, "Flooded")]
}

/// The condition of a row, put into its table; what cannot be one is noted.
pub(super) fn read(document: &Document<'_>, page: &Page<'_>, row: usize, table: &mut Table) {
    let mut parts = Parts::default();
    let mut first: Option<At> = None;
    let mut refused: Option<(Written, At)> = None;
    for (at, (heading, field)) in COLUMNS.iter().enumerate() {
        let Some(filled) = page.filled(row, page.column(heading)) else { continue };
        let values = filled.typed.split(BETWEEN).map(str::trim).filter(|value| !value.is_empty());
        let values: Vec<String> = match field {
            Field::WellType => values.map(plain::well_type).collect(),
            Field::Flooded => match filled.typed.trim().to_lowercase().as_str() {
                "yes" | "y" | "true" | "x" | "1" => vec!["yes".to_owned()],
                "no" | "n" | "false" | "0" => vec!["no".to_owned()],
                typed => {
                    let value = document.refuse(&filled.at, format!("{typed:?} is neither yes nor no"));
                    refused = Some((value, filled.at));
                    continue;
                }
            },
            _ => values.map(str::to_owned).collect(),
        };
        if let Some(strange) =
            values.iter().find(|value| *field == Field::WellType && WellType::by_name(value).is_none())
        {
            let known: Vec<String> = WellType::ALL.iter().map(|of| plain::shown(of.name())).collect();
            let reason = format!("{strange:?} is no type of well; types: {}", known.join(", "));
            refused = Some((document.refuse(&filled.at, reason), filled.at));
            continue;
        }
        parts.values[at] = values;
        first.get_or_insert(filled.at);
    }
    if let Some(filled) = page.filled(row, page.column(OTHERWISE)) {
        parts.rest = super::cells::tidy(filled.typed);
        // The condition that is typed is the likeliest to be refused.
        first = Some(filled.at);
    }
    let condition = first.map(|at| (Written::Text(parts.condition()), at));
    if let Some((value, at)) = refused.or(condition) {
        let stated = Stated { value, at: at.clone() };
        table.entries.insert(0, stated::Entry { key: "where".to_owned(), key_at: at, stated });
    }
}
