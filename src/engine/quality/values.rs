//! The values of one field in bounded memory: least, middle and greatest, the most frequent ones, and how many are round.
//!
//! Everything is a count, so the same list gives the same answer on any number of threads. Values are counted exactly while
//! there are few different ones; of more, the most frequent are kept (their counts are then lower bounds), and the middle is
//! that of a histogram whose steps are half a per cent wide.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Different values that are counted on their own.
const KEPT: usize = 512;

/// Bits of the fraction that stay in a step of the histogram: 128 steps from one power of two to the next.
const STEP_BITS: u32 = 52 - 7;

/// A hasher for keys that are numbers already: quick, the same on every machine.
#[derive(Debug, Default, Clone, Copy)]
pub(super) struct Fold(u64);

impl Hasher for Fold {
    fn finish(&self) -> u64 {
        self.0
    }
    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.write_u64(u64::from(*byte)));
    }
    fn write_u64(&mut self, value: u64) {
        let mixed = (self.0 ^ value).wrapping_mul(0x9E37_79B9_7F4A_7C15);
        self.0 = mixed ^ (mixed >> 32);
    }
}

type Counts = HashMap<u64, u64, BuildHasherDefault<Fold>>;

/// Counts keys of one batch at a time; its memory is used again, which is most of what makes it quick.
pub(super) struct Counter {
    /// Key and count; a count of zero is a free place. A power of two, at least twice the keys.
    places: Vec<(u64, u64)>,
    used: Vec<u32>,
}

impl Counter {
    /// For so many keys at most.
    pub(super) fn new(keys: usize) -> Self {
        Self { places: vec![(0, 0); (keys * 2).next_power_of_two().max(16)], used: Vec::new() }
    }

    /// Keys with their counts, in order of first appearance.
    pub(super) fn count(&mut self, keys: impl Iterator<Item = u64>) -> Vec<(u64, u64)> {
        let mask = self.places.len() - 1;
        for key in keys {
            let mut hash = Fold::default();
            hash.write_u64(key);
            let mut at = hash.finish() as usize & mask;
            loop {
                let place = &mut self.places[at];
                if place.1 == 0 {
                    *place = (key, 1);
                    self.used.push(at as u32);
                    break;
                }
                if place.0 == key {
                    place.1 += 1;
                    break;
                }
                at = (at + 1) & mask;
            }
        }
        self.used.drain(..).map(|at| std::mem::take(&mut self.places[at as usize])).collect()
    }
}

/// The most frequent of many keys.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Tops {
    counts: Counts,
    /// Whether some keys were dropped, so that counts are lower bounds.
    dropped: bool,
}

impl Tops {
    /// The tops of exact counts.
    pub(super) fn of(counts: Vec<(u64, u64)>) -> Self {
        let (counts, dropped) = most_frequent(counts, KEPT);
        Self { counts: counts.into_iter().collect(), dropped }
    }

    pub(super) fn merge(&mut self, other: &Self) {
        self.dropped |= other.dropped;
        for (key, count) in &other.counts {
            *self.counts.entry(*key).or_default() += count;
        }
        // Trimmed to half, so that it is not done for every batch.
        if self.counts.len() > 2 * KEPT {
            let (counts, dropped) = most_frequent(self.counts.drain().collect(), KEPT);
            self.counts.extend(counts);
            self.dropped |= dropped;
        }
    }

    /// Keys with their counts, the most frequent first.
    pub(super) fn in_order(&self) -> Vec<(u64, u64)> {
        let mut order: Vec<(u64, u64)> = self.counts.iter().map(|(key, count)| (*key, *count)).collect();
        order.sort_unstable_by_key(|(key, count)| (std::cmp::Reverse(*count), *key));
        order
    }

    pub(super) fn is_exact(&self) -> bool {
        !self.dropped
    }
}

/// The most frequent keys, in no order, and whether others were dropped; of equal ones the smaller key stays.
fn most_frequent(mut counts: Vec<(u64, u64)>, keep: usize) -> (Vec<(u64, u64)>, bool) {
    let dropped = counts.len() > keep;
    if dropped {
        counts.select_nth_unstable_by_key(keep, |(key, count)| (std::cmp::Reverse(*count), *key));
        counts.truncate(keep);
    }
    (counts, dropped)
}

/// The values of one field.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Values {
    pub(super) count: u64,
    pub(super) least: f64,
    pub(super) greatest: f64,
    /// Values that could end in 0, counted in the list's own unit.
    pub(super) whole: u64,
    /// Those of them that do.
    pub(super) tens: u64,
    tops: Tops,
    steps: HashMap<i64, u64, BuildHasherDefault<Fold>>,
}

impl Default for Values {
    fn default() -> Self {
        Self {
            count: 0,
            least: f64::INFINITY,
            greatest: f64::NEG_INFINITY,
            whole: 0,
            tens: 0,
            tops: Tops::default(),
            steps: HashMap::default(),
        }
    }
}

impl Values {
    /// Values with how often each occurs; `in_unit` makes the list's own number of an SI value.
    pub(super) fn of(counts: Vec<(u64, u64)>, in_unit: impl Fn(f64) -> f64) -> Self {
        let mut values = Self::default();
        for (bits, count) in &counts {
            let value = f64::from_bits(*bits);
            values.count += count;
            values.least = values.least.min(value);
            values.greatest = values.greatest.max(value);
            *values.steps.entry(step(value)).or_default() += count;
            let written = in_unit(value) / 10.0;
            if written >= 1.0 {
                values.whole += count;
                if (written - written.round()).abs() < 1e-7 {
                    values.tens += count;
                }
            }
        }
        values.tops = Tops::of(counts);
        values
    }

    pub(super) fn merge(&mut self, other: &Self) {
        self.count += other.count;
        self.least = self.least.min(other.least);
        self.greatest = self.greatest.max(other.greatest);
        self.whole += other.whole;
        self.tens += other.tens;
        self.tops.merge(&other.tops);
        for (step, count) in &other.steps {
            *self.steps.entry(*step).or_default() += count;
        }
    }

    /// The middle value (the lower one of two), exact while all values are counted on their own.
    pub(super) fn median(&self) -> f64 {
        let wanted = self.count.div_ceil(2);
        let mut seen = 0;
        if self.tops.is_exact() {
            let mut values: Vec<(f64, u64)> =
                self.tops.counts.iter().map(|(bits, count)| (f64::from_bits(*bits), *count)).collect();
            values.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
            for (value, count) in values {
                seen += count;
                if seen >= wanted {
                    return value;
                }
            }
            return f64::NAN;
        }
        let mut steps: Vec<(i64, u64)> = self.steps.iter().map(|(step, count)| (*step, *count)).collect();
        steps.sort_unstable();
        for (step, count) in steps {
            seen += count;
            if seen >= wanted {
                return middle(step).clamp(self.least, self.greatest);
            }
        }
        f64::NAN
    }

    /// The most frequent value and how often it occurs, at least.
    pub(super) fn most_frequent(&self) -> Option<(f64, u64)> {
        self.tops.in_order().first().map(|(bits, count)| (f64::from_bits(*bits), *count))
    }
}

/// The step of the histogram in which a value lies; steps are in the order of their values.
fn step(value: f64) -> i64 {
    let magnitude = (value.abs().to_bits() >> STEP_BITS) as i64 + 1;
    if value == 0.0 {
        0
    } else if value < 0.0 {
        -magnitude
    } else {
        magnitude
    }
}

/// The middle of a step.
fn middle(step: i64) -> f64 {
    if step == 0 {
        return 0.0;
    }
    let low = ((step.unsigned_abs() - 1) << STEP_BITS) | (1 << (STEP_BITS - 1));
    f64::from_bits(low).copysign(step as f64)
}
