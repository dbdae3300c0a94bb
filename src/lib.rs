//! Aftercrest: the batch engine for shock chlorination of drinking-water wells after a flood.
//!
//! It takes the well inventory as a program really has it, says cell by cell what is wrong with it, and for every well under
//! every scenario computes the chlorine dose, the product to measure out, the neutralizer for a safe discharge and the
//! flush; it rolls that up into what to buy. Amounts are planning figures: local code and licensed practice come first.
//!
//! The rooms, from the cellar up; each uses only rooms below it (a test enforces it): [`quantity`], [`source`], [`place`],
//! [`table`], [`document`], [`error`] – [`field`], [`finding`], [`caution`], [`hazard`] – [`well`], [`inventory`] –
//! [`checks`], [`kernel`] – [`parameter`], [`scenario`] – [`book`] – [`visit`] – [`rollup`], [`ledger`], [`schedule`] – [`engine`], [`relation`] – [`report`] –
//! [`write`](mod@write) – [`cli`]. DEVELOPERS.md follows one well through them.

pub mod book;
pub mod caution;
pub mod checks;
pub mod cli;
pub mod document;
pub mod engine;
pub mod error;
pub mod field;
pub mod finding;
pub mod hazard;
pub mod inventory;
pub mod kernel;
pub mod ledger;
pub mod parameter;
pub mod place;
pub mod quantity;
pub mod relation;
pub mod report;
pub mod rollup;
pub mod scenario;
pub mod schedule;
pub mod source;
pub mod table;
pub mod visit;
pub mod well;
pub mod write;
