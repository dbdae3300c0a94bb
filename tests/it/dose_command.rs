//! Published doses through the command: each row of `fixtures/published/dose_cases.csv` that one well at the prompt can
//! answer is asked of `aftercrest well … --json`, judged by the printed digits and held against the same register of
//! disagreements as the library's own figures (`published`).

use serde_json::Value;

use crate::published::{Ours, Row, from_si, run};
use crate::running;

/// What a row asks for, as arguments; nothing where one well at the prompt cannot answer it.
fn arguments(row: &Row) -> Option<Vec<String>> {
    let given = |column: &str| (!row[column].is_empty()).then(|| row[column].clone());
    // Twice the casing volume, and rows whose inputs stand in the note, are for the library.
    if row["kind"] == "volume_per_length" || ["TWICE", "twice", "x 2"].iter().any(|word| row["note"].contains(word)) {
        return None;
    }
    let mut arguments = vec!["well".to_owned(), "--json".to_owned()];
    let mut push = |option: &str, value: String| arguments.extend([format!("--{option}"), value]);
    match (given("casing_diameter"), given("water_column"), given("water_volume")) {
        (Some(diameter), Some(column), _) => {
            push("diameter", format!("{diameter} {}", row["diameter_unit"]));
            push("water-column", format!("{column} {}", row["column_unit"]));
        }
        (_, _, Some(volume)) => push("volume", format!("{volume} {}", row["volume_unit"])),
        _ => return None,
    }
    push("target", given("target_mg_l")?);
    push("strength", given("strength_pct")?);
    push("basis", if row["product"] == "naocl" { "trade" } else { "dry" }.to_owned());
    Some(arguments)
}

fn by_command(row: &Row) -> Ours {
    let Some(arguments) = arguments(row) else { return Ours::Nothing("not one well at the prompt") };
    let answer = running::run(&arguments);
    if answer.code != 0 {
        // Nothing else may be refused than what the command states as its bounds.
        assert!(answer.err.contains("must lie from"), "{}: {}", row["id"], answer.err);
        return Ours::Nothing("beyond the bounds of the command");
    }
    let message: Value = serde_json::from_str(&answer.out).unwrap();
    let unit = match row["amount_unit"].as_str() {
        kitchen @ ("cup" | "qt" | "pt" | "fl oz") => format!("US {kitchen}"),
        other => other.to_owned(),
    };
    let si = match message["product_l"].as_f64() {
        Some(liters) if row["product"] == "naocl" => liters / 1000.0,
        _ => message["product_kg"].as_f64().unwrap(),
    };
    // What is measured out is never less than what was computed, and gives at least the dose.
    let (dose, given) = (&message["dose_mg_per_l"], &message["measured_dose_mg_per_l"]);
    assert!(given.as_f64().unwrap() >= dose.as_f64().unwrap() * (1.0 - 1e-9), "{}: {message}", row["id"]);
    Ours::Value(from_si(si, &unit))
}

#[test]
fn published_doses_through_the_command() {
    let tally = run("dose_cases.csv", "published_amount", by_command);
    assert!(tally.faults.is_empty(), "{}", tally.faults.join("\n"));
    assert!(tally.agree.len() >= 20, "only {} rows agree with what is printed", tally.agree.len());
    let asked = tally.agree.len() + tally.registered.len() + tally.regression;
    assert!(asked >= 130, "only {asked} rows were asked");
}
