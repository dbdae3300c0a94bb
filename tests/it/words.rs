//! Words that people write for types, routes and yes/no, and what they mean.
//!
//! The phrases stand in `fixtures/words/phrases.csv` and were written before the rules, from memory of the trade: common
//! practice, no source, where the file names none.

use std::collections::{BTreeMap, BTreeSet};

use aftercrest::checks::Verdict;
use aftercrest::field::{DischargeRoute, Field};
use aftercrest::finding::{Code, catalogue};
use aftercrest::inventory::choices::{self, Meaning};

use crate::reading::{Outcome, fixtures, read, us};

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

fn read_as(field: &str, text: &str) -> String {
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
            let read = read_as(&phrase.field, &phrase.text);
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

/// Outcome by well: type and route, `held` where it is held back, with the codes of its findings.
fn outcomes(file: &str) -> (BTreeMap<String, String>, Outcome) {
    let outcome = read(&[fixtures("words").join(file)], &us()).unwrap();
    let each = outcome.verdicts.iter().map(|verdict| match verdict {
        Verdict::Admitted { well, .. } => {
            let route = well.discharge_route.map_or("-", DischargeRoute::name);
            (well.id.to_string(), format!("{} {route}", well.well_type.name()))
        }
        Verdict::HeldBack(held) => {
            let codes: BTreeSet<&str> = held.reasons().map(|finding| finding.code.id()).collect();
            (held.id.to_string(), codes.into_iter().collect::<Vec<_>>().join(" "))
        }
        Verdict::NotAWell(row) => (row.seen.to_string(), "not a well".to_owned()),
    });
    (each.collect(), outcome)
}

fn says(outcome: &Outcome, code: Code) -> Vec<String> {
    outcome.findings().iter().filter(|finding| finding.code == code).map(|finding| finding.says.to_string()).collect()
}

fn expect(file: &str, wanted: &[(&str, &str)]) -> Outcome {
    let (found, outcome) = outcomes(file);
    for (well, what) in wanted {
        assert_eq!(found.get(*well).map(String::as_str), Some(*what), "{file}, well {well}: {found:#?}");
    }
    outcome
}

#[test]
fn codes_explained_on_a_sheet_are_read() {
    let outcome = expect(
        "codes-on-a-sheet.xlsx",
        &[
            ("P-1", "drilled land"),
            ("P-2", "drilled stream"), // 1 for 01
            ("P-3", "dug storm_drain"),
            ("P-4", "drilled hauled"), // 99: not recorded; inferred from its size
            ("P-5", "drilled land"),   // 12 is in no list: asked, and inferred
            ("P-6", "dug land"),       // 888: flowing, full to the ground
            ("P-7", "G205"),           // 999: not measured
            ("7", "not a well"),       // a test hole
        ],
    );
    assert_eq!(outcome.rows, 8, "a sheet of codes holds no wells");
    let said = says(&outcome, catalogue::CODE_LIST_READ);
    assert_eq!(said.len(), 3, "{said:?}");
    assert_eq!(
        said[0],
        "codes of column TYPE are explained on sheet CODES from row 3: 01 rotary, 04 dug, stone or brick, 07 test hole, never a supply, 99 not recorded"
    );
}

#[test]
fn codes_explained_at_the_foot_are_read_and_are_no_wells() {
    let outcome = expect(
        "codes-at-the-foot.csv",
        &[
            ("1", "drilled land"),
            ("2", "dug storm_drain"),
            ("3", "G205"),
            ("4", "driven land"),
            ("5", "drilled -"),
            ("6", "drilled stream"),
            ("7", "G204"),
            ("R", "not a well"),
        ],
    );
    assert_eq!(outcome.admitted(), 5);
    // Ten rows of codes, and the cistern.
    let others = outcome.verdicts.iter().filter(|verdict| matches!(verdict, Verdict::NotAWell(_))).count();
    assert_eq!(others, 11, "{:?}", outcome.codes());
}

#[test]
fn codes_explained_beside_and_above_are_read() {
    let beside = expect(
        "codes-beside.csv",
        &[
            ("1", "drilled -"),
            ("2", "dug -"),
            ("3", "bored -"),
            ("4", "drilled -"), // Not stated: inferred from its size.
            ("5", "drilled -"), // 01 for 1
            ("6", "dug -"),
        ],
    );
    assert_eq!(beside.rows, 6);
    expect(
        "codes-above.csv",
        &[("1", "drilled -"), ("2", "dug -"), ("3", "driven -"), ("4", "G204"), ("5", "drilled -")],
    );
}

#[test]
fn ticked_answers_are_one_choice() {
    let outcome = expect(
        "ticked-answers.csv",
        &[
            ("1", "drilled land"),
            ("2", "dug storm_drain"),
            ("3", "driven stream"), // Lawn and creek: the creek needs more care.
            ("4", "drilled land"),  // Drilled and dug: asked, and inferred from its size.
            ("5", "drilled -"),     // Not sure: inferred.
            ("", "not a well"),     // A cistern.
            ("7", "drilled -"),     // Lawn and septic cannot be weighed.
            ("8", "drilled septic"),
        ],
    );
    assert_eq!(says(&outcome, catalogue::MULTIPLE_CHOICE_READ).len(), 2);
    assert!(
        says(&outcome, catalogue::CHOICE_FROM_PHRASE).iter().any(|says| says.contains("needs the most care")),
        "{:?}",
        outcome.findings()
    );
}

#[test]
fn words_of_four_languages_are_read_in_lists() {
    let outcome = expect(
        "types-in-four-languages.csv",
        &[
            ("1", "dug land"),
            ("2", "dug storm_drain"),
            ("3", "drilled stream"),
            ("4", "dug stream"),
            ("5", "drilled -"),
            ("6", "drilled septic"),
        ],
    );
    let flooded: Vec<Option<bool>> = outcome
        .verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::Admitted { well, .. } => Some(well.flooded),
            Verdict::HeldBack(_) | Verdict::NotAWell(_) => None,
        })
        .collect();
    assert_eq!(flooded, [Some(true), Some(false), Some(true), Some(true), Some(false), None]);
    // A word that is asked says how to answer it once.
    let asked = outcome.findings().into_iter().find(|finding| finding.code == catalogue::UNKNOWN_CHOICE).unwrap();
    // What a person must choose stands in capitals: a line that is pasted as it is must not plan anything.
    let line = "[inventory.words.discharge_route] \"zanja\" = \"ROUTE\"";
    assert!(asked.help.to_string().ends_with(line), "{}", asked.help);
}

#[test]
fn any_text_is_read_without_harm() {
    // Whatever is typed is read as something, and the same text as the same.
    let odd = [
        "",
        " ",
        "?",
        "???",
        "not",
        "no no no",
        "w/",
        "c/",
        "s/",
        "/",
        "a/b/c/d",
        "((((",
        "=",
        "drilled\u{0301}",
        "ﬁeld",
        "𝔡ug",
        "x".repeat(10_000).as_str(),
    ]
    .map(str::to_owned);
    for text in odd {
        for field in ["type", "route", "flag"] {
            assert_eq!(read_as(field, &text), read_as(field, &text));
        }
    }
}
