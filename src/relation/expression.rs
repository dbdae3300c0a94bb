//! What a relation is made of: operands by id and a handful of operations, as data.
//!
//! The same tree is evaluated, printed with its numbers put in, checked for its units, and written as a formula of a
//! spreadsheet. It holds no number but zero and one: whatever else is counted with is an operand with a name, a unit and a
//! source. What is not known is not a number (NaN), and stays unknown through everything that needs it.

use std::ops::{Add, Div, Mul, Sub};

use super::rung::Rung;
use crate::quantity::Reading;

/// An operand: which, and in which reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Operand {
    /// Id of a field, a parameter, a constant, a flag or a quantity.
    pub id: &'static str,
    /// The reading of it.
    pub reading: Reading,
}

/// A relation as a tree.
#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    /// Nothing, in any unit.
    Zero,
    /// The pure number one.
    One,
    /// Not a number (NaN), whatever is given: it makes everything unknown that needs it.
    Unknown,
    /// The value of an operand.
    Of(Operand),
    /// All of these together; unknown where one is.
    Sum(Vec<Self>),
    /// The first less the second.
    Difference(Box<Self>, Box<Self>),
    /// All of these multiplied.
    Product(Vec<Self>),
    /// The first over the second.
    Quotient(Box<Self>, Box<Self>),
    /// The greatest of those that are known.
    Greatest(Vec<Self>),
    /// The least of those that are known.
    Least(Vec<Self>),
    /// The first that is known.
    FirstKnown(Vec<Self>),
    /// The sum of those that are known; unknown where none is.
    SumOfKnown(Vec<Self>),
    /// e to the power of a pure number.
    Exponential(Box<Self>),
    /// Natural logarithm of a pure number.
    Logarithm(Box<Self>),
    /// Third root, in the third root of the unit; it keeps the sign.
    CubeRoot(Box<Self>),
    /// The next whole number, unless the value is whole but for the slack.
    RoundedUp(Box<Self>),
    /// One of two, by a test.
    If(Box<Test>, Box<Self>, Box<Self>),
    /// The sum over the stretches of a well with one diameter each; unknown where there is none.
    EachInterval(Box<Self>),
    /// An amount of product rounded up to what a person can measure: in the unit of the measure, or as the product it is.
    Measured(Box<Self>, Part),
}

/// What is asked of a field measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// How many of the unit of the measure.
    Amount,
    /// How much product that is, in the unit of what was measured.
    Product,
}

/// A test that chooses.
#[derive(Debug, Clone, PartialEq)]
pub enum Test {
    /// The flag is one.
    Holds(&'static str),
    /// There is a value.
    Known(Expression),
    /// The first is more than the second.
    More(Expression, Expression),
}

/// Where operands get their values.
pub trait Operands {
    /// The value of an operand in its unit; NaN where there is none. `interval` is the stretch asked about.
    fn value(&self, operand: Operand, interval: Option<usize>) -> f64;
    /// How many stretches of one diameter the well has, in a reading.
    fn intervals(&self, reading: Reading) -> usize;
    /// The measures of the product, smallest first.
    fn rungs(&self) -> Vec<Rung>;
}

/// A part of a graduation that is taken for rounding dust: 2.0000000004 steps are two.
pub const SLACK: f64 = 1e-9;

impl Expression {
    /// Its value with these operands, in its own unit; NaN where something that it needs is not known.
    pub fn evaluate(&self, given: &dyn Operands) -> f64 {
        self.value(given, None)
    }

    /// Its value in one stretch of the well, where it asks for one.
    pub(super) fn value(&self, given: &dyn Operands, interval: Option<usize>) -> f64 {
        let of = |part: &Self| part.value(given, interval);
        let known = |parts: &[Self]| -> Vec<f64> { parts.iter().map(of).filter(|value| !value.is_nan()).collect() };
        match self {
            Self::Zero => 0.0,
            Self::One => 1.0,
            Self::Unknown => f64::NAN,
            Self::Of(operand) => given.value(*operand, interval),
            Self::Sum(parts) => parts.iter().map(of).sum(),
            Self::Difference(from, less) => of(from) - of(less),
            Self::Product(parts) => parts.iter().map(of).product(),
            Self::Quotient(part, whole) => of(part) / of(whole),
            Self::Greatest(parts) => known(parts).into_iter().fold(f64::NAN, f64::max),
            Self::Least(parts) => known(parts).into_iter().fold(f64::NAN, f64::min),
            Self::FirstKnown(parts) => known(parts).first().copied().unwrap_or(f64::NAN),
            Self::SumOfKnown(parts) => {
                known(parts).into_iter().fold(f64::NAN, |sum, value| if sum.is_nan() { value } else { sum + value })
            }
            Self::Exponential(power) => of(power).exp(),
            Self::Logarithm(number) => of(number).ln(),
            Self::CubeRoot(number) => of(number).cbrt(),
            Self::RoundedUp(number) => whole_steps(of(number)),
            Self::If(test, then, otherwise) => {
                let chosen = if test.holds(given, interval) { then } else { otherwise };
                of(chosen)
            }
            Self::EachInterval(part) => {
                let asked = part.operands().into_iter().find(|operand| operand.id.starts_with("interval."));
                let count = given.intervals(asked.map_or(Reading::Mid, |operand| operand.reading));
                let sum = (0..count).map(|at| part.value(given, Some(at))).sum();
                if count == 0 { f64::NAN } else { sum }
            }
            Self::Measured(amount, part) => {
                let amount = of(amount);
                let rungs = given.rungs();
                let Some(rung) = rungs.iter().find(|rung| amount / rung.size < rung.below) else { return f64::NAN };
                let steps = whole_steps(amount / rung.size * rung.parts / rung.units).max(1.0);
                let measured = steps * rung.units / rung.parts;
                match part {
                    Part::Amount => measured,
                    Part::Product => measured * rung.size,
                }
            }
        }
    }

    /// The parts that it is made of.
    pub fn parts(&self) -> Vec<&Self> {
        match self {
            Self::Zero | Self::One | Self::Unknown | Self::Of(_) => Vec::new(),
            Self::Sum(parts)
            | Self::Product(parts)
            | Self::Greatest(parts)
            | Self::Least(parts)
            | Self::FirstKnown(parts)
            | Self::SumOfKnown(parts) => parts.iter().collect(),
            Self::Difference(a, b) | Self::Quotient(a, b) => vec![a, b],
            Self::Exponential(part)
            | Self::Logarithm(part)
            | Self::CubeRoot(part)
            | Self::RoundedUp(part)
            | Self::EachInterval(part)
            | Self::Measured(part, _) => vec![part],
            Self::If(test, then, otherwise) => {
                let mut parts: Vec<&Self> = match &**test {
                    Test::Holds(_) => Vec::new(),
                    Test::Known(part) => vec![part],
                    Test::More(a, b) => vec![a, b],
                };
                parts.extend([&**then, &**otherwise]);
                parts
            }
        }
    }

    /// Every operand, each once, in the order in which they come.
    pub fn operands(&self) -> Vec<Operand> {
        let mut found = Vec::new();
        self.gather(&mut found);
        found
    }

    fn gather(&self, found: &mut Vec<Operand>) {
        let mut take = |operand: Operand| {
            if !found.contains(&operand) {
                found.push(operand);
            }
        };
        match self {
            Self::Of(operand) => take(*operand),
            Self::If(test, ..) => {
                if let Test::Holds(id) = **test {
                    take(Operand { id, reading: Reading::Mid });
                }
            }
            _ => {}
        }
        for part in self.parts() {
            part.gather(found);
        }
    }

    /// The same relation between the readings of whatever `varies`.
    #[must_use]
    pub fn at(self, reading: Reading, varies: &impl Fn(&str) -> bool) -> Self {
        let one = |part: Box<Self>| Box::new(part.at(reading, varies));
        let all = |parts: Vec<Self>| parts.into_iter().map(|part| part.at(reading, varies)).collect();
        match self {
            Self::Of(operand) if varies(operand.id) => Self::Of(Operand { reading, ..operand }),
            Self::Zero | Self::One | Self::Unknown | Self::Of(_) => self,
            Self::Sum(parts) => Self::Sum(all(parts)),
            Self::Product(parts) => Self::Product(all(parts)),
            Self::Greatest(parts) => Self::Greatest(all(parts)),
            Self::Least(parts) => Self::Least(all(parts)),
            Self::FirstKnown(parts) => Self::FirstKnown(all(parts)),
            Self::SumOfKnown(parts) => Self::SumOfKnown(all(parts)),
            Self::Difference(a, b) => Self::Difference(one(a), one(b)),
            Self::Quotient(a, b) => Self::Quotient(one(a), one(b)),
            Self::Exponential(part) => Self::Exponential(one(part)),
            Self::Logarithm(part) => Self::Logarithm(one(part)),
            Self::CubeRoot(part) => Self::CubeRoot(one(part)),
            Self::RoundedUp(part) => Self::RoundedUp(one(part)),
            Self::EachInterval(part) => Self::EachInterval(one(part)),
            Self::Measured(part, what) => Self::Measured(one(part), what),
            Self::If(test, then, otherwise) => {
                let test = match *test {
                    Test::Holds(id) => Test::Holds(id),
                    Test::Known(part) => Test::Known(part.at(reading, varies)),
                    Test::More(a, b) => Test::More(a.at(reading, varies), b.at(reading, varies)),
                };
                Self::If(Box::new(test), one(then), one(otherwise))
            }
        }
    }
}

/// Whole steps that cover a number; what is whole but for the slack is whole.
fn whole_steps(number: f64) -> f64 {
    (number - SLACK * number.max(1.0)).ceil()
}

impl Test {
    /// Whether it is so.
    pub fn holds(&self, given: &dyn Operands, interval: Option<usize>) -> bool {
        match self {
            Self::Holds(id) => given.value(Operand { id, reading: Reading::Mid }, interval) == 1.0,
            Self::Known(part) => !part.value(given, interval).is_nan(),
            Self::More(a, b) => a.value(given, interval) > b.value(given, interval),
        }
    }
}

/// The value of an operand in the reading that is planned with.
pub(super) const fn of(id: &'static str) -> Expression {
    Expression::Of(Operand { id, reading: Reading::Mid })
}

/// One of two, by a flag.
pub(super) fn if_holds(id: &'static str, then: Expression, otherwise: Expression) -> Expression {
    Expression::If(Box::new(Test::Holds(id)), Box::new(then), Box::new(otherwise))
}

/// One of two, by whether something is known.
pub(super) fn if_known(what: Expression, then: Expression, otherwise: Expression) -> Expression {
    Expression::If(Box::new(Test::Known(what)), Box::new(then), Box::new(otherwise))
}

/// The first that is known.
pub(super) fn first_known(parts: impl Into<Vec<Expression>>) -> Expression {
    Expression::FirstKnown(parts.into())
}

/// The greatest of those that are known.
pub(super) fn greatest(parts: impl Into<Vec<Expression>>) -> Expression {
    Expression::Greatest(parts.into())
}

/// The least of those that are known.
pub(super) fn least(parts: impl Into<Vec<Expression>>) -> Expression {
    Expression::Least(parts.into())
}

/// Natural logarithm of a pure number; NaN below zero, minus infinity at zero.
pub(super) fn ln(number: Expression) -> Expression {
    Expression::Logarithm(Box::new(number))
}

impl Add for Expression {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        match self {
            Self::Sum(mut parts) => {
                parts.push(other);
                Self::Sum(parts)
            }
            first => Self::Sum(vec![first, other]),
        }
    }
}

impl Mul for Expression {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        match self {
            Self::Product(mut parts) => {
                parts.push(other);
                Self::Product(parts)
            }
            first => Self::Product(vec![first, other]),
        }
    }
}

impl Sub for Expression {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::Difference(Box::new(self), Box::new(other))
    }
}

impl Div for Expression {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        Self::Quotient(Box::new(self), Box::new(other))
    }
}
