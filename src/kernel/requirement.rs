//! What one well needs under one practice with one product, in one reading: the method, told once, from standing water to
//! neutralizer.
//!
//! Told in three steps, each as wide as what it depends on, so that nothing is computed more often than its operands
//! change: [`AtRest`] follows from the well alone, [`Treatment`] from well and practice, [`Requirement`] from both and the
//! product. Each figure is one function of a sibling room; this file only puts them in order and says what is used where
//! something is not known. It refuses to know where a number came from, who reads it, and how sure it is: whoever asks puts in
//! one standing water and one strength, and gets one value of everything.

use std::cell::OnceCell;

use super::constants::{ACID_PH, CHLORATE_GUIDELINE, GREATEST_CODED_DOSE, SLOW_PH, STOCK_NEARLY_GONE, STOCK_SPENT};
use super::demand::DemandCaution;
use super::effect::{Addition, CarbonateSystem, DosedWater, KnownWater, RawWater};
use super::emptying::FlushMethod;
use super::measure::MeasureFor;
use super::moving::{self, Feed, WallWash};
use super::neutralizer::{Agent, OxygenUptake};
pub use super::pour::{Amount, Prepared, Stock};
pub use super::practice::{Practice, Routes};
use super::strength::Chemical;
pub use super::treated::{Poured, TreatedWater};
pub use super::volume::Water;
use super::{chlorate, demand, dose, neutralizer};
use crate::caution::{Caution, Cautions};
use crate::field::{DischargeRoute, WellType};
use crate::quantity::basis::{CarbonateConcentration, ChlorateConcentration};
use crate::quantity::unit::DAY_S;
use crate::quantity::{
    AgentMass, ChlorineConcentration, ChlorineMass, Length, ThermodynamicTemperature, Time, Volume, VolumeRate,
};
use crate::well::Well;

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
    /// Target and demand together, before the product is rounded up to a measure.
    pub dose: ChlorineConcentration,
    /// Chlorine to put in, in all: for the water, the wall wash and a spring's feed.
    pub chlorine: ChlorineMass,
    /// Product computed, in all, that what is measured out was rounded up from.
    pub product: Amount,
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

/// What follows from a well alone, whatever is done there.
#[derive(Debug)]
pub struct AtRest<'a> {
    well: &'a Well,
    standing: Water<'a>,
    water_column: Option<Length>,
    cautions: Cautions,
    /// The water of known pH at the temperature it was asked for last: measured, it is the same under every practice.
    water: Option<(ThermodynamicTemperature, KnownWater)>,
}

impl<'a> AtRest<'a> {
    /// A well with its standing water in one reading, and the cautions that it raises by itself.
    pub fn of(well: &'a Well, standing: Water<'a>) -> Self {
        let water_column = standing.column();
        Self { well, standing, water_column, cautions: cautions_at_rest(well), water: None }
    }

    /// The water where its pH and alkalinity are known, with its constants.
    fn water(&mut self, practice: &PreparedPractice<'_>) -> Option<KnownWater> {
        let well = self.well;
        let (ph, alkalinity) = (well.water.ph?, well.water.alkalinity_mg_per_l?);
        let temperature = well.water.temperature.unwrap_or(practice.practice.water_temperature);
        if let Some((_, known)) = self.water.filter(|(at, _)| *at == temperature) {
            return Some(known);
        }
        let system = match well.water.temperature {
            Some(measured) => CarbonateSystem::at(measured),
            None => practice.constants(),
        };
        let raw = RawWater { ph, alkalinity: CarbonateConcentration::from_milligrams_per_liter(alkalinity) };
        let known = KnownWater::of(&system, &raw);
        self.water = Some((temperature, known));
        Some(known)
    }
}

/// A practice with what follows from it alone.
#[derive(Debug)]
pub struct PreparedPractice<'a> {
    practice: &'a Practice,
    /// The constants of water at the temperature that the practice states, once they are needed.
    constants: OnceCell<CarbonateSystem>,
    hold_required: Option<Time>,
}

impl<'a> PreparedPractice<'a> {
    /// Makes a practice ready for any number of wells.
    pub fn of(practice: &'a Practice) -> Self {
        let hold_required = practice.hold_rule.as_ref().and_then(|rule| rule.least_hold(practice.target));
        Self { practice, constants: OnceCell::new(), hold_required }
    }

    fn constants(&self) -> CarbonateSystem {
        *self.constants.get_or_init(|| CarbonateSystem::at(self.practice.water_temperature))
    }
}

/// What follows from a well and a practice, whatever the product.
#[derive(Debug)]
pub struct Treatment<'a> {
    well: &'a Well,
    practice: &'a Practice,
    hold_required: Option<Time>,
    water_column: Option<Length>,
    standing_volume: Volume,
    demand: ChlorineConcentration,
    dose: ChlorineConcentration,
    treated: TreatedWater<'a>,
    water: Option<KnownWater>,
    neutralize: bool,
    cautions: Cautions,
}

impl<'a> Treatment<'a> {
    /// Demand (N1), dose (D1), and the water that is treated.
    #[inline(always)] // Made where it is kept: half a kilobyte, for each well and practice.
    pub fn of(rest: &mut AtRest<'a>, prepared: &PreparedPractice<'a>) -> Self {
        let (well, practice) = (rest.well, prepared.practice);
        let demand = demand::demand(&well.water, practice.demand_factors).unwrap_or(practice.demand_allowance);
        let dose = dose::dose(practice.target, demand);
        Self {
            well,
            practice,
            hold_required: prepared.hold_required,
            water_column: rest.water_column,
            standing_volume: rest.standing.volume,
            demand,
            dose,
            treated: TreatedWater::of(well, practice, dose, rest.standing),
            water: rest.water(prepared),
            neutralize: well.discharge_route.is_none_or(|route| practice.neutralize_routes.contains(route)),
            cautions: rest.cautions,
        }
    }

    /// Which well.
    pub const fn well(&self) -> &'a Well {
        self.well
    }

    /// How it is treated.
    pub const fn practice(&self) -> &'a Practice {
        self.practice
    }

    /// The water that is treated.
    pub const fn treated(&self) -> &TreatedWater<'a> {
        &self.treated
    }

    /// What would be treated if other water stood in the well, at the same dose.
    pub fn treated_of(&self, standing: Water<'_>) -> TreatedWater<'a> {
        TreatedWater::of(self.well, self.practice, self.dose, standing)
    }

    /// What comes of it once so much of a product is poured: what the measured amount gives (D5), chlorate (A6), effect (P2,
    /// H3), predilution (L1), flush (F1, F3) or emptying (E3, E4), neutralizer (R3) and what it does to pH (R6).
    pub fn need(&self, product: &Prepared, poured: &Poured) -> Requirement {
        let Self { well, practice, dose, .. } = *self;
        let treated_volume = self.treated.volume;
        let Poured { measured, wash, feed, .. } = *poured;
        let measured_dose = self.treated.dose_of(poured, product);
        let chlorate = match product.stock {
            Stock::Liquid { label, used, .. } => Some(chlorate::chlorate_left(measured_dose, label, used)),
            Stock::Dry { .. } => None,
        };
        let dosed = self.water.zip(product.hydroxide_per_chlorine).map(|(water, hydroxide_per_chlorine)| {
            water.dosed(&Addition { dose: measured_dose, chemical: product.chemical, hydroxide_per_chlorine })
        });
        let effect = dosed.as_ref().map(DosedWater::effect);

        let start = practice.residual(measured_dose);
        let way_out = moving::way_out(well, practice, treated_volume, start);
        let flush_volume = way_out.volume;

        let remove = neutralizer::chlorine_to_remove(start, treated_volume, practice.discharge_limit, flush_volume)
            + moving::further_to_remove(wash.as_ref(), feed.as_ref(), dose, practice.discharge_limit);
        let ratio = |agent| practice.agent_per_chlorine(agent, effect.map(|effect| effect.ph).or(well.water.ph));
        let agent_mass = |agent| neutralizer::agent_mass(remove, ratio(agent), practice.neutralizer_excess);
        let (mut neutralizer_mass, mut ph_neutralized, mut neutralizer_instead) =
            (AgentMass::from_grams(0.0), None, None);
        if self.neutralize {
            let agent = practice.neutralizer;
            neutralizer_mass = agent_mass(agent);
            if let (Some(dosed), true) = (&dosed, remove.grams() > 0.0) {
                let share = start.milligrams_per_liter() / measured_dose.milligrams_per_liter();
                let ph = neutralizer::ph_after_neutralizing(dosed, agent, ratio(agent), share);
                ph_neutralized = Some(ph);
                if ph.0 < ACID_PH.value {
                    let other = neutralizer::agent_without_acid(dosed, ratio, share);
                    neutralizer_instead = other.filter(|other| *other != agent);
                }
            }
        }

        let mut requirement = Requirement {
            water_column: self.water_column,
            standing_volume: self.standing_volume,
            treated_volume,
            demand: self.demand,
            dose,
            chlorine: self.treated.chlorine(product),
            product: poured.product,
            wash,
            feed,
            measured_amount: measured.amount,
            measured_unit: measured.unit,
            measure_for: practice.measure_for,
            measured_dose,
            dose_if_spread: moving::dose_if_spread(well, practice, treated_volume, measured_dose),
            chlorate,
            predilution: dose::predilution(practice.predilution_ratio, measured.product.bought()),
            ph_after: effect.map(|effect| effect.ph),
            hocl_share: effect.map(|effect| effect.hocl_share),
            hold: practice.hold,
            flush_method: way_out.method,
            emptyings: way_out.emptyings,
            hold_required: self.hold_required,
            flush_volume,
            flush_rate: way_out.rate,
            flush_time: way_out.time,
            route: well.discharge_route,
            neutralizer: self.neutralize.then_some(practice.neutralizer),
            chlorine_to_remove: remove,
            neutralizer_mass,
            ph_neutralized,
            neutralizer_instead,
            neutralizer_instead_mass: neutralizer_instead.map(agent_mass),
            cautions: Cautions::default(),
        };
        let mut cautions = self.cautions;
        raise_cautions(well, practice, product, &requirement, &mut cautions);
        moving::cautions(well, practice, &way_out, requirement.dose_if_spread, &mut cautions);
        requirement.cautions = cautions;
        requirement
    }
}

/// What one well needs under a practice with a product, in the reading of its standing water and of the product's strength;
/// what is measured out is for the same reading.
///
/// The steps are those of [`AtRest::of`], [`Treatment::of`], [`TreatedWater::pour`] and [`Treatment::need`].
///
/// Where something is not known: demand falls back to the practice's allowance, plumbing to the practice's volume, water
/// temperature to the practice's, flush rate to the practice's; without pH or alkalinity there is no pH after dosing;
/// without any rate there is no flush time; without a route neutralizer is counted. After the hold all the chlorine poured
/// is taken to be there still, unless the practice states a measured residual or a decay: that is the safe side for flush
/// and neutralizer.
///
/// `None` only if an amount is not a number, which proven wells, practices and products do not give.
pub fn requirement(well: &Well, standing: Water<'_>, practice: &Practice, product: &Prepared) -> Option<Requirement> {
    let treatment = Treatment::of(&mut AtRest::of(well, standing), &PreparedPractice::of(practice));
    Some(treatment.need(product, &treatment.treated.pour(product)?))
}

/// The cautions that a well raises by itself.
fn cautions_at_rest(well: &Well) -> Cautions {
    let mut raised = Cautions::default();
    let large = matches!(well.well_type, WellType::Dug | WellType::Bored | WellType::SpringBox);
    let to_water = matches!(well.discharge_route, Some(DischargeRoute::StormDrain | DischargeRoute::Stream));
    raised.raise_if(large || well.is_in_pit(), Caution::ConfinedSpace);
    raised.raise_if(well.seawater == Some(true), Caution::SeawaterDoNotEmpty);
    raised.raise_if(well.flows, Caution::FlowingWell);
    raised.raise_if(to_water, Caution::NeutralizeBeforeStream);
    raised.raise_if(well.discharge_route.is_none(), Caution::RouteUnknown);
    raised.raise_if(well.casing_material.as_deref().is_some_and(is_metal), Caution::MetalCasing);
    raised.raise_if(!well.assumed.is_empty(), Caution::Assumed);
    raised
}

/// The cautions that a treatment raises beside those of the well itself.
fn raise_cautions(well: &Well, practice: &Practice, product: &Prepared, need: &Requirement, raised: &mut Cautions) {
    let takes_oxygen = need
        .neutralizer
        .is_some_and(|agent| matches!(agent.properties().oxygen_uptake, OxygenUptake::Moderate | OxygenUptake::Strong));
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
    for caution in demand::demand_cautions(&well.water, need.measured_dose) {
        raised.raise(match caution {
            DemandCaution::IronWillStain { .. } | DemandCaution::ManganeseWillStain { .. } => Caution::IronStains,
            DemandCaution::AmmoniaHolds { .. } => Caution::AmmoniaBreakpoint,
        });
    }
    if let Some(rule) = &practice.hold_rule {
        let check = rule.check(practice.target, practice.hold, practice.residual_known(need.measured_dose));
        raised.raise_if(practice.hold_stated.is_some() || !check.long_enough, Caution::HoldTooShort);
        raised.raise_if(check.enough_left == Some(false), Caution::ResidualTooLow);
        raised.raise_if(check.enough_left.is_none(), Caution::MeasureResidual);
    }
    raised.raise_if(product.age_in_doubt, Caution::AgeOutOfRange);
    let nearly_gone = product.share_left < STOCK_NEARLY_GONE.value;
    raised.raise_if(nearly_gone, Caution::StockNearlyGone);
    raised.raise_if(!nearly_gone && product.stock.share_of_label() < STOCK_SPENT.value, Caution::StockSpent);
    let chlorate = need.chlorate.map_or(0.0, |chlorate| chlorate.milligrams_per_liter());
    // What is left is never more than what was brought.
    let left =
        |brought: f64| brought * moving::share_left(practice, need.emptyings, need.flush_volume, need.treated_volume);
    let too_much = chlorate > CHLORATE_GUIDELINE.value && left(chlorate) > CHLORATE_GUIDELINE.value;
    raised.raise_if(too_much, Caution::ChlorateLeft);
}

/// Whether a casing material as typed is a metal.
fn is_metal(material: &str) -> bool {
    const METALS: [&str; 6] = ["steel", "iron", "galv", "metal", "stl", "brass"];
    METALS
        .iter()
        .any(|metal| material.as_bytes().windows(metal.len()).any(|part| part.eq_ignore_ascii_case(metal.as_bytes())))
}
