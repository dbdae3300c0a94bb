//! The answer for one well, for machines.

use serde::Serialize;

use super::super::moving::Moving;
use super::Said;
use crate::kernel::neutralizer::Agent;
use crate::quantity::{kitchen, liters};
use crate::report::crew::Job;

/// SI-derived units in the keys, full precision.
#[derive(Serialize)]
pub(super) struct Answer<'a> {
    message: &'static str,
    /// Why nothing may be poured yet, whatever amount stands below.
    pour_nothing_yet: Option<String>,
    doubts: &'a [String],
    assumed: &'a [String],
    taken_by_default: &'a [String],
    notes: &'a [String],
    product: &'a str,
    target_mg_per_l: f64,
    standing_volume_l: f64,
    treated_volume_l: f64,
    demand_mg_per_l: f64,
    dose_mg_per_l: f64,
    chlorine_g: f64,
    product_l: Option<f64>,
    product_kg: f64,
    measured_amount: f64,
    measured_unit: &'static str,
    measured_text: String,
    measured_for: &'static str,
    measured_dose_mg_per_l: f64,
    least_dose_mg_per_l: f64,
    chlorate_mg_per_l: Option<f64>,
    predilution_l: f64,
    ph_after: Option<f64>,
    hocl_share: Option<f64>,
    hold_h: f64,
    hold_required_h: Option<f64>,
    #[serde(flatten)]
    moving: Moving,
    flush_volume_l: f64,
    flush_h: Option<f64>,
    neutralizer: Option<&'static str>,
    neutralizer_kg: f64,
    ph_neutralized: Option<(f64, f64)>,
    neutralizer_instead: Option<&'static str>,
    neutralizer_instead_kg: Option<f64>,
    cautions: Vec<&'static str>,
}

impl<'a> Answer<'a> {
    pub(super) fn of(said: &'a Said, job: &Job<'a>) -> Self {
        let Job { practice, product, need, .. } = *job;
        let product_l = need.product.mid.liters();
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
            product_kg: need.product.mid.kilograms(),
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
