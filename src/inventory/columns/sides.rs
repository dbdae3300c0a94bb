//! Wells that are not round: their two sides in columns of their own, beside the diameter of the round ones.
//!
//! `lado_a_m`, `lado_b_m`; `Side 1`, `Side 2`; `largo` and `ancho` where a column tells the round from the square.

use std::collections::BTreeSet;

use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::inventory::heading;
use crate::inventory::lexicon;
use crate::inventory::table::Opened;
use crate::quantity::unit::Unit;

/// The columns of sides.
#[derive(Debug, Clone, PartialEq)]
pub struct Sides {
    /// The column of the first side, or of the only one.
    pub one: usize,
    /// The other; a list of square wells has only one.
    pub other: Option<usize>,
    /// The unit of bare numbers.
    pub unit: &'static Unit,
    /// The column that says which wells are round, square, or neither.
    pub shape: Option<usize>,
}

/// The outline of a well.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outline {
    /// As a ring or pipe is: one measure across.
    Round,
    /// As wide as it is long.
    Square,
    /// Longer than it is wide.
    Oblong,
}

const LONG: [&str; 9] = ["length", "long", "len", "lgth", "largo", "longitud", "longueur", "comprimento", "compr"];
const WIDE: [&str; 9] = ["width", "wide", "wid", "across", "ancho", "anchura", "largeur", "largura", "larg"];

const ROUND: [&str; 4] = ["round", "circ", "redond", "rond"];
const SQUARE: [&str; 4] = ["square", "cuadr", "carre", "quadr"];
const OBLONG: [&str; 3] = ["rect", "oblong", "retang"];

/// What a cell says of the outline.
pub fn outline(text: &str) -> Option<Outline> {
    let words = lexicon::tokens(text);
    let is = |known: &[&str]| words.iter().any(|word| known.iter().any(|beginning| word.starts_with(beginning)));
    let found: Vec<Outline> =
        [(&ROUND[..], Outline::Round), (&SQUARE[..], Outline::Square), (&OBLONG[..], Outline::Oblong)]
            .into_iter()
            .filter_map(|(known, outline)| is(known).then_some(outline))
            .collect();
    if let [only] = found.as_slice() { Some(*only) } else { None }
}

/// The columns of sides of a table, where it has any whose unit is known.
pub(super) fn find(table: &Opened, rules: &ReadingRules) -> Option<Sides> {
    let shape = (0..table.headings.len()).find(|column| tells_outlines(table, *column));
    let free = |column: &usize| heading::mapped(&table.headings[*column], rules).is_none();
    let columns: Vec<(usize, Vec<String>)> = (0..table.headings.len())
        .filter(free)
        .map(|column| (column, lexicon::tokens(&table.headings[column])))
        .collect();
    let having = |all: &[&[&str]]| {
        let fits = |words: &Vec<String>| all.iter().all(|any| words.iter().any(|word| any.contains(&word.as_str())));
        let mut found = columns.iter().filter(|(_, words)| fits(words)).map(|(column, _)| *column);
        found.next().filter(|_| found.next().is_none())
    };
    const SIDE: [&str; 4] = ["side", "lado", "cote", "costado"];
    let numbered = || {
        let (one, other) =
            (having(&[&SIDE, &["a", "1", "long", "largo"]])?, having(&[&SIDE, &["b", "2", "short", "corto"]])?);
        (one != other).then_some((one, Some(other)))
    };
    // Length and width are those of wells only where some are said to be square.
    let long_and_wide = || {
        shape?;
        let one = having(&[&LONG])?;
        let other = having(&[&WIDE])?;
        (one.abs_diff(other) == 1).then_some((one, Some(other)))
    };
    let alone = || Some((shape.and_then(|_| having(&[&SIDE]))?, None));
    let (one, other) = numbered().or_else(long_and_wide).or_else(alone)?;
    let unit = |column: usize| table.length_unit(column, Field::CasingDiameter);
    let of_one = unit(one)?;
    let same = other.is_none_or(|other| unit(other).is_none_or(|unit| std::ptr::eq(unit, of_one)));
    same.then_some(Sides { one, other, unit: of_one, shape })
}

/// Whether a column says of nearly every well that fills it how its outline is, and not the same of all.
fn tells_outlines(table: &Opened, column: usize) -> bool {
    let cells = table.filled(column).count();
    let told: Vec<Outline> = table.filled(column).filter_map(outline).collect();
    let different: BTreeSet<Outline> = told.iter().copied().collect();
    different.len() > 1 && told.len() >= 4 && told.len() * 10 >= cells * 9
}

impl Sides {
    /// The columns that the outline is read from.
    pub fn columns(&self) -> impl Iterator<Item = usize> {
        [Some(self.one), self.other, self.shape].into_iter().flatten()
    }
}
