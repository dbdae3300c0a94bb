//! Columns that only say `to`, and are the end of what stands to the left of them: `Dia 1 in | 0 to ft | Dia 2 in | to ft`.

use super::Planner;
use super::evidence::{Asked, LIKELY, OPEN, Reading, SURE};
use super::strings::NextString;
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::quantity::parse::plain;
use crate::quantity::unit;

const TO: [&str; 9] = ["to", "thru", "through", "until", "hasta", "ate", "a", "jusqu", "jusque"];
const FROM: [&str; 6] = ["from", "frm", "desde", "de", "depuis", "top"];
/// Words that may stand beside them.
const BESIDE: [&str; 5] = ["down", "depth", "bottom", "prof", "bgl"];

/// Most rows of a list, in tenths.
const MOSTLY: usize = 8;

/// A width, and from where to where it is so.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    width: usize,
    top: Option<usize>,
    end: usize,
}

impl Planner<'_> {
    /// Reads the first `to` beside a width as the end of the casing, and the last of several, which every row fills, as the
    /// bottom, where no other column has it. Remembers the strings between.
    pub(super) fn ends_beside_widths<'a>(&mut self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let stretches = self.stretches(readings);
        let Some((first, below)) = stretches.split_first() else { return };
        let is_taken = |field: Field, readings: &[Reading]| {
            let is_end = |one: &Reading| stretches.iter().any(|stretch| stretch.end == one.column);
            readings.iter().any(|one| one.named.field == field && one.score >= LIKELY && !is_end(one))
        };
        if self.first_width.is_some() || is_taken(Field::CasingDepth, readings) {
            return;
        }
        let has_depth = is_taken(Field::TotalDepth, readings);
        let last = below.last().filter(|last| !has_depth && self.could_be_bottom(last.end, first.end));
        if !has_depth && last.is_none() {
            return;
        }
        let mut read = |column: usize, field: Field| {
            readings.retain(|one| one.by_hand || one.column != column);
            let named = asked(column).named(field, &Meaning::default());
            readings.push(Reading { column, named, score: (LIKELY + SURE) / 2.0, exact: false, by_hand: false });
        };
        read(first.end, Field::CasingDepth);
        if let Some(last) = last {
            read(last.end, Field::TotalDepth);
        }
        for next in below {
            readings.retain(|one| one.by_hand || one.column != next.width);
            self.beside.push(NextString {
                width: next.width,
                end: next.end,
                top: next.top,
                goes_on: true,
                from_ground: false,
            });
        }
        self.first_width = Some(first.width).filter(|_| !below.is_empty());
    }

    /// The widths that have a `to` beside them, from left to right.
    fn stretches(&self, readings: &[Reading]) -> Vec<Stretch> {
        let is_width = |column: usize| {
            let across = |one: &Reading| {
                one.column == column
                    && matches!(one.named.field, Field::CasingDiameter | Field::OpenHoleDiameter)
                    && one.score >= OPEN
            };
            self.profiles[column].filled > 0
                && self.meaning(column).has(Concept::Diameter)
                && readings.iter().any(|one| across(one) && !one.by_hand)
        };
        let group = |column: usize| self.table.layout.groups.get(column).map_or("", String::as_str);
        let mut found = Vec::new();
        for end in 1..self.columns.len() {
            if !self.only_says(end, &TO) || self.profiles[end].measures() == 0 {
                continue;
            }
            let top = Some(end - 1).filter(|at| self.only_says(*at, &FROM));
            let width = if top.is_some() { end.checked_sub(2) } else { Some(end - 1) };
            if let Some(width) = width.filter(|at| is_width(*at) && group(*at).is_empty() && group(end).is_empty()) {
                found.push(Stretch { width, top, end });
            }
        }
        found
    }

    /// Whether a heading is one of these words, with no more than a unit, a number or what may stand beside them.
    fn only_says(&self, column: usize, known: &[&str]) -> bool {
        let words = lexicon::tokens(&self.table.headings[column]);
        let is_unit = |word: &str| unit::look_up(word, None).is_some();
        let rest = words.iter().map(String::as_str).filter(|word| plain(word).is_none() && !BESIDE.contains(word));
        let rest: Vec<&str> = rest.collect();
        let said = rest.iter().filter(|word| known.contains(*word)).count();
        said == 1 && rest.iter().all(|word| known.contains(word) || is_unit(word))
    }

    /// Whether a column may hold the bottoms of the wells: filled in nearly every row, and never above the end of the casing.
    fn could_be_bottom(&self, column: usize, casing_end: usize) -> bool {
        let most = self.profiles.iter().map(|profile| profile.filled).max().unwrap_or(0);
        let pairs = self.pairs(column, casing_end);
        let below = pairs.iter().filter(|(bottom, casing)| bottom >= casing).count();
        self.profiles[column].filled * 10 >= most * MOSTLY && below * 20 >= pairs.len() * 19
    }
}
