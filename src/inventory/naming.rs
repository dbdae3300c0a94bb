//! What the beginning of a table tells of its names: what stands before an id, and which names hold for the rows below.

use std::collections::BTreeMap;

use super::phrases::{Class, Phrases, Token, tokens};
use super::pointed::Standing;
use crate::hazard;

/// What stands before the id of a well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What a column of the row says, by its place from the left.
    Column(usize),
    /// The section that the row stands under.
    Section,
}

/// What the beginning of a table tells of the whole of it.
#[derive(Debug, Clone, Default)]
pub struct Naming {
    /// Whether ids have figures in them, as most do.
    pub ids_are_numbers: bool,
    /// Columns that are filled only where their name changes.
    pub down: Vec<usize>,
    /// What stands before the id.
    pub part: Option<Part>,
    /// Rows that other rows put out of force, by their number as a person sees it.
    pub replaced: BTreeMap<u32, Standing>,
    /// Whether the name of the sheet, or of a file without sheets, stands before it.
    pub by_sheet: bool,
}

impl Naming {
    /// Whether rows of the table take anything from above them, or have more than their typed id.
    pub fn is_active(&self) -> bool {
        !self.down.is_empty() || self.part.is_some() || self.by_sheet
    }
}

/// Words inside a name that begin with a small letter: Pointe du Lac, Town of Elm.
const SMALL_WORDS: [&str; 16] =
    ["of", "the", "and", "de", "la", "le", "les", "du", "des", "del", "los", "las", "da", "do", "dos", "y"];

/// A name has no more words than this.
const LONGEST_NAME: usize = 5;

/// Whether a text is a name that rows can stand under: `Pine Hollow`, `Hwy 12`, `mill road`. A remark is of its own row and must
/// not reach the cards of others: `gate code 12`, `Nurse on dialysis`, `dog loose`.
pub fn groups_rows(text: &str) -> bool {
    let phrases = Phrases::all();
    let words = tokens(text);
    let band = |at: usize| phrases.is(&words[at], Class::Band);
    let names_place = (0..words.len()).any(band);
    let capital = |token: &Token| text[token.start..].starts_with(char::is_uppercase);
    let of_a_name = |token: &Token| names_place || capital(token) || SMALL_WORDS.contains(&token.word.as_str());
    let single = words.len() == 1;
    let figures = |at: usize| {
        let before = at.checked_sub(1).map(|at| &words[at]);
        words[at].number.is_none()
            || before.is_some_and(|before| {
                phrases.is(before, Class::Band) || before.word == "." || before.word == "#" || before.word.len() <= 2
            })
    };
    words.len() <= LONGEST_NAME
        && hazard::find(text).is_empty()
        && (single || words.iter().filter(|token| token.is_word()).all(of_a_name))
        && (single || (0..words.len()).all(figures))
}
