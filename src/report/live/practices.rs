//! The Practices sheet: what holds for each scenario and set of exceptions, each value the cell that decides it.

use super::inputs::{Inputs, is_used};
use super::model::{Model, named};
use crate::document::cell::{Cell, Sheet};
use crate::document::formula::Pieces;
use crate::relation::parameter::PARAMETERS;

const SHEET: &str = "Practices";
/// Columns that are printed of these workings.
const PRINTED: u16 = 14;

pub(super) fn sheet(model: &mut Model<'_>, inputs: &Inputs) -> Sheet {
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Practices: what holds where, by scenario and exceptions");
    sheet.note("Workings; nothing to change here. Every value is that of the cell on Inputs that decides it, in the units that the method counts in.");
    let parameters: Vec<_> = PARAMETERS.iter().filter(|parameter| is_used(parameter, model)).collect();
    let mut heads = vec!["No.".to_owned(), "Scenario".to_owned(), "Exceptions".to_owned()];
    heads.extend(parameters.iter().map(|parameter| match parameter.unit {
        "" => parameter.title.to_owned(),
        unit => format!("{} ({unit})", parameter.title),
    }));
    sheet.heads(heads);
    let first = sheet.rows.len() as u32;
    let last = first + model.practices.len() as u32 - 1;
    let factors: Vec<_> = parameters.iter().map(|parameter| model.shown(parameter.unit).1).collect();
    for (at, each) in model.practices.iter().enumerate() {
        let exceptions: Vec<String> =
            (0..64).filter(|bit| each.mask >> bit & 1 == 1).map(|bit| (bit + 1).to_string()).collect();
        let mut row = vec![
            Cell::count(at as u64 + 1),
            Cell::text(&model.matter.plan.cases[each.case].scenario.name),
            Cell::text(exceptions.join(", ")),
        ];
        for (parameter, factor) in parameters.iter().zip(&factors) {
            let value = (parameter.get)(&each.practice);
            let decided = inputs.decides(each.case, each.mask, parameter);
            row.push(match decided {
                Some((place, stated)) if stated == value || (stated.is_nan() && value.is_nan()) => {
                    let cell = || Pieces::at(place);
                    let counted = match factor {
                        Some(name) => cell().then(format!("*{name}")),
                        None => cell(),
                    };
                    let known = Pieces::call("ISNUMBER", [cell()]);
                    Cell::formula(Pieces::call("IF", [known, counted, Pieces::text("\"\"")]).giving(value, 4))
                }
                _ => Cell::number(value, 4),
            });
        }
        sheet.push(row);
    }
    for (at, parameter) in parameters.iter().enumerate() {
        model.name(&named(parameter.title), SHEET, at as u16 + 3, (first, last));
    }
    sheet.layout.widths = vec![4.0, 28.0, 6.0];
    sheet.layout.widths.extend(std::iter::repeat_n(8.0, parameters.len()));
    sheet.layout.frozen_columns = 3;
    sheet.layout.printed_columns = Some(PRINTED);
    sheet
}
