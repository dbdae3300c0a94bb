//! The text of a scenario file as a tree of stated values.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::stated::{At, Document, Entry, Stated, Table, Written};

/// The tables of a text; what is not TOML is noted, all of it.
pub fn read(document: &Document<'_>) -> Option<Stated> {
    let (table, errors) = DeTable::parse_recoverable(document.content());
    for error in &errors {
        let at = At::Bytes(error.span().unwrap_or(0..0));
        document.fault(&at, format!("this is not valid TOML: {}", error.message()));
    }
    errors.is_empty().then(|| Stated { at: At::Bytes(table.span()), value: Written::Table(table_of(table.get_ref())) })
}

fn table_of(table: &DeTable<'_>) -> Table {
    let entry = |(key, value): (&Spanned<_>, &Spanned<DeValue<'_>>)| {
        let key: &Spanned<std::borrow::Cow<'_, str>> = key;
        Entry { key: key.get_ref().to_string(), key_at: At::Bytes(key.span()), stated: stated(value) }
    };
    let mut entries: Vec<Entry> = table.iter().map(entry).collect();
    entries.sort_by_key(|entry| match &entry.key_at {
        At::Bytes(span) => span.start,
        At::Cell { .. } => 0,
    });
    Table { entries }
}

fn stated(value: &Spanned<DeValue<'_>>) -> Stated {
    let written = match value.get_ref() {
        DeValue::String(text) => Written::Text(text.to_string()),
        DeValue::Integer(integer) => {
            let number = i64::from_str_radix(&integer.as_str().replace('_', ""), integer.radix());
            Written::Number(number.map_or(f64::NAN, |number| number as f64))
        }
        DeValue::Float(float) => Written::Number(float.as_str().replace('_', "").parse().unwrap_or(f64::NAN)),
        DeValue::Boolean(flag) => Written::Flag(*flag),
        DeValue::Datetime(date) => Written::Date(date.to_string()),
        DeValue::Array(array) => Written::List(array.iter().map(stated).collect()),
        DeValue::Table(table) => Written::Table(table_of(table)),
    };
    Stated { value: written, at: At::Bytes(value.span()) }
}

/// One value as it would stand behind a key, every part of it in one place; nothing where it is no TOML.
pub fn value(text: &str, at: &At) -> Option<Written> {
    fn place(stated: &mut Stated, at: &At) {
        stated.at = at.clone();
        match &mut stated.value {
            Written::List(list) => list.iter_mut().for_each(|stated| place(stated, at)),
            Written::Table(table) => table.entries.iter_mut().for_each(|entry| {
                entry.key_at = at.clone();
                place(&mut entry.stated, at);
            }),
            _ => {}
        }
    }
    let line = format!("value = {text}");
    let table = DeTable::parse(&line).ok()?;
    let mut whole = table_of(table.get_ref());
    let mut entry = whole.entries.pop().filter(|_| whole.entries.is_empty())?;
    place(&mut entry.stated, at);
    Some(entry.stated.value)
}
