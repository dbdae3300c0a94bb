//! Why a written quantity was not understood, in plain words.

use std::fmt;

use super::super::unit::{Dimension, Unit};

/// Why a written quantity was not understood.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// The text is empty or blank.
    Empty,
    /// There is no number where one should be.
    NoNumber {
        /// The text, cut off after 60 characters.
        part: String,
    },
    /// These characters were not understood.
    NotUnderstood {
        /// The characters, to be quoted in the message.
        part: String,
        /// Where they start, from 1.
        position: usize,
        /// A unit that is spelled nearly so.
        near: Option<&'static str>,
    },
    /// A gallon, quart, pint, fluid ounce or gpm, and nobody said whether US or imperial.
    GallonUndeclared {
        /// The unit as it was written: `gal`, `gpm`.
        written: String,
    },
    /// A unit of something else.
    WrongDimension {
        /// The unit that was written.
        unit: &'static Unit,
        /// What the field measures, and a unit of which would be right.
        expected: Dimension,
    },
    /// No unit was written, and none is declared.
    NoUnit {
        /// What the field measures: its units are the ones to choose from.
        dimension: Dimension,
    },
    /// A range whose first end is the greater.
    BackwardRange,
    /// Two values where one is wanted, and no word that says what each is.
    TwoValues {
        /// The first, as understood.
        first: String,
        /// The second, as written.
        second: String,
    },
    /// `8-11` in a column of feet: feet and inches, or a range.
    FeetOrRange {
        /// The number before the dash: feet, or the lower end of a range in feet.
        feet: f64,
        /// The number after the dash: inches beside the feet, or the upper end of a range in feet.
        inches: f64,
    },
    /// A level with a plus sign: above the ground by the habit of registers, below it by the sign of a depth.
    PlusLevel,
    /// The well is said to be dry.
    Dry,
    /// The level while the pump runs, not the one at rest.
    Pumping,
    /// Feet and inches (or the like) whose smaller part is more than one of the larger unit.
    Overflow,
}

impl Dimension {
    /// A written example of this dimension, for messages.
    pub const fn example(self) -> &'static str {
        match self {
            Self::Length => "120 ft",
            Self::Volume => "50 US gal",
            Self::Flow => "8 US gpm",
            Self::Mass => "2 lb",
            Self::Concentration => "0.3 mg/L",
            Self::Density => "0.8 kg/L",
            Self::Temperature => "12 C",
            Self::Duration => "24 h",
            Self::Number => "7.2",
            Self::Angle => "38.0361",
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "nothing is written"),
            Self::NoNumber { part } => write!(f, "there is no number in \"{part}\""),
            Self::NotUnderstood { part, position, near } => {
                write!(f, "\"{part}\" (from character {position}) was not understood")?;
                match near {
                    Some(near) => write!(f, "; did you mean \"{near}\"?"),
                    None => Ok(()),
                }
            }
            Self::GallonUndeclared { written } => {
                write!(f, "\"{written}\" is a US or an imperial measure, and nothing says which")
            }
            Self::WrongDimension { unit, expected } => {
                write!(f, "\"{}\" is a unit of {}, not of {}", unit.symbol, unit.dimension.name(), expected.name())
            }
            Self::NoUnit { .. } => write!(f, "no unit is written"),
            Self::BackwardRange => write!(f, "the range runs from the larger value to the smaller"),
            Self::TwoValues { first, second } => {
                write!(f, "two values are written, {first} and {second}, and nothing says how they belong together")
            }
            Self::FeetOrRange { feet, inches } => {
                write!(f, "this is {feet} ft {inches} in, or a range from {feet} ft to {inches} ft")
            }
            Self::PlusLevel => write!(f, "a plus sign could mean above the ground or below it"),
            Self::Dry => write!(f, "the well is reported dry: there is no water to treat"),
            Self::Pumping => write!(f, "this is the level while the pump runs, not the level at rest"),
            Self::Overflow => write!(f, "the smaller part is more than one of the larger unit"),
        }
    }
}

impl std::error::Error for Trouble {}
