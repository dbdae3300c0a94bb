//! The answer for one well, for machines.

use serde::Serialize;

use super::super::moving::Moving;
use super::Said;
use crate::kernel::neutralizer::Agent;
use crate::quantity::{kitchen, liters};
use crate::relation::Given;
use crate::report::crew::Job;

/// `well`, of `well`: the answer for one well, in units as the keys say, with full precision.
#[derive(Serialize)]
pub(super) struct Answer<'a> {
    /// Which message this is.
    message: &'static str,
    /// Why nothing may be poured yet, whatever amount stands below.
    pour_nothing_yet: Option<String>,
    /// What may be wrong with what was typed.
    doubts: &'a [String],
    /// What was assumed for the well.
    assumed: &'a [String],
    /// What was taken by default, and what it would change.
    taken_by_default: &'a [String],
    /// What else is to be said of what was typed.
    notes: &'a [String],
    /// Name of the product.
    product: &'a str,
    /// Target, in mg/L of free chlorine as Cl2.
    target_mg_per_l: f64,
    /// Water standing in the well, in liters.
    standing_volume_l: f64,
    /// Water that is treated, in liters: what stands in the well, its allowance, and the plumbing treated with it.
    treated_volume_l: f64,
    /// Chlorine that the water takes, in mg/L as Cl2.
    demand_mg_per_l: f64,
    /// Target and demand together, in mg/L as Cl2.
    dose_mg_per_l: f64,
    /// Available chlorine, in grams as Cl2.
    chlorine_g: f64,
    /// Product to reach the dose, in liters; nothing for a dry product.
    product_l: Option<f64>,
    /// The same in kilograms.
    product_kg: f64,
    /// Product to measure out, rounded up, in the unit below.
    measured_amount: f64,
    /// Unit of the measured amount.
    measured_unit: &'static str,
    /// The measured amount as people say it.
    measured_text: String,
    /// Whether it is measured for the typical or the high reading.
    measured_for: &'static str,
    /// What the measured amount gives at the typical reading, in mg/L as Cl2.
    measured_dose_mg_per_l: f64,
    /// What it gives where the well holds most and the stock is weakest, in mg/L as Cl2.
    least_dose_mg_per_l: f64,
    /// Chlorate that the stock brings into the water, in mg/L; nothing where it is not known.
    chlorate_mg_per_l: Option<f64>,
    /// Water to mix the product into, in liters.
    predilution_l: f64,
    /// pH after dosing; nothing where pH or alkalinity is not known.
    ph_after: Option<f64>,
    /// Share of free chlorine that is hypochlorous acid, from 0 to 1.
    hocl_share: Option<f64>,
    /// Hours in the well.
    hold_h: f64,
    /// Hours that the rule of the practice requires; nothing without a rule.
    hold_required_h: Option<f64>,
    #[serde(flatten)]
    moving: Moving,
    /// Water to pump out, in liters.
    flush_volume_l: f64,
    /// Hours of pumping; nothing where no rate is known.
    flush_h: Option<f64>,
    /// The agent; nothing where none is counted.
    neutralizer: Option<&'static str>,
    /// Agent for the flushed water, in kilograms; zero where none is counted.
    neutralizer_kg: f64,
    /// pH of the flushed water after neutralizing, least and greatest; nothing where it is not known.
    ph_neutralized: Option<(f64, f64)>,
    /// Another agent that would leave no acid.
    neutralizer_instead: Option<&'static str>,
    /// How much of that, in kilograms.
    neutralizer_instead_kg: Option<f64>,
    /// Words of the cautions, as in the Method sheet.
    cautions: Vec<&'static str>,
}

impl<'a> Answer<'a> {
    pub(super) fn of(said: &'a Said, job: &Job<'a>) -> Self {
        let Given { practice, product, need, .. } = job.treated.given;
        let product_l = need.product.liters();
        Self {
            message: "well",
            pour_nothing_yet: job.stopped(),
            doubts: &said.doubts,
            assumed: &said.assumed,
            taken_by_default: &said.by_default,
            notes: &said.notes,
            product: &product.name,
            target_mg_per_l: practice.target.milligrams_per_liter(),
            standing_volume_l: liters(need.standing_volume),
            treated_volume_l: liters(need.treated_volume),
            demand_mg_per_l: need.demand.milligrams_per_liter(),
            dose_mg_per_l: need.dose.milligrams_per_liter(),
            chlorine_g: need.chlorine.grams(),
            product_l: (!product_l.is_nan()).then_some(product_l),
            product_kg: need.product.kilograms(),
            measured_amount: need.measured_amount,
            measured_unit: need.measured_unit,
            measured_text: kitchen::words(need.measured_amount, need.measured_unit),
            measured_for: need.measure_for.name(),
            measured_dose_mg_per_l: need.measured_dose.milligrams_per_liter(),
            least_dose_mg_per_l: need.least_dose.milligrams_per_liter(),
            chlorate_mg_per_l: need.chlorate.map(|chlorate| chlorate.milligrams_per_liter()),
            predilution_l: liters(need.predilution),
            ph_after: need.ph_after,
            hocl_share: need.hocl_share,
            hold_h: need.hold.value / 3600.0,
            hold_required_h: need.hold_required.map(|hold| hold.value / 3600.0),
            moving: Moving::of(need),
            flush_volume_l: liters(need.flush_volume),
            flush_h: need.flush_time.map(|time| time.value / 3600.0),
            neutralizer: need.neutralizer.map(Agent::name),
            neutralizer_kg: need.neutralizer_mass.kilograms(),
            ph_neutralized: need.ph_neutralized,
            neutralizer_instead: need.neutralizer_instead.map(Agent::name),
            neutralizer_instead_kg: need.neutralizer_instead_mass.map(|mass| mass.kilograms()),
            cautions: need.cautions.iter().map(|entry| entry.word).collect(),
        }
    }
}
