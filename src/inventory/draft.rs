//! A well as the list has it: every field optional, located, still to be proven.

use std::sync::Arc;

use super::cell::{CellRules, ColumnUnit, Datum, Understood};
use super::columns::Plan;
use super::intervals::{Intervals, ListedInterval};
use super::rows::{CellKind, Damage, Rows};
use super::survey::{Drawn, Survey};
use crate::field::rules::UnitSystem;
use crate::field::{FIELD_COUNT, Field, Kind, WellType};
use crate::finding::{Code, Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::Comma;
use crate::quantity::unit::{self, Meaning, Unit};

/// For each field, the value of blank cells with its text, where the scenario file fixes one.
pub type Fixed = Vec<Option<(Datum, Box<str>)>>;

/// What all rows of one table share.
#[derive(Debug)]
pub struct Table {
    /// File and sheet.
    pub origin: Origin,
    /// Which column feeds which field.
    pub plan: Plan,
    /// For each carried column of the campaign, the column of this table.
    pub carried: Vec<Option<usize>>,
    /// For each field, where its datum stands in a draft; nothing where the table has no such field.
    pub slots: [Option<u8>; FIELD_COUNT],
    /// The same as a list.
    pub order: Vec<(Field, u8)>,
    /// What a lone comma means here.
    pub comma: Comma,
    /// Whether rows may end early.
    pub short_rows: bool,
    /// How cells are read.
    pub cells: Arc<CellRules>,
    /// Values for blank cells, by field, with the text as typed in the scenario file.
    pub fixed: Arc<Fixed>,
    /// Casing intervals of a table beside the list.
    pub intervals: Arc<Intervals>,
    /// What a first reading gave, where the campaign asked for one.
    pub survey: Arc<Survey>,
    /// The campaign's declared system.
    pub system: Option<UnitSystem>,
}

/// An unproven row.
#[derive(Debug, Clone)]
pub struct Draft {
    table: Arc<Table>,
    rows: Arc<Rows>,
    row: usize,
    /// One for each field that the table feeds, at its slot: a few, so that a draft moves cheaply.
    data: Box<[Datum]>,
    identity: [u64; 2],
    spreads: Vec<(Field, f64, f64)>,
    visit: Option<Box<str>>,
    made_id: Option<Box<str>>,
    /// Findings of this row so far, in the order of its columns.
    pub findings: Vec<Finding>,
}

impl Draft {
    /// File and sheet.
    pub fn origin(&self) -> &Origin {
        &self.table.origin
    }

    /// Row as a person sees it.
    pub fn row(&self) -> u32 {
        self.rows.number(self.row)
    }

    /// What the field's cell holds.
    pub fn datum(&self, field: Field) -> Datum {
        self.table.slots[field as usize].map_or(Datum::Missing, |slot| self.data[usize::from(slot)])
    }

    fn set(&mut self, field: Field, datum: Datum) {
        if let Some(slot) = self.table.slots[field as usize] {
            self.data[usize::from(slot)] = datum;
        }
    }

    /// The number, in SI.
    pub fn number(&self, field: Field) -> Option<f64> {
        match self.datum(field) {
            Datum::Number(value) => Some(value),
            _ => None,
        }
    }

    /// Replaces a number that cannot be true by nothing.
    pub fn forget(&mut self, field: Field) {
        self.set(field, Datum::Missing);
    }

    /// Replaces a number by the one it was understood to be.
    pub fn set_number(&mut self, field: Field, si: f64) {
        self.set(field, Datum::Number(si));
    }

    /// The lowest and highest SI value, where the list gives a range.
    pub fn spread(&self, field: Field) -> Option<(f64, f64)> {
        self.spreads.iter().find(|(of, ..)| *of == field).map(|(_, low, high)| (*low, *high))
    }

    /// The flag.
    pub fn flag(&self, field: Field) -> Option<bool> {
        match self.datum(field) {
            Datum::Flag(value) => Some(value),
            _ => None,
        }
    }

    /// The choice, by its canonical word.
    pub fn choice(&self, field: Field) -> Option<&'static str> {
        match (self.datum(field), field.definition().kind) {
            (Datum::Choice(at), Kind::Choice(choices)) => choices.get(usize::from(at)).map(|(name, _)| *name),
            _ => None,
        }
    }

    /// The text.
    pub fn text(&self, field: Field) -> Option<&str> {
        match field {
            Field::WellId if self.made_id.is_some() => return self.made_id.as_deref(),
            Field::Visit if self.visit.is_some() => return self.visit.as_deref(),
            _ => {}
        }
        matches!(self.datum(field), Datum::Text).then(|| self.typed(field)).filter(|text| !text.is_empty())
    }

    /// What was typed, without outer blanks; what the scenario file says for blank cells where the cell is blank.
    pub fn typed(&self, field: Field) -> &str {
        let typed = self.column(field).map_or("", |column| trim(self.rows.cell(self.row, column)));
        match &self.table.fixed[field as usize] {
            Some((_, text)) if typed.is_empty() => text,
            _ => typed,
        }
    }

    /// The well's id: as typed, or made from the row's place where the list has no ids at all.
    pub fn id(&self) -> Option<&str> {
        self.text(Field::WellId)
    }

    /// The visit: as typed, `1` where the list has none.
    pub fn visit(&self) -> &str {
        self.text(Field::Visit).unwrap_or("1")
    }

    /// Gives the row another visit.
    pub fn set_visit(&mut self, visit: &str) {
        self.visit = Some(visit.into());
    }

    /// The place of a field's cell; of the row, where the table has no such column.
    pub fn place(&self, field: Field) -> Place {
        match self.column(field).and_then(|column| self.table.plan.columns.get(column)) {
            Some(column) => Place::cell(self.origin(), self.row(), column),
            None => Place::row(self.origin(), self.row()),
        }
    }

    /// The unit a bare number of this field is read in.
    pub fn unit(&self, field: Field) -> Option<&'static Unit> {
        self.table.plan.feeds[field as usize].as_ref().and_then(|feed| feed.unit)
    }

    /// The unit to show a value of this field in: that of its column, else that of the campaign, else that of results.
    pub fn shown_unit(&self, field: Field) -> Option<&'static Unit> {
        self.unit(field).or_else(|| {
            let quantity = field.quantity()?;
            let by_system = self.table.system.zip(quantity.default_units).map(|(system, units)| units[system.index()]);
            unit::by_symbol(by_system.unwrap_or(quantity.unit))
        })
    }

    fn column(&self, field: Field) -> Option<usize> {
        self.table.plan.feeds[field as usize].as_ref().filter(|feed| !feed.barred).map(|feed| feed.column)
    }

    /// The casing intervals listed for this well in a table beside the list, from the top down.
    pub fn intervals(&self) -> &[ListedInterval] {
        self.id().map_or(&[], |id| self.table.intervals.of(id))
    }

    /// The place of a later visit of the same well, where only the latest is planned.
    pub fn superseded_by(&self) -> Option<&Place> {
        self.table.survey.superseded_by(self)
    }

    /// What the list's own wells of this type, of this row's region if there are enough, measure for a field.
    pub fn drawn(&self, well_type: WellType, field: Field) -> Option<Drawn> {
        self.table.survey.drawn(well_type, field, self.text(Field::Region))
    }

    /// The carried cells, in the order of the campaign's carried columns.
    pub fn carried(&self) -> Vec<Box<str>> {
        self.table
            .carried
            .iter()
            .map(|column| column.map_or("", |column| trim(self.rows.cell(self.row, column))).into())
            .collect()
    }

    /// A 128-bit hash of id and visit as they were read; equal rows have equal hashes.
    pub fn identity(&self) -> [u64; 2] {
        self.identity
    }

    /// Adds a finding about a field's cell.
    pub fn say(&mut self, code: Code, field: Field, says: impl Into<Box<str>>, help: impl Into<Box<str>>) {
        self.say_with(code, field, says, help, Vec::new());
    }

    /// Adds a finding about a field's cell, with other places that belong to it.
    pub fn say_with(
        &mut self,
        code: Code,
        field: Field,
        says: impl Into<Box<str>>,
        help: impl Into<Box<str>>,
        related: Vec<(Place, Box<str>)>,
    ) {
        let finding = Finding {
            code,
            place: self.place(field),
            well: self.id().map(Into::into),
            seen: self.typed(field).into(),
            says: says.into(),
            help: help.into(),
            related,
        };
        self.findings.push(finding);
    }

    /// `total_depth = "42"`, for the other places of a finding.
    pub fn beside(&self, field: Field) -> (Place, Box<str>) {
        (self.place(field), format!("{} = \"{}\"", field.name(), self.typed(field)).into())
    }
}

/// Without outer blanks; quick where there are none, as nearly always.
pub fn trim(text: &str) -> &str {
    match (text.as_bytes().first(), text.as_bytes().last()) {
        (Some(first), Some(last)) if first.is_ascii_graphic() && last.is_ascii_graphic() => text,
        _ => text.trim(),
    }
}

/// A 128-bit hash of id and visit, the same on every machine.
///
/// Two 64-bit hashes with seeds of their own, each folding the full product of two 64-bit words (as in wyhash, Wang Yi
/// 2019). It is not a defence against somebody who makes collisions on purpose in his own list.
pub fn identity(id: &str, visit: &str) -> [u64; 2] {
    let mut halves = [0x9E37_79B9_7F4A_7C15_u64, 0xD1B5_4A32_D192_ED03];
    let fold = |a: u64, b: u64| {
        let product = u128::from(a) * u128::from(b);
        (product >> 64) as u64 ^ product as u64
    };
    for text in [id, visit] {
        for chunk in text.as_bytes().chunks(8) {
            let mut word = [0; 8];
            word[..chunk.len()].copy_from_slice(chunk);
            let word = u64::from_le_bytes(word);
            halves[0] = fold(halves[0] ^ word, 0xA076_1D64_78BD_642F);
            halves[1] = fold(halves[1] ^ word, 0xE703_7ED1_A0B4_28DB);
        }
        // The length keeps "1" + "11" apart from "11" + "1".
        halves[0] = fold(halves[0] ^ text.len() as u64, 0x8EBC_6AF0_9C88_C6E3);
        halves[1] = fold(halves[1] ^ text.len() as u64, 0x5899_65CC_7537_4CC3);
    }
    halves
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
                let mut unit = ColumnUnit { unit: feed.unit, stated: feed.unit_stated };
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
    fn take(&mut self, field: Field, understood: Understood) {
        if let Some((low, high)) = understood.spread {
            self.spreads.push((field, low, high));
        }
        for (code, says, help) in understood.findings {
            self.say(code, field, says, help);
        }
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
