//! Names of databases that begin with their unit: `FTBORE`, `INPIPE`, `FT_REST`.
//!
//! Two letters in front may be chance, as in `INLAND`: they are a unit where what is left is words of the trade that are measured
//! in it, and where the table has several such names.

use crate::inventory::lexicon::{self, Concept, Language};

/// Names from which on it is the table's way of naming.
const FEWEST: usize = 2;

/// What is measured in feet or meters, in inches or centimeters, and as a flow.
const LONG: [Concept; 13] = [
    Concept::Depth,
    Concept::TotalDepth,
    Concept::Bottom,
    Concept::Water,
    Concept::Level,
    Concept::Static,
    Concept::StaticWaterLevel,
    Concept::Casing,
    Concept::Bore,
    Concept::Hole,
    Concept::Well,
    Concept::Height,
    Concept::Column,
];
const ACROSS: [Concept; 9] = [
    Concept::Diameter,
    Concept::Size,
    Concept::Casing,
    Concept::Bore,
    Concept::Hole,
    Concept::Rock,
    Concept::Inside,
    Concept::Outside,
    Concept::Wall,
];
const FLOWING: [Concept; 3] = [Concept::Yield, Concept::Rate, Concept::Testing];

const UNITS: [(&str, &[Concept]); 6] =
    [("ft", &LONG), ("in", &ACROSS), ("mm", &ACROSS), ("cm", &ACROSS), ("gpm", &FLOWING), ("lpm", &FLOWING)];

/// Words of the trade that nothing is measured in: they change nothing here.
const BESIDE: [Concept; 4] = [Concept::Total, Concept::Below, Concept::Find, Concept::Lower];

/// A name as its words with the unit behind them: `bore (ft)`.
fn taken_apart(heading: &str) -> Option<String> {
    const SHORTEST: usize = 2;
    let heading = heading.trim();
    let one_case = !heading.contains(char::is_lowercase) || !heading.contains(char::is_uppercase);
    let squeezed = heading.bytes().all(|byte| byte.is_ascii_alphabetic() || byte == b'_');
    if heading.is_empty() || !one_case || !squeezed {
        return None;
    }
    let parts = lexicon::tokens(heading);
    let is_known = |words: &[String]| {
        let meaning = lexicon::meaning(words, Language::English);
        meaning.unknown.is_empty() && !meaning.concepts.is_empty()
    };
    // `INSIDE`, `INTAKE`: a word of its own.
    if parts.len() == 1 && is_known(&parts) {
        return None;
    }
    UNITS.iter().find_map(|(unit, measured)| {
        let first = parts.first()?.strip_prefix(unit)?;
        let rest: Vec<String> = std::iter::once(first.to_owned())
            .chain(parts[1..].iter().cloned())
            .filter(|part| !part.is_empty())
            .collect();
        let words: Vec<String> = if is_known(&rest) {
            rest
        } else {
            let cut = |part: &String| lexicon::spaced(part).unwrap_or_else(|| part.clone());
            rest.iter().map(cut).flat_map(|part| lexicon::tokens(&part)).collect()
        };
        let meaning = lexicon::meaning(&words, Language::English);
        let fits = |concept: &Concept| measured.contains(concept) || BESIDE.contains(concept);
        let sound = words.concat().len() >= SHORTEST
            && meaning.unknown.is_empty()
            && meaning.concepts.iter().any(|concept| measured.contains(concept))
            && meaning.concepts.iter().all(fits);
        sound.then(|| format!("{} ({unit})", words.join(" ")))
    })
}

/// What each heading says with its unit behind it; nothing for those that do not begin with one.
pub(super) fn unit_first(headings: &[String]) -> Vec<Option<String>> {
    let apart: Vec<Option<String>> = headings.iter().map(|heading| taken_apart(heading)).collect();
    if apart.iter().flatten().count() >= FEWEST { apart } else { vec![None; headings.len()] }
}

/// `TD'`, `SWL'`: feet, where several headings end so and one has the inches of a pipe beside them. A single mark may be an owner's.
pub(super) fn feet_marks(headings: &[String]) -> Vec<Option<String>> {
    const MARKS: [char; 3] = ['\'', '′', '’'];
    let marked = |heading: &String| {
        let name = heading.trim().strip_suffix(MARKS)?;
        (name.ends_with(char::is_alphabetic) && !name.contains(MARKS)).then(|| format!("{name} (ft)"))
    };
    let found: Vec<Option<String>> = headings.iter().map(marked).collect();
    let inches = headings.iter().any(|heading| heading.trim().ends_with(['"', '″', '”']));
    if inches && found.iter().flatten().count() >= FEWEST { found } else { vec![None; headings.len()] }
}
