//! The water of a well in words: dry, flowing, full to the brim, pumped down, so much of it standing.
//!
//! Called for a depth or a level that is not one number. Every word must be known before anything is concluded from them.
//! The words are the trade's, from memory: English, and the plainest Spanish, French and Portuguese.

use super::characters::small_letters;
use super::items::{Amount, Item, compounds, items, lengths};
use super::number::Comma;
use super::scan;

/// Words for a well without water.
pub(super) const DRY: &[&str] = &["dry", "seco", "seca", "sec", "sèche", "tari", "tarie", "asséché"];
const WATER: &[&str] = &["water", "agua", "água", "eau"];
/// Words for a level while the pump runs.
pub(super) const PUMPING: &[&str] = &[
    "pumping",
    "pumped",
    "pwl",
    "pump",
    "dynamic",
    "drawdown",
    "dynamique",
    "dinámico",
    "dinamico",
    "dinâmico",
    "bombeo",
    "bombeando",
    "bombeamento",
    "pompage",
    "pompe",
    "bomba",
];
const RESTING: &[&str] =
    &["swl", "static", "rest", "resting", "standing", "estático", "estatico", "statique", "reposo", "repos", "repouso"];
/// The words of which one stands wherever a well is said to be full or to flow.
pub const FULL_WORDS: [&str; 39] = [
    "flow",
    "coule",
    "brotante",
    "brota",
    "full",
    "brim",
    "brimful",
    "flowing",
    "flows",
    "artesian",
    "runs",
    "running",
    "overflow",
    "overflows",
    "overflowing",
    "top",
    "surface",
    "lleno",
    "llena",
    "surgente",
    "surge",
    "fluye",
    "rebosa",
    "rebosando",
    "desborda",
    "artesiano",
    "plein",
    "jaillissant",
    "jaillit",
    "deborde",
    "affleurant",
    "artesien",
    "cheio",
    "cheia",
    "jorrante",
    "jorra",
    "jorrando",
    "transborda",
    "transbordando",
];
const FLOWING: &[&str] = &[
    "fl",
    "flow",
    "flg",
    "flwg",
    "flowg",
    "running",
    "runs",
    "flowing",
    "flows",
    "overflow",
    "overflows",
    "overflowing",
    "over",
    "surgente",
    "surge",
    "corre",
    "fluyente",
    "fluye",
    "rebosa",
    "rebosando",
    "desborda",
    "jaillissant",
    "coule",
    "déborde",
    "deborde",
    "débordant",
    "débordante",
    "jaillissante",
    "jaillit",
    "jorrante",
    "jorra",
    "jorrando",
    "transborda",
    "transbordar",
    "transbordando",
    "brota",
    "brotante",
    "desbordando",
    "desbordante",
    "derrama",
];
const ARTESIAN: &[&str] = &["artesian", "artesiano", "artesiana", "artésien", "artésienne", "artesien"];
const FULL: &[&str] = &[
    "affleurant",
    "affleurante",
    "affleure",
    "bord",
    "fleur",
    "flor",
    "rim",
    "full",
    "brim",
    "brimful",
    "surface",
    "grade",
    "ground",
    "lleno",
    "llena",
    "cheio",
    "cheia",
    "plein",
    "superficie",
    "rente",
    "superfície",
];
/// Words that may stand beside those of a full well and change nothing.
const BESIDE_FULL: &[&str] = &[
    "at", "the", "to", "it", "since", "flood", "after", "is", "well", "water", "of", "level", "top", "all", "year",
    "always", "and", "out", "casing", "a", "al", "la", "el", "hasta", "ras", "de", "del", "suelo", "nivel", "au", "du",
    "sol", "à", "ao", "do", "solo", "in", "with", "land", "static", "swl", "spills", "spilling", "gl", "above", "head",
    "agl", "ags", "pressure", "by", "itself", "right", "now", "today", "brim", "shut", "on", "own", "terre", "terra",
    "tierra", "chão", "da", "niveau", "nível", "borde", "borda", "boca", "margelle", "brocal", "está", "esta", "est",
    "l", "eau", "agua", "água", "le", "puits", "pozo", "poço", "os", "até", "haut", "arriba", "cima", "por", "par",
    "o", "sozinho", "sozinha", "sola", "seul", "pipe", "lip", "piso", "llena", "cheia", "crecida", "inundada",
    "terreno", "fora",
];

/// Whether one of the words stands among the items.
pub(super) fn has(items: &[Item<'_>], words: &[&str]) -> bool {
    items.iter().filter_map(Item::word).any(|word| words.contains(&word))
}

/// Units of flow and pressure that stand beside a flowing well.
const OTHER_UNITS: &[&str] =
    &["gpm", "igpm", "usgpm", "lpm", "l", "lps", "s", "min", "gph", "psi", "kpa", "bar", "us", "gal", "m"];

/// Words for the ground, which the water reaches where nothing else is said.
const AT_GROUND: &[&str] =
    &["gl", "ras", "piso", "sol", "suelo", "solo", "chão", "terreno", "tierra", "terra", "terre"];

/// Whether a text names the ground, in words.
pub fn names_ground(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric());
    words.any(|word| AT_GROUND.contains(&word) || matches!(word, "ground" | "grade"))
}

/// Whether the water stands at the ground, and would rise above it; every word must be known, so that `no longer flows` is
/// not one of these.
pub(super) fn full(items: &[Item<'_>]) -> Option<bool> {
    let known = |word: &str| [FLOWING, ARTESIAN, FULL, BESIDE_FULL].iter().any(|words| words.contains(&word));
    let numbers = items.iter().filter(|item| item.amount().is_some()).count();
    let lengths: Vec<Amount> = lengths(items).collect();
    let other_units = |word: &str| numbers > lengths.len() && { OTHER_UNITS.contains(&word) };
    // `0 - it overflows` is no range.
    let at_zero = matches!(lengths.as_slice(), [only] if only.value == 0.0) && has(items, FLOWING);
    if !items.iter().filter_map(Item::word).all(|word| known(word) || other_units(word))
        || items.iter().any(|item| item.is('-')) && !at_zero
    {
        return None;
    }
    // `to the top`
    let to_top = ["to", "at", "up"].iter().any(|word| has(items, &[word])) && has(items, &["top"]);
    if numbers == 0 && to_top && !has(items, &["from"]) {
        return Some(has(items, FLOWING));
    }
    // `over 20 ft` is a bound, `2 ft over` flows.
    let at_least = items.windows(2).any(|pair| pair[0].word() == Some("over") && pair[1].amount().is_some());
    let (flowing, artesian) = (has(items, FLOWING), has(items, ARTESIAN));
    if at_least && !items.iter().filter_map(Item::word).any(|word| word != "over" && FLOWING.contains(&word)) {
        return None;
    }
    match lengths.len() {
        0 if flowing || artesian => Some(true),
        0 if numbers == 0 && (has(items, FULL) || has(items, AT_GROUND)) => Some(false),
        // How high it would rise does not matter: the water is counted to the ground. `33 running` is a pump's.
        1 if flowing && items.iter().filter_map(Item::word).any(is_flow) => Some(true),
        _ => None,
    }
}

/// Words of a well that flows, or of a pump that runs.
pub(super) const RUNNING: &[&str] = &["running", "runs"];

/// Whether a word is of a well that flows, and of no pump.
fn is_flow(word: &str) -> bool {
    FLOWING.contains(&word) && !RUNNING.contains(&word) || matches!(word, "out" | "above")
}

/// The level that stands where a height was asked: `agua a 5,10 del brocal`, `water at 12`, `12 ft below the top`.
pub(super) fn level_for_height(items: &[Item<'_>]) -> Option<Amount> {
    const TO: &[&str] = &["a", "à", "at", "to", "em", "en", "está", "esta", "est"];
    const DOWN: &[&str] = &[
        "below", "down", "btoc", "btc", "bgl", "bgs", "from", "under", "del", "desde", "bajo", "abajo", "sous",
        "depuis", "du", "do", "abaixo",
    ];
    const FROM: &[&str] = &[
        "toc", "top", "casing", "rim", "curb", "ground", "grade", "surface", "brocal", "pretil", "suelo", "margelle",
        "sol", "boca", "bocal", "solo", "chão", "btoc", "btc", "bgl", "bgs", "down", "abajo", "abaixo",
    ];
    const BOTTOM: &[&str] = &["bottom", "fondo", "fond", "fundo", "above", "sobre", "acima", "dessus"];
    let mut all = lengths(items);
    let amount = all.next().filter(|_| all.next().is_none())?;
    let at = items.iter().position(|item| item.amount() == Some(amount))?;
    let before: Vec<&str> = items[..at].iter().filter_map(Item::word).collect();
    let stands = before.iter().any(|word| WATER.contains(word)) && before.last().is_some_and(|word| TO.contains(word));
    let after = &items[at + 1..];
    let counted = has(after, DOWN) && has(after, FROM);
    let words: Vec<&str> = after.iter().filter_map(Item::word).collect();
    let to_water = words.windows(2).any(|pair| matches!(pair[0], "to" | "hasta") && WATER.contains(&pair[1]));
    ((stands || counted || to_water) && !has(items, BOTTOM)).then_some(amount)
}

/// The level at rest where one while pumping is written as well: `25 swl 85 pwl`, `25 (85 pumping)`.
pub(super) fn resting(items: &[Item<'_>]) -> Option<Amount> {
    enum Part {
        Amount(Amount),
        Resting,
        Pumping,
    }
    let parts: Vec<Part> = items
        .iter()
        .filter_map(|item| match item {
            Item::Amount(amount) => Some(Part::Amount(*amount)),
            Item::Word(word) if RESTING.contains(&word.as_ref()) => Some(Part::Resting),
            Item::Word(word) if PUMPING.contains(&word.as_ref()) || RUNNING.contains(&word.as_ref()) => {
                Some(Part::Pumping)
            }
            _ => None,
        })
        .collect();
    match parts.as_slice() {
        [Part::Amount(resting), Part::Resting, Part::Amount(_), Part::Pumping]
        | [Part::Resting, Part::Amount(resting), Part::Pumping, Part::Amount(_)]
        | [Part::Amount(_), Part::Pumping, Part::Amount(resting), Part::Resting]
        | [Part::Pumping, Part::Amount(_), Part::Resting, Part::Amount(resting)]
        | [Part::Amount(resting), Part::Pumping, Part::Amount(_)]
        | [Part::Amount(resting), Part::Amount(_), Part::Pumping]
        | [Part::Resting, Part::Amount(resting), Part::Pumping]
        | [Part::Amount(resting), Part::Resting, Part::Pumping] => Some(*resting),
        _ => None,
    }
}

/// `holds 9 ft of water`, `9 ft water in it`; not `9 ft to water`, not `9 ft water level`.
pub(super) fn height_of_water(items: &[Item<'_>]) -> Option<Amount> {
    let mut all = lengths(items);
    let amount = all.next()?;
    if all.next().is_some() {
        return None;
    }
    let at = items.iter().position(|item| item.amount() == Some(amount))?;
    let words_before = || items[..at].iter().filter_map(Item::word);
    let tirante = words_before().any(|word| word == "tirante");
    if tirante || words_before().any(|word| WATER.contains(&word)) && words_before().any(|word| COLUMN.contains(&word))
    {
        return Some(amount);
    }
    let held =
        items[..at].iter().filter_map(Item::word).any(|word| matches!(word, "holds" | "hold" | "has" | "contains"));
    let mut after = items[at + 1..].iter().skip_while(|item| {
        item.is('\'') || item.word().is_some_and(|word| matches!(word, "of" | "de" | "d" | "standing" | "the"))
    });
    let water = after.next().and_then(Item::word).is_some_and(|word| WATER.contains(&word));
    // `holds 6 ft`, `holds 6 ft, never less`: nothing else is held in a well.
    let alone = held && !items[at + 1..].iter().filter_map(Item::word).any(|word| !BESIDE_HELD.contains(&word));
    // `has 9 ft in it`
    let inside = {
        let mut behind = items[at + 1..].iter().filter_map(Item::word);
        behind.next() == Some("in") && matches!(behind.next(), Some("it" | "there" | "well")) && behind.next().is_none()
    };
    if held && inside {
        return Some(amount);
    }
    let level = after.next().and_then(Item::word).is_some_and(|word| matches!(word, "level" | "table" | "depth"));
    let before = items[..at].iter().rev().find_map(Item::word);
    let is_level = before.is_some_and(|word| matches!(word, "at" | "to" | "level" | "swl"));
    (water && !level && !is_level || held && water || alone && is_hold(items, at)).then_some(amount)
}

/// Words that make a number a level, wherever it stands.
pub(super) const LEVEL: &[&str] = &["ns", "swl", "ne", "static", "statique", "estático", "estatico", "dtw", "wl"];

/// Words between these and their number.
pub(super) const AT: &[&str] = &["à", "a", "at", "is", "level", "niveau", "nivel", "de", "en"];

/// Words before a measure that holds no longer.
const FORMER: &[&str] =
    &["was", "were", "formerly", "originally", "orig", "old", "era", "antes", "avant", "anc", "était"];

/// The measure that holds of `212 (was 180)`, `200, was 150`, `was 150, now 200`.
pub(super) fn no_longer(items: &[Item<'_>]) -> Option<Amount> {
    let all: Vec<Amount> = lengths(items).collect();
    let [first, second] = all.as_slice() else { return None };
    let is_former = |amount: &Amount| {
        let at = items.iter().position(|item| item.amount() == Some(*amount));
        let before = at.and_then(|at| at.checked_sub(1)).and_then(|at| items.get(at)).and_then(Item::word);
        before.is_some_and(|word| FORMER.contains(&word))
    };
    let known = |word: &str| {
        FORMER.contains(&word) || matches!(word, "now" | "is" | "ft" | "but" | "it" | "new" | "ahora" | "agora")
    };
    if !items.iter().filter_map(Item::word).all(known) {
        return None;
    }
    match (is_former(first), is_former(second)) {
        (false, true) => Some(*first),
        (true, false) => Some(*second),
        _ => None,
    }
}

/// The whole of `8 tile 3 ft each so 24 ft`, `9 tiles of 3 ft = 27`: the third number is the first two multiplied.
pub(super) fn worked_out(items: &[Item<'_>]) -> Option<Amount> {
    let mut amounts = items.iter().filter_map(Item::amount);
    let (count, each, whole) = (amounts.next()?, amounts.next()?, amounts.next()?);
    let sound = amounts.next().is_none() && count.unit.is_none() && count.value.fract() == 0.0;
    let equal = (count.value * each.value - whole.value).abs() < 0.01 * whole.value;
    let alike = each.unit.is_none() || whole.unit.is_none() || each.unit == whole.unit;
    (sound && equal && alike && count.value > 1.0).then_some(Amount { unit: whole.unit.or(each.unit), ..whole })
}

/// How far the water stands below the top of `stands within 4 ft of the top`, `all but 4 ft`, `full to 2 ft from the top`.
pub(super) fn below_top(items: &[Item<'_>]) -> Option<Amount> {
    let mut all = lengths(items);
    let amount = all.next().filter(|_| all.next().is_none())?;
    let at = items.iter().position(|item| item.amount() == Some(amount))?;
    let before: Vec<&str> = items[..at].iter().filter_map(Item::word).collect();
    let after: Vec<&str> = items[at + 1..].iter().filter_map(Item::word).collect();
    let top =
        after.iter().any(|word| matches!(*word, "top" | "brim" | "rim" | "ground" | "surface" | "curb" | "grade"));
    let within = before.contains(&"within") && top;
    let but = before.ends_with(&["all", "but"]) || before.ends_with(&["full", "but"]);
    let from = before.iter().any(|word| matches!(*word, "full" | "up" | "fills" | "stands"))
        && after.first().is_some_and(|word| matches!(*word, "from" | "of" | "below"))
        && top;
    (within || but || from).then_some(amount)
}

/// Whether the verb before an amount is to hold: `has 6 ft` could be of anything.
fn is_hold(items: &[Item<'_>], at: usize) -> bool {
    items[..at].iter().filter_map(Item::word).any(|word| matches!(word, "holds" | "hold"))
}

/// Words for a height of water, before its amount.
const COLUMN: &[&str] =
    &["column", "height", "hauteur", "colonne", "lame", "altura", "columna", "lámina", "lamina", "coluna", "lâmina"];

/// Words after what a well holds that change nothing.
const BESIDE_HELD: &[&str] =
    &["never", "less", "always", "steady", "year", "round", "all", "it", "most", "years", "in", "usually", "about"];

/// The height of water that a remark speaks of, in metres; the unit must be written.
pub fn water_in_words(text: &str) -> Option<f64> {
    if scan::is_prose(text) {
        return None;
    }
    let lower = small_letters(text);
    let raw = items(&lower, Comma::ByForm);
    let whole = compounds(&raw, false);
    let amount = height_of_water(&whole)?;
    amount.unit.map(|unit| unit.to_si(amount.value)).filter(|si| *si > 0.0)
}
