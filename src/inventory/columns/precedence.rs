//! Two columns that could both be the measure of a well, where one is of the hole that was drilled and the other of the well
//! that was made in it.

use super::Planner;
use super::evidence::{LIKELY, Reading};
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept};

/// Words for the hole as it was drilled, and for the well as it was finished.
const DRILLED: [&str; 8] = ["drl", "drld", "drilled", "hole", "boring", "borehole", "bored", "original"];
const FINISHED: [&str; 9] =
    ["cmpl", "compl", "cmplt", "comp", "completed", "completion", "finished", "final", "finish"];

impl Planner<'_> {
    /// Drops the width of the hole that was drilled where another column has the width of the casing in it: the water
    /// stands in the casing.
    pub(super) fn casing_before_hole(&self, readings: &mut Vec<Reading>) {
        let of_width = |reading: &Reading| reading.named.field == Field::CasingDiameter;
        let has = |reading: &Reading, concept: Concept| self.meaning(reading.column).has(concept);
        let filled = |reading: &Reading| self.profiles[reading.column].measures();
        let casing = readings
            .iter()
            .filter(|one| of_width(one) && one.score >= LIKELY && has(one, Concept::Casing) && !has(one, Concept::Bore))
            .map(|one| filled(one))
            .max();
        let Some(casing) = casing else { return };
        readings.retain(|one| {
            let hole = has(one, Concept::Bore) || has(one, Concept::Hole);
            !of_width(one) || one.by_hand || !hole || has(one, Concept::Casing) || 2 * casing < filled(one)
        });
    }

    /// Drops the depth of the hole that was drilled where another column has the depth of the finished well.
    pub(super) fn finished_before_drilled(&self, readings: &mut Vec<Reading>) {
        let of_depth = |reading: &Reading| reading.named.field == Field::TotalDepth && reading.score >= LIKELY;
        let says = |reading: &Reading, known: &[&str]| {
            lexicon::tokens(&self.table.headings[reading.column]).iter().any(|word| known.contains(&word.as_str()))
        };
        let filled = |reading: &Reading| self.profiles[reading.column].measures();
        let finished = readings.iter().filter(|one| of_depth(one) && says(one, &FINISHED)).map(|one| filled(one)).max();
        let Some(finished) = finished else { return };
        readings.retain(|one| {
            let drilled = of_depth(one) && says(one, &DRILLED) && !says(one, &FINISHED);
            !drilled || one.by_hand || 10 * finished < 9 * filled(one)
        });
    }
}
