//! What the cells of a row say beside their numbers, and what is worked out from it: in few rows, so kept apart.

use super::super::cell::{Datum, Form, Said};
use super::super::heading;
use super::super::intervals::ListedInterval;
use super::Draft;
use crate::field::{Field, WellType};
use crate::quantity::parse::Reference;

/// Beside a row's numbers.
#[derive(Debug, Clone, Default)]
pub(super) struct Aside {
    said: Vec<(Field, Said)>,
    /// Values of fields that the table has no column for.
    worked_out: Vec<(Field, Datum)>,
    strings: Vec<ListedInterval>,
}

impl Draft {
    fn asides(&mut self) -> &mut Aside {
        self.aside.get_or_insert_default()
    }

    pub(super) fn keep_said(&mut self, field: Field, said: Said) {
        self.asides().said.push((field, said));
    }

    pub(super) fn worked_out(&self, field: Field) -> Datum {
        let found = self.aside.as_ref().and_then(|aside| aside.worked_out.iter().find(|(of, _)| *of == field));
        found.map_or(Datum::Missing, |(_, datum)| *datum)
    }

    pub(super) fn work_out(&mut self, field: Field, datum: Datum) {
        let worked_out = &mut self.asides().worked_out;
        worked_out.retain(|(of, _)| *of != field);
        worked_out.push((field, datum));
    }

    /// Whether a person repaired the field's cell: what a remark says of it was known then, and is settled.
    pub(super) fn is_repaired(&self, field: Field) -> bool {
        self.column(field).is_some_and(|column| self.rows.is_repaired(self.row, column))
    }

    fn said(&self, field: Field) -> impl Iterator<Item = &Said> {
        let said = self.aside.iter().flat_map(|aside| &aside.said);
        said.filter(move |(of, _)| *of == field).map(|(_, said)| said)
    }

    /// What the field's cell says instead of a number.
    pub fn form(&self, field: Field) -> Option<&Form> {
        self.said(field).find_map(|said| said.form.as_ref())
    }

    /// Whether the field's cell gives a range, of which the middle was taken.
    pub fn is_range(&self, field: Field) -> bool {
        self.said(field).any(|said| said.range)
    }

    /// What a depth is counted from, by its own cell before its heading.
    pub fn reference(&self, field: Field) -> Option<Reference> {
        self.reference_in_cell(field).or_else(|| self.reference_in_heading(field))
    }

    /// What a depth is counted from by its own cell, or by the unit beside it.
    pub fn reference_in_cell(&self, field: Field) -> Option<Reference> {
        self.said(field).find_map(|said| said.from)
    }

    /// What a depth is counted from by the heading of its column.
    pub fn reference_in_heading(&self, field: Field) -> Option<Reference> {
        let feed = self.table.plan.feeds[field as usize].as_ref().filter(|feed| !feed.barred)?;
        let feed = self.fed_by(field, feed);
        let of_type = |(of, datum): &(WellType, _)| (self.type_of_row() == Some(*of)).then_some(*datum);
        feed.datum_of_type.iter().find_map(of_type).or(feed.datum).map(heading::Datum::reference)
    }

    /// Counts a depth of this row from somewhere else than its cell or its column says.
    pub fn set_reference(&mut self, field: Field, from: Reference) {
        self.asides().said.insert(0, (field, Said { from: Some(from), ..Said::default() }));
    }

    /// Puts another form in the place of the one that a cell gave.
    pub(super) fn replace_form(&mut self, field: Field, form: Form) {
        self.asides().said.insert(0, (field, Said { form: Some(form), ..Said::default() }));
    }

    /// Says what a cell would say instead of one number.
    pub(super) fn set_form(&mut self, field: Field, form: Form) {
        self.keep_said(field, Said { form: Some(form), ..Said::default() });
    }

    /// Gives a number its lowest and highest SI value.
    pub fn set_spread(&mut self, field: Field, low: f64, high: f64) {
        self.spreads.retain(|(of, ..)| *of != field);
        self.spreads.push((field, low, high));
    }

    /// Marks a value that cannot be used; a finding says why.
    pub fn refuse(&mut self, field: Field) {
        self.set(field, Datum::Unread);
    }

    /// Takes strings of casing that a cell of this row gives, instead of those of a table beside the list.
    pub fn set_strings(&mut self, strings: Vec<ListedInterval>) {
        self.asides().strings = strings;
    }

    pub(super) fn strings(&self) -> &[ListedInterval] {
        self.aside.as_ref().map_or(&[], |aside| aside.strings.as_slice())
    }
}
