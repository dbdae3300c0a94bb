//! What is said of a cell of a book, in the book's own words: titles of its sheets in place of the keys of a scenario file, which
//! whoever fills in a book has never seen.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use crate::field::{FIELDS, Kind, WellType};
use crate::parameter::{FILE, Vocabulary};

/// Tables of a scenario file as a book has them.
const TABLES: [(&str, &str); 24] = [
    ("with --date YYYY-MM-DD or ", "with "),
    ("a text in quotes", "a text"),
    ("in [[", "of [["),
    ("[inventory.fixed] gives", "the column Where blank of the sheet Columns gives"),
    ("an [[override]]", "an exception"),
    ("[[override]]", "this exception"),
    ("a second [[list]] for", "a second row of the sheet Lists for"),
    ("[[list]]", "this list"),
    ("[[product]]", "this product"),
    ("[[scenario]]", "this scenario"),
    ("[[stock]]", "this line of stock"),
    ("[[neutralizer]]", "this neutralizer"),
    ("[[supply]]", "this supply"),
    ("[[buy]]", "this count"),
    ("[[crew]]", "this crew"),
    ("[[packages]]", "this package"),
    ("[inventory.fixed]", "the column Where blank,"),
    ("[inventory]", "the sheet Campaign"),
    ("[campaign]", "the sheet Campaign"),
    ("[practice]", "the sheet Practice"),
    ("[grid]", "the sheet Combinations"),
    ("[missing]", "the sheet Missing"),
    ("the file needs", "the book needs"),
    ("the file names", "the book names"),
];

/// The titles of all keys; a key that is called otherwise in several tables keeps the first title.
fn titles() -> &'static BTreeMap<&'static str, &'static str> {
    fn gather(keys: &'static Vocabulary, depth: usize, titles: &mut BTreeMap<&'static str, &'static str>) {
        for parameter in keys.all() {
            titles.entry(parameter.key).or_insert(parameter.title);
            if let Some(inner) = parameter.keys().filter(|_| depth < 4) {
                gather(inner, depth + 1, titles);
            }
        }
    }
    static TITLES: OnceLock<BTreeMap<&str, &str>> = OnceLock::new();
    TITLES.get_or_init(|| {
        // The same key names many things.
        let mut titles = BTreeMap::from([("name", "name"), ("table", "table"), ("file", "File"), ("sheet", "Sheet")]);
        gather(&FILE, 0, &mut titles);
        titles
    })
}

/// The title of a key in the table that a sentence is about: the name of a supply is its column Supply.
fn title_in(reason: &str, key: &str) -> Option<&'static str> {
    let (_, behind) = reason.split_once('[')?;
    let (table, _) = behind.trim_start_matches('[').split_once(']')?;
    Some(FILE.get(table)?.keys()?.get(key)?.title)
}

/// The same in words of the book.
pub(super) fn in_words(reason: &str) -> String {
    let mut said = String::with_capacity(reason.len());
    for (place, part) in reason.split('`').enumerate() {
        if place % 2 == 0 {
            said.push_str(part);
            continue;
        }
        let key =
            part.split(|letter: char| !(letter.is_ascii_alphanumeric() || letter == '_')).next().unwrap_or_default();
        // `liquid 12.5` is the name of a product and no key.
        let is_key = matches!(part[key.len()..].trim_start().chars().next(), None | Some('=' | '.' | ':' | '['));
        let title = title_in(reason, key).or_else(|| titles().get(key).copied()).filter(|_| is_key).unwrap_or(part);
        said.push_str(&format!("\"{title}\""));
    }
    for (table, words) in TABLES {
        said = said.replace(table, words);
    }
    keys_as_words(&said)
}

/// Words of a scenario file that say little to whoever reads a label, as people say them. No commas: drop-downs are parted by them.
const PLAIN_WORDS: [(&str, &str); 4] = [
    ("trade", "trade (g per 100 mL)"),
    ("weight_naocl", "by weight as sodium hypochlorite"),
    ("weight_available_chlorine", "by weight as available chlorine"),
    ("grams_per_liter", "grams per liter"),
];

/// A word of a scenario file as it stands in a book; both are read.
pub fn plain_word(word: &str) -> String {
    let plain = PLAIN_WORDS.iter().find(|(of, _)| *of == word).map(|(_, plain)| (*plain).to_owned());
    plain.unwrap_or_else(|| word.replace('_', " "))
}

/// Every name of a field, type of well and word of a choice that is written with an underscore.
fn joined_words() -> &'static BTreeSet<&'static str> {
    fn gather(keys: &'static Vocabulary, depth: usize, words: &mut BTreeSet<&'static str>) {
        for parameter in keys.all() {
            words.extend(parameter.words().unwrap_or_default());
            if let Some(inner) = parameter.keys().filter(|_| depth < 4) {
                gather(inner, depth + 1, words);
            }
        }
    }
    static WORDS: OnceLock<BTreeSet<&str>> = OnceLock::new();
    WORDS.get_or_init(|| {
        let mut words: BTreeSet<&str> = WellType::ALL.iter().map(|of| of.name()).collect();
        for field in FIELDS.iter() {
            words.insert(field.name);
            if let Kind::Choice(choices) = field.kind {
                words.extend(choices.iter().map(|(word, _)| *word));
            }
        }
        gather(&FILE, 0, &mut words);
        words.retain(|word| word.contains('_'));
        words
    })
}

/// A sentence with the names of fields, types and choices as a book shows them: `total depth` for `total_depth`.
pub fn keys_as_words(text: &str) -> String {
    if !text.contains('_') {
        return text.to_owned();
    }
    let is_of_word = |letter: char| letter.is_alphanumeric() || letter == '_';
    let mut said = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(begin) = rest.find(is_of_word) {
        let length = rest[begin..].find(|letter| !is_of_word(letter)).unwrap_or(rest.len() - begin);
        let (before, word) = (&rest[..begin], &rest[begin..begin + length]);
        said.push_str(before);
        if joined_words().contains(word) {
            said.push_str(&plain_word(word))
        } else {
            said.push_str(word)
        }
        rest = &rest[begin + length..];
    }
    said.push_str(rest);
    said
}

#[cfg(test)]
mod tests {
    use super::in_words;

    #[test]
    fn keys_become_titles() {
        assert_eq!(
            in_words("`hold_hours` must be from 0 to 336, not 576"),
            "\"Contact time\" must be from 0 to 336, not 576"
        );
        assert_eq!(in_words("[[crew]] needs `visits_per_day`"), "this crew needs \"Visits a day\"");
        assert_eq!(in_words("no field `x`; did you mean `depth`?"), "no field \"x\"; did you mean \"depth\"?");
        assert_eq!(in_words("[[supply]] needs `name`"), "this supply needs \"Supply\"");
        assert_eq!(in_words("[[product]] needs `name`"), "this product needs \"Product\"");
        assert_eq!(
            in_words("no field `wel depth`; fields: well_id, total_depth"),
            "no field \"wel depth\"; fields: well id, total depth"
        );
        // A name that begins like a key is a name.
        assert_eq!(
            in_words("no product `gray drum`; did you mean `liquid 9 drum`?"),
            "no product \"gray drum\"; did you mean \"liquid 9 drum\"?"
        );
        // What somebody typed stays as it is.
        assert_eq!(
            in_words("\"my_word\" must mean one of: \"spring_box\""),
            "\"my_word\" must mean one of: \"spring box\""
        );
    }
}
