//! Columns of one measure on several dates: `DTW 4/22`, `DTW 4/23`; `SWL 2019`, `SWL Oct 2023`; `DTW Fall 24`, `DTW Spr 25`.
//! The latest counts; a level that it lacks is taken from the one before.

use super::evidence::{OPEN, Reading};
use super::feed::is_deciding;
use super::{Planner, map_line};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::dated_heading::{Dated, dated};
use crate::quantity::unit::Dimension;

impl Planner<'_> {
    /// Keeps the latest of several dates of one measure, however the dates are read; where that changes which is the latest, all
    /// are left to be told apart. Gives the levels before the latest, the later first, each with the column of that.
    pub(super) fn latest_of_series(&mut self, readings: &mut Vec<Reading>) -> Vec<(usize, Reading)> {
        let of_length = |reading: &&Reading| {
            let field = reading.named.field;
            let is_length = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
            is_length && is_deciding(field) && reading.score >= OPEN && !reading.by_hand
        };
        let candidates: Vec<(usize, Dated)> = readings
            .iter()
            .filter(of_length)
            .filter_map(|reading| Some((reading.column, dated(&self.table.headings[reading.column])?)))
            .collect();
        let mut earlier: Vec<(usize, usize)> = Vec::new();
        for (column, date) in &candidates {
            let series = || candidates.iter().filter(|(_, other)| other.rest == date.rest);
            let latest = |way: usize| series().max_by_key(|(_, other)| other.keys[way]).map(|(column, _)| *column);
            let (Some(one), Some(other)) = (latest(0), latest(1)) else { continue };
            let apart = series().filter(|(_, other)| other.keys == date.keys).all(|(other, _)| other == column);
            if one == other && one != *column && apart && !earlier.contains(&(*column, one)) {
                earlier.push((*column, one));
            }
        }
        let key = |column: usize| candidates.iter().find(|(of, _)| *of == column).map(|(_, date)| date.keys);
        // Levels of one series, the later first.
        earlier.sort_by_key(|(column, latest)| (*latest, std::cmp::Reverse(key(*column))));
        let mut before: Vec<(usize, Reading)> = Vec::new();
        for (column, latest) in &earlier {
            let is_level = |reading: &&Reading| {
                reading.column == *column && reading.named.field == Field::StaticWaterLevel && !reading.by_hand
            };
            let level = readings.iter().find(is_level);
            let (of, heading) = (&self.table.headings[*column], &self.table.headings[*latest]);
            let use_of_it =
                if level.is_some() { "this one only where that has no level at rest" } else { "this one is not" };
            let says = format!("\"{heading}\" is the later one of the same measure and is read; {use_of_it}");
            let help = format!("no action needed if correct; else {}", map_line(of, "field"));
            before.extend(level.map(|level| (*latest, level.clone())));
            self.say(catalogue::EARLIER_READINGS, Some(*column), says, help);
        }
        readings.retain(|reading| reading.by_hand || earlier.iter().all(|(column, _)| *column != reading.column));
        before
    }
}
