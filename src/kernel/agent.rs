//! Neutralizing agents as they are bought: formula, ratios, oxygen, pH, and what to mind.
//!
//! Data for the neutralizer room, the scenario file and the field sheet. Hydrates are agents of their own: the same
//! "thiosulfate" differs by 1.57 in weight. It refuses to choose an agent.

use super::constants::{
    ASCORBIC_ACID_FIELD, ASCORBIC_ACID_MOLAR_MASS, CALCIUM_THIOSULFATE_FIELD, CALCIUM_THIOSULFATE_MOLAR_MASS,
    HYDROGEN_PEROXIDE_MOLAR_MASS, SODIUM_ASCORBATE_FIELD, SODIUM_ASCORBATE_MOLAR_MASS, SODIUM_BISULFITE_FIELD,
    SODIUM_BISULFITE_MOLAR_MASS, SODIUM_METABISULFITE_FIELD, SODIUM_METABISULFITE_MOLAR_MASS, SODIUM_SULFITE_FIELD,
    SODIUM_SULFITE_MOLAR_MASS, SODIUM_THIOSULFATE_MOLAR_MASS, SODIUM_THIOSULFATE_PENTAHYDRATE_MOLAR_MASS,
    SULFUR_DIOXIDE_FIELD, SULFUR_DIOXIDE_MOLAR_MASS, THIOSULFATE_AT_PH_7,
};
use crate::source::{Provenance, Source};

const FIELD_GUIDE: Source = Source {
    citation: "Lauer, Sanchez: Disinfection of Pipelines and Storage Facilities Field Guide, AWWA (2006)",
    locator: "Tables 7-2 and 7-5",
    provenance: Provenance::Seen,
};
const STOICHIOMETRY: Source = Source { citation: "reaction equations", locator: "", provenance: Provenance::Derived };

/// A neutralizing agent as it is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Agent {
    /// Vitamin C, C6H8O6: acid in solution; takes no oxygen from the stream.
    AscorbicAcid,
    /// The sodium salt of vitamin C, C6H7NaO6: neutral in solution; takes no oxygen from the stream.
    SodiumAscorbate,
    /// Na2SO3 without crystal water: alkaline in solution.
    SodiumSulfite,
    /// NaHSO3: acid in solution; gives off sulfur dioxide.
    SodiumBisulfite,
    /// Na2S2O5, which becomes two of bisulfite in water: half a mole does for a mole of chlorine.
    SodiumMetabisulfite,
    /// SO2, a toxic gas: for plants with trained staff only.
    SulfurDioxide,
    /// Na2S2O3 without crystal water, so that less weight is needed than of the crystals.
    SodiumThiosulfate,
    /// Na2S2O3.5H2O, the photographer's crystals.
    SodiumThiosulfatePentahydrate,
    /// CaS2O3, sold as a solution; the mass is that of the salt.
    CalciumThiosulfate,
    /// H2O2, counted at 100 %.
    HydrogenPeroxide,
}

/// Which way thiosulfate is oxidized: acid water and little chlorine stop early, alkaline water and much go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ThiosulfateRoute {
    /// One thiosulfate takes four chlorine: S2O3 + 4 Cl2 + 5 H2O -> 2 SO4; slow, neutral to alkaline, excess chlorine.
    Sulfate,
    /// One takes one: S2O3 + Cl2 + H2O -> S + SO4.
    Sulfur,
    /// Two take one: 2 S2O3 + Cl2 -> S4O6; acid, or excess thiosulfate, as in sample bottles.
    Tetrathionate,
}

impl ThiosulfateRoute {
    /// All routes, from least agent to most.
    pub const ALL: [Self; 3] = [Self::Sulfate, Self::Sulfur, Self::Tetrathionate];

    pub(super) const fn agent_per_chlorine(self) -> f64 {
        match self {
            Self::Sulfate => 0.25,
            Self::Sulfur => 1.0,
            Self::Tetrathionate => 2.0,
        }
    }

    pub(super) const fn alkalinity_per_chlorine(self) -> f64 {
        match self {
            Self::Sulfate => -0.5,
            Self::Sulfur => 0.0,
            Self::Tetrathionate => 2.0,
        }
    }
}

/// How strongly an overdose takes oxygen from the stream.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OxygenUptake {
    /// Takes none worth mention: ascorbates, peroxide.
    None,
    /// Takes little or slowly: thiosulfates.
    Weak,
    /// Takes it, more slowly than the bisulfites.
    Moderate,
    /// Takes it at once.
    Strong,
}

/// Which ratio is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RatioBasis {
    /// As the reaction equation has it, without any excess.
    Stoichiometric,
    /// As field tables print it: sulfites with about a tenth more than the reaction, thiosulfates by the water's pH.
    Field,
}

/// What is known of an agent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgentProperties {
    /// Chemical formula as bought, with its crystal water; the molar mass is of this formula.
    pub formula: &'static str,
    pub(super) molar_mass: f64,
    /// Moles of agent per mole of chlorine; for thiosulfates by the sulfur route.
    pub(super) moles_per_chlorine: f64,
    /// Field ratio at pH 7, mg/mg, where there is one.
    pub(super) field: Option<f64>,
    /// What the default ratio is.
    pub default_basis: RatioBasis,
    /// Where the default comes from.
    pub source: Source,
    /// Moles of oxygen that a mole of agent can take.
    pub(super) oxygen_per_agent: f64,
    /// How strongly an overdose takes oxygen from the stream; moderate and strong ones raise a caution.
    pub oxygen_uptake: OxygenUptake,
    /// Equivalents of alkalinity brought per mole of chlorine removed: least and most. Those of thiosulfates follow from the
    /// ratio that is used.
    pub(super) alkalinity: (f64, f64),
    /// pH of a 1 % solution, least and most.
    pub ph_of_one_percent: Option<(f64, f64)>,
    /// What to mind in handling or discharge, in words; may be empty.
    pub caution: &'static str,
}

impl Agent {
    /// All agents, in canonical order.
    pub const ALL: [Self; 10] = [
        Self::AscorbicAcid,
        Self::SodiumAscorbate,
        Self::SodiumSulfite,
        Self::SodiumBisulfite,
        Self::SodiumMetabisulfite,
        Self::SulfurDioxide,
        Self::SodiumThiosulfate,
        Self::SodiumThiosulfatePentahydrate,
        Self::CalciumThiosulfate,
        Self::HydrogenPeroxide,
    ];

    /// The word used in scenario files and results.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AscorbicAcid => "ascorbic_acid",
            Self::SodiumAscorbate => "sodium_ascorbate",
            Self::SodiumSulfite => "sodium_sulfite",
            Self::SodiumBisulfite => "sodium_bisulfite",
            Self::SodiumMetabisulfite => "sodium_metabisulfite",
            Self::SulfurDioxide => "sulfur_dioxide",
            Self::SodiumThiosulfate => "sodium_thiosulfate",
            Self::SodiumThiosulfatePentahydrate => "sodium_thiosulfate_pentahydrate",
            Self::CalciumThiosulfate => "calcium_thiosulfate",
            Self::HydrogenPeroxide => "hydrogen_peroxide",
        }
    }

    /// The name that people read on a bag, with what else it is called.
    pub const fn plain_name(self) -> &'static str {
        match self {
            Self::AscorbicAcid => "ascorbic acid (vitamin C)",
            Self::SodiumAscorbate => "sodium ascorbate (neutral vitamin C)",
            Self::SodiumSulfite => "sodium sulfite",
            Self::SodiumBisulfite => "sodium bisulfite",
            Self::SodiumMetabisulfite => "sodium metabisulfite",
            Self::SulfurDioxide => "sulfur dioxide",
            Self::SodiumThiosulfate => "sodium thiosulfate, anhydrous",
            Self::SodiumThiosulfatePentahydrate => "sodium thiosulfate crystals (pentahydrate)",
            Self::CalciumThiosulfate => "calcium thiosulfate (weight of the salt)",
            Self::HydrogenPeroxide => "hydrogen peroxide (counted at 100 %)",
        }
    }

    /// The agent with this name.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|agent| agent.name() == name)
    }

    /// What is known of it.
    pub const fn properties(self) -> AgentProperties {
        let usual = AgentProperties {
            formula: "",
            molar_mass: 0.0,
            moles_per_chlorine: 1.0,
            field: None,
            default_basis: RatioBasis::Stoichiometric,
            source: STOICHIOMETRY,
            oxygen_per_agent: 0.0,
            oxygen_uptake: OxygenUptake::None,
            alkalinity: (0.0, 0.0),
            ph_of_one_percent: None,
            caution: "",
        };
        match self {
            Self::AscorbicAcid => AgentProperties {
                formula: "C6H8O6",
                molar_mass: ASCORBIC_ACID_MOLAR_MASS.value,
                field: Some(ASCORBIC_ACID_FIELD.value),
                // The second figure counts the acid that dehydroascorbic acid becomes.
                alkalinity: (-1.0, 0.0),
                ph_of_one_percent: Some((6.0, 6.0)),
                caution: "acid in solution; slow on combined chlorine",
                ..usual
            },
            Self::SodiumAscorbate => AgentProperties {
                formula: "C6H7NaO6",
                molar_mass: SODIUM_ASCORBATE_MOLAR_MASS.value,
                field: Some(SODIUM_ASCORBATE_FIELD.value),
                alkalinity: (0.0, 1.0),
                ph_of_one_percent: Some((7.0, 7.0)),
                caution: "slow on combined chlorine",
                ..usual
            },
            Self::SodiumSulfite => AgentProperties {
                formula: "Na2SO3",
                molar_mass: SODIUM_SULFITE_MOLAR_MASS.value,
                field: Some(SODIUM_SULFITE_FIELD.value),
                oxygen_per_agent: 0.5,
                oxygen_uptake: OxygenUptake::Moderate,
                ph_of_one_percent: Some((8.5, 10.0)),
                caution: "an overdose takes oxygen from the stream",
                ..usual
            },
            Self::SodiumBisulfite => AgentProperties {
                formula: "NaHSO3",
                molar_mass: SODIUM_BISULFITE_MOLAR_MASS.value,
                field: Some(SODIUM_BISULFITE_FIELD.value),
                oxygen_per_agent: 0.5,
                oxygen_uptake: OxygenUptake::Strong,
                alkalinity: (-1.0, -1.0),
                ph_of_one_percent: Some((4.3, 4.3)),
                caution: "acid; an overdose takes oxygen from the stream; gives off sulfur dioxide",
                ..usual
            },
            Self::SodiumMetabisulfite => AgentProperties {
                formula: "Na2S2O5",
                molar_mass: SODIUM_METABISULFITE_MOLAR_MASS.value,
                moles_per_chlorine: 0.5,
                field: Some(SODIUM_METABISULFITE_FIELD.value),
                oxygen_per_agent: 1.0,
                oxygen_uptake: OxygenUptake::Strong,
                alkalinity: (-1.0, -1.0),
                ph_of_one_percent: Some((4.3, 4.3)),
                caution: "acid; an overdose takes oxygen from the stream; gives off sulfur dioxide",
                ..usual
            },
            Self::SulfurDioxide => AgentProperties {
                formula: "SO2",
                molar_mass: SULFUR_DIOXIDE_MOLAR_MASS.value,
                field: Some(SULFUR_DIOXIDE_FIELD.value),
                oxygen_per_agent: 0.5,
                oxygen_uptake: OxygenUptake::Strong,
                alkalinity: (-2.0, -2.0),
                caution: "toxic gas, for plants with trained staff only",
                ..usual
            },
            Self::SodiumThiosulfate => AgentProperties {
                formula: "Na2S2O3",
                molar_mass: SODIUM_THIOSULFATE_MOLAR_MASS.value,
                field: Some(THIOSULFATE_AT_PH_7.value),
                default_basis: RatioBasis::Field,
                source: FIELD_GUIDE,
                oxygen_uptake: OxygenUptake::Weak,
                ph_of_one_percent: Some((7.0, 7.0)),
                caution: "needs minutes of contact; the amount depends on pH",
                ..usual
            },
            Self::SodiumThiosulfatePentahydrate => AgentProperties {
                formula: "Na2S2O3.5H2O",
                molar_mass: SODIUM_THIOSULFATE_PENTAHYDRATE_MOLAR_MASS.value,
                field: Some(THIOSULFATE_AT_PH_7.value * PENTAHYDRATE_PER_ANHYDROUS),
                default_basis: RatioBasis::Field,
                source: FIELD_GUIDE,
                oxygen_uptake: OxygenUptake::Weak,
                ph_of_one_percent: Some((7.0, 7.0)),
                caution: "needs minutes of contact; the amount depends on pH; the tables of AWWA C651 imply half of this (1.44 against \
                          2.98), the field guide's figure is the safe side",
                ..usual
            },
            Self::CalciumThiosulfate => AgentProperties {
                formula: "CaS2O3",
                molar_mass: CALCIUM_THIOSULFATE_MOLAR_MASS.value,
                field: Some(CALCIUM_THIOSULFATE_FIELD.value),
                default_basis: RatioBasis::Field,
                source: FIELD_GUIDE,
                oxygen_uptake: OxygenUptake::Weak,
                ph_of_one_percent: Some((6.5, 7.0)),
                caution: "needs minutes of contact; the amount depends on pH",
                ..usual
            },
            Self::HydrogenPeroxide => AgentProperties {
                formula: "H2O2",
                molar_mass: HYDROGEN_PEROXIDE_MOLAR_MASS.value,
                caution: "strong oxidizer; foams; keep from organic matter",
                ..usual
            },
        }
    }
}

/// Weight of the crystals that holds the weight one of anhydrous thiosulfate.
pub(super) const PENTAHYDRATE_PER_ANHYDROUS: f64 =
    SODIUM_THIOSULFATE_PENTAHYDRATE_MOLAR_MASS.value / SODIUM_THIOSULFATE_MOLAR_MASS.value;
