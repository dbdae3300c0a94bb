//! What crews take along: cards of visits by depot, load lists, a notice and a tag.
//!
//! Cards are data (`document::card`): what is on each, in which order, in the words of one language. Everything that a crew
//! reads is a phrase of `words`; every figure is the requirement's, said as people measure it. What a review of 34 state
//! protocols found missing on such sheets (Sci. Total Environ. 720:137451, 2020: a measured residual, pH, circulation, contact
//! time, follow-up) is on each card.
//!
//! - `steps`, `after`: what is done, in order; `rules`: figures that only practice gives, with their sources;
//! - `planned`, `held_back`: a card; `facts`, `strength`, `taken`, `bring`: parts of it; `load`: what is loaded; `containers`: out of which containers; `from_stock`, `in_place`: older stock that is poured; `truck`: which gear, strips, bottles and water for users go along; `transport`: what holds on the road; `days`: crews' days; `dates`: those of a visit; `notice`: for users and taps;
//! - `job`: one visit as its card needs it; `amounts`: how a crew measures; `words`, `phrases`: its language.

mod after;
mod amounts;
mod bring;
mod containers;
mod dates;
mod days;
mod facts;
mod from_stock;
mod held_back;
mod in_place;
mod job;
mod load;
mod measured;
mod notice;
mod older;
mod outing;
mod phrases;
mod planned;
mod rules;
mod sheets;
mod shelf;
mod steps;
mod strength;
mod taken;
mod transport;
mod truck;
mod words;

pub use bring::product_to_bring;
pub(super) use days::{counted_for, loads, on_containers};
pub(super) use facts::whereabouts;
pub(super) use from_stock::of_older_stock;
pub use job::Job;
pub(super) use measured::{Measured, there};
pub use sheets::{Counts, Papers, of_run, of_well};
pub use steps::procedure;
pub use transport::on_the_road;
pub use words::{Language, Words};
