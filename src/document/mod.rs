//! What a report is made of, in no format: typed cells and the sheets they stand in, cells to be filled in,
//! and cards that a crew carries.
//!
//! `report` makes documents of a run; `write` makes bytes of documents. Neither wells nor file formats are known here.

pub mod card;
pub mod cell;
pub mod entry;
