//! Public registers: each mapping file of `scenarios/` on an invented list in that register's published layout.
//!
//! The lists and where their layouts are documented: `fixtures/registers/README.md`. Volumes are worked by hand beside each
//! well: height of water times gallons per foot as printed in MIL-HDBK-1164, table 1 (4 in 0.65, 5 in 1.02, 6 in 1.47, 8 in
//! 2.61, 10 in 4.08, 36 in 52.88), and where that table has no such size, and in metres, pi/4 times the square of the
//! diameter. The registers with real excerpts are in the module `real`.
//!
//! What real registers do to a reader, and where each is held (fixtures in `dirty` unless another folder is named):
//!
//! | quirk | held by |
//! |---|---|
//! | words and numbers for "not known" | `words-for-missing.csv`, `sentinels.csv`, California, Ontario (-9999) |
//! | zero for "not known", and a real zero | `zeros-for-missing.csv`, `level-at-ground.csv`, `flowing-well.csv`, British Columbia |
//! | missing by type of well | `missing-values-assumed.csv`, `findings/A503`, Maine (each type its own spread) |
//! | depth written down only when treated | `real/malawi_flood_chlorination_excerpt.csv` |
//! | unit in heading, cell, column beside, or nowhere | `units-*.csv`, `unit-column*.csv`, `no-units-*.csv`, Ontario |
//! | several units in one column; the micro sign lost | `micro-sign-destroyed.csv`, `units-glued-on.csv` |
//! | wrong unit chosen from a list | `feet-in-an-inch-column.csv`, `findings/H117`, Ontario (120 inch); whole metres that are feet are not told from honest whole metres |
//! | gallons of two sizes, miner's inches | `gallons-undeclared.csv`, `imperial-gallons-per-minute.csv`, Ontario, California, `yield-in-unknown-words.csv` |
//! | feet converted to metres with too many digits | `real/uganda_boreholes_raw.csv`: nothing to mend |
//! | depths heaped on round numbers | module `quality` |
//! | depth or elevation, from ground or casing top, height of water | `units-with-datum.csv`, `findings/H115`, `water-depth-*.csv`, `unit-column-mapped.csv`, South Australia, British Columbia |
//! | `_IN` for inner; outside diameters | `inner-and-outer-diameter.csv`, `findings/P407` |
//! | slips of the decimal point | `decimal-point-slips.csv`, British Columbia (93958 in, 709 in) |
//! | one well, many intervals | `casing-intervals-on-a-second-sheet.xlsx`, British Columbia, Ontario, Texas |
//! | intervals upside down, without bottom, above ground, overlapping, of no well | `findings/G216` to `G218`, `findings/F119`, British Columbia, Texas |
//! | level below bottom, casing below bottom | `depth-and-level-exchanged.csv`, `casing-deeper-than-well.csv`, all six registers; depths of pumps and holes are not read |
//! | several ids for a well, one id for several | `visits-*.csv`, `findings/I106`, South Australia, Ontario; one report for several wells (Texas) is planned once |
//! | shared coordinates | California: all but a few at one point, none of them a repeat |
//! | latitude or longitude without its sign, degrees packed in a number | `positive-*.csv`, `packed-degrees.csv`, `degrees-minutes-seconds.csv`, California, South Australia |
//! | pipes, tabs, semicolons, Latin-1, type rows, byte order marks, line breaks in cells | `pipes.txt`, `tabs.tsv`, `semicolons-*.csv`, `windows-1252.csv`, `usgs-rdb-with-type-row.rdb`, Texas, Maine; other 8-bit encodings are read as Windows-1252, and it is said (`findings/F105`) |
//! | dates in several styles | carried along as they are typed, never read: `date-column-carried.xlsx`, California |
//! | ids with leading zeros, long ids, ids like dates | `leading-zeros-and-long-ids.csv`, `ids-as-numbers.xlsx` |
//! | blanks around values, rows cut short | `blanks-around-values.csv`, `row-cut-short.csv`, `real/usgs_site_file_multirow.rdb` |
//! | bounds, ranges, length classes, signs in a column of their own | `bounds.csv`, `ranges.csv`, `length-classes.csv`, `signs-*.csv`, Maine, California |
//! | thousands separators, letters in ids, blank names, depth and level exchanged | `thousands-separators.csv`, `depth-and-level-exchanged.csv`, `real/uganda_boreholes_raw.csv` |
//! | many spellings of one type | `well-types-in-other-words.csv`, Maine; uses are carried along |
//! | mg/L as NO2, as HCO3, as S | `species-*.csv` |

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use aftercrest::checks::Verdict;
use aftercrest::kernel::volume::standing_volume;
use aftercrest::scenario::Campaign;
use aftercrest::well::Well;

use crate::reading::{Outcome, fixtures, read};

const LITERS_IN_A_GALLON: f64 = 3.785_411_784;

struct Register {
    name: &'static str,
    files: &'static [&'static str],
    planned: usize,
    /// Rows held back, with the findings that hold them.
    held: &'static [(&'static str, &'static str)],
    /// Every finding there is, with its number.
    findings: &'static str,
    /// Wells and the litres of water that stand in them, worked by hand.
    liters: &'static [(&'static str, f64)],
}

const REGISTERS: [Register; 6] = [
    Register {
        name: "british-columbia",
        files: &["well.csv", "casing.csv"],
        planned: 15,
        held: &[("900005", "G201"), ("900009", "G204"), ("900014", "G203")],
        findings: "A501x4 A512x1 C109x2 F113x1 F119x1 G201x1 G203x1 G204x1 G214x1 G216x3 G217x4 G218x1 G231x17 H116x1 H131x1 P407x2",
        // Levels are counted from the top of the casing, which stands 12 in above the ground: a foot more of water.
        liters: &[
            ("900001", 784.0),  // 141 ft of 6 in: 207.1 gal
            ("900002", 1022.4), // 36 ft of 6.625 in and 140 ft of open hole, 6 in: 64.5 + 205.6 gal; the 10 in was pulled
            ("900004", 506.0),  // 91 ft of an assumed 6 in: 133.7 gal
            ("900006", 589.4),  // 106 ft of 6 in, the list's own diameter, the interval being upside down: 155.7 gal
            ("900007", 1201.7), // 171 ft of 6 in and 65 ft of 5 in: 251.2 + 66.3 gal
            ("900010", 889.6),  // 90 ft of 8 in, counted to the ground: 235.0 gal
            ("900011", 254.7),  // 29 ft of 6 in and 20 ft of 5.5 in: 42.6 + 24.7 gal
            ("900012", 628.6),  // 201 ft of 4.5 in: 166.1 gal
            ("900015", 617.2),  // 111 ft of 6 in, the open hole's diameter being that of the casing: 163.0 gal
            ("900017", 450.4),  // 81 ft of 6 in, the narrower of two strings without depths: 119.0 gal
        ],
    },
    Register {
        name: "ontario",
        files: &["wells.csv", "TblCasing.csv"],
        planned: 11,
        held: &[("6900004", "G203"), ("6900008", "G203"), ("6900013", "G204"), ("6900014", "G204")],
        findings: "A501x2 A512x4 C102x1 C108x2 C109x1 F113x1 F119x1 G203x2 G204x2 G214x1 G216x1 G217x1 I103x1 P402x1 P406x1 S616x1",
        liters: &[
            ("6900001", 671.8),  // 20 ft of 6 in and 120 ft of 5.5 in, from TblCasing: 29.4 + 148.1 gal
            ("6900002", 674.1),  // 6.1 m of 15.2 cm and 36.6 m of 14.0 cm: 110.7 + 563.4 L
            ("6900003", 265.5),  // 95 ft less 8 m is 20.96 m of 12.7 cm
            ("6900005", 331.8),  // 55 ft of 6.25 in below an assumed 20 ft: 87.7 gal
            ("6900006", 437.8),  // 24 m of an assumed 6 in
            ("6900007", 1167.6), // 210 ft of 6 in, counted to the ground: 308.4 gal
            ("6900010", 372.5),  // 67 ft of 6 in, the depth in "fbgs": 98.4 gal
            ("6900011", 289.6),  // 75 ft of 5 in: 76.5 gal
            ("6900012", 299.2),  // 80 ft, that is 24.38 m, of 12.5 cm, from TblCasing
        ],
    },
    Register {
        name: "california",
        files: &["OSWCR.csv"],
        planned: 11,
        // A depth of 2,600 ft is asked; the level ">50 Ft" is a bound.
        held: &[("WCR1900-900009", "C131"), ("WCR1900-900010", "G203"), ("WCR1900-900014", "C132")],
        findings: "A501x7 C102x2 C108x1 C131x1 C132x1 G203x1 P403x1 P407x1",
        liters: &[
            ("WCR1900-900001", 1000.8), // 180 ft of 6 in: 264.4 gal
            ("WCR1900-900002", 1581.5), // 160 ft of 8 in: 417.8 gal
            ("WCR1900-900003", 949.0),  // 140 ft of 6.625 in: 250.7 gal
            ("WCR1900-900004", 1223.2), // 220 ft of 6 in below an assumed 80 ft: 323.1 gal
            ("WCR1900-900007", 3243.3), // 210 ft of 10 in: 856.8 gal; its yield in miner's inches does not matter
            ("WCR1900-900011", 308.9),  // 80 ft of 5 in: 81.6 gal
        ],
    },
    Register {
        name: "texas",
        files: &["WellData.txt", "WellBoreHole.txt", "WellCasing.txt"],
        planned: 10,
        held: &[("990006", "G203"), ("990012", "G204")],
        findings: "A501x1 F105x1 F113x2 F119x2 G203x1 G204x1 G216x2 G217x1 G240x1 I113x1",
        liters: &[
            ("990001", 562.9),  // 180 ft of 4.5 in: 148.7 gal, to the bottom of the bore hole at 240 ft
            ("990002", 521.2),  // 135 ft of 5 in: 137.7 gal
            ("990003", 1438.6), // 10 ft of 4.5 in casing and 200 ft of 6.75 in bore hole below it: 8.3 + 371.8 gal
            ("990004", 437.8),  // 140 ft of 4.5 in below an assumed 60 ft: 115.7 gal
            ("990005", 375.3),  // 120 ft of 4.5 in, once, though the report stands for two wells: 99.1 gal
            ("990007", 718.9),  // 95 ft of 7 in bore hole, the casing being a free text: 189.9 gal
            ("990008", 1668.0), // 300 ft of 6 in, the water at the ground: 440.6 gal
            ("990009", 641.1),  // 205 ft of 4.5 in: 169.4 gal
            ("990010", 810.8),  // 210 ft of 5 in, the bore hole being upside down: 214.2 gal
            ("990011", 3475.0), // 25 ft of 30 in: 918.0 gal
        ],
    },
    Register {
        name: "maine",
        files: &["Maine_Well_Database.csv"],
        planned: 11,
        // A casing that reaches far below the bottom is asked.
        held: &[("990009", "G202"), ("990011", "C131"), ("990012", "G204"), ("990014", "G203")],
        findings: "A501x13 A512x6 C109x1 C113x2 C114x2 C131x1 G202x1 G203x1 G204x1 G205x1 G206x1 G214x1 P401x1 S616x1",
        liters: &[
            ("990001", 1223.2), // 220 ft of an assumed 6 in: 323.1 gal
            ("990004", 722.8),  // 130 ft of an assumed 6 in below an assumed 20 ft: 190.9 gal
            ("990005", 1801.4), // dug: 9 ft of an assumed 36 in: 475.9 gal
            ("990006", 9.3),    // driven: 15 ft of an assumed 2 in: 2.4 gal
            ("990007", 355.8),  // 64 ft of an assumed 6 in: 94.0 gal
            ("990008", 4603.7), // bored: 23 ft of an assumed 36 in: 1216 gal
            ("990013", 1223.2), // 220 ft of an assumed 6 in, counted to the ground: 323.1 gal
            ("990015", 1401.1), // dug: 7 ft of an assumed 36 in below an assumed 4 ft: 370.1 gal
        ],
    },
    Register {
        name: "south-australia",
        files: &["wells.csv"],
        planned: 9,
        held: &[("990004", "G204"), ("990010", "G203"), ("990012", "G201")],
        findings: "A501x3 A512x7 C109x2 G201x1 G203x1 G204x1 G208x1 G214x1 H131x1 P402x1 W302x1",
        liters: &[
            ("990001", 934.5),   // 51.5 m of 152 mm: 18.15 L/m
            ("990002", 237.6),   // 30.25 m of 100 mm: 7.854 L/m
            ("990003", 2912.9),  // 90 m of 203 mm, counted to the ground: 32.37 L/m
            ("990005", 547.8),   // 31 m of an assumed 150 mm: 17.67 L/m
            ("990006", 998.0),   // 55 m of 152 mm
            ("990008", 220.9),   // 18 m of 125 mm below an assumed 10 m: 12.27 L/m
            ("990009", 15268.1), // 13.5 m of 1200 mm: 1131 L/m
        ],
    },
];

fn rules(register: &str) -> aftercrest::field::rules::ReadingRules {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("scenarios/register-{register}.toml"));
    Campaign::read(&path).unwrap_or_else(|error| panic!("{error}")).rules
}

fn outcome(register: &Register) -> Outcome {
    let folder = fixtures("registers").join(register.name);
    let paths: Vec<PathBuf> = register.files.iter().map(|file| folder.join(file)).collect();
    read(&paths, &rules(register.name)).unwrap_or_else(|error| panic!("{error}"))
}

fn wells(outcome: &Outcome) -> BTreeMap<&str, &Well> {
    let admitted = outcome.verdicts.iter().filter_map(|verdict| match verdict {
        Verdict::Admitted { well, .. } => Some((&*well.id, well)),
        Verdict::HeldBack(_) | Verdict::NotAWell(_) => None,
    });
    admitted.collect()
}

fn well<'a>(outcome: &'a Outcome, id: &str) -> &'a Well {
    wells(outcome).get(id).copied().unwrap_or_else(|| panic!("{id} was not admitted"))
}

fn register(name: &str) -> &'static Register {
    REGISTERS.iter().find(|register| register.name == name).unwrap()
}

#[test]
fn registers_are_planned_as_far_as_they_can_be() {
    let mut failures = Vec::new();
    for register in &REGISTERS {
        let outcome = outcome(register);
        let held: Vec<(&str, Vec<&str>)> = outcome
            .verdicts
            .iter()
            .filter_map(|verdict| match verdict {
                Verdict::HeldBack(held) => Some((&*held.id, held.reasons().map(|reason| reason.code.id()).collect())),
                Verdict::Admitted { .. } | Verdict::NotAWell(_) => None,
            })
            .collect();
        let as_expected = held.len() == register.held.len()
            && held.iter().zip(register.held).all(|((id, codes), (wanted, code))| id == wanted && codes.contains(code));
        if outcome.admitted() != register.planned || !as_expected {
            failures.push(format!("{}: {} planned, held back: {held:?}", register.name, outcome.admitted()));
        }
        let found: Vec<String> = outcome.codes().iter().map(|(code, count)| format!("{code}x{count}")).collect();
        if found.join(" ") != register.findings {
            failures.push(format!("{}: {}", register.name, found.join(" ")));
        }
    }
    assert!(failures.is_empty(), "\n{}", failures.join("\n"));
}

#[test]
fn the_water_in_them_is_what_a_person_works_out() {
    let mut failures = Vec::new();
    for register in &REGISTERS {
        let outcome = outcome(register);
        let wells = wells(&outcome);
        for (id, liters) in register.liters {
            let Some(well) = wells.get(id) else {
                failures.push(format!("{} {id} was not admitted", register.name));
                continue;
            };
            let found = standing_volume(&well.standing_water).value * 1000.0;
            // Worked to four figures, small ones to the tenth of a litre.
            if (found - liters).abs() > 0.051 + 1e-4 * liters {
                failures.push(format!("{} {id}: {found:.1} L, by hand {liters} L", register.name));
            }
        }
    }
    assert!(failures.is_empty(), "\n{}", failures.join("\n"));
}

/// The numbers above, seen against the printed table: MIL-HDBK-1164, table 1, in gallons per foot, rounded to a hundredth.
#[test]
fn the_water_agrees_with_a_printed_table() {
    let printed = [
        ("british-columbia", "900001", 141.0 * 1.47),
        ("british-columbia", "900010", 90.0 * 2.61),
        ("california", "WCR1900-900007", 210.0 * 4.08),
        ("texas", "990002", 135.0 * 1.02),
    ];
    for (name, id, gallons) in printed {
        let outcome = outcome(register(name));
        let found = standing_volume(&well(&outcome, id).standing_water).value * 1000.0 / LITERS_IN_A_GALLON;
        assert!((found / gallons - 1.0).abs() < 0.005, "{name} {id}: {found} against {gallons}");
    }
}

/// Rates and places in the units they were written in: gallons by the register's custom, signs, missing signs.
#[test]
fn rates_and_places_are_read_as_the_registers_mean_them() {
    let per_minute = |well: &Well| well.well_yield.map(|rate| rate.value * 60_000.0);
    let near = |found: Option<f64>, wanted: f64| {
        assert!(found.is_some_and(|found| (found / wanted - 1.0).abs() < 1e-6), "{found:?}, {wanted}");
    };
    // Ontario's gallon is the imperial one, 4.546 09 L (UK Weights and Measures Act 1985); "LPM" stands beside others.
    let ontario = outcome(register("ontario"));
    near(per_minute(well(&ontario, "6900001")), 5.0 * 4.546_09);
    near(per_minute(well(&ontario, "6900002")), 23.0);
    assert_eq!(per_minute(well(&ontario, "6900011")), None, "a unit that nobody knows");
    // British Columbia's and California's is the US one, 231 cubic inches (NIST Handbook 44).
    near(per_minute(well(&outcome(register("british-columbia")), "900001")), 10.0 * LITERS_IN_A_GALLON);
    let california = outcome(register("california"));
    near(per_minute(well(&california, "WCR1900-900001")), 25.0 * LITERS_IN_A_GALLON);
    assert_eq!(per_minute(well(&california, "WCR1900-900007")), None, "miner's inches");
    assert_eq!(well(&california, "WCR1900-900002").longitude, Some(-121.5125), "a longitude without its sign");
    assert_eq!(well(&california, "WCR1900-900003").latitude, None, "37/41/11.82/");
    near(per_minute(well(&outcome(register("south-australia")), "990001")), 90.0);
    assert_eq!(well(&outcome(register("south-australia")), "990001").latitude, Some(-37.5));
    // Maine's signs stand in a column of their own, which is carried along as well.
    let maine = outcome(register("maine"));
    let bounds: Vec<(&str, String)> = maine
        .findings()
        .into_iter()
        .filter(|finding| finding.code.id() == "C113")
        .map(|finding| (finding.well.as_deref().unwrap(), finding.says.to_string()))
        .collect();
    let wanted = [
        ("990002", "100 US gpm or more; it is read as this value"),
        ("990003", "0.5 US gpm or less; it is read as this value"),
    ];
    assert_eq!(bounds, wanted.map(|(id, says)| (id, says.to_owned())));
    assert!(well(&maine, "990002").carried.iter().any(|cell| &**cell == ">"));
}

/// Six registers' ids, in two tables each where they have two: who is in one and not in the other is said once a table.
#[test]
fn intervals_of_no_well_are_counted() {
    let said = |name: &str| -> Vec<String> {
        let outcome = outcome(register(name));
        let findings = outcome.findings().into_iter().filter(|finding| finding.code.id() == "F119");
        findings.map(|finding| format!("{}: {}", finding.place, finding.says)).collect()
    };
    assert_eq!(
        said("british-columbia"),
        ["casing.csv: not found in any list of wells: 2 of the 13 ids in this table (899990, 899991)"]
    );
    assert_eq!(
        said("texas"),
        [
            "WellBoreHole.txt: not found in any list of wells: 1 of the 12 ids in this table (990099)",
            "WellCasing.txt: not found in any list of wells: 1 of the 12 ids in this table (990098)",
        ]
    );
    assert!(said("california").is_empty());
}

/// Concentrations counted as another species, against the standard atomic weights (IUPAC 2021, abridged): N 14.007, O 15.999,
/// H 1.008, C 12.011, Ca 40.078, S 32.06; so NO2 46.005, NH4 18.039, HCO3 61.016, CaCO3 100.086, H2S 34.076.
#[test]
fn species_are_counted_by_their_molar_masses() {
    let read_dirty = |name: &str| {
        let path = fixtures("dirty").join(name);
        let rules = crate::reading::rules_beside(&path);
        read(&[path], &rules).unwrap()
    };
    let near = |found: Option<f64>, wanted: f64| {
        assert!(found.is_some_and(|found| (found / wanted - 1.0).abs() < 1e-4), "{found:?}, {wanted}");
    };
    let outcome = read_dirty("species-in-headings.csv");
    let water = &well(&outcome, "W1").water;
    near(water.nitrite_n_mg_per_l, 3.2845 * 14.007 / 46.005);
    near(water.ammonia_n_mg_per_l, 1.2878 * 14.007 / 18.039);
    // 122.0 mg/L of bicarbonate are 2 meq/L (61.016 each), which are 100.09 mg/L as CaCO3 (50.043 each).
    near(water.alkalinity_mg_per_l, 122.0 / 61.016 * 50.043);
    near(water.sulfide_mg_per_l, 0.9408 * 34.076 / 32.06);
    let outcome = read_dirty("species-that-need-no-change.csv");
    let water = &well(&outcome, "W1").water;
    near(water.nitrite_n_mg_per_l, 1.0);
    near(water.ammonia_n_mg_per_l, 1.0);
    near(water.alkalinity_mg_per_l, 100.0);
    near(water.sulfide_mg_per_l, 1.0);
    near(water.iron_mg_per_l, 1.0);
    let outcome = read_dirty("species-in-cells-and-beside.csv");
    for id in ["W1", "W2"] {
        near(well(&outcome, id).water.nitrite_n_mg_per_l, 1.0);
        near(well(&outcome, id).water.ammonia_n_mg_per_l, 1.0);
    }
    near(well(&read_dirty("species-imposed.csv"), "W1").water.nitrite_n_mg_per_l, 1.0);
}

/// A sign beside a value says what it would say in the cell.
#[test]
fn signs_beside_a_value_are_read_like_signs_in_the_cell() {
    let folder = tempfile::tempdir().unwrap();
    let head = "well_id,well_type,depth (ft),water level (ft),diameter (inches),iron";
    let said = |name: &str, text: String| -> Vec<(&'static str, String)> {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        let outcome = read(&[path], &crate::reading::us()).unwrap();
        let findings = outcome.findings();
        findings.into_iter().map(|finding| (finding.code.id(), finding.says.to_string())).collect()
    };
    for sign in ["<", ">", "~", "<=", ">="] {
        let glued = said("glued.csv", format!("{head}\nW1,drilled,180,40,6,{sign}0.05\n"));
        let beside = said("beside.csv", format!("{head},iron_qualifier\nW1,drilled,180,40,6,0.05,{sign}\n"));
        assert_eq!(glued.len(), 1, "{sign}: {glued:?}");
        assert_eq!(beside.len(), 1, "{sign}: {beside:?}");
        assert_eq!(glued[0].0, beside[0].0, "{sign}");
        if sign != "~" {
            assert_eq!(glued[0].1, beside[0].1, "{sign}");
        }
    }
}

/// The walk of one well shows the intervals its volume rests on, with their places.
#[test]
fn explain_shows_the_intervals_of_a_well() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let ran = std::process::Command::new(env!("CARGO_BIN_EXE_aftercrest"))
        .args(["explain", "--well", "900002", "--scenarios"])
        .arg(root.join("scenarios/register-british-columbia.toml"))
        .arg(fixtures("registers").join("british-columbia"))
        .output()
        .unwrap();
    let said = String::from_utf8(ran.stdout).unwrap();
    for line in ["0 ft to 20 ft, 10 in     casing.csv:4", "60 ft to 200 ft, 6 in    casing.csv:6"] {
        assert!(said.contains(&format!("casing interval      {line}")), "{said}");
    }
}
