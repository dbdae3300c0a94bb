//! Names of depots and regions that the campaign counts under another: which of two spellings is kept.

use std::collections::{BTreeMap, HashMap};

use crate::field::Field;
use crate::field::names::fold;

/// For each field of names and each name that is not kept, folded, the one that is.
#[derive(Debug, Default)]
pub(super) struct KeptNames(HashMap<(Field, String), Box<str>>);

impl KeptNames {
    pub(super) fn new(words: &BTreeMap<Field, BTreeMap<String, String>>) -> Self {
        let names = words.iter().filter(|(field, _)| field.is_name_of_places());
        let each = names.flat_map(|(field, words)| words.iter().map(|(name, kept)| (*field, name, kept)));
        Self(each.map(|(field, name, kept)| ((field, fold(name)), kept.trim().into())).collect())
    }

    /// The name that is kept in place of this one.
    pub(super) fn of(&self, field: Field, name: &str) -> Option<&str> {
        if self.0.is_empty() || !field.is_name_of_places() {
            return None;
        }
        self.0.get(&(field, fold(name))).map(|kept| &**kept)
    }
}
