//! Documents and tables to bytes: Parquet, CSV, XLSX, HTML, JSON and the terminal. Knows nothing of wells.
//!
//! Every file of a run is written into one temporary folder beside the output folder and moved into place as a whole
//! ([`folder::OutputFolder`]): outputs appear complete or not at all.

pub mod cards;
mod charts;
pub mod csv;
pub mod earlier;
mod entries;
pub mod folder;
mod formulas;
mod heights;
pub mod html;
pub mod json;
mod looks;
mod new_file;
mod page;
pub mod parquet;
mod rows;
mod shared;
pub mod terminal;
mod texts;
mod widths;
pub mod xlsx;
