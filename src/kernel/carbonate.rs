//! The carbonate system: equilibrium constants at a temperature and ionic strength, and the pH that balances the charges.
//!
//! The engine room of the effect, calcite and dose-limit rooms, called for every well with pH and alkalinity; so it is one
//! equation in one unknown, solved by Newton's method inside a bracket that always closes. It knows mol/L, not wells.

use super::constants::{
    CALCITE_LOG_K_CONSTANT, CALCITE_LOG_K_INVERSE, CALCITE_LOG_K_LINEAR, CALCITE_LOG_K_LOGARITHM,
    CALCIUM_BICARBONATE_PAIR_CONSTANT, CALCIUM_BICARBONATE_PAIR_INVERSE, CALCIUM_BICARBONATE_PAIR_LINEAR,
    CALCIUM_BICARBONATE_PAIR_LOGARITHM, CALCIUM_CARBONATE_MOLAR_MASS, CALCIUM_CARBONATE_PAIR_CONSTANT,
    CALCIUM_CARBONATE_PAIR_INVERSE, CALCIUM_CARBONATE_PAIR_LINEAR, CALCIUM_CARBONATE_PAIR_LOGARITHM,
    CARBONIC_PK1_CONSTANT, CARBONIC_PK1_INVERSE, CARBONIC_PK1_INVERSE_SQUARE, CARBONIC_PK1_LINEAR,
    CARBONIC_PK1_LOGARITHM, CARBONIC_PK2_CONSTANT, CARBONIC_PK2_INVERSE, CARBONIC_PK2_INVERSE_SQUARE,
    CARBONIC_PK2_LINEAR, CARBONIC_PK2_LOGARITHM, GAS_CONSTANT, PLUMMER_BUSENBERG, SODIUM_CARBONATE_PAIR,
    SODIUM_CARBONATE_PAIR_ENTHALPY, WATER_LOG_K_CONSTANT, WATER_LOG_K_INVERSE, WATER_LOG_K_LINEAR,
    WATER_LOG_K_LOGARITHM, WATER_LOG_K_SQUARE,
};
use super::speciation::{debye_hueckel_slope, hypochlorous_pka, log_activity_of_single_charge};
use crate::quantity::ThermodynamicTemperature;
use crate::quantity::basis::{CarbonateConcentration, celsius, celsius_of};
use crate::source::{Equation, Provenance, Source};

/// Lowest and highest water temperature (C) for which the constants are evaluated; beyond, the nearer end is used.
const TEMPERATURES: (f64, f64) = (-1.0, 60.0);
/// Hydrogen ion activity within which the solver looks, pH 14 to 0; a solution outside is reported as the nearer end.
const BRACKET: (f64, f64) = (1e-14, 1.0);
/// Newton stops after a relative step smaller than this: the error left is its square (4e-11 pH).
const SMALL_STEP: f64 = 1e-5;
/// The secant stops after a relative step smaller than this.
const SMALL_SECANT_STEP: f64 = 1e-8;
/// Halving stops after a relative step smaller than this.
const SMALL_HALVING: f64 = 1e-13;

/// Equilibrium constants of the carbonate system.
pub const CARBONATE_CONSTANTS: Equation = Equation {
    id: "P1",
    name: "Equilibrium constants of the carbonate system",
    statement: "pK = a + b T + c / T + d log10 T + e / T^2 (water, calcite, ion pairs: log10 K; water: e T^2)",
    symbols: &[
        ("pK", "1", "-log10 of the first or second dissociation constant of carbonic acid"),
        ("T", "K", "temperature"),
        ("a, b, c, d, e", "", "coefficients, see the constants"),
    ],
    validity: "0 to 60 C; beyond, the nearer end is used",
    sources: &[
        PLUMMER_BUSENBERG,
        Source { citation: "phreeqc.dat of PHREEQC 3", locator: "H2O, Calcite", provenance: Provenance::Seen },
    ],
    checks: &["PH-029", "PH-030", "PH-032", "PH-034", "PH-036", "PH-037", "PH-038", "PH-039"],
};

/// Equilibrium constants of water, carbonic acid, hypochlorous acid and calcite at one temperature; made once, used for
/// any number of waters of that temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarbonateSystem {
    first_dissociation: f64,
    second_dissociation: f64,
    ion_product: f64,
    hypochlorous: f64,
    pub(super) calcite: f64,
    carbonate_pair: f64,
    bicarbonate_pair: f64,
    sodium_pair: f64,
    slope: f64,
}

impl CarbonateSystem {
    /// The constants at a temperature.
    ///
    /// `pK = a + b T + c / T + d log10 T + e / T^2 (water, calcite, ion pairs: log10 K; water: e T^2)`
    ///
    /// | symbol | unit | meaning |
    /// |---|---|---|
    /// | pK | 1 | -log10 of the first or second dissociation constant of carbonic acid |
    /// | T | K | temperature |
    /// | a, b, c, d, e | | coefficients, see the constants |
    ///
    /// Holds from 0 to 60 C; beyond, the nearer end is used. Source: Plummer and Busenberg 1982, phreeqc.dat.
    pub fn at(temperature: ThermodynamicTemperature) -> Self {
        let temperature = celsius_of(within(celsius(temperature), TEMPERATURES.0, TEMPERATURES.1));
        Self {
            first_dissociation: power_of_ten(-first_pk(temperature)),
            second_dissociation: power_of_ten(-second_pk(temperature)),
            ion_product: power_of_ten(log_ion_product(temperature)),
            hypochlorous: power_of_ten(-hypochlorous_pka(temperature)),
            calcite: power_of_ten(log_calcite_solubility(temperature)),
            carbonate_pair: power_of_ten(log_carbonate_pair(temperature)),
            bicarbonate_pair: power_of_ten(log_bicarbonate_pair(temperature)),
            sodium_pair: power_of_ten(log_sodium_pair(temperature)),
            slope: debye_hueckel_slope(temperature),
        }
    }

    /// The constants for a solution's ionic strength and sodium.
    pub(super) fn conditional(&self, solution: &Solution) -> Conditional {
        let single = power_of_ten(log_activity_of_single_charge(self.slope, solution.ionic_strength));
        let double = single * single * single * single;
        // NaCO3- has carbonate's two equivalents: it only makes carbonate look more abundant than the free ion is.
        let sodium_pairing = 1.0 + self.sodium_pair * double * solution.sodium;
        Conditional {
            first: self.first_dissociation / single,
            second: self.second_dissociation * single / double * sodium_pairing,
            water: self.ion_product / single,
            hypochlorous: self.hypochlorous / single,
            carbonate_pair: self.carbonate_pair * double * double / sodium_pairing,
            bicarbonate_pair: self.bicarbonate_pair * double,
            sodium_pairing,
            single,
        }
    }
}

/// pK of the first dissociation of carbonic acid.
pub fn first_pk(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    CARBONIC_PK1_CONSTANT.value
        + CARBONIC_PK1_LINEAR.value * kelvin
        + CARBONIC_PK1_INVERSE.value / kelvin
        + CARBONIC_PK1_LOGARITHM.value * kelvin.log10()
        + CARBONIC_PK1_INVERSE_SQUARE.value / (kelvin * kelvin)
}

/// pK of the second dissociation of carbonic acid.
pub fn second_pk(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    CARBONIC_PK2_CONSTANT.value
        + CARBONIC_PK2_LINEAR.value * kelvin
        + CARBONIC_PK2_INVERSE.value / kelvin
        + CARBONIC_PK2_LOGARITHM.value * kelvin.log10()
        + CARBONIC_PK2_INVERSE_SQUARE.value / (kelvin * kelvin)
}

/// log10 of the ion product of water.
pub fn log_ion_product(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    WATER_LOG_K_CONSTANT.value
        + WATER_LOG_K_LINEAR.value * kelvin
        + WATER_LOG_K_INVERSE.value / kelvin
        + WATER_LOG_K_LOGARITHM.value * kelvin.log10()
        + WATER_LOG_K_SQUARE.value * kelvin * kelvin
}

/// log10 of the solubility product of calcite.
pub fn log_calcite_solubility(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    CALCITE_LOG_K_CONSTANT.value
        + CALCITE_LOG_K_LINEAR.value * kelvin
        + CALCITE_LOG_K_INVERSE.value / kelvin
        + CALCITE_LOG_K_LOGARITHM.value * kelvin.log10()
}

/// log10 of the association constant of the ion pair CaCO3.
fn log_carbonate_pair(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    CALCIUM_CARBONATE_PAIR_CONSTANT.value
        + CALCIUM_CARBONATE_PAIR_LINEAR.value * kelvin
        + CALCIUM_CARBONATE_PAIR_INVERSE.value / kelvin
        + CALCIUM_CARBONATE_PAIR_LOGARITHM.value * kelvin.log10()
}

/// log10 of the association constant of the ion pair CaHCO3+.
fn log_bicarbonate_pair(temperature: ThermodynamicTemperature) -> f64 {
    let kelvin = temperature.value;
    CALCIUM_BICARBONATE_PAIR_CONSTANT.value
        + CALCIUM_BICARBONATE_PAIR_LINEAR.value * kelvin
        + CALCIUM_BICARBONATE_PAIR_INVERSE.value / kelvin
        + CALCIUM_BICARBONATE_PAIR_LOGARITHM.value * kelvin.log10()
}

/// log10 of the association constant of the ion pair NaCO3-, carried from 25 C by its enthalpy.
fn log_sodium_pair(temperature: ThermodynamicTemperature) -> f64 {
    let per_kelvin = SODIUM_CARBONATE_PAIR_ENTHALPY.value / (GAS_CONSTANT.value * std::f64::consts::LN_10);
    SODIUM_CARBONATE_PAIR.value + per_kelvin * (1.0 / celsius_of(25.0).value - 1.0 / temperature.value)
}

/// Constants at one ionic strength: hydrogen ion as activity (what a pH meter reads), everything else as concentration.
#[derive(Debug, Clone, Copy)]
pub(super) struct Conditional {
    first: f64,
    second: f64,
    water: f64,
    pub(super) hypochlorous: f64,
    carbonate_pair: f64,
    bicarbonate_pair: f64,
    /// Carbonate, free and paired with sodium, over free carbonate ion.
    pub(super) sodium_pairing: f64,
    pub(super) single: f64,
}

/// Free carbonate and calcium, mol/L, once ion pairs are taken out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Free {
    pub(super) carbonate: f64,
    pub(super) calcium: f64,
}

impl Conditional {
    /// Shares of bicarbonate and carbonate (with its sodium pair) in dissolved carbonate that calcium has not bound.
    pub(super) fn shares(&self, hydrogen: f64) -> (f64, f64) {
        let denominator = hydrogen * hydrogen + self.first * (hydrogen + self.second);
        (self.first * hydrogen / denominator, self.first * self.second / denominator)
    }

    /// Hydroxide less hydrogen ion, mol/L.
    pub(super) fn hydroxide_excess(&self, hydrogen: f64) -> f64 {
        self.water / hydrogen - hydrogen / self.single
    }

    /// Ion pairs take carbonate and calcium in equal parts: X = K (C - X)(Ca - X), the smaller root.
    pub(super) fn free(&self, carbonate: f64, calcium: f64, hydrogen: f64) -> Free {
        if calcium <= 0.0 {
            return Free { carbonate, calcium: 0.0 };
        }
        let (bicarbonate_share, carbonate_share) = self.shares(hydrogen);
        let association = self.bicarbonate_pair * bicarbonate_share + self.carbonate_pair * carbonate_share;
        let sum = association * (carbonate + calcium) + 1.0;
        let product = association * carbonate * calcium;
        let paired = 2.0 * product / (sum + (sum * sum - 4.0 * association * product).max(0.0).sqrt());
        Free { carbonate: carbonate - paired, calcium: calcium - paired }
    }

    /// Alkalinity of bicarbonate and carbonate, free and paired, eq/L.
    pub(super) fn carbonate_alkalinity(&self, carbonate: f64, calcium: f64, hydrogen: f64) -> f64 {
        let (bicarbonate_share, carbonate_share) = self.shares(hydrogen);
        let free = self.free(carbonate, calcium, hydrogen);
        free.carbonate
            * (bicarbonate_share * (1.0 + self.bicarbonate_pair * free.calcium)
                + 2.0 * carbonate_share * (1.0 + self.carbonate_pair * free.calcium))
    }

    /// Dissolved carbonate, free and paired, that has this alkalinity (the reverse of the above), mol/L.
    fn carbonate_of(&self, alkalinity: f64, calcium: f64, hydrogen: f64) -> f64 {
        let (bicarbonate_share, carbonate_share) = self.shares(hydrogen);
        let charge = bicarbonate_share + 2.0 * carbonate_share;
        if calcium <= 0.0 {
            return alkalinity / charge;
        }
        let association = self.bicarbonate_pair * bicarbonate_share + self.carbonate_pair * carbonate_share;
        let paired_charge = self.bicarbonate_pair * bicarbonate_share + 2.0 * self.carbonate_pair * carbonate_share;
        // Free carbonate F: charge association F^2 + (charge + paired_charge Ca - association Alk) F - Alk = 0.
        let linear = charge + paired_charge * calcium - association * alkalinity;
        let root = (linear * linear + 4.0 * charge * association * alkalinity).sqrt();
        let free = if linear > 0.0 {
            2.0 * alkalinity / (linear + root)
        } else {
            (root - linear) / (2.0 * charge * association)
        };
        free * (1.0 + association * calcium / (1.0 + association * free))
    }

    /// Charge balance less the alkalinity, and its derivative by ln\[H+\] without ion pairs; falls as hydrogen rises.
    fn balance(&self, solution: &Solution, hydrogen: f64) -> (f64, f64) {
        let denominator = hydrogen * hydrogen + self.first * (hydrogen + self.second);
        let carbonate = self.first * (hydrogen + 2.0 * self.second) / denominator;
        let carbonate_slope = hydrogen * (self.first - carbonate * (2.0 * hydrogen + self.first)) / denominator;
        let carbonate_alkalinity = if solution.calcium > 0.0 {
            self.carbonate_alkalinity(solution.carbonate, solution.calcium, hydrogen)
        } else {
            solution.carbonate * carbonate
        };
        let hypochlorite = self.hypochlorous / (hydrogen + self.hypochlorous);
        let hydroxide = self.water / hydrogen;
        let proton = hydrogen / self.single;
        let balance =
            carbonate_alkalinity + solution.chlorine * hypochlorite + hydroxide - proton - solution.alkalinity;
        let slope = solution.carbonate * carbonate_slope
            - solution.chlorine * hypochlorite * (1.0 - hypochlorite)
            - hydroxide
            - proton;
        (balance, slope)
    }
}

/// A water as the solver sees it: eq/L and mol/L.
#[derive(Debug, Clone, Copy)]
pub(super) struct Solution {
    pub(super) alkalinity: f64,
    pub(super) carbonate: f64,
    pub(super) chlorine: f64,
    pub(super) calcium: f64,
    /// Sodium of the product; that of the water itself is not known and pairs little.
    pub(super) sodium: f64,
    pub(super) ionic_strength: f64,
    /// First trial of the solver: the hydrogen ion before dosing.
    start: f64,
}

impl Solution {
    /// A water of known pH: its dissolved carbonate follows from pH and alkalinity.
    pub(super) fn of_known_ph(
        system: &CarbonateSystem,
        ph: f64,
        alkalinity: f64,
        calcium: f64,
        ionic_strength: f64,
    ) -> Self {
        let hydrogen = within(power_of_ten(-within(ph, 0.0, 14.0)), BRACKET.0, BRACKET.1);
        let mut solution =
            Self { alkalinity, carbonate: 0.0, chlorine: 0.0, calcium, sodium: 0.0, ionic_strength, start: hydrogen };
        let conditional = system.conditional(&solution);
        let hydroxide = conditional.hydroxide_excess(hydrogen);
        // A pH so high that hydroxide alone exceeds the stated alkalinity: the pH is believed.
        solution.alkalinity = alkalinity.max(hydroxide);
        solution.carbonate = conditional.carbonate_of(solution.alkalinity - hydroxide, calcium, hydrogen);
        solution
    }

    /// The hydrogen ion activity that balances the charges, mol/L.
    pub(super) fn hydrogen(&self, conditional: &Conditional) -> f64 {
        // The balance falls as hydrogen rises, so its sign tells on which side of the root a trial lies. Newton's step is
        // taken in x = ln{H}, in which the curve is nearly straight.
        let (mut low, mut high) = BRACKET;
        let mut hydrogen = self.start;
        let mut before: Option<(f64, f64)> = None;
        let mut enough = SMALL_STEP;
        for _ in 0..100 {
            let (balance, mut slope) = conditional.balance(self, hydrogen);
            if balance > 0.0 {
                low = hydrogen;
            } else {
                high = hydrogen;
            }
            if self.calcium > 0.0 {
                // The derivative leaves calcium pairs out; the secant of the last two trials has them in, but gains fewer
                // digits a step.
                slope = before.map_or(slope, |(at, value)| (balance - value) / (hydrogen / at).ln());
                before = Some((hydrogen, balance));
                enough = SMALL_SECANT_STEP;
            }
            let step = -balance / slope;
            // exp(step), by its first rational approximation where that is good enough for a trial.
            let factor = if step.abs() < 0.5 { (2.0 + step) / (2.0 - step) } else { step.exp() };
            let newton = hydrogen * factor;
            // Newton leaves the bracket only where the curve bends hard; halving then always closes it.
            let inside = newton >= low && newton <= high;
            let next = if inside { newton } else { (low * high).sqrt() };
            // A small step of Newton's leaves a far smaller error, a small halving leaves as much again.
            if (next - hydrogen).abs() < if inside { enough } else { SMALL_HALVING } * hydrogen {
                return next;
            }
            hydrogen = next;
        }
        hydrogen
    }
}

/// Alkalinity in eq/L; what is not a positive finite number counts as none.
pub(super) fn equivalents(alkalinity: CarbonateConcentration) -> f64 {
    2.0 * within(alkalinity.milligrams_per_liter(), 0.0, 1e5) / (1000.0 * CALCIUM_CARBONATE_MOLAR_MASS.value)
}

/// `value` held between `low` and `high`; what is not a number becomes `low`.
pub(super) fn within(value: f64, low: f64, high: f64) -> f64 {
    if value > low { if value < high { value } else { high } } else { low }
}

pub(super) fn power_of_ten(exponent: f64) -> f64 {
    (exponent * std::f64::consts::LN_10).exp()
}
