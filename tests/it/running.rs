//! Running the command and reading what it wrote, for the modules that test whole runs. No test of its own.

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::Command;

use calamine::{Data, Reader, Xlsx, open_workbook};
use tempfile::TempDir;

/// What the command answered.
pub struct Answer {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Answer {
    /// Fails with everything that was said, unless the command ended as it should.
    #[track_caller]
    pub fn ended(self, code: i32) -> Self {
        assert_eq!(self.code, code, "stdout:\n{}\nstderr:\n{}", self.out, self.err);
        for said in [&self.out, &self.err] {
            assert!(!said.contains("panicked") && !said.contains("this should not happen"), "{said}");
        }
        self
    }

    /// Fails unless both streams are what they should be.
    #[track_caller]
    pub fn said(&self, out: &str, err: &str) {
        assert_eq!(self.out, out, "standard output differs; standard error was:\n{}", self.err);
        assert_eq!(self.err, err, "standard error differs");
    }
}

/// The command, deaf to the surroundings of the test.
pub fn command() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_aftercrest"));
    command.env_remove("SOURCE_DATE_EPOCH").env_remove("RUST_BACKTRACE").env_remove("COLUMNS");
    command
}

/// Runs the command in the folder of the checkout.
pub fn run<S: AsRef<OsStr>>(arguments: &[S]) -> Answer {
    run_in(&root(), arguments)
}

/// Runs the command in a folder.
pub fn run_in<S: AsRef<OsStr>>(folder: &Path, arguments: &[S]) -> Answer {
    answer(command().current_dir(folder).args(arguments))
}

/// Waits for a command that is set up already.
pub fn answer(command: &mut Command) -> Answer {
    let output = command.output().unwrap();
    Answer {
        code: output.status.code().unwrap(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// The checkout.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// A folder that is gone when the test is.
pub fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// Writes a file into a folder.
pub fn place(folder: &Path, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
    let path = folder.join(name);
    std::fs::write(&path, content).unwrap();
    path
}

/// Names in a folder, in order, hidden ones too.
pub fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Every file of a folder with its bytes.
pub fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    names(folder).into_iter().map(|name| (name.clone(), std::fs::read(folder.join(name)).unwrap())).collect()
}

/// A row of a CSV table, by heading.
pub type Row = BTreeMap<String, String>;

/// Rows of a CSV table of a run; those of treatments with what the tables of visits and scenarios beside them add.
pub fn rows(path: &Path) -> Vec<Row> {
    let read = |path: &Path| -> Vec<Row> {
        let mut reader = csv::Reader::from_path(path).unwrap();
        reader.deserialize().map(|row| row.unwrap()).collect()
    };
    let mut rows = read(path);
    let (visits, scenarios) = (path.with_file_name("visits.csv"), path.with_file_name("scenarios.csv"));
    if path.file_name().is_some_and(|name| name == "treatments.csv") && visits.exists() {
        let (visits, scenarios) = (read(&visits), read(&scenarios));
        assert_eq!(rows.len(), visits.len() * scenarios.len(), "a row for each visit and scenario");
        for (at, row) in rows.iter_mut().enumerate() {
            let (visit, scenario) = (&visits[at / scenarios.len()], &scenarios[at % scenarios.len()]);
            for key in ["well_id", "visit", "region", "depot", "outcome", "reasons"] {
                assert_eq!(row[key], visit[key], "{key} finds the visit again");
            }
            assert_eq!(row["scenario"], scenario["scenario"]);
            for (name, cell) in visit.iter().chain(scenario) {
                row.entry(name.clone()).or_insert_with(|| cell.clone());
            }
        }
    }
    rows
}

/// Headings of a CSV table.
pub fn heads(path: &Path) -> Vec<String> {
    csv::Reader::from_path(path).unwrap().headers().unwrap().iter().map(str::to_owned).collect()
}

/// A cell as a number; NaN where it is empty.
#[track_caller]
pub fn number(row: &Row, column: &str) -> f64 {
    let text = row.get(column).unwrap_or_else(|| panic!("no column {column} in {row:?}"));
    if text.is_empty() { f64::NAN } else { text.parse().unwrap_or_else(|_| panic!("{column} is {text:?}")) }
}

/// Whether two numbers are the same within a share; two absent numbers are.
pub fn close(a: f64, b: f64, share: f64) -> bool {
    (a.is_nan() && b.is_nan()) || (a - b).abs() <= share * a.abs().max(b.abs()) || (a - b).abs() < 1e-300
}

/// Sheets of a workbook, from A1 on, each as rows of cells.
pub fn sheets(path: &Path) -> Vec<(String, Vec<Vec<Data>>)> {
    let mut book: Xlsx<_> = open_workbook(path).unwrap();
    book.sheet_names()
        .into_iter()
        .map(|name| {
            let range = book.worksheet_range(&name).unwrap();
            let end = range.end().unwrap_or((0, 0));
            let rows = range.range((0, 0), end).rows().map(<[Data]>::to_vec).collect();
            (name, rows)
        })
        .collect()
}

/// The parts of a workbook (or of any zip file), unpacked.
pub fn parts(path: &Path) -> BTreeMap<String, Vec<u8>> {
    let bytes = std::fs::read(path).unwrap();
    let two = |at: usize| usize::from(u16::from_le_bytes(bytes[at..at + 2].try_into().unwrap()));
    let four = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap()) as usize;
    // From the central directory, as the format wants it: local headers may leave the sizes out.
    let end = (0..bytes.len() - 21).rev().find(|&at| bytes[at..].starts_with(b"PK\x05\x06")).unwrap();
    let mut at = four(end + 16);
    let mut parts = BTreeMap::new();
    for _ in 0..two(end + 10) {
        let (method, packed, name_length) = (two(at + 10), four(at + 20), two(at + 28));
        let name = String::from_utf8(bytes[at + 46..at + 46 + name_length].to_vec()).unwrap();
        let local = four(at + 42);
        let start = local + 30 + two(local + 26) + two(local + 28);
        let content = &bytes[start..start + packed];
        let mut unpacked = Vec::new();
        match method {
            0 => unpacked.extend_from_slice(content),
            8 => {
                flate2::read::DeflateDecoder::new(content).read_to_end(&mut unpacked).unwrap();
            }
            other => panic!("{name} is packed by method {other}"),
        }
        parts.insert(name, unpacked);
        at += 46 + name_length + two(at + 30) + two(at + 32);
    }
    parts
}
