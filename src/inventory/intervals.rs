//! A table of casing intervals beside the list of wells: one row for each stretch of one diameter, joined by the id.
//!
//! Registers keep casings in such a child table (well, from, to, diameter). A table is one when it has an id, a from, a
//! to and a diameter, and neither depth nor level of its own. It is read at once and kept, sorted by depth. Refuses to
//! know how intervals make a volume.

mod layout;
mod read;

use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicBool, Ordering};

use super::identity::identity;
use super::table::Opened;
use crate::field::rules::ReadingRules;
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use layout::layout;
pub use read::read;

/// A stretch of casing or open hole as its row gives it, in metres; `None` where the row does not say.
#[derive(Debug, Clone, PartialEq)]
pub struct ListedInterval {
    /// Depth of the top.
    pub top: Option<f64>,
    /// Depth of the bottom.
    pub bottom: Option<f64>,
    /// Inside diameter, as a diameter of casing is read.
    pub diameter: Option<f64>,
    /// The row of the table, which findings point to.
    pub place: Place,
    /// Why it cannot be used, where it cannot.
    pub fault: Option<Box<Fault>>,
}

/// What makes an interval unusable: the cell, what was typed there, and what is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The cell to be corrected.
    pub place: Place,
    /// As typed; empty where nothing was.
    pub seen: Box<str>,
    /// What follows the words for the interval: `has no diameter`.
    pub says: &'static str,
}

/// What is listed for one id.
#[derive(Debug)]
struct Listing {
    id: Box<str>,
    rows: Vec<ListedInterval>,
    /// The deepest bottom in tables whose bottom is mapped to the depth of the well.
    depth: Option<f64>,
    /// Whether a row of the lists has this id.
    joined: AtomicBool,
}

/// Intervals of all wells, by the hash of the well's id.
#[derive(Debug, Default)]
pub struct Intervals {
    wells: HashMap<[u64; 2], Listing>,
    give_depths: bool,
}

impl Intervals {
    /// Whether no table of intervals was read.
    pub fn is_empty(&self) -> bool {
        self.wells.is_empty()
    }

    /// Whether the deepest interval of a well may stand for its depth.
    pub fn give_depths(&self) -> bool {
        self.give_depths
    }

    /// The intervals of a well, from the top down.
    pub fn of(&self, id: &str) -> &[ListedInterval] {
        self.listing(id).map_or(&[], |listing| listing.rows.as_slice())
    }

    /// The depth of a well by its deepest interval, in metres, where the campaign says that it may be taken so.
    pub fn depth_of(&self, id: &str) -> Option<f64> {
        self.listing(id)?.depth
    }

    /// Remembers that a row of the lists has this id.
    pub fn join(&self, id: &str) {
        if let Some(listing) = self.listing(id) {
            listing.joined.store(true, Ordering::Relaxed); // Only ever set; read when all rows are done.
        }
    }

    fn listing(&self, id: &str) -> Option<&Listing> {
        if self.wells.is_empty() {
            return None;
        }
        self.wells.get(&identity(id, ""))
    }

    /// Ids that no row of the lists has: one finding for each table. Known when everything is read.
    pub fn without_well(&self) -> Vec<Finding> {
        let mut all: BTreeMap<&Origin, usize> = BTreeMap::new();
        let mut lost: BTreeMap<&Origin, Vec<(&Place, &str)>> = BTreeMap::new();
        for listing in self.wells.values() {
            let mut tables: Vec<&Place> = Vec::new();
            for row in &listing.rows {
                match tables.iter_mut().find(|place| place.origin == row.place.origin) {
                    Some(first) => *first = (*first).min(&row.place),
                    None => tables.push(&row.place),
                }
            }
            for place in tables {
                *all.entry(&place.origin).or_default() += 1;
                if !listing.joined.load(Ordering::Relaxed) {
                    lost.entry(&place.origin).or_default().push((place, &listing.id));
                }
            }
        }
        let one = |(origin, mut ids): (&Origin, Vec<(&Place, &str)>)| {
            ids.sort_unstable();
            let few: Vec<&str> = ids.iter().take(EXAMPLES).map(|(_, id)| *id).collect();
            let rest =
                if ids.len() > few.len() { format!(" and {} more", ids.len() - few.len()) } else { String::new() };
            let says = format!(
                "not found in any list of wells: {} of the {} ids in this table ({}{rest})",
                ids.len(),
                all[origin],
                few.join(", ")
            );
            let help = "no action needed if the lists are only a part of the register; otherwise compare how ids are written in both";
            let first = ids.iter().take(EXAMPLES).map(|(place, id)| ((*place).clone(), (*id).into()));
            Finding::new(catalogue::INTERVALS_WITHOUT_WELL, Place::whole(origin), says, help).related(first.collect())
        };
        lost.into_iter().map(one).collect()
    }
}

/// How many ids are named where many have the same trouble.
const EXAMPLES: usize = 5;

/// Whether this table holds intervals and not wells.
pub fn is_intervals(table: &Opened, rules: &ReadingRules) -> bool {
    layout(table, rules).is_some()
}
