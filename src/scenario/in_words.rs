//! What is said of a cell of a book, in the book's own words: titles of its sheets in place of the keys of a scenario file, which
//! whoever fills in a book has never seen.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::parameter::{FILE, Vocabulary};

/// Tables of a scenario file as a book has them.
const TABLES: [(&str, &str); 20] = [
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
        let title = titles().get(key).map_or(part, |title| title);
        said.push_str(&format!("\"{title}\""));
    }
    for (table, words) in TABLES {
        said = said.replace(table, words);
    }
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
    }
}
