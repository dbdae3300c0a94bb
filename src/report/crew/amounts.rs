//! Amounts as a crew measures them, in the words of its language.
//!
//! What is measured out was rounded up by the method; other figures are shown to three digits. Nothing is computed here but
//! the unit that people read.

use super::words::{Terms, Words};
use crate::field::rules::UnitSystem;
use crate::kernel::measure::{Measured, measure_dilution, measure_dry, measure_liquid, weigh};
use crate::kernel::requirement::{Amount, Stock};
use crate::quantity::basis::{ChlorateConcentration, liters_per_minute};
use crate::quantity::format::number;
use crate::quantity::kitchen::{self, Piece};
use crate::quantity::unit;
use crate::quantity::{ChlorineConcentration, Length, Time, Volume, VolumeRate, liters, liters_of};
use crate::report::show::Shown;

/// Minutes below which a time is said in minutes.
const MINUTES_BELOW: f64 = 120.0;

/// A well that no bucket is large for.
pub(super) const ANY_WELL: Volume =
    Volume { value: f64::INFINITY, dimension: std::marker::PhantomData, units: std::marker::PhantomData };

/// How a crew measures and reads.
#[derive(Debug, Clone, Copy)]
pub(super) struct Amounts<'a> {
    pub(super) words: &'a Words,
    pub(super) system: UnitSystem,
}

impl Amounts<'_> {
    /// An amount of a measure: `1 3/4 cups`.
    pub(super) fn measured(&self, amount: f64, unit: &str) -> String {
        self.pieces(&kitchen::pieces(amount, unit))
    }

    fn pieces(&self, pieces: &[Piece<'_>]) -> String {
        kitchen::joined(pieces, |piece| format!("{} {}", piece.number, self.words.measure(piece.unit, piece.many)))
    }

    /// A weight, rounded up to the scale; `None` for nothing.
    pub(super) fn weight(&self, kilograms: f64) -> Option<String> {
        weigh(kilograms, self.system).map(|weight| self.measured(weight.amount, weight.unit))
    }

    /// Water by the bucket, rounded up; `None` where none is asked for.
    pub(super) fn bucket(&self, water: Volume, treated: Volume) -> Option<String> {
        let Measured { amount, unit, .. } = measure_dilution(water, treated, self.system)?;
        Some(self.pieces(&kitchen::bucket_pieces(amount, unit)))
    }

    /// Water by the bucket, however little of the well it is.
    pub(super) fn pail(&self, water: Volume) -> String {
        self.bucket(water, ANY_WELL).unwrap_or_default()
    }

    /// The same in SI, as it is measured out.
    pub(super) fn bucket_si(&self, water: Volume, treated: Volume) -> Volume {
        let measured = measure_dilution(water, treated, self.system);
        measured.map_or_else(Volume::default, |measured| measured.product)
    }

    /// What one bucket holds.
    const fn pail_size(&self) -> (f64, &'static str) {
        match self.system {
            UnitSystem::Us => (5.0, "US gal"),
            UnitSystem::Imperial => (5.0, "imp gal"),
            UnitSystem::Metric => (20.0, "L"),
        }
    }

    /// More water than this does not go into one bucket.
    pub(super) fn pail_held(&self) -> Volume {
        let (amount, unit) = self.pail_size();
        let value = unit::by_symbol(unit).map_or(f64::NAN, |unit| unit.to_si(amount));
        Volume { value, ..Volume::default() }
    }

    /// The same in words.
    pub(super) fn pail_held_words(&self) -> String {
        let (amount, unit) = self.pail_size();
        self.pieces(&kitchen::bucket_pieces(amount, unit))
    }

    /// An amount of product, rounded up to the measure.
    pub(super) fn product(&self, amount: Amount, stock: &Stock) -> Option<String> {
        match (amount, stock) {
            (Amount::Liquid { volume, .. }, _) => {
                measure_liquid(volume, self.system).map(|measured| self.measured(measured.amount, measured.unit))
            }
            (Amount::Dry(mass), Stock::Dry { bulk_density, .. }) => measure_dry(mass, *bulk_density, self.system)
                .map(|measured| self.measured(measured.amount, measured.unit)),
            (Amount::Dry(mass), Stock::Liquid { .. }) => self.weight(mass.kilograms()),
        }
    }

    /// A value of the tables in the unit that people read: `620 gallons`.
    fn shown(&self, symbol: &'static str, value: f64) -> String {
        let shown = Shown::of(symbol, self.system);
        let value = number(shown.value(value), 3);
        let unit = self.words.unit(shown.symbol, value != "1");
        format!("{value} {unit}")
    }

    /// A volume of water.
    pub(super) fn volume(&self, volume: Volume) -> String {
        self.shown("L", liters(volume))
    }

    /// A volume of water in liters.
    pub(super) fn liters(&self, value: f64) -> String {
        self.volume(liters_of(value))
    }

    /// A rate of pumping.
    pub(super) fn rate(&self, rate: VolumeRate) -> String {
        self.shown("L/min", liters_per_minute(rate))
    }

    /// A depth or a height.
    pub(super) fn depth(&self, length: Length) -> String {
        self.shown("m", length.value)
    }

    /// A diameter, in inches or millimeters.
    pub(super) fn across(&self, length: Length) -> String {
        self.shown("mm", length.value * 1000.0)
    }

    /// A concentration of free chlorine.
    pub(super) fn chlorine(&self, concentration: ChlorineConcentration) -> String {
        self.shown("mg/L", concentration.milligrams_per_liter())
    }

    /// A concentration of chlorate.
    pub(super) fn chlorate(&self, concentration: ChlorateConcentration) -> String {
        self.shown("mg/L", concentration.milligrams_per_liter())
    }

    /// A stated time, in hours.
    pub(super) fn hours(&self, time: Time) -> String {
        format!("{} {}", number(time.value / 3600.0, 3), self.words.term(Terms::Unit, "h"))
    }

    /// A time that is an estimate, in minutes or hours.
    pub(super) fn about(&self, time: Time) -> String {
        match time.value / 60.0 {
            minutes if minutes < MINUTES_BELOW => self.minutes(minutes),
            minutes => format!("{} {}", number(minutes / 60.0, 2), self.words.term(Terms::Unit, "h")),
        }
    }

    /// Whole minutes, at least one.
    pub(super) fn minutes(&self, minutes: f64) -> String {
        format!("{} {}", number(minutes.ceil().max(1.0), 3), self.words.term(Terms::Unit, "min"))
    }
}
