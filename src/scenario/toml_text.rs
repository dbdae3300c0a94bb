//! A tree of stated values as the text of a scenario file, in the order of the vocabulary.

use super::section::FREE;
use super::stated::{Stated, Table, Written};
use crate::parameter::{FILE, Kind, Vocabulary};

/// The whole campaign as a scenario file.
pub fn text_of(campaign: &Table) -> String {
    let mut text = String::new();
    for parameter in FILE.own {
        let Some(stated) = campaign.get(parameter.key) else { continue };
        match (&stated.value, parameter.kind) {
            (Written::List(tables), Kind::Tables(keys)) => {
                for table in tables.iter().filter_map(|stated| stated.value.table()) {
                    text.push_str(&format!("[[{}]]\n{}\n", parameter.key, lines(table, Some(keys))));
                }
            }
            (Written::Table(types), Kind::Names) => {
                for entry in &types.entries {
                    if let Some(fields) = entry.stated.value.table() {
                        text.push_str(&format!("[{}.{}]\n{}\n", parameter.key, key(&entry.key), lines(fields, None)));
                    }
                }
            }
            (Written::Table(table), _) => {
                let keys = parameter.keys().filter(|_| parameter.key != "grid");
                text.push_str(&format!("[{}]\n{}\n", parameter.key, lines(table, keys)));
            }
            _ => {}
        }
    }
    text.trim_end().to_owned() + "\n"
}

/// One key a line.
fn lines(table: &Table, keys: Option<&'static Vocabulary>) -> String {
    let line = |entry: (&str, &Stated, Option<&'static Vocabulary>)| {
        let (name, stated, keys) = entry;
        format!("{} = {}\n", key(name), inline(&stated.value, keys))
    };
    ordered(table, keys).into_iter().map(line).collect()
}

/// Entries in the order of the vocabulary; those that it does not list as they stand.
fn ordered<'a>(
    table: &'a Table,
    keys: Option<&'static Vocabulary>,
) -> Vec<(&'a str, &'a Stated, Option<&'static Vocabulary>)> {
    let inner = |key: &str| match keys {
        Some(keys) if keys.is_free => Some(keys),
        Some(keys) => keys.get(key).and_then(|parameter| match parameter.kind {
            Kind::Names => Some(&FREE),
            _ => parameter.keys(),
        }),
        None => None,
    };
    let mut entries: Vec<_> =
        table.entries.iter().map(|entry| (entry.key.as_str(), &entry.stated, inner(&entry.key))).collect();
    if keys.is_some_and(|keys| keys.is_free) {
        entries.sort_by_key(|(key, ..)| *key);
    } else if let Some(keys) = keys {
        let all: Vec<&str> = keys.all().map(|parameter| parameter.key).collect();
        entries.sort_by_key(|(key, ..)| all.iter().position(|known| known == key).unwrap_or(usize::MAX));
    }
    entries
}

/// A value on one line.
pub fn inline(value: &Written, keys: Option<&'static Vocabulary>) -> String {
    match value {
        Written::Text(text) => quoted(text),
        Written::Number(number) if number.is_nan() => "nan".to_owned(),
        Written::Number(number) => number.to_string(),
        Written::Flag(flag) => flag.to_string(),
        Written::Date(date) => date.clone(),
        Written::List(list) => {
            format!("[{}]", list.iter().map(|stated| inline(&stated.value, keys)).collect::<Vec<_>>().join(", "))
        }
        Written::Table(table) if table.entries.is_empty() => "{}".to_owned(),
        Written::Table(table) => {
            let part = |(name, stated, keys): (&str, &Stated, Option<&'static Vocabulary>)| {
                format!("{} = {}", key(name), inline(&stated.value, keys))
            };
            format!("{{ {} }}", ordered(table, keys).into_iter().map(part).collect::<Vec<_>>().join(", "))
        }
    }
}

/// A key, in quotes where it must be.
fn key(name: &str) -> String {
    let bare = |letter: char| letter.is_ascii_alphanumeric() || letter == '_' || letter == '-';
    if !name.is_empty() && name.chars().all(bare) { name.to_owned() } else { quoted(name) }
}

/// A text in quotes, with what cannot stand in them written otherwise.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            '\n' => quoted.push_str("\\n"),
            '\r' => quoted.push_str("\\r"),
            '\t' => quoted.push_str("\\t"),
            letter if letter.is_control() => quoted.push_str(&format!("\\u{:04X}", letter as u32)),
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}
