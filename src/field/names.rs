//! Names of places and things as people write them: `Firehall 3`, `firehall 3` and `Fire-hall 3` are one depot.

use std::collections::BTreeMap;

/// What names are compared by: letters and figures in small letters, with a mark only between two figures, so that depots
/// 1-5 and 15 stay two; a word that only says that a number follows is passed over.
pub fn fold(name: &str) -> String {
    let mut folded = String::with_capacity(name.len());
    let mut words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).peekable();
    while let Some(word) = words.next() {
        let figure_follows = words.peek().is_some_and(|next| next.starts_with(char::is_numeric));
        let numbering = ["no", "nr", "num", "number"].iter().any(|known| word.eq_ignore_ascii_case(known));
        if numbering && figure_follows && !folded.is_empty() {
            continue; // `Fire Hall No. 3` and `Firehall 3`.
        }
        if word.starts_with(char::is_numeric) && folded.ends_with(char::is_numeric) {
            folded.push('-');
        }
        folded.extend(word.chars().flat_map(char::to_lowercase));
    }
    if folded.is_empty() { name.to_owned() } else { folded }
}

/// Whether a heading tells how a crew gets there, and names no place of its own: access road, camino de acceso, accès, acesso. From
/// memory.
pub fn is_way(heading: &str) -> bool {
    let heading = heading.to_lowercase();
    ["acces", "accès", "acess"].iter().any(|way| heading.contains(way))
}

/// Whether two names are one.
pub fn is_same(one: &str, other: &str) -> bool {
    one == other || fold(one) == fold(other)
}

/// Which spelling counts for each that is written otherwise: the one that the scenario file states, else the one of most
/// rows, else the first in order. `spellings` are with how many rows have them.
///
/// It depends on what is written how often, not on the order of rows.
pub fn spellings_that_count(spellings: &BTreeMap<String, u64>, stated: &[String]) -> BTreeMap<String, String> {
    let mut alike: BTreeMap<String, Vec<(&String, u64)>> = BTreeMap::new();
    for (name, rows) in spellings {
        alike.entry(fold(name)).or_default().push((name, *rows));
    }
    let mut counts = BTreeMap::new();
    for (folded, names) in alike {
        let stated = stated.iter().find(|stated| fold(stated) == folded);
        let most = names.iter().min_by_key(|(name, rows)| (std::cmp::Reverse(*rows), *name)).map(|(name, _)| *name);
        let Some(counted) = stated.or(most) else { continue };
        let others = names.iter().filter(|(name, _)| *name != counted);
        counts.extend(others.map(|(name, _)| ((*name).clone(), counted.clone())));
    }
    counts
}

/// Whether two names are one letter apart, and no figure: Depot 1 and Depot 2 are two depots.
pub fn is_near(one: &str, other: &str) -> bool {
    let (one, other) = (fold(one), fold(other));
    let figures = |name: &str| name.chars().filter(|c| c.is_numeric()).collect::<String>();
    let letters = |name: &str| name.chars().filter(|c| c.is_alphabetic()).collect::<String>();
    let (a, b) = (letters(&one), letters(&other));
    one != other
        && a.chars().count().min(b.chars().count()) >= 5
        && a.chars().count().abs_diff(b.chars().count()) <= 1
        && figures(&one) == figures(&other)
        && crate::quantity::parse::edits(&a, &b) == 1
}
