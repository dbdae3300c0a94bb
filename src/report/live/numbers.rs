//! The Numbers sheet: measures, and whatever formulas count with that is not an input: factors between units, constants, each a named cell with
//! its source.

use super::model::{Model, named};
use crate::document::cell::{Cell, Sheet};
use crate::relation::constant::CONSTANTS;

pub(super) const SHEET: &str = "Numbers";

/// Constants that relations of the living sheets name.
pub(super) const IDS: [&str; 14] = [
    "constant.milligrams_per_gram",
    "constant.grams_per_kilogram",
    "constant.minutes_per_hour",
    "constant.liters_per_kilogram",
    "constant.grams_per_liter_of_percent",
    "constant.grams_per_kilogram_of_percent",
    "constant.density_of_water",
    "constant.house_plumbing_l",
    "constant.chlorine_molar_mass",
    "constant.chlorate_molar_mass",
    "constant.hypochlorite_molar_mass",
    "constant.chlorate_per_hypochlorite",
    "constant.density_per_chlorine",
    "constant.density_per_caustic",
];

/// The name of a constant's cell.
pub(super) fn name_of(id: &str) -> String {
    CONSTANTS.iter().find(|constant| constant.id == id).map_or_else(String::new, |constant| named(constant.title))
}

/// Takes a constant up among the named numbers.
pub(super) fn use_constant(model: &mut Model<'_>, id: &str) {
    if let Some(constant) = CONSTANTS.iter().find(|constant| constant.id == id) {
        model.number(&named(constant.title), constant.title, constant.unit, constant.value, constant.source);
    }
}

/// Puts the numbers below the measures.
pub(super) fn sheet(model: &mut Model<'_>, measures: Sheet) -> Sheet {
    let mut sheet = measures;
    sheet.gap();
    sheet.push(["What", "Number", "Unit", "Source", "Name in formulas"].map(Cell::head).to_vec());
    for (name, title, unit, value, source) in std::mem::take(&mut model.numbers) {
        let row = sheet.rows.len() as u32;
        sheet.push(vec![
            Cell::text(title),
            Cell::number(value, 9),
            Cell::text(unit),
            Cell::text(source),
            Cell::text(&name),
        ]);
        model.name(&name, SHEET, 1, (row, row));
    }
    sheet.layout.widths = vec![24.0, 10.0, 9.0, 23.0, 31.0, 8.5, 8.5];
    sheet
}
