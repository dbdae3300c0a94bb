//! Documents and checked-in reports that are made from the code: the README's tables, and what the demo campaign produces.
//!
//! `AFTERCREST_BLESS=1 cargo test --release documents` writes them anew; look at the difference before you commit it.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use aftercrest::field::{FIELDS, Kind};
use aftercrest::finding::catalogue;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn blessing() -> bool {
    std::env::var_os("AFTERCREST_BLESS").is_some()
}

/// Compares a file with what it should be, or writes it anew.
fn same_or_bless(path: &Path, made: &[u8]) {
    if blessing() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, made).unwrap();
        return;
    }
    let stored = std::fs::read(path).unwrap_or_default();
    let name = path.strip_prefix(root()).unwrap().display().to_string();
    if stored != made {
        let stored = String::from_utf8_lossy(&stored).into_owned();
        let made = String::from_utf8_lossy(made).into_owned();
        let line = stored.lines().zip(made.lines()).position(|(a, b)| a != b);
        let at = line.unwrap_or_else(|| stored.lines().count().min(made.lines().count()));
        panic!(
            "{name} is out of date from line {}:\n  stored: {:?}\n  made:   {:?}\nAFTERCREST_BLESS=1 writes it anew",
            at + 1,
            stored.lines().nth(at),
            made.lines().nth(at)
        );
    }
}

fn columns_table() -> String {
    let mut table = String::from(
        "| field | unit read where none is written (us, metric, imperial) | some accepted headings | |\n|---|---|---|---|\n",
    );
    for definition in &FIELDS {
        let unit = match definition.kind {
            Kind::Quantity(quantity) => match quantity.default_units {
                Some(units) => units.join(", "),
                None => quantity.unit.to_owned(),
            },
            Kind::Choice(choices) => choices.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", "),
            Kind::Flag => "yes, no".to_owned(),
            Kind::Text => String::new(),
        };
        let headings: Vec<&str> = definition.headings.iter().take(4).copied().collect();
        writeln!(table, "| `{}` | {unit} | {} | {} |", definition.name, headings.join(", "), definition.help).unwrap();
    }
    table
}

fn findings_table() -> String {
    let mut table = String::from("| code | | severity | rule |\n|---|---|---|---|\n");
    for code in catalogue::ALL {
        let name = code.name().replace('-', " ");
        writeln!(table, "| {} | {name} | {} | {} |", code.id(), code.severity().word(), code.rule()).unwrap();
    }
    table
}

fn with_section(text: &str, mark: &str, content: &str) -> String {
    let (open, close) = (format!("<!-- {mark} -->"), format!("<!-- /{mark} -->"));
    let start = text.find(&open).unwrap() + open.len();
    let end = text.find(&close).unwrap();
    format!("{}\n{content}{}", &text[..start], &text[end..])
}

#[test]
fn readme_tables_are_those_of_the_code() {
    let path = root().join("README.md");
    let text = std::fs::read_to_string(&path).unwrap();
    let made = with_section(&text, "columns", &columns_table());
    let made = with_section(&made, "findings", &findings_table());
    same_or_bless(&path, made.as_bytes());
}

/// The demo campaign's outputs that a person can read as a difference; the others are held by tests of their own.
const REPORTS: [&str; 4] = ["totals.csv", "orders.csv", "findings.csv", "run.json"];

#[test]
fn demo_reports_are_what_the_program_makes() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("campaign");
    let ran = Command::new(env!("CARGO_BIN_EXE_aftercrest"))
        .args(["plan", "--demo", "--out"])
        .arg(&out)
        .env_remove("SOURCE_DATE_EPOCH")
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(1), "{}", String::from_utf8_lossy(&ran.stderr));
    let reports = root().join("reports/demo");
    for name in REPORTS {
        same_or_bless(&reports.join(name), &std::fs::read(out.join(name)).unwrap());
    }
    let said = String::from_utf8(ran.stdout).unwrap().replace(&out.display().to_string(), "campaign");
    same_or_bless(&reports.join("said.txt"), said.as_bytes());
    // The README shows the head of it.
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    for line in said.lines().take(9) {
        assert!(readme.contains(line), "the README does not show {line:?}");
    }
}
