//! Strings and the bottom of the well: the last of them gives the depth where the row has none, or does not fit to it.

use super::super::shown;
use super::TENTH;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft};
use crate::quantity::parse::Piece;

const FIELD: Field = Field::CasingDiameter;

/// Pieces that reach so many times deeper than the well are another depth, and no rounding. No source.
const DEEPER: f64 = 1.05;

/// Whether the last piece is said to be the hole or the screen.
fn is_named(draft: &Draft) -> bool {
    const ENDS: [&str; 10] = ["oh", "open", "hole", "screen", "scr", "scrn", "point", "pt", "perf", "slotted"];
    let last = draft.typed(FIELD).rsplit([',', ';', '+', '/']).next().unwrap_or_default().to_lowercase();
    last.split(|c: char| !c.is_alphabetic()).any(|word| ENDS.contains(&word))
}

/// Takes the depth of a row without one from its last piece, where that is said to be the hole or the screen.
pub(super) fn gives_depth(draft: &mut Draft, pieces: &[Piece]) {
    const DEPTH: Field = Field::TotalDepth;
    let bottom = pieces.last().filter(|_| pieces.len() > 1).and_then(|piece| piece.bottom);
    let blank = draft.datum(DEPTH) == Datum::Missing && draft.form(DEPTH).is_none();
    let Some(bottom) = bottom.filter(|_| blank && is_named(draft)) else { return };
    draft.set_number(DEPTH, bottom);
    let says = format!("the depth is not given; the last piece ends at {}", shown(draft, DEPTH, bottom));
    draft.say(catalogue::STRINGS_IN_WORDS, FIELD, says, "no action needed if correct; otherwise write the depth");
}

/// Whether the pieces end well above the bottom though the last is said to be the hole or the screen, or well below the
/// bottom; that is then said.
pub(super) fn apart_from_bottom(draft: &mut Draft, pieces: &[Piece]) -> bool {
    let (Some(bottom), Some(depth)) = (pieces.last().and_then(|piece| piece.bottom), draft.number(Field::TotalDepth))
    else {
        return false;
    };
    let level = draft.number(Field::StaticWaterLevel).unwrap_or(0.0).max(0.0);
    // `deepened to 185`: the hole goes on below what was cased; `caved to 140`: it ends above.
    let later = draft.findings.iter().any(|finding| finding.code == catalogue::OVERRULED);
    let apart = (depth - bottom).abs() > TENTH * (depth - level);
    let told = if bottom < depth { is_named(draft) } else { bottom > DEEPER * depth };
    if later || pieces.len() < 2 || !told || !apart {
        return false;
    }
    let says = format!(
        "the pieces end at {}, and the well is {} deep: one of the two is not so, or a piece is missing",
        shown(draft, Field::TotalDepth, bottom),
        shown(draft, Field::TotalDepth, depth)
    );
    draft.say(catalogue::TWO_READINGS, FIELD, says, "write the missing piece, or the depth that holds");
    draft.refuse(FIELD);
    true
}
