//! Questions that stand over several columns, each of which is one answer: `How wide inside?` above `two inch`, `four inch`.

use super::super::choices;
use super::super::lexicon::{self, Concept, Language};
use super::super::rows::Rows;
use super::{Question, field_of, holds_ticks, is_ticked};
use crate::field::Field;
use crate::quantity::parse::{Comma, Sort, size};

/// The questions over the columns of a table, of those that are not taken.
pub(super) fn questions(
    headings: &[String],
    groups: &[String],
    sample: &Rows,
    first_row: usize,
    taken: &[bool],
) -> Vec<Question> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < headings.len().min(groups.len()) {
        let end = (at..groups.len()).find(|column| groups[*column] != groups[at]).unwrap_or(groups.len());
        if !groups[at].is_empty() && !taken[at..end.min(taken.len())].iter().any(|taken| *taken) {
            found.extend(question(headings, &groups[at], at..end.min(headings.len()), sample, first_row));
        }
        at = end;
    }
    found
}

fn question(
    headings: &[String],
    asks: &str,
    columns: std::ops::Range<usize>,
    sample: &Rows,
    first_row: usize,
) -> Option<Question> {
    let filled = |column: usize| (first_row..sample.len()).any(|row| !sample.cell(row, column).trim().is_empty());
    let is_answer = |column: &usize| holds_ticks(sample, first_row, *column) || !filled(*column);
    let answers: Vec<(usize, String)> = columns
        .clone()
        .filter(is_answer)
        .map(|column| (column, without_number(&headings[column]).to_owned()))
        .collect();
    let any =
        answers.iter().any(|(column, _)| (first_row..sample.len()).any(|row| is_ticked(sample.cell(row, *column))));
    if answers.len() < 2 || !any {
        return None;
    }
    let mut rest = columns.filter(|column| !answers.iter().any(|(answer, _)| answer == column));
    let written = match (rest.next(), rest.next()) {
        (written, None) => written,
        // The last band of a row reaches over whatever stands to its right.
        (Some(behind), Some(_)) if answers.iter().all(|(column, _)| *column < behind) => None,
        _ => return None,
    };
    let field = field_of(asks, &answers).filter(|_| written.is_none()).or_else(|| read_as_cells(asks, &answers))?;
    Some(Question { field, asks: asks.to_owned(), answers, whole: None, written })
}

/// A width whose answers are sizes, or a flood whose answers are yes and no.
fn read_as_cells(asks: &str, answers: &[(usize, String)]) -> Option<Field> {
    let meaning = lexicon::meaning(&lexicon::tokens(asks), Language::English);
    let has = |concepts: &[Concept]| concepts.iter().any(|concept| meaning.has(*concept));
    let sizes = answers.iter().filter(|(_, answer)| size(answer, Sort::Diameter, None, Comma::ByForm).is_ok()).count();
    if has(&[Concept::Diameter, Concept::Size, Concept::Inside, Concept::Casing])
        && sizes >= 2
        && sizes * 10 >= answers.len() * 7
    {
        return Some(Field::CasingDiameter);
    }
    let says = |answer: &str| choices::flag(Field::Flooded, answer).value().is_some();
    let flags = answers.iter().filter(|(_, answer)| says(answer)).count();
    (has(&[Concept::Flooded]) && flags >= 1).then_some(Field::Flooded)
}

/// An answer without the number of its question: `3 drilled by a rig`, `Q3. drilled`.
pub fn without_number(answer: &str) -> &str {
    let rest = answer.trim_start_matches(['Q', 'q']).trim_start_matches(|c: char| c.is_ascii_digit());
    if rest.len() == answer.len() || !rest.starts_with([' ', '.', ')', ':', '-', '_']) {
        return answer;
    }
    let bare = rest.trim_start_matches([' ', '.', ')', ':', '-', '_']);
    if bare.is_empty() { answer } else { bare }
}
