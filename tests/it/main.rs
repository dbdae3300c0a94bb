//! One test binary. Modules by kind:
//!
//! - `published`, `chemistry`: values printed by somebody else, and the independent solvers;
//! - `quantities`, `reading`, `findings`: from written text to proven wells, one file per finding, dirty files;
//! - `fuzzing`, `hostile`: damaged files and files made to do harm;
//! - `real`, `registers`: real excerpts, and public registers' layouts, with the mapping files that `scenarios/` has ready;
//! - `formats`, `corrections`, `quality`: kinds of files, lists corrected without being touched, what a list is worth;
//! - `scenario_files`: scenario files, right ones and wrong ones; `dose_command`, `command`: what the command answers;
//! - `rollup`, `workbook`, `determinism`: whole runs: sums, orders, sheets, and the same bytes every time;
//! - `properties`: what must hold for any input; `architecture`: the house itself;
//! - `running`: runs the command and reads its outputs, for the others.
//!
//! A fixture is read from `fixtures/` beside Cargo.toml; no test looks outside the checkout, and none is timed.

#![allow(clippy::unwrap_used, clippy::print_stdout, clippy::print_stderr, missing_docs)]

mod architecture;
mod chemistry;
mod command;
mod conditions;
mod corrections;
mod determinism;
mod documents;
mod dose_command;
mod findings;
mod folders;
mod formats;
mod fuzzing;
mod hostile;
mod lists;
mod names;
mod properties;
mod published;
mod quality;
mod quantities;
mod reading;
mod real;
mod registers;
mod rollup;
mod running;
mod scenario_files;
mod template;
mod workbook;
