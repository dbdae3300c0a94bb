//! How wells are treated: what a practice states, with every value typed.
//!
//! The scenario room fills it; the steps of the method read it. It decides nothing but what stands in for what is not stated.

use super::contact::{self, HoldRule};
use super::demand::DemandFactors;
use super::emptying::{Emptying, FlushMethod};
use super::measure::MeasureFor;
use super::neutralizer::{self, Agent, RatioBasis};
use super::spring::FlowingSpring;
use crate::field::DischargeRoute;
use crate::field::rules::UnitSystem;
use crate::quantity::{
    AgentPerChlorine, ChlorineConcentration, Length, ProductMass, ProductVolume, ThermodynamicTemperature, Time,
    Volume, VolumeRate,
};

/// Product that is poured at least, by how it is measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LeastProduct {
    /// Of a liquid; `None` where the practice asks for no least amount.
    pub liquid: Option<ProductVolume>,
    /// Of a dry product.
    pub dry: Option<ProductMass>,
}

/// How wells are treated, with every value typed; the scenario room fills it.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    /// Free chlorine wanted in the well once the demand is met.
    pub target: ChlorineConcentration,
    /// How long the chlorine stays.
    pub hold: Time,
    /// The time that was stated, where the chosen rule asks for more and its time stands in `hold`.
    pub hold_stated: Option<Time>,
    /// Treated volume of the well over its standing volume (gravel pack, formation).
    pub volume_allowance: f64,
    /// Demand used where nothing was measured.
    pub demand_allowance: ChlorineConcentration,
    /// Which demand factors are used where something was measured.
    pub demand_factors: DemandFactors,
    /// Plumbing treated with a well whose own volume is not given.
    pub plumbing_volume: Volume,
    /// Water that is treated at least, however small the well.
    pub least_volume: Option<Volume>,
    /// Product that is poured at least, however small the well.
    pub least_product: LeastProduct,
    /// What is done at a spring that flows, where the practice says so.
    pub flowing_spring: Option<FlowingSpring>,
    /// Room above the overflow of a spring box, as a share of its standing water.
    pub spring_rise: f64,
    /// Water per product before pouring (L per L of liquid, L per kg of dry).
    pub predilution_ratio: f64,
    /// How the chlorine is got out, where the practice says so; else dug wells and spring boxes are emptied.
    pub flush_method: Option<FlushMethod>,
    /// How wells are emptied.
    pub emptying: Emptying,
    /// Flush until this residual, by the ideal mixed tank.
    pub flush_until: Option<ChlorineConcentration>,
    /// Flush at least so many treated volumes.
    pub flush_volumes: Option<f64>,
    /// Rate used where neither pump rate nor yield is given.
    pub flush_rate: Option<VolumeRate>,
    /// Residual measured after the hold.
    pub residual_after_hold: Option<ChlorineConcentration>,
    /// Decay of the residual during the hold, 1/h, where the practice states one instead of a measured residual.
    pub residual_decay_per_hour: Option<f64>,
    /// What the chosen rule asks of the hold.
    pub hold_rule: Option<HoldRule>,
    /// Water temperature used where it was not measured.
    pub water_temperature: ThermodynamicTemperature,
    /// Chlorine that may be discharged.
    pub discharge_limit: ChlorineConcentration,
    /// The agent that takes chlorine out of flush water, on the routes that [`Self::neutralize_routes`] names.
    pub neutralizer: Agent,
    /// Which ratio of agent to chlorine is used, where the practice chooses; else the agent's default.
    pub neutralizer_ratio: Option<RatioBasis>,
    /// Agent beyond the stated ratio, as a share.
    pub neutralizer_excess: f64,
    /// Routes for which flush water is neutralized.
    pub neutralize_routes: Routes,
    /// Share of wells that must be treated again.
    pub repeat_share: f64,
    /// Share of product lost in handling.
    pub handling_loss: f64,
    /// On which side the amount that is measured out meets the target.
    pub measure_for: MeasureFor,
    /// How the field measures.
    pub system: UnitSystem,
}

impl Practice {
    /// A practice in which nothing is stated; the campaign's defaults are laid over it.
    pub fn nothing_stated(system: UnitSystem) -> Self {
        let none = ChlorineConcentration::from_milligrams_per_liter(0.0);
        Self {
            target: none,
            hold: Time::default(),
            hold_stated: None,
            volume_allowance: 1.0,
            demand_allowance: none,
            demand_factors: DemandFactors::Stoichiometric,
            plumbing_volume: Volume::default(),
            least_volume: None,
            least_product: LeastProduct::default(),
            flowing_spring: None,
            spring_rise: 0.0,
            predilution_ratio: 0.0,
            flush_method: None,
            emptying: Emptying {
                until: none,
                carry_over: 0.0,
                wait: Time::default(),
                wash: none,
                wash_film: Length::default(),
            },
            flush_until: None,
            flush_volumes: None,
            flush_rate: None,
            residual_after_hold: None,
            residual_decay_per_hour: None,
            hold_rule: None,
            water_temperature: ThermodynamicTemperature::default(),
            discharge_limit: none,
            neutralizer: Agent::AscorbicAcid,
            neutralizer_ratio: None,
            neutralizer_excess: 0.0,
            neutralize_routes: Routes::default(),
            repeat_share: 0.0,
            handling_loss: 0.0,
            measure_for: MeasureFor::Typical,
            system,
        }
    }

    /// The practice with the time of its rule where a shorter one is stated.
    #[must_use]
    pub fn held_by_rule(mut self) -> Self {
        let least = self.hold_rule.as_ref().and_then(|rule| rule.least_hold(self.target));
        if let Some(least) = least.filter(|least| self.hold < *least * (1.0 - 1e-9)) {
            self.hold_stated = Some(self.hold);
            self.hold = least;
        }
        self
    }

    /// Free chlorine in the well when flushing starts, for what was poured: the measured residual, else what a stated decay
    /// leaves, else all of it, which is the safe side for flush and neutralizer.
    pub fn residual(&self, measured_dose: ChlorineConcentration) -> ChlorineConcentration {
        match (self.residual_after_hold, self.residual_decay_per_hour) {
            (Some(residual), _) => residual,
            (None, Some(decay)) => contact::residual_after(measured_dose, decay, self.hold),
            (None, None) => measured_dose,
        }
    }

    /// Agent per chlorine at a pH, by the chosen basis; an agent that no field table lists takes its stoichiometry.
    pub fn agent_per_chlorine(&self, agent: Agent, ph: Option<f64>) -> AgentPerChlorine {
        match self.neutralizer_ratio {
            None => neutralizer::default_ratio(agent, ph),
            Some(RatioBasis::Stoichiometric) => neutralizer::stoichiometric_ratio(agent),
            Some(RatioBasis::Field) => {
                neutralizer::field_ratio(agent, ph).unwrap_or_else(|| neutralizer::stoichiometric_ratio(agent))
            }
        }
    }

    /// The residual that can be counted on for the hold's own purpose: measured, or by a stated decay; `None` where nobody
    /// knows, because taking all of it to be there would be the unsafe side here.
    pub fn residual_known(&self, measured_dose: ChlorineConcentration) -> Option<ChlorineConcentration> {
        let known = self.residual_after_hold.is_some() || self.residual_decay_per_hour.is_some();
        known.then(|| self.residual(measured_dose))
    }
}

/// A set of discharge routes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Routes(u8);

impl Routes {
    /// The set with one more route.
    #[must_use]
    pub const fn with(self, route: DischargeRoute) -> Self {
        Self(self.0 | 1 << route as u8)
    }

    /// Whether the route is in the set.
    pub const fn contains(self, route: DischargeRoute) -> bool {
        self.0 & (1 << route as u8) != 0
    }
}
