//! A value that is not known exactly: what is planned with, between the least and the greatest that it may be.

/// Which value is put in for what is uncertain; what is not uncertain has the same value in every reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Reading {
    /// The one that needs least product.
    Low,
    /// The one that is planned with.
    Mid,
    /// The one that needs most product.
    High,
}

impl Reading {
    /// This reading of a band.
    pub fn of<T>(self, band: Band<T>) -> T {
        match self {
            Self::Low => band.low,
            Self::Mid => band.mid,
            Self::High => band.high,
        }
    }
}

/// A value with its lowest and highest reading; all three are the same where nothing was assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T> {
    /// The lowest reading; of an amount that is derived, the reading that needs least product.
    pub low: T,
    /// The reading that is planned with.
    pub mid: T,
    /// The highest reading; of an amount that is derived, the reading that needs most product.
    pub high: T,
}

impl<T: Copy> Band<T> {
    /// A value without spread.
    pub const fn exactly(value: T) -> Self {
        Self { low: value, mid: value, high: value }
    }

    /// The same function of each reading.
    pub fn map<U>(self, f: impl Fn(T) -> U) -> Band<U> {
        Band { low: f(self.low), mid: f(self.mid), high: f(self.high) }
    }
}

impl<T: Copy + PartialEq> Band<T> {
    /// Whether there is no spread.
    pub fn is_exact(self) -> bool {
        self.low == self.mid && self.mid == self.high
    }
}
