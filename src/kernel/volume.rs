//! Water in the well: the cylinder, the standing volume by interval, and the volume that is treated.
//!
//! The first room of the chain. It takes the proven geometry of a well and refuses to know how it was measured.

use std::f64::consts::FRAC_PI_4;
use std::ops::{Add, Mul, Sub};

use crate::quantity::{Draw, Length, Volume};
use crate::source::{Equation, Provenance, Source};
use crate::well::{Interval, StandingWater, Well};

const GEOMETRY: Source = Source { citation: "geometry", locator: "", provenance: Provenance::Derived };
const MILITARY_HANDBOOK: Source = Source {
    citation: "MIL-HDBK-1164, Operation and maintenance of water supply systems, US Department of Defense",
    locator: "Table 1, US columns (the metric column is misprinted, see the register of disagreements)",
    provenance: Provenance::Seen,
};

/// A cylinder of water.
pub const CYLINDER: Equation = Equation {
    id: "V1",
    name: "Volume of a cylinder of water",
    statement: "V = (pi / 4) d^2 h",
    symbols: &[("V", "m3", "volume"), ("d", "m", "inside diameter"), ("h", "m", "height of the water")],
    validity: "any positive diameter and height; the drop pipe, pump and cable are not deducted",
    sources: &[GEOMETRY, MILITARY_HANDBOOK],
    checks: &["D001", "D002", "D003", "D004", "D005", "D080", "D351", "D378", "FLUS-002", "FLUS-004"],
};

/// Volume of a cylinder of water.
///
/// `V = (pi / 4) d^2 h`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | V | m3 | volume |
/// | d | m | inside diameter |
/// | h | m | height of the water |
///
/// Holds for any positive diameter and height. The drop pipe, pump and cable are not deducted, which errs towards more
/// chlorine. Source: geometry; printed per foot in MIL-HDBK-1164, Table 1.
pub fn cylinder(diameter: Length, height: Length) -> Volume {
    FRAC_PI_4 * diameter * diameter * height
}

/// Water standing in a well of several diameters.
pub const STANDING_VOLUME: Equation = Equation {
    id: "V2",
    name: "Standing volume",
    statement: "V = sum over i of (pi / 4) d_i^2 max(0, min(b_i, B) - max(t_i, L, 0))",
    symbols: &[
        ("V", "m3", "standing volume"),
        ("d_i", "m", "inside diameter of interval i"),
        ("t_i", "m", "depth of its top"),
        ("b_i", "m", "depth of its bottom"),
        ("L", "m", "depth of the resting water level, negative in a flowing well"),
        ("B", "m", "depth of the bottom of the well"),
    ],
    validity: "straight bores; a flowing well counts to the ground; water outside the casing is the allowance's matter",
    sources: &[GEOMETRY],
    checks: &["D352", "D361", "D375", "chemistry::standing_volume_splits"],
};

/// Water standing between the resting level (never above the ground) and the bottom.
///
/// `V = sum over i of (pi / 4) d_i^2 max(0, min(b_i, B) - max(t_i, L, 0))`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | V | m3 | standing volume |
/// | d_i | m | inside diameter of interval i |
/// | t_i, b_i | m | depth of its top and bottom |
/// | L | m | depth of the resting water level, negative in a flowing well |
/// | B | m | depth of the bottom of the well |
///
/// A height of water of one diameter is V1; a volume given outright stays as it is. Source: geometry.
pub fn standing_volume(water: &StandingWater) -> Volume {
    match water {
        StandingWater::Bore { water_level, bottom, intervals } => {
            let mut volume = Volume::default();
            for interval in intervals {
                volume += cylinder(interval.diameter, wetted(interval, *water_level, *bottom));
            }
            volume
        }
        StandingWater::Column { height, diameter } => cylinder(*diameter, *height),
        StandingWater::Volume { volume } => *volume,
    }
}

/// Height of standing water; `None` where only a volume is known.
pub fn water_column(water: &StandingWater) -> Option<Length> {
    match water {
        StandingWater::Bore { water_level, bottom, .. } => Some(*bottom - below_ground(*water_level)),
        StandingWater::Column { height, .. } => Some(*height),
        StandingWater::Volume { .. } => None,
    }
}

fn wetted(interval: &Interval, water_level: Length, bottom: Length) -> Length {
    let top = interval.top.max(below_ground(water_level));
    (interval.bottom.min(bottom) - top).max(Length::default())
}

/// Water above ground has left the well: it is not dosed.
fn below_ground(water_level: Length) -> Length {
    water_level.max(Length::default())
}

/// The water that stands in a well, in one reading: as it is described, or so far on the way from one description to another.
#[derive(Debug, Clone, Copy)]
pub struct Water<'a> {
    described: &'a StandingWater,
    toward: Option<(&'a StandingWater, f64)>,
    /// How much there is (V2).
    pub volume: Volume,
}

impl<'a> Water<'a> {
    /// As it is described.
    pub fn of(described: &'a StandingWater) -> Self {
        Self { described, toward: None, volume: standing_volume(described) }
    }

    /// By chance, between the least and the most water of a well: its volume is what is drawn, and all else goes with it.
    pub fn drawn(well: &'a Well, draw: Draw) -> Self {
        let standing = well.standing();
        let drawn = draw.of("standing_water", &well.id, standing.map(|water| standing_volume(water).value));
        let mut water = Self::of(standing.mid);
        water.toward = Some((drawn.toward.of(standing), drawn.share));
        water.volume = water.figure(standing_volume);
        water
    }

    /// A figure of it.
    pub fn figure<Q>(self, of: fn(&StandingWater) -> Q) -> Q
    where
        Q: Copy + Add<Output = Q> + Sub<Output = Q> + Mul<f64, Output = Q>,
    {
        let figure = of(self.described);
        self.toward.map_or(figure, |(other, share)| figure + (of(other) - figure) * share)
    }

    /// Height of standing water; `None` where only a volume is known.
    pub fn column(self) -> Option<Length> {
        water_column(self.described)?;
        Some(self.figure(|water| water_column(water).unwrap_or_default()))
    }
}

/// Water that is treated.
pub const TREATED_VOLUME: Equation = Equation {
    id: "V3",
    name: "Treated volume",
    statement: "V_t = max(a V + P, V_min)",
    symbols: &[
        ("V_t", "m3", "treated volume"),
        ("a", "1", "allowance for gravel pack and formation, at least 1"),
        ("V", "m3", "standing volume"),
        ("P", "m3", "plumbing, pressure tank, heater and storage treated with the well"),
        ("V_min", "m3", "least volume that is treated, where the practice states one"),
    ],
    validity: "allowance and least volume are stated by the practice; published allowances run from 1 to 2 casing volumes and \
               more",
    sources: &[
        Source {
            citation: "Water Wells (Agdex 716 A10), Alberta Agriculture",
            locator: "Module 6, p. 50: twice the casing volume",
            provenance: Provenance::Seen,
        },
        Source {
            citation: "COMAR 26.04.04.24 (Maryland)",
            locator: "two charges of at least 10 gal each",
            provenance: Provenance::Seen,
        },
    ],
    checks: &["D074", "D075", "D076", "D352"],
};

/// Standing volume with the allowance for gravel pack and formation, and the plumbing treated with the well; no less than the
/// least volume that the practice states.
///
/// `V_t = max(a V + P, V_min)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | V_t | m3 | treated volume |
/// | a | 1 | allowance for gravel pack and formation, at least 1 |
/// | V | m3 | standing volume |
/// | P | m3 | plumbing, pressure tank, heater and storage treated with the well |
/// | V_min | m3 | least volume that is treated, where the practice states one |
///
/// Published allowances run from 1 to 2 casing volumes and more. Source: Water Wells (Agdex 716 A10), Module 6, p. 50; a
/// minimum: COMAR 26.04.04.24, two charges of at least 10 gal.
pub fn treated_volume(standing: Volume, allowance: f64, plumbing: Volume, least: Option<Volume>) -> Volume {
    (allowance * standing + plumbing).max(least.unwrap_or_default())
}
