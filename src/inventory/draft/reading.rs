//! The rows of a table made into drafts: every cell read by the plan.

use std::sync::Arc;

use super::super::cell::{ColumnUnit, Datum, Form, Known, Said, Understood, quick_number};
use super::super::columns::{Feed, Shape, is_diameter};
use super::super::description;
use super::super::ditto::is_ditto;
use super::super::lexicon;
use super::super::rows::{CellKind, Rows};
use super::super::unit_columns::{self, Qualifier};
use super::coded::decoded;
use super::fed::without_pumped;
use super::written::{marked, rewritten};
use super::{Draft, Table};
use crate::field::rules::UnitSystem;
use crate::field::species::{self, Species, counted};
use crate::field::{Field, Kind};
use crate::finding::{Finding, catalogue};
use crate::inventory::identity::identity;
use crate::inventory::rows::trim;
use crate::place::Place;
use crate::quantity::unit::Unit;

/// What a code or a short word for a well that flows says.
fn flowing() -> Said {
    Said { form: Some(Form::Flowing), ..Said::default() }
}

/// Reads every row of a run.
pub fn drafts(table: &Arc<Table>, rows: &Arc<Rows>) -> Vec<Draft> {
    let has_ids = table.plan.feeds[Field::WellId as usize].is_some() || table.fixed[Field::WellId as usize].is_some();
    let mut known = Known::new(&table.cells, table.comma);
    (0..rows.len()).map(|row| draft(table, rows, row, has_ids, &mut known)).collect()
}

/// A row of which nothing is read yet.
fn blank(table: &Arc<Table>, rows: &Arc<Rows>, row: usize) -> Draft {
    Draft {
        table: Arc::clone(table),
        rows: Arc::clone(rows),
        row,
        data: vec![Datum::Missing; table.order.len()].into_boxed_slice(),
        identity: [0; 2],
        spreads: Vec::new(),
        own_units: Vec::new(),
        visit: None,
        made_id: None,
        paired: false,
        dittos: Vec::new(),
        filled: Vec::new(),
        from_second: 0,
        steps_back: 0,
        no_well: None,
        aside: None,
        findings: Vec::new(),
    }
}

fn draft<'a>(table: &'a Arc<Table>, rows: &'a Arc<Rows>, row: usize, has_ids: bool, known: &mut Known<'a>) -> Draft {
    let mut draft = blank(table, rows, row);
    if !has_ids {
        let sheet = table.origin.sheet.as_deref().map(|sheet| format!("!{sheet}")).unwrap_or_default();
        draft.made_id = Some(format!("{}{sheet}:{}", table.origin.file, rows.number(row)).into());
    }
    // In a row with a lone quotation mark nobody knows what the mark is.
    let sound = rows.damages(row).next().is_none();
    // Measures that a cell gives beside its own, each with that column.
    let mut also: Vec<(usize, (Field, String))> = Vec::new();
    for (field, slot) in &table.order {
        let (field, slot) = (*field, usize::from(*slot));
        if let Some(question) = table.plan.questions.iter().find(|question| question.field == field)
            && !draft.is_written_out(question)
        {
            draft.data[slot] = draft.ticked(question);
        } else if let Some(feed) = &table.plan.feeds[field as usize]
            && !feed.barred
        {
            let feed = draft.feed_of_row(field, feed);
            let typed = trim(rows.cell(row, feed.column));
            let (text, settled) = decoded(table, field, feed, typed);
            if let Some((column, places)) = &feed.level.datum_by_place {
                let place = lexicon::fold(trim(rows.cell(row, *column)));
                if let Some((_, datum)) = places.iter().find(|(name, _)| *name == place) {
                    draft.keep_said(field, Said { from: Some(datum.reference()), ..Said::default() });
                }
            }
            draft.data[slot] = settled.unwrap_or_default();
            if settled == Some(Datum::Number(0.0)) {
                draft.keep_said(field, flowing());
            }
            if typed.is_empty()
                && !feed.unless_noted.is_empty()
                && let Some(si) = draft.size_unless_noted(field, feed)
            {
                draft.data[slot] = Datum::Number(si);
            }
            if draft.with_left_over(field, slot, feed, text) {
                continue;
            }
            if matches!(field.definition().kind, Kind::Text)
                && !text.is_empty()
                && !is_ditto(text)
                && feed.qualifier_column.is_none()
                && table.cells.is_plain_text(text, rows.kind(row, feed.column))
            {
                draft.data[slot] = Datum::Text;
                continue;
            }
            if !text.is_empty() {
                let of_column = draft.unit_for_type(field, feed);
                let mut unit = ColumnUnit { unit: of_column, stated: feed.unit_stated || !feed.unit_unsaid };
                let mut unsaid = feed.unit_unsaid;
                let mut counted_as = feed.species;
                if let Some(beside) = feed.unit_column {
                    let gallon = table.system.and_then(UnitSystem::gallon);
                    match unit_columns::unit_written(rows.cell(row, beside), field, &table.cells, gallon) {
                        Ok(Some(beside)) => {
                            if !table.cells.says_nothing(field, text) {
                                draft.unit_beside(field, feed, &beside);
                            }
                            unit = ColumnUnit { unit: Some(beside.unit), stated: true };
                            unsaid = false;
                            counted_as = beside.species.or(counted_as);
                        }
                        Err((code, says)) if !table.cells.says_nothing(field, text) => {
                            draft.unit_beside_unread(slot, field, code, &says);
                            continue;
                        }
                        Ok(None) if feed.units_beside.len() >= 2 && is_diameter(field) => {
                            unit = ColumnUnit { unit: draft.unit_left_blank(field, feed, text), stated: true };
                        }
                        Ok(None) | Err(_) => {}
                    }
                }
                let qualifier = feed.qualifier_column.map_or("", |beside| trim(rows.cell(row, beside)));
                if !unsaid
                    && qualifier.is_empty()
                    && counted_as == feed.species
                    && let Some(unit) = unit.unit
                    && let Some(number) = quick_number(field, text, unit)
                    && rows.kind(row, feed.column) != CellKind::Date
                {
                    draft.data[slot] = Datum::Number(feed.shape.diameter(counted(number, feed.species)));
                    draft.read_in(field, unit, feed.unit);
                    continue;
                }
                if sound && is_ditto(text) {
                    draft.dittos.push(feed.column);
                    continue; // What it stands for is known when the row above is.
                }
                let (bare, own) = match species::at_end(field, text) {
                    // A symbol alone is not a value: `S` may mean strong, `N` no.
                    ("", _) => (text, None),
                    cut => cut,
                };
                let kind = rows.kind(row, feed.column);
                let signed;
                if feed.level.flowing.iter().any(|word| bare.eq_ignore_ascii_case(word)) {
                    draft.data[slot] = Datum::Number(0.0); // Counted to the ground.
                    draft.keep_said(field, flowing());
                    continue;
                }
                if without_pumped(feed, bare).is_some() {
                    let says = "this is a level that was not taken at rest, by the list's own mark";
                    draft.data[slot] = Datum::Unread;
                    draft.say(catalogue::NOT_AT_REST, field, says, "write the level at rest, before pumping");
                    continue;
                }
                let bare = match marked(feed, bare) {
                    Some((number, datum)) => {
                        draft.keep_said(field, Said { from: Some(datum.reference()), ..Said::default() });
                        number
                    }
                    None => bare,
                };
                let understood = match (
                    Qualifier::of(qualifier),
                    rewritten(feed, bare).or_else(|| draft.in_own_unit(field, bare)),
                ) {
                    (Some(Qualifier::Sign(sign)), _) if !table.cells.says_nothing(field, bare) => {
                        signed = table.cells.read(field, &format!("{sign}{bare}"), kind, unit, table.comma);
                        &signed
                    }
                    (_, Some(joined)) => {
                        signed = table.cells.read(field, &joined, kind, unit, table.comma);
                        &signed
                    }
                    _ => known.read(field, bare, kind, unit),
                };
                let several = (understood.datum == Datum::Unread).then(|| description::several(bare, field)).flatten();
                let again;
                let understood = match several.iter().flatten().find(|(of, _)| *of == field) {
                    Some((_, part)) => {
                        again = table.cells.read(field, part, kind, unit, table.comma);
                        also.extend(
                            several
                                .iter()
                                .flatten()
                                .filter(|(of, _)| *of != field)
                                .cloned()
                                .map(|part| (feed.column, part)),
                        );
                        &again
                    }
                    None => understood,
                };
                counted_as = own.or(counted_as);
                if unsaid
                    && !understood.unit_written
                    && matches!(understood.datum, Datum::Number(_))
                    && let (Some(unit), Some(system)) = (unit.unit, table.system)
                {
                    let says = format!(
                        "no unit is written here; read in {} because the {} is \"{}\"",
                        unit.symbol,
                        table.system_of,
                        system.name()
                    );
                    draft.say(catalogue::UNIT_NOT_WRITTEN, field, says, "write the unit");
                }
                let said = draft.findings.len();
                // What was read is what was typed, so a suggestion may stand in its place.
                let whole = bare.len() == typed.len() && qualifier.is_empty();
                draft.take((field, slot), feed, (typed, whole), understood, (unit.unit, counted_as));
                draft.qualified(field, feed, qualifier, said);
                if let Some(species) = counted_as.filter(|_| counted_as != feed.species) {
                    draft.say_counted_as(field, species, feed.species);
                }
            }
        }
        if draft.data[slot] == Datum::Missing
            && let Some((fixed, _)) = &table.fixed[field as usize]
            && draft.form(field).is_none()
        {
            draft.data[slot] = *fixed;
        }
    }
    draft.turn_signs();
    for (column, (field, part)) in also {
        draft.given_beside(field, column, &part);
    }
    draft.read_beside();
    for (column, _) in table.plan.carried.iter().filter(|_| sound) {
        if is_ditto(trim(rows.cell(row, *column))) {
            draft.dittos.push(*column);
        }
    }
    draft.say_open();
    draft.row_damage(has_ids);
    if !draft.is_said_to_be_no_well() {
        draft.judge();
    }
    if let Some(id) = draft.id().filter(|_| !table.intervals.is_empty()) {
        table.intervals.join(id);
    }
    draft.identity = identity(draft.id().unwrap_or_default(), draft.visit());
    draft
}

impl Draft {
    /// Reads the cells whose unit goes by the type of well once more, where the type was taken from the row above.
    pub(super) fn read_by_type(&mut self) {
        let table = Arc::clone(&self.table);
        for (field, slot) in &table.order {
            let Some(feed) = table.plan.feeds[*field as usize].as_ref().filter(|feed| !feed.unit_of_type.is_empty())
            else {
                continue;
            };
            let slot = usize::from(*slot);
            let text = trim(self.rows.cell(self.row, feed.column)).to_owned();
            let unit = self.unit_for_type(*field, feed);
            if text.is_empty() || is_ditto(&text) || unit.is_none() || self.data[slot] != Datum::Unread {
                continue;
            }
            self.findings.retain(|finding| {
                finding.place.column.as_ref().is_none_or(|column| column.number as usize != feed.column + 1)
            });
            let unit = ColumnUnit { unit, stated: true };
            let kind = self.rows.kind(self.row, feed.column);
            let understood = table.cells.read(*field, &text, kind, unit, table.comma);
            self.take((*field, slot), feed, (&text, true), &understood, (unit.unit, None));
        }
    }

    /// Says which cells hold something in columns that may be what a dose rests on, and are not read.
    fn say_open(&mut self) {
        for (column, field) in &self.table.plan.open {
            let text = trim(self.rows.cell(self.row, *column));
            if !text.is_empty() && !self.table.cells.says_nothing(*field, text) {
                let place = Place::cell(self.origin(), self.row(), &self.table.plan.columns[*column]);
                let says = format!("this may be the {}, and is not read", field.name().replace('_', " "));
                let help = "say what the column is: [inventory.columns]";
                self.findings.push(Finding::new(catalogue::OPEN_COLUMN_FILLED, place, says, help).seen(text));
            }
        }
        self.other_width();
    }

    /// Remembers the unit of a cell, where it is not its column's.
    fn read_in(&mut self, field: Field, used: &'static Unit, column: Option<&'static Unit>) {
        // Every unit stands in one table: the same unit is the same place.
        if column.is_none_or(|column| !std::ptr::eq(column, used)) {
            self.own_units.push((field, used));
        }
    }

    /// Takes what was understood of a cell whose bare numbers are in `unit`; whose well it is about is added when the whole row
    /// is read.
    pub(super) fn take(
        &mut self,
        (field, slot): (Field, usize),
        feed: &Feed,
        (typed, whole): (&str, bool),
        understood: &Understood,
        (unit, counted_as): (Option<&'static Unit>, Option<&'static Species>),
    ) {
        self.data[slot] = match understood.datum {
            // A cell that says its own shape, as `4 x 6 ft`, is a diameter already, and so is `6 in` among gallons in a foot.
            Datum::Number(si)
                if understood.said.is_none()
                    && !(understood.unit_written && matches!(feed.shape, Shape::Storage(_))) =>
            {
                Datum::Number(feed.shape.diameter(counted(si, counted_as)))
            }
            Datum::Number(si) => Datum::Number(counted(si, counted_as)),
            datum => datum,
        };
        if let (Datum::Number(_), Some(used)) = (understood.datum, understood.unit.or(unit)) {
            self.read_in(field, used, feed.unit);
        }
        if let Some((low, high)) = understood.spread {
            self.spreads.push((field, counted(low, counted_as), counted(high, counted_as)));
        }
        if let Some(said) = &understood.said {
            self.keep_said(field, (**said).clone());
        }
        for remark in &understood.remarks {
            let place = Place::cell(self.origin(), self.row(), &self.table.plan.columns[feed.column]);
            let finding = Finding::new(remark.code, place, remark.says.clone(), remark.help.clone()).seen(typed);
            self.findings.push(finding.suggesting(remark.suggested.clone().filter(|_| whole)));
        }
    }
}
