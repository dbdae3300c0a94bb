//! A note in its sentences and clauses, so that each holds one statement.

use super::subject::{About, about};
use super::unit::unit_of;
use crate::inventory::lexicon::{self, Language};
use crate::quantity::unit::Gallon;

/// The sentences of a note; a point after an abbreviation such as `in.` or `dia.` ends none.
pub(super) fn sentences(text: &str) -> Vec<String> {
    let mut sentences: Vec<String> = Vec::new();
    let mut open = false;
    for part in text.split_inclusive(['.', '!', '\n']) {
        // `depth and water are ft. pipe is inches`: each has a unit of its own.
        let length = |text: &str| unit_of(&lexicon::tokens(text), None).is_some();
        let ends_in_unit = |text: &str| {
            lexicon::tokens(text).last().is_some_and(|last| unit_of(std::slice::from_ref(last), None).is_some())
        };
        let apart = sentences.last().is_some_and(|last| ends_in_unit(last)) && length(part) && part.starts_with(' ');
        // `in cm. HE = height of the water`: a word with its meaning begins anew.
        let defines = part.split_once('=').is_some_and(|(name, _)| name.split_whitespace().count() == 1);
        // `stands 1.5 ft above ground`
        let figure = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let decimal = figure(part.chars().next())
            && sentences
                .last()
                .and_then(|last| last.strip_suffix('.'))
                .is_some_and(|last| figure(last.chars().next_back()));
        match sentences.last_mut().filter(|_| open && !apart && !defines || decimal) {
            Some(last) => last.push_str(part),
            None => sentences.push(part.to_owned()),
        }
        let last_word =
            lexicon::fold(part.trim_end_matches(['.', ' ']).rsplit([' ', '(', '.']).next().unwrap_or_default());
        open = part.ends_with('.') && ABBREVIATIONS.contains(&last_word.as_str());
    }
    sentences
}

/// Words whose point ends no sentence.
const ABBREVIATIONS: &[&str] = &[
    "in", "ft", "m", "cm", "mm", "dia", "diam", "no", "approx", "est", "i", "d", "o", "cas", "csg", "max", "min", "ca",
    "prof", "tot", "gal", "pulg", "int", "ext", "pol",
];

/// A clause in its parts where a dash stands between two units, as a comma would: `FEET BELOW GROUND - DIAM INCHES`.
pub(super) fn dashed(clause: &str, gallon: Option<Gallon>) -> Vec<&str> {
    const DASH: &str = " - ";
    let has_unit = |text: &str| unit_of(&lexicon::tokens(text), gallon).is_some();
    let between = |(at, _): &(usize, &str)| has_unit(&clause[..*at]) && has_unit(&clause[at + DASH.len()..]);
    match clause.match_indices(DASH).find(between) {
        Some((at, _)) => vec![&clause[..at], &clause[at + DASH.len()..]],
        None => vec![clause],
    }
}

/// A clause in its parts where it speaks of several measures, each with its own unit: `depths are metres and casing is mm`.
pub(super) fn measures(clause: &str, language: Language, gallon: Option<Gallon>) -> Vec<&str> {
    const AND: [&str; 5] = [" and ", " & ", " y ", " et ", " e "];
    let is_measure = |text: &str| {
        let words = lexicon::tokens(text);
        let meaning = lexicon::meaning(&words, language);
        let told = unit_of(&words, gallon).is_some();
        told && about(&words, &meaning) != About::All
    };
    let mut parts = Vec::new();
    let mut rest = clause;
    while let Some((left, right)) = AND
        .iter()
        .flat_map(|and| rest.match_indices(and).map(|(at, _)| (&rest[..at], &rest[at + and.len()..])))
        .filter(|(left, right)| is_measure(left) && is_measure(right))
        .min_by_key(|(left, _)| left.len())
    {
        parts.push(left);
        rest = right;
    }
    parts.push(rest);
    parts
}
