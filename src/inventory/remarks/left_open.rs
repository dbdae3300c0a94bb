//! What a remark leaves open of the measures of a well, so that the row is asked about.

use super::lengths::Reader;
use super::words::{DOUBTED, WROTE, is_unknown};
use crate::inventory::lexicon;
use crate::inventory::phrases::Token;

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
    // `figures are feet`, `cifras en pies`
    const FIGURES: [&str; 10] = [
        "figures",
        "numbers",
        "measurements",
        "readings",
        "cifras",
        "medidas",
        "datos",
        "chiffres",
        "mesures",
        "numeros",
    ];
    const UNITS: [&str; 10] =
        ["feet", "ft", "meters", "metres", "inches", "pies", "pulgadas", "metros", "pieds", "pes"];
    let reader = Reader::of(tokens);
    let figures = |at: usize| FIGURES.contains(&reader.word(at)) && reader.has(&UNITS, at + 1, at + 4);
    tokens.iter().any(|token| WROTE.contains(&token.word.as_str())) || (0..tokens.len()).any(figures)
}

/// Whether a gallery leads off the well, whose water no measure of the row counts.
pub fn has_gallery(tokens: &[Token]) -> bool {
    const GALLERIES: [&str; 10] =
        ["gallery", "galleries", "adit", "adits", "galeria", "galerias", "galerie", "galeries", "socavon", "mina"];
    const WITHOUT: [&str; 14] = [
        "no", "not", "without", "sin", "sans", "sem", "dry", "seca", "seche", "walled", "tapiada", "cegada", "muree",
        "filter",
    ];
    let reader = Reader::of(tokens);
    let word = |at: usize| reader.word(at);
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
    /// Points that one pump draws from: `three points on one header`.
    const POINTS: [&str; 5] = ["points", "sandpoints", "wellpoints", "pointes", "puntas"];
    const TOGETHER: [&str; 5] = ["header", "manifold", "together", "tied", "joined"];
    let has = |known: &[&str]| tokens.iter().any(|token| known.contains(&token.word.as_str()));
    let many = |known: &[&str]| {
        tokens.windows(2).any(|pair| MANY.contains(&pair[0].word.as_str()) && known.contains(&pair[1].word.as_str()))
    };
    many(&WELLS) || many(&POINTS) && has(&TOGETHER)
}

/// Whether more than one well is told of, and nothing says which of them the row is.
pub fn several_wells(tokens: &[Token]) -> bool {
    const TOLD: [&str; 8] = ["this", "one", "other", "main", "house", "este", "celui", "row"];
    let reader = Reader::of(tokens);
    let word = |at: usize| reader.word(at);
    if !names_several_wells(tokens) {
        return false;
    }
    let place = (0..tokens.len())
        .any(|at| word(at) == "this" && ["place", "property", "permit", "lot", "farm"].contains(&word(at + 1)));
    // `on one header` is no well.
    let header = |at: usize| ["header", "manifold"].contains(&word(at + 1));
    let told = (0..tokens.len()).any(|at| TOLD.contains(&word(at)) && !header(at) && !(word(at) == "this" && place));
    let unclear = (0..tokens.len()).any(|at| ["think", "known", "unknown", "which", "deeper"].contains(&word(at)));
    !told || unclear
}

/// Whether what a remark leaves open is the width: `open hole below casing, size n/r`.
pub fn is_of_width(tokens: &[Token]) -> bool {
    const WIDTHS: [&str; 8] = ["size", "dia", "diam", "diameter", "width", "wide", "narrower", "inch"];
    const DEPTHS: [&str; 6] = ["depth", "deep", "td", "bottom", "deeper", "shallower"];
    let has = |known: &[&str]| tokens.iter().any(|token| known.contains(&token.word.as_str()));
    has(&WIDTHS) && !has(&DEPTHS)
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
    let reader = Reader::of(tokens);
    let word = |at: usize| reader.word(at);
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
        // `read 150 for 105`, `12 for 21, typed by phone`: two figures of one number turned round.
        let turned = word(at + 1) == "for" && turned_round(tokens, at, at + 2);
        either && of_well() || turned || size || compared || less || open || unsaid || of_pump(&word, at)
    })
}

/// Whether two numbers have the same figures in another order, of which somebody says that one was read or typed for the other.
fn turned_round(tokens: &[Token], one: usize, other: usize) -> bool {
    const READ: [&str; 7] = ["read", "reads", "typed", "wrote", "written", "maybe", "perhaps"];
    let figures = |at: usize| {
        let mut figures: Vec<char> = tokens.get(at)?.number.map(|_| tokens[at].word.chars().collect())?;
        figures.sort_unstable();
        Some(figures)
    };
    let said = tokens.iter().any(|token| READ.contains(&token.word.as_str()));
    said && tokens.get(one).map(|token| &token.word) != tokens.get(other).map(|token| &token.word)
        && figures(one).is_some_and(|one| one.len() > 1 && figures(other) == Some(one))
}

/// Whether the depth is said to be the pump's: `that depth is to the pump not the bottom`. One with a number tells the pump's own.
fn of_pump<'a>(word: &impl Fn(usize) -> &'a str, at: usize) -> bool {
    const DEPTH: [&str; 8] = ["depth", "deep", "profundidad", "profondeur", "profundidade", "fondo", "prof", "feet"];
    const PUMP: [&str; 6] = ["pump", "intake", "bomba", "pompe", "crepine", "footvalve"];
    const IS: [&str; 12] = ["is", "to", "was", "of", "es", "hasta", "de", "est", "e", "ate", "the", "are"];
    let pump = (at + 1..at + 6).find(|at| PUMP.contains(&word(*at)));
    DEPTH.contains(&word(at))
        && pump.is_some_and(|pump| {
            (at + 1..pump)
                .all(|at| IS.contains(&word(at)) || ["la", "l'", "da", "a", "only", "just"].contains(&word(at)))
                && (at + 1..pump).any(|at| ["is", "was", "to", "es", "est", "e"].contains(&word(at)))
                && !(pump..pump + 4).any(|at| word(at).starts_with(|c: char| c.is_ascii_digit()))
                && !["test", "tested", "house"].contains(&word(pump + 1))
        })
}

/// Whether a remark gives the well one width above and another below, and not how deep the change is: `arriba 1,20 m, abajo como
/// 0,80`, `4 ft at the top, 3 ft at the bottom`. `cell` is the width that the row has, in metres.
pub fn wide_and_narrow(tokens: &[Token], cell: f64, bare: impl Fn(f64) -> Option<f64>) -> bool {
    const UP: [&str; 8] = ["arriba", "top", "above", "upper", "haut", "cima", "boca", "superior"];
    const DOWN: [&str; 9] = ["abajo", "bottom", "below", "lower", "bas", "baixo", "fondo", "fundo", "inferior"];
    let reader = Reader::of(tokens);
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
