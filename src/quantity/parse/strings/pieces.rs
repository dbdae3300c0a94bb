//! Strings of casing laid one below another, each with the depths of its ends.

use super::spoken::Spoken;
use crate::quantity::unit::Unit;

/// One diameter from one depth to another, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Depth of its top.
    pub top: f64,
    /// Depth of its bottom; nothing where it is all that lies below.
    pub bottom: Option<f64>,
    /// Inside diameter; of an outside that is written with its wall, what is left inside.
    pub diameter: f64,
    /// Its top is taken to be where the string above ends; it could as well hang from the ground.
    pub may_hang_from_ground: bool,
    /// The unit its depths were read in, where none is written.
    pub depths_in: Option<&'static Unit>,
}

/// The strings, each with a top; nothing where a depth is missing between two. Strings may overlap: the inner one counts.
pub(super) fn laid(spoken: &[Spoken], of_diameter: &'static Unit, of_depth: &'static Unit) -> Option<Vec<Piece>> {
    let mut pieces: Vec<Piece> = Vec::with_capacity(spoken.len());
    let mut end: Option<f64> = Some(0.0);
    for (at, one) in spoken.iter().enumerate() {
        let last = at + 1 == spoken.len();
        let top = one.top.map(|top| top.si(of_depth)).or(end)?;
        let next_top = spoken.get(at + 1).and_then(|next| next.top).map(|top| top.si(of_depth));
        let next_top = next_top.filter(|next| !one.below || *next > top);
        let bottom = one.bottom.map(|bottom| bottom.si(of_depth)).or(next_top);
        // Only an open hole goes on below while a liner stands in it.
        if at == 0 && top > 0.0 || !last && bottom.is_none() && !(one.below && one.joined && at > 0) {
            return None;
        }
        // A string without any depth is not said to be below or inside.
        if last && at > 0 && one.bottom.is_none() && one.top.is_none() && !one.below && !one.joined {
            return None;
        }
        let diameter = one.diameter.si(of_diameter);
        if bottom.is_some_and(|bottom| bottom <= top) || diameter <= 0.0 {
            return None;
        }
        let may_hang_from_ground = at > 0 && one.top.is_none() && one.bottom.is_some() && !one.joined;
        pieces.push(Piece { top, bottom, diameter, may_hang_from_ground, depths_in: None });
        end = if last { bottom } else { deeper(end, bottom) };
    }
    Some(pieces)
}

/// The deeper of two depths; nothing where the second is the bottom of the well.
fn deeper(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    Some(one?.max(other?))
}
