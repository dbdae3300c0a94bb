//! Taking chlorine out of flush water: how much agent, what to order, how to feed it, and what it does to oxygen and pH.
//!
//! Called where flush water may reach water that chlorine harms. Stoichiometry and field practice stand side by side, and
//! each agent has a stated default. It refuses to know the discharge limit.

use uom::si::f64::VolumeRate;

use super::agent::PENTAHYDRATE_PER_ANHYDROUS;
pub use super::agent::{Agent, AgentProperties, OxygenUptake, RatioBasis, ThiosulfateRoute};
use super::constants::{
    ACID_PH, CHLORINE_MOLAR_MASS, ORDER_FACTOR, OXYGEN_MOLAR_MASS, THIOSULFATE_AT_PH_6_5, THIOSULFATE_AT_PH_7,
    THIOSULFATE_AT_PH_9,
};
use super::effect::DosedWater;
use crate::quantity::basis::AgentConcentration;
use crate::quantity::{AgentMass, AgentPerChlorine, ChlorineConcentration, ChlorineMass, Volume};
use crate::source::{Equation, Provenance, Source};

const FIELD_GUIDE: Source = Source {
    citation: "Lauer, Sanchez: Disinfection of Pipelines and Storage Facilities Field Guide, AWWA (2006)",
    locator: "Tables 7-2 and 7-5",
    provenance: Provenance::Seen,
};
const STOICHIOMETRY: Source = Source { citation: "reaction equations", locator: "", provenance: Provenance::Derived };

/// Agent per chlorine by reaction.
pub const STOICHIOMETRIC_RATIO: Equation = Equation {
    id: "R1",
    name: "Agent per chlorine by reaction",
    statement: "r = n M_agent / M_Cl2",
    symbols: &[
        ("r", "mg/mg", "agent per chlorine"),
        (
            "n",
            "mol/mol",
            "moles of agent per mole of chlorine: sulfites, ascorbates, peroxide 1, metabisulfite 1/2, \
          thiosulfates 1/4, 1 or 2",
        ),
        ("M", "g/mol", "molar mass, with the water of the hydrate"),
    ],
    validity: "complete reaction; thiosulfate has three routes and the water decides which",
    sources: &[STOICHIOMETRY],
    checks: &["D348", "D350", "DECH-019", "DECH-042"],
};

/// Agent per chlorine by reaction; thiosulfates by the sulfur route.
///
/// `r = n M_agent / M_Cl2`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | r | mg/mg | agent per chlorine |
/// | n | mol/mol | moles of agent per mole of chlorine |
/// | M | g/mol | molar mass, with the water of the hydrate |
///
/// n is 1 for sulfites, ascorbates and peroxide, 1/2 for metabisulfite; for thiosulfates see
/// [`thiosulfate_ratio`]. Source: reaction equations.
pub fn stoichiometric_ratio(agent: Agent) -> AgentPerChlorine {
    let properties = agent.properties();
    AgentPerChlorine::from_ratio(properties.moles_per_chlorine * properties.molar_mass / CHLORINE_MOLAR_MASS.value)
}

/// Agent per chlorine by one of thiosulfate's routes; `None` for an agent that is no thiosulfate.
pub fn thiosulfate_ratio(agent: Agent, route: ThiosulfateRoute) -> Option<AgentPerChlorine> {
    is_thiosulfate(agent).then(|| stoichiometric_ratio(agent) * route.agent_per_chlorine())
}

const fn is_thiosulfate(agent: Agent) -> bool {
    matches!(agent, Agent::SodiumThiosulfate | Agent::SodiumThiosulfatePentahydrate | Agent::CalciumThiosulfate)
}

/// Field ratio of thiosulfate by pH.
pub const FIELD_RATIO: Equation = Equation {
    id: "R2",
    name: "Agent per chlorine in the field",
    statement: "r = table; sodium thiosulfate: r between (6.5, 1.6), (7, 1.9), (9, 2.23) by pH, x M_hydrate / M_anhydrous",
    symbols: &[("r", "mg/mg", "agent per chlorine"), ("M", "g/mol", "molar mass")],
    validity: "pH 6.5 to 9, held outside; the sulfite figures of the table already hold 10 % beyond stoichiometry",
    sources: &[
        FIELD_GUIDE,
        Source {
            citation: "White, Handbook of Chlorination",
            locator: "thiosulfate at pH 6.5",
            provenance: Provenance::FromMemory,
        },
        STOICHIOMETRY,
    ],
    checks: &["D344", "D345", "D346", "D347", "DECH-004", "DECH-007", "DECH-013"],
};

/// Agent per chlorine as the field tables have it, at a pH (7 where unknown); `None` where no table lists the agent.
///
/// `r = table; sodium thiosulfate: r between (6.5, 1.6), (7, 1.9), (9, 2.23) by pH, x M_hydrate / M_anhydrous`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | r | mg/mg | agent per chlorine |
/// | M | g/mol | molar mass |
///
/// Holds from pH 6.5 to 9, where it is held. Source: AWWA field guide, Table 7-2; White for pH
/// 6.5; one for one at pH 9.
pub fn field_ratio(agent: Agent, ph: Option<f64>) -> Option<AgentPerChlorine> {
    let ratio = match agent {
        Agent::SodiumThiosulfate => thiosulfate_by_ph(ph.unwrap_or(7.0)),
        Agent::SodiumThiosulfatePentahydrate => thiosulfate_by_ph(ph.unwrap_or(7.0)) * PENTAHYDRATE_PER_ANHYDROUS,
        _ => agent.properties().field?,
    };
    Some(AgentPerChlorine::from_ratio(ratio))
}

fn thiosulfate_by_ph(ph: f64) -> f64 {
    let between = |from: f64, to: f64, share: f64| from + (to - from) * share.clamp(0.0, 1.0);
    if ph < 7.0 {
        between(THIOSULFATE_AT_PH_6_5.value, THIOSULFATE_AT_PH_7.value, (ph - 6.5) / 0.5)
    } else {
        between(THIOSULFATE_AT_PH_7.value, THIOSULFATE_AT_PH_9.value, (ph - 7.0) / 2.0)
    }
}

/// Agent per chlorine that is used where the scenario does not choose.
///
/// Sulfites, ascorbates, sulfur dioxide and peroxide: stoichiometry, to which the excess is added as a figure of its own
/// (the field table's sulfite ratios are the same with 10 % already in). Thiosulfates: the field ratio at the water's pH,
/// because their reaction does not go one way.
pub fn default_ratio(agent: Agent, ph: Option<f64>) -> AgentPerChlorine {
    match agent.properties().default_basis {
        RatioBasis::Stoichiometric => stoichiometric_ratio(agent),
        RatioBasis::Field => field_ratio(agent, ph).unwrap_or_else(|| stoichiometric_ratio(agent)),
    }
}

/// Agent for a batch.
pub const AGENT_MASS: Equation = Equation {
    id: "R3",
    name: "Neutralizer for flush water",
    statement: "N = max(0, C V - L F) r (1 + e)",
    symbols: &[
        ("N", "g", "agent"),
        ("C", "mg/L as Cl2", "chlorine in the well at the start of the flush"),
        ("V", "m3", "treated volume"),
        ("L", "mg/L as Cl2", "limit at the place of discharge"),
        ("F", "m3", "flush volume"),
        ("r", "mg/mg", "agent per chlorine"),
        ("e", "1", "excess"),
    ],
    validity: "all the chlorine comes out with the flush; the limit may leave with the flush water",
    sources: &[FIELD_GUIDE],
    checks: &[
        "DECH-002", "DECH-003", "DECH-005", "DECH-008", "DECH-014", "DECH-017", "DECH-018", "DECH-020", "DECH-040",
    ],
};

/// Chlorine that must be taken out of a flush so that what leaves meets the limit; never below zero.
pub fn chlorine_to_remove(
    start: ChlorineConcentration,
    treated: Volume,
    limit: ChlorineConcentration,
    flush: Volume,
) -> ChlorineMass {
    let remove = start * treated - limit * flush;
    ChlorineMass::from_grams(remove.grams().max(0.0))
}

/// Agent for the chlorine to remove, with an excess as a share.
///
/// `N = max(0, C V - L F) r (1 + e)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | N | g | agent |
/// | C | mg/L as Cl2 | chlorine in the well at the start of the flush |
/// | V | m3 | treated volume |
/// | L | mg/L as Cl2 | limit at the place of discharge |
/// | F | m3 | flush volume |
/// | r | mg/mg | agent per chlorine |
/// | e | 1 | excess |
///
/// Source: mass balance; the first bracket is [`chlorine_to_remove`].
pub fn agent_mass(remove: ChlorineMass, need: AgentPerChlorine, excess: f64) -> AgentMass {
    remove * need * (1.0 + excess)
}

/// Agent to order and carry: at least a fifth more than the chlorine takes.
///
/// The excess covers reaction in the field and is used; the order quantity covers spills and a second try, and some comes
/// back. AWWA field guide (2006): carry at least 20 % more.
pub fn agent_to_order(remove: ChlorineMass, need: AgentPerChlorine, excess: f64) -> AgentMass {
    remove * need * (1.0 + excess).max(ORDER_FACTOR.value)
}

/// Feed of agent solution into a flush in flow.
pub const FEED_RATE: Equation = Equation {
    id: "R4",
    name: "Feed rate of neutralizer solution into a flush in flow",
    statement: "q = Q C r (1 + e) / s",
    symbols: &[
        ("q", "L/min", "solution to feed at the hose"),
        ("Q", "L/min", "flush rate"),
        ("C", "mg/L as Cl2", "chlorine in the flush water now"),
        ("r", "mg/mg", "agent per chlorine"),
        ("e", "1", "excess"),
        ("s", "mg/L", "agent in the solution"),
    ],
    validity: "well mixed before the discharge; feed for the highest chlorine expected, test downstream",
    sources: &[STOICHIOMETRY],
    checks: &["chemistry::feed_rate_agrees_with_the_batch"],
};

/// Solution to feed into a flush in flow; `None` for a solution without agent.
///
/// `q = Q C r (1 + e) / s`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | q | L/min | solution to feed at the hose |
/// | Q | L/min | flush rate |
/// | C | mg/L as Cl2 | chlorine in the flush water now |
/// | r | mg/mg | agent per chlorine |
/// | e | 1 | excess |
/// | s | mg/L | agent in the solution |
///
/// Source: mass balance.
pub fn feed_rate(
    flush_rate: VolumeRate,
    chlorine: ChlorineConcentration,
    need: AgentPerChlorine,
    excess: f64,
    solution: AgentConcentration,
) -> Option<VolumeRate> {
    let strength = solution.milligrams_per_liter();
    (strength > 0.0).then(|| flush_rate * (chlorine.milligrams_per_liter() * need.ratio() * (1.0 + excess) / strength))
}

/// Oxygen taken by an overdose.
pub const OXYGEN_TAKEN: Equation = Equation {
    id: "R5",
    name: "Oxygen taken up by an overdose of agent",
    statement: "O = u n_O M_O2 / M_agent",
    symbols: &[
        ("O", "mg/L", "oxygen taken up at most"),
        ("u", "mg/L", "agent left over"),
        ("n_O", "mol/mol", "oxygen per agent: sulfites 1/2, metabisulfite 1, others none"),
        ("M", "g/mol", "molar mass"),
    ],
    validity: "complete reaction; thiosulfates take little, ascorbates hardly any",
    sources: &[STOICHIOMETRY],
    checks: &["DECH-056"],
};

/// Oxygen (mg/L) that an overdose of agent can take from the water at most.
///
/// `O = u n_O M_O2 / M_agent`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | O | mg/L | oxygen taken up at most |
/// | u | mg/L | agent left over |
/// | n_O | mol/mol | oxygen per agent: sulfites 1/2, metabisulfite 1, others none |
/// | M | g/mol | molar mass |
///
/// Source: reaction equations.
pub fn oxygen_taken(agent: Agent, overdose: AgentConcentration) -> f64 {
    let properties = agent.properties();
    overdose.milligrams_per_liter() * properties.oxygen_per_agent * OXYGEN_MOLAR_MASS.value / properties.molar_mass
}

/// R6: the charge balance that is solved for the pH once the agent has taken all chlorine.
pub const PH_AFTER_NEUTRALIZING: Equation = Equation {
    id: "R6",
    name: "pH after neutralizing",
    statement: "Alk + c (x + f b) = C_T (a1 + 2 a2) + Kw' / {H} - [H]",
    symbols: &[
        ("Alk", "eq/L", "alkalinity before dosing"),
        ("c", "mol/L", "dose, of which nothing is left"),
        ("x", "mol/mol", "free hydroxide per chlorine of the product"),
        ("f", "1", "share of the dose that was still there to be neutralized"),
        (
            "b",
            "eq/mol",
            "alkalinity that agent and chlorine leave: sulfite 0, bisulfite -1, SO2 -2, thiosulfate -1/2 to 2 by ratio",
        ),
        ("C_T, a1, a2, Kw', {H}, [H]", "", "as in P2"),
    ],
    validity: "as P2; exact neutralization; what the water itself used up is taken to leave no acid; for ascorbates what becomes of the product is uncertain: a range; for thiosulfates b \
               follows from the agent per chlorine that is used",
    sources: &[Source { citation: "charge balance by strong ions", locator: "", provenance: Provenance::Derived }],
    checks: &[
        "DECH-060",
        "DECH-066",
        "DECH-067",
        "DECH-071",
        "DECH-074",
        "DECH-080",
        "chemistry::neutralized_waters_agree_with_the_oracle",
    ],
};

/// pH after dosing and exact neutralizing, least and most.
///
/// `Alk + c (x + f b) = C_T (a1 + 2 a2) + Kw' / {H} - [H]`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | Alk | eq/L | alkalinity before dosing |
/// | c | mol/L | dose, of which nothing is left |
/// | x | mol/mol | free hydroxide per chlorine of the product |
/// | f | 1 | share of the dose that was still there to be neutralized |
/// | b | eq/mol | alkalinity that agent and chlorine leave |
///
/// The rest as in P2. b is 0 for sulfite and peroxide, -1 for bisulfites, -2 for sulfur dioxide; ascorbic acid 0, or -1 once
/// its product has turned to acid; ascorbate one more; thiosulfate -1/2, 0 or 2 by route: the route nearest to the agent per
/// chlorine that is used (`need`), and the mixture of two routes that takes exactly as much. Source: charge balance.
pub fn ph_after_neutralizing(dosed: &DosedWater, agent: Agent, need: AgentPerChlorine, share: f64) -> (f64, f64) {
    let share = share.clamp(0.0, 1.0);
    let (least, most) = thiosulfate_alkalinity(agent, need).unwrap_or(agent.properties().alkalinity);
    if least == most {
        let ph = dosed.ph_without_chlorine(share * least);
        return (ph, ph);
    }
    let ph = |alkalinity: f64| dosed.ph_without_chlorine(share * alkalinity);
    (ph(least), ph(most))
}

/// pH after neutralizing with a thiosulfate by one route.
pub fn ph_after_thiosulfate(dosed: &DosedWater, route: ThiosulfateRoute) -> f64 {
    dosed.ph_without_chlorine(route.alkalinity_per_chlorine())
}

/// Alkalinity that a thiosulfate leaves per chlorine, least and most, from how much of it the chlorine is said to take: the
/// routes differ in both, so that the one follows from the other. `None` for another agent.
fn thiosulfate_alkalinity(agent: Agent, need: AgentPerChlorine) -> Option<(f64, f64)> {
    if !is_thiosulfate(agent) {
        return None;
    }
    // The sulfur route takes one for one.
    let moles = need.ratio() / stoichiometric_ratio(agent).ratio();
    let [first, second, third] =
        ThiosulfateRoute::ALL.map(|route| (route.agent_per_chlorine(), route.alkalinity_per_chlorine()));
    let ((from, low), (to, high)) = if moles <= second.0 { (first, second) } else { (second, third) };
    let share = ((moles - from) / (to - from)).clamp(0.0, 1.0);
    let mixture = low + (high - low) * share;
    let nearest = if share < 0.5 { low } else { high };
    Some((mixture.min(nearest), mixture.max(nearest)))
}

/// Agents that leave no acid, in the order in which they are named: what takes no oxygen from the stream comes first.
const WITHOUT_ACID: [Agent; 3] = [Agent::SodiumAscorbate, Agent::SodiumThiosulfate, Agent::SodiumSulfite];

/// An agent that would leave this water no more acid than [`ACID_PH`], or than it is by nature; `need` tells how much of each
/// is used. `None` where none of them does.
pub fn agent_without_acid(dosed: &DosedWater, need: impl Fn(Agent) -> AgentPerChlorine, share: f64) -> Option<Agent> {
    let enough = ACID_PH.value.min(dosed.ph_before);
    let leaves = |agent: Agent| ph_after_neutralizing(dosed, agent, need(agent), share).0;
    WITHOUT_ACID.into_iter().find(|agent| leaves(*agent) >= enough)
}
