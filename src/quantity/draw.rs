//! Values by chance for what is uncertain, the same ones each time that they are asked for.
//!
//! A draw asks nobody else: what it gives rests on its number, on which input it is of and whose, not on the order in which
//! it is asked nor on threads.
//!
//! The distribution is our choice, no source: a triangle from low over mid to high, mid being the likeliest, because a low, a
//! mid and a high are all that is stated. Inputs are drawn apart from one another, wells too: what all of them have in
//! common (an assumed width that is wrong for a whole county) is not in a draw. The mean of a triangle is a third of low,
//! mid and high together, so the mean of many draws is not mid where low and high lie unevenly about it.

use super::{Band, Reading};

/// The draw of this number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Draw(pub u32);

/// A value between readings: from mid so far toward one of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Low or high.
    pub toward: Reading,
    /// Share of the way there: 0 at mid, 1 at the end.
    pub share: f64,
}

impl Draw {
    /// Where the value of an input lies that is stated as a band; `whose` tells those apart that are drawn apart.
    pub fn of(self, input: &str, whose: &str, band: Band<f64>) -> Drawn {
        let below = ((band.mid - band.low) / (band.high - band.low)).clamp(0.0, 1.0);
        let chance = self.chance(input, whose);
        // The triangle's distribution turned around. Of a band without any spread `below` is not a number: mid.
        if chance < below {
            Drawn { toward: Reading::Low, share: 1.0 - (chance / below).sqrt() }
        } else if below < 1.0 {
            Drawn { toward: Reading::High, share: 1.0 - ((1.0 - chance) / (1.0 - below)).sqrt() }
        } else {
            Drawn { toward: Reading::Mid, share: 0.0 }
        }
    }

    /// A number between 0 and 1 that looks random: FNV-1a over the names, stirred as `SplitMix64` stirs.
    fn chance(self, input: &str, whose: &str) -> f64 {
        let bytes = self.0.to_le_bytes().into_iter().chain(input.bytes()).chain([0]).chain(whose.bytes());
        let mut bits = bytes
            .fold(0xCBF2_9CE4_8422_2325_u64, |bits, byte| (bits ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01B3));
        for (shift, times) in [(30, 0xBF58_476D_1CE4_E5B9), (27, 0x94D0_49BB_1331_11EB)] {
            bits = (bits ^ (bits >> shift)).wrapping_mul(times);
        }
        bits ^= bits >> 31;
        ((bits >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }
}
