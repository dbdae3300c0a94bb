//! A relation with its numbers put in: what was chosen by a test or by what is known is left out, what is left can be followed
//! with a pocket calculator.

use super::How;
use super::expression::{Expression, Operands};
use super::operands::describe;
use crate::quantity::Reading;
use crate::quantity::format::number;

/// Digits that are shown.
const DIGITS: u32 = 5;

/// How tightly the parts of a text hold together: what is looser than its neighbors stands in brackets.
#[derive(PartialEq, PartialOrd)]
enum Bond {
    Sum,
    Product,
    One,
}

/// The relation as it comes out for what is given; nothing where it gives no value.
pub fn in_figures(relation: &Expression, given: &dyn Operands) -> Option<String> {
    if relation.evaluate(given).is_nan() { None } else { Some(Writer { given, interval: None }.text(relation).0) }
}

/// The relation of a quantity as it comes out for what is given; how it is solved or stated where it has none.
pub fn in_figures_of(id: &str, given: &dyn Operands) -> String {
    match super::entry(id).map(|entry| entry.how) {
        Some(How::Closed(relation)) => in_figures(&relation(), given).unwrap_or_else(|| "not known".to_owned()),
        Some(How::Solved(how) | How::Stated(how)) => how.to_owned(),
        None => String::new(),
    }
}

const LARGER: &str = "the larger";

/// The greatest of a greatest is one question.
fn flat(parts: &[Expression]) -> Vec<Expression> {
    let parts = parts.iter().flat_map(|part| match part {
        Expression::Greatest(inner) => flat(inner),
        other => vec![other.clone()],
    });
    parts.collect()
}

struct Writer<'a> {
    given: &'a dyn Operands,
    interval: Option<usize>,
}

impl Writer<'_> {
    fn known<'e>(&self, parts: &'e [Expression]) -> Vec<&'e Expression> {
        parts.iter().filter(|part| !part.value(self.given, self.interval).is_nan()).collect()
    }

    fn joined(&self, parts: &[&Expression], sign: &str, bond: Bond) -> (String, Bond) {
        match parts {
            [one] => self.text(one),
            _ => (parts.iter().map(|part| self.within(part, &bond)).collect::<Vec<_>>().join(sign), bond),
        }
    }

    /// A part, in brackets where it holds together less than its surroundings.
    fn within(&self, part: &Expression, bond: &Bond) -> String {
        let (text, own) = self.text(part);
        if own < *bond { format!("({text})") } else { text }
    }

    /// A part that must stand by itself: below a line, behind a minus.
    fn alone(&self, part: &Expression) -> String {
        self.within(part, &Bond::One)
    }

    fn chosen(&self, word: &str, parts: &[Expression]) -> (String, Bond) {
        let value = |part: &Expression| part.value(self.given, self.interval);
        let mut known = self.known(parts);
        // Equal ones are said once, and "the larger of this and nothing" only where it is nothing.
        known.dedup_by(|a, b| value(a) == value(b));
        if word == LARGER && known.len() > 1 && known.iter().any(|part| value(part) > 0.0) {
            known.retain(|part| **part != Expression::Zero);
        }
        if let [one] = known[..] {
            return self.text(one);
        }
        let texts: Vec<String> = known.iter().map(|part| self.text(part).0).collect();
        (format!("{word} of {}", texts.join(" and ")), Bond::Sum)
    }

    fn text(&self, expression: &Expression) -> (String, Bond) {
        let one = |text: String| (text, Bond::One);
        match expression {
            Expression::Zero => one("0".to_owned()),
            Expression::One => one("1".to_owned()),
            Expression::Unknown => one("not known".to_owned()),
            Expression::Of(operand) => {
                let value = number(self.given.value(*operand, self.interval), DIGITS);
                let unit = describe(operand.id).map_or("", |described| described.unit);
                one(if unit.is_empty() { value } else { format!("{value} {unit}") })
            }
            Expression::Sum(parts) => {
                // A wall wash of nothing is not spoken of.
                let told: Vec<&Expression> =
                    parts.iter().filter(|part| part.value(self.given, self.interval) != 0.0).collect();
                let told = if told.is_empty() { parts.iter().collect() } else { told };
                self.joined(&told, " + ", Bond::Sum)
            }
            Expression::Product(parts) => {
                let parts: Vec<&Expression> = parts.iter().collect();
                self.joined(&parts, " x ", Bond::Product)
            }
            Expression::Difference(from, less) => {
                (format!("{} - {}", self.within(from, &Bond::Sum), self.within(less, &Bond::Product)), Bond::Sum)
            }
            Expression::Quotient(part, whole) => {
                (format!("{} / {}", self.within(part, &Bond::Product), self.alone(whole)), Bond::Product)
            }
            Expression::Greatest(parts) => self.chosen(LARGER, &flat(parts)),
            Expression::Least(parts) => self.chosen("the smaller", parts),
            Expression::FirstKnown(parts) => match self.known(parts).first() {
                Some(first) => self.text(first),
                None => one("not known".to_owned()),
            },
            Expression::SumOfKnown(parts) => self.joined(&self.known(parts), " + ", Bond::Sum),
            Expression::Exponential(power) => one(format!("exp({})", self.text(power).0)),
            Expression::Logarithm(number) => one(format!("ln({})", self.text(number).0)),
            Expression::CubeRoot(number) => one(format!("cube root of {}", self.alone(number))),
            Expression::RoundedUp(number) => (format!("{}, rounded up", self.text(number).0), Bond::Sum),
            Expression::If(test, then, otherwise) => {
                self.text(if test.holds(self.given, self.interval) { then } else { otherwise })
            }
            Expression::EachInterval(part) => {
                let reading = Reading::Mid;
                let stretches = (0..self.given.intervals(reading)).filter_map(|at| {
                    let each = Writer { given: self.given, interval: Some(at) };
                    // A stretch above the water holds none.
                    (part.value(self.given, Some(at)) > 0.0).then(|| each.within(part, &Bond::Product))
                });
                (stretches.collect::<Vec<_>>().join(" + "), Bond::Sum)
            }
            Expression::Measured(amount, _) => {
                (format!("{}, rounded up to what can be measured", self.text(amount).0), Bond::Sum)
            }
        }
    }
}
