//! What no field took of a cell that was read in part: a person reads it.

use crate::field::{FIELDS, Field, Kind};
use crate::finding::{Finding, catalogue};
use crate::inventory::{Draft, choices};
use crate::quantity::unit;

/// Words beside what was read that say no more than it does, or only how sure it is.
const SAY_NOTHING: [&str; 49] = [
    "about",
    "approx",
    "approximately",
    "around",
    "est",
    "estimated",
    "ca",
    "reported",
    "measured",
    "or",
    "nowhere",
    "so",
    "circa",
    "need",
    "needs",
    "to",
    "the",
    "of",
    "into",
    "onto",
    "on",
    "at",
    "by",
    "for",
    "from",
    "only",
    "use",
    "with",
    "and",
    "it",
    "goes",
    "go",
    "runs",
    "run",
    "out",
    "over",
    "through",
    "across",
    "along",
    "will",
    "can",
    "de",
    "la",
    "el",
    "al",
    "en",
    "du",
    "da",
    "do",
];

/// Numbers, where a cell was read from words.
const NUMBERS: [&str; 24] = [
    "half", "quarter", "quarters", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "fifteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "hundred",
];

/// What a depth is counted from, and how, where that was understood.
const REFERENCES: [&str; 20] = [
    "below", "under", "above", "beneath", "grade", "ground", "level", "surface", "land", "top", "casing", "pipe",
    "toc", "bgl", "rim", "curb", "tile", "cap", "down", "measured",
];

/// What may be said of a type of well that makes it no other one, and tells a crew nothing.
const OF_TYPE: [&str; 15] = [
    "cased", "casing", "set", "cribbed", "lined", "large", "big", "small", "wide", "deep", "shallow", "old", "new",
    "regular", "ordinary",
];

/// What casings are made of, as people write it beside a width, and how a card names it.
const MATERIALS: [(&str, &str); 19] = [
    ("stl", "steel"),
    ("steel", "steel"),
    ("iron", "iron"),
    ("galv", "galvanized"),
    ("galvanized", "galvanized"),
    ("galvanised", "galvanized"),
    ("pvc", "PVC"),
    ("plastic", "plastic"),
    ("tile", "tile"),
    ("tiles", "tile"),
    ("clay", "clay"),
    ("conc", "concrete"),
    ("concrete", "concrete"),
    ("brick", "brick"),
    ("bricks", "bricks"),
    ("stone", "stone"),
    ("stones", "stones"),
    ("acero", "acero"),
    ("acier", "acier"),
];

/// The material that a text names; nothing where it names several.
pub(super) fn material_in(text: &str) -> Option<&'static str> {
    let words = text.split(|letter: char| !letter.is_alphanumeric());
    let mut named = words.filter_map(|word| {
        MATERIALS.iter().find(|(written, _)| written.eq_ignore_ascii_case(word)).map(|(_, named)| *named)
    });
    let first = named.next()?;
    named.all(|other| other == first).then_some(first)
}

/// Answers that stand before a remark of their own: `yes, sewage came in`.
const ANSWERS: [&str; 9] = ["yes", "y", "no", "n", "si", "oui", "sim", "nao", "non"];

/// The field whose cell this is about.
fn field_at(draft: &Draft, finding: &Finding) -> Option<Field> {
    FIELDS.iter().map(|entry| entry.field).find(|field| draft.place(*field) == finding.place)
}

/// What no field took of a cell that was read in part, from its first word on that says more: `wires down here` of `180 ft wires
/// down here`; nothing of `about 120 ft`, of `6" stl` or of `lawn, yard`.
pub(super) fn left_over<'a>(draft: &Draft, finding: &'a Finding) -> Option<&'a str> {
    let text = &*finding.seen;
    let field = field_at(draft, finding)?;
    if matches!(field.definition().kind, Kind::Choice(_) | Kind::Flag) {
        return of_choice(field, text);
    }
    let in_words = !text.contains(|letter: char| letter.is_ascii_digit());
    let counted = finding.code == catalogue::REMARK_AFTER_NUMBER && draft.reference_in_cell(field).is_some();
    let of_width = [Field::CasingDiameter, Field::CasingOutsideDiameter].contains(&field);
    let material = of_width && material_in(text).is_some();
    let is_taken = |word: &str| {
        in_words && NUMBERS.contains(&word)
            || counted && REFERENCES.contains(&word)
            || material && material_in(word).is_some()
    };
    from_first(text, |letter| !letter.is_alphabetic() && letter != '\'', |_, word| tells(word) && !is_taken(word))
}

/// The same of a choice or an answer. What stands before the word that was understood, in one breath with it, describes it
/// (`grid road ditch`), and so does all that is said of a type beside it (`pipe as wide as a hand (drilled)`).
fn of_choice(field: Field, text: &str) -> Option<&str> {
    let unread = choices::unread(field, text);
    let is_read = |word: &str| {
        let words = choices::plain_words(word);
        !words.is_empty() && !words.iter().any(|word| unread.contains(word))
    };
    let parts = |letter: char| !letter.is_alphabetic() && letter != '/' && letter != '\'';
    let words = pieces(text, parts);
    // Clauses, by where their words begin.
    let between = |from: usize, to: usize| text[from..to].contains([',', ';', ':', '.', '(', ')', '-', '–', '+', '!']);
    let mut clauses: Vec<Vec<(usize, &str)>> = Vec::new();
    for (at, word) in words {
        match clauses.last_mut() {
            Some(clause) if clause.last().is_some_and(|(from, last)| !between(from + last.len(), at)) => {
                clause.push((at, word));
            }
            _ => clauses.push(vec![(at, word)]),
        }
    }
    let answers = |word: &str| ANSWERS.contains(&word.to_lowercase().as_str());
    let first = clauses.iter().position(|clause| clause.iter().any(|(_, word)| is_read(word)));
    let taken = |number: usize, at: usize| {
        let clause = &clauses[number];
        let Some(begins) = clause.iter().find(|(_, word)| is_read(word)).map(|(at, _)| *at) else {
            return field == Field::WellType && first.is_some_and(|first| number < first);
        };
        let all = match field {
            Field::WellType => true,
            Field::DischargeRoute => false,
            _ => !clause.first().is_some_and(|(_, word)| answers(word)),
        };
        all || at < begins
    };
    let clause_of = |at: usize| clauses.iter().rposition(|clause| clause[0].0 <= at).unwrap_or_default();
    let is_of_type = |word: &str| field == Field::WellType && OF_TYPE.contains(&word);
    from_first(text, parts, |at, word| {
        let plain = word.trim_matches('\'').to_lowercase();
        let says_more = choices::plain_words(word).iter().any(|word| unread.contains(word));
        tells(word) && says_more && !is_of_type(&plain) && !taken(clause_of(at), at)
    })
}

/// Whether a word says more than how sure something is, or how it is measured.
fn tells(word: &str) -> bool {
    let plain = word.trim_matches('\'').to_lowercase();
    plain.len() > 1 && unit::look_up(&plain, None).is_none() && !SAY_NOTHING.contains(&plain.as_str())
}

/// The words of a text, each with where it begins.
fn pieces(text: &str, parts: impl Fn(char) -> bool + Copy) -> impl Iterator<Item = (usize, &str)> {
    let mut from = 0;
    let pieces = text.split_inclusive(parts).map(move |piece| {
        let at = from;
        from += piece.len();
        (at, piece.trim_end_matches(parts))
    });
    pieces.filter(|(_, word)| !word.is_empty())
}

/// The text from its first word on that is wanted, without marks that belong to what was read.
fn from_first(text: &str, parts: impl Fn(char) -> bool + Copy, wanted: impl Fn(usize, &str) -> bool) -> Option<&str> {
    let (at, _) = pieces(text, parts).find(|(at, word)| wanted(*at, word))?;
    let rest = text.get(at..)?.trim_end_matches([',', ';', ' ']);
    // A bracket that opens within what is left closes there.
    let closes = |rest: &str| {
        rest.ends_with(')') && rest.matches(')').count() > rest.matches('(').count()
            || rest.ends_with(']') && rest.matches(']').count() > rest.matches('[').count()
    };
    let mut rest = rest;
    while closes(rest) {
        rest = rest[..rest.len() - 1].trim_end_matches([',', ';', ' ']);
    }
    Some(rest)
}
