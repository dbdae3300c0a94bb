//! Units that a list makes its own: `1 anel = 0,50 m`, `each ring is 3 ft`, `v. = varas de 0,836 m`.

use super::unit::unit_of;
use crate::inventory::phrases::{self, Token};
use crate::quantity::unit::{Dimension, Unit};

/// A unit that a note defines.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnUnit {
    /// The word or the abbreviation, in lower case without accents.
    pub word: String,
    /// How many of the unit below one of it is.
    pub size: f64,
    /// The unit in which the note gives its length.
    pub unit: &'static Unit,
    /// The words that define it, as written.
    pub says: String,
}

/// Words that say that what follows is said of one of them.
const ONE: [&str; 12] = ["1", "one", "each", "every", "un", "una", "une", "um", "uma", "cada", "chaque", "per"];
/// What joins the word and its length.
const JOINS: [&str; 18] = [
    "=", "is", "are", "of", "de", "d", "del", "tem", "tiene", "mide", "mede", "fait", "mesure", "has", "measures", "(",
    ":", "high",
];
/// Words that are counted as units where a length stands behind them. From memory: the vara of Central America and Brazil, concrete rings.
const COUNTED: [&str; 16] = [
    "vara", "varas", "ring", "rings", "anel", "aneis", "anillo", "anillos", "anneau", "anneaux", "buse", "buses",
    "crock", "crocks", "tile", "tiles",
];

/// The units of length that a note defines.
pub fn own_units(note: &str) -> Vec<OwnUnit> {
    let tokens = phrases::tokens(note);
    let mut found = Vec::new();
    for at in 1..tokens.len().saturating_sub(1) {
        let unit = unit_of(std::slice::from_ref(&tokens[at + 1].word), None)
            .filter(|unit| unit.dimension == Dimension::Length);
        let (Some(size), Some(unit)) = (tokens[at].number.filter(|size| *size > 0.0), unit) else { continue };
        let joins = |token: &&Token| JOINS.contains(&token.word.as_str());
        let joined = tokens[..at].iter().rev().take_while(joins).count();
        let Some(word) = (at - joined).checked_sub(1).filter(|word| joined > 0 && tokens[*word].is_word()) else {
            continue;
        };
        let before = word.checked_sub(1).map(|before| tokens[before].word.as_str());
        let of_one = before.is_some_and(|before| ONE.contains(&before));
        if !of_one && !COUNTED.contains(&tokens[word].word.as_str()) {
            continue;
        }
        let is_length = |token: &Token| unit_of(std::slice::from_ref(&token.word), None).is_some();
        // `v. = varas de 0,836 m`: the short form too.
        let is_sign = |token: &&Token| matches!(token.word.as_str(), "=" | ".");
        let short = tokens[..word].iter().rev().take_while(is_sign).count();
        let short = word.checked_sub(short + 1).filter(|short| before == Some("=") && tokens[*short].is_word());
        for one in [Some(word), short].into_iter().flatten().filter(|one| !is_length(&tokens[*one])) {
            let says = note[tokens[short.unwrap_or(word)].start..tokens[at + 1].end].to_owned();
            found.push(OwnUnit { word: tokens[one].word.clone(), size, unit, says });
        }
    }
    found
}

impl OwnUnit {
    /// How much a cell says that is counted in it, in the unit of the note: `8 aneis`, `12,5 v.`
    pub fn count(&self, text: &str) -> Option<f64> {
        let tokens = phrases::tokens(text);
        let [count, word, rest @ ..] = tokens.as_slice() else { return None };
        let alone = rest.iter().all(|token| token.word == ".");
        let is_it = word.is_word() && alone && same_word(&self.word, &word.word);
        count.number.filter(|count| is_it && *count > 0.0).map(|count| count * self.size)
    }

    /// Whether a remark speaks of this unit: this well's rings may be of another size.
    pub fn is_spoken_of(&self, remark: &str) -> bool {
        phrases::tokens(remark).iter().any(|token| token.is_word() && same_word(&self.word, &token.word))
    }
}

/// Whether two words are one but for the ending of a plural; short ones are abbreviations and stand as they are.
fn same_word(one: &str, other: &str) -> bool {
    const SHORTEST: usize = 4;
    let (short, long) = if one.len() <= other.len() { (one, other) } else { (other, one) };
    one == other
        || short.len() >= SHORTEST && long.len() <= short.len() + 2 && long.starts_with(&short[..short.len() - 1])
}

#[cfg(test)]
mod tests {
    use super::own_units;

    #[test]
    fn a_note_defines_a_unit() {
        for (note, cell, meters) in [
            ("Fundo em metros, ou em anéis (1 anel = 0,50 m).", "8 anéis", Some(4.0)),
            ("Boca en metros. v. = varas de 0,836 m. s/d = sin dato", "2 v.", Some(1.672)),
            ("Boca en metros. v. = varas de 0,836 m. s/d = sin dato", "10 varas", Some(8.36)),
            ("Each ring is 3 ft", "5 rings", Some(4.572)),
            ("Depth = 3 ft", "5 rings", None),
            ("Drilled are 6 in. unless noted", "6 drilled", None),
            ("Each ring is 3 ft", "5 ft", None),
        ] {
            let read = own_units(note).iter().find_map(|unit| Some(unit.unit.to_si(unit.count(cell)?)));
            assert_eq!(read.map(|read| (read * 1e6).round() / 1e6), meters, "{note}: {cell}");
        }
    }
}
