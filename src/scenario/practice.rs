//! `[practice]` keys: each read once into a [`Setting`], which any later table (`[[scenario]]`, `[grid]`, `[[override]]`)
//! may repeat to change the practice.
//!
//! The defaults stand in [`default_practice`]. Refuses to know which well a setting will be applied to.

use uom::si::f64::{Length, ThermodynamicTemperature, Time, Volume, VolumeRate};
use uom::si::length::millimeter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::hour;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::water;
use super::written::{Section, near};
use crate::error::Result;
use crate::field::DischargeRoute;
use crate::field::rules::UnitSystem;
use crate::kernel::contact::{HoldPair, HoldRule, LeastHold};
use crate::kernel::demand::DemandFactors;
use crate::kernel::discharge;
use crate::kernel::emptying::Emptying;
use crate::kernel::measure::MeasureFor;
use crate::kernel::moving::LeastProduct;
use crate::kernel::neutralizer::{Agent, RatioBasis};
use crate::kernel::requirement::{Practice, Routes};
use crate::kernel::spring::FlowingSpring;
use crate::quantity::ChlorineConcentration;
use crate::quantity::unit::Dimension;

/// One practice key with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The key as written.
    pub key: &'static str,
    /// The value in a few words, for scenario names: `50 mg/L`.
    pub label: String,
    change: Change,
}

#[derive(Debug, Clone, PartialEq)]
enum Change {
    Target(ChlorineConcentration),
    Hold(Time),
    VolumeAllowance(f64),
    DemandAllowance(ChlorineConcentration),
    DemandFactors(DemandFactors),
    PlumbingVolume(Volume),
    PredilutionRatio(f64),
    LeastVolume(Volume),
    LeastProduct(LeastProduct),
    FlowingSpring(FlowingSpring),
    SpringRise(f64),
    Flush(water::FlushChange),
    Emptying(water::EmptyingChange),
    FlushRate(VolumeRate),
    ResidualAfterHold(ChlorineConcentration),
    ResidualDecay(f64),
    HoldRule(HoldRule),
    WaterTemperature(ThermodynamicTemperature),
    Discharge {
        limit: Option<ChlorineConcentration>,
        agent: Option<Agent>,
        ratio: Option<RatioBasis>,
        excess: Option<f64>,
        routes: Option<Routes>,
    },
    RepeatShare(f64),
    HandlingLoss(f64),
    MeasureFor(MeasureFor),
}

/// Names of the practice keys that may be an axis of the grid or stand in any table that changes the practice.
pub const KEYS: [&str; 22] = [
    "target_mg_per_l",
    "hold_hours",
    "volume_allowance",
    "demand_mg_per_l",
    "demand_factors",
    "plumbing_volume",
    "least_volume",
    "least_product",
    "flowing_spring",
    "spring_rise",
    "predilution_ratio",
    "flush",
    "emptying",
    "flush_rate",
    "residual_after_hold_mg_per_l",
    "residual_decay_per_hour",
    "hold_rule",
    "water_temperature",
    "discharge",
    "repeat_share",
    "handling_loss",
    "measure_for",
];

/// What is done where the scenario file says nothing.
///
/// Target 100 mg/L and 24 h: the most common pair in state rules (15A NCAC 02C .0111; MIL-HDBK-1164). Limit 0.011 mg/L: US
/// EPA 440/5-84-030, freshwater chronic criterion. Ascorbic acid: the field-tested preference reported in AWWA guidance, it
/// takes no oxygen. Septic systems are among the routes that are neutralized (USDA tech tip 0523 1301). Shares of repeat and
/// loss: none, because no hidden allowance may enter a total; and for the same reason what is measured out is the typical
/// amount, until the practice asks for the high one. Dug wells and spring boxes are emptied until below 0.5 mg/L, with
/// 30 minutes of waiting (WHO/WEDC Technical Note 1, 2011), after a wall wash of 200 mg/L (UNHCR/WHO 1997); 1 L of it per
/// square meter, a tenth of the chlorine carried over by each emptying, and a quarter of a spring box above its overflow are
/// common practice, no source.
pub fn default_practice(system: UnitSystem) -> Practice {
    Practice {
        target: ChlorineConcentration::from_milligrams_per_liter(100.0),
        hold: Time::new::<hour>(24.0),
        volume_allowance: 1.0,
        demand_allowance: ChlorineConcentration::from_milligrams_per_liter(0.0),
        demand_factors: DemandFactors::Stoichiometric,
        plumbing_volume: Volume::new::<cubic_meter>(0.0),
        least_volume: None,
        least_product: LeastProduct::default(),
        flowing_spring: None,
        spring_rise: 0.25,
        flush_method: None,
        emptying: Emptying {
            until: ChlorineConcentration::from_milligrams_per_liter(0.5),
            carry_over: 0.10,
            wait: Time::new::<hour>(0.5),
            wash: ChlorineConcentration::from_milligrams_per_liter(200.0),
            wash_film: Length::new::<millimeter>(1.0),
        },
        predilution_ratio: 10.0,
        flush_until: Some(ChlorineConcentration::from_milligrams_per_liter(0.1)),
        flush_volumes: None,
        flush_rate: None,
        residual_after_hold: None,
        residual_decay_per_hour: None,
        hold_rule: None,
        water_temperature: ThermodynamicTemperature::new::<kelvin>(273.15 + 12.0),
        discharge_limit: ChlorineConcentration::from_milligrams_per_liter(0.011),
        neutralizer: Agent::AscorbicAcid,
        neutralizer_ratio: None,
        neutralizer_excess: 0.10,
        neutralize_routes: Routes::default()
            .with(DischargeRoute::StormDrain)
            .with(DischargeRoute::Stream)
            .with(DischargeRoute::Septic),
        repeat_share: 0.0,
        handling_loss: 0.0,
        measure_for: MeasureFor::Typical,
        system,
    }
}

impl Setting {
    /// Reads every practice key that stands in a section, in the order of [`KEYS`].
    ///
    /// # Errors
    /// A value of the wrong kind, unit or range, with its line.
    pub fn read_all(section: &Section<'_>, system: UnitSystem) -> Result<Vec<Self>> {
        let gallon = system.gallon();
        let mut settings = Vec::new();
        let mut push = |key: &'static str, label: String, change: Change| settings.push(Self { key, label, change });
        let concentration = ChlorineConcentration::from_milligrams_per_liter;

        if let Some(value) = section.number_within("target_mg_per_l", (0.1, 20_000.0))? {
            push("target_mg_per_l", format!("{} mg/L", value), Change::Target(concentration(value)));
        }
        if let Some(value) = section.number_within("hold_hours", (0.0, 24.0 * 14.0))? {
            push("hold_hours", format!("contact time {} h", value), Change::Hold(Time::new::<hour>(value)));
        }
        if let Some(value) = section.number_within("volume_allowance", (0.1, 20.0))? {
            push("volume_allowance", format!("x {}", value), Change::VolumeAllowance(value));
        }
        if let Some(value) = section.number_within("demand_mg_per_l", (0.0, 20_000.0))? {
            let label = format!("demand {} mg/L", value);
            push("demand_mg_per_l", label, Change::DemandAllowance(concentration(value)));
        }
        if let Some(word) = section.text("demand_factors")? {
            let factors = match word.as_str() {
                "stoichiometric" => DemandFactors::Stoichiometric,
                "practice" => DemandFactors::Practice,
                other => {
                    return Err(section.error_at(
                        &section.span_of("demand_factors"),
                        format!("`demand_factors` must be \"stoichiometric\" or \"practice\", not {other:?}"),
                    ));
                }
            };
            push("demand_factors", format!("{word} demand"), Change::DemandFactors(factors));
        }
        if let Some(si) = section.quantity("plumbing_volume", Dimension::Volume, gallon)? {
            let volume = Volume::new::<cubic_meter>(not_negative(section, "plumbing_volume", si)?);
            let label = format!("plumbing {}", section.text("plumbing_volume")?.unwrap_or_default());
            push("plumbing_volume", label, Change::PlumbingVolume(volume));
        }
        if let Some(si) = section.quantity("least_volume", Dimension::Volume, gallon)? {
            let volume = Volume::new::<cubic_meter>(not_negative(section, "least_volume", si)?);
            let label = format!("at least {} of water", section.text("least_volume")?.unwrap_or_default());
            push("least_volume", label, Change::LeastVolume(volume));
        }
        if let Some((least, label)) = water::read_least_product(section, gallon)? {
            push("least_product", label, Change::LeastProduct(least));
        }
        if let Some(choice) = water::read_flowing_spring(section)? {
            let label = format!("springs {}", choice.name().replace('_', " "));
            push("flowing_spring", label, Change::FlowingSpring(choice));
        }
        if let Some(value) = section.number_within("spring_rise", (0.0, 10.0))? {
            push("spring_rise", format!("springs rise {} %", percent(value)), Change::SpringRise(value));
        }
        if let Some(value) = section.number_within("predilution_ratio", (0.0, 1000.0))? {
            push("predilution_ratio", format!("1:{}", value), Change::PredilutionRatio(value));
        }
        if let Some((flush, label)) = water::read_flush(section)? {
            push("flush", label, Change::Flush(flush));
        }
        if let Some((emptying, label)) = water::read_emptying(section)? {
            push("emptying", label, Change::Emptying(emptying));
        }
        if let Some(si) = section.quantity("flush_rate", Dimension::Flow, gallon)? {
            if si <= 0.0 {
                return Err(section.error_at(&section.span_of("flush_rate"), "`flush_rate` must be more than zero"));
            }
            let label = format!("flush at {}", section.text("flush_rate")?.unwrap_or_default());
            push("flush_rate", label, Change::FlushRate(VolumeRate::new::<cubic_meter_per_second>(si)));
        }
        if let Some(value) = section.number_within("residual_after_hold_mg_per_l", (0.0, 20_000.0))? {
            let label = format!("residual {} mg/L", value);
            push("residual_after_hold_mg_per_l", label, Change::ResidualAfterHold(concentration(value)));
        }
        if let Some(value) = section.number_within("residual_decay_per_hour", (0.0, 10.0))? {
            push("residual_decay_per_hour", format!("decay {value} 1/h"), Change::ResidualDecay(value));
        }
        if let Some(rule) = section.section("hold_rule")? {
            let (rule, label) = read_hold_rule(&rule)?;
            push("hold_rule", label, Change::HoldRule(rule));
        }
        if let Some(si) = section.quantity("water_temperature", Dimension::Temperature, gallon)? {
            if !(272.15..=333.15).contains(&si) {
                let rule = "`water_temperature` must lie between -1 C and 60 C";
                return Err(section.error_at(&section.span_of("water_temperature"), rule));
            }
            let label = format!("water at {}", section.text("water_temperature")?.unwrap_or_default());
            let temperature = ThermodynamicTemperature::new::<kelvin>(si);
            push("water_temperature", label, Change::WaterTemperature(temperature));
        }
        if let Some(discharge) = section.section("discharge")? {
            let change = read_discharge(&discharge)?;
            push("discharge", "other discharge".to_owned(), change);
        }
        if let Some(value) = section.number_within("repeat_share", (0.0, 10.0))? {
            push("repeat_share", format!("{} % repeated", percent(value)), Change::RepeatShare(value));
        }
        if let Some(value) = section.number_within("handling_loss", (0.0, 1.0))? {
            push("handling_loss", format!("{} % lost", percent(value)), Change::HandlingLoss(value));
        }
        if let Some(word) = section.text("measure_for")? {
            let Some(side) = [MeasureFor::Typical, MeasureFor::High].into_iter().find(|side| side.name() == word)
            else {
                let reason = format!("`measure_for` must be \"typical\" or \"high\", not {word:?}");
                return Err(section.error_at(&section.span_of("measure_for"), reason));
            };
            push("measure_for", format!("measured for the {word} reading"), Change::MeasureFor(side));
        }
        Ok(settings)
    }

    /// Changes a practice.
    pub fn apply(&self, practice: &mut Practice) {
        match &self.change {
            Change::Target(value) => practice.target = *value,
            Change::Hold(value) => practice.hold = *value,
            Change::VolumeAllowance(value) => practice.volume_allowance = *value,
            Change::DemandAllowance(value) => practice.demand_allowance = *value,
            Change::DemandFactors(value) => practice.demand_factors = *value,
            Change::PlumbingVolume(value) => practice.plumbing_volume = *value,
            Change::PredilutionRatio(value) => practice.predilution_ratio = *value,
            Change::Flush(change) => change.apply(practice),
            Change::LeastVolume(value) => practice.least_volume = Some(*value),
            Change::LeastProduct(value) => practice.least_product = *value,
            Change::FlowingSpring(value) => practice.flowing_spring = Some(*value),
            Change::SpringRise(value) => practice.spring_rise = *value,
            Change::Emptying(change) => change.apply(&mut practice.emptying),
            Change::FlushRate(value) => practice.flush_rate = Some(*value),
            Change::ResidualAfterHold(value) => practice.residual_after_hold = Some(*value),
            Change::ResidualDecay(value) => practice.residual_decay_per_hour = Some(*value),
            Change::HoldRule(value) => practice.hold_rule = Some(value.clone()),
            Change::WaterTemperature(value) => practice.water_temperature = *value,
            Change::Discharge { limit, agent, ratio, excess, routes } => {
                practice.neutralizer_ratio = ratio.or(practice.neutralizer_ratio);
                practice.discharge_limit = limit.unwrap_or(practice.discharge_limit);
                practice.neutralizer = agent.unwrap_or(practice.neutralizer);
                practice.neutralizer_excess = excess.unwrap_or(practice.neutralizer_excess);
                practice.neutralize_routes = routes.unwrap_or(practice.neutralize_routes);
            }
            Change::RepeatShare(value) => practice.repeat_share = *value,
            Change::HandlingLoss(value) => practice.handling_loss = *value,
            Change::MeasureFor(value) => practice.measure_for = *value,
        }
    }
}

/// `{ at_least_hours = 24 }`, or `{ table = [{ mg_per_l = 100, hours = 10 }, ...] }`, either with a residual; and its name.
fn read_hold_rule(rule: &Section<'_>) -> Result<(HoldRule, String)> {
    let concentration = ChlorineConcentration::from_milligrams_per_liter;
    let hours = rule.number_within("at_least_hours", (0.0, 336.0))?;
    let (least_hold, label) = match (hours, rule.has("table")) {
        (Some(hours), false) => (LeastHold::Always(Time::new::<hour>(hours)), format!("rule of {hours} h")),
        (None, true) => {
            let pairs = read_hold_pairs(rule)?;
            let label = format!("rule of {} pairs", pairs.len());
            (LeastHold::ByConcentration(pairs), label)
        }
        _ => {
            return Err(rule.error(
                "`hold_rule` needs `at_least_hours`, or a `table` of concentrations and hours such as \
                 [{ mg_per_l = 100, hours = 10 }, { mg_per_l = 250, hours = 4 }]",
            ));
        }
    };
    let residual = rule.number_within("residual_at_least_mg_per_l", (0.0, 1000.0))?;
    rule.finish()?;
    Ok((HoldRule { least_hold, least_residual: residual.map(concentration) }, label))
}

/// The rows of a code's table: the stronger, the shorter.
fn read_hold_pairs(rule: &Section<'_>) -> Result<Vec<HoldPair>> {
    let mut pairs: Vec<HoldPair> = Vec::new();
    for row in rule.sections("table")? {
        let (from, hours) =
            (row.number_within("mg_per_l", (0.1, 20_000.0))?, row.number_within("hours", (0.0, 336.0))?);
        row.finish()?;
        let (Some(from), Some(hours)) = (from, hours) else {
            return Err(row.error("a row of the table needs `mg_per_l` and `hours`"));
        };
        let pair =
            HoldPair { from: ChlorineConcentration::from_milligrams_per_liter(from), hold: Time::new::<hour>(hours) };
        if pairs.last().is_some_and(|before| pair.from <= before.from || pair.hold > before.hold) {
            return Err(
                row.error("the rows must go from weak to strong, and a stronger one must not ask for more hours")
            );
        }
        pairs.push(pair);
    }
    if pairs.is_empty() {
        return Err(rule.error_at(&rule.span_of("table"), "`table` is an empty list"));
    }
    Ok(pairs)
}

fn read_discharge(section: &Section<'_>) -> Result<Change> {
    let mut limit =
        section.number_within("limit_mg_per_l", (0.0, 100.0))?.map(ChlorineConcentration::from_milligrams_per_liter);
    if let Some(name) = section.text("rule")? {
        let span = section.span_of("rule");
        let Some(rule) = discharge::RULES.iter().find(|rule| rule.id == name) else {
            let known: Vec<&str> = discharge::RULES.iter().map(|rule| rule.id).collect();
            let reason = format!("no built-in rule {name:?}{}; known: {}", near(&name, &known), known.join(", "));
            return Err(section.error_at(&span, reason));
        };
        if limit.is_some() {
            return Err(section.error_at(&span, "give `rule` or `limit_mg_per_l`, not both"));
        }
        limit = Some(rule.limit());
    }
    let agent = match section.text("neutralizer")? {
        None => None,
        Some(name) => Some(agent_named(section, "neutralizer", &name)?),
    };
    let ratio = match section.text("ratio")?.as_deref() {
        None => None,
        Some("stoichiometric") => Some(RatioBasis::Stoichiometric),
        Some("field") => Some(RatioBasis::Field),
        Some(other) => {
            let reason = format!("`ratio` must be \"stoichiometric\" or \"field\", not {other:?}");
            return Err(section.error_at(&section.span_of("ratio"), reason));
        }
    };
    let excess = section.number_within("excess", (0.0, 10.0))?;
    let routes = match section.texts("routes")? {
        None => None,
        Some(names) => {
            let mut routes = Routes::default();
            for (name, span) in names {
                let Some(route) = DischargeRoute::by_name(&name) else {
                    let known = DischargeRoute::ALL.map(DischargeRoute::name);
                    let reason = format!("no route {name:?}{}; known: {}", near(&name, &known), known.join(", "));
                    return Err(section.error_at(&span, reason));
                };
                routes = routes.with(route);
            }
            Some(routes)
        }
    };
    section.finish()?;
    Ok(Change::Discharge { limit, agent, ratio, excess, routes })
}

/// The agent with this name, or an error that lists them.
///
/// # Errors
/// When there is no such agent.
pub fn agent_named(section: &Section<'_>, key: &'static str, name: &str) -> Result<Agent> {
    Agent::by_name(name).ok_or_else(|| {
        let known: Vec<&str> = Agent::ALL.iter().map(|agent| agent.name()).collect();
        let reason = format!("no neutralizer {name:?}{}; known: {}", near(name, &known), known.join(", "));
        section.error_at(&section.span_of(key), reason)
    })
}

/// A share as percent, free of binary dust: 0.07 is 7, not 7.000000000000001.
fn percent(share: f64) -> f64 {
    (share * 1e8).round() / 1e6
}

fn not_negative(section: &Section<'_>, key: &'static str, si: f64) -> Result<f64> {
    if si < 0.0 {
        return Err(section.error_at(&section.span_of(key), format!("`{key}` must not be negative")));
    }
    Ok(si)
}
