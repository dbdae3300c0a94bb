//! Rows of the tables while a batch is worked on: each column as wide as what it varies with.

use std::collections::HashMap;

use foldhash::fast::FixedState;

use super::{Plan, TableColumn};
use crate::caution::Cautions;
use crate::ledger::{CaseLabel, Get, Width};
use crate::table::{BatchColumn, ColumnCells, Groups, TableBatch, Varies};
use crate::visit::{Need, Visit};

/// Cells of one column.
struct Filled<T> {
    get: fn(&Need) -> T,
    width: Width,
    cells: Vec<T>,
}

/// The columns of requirements, filled row by row while a requirement is at hand: going through all requirements once for
/// every column would fetch each of them from memory a few dozen times. In the order of the table's columns.
pub(super) struct NeedCells {
    numbers: Vec<Filled<f64>>,
    texts: Vec<Filled<&'static str>>,
    cautions: Option<Vec<Cautions>>,
    /// Whether each case is the first of its group.
    is_first: Vec<bool>,
}

impl NeedCells {
    pub(super) fn new(columns: &[TableColumn], visits: usize, groups: &Groups, cases: usize) -> Self {
        let room = |width| match width {
            Width::Visit => visits,
            Width::Practice => visits * groups.count(),
            Width::Product => visits * cases,
        };
        let mut made = Self {
            numbers: Vec::new(),
            texts: Vec::new(),
            cautions: None,
            is_first: (0..cases).map(|case| groups.is_first(case)).collect(),
        };
        for column in columns {
            let TableColumn::Ledger(column) = column else { continue };
            let (width, room) = (column.width, room(column.width));
            match column.get {
                Get::NeedNumber(get) => made.numbers.push(Filled { get, width, cells: Vec::with_capacity(room) }),
                Get::NeedText(get) => made.texts.push(Filled { get, width, cells: Vec::with_capacity(room) }),
                Get::Cautions => made.cautions = Some(Vec::with_capacity(room)),
                _ => {}
            }
        }
        made
    }

    /// What a visit needs in a case.
    pub(super) fn push(&mut self, need: &Need, case: usize) {
        let is_first = self.is_first[case];
        let is_due = |width| match width {
            Width::Product => true,
            Width::Practice => is_first,
            Width::Visit => case == 0,
        };
        for column in self.numbers.iter_mut().filter(|column| is_due(column.width)) {
            column.cells.push((column.get)(need));
        }
        for column in self.texts.iter_mut().filter(|column| is_due(column.width)) {
            column.cells.push((column.get)(need));
        }
        if let Some(cautions) = &mut self.cautions {
            cautions.push(need.cautions);
        }
    }

    /// A visit that is not planned, in every case.
    pub(super) fn push_none(&mut self) {
        let cases = self.is_first.len();
        let groups = self.is_first.iter().filter(|first| **first).count();
        let rows = |width| match width {
            Width::Product => cases,
            Width::Practice => groups,
            Width::Visit => 1,
        };
        for column in &mut self.numbers {
            column.cells.extend(std::iter::repeat_n(f64::NAN, rows(column.width)));
        }
        for column in &mut self.texts {
            column.cells.extend(std::iter::repeat_n("", rows(column.width)));
        }
        if let Some(column) = &mut self.cautions {
            column.extend(std::iter::repeat_n(Cautions::default(), cases));
        }
    }
}

/// Words of each set of cautions that occurs in a batch, made once.
pub(super) struct CautionWords(HashMap<u64, String, FixedState>);

impl CautionWords {
    pub(super) fn of(cells: Option<&NeedCells>) -> Self {
        let mut words = HashMap::default();
        let mut last = None;
        for cautions in cells.and_then(|cells| cells.cautions.as_deref()).unwrap_or_default() {
            if last != Some(*cautions) {
                words.entry(cautions.bits()).or_insert_with(|| cautions.words());
                last = Some(*cautions);
            }
        }
        Self(words)
    }

    fn get(&self, cautions: Cautions) -> &str {
        self.0.get(&cautions.bits()).map(String::as_str).unwrap_or_default()
    }
}

/// Cells of the visits for a column, where it is of visits: of the ledger, or carried along.
fn of_visits<'b>(column: &TableColumn, visits: &'b [Visit]) -> Option<ColumnCells<'b>> {
    match *column {
        TableColumn::Ledger(column) => column.of_visits(visits),
        TableColumn::Carried(at) => {
            let text = |visit: &'b Visit| visit.carried().get(at).map(|text| &**text).unwrap_or_default();
            Some(ColumnCells::Text(visits.iter().map(text).collect()))
        }
    }
}

/// The visits of a batch, a row each; only columns of visits can be in it.
pub(super) fn visits_batch<'b>(columns: &[TableColumn], visits: &'b [Visit]) -> TableBatch<'b> {
    let cells = columns.iter().filter_map(|column| of_visits(column, visits));
    TableBatch {
        columns: cells.map(|cells| BatchColumn { varies: Varies::Row, cells }).collect(),
        blocks: visits.len(),
        block_rows: 1,
        groups: Groups::default(),
    }
}

impl Plan<'_> {
    /// The treatments of a batch: blocks of one visit, a row for each scenario.
    pub(super) fn treatments_batch<'b>(
        &'b self,
        columns: &[TableColumn],
        visits: &'b [Visit],
        need_cells: NeedCells,
        words: &'b CautionWords,
        groups: Groups,
    ) -> TableBatch<'b> {
        let labels: Vec<CaseLabel<'b>> = self.labels().collect();
        let all_planned = visits.iter().all(|visit| visit.well().is_some());
        let mut numbers = need_cells.numbers.into_iter();
        let mut texts = need_cells.texts.into_iter();
        let mut cautions = need_cells.cautions;
        let varies = |width| match width {
            Width::Visit => Varies::Block,
            Width::Practice => Varies::Group,
            Width::Product => Varies::Row,
        };
        let made = columns.iter().map(|column| {
            if let Some(cells) = of_visits(column, visits) {
                return BatchColumn { varies: Varies::Block, cells };
            }
            let TableColumn::Ledger(column) = column else {
                return BatchColumn { varies: Varies::Block, cells: ColumnCells::Text(vec![""; visits.len()]) };
            };
            match column.get {
                Get::CaseText(get) => {
                    BatchColumn { varies: Varies::Place, cells: ColumnCells::Text(labels.iter().map(get).collect()) }
                }
                Get::CaseNumber(get) if all_planned => {
                    BatchColumn { varies: Varies::Place, cells: ColumnCells::Number(labels.iter().map(get).collect()) }
                }
                // A figure is not shown beside a row that is held back, so it differs between the rows of a scenario.
                Get::CaseNumber(get) => {
                    let of = |visit: &Visit, label| if visit.well().is_some() { get(label) } else { f64::NAN };
                    let rows = visits.iter().flat_map(|visit| labels.iter().map(move |label| of(visit, label)));
                    BatchColumn { varies: Varies::Row, cells: ColumnCells::Number(rows.collect()) }
                }
                Get::NeedText(_) => {
                    let cells = texts.next().map(|column| column.cells).unwrap_or_default();
                    BatchColumn { varies: varies(column.width), cells: ColumnCells::Text(cells) }
                }
                Get::Cautions => {
                    let cells = cautions.take().unwrap_or_default();
                    let cells = cells.into_iter().map(|cautions| words.get(cautions)).collect();
                    BatchColumn { varies: Varies::Row, cells: ColumnCells::Text(cells) }
                }
                _ => {
                    let cells = numbers.next().map(|column| column.cells).unwrap_or_default();
                    BatchColumn { varies: varies(column.width), cells: ColumnCells::Number(cells) }
                }
            }
        });
        TableBatch { columns: made.collect(), blocks: visits.len(), block_rows: labels.len(), groups }
    }
}
