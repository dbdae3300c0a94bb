//! A pipe or rings that stand in a well from the top to the bottom: `entubado a 125 mm hasta el fondo`, `re-cased 100 mm full
//! depth`, `buses de 0,80 posées à l'intérieur jusqu'au fond`. The water stands in them.

use super::lengths::{Reader, Written};
use super::statement::{Change, Said};
use super::words::{CASED, RINGS};
use crate::field::Field;

/// Words that such a pipe stands inside what was there.
const INSIDE: [&str; 10] = [
    "inside",
    "within",
    "interieur",
    "l'interieur",
    "dedans",
    "dentro",
    "adentro",
    "interior",
    "interiormente",
    "into",
];

/// A pipe is no wider than so many meters, where its width is told in meters or feet.
const WIDEST_M: f64 = 3.0;

impl Reader<'_> {
    /// The word that such a pipe is told by.
    pub(super) fn begins_inner(&self, at: usize) -> bool {
        CASED.contains(&self.word(at)) || RINGS.contains(&self.word(at))
    }

    /// The one width that a sentence gives a pipe from the top to the bottom.
    pub(super) fn inner(&self, at: usize, (first, last): (usize, usize)) -> Option<Said> {
        // `cuvelage refait à 1,00 m jusqu'au fond`
        let anew = self.has(&["refait", "refaite", "rehecho", "rehecha", "refeito", "refeita", "redone"], first, last);
        let inside = CASED.contains(&self.word(at)) || anew || self.has(&INSIDE, first, last);
        let gone = self.has(&["pulled", "removed", "retirado", "retire", "rusted", "rotten", "old"], first, last);
        // `4 in pvc set inside, curb backfilled`: around the pipe there is no water any more.
        let around = self.has(&INSIDE, first, last) && self.has(&["backfilled", "grouted"], first, last);
        if !inside || gone || !(self.all_the_way(first, last) || around && !self.has(&["to"], first, last)) {
            return None;
        }
        let is_width = |written: &Written| match written.unit {
            None => true,
            Some(unit) => unit.is_of_widths() || written.value <= WIDEST_M,
        };
        let mut widths = (first..last).filter_map(|at| {
            let (written, end) = self.length(at)?;
            Some((written, at, end))
        });
        let (written, from, end) = widths.next().filter(|(written, ..)| is_width(written))?;
        if widths.next().is_some() {
            return None;
        }
        Some((Field::CasingDiameter, Change::To(written), true, from.min(at), end.max(at + 1)))
    }
}
