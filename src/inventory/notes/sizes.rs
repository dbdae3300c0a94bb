//! Sizes that a note gives for every well whose cell says nothing: `Drilled are 6 in. unless noted`.

use super::clauses::sentences;
use super::unit::unit_of;
use super::well_types::types_of;
use crate::field::WellType;
use crate::inventory::lexicon;
use crate::inventory::phrases;
use crate::quantity::unit::Dimension;

/// Sizes that hold where a cell says nothing: `Drilled are 6 in. unless noted`, `Sand points (SP) are 1 1/4 in. unless a size is
/// given`. In SI, by type of well.
pub fn sizes_unless_noted(text: &str, codes: &[(String, WellType)]) -> Vec<(WellType, f64)> {
    const UNLESS: [&str; 6] = ["unless", "otherwise", "noted", "marked", "salvo", "sauf"];
    let mut found = Vec::new();
    for sentence in sentences(text) {
        for clause in without_codes(&sentence).split([',', ';', ':', '(', ')']) {
            let words = lexicon::tokens(clause);
            if !words.iter().any(|word| UNLESS.contains(&word.as_str())) {
                continue;
            }
            let sizes: Vec<f64> = phrases::tokens(clause)
                .windows(2)
                .filter_map(|pair| Some((pair[0].number?, unit_of(&[pair[1].word.clone()], None)?)))
                .filter(|(_, unit)| unit.dimension == Dimension::Length)
                .map(|(value, unit)| unit.to_si(value))
                .collect();
            if let [size] = sizes.as_slice() {
                found.extend(types_of(&words, clause, codes).into_iter().map(|well_type| (well_type, *size)));
            }
        }
    }
    found
}

/// A sentence without the codes that stand in brackets behind their words: `Sand points (SP)`.
fn without_codes(sentence: &str) -> String {
    const LONGEST: usize = 4;
    let is_code = |inner: &str| (1..=LONGEST).contains(&inner.len()) && inner.chars().all(char::is_uppercase);
    let mut parts = sentence.split('(');
    let mut kept = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        match part.split_once(')').filter(|(inner, _)| is_code(inner)) {
            Some((_, rest)) => kept.push_str(rest),
            None => {
                kept.push('(');
                kept.push_str(part);
            }
        }
    }
    kept
}
