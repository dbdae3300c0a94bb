//! The product on the day of use, in one reading: how much of it holds an amount of chlorine, what a person measures out, and
//! what that holds again.
//!
//! It refuses to know wells, how a stock became as weak as it is, and how sure its strength is.

use super::dose;
use super::measure::{self, Measured};
use super::practice::LeastProduct;
use super::strength::Chemical;
use crate::field::rules::UnitSystem;
use crate::quantity::{ChlorineMass, ChlorinePerDry, ChlorinePerLiquid, MassDensity, ProductMass, ProductVolume};

/// A product on the day of use, with what its chemistry does to the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prepared {
    /// What is in it.
    pub chemical: Chemical,
    /// Free hydroxide it brings, mol per mol of chlorine; `None` where nobody knows (bleaching powder).
    pub hydroxide_per_chlorine: Option<f64>,
    /// Whether its age, temperature or strength is outside what the aging law was measured for, or it needs a test.
    pub age_in_doubt: bool,
    /// Share left of the strength that was known last: of the label's, or of a test's.
    pub share_left: f64,
    /// Strength on the day of use, with the density of a liquid or the bulk density of a dry product.
    pub stock: Stock,
}

/// Strength of a product on the day of use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stock {
    /// A liquid, measured by volume.
    Liquid {
        /// Strength when made, from the label.
        label: ChlorinePerLiquid,
        /// Strength used: measured, or aged from the label.
        used: ChlorinePerLiquid,
        /// Mass per volume, from the strength and caustic of the label; aging is taken to leave it as it is.
        density: MassDensity,
    },
    /// Granules, powder or tablets, measured by weight, or by volume where the bulk density is stated.
    Dry {
        /// Strength when made, from the label.
        label: ChlorinePerDry,
        /// Strength used: measured, or aged from the label.
        used: ChlorinePerDry,
        /// Mass per volume as poured into a spoon or cup.
        bulk_density: Option<MassDensity>,
    },
}

impl Stock {
    /// Strength used: g of chlorine per liter of a liquid, per kilogram of a dry product.
    pub fn strength_used(&self) -> f64 {
        match self {
            Self::Liquid { used, .. } => used.grams_per_liter(),
            Self::Dry { used, .. } => used.ratio() * 1000.0,
        }
    }

    /// Strength used over strength on the label.
    pub fn share_of_label(&self) -> f64 {
        match self {
            Self::Liquid { label, used, .. } => used.grams_per_liter() / label.grams_per_liter(),
            Self::Dry { label, used, .. } => used.ratio() / label.ratio(),
        }
    }

    /// The product that holds so much chlorine (D3, D4).
    pub fn holding(&self, chlorine: ChlorineMass) -> Amount {
        match *self {
            Self::Liquid { used, density, .. } => Amount::liquid(dose::liquid_product(chlorine, used), density),
            Self::Dry { used, .. } => Amount::Dry(dose::dry_product(chlorine, used)),
        }
    }

    /// The chlorine that so much of the product holds.
    pub fn chlorine_in(&self, amount: Amount) -> ChlorineMass {
        match (*self, amount) {
            (Self::Liquid { used, .. }, Amount::Liquid { volume, .. }) => volume * used,
            (Self::Liquid { used, density, .. }, Amount::Dry(mass)) => dose::liquid_volume(mass, density) * used,
            (Self::Dry { used, .. }, Amount::Liquid { mass, .. } | Amount::Dry(mass)) => mass * used,
        }
    }

    /// The chlorine in the least that may be poured of it, where there is a least.
    pub(super) fn least_chlorine(&self, least: LeastProduct) -> Option<ChlorineMass> {
        match *self {
            Self::Liquid { used, .. } => least.liquid.map(|least| least * used),
            Self::Dry { used, .. } => least.dry.map(|least| least * used),
        }
    }

    /// The same so far on the way to the strength of another.
    #[must_use]
    pub fn toward(&self, other: &Self, share: f64) -> Self {
        let mut between = *self;
        match (&mut between, other) {
            (Self::Liquid { used, .. }, Self::Liquid { used: other, .. }) => *used = *used + (*other - *used) * share,
            (Self::Dry { used, .. }, Self::Dry { used: other, .. }) => *used = *used + (*other - *used) * share,
            _ => {}
        }
        between
    }

    /// The product that holds so much chlorine, as a person measures it out (M1); `None` only for what is not a number.
    pub fn measured(&self, chlorine: ChlorineMass, system: UnitSystem) -> Option<Measured<Amount>> {
        match *self {
            Self::Liquid { used, density, .. } => {
                let measured = measure::measure_liquid(dose::liquid_product(chlorine, used), system)?;
                Some(measured.map(|volume| Amount::liquid(volume, density)))
            }
            Self::Dry { used, bulk_density, .. } => {
                let measured = measure::measure_dry(dose::dry_product(chlorine, used), bulk_density, system)?;
                Some(measured.map(Amount::Dry))
            }
        }
    }
}

/// An amount of product as it is bought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// A liquid: what is measured, and what it weighs.
    Liquid {
        /// The volume that holds the chlorine at the strength used.
        volume: ProductVolume,
        /// What that volume weighs: what there is to haul, though a liquid is bought by volume.
        mass: ProductMass,
    },
    /// The mass of a dry product, also where it is measured out by volume.
    Dry(ProductMass),
}

impl Amount {
    fn liquid(volume: ProductVolume, density: MassDensity) -> Self {
        Self::Liquid { volume, mass: dose::liquid_weight(volume, density) }
    }

    /// Litres of a liquid; NaN for a dry product.
    pub fn liters(self) -> f64 {
        match self {
            Self::Liquid { volume, .. } => volume.liters(),
            Self::Dry(_) => f64::NAN,
        }
    }

    /// Litres of a liquid, kilograms of a dry product: in the unit it is bought by.
    pub fn bought(self) -> f64 {
        match self {
            Self::Liquid { volume, .. } => volume.liters(),
            Self::Dry(mass) => mass.kilograms(),
        }
    }

    /// Kilograms of a dry product; NaN for a liquid, which is bought by volume.
    pub fn dry_kilograms(self) -> f64 {
        match self {
            Self::Liquid { .. } => f64::NAN,
            Self::Dry(mass) => mass.kilograms(),
        }
    }

    /// Kilograms, of a liquid too: what there is to haul.
    pub fn kilograms(self) -> f64 {
        match self {
            Self::Liquid { mass, .. } | Self::Dry(mass) => mass.kilograms(),
        }
    }
}
