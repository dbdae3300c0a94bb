//! A first reading of the lists, for what cannot be known row by row: the latest visit of each well, and what the list's
//! own wells of one type and region usually measure.
//!
//! Only done when the campaign asks for it, because it reads everything twice. The result does not depend on the order of
//! rows: visits are compared by what they say, and values are counted, not sampled.

use std::collections::hash_map::Entry;
use std::collections::{BTreeMap, HashMap};

use super::identity::identity;
use crate::field::rules::{ReadingRules, RepeatPolicy};
use crate::field::{Field, WellType};
use crate::place::{Origin, Place};
use crate::quantity::Band;

/// Fewer wells than this say nothing about the others.
pub const FEWEST_WELLS: u64 = 10;

/// Values are counted to this fraction of the SI unit: a nanometre, a microlitre.
const GRAIN: f64 = 1e-9;

/// How often each value occurs.
type Counts = BTreeMap<i64, u64>;

/// What a first reading gave.
#[derive(Debug, Default)]
pub struct Survey {
    /// By the hash of the well's id: the latest visit.
    latest: HashMap<[u64; 2], Latest>,
    /// By type, field and region; the empty region is the whole list.
    counts: HashMap<(WellType, Field, Box<str>), Counts>,
    /// The same in the end: by type and field, then by region.
    drawn: HashMap<(WellType, Field), HashMap<Box<str>, Drawn>>,
}

#[derive(Debug, Clone)]
struct Latest {
    visit: Box<str>,
    place: Place,
}

/// A value drawn from the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// 10th, 50th and 90th centile.
    pub values: Band<f64>,
    /// Of how many wells.
    pub wells: u64,
    /// Whether they are those of the same region, or of the whole list.
    pub regional: bool,
}

/// Whether the rules ask for a first reading.
pub fn is_needed(rules: &ReadingRules) -> bool {
    rules.repeats == RepeatPolicy::Latest || !rules.drawn.is_empty()
}

impl Survey {
    /// Takes a visit of a well into account: of equal visits the later row counts.
    pub fn visit(&mut self, id: &str, visit: &str, place: Place) {
        let visit: Box<str> = visit.into();
        match self.latest.entry(identity(id, "")) {
            Entry::Vacant(free) => {
                free.insert(Latest { visit, place });
            }
            Entry::Occupied(mut taken) => {
                if !is_before(&visit, &taken.get().visit) {
                    taken.insert(Latest { visit, place });
                }
            }
        }
    }

    /// Counts a value in SI, for the whole list and for its region; what is not plausible says nothing of other wells.
    pub fn value(&mut self, well_type: WellType, field: Field, value: f64, region: Option<&str>) {
        let Some(quantity) = field.quantity() else { return };
        let Some(unit) = crate::quantity::unit::by_symbol(quantity.unit) else { return };
        if !(quantity.plausible.0..=quantity.plausible.1).contains(&unit.from_si(value)) {
            return;
        }
        let grain = (value / GRAIN).round() as i64;
        for region in ["", region.unwrap_or_default()].into_iter().take(1 + usize::from(region.is_some())) {
            *self.counts.entry((well_type, field, region.into())).or_default().entry(grain).or_insert(0) += 1;
        }
    }

    /// The later visit of the same well, if the one of this row is not its latest.
    pub fn superseded_by(&self, id: &str, origin: &Origin, row: u32) -> Option<&Place> {
        let latest = self.latest.get(&identity(id, ""))?;
        let here = latest.place.row == Some(row) && latest.place.origin == *origin;
        (!here).then_some(&latest.place)
    }

    /// What the list's own wells of this type measure: those of the region if there are enough, else all.
    pub fn drawn(&self, well_type: WellType, field: Field, region: Option<&str>) -> Option<Drawn> {
        let by_region = self.drawn.get(&(well_type, field))?;
        let regional = region.filter(|region| !region.is_empty()).and_then(|region| by_region.get(region));
        regional.or_else(|| by_region.get("")).copied()
    }

    /// Ends the first reading: counts become centiles.
    pub fn finish(&mut self) {
        for ((well_type, field, region), counts) in self.counts.drain() {
            let wells: u64 = counts.values().sum();
            if wells < FEWEST_WELLS {
                continue;
            }
            let values = Band {
                low: centile(&counts, wells, 10),
                mid: centile(&counts, wells, 50),
                high: centile(&counts, wells, 90),
            };
            let drawn = Drawn { values, wells, regional: !region.is_empty() };
            self.drawn.entry((well_type, field)).or_default().insert(region, drawn);
        }
    }
}

/// The least value that `share` of a hundred wells do not exceed.
fn centile(counts: &Counts, wells: u64, share: u64) -> f64 {
    let wanted = (wells * share).div_ceil(100).max(1);
    let mut seen = 0;
    for (grain, count) in counts {
        seen += count;
        if seen >= wanted {
            return *grain as f64 * GRAIN;
        }
    }
    0.0
}

/// Whether one visit comes before another: as numbers where both are, else as text, which is right for ISO dates.
fn is_before(a: &str, b: &str) -> bool {
    match (a.parse::<f64>(), b.parse::<f64>()) {
        (Ok(a), Ok(b)) => a < b,
        _ => a < b,
    }
}
