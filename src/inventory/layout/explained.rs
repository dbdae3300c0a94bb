//! What a file says of its headings in other words, in notes or on a sheet of their own.

use crate::inventory::heading::{self, tidy};
use crate::inventory::lexicon::{self, Language};
use crate::inventory::rows::Rows;
use crate::inventory::{dated_heading, legend, notes};
use crate::quantity::parse::plain;
use crate::quantity::unit::{self, Gallon};

/// What notes say of a heading: the words after `heading =` or `heading:`, to the end of the sentence.
pub(super) fn explained(heading: &str, notes: &[String]) -> String {
    let whole = explained_as(heading.trim(), notes);
    if !whole.is_empty() {
        return whole;
    }
    // `Luz (m)` is explained as `Luz = inner width`, `DTW Spr 25` as `DTW = depth to water`.
    let outer = heading.split(['(', '[', ',']).next().filter(|outer| outer.len() < heading.len());
    // `Water ft-in` is explained as `Water = from the top down`.
    let measure = |word: &&str| lexicon::tokens(word).iter().all(|part| unit::look_up(part, None).is_some());
    let words: Vec<&str> = heading.split_whitespace().collect();
    let without_unit = match words.as_slice() {
        [name @ .., last] if !name.is_empty() && measure(last) => Some(name.join(" ")),
        _ => None,
    };
    let outer = outer.map(str::to_owned).or(without_unit);
    let undated = dated_heading::without_date(heading);
    let shorter = outer.as_deref().map(|outer| explained_as(outer.trim(), notes)).filter(|says| !says.is_empty());
    shorter.or_else(|| undated.map(|measured| explained_as(&measured, notes))).unwrap_or_default()
}

/// Words by which a sentence says that its first words are a height of water: `Standing water is the height of …`
const HEIGHT: [&str; 8] = [
    "the height of",
    "height of",
    "the length of",
    "feet of water",
    "how much water",
    "la altura d",
    "la hauteur d",
    "a altura d",
];

/// What notes say of these very words.
fn explained_as(wanted: &str, notes: &[String]) -> String {
    if wanted.is_empty() || wanted.chars().count() > 24 {
        return String::new();
    }
    let folded = lexicon::fold(wanted);
    let mut unit_alone = String::new();
    for note in notes {
        let lower = lexicon::fold(note);
        let mut from = 0;
        while let Some(found) = lower.get(from..).and_then(|rest| rest.find(&folded)) {
            let (start, end) = (from + found, from + found + folded.len());
            from = end;
            let before = lower[..start].chars().next_back();
            // `TC by the static = taped off the casing` says what the mark means, not what the column is.
            if before.is_some_and(char::is_alphanumeric) || stands_beside(&lower[..start]) {
                continue;
            }
            let rest = lower[end..].trim_start();
            // `Acr. is how wide across`, where the heading says nothing by itself.
            let is = || {
                let begins = matches!(lower[..start].trim_end().chars().next_back(), None | Some('.' | ';' | '\n'));
                let silent = || lexicon::meaning(&lexicon::tokens(wanted), Language::English).concepts.is_empty();
                [" is ", " means ", " es ", " est ", " e "]
                    .iter()
                    .find_map(|verb| lower[end..].strip_prefix(verb))
                    .filter(|says| begins && (silent() || HEIGHT.iter().any(|words| says.starts_with(words))))
            };
            let equals = rest.strip_prefix('=').or_else(|| rest.strip_prefix(": "));
            let Some(says) = equals.or_else(is) else { continue };
            // `LEN_UOM applies to DPTH and LVL: F=feet M=metres` lists codes.
            if says.split_whitespace().next().is_some_and(|word| word.contains('=')) {
                continue;
            }
            let end = says.find(['.', ';', '\n']).unwrap_or(says.len());
            // `P = profondeur, N = niveau d'eau`: the next name begins with its sign.
            let next = says[..end].match_indices(',').map(|(at, _)| at).find(|at| {
                let (name, equals) = says[*at + 1..end].split_once('=').unwrap_or_default();
                !equals.is_empty() && name.split_whitespace().count() == 1
            });
            let says = says[..next.unwrap_or(end)].trim();
            // `CSG_SZ, BH_SZ = INCHES. BH_SZ = OPEN HOLE BELOW CSG_BOT`: what it is counts before how it is measured.
            let is_unit = |word: &String| unit::look_up(word, None).is_some();
            if !lexicon::tokens(says).iter().all(is_unit) {
                return says.to_owned();
            }
            if unit_alone.is_empty() {
                says.clone_into(&mut unit_alone);
            }
        }
    }
    unit_alone
}

/// What a sentence says that begins with the first word of one heading alone, and a colon: `Dip: centimetres from the rim` of `Dip to
/// water (cm)`.
pub(super) fn by_first_word(at: usize, headings: &[String], notes: &[String]) -> String {
    const SHORTEST: usize = 3;
    let first = |heading: &String| lexicon::tokens(heading).into_iter().next().unwrap_or_default();
    let own = first(&headings[at]);
    let alone = headings.iter().filter(|heading| first(heading) == own).count() == 1;
    if own.chars().count() < SHORTEST || !alone {
        return String::new();
    }
    let sentences = notes.iter().flat_map(|note| note.split(['.', ';', '\n']));
    let said = sentences.filter_map(|sentence| sentence.split_once(':'));
    let mut own = said.filter(|(name, _)| lexicon::tokens(name) == [own.as_str()]).map(|(_, says)| says.trim());
    own.next().filter(|_| own.next().is_none()).unwrap_or_default().to_owned()
}

/// What lists of headings in notes say of each: `DP depth ft, WL water level ft from grd, CS casing in.`; nothing of headings
/// that are explained nowhere. A list names two headings at least, and each of its parts begins with one.
pub(super) fn listed(headings: &[String], notes: &[String]) -> Vec<(usize, String)> {
    const MOST_LETTERS: usize = 10;
    const FEWEST: usize = 2;
    /// A remark that begins with the letters of a heading goes on for longer.
    const MOST_WORDS: usize = 8;
    let named = |part: &str| {
        let (name, says) = part.trim().split_once(char::is_whitespace)?;
        let says = says.trim_start_matches([' ', '-', '–', '=', ':', '>']).trim();
        let name = name.trim_end_matches([':', '.', '-', '=']);
        let at = headings.iter().position(|heading| heading.trim().trim_end_matches('.') == name)?;
        // `PROF. y N.EST. en m` explains neither.
        let joins = says.split_whitespace().next().is_some_and(|word| ["y", "and", "et", "e", "&"].contains(&word));
        let is_short = !joins && name.chars().count() <= MOST_LETTERS && says.split_whitespace().count() <= MOST_WORDS;
        (is_short && says.starts_with(|c: char| c.is_alphabetic() || c == '(')).then(|| (at, says.to_owned()))
    };
    let mut found: Vec<(usize, String)> = Vec::new();
    for note in notes {
        // `Key: DP depth ft, …`
        let list =
            note.split_once(": ").filter(|(title, _)| named(note).is_none() && title.split_whitespace().count() <= 3);
        let list = list.map_or(note.as_str(), |(_, list)| list);
        let parts: Vec<&str> = list.split([',', ';', '|', '\n']).filter(|part| !part.trim().is_empty()).collect();
        let told: Vec<Option<(usize, String)>> = parts.iter().map(|part| named(part)).collect();
        let known = told.iter().flatten().count();
        if told.first().is_some_and(Option::is_some) && known * 3 >= told.len() * 2 {
            found.extend(told.into_iter().flatten());
        }
    }
    let mut different: Vec<usize> = found.iter().map(|(at, _)| *at).collect();
    different.sort_unstable();
    different.dedup();
    if different.len() >= FEWEST { found } else { Vec::new() }
}

/// Whether words end in those by which something stands beside what follows: `TC by the`, `an asterisk after`.
fn stands_beside(before: &str) -> bool {
    let before = before.trim_end();
    let before = before.strip_suffix(" the").unwrap_or(before);
    before.rsplit([' ', '.', ',', ';']).next().is_some_and(|word| notes::BESIDE.contains(&word))
}

/// The first cells of a row that hold anything, tidied, of at most so many columns.
pub(super) fn filled_cells(rows: &Rows, row: usize, columns: usize) -> Vec<String> {
    (0..rows.width(row).min(columns))
        .map(|column| tidy(rows.cell(row, column)))
        .filter(|cell| !cell.is_empty())
        .collect()
}

/// Names with other words beside them on a sheet of two columns or three: `SWL | standing level`.
pub fn words_by_name(rows: &Rows) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let codes = legend::codes_of_table(rows);
    for row in 0..rows.len() {
        // `USE | D | Domestic` says what a code means, not what the column is.
        if codes.is_some_and(|(head, column)| row > head && !rows.cell(row, column).trim().is_empty()) {
            continue;
        }
        let cells = filled_cells(rows, row, 6);
        if let [name, rest @ ..] = cells.as_slice()
            && (1..=4).contains(&rest.len())
            && name.chars().count() <= 24
            && plain(name).is_none()
        {
            // What stands beside the name says what it is; the rest says more of it.
            let says = match rest {
                [alias, more @ ..] if more.len() >= 2 => format!("{alias} ({})", more.join("; ")),
                _ => rest.join(" "),
            };
            found.push((heading::squash(name), says));
        } else if let [names, says] = cells.as_slice() {
            // `DRLD_DEP, COMP_DEP, SWL | Feet below land surface`
            found.extend(several(names).into_iter().map(|name| (name, says.clone())));
        }
    }
    found
}

/// The names of several columns in one cell, squashed; none where it names one, or says something else.
fn several(names: &str) -> Vec<String> {
    const MOST_LETTERS: usize = 24;
    let parts: Vec<&str> = names.split([',', ';', '&', '/']).map(str::trim).filter(|part| !part.is_empty()).collect();
    let is_name = |part: &&str| {
        part.chars().count() <= MOST_LETTERS && part.split_whitespace().count() <= 3 && plain(part).is_none()
    };
    if parts.len() < 2 || !parts.iter().all(is_name) {
        return Vec::new();
    }
    parts.into_iter().map(heading::squash).collect()
}

/// Names with a unit beside them, as a sheet of explanations has them: `TOT_DPTH | (ft) | finished depth`.
pub fn units_by_name(rows: &Rows) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for row in 0..rows.len() {
        let cells = filled_cells(rows, row, 8);
        let [name, rest @ ..] = cells.as_slice() else { continue };
        let unit = rest.iter().take(2).find_map(|cell| {
            let inner = cell.trim_matches(['(', ')', '[', ']']).trim();
            let is_unit = notes::unit_of(&lexicon::tokens(inner), Some(Gallon::Us)).is_some();
            (is_unit && inner.split_whitespace().count() <= 5 && plain(inner).is_none()).then(|| inner.to_owned())
        });
        if let Some(unit) = unit {
            found.extend(several(name).into_iter().map(|name| (name, unit.clone())));
            found.push((heading::squash(name), unit));
        }
    }
    found
}
