//! Calcium carbonate: whether the dosed water can cloud, and how far that would pull the pH down.
//!
//! Inventories give no calcium, so every answer is a range from no calcium to as much as the alkalinity could hold. Called
//! for `explain`, cautions and the analyst. It refuses to say which end of the range a well is at.

use super::carbonate::{CarbonateSystem, Solution, equivalents};
use super::constants::{CALCITE_CLOUDS, PLUMMER_BUSENBERG};
use super::effect::{Addition, RawWater};
use crate::quantity::basis::CarbonateConcentration;
use crate::source::Equation;

/// P3: how far a water is from dropping calcite; above zero it can fall out.
pub const CALCITE_SATURATION: Equation = Equation {
    id: "P3",
    name: "Saturation index of calcite",
    statement: "SI = log10([Ca] [CO3] g2^2 / K)",
    symbols: &[
        ("SI", "1", "saturation index; above zero calcite can fall out"),
        ("[Ca], [CO3]", "mol/L", "calcium and carbonate ion, free of pairs"),
        ("g2", "1", "activity coefficient of a double charge"),
        ("K", "mol2/L2", "solubility product of calcite"),
    ],
    validity: "0 to 60 C; pairs with sodium, magnesium and sulfate are not counted; calcite often stays dissolved to 0.3",
    sources: &[PLUMMER_BUSENBERG],
    checks: &["chemistry::calcite_agrees_with_the_oracle"],
};

/// Saturation with calcite after dosing, between no calcium in the water and as much as its alkalinity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalciteRange {
    /// Saturation index with only the calcium that the product brings; minus infinity where it brings none.
    pub least_index: f64,
    /// Saturation index with calcium equal to the alkalinity.
    pub greatest_index: f64,
    /// pH if nothing falls out, with only the calcium that the product brings.
    pub ph_clear: f64,
    /// pH once calcite has fallen out to saturation, with calcium equal to the alkalinity.
    pub ph_settled: f64,
}

impl CalciteRange {
    /// Whether the water may cloud and its pH fall: the greatest index is above 0.3.
    pub fn may_cloud(&self) -> bool {
        self.greatest_index > CALCITE_CLOUDS.value
    }
}

/// Saturation with calcite after dosing, for a calcium concentration (as CaCO3) before dosing.
///
/// `SI = log10([Ca] [CO3] g2^2 / K)`
///
/// | symbol | unit | meaning |
/// |---|---|---|
/// | SI | 1 | saturation index; above zero calcite can fall out |
/// | \[Ca\], \[CO3\] | mol/L | calcium and carbonate ion, free of pairs |
/// | g2 | 1 | activity coefficient of a double charge |
/// | K | mol2/L2 | solubility product of calcite |
///
/// \[Ca\] and \[CO3\] are what is free of ion pairs. Source: Plummer and Busenberg 1982.
pub fn saturation_index(
    system: &CarbonateSystem,
    water: &RawWater,
    addition: &Addition,
    calcium: CarbonateConcentration,
) -> f64 {
    let solution = addition.to(water.solution(system, 0.5 * equivalents(calcium)));
    index_and_ph(system, &solution).0
}

/// Saturation index and pH after dosing as ranges over the unknown calcium of the water.
pub fn calcite_range(system: &CarbonateSystem, water: &RawWater, addition: &Addition) -> CalciteRange {
    let (least_index, ph_clear) = index_and_ph(system, &water.dosed(system, addition));
    let hardest = addition.to(water.solution(system, 0.5 * equivalents(water.alkalinity)));
    let (greatest_index, ph_hardest) = index_and_ph(system, &hardest);
    let ph_settled = if greatest_index > 0.0 { settled_ph(system, &hardest) } else { ph_hardest };
    CalciteRange { least_index, greatest_index, ph_clear, ph_settled }
}

fn index_and_ph(system: &CarbonateSystem, solution: &Solution) -> (f64, f64) {
    let conditional = system.conditional(solution);
    let hydrogen = solution.hydrogen(&conditional);
    let free = conditional.free(solution.carbonate, solution.calcium, hydrogen);
    let carbonate = free.carbonate * conditional.shares(hydrogen).1 / conditional.sodium_pairing;
    // A double charge has four times the logarithm of a single one, and there are two of them.
    let activities = conditional.single.powi(8);
    ((free.calcium * carbonate * activities / system.calcite).log10(), -hydrogen.log10())
}

/// pH once calcite has fallen out to saturation; each mole takes two equivalents of alkalinity and one of carbonate.
fn settled_ph(system: &CarbonateSystem, solution: &Solution) -> f64 {
    let (mut least, mut most) = (0.0, solution.calcium.min(solution.carbonate));
    let mut ph = index_and_ph(system, solution).1;
    for _ in 0..60 {
        let fallen = 0.5 * (least + most);
        let mut left = *solution;
        left.alkalinity -= 2.0 * fallen;
        left.carbonate -= fallen;
        left.calcium -= fallen;
        let (index, ph_now) = index_and_ph(system, &left);
        ph = ph_now;
        if index > 0.0 {
            least = fallen;
        } else {
            most = fallen;
        }
    }
    ph
}
