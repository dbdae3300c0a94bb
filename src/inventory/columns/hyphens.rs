//! Feet and inches that a hyphen joins: `31-4`.

use super::Planner;

impl Planner<'_> {
    /// Whether hyphens join feet and inches in a column: most pairs could be no range, because they fall, and all could be
    /// feet and inches.
    pub(super) fn hyphens_join(&self, column: usize) -> bool {
        let sample = &self.table.sample;
        let pairs: Vec<(u32, u32)> = (self.table.first_row..sample.len())
            .filter_map(|row| feet_and_inches(sample.cell(row, column).trim()))
            .collect();
        let falling = pairs.iter().filter(|(feet, inches)| inches < feet).count();
        falling >= 3 && falling * 10 >= pairs.len() * 7
    }
}

/// `24-6` as feet and inches, if it can be.
pub fn feet_and_inches(text: &str) -> Option<(u32, u32)> {
    let (feet, inches) = text.split_once('-')?;
    let number = |part: &str| (1..=4).contains(&part.len()).then(|| part.parse::<u32>().ok()).flatten();
    let (feet, inches) = (number(feet)?, number(inches)?);
    (inches < 12).then_some((feet, inches))
}
