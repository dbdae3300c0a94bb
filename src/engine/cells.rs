//! Cells of the treatments table while a batch is worked on.

use std::collections::HashMap;

use crate::caution::Cautions;
use crate::kernel::requirement::Requirement;
use crate::ledger::{self, Get};

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
