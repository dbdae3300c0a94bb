//! The chemistry, proved: published rows, an independent solver, properties, and the register of equations.
//!
//! `cases` runs every row of `fixtures/published/chemistry_cases.csv`; `oracle` compares pH with PHREEQC; `aftermath` tells what is left behind, `behaviour` goes
//! second routes, `properties` tries random inputs, `quoted` holds texts to constants, `tables` checks whole tables, `second_route` another program of ours; `equations` keeps equations, constants and their papers honest.

#![allow(clippy::unwrap_used, clippy::print_stdout)] // A test may stop at what it did not expect, and says what it did.

mod aftermath;
mod behaviour;
mod cases;
mod equations;
mod oracle;
mod properties;
mod quoted;
mod second_route;
mod tables;
