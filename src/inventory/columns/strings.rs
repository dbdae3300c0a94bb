//! Casing strings in columns, one string beside the other: `CSG1_ID`, `CSG1_TO`, `CSG2_ID`, `CSG2_TO`, or `Dia`, `From`, `To` below
//! `Casing 1` and again below `Casing 2`.
//!
//! The first is what the fields of the casing read; the others are told by the numbers of their headings, or of the groups above
//! them. A liner or a screen in columns of its own, `LINER_DIAM`, `LINER_TOP`, `LINER_BOT`, is the string below the casing.

use super::Planner;
use super::assignment::Assignment;
use super::evidence::{LIKELY, Reading};
use super::other_widths::in_order;
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept, Meaning};

/// Words for a pipe that is set into the casing.
const LINER: [&str; 6] = ["liner", "lnr", "linr", "liners", "sleeve", "sleeves"];
/// Words for a pipe that lets the water in.
const SCREEN: [&str; 6] = ["screen", "screens", "scr", "scrn", "filtro", "filtros"];

/// How strings are told apart.
#[derive(Debug, Clone, Copy, Default)]
struct Way {
    with_group: bool,
    by_words: bool,
}

/// Where a string begins by what it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Below {
    FromGround,
    GoesOn,
    Unsaid,
}

/// What strings are called, in which order they stand from the outside to the inside, and where each begins. A casing hangs from the
/// ground inside the one before it; what is called lower goes on where the upper one ends. Usage of drillers, from memory.
const CALLED: [(&str, u32, Below); 22] = [
    ("conductor", 1, Below::Unsaid),
    ("surface", 2, Below::Unsaid),
    ("outer", 2, Below::Unsaid),
    ("outside", 2, Below::Unsaid),
    ("upper", 3, Below::Unsaid),
    ("first", 4, Below::Unsaid),
    ("1st", 4, Below::Unsaid),
    ("primary", 4, Below::Unsaid),
    ("a", 4, Below::Unsaid),
    ("intermediate", 5, Below::FromGround),
    ("production", 6, Below::FromGround),
    ("prod", 6, Below::FromGround),
    ("inner", 7, Below::FromGround),
    ("main", 7, Below::FromGround),
    ("lower", 8, Below::GoesOn),
    ("second", 9, Below::Unsaid),
    ("2nd", 9, Below::Unsaid),
    ("secondary", 9, Below::Unsaid),
    ("b", 9, Below::Unsaid),
    ("third", 10, Below::Unsaid),
    ("3rd", 10, Below::Unsaid),
    ("c", 10, Below::Unsaid),
];

fn is_called(place: u32, below: Below) -> bool {
    CALLED.iter().any(|(_, of, begins)| *of == place && *begins == below)
}

/// Words for a string that stand in headings beside those of [`CALLED`], each with its place among them.
const SHORT: [(&str, u32); 7] =
    [("surf", 2), ("sfc", 2), ("inter", 5), ("liner", 9), ("lnr", 9), ("sleeve", 9), ("linr", 9)];

/// The place of a string by what it is called, from the outside to the inside; single letters say nothing by themselves.
pub(super) fn place(word: &str) -> Option<u32> {
    let called = CALLED.iter().filter(|(name, ..)| name.len() > 1).map(|(name, place, _)| (*name, *place));
    called.chain(SHORT).find(|(name, _)| *name == word).map(|(_, place)| place)
}

/// Whether a string of this place goes on where the one above it ends, and whether it hangs from the ground.
pub(super) fn begins(place: u32) -> (bool, bool) {
    (is_called(place, Below::GoesOn), is_called(place, Below::FromGround))
}

/// A string below the first one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextString {
    /// The column of its width, in the unit of the first one's.
    pub width: usize,
    /// The column of the depth that it reaches, in the unit of the first one's.
    pub end: usize,
    /// The column of the depth where it begins, where there is one.
    pub top: Option<usize>,
    /// Whether it goes on where the one above it ends, by the layout of the list.
    pub goes_on: bool,
    /// Whether it hangs from the ground inside the one above it, by what it is called.
    pub from_ground: bool,
}

impl NextString {
    /// The columns that tell its width, its end and where it begins.
    pub fn columns(self) -> impl Iterator<Item = usize> {
        [Some(self.width), Some(self.end), self.top].into_iter().flatten()
    }
}

impl Planner<'_> {
    /// The strings below the first one, from the top down; none where one of them has a width or an end alone.
    pub(super) fn next_strings(&self, assignment: &Assignment) -> Vec<NextString> {
        let (Some(width), Some(end)) =
            (assignment.likely(Field::CasingDiameter), assignment.likely(Field::CasingDepth))
        else {
            return Vec::new();
        };
        if self.first_width == Some(width) {
            return self.beside.clone();
        }
        let Some(mut found) = self.numbered(width, end, Way::default()) else { return Vec::new() };
        for way in [(true, false), (false, true), (true, true)] {
            if found.is_empty() {
                found = self.numbered(width, end, Way { with_group: way.0, by_words: way.1 }).unwrap_or_default();
            }
        }
        for below in [&LINER, &SCREEN] {
            let taken: Vec<usize> =
                [width, end].into_iter().chain(found.iter().flat_map(|next| next.columns())).collect();
            let free = |at: usize| !taken.contains(&at) && !assignment.is_used(at);
            found.extend(self.string_called(below, free));
        }
        found
    }

    /// Drops what columns below `Casing 2` or `Liner` may be, where others stand below `Casing 1` or `Casing`: they are of strings
    /// further down. Gives what was dropped.
    pub(super) fn first_of_groups(&self, readings: &mut Vec<Reading>) -> Vec<Reading> {
        const OF_CASING: [Field; 4] =
            [Field::CasingDiameter, Field::CasingOutsideDiameter, Field::CasingDepth, Field::TotalDepth];
        let group = |column: usize| self.table.layout.groups.get(column).map_or("", String::as_str);
        let casings: Vec<(Vec<String>, Option<u32>)> =
            self.table.layout.groups.iter().map(|group| in_order(group)).collect();
        let is_casing = |words: &[String]| {
            lexicon::meaning(words, self.table.layout.language).has(Concept::Casing)
                && !words.iter().any(|word| LINER.contains(&word.as_str()))
        };
        let first = |words: &[String]| {
            casings.iter().filter(|(other, _)| other == words).filter_map(|(_, number)| *number).min()
        };
        let has_casing = casings.iter().any(|(words, _)| is_casing(words));
        let is_later = |column: usize| {
            let Some((words, number)) = casings.get(column).filter(|_| !group(column).is_empty()) else { return false };
            let called = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
            let of_casing = is_casing(words);
            of_casing && number.is_some_and(|number| first(words).is_some_and(|first| first < number))
                || has_casing && !of_casing && (called(&LINER) || called(&SCREEN))
        };
        let (later, kept) = std::mem::take(readings)
            .into_iter()
            .partition(|one| !one.by_hand && OF_CASING.contains(&one.named.field) && is_later(one.column));
        *readings = kept;
        later
    }

    /// Asks about widths of strings further down that could not be joined with their ends.
    pub(super) fn not_below(&mut self, later: Vec<Reading>) {
        for one in later {
            let is_width = one.named.field == Field::CasingDiameter && one.score >= LIKELY;
            if is_width && !self.strings.iter().any(|next| next.columns().any(|column| column == one.column)) {
                self.open(&one);
            }
        }
    }

    /// The heading of a column, with the group above it where that is asked for.
    fn in_words(&self, column: usize, with_group: bool) -> String {
        let heading = &self.table.headings[column];
        match self.table.layout.groups.get(column).filter(|group| with_group && !group.is_empty()) {
            Some(group) => format!("{group} {heading}"),
            None => heading.clone(),
        }
    }

    /// The words of a heading without its place in the order of strings, and that.
    fn ordered(&self, column: usize, way: Way) -> (Vec<String>, Option<u32>) {
        let heading = self.in_words(column, way.with_group);
        if !way.by_words {
            return in_order(&heading);
        }
        let words = lexicon::tokens(&heading);
        let place = |word: &String| CALLED.iter().find(|(name, ..)| name == word).map(|(_, place, _)| *place);
        let places: Vec<u32> = words.iter().filter_map(place).collect();
        let rest = words.iter().filter(|word| place(word).is_none()).cloned().collect();
        (rest, if let [place] = places.as_slice() { Some(*place) } else { None })
    }

    /// The strings that are told by numbers, or by what they are called; nothing where a width has no end, or an end no width.
    fn numbered(&self, width: usize, end: usize, way: Way) -> Option<Vec<NextString>> {
        let numbered = |first: usize| -> Vec<(u32, usize)> {
            // `CSG_DIA` beside `CSG2_DIA` is the first.
            let (words, own) = self.ordered(first, way);
            let number = |column: usize| self.ordered(column, way).1.or((column == first).then_some(1));
            let same = |column: &usize| {
                let (others, number) = self.ordered(*column, way);
                *column != first && others == words && number != own && (own.is_some() || number >= Some(2))
            };
            let mut found: Vec<(u32, usize)> = (0..self.columns.len())
                .filter(|column| *column == first || same(column) && self.profiles[*column].measures() > 0)
                .filter_map(|column| Some((number(column)?, column)))
                .collect();
            found.sort_unstable();
            found
        };
        let (widths, ends) = (numbered(width), numbered(end));
        let pairs = widths.len() == ends.len() && widths.iter().zip(&ends).all(|(width, end)| width.0 == end.0);
        let from_the_first = widths.first().is_some_and(|(_, first)| *first == width)
            && ends.first().is_some_and(|(_, first)| *first == end);
        let string = |(width, end): (&(u32, usize), &(u32, usize))| NextString {
            width: width.1,
            end: end.1,
            top: self.top_of(width.0, end.1, way.with_group),
            goes_on: way.by_words && is_called(width.0, Below::GoesOn),
            from_ground: way.by_words && is_called(width.0, Below::FromGround),
        };
        (pairs && from_the_first).then(|| widths.iter().zip(&ends).skip(1).map(string).collect())
    }

    /// The columns of a liner or a screen: how wide it is, where it begins and where it ends.
    fn string_called(&self, called: &[&str], free: impl Fn(usize) -> bool) -> Option<NextString> {
        const ENDS: [&str; 12] =
            ["bot", "bottom", "btm", "to", "end", "depth", "base", "thru", "dpth", "hasta", "ate", "a"];
        const TOP: [&str; 7] = ["top", "from", "start", "frm", "desde", "de", "topo"];
        let own = |at: &usize| free(*at) && self.profiles[*at].measures() > 0;
        let columns: Vec<(usize, Vec<String>)> = (0..self.columns.len())
            .filter(own)
            .map(|at| (at, lexicon::tokens(&self.in_words(at, true))))
            .filter(|(_, words)| words.iter().any(|word| called.contains(&word.as_str())))
            .collect();
        let one = |says: &dyn Fn(usize, &[String]) -> bool| {
            let mut found = columns.iter().filter(|(at, words)| says(*at, words)).map(|(at, _)| *at);
            found.next().filter(|_| found.next().is_none())
        };
        let has = |words: &[String], known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let is_wide = |meaning: &Meaning| meaning.has(Concept::Diameter) || meaning.has(Concept::Size);
        let width = one(&|at, words| is_wide(&self.meaning(at)) && !has(words, &ENDS) && !has(words, &TOP))?;
        let end = one(&|_, words| has(words, &ENDS) && !has(words, &TOP))?;
        let top = one(&|_, words| has(words, &TOP) && !has(words, &ENDS));
        (width != end).then_some(NextString { width, end, top, goes_on: false, from_ground: false })
    }

    /// The column from where a numbered string reaches: `CSG2_FROM` beside `CSG2_TO`.
    fn top_of(&self, number: u32, end: usize, with_group: bool) -> Option<usize> {
        const FROM: [&str; 6] = ["from", "top", "start", "frm", "desde", "de"];
        let (ends, _) = in_order(&self.in_words(end, with_group));
        (0..self.columns.len()).find(|column| {
            let (words, own) = in_order(&self.in_words(*column, with_group));
            let from = words.iter().filter(|word| FROM.contains(&word.as_str())).count() == 1;
            own == Some(number) && from && words.iter().any(|word| ends.contains(word))
        })
    }
}
