//! Columns of widths that no field takes: a second one of the same wells, or sizes in words.

use super::Planner;
use super::assignment::Assignment;
use super::evidence::Reading;
use crate::field::Field;
use crate::inventory::heading;
use crate::inventory::lexicon::{self, Concept};

/// Headings of the land survey: town, range and section.
const SURVEY: [&str; 7] = ["range", "rng", "rge", "twp", "sec", "section", "qtr"];

impl Planner<'_> {
    /// `Dia. 2` beside `Dia. 1`: another width of the same wells, which must not be passed over.
    pub(super) fn second_of(&mut self, first: &Reading, assignment: &Assignment, also: Option<usize>) {
        let words = |column: usize| -> (Vec<String>, bool) {
            let (numbers, words): (Vec<String>, Vec<String>) = lexicon::tokens(&self.table.headings[column])
                .into_iter()
                .partition(|word| word.bytes().all(|byte| byte.is_ascii_digit()));
            (words, !numbers.is_empty())
        };
        let own = words(first.column);
        let chosen = |column: usize| assignment.chosen.iter().flatten().any(|reading| reading.column == column);
        let seconds: Vec<usize> = (0..self.columns.len())
            .filter(|at| *at != first.column && Some(*at) != also && !chosen(*at))
            .filter(|at| own.1 && words(*at) == own && self.profiles[*at].measures() > 0)
            .collect();
        for column in seconds {
            self.open(&Reading { column, by_hand: false, ..first.clone() });
        }
    }

    /// A column of sizes in words that nobody reads: it may be what some wells are like further down.
    pub(super) fn unread_sizes(&mut self, taken: &[bool]) {
        for (at, profile) in self.profiles.iter().enumerate() {
            let sizes = profile.sizes >= 3 && profile.share(profile.sizes + profile.lengths.len()) >= 0.6;
            let known = taken.get(at).copied().unwrap_or(true) || self.open.iter().any(|(column, _)| *column == at);
            let heading = &self.table.headings[at];
            let words = lexicon::tokens(heading);
            let meaning = lexicon::meaning(&words, self.table.layout.language);
            // `T 7 N, R 12 W`: where a place lies in the land survey.
            let surveyed = meaning.has(Concept::Region) || words.iter().any(|word| SURVEY.contains(&&**word));
            let sizes = sizes && !surveyed && !super::patterns::is_of_something_else(&meaning);
            if sizes && !known && !heading.is_empty() {
                let named = heading::Named::told(Field::CasingDiameter);
                self.open(&Reading { column: at, named, score: 0.0, exact: false, by_hand: false });
            }
        }
    }
}
