//! Keys of fields, types and meanings as words in cells, and back: a book shows `total depth` where a scenario file has `total_depth`.

use super::form::form_not_read;
use crate::field::{FIELDS, Field, WellType};
use crate::scenario::meanings;

/// What stands before a field where a column is beside another.
const BESIDE: [&str; 2] = ["unit of ", "qualifier of "];

/// A key as it stands in a cell.
pub(super) fn shown(key: &str) -> String {
    if key == form_not_read() { key.to_owned() } else { key.replace('_', " ") }
}

fn fold(text: &str) -> String {
    text.trim().to_lowercase().replace([' ', '-'], "_")
}

/// The key that is meant, where it is one of these.
fn among(typed: &str, mut keys: impl Iterator<Item = &'static str>) -> Option<&'static str> {
    let wanted = fold(typed);
    keys.find(|key| fold(key) == wanted)
}

/// What a column is read as; as it is typed where that is no field.
pub(super) fn field(typed: &str) -> String {
    let typed = typed.trim();
    let beside = BESIDE.iter().find(|words| typed.to_lowercase().starts_with(**words)).copied().unwrap_or_default();
    let key = typed.get(beside.len()..).and_then(|name| among(name, FIELDS.iter().map(|definition| definition.name)));
    key.map_or_else(|| typed.to_owned(), |key| format!("{beside}{key}"))
}

/// A type of well; as it is typed where that is none.
pub(super) fn well_type(typed: &str) -> String {
    among(typed, WellType::ALL.iter().map(|of| of.name())).unwrap_or(typed.trim()).to_owned()
}

/// What a word of a field means; as it is typed where that is no meaning.
pub(super) fn meaning(of: &str, typed: &str) -> String {
    let known = Field::by_name(of).and_then(meanings).unwrap_or_default();
    among(typed, known.into_iter()).unwrap_or(typed.trim()).to_owned()
}
