//! What is added where too little chlorine is left at the end of the contact time.
//!
//! The same steps as for the dose (D2; D3 or D4; M1), for the target alone: demand was met by what was poured before. It is
//! the amount for water without any chlorine left, so that what is added never falls short; at most the residual that was
//! still there comes on top.

use super::requirement::{Amount, Practice, Prepared, Stock};
use super::{dose, measure};
use crate::quantity::Volume;

/// Product for the treated water to reach the target again, before rounding up.
fn top_up(treated: Volume, practice: &Practice, product: &Prepared) -> Amount {
    let chlorine = dose::chlorine(practice.target, treated);
    match product.stock {
        Stock::Liquid { used, density, .. } => {
            Amount::liquid(chlorine, practice.measure_for.reading().of(used), density)
        }
        Stock::Dry { used, .. } => Amount::dry(chlorine, practice.measure_for.reading().of(used)),
    }
}

/// The same as a person measures it: amount and unit symbol; `None` only for an amount that is not a number.
pub fn measured_top_up(treated: Volume, practice: &Practice, product: &Prepared) -> Option<(f64, &'static str)> {
    match (top_up(treated, practice, product), product.stock) {
        (Amount::Liquid { volume, .. }, _) => {
            measure::measure_liquid(volume, practice.system).map(|measured| (measured.amount, measured.unit))
        }
        (Amount::Dry(mass), Stock::Dry { bulk_density, .. }) => {
            measure::measure_dry(mass, bulk_density, practice.system).map(|measured| (measured.amount, measured.unit))
        }
        (Amount::Dry(_), Stock::Liquid { .. }) => None,
    }
}
