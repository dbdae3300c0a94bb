//! Lists checked and nothing planned: findings, counts, and what the data are worth.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::admitting::{Admitted, Rules, admit_all};
use super::outcome::Visit;
use super::quality::Quality;
use super::{Listener, closing, read_round, share_read};
use crate::checks::{Identities, OtherRows};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding};
use crate::inventory::{Batch, Draft, Inventory};
use crate::kernel::volume::standing_volume;
use crate::quantity::liters;

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
    /// What the data are worth; volumes are those of the standing water.
    pub quality: Quality,
}

/// Checks the lists without planning anything.
///
/// `overrides` are those of the scenario file, where there is one: some may leave visits out.
///
/// # Errors
/// When a list cannot be read on.
pub fn check(
    inventory: &mut Inventory,
    rules: &ReadingRules,
    overrides: &Rules,
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
    loop {
        let round = read_round(inventory)?;
        if round.is_empty() {
            let closing = closing(inventory, &checked.other_rows);
            count(&closing, &mut checked);
            listener.findings(&closing)?;
            let others = checked.other_rows.count();
            if checked.admitted + checked.held_back + checked.excluded + others != checked.read {
                return Err(Error::Internal(format!("of {} rows read some came to nothing", checked.read)));
            }
            return Ok(checked);
        }
        let mut drafts: Vec<Vec<Draft>> = round.par_iter().map(Batch::drafts).collect();
        drafts.iter_mut().for_each(|batch| identities.check(batch));
        let admitted: Vec<(u64, Admitted, Quality)> = drafts
            .into_par_iter()
            .map(|batch| {
                let (mut quality, marks) = Quality::of(&batch);
                let read = batch.len() as u64;
                let admitted = admit_all(batch, rules, overrides)?;
                for (at, visit) in admitted.rows.iter().zip(&admitted.visits) {
                    if let Some(well) = visit.well() {
                        quality.planned(&marks, *at, well, liters(standing_volume(&well.standing_water)));
                    }
                }
                Ok((read, admitted, quality))
            })
            .collect::<Result<_>>()?;
        for (read, admitted, quality) in admitted {
            checked.read += read;
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
