//! What a well needs, over the readings of what is uncertain: the one place where they meet.
//!
//! The method knows one reading at a time. It is asked here for the reading that is planned with (mid), and, of what an assumed
//! value or an aged product leaves open, for the least and the most (low, high). Three things come of more than one reading:
//!
//! - **What is measured out** is that of the side which the practice measures for: mid's, or high's. What comes of it, from
//!   the dose that it gives to the neutralizer, is told of mid's water and mid's strength.
//! - **The least dose** is what was measured out, if the product is as weak and the water as much as high has them.
//! - **The product** lies between that of low and that of high.
//!
//! Where nothing is uncertain, low and high are mid. It adds up nothing: sums of lows and of highs are their readers' matter.

use std::ops::Deref;

use crate::kernel::requirement::{
    Amount, AtRest, Practice, Prepared, PreparedPractice, Requirement, TreatedWater, Treatment, Water, requirement,
};
use crate::quantity::{Band, ChlorineConcentration, Draw};
use crate::well::Well;

/// What a well needs under a practice with a product: the requirement that is planned with, and how far the truth may lie
/// from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Need {
    planned: Requirement,
    /// Product computed, in all, in the reading that needs least.
    pub product_low: Amount,
    /// Product computed, in all, in the reading that needs most.
    pub product_high: Amount,
    /// Concentration that the measured amount gives at least: in the most water, with the weakest product.
    pub least_dose: ChlorineConcentration,
}

impl Deref for Need {
    type Target = Requirement;

    fn deref(&self) -> &Requirement {
        &self.planned
    }
}

impl Need {
    /// What one well needs; the engine, which asks for many scenarios at once, goes by [`Readings`].
    ///
    /// `None` only if an amount is not a number, which proven wells, practices and products do not give.
    pub fn of(well: &Well, practice: &Practice, product: Band<&Prepared>) -> Option<Self> {
        Readings::of(&mut at_rest(well), &PreparedPractice::of(practice)).need(product)
    }

    /// What it would need if everything uncertain about the well were as it is drawn; `product` is a draw too. Nothing of it
    /// is planned: many draws tell how far a sum may lie from what is planned.
    pub fn drawn(well: &Well, practice: &Practice, product: &Prepared, draw: Draw) -> Option<Requirement> {
        requirement(well, Water::drawn(well, draw), practice, product)
    }
}

/// A well with the water that is planned with.
pub fn at_rest(well: &Well) -> AtRest<'_> {
    AtRest::of(well, Water::of(&well.standing_water))
}

/// A well under a practice, in its readings, whatever the product.
#[derive(Debug)]
pub struct Readings<'a> {
    planned: Treatment<'a>,
    /// The least and the most water, where it is uncertain.
    range: Option<(TreatedWater<'a>, TreatedWater<'a>)>,
}

impl<'a> Readings<'a> {
    /// The treatment of the water that is planned with, and the least and the most that is treated.
    pub fn of(rest: &mut AtRest<'a>, practice: &PreparedPractice<'a>) -> Self {
        let mut readings = Self { planned: Treatment::of(rest, practice), range: None };
        if let Some((low, high)) = readings.planned.well().standing_water_range.as_deref() {
            let treated = |water| readings.planned.treated_of(Water::of(water));
            readings.range = Some((treated(low), treated(high)));
        }
        readings
    }

    /// What it needs of a product in its readings; `None` only if an amount is not a number.
    pub fn need(&self, product: Band<&Prepared>) -> Option<Need> {
        let mid = self.planned.treated();
        let water = self.range.as_ref().map_or(Band::exactly(mid), |(low, high)| Band { low, mid, high });
        let side = self.planned.practice().measure_for.reading();
        let poured = side.of(water).pour(side.of(product));
        let poured = poured.as_ref()?;
        let (product_low, product_high) = (water.low.product(product.low), water.high.product(product.high));
        let least_dose = water.high.dose_of(poured, product.high);
        Some(Need { product_low, product_high, least_dose, planned: self.planned.need(product.mid, poured) })
    }
}
