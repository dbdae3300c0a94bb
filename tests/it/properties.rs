//! What must hold for any input: units do not matter, nor where a casing is cut; amounts grow with the water; packages cover
//! a need and would not with one fewer; no row vanishes; and no bytes, as list or as scenario file, stop the program.

use std::path::Path;

use aftercrest::engine::{Listener, Plan, Run, Table, Tables};
use aftercrest::error::Result;
use aftercrest::finding::Finding;
use aftercrest::inventory::Inventory;
use aftercrest::rollup::packages::{cover, whole_packages};
use aftercrest::scenario::Campaign;
use aftercrest::scenario::supply::Package;
use aftercrest::write::csv::CsvTable;
use proptest::prelude::*;

use crate::running::{Row, close, folder, number, place, rows};

/// Listens and says nothing.
struct Silent;

impl Listener for Silent {
    fn findings(&mut self, _findings: &[Finding]) -> Result<()> {
        Ok(())
    }
    fn progress(&mut self, _rows: u64, _share: f64) {}
}

/// Names of columns, each once.
fn unique(heads: Vec<aftercrest::table::ColumnHead>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for head in heads {
        if !names.contains(&head.name) {
            names.push(head.name);
        }
    }
    names
}

/// Plans a list by the library: what the run came to, and its visits and treatments in one table.
fn plan(list: &[u8], name: &str, scenarios: &str) -> Result<(Run, Vec<Row>)> {
    let folder = folder();
    let path = place(folder.path(), name, list);
    let campaign = Campaign::parse(Path::new("plan.toml"), scenarios)?;
    let mut inventory = Inventory::open(&[path], &campaign.rules)?;
    let plan = Plan::prepare(&campaign, campaign.select(&[])?, None, inventory.carried_columns())?;
    let table = folder.path().join("table.csv");
    let columns: Vec<_> = Plan::treatment_columns().into_iter().chain(plan.visit_columns()).collect();
    let columns = plan.columns_named(&unique(plan.heads(&columns)))?;
    let sink = Some(CsvTable::create(&table, &plan.heads(&columns))?);
    let none = Table { columns: Vec::new(), sink: None };
    let tables = Tables { visits: none, treatments: Table { columns, sink } };
    let run = plan.run(&mut inventory, &tables, 0, &mut Silent)?;
    tables.treatments.sink.map_or(Ok(()), CsvTable::finish)?;
    Ok((run, rows(&table)))
}

fn scenarios(units: &str) -> String {
    format!(
        "[campaign]\nunits = \"{units}\"\n[practice]\nvolume_allowance = 1.2\ndemand_mg_per_l = 4\nrepeat_share = 0.2\n\
         [[product]]\nname = \"liquid\"\nchemical = \"sodium_hypochlorite\"\nstrength = {{ percent = 12.5, basis = \"trade\" }}\n\
         [[product]]\nname = \"granules\"\nchemical = \"calcium_hypochlorite\"\n\
         strength = {{ percent = 65, basis = \"weight_available_chlorine\" }}\n"
    )
}

/// Columns that say how much of what, whatever the units of the list.
const AMOUNTS: [&str; 12] = [
    "water_column_m",
    "standing_volume_l",
    "treated_volume_l",
    "demand_mg_per_l",
    "dose_mg_per_l",
    "chlorine_g",
    "product_l",
    "product_kg",
    "product_low_l",
    "product_high_l",
    "product_low_kg",
    "product_high_kg",
];

/// Columns that follow from the water before anything is rounded to a measure.
const LINEAR: [&str; 4] = ["treated_volume_l", "chlorine_g", "product_l", "product_kg"];

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// The same wells written in feet and inches and in metres and millimetres.
    #[test]
    fn a_list_in_feet_is_a_list_in_meters(
        // Widths that are usual for drilled wells: others are asked about, and in feet for another reason than in metres.
        wells in prop::collection::vec((10.0..900.0_f64, 0.05..0.95_f64, 4.0..12.0_f64), 1..12),
    ) {
        let mut feet = "well_id,well_type,depth (ft),water level (ft),casing diameter (in)\n".to_owned();
        let mut meters = "well_id,well_type,depth (m),water level (m),casing diameter (mm)\n".to_owned();
        for (at, (depth, share, diameter)) in wells.iter().enumerate() {
            let level = depth * share;
            feet += &format!("W{at},drilled,{depth},{level},{diameter}\n");
            meters += &format!("W{at},drilled,{},{},{}\n", depth * 0.3048, level * 0.3048, diameter * 25.4);
        }
        let (us, us_rows) = plan(feet.as_bytes(), "feet.csv", &scenarios("us")).unwrap();
        let (metric, metric_rows) = plan(meters.as_bytes(), "meters.csv", &scenarios("metric")).unwrap();
        prop_assert_eq!((us.read, us.planned), (metric.read, metric.planned));
        prop_assert_eq!(us.planned, wells.len() as u64);
        for (a, b) in us_rows.iter().zip(&metric_rows) {
            for column in AMOUNTS {
                prop_assert!(close(number(a, column), number(b, column), 1e-12), "{} {:?} {:?}", column, a, b);
            }
            // The measures differ, cups and millilitres, but neither gives less than the dose.
            for row in [a, b] {
                prop_assert!(number(row, "measured_dose_mg_per_l") >= number(row, "dose_mg_per_l") * (1.0 - 1e-9));
            }
        }
    }

    /// A casing of one diameter, written as one or as cased and open hole of the same diameter.
    #[test]
    fn where_a_casing_is_cut_changes_nothing(
        depth in 20.0..440.0_f64, share in 0.05..0.95_f64, cut in 0.02..0.98_f64, diameter in 2.0..36.0_f64,
    ) {
        let level = depth * share;
        let whole = format!("well_id,well_type,depth (ft),water level (ft),casing diameter (in)\nW,bored,{depth},{level},{diameter}\n");
        let split = format!(
            "well_id,well_type,depth (ft),water level (ft),casing diameter (in),casing depth (ft),open hole diameter (in)\n\
             W,bored,{depth},{level},{diameter},{},{diameter}\n", depth * cut
        );
        let (_, a) = plan(whole.as_bytes(), "whole.csv", &scenarios("us")).unwrap();
        let (_, b) = plan(split.as_bytes(), "split.csv", &scenarios("us")).unwrap();
        prop_assert_eq!(&b[0]["outcome"], "planned");
        for (a, b) in a.iter().zip(&b) {
            for column in AMOUNTS {
                prop_assert!(close(number(a, column), number(b, column), 1e-12), "{} {:?} {:?}", column, a, b);
            }
        }
    }

    /// Twice the water, twice the product; and a volume given outright is that volume.
    #[test]
    fn amounts_grow_with_the_water(volume in 20.0..50_000.0_f64, times in 1.5..40.0_f64) {
        let list = format!(
            "well_id,well_type,water volume (L)\nA,bored,{volume}\nB,bored,{}\n", volume * times
        );
        let (_, rows) = plan(list.as_bytes(), "wells.csv", &scenarios("metric")).unwrap();
        prop_assert!(close(number(&rows[0], "standing_volume_l"), volume, 1e-12));
        for scenario in 0..2 {
            let (one, more) = (&rows[scenario], &rows[2 + scenario]);
            for column in LINEAR {
                prop_assert!(close(number(one, column) * times, number(more, column), 1e-12), "{}", column);
            }
        }
    }

    /// Against every combination that could be bought.
    #[test]
    fn packages_cover_at_least_cost(
        need in 0.01..120.0_f64,
        sizes in prop::collection::vec((1_u32..40, 1_u32..400, prop::option::of(0_u32..6)), 1..4),
        priced in any::<bool>(),
    ) {
        let packages: Vec<Package> = sizes
            .iter()
            .map(|(size, price, available)| Package {
                text: format!("{size} L"),
                amount: f64::from(*size),
                price: priced.then_some(f64::from(*price)),
                available: *available,
                supplier: None,
            })
            .collect();
        let left: Vec<Option<u64>> = packages.iter().map(|package| package.available.map(u64::from)).collect();
        let found = cover(need, &packages, &left);
        let amount = |counts: &[u64]| -> f64 { counts.iter().zip(&packages).map(|(count, package)| *count as f64 * package.amount).sum() };
        let cost = |counts: &[u64]| -> f64 { counts.iter().zip(&packages).map(|(count, package)| *count as f64 * package.price.unwrap_or(0.0)).sum() };
        prop_assert!(close(found.amount, amount(&found.counts), 1e-12));
        for (count, left) in found.counts.iter().zip(&left) {
            prop_assert!(left.is_none_or(|left| *count <= left));
        }
        // Every combination, each kind up to what would do alone.
        let most: Vec<u64> = packages
            .iter()
            .zip(&left)
            .map(|(package, left)| whole_packages(need, package.amount).min(left.unwrap_or(u64::MAX)))
            .collect();
        let mut every: Vec<Vec<u64>> = vec![Vec::new()];
        for most in &most {
            every = every
                .into_iter()
                .flat_map(|counts| (0..=*most).map(move |count| counts.iter().copied().chain([count]).collect()))
                .collect();
        }
        let enough: Vec<&Vec<u64>> = every.iter().filter(|counts| amount(counts) >= need).collect();
        if enough.is_empty() {
            let all: f64 = every.iter().map(|counts| amount(counts)).fold(0.0, f64::max);
            prop_assert!(close(found.short, need - all, 1e-9), "short {} of {}", found.short, need - all);
        } else {
            prop_assert!(found.short == 0.0 && found.amount >= need);
            for (at, count) in found.counts.iter().enumerate().filter(|(_, count)| **count > 0) {
                let mut fewer = found.counts.clone();
                fewer[at] = count - 1;
                // Without one package of any kind, the need is not met, or the combination would have cost less.
                prop_assert!(amount(&fewer) < need, "{:?} of {:?} for {}", found.counts, sizes, need);
            }
            if priced {
                let least = enough.iter().map(|counts| cost(counts)).fold(f64::INFINITY, f64::min);
                prop_assert!(close(found.cost.unwrap(), least, 1e-9), "{} beside {}", found.cost.unwrap(), least);
            } else {
                let least = enough.iter().map(|counts| amount(counts)).fold(f64::INFINITY, f64::min);
                prop_assert!(close(found.amount, least, 1e-9), "{} beside {}", found.amount, least);
                prop_assert_eq!(found.cost, None);
            }
        }
    }

    /// Whatever stands in the cells, each row is planned or held back with a reason, in every scenario.
    #[test]
    fn no_row_vanishes(cells in prop::collection::vec(messy_row(), 0..40)) {
        let mut list = "well_id,visit,well_type,depth (ft),water level (ft),casing diameter (in),ph,iron,discharge_route,Road\n".to_owned();
        for row in &cells {
            list += &row.join(",");
            list.push('\n');
        }
        let (run, rows) = plan(list.as_bytes(), "messy.csv", &scenarios("us")).unwrap();
        prop_assert_eq!(run.planned + run.held_back + run.excluded + run.other_rows.count(), run.read);
        prop_assert_eq!(rows.len() as u64, 2 * (run.read - run.other_rows.count()));
        let planned = rows.iter().filter(|row| row["outcome"] == "planned").count() as u64;
        prop_assert_eq!(planned, 2 * run.planned);
        for row in &rows {
            let is_planned = row["outcome"] == "planned";
            prop_assert_eq!(is_planned, row["reasons"].is_empty());
            for column in ["treated_volume_l", "chlorine_g", "product_kg", "measured_amount", "flush_volume_l"] {
                let value = number(row, column);
                prop_assert!(value.is_nan() != is_planned, "{}: {:?}", column, row);
                prop_assert!(!is_planned || value > 0.0 && value.is_finite(), "{}: {:?}", column, row);
            }
        }
        for scenario in 0..2 {
            let sums = run.totals.overall(scenario);
            prop_assert_eq!((sums.planned, sums.held_back), (run.planned, run.held_back));
            let listed: f64 = rows.iter().skip(scenario).step_by(2).map(|row| number(row, "chlorine_g")).filter(|grams| !grams.is_nan()).sum();
            prop_assert!(close(sums.chlorine_g, listed, 1e-12));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    /// Bytes of no meaning at all, as a list: findings or a refusal, never a stop.
    #[test]
    fn any_bytes_as_a_list(bytes in prop::collection::vec(any::<u8>(), 0..400), ending in "(csv|tsv|txt|xlsx|gz|parquet)") {
        let _ = plan(&bytes, &format!("bytes.{ending}"), &scenarios("us"));
    }

    /// Bytes behind a heading that is understood.
    #[test]
    fn any_bytes_under_a_heading(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let mut list = b"well_id,well_type,depth (ft),water level (ft),casing diameter (in)\n".to_vec();
        list.extend(&bytes);
        if let Ok((run, rows)) = plan(&list, "bytes.csv", &scenarios("us")) {
            let others = run.other_rows.count();
            prop_assert_eq!(run.planned + run.held_back + others, run.read);
            prop_assert_eq!(rows.len() as u64, 2 * (run.read - others));
        }
    }

    /// Any text as a scenario file.
    #[test]
    fn any_text_as_a_scenario_file(text in "\\PC{0,200}") {
        let _ = Campaign::parse(Path::new("plan.toml"), &text);
    }

    /// The demo's scenario file with a piece taken out, doubled or exchanged.
    #[test]
    fn a_scenario_file_that_somebody_edited(at in 0.0..1.0_f64, length in 0_usize..60, word in edited_word()) {
        let text = std::fs::read_to_string(crate::running::root().join("scenarios/demo.toml")).unwrap();
        let letters: Vec<char> = text.chars().collect();
        let start = (at * letters.len() as f64) as usize;
        let end = (start + length).min(letters.len());
        let edited: String = letters[..start].iter().copied().chain(word.chars()).chain(letters[end..].iter().copied()).collect();
        let folder = folder();
        let path = place(folder.path(), "one.csv", "well_id,well_type,depth (ft),water level (ft),casing diameter (in),region,depot\nA,dug,20,4,36,Tarrow,Mill\n");
        if let Ok(campaign) = Campaign::parse(Path::new("plan.toml"), &edited)
            && let Ok(scenarios) = campaign.select(&[])
            && let Ok(mut inventory) = Inventory::open(&[path], &campaign.rules)
            && let Ok(plan) = Plan::prepare(&campaign, scenarios, None, inventory.carried_columns())
        {
            let run = plan.run(&mut inventory, &Tables::none(), 100, &mut Silent).unwrap();
            prop_assert_eq!(run.read, 1);
        }
    }
}

fn edited_word() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        Just("\"".to_owned()),
        Just("[".to_owned()),
        Just("0".to_owned()),
        Just("-1e308".to_owned()),
        Just("nan".to_owned()),
        Just("\n[grid]\n".to_owned()),
        Just(" = { low = \"1 ft\" }".to_owned()),
        "\\PC{0,8}",
    ]
}

/// A row as people type it: mostly sound, often not.
fn messy_row() -> impl Strategy<Value = Vec<String>> {
    let id = prop_oneof![4 => "[A-D][0-9]{1,2}", 1 => Just(String::new())];
    let visit = prop_oneof![3 => Just(String::new()), 1 => "[1-3]"];
    let kind = prop_oneof!["(drilled|driven|bored|dug|spring_box)", "(Drilled|tube|spring|)"];
    let measure = || {
        prop_oneof![
            6 => (1.0..400.0_f64).prop_map(|value| format!("{value:.1}")),
            1 => Just(String::new()),
            1 => Just("unknown".to_owned()),
            1 => "-?[0-9]{1,6}( (ft|m|in|gpm|parsec))?",
            1 => "[ -~&&[^\",]]{0,10}",
        ]
    };
    let ph = prop_oneof![Just(String::new()), Just("7.2".to_owned()), Just("72".to_owned())];
    let iron = prop_oneof![Just(String::new()), Just("0.3".to_owned()), Just("<0.05".to_owned()), Just("5".to_owned())];
    let route = "(land|stream|septic|ditch|)";
    let road = "[ -~&&[^\",]]{0,6}";
    (id, visit, kind, measure(), measure(), measure(), ph, iron, route, road).prop_map(
        |(id, visit, kind, depth, level, diameter, ph, iron, route, road)| {
            vec![id, visit, kind, depth, level, diameter, ph, iron, route, road]
        },
    )
}
