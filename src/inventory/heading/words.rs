//! A heading as it is written: its blanks, its brackets, its words.

use crate::inventory::rows::Rows;

/// The headings of a row, trimmed, with inner line breaks and runs of blanks made single blanks; blank ones at the end
/// only where there are cells below.
pub fn cells(rows: &Rows, row: usize) -> Vec<String> {
    let mut headings: Vec<String> = (0..rows.width(row)).map(|column| tidy(rows.cell(row, column))).collect();
    while headings.last().is_some_and(String::is_empty)
        && !(row + 1..rows.len()).any(|below| !rows.cell(below, headings.len() - 1).trim().is_empty())
    {
        headings.pop();
    }
    headings
}

/// Blanks single, none outside.
pub fn tidy(text: &str) -> String {
    text.trim_start_matches('\u{feff}').split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The part before the first bracket, and what is in the last pair of brackets.
pub(super) fn brackets(heading: &str) -> (&str, Option<&str>) {
    let Some(open) = heading.find(['(', '[', '{']) else { return (heading, None) };
    let Some(close) = heading.rfind([')', ']', '}']).filter(|close| *close > open) else { return (heading, None) };
    let last = heading[..close].rfind(['(', '[', '{']).unwrap_or(open);
    (&heading[..open], Some(heading[last + 1..close].trim()))
}

/// The words of a heading in lower case: cut at anything but letters and digits, and where a capital follows a small
/// letter.
pub(super) fn words(heading: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut before = ' ';
    for c in heading.chars() {
        if c.is_alphanumeric() || matches!(c, '°' | 'µ' | '³' | '%') {
            if c.is_uppercase() && before.is_lowercase() {
                words.push(String::new());
            }
            if let Some(word) = words.last_mut() {
                word.extend(c.to_lowercase());
            }
        } else {
            words.push(String::new());
        }
        before = c;
    }
    words.retain(|word| !word.is_empty());
    words
}
