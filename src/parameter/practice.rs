//! What is done at every well: the keys of `[practice]`, which scenarios, grids and overrides may repeat.

use uom::si::f64::{Length, Mass, ThermodynamicTemperature, Time, Volume, VolumeRate};
use uom::si::length::millimeter;
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::hour;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::{
    Choice, Effect, Kind, Parameter, Stated, Taken, Value, Vocabulary, Within, flow, mass, temperature, volume,
};
use crate::field::DischargeRoute;
use crate::field::rules::UnitSystem;
use crate::kernel::agent::{Agent, RatioBasis};
use crate::kernel::demand::DemandFactors;
use crate::kernel::discharge;
use crate::kernel::emptying::FlushMethod;
use crate::kernel::measure::MeasureFor;
use crate::kernel::requirement::{Practice, Routes};
use crate::kernel::spring::FlowingSpring;
use crate::quantity::unit;
use crate::quantity::{ChlorineConcentration, ProductMass, ProductVolume};

fn concentration(value: &Value) -> ChlorineConcentration {
    ChlorineConcentration::from_milligrams_per_liter(value.number())
}

fn milligrams(concentration: ChlorineConcentration) -> Value {
    Value::Number(concentration.milligrams_per_liter())
}

fn hours(value: &Value) -> Time {
    Time::new::<hour>(value.number())
}

fn in_hours(time: Time) -> Value {
    Value::Number(time.value / 3600.0)
}

fn cubic_meters(value: &Value) -> Volume {
    Volume::new::<cubic_meter>(value.number())
}

/// Words of the groups: each of its parts, in order.
fn each(stated: &[Stated]) -> String {
    stated.iter().map(|part| part.label.as_str()).collect::<Vec<_>>().join(", ")
}

fn keep(_: &mut Practice, _: &[Stated]) {}

const COMMON: &str = "common practice, no source";

/// Every key of the practice, in the order in which people read them.
pub static PRACTICE: Vocabulary = Vocabulary::of(&[
    Parameter::number("target_mg_per_l", "Target", "mg/L", (0.1, 20_000.0))
        .else_number(100.0)
        .after("the most common figure in state rules (15A NCAC 02C .0111; MIL-HDBK-1164)")
        .means("Free chlorine wanted in the well once its demand is met, as Cl2.")
        .sets("{} mg/L", 0, |practice, value| practice.target = concentration(value), |practice| milligrams(practice.target)),
    Parameter::number("demand_mg_per_l", "Demand where nothing was measured", "mg/L", (0.0, 20_000.0))
        .else_number(0.0)
        .after("none: no hidden allowance may enter a total")
        .means("Chlorine that the water uses up, where the list gives no iron, manganese, sulfide, ammonia, nitrite or carbon.")
        .sets(
            "demand {} mg/L",
            1,
            |practice, value| practice.demand_allowance = concentration(value),
            |practice| milligrams(practice.demand_allowance),
        ),
    Parameter::choice("demand_factors", "Demand factors where something was measured", "", || {
        DemandFactors::ALL.map(DemandFactors::name).to_vec()
    })
    .else_word("stoichiometric")
    .after("the reactions themselves")
    .means("stoichiometric: by the reactions; practice: the larger factors that many operators use.")
    .sets(
        "{} demand",
        0,
        |practice, value| {
            practice.demand_factors = DemandFactors::by_name(value.word()).unwrap_or(practice.demand_factors);
        },
        |practice| Value::Word(practice.demand_factors.name()),
    ),
    Parameter::number("hold_hours", "Contact time", "h", (0.0, 336.0))
        .else_number(24.0)
        .after("the most common figure in state rules (15A NCAC 02C .0111; MIL-HDBK-1164)")
        .means("How long the chlorine stays in the well.")
        .sets("contact time {} h", 0, |practice, value| practice.hold = hours(value), |practice| in_hours(practice.hold)),
    Parameter::table("hold_rule", "Rule for the contact time", &HOLD_RULE)
        .else_words("none is checked")
        .means("A code's own hours, or its pairs of concentration and hours; required and shown beside the contact time.")
        .sets(
            "rule of {}",
            0,
            |practice, value| {
                if let Value::HoldRule(rule) = value {
                    practice.hold_rule = Some(rule.clone());
                }
            },
            |practice| practice.hold_rule.clone().map_or(Value::Unset, Value::HoldRule),
        ),
    Parameter::choice("measure_for", "Measured for (the side on which the amount meets the target)", "", || {
        vec![MeasureFor::Typical.name(), MeasureFor::High.name()]
    })
    .else_word("typical")
    .after("no hidden allowance may enter an amount")
    .means("typical: the water and strength that are planned with; high: the most water and the weakest product allowed for.")
    .sets(
        "measured for the {} reading",
        0,
        |practice, value| {
            practice.measure_for =
                if value.word() == MeasureFor::High.name() { MeasureFor::High } else { MeasureFor::Typical };
        },
        |practice| Value::Word(practice.measure_for.name()),
    ),
    Parameter::number("volume_allowance", "Treated ÷ standing volume", "x", (0.1, 20.0))
        .else_number(1.0)
        .after("none: no hidden allowance may enter a total")
        .means("Water that is treated over the water that stands in the well: for gravel pack and formation.")
        .sets(
            "x {}",
            2,
            |practice, value| practice.volume_allowance = value.number(),
            |practice| Value::Number(practice.volume_allowance),
        ),
    Parameter::new("plumbing_volume", "Plumbing where the list gives none", volume(Within::NotNegative))
        .else_number(0.0)
        .after("none: no hidden allowance may enter a total")
        .means("Water in pipes, pressure tank and heater that is treated with the well.")
        .sets(
            "plumbing {}",
            0,
            |practice, value| practice.plumbing_volume = cubic_meters(value),
            |practice| Value::Number(practice.plumbing_volume.value),
        ),
    Parameter::new("least_volume", "Water treated at least", volume(Within::NotNegative))
        .else_words("no least amount")
        .means("Water that is treated at least, however small the well.")
        .sets(
            "at least {} of water",
            0,
            |practice, value| practice.least_volume = Some(cubic_meters(value)),
            |practice| Value::optional(practice.least_volume.map(|least| least.value)),
        ),
    Parameter::table("least_product", "Product added at least", &LEAST_PRODUCT)
        .else_words("no least amount")
        .means("Product that is poured at least, however small the well.")
        .groups(
            |stated| {
                let amounts: Vec<&str> = stated.iter().map(|part| part.label.as_str()).collect();
                format!("at least {} of product", amounts.join(" or "))
            },
            |practice, _| practice.least_product = crate::kernel::practice::LeastProduct::default(),
        ),
    Parameter::choice("flowing_spring", "Springs that flow", "", || FlowingSpring::ALL.map(FlowingSpring::name).to_vec())
        .else_words("not stated: held back")
        .means(
            "What is done at a spring whose inflow replaces its water during the contact time: isolated (overflow closed, \
             supply off), feed (chlorine fed all through), or hold_back.",
        )
        .sets(
            "springs {}",
            0,
            |practice, value| practice.flowing_spring = FlowingSpring::by_name(value.word()),
            |practice| practice.flowing_spring.map_or(Value::Unset, |choice| Value::Word(choice.name())),
        ),
    Parameter::share("spring_rise", "Room above a spring box's overflow, of its water", (0.0, 10.0))
        .else_number(0.25)
        .after(COMMON)
        .means("How far an isolated spring box may rise, as a part of the water that stands in it.")
        .sets(
            "springs rise {} %",
            0,
            |practice, value| practice.spring_rise = value.number(),
            |practice| Value::Number(practice.spring_rise),
        ),
    Parameter::number("predilution_ratio", "Dilution before pouring, water per product", "L/L or L/kg", (0.0, 1000.0))
        .else_number(10.0)
        .after(COMMON)
        .means("Water per product before pouring.")
        .sets(
            "1:{}",
            0,
            |practice, value| practice.predilution_ratio = value.number(),
            |practice| Value::Number(practice.predilution_ratio),
        ),
    Parameter::new("flush", "How the chlorine is removed", Kind::ChoiceOrTable(METHODS, &FLUSH))
        .else_words("dug wells and spring boxes emptied and refilled, others flushed")
        .means("The method for all wells, or how far they are flushed.")
        .groups(
            |stated| {
                let said = |key: &str| stated.iter().find(|part| part.key == key).map(|part| part.label.clone());
                said("until_mg_per_l").or_else(|| said("volumes")).or_else(|| said("method")).unwrap_or_default()
            },
            // Both measures of a flush belong together: stating one takes the other back.
            |practice, stated| {
                if stated.iter().any(|part| part.key != "method") {
                    (practice.flush_until, practice.flush_volumes) = (None, None);
                }
            },
        ),
    Parameter::table("emptying", "Wells that are emptied", &EMPTYING)
        .means("How dug wells and spring boxes are emptied and refilled.")
        .groups(each, keep),
    Parameter::new(
        "flush_rate",
        "Flush rate where none is known, and of a pump brought to empty a well",
        flow(Within::Positive),
    )
    .else_words("none: hours are not given where no rate is known")
    .means("Used where neither pump rate nor yield is known.")
    .sets(
        "flush at {}",
        1,
        |practice, value| practice.flush_rate = Some(VolumeRate::new::<cubic_meter_per_second>(value.number())),
        |practice| Value::optional(practice.flush_rate.map(|rate| rate.value)),
    ),
    Parameter::number(
        "residual_after_hold_mg_per_l",
        "Residual after the contact time (none: all is taken to be still there)",
        "mg/L",
        (0.0, 20_000.0),
    )
    .else_words("all of the chlorine is taken to be there still")
    .means("Measured after the contact time: less to flush and to neutralize.")
    .sets(
        "residual {} mg/L",
        1,
        |practice, value| practice.residual_after_hold = Some(concentration(value)),
        |practice| practice.residual_after_hold.map_or(Value::Unset, milligrams),
    ),
    Parameter::number("residual_decay_per_hour", "Decay during the contact time, where no residual is stated", "1/h", (0.0, 10.0))
        .else_words("none")
        .means("Share of the residual that goes each hour, as a first-order rate.")
        .sets(
            "decay {} 1/h",
            3,
            |practice, value| practice.residual_decay_per_hour = Some(value.number()),
            |practice| Value::optional(practice.residual_decay_per_hour),
        ),
    Parameter::new(
        "water_temperature",
        "Water temperature where not measured",
        Kind::Quantity(temperature(Within::Between(-1.0, 60.0))),
    )
    .else_number(12.0)
    .after(COMMON)
    .means("For the pH after dosing, where the list gives no temperature.")
    .sets(
        "water at {}",
        0,
        |practice, value| practice.water_temperature = ThermodynamicTemperature::new::<kelvin>(value.number()),
        |practice| Value::Number(practice.water_temperature.value),
    ),
    Parameter::table("discharge", "Discharge", &DISCHARGE)
        .means("What may be let go where, and what takes the chlorine out before.")
        .groups(|_| "other discharge".to_owned(), keep),
    Parameter::share("repeat_share", "Wells re-treated", (0.0, 10.0))
        .else_number(0.0)
        .after("none: no hidden allowance may enter a total")
        .means("Share of the wells that must be treated again; added to the order as a figure of its own.")
        .sets(
            "{} % repeated",
            0,
            |practice, value| practice.repeat_share = value.number(),
            |practice| Value::Number(practice.repeat_share),
        ),
    Parameter::share("handling_loss", "Product lost in handling", (0.0, 1.0))
        .else_number(0.0)
        .after("none: no hidden allowance may enter a total")
        .means("Spilled, spoiled, left in the drum; added to the order as a figure of its own.")
        .sets(
            "{} % lost",
            0,
            |practice, value| practice.handling_loss = value.number(),
            |practice| Value::Number(practice.handling_loss),
        ),
]);

static HOLD_RULE: Vocabulary = Vocabulary::of(&[
    Parameter::number("at_least_hours", "Hours that the rule asks for", "h", (0.0, 336.0))
        .means("The same for every concentration."),
    Parameter::tables("table", "Pairs that the rule asks for", &HOLD_PAIR)
        .means("From weak to strong; a stronger one must not ask for more hours."),
    Parameter::number(
        "residual_at_least_mg_per_l",
        "Residual that the rule asks for at the end",
        "mg/L",
        (0.0, 1000.0),
    )
    .means("Where the rule names one."),
]);

static HOLD_PAIR: Vocabulary = Vocabulary::of(&[
    Parameter::number("mg_per_l", "Concentration", "mg/L", (0.1, 20_000.0)).needed(),
    Parameter::number("hours", "Hours", "h", (0.0, 336.0)).needed(),
]);

static LEAST_PRODUCT: Vocabulary = Vocabulary::of(&[
    Parameter::new("liquid", "Product added at least, liquid", volume(Within::NotNegative))
        .else_words("no least amount")
        .sets(
            "{}",
            3,
            |practice, value| practice.least_product.liquid = Some(ProductVolume::new(cubic_meters(value))),
            |practice| Value::optional(practice.least_product.liquid.map(|least| least.liters() / 1000.0)),
        ),
    Parameter::new("dry", "Product added at least, dry", mass(Within::NotNegative)).else_words("no least amount").sets(
        "{}",
        3,
        |practice, value| {
            practice.least_product.dry = Some(ProductMass::new(Mass::new::<kilogram>(value.number())));
        },
        |practice| Value::optional(practice.least_product.dry.map(|least| least.kilograms())),
    ),
]);

const METHODS: Choice = Choice { noun: "", words: || vec!["empty_and_refill", "mixed_tank"] };

static FLUSH: Vocabulary = Vocabulary::of(&[
    Parameter::new("method", "How the chlorine is removed", Kind::Choice(METHODS))
        .else_words("dug wells and spring boxes emptied and refilled, others flushed")
        .means("empty_and_refill: every well is emptied; mixed_tank: every well is flushed.")
        .sets(
            "{}",
            0,
            |practice, value| practice.flush_method = FlushMethod::by_name(value.word()),
            |practice| practice.flush_method.map_or(Value::Unset, |method| Value::Word(method.name())),
        ),
    Parameter::number("until_mg_per_l", "Flush of the others until", "mg/L", (0.001, 100.0))
        .else_number(0.1)
        .after(COMMON)
        .means("Flushed until this residual, as an ideal mixed tank.")
        .sets(
            "flush to {} mg/L",
            3,
            |practice, value| practice.flush_until = Some(concentration(value)),
            |practice| practice.flush_until.map_or(Value::Unset, milligrams),
        ),
    Parameter::number("volumes", "Flush of the others at least, treated volumes", "", (0.0, 1000.0))
        .else_words("no least number")
        .means("Flushed at least so many treated volumes; with a residual as well, whichever needs more water.")
        .sets(
            "flush {} volumes",
            1,
            |practice, value| practice.flush_volumes = Some(value.number()),
            |practice| Value::optional(practice.flush_volumes),
        ),
]);

static EMPTYING: Vocabulary = Vocabulary::of(&[
    Parameter::number("until_mg_per_l", "Empty again until below", "mg/L", (0.001, 100.0))
        .else_number(0.5)
        .after("WHO/WEDC Technical Note 1, 2011")
        .means("The well is ready when less than this is left after a refill.")
        .sets(
            "empty to {} mg/L",
            2,
            |practice, value| practice.emptying.until = concentration(value),
            |practice| milligrams(practice.emptying.until),
        ),
    Parameter::share("carry_over", "Chlorine back again after one emptying", (0.001, 0.9))
        .else_number(0.10)
        .after(COMMON)
        .means("What stays in the sump, on the walls and behind them.")
        .sets(
            "{} % carried over",
            0,
            |practice, value| practice.emptying.carry_over = value.number(),
            |practice| Value::Number(practice.emptying.carry_over),
        ),
    Parameter::number("wait_hours", "Wait after each refill", "h", (0.0, 48.0))
        .else_number(0.5)
        .after("WHO/WEDC Technical Note 1, 2011")
        .means("Least wait before the chlorine is measured.")
        .sets(
            "wait {} h",
            1,
            |practice, value| practice.emptying.wait = hours(value),
            |practice| in_hours(practice.emptying.wait),
        ),
    Parameter::number("wall_wash_mg_per_l", "Wall wash of wells that are emptied", "mg/L", (0.0, 20_000.0))
        .else_number(200.0)
        .after("UNHCR/WHO 1997")
        .means("Strength of the wall wash.")
        .sets(
            "walls {} mg/L",
            0,
            |practice, value| practice.emptying.wash = concentration(value),
            |practice| milligrams(practice.emptying.wash),
        ),
    Parameter::number("liters_per_square_meter", "Wall wash per wall", "L/m2", (0.0, 50.0))
        .else_number(1.0)
        .after(COMMON)
        .means("Wall wash for each square meter of wall.")
        .sets(
            "walls {} L/m2",
            1,
            |practice, value| practice.emptying.wash_film = Length::new::<millimeter>(value.number()),
            |practice| Value::Number(practice.emptying.wash_film.value * 1000.0),
        ),
]);

static DISCHARGE: Vocabulary = Vocabulary::of(&[
    Parameter::number("limit_mg_per_l", "Discharge limit", "mg/L", (0.0, 100.0))
        .else_number(0.011)
        .after("US EPA 440/5-84-030, freshwater chronic criterion")
        .means("Chlorine that may be let go on the routes that are neutralized.")
        .sets(
            "limit {} mg/L",
            4,
            |practice, value| practice.discharge_limit = concentration(value),
            |practice| milligrams(practice.discharge_limit),
        ),
    Parameter::choice("rule", "Discharge rule, in place of the limit", "built-in rule", || {
        discharge::RULES.iter().map(|rule| rule.id).collect()
    })
    .else_words("the limit above")
    .means("A built-in rule whose limit is taken; `aftercrest explain discharge` lists them.")
    .sets(
        "rule {}",
        0,
        |practice, value| {
            practice.discharge_limit =
                discharge::rule(value.word()).map_or(practice.discharge_limit, |rule| rule.limit());
        },
        |_| Value::Unset,
    ),
    Parameter::choice("neutralizer", "Neutralizer", "neutralizer", || Agent::ALL.map(Agent::name).to_vec())
        .else_word("ascorbic_acid")
        .after("the field-tested preference reported in AWWA guidance; it takes no oxygen")
        .means("What takes the chlorine out.")
        .sets(
            "{}",
            0,
            |practice, value| practice.neutralizer = Agent::by_name(value.word()).unwrap_or(practice.neutralizer),
            |practice| Value::Word(practice.neutralizer.name()),
        ),
    Parameter::choice("ratio", "Ratio of agent to chlorine", "", || vec!["stoichiometric", "field"])
        .else_words("as is usual for the agent")
        .means("stoichiometric: by the reaction; field: by the field tables.")
        .sets(
            "{} ratio",
            0,
            |practice, value| {
                let field = value.word() == "field";
                practice.neutralizer_ratio = Some(if field { RatioBasis::Field } else { RatioBasis::Stoichiometric });
            },
            |practice| {
                practice.neutralizer_ratio.map_or(Value::Unset, |ratio| match ratio {
                    RatioBasis::Stoichiometric => Value::Word("stoichiometric"),
                    RatioBasis::Field => Value::Word("field"),
                })
            },
        ),
    Parameter::share("excess", "Extra neutralizer", (0.0, 10.0))
        .else_number(0.10)
        .after(COMMON)
        .means("Agent beyond the ratio.")
        .sets(
            "{} % extra neutralizer",
            0,
            |practice, value| practice.neutralizer_excess = value.number(),
            |practice| Value::Number(practice.neutralizer_excess),
        ),
    Parameter::new(
        "routes",
        "Routes that are neutralized (and every unknown one)",
        Kind::Choices(Choice { noun: "route", words: || DischargeRoute::ALL.map(DischargeRoute::name).to_vec() }),
    )
    .else_several(&["storm_drain", "stream", "septic"])
    .after("septic systems: USDA tech tip 0523 1301")
    .means("Where the flush water is neutralized; an unknown route always is.")
    .sets(
        "{}",
        0,
        |practice, value| {
            practice.neutralize_routes = value
                .words()
                .iter()
                .filter_map(|word| DischargeRoute::by_name(word))
                .fold(Routes::default(), Routes::with);
        },
        |practice| {
            let routes = DischargeRoute::ALL.into_iter().filter(|route| practice.neutralize_routes.contains(*route));
            Value::Words(routes.map(DischargeRoute::name).collect())
        },
    ),
]);

impl Parameter {
    const fn else_several(mut self, words: &'static [&'static str]) -> Self {
        self.default = Taken::Several(words);
        self
    }
}

/// Every value of the practice, the parts of its groups in place of them: the group's key, where there is one, and the value.
pub fn of_practice() -> impl Iterator<Item = (Option<&'static Parameter>, &'static Parameter)> {
    PRACTICE.own.iter().flat_map(|parameter| match (parameter.effect, parameter.keys()) {
        (Some(Effect::Group { .. }), Some(keys)) => keys.own.iter().map(|part| (Some(parameter), part)).collect(),
        _ => vec![(None, parameter)],
    })
}

/// What is done where the campaign says nothing.
pub fn default_practice(system: UnitSystem) -> Practice {
    let mut practice = Practice::nothing_stated(system);
    for (_, parameter) in of_practice() {
        let Some(Effect::Sets { set, .. }) = parameter.effect else { continue };
        let value = match parameter.default {
            Taken::Words(_) => continue,
            Taken::Word(word) => Value::Word(word),
            Taken::Several(words) => Value::Words(words.to_vec()),
            Taken::Number(number) => {
                let own = parameter.measured().and_then(|measured| unit::by_symbol(measured.unit));
                Value::Number(own.map_or(number, |unit| unit.to_si(number)))
            }
        };
        set(&mut practice, &value);
    }
    practice
}
