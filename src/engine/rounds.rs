//! How much of the lists is worked on at once: by bytes, not by threads.

use crate::error::Result;
use crate::inventory::{Batch, Inventory};

/// Rows in a batch. Fixed, because partial sums are taken over batches.
const BATCH_ROWS: usize = 8192;
/// Batches of one round at most.
const MOST_BATCHES: usize = 24;
/// Bytes of one round, about: lists as they are read, and the rows of the table that come of them.
const ROUND_BYTES: usize = 128 << 20;
/// Bytes of a row of the table while it is worked on, about.
const TABLE_ROW_BYTES: usize = 400;

/// The batches that are worked on at once: enough that no core waits for the slowest, and no more than memory is meant to
/// hold, on however many threads. `scenarios` is how many rows of the table come of each row of a list.
pub(super) fn read_round(inventory: &mut Inventory, scenarios: usize) -> Result<Vec<Batch>> {
    let most = (rayon::current_num_threads() * 4).min(MOST_BATCHES);
    let (mut round, mut bytes) = (Vec::new(), 0);
    while round.len() < most && bytes < ROUND_BYTES {
        match inventory.next_batch(BATCH_ROWS)? {
            Some(batch) => {
                bytes += batch.bytes() + batch.rows() * scenarios * TABLE_ROW_BYTES;
                round.push(batch);
            }
            None => break,
        }
    }
    Ok(round)
}

/// The part of the input that is read, 0 to 1.
pub(super) fn share_read(inventory: &Inventory) -> f64 {
    let (read, all) = inventory.rows_hint();
    if all == 0 { 0.0 } else { (read as f64 / all as f64).min(1.0) }
}
