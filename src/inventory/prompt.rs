//! One well typed at the prompt, read exactly as a row of a list: each option is a column, so that both give one answer.

use std::sync::{Arc, OnceLock};

use super::cell::CellRules;
use super::columns::{Feed, Plan, Shape};
use super::draft::{self, Draft, Table};
use super::intervals::Intervals;
use super::rows::Rows;
use super::survey::Survey;
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::field::{FIELD_COUNT, FIELDS, Field};
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
    let mut plan = Plan { columns: Vec::new(), feeds: vec![None; FIELD_COUNT], questions: Vec::new(), carried: Vec::new() };
    for (at, (field, option, text)) in cells.iter().enumerate() {
        rows.push_text(text);
        plan.columns.push(Column { number: at as u32 + 1, heading: (*option).into() });
        // What has one unit everywhere needs none; nobody has said any other.
        let unit = field.quantity().filter(|quantity| quantity.default_units.is_none());
        plan.feeds[*field as usize] = Some(Feed {
            column: at,
            unit: unit.and_then(|quantity| unit::by_symbol(quantity.unit)),
            unit_stated: true,
            unit_in_heading: false,
            unit_unsaid: false,
            unit_of_type: Vec::new(),
            shape: Shape::Straight,
            also: None,
            unit_column: None,
            reference_column: None,
            qualifier_column: None,
            species: None,
            datum: None,
            barred: false,
        });
    }
    let fixed = Arc::new(super::fixed(&ReadingRules { system: rules.system, ..ReadingRules::default() })?);
    let slots = draft::slots(&plan, &fixed);
    let order = FIELDS.iter().filter_map(|definition| Some((definition.field, slots[definition.field as usize]?)));
    let table = Arc::new(Table {
        origin: Origin::file("this well"),
        order: order.collect(),
        slots,
        plan,
        carried: Vec::new(),
        coded: 0,
        legend: Arc::default(),
        comma: Comma::ByForm,
        short_rows: true,
        cells: Arc::new(CellRules::new(rules)),
        fixed,
        intervals: Arc::new(Intervals::default()),
        survey: Arc::new(Survey::default()),
        system: rules.system,
        system_of: rules.whose_system(),
        worded: Vec::new(),
        naming: OnceLock::new(),
    });
    Ok(draft::drafts(&table, &Arc::new(rows)).pop())
}
