//! The command as people and scripts meet it: exit code, standard output and standard error together, and what a run
//! leaves in folders. What the numbers are is tested elsewhere.

use std::io::{Read, Write};
use std::path::Path;
use std::process::Stdio;

use aftercrest::ledger::Width;
use serde_json::Value;

use crate::formats::gzip;
use crate::running::{Answer, Row, answer, command, contents, folder, heads, names, place, root, rows, run, run_in};

/// The tables of every row, where they are wanted.
const TABLES: [&str; 3] = ["scenarios", "treatments", "visits"];

const LIST: &str = "well_id,well_type,depth (ft),water level (ft),casing diameter (in),depot,Road no.\n\
                    A1,drilled,180,40,6,Mill,12\nA2,drilled,42,57.3,6,Mill,12\nB7,dug,22,8,36,Barn,3\n";
const SCENARIOS: &str = "[campaign]\ntitle = \"Two products\"\nunits = \"us\"\ncurrency = \"USD\"\n\
                         [[product]]\nname = \"weak\"\nchemical = \"sodium_hypochlorite\"\n\
                         strength = { percent = 6, basis = \"weight_naocl\" }\npackages = [{ size = \"1 gal\", price = 5 }]\n\
                         [[product]]\nname = \"strong\"\nchemical = \"sodium_hypochlorite\"\n\
                         strength = { percent = 12.5, basis = \"trade\" }\npackages = [{ size = \"5 gal\", price = 24 }]\n\
                         [[scenario]]\nname = \"with weak\"\nproduct = \"weak\"\n\
                         [[scenario]]\nname = \"with strong\"\nproduct = \"strong\"\n\
                         [[scenario]]\nname = \"with strong, twice\"\nproduct = \"strong\"\ntarget_mg_per_l = 200\n";
const FILES: [&str; 8] = [
    "campaign.xlsx",
    "crew-sheets.html",
    "findings.csv",
    "notices.html",
    "orders.csv",
    "report.html",
    "run.json",
    "totals.csv",
];

/// A folder with a list of three wells, one of them held back, and a scenario file.
fn small() -> tempfile::TempDir {
    let folder = folder();
    place(folder.path(), "wells.csv", LIST);
    place(folder.path(), "plan.toml", SCENARIOS);
    folder
}

fn plan(folder: &Path, more: &[&str]) -> Answer {
    let mut arguments = vec!["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"];
    arguments.extend(more);
    run_in(folder, &arguments)
}

/// The lines of a JSON answer, each with its kind of message, every key known.
fn messages(answer: &Answer) -> Vec<Value> {
    const KEYS: &[(&str, &[&str])] = &[
        (
            "finding",
            &[
                "severity",
                "code",
                "name",
                "file",
                "sheet",
                "row",
                "column",
                "heading",
                "well_id",
                "as_typed",
                "says",
                "rule",
                "what_to_do",
                "suggested_value",
            ],
        ),
        (
            "total",
            &[
                "scenario",
                "visits_planned",
                "visits_held_back",
                "visits_excluded",
                "visits_assumed",
                "treated_volume_l",
                "chlorine_g",
                "product_unit",
                "product",
                "product_low",
                "product_high",
                "product_repeat",
                "product_loss",
                "neutralizer_kg",
                "flush_volume_l",
                "flush_h",
            ],
        ),
        (
            "run_finished",
            &["format", "rows_read", "visits_planned", "visits_held_back", "visits_excluded", "rows_not_wells"],
        ),
        (
            "check_finished",
            &[
                "format",
                "rows_read",
                "visits_admitted",
                "visits_held_back",
                "visits_excluded",
                "rows_not_wells",
                "visits_resting_on_assumptions",
            ],
        ),
        ("completeness", &["field", "rows", "given", "unread", "by_type"]),
        (
            "range",
            &[
                "field",
                "well_type",
                "values",
                "unit",
                "least",
                "median",
                "greatest",
                "most_frequent",
                "most_frequent_count",
            ],
        ),
        ("cluster", &["says"]),
        ("rests_on", &["well_type", "field", "visits", "standing_volume_l", "low_to_high_l", "share_of_volume"]),
        ("repair", &["list", "row", "well_id", "visit", "fields", "low_to_high_l", "share_of_span"]),
        ("completeness", &["field", "rows", "given", "unread", "by_type"]),
        (
            "range",
            &[
                "field",
                "well_type",
                "values",
                "unit",
                "least",
                "median",
                "greatest",
                "most_frequent",
                "most_frequent_count",
            ],
        ),
        ("cluster", &["says"]),
        ("rests_on", &["well_type", "field", "visits", "standing_volume_l", "low_to_high_l", "share_of_volume"]),
        ("repair", &["list", "row", "well_id", "visit", "fields", "low_to_high_l", "share_of_span"]),
        ("column", &["name", "headings", "choices", "unit_us", "unit_metric", "unit_imperial", "help"]),
        (
            "product",
            &[
                "name",
                "chemical",
                "percent",
                "basis",
                "strength_g_per_l",
                "strength_g_per_kg",
                "density_kg_per_l",
                "packages",
                "days_until_80_percent",
                "label",
                "source",
            ],
        ),
    ];
    answer
        .out
        .lines()
        .map(|line| {
            let message: Value = serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}"));
            let object = message.as_object().unwrap();
            let kind = object["message"].as_str().unwrap();
            let known =
                KEYS.iter().find(|(name, _)| *name == kind).unwrap_or_else(|| panic!("a new message: {line}")).1;
            let found: Vec<&str> = object.keys().map(String::as_str).filter(|key| *key != "message").collect();
            // An added key is a promise: it is written down here first.
            for key in &found {
                assert!(known.contains(key), "{kind} has a new key {key}");
            }
            for key in known {
                assert!(found.contains(key), "{kind} has lost its key {key}");
            }
            message
        })
        .collect()
}

fn kind(message: &Value) -> &str {
    message["message"].as_str().unwrap()
}

#[test]
fn the_demo_is_planned_by_one_command() {
    let folder = folder();
    let answer = run_in(folder.path(), &["plan", "--demo"]).ended(1);
    let title = answer.out.lines().next().unwrap();
    let coverage = answer.out.lines().find(|line| line.starts_with("224 of 245")).unwrap();
    assert_eq!(title, "Spring flood, three valleys (invented)");
    let words: Vec<&str> = coverage.split([' ', ',', ';']).filter(|word| !word.is_empty()).collect();
    let [
        "224",
        "of",
        "245",
        "well",
        "visits",
        "planned",
        "21",
        "held",
        "back",
        "1",
        "row",
        "is",
        "not",
        "a",
        "well.",
        "38",
        ..,
    ] = words[..]
    else {
        panic!("{coverage}")
    };
    assert!(answer.out.contains("Never mix chlorine products with acid"));
    assert!(answer.out.contains("Local code and licensed practice come first"));
    let (_, last) = answer.out.rsplit_once("Written to campaign:").unwrap();
    assert_eq!(
        last,
        "\n  campaign.xlsx, report.html, totals.csv, orders.csv, findings.csv, crew-sheets.html, notices.html,\n  \
         visits.csv, treatments.csv, scenarios.csv, run.json\n"
    );
    assert_eq!(answer.err, "", "held back is said once, with the answer");
    assert_eq!(names(folder.path()), ["campaign"]);
    let mut files = FILES.to_vec();
    files.extend(["scenarios.csv", "treatments.csv", "visits.csv"]);
    files.sort_unstable();
    assert_eq!(names(&folder.path().join("campaign")), files);
    // The same lists and the same file, named one by one, give the same tables.
    let answer = run(&[
        "plan",
        "fixtures/demo/harrowfen-county.xlsx",
        "fixtures/demo/quillmoor-county.csv",
        "--scenarios",
        "scenarios/demo.toml",
        "--out",
        folder.path().join("again").to_str().unwrap(),
    ])
    .ended(1);
    assert!(answer.out.starts_with(title));
    assert!(contents(&folder.path().join("campaign")) == contents(&folder.path().join("again")));
}

#[test]
fn a_small_plan_word_by_word() {
    let folder = small();
    let answer = plan(folder.path(), &["--only", "with weak"]).ended(1);
    let (before, rest) = answer.out.split_once("\nCautions\n").unwrap();
    assert_eq!(
        before,
        "Two products\n\
         3 rows read: 2 planned + 1 held back + 0 excluded + 0 not wells.\n\
         No age is given for weak: the strength on its label is used, as if it were made today. At 60 days\n\
         and 75 °F it would have lost 8.4 % of its strength: order +9.2 %.\n\
         2 of 2 planned visits give no plumbing: none is included. 80 US gal of pipes and tank for each would\n\
         take +17 % of chlorine.\n\
         2 of 2 planned visits have nothing measured that uses up chlorine: none is allowed for. 5 mg/L of\n\
         iron would take +3.2 % at each.\n\
         No allowance is given for the gravel pack and the rock: 1 x the standing water is treated. 2 x,\n\
         which one agency asks for (Alberta Agriculture, Agdex 716 A10), would take up to +100 %.\n\
         Topping up is not in the order, and \"covered\" does not count it: the cards name 1.59 US gal for\n\
         strips that read too little, if every card needs it once. What the packages hold beyond the need may\n\
         serve for it: 0.732 US gal of 1.25 US gal at Barn. To order all of it, state a handling loss, or a\n\
         higher one.\n\
         Without a price, or a package that has one: ascorbic acid (vitamin C). What is called priced so far\n\
         below is not the cost of an order.\n\
         Wells held back, by cause:\n      \
         1 water level below bottom: \"water level (ft)\"\n\
         findings.csv and the sheet Findings say what to do; the command check says what to answer first.\n"
    );
    // Once and short, with where the rest is.
    let (cautions, after) = rest.split_once("end of report.html, sheet Cautions.\n").unwrap();
    assert!(cautions.lines().count() < 12 && cautions.contains("Never enter a dug well"), "{cautions}");
    // The answer last.
    assert_eq!(
        after,
        "\n\
         \u{20}                                 With\n\
         \u{20}          First              repeats,          Neutralizer\n\
         Scenario   round   Low  High    losses  Unit           (lb)                       Order cost (USD)\n\
         ---------  -----  ----  ----  --------  ------  -----------  -------------------------------------\n\
         with weak   1.54  1.54  1.54      1.54  US gal         2.27  15 priced so far, 2 of 4 lines priced\n\
         \n\
         Low and high add up every well's low and every well's high, as if all of them erred to the same side\n\
         at once; the truth is likely to lie nearer the middle.\n\
         2 of 3 well visits planned; 1 held back. No place for the flush water is given for 2 visits (a\n\
         stream is counted); that moves none of the water. Amounts leave out what is held back.\n\
         No scenario can be chosen as it stands: 1 not all priced.\n\
         Written to out:\n  \
         campaign.xlsx, report.html, totals.csv, orders.csv, findings.csv, crew-sheets.html, notices.html,\n  \
         visits.csv, treatments.csv, scenarios.csv, run.json\n"
    );
    assert_eq!(answer.err, "");
}

#[test]
fn a_sound_list_ends_with_nought() {
    let folder = small();
    let sound: String = LIST.lines().filter(|line| !line.starts_with("A2")).map(|line| format!("{line}\n")).collect();
    place(folder.path(), "wells.csv", sound);
    assert_eq!(plan(folder.path(), &[]).ended(0).err, "");
    let answer = run_in(folder.path(), &["check", "wells.csv", "--scenarios", "plan.toml"]).ended(0);
    assert!(
        answer.out.starts_with("2 of 2 wells can be planned now.\nNo place for the flush water is given for 2 visits (a stream is counted).\n"),
        "{}",
        answer.out
    );
    assert!(
        answer.out.ends_with("\nNext, plan them:\n  aftercrest plan wells.csv --scenarios plan.toml --out campaign\n"),
        "{}",
        answer.out
    );
}

#[test]
fn a_check_shows_the_cell_the_rule_and_the_remedy() {
    let answer = run(&["check", "fixtures/findings/G203-water-level-below-bottom.csv", "--all"]).ended(1);
    assert_eq!(answer.err, "");
    let begins = "held back [G203] water level below bottom\n  \
                    G203-water-level-below-bottom.csv:2:4  column \"water level (ft)\"  well W1\n      \
                        57.3\n  \
                    the water level at 57.3 ft is not above the bottom at 42 ft\n  \
                    see also G203-water-level-below-bottom.csv:2:3  total_depth = \"42\"\n  \
                    help: check whether depth and level are exchanged, and their units\n\n\
                  G203-water-level-below-bottom.csv: 1 rows\n  \
                    well_id                                  well_id\n  \
                    well_type                                well_type\n  \
                    depth (ft)                               total_depth (ft)\n  \
                    water level (ft)                         static_water_level (ft)\n  \
                    diameter (inches)                        casing_diameter (in)\n\n";
    assert!(answer.out.starts_with(begins), "wanted\n{begins}\nbut it begins\n{}", answer.out);
    // Between the two stands how complete the list is.
    let ends = "\n0 of 1 well can be planned now; 1 is held back.\n\n\
                Held back, by cause (wells):\n      \
                      1  water level below bottom: \"water level (ft)\"  D2\n\n\
                Next, have the cells that hold wells back written out, to be corrected:\n  \
                  aftercrest check fixtures/findings/G203-water-level-below-bottom.csv \\\n      \
                      --corrections-out todo.xlsx\n\
                1 well is held back (exit code 1).\n";
    assert!(answer.out.ends_with(ends), "{}", answer.out);
}

/// What a person asks after the findings: which columns went where, what is still open, what is assumed.
#[test]
fn a_check_says_what_became_of_each_column_and_what_is_still_open() {
    let folder = small();
    let list = "well_id,well_type,depth,swl,diameter (in),ph,Road no.,yield (gpm)\nA,drilled,180,40 ft,6,7.1,12,8\n\
                B,drilled,90 ft,40 ft,6,7.1,12,8\n";
    place(folder.path(), "open.csv", list);
    let answer = run_in(folder.path(), &["check", "open.csv", "--all"]).ended(1);
    assert!(answer.out.contains("\n  ph                                       ph\n"), "{}", answer.out);
    assert!(answer.out.contains("\n  carried along: Road no., yield (gpm)\n"), "{}", answer.out);
    let asked = "\n1 of 2 wells can be planned now; 1 is held back.\n\
                 No place for the flush water is given for 1 visit (a stream is counted).\n\n\
                 Questions, and the wells an answer frees, unless another problem shows up:\n  \
                   1. unit of \"depth\": 1 more well\n     \
                      --units UNITS, or [inventory.units] total_depth = \"UNIT\"\n";
    assert!(answer.out.contains(asked), "{}", answer.out);
    let ends = "\nNext, say which units they use (UNITS: us, metric or imperial), and check again:\n  \
                  aftercrest check open.csv --units UNITS\n\
                To plan the others as they are: plan in place of check, and --out campaign.\n\
                1 well is held back (exit code 1).\n";
    assert!(answer.out.ends_with(ends), "{}", answer.out);
    let answer = run_in(folder.path(), &["check", "open.csv", "--units", "us", "--all"]).ended(0);
    assert!(!answer.out.contains("Next, say how") && answer.out.contains("yield (gpm)  "), "{}", answer.out);
}

#[test]
fn a_check_of_every_fixture_ends_as_its_findings_say() {
    for name in names(&root().join("fixtures/findings")).iter().filter(|name| !name.ends_with(".toml")) {
        let path = format!("fixtures/findings/{name}");
        let beside = Path::new(&path).with_extension("toml");
        let mut arguments = vec!["check".to_owned(), path.clone(), "--json".to_owned()];
        // A file that leaves the units open, on purpose, is no campaign: such a list is checked without any.
        if std::fs::read_to_string(root().join(&beside)).is_ok_and(|rules| rules.contains("units = ")) {
            arguments.extend(["--scenarios".to_owned(), beside.to_str().unwrap().to_owned()]);
        } else if !root().join(&beside).exists() {
            arguments.extend(["--units".to_owned(), "us".to_owned()]);
        }
        let answer = run(&arguments);
        let messages = messages(&answer);
        let Some(last) = messages.last() else { panic!("{name}: {}", answer.err) };
        assert_eq!(kind(last), "check_finished", "{name}");
        let held_back = last["visits_held_back"].as_u64().unwrap();
        assert_eq!(
            last["rows_read"].as_u64().unwrap(),
            (["visits_admitted", "visits_excluded", "rows_not_wells"].iter())
                .fold(held_back, |sum, count| sum + last[*count].as_u64().unwrap()),
            "{name}"
        );
        let code = &name[..4];
        // A list that is empty, or of which nothing is known, cannot be planned with at all.
        let useless = ["F101", "F102"].contains(&code);
        assert_eq!(answer.err.contains("cannot be planned with"), useless, "{name}: {}", answer.err);
        assert!(useless || answer.err.is_empty(), "{name}: {}", answer.err);
        answer.ended(if useless { 2 } else { i32::from(held_back > 0) });
        // F111 wants the same file twice.
        assert!(code == "F111" || messages.iter().any(|message| message["code"] == code), "{name}: {messages:?}");
    }
}

#[test]
fn findings_beyond_the_limit_are_counted_aloud() {
    let answer = run(&["check", "fixtures/demo/quillmoor-county.csv", "--units", "us", "--limit", "2"]);
    let shown = answer
        .out
        .lines()
        .filter(|line| ["held back [", "check [", "note ["].iter().any(|begins| line.starts_with(begins)))
        .count();
    assert_eq!(shown, 2);
    assert!(answer.out.contains(" further findings are not printed; --limit shows more."), "{}", answer.out);
}

#[test]
fn json_lines_have_known_keys() {
    let folder = small();
    let planned = plan(folder.path(), &["--json"]).ended(1);
    let kinds: Vec<Value> = messages(&planned);
    let count = |wanted: &str| kinds.iter().filter(|message| kind(message) == wanted).count();
    assert_eq!(kinds.last().map(kind), Some("run_finished"));
    assert_eq!((count("total"), count("run_finished")), (3, 1));
    assert_eq!(planned.err, "");
    assert_eq!(count("finding"), rows(&folder.path().join("out/findings.csv")).len());
    let total = kinds.iter().find(|message| kind(message) == "total").unwrap();
    assert_eq!((&total["scenario"], &total["product_unit"]), (&Value::from("with weak"), &Value::from("L")));
    assert!(messages(&run(&["columns", "--json"]).ended(0)).len() > 30);
    assert!(messages(&run(&["products", "--json"]).ended(0)).len() >= 8);
    let record: Value = serde_json::from_slice(&std::fs::read(folder.path().join("out/run.json")).unwrap()).unwrap();
    assert_eq!(record["visits_planned"].as_u64().unwrap() + record["visits_held_back"].as_u64().unwrap(), 3);
    assert_eq!(record["lists"][0]["sha256"].as_str().unwrap().len(), 64);
    assert_eq!(record["treatment_rows"], 9);
}

#[test]
fn only_some_scenarios_keep_their_names_and_numbers() {
    let folder = small();
    plan(folder.path(), &[]).ended(1);
    let whole = rows(&folder.path().join("out/treatments.csv"));
    for wanted in ["with strong, twice", "S3"] {
        plan(folder.path(), &["--only", wanted]).ended(1);
        let record: Value =
            serde_json::from_slice(&std::fs::read(folder.path().join("out/run.json")).unwrap()).unwrap();
        let scenarios = record["scenarios"].as_array().unwrap();
        assert_eq!(scenarios.len(), 1);
        assert_eq!(scenarios[0]["id"], "S3");
        assert_eq!(scenarios[0]["name"], "with strong, twice");
        let part = rows(&folder.path().join("out/treatments.csv"));
        let same: Vec<_> = whole.iter().filter(|row| row["scenario"] == "with strong, twice").cloned().collect();
        assert_eq!(part, same);
    }
    // In the order of the file, whatever the order asked for.
    plan(folder.path(), &["--only", "S3", "with weak"]).ended(1);
    let record: Value = serde_json::from_slice(&std::fs::read(folder.path().join("out/run.json")).unwrap()).unwrap();
    let ids: Vec<&str> =
        record["scenarios"].as_array().unwrap().iter().map(|one| one["id"].as_str().unwrap()).collect();
    assert_eq!(ids, ["S1", "S3"]);
}

#[test]
fn an_unknown_name_is_answered_with_the_nearest() {
    let folder = small();
    plan(folder.path(), &["--only", "with stong"]).ended(2).said(
        "",
        "error: no scenario \"with stong\"; did you mean `with strong`?; scenarios: with weak | with strong | with \
         strong, twice\n",
    );
    run(&["well", "--volume", "100 gal", "--product", "blech 6"]).ended(2);
    let answer = run(&["explain", "G2003"]).ended(2);
    assert!(answer.err.contains("did you mean `G203`?"), "{}", answer.err);
    let answer = run(&["plan", "--demo", "--tabel", "csv"]).ended(2);
    assert!(answer.err.contains("'--table'"), "{}", answer.err);
    assert_eq!(names(folder.path()), ["plan.toml", "wells.csv"], "a refused run leaves something behind");
}

#[test]
fn tables_as_asked_for() {
    let folder = small();
    let files = |extra: Option<&'static str>| {
        let mut files: Vec<String> = FILES.map(str::to_owned).to_vec();
        files.extend(extra.iter().flat_map(|ending| TABLES.map(|name| format!("{name}.{ending}"))));
        files.sort_unstable();
        files
    };
    for (table, file) in [("csv", Some("csv")), ("parquet", Some("parquet")), ("none", None), ("csv", Some("csv"))] {
        let answer = plan(folder.path(), &["--table", table]).ended(1);
        // What an earlier run left under our names is gone, or it would be read as this run's.
        assert_eq!(names(&folder.path().join("out")), files(file));
        assert_eq!(answer.out.contains("treatments"), file.is_some());
    }
    let parquet = {
        plan(folder.path(), &["--table", "parquet"]).ended(1);
        std::fs::read(folder.path().join("out/treatments.parquet")).unwrap()
    };
    assert!(parquet.starts_with(b"PAR1") && parquet.ends_with(b"PAR1"));
}

#[test]
fn columns_of_the_treatments_can_be_chosen() {
    let folder = small();
    let out = folder.path().join("out");
    plan(folder.path(), &[]).ended(1);
    let whole = rows(&out.join("treatments.csv"));
    let names = ["casing_diameter_mm", "well_id", "chlorine_g", "treated_volume_l", "cautions", "scenario"];
    for table in ["csv", "parquet"] {
        plan(folder.path(), &["--table", table, "--columns", &names.join(",")]).ended(1);
        assert!(!out.join(format!("visits.{table}")).exists(), "what is chosen of visits stands in treatments");
        assert!(out.join(format!("scenarios.{table}")).exists());
    }
    plan(folder.path(), &["--columns", &names.join(",")]).ended(1);
    assert_eq!(heads(&out.join("treatments.csv")), names);
    for (chosen, row) in rows(&out.join("treatments.csv")).iter().zip(&whole) {
        for name in names {
            assert_eq!(chosen[name], row[name], "{name}");
        }
    }
    for (wrong, says) in [("chlorine_kg", "chlorine_g"), ("well_id,well_id", "twice")] {
        let answer = plan(folder.path(), &["--columns", wrong]).ended(2);
        assert!(answer.err.contains(says), "{}", answer.err);
    }
}

/// What a column is said to vary with is what it varies with: cases of one practice share its figures.
#[test]
fn figures_vary_with_no_more_than_they_say() {
    let folder = small();
    let out = folder.path().join("out");
    let grid = "[grid]\nproduct = [\"weak\", \"strong\"]\ntarget_mg_per_l = [50, 100]\n";
    place(folder.path(), "plan.toml", format!("{}{grid}", SCENARIOS.split("[[scenario]]").next().unwrap()));
    plan(folder.path(), &[]).ended(1);
    let table = rows(&out.join("treatments.csv"));
    assert!(table.len() >= 12, "{}", table.len());
    for visit in table.chunks(4) {
        for column in aftercrest::ledger::treatments() {
            let alike = |one: &Row, other: &Row| match column.width {
                Width::Visit => true,
                Width::Practice => one["target_mg_per_l"] == other["target_mg_per_l"],
                Width::Product => false,
            };
            for (one, other) in visit.iter().zip(visit.iter().skip(1)).chain(visit.iter().zip(visit.iter().skip(2))) {
                assert!(!alike(one, other) || one[column.id] == other[column.id], "{}: {one:?}", column.id);
            }
        }
    }
}

#[test]
fn foreign_files_stay_in_an_output_folder() {
    let folder = small();
    let out = folder.path().join("out");
    // An earlier run's table of another kind is cleared away.
    plan(folder.path(), &["--table", "parquet"]).ended(1);
    assert!(out.join("treatments.parquet").exists());
    place(&out, "notes.txt", "mine");
    std::fs::create_dir(out.join("photos")).unwrap();
    plan(folder.path(), &[]).ended(1);
    let mut files = FILES.to_vec();
    files.extend(["notes.txt", "photos", "scenarios.csv", "treatments.csv", "visits.csv"]);
    files.sort_unstable();
    assert_eq!(names(&out), files);
    assert_eq!(std::fs::read(out.join("notes.txt")).unwrap(), b"mine");
    assert_eq!(names(folder.path()), ["out", "plan.toml", "wells.csv"], "a temporary folder stayed");
}

#[test]
fn inputs_are_never_written_over() {
    // A list that has the name of an output, in the output folder; the same by another path; and the scenario file.
    let folder = small();
    let out = folder.path().join("out");
    std::fs::create_dir(&out).unwrap();
    let list = place(&out, "treatments.csv", LIST);
    for path in ["out/treatments.csv", "out/../out/treatments.csv"] {
        let answer = run_in(folder.path(), &["plan", path, "--scenarios", "plan.toml", "--out", "out"]).ended(2);
        assert!(answer.err.contains("inputs are never overwritten"), "{}", answer.err);
        assert_eq!(std::fs::read_to_string(&list).unwrap(), LIST);
        // Not even by a run that would write no such file: it would clear it away as a stale table.
        let arguments = ["plan", path, "--scenarios", "plan.toml", "--out", "out", "--table", "none"];
        run_in(folder.path(), &arguments).ended(2);
        assert_eq!(std::fs::read_to_string(&list).unwrap(), LIST);
    }
    let scenarios = place(&out, "run.json", SCENARIOS);
    let answer = run_in(folder.path(), &["plan", "wells.csv", "--scenarios", "out/run.json", "--out", "out"]).ended(2);
    assert!(answer.err.contains("inputs are never overwritten"), "{}", answer.err);
    assert_eq!(std::fs::read_to_string(&scenarios).unwrap(), SCENARIOS);
    assert_eq!(names(&out), ["run.json", "treatments.csv"]);
}

#[test]
fn a_run_that_fails_leaves_nothing() {
    let folder = small();
    // Fails after the lists are open: a condition on a field that no list has.
    let wrong = format!("{SCENARIOS}[[override]]\nwhere = \"colour = 'red'\"\nset = {{ hold_hours = 1 }}\n");
    place(folder.path(), "plan.toml", wrong);
    plan(folder.path(), &[]).ended(2);
    assert_eq!(names(folder.path()), ["plan.toml", "wells.csv"]);
    place(folder.path(), "plan.toml", SCENARIOS);
    place(folder.path(), "out", "a file where the folder should be");
    let answer = plan(folder.path(), &[]).ended(2);
    assert_eq!(answer.err, "error: cannot write out: it is a file, and outputs need a folder\n");
    assert_eq!(names(folder.path()), ["out", "plan.toml", "wells.csv"]);
    std::fs::remove_file(folder.path().join("out")).unwrap();
    // A folder of an earlier run stays as it was.
    plan(folder.path(), &[]).ended(1);
    let before = contents(&folder.path().join("out"));
    place(folder.path(), "plan.toml", "[campaign]\nunits = \"us\"\nuntis = 1\n");
    plan(folder.path(), &[]).ended(2);
    assert!(contents(&folder.path().join("out")) == before);
    // An output that cannot be put in its place: a folder has its name.
    place(folder.path(), "plan.toml", SCENARIOS);
    std::fs::remove_file(folder.path().join("out/totals.csv")).unwrap();
    std::fs::create_dir(folder.path().join("out/totals.csv")).unwrap();
    place(&folder.path().join("out/totals.csv"), "keep", "me");
    let answer = plan(folder.path(), &["--only", "S1"]).ended(2);
    assert!(answer.err.contains("totals.csv"), "{}", answer.err);
    assert_eq!(names(folder.path()), ["out", "plan.toml", "wells.csv"]);
    for (name, bytes) in &before {
        if name != "totals.csv" {
            let now = std::fs::read(folder.path().join("out").join(name)).unwrap();
            assert!(now == *bytes, "{name} is of another run");
        }
    }
}

/// Folders above the output folder that were made for a run go with it when it fails; what somebody put there stays.
#[test]
fn a_run_that_fails_leaves_no_folders() {
    let folder = small();
    // Breaks off while the rows are read, when the folders are made already.
    let long = format!("{LIST}{}", "C1,drilled,180,40,6,Mill,12\n".repeat(200_000));
    let packed = gzip(long.as_bytes());
    place(folder.path(), "cut.csv.gz", &packed[..packed.len() - 20]);
    let fail = |out: &str| {
        let arguments = ["plan", "cut.csv.gz", "--scenarios", "plan.toml", "--out", out];
        let answer = run_in(folder.path(), &arguments).ended(2);
        assert!(answer.err.contains("damaged or cut short"), "{}", answer.err);
    };
    let before = names(folder.path());
    fail("deep/er/still/out");
    fail("./deep/../deep/out");
    assert_eq!(names(folder.path()), before);
    std::fs::create_dir_all(folder.path().join("mine/empty")).unwrap();
    fail("mine/empty/new/out");
    fail("mine/empty");
    assert_eq!(names(&folder.path().join("mine")), ["empty"], "a folder that was there stays, empty or not");
    assert!(names(&folder.path().join("mine/empty")).is_empty());
}

/// The day of the plan: asked for, else that of the surroundings, else the lists' own.
#[test]
fn the_day_of_the_plan_comes_from_the_nearest_that_says_it() {
    let folder = small();
    let dated = SCENARIOS
        .replace("[[product]]\nname = \"weak\"", "[inventory]\ndate = 2026-04-12\n[[product]]\nname = \"weak\"");
    let aged = dated.replacen(
        "percent = 6, basis = \"weight_naocl\" }",
        "percent = 6, basis = \"weight_naocl\" }\nlabel_date = 2026-03-01\nstorage = \"20 C\"",
        1,
    );
    place(folder.path(), "plan.toml", &aged);
    let day = |more: &[&str], epoch: Option<&str>| -> String {
        let mut arguments = vec!["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"];
        arguments.extend(more);
        let mut command = command();
        command.current_dir(folder.path()).args(arguments);
        if let Some(epoch) = epoch {
            command.env("SOURCE_DATE_EPOCH", epoch);
        }
        answer(&mut command).ended(1);
        let record: Value =
            serde_json::from_slice(&std::fs::read(folder.path().join("out/run.json")).unwrap()).unwrap();
        record["date"].as_str().unwrap_or("none").to_owned()
    };
    assert_eq!(day(&[], None), "2026-04-12");
    // 2026-05-01 00:00 UTC.
    assert_eq!(day(&[], Some("1777593600")), "2026-05-01");
    assert_eq!(day(&["--date", "2026-06-02"], Some("1777593600")), "2026-06-02");
    // It is the day that ages are counted to: 42 days from the first of March.
    let age = |more: &[&str]| -> f64 {
        let mut arguments = vec!["well", "--volume", "100 gal", "--product", "weak", "--scenarios", "plan.toml"];
        arguments.extend(more);
        let answer = run_in(folder.path(), &arguments).ended(0);
        let (_, working) = answer.out.split_once("\nWorking").unwrap();
        let words = working.split(" days").next().unwrap().rsplit(char::is_whitespace).next().unwrap().to_owned();
        words.parse().unwrap_or_else(|_| panic!("{words:?} in {}", answer.out))
    };
    assert_eq!(age(&[]), 42.0);
    assert_eq!(age(&["--date", "2026-03-11"]), 10.0);
    place(folder.path(), "plan.toml", aged.replace("[inventory]\ndate = 2026-04-12\n", ""));
    let answer = plan(folder.path(), &[]).ended(2);
    assert!(
        answer.err.contains("label_date = 2026-03-01")
            && answer.err.contains("--date YYYY-MM-DD or `date` in [inventory]"),
        "{}",
        answer.err
    );
}

/// `Road no.` and `ROAD NO.` are one column, whichever way totals and conditions write it.
#[test]
fn a_carried_column_is_one_in_capitals_and_small_letters() {
    let folder = small();
    place(folder.path(), "a.csv", LIST);
    let other = LIST.replace("Road no.", "ROAD NO.").replace("\nA", "\nC").replace("\nB", "\nD");
    place(folder.path(), "b.csv", other);
    let scenarios = SCENARIOS.replace("currency =", "group_by = [\"road no.\"]\ncurrency =")
        + "[[override]]\nwhere = \"\"\"\"ROAD NO.\" = '3'\"\"\"\nset = { hold_hours = 48 }\n";
    place(folder.path(), "plan.toml", scenarios);
    let lists = ["a.csv", "b.csv"];
    let plan = |lists: &[&str]| {
        let more = ["--scenarios", "plan.toml", "--out", "out", "--only", "S1"];
        run_in(folder.path(), &[&["plan"], lists, &more].concat()).ended(1)
    };
    plan(&lists);
    let out = folder.path().join("out");
    let treatments = rows(&out.join("treatments.csv"));
    let roads: Vec<&str> = treatments.iter().map(|row| row["Road no."].as_str()).collect();
    assert_eq!(roads, ["12", "12", "3", "12", "12", "3"]);
    assert!(!treatments[0].contains_key("ROAD NO."));
    let held: Vec<&str> = treatments.iter().map(|row| row["hold_h"].as_str()).collect();
    assert_eq!(held, ["24", "", "48", "24", "", "48"]);
    let totals = rows(&out.join("totals.csv"));
    let planned = |road: &str| totals.iter().find(|row| row["road no."] == road).unwrap()["visits_planned"].clone();
    assert_eq!((planned("12"), planned("3")), ("2".to_owned(), "2".to_owned()));
    let findings = rows(&out.join("findings.csv"));
    let note = findings.iter().find(|finding| finding["code"] == "H121").unwrap();
    assert_eq!((&*note["file"], &*note["row"], &*note["as_typed"]), ("b.csv", "1", "ROAD NO."));
    // In one list they are two columns, as a heading that stands there twice is.
    place(folder.path(), "a.csv", LIST.replace("depot,Road no.", "Road no.,ROAD NO."));
    place(folder.path(), "plan.toml", SCENARIOS);
    plan(&["a.csv"]);
    let row = rows(&out.join("treatments.csv")).remove(0);
    assert_eq!((&*row["Road no."], &*row["ROAD NO. (2)"]), ("Mill", "12"));
}

/// Totals and conditions may name a field by the heading that the lists give it, known or mapped.
#[test]
fn a_field_may_be_named_by_its_heading() {
    let folder = small();
    place(folder.path(), "a.csv", LIST.replace("Road no.", "Parish"));
    place(folder.path(), "b.csv", LIST.replace("Road no.", "Bezirk").replace("\nA", "\nC").replace("\nB", "\nD"));
    let mapped = SCENARIOS.replace("currency =", "group_by = [\"PARISH\", \"Bezirk\"]\ncurrency =")
        + "[inventory.columns]\nBezirk = \"region\"\n\
           [[override]]\nwhere = \"Parish = '3'\"\nset = { hold_hours = 48 }\n";
    place(folder.path(), "plan.toml", mapped);
    let more = ["--scenarios", "plan.toml", "--out", "out", "--only", "S1"];
    run_in(folder.path(), &[&["plan", "a.csv", "b.csv"], &more[..]].concat()).ended(1);
    let out = folder.path().join("out");
    let held: Vec<String> = rows(&out.join("treatments.csv")).iter().map(|row| row["hold_h"].clone()).collect();
    assert_eq!(held, ["24", "", "48", "24", "", "48"]);
    let totals = rows(&out.join("totals.csv"));
    let road = totals.iter().find(|row| row["PARISH"] == "3").unwrap();
    assert_eq!((&*road["Bezirk"], &*road["visits_planned"]), ("3", "2"));
}

#[test]
fn wrong_calls_say_what_is_missing() {
    for (arguments, says) in [
        (&["plan"][..], "--out <DIR>"),
        (&["plan", "--demo", "wells.csv"], "cannot be used with"),
        (&["plan", "wells.csv", "--scenarios", "none.toml", "--out", "x"], "cannot read none.toml"),
        (&["check"], "<INVENTORY>"),
        (&["check", "no-such-file.csv"], "cannot read no-such-file.csv: there is no such file"),
        (&["well", "--product", "bleach 6"], "give --depth, --water-level and --diameter"),
        (&["well", "--volume", "100", "--product", "bleach 6"], "--volume \"100\""),
        (&["well", "--volume", "100 gal"], "name a product with --product"),
        (
            &["well", "--depth", "40 ft", "--water-level", "50 ft", "--diameter", "6 in", "--product", "bleach 6"],
            "above the bottom",
        ),
        (&["well", "--volume", "100 gal", "--product", "bleach 6", "--ph", "17"], "--ph \"17\""),
        (&["well", "--volume", "100 gal", "--product", "bleach 6", "--target", "nan"], "--target must lie from"),
        (&["explain"], "name what to explain"),
        (&["explain", "--well", "1", "wells.csv"], "--scenarios <FILE>"),
        (&["completions", "klingon"], "invalid value 'klingon'"),
        (&["plan", "--demo", "--threads", "0", "--out", "x"], "0 is not in 1..=1024"),
        (&["plan", "--demo", "--date", "31.5.2026", "--out", "x"], "invalid value '31.5.2026'"),
        (&["frobnicate"], "there is no command and no file \"frobnicate\""),
    ] {
        let answer = run(arguments).ended(2);
        assert!(answer.err.contains(says), "{arguments:?} says:\n{}", answer.err);
        assert_eq!(answer.out, "", "{arguments:?}");
    }
    let answer =
        answer(command().args(["plan", "--demo", "--out", "x"]).env("SOURCE_DATE_EPOCH", "yesterday")).ended(2);
    assert_eq!(answer.err, "error: SOURCE_DATE_EPOCH must be a count of seconds, not \"yesterday\"\n");
}

#[test]
fn one_well_at_the_prompt() {
    let answer = run(&[
        "well",
        "--depth",
        "180 ft",
        "--water-level",
        "40 ft",
        "--diameter",
        "6 in",
        "--product",
        "bleach 6",
        "--route",
        "land",
        "--pump-rate",
        "10 gpm",
    ])
    .ended(0);
    assert_eq!(answer.err, "");
    // The amount first, what was taken by default right below it (see the module `told`), the steps (`prompt_steps`), the
    // amount again.
    let lines: Vec<&str> = answer.out.lines().collect();
    let amount = "Measure out   1 quart + 1 1/2 cups of bleach 6: gives 104 mg/L as Cl2 in 206 US gal";
    assert_eq!((lines[0], lines[lines.len() - 1]), (amount, amount), "{}", answer.out);
    assert!(lines[1].starts_with("By default    "), "{}", answer.out);
    assert!(answer.out.contains(". No agent is included"), "{}", answer.out);
    for part in ["\nWorking", "D3 ", "= 77.84 g", "\nCautions for every well", "licensed practice"] {
        assert!(answer.out.contains(part), "no {part:?} in\n{}", answer.out);
    }
    let short = run(&["well", "--volume", "100 gal", "--product", "bleach 6", "--short"]).ended(0);
    assert!(!short.out.contains("Working"));
    let json = run(&["well", "--volume", "100 L", "--product", "bleach 6", "--json"]).ended(0);
    assert_eq!(json.out.lines().count(), 1);
    let message: Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(message["message"], "well");
    assert_eq!(message["ph_after"], Value::Null, "an unknown number is null, never zero");
}

#[test]
fn pages_of_findings_equations_and_results() {
    let answer = run(&["explain", "G203", "water-level-below-bottom", "d3"]).ended(0);
    assert_eq!(answer.out.matches("G203 water level below bottom (held back)\n").count(), 2);
    assert!(answer.out.contains("D3 Liquid product needed\n\n    v = m / G\n"));
    assert!(answer.out.contains("How to fix it: "));
    for code in aftercrest::finding::catalogue::ALL {
        assert!(run(&["explain", code.id()]).ended(0).out.starts_with(code.id()));
    }
    for equation in aftercrest::kernel::EQUATIONS {
        let page = run(&["explain", equation.id]).ended(0).out;
        assert!(page.contains(&format!("\n    {}\n", equation.statement)) && page.contains("\nSource: "), "{page}");
    }
    let folder = small();
    let chain = ["explain", "wells.csv", "--scenarios", "plan.toml", "--well", "B7", "--scenario", "S2"];
    let answer = run_in(folder.path(), &chain).ended(0);
    for part in ["Well B7 visit 1, read at wells.csv:4", "22 ", "wells.csv:4:3", "Scenario S2: with strong", "source: "]
    {
        assert!(answer.out.contains(part), "no {part:?} in\n{}", answer.out);
    }
    let held = run_in(folder.path(), &["explain", "wells.csv", "--scenarios", "plan.toml", "--well", "A2"]).ended(0);
    assert!(
        held.out.contains("held back [G203]") && held.out.contains("Held back: no amount is computed."),
        "{}",
        held.out
    );
    let none = run_in(folder.path(), &["explain", "wells.csv", "--scenarios", "plan.toml", "--well", "Z9"]).ended(2);
    assert_eq!(none.err, "error: no row of these lists has the well id \"Z9\"\n");
}

#[test]
fn columns_and_products_are_listed() {
    let columns = run(&["columns"]).ended(0);
    for field in aftercrest::field::FIELDS.iter() {
        assert!(columns.out.lines().any(|line| line.split(' ').next() == Some(field.name)), "{}", field.name);
    }
    let products = run(&["products"]).ended(0);
    for product in aftercrest::scenario::product::built_in_products().unwrap() {
        assert!(products.out.lines().any(|line| line == product.name), "{}", product.name);
    }
}

#[test]
fn help_completions_and_manual_know_every_command() {
    let top = run(&["--help"]).ended(0);
    let verbs = ["plan", "check", "well", "explain", "columns", "products", "completions", "man"];
    let manual = run(&["man"]).ended(0).out;
    for verb in verbs {
        assert!(top.out.contains(&format!("\n  {verb} ")), "{verb} is not in\n{}", top.out);
        let help = run(&[verb, "--help"]).ended(0);
        assert!(help.out.contains("Usage: aftercrest"), "{}", help.out);
        assert_eq!(help.err, "");
        assert!(manual.contains(&format!("aftercrest\\-{verb}(1)")), "{verb} is not in the manual");
        let short = run(&[verb, "-h"]).ended(0);
        assert!(short.out.contains("Usage: aftercrest"));
    }
    assert!(
        top.out.contains("Exit codes: 0 everything is planned (or sound); 1 some rows are held back"),
        "{}",
        top.out
    );
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = run(&["completions", shell]).ended(0);
        for verb in verbs {
            assert!(script.out.contains(verb), "{shell} does not know {verb}");
        }
    }
    assert!(run(&["--version"]).ended(0).out.starts_with("aftercrest 0."));
    assert!(run::<&str>(&[]).ended(2).err.contains("Usage: aftercrest"));
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    for arguments in [
        &["columns"][..],
        &["check", "fixtures/demo/quillmoor-county.csv", "--units", "us"],
        &["check", "fixtures/demo/quillmoor-county.csv", "--units", "us", "--json"],
        &["man"],
        &["completions", "bash"],
        &["--help"],
    ] {
        let mut child = command()
            .current_dir(root())
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let mut err = String::new();
        child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
        // A check that was done before anybody went away says what came of it.
        let code = child.wait().unwrap().code();
        let done = arguments[0] == "check" && code == Some(1);
        assert!(code == Some(0) || done, "{arguments:?} ends with {code:?}: {err}");
        assert_eq!(err, "", "{arguments:?}");
    }
}

#[test]
fn a_plan_is_finished_even_when_nobody_reads_its_summary() {
    let folder = small();
    for more in [&[][..], &["--json"]] {
        let mut arguments = vec!["plan", "wells.csv", "--scenarios", "plan.toml", "--out", "out"];
        arguments.extend(more);
        let mut child = command().current_dir(folder.path()).args(arguments).stdout(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let code = child.wait().unwrap().code();
        assert_eq!(code, Some(1), "one row is held back, whoever listens: {more:?}");
        if more.is_empty() {
            assert_eq!(names(&folder.path().join("out")).len(), FILES.len() + TABLES.len());
        }
        assert!(!names(folder.path()).iter().any(|name| name.starts_with('.')), "a temporary folder stayed");
    }
}

#[test]
fn several_lists_in_one_call() {
    let folder = small();
    place(folder.path(), "more.csv", LIST.replace("A1", "C1").replace("A2", "C2").replace("B7", "C7"));
    let answer = run_in(
        folder.path(),
        &["plan", "wells.csv", "more.csv", "--scenarios", "plan.toml", "--out", "deep/er/out", "--only", "S1"],
    )
    .ended(1);
    assert!(answer.out.contains("4 of 6 well visits planned; 2 held back"), "{}", answer.out);
    assert_eq!(
        names(&folder.path().join("deep/er/out")).len(),
        FILES.len() + TABLES.len(),
        "folders above the output folder are made"
    );
    let ids: Vec<String> =
        rows(&folder.path().join("deep/er/out/treatments.csv")).into_iter().map(|row| row["well_id"].clone()).collect();
    assert_eq!(ids, ["A1", "A2", "B7", "C1", "C2", "C7"]);
}

#[test]
fn nothing_is_read_from_standard_input() {
    // A forgotten pipe must not make the command wait.
    let mut child = command().args(["columns"]).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let _ = child.stdin.as_mut().unwrap().write_all(b"x");
    assert_eq!(child.wait_with_output().unwrap().status.code(), Some(0));
}

#[test]
fn a_doubtful_well_is_doubted_at_the_prompt() {
    let ask = |diameter: &str| {
        let well = ["well", "--depth", "180 ft", "--water-level", "40 ft", "--product", "bleach 6"];
        let rest = ["--age-days", "1", "--storage", "60 F", "--diameter", diameter];
        run(&[well.as_slice(), &rest].concat()).ended(0).out
    };
    let doubted = ask("60 in");
    let doubt = doubted.lines().find(|line| !line.starts_with("Measure out") && !line.starts_with(' ')).unwrap();
    assert!(doubt.starts_with("Check         casing diameter 60 in is unusual for a drilled well"), "{doubted}");
    assert!(!ask("6 in").contains("Check  "));
    let page = run(&["explain", "route-unknown"]).ended(0).out;
    assert!(page.contains("No discharge point on record") && page.contains("Source:"), "{page}");
}
