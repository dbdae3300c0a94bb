//! Counts of packages in a plan's workbook that a person changed: with all others of their need they are what is ordered from then
//! on, in place of what covers it at least cost; a need whose counts were all emptied is covered anew.

use super::figures;
use crate::inventory::Rows;
use crate::kernel::neutralizer::Agent;
use crate::place::Column;
use crate::scenario::stated::{At, Document, Stated, Table, Written};

const SHEET: &str = "Packages";
/// Headings of its columns: whose need a line is of, which package, how many.
const HEADS: [&str; 6] = ["Scenario", "Depot", "Item", "Package", "Count", "Count as planned"];

/// A line of the sheet whose need has a count that is no longer that of the plan.
#[derive(Debug)]
pub(super) struct Counted {
    /// Scenario, depot, item, package.
    of: [String; 4],
    typed: String,
    at: At,
}

/// The lines of needs of which a count was changed, in the order of the sheet.
pub(super) fn changed(sheets: &[(String, Rows)]) -> Vec<Counted> {
    let Some((_, rows)) = sheets.iter().find(|(name, _)| name == SHEET) else { return Vec::new() };
    let column = |row: usize, head: &str| (0..rows.width(row)).find(|at| rows.cell(row, *at).trim() == head);
    let heads = (0..rows.len()).find_map(|row| {
        let columns: Option<Vec<usize>> = HEADS.iter().map(|head| column(row, head)).collect();
        Some((row, columns?))
    });
    let Some((head, columns)) = heads else { return Vec::new() };
    let letters = Column { number: columns[4] as u32 + 1, heading: "".into() }.letters();
    let cell = |row: usize, at: usize| rows.cell(row, columns[at]).trim();
    let is_changed = |row: usize| {
        let [typed, planned] = [4, 5].map(|at| cell(row, at));
        match (figures::number(typed), figures::number(planned)) {
            (Ok(typed), Ok(planned)) => typed != planned,
            _ => typed != planned,
        }
    };
    let of = |row: usize| {
        let mut of = [0, 1, 2, 3].map(|at| cell(row, at).to_owned());
        // A neutralizer stands there by what is written on its bag.
        if let Some(agent) = Agent::ALL.into_iter().find(|agent| agent.plain_name() == of[2]) {
            agent.name().clone_into(&mut of[2]);
        }
        of
    };
    let changed: Vec<[String; 4]> = (head + 1..rows.len()).filter(|row| is_changed(*row)).map(of).collect();
    let line = |row: usize| {
        let cell = format!("{letters}{}", rows.number(row));
        let typed = rows.cell(row, columns[4]).trim().to_owned();
        Counted { of: of(row), at: At::Cell { sheet: SHEET.to_owned(), cell, typed: typed.clone() }, typed }
    };
    let is_of = |row: &usize| changed.iter().any(|need| need[..3] == of(*row)[..3]);
    (head + 1..rows.len()).filter(is_of).map(line).collect()
}

/// States the counts of every need of which one was changed; what is no count is noted with its cell.
pub(super) fn apply(counted: &[Counted], document: &Document<'_>, whole: &mut Table) {
    let mut at = 0;
    while at < counted.len() {
        let need = &counted[at].of[..3];
        let length = counted[at..].iter().take_while(|line| line.of[..3] == *need).count();
        let lines = &counted[at..at + length];
        forget(whole, need);
        if lines.iter().any(|line| !line.typed.is_empty()) {
            // The only kind of an item needs no name: what it holds may have been changed as well.
            lines.iter().for_each(|line| line.state(length > 1, document, whole));
        }
        at += length;
    }
}

/// Takes out what was stated of the counts of a need.
fn forget(whole: &mut Table, need: &[String]) {
    let Some(entry) = whole.entries.iter_mut().find(|entry| entry.key == "buy") else { return };
    let Written::List(list) = &mut entry.stated.value else { return };
    let says = |stated: &Stated, key: &str, wanted: &str| {
        let text = stated.value.table().and_then(|table| table.get(key)).and_then(|stated| stated.value.text());
        crate::field::names::is_same(text.unwrap_or_default(), wanted)
    };
    list.retain(|stated| {
        !["scenario", "depot", "item"].iter().zip(need).all(|(key, wanted)| says(stated, key, wanted))
    });
}

impl Counted {
    fn state(&self, is_named: bool, document: &Document<'_>, whole: &mut Table) {
        let count = match figures::number(&self.typed) {
            Ok(number) if number >= 0.0 && number.fract() == 0.0 => number,
            _ => {
                let reason = "a count of packages is a whole number, 0 or more; with all counts of an item of a depot left empty \
                              they are chosen anew";
                return document.fault(&self.at, reason);
            }
        };
        let mut table = Table::default();
        for (key, text) in ["scenario", "depot", "item", "package"].iter().zip(&self.of) {
            if !text.is_empty() && (is_named || *key != "package") {
                table.put(*key, Written::Text(text.clone()), self.at.clone());
            }
        }
        table.put("count", Written::Number(count), self.at.clone());
        if whole.get("buy").is_none() {
            whole.put("buy", Written::List(Vec::new()), self.at.clone());
        }
        if let Some(Written::List(list)) = super::table_reader::value_mut(whole, "buy") {
            list.push(Stated { value: Written::Table(table), at: self.at.clone() });
        }
    }
}
