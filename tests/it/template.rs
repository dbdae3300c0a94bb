//! The blank inventory workbook, the way back from it through every kind of file, and Parquet lists.

use std::path::{Path, PathBuf};

use aftercrest::field::rules::ReadingRules;
use aftercrest::field::{FIELDS, Kind};
use aftercrest::inventory::Inventory;

use crate::reading::{fixtures, read, us};
use crate::running::{contents, folder, parts, place, run, sheets};

fn blank(folder: &Path, units: &str) -> PathBuf {
    let path = folder.join(format!("{units}.xlsx"));
    run(&["template", "--out", path.to_str().unwrap(), "--units", units]).ended(0);
    path
}

/// Without any rules every column is read, in the units of its heading, and there is only one thing to say: no rows.
#[test]
fn the_reader_accepts_it_unchanged() {
    let folder = folder();
    for units in ["us", "metric", "imperial"] {
        let path = blank(folder.path(), units);
        for rules in [ReadingRules::default(), us()] {
            let outcome = read(std::slice::from_ref(&path), &rules).unwrap();
            assert_eq!(outcome.rows, 0);
            assert_eq!(outcome.codes().into_iter().collect::<Vec<_>>(), [("F101", 1)], "{units}");
        }
        let inventory = Inventory::open(&[path], &ReadingRules::default()).unwrap();
        let fields: Vec<_> = inventory.sources()[0].fields.iter().map(|(_, field, _)| *field).collect();
        assert_eq!(fields, FIELDS.iter().map(|definition| definition.field).collect::<Vec<_>>(), "{units}");
    }
}

#[test]
fn it_has_lists_bounds_notes_and_help() {
    let folder = folder();
    let path = blank(folder.path(), "us");
    let parts = parts(&path);
    let text = |name: &str| String::from_utf8(parts[name].clone()).unwrap();
    let sheet = text("xl/worksheets/sheet1.xml");
    let count = |what: &str| sheet.matches(what).count();
    let lists = FIELDS.iter().filter(|definition| matches!(definition.kind, Kind::Choice(_) | Kind::Flag)).count();
    let numbers = FIELDS.iter().filter(|definition| matches!(definition.kind, Kind::Quantity(_))).count();
    assert_eq!((count("type=\"list\""), count("type=\"decimal\"")), (lists, numbers));
    assert!(sheet.contains("drilled,driven,bored,dug,spring_box"));
    // 12 mm to 9200 mm, in inches, rounded outwards to three digits.
    assert!(sheet.contains("<formula1>0.472</formula1><formula2>363</formula2>"), "{sheet}");
    let notes: usize = parts
        .keys()
        .filter(|name| *name == "xl/comments1.xml")
        .map(|name| text(name).matches("<comment ").count())
        .sum();
    assert_eq!(notes, FIELDS.len());
    let sheets = sheets(&path);
    let names: Vec<&str> = sheets.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names[..3], ["Wells", "Help", "Start here"], "{names:?}");
    let help: Vec<String> = sheets[1].1.iter().map(|row| row[0].to_string()).collect();
    for head in &sheets[0].1[0] {
        assert!(help.contains(&head.to_string()), "{head} has no help");
    }
}

#[test]
fn nothing_is_written_over_and_the_bytes_are_always_the_same() {
    let folder = folder();
    let first = blank(folder.path(), "metric");
    let bytes = std::fs::read(&first).unwrap();
    let again = run(&["template", "--out", first.to_str().unwrap()]).ended(2);
    assert!(again.err.contains("the file already exists and is not overwritten"), "{}", again.err);
    assert_eq!(std::fs::read(&first).unwrap(), bytes);
    std::fs::remove_file(&first).unwrap();
    assert_eq!(std::fs::read(blank(folder.path(), "metric")).unwrap(), bytes);
    let other = folder.path().join("wells.ods");
    assert!(run(&["template", "--out", other.to_str().unwrap()]).ended(2).err.contains("ends in .xlsx"));
}

const SCENARIOS: &str = r#"
[campaign]
units = "us"
group_by = ["region"]

[[product]]
name     = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
age_days = 60
storage  = "20 C"

[missing.drilled]
static_water_level = { low = "10 ft", mid = "30 ft", high = "50 ft" }
casing_diameter    = { low = "5 in", mid = "6 in", high = "8 in" }
"#;

/// One list, saved by other programs in four formats: the same treatments, totals and orders, byte for byte.
#[test]
fn filled_in_and_saved_in_any_format_it_gives_the_same_plan() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    let plans: Vec<_> = ["csv", "xlsx", "ods", "parquet"]
        .into_iter()
        .map(|ending| {
            let list = fixtures("template").join(format!("filled.{ending}"));
            let out = folder.path().join(ending);
            let [list, scenarios, to] = [&list, &scenarios, &out].map(|path| path.to_str().unwrap());
            // One well has its water level below its bottom.
            run(&["plan", list, "--scenarios", scenarios, "--out", to]).ended(1);
            (ending, contents(&out))
        })
        .collect();
    let (_, first) = &plans[0];
    let treatments = String::from_utf8(first["treatments.csv"].clone()).unwrap();
    assert_eq!(treatments.lines().count(), 11);
    assert!(
        String::from_utf8(first["visits.csv"].clone()).unwrap().contains("2024-04-02"),
        "a column that was added is carried along"
    );
    for (ending, plan) in &plans {
        for name in ["treatments.csv", "totals.csv", "orders.csv"] {
            assert!(plan[name] == first[name], "{name} of {ending} differs");
        }
    }
}

/// Row number, id, depth (m) and carried cells of a row that was read.
type ReadRow = (u32, Option<String>, Option<f64>, Vec<String>);

fn parquet(rows: usize) -> Vec<ReadRow> {
    let path = fixtures("template").join("several-groups.parquet");
    let mut inventory = Inventory::open(&[path], &us()).unwrap();
    let mut found = Vec::new();
    while let Some(batch) = inventory.next_batch(rows).unwrap() {
        for draft in batch.drafts() {
            let carried = draft.carried().iter().map(|cell| cell.to_string()).collect();
            let depth = draft.number(aftercrest::field::Field::TotalDepth);
            found.push((draft.row(), draft.id().map(str::to_owned), depth, carried));
        }
    }
    found
}

/// Row groups of two, text, whole and broken numbers, decimals, yes and no, days and moments, and what has no text.
#[test]
fn every_kind_of_parquet_column_is_read() {
    let rows = parquet(1000);
    let feet = |feet: f64| Some(feet * 0.3048);
    let near = |a: Option<f64>, b: Option<f64>| match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() < 1e-9,
        (a, b) => a == b,
    };
    let depths = [feet(180.0), feet(30.0), None, feet(200.0), feet(90.0)];
    assert!(rows.iter().zip(depths).all(|(row, depth)| near(row.2, depth)), "{rows:?}");
    assert_eq!(rows.iter().map(|row| row.0).collect::<Vec<_>>(), [2, 3, 4, 5, 6], "the headings count as row 1");
    assert_eq!(rows[0].3, ["2024-04-02 13:30:05", "2024-04-02", "7", "(binary)", "(list)"]);
    assert_eq!(rows[3].3, ["", "", "9223372036854775808", "(binary)", "(list)"]);
    assert_eq!(rows[4].3[..2], ["2024-04-02 13:30:05", "1969-12-31"]);
    for batch in [1, 2, 3] {
        assert_eq!(parquet(batch), rows, "batches of {batch}");
    }
}

/// A file cut short or altered anywhere ends as an error of that file, or is read; it never stops the program.
#[test]
fn damaged_parquet_is_an_error_of_its_file() {
    let whole = std::fs::read(fixtures("template").join("several-groups.parquet")).unwrap();
    let folder = folder();
    let path = folder.path().join("damaged.parquet");
    let read_all = || -> aftercrest::error::Result<()> {
        let mut inventory = Inventory::open(std::slice::from_ref(&path), &us())?;
        while let Some(batch) = inventory.next_batch(100)? {
            batch.drafts();
        }
        Ok(())
    };
    for length in [4, 8, 100, whole.len() / 2, whole.len() - 1] {
        std::fs::write(&path, &whole[..length]).unwrap();
        let error = read_all().unwrap_err().to_string();
        assert!(error.contains("damaged.parquet") && error.contains("Parquet"), "{error}");
    }
    // Panics of the library are caught; their words would only confuse the reader of this test's output.
    let hook = std::panic::take_hook();
    std::panic::set_hook(Box::new(|_| {}));
    let mut refused = 0;
    for at in (4..whole.len()).step_by(41) {
        let mut altered = whole.clone();
        altered[at] ^= 0x55;
        std::fs::write(&path, &altered).unwrap();
        refused += usize::from(read_all().is_err());
    }
    std::panic::set_hook(hook);
    assert!(refused > 10, "{refused}");
}
