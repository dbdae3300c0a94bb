//! Water that moves, through the command: springs that flow, wells that are emptied, septic systems, small wells, and the
//! well that swallows the order. Volumes and amounts are worked by hand beside each; the outside sources are named there.

use std::path::Path;

use aftercrest::scenario::Campaign;
use serde_json::Value;

use crate::running::{Row, close, folder, number, place, root, rows, run, run_in, sheets};

const PRODUCT: [&str; 4] = ["--strength", "12.5", "--basis", "trade"];

/// One well at the prompt, for machines.
fn well(arguments: &[&str]) -> Value {
    let mut all = vec!["well", "--json"];
    all.extend(PRODUCT);
    all.extend(arguments);
    serde_json::from_str(&run(&all).ended(0).out).unwrap()
}

fn cautions(answer: &Value) -> Vec<String> {
    answer["cautions"].as_array().unwrap().iter().map(|word| word.as_str().unwrap().to_owned()).collect()
}

#[track_caller]
fn near(value: &Value, expected: f64, share: f64) {
    let value = value.as_f64().unwrap_or_else(|| panic!("no number, expected {expected}"));
    assert!(close(value, expected, share), "{value}, expected {expected}");
}

/// Plans a list with a scenario file and gives treatments and findings.
fn plan(list: &str, scenarios: &str, code: i32) -> (Vec<Row>, Vec<Row>, tempfile::TempDir) {
    let folder = folder();
    place(folder.path(), "list.csv", list);
    place(folder.path(), "plan.toml", scenarios);
    run_in(folder.path(), &["plan", "list.csv", "--scenarios", "plan.toml", "--out", "out"]).ended(code);
    let out = folder.path().join("out");
    (rows(&out.join("treatments.csv")), rows(&out.join("findings.csv")), folder)
}

const CAMPAIGN: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\n\
                        strength = { percent = 12.5, basis = \"trade\" }\npackages = [{ size = \"5 gal\", price = 1.0 }]\n";

const SPRING: &str =
    "well id,well type,depot,water volume (gal),yield (gpm),discharge route\nS1,spring box,D,500,5,stream\n";

#[test]
fn a_spring_that_flows_is_no_tank_until_somebody_says_what_is_done() {
    let spring = ["--type", "spring_box", "--volume", "500 gal", "--yield", "5 gpm", "--route", "stream"];
    let mut all = vec!["well"];
    all.extend(PRODUCT);
    all.extend(spring);
    let refused = run(&all).ended(2);
    // 500 gal at 5 gpm turn over in 100 minutes: 14.4 times in 24 h.
    assert!(refused.err.contains("14 times") && refused.err.contains("--flowing-spring isolated"), "{}", refused.err);

    let (treatments, findings, folder) = plan(SPRING, CAMPAIGN, 1);
    assert_eq!(treatments[0]["outcome"], "held_back");
    assert_eq!(treatments[0]["reasons"], "G230");
    let finding = findings.iter().find(|finding| finding["code"] == "G230").unwrap();
    assert_eq!((&*finding["row"], &*finding["heading"], &*finding["as_typed"]), ("2", "yield (gpm)", "5"));
    assert!(finding["what_to_do"].contains("flowing_spring = \"isolated\""), "{finding:?}");
    // A check says so beforehand, with a scenario file and without.
    for options in [&["--scenarios", "plan.toml"], &["--units", "us"]] {
        let checked = run_in(folder.path(), &[&["check", "list.csv", "--all"][..], options].concat()).ended(1);
        assert!(checked.out.contains("G230") && checked.out.contains("0 of 1"), "{}", checked.out);
    }
    let explained =
        run_in(folder.path(), &["explain", "--well", "S1", "--scenarios", "plan.toml", "list.csv"]).ended(0);
    assert!(explained.out.contains("Held back") && explained.out.contains("flowing_spring"), "{}", explained.out);

    let held = format!("{CAMPAIGN}[practice]\nflowing_spring = \"hold_back\"\n");
    assert_eq!(plan(SPRING, &held, 1).0[0]["outcome"], "held_back");
    // A trickle that replaces less than a tenth is a tank: 500 gal at 0.03 gpm for 24 h are 43 gal, 9 %.
    let trickle = SPRING.replace(",5,stream", ",0.03,stream");
    assert_eq!(plan(&trickle, CAMPAIGN, 0).0[0]["outcome"], "planned");
    // One well settled by an override, one not.
    let two = format!("{SPRING}S2,spring box,D,500,5,stream\n");
    let one = format!("{CAMPAIGN}[[override]]\nwhere = \"well_id = 'S2'\"\nset = {{ flowing_spring = \"feed\" }}\n");
    let (treatments, ..) = plan(&two, &one, 1);
    assert_eq!((&*treatments[0]["outcome"], &*treatments[1]["outcome"]), ("held_back", "planned"));
    place(folder.path(), "two.csv", &two);
    place(folder.path(), "one.toml", &one);
    let checked = run_in(folder.path(), &["check", "two.csv", "--scenarios", "one.toml"]).ended(1);
    assert!(checked.out.contains("1 of 2"), "{}", checked.out);
}

#[test]
fn an_isolated_spring_is_dosed_for_the_water_that_fills_it_up() {
    // Procedure: Oregon Health Authority (close the overflow, test, top up); MIL-HDBK-1164 p. 27 (shut the flow off, 24 h).
    let spring = ["--type", "spring_box", "--volume", "500 gal", "--yield", "5 gpm", "--flowing-spring", "isolated"];
    let answer = well(&spring);
    near(&answer["treated_volume_l"], 1.25 * 500.0 * 3.785_411_784, 1e-12);
    assert!(cautions(&answer).contains(&"spring-close-overflow".to_owned()), "{answer}");
    assert!(answer["feed_l"].is_null());
    // The inflow of a short hold fills less than the room there is: 15 min at 5 gpm are 75 gal.
    let mut short = spring.to_vec();
    short.extend(["--hold", "0.25"]);
    near(&well(&short)["treated_volume_l"], 575.0 * 3.785_411_784, 1e-12);
    let unknown = well(&["--type", "spring_box", "--volume", "500 gal"]);
    assert!(cautions(&unknown).contains(&"spring-inflow-unknown".to_owned()));
}

#[test]
fn a_fed_spring_takes_what_runs_over() {
    let spring = ["--type", "spring_box", "--volume", "500 gal", "--yield", "5 gpm", "--flowing-spring", "feed"];
    let mut all = spring.to_vec();
    all.extend(["--route", "stream"]);
    let answer = well(&all);
    // mg/L x MGD x 8.34 = lb/day, as operators' sheets print it: 100 mg/L x 0.0072 MGD x 8.3454 = 6.0087 lb = 2725.5 g.
    let fed = 100.0 * 5.0 * 1440.0 * 3.785_411_784 / 1000.0;
    near(&answer["feed_l"], fed / 125.0, 1e-9);
    near(&answer["feed_l_per_h"], fed / 125.0 / 24.0, 1e-9);
    near(&answer["overflow_l"], 7200.0 * 3.785_411_784, 1e-9);
    near(&answer["chlorine_g"], fed + 100.0 * 500.0 * 3.785_411_784 / 1000.0, 1e-9);
    near(&answer["product_l"], answer["chlorine_g"].as_f64().unwrap() / 125.0, 1e-9);
    // What is measured out at the start is for the box alone.
    assert!(answer["measured_dose_mg_per_l"].as_f64().unwrap() < 110.0);
    // The chlorine that runs over is neutralized as well: 2.4839 g of ascorbic acid per g, and 10 % more.
    assert!(answer["neutralizer_kg"].as_f64().unwrap() > fed / 1000.0 * 2.4839 * 1.1 * 0.999);
    assert!(cautions(&answer).contains(&"spring-overflow".to_owned()));
    let said = run(&[&["well"][..], &PRODUCT, &all, &["--short"]].concat()).ended(0).out;
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("each hour for 24 h, evenly") && said.contains("Test the overflow each hour"), "{said}");

    let fed = format!("{CAMPAIGN}[practice]\nflowing_spring = \"feed\"\n");
    let (treatments, _, folder) = plan(SPRING, &fed, 0);
    near(&answer["feed_l"], number(&treatments[0], "feed_l"), 1e-9);
    let orders = rows(&folder.path().join("out/orders.csv"));
    let product = orders.iter().find(|line| line["kind"] == "product").unwrap();
    near(&answer["product_l"], number(product, "first_round"), 1e-6);
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    let field = &book.iter().find(|(name, _)| name == "Crew").unwrap().1;
    let cells: Vec<String> = field.iter().flatten().map(|cell| format!("{cell}")).collect();
    assert!(cells.iter().any(|cell| cell.ends_with("US gal each hour of the contact time")), "{cells:?}");
}

#[test]
fn a_dug_well_is_brushed_emptied_and_measured() {
    // 60 in wide, 20 ft of water, 2 gpm: as a mixed tank 20,300 gal and 169 h.
    let dug = [
        "--type",
        "dug",
        "--depth",
        "22 ft",
        "--water-level",
        "2 ft",
        "--diameter",
        "60 in",
        "--yield",
        "2 gpm",
        "--pump-rate",
        "12 gpm",
        "--route",
        "land",
    ];
    let answer = well(&dug);
    let gallons = answer["standing_volume_l"].as_f64().unwrap() / 3.785_411_784;
    assert!(close(gallons, 2937.5, 1e-3), "{gallons}");
    assert_eq!(answer["flush_method"], "empty_and_refill");
    // 100 to 10 to 1 to 0.1 mg/L: below 0.5 (WHO/WEDC Technical Note 1) after the third.
    near(&answer["emptyings"], 3.0, 0.0);
    // Each time 12/10 of the water is pumped, in 293.8 min; the refill takes 1468.8 min, the wait 30 min.
    near(&answer["flush_volume_l"], 3.0 * 1.2 * answer["treated_volume_l"].as_f64().unwrap(), 1e-9);
    near(&answer["flush_h"], 3.0 * (gallons / 10.0 + gallons / 2.0 + 30.0) / 60.0, 1e-6);
    // The wall: pi x 5 ft x 22 ft = 345.6 ft2 = 32.1 m2, at 1 L and 200 mg/L (UNHCR/WHO 1997) 6.4 g of chlorine.
    near(&answer["wall_wash_l"], std::f64::consts::PI * 110.0 * 0.3048 * 0.3048, 1e-9);
    let wash = 0.2 * answer["wall_wash_l"].as_f64().unwrap();
    let water = 0.1 * answer["treated_volume_l"].as_f64().unwrap();
    near(&answer["chlorine_g"], wash + water, 1e-9);
    assert!(answer["wall_wash_amount"].as_f64().unwrap() > 0.0);
    assert!(cautions(&answer).contains(&"empty-and-refill".to_owned()));
    let said = run(&[&["well"][..], &PRODUCT, &dug].concat()).ended(0).out;
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in ["Walls: mix", "Let it refill, wait 30 min, measure. Below 0.5 mg/L: done.", "E3", "E4"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(said.contains("Never enter"), "{said}");
}

#[test]
fn who_is_not_emptied_is_told_why_and_nothing_contradicts_itself() {
    let list = "well id,type,depth (ft),water level (ft),diameter (in),yield (gpm),pump (gpm),seawater,discharge route\n\
                A,dug,20,8,36,2,12,yes,land\nB,dug,20,8,36,10,12,no,land\nC,dug,20,8,36,,,no,land\n\
                D,bored,40,8,24,2,12,no,land\nE,dug,20,8,36,2,12,no,land\n";
    let (treatments, ..) = plan(list, CAMPAIGN, 0);
    let method: Vec<&str> = treatments.iter().map(|row| row["flush_method"].as_str()).collect();
    assert_eq!(method, ["mixed_tank", "mixed_tank", "empty_and_refill", "mixed_tank", "empty_and_refill"]);
    let words: Vec<Vec<&str>> = treatments.iter().map(|row| row["cautions"].split(' ').collect()).collect();
    assert!(words[0].contains(&"seawater-do-not-empty") && !words[0].contains(&"pump-too-weak-to-empty"));
    assert!(words[1].contains(&"pump-too-weak-to-empty"));
    for words in &words {
        assert!(!(words.contains(&"empty-and-refill") && words.contains(&"seawater-do-not-empty")), "{words:?}");
    }
    // Neither rate is known: the water is, the hours are not.
    assert!(number(&treatments[2], "flush_h").is_nan() && number(&treatments[2], "emptyings") == 3.0);
    assert!(words[2].contains(&"flush-rate-unknown"));
    // The walls of a well that is not emptied are not washed.
    assert!(number(&treatments[0], "wall_wash_l").is_nan() && number(&treatments[4], "wall_wash_l") > 0.0);
    let all = format!("{CAMPAIGN}[practice]\nflush = \"empty_and_refill\"\nemptying = {{ until_mg_per_l = 1.0 }}\n");
    let (treatments, ..) = plan(list, &all, 0);
    assert_eq!(treatments[3]["flush_method"], "empty_and_refill");
    assert_eq!(treatments[0]["flush_method"], "mixed_tank", "sea water is the stronger reason");
    // The emptyings count from what the measured amount really gives: a little above 100 mg/L, so three for 1 mg/L too.
    assert_eq!(number(&treatments[3], "emptyings"), 3.0);
    let bare = format!("{CAMPAIGN}[practice]\nemptying = {{ liters_per_square_meter = 0 }}\n");
    let (treatments, ..) = plan(list, &bare, 0);
    assert!(number(&treatments[4], "wall_wash_l").is_nan() && treatments[4]["wall_wash_unit"].is_empty());
    let none = format!("{CAMPAIGN}[practice]\nflush = \"mixed_tank\"\n");
    assert!(plan(list, &none, 0).0.iter().all(|row| row["flush_method"] == "mixed_tank"));
}

#[test]
fn a_septic_system_gets_an_amount_or_nothing_at_all() {
    let drilled = ["--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--route", "septic"];
    let answer = well(&drilled);
    assert!(answer["neutralizer_kg"].as_f64().unwrap() > 0.0, "{answer}");
    assert!(cautions(&answer).contains(&"septic".to_owned()));
    let said = run(&[&["well"][..], &PRODUCT, &drilled].concat()).ended(0).out;
    assert!(said.contains("Never send the whole flush into the septic system"), "{said}");
    assert!(!said.contains("none included"), "{said}");

    let list = "well id,type,depth (ft),water level (ft),diameter (in),discharge route\nA,drilled,180,40,6,septic\n";
    let without = format!("{CAMPAIGN}[practice]\ndischarge = {{ routes = [\"stream\"] }}\n");
    let (treatments, _, folder) = plan(list, &without, 0);
    assert_eq!(number(&treatments[0], "neutralizer_kg"), 0.0);
    assert!(treatments[0]["cautions"].split(' ').any(|word| word == "septic-keep-out"));
    assert!(!treatments[0]["cautions"].split(' ').any(|word| word == "septic"));
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    let field = &book.iter().find(|(name, _)| name == "Crew").unwrap().1;
    assert!(field.iter().flatten().any(|cell| format!("{cell}").contains("NOT the septic system")));
    let (treatments, ..) = plan(list, CAMPAIGN, 0);
    assert!(number(&treatments[0], "neutralizer_kg") > 0.0);
}

#[test]
fn small_wells_have_a_least_volume_and_a_least_product() {
    // 15 ft of water in 2 in: 2.448 gal. Spread through 80 gal more, 100 mg/L become about 3 mg/L.
    let point = ["--type", "driven", "--water-column", "15 ft", "--diameter", "2 in"];
    let answer = well(&point);
    assert!(cautions(&answer).contains(&"plumbing-not-counted".to_owned()));
    let spread = answer["dose_if_spread_mg_per_l"].as_f64().unwrap();
    let measured = answer["measured_dose_mg_per_l"].as_f64().unwrap();
    assert!(close(spread, measured * 2.448 / 82.448, 2e-4), "{spread}");
    let said = run(&[&["well"][..], &PRODUCT, &point, &["--short"]].concat()).ended(0).out;
    assert!(said.contains("80 US gal of pipes, tank and heater"), "{said}");
    let mut counted = point.to_vec();
    counted.extend(["--plumbing", "80 gal"]);
    assert!(well(&counted)["dose_if_spread_mg_per_l"].is_null());

    let list = "well id,type,height of water (ft),diameter (in),discharge route\nP,driven,15,2,land\n";
    let folder = folder();
    place(folder.path(), "list.csv", list);
    let practice = root().join("scenarios/practice-minimum.toml");
    let arguments = ["plan", "list.csv", "--scenarios", practice.to_str().unwrap(), "--out", "out"];
    run_in(folder.path(), &arguments).ended(0);
    let treatments = rows(&folder.path().join("out/treatments.csv"));
    let gallons = |row: &Row| number(row, "treated_volume_l") / 3.785_411_784;
    // COMAR 26.04.04.24: two charges of at least 10 gal. Agdex 716 A10, p. 50: twice the casing volume.
    assert!(close(gallons(&treatments[0]), 20.0, 1e-12));
    assert!(close(gallons(&treatments[1]), 2.0 * 2.448, 1e-3));
    // One US cup is 236.588 mL.
    assert!(close(number(&treatments[2], "product_l"), 0.236_588, 1e-5));
    assert!(number(&treatments[2], "measured_dose_mg_per_l") > 1000.0);
    assert!(number(&treatments[2], "chlorine_g") > 10.0 * number(&treatments[1], "chlorine_g") / 2.0);
}

#[test]
fn a_well_that_swallows_the_order_is_named_with_its_cell() {
    let mut list = "well id,type,depot,road,crew,water volume (gal),discharge route\n".to_owned();
    for at in 0..30 {
        list += &format!("W{at},drilled,D,,,{},land\n", if at == 17 { 7_000 } else { 70 });
    }
    let (treatments, _, folder) = plan(&list, CAMPAIGN, 0);
    assert_eq!(treatments.len(), 30);
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    for sheet in ["Summary", "Order"] {
        let cells = &book.iter().find(|(name, _)| name == sheet).unwrap().1;
        let named: Vec<String> = cells
            .iter()
            .flatten()
            .map(|cell| format!("{cell}"))
            .filter(|text| text.starts_with("Check before ordering"))
            .collect();
        // 100 of 129 shares, and 100 times the median: (60 / 6)^2.
        assert_eq!(named.len(), 1, "{named:?}");
        for words in ["W17", "78 %", "100 times the median", "F19 of list.csv"] {
            assert!(named[0].contains(words), "{words}: {named:?}");
        }
    }
    // The stock spells the depot otherwise: it is the same one.
    let stocked = format!("{CAMPAIGN}[[stock]]\ndepot = \"d\"\nproduct = \"liquid\"\non_hand = \"1 gal\"\n");
    let (.., folder) = plan(&list, &stocked, 0);
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    let cells = &book.iter().find(|(name, _)| name == "Summary").unwrap().1;
    assert!(cells.iter().flatten().any(|cell| format!("{cell}").contains("78 % of the product")), "{cells:?}");
    let patient =
        CAMPAIGN.replace("units = \"us\"", "units = \"us\"\noutsized = { share_of_depot = 0.8, times_median = 101 }");
    let (.., folder) = plan(&list, &patient, 0);
    let book = sheets(&folder.path().join("out/campaign.xlsx"));
    assert!(
        !book.iter().flat_map(|(_, rows)| rows).flatten().any(|cell| format!("{cell}").contains("before ordering"))
    );
}

#[test]
fn the_demo_has_a_spring_a_dug_well_and_a_greedy_well_planted_and_found() {
    let planted = rows(&root().join("fixtures/demo/planted-faults.csv"));
    let place_of = |word: &str| {
        let row = planted.iter().find(|row| row["fault"].contains(word)).unwrap_or_else(|| panic!("no {word}"));
        (row["sheet"].clone(), row["row"].clone())
    };
    let folder = folder();
    let run = run_in(folder.path(), &["plan", "--demo", "--out", "out"]).ended(1);
    let treatments = rows(&folder.path().join("out/treatments.csv"));
    let of = |id: &str| treatments.iter().find(|row| row["well_id"] == id).unwrap_or_else(|| panic!("no {id}"));
    assert_eq!(place_of("a spring that flows").0, "Sorrel valley");
    assert!(number(of("00199"), "feed_l") > 0.0 && of("00199")["cautions"].contains("spring-overflow"));
    assert_eq!(of("00198")["flush_method"], "empty_and_refill");
    assert!(number(of("00198"), "flush_h") < 120.0 && number(of("00198"), "emptyings") >= 2.0);
    let (_, row) = place_of("swallows the order");
    let said = run.out.replace('\n', " ");
    let (_, named) = said.split_once("Check before ordering").unwrap();
    // By the letters of its column and the number of its row, beside its list.
    assert!(
        named.contains(&format!("{row} of quillmoor-county.csv")) || named.contains(&format!("{row}, ")),
        "{named}"
    );
    assert!(named.contains("quillmoor-county.csv") && !said.contains("quillmoor-county.csv:"), "{said}");
}

#[test]
fn what_the_keys_may_not_say() {
    let refused = |practice: &str| {
        let text = format!("{CAMPAIGN}[practice]\n{practice}\n");
        Campaign::parse(Path::new("plan.toml"), &text).unwrap_err().to_string()
    };
    for (practice, says) in [
        (
            "flowing_spring = \"maybe\"",
            "`flowing_spring` must be \"isolated\", \"feed\" or \"hold_back\", not \"maybe\"",
        ),
        ("flush = \"dry\"", "`flush` must be \"empty_and_refill\" or \"mixed_tank\", not \"dry\""),
        ("flush = { method = \"dry\" }", "`method` must be \"empty_and_refill\" or \"mixed_tank\", not \"dry\""),
        ("emptying = {}", "`emptying` needs one of"),
        ("emptying = { carry_over = 1.0 }", "`carry_over` must be from 0.001 to 0.9, not 1"),
        ("least_volume = \"-3 gal\"", "`least_volume`"),
        ("least_product = {}", "`least_product` needs one of `liquid`, `dry`"),
        ("least_product = { liquid = \"2 lb\" }", "`liquid` is not a volume"),
        ("spring_rise = -1", "`spring_rise` must be from 0 to 10, not -1"),
    ] {
        let error = refused(practice);
        assert!(error.contains(says), "{practice}: {error}");
    }
}
