//! Holding time: the CT it gives, the CT the tables ask for, the residual that is left, and the rule that was chosen.
//!
//! CT is information at shock doses, hours and residual are the rule. The credit is capped at the tables' greatest chlorine
//! concentration. It refuses to stretch the tables: outside their pH there is no answer.

use uom::si::time::{hour, minute};

use super::constants::CONTACT_CREDIT_LIMIT;
use super::ct_table::{
    GIARDIA, GIARDIA_CHLORINE, GIARDIA_PH, GIARDIA_SOURCE, TEMPERATURES, VIRUS_AT_PH_10, VIRUS_SOURCE, VIRUS_TO_PH_9,
};
use crate::quantity::basis::celsius;
use crate::quantity::{ChlorineConcentration, ThermodynamicTemperature, Time};
use crate::source::{Equation, Provenance, Source};

/// Concentration times time, mg min/L.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct ContactTime(pub f64);

/// C1: concentration times time against viruses, as the table prints it, never a figure between two rows.
pub const VIRUS_CONTACT: Equation = Equation {
    id: "C1",
    name: "CT for 4-log inactivation of viruses by free chlorine",
    statement: "CT = table(T rounded down, pH 6 to 9 or 10)",
    symbols: &[("CT", "mg min/L", "concentration times time"), ("T", "C", "water temperature")],
    validity: "pH to 10; below 5 C the row of 0.5 C, above 25 C the row of 25 C; some enteroviruses need half as much \
               again (Coxsackie B5: 11.5 at 5 C against 8)",
    sources: &[VIRUS_SOURCE],
    checks: &[
        "CT-073",
        "CT-074",
        "CT-075",
        "CT-079",
        "CT-083",
        "CT-085",
        "chemistry::every_cell_of_the_contact_tables",
    ],
};

/// CT that the table asks for 4-log inactivation of viruses; `None` above pH 10.
///
/// `CT = table(T rounded down, pH 6 to 9 or 10)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | CT | mg min/L | concentration times time |
/// | T | C | water temperature |
///
/// Temperature is rounded down to a row and pH up to a column. Source: US EPA 815-R-20-003, Table B-2.
pub fn virus_contact(temperature: ThermodynamicTemperature, ph: f64) -> Option<ContactTime> {
    let row = temperature_row(temperature)?;
    if ph <= 9.0 {
        Some(ContactTime(VIRUS_TO_PH_9[row]))
    } else if ph <= 10.0 {
        Some(ContactTime(VIRUS_AT_PH_10[row]))
    } else {
        None
    }
}

/// C2: concentration times time against Giardia, from the table's cell on the safe side.
pub const GIARDIA_CONTACT: Equation = Equation {
    id: "C2",
    name: "CT for 3-log inactivation of Giardia by free chlorine",
    statement: "CT = table(T rounded down, C rounded up to at most 3 mg/L, pH rounded up)",
    symbols: &[
        ("CT", "mg min/L", "concentration times time"),
        ("T", "C", "water temperature"),
        ("C", "mg/L as Cl2", "free chlorine"),
    ],
    validity: "pH to 9, 0.5 to 25 C; above 3 mg/L the row of 3 mg/L",
    sources: &[GIARDIA_SOURCE],
    checks: &[
        "CT-001",
        "CT-008",
        "CT-016",
        "CT-031",
        "CT-047",
        "CT-063",
        "CT-072",
        "chemistry::every_cell_of_the_contact_tables",
    ],
};

/// CT that the tables ask for 3-log inactivation of Giardia; `None` above pH 9.
///
/// `CT = table(T rounded down, C rounded up to at most 3 mg/L, pH rounded up)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | CT | mg min/L | concentration times time |
/// | T | C | water temperature |
/// | C | mg/L as Cl2 | free chlorine |
///
/// Source: US EPA 815-R-20-003, Table B-1 (40 CFR 141.74(b)(3)(v)).
pub fn giardia_contact(
    temperature: ThermodynamicTemperature,
    chlorine: ChlorineConcentration,
    ph: f64,
) -> Option<ContactTime> {
    let table = &GIARDIA[temperature_row(temperature)?];
    let concentration = chlorine.milligrams_per_liter();
    // The slack lets 0.6 in a file, which is not 0.6 exactly after a conversion of units, meet its own row.
    let row =
        GIARDIA_CHLORINE.iter().position(|limit| concentration <= limit + 1e-9).unwrap_or(GIARDIA_CHLORINE.len() - 1);
    let column = GIARDIA_PH.iter().position(|limit| ph <= *limit)?;
    Some(ContactTime(table[row][column]))
}

/// Row of the tables: the temperature rounded down; `None` for what is not a number.
fn temperature_row(temperature: ThermodynamicTemperature) -> Option<usize> {
    let degrees = celsius(temperature);
    if degrees.is_nan() {
        return None;
    }
    // As above: 10 C read from 50 F must meet the row of 10 C.
    Some(TEMPERATURES.iter().rposition(|row| degrees + 1e-9 >= *row).unwrap_or(0))
}

/// CT that a hold is credited with.
pub const CONTACT_CREDIT: Equation = Equation {
    id: "C3",
    name: "CT credited to a hold",
    statement: "CT = min(C, 3) t",
    symbols: &[
        ("CT", "mg min/L", "concentration times time"),
        ("C", "mg/L as Cl2", "free chlorine left at the end of the hold"),
        ("t", "min", "contact time"),
    ],
    validity: "the tables end at 3 mg/L; no credit for sediment, slime or the formation",
    sources: &[Source {
        citation: "CT tables of US EPA, rule of use in Disinfection Profiling and Benchmarking",
        locator: "above 3 mg/L use the values of 3 mg/L",
        provenance: Provenance::Seen,
    }],
    checks: &["chemistry::contact_credit_is_capped"],
};

/// CT credited to a hold with this residual at its end.
///
/// `CT = min(C, 3) t`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | CT | mg min/L | concentration times time |
/// | C | mg/L as Cl2 | free chlorine left at the end of the hold |
/// | t | min | hold |
///
/// Source: rule of use of the CT tables.
pub fn contact_credit(residual: ChlorineConcentration, hold: Time) -> ContactTime {
    ContactTime(residual.milligrams_per_liter().clamp(0.0, CONTACT_CREDIT_LIMIT.value) * hold.get::<minute>().max(0.0))
}

/// Hold that reaches a CT at the capped credit; `None` without a residual.
pub fn hold_for(contact: ContactTime, residual: ChlorineConcentration) -> Option<Time> {
    let credited = residual.milligrams_per_liter().min(CONTACT_CREDIT_LIMIT.value);
    (credited > 0.0).then(|| Time::new::<minute>(contact.0 / credited))
}

/// Residual after a stated decay.
pub const RESIDUAL_DECAY: Equation = Equation {
    id: "C4",
    name: "Residual after a stated decay",
    statement: "C = C0 exp(-k t)",
    symbols: &[
        ("C, C0", "mg/L as Cl2", "free chlorine after the hold and at its start"),
        ("k", "1/h", "decay stated by the practice"),
        ("t", "h", "contact time"),
    ],
    validity: "a rough stand-in where nothing is measured; fast demand is in the dose, not here",
    sources: &[Source { citation: "first-order decay", locator: "", provenance: Provenance::CommonPractice }],
    checks: &["chemistry::a_stated_decay_halves_on_time"],
};

/// Free chlorine left after a hold with a stated first-order decay (1/h).
///
/// `C = C0 exp(-k t)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | C, C0 | mg/L as Cl2 | free chlorine after the hold and at its start |
/// | k | 1/h | decay stated by the practice |
/// | t | h | hold |
///
/// A rough stand-in where nothing is measured. Source: first-order decay.
pub fn residual_after(start: ChlorineConcentration, decay_per_hour: f64, hold: Time) -> ChlorineConcentration {
    start * (-decay_per_hour.max(0.0) * hold.get::<hour>().max(0.0)).exp()
}

/// What a rule asks of a hold.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldRule {
    /// Time that the chlorine must stay in the well, the same for all or by its concentration.
    pub least_hold: LeastHold,
    /// Least residual at the end, where the rule names one.
    pub least_residual: Option<ChlorineConcentration>,
}

/// The least time that a rule asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum LeastHold {
    /// The same for every concentration.
    Always(Time),
    /// By concentration, weakest first: the stronger, the shorter.
    ByConcentration(Vec<HoldPair>),
}

/// A row of a code's table: at this concentration, so long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldPair {
    /// Concentration from which the time holds, up to that of the next row.
    pub from: ChlorineConcentration,
    /// Time that the rule asks for at this concentration.
    pub hold: Time,
}

/// How a hold stands against a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoldCheck {
    /// Whether the hold lasts as long as the rule asks; false below the weakest row, where the rule allows no hold at all.
    pub long_enough: bool,
    /// Enough left; `None` where the rule asks for a residual and none is known.
    pub enough_left: Option<bool>,
}

impl HoldRule {
    /// Least time at a concentration: that of the strongest row that is reached, never a figure between two rows; `None`
    /// below the weakest row, where the rule allows no hold at all.
    pub fn least_hold(&self, concentration: ChlorineConcentration) -> Option<Time> {
        match &self.least_hold {
            LeastHold::Always(time) => Some(*time),
            LeastHold::ByConcentration(pairs) => {
                // The slack lets a concentration that went through a conversion meet its own row.
                let reached = |pair: &&HoldPair| concentration >= pair.from * (1.0 - 1e-9);
                pairs.iter().rev().find(reached).map(|pair| pair.hold)
            }
        }
    }

    /// Checks a hold at a concentration, and the residual at its end, if known.
    pub fn check(
        &self,
        concentration: ChlorineConcentration,
        hold: Time,
        residual: Option<ChlorineConcentration>,
    ) -> HoldCheck {
        HoldCheck {
            long_enough: self.least_hold(concentration).is_some_and(|least| hold >= least * (1.0 - 1e-9)),
            enough_left: match (self.least_residual, residual) {
                (None, _) => Some(true),
                (Some(least), Some(residual)) => Some(residual >= least),
                (Some(_), None) => None,
            },
        }
    }
}
