//! The water that is treated, in one reading, with the chlorine that it takes and the product that is poured for it.
//!
//! It is the part of the chain that an uncertain well or an aged product changes: everything here is cheap, and may be asked
//! again for other water or another strength. What the dose then does to the water is told in
//! [`requirement`](super::requirement).

use super::dose;
use super::measure::Measured;
use super::moving::{self, Feed, WallWash};
use super::pour::{Amount, Prepared};
use super::practice::Practice;
use super::volume::{self, Water};
use crate::quantity::{ChlorineConcentration, ChlorineMass, Volume};
use crate::well::Well;

/// The water of a well that is treated under a practice, and what it takes.
#[derive(Debug, Clone, Copy)]
pub struct TreatedWater<'a> {
    well: &'a Well,
    practice: &'a Practice,
    dose: ChlorineConcentration,
    /// How much there is.
    pub volume: Volume,
    /// Wash for the walls, with its chlorine, where the well is to be emptied.
    pub wash: Option<(Volume, ChlorineMass)>,
    chlorine: ChlorineMass,
    /// Chlorine of the wash and of a spring's feed.
    beside: ChlorineMass,
}

/// Product as it is poured: what is taken in all, and what is measured out of it.
#[derive(Debug, Clone, Copy)]
pub struct Poured {
    /// Product computed, in all, before it is rounded up to the measure.
    pub product: Amount,
    /// What is measured out for the water.
    pub measured: Measured<Amount>,
    /// What is measured out for the walls.
    pub wash: Option<WallWash>,
    /// What is fed to a spring.
    pub feed: Option<Feed>,
}

impl<'a> TreatedWater<'a> {
    /// Treated volume (Q2, V3), its chlorine at a dose (D2), and the chlorine of the wall wash (E1, E2) and the feed (Q3).
    pub fn of(well: &'a Well, practice: &'a Practice, dose: ChlorineConcentration, water: Water<'_>) -> Self {
        let plumbing = well.plumbing_volume.unwrap_or(practice.plumbing_volume);
        let held = moving::water_held(well, practice, water.volume);
        let volume = volume::treated_volume(held, practice.volume_allowance, plumbing, practice.least_volume);
        let wash = moving::wash_chlorine(well, practice, water);
        let fed = moving::feed_chlorine(well, practice, dose);
        let nothing = ChlorineMass::from_grams(0.0);
        let beside = wash.map_or(nothing, |(_, chlorine)| chlorine) + fed.unwrap_or(nothing);
        Self { well, practice, dose, volume, wash, chlorine: dose::chlorine(dose, volume), beside }
    }

    /// Chlorine for the water alone: no less than the least product holds that the practice asks for.
    pub fn water_chlorine(&self, product: &Prepared) -> ChlorineMass {
        let least = product.stock.least_chlorine(self.practice.least_product);
        least.filter(|least| *least > self.chlorine).unwrap_or(self.chlorine)
    }

    /// Chlorine in all: for the water, the wall wash and a spring's feed.
    pub fn chlorine(&self, product: &Prepared) -> ChlorineMass {
        self.water_chlorine(product) + self.beside
    }

    /// Product in all (D3, D4).
    pub fn product(&self, product: &Prepared) -> Amount {
        product.stock.holding(self.chlorine(product))
    }

    /// The product for this water at this strength, measured out (M1); `None` only for what is not a number.
    #[inline(always)] // Made where it is used, for each well, practice and product.
    pub fn pour(&self, product: &Prepared) -> Option<Poured> {
        let wash = match self.wash {
            Some((solution, chlorine)) => Some(moving::wall_wash(solution, chlorine, product, self.practice)?),
            None => None,
        };
        let chlorine = self.water_chlorine(product);
        Some(Poured {
            product: product.stock.holding(chlorine + self.beside),
            measured: product.stock.measured(chlorine, self.practice.system)?,
            wash,
            feed: moving::feed(self.well, self.practice, product, self.dose),
        })
    }

    /// The dose that what was measured out gives in this water if the product has this strength (D5), whatever strength and
    /// water it was measured out for.
    pub fn dose_of(&self, poured: &Poured, product: &Prepared) -> ChlorineConcentration {
        dose::dose_given(product.stock.chlorine_in(poured.measured.product), self.volume)
    }
}
