//! Strings of casing that the headings themselves name: `Outer dia | Outer top | Outer btm | Inner dia | Inner top | Inner btm`.

use super::Planner;
use super::banded_strings::{BEGINS, Banded, ENDS};
use super::strings;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::quantity::unit;

/// Words that say no more than that it is a string.
const BESIDE: [&str; 9] = ["str", "string", "strg", "set", "casing", "csg", "pipe", "ft", "in"];
/// Words of the trade size of a pipe, by themselves.
const NOMINAL: [&str; 4] = ["nom", "nominal", "nom'l", "noml"];

/// A part of a string that a heading names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Width,
    Top,
    End,
}

impl Planner<'_> {
    /// The strings that headings name, from the outside to the inside; none where one of them has two widths or two ends.
    pub(super) fn named(&self) -> Vec<Banded> {
        let mut parts: Vec<(u32, Part, usize)> = Vec::new();
        let mut last = None;
        for (at, heading) in self.table.headings.iter().enumerate() {
            let words = lexicon::tokens(heading);
            let (names, rest): (Vec<String>, Vec<String>) =
                words.into_iter().partition(|word| strings::place(word).is_some());
            let own = if let [name] = names.as_slice() { strings::place(name) } else { None };
            let Some(part) = part(&rest, |words| lexicon::meaning(words, self.table.layout.language)) else {
                last = None;
                continue;
            };
            // `Surf csg dia | from | to`: what only goes on is of the string to its left.
            let goes_on = names.is_empty() && part != Part::Width && only_goes_on(&rest);
            let place = own.or_else(|| last.filter(|_| goes_on));
            if let Some(place) = place.filter(|_| self.profiles[at].measures() > 0) {
                parts.push((place, part, at));
            }
            last = place;
        }
        let mut places: Vec<u32> = parts.iter().map(|(place, ..)| *place).collect();
        places.sort_unstable();
        places.dedup();
        let only = |place: u32, part: Part| {
            let mut found = parts.iter().filter(|(of, is, _)| *of == place && *is == part).map(|(.., at)| *at);
            found.next().filter(|_| found.next().is_none())
        };
        let string = |place: &u32| {
            let (goes_on, from_ground) = strings::begins(*place);
            let (width, end) = (only(*place, Part::Width)?, only(*place, Part::End)?);
            Some(Banded { width, top: only(*place, Part::Top), end, goes_on, from_ground })
        };
        let complete: Option<Vec<Banded>> = places.iter().map(string).collect();
        complete.unwrap_or_default()
    }
}

/// What a heading without the name of its string says of it.
fn part(words: &[String], meaning: impl Fn(&[String]) -> Meaning) -> Option<Part> {
    const ACROSS: [Concept; 3] = [Concept::Diameter, Concept::Size, Concept::IdentityOrInside];
    const OTHER: [Concept; 10] = [
        Concept::Outside,
        Concept::Wall,
        Concept::Thickness,
        Concept::Material,
        Concept::Kind,
        Concept::Grout,
        Concept::Screen,
        Concept::Water,
        Concept::Pump,
        Concept::Date,
    ];
    let says = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    let meant = meaning(words);
    if OTHER.iter().any(|concept| meant.has(*concept)) {
        return None;
    }
    let wide = ACROSS.iter().any(|concept| meant.has(*concept)) || says(&NOMINAL);
    match (wide, says(&BEGINS), says(&ENDS)) {
        (true, false, false) => Some(Part::Width),
        (false, true, false) => Some(Part::Top),
        (false, false, true) => Some(Part::End),
        _ => None,
    }
}

/// Whether a heading says no more than where something begins or ends.
fn only_goes_on(words: &[String]) -> bool {
    words.iter().map(String::as_str).all(|word| {
        BEGINS.contains(&word) || ENDS.contains(&word) || BESIDE.contains(&word) || unit::look_up(word, None).is_some()
    })
}
