//! From target to product: dose, chlorine, litres or kilograms, and what the amount poured really gives.
//!
//! Called once per well and scenario, after demand and strength. It refuses to know which product it is.

use crate::quantity::{
    ChlorineConcentration, ChlorineMass, ChlorinePerDry, ChlorinePerLiquid, MassDensity, Of, ProductMass,
    ProductVolume, Volume, liters_of,
};
use crate::source::{Equation, Provenance, Source};

const BALANCE: Source = Source { citation: "mass balance", locator: "", provenance: Provenance::Derived };
const WHO_POWDER: Source = Source {
    citation: "WHO fact sheet 2.19, Calcium hypochlorite",
    locator: "W = 1000 V C / S",
    provenance: Provenance::Seen,
};

/// Dose from target and demand.
pub const DOSE: Equation = Equation {
    id: "D1",
    name: "Dose",
    statement: "D = R + q",
    symbols: &[
        ("D", "mg/L as Cl2", "dose"),
        ("R", "mg/L as Cl2", "free chlorine wanted once the demand is met"),
        ("q", "mg/L as Cl2", "demand"),
    ],
    validity: "demand measured or allowed for; a dose that a strip does not confirm is raised by test, not by formula",
    sources: &[BALANCE],
    checks: &["D311", "D315", "chemistry::the_dose_is_target_plus_demand"],
};

/// Chlorine to add per volume of water: what is wanted, and what the water takes first.
///
/// `D = R + q`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | D | mg/L as Cl2 | dose |
/// | R | mg/L as Cl2 | free chlorine wanted once the demand is met |
/// | q | mg/L as Cl2 | demand |
///
/// Source: mass balance.
pub fn dose(target: ChlorineConcentration, demand: ChlorineConcentration) -> ChlorineConcentration {
    target + demand
}

/// Chlorine to put into the well.
pub const CHLORINE: Equation = Equation {
    id: "D2",
    name: "Available chlorine needed",
    statement: "m = D V_t",
    symbols: &[
        ("m", "g as Cl2", "available chlorine needed"),
        ("D", "mg/L as Cl2", "dose"),
        ("V_t", "m3", "treated volume"),
    ],
    validity: "water and product well mixed; the volume of the product itself is neglected",
    sources: &[BALANCE],
    checks: &["D370", "D376", "D377", "STRE-018", "STRE-020"],
};

/// Available chlorine for a volume of water at a dose.
///
/// `m = D V_t`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | m | g as Cl2 | available chlorine needed |
/// | D | mg/L as Cl2 | dose |
/// | V_t | m3 | treated volume |
///
/// Source: mass balance.
pub fn chlorine(dose: ChlorineConcentration, treated: Volume) -> ChlorineMass {
    dose * treated
}

/// Liquid product for the chlorine.
pub const LIQUID_PRODUCT: Equation = Equation {
    id: "D3",
    name: "Liquid product needed",
    statement: "v = m / G",
    symbols: &[
        ("v", "L", "liquid product"),
        ("m", "g as Cl2", "available chlorine needed"),
        ("G", "g/L as Cl2", "strength on the day of use"),
    ],
    validity: "strength above zero",
    sources: &[BALANCE],
    checks: &["D121", "D135", "D137", "D309", "D340", "STRE-018"],
};

/// Liquid product that brings the chlorine.
///
/// `v = m / G`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | v | L | liquid product |
/// | m | g as Cl2 | available chlorine needed |
/// | G | g/L as Cl2 | strength on the day of use |
///
/// Source: mass balance.
pub fn liquid_product(chlorine: ChlorineMass, strength: ChlorinePerLiquid) -> ProductVolume {
    chlorine / strength
}

/// Dry product for the chlorine.
pub const DRY_PRODUCT: Equation = Equation {
    id: "D4",
    name: "Dry product needed",
    statement: "w = m / S",
    symbols: &[
        ("w", "g", "dry product"),
        ("m", "g as Cl2", "available chlorine needed"),
        ("S", "g/g as Cl2", "share of available chlorine by weight on the day of use"),
    ],
    validity: "strength above zero; the part of granules that does not dissolve is not chlorine and not deducted",
    sources: &[WHO_POWDER],
    checks: &["D118", "D136", "D338", "D369", "D375", "STRE-020"],
};

/// Dry product that brings the chlorine.
///
/// `w = m / S`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | w | g | dry product |
/// | m | g as Cl2 | available chlorine needed |
/// | S | g/g as Cl2 | share of available chlorine by weight on the day of use |
///
/// Source: WHO fact sheet 2.19.
pub fn dry_product(chlorine: ChlorineMass, strength: ChlorinePerDry) -> ProductMass {
    chlorine / strength
}

/// Weight of a volume of liquid product.
pub fn liquid_weight(volume: ProductVolume, density: MassDensity) -> ProductMass {
    Of::new(volume.quantity() * density)
}

/// Volume of a weight of liquid product.
pub fn liquid_volume(mass: ProductMass, density: MassDensity) -> ProductVolume {
    Of::new(mass.quantity() / density)
}

/// Dose that an amount of product really gives.
pub const DOSE_GIVEN: Equation = Equation {
    id: "D5",
    name: "Dose really given",
    statement: "D_g = m_g / V_t",
    symbols: &[
        ("D_g", "mg/L as Cl2", "dose really given"),
        ("m_g", "g as Cl2", "available chlorine in the amount measured out"),
        ("V_t", "m3", "treated volume"),
    ],
    validity: "as D2: water and product well mixed",
    sources: &[BALANCE],
    checks: &["chemistry::what_is_poured_gives_back_the_dose"],
};

/// Dose that the chlorine in the measured amount gives in the treated water.
///
/// `D_g = m_g / V_t`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | D_g | mg/L as Cl2 | dose really given |
/// | m_g | g as Cl2 | available chlorine in the amount measured out |
/// | V_t | m3 | treated volume |
///
/// Source: mass balance.
pub fn dose_given(chlorine: ChlorineMass, treated: Volume) -> ChlorineConcentration {
    chlorine / treated
}

/// Water to dilute in.
pub const PREDILUTION: Equation = Equation {
    id: "L1",
    name: "Water to dilute the product in before pouring",
    statement: "W = d P",
    symbols: &[
        ("W", "L", "clean water"),
        ("d", "L/L or L/kg", "predilution ratio"),
        ("P", "L or kg", "product measured out: liters of a liquid, kilograms of a dry product"),
    ],
    validity: "published practice runs from 1 to several hundred; granules want at least 5 L a kilogram to dissolve",
    sources: &[Source {
        citation: "county and state well disinfection sheets (Marion, St. Clair, Washtenaw, Wisconsin NR 812, Alberta)",
        locator: "pre-dilution before pouring",
        provenance: Provenance::Seen,
    }],
    checks: &["chemistry::dilution_before_pouring_as_the_sheets_say"],
};

/// Clean water to dilute a measured amount of product in before it is poured into the well.
///
/// `W = d P`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | W | L | clean water |
/// | d | L/L or L/kg | predilution ratio |
/// | P | L or kg | product measured out: litres of a liquid, kilograms of a dry product |
///
/// Source: county and state well disinfection sheets, which state anything from equal parts to several hundred.
pub fn predilution(ratio: f64, liters_or_kilograms: f64) -> Volume {
    liters_of(ratio * liters_or_kilograms)
}
