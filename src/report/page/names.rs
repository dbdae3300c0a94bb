//! Names that have little room: on the director's page and beside bars.

use super::Pages;
use crate::report::fitted::shortened_within;

/// Letters of a name.
pub(super) const LETTERS: usize = 48;

/// The name of a scenario with room for both of its ends: names often differ at the last word.
pub(super) fn named(pages: &Pages<'_>, scenario: usize) -> String {
    shortened_within(pages.name(scenario), LETTERS)
}
