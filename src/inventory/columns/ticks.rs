//! Columns of ticks in the plan of a table.

use super::super::heading;
use super::super::multiple_choice::{self, Question};
use super::{Feed, Planner, follow_up};
use crate::finding::catalogue;

impl Planner<'_> {
    /// Questions whose answers are columns of ticks, where no other column says the same.
    pub(super) fn questions(&mut self, feeds: &mut [Option<Feed>], taken: &mut [bool]) -> Vec<Question> {
        let (table, first_row) = (self.table, self.table.first_row);
        let mut questions = multiple_choice::questions(&table.headings, &table.layout.groups, &table.sample, first_row);
        for question in questions.iter_mut().filter(|question| question.written.is_none()) {
            // `Other type, specify` behind the ticks.
            let has_other = question.answers.iter().any(|(_, answer)| follow_up::is_other(answer));
            let last = question.answers.iter().map(|(column, _)| *column).max();
            question.written = last.filter(|_| has_other).and_then(|last| follow_up::of_other(&table.headings, last));
        }
        questions.retain(|question| {
            let answers = || question.answers.iter().map(|(column, _)| *column);
            let by_hand = answers().any(|column| heading::mapped(&self.table.headings[column], self.rules).is_some());
            let fed = feeds[question.field as usize].as_ref().map(|feed| feed.column);
            let own =
                |fed| [question.whole, question.written].contains(&Some(fed)) || answers().any(|column| column == fed);
            !by_hand && fed.is_none_or(own)
        });
        for question in &questions {
            let first = question.answers.first().map_or(0, |(column, _)| *column);
            // What is written out beside the ticks is read as the column that it is.
            let written = feeds[question.field as usize].as_ref().filter(|feed| question.written == Some(feed.column));
            if written.is_none() {
                let column = question.whole.or(question.written).unwrap_or(first);
                feeds[question.field as usize] = Some(Feed::of(column, None));
                taken[column] = true;
            }
            question.answers.iter().for_each(|(column, _)| taken[*column] = true);
            let words: Vec<String> = question.answers.iter().map(|(_, answer)| format!("\"{answer}\"")).collect();
            let says = format!(
                "{} columns are the answers to \"{}\"; the ticked one is read as {}: {}",
                words.len(),
                question.asks,
                question.field.name().replace('_', " "),
                words.join(", ")
            );
            self.say(catalogue::MULTIPLE_CHOICE_READ, Some(first), says, "no action needed if correct");
        }
        questions
    }
}
