//! The product on the day of use, and how much of it is measured out for an amount of chlorine.
//!
//! Called once for each requirement, between the chlorine and what the measured amount really gives. It refuses to know
//! wells, and how a stock became as weak as it is.

use std::ops::Mul;

use super::measure::Measured;
use super::practice::Practice;
use super::strength::Chemical;
use super::{dose, measure};
use crate::quantity::{Band, Reading};
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
        /// Strength used: measured, or aged from the label; the low reading of the *need* is the least aged.
        used: Band<ChlorinePerLiquid>,
        /// Mass per volume, from the strength and caustic of the label; aging is taken to leave it as it is.
        density: MassDensity,
    },
    /// Granules, powder or tablets, measured by weight, or by volume where the bulk density is stated.
    Dry {
        /// Strength when made, from the label.
        label: ChlorinePerDry,
        /// Strength used: measured, or aged from the label; the low reading of the *need* is the least aged.
        used: Band<ChlorinePerDry>,
        /// Mass per volume as poured into a spoon or cup.
        bulk_density: Option<MassDensity>,
    },
}

impl Stock {
    /// Strength that is planned with: g of chlorine per liter of a liquid, per kilogram of a dry product.
    pub fn strength_used(&self) -> f64 {
        match self {
            Self::Liquid { used, .. } => used.mid.grams_per_liter(),
            Self::Dry { used, .. } => used.mid.ratio() * 1000.0,
        }
    }

    /// Strength used over strength on the label.
    pub fn share_of_label(&self) -> f64 {
        match self {
            Self::Liquid { label, used, .. } => used.mid.grams_per_liter() / label.grams_per_liter(),
            Self::Dry { label, used, .. } => used.mid.ratio() / label.ratio(),
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
    /// The liquid product that holds so much chlorine.
    pub(super) fn liquid(chlorine: ChlorineMass, strength: ChlorinePerLiquid, density: MassDensity) -> Self {
        let volume = dose::liquid_product(chlorine, strength);
        Self::Liquid { volume, mass: dose::liquid_weight(volume, density) }
    }

    /// The dry product that holds so much chlorine.
    pub(super) fn dry(chlorine: ChlorineMass, strength: ChlorinePerDry) -> Self {
        Self::Dry(dose::dry_product(chlorine, strength))
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

/// Product computed and measured out.
pub(super) struct Poured {
    pub(super) product: Band<Amount>,
    pub(super) amount: f64,
    pub(super) unit: &'static str,
    /// Chlorine in what is measured out.
    pub(super) chlorine: ChlorineMass,
    /// Chlorine in it if the product is as weak as it can be.
    pub(super) least_chlorine: ChlorineMass,
    /// Chlorine computed in all, before rounding up to the measure.
    pub(super) in_all: ChlorineMass,
    /// Litres of a liquid, kilograms of a dry product.
    pub(super) liters_or_kilograms: f64,
}

/// The product for the water, of which at least so much is poured as the practice says, and for the wash and feed `beside` it;
/// and what is measured out for the water: the amount of the side that is measured for.
pub(super) fn pour(
    chlorine: Band<ChlorineMass>,
    beside: Band<ChlorineMass>,
    product: &Prepared,
    practice: &Practice,
) -> Option<Poured> {
    let side = practice.measure_for.reading();
    match product.stock {
        Stock::Liquid { used, density, .. } => {
            let least = practice.least_product.liquid.map(|least| used.map(|strength| least * strength));
            let water = at_least(chlorine, least);
            let planned = dose::liquid_product(side.of(water), side.of(used));
            let measured = measure::measure_liquid(planned, practice.system)?;
            let amount = |chlorine, strength| Amount::liquid(chlorine, strength, density);
            Some(poured(water, beside, used, side, amount, measured, measured.product.liters()))
        }
        Stock::Dry { used, bulk_density, .. } => {
            let least = practice.least_product.dry.map(|least| used.map(|strength| least * strength));
            let water = at_least(chlorine, least);
            let planned = dose::dry_product(side.of(water), side.of(used));
            let measured = measure::measure_dry(planned, bulk_density, practice.system)?;
            Some(poured(water, beside, used, side, Amount::dry, measured, measured.product.kilograms()))
        }
    }
}

/// Of each reading the greater, where the practice states a least one.
fn at_least(chlorine: Band<ChlorineMass>, least: Option<Band<ChlorineMass>>) -> Band<ChlorineMass> {
    let greater = |a: ChlorineMass, b: ChlorineMass| if b > a { b } else { a };
    least.map_or(chlorine, |least| Band {
        low: greater(chlorine.low, least.low),
        mid: greater(chlorine.mid, least.mid),
        high: greater(chlorine.high, least.high),
    })
}

/// The product for the water and what is `beside` it, and what the measured product `P` of strength `S` holds.
fn poured<S: Copy, P: Copy + Mul<S, Output = ChlorineMass>>(
    water: Band<ChlorineMass>,
    beside: Band<ChlorineMass>,
    used: Band<S>,
    side: Reading,
    amount: impl Fn(ChlorineMass, S) -> Amount,
    measured: Measured<P>,
    liters_or_kilograms: f64,
) -> Poured {
    Poured {
        product: Band {
            low: amount(water.low + beside.low, used.low),
            mid: amount(side.of(water) + side.of(beside), side.of(used)),
            high: amount(water.high + beside.high, used.high),
        },
        amount: measured.amount,
        unit: measured.unit,
        chlorine: measured.product * used.mid,
        least_chlorine: measured.product * used.high,
        in_all: water.mid + beside.mid,
        liters_or_kilograms,
    }
}
