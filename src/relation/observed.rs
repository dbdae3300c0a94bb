//! What the lists and the product give, as operands: fields, strengths, and flags that are one or zero.

use super::given::Given;
use crate::kernel::emptying::FlushMethod;
use crate::kernel::moving;
use crate::kernel::requirement::Stock;
use crate::kernel::strength::{StrengthBasis, dry_strength, liquid_strength};
use crate::quantity::basis::{liters, liters_per_minute};
use crate::quantity::{Reading, VolumeRate};
use crate::well::StandingWater;

/// An operand whose value is read from a visit.
#[derive(Debug, Clone, Copy)]
pub struct Seen {
    /// Id by which relations name it: `field.`, `product.`, `flag.`, or the bare id of a quantity on the way.
    pub id: &'static str,
    /// What people read in its place in a working or a formula.
    pub title: &'static str,
    /// Its unit; empty for pure numbers and flags.
    pub unit: &'static str,
    /// Its value in that unit, in a reading.
    pub get: fn(&Given<'_>, Reading) -> f64,
}

pub(super) const fn seen(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    get: fn(&Given<'_>, Reading) -> f64,
) -> Seen {
    Seen { id, title, unit, get }
}

fn optional(value: Option<f64>) -> f64 {
    value.unwrap_or(f64::NAN)
}

fn rate(value: Option<VolumeRate>) -> f64 {
    optional(value.map(liters_per_minute))
}

const fn flag(holds: bool) -> f64 {
    if holds { 1.0 } else { 0.0 }
}

/// The number of the label where it is on this basis.
fn label(given: &Given<'_>, basis: StrengthBasis) -> f64 {
    let label = given.product.label;
    if label.basis == basis { label.number } else { f64::NAN }
}

/// Strength that a test found: grams per liter of a liquid, per kilogram of a dry product.
fn tested(given: &Given<'_>, liquid: bool) -> f64 {
    let Some(test) = given.product.measured.as_ref().map(|test| test.strength) else { return f64::NAN };
    if given.product.chemical.is_liquid() != liquid {
        return f64::NAN;
    }
    if liquid {
        let strength = liquid_strength(test.number, test.basis, given.product.caustic_percent);
        optional(strength.map(|strength| strength.grams_per_liter()))
    } else {
        optional(dry_strength(test.number).map(|strength| strength.ratio() * 1000.0))
    }
}

/// Everything that is given.
pub static OBSERVED: &[Seen] = &[
    seen("field.total_depth", "Depth of the bottom", "m", |given, reading| match given.water(reading) {
        StandingWater::Bore { bottom, .. } => bottom.value,
        _ => f64::NAN,
    }),
    seen("field.static_water_level", "Depth of the water level", "m", |given, reading| match given.water(reading) {
        StandingWater::Bore { water_level, .. } => water_level.value,
        _ => f64::NAN,
    }),
    seen("field.water_column", "Height of water given", "m", |given, reading| match given.water(reading) {
        StandingWater::Column { height, .. } => height.value,
        _ => f64::NAN,
    }),
    seen("field.casing_diameter", "Inside diameter", "m", |given, reading| match given.water(reading) {
        StandingWater::Column { diameter, .. } => diameter.value,
        _ => f64::NAN,
    }),
    seen("field.water_volume", "Volume of water given", "L", |given, reading| match given.water(reading) {
        StandingWater::Volume { volume } => liters(*volume),
        _ => f64::NAN,
    }),
    seen("field.plumbing_volume", "Plumbing by the list", "L", |given, _| {
        optional(given.well.plumbing_volume.map(liters))
    }),
    seen("field.pump_rate", "Pump rate", "L/min", |given, _| rate(given.well.pump_rate)),
    seen("field.well_yield", "Yield", "L/min", |given, _| rate(given.well.well_yield)),
    seen("field.iron", "Iron", "mg/L", |given, _| optional(given.well.water.iron_mg_per_l)),
    seen("field.manganese", "Manganese", "mg/L", |given, _| optional(given.well.water.manganese_mg_per_l)),
    seen("field.sulfide", "Sulfide", "mg/L", |given, _| optional(given.well.water.sulfide_mg_per_l)),
    seen("field.ammonia_n", "Ammonia", "mg/L", |given, _| optional(given.well.water.ammonia_n_mg_per_l)),
    seen("field.nitrite_n", "Nitrite", "mg/L", |given, _| optional(given.well.water.nitrite_n_mg_per_l)),
    seen("field.organic_carbon", "Organic carbon", "mg/L", |given, _| {
        optional(given.well.water.organic_carbon_mg_per_l)
    }),
    seen("product.trade_percent", "Label, trade percent", "%", |given, _| label(given, StrengthBasis::Trade)),
    seen("product.grams_per_liter", "Label, grams per liter", "g/L", |given, _| {
        label(given, StrengthBasis::GramsPerLiter)
    }),
    seen("product.weight_available_chlorine", "Label, percent of chlorine by weight", "%", |given, _| {
        label(given, StrengthBasis::WeightAvailableChlorine)
    }),
    seen("product.weight_naocl", "Label, percent of sodium hypochlorite by weight", "%", |given, _| {
        label(given, StrengthBasis::WeightNaocl)
    }),
    seen("product.caustic_percent", "Excess caustic", "%", |given, _| given.product.caustic_percent),
    seen("product.tested_g_per_l", "Strength by test", "g/L", |given, _| tested(given, true)),
    seen("product.tested_g_per_kg", "Strength by test", "g/kg", |given, _| tested(given, false)),
    seen("flag.liquid", "The product is a liquid", "", |given, _| flag(given.product.chemical.is_liquid())),
    seen("flag.measured_for_high", "Measured for the high reading", "", |given, _| flag(given.side() == Reading::High)),
    seen("flag.spring_closed", "A spring box that fills while it is closed", "", |given, _| {
        flag(moving::inflow(given.well).is_some() && !moving::is_fed(given.well, given.practice))
    }),
    seen("flag.spring_fed", "A spring that is fed while it runs", "", |given, _| {
        flag(moving::is_fed(given.well, given.practice))
    }),
    seen("flag.brushed", "The walls are brushed", "", |given, _| {
        let emptied = moving::method_wanted(given.well, given.practice) == FlushMethod::EmptyAndRefill;
        let wash = given.practice.emptying;
        flag(emptied && wash.wash.milligrams_per_liter() > 0.0 && wash.wash_film.value > 0.0)
    }),
    seen("flag.emptied", "Emptied and refilled", "", |given, _| {
        flag(given.need.flush_method == FlushMethod::EmptyAndRefill)
    }),
    seen("flag.neutralized", "The flush water is neutralized", "", |given, _| flag(given.need.neutralizer.is_some())),
    seen("flag.plumbing_uncounted", "A small well without plumbing counted", "", |given, _| {
        flag(given.need.dose_if_spread.is_some())
    }),
    seen("flag.other_agent", "Another agent would leave no acid", "", |given, _| {
        flag(given.need.neutralizer_instead.is_some())
    }),
    seen("share_left", "Strength remaining of what was known last", "", |given, reading| {
        let start = |label: f64, liquid| {
            let tested = tested(given, liquid);
            if tested.is_nan() { label } else { tested }
        };
        match given.product(reading).stock {
            Stock::Liquid { label, used, .. } => used.grams_per_liter() / start(label.grams_per_liter(), true),
            Stock::Dry { label, used, .. } => used.ratio() * 1000.0 / start(label.ratio() * 1000.0, false),
        }
    }),
    seen("agent_per_chlorine", "Agent per chlorine", "g/g", |given, _| {
        let ph = given.need.ph_after.or(given.well.water.ph);
        given.practice.agent_per_chlorine(given.practice.neutralizer, ph).ratio()
    }),
    seen("other_agent_per_chlorine", "Other agent per chlorine", "g/g", |given, _| {
        let ph = given.need.ph_after.or(given.well.water.ph);
        let other = given.need.neutralizer_instead;
        other.map_or(f64::NAN, |agent| given.practice.agent_per_chlorine(agent, ph).ratio())
    }),
];
