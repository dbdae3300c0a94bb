//! What a report is made of, in no format: typed cells and the sheets they stand in, cells to be filled in, cards that a
//! crew carries, and documents of blocks.
//!
//! `report` makes documents of a run; `write` makes bytes of documents. Neither wells nor file formats are known here.

pub mod block;
pub mod card;
pub mod cell;
pub mod cell_chart;
pub mod chart;
pub mod entry;
pub mod figure;
pub mod formula;
pub mod plain;
mod upright;
