//! What one well needs under one practice with one product: the method, told once, from standing water to neutralizer.
//!
//! Called by the engine for every well and scenario, and by `well` for one. Each step is one function of this room's
//! siblings; this file only puts them in order and says what is used where something is not known. It refuses to know
//! where a number came from and who reads it.

use super::contact::{self, HoldRule};
use super::demand::{DemandCaution, DemandFactors};
use super::emptying::{Emptying, FlushMethod};
use super::moving::{self, Feed, LeastProduct, WallWash};
use super::neutralizer::{Agent, OxygenUptake, RatioBasis};
use super::spring::FlowingSpring;
use super::strength::Chemical;
use super::{demand, dose, effect, measure, neutralizer, volume};
use crate::caution::{Caution, Cautions};
use crate::field::rules::UnitSystem;
use crate::field::{DischargeRoute, WellType};
use crate::quantity::basis::CarbonateConcentration;
use crate::quantity::unit::DAY_S;
use crate::quantity::{
    AgentMass, AgentPerChlorine, ChlorineConcentration, ChlorineMass, ChlorinePerDry, ChlorinePerLiquid, Length,
    MassDensity, ProductMass, ProductVolume, ThermodynamicTemperature, Time, Volume, VolumeRate,
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
    /// How the field measures.
    pub system: UnitSystem,
}

impl Practice {
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

/// A product on the day of use, with what its chemistry does to the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prepared {
    /// What is in it.
    pub chemical: Chemical,
    /// Free hydroxide it brings, mol per mol of chlorine.
    pub hydroxide_per_chlorine: f64,
    /// Whether its age, temperature or strength is outside what the ageing law was measured for, or it needs a test.
    pub age_in_doubt: bool,
    /// Its strength.
    pub stock: Stock,
}

/// Strength of a product on the day of use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stock {
    /// A liquid, measured by volume.
    Liquid {
        /// Strength when made, from the label.
        label: ChlorinePerLiquid,
        /// Strength used: measured, or aged from the label; the low reading of the *need* is the least aged.
        used: Band<ChlorinePerLiquid>,
        /// Density.
        density: MassDensity,
    },
    /// Granules, powder or tablets, measured by weight, or by volume where the bulk density is stated.
    Dry {
        /// Strength when made, from the label.
        label: ChlorinePerDry,
        /// Strength used.
        used: Band<ChlorinePerDry>,
        /// Mass per volume as poured into a spoon or cup.
        bulk_density: Option<MassDensity>,
    },
}

impl Stock {
    /// Strength that is planned with: g of chlorine per liter of a liquid, per kilogram of a dry product.
    pub fn strength_used(&self) -> f64 {
        match self {
            Self::Liquid { used, .. } => used.mid.grams_per_liter(),
            Self::Dry { used, .. } => used.mid.ratio() * 1000.0,
        }
    }
}

/// An amount of product as it is bought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// A liquid: what is measured, and what it weighs.
    Liquid {
        /// Volume.
        volume: ProductVolume,
        /// Weight.
        mass: ProductMass,
    },
    /// A dry product.
    Dry(ProductMass),
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
    /// Product computed, in all, with its spread over assumptions and ageing.
    pub product: Band<Amount>,
    /// Wall wash, where the well is to be emptied.
    pub wash: Option<WallWash>,
    /// What is fed during the hold, where a spring runs over.
    pub feed: Option<Feed>,
    /// Amount to measure out for the water, in the unit below.
    pub measured_amount: f64,
    /// Unit symbol of the measure.
    pub measured_unit: &'static str,
    /// Concentration that the measured amount gives.
    pub measured_dose: ChlorineConcentration,
    /// What that would give once it circulated through a house's plumbing, where none is counted for a small well.
    pub dose_if_spread: Option<ChlorineConcentration>,
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
    /// What the well's data warn of.
    pub cautions: Cautions,
}

/// What one well needs under a practice with a product.
///
/// The steps, each a function of a sibling room: standing and treated volume (V2, Q2, V3), demand (N1), dose and chlorine
/// (D1, D2), wall wash (E1, E2) and feed (Q3), product (D3, D4), field measure and what it gives (M1, D5), effect (P2, H3),
/// predilution (L1), flush (F1, F3) or emptying (E3, E4), neutralizer (R3).
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

    let washes = match well.standing_water_range.as_deref() {
        Some((least, greatest)) => [least, &well.standing_water, greatest],
        None => [&well.standing_water; 3],
    };
    let [low, mid, high] = washes.map(|water| moving::wash_chlorine(well, practice, water));
    let wash = match mid {
        Some((solution, chlorine)) => Some(moving::wall_wash(solution, chlorine, product, practice)?),
        None => None,
    };
    let feed = moving::feed(well, practice, product, dose);
    let beside = Band { low, mid, high }.map(|wash| moving::beside(wash, feed.as_ref()));

    let poured = pour(chlorine, beside, product, practice)?;
    let measured_dose = dose::dose_given(poured.chlorine, treated_volume);
    let effect = effect_of(well, practice, product, measured_dose);

    let start = practice.residual(measured_dose);
    let way_out = moving::way_out(well, practice, treated_volume, start);
    let flush_volume = way_out.volume;

    let route = well.discharge_route;
    let neutralize = route.is_none_or(|route| practice.neutralize_routes.contains(route));
    let remove = neutralizer::chlorine_to_remove(start, treated_volume, practice.discharge_limit, flush_volume)
        + moving::further_to_remove(wash.as_ref(), feed.as_ref(), dose, practice.discharge_limit);
    let neutralizer_mass = if neutralize {
        let ratio = practice.agent_per_chlorine(practice.neutralizer, effect.map(|effect| effect.ph).or(well.water.ph));
        neutralizer::agent_mass(remove, ratio, practice.neutralizer_excess)
    } else {
        AgentMass::from_grams(0.0)
    };

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
        measured_dose,
        dose_if_spread: moving::dose_if_spread(well, practice, treated_volume, measured_dose),
        predilution: dose::predilution(practice.predilution_ratio, poured.liters_or_kilograms),
        ph_after: effect.map(|effect| effect.ph),
        hocl_share: effect.map(|effect| effect.hocl_share),
        hold: practice.hold,
        flush_method: way_out.method,
        emptyings: way_out.emptyings,
        flush_volume,
        flush_rate: way_out.rate,
        flush_time: way_out.time,
        route,
        neutralizer: neutralize.then_some(practice.neutralizer),
        chlorine_to_remove: remove,
        neutralizer_mass,
        cautions: Cautions::default(),
    };
    let mut cautions = cautions(well, practice, product, &requirement);
    moving::cautions(well, practice, &way_out, requirement.dose_if_spread, &mut cautions);
    Some(Requirement { cautions, ..requirement })
}

/// Product computed and measured out.
struct Poured {
    product: Band<Amount>,
    amount: f64,
    unit: &'static str,
    /// Chlorine in what is measured out.
    chlorine: ChlorineMass,
    /// Chlorine computed in all, before rounding up to the measure.
    in_all: ChlorineMass,
    /// Litres of a liquid, kilograms of a dry product.
    liters_or_kilograms: f64,
}

/// Product for the water, of which at least so much is poured as the practice says, and for the wash and feed `beside` it.
fn pour(
    chlorine: Band<ChlorineMass>,
    beside: Band<ChlorineMass>,
    product: &Prepared,
    practice: &Practice,
) -> Option<Poured> {
    let greater = |a: ChlorineMass, b: ChlorineMass| if b > a { b } else { a };
    let at_least = |least: Band<ChlorineMass>| Band {
        low: greater(chlorine.low, least.low),
        mid: greater(chlorine.mid, least.mid),
        high: greater(chlorine.high, least.high),
    };
    match product.stock {
        Stock::Liquid { used, density, .. } => {
            let amount = |chlorine, strength| {
                let volume = dose::liquid_product(chlorine, strength);
                Amount::Liquid { volume, mass: dose::liquid_weight(volume, density) }
            };
            let least = practice.least_product.liquid;
            let water = least.map_or(chlorine, |least| at_least(used.map(|strength| least * strength)));
            let measured = measure::measure_liquid(dose::liquid_product(water.mid, used.mid), practice.system)?;
            Some(Poured {
                product: Band {
                    low: amount(water.low + beside.low, used.low),
                    mid: amount(water.mid + beside.mid, used.mid),
                    high: amount(water.high + beside.high, used.high),
                },
                amount: measured.amount,
                unit: measured.unit,
                chlorine: measured.product * used.mid,
                in_all: water.mid + beside.mid,
                liters_or_kilograms: measured.product.liters(),
            })
        }
        Stock::Dry { used, bulk_density, .. } => {
            let amount = |chlorine, strength| Amount::Dry(dose::dry_product(chlorine, strength));
            let least = practice.least_product.dry;
            let water = least.map_or(chlorine, |least| at_least(used.map(|strength| least * strength)));
            let measured = measure::measure_dry(dose::dry_product(water.mid, used.mid), bulk_density, practice.system)?;
            Some(Poured {
                product: Band {
                    low: amount(water.low + beside.low, used.low),
                    mid: amount(water.mid + beside.mid, used.mid),
                    high: amount(water.high + beside.high, used.high),
                },
                amount: measured.amount,
                unit: measured.unit,
                chlorine: measured.product * used.mid,
                in_all: water.mid + beside.mid,
                liters_or_kilograms: measured.product.kilograms(),
            })
        }
    }
}

fn effect_of(
    well: &Well,
    practice: &Practice,
    product: &Prepared,
    dose: ChlorineConcentration,
) -> Option<effect::Effect> {
    let (ph, alkalinity) = (well.water.ph?, well.water.alkalinity_mg_per_l?);
    let system = effect::CarbonateSystem::at(well.water.temperature.unwrap_or(practice.water_temperature));
    let water = effect::RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) };
    let addition =
        effect::Addition { dose, chemical: product.chemical, hydroxide_per_chlorine: product.hydroxide_per_chlorine };
    Some(effect::effect(&system, &water, &addition))
}

/// A dose above this is forbidden by at least one state code: COMAR 26.04.04.24 (Maryland), 500 mg/L.
const GREATEST_CODED_DOSE_MG_PER_L: f64 = 500.0;
/// Above this pH less than a tenth of the chlorine is HOCl at 20 C (equation H3).
const SLOW_PH: f64 = 8.5;

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
    let above = need.measured_dose.milligrams_per_liter() > GREATEST_CODED_DOSE_MG_PER_L;
    raised.raise_if(above, Caution::AboveFiveHundred);
    raised.raise_if(need.ph_after.is_some_and(|ph| ph > SLOW_PH), Caution::PhAboveEight);
    raised.raise_if(need.ph_after.is_none(), Caution::PhUnknown);
    raised.raise_if(takes_oxygen, Caution::SulfiteTakesOxygen);
    raised.raise_if(well.casing_material.as_deref().is_some_and(is_metal), Caution::MetalCasing);
    for caution in demand::demand_cautions(&well.water, need.measured_dose) {
        raised.raise(match caution {
            DemandCaution::IronWillStain { .. } | DemandCaution::ManganeseWillStain { .. } => Caution::IronStains,
            DemandCaution::AmmoniaHolds { .. } => Caution::AmmoniaBreakpoint,
        });
    }
    if let Some(rule) = practice.hold_rule {
        let check = rule.check(practice.hold, practice.residual_known(need.measured_dose));
        raised.raise_if(!check.long_enough, Caution::HoldTooShort);
        raised.raise_if(check.enough_left == Some(false), Caution::ResidualTooLow);
        raised.raise_if(check.enough_left.is_none(), Caution::MeasureResidual);
    }
    raised.raise_if(product.age_in_doubt, Caution::AgeOutOfRange);
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
