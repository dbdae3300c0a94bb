//! Fields that wells of a type lack and are held back for, with what the lists' own wells of that type have: proposals for the sheet
//! of missing values.

use super::rows_again::Again;
use crate::book::Lacking;
use crate::engine::quality::Quality;
use crate::field::{Field, WellType};
use crate::inventory::FEWEST_WELLS;
use crate::quantity::format::number;

/// Each field for want of which wells of a type are held back, most wells first; with what the wells of that type have that can
/// be planned.
pub(super) fn lacking(again: &Again, quality: &Quality) -> Vec<Lacking> {
    let mut all: Vec<Lacking> = Vec::new();
    for ((well_type, field), wells) in &again.lacking {
        // A spring is a volume, any other well is not; and nobody assumes a type.
        if *field != Field::WellType && (*well_type == WellType::SpringBox) == (*field == Field::WaterVolume) {
            let own = again.values.get(&(*well_type, *field)).map_or(&[][..], Vec::as_slice);
            let own = in_words(*field, own, quality);
            all.push(Lacking { well_type: well_type.name(), field: field.name(), wells: *wells, own });
        }
    }
    all.sort_by_key(|lacking| std::cmp::Reverse(lacking.wells));
    all
}

/// `52 wells: 4 to 8 in, half of them 6 in or less; most often 6 in`.
fn in_words(field: Field, own: &[f64], quality: &Quality) -> String {
    let mut own = own.to_vec();
    own.sort_by(f64::total_cmp);
    let (Some(least), Some(greatest), Some(unit)) = (own.first(), own.last(), quality.unit(field)) else {
        return "none that can be planned says".to_owned();
    };
    let shown = |si: f64| format!("{} {}", number(unit.from_si(si), 3), unit.symbol);
    let median = own[(own.len() - 1) / 2];
    let most = own.chunk_by(|a, b| a == b).max_by_key(|alike| (alike.len(), std::cmp::Reverse(alike[0].to_bits())));
    let often = most.filter(|alike| alike.len() > 1).map(|alike| format!("; most often {}", shown(alike[0])));
    let said = match own.len() {
        1 => format!("1 well: {}", shown(median)),
        count => format!(
            "{count} wells: {} to {}, half of them {} or less{}",
            number(unit.from_si(*least), 3),
            shown(*greatest),
            shown(median),
            often.unwrap_or_default()
        ),
    };
    match own.len() as u64 >= FEWEST_WELLS {
        true => format!("{said}; yes under Drawn from the list takes these"),
        false => format!("{said}; too few to be drawn from: write Low, Mid and High"),
    }
}
