//! Where the visits lie: points for a map, by depot and by what became of the visit.
//!
//! A map is read by eye, so a bounded number of points is kept, however long the lists are: where there are more, every
//! second visit is kept, then every fourth, and so on. Which ones depends on their place in reading order alone, never on
//! threads or batches.

use std::collections::BTreeMap;

use compact_str::CompactString;

/// How many points are kept at most: about what a printed map can show.
const MOST: usize = 6_000;

/// What became of a visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Computed: it has an amount in every scenario.
    Planned,
    /// It is held back.
    HeldBack,
    /// A rule leaves it out.
    Excluded,
}

/// One visit on the map.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    order: u64,
    /// Decimal degrees, north positive.
    pub latitude: f64,
    /// Decimal degrees, east positive.
    pub longitude: f64,
    /// Its depot as typed; empty where it has none.
    pub depot: CompactString,
    /// What became of it.
    pub state: State,
}

/// The visits that have coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct Sites {
    points: Vec<Site>,
    step: u64,
    with_place: BTreeMap<State, u64>,
    without_place: u64,
}

impl Default for Sites {
    fn default() -> Self {
        Self { points: Vec::new(), step: 1, with_place: BTreeMap::new(), without_place: 0 }
    }
}

impl Sites {
    /// Takes a visit; `order` counts in reading order.
    pub fn take(&mut self, order: u64, place: Option<(f64, f64)>, depot: &str, state: State) {
        let Some((latitude, longitude)) = place else {
            self.without_place += 1;
            return;
        };
        *self.with_place.entry(state).or_default() += 1;
        if order.is_multiple_of(self.step) {
            self.points.push(Site { order, latitude, longitude, depot: depot.into(), state });
            self.thin();
        }
    }

    /// Takes what a later batch kept.
    pub fn absorb(&mut self, later: Self) {
        self.step = self.step.max(later.step);
        self.points.extend(later.points);
        let step = self.step;
        self.points.retain(|site| site.order.is_multiple_of(step));
        self.thin();
        for (state, count) in later.with_place {
            *self.with_place.entry(state).or_default() += count;
        }
        self.without_place += later.without_place;
    }

    fn thin(&mut self) {
        while self.points.len() > MOST {
            self.step *= 2;
            let step = self.step;
            self.points.retain(|site| site.order.is_multiple_of(step));
        }
    }

    /// The points that are kept, in reading order.
    pub fn points(&self) -> &[Site] {
        &self.points
    }

    /// Every how many-th visit is kept.
    pub const fn step(&self) -> u64 {
        self.step
    }

    /// How many visits of a state have coordinates.
    pub fn with_place(&self, state: State) -> u64 {
        self.with_place.get(&state).copied().unwrap_or(0)
    }

    /// How many visits have none.
    pub const fn without_place(&self) -> u64 {
        self.without_place
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the batches, the same points stay.
    #[test]
    fn points_depend_on_reading_order_alone() {
        let visits = 50_000_u64;
        let of = |from: u64, to: u64| {
            let mut sites = Sites::default();
            for order in from..to {
                let place = (order % 7 != 0).then_some((order as f64 / 1e4, 1.0));
                sites.take(order, place, "North", State::Planned);
            }
            sites
        };
        let whole = of(0, visits);
        for batch in [1_000, 4_096, 30_000] {
            let mut merged = Sites::default();
            let mut from = 0;
            while from < visits {
                let to = (from + batch).min(visits);
                merged.absorb(of(from, to));
                from = to;
            }
            assert_eq!(merged, whole, "batches of {batch}");
        }
        assert!(whole.points().len() <= MOST && whole.points().len() > MOST / 4);
        assert_eq!(whole.with_place(State::Planned) + whole.without_place(), visits);
    }
}
