//! The blank inventory workbook: the vocabulary of fields as a sheet to be filled in, and a sheet of help.
//!
//! Headings, units, lists and bounds all come from [`crate::field`], so that what is typed into it is what is read.

use crate::document::cell::{Book, Cell, Role, Sheet, Value};
use crate::document::entry::{Allowed, Entry, Remark};
use crate::field::rules::UnitSystem;
use crate::field::{Definition, FIELDS, Field, HELP_SHEET_TITLE, Kind, Quantity};
use crate::quantity::format::number;
use crate::quantity::unit::{self, Unit};

/// Rows that have lists and checks; more can be filled in, and are read all the same.
const ROWS: u32 = 20_000;

/// Fields without which most wells cannot be computed.
const ESSENTIAL: [Field; 5] =
    [Field::WellId, Field::WellType, Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter];

/// A blank inventory in the units of a system.
pub fn book(system: UnitSystem) -> Book {
    Book {
        title: "List of wells".to_owned(),
        date: None,
        sheets: vec![wells(system), help(system)],
        names: Vec::new(),
        paper: super::show::paper(system),
    }
}

fn wells(system: UnitSystem) -> Sheet {
    let mut sheet = Sheet::new("Wells");
    let heads = FIELDS.iter().map(|definition| {
        let role = if ESSENTIAL.contains(&definition.field) { Role::Head } else { Role::Total };
        Cell::new(Value::text(heading(definition, system)), role)
    });
    sheet.push(heads.collect());
    for (column, definition) in FIELDS.iter().enumerate() {
        let column = column as u16;
        sheet.layout.entries.push(entry(column, definition, system));
        sheet.layout.remarks.push(Remark { row: 0, column, text: remark(definition, system) });
        sheet.layout.widths.push(match definition.kind {
            Kind::Text if definition.field == Field::Notes => 40.0,
            Kind::Text => 16.0,
            _ => 13.0,
        });
    }
    sheet.layout.frozen_rows = 1;
    sheet.layout.frozen_columns = 1;
    sheet.layout.filter_row = Some(0);
    sheet
}

fn help(system: UnitSystem) -> Sheet {
    let mut sheet = Sheet::new("Help");
    sheet.title(HELP_SHEET_TITLE);
    sheet.note("One row a well and visit, on the sheet Wells. What is not known stays blank: never 0, 99 or -999.");
    sheet.note(
        "A well can be computed from its type, depth, water level and inside diameter; or from type, height of water and \
         diameter; or from type and volume of water. Everything else makes the plan better.",
    );
    sheet.note(
        "Units stand in the headings. A cell may say its own: 12 ft 6 in, 150 mm, 6 1/4\". A range such as 5-8 counts as \
         low and high. Columns may be left out, moved, or added; added ones are carried along.",
    );
    sheet.gap();
    sheet.heads(["Heading", "Needed", "Example", "What to write", "Bounds or words", "Also understood as"]);
    for definition in &FIELDS {
        sheet.push(vec![
            Cell::text(heading(definition, system)),
            Cell::text(if ESSENTIAL.contains(&definition.field) { "yes" } else { "" }),
            Cell::text(example(definition, system)),
            Cell::text(definition.help),
            Cell::text(allowed_in_words(definition, system)),
            // One cell, so that no row of this sheet looks like a row of headings.
            Cell::text(in_one_line(definition.headings)),
        ]);
    }
    sheet.layout.widths = vec![26.0, 9.0, 24.0, 104.0, 54.0, 96.0];
    sheet
}

/// As many words as fit into one line; `aftercrest columns` lists all.
fn in_one_line(words: &[&str]) -> String {
    const LINE: usize = 96;
    let mut line = String::new();
    for word in words {
        if line.len() + word.len() + 2 > LINE {
            break;
        }
        if !line.is_empty() {
            line.push_str("; ");
        }
        line.push_str(word);
    }
    line
}

/// The unit a column of this field has.
fn unit_of(quantity: &Quantity, system: UnitSystem) -> Option<&'static Unit> {
    quantity.unit_in(Some(system)).filter(|unit| !matches!(unit.symbol, "" | "°"))
}

/// A field as people head its column: `Static water level`.
fn in_words(definition: &Definition) -> String {
    match definition.field {
        Field::WellId => "Well ID".to_owned(),
        Field::Ph => "pH".to_owned(),
        _ => {
            let words = definition.name.replace('_', " ");
            let (first, rest) = words.split_at(words.chars().next().map_or(0, char::len_utf8));
            format!("{}{rest}", first.to_uppercase())
        }
    }
}

/// What a cell of a drilled well may hold: an example that stands on the sheet of help, where nothing is planned.
fn example(definition: &Definition, system: UnitSystem) -> &'static str {
    let unit =
        definition.field.quantity().and_then(|quantity| unit_of(quantity, system)).map_or("", |unit| unit.symbol);
    match (definition.field, unit) {
        (Field::WellId, _) => "W-017",
        (Field::Depot, _) => "Mill Lane",
        (Field::WellType, _) => "drilled",
        (Field::TotalDepth, "ft") => "180",
        (Field::TotalDepth, _) => "55",
        (Field::StaticWaterLevel, "ft") => "40",
        (Field::StaticWaterLevel, _) => "12",
        (Field::CasingDiameter, "in") => "6",
        (Field::CasingDiameter, _) => "150",
        (Field::Flooded, _) => "yes",
        (Field::Notes, _) => "gate is locked; call first",
        _ => "",
    }
}

/// The heading of a field's column, with its unit.
pub fn heading(definition: &Definition, system: UnitSystem) -> String {
    match definition.field.quantity().and_then(|quantity| unit_of(quantity, system)) {
        Some(unit) => format!("{} ({})", in_words(definition), unit.symbol),
        None => in_words(definition),
    }
}

/// What can be true, in the column's unit, rounded outwards so that nothing possible is asked about.
fn bounds(quantity: &Quantity, system: UnitSystem) -> (f64, f64) {
    let written = |value: f64| match (unit_of(quantity, system), unit::by_symbol(quantity.unit)) {
        (Some(shown), Some(own)) if shown.symbol != own.symbol => shown.from_si(own.to_si(value)),
        _ => value,
    };
    (outwards(written(quantity.possible.0), false), outwards(written(quantity.possible.1), true))
}

/// A number with three digits that is not less (or not greater) than this one.
fn outwards(value: f64, up: bool) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let places = 2 - value.abs().log10().floor() as i32;
    let digits = value * 10_f64.powi(places);
    // What is exact up to the conversion of units stays as it is.
    let whole = if (digits - digits.round()).abs() < 1e-6 {
        digits.round()
    } else if up {
        digits.ceil()
    } else {
        digits.floor()
    };
    if places >= 0 { whole / 10_f64.powi(places) } else { whole * 10_f64.powi(-places) }
}

fn allowed(definition: &Definition, system: UnitSystem) -> Allowed {
    match &definition.kind {
        Kind::Text => Allowed::Text,
        Kind::Flag => Allowed::OneOf(["yes", "no"].map(str::to_owned).to_vec()),
        Kind::Choice(choices) => Allowed::OneOf(choices.iter().map(|(word, _)| (*word).to_owned()).collect()),
        Kind::Quantity(quantity) => {
            let (low, high) = bounds(quantity, system);
            Allowed::Between(low, high)
        }
    }
}

fn allowed_in_words(definition: &Definition, system: UnitSystem) -> String {
    match allowed(definition, system) {
        Allowed::Text | Allowed::Words | Allowed::Cells(_) | Allowed::AmongCells { .. } => String::new(),
        Allowed::OneOf(words) | Allowed::Among(words) => words.join(", "),
        Allowed::Between(low, high) | Allowed::TextOrBetween(low, high, _) => {
            let unit = definition.field.quantity().and_then(|quantity| unit_of(quantity, system));
            let symbol = unit.map_or(String::new(), |unit| format!(" {}", unit.symbol));
            format!("{} to {}{symbol}", number(low, 9), number(high, 9))
        }
    }
}

fn entry(column: u16, definition: &Definition, system: UnitSystem) -> Entry {
    let words = allowed_in_words(definition, system);
    let refusal = match &definition.kind {
        Kind::Text => String::new(),
        Kind::Quantity(_) => format!("This is not a number from {words}. It is read if it makes sense; keep it?"),
        _ => format!("Please choose one of: {words}. Leave it blank if it is not known."),
    };
    Entry {
        column,
        first_row: 1,
        last_row: ROWS,
        allowed: allowed(definition, system),
        title: heading(definition, system),
        help: definition.help.to_owned(),
        refusal,
    }
}

fn remark(definition: &Definition, system: UnitSystem) -> String {
    let words = allowed_in_words(definition, system);
    let needed = if ESSENTIAL.contains(&definition.field) { " Needed for most wells." } else { "" };
    let words = if words.is_empty() { words } else { format!("\n{words}") };
    format!("{}{needed}{words}", definition.help)
}
