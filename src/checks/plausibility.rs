//! Values that cannot be true, and values that are unlikely, by the bounds of the field table and by type of well.

use std::sync::OnceLock;

use super::pipe::{SAME_PIPE_IN, SIZES};
use crate::field::{FIELDS, Field, WellType, usual, within};
use crate::finding::{Words, catalogue};
use crate::inventory::{Draft, is_aside};
use crate::quantity::format;
use crate::quantity::parse::unit_is_written;
use crate::quantity::unit::{self, Unit};

struct Bounds {
    field: Field,
    unit: &'static Unit,
    possible: (f64, f64),
    plausible: (f64, f64),
}

/// The bounds of every quantity, in SI.
fn all() -> &'static [Bounds] {
    static ALL: OnceLock<Vec<Bounds>> = OnceLock::new();
    ALL.get_or_init(|| {
        FIELDS
            .iter()
            .filter_map(|definition| {
                let quantity = definition.field.quantity()?;
                let unit = unit::by_symbol(quantity.unit)?;
                let si = |(low, high): (f64, f64)| (unit.to_si(low), unit.to_si(high));
                Some(Bounds {
                    field: definition.field,
                    unit,
                    possible: si(quantity.possible),
                    plausible: si(quantity.plausible),
                })
            })
            .collect()
    })
}

/// Looks at every number of the row.
pub(super) fn bounds(draft: &mut Draft) {
    let well_type = draft.choice(Field::WellType).and_then(WellType::by_name);
    for bounds in all() {
        let Some(value) = draft.number(bounds.field) else { continue };
        if within(bounds.plausible, value) {
            continue;
        }
        let unit = draft.shown_unit(bounds.field).unwrap_or(bounds.unit);
        let show = |si: f64| format::quantity(si, unit, 5);
        let range = |(low, high): (f64, f64)| {
            format!("{} to {}", format::quantity(low, unit, 3), format::quantity(high, unit, 3))
        };
        if within(bounds.possible, value) {
            if bounds.field == Field::StaticWaterLevel && value < 0.0 {
                continue; // A flowing well, which has a finding of its own.
            }
            if well_type.is_some_and(|well_type| usual(well_type, bounds.field).is_some()) {
                continue; // Judged by type below.
            }
            let says = format!("{} is outside what is usual ({})", show(value), range(bounds.plausible));
            // People and pH have no unit to mistake.
            let help = if unit.symbol.is_empty() { "check the value" } else { "check the value and its unit" };
            draft.say(catalogue::UNLIKELY, bounds.field, says, help);
            continue;
        }
        let says = format!("{} is outside what is possible ({})", show(value), range(bounds.possible));
        let code = match bounds.field {
            Field::Iron
            | Field::Manganese
            | Field::Sulfide
            | Field::AmmoniaN
            | Field::NitriteN
            | Field::OrganicCarbon => catalogue::WATER_VALUE_IMPOSSIBLE,
            Field::WaterTemperature
            | Field::Ph
            | Field::Alkalinity
            | Field::PumpRate
            | Field::WellYield
            | Field::PlumbingVolume => catalogue::ASIDE_IMPOSSIBLE,
            field if is_aside(field) => catalogue::ASIDE_IMPOSSIBLE,
            _ => catalogue::IMPOSSIBLE,
        };
        let says = if code == catalogue::ASIDE_IMPOSSIBLE { format!("{says}; it is left out") } else { says };
        let meant = well_type.and_then(|well_type| meant(draft, bounds.field, well_type));
        let finding =
            draft.finding(code, bounds.field, says, check_unit(meant.as_deref(), "check the value and its unit"));
        draft.findings.push(finding.suggesting(meant));
        if code == catalogue::ASIDE_IMPOSSIBLE {
            draft.forget(bounds.field);
        }
    }
    if !draft.findings.iter().any(|finding| finding.code == catalogue::IMPOSSIBLE) {
        narrow_among_others(draft);
        usual_for_type(draft);
        outside_diameter(draft);
    }
}

/// A diameter that is just that of a pipe's outside, as one in nine of British Columbia's casing table is.
fn outside_diameter(draft: &mut Draft) {
    // A diameter worked out from an outside one is an inside one.
    let worked_out =
        draft.form(Field::CasingDiameter).is_some() || draft.number(Field::CasingOutsideDiameter).is_some();
    let Some(si) = draft.number(Field::CasingDiameter).filter(|_| !worked_out) else { return };
    let inches = si / unit::INCH_M;
    // 3.5 in is as likely a size of its own.
    let sizes = SIZES.iter().filter(|size| size.nominal != 3.0);
    let Some(size) = sizes.into_iter().find(|size| (inches - size.outside).abs() < SAME_PIPE_IN) else { return };
    let (nominal, inside) = (size.nominal, size.inside_40());
    let says = format!(
        "this is the outside diameter of a {nominal} in pipe; one of {} in inside holds {:.0} % less",
        format::number(inside, 5),
        (1.0 - (inside / inches).powi(2)) * 100.0
    );
    draft.say(catalogue::OUTSIDE_DIAMETER, Field::CasingDiameter, says, "write the inside diameter if you know it");
}

/// Units that people mix up with one another, the likeliest first: a meter in a metric column, a foot elsewhere.
const MIXED_UP: [&str; 5] = ["in", "ft", "m", "mm", "cm"];
const MIXED_UP_METRIC: [&str; 5] = ["cm", "m", "in", "ft", "mm"];

/// The number as it stands, in another unit, if that would be usual: what the writer may have meant.
fn meant(draft: &Draft, field: Field, well_type: WellType) -> Option<String> {
    let range = usual(well_type, field)?;
    let unit = draft.shown_unit(field)?;
    let written = unit.from_si(draft.number(field)?);
    // A diameter is mixed up with any of them; nobody writes the depth of a well in millimeters.
    let mixed_up = match (field, unit.symbol) {
        (Field::TotalDepth, "m") => &["ft", "cm"][..],
        (Field::TotalDepth, _) => &["ft", "m"],
        (_, "m" | "cm" | "mm") => &MIXED_UP_METRIC,
        _ => &MIXED_UP,
    };
    let other = mixed_up
        .iter()
        .filter_map(|symbol| unit::by_symbol(symbol))
        .find(|other| other.symbol != unit.symbol && within(range, other.to_si(written)));
    // `9140` for 914: a figure too many.
    let tenth = written / 10.0;
    let too_many = || {
        unit.to_si(written) > range.1 * FAR * (1.0 + 1e-9)
            && within(range, unit.to_si(tenth))
            && field != Field::TotalDepth
    };
    match other {
        Some(other) => Some(format!("{} {}", format::number(written, 5), other.symbol)),
        None => too_many().then(|| format!("{} {}", format::number(tenth, 5), unit.symbol)),
    }
}

fn check_unit(meant: Option<&str>, otherwise: &'static str) -> Words {
    meant.map_or(otherwise.into(), |meant| format!("check the unit: {meant} would be usual").into())
}

/// So many times beyond what is usual, a bare number is probably in another unit. No source.
const FAR: f64 = 2.5;

/// The same of a depth. No source.
const FAR_DEPTH: f64 = 1.5;

/// Whether a value is so far from what is usual that a unit of which the list's is a tenth or the like was probably meant.
///
/// Millimeters stand for centimeters, and feet for inches, in the same list: there any pipe wider than usual, and any
/// dug well narrower, is a question.
fn is_far(field: Field, well_type: WellType, value: f64, (low, high): (f64, f64), units: (&Unit, &Unit)) -> bool {
    if field == Field::TotalDepth {
        return value * FAR < low || value > high * FAR_DEPTH;
    }
    let metric = |unit: &Unit| matches!(unit.symbol, "m" | "cm" | "mm");
    let of_one_kind = metric(units.0) == metric(units.1);
    let pipe = matches!(well_type, WellType::Drilled | WellType::Driven);
    let below = if of_one_kind { 1.0 } else { FAR };
    let above = if of_one_kind && pipe { 1.0 } else { FAR };
    value * below < low || value > high * above
}

/// A width far below the others of its column that fits among them in inches, or with a figure more.
fn narrow_among_others(draft: &mut Draft) {
    const ACROSS: Field = Field::CasingDiameter;
    let (Some((middle, meant)), Some(unit)) = (draft.narrow_among_others(), draft.shown_unit(ACROSS)) else { return };
    let Some(written) = draft.number(ACROSS).map(|si| format::quantity(si, unit, 5)) else { return };
    let says = format!(
        "{written} is far below the others of its type, {} in the middle, and {meant} would be among them: one of the two is meant",
        format::quantity(middle, unit, 4)
    );
    let help = format!("write the unit with the value: {written} or {meant}");
    let finding = draft.finding(catalogue::UNIT_IN_DOUBT, ACROSS, says, help);
    draft.findings.push(finding.suggesting(Some(meant)));
    draft.refuse(ACROSS);
}

/// Depth and diameter against what is usual for the type of well.
fn usual_for_type(draft: &mut Draft) {
    let Some(well_type) = draft.choice(Field::WellType).and_then(WellType::by_name) else { return };
    for (field, code) in [
        (Field::TotalDepth, catalogue::DEPTH_UNLIKELY_FOR_TYPE),
        (Field::CasingDiameter, catalogue::DIAMETER_UNLIKELY_FOR_TYPE),
    ] {
        let (Some(value), Some((low, high))) = (draft.number(field), usual(well_type, field)) else { continue };
        if within((low, high), value) {
            continue;
        }
        let Some(unit) = draft.shown_unit(field) else { continue };
        let word = well_type.name().replace('_', " ");
        let written = format::quantity(value, unit, 5);
        let range =
            format!("for a {word} well ({} to {})", format::quantity(low, unit, 2), format::quantity(high, unit, 2));
        let meant = meant(draft, field, well_type);
        let typed = draft.typed(field);
        let bare = !typed.is_empty() && !unit_is_written(typed);
        // Where the diameter is none of such a well either, the type is in question, not the unit.
        let type_in_doubt = field == Field::TotalDepth
            && draft
                .number(Field::CasingDiameter)
                .zip(usual(well_type, Field::CasingDiameter))
                .is_some_and(|(across, usual)| !within(usual, across));
        let far = |meant: &str| {
            if type_in_doubt {
                return value * FAR < low || value > high * FAR;
            }
            let other = meant.rsplit(' ').next().and_then(unit::by_symbol).unwrap_or(unit);
            is_far(field, well_type, value, (low, high), (unit, other))
        };
        if let Some(meant) = meant.as_ref().filter(|meant| bare && far(meant)) {
            let says = format!(
                "{written} is far from what is usual {range}, and {meant} would be usual: one of the two is meant"
            );
            let help = format!("write the unit with the value: {written} or {meant}");
            let finding = draft.finding(catalogue::UNIT_IN_DOUBT, field, says, help);
            let related = vec![draft.beside(Field::WellType)];
            draft.findings.push(finding.related(related).suggesting(Some(meant.clone())));
            continue;
        }
        // No pipe is that wide and no well that deep, whatever unit is written: one of the cells is a slip, and the dose
        // rests on it. A dug well wider than usual was measured around as often as across.
        let pipe = matches!(well_type, WellType::Drilled | WellType::Driven);
        let beyond = match field {
            Field::CasingDiameter if pipe => high * FAR,
            Field::CasingDiameter if well_type == WellType::Dug => high,
            Field::TotalDepth => high * FAR_DEPTH,
            _ => f64::INFINITY,
        };
        // Nobody digs a well of a hand's width: a figure is missing, or it is another kind of well.
        let too_narrow = field == Field::CasingDiameter && well_type == WellType::Dug && value * FAR < low;
        if value > beyond * (1.0 + 1e-9) || too_narrow {
            let or_else = meant.as_ref().map(|meant| format!("; {meant} would be usual")).unwrap_or_default();
            let says = format!("{written} is far from what is usual {range}{or_else}");
            let help = match field {
                Field::TotalDepth => "check the depth and its unit, and the type of well",
                _ if pipe => "check the diameter and its unit, and the type of well",
                _ => "check whether it was measured across or around, and its unit",
            };
            let finding = draft.finding(catalogue::TWO_READINGS, field, says, help);
            draft.findings.push(finding.suggesting(meant));
            draft.refuse(field);
            continue;
        }
        let says = format!("{written} is unusual {range}");
        let help = check_unit(meant.as_deref(), "check the value and the type of well");
        let finding = draft.finding(code, field, says, help).related(vec![draft.beside(Field::WellType)]);
        draft.findings.push(finding.suggesting(meant));
    }
}
