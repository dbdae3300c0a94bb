//! Field measures: the amount a person can measure out, rounded up, for a computed amount of product.
//!
//! Called once for each requirement. A ladder of measures for each way of measuring gives the unit and the graduation;
//! the amount is rounded *up* to it, so that what is poured never falls short, and what that really gives is computed from
//! the rounded amount. Knows nothing of wells.

use crate::field::rules::UnitSystem;
use crate::quantity::unit::{IMPERIAL_GALLON_M3, POUND_KG, US_GALLON_M3};
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
    /// SI per unit; a test holds it to the unit table, which is too slow to search for every well.
    si: f64,
    below: f64,
    step: f64,
}

const fn rung(unit: Measure, below: f64, step: f64) -> Rung {
    Rung { unit: unit.0, si: unit.1, below, step }
}

/// A unit symbol of the unit table with its SI value.
struct Measure(&'static str, f64);

const US_TSP: Measure = Measure("US tsp", US_GALLON_M3 / 768.0);
const US_TBSP: Measure = Measure("US tbsp", US_GALLON_M3 / 256.0);
const US_FL_OZ: Measure = Measure("US fl oz", US_GALLON_M3 / 128.0);
const US_CUP: Measure = Measure("US cup", US_GALLON_M3 / 16.0);
const US_GAL: Measure = Measure("US gal", US_GALLON_M3);
const IMP_FL_OZ: Measure = Measure("imp fl oz", IMPERIAL_GALLON_M3 / 160.0);
const IMP_PT: Measure = Measure("imp pt", IMPERIAL_GALLON_M3 / 8.0);
const IMP_GAL: Measure = Measure("imp gal", IMPERIAL_GALLON_M3);
const ML: Measure = Measure("mL", 1e-6);
const L: Measure = Measure("L", 1e-3);
const G: Measure = Measure("g", 1e-3);
const KG: Measure = Measure("kg", 1.0);
const OZ: Measure = Measure("oz", POUND_KG / 16.0);
const LB: Measure = Measure("lb", POUND_KG);

const ALWAYS: f64 = f64::INFINITY;

/// Spoons, a measuring jug, cups, and a gallon jug marked in pints.
static US_LIQUID: [Rung; 4] =
    [rung(US_TSP, 6.0, 0.25), rung(US_FL_OZ, 8.0, 0.5), rung(US_CUP, 16.0, 0.25), rung(US_GAL, ALWAYS, 0.125)];
static IMPERIAL_LIQUID: [Rung; 4] =
    [rung(ML, 28.413_062_5, 0.5), rung(IMP_FL_OZ, 20.0, 0.5), rung(IMP_PT, 8.0, 0.25), rung(IMP_GAL, ALWAYS, 0.125)];
static METRIC_LIQUID: [Rung; 5] =
    [rung(ML, 20.0, 0.5), rung(ML, 200.0, 5.0), rung(ML, 2000.0, 25.0), rung(L, 20.0, 0.1), rung(L, ALWAYS, 0.5)];
/// Granules of known bulk density by spoon and cup; above eight cups they are weighed.
static US_DRY_BY_VOLUME: [Rung; 3] = [rung(US_TSP, 3.0, 0.25), rung(US_TBSP, 4.0, 0.25), rung(US_CUP, 8.0, 0.125)];
static POUNDS: [Rung; 1] = [rung(LB, ALWAYS, 0.25)];
static OUNCES_AND_POUNDS: [Rung; 2] = [rung(OZ, 16.0, 0.25), rung(LB, ALWAYS, 0.125)];
static METRIC_DRY: [Rung; 4] = [rung(G, 20.0, 0.5), rung(G, 200.0, 5.0), rung(G, 2000.0, 25.0), rung(KG, ALWAYS, 0.1)];

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
        let amount = si / rung.si;
        (amount < rung.below).then(|| {
            let rounded = round_up(amount, rung.step);
            (rounded, rung.unit, rounded * rung.si)
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
    fn measures_are_those_of_the_unit_table() {
        let ladders: [&[Rung]; 7] =
            [&US_LIQUID, &IMPERIAL_LIQUID, &METRIC_LIQUID, &US_DRY_BY_VOLUME, &POUNDS, &OUNCES_AND_POUNDS, &METRIC_DRY];
        for rung in ladders.into_iter().flatten() {
            let unit = crate::quantity::unit::by_symbol(rung.unit).expect("a unit of the table");
            assert_eq!(unit.factor, rung.si, "{}", rung.unit);
        }
    }

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
