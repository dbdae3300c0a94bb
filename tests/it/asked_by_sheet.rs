//! What a user of a campaign book is told and asked: by sheets and columns, of wells that stayed dry, of columns that stand beside a
//! field, of names that are one; and repairs that settle what a remark put in doubt.

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::filling::{Typed, filled, table};
use crate::running::{Row, folder, heads, place, rows, run};

/// Answers to a form, as a campaign's own people put its questions.
const FORM: &str = "Well ID,Visitor initials,What kind is it?,How many feet is it to the bottom?,How many inches across inside?,\
    How many feet down is the water?,Was that from the ground or from the top of the pipe?,Depot,Owner,Road,Flooded,Notes\n\
    Q1,AB,pole thin as an arm (drilled),120,6,30,Ground,oldmill,Orla Finch,Mill Rd,no,\n\
    Q2,CD,pole thin as an arm (drilled),40,6,30,Top of pipe,old mill,Ned Rush,Mill Rd,no,\n\
    Q3,AB,pole thin as an arm (drilled),41,6,30,Top of pipe,old mill,Ida Marsh,Gate Rd,,\n\
    Q4,AB,pole thin as an arm (drilled),150,6,20,Ground,old mill,Joe Sand,Gate Rd,over the top,\n\
    Q5,CD,\"drilled, cased\",133,6,,Ground,old mill,Kit Vale,Gate Rd,no,\n\
    Q6,CD,drilled,118,6,41,Ground,old mill,Lou Hart,Gate Rd,yes,\"plate says 160 deep, static 41\"\n\
    Q7,CD,drilled,118,6,41,Ground,old mill,Max Dell,Gate Rd,yes,\"pump could not be turned off, water was moving\"\n";

struct Form {
    folder: TempDir,
    book: PathBuf,
}

impl Form {
    fn new(list: &str) -> Self {
        let folder = folder();
        let list = place(folder.path(), "form.csv", list).display().to_string();
        let book = folder.path().join("book.xlsx");
        run(&["start", &list, "--out", &book.display().to_string(), "--units", "us"]).ended(0);
        Self { folder, book }
    }

    fn check(&self, book: &Path) -> String {
        let said = run(&["check", &book.display().to_string(), "--all"]);
        assert_eq!(said.code, 1, "{}", said.err);
        said.out.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    fn plan(&self, book: &Path) -> PathBuf {
        let out = self.folder.path().join(format!("{}-plan", book.file_stem().unwrap().display()));
        let said = run(&["plan", &book.display().to_string(), "--out", &out.display().to_string()]);
        assert!(said.code <= 1, "{}", said.err);
        out
    }
}

fn line<'a>(rows: &'a [Vec<String>], at: usize, text: &str) -> &'a [String] {
    rows.iter().find(|row| row.get(at).is_some_and(|cell| cell == text)).unwrap_or_else(|| panic!("{text}: {rows:#?}"))
}

fn visit<'a>(rows: &'a [Row], well: &str) -> &'a Row {
    rows.iter().find(|row| row["well_id"] == well).unwrap()
}

#[test]
fn a_check_of_a_book_speaks_of_its_sheets() {
    let form = Form::new(FORM);
    let said = form.check(&form.book);
    for key in ["[inventory", "[missing", "[[", "from_list", "TYPE", "scenario file", "stick_up"] {
        assert!(!said.contains(key), "{key}: {said}");
    }
    for words in [
        "sheet Missing, a row with static water level",
        "1 is called not flooded",
        "To leave dry wells out: sheet Exceptions, Flooded no, Leave out yes.",
        // No column is read as the height of the pipe: that comes first.
        "no column of this list is read as stick up",
        "say so, sheet Columns, the row of its heading, Read as: stick up",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let start = table(&form.book, "Start here");
    let exceptions = line(&start, 2, "Exceptions");
    assert!(
        exceptions[3].contains("not flooded by the lists") && exceptions[3].contains("Leave out yes"),
        "{exceptions:?}"
    );
    // Without a book the same is said by lines of a file.
    let list = form.folder.path().join("form.csv").display().to_string();
    let said = run(&["check", &list, "--units", "us"]).out;
    assert!(said.contains("[[override]] where = \"NOT flooded\", exclude = true"), "{said}");
}

#[test]
fn dry_wells_are_counted_once_and_left_out_by_an_exception() {
    let form = Form::new(FORM);
    let summary = format!("{:?}", table(&form.plan(&form.book).join("campaign.xlsx"), "Summary"));
    assert!(summary.contains("1 of 2 planned wells is not flooded by the lists"), "{summary}");
    let exceptions = table(&form.book, "Exceptions");
    let head = exceptions.iter().position(|row| row[0] == "Wells").unwrap();
    let cell = |title: &str| {
        let column = exceptions[head].iter().position(|cell| cell == title).unwrap();
        format!("{}{}", char::from(b'A' + column as u8), head + 2)
    };
    let [flooded, out, reason] = ["Flooded", "Leave out", "Reason"].map(cell);
    let book = form.folder.path().join("dry.xlsx");
    let text = Typed::Text;
    filled(
        &form.book,
        &book,
        &[
            ("Exceptions", &flooded, text("no")),
            ("Exceptions", &out, text("yes")),
            ("Exceptions", &reason, text("dry")),
        ],
    );
    let said = form.check(&book);
    assert!(said.contains("excluded by the sheet Exceptions") && !said.contains("called not flooded"), "{said}");
}

#[test]
fn the_sheet_of_columns_says_what_each_column_is_for() {
    let form = Form::new(FORM);
    let columns = table(&form.book, "Columns");
    let of = |heading: &str| line(&columns, 2, heading).to_vec();
    let beside = of("Was that from the ground or from the top of the pipe?");
    assert!(beside[9].contains("tells from where each static water level is counted"), "{beside:?}");
    assert_eq!(of("Visitor initials")[6], "", "whoever visits is no visit");
    for (heading, unit) in [("How many feet is it to the bottom?", "ft"), ("How many inches across inside?", "in")] {
        let row = of(heading);
        assert!(row[7] == unit && !row[9].contains("gives no unit"), "{row:?}");
    }
    // What somebody says stands there as said.
    let at = columns.iter().position(|row| row.get(2).is_some_and(|cell| cell == "Road")).unwrap() + 1;
    let book = form.folder.path().join("answered.xlsx");
    filled(&form.book, &book, &[("Columns", &format!("K{at}"), Typed::Text("region"))]);
    run(&["start", &book.display().to_string(), "--update"]).ended(0);
    let answered = table(&book, "Columns");
    let road = line(&answered, 2, "Road");
    assert_eq!((road[6].as_str(), road[9].as_str()), ("region", "you said so in the column Read as"));
    // Two spellings that are one name are told, and wait for nothing.
    let names = table(&form.book, "Names");
    let folded = line(&names, 3, "oldmill");
    assert_eq!((folded[4].as_str(), folded[5].as_str()), ("old mill", ""));
    let start = table(&form.book, "Start here");
    assert_eq!(line(&start, 2, "Names")[3], "1 spelling is counted as another name");
    assert!(format!("{:?}", table(&form.book, "Packages and prices")).contains("a whole number such as 12"));
}

#[test]
fn what_was_read_is_not_called_not_understood() {
    let form = Form::new(FORM);
    let planned = form.plan(&form.book);
    assert!(heads(&planned.join("visits.csv")).iter().any(|head| head == "not_understood"));
    for row in rows(&planned.join("visits.csv")) {
        assert_eq!(row["not_understood"], "", "{}", row["well_id"]);
    }
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),route,flooded\n\
                A,drilled,180,40,6 steel (bent [north side]),gravel lane ditch,over the cap\n\
                B,\"drilled, cased\",180,one and a half ft,6 (locked lid),field behind shed,yes\n";
    let form = Form::new(list);
    let rows = rows(&form.plan(&form.book).join("visits.csv"));
    assert_eq!(visit(&rows, "A")["not_understood"], "diameter (in): bent [north side]");
    assert_eq!(visit(&rows, "B")["not_understood"], "diameter (in): locked lid; route: behind shed");
}

#[test]
fn a_repair_settles_what_a_remark_put_in_doubt() {
    let form = Form::new(FORM);
    let said = form.check(&form.book);
    assert!(said.contains("sets another number against"), "{said}");
    // A pump that could not be turned off makes a pumping level.
    assert!(said.contains("the level was taken while the pump ran"), "{said}");
    let repairs = table(&form.book, "Repairs");
    let head = repairs.iter().position(|row| row[0] == "Severity").unwrap();
    let spare = (head + 1..repairs.len()).find(|at| repairs[*at].iter().all(String::is_empty)).unwrap_or(repairs.len());
    let mut cells: Vec<(String, Typed<'_>)> = Vec::new();
    // The depth that the plate gives, another that neither has; and the level at rest.
    for (at, (row, column, value)) in [(7, "D", "160"), (8, "F", "38")].into_iter().enumerate() {
        let line = spare + at + 1;
        cells.push((format!("B{line}"), Typed::Text("form.csv")));
        cells.push((format!("D{line}"), Typed::Number(f64::from(row))));
        cells.push((format!("E{line}"), Typed::Text(column)));
        cells.push((format!("M{line}"), Typed::Text(value)));
    }
    let cells: Vec<(&str, &str, Typed<'_>)> =
        cells.iter().map(|(cell, typed)| ("Repairs", cell.as_str(), *typed)).collect();
    let book = form.folder.path().join("repaired.xlsx");
    filled(&form.book, &book, &cells);
    let visits = rows(&form.plan(&book).join("visits.csv"));
    for well in ["Q6", "Q7"] {
        assert_eq!(visit(&visits, well)["outcome"], "planned", "{well}: {}", visit(&visits, well)["reasons"]);
    }
    // Equal numbers are no conflict, repaired or not.
    let agreed = FORM.replace("drilled,118,6,41,Ground,old mill,Lou", "drilled,160,6,41,Ground,old mill,Lou");
    let form = Form::new(&agreed);
    let said = form.check(&form.book);
    assert!(!said.contains("sets another number") && !said.contains("plate says"), "{said}");
}

#[test]
fn what_is_written_on_the_line_of_a_remark_is_the_measure_and_the_remark_stays() {
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),notes\n\
                A,drilled,80?,60,6,\"Card water damaged, depth 80 or 180\"\n\
                B,drilled,150,42,6,\"level taken with the pump running\"\n\
                C,drilled,155,40,6,\n";
    let form = Form::new(list);
    let repairs = table(&form.book, "Repairs");
    let line = |row: &str, column: &str| {
        let found = repairs.iter().position(|line| line[3] == row && line[4] == column);
        found.unwrap_or_else(|| panic!("{row}, {column}: {repairs:#?}")) + 1
    };
    let cells = [(line("2", "C"), "180 ft"), (line("3", "D"), "30")];
    let cells: Vec<(String, Typed<'_>)> =
        cells.iter().map(|(line, value)| (format!("M{line}"), Typed::Text(value))).collect();
    let cells: Vec<(&str, &str, Typed<'_>)> =
        cells.iter().map(|(cell, typed)| ("Repairs", cell.as_str(), *typed)).collect();
    let book = form.folder.path().join("repaired.xlsx");
    filled(&form.book, &book, &cells);
    let plan = form.plan(&book);
    let (visits, treatments) = (rows(&plan.join("visits.csv")), rows(&plan.join("treatments.csv")));
    for well in ["A", "B"] {
        let treated = treatments.iter().find(|row| row["well_id"] == well).unwrap();
        let visit = visit(&visits, well);
        assert_eq!(visit["outcome"], "planned", "{well}: {}", visit["reasons"]);
        // 120 ft of water in a bore of 6 in.
        let liters: f64 = treated["standing_volume_l"].parse().unwrap();
        assert!((liters / 667.19 - 1.0).abs() < 1e-3, "{well}: {liters} L");
        assert!(visit["notes"].len() > 10, "{well}");
    }
}

#[test]
fn the_crew_list_says_whose_well_it_is() {
    let form = Form::new(FORM);
    let crew = table(&form.plan(&form.book).join("campaign.xlsx"), "Crew");
    let head = crew.iter().position(|row| row.get(1).is_some_and(|cell| cell == "Well")).unwrap();
    assert_eq!(crew[head][2], "Owner, place");
    assert!(crew[head..].iter().any(|row| row[1] == "Q1" && row[2] == "Orla Finch, Mill Rd"), "{crew:#?}");
}

#[test]
fn a_product_that_is_gone_is_named_and_no_column() {
    let form = Form::new(FORM);
    let book = form.folder.path().join("gone.xlsx");
    filled(&form.book, &book, &[("Scenarios", "B4", Typed::Text("liquid 12"))]);
    let said =
        run(&["plan", &book.display().to_string(), "--out", &form.folder.path().join("never").display().to_string()]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("no product \"liquid 12\"") && !said.err.contains("added at least"), "{}", said.err);
}
