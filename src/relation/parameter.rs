//! What the practice states, as operands: the key of the scenario file, the unit that relations count in, and the value.

use crate::kernel::requirement::Practice;
use crate::quantity::ChlorineConcentration;
use crate::quantity::basis::{liters, liters_per_minute};

/// One parameter of the practice.
#[derive(Debug, Clone, Copy)]
pub struct Parameter {
    /// Id in relations: `practice.` and the key of the scenario file.
    pub id: &'static str,
    /// What people read for it in the working, and as a heading in the workbook.
    pub title: &'static str,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
    /// Its value in that unit; NaN where the practice states none.
    pub get: fn(&Practice) -> f64,
}

impl Parameter {
    /// The key of the scenario file, of the table where it stands in one.
    pub fn key(&self) -> &'static str {
        let path = self.id.strip_prefix("practice.").unwrap_or(self.id);
        path.split('.').next().unwrap_or(path)
    }
}

fn milligrams(value: Option<ChlorineConcentration>) -> f64 {
    value.map_or(f64::NAN, |value| value.milligrams_per_liter())
}

const fn parameter(id: &'static str, title: &'static str, unit: &'static str, get: fn(&Practice) -> f64) -> Parameter {
    Parameter { id, title, unit, get }
}

/// Every parameter that a relation names.
pub static PARAMETERS: &[Parameter] = &[
    parameter("practice.target_mg_per_l", "Target", "mg/L", |practice| milligrams(Some(practice.target))),
    parameter("practice.hold_hours", "Contact time", "h", |practice| practice.hold.value / 3600.0),
    parameter("practice.volume_allowance", "Treated ÷ standing volume", "", |practice| practice.volume_allowance),
    parameter("practice.demand_mg_per_l", "Demand where nothing was measured", "mg/L", |practice| {
        milligrams(Some(practice.demand_allowance))
    }),
    parameter("practice.factor.iron", "Chlorine per iron", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().iron
    }),
    parameter("practice.factor.manganese", "Chlorine per manganese", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().manganese
    }),
    parameter("practice.factor.sulfide", "Chlorine per sulfide", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().sulfide
    }),
    parameter("practice.factor.ammonia_n", "Chlorine per ammonia", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().ammonia_n
    }),
    parameter("practice.factor.nitrite_n", "Chlorine per nitrite", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().nitrite_n
    }),
    parameter("practice.factor.organic_carbon", "Chlorine per organic carbon", "mg/mg", |practice| {
        practice.demand_factors.per_milligram().organic_carbon
    }),
    parameter("practice.plumbing_volume", "Plumbing where the list gives none", "L", |practice| {
        liters(practice.plumbing_volume)
    }),
    parameter("practice.least_volume", "Water treated at least", "L", |practice| {
        practice.least_volume.map_or(f64::NAN, liters)
    }),
    parameter("practice.least_product.liquid", "Product added at least, liquid", "L", |practice| {
        practice.least_product.liquid.map_or(f64::NAN, |least| least.liters())
    }),
    parameter("practice.least_product.dry", "Product added at least, dry", "kg", |practice| {
        practice.least_product.dry.map_or(f64::NAN, |least| least.kilograms())
    }),
    parameter("practice.spring_rise", "Room above a spring box's overflow, of its water", "", |practice| {
        practice.spring_rise
    }),
    parameter("practice.predilution_ratio", "Water per product before pouring", "", |practice| {
        practice.predilution_ratio
    }),
    parameter("practice.flush.until_mg_per_l", "Flush until", "mg/L", |practice| milligrams(practice.flush_until)),
    parameter("practice.flush.volumes", "Flush at least, treated volumes", "", |practice| {
        practice.flush_volumes.unwrap_or(f64::NAN)
    }),
    parameter("practice.flush_rate", "Flush rate where none is known", "L/min", |practice| {
        practice.flush_rate.map_or(f64::NAN, liters_per_minute)
    }),
    parameter("practice.residual_after_hold_mg_per_l", "Residual after the contact time", "mg/L", |practice| {
        milligrams(practice.residual_after_hold)
    }),
    parameter("practice.residual_decay_per_hour", "Decay of the residual", "1/h", |practice| {
        practice.residual_decay_per_hour.unwrap_or(f64::NAN)
    }),
    parameter("practice.emptying.until_mg_per_l", "Empty again until below", "mg/L", |practice| {
        milligrams(Some(practice.emptying.until))
    }),
    parameter("practice.emptying.carry_over", "Chlorine there again after one emptying", "", |practice| {
        practice.emptying.carry_over
    }),
    parameter("practice.emptying.wait_hours", "Wait after each refill", "h", |practice| {
        practice.emptying.wait.value / 3600.0
    }),
    parameter("practice.emptying.wall_wash_mg_per_l", "Strength of the wall wash", "mg/L", |practice| {
        milligrams(Some(practice.emptying.wash))
    }),
    parameter("practice.emptying.liters_per_square_meter", "Wall wash per wall", "L/m2", |practice| {
        practice.emptying.wash_film.value * 1000.0
    }),
    parameter("practice.discharge.limit_mg_per_l", "Discharge limit", "mg/L", |practice| {
        milligrams(Some(practice.discharge_limit))
    }),
    parameter("practice.discharge.excess", "Extra neutralizer", "", |practice| practice.neutralizer_excess),
    parameter("practice.repeat_share", "Wells re-treated", "", |practice| practice.repeat_share),
    parameter("practice.handling_loss", "Product lost in handling", "", |practice| practice.handling_loss),
];
