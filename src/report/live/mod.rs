//! The workbook that lives: inputs as cells, results as formulas, so that a price or a target that is changed in a spreadsheet
//! program changes wells, totals, needs and cost without running anything.
//!
//! Formulas are made of the relations of quantities. What is solved for (pH, ageing) stays a value and says so.

mod checks;
mod formula;
mod inputs;
mod model;
mod needs;
mod numbers;
mod order;
mod pick;
mod practices;
mod prices;
mod scenarios;
mod wells;

use super::Matter;
use crate::document::cell::Sheet;
use crate::document::formula::Name;
use crate::error::Result;
use model::Model;
pub(super) use pick::{follow, follow_rest, picker};

/// Rows of the treatments up to which the workbook is formulas; with more, spreadsheet programs take long to open it.
pub(super) const MOST_ROWS: u64 = 6_000;

/// Rows of a sheet of workings that are printed: enough to see what it is.
const SHOWN_ROWS: u32 = 40;

/// The sheets of a living workbook, by where they stand in it.
pub(super) struct Live {
    /// The order to sign.
    pub order: Sheet,
    /// Every row of the treatments, as formulas.
    pub wells: Sheet,
    /// What the sheets before count with: inputs, effective practice, strengths, needs, packages, numbers, checks.
    pub workings: Vec<Sheet>,
    /// Names of cells.
    pub names: Vec<Name>,
}

/// The living sheets; `None` where the rows are too many, or nothing is planned.
///
/// # Errors
/// When an override cannot be asked of the wells.
pub(super) fn sheets(matter: &Matter<'_>) -> Result<Option<Live>> {
    let rows = (matter.run.planned + matter.run.held_back + matter.run.excluded) * matter.plan.cases.len() as u64;
    let whole = rows == matter.run.table_rows && matter.rest().is_none();
    if matter.run.planned == 0 || !whole || rows > MOST_ROWS {
        return Ok(None);
    }
    let mut model = Model::of(matter)?;
    let inputs = inputs::Inputs::of(&model);
    let practices = practices::sheet(&mut model, &inputs);
    let (scenarios, measures) = scenarios::sheets(&mut model, &inputs);
    let wells = wells::sheet(&mut model);
    let needs = needs::sheets(&mut model);
    let order = order::sheet(&mut model, &needs);
    let checks = checks::sheet(&mut model, &needs);
    let inputs = inputs.sheet;
    let numbers = numbers::sheet(&mut model);
    let mut workings = vec![inputs, needs.prices, needs.stock, needs.needs, needs.packages, checks];
    workings.extend([scenarios, practices, measures, numbers]);
    for sheet in &mut workings {
        let last = sheet.rows.len() as u32;
        if last > 3 * SHOWN_ROWS || sheet.layout.pages_wide > 1 {
            sheet.layout.printed_rows = Some(SHOWN_ROWS);
        }
    }
    Ok(Some(Live { order, wells, workings, names: model.names }))
}
