//! A length in two columns, one for each unit: `ft | in` below `DEPTH`, `Depth ft | Depth in`, `Prof. m | cm`.
//!
//! The second column holds what is left over of the first: it is less than one of its unit. What could as well be a width
//! beside a depth is told by its cells.

use super::{Feed, Planner, map_line};
use crate::field::rules::ReadingRules;
use crate::finding::catalogue;
use crate::inventory::heading;
use crate::inventory::lexicon::{self, Concept};
use crate::inventory::table::Opened;
use crate::quantity::parse::plain_or_comma;
use crate::quantity::unit::{self, Meaning, Unit};

/// The larger unit, the smaller, and how many of the one make the other.
const UNITS: [(&str, &str, f64); 2] = [("ft", "in", 12.0), ("m", "cm", 100.0)];

/// Two columns of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Halves {
    /// The column of the larger unit.
    pub large: usize,
    /// The column of the smaller one.
    pub small: usize,
}

/// The smaller unit that goes with a larger one, and how many of it make one.
pub fn smaller(large: &Unit) -> Option<(&'static str, f64)> {
    UNITS.iter().find(|(symbol, ..)| *symbol == large.symbol).map(|(_, small, count)| (*small, *count))
}

/// The lengths of a table that have two columns.
pub(super) fn find(table: &Opened, rules: &ReadingRules) -> Vec<Halves> {
    let mut found: Vec<Halves> = Vec::new();
    for small in 1..table.headings.len() {
        let large = small - 1;
        let used = found.last().is_some_and(|last| last.small == large);
        if !used && heading::mapped(&table.headings[small], rules).is_none() && are_halves(table, large, small) {
            found.push(Halves { large, small });
        }
    }
    found
}

/// What a column is called without its unit, and the unit.
fn named(table: &Opened, column: usize) -> (Vec<String>, Option<&'static str>) {
    let written = table.headings[column].trim();
    let below = table.layout.units.get(column).map_or("", String::as_str);
    let words = lexicon::tokens(written);
    let of = |text: &str| match unit::look_up(text.trim_end_matches('.'), None) {
        Some(Meaning::Unit(unit)) => Some(unit.symbol),
        _ => None,
    };
    let marked = |text: &str| match text.chars().next_back() {
        Some('\'' | '′' | '’') => Some("ft"),
        Some('"' | '″' | '”') => Some("in"),
        _ => None,
    };
    let is_unit = |word: &String| of(word).is_some_and(|unit| UNITS.iter().any(|(a, b, _)| unit == *a || unit == *b));
    let own = words.iter().rev().find(|word| is_unit(word)).and_then(|word| of(word)).or_else(|| marked(written));
    let unit = own.or_else(|| of(below)).or_else(|| marked(below));
    (words.into_iter().filter(|word| !is_unit(word)).collect(), unit)
}

fn are_halves(table: &Opened, large: usize, small: usize) -> bool {
    let ((of_large, large_unit), (of_small, small_unit)) = (named(table, large), named(table, small));
    let group = |column: usize| table.layout.groups.get(column).map_or("", String::as_str);
    let Some(&(.., count)) =
        UNITS.iter().find(|(one, other, _)| Some(*one) == large_unit && Some(*other) == small_unit)
    else {
        return false;
    };
    if group(large) != group(small) || !of_small.is_empty() && of_small != of_large {
        return false;
    }
    let cells = Cells::of(table, large, small, count);
    if !cells.could_be_left_over() {
        return false;
    }
    let words = lexicon::tokens(&format!("{} {}", group(small), table.headings[small]));
    let meaning = lexicon::meaning(&words, table.layout.language);
    let has = |concepts: &[Concept]| concepts.iter().any(|concept| meaning.has(*concept));
    let down = [
        Concept::Depth,
        Concept::TotalDepth,
        Concept::Water,
        Concept::Level,
        Concept::Static,
        Concept::StaticWaterLevel,
        Concept::StickUp,
        Concept::Height,
    ];
    let across = [Concept::Casing, Concept::Diameter, Concept::Hole, Concept::Size, Concept::Bore, Concept::Inside];
    has(&down) && !has(&across) || cells.is_no_width
}

/// What the cells of the smaller unit hold.
struct Cells {
    filled: usize,
    numbers: usize,
    less_than_one: usize,
    beside_the_other: usize,
    /// Whether they cannot be widths of pipes: a zero, or figures that no pipe is sold in.
    is_no_width: bool,
}

impl Cells {
    fn of(table: &Opened, large: usize, small: usize, count: f64) -> Self {
        /// Inches that no casing is sold in. Common practice, no source.
        const NO_PIPE: [f64; 5] = [1.0, 7.0, 9.0, 10.5, 11.0];
        let mut cells = Self { filled: 0, numbers: 0, less_than_one: 0, beside_the_other: 0, is_no_width: false };
        let mut of_no_pipe = Vec::new();
        for row in table.first_row..table.sample.len() {
            let cell = |column: usize| table.sample.cell(row, column).trim();
            if cell(small).is_empty() {
                continue;
            }
            cells.filled += 1;
            cells.beside_the_other += usize::from(!cell(large).is_empty());
            if let Some(number) = plain_or_comma(cell(small)) {
                cells.numbers += 1;
                cells.less_than_one += usize::from((0.0..count).contains(&number));
                cells.is_no_width |= number == 0.0;
                if NO_PIPE.contains(&number) && !of_no_pipe.contains(&number) {
                    of_no_pipe.push(number);
                }
            }
        }
        cells.is_no_width |= of_no_pipe.len() >= 2 && count <= 12.0;
        cells
    }

    fn could_be_left_over(&self) -> bool {
        const FEWEST: usize = 2;
        self.numbers >= FEWEST
            && self.numbers * 10 >= self.filled * 8
            && self.less_than_one * 10 >= self.numbers * 9
            && self.beside_the_other * 10 >= self.filled * 9
    }
}

impl Planner<'_> {
    /// Notes the column of what is left over of a length in its smaller unit, and says so.
    pub(super) fn with_left_over(&mut self, feed: &mut Feed) {
        let of_it = |halves: &&Halves| halves.large == feed.column;
        let (Some(halves), false) = (self.halves.iter().find(of_it).copied(), feed.barred) else { return };
        let Some((small, _)) = feed.unit.and_then(smaller) else { return };
        feed.left_over = Some(halves.small);
        let (large, rest) = (&self.table.headings[feed.column], &self.table.headings[halves.small]);
        let says = format!("\"{large}\" and \"{rest}\" beside it are one length: the second has its {small}");
        let help = format!("no action needed if correct; otherwise leave the second out: {}", map_line(rest, ""));
        self.say(catalogue::LENGTH_IN_TWO_COLUMNS, Some(feed.column), says, help);
    }
}
