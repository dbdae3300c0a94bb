//! The unit of length, volume or flow that words name.

use crate::quantity::unit::{self, Dimension, Gallon, Unit};

/// The unit of length, volume or flow among these words; `in` only where it is not a preposition.
pub fn unit_of(words: &[String], gallon: Option<Gallon>) -> Option<&'static Unit> {
    let known = |written: &str| match unit::look_up(written, gallon) {
        Some(unit::Meaning::Unit(unit))
            if matches!(unit.dimension, Dimension::Length | Dimension::Volume | Dimension::Flow) =>
        {
            Some(unit)
        }
        _ => None,
    };
    let count = words.len();
    for (at, word) in words.iter().enumerate() {
        let last = at + 1 == count;
        // `drilled are 6 in. unless noted` states a size, and `24-6 is 24 ft 6 in` shows how sizes are written.
        if at > 0 && words[at - 1].starts_with(|c: char| c.is_ascii_digit()) {
            continue;
        }
        let found = match word.as_str() {
            // `ft in` is feet with inches; `diameters in.` ends with it; `in ft` does not.
            "in" if !last && known(&words[at + 1]).is_some() => None,
            "in" if at > 0 || last => known("in").filter(|_| last || count - at <= 3 && is_reference(&words[at + 1..])),
            "in" => known("in").filter(|_| is_reference(&words[1..])),
            // One letter is a unit only where little else is said; `en m depuis le fond`.
            "m" => known("m").filter(|_| last || at == 0 || ["en", "in", "em"].contains(&words[at - 1].as_str())),
            word if word.chars().count() == 1 => None,
            // A level's `foot valve`, the `foot of the sheet`.
            // `Pied du tubage`, `pie del ademe`: where the pipe stands.
            "pied" | "pie" | "pe" => known("ft").filter(|_| last),
            "foot" => known("ft").filter(|_| last && (at == 0 || words[at - 1] != "the")),
            // `Footages from land surface`.
            "footage" | "footages" => known("ft"),
            // Words of the trade that are also units: a point of a driven well, a column of a table, a dry day, the yard that
            // the water runs to.
            "pol" | "pulg" if count == 1 => known(word),
            // `Footages from land surface`
            "metrage" | "metrages" | "meterage" | "metraje" | "metragem" => known("m"),
            // `dm` in a note is a code more often than decimeters, which a heading says in its bracket.
            "dm" | "yd" | "yard" | "pt" | "pol" | "po" | "col" | "a" | "day" | "days" | "ins" | "mt" => None,
            word => known(word),
        };
        if found.is_some() {
            return found;
        }
    }
    None
}

/// Whether these words only say what a length is measured of or from.
fn is_reference(words: &[String]) -> bool {
    words.iter().all(|word| {
        [
            "i", "d", "id", "o", "od", "nominal", "inside", "below", "above", "from", "rim", "toc", "top", "of",
            "casing", "ground",
        ]
        .contains(&word.as_str())
    })
}
