//! The measures of one product as a ladder of plain numbers, smallest first.

/// One measure of the ladder: amounts below its end are measured by it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rung {
    /// Unit symbol of the measure.
    pub unit: &'static str,
    /// Product in one unit: liters of a liquid, kilograms of a dry product.
    pub size: f64,
    /// How many of the unit the measure is used up to, itself not included; without end for the greatest.
    pub below: f64,
    /// Units in so many graduations.
    pub units: f64,
    /// Graduations in so many units.
    pub parts: f64,
}
