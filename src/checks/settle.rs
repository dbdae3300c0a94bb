//! What cells say beside their numbers, put to use before anything is checked: what a level is counted from, a height of
//! water where a depth was asked, strings of casing in words, a well that flows.

mod elevation;
mod pieces_end;

use super::casing::FARTHEST_M;
use super::{pipe, shown};
use crate::field::{Field, WellType, usual, within};
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft, Form, ListedInterval};
use crate::quantity::parse::{Piece, Reference, plain, water_in_words};
use crate::quantity::unit;

/// How far casings and rims usually stand above the ground, in meters: a foot or two. Common practice, no source; codes ask
/// for a foot.
const USUAL_STICK_UP_M: (f64, f64) = (0.3, 0.6);

/// A change of the water by less than this share is planned with and said; a greater one is asked.
pub(super) const TENTH: f64 = 0.1;

/// Puts to use what the row's cells say beside their numbers.
pub(super) fn settle(draft: &mut Draft, well_type: Option<WellType>, assumed: &mut Vec<Field>) {
    level_for_height(draft);
    elevation::settle(draft);
    match draft.reference(Field::StaticWaterLevel) {
        Some(Reference::Top) => level_from_top(draft),
        Some(Reference::SeaLevel) => level_above_sea(draft),
        Some(Reference::Ground) => depth_from_top(draft),
        None => level_from_unsaid(draft),
    }
    level_zero(draft);
    for field in [Field::StaticWaterLevel, Field::WaterColumn] {
        if draft.form(field) == Some(&Form::Flowing) {
            let help = "no action needed if correct; water is counted up to ground level";
            draft.say(catalogue::FLOWING_WELL, field, "the well is said to flow", help);
        }
    }
    height_of_water(draft);
    pipe::settle(draft, well_type, assumed);
    rings(draft);
    strings(draft, well_type);
}

/// Narrower rings at the bottom: the well is as wide as its casing down to them, and as wide as they are below.
fn rings(draft: &mut Draft) {
    const RINGS: Field = Field::OpenHoleDiameter;
    let Some(Form::Rings(rings)) = draft.form(RINGS).cloned() else { return };
    let Some(below) = rings.diameter else {
        let says = "narrower rings at the bottom, and how wide they are is not written";
        draft.say(catalogue::TWO_READINGS, RINGS, says, "write how wide they are, as in 4 x 0.5 m, 100 cm");
        draft.refuse(RINGS);
        draft.refuse(Field::CasingDiameter);
        return;
    };
    let (Some(depth), Some(above)) = (draft.number(Field::TotalDepth), draft.number(Field::CasingDiameter)) else {
        return;
    };
    let top = depth - rings.height;
    if top <= 0.0 || below > above {
        let says = "rings at the bottom that are wider than the well, or higher than it is deep";
        draft.say(catalogue::TWO_READINGS, RINGS, says, "check how many they are, how high and how wide");
        draft.refuse(Field::CasingDiameter);
        return;
    }
    let pieces = [
        Piece { top: 0.0, bottom: Some(top), diameter: above, may_hang_from_ground: false, depths_in: None },
        Piece { top, bottom: None, diameter: below, may_hang_from_ground: false, depths_in: None },
    ];
    take_pieces(draft, RINGS, &pieces);
}

/// Takes the pieces of a well as its intervals, and says them.
fn take_pieces(draft: &mut Draft, field: Field, pieces: &[Piece]) {
    let words: Vec<String> =
        pieces.iter().map(|piece| pipe::string_words(draft, piece.top, piece.bottom, piece.diameter)).collect();
    let help = "no action needed if correct; otherwise write casing_diameter, casing_depth and open_hole_diameter";
    draft.say(catalogue::STRINGS_IN_WORDS, field, format!("read as {}", words.join(", then ")), help);
    let place = draft.place(field);
    let listed = pieces.iter().map(|piece| ListedInterval {
        top: Some(piece.top),
        bottom: Some(piece.bottom.unwrap_or(FARTHEST_M)),
        diameter: Some(piece.diameter),
        place: place.clone(),
        fault: None,
    });
    let listed = listed.collect();
    draft.set_strings(listed);
}

/// Moves a depth and its spread.
fn replace(draft: &mut Draft, field: Field, depth: impl Fn(f64) -> f64) {
    if let Some((one, other)) = draft.spread(field).map(|(low, high)| (depth(low), depth(high))) {
        draft.set_spread(field, one.min(other), one.max(other));
    }
    if let Some(si) = draft.number(field) {
        draft.set_number(field, depth(si));
    }
}

/// A level in the column of heights, counted from where the depth is; or water up to the ground.
fn level_for_height(draft: &mut Draft) {
    const HEIGHT: Field = Field::WaterColumn;
    if draft.datum(Field::StaticWaterLevel) != Datum::Missing {
        return;
    }
    const HELP: &str = "no action needed if correct; otherwise write the height";
    match draft.form(HEIGHT) {
        Some(Form::Level(level)) => {
            let level = *level;
            draft.set_number(Field::StaticWaterLevel, level);
            if let Some(from) = draft.reference_in_cell(HEIGHT).or_else(|| draft.reference(Field::TotalDepth)) {
                draft.set_reference(Field::StaticWaterLevel, from);
            }
            let says = format!("read as a level, {} down, not as a height", shown(draft, HEIGHT, level));
            draft.say(catalogue::WATER_IN_WORDS, HEIGHT, says, HELP);
        }
        Some(Form::Full | Form::Flowing) => {
            draft.set_number(Field::StaticWaterLevel, 0.0);
            draft.say(catalogue::WATER_IN_WORDS, HEIGHT, "read as water standing at the ground", HELP);
            // The depth may be counted from the rim; the water is counted to the ground.
            if draft.reference(Field::TotalDepth) == Some(Reference::Top)
                && let Some(stick_up) = draft.number(Field::StickUp)
            {
                replace(draft, Field::TotalDepth, |si| si - stick_up);
            }
        }
        _ => {}
    }
}

fn level_from_top(draft: &mut Draft) {
    const LEVEL: Field = Field::StaticWaterLevel;
    let Some(level) = draft.number(LEVEL) else { return };
    let depth_too = draft.reference(Field::TotalDepth) == Some(Reference::Top);
    if let Some(stick_up) = draft.number(Field::StickUp) {
        say_reduced(draft, LEVEL, stick_up, "counted from the top of the casing");
        replace(draft, LEVEL, |si| si - stick_up);
        if depth_too {
            replace(draft, Field::TotalDepth, |si| si - stick_up);
        }
        return;
    }
    let outright = draft.number(Field::WaterVolume).is_some() || depth_too;
    let depth = draft.number(Field::TotalDepth).or_else(|| draft.listed_depth());
    let Some(depth) = depth.filter(|depth| !outright && *depth > level) else { return };
    // Above the ground no water is counted.
    let change = |stick_up: f64| stick_up.min(level.max(0.0)) / (depth - level.max(0.0));
    let (least, most) = (change(USUAL_STICK_UP_M.0), change(USUAL_STICK_UP_M.1));
    if most < TENTH {
        if draft.fields().any(|field| field == Field::StickUp) && draft.datum(Field::StickUp) == Datum::Missing {
            let says = "counted from the top of the casing, and how far that stands above the ground is blank here; read as if from \
                        the ground";
            let help = "measure it and write stick_up, or the level from the ground";
            draft.say_with(catalogue::REFERENCE_UNSAID, LEVEL, says, help, vec![draft.beside(Field::StickUp)]);
        } else if draft.reference_in_cell(LEVEL).is_some() {
            let says = "the level is counted from the top of the casing; it is read as if from the ground";
            let help = "no action needed if casings stick up only a few inches; otherwise subtract the stick-up or write stick_up";
            draft.say(catalogue::LEVEL_FROM_TOP_OF_CASING, LEVEL, says, help);
        }
        return;
    }
    let says = format!(
        "the level is counted from the top of the casing, and how far that stands above the ground is not given; \
         with {} to {}, as is usual, the water would be {:.0} to {:.0} % more",
        shown(draft, LEVEL, USUAL_STICK_UP_M.0),
        shown(draft, LEVEL, USUAL_STICK_UP_M.1),
        least * 100.0,
        most * 100.0
    );
    let help = stick_up_help(draft, "level");
    draft.say(catalogue::STICK_UP_MISSING, LEVEL, says, help);
    draft.refuse(LEVEL);
}

/// Where to write how far the top stands above the ground; where no column is read as it, the columns come first.
fn stick_up_help(draft: &Draft, counted: &str) -> String {
    if draft.fields().any(|field| field == Field::StickUp) {
        return format!("measure it and write stick_up, or the {counted} from the ground");
    }
    format!(
        "no column of this list is read as stick_up: if one tells how far the casing stands above the ground, say so, \
         [inventory.columns] \"heading\" = \"stick_up\"; if none does, write the {counted} from the ground"
    )
}

/// Says that the height of the rim is taken off a measure.
fn say_reduced(draft: &mut Draft, field: Field, stick_up: f64, counted: &str) {
    let Some(value) = draft.number(field) else { return };
    let says = format!(
        "{counted}: {} less {} of stick-up is {} below the ground",
        shown(draft, field, value),
        shown(draft, field, stick_up),
        shown(draft, field, value - stick_up)
    );
    let related = vec![draft.beside(Field::StickUp)];
    draft.say_with(catalogue::LEVEL_REDUCED, field, says, "no action needed if correct", related);
}

/// A depth that is counted from the top beside a level that is counted from the ground.
fn depth_from_top(draft: &mut Draft) {
    const DEPTH: Field = Field::TotalDepth;
    let (Some(depth), Some(level)) = (draft.number(DEPTH), draft.number(Field::StaticWaterLevel)) else { return };
    if draft.reference(DEPTH) != Some(Reference::Top) || depth <= level {
        return;
    }
    if let Some(stick_up) = draft.number(Field::StickUp) {
        say_reduced(draft, DEPTH, stick_up, "counted from the top, and the level from the ground");
        replace(draft, DEPTH, |si| si - stick_up);
        return;
    }
    if USUAL_STICK_UP_M.1 / (depth - level) < TENTH {
        return;
    }
    let says = "the depth is counted from the top and the level from the ground, and how far the top stands above it is not given";
    let help = stick_up_help(draft, "depth");
    draft.say(catalogue::STICK_UP_MISSING, DEPTH, says, help);
    draft.refuse(DEPTH);
}

/// A bare zero where the level is asked.
fn level_zero(draft: &mut Draft) {
    const LEVEL: Field = Field::StaticWaterLevel;
    let said = draft.form(LEVEL).is_some() || draft.number(Field::WaterColumn).is_some();
    if said || draft.number(LEVEL) != Some(0.0) || plain(draft.typed(LEVEL).trim()) != Some(0.0) {
        return;
    }
    let says = "a zero: read as water standing at the ground; in many lists it stands for a level that nobody measured";
    draft.say(
        catalogue::LEVEL_ZERO,
        LEVEL,
        says,
        "blank the cell if it was not measured; write \"full\" if it stands so",
    );
}

/// A level beside the height of a rim, and nothing that says whether it is counted from there.
fn level_from_unsaid(draft: &mut Draft) {
    const LEVEL: Field = Field::StaticWaterLevel;
    let (Some(level), Some(stick_up)) = (draft.number(LEVEL), draft.number(Field::StickUp)) else { return };
    let Some(depth) = draft.number(Field::TotalDepth).filter(|depth| *depth > level && level > 0.0) else { return };
    let change = stick_up.min(level) / (depth - level);
    if change < TENTH || draft.number(Field::WaterVolume).is_some() {
        return;
    }
    let says = format!(
        "nothing says whether this is counted from the ground or from the top, {} above it; from the ground is taken, from \
         the top there would be {:.0} % more water",
        shown(draft, Field::StickUp, stick_up),
        change * 100.0
    );
    let help = "say in the heading what it is counted from: (from ground), (from top of casing)";
    draft.say_with(catalogue::REFERENCE_UNSAID, LEVEL, says, help, vec![draft.beside(Field::StickUp)]);
}

fn level_above_sea(draft: &mut Draft) {
    const LEVEL: Field = Field::StaticWaterLevel;
    let Some(level) = draft.number(LEVEL) else { return };
    let Some(ground) = draft.number(Field::GroundElevation) else {
        let says = "this is an elevation of the water, and the elevation of the ground is not given";
        draft.say(
            catalogue::GROUND_ELEVATION_MISSING,
            LEVEL,
            says,
            "write ground_elevation, or the depth from the ground",
        );
        draft.refuse(LEVEL);
        return;
    };
    let says = format!(
        "an elevation: the ground at {} less the water at {} is {} below the ground",
        shown(draft, LEVEL, ground),
        shown(draft, LEVEL, level),
        shown(draft, LEVEL, ground - level)
    );
    let related = vec![draft.beside(Field::GroundElevation)];
    draft.say_with(catalogue::LEVEL_REDUCED, LEVEL, says, "no action needed if correct", related);
    replace(draft, LEVEL, |si| ground - si);
}

/// A height of water in the cell of a level or a depth; in the notes, where nothing else says how much water there is.
fn height_of_water(draft: &mut Draft) {
    if draft.datum(Field::WaterColumn) != Datum::Missing {
        return;
    }
    let in_cell = [Field::StaticWaterLevel, Field::TotalDepth].into_iter().find_map(|field| match draft.form(field) {
        Some(Form::Water(height)) => Some((field, *height)),
        _ => None,
    });
    let unknown =
        draft.datum(Field::StaticWaterLevel) == Datum::Missing && draft.datum(Field::WaterVolume) == Datum::Missing;
    let in_notes =
        || draft.text(Field::Notes).filter(|_| unknown).and_then(water_in_words).map(|height| (Field::Notes, height));
    let Some((field, height)) = in_cell.or_else(in_notes) else { return };
    draft.set_number(Field::WaterColumn, height);
    let says = format!("read as {} of standing water, not as a depth", shown(draft, Field::WaterColumn, height));
    draft.say(catalogue::WATER_IN_WORDS, field, says, "no action needed if correct; otherwise write depth and level");
}

/// Strings of casing in words become intervals; a hole whose diameter is given goes on below them.
fn strings(draft: &mut Draft, well_type: Option<WellType>) {
    const FIELD: Field = Field::CasingDiameter;
    let Some(Form::Strings(pieces)) = draft.form(FIELD) else { return };
    let mut pieces: Vec<Piece> = pieces.clone();
    let possible = FIELD.quantity().map_or((0.0, f64::MAX), |quantity| {
        let si = |value| unit::by_symbol(quantity.unit).map_or(value, |unit| unit.to_si(value));
        (si(quantity.possible.0), si(quantity.possible.1))
    });
    if let Some(wrong) = pieces.iter().find(|piece| !within(possible, piece.diameter)) {
        let says = format!("{} is outside what is possible", shown(draft, FIELD, wrong.diameter));
        draft.say(catalogue::IMPOSSIBLE, FIELD, says, "check the value and its unit");
        draft.refuse(FIELD);
        return;
    }
    if let Some((low, high)) = well_type.and_then(|well_type| usual(well_type, FIELD))
        && let Some(wrong) = pieces.iter().find(|piece| !within((low / FAR, high * FAR), piece.diameter))
    {
        let says = format!(
            "{} is far from what is usual for such a well ({} to {})",
            shown(draft, FIELD, wrong.diameter),
            shown(draft, FIELD, low),
            shown(draft, FIELD, high)
        );
        draft.say(catalogue::TWO_READINGS, FIELD, says, "check the diameter and its unit, and the type of well");
        draft.refuse(FIELD);
        return;
    }
    in_units_of_depth(draft, &mut pieces);
    pieces_end::gives_depth(draft, &pieces);
    if pieces_end::apart_from_bottom(draft, &pieces) {
        return;
    }
    if let Some(says) = hanging(draft, &pieces) {
        draft.say(catalogue::TWO_READINGS, FIELD, says, "write from where to where each string reaches: 8 in 0-120");
        draft.refuse(FIELD);
        return;
    }
    if let [Piece { bottom: Some(bottom), diameter, .. }] = pieces[..]
        && draft.datum(Field::CasingDepth) == Datum::Missing
    {
        let words = pipe::string_words(draft, 0.0, Some(bottom), diameter);
        let help = "no action needed if correct; otherwise write casing_diameter and casing_depth";
        draft.say(catalogue::STRINGS_IN_WORDS, FIELD, format!("read as {words}"), help);
        draft.set_number(FIELD, diameter);
        draft.set_number(Field::CasingDepth, bottom);
        return;
    }
    let end = pieces.iter().map(|piece| piece.bottom).reduce(|one, other| Some(one?.max(other?))).flatten();
    if let (Some(last), Some(end), Some(hole)) = (pieces.last().copied(), end, draft.number(Field::OpenHoleDiameter)) {
        pieces.push(Piece { top: end, bottom: None, diameter: hole, ..last });
    }
    take_pieces(draft, FIELD, &pieces);
}

/// A string so many times wider or narrower than is usual for the type of well is a slip. No source.
const FAR: f64 = 2.0;

/// Depths without a unit are in that of the column of depths.
fn in_units_of_depth(draft: &Draft, pieces: &mut [Piece]) {
    let column = draft.shown_unit(Field::TotalDepth).filter(|unit| matches!(unit.symbol, "ft" | "m"));
    for piece in pieces {
        if let (Some(read_in), Some(column)) = (piece.depths_in, column) {
            let factor = column.factor / read_in.factor;
            piece.top *= factor;
            piece.bottom = piece.bottom.map(|bottom| bottom * factor);
        }
    }
}

/// Where a string may begin at the end of the one above it or hang from the ground inside it, and the water would change by
/// a tenth: what is to be asked.
fn hanging(draft: &Draft, pieces: &[Piece]) -> Option<String> {
    let at = pieces.iter().position(|piece| piece.may_hang_from_ground)?;
    let piece = &pieces[at];
    let level = draft.number(Field::StaticWaterLevel).unwrap_or(0.0).max(0.0);
    // V = pi/4 d^2 h; the factor falls out of the quotient.
    let water = |piece: &Piece, to: f64| {
        (piece.bottom.unwrap_or(to).min(to) - piece.top.max(level)).max(0.0) * piece.diameter.powi(2)
    };
    let depth = draft.number(Field::TotalDepth).or(piece.bottom)?;
    let whole: f64 = pieces.iter().map(|piece| water(piece, depth)).sum();
    let above = &pieces[..at];
    let less: f64 = above
        .iter()
        .map(|outer| water(outer, piece.top) * (1.0 - (piece.diameter / outer.diameter).powi(2)).max(0.0))
        .sum();
    if whole <= 0.0 || less / whole < TENTH {
        return None;
    }
    Some(format!(
        "the {} string may begin at {} or hang from the ground inside the wider one: then it holds {:.0} % less",
        shown(draft, Field::CasingDiameter, piece.diameter),
        shown(draft, Field::TotalDepth, piece.top),
        100.0 * less / whole
    ))
}
