//! A visit in the words of the Crew sheet: amounts as people measure them, routes, agents and cautions in whole words; and what a
//! crew is told of a scenario's product.

use super::Matter;
use super::agents::acid_left;
use super::show::Shown;
use crate::caution::Caution;
use crate::engine::Case;
use crate::field::rules::UnitSystem;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::kernel::measure::{MeasureFor, measure_dilution, weigh};
use crate::kernel::neutralizer::Agent;
use crate::kernel::requirement::{Amount, Requirement, Stock};
use crate::kernel::strength::Chemical;
use crate::quantity::format::number;
use crate::quantity::{AgentMass, Time, Volume, kitchen};
use crate::visit::Visit;

/// More water than any bucket is held against: what is mixed beside the well is no part of its water.
const ANY_WELL: Volume =
    Volume { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: f64::INFINITY };

/// Says something of a visit.
pub(super) type Said = fn(&Visit, &Requirement, UnitSystem) -> String;

/// What is said of a visit under a scenario: a heading, the name of the cells in formulas, and the words.
pub(super) const SAID: [(&str, &str, Said); 9] = [
    ("Measure out, in words", "Said_measure", |_, need, _| measure(need)),
    ("Dilute in, in words", "Said_dilution", |_, need, system| dilution(need, system)),
    ("Contact time, in words", "Said_hold", |_, need, _| hold(need)),
    ("Neutralizer, in words", "Said_neutralizer", |_, need, system| agent(need, system)),
    ("Also on its card", "Said_card", |visit, need, _| on_the_card(visit, need)),
    ("Neutralizer, in full", "Said_in_full", |_, need, system| neutralizer(need, system)),
    ("Brush the walls with", "Said_brush", |_, need, system| wash(need, system)),
    ("Feed to the spring", "Said_feed", |_, need, system| feed(need, system)),
    ("Cautions, in words", "Said_cautions", |_, need, _| need.cautions.sentences()),
];

pub(super) fn measure(need: &Requirement) -> String {
    kitchen::words(need.measured_amount, need.measured_unit)
}

/// What else its card says, in a few words.
pub(super) fn on_the_card(visit: &Visit, need: &Requirement) -> String {
    let has_wash = need.wash.is_some_and(|wash| wash.solution.value > 0.0);
    let named = [
        (has_wash, "brush"),
        (need.feed.is_some(), "feed"),
        (need.emptyings.is_some(), "empty"),
        (need.neutralizer_instead.is_some(), "agent"),
        (need.route.is_none(), "where?"),
        (!visit.crew_flags().is_empty(), "flags"),
        (!visit.notes().is_empty() || !visit.not_understood().is_empty(), "notes"),
        (need.measure_for == MeasureFor::High, "high"),
    ];
    named.iter().filter(|(is_so, _)| *is_so).map(|(_, word)| *word).collect::<Vec<_>>().join(", ")
}

pub(super) fn dilution(need: &Requirement, system: UnitSystem) -> String {
    match measure_dilution(need.predilution, need.treated_volume, system) {
        Some(water) => kitchen::bucket(water.amount, water.unit),
        None => "not diluted".to_owned(),
    }
}

pub(super) fn wash(need: &Requirement, system: UnitSystem) -> String {
    match need.wash {
        Some(wash) if wash.solution.value > 0.0 => {
            let amount = kitchen::words(wash.amount, wash.unit);
            match measure_dilution(wash.solution, ANY_WELL, system) {
                Some(water) => format!("{amount} in {}", kitchen::bucket(water.amount, water.unit)),
                None => amount,
            }
        }
        _ => String::new(),
    }
}

pub(super) fn feed(need: &Requirement, system: UnitSystem) -> String {
    let amount = match need.feed.map(|feed| feed.per_hour) {
        Some(Amount::Liquid { volume, .. }) => shown(volume.liters(), "L", system),
        Some(Amount::Dry(mass)) => shown(mass.kilograms(), "kg", system),
        None => return String::new(),
    };
    format!("{amount} each hour of the contact time")
}

/// A number of a unit of the tables, in the unit that people of this system read.
fn shown(value: f64, symbol: &'static str, system: UnitSystem) -> String {
    let shown = Shown::of(symbol, system);
    format!("{} {}", number(shown.value(value), 3), shown.symbol)
}

pub(super) fn hours(time: Time) -> f64 {
    time.value / 3600.0
}

pub(super) fn hold(need: &Requirement) -> String {
    let said = number(hours(need.hold), 3);
    match need.hold_required {
        Some(required) if need.cautions.has(Caution::HoldTooShort) => {
            format!("{said}; a shorter time was stated, the rule requires {}", number(hours(required), 3))
        }
        Some(required) => format!("{said}; the rule requires {}", number(hours(required), 3)),
        None => said,
    }
}

/// Agent and amount in a few words.
pub(super) fn agent(need: &Requirement, system: UnitSystem) -> String {
    match need.neutralizer {
        None => "none".to_owned(),
        Some(agent) => weigh(need.neutralizer_mass.kilograms(), system).map_or("none needed".to_owned(), |weight| {
            let amount = kitchen::words(weight.amount, weight.unit);
            format!("{amount} of {}", agent.name().replace('_', " "))
        }),
    }
}

fn weighed(agent: Agent, mass: AgentMass, system: UnitSystem) -> Option<String> {
    weigh(mass.kilograms(), system)
        .map(|weight| format!("{} of {}", kitchen::words(weight.amount, weight.unit), agent.plain_name()))
}

/// Agent and amount, never a weight of nothing.
pub(super) fn neutralizer(need: &Requirement, system: UnitSystem) -> String {
    let amount = |agent, mass| weighed(agent, mass, system);
    let Some(agent) = need.neutralizer else {
        return "None included; keep flush water away from streams, ditches and drains.".to_owned();
    };
    let Some(said) = amount(agent, need.neutralizer_mass) else {
        return "None needed: the chlorine left is below the limit. Test it.".to_owned();
    };
    let other = need.neutralizer_instead.zip(need.neutralizer_instead_mass);
    let Some(acid) = acid_left(need) else { return said };
    match other.and_then(|(other, mass)| amount(other, mass)) {
        Some(other) => format!("{said}. It leaves this water at pH {acid}: better {other}."),
        None => format!("{said}. It leaves this water at pH {acid}, too acid to let go: ask first."),
    }
}

/// What the Crew sheet says above its rows of a scenario: the product, its strength as it is counted, its age, how it is poured and
/// for which side its amounts are measured.
pub(super) fn of_scenario(matter: &Matter<'_>, at: usize) -> String {
    let Some(case) = matter.plan.cases.get(at) else { return String::new() };
    let product = &matter.plan.campaign.products[case.scenario.product];
    let mut said = String::new();
    if is_gone(case) {
        said.push_str(
            "DO NOT TREAT BY THIS SHEET: by its age the product has lost most of its strength. Test it, or buy fresh. ",
        );
    }
    let stock = &case.stock;
    let left = number(stock.prepared.stock.share_of_label() * 100.0, 2);
    let label = format!("{} % {}", product.label.number, product.label.basis.name().replace('_', " "));
    let counted = match stock.prepared.stock {
        Stock::Liquid { used, .. } => {
            let grams = used.grams_per_liter();
            format!("{} g/L as Cl2 ({} % trade)", number(grams, 3), number(grams / 10.0, 3))
        }
        Stock::Dry { used, .. } => format!("{} % available chlorine by weight", number(used.ratio() * 100.0, 3)),
    };
    let days = number(stock.age.value / 86_400.0, 3);
    let stated = case.scenario.age.is_some() || product.age.is_some() || stock.age.value > 0.0;
    let age = match (stock.from_test, stated) {
        (true, _) => format!("{days} days since its strength was tested"),
        (false, true) => format!("{days} days old"),
        (false, false) => "taken as fresh, because no age is stated".to_owned(),
    };
    said.push_str(&format!(
        "Product: {}, label {label}, {age}; strength used {counted}, {left} % of the label. If yours is another product, strength or \
         age, these amounts are wrong: ask for another sheet. ",
        product.name
    ));
    if product.chemical == Chemical::ChlorinatedLime {
        said.push_str(
            "Bleaching powder: stir it into its water, let it settle, pour only the clear; the sludge stays out of the well. ",
        );
    }
    said.push_str(&measured_for(matter, at));
    said
}

/// Whether so little is left of a product that nothing should be treated with it.
pub(super) fn is_gone(case: &Case<'_>) -> bool {
    case.stock.prepared.share_left < STOCK_NEARLY_GONE.value
}

/// For which side the amounts of a scenario are measured.
fn measured_for(matter: &Matter<'_>, at: usize) -> String {
    let (mut high, mut all) = (0_usize, 0_usize);
    for need in matter.visits().iter().filter_map(|treated| treated.need(at)) {
        all += 1;
        high += usize::from(need.measure_for == MeasureFor::High);
    }
    match high {
        0 => "Measured for typical: with more water or weaker product than was planned with, a well gets less than the target \
              (Lowest dose, on the screen)."
            .to_owned(),
        high if high == all => {
            "Measured for high: the target is met even in the most water and with the weakest product.".to_owned()
        }
        high => format!(
            "Measured for high, where the target is met even in the most water and with the weakest product, at {high} of {all} \
             visits (\"high\" in the last printed column); for typical at the others, which get less than the target where there \
             is more water or weaker product than was planned with."
        ),
    }
}
