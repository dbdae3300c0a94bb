//! What the lists are worth: completeness, ranges, clusters, what rests on assumptions, and the ten repairs, against a
//! plain recount of the same list.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use calamine::Data;
use serde_json::Value;

use crate::running::{close, contents, folder, place, rows, run, sheets};

const SCENARIOS: &str = r#"
[campaign]
units = "us"

[[product]]
name     = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
age_days = 60
storage  = "20 C"

[missing]
drilled = { casing_diameter = { low = "5 in", mid = "6 in", high = "8 in" } }
dug     = { static_water_level = { low = "2 ft", mid = "6 ft", high = "10 ft" } }
"#;

/// An invented list: (id, type, depth, level, diameter) with gaps, round depths and rows at one place.
fn wells(count: u64) -> Vec<(String, &'static str, String, String, String)> {
    let mut state = 11_u64;
    let mut next = move |below: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    (0..count)
        .map(|at| {
            let drilled = next(3) > 0;
            let depth = if drilled { 60 + next(340) } else { 20 + next(20) };
            let depth = if next(10) < 6 { depth / 10 * 10 } else { depth };
            let level = format!("{}.{}", next(if drilled { 50 } else { 15 }), next(10));
            let level = if !drilled && next(5) == 0 { String::new() } else { level };
            let diameter = if drilled { "6" } else { "36" };
            let diameter = if drilled && next(8) == 0 { "" } else { diameter };
            let kind = if drilled { "drilled" } else { "dug" };
            (format!("W{at}"), kind, depth.to_string(), level, diameter.to_owned())
        })
        .collect()
}

fn list(folder: &Path, count: u64) -> PathBuf {
    let mut text = String::from("well_id,well_type,depth (ft),static water level (ft),diameter (in),lat,lon\n");
    for (at, (id, kind, depth, level, diameter)) in wells(count).into_iter().enumerate() {
        // Every ninth row lies at the same place.
        let (latitude, longitude) = if at % 9 == 0 { (45.5, -30.5) } else { (45.0 + at as f64 * 1e-5, -30.0) };
        text.push_str(&format!("{id},{kind},{depth},{level},{diameter},{latitude},{longitude}\n"));
    }
    place(folder, "wells.csv", text)
}

fn messages(list: &Path, scenarios: &Path) -> Vec<Value> {
    let answer = run(&["check", list.to_str().unwrap(), "--scenarios", scenarios.to_str().unwrap(), "--json"]);
    answer.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

fn of<'a>(messages: &'a [Value], message: &str) -> Vec<&'a Value> {
    messages.iter().filter(|value| value["message"] == message).collect()
}

fn near(value: &Value, wanted: f64, share: f64) {
    let value = value.as_f64().unwrap();
    assert!((value - wanted).abs() <= share * wanted.abs(), "{value} is not {wanted}");
}

#[test]
fn counts_and_ranges_are_those_of_a_recount() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    // Many batches of 8192 rows, and more different levels than are counted on their own.
    let count = 20_000;
    let messages = messages(&list(folder.path(), count), &scenarios);
    let wells = wells(count);
    let drilled = wells.iter().filter(|well| well.1 == "drilled").count() as u64;
    let completeness: BTreeMap<&str, &Value> =
        of(&messages, "completeness").into_iter().map(|value| (value["field"].as_str().unwrap(), value)).collect();
    let given = |pick: fn(&(String, &'static str, String, String, String)) -> bool| {
        wells.iter().filter(|well| pick(well)).count() as u64
    };
    assert_eq!(completeness["casing_diameter"]["given"], given(|well| !well.4.is_empty()));
    assert_eq!(completeness["casing_diameter"]["by_type"]["drilled"]["rows"], drilled);
    assert_eq!(
        completeness["casing_diameter"]["by_type"]["drilled"]["given"],
        given(|well| well.1 == "drilled" && !well.4.is_empty())
    );
    assert_eq!(completeness["static_water_level"]["given"], given(|well| !well.3.is_empty()));
    assert!(!completeness.contains_key("ph"), "a field that no list has is not listed");

    let mut depths: Vec<f64> = wells.iter().map(|well| well.2.parse().unwrap()).collect();
    depths.sort_by(f64::total_cmp);
    let ranges = of(&messages, "range");
    let all = ranges.iter().find(|range| range["field"] == "total_depth" && range["well_type"].is_null()).unwrap();
    assert_eq!((&all["values"], &all["unit"]), (&count.into(), &"ft".into()));
    near(&all["least"], depths[0], 1e-9);
    near(&all["median"], depths[depths.len() / 2 - 1], 1e-9);
    near(&all["greatest"], depths[depths.len() - 1], 1e-9);
    let often = |value: f64| depths.iter().filter(|depth| **depth == value).count();
    let top = depths.iter().map(|depth| often(*depth)).max().unwrap();
    assert_eq!(all["most_frequent_count"], top);

    let clusters: Vec<&str> = of(&messages, "cluster").iter().map(|value| value["says"].as_str().unwrap()).collect();
    assert!(clusters.iter().any(|says| says.starts_with("total depth: ") && says.contains("end in 0")), "{clusters:?}");
    assert!(
        clusters.iter().any(|says| says.contains(&format!("{} rows lie at 45.5, -30.5", count.div_ceil(9)))),
        "{clusters:?}"
    );
}

/// With more different values than are kept, the middle is right to half a per cent and the extremes exactly.
#[test]
fn the_middle_of_many_values_is_near() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    let mut text = String::from("well_id,well_type,depth (ft),static water level (ft),diameter (in)\n");
    for at in 0..30_000_u32 {
        let depth = 50.0 + f64::from(at * 7919 % 30_000) / 100.0;
        text.push_str(&format!("W{at},drilled,{depth},10,6\n"));
    }
    let messages = messages(&place(folder.path(), "wells.csv", text), &scenarios);
    let ranges = of(&messages, "range");
    let depth = ranges.iter().find(|range| range["field"] == "total_depth").unwrap();
    near(&depth["least"], 50.0, 1e-9);
    near(&depth["greatest"], 349.99, 1e-9);
    near(&depth["median"], 199.995, 0.005);
    let clusters = of(&messages, "cluster");
    let level =
        clusters.iter().find(|value| value["says"].as_str().unwrap().starts_with("static water level")).unwrap();
    assert_eq!(
        level["says"],
        "static water level: 10 ft stands in 100 % of 30000 rows: perhaps a value filled in for all"
    );
}

#[test]
fn the_ten_repairs_are_the_ten_greatest_spans() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    let count = 20_000;
    let list = list(folder.path(), count);
    let messages = messages(&list, &scenarios);
    // A recount: pi/4 d² h at low and high.
    const GALLON_L: f64 = 3.785_411_784;
    let foot = |feet: f64| feet * 0.3048;
    let cylinder =
        |inches: f64, feet: f64| std::f64::consts::FRAC_PI_4 * (inches * 0.0254).powi(2) * foot(feet) * 1000.0;
    let mut spans: Vec<(f64, usize, String)> = Vec::new();
    for (at, (id, kind, depth, level, diameter)) in wells(count).into_iter().enumerate() {
        let depth: f64 = depth.parse().unwrap();
        let span = match (kind, level.parse::<f64>(), diameter.as_str()) {
            ("drilled", Ok(level), "") => cylinder(8.0, depth - level) - cylinder(5.0, depth - level),
            ("dug", Err(_), _) => cylinder(36.0, depth - 2.0) - cylinder(36.0, depth - 10.0),
            _ => continue,
        };
        spans.push((span, at + 2, id));
    }
    let all: f64 = spans.iter().map(|(span, ..)| span).sum();
    spans.sort_by(|a, b| b.0.total_cmp(&a.0));
    let repairs = of(&messages, "repair");
    assert_eq!(repairs.len(), 10);
    for (repair, (span, ..)) in repairs.iter().zip(&spans) {
        near(&repair["low_to_high_l"], *span, 1e-9);
        near(&repair["share_of_span"], span / all, 1e-9);
        let row = repair["row"].as_u64().unwrap() as usize;
        let (_, _, id) = spans.iter().find(|(_, at, _)| *at == row).unwrap();
        assert_eq!(repair["well_id"].as_str().unwrap(), id);
    }
    let rests = of(&messages, "rests_on");
    let named: Vec<_> =
        rests.iter().map(|value| (value["well_type"].as_str().unwrap(), value["field"].as_str().unwrap())).collect();
    assert_eq!(named, [("drilled", "casing_diameter"), ("dug", "static_water_level")]);
    let total: f64 = rests.iter().map(|value| value["low_to_high_l"].as_f64().unwrap()).sum();
    near(&total.into(), all, 1e-9);
    assert!(all / GALLON_L > 1000.0);
}

#[test]
fn the_sheet_stands_behind_the_findings_and_adds_up() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    let list = list(folder.path(), 300);
    let out = folder.path().join("out");
    run(&["plan", list.to_str().unwrap(), "--scenarios", scenarios.to_str().unwrap(), "--out", out.to_str().unwrap()])
        .ended(0);
    let sheets = sheets(&out.join("campaign.xlsx"));
    let at = sheets.iter().position(|(name, _)| name == "Quality").unwrap();
    assert_eq!([&*sheets[at - 2].0, &*sheets[at - 1].0], ["Findings", "Findings by cell"]);
    let sheet = &sheets[at].1;
    let find = |text: &str| sheet.iter().find(|row| row.first() == Some(&Data::String(text.into()))).unwrap();
    let number = |cell: &Data| match cell {
        Data::Float(value) => *value,
        Data::Int(value) => *value as f64,
        other => panic!("{other:?} is no number"),
    };
    let treated: f64 =
        rows(&out.join("treatments.csv")).iter().map(|row| row["treated_volume_l"].parse::<f64>().unwrap()).sum();
    let total = find("All planned visits");
    assert!((number(&total[3]) * 3.785_411_784 / treated - 1.0).abs() < 1e-9);
    let assumed: f64 = rows(&out.join("treatments.csv"))
        .iter()
        .filter(|row| row["assumed"].contains("casing_diameter"))
        .map(|row| row["treated_volume_l"].parse::<f64>().unwrap())
        .sum();
    let line = sheet
        .iter()
        .skip_while(|row| row.first() != Some(&Data::String("Uses an assumed".into())))
        .find(|row| row.first() == Some(&Data::String("casing diameter".into())))
        .unwrap();
    assert!((number(&line[4]) - assumed / treated * 100.0).abs() < 1e-9);
}

#[test]
fn it_is_the_same_on_any_number_of_threads() {
    let folder = folder();
    let scenarios = place(folder.path(), "scenarios.toml", SCENARIOS);
    let list = list(folder.path(), 40_000);
    let plans: Vec<_> = ["1", "2", "7"]
        .into_iter()
        .map(|threads| {
            let out = folder.path().join(threads);
            run(&[
                "plan",
                list.to_str().unwrap(),
                "--scenarios",
                scenarios.to_str().unwrap(),
                "--out",
                out.to_str().unwrap(),
                "--threads",
                threads,
                "--table",
                "none",
            ])
            .ended(0);
            contents(&out)
        })
        .collect();
    assert!(plans[0]["campaign.xlsx"] == plans[1]["campaign.xlsx"]);
    assert!(plans[0]["campaign.xlsx"] == plans[2]["campaign.xlsx"]);
}

#[test]
fn an_empty_list_has_nothing_to_say() {
    let folder = folder();
    let list = place(folder.path(), "wells.csv", "well_id,well_type,depth (ft),swl (ft),diameter (in)\n");
    let answer = run(&["check", list.to_str().unwrap(), "--units", "us", "--all"]).ended(2);
    assert!(!answer.out.contains("% filled in"), "{}", answer.out);
}

/// A field as it is shown where no system is declared: unit, least and greatest.
fn range_of(messages: &[Value], field: &str) -> (String, f64, f64) {
    let range = of(messages, "range").into_iter().find(|range| range["field"] == field && range["well_type"].is_null());
    let range = range.unwrap_or_else(|| panic!("no range of {field}"));
    let number = |key: &str| range[key].as_f64().unwrap();
    (range["unit"].as_str().unwrap().to_owned(), number("least"), number("greatest"))
}

/// Without a declared system each field is shown in the unit that most of its cells were written in, wherever they say it.
#[test]
fn ranges_are_in_the_lists_own_units() {
    let folder = folder();
    let all = |list: &str| -> Vec<Value> {
        let list = place(folder.path(), "wells.csv", list);
        let answer = run(&["check", list.to_str().unwrap(), "--json"]);
        assert!(answer.code < 2, "{}", answer.err);
        answer.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
    };
    let near = |found: (String, f64, f64), unit: &str, least: f64, greatest: f64| {
        assert!(found.0 == unit && close(found.1, least, 1e-9) && close(found.2, greatest, 1e-9), "{found:?}");
    };
    // In the headings.
    let messages = all(
        "well_id,well_type,depth (ft),swl (ft),diameter (in),yield (m3/h)\nA,drilled,180,40,6,2\nB,dug,20,8,36,3\n",
    );
    near(range_of(&messages, "total_depth"), "ft", 20.0, 180.0);
    near(range_of(&messages, "casing_diameter"), "in", 6.0, 36.0);
    near(range_of(&messages, "well_yield"), "m3/h", 2.0, 3.0);
    // In the cells, one of them in metres.
    let messages = all(
        "well_id,well_type,depth,swl,diameter\nA,drilled,180 ft,40 ft,6 in\nB,dug,20 ft,8 ft,36 in\nC,dug,9 m,2 m,900 mm\n",
    );
    near(range_of(&messages, "total_depth"), "ft", 20.0, 180.0);
    near(range_of(&messages, "static_water_level"), "ft", 2.0 / 0.3048, 40.0);
    near(range_of(&messages, "casing_diameter"), "in", 6.0, 36.0);
    // In a column beside it.
    let messages = all(
        "well_id,well_type,depth,depth_uom,swl (m),diameter (mm)\nA,drilled,55,m,12,150\nB,dug,6,m,2,900\nC,dug,20,ft,2,900\n",
    );
    near(range_of(&messages, "total_depth"), "m", 6.0, 55.0);
    near(range_of(&messages, "casing_diameter"), "mm", 150.0, 900.0);
    // A declared system is obeyed, and so is the scenario file's.
    let list =
        place(folder.path(), "wells.csv", "well_id,well_type,depth (ft),swl (ft),diameter (in)\nA,drilled,180,40,6\n");
    let answer = run(&["check", list.to_str().unwrap(), "--units", "metric", "--json"]).ended(0);
    let messages: Vec<Value> = answer.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    near(range_of(&messages, "total_depth"), "m", 54.864, 54.864);
    near(range_of(&messages, "casing_diameter"), "mm", 152.4, 152.4);
    // For a person the same, and volumes by the system that prevails: a metric list with diameters in inches is metric.
    let spread = "well_id,well_type,depth (m),swl (m),diameter (in)\nA,drilled,57-58,12,6\n";
    let list = place(folder.path(), "wells.csv", spread);
    let answer = run(&["check", list.to_str().unwrap(), "--all"]).ended(0);
    assert!(answer.out.contains("range (low-high, L)") && answer.out.contains("57.5  m"), "{}", answer.out);
    let list = place(folder.path(), "wells.csv", spread.replace("(m)", "(ft)"));
    let answer = run(&["check", list.to_str().unwrap(), "--all"]).ended(0);
    assert!(answer.out.contains("range (low-high, US gal)") && answer.out.contains("57.5  ft"), "{}", answer.out);
}
