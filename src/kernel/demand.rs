//! Chlorine that the water takes before any is left to disinfect: iron, manganese, sulfide, ammonia, nitrite, carbon.
//!
//! Called before the dose. Two sets of factors stand side by side, stoichiometry and practice; the scenario chooses.
//! Reactions: 2 Fe2+ + Cl2 -> 2 Fe3+; Mn2+ + Cl2 -> MnO2; H2S + Cl2 -> S; H2S + 4 Cl2 -> SO4; NH3 + Cl2 -> NH2Cl;
//! 2 NH3 + 3 Cl2 -> N2; NO2- + Cl2 -> NO3-. It refuses to guess a demand where nothing was measured.

use super::constants::{
    AMMONIA_DEMAND_PRACTICE, BREAKPOINT_DEMAND, IRON_DEMAND, IRON_DEMAND_PRACTICE, IRON_STAINS, MANGANESE_DEMAND,
    MANGANESE_DEMAND_PRACTICE, MANGANESE_STAINS, MONOCHLORAMINE_DEMAND, NITRITE_DEMAND, ORGANIC_CARBON_DEMAND,
    SULFIDE_DEMAND_PRACTICE, SULFIDE_TO_SULFATE_DEMAND, SULFIDE_TO_SULFUR_DEMAND,
};
use crate::quantity::ChlorineConcentration;
use crate::source::{Equation, Provenance, Source};
use crate::well::WaterQuality;

/// Which chlorine demand per milligram is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DemandFactors {
    /// From the reactions, sulfide to sulfate, ammonia to breakpoint.
    Stoichiometric,
    /// As the trade doses.
    Practice,
}

/// Chlorine taken per milligram of each constituent, mg Cl2 per mg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DemandPerMilligram {
    /// Per milligram of iron, counted as Fe.
    pub iron: f64,
    /// Per milligram of manganese, counted as Mn.
    pub manganese: f64,
    /// Per milligram of sulfide, counted as H2S.
    pub sulfide: f64,
    /// Per mg ammonia N.
    pub ammonia_n: f64,
    /// Per mg nitrite N.
    pub nitrite_n: f64,
    /// Per milligram of organic carbon, counted as C.
    pub organic_carbon: f64,
}

impl DemandFactors {
    /// Both sets, in canonical order.
    pub const ALL: [Self; 2] = [Self::Stoichiometric, Self::Practice];

    /// The word used in scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stoichiometric => "stoichiometric",
            Self::Practice => "practice",
        }
    }

    /// The set with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|set| set.name() == name)
    }

    /// The factors of this set.
    pub const fn per_milligram(self) -> DemandPerMilligram {
        match self {
            Self::Stoichiometric => DemandPerMilligram {
                iron: IRON_DEMAND.value,
                manganese: MANGANESE_DEMAND.value,
                sulfide: SULFIDE_TO_SULFATE_DEMAND.value,
                ammonia_n: BREAKPOINT_DEMAND.value,
                nitrite_n: NITRITE_DEMAND.value,
                organic_carbon: ORGANIC_CARBON_DEMAND.value,
            },
            Self::Practice => DemandPerMilligram {
                iron: IRON_DEMAND_PRACTICE.value,
                manganese: MANGANESE_DEMAND_PRACTICE.value,
                sulfide: SULFIDE_DEMAND_PRACTICE.value,
                ammonia_n: AMMONIA_DEMAND_PRACTICE.value,
                nitrite_n: NITRITE_DEMAND.value,
                organic_carbon: ORGANIC_CARBON_DEMAND.value,
            },
        }
    }
}

/// Demand of the measured constituents.
pub const DEMAND: Equation = Equation {
    id: "N1",
    name: "Chlorine demand",
    statement: "q = sum over i of f_i c_i",
    symbols: &[
        ("q", "mg/L as Cl2", "demand"),
        ("f_i", "mg/mg", "chlorine taken per milligram of constituent i"),
        ("c_i", "mg/L", "constituent i: Fe, Mn, H2S, ammonia N, nitrite N, organic C"),
    ],
    validity: "reduced species dissolved in the water; sediment, biofilm and pipe scale are not in it; organic carbon \
               varies fourfold from water to water and takes two to four times its factor at shock doses (1.8 to 3.7 mg/mg at \
               42 mg/L by the kinetics of US EPA's plant model): the demand of carbon is low here",
    sources: &[Source {
        citation: "stoichiometry; practice factors of the trade, see the constants",
        locator: "",
        provenance: Provenance::Derived,
    }],
    checks: &["DEMA-002", "DEMA-003", "DEMA-005", "DEMA-013"],
};

/// Chlorine that the measured constituents take; `None` where nothing was measured.
///
/// `q = sum over i of f_i c_i`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | q | mg/L as Cl2 | demand |
/// | f_i | mg/mg | chlorine taken per milligram of constituent i |
/// | c_i | mg/L | constituent i: Fe, Mn, H2S, ammonia N, nitrite N, organic C |
///
/// Holds for reduced species dissolved in the water; sediment, biofilm and scale are not in it. Source: stoichiometry.
pub fn demand(water: &WaterQuality, factors: DemandFactors) -> Option<ChlorineConcentration> {
    sum(water, factors.per_milligram())
}

/// The demand if the reactions stop early, sulfide at sulfur and ammonia at monochloramine; `None` where nothing was
/// measured.
///
/// N1 with the smaller factors: the least that these constituents take. What stops early smells, clouds, or holds the
/// chlorine in a slow form, so doses are not planned on it.
pub fn least_demand(water: &WaterQuality) -> Option<ChlorineConcentration> {
    let early = DemandPerMilligram {
        sulfide: SULFIDE_TO_SULFUR_DEMAND.value,
        ammonia_n: MONOCHLORAMINE_DEMAND.value,
        ..DemandFactors::Stoichiometric.per_milligram()
    };
    sum(water, early)
}

fn sum(water: &WaterQuality, factor: DemandPerMilligram) -> Option<ChlorineConcentration> {
    let terms = [
        (factor.iron, water.iron_mg_per_l),
        (factor.manganese, water.manganese_mg_per_l),
        (factor.sulfide, water.sulfide_mg_per_l),
        (factor.ammonia_n, water.ammonia_n_mg_per_l),
        (factor.nitrite_n, water.nitrite_n_mg_per_l),
        (factor.organic_carbon, water.organic_carbon_mg_per_l),
    ];
    let mut measured = false;
    let mut sum = 0.0;
    for (factor, concentration) in terms {
        if let Some(concentration) = concentration {
            measured = true;
            sum += factor * concentration;
        }
    }
    measured.then(|| ChlorineConcentration::from_milligrams_per_liter(sum))
}

/// What a measured constituent will do once chlorine is in the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DemandCaution {
    /// Dissolved iron comes out as rust: pump to waste, bypass softeners and filters, expect stains.
    IronWillStain {
        /// Iron that the list gives, mg/L as Fe.
        found_mg_per_l: f64,
    },
    /// Dissolved manganese comes out black.
    ManganeseWillStain {
        /// Manganese that the list gives, mg/L as Mn.
        found_mg_per_l: f64,
    },
    /// The dose cannot break through the ammonia: what is left is combined chlorine, a slow disinfectant.
    AmmoniaHolds {
        /// Dose that the trade's ratio asks for before any free chlorine is left.
        breakthrough: ChlorineConcentration,
    },
}

/// Cautions that the measured constituents call for, with the dose really given; at most three.
///
/// Stains: more than 0.3 mg/L iron or 0.05 mg/L manganese (US secondary levels). Ammonia: the practice ratio to the
/// breakpoint, after the other measured demands, is more than the dose.
pub fn demand_cautions(
    water: &WaterQuality,
    dose: ChlorineConcentration,
) -> impl Iterator<Item = DemandCaution> + use<> {
    let above = |found: Option<f64>, limit: f64| found.filter(|found| *found > limit);
    let iron = above(water.iron_mg_per_l, IRON_STAINS.value)
        .map(|found_mg_per_l| DemandCaution::IronWillStain { found_mg_per_l });
    let manganese = above(water.manganese_mg_per_l, MANGANESE_STAINS.value)
        .map(|found_mg_per_l| DemandCaution::ManganeseWillStain { found_mg_per_l });
    let ammonia = above(water.ammonia_n_mg_per_l, 0.0)
        .and_then(|_| demand(water, DemandFactors::Practice))
        .filter(|breakthrough| *breakthrough > dose)
        .map(|breakthrough| DemandCaution::AmmoniaHolds { breakthrough });
    [iron, manganese, ammonia].into_iter().flatten()
}
