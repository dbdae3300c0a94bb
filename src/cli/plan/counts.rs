//! How many rows a run read, by what became of them.

use serde::Serialize;

use crate::engine::{Plan, Run};
use crate::schedule::Schedule;

/// How many rows a run read, and what became of them.
#[derive(Serialize)]
pub(super) struct Counts {
    /// Rows that were read, of every kind.
    rows_read: u64,
    /// Visits that are planned.
    visits_planned: u64,
    /// Visits that are held back, for which nothing is computed.
    visits_held_back: u64,
    /// Visits that a rule of the campaign leaves out.
    visits_excluded: u64,
    /// Planned visits that no crew has a day for; only where crews are stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    visits_without_day: Option<u64>,
    /// Rows that are no wells.
    rows_not_wells: u64,
}

impl Counts {
    pub(super) fn of(plan: &Plan<'_>, run: &Run) -> Self {
        Self {
            rows_read: run.read,
            visits_planned: run.planned,
            visits_held_back: run.held_back,
            visits_excluded: run.excluded,
            visits_without_day: plan.schedule.as_ref().map(Schedule::left),
            rows_not_wells: run.other_rows.count(),
        }
    }
}
