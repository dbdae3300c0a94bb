//! From relations to formulas: the same tree, with cells in place of operands.
//!
//! A formula asks first whether what it needs is known, and is empty where it is not, as a relation has no value there. It holds
//! no number but zero and one.

use crate::document::formula::Pieces;
use crate::quantity::Reading;
use crate::relation::{Expression, Operand, Part, Test, entry, varies};

/// The name of the smallest part of a graduation that counts.
pub(in crate::report) const SLACK: &str = "Rounding_slack";

/// What stands for an operand.
#[derive(Debug, Clone)]
pub(super) enum Stands {
    /// A cell, or what is made of one, always with a value.
    Always(Pieces),
    /// A cell that may be empty: the cell itself, and what is made of it.
    Perhaps(Pieces, Pieces),
    /// No row has a value.
    Never,
    /// A flag that is the same in every row.
    Same(bool),
    /// Nothing of its own: its relation stands for it.
    Inline,
}

/// Finds what stands for an operand, in the unit that relations count in.
pub(super) type Cells<'a> = &'a dyn Fn(Operand) -> Stands;

/// When something has a value.
#[derive(Debug, Clone)]
enum Known {
    Always,
    Never,
    When(Pieces),
}

impl Known {
    fn both(self, other: Self) -> Self {
        match (self, other) {
            (Self::Never, _) | (_, Self::Never) => Self::Never,
            (Self::Always, known) | (known, Self::Always) => known,
            (Self::When(a), Self::When(b)) if a == b => Self::When(a),
            (Self::When(a), Self::When(b)) => Self::When(Pieces::call("AND", [a, b])),
        }
    }

    fn either(self, other: Self) -> Self {
        match (self, other) {
            (Self::Always, _) | (_, Self::Always) => Self::Always,
            (Self::Never, known) | (known, Self::Never) => known,
            (Self::When(a), Self::When(b)) => Self::When(Pieces::call("OR", [a, b])),
        }
    }
}

/// The formula of a relation; `None` where no row can have a value. `divisor` is the name of the unit that the result is shown
/// in, as so many of the relation's.
pub(super) fn formula(relation: &Expression, cells: Cells<'_>, divisor: Option<&str>) -> Option<Pieces> {
    let shown = |value: Pieces| match divisor {
        Some(name) => Pieces::text("(").and(value).then(format!(")/{name}")),
        None => value,
    };
    match known(relation, cells) {
        Known::Never => None,
        Known::Always => Some(shown(value(relation, cells))),
        Known::When(when) => Some(Pieces::call("IF", [when, shown(value(relation, cells)), Pieces::text("\"\"")])),
    }
}

/// The relation of an operand that has no cell.
fn inline(operand: Operand) -> Option<Expression> {
    let relation = entry(operand.id)?.relation()?;
    Some(if operand.reading == Reading::Mid { relation } else { relation.at(operand.reading, &varies) })
}

fn chosen<'e>(
    test: &Test,
    then: &'e Expression,
    otherwise: &'e Expression,
    cells: Cells<'_>,
) -> Option<&'e Expression> {
    match test {
        Test::Holds(id) => match cells(Operand { id, reading: Reading::Mid }) {
            Stands::Same(holds) => Some(if holds { then } else { otherwise }),
            _ => None,
        },
        Test::Known(part) => match known(part, cells) {
            Known::Always => Some(then),
            Known::Never => Some(otherwise),
            Known::When(_) => None,
        },
        Test::More(..) => None,
    }
}

fn asked(test: &Test, cells: Cells<'_>) -> Pieces {
    match test {
        Test::Holds(id) => match cells(Operand { id, reading: Reading::Mid }) {
            Stands::Always(cell) | Stands::Perhaps(_, cell) => cell.then("=1"),
            _ => Pieces::text("FALSE"),
        },
        Test::Known(part) => match known(part, cells) {
            Known::When(when) => when,
            Known::Always => Pieces::text("TRUE"),
            Known::Never => Pieces::text("FALSE"),
        },
        Test::More(a, b) => value(a, cells).then(">").and(value(b, cells)),
    }
}

fn known(expression: &Expression, cells: Cells<'_>) -> Known {
    let all = |parts: Vec<&Expression>| parts.into_iter().fold(Known::Always, |sum, part| sum.both(known(part, cells)));
    let any = |parts: &[Expression]| parts.iter().fold(Known::Never, |sum, part| sum.either(known(part, cells)));
    match expression {
        Expression::Zero | Expression::One => Known::Always,
        Expression::Unknown => Known::Never,
        Expression::Of(operand) => match cells(*operand) {
            Stands::Always(_) | Stands::Same(_) => Known::Always,
            Stands::Perhaps(cell, _) => Known::When(Pieces::call("ISNUMBER", [cell])),
            Stands::Never => Known::Never,
            Stands::Inline => inline(*operand).map_or(Known::Never, |relation| known(&relation, cells)),
        },
        Expression::Greatest(parts) | Expression::Least(parts) | Expression::FirstKnown(parts) => any(parts),
        Expression::SumOfKnown(_) => match cells(MEASURED_DEMAND) {
            Stands::Perhaps(cell, _) => Known::When(Pieces::call("ISNUMBER", [cell])),
            _ => Known::Never,
        },
        Expression::If(test, then, otherwise) => match chosen(test, then, otherwise, cells) {
            Some(one) => known(one, cells),
            None => match (known(then, cells), known(otherwise, cells)) {
                (Known::Always, Known::Always) => Known::Always,
                (Known::Never, Known::Never) => Known::Never,
                (then, otherwise) => {
                    let said = |known: Known| match known {
                        Known::Always => Pieces::text("TRUE"),
                        Known::Never => Pieces::text("FALSE"),
                        Known::When(when) => when,
                    };
                    match (then, otherwise) {
                        (Known::Always, Known::Never) => Known::When(asked(test, cells)),
                        (then, otherwise) => {
                            Known::When(Pieces::call("IF", [asked(test, cells), said(then), said(otherwise)]))
                        }
                    }
                }
            },
        },
        other => all(other.parts()),
    }
}

/// The demand of what was measured, which the Wells sheet holds as one figure.
pub(super) const MEASURED_DEMAND: Operand = Operand { id: "demand.measured", reading: Reading::Mid };
/// The graduation of the measure in product, and the measure itself.
pub(super) const GRADUATION: Operand = Operand { id: "measure.graduation", reading: Reading::Mid };
/// Product in one unit of the measure.
pub(super) const MEASURE: Operand = Operand { id: "measure.size", reading: Reading::Mid };

/// The value of what is known.
fn value(expression: &Expression, cells: Cells<'_>) -> Pieces {
    let bracketed = |part: &Expression| match part {
        Expression::Sum(_) | Expression::Difference(..) => Pieces::text("(").and(value(part, cells)).then(")"),
        _ => value(part, cells),
    };
    let cell = |operand: Operand| match cells(operand) {
        Stands::Always(cell) | Stands::Perhaps(_, cell) => cell,
        Stands::Same(holds) => Pieces::text(if holds { "1" } else { "0" }),
        Stands::Never => Pieces::text("0"),
        Stands::Inline => match inline(operand) {
            Some(relation) => Pieces::text("(").and(value(&relation, cells)).then(")"),
            None => Pieces::text("0"),
        },
    };
    let joined = |parts: &[Expression], sign: &str, each: &dyn Fn(&Expression) -> Pieces| {
        let mut all = Pieces::default();
        for (at, part) in parts.iter().enumerate() {
            all = if at > 0 { all.then(sign) } else { all }.and(each(part));
        }
        all
    };
    match expression {
        Expression::Zero | Expression::Unknown => Pieces::text("0"),
        Expression::One => Pieces::text("1"),
        Expression::Of(operand) => cell(*operand),
        Expression::Sum(parts) => {
            let told: Vec<Expression> = parts.iter().filter(|part| !is_nothing(part, cells)).cloned().collect();
            joined(if told.is_empty() { parts } else { &told }, "+", &|part| value(part, cells))
        }
        Expression::Difference(from, less) => value(from, cells).then("-").and(bracketed(less)),
        Expression::Product(parts) => joined(parts, "*", &bracketed),
        Expression::Quotient(part, whole) => {
            let below = match **whole {
                Expression::Of(_) | Expression::One => value(whole, cells),
                _ => Pieces::text("(").and(value(whole, cells)).then(")"),
            };
            bracketed(part).then("/").and(below)
        }
        Expression::Greatest(parts) => extreme("MAX", parts, cells),
        Expression::Least(parts) => extreme("MIN", parts, cells),
        Expression::FirstKnown(parts) => first(parts, cells),
        Expression::SumOfKnown(_) => cell(MEASURED_DEMAND),
        Expression::Exponential(power) => Pieces::call("EXP", [value(power, cells)]),
        Expression::Logarithm(number) => Pieces::call("LN", [value(number, cells)]),
        Expression::CubeRoot(number) | Expression::EachInterval(number) => value(number, cells),
        Expression::RoundedUp(number) => whole(value(number, cells)),
        Expression::If(test, then, otherwise) => match chosen(test, then, otherwise, cells) {
            Some(one) => value(one, cells),
            None => Pieces::call("IF", [asked(test, cells), value(then, cells), value(otherwise, cells)]),
        },
        Expression::Measured(amount, part) => {
            let steps = Pieces::text("(").and(value(amount, cells)).then(")/").and(cell(GRADUATION));
            let product = Pieces::call("MAX", [Pieces::text("1"), whole(steps)]).then("*").and(cell(GRADUATION));
            match part {
                Part::Product => product,
                Part::Amount => product.then("/").and(cell(MEASURE)),
            }
        }
    }
}

fn is_nothing(part: &Expression, cells: Cells<'_>) -> bool {
    match part {
        Expression::Zero => true,
        Expression::Of(operand) => match cells(*operand) {
            Stands::Inline => inline(*operand).is_some_and(|relation| is_nothing(&relation, cells)),
            _ => false,
        },
        Expression::If(test, then, otherwise) => {
            chosen(test, then, otherwise, cells).is_some_and(|one| is_nothing(one, cells))
        }
        _ => false,
    }
}

/// Rounded up to a whole number, but for the slack.
pub(super) fn whole(number: Pieces) -> Pieces {
    let slack = Pieces::text(format!("{SLACK}*")).and(Pieces::call("MAX", [number.clone(), Pieces::text("1")]));
    Pieces::call("ROUNDUP", [number.then("-").and(slack), Pieces::text("0")])
}

/// The greatest or least of those that are known.
fn extreme(function: &str, parts: &[Expression], cells: Cells<'_>) -> Pieces {
    let mut always = Vec::new();
    let mut perhaps = Vec::new();
    for part in parts {
        match known(part, cells) {
            Known::Always => always.push(value(part, cells)),
            Known::When(when) => perhaps.push((when, value(part, cells))),
            Known::Never => {}
        }
    }
    let mut sum = match always.len() {
        0 => None,
        1 => always.pop().map(|one| (Known::Always, one)),
        _ => Some((Known::Always, Pieces::call(function, always))),
    };
    for (when, part) in perhaps {
        sum = Some(match sum {
            None => (Known::When(when), part),
            Some((Known::When(had), value)) => {
                let both = Pieces::call("AND", [had.clone(), when.clone()]);
                let most = Pieces::call(function, [value.clone(), part.clone()]);
                let one = Pieces::call("IF", [had.clone(), value, part]);
                (Known::When(Pieces::call("OR", [had, when])), Pieces::call("IF", [both, most, one]))
            }
            Some((had, value)) => {
                let most = Pieces::call(function, [value.clone(), part]);
                (had, Pieces::call("IF", [when, most, value]))
            }
        });
    }
    sum.map_or_else(|| Pieces::text("0"), |(_, value)| value)
}

/// The first that is known.
fn first(parts: &[Expression], cells: Cells<'_>) -> Pieces {
    let Some((one, rest)) = parts.split_first() else { return Pieces::text("0") };
    match known(one, cells) {
        Known::Always => value(one, cells),
        Known::Never => first(rest, cells),
        Known::When(_) if rest.iter().all(|part| matches!(known(part, cells), Known::Never)) => value(one, cells),
        Known::When(when) => Pieces::call("IF", [when, value(one, cells), first(rest, cells)]),
    }
}
