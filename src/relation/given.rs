//! One visit under one practice with one product: the typed records and what the kernel made of them, which operands are read from.

use crate::kernel::requirement::{Practice, Prepared};
use crate::ledger::{CaseLabel, Get};
use crate::quantity::Reading;
use crate::scenario::product::Product;
use crate::scenario::stock::StockOnTheDay;
use crate::visit::Need;
use crate::well::{Interval, StandingWater, Well};

/// One visit with everything that its relations count with.
#[derive(Debug, Clone, Copy)]
pub struct Given<'a> {
    /// The proven well, whose standing water has a low and a high where something was assumed.
    pub well: &'a Well,
    /// The practice that holds for it.
    pub practice: &'a Practice,
    /// The product as it is described.
    pub product: &'a Product,
    /// The product on the day of use.
    pub stock: &'a StockOnTheDay,
    /// What the kernel made of them.
    pub need: &'a Need,
}

impl<'a> Given<'a> {
    /// The standing water in a reading.
    pub fn water(&self, reading: Reading) -> &'a StandingWater {
        reading.of(self.well.standing())
    }

    /// The product on the day of use in a reading.
    pub fn product(&self, reading: Reading) -> &'a Prepared {
        reading.of(self.stock.readings())
    }

    /// The stretch of one diameter in a reading.
    pub(super) fn interval(&self, reading: Reading, at: Option<usize>) -> Option<&'a Interval> {
        match self.water(reading) {
            StandingWater::Bore { intervals, .. } => intervals.get(at?),
            _ => None,
        }
    }

    /// The side on which the measured amount meets the target.
    pub fn side(&self) -> Reading {
        self.practice.measure_for.reading()
    }

    /// A value of the ledger's column, in its unit.
    pub(super) fn column(&self, get: Get) -> f64 {
        let prepared = &self.stock.prepared.stock;
        match get {
            Get::NeedNumber(get) => get(self.need),
            Get::CaseNumber(get) => get(&CaseLabel { name: "", product: "", stock: prepared }),
            _ => f64::NAN,
        }
    }
}
