//! What a campaign book asks and takes in words: exceptions without a condition to be written, what lists lack with what their own
//! wells have, fields and meanings without the keys of a scenario file.

use std::path::{Path, PathBuf};

use crate::filling::{Typed, filled, metric_book, table};
use crate::running::{number, rows, run, run_in};

const LIST: &str = "Well ID,Region,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Flooded,Kind of tile\n\
                    001,Low,O'Dell,drilled,40,5,150,yes,\n002,Low,O'Dell,drilled,30,5,,no,\n003,High,Hall,dug,8,2,1200,yes,\n\
                    004,High,Hall,spring box,,,,no,red\n005,High,Hall,drilled,50,5,100,no,\n006,Low,O'Dell,drilled,30,5,150,no,\n";

struct Trial {
    folder: tempfile::TempDir,
    book: PathBuf,
}

impl Trial {
    fn new() -> Self {
        let (folder, book) = metric_book(LIST);
        Self { folder, book }
    }

    fn with(&self, cells: &[(&str, &str, &str)]) -> String {
        let cells: Vec<_> = cells.iter().map(|(sheet, cell, typed)| (*sheet, *cell, Typed::Text(typed))).collect();
        let to = self.folder.path().join("filled.xlsx");
        filled(&self.book, &to, &cells);
        to.display().to_string()
    }
}

#[test]
fn exceptions_are_said_in_columns() {
    let trial = Trial::new();
    let heads = table(&trial.book, "Exceptions").into_iter().find(|row| row[0] == "Wells").unwrap();
    assert_eq!(heads[..6], ["Wells", "Type of well", "Depot", "Region", "Flooded", "Other condition"]);
    let column = |title: &str| {
        let at = heads.iter().position(|head| head.starts_with(title)).unwrap_or_else(|| panic!("{heads:?}"));
        char::from(b'A' + at as u8)
    };
    let cell = |title: &str, row: u32| format!("{}{row}", column(title));
    let (first, second, third) = (6, 7, 8);
    let target = cell("Target", first);
    let cells = [
        ("Exceptions", &*cell("Type of well", first), "Drilled; dug"),
        ("Exceptions", &*cell("Flooded", first), "yes"),
        ("Exceptions", &*target, "200"),
        ("Exceptions", &*cell("Depot", second), "O'Dell"),
        ("Exceptions", &*cell("Other condition", second), "total_depth_m < 35 OR users > 1000"),
        ("Exceptions", &*cell("Target", second), "50"),
        ("Exceptions", &*cell("Wells", third), "005"),
        ("Exceptions", &*cell("Leave out", third), "yes"),
        ("Exceptions", &*cell("Reason", third), "road closed"),
    ];
    let book = trial.with(&cells);
    let to = trial.folder.path().join("said.toml");
    run(&["start", "--from", &book, "--out", &to.display().to_string()]).ended(0);
    let said = std::fs::read_to_string(&to).unwrap();
    for wanted in [
        "where = \"well_type IN ('drilled', 'dug') AND flooded\"",
        "where = \"depot = 'O''Dell' AND (total_depth_m < 35 OR users > 1000)\"",
        "where = \"well_id = '005'\"",
    ] {
        assert!(said.contains(wanted), "{wanted} is not in {said}");
    }
    // Planned as they say, and in the same columns when the book is made anew.
    run_in(trial.folder.path(), &["plan", "filled.xlsx", "--out", "out"]).ended(1);
    let planned = rows(&trial.folder.path().join("out/treatments.csv"));
    let of = |well: &str| planned.iter().find(|row| row["well_id"] == well).unwrap();
    assert_eq!(number(of("001"), "dose_mg_per_l"), 200.0);
    assert_eq!(number(of("003"), "dose_mg_per_l"), 200.0);
    assert_eq!(number(of("006"), "dose_mg_per_l"), 50.0);
    assert_eq!(of("005")["outcome"], "excluded");
    run(&["start", &book, "--update"]).ended(0);
    let again = table(Path::new(&book), "Exceptions");
    let lines: Vec<&[String]> = again
        .iter()
        .filter(|row| row[0] == "005" || row[1].starts_with("dri") || row[2] == "O'Dell")
        .map(|row| &row[..6])
        .collect();
    assert_eq!(lines[0], ["", "drilled; dug", "", "", "yes", ""]);
    assert_eq!(lines[1], ["", "", "O'Dell", "", "", "total_depth_m < 35 OR users > 1000"]);
    assert_eq!(lines[2], ["005", "", "", "", "", ""]);
    // Names that no well has, a type that there is not, and neither yes nor no: each with its cell.
    let wrong = [
        ("Exceptions", "A6", "5"),
        ("Exceptions", "I6", "200"),
        ("Exceptions", "C7", "Hal"),
        ("Exceptions", "I7", "200"),
        ("Exceptions", "B8", "pond"),
        ("Exceptions", "I8", "200"),
        ("Exceptions", "E9", "perhaps"),
        ("Exceptions", "I9", "200"),
    ];
    let said = run(&["check", &trial.with(&wrong)]).ended(2).err;
    for (cell, why) in [
        ("A6", "no well of the lists has the well id \"5\""),
        ("C7", "no well of the lists has the depot \"Hal\"; did you mean \"Hall\"?"),
        ("B8", "\"pond\" is no type of well"),
        ("E9", "\"perhaps\" is neither yes nor no"),
    ] {
        assert!(said.contains(&format!("sheet Exceptions, {cell}: ")) && said.contains(why), "{cell}: {said}");
    }
    assert!(said.ends_with("4 entries to correct; nothing was written\n"), "{said}");
    let said = run(&["check", &trial.with(&[("Exceptions", "I6", "200")])]).ended(2).err;
    assert!(said.contains("this exception needs \"Which wells\""), "{said}");
}

#[test]
fn what_the_lists_lack_is_proposed_with_what_their_own_wells_have() {
    let trial = Trial::new();
    let missing = table(&trial.book, "Missing");
    let of = |kind: &str, field: &str| {
        let row = missing.iter().find(|row| row.len() > 7 && row[0] == kind && row[1] == field);
        row.unwrap_or_else(|| panic!("no {field} of {kind} in {missing:#?}")).clone()
    };
    let diameter = of("drilled", "casing diameter");
    assert_eq!(diameter[6], "1");
    assert!(diameter[7].starts_with("3 wells: 100 to 150 mm"), "{diameter:?}");
    assert_eq!(of("spring box", "water volume")[7], "none that can be planned says");
    // Untouched, a proposal assumes nothing: the wells are held back as before.
    let book = trial.book.display().to_string();
    assert!(run(&["check", &book]).ended(1).out.contains("4 of 6 wells"));
    let row = missing.iter().position(|row| row == &diameter).unwrap() + 1;
    // Three wells are too few to draw from, and said to be.
    assert!(diameter[7].ends_with("too few to be drawn from: write Low, Mid and High"), "{diameter:?}");
    let cells =
        [("D", "100 mm"), ("E", "150 mm"), ("F", "200 mm")].map(|(column, typed)| (format!("{column}{row}"), typed));
    let cells: Vec<_> = cells.iter().map(|(cell, typed)| ("Missing", cell.as_str(), *typed)).collect();
    let said = run(&["check", &trial.with(&cells)]).ended(1).out;
    assert!(said.contains("5 of 6 wells"), "{said}");
}

#[test]
fn fields_and_meanings_are_words_in_the_book_and_keys_in_the_file() {
    let trial = Trial::new();
    let columns = table(&trial.book, "Columns");
    let said = format!("{columns:?}{:?}", table(&trial.book, "Choices"));
    assert!(said.contains("total depth") && !said.contains("total_depth"), "{said}");
    let row = columns.iter().position(|row| row[2] == "Kind of tile").unwrap() + 1;
    let book = trial.with(&[("Columns", &format!("K{row}"), "Lining Depth"), ("Columns", &format!("L{row}"), "m")]);
    let refused = run(&["check", &book]).ended(2).err;
    assert!(refused.contains(&format!("sheet Columns, K{row}: ")), "{refused}");
    let book = trial.with(&[("Columns", &format!("K{row}"), "Casing depth"), ("Columns", &format!("L{row}"), "m")]);
    let to = trial.folder.path().join("said.toml");
    run(&["start", "--from", &book, "--out", &to.display().to_string()]).ended(0);
    let said = std::fs::read_to_string(to).unwrap();
    assert!(said.contains("\"Kind of tile\" = \"casing_depth\"") && said.contains("casing_depth = \"m\""), "{said}");
}

/// What was repaired in the book is repaired in the plan that its workbook is planned again to.
#[test]
fn repairs_come_back_with_the_plans_workbook() {
    let trial = Trial::new();
    let repairs = table(&trial.book, "Repairs");
    let row =
        repairs.iter().position(|row| row.len() > 8 && row[5].starts_with("002 ·") && row[6] == "casing diameter");
    let cell = format!("M{}", row.unwrap_or_else(|| panic!("{repairs:#?}")) + 1);
    trial.with(&[("Repairs", &cell, "125 mm")]);
    let folder = trial.folder.path();
    run_in(folder, &["plan", "filled.xlsx", "--out", "out"]).ended(1);
    let depth = |out: &str| -> Vec<(String, String)> {
        let rows = rows(&folder.join(out).join("treatments.csv"));
        rows.iter().map(|row| (row["well_id"].clone(), row["treated_volume_l"].clone())).collect()
    };
    let planned = depth("out");
    assert!(planned.iter().any(|(well, water)| well == "002" && !water.is_empty()), "{planned:?}");
    run_in(folder, &["plan", "out/campaign.xlsx", "--out", "again"]).ended(1);
    assert_eq!(depth("again"), planned);
    let findings = |out: &str| std::fs::read(folder.join(out).join("findings.csv")).unwrap();
    assert!(findings("out") == findings("again"));
}
