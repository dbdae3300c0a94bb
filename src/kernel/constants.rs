//! Every constant of the physics and chemistry, once, with its unit and where it comes from.
//!
//! The rooms of the kernel take their numbers from here and nowhere else; the Method sheet and `explain` list them. A
//! constant marked "from memory" was recalled with its document named, but its text was not read. Knows no formulas.

use crate::source::{Provenance, Source};

/// One number of nature, of a standard, or of practice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constant {
    /// Its name in the code, which is permanent and stands in the papers: `CHLORINE_MOLAR_MASS`.
    pub id: &'static str,
    description: &'static str,
    /// The number in `unit`, as the formulas count with it.
    pub value: f64,
    /// Its unit, `1` for a pure number.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Constant {
    /// What it is, in one sentence.
    pub fn description(&self) -> &'static str {
        self.description.trim()
    }
}

macro_rules! constants {
    ($($(#[doc = $description:literal])+ $id:ident: $unit:literal = $value:expr, $source:expr;)*) => {
        $($(#[doc = $description])+
        pub const $id: Constant = Constant {
            id: stringify!($id), description: concat!($($description),+), value: $value, unit: $unit, source: $source,
        };)*

        /// Every constant, in the order of the chapters.
        pub static CONSTANTS: &[&Constant] = &[$(&$id),*];
    };
}

const fn source(citation: &'static str, locator: &'static str, provenance: Provenance) -> Source {
    Source { citation, locator, provenance }
}

const IUPAC: Source =
    source("IUPAC, Standard atomic weights (abridged, 2021)", "summed by formula", Provenance::Derived);
const STOICHIOMETRY: Source = source("reaction equation in the doc comment of the room", "", Provenance::Derived);
const FITTED_DENSITY: Source = source(
    "fit to three published points: Specific Gravity of Sodium Hypochlorite, equipment maker's technical bulletin",
    "120 g/L at 0, 0.2 and 0.73 wt % caustic",
    Provenance::Derived,
);
/// Adam and Gordon, the rate law of hypochlorite decomposition.
pub const ADAM_GORDON: Source = source(
    "Adam, Gordon: Hypochlorite ion decomposition, Inorg. Chem. 38 (1999) 1299, doi 10.1021/ic980020q",
    "abstract",
    Provenance::Seen,
);
const HALF_LIVES: Source = source(
    "half-life table of bleach solutions (Baker 1969) as reprinted in White, Handbook of Chlorination",
    "ratio of ours to the table at 15 and 25 C",
    Provenance::FromMemory,
);
const USUAL_BLEACH: Source = source("usual composition of liquid hypochlorite", "", Provenance::CommonPractice);
const DILUTE_LOSS: Source = source(
    "Stability of sodium hypochlorite solutions, Am. J. Hosp. Pharm. 39 (1982) 1016",
    "abstract, 5.24 % a year",
    Provenance::Seen,
);
const GRANULE_LOSS: Source = source(
    "US EPA 815-R-99-014, Alternative Disinfectants and Oxidants Guidance Manual (1999)",
    "3 to 5 % of available chlorine a year",
    Provenance::FromMemory,
);
const MORRIS: Source = source(
    "Morris: The acid ionization constant of HOCl from 5 to 35 C, J. Phys. Chem. 70 (1966) 3798",
    "fitted equation, as reproduced in public code that cites it",
    Provenance::Seen,
);
/// Plummer and Busenberg, carbonate equilibria and calcite.
pub const PLUMMER_BUSENBERG: Source = source(
    "Plummer, Busenberg: Geochim. Cosmochim. Acta 46 (1982) 1011, as coded in phreeqc.dat",
    "CO2, HCO3- and calcite entries",
    Provenance::Seen,
);
const PHREEQC: Source = source("phreeqc.dat of PHREEQC 3", "Na+ + CO3-2 = NaCO3-", Provenance::Seen);
const WATER_ION_PRODUCT: Source = source("phreeqc.dat of PHREEQC 3", "H2O = OH- + H+, analytic", Provenance::Seen);
const DAVIES: Source = source(
    "Davies equation; Stumm, Morgan: Aquatic Chemistry, chapter 3",
    "A = 1.82e6 (eT)^-1.5, factor 0.3, as reproduced in public code",
    Provenance::Seen,
);
const DIELECTRIC: Source = source(
    "Malmberg, Maryott: Dielectric constant of water from 0 to 100 C, J. Res. NBS 56 (1956) 1",
    "fitted equation, as reproduced in public code",
    Provenance::Seen,
);
const OUR_ESTIMATE: Source = source("our estimate for groundwater", "see the doc comment", Provenance::CommonPractice);
const FIELD_GUIDE: Source = source(
    "Lauer, Sanchez: Disinfection of Pipelines and Storage Facilities Field Guide, AWWA (2006)",
    "Table 7-2",
    Provenance::Seen,
);
const ROUNDED_STOICHIOMETRY: Source =
    source("reaction equation, rounded to the two or three digits that the trade prints", "", Provenance::Derived);
const COMAR: Source = source("COMAR 26.04.04.24 (Maryland)", "not above 500 mg/L", Provenance::Seen);
const OUR_LINE: Source = source("our line, not nature's", "see the doc comment", Provenance::CommonPractice);
const WHITE: Source = source("White, Handbook of Chlorination, thiosulfate by pH", "", Provenance::FromMemory);
const SECONDARY_STANDARD: Source = source(
    "US EPA, 40 CFR 143.3, secondary maximum contaminant levels",
    "iron 0.3, manganese 0.05 mg/L; law.cornell.edu",
    Provenance::Seen,
);
const VENDOR_PRACTICE: Source =
    source("water-treatment trade articles on feed-pump dosage", "practice figures", Provenance::Seen);
const CARBON_DEMAND: Source = source(
    "kinetics of US EPA's water treatment plant model (2001): 0.5 to 2 mg Cl2 per mg C in 24 h at doses of 1 to 5 times the carbon",
    "middle of the range; the same kinetics give 1.8 to 3.7 at 42 mg/L and 4 to 8 mg/L of carbon: low at shock doses",
    Provenance::FromMemory,
);
const CT_TABLES: Source = source(
    "US EPA, 40 CFR 141.74(b)(3), Tables 1.1 to 1.6; rule of use as in Disinfection Profiling and Benchmarking",
    "largest chlorine concentration",
    Provenance::Seen,
);
const ORDER_PRACTICE: Source = source(
    "Lauer, Sanchez: Field Guide, AWWA (2006)",
    "carry at least 20 % more agent than computed",
    Provenance::Seen,
);

constants! {
    // Molar masses.
    /// Molar mass of chlorine, Cl2, the basis of every dose.
    CHLORINE_MOLAR_MASS: "g/mol" = 70.906, IUPAC;
    /// Molar mass of sodium hypochlorite, NaOCl.
    SODIUM_HYPOCHLORITE_MOLAR_MASS: "g/mol" = 74.442, IUPAC;
    /// Molar mass of calcium hypochlorite, Ca(OCl)2.
    CALCIUM_HYPOCHLORITE_MOLAR_MASS: "g/mol" = 142.98, IUPAC;
    /// Molar mass of sodium hydroxide, NaOH.
    SODIUM_HYDROXIDE_MOLAR_MASS: "g/mol" = 39.997, IUPAC;
    /// Molar mass of calcium carbonate, CaCO3.
    CALCIUM_CARBONATE_MOLAR_MASS: "g/mol" = 100.086, IUPAC;
    /// Molar mass of iron.
    IRON_MOLAR_MASS: "g/mol" = 55.845, IUPAC;
    /// Molar mass of manganese.
    MANGANESE_MOLAR_MASS: "g/mol" = 54.938, IUPAC;
    /// Molar mass of hydrogen sulfide, H2S.
    HYDROGEN_SULFIDE_MOLAR_MASS: "g/mol" = 34.076, IUPAC;
    /// Molar mass of nitrogen, N.
    NITROGEN_MOLAR_MASS: "g/mol" = 14.007, IUPAC;
    /// Molar mass of chlorate, ClO3-.
    CHLORATE_MOLAR_MASS: "g/mol" = 83.450, IUPAC;
    /// Molar mass of oxygen, O2.
    OXYGEN_MOLAR_MASS: "g/mol" = 31.998, IUPAC;
    /// Molar mass of sodium sulfite, Na2SO3.
    SODIUM_SULFITE_MOLAR_MASS: "g/mol" = 126.0365, IUPAC;
    /// Molar mass of sodium bisulfite, NaHSO3.
    SODIUM_BISULFITE_MOLAR_MASS: "g/mol" = 104.0548, IUPAC;
    /// Molar mass of sodium metabisulfite, Na2S2O5.
    SODIUM_METABISULFITE_MOLAR_MASS: "g/mol" = 190.0945, IUPAC;
    /// Molar mass of sulfur dioxide, SO2.
    SULFUR_DIOXIDE_MOLAR_MASS: "g/mol" = 64.058, IUPAC;
    /// Molar mass of sodium thiosulfate, anhydrous, Na2S2O3.
    SODIUM_THIOSULFATE_MOLAR_MASS: "g/mol" = 158.0965, IUPAC;
    /// Molar mass of sodium thiosulfate pentahydrate, Na2S2O3.5H2O.
    SODIUM_THIOSULFATE_PENTAHYDRATE_MOLAR_MASS: "g/mol" = 248.1715, IUPAC;
    /// Molar mass of calcium thiosulfate, CaS2O3.
    CALCIUM_THIOSULFATE_MOLAR_MASS: "g/mol" = 152.195, IUPAC;
    /// Molar mass of ascorbic acid, C6H8O6.
    ASCORBIC_ACID_MOLAR_MASS: "g/mol" = 176.124, IUPAC;
    /// Molar mass of sodium ascorbate, C6H7NaO6.
    SODIUM_ASCORBATE_MOLAR_MASS: "g/mol" = 198.1058, IUPAC;
    /// Molar mass of hydrogen peroxide, H2O2.
    HYDROGEN_PEROXIDE_MOLAR_MASS: "g/mol" = 34.014, IUPAC;

    // Density of liquid hypochlorite.
    /// Rise of specific gravity per gram of available chlorine per liter.
    DENSITY_PER_CHLORINE: "L/g" = 1.3083e-3, FITTED_DENSITY;
    /// Rise of specific gravity per weight percent of excess sodium hydroxide.
    DENSITY_PER_CAUSTIC: "1/wt %" = 0.01507, FITTED_DENSITY;
    /// Strength up to which the density fit holds.
    DENSITY_FIT_LIMIT: "g/L" = 165.0, FITTED_DENSITY;
    /// Excess sodium hydroxide of present-day liquid hypochlorite, where the label does not say.
    USUAL_CAUSTIC: "wt %" = 0.2, USUAL_BLEACH;
    /// Available chlorine of weak chlorinated lime.
    CHLORINATED_LIME_WEAK: "kg/kg" = 0.20,
        source("WHO fact sheet 2.19, Calcium hypochlorite", "20 to 35 %", Provenance::Seen);
    /// Available chlorine of strong chlorinated lime.
    CHLORINATED_LIME_STRONG: "kg/kg" = 0.35,
        source("WHO fact sheet 2.19, Calcium hypochlorite", "20 to 35 %", Provenance::Seen);

    // Aging of liquid hypochlorite.
    /// Effect of ionic strength on the logarithm of the rate.
    DECOMPOSITION_SALT_EFFECT: "L/mol" = 0.149, ADAM_GORDON;
    /// Pre-exponential factor of the rate.
    DECOMPOSITION_FREQUENCY: "L/(mol s K)" = 2.083e10, ADAM_GORDON;
    /// Activation enthalpy of the decomposition.
    DECOMPOSITION_ENTHALPY: "J/mol" = 1.018e5, ADAM_GORDON;
    /// Activation entropy, as a loss.
    DECOMPOSITION_ENTROPY: "J/(mol K)" = 56.5, ADAM_GORDON;
    /// Gas constant, with the digits of the source.
    GAS_CONSTANT: "J/(mol K)" = 8.314, ADAM_GORDON;
    /// Sodium chloride per sodium hypochlorite of ordinary product (low-salt product: 0.1 to 0.3).
    USUAL_SALT_RATIO: "mol/mol" = 1.0, USUAL_BLEACH;
    /// Chlorate per hypochlorite lost: 3 OCl- -> 2 Cl- + ClO3-.
    CHLORATE_PER_HYPOCHLORITE: "mol/mol" = 1.0 / 3.0, STOICHIOMETRY;
    /// Chlorate that drinking water may hold by the provisional guideline value.
    CHLORATE_GUIDELINE: "mg/L" = 0.7,
        source("WHO, Guidelines for drinking-water quality, 4th edition", "chlorate, provisional", Provenance::FromMemory);
    /// Share of the label's strength below which a stock is spent: twice the product, and the days of storage matter.
    STOCK_SPENT: "1" = 0.6, OUR_LINE;
    /// Share of the label's strength below which no date of making is trusted for a dose: test it, or buy.
    STOCK_NEARLY_GONE: "1" = 0.3, OUR_LINE;
    /// Hydroxide of ordinary product.
    USUAL_HYDROXIDE: "mol/L" = 0.08, USUAL_BLEACH;
    /// Least ionic strength of the experiments.
    DECOMPOSITION_LEAST_IONIC_STRENGTH: "mol/L" = 1.0, ADAM_GORDON;
    /// Greatest ionic strength of the experiments.
    DECOMPOSITION_GREATEST_IONIC_STRENGTH: "mol/L" = 6.0, ADAM_GORDON;
    /// Lowest temperature of the experiments.
    DECOMPOSITION_LOWEST_TEMPERATURE: "C" = 15.0, ADAM_GORDON;
    /// Highest temperature of the experiments.
    DECOMPOSITION_HIGHEST_TEMPERATURE: "C" = 55.0, ADAM_GORDON;
    /// Multiplier of the rate: slowest stock seen.
    AGING_SLOW: "1" = 0.8, HALF_LIVES;
    /// Multiplier of the rate: typical stock.
    AGING_TYPICAL: "1" = 1.25, HALF_LIVES;
    /// Multiplier of the rate: fastest stock seen.
    AGING_FAST: "1" = 1.6, HALF_LIVES;
    /// Loss of very dilute solutions a year, the least that is assumed outside the range of the rate law.
    DILUTE_LOSS_PER_YEAR: "1/yr" = 0.0524, DILUTE_LOSS;

    // Aging of dry calcium hypochlorite, dry and cool.
    /// Loss of available chlorine a year: slow.
    GRANULE_LOSS_SLOW: "1/yr" = 0.03, GRANULE_LOSS;
    /// Loss of available chlorine a year: typical.
    GRANULE_LOSS_TYPICAL: "1/yr" = 0.04, GRANULE_LOSS;
    /// Loss of available chlorine a year: fast.
    GRANULE_LOSS_FAST: "1/yr" = 0.05, GRANULE_LOSS;
    /// Storage temperature above which the loss of granules is not known from this source.
    GRANULE_WARM: "C" = 30.0, OUR_ESTIMATE;

    // Hypochlorous acid.
    /// Dissociation of HOCl: term in 1/T.
    HYPOCHLOROUS_PKA_INVERSE: "K" = 3000.0, MORRIS;
    /// Dissociation of HOCl: constant term.
    HYPOCHLOROUS_PKA_CONSTANT: "1" = -10.0686, MORRIS;
    /// Dissociation of HOCl: term in T.
    HYPOCHLOROUS_PKA_LINEAR: "1/K" = 0.0253, MORRIS;

    // Carbonate system: pK = a + b T + c/T + d log10 T + e/T^2 (water: e T^2).
    /// First dissociation of carbonic acid, constant term.
    CARBONIC_PK1_CONSTANT: "1" = 356.3094, PLUMMER_BUSENBERG;
    /// First dissociation of carbonic acid, term in T.
    CARBONIC_PK1_LINEAR: "1/K" = 0.06091964, PLUMMER_BUSENBERG;
    /// First dissociation of carbonic acid, term in 1/T.
    CARBONIC_PK1_INVERSE: "K" = -21834.37, PLUMMER_BUSENBERG;
    /// First dissociation of carbonic acid, term in log10 T.
    CARBONIC_PK1_LOGARITHM: "1" = -126.8339, PLUMMER_BUSENBERG;
    /// First dissociation of carbonic acid, term in 1/T^2.
    CARBONIC_PK1_INVERSE_SQUARE: "K^2" = 1684915.0, PLUMMER_BUSENBERG;
    /// Second dissociation of carbonic acid, constant term.
    CARBONIC_PK2_CONSTANT: "1" = 107.8871, PLUMMER_BUSENBERG;
    /// Second dissociation of carbonic acid, term in T.
    CARBONIC_PK2_LINEAR: "1/K" = 0.03252849, PLUMMER_BUSENBERG;
    /// Second dissociation of carbonic acid, term in 1/T.
    CARBONIC_PK2_INVERSE: "K" = -5151.79, PLUMMER_BUSENBERG;
    /// Second dissociation of carbonic acid, term in log10 T.
    CARBONIC_PK2_LOGARITHM: "1" = -38.92561, PLUMMER_BUSENBERG;
    /// Second dissociation of carbonic acid, term in 1/T^2.
    CARBONIC_PK2_INVERSE_SQUARE: "K^2" = 563713.9, PLUMMER_BUSENBERG;
    /// Ion product of water, log10, constant term.
    WATER_LOG_K_CONSTANT: "1" = 293.29227, WATER_ION_PRODUCT;
    /// Ion product of water, log10, term in T.
    WATER_LOG_K_LINEAR: "1/K" = 0.1360833, WATER_ION_PRODUCT;
    /// Ion product of water, log10, term in 1/T.
    WATER_LOG_K_INVERSE: "K" = -10576.913, WATER_ION_PRODUCT;
    /// Ion product of water, log10, term in log10 T.
    WATER_LOG_K_LOGARITHM: "1" = -123.73158, WATER_ION_PRODUCT;
    /// Ion product of water, log10, term in T^2.
    WATER_LOG_K_SQUARE: "1/K^2" = -6.996455e-5, WATER_ION_PRODUCT;
    /// Solubility of calcite, log10, constant term.
    CALCITE_LOG_K_CONSTANT: "1" = -171.9065, PLUMMER_BUSENBERG;
    /// Solubility of calcite, log10, term in T.
    CALCITE_LOG_K_LINEAR: "1/K" = -0.077993, PLUMMER_BUSENBERG;
    /// Solubility of calcite, log10, term in 1/T.
    CALCITE_LOG_K_INVERSE: "K" = 2839.319, PLUMMER_BUSENBERG;
    /// Solubility of calcite, log10, term in log10 T.
    CALCITE_LOG_K_LOGARITHM: "1" = 71.595, PLUMMER_BUSENBERG;
    /// Ion pair CaCO3, log10 of its association constant, constant term.
    CALCIUM_CARBONATE_PAIR_CONSTANT: "1" = -1228.732, PLUMMER_BUSENBERG;
    /// Ion pair CaCO3, term in T.
    CALCIUM_CARBONATE_PAIR_LINEAR: "1/K" = -0.299440, PLUMMER_BUSENBERG;
    /// Ion pair CaCO3, term in 1/T.
    CALCIUM_CARBONATE_PAIR_INVERSE: "K" = 35512.75, PLUMMER_BUSENBERG;
    /// Ion pair CaCO3, term in log10 T.
    CALCIUM_CARBONATE_PAIR_LOGARITHM: "1" = 485.818, PLUMMER_BUSENBERG;
    /// Ion pair CaHCO3+ from Ca2+ and HCO3-, log10 of its association constant, constant term.
    CALCIUM_BICARBONATE_PAIR_CONSTANT: "1" = 1209.120, PLUMMER_BUSENBERG;
    /// Ion pair CaHCO3+, term in T.
    CALCIUM_BICARBONATE_PAIR_LINEAR: "1/K" = 0.31294045, PLUMMER_BUSENBERG;
    /// Ion pair CaHCO3+, term in 1/T.
    CALCIUM_BICARBONATE_PAIR_INVERSE: "K" = -34765.05, PLUMMER_BUSENBERG;
    /// Ion pair CaHCO3+, term in log10 T.
    CALCIUM_BICARBONATE_PAIR_LOGARITHM: "1" = -478.782, PLUMMER_BUSENBERG;
    /// Ion pair NaCO3-, log10 of its association constant at 25 C.
    SODIUM_CARBONATE_PAIR: "1" = 1.27, PHREEQC;
    /// Ion pair NaCO3-, enthalpy of association (8.91 kcal/mol).
    SODIUM_CARBONATE_PAIR_ENTHALPY: "J/mol" = 37279.4, PHREEQC;

    // Activities.
    /// Davies equation: term in ionic strength.
    DAVIES_LINEAR: "1" = 0.3, DAVIES;
    /// Debye-Hueckel slope over (dielectric constant times temperature)^-1.5.
    DEBYE_HUECKEL_FACTOR: "K^1.5 (L/mol)^0.5" = 1.82e6, DAVIES;
    /// Dielectric constant of water at 0 C.
    DIELECTRIC_CONSTANT: "1" = 87.740, DIELECTRIC;
    /// Dielectric constant of water, term in t (C).
    DIELECTRIC_LINEAR: "1/C" = -0.40008, DIELECTRIC;
    /// Dielectric constant of water, term in t^2.
    DIELECTRIC_SQUARE: "1/C^2" = 9.398e-4, DIELECTRIC;
    /// Dielectric constant of water, term in t^3.
    DIELECTRIC_CUBE: "1/C^3" = -1.410e-6, DIELECTRIC;
    /// Ionic strength of a groundwater over its alkalinity (1.0 for sodium bicarbonate, 1.5 for calcium bicarbonate).
    IONIC_STRENGTH_PER_ALKALINITY: "mol/eq" = 1.3, OUR_ESTIMATE;
    /// Free hydroxide per chlorine in liquid hypochlorite, where the label does not say.
    LIQUID_HYDROXIDE_PER_CHLORINE: "mol/mol" = 0.05, USUAL_BLEACH;
    /// Free hydroxide per chlorine in calcium hypochlorite: 3 wt % Ca(OH)2 in a 65 % product.
    GRANULE_HYDROXIDE_PER_CHLORINE: "mol/mol" = 0.09,
        source("composition of commercial granules", "3 wt % Ca(OH)2", Provenance::FromMemory);
    /// Saturation index above which calcite is expected to cloud the water and pull the pH down.
    CALCITE_CLOUDS: "1" = 0.3, OUR_ESTIMATE;
    /// Gain of HOCl below which doubling the product is not worth having.
    WORTHWHILE_GAIN: "1" = 0.25, OUR_ESTIMATE;

    /// pH above which chlorine works slowly: less than a tenth of it is HOCl at 20 C (equation H3).
    SLOW_PH: "1" = 8.5, OUR_LINE;
    /// Dose above which at least one state code forbids to go.
    GREATEST_CODED_DOSE: "mg/L" = 500.0, COMAR;
    /// pH below which neutralized flush water is too acid to let go.
    ACID_PH: "1" = 6.0, OUR_LINE;

    // Demand, mg Cl2 per mg, from the reactions in the demand room.
    /// Chlorine per iron: 2 Fe2+ + Cl2.
    IRON_DEMAND: "mg/mg" = 0.5 * CHLORINE_MOLAR_MASS.value / IRON_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per manganese: Mn2+ + Cl2.
    MANGANESE_DEMAND: "mg/mg" = 1.0 * CHLORINE_MOLAR_MASS.value / MANGANESE_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per hydrogen sulfide to sulfur: H2S + Cl2.
    SULFIDE_TO_SULFUR_DEMAND: "mg/mg" = 1.0 * CHLORINE_MOLAR_MASS.value / HYDROGEN_SULFIDE_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per hydrogen sulfide to sulfate: H2S + 4 Cl2.
    SULFIDE_TO_SULFATE_DEMAND: "mg/mg" = 4.0 * CHLORINE_MOLAR_MASS.value / HYDROGEN_SULFIDE_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per ammonia nitrogen to monochloramine: NH3 + Cl2.
    MONOCHLORAMINE_DEMAND: "mg/mg" = 1.0 * CHLORINE_MOLAR_MASS.value / NITROGEN_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per ammonia nitrogen to breakpoint: 2 NH3 + 3 Cl2.
    BREAKPOINT_DEMAND: "mg/mg" = 1.5 * CHLORINE_MOLAR_MASS.value / NITROGEN_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per nitrite nitrogen: NO2- + Cl2.
    NITRITE_DEMAND: "mg/mg" = 1.0 * CHLORINE_MOLAR_MASS.value / NITROGEN_MOLAR_MASS.value, STOICHIOMETRY;
    /// Chlorine per organic carbon in 24 h; low at shock doses.
    ORGANIC_CARBON_DEMAND: "mg/mg" = 1.0, CARBON_DEMAND;
    /// Chlorine per iron, practice.
    IRON_DEMAND_PRACTICE: "mg/mg" = 0.64, ROUNDED_STOICHIOMETRY;
    /// Chlorine per manganese, practice.
    MANGANESE_DEMAND_PRACTICE: "mg/mg" = 2.0, VENDOR_PRACTICE;
    /// Chlorine per hydrogen sulfide, practice (3, some say 6).
    SULFIDE_DEMAND_PRACTICE: "mg/mg" = 3.0, VENDOR_PRACTICE;
    /// Chlorine per ammonia nitrogen to breakpoint, practice (10 to 15).
    AMMONIA_DEMAND_PRACTICE: "mg/mg" = 10.0, VENDOR_PRACTICE;
    /// Iron above which oxidized iron stains and clouds.
    IRON_STAINS: "mg/L" = 0.3, SECONDARY_STANDARD;
    /// Manganese above which oxidized manganese stains.
    MANGANESE_STAINS: "mg/L" = 0.05, SECONDARY_STANDARD;

    // Contact.
    /// Chlorine concentration above which the CT tables give no more credit.
    CONTACT_CREDIT_LIMIT: "mg/L" = 3.0, CT_TABLES;

    // Neutralizers, mg agent per mg Cl2, as used in the field.
    /// Sodium sulfite, as the table of the field guide counts it.
    SODIUM_SULFITE_FIELD: "mg/mg" = 1.96, FIELD_GUIDE;
    /// Sodium bisulfite, as the table of the field guide counts it.
    SODIUM_BISULFITE_FIELD: "mg/mg" = 1.61, FIELD_GUIDE;
    /// Sodium metabisulfite, as the table of the field guide counts it.
    SODIUM_METABISULFITE_FIELD: "mg/mg" = 1.47, FIELD_GUIDE;
    /// Calcium thiosulfate, as the table of the field guide counts it.
    CALCIUM_THIOSULFATE_FIELD: "mg/mg" = 1.22, FIELD_GUIDE;
    /// Ascorbic acid, as the table of the field guide counts it.
    ASCORBIC_ACID_FIELD: "mg/mg" = 2.5, FIELD_GUIDE;
    /// Sodium ascorbate, as the table of the field guide counts it.
    SODIUM_ASCORBATE_FIELD: "mg/mg" = 2.8, FIELD_GUIDE;
    /// Sulfur dioxide: where the four quantities of the C651 appendix (0.8, 1.7, 8.3, 41.7 lb) meet.
    SULFUR_DIOXIDE_FIELD: "mg/mg" = 1.00,
        source("ANSI/AWWA C651 appendix, lb for 1, 2, 10 and 50 mg/L in 100 000 gal", "", Provenance::FromMemory);
    /// Sodium thiosulfate, anhydrous, at pH 6.5.
    THIOSULFATE_AT_PH_6_5: "mg/mg" = 1.6, WHITE;
    /// Sodium thiosulfate, anhydrous, at pH 7.
    THIOSULFATE_AT_PH_7: "mg/mg" = 1.9, FIELD_GUIDE;
    /// Sodium thiosulfate, anhydrous, at pH 9: one for each chlorine.
    THIOSULFATE_AT_PH_9: "mg/mg" = 2.23, ROUNDED_STOICHIOMETRY;
    /// Agent to carry over agent computed.
    ORDER_FACTOR: "1" = 1.20, ORDER_PRACTICE;
}
