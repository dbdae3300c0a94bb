//! A batch of visits through every case: requirements, sums, counts and rows of the table.

use std::collections::{BTreeMap, HashMap};

use foldhash::fast::FixedState;

use super::cells::{CautionWords, NeedCells, visits_batch};
use super::pass::Judged;
use super::quality::Quality;
use super::tally::Tally;
use super::{Plan, Tables};
use crate::caution::Cautions;
use crate::error::{Error, Result};
use crate::field::{Field, WellType};
use crate::kernel::requirement::PreparedPractice;
use crate::quantity::liters;
use crate::rollup::outsized::Sizes;
use crate::rollup::resting::Rests;
use crate::rollup::sites::{Sites, State};
use crate::rollup::types::TypeTotals;
use crate::rollup::{GroupKey, Sums};
use crate::table::{Groups, TableBatch, TableSink};
use crate::visit::{Asked, Need, Readings, TreatedVisit, Visit, at_rest};

/// What came of one batch.
pub(super) struct Worked<E> {
    pub(super) planned: u64,
    pub(super) held_back: u64,
    pub(super) excluded_for: BTreeMap<Box<str>, u64>,
    pub(super) assumed: u64,
    pub(super) caution_counts: Vec<[u64; 64]>,
    pub(super) tally: Tally,
    pub(super) sums: Vec<(GroupKey<'static>, Vec<Sums>)>,
    pub(super) kept: Vec<TreatedVisit>,
    pub(super) quality: Quality,
    pub(super) sizes: Sizes,
    pub(super) types: TypeTotals,
    pub(super) sites: Sites,
    /// Rows of the table.
    pub(super) rows: u64,
    /// Of the visits and of the treatments.
    pub(super) encoded: (E, E),
}

impl Plan<'_> {
    /// Plans a batch: what each visit needs in each case, summed, counted and encoded.
    pub(super) fn work<S: TableSink>(
        &self,
        judged: Judged,
        keep: usize,
        tables: &Tables<S>,
    ) -> Result<Worked<S::Encoded>> {
        let Judged { first, mut visits, rows, masks, practices, mut quality, marks, .. } = judged;
        self.give_turns(first, &mut visits);
        let scenarios = self.cases.len();
        // Scenarios that are of one practice wherever they are in this batch are computed together up to the product.
        let groups = Groups::of(scenarios, |one, other| practices.values().all(|of| of[one] == of[other]));
        let firsts: Vec<usize> = groups.firsts().collect();
        let ready: BTreeMap<u64, Vec<PreparedPractice<'_>>> = practices
            .iter()
            .map(|(mask, of)| (*mask, firsts.iter().map(|first| PreparedPractice::of(&of[*first])).collect()))
            .collect();
        let kept_visits = (keep / scenarios.max(1)).saturating_sub(usize::try_from(first).unwrap_or(usize::MAX));
        let wanted = tables.treatments.sink.wants_rows();
        let mut cells = wanted.then(|| NeedCells::new(&tables.treatments.columns, visits.len(), &groups, scenarios));
        let mut sums: HashMap<GroupKey<'_>, Vec<Sums>, FixedState> = HashMap::default();
        let mut key = GroupKey::default();
        let mut caution_counts = vec![[0; 64]; scenarios];
        let (mut planned, mut held_back, mut assumed) = (0, 0, 0);
        let mut excluded_for: BTreeMap<Box<str>, u64> = BTreeMap::new();
        let mut tally = Tally::default();
        let mut sizes = Sizes::default();
        let mut types = TypeTotals::new(scenarios);
        let mut sites = Sites::default();
        let mut kept_needs: Vec<Vec<Need>> = Vec::new();
        let mut treatments: Vec<Readings<'_>> = Vec::new();
        for (at, visit) in visits.iter().enumerate() {
            tally.visit(visit);
            locate(first + at as u64, visit, &mut sites);
            let mut needs = Vec::new();
            key.turn_to(visit, &self.groups);
            let group = match sums.get_mut(&key) {
                Some(group) => group,
                None => sums.entry(key.clone()).or_insert_with(|| vec![Sums::default(); scenarios]),
            };
            if let Some(well) = visit.well() {
                let rests = Rests::of(visit);
                assumed += u64::from(rests.on_any());
                let practices = &practices[&masks[at]];
                let mut rest = at_rest(well);
                treatments.clear();
                treatments.extend(ready[&masks[at]].iter().map(|practice| Readings::of(&mut rest, practice)));
                for (place, case) in self.cases.iter().enumerate() {
                    let practice = &practices[place];
                    let need = treatments[groups.of_place(place)].need(case.stock.readings());
                    let unmeasured = || Error::Internal(format!("well {} cannot be measured out", well.id));
                    let need = need.as_ref().ok_or_else(unmeasured)?;
                    group[place].add(need, rests, practice.repeat_share, practice.handling_loss);
                    types.add(place, well.well_type, liters(need.treated_volume), need.product.bought());
                    count_cautions(&mut caution_counts[place], need.cautions);
                    if place == 0 {
                        tally.planned(well, need);
                        let water = liters(need.treated_volume);
                        quality.planned(&marks, rows[at], well, water);
                        let product = need.product.bought();
                        sizes.add(first + at as u64, visit, product, water, &self.campaign.outsized);
                    }
                    if let Some(cells) = &mut cells {
                        cells.push(need, place);
                    }
                    if at < kept_visits {
                        needs.push(*need);
                    }
                }
                types.planned(well.well_type);
                planned += 1;
            } else {
                if let Visit::Excluded { reason, .. } = visit {
                    group.iter_mut().for_each(|sums| sums.excluded += 1);
                    *excluded_for.entry(reason.clone()).or_default() += 1;
                } else {
                    group.iter_mut().for_each(|sums| sums.held_back += 1);
                    types.held_back(WellType::by_name(visit.well_type()));
                    held_back += 1;
                }
                cells.iter_mut().for_each(NeedCells::push_none);
            }
            if at < kept_visits {
                kept_needs.push(needs);
            }
        }
        drop(treatments);

        let of_visits = if tables.visits.sink.wants_rows() {
            tables.visits.sink.encode(visits_batch(&tables.visits.columns, &visits))?
        } else {
            tables.visits.sink.encode(TableBatch::default())?
        };
        let words = CautionWords::of(cells.as_ref());
        let of_treatments = match cells {
            Some(cells) => {
                let batch = self.treatments_batch(&tables.treatments.columns, &visits, cells, &words, groups);
                tables.treatments.sink.encode(batch)?
            }
            None => tables.treatments.sink.encode(TableBatch::default())?,
        };
        let encoded = (of_visits, of_treatments);
        let mut sums: Vec<_> = sums.into_iter().map(|(key, sums)| (key.owned(), sums)).collect();
        sums.sort_by(|a, b| a.0.cmp(&b.0));
        let rows = (visits.len() * scenarios) as u64;
        let kept = visits.into_iter().zip(kept_needs).map(|(visit, needs)| TreatedVisit::new(visit, needs)).collect();
        Ok(Worked {
            planned,
            held_back,
            excluded_for,
            assumed,
            caution_counts,
            tally,
            sums,
            kept,
            quality,
            sizes,
            types,
            sites,
            rows,
            encoded,
        })
    }

    /// Gives each visit of a batch its turn, where crews go out; `first` is the place of the first among all visits.
    fn give_turns(&self, first: u64, visits: &mut [Visit]) {
        let Some(schedule) = &self.schedule else { return };
        for (at, visit) in (first..).zip(visits) {
            if let Visit::Planned { turn, .. } = visit {
                *turn = schedule.turn(at);
            }
        }
    }
}

/// Puts a visit on the map.
fn locate(order: u64, visit: &Visit, sites: &mut Sites) {
    let state = match visit {
        Visit::Planned { .. } => State::Planned,
        Visit::HeldBack { .. } => State::HeldBack,
        Visit::Excluded { .. } => State::Excluded,
    };
    let place = visit.si_value(Field::Latitude).zip(visit.si_value(Field::Longitude));
    sites.take(order, place, visit.depot(), state);
}

fn count_cautions(counts: &mut [u64; 64], cautions: Cautions) {
    let mut bits = cautions.bits();
    while bits != 0 {
        counts[bits.trailing_zeros() as usize] += 1;
        bits &= bits - 1;
    }
}
