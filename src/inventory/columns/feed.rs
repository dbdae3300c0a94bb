//! The feed of each field: the column it was assigned, with those that stand in for it or beside it.

use super::assignment::Assignment;
use super::evidence::{LIKELY, Reading, SURE};
use super::plan::AlsoWhen;
use super::{Feed, Planner, follow_up, is_diameter, map_line};
use crate::field::rules::Beside;
use crate::field::{FIELD_COUNT, FIELDS, Field, Kind};
use crate::finding::catalogue;
use crate::inventory::heading::{self, HeadingUnit};
use crate::inventory::unit_columns::Aside;
use crate::quantity::unit::Unit;

/// What a dose rests on.
pub const fn is_deciding(field: Field) -> bool {
    matches!(
        field,
        Field::WellType
            | Field::TotalDepth
            | Field::StaticWaterLevel
            | Field::WaterColumn
            | Field::CasingDiameter
            | Field::CasingOutsideDiameter
            | Field::WallThickness
            | Field::StickUp
            | Field::CasingDepth
            | Field::OpenHoleDiameter
            | Field::WaterVolume
            | Field::DischargeRoute
    )
}

impl Planner<'_> {
    /// Feeds of every field.
    pub(super) fn feeds(&mut self, assignment: &Assignment, asides: &[Aside]) -> Vec<Option<Feed>> {
        let mut feeds: Vec<Option<Feed>> = vec![None; FIELD_COUNT];
        let headings = &self.table.headings;
        let feet_elsewhere = assignment.chosen.iter().flatten().any(|reading| {
            matches!(reading.named.unit, HeadingUnit::Unit(unit) if unit.symbol == "ft") && !reading.named.bare_in
        });
        let outer_beside = headings.iter().any(|heading| heading::squash(heading).ends_with("diameterout"));
        self.type_column = assignment.chosen[Field::WellType as usize].as_ref().map(|reading| reading.column);
        self.own_types = self.codes_of_types();
        let known = self.stated_units(assignment);
        for definition in &FIELDS {
            let field = definition.field;
            let Some(reading) = &assignment.chosen[field as usize] else { continue };
            let alone = matches!(definition.kind, Kind::Text | Kind::Flag) || !is_deciding(field);
            if reading.score < LIKELY && !reading.by_hand && !reading.exact {
                if !alone {
                    self.open(reading);
                }
                continue;
            }
            if reading.score < OPEN_EXACT && reading.exact && !reading.by_hand {
                // Named so, and its cells are something else altogether: `Casing (inches)` of words.
                self.unlike(reading);
                continue;
            }
            let named_so = |other: &Reading| other.named.field == field && other.exact && other.score >= OPEN_EXACT;
            if is_deciding(field) && !reading.exact && !reading.by_hand && assignment.others.iter().any(named_so) {
                // Its cells speak for this column and its name for another: a person says which.
                self.open(reading);
                continue;
            }
            let aside =
                |says: Beside| asides.iter().find(|aside| aside.says == says && aside.is_of(reading.column, field));
            let unit_column = aside(Beside::Unit).map(|aside| aside.column);
            let mut feed = self.feed(reading, unit_column, feet_elsewhere, outer_beside, &known);
            feed.qualifier_column = aside(Beside::Qualifier).map(|aside| aside.column);
            feed.species = self.species(reading);
            if !reading.exact {
                self.likely(reading, &feed);
            }
            feed.also = self.complement(reading, assignment, feet_elsewhere, &known);
            if let Some(column) = follow_up::of_other(headings, reading.column).filter(|_| feed.also.is_none()) {
                let told = Reading { column, ..reading.clone() };
                feed.also = Some(Box::new(self.feed(&told, None, feet_elsewhere, false, &known)));
                feed.also_when = AlsoWhen::Other;
            }
            if field == Field::TotalDepth {
                self.bottom_of_upper(&mut feed, reading, |planner, upper| {
                    planner.feed(upper, None, feet_elsewhere, false, &known)
                });
            }
            if field == Field::StaticWaterLevel {
                self.earlier_levels(reading.column, &mut feed, feet_elsewhere, &known);
            }
            let also = feed.also.as_ref().map(|also| also.column);
            self.contested(reading, assignment, also);
            if is_diameter(field) {
                self.second_of(reading, assignment, also);
            }
            for other in &assignment.others {
                if other.named.field == field && Some(other.column) != also && other.exact {
                    self.two_columns(field, reading, other);
                }
            }
            feeds[field as usize] = Some(feed);
        }
        feeds
    }

    /// Adds the two levels of earlier dates to that of the latest: the one is taken where the other bears it out.
    fn earlier_levels(
        &mut self,
        latest: usize,
        feed: &mut Feed,
        feet_elsewhere: bool,
        known: &[(Field, &'static Unit, String)],
    ) {
        let of_it = self.before_latest.iter().filter(|(of, _)| *of == latest).map(|(_, reading)| reading.clone());
        let of_it: Vec<Reading> = of_it.collect();
        if self.last_number_counts() {
            let mut next = None;
            for before in of_it.iter().rev() {
                let mut also = self.feed(before, None, feet_elsewhere, false, known);
                also.also = next.map(Box::new);
                next = Some(also);
            }
            feed.also = next.map(Box::new);
            feed.also_when = AlsoWhen::NoNumber;
        } else if let [before, older, ..] = of_it.as_slice() {
            let mut also = self.feed(before, None, feet_elsewhere, false, known);
            also.also = Some(Box::new(self.feed(older, None, feet_elsewhere, false, known)));
            feed.also = Some(Box::new(also));
            feed.also_when = AlsoWhen::NotAtRest;
        }
    }

    /// Another column for the same field, where rows that fill one mostly leave the other blank.
    fn complement(
        &mut self,
        reading: &Reading,
        assignment: &Assignment,
        feet_elsewhere: bool,
        known: &[(Field, &'static Unit, String)],
    ) -> Option<Box<Feed>> {
        let field = reading.named.field;
        if !is_deciding(field) {
            return None;
        }
        let sample = &self.table.sample;
        let filled = |row: usize, column: usize| {
            let cell = sample.cell(row, column).trim();
            !cell.is_empty() && !self.cells.says_nothing(field, cell)
        };
        let complements = |other: &&Reading| {
            let (mut both, mut one, mut only_other) = (0, 0, 0);
            for row in self.table.first_row..sample.len() {
                match (filled(row, reading.column), filled(row, other.column)) {
                    (true, true) => both += 1,
                    (true, false) => one += 1,
                    (false, true) => only_other += 1,
                    (false, false) => {}
                }
            }
            // A few wells were sounded anew: the newer figure where there is one, the older one elsewhere.
            let fills_in = only_other >= 10 && only_other >= both + one && one + both >= 3;
            only_other >= 3 && one >= 3 && both * 5 <= only_other
                || fills_in
                || only_other >= 3 && !is_diameter(field) && self.agree(reading.column, other.column)
                || only_other >= 1 && self.sounded_and_logged(reading.column, other.column)
        };
        let other = assignment
            .others
            .iter()
            .filter(|other| other.named.field == field && other.score >= LIKELY)
            .find(complements)?
            .clone();
        let feed = self.feed(&other, None, feet_elsewhere, false, known);
        let heading = &self.table.headings[reading.column];
        let says = format!(
            "this column and \"{heading}\" both give {}; each row is read from the one it fills",
            field.name().replace('_', " ")
        );
        let help = format!(
            "no action needed if correct; else leave one out: {}",
            map_line(&self.table.headings[other.column], "")
        );
        self.say(catalogue::COLUMNS_COMPLEMENT, Some(other.column), says, help);
        Some(Box::new(feed))
    }
}

/// An exact name with a score below this is contradicted by its cells.
const OPEN_EXACT: f64 = 0.5;

/// Whether a reading needs no word.
pub fn is_sure(reading: &Reading) -> bool {
    reading.by_hand || reading.exact || reading.score >= SURE
}
