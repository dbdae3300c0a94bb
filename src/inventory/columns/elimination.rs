//! A column of depths or levels that its heading does not name: what is left where the other measures are known.
//!
//! `Card says` beside `Water` and `Pipe`: the one column of numbers that no other field wants, and that lies below the water in
//! every row, is how deep the wells are. The one column that speaks of water, and lies above the bottom in every row, is where
//! it stands, or how high.

use super::Planner;
use super::assignment::assign;
use super::evidence::{Asked, LIKELY, OPEN, Reading};
use super::patterns::is_of_something_else;
use crate::field::Field;
use crate::inventory::heading::Named;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::quantity::unit;

/// Fewer pairs prove nothing.
const FEWEST: usize = 12;

/// Fewer wells of two diameters prove nothing.
const FEWEST_CHANGES: usize = 3;

/// Concepts of a heading that say nothing against a depth.
const EMPTY: [Concept; 11] = [
    Concept::Built,
    Concept::Hole,
    Concept::Total,
    Concept::Region,
    Concept::Site,
    Concept::Name,
    Concept::Notes,
    Concept::Find,
    Concept::Well,
    Concept::Depth,
    Concept::Bottom,
];

impl Planner<'_> {
    /// The columns that may be depths of wells.
    pub(super) fn depths(&self, readings: &[Reading]) -> Vec<usize> {
        let is_depth = |reading: &&Reading| reading.named.field == Field::TotalDepth && reading.score >= LIKELY;
        readings.iter().filter(is_depth).map(|reading| reading.column).collect()
    }

    /// What the other columns say of a reading: a casing ends at the bottom or above it.
    pub(super) fn by_the_others(&self, readings: &mut [Reading]) {
        let depth = readings
            .iter()
            .filter(|reading| reading.named.field == Field::TotalDepth && reading.score >= LIKELY)
            .max_by(|a, b| a.score.total_cmp(&b.score))
            .map(|reading| reading.column);
        let Some(depth) = depth else { return };
        for reading in readings.iter_mut().filter(|reading| reading.named.field == Field::CasingDepth && !reading.exact)
        {
            let pairs = self.pairs(reading.column, depth);
            let within = pairs.iter().filter(|(casing, depth)| casing <= depth).count();
            let long = pairs.iter().filter(|(casing, depth)| casing * 20.0 >= *depth).count();
            if pairs.len() >= 6 && within * 20 >= pairs.len() * 19 && long * 10 >= pairs.len() * 8 {
                reading.score += 0.3;
            }
        }
    }

    /// Adds the column of depths that is left over, where no other is or only few rows fill it.
    pub(super) fn by_elimination(&self, readings: &mut Vec<Reading>, taken: &[bool], water_beside: bool) {
        let most = self.profiles.iter().map(|profile| profile.filled).max().unwrap_or(0);
        let filled_well = |column: usize| self.profiles[column].filled * 2 >= most;
        if most < FEWEST || self.depths(readings).into_iter().any(filled_well) {
            return;
        }
        let best = |field: Field| {
            let of = |reading: &&Reading| reading.named.field == field && reading.score >= OPEN;
            readings.iter().filter(of).max_by(|a, b| a.score.total_cmp(&b.score)).map(|reading| reading.column)
        };
        // The water of the wells, and how wide they are, must be known: else the numbers could be anything.
        let level = best(Field::StaticWaterLevel).or_else(|| self.bare_water(taken).filter(|_| water_beside));
        let (Some(level), Some(_)) = (level, best(Field::CasingDiameter)) else { return };
        let wanted = |column: usize| readings.iter().any(|reading| reading.column == column && reading.score >= LIKELY);
        let left: Vec<usize> = (0..self.columns.len())
            .filter(|column| !taken[*column] && !wanted(*column) && filled_well(*column) && self.may_be_depth(*column))
            .filter(|column| self.lies_within(level, *column, FEWEST))
            .collect();
        let [column] = left.as_slice() else { return };
        let named = Named::told(Field::TotalDepth);
        readings.push(Reading { column: *column, named, score: LIKELY, exact: false, by_hand: false });
    }

    /// Adds the one column left that speaks of water and lies above the bottom, where no level or height is understood.
    pub(super) fn water_by_elimination<'a>(&self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let first = assign(readings);
        let across = first.likely(Field::CasingDiameter).or(first.likely(Field::CasingOutsideDiameter));
        let (Some(depth), Some(_)) = (first.likely(Field::TotalDepth), across) else { return };
        let waters = [Field::StaticWaterLevel, Field::WaterColumn, Field::WaterVolume];
        if waters.into_iter().any(|field| first.likely(field).is_some()) {
            return;
        }
        let left: Vec<usize> = (0..self.columns.len())
            .filter(|at| {
                let profile = &self.profiles[*at];
                !first.is_used(*at)
                    && !self.table.headings[*at].is_empty()
                    && profile.share(profile.measures()) >= 0.7
                    && !profile.counts_up
                    && is_of_water(&asked(*at).meaning())
                    && self.lies_within(*at, depth, FEWEST)
            })
            .collect();
        let [at] = left.as_slice() else { return };
        let asked = asked(*at);
        let counted_down = asked.is_counted_down().then_some(Field::StaticWaterLevel);
        let Some(field) = counted_down.or_else(|| self.level_or_height(*at, &[depth])) else { return };
        let named = asked.named(field, &Meaning::default());
        readings.push(Reading { column: *at, named, score: LIKELY, exact: false, by_hand: false });
    }

    /// Reads the one width that a list has as the well's, though it is called that of the hole: `Kind of hole`, `Hole size`. Where a
    /// casing or its end has a column too, the hole is the one below it.
    pub(super) fn hole_is_the_well<'a>(&self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        const SAID: f64 = 0.95;
        let first = assign(readings);
        let cased = [Field::CasingDiameter, Field::CasingOutsideDiameter, Field::CasingDepth];
        let Some(hole) = first.likely(Field::OpenHoleDiameter) else { return };
        if cased.into_iter().any(|field| first.chosen[field as usize].is_some()) {
            return;
        }
        let other = |at: usize| {
            let meaning = self.meaning(at);
            let names = [Concept::Casing, Concept::Diameter, Concept::Bore, Concept::Inside, Concept::Outside];
            let profile = &self.profiles[at];
            at != hole && profile.share(profile.measures()) >= 0.5 && names.iter().any(|name| meaning.has(*name))
        };
        // `Still open` is no hole.
        let is_hole = |word: &String| {
            !word.starts_with("open")
                && lexicon::meaning(std::slice::from_ref(word), self.table.layout.language).has(Concept::Hole)
        };
        let called = lexicon::tokens(&self.table.headings[hole]).iter().any(is_hole);
        if !called || (0..self.columns.len()).any(|at| other(at) && !first.is_used(at)) {
            return;
        }
        readings.retain(|reading| reading.column != hole || reading.named.field != Field::OpenHoleDiameter);
        let named = asked(hole).named(Field::CasingDiameter, &Meaning::default());
        readings.push(Reading { column: hole, named, score: SAID, exact: false, by_hand: false });
    }

    /// Adds the column that says how deep the upper diameter reaches, where a lower one is given and no casing depth is:
    /// filled where the lower diameter is, and never below the bottom. `Changes at`, `csgDiaTopTo`.
    pub(super) fn change_by_elimination(&self, readings: &mut Vec<Reading>) {
        let first = assign(readings);
        let (Some(lower), Some(depth), None) =
            (first.likely(Field::OpenHoleDiameter), first.likely(Field::TotalDepth), first.likely(Field::CasingDepth))
        else {
            return;
        };
        let with_lower = self.profiles[lower].filled;
        let left: Vec<usize> = (0..self.columns.len())
            .filter(|at| !first.is_used(*at) && !self.table.headings[*at].is_empty())
            .filter(|at| {
                let profile = &self.profiles[*at];
                let meaning = self.meaning(*at);
                let other = [
                    Concept::Water,
                    Concept::Level,
                    Concept::Pump,
                    Concept::Yield,
                    Concept::Rate,
                    Concept::Latitude,
                    Concept::Longitude,
                ];
                let both = self.pairs(*at, lower).len();
                profile.share(profile.measures()) >= 0.8
                    && !is_of_something_else(&meaning)
                    && !other.iter().any(|concept| meaning.has(*concept))
                    && (with_lower >= FEWEST_CHANGES || with_lower >= 2 && meaning.has(Concept::Find))
                    && both * 10 >= with_lower * 7
                    && both * 10 >= profile.filled * 5
                    && self.lies_within(*at, depth, 0)
            })
            .collect();
        let [at] = left.as_slice() else { return };
        let named = Named::told(Field::CasingDepth);
        readings.push(Reading { column: *at, named, score: LIKELY, exact: false, by_hand: false });
    }

    /// The one column whose heading is water and nothing else.
    fn bare_water(&self, taken: &[bool]) -> Option<usize> {
        let is_water = |column: &usize| taken[*column] && self.meaning(*column).concepts == [Concept::Water];
        let mut found = (0..self.columns.len()).filter(is_water);
        found.next().filter(|_| found.next().is_none())
    }

    /// Whether the cells could be depths of wells, and the heading says nothing else.
    fn may_be_depth(&self, column: usize) -> bool {
        let profile = &self.profiles[column];
        let meaning = self.meaning(column);
        let usual =
            |symbol: &str| unit::by_symbol(symbol).is_some_and(|unit| profile.within(unit, (1.0, 400.0)) >= 0.9);
        profile.share(profile.measures()) >= 0.7
            && !profile.counts_up
            && profile.distinct * 5 >= profile.filled
            && profile.numbers.len() >= FEWEST
            && meaning.concepts.iter().all(|concept| EMPTY.contains(concept))
            && !is_of_something_else(&meaning)
            && (usual("ft") || usual("m"))
    }
}

/// A heading that speaks of water, and of nothing that is measured otherwise.
fn is_of_water(meaning: &Meaning) -> bool {
    const OTHER: [Concept; 5] = [Concept::Pumping, Concept::OtherTime, Concept::Flooded, Concept::Yield, Concept::Rate];
    let water = [Concept::Water, Concept::Level, Concept::Static].iter().any(|concept| meaning.has(*concept));
    water && !is_of_something_else(meaning) && !OTHER.iter().any(|concept| meaning.has(*concept))
}
