//! Lists checked and nothing planned: findings, counts, and what the data are worth.

use std::collections::BTreeMap;

use super::Listener;
use super::admitting::Rules;
use super::pass::{Judged, Pass};
use super::quality::Quality;
use super::tally::FloodTally;
use crate::checks::OtherRows;
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::finding::Code;
use crate::inventory::Inventory;
use crate::kernel::requirement::Practice;
use crate::kernel::volume::standing_volume;
use crate::place::Origin;
use crate::quantity::liters;
use crate::rollup::resting::{Resting, Rests};
use crate::visit::Visit;

/// What a check without scenarios came to.
#[derive(Debug, Default)]
pub struct Checked {
    /// Rows of all lists: those that can be planned, would be held back, are excluded or are not wells.
    pub read: u64,
    /// Rows that can be planned.
    pub admitted: u64,
    /// Rows that would be held back.
    pub held_back: u64,
    /// Visits that a rule of the scenario file leaves out.
    pub excluded: u64,
    /// Rows that are not wells.
    pub other_rows: OtherRows,
    /// Rows that can be planned with an assumption.
    pub assumed: u64,
    /// The same rows by what is assumed of them; their water is what stands in them.
    pub resting: Resting,
    /// What the lists say of the flood at those that can be planned.
    pub flood: FloodTally,
    /// How often each finding was made, by code.
    pub finding_counts: BTreeMap<Code, u64>,
    /// What came of the rows of each list, in reading order.
    pub lists: Vec<(Origin, Outcomes)>,
    /// What the data are worth; volumes are those of the standing water.
    pub quality: Quality,
}

/// What came of the rows of a list.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Outcomes {
    /// Rows that can be planned.
    pub planned: u64,
    /// Rows that would be held back.
    pub held_back: u64,
    /// Visits that a rule leaves out.
    pub excluded: u64,
    /// Rows that are not wells.
    pub not_wells: u64,
}

impl Checked {
    /// Adds what came of a batch, which is of one list.
    fn absorb(&mut self, batch: Outcome) {
        let Outcome { origin, counts, assumed, resting, flood, quality, .. } = batch;
        self.admitted += counts.planned;
        self.held_back += counts.held_back;
        self.excluded += counts.excluded;
        self.assumed += assumed;
        self.resting.merge(&resting);
        self.flood.absorb(flood);
        self.quality.absorb(quality);
        let Some(origin) = origin else { return };
        match self.lists.last_mut().filter(|(last, _)| *last == origin) {
            Some((_, list)) => list.add(counts),
            None => self.lists.push((origin, counts)),
        }
    }
}

impl Outcomes {
    fn add(&mut self, other: Self) {
        self.planned += other.planned;
        self.held_back += other.held_back;
        self.excluded += other.excluded;
        self.not_wells += other.not_wells;
    }
}

/// What came of the rows of a batch.
struct Outcome {
    origin: Option<Origin>,
    counts: Outcomes,
    assumed: u64,
    resting: Resting,
    flood: FloodTally,
    quality: Quality,
    /// Standing water in liters by row, where somebody asks for it.
    water: Vec<(u32, f64)>,
}

impl Outcome {
    fn of(judged: Judged, wants_water: bool) -> Self {
        let Judged { origin, visits, rows, others, mut quality, marks, .. } = judged;
        let mut counts = Outcomes { not_wells: others, ..Outcomes::default() };
        let mut water = Vec::new();
        let (mut assumed, mut resting) = (0, Resting::default());
        let mut flood = FloodTally::default();
        for (visit, row) in visits.iter().zip(rows) {
            match visit {
                Visit::Planned { well, .. } => {
                    counts.planned += 1;
                    flood.take(well);
                    assumed += u64::from(!visit.assumed().is_empty());
                    let standing = liters(standing_volume(&well.standing_water));
                    resting.add(Rests::of(visit), standing);
                    quality.planned(&marks, row, well, standing);
                    water.extend(visit.row().row.filter(|_| wants_water).map(|row| (row, standing)));
                }
                Visit::HeldBack { .. } => counts.held_back += 1,
                Visit::Excluded { .. } => counts.excluded += 1,
            }
        }
        Self { origin, counts, assumed, resting, flood, quality, water }
    }
}

/// Checks the lists without planning anything.
///
/// `overrides` are those of the scenario file, where there is one: some may leave visits out. `practices` tells how the
/// visits are treated on which a set of them holds: a spring that flows can be planned under a stated choice only.
///
/// # Errors
/// When a list cannot be read on.
pub fn check(
    inventory: &mut Inventory,
    rules: &ReadingRules,
    overrides: &Rules,
    practices: &(dyn Fn(u64) -> Vec<Practice> + Sync),
    listener: &mut dyn Listener,
) -> Result<Checked> {
    check_with_water(inventory, rules, overrides, practices, listener, None)
}

/// Who is told the standing water of a row that can be planned, in liters.
pub type Told<'a> = &'a mut dyn FnMut(&Origin, u32, f64);

/// The same, and tells the water of each row that can be planned.
///
/// # Errors
/// Those of [`check`].
pub fn check_with_water(
    inventory: &mut Inventory,
    rules: &ReadingRules,
    overrides: &Rules,
    practices: &(dyn Fn(u64) -> Vec<Practice> + Sync),
    listener: &mut dyn Listener,
    mut water: Option<Told<'_>>,
) -> Result<Checked> {
    let mut checked = Checked::default();
    let pass = Pass { rules, overrides, practices, rows_of_visit: 0, depots: &[] };
    let wants_water = water.is_some();
    let take = |batch: Outcome| {
        if let (Some(told), Some(origin)) = (&mut water, &batch.origin) {
            batch.water.iter().for_each(|(row, liters)| told(origin, *row, *liters));
        }
        checked.absorb(batch);
    };
    let passed = pass.go(inventory, listener, |judged| Ok(Outcome::of(judged, wants_water)), take, |()| Ok(()))?;
    passed.prove(checked.admitted, checked.held_back, checked.excluded)?;
    checked.read = passed.read;
    checked.other_rows = passed.other_rows;
    checked.finding_counts = passed.finding_counts;
    Ok(checked)
}
