//! Strength of products: the four ways a liquid's "percent" is meant, density, dry products, chlorinated lime.
//!
//! Called once per product. The same printed number on two bases differs by a fifth, so no function here takes a percent
//! without its basis. It refuses to guess the basis and to know the price.

use super::constants::{
    CALCIUM_HYPOCHLORITE_MOLAR_MASS, CHLORINATED_LIME_STRONG, CHLORINATED_LIME_WEAK, CHLORINE_MOLAR_MASS,
    DENSITY_FIT_LIMIT, DENSITY_PER_CAUSTIC, DENSITY_PER_CHLORINE, GRANULE_HYDROXIDE_PER_CHLORINE,
    LIQUID_HYDROXIDE_PER_CHLORINE, SODIUM_HYDROXIDE_MOLAR_MASS, SODIUM_HYPOCHLORITE_MOLAR_MASS, USUAL_CAUSTIC,
};
use crate::quantity::unit::{POUND_KG, US_GALLON_M3};
use crate::quantity::{ChlorinePerDry, ChlorinePerLiquid, MassDensity};
use crate::source::{Equation, Provenance, Source};
use uom::si::mass_density::gram_per_cubic_centimeter;

const STRENGTH_SHEET: Source = Source {
    citation: "Sodium Hypochlorite Strengths, product profile (after White, Handbook of Chlorination, 1972)",
    locator: "definitions of trade, weight NaOCl and weight available chlorine percent",
    provenance: Provenance::Seen,
};
const DENSITY_BULLETIN: Source = Source {
    citation: "Specific Gravity of Sodium Hypochlorite, equipment maker's technical bulletin",
    locator: "120 g/L at 0, 0.2 and 0.73 wt % caustic",
    provenance: Provenance::Seen,
};

/// What is in the container.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Chemical {
    /// Liquid bleach: sodium hypochlorite in water, which loses strength as it ages.
    SodiumHypochlorite,
    /// Granules, powder or tablets of about 65 to 75 %.
    CalciumHypochlorite,
    /// Bleaching powder: 20 to 35 % of available chlorine, with free lime in it.
    ChlorinatedLime,
}

impl Chemical {
    /// All chemicals, in canonical order.
    pub const ALL: [Self; 3] = [Self::SodiumHypochlorite, Self::CalciumHypochlorite, Self::ChlorinatedLime];

    /// The word used in scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::SodiumHypochlorite => "sodium_hypochlorite",
            Self::CalciumHypochlorite => "calcium_hypochlorite",
            Self::ChlorinatedLime => "chlorinated_lime",
        }
    }

    /// The chemical with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|chemical| chemical.name() == name)
    }

    /// Whether it is measured by volume.
    pub const fn is_liquid(self) -> bool {
        matches!(self, Self::SodiumHypochlorite)
    }

    /// Free hydroxide per chlorine where the label does not say, mol/mol; `None` where no figure with a source is known.
    ///
    /// Chlorinated lime brings far more lime than granules, and how much of it goes into the well depends on whether it was
    /// left to settle: there is no usual figure.
    pub const fn usual_hydroxide_per_chlorine(self) -> Option<f64> {
        match self {
            Self::SodiumHypochlorite => Some(LIQUID_HYDROXIDE_PER_CHLORINE.value),
            Self::CalciumHypochlorite => Some(GRANULE_HYDROXIDE_PER_CHLORINE.value),
            Self::ChlorinatedLime => None,
        }
    }
}

/// What a liquid's number means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StrengthBasis {
    /// Trade percent: grams of available chlorine per 100 mL.
    Trade,
    /// Weight percent of sodium hypochlorite.
    WeightNaocl,
    /// Weight percent of available chlorine.
    WeightAvailableChlorine,
    /// Grams of available chlorine per litre.
    GramsPerLiter,
}

impl StrengthBasis {
    /// All bases, in canonical order.
    pub const ALL: [Self; 4] = [Self::Trade, Self::WeightNaocl, Self::WeightAvailableChlorine, Self::GramsPerLiter];

    /// The word used in scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Trade => "trade",
            Self::WeightNaocl => "weight_naocl",
            Self::WeightAvailableChlorine => "weight_available_chlorine",
            Self::GramsPerLiter => "grams_per_liter",
        }
    }

    /// The basis with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|basis| basis.name() == name)
    }
}

/// Excess sodium hydroxide (wt %) taken where the label does not say.
pub const USUAL_CAUSTIC_PERCENT: f64 = USUAL_CAUSTIC.value;

/// Mass of NaOCl that carries one mass of available chlorine.
const NAOCL_PER_CHLORINE: f64 = SODIUM_HYPOCHLORITE_MOLAR_MASS.value / CHLORINE_MOLAR_MASS.value;

/// Liquid strength from a label.
pub const LIQUID_STRENGTH: Equation = Equation {
    id: "S1",
    name: "Strength of a liquid from its label",
    statement: "G = 10 p (trade); G = a (1 + k_w w) / (1 - k_G a), a = 10 p (weight Cl2), a = 10 p M_Cl2 / M_NaOCl (weight NaOCl)",
    symbols: &[
        ("G", "g/L as Cl2", "available chlorine per liter of product"),
        ("p", "%", "number on the label"),
        ("a", "g/kg as Cl2", "available chlorine per kilogram of product"),
        ("w", "wt %", "excess sodium hydroxide"),
        ("k_G", "L/g", "rise of specific gravity per g/L, 1.3083e-3"),
        ("k_w", "1/wt %", "rise of specific gravity per wt % caustic, 0.01507"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "0 to 165 g/L, where the density fit holds; beyond 400 g/kg no liquid exists and there is no answer",
    sources: &[STRENGTH_SHEET, DENSITY_BULLETIN],
    checks: &["STRE-013", "STRE-014", "STRE-018", "D370", "chemistry::bases_of_strength_by_a_second_route"],
};

/// Available chlorine per litre from the number on the label, its basis, and the excess caustic (wt %).
///
/// `G = 10 p (trade); G = a (1 + k_w w) / (1 - k_G a), a = 10 p (weight Cl2), a = 10 p M_Cl2 / M_NaOCl (weight NaOCl)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | G | g/L as Cl2 | available chlorine per litre of product |
/// | p | % | number on the label |
/// | a | g/kg as Cl2 | available chlorine per kilogram of product |
/// | w | wt % | excess sodium hydroxide |
/// | k_G | L/g | rise of specific gravity per g/L, 1.3083e-3 |
/// | k_w | 1/wt % | rise of specific gravity per wt % caustic, 0.01507 |
/// | M | g/mol | molar mass |
///
/// Holds from 0 to 165 g/L. `None` for what cannot be a liquid hypochlorite: not positive, or beyond 400 g/kg.
/// Source: Sodium Hypochlorite Strengths; density from an equipment maker's technical bulletin.
pub fn liquid_strength(label: f64, basis: StrengthBasis, caustic_percent: f64) -> Option<ChlorinePerLiquid> {
    let by_weight = |grams_per_kilogram: f64| {
        grams_per_kilogram * (1.0 + DENSITY_PER_CAUSTIC.value * caustic_percent)
            / (1.0 - DENSITY_PER_CHLORINE.value * grams_per_kilogram)
    };
    let (grams_per_kilogram_at_most, grams_per_liter) = match basis {
        StrengthBasis::Trade => (10.0 * label, 10.0 * label),
        StrengthBasis::GramsPerLiter => (label, label),
        StrengthBasis::WeightAvailableChlorine => (10.0 * label, by_weight(10.0 * label)),
        StrengthBasis::WeightNaocl => {
            let grams_per_kilogram = 10.0 * label / NAOCL_PER_CHLORINE;
            (grams_per_kilogram, by_weight(grams_per_kilogram))
        }
    };
    let exists = grams_per_kilogram_at_most > 0.0 && grams_per_kilogram_at_most <= 400.0 && grams_per_liter.is_finite();
    exists.then(|| ChlorinePerLiquid::from_grams_per_liter(grams_per_liter))
}

/// Density of liquid hypochlorite.
pub const LIQUID_DENSITY: Equation = Equation {
    id: "S2",
    name: "Specific gravity of liquid hypochlorite at 20 C",
    statement: "SG = 1 + k_G G + k_w w",
    symbols: &[
        ("SG", "kg/L", "mass per volume"),
        ("G", "g/L as Cl2", "available chlorine per liter of product"),
        ("w", "wt %", "excess sodium hydroxide"),
        ("k_G", "L/g", "1.3083e-3"),
        ("k_w", "1/wt %", "0.01507"),
    ],
    validity: "20 C, equimolar salt, 0 to 165 g/L; low-salt product is lighter",
    sources: &[DENSITY_BULLETIN],
    checks: &["STRE-002", "STRE-003", "STRE-004", "STRE-005"],
};

/// Mass per volume of liquid hypochlorite from its strength and excess caustic (wt %).
///
/// `SG = 1 + k_G G + k_w w`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | SG | kg/L | mass per volume |
/// | G | g/L as Cl2 | available chlorine per litre of product |
/// | w | wt % | excess sodium hydroxide |
/// | k_G | L/g | 1.3083e-3 |
/// | k_w | 1/wt % | 0.01507 |
///
/// Holds at 20 C for equimolar salt, 0 to 165 g/L. Source: fit to three points of an equipment maker's technical bulletin, checked on a fourth.
pub fn liquid_density(strength: ChlorinePerLiquid, caustic_percent: f64) -> MassDensity {
    let specific_gravity =
        1.0 + DENSITY_PER_CHLORINE.value * strength.grams_per_liter() + DENSITY_PER_CAUSTIC.value * caustic_percent;
    MassDensity::new::<gram_per_cubic_centimeter>(specific_gravity)
}

/// Whether the density fit was made for this strength.
pub fn density_is_fitted(strength: ChlorinePerLiquid) -> bool {
    strength.grams_per_liter() <= DENSITY_FIT_LIMIT.value
}

/// The same liquid on every basis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidReadings {
    /// Grams of available chlorine per 100 mL.
    pub trade_percent: f64,
    /// Grams of NaOCl in 100 g of product.
    pub weight_naocl_percent: f64,
    /// Weight percent available chlorine.
    pub weight_available_chlorine_percent: f64,
    /// Grams of available chlorine per litre.
    pub grams_per_liter: f64,
    /// Pounds of available chlorine per US gallon.
    pub pounds_per_us_gallon: f64,
    /// Kilograms in a liter: what lies between percent by weight and grams per liter.
    pub specific_gravity: f64,
}

/// A strength read on every basis.
pub const READINGS: Equation = Equation {
    id: "S3",
    name: "A liquid's strength on every basis",
    statement: "trade = G / 10; wt % Cl2 = G / (10 SG); wt % NaOCl = (M_NaOCl / M_Cl2) G / (10 SG)",
    symbols: &[
        ("G", "g/L as Cl2", "available chlorine per liter of product"),
        ("SG", "kg/L", "mass per volume"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "as S1 and S2",
    sources: &[STRENGTH_SHEET],
    checks: &["STRE-013", "STRE-014", "chemistry::bases_of_strength_by_a_second_route"],
};

/// What a liquid of this strength and excess caustic (wt %) would be called on each basis.
///
/// `trade = G / 10; wt % Cl2 = G / (10 SG); wt % NaOCl = (M_NaOCl / M_Cl2) G / (10 SG)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | G | g/L as Cl2 | available chlorine per litre of product |
/// | SG | kg/L | mass per volume |
/// | M | g/mol | molar mass |
///
/// Source: Sodium Hypochlorite Strengths.
pub fn liquid_readings(strength: ChlorinePerLiquid, caustic_percent: f64) -> LiquidReadings {
    let grams_per_liter = strength.grams_per_liter();
    let specific_gravity = liquid_density(strength, caustic_percent).get::<gram_per_cubic_centimeter>();
    let weight_available_chlorine_percent = grams_per_liter / (10.0 * specific_gravity);
    LiquidReadings {
        trade_percent: grams_per_liter / 10.0,
        weight_naocl_percent: NAOCL_PER_CHLORINE * weight_available_chlorine_percent,
        weight_available_chlorine_percent,
        grams_per_liter,
        pounds_per_us_gallon: grams_per_liter * US_GALLON_M3 / POUND_KG,
        specific_gravity,
    }
}

/// What the same number on the label would mean on each basis, in the order of [`StrengthBasis::ALL`].
///
/// For showing beside a label: 12.5 is 125 g/L as trade percent, 141 as weight NaOCl, 149 as weight available chlorine.
pub fn other_meanings(label: f64, caustic_percent: f64) -> [Option<ChlorinePerLiquid>; 4] {
    StrengthBasis::ALL.map(|basis| liquid_strength(label, basis, caustic_percent))
}

/// Dry strength from a label.
pub const DRY_STRENGTH: Equation = Equation {
    id: "S4",
    name: "Strength of a dry product from its label",
    statement: "S = p / 100, at most 2 M_Cl2 / M_Ca(OCl)2",
    symbols: &[
        ("S", "g/g as Cl2", "share of available chlorine by weight"),
        ("p", "%", "available chlorine on the label"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "calcium hypochlorite up to the pure salt, 99.18 % (printed as 99.2); chlorinated lime is sold between 20 and 35 %",
    sources: &[Source {
        citation: "AWWA C652-11, 4.2.3 (granules of about 65 %); pool-chemistry page (pure salt 99.2 %)",
        locator: "",
        provenance: Provenance::Seen,
    }],
    checks: &["STRE-015", "STRE-016"],
};

/// Available chlorine per mass of granules, powder or lime from the label.
///
/// `S = p / 100, at most 2 M_Cl2 / M_Ca(OCl)2`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | S | g/g as Cl2 | share of available chlorine by weight |
/// | p | % | available chlorine on the label |
/// | M | g/mol | molar mass |
///
/// `None` for what cannot be: not positive, or more than the pure salt holds. Source: AWWA C652-11, 4.2.3.
pub fn dry_strength(label_percent: f64) -> Option<ChlorinePerDry> {
    let share = label_percent / 100.0;
    (share > 0.0 && share <= pure_calcium_hypochlorite().ratio()).then(|| ChlorinePerDry::from_ratio(share))
}

/// Available chlorine of the pure salt Ca(OCl)2.
pub fn pure_calcium_hypochlorite() -> ChlorinePerDry {
    ChlorinePerDry::from_ratio(2.0 * CHLORINE_MOLAR_MASS.value / CALCIUM_HYPOCHLORITE_MOLAR_MASS.value)
}

/// Weak and strong chlorinated lime as it is sold: outside this range the label is doubtful.
pub fn chlorinated_lime_range() -> (ChlorinePerDry, ChlorinePerDry) {
    (ChlorinePerDry::from_ratio(CHLORINATED_LIME_WEAK.value), ChlorinePerDry::from_ratio(CHLORINATED_LIME_STRONG.value))
}

/// Free hydroxide that comes with the chlorine.
pub const CAUSTIC_PER_CHLORINE: Equation = Equation {
    id: "S5",
    name: "Free hydroxide per chlorine in a liquid",
    statement: "x = (10 w SG / M_NaOH) / (G / M_Cl2)",
    symbols: &[
        ("x", "mol/mol", "free hydroxide per available chlorine"),
        ("w", "wt %", "excess sodium hydroxide"),
        ("SG", "kg/L", "mass per volume"),
        ("G", "g/L as Cl2", "available chlorine per liter of product"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "fresh product; carbonate in old product is not counted",
    sources: &[Source { citation: "stoichiometry", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::caustic_of_the_method_sheet"],
};

/// Free hydroxide per available chlorine (mol/mol) of a liquid, from its strength and excess caustic (wt %).
///
/// `x = (10 w SG / M_NaOH) / (G / M_Cl2)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | x | mol/mol | free hydroxide per available chlorine |
/// | w | wt % | excess sodium hydroxide |
/// | SG | kg/L | mass per volume |
/// | G | g/L as Cl2 | available chlorine per litre of product |
/// | M | g/mol | molar mass |
///
/// Source: stoichiometry.
pub fn hydroxide_per_chlorine(strength: ChlorinePerLiquid, caustic_percent: f64) -> f64 {
    let specific_gravity = liquid_density(strength, caustic_percent).get::<gram_per_cubic_centimeter>();
    let hydroxide = 10.0 * caustic_percent * specific_gravity / SODIUM_HYDROXIDE_MOLAR_MASS.value;
    hydroxide / (strength.grams_per_liter() / CHLORINE_MOLAR_MASS.value)
}
