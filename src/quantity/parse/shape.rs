//! A diameter written as something else: two sides, the way around, a radius, the outside of a pipe with its wall.

use std::f64::consts::PI;

use super::super::unit::Unit;
use super::items::{Amount, Item};

/// What is said of the wall of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wall {
    /// The text has no word of it: a column of walls may give it, else the usual walls of the material are taken.
    Unsaid,
    /// Its thickness, in metres.
    Thickness(f64),
    /// The schedule, 40 or 80.
    Schedule(u32),
    /// Outside diameter over wall (SDR).
    Ratio(f64),
}

/// A pipe by its size and wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    /// The size written, in metres.
    pub size: f64,
    /// Whether the text says that it is the outside diameter; else it may be the trade's nominal size.
    pub outside: bool,
    /// How the wall is given, as written; the inside is worked out from it elsewhere.
    pub wall: Wall,
}

/// A diameter that was worked out: the value, the unit it was written in, and what it was.
pub(super) struct Worked {
    pub(super) si: f64,
    pub(super) unit: &'static Unit,
    pub(super) written: bool,
    pub(super) note: &'static str,
}

const SQUARE: &[&str] = &["sq", "square", "cuadrado", "carré", "carre", "quadrado", "each", "côté", "lado"];
/// Words by which a length was measured around the well.
pub(super) const AROUND: &[&str] = &[
    "circumference",
    "circ",
    "circum",
    "girth",
    "perimeter",
    "circonférence",
    "circonference",
    "circunferencia",
    "circunferência",
    "perímetro",
    "perimetro",
    "contorno",
    "périmètre",
    "perimètre",
    "circumf",
    "tour",
    "vuelta",
    "volta",
    "perim",
    "périm",
    "périmètre",
    "roda",
    "ruedo",
];
/// Beginnings of words for a shape of two axes.
const OVAL: &[&str] = &["oval", "ovala", "ellip", "elip", "elíp", "élip"];
const RADIUS: &[&str] = &["radius", "rad", "rayon", "radio", "raio"];
/// Words that change nothing beside a shape.
const PLAIN: &[&str] = &[
    "inside",
    "measured",
    "measure",
    "the",
    "well",
    "of",
    "is",
    "by",
    "approx",
    "about",
    "lined",
    "stone",
    "brick",
    "concrete",
    "tile",
    "hole",
    "opening",
    "dug",
    "box",
    "wide",
    "in",
    "all",
    "across",
    "crib",
    "cribbing",
    "wood",
    "timber",
    "timbered",
    "conc",
    "cement",
    "pit",
    "block",
    "int",
    "interior",
    "interno",
    "intérieur",
    "interieur",
    "round",
    "way",
    "side",
    "corners",
    "corner",
    "cribbed",
    "planked",
    "de",
    "cada",
    "por",
    "d",
    "l",
];

/// The diameter that a shape is worth; nothing where the text is not a shape, or more than one.
pub(super) fn shape(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Worked> {
    let mut amounts: Vec<Amount> = Vec::new();
    let (mut by, mut square, mut around, mut radius) = (0, false, false, false);
    let mut oval = false;
    for item in items {
        match item {
            Item::Amount(amount) => amounts.push(*amount),
            Item::Mark('×') => by += 1,
            Item::Mark('=' | '.' | ',' | ':' | '(' | ')' | '~') => {}
            Item::Mark(_) => return None,
            Item::Word(word) => {
                let is = |words: &[&str]| words.contains(&word.as_ref());
                if word == "x" || word == "by" && amounts.len() == 1 {
                    by += 1;
                } else if is(SQUARE) && amounts.iter().all(|amount| amount.unit.is_some() || by > 0) {
                    square = true;
                } else if is(AROUND) || word == "around" && !amounts.is_empty() {
                    around = true;
                } else if is(RADIUS) || word == "r" && amounts.is_empty() {
                    radius = true;
                } else if OVAL.iter().any(|beginning| word.starts_with(beginning)) {
                    oval = true;
                } else if !is(PLAIN) {
                    return None;
                }
            }
        }
    }
    let unit = amounts.iter().rev().find_map(|amount| amount.unit).or(default)?;
    let written = amounts.iter().any(|amount| amount.unit.is_some());
    let worked = |si, note| (si > 0.0).then_some(Worked { si, unit, written, note });
    if oval && amounts.len() != 2 {
        return None; // One axis of an oval does not give its area.
    }
    let round = |area: f64| (4.0 * area / PI).sqrt();
    match (amounts.as_slice(), by, square, around, radius) {
        ([side], 0, true, false, false) => {
            worked(round(side.si(unit).powi(2)), "square: the diameter of the round well of the same area")
        }
        ([one, other], 1, _, false, false) => {
            let (one, other) = (one.si(unit), other.si(unit));
            // `10 x 8` in inches is one casing inside another.
            let least = if written { LEAST_SIDE_M } else { LEAST_BARE_SIDE_M };
            let sides = one.min(other) >= least && one.max(other) <= MOST_SIDE_M;
            if oval && !square {
                return worked((one * other).sqrt(), "oval: the diameter of the round well of the same area")
                    .filter(|_| sides);
            }
            sides.then(|| worked(round(one * other), "two sides: the diameter of the round well of the same area"))?
        }
        // `9 ft 5 around`: feet and inches.
        ([feet, inches], 0, false, true, false)
            if feet.unit.is_some_and(|unit| unit.symbol == "ft") && inches.unit.is_none() && inches.value < 12.0 =>
        {
            let girth = feet.value + inches.value / 12.0;
            worked(unit.to_si(girth) / PI, AROUND_NOTE)
        }
        ([girth], 0, false, true, false) => worked(girth.si(unit) / PI, AROUND_NOTE),
        ([half], 0, false, false, true) => worked(2.0 * half.si(unit), "a radius: twice it is the diameter"),
        _ => None,
    }
}

const AROUND_NOTE: &str =
    "measured around: the diameter is this over pi; if it was measured outside the lining, the inside is smaller";

/// The least side of a rectangular well; two smaller numbers are pipes. Common practice, no source.
const LEAST_SIDE_M: f64 = 0.45;

/// The same where no unit is written: wider than nearly any casing that stands inside another. Common practice, no source.
const LEAST_BARE_SIDE_M: f64 = 0.7;

/// The greatest side of a well. Common practice, no source.
const MOST_SIDE_M: f64 = 8.0;

/// How much wider than its inside a plastic pipe is outside, at least and at most; walls of SDR 41 to SDR 9 give 1.05 to
/// 1.29.
const OUTSIDE_OVER_INSIDE: (f64, f64) = (1.03, 1.3);

/// The inside of `112/125`, where the two can only be the inside and the outside of a metric pipe.
pub(super) fn inside_of_pair(items: &[Item<'_>]) -> Option<Amount> {
    let mut amounts = items.iter().filter_map(Item::amount);
    let (inside, outside) = (amounts.next()?, amounts.next()?);
    let slash = items
        .windows(3)
        .any(|three| three[0].amount() == Some(inside) && three[1].is('/') && three[2].amount() == Some(outside));
    let known = |word: &str| matches!(word, "pvc" | "int" | "ext" | "tube" | "tubo" | "dn" | "ø" | "forage" | "pehd");
    let sound = slash
        && amounts.next().is_none()
        && items.iter().filter_map(Item::word).all(known)
        && items.iter().all(|item| !matches!(item, Item::Mark(mark) if !matches!(mark, '/' | '(' | ')' | '.')))
        && (OUTSIDE_OVER_INSIDE.0..=OUTSIDE_OVER_INSIDE.1).contains(&(outside.value / inside.value))
        // As millimeters: two figures could be inches of two strings.
        && (40.0..=500.0).contains(&inside.value);
    sound.then_some(Amount { unit: inside.unit.or(outside.unit), ..inside })
}

const OUTSIDE: &[&str] = &["od", "outside", "outer", "exterior", "externo", "extérieur", "exterieur", "ext", "øext"];
const INSIDE: &[&str] = &["id", "inside", "inner", "interior", "interno", "intérieur", "interieur", "int"];
const WALL: &[&str] = &[
    "w",
    "wall",
    "walls",
    "thick",
    "thickness",
    "wt",
    "pared",
    "paroi",
    "parede",
    "espesor",
    "épaisseur",
    "ép",
    "ep",
    "esp",
    "espessura",
];

/// A pipe by outside diameter, wall, schedule or ratio; nothing where the text says none of these.
pub(super) fn pipe(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Pipe> {
    let is = |at: usize, words: &[&str]| items.get(at).and_then(Item::word).is_some_and(|word| words.contains(&word));
    let outside = (0..items.len()).any(|at| is(at, OUTSIDE));
    // `ext. 125 e 5`
    let walled = (0..items.len()).any(|at| is(at, WALL) || outside && is(at, &["e"]));
    let mut wall = Wall::Unsaid;
    let mut amounts: Vec<Amount> = Vec::new();
    for (at, item) in items.iter().enumerate() {
        let Some(amount) = item.amount() else { continue };
        let word = |back: usize| at.checked_sub(back).and_then(|at| items.get(at)).and_then(Item::word);
        let (near, far) =
            (word(1), word(2).filter(|_| items.get(at - 1).is_some_and(|item| item.is('-') || item.is('.'))));
        match near.or(far) {
            Some("sch" | "schedule" | "sched") => wall = Wall::Schedule(amount.value as u32),
            Some("s") if matches!(amount.value as u32, 40 | 80) => wall = Wall::Schedule(amount.value as u32),
            Some("sdr" | "dr") => wall = Wall::Ratio(amount.value),
            _ => amounts.push(amount),
        }
    }
    // `140 x 6,7` in millimeters: no hole is so narrow, so the second is the wall.
    let millimeters = default.is_some_and(|unit| unit.symbol == "mm");
    let plain_pair = millimeters
        && matches!(items, [Item::Amount(size), by, Item::Amount(wall)]
            if (by.is('×') || by.word() == Some("x")) && size.unit.is_none() && wall.unit.is_none()
                && size.value >= 40.0 && wall.value < size.value / 8.0 && wall.value >= 1.0);
    let outside = outside || plain_pair;
    if is_inside(items) || !outside && !walled && wall == Wall::Unsaid {
        return None;
    }
    let unit = amounts.iter().find_map(|amount| amount.unit).or(default)?;
    let size = amounts.first()?.si(unit);
    match (amounts.as_slice(), wall) {
        ([_], Wall::Unsaid) if walled => return None,
        ([_], _) => {}
        ([_, thickness], Wall::Unsaid) if walled || items.iter().any(|item| item.word() == Some("x")) => {
            wall = Wall::Thickness(thickness.si(unit));
        }
        _ => return None,
    }
    let sound = match wall {
        Wall::Thickness(thickness) => thickness > 0.0 && thickness < size / 4.0,
        Wall::Ratio(ratio) => (7.0..=64.0).contains(&ratio),
        Wall::Schedule(_) | Wall::Unsaid => true,
    };
    sound.then_some(Pipe { size, outside, wall })
}

/// Whether a size is said to be the inside one.
fn is_inside(items: &[Item<'_>]) -> bool {
    items.iter().filter_map(Item::word).any(|word| INSIDE.contains(&word))
}
