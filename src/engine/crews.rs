//! A reading of the lists ahead of the plan, for who makes which visit when: that needs the places of all visits at once.

use super::pass::{Judged, Pass};
use super::{Listener, Plan};
use crate::error::Result;
use crate::field::Field;
use crate::finding::Finding;
use crate::inventory::Inventory;
use crate::schedule::{Gathered, Schedule};
use crate::visit::{Asked, Visit};

/// What this reading finds, the next one tells.
struct Silent;

impl Listener for Silent {
    fn findings(&mut self, _: &[Finding]) -> Result<()> {
        Ok(())
    }

    fn progress(&mut self, _: u64, _: f64) {}
}

/// A visit that can be planned: its place among all, its depot and where it lies.
type Found = (u64, Box<str>, Option<(f64, f64)>);

fn found(judged: Judged) -> Vec<Found> {
    let visits = (judged.first..).zip(&judged.visits);
    let planned = visits.filter(|(_, visit)| matches!(visit, Visit::Planned { .. }));
    let place = |visit: &Visit| visit.si_value(Field::Latitude).zip(visit.si_value(Field::Longitude));
    planned.map(|(at, visit)| (at, visit.depot().into(), place(visit))).collect()
}

impl Plan<'_> {
    /// Gives each visit that can be planned to a day of the campaign's crews; the lists are read for it, and once more to plan.
    ///
    /// # Errors
    /// When a list cannot be read on.
    pub fn send_crews(&mut self, inventory: &mut Inventory) -> Result<()> {
        let depots = self.campaign.stated_depots();
        let mut gathered = Gathered::default();
        let pass = Pass {
            rules: &self.campaign.rules,
            overrides: &self.overrides,
            practices: &|mask| self.practices(mask),
            rows_of_visit: 0,
            depots: &depots,
        };
        let take = |visits: Vec<Found>| {
            visits.into_iter().for_each(|(at, depot, place)| gathered.take(at, &depot, place));
        };
        pass.go(inventory, &mut Silent, |judged| Ok(found(judged)), take, |()| Ok(()))?;
        self.schedule = Some(Schedule::of(&self.campaign.crews, gathered, &depots));
        Ok(())
    }
}
