//! What a remark tells without an event: a level not at rest, a second well, the value of a blank cell.

use super::super::lexicon;
use super::super::phrases::{Class, Phrases, Token};
use super::words::{DOUBTED, MEASURING, NOW, PASSING, RUNNING, SAYS, VERIFY, WROTE};
use super::{Reader, Written, is_length_unit};

/// The one number of a remark that may be a depth: a length, or a number that counts nothing else.
pub fn one_length(tokens: &[Token]) -> Option<f64> {
    let reader = Reader { phrases: Phrases::all(), tokens };
    let mut found = (0..tokens.len()).filter_map(|at| Some((at, reader.length(at)?.0)));
    let (at, written) = found.next().filter(|_| found.next().is_none())?;
    let other = ["pump", "set", "casing", "cased", "screen", "water", "level", "static", "swl", "yield", "tank", "age"];
    let near = reader.has(&other, at.saturating_sub(4), (at + 4).min(tokens.len()));
    (!near).then(|| written.unit.map_or(written.value, |unit| unit.from_si(written.value)))
}

/// How far the rim stands above the ground, by a remark: `curb 2 ft. high`, `pipe is 2 ft up`.
pub fn rim_height(tokens: &[Token]) -> Option<Written> {
    let reader = Reader { phrases: Phrases::all(), tokens };
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

/// Whether words put depth, level or width in doubt: `Depth and level suspect, pull paper file`.
pub fn doubts_measures(text: &str) -> bool {
    const MEASURES: [&str; 11] =
        ["depth", "level", "diam", "profundi", "profond", "nivel", "niveau", "swl", "measure", "medida", "mesure"];
    let words = lexicon::tokens(text);
    let begins = |known: &[&str]| words.iter().any(|word| known.iter().any(|beginning| word.starts_with(beginning)));
    begins(&MEASURES) && begins(&DOUBTED) && !words.iter().any(|word| ["not", "no", "non"].contains(&word.as_str()))
}

/// Whether somebody tells in which unit a cell was filled in: `I typed the depth in cm`.
pub fn tells_unit(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| WROTE.contains(&token.word.as_str()))
}

/// Whether the level was taken while the pump ran, or before the water stood still.
pub fn not_at_rest(tokens: &[Token]) -> bool {
    /// Words of the time that the water had to come back.
    const RESTED: [&str; 9] = ["hr", "hrs", "hour", "hours", "day", "days", "overnight", "week", "weeks"];
    let word = |at: usize| tokens.get(at).map_or("", |token| token.word.as_str());
    let denied =
        |at: usize| (at.saturating_sub(3)..at).any(|at| ["not", "no", "off", "sin", "sans", "sem"].contains(&word(at)));
    (0..tokens.len()).any(|at| {
        let told = match word(at) {
            "pump" => {
                let mut behind = (at + 1..at + 4).map(word);
                behind.any(|word| ["running", "going", "on", "ran"].contains(&word))
                    && (0..tokens.len()).any(|at| MEASURING.contains(&word(at)))
            }
            // `SWL IS PUMPING LEVEL`
            "pumping" if word(at + 1) == "level" && is_named_so(&word, at) => true,
            "pumping" | "pumped" if ["level", "rate", "test", "water"].contains(&word(at + 1)) => false,
            // `static taken after yield test`
            "test" if ["yield", "pump", "pumping", "flow", "bailer", "bail"].contains(&word(at.wrapping_sub(1))) => {
                let after = (at.saturating_sub(4)..at).any(|at| ["after", "following", "during"].contains(&word(at)));
                // `taken 24 hrs after the pump test`
                let rested = tokens.iter().any(|token| RESTED.contains(&token.word.as_str()));
                after && !rested && (0..at).any(|at| MEASURING.contains(&word(at)))
            }
            // `level had not recovered`: what is denied is the rest.
            "recovered" if ["not", "never"].contains(&word(at.wrapping_sub(1))) => {
                return tokens.iter().any(|token| MEASURING.contains(&token.word.as_str()) || token.word == "water");
            }
            // `where the water was when they were test pumping it`
            "pumping" if (at.saturating_sub(4)..at).any(|at| ["while", "when"].contains(&word(at))) => {
                (0..at).any(|at| MEASURING.contains(&word(at)) || word(at) == "water")
            }
            // `not a rest level`, `niveau au repos inconnu`
            "rest" | "resting" if word(at + 1) == "level" => {
                return (at.saturating_sub(3)..at).any(|at| ["not", "no", "never"].contains(&word(at)))
                    || is_unknown(word(at + 2))
                    || is_unknown(word(at + 3));
            }
            "repos" | "reposo" | "repouso" if is_unknown(word(at + 1)) => true,
            // `measured with the flood in it`
            "flood" | "floodwater" | "floodwaters" | "crue" | "crecida" | "creciente" | "cheia" => {
                in_the_flood(&word, at)
            }
            // `SWL taken while pumping`
            "pumping" if ["while", "when", "during"].contains(&word(at.wrapping_sub(1))) => {
                (0..at).any(|at| MEASURING.contains(&word(at)))
            }
            "pumping" | "pumped" => (at + 1..at + 4).any(|at| MEASURING.contains(&word(at))),
            "pompage" => ["en", "pendant"].contains(&word(at.wrapping_sub(1))),
            "motobomba" => ["con", "com"].contains(&word(at.wrapping_sub(1))),
            "bomba" if word(at + 1) == "en" || word(at + 1) == "em" => {
                ["marcha", "funcionamiento", "funcionamento"].contains(&word(at + 2))
            }
            "bomba" => {
                ["andando", "prendida", "encendida", "ligada", "funcionando", "trabajando", "trabalhando", "puesta"]
                    .contains(&word(at + 1))
            }
            "bombeando" => true,
            // `NS pris pompe solaire en marche`
            "pompe" => (at + 1..at + 4).any(|at| word(at) == "en" && ["marche", "route"].contains(&word(at + 1))),
            // `pump just off, still rising`: the pump is not what is denied.
            "still" => {
                let moving = ["dropping", "falling", "recovering", "rising", "coming"].contains(&word(at + 1));
                return moving && !["not", "no"].contains(&word(at.wrapping_sub(1)));
            }
            _ => false,
        };
        told && !denied(at)
    })
}

/// Whether a word says that something is not known.
fn is_unknown(word: &str) -> bool {
    ["unknown", "inconnu", "inconnue", "desconocido", "desconhecido"].contains(&word)
}

/// Whether a level was taken with the flood in the well: `meas. with the flood in it`.
fn in_the_flood<'a>(word: &impl Fn(usize) -> &'a str, at: usize) -> bool {
    const WITH: [&str; 9] = ["with", "during", "in", "under", "con", "avec", "pendant", "durante", "com"];
    const OTHER: [&str; 10] =
        ["visit", "response", "survey", "work", "check", "relief", "list", "zone", "plain", "tickets"];
    let with = (at.saturating_sub(2)..at).find(|at| WITH.contains(&word(*at)));
    let taken = with.is_some_and(|with| (with.saturating_sub(6)..with).any(|at| MEASURING.contains(&word(at))));
    taken && !OTHER.contains(&word(at + 1))
}

/// Whether the pumping level that is named here is what stands for the level at rest: `SWL is pumping level`.
fn is_named_so<'a>(word: &impl Fn(usize) -> &'a str, at: usize) -> bool {
    const LEVEL: [&str; 7] = ["swl", "static", "level", "wl", "dtw", "reading", "figure"];
    const IS: [&str; 4] = ["is", "was", "=", "gives"];
    let is = (at.saturating_sub(2)..at).find(|at| IS.contains(&word(*at)));
    // `165 is pumping level`: the number of the cell.
    let number = |at: usize| word(at).starts_with(|c: char| c.is_ascii_digit());
    is.is_some_and(|is| (is.saturating_sub(3)..is).any(|at| LEVEL.contains(&word(at))) || is > 0 && number(is - 1))
}

/// The right number and the wrong one of a remark that sets one in place of the other: `it is 210 deep not 160`, `no 160 sino
/// 210`. Nothing where somebody only says so.
pub fn corrected(tokens: &[Token]) -> Option<(Written, f64)> {
    const NOT: [&str; 6] = ["not", "no", "non", "nao", "pas", "instead"];
    const COUNTED: [&str; 13] =
        ["paid", "cost", "phone", "tel", "call", "hp", "permit", "invoice", "pump", "yield", "tank", "lot", "$"];
    const BUT: [&str; 5] = ["but", "sino", "mais", "mas", "rather"];
    let reader = Reader { phrases: Phrases::all(), tokens };
    let doubts = |token: &Token| {
        let word = token.word.as_str();
        word == "?" || VERIFY.contains(&word) || word != "not" && SAYS.contains(&word)
    };
    // `call back: diameter is 4 not 6` counts nothing.
    let counts =
        |at: usize| COUNTED.contains(&reader.word(at)) && !(reader.word(at) == "call" && reader.word(at + 1) == "back");
    // `no 160` is no number of something here.
    let figure = |at: usize| {
        let alone = || Some((Written { value: tokens.get(at)?.number?, unit: None }, at + 1));
        reader
            .length(at)
            .or_else(|| alone().filter(|_| reader.word(at - 1) == "no" && !is_length_unit(tokens.get(at + 1))))
    };
    let hedged = (0..tokens.len()).any(|at| reader.phrases.class_at(tokens, at, Class::Hedge).is_some());
    if hedged || tokens.iter().any(doubts) || (0..tokens.len()).any(counts) {
        return None;
    }
    let mut found = (0..tokens.len()).filter(|at| NOT.contains(&reader.word(*at))).filter_map(|not| {
        let of = usize::from(matches!(reader.word(not + 1), "of" | "son" | "es"));
        let (wrong, end) = figure(not + 1 + of)?;
        let behind = (end..tokens.len().min(end + 3)).find(|at| BUT.contains(&reader.word(*at)));
        let right = match behind {
            Some(but) => reader.length(but + 1)?.0,
            None => {
                let from = (not.saturating_sub(5)..not).rev().find(|at| tokens[*at].number.is_some())?;
                reader.length(from)?.0
            }
        };
        Some((right, wrong.unit.map_or(wrong.value, |unit| unit.from_si(wrong.value))))
    });
    found.next().filter(|_| found.next().is_none())
}

/// The height of the water that a remark says was measured anew: `medido otra vez: 5,20 de agua`.
pub fn height_now(tokens: &[Token]) -> Option<Written> {
    let reader = Reader { phrases: Phrases::all(), tokens };
    let last = tokens.len();
    let hedged = (0..last).any(|at| reader.phrases.class_at(tokens, at, Class::Hedge).is_some());
    if hedged || !reader.has(NOW, 0, last) || reader.has(PASSING, 0, last) || reader.has(SAYS, 0, last) {
        return None;
    }
    let mut heights = (0..last).filter_map(|at| {
        let (written, end) = reader.length(at)?;
        let of = usize::from(matches!(reader.word(end), "of" | "de"));
        let column = at >= 2
            && ["columna", "coluna", "colonne", "column"].contains(&reader.word(at - 2))
            && ["de", "of"].contains(&reader.word(at - 1));
        // `water now 141`
        let now = at >= 2
            && NOW.contains(&reader.word(at - 1))
            && ["water", "agua", "eau"].contains(&reader.word(at - 2))
            && !DOWN.contains(&reader.word(end));
        (column || now || matches!(reader.word(end + of), "water" | "agua" | "eau" | "d'eau")).then_some(written)
    });
    heights.next().filter(|_| heights.next().is_none())
}

/// Whether a gallery leads off the well, whose water no measure of the row counts.
pub fn has_gallery(tokens: &[Token]) -> bool {
    const GALLERIES: [&str; 10] =
        ["gallery", "galleries", "adit", "adits", "galeria", "galerias", "galerie", "galeries", "socavon", "mina"];
    const WITHOUT: [&str; 14] = [
        "no", "not", "without", "sin", "sans", "sem", "dry", "seca", "seche", "walled", "tapiada", "cegada", "muree",
        "filter",
    ];
    let word = |at: usize| tokens.get(at).map_or("", |token| token.word.as_str());
    (0..tokens.len()).any(|at| {
        GALLERIES.contains(&word(at))
            && (word(at) != "mina" || word(at + 1) == "de" && word(at + 2) == "agua")
            && !(at.saturating_sub(2)..at + 3).any(|at| WITHOUT.contains(&word(at)))
    })
}

/// Whether more than one well is told of.
pub fn names_several_wells(tokens: &[Token]) -> bool {
    const MANY: [&str; 9] = ["two", "2", "three", "3", "dos", "deux", "dois", "ambos", "both"];
    const WELLS: [&str; 8] = ["wells", "pozos", "puits", "forages", "pocos", "boreholes", "bores", "furos"];
    tokens.windows(2).any(|pair| MANY.contains(&pair[0].word.as_str()) && WELLS.contains(&pair[1].word.as_str()))
}

/// Whether more than one well is told of, and nothing says which of them the row is.
pub fn several_wells(tokens: &[Token]) -> bool {
    const TOLD: [&str; 8] = ["this", "one", "other", "main", "house", "este", "celui", "row"];
    let word = |at: usize| tokens.get(at).map_or("", |token| token.word.as_str());
    if !names_several_wells(tokens) {
        return false;
    }
    let place = (0..tokens.len())
        .any(|at| word(at) == "this" && ["place", "property", "permit", "lot", "farm"].contains(&word(at + 1)));
    let told = (0..tokens.len()).any(|at| TOLD.contains(&word(at)) && !(word(at) == "this" && place));
    let unclear = (0..tokens.len()).any(|at| ["think", "known", "unknown", "which", "deeper"].contains(&word(at)));
    !told || unclear
}

/// Whether a remark leaves open how deep or wide the well is: `depth 145 or 245`, `this one is much shallower`.
pub fn leaves_open(tokens: &[Token]) -> bool {
    const MEASURED: [&str; 13] = [
        "depth",
        "deep",
        "td",
        "level",
        "swl",
        "profundidad",
        "profondeur",
        "profundidade",
        "nivel",
        "niveau",
        "fondo",
        "fond",
        "fundo",
    ];
    const OR: [&str; 3] = ["or", "ou", "o"];
    const SHALLOWER: [&str; 2] = ["shallower", "narrower"];
    let word = |at: usize| tokens.get(at).map_or("", |token| token.word.as_str());
    let number = |at: usize| tokens.get(at).is_some_and(|token| token.number.is_some());
    (0..tokens.len()).any(|at| {
        let either = number(at)
            && (OR.contains(&word(at + 1)) && number(at + 2) || OR.contains(&word(at + 2)) && number(at + 3));
        let of_well = || (at.saturating_sub(4)..at).any(|before| MEASURED.contains(&word(before)));
        let compared = SHALLOWER.contains(&word(at)) && word(at + 1) != "than" && !number(at + 1);
        let less = ["menos", "moins"].contains(&word(at)) && word(at + 1).starts_with("prof");
        // `driller's log shows 310, unresolved`; `backfilled, bottom not reported`.
        let open = ["unresolved", "unsettled", "disputed"].contains(&word(at))
            && tokens.iter().any(|one| one.number.is_some());
        let unsaid = ["bottom", "depth"].contains(&word(at))
            && word(at + 1) == "not"
            && ["reported", "recorded", "known", "given", "stated"].contains(&word(at + 2));
        // `open hole below casing, size n/r`
        let size = ["size", "dia", "diameter", "width"].contains(&word(at))
            && (is_unknown(word(at + 1))
                || word(at + 1) == "n" && word(at + 2) == "/" && ["r", "k"].contains(&word(at + 3))
                || word(at + 1) == "not"
                    && ["reported", "recorded", "known", "given", "stated"].contains(&word(at + 2)));
        either && of_well() || size || compared || less || open || unsaid
    })
}

/// Whether a remark gives the well one width above and another below, and not how deep the change is: `arriba 1,20 m, abajo como
/// 0,80`, `4 ft at the top, 3 ft at the bottom`. `cell` is the width that the row has, in metres.
pub fn wide_and_narrow(tokens: &[Token], cell: f64, bare: impl Fn(f64) -> Option<f64>) -> bool {
    const UP: [&str; 8] = ["arriba", "top", "above", "upper", "haut", "cima", "boca", "superior"];
    const DOWN: [&str; 9] = ["abajo", "bottom", "below", "lower", "bas", "baixo", "fondo", "fundo", "inferior"];
    let reader = Reader { phrases: Phrases::all(), tokens };
    let lengths: Vec<(usize, usize, f64)> = (0..tokens.len())
        .filter_map(|at| {
            let (written, end) = reader.length(at)?;
            let si = if written.unit.is_some() { Some(written.value) } else { bare(written.value) };
            Some((at, end, si?))
        })
        .collect();
    let [(one, ends, first), (other, end, second)] = lengths.as_slice() else { return false };
    let near = |known: &[&str], from: usize, to: usize, floor: usize, roof: usize| {
        reader.has(known, from.saturating_sub(3).max(floor), from) || reader.has(known, to, (to + 4).min(roof))
    };
    let last = tokens.len();
    let (above, below) = (near(&UP, *one, *ends, 0, *other), near(&DOWN, *other, *end, *ends, last));
    let (below_first, above_second) = (near(&DOWN, *one, *ends, 0, *other), near(&UP, *other, *end, *ends, last));
    let same = |si: f64| (si - cell).abs() <= 0.03 * cell;
    let alike = (0.3..=3.0).contains(&(first / second)) && (first / second - 1.0).abs() > 0.05;
    (above && below || below_first && above_second) && alike && (same(*first) || same(*second))
}

/// Words that make a length a depth.
const DOWN: [&str; 9] = ["down", "below", "from", "bgl", "bgs", "bls", "toc", "btoc", "ground"];

/// The height of the water that a remark tells where no cell does: `water stands 3.5 ft`, `3.5 ft of water at overflow`.
pub fn told_height(tokens: &[Token]) -> Option<Written> {
    const OVER: [&str; 10] = ["over", "above", "on", "around", "across", "flood", "when", "was", "used", "yard"];
    let reader = Reader { phrases: Phrases::all(), tokens };
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

/// The level that a remark tells of a cell that is blank: `static 35 ft below ground`, `water stands 21 ft down`.
pub fn told_level(tokens: &[Token]) -> Option<Written> {
    let reader = Reader { phrases: Phrases::all(), tokens };
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
    let long = written.unit.is_some_and(|unit| matches!(unit.symbol, "ft" | "m"));
    (long && reader.has(&ties, at, last.min(end + 3))).then_some(written)
}

/// A house number and a road: `6036 Osier Bottom Rd`.
pub(super) fn is_address(tokens: &[Token]) -> bool {
    const ROADS: [&str; 14] =
        ["rd", "road", "ln", "lane", "st", "street", "ave", "avenue", "hwy", "highway", "dr", "drive", "ct", "blvd"];
    let [number, .., road] = tokens else { return false };
    number.number.is_some()
        && ROADS.contains(&road.word.trim_end_matches('.'))
        && tokens[1..].iter().all(|token| token.number.is_none() && !is_length_unit(Some(token)))
}
