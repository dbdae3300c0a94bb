//! A measure that a remark tells without an event: the value of a blank cell, the right number in place of a wrong one.

use super::lengths::{Reader, Written};
use super::units::is_length_unit;
use super::words::{NOW, PASSING, RUNNING, SAYS, WATER};
use crate::inventory::phrases::{Class, Token};
use crate::quantity::unit::Unit;

/// The one number of a remark that may be a depth: a length, or a number that counts nothing else.
pub fn one_length(tokens: &[Token]) -> Option<f64> {
    let reader = Reader::of(tokens);
    let mut found = (0..tokens.len()).filter_map(|at| Some((at, reader.length(at)?.0)));
    let (at, written) = found.next().filter(|_| found.next().is_none())?;
    let other = ["pump", "set", "casing", "cased", "screen", "water", "level", "static", "swl", "yield", "tank", "age"];
    let near = reader.has(&other, at.saturating_sub(4), (at + 4).min(tokens.len()));
    (!near).then(|| written.unit.map_or(written.value, |unit| unit.from_si(written.value)))
}

/// How far the rim stands above the ground, by a remark: `curb 2 ft. high`, `pipe is 2 ft up`.
pub fn rim_height(tokens: &[Token]) -> Option<Written> {
    let reader = Reader::of(tokens);
    let rim = ["curb", "rim", "pipe", "casing", "csg", "collar", "brocal", "margelle", "boca", "top"];
    let up = ["high", "up", "above", "tall", "alto", "haut", "alta"];
    (0..tokens.len()).find_map(|at| {
        let (written, end) = reader.length(at)?;
        // `csg stands 0.5 up`: in the unit of the level.
        let told = written.unit.is_some() || up.contains(&reader.word(end));
        let sound = told
            && reader.has(&rim, at.saturating_sub(4), at)
            && reader.has(&up, at.saturating_sub(2), (end + 3).min(tokens.len()));
        sound.then_some(written)
    })
}

/// The level that a remark tells of a cell that is blank: `static 35 ft below ground`, `water stands 21 ft down`.
pub fn told_level(tokens: &[Token]) -> Option<Written> {
    let reader = Reader::of(tokens);
    let (first, last) = (0, tokens.len());
    if reader.has(PASSING, first, last) || reader.has(RUNNING, first, last) || reader.has(&["of", "?"], first, last) {
        return None;
    }
    let at = (0..last).find(|at| {
        ["static", "swl", "dtw", "level", "water", "nivel", "niveau", "espejo"].contains(&reader.word(*at))
    })?;
    let ties = ["static", "swl", "dtw", "below", "at", "stands", "down", "level", "nivel", "niveau", "espejo"];
    let (found, (written, end)) = (at + 1..last.min(at + 6)).find_map(|at| Some((at, reader.length(at)?)))?;
    // `water stands 3.5 ft` is how much stands there; `water stands at 3.5 ft`, `stands 3.5 ft down` where it does.
    if reader.word(found - 1) == "stands" && !reader.has(&DOWN, found, last.min(end + 3)) {
        return None;
    }
    let long = written.unit.is_some_and(Unit::is_of_depths);
    (long && reader.has(&ties, at, last.min(end + 3))).then_some(written)
}

/// The height of the water that a remark tells where no cell does: `water stands 3.5 ft`, `3.5 ft of water at overflow`.
pub fn told_height(tokens: &[Token]) -> Option<Written> {
    const OVER: [&str; 10] = ["over", "above", "on", "around", "across", "flood", "when", "was", "used", "yard"];
    let reader = Reader::of(tokens);
    let last = tokens.len();
    if reader.has(PASSING, 0, last) || reader.has(RUNNING, 0, last) || reader.has(&["?"], 0, last) {
        return None;
    }
    let mut heights = (0..last).filter_map(|at| {
        let (written, end) = reader.length(at)?;
        let long = written.unit.is_some_and(|unit| matches!(unit.symbol, "ft" | "m" | "cm" | "in"));
        let stands = at >= 2 && reader.word(at - 1) == "stands" && reader.word(at - 2) == "water";
        let of_water = reader.word(end) == "of" && reader.word(end + 1) == "water";
        let elsewhere = reader.has(&DOWN, at, last.min(end + 4)) || reader.has(&OVER, end, last.min(end + 5));
        (long && (stands || of_water) && !elsewhere).then_some(written)
    });
    heights.next().filter(|_| heights.next().is_none())
}

/// The height of the water that a remark says was measured anew: `medido otra vez: 5,20 de agua`.
pub fn height_now(tokens: &[Token]) -> Option<Written> {
    let reader = Reader::of(tokens);
    let last = tokens.len();
    let hedged = (0..last).any(|at| reader.phrases.class_at(tokens, at, Class::Hedge).is_some());
    let later = reader.has(NOW, 0, last) || reader.taken_anew() || reader.dated() || reader.outright();
    if hedged || !later || reader.has(PASSING, 0, last) || reader.has(SAYS, 0, last) {
        return None;
    }
    let mut heights = (0..last).filter_map(|at| {
        let (written, end) = reader.length(at)?;
        let of = usize::from(matches!(reader.word(end), "of" | "de"));
        let column = at >= 2
            && ["columna", "coluna", "colonne", "column"].contains(&reader.word(at - 2))
            && ["de", "of"].contains(&reader.word(at - 1));
        // `water now 141`, `eau 3,5`
        let named = |by: usize| at >= by && WATER.contains(&reader.word(at - by));
        let between = at >= 1 && (NOW.contains(&reader.word(at - 1)) || matches!(reader.word(at - 1), ":" | "="));
        let now = (named(1) || between && named(2)) && !DOWN.contains(&reader.word(end));
        let of_water = WATER.contains(&reader.word(end + of)) || reader.word(end) == "d'eau";
        // `retaped 4/11, 46 standing`
        let standing = is_standing(&reader, end);
        (column || now || of_water || standing).then_some(written)
    });
    heights.next().filter(|_| heights.next().is_none())
}

/// Whether the length before a token is said to stand in the well: `46 standing`, `46 ft standing in it`.
fn is_standing(reader: &Reader, end: usize) -> bool {
    reader.word(end) == "standing" && !reader.has(&["on", "over", "above", "around", "yard", "road"], end + 1, end + 4)
}

/// Words that make a length a depth.
const DOWN: [&str; 9] = ["down", "below", "from", "bgl", "bgs", "bls", "toc", "btoc", "ground"];

/// A house number and a road: `6036 Osier Bottom Rd`.
pub(super) fn is_address(tokens: &[Token]) -> bool {
    const ROADS: [&str; 14] =
        ["rd", "road", "ln", "lane", "st", "street", "ave", "avenue", "hwy", "highway", "dr", "drive", "ct", "blvd"];
    let [number, .., road] = tokens else { return false };
    number.number.is_some()
        && ROADS.contains(&road.word.trim_end_matches('.'))
        && tokens[1..].iter().all(|token| token.number.is_none() && !is_length_unit(Some(token)))
}
