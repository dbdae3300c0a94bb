//! Wells × scenarios, on all cores, in batches.
//!
//! One run, in order:
//! 1. the reader cuts the lists into batches of rows (in sequence, cheap);
//! 2. each batch becomes drafts ([`Batch::drafts`], parallel);
//! 3. repeated wells are found ([`Identities`], in sequence: it depends on the order of rows);
//! 4. each draft is admitted as a proven well, held back, or counted as no well (`admitting`, parallel);
//! 5. overrides are asked of the batch ([`condition`]), and the kernel answers for every well and scenario;
//! 6. sums, table rows and findings of the batch are handed on in reading order.
//!
//! Batches have a fixed number of rows, and sums are merged in reading order, so the same lists give the same bytes on any
//! number of threads. Memory holds a few batches, never the list.

mod admitting;
mod cells;
mod checking;
pub mod condition;
mod names;
pub mod quality;
mod rounds;
pub mod springs;
pub mod tally;

use std::borrow::Cow;
use std::collections::{BTreeMap, HashMap};

use rayon::prelude::*;

use crate::caution::{Caution, Cautions};
use crate::checks::{Identities, OtherRow, OtherRows};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding};
use crate::inventory::{Batch, Draft, Inventory, fixed_value};
use crate::kernel::requirement::{Practice, Requirement, requirement};
use crate::ledger::{self, CaseLabel, Get};
use crate::quantity::liters;
use crate::rollup::outsized::{Outsized, Sizes};
use crate::rollup::{GroupColumn, GroupKey, Sums, Totals};
use crate::scenario::stock::StockOnTheDay;
use crate::scenario::{Campaign, Scenario};
use crate::table::{BatchColumn, ColumnCells, ColumnHead, ColumnKind, TableBatch, TableSink, Varies};
use crate::visit::{TreatedVisit, Visit};
use crate::well::Well;
pub use admitting::Rules;
use admitting::{Admitted, admit_all};
use cells::{CautionWords, NeedCells};
pub use checking::{Checked, Outcomes, check};
use names::Names;
use quality::Quality;
use rounds::{read_round, share_read};
use tally::Tally;

/// Bytes of the visits that are kept for documents, about.
const KEPT_BYTES: usize = 64 << 20;

/// One scenario of a run, with its product as it is on the day of use.
#[derive(Debug)]
pub struct Case<'a> {
    /// The scenario.
    pub scenario: &'a Scenario,
    /// The product on the day of use.
    pub stock: StockOnTheDay,
}

/// Everything a run needs but the lists.
#[derive(Debug)]
pub struct Plan<'a> {
    /// The campaign.
    pub campaign: &'a Campaign,
    /// The scenarios to run, in order of the full definition.
    pub cases: Vec<Case<'a>>,
    /// Columns that totals are grouped by.
    pub groups: Vec<GroupColumn>,
    /// Columns of the lists that are not fields.
    pub carried: Vec<String>,
    overrides: Rules,
}

/// What a run tells while it goes on.
pub trait Listener {
    /// Findings, in reading order.
    ///
    /// # Errors
    /// When they cannot be passed on; the run stops.
    fn findings(&mut self, findings: &[Finding]) -> Result<()>;

    /// So many rows are done; `share` is the part of the input that is read, 0 to 1.
    fn progress(&mut self, rows: u64, share: f64);
}

/// What a run came to.
#[derive(Debug)]
pub struct Run {
    /// Sums by scenario, group and depot.
    pub totals: Totals,
    /// Rows read.
    pub read: u64,
    /// Rows planned.
    pub planned: u64,
    /// Rows held back.
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
}

impl Run {
    /// The visits to look at before ordering, greatest first: those of the first scenario that take an outsized part.
    pub fn outsized(&self, campaign: &Campaign) -> Vec<Outsized> {
        self.sizes.outsized(&self.totals, &campaign.outsized)
    }
}

/// Checks that each `[inventory.fixed]` value is valid as a cell; the scenario room does not know how cells are read.
///
/// # Errors
/// With the line of the first that is not.
pub fn prove_fixed(campaign: &Campaign) -> Result<()> {
    campaign.fixed_spots.iter().try_for_each(|fixed| {
        let list = fixed.list.and_then(|list| campaign.rules.lists.get(list));
        let rules = list.map_or(Cow::Borrowed(&campaign.rules), |list| campaign.rules.of(&list.origin()));
        fixed_value(&rules, fixed.field).map(drop).map_err(|reason| fixed.spot.error(reason))
    })
}

/// Asks whether the conditions of the overrides are such as one well can answer; which columns there are is not known yet.
///
/// # Errors
/// With the line of the first that is not.
pub fn prove_conditions(campaign: &Campaign) -> Result<()> {
    campaign.overrides.iter().try_for_each(|rule| condition::expression(rule).map(drop))
}

impl<'a> Plan<'a> {
    /// Prepares a run: products on the day of use, conditions and groups against the columns there are.
    ///
    /// # Errors
    /// Whatever in the scenario file does not fit these lists or this date.
    pub fn prepare(
        campaign: &'a Campaign,
        scenarios: Vec<&'a Scenario>,
        date: Option<chrono::NaiveDate>,
        carried: &[String],
    ) -> Result<Self> {
        let cases = scenarios
            .into_iter()
            .map(|scenario| {
                let product = &campaign.products[scenario.product];
                let stock = crate::scenario::stock::stock_on_the_day(
                    product,
                    scenario.age.as_ref(),
                    scenario.storage.as_ref(),
                    date,
                )?;
                Ok(Case { scenario, stock })
            })
            .collect::<Result<Vec<_>>>()?;
        Ok(Self {
            campaign,
            cases,
            groups: GroupColumn::resolve(
                &campaign.group_by,
                campaign.group_by_spot.as_ref(),
                carried,
                &campaign.rules,
            )?,
            carried: carried.to_vec(),
            overrides: Rules::prepare(&campaign.overrides, carried, &campaign.rules)?,
        })
    }

    /// The practice that holds for one well in one scenario, overrides applied.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn practice_for(&self, case: &Case<'_>, well: &Well) -> Result<Practice> {
        Ok(self.campaign.practice_of(case.scenario, self.mask(well)?))
    }

    /// Why a well is left out by a rule of the scenario file; nothing where it is planned.
    ///
    /// # Errors
    /// When an override cannot be evaluated.
    pub fn excluded(&self, well: &Well) -> Result<Option<&str>> {
        Ok(self.overrides.reason(self.mask(well)?))
    }

    /// Which overrides hold for one well.
    fn mask(&self, well: &Well) -> Result<u64> {
        Ok(self.overrides.conditions().masks(&[well])?.first().copied().unwrap_or(0))
    }

    /// What the treatments table says of each case.
    pub fn labels(&self) -> impl Iterator<Item = CaseLabel<'_>> {
        self.cases.iter().map(|case| CaseLabel {
            name: &case.scenario.name,
            product: &self.campaign.products[case.scenario.product].name,
            stock: &case.stock.prepared.stock,
        })
    }

    /// Heads of the treatments table: the ledger's columns, then the carried ones.
    pub fn table_heads(&self) -> Vec<ColumnHead> {
        let own = ledger::COLUMNS.iter().map(|column| ColumnHead {
            name: column.id.to_owned(),
            kind: if column.get.is_text() { ColumnKind::Text } else { ColumnKind::Number },
        });
        // A carried column may share our name; it is renamed, because headings must be unique.
        let carried = self.carried.iter().map(|name| {
            let taken = ledger::COLUMNS.iter().any(|column| column.id == name);
            ColumnHead { name: if taken { format!("{name} (list)") } else { name.clone() }, kind: ColumnKind::Text }
        });
        own.chain(carried).collect()
    }

    /// Runs the lists through every scenario.
    ///
    /// `keep` is how many rows of the treatments table the visits make up that come back in the [`Run`].
    ///
    /// # Errors
    /// When a list cannot be read on, or an output cannot be written.
    pub fn run<S: TableSink>(
        &self,
        inventory: &mut Inventory,
        sink: &S,
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
        };
        let note = |findings: &[Finding], run: &mut Run| {
            for finding in findings {
                *run.finding_counts.entry(finding.code).or_default() += 1;
            }
        };
        note(inventory.file_findings(), &mut run);
        listener.findings(inventory.file_findings())?;
        let rules = &self.campaign.rules;
        let mut identities = Identities::new(rules);
        let mut names = Names::default();
        let mut round = read_round(inventory, self.cases.len())?;
        let mut kept_bytes = 0;
        let mut written: Vec<S::Encoded> = Vec::new();
        while !round.is_empty() {
            // While this round is worked on, the last one is written and the next one read.
            let ready = std::mem::take(&mut written);
            let (next, worked) = rayon::join(
                || {
                    ready.into_iter().try_for_each(|batch| sink.write(batch))?;
                    read_round(inventory, self.cases.len())
                },
                || -> Result<Vec<Worked<S::Encoded>>> {
                    let mut drafts: Vec<Vec<Draft>> = round.par_iter().map(Batch::drafts).collect();
                    let mut firsts = Vec::with_capacity(drafts.len());
                    let mut first = run.read - run.other_rows.count();
                    for batch in &mut drafts {
                        firsts.push(first);
                        first += batch.iter().filter(|draft| draft.no_well().is_none()).count() as u64;
                        identities.check(batch);
                        names.take(batch);
                    }
                    drafts
                        .into_par_iter()
                        .zip(firsts)
                        .map(|(batch, first)| self.work(batch, first, keep, rules, sink))
                        .collect()
                },
            );
            for batch in worked? {
                run.read += batch.read;
                run.planned += batch.planned;
                run.held_back += batch.held_back;
                run.assumed += batch.assumed;
                run.excluded += batch.excluded_for.values().sum::<u64>();
                for (reason, count) in batch.excluded_for {
                    *run.excluded_for.entry(reason).or_default() += count;
                }
                run.table_rows += (batch.read - batch.others.len() as u64) * self.cases.len() as u64;
                batch.others.into_iter().for_each(|row| run.other_rows.take(row));
                for (mine, theirs) in run.caution_counts.iter_mut().zip(&batch.caution_counts) {
                    for (mine, theirs) in mine.iter_mut().zip(theirs) {
                        *mine += theirs;
                    }
                }
                run.totals.absorb(batch.sums);
                run.tally.absorb(&batch.tally);
                run.quality.absorb(batch.quality);
                run.sizes.absorb(batch.sizes, &self.campaign.outsized);
                note(&batch.findings, &mut run);
                listener.findings(&batch.findings)?;
                if kept_bytes < KEPT_BYTES {
                    kept_bytes += batch.kept.iter().map(TreatedVisit::bytes).sum::<usize>();
                    run.kept.extend(batch.kept);
                }
                written.push(batch.encoded);
            }
            listener.progress(run.read, share_read(inventory));
            round = next?;
        }
        let stated = self.campaign.stated_depots();
        run.totals.fold(&self.groups, &stated);
        let closing = closing(inventory, &run.other_rows, names.findings(&stated));
        note(&closing, &mut run);
        listener.findings(&closing)?;
        written.into_iter().try_for_each(|batch| sink.write(batch))?;
        // No row vanishes: this is asserted on every run, not only in tests.
        let others = run.other_rows.count();
        if run.planned + run.held_back + run.excluded + others != run.read {
            return Err(Error::Internal(format!(
                "{} rows were read, but {} planned, {} held back, {} excluded and {others} no wells",
                run.read, run.planned, run.held_back, run.excluded
            )));
        }
        Ok(run)
    }

    fn work<S: TableSink>(
        &self,
        drafts: Vec<Draft>,
        first: u64,
        keep: usize,
        rules: &ReadingRules,
        sink: &S,
    ) -> Result<Worked<S::Encoded>> {
        let read = drafts.len() as u64;
        let (mut quality, marks) = Quality::of(&drafts);
        let mut admitted = admit_all(drafts, rules, &self.overrides)?;
        let practices = admitted.hold_back_springs(|mask| {
            self.cases.iter().map(|case| self.campaign.practice_of(case.scenario, mask)).collect()
        });
        let Admitted { visits, rows, masks, findings, others, .. } = admitted;
        let scenarios = self.cases.len();

        let kept_visits = (keep / scenarios.max(1)).saturating_sub(usize::try_from(first).unwrap_or(usize::MAX));
        let mut cells = sink.wants_rows().then(|| NeedCells::new(visits.len() * scenarios));
        let mut sums: HashMap<GroupKey<'_>, Vec<Sums>> = HashMap::new();
        let mut caution_counts = vec![[0; 64]; scenarios];
        let (mut planned, mut held_back, mut assumed) = (0, 0, 0);
        let mut excluded_for: BTreeMap<Box<str>, u64> = BTreeMap::new();
        let mut tally = Tally::default();
        let mut sizes = Sizes::default();
        let mut kept_needs: Vec<Vec<Requirement>> = Vec::new();
        for (at, visit) in visits.iter().enumerate() {
            tally.visit(visit);
            let mut needs = Vec::new();
            let group =
                sums.entry(GroupKey::of(visit, &self.groups)).or_insert_with(|| vec![Sums::default(); scenarios]);
            let Some(well) = visit.well() else {
                if let Visit::Excluded { reason, .. } = visit {
                    group.iter_mut().for_each(|sums| sums.excluded += 1);
                    *excluded_for.entry(reason.clone()).or_default() += 1;
                } else {
                    group.iter_mut().for_each(|sums| sums.held_back += 1);
                    held_back += 1;
                }
                (0..scenarios).for_each(|_| cells.iter_mut().for_each(NeedCells::push_none));
                if at < kept_visits {
                    kept_needs.push(needs);
                }
                continue;
            };
            let rests = !visit.assumed().is_empty();
            assumed += u64::from(rests);
            let practices = &practices[&masks[at]];
            for (place, case) in self.cases.iter().enumerate() {
                let practice = &practices[place];
                let need = requirement(well, practice, &case.stock.prepared)
                    .ok_or_else(|| Error::Internal(format!("well {} cannot be measured out", well.id)))?;
                group[place].add(&need, rests, practice.repeat_share, practice.handling_loss);
                count_cautions(&mut caution_counts[place], need.cautions);
                if place == 0 {
                    tally.planned(well, &need);
                    let water = liters(need.treated_volume);
                    quality.planned(&marks, rows[at], well, water);
                    let product = need.product.mid.bought();
                    sizes.add(first + at as u64, visit, product, water, &self.campaign.outsized);
                }
                if let Some(cells) = &mut cells {
                    cells.push(&need);
                }
                if at < kept_visits {
                    needs.push(need);
                }
            }
            if at < kept_visits {
                kept_needs.push(needs);
            }
            planned += 1;
        }

        let words = CautionWords::of(cells.as_ref());
        let batch = match cells {
            Some(cells) => self.table_batch(&visits, cells, &words),
            None => TableBatch::default(),
        };
        let encoded = sink.encode(batch)?;
        let mut sums: Vec<_> = sums.into_iter().map(|(key, sums)| (key.owned(), sums)).collect();
        sums.sort_by(|a, b| a.0.cmp(&b.0));
        let kept = visits.into_iter().zip(kept_needs).map(|(visit, needs)| TreatedVisit::new(visit, needs)).collect();
        Ok(Worked {
            read,
            planned,
            held_back,
            excluded_for,
            others,
            assumed,
            caution_counts,
            tally,
            sums,
            findings,
            kept,
            quality,
            sizes,
            encoded,
        })
    }

    /// The treatments of a batch: blocks of one visit, a row for each scenario.
    fn table_batch<'b>(
        &'b self,
        visits: &'b [Visit],
        mut need_cells: NeedCells,
        words: &'b CautionWords,
    ) -> TableBatch<'b> {
        let labels: Vec<CaseLabel<'b>> = self.labels().collect();
        let all_planned = visits.iter().all(|visit| visit.well().is_some());
        let mut numbers = std::mem::take(&mut need_cells.numbers).into_iter();
        let mut texts = std::mem::take(&mut need_cells.texts).into_iter();
        let own = ledger::COLUMNS.iter().map(|column| match column.get {
            Get::CaseText(get) => {
                BatchColumn { varies: Varies::Place, cells: ColumnCells::Text(labels.iter().map(get).collect()) }
            }
            Get::CaseNumber(get) if all_planned => {
                BatchColumn { varies: Varies::Place, cells: ColumnCells::Number(labels.iter().map(get).collect()) }
            }
            // A figure is not shown beside a row that is held back, so it differs between the rows of a scenario.
            Get::CaseNumber(get) => BatchColumn {
                varies: Varies::Row,
                cells: ColumnCells::Number(
                    visits
                        .iter()
                        .flat_map(|visit| {
                            labels.iter().map(move |label| if visit.well().is_some() { get(label) } else { f64::NAN })
                        })
                        .collect(),
                ),
            },
            Get::VisitText(get) => {
                BatchColumn { varies: Varies::Block, cells: ColumnCells::Text(visits.iter().map(get).collect()) }
            }
            Get::VisitNumber(get) => {
                BatchColumn { varies: Varies::Block, cells: ColumnCells::Number(visits.iter().map(get).collect()) }
            }
            Get::NeedText(_) => {
                BatchColumn { varies: Varies::Row, cells: ColumnCells::Text(texts.next().unwrap_or_default()) }
            }
            Get::NeedNumber(_) => {
                BatchColumn { varies: Varies::Row, cells: ColumnCells::Number(numbers.next().unwrap_or_default()) }
            }
            Get::Cautions => BatchColumn {
                varies: Varies::Row,
                cells: ColumnCells::Text(need_cells.cautions.iter().map(|cautions| words.get(*cautions)).collect()),
            },
        });
        let carried = (0..self.carried.len()).map(|index| {
            let text = |visit: &'b Visit| visit.carried().get(index).map(|text| &**text).unwrap_or_default();
            BatchColumn { varies: Varies::Block, cells: ColumnCells::Text(visits.iter().map(text).collect()) }
        });
        TableBatch { columns: own.chain(carried).collect(), blocks: visits.len(), block_rows: labels.len() }
    }
}

/// What came of one batch.
struct Worked<E> {
    read: u64,
    planned: u64,
    held_back: u64,
    excluded_for: BTreeMap<Box<str>, u64>,
    others: Vec<OtherRow>,
    assumed: u64,
    caution_counts: Vec<[u64; 64]>,
    tally: Tally,
    sums: Vec<(GroupKey<'static>, Vec<Sums>)>,
    findings: Vec<Finding>,
    kept: Vec<TreatedVisit>,
    quality: Quality,
    sizes: Sizes,
    encoded: E,
}

fn count_cautions(counts: &mut [u64; 64], cautions: Cautions) {
    let mut bits = cautions.bits();
    while bits != 0 {
        counts[bits.trailing_zeros() as usize] += 1;
        bits &= bits - 1;
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

/// Whether a caution was raised in a scenario.
pub fn raised(run: &Run, scenario: usize, caution: Caution) -> u64 {
    run.caution_counts[scenario][caution as usize]
}
