//! Feet and inches that a hyphen joins: `31-4`.

use super::Planner;
use crate::inventory::heading;

impl Planner<'_> {
    /// Whether hyphens join feet and inches in a column: the heading says so, or most pairs could be no range, because they fall,
    /// and all could be feet and inches.
    pub(super) fn hyphens_join(&self, column: usize) -> bool {
        let said = |texts: &[String]| texts.get(column).is_some_and(|text| heading::is_feet_and_inches(text));
        if said(&self.table.headings) || said(&self.table.layout.units) {
            return true;
        }
        if self.table.layout.notes.iter().any(|note| explains_hyphens(note)) {
            return true;
        }
        let sample = &self.table.sample;
        let pairs: Vec<(u32, u32)> = (self.table.first_row..sample.len())
            .filter_map(|row| feet_and_inches(sample.cell(row, column).trim()))
            .collect();
        let falling = pairs.iter().filter(|(feet, inches)| inches < feet).count();
        falling >= 3 && falling * 10 >= pairs.len() * 7
    }
}

/// Whether a note says so with an example: `9-6 is 9 ft 6 in`.
fn explains_hyphens(note: &str) -> bool {
    let mut words = note.split_whitespace();
    while let Some(word) = words.next() {
        let Some((feet, inches)) = feet_and_inches(word.trim_matches(['(', '"', ','])) else { continue };
        let rest: Vec<&str> = words.clone().take(8).collect();
        let says = rest.first().is_some_and(|word| ["is", "=", "means"].contains(word));
        let number = |wanted: u32| {
            rest.iter().any(|word| word.trim_end_matches(|c: char| !c.is_ascii_digit()).parse() == Ok(wanted))
        };
        if says && number(feet) && number(inches) {
            return true;
        }
    }
    false
}

/// `24-6` as feet and inches, if it can be.
pub fn feet_and_inches(text: &str) -> Option<(u32, u32)> {
    let (feet, inches) = text.split_once('-')?;
    let number = |part: &str| (1..=4).contains(&part.len()).then(|| part.parse::<u32>().ok()).flatten();
    let (feet, inches) = (number(feet)?, number(inches)?);
    (inches < 12).then_some((feet, inches))
}
