//! The words of casing strings: English and the trade's plainest Spanish, French and Portuguese, from memory.

use super::super::items::{Amount, Item};

/// What a part of the text does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Sign {
    Amount(Amount),
    To,
    From,
    Dash,
    Below,
    By,
    Of,
    Telescoped,
    Bottom,
    /// Open rock below the casing: it begins where what is above it ends, if nothing else is said.
    Hole,
    /// `open`: a hole where a part begins with it, else a word that changes nothing.
    Open,
    /// A screen: it begins where the casing ends, if nothing else is said.
    Inner,
    /// The diameter before it is that of the outside.
    Outside,
    /// The number before it is the thickness of the wall.
    Wall,
    /// One string ends and the next begins.
    Next,
    /// The same, one below the other.
    Then,
    /// Between the numbers of a list, or as [`Self::Next`].
    Slash,
}

impl Sign {
    /// The amount, where it is one.
    pub(super) const fn amount(&self) -> Option<Amount> {
        match self {
            Self::Amount(amount) => Some(*amount),
            _ => None,
        }
    }
}

const TO: &[&str] = &["to", "thru", "through", "until", "till", "hasta", "até", "ate", "jusque", "à"];
const FROM: &[&str] = &["from", "at", "desde", "dès", "em", "en", "partir"];
const BELOW: &[&str] = &[
    "below",
    "beneath",
    "thereafter",
    "rest",
    "remainder",
    "debajo",
    "abajo",
    "abaixo",
    "dessous",
    "resto",
    "reste",
    "bas",
];
const NEXT: &[&str] = &["and", "et", "y", "e"];
const THEN: &[&str] =
    &["then", "followed", "puis", "luego", "después", "despues", "depois", "ensuite", "après", "apres"];
const BOTTOM: &[&str] =
    &["bottom", "btm", "bot", "td", "fondo", "fundo", "fond", "full", "throughout", "entirely", "toda", "todo"];
const HOLE: &[&str] = &[
    "oh", "hole", "borehole", "openhole", "drilled", "rock", "bedrock", "trou", "nu", "hueco", "abierto", "furo",
    "aberto", "roca", "rocha", "rocher",
];
const INNER: &[&str] = &[
    "screen",
    "screened",
    "scr",
    "slotted",
    "crépine",
    "crepine",
    "crépines",
    "filtro",
    "filtros",
    "rejilla",
    "ranurado",
];
const OUTSIDE: &[&str] = &["od", "outside", "exterior", "extérieur", "externo", "ext"];
const WALL: &[&str] = &["wall", "w", "wt", "thick", "pared", "paroi", "parede", "ép", "épaisseur", "espesor"];

/// Words of a driven point.
pub(super) const POINT: &[&str] =
    &["pt", "pts", "point", "points", "drive", "driven", "sand", "sandpoint", "wellpoint", "well", "pnt"];

/// Words that change nothing.
const PLAIN: &[&str] = &[
    "casing",
    "cased",
    "csg",
    "cas",
    "pipe",
    "pvc",
    "upvc",
    "abs",
    "hdpe",
    "steel",
    "stl",
    "iron",
    "galv",
    "galvanized",
    "plastic",
    "welded",
    "threaded",
    "id",
    "bored",
    "augered",
    "pt",
    "pnt",
    "point",
    "diameter",
    "diam",
    "dia",
    "well",
    "the",
    "that",
    "there",
    "is",
    "with",
    "ground",
    "tubing",
    "down",
    "deep",
    "depth",
    "length",
    "goes",
    "it",
    "buses",
    "buse",
    "jusqu",
    "ø",
    "way",
    "all",
    "surf",
    "surface",
    "prod",
    "production",
    "conductor",
    "protective",
    "drive",
    "liner",
    "inside",
    "inner",
    "outer",
    "gravel",
    "pack",
    "packed",
    "grout",
    "grouted",
    "cemented",
    "sealed",
    "natural",
    "stainless",
    "ss",
    "curb",
    "curbing",
    "crib",
    "tile",
    "tiles",
    "conc",
    "concrete",
    "ring",
    "rings",
    "brick",
    "stone",
    "tubo",
    "tubos",
    "tubería",
    "tuberia",
    "revestimiento",
    "revestimento",
    "ademe",
    "tubage",
    "tube",
    "tubé",
    "acier",
    "acero",
    "aço",
    "forage",
    "perforación",
    "perforacion",
    "profondeur",
    "profundidad",
    "profundidade",
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
    "al",
    "les",
    "los",
    "las",
    "ahi",
    "ahí",
    "alli",
    "allí",
    "là",
    "daí",
    "on",
    "in",
    "au",
];

/// What one part does; the inner `None` for what changes nothing, the outer for what is not known.
pub(super) fn sign(item: &Item<'_>) -> Option<Option<Sign>> {
    let word = match item {
        Item::Amount(amount) => return Some(Some(Sign::Amount(*amount))),
        Item::Mark(',' | ';' | '&' | '+') => return Some(Some(Sign::Next)),
        Item::Mark('/') => return Some(Some(Sign::Slash)),
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
    } else if is(THEN) {
        Some(Sign::Then)
    } else if is(NEXT) {
        Some(Sign::Next)
    } else if is(BOTTOM) {
        Some(Sign::Bottom)
    } else if word == "open" {
        Some(Sign::Open)
    } else if is(HOLE) {
        Some(Sign::Hole)
    } else if is(INNER) {
        Some(Sign::Inner)
    } else if is(OUTSIDE) {
        Some(Sign::Outside)
    } else if is(WALL) {
        Some(Sign::Wall)
    } else if word == "of" {
        Some(Sign::Of)
    } else if word == "x" || word == "by" {
        Some(Sign::By)
    } else if word.starts_with("telescop") {
        Some(Sign::Telescoped)
    } else if is(PLAIN) {
        None
    } else {
        return None;
    })
}
