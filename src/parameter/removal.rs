//! How the chlorine is taken out again: the keys of `flush` and `discharge` of the practice, and of emptying.

use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::value::{COMMON, concentration, hours, in_hours, milligrams};
use super::{Choice, Kind, Parameter, Taken, Value, Vocabulary};
use crate::field::DischargeRoute;
use crate::kernel::agent::{Agent, RatioBasis};
use crate::kernel::discharge;
use crate::kernel::emptying::FlushMethod;
use crate::kernel::requirement::Routes;

pub(super) const METHODS: Choice = Choice { noun: "", words: || vec!["empty_and_refill", "mixed_tank"] };

pub(super) static FLUSH: Vocabulary = Vocabulary::of(&[
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

pub(super) static EMPTYING: Vocabulary = Vocabulary::of(&[
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

pub(super) static DISCHARGE: Vocabulary = Vocabulary::of(&[
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
