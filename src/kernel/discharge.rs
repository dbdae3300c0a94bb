//! Limits for chlorine in discharged water, as data: examples to start from, never the last word.
//!
//! Named by the scenario file. Each says where it holds, where it was read and when, and that the authority decides. It
//! refuses to choose one.

use crate::quantity::ChlorineConcentration;
use crate::source::{Provenance, Source};

/// What stands beside every built-in rule.
pub const ADVICE: &str = "example only: check with your authority before discharging";

/// A limit for chlorine in discharged water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DischargeRule {
    /// Name in the scenario file.
    pub id: &'static str,
    /// Country, state or kind of system that the rule is made for, in words.
    pub place: &'static str,
    /// For which water, and over what time.
    pub applies_to: &'static str,
    /// The limit as printed.
    pub printed: &'static str,
    /// The limit, mg/L as Cl2.
    limit_mg_per_l: f64,
    /// Where it was read.
    pub source: Source,
    /// When, year and month.
    pub seen: &'static str,
}

impl DischargeRule {
    /// The limit as a concentration of chlorine, counted as Cl2.
    pub fn limit(&self) -> ChlorineConcentration {
        ChlorineConcentration::from_milligrams_per_liter(self.limit_mg_per_l)
    }
}

const fn from_memory(citation: &'static str, locator: &'static str) -> Source {
    Source { citation, locator, provenance: Provenance::FromMemory }
}
const fn seen(citation: &'static str, locator: &'static str) -> Source {
    Source { citation, locator, provenance: Provenance::Seen }
}

const EPA_CRITERIA: &str = "US EPA, Ambient Water Quality Criteria for Chlorine - 1984, EPA 440/5-84-030";
const READ: &str = "2026-11";

/// Limits that a scenario file can name by their id: examples only, see [`ADVICE`].
pub static RULES: &[DischargeRule] = &[
    DischargeRule {
        id: "us_fresh_chronic",
        place: "United States",
        applies_to: "fresh water, 4-day average, total residual chlorine",
        printed: "11 ug/L",
        limit_mg_per_l: 0.011,
        source: seen(EPA_CRITERIA, "figure as repeated on a water-quality page; body of the document not read"),
        seen: READ,
    },
    DischargeRule {
        id: "us_fresh_acute",
        place: "United States",
        applies_to: "fresh water, 1-hour average, total residual chlorine",
        printed: "19 ug/L",
        limit_mg_per_l: 0.019,
        source: from_memory(EPA_CRITERIA, "fresh acute"),
        seen: READ,
    },
    DischargeRule {
        id: "us_salt_chronic",
        place: "United States",
        applies_to: "salt water, 4-day average, chlorine-produced oxidants",
        printed: "7.5 ug/L",
        limit_mg_per_l: 0.0075,
        source: from_memory(EPA_CRITERIA, "salt chronic"),
        seen: READ,
    },
    DischargeRule {
        id: "us_salt_acute",
        place: "United States",
        applies_to: "salt water, 1-hour average, chlorine-produced oxidants",
        printed: "13 ug/L",
        limit_mg_per_l: 0.013,
        source: from_memory(EPA_CRITERIA, "salt acute"),
        seen: READ,
    },
    DischargeRule {
        id: "wisconsin",
        place: "Wisconsin, United States",
        applies_to: "surface water, daily maximum, with dechlorination",
        printed: "0.1 mg/L",
        limit_mg_per_l: 0.1,
        source: seen("Wisconsin NR 210.06", "total residual chlorine"),
        seen: READ,
    },
    DischargeRule {
        id: "trout_stream",
        place: "United States, trout streams",
        applies_to: "trout streams, total residual chlorine",
        printed: "0.02 mg/L",
        limit_mg_per_l: 0.02,
        source: seen("Dechlorination chapter, environmental text", "secondary source"),
        seen: READ,
    },
    DischargeRule {
        id: "septic",
        place: "on-site sewage systems",
        applies_to: "water entering a septic system, practice",
        printed: "< 0.2 mg/L",
        limit_mg_per_l: 0.2,
        source: seen("on-site sewage practice", "secondary source"),
        seen: READ,
    },
    DischargeRule {
        id: "uk_coastal",
        place: "United Kingdom",
        applies_to: "estuaries and coast, 95th percentile, total residual oxidants",
        printed: "10 ug/L",
        limit_mg_per_l: 0.010,
        source: seen("UK specific pollutants and operational EQS", "copy of the government worksheet, 2022"),
        seen: READ,
    },
    DischargeRule {
        id: "uk_fresh_mean",
        place: "United Kingdom",
        applies_to: "fresh water, annual mean",
        printed: "2 ug/L",
        limit_mg_per_l: 0.002,
        source: from_memory("UK specific pollutants", "fresh water, mean"),
        seen: READ,
    },
    DischargeRule {
        id: "uk_fresh_95",
        place: "United Kingdom",
        applies_to: "fresh water, 95th percentile",
        printed: "5 ug/L",
        limit_mg_per_l: 0.005,
        source: from_memory("UK specific pollutants", "fresh water, 95th percentile"),
        seen: READ,
    },
    DischargeRule {
        id: "canada_guideline",
        place: "Canada",
        applies_to: "fresh water, reactive chlorine species",
        printed: "0.5 ug/L",
        limit_mg_per_l: 0.0005,
        source: from_memory("CCME Canadian water quality guidelines, reactive chlorine species", ""),
        seen: READ,
    },
    DischargeRule {
        id: "canada_effluent",
        place: "Canada",
        applies_to: "wastewater effluent, total residual chlorine",
        printed: "0.02 mg/L",
        limit_mg_per_l: 0.02,
        source: seen("Wastewater Systems Effluent Regulations, SOR/2012-139", "average, page for owners on canada.ca"),
        seen: READ,
    },
    DischargeRule {
        id: "british_columbia",
        place: "British Columbia, Canada",
        applies_to: "fresh water, continuous",
        printed: "2 ug/L",
        limit_mg_per_l: 0.002,
        source: from_memory("British Columbia water quality criteria for chlorine", ""),
        seen: READ,
    },
];

/// The rule with this name.
pub fn rule(id: &str) -> Option<&'static DischargeRule> {
    RULES.iter().find(|rule| rule.id == id)
}
