//! The workbook of a plan recalculated by a second spreadsheet engine, in this process: every formula must come to what the workbook
//! holds for it.
//!
//!     cargo run --release --manifest-path tests/living/engine/Cargo.toml -- campaign.xlsx stripped.xlsx
//!
//! The second file is the same workbook without its stored results (`tests/living/living.py` makes it): nothing can be taken over
//! from there. The control changes one price and must see costs move. Ends with 1 where anything differs.

use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::import::load_from_xlsx;

const NEAR: f64 = 1e-9;
const SHOWN: usize = 30;

/// A formula: its sheet, row and column.
type Place = (u32, i32, i32);

fn main() {
    let mut arguments = std::env::args().skip(1);
    let (Some(stored), Some(stripped)) = (arguments.next(), arguments.next()) else {
        eprintln!("name the workbook, and the same without its stored results");
        std::process::exit(2);
    };
    let [stored, mut alive] = [stored, stripped].map(|path| match load_from_xlsx(&path, "en", "UTC", "en") {
        Ok(model) => model,
        Err(error) => {
            eprintln!("{path}: {error:?}");
            std::process::exit(2);
        }
    });
    alive.evaluate();
    let formulas = formulas(&alive);
    let mut faults: Vec<String> = formulas.iter().filter_map(|place| difference(&stored, &alive, *place)).collect();
    println!("{} formulas recalculated by a second engine, {} differ", formulas.len(), faults.len());
    if formulas.len() < 1_000 {
        faults.push(format!("only {} formulas", formulas.len()));
    }
    match control(&mut alive) {
        Some(cell) => {
            alive.evaluate();
            let moved = formulas.iter().filter(|place| difference(&stored, &alive, **place).is_some()).count();
            println!("control: {moved} cells moved with {cell}");
            if moved < 3 {
                faults.push("the control was not seen: nothing was recalculated".to_owned());
            }
        }
        None => faults.push("no price to change for the control".to_owned()),
    }
    faults.iter().take(SHOWN).for_each(|fault| println!("FAULT {fault}"));
    std::process::exit(i32::from(!faults.is_empty()));
}

/// Every cell with a formula.
fn formulas(model: &Model<'_>) -> Vec<Place> {
    let cells = model.get_all_cells().into_iter().map(|cell| (cell.index, cell.row, cell.column));
    let has_formula = |place: &Place| model.get_cell_formula(place.0, place.1, place.2).is_ok_and(|formula| formula.is_some());
    let mut found: Vec<Place> = cells.filter(has_formula).collect();
    found.sort_unstable();
    found
}

/// What the two say of a cell, where they do not say the same.
fn difference(stored: &Model<'_>, alive: &Model<'_>, place: Place) -> Option<String> {
    let (sheet, row, column) = place;
    let [ours, theirs] = [stored, alive].map(|model| model.get_cell_value_by_index(sheet, row, column));
    let same = match (&ours, &theirs) {
        (Ok(CellValue::Number(ours)), Ok(CellValue::Number(theirs))) => {
            (ours - theirs).abs() <= NEAR * ours.abs().max(theirs.abs()).max(1.0)
        }
        (Ok(ours), Ok(theirs)) => said(ours) == said(theirs),
        _ => false,
    };
    let name = alive.workbook.worksheets.get(sheet as usize).map_or("", |worksheet| worksheet.name.as_str());
    let formula = || alive.get_cell_formula(sheet, row, column).ok().flatten().unwrap_or_default();
    let cell = || format!("{name}!R{row}C{column}");
    (!same).then(|| format!("{}: {ours:?} by the program, {theirs:?} recalculated: {:.160}", cell(), formula()))
}

/// A cell in words; an empty one says nothing.
fn said(value: &CellValue) -> String {
    match value {
        CellValue::None => String::new(),
        CellValue::String(text) => text.clone(),
        CellValue::Number(number) => number.to_string(),
        CellValue::Boolean(flag) => flag.to_string(),
    }
}

/// Changes the first price; the cell, where there is one.
fn control(model: &mut Model<'_>) -> Option<String> {
    let sheet = model.workbook.worksheets.iter().position(|worksheet| worksheet.name == "Prices")? as u32;
    // Behind the headings; price stands in the fifth column.
    let (row, price) = (2..100).find_map(|row| match model.get_cell_value_by_index(sheet, row, 5) {
        Ok(CellValue::Number(price)) => Some((row, price)),
        _ => None,
    })?;
    model.set_user_input(sheet, row, 5, (price + 1.0).to_string()).ok()?;
    Some(format!("Prices!E{row}"))
}
