//! Chlorate: what hypochlorite turns into while it ages, and what of it stays in the well.
//!
//! Called once for each requirement of an aged liquid. Chlorine is used up and can be tested for; chlorate is neither, so a
//! residual alone does not tell that it has gone. It refuses dry products, whose loss goes other ways.

use super::constants::{CHLORATE_GUIDELINE, CHLORATE_MOLAR_MASS, CHLORATE_PER_HYPOCHLORITE, CHLORINE_MOLAR_MASS};
use super::emptying::emptyings_for;
use crate::quantity::basis::ChlorateConcentration;
use crate::quantity::{ChlorineConcentration, ChlorinePerLiquid};
use crate::source::{Equation, Provenance, Source};

/// Chlorate that an aged liquid brings.
pub const CHLORATE_LEFT: Equation = Equation {
    id: "A6",
    name: "Chlorate brought by an aged liquid",
    statement: "X = C (G0 / G - 1) (1/3) M_ClO3 / M_Cl2",
    symbols: &[
        ("X", "mg/L", "chlorate in the water"),
        ("C", "mg/L as Cl2", "dose"),
        ("G0, G", "g/L as Cl2", "strength of the product when made and on the day of use"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "all that is lost goes 3 OCl- -> 2 Cl- + ClO3-, the reaction of the rate law A2; the few percent that go to oxygen \
               bring less, what the product held when it was made is not known and comes on top",
    sources: &[
        super::constants::ADAM_GORDON,
        Source { citation: "reaction equation", locator: "", provenance: Provenance::Derived },
    ],
    checks: &["chemistry::chlorate_left_by_old_bleach", "chemistry::the_second_route_agrees"],
};

/// Chlorate that a dose of an aged liquid brings; none from a liquid no weaker than its label.
///
/// `X = C (G0 / G - 1) (1/3) M_ClO3 / M_Cl2`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | X | mg/L | chlorate in the water |
/// | C | mg/L as Cl2 | dose |
/// | G0, G | g/L as Cl2 | strength of the product when made and on the day of use |
/// | M | g/mol | molar mass |
///
/// Source: the reaction whose rate Adam and Gordon 1999 measured.
pub fn chlorate_left(
    dose: ChlorineConcentration,
    made: ChlorinePerLiquid,
    used: ChlorinePerLiquid,
) -> ChlorateConcentration {
    let lost_per_left = (made.grams_per_liter() / used.grams_per_liter() - 1.0).max(0.0);
    let per_chlorine = CHLORATE_PER_HYPOCHLORITE.value * CHLORATE_MOLAR_MASS.value / CHLORINE_MOLAR_MASS.value;
    ChlorateConcentration::from_milligrams_per_liter(dose.milligrams_per_liter() * lost_per_left * per_chlorine)
}

/// Volumes to flush until chlorate is down to the guideline value, by the ideal mixed tank (F1); zero where it is there.
pub fn volumes_for_chlorate(left: ChlorateConcentration) -> f64 {
    (left.milligrams_per_liter() / CHLORATE_GUIDELINE.value).max(1.0).ln()
}

/// Emptyings until chlorate is down to the guideline value, where a share is there again after each (E3); at least one.
pub fn emptyings_for_chlorate(left: ChlorateConcentration, carry_over: f64) -> Option<f64> {
    emptyings_for(left.milligrams_per_liter() / CHLORATE_GUIDELINE.value, carry_over)
}
