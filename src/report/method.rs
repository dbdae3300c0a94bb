//! The Method sheet: the columns with their equations, and each equation with its symbols, limits and sources.

use std::collections::BTreeSet;

use super::Matter;
use crate::document::cell::{Cell, Role, Sheet};
use crate::kernel::EQUATIONS;
use crate::kernel::constants::CONSTANTS;
use crate::ledger;
use crate::source::{Equation, Provenance, Source};

/// Rows that are printed: what is read on paper stands in the report.
const PRINTED_ROWS: u32 = 32;

pub(super) fn sheet(_matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Method");
    sheet.title("Method: how each figure is made");
    sheet.note(
        "Every column names its equation; every equation names its symbols, its limits and its source. \"Not checked against \
         the source\" means that the document named was not read for this purpose: check it before you rely on it.",
    );
    sheet.heads(["Column in the tables", "Means", "Unit", "Equation"]);
    for column in ledger::COLUMNS {
        sheet.push(vec![
            Cell::text(column.id),
            Cell::text(column.meaning),
            Cell::text(column.unit),
            Cell::text(column.equation),
        ]);
    }
    sheet.gap();
    sheet.push(["Equation", "Statement and symbols", "Holds for", "Source"].map(Cell::head).to_vec());
    let used: BTreeSet<&str> = ledger::COLUMNS.iter().map(|column| column.equation).collect();
    for equation in EQUATIONS {
        let role = if used.contains(equation.id) { Role::Body } else { Role::Note };
        sheet.push(vec![
            Cell::text(format!("{}  {}", equation.id, equation.name)).with_role(role),
            Cell::text(statement(equation)).with_role(role),
            Cell::text(equation.validity).with_role(role),
            Cell::text(equation.sources.iter().map(citation).collect::<Vec<_>>().join("; ")).with_role(role),
        ]);
    }
    sheet.gap();
    sheet.push(["Constant", "What it is", "Value and unit", "Source"].map(Cell::head).to_vec());
    for constant in CONSTANTS {
        // What was not verified stands out: it is what a careful reader checks first.
        let doubtful = constant.source.provenance == Provenance::FromMemory;
        let role = if doubtful { Role::Flagged } else { Role::Body };
        sheet.push(vec![
            Cell::text(constant.id.to_lowercase().replace('_', " ")).with_role(role),
            Cell::text(constant.description()),
            Cell::text(format!("{} {}", constant.value, constant.unit)),
            Cell::text(citation(&constant.source)).with_role(role),
        ]);
    }
    sheet.layout.widths = vec![30.0, 60.0, 28.0, 41.0];
    sheet.layout.filter_row = None;
    sheet.layout.printed_rows = Some(PRINTED_ROWS);
    sheet
}

/// The relation with its symbols, on lines of their own.
fn statement(equation: &Equation) -> String {
    let symbols = equation.symbols.iter().map(|(symbol, unit, meaning)| format!("{symbol} [{unit}] {meaning}"));
    std::iter::once(equation.statement.to_owned()).chain(symbols).collect::<Vec<_>>().join("\n")
}

/// Author, title, place, and how it was met.
pub fn citation(source: &Source) -> String {
    let locator = if source.locator.is_empty() { String::new() } else { format!(", {}", source.locator) };
    format!("{}{locator} ({})", source.citation, source.provenance.label())
}
