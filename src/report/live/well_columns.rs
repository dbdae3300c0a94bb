//! Columns of the Wells sheet: which of the tables' are formulas, and what stands beside those for formulas to count with.

use super::model::{Model, Row};
use crate::quantity::Reading;
use crate::relation::Operand;

/// Columns of the tables that are formulas here.
pub(super) const LIVE: [&str; 30] = [
    "treated_volume_l",
    "demand_mg_per_l",
    "dose_mg_per_l",
    "chlorine_g",
    "strength_label_g_per_l",
    "strength_used_g_per_l",
    "strength_label_g_per_kg",
    "strength_used_g_per_kg",
    "product_l",
    "product_kg",
    "product_low_l",
    "product_high_l",
    "product_low_kg",
    "product_high_kg",
    "measured_amount",
    "measured_dose_mg_per_l",
    "least_dose_mg_per_l",
    "chlorate_mg_per_l",
    "wall_wash_l",
    "feed_l_per_h",
    "feed_kg_per_h",
    "feed_l",
    "feed_kg",
    "overflow_l",
    "predilution_l",
    "emptyings",
    "flush_volume_l",
    "flush_rate_l_per_min",
    "flush_h",
    "neutralizer_kg",
];

/// What a row has or has not by its product's kind, or by how the well is treated. No input changes that: where there is nothing
/// there is no formula.
pub(super) const SETTLED: [&str; 26] = [
    "strength_label_g_per_l",
    "strength_used_g_per_l",
    "strength_label_g_per_kg",
    "strength_used_g_per_kg",
    "product_l",
    "product_low_l",
    "product_high_l",
    "product_low_kg",
    "product_high_kg",
    "chlorate_mg_per_l",
    "to_measure_l",
    "to_measure_kg",
    "measured_product_l",
    "measured_product_kg",
    "repeat_l",
    "repeat_kg",
    "loss_l",
    "loss_kg",
    "wall_wash_l",
    "feed_l_per_h",
    "feed_kg_per_h",
    "feed_l",
    "feed_kg",
    "overflow_l",
    "emptyings",
    "demand.measured",
];

/// What is nothing in a row without a mark of how the well is treated, and the mark. No input changes the mark, and every formula less
/// opens sooner.
pub(super) const MARKED: [(&str, &str); 6] = [
    ("wash_chlorine_g", "flag.brushed"),
    ("feed_chlorine_g", "flag.spring_fed"),
    ("chlorine_to_remove_g", "flag.neutralized"),
    ("neutralizer_kg", "flag.neutralized"),
    ("neutralizer_repeat_kg", "flag.neutralized"),
    ("neutralizer_loss_kg", "flag.neutralized"),
];

/// What a column beside those of the tables holds.
#[derive(Clone, Copy)]
pub(super) enum Beside {
    /// A number that says which: scenario, practice, depot, agent, planned or not.
    Key(fn(&Row<'_>, &Model<'_>) -> f64),
    /// A value of the plan.
    Value(Operand),
    /// What was measured of the demand.
    MeasuredDemand,
    /// A formula of the quantity's relation, which follows what is changed.
    Live(Operand),
    /// The measure that is used.
    Measure,
    /// Visits of the repeat round.
    Repeats,
}

const fn value(id: &'static str, reading: Reading) -> Beside {
    Beside::Value(Operand { id, reading })
}

const fn live(id: &'static str, reading: Reading) -> Beside {
    Beside::Live(Operand { id, reading })
}

/// Columns beside those of the tables: heading, name where other sheets add it up, and what it holds.
pub(super) const BESIDE: [(&str, &str, Beside); 42] = [
    ("Scenario no.", "Wells_scenario", Beside::Key(|row, _| row.case as f64 + 1.0)),
    (
        "Practice no.",
        "Wells_practice",
        Beside::Key(|row, _| row.treated.map_or(f64::NAN, |treated| treated.2 as f64 + 1.0)),
    ),
    ("Depot no.", "Wells_depot", Beside::Key(|row, _| row.depot as f64 + 1.0)),
    ("Planned: 1", "Wells_planned", Beside::Key(|row, _| f64::from(u8::from(row.treated.is_some())))),
    (
        "Agent no.",
        "Wells_agent",
        Beside::Key(|row, model| {
            let agent = row.treated.and_then(|treated| treated.1.neutralizer);
            let place = agent.and_then(|agent| model.agents.iter().position(|known| *known == agent));
            place.map_or(f64::NAN, |place| place as f64 + 1.0)
        }),
    ),
    ("Row no.", "Wells_row", Beside::Key(|row, _| row.number as f64 + 1.0)),
    ("Group no.", "Wells_group", Beside::Key(|row, _| row.group.map_or(f64::NAN, |group| group as f64 + 1.0))),
    ("Standing volume, low", "", value("standing_volume_l", Reading::Low)),
    ("Standing volume, high", "", value("standing_volume_l", Reading::High)),
    ("Wall, low", "", value("wall_area_m2", Reading::Low)),
    ("Wall", "", value("wall_area_m2", Reading::Mid)),
    ("Wall, high", "", value("wall_area_m2", Reading::High)),
    ("Plumbing by the list", "", value("field.plumbing_volume", Reading::Mid)),
    ("Pump rate", "", value("field.pump_rate", Reading::Mid)),
    ("Yield", "", value("field.well_yield", Reading::Mid)),
    ("Demand measured", "", Beside::MeasuredDemand),
    ("Closed spring: 1", "", value("flag.spring_closed", Reading::Mid)),
    ("Fed spring: 1", "", value("flag.spring_fed", Reading::Mid)),
    ("Walls brushed: 1", "", value("flag.brushed", Reading::Mid)),
    ("Emptied: 1", "", value("flag.emptied", Reading::Mid)),
    ("Neutralized: 1", "", value("flag.neutralized", Reading::Mid)),
    ("Measured for high: 1", "", value("flag.measured_for_high", Reading::Mid)),
    ("Agent per chlorine", "", value("agent_per_chlorine", Reading::Mid)),
    ("Treated volume, low", "", live("treated_volume_l", Reading::Low)),
    ("Treated volume, high", "", live("treated_volume_l", Reading::High)),
    ("Chlorine for the water", "", live("water_chlorine_g", Reading::Mid)),
    ("Chlorine for the walls", "", live("wash_chlorine_g", Reading::Mid)),
    ("Chlorine fed", "", live("feed_chlorine_g", Reading::Mid)),
    ("To measure, liquid", "", live("to_measure_l", Reading::Mid)),
    ("To measure, dry", "", live("to_measure_kg", Reading::Mid)),
    ("Measure no.", "", Beside::Measure),
    ("Measured, liquid", "", live("measured_product_l", Reading::Mid)),
    ("Measured, dry", "", live("measured_product_kg", Reading::Mid)),
    ("Chlorine after the contact time", "", live("residual_mg_per_l", Reading::Mid)),
    ("Chlorine to neutralize", "", live("chlorine_to_remove_g", Reading::Mid)),
    ("Repeat round, liquid", "Wells_repeat_l", live("repeat_l", Reading::Mid)),
    ("Repeat round, dry", "Wells_repeat_kg", live("repeat_kg", Reading::Mid)),
    ("Handling loss, liquid", "Wells_loss_l", live("loss_l", Reading::Mid)),
    ("Handling loss, dry", "Wells_loss_kg", live("loss_kg", Reading::Mid)),
    ("Neutralizer, repeat round", "Wells_neutralizer_repeat_kg", live("neutralizer_repeat_kg", Reading::Mid)),
    ("Neutralizer, handling loss", "Wells_neutralizer_loss_kg", live("neutralizer_loss_kg", Reading::Mid)),
    ("Repeat visits", "Wells_repeat_visits", Beside::Repeats),
];

/// Columns of the tables that other sheets add up or show, by their names in formulas.
pub(super) const ADDED: [(&str, &str); 19] = [
    ("treated_volume_l", "Wells_treated"),
    ("chlorine_g", "Wells_chlorine"),
    ("product_l", "Wells_product_l"),
    ("product_kg", "Wells_product_kg"),
    ("product_low_l", "Wells_low_l"),
    ("product_high_l", "Wells_high_l"),
    ("product_low_kg", "Wells_low_kg"),
    ("product_high_kg", "Wells_high_kg"),
    ("flush_volume_l", "Wells_flush"),
    ("flush_h", "Wells_hours"),
    ("neutralizer_kg", "Wells_neutralizer_kg"),
    ("measured_amount", "Wells_measured"),
    ("measured_unit", "Wells_measure_unit"),
    ("measured_dose_mg_per_l", "Wells_dose"),
    ("measured_for", "Wells_measured_for"),
    ("least_dose_mg_per_l", "Wells_least_dose"),
    ("predilution_l", "Wells_predilution"),
    ("emptyings", "Wells_emptyings"),
    ("neutralizer", "Wells_agent_name"),
];
