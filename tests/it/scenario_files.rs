//! Scenario files: every file of `scenarios/` is understood, and wrong ones are refused with the line and what would be right.

use std::path::Path;

use aftercrest::engine::{Plan, prove_fixed};
use aftercrest::error::{Error, FaultPlace, Result};
use aftercrest::scenario::Campaign;

use crate::reading::{fixtures, rules_from};
use crate::running::{folder, names, place, root, run};

/// A campaign in feet and gallons with one product; what is wrong comes after it.
const US: &str = "[campaign]\nunits = \"us\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                  strength = { percent = 6, basis = \"weight_naocl\" }\n";
/// The same in metres and litres.
const METRIC: &str = "[campaign]\nunits = \"metric\"\n[[product]]\nname = \"bleach\"\nchemical = \"sodium_hypochlorite\"\n\
                      strength = { percent = 6, basis = \"weight_naocl\" }\n";
/// Nothing before it: the whole file stands in the case.
const BARE: &str = "";

/// A wrong file.
struct Wrong {
    name: &'static str,
    before: &'static str,
    text: &'static str,
    /// Line that must be shown, from 1; none where no line is at fault.
    line: usize,
    /// What must be said, word by word; a list of known names may be cut short by `…`.
    says: &'static str,
}

/// What a planner would see of a file: understood, then held against a list with one further column.
fn refusal(text: &str) -> Option<Error> {
    let try_it = || -> Result<()> {
        let campaign = Campaign::parse(Path::new("plan.toml"), text)?;
        prove_fixed(&campaign)?;
        Plan::prepare(&campaign, campaign.select(&[])?, campaign.date, &["Road no.".to_owned()])?;
        Ok(())
    };
    try_it().err()
}

#[test]
fn every_bundled_file_is_understood() {
    let files: Vec<String> =
        names(&root().join("scenarios")).into_iter().filter(|name| name.ends_with(".toml")).collect();
    assert!(files.len() >= 10, "{files:?}");
    for name in files {
        let path = root().join("scenarios").join(&name);
        if name == "products.toml" {
            // The built-in list: products alone, in the same grammar.
            assert!(aftercrest::scenario::product::built_in_products().unwrap().len() >= 8);
            continue;
        }
        let campaign = Campaign::read(&path).unwrap_or_else(|error| panic!("{error}"));
        assert!(!campaign.select(&[]).unwrap().is_empty(), "{name}");
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("# "), "{name} does not begin by saying what it is for");
        for (number, scenario) in campaign.scenarios.iter().enumerate() {
            assert_eq!(scenario.number, number + 1);
            let twice = campaign.scenarios.iter().filter(|other| other.name == scenario.name).count();
            assert_eq!(twice, 1, "{name}: {}", scenario.name);
        }
    }
}

#[test]
fn rules_of_reading_are_the_same_by_a_second_reader() {
    // The files beside the lists, by the campaign's reader and by the tests' own, which shares only the words.
    let mut compared = 0;
    for folder in ["findings", "dirty"] {
        for name in names(&fixtures(folder)).iter().filter(|name| name.ends_with(".toml")) {
            let path = fixtures(folder).join(name);
            let text = std::fs::read_to_string(&path).unwrap();
            if !text.contains("units = ") {
                // Left open on purpose: a list that names no units, in a campaign that names none.
                let said = Campaign::parse(&path, &text).unwrap_err().to_string();
                assert!(said.contains("`units`"), "{said}");
                continue;
            }
            let campaign = Campaign::parse(&path, &text).unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(campaign.rules, rules_from(&text), "{name}");
            compared += 1;
        }
    }
    assert!(compared >= 10, "{compared}");
}

#[test]
fn wrong_files_are_refused_with_the_line_and_what_would_be_right() {
    let mut faults = Vec::new();
    for wrong in WRONG {
        let text = format!("{}{}", wrong.before, wrong.text);
        let Some(error) = refusal(&text) else {
            faults.push(format!("{}: nobody minds", wrong.name));
            continue;
        };
        let said = error.to_string();
        let mut lines = said.lines();
        let head = lines.next().unwrap_or_default();
        let reason = match wrong.line {
            0 => Some(head),
            line => head.strip_prefix(&format!("plan.toml:{line}:")).and_then(|rest| Some(rest.split_once(": ")?.1)),
        };
        let wanted = |reason: &str| match wrong.says.strip_suffix('…') {
            Some(beginning) => reason.starts_with(beginning),
            None => reason == wrong.says,
        };
        if !reason.is_some_and(wanted) {
            faults.push(format!("{}:\n  wanted {}: {}\n  said   {said}", wrong.name, wrong.line, wrong.says));
        }
        if wrong.line > 0 {
            let shown = text.lines().nth(wrong.line - 1).unwrap();
            if lines.next() != Some(&format!(" {} | {shown}", wrong.line))
                || !lines.next().is_some_and(|mark| mark.ends_with('^'))
            {
                faults.push(format!("{}: the line is not shown:\n{said}", wrong.name));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(WRONG.len() >= 25);
}

#[test]
fn all_faults_of_a_file_are_told_at_once_in_its_order() {
    // One of each kind, in every table; what follows from a fault is no fault of its own.
    let text = r#"[campaign]
units = "american"
bounding_box = [45, 46]
colour = "red"
[inventory]
repeats = "twice"
columns = { "Bottom" = "totl_depth" }
units = { total_depth = "gal" }
words = { flooded = { "J" = "ja" } }
[practice]
target_mg_per_l = -5
hold_hours = "24"
flush_rate = "6 ft"
discharge = { limit_mg_per_l = 1000, neutralizer = "sugar", routes = ["stream", "sky"] }
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 60, basis = "weight_naocl" }
caustic_percent = 50
packages = [{ size = "5 ft" }, { size = "5 gal", price = -1, available = 2.5 }]
[[scenario]]
name = "one"
product = "bleach"
hold_hours = 1000
[[scenario]]
name = "two"
product = "blech"
[grid]
target_mg_per_l = [50, "100"]
[[override]]
where = "flooded"
set = { demand_factors = "some" }
[[override]]
exclude = true
[missing.drilled]
casing_diameter = { low = "8 in", mid = "6 in", high = "10 in" }
[missing.pond]
casing_diameter = "from_list"
[[stock]]
depot = "A"
product = "bleach"
[[supply]]
name = "gloves"
per_visit = -1
"#;
    let Err(Error::Scenario(faults)) = Campaign::parse(Path::new("plan.toml"), text) else {
        panic!("nobody minds");
    };
    let lines: Vec<usize> = faults
        .iter()
        .map(|fault| match fault.place {
            FaultPlace::Line { row, .. } => row,
            _ => 0,
        })
        .collect();
    let wanted = [2, 3, 4, 6, 7, 8, 9, 11, 12, 13, 14, 14, 14, 18, 19, 20, 20, 20, 24, 27, 29, 32, 33, 33, 36, 37, 44];
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(lines, wanted, "{}", said.join("\n"));
    let whole = Error::Scenario(faults).to_string();
    assert!(whole.ends_with("27 entries to correct; nothing was written"), "{whole}");
}

#[test]
fn every_parameter_is_told_to_people() {
    use aftercrest::parameter::{Effect, FILE, Parameter, Taken, Vocabulary, default_practice, of_practice};
    fn look(keys: &'static Vocabulary, path: &str, seen: &mut usize) {
        for parameter in keys.own {
            let path = format!("{path}.{}", parameter.key);
            *seen += 1;
            assert!(!parameter.title.is_empty(), "{path} has no title");
            if let Some(inner) = parameter.keys() {
                look(inner, &path, seen);
            }
        }
    }
    let mut seen = 0;
    look(&FILE, "", &mut seen);
    assert!(seen > 100, "{seen}");
    // What is taken by default is what stands in the practice, and comes from somewhere.
    let practice = default_practice(aftercrest::field::rules::UnitSystem::Us);
    for (_, parameter) in of_practice() {
        let Parameter { key, default, source, meaning, .. } = parameter;
        let Some(Effect::Sets { get, .. }) = parameter.effect else { panic!("{key} does nothing") };
        let stands = get(&practice);
        match default {
            Taken::Number(number) => {
                let own =
                    parameter.measured().and_then(|measured| aftercrest::quantity::unit::by_symbol(measured.unit));
                let shown = own.map_or(stands.number(), |unit| unit.from_si(stands.number()));
                assert!((shown - number).abs() <= 1e-9 * number.abs(), "{key}: {shown} for {number}");
                assert!(!source.is_empty(), "{key}: a default without a source");
            }
            Taken::Word(word) => assert_eq!(stands.word(), *word, "{key}"),
            Taken::Several(words) => assert_eq!(stands.words(), *words, "{key}"),
            Taken::Words(words) => assert!(!words.is_empty(), "{key}: nothing says what is taken"),
        }
        assert!(!meaning.is_empty() || key.starts_with("liquid") || key.starts_with("dry"), "{key} means nothing");
    }
}

#[test]
fn a_grid_beyond_all_measure_is_refused() {
    let axis = (1..=200).map(|step| step.to_string()).collect::<Vec<_>>().join(", ");
    let said =
        refusal(&format!("{US}[grid]\ntarget_mg_per_l = [{axis}]\nhold_hours = [{axis}]\n")).unwrap().to_string();
    assert!(
        said.starts_with("plan.toml:7:1: the grid makes 40000 scenarios; at most 10000 can be planned\n"),
        "{said}"
    );
    // Not even counted where the count itself would not fit.
    let axes: String = ["target_mg_per_l", "hold_hours", "volume_allowance", "demand_mg_per_l", "predilution_ratio"]
        .iter()
        .map(|key| {
            format!(
                "{key} = [{}]\n",
                (1..=20).cycle().take(20_000).map(|step| step.to_string()).collect::<Vec<_>>().join(",")
            )
        })
        .collect();
    assert!(refusal(&format!("{US}[grid]\n{axes}")).unwrap().to_string().contains("at most 10000"));
}

#[test]
fn the_order_of_scenarios_is_that_of_the_file() {
    let campaign = Campaign::parse(
        Path::new("plan.toml"),
        &format!(
            "{US}[[scenario]]\nname = \"as listed\"\nproduct = \"bleach\"\n\
             [grid]\nproduct = [\"bleach\", \"granules 65\"]\ntarget_mg_per_l = [50, 100]\nhold_hours = [12, 24]\n"
        ),
    )
    .unwrap();
    let found: Vec<&str> = campaign.scenarios.iter().map(|scenario| scenario.name.as_str()).collect();
    assert_eq!(
        found,
        [
            "as listed",
            "bleach, 50 mg/L, contact time 12 h",
            "bleach, 50 mg/L, contact time 24 h",
            "bleach, 100 mg/L, contact time 12 h",
            "bleach, 100 mg/L, contact time 24 h",
            "granules 65, 50 mg/L, contact time 12 h",
            "granules 65, 50 mg/L, contact time 24 h",
            "granules 65, 100 mg/L, contact time 12 h",
            "granules 65, 100 mg/L, contact time 24 h",
        ]
    );
}

#[test]
fn later_tables_win_key_by_key() {
    let campaign = Campaign::parse(
        Path::new("plan.toml"),
        &format!(
            "{US}[practice]\ntarget_mg_per_l = 70\nhold_hours = 10\nvolume_allowance = 1.5\n\
             [[scenario]]\nname = \"one\"\nproduct = \"bleach\"\nhold_hours = 20\n\
             [[override]]\nwhere = \"flooded\"\nset = {{ target_mg_per_l = 80 }}\n\
             [[override]]\nwhere = \"seawater\"\nset = {{ target_mg_per_l = 90 }}\n"
        ),
    )
    .unwrap();
    let practice = |mask| campaign.practice_of(&campaign.scenarios[0], mask);
    for (mask, target) in [(0b00, 70.0), (0b01, 80.0), (0b10, 90.0), (0b11, 90.0)] {
        let practice = practice(mask);
        assert_eq!(practice.target.milligrams_per_liter(), target);
        assert!((practice.hold.value / 3600.0 - 20.0).abs() < 1e-12);
        assert_eq!(practice.volume_allowance, 1.5);
    }
}

/// Wrong files, from the campaign's head to the last table.
const WRONG: &[Wrong] = &[
    Wrong {
        name: "no campaign",
        before: BARE,
        text: r#"[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 1,
        says: r#"the file needs a [campaign] with `units = "us"`, "metric" or "imperial""#,
    },
    Wrong {
        name: "no units",
        before: BARE,
        text: r#"[campaign]
title = "x"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 1,
        says: r#"`units` must be "us", "metric" or "imperial", not nothing"#,
    },
    Wrong {
        name: "units unknown",
        before: BARE,
        text: r#"[campaign]
units = "american"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 2,
        says: r#"`units` must be "us", "metric" or "imperial", not "american""#,
    },
    Wrong {
        name: "not toml",
        before: BARE,
        text: r#"[campaign]
units = "us"
[practice
target_mg_per_l = 100
"#,
        line: 3,
        says: "this is not valid TOML: unclosed table, expected `]`",
    },
    Wrong {
        name: "key twice",
        before: US,
        text: r#"[practice]
hold_hours = 12
hold_hours = 24
"#,
        line: 9,
        says: "this is not valid TOML: duplicate key",
    },
    Wrong {
        name: "table unknown",
        before: US,
        text: r#"[practise]
hold_hours = 12
"#,
        line: 7,
        says: "unknown key `practise` in the file; did you mean `practice`?; known: buy, campaign, crew, grid, inventory, list, missing, neutralizer, override, practice, product, scenario, stock, supply",
    },
    Wrong {
        name: "key in practice unknown",
        before: US,
        text: r#"[practice]
target_mg_per_litre = 100
"#,
        line: 8,
        says: "unknown key `target_mg_per_litre` in [practice]; did you mean `target_mg_per_l`?; known: …",
    },
    Wrong {
        name: "key in product unknown",
        before: US,
        text: r#"age_in_days = 30
"#,
        line: 7,
        says: "unknown key `age_in_days` in [[product]]; known: …",
    },
    Wrong {
        name: "key in override unknown",
        before: US,
        text: r#"[[override]]
where = "flooded"
set = { target = 200 }
"#,
        line: 9,
        says: "unknown key `target` in [[override]] set; did you mean `target_mg_per_l`?; known: …",
    },
    Wrong {
        name: "number as text",
        before: US,
        text: r#"[practice]
hold_hours = "24"
"#,
        line: 8,
        says: "`hold_hours` in [practice] must be a number, not a text",
    },
    Wrong {
        name: "text as number",
        before: US,
        text: r#"[practice]
plumbing_volume = 30
"#,
        line: 8,
        says: r#"`plumbing_volume` in [practice] must be a text with its unit, such as "50 US gal", not a number"#,
    },
    Wrong {
        name: "number out of range",
        before: US,
        text: r#"[practice]
repeat_share = 20
"#,
        line: 8,
        says: "`repeat_share` must be from 0 to 10, not 20",
    },
    Wrong {
        name: "number negative",
        before: US,
        text: r#"[practice]
target_mg_per_l = -100
"#,
        line: 8,
        says: "`target_mg_per_l` must be from 0.1 to 20000, not -100",
    },
    Wrong {
        name: "number not finite",
        before: US,
        text: r#"[practice]
target_mg_per_l = inf
"#,
        line: 8,
        says: "`target_mg_per_l` in [practice] must be a number, not one without end",
    },
    Wrong {
        name: "unit of other dimension",
        before: US,
        text: r#"[practice]
plumbing_volume = "30 ft"
"#,
        line: 8,
        says: r#"`plumbing_volume` is not a volume: "ft" is a unit of length, not of volume; write it like "50 US gal""#,
    },
    Wrong {
        name: "unit unknown",
        before: US,
        text: r#"[practice]
flush_rate = "8 gallons a minute or so"
"#,
        line: 8,
        says: r#"`flush_rate` is not a flow: "US gal" is a unit of volume, not of flow; write it like "8 US gpm""#,
    },
    Wrong {
        name: "bare gallon in a metric campaign",
        before: METRIC,
        text: r#"[practice]
plumbing_volume = "30 gal"
"#,
        line: 8,
        says: r#"`plumbing_volume` is not a volume: "gal" is a US or an imperial measure, and nothing says which; write it like "50 US gal""#,
    },
    Wrong {
        name: "bare gallon of a package in a metric campaign",
        before: METRIC,
        text: r#"packages = [{ size = "5 gal", price = 24 }]
"#,
        line: 7,
        says: r#"`size` is not a volume: "gal" is a US or an imperial measure, and nothing says which; write it like "50 US gal""#,
    },
    Wrong {
        name: "range for a value",
        before: US,
        text: r#"[practice]
plumbing_volume = "20 to 40 gal"
"#,
        line: 8,
        says: r#"`plumbing_volume` must be one value, such as "50 US gal""#,
    },
    Wrong {
        name: "basis missing",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6 }
"#,
        line: 6,
        says: "a strength needs its basis, because the same percent differs by a fifth between them: trade, weight_naocl, weight_available_chlorine, grams_per_liter",
    },
    Wrong {
        name: "basis unknown",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight" }
"#,
        line: 6,
        says: r#"no basis "weight" for sodium_hypochlorite; did you mean `weight_naocl` or `weight_available_chlorine`?; known: trade, weight_naocl, weight_available_chlorine, grams_per_liter"#,
    },
    Wrong {
        name: "basis of a liquid for granules",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "granules"
chemical = "calcium_hypochlorite"
strength = { percent = 65, basis = "trade" }
"#,
        line: 6,
        says: r#"no basis "trade" for calcium_hypochlorite; known: weight_available_chlorine"#,
    },
    Wrong {
        name: "strength missing",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
"#,
        line: 3,
        says: r#"product "bleach" needs `strength = { percent = …, basis = "…" }`"#,
    },
    Wrong {
        name: "strength beyond what exists",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 60, basis = "trade" }
"#,
        line: 6,
        says: "`percent` must lie from 0.05 to 25 on this basis, not 60",
    },
    Wrong {
        name: "chemical unknown",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "bleach"
chemical = "sodium hypochlorite"
strength = { percent = 6, basis = "trade" }
"#,
        line: 5,
        says: r#"no chemical "sodium hypochlorite"; did you mean `sodium_hypochlorite`?; known: sodium_hypochlorite, calcium_hypochlorite, chlorinated_lime"#,
    },
    Wrong {
        name: "product twice",
        before: US,
        text: r#"[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 8,
        says: r#"a second product named "bleach""#,
    },
    Wrong {
        name: "scenario twice",
        before: US,
        text: r#"[[scenario]]
name = "one"
product = "bleach"
[[scenario]]
name = "one"
product = "bleach"
hold_hours = 12
"#,
        line: 11,
        says: r#"a second scenario named "one""#,
    },
    Wrong {
        name: "scenario and grid of one name",
        before: US,
        text: r#"[[scenario]]
name = "bleach, 100 mg/L"
product = "bleach"
[grid]
product = ["bleach"]
target_mg_per_l = [50, 100]
"#,
        line: 10,
        says: r#"the grid makes a second scenario named "bleach, 100 mg/L""#,
    },
    Wrong {
        name: "grid value twice",
        before: US,
        text: r#"[grid]
product = ["bleach"]
target_mg_per_l = [50, 50]
"#,
        line: 7,
        says: r#"the grid makes a second scenario named "bleach, 50 mg/L""#,
    },
    Wrong {
        name: "scenario of an unknown product",
        before: US,
        text: r#"[[scenario]]
name = "one"
product = "blech"
"#,
        line: 9,
        says: r#"no product "blech"; did you mean `bleach`?; known: …"#,
    },
    Wrong {
        name: "scenario without product",
        before: US,
        text: r#"[[scenario]]
name = "one"
"#,
        line: 7,
        says: "[[scenario]] needs `product`",
    },
    Wrong {
        name: "axis unknown",
        before: US,
        text: r#"[grid]
target_mg_l = [50, 100]
"#,
        line: 8,
        says: "unknown axis `target_mg_l` in [grid]; axes: …",
    },
    Wrong {
        name: "axis no list",
        before: US,
        text: r#"[grid]
target_mg_per_l = 50
"#,
        line: 8,
        says: "`target_mg_per_l` in [grid] must be a list of values",
    },
    Wrong {
        name: "axis empty",
        before: US,
        text: r#"[grid]
target_mg_per_l = []
"#,
        line: 8,
        says: "`target_mg_per_l` in [grid] is an empty list",
    },
    Wrong {
        name: "axis value wrong",
        before: US,
        text: r#"[grid]
target_mg_per_l = [50, 100,
    -200]
"#,
        line: 9,
        says: "`target_mg_per_l` must be from 0.1 to 20000, not -200",
    },
    Wrong {
        name: "condition on no field",
        before: US,
        text: r#"[[override]]
where = "well_typ = 'dug'"
set = { hold_hours = 36 }
"#,
        line: 8,
        says: r#"no field or column "well_typ"; did you mean `well_type`?; known: …"#,
    },
    Wrong {
        name: "condition on a length without unit",
        before: US,
        text: r#"[[override]]
where = "total_depth > 50"
set = { hold_hours = 36 }
"#,
        line: 8,
        says: "`total_depth` needs its unit, because a bare number could be read two ways: `total_depth_m` or `total_depth_ft` or `total_depth_mm` or `total_depth_in`",
    },
    Wrong {
        name: "condition not sql",
        before: US,
        text: r#"[[override]]
where = "ph >> 8 AND"
set = { hold_hours = 36 }
"#,
        line: 8,
        says: "this condition is not SQL: unable to parse 'ph >> 8 AND' as Expr",
    },
    Wrong {
        name: "condition no condition",
        before: US,
        text: r#"[[override]]
where = "ph + 1"
set = { hold_hours = 36 }
"#,
        line: 8,
        says: r#"this must be a condition that is true or false, such as "well_type = 'dug'""#,
    },
    Wrong {
        name: "condition of mixed types",
        before: US,
        text: r#"[[override]]
where = "ph = 'high'"
set = { hold_hours = 36 }
"#,
        line: 8,
        says: "this condition cannot be evaluated: cannot compare string with numeric type (f64)",
    },
    Wrong {
        name: "override sets nothing",
        before: US,
        text: r#"[[override]]
where = "flooded"
set = {}
"#,
        line: 9,
        says: "`set` changes nothing",
    },
    Wrong {
        name: "override without set",
        before: US,
        text: r#"[[override]]
where = "flooded"
"#,
        line: 7,
        says: "an [[override]] needs `set = { … }` with practice keys, or `exclude = true` with `reason`",
    },
    Wrong {
        name: "exclude without a reason",
        before: US,
        text: r#"[[override]]
where = "flooded"
exclude = true
"#,
        line: 7,
        says: "`exclude = true` needs `reason = \"…\"`: it stands beside each visit left out",
    },
    Wrong {
        name: "reason without exclude",
        before: US,
        text: r#"[[override]]
where = "flooded"
set = { hold_hours = 12 }
reason = "dry"
"#,
        line: 10,
        says: "`reason` stands only beside `exclude = true`",
    },
    Wrong {
        name: "low above mid",
        before: US,
        text: r#"[missing.drilled]
casing_diameter = { low = "8 in", mid = "6 in", high = "8 in" }
"#,
        line: 8,
        says: "an assumed `casing_diameter` needs low <= mid <= high",
    },
    Wrong {
        name: "mid missing",
        before: US,
        text: r#"[missing.drilled]
casing_diameter = { low = "5 in", high = "8 in" }
"#,
        line: 8,
        says: "an assumed `casing_diameter` needs low, mid and high",
    },
    Wrong {
        name: "assumed without unit",
        before: US,
        text: r#"[missing.drilled]
casing_diameter = { low = 5, mid = 6, high = 8 }
"#,
        line: 8,
        says: r#"`low` in [missing] drilled casing_diameter must be a text with its unit, such as "120 ft", not a number"#,
    },
    Wrong {
        name: "assumed impossible",
        before: US,
        text: r#"[missing.drilled]
casing_diameter = { low = "5 ft", mid = "60 ft", high = "80 ft" }
"#,
        line: 8,
        says: "an assumed `casing_diameter` must lie from 12 to 9200 mm",
    },
    Wrong {
        name: "assumed for no type",
        before: US,
        text: r#"[missing.drild]
casing_diameter = { low = "5 in", mid = "6 in", high = "8 in" }
"#,
        line: 7,
        says: "no well type `drild`; did you mean `drilled`?; types: drilled, driven, bored, dug, spring_box",
    },
    Wrong {
        name: "assumed no field",
        before: US,
        text: r#"[missing.drilled]
diameter = { low = "5 in", mid = "6 in", high = "8 in" }
"#,
        line: 8,
        says: "no field `diameter`; did you mean `casing_diameter` or `casing_outside_diameter` or `open_hole_diameter`?; fields: …",
    },
    Wrong {
        name: "assumed text",
        before: US,
        text: r#"[missing.drilled]
casing_diameter = "6 in"
"#,
        line: 8,
        says: r#"an assumed `casing_diameter` is { low = …, mid = …, high = … }, or "from_list" to draw it from the list's own wells of the same type, not "6 in""#,
    },
    Wrong {
        name: "mapped to no field",
        before: US,
        text: r#"[inventory.columns]
"Prof. (m)" = "depth"
"#,
        line: 8,
        says: "no field `depth`; did you mean `total_depth` or `casing_depth`?; fields: …",
    },
    Wrong {
        name: "unit of no field",
        before: US,
        text: r#"[inventory.columns]
"UOM" = "unit of depth"
"#,
        line: 8,
        says: "no field `depth`; did you mean `total_depth` or `casing_depth`?; fields: …",
    },
    Wrong {
        name: "sign before no quantity",
        before: US,
        text: r#"[inventory.columns]
"Code" = "qualifier of well_type"
"#,
        line: 8,
        says: "`well_type` is not a measured quantity and has no qualifier",
    },
    Wrong {
        name: "counted as what the field is not",
        before: US,
        text: r#"[inventory.units]
nitrite_n = "mg/L as HCO3"
"#,
        line: 8,
        says: r#"unknown unit "mg/L as HCO3"; units of concentration: mg/L, ug/L, g/L"#,
    },
    Wrong {
        name: "unit for no quantity",
        before: US,
        text: r#"[inventory.units]
well_id = "ft"
"#,
        line: 8,
        says: "`well_id` is not a measured quantity and has no unit",
    },
    Wrong {
        name: "unit of a field wrong",
        before: US,
        text: r#"[inventory.units]
total_depth = "gpm"
"#,
        line: 8,
        says: r#""gpm" is not a unit of length; units of length: m, cm, dm, mm, ft, in, mil, yd"#,
    },
    Wrong {
        name: "unit of a field open",
        before: METRIC,
        text: r#"[inventory.units]
water_volume = "gal"
"#,
        line: 8,
        says: r#""gal" may be US or imperial: write "US gal" or "imp gal""#,
    },
    Wrong {
        name: "repeats unknown",
        before: US,
        text: r#"[inventory]
repeats = "skip"
"#,
        line: 8,
        says: r#"`repeats` must be "hold_back", "separate_visits" or "latest", not "skip""#,
    },
    Wrong {
        name: "flush without rule",
        before: US,
        text: r#"[practice]
flush = {}
"#,
        line: 8,
        says: "`flush` needs one of `method`, `until_mg_per_l`, `volumes`",
    },
    Wrong {
        name: "route unknown",
        before: US,
        text: r#"[practice]
discharge = { routes = ["stream", "river"] }
"#,
        line: 8,
        says: r#"no route "river"; known: land, storm_drain, stream, sanitary_sewer, septic, hauled"#,
    },
    Wrong {
        name: "neutralizer unknown",
        before: US,
        text: r#"[practice]
discharge = { neutralizer = "vitamin C" }
"#,
        line: 8,
        says: r#"no neutralizer "vitamin C"; known: …"#,
    },
    Wrong {
        name: "age and date",
        before: US,
        text: r#"age_days = 30
label_date = 2026-05-01
storage = "20 C"
"#,
        line: 8,
        says: "give `age_days` or `label_date`, not both",
    },
    Wrong {
        name: "date wrong",
        before: US,
        text: r#"label_date = "1.5.2026"
storage = "20 C"
"#,
        line: 7,
        says: "`label_date` must be a date such as 2026-05-31",
    },
    Wrong {
        name: "storage too hot",
        before: US,
        text: r#"age_days = 30
storage = "68 C or more"
"#,
        line: 8,
        says: r#"`storage` must be one value, such as "12 C""#,
    },
    Wrong {
        name: "storage leg open",
        before: US,
        text: r#"age_days = 30
storage = [{ at = "20 C" }, { days = 3, at = "30 C" }]
"#,
        line: 8,
        says: "only the last leg of `storage` may leave out `days`",
    },
    Wrong {
        name: "package of other dimension",
        before: US,
        text: r#"packages = [{ size = "5 lb", price = 24 }]
"#,
        line: 7,
        says: r#"`size` is not a volume: "lb" is a unit of mass, not of volume; write it like "50 US gal""#,
    },
    Wrong {
        name: "package of nothing",
        before: US,
        text: r#"packages = [{ size = "0 gal" }]
"#,
        line: 7,
        says: "`size` must be more than zero",
    },
    Wrong {
        name: "bulk density of a liquid",
        before: US,
        text: r#"bulk_density = "0.8 kg/L"
"#,
        line: 7,
        says: "`bulk_density` is for dry products",
    },
    Wrong {
        name: "stock of an unknown product",
        before: US,
        text: r#"[[stock]]
depot = "Mill"
product = "bleech"
on_hand = "10 gal"
"#,
        line: 9,
        says: r#"no product "bleech"; did you mean `bleach`?; known: …"#,
    },
    Wrong {
        name: "stock negative",
        before: US,
        text: r#"[[stock]]
depot = "Mill"
product = "bleach"
on_hand = "-10 gal"
"#,
        line: 10,
        says: "`on_hand` must not be negative",
    },
    Wrong {
        name: "group by a measure",
        before: BARE,
        text: r#"[campaign]
units = "us"
group_by = ["total_depth"]
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 3,
        says: "`total_depth` is measured: totals can be grouped by text columns only",
    },
    Wrong {
        name: "group by nothing there",
        before: BARE,
        text: r#"[campaign]
units = "us"
group_by = ["Road"]
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 3,
        says: r#"no column "Road" to group by; did you mean `Road no.`?; further columns of these lists: Road no."#,
    },
    Wrong {
        name: "bounding box turned",
        before: BARE,
        text: r#"[campaign]
units = "us"
bounding_box = [46.0, -31.0, 45.0, -30.0]
[[product]]
name = "bleach"
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 3,
        says: "`bounding_box` must be [south, west, north, east] in degrees, east and north positive",
    },
    Wrong {
        name: "age without storage",
        before: US,
        text: r#"age_days = 30
"#,
        line: 7,
        says: r#"product "bleach" has an age but no `storage` temperature; aging depends on it more than on anything else"#,
    },
    Wrong {
        name: "date without a day",
        before: US,
        text: r#"label_date = 2026-05-01
storage = "20 C"
"#,
        line: 7,
        says: r#"product "bleach" counts its age from 2026-05-01: say for which day to plan, with --date YYYY-MM-DD or `date` in [inventory]"#,
    },
    Wrong {
        name: "age of a scenario without storage",
        before: US,
        text: r#"[[scenario]]
name = "old"
product = "bleach"
age_days = 90
"#,
        line: 10,
        says: r#"product "bleach" has an age but no `storage` temperature; aging depends on it more than on anything else"#,
    },
    Wrong {
        name: "age in a grid without storage",
        before: US,
        text: r#"[grid]
age_days = [
  0,
  60,
]
"#,
        line: 10,
        says: r#"product "bleach" has an age but no `storage` temperature; aging depends on it more than on anything else"#,
    },
    Wrong {
        name: "test without a day of use",
        before: US,
        text: r#"storage = "20 C"
[product.measured_strength]
percent = 5
basis = "weight_naocl"
date = 2026-05-01
"#,
        line: 11,
        says: r#"product "bleach" counts its age from 2026-05-01: say for which day to plan, with --date YYYY-MM-DD or `date` in [inventory]"#,
    },
    Wrong {
        name: "made after the day of the plan",
        before: US,
        text: r#"label_date = 2026-05-01
storage = "20 C"
[inventory]
date = 2026-04-12
"#,
        line: 7,
        says: r#"product "bleach" is dated 2026-05-01, after the day of the plan, 2026-04-12"#,
    },
    Wrong {
        name: "a day that is none",
        before: US,
        text: r#"[inventory]
date = "12 April"
"#,
        line: 8,
        says: "`date` must be a date such as 2026-05-31",
    },
    Wrong {
        name: "a fixed type that is none",
        before: US,
        text: r#"[inventory.fixed]
depot = "Mill Lane"
well_type = "cistern"
"#,
        line: 9,
        says: r#"[inventory.fixed] well_type = "cistern" cannot be used: by its type this is a cistern, not a well"#,
    },
    Wrong {
        name: "a fixed value that says nothing",
        before: US,
        text: r#"[inventory]
missing_texts = ["nil"]
[inventory.fixed]
casing_diameter = "nil"
"#,
        line: 10,
        says: r#"[inventory.fixed] casing_diameter = "nil" cannot be used: it says nothing"#,
    },
    Wrong {
        name: "more than the pure salt",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = "granules"
chemical = "calcium_hypochlorite"
strength = { percent = 99.19, basis = "weight_available_chlorine" }
"#,
        line: 6,
        says: "`percent` must lie from 0.05 to 99.18 on this basis, not 99.19: pure calcium hypochlorite holds 99.183 % available chlorine; 99.2 is rounded",
    },
    Wrong {
        name: "no product",
        before: BARE,
        text: r#"[campaign]
units = "us"
"#,
        line: 1,
        says: "the file names no product: add a [[product]], or a [[scenario]] with a built-in one",
    },
    Wrong {
        name: "blank name",
        before: BARE,
        text: r#"[campaign]
units = "us"
[[product]]
name = " "
chemical = "sodium_hypochlorite"
strength = { percent = 6, basis = "weight_naocl" }
"#,
        line: 4,
        says: "`name` in [[product]] must not be blank",
    },
    Wrong {
        name: "practice a list",
        before: US,
        text: r#"[[practice]]
hold_hours = 24
"#,
        line: 7,
        says: "`practice` must be a table, not a list",
    },
];

/// The field ratio of ascorbic acid, 2.5 mg/mg, and of thiosulfate at pH 7, 1.9 mg/mg: AWWA field guide (2006), table 7-2, as its
/// figures stand in `fixtures/published/chemistry_cases.csv`.
#[test]
fn a_scenario_may_choose_the_ratio_of_the_neutralizer() {
    let ratio = |agent: &str, basis: &str| {
        let text = format!(
            "[campaign]\nunits = \"us\"\n[practice]\ndischarge = {{ neutralizer = \"{agent}\", {basis} }}\n\
             [[scenario]]\nname = \"one\"\nproduct = \"liquid 12.5\"\n"
        );
        let campaign = aftercrest::scenario::Campaign::parse(std::path::Path::new("ratio.toml"), &text).unwrap();
        let practice = campaign.practice_of(&campaign.scenarios[0], 0);
        practice.agent_per_chlorine(practice.neutralizer, Some(7.0)).ratio()
    };
    assert!((ratio("ascorbic_acid", "ratio = \"field\"") - 2.5).abs() < 0.05);
    assert!((ratio("ascorbic_acid", "ratio = \"stoichiometric\"") - 2.484).abs() < 0.0005);
    assert!((ratio("ascorbic_acid", "excess = 0.2") - 2.484).abs() < 0.0005, "stoichiometry is the default");
    assert!((ratio("sodium_thiosulfate", "excess = 0.2") - 1.9).abs() < 0.05, "the field ratio is the default");
    assert!((ratio("sodium_thiosulfate", "ratio = \"stoichiometric\"") - 2.230).abs() < 0.0005);
}

/// The label's limit is that of the kernel's equation, by the exact figure: 2 M(Cl2) / M(Ca(OCl)2) with IUPAC's masses.
#[test]
fn labels_and_equation_have_one_limit() {
    let pure = 2.0 * 70.906 / 142.98 * 100.0;
    let text = |percent: f64| {
        format!(
            "[campaign]\nunits = \"us\"\n[[product]]\nname = \"granules\"\nchemical = \"calcium_hypochlorite\"\n\
             strength = {{ percent = {percent}, basis = \"weight_available_chlorine\" }}\n"
        )
    };
    for (percent, fits) in [(65.0, true), (99.18, true), (pure - 1e-6, true), (pure + 1e-6, false), (99.2, false)] {
        assert_eq!(refusal(&text(percent)).is_none(), fits, "{percent}");
        assert_eq!(aftercrest::kernel::strength::dry_strength(percent).is_some(), fits, "{percent}");
        let arguments =
            ["well", "--volume", "100 gal", "--strength", &percent.to_string(), "--basis", "dry", "--target", "50"];
        let answer = run(&arguments);
        assert_eq!(answer.code == 0, fits, "{percent}: {}", answer.err);
        let limit = "must lie from 0.05 to 99.18 on this basis";
        assert!(fits || answer.err.contains(limit) && answer.err.contains("99.183"), "{}", answer.err);
    }
}

/// A file in another encoding is refused at the line where it begins; a byte order mark is no matter.
#[test]
fn a_scenario_file_is_utf_8() {
    let folder = folder();
    let path = place(folder.path(), "plan.toml", [b"\xef\xbb\xbf", US.as_bytes()].concat());
    assert_eq!(Campaign::read(&path).unwrap().products.len(), 1);
    place(folder.path(), "plan.toml", b"[campaign]\nunits = \"us\"\ntitle = \"Crue \xe0 Vaux\"\n");
    let missing = Campaign::read(&folder.path().join("other.toml")).unwrap_err().to_string();
    assert!(missing.ends_with("other.toml: there is no such file"), "{missing}");
    let said = Campaign::read(&path).unwrap_err().to_string();
    assert!(
        said.contains("plan.toml:3:15: the file is not UTF-8 from here on: save it as UTF-8\n 3 | title"),
        "{said}"
    );
}
