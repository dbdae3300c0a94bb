//! Values that cannot be true, and values that are unlikely, by the bounds of the field table and by type of well.

use std::sync::OnceLock;

use crate::field::{FIELDS, Field, WellType};
use crate::finding::catalogue;
use crate::inventory::{Draft, is_aside};
use crate::quantity::format;
use crate::quantity::unit::{self, INCH_M, Unit};

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

/// Whether two bounds hold the value, forgiving the last bits of a conversion.
fn within((low, high): (f64, f64), value: f64) -> bool {
    let slack = 1e-9 * (low.abs() + high.abs());
    (low - slack..=high + slack).contains(&value)
}

/// Looks at every number of the row.
pub(super) fn bounds(draft: &mut Draft) {
    let by_type = draft.choice(Field::WellType).and_then(WellType::by_name).and_then(usual_inches).is_some();
    for bounds in all() {
        let Some(value) = draft.number(bounds.field) else { continue };
        if within(bounds.plausible, value) {
            continue;
        }
        let unit = draft.shown_unit(bounds.field).unwrap_or(bounds.unit);
        let show = |si: f64| format::quantity(si, unit, 5);
        let range = |(low, high): (f64, f64)| {
            format!("{} to {}", format::quantity(low, unit, 2), format::quantity(high, unit, 2))
        };
        if within(bounds.possible, value) {
            if bounds.field == Field::StaticWaterLevel && value < 0.0 {
                continue; // A flowing well, which has a finding of its own.
            }
            if bounds.field == Field::CasingDiameter && by_type {
                continue; // Judged by type below.
            }
            let says = format!("{} is outside what is usual ({})", show(value), range(bounds.plausible));
            draft.say(catalogue::UNLIKELY, bounds.field, says, "check the value and its unit");
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
        draft.say(code, bounds.field, says, "check the value and its unit");
        if code == catalogue::ASIDE_IMPOSSIBLE {
            draft.forget(bounds.field);
        }
    }
    if !draft.findings.iter().any(|finding| finding.code == catalogue::IMPOSSIBLE) {
        diameter_for_type(draft);
    }
}

/// Usual inside diameters by type, in inches: the 5th to 95th centile of the British Columbia casing table (export of
/// 2024-03-28, single-method wells), widened to the next size that is sold.
const fn usual_inches(well_type: WellType) -> Option<(f64, f64)> {
    match well_type {
        WellType::Drilled => Some((2.0, 24.0)),
        WellType::Driven => Some((1.0, 8.0)),
        WellType::Bored => Some((1.0, 60.0)),
        WellType::Dug => Some((12.0, 180.0)),
        WellType::SpringBox => None,
    }
}

fn diameter_for_type(draft: &mut Draft) {
    let Some(well_type) = draft.choice(Field::WellType).and_then(WellType::by_name) else { return };
    let (Some(value), Some((low, high))) = (draft.number(Field::CasingDiameter), usual_inches(well_type)) else {
        return;
    };
    if !within((low * INCH_M, high * INCH_M), value) {
        let word = well_type.name().replace('_', " ");
        let says = format!(
            "{} is unusual for a {word} well ({low} to {high} in)",
            super::shown(draft, Field::CasingDiameter, value)
        );
        let related = vec![draft.beside(Field::WellType)];
        draft.say_with(
            catalogue::DIAMETER_UNLIKELY_FOR_TYPE,
            Field::CasingDiameter,
            says,
            "check the unit (inches or feet, millimetres or centimetres) and the type",
            related,
        );
    }
}
