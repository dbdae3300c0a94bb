//! Axes: where a value lies, and the round numbers that are written beside it.

use crate::document::chart::Axis;
use crate::document::figure::number;

/// An axis of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    by_factors: bool,
    from: f64,
    to: f64,
    step: f64,
}

impl Scale {
    /// An axis that shows these values between two places of the drawing; nothing where there are no values to show.
    pub(super) fn new(axis: &Axis, values: impl Iterator<Item = f64>, from: f64, to: f64) -> Option<Self> {
        let usable = |value: &f64| value.is_finite() && (!axis.by_factors || *value > 0.0);
        let (mut low, mut high) = values
            .filter(usable)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        if low > high {
            return None;
        }
        if axis.by_factors {
            return Some(Self {
                low: low.log10(),
                high: high.log10().max(low.log10() + 0.1),
                by_factors: true,
                from,
                to,
                step: 0.0,
            });
        }
        if axis.from_zero {
            (low, high) = (low.min(0.0), high.max(0.0));
        }
        if high - low < f64::EPSILON * high.abs().max(1.0) {
            high = low + low.abs().max(1.0);
        }
        let step = round_step((high - low) / 5.0);
        let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
        Some(Self { low, high, by_factors: false, from, to, step })
    }

    /// Where a value lies.
    pub(super) fn place(&self, value: f64) -> f64 {
        let value = if self.by_factors { value.log10() } else { value };
        self.from + (value - self.low) / (self.high - self.low) * (self.to - self.from)
    }

    /// Round values on the axis with their text.
    pub(super) fn ticks(&self) -> Vec<(f64, String)> {
        if self.by_factors {
            let decades = self.low.floor() as i32..=self.high.ceil() as i32;
            let values = decades.flat_map(|decade| [1.0, 2.0, 5.0].map(|digit| digit * 10_f64.powi(decade)));
            return values
                .filter(|value| (self.low - 1e-9..=self.high + 1e-9).contains(&value.log10()))
                .map(|value| (value, number(value, if value < 1.0 { 2 } else { 0 })))
                .collect();
        }
        let digits = (-self.step.log10().floor()).max(0.0) as usize;
        let count = ((self.high - self.low) / self.step).round() as usize;
        (0..=count).map(|at| self.low + at as f64 * self.step).map(|value| (value, number(value, digits))).collect()
    }
}

/// The next of 1, 2, 5, 10, ….
fn round_step(raw: f64) -> f64 {
    let decade = 10_f64.powf(raw.log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|digit| digit * decade).find(|step| *step >= raw * 0.999).unwrap_or(10.0 * decade)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)] // A test may stop at what it did not expect.

    use super::*;

    #[test]
    fn ticks_are_round_and_within_the_drawing() {
        let axis = Axis { from_zero: true, ..Axis::new("Cost", "USD") };
        let scale = Scale::new(&axis, [2_894.0, 11_300.0].into_iter(), 0.0, 600.0).unwrap();
        let texts: Vec<String> = scale.ticks().into_iter().map(|(_, text)| text).collect();
        assert_eq!(texts, ["0", "5,000", "10,000", "15,000"]);
        assert!(scale.place(11_300.0) <= 600.0 && scale.place(0.0) == 0.0);
        let axis = Axis { by_factors: true, ..Axis::new("Dose", "mg/L") };
        let scale = Scale::new(&axis, [10.0, 1_000.0].into_iter(), 0.0, 600.0).unwrap();
        assert_eq!(scale.ticks().len(), 7);
        assert!((scale.place(100.0) - 300.0).abs() < 1e-9);
        assert!(Scale::new(&axis, [0.0, f64::NAN].into_iter(), 0.0, 1.0).is_none());
        // One value is drawn as well.
        assert!(Scale::new(&Axis::new("pH", ""), [7.0].into_iter(), 0.0, 1.0).is_some());
    }
}
