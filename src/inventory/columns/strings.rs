//! Casing strings in numbered columns, one string beside the other: `CSG1_ID`, `CSG1_TO`, `CSG2_ID`, `CSG2_TO`.
//!
//! The first is what the fields of the casing read; the others are told by the numbers of their headings. A liner in columns of
//! its own, `LINER_DIAM`, `LINER_TOP`, `LINER_BOT`, is the string below the casing.

use super::Planner;
use super::assignment::Assignment;
use super::other_widths::in_order;
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept};

/// A string below the first one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextString {
    /// The column of its width, in the unit of the first one's.
    pub width: usize,
    /// The column of the depth that it reaches, in the unit of the first one's.
    pub end: usize,
    /// The column of the depth where it begins, where there is one.
    pub top: Option<usize>,
}

impl Planner<'_> {
    /// The strings below the first one, from the top down; none where one of them has a width or an end alone.
    pub(super) fn next_strings(&self, assignment: &Assignment) -> Vec<NextString> {
        let (Some(width), Some(end)) =
            (assignment.likely(Field::CasingDiameter), assignment.likely(Field::CasingDepth))
        else {
            return Vec::new();
        };
        let numbered = |first: usize| -> Vec<(u32, usize)> {
            // `CSG_DIA` beside `CSG2_DIA` is the first.
            let number = |column: usize| in_order(&self.table.headings[column]).1.or((column == first).then_some(1));
            let mut found: Vec<(u32, usize)> = std::iter::once(first)
                .chain(self.others_in_order(first))
                .filter_map(|column| Some((number(column)?, column)))
                .collect();
            found.sort_unstable();
            found
        };
        let (widths, ends) = (numbered(width), numbered(end));
        let pairs = widths.len() == ends.len() && widths.iter().zip(&ends).all(|(width, end)| width.0 == end.0);
        let from_the_first = widths.first().is_some_and(|(_, first)| *first == width)
            && ends.first().is_some_and(|(_, first)| *first == end);
        if !pairs || !from_the_first {
            return Vec::new();
        }
        if widths.len() == 1 {
            return self.liner(width, end).into_iter().collect();
        }
        let string = |(width, end): (&(u32, usize), &(u32, usize))| NextString {
            width: width.1,
            end: end.1,
            top: self.top_of(width.0, end.1),
        };
        widths.iter().zip(&ends).skip(1).map(string).collect()
    }

    /// The columns of a liner: how wide it is, where it begins and where it ends.
    fn liner(&self, casing: usize, casing_end: usize) -> Option<NextString> {
        const LINER: [&str; 5] = ["liner", "lnr", "linr", "liners", "sleeve"];
        const ENDS: [&str; 9] = ["bot", "bottom", "btm", "to", "end", "depth", "base", "thru", "dpth"];
        const TOP: [&str; 4] = ["top", "from", "start", "frm"];
        let own = |at: &usize| ![casing, casing_end].contains(at) && self.profiles[*at].measures() > 0;
        let liners: Vec<(usize, Vec<String>)> = (0..self.columns.len())
            .filter(own)
            .map(|at| (at, lexicon::tokens(&self.table.headings[at])))
            .filter(|(_, words)| words.iter().any(|word| LINER.contains(&word.as_str())))
            .collect();
        let one = |says: &dyn Fn(usize, &[String]) -> bool| {
            let mut found = liners.iter().filter(|(at, words)| says(*at, words)).map(|(at, _)| *at);
            found.next().filter(|_| found.next().is_none())
        };
        let has = |words: &[String], known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let width =
            one(&|at, words| self.meaning(at).has(Concept::Diameter) && !has(words, &ENDS) && !has(words, &TOP))?;
        let end = one(&|_, words| has(words, &ENDS) && !has(words, &TOP))?;
        let top = one(&|_, words| has(words, &TOP) && !has(words, &ENDS))?;
        (width != end).then_some(NextString { width, end, top: Some(top) })
    }

    /// The column from where a numbered string reaches: `CSG2_FROM` beside `CSG2_TO`.
    fn top_of(&self, number: u32, end: usize) -> Option<usize> {
        const FROM: [&str; 6] = ["from", "top", "start", "frm", "desde", "de"];
        let (ends, _) = in_order(&self.table.headings[end]);
        (0..self.columns.len()).find(|column| {
            let (words, own) = in_order(&self.table.headings[*column]);
            let from = words.iter().filter(|word| FROM.contains(&word.as_str())).count() == 1;
            own == Some(number) && from && words.iter().any(|word| ends.contains(word))
        })
    }
}
