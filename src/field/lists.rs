//! What the scenario file says of one list alone, laid over what it says of all of them.

use std::borrow::Cow;

use super::rules::ReadingRules;
use crate::place::Origin;

/// Rules of one list: of a file, or of one sheet of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ListRules {
    /// The list's file name, without its folder.
    pub file: String,
    /// The sheet, where only one is meant.
    pub sheet: Option<String>,
    /// What is said of it; whatever concerns cells and headings, nothing else.
    pub rules: ReadingRules,
}

impl ListRules {
    /// The table that is meant.
    pub fn origin(&self) -> Origin {
        match &self.sheet {
            Some(sheet) => Origin::sheet(&self.file, sheet),
            None => Origin::file(&self.file),
        }
    }

    /// Whether a table is meant.
    pub fn concerns(&self, origin: &Origin) -> bool {
        *self.file == *origin.file && self.sheet.as_deref().is_none_or(|sheet| origin.sheet.as_deref() == Some(sheet))
    }
}

impl ReadingRules {
    /// The rules that a table is read by: what is said of its sheet, over what is said of its file, over what is said of all
    /// lists. What is set for one list does not touch another's.
    pub fn of(&self, origin: &Origin) -> Cow<'_, Self> {
        let concerned = || self.lists.iter().filter(|list| list.concerns(origin));
        if concerned().next().is_none() {
            return Cow::Borrowed(self);
        }
        let mut rules = self.clone();
        rules.lists.clear();
        let whole_files = concerned().filter(|list| list.sheet.is_none());
        whole_files.chain(concerned().filter(|list| list.sheet.is_some())).for_each(|list| rules.lay_over(&list.rules));
        Cow::Owned(rules)
    }

    fn lay_over(&mut self, list: &Self) {
        if list.system.is_some() {
            self.system = list.system;
            self.system_of_list = true;
        }
        let same = |one: &str, other: &str| tidy(one) == tidy(other);
        for heading in list.columns.keys().chain(list.beside.keys()) {
            self.columns.retain(|written, _| !same(written, heading));
            self.beside.retain(|written, _| !same(written, heading));
        }
        self.columns.extend(list.columns.iter().map(|(heading, field)| (heading.clone(), *field)));
        self.beside.extend(list.beside.iter().map(|(heading, target)| (heading.clone(), *target)));
        for (field, unit) in &list.units {
            self.units.insert(*field, *unit);
            self.species.remove(field);
        }
        self.species.extend(list.species.iter().map(|(field, species)| (*field, *species)));
        self.missing_texts.extend(list.missing_texts.iter().cloned());
        self.fixed.extend(list.fixed.iter().map(|(field, text)| (*field, text.clone())));
        for (field, words) in &list.words {
            let mine = self.words.entry(*field).or_default();
            for (word, meaning) in words {
                mine.retain(|written, _| !same(written, word));
                mine.insert(word.clone(), meaning.clone());
            }
        }
    }
}

/// In small letters, blanks single and none outside: how headings of the scenario file are compared with those of lists.
fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}
