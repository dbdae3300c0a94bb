//! Words of the trade that a note defines for its list: `Aljibe = pozo excavado a mano`, `Spear = sand point driven by hand`.
//!
//! A word that means one thing here and another there is what the list says that it is. It stands at the beginning of the
//! cells of one column, often with more words behind it.

use super::super::lexicon::fold;
use super::{Page, code_key};

/// So many cells of a column must begin with the word.
const FEWEST: usize = 3;
/// A shorter word is a code.
const SHORTEST: usize = 4;

/// Heading, word and meaning of each definition on a page.
pub(super) fn words(page: &Page<'_>) -> Vec<(String, String, String)> {
    let Some(heading_row) = page.heading_row else { return Vec::new() };
    let rows = page.rows;
    let mut found = Vec::new();
    for row in (0..rows.len()).filter(|row| *row != heading_row) {
        let filled: Vec<(usize, &str)> = rows.filled(row).collect();
        let [(_, text)] = filled.as_slice() else { continue };
        for (word, meaning) in definitions(text) {
            let begins = |column: usize| {
                let cells = (heading_row + 1..rows.len()).map(|row| rows.cell(row, column));
                cells.filter(|cell| fold(first_word(cell)) == fold(word)).count()
            };
            let widest = rows.width(heading_row);
            let Some(column) = (0..widest).max_by_key(|column| (begins(*column), std::cmp::Reverse(*column))) else {
                continue;
            };
            let heading = rows.cell(heading_row, column).trim();
            if begins(column) >= FEWEST && !heading.is_empty() {
                found.push((heading.to_owned(), code_key(word), meaning.to_owned()));
            }
        }
    }
    found
}

/// The words of a note that a sign of equality defines, each with its meaning.
fn definitions(text: &str) -> impl Iterator<Item = (&str, &str)> {
    text.split(['.', ';', '\n']).filter_map(|sentence| {
        let (word, meaning) = sentence.split_once('=')?;
        let (word, meaning) = (word.trim().trim_matches(['"', '\'']), meaning.trim());
        let is_word = word.chars().count() >= SHORTEST && word.chars().all(char::is_alphabetic);
        let says = meaning.starts_with(char::is_alphabetic) && !meaning.contains('=');
        (is_word && says).then_some((word, meaning))
    })
}

/// The first word of a cell.
pub(super) fn first_word(text: &str) -> &str {
    text.trim().split(|c: char| !c.is_alphabetic()).next().unwrap_or_default()
}
