//! Kinds of files through the command: whatever it is typed into, the same list gives the same plan. What each kind can
//! hold wrong is in `reading` (`fixtures/dirty`).

use std::io::Write;
use std::path::Path;
use std::process::Stdio;

use crate::reading::fixtures;
use crate::running::{Answer, command, folder, place, rows, run_in};

const LIST: &str = "well_id,well_type,depth (ft),water level (ft),casing diameter (in),route,Zürich crew\n\
                    0071,drilled,180,40.5,6,land,north\n0072,dug,20,8.25,36,land,\n";
const SCENARIOS: &str = "[campaign]\nunits = \"us\"\n[inventory.columns]\nroute = \"discharge_route\"\n\
                         [[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                         strength = { percent = 6, basis = \"weight_naocl\" }\n";

/// Compressed.
pub fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::default());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

fn utf_16(text: &str, little: bool) -> Vec<u8> {
    text.encode_utf16().flat_map(|unit| if little { unit.to_le_bytes() } else { unit.to_be_bytes() }).collect()
}

fn with_mark(mark: &[u8], bytes: Vec<u8>) -> Vec<u8> {
    [mark, &bytes].concat()
}

/// Plans what is named, with `piped` on standard input, and returns the answer.
fn plan(at: &Path, lists: &[&str], piped: &[u8]) -> Answer {
    let mut arguments = vec!["plan"];
    arguments.extend(lists);
    arguments.extend(["--scenarios", "plan.toml", "--out", "out"]);
    ask(at, &arguments, piped)
}

fn ask(at: &Path, arguments: &[&str], piped: &[u8]) -> Answer {
    let mut child = command()
        .current_dir(at)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // What is refused may be refused before all of it is read.
    let _ = child.stdin.take().unwrap().write_all(piped);
    let output = child.wait_with_output().unwrap();
    Answer {
        code: output.status.code().unwrap(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Visits and treatments of the last plan, without the place of each row: files and sheets have names of their own.
fn treatments(at: &Path) -> String {
    let mut rows = rows(&at.join("out/treatments.csv"));
    rows.iter_mut().for_each(|row| row.retain(|name, _| !["file", "sheet", "row"].contains(&name.as_str())));
    rows.iter().map(|row| format!("{row:?}\n")).collect()
}

fn at_work() -> tempfile::TempDir {
    let folder = folder();
    place(folder.path(), "plan.toml", SCENARIOS);
    folder
}

/// The plan of the plain CSV, against which every other kind is held.
fn plain() -> String {
    let folder = at_work();
    place(folder.path(), "wells.csv", LIST);
    plan(folder.path(), &["wells.csv"], b"").ended(0);
    let treatments = treatments(folder.path());
    assert!(treatments.contains("0071") && treatments.contains("Zürich crew"), "{treatments}");
    treatments
}

#[test]
fn the_same_list_in_every_kind_of_text_file() {
    let plain = plain();
    let tabs = LIST.replace(',', "\t");
    let files: [(&str, Vec<u8>); 10] = [
        ("wells.csv.gz", gzip(LIST.as_bytes())),
        ("wells.tsv", tabs.clone().into()),
        ("wells.tsv.gz", gzip(tabs.as_bytes())),
        ("wells.psv", LIST.replace(',', "|").into()),
        ("semicolons.csv", LIST.replace(',', ";").into()),
        // As a spreadsheet program's "Unicode text": tabs, a mark and two bytes a character.
        ("unicode.txt", with_mark(&[0xff, 0xfe], utf_16(&tabs, true))),
        ("utf-16.tsv", with_mark(&[0xfe, 0xff], utf_16(&tabs, false))),
        ("utf-16-unmarked.tsv", utf_16(&tabs, true)),
        ("utf-16.tsv.gz", gzip(&with_mark(&[0xff, 0xfe], utf_16(&tabs, true)))),
        ("marked.csv", with_mark(&[0xef, 0xbb, 0xbf], LIST.into())),
    ];
    for (name, bytes) in files {
        let folder = at_work();
        place(folder.path(), name, bytes);
        plan(folder.path(), &[name], b"").ended(0);
        assert_eq!(treatments(folder.path()), plain, "{name}");
    }
}

/// What other programs read in the two workbooks was looked at: LibreOffice 7 shows the same cells of both.
#[test]
fn the_same_workbook_in_its_binary_form_and_with_macros() {
    let folder = at_work();
    let head = "well_id,well_type,depth (ft),water level (ft),diameter (inches)";
    // The rows as `fixtures/workbooks.py` puts them into both; dates and errors as a person would type them.
    place(
        folder.path(),
        "wells.csv",
        format!(
            "{head},flooded,crew,drilled on\n0071,drilled,180,40.5,6,yes,north,2024-06-08\n\
             W2,dug,20,8.25,36,no,crew of the east,\nW3,drilled,#N/A,40,6,,north,\n"
        ),
    );
    place(folder.path(), "south.csv", format!("{head}\nW4,drilled,150,30,8-Jun\n"));
    plan(folder.path(), &["wells.csv", "south.csv"], b"").ended(1);
    let typed = treatments(folder.path());
    assert!(typed.contains("0071") && typed.contains("2024-06-08"), "{typed}");
    for name in ["binary-workbook.xlsb", "macro-workbook.xlsm"] {
        let list = fixtures("dirty").join(name);
        let answer = plan(folder.path(), &[list.to_str().unwrap()], b"").ended(1);
        assert_eq!(treatments(folder.path()), typed, "{name}");
        assert!(answer.out.contains("2 of 4 well visits planned"), "{}", answer.out);
        let findings = rows(&folder.path().join("out/findings.csv"));
        let dates: Vec<_> = findings.iter().filter(|finding| finding["code"] == "C111").collect();
        assert_eq!(dates.len(), 1, "{name}");
        assert_eq!((&*dates[0]["sheet"], &*dates[0]["row"], &*dates[0]["column"]), ("South", "2", "E"), "{name}");
    }
}

#[test]
fn patterns_name_files_in_order_and_never_more_than_they_say() {
    let folder = at_work();
    std::fs::create_dir(folder.path().join("lists")).unwrap();
    let lists = folder.path().join("lists");
    for (name, id) in [
        ("county-b.csv", "B"),
        ("county-a.csv", "A"),
        ("county-10.tsv", "T"),
        ("notes.csv", "N"),
        (".county-hidden.csv", "H"),
        ("~$county-c.csv", "L"),
        ("county-a.csv.bak", "K"),
    ] {
        let text = LIST.replace("007", id);
        place(&lists, name, if name.ends_with("tsv") { text.replace(',', "\t") } else { text });
    }
    let ids = |pattern: &str| -> Vec<String> {
        // Quoted, so that it is the command and not a shell that finds the files.
        plan(folder.path(), &[pattern], b"").ended(0);
        let rows = rows(&folder.path().join("out/treatments.csv"));
        rows.iter().map(|row| row["well_id"].clone()).collect()
    };
    assert_eq!(ids("lists/county-?.csv"), ["A1", "A2", "B1", "B2"]);
    assert_eq!(ids("lists/county-*.?sv"), ["T1", "T2", "A1", "A2", "B1", "B2"]);
    assert_eq!(ids("lists/*b.c*"), ["B1", "B2"]);
    assert_eq!(ids("lists"), ["T1", "T2", "A1", "A2", "B1", "B2", "N1", "N2"]);
    let answer = plan(folder.path(), &["lists/county-z*.csv"], b"").ended(2);
    assert_eq!(answer.err, "error: cannot read lists/county-z*.csv: no file fits this pattern\n");
    // A file that is called like a pattern is that file.
    place(&lists, "county-*.csv", LIST.replace("007", "S"));
    assert_eq!(ids("lists/county-*.csv"), ["S1", "S2"]);
}

#[test]
fn a_list_may_be_piped_in() {
    let plain = plain();
    let tabs = LIST.replace(',', "\t");
    for (what, bytes) in [
        ("CSV", LIST.as_bytes().to_vec()),
        ("compressed CSV", gzip(LIST.as_bytes())),
        ("TSV", tabs.clone().into()),
        ("UTF-16 with tabs", with_mark(&[0xff, 0xfe], utf_16(&tabs, true))),
    ] {
        let folder = at_work();
        plan(folder.path(), &["-"], &bytes).ended(0);
        assert_eq!(treatments(folder.path()), plain, "{what}");
    }
    // Beside files, in the order named; findings call it by what it is.
    let folder = at_work();
    place(folder.path(), "wells.csv", LIST);
    let piped = LIST.replace("007", "P").replace("180", "30").replace("P2,dug", "P2,hole");
    let answer =
        ask(folder.path(), &["check", "wells.csv", "-", "--scenarios", "plan.toml", "--all"], piped.as_bytes())
            .ended(1);
    assert!(answer.out.contains("standard input:3:2  column \"well_type\"  well P2"), "{}", answer.out);
    assert!(answer.out.contains("3 of 4 wells can be planned now"), "{}", answer.out);
}

#[test]
fn what_cannot_be_piped_in_is_refused_in_words() {
    let folder = at_work();
    place(folder.path(), "wells.csv", LIST);
    let only_text = "error: cannot read standard input: only text can be piped in: save this workbook or Parquet file and \
                     name the file\n";
    for name in
        ["dirty/two-sheets.xlsx", "dirty/binary-workbook.xlsb", "dirty/old-workbook.xls", "dirty/open-document.ods"]
    {
        let bytes = std::fs::read(fixtures(name)).unwrap();
        let answer = plan(folder.path(), &["-"], &bytes).ended(2);
        assert_eq!(answer.err, only_text, "{name}");
    }
    // A Parquet file begins so.
    assert_eq!(plan(folder.path(), &["-"], b"PAR1\x15\x04\x15\0").ended(2).err, only_text);
    let compressed = gzip(&std::fs::read(fixtures("dirty/two-sheets.xlsx")).unwrap());
    place(folder.path(), "wells.xlsx.gz", compressed);
    let answer = plan(folder.path(), &["wells.xlsx.gz"], b"").ended(2);
    assert!(answer.err.contains("a workbook or Parquet file lies compressed in it: unpack it first"), "{}", answer.err);
    let answer = plan(folder.path(), &["-"], &[0, 1, 2, 0, 3, 0, 0, 9]).ended(2);
    assert!(answer.err.contains("it is neither text nor a workbook"), "{}", answer.err);
    let answer = plan(folder.path(), &["-", "-"], LIST.as_bytes()).ended(2);
    assert_eq!(answer.err, "error: standard input can be read once: name - once\n");
    // What needs two readings of the list says so.
    place(
        folder.path(),
        "plan.toml",
        SCENARIOS.replace("[inventory.columns]", "[inventory]\nrepeats = \"latest\"\n[inventory.columns]"),
    );
    let answer = plan(folder.path(), &["-"], LIST.as_bytes()).ended(2);
    assert!(
        answer.err.contains("need the list to be read twice; standard input and pipes cannot be"),
        "{}",
        answer.err
    );
    assert_eq!(run_in(folder.path(), &["check", "nothing-*.xlsx"]).ended(2).out, "");
}
