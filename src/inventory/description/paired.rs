//! Several measures in one cell in the order of the heading: `140/35` below `Depth / water (ft)`, `6 / 140` below `Dia/Depth (in/ft)`.

use super::{DEPTH, LEVEL, Parts, WIDTH};
use crate::inventory::heading::Datum;
use crate::inventory::lexicon::{self, Concept, Language, Meaning};
use crate::inventory::notes;
use crate::quantity::parse::{plain, written_out};

const MOST: usize = 3;

/// The measures of a cell, from left to right, as places in the table of parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Order {
    of: [usize; MOST],
    count: usize,
}

/// What parts measures in a heading, and in a cell.
const IN_HEADING: [&str; 11] = ["/", "&", "+", "|", ";", ",", " - ", " and ", " y ", " et ", " e "];
const IN_CELL: [&str; 8] = ["/", "&", "|", ";", "-", "–", " and ", ", "];

impl Order {
    /// The order that a heading tells, where notes leave no doubt of what its water is.
    pub fn told(heading: &str, notes: &[String], language: Language) -> Option<Self> {
        let (outer, _) = outside(heading);
        let parts: Vec<&str> = pieces(outer, &IN_HEADING);
        if !(2..=MOST).contains(&parts.len()) {
            return None;
        }
        let mut order = Self { of: [0; MOST], count: 0 };
        for part in parts {
            let at = measure(&lexicon::meaning(&lexicon::tokens(part), language), notes, language)?;
            if order.places().any(|known| known == at) {
                return None;
            }
            order.of[order.count] = at;
            order.count += 1;
        }
        Some(order)
    }

    /// The places of its measures in the table of parts.
    pub fn places(self) -> impl Iterator<Item = usize> {
        self.of.into_iter().take(self.count)
    }

    /// The texts of a cell; nothing where it has not as many as the heading.
    fn texts(self, cell: &str) -> Option<Vec<&str>> {
        let texts = IN_CELL.iter().map(|mark| cell.split(mark).map(str::trim).collect::<Vec<_>>());
        texts.into_iter().find(|texts| texts.len() == self.count && texts.iter().all(|text| !text.is_empty()))
    }

    /// Whether a cell gives a number for each measure, and no water below the bottom.
    pub fn is_given(self, cell: &str) -> bool {
        let number = |text: &&str| {
            let figures = text.split(|c: char| !c.is_ascii_digit() && c != '.').next().unwrap_or_default();
            plain(figures)
        };
        let Some(texts) = self.texts(cell) else { return false };
        let numbers: Vec<f64> = texts.iter().filter_map(number).collect();
        let of = |place: usize| self.places().position(|at| at == place).and_then(|at| numbers.get(at));
        let dry = of(DEPTH).zip(of(LEVEL)).is_some_and(|(depth, level)| level >= depth);
        numbers.len() == self.count && !dry
    }

    /// The words of each measure. Of one number alone nothing says which it is.
    pub fn parts(self, cell: &str) -> Parts {
        let mut parts = Parts::default();
        match self.texts(cell) {
            Some(texts) => {
                for (place, text) in self.places().zip(texts) {
                    text.clone_into(&mut parts.of[place]);
                }
            }
            None if cell.contains(|c: char| c.is_ascii_digit()) || written_out(&cell.to_lowercase()).is_some() => {
                parts.unread.push(cell.to_owned());
            }
            None => {}
        }
        parts
    }

    /// The unit that a heading gives each measure: `(ft)` for all of them, `(in/ft)` for one after the other.
    pub fn units(self, heading: &str) -> Vec<String> {
        let (_, inner) = outside(heading);
        let several = pieces(inner, &["/", "&", ",", " and "]);
        let unit = |at: usize| if several.len() == self.count { several[at] } else { inner };
        (0..self.count).map(|at| unit(at).trim().to_owned()).collect()
    }
}

/// What stands before the bracket of a heading, and in it.
fn outside(heading: &str) -> (&str, &str) {
    match heading.split_once(['(', '[']) {
        Some((outer, inner)) => (outer, inner.trim_end().trim_end_matches([')', ']'])),
        None => (heading, ""),
    }
}

/// The pieces of a text between the first of these marks that it has.
fn pieces<'a>(text: &'a str, marks: &[&str]) -> Vec<&'a str> {
    let mark = marks.iter().find(|mark| text.contains(*mark));
    mark.map_or_else(|| vec![text.trim()], |mark| text.split(mark).map(str::trim).collect())
}

/// What a part of a heading measures. Water alone is a level only where a note counts it down from somewhere.
fn measure(meaning: &Meaning, notes: &[String], language: Language) -> Option<usize> {
    let has = |concepts: &[Concept]| concepts.iter().any(|concept| meaning.has(*concept));
    if !meaning.unknown.is_empty() || has(&[Concept::Casing, Concept::Screen, Concept::Pump, Concept::Date]) {
        return None;
    }
    if has(&[Concept::Static, Concept::StaticWaterLevel, Concept::Level])
        || meaning.has(Concept::Water) && meaning.has(Concept::Depth)
        || meaning.has(Concept::Water) && !has(&[Concept::Height, Concept::Column]) && counted_down(notes, language)
    {
        return Some(LEVEL);
    }
    if has(&[Concept::Water, Concept::Height, Concept::Column]) {
        return None;
    }
    if has(&[Concept::Diameter, Concept::Size]) {
        return Some(WIDTH);
    }
    has(&[Concept::Depth, Concept::TotalDepth, Concept::Bottom]).then_some(DEPTH)
}

/// Whether a note says of water that it is counted down from the ground or the rim.
fn counted_down(notes: &[String], language: Language) -> bool {
    let mut clauses = notes.iter().flat_map(|note| note.split(['.', ';', ',']));
    clauses.any(|clause| {
        let words = lexicon::tokens(clause);
        let meaning = lexicon::meaning(&words, language);
        let water = [Concept::Water, Concept::Level, Concept::StaticWaterLevel].iter().any(|of| meaning.has(*of));
        water && matches!(notes::datum(&words, &meaning), Some(Datum::Ground | Datum::TopOfCasing))
    })
}
