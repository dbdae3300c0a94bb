//! Where more product stops helping: the dose at which pH passes a limit, and the dose past which doubling gains little.
//!
//! Called for `explain`, cautions and the analyst, once per water. Answers with `None` where there is no such dose within
//! reason. It refuses to recommend a dose.

use super::carbonate::{CarbonateSystem, power_of_ten};
use super::constants::{CHLORINE_MOLAR_MASS, WORTHWHILE_GAIN};
use super::effect::{Addition, RawWater, effect};
use super::strength::Chemical;
use crate::quantity::ChlorineConcentration;
use crate::source::{Equation, Provenance, Source};

/// Largest dose considered, mg/L: far above any shock dose.
const LARGEST_DOSE: f64 = 20_000.0;
const SMALLEST_DOSE: f64 = 0.5;

const CHARGE_BALANCE: Source =
    Source { citation: "charge balance by strong ions (P2)", locator: "", provenance: Provenance::Derived };

/// Dose at which pH reaches a limit.
pub const DOSE_AT_PH: Equation = Equation {
    id: "P4",
    name: "Dose that brings the water to a pH",
    statement: "c = (C_T (a1 + 2 a2) + Kw' / {H} - [H] - Alk) / (1 + x - 1 / (1 + {H} / Ka'))",
    symbols: &[
        ("c", "mol/L", "dose, over the molar mass of Cl2"),
        ("Alk", "eq/L", "alkalinity before dosing"),
        ("C_T", "mol/L", "dissolved carbonate"),
        ("a1, a2", "1", "shares of bicarbonate and carbonate at the pH asked for"),
        ("x", "mol/mol", "free hydroxide per chlorine"),
        ("Ka', Kw'", "", "constants of HOCl and water"),
        ("{H}, [H]", "mol/L", "hydrogen ion at the pH asked for"),
    ],
    validity: "as P2; zero where the water is there already, none above 20 000 mg/L",
    sources: &[CHARGE_BALANCE],
    checks: &["PH-022", "PH-024", "PH-025", "PH-026", "PH-028", "chemistry::dose_at_ph_solves_back"],
};

/// Dose that brings the water to a pH: zero where it is there already, `None` where no dose within reason does.
///
/// `c = (C_T (a1 + 2 a2) + Kw' / {H} - [H] - Alk) / (1 + x - 1 / (1 + {H} / Ka'))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | c | mol/L | dose, over the molar mass of Cl2 |
/// | Alk | eq/L | alkalinity before dosing |
/// | C_T | mol/L | dissolved carbonate |
/// | a1, a2 | 1 | shares of bicarbonate and carbonate at the pH asked for |
/// | x | mol/mol | free hydroxide per chlorine |
/// | Ka', Kw' | | constants of HOCl and water |
/// | {H}, \[H\] | mol/L | hydrogen ion at the pH asked for |
///
/// The constants depend on the ionic strength (and with granules the calcium) that the dose brings, so the formula is repeated until it stands still.
/// Source: charge balance.
pub fn dose_at_ph(
    system: &CarbonateSystem,
    water: &RawWater,
    chemical: Chemical,
    hydroxide_per_chlorine: f64,
    ph: f64,
) -> Option<ChlorineConcentration> {
    if !ph.is_finite() {
        return None;
    }
    if ph <= water.ph {
        return Some(milligrams(0.0));
    }
    let raw = water.solution(system, 0.0);
    let hydrogen = power_of_ten(-ph);
    let mut dose = 0.0;
    for _ in 0..50 {
        let addition = Addition { dose: milligrams(dose), chemical, hydroxide_per_chlorine };
        let dosed = addition.to(raw);
        let conditional = system.conditional(&dosed);
        let missing = conditional.carbonate_alkalinity(raw.carbonate, dosed.calcium, hydrogen)
            + conditional.hydroxide_excess(hydrogen)
            - raw.alkalinity;
        let hypochlorite = conditional.hypochlorous / (hydrogen + conditional.hypochlorous);
        let next = milligrams_of_molarity(missing / (addition.alkalinity_per_chlorine() - hypochlorite));
        if !(0.0..=LARGEST_DOSE).contains(&next) {
            return None;
        }
        if (next - dose).abs() <= 1e-9 * next {
            return Some(milligrams(next));
        }
        dose = next;
    }
    Some(milligrams(dose))
}

/// Dose past which doubling gains little.
pub const USEFUL_DOSE: Equation = Equation {
    id: "P5",
    name: "Dose past which doubling the product gains little HOCl",
    statement: "D* = least D with 2 s(2 D) / s(D) - 1 < 0.25",
    symbols: &[
        ("D*", "mg/L as Cl2", "dose past which doubling gains little"),
        ("s(D)", "1", "share of HOCl at dose D (P2)"),
    ],
    validity: "as P2; looked for between 0.5 and 20 000 mg/L; a quarter is our line, not nature's",
    sources: &[CHARGE_BALANCE],
    checks: &["chemistry::past_the_useful_dose_doubling_gains_little"],
};

/// Least dose of which doubling raises HOCl by less than a quarter; `None` where there is no such dose.
///
/// `D* = least D with 2 s(2 D) / s(D) - 1 < 0.25`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | D* | mg/L as Cl2 | dose past which doubling gains little |
/// | s(D) | 1 | share of HOCl at dose D (P2) |
///
/// Source: charge balance; the quarter is our line.
pub fn useful_dose(
    system: &CarbonateSystem,
    water: &RawWater,
    chemical: Chemical,
    hydroxide_per_chlorine: f64,
) -> Option<ChlorineConcentration> {
    let gain = |dose: f64| {
        let at = |dose| effect(system, water, &Addition { dose: milligrams(dose), chemical, hydroxide_per_chlorine });
        2.0 * at(2.0 * dose).hocl_share / at(dose).hocl_share - 1.0
    };
    // The gain starts near one and falls while the buffer is used up: walk up until it is small, then halve the stretch.
    let mut low = SMALLEST_DOSE;
    if gain(low) < WORTHWHILE_GAIN.value {
        return Some(milligrams(low));
    }
    let mut high = low;
    while gain(high) >= WORTHWHILE_GAIN.value {
        low = high;
        high *= std::f64::consts::SQRT_2;
        if high > LARGEST_DOSE {
            return None;
        }
    }
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if gain(middle) < WORTHWHILE_GAIN.value {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(milligrams(high))
}

fn milligrams(dose: f64) -> ChlorineConcentration {
    ChlorineConcentration::from_milligrams_per_liter(dose)
}

fn milligrams_of_molarity(molarity: f64) -> f64 {
    molarity * 1000.0 * CHLORINE_MOLAR_MASS.value
}
