//! Every finding has a smallest file that triggers it, and a page that explains it.

use std::collections::BTreeSet;

use aftercrest::finding::catalogue;

use crate::reading::{fixtures, read, rules_beside};

/// Codes that cannot come alone, with what comes with them and why.
const COMPANY: &[(&str, &[&str])] = &[
    // The row that says so is no well.
    ("I115", &["I105"]),
    // The row that tells of them is no well.
    ("I114", &["I105"]),
    // A note stands above the headings.
    ("A514", &["F104"]),
    ("A515", &["F104"]),
    ("C152", &["F104"]),
    // A file without a known heading has no ids either, and its rows lack everything.
    ("F102", &["G202", "G204", "G205", "G206"]),
    // A file read twice repeats its visits.
    ("F111", &["I102"]),
    // The note that says that intervals were found.
    ("F119", &["F113"]),
    ("G216", &["F113"]),
    // What lies below the last interval is assumed, and said so.
    ("G217", &["F113", "A512"]),
    ("G218", &["F113"]),
    // Each row of a column in the wrong unit is in doubt by itself as well.
    ("H117", &["P411"]),
    // A column that is missing, or not read, is missing from each row.
    ("H118", &["G206"]),
    // A word that is not known leaves the type to the width.
    ("C105", &["A513"]),
    // A column that is not read is asked about in each row that fills it.
    ("H132", &["C150"]),
    ("C150", &["H132"]),
    // Bare numbers of a disputed column have no unit.
    ("H134", &["H108"]),
    // The note that says that descriptions were found.
    ("C151", &["H136"]),
    // The latest is read by evidence.
    ("H138", &["H131"]),
    // What the short row lost is assumed.
    ("F108", &["A501"]),
    // The rows that are left out are counted as no wells.
    ("F133", &["I105"]),
];

/// Codes without a file, with the reason.
const WITHOUT_FILE: &[(&str, &str)] = &[
    ("G215", "a last resort behind the checks: no row is known that reaches it"),
    ("G230", "rests on the practice, not on the row alone: see the module moving"),
    ("F115", "about a table of corrections: see the module corrections"),
    ("F116", "about a table of corrections: see the module corrections"),
    ("I130", "about the names of a whole run: see the module names"),
    ("I131", "about the names of a whole run: see the module names"),
];

#[test]
fn every_code_has_a_file_that_triggers_exactly_it() {
    let mut failures = Vec::new();
    let folder = fixtures("findings");
    let files: Vec<_> =
        std::fs::read_dir(&folder).expect("the folder").map(|entry| entry.expect("an entry").path()).collect();
    for code in catalogue::ALL {
        let wanted = format!("{}-{}", code.id(), code.name());
        let file = files.iter().find(|path| {
            path.file_stem().is_some_and(|stem| stem == wanted.as_str())
                && path.extension().is_some_and(|end| end != "toml")
        });
        let excused = WITHOUT_FILE.iter().any(|(id, _)| *id == code.id());
        let Some(file) = file else {
            if !excused {
                failures.push(format!("{wanted}: no file"));
            }
            continue;
        };
        let mut paths = vec![file.clone()];
        if code.id() == "F111" {
            paths.push(file.clone());
        }
        let outcome = match read(&paths, &rules_beside(file)) {
            Ok(outcome) => outcome,
            Err(error) => {
                failures.push(format!("{wanted}: {error}"));
                continue;
            }
        };
        let found: BTreeSet<&str> = outcome.codes().into_keys().collect();
        let company = COMPANY.iter().find(|(id, _)| *id == code.id()).map_or(&[][..], |(_, company)| company);
        let allowed: BTreeSet<&str> = company.iter().copied().chain([code.id()]).collect();
        if found != allowed {
            failures.push(format!("{wanted}: found {found:?}, expected {allowed:?}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn every_file_belongs_to_a_code() {
    for entry in std::fs::read_dir(fixtures("findings")).expect("the folder") {
        let path = entry.expect("an entry").path();
        let stem = path.file_stem().expect("a name").to_string_lossy().into_owned();
        assert!(catalogue::ALL.iter().any(|code| stem == format!("{}-{}", code.id(), code.name())), "{stem}");
    }
}

#[test]
fn codes_and_names_are_unique_and_in_their_family() {
    let mut ids = BTreeSet::new();
    let mut names = BTreeSet::new();
    for code in catalogue::ALL {
        assert!(ids.insert(code.id()), "{} twice", code.id());
        assert!(names.insert(code.name()), "{} twice", code.name());
        assert!("FHCIGWPAS".contains(&code.id()[..1]), "{}", code.id());
        assert!(code.id()[1..].len() == 3 && code.id()[1..].bytes().all(|byte| byte.is_ascii_digit()), "{}", code.id());
        assert_eq!(catalogue::find(code.name()), Some(*code));
        assert_eq!(catalogue::find(&code.id().to_lowercase()), Some(*code));
    }
}

#[test]
fn every_page_says_what_why_an_example_and_the_remedy() {
    for code in catalogue::ALL {
        for part in ["What it finds: ", "\nWhy it matters: ", "\nExample: ", "\nHow to fix it: "] {
            assert!(code.page().contains(part), "{} lacks {part:?}", code.id());
        }
        assert!(code.rule().ends_with('.'), "{}", code.id());
    }
}
