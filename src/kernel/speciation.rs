//! Free chlorine in water: how much of it is hypochlorous acid, which disinfects, and how much hypochlorite.
//!
//! Called with the pH after dosing. It refuses to know where the pH came from.

use super::constants::{
    DAVIES_LINEAR, DEBYE_HUECKEL_FACTOR, DIELECTRIC_CONSTANT, DIELECTRIC_CUBE, DIELECTRIC_LINEAR, DIELECTRIC_SQUARE,
    HYPOCHLOROUS_PKA_CONSTANT, HYPOCHLOROUS_PKA_INVERSE, HYPOCHLOROUS_PKA_LINEAR,
};
use crate::quantity::ThermodynamicTemperature;
use crate::quantity::basis::celsius;
use crate::source::{Equation, Provenance, Source};

/// Dissociation constant of hypochlorous acid.
pub const HYPOCHLOROUS_PKA: Equation = Equation {
    id: "H1",
    name: "Dissociation of hypochlorous acid",
    statement: "pKa = 3000 / T - 10.0686 + 0.0253 T",
    symbols: &[("pKa", "1", "-log10 of the dissociation constant"), ("T", "K", "temperature")],
    validity: "5 to 35 C",
    sources: &[Source {
        citation: "Morris, J. Phys. Chem. 70 (1966) 3798",
        locator: "fitted equation, as reproduced in public code that cites it",
        provenance: Provenance::Seen,
    }],
    checks: &["SPEC-002", "SPEC-003", "SPEC-004", "SPEC-005", "SPEC-007", "SPEC-013"],
};

/// Dissociation constant of hypochlorous acid as pKa, at zero ionic strength.
///
/// `pKa = 3000 / T - 10.0686 + 0.0253 T`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | pKa | 1 | -log10 of the dissociation constant |
/// | T | K | temperature |
///
/// Holds from 5 to 35 C. Source: Morris 1966.
pub fn hypochlorous_pka(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    HYPOCHLOROUS_PKA_INVERSE.value / kelvin + HYPOCHLOROUS_PKA_CONSTANT.value + HYPOCHLOROUS_PKA_LINEAR.value * kelvin
}

/// Debye-Hueckel slope A of log10 activity coefficients at a temperature.
pub fn debye_hueckel_slope(temperature: ThermodynamicTemperature) -> f64 {
    let t = celsius(temperature);
    let dielectric = DIELECTRIC_CONSTANT.value
        + t * (DIELECTRIC_LINEAR.value + t * (DIELECTRIC_SQUARE.value + t * DIELECTRIC_CUBE.value));
    let product = dielectric * temperature.value;
    DEBYE_HUECKEL_FACTOR.value / (product * product.sqrt())
}

/// Activity of a singly charged ion.
pub const DAVIES: Equation = Equation {
    id: "H2",
    name: "Activity coefficient of ions (Davies)",
    statement: "log10 g = -A z^2 (sqrt(I) / (1 + sqrt(I)) - 0.3 I), A = 1.82e6 (e T)^-1.5",
    symbols: &[
        ("g", "1", "activity coefficient"),
        ("A", "(L/mol)^0.5", "Debye-Hueckel slope"),
        ("z", "1", "charge of the ion"),
        ("I", "mol/L", "ionic strength"),
        ("e", "1", "dielectric constant of water"),
        ("T", "K", "temperature"),
    ],
    validity: "ionic strength to 0.5 mol/L; beyond it is held at 0.5",
    sources: &[Source {
        citation: "Stumm, Morgan: Aquatic Chemistry, chapter 3; dielectric constant of Malmberg and Maryott 1956",
        locator: "as reproduced in public code",
        provenance: Provenance::Seen,
    }],
    checks: &["PH-006", "PH-007", "PH-010", "chemistry::ph_agrees_with_the_oracle"],
};

/// log10 of the activity coefficient of an ion of charge one; four times as much for charge two.
///
/// `log10 g = -A z^2 (sqrt(I) / (1 + sqrt(I)) - 0.3 I), A = 1.82e6 (e T)^-1.5`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | g | 1 | activity coefficient |
/// | A | (L/mol)^0.5 | Debye-Hueckel slope |
/// | z | 1 | charge of the ion |
/// | I | mol/L | ionic strength |
/// | e | 1 | dielectric constant of water |
/// | T | K | temperature |
///
/// Holds to an ionic strength of 0.5 mol/L, where it is held. Source: Stumm and Morgan, Aquatic Chemistry.
pub fn log_activity_of_single_charge(slope: f64, ionic_strength: f64) -> f64 {
    // The term in 0.3 I would turn upward and, far outside its range, overflow: a well is never that salty.
    let ionic_strength = ionic_strength.clamp(0.0, 0.5);
    let root = ionic_strength.sqrt();
    -slope * (root / (1.0 + root) - DAVIES_LINEAR.value * ionic_strength)
}

/// Share of hypochlorous acid.
pub const HOCL_SHARE: Equation = Equation {
    id: "H3",
    name: "Share of free chlorine present as HOCl",
    statement: "s = 1 / (1 + 10^(pH - pKa'))",
    symbols: &[
        ("s", "1", "share of HOCl in free chlorine"),
        ("pH", "1", "pH of the water"),
        ("pKa'", "1", "pKa + log10 g of a single charge, where ionic strength is counted"),
    ],
    validity: "free chlorine above pH 4, where Cl2 itself is negligible",
    sources: &[Source { citation: "mass action", locator: "", provenance: Provenance::Derived }],
    checks: &["SPEC-029", "SPEC-034", "PH-001", "PH-004"],
};

/// Share of free chlorine present as HOCl, 0 to 1.
///
/// `s = 1 / (1 + 10^(pH - pKa'))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | s | 1 | share of HOCl in free chlorine |
/// | pH | 1 | pH of the water |
/// | pKa' | 1 | pKa + log10 g of a single charge, where ionic strength is counted |
///
/// Holds above pH 4. Source: mass action.
pub fn hocl_share(ph: f64, pka: f64) -> f64 {
    1.0 / (1.0 + 10.0_f64.powf(ph - pka))
}
