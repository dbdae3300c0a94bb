//! What the scenario file says of one list alone, and what the words of a list mean.

use std::path::Path;

use crate::running::{Answer, Row, folder, number, place, rows, run_in};

const CAMPAIGN: &str = "[campaign]\nunits = \"us\"\n";
const PRODUCT: &str = "[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                       strength = { percent = 6, basis = \"weight_naocl\" }\n[[scenario]]\nname = \"all\"\nproduct = \"bleach\"\n";

/// Two counties that head their columns alike and mean other units, types and words.
fn two_counties(said: &str) -> tempfile::TempDir {
    let folder = folder();
    let row = |id: &str, kind: &str| format!("{id},{kind},30,10,6,\n");
    let head = "id,type,depth,water level,diameter (in),depot\n";
    place(folder.path(), "county-a.csv", format!("{head}{}", row("A1", "drilled")));
    place(folder.path(), "county-b.csv", format!("{head}{}", row("B1", "DR")));
    place(folder.path(), "plan.toml", format!("{CAMPAIGN}{said}{PRODUCT}"));
    folder
}

fn plan(folder: &Path) -> Answer {
    run_in(
        folder,
        &["plan", "county-a.csv", "county-b.csv", "--scenarios", "plan.toml", "--table", "csv", "--out", "out"],
    )
}

fn standing_volumes(folder: &Path) -> Vec<(String, f64)> {
    let rows = rows(&folder.join("out/treatments.csv"));
    rows.iter().map(|row| (row["well_id"].clone(), number(row, "standing_volume_l"))).collect()
}

/// Litres in a cylinder, from the definition of the inch (0.0254 m).
fn litres(metres: f64) -> f64 {
    std::f64::consts::PI / 4.0 * (6.0 * 0.0254_f64).powi(2) * metres * 1000.0
}

#[test]
fn units_of_one_county_do_not_touch_the_other() {
    let said = "[inventory.words.well_type]\n\"dr\" = \"drilled\"\n\
                [[list]]\nfile = \"county-b.csv\"\nunits = { total_depth = \"m\", static_water_level = \"m\" }\n\
                fixed = { depot = \"Barn\" }\n";
    let folder = two_counties(said);
    plan(folder.path()).ended(0);
    let volumes = standing_volumes(folder.path());
    assert_eq!((volumes[0].0.as_str(), volumes[1].0.as_str()), ("A1", "B1"));
    assert!((volumes[0].1 - litres(20.0 * 0.3048)).abs() < 0.01, "{volumes:?}");
    assert!((volumes[1].1 - litres(20.0)).abs() < 0.01, "{volumes:?}");
    let depots: Vec<String> =
        rows(&folder.path().join("out/treatments.csv")).iter().map(|row| row["depot"].clone()).collect();
    assert_eq!(depots, ["", "Barn"]);
}

#[test]
fn a_list_may_have_its_own_system_columns_and_words() {
    let said = "[[list]]\nfile = \"county-b.csv\"\nsystem = \"metric\"\nwords = { well_type = { \"DR\" = \"drilled\" } }\n\
                columns = { \"water level\" = \"water_column\" }\n";
    let folder = two_counties(said);
    plan(folder.path()).ended(0);
    let volumes = standing_volumes(folder.path());
    assert!((volumes[0].1 - litres(20.0 * 0.3048)).abs() < 0.01, "{volumes:?}");
    assert!((volumes[1].1 - litres(10.0)).abs() < 0.01, "{volumes:?}");
    let findings = std::fs::read_to_string(folder.path().join("out/findings.csv")).unwrap();
    assert!(findings.contains("read as m because the list is \"\"metric\"\""), "{findings}");
    assert!(findings.contains("read as ft because the campaign is \"\"us\"\""), "{findings}");
}

#[test]
fn a_sheet_counts_over_its_file_and_a_file_over_all_lists() {
    use aftercrest::field::Field;
    use aftercrest::place::Origin;
    let text = format!(
        "{CAMPAIGN}[inventory.units]\ntotal_depth = \"ft\"\niron = \"mg/L\"\nnitrite_n = \"mg/L as NO2\"\n\
         [[list]]\nfile = \"b.xlsx\"\nsheet = \"North\"\nunits = {{ total_depth = \"in\" }}\n\
         [[list]]\nfile = \"b.xlsx\"\nunits = {{ total_depth = \"m\", nitrite_n = \"mg/L\" }}\nmissing_texts = [\"nil\"]\n"
    );
    let rules = aftercrest::scenario::Campaign::parse(Path::new("plan.toml"), &text).unwrap().rules;
    let depth = |origin: &Origin| rules.of(origin).units[&Field::TotalDepth].symbol;
    assert_eq!(depth(&Origin::file("a.csv")), "ft");
    assert_eq!(depth(&Origin::sheet("b.xlsx", "South")), "m");
    assert_eq!(depth(&Origin::sheet("b.xlsx", "North")), "in");
    let south = rules.of(&Origin::sheet("b.xlsx", "South"));
    assert!(!south.species.contains_key(&Field::NitriteN), "a unit of its own brings what it is counted as");
    assert_eq!((south.units[&Field::Iron].symbol, south.missing_texts.as_slice()), ("mg/L", &["nil".to_owned()][..]));
    assert!(rules.of(&Origin::file("a.csv")).species.contains_key(&Field::NitriteN));
}

#[test]
fn words_mean_what_the_scenario_file_says() {
    let folder = folder();
    let head = "id,type,depth (ft),water level (ft),diameter (in),flooded,discharge route\n";
    let rows_of =
        [("A", "DR", "J", "road side"), ("B", "MW", "J", ""), ("C", "-", "-", ""), ("D", "dug", "yes", "land")];
    let list: String = rows_of
        .iter()
        .map(|(id, kind, flooded, route)| {
            // Without a width nothing says what type C may be.
            let width = if *id == "C" { "" } else { "36" };
            format!("{id},{kind},30,10,{width},{flooded},{route}\n")
        })
        .collect();
    place(folder.path(), "wells.csv", format!("{head}{list}"));
    let said = "[inventory.words.well_type]\n\"DR\" = \"drilled\"\n\"mw\" = \"not a well\"\n\"-\" = \"unknown\"\n\
                [inventory.words.flooded]\n\"J\" = \"yes\"\n\"-\" = \"no\"\n\
                [inventory.words.discharge_route]\n\"Road-side\" = \"storm_drain\"\n";
    place(folder.path(), "plan.toml", format!("{CAMPAIGN}{said}{PRODUCT}"));
    let options = ["plan", "wells.csv", "--scenarios", "plan.toml", "--table", "csv", "--out", "out"];
    run_in(folder.path(), &options).ended(1);
    let treatments = rows(&folder.path().join("out/treatments.csv"));
    let of = |id: &str, column: &str| treatments.iter().find(|row| row["well_id"] == id).unwrap()[column].clone();
    assert_eq!((of("A", "well_type"), of("A", "discharge_route")), ("drilled".to_owned(), "storm_drain".to_owned()));
    assert_eq!(of("D", "well_type"), "dug");
    let findings = rows(&folder.path().join("out/findings.csv"));
    let code = |row: &str, code: &str| findings.iter().any(|finding| finding["row"] == row && finding["code"] == code);
    let not_a_well = |finding: &Row| finding["code"] == "I105" && finding["says"].contains("row 3 \"MW\"");
    assert!(findings.iter().any(not_a_well), "{findings:?}");
    assert!(code("4", "G202") && !code("4", "C105"), "{findings:?}");
    assert!(!findings.iter().any(|finding| finding["code"] == "C107"), "{findings:?}");
}

#[test]
fn what_cannot_be_followed_is_refused_with_its_line() {
    for (said, line, wanted) in [
        ("[[list]]\nfile = \"C:\\\\lists\\\\b.csv\"\n", 4, "without its folder"),
        ("[[list]]\nsheet = \"North\"\n", 3, "needs `file`"),
        ("[[list]]\nfile = \"b.csv\"\nunits = { total_depth = \"mg/L\" }\n", 5, "not a unit of length"),
        ("[[list]]\nfile = \"b.csv\"\nsystem = \"feet\"\n", 5, "`system` must be"),
        ("[[list]]\nfile = \"b.csv\"\n[[list]]\nfile = \"b.csv\"\n", 5, "a second [[list]]"),
        ("[[list]]\nfile = \"b.csv\"\nrepeats = \"latest\"\n", 5, "unknown key `repeats`"),
        ("[[list]]\nfile = \"b.csv\"\nfixed = { casing_diameter = \"wide\" }\n", 5, "cannot be used"),
        ("[inventory.words.well_type]\n\"DR\" = \"driled\"\n", 4, "did you mean `drilled`"),
        ("[inventory.words.notes]\n\"N\" = \"North\"\n", 3, "neither a choice nor yes or no"),
        ("[inventory.words.flooded]\n\"J\" = \"not a well\"\n", 4, "must mean one of"),
    ] {
        let folder = two_counties(said);
        let answer = plan(folder.path()).ended(2);
        assert!(answer.err.contains(wanted), "{said}{}", answer.err);
        assert!(answer.err.contains(&format!("plan.toml:{line}:")), "{said}{}", answer.err);
    }
}

#[test]
fn a_list_that_is_not_read_is_said() {
    let folder = two_counties("[[list]]\nfile = \"County B.csv\"\nunits = { total_depth = \"m\" }\n");
    let answer = run_in(folder.path(), &["check", "county-a.csv", "county-b.csv", "--scenarios", "plan.toml", "--all"]);
    assert!(answer.out.contains("F130") && answer.out.contains("those that are: \"county-a.csv\""), "{}", answer.out);
    let folder = two_counties("[[list]]\nfile = \"county-b.csv\"\ncolumns = { \"Depht\" = \"total_depth\" }\n");
    let answer = run_in(folder.path(), &["check", "county-a.csv", "county-b.csv", "--scenarios", "plan.toml", "--all"]);
    assert!(answer.out.contains("H113") && answer.out.contains("[[list]] maps \"Depht\""), "{}", answer.out);
}

/// A mapping names the field: unit, datum and species are what the heading says, as if it had been known without one.
///
/// Alkalinity is counted in charges: 140 mg/L of CaCO3 are 140, of HCO3 140 × 100.09 / (2 × 61.02) = 114.8 (Standard
/// Methods 2320 B, from memory; the molar masses from the standard atomic weights, IUPAC 2021).
#[test]
fn a_mapping_changes_nothing_but_the_field() {
    let read = |heading: &str, cell: &str, mapped: Option<&str>| {
        let folder = folder();
        // Nothing beside it that names the same field.
        let rival = heading.split([' ', '(']).next().unwrap_or_default();
        let others = [("depth (ft)", "180"), ("water level (ft)", "40"), ("diameter (in)", "6")];
        let others: Vec<_> =
            others.into_iter().filter(|(other, _)| !other.contains(rival) && rival != "static").collect();
        let heads: String = others.iter().map(|(head, _)| format!("{head},")).collect();
        let cells: String = others.iter().map(|(_, cell)| format!("{cell},")).collect();
        place(folder.path(), "wells.csv", format!("id,type,{heads}{heading}\nA,drilled,{cells}{cell}\n"));
        let mapping =
            mapped.map_or(String::new(), |field| format!("[inventory.columns]\n\"{heading}\" = \"{field}\"\n"));
        place(folder.path(), "plan.toml", format!("{CAMPAIGN}{mapping}{PRODUCT}"));
        run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml", "--limit", "50"]).out
    };
    let listed = |out: &str, heading: &str| {
        let line = out.lines().find(|line| line.trim_start().starts_with(heading) && !line.contains("column \""));
        line.unwrap_or_else(|| panic!("{heading} is not read: {out}")).trim_start()[heading.len()..].trim().to_owned()
    };
    for spelling in [
        "Alkalinity mg/L CaCO3",
        "Alkalinity mg/L caco3",
        "ALKALINITY MG/L CACO3",
        "Alkalinity mg/L CaCO₃",
        "Alkalinity mg/L Ca CO3",
        "Alkalinity mg/L as Ca CO3",
        "Alkalinity (mg/L as CaCO3)",
        "Alkalinity (mg/L Ca CO3)",
        "Alkalinity (mg/L as calcium carbonate)",
        "Alkalinity as calcium carbonate (mg/L)",
        "Alkalinity mg/L calcium carbonate",
        "Alkalinity mg/L CaCO 3",
        "Alkalinity mg/L CaCO-3",
        "Alkalinity (mg/L as Ca CO 3)",
        "Alkalinity as Ca CO 3 (mg/L)",
        "Alkalinity mg/L",
    ] {
        for mapped in [Some("alkalinity"), None] {
            let out = read(spelling, "140", mapped);
            let as_species = if spelling.ends_with("mg/L") { "" } else { " as CaCO3" };
            assert_eq!(listed(&out, spelling), format!("alkalinity (mg/L{as_species})"), "{mapped:?}");
            assert!(!out.contains("H120"), "{spelling} is converted: {out}");
        }
    }
    // What has no unit, or it elsewhere, is the same chemistry.
    for spelling in [
        "Alkalinity (CaCO 3)",
        "Total Alkalinity (CaCO 3) ppm",
        "Alkalinity CaCO-3 mg/L",
        "Alkalinity CaCO-3 (mg/L)",
        "Alkalinity (Ca CO 3)",
    ] {
        let out = read(spelling, "140", Some("alkalinity"));
        assert!(listed(&out, spelling).ends_with("as CaCO3)") && !out.contains("H120"), "{spelling}: {out}");
    }
    for (heading, cell, field) in [
        ("Alkalinity mg/L HCO3", "140", "alkalinity"),
        ("Alkalinity (mg/L as CO3)", "140", "alkalinity"),
        ("nitrite ug/L as NO2", "3", "nitrite_n"),
        ("water level ft (btoc)", "40", "static_water_level"),
        ("static water level (btoc)", "40", "static_water_level"),
        ("well volume (gal)", "40", "water_volume"),
        ("depth (fathoms)", "40", "total_depth"),
        ("depth (gpm)", "40", "total_depth"),
        ("static water level (m amsl)", "40", "static_water_level"),
    ] {
        let codes = |out: &str| -> Vec<String> {
            let codes = out.lines().filter_map(|line| line.split_once('[')?.1.split_once(']'));
            let heading_code = |code: &str| code.starts_with('H') && !["H102", "H107"].contains(&code);
            codes.map(|(code, _)| code.to_owned()).filter(|code| heading_code(code)).collect()
        };
        let (with, without) = (read(heading, cell, Some(field)), read(heading, cell, None));
        assert_eq!(codes(&with), codes(&without), "{heading}\n{with}\n{without}");
    }
    assert!(read("Alkalinity mg/L HCO3", "140", Some("alkalinity")).contains("times 0.8202"));
    assert!(read("well volume (gal)", "40", Some("water_volume")).contains("water_volume (US gal)"));
}
