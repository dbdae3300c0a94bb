//! A depth to the water or a height of water: told by how the values go with the depths of the wells.
//!
//! Wells of one country are drilled to very different depths, and the water stands in them at much the same: so a level
//! varies little from well to well, and a height of water varies as the depth does.

use super::Planner;
use crate::field::Field;
use crate::quantity::parse::plain;

/// Fewer pairs prove nothing.
const FEWEST: usize = 12;
/// One spread must be this much smaller than the other.
const PLAINLY: f64 = 0.5;

impl Planner<'_> {
    /// What a column of water measures beside a column of depths; nothing where it cannot be told.
    pub(super) fn level_or_height(&self, water: usize, depth: usize) -> Option<Field> {
        let sample = &self.table.sample;
        let number = |row: usize, column: usize| plain(sample.cell(row, column).trim());
        let pairs: Vec<(f64, f64)> = (self.table.first_row..sample.len())
            .filter_map(|row| Some((number(row, water)?, number(row, depth)?)))
            .collect();
        let sound: Vec<(f64, f64)> = pairs.iter().copied().filter(|(water, depth)| water < depth).collect();
        if sound.len() < FEWEST || sound.len() * 10 < pairs.len() * 9 {
            return None;
        }
        let as_read = spread(sound.iter().map(|(water, _)| *water).collect());
        let rest = spread(sound.iter().map(|(water, depth)| depth - water).collect());
        if as_read < PLAINLY * rest {
            Some(Field::StaticWaterLevel)
        } else if rest < PLAINLY * as_read {
            Some(Field::WaterColumn)
        } else {
            None
        }
    }
}

/// From the first to the ninth tenth.
fn spread(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = |share: usize| values[(values.len() * share / 10).min(values.len() - 1)];
    at(9) - at(1)
}
