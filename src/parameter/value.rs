//! A value as the practice takes it.

use uom::si::f64::Time;
use uom::si::time::hour;

use crate::kernel::contact::HoldRule;
use crate::quantity::ChlorineConcentration;

/// The source of what nobody wrote down.
pub(super) const COMMON: &str = "common practice, no source";

/// What is stated of a parameter, typed as its kind.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing is stated, and the parameter has no value; as a number it is NaN.
    Unset,
    /// A number in the parameter's own unit; of a quantity, in SI.
    Number(f64),
    /// One of its words.
    Word(&'static str),
    /// Several of its words.
    Words(Vec<&'static str>),
    /// What a code asks of the contact time.
    HoldRule(HoldRule),
}

impl Value {
    /// A number that may be absent.
    pub fn optional(number: Option<f64>) -> Self {
        number.map_or(Self::Unset, Self::Number)
    }

    /// The number; not a number where it is none.
    pub const fn number(&self) -> f64 {
        match self {
            Self::Number(number) => *number,
            _ => f64::NAN,
        }
    }

    /// The word; empty where it is none.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Word(word) => word,
            _ => "",
        }
    }

    /// The words; none where it is none.
    pub fn words(&self) -> &[&'static str] {
        match self {
            Self::Words(words) => words,
            _ => &[],
        }
    }
}

pub(super) fn concentration(value: &Value) -> ChlorineConcentration {
    ChlorineConcentration::from_milligrams_per_liter(value.number())
}

pub(super) fn milligrams(concentration: ChlorineConcentration) -> Value {
    Value::Number(concentration.milligrams_per_liter())
}

pub(super) fn hours(value: &Value) -> Time {
    Time::new::<hour>(value.number())
}

pub(super) fn in_hours(time: Time) -> Value {
    Value::Number(time.value / 3600.0)
}
