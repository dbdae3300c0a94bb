//! Numbers in French, Spanish and Portuguese words, up to a hundred and some: `neuf mètres`, `tres metros y medio`.
//!
//! Read only where a text has no figures at all: `neuf` is also French for new, `once` English for one time.

pub(super) mod english;

use super::super::unit::{self, Dimension, Meaning};

/// Numbers below twenty, tens, and a hundred, as they are written alone; from dictionaries, from memory.
const NUMBERS: &[(&str, u32)] = &[
    ("un", 1),
    ("une", 1),
    ("uno", 1),
    ("una", 1),
    ("um", 1),
    ("uma", 1),
    ("deux", 2),
    ("dos", 2),
    ("dois", 2),
    ("duas", 2),
    ("trois", 3),
    ("tres", 3),
    ("três", 3),
    ("quatre", 4),
    ("cuatro", 4),
    ("quatro", 4),
    ("cinq", 5),
    ("cinco", 5),
    ("six", 6),
    ("seis", 6),
    ("sept", 7),
    ("siete", 7),
    ("sete", 7),
    ("huit", 8),
    ("ocho", 8),
    ("oito", 8),
    ("neuf", 9),
    ("nueve", 9),
    ("nove", 9),
    ("dix", 10),
    ("diez", 10),
    ("dez", 10),
    ("onze", 11),
    ("once", 11),
    ("douze", 12),
    ("doce", 12),
    ("doze", 12),
    ("treize", 13),
    ("trece", 13),
    ("treze", 13),
    ("quatorze", 14),
    ("catorce", 14),
    ("catorze", 14),
    ("quinze", 15),
    ("quince", 15),
    ("seize", 16),
    ("dieciséis", 16),
    ("dieciseis", 16),
    ("dezasseis", 16),
    ("dezesseis", 16),
    ("diecisiete", 17),
    ("dezassete", 17),
    ("dezessete", 17),
    ("dieciocho", 18),
    ("dezoito", 18),
    ("diecinueve", 19),
    ("dezanove", 19),
    ("dezenove", 19),
    ("vingt", 20),
    ("vingts", 20),
    ("veinte", 20),
    ("vinte", 20),
    ("veintiuno", 21),
    ("veintiún", 21),
    ("veintidós", 22),
    ("veintidos", 22),
    ("veintitrés", 23),
    ("veintitres", 23),
    ("veinticuatro", 24),
    ("veinticinco", 25),
    ("veintiséis", 26),
    ("veintiseis", 26),
    ("veintisiete", 27),
    ("veintiocho", 28),
    ("veintinueve", 29),
    ("trente", 30),
    ("treinta", 30),
    ("trinta", 30),
    ("quarante", 40),
    ("cuarenta", 40),
    ("quarenta", 40),
    ("cinquante", 50),
    ("cincuenta", 50),
    ("cinquenta", 50),
    ("soixante", 60),
    ("sesenta", 60),
    ("sessenta", 60),
    ("septante", 70),
    ("setenta", 70),
    ("octante", 80),
    ("huitante", 80),
    ("ochenta", 80),
    ("oitenta", 80),
    ("nonante", 90),
    ("noventa", 90),
    ("cent", 100),
    ("cien", 100),
    ("ciento", 100),
    ("cem", 100),
    ("cento", 100),
];

fn number(word: &str) -> Option<u32> {
    NUMBERS.iter().find(|(known, _)| *known == word).map(|(_, value)| *value)
}

/// Whether a number may be added to what stands before it: `cent` + `vingt`, `vingt` + `deux`, `soixante` + `douze`.
fn adds(total: u32, next: u32, french: bool) -> bool {
    let to_hundred = total == 100 && next < 100;
    let rest = total % 100;
    let teens = french && matches!(rest, 60 | 80) && next < 20;
    to_hundred
        || rest >= 20 && rest.is_multiple_of(10) && next < 10
        || teens
        || french && rest == 10 && (7..10).contains(&next)
}

/// A lower-case text with its numbers in figures, where it has them in words: `one hundred eighty deep`.
pub fn written_out(text: &str) -> Option<String> {
    one_of(text).or_else(|| english::in_figures(text)).or_else(|| in_figures(text))
}

/// The text with such numbers in figures; nothing where there are none, or where figures stand beside them.
fn in_figures(text: &str) -> Option<String> {
    if text.bytes().any(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let clean = text.replace('-', " ");
    let words: Vec<&str> = clean.split(' ').filter(|word| !word.is_empty()).collect();
    let joins = |word: &str| matches!(word, "et" | "y" | "e");
    let french = |word: &str| matches!(word, "vingt" | "vingts" | "soixante" | "dix");
    let mut written: Vec<String> = Vec::new();
    let mut found = false;
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let Some(mut total) = number(word) else {
            written.push((*word).to_owned());
            at += 1;
            continue;
        };
        found = true;
        let mut is_french = french(word);
        at += 1;
        loop {
            let and = usize::from(words.get(at).is_some_and(|word| joins(word)));
            let Some(next) = words.get(at + and).and_then(|word| number(word)) else { break };
            let next_word = words[at + and];
            if total % 100 == 4 && next == 20 && and == 0 {
                total = total - 4 + 80; // Quatre-vingts.
                is_french = true;
            } else if total == 100 && next == 4 && words.get(at + 1).is_some_and(|word| word.starts_with("vingt")) {
                total += 80;
                is_french = true;
                at += 1;
            } else if adds(total, next, is_french) {
                total += next;
                is_french |= french(next_word);
            } else {
                break;
            }
            at += 1 + and;
        }
        written.push(total.to_string());
    }
    // `neuf` alone is as well a new well; `once dry` is English.
    let number_or_half =
        |word: &str| word.bytes().all(|byte| byte.is_ascii_digit()) || joins(word) || HALF.contains(&word);
    let is_length = |word: &str| matches!(unit::look_up(word, None), Some(Meaning::Unit(unit)) if unit.dimension == Dimension::Length);
    let only = written.iter().all(|word| number_or_half(word));
    let alone = only && !(words.len() == 1 && AMBIGUOUS.contains(&words[0]));
    let of_length = written.iter().any(|word| is_length(word.trim_end_matches([',', '.', ';'])));
    (found && (alone || of_length)).then(|| written.join(" "))
}

const HALF: &[&str] = &["demi", "demie", "medio", "media", "meio", "meia"];

/// Words that mean something else when they stand alone.
const AMBIGUOUS: &[&str] = &["neuf", "once", "un", "une", "uno", "una", "um", "uma", "six", "dos", "cent"];

/// `inch and a half`, `a yard`, `a foot and a quarter` in figures: one of a unit with an article, and no other number.
pub(super) fn one_of(text: &str) -> Option<String> {
    const UNITS: [(&str, &str); 5] = [("inch", "in"), ("foot", "ft"), ("yard", "yd"), ("meter", "m"), ("metre", "m")];
    const PARTS: [(&str, &str); 4] =
        [(" and a half", ".5"), (" and one half", ".5"), (" and a quarter", ".25"), (" and a fourth", ".25")];
    if text.bytes().any(|byte| byte.is_ascii_digit()) {
        return None;
    }
    UNITS.iter().find_map(|(word, symbol)| {
        let at = text.find(word)?;
        let (before, after) = (text[..at].trim_end(), &text[at + word.len()..]);
        // `half a foot`
        if let Some(rest) = before.strip_suffix("half a").or_else(|| before.strip_suffix("half")) {
            return Some(format!("{rest}0.5 {symbol}{after}"));
        }
        let part = PARTS.iter().find(|(part, _)| after.starts_with(part));
        let article = ["a", "an", "one"]
            .into_iter()
            .find(|word| before.strip_suffix(word).is_some_and(|rest| rest.is_empty() || rest.ends_with(' ')));
        let whole = !after.starts_with(char::is_alphabetic);
        let bare = article.is_none() && part.is_some() && before.is_empty();
        if !whole || article.is_none() && !bare {
            return None;
        }
        let before = before.strip_suffix(article.unwrap_or_default()).unwrap_or(before);
        let (rest, decimals) = part.map_or((after, ""), |(words, decimals)| (&after[words.len()..], *decimals));
        Some(format!("{before}1{decimals} {symbol}{rest}"))
    })
}

/// `3 metros y medio`, `3 et demi`, `6 and a quarter inch` as `3.5 metros`, `3.5`, `6.25 inch`; nothing where no part is written.
pub(super) fn with_half(text: &str) -> Option<String> {
    const PARTS: &[(&str, &str)] = &[
        (" et demi", ".5"),
        (" et demie", ".5"),
        (" y medio", ".5"),
        (" y media", ".5"),
        (" e meio", ".5"),
        (" e meia", ".5"),
        (" and a half", ".5"),
        (" and one half", ".5"),
        (" and a quarter", ".25"),
        (" and one quarter", ".25"),
        (" and three quarters", ".75"),
    ];
    let (at, (words, part)) = PARTS
        .iter()
        .filter_map(|part| text.find(part.0).map(|at| (at, part)))
        .max_by_key(|(_, (words, _))| words.len())?;
    let after = &text[at + words.len()..];
    let before = &text[..at];
    let digits = before.rfind(|c: char| c.is_ascii_digit())?;
    let unit = &before[digits + 1..];
    let start = before[..=digits].rfind(|c: char| !c.is_ascii_digit()).map_or(0, |at| at + 1);
    let whole = !before[..start].ends_with(['.', ',', '/']) && !after.starts_with(char::is_alphabetic);
    (whole && unit.chars().all(|c| c.is_alphabetic() || c == ' '))
        .then(|| format!("{}{part}{unit}{after}", &before[..=digits]))
}
