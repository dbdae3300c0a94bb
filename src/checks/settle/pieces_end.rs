//! Strings that end above the bottom of the well, though the last of them is said to be its hole or its screen: a piece is
//! missing, or one of the two depths no longer holds.

use super::super::shown;
use super::TENTH;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::Draft;
use crate::quantity::parse::Piece;

/// Whether the last piece is said to be the hole or the screen, and ends well above the bottom; that is then said.
pub(super) fn above_bottom(draft: &mut Draft, pieces: &[Piece]) -> bool {
    const FIELD: Field = Field::CasingDiameter;
    const ENDS: [&str; 10] = ["oh", "open", "hole", "screen", "scr", "scrn", "point", "pt", "perf", "slotted"];
    let (Some(bottom), Some(depth)) = (pieces.last().and_then(|piece| piece.bottom), draft.number(Field::TotalDepth))
    else {
        return false;
    };
    let level = draft.number(Field::StaticWaterLevel).unwrap_or(0.0).max(0.0);
    let last = draft.typed(FIELD).rsplit([',', ';', '+']).next().unwrap_or_default().to_lowercase();
    let named = last.split(|c: char| !c.is_alphabetic()).any(|word| ENDS.contains(&word));
    // `deepened to 185`: the hole goes on below what was cased.
    let later = draft.findings.iter().any(|finding| finding.code == catalogue::OVERRULED);
    if later || pieces.len() < 2 || !named || depth - bottom <= TENTH * (depth - level) {
        return false;
    }
    let says = format!(
        "the pieces end at {}, and the well is {} deep: a piece is missing, or one of the two is no longer so",
        shown(draft, Field::TotalDepth, bottom),
        shown(draft, Field::TotalDepth, depth)
    );
    draft.say(catalogue::TWO_READINGS, FIELD, says, "write the missing piece, or the depth that holds");
    draft.refuse(FIELD);
    true
}
