//! What is a well and what is none, and which remarks overrule a cell.
//!
//! The lists are made by hand after what offices write; what each row is, and what each remark means, was decided by reading
//! it, before the program was asked.

use aftercrest::checks::Verdict;
use aftercrest::field::Field;

use crate::reading::{Outcome, fixtures, read, read_in_batches, us};
use crate::running::run_in;

fn list(name: &str) -> Outcome {
    read(&[fixtures("rows").join(name)], &us()).expect("a list")
}

fn findings(outcome: &Outcome) -> String {
    outcome
        .findings()
        .iter()
        .map(|finding| format!("{} {} {}\n", finding.place, finding.code.id(), finding.says))
        .collect()
}

/// One row is a well, to show that the list is read at all.
#[test]
fn of_rows_that_are_no_wells_none_is_planned() {
    let outcome = list("not-wells.csv");
    let others = outcome.verdicts.iter().filter(|verdict| matches!(verdict, Verdict::NotAWell(_))).count();
    let held: Vec<String> = outcome
        .verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::HeldBack(row) => Some(format!("{} held back", row.place)),
            Verdict::Admitted { well, .. } => Some(format!("{} planned", well.id)),
            Verdict::NotAWell(_) => None,
        })
        .collect();
    // A name that says cistern beside a depth and a diameter is asked about, not left out.
    assert_eq!(held, ["1 planned", "not-wells.csv:37 held back"], "{}", findings(&outcome));
    assert_eq!(others, outcome.verdicts.len() - 2);
    assert!(others >= 60);
    assert_eq!(outcome.codes().get("I105"), Some(&1), "said once");
}

#[test]
fn of_wells_that_tempt_all_are_planned() {
    let outcome = list("wells-that-tempt.csv");
    let not_planned: Vec<String> = outcome
        .verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::HeldBack(row) => Some(format!("{} {}: held back", row.place, row.id)),
            Verdict::NotAWell(row) => Some(format!("{} {:?}: {:?}", row.place, row.seen, row.kind)),
            Verdict::Admitted { .. } => None,
        })
        .collect();
    assert!(not_planned.is_empty(), "{}\n{}", not_planned.join("\n"), findings(&outcome));
}

/// Each remark beside the cell that it is about; the others are those of an ordinary well.
#[test]
fn remarks_overrule_a_cell_only_where_they_plainly_do() {
    let mut failures = Vec::new();
    let mut reader = csv::Reader::from_path(fixtures("rows").join("remarks.csv")).expect("the table");
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    let mut text = "well_id,well_type,depth (ft),water level (ft),diameter (in),notes\n".to_owned();
    for (at, row) in rows.iter().enumerate() {
        let of = |measure: &str, usual: &str| if &row[1] == measure { row[2].to_owned() } else { usual.to_owned() };
        let level = if row[1] == *"depth" { "8" } else { "30" };
        let (depth, level, diameter) = (of("depth", "200"), of("level", level), of("diameter", "6"));
        let remark = row[0].replace('"', "\"\"");
        text.push_str(&format!("W{at},drilled,{depth},{level},{diameter},\"{remark}\"\n"));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("remarks.csv");
    std::fs::write(&path, text).expect("a file");
    let outcome = read(&[path], &us()).expect("a list");
    assert_eq!(outcome.verdicts.len(), rows.len());
    for (verdict, row) in outcome.verdicts.iter().zip(&rows) {
        let field = match &row[1] {
            "depth" => Field::TotalDepth,
            "level" => Field::StaticWaterLevel,
            _ => Field::CasingDiameter,
        };
        let unit = if field == Field::CasingDiameter { 0.0254 } else { 0.3048 };
        let (made, warned) = match verdict {
            Verdict::Admitted { well, findings } => (
                well.si_value(field).map(|si| si / unit),
                findings
                    .iter()
                    .any(|finding| finding.code.id() == "I109" && !finding.says.to_string().contains("is not said")),
            ),
            Verdict::HeldBack(held) => (None, held.reasons().any(|reason| reason.code.id() == "I110")),
            Verdict::NotAWell(_) => (Some(f64::NAN), false),
        };
        let right = match &row[3] {
            "ask" => made.is_none() && warned,
            "same" => {
                let same: f64 = row[2].parse().expect("a number");
                made.is_some_and(|made| (made - same).abs() < 1e-9) && !warned
            }
            now => {
                let now: f64 = now.parse().expect("a number");
                warned && made.is_some_and(|made| (made / now - 1.0).abs() < 2e-4)
            }
        };
        if !right {
            failures.push(format!(
                "{:?} beside {} {}: wanted {}, made {made:?}, said {warned}",
                &row[0], &row[1], &row[2], &row[3]
            ));
        }
    }
    assert!(failures.is_empty(), "{} of {}:\n{}", failures.len(), rows.len(), failures.join("\n"));
}

fn ids(outcome: &Outcome) -> Vec<(String, Option<f64>)> {
    let id_of = |verdict: &Verdict| match verdict {
        Verdict::Admitted { well, .. } => {
            Some((well.id.to_string(), well.si_value(Field::CasingDiameter).map(|si| (si / 0.0254).round())))
        }
        Verdict::HeldBack(row) => Some((format!("{} held back", row.id), None)),
        Verdict::NotAWell(_) => None,
    };
    outcome.verdicts.iter().filter_map(id_of).collect()
}

fn planned(ids: &[(&str, f64)]) -> Vec<(String, Option<f64>)> {
    ids.iter().map(|(id, inches)| ((*id).to_owned(), Some(*inches))).collect()
}

/// Wells are known by the section that they stand under where their numbers begin anew in each; ditto marks count, in numbers
/// too; and batches of one row give the same.
#[test]
fn ids_that_begin_anew_in_each_section_are_pairs() {
    let path = fixtures("rows").join("sections.csv");
    for rows in [1, 3, 1000] {
        let outcome = read_in_batches(std::slice::from_ref(&path), &us(), rows).expect("a list");
        let wanted = [
            ("Elm Road / 1", 6.0),
            ("Elm Road / 2", 6.0),
            ("Elm Road / 3", 6.0),
            ("Oak Flat / 1", 36.0),
            ("Oak Flat / 2", 6.0),
            ("Oak Flat / 3", 6.0),
        ];
        assert_eq!(ids(&outcome), planned(&wanted), "{rows} rows a batch\n{}", findings(&outcome));
        assert_eq!(outcome.codes().get("I111"), Some(&1), "said once");
    }
}

#[test]
fn a_township_written_once_counts_for_the_rows_below() {
    let outcome = list("townships.csv");
    let made: Vec<String> = ids(&outcome).into_iter().map(|(id, _)| id).collect();
    let wanted: Vec<String> = ["Greyburn", "Harrow Fen"]
        .iter()
        .flat_map(|town| (1..=4).map(move |number| format!("{town} / {number}")))
        .collect();
    assert_eq!(made, wanted, "{}", findings(&outcome));
}

/// Two sheets that both count from 1 are two lists where their wells differ, and one list twice where they do not.
#[test]
fn two_sheets_that_count_from_one_are_two_sheets() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("two.xlsx");
    for differ in [true, false] {
        let mut workbook = rust_xlsxwriter::Workbook::new();
        for (at, name) in ["North", "South"].iter().enumerate() {
            let sheet = workbook.add_worksheet().set_name(*name).expect("a sheet");
            for (column, heading) in
                ["well_id", "well_type", "depth (ft)", "water level (ft)", "diameter (in)"].iter().enumerate()
            {
                sheet.write(0, column as u16, *heading).expect("a cell");
            }
            for row in 1..6_u32 {
                let more = if differ { 10.0 * at as f64 } else { 0.0 };
                sheet.write(row, 0, row).expect("a cell");
                sheet.write(row, 1, "drilled").expect("a cell");
                sheet.write(row, 2, 100.0 + f64::from(row) + more).expect("a cell");
                sheet.write(row, 3, 20.0).expect("a cell");
                sheet.write(row, 4, 6.0).expect("a cell");
            }
        }
        workbook.save(&path).expect("a file");
        let outcome = read(std::slice::from_ref(&path), &us()).expect("a workbook");
        let made: Vec<String> = ids(&outcome).into_iter().map(|(id, _)| id).collect();
        if differ {
            assert_eq!(
                (made.len(), made[0].as_str(), made[9].as_str()),
                (10, "North / 1", "South / 5"),
                "{}",
                findings(&outcome)
            );
            assert_eq!(outcome.codes(), [("I111", 2)].into());
        } else {
            assert_eq!(outcome.codes().get("I102"), Some(&5), "{}", findings(&outcome));
        }
    }
}

/// Row numbers are those that a spreadsheet program shows: a line break inside a cell begins no row, an empty line is one.
#[test]
fn a_finding_names_the_row_as_a_spreadsheet_shows_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("breaks.csv");
    let text = "well_id,well_type,depth (ft),water level (ft),diameter (in),notes\n\
                W1,drilled,180,40,6,\"first line\nsecond line\n\nfourth\"\n\nW2,drilled,42,57.3,6,\n";
    for text in [text.to_owned(), text.replace('\n', "\r\n")] {
        std::fs::write(&path, text).expect("a file");
        let outcome = read(std::slice::from_ref(&path), &us()).expect("a list");
        let rows: Vec<Option<u32>> = outcome.findings().iter().map(|finding| finding.place.row).collect();
        assert_eq!(rows, [Some(4)], "{}", findings(&outcome));
    }
}

const RULES: &str = "[campaign]\nunits = \"us\"\n\
                     [[product]]\nname = \"weak\"\nchemical = \"sodium_hypochlorite\"\n\
                     strength = { percent = 6, basis = \"weight_naocl\" }\npackages = [{ size = \"1 gal\", price = 5 }]\n\
                     [[scenario]]\nname = \"one\"\nproduct = \"weak\"\n";

/// Planned, held back, excluded and no wells: the four add up, and say so everywhere. A rule reaches rows that would be held
/// back as well, and a later rule may take a well in again.
#[test]
fn the_four_outcomes_add_up_and_are_told_everywhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let list = "well_id,well_type,depth (ft),water level (ft),diameter (in),status,flooded,notes\n\
                A1,drilled,180,40,6,active,yes,\nA2,drilled,42,57,6,active,yes,\nA3,drilled,150,30,6,active,no,\n\
                A4,drilled,42,57,6,active,no,\nA5,drilled,150,30,6,inactive,yes,\nA6,drilled,150,30,6,active,no,hospital\n\
                A7,drilled,150,30,6,sealed,yes,\nTotal,,864,274,42,,,\n";
    let rules = format!(
        "{RULES}[[override]]\nwhere = \"flooded = false\"\nexclude = true\nreason = \"not flooded\"\n\
         [[override]]\nwhere = \"status = 'inactive'\"\nexclude = true\nreason = \"not in use\"\n\
         [[override]]\nwhere = \"notes = 'hospital'\"\nexclude = false\n"
    );
    std::fs::write(folder.path().join("wells.csv"), list).expect("a file");
    std::fs::write(folder.path().join("plan.toml"), rules).expect("a file");
    let arguments = ["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--table", "csv"];
    let answer = run_in(folder.path(), &arguments).ended(1);
    assert!(
        answer.out.contains("2 of 3 well visits planned; 1 held back; 3 excluded; 2 rows are not wells"),
        "{}",
        answer.out
    );
    let account = "8 rows read: 2 planned + 1 held back + 3 excluded + 2 not wells";
    assert!(answer.out.contains(account), "{}", answer.out);
    let read = |name: &str| std::fs::read_to_string(folder.path().join("out").join(name)).expect("an output");
    let mut table = csv::Reader::from_reader(std::io::Cursor::new(read("treatments.csv")));
    let heads = table.headers().expect("headings").clone();
    let column = |name: &str| heads.iter().position(|head| head == name).expect("a column");
    let rows: Vec<[String; 4]> = table
        .records()
        .map(|row| row.expect("a row"))
        .map(|row| ["well_id", "outcome", "reasons", "chlorine_g"].map(|name| row[column(name)].to_owned()))
        .collect();
    let outcomes: Vec<[&str; 3]> = rows.iter().map(|row| [row[0].as_str(), row[1].as_str(), row[2].as_str()]).collect();
    assert_eq!(
        outcomes,
        [
            ["A1", "planned", ""],
            ["A2", "held_back", "G203"],
            ["A3", "excluded", "not flooded"],
            ["A4", "excluded", "not flooded"],
            ["A5", "excluded", "not in use"],
            ["A6", "planned", ""],
        ]
    );
    assert!(
        rows.iter().all(|row| (row[1] == "planned") != row[3].is_empty()),
        "amounts of what is not planned: {rows:?}"
    );
    let record = read("run.json");
    for count in ["\"visits_planned\": 2", "\"visits_held_back\": 1", "\"visits_excluded\": 3", "\"rows_not_wells\": 2"]
    {
        assert!(record.contains(count), "{count} in {record}");
    }
    let said = read("findings.csv");
    assert!(!said.contains("A4") && said.contains("rows 8") || said.contains("8 \"\"sealed\"\""), "{said}");
    let mut totals = csv::Reader::from_reader(std::io::Cursor::new(read("totals.csv")));
    let heads = totals.headers().expect("headings").clone();
    let first = totals.records().next().expect("a row").expect("a row");
    for (name, count) in [("visits", "3"), ("visits_planned", "2"), ("visits_held_back", "1"), ("visits_excluded", "3")]
    {
        assert_eq!(&first[heads.iter().position(|head| head == name).expect("a column")], count, "{name}");
    }
    let check = run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(1);
    for said in [
        "2 of 3 wells can be planned now; 1 is held back.\n",
        "3 wells are excluded by a rule of the scenario file.\n",
        "2 rows are not wells: ",
    ] {
        assert!(check.out.contains(said), "{}", check.out);
    }
    let json = run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml", "--json"]).ended(1);
    assert!(json.out.contains("\"visits_excluded\":3,\"rows_not_wells\":2"), "{}", json.out);
}
