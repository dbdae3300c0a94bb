//! A crew's day with the visits that it makes.

use crate::schedule::Schedule;
use crate::visit::{CrewDay, TreatedVisit};

/// A crew's day and what it makes then.
pub(super) struct Outing<'a> {
    pub(super) day: &'a CrewDay,
    pub(super) visits: Vec<&'a TreatedVisit>,
}

/// The days all of whose visits are at hand, in their order; of the others something would be missing from the load.
pub(super) fn whole<'a>(schedule: &'a Schedule, kept: &'a [TreatedVisit]) -> Vec<Outing<'a>> {
    let mut outings: Vec<Outing<'a>> = schedule.days.iter().map(|day| Outing { day, visits: Vec::new() }).collect();
    for treated in kept {
        let outing = treated.visit.turn().and_then(|turn| outings.get_mut(turn.of.place));
        outing.into_iter().for_each(|outing| outing.visits.push(treated));
    }
    for outing in &mut outings {
        outing.visits.sort_by_key(|treated| treated.visit.turn().map(|turn| turn.stop));
    }
    outings.retain(|outing| outing.visits.len() == outing.day.stops as usize);
    outings
}
