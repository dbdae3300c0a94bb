//! Springs that flow: how much of a box turns over during the hold, what closing its overflow adds, and what a continuous
//! feed takes.
//!
//! A spring box with an inflow is no tank: one dose is gone in a few volumes. Either nothing runs out while the chlorine
//! stays (isolated), or chlorine is fed as fast as it leaves (fed). Refuses to choose between the two: the practice does.

use uom::si::f64::VolumeRate;

use crate::quantity::{ChlorineConcentration, ChlorineMass, Time, Volume};
use crate::source::{Equation, Provenance, Source};

/// What is done at a spring whose water flows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlowingSpring {
    /// Overflow closed, supply off: the water stays in the box, which rises by what the inflow brings.
    Isolated,
    /// The overflow runs: chlorine is fed all through the hold.
    Feed,
    /// Nothing is planned until somebody has said which of the two it is.
    HoldBack,
}

impl FlowingSpring {
    /// Every choice, in the order in which they are offered to whoever must choose.
    pub const ALL: [Self; 3] = [Self::Isolated, Self::Feed, Self::HoldBack];

    /// The word in scenario files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Isolated => "isolated",
            Self::Feed => "feed",
            Self::HoldBack => "hold_back",
        }
    }

    /// The choice with this word.
    pub fn by_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|choice| choice.name() == name)
    }
}

/// The share of a box replaced during the hold above which it is no tank any more: a tenth, so that what is lost stays
/// within what a test strip shows. Common practice, no source.
pub const CONSIDERABLE_TURNOVER: f64 = 0.10;

const MILITARY_HANDBOOK: Source = Source {
    citation: "MIL-HDBK-1164, Operation and maintenance of water supply systems, US Department of Defense",
    locator: "p. 27, Disinfecting Springs: shut the flow off and keep the chlorine in for 24 hours; where it cannot be shut \
              off, go on for as long as practical",
    provenance: Provenance::Seen,
};
const OREGON: Source = Source {
    citation: "Oregon Health Authority, Drinking Water Services, start-up disinfection of seasonal systems",
    locator: "close the overflow, test, top up to 50 mg/L",
    provenance: Provenance::Seen,
};

/// Share of a box replaced during the hold.
pub const TURNOVER: Equation = Equation {
    id: "Q1",
    name: "Turnover of a flowing spring during the hold",
    statement: "x = Q t / V",
    symbols: &[
        ("x", "1", "volumes that flow through during the hold"),
        ("Q", "m3/s", "inflow of the spring, its yield"),
        ("t", "s", "hold"),
        ("V", "m3", "standing volume of the box"),
    ],
    validity: "steady inflow; from a tenth on the box is not counted as a tank",
    sources: &[Source { citation: "mass balance", locator: "", provenance: Provenance::Derived }],
    checks: &["chemistry::a_spring_turns_over_as_the_clock_says"],
};

/// Volumes of the box that flow through it during the hold.
///
/// `x = Q t / V`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | x | 1 | volumes that flow through during the hold |
/// | Q | m3/s | inflow of the spring, its yield |
/// | t | s | hold |
/// | V | m3 | standing volume of the box |
///
/// Source: mass balance.
pub fn turnover(inflow: VolumeRate, hold: Time, standing: Volume) -> f64 {
    (inflow * hold / standing).value
}

/// Water of an isolated spring box.
pub const ISOLATED_VOLUME: Equation = Equation {
    id: "Q2",
    name: "Water in a spring box whose overflow is closed",
    statement: "V_s = V + min(Q t, r V)",
    symbols: &[
        ("V_s", "m3", "water that is treated in the box"),
        ("V", "m3", "standing volume, up to the overflow"),
        ("Q", "m3/s", "inflow"),
        ("t", "s", "hold"),
        ("r", "1", "rise: room above the overflow, as a share of the standing volume, stated by the practice"),
    ],
    validity: "the box fills to its cover and the spring then stops against it; water that finds another way out takes \
               chlorine along and is not counted: test during the hold, top up",
    sources: &[OREGON, MILITARY_HANDBOOK],
    checks: &["chemistry::a_closed_box_fills_and_no_more"],
};

/// Water in a spring box whose overflow is closed: what stood there and what the inflow adds until the box is full. Dosing
/// it keeps the target in spite of the dilution.
///
/// `V_s = V + min(Q t, r V)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | V_s | m3 | water that is treated in the box |
/// | V | m3 | standing volume, up to the overflow |
/// | Q | m3/s | inflow |
/// | t | s | hold |
/// | r | 1 | rise: room above the overflow, as a share of the standing volume |
///
/// Water that finds another way out is not counted. Source: Oregon Health Authority; MIL-HDBK-1164, p. 27.
pub fn isolated_volume(standing: Volume, inflow: VolumeRate, hold: Time, rise: f64) -> Volume {
    standing + (inflow * hold).min(rise * standing)
}

/// Chlorine fed to a flowing spring.
pub const SPRING_FEED: Equation = Equation {
    id: "Q3",
    name: "Chlorine fed to a flowing spring over the hold",
    statement: "M = D Q t",
    symbols: &[
        ("M", "kg", "chlorine fed during the hold, as Cl2, beside the dose for the standing water"),
        ("D", "mg/L as Cl2", "dose: target and demand"),
        ("Q", "m3/s", "inflow, which leaves by the overflow at the dose"),
        ("t", "s", "time of feeding: the hold for all of it, an hour for the rate"),
    ],
    validity: "steady inflow, well mixed; the standing water is dosed at the start",
    sources: &[
        Source {
            citation: "Sample calculations: chlorine feed rate (operator training sheet, scribd.com/document/435780919)",
            locator: "mg/L x flow = mass per day",
            provenance: Provenance::Seen,
        },
        MILITARY_HANDBOOK,
    ],
    checks: &["SPRI-001", "SPRI-002"],
};

/// Chlorine to feed to a flowing spring over a time, so that what flows in has the dose.
///
/// `M = D Q t`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | M | kg | chlorine fed during the time, as Cl2 |
/// | D | mg/L as Cl2 | dose: target and demand |
/// | Q | m3/s | inflow, which leaves by the overflow at the dose |
/// | t | s | time of feeding |
///
/// Source: mass balance, as operators' sheets print it per day.
pub fn fed(dose: ChlorineConcentration, inflow: VolumeRate, time: Time) -> ChlorineMass {
    dose * (inflow * time)
}
