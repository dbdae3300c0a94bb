//! Numbers that know what they are.
//!
//! Inside the program every quantity is typed: lengths, volumes and times are [uom] quantities, and a mass or a
//! concentration of a *substance* also carries its chemical basis ([`Of`]), so that grams of available chlorine can
//! never be added to grams of product. Units exist only at the border: [`unit`] lists them with exact factors,
//! [`parse`] turns written text into SI, [`format`](mod@format) turns SI into text, [`kitchen`] says amounts as people measure them. Everything above uses this room;
//! it refuses to know about wells, files or scenarios.

mod band;
pub mod basis;
mod draw;
pub mod format;
pub mod kitchen;
pub mod parse;
pub mod unit;

pub use band::{Band, Reading};
pub use basis::{
    AgentMass, AgentPerChlorine, Chlorine, ChlorineConcentration, ChlorineMass, ChlorinePerDry, ChlorinePerLiquid,
    Neutralizer, Of, Product, ProductMass, ProductVolume, liters, liters_of, meters,
};
pub use draw::{Draw, Drawn};
pub use uom::si::f64::{Length, Mass, MassDensity, ThermodynamicTemperature, Time, Volume, VolumeRate};
