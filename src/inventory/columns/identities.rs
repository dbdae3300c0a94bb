//! Of several columns that could name the wells, one that names each of them: a permit or a tag was not given to every well.

use super::Planner;
use super::evidence::{LIKELY, Reading};
use crate::field::Field;

impl Planner<'_> {
    /// Puts a column of names that leaves a tenth of the wells without one behind a column that names them all, each once.
    pub(super) fn names_every_well(&self, readings: &mut [Reading]) {
        let filled = |reading: &Reading| self.profiles[reading.column].filled;
        let names = |reading: &&Reading| reading.named.field == Field::WellId && reading.score >= LIKELY;
        let is_whole = |reading: &&Reading| {
            let profile = &self.profiles[reading.column];
            profile.distinct * 50 >= profile.filled * 49 && !profile.counts_up && profile.decimals == 0
        };
        let Some((best, most)) = readings
            .iter()
            .filter(names)
            .filter(is_whole)
            .map(|reading| (reading.score, filled(reading)))
            .max_by_key(|(_, filled)| *filled)
        else {
            return;
        };
        for reading in readings.iter_mut() {
            if names(&&*reading) && !reading.by_hand && filled(reading) * 10 < most * 9 {
                reading.score = reading.score.min(best - 0.01);
                reading.exact = false;
            }
        }
    }
}
