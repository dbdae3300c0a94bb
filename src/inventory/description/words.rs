//! The words that say what a number of a description is of: English by common practice of the trade, no source; Spanish, French
//! and Portuguese from memory. Lower case, without accents.

use super::Label;

/// Words before a number.
pub(super) static BEFORE: [(&[&str], Label); 5] = [
    (
        &[
            "static", "swl", "wl", "dtw", "sl", "water", "rests", "rest", "resting", "stands", "standing", "level",
            "ns", "ne", "nivel", "niveau", "agua", "eau", "statique", "estatico",
        ],
        Label::Level,
    ),
    (
        &["td", "depth", "total", "bottom", "prof", "profondeur", "profundidad", "profundidade", "fondo", "fundo"],
        Label::Depth,
    ),
    (&["casing", "csg", "cased", "tubage", "ademe", "revestimento", "entubado"], Label::Casing),
    (&["up", "stickup", "stick", "sticks", "stk", "stkup"], Label::Rim),
    (
        &[
            "pump",
            "pumped",
            "set",
            "setting",
            "hangs",
            "hung",
            "hanging",
            "intake",
            "jet",
            "sub",
            "submersible",
            "motor",
            "draws",
            "drawdown",
            "pumping",
            "pumps",
            "pwl",
            "was",
            "originally",
            "orig",
            "screen",
            "screened",
            "perf",
            "perfs",
            "perforated",
            "slot",
            "slotted",
            "grout",
            "grouted",
            "seal",
            "sealed",
            "yield",
            "yields",
            "makes",
            "flow",
            "pitless",
            "frost",
            "bedrock",
            "tank",
            "pl",
            "drop",
            "wire",
            "cable",
            "nd",
            "dynamique",
            "bomba",
            "pompe",
            "crepine",
            "filtro",
        ],
        Label::Aside,
    ),
];

/// Words behind a number.
pub(super) static AFTER: [(&[&str], Label); 6] = [
    (
        &["deep", "depth", "td", "hondo", "fondo", "profundo", "profunda", "profond", "profondeur", "fundo", "bottom"],
        Label::Depth,
    ),
    (&["static", "swl", "dtw"], Label::Level),
    (
        &[
            "across",
            "wide",
            "dia",
            "diam",
            "diameter",
            "od",
            "id",
            "casing",
            "csg",
            "cased",
            "pipe",
            "pvc",
            "steel",
            "stl",
            "iron",
            "plastic",
            "galv",
            "tile",
            "tiles",
            "point",
            "sandpoint",
            "bore",
            "ring",
            "rings",
            "culvert",
            "curb",
            "round",
            "square",
            "diametre",
            "diametro",
            "tubo",
            "ancho",
            "large",
        ],
        Label::Width,
    ),
    (&["stickup", "above", "ag", "up"], Label::Rim),
    (&["drilled", "bored", "dug", "driven", "rock", "artesian"], Label::Made),
    (
        &[
            "pumping",
            "pwl",
            "pump",
            "setting",
            "screen",
            "slot",
            "drawdown",
            "sub",
            "jet",
            "submersible",
            "grout",
            "yrs",
            "old",
        ],
        Label::Aside,
    ),
];

/// Two words behind a number.
pub(super) static AFTER_TOGETHER: [(&[&str], &[&str], Label); 3] = [
    (&["to"], &["water"], Label::Level),
    (&["a", "al", "jusqu'a", "ate"], &["l'eau", "agua"], Label::Level),
    (&["of", "de"], &["water", "agua", "eau"], Label::Height),
];

/// What joins two numbers of one measure.
pub(super) const JOINS: [&str; 6] = ["or", "to", "-", "–", "thru", "ou"];

/// What joins two sides, or a width and a depth.
pub(super) const TIMES: [&str; 3] = ["x", "×", "by"];

/// Words between the strings of a casing.
pub(super) const BELOW: [&str; 8] = ["then", "below", "under", "rest", "open", "oh", "reduced", "reduces"];

/// What a height of water is counted from.
pub(super) const FROM_BELOW: [&str; 5] = ["bottom", "fond", "fondo", "fundo", "floor"];

/// Words before a time, where `in` is no inch: `water at 20 in spring`.
pub(super) const TIMES_OF_YEAR: [&str; 14] = [
    "spring",
    "summer",
    "fall",
    "winter",
    "autumn",
    "dry",
    "wet",
    "the",
    "a",
    "august",
    "july",
    "june",
    "september",
    "drought",
];
