//! Conditions of overrides: answered from one well alone, or refused where they are written.

use std::fmt::Write;

use crate::running::{folder, number, place, rows, run_in};

const PLAN: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 6, basis = \"weight_naocl\" }\n[[scenario]]\nname = \"all\"\nproduct = \"bleach\"\n\
                    [[override]]\n";
const HEAD: &str = "id,type,depth (ft),water level (ft),diameter (in),pH,region,road\n";

fn with_condition(condition: &str) -> tempfile::TempDir {
    let folder = folder();
    let list = format!("{HEAD}A,drilled,180,40,6,7.1,North,12\nB,dug,22,8,36,8.2,South,\nC,drilled,90,40,6,,,7\n");
    place(folder.path(), "wells.csv", list);
    place(folder.path(), "plan.toml", format!("{PLAN}where = '''{condition}'''\nset = {{ target_mg_per_l = 77 }}\n"));
    folder
}

/// Ids of the wells on which a condition held.
fn met(condition: &str) -> String {
    let folder = with_condition(condition);
    let options = ["plan", "wells.csv", "--scenarios", "plan.toml", "--table", "csv", "--out", "out"];
    run_in(folder.path(), &options).ended(0);
    let rows = rows(&folder.path().join("out/treatments.csv"));
    let met = rows.iter().filter(|row| number(row, "dose_mg_per_l") == 77.0);
    met.map(|row| row["well_id"].clone()).collect()
}

#[test]
fn what_one_well_can_answer_is_answered() {
    for (condition, wells) in [
        ("well_type = 'dug'", "B"),
        ("well_id IN ('A', 'C')", "AC"),
        ("well_id NOT IN ('A', 'C')", "B"),
        ("region IS NULL OR ph BETWEEN 8 AND 9", "BC"),
        ("region LIKE 'Sou%'", "B"),
        ("COALESCE(region, 'none') = 'none'", "C"),
        ("LOWER(region) = 'north' AND NOT (ph > 8)", "A"),
        ("CASE WHEN well_type = 'dug' THEN ph > 8 ELSE total_depth_ft > 100 END", "AB"),
        ("ABS(ph - 8.2) < 0.05", "B"),
        ("ROUND(ph) = 7", "A"),
        ("STARTS_WITH(region, 'No')", "A"),
        ("LENGTH(region) = 5", "AB"),
        ("CONCAT(region, well_id) = 'NorthA'", "A"),
        ("GREATEST(ph, 8) > 8", "B"),
        ("road::INT > 10", "A"),
        ("TRUE", "ABC"),
    ] {
        assert_eq!(met(condition), wells, "{condition}");
    }
}

#[test]
fn what_needs_other_wells_is_refused_with_its_line() {
    for condition in [
        "COUNT(*) > 1",
        "ph > AVG(ph)",
        "SUM(ph) > 1",
        "total_depth_ft = MAX(total_depth_ft)",
        "ROW_NUMBER() OVER (ORDER BY well_id) < 3",
        "RANK() OVER (ORDER BY ph) = 1",
        "ph > LAG(ph) OVER (ORDER BY well_id)",
        "AVG(ph) OVER (PARTITION BY region) > 7",
        "SUM(ph) OVER (ORDER BY well_id) > 7",
        "FIRST(well_id) = 'A'",
        "LAST(region) = 'South'",
        "MEDIAN(ph) > 7",
        "STDDEV(ph) > 0",
        "region IN (SELECT region FROM self)",
        "EXISTS (SELECT 1)",
        "LPAD(region, 1000000000, 'x') = 'x'",
        "COUNT(DISTINCT region) > 1",
        "ARRAY_AGG(ph) IS NOT NULL",
        "UNNEST(STRING_TO_ARRAY(region, 'o')) = 'N'",
    ] {
        let folder = with_condition(condition);
        for command in [&["plan", "--out", "out"][..], &["check"]] {
            let options = [command, &["wells.csv", "--scenarios", "plan.toml"]].concat();
            let answer = run_in(folder.path(), &options).ended(2);
            assert!(answer.err.contains("plan.toml:11:9"), "{condition}: {}", answer.err);
        }
        assert!(!folder.path().join("out").exists(), "{condition}");
    }
}

#[test]
fn a_value_that_does_not_fit_is_refused_with_its_line_too() {
    let folder = with_condition("CAST(region AS DOUBLE) > 1");
    let answer = run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(2);
    assert!(answer.err.contains("plan.toml:11:9") && answer.err.contains("for some well"), "{}", answer.err);
}

#[test]
fn long_rows_of_alternatives_do_not_end_the_program() {
    for (joint, times, ends) in [("OR", 100, 0), ("AND", 100, 0), ("OR", 5_000, 2), ("AND", 20_000, 2)] {
        let mut condition = "ph = 1".to_owned();
        for at in 0..times {
            write!(condition, " {joint} ph = {at}").unwrap();
        }
        let folder = with_condition(&condition);
        let options = ["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--threads", "2"];
        let answer = run_in(folder.path(), &options).ended(ends);
        assert!(ends == 0 || answer.err.contains("at most"), "{joint} {times}");
        assert!(answer.err.len() < 1_000, "{joint} {times}: {} letters of error", answer.err.len());
    }
    for (open, close) in [("(", ")"), ("NOT (", ")"), ("-(", ")"), ("ABS(", ")")] {
        for (depth, ends) in [(9, 0), (11, 2), (3_000, 2)] {
            let inner = if open == "NOT (" { "(ph > 7)" } else { "ph" };
            let nested = format!("{}{inner}{}", open.repeat(depth), close.repeat(depth));
            let condition = if open == "NOT (" { nested } else { format!("7 < {nested}") };
            let folder = with_condition(&condition);
            run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(ends);
        }
    }
    let ids: Vec<String> = (0..4_000).map(|at| format!("'W-{at}'")).collect();
    assert_eq!(met(&format!("well_id IN ({}, 'B')", ids.join(", "))), "B");
}
