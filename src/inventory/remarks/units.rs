//! What the word beside a number of a remark makes of it: a length, a count of something else, a price.

use super::super::phrases::Token;
use super::words::OTHER_UNITS;
use crate::quantity::unit::{self, Unit};

/// The unit of length that a word is.
pub fn length_unit(word: &str) -> Option<&'static Unit> {
    let symbol = match word {
        "ft" | "feet" | "foot" | "'" | "pies" | "pie" | "pieds" | "pied" | "pes" => "ft",
        "m" | "mts" | "mt" | "meter" | "meters" | "metre" | "metres" | "metro" | "metros" => "m",
        "in" | "inch" | "inches" | "\"" | "po" | "pouce" | "pouces" | "pulg" | "pulgada" | "pulgadas" | "pol"
        | "polegada" | "polegadas" => "in",
        "cm" | "centimeters" | "centimetres" | "centimetros" => "cm",
        "mm" | "millimeters" | "millimetres" | "milimetros" => "mm",
        _ => return None,
    };
    unit::by_symbol(symbol)
}

/// Whether a token is a unit of length.
pub fn is_length_unit(token: Option<&Token>) -> bool {
    token.is_some_and(|token| length_unit(&token.word).is_some())
}

/// Whether a word is a unit of something that is no length, as in `6 gpm`.
pub fn is_other_unit(word: &str) -> bool {
    OTHER_UNITS.contains(&word)
}

/// Whether a word or a sign before a number makes it a price or a number of something: `$ 20`, `no 12`.
pub fn is_numbering(word: &str) -> bool {
    matches!(word, "$" | "#" | "no" | "nr")
}

/// A whole number of our days without a unit is a year.
pub fn is_year(number: f64) -> bool {
    (1900.0..=2050.0).contains(&number) && number.fract() == 0.0
}

/// A number such as 20240408.
pub fn is_day_number(number: f64) -> bool {
    (19_000_101.0..=20_501_231.0).contains(&number) && number.fract() == 0.0
}
