//! Entries of a list that another entry puts out of force: `I sent this in before, use this one`, `deepening of 119445`, `see
//! 24-006`, the record of a deepening under the id of an older one.
//!
//! Decided once a table, from the sample that headings are found by. Where an entry says outright that it counts instead of
//! another, that one is no well of its own; where one only points to another, which of the two counts is asked.

use std::collections::{BTreeMap, HashMap};

use super::lexicon::fold;
use super::phrases::{Token, tokens};
use super::remarks;
use super::remarks::words::Way;

/// An entry as far as it may point to another.
#[derive(Debug, Clone)]
pub struct Entry {
    /// The row as a person sees it.
    pub row: u32,
    /// Its id as typed; empty where the list has none.
    pub id: String,
    /// Other numbers that it has in the list, as of a form or an order.
    pub numbers: Vec<String>,
    /// Whose it is and where, folded.
    pub person: [String; 2],
    /// What is remarked of it, in the order of the columns.
    pub told: Vec<String>,
    /// Depth, level and diameter.
    pub measures: [Option<i64>; 3],
}

impl Entry {
    /// Whether it is the same person's and has the same measures.
    fn is_as(&self, other: &Self) -> bool {
        let same = self.person[0] == other.person[0] && !self.person[0].is_empty();
        same && (self.measures == other.measures || self.measures.iter().all(Option::is_none))
    }
}

/// What another entry makes of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// It is a second entry of a well, by these words.
    Second(String),
    /// It may be one.
    Asked(String),
}

/// Words by which an entry counts instead of an earlier one of the same person. Other languages from memory.
const COUNTS: [&str; 25] = [
    "use this one",
    "use this instead",
    "use this entry",
    "use this form",
    "use this line",
    "use this row",
    "use this record",
    "use this call",
    "this line counts",
    "this row counts",
    "vale esta",
    "retenir celle-ci",
    "please use this",
    "use the new one",
    "this one is right",
    "this one is correct",
    "this is the right one",
    "this is the correct one",
    "corrected entry",
    "usar este",
    "usar esta",
    "usen este",
    "vale este",
    "utiliser celle-ci",
    "utilisez celle-ci",
];

/// Words by which it counts instead of the one whose number it names.
const OF_ANOTHER: [&str; 17] = [
    "this replaces",
    "resend of",
    "re-send of",
    "resubmission of",
    "reenvio de",
    "replaces entry",
    "correction of",
    "correction to",
    "supersedes",
    "deepening of",
    "redrill of",
    "re-drill of",
    "re-insp. of",
    "re-insp of",
    "reinspection of",
    "re-inspection of",
    "update of",
];

/// Words right before the id of the entry that may count; one that points back is the later of the two.
const SEE: [&str; 8] = ["see", "see file", "see report", "see log", "refer to", "voir", "ver", "vide"];
/// Words right before the id of the entry that is the same.
const SAME: [&str; 8] =
    ["same as", "same one as", "duplicate of", "dup of", "copy of", "igual al", "igual que", "idem que"];
/// Words right before the id under which the well is kept now.
const BECAME: [&str; 12] = [
    "now",
    "is now",
    "now acct",
    "now account",
    "now under",
    "renumbered",
    "renumbered to",
    "changed to",
    "moved to",
    "became",
    "ahora es",
    "devenu",
];
/// Words by which an entry gives way to a later one with its id.
const RESENT: [&str; 18] = [
    "do not use, see next",
    "do not use see next",
    "don't use, see next",
    "see next line, do not use",
    "see resend",
    "see resent",
    "see re-send",
    "see resubmission",
    "see resubmitted",
    "see corrected form",
    "see next form",
    "see new form",
    "see later form",
    "see second form",
    "will resend",
    "resent below",
    "ver reenvio",
    "voir renvoi",
];
/// Signs and words between those and the id.
const NUMBERING: [&str; 8] = ["#", "no.", "no", "nr", "n°", "nº", "entry", "row"];

/// A bare number below this many figures is an id only behind `#` or the like.
const SHORT: usize = 4;

/// Whether a text says outright that its entry counts.
pub fn counts(words: &[Token]) -> bool {
    let joined = words.iter().map(|token| token.word.as_str()).collect::<Vec<_>>().join(" ");
    COUNTS.iter().any(|known| joined.contains(known))
}

/// The entries that others put out of force, by row.
pub fn replaced(entries: &[Entry]) -> BTreeMap<u32, Standing> {
    let mut found: BTreeMap<u32, Standing> = BTreeMap::new();
    let mut by_id: HashMap<String, Vec<usize>> = HashMap::new();
    for (at, entry) in entries.iter().enumerate() {
        let known = std::iter::once(&entry.id).chain(&entry.numbers).filter(|id| !id.is_empty());
        for id in known {
            let rows = by_id.entry(id.to_lowercase()).or_default();
            if rows.last() != Some(&at) {
                rows.push(at);
            }
        }
    }
    let mut put = |row: u32, standing: Standing| {
        let known = found.entry(row).or_insert_with(|| standing.clone());
        if matches!(standing, Standing::Second(_)) {
            *known = standing;
        }
    };
    for (at, entry) in entries.iter().enumerate() {
        for text in &entry.told {
            let lower = fold(text);
            let named = named(&lower, &by_id, at);
            let says = |row: u32| format!("\"{}\" (row {row})", shortened(text));
            let says_so = |known: &[&str]| known.iter().any(|words| lower.contains(words));
            if says_so(&COUNTS) || says_so(&OF_ANOTHER) && !named.is_empty() {
                let targets: Vec<usize> = match named.as_slice() {
                    [] => of_one_person(entries, at),
                    named => named.iter().map(|(_, target)| *target).collect(),
                };
                match targets.as_slice() {
                    [target] => put(entries[*target].row, Standing::Second(says(entry.row))),
                    several => several.iter().for_each(|at| put(entries[*at].row, Standing::Asked(says(entry.row)))),
                }
                continue;
            }
            if says_so(&RESENT) {
                let own = at;
                // The same well has the same id, or the same number in another column.
                let shares = |other: &Entry| {
                    let theirs: Vec<&String> = other.numbers.iter().chain([&other.id]).collect();
                    entry.numbers.iter().chain([&entry.id]).any(|id| !id.is_empty() && theirs.contains(&id))
                };
                let again = |at: &usize| *at > own && shares(&entries[*at]);
                let later: Vec<usize> = (0..entries.len()).filter(again).collect();
                if let [one] = later.as_slice() {
                    put(entry.row, Standing::Second(says(entries[*one].row)));
                }
                continue;
            }
            for (start, target) in named {
                let other = &entries[target];
                let before = before(&lower[..start]);
                let ends = |known: &[&str]| known.iter().any(|words| ends_in(before, words));
                if ends(&BECAME) && entry.is_as(other) {
                    put(entry.row, Standing::Second(says(other.row)));
                } else if ends(&SAME) {
                    let alike = entry.measures == other.measures || entry.measures.iter().all(Option::is_none);
                    put(
                        entry.row,
                        if alike { Standing::Second(says(entry.row)) } else { Standing::Asked(says(entry.row)) },
                    );
                } else if ends(&SEE) && target > at {
                    put(entry.row, Standing::Asked(says(entry.row)));
                }
            }
        }
        if let Some(older) = deepened(entries, at, &by_id) {
            put(entries[older].row, Standing::Second(format!("\"{}\" again in row {}, deepened", entry.id, entry.row)));
        }
    }
    found
}

/// The ids of other entries that a text names, each with where it stands.
fn named(lower: &str, by_id: &HashMap<String, Vec<usize>>, own: usize) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut from = 0;
    let ends = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | '"' | '#' | ':');
    while let Some(start) = lower[from..].find(|c: char| !ends(c)).map(|at| from + at) {
        let end = lower[start..].find(ends).map_or(lower.len(), |at| start + at);
        from = end;
        let word = lower[start..end].trim_end_matches(['.', '!', '?', '\'']);
        let is_bare = word.len() < SHORT && word.bytes().all(|byte| byte.is_ascii_digit());
        // `#9`, `same as no. 9`; `now no. 9` may be a number of something else.
        let head = lower[..start].trim_end();
        let same = before(head).len() < head.len() && SAME.iter().any(|words| ends_in(before(head), words));
        let numbered = head.ends_with('#') || same;
        let is_short = word.len() < 3 || is_bare;
        if is_short && !numbered || !word.bytes().any(|byte| byte.is_ascii_digit()) {
            continue;
        }
        let others: Vec<usize> = by_id.get(word).into_iter().flatten().copied().filter(|at| *at != own).collect();
        if let [target] = others.as_slice() {
            found.push((start, *target));
        }
    }
    found
}

/// What stands before an id, without the words that only number it.
fn before(text: &str) -> &str {
    let mut text = text.trim_end();
    while let Some(shorter) = NUMBERING.iter().find_map(|mark| text.strip_suffix(mark)) {
        text = shorter.trim_end();
    }
    text
}

/// Whether a text ends in these words.
fn ends_in(text: &str, words: &str) -> bool {
    text.strip_suffix(words).is_some_and(|rest| !rest.ends_with(char::is_alphanumeric))
}

/// The other entries of the same person at the same place.
fn of_one_person(entries: &[Entry], own: usize) -> Vec<usize> {
    let person = &entries[own].person;
    if person.iter().any(String::is_empty) {
        return Vec::new();
    }
    (0..entries.len()).filter(|at| *at != own && entries[*at].person == *person).collect()
}

/// The one older entry of the same person with the id of this one, which tells of a deepening and is no shallower.
fn deepened(entries: &[Entry], own: usize, by_id: &HashMap<String, Vec<usize>>) -> Option<usize> {
    let entry = &entries[own];
    let tells = |text: &String| remarks::of_tokens(&tokens(text)).iter().any(|told| told.way == Way::Deeper);
    let [older, newer] = by_id.get(&entry.id.to_lowercase())?.as_slice() else { return None };
    let deeper = entries[*older].measures[0].is_some_and(|older| entry.measures[0] > Some(older));
    // Ids may begin anew in each township: it must be the same person's.
    let same = entries[*older].person == entry.person && !entry.person[0].is_empty();
    (*newer == own && same && deeper && entry.told.iter().any(tells)).then_some(*older)
}

/// The first words of a remark.
fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    let cut: String = text.chars().take(LONGEST).collect();
    if cut.len() < text.len() { format!("{cut}…") } else { cut }
}
