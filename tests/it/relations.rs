//! Relations against the kernel: every quantity's relation, evaluated from its operands, is what the typed functions compute,
//! for the wells of the demo, for published examples, and for random wells; and the units of its operands give its own.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use aftercrest::checks::{Identities, Verdict, admit};
use aftercrest::engine::Plan;
use aftercrest::field::{DischargeRoute, WellType};
use aftercrest::hazard::Hazards;
use aftercrest::inventory::Inventory;
use aftercrest::kernel::EQUATIONS;
use aftercrest::kernel::requirement::Practice;
use aftercrest::ledger::{COLUMNS, Get};
use aftercrest::quantity::basis::liters_per_minute_of;
use aftercrest::quantity::{Reading, liters_of, meters};
use aftercrest::relation::units::{Units, units};
use aftercrest::relation::{Given, How, Operand, Operands, describe, entries, entry, varies};
use aftercrest::scenario::Campaign;
use aftercrest::scenario::product::Product;
use aftercrest::scenario::stock::{StockOnTheDay, stock_on_the_day};
use aftercrest::visit::Need;
use aftercrest::well::{Interval, Record, StandingWater, WaterQuality, Well};

use crate::published::{si, table};

/// How far a relation may be from the kernel: rounding of a few operations.
const NEAR: f64 = 1e-12;

/// Evaluates every relation for one visit, and counts what had a value.
fn holds(given: &Given<'_>, place: &str, counts: &mut BTreeMap<&'static str, usize>) {
    for entry in entries() {
        let Some(relation) = entry.relation() else { continue };
        for reading in [Reading::Low, Reading::Mid, Reading::High] {
            if reading != Reading::Mid && !varies(entry.id) {
                continue;
            }
            let asked = if reading == Reading::Mid { relation.clone() } else { relation.clone().at(reading, &varies) };
            let ours = asked.evaluate(given);
            let theirs = given.value(Operand { id: entry.id, reading }, None);
            let near = ours == theirs || (ours.is_nan() && theirs.is_nan());
            let near = near || (ours - theirs).abs() <= NEAR * ours.abs().max(theirs.abs());
            assert!(near, "{place}: {} {reading:?} is {ours} by its relation, {theirs} by the kernel", entry.id);
            if !theirs.is_nan() && theirs != 0.0 {
                *counts.entry(entry.id).or_default() += 1;
            }
        }
        // The ledger's own figure, where a quantity on the way has the same id.
        if let Some(column) = COLUMNS.iter().find(|column| column.id == entry.id) {
            let theirs = match column.get {
                Get::NeedNumber(get) => get(given.need),
                _ => continue,
            };
            let ours = relation.evaluate(given);
            let near = (ours.is_nan() && theirs.is_nan()) || (ours - theirs).abs() <= NEAR * theirs.abs();
            assert!(near, "{place}: {} is {ours} by its relation, {theirs} in the table", entry.id);
        }
    }
}

fn asked(
    well: &Well,
    practice: &Practice,
    product: &Product,
    stock: &StockOnTheDay,
    place: &str,
    counts: &mut BTreeMap<&'static str, usize>,
) {
    let need = Need::of(well, practice, stock.readings()).unwrap();
    holds(&Given { well, practice, product, stock, need: &need }, place, counts);
}

fn at(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// Every well of the demo that the checks let through, with its plan.
pub(crate) fn wells_of_the_demo(mut each: impl FnMut(&Plan<'_>, &Well)) {
    let campaign = Campaign::read(&at("scenarios/demo.toml")).unwrap();
    let lists = [at("fixtures/demo/harrowfen-county.xlsx"), at("fixtures/demo/quillmoor-county.csv")];
    let mut inventory = Inventory::open(&lists, &campaign.rules).unwrap();
    let plan = Plan::prepare(&campaign, campaign.select(&[]).unwrap(), None, inventory.carried_columns()).unwrap();
    let mut identities = Identities::new(&campaign.rules);
    while let Some(batch) = inventory.next_batch(4096).unwrap() {
        let mut drafts = batch.drafts();
        identities.check(&mut drafts);
        for draft in drafts {
            if let Verdict::Admitted { well, .. } = admit(draft, &campaign.rules) {
                each(&plan, &well);
            }
        }
    }
}

#[test]
fn relations_give_what_the_kernel_gives_for_every_row_of_the_demo() {
    let (mut wells, mut counts) = (0, BTreeMap::new());
    wells_of_the_demo(|plan, well| {
        wells += 1;
        for case in &plan.cases {
            let (practice, _) = plan.practice_for(case, well).unwrap();
            let product = &plan.campaign.products[case.scenario.product];
            let place = format!("well {} in {}", well.id, case.scenario.name);
            asked(well, &practice, product, &case.stock, &place, &mut counts);
        }
    });
    assert!(wells >= 224, "{wells}");
    // What the demo leaves untouched is tried with random wells.
    let untouched: Vec<&str> = entries()
        .filter(|entry| matches!(entry.how, How::Closed(_)) && !counts.contains_key(entry.id))
        .map(|entry| entry.id)
        .collect();
    assert_eq!(untouched, ["dose_if_spread_mg_per_l"], "the demo gives these no value");
}

/// A well with nothing but water.
fn record(water: StandingWater) -> Record {
    Record {
        id: "W".into(),
        visit: "1".into(),
        region: None,
        depot: None,
        well_type: WellType::Drilled,
        latitude: None,
        longitude: None,
        stick_up: None,
        ground_elevation: None,
        casing_outside_diameter: None,
        wall_thickness: None,
        total_depth: None,
        static_water_level: None,
        casing_diameter: None,
        casing_depth: None,
        open_hole_diameter: None,
        casing_material: None,
        standing_water: water,
        standing_water_range: None,
        plumbing_volume: None,
        pump_rate: None,
        well_yield: None,
        water: WaterQuality::default(),
        discharge_route: None,
        flooded: None,
        users_served: None,
        seawater: None,
        flows: false,
        status: None,
        notes: None,
        not_understood: None,
        hazards: Hazards::default(),
        assumed: Vec::new(),
        carried: Vec::new(),
    }
}

/// One product, as a scenario file describes it, on the day of use.
fn product(units: &str, strength: &str, chemical: &str, more: &str) -> (Campaign, StockOnTheDay) {
    let text = format!(
        "[campaign]\nunits = \"{units}\"\n[[product]]\nname = \"p\"\nchemical = \"{chemical}\"\nstrength = {{ {strength} }}\n{more}\n"
    );
    let campaign = Campaign::parse(Path::new("relations.toml"), &text).unwrap();
    let product = &campaign.products[0];
    let stock = stock_on_the_day(product, None, None, None).unwrap();
    (campaign, stock)
}

#[test]
fn relations_give_what_the_kernel_gives_for_published_examples() {
    let mut counts = BTreeMap::new();
    let mut tried = 0;
    for row in table("dose_cases.csv") {
        let number = |column: &str| row[column].parse::<f64>().ok();
        let water = match (number("casing_diameter"), number("water_column"), number("water_volume")) {
            (Some(diameter), Some(column), _) => StandingWater::Column {
                height: meters(si(column, &row["column_unit"])),
                diameter: meters(si(diameter, &row["diameter_unit"])),
            },
            (_, _, Some(volume)) => {
                StandingWater::Volume { volume: liters_of(1000.0 * si(volume, &row["volume_unit"])) }
            }
            _ => continue,
        };
        let percent = number("strength_pct").unwrap_or(12.5);
        let (campaign, stock) = if row["product"] == "cahypo" || percent > 25.0 {
            product(
                "us",
                &format!("percent = {percent}, basis = \"weight_available_chlorine\""),
                "calcium_hypochlorite",
                "",
            )
        } else {
            product("us", &format!("percent = {percent}, basis = \"trade\""), "sodium_hypochlorite", "")
        };
        let mut practice = campaign.practice_of(&campaign.scenarios[0], 0);
        if let Some(target) = number("target_mg_l") {
            practice.target = aftercrest::quantity::ChlorineConcentration::from_milligrams_per_liter(target);
        }
        let well = Well::prove(record(water)).unwrap();
        asked(&well, &practice, &campaign.products[0], &stock, &row["id"], &mut counts);
        tried += 1;
    }
    assert!(tried >= 230, "{tried}");
}

/// Numbers that look random and are the same every time.
struct Dice(u64);

impl Dice {
    fn share(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least * (most / least).powf(self.share())
    }

    fn maybe(&mut self, least: f64, most: f64) -> Option<f64> {
        (self.share() < 0.6).then(|| self.between(least, most))
    }

    fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[((self.share() * of.len() as f64) as usize).min(of.len() - 1)]
    }

    fn water(&mut self) -> StandingWater {
        let depth = self.between(2.0, 300.0);
        match self.pick(&[0, 1, 2, 3]) {
            0 => StandingWater::Volume { volume: liters_of(self.between(5.0, 50_000.0)) },
            1 => StandingWater::Column { height: meters(depth), diameter: meters(self.between(0.03, 2.0)) },
            cut => {
                let level = if self.share() < 0.1 { -1.0 } else { depth * self.share() * 0.95 };
                let bottom = meters(depth);
                let middle = meters(depth * if cut == 2 { 1.0 } else { 0.1 + 0.8 * self.share() });
                let mut intervals = vec![Interval { top: meters(0.0), bottom: middle, diameter: meters(0.15) }];
                if middle < bottom {
                    intervals.push(Interval { top: middle, bottom, diameter: meters(self.between(0.05, 0.4)) });
                }
                StandingWater::Bore { water_level: meters(level), bottom, intervals }
            }
        }
    }
}

#[test]
fn relations_give_what_the_kernel_gives_for_random_wells() {
    const PRACTICES: [&str; 6] = [
        "target_mg_per_l = 100",
        "measure_for = \"high\"\nflush = { volumes = 3 }\nresidual_decay_per_hour = 0.02\nrepeat_share = 0.25\nhandling_loss = 0.07",
        "least_volume = \"120 L\"\nleast_product = { liquid = \"2 L\", dry = \"500 g\" }\nflowing_spring = \"feed\"\nflush_rate = \"20 L/min\"",
        "flowing_spring = \"isolated\"\nspring_rise = 0.4\nresidual_after_hold_mg_per_l = 30\nflush = \"empty_and_refill\"",
        "demand_factors = \"practice\"\nplumbing_volume = \"90 L\"\nvolume_allowance = 1.5\ndischarge = { neutralizer = \"sodium_bisulfite\", excess = 0.3 }",
        "demand_mg_per_l = 4\nflush = { until_mg_per_l = 0.3, volumes = 4 }\ndischarge = { neutralizer = \"sodium_thiosulfate\", limit_mg_per_l = 0.1 }",
    ];
    const LIQUID: [(&str, &str); 5] = [
        ("percent = 12.5, basis = \"trade\"", "age_days = 40\nstorage = \"25 C\""),
        ("percent = 6, basis = \"weight_naocl\"", "caustic_percent = 0.1"),
        ("percent = 9.5, basis = \"weight_available_chlorine\"", "age_days = 200\nstorage = \"10 C\""),
        ("value = 118, basis = \"grams_per_liter\"", ""),
        ("percent = 12.5, basis = \"trade\"", "measured_strength = { value = 97, basis = \"grams_per_liter\" }"),
    ];
    const DRY: [(&str, &str, &str); 3] = [
        ("percent = 65, basis = \"weight_available_chlorine\"", "calcium_hypochlorite", "bulk_density = \"0.8 kg/L\""),
        (
            "percent = 70, basis = \"weight_available_chlorine\"",
            "calcium_hypochlorite",
            "age_days = 300\nstorage = \"20 C\"",
        ),
        ("percent = 25, basis = \"weight_available_chlorine\"", "chlorinated_lime", ""),
    ];
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    let mut counts = BTreeMap::new();
    let liquids = LIQUID.iter().map(|(strength, more)| (*strength, "sodium_hypochlorite", *more));
    for (strength, chemical, more) in liquids.chain(DRY) {
        for units in ["us", "metric", "imperial"] {
            let (campaign, stock) = product(units, strength, chemical, more);
            for practice in PRACTICES {
                let text = format!(
                    "[campaign]\nunits = \"{units}\"\n[practice]\n{practice}\n[[scenario]]\nname = \"one\"\nproduct = \"bleach 6\"\n"
                );
                let other = Campaign::parse(Path::new("practice.toml"), &text).unwrap();
                let practice = other.practice_of(&other.scenarios[0], 0);
                for at in 0..40 {
                    let mut well = record(dice.water());
                    if dice.share() < 0.4 {
                        well.standing_water_range = Some(Box::new((dice.water(), dice.water())));
                    }
                    well.well_type =
                        dice.pick(&[WellType::Drilled, WellType::Driven, WellType::Dug, WellType::SpringBox]);
                    well.plumbing_volume = dice.maybe(20.0, 800.0).map(liters_of);
                    well.pump_rate = dice.maybe(2.0, 300.0).map(liters_per_minute_of);
                    well.well_yield = dice.maybe(0.5, 200.0).map(liters_per_minute_of);
                    well.seawater = (dice.share() < 0.1).then_some(true);
                    well.discharge_route = (dice.share() < 0.8).then(|| dice.pick(&DischargeRoute::ALL));
                    well.water = WaterQuality {
                        ph: dice.maybe(5.0, 9.5),
                        alkalinity_mg_per_l: dice.maybe(10.0, 400.0),
                        iron_mg_per_l: dice.maybe(0.01, 20.0),
                        sulfide_mg_per_l: dice.maybe(0.01, 5.0),
                        organic_carbon_mg_per_l: dice.maybe(0.1, 20.0),
                        ..WaterQuality::default()
                    };
                    let well = Well::prove(well).unwrap();
                    asked(
                        &well,
                        &practice,
                        &campaign.products[0],
                        &stock,
                        &format!("{strength} {units} {at}"),
                        &mut counts,
                    );
                }
            }
        }
    }
    let untouched: Vec<&str> = entries()
        .filter(|entry| matches!(entry.how, How::Closed(_)) && !counts.contains_key(entry.id))
        .map(|entry| entry.id)
        .collect();
    assert_eq!(untouched, ["neutralizer_instead_kg"; 0], "random wells give these no value");
}

#[test]
fn every_number_of_the_tables_has_a_relation_or_says_that_it_has_none() {
    let known: BTreeSet<&str> = EQUATIONS.iter().map(|equation| equation.id).collect();
    for column in COLUMNS {
        if matches!(column.get, Get::NeedNumber(_) | Get::CaseNumber(_)) {
            assert!(entry(column.id).is_some(), "{} has no relation and does not say why", column.id);
        }
    }
    let mut ids = BTreeSet::new();
    for entry in entries() {
        assert!(ids.insert(entry.id), "{} stands there twice", entry.id);
        assert!(describe(entry.id).is_some(), "{} is neither a column nor a quantity on the way", entry.id);
        assert!(entry.equation.is_empty() || known.contains(entry.equation), "{}: no {}", entry.id, entry.equation);
        match entry.how {
            How::Closed(relation) => {
                for operand in relation().operands() {
                    assert!(describe(operand.id).is_some(), "{}: no operand {}", entry.id, operand.id);
                }
            }
            How::Solved(how) | How::Stated(how) => assert!(how.len() > 20, "{} does not say how", entry.id),
        }
    }
}

#[test]
fn the_units_of_the_operands_give_the_unit_of_the_result() {
    let unit_of = |operand: Operand| describe(operand.id).map(|described| described.unit.to_owned());
    for entry in entries() {
        let Some(relation) = entry.relation() else { continue };
        let found = units(&relation, &unit_of).unwrap_or_else(|why| panic!("{}: {why}", entry.id));
        let own = Units::of(describe(entry.id).unwrap().unit);
        assert_eq!(found, Some(own), "{}", entry.id);
    }
    // The check must see a factor that is missing.
    let dose = entry("chlorine_g").unwrap().relation().unwrap();
    let blind = |operand: Operand| match operand.id {
        "feed_chlorine_g" => Some("mg".to_owned()),
        _ => unit_of(operand),
    };
    assert!(units(&dose, &blind).is_err());
}
