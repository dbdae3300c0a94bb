//! What the scenario file's mapping says of a heading.

use std::collections::BTreeMap;

use super::words::tidy;
use crate::field::Field;
use crate::field::rules::{Beside, ReadingRules};

/// What the campaign's mapping says about this heading, if it speaks of it.
pub fn mapped<'a>(heading: &str, rules: &'a ReadingRules) -> Option<(&'a str, Option<Field>)> {
    entry(&rules.columns, heading).map(|(written, field)| (written, *field))
}

/// What the campaign's mapping says about this heading, if it makes it the unit or the sign of another column.
pub fn mapped_beside<'a>(heading: &str, rules: &'a ReadingRules) -> Option<(&'a str, Beside, Field)> {
    entry(&rules.beside, heading).map(|(written, (beside, field))| (written, *beside, *field))
}

/// What is said of a heading, however its blanks and capitals are written; with the heading as the scenario file writes it.
fn entry<'a, T>(said: &'a BTreeMap<String, T>, heading: &str) -> Option<(&'a str, &'a T)> {
    if said.is_empty() {
        return None;
    }
    let wanted = tidy(heading).to_lowercase();
    let (written, says) = said.iter().find(|(written, _)| tidy(written).to_lowercase() == wanted)?;
    Some((written.as_str(), says))
}
