//! Field measures: the amount a person can measure out, rounded up, for a computed amount of product.
//!
//! Called once for each requirement. A ladder of measures for each way of measuring gives the unit and the graduation;
//! the amount is rounded *up* to it, so that what is poured never falls short, and what that really gives is computed from
//! the rounded amount. Knows nothing of wells.

use crate::field::rules::UnitSystem;
use crate::quantity::unit;
use crate::quantity::{MassDensity, Of, ProductMass, ProductVolume};
use crate::source::{Equation, Provenance, Source};
use uom::si::f64::{Mass, Volume};
use uom::si::mass::kilogram;
use uom::si::volume::cubic_meter;

/// Rounding up to the graduation of a measure.
pub const FIELD_MEASURE: Equation = Equation {
    id: "M1",
    name: "Field measure, rounded up",
    statement: "a = s ceil(A / s)",
    symbols: &[
        ("a", "unit of the measure", "amount to measure out"),
        ("A", "unit of the measure", "amount computed"),
        ("s", "unit of the measure", "graduation of the measure"),
    ],
    validity: "any positive amount; an amount within 1e-9 of a graduation is that graduation, so that exact multiples stay",
    sources: &[Source {
        citation: "graduations of household and laboratory measures",
        locator: "",
        provenance: Provenance::CommonPractice,
    }],
    checks: &["quantities::exact_multiples_of_the_measure_stay"],
};

/// One rung: a unit, its graduation, and the computed amount (in that unit) below which it is used.
struct Rung {
    unit: &'static str,
    below: f64,
    step: f64,
}

const fn rung(unit: &'static str, below: f64, step: f64) -> Rung {
    Rung { unit, below, step }
}

const ALWAYS: f64 = f64::INFINITY;

/// Spoons, a measuring jug, cups, and a gallon jug marked in pints.
static US_LIQUID: [Rung; 4] = [
    rung("US tsp", 6.0, 0.25),
    rung("US fl oz", 8.0, 0.5),
    rung("US cup", 16.0, 0.25),
    rung("US gal", ALWAYS, 0.125),
];
static IMPERIAL_LIQUID: [Rung; 4] = [
    rung("mL", 28.413_062_5, 0.5),
    rung("imp fl oz", 20.0, 0.5),
    rung("imp pt", 8.0, 0.25),
    rung("imp gal", ALWAYS, 0.125),
];
static METRIC_LIQUID: [Rung; 5] = [
    rung("mL", 20.0, 0.5),
    rung("mL", 200.0, 5.0),
    rung("mL", 2000.0, 25.0),
    rung("L", 20.0, 0.1),
    rung("L", ALWAYS, 0.5),
];
/// Granules of known bulk density by spoon and cup; above eight cups they are weighed.
static US_DRY_BY_VOLUME: [Rung; 3] =
    [rung("US tsp", 3.0, 0.25), rung("US tbsp", 4.0, 0.25), rung("US cup", 8.0, 0.125)];
static POUNDS: [Rung; 1] = [rung("lb", ALWAYS, 0.25)];
static OUNCES_AND_POUNDS: [Rung; 2] = [rung("oz", 16.0, 0.25), rung("lb", ALWAYS, 0.125)];
static METRIC_DRY: [Rung; 4] =
    [rung("g", 20.0, 0.5), rung("g", 200.0, 5.0), rung("g", 2000.0, 25.0), rung("kg", ALWAYS, 0.1)];

/// An amount as a person measures it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured<T> {
    /// How many of the unit.
    pub amount: f64,
    /// Unit symbol of the unit table.
    pub unit: &'static str,
    /// The product that this really is.
    pub product: T,
}

/// Rounds `amount` up to a multiple of `step`, at least one step.
///
/// a = s ceil(A / s)
///
/// Why not `ceil(A / s) * s` alone: 0.07 / 0.01 is 7.000000000000001 in binary, and would become 8 steps. Rounding up by
/// the plain ceiling is one step too high on about one in fifteen exact multiples.
pub fn round_up(amount: f64, step: f64) -> f64 {
    let steps = amount / step;
    let nearest = steps.round();
    let whole = if (steps - nearest).abs() <= 1e-9 * nearest.max(1.0) { nearest } else { steps.ceil() };
    whole.max(1.0) * step
}

/// Walks a ladder: `si` is the amount in SI units; gives amount, unit and the SI value of the rounded amount.
fn climb(ladder: &'static [Rung], si: f64) -> Option<(f64, &'static str, f64)> {
    ladder.iter().find_map(|rung| {
        let unit = unit::by_symbol(rung.unit)?;
        let amount = unit.from_si(si);
        (amount < rung.below).then(|| {
            let rounded = round_up(amount, rung.step);
            (rounded, rung.unit, unit.to_si(rounded))
        })
    })
}

/// Liquid product as a person measures it; `None` only for an amount that is not a number.
pub fn measure_liquid(volume: ProductVolume, system: UnitSystem) -> Option<Measured<ProductVolume>> {
    let ladder: &'static [Rung] = match system {
        UnitSystem::Us => &US_LIQUID,
        UnitSystem::Metric => &METRIC_LIQUID,
        UnitSystem::Imperial => &IMPERIAL_LIQUID,
    };
    let (amount, unit, si) = climb(ladder, volume.quantity().get::<cubic_meter>())?;
    Some(Measured { amount, unit, product: Of::new(Volume::new::<cubic_meter>(si)) })
}

/// Dry product as a person measures it: by spoon and cup where its bulk density is stated and the campaign uses US
/// measures, else by weight; `None` only for an amount that is not a number.
pub fn measure_dry(
    mass: ProductMass,
    bulk_density: Option<MassDensity>,
    system: UnitSystem,
) -> Option<Measured<ProductMass>> {
    if let (UnitSystem::Us, Some(density)) = (system, bulk_density) {
        let volume: Volume = mass.quantity() / density;
        let volume = volume.get::<cubic_meter>();
        if let Some((amount, unit, si)) = climb(&US_DRY_BY_VOLUME, volume) {
            return Some(Measured { amount, unit, product: Of::new(Volume::new::<cubic_meter>(si) * density) });
        }
    }
    let ladder: &'static [Rung] = match (system, bulk_density) {
        (UnitSystem::Metric, _) => &METRIC_DRY,
        (UnitSystem::Us, Some(_)) => &POUNDS,
        _ => &OUNCES_AND_POUNDS,
    };
    let (amount, unit, si) = climb(ladder, mass.quantity().get::<kilogram>())?;
    Some(Measured { amount, unit, product: Of::new(Mass::new::<kilogram>(si)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_multiples_stay() {
        // Random numbers never meet this trap; exact multiples do.
        for step in [0.01, 0.125, 0.25, 0.5, 0.1, 5.0, 25.0] {
            for n in 1..2000 {
                let exact = f64::from(n) * step;
                assert_eq!(round_up(exact, step), exact, "{n} x {step}");
            }
        }
    }
}
