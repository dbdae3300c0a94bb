//! One test binary. Modules by kind:
//!
//! - `published`, `chemistry`: values printed by somebody else, and the independent solvers;
//! - `quantities`, `reading`, `findings`: from written text to proven wells, one file per finding, dirty files;
//! - `beside`, `bands`: what one column, a band, a note or a list of codes says of another column;
//! - `rows`: what is a well and what is none, and remarks that overrule a cell;
//! - `fuzzing`, `hostile`: damaged files and files made to do harm;
//! - `words`: phrases, codes and ticked boxes with what they mean;
//! - `real`, `registers`: real excerpts, and public registers' layouts, with the mapping files that `scenarios/` has ready;
//! - `causes`: what `check` says on one screen; `widths`: what others say in so many columns;
//! - `formats`, `corrections`, `quality`: kinds of files, lists corrected without being touched, what a list is worth;
//! - `scenario_files`: scenario files, right ones and wrong ones; `dose_command`, `command`: what the command answers;
//! - `moving`: springs, wells that are emptied, small wells, septic systems, the well that swallows the order;
//! - `at_the_well`, `measures`: what people are told where a figure could hurt, and how amounts are said;
//! - `rollup`, `workbook`, `determinism`: whole runs: sums, orders, sheets, and the same bytes every time;
//! - `suppliers`: who sells what, and counts of packages that somebody settled on;
//! - `relations`: the relations of quantities against the kernel, and their units;
//! - `asked_in_words`: what a book asks in words, not in keys or conditions;
//! - `books`, `filled_books`: campaign books, and cells as people fill them in; `filling` fills them;
//! - `crew`: cards, load lists and notices that crews take along; `crews`: who makes which visit when;
//!   `elements`: what a sheet is asked for, on each kind of card; `trucks`: what goes along and what holds on the road;
//!   `prompt_steps`: the same steps in the terminal;
//! - `told`: what a list says beside the dose, in every output; what was taken by default, said first;
//! - `properties`: what must hold for any input; `architecture`: the house itself;
//! - `running`: runs the command and reads its outputs, for the others.
//!
//! A fixture is read from `fixtures/` beside Cargo.toml; no test looks outside the checkout, and none is timed.

#![allow(clippy::unwrap_used, clippy::print_stdout, clippy::print_stderr, missing_docs)]

mod architecture;
mod asked_in_words;
mod at_the_well;
mod bands;
mod beside;
mod books;
mod causes;
mod chemistry;
mod command;
mod conditions;
mod corrections;
mod crew;
mod crews;
mod customs;
mod determinism;
mod documents;
mod dose_command;
mod elements;
mod filled_books;
mod filling;
mod findings;
mod folders;
mod formats;
mod fuzzing;
mod habits;
mod headings;
mod hostile;
mod laid_out;
mod later;
mod lists;
mod measures;
mod moving;
mod names;
mod offices;
mod pages;
mod prompt_steps;
mod properties;
mod published;
mod quality;
mod quantities;
mod reading;
mod real;
mod registers;
mod relations;
mod rollup;
mod rows;
mod running;
mod scenario_files;
mod sizes;
mod spelled;
mod suppliers;
mod template;
mod told;
mod trucks;
mod widths;
mod words;
mod workbook;
mod workbook_print;
