//! The workbook that lives: inputs as cells, results as formulas, so that a price or a target that is changed in a spreadsheet
//! program changes wells, totals, needs and cost without running anything.
//!
//! Formulas are made of the relations of quantities. What is solved for (pH, aging) stays a value and says so.

mod alerts;
mod as_planned;
mod charts;
mod cheaper;
mod checks;
mod crew;
mod follows;
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
mod signed;
mod stock;
mod suppliers;
mod well_columns;
mod wells;

use super::Matter;
use crate::document::cell::Sheet;
use crate::document::formula::Name;
use crate::error::Result;
pub(super) use as_planned::{CHANGED_CELLS, say, warn};
pub(super) use crew::{Crew, Now};
pub(super) use follows::{Follows, agents, of_needs, priced, product, product_in_all};
pub(super) use formula::SLACK;
pub(super) use inputs::tidy;
pub(super) use model::Back;
use model::Model;
pub(super) use pick::picker;

/// Rows of the treatments up to which wells are formulas; with more, spreadsheet programs take long to open the workbook.
pub(super) const MOST_ROWS: u64 = 20_000;

/// Rows of a sheet of workings that are printed: enough to see what it is.
const SHOWN_ROWS: u32 = 16;

/// Workings that are left out of print.
const UNPRINTED: [&str; 6] = ["Checks", "Packages", "Needs", "Scenarios", "Practices", "Numbers"];

/// The sheets of a living workbook, by where they stand in it.
pub(super) struct Live {
    /// The order to sign.
    pub order: Sheet,
    /// Every row of the treatments, as formulas; nothing where they are too many.
    pub wells: Option<Sheet>,
    /// Pictures that follow the cells.
    pub charts: Sheet,
    /// What the sheets before count with: inputs, effective practice, strengths, needs, packages, numbers, checks.
    pub workings: Vec<Sheet>,
    pub names: Vec<Name>,
    /// What other sheets can follow.
    pub follows: Follows,
    /// Cells that are taken back when the workbook is planned again.
    pub back: Vec<Back>,
}

/// The living sheets; `None` where nothing is planned. With more than so many rows the wells are values, and needs are what
/// those come to; packages, prices, stock, order and cost live all the same.
///
/// # Errors
/// When an override cannot be asked of the wells.
pub(super) fn sheets(matter: &Matter<'_>) -> Result<Option<Live>> {
    if matter.run.planned == 0 {
        return Ok(None);
    }
    let mut model = Model::of(matter)?;
    model.alerts = alerts::of_cards(&model);
    let rows = (matter.run.planned + matter.run.held_back + matter.run.excluded) * matter.plan.cases.len() as u64;
    let whole = rows == matter.run.table_rows && matter.rest().is_none();
    let mut inputs = (whole && rows <= MOST_ROWS).then(|| inputs::Inputs::of(&model));
    model.back.extend(inputs.iter_mut().flat_map(|inputs| std::mem::take(&mut inputs.back)));
    let (scenarios, measures) = scenarios::sheets(&mut model, inputs.as_ref());
    let told = inputs.is_some() && rows <= crew::MOST_ROWS;
    let mut practices = None;
    let mut wells = None;
    if let Some(inputs) = &inputs {
        practices = Some(practices::sheet(&mut model, inputs));
        wells = Some(wells::sheet(&mut model, told));
    }
    let needs = needs::sheets(&mut model, wells.is_some());
    let order = order::sheet(&mut model, &needs);
    let checks = checks::sheet(&mut model, wells.is_some());
    let follows = Follows::of(&mut model, inputs.as_ref(), told);
    let charts = charts::sheet(&model);
    let numbers = numbers::sheet(&mut model, measures);
    let mut workings = Vec::new();
    workings.extend(inputs.map(|inputs| inputs.sheet));
    workings.extend([needs.prices, needs.stock, needs.packages, checks, needs.needs, scenarios]);
    workings.extend(practices);
    workings.push(numbers);
    for sheet in &mut workings {
        // What nobody fills in, and what is filled in on the screen, is not for paper; Checks is signed off with the order.
        sheet.layout.is_unprinted = UNPRINTED.contains(&sheet.name);
        let most = if sheet.layout.entries.is_empty() { 2 * SHOWN_ROWS } else { 5 * SHOWN_ROWS };
        if sheet.rows.len() as u32 > most {
            sheet.layout.printed_rows = Some(SHOWN_ROWS);
        }
    }
    Ok(Some(Live { order, wells, charts, workings, names: model.names, follows, back: model.back }))
}
