//! The words of cards and notices in a language, and sentences with figures set into them.
//!
//! A file of words has a section of phrases for each part of a card, and tables keyed by the program's own words: hazards,
//! cautions, codes of findings, agents. What a language lacks is said in English; a test finds it first. No well is known here.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::phrases::Phrase;
use crate::document::card::{Part, Room, Sentence};

/// A language that crews read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English; what another language lacks is said in it too.
    #[default]
    English,
    /// Spanish, whose words stand in `words/es.toml`.
    Spanish,
}

impl Language {
    /// Every language that crews can be given cards in, English first.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// Its code in ISO 639-1.
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// The file of its words.
    const fn file(self) -> &'static str {
        match self {
            Self::English => include_str!("words/en.toml"),
            Self::Spanish => include_str!("words/es.toml"),
        }
    }
}

/// A table of words that is keyed by the program's own words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Terms {
    /// What a card calls a well of each type.
    Kind,
    /// Where flush water goes.
    Route,
    Agent,
    /// Units beside a number.
    Unit,
    /// What the percent of a label counts.
    Basis,
    /// Cautions for every well.
    General,
    /// Cautions that a well's data raise.
    Caution,
    /// What the list reports of a site.
    Hazard,
    /// Codes of findings that hold a row back.
    Missing,
    /// Fields of the inventory.
    Field,
}

impl Terms {
    const fn section(self) -> &'static str {
        match self {
            Self::Kind => "kind",
            Self::Route => "route",
            Self::Agent => "agent",
            Self::Unit => "unit",
            Self::Basis => "basis",
            Self::General => "general",
            Self::Caution => "caution",
            Self::Hazard => "hazard",
            Self::Missing => "missing",
            Self::Field => "field",
        }
    }
}

/// What is set into a sentence.
#[derive(Debug, Clone)]
pub(super) enum Fill {
    /// A figure that stands out.
    Figure(String),
    /// Words like those around it.
    Text(String),
    /// Room for a pen.
    Room(Room),
    /// A sentence within the sentence.
    Sentence(Sentence),
}

/// The words of one language.
#[derive(Debug)]
pub struct Words {
    phrases: BTreeMap<String, String>,
    /// One and many of a measure.
    measures: BTreeMap<String, [String; 2]>,
}

impl Words {
    /// The words of a language, read once.
    pub fn of(language: Language) -> &'static Self {
        static WORDS: OnceLock<[Words; 2]> = OnceLock::new();
        let all = WORDS.get_or_init(|| Language::ALL.map(Self::read));
        &all[language as usize]
    }

    fn read(language: Language) -> Self {
        let parsed = |language: Language| language.file().parse::<toml::Table>().unwrap_or_default();
        let mut words = Self { phrases: BTreeMap::new(), measures: BTreeMap::new() };
        // English first: what the other lacks stays English.
        for table in [parsed(Language::English), parsed(language)] {
            for (section, keys) in &table {
                for (key, value) in keys.as_table().into_iter().flatten() {
                    if let Some(text) = value.as_str() {
                        words.phrases.insert(format!("{section}.{key}"), text.to_owned());
                    } else if let Some([one, many]) = value.as_array().map(Vec::as_slice) {
                        let text = |value: &toml::Value| value.as_str().unwrap_or_default().to_owned();
                        words.measures.insert(format!("{section}.{key}"), [text(one), text(many)]);
                    }
                }
            }
        }
        words
    }

    /// A phrase as it stands, without its signs for bold.
    pub(super) fn say(&self, phrase: Phrase) -> String {
        self.phrases.get(phrase.key()).cloned().unwrap_or_default().replace('*', "")
    }

    /// A phrase with texts set into it.
    pub(super) fn with(&self, phrase: Phrase, fills: &[(&str, &str)]) -> String {
        filled(self.say(phrase), fills)
    }

    /// A word of a table; the program's own where the table has none.
    pub(super) fn term<'a>(&'a self, terms: Terms, key: &'a str) -> &'a str {
        self.phrases.get(&format!("{}.{key}", terms.section())).map_or(key, String::as_str)
    }

    /// Whether a table has a word.
    pub(super) fn has(&self, terms: Terms, key: &str) -> bool {
        self.phrases.contains_key(&format!("{}.{key}", terms.section()))
    }

    /// What a casing is made of, in this language where every word of it is known; else as the list says it.
    pub(super) fn casing(&self, said: &str) -> String {
        let known = |word: &str| self.phrases.get(&format!("casing.{}", word.to_lowercase())).map(String::as_str);
        let words: Option<Vec<&str>> = said.split_whitespace().map(known).collect();
        let words = words.map(|words| words.join(" ")).filter(|words| !words.eq_ignore_ascii_case(said));
        words.unwrap_or_else(|| said.to_owned())
    }

    /// A measure, one or many.
    pub(super) fn measure<'a>(&'a self, unit: &'a str, many: bool) -> &'a str {
        self.measures.get(&format!("measure.{unit}")).map_or(unit, |forms| &forms[usize::from(many)])
    }

    /// A unit beside a number, one or many.
    pub(super) fn unit<'a>(&'a self, symbol: &'a str, many: bool) -> &'a str {
        let forms = self.measures.get(&format!("unit.{symbol}"));
        forms.map_or_else(|| self.term(Terms::Unit, symbol), |forms| &forms[usize::from(many)])
    }

    /// A sentence with its figures and its room for a pen.
    pub(super) fn sentence(&self, phrase: Phrase, fills: Vec<(&'static str, Fill)>) -> Sentence {
        let template = self.phrases.get(phrase.key()).map_or("", String::as_str);
        let mut parts = Vec::new();
        for (at, piece) in template.split('*').enumerate() {
            let strong = at % 2 == 1;
            let text = |text: &str| match (text, strong) {
                ("", _) => None,
                (text, true) => Some(Part::Strong(text.to_owned())),
                (text, false) => Some(Part::Text(text.to_owned())),
            };
            let mut rest = piece;
            while let Some((before, name, after)) = placeholder(rest) {
                parts.extend(text(before));
                match fills.iter().find(|(of, _)| *of == name) {
                    Some((name, Fill::Figure(text))) => parts.push(Part::Figure { name, text: text.clone() }),
                    Some((_, Fill::Text(text))) => parts.push(Part::Text(text.clone())),
                    Some((_, Fill::Room(room))) => parts.push(Part::Room(*room)),
                    Some((_, Fill::Sentence(sentence))) => parts.extend_from_slice(&sentence.0),
                    None => {}
                }
                rest = after;
            }
            parts.extend(text(rest));
        }
        Sentence(parts)
    }
}

/// What stands before the first placeholder, its name, and what follows.
fn placeholder(text: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = text.split_once('{')?;
    let (name, after) = rest.split_once('}')?;
    Some((before, name, after))
}

/// Texts in place of their names in braces; what is set in is never searched for names again.
pub(super) fn filled(template: String, fills: &[(&str, &str)]) -> String {
    let (mut text, mut rest) = (String::with_capacity(template.len()), template.as_str());
    while let Some((before, name, after)) = placeholder(rest) {
        text.push_str(before);
        text.push_str(fills.iter().find(|(of, _)| *of == name).map_or("", |(_, with)| with));
        rest = after;
    }
    text + rest
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};

    use super::*;
    use crate::caution;
    use crate::field::{DischargeRoute, FIELDS, WellType};
    use crate::finding::{Severity, catalogue};
    use crate::hazard;
    use crate::kernel::neutralizer::Agent;
    use crate::kernel::strength::StrengthBasis;

    /// Sections of phrases; the others are keyed by the program's own words.
    const PHRASES: [&str; 7] = ["file", "card", "bring", "step", "box", "load", "notice"];

    fn keys(language: Language) -> BTreeMap<String, Vec<String>> {
        let table: toml::Table = language.file().parse().expect("a file of words is TOML");
        let mut keys = BTreeMap::new();
        for (section, entries) in &table {
            for (key, value) in entries.as_table().expect("sections only") {
                let texts = match value.as_array() {
                    Some(forms) => {
                        assert_eq!(forms.len(), 2, "{section}.{key}: one and many");
                        forms.iter().filter_map(|form| form.as_str()).map(str::to_owned).collect()
                    }
                    None => vec![value.as_str().expect("texts only").to_owned()],
                };
                assert!(texts.iter().all(|text| !text.trim().is_empty()), "{section}.{key} says nothing");
                keys.insert(format!("{section}.{key}"), texts);
            }
        }
        keys
    }

    fn names(text: &str) -> Vec<String> {
        let (mut names, mut rest) = (Vec::new(), text);
        while let Some((_, name, after)) = placeholder(rest) {
            names.push(name.to_owned());
            rest = after;
        }
        names.sort();
        names
    }

    #[test]
    fn languages_have_the_same_keys_and_placeholders() {
        let english = keys(Language::English);
        for language in Language::ALL {
            let other = keys(language);
            assert_eq!(english.keys().collect::<Vec<_>>(), other.keys().collect::<Vec<_>>(), "{language:?}");
            for (key, texts) in &english {
                let theirs = &other[key];
                assert_eq!(
                    texts.iter().map(|text| names(text)).collect::<Vec<_>>(),
                    theirs.iter().map(|text| names(text)).collect::<Vec<_>>(),
                    "{key}"
                );
                assert!(theirs.iter().all(|text| text.matches('*').count() % 2 == 0), "{key}: bold is left open");
            }
        }
    }

    #[test]
    fn another_language_is_no_copy_of_english() {
        let (english, spanish) = (keys(Language::English), keys(Language::Spanish));
        // Symbols and words that are the same in both.
        let same: Vec<&String> = english.keys().filter(|key| english[*key] == spanish[*key]).collect();
        let allowed =
            ["unit.", "measure.", "field.ph", "card.no", "load.agent", "load.supply", "field.visit", "file.of_day"];
        for key in same {
            assert!(allowed.iter().any(|start| key.starts_with(start)), "{key} is not translated");
        }
    }

    #[test]
    fn phrases_of_the_files_are_those_of_the_program() {
        let known: BTreeSet<&str> = super::super::phrases::ALL.iter().map(|phrase| phrase.key()).collect();
        let english = keys(Language::English);
        let written: BTreeSet<&str> = english
            .keys()
            .map(String::as_str)
            .filter(|key| PHRASES.contains(&key.split('.').next().unwrap_or_default()))
            .collect();
        assert_eq!(known, written);
    }

    #[test]
    fn every_word_of_the_program_has_its_words() {
        let english = keys(Language::English);
        let held_back: Vec<&str> =
            catalogue::ALL.iter().filter(|code| code.severity() == Severity::Error).map(|code| code.id()).collect();
        let mut agents = Agent::ALL.map(Agent::name).to_vec();
        let expected: [(Terms, Vec<&str>); 9] = [
            (Terms::Kind, WellType::ALL.map(WellType::name).into_iter().chain(["unknown"]).collect()),
            (Terms::Route, DischargeRoute::ALL.map(DischargeRoute::name).into_iter().chain(["unknown"]).collect()),
            (Terms::Agent, std::mem::take(&mut agents)),
            (Terms::Basis, StrengthBasis::ALL.map(StrengthBasis::name).to_vec()),
            (Terms::General, caution::GENERAL.iter().map(|entry| entry.word).collect()),
            (Terms::Caution, caution::raised().map(|(_, entry)| entry.word).collect()),
            (Terms::Hazard, hazard::ENTRIES.iter().map(|entry| entry.word).collect()),
            (Terms::Missing, held_back.into_iter().chain(["other"]).collect()),
            (Terms::Field, FIELDS.iter().map(|field| field.name).collect()),
        ];
        for (terms, words) in expected {
            let section = format!("{}.", terms.section());
            let written: BTreeSet<&str> = english.keys().filter_map(|key| key.strip_prefix(section.as_str())).collect();
            assert_eq!(written, words.into_iter().collect(), "{section}");
        }
    }

    #[test]
    fn what_is_set_in_is_not_read_as_a_template() {
        let text = filled("a {b} c {d}".to_owned(), &[("b", "{d}"), ("d", "*x*")]);
        assert_eq!(text, "a {d} c *x*");
    }
}
