//! Lists checked and nothing planned: findings, counts, and what the data are worth.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::names::Names;
use super::quality::Quality;
use super::rounds::{read_round, share_read};
use super::{Listener, admit_all};
use crate::checks::Identities;
use crate::error::Result;
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
/// # Errors
/// When a list cannot be read on.
pub fn check(inventory: &mut Inventory, rules: &ReadingRules, listener: &mut dyn Listener) -> Result<Checked> {
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
            let mut closing = inventory.closing_findings();
            closing.extend(names.findings(&[]));
            count(&closing, &mut checked);
            listener.findings(&closing)?;
            return Ok(checked);
        }
        let mut drafts: Vec<Vec<Draft>> = round.par_iter().map(Batch::drafts).collect();
        drafts.iter_mut().for_each(|batch| {
            identities.check(batch);
            names.take(batch);
        });
        let admitted: Vec<_> = drafts
            .into_par_iter()
            .map(|batch| {
                let (mut quality, marks) = Quality::of(&batch);
                let (visits, findings) = admit_all(batch, rules);
                for (at, visit) in visits.iter().enumerate() {
                    if let Some(well) = visit.well() {
                        quality.planned(&marks, at, well, liters(standing_volume(&well.standing_water)));
                    }
                }
                (visits, findings, quality)
            })
            .collect();
        for (visits, findings, quality) in admitted {
            checked.read += visits.len() as u64;
            for visit in &visits {
                match visit.well() {
                    Some(well) => {
                        checked.admitted += 1;
                        checked.without_route += u64::from(well.discharge_route.is_none());
                        checked.assumed += u64::from(!visit.assumed().is_empty());
                    }
                    None => checked.held_back += 1,
                }
            }
            checked.quality.absorb(quality);
            count(&findings, &mut checked);
            listener.findings(&findings)?;
        }
        listener.progress(checked.read, share_read(inventory));
    }
}
