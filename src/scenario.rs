//! What a campaign states ([`stated`], pulled out by [`written`] as the vocabulary says) and what it means ([`Campaign`]).
//!
//! Called by `cli`; used by the engine, the roll-up and the reports. It computes nothing but the strength of a product on
//! the day of use, and refuses to know any well.

pub mod buy;
mod campaign;
pub mod crew;
pub mod depot_stock;
pub mod file_text;
mod grid;
mod in_words;
pub mod practice;
pub mod product;
mod rules;
pub mod section;
pub mod stated;
pub mod stock;
pub mod supply;
pub mod toml_text;

pub use campaign::{Campaign, Exclude, OutsizedRule, Override, UNITS_OPEN};
pub use grid::Scenario;
pub use in_words::{keys_as_words, plain_word};
pub use rules::{field_names, meanings};
