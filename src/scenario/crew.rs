//! The crews that go out: where each loads, how many visits it makes a day, and from when.
//!
//! Read from the campaign, used by the schedule. Knows nothing of wells.

use std::fmt;

use chrono::{Days, NaiveDate};

use super::section::Section;

/// A day on which a crew goes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkDay {
    /// Of a crew whose first day is stated.
    Date(NaiveDate),
    /// Of another one, counted from 1.
    Number(u32),
}

impl WorkDay {
    /// The day by the calendar, where it is known.
    pub const fn date(self) -> Option<NaiveDate> {
        match self {
            Self::Date(date) => Some(date),
            Self::Number(_) => None,
        }
    }
}

/// As the tables write it: a date, or `day 3`.
impl fmt::Display for WorkDay {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Date(date) => write!(out, "{date}"),
            Self::Number(number) => write!(out, "day {number}"),
        }
    }
}

/// A crew as the campaign states it, with the days on which it goes out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CrewLine {
    /// What it is called.
    pub name: String,
    /// The depot that it loads at; any where it names none.
    pub depot: Option<String>,
    /// Visits that it makes in a day.
    pub visits_per_day: u32,
    /// Its first day; days are counted from 1 where none is stated.
    pub first_day: Option<NaiveDate>,
    /// Days that it goes out; as many as it takes where none are stated.
    pub days: Option<u32>,
    /// Days after the first crew of the campaign that it begins; a crew without a date begins with the first.
    pub begins: u64,
}

impl CrewLine {
    /// One of its days, counted from 1. Nothing beyond its last, or beyond the calendar.
    pub fn day(&self, number: u32) -> Option<WorkDay> {
        if self.days.is_some_and(|days| number > days) {
            return None;
        }
        match self.first_day {
            Some(first) => first.checked_add_days(Days::new(u64::from(number) - 1)).map(WorkDay::Date),
            None => Some(WorkDay::Number(number)),
        }
    }
}

/// Reads every `[[crew]]`; what cannot be followed is noted as a fault.
pub(super) fn read_crews(file: &Section<'_>) -> Vec<CrewLine> {
    let mut names: Vec<String> = Vec::new();
    let read = |line: &Section<'_>| {
        line.finish();
        let name = line.own_name("crew", &mut names);
        if !line.has("visits_per_day") {
            line.fault("[[crew]] needs `visits_per_day`");
        }
        let count = |key| line.number(key).map(|count| count as u32);
        let (visits_per_day, first_day, days) = (count("visits_per_day"), line.date("first_day"), count("days"));
        let depot = line.text("depot").map(|depot| depot.trim().to_owned()).filter(|depot| !depot.is_empty());
        let (name, visits_per_day) = (name?.trim().to_owned(), visits_per_day?);
        Some(CrewLine { name, depot, visits_per_day, first_day, days, begins: 0 })
    };
    let mut crews: Vec<CrewLine> = file.sections("crew").iter().filter_map(read).collect();
    let earliest = crews.iter().filter_map(|crew| crew.first_day).min();
    for crew in &mut crews {
        let after = crew.first_day.zip(earliest).map_or(0, |(first, earliest)| (first - earliest).num_days());
        crew.begins = after.unsigned_abs();
    }
    crews
}
