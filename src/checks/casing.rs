//! Casing intervals listed beside the well: what overlaps, what is missing, and the one diameter at each depth.

use super::standing::Triple;
use super::{length, shown};
use crate::field::Field;
use crate::finding::{Finding, catalogue};
use crate::inventory::Draft;
use crate::place::Place;
use crate::well::Interval;

/// Lengths closer than this are the same depth, in metres.
const SAME_DEPTH_M: f64 = 1e-6;

/// The usable intervals of a well.
pub(super) struct Listed {
    /// Top, bottom, diameter in metres; sorted by top, not overlapping, the narrowest where strings overlapped.
    stretches: Vec<(f64, f64, f64)>,
    overlapped: bool,
    place: Place,
}

/// The intervals of this row's well; what cannot be used is said. `None` where none is usable.
pub(super) fn listed(draft: &mut Draft) -> Option<Listed> {
    let given = draft.intervals();
    let place = given.first()?.place.clone();
    let well: Option<Box<str>> = draft.id().map(Into::into);
    let mut usable: Vec<(f64, f64, f64)> = Vec::new();
    let mut faults: Vec<Finding> = Vec::new();
    for interval in given {
        match (&interval.fault, interval.bottom, interval.diameter) {
            (None, Some(bottom), Some(diameter)) => usable.push((interval.top.unwrap_or(0.0), bottom, diameter)),
            (Some(fault), ..) => faults.push(Finding {
                code: catalogue::INTERVAL_UNUSABLE,
                place: fault.place.clone(),
                well: well.clone(),
                seen: fault.seen.clone(),
                says: format!("this casing interval {} and is left out", fault.says).into(),
                help: "correct the cell".into(),
                related: Vec::new(),
            }),
            (None, ..) => {}
        }
    }
    draft.findings.append(&mut faults);
    if usable.is_empty() {
        return None;
    }
    // Cut at every end; between two neighbouring cuts the narrowest string holds the water.
    let mut cuts: Vec<f64> = usable.iter().flat_map(|(top, bottom, _)| [*top, *bottom]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < SAME_DEPTH_M);
    let mut stretches: Vec<(f64, f64, f64)> = Vec::new();
    let mut overlapped = false;
    for pair in cuts.windows(2) {
        let (top, bottom) = (pair[0], pair[1]);
        let middle = f64::midpoint(top, bottom);
        let over = usable.iter().filter(|(from, to, _)| *from < middle && middle < *to);
        overlapped |= over.clone().count() > 1;
        let Some(diameter) = over.map(|(.., diameter)| *diameter).reduce(f64::min) else { continue };
        match stretches.last_mut() {
            Some(last) if last.2 == diameter && (last.1 - top).abs() < SAME_DEPTH_M => last.1 = bottom,
            _ => stretches.push((top, bottom, diameter)),
        }
    }
    Some(Listed { stretches, overlapped, place })
}

impl Listed {
    /// The deepest interval's diameter, for the record.
    pub(super) fn inner(&self) -> Triple {
        let diameter = self.stretches.last().map_or(0.0, |(.., diameter)| *diameter);
        Triple { low: diameter, mid: diameter, high: diameter }
    }

    /// Says what was decided about overlaps and gaps.
    pub(super) fn remark(&self, draft: &mut Draft, depth: f64) {
        let related = || vec![(self.place.clone(), "is the first interval".into())];
        if self.overlapped {
            let says = "casing intervals overlap; the narrowest counts where they do";
            draft.say_with(
                catalogue::INTERVALS_OVERLAP,
                Field::WellId,
                says,
                "nothing, if they are strings one inside another",
                related(),
            );
        }
        let mut at = 0.0;
        let mut gap = false;
        for (top, bottom, _) in &self.stretches {
            gap |= *top > at + 0.01;
            at = *bottom;
        }
        if at + 0.01 < depth || gap && at > 0.0 {
            let says = format!(
                "the casing intervals leave stretches without a diameter down to {}; that of the interval above is used",
                shown(draft, Field::TotalDepth, depth)
            );
            draft.say_with(
                catalogue::INTERVALS_INCOMPLETE,
                Field::WellId,
                says,
                "add the open hole as an interval",
                related(),
            );
        }
    }

    /// Intervals from the ground to the bottom, without gaps; a gap takes the diameter above it.
    pub(super) fn down_to(&self, depth: f64) -> Vec<Interval> {
        let mut whole: Vec<(f64, f64, f64)> = Vec::new();
        for (top, bottom, diameter) in &self.stretches {
            let top = if whole.is_empty() { 0.0 } else { *top };
            if top >= depth {
                break;
            }
            if let Some(above) = whole.last_mut() {
                above.1 = top;
            }
            whole.push((top, bottom.min(depth), *diameter));
        }
        if let Some(last) = whole.last_mut() {
            last.1 = depth;
        }
        whole
            .into_iter()
            .map(|(top, bottom, diameter)| Interval {
                top: length(top),
                bottom: length(bottom),
                diameter: length(diameter),
            })
            .collect()
    }
}
