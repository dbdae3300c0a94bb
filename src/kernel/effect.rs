//! What the dose does to the water: pH after dosing and the share of chlorine that stays HOCl.
//!
//! Hypochlorite is a base: it lifts the pH, and the higher the pH the less of the chlorine is HOCl. The water is a closed
//! carbonate system (no carbon dioxide is lost or gained), alkalinity is counted by strong ions, activities by Davies.
//! Called for every well with pH and alkalinity. It refuses the calcium of the water, whose part the calcite room tells.

pub use super::carbonate::{CarbonateSystem, first_pk, log_calcite_solubility, log_ion_product, second_pk};
use super::carbonate::{Conditional, Solution, equivalents, within};
use super::constants::{CHLORINE_MOLAR_MASS, IONIC_STRENGTH_PER_ALKALINITY, PLUMMER_BUSENBERG, USUAL_SALT_RATIO};
use super::strength::Chemical;
use crate::quantity::ChlorineConcentration;
use crate::quantity::basis::CarbonateConcentration;
use crate::source::{Equation, Provenance, Source};

/// A water before dosing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RawWater {
    /// pH before dosing, as measured: -log10 of the activity of hydrogen.
    pub ph: f64,
    /// Alkalinity before dosing, counted as CaCO3.
    pub alkalinity: CarbonateConcentration,
}

/// What is put into the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Addition {
    /// Dose of available chlorine.
    pub dose: ChlorineConcentration,
    /// What the product is: sodium or calcium and salt come into the water with the chlorine.
    pub chemical: Chemical,
    /// Free hydroxide that comes with the chlorine, mol/mol; see [`Chemical::usual_hydroxide_per_chlorine`].
    pub hydroxide_per_chlorine: f64,
}

impl Addition {
    /// A dose of a product with its usual hydroxide; `None` where there is no usual one.
    pub fn usual(dose: ChlorineConcentration, chemical: Chemical) -> Option<Self> {
        let hydroxide_per_chlorine = chemical.usual_hydroxide_per_chlorine()?;
        Some(Self { dose, chemical, hydroxide_per_chlorine })
    }

    /// A solution with this added to it.
    pub(super) fn to(&self, mut solution: Solution) -> Solution {
        let chlorine = self.molarity();
        solution.alkalinity += chlorine * self.alkalinity_per_chlorine();
        solution.ionic_strength += chlorine * self.ionic_strength_per_chlorine();
        solution.calcium += chlorine * self.calcium_per_chlorine();
        solution.sodium += chlorine * self.sodium_per_chlorine();
        solution.chlorine = chlorine;
        solution
    }

    /// Calcium brought per mole of chlorine.
    fn calcium_per_chlorine(&self) -> f64 {
        match self.chemical {
            Chemical::SodiumHypochlorite => 0.0,
            Chemical::CalciumHypochlorite | Chemical::ChlorinatedLime => 0.5 * self.alkalinity_per_chlorine(),
        }
    }

    /// Sodium brought per mole of chlorine: of the hypochlorite, the hydroxide and the salt.
    fn sodium_per_chlorine(&self) -> f64 {
        match self.chemical {
            Chemical::SodiumHypochlorite => self.alkalinity_per_chlorine() + USUAL_SALT_RATIO.value,
            Chemical::CalciumHypochlorite | Chemical::ChlorinatedLime => 0.0,
        }
    }

    /// The dose in moles of Cl2 per liter, never below zero.
    pub(super) fn molarity(&self) -> f64 {
        within(self.dose.milligrams_per_liter(), 0.0, 1e6) / (1000.0 * CHLORINE_MOLAR_MASS.value)
    }

    /// Alkalinity brought per mole of chlorine: the hypochlorite itself, and the free hydroxide.
    pub(super) fn alkalinity_per_chlorine(&self) -> f64 {
        1.0 + within(self.hydroxide_per_chlorine, 0.0, 100.0)
    }

    /// Ionic strength brought per mole of chlorine: the salts of the liquid, or the calcium of the granules.
    pub(super) fn ionic_strength_per_chlorine(&self) -> f64 {
        match self.chemical {
            Chemical::SodiumHypochlorite => self.alkalinity_per_chlorine() + USUAL_SALT_RATIO.value,
            // Half a mole of Ca2+ counts double its equivalents.
            Chemical::CalciumHypochlorite | Chemical::ChlorinatedLime => 1.5 * self.alkalinity_per_chlorine(),
        }
    }
}

impl RawWater {
    /// The water as the solver sees it, with calcium in mol/L.
    pub(super) fn solution(&self, system: &CarbonateSystem, calcium: f64) -> Solution {
        let alkalinity = equivalents(self.alkalinity);
        let ionic_strength = IONIC_STRENGTH_PER_ALKALINITY.value * alkalinity;
        Solution::of_known_ph(system, self.ph, alkalinity, calcium, ionic_strength)
    }

    /// The same after dosing, in a water without calcium of its own.
    pub(super) fn dosed(&self, system: &CarbonateSystem, addition: &Addition) -> Solution {
        addition.to(self.solution(system, 0.0))
    }
}

/// The water after dosing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effect {
    /// pH with the product mixed in, as long as no calcium carbonate falls out; then it ends lower.
    pub ph: f64,
    /// Share of the chlorine that is HOCl, 0 to 1.
    pub hocl_share: f64,
}

/// P2: the charge balance that is solved for the pH with the product in the water.
pub const PH_AFTER_DOSING: Equation = Equation {
    id: "P2",
    name: "pH after dosing",
    statement: "Alk + c (1 + x) = C_T (a1 + 2 a2) + c / (1 + {H} / Ka') + Kw' / {H} - [H]",
    symbols: &[
        ("Alk", "eq/L", "alkalinity before dosing"),
        ("c", "mol/L", "dose, over the molar mass of Cl2"),
        ("x", "mol/mol", "free hydroxide per chlorine"),
        ("C_T", "mol/L", "dissolved carbonate, from pH and alkalinity before dosing, held"),
        ("a1, a2", "1", "shares of bicarbonate and carbonate"),
        ("Ka', Kw'", "", "constants of HOCl and water at this temperature and ionic strength"),
        ("{H}, [H]", "mol/L", "hydrogen ion as activity, pH = -log10 {H}, and as concentration"),
    ],
    validity: "fresh water without calcium carbonate falling out, 0 to 60 C, ionic strength to 0.5 mol/L; sodium's \
               and calcium's ion pairs with carbonate are counted on both sides; demand reactions, which make acid, are not",
    sources: &[
        PLUMMER_BUSENBERG,
        Source { citation: "charge balance by strong ions", locator: "", provenance: Provenance::Derived },
    ],
    checks: &["PH-001", "PH-006", "PH-010", "PH-017", "PH-019", "chemistry::ph_agrees_with_the_oracle"],
};

/// pH after dosing and the share of HOCl.
///
/// `Alk + c (1 + x) = C_T (a1 + 2 a2) + c / (1 + {H} / Ka') + Kw' / {H} - [H]`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | Alk | eq/L | alkalinity before dosing |
/// | c | mol/L | dose, over the molar mass of Cl2 |
/// | x | mol/mol | free hydroxide per chlorine |
/// | C_T | mol/L | dissolved carbonate, from pH and alkalinity before dosing, held |
/// | a1, a2 | 1 | shares of bicarbonate and carbonate |
/// | Ka', Kw' | | constants of HOCl and water at this temperature and ionic strength |
/// | {H}, \[H\] | mol/L | hydrogen ion as activity, pH = -log10 {H}, and as concentration |
///
/// Ionic strength is taken as 1.3 Alk + c (1 + x + salt). The sodium and calcium that the product brings bind carbonate in
/// ion pairs, which are counted; those of the water itself are not known here. Any finite input gives a finite pH between 0 and 14: what is out
/// of bounds is held at the bound. Where calcium carbonate falls out the pH ends lower; see the calcite room.
/// Source: charge balance; constants of Plummer and Busenberg 1982.
pub fn effect(system: &CarbonateSystem, water: &RawWater, addition: &Addition) -> Effect {
    KnownWater::of(system, water).dosed(addition).effect()
}

/// A water of known pH with the constants at its temperature and its dissolved carbonate: made once for any number of doses.
#[derive(Debug, Clone, Copy)]
pub struct KnownWater {
    system: CarbonateSystem,
    ph: f64,
    solution: Solution,
}

impl KnownWater {
    /// A water before dosing, without calcium of its own.
    pub fn of(system: &CarbonateSystem, water: &RawWater) -> Self {
        Self { system: *system, ph: water.ph, solution: water.solution(system, 0.0) }
    }

    /// The same with a product in it.
    pub fn dosed(&self, addition: &Addition) -> DosedWater {
        let solution = addition.to(self.solution);
        let conditional = self.system.conditional(&solution);
        DosedWater { ph_before: self.ph, solution, conditional, chlorine: addition.molarity() }
    }
}

/// A water with a product in it, and the constants at its ionic strength: asked for its pH with the chlorine and without.
#[derive(Debug, Clone, Copy)]
pub struct DosedWater {
    /// pH of the raw water, as it was given.
    pub(super) ph_before: f64,
    solution: Solution,
    conditional: Conditional,
    /// Chlorine put in, mol/L.
    chlorine: f64,
}

impl DosedWater {
    /// pH after dosing and the share of HOCl (P2, H3), as [`effect`] explains.
    pub fn effect(&self) -> Effect {
        let hydrogen = self.solution.hydrogen(&self.conditional);
        Effect { ph: -hydrogen.log10(), hocl_share: hydrogen / (hydrogen + self.conditional.hypochlorous) }
    }

    /// pH once the chlorine is gone, with `alkalinity_per_chlorine` equivalents brought (or, negative, taken) by the agent
    /// for each mole of chlorine removed: P2 with no chlorine left.
    pub(super) fn ph_without_chlorine(&self, alkalinity_per_chlorine: f64) -> f64 {
        let mut solution = self.solution;
        solution.chlorine = 0.0;
        // The hypochlorite of the dose was counted as alkalinity; with the chlorine gone only the hydroxide and the agent
        // stay. Ionic strength and sodium stay too, and with them the constants.
        solution.alkalinity += self.chlorine * (alkalinity_per_chlorine - 1.0);
        -solution.hydrogen(&self.conditional).log10()
    }
}
