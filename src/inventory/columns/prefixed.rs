//! Names that a register puts a `W` before, for well: `WDEPTH`, `WSIZE`, `W_DIA`, `WSRC`.
//!
//! `WDEPTH` alone may as well be the depth of the water: it is the well's where others of the table have the same letter
//! before them, or where another column is the level and none the depth.

use super::patterns;
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept, Language};

/// Headings with the letter from which on it is the table's way of naming.
const FEWEST: usize = 3;

/// What the letter may stand before in any table.
const ALONE: [Concept; 3] = [Concept::Size, Concept::Diameter, Concept::Kind];

/// What it may stand before where it is the table's way of naming.
const TOGETHER: [Concept; 14] = [
    Concept::Size,
    Concept::Diameter,
    Concept::Kind,
    Concept::Depth,
    Concept::Total,
    Concept::Bottom,
    Concept::Level,
    Concept::Number,
    Concept::Yield,
    Concept::Date,
    Concept::Use,
    Concept::State,
    Concept::Built,
    Concept::Name,
];

/// A heading as its letter, what the word behind it stands for, and the same without the letter.
fn taken_apart(heading: &str) -> Option<(Vec<Concept>, String)> {
    const LETTER: &str = "w";
    const SHORTEST: usize = 2;
    let words = lexicon::tokens(heading);
    let first = words.first()?;
    let (names, rest) = match first.strip_prefix(LETTER)? {
        "" => (vec![words.get(1)?.as_str()], words.get(2..)?),
        // `WLTYP`, `WLDEPFT` have two letters of the word.
        name => (name.strip_prefix('l').into_iter().chain([name]).collect(), &words[1..]),
    };
    let rest: String = rest.iter().map(|word| format!(" {word}")).collect();
    names.into_iter().find_map(|name| {
        // `W.D.` beside `W.L.`
        let name = if name == "d" { "depth" } else { name };
        let name = lexicon::spaced(name).unwrap_or_else(|| name.to_owned());
        let mut parts = lexicon::tokens(&name);
        parts.retain(|part| !UNITS.contains(&part.as_str()));
        let meaning = lexicon::meaning(&parts, Language::English);
        let known = name.len() >= SHORTEST && meaning.unknown.is_empty() && !meaning.concepts.is_empty();
        known.then(|| (meaning.concepts, format!("well {name}{rest}")))
    })
}

/// Units that a name may end with: `WLDIAIN`.
const UNITS: [&str; 5] = ["ft", "in", "mm", "cm", "m"];

/// Headings without the words that they share before a colon: `Well to treat: depth ft`, `Well to treat: dia in`.
pub(super) fn shared(headings: &[String]) -> Vec<Option<String>> {
    let before = |heading: &str| heading.split_once(": ").map(|(before, _)| before.trim().to_lowercase());
    headings
        .iter()
        .map(|heading| {
            let own = before(heading)?;
            let many = headings.iter().filter(|other| before(other).as_ref() == Some(&own)).count() >= FEWEST;
            heading.split_once(": ").filter(|_| many).map(|(_, rest)| rest.trim().to_owned())
        })
        .collect()
}

/// Headings without the word by which several say that it was found so: `Depth found (ft)`, `Casing found (in)`.
pub(super) fn as_found(headings: &[String]) -> Vec<Option<String>> {
    const FOUND: [&str; 6] = ["found", "observed", "encontrado", "encontrada", "constate", "constatee"];
    let is_found = |word: &&str| FOUND.contains(&lexicon::fold(word).as_str());
    let without = |heading: &String| {
        let words: Vec<&str> = heading.split_whitespace().collect();
        let rest: Vec<&str> = words.iter().copied().filter(|word| !is_found(word)).collect();
        (rest.len() < words.len() && !rest.is_empty()).then(|| rest.join(" "))
    };
    let found: Vec<Option<String>> = headings.iter().map(without).collect();
    let many = found.iter().flatten().count() >= FEWEST;
    found.into_iter().map(|heading| heading.filter(|_| many)).collect()
}

/// What each heading says with the letter read as well; nothing for those without it.
pub(super) fn prefixed(headings: &[String]) -> Vec<Option<String>> {
    let apart: Vec<Option<(Vec<Concept>, String)>> = headings
        .iter()
        .map(|heading| {
            let words = lexicon::tokens(heading);
            // `WATER`, `WIDTH`, `WELL_DEPTH`: a word of its own.
            let whole = words.first().is_some_and(|first| {
                first != "w" && {
                    let meaning = lexicon::meaning(std::slice::from_ref(first), Language::English);
                    meaning.unknown.is_empty() && !meaning.concepts.is_empty()
                }
            });
            taken_apart(heading).filter(|_| !whole)
        })
        .collect();
    let is_level = |heading: &String| {
        let best = patterns::scores(&lexicon::meaning(&lexicon::tokens(heading), Language::English));
        best.first().is_some_and(|(field, score)| *field == Field::StaticWaterLevel && *score >= 0.6)
    };
    let squeezed_level = |heading: &String| {
        let words = lexicon::tokens(heading);
        // `WLEVEL` and `W_LVL`; `WL` is written everywhere.
        let squeezed = match words.as_slice() {
            [only] => only.len() > 2 && only.starts_with('w') && !only.starts_with("wa") && !only.starts_with("wt"),
            [first, ..] => first == "w",
            [] => false,
        };
        squeezed && is_level(heading)
    };
    let in_this_way = |concepts: &[Concept], known: &[Concept]| concepts.iter().all(|concept| known.contains(concept));
    let so_named = apart.iter().flatten().filter(|(concepts, _)| in_this_way(concepts, &TOGETHER)).count()
        + headings.iter().filter(|heading| squeezed_level(heading)).count();
    let depth_elsewhere = headings.iter().zip(&apart).any(|(heading, apart)| {
        let best = patterns::scores(&lexicon::meaning(&lexicon::tokens(heading), Language::English));
        apart.is_none() && best.first().is_some_and(|(field, _)| *field == Field::TotalDepth)
    });
    let level_elsewhere = headings.iter().zip(&apart).any(|(heading, apart)| apart.is_none() && is_level(heading));
    apart
        .into_iter()
        .map(|apart| {
            let (concepts, heading) = apart?;
            let is_depth = concepts == [Concept::Depth] && level_elsewhere && !depth_elsewhere;
            let sound =
                in_this_way(&concepts, &ALONE) || so_named >= FEWEST && in_this_way(&concepts, &TOGETHER) || is_depth;
            sound.then_some(heading)
        })
        .collect()
}
