//! What is added where too little chlorine is left at the end of the contact time.
//!
//! The same steps as for the dose (D2; D3 or D4; M1), for the target alone: demand was met by what was poured before. It is
//! the amount for water without any chlorine left, so that what is added never falls short; at most the residual that was
//! still there comes on top.

use super::dose;
use super::requirement::{Practice, Prepared};
use crate::quantity::Volume;

/// Product for the treated water to reach the target again, as a person measures it: amount and unit symbol; `None` only for
/// an amount that is not a number.
pub fn measured_top_up(treated: Volume, practice: &Practice, product: &Prepared) -> Option<(f64, &'static str)> {
    let measured = product.stock.measured(dose::chlorine(practice.target, treated), practice.system)?;
    Some((measured.amount, measured.unit))
}
