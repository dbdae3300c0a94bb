//! What is said of columns that are not read, and of fields for which there is none.

use std::sync::Arc;

use super::evidence::Reading;
use super::{Feed, Planner, map_line};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::heading;
use crate::place::Place;

impl Planner<'_> {
    pub(super) fn water_depth(&mut self, at: usize) {
        let heading = Arc::clone(&self.columns[at].heading);
        let help = format!(
            "{} if it is measured from the ground down to the water, or {} if it is the height of the water",
            map_line(&heading, "static_water_level"),
            map_line(&heading, "water_column"),
        );
        let says = "this could be the depth to the water or the height of the water; it is not read";
        self.say(catalogue::AMBIGUOUS_WATER_DEPTH, Some(at), says, help);
    }

    pub(super) fn two_columns(&mut self, field: Field, read: &Reading, other: &Reading) {
        let heading = Arc::clone(&self.columns[read.column].heading);
        let written = Arc::clone(&self.columns[other.column].heading);
        let says = format!("this column and \"{heading}\" both name {}; \"{heading}\" is read", field.name());
        let help = format!("to read this one instead: {}", map_line(&written, field.name()));
        let place = Place::cell(&self.table.origin, self.table.heading_row, &self.columns[read.column]);
        let finding = self.finding(catalogue::TWO_COLUMNS_FOR_ONE_FIELD, Some(other.column), says, help);
        self.findings.push(finding.related(vec![(place, "is read".into())]));
    }

    pub(super) fn near_miss(&mut self, at: usize, feeds: &[Option<Feed>]) {
        let heading = Arc::clone(&self.columns[at].heading);
        let Some((field, name)) = heading::near(&heading, None) else { return };
        if feeds[field as usize].is_some() {
            return;
        }
        let says = format!("this heading is not known; did you mean \"{name}\" ({})?", field.name());
        let finding = self.finding(catalogue::NEAR_MISS, Some(at), says, map_line(&heading, field.name()));
        self.findings.push(finding.suggesting(Some(name.to_owned())));
    }

    /// Says that a table has no column for any field, or none for the ids.
    pub(super) fn no_fields(&mut self, feeds: &[Option<Feed>]) {
        if !self.table.headings.is_empty() && feeds.iter().all(Option::is_none) {
            self.say(
                catalogue::NO_KNOWN_HEADING,
                None,
                "no heading of this table names a field",
                map_line("heading as written", "field"),
            );
        } else if !self.table.headings.is_empty()
            && feeds[Field::WellId as usize].is_none()
            && !self.rules.fixed.contains_key(&Field::WellId)
        {
            self.say(
                catalogue::NO_ID_COLUMN,
                None,
                "no column holds the wells' ids; each well is named by its file and row",
                format!("if a column names the wells: {}", map_line("heading as written", "well_id")),
            );
        }
    }

    /// Names the columns without which no row can be computed, unless the campaign says what to take instead.
    pub(super) fn missing_columns(&mut self, feeds: &[Option<Feed>]) {
        let has = |field: Field| {
            feeds[field as usize].as_ref().is_some_and(|feed| !feed.barred)
                || self.rules.fixed.contains_key(&field)
                || self.rules.assumptions.keys().any(|(_, assumed)| *assumed == field)
                || self.rules.drawn.iter().any(|(_, drawn)| *drawn == field)
        };
        if self.table.headings.is_empty() || feeds.iter().all(Option::is_none) || has(Field::WaterVolume) {
            return;
        }
        let mut missing = Vec::new();
        if !has(Field::WaterVolume) {
            if !has(Field::WaterColumn) {
                let listed = |field: Field| field == Field::TotalDepth && self.intervals.give_depths();
                let both = [Field::TotalDepth, Field::StaticWaterLevel];
                missing.extend(both.into_iter().filter(|field| !has(*field) && !listed(*field)));
            }
            if !has(Field::CasingDiameter) && !has(Field::CasingOutsideDiameter) && self.intervals.is_empty() {
                missing.push(Field::CasingDiameter);
            }
        }
        if missing.is_empty() {
            return;
        }
        let names = missing.iter().map(|field| field.name()).collect::<Vec<_>>().join(", ");
        let says = format!("no column is read for {names}; every row lacks it");
        let help = "map the column in [inventory.columns], or give a value in [inventory.fixed] or [missing]";
        self.say(catalogue::NO_COLUMN, None, says, help);
    }
}
