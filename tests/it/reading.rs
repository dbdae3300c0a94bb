//! Reading lists: files as they come, what is understood of them, and what is said about them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use aftercrest::checks::{Identities, OtherRows, Verdict, admit};
use aftercrest::field::rules::{Beside, ReadingRules, RepeatPolicy, UnitSystem};
use aftercrest::field::{Field, WellType, species};
use aftercrest::finding::Finding;
use aftercrest::inventory::Inventory;
use aftercrest::quantity::Band;
use aftercrest::quantity::{parse, unit};
use aftercrest::scenario::Campaign;

/// A folder of fixtures.
pub fn fixtures(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures").join(folder)
}

/// What reading and proving a list gave.
pub struct Outcome {
    pub file_findings: Vec<Finding>,
    pub verdicts: Vec<Verdict>,
    pub rows: u64,
}

impl Outcome {
    /// Every finding, files first.
    pub fn findings(&self) -> Vec<&Finding> {
        const NONE: &Vec<Finding> = &Vec::new();
        let of_rows = self.verdicts.iter().flat_map(|verdict| match verdict {
            Verdict::Admitted { findings, .. } => findings,
            Verdict::HeldBack(held) => &held.findings,
            Verdict::NotAWell(_) => NONE,
        });
        self.file_findings.iter().chain(of_rows).collect()
    }

    /// Codes with their number.
    pub fn codes(&self) -> BTreeMap<&'static str, usize> {
        let mut codes = BTreeMap::new();
        for finding in self.findings() {
            *codes.entry(finding.code.id()).or_insert(0) += 1;
        }
        codes
    }

    /// How many rows were admitted.
    pub fn admitted(&self) -> usize {
        self.verdicts.iter().filter(|verdict| matches!(verdict, Verdict::Admitted { .. })).count()
    }
}

/// Reads and proves lists in batches of so many rows.
pub fn read_in_batches(paths: &[PathBuf], rules: &ReadingRules, rows: usize) -> aftercrest::error::Result<Outcome> {
    let mut inventory = Inventory::open(paths, rules)?;
    let mut identities = Identities::new(rules);
    let mut verdicts = Vec::new();
    while let Some(batch) = inventory.next_batch(rows)? {
        let mut drafts = batch.drafts();
        assert_eq!(drafts.len(), batch.rows(), "a row vanished between the reader and the drafts");
        identities.check(&mut drafts);
        verdicts.extend(drafts.into_iter().map(|draft| admit(draft, rules)));
    }
    assert_eq!(verdicts.len() as u64, inventory.rows_read());
    let mut others = OtherRows::default();
    for verdict in &verdicts {
        if let Verdict::NotAWell(row) = verdict {
            others.take(row.clone());
        }
    }
    let mut file_findings = inventory.file_findings().to_vec();
    file_findings.extend(others.findings());
    file_findings.extend(inventory.closing_findings());
    Ok(Outcome { file_findings, verdicts, rows: inventory.rows_read() })
}

/// Reads and proves lists.
pub fn read(paths: &[PathBuf], rules: &ReadingRules) -> aftercrest::error::Result<Outcome> {
    read_in_batches(paths, rules, 1000)
}

/// The rules of a campaign measured in US units.
pub fn us() -> ReadingRules {
    ReadingRules { system: Some(UnitSystem::Us), ..ReadingRules::default() }
}

/// Reads the parts of a scenario file that are about reading lists; the keys are those of the real file.
pub fn rules_from(text: &str) -> ReadingRules {
    let file: toml::Table = text.parse().expect("the rules are TOML");
    let table = |path: &[&str]| {
        let mut at = Some(&file);
        for key in path {
            at = at.and_then(|table| table.get(*key)).and_then(toml::Value::as_table);
        }
        at.cloned().unwrap_or_default()
    };
    let text_of = |value: &toml::Value| value.as_str().expect("text").to_owned();
    let field = |name: &str| Field::by_name(name).unwrap_or_else(|| panic!("no field {name}"));
    let mut rules = ReadingRules::default();
    let campaign = table(&["campaign"]);
    rules.system = campaign.get("units").map(|units| match units.as_str() {
        Some("us") => UnitSystem::Us,
        Some("metric") => UnitSystem::Metric,
        Some("imperial") => UnitSystem::Imperial,
        other => panic!("units = {other:?}"),
    });
    rules.bounding_box = campaign.get("bounding_box").map(|edges| {
        let edges: Vec<f64> =
            edges.as_array().expect("four numbers").iter().filter_map(toml::Value::as_float).collect();
        [edges[0], edges[1], edges[2], edges[3]]
    });
    let inventory = table(&["inventory"]);
    rules.repeats = match inventory.get("repeats").and_then(toml::Value::as_str) {
        Some("separate_visits") => RepeatPolicy::SeparateVisits,
        Some("latest") => RepeatPolicy::Latest,
        _ => RepeatPolicy::HoldBack,
    };
    if let Some(texts) = inventory.get("missing_texts").and_then(toml::Value::as_array) {
        rules.missing_texts = texts.iter().map(text_of).collect();
    }
    for (heading, target) in table(&["inventory", "columns"]) {
        let target = text_of(&target);
        let of = |word: &str| target.strip_prefix(word).map(field);
        if let Some(of) = of("unit of ") {
            rules.beside.insert(heading, (Beside::Unit, of));
            continue;
        }
        if let Some(of) = of("qualifier of ") {
            rules.beside.insert(heading, (Beside::Qualifier, of));
            continue;
        }
        rules.columns.insert(heading, (!target.is_empty()).then(|| field(&target)));
    }
    for (name, symbol) in table(&["inventory", "units"]) {
        let gallon = rules.system.and_then(UnitSystem::gallon);
        let symbol = text_of(&symbol);
        let (symbol, species) = species::at_end(field(&name), &symbol);
        let Some(unit::Meaning::Unit(unit)) = unit::look_up(symbol, gallon) else { panic!("unit {symbol}") };
        rules.units.insert(field(&name), unit);
        rules.species.extend(species.map(|species| (field(&name), species)));
    }
    for (name, value) in table(&["inventory", "fixed"]) {
        rules.fixed.insert(field(&name), text_of(&value));
    }
    if file.contains_key("list") || inventory.contains_key("words") {
        let campaign = Campaign::parse(Path::new("rules.toml"), text).expect("a scenario file");
        rules.lists = campaign.rules.lists;
        rules.words = campaign.rules.words;
    }
    for (kind, fields) in table(&["missing"]) {
        let kind = WellType::by_name(&kind).expect("a type of well");
        for (name, values) in fields.as_table().expect("fields") {
            let field = field(name);
            if values.as_str() == Some("from_list") {
                rules.drawn.insert((kind, field));
                continue;
            }
            let quantity = field.quantity().expect("a quantity");
            let si = |key: &str| {
                let value = values.get(key).expect("low, mid, high");
                let written = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
                parse::quantity(&written, quantity.dimension, unit::by_symbol(quantity.unit), None)
                    .expect("a quantity")
                    .si
            };
            rules.assumptions.insert((kind, field), Band { low: si("low"), mid: si("mid"), high: si("high") });
        }
    }
    rules
}

/// The rules that lie beside a fixture, or those of a US campaign.
pub fn rules_beside(path: &Path) -> ReadingRules {
    std::fs::read_to_string(path.with_extension("toml")).map_or_else(|_| us(), |text| rules_from(&text))
}

/// Reads a list of `fixtures/real` by the rules of one of the register scenario files.
fn real(file: &str, register: &str) -> Outcome {
    let scenario = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(format!("register-{register}.toml"));
    let rules = rules_from(&std::fs::read_to_string(scenario).expect("the register's scenario file"));
    read(&[fixtures("real").join(file)], &rules).expect("a real list")
}

fn count(outcome: &Outcome, code: &str) -> usize {
    outcome.codes().get(code).copied().unwrap_or(0)
}

#[test]
fn real_uganda_boreholes() {
    let outcome = real("uganda_boreholes_raw.csv", "uganda");
    assert_eq!((outcome.rows, outcome.admitted()), (173, 170));
    // 18 yields, one depth and three levels of zero mean "not known"; source 1041 came twice, the second time with depth and level
    // exchanged; one more level lies below its bottom.
    assert_eq!((count(&outcome, "C109"), count(&outcome, "I103"), count(&outcome, "G203")), (22, 1, 2));
    let held: Vec<u32> = outcome
        .verdicts
        .iter()
        .filter_map(|verdict| match verdict {
            Verdict::HeldBack(held) => held.place.row,
            Verdict::Admitted { .. } | Verdict::NotAWell(_) => None,
        })
        .collect();
    assert_eq!(held, [42, 124, 150]);
}

#[test]
fn real_malawi_chlorination() {
    let outcome = real("malawi_flood_chlorination_excerpt.csv", "malawi-flood-chlorination");
    assert_eq!((outcome.rows, outcome.admitted()), (254, 246));
    assert_eq!(count(&outcome, "G211"), 4, "four wells hold more water than they are deep");
}

#[test]
fn real_malawi_assessment() {
    let outcome = real("malawi_flood_preassessment_excerpt.csv", "malawi-flood-assessment");
    // Eleven are said to be abandoned or gone; of one "Abandoned" stands among other problems, and it is asked.
    assert_eq!((outcome.rows, outcome.admitted()), (165, 153));
    assert_eq!(count(&outcome, "W302"), 1, "one temperature of 236 C");
}

#[test]
fn real_malawi_drilling() {
    let outcome = real("malawi_drilling_survey_raw_excerpt.csv", "malawi-drilling");
    // Two are used to watch the water and three are test wells: no wells to be treated.
    assert_eq!((outcome.rows, outcome.admitted()), (157, 135));
    assert_eq!((count(&outcome, "G204"), count(&outcome, "A502")), (12, 5));
    let last = outcome.verdicts.last().map(|verdict| match verdict {
        Verdict::HeldBack(held) => held.id.to_string(),
        Verdict::Admitted { well, .. } => well.id.to_string(),
        Verdict::NotAWell(row) => row.place.to_string(),
    });
    assert_eq!(last.as_deref(), Some("malawi_drilling_survey_raw_excerpt.csv:158"));
}

#[test]
fn real_usgs_site_files() {
    let one = real("usgs_site_file_groundwater_1row.rdb", "usgs-sites");
    assert_eq!((one.rows, one.admitted()), (1, 1));
    let streams = real("usgs_site_file_multirow.rdb", "usgs-sites");
    assert_eq!((streams.rows, streams.admitted()), (98, 0), "streams have no depth");
}

/// The same wells, however the rows are cut into batches.
#[test]
fn batches_do_not_matter() {
    let path = [fixtures("real").join("malawi_drilling_survey_raw_excerpt.csv")];
    let whole = read_in_batches(&path, &us(), 100_000).expect("whole");
    for rows in [1, 2, 7, 50] {
        let cut = read_in_batches(&path, &us(), rows).expect("cut");
        assert!(whole.verdicts == cut.verdicts, "batches of {rows}");
    }
}

/// Every dirty file gives what the table beside it says: `file,rows,admitted,findings`.
#[test]
fn dirty_files_give_what_the_table_says() {
    let folder = fixtures("dirty");
    let table = std::fs::read_to_string(folder.join("expected.csv")).unwrap_or_default();
    let mut expected: BTreeMap<&str, &str> = table.lines().skip(1).filter_map(|line| line.split_once(',')).collect();
    let mut failures = Vec::new();
    let mut paths: Vec<PathBuf> = std::fs::read_dir(&folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_none_or(|end| end != "toml") && !path.ends_with("expected.csv"))
        .collect();
    paths.sort();
    assert!(paths.len() >= 60, "{} files", paths.len());
    for path in paths {
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        let rules = path.with_extension("").with_extension("toml");
        let rules = std::fs::read_to_string(rules).map_or_else(|_| us(), |text| rules_from(&text));
        let found = match read(std::slice::from_ref(&path), &rules) {
            Ok(outcome) => {
                let codes: Vec<String> = outcome
                    .codes()
                    .into_iter()
                    .map(|(code, count)| if count == 1 { code.to_owned() } else { format!("{code}x{count}") })
                    .collect();
                format!("{},{},{}", outcome.rows, outcome.admitted(), codes.join(" "))
            }
            Err(error) => format!(
                "refused,,{}",
                error
                    .to_string()
                    .rsplit_once(&name)
                    .map_or("", |(_, reason)| reason.trim_start_matches(": "))
                    .replace(',', ";")
            ),
        };
        match expected.remove(name.as_str()) {
            Some(wanted) if wanted == found => {}
            wanted => failures.push(format!("{name},{found}   (table: {})", wanted.unwrap_or("nothing"))),
        }
    }
    failures.extend(expected.into_keys().map(|name| format!("{name}: in the table, and not there")));
    assert!(failures.is_empty(), "\n{}", failures.join("\n"));
}

fn well<'a>(outcome: &'a Outcome, id: &str) -> &'a aftercrest::well::Well {
    let found = outcome.verdicts.iter().find_map(|verdict| match verdict {
        Verdict::Admitted { well, .. } if &*well.id == id => Some(well),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("{id} was not admitted"))
}

/// Stretches of a bored well: top, bottom and diameter in metres.
fn stretches(well: &aftercrest::well::Well) -> Vec<(f64, f64, f64)> {
    let aftercrest::well::StandingWater::Bore { intervals, .. } = &well.standing_water else { panic!("not a bore") };
    intervals.iter().map(|interval| (interval.top.value, interval.bottom.value, interval.diameter.value)).collect()
}

#[test]
fn casing_intervals_are_joined_by_id_and_the_narrowest_string_counts() {
    let path = fixtures("dirty").join("casing-intervals-on-a-second-sheet.xlsx");
    let outcome = read(&[path], &us()).expect("a workbook");
    let (foot, inch) = (0.3048, 0.0254);
    // Surface casing of 10 in stands outside the 6 in string: it is not added.
    let wanted = [(0.0, 60.0 * foot, 6.0 * inch), (60.0 * foot, 180.0 * foot, 5.5 * inch)];
    let found = stretches(well(&outcome, "W1"));
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        assert!(near(found.0, wanted.0) && near(found.1, wanted.1) && near(found.2, wanted.2), "{found:?}");
    }
}

#[test]
fn cased_and_open_hole_make_two_stretches() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("wells.csv");
    std::fs::write(
        &path,
        "well_id,well_type,depth (m),water level (m),diameter (mm),casing depth (m),open hole (mm)\nW1,drilled,60,10,152,20,140\n",
    )
    .expect("a file");
    let outcome = read(&[path], &us()).expect("a list");
    assert_eq!(stretches(well(&outcome, "W1")), [(0.0, 20.0, 0.152), (20.0, 60.0, 0.14)]);
}

/// A list in feet and inches and the same in metres and millimetres are the same wells.
#[test]
fn units_do_not_matter() {
    let folder = tempfile::tempdir().expect("a folder");
    let feet = folder.path().join("feet.csv");
    let meters = folder.path().join("meters.csv");
    std::fs::write(&feet, "well_id,well_type,depth (ft),water level (ft),diameter (inches)\nW1,drilled,180,40,6\n")
        .expect("a file");
    std::fs::write(
        &meters,
        "well_id,well_type,depth (m),water level (m),diameter (mm)\nW1,drilled,54.864,12.192,152.4\n",
    )
    .expect("a file");
    let (feet, meters) = (read(&[feet], &us()).expect("feet"), read(&[meters], &us()).expect("meters"));
    let (a, b) = (stretches(well(&feet, "W1")), stretches(well(&meters, "W1")));
    assert!((a[0].1 - b[0].1).abs() < 1e-12 && (a[0].2 - b[0].2).abs() < 1e-12, "{a:?} {b:?}");
}

/// Low and high of what was assumed go the way that makes least and greatest volume.
#[test]
fn assumed_values_span_least_and_greatest_volume() {
    let path = fixtures("dirty").join("missing-values-assumed.csv");
    let rules = rules_beside(&path);
    let outcome = read(&[path], &rules).expect("a list");
    let well = well(&outcome, "W1");
    assert_eq!(well.assumed, [Field::StaticWaterLevel, Field::CasingDiameter]);
    let range = well.standing_water_range.as_ref().expect("a range");
    let level_and_diameter = |water: &aftercrest::well::StandingWater| match water {
        aftercrest::well::StandingWater::Bore { water_level, intervals, .. } => {
            ((water_level.value / 0.3048).round(), (intervals[0].diameter.value / 0.0254).round())
        }
        other => panic!("{other:?}"),
    };
    assert_eq!(level_and_diameter(&range.0), (90.0, 5.0));
    assert_eq!(level_and_diameter(&well.standing_water), (30.0, 6.0));
    assert_eq!(level_and_diameter(&range.1), (0.0, 8.0));
}

/// Our splitter and the `csv` crate cut sound text into the same cells.
#[test]
fn cells_agree_with_another_reader() {
    let parts = ["a", "", "1", "\"x,y\"", "\"a \"\"b\"\"\"", "\"line\nbreak\"", "6\"", " ", "é", "\"\""];
    let folder = tempfile::tempdir().expect("a folder");
    let mut state = 7_u64;
    for round in 0..200 {
        let mut text = String::from("well_id,c2,c3\n");
        for row in 0..6 {
            text.push_str(&format!("r{row}"));
            for _ in 0..2 {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                text.push(',');
                text.push_str(parts[(state >> 33) as usize % parts.len()]);
            }
            text.push_str(if round % 2 == 0 { "\n" } else { "\r\n" });
        }
        let path = folder.path().join("cells.csv");
        std::fs::write(&path, &text).expect("a file");
        let mut inventory = Inventory::open(&[path], &us()).expect("a list");
        let mut ours = Vec::new();
        while let Some(batch) = inventory.next_batch(2).expect("rows") {
            for draft in batch.drafts() {
                let cells: Vec<String> = draft.carried().iter().map(|cell| cell.trim().to_owned()).collect();
                ours.push((draft.row(), draft.typed(Field::WellId).to_owned(), cells));
            }
        }
        let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(text.as_bytes());
        let theirs: Vec<_> = reader
            .records()
            .map(|record| {
                let record = record.expect("a record");
                // Counted from 0, the headings included: a spreadsheet counts from 1.
                let row = record.position().map_or(0, csv::Position::record) as u32 + 1;
                let cells = record.iter().skip(1).map(|cell| cell.trim().to_owned()).collect();
                (row, record[0].to_owned(), cells)
            })
            .collect();
        assert_eq!(ours, theirs, "{text}");
    }
}

#[test]
fn merged_cells_count_for_each_row() {
    let outcome = read(&[fixtures("findings").join("F117-merged-cells.xlsx")], &us()).expect("a workbook");
    let regions: Vec<_> = ["W1", "W2", "W3"].map(|id| well(&outcome, id).region.clone()).into_iter().collect();
    assert_eq!(regions, [Some("North".into()), Some("North".into()), Some("South".into())]);
}

#[test]
fn values_drawn_from_the_list_are_its_centiles() {
    let path = fixtures("findings").join("A503-estimated-from-list.csv");
    let rules = rules_beside(&path);
    let outcome = read(&[path], &rules).expect("a list");
    let drawn = well(&outcome, "W10");
    assert_eq!(drawn.assumed, [Field::CasingDiameter]);
    assert!((drawn.casing_diameter.expect("a diameter").value - 6.0 * 0.0254).abs() < 1e-9);
    assert!(drawn.standing_water_range.is_some());
}

/// Columns that are not fields come along in one order for all files, blank where a file lacks them.
#[test]
fn carried_columns_are_the_union_of_all_files() {
    let folder = tempfile::tempdir().expect("a folder");
    let head = "well_id,well_type,depth (ft),water level (ft),diameter (inches)";
    std::fs::write(folder.path().join("a.csv"), format!("{head},route\nA1,drilled,180,40,6,r1\n")).expect("a file");
    std::fs::write(folder.path().join("b.csv"), format!("{head},crew,route\nB1,drilled,180,40,6,c1,r2\n"))
        .expect("a file");
    let paths = [folder.path().to_owned()];
    let inventory = Inventory::open(&paths, &us()).expect("a folder of lists");
    assert_eq!(inventory.carried_columns(), ["route", "crew"]);
    let outcome = read(&paths, &us()).expect("a folder of lists");
    assert_eq!(well(&outcome, "A1").carried, ["r1", ""]);
    assert_eq!(well(&outcome, "B1").carried, ["r2", "c1"]);
}

/// The digest is that of the file's bytes, whatever its encoding or compression.
#[test]
fn digests_are_of_the_bytes_on_disk() {
    use sha2::Digest;
    for name in
        ["utf-16-little-endian.csv", "compressed.csv.gz", "two-sheets.xlsx", "byte-order-mark.csv", "open-document.ods"]
    {
        let path = fixtures("dirty").join(name);
        let mut inventory = Inventory::open(std::slice::from_ref(&path), &us()).expect(name);
        while inventory.next_batch(10).expect(name).is_some() {}
        let bytes = std::fs::read(&path).expect(name);
        let expected: String = sha2::Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        for source in inventory.sources() {
            assert_eq!(source.sha256, expected, "{name}");
        }
    }
}

#[test]
fn headings_are_read_with_their_group() {
    let outcome = read(&[fixtures("dirty").join("headings-in-groups.csv")], &us()).expect("a list");
    let well = well(&outcome, "W1");
    let feet = |length: Option<aftercrest::quantity::Length>| length.map(|length| (length.value / 0.3048).round());
    assert_eq!(feet(well.total_depth), Some(180.0));
    assert_eq!(feet(well.casing_depth), Some(60.0));
    assert_eq!(feet(well.static_water_level), Some(40.0));
}

#[test]
fn a_file_without_line_ends_does_not_fill_the_memory() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("endless.csv");
    let file = std::fs::File::create(&path).expect("a file");
    let mut packed = std::io::BufWriter::new(file);
    std::io::Write::write_all(&mut packed, b"well_id,depth (ft)\nW0,1\nW1,").expect("written");
    for _ in 0..80 {
        std::io::Write::write_all(&mut packed, &[b'1'; 1 << 20]).expect("written");
    }
    drop(packed);
    let refused = read(&[path], &us()).err().map(|error| error.to_string()).unwrap_or_default();
    assert!(refused.contains("row 3 is longer than 8 MB"), "{refused}");
}

/// Reads lists written on the spot.
fn written(rules: &ReadingRules, lists: &[(&str, &str)]) -> Outcome {
    let folder = tempfile::tempdir().unwrap();
    let paths: Vec<PathBuf> = lists
        .iter()
        .map(|(name, text)| {
            let path = folder.path().join(name);
            std::fs::write(&path, text).unwrap();
            path
        })
        .collect();
    read_in_batches(&paths, rules, 100).unwrap()
}

#[test]
fn intervals_are_read_like_the_cells_of_a_list() {
    let list = "well_id;well_type;depth (m);static level (m)\n1;drilled;20,5;2,5\n";
    let intervals = "well_id;from (m);to (m);diameter (mm)\n1;0;1,250;1000\n1;1,250;20,5;152,4\n";
    let outcome = written(&ReadingRules::default(), &[("list.csv", list), ("casings.csv", intervals)]);
    let Verdict::Admitted { well, .. } = &outcome.verdicts[0] else { panic!("{:?}", outcome.codes()) };
    // By hand: 18 m of 152.4 mm hold 18 x pi/4 x 0.1524^2 = 0.32834 m3; the wide top is dry.
    let volume = aftercrest::kernel::volume::standing_volume(&well.standing_water).value;
    assert!((volume - 0.328_34).abs() < 1e-5, "{volume}");
    // A range is said there as it is in a list; a bound is no size, and its interval is left out.
    let loose = "well_id,from (ft),to (ft),diameter (in)\n1,0,40,6-8\n1,40,>60,5\n";
    let list = "well_id,well_type,depth (ft),static level (ft)\n1,drilled,60,20\n";
    let outcome = written(&ReadingRules::default(), &[("list.csv", list), ("casings.csv", loose)]);
    assert_eq!(outcome.codes().get("C112"), Some(&1), "{:?}", outcome.codes());
    assert_eq!(outcome.codes().get("G216"), Some(&1), "{:?}", outcome.codes());
}

#[test]
fn fixed_values_are_counted_like_cells() {
    let nitrogen = |heading: &str, text: &str| {
        let mut rules = ReadingRules::default();
        rules.fixed.insert(Field::NitriteN, text.to_owned());
        let list =
            format!("well_id,well_type,depth (ft),static level (ft),diameter (in),{heading}\n1,drilled,60,20,6,\n");
        let outcome = written(&rules, &[("list.csv", &list)]);
        let Verdict::Admitted { well, .. } = &outcome.verdicts[0] else { panic!("{:?}", outcome.codes()) };
        well.water.nitrite_n_mg_per_l.unwrap()
    };
    // One mg/L of nitrite is 14.007 / 46.005 mg/L of nitrogen (IUPAC standard atomic weights).
    assert!((nitrogen("nitrite (mg/L as N)", "1 mg/L as NO2") - 14.007 / 46.005).abs() < 1e-5);
    assert!((nitrogen("nitrite (mg/L as N)", "1 mg/L") - 1.0).abs() < 1e-12);
}
