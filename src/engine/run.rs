//! A run: the lists through every scenario, and what it came to.

use std::collections::BTreeMap;

use super::batch::Worked;
use super::pass::Pass;
use super::quality::Quality;
use super::tally::Tally;
use super::{Listener, Plan, Tables};
use crate::caution::Caution;
use crate::checks::OtherRows;
use crate::error::Result;
use crate::finding::Code;
use crate::inventory::Inventory;
use crate::rollup::Totals;
use crate::rollup::outsized::{Outsized, Sizes};
use crate::rollup::sites::Sites;
use crate::rollup::types::TypeTotals;
use crate::scenario::Campaign;
use crate::table::TableSink;
use crate::visit::TreatedVisit;

/// Bytes of the visits that are kept for documents, about.
const KEPT_BYTES: usize = 64 << 20;

/// What a run came to.
#[derive(Debug)]
pub struct Run {
    /// Sums by scenario, group and depot.
    pub totals: Totals,
    /// Rows of all lists: planned, held back, excluded and those that are not wells.
    pub read: u64,
    /// Rows that were computed, once each, not once a scenario.
    pub planned: u64,
    /// Rows that cannot be computed; their findings say why.
    pub held_back: u64,
    /// Visits that a rule of the scenario file leaves out.
    pub excluded: u64,
    /// The same by the rule's reason.
    pub excluded_for: BTreeMap<Box<str>, u64>,
    /// Rows that are not wells.
    pub other_rows: OtherRows,
    /// Planned rows that rest on an assumption.
    pub assumed: u64,
    /// How often each finding was made, by code.
    pub finding_counts: BTreeMap<Code, u64>,
    /// How often each caution was raised, by scenario and place in the list of cautions.
    pub caution_counts: Vec<[u64; 64]>,
    /// What is reported of the sites, and what the lists leave to the practice.
    pub tally: Tally,
    /// The first visits with what they need in each case, as many as rows of the treatments table were asked for.
    pub kept: Vec<TreatedVisit>,
    /// Rows of the treatments table in all.
    pub table_rows: u64,
    /// What the data are worth; volumes are those of the first scenario.
    pub quality: Quality,
    /// What visits of the first scenario take, for those that take too much.
    pub sizes: Sizes,
    /// Amounts by type of well.
    pub types: TypeTotals,
    /// Where the visits lie.
    pub sites: Sites,
}

impl Run {
    /// The visits to look at before ordering, greatest first: those of the first scenario that take an outsized part.
    pub fn outsized(&self, campaign: &Campaign) -> Vec<Outsized> {
        self.sizes.outsized(&self.totals, &campaign.outsized)
    }
}

/// Whether a caution was raised in a scenario.
pub fn raised(run: &Run, scenario: usize, caution: Caution) -> u64 {
    run.caution_counts[scenario][caution as usize]
}

impl Plan<'_> {
    /// Runs the lists through every scenario.
    ///
    /// `keep` is how many rows of the treatments table the visits make up that come back in the [`Run`].
    ///
    /// # Errors
    /// When a list cannot be read on, or an output cannot be written.
    pub fn run<S: TableSink>(
        &self,
        inventory: &mut Inventory,
        tables: &Tables<S>,
        keep: usize,
        listener: &mut dyn Listener,
    ) -> Result<Run> {
        let mut run = Run {
            totals: Totals::new(self.cases.len()),
            read: 0,
            planned: 0,
            held_back: 0,
            excluded: 0,
            excluded_for: BTreeMap::new(),
            other_rows: OtherRows::default(),
            assumed: 0,
            finding_counts: BTreeMap::new(),
            caution_counts: vec![[0; 64]; self.cases.len()],
            tally: Tally::default(),
            kept: Vec::new(),
            table_rows: 0,
            quality: Quality::default(),
            sizes: Sizes::default(),
            types: TypeTotals::new(self.cases.len()),
            sites: Sites::default(),
        };
        let depots = self.campaign.stated_depots();
        let pass = Pass {
            rules: &self.campaign.rules,
            overrides: &self.overrides,
            practices: &|mask| self.practices(mask),
            rows_of_visit: self.cases.len(),
            depots: &depots,
        };
        let mut kept_bytes = 0;
        let passed = pass.go(
            inventory,
            listener,
            |judged| self.work(judged, keep, tables),
            |worked| self.absorb(&mut run, worked, &mut kept_bytes),
            |(visits, treatments)| {
                tables.visits.sink.write(visits)?;
                tables.treatments.sink.write(treatments)
            },
        )?;
        passed.prove(run.planned, run.held_back, run.excluded)?;
        run.totals.fold(&self.groups, &depots);
        run.read = passed.read;
        run.other_rows = passed.other_rows;
        run.finding_counts = passed.finding_counts;
        Ok(run)
    }

    /// Adds what came of a batch; gives back its rows of the table.
    fn absorb<E>(&self, run: &mut Run, batch: Worked<E>, kept_bytes: &mut usize) -> (E, E) {
        run.planned += batch.planned;
        run.held_back += batch.held_back;
        run.assumed += batch.assumed;
        run.excluded += batch.excluded_for.values().sum::<u64>();
        for (reason, count) in batch.excluded_for {
            *run.excluded_for.entry(reason).or_default() += count;
        }
        run.table_rows += batch.rows;
        for (mine, theirs) in run.caution_counts.iter_mut().zip(&batch.caution_counts) {
            for (mine, theirs) in mine.iter_mut().zip(theirs) {
                *mine += theirs;
            }
        }
        run.totals.absorb(batch.sums);
        run.tally.absorb(&batch.tally);
        run.quality.absorb(batch.quality);
        run.sizes.absorb(batch.sizes, &self.campaign.outsized);
        run.types.absorb(&batch.types);
        run.sites.absorb(batch.sites);
        if *kept_bytes < KEPT_BYTES {
            *kept_bytes += batch.kept.iter().map(TreatedVisit::bytes).sum::<usize>();
            run.kept.extend(batch.kept);
        }
        batch.encoded
    }
}
