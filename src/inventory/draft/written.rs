//! A cell in the words that the reader of sizes knows, where the list writes in its own way.

use super::super::columns::{Feed, feet_and_inches, unlettered};
use super::super::heading::Datum as CountedFrom;
use crate::quantity::parse::plain;

/// A cell in the words that the reader of sizes knows, where the list writes in its own way.
pub(super) fn rewritten(feed: &Feed, text: &str) -> Option<String> {
    let lettered = || unlettered(text).filter(|_| feed.lettered).map(str::to_owned);
    unhyphened(feed, text).or_else(|| above(feed, text)).or_else(lettered)
}

/// `24-6` as `24 ft 6 in`, where hyphens join feet and inches in the column.
fn unhyphened(feed: &Feed, text: &str) -> Option<String> {
    let (feet, inches) = feed.feet_hyphen_inches.then(|| feet_and_inches(text)).flatten()?;
    Some(format!("{feet} ft {inches} in"))
}

/// `+2.5` as so much above what the level is counted from, where the list says that this is what a plus sign means.
fn above(feed: &Feed, text: &str) -> Option<String> {
    let number = text.strip_prefix('+').filter(|_| feed.level.plus_is_above)?.trim();
    plain(number).is_some().then(|| format!("-{number}"))
}

/// `4,10 d/b` without the mark that a note explains, and what it says.
pub(super) fn marked<'a>(feed: &Feed, text: &'a str) -> Option<(&'a str, CountedFrom)> {
    let plain = text.trim_end_matches(')');
    feed.level.marks.iter().find_map(|(mark, datum)| {
        let start = plain.len().checked_sub(mark.len())?;
        let ends = plain.get(start..).is_some_and(|end| end.eq_ignore_ascii_case(mark));
        ends.then(|| (plain[..start].trim_end_matches([' ', '(']), *datum))
    })
}
