//! The About sheet: what the workbook is, from when, by which version, from what, what stands on which sheet, and how its colors are
//! read.

use super::Matter;
use crate::document::cell::{Cell, Class, Role, Sheet};

/// Every sheet that a workbook may have: its name, its class, and what stands on it.
const SHEETS: [(&str, Class, &str); 26] = [
    ("Summary", Class::Presentation, "What the campaign needs; here a scenario is picked."),
    ("About", Class::Presentation, "This sheet."),
    ("Compare", Class::Presentation, "The scenarios side by side."),
    ("Charts", Class::Presentation, "Need and cost as pictures."),
    ("Order", Class::Presentation, "What each depot must buy, to be signed."),
    ("Wells", Class::Working, "A row for each visit and scenario: every figure."),
    ("Crew", Class::Presentation, "The list of visits for a depot or a crew."),
    ("Held back", Class::Control, "Visits without an amount, and why."),
    ("Crew days", Class::Presentation, "What each crew takes along each day."),
    ("Findings", Class::Control, "What is wrong or doubtful in the lists, by cause."),
    ("Findings by cell", Class::Control, "The same, cell by cell."),
    ("Quality", Class::Control, "How complete the lists are, and what each gap costs."),
    ("Storage", Class::Presentation, "What aging leaves of each product."),
    ("Assumptions", Class::Presentation, "What the figures rest on that no list says."),
    ("Corrections", Class::Control, "Worklist of cells to be set right."),
    ("Method", Class::Presentation, "How each figure is made, with equations and sources."),
    ("Cautions", Class::Presentation, "What can hurt someone."),
    ("Inputs", Class::Input, "Values that may be changed: strengths, practice, allowances."),
    ("Prices", Class::Input, "What packages hold and cost."),
    ("Stock", Class::Input, "What each depot has already."),
    ("Packages", Class::Input, "How many of each package are bought."),
    ("Checks", Class::Control, "What must add up, and what has changed since the plan."),
    ("Needs", Class::Working, "What each depot needs of each item, by scenario."),
    ("Scenarios", Class::Working, "Product and strength of each scenario."),
    ("Practices", Class::Working, "What holds where, by scenario and exceptions."),
    ("Numbers", Class::Working, "Measures, and numbers that formulas count with."),
];

/// The class of a sheet.
pub(super) fn class_of(name: &str) -> Option<Class> {
    SHEETS.iter().find(|sheet| sheet.0 == name).map(|sheet| sheet.1)
}

/// `sheets`: the names of those that the workbook has, in their order.
pub(super) fn sheet(matter: &Matter<'_>, sheets: &[&str]) -> Sheet {
    let mut sheet = Sheet::new("About");
    sheet.title("About this workbook: what it is, and how it is read");
    let campaign = matter.plan.campaign;
    for (what, said) in [
        ("Campaign", campaign.title.clone()),
        ("Day", super::crew_days::day_of_plan(matter)),
        ("Made by", format!("{} {}", env!("CARGO_PKG_NAME"), env!("CARGO_PKG_VERSION"))),
        ("Lists", matter.lists.join(", ")),
        ("Rows", matter.account()),
        ("Scenarios", matter.plan.cases.len().to_string()),
        ("Currency", campaign.currency.clone()),
        (
            "Sources",
            "Method names the source of each equation, constant and rule; Assumptions says what was stated.".to_owned(),
        ),
        (
            "Colors of cells",
            "Yellow in a frame: may be changed. Amber: look at this. Gray and bold: a sum or a heading.".to_owned(),
        ),
    ] {
        sheet.wide(format!("{what}: {said}"), Role::Body);
    }
    sheet.gap();
    sheet.heads(["Sheet", "Class", "Color of its tab", "What stands on it"]);
    sheet.layout.filter_row = None;
    for (name, class, what) in SHEETS.iter().filter(|(name, ..)| sheets.contains(name) || *name == "About") {
        let (class, color) = match class {
            Class::Input => ("input", "yellow"),
            Class::Working => ("working", "gray"),
            Class::Presentation => ("presentation", "slate blue"),
            Class::Control => ("control", "amber"),
        };
        sheet.push([name, class, color, what].map(Cell::text).to_vec());
    }
    // Read on the screen: how the book is laid out.
    sheet.layout.is_unprinted = true;
    sheet.layout.widths = vec![18.0, 14.0, 16.0, 62.0];
    sheet.layout.frozen_rows = 1;
    sheet
}
