//! Words of the trade, as headings use them: which concept each word stands for, in the languages that lists come in.
//!
//! The words are data (`words/headings.*.toml`); this file reads them once and finds them in a text. It knows no fields:
//! what a set of concepts makes of a column is the business of `columns`.

mod concepts;
mod dictionary;
mod letters;
mod phrased;

pub use concepts::Concept;
pub use dictionary::Language;
pub use letters::{fold, tokens, unaccented};
pub use phrased::phrased;

use dictionary::{dictionary, longest};

/// `FINDPTHFT` as `fin dpth ft`: a run of letters that falls into known abbreviations and a unit, and into nothing else. Four
/// letters only with the unit: `TDFT`.
pub fn spaced(heading: &str) -> Option<String> {
    const UNITS: [&str; 10] = ["ft", "in", "mm", "cm", "m", "gpm", "lpm", "lps", "mgl", "gal"];
    const REFERENCES: [&str; 4] = ["bls", "bgs", "bgl", "btoc"];
    const LONGEST: usize = 24;
    const MOST_PARTS: usize = 4;
    let run = heading.trim().to_ascii_lowercase();
    let short = run.len() == 4 && ["ft", "in", "m"].iter().any(|unit| run.ends_with(unit));
    if !short && !(5..=LONGEST).contains(&run.len()) || !run.bytes().all(|byte| byte.is_ascii_lowercase()) {
        return None;
    }
    let english = dictionary(Language::English);
    // `STATWLFTBGS`: a unit stands last, or before what is counted from.
    let known = |part: &str, behind: &str| {
        part.len() >= 2 && (english.exact.contains_key(part) || english.beginnings.contains_key(part))
            || REFERENCES.contains(&part)
            || (behind.is_empty() || REFERENCES.contains(&behind)) && UNITS.contains(&part)
    };
    // The fewest parts that reach each place, and where the last of them begins.
    let mut best: Vec<Option<(usize, usize)>> = vec![None; run.len() + 1];
    best[0] = Some((0, 0));
    for end in 1..=run.len() {
        best[end] = (0..end)
            .filter(|start| known(&run[*start..end], &run[end..]))
            .filter_map(|start| best[start].map(|(parts, _)| (parts + 1, start)))
            .min();
    }
    let (parts, _) = best[run.len()].filter(|(parts, _)| (2..=MOST_PARTS).contains(parts))?;
    let mut words = Vec::with_capacity(parts);
    let mut end = run.len();
    while let Some((_, start)) = best[end].filter(|_| end > 0) {
        words.push(&run[start..end]);
        end = start;
    }
    words.reverse();
    Some(words.join(" "))
}

/// What the words of a text stand for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Meaning {
    /// Concepts, in order, each once; fillers are left out.
    pub concepts: Vec<Concept>,
    /// Words that no dictionary knows.
    pub unknown: Vec<String>,
}

impl Meaning {
    /// Whether a word stood for this.
    pub fn has(&self, concept: Concept) -> bool {
        self.concepts.contains(&concept)
    }
}

/// What the words stand for, in the language of a list and in English; in another language where that knows every word.
pub fn meaning(words: &[String], language: Language) -> Meaning {
    let own = read_in(words, &[language, Language::English]);
    if !own.concepts.is_empty() || own.unknown.is_empty() {
        return own;
    }
    // `Profondeur totale` in an English list: all of its words in one language, or none.
    let others = Language::ALL.into_iter().filter(|other| *other != language && *other != Language::English);
    let whole = others.map(|other| read_in(words, &[other])).find(|meaning| meaning.unknown.is_empty());
    whole.unwrap_or(own)
}

/// `diam2` as the second of several: the word and its number, which has one figure; `h2s` has none.
pub fn numbered(word: &str) -> (&str, Option<u32>) {
    const SHORTEST: usize = 3;
    let name = word.trim_end_matches(|c: char| c.is_ascii_digit());
    match word[name.len()..].parse() {
        Ok(number @ 1..=9) if name.chars().count() >= SHORTEST => (name, Some(number)),
        _ => (word, None),
    }
}

fn read_in(words: &[String], order: &[Language]) -> Meaning {
    let mut meaning = Meaning::default();
    let mut at = 0;
    'words: while at < words.len() {
        for language in order {
            if let Some((concept, parts)) = longest(dictionary(*language), &words[at..]) {
                if concept != Concept::Filler && !meaning.concepts.contains(&concept) {
                    meaning.concepts.push(concept);
                }
                at += parts;
                continue 'words;
            }
        }
        // `csg1` is a casing, the first of several.
        let (name, number) = numbered(&words[at]);
        let concept = number.and_then(|_| order.iter().find_map(|language| dictionary(*language).concept(name)));
        if let Some(concept) = concept {
            if !meaning.concepts.contains(&concept) {
                meaning.concepts.push(concept);
            }
        } else if words[at].chars().any(char::is_alphabetic) && words[at].chars().count() > 1 {
            meaning.unknown.push(words[at].clone());
        }
        at += 1;
    }
    meaning
}

/// The language that knows most of these words; English where none knows more than it.
pub fn language(words: &[String]) -> Language {
    let known = |language: Language| {
        let mut count = 0;
        let mut at = 0;
        while at < words.len() {
            let parts = longest(dictionary(language), &words[at..]).map_or(0, |(_, parts)| parts);
            count += parts;
            at += parts.max(1);
        }
        count
    };
    Language::ALL.into_iter().rev().max_by_key(|language| known(*language)).unwrap_or(Language::English)
}
