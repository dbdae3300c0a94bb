//! When a visit is made, and by whom: the day of a crew, and the stop on it.

use std::sync::Arc;

use chrono::NaiveDate;

/// A day of a crew.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CrewDay {
    /// Its place among all crew days, in the order in which they are printed.
    pub place: usize,
    /// Name of the crew, as the campaign states it.
    pub crew: String,
    /// The day, as the tables write it: a date, or `day 3`.
    pub day: String,
    /// Its date, where the crew's first day is stated.
    pub date: Option<NaiveDate>,
    /// Which of the crew's days it is, from 1.
    pub number: u32,
    /// The depot that is loaded at; empty where the lists name none.
    pub depot: String,
    /// How many visits the crew makes that day.
    pub stops: u32,
}

/// The turn of a visit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// The day that it is made on, shared by all visits of that day.
    pub of: Arc<CrewDay>,
    /// The stop on that day, from 1.
    pub stop: u32,
}
