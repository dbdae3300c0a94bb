//! From the rows of a table to drafts: every cell read by the plan, and what is wrong with the row as a row.

use std::sync::Arc;

use super::super::cell::{ColumnUnit, Datum, Understood, quick_number};
use super::super::columns::Plan;
use super::super::heading::tidy;
use super::super::rows::{CellKind, Damage, Rows};
use super::{Draft, Table, identity, trim};
use crate::field::rules::UnitSystem;
use crate::field::{FIELD_COUNT, Field};
use crate::finding::{Code, Finding, catalogue};
use crate::place::Place;
use crate::quantity::unit::{self, Meaning, Unit};

/// Words that stand where an id should, in rows of sums.
fn is_total(id: &str) -> bool {
    const WORDS: &[&str] = &[
        "total",
        "totals",
        "total:",
        "sum",
        "sum:",
        "subtotal",
        "sub-total",
        "grand total",
        "average",
        "mean",
        "count",
        "min",
        "max",
    ];
    id.len() <= 11 && WORDS.iter().any(|word| word.eq_ignore_ascii_case(id))
}

/// Reads every row of a run.
pub fn drafts(table: &Arc<Table>, rows: &Arc<Rows>) -> Vec<Draft> {
    let has_ids = table.plan.feeds[Field::WellId as usize].is_some() || table.fixed[Field::WellId as usize].is_some();
    (0..rows.len()).map(|row| draft(table, rows, row, has_ids)).collect()
}

fn draft(table: &Arc<Table>, rows: &Arc<Rows>, row: usize, has_ids: bool) -> Draft {
    let mut draft = Draft {
        table: Arc::clone(table),
        rows: Arc::clone(rows),
        row,
        data: vec![Datum::Missing; table.slots.iter().flatten().count()].into_boxed_slice(),
        identity: [0; 2],
        spreads: Vec::new(),
        own_units: Vec::new(),
        visit: None,
        made_id: None,
        findings: Vec::new(),
    };
    if !has_ids {
        let sheet = table.origin.sheet.as_deref().map(|sheet| format!("!{sheet}")).unwrap_or_default();
        draft.made_id = Some(format!("{}{sheet}:{}", table.origin.file, rows.number(row)).into());
    }
    for (field, slot) in &table.order {
        let (field, slot) = (*field, usize::from(*slot));
        if let Some(feed) = &table.plan.feeds[field as usize]
            && !feed.barred
        {
            let text = trim(rows.cell(row, feed.column));
            if !text.is_empty() {
                let mut unit = ColumnUnit { unit: feed.unit, stated: feed.unit_stated || !feed.unit_unsaid };
                let mut unsaid = feed.unit_unsaid;
                if let Some(beside) = feed.unit_column {
                    match beside_unit(table, rows.cell(row, beside), field) {
                        Ok(Some(beside)) => {
                            unit = ColumnUnit { unit: Some(beside), stated: true };
                            unsaid = false;
                        }
                        Err((code, says)) if !table.cells.is_missing(text) => {
                            draft.data[slot] = Datum::Unread;
                            draft.say(code, field, says, "write the unit as in ft, m, in, mm");
                            continue;
                        }
                        Ok(None) | Err(_) => {}
                    }
                }
                if !unsaid
                    && let Some(unit) = unit.unit
                    && let Some(number) = quick_number(field, text, unit)
                    && rows.kind(row, feed.column) != CellKind::Date
                {
                    draft.data[slot] = Datum::Number(number);
                    draft.read_in(field, unit, feed.unit);
                    continue;
                }
                let understood = table.cells.read(field, text, rows.kind(row, feed.column), unit, table.comma);
                if unsaid
                    && !understood.unit_written
                    && matches!(understood.datum, Datum::Number(_))
                    && let (Some(unit), Some(system)) = (unit.unit, table.system)
                {
                    let says = format!(
                        "no unit is written here; read in {} because the campaign is \"{}\"",
                        unit.symbol,
                        system.name()
                    );
                    draft.say(catalogue::UNIT_NOT_WRITTEN, field, says, "write the unit");
                }
                draft.data[slot] = understood.datum;
                if let (Datum::Number(_), Some(used)) = (understood.datum, understood.unit.or(unit.unit)) {
                    draft.read_in(field, used, feed.unit);
                }
                draft.take(field, understood);
            }
        }
        if draft.data[slot] == Datum::Missing
            && let Some((fixed, _)) = &table.fixed[field as usize]
        {
            draft.data[slot] = *fixed;
        }
    }
    draft.row_damage(has_ids);
    draft.not_a_well();
    draft.identity = identity(draft.id().unwrap_or_default(), draft.visit());
    draft
}

/// The slots of the fields that a plan feeds or the scenario file fixes.
pub fn slots(plan: &Plan, fixed: &[Option<(Datum, Box<str>)>]) -> [Option<u8>; FIELD_COUNT] {
    let mut slots = [None; FIELD_COUNT];
    let mut next = 0;
    for (field, slot) in slots.iter_mut().enumerate() {
        let fed = plan.feeds.get(field).is_some_and(|feed| feed.as_ref().is_some_and(|feed| !feed.barred));
        if fed || fixed.get(field).is_some_and(Option::is_some) {
            *slot = Some(next);
            next += 1;
        }
    }
    slots
}

impl Draft {
    /// Remembers the unit of a cell, where it is not its column's.
    fn read_in(&mut self, field: Field, used: &'static Unit, column: Option<&'static Unit>) {
        // Every unit stands in one table: the same unit is the same place.
        if column.is_none_or(|column| !std::ptr::eq(column, used)) {
            self.own_units.push((field, used));
        }
    }

    fn take(&mut self, field: Field, understood: Understood) {
        if let Some((low, high)) = understood.spread {
            self.spreads.push((field, low, high));
        }
        for (code, says, help) in understood.findings {
            self.say(code, field, says, help);
        }
    }

    /// A total, or the headings once more: not a well, and nothing else is worth saying of it.
    fn not_a_well(&mut self) {
        let type_typed =
            self.column(Field::WellType).is_some_and(|column| !trim(self.rows.cell(self.row, column)).is_empty());
        let says = if !type_typed && self.id().is_some_and(is_total) {
            "this row looks like a total, not a well"
        } else if self.repeats_heading() {
            "this row repeats the headings"
        } else {
            return;
        };
        self.data.fill(Datum::Missing);
        self.spreads.clear();
        self.findings.clear();
        self.made_id.get_or_insert_with(|| format!("{}:{}", self.table.origin.file, self.rows.number(self.row)).into());
        let place = Place::row(self.origin(), self.row());
        self.findings.push(Finding {
            code: catalogue::NOT_A_WELL,
            place,
            well: None,
            seen: self.typed(Field::WellId).into(),
            says: says.into(),
            help: "take the row out of the list".into(),
            related: Vec::new(),
        });
    }

    fn repeats_heading(&self) -> bool {
        let mut same = 0;
        for (field, _) in &self.table.order {
            let Some(column) = self.column(*field) else { continue };
            let cell = trim(self.rows.cell(self.row, column));
            if cell.is_empty() {
                continue;
            }
            let heading = &self.table.plan.columns[column].heading;
            // Nearly every row is told apart here, without making text.
            if !heading.as_bytes().first().is_some_and(|first| first.eq_ignore_ascii_case(&cell.as_bytes()[0])) {
                return false;
            }
            if cell.len() > 120 || !tidy(cell).eq_ignore_ascii_case(heading) {
                return false;
            }
            same += 1;
        }
        same >= 2
    }

    fn row_damage(&mut self, has_ids: bool) {
        let row = self.row();
        let mut found: Vec<(Code, String, &str)> = Vec::new();
        for damage in self.rows.damages(self.row) {
            found.push(match damage {
                Damage::UnclosedQuote => (
                    catalogue::UNCLOSED_QUOTE,
                    "a quotation mark opens a cell and is never closed; the cells of this row may be cut wrongly"
                        .to_owned(),
                    "take the mark out, or double it and close the cell",
                ),
                Damage::ForeignBytes => (
                    catalogue::FOREIGN_BYTES,
                    "some bytes are not UTF-8; the row was read as Windows-1252".to_owned(),
                    "save the file as UTF-8",
                ),
            });
        }
        let columns = self.table.plan.columns.len();
        let width = self.rows.width(self.row);
        if width > columns {
            let filled = (columns..width).filter(|column| !self.rows.cell(self.row, *column).trim().is_empty()).count();
            if filled > 0 {
                found.push((
                    catalogue::ROW_TOO_LONG,
                    format!(
                        "{width} cells under {columns} headings; a cell with the delimiter in it may have been cut"
                    ),
                    "put cells that hold the delimiter in quotation marks",
                ));
            }
        } else if width < columns
            && !self.table.short_rows
            && self.rows.kind(self.row, 0) == CellKind::Text
            && width > 0
        {
            let last = self.table.plan.feeds.iter().flatten().map(|feed| feed.column).max().unwrap_or(0);
            if width <= last {
                found.push((
                    catalogue::ROW_TOO_SHORT,
                    format!("{width} cells under {columns} headings; the missing ones are read as blank"),
                    "check that no cell was lost on the way",
                ));
            }
        }
        for (code, says, help) in found {
            self.findings.push(Finding {
                code,
                place: Place::row(self.origin(), row),
                well: self.id().map(Into::into),
                seen: "".into(),
                says: says.into(),
                help: help.into(),
                related: Vec::new(),
            });
        }
        if has_ids && self.id().is_none() {
            self.say(
                catalogue::NO_ID,
                Field::WellId,
                "this row has no id",
                "give it one, or take the row out if it is a total or a remark",
            );
        }
        // Findings of cells left of the id were made before it was known.
        if let Some(id) = self.id().map(Box::<str>::from) {
            for finding in &mut self.findings {
                finding.well.get_or_insert_with(|| id.clone());
            }
        }
    }
}

fn beside_unit(table: &Table, written: &str, field: Field) -> Result<Option<&'static Unit>, (Code, String)> {
    let written = written.trim();
    if written.is_empty() || table.cells.is_missing(written) {
        return Ok(None);
    }
    let dimension = field.quantity().map(|quantity| quantity.dimension);
    match unit::look_up(written, table.system.and_then(UnitSystem::gallon)) {
        Some(Meaning::Unit(unit)) if Some(unit.dimension) == dimension => Ok(Some(unit)),
        Some(Meaning::Unit(unit)) => Err((
            catalogue::UNIT_OF_OTHER_DIMENSION,
            format!("the unit beside it, \"{written}\", is of {}", unit.dimension.name()),
        )),
        Some(Meaning::EitherGallon) => Err((
            catalogue::GALLON_UNDECLARED,
            format!("the unit beside it, \"{written}\", is a US or an imperial measure, and nothing says which"),
        )),
        None => Err((catalogue::UNIT_BESIDE_UNKNOWN, format!("the unit beside it, \"{written}\", is not known"))),
    }
}
