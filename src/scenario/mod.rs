//! The scenario file: what it says ([`written`], read once by each topic's file) and what it means ([`Campaign`]).
//!
//! Called by `cli`; used by the engine, the roll-up and the reports. It computes nothing but the strength of a product on
//! the day of use, and refuses to know any well.

mod campaign;
mod grid;
pub mod practice;
pub mod product;
mod rules;
pub mod stock;
pub mod supply;
pub mod water;
pub mod written;

pub use campaign::{Campaign, Exclude, OutsizedRule, Override, Scenario};
pub use rules::field_names;
