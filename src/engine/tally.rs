//! Counts of a run beside its sums: what is reported of the sites, and what the lists leave to the practice.

use crate::field::Field;
use crate::hazard::{COUNT, Hazard};
use crate::kernel::demand;
use crate::kernel::requirement::Requirement;
use crate::visit::Visit;
use crate::well::Well;

/// How many visits report a hazard, and for how many the list does not say what the practice then says instead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    hazards: [u64; COUNT],
    /// Planned visits without a volume of plumbing.
    pub without_plumbing: u64,
    /// Planned visits of which nothing was measured that uses up chlorine.
    pub without_demand: u64,
    /// Planned visits whose pH after dosing is computed without a measured water temperature.
    pub without_temperature: u64,
    /// What the lists say of the flood at the planned visits.
    pub flood: FloodTally,
}

/// How many planned visits the lists call not flooded, and of how many they say nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FloodTally {
    /// Wells that flood water did not stand over.
    pub dry: u64,
    /// Wells of which nothing is said.
    pub unsaid: u64,
}

impl FloodTally {
    /// Counts a planned well.
    pub(super) fn take(&mut self, well: &Well) {
        let flooded = well.flag(Field::Flooded);
        self.dry += u64::from(flooded == Some(false));
        self.unsaid += u64::from(flooded.is_none());
    }

    /// Adds the counts of others.
    pub(super) fn absorb(&mut self, other: Self) {
        self.dry += other.dry;
        self.unsaid += other.unsaid;
    }
}

impl Tally {
    /// Counts what a visit reports, planned or held back; to one that is left out nobody goes.
    pub(super) fn visit(&mut self, visit: &Visit) {
        if matches!(visit, Visit::Excluded { .. }) {
            return;
        }
        for entry in visit.hazards().iter() {
            self.hazards[entry.hazard as usize] += 1;
        }
    }

    /// Counts what the list does not say of a planned well.
    pub(super) fn planned(&mut self, well: &Well, need: &Requirement) {
        self.without_plumbing += u64::from(well.plumbing_volume.is_none());
        self.without_demand += u64::from(demand::least_demand(&well.water).is_none());
        self.without_temperature += u64::from(need.ph_after.is_some() && well.water.temperature.is_none());
        self.flood.take(well);
    }

    /// How many visits report a hazard.
    pub const fn of(&self, hazard: Hazard) -> u64 {
        self.hazards[hazard as usize]
    }

    /// Adds the counts of another batch.
    pub(super) fn absorb(&mut self, other: &Self) {
        for (mine, theirs) in self.hazards.iter_mut().zip(other.hazards) {
            *mine += theirs;
        }
        self.without_plumbing += other.without_plumbing;
        self.without_demand += other.without_demand;
        self.without_temperature += other.without_temperature;
        self.flood.absorb(other.flood);
    }
}
