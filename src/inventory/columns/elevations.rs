//! Elevations in the place of depths: the bottom and the water above a datum, and the rim or the ground that both are below; and heights that may be those of wells.

use super::Planner;
use super::evidence::{Asked, LIKELY, OPEN, Reading};
use crate::field::Field;
use crate::inventory::heading::Datum;
use crate::inventory::lexicon::{self, Concept, Meaning};

impl Planner<'_> {
    /// A bare `Height` or `Altura` beside a level, where no depth is known, may be how high the well is from its bottom: it is
    /// asked.
    pub(super) fn height_without_water<'a>(&self, readings: &mut [Reading], asked: impl Fn(usize) -> Asked<'a>) {
        let likely = |readings: &[Reading], field: Field| {
            readings.iter().any(|reading| reading.named.field == field && reading.score >= LIKELY)
        };
        if likely(readings, Field::TotalDepth) || !likely(readings, Field::StaticWaterLevel) {
            return;
        }
        for reading in readings.iter_mut().filter(|reading| reading.named.field == Field::WaterColumn && !reading.exact)
        {
            const BARE: [&str; 8] = ["height", "hgt", "ht", "altura", "alto", "alt", "hauteur", "haut"];
            // With its unit: `Altura (m)`.
            let asked = asked(reading.column);
            let words = lexicon::tokens(&super::plain_heading::without_brackets(asked.heading));
            let bare = asked.meaning().concepts == [Concept::Height]
                && words.first().is_some_and(|word| BARE.contains(&word.as_str()));
            if bare && words.len() <= 2 && !reading.by_hand {
                reading.score = OPEN;
            }
        }
    }

    /// Where bottom and water are both elevations, what stands above them needs only be some: it falls out of their
    /// difference. The rim is taken for the ground where that has no column.
    pub(super) fn elevations<'a>(&mut self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let best = |readings: &[Reading], field: Field| {
            let of = readings.iter().filter(|reading| reading.named.field == field && reading.score >= LIKELY);
            of.max_by(|a, b| a.score.total_cmp(&b.score)).cloned()
        };
        let is_elevation =
            |field: Field| best(readings, field).is_some_and(|reading| reading.named.datum == Some(Datum::SeaLevel));
        self.both_elevations = is_elevation(Field::TotalDepth) && is_elevation(Field::StaticWaterLevel);
        if !self.both_elevations || best(readings, Field::GroundElevation).is_some() {
            return;
        }
        let of_rim = |at: &usize| {
            let meaning = asked(*at).meaning();
            let only = |concept: &Concept| matches!(concept, Concept::Rim | Concept::Elevation | Concept::Casing);
            meaning.has(Concept::Rim) && meaning.has(Concept::Elevation) && meaning.concepts.iter().all(only)
        };
        let rims: Vec<usize> = (0..self.columns.len()).filter(of_rim).collect();
        if let [at] = rims.as_slice() {
            let named = asked(*at).named(Field::GroundElevation, &Meaning::default());
            readings.retain(|reading| reading.column != *at);
            readings.push(Reading { column: *at, named, score: LIKELY, exact: false, by_hand: false });
        }
    }
}
