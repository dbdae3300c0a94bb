//! What people do with a campaign book beside filling in what it asks: cells of the lists that they repair on their own, a target that
//! holds for all, wrong entries of several sheets at once. Nothing is passed over in silence, and it is said in words of the sheets.

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::filling::{Typed, beside, filled, metric_book, table};
use crate::running::{names, number, place, rows, run};

const LIST: &str = "Well ID,Depot,Well type,Depth (m),Static level (m),Diameter (mm),Pipe,Discharge\n\
                    K1,East,drilled,40,5,150,31,pasture\nK2,East,drilled,30,5,150,22,pasture\n\
                    K3,East,drilled,60,,150,44,pasture\nK4,West,dug,20,5,1200,,pasture\n\
                    K5,West,drilled,50,5,150,38,pasture\nK5,West,drilled,50,5,150,38,pasture\n";

struct Trial {
    folder: TempDir,
    book: PathBuf,
}

impl Trial {
    fn new() -> Self {
        let (folder, book) = metric_book(LIST);
        Self { folder, book }
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn with(&self, name: &str, cells: &[(&str, &str, Typed<'_>)]) -> PathBuf {
        filled(&self.book, &self.at(name), cells);
        self.at(name)
    }

    /// The first blank row on the sheet of repairs, for people.
    fn own_row(&self) -> usize {
        let rows = table(&self.book, "Repairs");
        let head = rows.iter().position(|row| row[0] == "Severity").unwrap();
        rows.iter()
            .enumerate()
            .skip(head)
            .find(|(_, row)| row.iter().all(String::is_empty))
            .map_or(rows.len(), |(at, _)| at)
            + 1
    }

    fn plan(&self, book: &Path, to: &str) -> PathBuf {
        let out = self.at(to);
        let said = run(&["plan", &book.display().to_string(), "--out", &out.display().to_string()]);
        assert!(said.code <= 1, "{}", said.err);
        out
    }

    fn refused(&self, cells: &[(&str, &str, Typed<'_>)]) -> String {
        let book = self.with("refused.xlsx", cells).display().to_string();
        let out = self.at("never").display().to_string();
        let said = run(&["plan", &book, "--out", &out]);
        let places: Vec<(&str, &str)> = cells.iter().map(|(sheet, cell, _)| (*sheet, *cell)).collect();
        assert_eq!(said.code, 2, "{places:?}: {}", said.err);
        std::fs::remove_file(book).unwrap();
        said.err
    }
}

fn of_well(folder: &Path, id: &str, column: &str) -> f64 {
    let treatments = rows(&folder.join("treatments.csv"));
    number(treatments.iter().find(|row| row["well_id"] == id).unwrap(), column)
}

#[test]
fn a_repair_of_ones_own_counts_whatever_stands_in_the_cell() {
    let trial = Trial::new();
    let row = trial.own_row();
    let cell = |column: &str| format!("{column}{row}");
    let [file, number_of, letters, right] = ["B", "D", "E", "M"].map(cell);
    let own = |row: &'static str, column: &'static str, value: &'static str| {
        [
            ("Repairs", file.as_str(), Typed::Text("wells.csv")),
            ("Repairs", &number_of, Typed::Text(row)),
            ("Repairs", &letters, Typed::Text(column)),
            ("Repairs", &right, Typed::Text(value)),
        ]
    };
    let book = trial.with("own.xlsx", &own("2", "D", "48"));
    let planned = trial.plan(&book, "plan");
    assert_eq!(of_well(&planned, "K1", "water_column_m"), 43.0);
    let corrected = table(&planned.join("campaign.xlsx"), "Corrections");
    assert!(corrected.iter().any(|row| row[2..4] == ["40", "48"]), "{corrected:#?}");
    // The workbook of the plan knows it, and so does the book that is brought up to date.
    let again = trial.plan(&planned.join("campaign.xlsx"), "again");
    assert_eq!(of_well(&again, "K1", "water_column_m"), 43.0);
    run(&["start", &book.display().to_string(), "--update"]).ended(0);
    let again = trial.plan(&book, "updated");
    assert_eq!(of_well(&again, "K1", "water_column_m"), 43.0);
    let repairs = table(&book, "Repairs");
    assert!(repairs.iter().any(|row| row[0] == "added" && row[8].is_empty() && row[12] == "48"), "{repairs:#?}");

    // What cannot be applied is refused by the cell that is wrong.
    let typed = cell("I");
    let with = |base: &[(&'static str, &str, Typed<'static>)], more: (&'static str, &str, Typed<'static>)| {
        let mut cells: Vec<(String, String, Typed<'static>)> =
            base.iter().map(|(sheet, cell, typed)| ((*sheet).to_owned(), (*cell).to_owned(), *typed)).collect();
        cells.push((more.0.to_owned(), more.1.to_owned(), more.2));
        let cells: Vec<(&str, &str, Typed<'_>)> =
            cells.iter().map(|(sheet, cell, typed)| (sheet.as_str(), cell.as_str(), *typed)).collect();
        trial.refused(&cells)
    };
    for (said, at, wanted) in [
        (trial.refused(&own("280", "D", "48")), "D", "wells.csv has nothing in row 280"),
        (trial.refused(&own("2", "AZ", "48")), "E", "wells.csv has no such column: its last is H"),
        (trial.refused(&own("2", "", "48")), "E", "write the letters of the column"),
        (trial.refused(&own("", "D", "48")), "D", "write the number of the row"),
        (trial.refused(&own("2", "D", "deep")), "M", "\"deep\" cannot be read as total depth"),
        (
            with(&own("2", "D", "48"), ("Repairs", &typed, Typed::Text("41"))),
            "I",
            "does not hold \"41\", and holds \"40\" now",
        ),
        (
            with(&own("2", "D", "48"), ("Repairs", &cell("H"), Typed::Text("Diameter (mm)"))),
            "H",
            "is headed \"Depth (m)\"",
        ),
        (with(&own("2", "D", "48"), ("Repairs", &file, Typed::Text("well.csv"))), "B", "did you mean \"wells.csv\"?"),
        (with(&own("2", "D", "48"), ("Repairs", &cell("C"), Typed::Text("Page 1"))), "C", "wells.csv has no sheets"),
        (with(&own("2", "D", "48"), ("Repairs", &right, Typed::Text(""))), "M", "write the right value of this cell"),
    ] {
        assert!(said.contains(&format!("sheet Repairs, {at}{row}: ")) && said.contains(wanted), "{wanted}: {said}");
    }
    assert!(!trial.at("never").exists());
}

#[test]
fn a_row_of_the_books_own_is_asked_about_when_its_list_changes() {
    let trial = Trial::new();
    let repairs = table(&trial.book, "Repairs");
    let row = repairs
        .iter()
        .position(|row| row[5].starts_with("K3 · drilled · depth 60 m") && row[6] == "static water level")
        .unwrap()
        + 1;
    let book = trial.with("level.xlsx", &[("Repairs", &format!("M{row}"), Typed::Number(7.0))]);
    place(trial.folder.path(), "wells.csv", LIST.replace("drilled,60,,", "drilled,60,9,"));
    let out = trial.at("plan").display().to_string();
    let said = run(&["plan", &book.display().to_string(), "--out", &out]).ended(2).err;
    let wanted = format!("sheet Repairs, I{row}: the cell was blank when this line was written, and holds \"9\" now");
    assert!(said.contains(&wanted), "{said}");
    // Mended in the list as well, it is settled.
    place(trial.folder.path(), "wells.csv", LIST.replace("drilled,60,,", "drilled,60,7,"));
    assert_eq!(of_well(&trial.plan(&book, "plan"), "K3", "water_column_m"), 53.0);
}

/// A row that is no well is answered once, whichever of its lines the answer stands on, and nothing else is asked of it.
#[test]
fn not_a_well_settles_all_lines_of_a_row() {
    let list = format!("{LIST},TOTAL CALL-INS,,,,,,pasture\n");
    let (folder, book) = metric_book(&list);
    let repairs = table(&book, "Repairs");
    let lines: Vec<usize> = (0..repairs.len()).filter(|at| repairs[*at].get(3).is_some_and(|row| row == "8")).collect();
    assert!(lines.len() >= 4, "{repairs:#?}");
    // They stand together, say what stands in the row, and the first says that it may settle them all.
    assert_eq!(lines.last().unwrap() - lines[0] + 1, lines.len(), "{repairs:#?}");
    assert!(lines.iter().all(|at| repairs[*at][5].contains("TOTAL CALL-INS")), "{repairs:#?}");
    let all = format!("or not a well, which settles all {} lines of this row", lines.len());
    assert_eq!(lines.iter().filter(|at| repairs[**at][10].contains(&all)).count(), 1, "{repairs:#?}");
    for line in lines {
        if repairs[line][4].is_empty() {
            continue;
        }
        let answered = folder.path().join("answered.xlsx");
        let _ = std::fs::remove_file(&answered);
        filled(&book, &answered, &[("Repairs", &format!("M{}", line + 1), Typed::Text("Not a well"))]);
        let said = run(&["check", &answered.display().to_string()]);
        assert!(said.out.contains("of 6 wells") && !said.out.contains("of 7 wells"), "{}{}", said.out, said.err);
    }
}

#[test]
fn a_target_for_all_holds_for_all() {
    let trial = Trial::new();
    let target = beside(&trial.book, "Practice", "Target", "B");
    let planned = trial.plan(&trial.with("all.xlsx", &[("Practice", &target, Typed::Number(200.0))]), "plan");
    assert_eq!(of_well(&planned, "K1", "target_mg_per_l"), 200.0);
    // The same in the workbook of the plan: no scenario states a target, and none stands in the way.
    let workbook = planned.join("campaign.xlsx");
    let inputs = table(&workbook, "Inputs");
    let lines: Vec<usize> =
        (0..inputs.len()).filter(|at| inputs[*at].get(1).is_some_and(|what| what == "Target")).collect();
    assert_eq!(lines.len(), 1, "{inputs:#?}");
    let changed = planned.join("changed.xlsx");
    filled(&workbook, &changed, &[("Inputs", &format!("C{}", lines[0] + 1), Typed::Number(150.0))]);
    assert_eq!(of_well(&trial.plan(&changed, "again"), "K1", "target_mg_per_l"), 150.0);
    // A value for all that every scenario overrules is said to hold nowhere.
    let book = trial
        .with("own.xlsx", &[("Practice", &target, Typed::Number(200.0)), ("Scenarios", "F4", Typed::Number(100.0))]);
    let out = trial.at("own").display().to_string();
    let said = run(&["plan", &book.display().to_string(), "--out", &out]);
    let said = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("The practice states 200 mg/L for target, and it holds nowhere"), "{said}");
}

#[test]
fn what_a_book_is_told_is_in_words_of_its_sheets() {
    let trial = Trial::new();
    let planned = trial.plan(&trial.book, "plan");
    let workbook = planned.join("campaign.xlsx");
    let said = format!("{:?}{:?}", table(&workbook, "Findings"), table(&workbook, "Findings by cell"));
    for key in ["[missing", "[inventory", "from_list", "separate_visits", "scenario file", "= \\\"\\\""] {
        assert!(!said.contains(key), "{key}: {said}");
    }
    for words in ["sheet Missing, a row with static water level", "sheet Campaign, Repeated rows: separate visits"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let page = std::fs::read_to_string(planned.join("report.html")).unwrap();
    assert!(!page.contains("[missing") && !page.contains("[inventory"));
    let column =
        table(&trial.book, "Columns").iter().position(|row| row.get(2).is_some_and(|head| head == "Depth (m)"));
    let column = format!("K{}", column.unwrap() + 1);
    let said = trial.refused(&[("Supplies", "B6", Typed::Number(2.0)), ("Columns", &column, Typed::Text("depht"))]);
    assert!(said.contains("this supply needs \"Supply\""), "{said}");
    assert!(said.contains("total depth, static water level") && !said.contains("total_depth"), "{said}");
}

#[test]
fn faults_of_one_sheet_hide_none_of_another() {
    let trial = Trial::new();
    let (target, row) = (beside(&trial.book, "Practice", "Target", "B"), trial.own_row());
    let [file, number_of, letters, right] = ["B", "D", "E", "M"].map(|column| format!("{column}{row}"));
    let text = Typed::Text;
    let said = trial.refused(&[
        ("Scenarios", "C4", Typed::Number(30.0)),
        ("Scenarios", "A5", text("warm")),
        ("Scenarios", "B5", text("liquid 12.5")),
        ("Scenarios", "C5", Typed::Number(30.0)),
        ("Scenarios", "E5", text("hot")),
        ("Scenarios", "A6", text("dated")),
        ("Scenarios", "B6", text("liquid 12.5")),
        ("Scenarios", "D6", text("2026-03-01")),
        ("Practice", &target, text("lots")),
        ("Stock", "A4", text("Nowhere")),
        ("Stock", "B4", text("liquid 12.5")),
        ("Stock", "C4", text("3 L")),
        ("Repairs", &file, text("wells.csv")),
        ("Repairs", &number_of, text("99")),
        ("Repairs", &letters, text("D")),
        ("Repairs", &right, text("48")),
    ]);
    for (sheet, cell) in [
        ("Scenarios", "C4"),
        ("Scenarios", "E5"),
        ("Scenarios", "D6"),
        ("Practice", &target),
        ("Stock", "A4"),
        ("Repairs", &number_of),
    ] {
        assert!(said.contains(&format!("sheet {sheet}, {cell}: ")), "nothing of {sheet} {cell}: {said}");
    }
    // An age whose temperature is wrong is not wrong itself.
    assert!(!said.contains("sheet Scenarios, C5") && !said.contains("--date"), "{said}");
}

#[test]
fn what_one_answer_settles_is_asked_once() {
    let trial = Trial::new();
    let repairs = format!("{:?}", table(&trial.book, "Repairs"));
    assert!(!repairs.contains("may be the casing depth"), "{repairs}");
    let columns = table(&trial.book, "Columns");
    assert!(columns.iter().any(|row| row[2] == "Pipe" && row[8] == "open"), "{columns:#?}");
}

#[test]
fn an_answer_that_no_longer_holds_is_taken_away() {
    let trial = Trial::new();
    let target = beside(&trial.book, "Practice", "Target", "B");
    let sound = std::fs::read(&trial.book).unwrap();
    let book = trial.with("flood.xlsx", &[("Practice", &target, Typed::Text("lots"))]);
    run(&[&book]).ended(2);
    run(&[&book]).ended(2);
    let noted = trial.at("flood, what is missing 2.txt");
    let text = std::fs::read_to_string(&noted).unwrap();
    std::fs::write(&noted, format!("{text}Ask Ann about the target.\n")).unwrap();
    std::fs::write(&book, sound).unwrap();
    let said = run(&[&book]);
    assert!(said.out.contains("flood, what is missing.txt"), "{}", said.out);
    let left: Vec<String> =
        names(trial.folder.path()).into_iter().filter(|name| name.contains("what is missing")).collect();
    assert_eq!(left, ["flood, what is missing 2.txt"], "what somebody added to stays");
}
