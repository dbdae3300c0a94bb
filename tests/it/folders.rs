//! What a run does to lists and folders that are not its own: pipes, lists that change, empty lists, files of somebody else,
//! formulas in headings, files made to fill the memory.

use std::io::Write;
use std::path::Path;
use std::process::Stdio;

use crate::formats::gzip;
use crate::running::{Answer, answer, command, contents, folder, heads, names, place, rows, run_in};

const HEAD: &str = "id,type,depth (ft),water level (ft),diameter (in),note";
const PLAN: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                    strength = { percent = 6, basis = \"weight_naocl\" }\n[[scenario]]\nname = \"all\"\nproduct = \"bleach\"\n";

fn list(rows: usize) -> String {
    let row = |at: usize| format!("W{at},drilled,180,40,6,some words about well {at}\n");
    format!("{HEAD}\n") + &(0..rows).map(row).collect::<String>()
}

fn ready(list: impl AsRef<[u8]>) -> tempfile::TempDir {
    let folder = folder();
    place(folder.path(), "wells.csv", list);
    place(folder.path(), "plan.toml", PLAN);
    folder
}

fn plan(folder: &Path, lists: &[&str], more: &[&str]) -> Answer {
    run_in(folder, &[&["plan"], lists, &["--scenarios", "plan.toml", "--out", "out"], more].concat())
}

fn rows_planned(folder: &Path) -> usize {
    rows(&folder.join("out/treatments.csv")).len()
}

#[cfg(unix)]
#[test]
fn a_pipe_is_read_once_and_whole() {
    let folder = ready(list(20_000));
    let pipe = folder.path().join("pipe.csv");
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let (from, to) = (folder.path().join("wells.csv"), pipe.clone());
    let writer = std::thread::spawn(move || std::fs::write(to, std::fs::read(from).unwrap()).unwrap());
    plan(folder.path(), &["pipe.csv"], &[]).ended(0);
    writer.join().unwrap();
    assert_eq!(rows_planned(folder.path()), 20_000);
    let digest = |name: &str| {
        let record = std::fs::read_to_string(folder.path().join(name).join("run.json")).unwrap();
        serde_json::from_str::<serde_json::Value>(&record).unwrap()["lists"][0]["sha256"].clone()
    };
    run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "plain"]).ended(0);
    assert_eq!(digest("out"), digest("plain"), "the digest is of the bytes that were read");
    // Standard input under its other name.
    let mut child = command()
        .current_dir(folder.path())
        .args(["plan", "/dev/stdin", "--scenarios", "plan.toml", "--out", "third"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(list(5_000).as_bytes()).unwrap();
    assert!(child.wait().unwrap().success());
    assert_eq!(rows(&folder.path().join("third/treatments.csv")).len(), 5_000);
}

/// Changes the file while it is read, as often as it takes to be in time.
#[test]
fn a_list_that_changes_while_it_is_read_ends_the_run() {
    let folder = ready(list(200_000));
    let path = folder.path().join("wells.csv");
    let mut child = command()
        .current_dir(folder.path())
        .args(["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out", "--threads", "1"])
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    while child.try_wait().unwrap().is_none() {
        let file = std::fs::OpenOptions::new().append(true).open(&path);
        file.unwrap().write_all(b"N,drilled,180,40,6,added\n").unwrap();
        std::thread::sleep(std::time::Duration::from_millis(1));
    }
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("changed while it was being read"), "{said}");
    assert!(!folder.path().join("out").exists());
}

#[test]
fn an_empty_list_ends_the_run_and_leaves_the_folder_alone() {
    let folder = ready(list(3));
    plan(folder.path(), &["wells.csv"], &[]).ended(0);
    let before = contents(&folder.path().join("out"));
    place(folder.path(), "empty.csv", "");
    place(folder.path(), "heading.csv", format!("{HEAD}\n"));
    place(folder.path(), "blank.csv", "\n\n  \n");
    place(folder.path(), "foreign.csv", "a,b\n1,2\n3,4\n");
    for lists in [&["empty.csv"][..], &["wells.csv", "heading.csv"], &["blank.csv"], &["wells.csv", "foreign.csv"]] {
        let said = plan(folder.path(), lists, &[]).ended(2);
        assert!(said.err.contains("cannot be planned with"), "{lists:?} {}", said.err);
        assert!(contents(&folder.path().join("out")) == before, "{lists:?}");
        let said = run_in(folder.path(), &[&["check"], lists, &["--units", "us"]].concat()).ended(2);
        assert!(said.err.contains("cannot be planned with"), "{lists:?} {}", said.err);
    }
    #[cfg(unix)]
    plan(folder.path(), &["/dev/null"], &[]).ended(2);
    assert!(contents(&folder.path().join("out")) == before);
}

#[test]
fn files_of_somebody_else_are_never_replaced() {
    for name in ["orders.csv", "campaign.xlsx", "treatments.parquet", "run.json", "totals.csv"] {
        let folder = ready(list(3));
        std::fs::create_dir(folder.path().join("out")).unwrap();
        place(&folder.path().join("out"), name, "mine");
        let before = contents(&folder.path().join("out"));
        let said = plan(folder.path(), &["wells.csv"], &[]).ended(2);
        assert!(said.err.contains(name) && said.err.contains("--replace"), "{}", said.err);
        assert!(contents(&folder.path().join("out")) == before, "{name}");
        plan(folder.path(), &["wells.csv"], &["--replace"]).ended(0);
        assert!(!names(&folder.path().join("out")).contains(&"treatments.parquet".to_owned()), "{name}");
        assert_ne!(contents(&folder.path().join("out")).get(name).map(Vec::as_slice), Some(&b"mine"[..]), "{name}");
    }
}

#[test]
fn our_own_files_are_replaced_until_somebody_edits_them() {
    let folder = ready(list(3));
    let out = folder.path().join("out");
    plan(folder.path(), &["wells.csv"], &["--table", "parquet"]).ended(0);
    place(&out, "diary.txt", "mine");
    plan(folder.path(), &["wells.csv"], &["--table", "csv"]).ended(0);
    assert!(names(&out).contains(&"diary.txt".to_owned()));
    assert!(!names(&out).contains(&"treatments.parquet".to_owned()), "a stale output of ours is cleared away");
    let mut orders = std::fs::read_to_string(out.join("orders.csv")).unwrap();
    orders.push_str("a line of my own\n");
    place(&out, "orders.csv", &orders);
    let said = plan(folder.path(), &["wells.csv"], &[]).ended(2);
    assert!(said.err.contains("orders.csv") && said.err.contains("edited"), "{}", said.err);
    assert_eq!(std::fs::read_to_string(out.join("orders.csv")).unwrap(), orders);
    plan(folder.path(), &["wells.csv"], &["--replace"]).ended(0);
    plan(folder.path(), &["wells.csv"], &[]).ended(0);
}

/// What a spreadsheet takes for a formula: OWASP, "CSV Injection" (from memory): a cell that begins with `=`, `+`, `-`, `@`,
/// a tab, a carriage return or a line feed, also behind a separator of another country.
#[test]
fn headings_are_no_formulas() {
    let heading = "=HYPERLINK(\"\"http://example.org\"\")";
    let text = format!("{HEAD},\"{heading}\",+cmd,@sum\nA,drilled,180,40,6,\"x;=1+1\",\"\n=2+2\",-3,-x\n");
    let folder = ready(text);
    plan(folder.path(), &["wells.csv"], &[]).ended(0);
    let heads = heads(&folder.path().join("out/visits.csv"));
    for head in &heads {
        assert!(!head.starts_with(['=', '+', '-', '@']), "{head}");
    }
    assert!(heads.iter().any(|head| head.starts_with("'=HYPERLINK(")), "{heads:?}");
    let row = &rows(&folder.path().join("out/treatments.csv"))[0];
    assert!(row.values().any(|cell| cell == "x;'=1+1") || row.values().all(|cell| !cell.contains(";=")), "{row:?}");
    assert!(row.values().all(|cell| !cell.trim_start_matches('\n').starts_with('=')), "{row:?}");
    assert!(row.values().any(|cell| cell == "-3"), "a number stays a number: {row:?}");
}

#[test]
fn a_cell_longer_than_a_spreadsheets_holds_its_row_back() {
    let long = |letters: usize| "é".repeat(letters);
    let text = format!("{HEAD}\nA,drilled,180,40,6,{}\nB,drilled,180,40,6,{}\n", long(32_767), long(32_768));
    let folder = ready(text);
    plan(folder.path(), &["wells.csv"], &[]).ended(1);
    let held: Vec<String> = rows(&folder.path().join("out/treatments.csv"))
        .iter()
        .filter(|row| row["outcome"] == "held_back")
        .map(|row| row["well_id"].clone() + &row["reasons"])
        .collect();
    assert_eq!(held, ["BC140"]);
}

/// Runs in 2.5 GB of addresses: what is small on disk must not be great in memory.
#[cfg(target_os = "linux")]
#[test]
fn small_files_do_not_fill_the_memory() {
    let folder = ready("");
    let heads = "id,type,depth (ft),water level (ft),diameter (in)";
    // A compressed list of lines of 9 MB.
    let lines = format!("{heads}\n{}\n", "x".repeat(9 << 20)).repeat(3);
    place(folder.path(), "lines.csv.gz", gzip(lines.as_bytes()));
    // Rows of 1,000 cells of 30,000 letters each, under headings that are carried along.
    let carried: String = (0..100).map(|at| format!(",c{at}")).collect();
    let cells = format!(",{}", "y".repeat(30_000)).repeat(100);
    let wide: String = (0..60).map(|at| format!("W{at},drilled,180,40,6{cells}\n")).collect();
    place(folder.path(), "wide.csv.gz", gzip(format!("{heads}{carried}\nW,drilled,180,40,6\n{wide}").as_bytes()));
    // One text of the longest that a workbook may hold, in 10,000 cells; it stands in the file once.
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    let remark = "r".repeat(32_767);
    for (column, head) in heads.split(',').chain(["remark"]).enumerate() {
        sheet.write_string(0, column as u16, head).unwrap();
    }
    for row in 1..=10_000 {
        sheet.write_string(row, 0, format!("W{row}")).unwrap().write_string(row, 1, "drilled").unwrap();
        for (column, number) in [(2, 180.0), (3, 40.0), (4, 6.0)] {
            sheet.write_number(row, column, number).unwrap();
        }
        sheet.write_string(row, 5, &remark).unwrap();
    }
    book.save(folder.path().join("remarks.xlsx")).unwrap();
    for (name, wanted) in [("lines.csv.gz", Some(2)), ("wide.csv.gz", Some(0)), ("remarks.xlsx", Some(0))] {
        let line = format!(
            "ulimit -v 2500000; exec '{}' plan {name} --scenarios plan.toml --out out-{name} --table parquet --threads 2",
            env!("CARGO_BIN_EXE_aftercrest")
        );
        let mut shell = std::process::Command::new("sh");
        let said = answer(shell.current_dir(folder.path()).args(["-c", &line]));
        assert_eq!(Some(said.code), wanted, "{name}: {}", said.err);
        assert!(!said.err.contains("panicked") && !said.err.contains("memory allocation"), "{name}: {}", said.err);
    }
}
