//! Cells of the treatments table while a batch is worked on.

use std::collections::HashMap;

use super::Plan;
use crate::caution::Cautions;
use crate::kernel::requirement::Requirement;
use crate::ledger::{self, CaseLabel, Get};
use crate::table::{BatchColumn, ColumnCells, TableBatch, Varies};
use crate::visit::Visit;

/// The ledger's columns of requirements, filled row by row while a requirement is at hand: going through all requirements
/// once for every column would fetch each of them from memory a few dozen times.
pub(super) struct NeedCells {
    pub(super) numbers: Vec<Vec<f64>>,
    pub(super) texts: Vec<Vec<&'static str>>,
    pub(super) cautions: Vec<Cautions>,
}

impl NeedCells {
    pub(super) fn new(rows: usize) -> Self {
        let count =
            |is_counted: fn(&Get) -> bool| ledger::COLUMNS.iter().filter(|column| is_counted(&column.get)).count();
        let numbers = count(|get| matches!(get, Get::NeedNumber(_)));
        let texts = count(|get| matches!(get, Get::NeedText(_)));
        Self {
            numbers: (0..numbers).map(|_| Vec::with_capacity(rows)).collect(),
            texts: (0..texts).map(|_| Vec::with_capacity(rows)).collect(),
            cautions: Vec::with_capacity(rows),
        }
    }

    pub(super) fn push(&mut self, need: &Requirement) {
        let (mut number, mut text) = (0, 0);
        for column in ledger::COLUMNS {
            match column.get {
                Get::NeedNumber(get) => {
                    self.numbers[number].push(get(need));
                    number += 1;
                }
                Get::NeedText(get) => {
                    self.texts[text].push(get(need));
                    text += 1;
                }
                _ => {}
            }
        }
        self.cautions.push(need.cautions);
    }

    /// A row that is held back.
    pub(super) fn push_none(&mut self) {
        self.numbers.iter_mut().for_each(|cells| cells.push(f64::NAN));
        self.texts.iter_mut().for_each(|cells| cells.push(""));
        self.cautions.push(Cautions::default());
    }
}

/// Words of each set of cautions that occurs in a batch, made once.
pub(super) struct CautionWords(HashMap<u64, String>);

impl CautionWords {
    pub(super) fn of(cells: Option<&NeedCells>) -> Self {
        let mut words = HashMap::new();
        let mut last = None;
        for cautions in cells.map_or(&[][..], |cells| &cells.cautions) {
            if last != Some(*cautions) {
                words.entry(cautions.bits()).or_insert_with(|| cautions.words());
                last = Some(*cautions);
            }
        }
        Self(words)
    }

    pub(super) fn get(&self, cautions: Cautions) -> &str {
        self.0.get(&cautions.bits()).map(String::as_str).unwrap_or_default()
    }
}

impl Plan<'_> {
    /// The treatments of a batch: blocks of one visit, a row for each scenario.
    pub(super) fn table_batch<'b>(
        &'b self,
        visits: &'b [Visit],
        mut need_cells: NeedCells,
        words: &'b CautionWords,
    ) -> TableBatch<'b> {
        let labels: Vec<CaseLabel<'b>> = self.labels().collect();
        let all_planned = visits.iter().all(|visit| visit.well().is_some());
        let mut numbers = std::mem::take(&mut need_cells.numbers).into_iter();
        let mut texts = std::mem::take(&mut need_cells.texts).into_iter();
        let own = ledger::COLUMNS.iter().map(|column| match column.get {
            Get::CaseText(get) => {
                BatchColumn { varies: Varies::Place, cells: ColumnCells::Text(labels.iter().map(get).collect()) }
            }
            Get::CaseNumber(get) if all_planned => {
                BatchColumn { varies: Varies::Place, cells: ColumnCells::Number(labels.iter().map(get).collect()) }
            }
            // A figure is not shown beside a row that is held back, so it differs between the rows of a scenario.
            Get::CaseNumber(get) => BatchColumn {
                varies: Varies::Row,
                cells: ColumnCells::Number(
                    visits
                        .iter()
                        .flat_map(|visit| {
                            labels.iter().map(move |label| if visit.well().is_some() { get(label) } else { f64::NAN })
                        })
                        .collect(),
                ),
            },
            Get::VisitText(get) => {
                BatchColumn { varies: Varies::Block, cells: ColumnCells::Text(visits.iter().map(get).collect()) }
            }
            Get::VisitNumber(get) => {
                BatchColumn { varies: Varies::Block, cells: ColumnCells::Number(visits.iter().map(get).collect()) }
            }
            Get::NeedText(_) => {
                BatchColumn { varies: Varies::Row, cells: ColumnCells::Text(texts.next().unwrap_or_default()) }
            }
            Get::NeedNumber(_) => {
                BatchColumn { varies: Varies::Row, cells: ColumnCells::Number(numbers.next().unwrap_or_default()) }
            }
            Get::Cautions => BatchColumn {
                varies: Varies::Row,
                cells: ColumnCells::Text(need_cells.cautions.iter().map(|cautions| words.get(*cautions)).collect()),
            },
        });
        let carried = (0..self.carried.len()).map(|index| {
            let text = |visit: &'b Visit| visit.carried().get(index).map(|text| &**text).unwrap_or_default();
            BatchColumn { varies: Varies::Block, cells: ColumnCells::Text(visits.iter().map(text).collect()) }
        });
        TableBatch { columns: own.chain(carried).collect(), blocks: visits.len(), block_rows: labels.len() }
    }
}
