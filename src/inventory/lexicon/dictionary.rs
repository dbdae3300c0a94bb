//! The dictionaries of headings, a file of words for each language, read once.

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;

use super::concepts::Concept;
use super::letters::tokens;

/// A language that headings come in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// The language of the headings of public registers; taken where nothing speaks for another.
    #[default]
    English,
    /// As municipalities and relief programs of the Americas and Spain write.
    Spanish,
    /// As communes and relief programs of Europe, Africa and Canada write.
    French,
    /// As municipalities of Brazil, Portugal and Africa write.
    Portuguese,
}

impl Language {
    /// Every language, English first.
    pub const ALL: [Self; 4] = [Self::English, Self::Spanish, Self::French, Self::Portuguese];

    /// Its name in messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Spanish",
            Self::French => "French",
            Self::Portuguese => "Portuguese",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::English => include_str!("../words/headings.en.toml"),
            Self::Spanish => include_str!("../words/headings.es.toml"),
            Self::French => include_str!("../words/headings.fr.toml"),
            Self::Portuguese => include_str!("../words/headings.pt.toml"),
        }
    }
}

/// The words of one language.
#[derive(Debug, Default)]
pub(super) struct Dictionary {
    /// Words and phrases, their parts joined by single blanks.
    pub(super) exact: HashMap<String, Concept, FixedState>,
    /// Words of which any ending counts: `diam*`.
    pub(super) beginnings: HashMap<String, Concept, FixedState>,
    /// The most parts that a phrase has.
    longest: usize,
}

impl Dictionary {
    /// The concept of a phrase.
    pub(super) fn concept(&self, phrase: &str) -> Option<Concept> {
        self.exact.get(phrase).copied().or_else(|| {
            // An open ending belongs to the last word: `level*` does not swallow `level date`. The longest beginning counts.
            let last = phrase.rfind(' ').map_or(0, |blank| blank + 1);
            let ends = (last + 1..=phrase.len()).rev();
            ends.filter_map(|end| self.beginnings.get(phrase.get(..end)?)).next().copied()
        })
    }
}

/// The dictionary of a language, read once.
pub(super) fn dictionary(language: Language) -> &'static Dictionary {
    static ALL: OnceLock<Vec<Dictionary>> = OnceLock::new();
    let all = ALL.get_or_init(|| Language::ALL.into_iter().map(read).collect());
    &all[language as usize]
}

/// Reads a file of words. A word that the file gives to two concepts keeps the first: a test refuses such files.
fn read(language: Language) -> Dictionary {
    let mut dictionary = Dictionary::default();
    for (name, words) in entries(language) {
        let Some((_, concept)) = Concept::ALL.iter().find(|(known, _)| *known == name) else { continue };
        for word in words {
            let parts = tokens(&word);
            let phrase = parts.join(" ");
            dictionary.longest = dictionary.longest.max(parts.len());
            if word.ends_with('*') {
                dictionary.beginnings.entry(phrase).or_insert(*concept);
            } else {
                dictionary.exact.entry(phrase).or_insert(*concept);
            }
        }
    }
    dictionary
}

/// The entries of a language's file of words, by concept.
fn entries(language: Language) -> Vec<(String, Vec<String>)> {
    let table: toml::Table = language.words().parse().unwrap_or_default();
    let list = |value: &toml::Value| {
        value.as_array().into_iter().flatten().filter_map(|word| word.as_str().map(str::to_owned)).collect()
    };
    table.iter().map(|(name, words)| (name.clone(), list(words))).collect()
}

/// The longest phrase of a dictionary at the beginning of these words.
pub(super) fn longest(dictionary: &Dictionary, words: &[String]) -> Option<(Concept, usize)> {
    (1..=dictionary.longest.min(words.len())).rev().find_map(|parts| {
        let phrase = if parts == 1 { words[0].clone() } else { words[..parts].join(" ") };
        dictionary.concept(&phrase).map(|concept| (concept, parts))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A concept that is misspelled would be passed over, and of two concepts the alphabet would choose.
    #[test]
    fn every_word_of_the_files_has_one_concept() {
        for language in Language::ALL {
            let mut seen: HashMap<String, String> = HashMap::new();
            let entries = entries(language);
            assert!(entries.len() > 40, "{}", language.name());
            for (name, words) in entries {
                assert!(Concept::ALL.iter().any(|(known, _)| *known == name), "{}: {name}", language.name());
                for word in words {
                    let open = if word.ends_with('*') { "*" } else { "" };
                    let phrase = tokens(&word).join(" ") + open;
                    let of = seen.entry(phrase).or_insert_with(|| name.clone());
                    assert_eq!(*of, name, "{}: {word}", language.name());
                }
            }
        }
    }
}
