//! Visits with what they need: what a run keeps for whoever writes documents for people.
//!
//! A run hands its first visits on in this form, each with a requirement for every case of the plan, all typed: the Wells
//! sheet, the crew's documents and the formulas of the workbook are made of it. How many are kept is bounded by their number
//! and by their size in memory, so that a list of millions does not end up there.

use super::{Need, Visit};
use crate::well::Record;

/// A visit and what it needs in each case of the plan.
#[derive(Debug)]
pub struct TreatedVisit {
    /// The visit: planned, held back or left out, with its place and what was assumed.
    pub visit: Visit,
    needs: Box<[Need]>,
}

impl TreatedVisit {
    /// A visit with its requirements, one for each case in the plan's order; none where nothing is planned.
    pub fn new(visit: Visit, needs: impl Into<Box<[Need]>>) -> Self {
        Self { visit, needs: needs.into() }
    }

    /// What it needs in a case, by the place of the case in the plan; `None` where nothing is planned.
    pub fn need(&self, case: usize) -> Option<&Need> {
        self.needs.get(case)
    }

    /// Bytes that it takes in memory, about: texts that a list can make long are counted in full.
    pub fn bytes(&self) -> usize {
        let visit = &self.visit;
        let carried: usize = visit.carried().iter().map(|text| text.len()).sum();
        let texts = [visit.id(), visit.region(), visit.depot(), visit.notes(), visit.not_understood(), visit.status()];
        size_of::<Self>()
            + size_of::<Record>()
            + size_of_val(&*self.needs)
            + carried
            + texts.iter().map(|text| text.len()).sum::<usize>()
            + visit.reasons().len()
    }
}
