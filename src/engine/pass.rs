//! The pass over the lists: read, made into drafts, told apart, judged, and handed on in reading order.
//!
//! Planning and checking differ in what they do with a batch once it is judged; everything before is here, once. While a
//! round of batches is worked on, what came of the last one is written and the next one is read and made into drafts.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::Listener;
use super::admitting::{Admitted, Rules, admit_all};
use super::names::Names;
use super::quality::{Marks, Quality};
use super::rounds::{read_round, share_read};
use crate::checks::{Identities, OtherRow, OtherRows};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding};
use crate::inventory::{Batch, Draft, Inventory};
use crate::kernel::requirement::Practice;
use crate::place::Origin;
use crate::visit::Visit;

/// Rows of a batch while one row is looked for.
const LOOKED_THROUGH: usize = 4096;

/// How rows are judged, whatever is done with them then.
pub(super) struct Pass<'a> {
    /// How the lists are read.
    pub(super) rules: &'a ReadingRules,
    /// The overrides of the scenario file: some may leave visits out.
    pub(super) overrides: &'a Rules,
    /// How the visits are treated on which a set of overrides holds.
    pub(super) practices: &'a (dyn Fn(u64) -> Vec<Practice> + Sync),
    /// Rows of a table that come of each visit.
    pub(super) rows_of_visit: usize,
    /// Depots that the scenario file names.
    pub(super) depots: &'a [String],
}

/// A batch of rows once it is judged.
pub(super) struct Judged {
    /// Where its first visit stands among all.
    pub(super) first: u64,
    /// File and sheet that the batch is of; `None` where it has no rows.
    pub(super) origin: Option<Origin>,
    /// Visits, in the order of their rows.
    pub(super) visits: Vec<Visit>,
    /// For each visit the place of its row in the batch.
    pub(super) rows: Vec<usize>,
    /// For each visit the overrides that hold on it.
    pub(super) masks: Vec<u64>,
    /// The practices by the overrides that hold, one for each case.
    pub(super) practices: BTreeMap<u64, Vec<Practice>>,
    /// Rows that are not wells.
    pub(super) others: u64,
    /// What the rows are worth as data.
    pub(super) quality: Quality,
    /// Which rows are like which.
    pub(super) marks: Marks,
}

/// What a pass came to, whatever was done.
#[derive(Debug, Default)]
pub(super) struct Passed {
    /// Rows of all lists, whatever became of them.
    pub(super) read: u64,
    /// Rows that are not wells.
    pub(super) other_rows: OtherRows,
    /// How often each finding was made, by code.
    pub(super) finding_counts: BTreeMap<Code, u64>,
}

impl Passed {
    fn tell(&mut self, findings: &[Finding], listener: &mut dyn Listener) -> Result<()> {
        for finding in findings {
            *self.finding_counts.entry(finding.code).or_default() += 1;
        }
        listener.findings(findings)
    }

    /// No row vanishes: this is asserted in every run, not only in tests.
    ///
    /// # Errors
    /// Where the counts do not add up to the rows.
    pub(super) fn prove(&self, planned: u64, held_back: u64, excluded: u64) -> Result<()> {
        let (read, others) = (self.read, self.other_rows.count());
        if planned + held_back + excluded + others == read {
            return Ok(());
        }
        Err(Error::Internal(format!(
            "{read} rows were read, but {planned} planned, {held_back} held back, {excluded} excluded and {others} no wells"
        )))
    }
}

impl Pass<'_> {
    /// Goes through the lists. `work` is done with each batch, on any thread; `take` takes what came of it, in reading
    /// order; `write` writes what `take` leaves for later.
    ///
    /// # Errors
    /// When a list cannot be read on, and those of the three.
    pub(super) fn go<W: Send, L: Send>(
        &self,
        inventory: &mut Inventory,
        listener: &mut dyn Listener,
        work: impl Fn(Judged) -> Result<W> + Sync,
        mut take: impl FnMut(W) -> L,
        write: impl Fn(L) -> Result<()> + Sync,
    ) -> Result<Passed> {
        let mut passed = Passed::default();
        passed.tell(inventory.file_findings(), listener)?;
        let mut seen = Seen { identities: Identities::new(self.rules), names: Names::default(), visits: 0 };
        let mut round = seen.next_round(inventory, self.rows_of_visit)?;
        let mut left: Vec<L> = Vec::new();
        while !round.is_empty() {
            let ready = std::mem::take(&mut left);
            let (next, worked) = rayon::join(
                || {
                    ready.into_iter().try_for_each(&write)?;
                    seen.next_round(inventory, self.rows_of_visit)
                },
                || -> Result<Vec<_>> {
                    round
                        .into_par_iter()
                        .map(|(first, batch)| {
                            let read = batch.len() as u64;
                            let (judged, others, findings) = self.judge(batch, first)?;
                            Ok((read, others, findings, work(judged)?))
                        })
                        .collect()
                },
            );
            for (read, others, findings, came) in worked? {
                passed.read += read;
                others.into_iter().for_each(|row| passed.other_rows.take(row));
                left.push(take(came));
                passed.tell(&findings, listener)?;
            }
            listener.progress(passed.read, share_read(inventory));
            round = next?;
        }
        passed.tell(&closing(inventory, &passed.other_rows, seen.names.findings(self.depots)), listener)?;
        left.into_iter().try_for_each(&write)?;
        Ok(passed)
    }

    fn judge(&self, drafts: Vec<Draft>, first: u64) -> Result<(Judged, Vec<OtherRow>, Vec<Finding>)> {
        let (quality, marks) = Quality::of(&drafts);
        let origin = drafts.first().map(|draft| draft.origin().clone());
        let mut admitted = admit_all(drafts, self.rules, self.overrides)?;
        let practices = admitted.hold_back_springs(self.practices);
        let Admitted { visits, rows, masks, findings, others, .. } = admitted;
        let judged =
            Judged { first, origin, visits, rows, masks, practices, others: others.len() as u64, quality, marks };
        Ok((judged, others, findings))
    }
}

/// What was seen of the rows so far that those to come are held against.
struct Seen {
    identities: Identities,
    names: Names,
    visits: u64,
}

impl Seen {
    /// Reads the next batches and makes drafts of them; each with how many visits come before it.
    ///
    /// # Errors
    /// When a list cannot be read on.
    fn next_round(&mut self, inventory: &mut Inventory, rows_of_visit: usize) -> Result<Vec<(u64, Vec<Draft>)>> {
        let round = read_round(inventory, rows_of_visit)?;
        let drafts: Vec<Vec<Draft>> = round.par_iter().map(Batch::drafts).collect();
        let told_apart = drafts.into_iter().map(|mut batch| {
            let first = self.visits;
            self.visits += batch.iter().filter(|draft| draft.no_well().is_none()).count() as u64;
            self.identities.check(&mut batch);
            self.names.take(&batch);
            (first, batch)
        });
        Ok(told_apart.collect())
    }
}

/// Findings that can only be made when everything is read, in canonical order.
fn closing(inventory: &Inventory, others: &OtherRows, names: Vec<Finding>) -> Vec<Finding> {
    let mut findings = inventory.closing_findings();
    findings.extend(others.findings());
    findings.extend(names);
    findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
    findings
}

/// Looks for rows: `found` is given each that is `wanted`, in reading order, told apart from those before it.
///
/// # Errors
/// When a list cannot be read on, and those of `found`.
pub fn find<E: From<Error>>(
    inventory: &mut Inventory,
    rules: &ReadingRules,
    wanted: impl Fn(&Draft) -> bool,
    mut found: impl FnMut(Draft) -> std::result::Result<(), E>,
) -> std::result::Result<(), E> {
    let mut identities = Identities::new(rules);
    while let Some(batch) = inventory.next_batch(LOOKED_THROUGH)? {
        let mut drafts = batch.drafts();
        identities.check(&mut drafts);
        drafts.into_iter().filter(&wanted).try_for_each(&mut found)?;
    }
    Ok(())
}
