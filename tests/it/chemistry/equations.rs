//! The papers of the kernel: every equation listed, stated where it is computed, and held by something printed elsewhere;
//! every constant listed, with its source, and written nowhere else.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use aftercrest::kernel::EQUATIONS;
use aftercrest::kernel::constants::CONSTANTS;
use aftercrest::kernel::discharge::RULES;
use aftercrest::source::Provenance;

use crate::published::table;

/// Tests that compare with an independent program or a whole printed table: outside checks, though no row of the cases.
const INDEPENDENT: [&str; 5] = [
    "chemistry::ph_agrees_with_the_oracle",
    "chemistry::calcite_agrees_with_the_oracle",
    "chemistry::neutralized_waters_agree_with_the_oracle",
    "chemistry::every_cell_of_the_contact_tables",
    "chemistry::aging_of_strong_liquid_lies_in_the_band_or_on_the_safe_side",
];

pub(super) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every file under a folder with its text.
pub(super) fn texts(folder: &Path) -> BTreeMap<PathBuf, String> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(texts(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs" || extension == "py") {
            found.insert(path.clone(), std::fs::read_to_string(&path).unwrap());
        }
    }
    found
}

fn kernel() -> BTreeMap<PathBuf, String> {
    texts(&root().join("src/kernel"))
}

#[test]
fn every_equation_is_listed_once() {
    let ids: BTreeSet<&str> = EQUATIONS.iter().map(|equation| equation.id).collect();
    assert_eq!(ids.len(), EQUATIONS.len(), "an id stands twice");
    let declared: usize = kernel().values().map(|text| text.matches(": Equation = Equation {").count()).sum();
    assert_eq!(declared, EQUATIONS.len(), "an equation is declared but not listed in kernel::EQUATIONS");
}

#[test]
fn every_equation_stands_in_the_doc_comment_of_its_function() {
    let comments: String = kernel()
        .values()
        .flat_map(|text| text.lines())
        .filter_map(|line| line.trim_start().strip_prefix("///"))
        .collect::<Vec<_>>()
        .join("\n");
    for equation in EQUATIONS {
        assert!(
            comments.contains(equation.statement),
            "{}: `{}` stands in no doc comment",
            equation.id,
            equation.statement
        );
        assert!(!equation.symbols.is_empty() && !equation.sources.is_empty(), "{}", equation.id);
        assert!(equation.validity.len() > 5 && !equation.name.is_empty(), "{}", equation.id);
    }
}

#[test]
fn every_equation_is_held_by_something_outside_or_says_why_not() {
    let mut rows = BTreeMap::new();
    for (name, column) in [("chemistry_cases.csv", "published_value"), ("dose_cases.csv", "published_amount")] {
        for row in table(name) {
            rows.insert(row["id"].clone(), !row[column].is_empty());
        }
    }
    // Tests are functions here, or of the scripts that go a second route.
    let tests = texts(&root().join("tests")).into_values().collect::<String>();
    let reasons: BTreeMap<String, String> = table("equations_without_outside_check.csv")
        .into_iter()
        .map(|row| (row["equation"].clone(), row["reason"].clone()))
        .collect();
    let mut faults = Vec::new();
    for equation in EQUATIONS {
        let mut outside = false;
        for check in equation.checks {
            if let Some((_, name)) = check.split_once("::") {
                if !tests.contains(&format!("fn {name}(")) && !tests.contains(&format!("def {name}(")) {
                    faults.push(format!("{}: there is no test {check}", equation.id));
                }
                outside |= INDEPENDENT.contains(check);
            } else {
                match rows.get(*check) {
                    None => faults.push(format!("{}: there is no row {check}", equation.id)),
                    Some(printed) => outside |= printed,
                }
            }
        }
        match (outside, reasons.get(equation.id)) {
            (true, Some(_)) => {
                faults.push(format!("{}: has an outside check and a reason for having none", equation.id))
            }
            (false, None) => faults.push(format!("{}: no outside check and no reason", equation.id)),
            (false, Some(reason)) if reason.len() < 20 => {
                faults.push(format!("{}: what kind of reason is that?", equation.id))
            }
            _ => {}
        }
        if equation.checks.is_empty() {
            faults.push(format!("{}: nothing holds it", equation.id));
        }
    }
    for id in reasons.keys() {
        if !EQUATIONS.iter().any(|equation| equation.id == id) {
            faults.push(format!("{id}: a reason for an equation that is not there"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_constant_has_papers_and_stands_once() {
    let ids: BTreeSet<&str> = CONSTANTS.iter().map(|constant| constant.id).collect();
    assert_eq!(ids.len(), CONSTANTS.len());
    let elsewhere: Vec<(PathBuf, String)> = kernel()
        .into_iter()
        .filter(|(path, _)| !path.ends_with("constants.rs") && !path.ends_with("ct_table.rs"))
        .map(|(path, text)| {
            // Code only: comments and the text of equations may and should quote the numbers.
            let code = |line: &&str| !line.trim_start().starts_with("//") && !line.contains('"');
            (path, text.lines().filter(code).collect::<Vec<_>>().join("\n"))
        })
        .collect();
    let mut unverified = Vec::new();
    for constant in CONSTANTS {
        assert!(constant.value.is_finite() && !constant.description().is_empty(), "{}", constant.id);
        assert!(!constant.unit.is_empty() && !constant.source.citation.is_empty(), "{}", constant.id);
        if constant.source.provenance == Provenance::FromMemory {
            unverified.push(constant.id);
        }
        let digits = format!("{}", constant.value.abs());
        if digits.chars().filter(char::is_ascii_digit).count() >= 5 {
            for (path, code) in &elsewhere {
                assert!(!code.contains(&digits), "{} ({digits}) is written out in {}", constant.id, path.display());
            }
        }
        let used = elsewhere.iter().filter(|(_, code)| code.contains(constant.id)).count();
        let within = kernel()[&root().join("src/kernel/constants.rs")].matches(constant.id).count();
        assert!(used > 0 || within > 1, "{} is used nowhere", constant.id);
    }
    println!("{} constants, {} from memory and not verified: {unverified:?}", CONSTANTS.len(), unverified.len());
}

#[test]
fn every_discharge_rule_says_where_and_when() {
    for rule in RULES {
        assert!(rule.limit().milligrams_per_liter() > 0.0 && rule.limit().milligrams_per_liter() < 1.0, "{}", rule.id);
        assert!(!rule.place.is_empty() && !rule.applies_to.is_empty() && !rule.printed.is_empty(), "{}", rule.id);
        assert!(rule.seen.len() == 7 && !rule.source.citation.is_empty(), "{}", rule.id);
    }
}
