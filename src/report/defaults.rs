//! What was taken by default, said first, with what it would change: the product's age, plumbing, demand, allowance, water
//! temperature.
//!
//! The consequences are the kernel's own, for an example of each that a person can judge; nothing is computed a second way.

use crate::field::rules::UnitSystem;
use crate::kernel::requirement::{Practice, Requirement, requirement};
use crate::kernel::{demand, dose};
use crate::quantity::basis::{celsius, celsius_of, days_of};
use crate::quantity::format::number;
use crate::quantity::unit;
use crate::quantity::{ThermodynamicTemperature, Volume, kitchen, liters};
use crate::scenario::product::{Age, Counted, Product, Storage, StorageLeg};
use crate::scenario::stock::{StockOnTheDay, stock_on_the_day};
use crate::well::Well;

use super::Matter;
use super::fitted::shortened_within;
use super::show::Shown;

/// Examples to judge a default by; not advice.
struct Example {
    /// Age of a product.
    age_days: f64,
    /// Its storage, in the unit that people read.
    storage: (f64, &'static str),
    /// Plumbing of a house with a pressure tank.
    plumbing: (f64, &'static str),
    /// Iron in the water, mg/L.
    iron_mg_per_l: f64,
    /// Treated over standing volume: twice the casing's, as Alberta Agriculture, Water Wells, Agdex 716 A10, p. 50, asks.
    allowance: f64,
    /// Cold groundwater, in the unit that people read.
    water: (f64, &'static str),
}

const fn example(system: UnitSystem) -> Example {
    let (storage, plumbing, water) = match system {
        UnitSystem::Us => ((75.0, "F"), (80.0, "US gal"), (40.0, "F")),
        UnitSystem::Imperial => ((25.0, "C"), (65.0, "imp gal"), (5.0, "C")),
        UnitSystem::Metric => ((25.0, "C"), (300.0, "L"), (5.0, "C")),
    };
    Example { age_days: 60.0, storage, plumbing, iron_mg_per_l: 5.0, allowance: 2.0, water }
}

fn si((value, symbol): (f64, &'static str)) -> f64 {
    unit::by_symbol(symbol).map_or(f64::NAN, |unit| unit.to_si(value))
}

fn words((value, symbol): (f64, &'static str)) -> String {
    match symbol {
        "F" | "C" => format!("{} °{symbol}", number(value, 3)),
        _ => format!("{} {symbol}", number(value, 3)),
    }
}

fn percent(share: f64) -> String {
    number(share * 100.0, 2)
}

/// The same product so many days old, stored at one temperature; `None` where no law of aging holds.
pub(super) fn aged(product: &Product, days: f64, temperature: ThermodynamicTemperature) -> Option<StockOnTheDay> {
    let age = Age { counted: Counted::Time(days_of(days)), spot: None };
    let storage = Storage { legs: vec![StorageLeg { time: None, temperature }] };
    stock_on_the_day(product, Some(&age), Some(&storage), None).ok()
}

/// Whether a product's strength is that of its label because nobody gave an age.
fn is_ageless(product: &Product, stock: &StockOnTheDay, scenario_age: Option<&Age>) -> bool {
    product.age.is_none() && product.measured.is_none() && scenario_age.is_none() && stock.age.value <= 0.0
}

/// The sentence about a product without an age, up to what it would lose.
fn ageless(
    name: &str,
    product: &Product,
    stock: &StockOnTheDay,
    example: &Example,
) -> (String, Option<(StockOnTheDay, f64)>) {
    let none = format!("No age is given for {name}: the strength on its label is used, as if it were made today.");
    let mut temperature = celsius_of(0.0);
    temperature.value = si(example.storage);
    let Some(old) = aged(product, example.age_days, temperature) else { return (none, None) };
    let left = old.prepared.stock.strength_used() / stock.prepared.stock.strength_used();
    if left >= 1.0 || left.is_nan() {
        return (format!("{none} There is no rule for how fast it loses strength: have it tested."), None);
    }
    let lost = format!(
        "{none} At {} days and {} it would have lost {} % of its strength",
        number(example.age_days, 3),
        words(example.storage),
        percent(1.0 - left)
    );
    (lost, Some((old, left)))
}

/// What was taken by default for one well; `stated` says whether anybody has given a key of the practice.
pub fn of_well(
    well: &Well,
    practice: &Practice,
    product: &Product,
    stock: &StockOnTheDay,
    need: &Requirement,
    stated: &dyn Fn(&str) -> bool,
) -> Vec<String> {
    let example = example(practice.system);
    let mut said = Vec::new();
    let amount = |need: &Requirement| kitchen::words(need.measured_amount, need.measured_unit);
    // Of what is measured out for the water, as the amounts beside it are.
    let in_water = |need: &Requirement| dose::chlorine(need.dose, need.treated_volume).grams();
    let instead = |other: &Requirement| match (amount(other), amount(need)) {
        (other, this) if other == this => String::new(),
        (other, this) => format!(" ({other} instead of {this})"),
    };
    let more = |other: &Requirement| {
        let times = in_water(other) / in_water(need);
        // Beyond this a percent says less than how many times.
        match times > 5.0 {
            true => format!("{} times as much{}", number(times, 2), instead(other)),
            false => format!("+{} %{}", percent(times - 1.0), instead(other)),
        }
    };
    if is_ageless(product, stock, None) {
        let (mut says, old) = ageless(&product.name, product, stock, &example);
        if let Some((old, left)) = old {
            let other = requirement(well, practice, &old.prepared);
            let other = other.as_ref().map_or_else(String::new, instead);
            says = format!("{says}: pour +{} %{other}.", percent(1.0 / left - 1.0));
        }
        said.push(says);
    }
    if well.plumbing_volume.is_none() && !stated("plumbing_volume") {
        let mut with = practice.clone();
        with.plumbing_volume = Volume { value: si(example.plumbing), ..Volume::default() };
        if let Some(other) = requirement(well, &with, &stock.prepared) {
            let poured = dose::chlorine(need.measured_dose, need.treated_volume);
            let thin = dose::dose_given(poured, other.treated_volume).milligrams_per_liter();
            said.push(format!(
                "No plumbing is given: {}. If the water also circulates through {} of pipes and tank, this amount gives {} \
                 mg/L there; including them takes {}.",
                counted(practice),
                words(example.plumbing),
                number(thin, 2),
                more(&other)
            ));
        }
    }
    if demand::least_demand(&well.water).is_none() && !stated("demand_mg_per_l") {
        let mut record = (**well).clone();
        record.water.iron_mg_per_l = Some(example.iron_mg_per_l);
        let other = Well::prove(record).ok().and_then(|iron| requirement(&iron, practice, &stock.prepared));
        if let Some(other) = other {
            said.push(format!(
                "Nothing was measured that uses up chlorine: {} mg/L is allowed for. {} mg/L of iron would take {}.",
                number(practice.demand_allowance.milligrams_per_liter(), 3),
                number(example.iron_mg_per_l, 3),
                more(&other)
            ));
        }
    }
    if !stated("volume_allowance") {
        let mut with = practice.clone();
        with.volume_allowance = example.allowance;
        if let Some(other) = requirement(well, &with, &stock.prepared) {
            said.push(format!(
                "No allowance is given for the gravel pack and the rock: {} x the standing water is treated. {} x, which one \
                 agency asks for (Alberta Agriculture, Agdex 716 A10), would take {}.",
                number(practice.volume_allowance, 3),
                number(example.allowance, 3),
                more(&other)
            ));
        }
    }
    if let (Some(ph), None, false) = (need.ph_after, well.water.temperature, stated("water_temperature")) {
        let mut with = practice.clone();
        with.water_temperature.value = si(example.water);
        if let Some(cold) = requirement(well, &with, &stock.prepared).and_then(|other| other.ph_after) {
            said.push(format!(
                "No water temperature is given: {} is taken for the pH after dosing. At {} it would be {} instead of {}.",
                temperature(practice),
                words(example.water),
                number(cold, 3),
                number(ph, 3)
            ));
        }
    }
    said
}

/// `none is counted`, or how much is.
fn counted(practice: &Practice) -> String {
    let shown = Shown::of("L", practice.system);
    match liters(practice.plumbing_volume) {
        0.0 => "none is included".to_owned(),
        volume => format!("{} {} is included", number(shown.value(volume), 3), shown.symbol),
    }
}

/// The practice's water temperature as people read it.
fn temperature(practice: &Practice) -> String {
    let degrees = celsius(practice.water_temperature);
    let symbol = if practice.system == UnitSystem::Us { "F" } else { "C" };
    let shown = unit::by_symbol(symbol).zip(unit::by_symbol("C")).map(|(to, from)| to.from_si(from.to_si(degrees)));
    words((shown.unwrap_or(degrees), symbol))
}

/// What was taken by default in a whole run, the first scenario standing for all but the age; then what the scenario file
/// says where the lists say nothing.
pub fn of_run(matter: &Matter<'_>) -> Vec<String> {
    in_brief(matter, usize::MAX)
}

/// The same with no name longer than so many letters.
pub fn in_brief(matter: &Matter<'_>, letters: usize) -> Vec<String> {
    let (plan, run) = (matter.plan, matter.run);
    let Some(first) = plan.cases.first() else { return Vec::new() };
    let campaign = plan.campaign;
    let example = example(campaign.system);
    let mut said = Vec::new();
    let mut named: Vec<usize> = Vec::new();
    for case in &plan.cases {
        let product = &campaign.products[case.scenario.product];
        if !named.contains(&case.scenario.product) && is_ageless(product, &case.stock, case.scenario.age.as_ref()) {
            named.push(case.scenario.product);
            let (says, old) = ageless(&shortened_within(&product.name, letters), product, &case.stock, &example);
            said.push(old.map_or(says.clone(), |(_, left)| format!("{says}: order +{} %.", percent(1.0 / left - 1.0))));
        }
    }
    let practice = campaign.practice_of(first.scenario, 0);
    let stated = |key: &str| {
        let overrides = campaign.overrides.iter().flat_map(|rule| &rule.settings);
        campaign.practice.iter().chain(&first.scenario.settings).chain(overrides).any(|setting| setting.key == key)
    };
    let sums = run.totals.overall(0);
    let share = |more: f64| percent(more / sums.chlorine_g);
    let of_planned = |count: u64| format!("{count} of {} planned visits", run.planned);
    let tally = &run.tally;
    let mut left_to_practice = Vec::new();
    if tally.without_plumbing > 0 {
        if stated("plumbing_volume") {
            left_to_practice.push(format!("plumbing for {}", tally.without_plumbing));
        } else {
            let volume = Volume { value: si(example.plumbing), ..Volume::default() };
            let each = dose::chlorine(dose::dose(practice.target, practice.demand_allowance), volume).grams();
            said.push(format!(
                "{} give no plumbing: none is included. {} of pipes and tank for each would take +{} % of chlorine.",
                of_planned(tally.without_plumbing),
                words(example.plumbing),
                share(each * tally.without_plumbing as f64)
            ));
        }
    }
    if tally.without_demand > 0 {
        if stated("demand_mg_per_l") {
            left_to_practice.push(format!("anything that uses up chlorine for {}", tally.without_demand));
        } else {
            let iron = crate::well::WaterQuality { iron_mg_per_l: Some(example.iron_mg_per_l), ..Default::default() };
            let taken = demand::demand(&iron, practice.demand_factors)
                .map_or(f64::NAN, |demand| demand.milligrams_per_liter() / practice.target.milligrams_per_liter());
            said.push(format!(
                "{} have nothing measured that uses up chlorine: none is allowed for. {} mg/L of iron would take +{} % at each.",
                of_planned(tally.without_demand),
                number(example.iron_mg_per_l, 3),
                percent(taken)
            ));
        }
    }
    if !stated("volume_allowance") && run.planned > 0 {
        said.push(format!(
            "No allowance is given for the gravel pack and the rock: {} x the standing water is treated. {} x, which one agency \
             asks for (Alberta Agriculture, Agdex 716 A10), would take up to +{} %.",
            number(practice.volume_allowance, 3),
            number(example.allowance, 3),
            percent(example.allowance / practice.volume_allowance - 1.0)
        ));
    }
    if tally.without_temperature > 0 {
        if stated("water_temperature") {
            left_to_practice.push(format!("water temperature for {}", tally.without_temperature));
        } else {
            said.push(format!(
                "{} give no water temperature: {} is taken for the pH after dosing.",
                of_planned(tally.without_temperature),
                temperature(&practice)
            ));
        }
    }
    if !left_to_practice.is_empty() {
        said.push(format!(
            "Not in the lists, so taken from the scenario file: {} of {} planned visits.",
            left_to_practice.join(", "),
            run.planned
        ));
    }
    said
}
