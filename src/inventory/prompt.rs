//! One well typed at the prompt, read exactly as a row of a list: each option is a column, so that both give one answer.

use std::sync::{Arc, OnceLock};

use super::cell::CellRules;
use super::columns::{Feed, Plan};
use super::draft::{self, Draft, Table};
use super::intervals::Intervals;
use super::rows::Rows;
use super::survey::Survey;
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::field::{FIELD_COUNT, Field};
use crate::place::{Column, Origin};
use crate::quantity::parse::Comma;
use crate::quantity::unit;

/// The row that these cells make: a field, the option that was typed, its text.
///
/// # Errors
/// Where the rules' values for blank cells cannot be read.
pub fn typed(cells: &[(Field, &str, &str)], rules: &ReadingRules) -> Result<Option<Draft>> {
    let mut rows = Rows::default();
    rows.begin_row(1);
    let mut plan = Plan { feeds: vec![None; FIELD_COUNT], ..Plan::default() };
    for (at, (field, option, text)) in cells.iter().enumerate() {
        rows.push_text(text);
        plan.columns.push(Column { number: at as u32 + 1, heading: (*option).into() });
        // What has one unit everywhere needs none; nobody has said any other.
        let unit = field.quantity().filter(|quantity| quantity.default_units.is_none());
        plan.feeds[*field as usize] = Some(Feed::of(at, unit.and_then(|quantity| unit::by_symbol(quantity.unit))));
    }
    let fixed = Arc::new(super::one_cell::fixed(&ReadingRules { system: rules.system, ..ReadingRules::default() })?);
    let (slots, order) = draft::slots(&plan, &fixed);
    let worded = draft::worded(&plan);
    let table = Arc::new(Table {
        origin: Origin::file("this well"),
        order,
        slots,
        plan,
        carried: Vec::new(),
        comma: Comma::ByForm,
        short_rows: true,
        cells: Arc::new(CellRules::new(rules)),
        fixed,
        intervals: Arc::new(Intervals::default()),
        survey: Arc::new(Survey::default()),
        system: rules.system,
        system_of: rules.whose_system(),
        coded: 0,
        legend: Arc::default(),
        worded,
        no_wells_by_name: None,
        lists_no_wells: false,
        naming: OnceLock::new(),
    });
    Ok(draft::drafts(&table, &Arc::new(rows)).pop())
}
