//! From the outside of a pipe, or its trade size, to the inside, where the water stands.

use super::shown;
use crate::field::{Field, WellType};
use crate::finding::catalogue;
use crate::inventory::{Datum, Draft, Form};
use crate::quantity::format;
use crate::quantity::parse::{Pipe, Wall};
use crate::quantity::unit::INCH_M;

/// A size of steel or plastic pipe, in inches.
pub(super) struct Size {
    /// The size the trade calls it by.
    pub(super) nominal: f64,
    pub(super) outside: f64,
    /// Wall of schedule 40.
    wall_40: f64,
    /// Wall of schedule 80.
    wall_80: f64,
}

impl Size {
    /// Inside diameter of schedule 40, in inches.
    pub(super) fn inside_40(&self) -> f64 {
        self.outside - 2.0 * self.wall_40
    }
}

const fn size(nominal: f64, outside: f64, wall_40: f64, wall_80: f64) -> Size {
    Size { nominal, outside, wall_40, wall_80 }
}

/// Outside diameters and walls by ASME B36.10M (steel) and ASTM D1785 (PVC), which agree in these sizes; from memory.
pub(super) const SIZES: [Size; 12] = [
    size(1.0, 1.315, 0.133, 0.179),
    size(1.25, 1.66, 0.14, 0.191),
    size(1.5, 1.9, 0.145, 0.2),
    size(2.0, 2.375, 0.154, 0.218),
    size(2.5, 2.875, 0.203, 0.276),
    size(3.0, 3.5, 0.216, 0.3),
    size(4.0, 4.5, 0.237, 0.337),
    size(5.0, 5.563, 0.258, 0.375),
    size(6.0, 6.625, 0.28, 0.432),
    size(8.0, 8.625, 0.322, 0.5),
    size(10.0, 10.75, 0.365, 0.594),
    size(12.0, 12.75, 0.406, 0.688),
];

/// 6.62, 6.625 and 6.63 in and 168.3 mm are written for the same pipe.
pub(super) const SAME_PIPE_IN: f64 = 0.006;

/// Walls of steel casing that are usual, thinnest, middle and thickest, in inches, up to an outside diameter in inches:
/// 0.188 in is the thinnest that is welded and driven, 0.280 in is schedule 40 of the 6 in size (ASME B36.10M, from
/// memory). Which of them a driller takes is common practice, no source.
const STEEL: [(f64, [f64; 3]); 2] = [(8.7, [0.188, 0.25, 0.28]), (24.1, [0.25, 0.33, 0.375])];

/// Outside diameter over wall of plastic casing, thinnest, middle and thickest wall: SDR 26, 21 and 17 of ASTM F480, from
/// memory; that SDR 21 is the usual one is common practice, no source.
const PLASTIC: [f64; 3] = [26.0, 21.0, 17.0];

/// The widest plastic casing with such walls, outside, in inches. Common practice, no source.
const WIDEST_PLASTIC_IN: f64 = 16.1;

/// Inside diameters in meters: least, middle, greatest.
struct Inside {
    low: f64,
    mid: f64,
    high: f64,
    /// What it was worked out from, where the wall is known.
    how: Option<String>,
    /// Whose wall was taken, where it is not.
    of: &'static str,
}

/// Gives the row an inside diameter, where it says the outside or a trade size with its wall; says how, or why not.
pub(super) fn settle(draft: &mut Draft, well_type: Option<WellType>, assumed: &mut Vec<Field>) {
    let in_cell = [Field::CasingDiameter, Field::CasingOutsideDiameter].into_iter().find_map(|field| {
        let Some(Form::Pipe(pipe)) = draft.form(field) else { return None };
        Some((field, Pipe { outside: pipe.outside || field == Field::CasingOutsideDiameter, ..*pipe }))
    });
    let in_column = || {
        let size = draft.number(Field::CasingOutsideDiameter)?;
        Some((Field::CasingOutsideDiameter, Pipe { size, outside: true, wall: Wall::Unsaid }))
    };
    let Some((field, mut pipe)) = in_cell.or_else(in_column) else { return };
    // An inside diameter outright, or strings of casing, say more.
    if draft.datum(Field::CasingDiameter) != Datum::Missing
        || matches!(draft.form(Field::CasingDiameter), Some(Form::Strings(_)))
    {
        return;
    }
    if let (Wall::Unsaid, Some(wall)) = (pipe.wall, draft.number(Field::WallThickness)) {
        pipe.wall = Wall::Thickness(wall);
    }
    if draft.datum(Field::WallThickness) == Datum::Unread && pipe.wall == Wall::Unsaid {
        return;
    }
    let words =
        format!("{} {}", draft.text(Field::CasingMaterial).unwrap_or_default(), draft.typed(field)).to_lowercase();
    let Some(inside) = inside(&pipe, &words, well_type).filter(|inside| inside.low > 0.0) else {
        let says =
            "this is the outside of the casing or a trade size, and its wall is not known: the inside cannot be told";
        let help = "write the inside diameter, or the wall: wall_thickness, or 6 5/8 OD x .188 wall";
        draft.say(catalogue::WALL_UNKNOWN, field, says, help);
        draft.refuse(Field::CasingDiameter);
        return;
    };
    draft.set_number(Field::CasingDiameter, inside.mid);
    let unit = draft.shown_unit(field).or_else(|| draft.shown_unit(Field::CasingDiameter));
    let show = |si: f64| unit.map_or_else(String::new, |unit| format::quantity(si, unit, 4));
    if let Some(how) = inside.how {
        let says = format!("{how}: {} inside", show(inside.mid));
        draft.say(catalogue::INSIDE_FROM_OUTSIDE, field, says, "no action needed if correct");
        return;
    }
    draft.set_spread(Field::CasingDiameter, inside.low, inside.high);
    assumed.push(Field::WallThickness);
    let says = format!(
        "the outside of the casing without its wall; the usual wall of {} assumed: {} inside ({} to {})",
        inside.of,
        show(inside.mid),
        show(inside.low),
        show(inside.high)
    );
    draft.say(
        catalogue::WALL_ASSUMED,
        field,
        says,
        "write the inside diameter or the wall to plan without the assumption",
    );
}

fn inside(pipe: &Pipe, words: &str, well_type: Option<WellType>) -> Option<Inside> {
    let inches = pipe.size / INCH_M;
    let by_outside = SIZES.iter().find(|size| (size.outside - inches).abs() < SAME_PIPE_IN);
    let by_name = SIZES.iter().find(|size| !pipe.outside && (size.nominal - inches).abs() < 1e-6);
    let listed = by_outside.or(by_name);
    let outside = match listed {
        // The size as written, where it is that of the outside already.
        Some(_) if by_outside.is_some() => inches,
        Some(size) => size.outside,
        // From 14 in on a pipe is called by its outside (ASME B36.10M, from memory).
        None if pipe.outside || inches >= 14.0 => inches,
        None => return None,
    };
    let known = |wall: f64, how: String| {
        let inside = (outside - 2.0 * wall) * INCH_M;
        Some(Inside { low: inside, mid: inside, high: inside, how: Some(how), of: "" })
    };
    let outside_words = |wall: f64| {
        format!("{} in outside less twice the wall of {} in", format::number(outside, 5), format::number(wall, 3))
    };
    match pipe.wall {
        Wall::Thickness(si) => known(si / INCH_M, outside_words(si / INCH_M)),
        Wall::Ratio(ratio) => known(outside / ratio, outside_words(outside / ratio)),
        Wall::Schedule(schedule) => {
            let size = listed?;
            let wall = match schedule {
                40 => size.wall_40,
                80 => size.wall_80,
                _ => return None,
            };
            known(wall, format!("schedule {schedule}, {}", outside_words(wall)))
        }
        Wall::Unsaid => usual(outside, words, well_type),
    }
}

/// With the walls that are usual for the material, or for pipe where none is named.
fn usual(outside: f64, words: &str, well_type: Option<WellType>) -> Option<Inside> {
    let has = |known: &[&str]| known.iter().any(|word| words.contains(word));
    if has(&["concrete", "brick", "stone", "tile", "cement", "clay", "wood", "block", "rock"]) {
        return None;
    }
    let steel = || STEEL.iter().find(|(widest, _)| outside <= *widest).map(|(_, walls)| *walls);
    let plastic = || (outside <= WIDEST_PLASTIC_IN).then(|| PLASTIC.map(|ratio| outside / ratio));
    let (of, [thin, mid, thick]) = if has(&["pvc", "plastic", "abs", "hdpe", "upvc"]) {
        ("plastic pipe (SDR 21; 17 to 26)", plastic()?)
    } else if has(&["steel", "iron", "metal", "galv"]) {
        ("steel pipe", steel()?)
    } else if matches!(well_type, Some(WellType::Drilled | WellType::Driven)) {
        let (steel, plastic) = (steel()?, plastic()?);
        ("steel or plastic pipe", [steel[0].min(plastic[0]), steel[1], steel[2].max(plastic[2])])
    } else {
        return None;
    };
    let inside = |wall: f64| (outside - 2.0 * wall) * INCH_M;
    Some(Inside { low: inside(thick), mid: inside(mid), high: inside(thin), how: None, of })
}

/// Words for a string: `8 in from 60 ft to 120 ft`.
pub(super) fn string_words(draft: &Draft, top: f64, bottom: Option<f64>, diameter: f64) -> String {
    let depth = |si: f64| shown(draft, Field::TotalDepth, si);
    let across = shown(draft, Field::CasingDiameter, diameter);
    match bottom {
        Some(bottom) => format!("{across} from {} to {}", depth(top), depth(bottom)),
        None => format!("{across} below {}", depth(top)),
    }
}
