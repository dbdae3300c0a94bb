//! Headings that begin with the same word for the well: `Well (type)`, `Well (static, ft)`; `Wl. type`, `Wl. depth`, `Wl. dia.`

use crate::inventory::lexicon::{self, Concept, Language};

/// Headings from which on it is the table's way of naming.
const FEWEST: usize = 3;

/// What each heading means with its bracket opened, where several name the well outside of theirs.
pub(super) fn bracketed(headings: &[String], language: Language) -> Vec<Option<String>> {
    let opened = |heading: &String| {
        let (outer, inner) = heading.strip_suffix(')')?.split_once(" (")?;
        let well = lexicon::meaning(&lexicon::tokens(outer), language);
        // `Well (dr = drilled, du = dug)` and `Well (drilled, dug, bored)` list answers.
        let list = inner.contains(['=', '(']) || inner.matches(',').count() > 1;
        let is_well = well.concepts == [Concept::Well] && well.unknown.is_empty();
        (is_well && !list).then(|| format!("{outer} {inner}"))
    };
    let found: Vec<Option<String>> = headings.iter().map(opened).collect();
    let is_way = found.iter().flatten().count() >= FEWEST;
    found.into_iter().map(|heading| heading.filter(|_| is_way)).collect()
}

/// What each heading means where `Wl.` is the well and no water level: water has no diameter.
pub(super) fn shortened(headings: &[String]) -> Vec<Option<String>> {
    let behind = |heading: &String| {
        let (first, rest) = heading.trim().split_once(' ')?;
        first.trim_end_matches('.').eq_ignore_ascii_case("wl").then(|| rest.trim().to_owned())
    };
    let found: Vec<Option<String>> = headings.iter().map(behind).collect();
    let across = |rest: &String| lexicon::meaning(&lexicon::tokens(rest), Language::English).has(Concept::Diameter);
    let is_well = found.iter().flatten().count() >= FEWEST && found.iter().flatten().any(across);
    found.into_iter().map(|rest| rest.filter(|_| is_well).map(|rest| format!("Well {rest}"))).collect()
}
