//! A number that a remark puts in the place of the cell's: beside the wrong one, or behind a word that calls the cell wrong.

use super::lengths::{Reader, Written};
use super::units::is_length_unit;
use super::words::{CONFIRMED, ONCE_MORE, RINGS, SAYS, TAKEN, VERIFY, WATER, WRONG, WROTE};
use crate::field::Field;
use crate::inventory::phrases::{Class, Token};
use crate::quantity::unit::Unit;

/// The right number and the wrong one of a remark that sets one in place of the other: `it is 210 deep not 160`, `no 160 sino
/// 210`. Nothing where somebody only says so.
pub fn corrected(tokens: &[Token]) -> Option<(Written, f64)> {
    let reader = Reader::of(tokens);
    // `tag says 325 not 225 - owner confirmed 325`
    let told = tokens.iter().any(|token| token.word != "not" && SAYS.contains(&token.word.as_str()));
    if told && !is_confirmed(&reader) && !on_paper(&reader) {
        return None;
    }
    set_against(tokens).or_else(|| by_mistake(&reader)).or_else(|| of_the_flood(&reader))
}

/// Two numbers of which the first is of the flood, and the second was taken on a day after it: `0.8 was the flood, on 6/22: 3.4`,
/// `4,90 m pendant la crue ; repris le 19/09 : 2,60 m`. Dates are no numbers here.
fn of_the_flood(reader: &Reader) -> Option<(Written, f64)> {
    const FLOOD: [&str; 13] = [
        "flood",
        "floodwater",
        "crue",
        "inondation",
        "creciente",
        "crecida",
        "riada",
        "inundacion",
        "avenida",
        "cheia",
        "enchente",
        "enxurrada",
        "inundacao",
    ];
    const IS: [&str; 18] = [
        "is", "was", "were", "in", "during", "from", "son", "era", "eran", "fue", "durante", "pendant", "etait", "est",
        "en", "foi", "na", "with",
    ];
    let last = reader.tokens.len();
    let hedged = (0..last).any(|at| reader.phrases.class_at(reader.tokens, at, Class::Hedge).is_some());
    let lengths: Vec<(Written, usize, usize)> =
        (0..last).filter_map(|at| reader.length(at).map(|(written, end)| (written, at, end))).collect();
    let [(wrong, _, ends), (right, second, _)] = lengths.as_slice() else { return None };
    let flood = (*ends..last.min(ends + 4).min(*second)).find(|at| FLOOD.contains(&reader.word(*at)))?;
    let long = [wrong, right].into_iter().all(|one| one.unit.is_none_or(Unit::is_of_depths));
    let told = reader.has(&IS, *ends, flood) && !reader.has(&["?", "or", "ou", "not", "no"], 0, last);
    (told && long && !hedged && reader.dated())
        .then(|| (*right, wrong.unit.map_or(wrong.value, |unit| unit.from_si(wrong.value))))
}

/// Whether a paper of the well says it, which nobody's memory does: `owner's paper says 8 in, not 6`.
fn on_paper(reader: &Reader) -> bool {
    const PAPERS: [&str; 6] = ["paper", "papers", "certificate", "invoice", "receipt", "plate"];
    let says = |at: &usize| ["says", "said", "states", "stated"].contains(&reader.word(*at));
    let denied = reader.has(&["no", "without", "lost", "faded"], 0, reader.tokens.len());
    !denied && (1..reader.tokens.len()).filter(says).any(|at| PAPERS.contains(&reader.word(at - 1)))
}

/// Two numbers of which somebody says that he wrote the one by mistake: `pipe is 4 inch, I wrote 6 by mistake`.
fn by_mistake(reader: &Reader) -> Option<(Written, f64)> {
    let last = reader.tokens.len();
    let lengths = reader.lengths()?;
    let [first, second] = lengths.as_slice() else { return None };
    if reader.has(&["?", "or", "not"], 0, last) {
        return None;
    }
    let wrote = |one: &(Written, usize, usize)| {
        reader.has(WROTE, one.1.saturating_sub(3), one.1) && reader.has(WRONG, one.2, last.min(one.2 + 4))
    };
    let (wrong, right) = match (wrote(first), wrote(second)) {
        (true, false) => (first, second),
        (false, true) => (second, first),
        _ => return None,
    };
    Some((right.0, wrong.0.unit.map_or(wrong.0.value, |unit| unit.from_si(wrong.0.value))))
}

/// The same, also where somebody only says so.
pub fn set_against(tokens: &[Token]) -> Option<(Written, f64)> {
    const NOT: [&str; 6] = ["not", "no", "non", "nao", "pas", "instead"];
    const COUNTED: [&str; 13] =
        ["paid", "cost", "phone", "tel", "call", "hp", "permit", "invoice", "pump", "yield", "tank", "lot", "$"];
    const BUT: [&str; 5] = ["but", "sino", "mais", "mas", "rather"];
    let reader = Reader::of(tokens);
    let doubts = |token: &Token| token.word == "?" || VERIFY.contains(&token.word.as_str());
    // `call back: diameter is 4 not 6`, `2nd call` count nothing.
    let number = |at: usize| tokens.get(at).is_some_and(|token| token.number.is_some());
    let counts = |at: usize| {
        COUNTED.contains(&reader.word(at)) && (reader.word(at) != "call" || number(at + 1) || number(at + 2))
    };
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
                let from = (not.saturating_sub(9)..not).rev().find(|at| tokens[*at].number.is_some())?;
                reader.length(from)?.0
            }
        };
        Some((right, wrong.unit.map_or(wrong.value, |unit| unit.from_si(wrong.value))))
    });
    found.next().filter(|_| found.next().is_none()).or_else(|| put_right(&reader))
}

/// Whether somebody looked at the number that is told: `owner confirmed 325`.
fn is_confirmed(reader: &Reader) -> bool {
    const DENIED: [&str; 8] = ["not", "un", "no", "never", "be", "to", "if", "sin"];
    (0..reader.tokens.len())
        .any(|at| CONFIRMED.contains(&reader.word(at)) && !reader.has(&DENIED, at.saturating_sub(2), at))
}

/// Two numbers of which the first is called wrong and the second right: `tape was caught at 5.0, measured again: 3.2 m`,
/// `was 40, now 55`, `changed from 6 to 8 in`.
fn put_right(reader: &Reader) -> Option<(Written, f64)> {
    const RIGHT: [&str; 20] = [
        "now",
        "correct",
        "corrected",
        "right",
        "should",
        "actually",
        "actual",
        "true",
        "real",
        "is",
        "ahora",
        "correcto",
        "correcta",
        "debe",
        "agora",
        "correto",
        "correta",
        "maintenant",
        "correct",
        "exact",
    ];
    const CHANGED: [&str; 10] = [
        "changed",
        "revised",
        "corrected",
        "amended",
        "cambiado",
        "corregido",
        "corrige",
        "corrigido",
        "change",
        "modifie",
    ];
    const FROM: [&str; 6] = ["from", "de", "was", "era", "etait", "had"];
    let lengths = reader.lengths()?;
    let [(wrong, first, ends), (right, second, _)] = lengths.as_slice() else { return None };
    let last = reader.tokens.len();
    let called_wrong = reader.has(WRONG, first.saturating_sub(4), ends + 3);
    let again = (*ends..*second).any(|at| ONCE_MORE.contains(&reader.word(at))) || reader.taken_anew();
    let right_one = again || reader.has(&RIGHT, *ends, *second);
    let from = *first > 0 && FROM.contains(&reader.word(first - 1));
    let changed = from && reader.has(&CHANGED, 0, *first) && reader.has(&["to", "a", "para", "en"], *ends, *second);
    let was_now = from && reader.has(&["now", "ahora", "agora", "maintenant"], *ends, *second);
    let numbers = (0..last).filter(|at| reader.tokens[*at].number.is_some()).count();
    (numbers == 2 && (called_wrong && right_one || changed || was_now))
        .then(|| (*right, wrong.unit.map_or(wrong.value, |unit| unit.from_si(wrong.value))))
}

/// The one number of a remark that calls its cell wrong or says that it counts, with what it is of: `wrong, 8 in pipe`,
/// `fills to 3 below top, take that`; and whether nobody doubts it.
pub fn right_number(tokens: &[Token]) -> Option<(Field, Written, bool)> {
    const ENDS: [&str; 11] = [",", ":", "-", ".", ";", "!", "–", "before", "earlier", "first", "previously"];
    const ACROSS: [&str; 20] = [
        "pipe", "casing", "csg", "dia", "diam", "diameter", "wide", "width", "across", "tubo", "tuberia", "tubage",
        "ancho", "anchura", "diametro", "diametre", "large", "largeur", "largura", "buse",
    ];
    const LEVEL: [&str; 10] = ["swl", "static", "level", "dtw", "nivel", "niveau", "espejo", "water", "eau", "agua"];
    const DEPTH: [&str; 13] = [
        "deep",
        "depth",
        "td",
        "bottom",
        "fond",
        "fondo",
        "fundo",
        "profondeur",
        "profond",
        "profundidad",
        "profundidade",
        "hondo",
        "total",
    ];
    const OTHER: [&str; 12] =
        ["pump", "screen", "tank", "yield", "gpm", "pompe", "bomba", "liner", "cable", "drop", "phone", "address"];
    let reader = Reader::of(tokens);
    let last = tokens.len();
    let called = |at: usize| {
        WRONG.contains(&reader.word(at))
            && (at + 1 == last || ENDS.contains(&reader.word(at + 1)))
            && !reader.has(&["not", "no", "nothing"], at.saturating_sub(2), at)
    };
    // `checked 4/30: 9.5` among levels; `tile is 30, I measured`
    let checked = last > 2 && TAKEN.contains(&reader.word(0)) && reader.dated() && tokens[last - 1].number.is_some();
    let is_tile =
        |at: usize| RINGS.contains(&reader.word(at)) && ["is", "=", "es", "est"].contains(&reader.word(at + 1));
    let measured = reader.has(&["measured", "taped", "medi", "mesure"], 0, last) && (0..last).any(is_tile);
    // `measured across again: 30 in`, `largura é 1,50, conferido`
    let across_anew = reader.taken_anew() && reader.has(&ACROSS, 0, last) && !reader.has(&["until", "unless"], 0, last);
    // `as built 185 ft per driller`: how it was made in the end.
    let as_built = (0..last).any(|at| {
        reader.word(at) == "as"
            && ["built", "drilled", "completed", "constructed"]
                .contains(&reader.word(at + 1 + usize::from(reader.word(at + 1) == "-")))
    });
    let taken = checked || measured || across_anew || as_built;
    let hedged = (0..last).any(|at| reader.phrases.class_at(tokens, at, Class::Hedge).is_some());
    let sure = !hedged && !reader.has(&["?"], 0, last);
    if reader.has(&OTHER, 0, last) || !((0..last).any(called) || reader.outright() || taken) {
        return None;
    }
    let lengths: Vec<(Written, usize, usize)> = (0..last)
        .filter_map(|at| reader.length(at).map(|(written, end)| (written, at, end)))
        .filter(|(_, at, _)| !(reader.word(at + 1) == "/" || *at > 0 && reader.word(at - 1) == "/"))
        .collect();
    let [(written, at, end)] = lengths.as_slice() else { return None };
    let has = |known: &[&str]| reader.has(known, 0, last);
    // `3 below top`
    let below = ["below", "down", "from", "bajo", "sous", "abaixo"].contains(&reader.word(*end))
        && !reader.has(&DEPTH, 0, last);
    let height = reader.word(*end) == "of" && WATER.contains(&reader.word(end + 1)) || reader.word(*end) == "d'eau";
    let is_deep = written.unit.is_some_and(Unit::is_of_depths);
    let of = [
        (Field::CasingDiameter, has(&ACROSS) || measured || (0..last).any(is_tile)),
        (Field::StaticWaterLevel, has(&LEVEL) || below || checked && !has(&ACROSS) && !has(&DEPTH)),
        (Field::TotalDepth, has(&DEPTH) || as_built && !has(&ACROSS) && !has(&LEVEL) && is_deep),
    ];
    let mut named = of.into_iter().filter(|(_, named)| *named);
    let (field, None) = (named.next()?.0, named.next()) else { return None };
    let fits = match field {
        Field::CasingDiameter => {
            written.unit.is_none_or(|unit| unit.is_of_widths() || reader.has(&["wide", "across"], *at, end + 2))
        }
        _ => !height && written.unit.is_none_or(Unit::is_of_depths),
    };
    fits.then_some((field, *written, sure))
}
