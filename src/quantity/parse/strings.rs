//! Casing written in words: `10 in. to 38 ft, 8 in. below`, `6" 0-40, 4" 40-120`, `10x8 telescoped at 40'`.
//!
//! Every word must be known, else nothing is read: what is not surely one string below another is a doubt. English and the
//! trade's plainest Spanish, French and Portuguese (from memory).

use super::super::unit::{self, Unit};
use super::items::{Amount, Item};

/// One diameter from one depth to another, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Depth of its top.
    pub top: f64,
    /// Depth of its bottom; nothing where it is all that lies below.
    pub bottom: Option<f64>,
    /// Its diameter.
    pub diameter: f64,
}

/// What a part of the text does.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Sign {
    Amount(Amount),
    To,
    From,
    Dash,
    Below,
    By,
    Telescoped,
    Bottom,
    /// One string ends and the next begins.
    Next,
}

const TO: &[&str] = &["to", "thru", "through", "until", "hasta", "até", "ate", "jusque", "à"];
const FROM: &[&str] = &["from", "at", "desde", "dès", "em", "en"];
const BELOW: &[&str] = &["below", "beneath", "thereafter", "rest", "remainder", "debajo", "abajo", "abaixo", "dessous"];
const NEXT: &[&str] =
    &["then", "and", "followed", "puis", "et", "luego", "después", "despues", "y", "depois", "ensuite"];
const BOTTOM: &[&str] = &["bottom", "td", "fondo", "fundo", "fond"];
/// Words that change nothing.
const PLAIN: &[&str] = &[
    "casing",
    "cased",
    "pipe",
    "pvc",
    "steel",
    "iron",
    "plastic",
    "open",
    "hole",
    "borehole",
    "diameter",
    "diam",
    "dia",
    "well",
    "the",
    "that",
    "there",
    "of",
    "is",
    "with",
    "by",
    "ground",
    "tubing",
    "rock",
    "bedrock",
    "down",
    "deep",
    "depth",
    "tubo",
    "tubería",
    "tuberia",
    "revestimiento",
    "revestimento",
    "tubage",
    "tube",
    "forage",
    "pozo",
    "poço",
    "d",
    "de",
    "da",
    "do",
    "du",
    "la",
    "le",
    "el",
    "o",
    "a",
    "les",
    "jusqu",
    "on",
    "in",
    "au",
];

fn sign(item: &Item<'_>) -> Option<Option<Sign>> {
    let word = match item {
        Item::Amount(amount) => return Some(Some(Sign::Amount(*amount))),
        Item::Mark(',' | ';' | '/' | '&' | '+') => return Some(Some(Sign::Next)),
        Item::Mark('-') => return Some(Some(Sign::Dash)),
        Item::Mark('@') => return Some(Some(Sign::From)),
        Item::Mark('×') => return Some(Some(Sign::By)),
        Item::Mark('.' | '(' | ')' | '\'' | ':') => return Some(None),
        Item::Mark(_) => return None,
        Item::Word(word) => word.as_ref(),
    };
    let is = |words: &[&str]| words.contains(&word);
    Some(if is(TO) {
        Some(Sign::To)
    } else if is(FROM) {
        Some(Sign::From)
    } else if is(BELOW) {
        Some(Sign::Below)
    } else if is(NEXT) {
        Some(Sign::Next)
    } else if is(BOTTOM) {
        Some(Sign::Bottom)
    } else if word == "x" {
        Some(Sign::By)
    } else if word.starts_with("telescop") {
        Some(Sign::Telescoped)
    } else if is(PLAIN) {
        None
    } else {
        return None;
    })
}

/// A string as its words give it.
struct Spoken {
    top: Option<Amount>,
    bottom: Option<Amount>,
    /// Goes on to the bottom of the well.
    below: bool,
    diameter: Amount,
}

/// Strings of casing, where the text is made of nothing else and gives a depth; `default` is the unit of a bare diameter.
pub(super) fn strings(items: &[Item<'_>], default: Option<&'static Unit>) -> Option<Vec<Piece>> {
    let mut signs = Vec::with_capacity(items.len());
    for item in items {
        signs.extend(sign(item)?);
    }
    let spoken = telescoped(&signs).or_else(|| parts(&signs))?;
    let shortest = |unit: &Unit| matches!(unit.symbol, "in" | "mm" | "cm");
    let depths = |spoken: &Spoken| [spoken.top, spoken.bottom].into_iter().flatten();
    if spoken.iter().any(|one| one.diameter.unit.is_some_and(|unit| !shortest(unit)))
        || spoken.iter().flat_map(depths).any(|depth| depth.unit.is_some_and(shortest))
        || !spoken.iter().any(|one| depths(one).next().is_some())
    {
        return None;
    }
    // A unit that is written once holds for its kind.
    let of_diameter = spoken.iter().find_map(|one| one.diameter.unit).or(default.filter(|unit| shortest(unit)))?;
    let of_depth = spoken.iter().flat_map(depths).find_map(|depth| depth.unit);
    let of_depth = of_depth.or_else(|| unit::by_symbol(if of_diameter.symbol == "in" { "ft" } else { "m" }))?;
    laid(&spoken, of_diameter, of_depth)
}

/// `10x8 telescoped at 40'`.
fn telescoped(signs: &[Sign]) -> Option<Vec<Spoken>> {
    let [Sign::Amount(upper), Sign::By, Sign::Amount(lower), rest @ ..] = signs else { return None };
    let change = match rest {
        [Sign::Telescoped, Sign::From | Sign::To, Sign::Amount(change)] => *change,
        _ => return None,
    };
    Some(vec![
        Spoken { top: None, bottom: Some(change), below: false, diameter: *upper },
        Spoken { top: None, bottom: None, below: true, diameter: *lower },
    ])
}

fn parts(signs: &[Sign]) -> Option<Vec<Spoken>> {
    signs.split(|sign| *sign == Sign::Next).filter(|part| !part.is_empty()).map(part).collect()
}

/// One string.
fn part(signs: &[Sign]) -> Option<Spoken> {
    use Sign::{Amount as A, Below, Bottom, Dash, From, To};
    let to = |sign: &Sign| matches!(sign, To | Dash);
    let spoken = |diameter: &Amount, top: Option<&Amount>, bottom: Option<&Amount>, below| {
        Some(Spoken { top: top.copied(), bottom: bottom.copied(), below, diameter: *diameter })
    };
    match signs {
        [A(diameter)] => spoken(diameter, None, None, false),
        [A(diameter), To, A(bottom)] => spoken(diameter, None, Some(bottom), false),
        [A(diameter), Below | Bottom] | [Below, A(diameter)] | [A(diameter), To, Bottom] => {
            spoken(diameter, None, None, true)
        }
        [A(diameter), Below | From, A(top)]
        | [A(diameter), Below, From, A(top)]
        | [Below | From, A(top), A(diameter)] => spoken(diameter, Some(top), None, true),
        [A(diameter), From, A(top), To, Bottom] => spoken(diameter, Some(top), None, true),
        [A(diameter), A(top), between, A(bottom)] | [A(diameter), From, A(top), between, A(bottom)] if to(between) => {
            spoken(diameter, Some(top), Some(bottom), false)
        }
        [A(top), between, A(bottom), A(diameter)] | [From, A(top), between, A(bottom), A(diameter)]
            if to(between) && diameter.unit.is_some() =>
        {
            spoken(diameter, Some(top), Some(bottom), false)
        }
        _ => None,
    }
}

/// The strings one below another, each with a top; nothing where a depth is missing between two.
fn laid(spoken: &[Spoken], of_diameter: &'static Unit, of_depth: &'static Unit) -> Option<Vec<Piece>> {
    let mut pieces: Vec<Piece> = Vec::with_capacity(spoken.len());
    for (at, one) in spoken.iter().enumerate() {
        let above = match at.checked_sub(1) {
            Some(before) => pieces.get(before)?.bottom,
            None => Some(0.0),
        };
        let last = at + 1 == spoken.len();
        let top = one.top.map(|top| top.si(of_depth)).or(above)?;
        let next_top = spoken.get(at + 1).and_then(|next| next.top).map(|top| top.si(of_depth));
        let bottom = one.bottom.map(|bottom| bottom.si(of_depth)).or(next_top);
        if at == 0 && top > 0.0 || !last && bottom.is_none() || one.below && !last && next_top.is_none() {
            return None;
        }
        let diameter = one.diameter.si(of_diameter);
        if bottom.is_some_and(|bottom| bottom <= top)
            || above.is_some_and(|above| top < above - 1e-9)
            || diameter <= 0.0
        {
            return None;
        }
        pieces.push(Piece { top, bottom, diameter });
    }
    Some(pieces)
}
