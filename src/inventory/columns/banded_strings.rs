//! Strings of casing below bands that tell their order in words: `Dia | Bottom` below `UPPER CASING` and again below `LOWER CASING`.
//!
//! The bottom of the last is the bottom of the well where the list has no column of its own for it; a well without a lower
//! string ends where the upper one does.

use super::evidence::{Asked, LIKELY, Reading, SURE};
use super::plan::AlsoWhen;
use super::strings::NextString;
use super::{Feed, Planner};
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept, Meaning};

/// Words for where a string ends, and for where it begins.
pub(super) const ENDS: [&str; 19] = [
    "bot",
    "bottom",
    "btm",
    "to",
    "end",
    "ends",
    "depth",
    "deep",
    "base",
    "thru",
    "hasta",
    "ate",
    "fondo",
    "fundo",
    "fond",
    "prof",
    "profundidad",
    "profondeur",
    "profundidade",
];
pub(super) const BEGINS: [&str; 9] = ["top", "from", "start", "begins", "desde", "de", "topo", "depuis", "haut"];

/// Most rows, in tenths.
const MOSTLY: usize = 9;

/// Fewer rows with both strings prove nothing.
const FEWEST: usize = 3;

/// The columns of a string below a band, or of one that its headings name.
#[derive(Debug, Clone, Copy)]
pub(super) struct Banded {
    pub(super) width: usize,
    pub(super) top: Option<usize>,
    pub(super) end: usize,
    /// What the string is called says that it goes on where the one above it ends, or that it hangs from the ground.
    pub(super) goes_on: bool,
    pub(super) from_ground: bool,
}

impl Planner<'_> {
    /// Reads strings of casing below bands, where each lies below the one to its left; with the bottom of the wells, where no
    /// other column has it.
    pub(super) fn strings_below_bands<'a>(&mut self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let banded = self.banded();
        let by_name = banded.is_empty();
        let strings = if by_name { self.named() } else { banded };
        let [first, below @ ..] = strings.as_slice() else { return };
        let theirs = |column: usize| strings.iter().any(|one| column == one.width || column == one.end);
        let by_hand = readings.iter().any(|one| one.by_hand && theirs(one.column));
        if below.is_empty() || by_hand || self.first_width.is_some() || !self.lie_below_one_another(&strings) {
            return;
        }
        let has_depth = readings
            .iter()
            .any(|one| one.named.field == Field::TotalDepth && one.score >= LIKELY && !theirs(one.column));
        let goes_on = !by_name && self.in_order_by_words(&strings);
        let begins = |one: &Banded| one.top.is_some() || one.goes_on || one.from_ground;
        let by_word = |last: &Banded| last.goes_on && self.fills_nearly_all(last.end);
        let lower_is_last = matches!(below, [last] if by_word(last));
        let is_told =
            if by_name { (has_depth || lower_is_last) && below.iter().all(begins) } else { !has_depth || goes_on };
        if !is_told {
            return;
        }
        readings.retain(|one| !theirs(one.column) && !strings.iter().any(|string| string.top == Some(one.column)));
        let mut read = |column: usize, field: Field| {
            let named = asked(column).named(field, &Meaning::default());
            readings.push(Reading { column, named, score: (LIKELY + SURE) / 2.0, exact: false, by_hand: false });
        };
        read(first.width, Field::CasingDiameter);
        read(first.end, Field::CasingDepth);
        if let ([last], false) = (below, has_depth) {
            read(last.end, Field::TotalDepth);
            self.upper_string = Some((first.end, last.width));
        }
        for next in below {
            self.beside.push(NextString {
                width: next.width,
                end: next.end,
                top: next.top,
                goes_on: goes_on || next.goes_on,
                from_ground: next.from_ground,
            });
        }
        self.first_width = Some(first.width);
    }

    /// Takes the bottom of the upper string for that of a well that has no lower one.
    pub(super) fn bottom_of_upper(
        &mut self,
        feed: &mut Feed,
        reading: &Reading,
        read: impl Fn(&mut Self, &Reading) -> Feed,
    ) {
        let Some((end, width)) = self.upper_string.filter(|_| feed.also.is_none() && !reading.by_hand) else { return };
        let upper = Reading { column: end, ..reading.clone() };
        feed.also = Some(Box::new(read(self, &upper)));
        feed.also_when = AlsoWhen::NoString(width);
    }

    /// Whether nearly every row has a number in a column: the bottom of a well, and not the end of a string that some wells have.
    fn fills_nearly_all(&self, column: usize) -> bool {
        let most = self.profiles.iter().map(|profile| profile.filled).max().unwrap_or(0);
        self.profiles[column].measures() * 10 >= most * MOSTLY
    }

    /// The strings below bands, from left to right: a band of casing over one width and one end.
    fn banded(&self) -> Vec<Banded> {
        let group = |column: usize| self.table.layout.groups.get(column).map_or("", String::as_str);
        let is_casing = |band: &str| {
            let meaning = lexicon::meaning(&lexicon::tokens(band), self.table.layout.language);
            meaning.has(Concept::Casing) || meaning.has(Concept::Screen) || meaning.has(Concept::Hole)
        };
        let mut found = Vec::new();
        let mut at = 0;
        while at < self.columns.len() {
            let band = group(at);
            let end = (at..self.columns.len()).find(|column| group(*column) != band).unwrap_or(self.columns.len());
            if !band.is_empty() && is_casing(band) {
                found.extend(self.string_of(at, end));
            }
            at = end;
        }
        found
    }

    /// Whether the bands say that one string goes on where the other ends: upper and lower, casing and screen. An inner casing or a
    /// liner may as well hang from the ground.
    fn in_order_by_words(&self, strings: &[Banded]) -> bool {
        const UPPER: [&str; 11] =
            ["upper", "top", "uppr", "upr", "superior", "superieur", "haut", "sup", "arriba", "cima", "casing"];
        const LOWER: [&str; 15] = [
            "lower",
            "lwr",
            "bottom",
            "low",
            "inferior",
            "inferieur",
            "bas",
            "inf",
            "abajo",
            "baixo",
            "screen",
            "crepine",
            "filtro",
            "rejilla",
            "hole",
        ];
        const HANGS: [&str; 8] =
            ["inner", "outer", "liner", "surface", "production", "sleeve", "conductor", "protective"];
        let words = |one: &Banded| lexicon::tokens(self.table.layout.groups.get(one.width).map_or("", String::as_str));
        let says = |one: &Banded, known: &[&str]| words(one).iter().any(|word| known.contains(&word.as_str()));
        let [first, below @ ..] = strings else { return false };
        says(first, &UPPER)
            && below.iter().all(|next| says(next, &LOWER))
            && !strings.iter().any(|one| says(one, &HANGS))
    }

    fn string_of(&self, from: usize, to: usize) -> Option<Banded> {
        let says = |column: usize, known: &[&str]| {
            lexicon::tokens(&self.table.headings[column]).iter().any(|word| known.contains(&word.as_str()))
        };
        let only = |is: &dyn Fn(usize) -> bool| {
            let mut found = (from..to).filter(|at| self.profiles[*at].measures() > 0 && is(*at));
            found.next().filter(|_| found.next().is_none())
        };
        let begins = |at: usize| says(at, &BEGINS) && !says(at, &ENDS);
        let ends = |at: usize| says(at, &ENDS);
        let across = |at: usize| {
            let meaning = self.meaning(at);
            let wide = [Concept::Diameter, Concept::Size, Concept::Inside, Concept::IdentityOrInside];
            wide.iter().any(|concept| meaning.has(*concept)) && !meaning.has(Concept::Outside)
        };
        let width = only(&|at| across(at) && !ends(at) && !begins(at))?;
        let end = only(&|at| ends(at) && !across(at))?;
        Some(Banded { width, top: only(&begins), end, goes_on: false, from_ground: false })
    }

    /// Whether each string ends below the one before it and is no wider, where a row has both.
    fn lie_below_one_another(&self, strings: &[Banded]) -> bool {
        strings.windows(2).all(|two| {
            let ends = self.pairs(two[0].end, two[1].end);
            let widths = self.pairs(two[0].width, two[1].width);
            let below = ends.iter().filter(|(upper, lower)| lower > upper).count();
            let within = widths.iter().filter(|(upper, lower)| lower <= upper).count();
            ends.len() >= FEWEST
                && widths.len() >= FEWEST
                && below * 10 >= ends.len() * MOSTLY
                && within * 10 >= widths.len() * MOSTLY
        })
    }
}
