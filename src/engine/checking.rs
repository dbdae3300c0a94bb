//! Lists checked and nothing planned: findings, counts, and what the data are worth.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::admitting::{Admitted, Rules, admit_all};
use super::names::Names;
use super::quality::Quality;
use super::rounds::{read_round, share_read};
use super::{Listener, closing};
use crate::checks::{Identities, OtherRows};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding};
use crate::inventory::{Batch, Draft, Inventory};
use crate::kernel::requirement::Practice;
use crate::kernel::volume::standing_volume;
use crate::place::Origin;
use crate::quantity::liters;
use crate::visit::Visit;

/// What a check without scenarios came to.
#[derive(Debug, Default)]
pub struct Checked {
    /// Rows read.
    pub read: u64,
    /// Rows that can be planned.
    pub admitted: u64,
    /// Rows that would be held back.
    pub held_back: u64,
    /// Visits that a rule of the scenario file leaves out.
    pub excluded: u64,
    /// Rows that are no wells.
    pub other_rows: OtherRows,
    /// Rows that can be planned with an assumption.
    pub assumed: u64,
    /// Rows that can be planned and give no discharge route; they are among those with an assumption.
    pub without_route: u64,
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
    /// Rows that are no wells.
    pub not_wells: u64,
}

impl Checked {
    /// Adds what came of a batch, which is of one list.
    fn count_list(&mut self, origin: Option<Origin>, admitted: &Admitted) {
        let Some(origin) = origin else { return };
        if self.lists.last().is_none_or(|(last, _)| *last != origin) {
            self.lists.push((origin, Outcomes::default()));
        }
        let Some((_, list)) = self.lists.last_mut() else { return };
        list.not_wells += admitted.others.len() as u64;
        for visit in &admitted.visits {
            match visit {
                Visit::Planned { .. } => list.planned += 1,
                Visit::HeldBack { .. } => list.held_back += 1,
                Visit::Excluded { .. } => list.excluded += 1,
            }
        }
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
    let mut checked = Checked::default();
    let count = |findings: &[Finding], checked: &mut Checked| {
        for finding in findings {
            *checked.finding_counts.entry(finding.code).or_default() += 1;
        }
    };
    count(inventory.file_findings(), &mut checked);
    listener.findings(inventory.file_findings())?;
    let mut identities = Identities::new(rules);
    let mut names = Names::default();
    loop {
        let round = read_round(inventory, 0)?;
        if round.is_empty() {
            let closing = closing(inventory, &checked.other_rows, names.findings(&[]));
            count(&closing, &mut checked);
            listener.findings(&closing)?;
            let others = checked.other_rows.count();
            if checked.admitted + checked.held_back + checked.excluded + others != checked.read {
                return Err(Error::Internal(format!("of {} rows read some came to nothing", checked.read)));
            }
            return Ok(checked);
        }
        let mut drafts: Vec<Vec<Draft>> = round.par_iter().map(Batch::drafts).collect();
        drafts.iter_mut().for_each(|batch| {
            identities.check(batch);
            names.take(batch);
        });
        let admitted: Vec<(u64, Option<Origin>, Admitted, Quality)> = drafts
            .into_par_iter()
            .map(|batch| {
                let (mut quality, marks) = Quality::of(&batch);
                let read = batch.len() as u64;
                let origin = batch.first().map(|draft| draft.origin().clone());
                let mut admitted = admit_all(batch, rules, overrides)?;
                admitted.hold_back_springs(practices);
                for (at, visit) in admitted.rows.iter().zip(&admitted.visits) {
                    if let Some(well) = visit.well() {
                        quality.planned(&marks, *at, well, liters(standing_volume(&well.standing_water)));
                    }
                }
                Ok((read, origin, admitted, quality))
            })
            .collect::<Result<_>>()?;
        for (read, origin, admitted, quality) in admitted {
            checked.read += read;
            checked.count_list(origin, &admitted);
            for visit in &admitted.visits {
                match visit {
                    Visit::Planned { well, assumed, .. } => {
                        checked.admitted += 1;
                        checked.without_route += u64::from(well.discharge_route.is_none());
                        checked.assumed += u64::from(!assumed.is_empty());
                    }
                    Visit::HeldBack { .. } => checked.held_back += 1,
                    Visit::Excluded { .. } => checked.excluded += 1,
                }
            }
            admitted.others.into_iter().for_each(|row| checked.other_rows.take(row));
            checked.quality.absorb(quality);
            count(&admitted.findings, &mut checked);
            listener.findings(&admitted.findings)?;
        }
        listener.progress(checked.read, share_read(inventory));
    }
}
