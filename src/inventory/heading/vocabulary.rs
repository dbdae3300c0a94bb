//! The names of the vocabulary that a heading is, or is near to.

use std::collections::HashMap;
use std::sync::OnceLock;

use super::unit::suffix;
use super::words::{brackets, words};
use crate::field::{FIELDS, Field, squash};
use crate::quantity::parse::edits;
use crate::quantity::unit::Gallon;

/// Names that could be a depth to water or a height of water.
const WATER_DEPTH: &[&str] = &[
    "waterdepth",
    "depthofwater",
    "depthwater",
    "waterdepths",
    "wdepth",
    "wdpth",
    "wdep",
    "level",
    "standingwater",
    "waterstanding",
    "standingwaterdepth",
    "depthofstandingwater",
    "depthofwaterstanding",
];

/// Words that look like one of ours and are another thing.
const NOT_NEAR: &[&str] =
    &["nitrate", "nitrates", "sulfate", "sulphate", "sulfates", "altitude", "magnesium", "potassium"];

/// Every name of a field, squashed: its field, and its place among the names of that.
pub(super) fn vocabulary() -> &'static HashMap<String, (Field, usize)> {
    static VOCABULARY: OnceLock<HashMap<String, (Field, usize)>> = OnceLock::new();
    VOCABULARY.get_or_init(|| {
        let mut names = HashMap::new();
        for definition in &FIELDS {
            let all = std::iter::once(&definition.name).chain(definition.headings);
            for (rank, name) in all.enumerate() {
                names.entry(squash(name)).or_insert((definition.field, rank));
            }
        }
        names
    })
}

/// Every name that a slip of the pen may be near to: its letters, its field, and as it is written.
fn names() -> &'static [(String, Field, &'static str)] {
    static NAMES: OnceLock<Vec<(String, Field, &'static str)>> = OnceLock::new();
    NAMES.get_or_init(|| {
        let each = FIELDS.iter().flat_map(|definition| {
            let all = std::iter::once(&definition.name).chain(definition.headings);
            all.map(|name| (squash(name), definition.field, *name))
        });
        each.filter(|(plain, ..)| plain.len() >= 5).collect()
    })
}

/// At how many of a heading's words its name may end, without its unit and with it.
fn stems(words: &[String], gallon: Option<Gallon>) -> impl Iterator<Item = usize> {
    suffix(words, gallon).into_iter().map(|suffix| suffix.stem).chain(std::iter::once(words.len()))
}

/// Whether the heading could be a depth to water or a height of water.
pub fn is_water_depth(heading: &str, gallon: Option<Gallon>) -> bool {
    let words = words(brackets(heading).0);
    stems(&words, gallon).any(|stem| WATER_DEPTH.contains(&words[..stem].concat().as_str()))
}

/// The field whose name is nearly this, for headings that name none.
pub fn near(heading: &str, gallon: Option<Gallon>) -> Option<(Field, &'static str)> {
    let words = words(brackets(heading).0);
    for stem in stems(&words, gallon) {
        let written = words[..stem].concat();
        let letters = written.chars().count();
        if !(5..=40).contains(&letters) || NOT_NEAR.contains(&written.as_str()) {
            continue;
        }
        // `county_cd` and `construction_dt` are other things, not slips of the pen.
        let without_last = words[..stem.saturating_sub(1)].concat();
        let allowed = if letters >= 8 { 2 } else { 1 };
        let mut best: Option<(usize, Field, &'static str)> = None;
        for (plain, field, name) in names() {
            if plain.len().abs_diff(letters) > allowed {
                continue;
            }
            if *plain == without_last {
                return None;
            }
            let distance = edits(&written, plain);
            if distance <= allowed && best.is_none_or(|(least, ..)| distance < least) {
                best = Some((distance, *field, *name));
            }
        }
        if let Some((_, field, name)) = best {
            return Some((field, name));
        }
    }
    None
}
