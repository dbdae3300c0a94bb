//! The dates of a visit as planned, counted from the day of its crew: what a crew, a household and a laboratory are told before.

use chrono::{Days, NaiveDate};

use super::job::Job;
use super::rules::{FIRST_SAMPLE_DAYS, SECOND_SAMPLE_DAYS, WORKING_HOURS};
use crate::kernel::requirement::Requirement;
use crate::quantity::unit::DAY_S;

/// Dates of a visit, all as planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Dates {
    pub(super) poured: NaiveDate,
    /// The contact time ends.
    pub(super) hold_end: NaiveDate,
    /// The first sample, not before.
    pub(super) first_sample: NaiveDate,
    pub(super) second_sample: NaiveDate,
}

impl Dates {
    /// Those of a visit whose crew's day has a date.
    pub(super) fn of(job: &Job<'_>) -> Option<Self> {
        let poured = job.turn?.of.date?;
        let after = |days| poured.checked_add_days(Days::new(days));
        let first_sample = days_to_sample(job.need);
        Some(Self {
            poured,
            hold_end: after(days_of_hold(job.need))?,
            first_sample: after(first_sample)?,
            second_sample: after(first_sample + u64::from(SECOND_SAMPLE_DAYS))?,
        })
    }
}

/// Days after which the contact time has ended, whatever the hour of work at which it began.
fn days_of_hold(need: &Requirement) -> u64 {
    (need.hold.value / DAY_S - WORKING_HOURS / 24.0).ceil().max(0.0) as u64
}

/// Days from pouring to the first sample: contact time and flush, and those that stand between flush and sample.
fn days_to_sample(need: &Requirement) -> u64 {
    let out_of_use = need.hold.value + need.flush_time.map_or(0.0, |time| time.value);
    (out_of_use / DAY_S).ceil() as u64 + u64::from(FIRST_SAMPLE_DAYS)
}
