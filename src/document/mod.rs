//! What a report is made of, in no format: typed cells and the sheets they stand in, and cells to be filled in.
//!
//! `report` makes documents of a run; `write` makes bytes of documents. Neither wells nor file formats are known here.

pub mod cell;
pub mod entry;
