//! What one well needs under one practice with one product: the method, told once, from standing water to neutralizer.
//!
//! Called by the engine for every well and scenario, and by `well` for one. Each step is one function of this room's
//! siblings; this file only puts them in order and says what is used where something is not known. It refuses to know
//! where a number came from and who reads it.

use super::constants::{ACID_PH, CHLORATE_GUIDELINE, GREATEST_CODED_DOSE, SLOW_PH, STOCK_NEARLY_GONE, STOCK_SPENT};
use super::contact::{self, HoldRule};
use super::demand::{DemandCaution, DemandFactors};
use super::emptying::{Emptying, FlushMethod};
use super::measure::MeasureFor;
use super::moving::{self, Feed, LeastProduct, WallWash};
use super::neutralizer::{Agent, OxygenUptake, RatioBasis};
use super::pour::pour;
pub use super::pour::{Amount, Prepared, Stock};
use super::spring::FlowingSpring;
use super::strength::Chemical;
use super::{chlorate, demand, dose, effect, neutralizer, volume};
use crate::caution::{Caution, Cautions};
use crate::field::rules::UnitSystem;
use crate::field::{DischargeRoute, WellType};
use crate::quantity::basis::{CarbonateConcentration, ChlorateConcentration};
use crate::quantity::unit::DAY_S;
use crate::quantity::{
    AgentMass, AgentPerChlorine, ChlorineConcentration, ChlorineMass, Length, ThermodynamicTemperature, Time, Volume,
    VolumeRate,
};
use crate::well::{StandingWater, Well};

/// A value with its least and greatest reading; all three the same where nothing was assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T> {
    /// The reading that needs least product.
    pub low: T,
    /// The reading that is planned with.
    pub mid: T,
    /// The reading that needs most product.
    pub high: T,
}

impl<T: Copy> Band<T> {
    /// A value without spread.
    pub const fn exactly(value: T) -> Self {
        Self { low: value, mid: value, high: value }
    }

    /// The same function of each reading.
    pub fn map<U>(self, f: impl Fn(T) -> U) -> Band<U> {
        Band { low: f(self.low), mid: f(self.mid), high: f(self.high) }
    }
}

/// How wells are treated, with every value typed; the scenario room fills it.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    /// Free chlorine wanted in the well once the demand is met.
    pub target: ChlorineConcentration,
    /// How long the chlorine stays.
    pub hold: Time,
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
    /// The neutralizing agent.
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

/// What one well needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Requirement {
    /// Height of standing water; `None` where only a volume is known.
    pub water_column: Option<Length>,
    /// Water standing in the well.
    pub standing_volume: Volume,
    /// Water that is treated.
    pub treated_volume: Volume,
    /// Chlorine that the water takes.
    pub demand: ChlorineConcentration,
    /// Target and demand.
    pub dose: ChlorineConcentration,
    /// Chlorine to put in, in all: for the water, the wall wash and a spring's feed.
    pub chlorine: ChlorineMass,
    /// Product computed, in all, with its spread over assumptions and ageing; the middle is the amount for the side that is
    /// measured for.
    pub product: Band<Amount>,
    /// Wall wash, where the well is to be emptied.
    pub wash: Option<WallWash>,
    /// What is fed during the hold, where a spring runs over.
    pub feed: Option<Feed>,
    /// Amount to measure out for the water, in the unit below.
    pub measured_amount: f64,
    /// Unit symbol of the measure.
    pub measured_unit: &'static str,
    /// On which side the measured amount meets the target.
    pub measure_for: MeasureFor,
    /// Concentration that the measured amount gives.
    pub measured_dose: ChlorineConcentration,
    /// What that would give once it circulated through a house's plumbing, where none is counted for a small well.
    pub dose_if_spread: Option<ChlorineConcentration>,
    /// Concentration that it gives at least: in the most water, with the weakest product.
    pub least_dose: ChlorineConcentration,
    /// Chlorate that it brings, where its amount is known.
    pub chlorate: Option<ChlorateConcentration>,
    /// Water to dilute in before pouring.
    pub predilution: Volume,
    /// pH after dosing, where pH and alkalinity are known.
    pub ph_after: Option<f64>,
    /// Share of free chlorine as HOCl at that pH.
    pub hocl_share: Option<f64>,
    /// How long the chlorine stays.
    pub hold: Time,
    /// How the chlorine is got out.
    pub flush_method: FlushMethod,
    /// Times the well is emptied; `None` where it is flushed as a mixed tank.
    pub emptyings: Option<f64>,
    /// How long the chosen rule asks for at least, where it knows.
    pub hold_required: Option<Time>,
    /// Water to pump out.
    pub flush_volume: Volume,
    /// Rate of pumping, where known.
    pub flush_rate: Option<VolumeRate>,
    /// Time of pumping, and of refilling and waiting where the well is emptied, where known.
    pub flush_time: Option<Time>,
    /// Where the water goes, where known.
    pub route: Option<DischargeRoute>,
    /// Agent, where the route needs one or is not known.
    pub neutralizer: Option<Agent>,
    /// Chlorine that must be taken out of what leaves the well.
    pub chlorine_to_remove: ChlorineMass,
    /// Agent with its excess.
    pub neutralizer_mass: AgentMass,
    /// pH after neutralizing, least and most, where there is something to neutralize and a pH after dosing.
    pub ph_neutralized: Option<(f64, f64)>,
    /// Agent that would leave no acid, where the chosen one does.
    pub neutralizer_instead: Option<Agent>,
    /// How much of it, with its excess.
    pub neutralizer_instead_mass: Option<AgentMass>,
    /// What the well's data warn of.
    pub cautions: Cautions,
}

/// What one well needs under a practice with a product.
///
/// The steps, each a function of a sibling room: standing and treated volume (V2, Q2, V3), demand (N1), dose and chlorine
/// (D1, D2), wall wash (E1, E2) and feed (Q3), product (D3, D4), field measure and what it gives (M1, D5), chlorate (A6),
/// effect (P2, H3), predilution (L1), flush (F1, F3) or emptying (E3, E4), neutralizer (R3) and what it does to pH (R6).
///
/// Where something is not known: demand falls back to the practice's allowance, plumbing to the practice's volume, water
/// temperature to the practice's, flush rate to the practice's; without pH or alkalinity there is no pH after dosing;
/// without any rate there is no flush time; without a route neutralizer is counted. After the hold all the chlorine poured
/// is taken to be there still, unless the practice states a measured residual or a decay: that is the safe side for flush
/// and neutralizer.
///
/// `None` only if an amount is not a number, which proven wells, practices and products do not give.
pub fn requirement(well: &Well, practice: &Practice, product: &Prepared) -> Option<Requirement> {
    let plumbing = well.plumbing_volume.unwrap_or(practice.plumbing_volume);
    let treat = |water| {
        let held = moving::water_held(well, practice, volume::standing_volume(water));
        volume::treated_volume(held, practice.volume_allowance, plumbing, practice.least_volume)
    };
    let standing_volume = volume::standing_volume(&well.standing_water);
    let treated_volume = treat(&well.standing_water);
    let treated = match well.standing_water_range.as_deref() {
        Some((least, greatest)) => Band { low: treat(least), mid: treated_volume, high: treat(greatest) },
        None => Band::exactly(treated_volume),
    };

    let demand = demand::demand(&well.water, practice.demand_factors).unwrap_or(practice.demand_allowance);
    let dose = dose::dose(practice.target, demand);
    let chlorine = treated.map(|volume| dose::chlorine(dose, volume));

    let [low, mid, high] = match well.standing_water_range.as_deref() {
        Some((least, greatest)) => [least, &well.standing_water, greatest],
        None => [&well.standing_water; 3],
    }
    .map(|water| moving::wash_chlorine(well, practice, water));
    let washes = Band { low, mid, high };
    let wash = match practice.measure_for.of(washes) {
        Some((solution, chlorine)) => Some(moving::wall_wash(solution, chlorine, product, practice)?),
        None => None,
    };
    let feed = moving::feed(well, practice, product, dose);
    let beside = washes.map(|wash| moving::beside(wash, feed.as_ref()));

    let poured = pour(chlorine, beside, product, practice)?;
    let measured_dose = dose::dose_given(poured.chlorine, treated_volume);
    let chlorate = match product.stock {
        Stock::Liquid { label, used, .. } => Some(chlorate::chlorate_left(measured_dose, label, used.mid)),
        Stock::Dry { .. } => None,
    };
    let dosed = dosed(well, practice, product, measured_dose);
    let effect = dosed.as_ref().map(|(system, water, addition)| effect::effect(system, water, addition));

    let start = practice.residual(measured_dose);
    let way_out = moving::way_out(well, practice, treated_volume, start);
    let flush_volume = way_out.volume;

    let route = well.discharge_route;
    let neutralize = route.is_none_or(|route| practice.neutralize_routes.contains(route));
    let remove = neutralizer::chlorine_to_remove(start, treated_volume, practice.discharge_limit, flush_volume)
        + moving::further_to_remove(wash.as_ref(), feed.as_ref(), dose, practice.discharge_limit);
    let ratio = |agent| practice.agent_per_chlorine(agent, effect.map(|effect| effect.ph).or(well.water.ph));
    let agent_mass = |agent| neutralizer::agent_mass(remove, ratio(agent), practice.neutralizer_excess);
    let (mut neutralizer_mass, mut ph_neutralized, mut neutralizer_instead) = (AgentMass::from_grams(0.0), None, None);
    if neutralize {
        let agent = practice.neutralizer;
        neutralizer_mass = agent_mass(agent);
        if let (Some((system, water, addition)), true) = (&dosed, remove.grams() > 0.0) {
            let share = start.milligrams_per_liter() / measured_dose.milligrams_per_liter();
            let ph = neutralizer::ph_after_neutralizing(system, water, addition, agent, ratio(agent), share);
            ph_neutralized = Some(ph);
            if ph.0 < ACID_PH.value {
                let other = neutralizer::agent_without_acid(system, water, addition, ratio, share);
                neutralizer_instead = other.filter(|other| *other != agent);
            }
        }
    }

    let requirement = Requirement {
        water_column: volume::water_column(&well.standing_water),
        standing_volume,
        treated_volume,
        demand,
        dose,
        chlorine: poured.in_all,
        product: poured.product,
        wash,
        feed,
        measured_amount: poured.amount,
        measured_unit: poured.unit,
        measure_for: practice.measure_for,
        measured_dose,
        dose_if_spread: moving::dose_if_spread(well, practice, treated_volume, measured_dose),
        least_dose: dose::dose_given(poured.least_chlorine, treated.high),
        chlorate,
        predilution: dose::predilution(practice.predilution_ratio, poured.liters_or_kilograms),
        ph_after: effect.map(|effect| effect.ph),
        hocl_share: effect.map(|effect| effect.hocl_share),
        hold: practice.hold,
        flush_method: way_out.method,
        emptyings: way_out.emptyings,
        hold_required: practice.hold_rule.as_ref().and_then(|rule| rule.least_hold(practice.target)),
        flush_volume,
        flush_rate: way_out.rate,
        flush_time: way_out.time,
        route,
        neutralizer: neutralize.then_some(practice.neutralizer),
        chlorine_to_remove: remove,
        neutralizer_mass,
        ph_neutralized,
        neutralizer_instead,
        neutralizer_instead_mass: neutralizer_instead.map(agent_mass),
        cautions: Cautions::default(),
    };
    let mut cautions = cautions(well, practice, product, &requirement);
    moving::cautions(well, practice, &way_out, requirement.dose_if_spread, &mut cautions);
    Some(Requirement { cautions, ..requirement })
}

/// The water and what is put into it, where pH, alkalinity and the product's lime are known.
fn dosed(
    well: &Well,
    practice: &Practice,
    product: &Prepared,
    dose: ChlorineConcentration,
) -> Option<(effect::CarbonateSystem, effect::RawWater, effect::Addition)> {
    let hydroxide_per_chlorine = product.hydroxide_per_chlorine?;
    let (ph, alkalinity) = (well.water.ph?, well.water.alkalinity_mg_per_l?);
    let system = effect::CarbonateSystem::at(well.water.temperature.unwrap_or(practice.water_temperature));
    let water = effect::RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) };
    let addition = effect::Addition { dose, chemical: product.chemical, hydroxide_per_chlorine };
    Some((system, water, addition))
}

fn cautions(well: &Well, practice: &Practice, product: &Prepared, need: &Requirement) -> Cautions {
    let mut raised = Cautions::default();
    let large = matches!(well.well_type, WellType::Dug | WellType::Bored | WellType::SpringBox);
    let flows = matches!(&well.standing_water, StandingWater::Bore { water_level, .. } if water_level.value < 0.0);
    let to_water = matches!(need.route, Some(DischargeRoute::StormDrain | DischargeRoute::Stream));
    let takes_oxygen = need
        .neutralizer
        .is_some_and(|agent| matches!(agent.properties().oxygen_uptake, OxygenUptake::Moderate | OxygenUptake::Strong));
    raised.raise_if(large, Caution::ConfinedSpace);
    raised.raise_if(well.seawater == Some(true), Caution::SeawaterDoNotEmpty);
    raised.raise_if(flows, Caution::FlowingWell);
    raised.raise_if(to_water, Caution::NeutralizeBeforeStream);
    raised.raise_if(need.route.is_none(), Caution::RouteUnknown);
    raised.raise_if(need.flush_time.is_none(), Caution::FlushRateUnknown);
    raised.raise_if(need.flush_time.is_some_and(|time| time.value > DAY_S), Caution::FlushLong);
    let above = need.measured_dose.milligrams_per_liter() > GREATEST_CODED_DOSE.value;
    raised.raise_if(above, Caution::AboveFiveHundred);
    raised.raise_if(need.ph_after.is_some_and(|ph| ph > SLOW_PH.value), Caution::PhAboveEight);
    // Bleaching powder has a caution of its own, because there it is not the water that is not known.
    let lime = product.chemical == Chemical::ChlorinatedLime;
    raised.raise_if(lime, Caution::SettleLime);
    raised.raise_if(need.ph_after.is_none() && !lime, Caution::PhUnknown);
    raised
        .raise_if(need.ph_neutralized.is_some_and(|(least, _)| least < ACID_PH.value), Caution::AcidAfterNeutralizing);
    raised.raise_if(takes_oxygen, Caution::SulfiteTakesOxygen);
    raised.raise_if(well.casing_material.as_deref().is_some_and(is_metal), Caution::MetalCasing);
    for caution in demand::demand_cautions(&well.water, need.measured_dose) {
        raised.raise(match caution {
            DemandCaution::IronWillStain { .. } | DemandCaution::ManganeseWillStain { .. } => Caution::IronStains,
            DemandCaution::AmmoniaHolds { .. } => Caution::AmmoniaBreakpoint,
        });
    }
    if let Some(rule) = &practice.hold_rule {
        let check = rule.check(practice.target, practice.hold, practice.residual_known(need.measured_dose));
        raised.raise_if(!check.long_enough, Caution::HoldTooShort);
        raised.raise_if(check.enough_left == Some(false), Caution::ResidualTooLow);
        raised.raise_if(check.enough_left.is_none(), Caution::MeasureResidual);
    }
    raised.raise_if(product.age_in_doubt, Caution::AgeOutOfRange);
    let nearly_gone = product.share_left < STOCK_NEARLY_GONE.value;
    raised.raise_if(nearly_gone, Caution::StockNearlyGone);
    raised.raise_if(!nearly_gone && product.stock.share_of_label() < STOCK_SPENT.value, Caution::StockSpent);
    let chlorate = need.chlorate.map_or(0.0, |chlorate| chlorate.milligrams_per_liter());
    let left = chlorate * moving::share_left(practice, need);
    raised.raise_if(left > CHLORATE_GUIDELINE.value, Caution::ChlorateLeft);
    raised.raise_if(!well.assumed.is_empty(), Caution::Assumed);
    raised
}

/// Whether a casing material as typed is a metal.
fn is_metal(material: &str) -> bool {
    const METALS: [&str; 6] = ["steel", "iron", "galv", "metal", "stl", "brass"];
    METALS
        .iter()
        .any(|metal| material.as_bytes().windows(metal.len()).any(|part| part.eq_ignore_ascii_case(metal.as_bytes())))
}
