//! What is a well and what is none, and which remarks overrule a cell.
//!
//! The lists are made by hand after what offices write; what each row is, and what each remark means, was decided by reading
//! it, before the program was asked.

use aftercrest::checks::Verdict;
use aftercrest::field::Field;

use crate::reading::{Outcome, fixtures, read, us};

fn list(name: &str) -> Outcome {
    read(&[fixtures("rows").join(name)], &us()).expect("a list")
}

fn findings(outcome: &Outcome) -> String {
    outcome.findings().iter().map(|finding| format!("{} {} {}\n", finding.place, finding.code.id(), finding.says)).collect()
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
                findings.iter().any(|finding| finding.code.id() == "I109" && !finding.says.to_string().contains("is not said")),
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
            failures.push(format!("{:?} beside {} {}: wanted {}, made {made:?}, said {warned}", &row[0], &row[1], &row[2], &row[3]));
        }
    }
    assert!(failures.is_empty(), "{} of {}:\n{}", failures.len(), rows.len(), failures.join("\n"));
}
