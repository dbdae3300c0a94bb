//! Words and expressions with what they mean, out of the data files beside the reader.
//!
//! An expression of several words counts before its parts; a star at the end or the beginning of a word stands for any
//! letters. Looked up once for each different cell.

use std::collections::HashMap;

use foldhash::fast::FixedState;

use super::phrase::Phrase;

/// A word or expression that stands in a phrase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hit<C> {
    /// What the words do in the phrase.
    pub class: C,
    /// Where it begins, counted in words.
    pub at: usize,
    /// How many words it has.
    pub words: usize,
    /// The part of the phrase.
    pub part: usize,
}

/// Words and expressions of one subject, in all languages.
#[derive(Debug)]
pub struct Lexicon<C> {
    /// Expressions with their meaning, found by the word that they begin with.
    by_word: HashMap<String, Vec<(Vec<String>, C)>, FixedState>,
    /// Those whose first word has a star.
    starred: Vec<(Vec<String>, C)>,
    /// What could not be read of the files: nothing, as a test holds.
    pub faults: Vec<String>,
}

impl<C: Copy> Lexicon<C> {
    /// Reads files of `[section]` with `key = ["word", "several words", "beginning*"]`.
    pub fn load(files: &[&str], class: impl Fn(&str, &str) -> Option<C>) -> Self {
        let mut lexicon = Self { by_word: HashMap::default(), starred: Vec::new(), faults: Vec::new() };
        for file in files {
            let table: toml::Table = match file.parse() {
                Ok(table) => table,
                Err(error) => {
                    lexicon.faults.push(error.to_string());
                    continue;
                }
            };
            for (section, keys) in &table {
                for (key, words) in keys.as_table().into_iter().flatten() {
                    let Some(class) = class(section, key) else {
                        lexicon.faults.push(format!("[{section}] {key}: not known"));
                        continue;
                    };
                    for word in words.as_array().into_iter().flatten() {
                        match word.as_str() {
                            Some(word) => lexicon.add(word, class),
                            None => lexicon.faults.push(format!("[{section}] {key}: {word} is not text")),
                        }
                    }
                }
            }
        }
        lexicon
    }

    fn add(&mut self, written: &str, class: C) {
        let pattern: Vec<String> = Phrase::of(written).words.into_iter().map(|word| word.text).collect();
        let Some(first) = pattern.first() else {
            self.faults.push(format!("\"{written}\" has no word"));
            return;
        };
        if first.contains('*') {
            self.starred.push((pattern, class));
        } else {
            self.by_word.entry(first.clone()).or_default().push((pattern, class));
        }
    }

    /// What stands in a phrase, from left to right: the longest expression at each place, and none within another.
    pub fn hits(&self, phrase: &Phrase) -> Vec<Hit<C>> {
        let words = &phrase.words;
        let mut hits = Vec::new();
        let mut at = 0;
        while at < words.len() {
            let exact = self.by_word.get(&words[at].text).into_iter().flatten();
            let best = exact
                .chain(&self.starred)
                .filter(|(pattern, _)| {
                    pattern.len() <= words.len() - at
                        && pattern
                            .iter()
                            .zip(&words[at..])
                            .all(|(pattern, word)| word.part == words[at].part && fits(pattern, &word.text))
                })
                // More words first; among equals the one with more letters of its own.
                .max_by_key(|(pattern, _)| {
                    let letters = pattern.iter().flat_map(|word| word.bytes()).filter(|letter| *letter != b'*').count();
                    let whole = !pattern.iter().any(|word| word.contains('*'));
                    (pattern.len(), whole, letters)
                });
            match best {
                Some((pattern, class)) => {
                    hits.push(Hit { class: *class, at, words: pattern.len(), part: words[at].part });
                    at += pattern.len();
                }
                None => at += 1,
            }
        }
        hits
    }

    /// Words of a phrase in which nothing stands.
    pub fn unread(&self, phrase: &Phrase) -> Vec<String> {
        let hits = self.hits(phrase);
        let stands_in = |at: usize| hits.iter().any(|hit| (hit.at..hit.at + hit.words).contains(&at));
        let words = phrase.words.iter().enumerate().filter(|(at, _)| !stands_in(*at));
        words.map(|(_, word)| word.text.clone()).collect()
    }
}

fn fits(pattern: &str, word: &str) -> bool {
    match (pattern.strip_suffix('*'), pattern.strip_prefix('*')) {
        (Some(beginning), _) => word.starts_with(beginning),
        (None, Some(ending)) => word.ends_with(ending) && word.len() > ending.len(),
        (None, None) => pattern == word,
    }
}
