//! A well as the list has it: every field optional, located, still to be proven.

mod annotations;
mod basin;
mod beside;
mod coded;
mod damage;
mod doubted;
mod doubtful_zero;
mod drilled_hole;
mod fed;
mod filled;
mod in_use;
mod judge;
mod left_over;
mod no_well;
mod other_units;
mod overruled;
mod reading;
mod remark_measures;
mod replaced;
mod second_columns;
mod signs;
mod strings;
mod words;
mod written;

use std::sync::{Arc, OnceLock};

use compact_str::CompactString;

use annotations::Aside;
pub use coded::coded;
pub use judge::{no_wells_by_name, worded};
pub use reading::drafts;

use super::cell::{CellRules, Datum};
use super::columns::Plan;
use super::fate::Role;
use super::intervals::{Intervals, ListedInterval};
use super::legend::Legend;
use super::naming::Naming;
use super::row_kind::NoWell;
use super::rows::{Rows, trim};
use super::survey::{Drawn, Survey};
use crate::field::rules::UnitSystem;
use crate::field::{FIELD_COUNT, FIELDS, Field, Kind, WellType};
use crate::finding::{Code, Finding, Related, Words};
use crate::place::{Column, Origin, Place};
use crate::quantity::parse::Comma;
use crate::quantity::unit::Unit;

/// For each field, the value of blank cells with its text, where the scenario file fixes one.
pub type Fixed = Vec<Option<(Datum, Box<str>)>>;

/// Where each field stands in a draft.
pub type Slots = [Option<u8>; FIELD_COUNT];

/// The slots of the fields that a plan feeds or the scenario file fixes, and these fields in their order.
pub fn slots(plan: &Plan, fixed: &[Option<(Datum, Box<str>)>]) -> (Slots, Vec<(Field, u8)>) {
    let mut slots = [None; FIELD_COUNT];
    let mut next = 0;
    for (field, slot) in slots.iter_mut().enumerate() {
        let fed = plan.feeds.get(field).is_some_and(|feed| feed.as_ref().is_some_and(|feed| !feed.barred));
        if fed || fixed.get(field).is_some_and(Option::is_some) {
            *slot = Some(next);
            next += 1;
        }
    }
    let order = FIELDS.iter().filter_map(|definition| Some((definition.field, slots[definition.field as usize]?)));
    (slots, order.collect())
}

/// What all rows of one table share.
#[derive(Debug)]
pub struct Table {
    /// The file and the sheet that its rows stand in.
    pub origin: Origin,
    /// Which column feeds which field.
    pub plan: Plan,
    /// For each carried column of the campaign, the column of this table.
    pub carried: Vec<Option<usize>>,
    /// For each field, where its datum stands in a draft; nothing where the table has no such field.
    pub slots: Slots,
    /// The same as a list.
    pub order: Vec<(Field, u8)>,
    /// What a lone comma means here.
    pub comma: Comma,
    /// Whether rows may end early.
    pub short_rows: bool,
    /// How cells are read.
    pub cells: Arc<CellRules>,
    /// What the codes of the file mean.
    pub legend: Arc<Legend>,
    /// Fields whose column has codes that are explained, as bits.
    pub coded: u64,
    /// Values for blank cells, by field, with the text as typed in the scenario file.
    pub fixed: Arc<Fixed>,
    /// Casing intervals of a table beside the list.
    pub intervals: Arc<Intervals>,
    /// What a first reading gave, where the campaign asked for one.
    pub survey: Arc<Survey>,
    /// The system of units that is declared for the list, or for the campaign.
    pub system: Option<UnitSystem>,
    /// Whether it is the campaign's or the list's own, in a word.
    pub system_of: &'static str,
    /// The columns whose words tell what a row is.
    pub worded: Vec<(usize, Role)>,
    /// The name of the sheet, where it holds no wells by that.
    pub no_wells_by_name: Option<String>,
    /// Whether the sheet stands beside the wells and lists none.
    pub lists_no_wells: bool,
    /// What the beginning of the table tells of the whole of it; known once it was looked at.
    pub naming: OnceLock<Naming>,
}

impl Table {
    /// Cuts the descriptions of whole wells into columns, where the list has them.
    pub fn cut_descriptions(&self, rows: &mut Rows) {
        if let Some(described) = self.plan.described {
            described.cut(rows, 0);
        }
    }

    /// Whether ids have figures in them, as most do.
    pub fn ids_are_numbers(&self) -> bool {
        self.naming.get().is_none_or(|naming| naming.ids_are_numbers)
    }
}

/// A row as it was read; nothing in it is proven.
#[derive(Debug, Clone)]
pub struct Draft {
    table: Arc<Table>,
    rows: Arc<Rows>,
    row: usize,
    /// One for each field that the table feeds, at its slot: a few, so that a draft moves cheaply.
    data: Box<[Datum]>,
    identity: [u64; 2],
    spreads: Vec<(Field, f64, f64)>,
    /// Units of the cells that were read in another than their column's.
    own_units: Vec<(Field, &'static Unit)>,
    visit: Option<Box<str>>,
    made_id: Option<Box<str>>,
    /// Whether `made_id` is the typed one with a section, a system or a sheet before it.
    paired: bool,
    /// Columns that hold a ditto mark.
    dittos: Vec<usize>,
    /// Cells that are taken from above: column and text.
    filled: Vec<(usize, Box<str>)>,
    /// Fields that this row gives in the second of two columns, as bits.
    from_second: u64,
    /// How many dates back the level stands.
    steps_back: u8,
    /// Why it is not a well, where it is none.
    no_well: Option<Box<NoWell>>,
    aside: Option<Box<Aside>>,
    /// Findings of this row so far, in the order of its columns.
    pub findings: Vec<Finding>,
}

impl Draft {
    /// The file and the sheet that the row stands in.
    pub fn origin(&self) -> &Origin {
        &self.table.origin
    }

    /// Row as a person sees it.
    pub fn row(&self) -> u32 {
        self.rows.number(self.row)
    }

    /// Why the row is not a well, where it is none.
    pub fn no_well(&self) -> Option<&NoWell> {
        self.no_well.as_deref()
    }

    /// The fields that the row's table has.
    pub fn fields(&self) -> impl Iterator<Item = Field> + '_ {
        self.table.order.iter().map(|(field, _)| *field)
    }

    /// What the field's cell holds.
    pub fn datum(&self, field: Field) -> Datum {
        self.table.slots[field as usize].map_or_else(|| self.worked_out(field), |slot| self.data[usize::from(slot)])
    }

    fn set(&mut self, field: Field, datum: Datum) {
        if let Some(slot) = self.table.slots[field as usize] {
            self.data[usize::from(slot)] = datum;
        } else {
            self.work_out(field, datum);
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

    /// Replaces a number by the one it was understood to be; the field need not have a column.
    pub fn set_number(&mut self, field: Field, si: f64) {
        self.set(field, Datum::Number(si));
    }

    /// The lowest and highest SI value, where the list gives a range.
    pub fn spread(&self, field: Field) -> Option<(f64, f64)> {
        self.spreads.iter().find(|(of, ..)| *of == field).map(|(_, low, high)| (*low, *high))
    }

    /// The answer to a question of yes or no; nothing where none is given.
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

    /// What the field says in words, by the name that is kept for it; nothing where it is blank.
    pub fn text(&self, field: Field) -> Option<&str> {
        match field {
            Field::WellId if self.made_id.is_some() => return self.made_id.as_deref(),
            Field::Visit if self.visit.is_some() => return self.visit.as_deref(),
            _ => {}
        }
        let text =
            matches!(self.datum(field), Datum::Text).then(|| self.typed(field)).filter(|text| !text.is_empty())?;
        Some(self.table.cells.kept_name(field, text).unwrap_or(text))
    }

    /// What stands in the field's cell, without outer blanks.
    fn in_cell(&self, field: Field) -> &str {
        self.column(field).map_or("", |column| self.cell(column))
    }

    /// What stands in a column, or is taken from above, without outer blanks.
    pub fn cell(&self, column: usize) -> &str {
        match self.filled.iter().find(|(of, _)| *of == column) {
            Some((_, text)) => text,
            None => trim(self.rows.cell(self.row, column)),
        }
    }

    /// What stands in the column of a field, without outer blanks.
    pub fn cell_of(&self, field: Field) -> &str {
        self.in_cell(field)
    }

    /// What was typed, without outer blanks; what the scenario file says for blank cells where the cell is blank.
    pub fn typed(&self, field: Field) -> &str {
        let typed = self.in_cell(field);
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

    /// The unit of a field's column, where it has one.
    pub fn unit_of_column(&self, field: Field) -> Option<&'static Unit> {
        self.table.plan.feeds[field as usize].as_ref().and_then(|feed| feed.unit)
    }

    /// Fields whose cells were read in another unit than their column's, with that unit.
    pub fn own_units(&self) -> &[(Field, &'static Unit)] {
        &self.own_units
    }

    /// The unit to show a value of this field in: the one it was read in, else that of its column, else that of the campaign,
    /// else that of results.
    pub fn shown_unit(&self, field: Field) -> Option<&'static Unit> {
        let own = self.own_units.iter().find(|(of, _)| *of == field).map(|(_, unit)| *unit);
        own.or_else(|| self.unit_of_column(field)).or_else(|| field.quantity()?.unit_in(self.table.system))
    }

    fn column(&self, field: Field) -> Option<usize> {
        let feed = self.table.plan.feeds[field as usize].as_ref().filter(|feed| !feed.barred)?;
        Some(self.fed_by(field, feed).column)
    }

    /// Whether a person calls the well so: by its id, or by the id as typed.
    pub fn is_called(&self, id: &str) -> bool {
        self.id() == Some(id) || self.in_cell(Field::WellId) == id
    }

    /// The id by which tables beside the list know the well.
    fn listed_id(&self) -> Option<&str> {
        if self.paired { Some(self.in_cell(Field::WellId)) } else { self.id() }
    }

    /// The casing intervals of this well, from the top down: those its own cell gives, else those in a table beside the list.
    pub fn intervals(&self) -> &[ListedInterval] {
        if !self.strings().is_empty() {
            return self.strings();
        }
        self.listed_id().map_or(&[], |id| self.table.intervals.of(id))
    }

    /// The depth of this well by its deepest interval, in metres, where the campaign says that it may be taken so.
    pub fn listed_depth(&self) -> Option<f64> {
        self.listed_id().and_then(|id| self.table.intervals.depth_of(id))
    }

    /// The place of a later visit of the same well, where only the latest is planned.
    pub fn superseded_by(&self) -> Option<&Place> {
        self.table.survey.superseded_by(self.id()?, self.origin(), self.row())
    }

    /// What the list's own wells of this type, of this row's region if there are enough, measure for a field.
    pub fn drawn(&self, well_type: WellType, field: Field) -> Option<Drawn> {
        self.table.survey.drawn(well_type, field, self.text(Field::Region))
    }

    /// The carried cells, in the order of the campaign's carried columns.
    pub fn carried(&self) -> Vec<CompactString> {
        self.table.carried.iter().map(|column| column.map_or("", |column| self.cell(column)).into()).collect()
    }

    /// The carried cells of this row that hold something, each with its column.
    pub fn carried_cells(&self) -> impl Iterator<Item = (&Column, &str)> {
        self.table.carried.iter().flatten().filter_map(|at| {
            let text = trim(self.rows.cell(self.row, *at));
            self.table.plan.columns.get(*at).filter(|_| !text.is_empty()).map(|column| (column, text))
        })
    }

    /// A 128-bit hash of id and visit as they were read; equal rows have equal hashes.
    pub fn identity(&self) -> [u64; 2] {
        self.identity
    }

    /// Adds a finding about a field's cell.
    pub fn say(&mut self, code: Code, field: Field, says: impl Into<Words>, help: impl Into<Words>) {
        let finding = self.finding(code, field, says, help);
        self.findings.push(finding);
    }

    /// A finding about a field's cell, to be said of more before it is added.
    pub fn finding(&self, code: Code, field: Field, says: impl Into<Words>, help: impl Into<Words>) -> Finding {
        // What the scenario file fixes was not typed here: a correction of this cell must find it blank.
        Finding::new(code, self.place(field), says, help).seen(self.in_cell(field)).of_well(self.id())
    }

    /// Adds a finding about a field's cell, with other places that belong to it.
    pub fn say_with(
        &mut self,
        code: Code,
        field: Field,
        says: impl Into<Words>,
        help: impl Into<Words>,
        related: Related,
    ) {
        let finding = self.finding(code, field, says, help).related(related);
        self.findings.push(finding);
    }

    /// `total_depth = "42"`, for the other places of a finding.
    pub fn beside(&self, field: Field) -> (Place, Box<str>) {
        (self.place(field), format!("{} = \"{}\"", field.name(), self.typed(field)).into())
    }
}
