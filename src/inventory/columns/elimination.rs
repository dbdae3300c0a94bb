//! The measure that is still missing, by elimination: where the others are understood, and one column is left that can be
//! it.

use super::Planner;
use super::assignment::assign;
use super::evidence::{Asked, LIKELY, Reading};
use super::patterns::is_of_something_else;
use crate::field::Field;
use crate::inventory::heading::HeadingUnit;
use crate::inventory::lexicon::{Concept, Meaning};
use crate::quantity::parse::plain;
use crate::quantity::unit::Dimension;

/// Fewer pairs prove nothing.
const FEWEST: usize = 8;

impl Planner<'_> {
    /// Reads the one column that can be the missing depth or level; nothing where there are several, or none.
    pub(super) fn by_elimination<'a>(&self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let first = assign(readings);
        let chosen = |field: Field| {
            first.chosen[field as usize]
                .as_ref()
                .filter(|reading| reading.score >= LIKELY)
                .map(|reading| reading.column)
        };
        let across = chosen(Field::CasingDiameter).or(chosen(Field::CasingOutsideDiameter));
        let level = chosen(Field::StaticWaterLevel);
        if across.is_none() || chosen(Field::WaterVolume).is_some() || chosen(Field::WaterColumn).is_some() {
            return;
        }
        let used: Vec<usize> = first
            .chosen
            .iter()
            .flatten()
            .filter(|reading| reading.score >= LIKELY)
            .map(|reading| reading.column)
            .collect();
        let free = (0..self.columns.len()).filter(|at| {
            let profile = &self.profiles[*at];
            !used.contains(at)
                && !self.table.headings[*at].is_empty()
                && profile.share(profile.measures()) >= 0.7
                && profile.filled * 2 >= asked(*at).rows
                && !profile.counts_up
        });
        let (field, candidates): (Field, Vec<usize>) = match (chosen(Field::TotalDepth), level) {
            (Some(depth), None) => (
                Field::StaticWaterLevel,
                free.filter(|at| is_of_water(&asked(*at)) && self.lies_within(*at, depth)).collect(),
            ),
            (None, Some(level)) => {
                (Field::TotalDepth, free.filter(|at| is_depth(&asked(*at)) && self.lies_within(level, *at)).collect())
            }
            _ => return,
        };
        let [column] = candidates.as_slice() else { return };
        let asked = asked(*column);
        let field = match (field, chosen(Field::TotalDepth)) {
            (Field::StaticWaterLevel, Some(depth)) if !asked.is_counted_down() => {
                match self.level_or_height(*column, depth) {
                    Some(field) => field,
                    None => return,
                }
            }
            (field, _) => field,
        };
        let named = asked.named(field, &Meaning::default());
        readings.push(Reading { column: *column, named, score: LIKELY, exact: false, by_hand: false });
    }

    /// Whether the one column is hardly ever more than the other.
    fn lies_within(&self, inner: usize, outer: usize) -> bool {
        let sample = &self.table.sample;
        let number = |row: usize, column: usize| plain(sample.cell(row, column).trim());
        let pairs: Vec<(f64, f64)> = (self.table.first_row..sample.len())
            .filter_map(|row| Some((number(row, inner)?, number(row, outer)?)))
            .collect();
        let within = pairs.iter().filter(|(inner, outer)| inner < outer).count();
        pairs.len() >= FEWEST && within * 20 >= pairs.len() * 19
    }
}

/// A heading that speaks of water, and of nothing that is measured otherwise.
fn is_of_water(asked: &Asked<'_>) -> bool {
    let meaning = asked.meaning();
    let water = [Concept::Water, Concept::Level, Concept::Static].iter().any(|concept| meaning.has(*concept));
    let other = [Concept::Pumping, Concept::OtherTime, Concept::Flooded, Concept::Yield, Concept::Rate];
    water && !is_of_something_else(&meaning) && !other.iter().any(|concept| meaning.has(*concept))
}

/// A heading that may speak of the whole depth: a length of nothing else.
fn is_depth(asked: &Asked<'_>) -> bool {
    let meaning = asked.meaning();
    let other = [
        Concept::Water,
        Concept::Level,
        Concept::Static,
        Concept::Casing,
        Concept::Elevation,
        Concept::StickUp,
        Concept::Diameter,
        Concept::Volume,
        Concept::Yield,
        Concept::Rate,
        Concept::Users,
        Concept::Rock,
    ];
    let speaks = [Concept::Depth, Concept::Bottom, Concept::Total, Concept::Find, Concept::Built, Concept::Hole]
        .iter()
        .any(|concept| meaning.has(*concept));
    let long = matches!(asked.named(Field::TotalDepth, &meaning).unit,
        HeadingUnit::Unit(unit) if unit.dimension == Dimension::Length);
    (speaks || long) && !is_of_something_else(&meaning) && !other.iter().any(|concept| meaning.has(*concept))
}
