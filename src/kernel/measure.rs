//! Field measures: the amount a person can measure out, rounded up, for a computed amount of product.
//!
//! Called once for each requirement. A ladder of measures for each way of measuring gives the unit and the graduation;
//! the amount is rounded *up* to it, so that what is poured never falls short, and what that really gives is computed from
//! the rounded amount. The graduations grow with the amount, so that rounding up adds at most an eighth
//! ([`GREATEST_EXCESS`]); between 10 and 40 mL, where a household has spoons of 5 mL and a cup marked by as much, it adds less than
//! one of them ([`SPOON_ML`]). Knows nothing of wells, and nothing of how an amount is said: `quantity::kitchen` does.

use crate::field::rules::UnitSystem;
use crate::quantity::Reading;
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
    statement: "a = s max(1, ceil(A / s)), A <= a <= max(A + s_1, 1.125 A)",
    symbols: &[
        ("a", "unit of the measure", "amount to measure out"),
        ("A", "unit of the measure", "amount computed"),
        ("s", "unit of the measure", "graduation of the measure, at most A / 8 but for s_1"),
        (
            "s_1",
            "unit of the measure",
            "finest graduation: 1/8 teaspoon, 0.1 mL by syringe, 0.1 g, 0.01 oz; from 10 to 40 mL a spoon of 5 mL",
        ),
    ],
    validity: "any positive amount; an amount within 1e-9 of a graduation is that graduation, so that exact multiples stay",
    sources: &[Source {
        citation: "graduations of household and laboratory measures",
        locator: "",
        provenance: Provenance::CommonPractice,
    }],
    checks: &[
        "quantities::exact_multiples_of_the_measure_stay",
        "measures::rounding_up_adds_at_most_an_eighth_or_a_spoon",
    ],
};

/// What rounding up adds at most, as a share, above eight of the finest graduation; below that, at most one of it.
pub const GREATEST_EXCESS: f64 = 0.125;

/// Graduation of milliliters between what a syringe takes and what a measuring cup is read by: a kitchen spoon.
pub const SPOON_ML: f64 = 5.0;
/// Milliliters from and below which rounding up adds at most one [`SPOON_ML`], which there is more than an eighth.
pub const BY_SPOON_ML: (f64, f64) = (10.0, 40.0);

/// On which side the amount that is measured out meets the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MeasureFor {
    /// For the water and the strength that are planned with: where there is more water, or the product is weaker, a well gets
    /// less than the target.
    Typical,
    /// For the most water and the weakest product that are allowed for: the target is met on that side too.
    High,
}

impl MeasureFor {
    /// The word used in scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Typical => "typical",
            Self::High => "high",
        }
    }

    /// The reading that is measured out.
    pub const fn reading(self) -> Reading {
        match self {
            Self::Typical => Reading::Mid,
            Self::High => Reading::High,
        }
    }
}

/// A graduation as a fraction of its unit, so that 3 x 0.1 is 0.3 and not 0.30000000000000004.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Graduation {
    /// Units in so many graduations.
    pub units: u32,
    /// Graduations in so many units.
    pub parts: u32,
}

/// One rung: a unit, its graduation, and the computed amount (in that unit) below which it is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rung {
    /// Symbol of the unit.
    pub unit: &'static str,
    /// SI per unit; a test holds it to the unit table, which is too slow to search for every well.
    pub si: f64,
    /// The amount, in this unit, below which it is used.
    pub below: f64,
    /// What it is marked in.
    pub step: Graduation,
}

/// A rung whose graduation is one part in so many of the unit.
const fn part(unit: Measure, below: f64, parts: u32) -> Rung {
    Rung { unit: unit.0, si: unit.1, below, step: Graduation { units: 1, parts } }
}

/// A rung whose graduation is so many units.
const fn each(unit: Measure, below: f64, units: u32) -> Rung {
    Rung { unit: unit.0, si: unit.1, below, step: Graduation { units, parts: 1 } }
}

/// A unit symbol of the unit table with its SI value.
struct Measure(&'static str, f64);

const US_TSP: Measure = Measure("US tsp", US_GALLON_M3 / 768.0);
const US_TBSP: Measure = Measure("US tbsp", US_GALLON_M3 / 256.0);
const US_CUP: Measure = Measure("US cup", US_GALLON_M3 / 16.0);
const US_QT: Measure = Measure("US qt", US_GALLON_M3 / 4.0);
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

/// Measures of one way of measuring, the smallest first; the last has no upper end.
pub type Ladder = &'static [Rung];

/// Teaspoons to 1/4 cup, tablespoons to a cup, cups to four; for liquids, and for granules of known bulk density.
static US_SPOONS_AND_CUPS: Ladder = &[
    part(US_TSP, 2.0, 8),
    part(US_TSP, 4.0, 4),
    part(US_TSP, 12.0, 2),
    part(US_TBSP, 8.0, 2),
    part(US_TBSP, 16.0, 1),
    part(US_CUP, 2.0, 8),
    part(US_CUP, 4.0, 4),
];
/// From four cups on a liquid goes by quarts and cups, then gallons and quarts; granules are weighed.
static US_QUARTS_AND_GALLONS: Ladder = &[
    part(US_QT, 2.0, 8),
    part(US_QT, 4.0, 4),
    part(US_GAL, 2.0, 8),
    part(US_GAL, 10.0, 4),
    part(US_GAL, 50.0, 2),
    part(US_GAL, ALWAYS, 1),
];
static IMPERIAL_LIQUID: Ladder = &[
    part(ML, 4.0, 10),
    part(ML, 8.0, 2),
    part(ML, 10.0, 1),
    each(ML, 100.0, 5),
    each(ML, 113.652_25, 10),
    part(IMP_FL_OZ, 8.0, 2),
    part(IMP_FL_OZ, 20.0, 1),
    part(IMP_PT, 2.0, 8),
    part(IMP_PT, 8.0, 4),
    part(IMP_GAL, 2.0, 8),
    part(IMP_GAL, 10.0, 4),
    part(IMP_GAL, 50.0, 2),
    part(IMP_GAL, ALWAYS, 1),
];
/// A syringe to 10 mL; spoons of 5 mL or a cup marked by as much to 100 mL; a cup marked by 10 mL to 500 mL, a jug by 50 mL to 2 L; a
/// bucket marked in quarters of a liter.
static METRIC_LIQUID: Ladder = &[
    part(ML, 4.0, 10),
    part(ML, 8.0, 2),
    part(ML, 10.0, 1),
    each(ML, 100.0, 5),
    each(ML, 500.0, 10),
    each(ML, 2000.0, 50),
    part(L, 10.0, 4),
    part(L, 50.0, 2),
    part(L, ALWAYS, 1),
];
/// A pocket scale, a kitchen scale, a hanging scale.
static OUNCES_AND_POUNDS: Ladder = &[
    part(OZ, 0.4, 100),
    part(OZ, 0.8, 20),
    part(OZ, 2.0, 10),
    part(OZ, 4.0, 4),
    part(OZ, 16.0, 2),
    part(LB, 4.0, 16),
    part(LB, 16.0, 8),
    part(LB, 100.0, 2),
    part(LB, ALWAYS, 1),
];
static METRIC_DRY: Ladder = &[
    part(G, 4.0, 10),
    part(G, 8.0, 2),
    part(G, 40.0, 1),
    each(G, 80.0, 5),
    each(G, 1000.0, 10),
    part(KG, 2.0, 20),
    part(KG, 10.0, 10),
    part(KG, 50.0, 2),
    part(KG, ALWAYS, 1),
];
/// Water to dilute in: a bucket. In a well so small that half a bucket would thin the dose, a cup or a jug.
static US_BUCKET: Ladder = &[part(US_GAL, 10.0, 2), part(US_GAL, ALWAYS, 1)];
static US_SMALL_BUCKET: Ladder = &[part(US_CUP, 4.0, 1), part(US_QT, 4.0, 1), part(US_GAL, ALWAYS, 2)];
static IMPERIAL_BUCKET: Ladder = &[part(IMP_GAL, 10.0, 2), part(IMP_GAL, ALWAYS, 1)];
static IMPERIAL_SMALL_BUCKET: Ladder = &[part(IMP_PT, 8.0, 2), part(IMP_GAL, ALWAYS, 2)];
static METRIC_BUCKET: Ladder = &[part(L, 10.0, 2), part(L, ALWAYS, 1)];
static METRIC_SMALL_BUCKET: Ladder = &[each(ML, 1000.0, 100), part(L, ALWAYS, 2)];

/// Share of the treated water that the least bucket may be.
const BUCKET_SHARE: f64 = 0.1;

/// An amount as a person measures it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured<T> {
    /// How many of the unit.
    pub amount: f64,
    /// Unit symbol of the unit table.
    pub unit: &'static str,
    /// What this really is.
    pub product: T,
}

/// Rounds `amount` up to a multiple of a graduation, at least one: the one place where a measure is rounded.
///
/// `a = s max(1, ceil(A / s)), A <= a <= max(A + s_1, 1.125 A)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | a | unit of the measure | amount to measure out |
/// | A | unit of the measure | amount computed |
/// | s | unit of the measure | graduation of the measure, at most A / 8 but for s_1 |
/// | s_1 | unit of the measure | finest graduation: 1/8 teaspoon, 0.1 mL by syringe, 0.1 g, 0.01 oz; from 10 to 40 mL a spoon of 5 mL |
///
/// Why not `ceil(A / s) * s` alone: 0.07 / 0.01 is 7.000000000000001 in binary, and would become 8 steps. Rounding up by
/// the plain ceiling is one step too high on about one in fifteen exact multiples. Error: at most one graduation too much,
/// never too little but by 1e-9 of a graduation. Source: graduations of household and laboratory measures.
pub fn round_up(amount: f64, step: Graduation) -> f64 {
    let (units, parts) = (f64::from(step.units), f64::from(step.parts));
    let steps = amount * parts / units;
    let nearest = steps.round();
    let whole = if (steps - nearest).abs() <= 1e-9 * nearest.max(1.0) { nearest } else { steps.ceil() };
    whole.max(1.0) * units / parts
}

/// Walks a ladder: `si` is the amount in SI units; gives amount, unit and the SI value of the rounded amount.
fn climb(ladder: Ladder, si: f64) -> Option<Measured<f64>> {
    ladder.iter().find_map(|rung| {
        let amount = si / rung.si;
        (amount < rung.below).then(|| {
            let rounded = round_up(amount, rung.step);
            Measured { amount: rounded, unit: rung.unit, product: rounded * rung.si }
        })
    })
}

impl<T> Measured<T> {
    /// The same amount of something else.
    pub(super) fn map<U>(self, make: impl Fn(T) -> U) -> Measured<U> {
        Measured { amount: self.amount, unit: self.unit, product: make(self.product) }
    }
}

/// Liquid product as a person measures it; `None` only for an amount that is not a number.
pub fn measure_liquid(volume: ProductVolume, system: UnitSystem) -> Option<Measured<ProductVolume>> {
    let volume = volume.quantity().get::<cubic_meter>();
    let measured = match system {
        UnitSystem::Us => climb(US_SPOONS_AND_CUPS, volume).or_else(|| climb(US_QUARTS_AND_GALLONS, volume)),
        UnitSystem::Metric => climb(METRIC_LIQUID, volume),
        UnitSystem::Imperial => climb(IMPERIAL_LIQUID, volume),
    }?;
    Some(measured.map(|si| Of::new(Volume::new::<cubic_meter>(si))))
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
        if let Some(measured) = climb(US_SPOONS_AND_CUPS, volume.get::<cubic_meter>()) {
            return Some(measured.map(|si| Of::new(Volume::new::<cubic_meter>(si) * density)));
        }
    }
    let measured = climb(weights(system), mass.quantity().get::<kilogram>())?;
    Some(measured.map(|si| Of::new(Mass::new::<kilogram>(si))))
}

/// The measures of a liquid, smallest first: what [`measure_liquid`] climbs.
pub fn liquid_rungs(system: UnitSystem) -> impl Iterator<Item = &'static Rung> {
    let ladders: [Ladder; 2] = match system {
        UnitSystem::Us => [US_SPOONS_AND_CUPS, US_QUARTS_AND_GALLONS],
        UnitSystem::Metric => [METRIC_LIQUID, &[]],
        UnitSystem::Imperial => [IMPERIAL_LIQUID, &[]],
    };
    ladders.into_iter().flatten()
}

/// The measures of a dry product by volume, used where its bulk density is stated, and by weight: what [`measure_dry`] climbs.
pub const fn dry_rungs(system: UnitSystem) -> (Ladder, Ladder) {
    match system {
        UnitSystem::Us => (US_SPOONS_AND_CUPS, OUNCES_AND_POUNDS),
        UnitSystem::Imperial => (&[], OUNCES_AND_POUNDS),
        UnitSystem::Metric => (&[], METRIC_DRY),
    }
}

/// A weight as a person weighs it out, rounded up; `None` for nothing, and for what is not a number.
pub fn weigh(kilograms: f64, system: UnitSystem) -> Option<Measured<f64>> {
    if kilograms > 0.0 { climb(weights(system), kilograms) } else { None }
}

const fn weights(system: UnitSystem) -> Ladder {
    match system {
        UnitSystem::Metric => METRIC_DRY,
        UnitSystem::Us | UnitSystem::Imperial => OUNCES_AND_POUNDS,
    }
}

/// Water to dilute in as a person measures it: whole or half gallons, half liters; cups or jugs only in a well so small that
/// half a gallon would be more than a tenth of its water. `None` where none is asked for.
pub fn measure_dilution(water: Volume, treated: Volume, system: UnitSystem) -> Option<Measured<Volume>> {
    let water = water.get::<cubic_meter>();
    if water <= 0.0 {
        return None;
    }
    let (bucket, small) = match system {
        UnitSystem::Us => (US_BUCKET, US_SMALL_BUCKET),
        UnitSystem::Imperial => (IMPERIAL_BUCKET, IMPERIAL_SMALL_BUCKET),
        UnitSystem::Metric => (METRIC_BUCKET, METRIC_SMALL_BUCKET),
    };
    let measured = climb(bucket, water)?;
    let too_much = measured.product > BUCKET_SHARE * treated.get::<cubic_meter>() && measured.product > water;
    let measured = if too_much { climb(small, water)? } else { measured };
    Some(measured.map(Volume::new::<cubic_meter>))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MEASURES: [Ladder; 6] =
        [US_SPOONS_AND_CUPS, US_QUARTS_AND_GALLONS, IMPERIAL_LIQUID, METRIC_LIQUID, OUNCES_AND_POUNDS, METRIC_DRY];
    const BUCKETS: [Ladder; 6] =
        [US_BUCKET, US_SMALL_BUCKET, IMPERIAL_BUCKET, IMPERIAL_SMALL_BUCKET, METRIC_BUCKET, METRIC_SMALL_BUCKET];

    #[test]
    fn measures_are_those_of_the_unit_table() {
        for rung in MEASURES.into_iter().chain(BUCKETS).flatten() {
            let unit = crate::quantity::unit::by_symbol(rung.unit).expect("a unit of the table");
            assert_eq!(unit.factor, rung.si, "{}", rung.unit);
        }
    }

    /// Random numbers never meet this trap; exact multiples do.
    #[test]
    fn exact_multiples_of_every_measure_stay() {
        for rung in MEASURES.into_iter().chain(BUCKETS).flatten() {
            for n in 1..3000 {
                let exact = f64::from(n) * f64::from(rung.step.units) / f64::from(rung.step.parts);
                assert_eq!(round_up(exact, rung.step), exact, "{n} x {:?}", rung.step);
                // The same amount after a journey through SI.
                assert_eq!(round_up(exact * rung.si / rung.si, rung.step), exact, "{n} x {:?}", rung.step);
            }
        }
    }

    #[test]
    fn no_graduation_is_coarser_than_an_eighth_of_what_it_measures() {
        for ladder in MEASURES {
            for pair in ladder.windows(2) {
                let (from, step) = (pair[0].below * pair[0].si, pair[1].step);
                let step = f64::from(step.units) / f64::from(step.parts) * pair[1].si;
                let most = GREATEST_EXCESS * from * (1.0 + 1e-9);
                let by_spoon = pair[1].unit == ML.0 && pair[0].below == BY_SPOON_ML.0 && step == SPOON_ML * ML.1;
                assert!(step <= most || by_spoon, "{} from {from}: {step}", pair[1].unit);
            }
        }
    }
}
