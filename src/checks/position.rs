//! Coordinates against the campaign's box; they have no part in the dose.

use crate::field::Field;
use crate::field::rules::ReadingRules;
use crate::finding::catalogue;
use crate::inventory::Draft;

/// Looks at the coordinates of a row.
pub(super) fn check(draft: &mut Draft, rules: &ReadingRules) {
    let (Some(latitude), Some(longitude)) = (draft.number(Field::Latitude), draft.number(Field::Longitude)) else {
        return;
    };
    if latitude == 0.0 && longitude == 0.0 {
        draft.say(
            catalogue::NULL_ISLAND,
            Field::Latitude,
            "0, 0 lies in the Gulf of Guinea; the coordinates are left out",
            "leave the cells blank where the place is not known",
        );
        draft.forget(Field::Latitude);
        draft.forget(Field::Longitude);
        return;
    }
    let Some([south, west, north, east]) = rules.bounding_box else { return };
    let inside = |latitude: f64, longitude: f64| {
        let across = if west <= east {
            (west..=east).contains(&longitude)
        } else {
            longitude >= west || longitude <= east // The box spans the date line.
        };
        (south..=north).contains(&latitude) && across
    };
    if inside(latitude, longitude) {
        return;
    }
    let ways = [
        (latitude, -longitude, "with the longitude's sign changed"),
        (-latitude, longitude, "with the latitude's sign changed"),
        (-latitude, -longitude, "with both signs changed"),
        (longitude, latitude, "with latitude and longitude exchanged"),
        (longitude, -latitude, "with latitude and longitude exchanged and the longitude's sign changed"),
    ];
    match ways.into_iter().find(|(latitude, longitude, _)| inside(*latitude, *longitude)) {
        Some((new_latitude, new_longitude, how)) => {
            let says = format!(
                "{latitude}, {longitude} lies outside the campaign's box, and inside {how}: read as {new_latitude}, {new_longitude}"
            );
            // At the cell that was changed; the first one where both were.
            let (field, other, meant) = if new_latitude == latitude {
                (Field::Longitude, Field::Latitude, new_longitude)
            } else {
                (Field::Latitude, Field::Longitude, new_latitude)
            };
            let finding =
                draft.finding(catalogue::COORDINATES_MENDED, field, says, "correct the list, or the box in [campaign]");
            let related = vec![draft.beside(other)];
            draft.findings.push(finding.related(related).suggesting(Some(meant.to_string())));
            draft.set_number(Field::Latitude, new_latitude);
            draft.set_number(Field::Longitude, new_longitude);
        }
        None => {
            let says = format!("{latitude}, {longitude} lies outside the campaign's box");
            let related = vec![draft.beside(Field::Longitude)];
            draft.say_with(
                catalogue::OUTSIDE_BOX,
                Field::Latitude,
                says,
                "check the coordinates, or the box in [campaign]",
                related,
            );
        }
    }
}
