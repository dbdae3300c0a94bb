//! Cells that are codes, and choices that are ticks: what a row says in a list that explains its codes, or asks with columns.

use super::super::cell::{Datum, Understood};
use super::super::columns::follow_up::is_other;
use super::super::columns::{Feed, Plan};
use super::super::legend::Coded;
use super::super::lexicon::Language;
use super::super::multiple_choice::Question;
use super::super::rows::CellKind;
use super::super::table::Opened;
use super::{Draft, Table, trim};
use crate::field::{FIELDS, Field, Kind};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};

fn sheet(origin: &Origin) -> &str {
    origin.sheet.as_deref().unwrap_or_default()
}

/// The fields of a table whose column has codes that its file explains, as bits; what the lists of codes say is said once.
pub fn coded(table: &Opened, plan: &Plan, findings: &mut Vec<Finding>) -> u64 {
    if table.legend.is_empty() {
        return 0;
    }
    let sheet = sheet(&table.origin);
    let heading = |field: Field| {
        let feed = plan.feeds.get(field as usize)?.as_ref().filter(|feed| !feed.barred)?;
        plan.columns.get(feed.column).map(|column| &*column.heading)
    };
    let fed = || FIELDS.iter().filter_map(|definition| Some((definition.field, heading(definition.field)?)));
    for explained in table.legend.explained() {
        let concerns = explained
            .heading
            .as_ref()
            .is_none_or(|wanted| fed().any(|(_, heading)| table.legend.is_of(sheet, heading, wanted)));
        // A list beside the table of another sheet counts there.
        let here = explained.sheet == sheet || table.legend.is_legend_sheet(&explained.sheet);
        if concerns && here {
            let place = Place::whole(&table.origin);
            let help = "no action needed if the list is right and belongs to that column";
            findings.push(Finding::new(catalogue::CODE_LIST_READ, place, explained.says(), help));
        }
    }
    fed()
        .filter(|(_, heading)| table.legend.concerns(sheet, heading))
        .fold(0, |bits, (field, _)| bits | 1 << field as u64)
}

/// An abbreviation that is another word in the language of the list: `PT` is a point, and in Portuguese and Spanish a tube well.
/// From memory.
fn abbreviated<'a>(table: &Table, field: Field, typed: &'a str) -> &'a str {
    let is_tube_well = field == Field::WellType && ["pt", "p.t."].iter().any(|short| typed.eq_ignore_ascii_case(short));
    match table.plan.language {
        Language::Portuguese if is_tube_well => "poço tubular (PT)",
        Language::Spanish if is_tube_well => "pozo tubular (PT)",
        _ => typed,
    }
}

/// What stands in a cell once its code is looked up, with the datum where the code settles it.
pub(super) fn decoded<'a>(table: &'a Table, field: Field, feed: &Feed, typed: &'a str) -> (&'a str, Option<Datum>) {
    if table.coded & 1 << field as u64 == 0 || typed.is_empty() {
        return (abbreviated(table, field, typed), None);
    }
    let heading = table.plan.columns.get(feed.column).map_or("", |column| &column.heading);
    // A word of the trade is what it says; only a code needs to be looked up.
    let is_word = typed.chars().count() > 3 && typed.chars().any(char::is_alphabetic);
    if is_word && matches!(field.definition().kind, Kind::Choice(_)) {
        let read = table.cells.read(field, typed, CellKind::Text, Default::default(), table.comma);
        if matches!(read.datum, Datum::Choice(_)) {
            return (typed, None);
        }
    }
    match table.legend.cell(sheet(&table.origin), field, heading, typed) {
        None => (typed, None),
        Some(Coded::Missing | Coded::ToBottom) => ("", Some(Datum::Missing)),
        // Full to the ground.
        Some(Coded::Flowing) => ("", Some(Datum::Number(0.0))),
        Some(Coded::Text(meaning)) => (meaning, None),
    }
}

impl Draft {
    /// Whether a row ticks nothing of a question and writes its answer out beside the ticks.
    pub(super) fn is_written_out(&self, question: &Question) -> bool {
        let cell = |column: usize| trim(self.rows.cell(self.row, column));
        question.written.is_some_and(|written| !cell(written).is_empty())
            && question.ticked(cell).into_iter().all(is_other)
    }

    /// Reads the ticks of a question whose answers are what a cell would be: a width, a yes.
    fn ticked_cell(&mut self, question: &Question) -> Datum {
        let cell = |column: usize| trim(self.rows.cell(self.row, column));
        let field = question.field;
        let written = question.written.map_or("", cell);
        let (ticked, column) = (question.ticked(cell), question.column(cell));
        let answers: Vec<String> =
            ticked.iter().copied().chain(Some(written).filter(|text| !text.is_empty())).map(str::to_owned).collect();
        let [answer] = answers.as_slice() else {
            if answers.len() > 1
                && let Some(column) = self.table.plan.columns.get(column)
            {
                let place = Place::cell(self.origin(), self.row(), column);
                let says = format!("{} answers are given: {}", answers.len(), answers.join("; "));
                let (code, help) = (catalogue::TWO_READINGS, "leave the one that counts");
                self.findings.push(Finding::new(code, place, says, help).seen(&answers.join("; ")));
                return Datum::Unread;
            }
            return Datum::Missing;
        };
        let Understood { datum, unit, remarks, .. } =
            self.table.cells.read(field, answer, CellKind::Text, Default::default(), self.table.comma);
        if matches!(datum, Datum::Number(_))
            && let Some(unit) = unit
        {
            self.own_units.push((field, unit));
        }
        for remark in remarks.into_iter().filter(|remark| remark.code.severity() != crate::finding::Severity::Note) {
            let Some(column) = self.table.plan.columns.get(column) else { continue };
            let place = Place::cell(self.origin(), self.row(), column);
            self.findings.push(Finding::new(remark.code, place, remark.says, remark.help).seen(answer));
        }
        datum
    }

    /// Reads the ticks of a question.
    pub(super) fn ticked(&mut self, question: &Question) -> Datum {
        if question.is_read_as_cell() {
            return self.ticked_cell(question);
        }
        let cell = |column: usize| trim(self.rows.cell(self.row, column));
        let Understood { datum, remarks, .. } = self.table.cells.meant(question.field, question.read(cell), "");
        let column = question.column(cell);
        let typed = question.ticked(cell).join("; ");
        for remark in remarks {
            let Some(column) = self.table.plan.columns.get(column) else { continue };
            let place = Place::cell(self.origin(), self.row(), column);
            self.findings.push(Finding::new(remark.code, place, remark.says, remark.help).seen(&typed));
        }
        datum
    }

    /// What a code in a column of words means, where the file explains it.
    pub(super) fn meant(&self, column: usize, code: &str) -> Option<&str> {
        if self.table.legend.is_empty() || code.is_empty() {
            return None;
        }
        let heading = &self.table.plan.columns.get(column)?.heading;
        let sheet = sheet(self.origin());
        if code.len() > 12 {
            return self.table.legend.defined(sheet, heading, code);
        }
        self.table.legend.meaning(sheet, heading, code)
    }

    /// Whether the row explains codes.
    pub(super) fn is_legend(&self) -> bool {
        self.table.legend.is_legend_row(sheet(self.origin()), self.row())
    }
}
