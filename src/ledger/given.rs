//! Columns that only the table of visits has: the place of the row, and what was understood of its water.

use super::{Column, Get, Width, text, told};
use crate::field::Field;
use crate::quantity::unit::Unit;
use crate::visit::{Asked, Visit};

const fn given(
    id: &'static str,
    title: &'static str,
    unit: &'static str,
    digits: usize,
    meaning: &'static str,
    field: Field,
) -> Column {
    Column { id, title, unit, meaning, equation: "", digits, get: Get::Given(field), width: Width::Visit }
}

/// Columns that only the visits table has: the place of the row, and what was understood of its water.
pub(super) static COLUMNS: &[Column] = &[
    text("file", "File", "File of the list.", Get::VisitText(Visit::file)),
    text("sheet", "Sheet", "Sheet of the list, where the file has sheets.", Get::VisitText(Visit::sheet)),
    told("row", "Row", "", 0, "Row of the list, as a spreadsheet counts them.", Visit::row_number),
    given("total_depth_m", "Depth", "m", 2, "Depth of the bottom, given or assumed.", Field::TotalDepth),
    given(
        "static_water_level_m",
        "Water level",
        "m",
        2,
        "Depth of the resting water, given or assumed; negative above ground.",
        Field::StaticWaterLevel,
    ),
    given(
        "water_height_m",
        "Height of water",
        "m",
        2,
        "Height of the standing water, given or worked out from depth and level.",
        Field::WaterColumn,
    ),
    given(
        "casing_diameter_mm",
        "Casing diameter",
        "mm",
        1,
        "Inside diameter, given or assumed.",
        Field::CasingDiameter,
    ),
    given("casing_depth_m", "Casing depth", "m", 2, "Depth to which the casing reaches.", Field::CasingDepth),
    given(
        "open_hole_diameter_mm",
        "Open hole diameter",
        "mm",
        1,
        "Diameter below the casing, given or assumed.",
        Field::OpenHoleDiameter,
    ),
    given(
        "water_volume_l",
        "Volume given",
        "L",
        1,
        "Standing water, where the list gives a volume.",
        Field::WaterVolume,
    ),
    given("plumbing_volume_l", "Plumbing", "L", 1, "Plumbing treated with the well, as given.", Field::PlumbingVolume),
    given("pump_rate_l_per_min", "Pump rate", "L/min", 1, "Rate of the pump, as given.", Field::PumpRate),
    given("well_yield_l_per_min", "Yield", "L/min", 1, "What the well or spring gives, as given.", Field::WellYield),
    given("water_temperature_c", "Water temperature", "C", 1, "Measured water temperature.", Field::WaterTemperature),
    given("ph", "pH", "", 2, "Measured pH.", Field::Ph),
    given("alkalinity_mg_per_l", "Alkalinity", "mg/L", 0, "Measured alkalinity, as CaCO3.", Field::Alkalinity),
    given("iron_mg_per_l", "Iron", "mg/L", 2, "Measured iron, as Fe.", Field::Iron),
    given("manganese_mg_per_l", "Manganese", "mg/L", 2, "Measured manganese, as Mn.", Field::Manganese),
    given("sulfide_mg_per_l", "Sulfide", "mg/L", 2, "Measured sulfide, as H2S.", Field::Sulfide),
    given("ammonia_n_mg_per_l", "Ammonia", "mg/L", 2, "Measured ammonia, as N.", Field::AmmoniaN),
    given("nitrite_n_mg_per_l", "Nitrite", "mg/L", 2, "Measured nitrite, as N.", Field::NitriteN),
    given(
        "organic_carbon_mg_per_l",
        "Organic carbon",
        "mg/L",
        2,
        "Measured organic carbon, as C.",
        Field::OrganicCarbon,
    ),
];

/// What the list gives of a visit for a field, in a unit; NaN where it gives nothing.
pub(super) fn in_unit(unit: Option<&Unit>, visit: &Visit, field: Field) -> f64 {
    visit.si_value(field).map_or(f64::NAN, |si| unit.map_or(si, |unit| unit.from_si(si)))
}

/// Columns that the visits table has where crews are stated.
pub static OF_CREWS: &[Column] = &[
    text(
        "crew",
        "Crew",
        "The crew that makes the visit; empty where none has a day for it.",
        Get::VisitText(Visit::crew),
    ),
    text(
        "crew_day",
        "Day",
        "The day on which it is made: a date, or `day 3` of a crew without one.",
        Get::VisitText(Visit::crew_day),
    ),
    told("crew_stop", "Stop", "", 0, "Which stop of that day it is, along the way.", Visit::crew_stop),
];
