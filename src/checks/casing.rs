//! Casing intervals listed beside the well: what overlaps, what is missing, and the one diameter at each depth.

use super::{length, shown};
use crate::field::Field;
use crate::finding::{Finding, catalogue};
use crate::inventory::Draft;
use crate::place::{Origin, Place};
use crate::quantity::Band;
use crate::well::Interval;

/// Lengths closer than this are the same depth, in meters.
const SAME_DEPTH_M: f64 = 1e-6;

/// Deeper than any well: the bottom of what is listed without one, in meters.
pub(super) const FARTHEST_M: f64 = 1e6;

/// An interval that can be used, in meters.
struct Usable<'a> {
    top: f64,
    bottom: f64,
    diameter: f64,
    origin: &'a Origin,
}

/// The usable intervals of a well.
pub(super) struct Listed {
    /// Top, bottom, diameter in meters; sorted by top, not overlapping, the narrowest where strings overlapped.
    stretches: Vec<(f64, f64, f64)>,
    overlapped: bool,
    /// An interval begins above the ground, as casings do.
    above_ground: bool,
    /// No interval says how deep it reaches.
    without_depths: bool,
    place: Place,
}

/// The intervals of this row's well; what cannot be used is said. `None` where none is usable.
pub(super) fn listed(draft: &mut Draft) -> Option<Listed> {
    let given = draft.intervals();
    let place = given.first()?.place.clone();
    let mut usable: Vec<Usable> = Vec::new();
    let mut broken: Vec<Finding> = Vec::new();
    let mut above_ground = false;
    // Registers list many a casing by its diameter alone; that is the well's, where nothing better is listed.
    let without_depths = !given.iter().any(|interval| interval.bottom.is_some() && interval.diameter.is_some());
    for interval in given {
        let top = interval.top.unwrap_or(0.0);
        let origin = &interval.place.origin;
        match (&interval.fault, interval.bottom, interval.diameter) {
            (None, Some(bottom), Some(diameter)) => {
                above_ground |= top < 0.0;
                usable.push(Usable { top: top.max(0.0), bottom, diameter, origin });
            }
            (_, None, Some(diameter)) if without_depths => {
                usable.push(Usable { top: 0.0, bottom: FARTHEST_M, diameter, origin });
            }
            (Some(fault), ..) => {
                let says = format!("this casing interval {} and is left out", fault.says);
                let finding = Finding::new(catalogue::INTERVAL_UNUSABLE, fault.place.clone(), says, "correct the cell");
                broken.push(finding.seen(&fault.seen).of_well(draft.id()));
            }
            (None, ..) => {}
        }
    }
    let listed = cut(&usable).map(|(stretches, overlapped)| Listed {
        stretches,
        overlapped,
        above_ground,
        without_depths,
        place,
    });
    draft.findings.append(&mut broken);
    listed
}

/// Top, bottom and diameter of stretches that do not overlap, from the top down; and whether intervals did.
type Stretches = (Vec<(f64, f64, f64)>, bool);

/// Cuts at every end; between two neighbouring cuts the narrowest string holds the water.
fn cut(usable: &[Usable]) -> Option<Stretches> {
    let mut cuts: Vec<f64> = usable.iter().flat_map(|interval| [interval.top, interval.bottom]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < SAME_DEPTH_M);
    let mut stretches: Vec<(f64, f64, f64)> = Vec::new();
    let mut overlapped = false;
    let mut by_top: Vec<&Usable> = usable.iter().collect();
    by_top.sort_by(|a, b| a.top.total_cmp(&b.top));
    let mut coming = by_top.into_iter().peekable();
    let mut open: Vec<&Usable> = Vec::new();
    for pair in cuts.windows(2) {
        let (top, bottom) = (pair[0], pair[1]);
        let middle = f64::midpoint(top, bottom);
        let mut narrowest: Option<f64> = None;
        let mut tables: Vec<&Origin> = Vec::new();
        open.retain(|interval| middle < interval.bottom);
        while let Some(interval) = coming.next_if(|interval| interval.top < middle) {
            open.extend((middle < interval.bottom).then_some(interval));
        }
        for interval in &open {
            // A table of bore holes and one of casings overlap by their nature.
            overlapped |= tables.contains(&interval.origin);
            if !overlapped {
                tables.push(interval.origin);
            }
            narrowest = Some(narrowest.map_or(interval.diameter, |least| least.min(interval.diameter)));
        }
        let Some(diameter) = narrowest else { continue };
        match stretches.last_mut() {
            Some(last) if last.2 == diameter && (last.1 - top).abs() < SAME_DEPTH_M => last.1 = bottom,
            _ => stretches.push((top, bottom, diameter)),
        }
    }
    (!stretches.is_empty()).then_some((stretches, overlapped))
}

impl Listed {
    /// The deepest interval's diameter, for the record.
    pub(super) fn inner(&self) -> Band<f64> {
        let diameter = self.stretches.last().map_or(0.0, |(.., diameter)| *diameter);
        Band::exactly(diameter)
    }

    /// How deep the intervals reach, in meters; below it the last diameter is taken.
    pub(super) fn end(&self) -> f64 {
        self.stretches.last().map_or(0.0, |(_, bottom, _)| *bottom)
    }

    /// Says what was decided about overlaps and gaps.
    pub(super) fn remark(&self, draft: &mut Draft, depth: f64) {
        let related = || vec![(self.place.clone(), "is the first interval".into())];
        if self.without_depths {
            let says = format!(
                "the casing intervals do not say how deep they reach; {} is used all the way",
                shown(draft, Field::CasingDiameter, self.inner().mid)
            );
            let help = "write from and to, if there is more than one diameter";
            draft.say_with(catalogue::INTERVALS_INCOMPLETE, Field::WellId, says, help, related());
            return;
        }
        if self.above_ground {
            let says = "a casing interval begins above the ground; it is counted from the ground";
            let help = "no action needed if the casing sticks up that far";
            draft.say_with(catalogue::INTERVALS_INCOMPLETE, Field::WellId, says, help, related());
        }
        if self.overlapped {
            let says = "casing intervals overlap; the narrowest counts where they do";
            draft.say_with(
                catalogue::INTERVALS_OVERLAP,
                Field::WellId,
                says,
                "no action needed if they are strings one inside another",
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

    /// Intervals from the ground to the bottom, without gaps; a gap takes the diameter above it, what lies below the last
    /// interval the diameter `below`, where one is given.
    pub(super) fn down_to(&self, depth: f64, below: Option<f64>) -> Vec<Interval> {
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
            let end = last.1;
            match below.filter(|_| end + SAME_DEPTH_M < depth) {
                Some(diameter) => whole.push((end, depth, diameter)),
                None => last.1 = depth,
            }
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
