//! What a crew or a provider is told where a figure could hurt: acid flush water, bleaching powder, spent stock, the side that
//! is measured for, a code's own hold; the same from a list and at the prompt.

use std::path::{Path, PathBuf};

use calamine::Data;
use serde_json::Value;
use tempfile::TempDir;

use crate::crew::text;
use crate::running::{Row, folder, number, place, root, rows, run, sheets};

/// 158 ft of 6 in, soft and slightly acid.
const LIST: &str = "Well,Type,Water column (ft),Diameter (in),pH,Alkalinity (mg/L),Water temp (C),Discharge\n\
                    soft,drilled,158,6,6.6,20,12,stream\n\
                    hard,drilled,158,6,7.5,250,12,stream\n\
                    untested,drilled,158,6,,,,\n\
                    dry land,drilled,158,6,6.6,20,12,land\n";

fn scenario(practice: &str, product: &str) -> String {
    format!("[campaign]\nunits = \"us\"\n[practice]\n{practice}\n[[product]]\nname = \"the product\"\n{product}\n")
}

const FRESH: &str = "chemical = \"sodium_hypochlorite\"\nstrength = { percent = 12.5, basis = \"trade\" }\nage_days = 0\nstorage = \"20 C\"";

/// Plans a list; the folder lives as long as the answer.
fn plan(list: &str, scenario: &str) -> (TempDir, PathBuf, String) {
    let here = folder();
    let list = place(here.path(), "wells.csv", list);
    let file = place(here.path(), "plan.toml", scenario);
    let out = here.path().join("out");
    let text = |path: &Path| path.to_string_lossy().into_owned();
    let answer = run(&[
        "plan".to_owned(),
        text(&list),
        "--scenarios".to_owned(),
        text(&file),
        "--out".to_owned(),
        text(&out),
        "--table".to_owned(),
        "csv".to_owned(),
    ])
    .ended(0);
    (here, out, answer.out)
}

fn well<'a>(table: &'a [Row], id: &str) -> &'a Row {
    table.iter().find(|row| row["well_id"] == id).unwrap()
}

/// The words of a well's card.
fn card(out: &Path, id: &str) -> String {
    let page = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
    let from = page.split_once(&format!("data-well=\"{id}\"")).unwrap().1;
    text(from.split("</article>").next().unwrap())
}

fn prompt(arguments: &[&str]) -> Value {
    let answer = run(&[&["well", "--json", "--type", "drilled"], arguments].concat()).ended(0);
    serde_json::from_str(&answer.out).unwrap()
}

/// The Crew sheet as texts.
fn field(out: &Path) -> Vec<Vec<String>> {
    let book = std::fs::read_dir(out)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|end| end == "xlsx"))
        .unwrap();
    let (_, cells) = sheets(&book).into_iter().find(|(name, _)| name == "Crew").unwrap();
    let text = |cell: &Data| match cell {
        Data::String(text) => text.clone(),
        Data::Float(value) => value.to_string(),
        _ => String::new(),
    };
    cells.iter().map(|row| row.iter().map(text).collect()).collect()
}

/// A geometry solver's word is in `chemistry::aftermath`; here the same answer comes from a list and from the prompt.
#[test]
fn acid_flush_water_is_told_with_an_agent_that_would_not_do_it() {
    for agent in ["sodium_bisulfite", "ascorbic_acid"] {
        let practice = format!("discharge = {{ neutralizer = \"{agent}\", routes = [\"stream\"] }}");
        let (_here, out, _) = plan(LIST, &scenario(&practice, FRESH));
        let table = rows(&out.join("treatments.csv"));
        let soft = well(&table, "soft");
        assert!(number(soft, "ph_neutralized_low") < 3.2, "{soft:?}");
        assert!(soft["cautions"].contains("acid-after-neutralizing"), "{soft:?}");
        assert_eq!(soft["neutralizer_instead"], "sodium_ascorbate");
        assert!(number(soft, "neutralizer_instead_kg") > 0.0);
        let hard = well(&table, "hard");
        assert!(number(hard, "ph_neutralized_low") > 6.0 && !hard["cautions"].contains("acid"), "{hard:?}");
        for id in ["untested", "dry land"] {
            let other = well(&table, id);
            assert!(number(other, "ph_neutralized_low").is_nan() && !other["cautions"].contains("acid"), "{other:?}");
        }
        let at_prompt = prompt(&[
            "--water-column",
            "158 ft",
            "--diameter",
            "6 in",
            "--ph",
            "6.6",
            "--alkalinity",
            "20",
            "--temperature",
            "12 C",
            "--route",
            "stream",
            "--neutralizer",
            agent,
            "--strength",
            "12.5",
            "--basis",
            "trade",
        ]);
        let low = at_prompt["ph_neutralized"][0].as_f64().unwrap();
        assert!((low - number(soft, "ph_neutralized_low")).abs() < 1e-9, "{at_prompt}");
        assert_eq!(at_prompt["neutralizer_instead"], "sodium_ascorbate");
        let sheet = field(&out);
        let said = sheet.iter().find(|row| row.get(1).is_some_and(|id| id == "soft")).unwrap().join(" | ");
        let acid = (number(soft, "ph_neutralized_low") * 10.0).floor() / 10.0;
        let figure = format!("It leaves this water at pH {acid:.1}: better ");
        assert!(said.contains(&figure), "{said}");
        // The card and the prompt say the same, with the figure.
        assert!(card(&out, "soft").contains(&figure), "{}", card(&out, "soft"));
        assert!(!card(&out, "hard").contains("It leaves this water"));
    }
}

/// Alkalinity is as calcium carbonate in any spelling of it, from a list as at the prompt; as carbonate it is another figure.
#[test]
fn alkalinity_counts_as_calcium_carbonate_however_it_is_spelled() {
    let well = [
        "--water-column",
        "158 ft",
        "--diameter",
        "6 in",
        "--ph",
        "7.5",
        "--temperature",
        "12 C",
        "--strength",
        "12.5",
    ];
    let asked = |typed: &str| {
        let answer = prompt(&[&well[..], &["--basis", "trade", "--alkalinity", typed]].concat());
        answer["ph_after"].as_f64().unwrap()
    };
    let listed = |heading: &str, typed: &str| {
        let list = format!(
            "Well,Type,Water column (ft),Diameter (in),pH,Water temp (C),{heading}\na,drilled,158,6,7.5,12,{typed}\n"
        );
        let (_here, out, _) = plan(&list, &scenario("", FRESH));
        number(&rows(&out.join("treatments.csv"))[0], "ph_after")
    };
    let plain = asked("140 mg/L");
    for typed in
        ["140 mg/L CaCO3", "140 as CaCO3", "140 mg/L as calcium carbonate", "140 ppm as CaCO3", "140 mg/l (CaCO3)"]
    {
        assert_eq!(asked(typed), plain, "{typed}");
        assert_eq!(listed("Alkalinity", typed), plain, "{typed}");
    }
    for heading in ["Alkalinity mg/L CaCO3", "Alkalinity (mg/L as CaCO3)", "Alk as CaCO3 (mg/L)"] {
        assert_eq!(listed(heading, "140"), plain, "{heading}");
    }
    // 140 mg/L of carbonate are 140 x 100.09 / 60.01 = 233.5 as calcium carbonate.
    let other = asked("140 mg/L CO3");
    assert!((other - asked("233.5 mg/L")).abs() < 1e-3 && other != plain, "{other}");
    assert_eq!(listed("Alkalinity", "140 mg/L CO3"), other);
}

/// A rule of the scenario file holds for the typed well as for a row; what cannot be asked of it is said.
#[test]
fn rules_of_the_scenario_file_hold_at_the_prompt_as_for_a_row() {
    let ruled = scenario("target_mg_per_l = 50", FRESH)
        + "[[override]]\nwhere = \"well_type = 'dug'\"\nset = { target_mg_per_l = 200 }\n\
           [[override]]\nwhere = \"well_type = 'spring_box'\"\nset = { flowing_spring = \"feed\" }\n\
           [[override]]\nwhere = \"casing_material = 'brick'\"\nexclude = true\nreason = \"falling in\"\n\
           [[override]]\nwhere = \"\\\"Road\\\" = 'ferry'\"\nset = { hold_hours = 12 }\n";
    let here = folder();
    let file = place(here.path(), "ruled.toml", &ruled).to_string_lossy().into_owned();
    let list = "Well,Type,Volume (gal),Yield (gpm),Casing,Road\npit,dug,900,,,a\nbox,spring box,500,5,,a\nold,dug,900,,brick,a\n";
    let (_here, out, _) = plan(list, &ruled);
    let table = rows(&out.join("treatments.csv"));
    let ask = |more: &[&str]| {
        let all = ["well", "--json", "--product", "the product", "--scenarios", &file];
        serde_json::from_str::<Value>(&run(&[&all[..], more].concat()).ended(0).out).unwrap()
    };
    let same = |answer: &Value, id: &str| {
        for column in ["dose_mg_per_l", "measured_amount", "hold_h"] {
            assert!(
                (answer[column].as_f64().unwrap() - number(well(&table, id), column)).abs() < 1e-9,
                "{id}: {answer}"
            );
        }
    };
    let pit = ask(&["--type", "dug", "--volume", "900 gal"]);
    assert_eq!(pit["target_mg_per_l"], 200.0);
    same(&pit, "pit");
    let notes = pit["notes"].to_string();
    assert!(notes.contains("by the rule for wells where well_type = 'dug': 200 mg/L"), "{notes}");
    assert!(notes.contains("= 'ferry' names a column of lists: it is not applied here"), "{notes}");
    same(&ask(&["--type", "spring box", "--volume", "500 gal", "--yield", "5 gpm"]), "box");
    assert_eq!(well(&table, "old")["outcome"], "excluded");
    let old = ask(&["--type", "dug", "--volume", "900 gal", "--casing", "brick"]);
    assert!(old["doubts"].to_string().contains("left out by a rule of the scenario file (falling in)"), "{old}");
}

#[test]
fn a_product_is_known_however_its_name_is_typed() {
    for typed in ["liquid 12.5", "LIQUID 12.5", "Liquid-12.5", "liquid  12.5"] {
        let answer =
            run(&["well", "--json", "--type", "drilled", "--volume", "200 gal", "--product", typed]).ended(0).out;
        assert!(answer.contains("\"product\":\"liquid 12.5\""), "{typed}: {answer}");
    }
    let near = run(&["well", "--type", "drilled", "--volume", "200 gal", "--product", "liqid 12.5"]).ended(2).err;
    assert!(near.contains("did you mean `liquid 12.5`?"), "{near}");
}

#[test]
fn bleaching_powder_has_no_ph_and_is_settled() {
    let powder = "chemical = \"chlorinated_lime\"\nstrength = { percent = 30, basis = \"weight_available_chlorine\" }";
    let (_here, out, _) = plan(LIST, &scenario("", powder));
    for row in rows(&out.join("treatments.csv")) {
        for column in ["ph_after", "hocl_share", "ph_neutralized_low"] {
            assert!(number(&row, column).is_nan(), "{row:?}");
        }
        assert!(row["cautions"].contains("bleaching-powder") && !row["cautions"].contains("ph-unknown"), "{row:?}");
    }
    let answer = run(&[
        "well",
        "--water-column",
        "158 ft",
        "--diameter",
        "6 in",
        "--ph",
        "7.2",
        "--alkalinity",
        "120",
        "--product",
        "bleaching powder 30",
    ])
    .ended(0);
    let out = answer.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(out.contains("let it settle for ten minutes, and pour only the clear liquid"), "{out}");
    assert!(out.contains("let it settle 10 min, pour only the clear"), "{out}");
    assert!(!out.contains("of the free chlorine is HOCl"), "{out}");
}

#[test]
fn spent_stock_is_told_by_how_spent_it_is() {
    let aged = |days: &str| {
        let answer = run(&[
            "well",
            "--water-column",
            "158 ft",
            "--diameter",
            "6 in",
            "--strength",
            "12.5",
            "--basis",
            "trade",
            "--age-days",
            days,
            "--storage",
            "35 C",
        ])
        .ended(i32::from(days == "400"));
        answer.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // By the rate law at the typical pace, 60 % are left after 26 days at 35 C and 30 % after 90.
    for (days, spent, gone) in [("20", false, false), ("40", true, false), ("400", false, true)] {
        let out = aged(days);
        assert_eq!(out.contains("less than 60 % of the strength on its label"), spent, "{days} days: {out}");
        assert_eq!(out.contains("DO NOT TREAT BY THIS FIGURE"), gone, "{days} days: {out}");
        assert_eq!(out.contains("Check by its age only"), gone, "{days} days: {out}");
        // Chlorate is told with the flush that carries it out: by volume and residual, never by the residual alone.
        let told = out.split("Chlorate ").nth(1).unwrap_or_else(|| panic!("{days} days: {out}"));
        assert!(told.contains("flush all ") && told.contains("not by the residual alone"), "{told}");
        assert!(
            out.contains("strips show no chlorate, ") || out.contains("No strip shows the aged product's chlorate: "),
            "{out}"
        );
        assert!(out.contains("Stop after all ") || out.contains("Stop after that volume"), "{out}");
    }
    // A residual that was measured makes the flush short, and chlorate stays.
    let short = scenario("residual_after_hold_mg_per_l = 1\nflush = { until_mg_per_l = 0.5 }", FRESH);
    let old = short.replace("age_days = 0", "age_days = 40").replace("20 C", "35 C");
    for (file, left) in [(short, false), (old, true)] {
        let (_here, out, _) = plan(LIST, &file);
        for row in rows(&out.join("treatments.csv")) {
            assert_eq!(row["cautions"].contains("chlorate-left"), left, "{row:?}");
        }
    }
}

/// By list and at the prompt: the whole flush and the limit, both, with the chlorate that no strip shows. A fresh product says
/// nothing of it.
#[test]
fn an_aged_product_is_flushed_by_volume_and_by_residual() {
    let practice = "flush = { until_mg_per_l = 0.1 }";
    for (age, aged) in [("age_days = 0", false), ("age_days = 40", true)] {
        let file = scenario(practice, &FRESH.replace("age_days = 0", age).replace("20 C", "35 C"));
        let (_here, out, _) = plan(LIST, &file);
        let table = rows(&out.join("treatments.csv"));
        let said = card(&out, "hard");
        assert_eq!(said.contains("Stop after all "), aged, "{said}");
        assert_eq!(said.contains("Stop below 0.1 mg/L"), !aged, "{said}");
        if aged {
            let gallons = number(well(&table, "hard"), "flush_volume_l") / 3.785_411_784;
            let told = said.split("Stop after all ").nth(1).unwrap();
            let (volume, rest) = told.split_once(" gallons and below 0.1 mg/L").unwrap();
            let volume: f64 = volume.replace(',', "").parse().unwrap();
            assert!((volume / gallons - 1.0).abs() < 0.005, "{volume} gallons on the card, {gallons} in the table");
            let chlorate = rest.split("strips show no chlorate, ").nth(1).unwrap().split(' ').next().unwrap();
            let table = number(well(&table, "hard"), "chlorate_mg_per_l");
            assert!((chlorate.parse::<f64>().unwrap() / table - 1.0).abs() < 0.005, "{chlorate}, {table}");
        }
        let here = folder();
        let file = place(here.path(), "plan.toml", &file);
        let file = file.to_string_lossy();
        let asked =
            ["well", "--short", "--water-column", "158 ft", "--diameter", "6 in", "--type", "drilled", "--product"];
        let answer = run(&[&asked[..], &["the product", "--scenarios", &file]].concat()).ended(0).out;
        let answer = answer.split_whitespace().collect::<Vec<_>>().join(" ");
        let stop =
            |text: &str| text.split("Stop ").nth(1).unwrap().split("clean the aerators").next().unwrap().to_owned();
        assert_eq!(stop(&answer), stop(&said), "the prompt says what the card says");
    }
    // A well that is emptied: every time, and below the limit.
    let dug = "Well,Type,Depth (ft),Static level (ft),Diameter (in),Discharge\npit,dug,20,8,48,land\n";
    let file = scenario("", &FRESH.replace("age_days = 0", "age_days = 40").replace("20 C", "35 C"));
    let (_here, out, _) = plan(dug, &file);
    let said = card(&out, "pit");
    // 41.9 mg/L of chlorate, a tenth of it there again each time, are below 0.7 after two: 0.42.
    assert!(said.contains("Below 0.5 mg/L and emptied 2 times: done."), "{said}");
    assert!(said.contains("chlorate: "), "{said}");
}

/// The planted drum of the demo is found: in the first words, on the summary, in the table and on the sheet.
#[test]
fn the_demo_finds_its_spent_drum() {
    let planted = rows(&root().join("fixtures/demo/planted-faults.csv"));
    let drum = planted.iter().find(|row| row["file"] == "demo.toml").unwrap();
    let text = std::fs::read_to_string(root().join("scenarios/demo.toml")).unwrap();
    let line = text.lines().nth(drum["row"].parse::<usize>().unwrap() - 1).unwrap();
    assert!(line.starts_with("age_days = 400"), "{line}");
    let here = folder();
    let out = here.path().join("out");
    let name = "liquid 12.5, a forgotten drum";
    let answer = run(&["plan", "--demo", "--only", name, "--out", &out.to_string_lossy(), "--table", "csv"]).ended(1);
    let said = answer.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("DO NOT TREAT by the figures of \"liquid 12.5, a forgotten drum\""), "{said}");
    for row in rows(&out.join("treatments.csv")).iter().filter(|row| row["outcome"] == "planned") {
        assert!(row["cautions"].contains("stock-nearly-gone"), "{row:?}");
        // The independent figure for a dose of 100 mg/L is about 410 mg/L.
        let per_dose = number(row, "chlorate_mg_per_l") / number(row, "measured_dose_mg_per_l");
        assert!((per_dose - 4.1).abs() < 0.05, "{per_dose}");
    }
    let sheet = field(&out);
    assert!(sheet.iter().any(|row| row[0].starts_with("DO NOT TREAT BY THIS SHEET")), "{sheet:?}");
}

/// Assumed depth and an aged product: the amount for the high reading meets the target with the most water and the weakest
/// product, the typical amount misses it there.
#[test]
fn the_amount_meets_the_target_on_the_side_that_is_measured_for() {
    let list = "Well,Type,Depth (ft),Static level (ft),Diameter (in)\na,drilled,180,30,6\nb,drilled,,30,6\nc,drilled,220,30,\n";
    let assumed = "[missing.drilled]\ntotal_depth = { low = \"100 ft\", mid = \"180 ft\", high = \"300 ft\" }\n\
                   casing_diameter = { low = \"5 in\", mid = \"6 in\", high = \"8 in\" }\n";
    let aged = FRESH.replace("age_days = 0", "age_days = 60");
    let with = |side: &str| {
        let file = scenario(&format!("measure_for = \"{side}\"\ndemand_mg_per_l = 3"), &aged) + assumed;
        let (_here, out, _) = plan(list, &file);
        (rows(&out.join("treatments.csv")), rows(&out.join("orders.csv")), field(&out))
    };
    let (high, high_orders, sheet) = with("high");
    for row in &high {
        assert_eq!(row["measured_for"], "high");
        assert!(number(row, "least_dose_mg_per_l") >= 103.0 * (1.0 - 1e-9), "{row:?}");
        assert_eq!(number(row, "product_l"), number(row, "product_high_l"), "what is measured out is what is bought");
    }
    assert!(sheet.iter().any(|row| row.iter().any(|cell| cell == "high")), "the sheet says which");
    let (typical, typical_orders, _) = with("typical");
    for row in &typical {
        assert_eq!(row["measured_for"], "typical");
        assert!(number(row, "measured_dose_mg_per_l") >= 103.0 * (1.0 - 1e-9), "{row:?}");
    }
    assert!(typical.iter().any(|row| number(row, "least_dose_mg_per_l") < 90.0), "{typical:?}");
    let first = |orders: &[Row]| number(&orders[0], "first_round");
    assert!(first(&high_orders) > 1.3 * first(&typical_orders), "the order covers what is measured out");
    // The prompt measures for the side that the scenario file says.
    let here = folder();
    for (side, meets) in [("high", true), ("typical", false)] {
        let file = scenario(&format!("measure_for = \"{side}\"\ndemand_mg_per_l = 3"), &aged);
        let file = place(here.path(), "side.toml", &file).to_string_lossy().into_owned();
        let well = ["--water-column", "158 ft", "--diameter", "6 in", "--product", "the product", "--scenarios", &file];
        let answer = prompt(&well);
        assert_eq!(answer["measured_for"], side);
        assert_eq!(answer["least_dose_mg_per_l"].as_f64().unwrap() >= 103.0 * (1.0 - 1e-9), meets, "{answer}");
    }
}

/// Michigan Administrative Code R 325.1661, table 5.
#[test]
fn a_codes_pairs_are_required_and_shown() {
    let pairs = "hold_rule = { table = [{ mg_per_l = 100, hours = 10 }, { mg_per_l = 250, hours = 4 }, \
                 { mg_per_l = 500, hours = 2 }, { mg_per_l = 1000, hours = 1 }] }";
    for (target, hold, required, short) in [
        (100, 10, 10.0, false),
        (100, 9, 10.0, true),
        (250, 4, 4.0, false),
        (300, 3, 4.0, true),
        (1000, 1, 1.0, false),
        (50, 24, f64::NAN, true),
    ] {
        let file = scenario(&format!("target_mg_per_l = {target}\nhold_hours = {hold}\n{pairs}"), FRESH);
        let (_here, out, _) = plan(LIST, &file);
        for row in rows(&out.join("treatments.csv")) {
            assert_eq!(number(&row, "hold_required_h").to_bits(), required.to_bits(), "{row:?}");
            assert_eq!(row["cautions"].contains("hold-too-short"), short, "{target} mg/L, {hold} h: {row:?}");
        }
        if !required.is_nan() {
            // The longer of the two is planned, and a shorter one that was stated is said.
            let held = required.max(f64::from(hold));
            assert!(rows(&out.join("treatments.csv")).iter().all(|row| number(row, "hold_h") == held));
            let stated = if short { "a shorter time was stated, " } else { "" };
            let said = format!("{held}; {stated}the rule requires {required}");
            let cards = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
            assert!(cards.contains(&format!("<b data-figure=\"hold\">{held} h</b>")), "{held}");
            assert_eq!(cards.contains("A shorter contact time was stated"), short);
            assert!(field(&out).iter().any(|row| row.contains(&said)), "{said}");
        }
    }
}

#[test]
fn the_field_sheet_speaks_in_sentences() {
    let (_here, out, _) = plan(LIST, &scenario("", &FRESH.replace("age_days = 0", "age_days = 30")));
    let sheet = field(&out);
    let notes: String = sheet.iter().map(|row| row[0].as_str()).collect::<Vec<_>>().join("\n");
    assert!(notes.contains("label 12.5 % trade, 30 days old; strength used 11"), "{notes}");
    let wells: Vec<&Vec<String>> = sheet
        .iter()
        .filter(|row| row.len() > 1 && ["soft", "hard", "untested", "dry land"].contains(&row[1].as_str()))
        .collect();
    assert_eq!(wells.len(), 4);
    for row in wells {
        let said = row.join(" | ");
        assert!(said.contains("cups") || said.contains("cup 2 tablespoons") || said.contains("quart"), "{said}");
        assert!(!said.contains('_') && !said.contains("0.00") && !said.contains("neutralize-before"), "{said}");
        match row[1].as_str() {
            "untested" => {
                assert!(
                    said.contains("not on record: check before flushing") && said.contains("ascorbic acid"),
                    "{said}"
                )
            }
            "dry land" => assert!(said.contains("None included; keep flush water away from streams"), "{said}"),
            _ => assert!(said.contains("oz of ascorbic acid (vitamin C)"), "{said}"),
        }
    }
    // No age stated: said, not silent.
    let (_here, out, _) = plan(LIST, &scenario("", &FRESH.replace("age_days = 0\nstorage = \"20 C\"", "")));
    assert!(field(&out).iter().any(|row| row[0].contains("taken as fresh, because no age is stated")));
}

#[test]
fn a_card_says_for_which_side_its_amount_was_measured() {
    let aged = FRESH.replace("age_days = 0", "age_days = 60");
    for (practice, says) in [
        ("", "with more water or weaker product"),
        ("measure_for = \"high\"", "measured for the most water and the weakest product: gives"),
    ] {
        let (_here, out, _) = plan(LIST, &scenario(practice, &aged));
        let cards = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
        assert!(cards.contains(says), "{practice}: no {says:?}");
    }
}

#[test]
fn a_table_of_holds_must_be_one() {
    let refused = |rule: &str| {
        let text = scenario(&format!("hold_rule = {rule}"), FRESH);
        aftercrest::scenario::Campaign::parse(Path::new("plan.toml"), &text).unwrap_err().to_string()
    };
    for (rule, says) in [
        ("{ table = [] }", "`table` is an empty list"),
        ("{ table = [{ mg_per_l = 100 }] }", "a row of the table needs `mg_per_l` and `hours`"),
        (
            "{ table = [{ mg_per_l = 250, hours = 4 }, { mg_per_l = 100, hours = 10 }] }",
            "the rows must go from weak to strong",
        ),
        (
            "{ table = [{ mg_per_l = 100, hours = 4 }, { mg_per_l = 250, hours = 10 }] }",
            "a stronger one must not ask for more hours",
        ),
        (
            "{ at_least_hours = 4, table = [{ mg_per_l = 100, hours = 10 }] }",
            "`hold_rule` needs `at_least_hours`, or a",
        ),
        ("{ residual_at_least_mg_per_l = 5 }", "`hold_rule` needs `at_least_hours`, or a"),
    ] {
        let said = refused(rule);
        assert!(said.contains(says) && said.starts_with("plan.toml:4:"), "{rule}: {said}");
    }
    let text = scenario("measure_for = \"highest\"", FRESH);
    let said = aftercrest::scenario::Campaign::parse(Path::new("plan.toml"), &text).unwrap_err().to_string();
    assert!(said.contains("`measure_for` must be \"typical\" or \"high\", not \"highest\""), "{said}");
}

#[test]
fn a_remark_at_the_prompt_says_what_a_list_would_say() {
    let well = ["well", "--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--product", "bleach 6"];
    let told = run(&[&well[..], &["--notes", "smells of diesel"]].concat()).ended(0);
    assert!(told.out.contains("reports fuel or oil: Do not treat this well as usual"), "{}", told.out);
    let doubtful = run(&[&well[..], &["--notes", "sealed with concrete, no longer used"]].concat()).ended(2);
    assert!(doubtful.err.contains("may mean that this well no longer exists"), "{}", doubtful.err);
    let gone = run(&[&well[..], &["--notes", "abandoned and sealed 2003"]].concat()).ended(2);
    assert!(gone.err.contains("this is not a well to be treated"), "{}", gone.err);
    // 200 ft of water in 6 in instead of 140 ft: 294 gal.
    let deeper = run(&[&well[..], &["--notes", "deepened to 240 ft"]].concat()).ended(0);
    assert!(deeper.out.contains("240 ft") && deeper.out.contains("in 294 US gal"), "{}", deeper.out);
}

#[test]
fn units_at_the_prompt_count_over_the_scenario_files() {
    let here = folder();
    let file = place(here.path(), "plan.toml", scenario("", FRESH));
    let file = file.to_string_lossy().into_owned();
    let well = ["well", "--depth", "50 m", "--water-level", "10 m", "--diameter", "150 mm", "--product", "the product"];
    let own = run(&[&well[..], &["--scenarios", &file]].concat()).ended(0);
    let metric = run(&[&well[..], &["--scenarios", &file, "--units", "metric"]].concat()).ended(0);
    assert!(own.out.contains("US gal") && !metric.out.contains("US gal"), "{}\n{}", own.out, metric.out);
    assert!(metric.out.contains("mL of the product"), "{}", metric.out);
}

const AT_PROMPT: [&str; 9] =
    ["well", "--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--strength", "12.5"];

#[test]
fn the_hold_of_a_rule_stands_at_the_prompt_too() {
    let here = folder();
    let rule = "hold_hours = 4\nhold_rule = { table = [{ mg_per_l = 100, hours = 10 }] }";
    let file = place(here.path(), "plan.toml", scenario(rule, FRESH));
    let file = file.to_string_lossy().into_owned();
    let said = run(&[&AT_PROMPT[..], &["--basis", "trade", "--scenarios", &file]].concat()).ended(0).out;
    assert!(said.contains("10 h; the chosen rule requires at least 10 h, more than the 4 h stated"), "{said}");
    assert!(said.contains("Leave it 10 h (rule: 10 h at least)"), "{said}");
}

#[test]
fn an_agent_that_suits_the_water_is_brought_loaded_and_bought() {
    let practice = "discharge = { neutralizer = \"ascorbic_acid\", routes = [\"stream\"] }";
    let (_here, out, _) = plan(LIST, &scenario(practice, FRESH));
    let cards = std::fs::read_to_string(out.join("crew-sheets.html")).unwrap();
    assert!(cards.contains("or, better here, <b data-figure=\"other_amount\">"), "{cards}");
    assert!(cards.contains("in place of the other where a card says that it is better"), "{cards}");
    let report = std::fs::read_to_string(out.join("report.html")).unwrap();
    assert!(report.contains("buy sodium ascorbate (neutral vitamin C) for it"), "{report}");
    let book = sheets(&out.join("campaign.xlsx"));
    let (_, order) = book.iter().find(|(name, _)| name == "Order").unwrap();
    let said = order.iter().flatten().any(|cell| format!("{cell}").contains("buy sodium ascorbate"));
    assert!(said, "the order names the better agent");
}

#[test]
fn the_last_word_on_a_spent_stock_is_no_amount() {
    let stock = ["--basis", "trade", "--age-days", "400", "--storage", "95 F"];
    let said = run(&[&AT_PROMPT[..], &stock].concat()).ended(1).out;
    let last = said.trim_end().lines().last().unwrap().to_owned();
    assert!(last.starts_with("Measure out   nothing by this figure"), "{said}");
    assert_eq!(said.lines().next(), Some(&*last), "{said}");
    let fresh = run(&[&AT_PROMPT[..], &["--basis", "trade"]].concat()).ended(0).out;
    assert!(fresh.contains("By default") && !fresh.contains("instead of 1.375"), "{fresh}");
    assert!(!fresh.contains("US qt") && !fresh.contains("as weak as it can be"), "{fresh}");
}

#[test]
fn a_wrong_choice_at_the_prompt_is_answered_with_the_choices() {
    let refused = |more: &[&str]| run(&[&AT_PROMPT[..], &["--basis", "trade"], more].concat()).ended(2).err;
    for (more, says) in [
        (&["--route", "sewerish"][..], "choose one of: land, storm_drain"),
        (&["--type", "zigzag"], "choose one of: drilled, driven"),
        (&["--neutralizer", "thiosulfate"], "sodium_thiosulfate_pentahydrate (sodium thiosulfate crystals"),
    ] {
        let err = refused(more);
        assert!(err.contains(says) && !err.contains("120 ft"), "{err}");
    }
    let missing =
        run(&["well", "--depth", "180 ft", "--diameter", "6 in", "--strength", "6", "--basis", "trade"]).ended(2).err;
    assert!(missing.contains("--water-level is missing") && !missing.contains("the list"), "{missing}");
    for (typed, name) in [
        ("ascorbic acid (vitamin C)", "ascorbic_acid"),
        ("Ascorbic acid", "ascorbic_acid"),
        ("calcium thiosulfate", "calcium_thiosulfate"),
    ] {
        let more = ["--basis", "trade", "--route", "stream", "--neutralizer", typed, "--json"];
        let answer: Value = serde_json::from_str(&run(&[&AT_PROMPT[..], &more].concat()).ended(0).out).unwrap();
        assert_eq!(answer["neutralizer"], name, "{typed}");
    }
}

#[test]
fn small_amounts_at_the_prompt_are_those_of_the_card() {
    let spring = ["well", "--type", "spring_box", "--volume", "500 gal", "--yield", "1 gpm", "--strength", "12.5"];
    let said = run(&[&spring[..], &["--basis", "trade", "--flowing-spring", "feed"]].concat()).ended(0).out;
    let feed = said.lines().find(|line| line.contains("each hour for")).unwrap();
    assert!(!feed.contains("gallons of") && (feed.contains("cup") || feed.contains("tablespoon")), "{said}");
}
