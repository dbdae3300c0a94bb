//! What sheets that are no workings refer to: cells of inputs, and names of what is added up.

use std::collections::HashMap;

use super::alerts::Open;
use super::crew::Crew;
use super::inputs::Inputs;
use super::model::Model;
use crate::document::formula::{Pieces, Place};
use crate::relation::parameter::PARAMETERS;

/// Inputs that Compare shows, by their parameter.
const SHOWN: [&str; 2] = ["practice.target_mg_per_l", "practice.hold_hours"];

/// What other sheets can follow.
pub(in crate::report) struct Follows {
    /// Whether wells are formulas; where they are values, so is whatever adds them up.
    pub wells: bool,
    /// What the Crew sheet follows the picked scenario by; nothing where it holds values of the first.
    pub crew: Option<Crew>,
    /// Needs of the first scenario that are not covered, or take more by the cards.
    pub uncovered: usize,
    inputs: HashMap<(usize, &'static str), Place>,
    liters: Option<String>,
    kilograms: Option<String>,
}

impl Follows {
    pub(super) fn of(model: &mut Model<'_>, inputs: Option<&Inputs>, told: bool) -> Self {
        let mut places = HashMap::new();
        for parameter in PARAMETERS.iter().filter(|parameter| SHOWN.contains(&parameter.id)) {
            for case in 0..model.matter.plan.cases.len() {
                if let Some((place, _)) = inputs.and_then(|inputs| inputs.decides(case, 0, parameter)) {
                    places.insert((case, parameter.id), place);
                }
            }
        }
        super::numbers::use_constant(model, "constant.grams_per_kilogram");
        let (liters, kilograms) = (model.shown("L").1, model.shown("kg").1);
        let crew = told.then(|| Crew { volume: model.shown("L").0.symbol, mass: model.shown("kg").0.symbol });
        let lines = model.matter.orders.lines.iter().enumerate();
        let open = Open::of(model, lines.filter(|(_, line)| line.scenario == 0));
        let uncovered = open.short + open.cards;
        Self { uncovered, wells: inputs.is_some(), crew, inputs: places, liters, kilograms }
    }

    /// The cell that decides a parameter of a scenario.
    pub fn input(&self, case: usize, parameter: &'static str) -> Option<Pieces> {
        self.inputs.get(&(case, parameter)).map(|place| Pieces::at(*place))
    }

    /// The sum of a column of the wells for the scenario with a number.
    pub fn of_wells(&self, name: &str, scenario: Pieces) -> Option<Pieces> {
        let parts = [Pieces::text(name), Pieces::text("Wells_scenario"), scenario];
        self.wells.then(|| Pieces::call("SUMIFS", parts))
    }

    /// Money for so much available chlorine: what the packages of the product cost over the chlorine they bring.
    pub fn cost_of_chlorine(&self, liquid: bool, scenario: Pieces) -> Pieces {
        let named = |factor: &Option<String>| factor.as_deref().map_or_else(String::new, |name| format!("*{name}"));
        let strength = if liquid { "Strength_of_liquid" } else { "Strength_of_dry" };
        let per = super::numbers::name_of("constant.grams_per_kilogram");
        // A dry product and its chlorine are weighed in the same unit; a liquid is counted by volume.
        let (volume, mass) = if liquid { (named(&self.liters), named(&self.kilograms)) } else { Default::default() };
        let cost = product("Needs_cost", scenario.clone());
        let chlorine = product("Needs_bought", scenario.clone())
            .then(format!("{volume}*INDEX({strength},"))
            .and(scenario.clone())
            .then(format!(")/({per}{mass})"));
        let unpriced = product("Needs_unpriced", scenario.clone()).then(">0");
        let none = product("Needs_bought", scenario).then("=0");
        Pieces::call(
            "IF",
            [Pieces::call("OR", [unpriced, none]), Pieces::text("\"\""), cost.then("/(").and(chlorine).then(")")],
        )
    }
}

/// The sum of a column of the needs for the scenario with a number.
pub(in crate::report) fn of_needs(name: &str, scenario: Pieces) -> Pieces {
    of_some_needs(name, scenario, &[])
}

/// The same of the product alone, which is the first place of every order.
pub(in crate::report) fn product(name: &str, scenario: Pieces) -> Pieces {
    of_some_needs(name, scenario, &["Needs_slot", "1"])
}

/// The same of the neutralizing agents together.
pub(in crate::report) fn agents(name: &str, scenario: Pieces) -> Pieces {
    of_some_needs(name, scenario, &["Needs_agent", "\">0\""])
}

fn of_some_needs(name: &str, scenario: Pieces, which: &[&str]) -> Pieces {
    let parts = [Pieces::text(name), Pieces::text("Needs_scenario"), scenario];
    Pieces::call("SUMIFS", parts.into_iter().chain(which.iter().copied().map(Pieces::text)))
}

/// First round, repeat round and handling loss of the product.
pub(in crate::report) fn product_in_all(scenario: &Pieces) -> Pieces {
    let of = |name| product(name, scenario.clone());
    of("Needs_first").then("+").and(of("Needs_repeat")).then("+").and(of("Needs_loss"))
}

/// A sum of money, empty where something has no price.
pub(in crate::report) fn priced(cost: Pieces, unpriced: Pieces) -> Pieces {
    Pieces::call("IF", [unpriced.then(">0"), Pieces::text("\"\""), cost])
}
