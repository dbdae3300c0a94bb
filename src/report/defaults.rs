//! What was taken by default, said first, with what it would change: the product's age, plumbing, demand, allowance, water
//! temperature.
//!
//! The consequences are the kernel's own, for an example of each that a person can judge; nothing is computed a second way.

mod taken;

use crate::kernel::requirement::{Practice, Requirement};
use crate::kernel::{demand, dose};
use crate::parameter::PRACTICE;
use crate::quantity::format::number;
use crate::quantity::{kitchen, liters};
use crate::relation::Given;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;

use super::Matter;
use super::fitted::shortened_within;
use super::show::Shown;
pub(super) use taken::aged;
pub use taken::{Example, Grown, More, Taken, Treated, water_words};
use taken::{if_old, is_ageless, percent};

/// The sentence about a product without an age, up to what it would lose; with the share that would be left.
fn ageless(name: &str, product: &Product, stock: &StockOnTheDay, example: &Example) -> (String, Option<f64>) {
    let left = if_old(product, stock, example).map(|(_, left)| left);
    (age_says(name, left, example), left)
}

fn age_says(name: &str, left: Option<f64>, example: &Example) -> String {
    let none = format!("No age is given for {name}: the strength on its label is used, as if it were made today.");
    match left {
        None => format!("{none} There is no rule for how fast it loses strength: have it tested."),
        Some(left) => format!(
            "{none} At {} days and {} it would have lost {} % of its strength",
            number(example.age_days, 3),
            example.storage_words(),
            percent(1.0 - left)
        ),
    }
}

/// What was taken by default for one well, in sentences.
pub fn of_well(treated: &Treated<'_>, taken: &[Taken]) -> Vec<String> {
    taken.iter().map(|taken| sentence(treated, taken)).collect()
}

fn sentence(treated: &Treated<'_>, taken: &Taken) -> String {
    let Given { practice, product, need, .. } = treated.given;
    let example = Example::of(practice.system);
    let more = |more: &More| match more.grown() {
        Grown::Times(times) => format!("{times} times as much{}", instead(more, need)),
        Grown::Percent(percent) => format!("+{percent} %{}", instead(more, need)),
    };
    match taken {
        Taken::Age(None) => age_says(&product.name, None, &example),
        Taken::Age(Some(lost)) => {
            format!("{}: pour {}.", age_says(&product.name, Some(lost.left), &example), more(&lost.more))
        }
        Taken::Plumbing { thin, more: including } => format!(
            "No plumbing is given: {}. If the water also circulates through {} of pipes and tank, this amount gives {} mg/L there; \
             including them takes {}.",
            counted(practice),
            example.plumbing_words(),
            number(thin.milligrams_per_liter(), 2),
            more(including)
        ),
        Taken::Demand(with_iron) => format!(
            "Nothing was measured that uses up chlorine: {} mg/L is allowed for. {} mg/L of iron would take {}.",
            number(practice.demand_allowance.milligrams_per_liter(), 3),
            number(example.iron_mg_per_l, 3),
            more(with_iron)
        ),
        Taken::Allowance(other) => format!(
            "No allowance is given for the gravel pack and the rock: {} x the standing water is treated. {} x, which one agency \
             asks for (Alberta Agriculture, Agdex 716 A10), would take {}.",
            number(practice.volume_allowance, 3),
            number(example.allowance, 3),
            more(other)
        ),
        Taken::Temperature { ph, cold } => format!(
            "No water temperature is given: {} is taken for the pH after dosing. At {} it would be {} instead of {}.",
            water_words(practice),
            example.water_words(),
            number(*cold, 3),
            number(*ph, 3)
        ),
    }
}

/// ` (1 cup instead of 3/4 cup)`; nothing where the amount is the same to whoever measures it.
fn instead(more: &More, need: &Requirement) -> String {
    let other = more.instead.map(|(amount, unit)| kitchen::words(amount, unit));
    let this = || kitchen::words(need.measured_amount, need.measured_unit);
    other.map_or_else(String::new, |other| format!(" ({other} instead of {})", this()))
}

/// `none is included`, or how much is.
fn counted(practice: &Practice) -> String {
    let shown = Shown::of("L", practice.system);
    match liters(practice.plumbing_volume) {
        0.0 => "none is included".to_owned(),
        volume => format!("{} {} is included", number(shown.value(volume), 3), shown.symbol),
    }
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
    let example = Example::of(campaign.system);
    let mut said = Vec::new();
    let mut named: Vec<usize> = Vec::new();
    for case in &plan.cases {
        let product = &campaign.products[case.scenario.product];
        if !named.contains(&case.scenario.product) && is_ageless(product, &case.stock, case.scenario.age.is_some()) {
            named.push(case.scenario.product);
            let (says, left) = ageless(&shortened_within(&product.name, letters), product, &case.stock, &example);
            said.push(left.map_or(says.clone(), |left| format!("{says}: order +{} %.", percent(1.0 / left - 1.0))));
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
            let volume = example.plumbing();
            let each = dose::chlorine(dose::dose(practice.target, practice.demand_allowance), volume).grams();
            said.push(format!(
                "{} give no plumbing: none is included. {} of pipes and tank for each would take +{} % of chlorine.",
                of_planned(tally.without_plumbing),
                example.plumbing_words(),
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
                water_words(&practice)
            ));
        }
    }
    let scenarios: Vec<_> = plan.cases.iter().map(|case| case.scenario).collect();
    for (of_all, own) in campaign.overruled(&scenarios) {
        let title = PRACTICE.get(of_all.key).map_or(of_all.key, |parameter| parameter.title);
        said.push(format!(
            "The practice states {} for {}, and it holds nowhere: every scenario states its own, {}. Leave it out there if that of the \
             practice is meant.",
            of_all.label,
            title.to_lowercase(),
            own.label
        ));
    }
    if !left_to_practice.is_empty() {
        said.push(format!(
            "Not in the lists, so taken as the campaign states: {} of {} planned visits.",
            left_to_practice.join(", "),
            run.planned
        ));
    }
    said
}
