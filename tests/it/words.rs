//! Words that people write for types, routes and yes/no, and what they mean.
//!
//! The phrases stand in `fixtures/words/phrases.csv` and were written before the rules, from memory of the trade: common
//! practice, no source, where the file names none.

use aftercrest::field::Field;
use aftercrest::inventory::choices::{self, Meaning};

use crate::reading::fixtures;

struct Phrase {
    field: String,
    text: String,
    meaning: String,
}

fn phrases() -> Vec<Phrase> {
    let path = fixtures("words").join("phrases.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    reader
        .records()
        .map(|record| {
            let record = record.unwrap();
            Phrase { field: record[0].to_owned(), text: record[2].to_owned(), meaning: record[3].to_owned() }
        })
        .collect()
}

fn said<T>(meaning: Meaning<T>, name: impl Fn(T) -> String) -> String {
    match meaning {
        Meaning::Is(value) | Meaning::Read(value, _) => name(value),
        Meaning::Missing => "missing".to_owned(),
        Meaning::NotAWell(kind) => format!("no well: {}", kind.name()),
        Meaning::Ask(_) => "ask".to_owned(),
    }
}

fn read(field: &str, text: &str) -> String {
    let yes_or_no = |answer: bool| if answer { "yes" } else { "no" }.to_owned();
    match field {
        "type" => said(choices::well_type(text), |kind| kind.name().to_owned()),
        "route" => said(choices::route(text), |route| route.name().to_owned()),
        "flag" => said(choices::flag(Field::Flooded, text), yes_or_no),
        other => panic!("{other}"),
    }
}

#[test]
fn words_of_the_trade_are_read_by_meaning() {
    let phrases = phrases();
    assert!(phrases.len() > 200);
    let wrong: Vec<String> = phrases
        .iter()
        .filter_map(|phrase| {
            let read = read(&phrase.field, &phrase.text);
            let right = read == phrase.meaning;
            (!right).then(|| format!("{} \"{}\": {read}, not {}", phrase.field, phrase.text, phrase.meaning))
        })
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), phrases.len(), wrong.join("\n"));
}

#[test]
fn every_data_file_can_be_read() {
    assert_eq!(choices::faults(), Vec::<String>::new());
}
