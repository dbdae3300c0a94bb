//! From drafts to visits: wells, rows held back, visits that a rule leaves out, and rows that are not wells, counted apart.

use std::collections::BTreeMap;

use compact_str::CompactString;

use super::condition::Conditions;
use super::springs::{self, Inflow};
use crate::checks::{OtherRow, Verdict, admit};
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding};
use crate::inventory::Draft;
use crate::kernel::requirement::Practice;
use crate::scenario::{Exclude, Override};
use crate::visit::Visit;

/// The overrides of a scenario file: their conditions, and which of them leave visits out.
#[derive(Debug, Default)]
pub struct Rules {
    conditions: Conditions,
    exclude: Vec<(u32, Exclude)>,
}

impl Rules {
    /// Parses the conditions; `carried` are the columns of the lists that are not fields, `rules` how the others are read.
    ///
    /// # Errors
    /// With the line of the first condition that cannot be used.
    pub fn prepare(overrides: &[Override], carried: &[String], rules: &ReadingRules) -> Result<Self> {
        let exclude = overrides.iter().enumerate();
        Ok(Self {
            conditions: Conditions::parse(overrides, carried, rules)?,
            exclude: exclude.filter_map(|(at, rule)| Some((at as u32, rule.exclude.clone()?))).collect(),
        })
    }

    /// The parsed conditions of the overrides, in the order of the scenario file, to be asked of each batch.
    pub(super) const fn conditions(&self) -> &Conditions {
        &self.conditions
    }

    /// Why a visit is left out on which the overrides of this mask hold; of several rules the last one counts.
    pub fn reason(&self, mask: u64) -> Option<&str> {
        let last = self.exclude.iter().rev().find(|(at, _)| mask >> at & 1 == 1)?;
        match &last.1 {
            Exclude::Out(reason) => Some(reason),
            Exclude::In => None,
        }
    }
}

/// What came of the rows of a batch.
pub(super) struct Admitted {
    /// Visits, in the order of their rows.
    pub(super) visits: Vec<Visit>,
    /// For each visit the place of its row in the batch.
    pub(super) rows: Vec<usize>,
    /// For each visit the overrides that hold on it.
    pub(super) masks: Vec<u64>,
    /// Findings, in the order of their rows; none of visits that are left out, for nobody needs to mend those.
    pub(super) findings: Vec<Finding>,
    /// Rows that are not wells.
    pub(super) others: Vec<OtherRow>,
    /// Springs with an inflow that are planned so far: the practice decides.
    pub(super) inflows: Vec<Inflow>,
}

impl Admitted {
    /// Holds back springs that flow where one of the practices for them states no choice; gives the practices by the
    /// overrides that hold.
    pub(super) fn hold_back_springs(&mut self, of: impl Fn(u64) -> Vec<Practice>) -> BTreeMap<u64, Vec<Practice>> {
        let practices = springs::practices_by_mask(&self.masks, of);
        let inflows = std::mem::take(&mut self.inflows);
        springs::hold_back(inflows, &practices, &self.masks, &mut self.visits, &mut self.findings);
        practices
    }
}

/// Words, separated by blanks; mostly one.
fn in_words(words: impl Iterator<Item = &'static str>) -> CompactString {
    let mut joined = CompactString::default();
    for word in words {
        if !joined.is_empty() {
            joined.push(' ');
        }
        joined.push_str(word);
    }
    joined
}

/// Judges the rows of a batch.
///
/// # Errors
/// When a condition cannot be evaluated.
pub(super) fn admit_all(drafts: Vec<Draft>, rules: &ReadingRules, overrides: &Rules) -> Result<Admitted> {
    let mut visits = Vec::with_capacity(drafts.len());
    let mut rows = Vec::with_capacity(drafts.len());
    let mut findings: Vec<Finding> = Vec::new();
    // Where the findings of each visit end.
    let mut ends = Vec::with_capacity(drafts.len());
    let mut others = Vec::new();
    let mut inflows = Vec::new();
    for (at, draft) in drafts.into_iter().enumerate() {
        let inflow = Inflow::of(&draft);
        let cell = springs::water_cell(&draft);
        match admit(draft, rules) {
            Verdict::Admitted { well, findings: more } => {
                // Without a route neutralizer is counted: an assumption like any other.
                let route = well.discharge_route.is_none().then_some(&Field::DischargeRoute);
                let assumed = in_words(well.assumed.iter().chain(route).map(|field| field.name()));
                findings.extend(more);
                inflows.extend(inflow.map(|inflow| inflow.at(visits.len(), findings.len())));
                let flags = well.hazards.words();
                visits.push(Visit::Planned { assumed, flags, cell, well, turn: None });
            }
            Verdict::HeldBack(mut row) => {
                let mut codes: Vec<Code> = row.reasons().map(|finding| finding.code).collect();
                codes.sort_unstable();
                codes.dedup();
                let reasons = codes.iter().map(|code| code.id()).collect::<Vec<_>>().join(" ");
                findings.append(&mut row.findings);
                visits.push(Visit::HeldBack { flags: row.facts.hazards.words(), row, codes, reasons });
            }
            Verdict::NotAWell(row) => {
                others.push(row);
                continue;
            }
        }
        rows.push(at);
        ends.push(findings.len());
    }
    let masks = overrides.conditions.masks(&visits.iter().collect::<Vec<_>>())?;
    if !overrides.exclude.is_empty() {
        let mut kept = Vec::with_capacity(findings.len());
        let mut left = findings.into_iter();
        let mut start = 0;
        let judged = visits.into_iter().zip(&masks).zip(&mut ends).map(|((visit, mask), end)| {
            let mine = left.by_ref().take(*end - start);
            start = *end;
            let visit = match overrides.reason(*mask) {
                Some(reason) => {
                    mine.for_each(drop);
                    Visit::Excluded { visit: Box::new(visit), reason: reason.into() }
                }
                None => {
                    kept.extend(mine);
                    visit
                }
            };
            *end = kept.len();
            visit
        });
        visits = judged.collect();
        findings = kept;
        inflows.iter_mut().for_each(|inflow: &mut Inflow| inflow.end_anew(&ends));
    }
    Ok(Admitted { visits, rows, masks, findings, others, inflows })
}
