//! Findings as a workbook to be filled in, and what the filled-in values do to the next run.

use std::path::{Path, PathBuf};

use calamine::Data;
use rust_xlsxwriter::Workbook;

use crate::running::{contents, folder, place, rows, run, sheets};

const LIST: &str = "well_id,well_type,depth (ft),static water level (ft),casing diameter (in),route\n\
                    001,drilled,180,40,6,land\n\
                    002,cistern,60,20,36,land\n\
                    003,drilled,42,57.3,6,land\n\
                    004,drilled,150,30,,land\n\
                    005,dug,30,10,600,stream\n\
                    006,drilled,150\n";

const SCENARIOS: &str = r#"
[campaign]
units = "us"

[inventory.columns]
route = "discharge_route"

[[product]]
name     = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
age_days = 60
storage  = "20 C"
"#;

struct Case {
    folder: tempfile::TempDir,
    list: PathBuf,
    scenarios: PathBuf,
}

fn case() -> Case {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", LIST);
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    Case { folder, list, scenarios }
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

impl Case {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The table of corrections as the command writes it: headings first.
    fn written(&self) -> Vec<Vec<String>> {
        let out = self.path("blank-corrections.xlsx");
        let answer =
            run(&["check", text(&self.list), "--scenarios", text(&self.scenarios), "--corrections-out", text(&out)])
                .ended(1);
        assert!(answer.err.contains("fill in Right value"), "{}", answer.err);
        let (name, rows) = sheets(&out).remove(0);
        assert_eq!(name, "Corrections");
        rows.into_iter()
            .skip_while(|row| row[0] != Data::String("Severity".into()))
            .map(|row| row.iter().map(ToString::to_string).collect())
            .collect()
    }

    /// Runs with this table of corrections and returns outcome by well, and the folder of outputs.
    fn plan(&self, corrections: &Path, code: i32) -> (Vec<(String, String)>, PathBuf) {
        let out = self.path(&format!("out-{}", corrections.file_name().unwrap().to_string_lossy()));
        run(&[
            "plan",
            text(&self.list),
            "--scenarios",
            text(&self.scenarios),
            "--out",
            text(&out),
            "--corrections",
            text(corrections),
        ])
        .ended(code);
        let rows = rows(&out.join("treatments.csv"));
        (rows.iter().map(|row| (row["well_id"].clone(), row["outcome"].clone())).collect(), out)
    }
}

fn column(table: &[Vec<String>], heading: &str) -> usize {
    table[0].iter().position(|head| head == heading).unwrap()
}

/// Fills in right values: well, field, value.
fn fill(table: &mut [Vec<String>], values: &[(&str, &str, &str)]) {
    let [well, field, right, who] = ["Well", "Field", "Right value", "Who and when"].map(|head| column(table, head));
    for (of, name, value) in values {
        let row = table.iter_mut().find(|row| row[well] == *of && row[field] == *name);
        let row = row.unwrap_or_else(|| panic!("no row for {of} {name}"));
        row[right] = (*value).to_owned();
        row[who] = "J. Smith, 3 May".to_owned();
    }
}

fn save_csv(path: &Path, table: &[Vec<String>]) {
    let mut writer = csv::Writer::from_path(path).unwrap();
    table.iter().for_each(|row| writer.write_record(row).unwrap());
    writer.flush().unwrap();
}

fn save_workbook(path: &Path, table: &[Vec<String>]) {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (at, row) in table.iter().enumerate() {
        for (column, cell) in row.iter().enumerate() {
            // As a person would leave it: what looks like a number has become one.
            match cell.parse::<f64>() {
                Ok(number) if !cell.starts_with('0') => sheet.write_number(at as u32, column as u16, number).unwrap(),
                _ => sheet.write_string(at as u32, column as u16, cell).unwrap(),
            };
        }
    }
    book.save(path).unwrap();
}

const RIGHT: [(&str, &str, &str); 5] = [
    ("002", "well_type", "dug"),
    ("003", "static_water_level", "27.3"),
    ("004", "casing_diameter", "6 1/4 in"),
    ("005", "casing_diameter", "600 mm"),
    ("006", "casing_diameter", "6"),
];

#[test]
fn findings_go_out_as_work() {
    let case = case();
    let table = case.written();
    let [well, row, letters, typed, field, suggested] =
        ["Well", "Row", "Column", "As typed", "Field", "Suggested value"].map(|head| column(&table, head));
    let of = |id: &str, name: &str| {
        let row = table.iter().find(|row| row[well] == id && row[field] == name);
        row.unwrap_or_else(|| panic!("no row for {id} {name} in {table:#?}"))
    };
    assert_eq!(of("002", "well_type")[typed], "cistern");
    let diameter = of("005", "casing_diameter");
    assert_eq!((&*diameter[row], &*diameter[letters], &*diameter[suggested]), ("6", "E", "600 mm"));
    // A blank cell has a place as well.
    assert_eq!((&*of("004", "casing_diameter")[letters], &*of("004", "casing_diameter")[typed]), ("E", ""));
    // One row a cell, however many findings.
    let mut cells: Vec<_> = table.iter().map(|line| (&line[row], &line[letters], &line[well])).collect();
    let all = cells.len();
    cells.sort();
    cells.dedup();
    assert_eq!(cells.len(), all);
}

/// The unit of a heading is asked for where it was only guessed, and taken when the heading is corrected.
#[test]
fn a_guessed_unit_comes_with_a_heading_to_confirm() {
    let mut case = case();
    case.list =
        place(case.folder.path(), "wells.csv", "well_id,well_type,depth,swl (ft),diameter (in)\nW1,drilled,,40,6\n");
    let table = case.written();
    let [typed, suggested] = ["As typed", "Suggested value"].map(|head| column(&table, head));
    let heading = table.iter().find(|line| line[typed] == "depth").unwrap();
    assert_eq!(heading[suggested], "depth (ft)");
}

#[test]
fn right_values_are_read_instead_of_what_was_typed() {
    let case = case();
    let mut table = case.written();
    fill(&mut table, &RIGHT);
    fill(&mut table, &[("006", "static_water_level", "30")]);
    save_csv(&case.path("filled.csv"), &table);
    save_workbook(&case.path("filled.xlsx"), &table);
    let (outcomes, out) = case.plan(&case.path("filled.csv"), 0);
    assert!(outcomes.iter().all(|(_, outcome)| outcome == "planned"), "{outcomes:?}");
    assert_eq!(std::fs::read_to_string(&case.list).unwrap(), LIST, "the list is never touched");

    // The same as if the list had been corrected by hand.
    let by_hand = LIST
        .replace("cistern", "dug")
        .replace("57.3", "27.3")
        .replace("004,drilled,150,30,,", "004,drilled,150,30,6 1/4 in,")
        .replace("10,600", "10,600 mm")
        .replace("006,drilled,150\n", "006,drilled,150,30,6\n");
    let other = folder();
    let list = place(other.path(), "wells.csv", by_hand);
    let to = other.path().join("out");
    run(&["plan", text(&list), "--scenarios", text(&case.scenarios), "--out", text(&to)]).ended(0);
    for name in ["treatments.csv", "totals.csv", "orders.csv"] {
        assert_eq!(std::fs::read(to.join(name)).unwrap(), std::fs::read(out.join(name)).unwrap(), "{name}");
    }

    // A spreadsheet program in between makes no difference.
    let (_, from_workbook) = case.plan(&case.path("filled.xlsx"), 0);
    assert_eq!(
        std::fs::read(out.join("treatments.csv")).unwrap(),
        std::fs::read(from_workbook.join("treatments.csv")).unwrap()
    );

    // What was changed is on record.
    let record: serde_json::Value = serde_json::from_slice(&std::fs::read(out.join("run.json")).unwrap()).unwrap();
    let applied = record["corrections"]["applied"].as_array().unwrap();
    assert_eq!(applied.len(), 6);
    assert_eq!(record["corrections"]["file"]["file"], "filled.csv");
    let level = applied.iter().find(|entry| entry["typed"] == "57.3").unwrap();
    assert_eq!((&level["place"], &level["corrected"]), (&"wells.csv:4:4".into(), &"27.3".into()));
    let sheets = sheets(&out.join("campaign.xlsx"));
    let at = sheets.iter().position(|(name, _)| name == "Corrections").unwrap();
    assert_eq!(sheets[at - 1].0, "Assumptions");
    let cells: Vec<String> = sheets[at].1.iter().flatten().map(ToString::to_string).collect();
    assert!(cells.iter().any(|cell| cell == "J. Smith, 3 May") && cells.iter().any(|cell| cell == "cistern"));
}

#[test]
fn corrections_that_match_nothing_are_findings() {
    let case = case();
    let mut table = case.written();
    let typed = column(&table, "As typed");
    let [well, row, file, right] = ["Well", "Row", "File", "Right value"].map(|head| column(&table, head));
    fill(&mut table, &RIGHT);
    for line in &mut table[1..] {
        match (line[well].as_str(), line[right].is_empty()) {
            ("003", false) => line[typed] = "75".to_owned(),
            ("004", false) => line[row] = "93".to_owned(),
            ("005", false) => line[file] = "others.csv".to_owned(),
            _ => {}
        }
    }
    // A second opinion about one cell.
    let mut second = table.iter().find(|line| line[well] == "002" && !line[right].is_empty()).unwrap().clone();
    second[right] = "bored".to_owned();
    table.push(second);
    let path = case.path("partly.csv");
    save_csv(&path, &table);
    let (outcomes, out) = case.plan(&path, 1);
    let planned: Vec<&str> =
        outcomes.iter().filter(|(_, outcome)| outcome == "planned").map(|(id, _)| id.as_str()).collect();
    assert_eq!(planned, ["001", "002"]);
    let findings = rows(&out.join("findings.csv"));
    let said: Vec<(&str, &str, &str)> = findings
        .iter()
        .filter(|finding| finding["code"].as_str() == "F115" || finding["code"].as_str() == "F116")
        .map(|finding| (finding["code"].as_str(), finding["row"].as_str(), finding["says"].as_str()))
        .collect();
    let expected = [
        ("F115", "6", "no such list or sheet"),
        ("F115", "3", "another one gives this cell another value"),
        ("F116", "4", "expects \"75\" here, and the cell holds \"57.3\""),
        ("F115", "93", "the list has no well in row 93"),
    ];
    assert_eq!(said.len(), expected.len(), "{said:#?}");
    for (code, row, words) in expected {
        assert!(said.iter().any(|(c, r, says)| (*c, *r) == (code, row) && says.contains(words)), "{words}: {said:#?}");
    }
}

#[test]
fn a_heading_can_be_corrected() {
    let folder = folder();
    let list =
        place(folder.path(), "wells.csv", "well_id,well_type,depth,swl (ft),diameter (in)\nW1,drilled,54,40,6\n");
    let corrections = place(
        folder.path(),
        "corrections.csv",
        "File,Sheet,Row,Column,As typed,Right value\nwells.csv,,1,C,depth,depth (m)\n",
    );
    let answer = run(&["check", text(&list), "--corrections", text(&corrections)]).ended(0);
    assert!(answer.out.contains("depth (m)") && answer.out.contains("total_depth (m)"), "{}", answer.out);
}

#[test]
fn a_file_that_is_no_table_of_corrections_is_refused() {
    let case = case();
    let answer =
        run(&["check", text(&case.list), "--scenarios", text(&case.scenarios), "--corrections", text(&case.list)])
            .ended(2);
    assert!(answer.err.contains("it is no table of corrections"), "{}", answer.err);
    let taken = place(case.folder.path(), "taken.xlsx", "mine");
    let answer =
        run(&["check", text(&case.list), "--scenarios", text(&case.scenarios), "--corrections-out", text(&taken)])
            .ended(2);
    assert!(answer.err.contains("it is there already") && answer.out.is_empty(), "{}", answer.err);
}

/// Whatever the batches and threads: the same bytes.
#[test]
fn corrections_are_the_same_on_any_number_of_threads() {
    let case = case();
    let mut table = case.written();
    fill(&mut table, &RIGHT);
    let path = case.path("filled.csv");
    save_csv(&path, &table);
    let runs: Vec<_> = ["1", "2", "5"]
        .into_iter()
        .map(|threads| {
            let out = case.path(&format!("threads-{threads}"));
            run(&[
                "plan",
                text(&case.list),
                "--scenarios",
                text(&case.scenarios),
                "--corrections",
                text(&path),
                "--threads",
                threads,
                "--out",
                text(&out),
            ])
            .ended(1);
            contents(&out)
        })
        .collect();
    assert!(runs[0] == runs[1] && runs[0] == runs[2]);
}
