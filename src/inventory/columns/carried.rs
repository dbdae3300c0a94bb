//! The columns that no field takes: carried along under their headings, or read for the sentences in them.

use super::{Feed, Planner};
use crate::field::rules::Beside;
use crate::field::{Field, same_column};
use crate::finding::catalogue;
use crate::inventory::lexicon::Concept;
use crate::inventory::unit_columns::Aside;

impl Planner<'_> {
    /// Columns that are carried along, under their heading; a repeated heading gets a number.
    ///
    /// A sign beside a value is carried as well: it may hold more than was understood.
    pub(super) fn carried(&mut self, feeds: &[Option<Feed>], asides: &[Aside]) -> Vec<(usize, String)> {
        let mut carried: Vec<(usize, String)> = Vec::new();
        let widest = (self.table.first_row..self.table.sample.len()).map(|row| self.table.sample.width(row)).max();
        for at in 0..self.columns.len().max(widest.unwrap_or(0)) {
            let feeds_from = |feed: &Feed| {
                !feed.barred
                    && (feed.column == at
                        || feed.left_over == Some(at)
                        || feed.also.as_ref().is_some_and(|also| also.column == at))
            };
            let fed = feeds.iter().flatten().any(feeds_from);
            if fed || self.is_part(at) || asides.iter().any(|aside| aside.column == at && aside.says == Beside::Unit) {
                continue;
            }
            let heading = self.table.headings.get(at).map_or("", String::as_str);
            if heading.is_empty() {
                let filled = (self.table.first_row..self.table.sample.len())
                    .find(|row| !self.table.sample.cell(*row, at).trim().is_empty());
                if filled.is_none() || at >= self.columns.len() {
                    continue;
                }
                self.say(
                    catalogue::BLANK_HEADING,
                    Some(at),
                    "this column has cells but no heading; it is carried along",
                    "give it a heading",
                );
            }
            let name = if heading.is_empty() { format!("column {}", at + 1) } else { heading.to_owned() };
            let mut unique = name.clone();
            let mut count = 1;
            while carried.iter().any(|(_, other)| same_column(other, &unique)) || Field::by_name(&unique).is_some() {
                count += 1;
                unique = format!("{name} ({count})");
            }
            carried.push((at, unique));
        }
        carried
    }

    /// The columns that hold sentences: of those that are carried, and that of the state, `Findings / Conditions`.
    pub(super) fn wordy(&self, carried: &[(usize, String)], feeds: &[Option<Feed>]) -> Vec<usize> {
        let state = feeds[Field::Status as usize].iter().map(|feed| feed.column);
        let columns = carried.iter().map(|(column, _)| *column).chain(state);
        columns.filter(|column| self.is_wordy(*column)).collect()
    }

    /// Whether a column holds sentences, and its heading names no place, person or waste: remarks, whatever it is called.
    fn is_wordy(&self, column: usize) -> bool {
        let Some(profile) = self.profiles.get(column) else { return false };
        let meaning = self.meaning(column);
        let other =
            [Concept::Address, Concept::Region, Concept::Name, Concept::Contact, Concept::Sewage, Concept::Testing];
        let sentences = profile.filled >= 3 && profile.words_a_cell() >= 2.5 && profile.distinct * 2 >= profile.filled;
        // `ahora tiene 16,20 m` among words that repeat.
        let tells = |cell: &str| cell.split_whitespace().count() >= 5 && cell.contains(|c: char| c.is_ascii_digit());
        (sentences || self.table.filled(column).any(tells)) && !other.iter().any(|concept| meaning.has(*concept))
    }
}
