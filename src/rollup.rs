//! From outcomes to totals and orders.
//!
//! Called by the engine with each batch's rows in reading order; sums run in a fixed order, so that they come out the same
//! on any number of threads. It adds and counts; it does not know how a row was computed or how a table is written.

mod needs;
pub mod orders;
pub mod outsized;
pub mod packages;
pub mod resting;
pub mod sites;
pub mod types;

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::error::Result;
use crate::field::names::spellings_that_count;
use crate::field::rules::ReadingRules;
use crate::field::{FIELDS, Field, Kind, same_column};
use crate::kernel::neutralizer::Agent;
use crate::quantity::liters;
use crate::scenario::section::near;
use crate::scenario::stated::{Spot, refusal};
use crate::visit::{Need, Visit};
use resting::{Resting, Rests};

/// A column that totals are grouped by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupColumn {
    /// Its name, as heading of the totals.
    pub name: String,
    source: GroupSource,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum GroupSource {
    Field(Field),
    Carried(usize),
}

impl GroupColumn {
    /// Finds the columns that totals are grouped by: by the field's own name, or by a heading as the lists write it.
    ///
    /// # Errors
    /// A name that is not a text field and no column of the lists, or a measured field.
    pub fn resolve(
        names: &[String],
        spot: Option<&Spot>,
        carried: &[String],
        rules: &ReadingRules,
    ) -> Result<Vec<Self>> {
        let refuse = |reason: String| refusal(spot, reason);
        let resolve = |name: &String| {
            let is_called = |column: &String| same_column(column, name);
            let source = match (Field::by_name(name), carried.iter().position(is_called)) {
                (None, Some(index)) => Some(GroupSource::Carried(index)),
                (field, _) => field.or_else(|| rules.fed_by(name)).map(GroupSource::Field),
            };
            match source {
                Some(GroupSource::Field(field)) if matches!(field.definition().kind, Kind::Quantity(_)) => {
                    Err(refuse(format!("`{name}` is measured: totals can be grouped by text columns only")))
                }
                Some(source) => Ok(Self { name: name.clone(), source }),
                None => {
                    let more = if carried.is_empty() {
                        String::new()
                    } else {
                        format!("; further columns of these lists: {}", carried.join(", "))
                    };
                    let texts = FIELDS.iter().filter(|field| !matches!(field.kind, Kind::Quantity(_)));
                    let known: Vec<&str> =
                        texts.map(|field| field.name).chain(carried.iter().map(String::as_str)).collect();
                    Err(refuse(format!("no column {name:?} to group by{}{more}", near(name, &known))))
                }
            }
        };
        names.iter().map(resolve).collect()
    }

    fn value<'a>(&self, visit: &'a Visit) -> &'a str {
        match (self.source, visit) {
            (GroupSource::Carried(index), visit) => visit.carried().get(index).map(|text| &**text).unwrap_or_default(),
            (GroupSource::Field(field), visit) => visit.group_text(field),
        }
    }
}

/// Sums over some rows of one scenario. Product is in liters for liquids and kilograms for dry products.
#[derive(Debug, Clone, PartialEq)]
pub struct Sums {
    /// Rows that were computed, each counted once.
    pub planned: u64,
    /// Rows that could not be computed; nothing of them is in the amounts.
    pub held_back: u64,
    /// Visits that a rule leaves out.
    pub excluded: u64,
    /// Planned rows that rest on an assumption.
    pub assumed: u64,
    /// Water to treat of the planned rows, L: standing water with its allowance, and plumbing.
    pub treated_volume_l: f64,
    /// Treated water of the rows that rest on an assumption, L.
    pub assumed_volume_l: f64,
    /// The same rows by what is assumed of them.
    pub resting: Resting,
    /// Available chlorine as Cl2 of the first round, g: for the water, the wall wash and a feed.
    pub chlorine_g: f64,
    /// Product of the first round.
    pub product: f64,
    /// The sum of every row's low, as if all of them erred to that side together.
    pub product_low: f64,
    /// The sum of every row's high, as if all of them erred to that side together.
    pub product_high: f64,
    /// Weight of the first round's product, kg.
    pub product_kg: f64,
    /// Product of the repeat round.
    pub repeat: f64,
    /// Product lost in handling, of both rounds.
    pub loss: f64,
    /// Visits of the repeat round (a share, so not whole).
    pub repeat_visits: f64,
    /// Neutralizer of the first round, kg, by agent.
    pub neutralizer_kg: [f64; Agent::ALL.len()],
    /// Neutralizer of the repeat round, kg, by agent.
    pub neutralizer_repeat_kg: [f64; Agent::ALL.len()],
    /// Neutralizer lost in handling, kg, by agent.
    pub neutralizer_loss_kg: [f64; Agent::ALL.len()],
    /// Water to pump off in the flush of the planned rows, L.
    pub flush_volume_l: f64,
    /// Flush time of the rows that have one, h.
    pub flush_h: f64,
    /// Planned rows without a flush time.
    pub flush_unknown: u64,
}

impl Default for Sums {
    fn default() -> Self {
        Self {
            planned: 0,
            held_back: 0,
            excluded: 0,
            assumed: 0,
            treated_volume_l: 0.0,
            assumed_volume_l: 0.0,
            resting: Resting::default(),
            chlorine_g: 0.0,
            product: 0.0,
            product_low: 0.0,
            product_high: 0.0,
            product_kg: 0.0,
            repeat: 0.0,
            loss: 0.0,
            repeat_visits: 0.0,
            neutralizer_kg: [0.0; Agent::ALL.len()],
            neutralizer_repeat_kg: [0.0; Agent::ALL.len()],
            neutralizer_loss_kg: [0.0; Agent::ALL.len()],
            flush_volume_l: 0.0,
            flush_h: 0.0,
            flush_unknown: 0,
        }
    }
}

impl Sums {
    /// Adds a planned row; the shares are those of the practice that holds for it.
    pub fn add(&mut self, need: &Need, rests: Rests, repeat_share: f64, handling_loss: f64) {
        let product = need.product.bought();
        self.planned += 1;
        self.treated_volume_l += liters(need.treated_volume);
        if rests.on_any() {
            self.assumed += 1;
            self.assumed_volume_l += liters(need.treated_volume);
        }
        self.resting.add(rests, liters(need.treated_volume));
        self.chlorine_g += need.chlorine.grams();
        self.product += product;
        self.product_low += need.product_low.bought();
        self.product_high += need.product_high.bought();
        self.product_kg += need.product.kilograms();
        self.repeat += repeat_share * product;
        self.loss += handling_loss * (1.0 + repeat_share) * product;
        self.repeat_visits += repeat_share;
        if let Some(agent) = need.neutralizer {
            let kilograms = need.neutralizer_mass.kilograms();
            self.neutralizer_kg[agent as usize] += kilograms;
            self.neutralizer_repeat_kg[agent as usize] += repeat_share * kilograms;
            self.neutralizer_loss_kg[agent as usize] += handling_loss * (1.0 + repeat_share) * kilograms;
        }
        self.flush_volume_l += liters(need.flush_volume);
        match need.flush_time {
            Some(time) => self.flush_h += time.value / 3600.0,
            None => self.flush_unknown += 1,
        }
    }

    /// Adds the sums of other rows of the same scenario, all counts and amounts.
    pub fn merge(&mut self, other: &Self) {
        self.planned += other.planned;
        self.held_back += other.held_back;
        self.excluded += other.excluded;
        self.assumed += other.assumed;
        self.flush_unknown += other.flush_unknown;
        self.resting.merge(&other.resting);
        for (mine, theirs) in [
            (&mut self.treated_volume_l, other.treated_volume_l),
            (&mut self.assumed_volume_l, other.assumed_volume_l),
            (&mut self.chlorine_g, other.chlorine_g),
            (&mut self.product, other.product),
            (&mut self.product_low, other.product_low),
            (&mut self.product_high, other.product_high),
            (&mut self.product_kg, other.product_kg),
            (&mut self.repeat, other.repeat),
            (&mut self.loss, other.loss),
            (&mut self.repeat_visits, other.repeat_visits),
            (&mut self.flush_volume_l, other.flush_volume_l),
            (&mut self.flush_h, other.flush_h),
        ] {
            *mine += theirs;
        }
        for agent in 0..Agent::ALL.len() {
            self.neutralizer_kg[agent] += other.neutralizer_kg[agent];
            self.neutralizer_repeat_kg[agent] += other.neutralizer_repeat_kg[agent];
            self.neutralizer_loss_kg[agent] += other.neutralizer_loss_kg[agent];
        }
    }

    /// Product of both rounds with what is lost.
    pub fn product_in_all(&self) -> f64 {
        self.product + self.repeat + self.loss
    }

    /// Neutralizer of the first round over all agents, kg.
    pub fn neutralizer_first_kg(&self) -> f64 {
        self.neutralizer_kg.iter().sum()
    }

    /// Wells in all: planned and held back.
    pub fn rows(&self) -> u64 {
        self.planned + self.held_back
    }
}

/// Where a row is counted: the values of the grouping columns, and its depot.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GroupKey<'a> {
    /// Values of the grouping columns.
    pub values: Vec<Cow<'a, str>>,
    /// The depot as typed, until [`Totals::fold`] has settled its spelling; empty where none is given.
    pub depot: Cow<'a, str>,
}

impl<'a> GroupKey<'a> {
    /// Where a visit is counted.
    pub fn of(visit: &'a Visit, columns: &[GroupColumn]) -> Self {
        let mut key = Self::default();
        key.turn_to(visit, columns);
        key
    }

    /// Moves the key to where another visit is counted; its room is used again.
    pub fn turn_to(&mut self, visit: &'a Visit, columns: &[GroupColumn]) {
        self.values.clear();
        self.values.extend(columns.iter().map(|column| Cow::Borrowed(column.value(visit))));
        self.depot = Cow::Borrowed(visit.depot());
    }

    /// The same key, free of the batch it came from.
    pub fn owned(self) -> GroupKey<'static> {
        let owned = |text: Cow<'a, str>| Cow::Owned(text.into_owned());
        GroupKey { values: self.values.into_iter().map(owned).collect(), depot: owned(self.depot) }
    }
}

/// Sums of a whole run, by group and depot and scenario.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Totals {
    groups: BTreeMap<GroupKey<'static>, Vec<Sums>>,
    scenarios: usize,
}

impl Totals {
    /// Empty totals for so many scenarios.
    pub fn new(scenarios: usize) -> Self {
        Self { groups: BTreeMap::new(), scenarios }
    }

    /// Adds the sums of a batch; batches must come in reading order.
    pub fn absorb(&mut self, batch: Vec<(GroupKey<'static>, Vec<Sums>)>) {
        for (key, sums) in batch {
            let mine = self.groups.entry(key).or_insert_with(|| vec![Sums::default(); self.scenarios]);
            for (mine, theirs) in mine.iter_mut().zip(&sums) {
                mine.merge(theirs);
            }
        }
    }

    /// Counts depots and regions whose names differ in capitals, blanks or marks only as one, each under the spelling that
    /// counts; see [`spellings_that_count`]. `stated_depots` are those of the scenario file.
    pub fn fold(&mut self, columns: &[GroupColumn], stated_depots: &[String]) {
        let stated = |field: Field| if field == Field::Depot { stated_depots } else { &[] };
        let renamed = |stated: &[String], name_of: &dyn Fn(&GroupKey<'_>) -> String| {
            let mut spellings: BTreeMap<String, u64> = BTreeMap::new();
            for (key, sums) in &self.groups {
                *spellings.entry(name_of(key)).or_default() += sums.first().map_or(0, Sums::rows);
            }
            spellings_that_count(&spellings, stated)
        };
        let depots = renamed(stated_depots, &|key| key.depot.clone().into_owned());
        let values: Vec<BTreeMap<String, String>> = columns
            .iter()
            .enumerate()
            .map(|(at, column)| match column.source {
                GroupSource::Field(field @ (Field::Depot | Field::Region)) => {
                    renamed(stated(field), &|key| key.values[at].clone().into_owned())
                }
                _ => BTreeMap::new(),
            })
            .collect();
        if depots.is_empty() && values.iter().all(BTreeMap::is_empty) {
            return;
        }
        let rename = |name: &mut Cow<'static, str>, renamed: &BTreeMap<String, String>| {
            if let Some(counted) = renamed.get(&**name) {
                *name = Cow::Owned(counted.clone());
            }
        };
        let groups = std::mem::take(&mut self.groups);
        let folded = groups.into_iter().map(|(mut key, sums)| {
            rename(&mut key.depot, &depots);
            key.values.iter_mut().zip(&values).for_each(|(value, renamed)| rename(value, renamed));
            (key, sums)
        });
        self.absorb(folded.collect());
    }

    /// Sums of one scenario over everything.
    pub fn overall(&self, scenario: usize) -> Sums {
        self.gather(scenario, |_| ()).remove(&()).unwrap_or_default()
    }

    /// Sums of one scenario by the values of the grouping columns, in order.
    pub fn by_group(&self, scenario: usize) -> BTreeMap<Vec<String>, Sums> {
        self.gather(scenario, |key| key.values.iter().map(|value| value.clone().into_owned()).collect())
    }

    /// Sums of one scenario by depot, in order.
    pub fn by_depot(&self, scenario: usize) -> BTreeMap<String, Sums> {
        self.gather(scenario, |key| key.depot.clone().into_owned())
    }

    fn gather<K: Ord>(&self, scenario: usize, key_of: impl Fn(&GroupKey<'_>) -> K) -> BTreeMap<K, Sums> {
        let mut gathered: BTreeMap<K, Sums> = BTreeMap::new();
        for (key, sums) in &self.groups {
            gathered.entry(key_of(key)).or_default().merge(&sums[scenario]);
        }
        gathered
    }

    /// How many scenarios are summed.
    pub fn scenarios(&self) -> usize {
        self.scenarios
    }
}
