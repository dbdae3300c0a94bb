//! Wells × scenarios, on all cores, in batches.
//!
//! One pass over the lists (`pass`) serves planning and checking, in order:
//! 1. the reader cuts the lists into batches of rows (in sequence, cheap);
//! 2. each batch becomes drafts ([`Batch::drafts`](crate::inventory::Batch::drafts), parallel);
//! 3. repeated wells are found ([`Identities`](crate::checks::Identities), in sequence: it depends on the order of rows);
//! 4. each draft is admitted as a proven well, held back, or counted as no well, and the overrides are asked of it
//!    (`admitting`, [`condition`], parallel);
//! 5. to plan, the kernel answers for every well and scenario (`batch`);
//! 6. sums, table rows and findings of the batch are handed on in reading order.
//!
//! Batches have a fixed number of rows, and sums are merged in reading order, so the same lists give the same bytes on any
//! number of threads. Memory holds a few batches, never the list.

mod admitting;
mod alone;
mod batch;
mod cells;
mod checking;
pub mod condition;
mod crews;
mod names;
mod pass;
mod plan;
pub mod quality;
mod rounds;
mod run;
pub mod springs;
pub mod tally;

use std::borrow::Cow;

use chrono::NaiveDate;

use crate::error::{Error, Result};
use crate::finding::Finding;
use crate::inventory::fixed_value;
use crate::scenario::Campaign;
use crate::scenario::depot_stock::with_own_strength;
use crate::scenario::stock::stock_on_the_day;
pub use admitting::Rules;
pub use alone::Alone;
pub use checking::{Checked, Outcomes, check, check_with_water};
pub use pass::find;
pub use plan::{Case, Plan, Table, TableColumn, Tables};
pub use run::{Run, raised};

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

/// Checks that each `[inventory.fixed]` value is valid as a cell; the scenario room does not know how cells are read.
///
/// # Errors
/// With the lines of those that are not.
pub fn prove_fixed(campaign: &Campaign) -> Result<()> {
    Error::all_told(campaign.fixed_spots.iter().map(|fixed| {
        let list = fixed.list.and_then(|list| campaign.rules.lists.get(list));
        let rules = list.map_or(Cow::Borrowed(&campaign.rules), |list| campaign.rules.of(&list.origin()));
        fixed_value(&rules, fixed.field).map(drop).map_err(|reason| fixed.spot.error(reason))
    }))
}

/// Asks of the columns that a campaign names, in its conditions and for its totals, whether the lists have them.
///
/// # Errors
/// With the places of those that no list has.
pub fn prove_columns(campaign: &Campaign, carried: &[String]) -> Result<()> {
    let spot = campaign.group_by_spot.as_ref();
    let groups = campaign.group_by.iter().map(|name| {
        crate::rollup::GroupColumn::resolve(std::slice::from_ref(name), spot, carried, &campaign.rules).map(drop)
    });
    let rules = campaign
        .overrides
        .iter()
        .map(|rule| Rules::prepare(std::slice::from_ref(rule), carried, &campaign.rules).map(drop));
    Error::all_told(groups.chain(rules))
}

/// Asks whether the stock of every scenario can be aged to the day of the plan.
///
/// # Errors
/// With the places of all that cannot.
pub fn prove_stock(campaign: &Campaign, date: Option<NaiveDate>) -> Result<()> {
    Error::all_told(campaign.scenarios.iter().map(|scenario| {
        let product = &campaign.products[scenario.product];
        let poured = stock_on_the_day(product, scenario.age.as_ref(), scenario.storage.as_ref(), date)?;
        with_own_strength(&campaign.stock, product, scenario, &poured, date).map(drop)
    }))
}

/// Asks whether the conditions of the overrides are such as one well can answer; which columns there are is not known yet.
///
/// # Errors
/// With the lines of all that are not.
pub fn prove_conditions(campaign: &Campaign) -> Result<()> {
    Error::all_told(campaign.overrides.iter().map(|rule| condition::expression(rule).map(drop)))
}
