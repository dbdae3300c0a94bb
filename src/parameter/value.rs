//! A value as the practice takes it.

use crate::kernel::contact::HoldRule;

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
