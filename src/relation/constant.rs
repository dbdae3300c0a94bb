//! The numbers that relations count with: factors between units, numbers of geometry, and those of the kernel's constants
//! that a relation names.

use std::f64::consts::{FRAC_PI_4, PI};

use crate::kernel::constants::{
    CHLORATE_MOLAR_MASS, CHLORATE_PER_HYPOCHLORITE, CHLORINE_MOLAR_MASS, Constant, DENSITY_PER_CAUSTIC,
    DENSITY_PER_CHLORINE, SODIUM_HYPOCHLORITE_MOLAR_MASS,
};
use crate::kernel::moving::HOUSE_PLUMBING_L;

/// A number with a name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Named {
    /// Id by which relations name it, with `constant.` in front.
    pub id: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
    /// The number in that unit.
    pub value: f64,
    /// Who says so: a standard, a definition, or how the practice counts.
    pub source: &'static str,
}

const SI: &str = "SI Brochure, 9th edition";
const GEOMETRY: &str = "geometry";
const COUNTED: &str = "how the practice counts";

const fn named(id: &'static str, title: &'static str, unit: &'static str, value: f64, source: &'static str) -> Named {
    Named { id, title, unit, value, source }
}

const fn kernel(id: &'static str, title: &'static str, constant: Constant, unit: &'static str) -> Named {
    named(id, title, unit, constant.value, constant.source.citation)
}

/// Every number that a relation may name beside fields, parameters and quantities.
pub static CONSTANTS: &[Named] = &[
    named("constant.liters_per_cubic_meter", "Liters in a cubic meter", "L/m3", 1000.0, SI),
    named("constant.milligrams_per_gram", "Milligrams in a gram", "mg/g", 1000.0, SI),
    named("constant.grams_per_kilogram", "Grams in a kilogram", "g/kg", 1000.0, SI),
    named("constant.minutes_per_hour", "Minutes in an hour", "min/h", 60.0, SI),
    named("constant.quarter_pi", "A quarter of pi", "", FRAC_PI_4, GEOMETRY),
    named("constant.pi", "Pi", "", PI, GEOMETRY),
    named("constant.sides_of_a_box", "Walls of a box", "", 4.0, GEOMETRY),
    named(
        "constant.liters_per_kilogram",
        "Liters of water for a kilogram where the ratio says one to one",
        "L/kg",
        1.0,
        COUNTED,
    ),
    named(
        "constant.grams_per_liter_of_percent",
        "Grams per liter in one trade percent",
        "g/L/%",
        10.0,
        "definition of trade percent: grams in 100 mL",
    ),
    named("constant.grams_per_kilogram_of_percent", "Grams per kilogram in one percent by weight", "g/kg/%", 10.0, SI),
    named("constant.density_of_water", "Weight of a liter of water", "kg/L", 1.0, "specific gravity is on water"),
    named(
        "constant.house_plumbing_l",
        "Plumbing of one house",
        "L",
        HOUSE_PLUMBING_L,
        "80 US gal; common practice, no source",
    ),
    kernel("constant.chlorine_molar_mass", "Molar mass of chlorine", CHLORINE_MOLAR_MASS, "g/mol"),
    kernel("constant.chlorate_molar_mass", "Molar mass of chlorate", CHLORATE_MOLAR_MASS, "g/mol"),
    kernel(
        "constant.hypochlorite_molar_mass",
        "Molar mass of sodium hypochlorite",
        SODIUM_HYPOCHLORITE_MOLAR_MASS,
        "g/mol",
    ),
    kernel(
        "constant.chlorate_per_hypochlorite",
        "Chlorate per hypochlorite lost",
        CHLORATE_PER_HYPOCHLORITE,
        "mol/mol",
    ),
    kernel(
        "constant.density_per_chlorine",
        "Rise of specific gravity per gram of chlorine",
        DENSITY_PER_CHLORINE,
        "L/g",
    ),
    kernel(
        "constant.density_per_caustic",
        "Rise of specific gravity per percent of caustic",
        DENSITY_PER_CAUSTIC,
        "1/%",
    ),
];
