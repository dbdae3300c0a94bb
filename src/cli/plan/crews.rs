//! Crews of a plan: the lists are read ahead, for the places of all visits.

use std::path::PathBuf;

use crate::engine::Plan;
use crate::error::{Error, Result};
use crate::inventory::{Inventory, can_be_read_again};

/// The lists as they were read ahead.
pub(super) struct ReadAhead(Vec<String>);

fn digests(inventory: &Inventory) -> Vec<String> {
    inventory.sources().into_iter().map(|source| source.sha256).collect()
}

/// Gives visits to the crews of a plan.
///
/// # Errors
/// When a list cannot be read, or not twice.
pub(super) fn send(plan: &mut Plan<'_>, lists: &[PathBuf]) -> Result<ReadAhead> {
    if !lists.iter().all(|list| can_be_read_again(list)) {
        return Err(Error::request(
            "crews need the lists to be read twice; standard input and pipes cannot be: name files, or leave out [[crew]]",
        ));
    }
    let mut inventory = Inventory::open(lists, &plan.campaign.rules)?;
    plan.send_crews(&mut inventory)?;
    Ok(ReadAhead(digests(&inventory)))
}

impl ReadAhead {
    /// Asks whether the lists are still those that were read ahead.
    ///
    /// # Errors
    /// Where one has changed: its visits would have the days of others.
    pub(super) fn prove(&self, inventory: &Inventory) -> Result<()> {
        if self.0 == digests(inventory) {
            return Ok(());
        }
        Err(Error::request("a list changed while it was read; plan again"))
    }
}
