//! The same bytes every time: on any number of threads, twice, and on any day; and text that looks like a formula stays
//! text, while numbers stay numbers.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

use aftercrest::document::cell::{Book, Cell, Grid, Paper, Sheet, Value};
use aftercrest::write::{csv, xlsx};
use calamine::Data;

use crate::running::{answer, command, contents, folder, heads, names, parts, place, root, rows, sheets};

/// Rows of the generated list: several batches, so that threads have something to disorder.
const ROWS: usize = 30_000;

const SCENARIOS: &str = r#"
[campaign]
units = "us"
group_by = ["region", "depot", "Road"]
[practice]
demand_mg_per_l = 2.5
repeat_share = 0.15
handling_loss = 0.05
flush_rate = "6 gpm"
[[product]]
name = "liquid"
chemical = "sodium_hypochlorite"
strength = { percent = 12.5, basis = "trade" }
age_days = 40
storage = "22 C"
packages = [{ size = "5 gal", price = 24 }, { size = "55 gal", price = 190 }]
[[product]]
name = "granules"
chemical = "calcium_hypochlorite"
strength = { percent = 65, basis = "weight_available_chlorine" }
packages = [{ size = "25 lb", price = 98 }]
[[override]]
where = "well_type = 'dug' AND flooded"
set = { target_mg_per_l = 200 }
[missing.drilled]
casing_diameter = { low = "5 in", mid = "6 in", high = "8 in" }
"#;

/// A list with everything that could come out in another order: many groups, gaps, repeats, findings.
fn generated() -> String {
    let mut state = 17_u64;
    let mut below = |limit: u64| {
        // The high bits of a linear congruence; its low ones repeat.
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % limit
    };
    let mut list =
        "well_id,region,depot,well_type,depth (ft),water level (ft),casing diameter (in),ph,alkalinity,iron,flooded,\
                    discharge_route,Road\n"
            .to_owned();
    for row in 0..ROWS {
        let kind = ["drilled", "driven", "bored", "dug"][below(4) as usize];
        let depth = 20.0 + below(4000) as f64 / 10.0;
        let level = depth * (5 + below(97)) as f64 / 100.0;
        let diameter = if below(9) == 0 { String::new() } else { format!("{}", 2 + below(10)) };
        let (ph, alkalinity) = if below(3) == 0 {
            (String::new(), String::new())
        } else {
            (format!("{}", 5.5 + below(35) as f64 / 10.0), format!("{}", 10 + below(400)))
        };
        let iron = ["", "0.3", "4.7", "n/a"][below(4) as usize];
        let route = ["", "land", "stream", "septic"][below(4) as usize];
        let id = if below(200) == 0 { 1 } else { row };
        let _ = writeln!(
            list,
            "W{id},R{},D{},{kind},{depth:.1},{level:.2},{diameter},{ph},{alkalinity},{iron},{},{route},={}",
            below(40),
            below(25),
            ["yes", "no", ""][below(3) as usize],
            below(3)
        );
    }
    list
}

fn plan(folder: &Path, out: &str, threads: &str, table: &str, epoch: Option<&str>) {
    let mut command = command();
    command.current_dir(folder).args(["plan", "list.csv", "--scenarios", "plan.toml"]);
    command.args(["--out", out, "--threads", threads, "--table", table]);
    if let Some(epoch) = epoch {
        command.env("SOURCE_DATE_EPOCH", epoch);
    }
    answer(&mut command).ended(1);
}

/// Fails with the names of the files that differ.
#[track_caller]
fn same(folder: &Path, one: &str, other: &str) {
    let (a, b) = (contents(&folder.join(one)), contents(&folder.join(other)));
    assert_eq!(a.keys().collect::<Vec<_>>(), b.keys().collect::<Vec<_>>());
    let differ: Vec<&String> = a.iter().filter(|(name, bytes)| b[*name] != **bytes).map(|(name, _)| name).collect();
    assert!(differ.is_empty(), "{one} and {other} differ in {differ:?}");
}

#[test]
fn a_long_list_gives_the_same_bytes_on_any_number_of_threads() {
    let folder = folder();
    place(folder.path(), "list.csv", generated());
    place(folder.path(), "plan.toml", SCENARIOS);
    for table in ["csv", "parquet"] {
        plan(folder.path(), &format!("{table}-1"), "1", table, None);
        for (out, threads) in [("2", "2"), ("2-again", "2"), ("5", "5")] {
            let out = format!("{table}-{out}");
            plan(folder.path(), &out, threads, table, None);
            same(folder.path(), &format!("{table}-1"), &out);
        }
    }
    let treatments = rows(&folder.path().join("csv-1/treatments.csv"));
    assert_eq!(treatments.len(), 2 * ROWS);
    // In the order of the list.
    let roads: Vec<&str> = treatments.iter().step_by(2).map(|row| row["Road"].as_str()).collect();
    let typed: Vec<String> =
        generated().lines().skip(1).map(|line| format!("'{}", line.rsplit(',').next().unwrap())).collect();
    assert!(roads == typed);
    // The other files say the same whatever the table is.
    for file in ["totals.csv", "orders.csv", "findings.csv"] {
        let read = |table: &str| std::fs::read(folder.path().join(format!("{table}-1")).join(file)).unwrap();
        assert!(read("csv") == read("parquet"), "{file}");
    }
}

#[test]
fn the_day_is_in_the_record_and_the_workbook_only() {
    let folder = folder();
    let lists = ["fixtures/demo/harrowfen-county.xlsx", "fixtures/demo/quillmoor-county.csv"];
    let plan = |out: &str, threads: &str, epoch: Option<&str>| {
        let mut command = command();
        command.current_dir(root()).arg("plan").args(lists).args([
            "--scenarios",
            "scenarios/demo.toml",
            "--threads",
            threads,
        ]);
        command.arg("--out").arg(folder.path().join(out));
        if let Some(epoch) = epoch {
            command.env("SOURCE_DATE_EPOCH", epoch);
        }
        answer(&mut command).ended(1);
    };
    plan("undated", "1", None);
    plan("undated-again", "3", None);
    same(folder.path(), "undated", "undated-again");
    plan("day", "2", Some("1780000000"));
    plan("same-day", "1", Some("1780000001"));
    same(folder.path(), "day", "same-day");
    plan("later", "2", Some("1790000000"));
    let (day, later) = (contents(&folder.path().join("day")), contents(&folder.path().join("later")));
    let differ: Vec<&str> =
        day.iter().filter(|(name, bytes)| later[*name] != **bytes).map(|(name, _)| name.as_str()).collect();
    assert_eq!(differ, ["campaign.xlsx", "report.html", "run.json"]);
    let page = |run: &BTreeMap<String, Vec<u8>>, day: &str| {
        String::from_utf8(run["report.html"].clone()).unwrap().replace(day, "DAY")
    };
    assert_eq!(page(&day, "2026-05-28"), page(&later, "2026-09-21"), "the report differs in more than the day");
    let date = |folder_name: &str| -> serde_json::Value {
        let bytes = std::fs::read(folder.path().join(folder_name).join("run.json")).unwrap();
        serde_json::from_slice::<serde_json::Value>(&bytes).unwrap()["date"].clone()
    };
    assert_eq!((date("day"), date("undated")), ("2026-05-28".into(), serde_json::Value::Null));
    // In the workbook: the document's properties, and the line that names the day.
    let (a, b) = (parts(&folder.path().join("day/campaign.xlsx")), parts(&folder.path().join("later/campaign.xlsx")));
    let parts_that_differ: BTreeSet<&str> =
        a.iter().filter(|(name, bytes)| b[*name] != **bytes).map(|(name, _)| name.as_str()).collect();
    assert!(parts_that_differ.contains("docProps/core.xml"), "{parts_that_differ:?}");
    for name in &parts_that_differ {
        let plain = |bytes: &[u8], days: &[&str]| {
            days.iter().fold(String::from_utf8(bytes.to_vec()).unwrap(), |text, day| text.replace(day, "DAY"))
        };
        assert_eq!(
            plain(&a[*name], &["2026-05-28"]),
            plain(&b[*name], &["2026-09-21"]),
            "{name} differs in more than the day"
        );
    }
}

/// Texts as lists have them, by accident or by ill will.
const TRICKY: [&str; 12] =
    ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "=HYPERLINK(\"http://x\")", "-5", "+5", "- ", "-", "=", "\tcell", "'quoted"];

#[test]
fn text_that_looks_like_a_formula_stays_text() {
    let folder = folder();
    let mut list = "well_id,well_type,depth (ft),water level (ft),casing diameter (in),depot,Lane\n".to_owned();
    for (at, text) in TRICKY.iter().enumerate() {
        let quoted = text.replace('"', "\"\"");
        let _ = writeln!(list, "\"{quoted}\",drilled,18{at},40,6,\"{quoted}\",\"{quoted}\"");
    }
    place(folder.path(), "list.csv", &list);
    place(folder.path(), "plan.toml", SCENARIOS.replace("\"region\", \"depot\", \"Road\"", "\"depot\", \"Lane\""));
    let mut command = command();
    command.current_dir(folder.path()).args(["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out"]);
    let answered = answer(&mut command);
    assert!(answered.code < 2, "{}", answered.err);
    let out = folder.path().join("out");
    for name in names(&out).iter().filter(|name| name.ends_with(".csv")) {
        let mut reader = ::csv::Reader::from_path(out.join(name)).unwrap();
        for record in reader.records() {
            for cell in &record.unwrap() {
                let tame = !cell.starts_with(['=', '+', '@', '\t', '\r'])
                    && (!cell.starts_with('-') || cell.parse::<f64>().is_ok() || cell.trim() == "-");
                assert!(tame || cell.parse::<f64>().is_ok(), "{name}: {cell:?} would be taken for a formula");
            }
        }
    }
    let ids: BTreeSet<String> = rows(&out.join("treatments.csv")).into_iter().map(|row| row["Lane"].clone()).collect();
    assert!(ids.contains("'=1+1") && ids.contains("-5") && ids.contains("'quoted"), "{ids:?}");
    // A workbook needs no apostrophe: a text cell is a text cell.
    let mut seen = BTreeSet::new();
    for (_, rows) in sheets(&out.join("campaign.xlsx")) {
        for cell in rows.into_iter().flatten() {
            match cell {
                Data::String(text) => drop(seen.insert(text)),
                Data::Error(error) => panic!("{error:?}"),
                _ => {}
            }
        }
    }
    for text in ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "-5", "+5"] {
        assert!(seen.contains(text), "{text:?} is not in the workbook as text: {seen:?}");
    }
    let packed = parts(&out.join("campaign.xlsx"));
    for (name, bytes) in packed.iter().filter(|(name, _)| name.starts_with("xl/worksheets/")) {
        let text = String::from_utf8_lossy(bytes);
        for piece in text.split("<f>").skip(1) {
            let formula = piece.split("</f>").next().unwrap();
            assert!(
                !TRICKY.iter().any(|tricky| tricky.trim_start_matches('=') == formula && formula.len() > 1),
                "{name}: {formula}"
            );
        }
    }
}

#[test]
fn numbers_stay_numbers_negative_ones_too() {
    let folder = folder();
    let values = [-3.25, -0.0, -1e-9, 0.1 + 0.2, 1e21, 123_456_789.123_456_79, f64::MIN_POSITIVE];
    let row: Vec<Value> = values
        .iter()
        .map(|value| Value::number(*value, 2))
        .chain([Value::Count(7), Value::text("-3.25 m"), Value::Empty])
        .collect();
    let heads = (0..row.len()).map(|at| format!("c{at}")).collect();
    let path = folder.path().join("grid.csv");
    csv::write_grid(&path, &Grid { heads, rows: vec![row.clone()] }).unwrap();
    let written = &rows(&path)[0];
    for (at, value) in values.iter().enumerate() {
        let read: f64 = written[&format!("c{at}")].parse().unwrap();
        assert_eq!(read.to_bits(), value.to_bits(), "{value} became {read}");
    }
    assert_eq!((written["c7"].as_str(), written["c8"].as_str(), written["c9"].as_str()), ("7", "'-3.25 m", ""));

    let mut sheet = Sheet::new("Numbers");
    sheet.push(row.into_iter().map(|value| Cell::new(value, aftercrest::document::cell::Role::Body)).collect());
    let path = folder.path().join("book.xlsx");
    let book = Book {
        title: "Numbers".to_owned(),
        date: None,
        sheets: vec![sheet],
        names: Vec::new(),
        paper: Paper::default(),
    };
    xlsx::write_book(&path, &book).unwrap();
    let first = std::fs::read(&path).unwrap();
    xlsx::write_book(&path, &book).unwrap();
    assert!(first == std::fs::read(&path).unwrap());
    let read = &sheets(&path)[0].1[0];
    for (at, value) in values.iter().enumerate() {
        match read[at] {
            Data::Float(read) => assert!((read - value).abs() <= 1e-15 * value.abs(), "{value} became {read}"),
            Data::Int(read) => assert_eq!(read as f64, *value),
            ref other => panic!("{value} became {other:?}"),
        }
    }
    assert_eq!(read[8], Data::String("-3.25 m".to_owned()));
}

#[test]
fn parquet_and_csv_hold_the_same_cells() {
    let folder = folder();
    let list: String = generated().lines().take(9_000).map(|line| format!("{line}\n")).collect();
    place(folder.path(), "list.csv", list);
    place(folder.path(), "plan.toml", SCENARIOS);
    for table in ["csv", "parquet"] {
        plan(folder.path(), table, "2", table, None);
    }
    let columns = parquet_columns(&folder.path().join("parquet/treatments.parquet"));
    let table = rows(&folder.path().join("csv/treatments.csv"));
    let heads = heads(&folder.path().join("csv/treatments.csv"));
    let names: Vec<&str> = columns.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, heads);
    for (name, cells) in &columns {
        match cells {
            Cells::Numbers(found) => {
                let wanted = |cell: &String| (!cell.is_empty()).then(|| cell.parse::<f64>().unwrap().to_bits());
                let wanted: Vec<Option<u64>> = table.iter().map(|row| wanted(&row[name])).collect();
                assert_eq!(*found, wanted, "{name}");
            }
            Cells::Texts(found) => {
                // An absent text is absent; a table for machines needs no apostrophe.
                let plain = |cell: &String| cell.strip_prefix('\'').unwrap_or(cell).to_owned();
                let wanted: Vec<Option<String>> =
                    table.iter().map(|row| Some(plain(&row[name])).filter(|cell| !cell.is_empty())).collect();
                assert_eq!(*found, wanted, "{name}");
            }
        }
    }
}

/// Cells of one column; numbers by their bits.
enum Cells {
    Numbers(Vec<Option<u64>>),
    Texts(Vec<Option<String>>),
}

/// A Parquet file read back, by the reader underneath polars alone: its own feature would build every codec.
fn parquet_columns(path: &Path) -> Vec<(String, Cells)> {
    use polars_arrow::array::{PrimitiveArray, Utf8ViewArray};
    use polars_arrow::datatypes::ArrowDataType;
    use polars_buffer::Buffer;
    use polars_parquet::read::{BasicDecompressor, PageReader, column_iter_to_arrays, infer_schema, read_metadata};

    let bytes = Buffer::from(std::fs::read(path).unwrap());
    let metadata = read_metadata(&mut std::io::Cursor::new(bytes.as_slice())).unwrap();
    let schema = infer_schema(&metadata).unwrap();
    let column = |field: &polars_arrow::datatypes::Field| {
        let is_number = field.dtype == ArrowDataType::Float64;
        let mut cells = if is_number { Cells::Numbers(Vec::new()) } else { Cells::Texts(Vec::new()) };
        for group in &metadata.row_groups {
            let [chunk] = group.columns_under_root_iter(&field.name).unwrap().collect::<Vec<_>>()[..] else {
                panic!("{} is nested", field.name)
            };
            let range = chunk.byte_range();
            let chunk_bytes = bytes.clone().sliced(range.start as usize..range.end as usize);
            let pages = PageReader::new(std::io::Cursor::new(chunk_bytes), chunk, Vec::new(), usize::MAX);
            let types = vec![&chunk.descriptor().descriptor.primitive_type];
            let pages = vec![BasicDecompressor::new(pages, Vec::new())];
            for array in column_iter_to_arrays(pages, types, field.clone(), None).unwrap().0 {
                match &mut cells {
                    Cells::Numbers(cells) => {
                        let array = array.as_any().downcast_ref::<PrimitiveArray<f64>>().unwrap();
                        cells.extend(array.iter().map(|cell| cell.map(|number| number.to_bits())));
                    }
                    Cells::Texts(cells) => {
                        let array = array.as_any().downcast_ref::<Utf8ViewArray>().unwrap();
                        cells.extend(array.iter().map(|cell| cell.map(str::to_owned)));
                    }
                }
            }
        }
        (field.name.to_string(), cells)
    };
    schema.iter_values().map(column).collect()
}
