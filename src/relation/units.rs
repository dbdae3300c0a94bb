//! The arithmetic of units: what multiplies, divides and adds up, kept apart by unit and not only by kind. Liters and cubic
//! meters are different here, so that a factor that is missing shows.

use std::collections::BTreeMap;

use super::expression::{Expression, Operand, Test};
use crate::quantity::Reading;

/// A product of powers of base symbols: `mg/L` is mg to the first and L to the minus first. Powers are counted in thirds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Units(BTreeMap<String, i32>);

const WHOLE: i32 = 3;

impl Units {
    /// The units that a symbol of the tables stands for: `g/L`, `L/m2`, `1/wt %`; nothing for a pure number.
    pub fn of(symbol: &str) -> Self {
        let mut units = Self::default();
        for (place, factor) in symbol.split('/').enumerate() {
            let name = factor.trim_end_matches(|letter: char| letter.is_ascii_digit());
            let power: i32 = factor[name.len()..].parse().unwrap_or(1);
            if !name.is_empty() {
                units.raise(name, if place == 0 { power } else { -power } * WHOLE);
            }
        }
        units
    }

    fn raise(&mut self, name: &str, power: i32) {
        let sum = self.0.get(name).copied().unwrap_or(0) + power;
        if sum == 0 {
            self.0.remove(name);
        } else {
            self.0.insert(name.to_owned(), sum);
        }
    }

    fn times(mut self, other: &Self, sign: i32) -> Self {
        for (name, power) in &other.0 {
            self.raise(name, sign * power);
        }
        self
    }
}

/// What an expression is in: any unit at all (nothing, or no value), or this one.
type Found = Option<Units>;

/// The units of an expression, or what in it does not go together; `unit_of` gives the symbol of an operand.
///
/// # Errors
/// Two units that are added, compared or chosen between and are not the same; a logarithm of what is not a pure number.
pub fn units(expression: &Expression, unit_of: &dyn Fn(Operand) -> Option<String>) -> Result<Found, String> {
    let of = |part: &Expression| units(part, unit_of);
    let same = |parts: &[&Expression]| -> Result<Found, String> {
        let mut found: Found = None;
        for part in parts {
            match (&found, of(part)?) {
                (Some(one), Some(other)) if *one != other => {
                    return Err(format!("{one:?} beside {other:?} in {expression:?}"));
                }
                (None, some) => found = some,
                _ => {}
            }
        }
        Ok(found)
    };
    let pure = |part: &Expression| match of(part)? {
        Some(units) if units != Units::default() => Err(format!("{units:?} where a pure number must stand")),
        _ => Ok(Some(Units::default())),
    };
    match expression {
        Expression::Zero | Expression::Unknown => Ok(None),
        Expression::One => Ok(Some(Units::default())),
        Expression::Of(operand) => match unit_of(*operand) {
            Some(symbol) => Ok(Some(Units::of(&symbol))),
            None => Err(format!("no operand {:?}", operand.id)),
        },
        Expression::Sum(_)
        | Expression::Difference(..)
        | Expression::Greatest(_)
        | Expression::Least(_)
        | Expression::FirstKnown(_)
        | Expression::SumOfKnown(_) => same(&expression.parts()),
        Expression::Product(parts) => parts.iter().try_fold(Some(Units::default()), |found, part| {
            Ok(found.zip(of(part)?).map(|(found, more)| found.times(&more, 1)))
        }),
        Expression::Quotient(part, whole) => Ok(of(part)?.zip(of(whole)?).map(|(part, whole)| part.times(&whole, -1))),
        Expression::Exponential(part) | Expression::Logarithm(part) | Expression::RoundedUp(part) => pure(part),
        Expression::CubeRoot(part) => {
            Ok(of(part)?.map(|units| Units(units.0.into_iter().map(|(name, power)| (name, power / WHOLE)).collect())))
        }
        Expression::If(test, then, otherwise) => {
            match &**test {
                Test::Holds(id) => {
                    let operand = Operand { id, reading: Reading::Mid };
                    if unit_of(operand).as_deref() != Some("") {
                        return Err(format!("{id} is no flag"));
                    }
                }
                Test::Known(part) => drop(of(part)?),
                Test::More(a, b) => drop(same(&[a, b])?),
            }
            same(&[then, otherwise])
        }
        Expression::EachInterval(part) => of(part),
        Expression::Measured(part, what) => match what {
            super::Part::Amount => Ok(Some(Units::default())),
            super::Part::Product => of(part),
        },
    }
}
