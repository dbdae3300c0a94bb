//! Stock loses strength: liquid hypochlorite by its rate law, granules by a rate a year, chlorinated lime unpredictably.
//!
//! Called once per product and storage, never per well. Outside the range of the rate law the loss is taken no smaller
//! than a published loss of dilute solutions, and the answer says so. It refuses to predict chlorinated lime.

use super::constants::{
    ADAM_GORDON, AGING_FAST, AGING_SLOW, AGING_TYPICAL, CHLORINE_MOLAR_MASS, DECOMPOSITION_ENTHALPY,
    DECOMPOSITION_ENTROPY, DECOMPOSITION_FREQUENCY, DECOMPOSITION_GREATEST_IONIC_STRENGTH,
    DECOMPOSITION_HIGHEST_TEMPERATURE, DECOMPOSITION_LEAST_IONIC_STRENGTH, DECOMPOSITION_LOWEST_TEMPERATURE,
    DECOMPOSITION_SALT_EFFECT, DILUTE_LOSS_PER_YEAR, GAS_CONSTANT, GRANULE_LOSS_FAST, GRANULE_LOSS_SLOW,
    GRANULE_LOSS_TYPICAL, GRANULE_WARM, USUAL_HYDROXIDE, USUAL_SALT_RATIO,
};
use crate::quantity::basis::{celsius, celsius_of, days_of};
use crate::quantity::{ChlorinePerLiquid, ThermodynamicTemperature, Time};
use crate::source::{Equation, Provenance, Source};
use uom::si::time::second;

const DAYS_PER_YEAR: f64 = 365.25;

/// How fast a stock ages compared with the rate law: published half-lives scatter around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AgingPace {
    /// The slowest seen; needs least product.
    Slow,
    /// What is planned with.
    Typical,
    /// The fastest seen (metals, light, poor make); needs most product.
    Fast,
}

impl AgingPace {
    /// Slow, typical, fast: the low, mid and high reading of the need.
    pub const ALL: [Self; 3] = [Self::Slow, Self::Typical, Self::Fast];

    const fn multiplier(self) -> f64 {
        match self {
            Self::Slow => AGING_SLOW.value,
            Self::Typical => AGING_TYPICAL.value,
            Self::Fast => AGING_FAST.value,
        }
    }

    const fn granule_loss_per_year(self) -> f64 {
        match self {
            Self::Slow => GRANULE_LOSS_SLOW.value,
            Self::Typical => GRANULE_LOSS_TYPICAL.value,
            Self::Fast => GRANULE_LOSS_FAST.value,
        }
    }
}

/// Salt and caustic of a liquid: what its ionic strength rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Sodium chloride per sodium hypochlorite, mol/mol: 1.0 ordinary, 0.1 to 0.3 low salt.
    pub salt_ratio: f64,
    /// Free hydroxide of the product, moles per liter; it counts in the ionic strength.
    pub hydroxide_mol_per_l: f64,
}

impl Default for Composition {
    fn default() -> Self {
        Self { salt_ratio: USUAL_SALT_RATIO.value, hydroxide_mol_per_l: USUAL_HYDROXIDE.value }
    }
}

/// A stretch of storage at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Storage {
    /// How long it lay at this temperature; the stretches of a history follow each other.
    pub duration: Time,
    /// Temperature of the product itself, taken as the same all through the stretch.
    pub temperature: ThermodynamicTemperature,
}

/// Why an aging answer is weaker than usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct AgingDoubts {
    /// Weaker than the experiments (ionic strength below 1 mol/L, under about 3.5 trade percent): loss kept on the safe side.
    pub too_dilute: bool,
    /// Stronger than the experiments (ionic strength above 6 mol/L).
    pub too_strong: bool,
    /// Colder than the experiments (15 C): loss kept on the safe side.
    pub too_cold: bool,
    /// Warmer than the experiments (55 C), or than the source for granules covers.
    pub too_warm: bool,
    /// No model: measure the strength.
    pub needs_test: bool,
}

impl AgingDoubts {
    /// Whether there is any.
    pub fn any(self) -> bool {
        self != Self::default()
    }
}

/// What is left of a stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aged {
    /// Strength left over strength at the start, 0 to 1.
    pub share_left: f64,
    /// What to know about the answer.
    pub doubts: AgingDoubts,
}

/// Ionic strength of the liquid.
pub const IONIC_STRENGTH: Equation = Equation {
    id: "A1",
    name: "Ionic strength of liquid hypochlorite",
    statement: "mu = c (1 + r) + [OH-], c = G / M_Cl2",
    symbols: &[
        ("mu", "mol/L", "ionic strength"),
        ("c", "mol/L", "hypochlorite"),
        ("r", "mol/mol", "sodium chloride per sodium hypochlorite"),
        ("[OH-]", "mol/L", "hydroxide"),
        ("G", "g/L as Cl2", "strength"),
        ("M_Cl2", "g/mol", "molar mass of chlorine"),
    ],
    validity: "salts of single charge; three OCl- become two Cl- and one ClO3-, so it stays constant as the stock ages",
    sources: &[Source { citation: "definition of ionic strength", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::aging_by_small_steps"],
};

/// Ionic strength of liquid hypochlorite, mol/L.
///
/// `mu = c (1 + r) + [OH-], c = G / M_Cl2`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | mu | mol/L | ionic strength |
/// | c | mol/L | hypochlorite |
/// | r | mol/mol | sodium chloride per sodium hypochlorite |
/// | [OH-] | mol/L | hydroxide |
/// | G | g/L as Cl2 | strength |
/// | M_Cl2 | g/mol | molar mass of chlorine |
///
/// Constant while the stock ages. Source: definition.
pub fn ionic_strength(strength: ChlorinePerLiquid, composition: Composition) -> f64 {
    molarity(strength) * (1.0 + composition.salt_ratio) + composition.hydroxide_mol_per_l
}

fn molarity(strength: ChlorinePerLiquid) -> f64 {
    strength.grams_per_liter() / CHLORINE_MOLAR_MASS.value
}

/// Rate constant of hypochlorite decomposition.
pub const DECOMPOSITION_RATE: Equation = Equation {
    id: "A2",
    name: "Rate constant of hypochlorite decomposition",
    statement: "log10 k2 = 0.149 mu + log10(2.083e10 T exp(-1.018e5 / (R T)) exp(-56.5 / R))",
    symbols: &[
        ("k2", "L/(mol s)", "rate constant, -d[OCl-]/dt = k2 [OCl-]^2"),
        ("mu", "mol/L", "ionic strength"),
        ("T", "K", "temperature"),
        ("R", "J/(mol K)", "gas constant, 8.314"),
    ],
    validity: "mu 1 to 6 mol/L, 15 to 55 C, 0.001 to 1 mol/L hydroxide, no transition metals, no light",
    sources: &[ADAM_GORDON],
    checks: &["DECA-007", "DECA-009", "DECA-012", "DECA-022"],
};

/// Rate constant of hypochlorite decomposition, L/(mol s).
///
/// `log10 k2 = 0.149 mu + log10(2.083e10 T exp(-1.018e5 / (R T)) exp(-56.5 / R))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | k2 | L/(mol s) | rate constant, -d[OCl-]/dt = k2 [OCl-]^2 |
/// | mu | mol/L | ionic strength |
/// | T | K | temperature |
/// | R | J/(mol K) | gas constant, 8.314 |
///
/// Holds for mu 1 to 6 mol/L, 15 to 55 C, 0.001 to 1 mol/L hydroxide, without transition metals. Outside, the formula is
/// extrapolated as it stands; [`liquid_share_left`] guards the result. Source: Adam and Gordon 1999.
pub fn decomposition_rate(temperature: ThermodynamicTemperature, ionic_strength: f64) -> f64 {
    let kelvin = temperature.value;
    let gas = GAS_CONSTANT.value;
    let pre_exponential = DECOMPOSITION_FREQUENCY.value * kelvin;
    let barrier = (-DECOMPOSITION_ENTHALPY.value / (gas * kelvin) - DECOMPOSITION_ENTROPY.value / gas).exp();
    10.0_f64.powf(DECOMPOSITION_SALT_EFFECT.value * ionic_strength) * pre_exponential * barrier
}

/// Strength left of a liquid.
pub const LIQUID_AGING: Equation = Equation {
    id: "A3",
    name: "Strength remaining of liquid hypochlorite",
    statement: "G(t) / G0 = 1 / (1 + m c0 sum over i of k2(T_i) t_i)",
    symbols: &[
        ("G(t), G0", "g/L as Cl2", "strength after storage and at the start"),
        ("m", "1", "multiplier for published scatter: 0.8, 1.25, 1.6"),
        ("c0", "mol/L", "hypochlorite at the start"),
        ("k2(T_i)", "L/(mol s)", "rate constant at the temperature of stretch i"),
        ("t_i", "s", "duration of stretch i"),
    ],
    validity: "as A2; below mu = 1 the rate at mu = 1 is used, and below mu = 1 or 15 C never less than exp(-0.0524 t / yr)",
    sources: &[
        ADAM_GORDON,
        Source {
            citation: "half-life table of bleach solutions (Baker 1969) as reprinted in White, Handbook of Chlorination",
            locator: "multiplier",
            provenance: Provenance::FromMemory,
        },
    ],
    checks: &[
        "DECA-009",
        "DECA-010",
        "DECA-015",
        "DECA-025",
        "DECA-027",
        "chemistry::aging_of_strong_liquid_lies_in_the_band_or_on_the_safe_side",
        "chemistry::aging_by_small_steps",
    ],
};

/// Share of strength left of liquid hypochlorite after storage, through a history of temperatures.
///
/// `G(t) / G0 = 1 / (1 + m c0 sum over i of k2(T_i) t_i)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | G(t), G0 | g/L as Cl2 | strength after storage and at the start |
/// | m | 1 | multiplier for published scatter: 0.8, 1.25, 1.6 |
/// | c0 | mol/L | hypochlorite at the start |
/// | k2(T_i) | L/(mol s) | rate constant at the temperature of stretch i |
/// | t_i | s | duration of stretch i |
///
/// Holds as A2. Below an ionic strength of 1 mol/L the formula would be too slow (0.5 % product: 15 000 days against 6 000
/// published at 25 C), so the rate at 1 mol/L is used; there, and below 15 C, the loss is never taken smaller than that
/// measured on dilute solutions, 5.24 % a year. Source: Adam and Gordon 1999; multiplier from published half-lives.
pub fn liquid_share_left(
    strength: ChlorinePerLiquid,
    composition: Composition,
    storage: &[Storage],
    pace: AgingPace,
) -> Aged {
    let start = Start::of(strength, composition);
    let mut doubts = start.doubts();
    let mut exposure = 0.0;
    let mut least_loss = 0.0;
    for stretch in storage {
        let seconds = stretch.duration.value.max(0.0);
        let cold = celsius(stretch.temperature) < DECOMPOSITION_LOWEST_TEMPERATURE.value;
        doubts.too_cold |= cold && seconds > 0.0;
        doubts.too_warm |= celsius(stretch.temperature) > DECOMPOSITION_HIGHEST_TEMPERATURE.value && seconds > 0.0;
        exposure += decomposition_rate(stretch.temperature, start.effective_ionic_strength) * seconds;
        if cold || doubts.too_dilute {
            least_loss += dilute_loss_per_second() * seconds;
        }
    }
    let by_rate_law = 1.0 / (1.0 + pace.multiplier() * start.molarity * exposure);
    Aged { share_left: by_rate_law.min((-least_loss).exp()), doubts }
}

/// The stock on the day it is put away.
struct Start {
    molarity: f64,
    ionic_strength: f64,
    effective_ionic_strength: f64,
}

impl Start {
    fn of(strength: ChlorinePerLiquid, composition: Composition) -> Self {
        let ionic_strength = ionic_strength(strength, composition);
        Self {
            molarity: molarity(strength),
            ionic_strength,
            effective_ionic_strength: ionic_strength.max(DECOMPOSITION_LEAST_IONIC_STRENGTH.value),
        }
    }

    fn doubts(&self) -> AgingDoubts {
        AgingDoubts {
            too_dilute: self.ionic_strength < DECOMPOSITION_LEAST_IONIC_STRENGTH.value,
            too_strong: self.ionic_strength > DECOMPOSITION_GREATEST_IONIC_STRENGTH.value,
            ..AgingDoubts::default()
        }
    }
}

fn dilute_loss_per_second() -> f64 {
    DILUTE_LOSS_PER_YEAR.value / days_of(DAYS_PER_YEAR).value
}

/// Time until a liquid falls to a share of its strength.
pub const LIQUID_SHELF_LIFE: Equation = Equation {
    id: "A4",
    name: "Shelf life of liquid hypochlorite",
    statement: "t = (1 / f - 1) / (m k2(T) c0)",
    symbols: &[
        ("t", "s", "time until the share f is left"),
        ("f", "1", "share of the starting strength"),
        ("m", "1", "multiplier for published scatter"),
        ("k2(T)", "L/(mol s)", "rate constant"),
        ("c0", "mol/L", "hypochlorite at the start"),
    ],
    validity: "as A3, whose guards apply: the shorter of the two times is given",
    sources: &[ADAM_GORDON],
    checks: &["DECA-009", "DECA-010", "DECA-012", "DECA-028"],
};

/// Time until a share of the strength is left, stored at one temperature; `None` where the share is not between 0 and 1.
///
/// `t = (1 / f - 1) / (m k2(T) c0)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | t | s | time until the share f is left |
/// | f | 1 | share of the starting strength |
/// | m | 1 | multiplier for published scatter |
/// | k2(T) | L/(mol s) | rate constant |
/// | c0 | mol/L | hypochlorite at the start |
///
/// Holds as A3, whose guards apply: the shorter of the two times is given. Source: Adam and Gordon 1999.
pub fn liquid_shelf_life(
    strength: ChlorinePerLiquid,
    composition: Composition,
    temperature: ThermodynamicTemperature,
    share: f64,
    pace: AgingPace,
) -> Option<Time> {
    if !(share > 0.0 && share < 1.0) {
        return None;
    }
    let start = Start::of(strength, composition);
    let rate = pace.multiplier() * decomposition_rate(temperature, start.effective_ionic_strength) * start.molarity;
    let by_rate_law = (1.0 / share - 1.0) / rate;
    let guarded = start.doubts().too_dilute || celsius(temperature) < DECOMPOSITION_LOWEST_TEMPERATURE.value;
    let at_most = if guarded { -share.ln() / dilute_loss_per_second() } else { f64::INFINITY };
    let seconds = by_rate_law.min(at_most);
    seconds.is_finite().then(|| Time::new::<second>(seconds))
}

/// Strength left of calcium hypochlorite.
pub const DRY_AGING: Equation = Equation {
    id: "A5",
    name: "Strength remaining of calcium hypochlorite",
    statement: "S(t) / S0 = exp(-lambda t)",
    symbols: &[
        ("S(t), S0", "g/g as Cl2", "strength after storage and at the start"),
        ("lambda", "1/yr", "loss a year: 0.03, 0.04, 0.05"),
        ("t", "yr", "age"),
    ],
    validity: "kept dry, closed and cool; badly stored granules lose up to half in a year, and only a test tells",
    sources: &[Source {
        citation: "US EPA 815-R-99-014, Alternative Disinfectants and Oxidants Guidance Manual (1999)",
        locator: "3 to 5 % of available chlorine a year",
        provenance: Provenance::FromMemory,
    }],
    checks: &["chemistry::granules_lose_three_to_five_percent_a_year"],
};

/// Share of strength left of calcium hypochlorite after storage.
///
/// `S(t) / S0 = exp(-lambda t)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | S(t), S0 | g/g as Cl2 | strength after storage and at the start |
/// | lambda | 1/yr | loss a year: 0.03, 0.04, 0.05 |
/// | t | yr | age |
///
/// Holds dry, closed and cool; warmer than 30 C the answer carries a doubt. Source: US EPA 815-R-99-014.
pub fn dry_share_left(storage: &[Storage], pace: AgingPace) -> Aged {
    let mut doubts = AgingDoubts::default();
    let mut seconds = 0.0;
    for stretch in storage {
        seconds += stretch.duration.value.max(0.0);
        doubts.too_warm |= stretch.temperature > celsius_of(GRANULE_WARM.value) && stretch.duration.value > 0.0;
    }
    let years = seconds / days_of(DAYS_PER_YEAR).value;
    Aged { share_left: (-pace.granule_loss_per_year() * years).exp(), doubts }
}

/// Time until a share of the strength of calcium hypochlorite is left; `None` where the share is not between 0 and 1.
pub fn dry_shelf_life(share: f64, pace: AgingPace) -> Option<Time> {
    (share > 0.0 && share < 1.0).then(|| days_of(-share.ln() / pace.granule_loss_per_year() * DAYS_PER_YEAR))
}

/// Chlorinated lime: no model is offered, the label strength stands only until it is tested.
///
/// Unstable to light, warmth and damp (WHO fact sheet 2.19): use a measured strength.
pub fn chlorinated_lime_share_left() -> Aged {
    Aged { share_left: 1.0, doubts: AgingDoubts { needs_test: true, ..AgingDoubts::default() } }
}
