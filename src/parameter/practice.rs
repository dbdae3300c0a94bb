//! What is done at every well: the keys of `[practice]`, which scenarios, grids and overrides may repeat.

use uom::si::f64::{Mass, ThermodynamicTemperature, Volume, VolumeRate};
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::removal::{DISCHARGE, EMPTYING, FLUSH, METHODS};
use super::value::{COMMON, concentration, hours, in_hours, milligrams};
use super::{Effect, Kind, Parameter, Stated, Taken, Value, Vocabulary, Within, flow, mass, temperature, volume};
use crate::field::rules::UnitSystem;
use crate::kernel::demand::DemandFactors;
use crate::kernel::measure::MeasureFor;
use crate::kernel::requirement::Practice;
use crate::kernel::spring::FlowingSpring;
use crate::quantity::unit;
use crate::quantity::{ProductMass, ProductVolume};

fn cubic_meters(value: &Value) -> Volume {
    Volume::new::<cubic_meter>(value.number())
}

/// Words of the groups: each of its parts, in order.
fn each(stated: &[Stated]) -> String {
    stated.iter().map(|part| part.label.as_str()).collect::<Vec<_>>().join(", ")
}

fn keep(_: &mut Practice, _: &[Stated]) {}

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
