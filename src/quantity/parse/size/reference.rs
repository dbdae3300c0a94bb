//! The point that a depth is counted from, up or down, by the words beside it.

use super::super::items::Item;
use super::super::standing::has;
use super::super::{Nature, Reading};

/// What a depth is counted from, where its cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reference {
    /// The ground beside the well.
    Ground,
    /// The top of the casing, or the rim.
    Top,
    /// The level of the sea, as an elevation is.
    SeaLevel,
}

/// What a depth is counted from, by the words beside it.
pub(super) fn reference(items: &[Item<'_>]) -> Option<Reference> {
    let words: Vec<&str> = items.iter().filter_map(Item::word).collect();
    let is = |known: &[&str]| words.iter().any(|word| known.contains(word));
    let after = |first: &[&str], second: &[&str]| {
        words.windows(2).any(|pair| first.contains(&pair[0]) && second.contains(&pair[1]))
            || words
                .windows(3)
                .any(|three| first.contains(&three[0]) && three[1] == "the" && second.contains(&three[2]))
    };
    if is(&["asl", "amsl", "msl", "masl", "sea", "navd", "ngvd", "elev", "elevation", "mar", "mer"]) {
        Some(Reference::SeaLevel)
    } else if is(&["btoc", "btc", "toc", "rim", "bmp", "tc", "brocal", "pretil", "margelle", "curb", "boca", "haut"])
        || after(&["below", "from", "above", "under"], &["casing", "top", "curb"])
        || after(&["measuring"], &["point"])
    {
        Some(Reference::Top)
    } else if is(&[
        "bgl", "bgs", "bls", "agl", "ags", "als", "ground", "grade", "surface", "suelo", "sol", "solo", "terreno",
        "gl", "tn",
    ]) {
        Some(Reference::Ground)
    } else {
        None
    }
}

pub(super) fn is_above(items: &[Item<'_>]) -> bool {
    has(items, &["above", "agl", "ags", "als", "dessus", "sobre", "encima", "acima"])
}

/// The same height above instead of below.
pub(super) fn above(mut reading: Reading) -> Reading {
    reading.si = -reading.si.abs();
    if let Nature::Range { low_si, high_si } = reading.nature {
        reading.nature =
            Nature::Range { low_si: -low_si.abs().max(high_si.abs()), high_si: -low_si.abs().min(high_si.abs()) };
    }
    reading
}
