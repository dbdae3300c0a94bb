//! Columns whose unit is probably another: judged by the first rows against what is usual for the type of well.
//!
//! It only says so: which unit is right is for a person to settle. A single odd row is the checks' business.

use super::cell::{CellRules, Datum};
use super::columns::Plan;
use super::rows::CellKind;
use super::rows::trim;
use super::table::Opened;
use crate::field::{Field, Kind, WellType, usual};
use crate::finding::{Finding, catalogue};
use crate::place::Place;
use crate::quantity::parse::plain;
use crate::quantity::unit::{self, Unit};

/// Fewer values than this prove nothing.
const FEWEST: usize = 8;

/// Units that people mix up with one another.
const MIXED_UP: [&str; 5] = ["ft", "m", "in", "mm", "cm"];

/// Looks at the columns of depths and diameters.
pub fn units(
    table: &Opened,
    plan: &Plan,
    cells: &CellRules,
    fixed: &[Option<(Datum, Box<str>)>],
    findings: &mut Vec<Finding>,
) {
    for field in [Field::TotalDepth, Field::CasingDiameter] {
        let Some(feed) = plan.feeds[field as usize].as_ref().filter(|feed| !feed.barred && feed.unit_column.is_none())
        else {
            continue;
        };
        let Some(read_in) = feed.unit else { continue };
        let mut values: Vec<(WellType, f64)> = Vec::new();
        for row in table.first_row..table.sample.len() {
            let written = plain(trim(table.sample.cell(row, feed.column))).filter(|value| *value > 0.0);
            if let (Some(written), Some(well_type)) = (written, well_type(table, plan, cells, fixed, row)) {
                values.push((well_type, written));
            }
        }
        values.retain(|(well_type, _)| usual(*well_type, field).is_some());
        let fits = |unit: &Unit| {
            let fit = |(well_type, written): &&(WellType, f64)| {
                usual(*well_type, field)
                    .is_some_and(|(low, high)| (low * 0.999..=high * 1.001).contains(&unit.to_si(*written)))
            };
            values.iter().filter(fit).count()
        };
        let (all, as_read) = (values.len(), fits(read_in));
        if all < FEWEST || as_read * 2 >= all {
            continue;
        }
        let better = MIXED_UP
            .iter()
            .filter_map(|symbol| unit::by_symbol(symbol))
            .filter(|unit| unit.symbol != read_in.symbol)
            .map(|unit| (fits(unit), unit))
            .max_by_key(|(count, _)| *count)
            .filter(|(count, _)| count * 5 >= all * 4);
        let Some((as_other, other)) = better else { continue };
        let column = &plan.columns[feed.column];
        let says = format!(
            "read in {}, {as_read} of the first {all} values are usual for their type of well; in {} it would be {as_other}",
            read_in.symbol, other.symbol
        );
        let help =
            format!("correct the heading, or set the unit: [inventory.units] {} = \"{}\"", field.name(), other.symbol);
        let place = Place::cell(&table.origin, table.heading_row, column);
        findings.push(Finding::new(catalogue::UNIT_SUSPECT, place, says, help).seen(&column.heading));
    }
}

fn well_type(
    table: &Opened,
    plan: &Plan,
    cells: &CellRules,
    fixed: &[Option<(Datum, Box<str>)>],
    row: usize,
) -> Option<WellType> {
    let Kind::Choice(choices) = Field::WellType.definition().kind else { return None };
    let read = plan.feeds[Field::WellType as usize].as_ref().map_or(Datum::Missing, |feed| {
        let text = trim(table.sample.cell(row, feed.column));
        cells.read(Field::WellType, text, CellKind::Text, Default::default(), table.comma).datum
    });
    let datum = match (read, &fixed[Field::WellType as usize]) {
        (Datum::Missing, Some((fixed, _))) => *fixed,
        (read, _) => read,
    };
    match datum {
        Datum::Choice(at) => choices.get(usize::from(at)).and_then(|(name, _)| WellType::by_name(name)),
        _ => None,
    }
}
