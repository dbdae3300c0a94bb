//! From the rows of a table to drafts: every cell read by the plan, and what is wrong with the row as a row.

use std::sync::Arc;

use compact_str::CompactString;

use super::super::cell::{ColumnUnit, Datum, Form, Known, Said, Understood, is_aside, quick_number, same_family};
use super::super::columns::{Feed, Plan, feet_and_inches, is_diameter, unlettered};
use super::super::description;
use super::super::ditto::is_ditto;
use super::super::heading::Datum as CountedFrom;
use super::super::lexicon;
use super::super::rows::{CellKind, Damage, LONGEST_CELL, Rows};
use super::super::unit_columns::{self, Qualifier, UnitWritten};
use super::coded::decoded;
use super::fed::without_pumped;
use super::{Draft, Table};
use crate::field::rules::UnitSystem;
use crate::field::species::{self, Species, counted};
use crate::field::{FIELD_COUNT, Field, Kind};
use crate::finding::{Code, Finding, Words, catalogue};
use crate::inventory::identity::identity;
use crate::inventory::rows::trim;
use crate::place::Place;
use crate::quantity::format::quantity;
use crate::quantity::parse::{Reference, plain};
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

fn draft<'a>(table: &'a Arc<Table>, rows: &'a Arc<Rows>, row: usize, has_ids: bool, known: &mut Known<'a>) -> Draft {
    let mut draft = Draft {
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
        no_well: None,
        aside: None,
        findings: Vec::new(),
    };
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
                let understood = match (Qualifier::of(qualifier), rewritten(feed, bare)) {
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
                draft.data[slot] = match understood.datum {
                    // A cell that says its own shape, as `4 x 6 ft`, is a diameter already.
                    Datum::Number(si) if understood.said.is_none() => {
                        Datum::Number(feed.shape.diameter(counted(si, counted_as)))
                    }
                    Datum::Number(si) => Datum::Number(counted(si, counted_as)),
                    datum => datum,
                };
                if let (Datum::Number(_), Some(used)) = (understood.datum, understood.unit.or(unit.unit)) {
                    draft.read_in(field, used, feed.unit);
                }
                let said = draft.findings.len();
                // What was read is what was typed, so a suggestion may stand in its place.
                let whole = bare.len() == typed.len() && qualifier.is_empty();
                draft.take(field, feed, (typed, whole), understood, counted_as);
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
    for (column, field) in &table.plan.open {
        let text = trim(rows.cell(row, *column));
        if !text.is_empty() && !table.cells.says_nothing(*field, text) {
            let place = Place::cell(draft.origin(), draft.row(), &table.plan.columns[*column]);
            let says = format!("this may be the {}, and is not read", field.name().replace('_', " "));
            let help = "say what the column is: [inventory.columns]";
            draft.findings.push(Finding::new(catalogue::OPEN_COLUMN_FILLED, place, says, help).seen(text));
        }
    }
    draft.row_damage(has_ids);
    draft.judge();
    if let Some(id) = draft.id().filter(|_| !table.intervals.is_empty()) {
        table.intervals.join(id);
    }
    draft.identity = identity(draft.id().unwrap_or_default(), draft.visit());
    draft
}

/// `24-6` as `24 ft 6 in`, where hyphens join feet and inches in the column.
fn unhyphened(feed: &Feed, text: &str) -> Option<String> {
    let (feet, inches) = feed.feet_hyphen_inches.then(|| feet_and_inches(text)).flatten()?;
    Some(format!("{feet} ft {inches} in"))
}

/// A cell in the words that the reader of sizes knows, where the list writes in its own way.
fn rewritten(feed: &Feed, text: &str) -> Option<String> {
    let lettered = || unlettered(text).filter(|_| feed.lettered).map(str::to_owned);
    unhyphened(feed, text).or_else(|| above(feed, text)).or_else(lettered)
}

/// `4,10 d/b` without the mark that a note explains, and what it says.
fn marked<'a>(feed: &Feed, text: &'a str) -> Option<(&'a str, CountedFrom)> {
    let plain = text.trim_end_matches(')');
    feed.level.marks.iter().find_map(|(mark, datum)| {
        let start = plain.len().checked_sub(mark.len())?;
        let ends = plain.get(start..).is_some_and(|end| end.eq_ignore_ascii_case(mark));
        ends.then(|| (plain[..start].trim_end_matches([' ', '(']), *datum))
    })
}

/// `+2.5` as so much above what the level is counted from, where the list says that this is what a plus sign means.
fn above(feed: &Feed, text: &str) -> Option<String> {
    let number = text.strip_prefix('+').filter(|_| feed.level.plus_is_above)?.trim();
    plain(number).is_some().then(|| format!("-{number}"))
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
    /// Reads the cells whose unit goes by the type of well once more, where the type was taken from the row above.
    pub(super) fn read_by_type(&mut self) {
        let table = Arc::clone(&self.table);
        for (field, slot) in &table.order {
            let Some(feed) = table.plan.feeds[*field as usize].as_ref().filter(|feed| !feed.unit_of_type.is_empty())
            else {
                continue;
            };
            let text = trim(self.rows.cell(self.row, feed.column)).to_owned();
            let unit = self.unit_for_type(*field, feed);
            if text.is_empty() || is_ditto(&text) || unit.is_none() || self.data[usize::from(*slot)] != Datum::Unread {
                continue;
            }
            self.findings.retain(|finding| {
                finding.place.column.as_ref().is_none_or(|column| column.number as usize != feed.column + 1)
            });
            let unit = ColumnUnit { unit, stated: true };
            let kind = self.rows.kind(self.row, feed.column);
            let understood = table.cells.read(*field, &text, kind, unit, table.comma);
            self.data[usize::from(*slot)] = match understood.datum {
                Datum::Number(si) if understood.said.is_none() => Datum::Number(feed.shape.diameter(si)),
                datum => datum,
            };
            if let (Datum::Number(_), Some(used)) = (understood.datum, understood.unit.or(unit.unit)) {
                self.read_in(*field, used, feed.unit);
            }
            self.take(*field, feed, (&text, true), &understood, None);
        }
    }

    /// Remembers the unit of a cell, where it is not its column's.
    fn read_in(&mut self, field: Field, used: &'static Unit, column: Option<&'static Unit>) {
        // Every unit stands in one table: the same unit is the same place.
        if column.is_none_or(|column| !std::ptr::eq(column, used)) {
            self.own_units.push((field, used));
        }
    }

    /// Takes what was understood of a cell; whose well it is about is added when the whole row is read.
    fn take(
        &mut self,
        field: Field,
        feed: &Feed,
        (typed, whole): (&str, bool),
        understood: &Understood,
        counted_as: Option<&'static Species>,
    ) {
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

    /// Shows the sign beside a value with what was said because of it, from the finding `said` on; a word that is not a sign
    /// that is known is said too.
    fn qualified(&mut self, field: Field, feed: &Feed, qualifier: &str, said: usize) {
        let Some(column) = feed.qualifier_column.and_then(|at| self.table.plan.columns.get(at)) else { return };
        if qualifier.is_empty() || self.table.cells.is_missing(qualifier) && Qualifier::of(qualifier).is_none() {
            return;
        }
        let place = Place::cell(self.origin(), self.row(), column);
        let beside = (place, format!("{} = \"{qualifier}\"", column.heading).into());
        if Qualifier::of(qualifier).is_none() && self.number(field).is_some() {
            let says = format!("\"{qualifier}\", beside it, is not a recognized sign; the number is read as it stands");
            self.say(catalogue::REMARK_AFTER_NUMBER, field, says, "no action needed if correct");
        }
        for finding in &mut self.findings[said..] {
            finding.related.push(beside.clone());
        }
    }

    /// What a unit beside a value changes of what the heading says.
    fn unit_beside(&mut self, field: Field, feed: &Feed, beside: &UnitWritten) {
        if let Some(column) = feed.unit.filter(|column| feed.unit_in_heading && !same_family(column, beside.unit))
            && !std::ptr::eq(column, beside.unit)
        {
            let says = format!(
                "the unit beside it says {}, the heading {}; the one beside it counts",
                beside.unit.symbol, column.symbol
            );
            self.say(catalogue::UNIT_DIFFERS_FROM_COLUMN, field, says, "no action needed if correct");
        }
        if beside.from_top && field == Field::StaticWaterLevel {
            self.keep_said(field, Said { from: Some(Reference::Top), ..Said::default() });
        }
    }

    /// A unit beside a value that cannot be read; what has no part in the dose does not keep a well from being treated.
    fn unit_beside_unread(&mut self, slot: usize, field: Field, code: Code, says: &str) {
        if is_aside(field) {
            let says = format!("{says}; {} is left blank", field.name());
            let help = "write the unit in other words, or leave the cells blank";
            self.say(catalogue::ASIDE_NOT_UNDERSTOOD, field, says, help);
            return;
        }
        self.data[slot] = Datum::Unread;
        self.say(code, field, says.to_owned(), "write the unit as in ft, m, in, mm");
    }

    fn say_counted_as(&mut self, field: Field, species: &'static Species, column: Option<&'static Species>) {
        let converts = |species: &Species| species.factor != 1.0;
        if let (Some(si), true) = (self.number(field), converts(species) || column.is_some_and(converts)) {
            let read = self.shown_unit(field).map_or_else(String::new, |unit| quantity(si, unit, 4));
            let says = format!("counted as {}; read as {read} as {}", species.symbol, species.of_field());
            self.say(catalogue::SPECIES_CONVERTED, field, says, "no action needed if correct");
        }
    }

    fn row_damage(&mut self, has_ids: bool) {
        let row = self.row();
        let mut found: Vec<(Code, Words, &'static str)> = Vec::new();
        for damage in self.rows.damages(self.row) {
            found.push(match damage {
                Damage::UnclosedQuote => (
                    catalogue::UNCLOSED_QUOTE,
                    "a quotation mark opens a cell and is never closed; the cells of this row may be cut wrongly"
                        .into(),
                    "take the mark out, or double it and close the cell",
                ),
                Damage::TooLong => (
                    catalogue::CELL_TOO_LONG,
                    format!("a cell of this row has more than {LONGEST_CELL} letters, or the row is longer still; the cell is left out")
                        .into(),
                    "shorten the cell, or look for a quotation mark that is not closed",
                ),
                Damage::ForeignBytes => (
                    catalogue::FOREIGN_BYTES,
                    "some bytes are not UTF-8; the row was read as Windows-1252".into(),
                    "save the file as UTF-8",
                ),
            });
        }
        let described = self.table.plan.described;
        let columns = described.map_or(self.table.plan.columns.len(), |described| described.first);
        let cut = described.is_some_and(|described| described.was_cut(&self.rows, self.row));
        let width = if cut { columns } else { self.rows.width(self.row) };
        if width > columns {
            let filled = (columns..width).filter(|column| !self.rows.cell(self.row, *column).trim().is_empty()).count();
            if filled > 0 {
                found.push((
                    catalogue::ROW_TOO_LONG,
                    format!(
                        "{width} cells under {columns} headings; a cell with the delimiter in it may have been cut"
                    )
                    .into(),
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
                    format!("{width} cells under {columns} headings; the missing ones are read as blank").into(),
                    "check that no cell was lost on the way",
                ));
            }
        }
        for (code, says, help) in found {
            let finding = Finding::new(code, Place::row(self.origin(), row), says, help).of_well(self.id());
            self.findings.push(finding);
        }
        let ditto = self.column(Field::WellId).is_some_and(|column| self.dittos.contains(&column));
        if has_ids && self.id().is_none() && !ditto {
            self.say(
                catalogue::NO_ID,
                Field::WellId,
                "this row has no id",
                "give it one, or take the row out if it is a total or a remark",
            );
        }
        // Findings of cells left of the id were made before it was known.
        if self.findings.iter().any(|finding| finding.well.is_none())
            && let Some(id) = self.id().map(CompactString::from)
        {
            for finding in &mut self.findings {
                finding.well.get_or_insert_with(|| id.clone());
            }
        }
    }
}
