//! Several descriptions of the same water that do not agree.

use super::shown;
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::Draft;

/// Says where depth, level, height and volume contradict one another.
pub(super) fn contradictions(draft: &mut Draft) {
    let depth = draft.number(Field::TotalDepth);
    let level = draft.number(Field::StaticWaterLevel);
    let column = draft.number(Field::WaterColumn);
    if let (Some(depth), Some(column)) = (depth, column) {
        if column > depth * (1.0 + 1e-9) {
            let says = format!(
                "{} of water in a well {} deep",
                shown(draft, Field::WaterColumn, column),
                shown(draft, Field::TotalDepth, depth)
            );
            let related = vec![draft.beside(Field::TotalDepth)];
            draft.say_with(
                catalogue::COLUMN_EXCEEDS_DEPTH,
                Field::WaterColumn,
                says,
                "check both values and their units",
                related,
            );
        } else if let Some(level) = level
            && level < depth
            && (column - (depth - level.max(0.0))).abs() > 0.1 + 0.05 * column
        {
            let height = depth - level.max(0.0);
            let disputed = !(0.8..=1.25).contains(&(column / height));
            let says = format!(
                "depth less level is {}, the list says {}{}",
                shown(draft, Field::WaterColumn, height),
                shown(draft, Field::WaterColumn, column),
                if disputed { "" } else { "; depth and level are used" }
            );
            let related = vec![draft.beside(Field::TotalDepth), draft.beside(Field::StaticWaterLevel)];
            let code = if disputed { catalogue::HEIGHT_DISPUTED } else { catalogue::COLUMN_CONTRADICTED };
            draft.say_with(code, Field::WaterColumn, says, "correct the one that is wrong", related);
        }
    }
    let (Some(volume), Some(diameter)) = (draft.number(Field::WaterVolume), draft.number(Field::CasingDiameter)) else {
        return;
    };
    let height = match (depth, level, column) {
        (Some(depth), Some(level), _) if level < depth => depth - level.max(0.0),
        (_, _, Some(column)) => column,
        _ => return,
    };
    let cylinder = std::f64::consts::FRAC_PI_4 * diameter * diameter * height;
    if !(0.5..=2.0).contains(&(volume / cylinder)) {
        let says = format!(
            "diameter and height of water give {}, the list says {}",
            shown(draft, Field::WaterVolume, cylinder),
            shown(draft, Field::WaterVolume, volume)
        );
        let related = vec![draft.beside(Field::CasingDiameter)];
        draft.say_with(
            catalogue::VOLUME_CONTRADICTED,
            Field::WaterVolume,
            says,
            "check volume and diameter and their units",
            related,
        );
    }
}
