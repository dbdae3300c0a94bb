//! A heading without what changes nothing: brackets, a date beside what is measured, the answer that a question follows on.

use super::follow_up::IF;
use crate::inventory::lexicon::{self, Concept};

/// A question without the answer that it follows on: `Q8e. If no: static level on the report` is `static level on the report`.
pub fn without_condition(heading: &str) -> &str {
    const MOST_WORDS: usize = 4;
    let Some((condition, question)) = heading.split_once(':') else { return heading };
    let words = lexicon::tokens(condition);
    // `Q8e.` is the number of the question.
    let numbered = words.first().is_some_and(|word| word.chars().any(|letter| letter.is_ascii_digit()));
    let rest = &words[usize::from(numbered)..];
    let follows = rest.first().is_some_and(|word| IF.contains(&word.as_str())) && rest.len() <= MOST_WORDS;
    if follows && !question.trim().is_empty() { question.trim() } else { heading }
}

/// `SWL / when`, `Level & date`: what is measured, without the day.
pub fn without_date(heading: &str, language: lexicon::Language) -> String {
    let parted = [" / ", "/", " & ", ", ", " and ", " + "].into_iter().find_map(|mark| heading.rsplit_once(mark));
    let Some((measured, day)) = parted else { return heading.to_owned() };
    let of = |text: &str| lexicon::meaning(&lexicon::tokens(text), language);
    let (measured_is, day_is) = (of(measured), of(day));
    let only_a_day = day_is.concepts == [Concept::Date] && day_is.unknown.is_empty();
    let measures = !measured_is.concepts.is_empty() && !measured_is.has(Concept::Date);
    if only_a_day && measures { measured.to_owned() } else { heading.to_owned() }
}

/// A heading without what stands in brackets.
pub fn without_brackets(heading: &str) -> String {
    let mut depth = 0_usize;
    let mut outer = String::with_capacity(heading.len());
    for c in heading.chars() {
        match c {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth = depth.saturating_sub(1),
            c if depth == 0 => outer.push(c),
            _ => {}
        }
    }
    outer
}
