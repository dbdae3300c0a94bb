//! Findings as a workbook to be filled in, and what the filled-in values do to the next run.

use std::path::{Path, PathBuf};

use calamine::Data;
use rust_xlsxwriter::Workbook;

use crate::reading::fixtures;
use crate::running::{contents, folder, number, place, rows, run, sheets};

const LIST: &str = "well_id,well_type,depth (ft),static water level (ft),casing diameter (in),route\n\
                    001,drilled,180,40,6,land\n\
                    002,gallery,60,20,36,land\n\
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
        // A workbook that is there is never written over.
        let _ = std::fs::remove_file(&out);
        let answer =
            run(&["check", text(&self.list), "--scenarios", text(&self.scenarios), "--corrections-out", text(&out)]);
        assert!(answer.code <= 1, "{}", answer.err);
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
    assert_eq!(of("002", "well_type")[typed], "gallery");
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
        .replace("gallery", "dug")
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

    // The chain behind one well is that of the corrected row; without them it is held back.
    let explain = ["explain", text(&case.list), "--scenarios", text(&case.scenarios), "--well", "003"];
    let chain = run(&[&explain[..], &["--corrections", text(&case.path("filled.csv"))]].concat()).ended(0).out;
    assert!(chain.contains("27.3") && !chain.contains("Held back"), "{chain}");
    assert!(run(&explain).ended(0).out.contains("Held back: no amount is computed"));

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
    assert!(cells.iter().any(|cell| cell == "J. Smith, 3 May") && cells.iter().any(|cell| cell == "gallery"));
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
        ("F115", "93", "the list has no cells in row 93"),
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
    let answer = run(&["check", text(&list), "--corrections", text(&corrections), "--all"]).ended(0);
    assert!(answer.out.contains("depth (m)") && answer.out.contains("total_depth (m)"), "{}", answer.out);
}

#[test]
fn a_file_that_is_no_table_of_corrections_is_refused() {
    let case = case();
    let answer =
        run(&["check", text(&case.list), "--scenarios", text(&case.scenarios), "--corrections", text(&case.list)])
            .ended(2);
    assert!(answer.err.contains("it is not a table of corrections"), "{}", answer.err);
    let taken = place(case.folder.path(), "taken.xlsx", "mine");
    let answer =
        run(&["check", text(&case.list), "--scenarios", text(&case.scenarios), "--corrections-out", text(&taken)])
            .ended(2);
    assert!(answer.err.contains("the file already exists") && answer.out.is_empty(), "{}", answer.err);
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

/// The unit that was meant is looked for among the list's own first. Common practice, no source.
#[test]
fn a_suggested_unit_is_of_the_lists_own_kind() {
    let mut case = case();
    for (units, diameter, meant) in
        [("(m),swl (m),diameter (mm)", "1.2", "1.2 m"), ("(ft),swl (ft),diameter (in)", "3", "3 ft")]
    {
        let list = format!("well_id,well_type,depth {units}\nW1,dug,20,8,{diameter}\nW2,gallery,20,8,36\n");
        case.list = place(case.folder.path(), "wells.csv", list);
        let table = case.written();
        let [well, suggested, field] = ["Well", "Suggested value", "Field"].map(|head| column(&table, head));
        let row = table.iter().find(|row| row[well] == "W1" && row[field] == "casing_diameter").unwrap();
        assert_eq!(row[suggested], meant);
    }
}

/// What a spreadsheet program gives back, rows sorted, rows deleted, saved as OpenDocument or CSV (`fixtures/corrections`), is
/// the same as what went out.
#[test]
fn saved_by_a_spreadsheet_program_it_is_the_same() {
    let case = case();
    let mut table = case.written();
    fill(&mut table, &RIGHT);
    fill(&mut table, &[("006", "static_water_level", "30")]);
    save_csv(&case.path("filled.csv"), &table);
    let (_, out) = case.plan(&case.path("filled.csv"), 0);
    let wanted = std::fs::read(out.join("treatments.csv")).unwrap();
    for name in ["sorted-and-trimmed.ods", "saved-as.csv"] {
        let (_, out) = case.plan(&fixtures("corrections").join(name), 0);
        assert!(std::fs::read(out.join("treatments.csv")).unwrap() == wanted, "{name}");
        let record: serde_json::Value = serde_json::from_slice(&std::fs::read(out.join("run.json")).unwrap()).unwrap();
        let applied = record["corrections"]["applied"].as_array().unwrap();
        assert_eq!(applied.len(), 6, "{name}");
        assert!(applied.iter().all(|entry| entry["who"] == "J. Doe, 3 May"), "{name}: {applied:?}");
    }
}

/// Numbers typed as text, with the column's unit, with another, with blanks around: as in the cells of a list.
#[test]
fn a_right_value_is_read_as_a_cell_is() {
    let case = case();
    for (typed, inches) in [("6", 6.0), (" 6.0 ", 6.0), ("6 in", 6.0), ("6\"", 6.0), ("0.5 ft", 6.0), ("152.4 mm", 6.0)]
    {
        let mut table = case.written();
        fill(&mut table, &[("004", "casing_diameter", typed)]);
        let path = case.path("filled.csv");
        save_csv(&path, &table);
        let (outcomes, out) = case.plan(&path, 1);
        assert!(outcomes.contains(&("004".to_owned(), "planned".to_owned())), "{typed}: {outcomes:?}");
        let row = rows(&out.join("treatments.csv")).into_iter().find(|row| row["well_id"] == "004").unwrap();
        let volume = std::f64::consts::FRAC_PI_4 * (inches * 0.0254_f64).powi(2) * 120.0 * 0.3048 * 1000.0;
        assert!((number(&row, "standing_volume_l") / volume - 1.0).abs() < 1e-9, "{typed}");
        std::fs::remove_dir_all(out).unwrap();
    }
    // What cannot be read as a cell holds the row back as a cell would, and shows what was written.
    let mut table = case.written();
    fill(&mut table, &[("004", "casing_diameter", "wide")]);
    let path = case.path("filled.csv");
    save_csv(&path, &table);
    let (_, out) = case.plan(&path, 1);
    let findings = rows(&out.join("findings.csv"));
    assert!(findings.iter().any(|finding| finding["code"] == "C101" && finding["as_typed"] == "wide"), "{findings:#?}");
}

/// Rows on which somebody only noted something correct nothing, and the command says so.
#[test]
fn a_remark_alone_corrects_nothing() {
    let case = case();
    let mut table = case.written();
    let who = column(&table, "Who and when");
    table[1..].iter_mut().for_each(|row| row[who] = "looked at, J. Doe".to_owned());
    let path = case.path("remarks.csv");
    save_csv(&path, &table);
    let check = |corrections: &Path| {
        let arguments =
            ["check", text(&case.list), "--scenarios", text(&case.scenarios), "--corrections", text(corrections)];
        run(&arguments).ended(1)
    };
    let answer = check(&path);
    assert!(
        answer.err.ends_with("remarks.csv: no Right value is filled in, and nothing is corrected\n"),
        "{}",
        answer.err
    );
    assert!(!answer.out.contains("F115") && !answer.out.contains("F116"), "{}", answer.out);
    fill(&mut table, &[("002", "well_type", "dug"), ("004", "casing_diameter", "6")]);
    let typed = column(&table, "As typed");
    table.iter_mut().filter(|row| row[typed] == "gallery").for_each(|row| row[typed] = "tank".to_owned());
    save_csv(&path, &table);
    let answer = check(&path);
    assert!(answer.err.ends_with("remarks.csv: 1 of 2 corrections applied\n"), "{}", answer.err);
}

/// A cell that the scenario file fills is blank in the list, and is corrected as a blank one.
#[test]
fn a_cell_filled_by_the_scenario_file_can_be_corrected() {
    let mut case = case();
    let fixed = format!("{SCENARIOS}[inventory.fixed]\ncasing_diameter = \"6 in\"\n");
    case.scenarios = place(case.folder.path(), "fixed.toml", fixed);
    case.list = place(
        case.folder.path(),
        "wells.csv",
        "well_id,well_type,depth (ft),static water level (ft),casing diameter (in),route\nD1,dug,30,10,,land\nD2,hole,30,10,,land\n",
    );
    let mut table = case.written();
    let [well, field, typed] = ["Well", "Field", "As typed"].map(|head| column(&table, head));
    // Six inches are no dug well's: the cell is asked for, and it is blank.
    let row = table.iter().find(|row| row[well] == "D1" && row[field] == "casing_diameter").unwrap();
    assert_eq!(row[typed], "");
    fill(&mut table, &[("D1", "casing_diameter", "36"), ("D2", "well_type", "dug")]);
    let path = case.path("filled.csv");
    save_csv(&path, &table);
    let (outcomes, out) = case.plan(&path, 0);
    assert_eq!(outcomes.len(), 2);
    let findings = rows(&out.join("findings.csv"));
    assert!(!findings.iter().any(|finding| finding["code"] == "F116"), "{findings:#?}");
    let treatments = rows(&out.join("treatments.csv"));
    let litres = |id: &str| number(treatments.iter().find(|row| row["well_id"] == id).unwrap(), "standing_volume_l");
    // Six times the diameter, 36 times the water; the other well keeps the fixed six inches.
    assert!((litres("D1") / litres("D2") - 36.0).abs() < 1e-9, "{treatments:#?}");
}

/// A table of casing intervals is corrected like a list: blank, wrong and unreadable cells, and a guessed heading.
#[test]
fn casing_intervals_can_be_corrected() {
    let mut case = case();
    let head = "well_id,well_type,depth (ft),static water level (ft),route";
    let wells = format!(
        "{head}\nW1,drilled,180,40,land\nW2,drilled,100,20,land\nW3,drilled,90,20,land\nW4,drilled,80,20,land\n"
    );
    let casings = "well_id,from (ft),to (ft),diameter (in)\nW1,0,180,6\nW2,0,100,\nW3,40,20,6\nW4,0,80,wide\n";
    let lists = case.path("lists");
    std::fs::create_dir(&lists).unwrap();
    place(&lists, "wells.csv", wells);
    place(&lists, "casings.csv", casings);
    case.list = lists;
    let mut table = case.written();
    let [file, row, letters, typed, right] =
        ["File", "Row", "Column", "As typed", "Right value"].map(|head| column(&table, head));
    let mut mend = |at: (&str, &str, &str), value: &str| {
        let wanted = |line: &&mut Vec<String>| {
            line[file] == "casings.csv" && (&*line[row], &*line[letters], &*line[typed]) == at
        };
        let found = table.iter_mut().filter(wanted).map(|line| line[right] = value.to_owned()).count();
        assert!(found > 0, "nothing about {at:?}");
    };
    mend(("3", "D", ""), "6 1/4");
    mend(("4", "C", "20"), "90");
    mend(("5", "D", "wide"), "150 mm");
    let path = case.path("filled.csv");
    save_csv(&path, &table);
    let (outcomes, out) = case.plan(&path, 0);
    assert_eq!(outcomes.len(), 4);

    // The same as if the table had been corrected by hand.
    let by_hand = casings.replace("100,\n", "100,6 1/4\n").replace("40,20,6", "40,90,6").replace("wide", "150 mm");
    place(&case.list, "casings.csv", by_hand);
    let to = case.path("by-hand");
    run(&["plan", text(&case.list), "--scenarios", text(&case.scenarios), "--out", text(&to)]).ended(0);
    assert_eq!(std::fs::read(to.join("treatments.csv")).unwrap(), std::fs::read(out.join("treatments.csv")).unwrap());
    place(&case.list, "casings.csv", casings);

    // A cell that is not there is a finding as in any list.
    table.iter_mut().filter(|line| line[file] == "casings.csv").for_each(|line| line[row] = "44".to_owned());
    save_csv(&path, &table);
    let (_, out) = case.plan(&path, 1);
    let findings = rows(&out.join("findings.csv"));
    let unmatched = findings.iter().filter(|finding| finding["code"] == "F115" && finding["file"] == "casings.csv");
    assert!(unmatched.count() >= 3, "{findings:#?}");
}

/// An interval with a cell that cannot be read is left out altogether, and asked for once.
#[test]
fn an_interval_that_cannot_be_read_is_left_out() {
    let mut case = case();
    let lists = case.path("lists");
    std::fs::create_dir(&lists).unwrap();
    place(&lists, "wells.csv", "well_id,well_type,depth (ft),static water level (ft),route\nW1,drilled,180,40,land\n");
    place(&lists, "casings.csv", "well_id,from (ft),to (ft),diameter (in)\nW1,top,180,6\n");
    case.list = lists;
    let table = case.written();
    let [file, letters, typed, wrong] =
        ["File", "Column", "As typed", "What is wrong"].map(|head| column(&table, head));
    let asked: Vec<_> = table.iter().filter(|row| row[file] == "casings.csv").collect();
    assert_eq!(asked.len(), 1, "{asked:?}");
    assert_eq!(
        (&*asked[0][letters], &*asked[0][typed], &*asked[0][wrong]),
        ("B", "top", "there is no number in \"top\"")
    );
    assert!(table.iter().any(|row| row[wrong].contains("the list has no column for the diameter")), "{table:?}");
}

/// The same correction twice, or of a cell that was mended in the list meanwhile: nothing to say.
#[test]
fn what_is_right_already_needs_no_correction() {
    let mut case = case();
    let mut table = case.written();
    fill(&mut table, &RIGHT);
    fill(&mut table, &[("006", "static_water_level", "30")]);
    let again = table[1..].to_vec();
    table.extend(again);
    case.list = place(case.folder.path(), "wells.csv", LIST.replace("gallery", "dug"));
    let path = case.path("twice.csv");
    save_csv(&path, &table);
    let (_, out) = case.plan(&path, 0);
    let findings = rows(&out.join("findings.csv"));
    assert!(!findings.iter().any(|finding| finding["code"].starts_with("F11")), "{findings:#?}");
    let record: serde_json::Value = serde_json::from_slice(&std::fs::read(out.join("run.json")).unwrap()).unwrap();
    assert_eq!(record["corrections"]["applied"].as_array().unwrap().len(), 5);
}
