//! A width that changes on the way down, as a remark puts it: `5 in from 84 ft down`, `goes to 4 in at 110`, `8 in casing ends
//! at 65, 6 in rock hole under that`.

use super::super::phrases::Token;
use super::lengths::{Reader, Written};
use super::units::length_unit;
use crate::quantity::unit::Unit;

/// What a remark says of a change of width; the numbers as it writes them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Narrower {
    /// The width above, where it is told.
    pub above: Option<Written>,
    /// The width from there to the bottom.
    pub below: Written,
    /// How deep the change is, or how far above the bottom.
    pub at: Written,
    /// It is so far above the bottom.
    pub from_bottom: bool,
}

/// Words between a width and the depth from which it holds.
const UNDER: [&str; 12] =
    ["below", "under", "beneath", "past", "beyond", "from", "starting", "starts", "beginning", "begins", "at", "after"];
/// Of these, words that say so alone; the others need one of [`ONWARD`] behind the depth.
const ALONE: usize = 5;
const ONWARD: [&str; 6] = ["down", "downward", "downwards", "on", "bottom", "below"];
const CHANGES: [&str; 14] = [
    "changes", "changed", "goes", "reduces", "reduced", "narrows", "narrowed", "drops", "steps", "stepped", "necks",
    "becomes", "turns", "switches",
];
/// Words behind the lower width.
const BELOW_IT: [&str; 14] = [
    "under",
    "below",
    "beneath",
    "thereafter",
    "past",
    "rest",
    "debajo",
    "abajo",
    "resto",
    "abaixo",
    "dessous",
    "reste",
    "restante",
    "onwards",
];
/// Words before a width that holds from there down.
const THEN: [&str; 12] =
    ["then", "below", "under", "luego", "despues", "puis", "ensuite", "depois", "abajo", "abaixo", "baixo", "dessous"];
/// Things that have a width and a depth of their own.
const OTHER: [&str; 12] =
    ["liner", "lined", "sleeve", "sleeved", "pump", "drop", "screen", "screened", "line", "tape", "wire", "not"];

/// The change of width that a remark tells; nothing where its numbers could be of something else.
pub fn narrower(tokens: &[Token]) -> Option<Narrower> {
    let reader = Reader::of(tokens);
    let last = tokens.len();
    if reader.has(&OTHER, 0, last) || reader.has(&["?", "or"], 0, last) {
        return None;
    }
    if let Some(last) = in_the_last(&reader) {
        return Some(last);
    }
    let found = reader.lengths()?;
    let is_width = |written: &Written| written.unit.is_some_and(Unit::is_of_widths);
    let under = |from: usize, to: usize, end: usize| {
        reader.has(&UNDER[..ALONE], from, to)
            || reader.has(&UNDER, from, to) && reader.has(&ONWARD, end, last.min(end + 3))
    };
    match found.as_slice() {
        [(below, width, behind), (at, depth, end)] if is_width(below) && !is_width(at) => {
            let changes = reader.has(&CHANGES, 0, *width) && reader.has(&["at", "@", "below"], *behind, *depth);
            (changes || under(*behind, *depth, *end)).then_some(Narrower {
                above: None,
                below: *below,
                at: *at,
                from_bottom: false,
            })
        }
        // `changes at 110 to 4 in`, `below 84 ft it is 5 in`
        [(at, depth, behind), (below, width, _)] if is_width(below) && !is_width(at) => {
            let changes = reader.has(&CHANGES, 0, *width) && reader.has(&["to"], *behind, *width);
            let under = reader.has(&UNDER[..ALONE], 0, *depth);
            (changes || under).then_some(Narrower { above: None, below: *below, at: *at, from_bottom: false })
        }
        [(above, ..), (at, ..), (below, width, behind)] if is_width(above) && is_width(below) && !is_width(at) => {
            // `de 200 mm hasta 40 m y de 160 mm hasta el fondo`
            let below_it = reader.has(&BELOW_IT, *width, last)
                || reader.has(&THEN, width.saturating_sub(3), *behind)
                || reader.all_the_way(*width, last);
            below_it.then_some(Narrower { above: Some(*above), below: *below, at: *at, from_bottom: false })
        }
        _ => None,
    }
}

/// The width of the last stretch above the bottom: `24 in in the bottom 10 ft`, `1,00 m de diamètre sur les 3 derniers mètres`.
fn in_the_last(reader: &Reader) -> Option<Narrower> {
    const LAST: [&str; 7] = ["last", "bottom", "lowest", "derniers", "dernieres", "ultimos", "ultimas"];
    const ACROSS: [&str; 9] = ["across", "wide", "diameter", "diam", "dia", "diametre", "diametro", "large", "ancho"];
    /// No well is wider, in meters, where its width is told in meters or feet. Common practice, no source.
    const WIDEST_M: f64 = 3.0;
    let last = reader.tokens.len();
    let unit_at = |at: usize| length_unit(reader.word(at)).filter(|unit| unit.is_of_depths());
    let stretch = |at: usize| {
        let number = reader.tokens[at].number?;
        let before = at > 0 && LAST.contains(&reader.word(at - 1));
        let unit =
            if before { unit_at(at + 1)? } else { unit_at(at + 2).filter(|_| LAST.contains(&reader.word(at + 1)))? };
        Some((at, Written { value: unit.to_si(number), unit: Some(unit) }))
    };
    let (told, at) = (0..last).find_map(stretch)?;
    let mut widths = (0..last).filter(|other| *other != told).filter_map(|at| reader.length(at));
    let (below, _) = widths.next()?;
    let numbers = reader.tokens.iter().filter(|token| token.number.is_some()).count();
    let wide =
        below.unit.is_some_and(|unit| unit.is_of_widths() || below.value <= WIDEST_M && reader.has(&ACROSS, 0, last));
    (wide && numbers == 2).then_some(Narrower { above: None, below, at, from_bottom: true })
}
