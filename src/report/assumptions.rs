//! The Assumptions sheet: everything the figures rest on that no list says: practice, overrides, missing values, stock.

use super::Matter;
use super::live::Back;
use crate::document::cell::{self, Cell, Role, Sheet};
use crate::document::formula::Name;
use crate::field::rules::UnitSystem;
use crate::kernel::requirement::Practice;
use crate::kernel::strength;
use crate::parameter::{Effect, Kind, Parameter, Taken, Value, of_practice};
use crate::quantity::format::number;
use crate::quantity::unit;
use crate::scenario::product::Product;

/// Name of the sheet, for whatever points to it.
pub(super) const NAME: &str = "Assumptions";

/// What a row says that follows from a choice: its name, its unit, and its value under a practice.
type Derived<'a> = (&'a str, &'a str, &'a dyn Fn(&Practice) -> f64);

/// The sheet as it is printed: what all scenarios share once, and below it what one does otherwise.
pub(super) fn sheet(matter: &Matter<'_>, back: &[Back], names: &mut Vec<Name>) -> Sheet {
    let whole = per_scenario(matter);
    let scenarios = matter.plan.cases.len();
    let mut sheet = Sheet::new(NAME);
    let mut in_overrides = false;
    // What the products are stands on the sheet Storage.
    let is_products = |row: &Vec<Cell>| row.first().is_some_and(|cell| cell.value.shown() == PRODUCT);
    let end = whole.rows.iter().rposition(is_products).unwrap_or(whole.rows.len());
    for (at, row) in whole.rows[..end].iter().enumerate() {
        let is_head = row.first().is_some_and(|cell| cell.role == Role::Head);
        in_overrides =
            if is_head { row.first().is_some_and(|cell| cell.value.shown() == OVERRIDES) } else { in_overrides };
        if whole.layout.wide_rows.contains(&(at as u32)) {
            row.iter().for_each(|cell| sheet.wide(cell.value.shown(), cell.role));
        } else if at as u32 + 1 == whole.layout.frozen_rows {
            sheet.heads(["Practice", "Unit", "Value"]);
        } else if is_head && in_overrides {
            sheet.push(vec![Cell::head(OVERRIDES)]);
        } else if in_overrides && row.len() == 3 {
            sheet.wide(format!("{}: {}", row[0].value.shown(), row[2].value.shown()), Role::Body);
        } else if row.len() == NAMING + scenarios && is_practice(&whole, at) {
            shared(row, matter, &mut sheet);
        } else {
            sheet.push(row.clone());
        }
    }
    sheet.layout.filter_row = None;
    super::stated::add(matter, back, names, &mut sheet);
    sheet.layout.widths = vec![48.0, 11.0, 38.0, 8.0, 8.0];
    sheet
}

/// Columns that name a line of the practice.
const NAMING: usize = 2;
const PRODUCT: &str = "Product";
const OVERRIDES: &str = "Overrides: for wells where";

/// What each product is, in a sentence.
pub(super) fn products_in_words(matter: &Matter<'_>) -> Vec<String> {
    let mut sheet = Sheet::new("Products");
    products(matter, &mut sheet);
    let sentence = |row: &Vec<Cell>| {
        let [name, chemical, label, basis, same, source] = &row[..] else { return None };
        let label = format!("{} {}", label.value.shown(), basis.value.shown());
        let said = [chemical.value.shown(), label, same.value.shown(), source.value.shown()];
        let said: Vec<String> = said.into_iter().filter(|text| !text.is_empty()).collect();
        (name.role != Role::Head).then(|| format!("{}: {}", name.value.shown(), said.join("; ")))
    };
    sheet.rows.iter().filter_map(sentence).collect()
}

/// Whether a row stands in the first table, that of the practice, which ends at the first gap.
fn is_practice(whole: &Sheet, at: usize) -> bool {
    let end = whole.rows.iter().position(Vec::is_empty).unwrap_or(whole.rows.len());
    at < end
}

/// A line of the practice: the value of most scenarios, then each that has another.
fn shared(row: &[Cell], matter: &Matter<'_>, sheet: &mut Sheet) {
    let values = &row[NAMING..];
    let times = |cell: &Cell| values.iter().filter(|other| *other == cell).count();
    let Some(most) = values.iter().rev().max_by_key(|cell| times(cell)) else { return };
    if values.iter().all(|cell| cell.value == cell::Value::Empty) {
        return;
    }
    sheet.push(vec![row[0].clone(), row[1].clone(), left(most)]);
    let mut others: Vec<(&Cell, Vec<&str>)> = Vec::new();
    for (case, cell) in matter.plan.cases.iter().zip(values).filter(|(_, cell)| *cell != most) {
        let name = case.scenario.name.as_str();
        match others.iter_mut().find(|(known, _)| *known == cell) {
            Some((_, names)) => names.push(name),
            None => others.push((cell, vec![name])),
        }
    }
    for (cell, names) in others {
        sheet.push(vec![Cell::text(format!("    only {}", names.join("; "))), row[1].clone(), left(cell)]);
    }
}

/// Words and numbers of one column stand alike.
fn left(cell: &Cell) -> Cell {
    Cell::text(cell.value.shown())
}

/// Every value with a column for each scenario.
pub(super) fn per_scenario(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new(NAME);
    let campaign = matter.plan.campaign;
    sheet.title("Assumptions: what the figures use that no list gives");
    sheet.note("Practice of each scenario before overrides. Chlorine is expressed as Cl2.");
    let heads = ["Practice", "Unit"].map(str::to_owned).into_iter();
    sheet.heads(heads.chain(matter.plan.cases.iter().map(|case| case.scenario.name.clone())));
    sheet.layout.filter_row = None;
    let practices: Vec<Practice> =
        matter.plan.cases.iter().map(|case| campaign.practice_of(case.scenario, 0)).collect();
    for (group, parameter) in of_practice() {
        if let Some(row) = row_of(parameter, &practices, campaign.system) {
            sheet.push(row);
        }
        // What follows from a choice stands below it.
        let derived: Option<Derived<'_>> = match (group.is_some(), parameter.key) {
            (false, "hold_rule") => {
                Some(("Contact time that the chosen rule requires at the target", "h", &|practice: &Practice| {
                    let least = practice.hold_rule.as_ref().and_then(|rule| rule.least_hold(practice.target));
                    least.map_or(f64::NAN, |least| least.value / 3600.0)
                }))
            }
            (true, "neutralizer") => Some(("Agent per chlorine, before the excess", "g/g", &|practice: &Practice| {
                practice.agent_per_chlorine(practice.neutralizer, None).ratio()
            })),
            _ => None,
        };
        if let Some((title, unit, get)) = derived {
            let digits = if unit == "h" { 0 } else { 3 };
            let mut row = vec![Cell::text(title), Cell::text(unit)];
            row.extend(practices.iter().map(|practice| Cell::number(get(practice), digits)));
            sheet.push(row);
        }
    }

    overrides(matter, &mut sheet);
    missing(matter, &mut sheet);
    products(matter, &mut sheet);
    sheet
}

/// A line of the practice: its title, unit and value in each scenario; nothing for what only stands for another value.
fn row_of(parameter: &Parameter, practices: &[Practice], system: UnitSystem) -> Option<Vec<Cell>> {
    let Some(Effect::Sets { get, digits, .. }) = parameter.effect else { return None };
    let shown = match parameter.kind {
        Kind::Quantity(measured) => {
            let symbol = measured.units[system.index()];
            Some((symbol, unit::by_symbol(symbol)?))
        }
        Kind::Number { .. } | Kind::Share { .. } | Kind::Choice(_) | Kind::Choices(_) => None,
        _ => return None,
    };
    let symbol = match parameter.kind {
        Kind::Number { unit, .. } => unit,
        Kind::Share { .. } => "%",
        _ => shown.map_or("", |(symbol, _)| symbol),
    };
    if parameter.key == "rule" {
        return None; // Its limit is the line above.
    }
    let default = match parameter.default {
        Taken::Words(words) => words,
        _ => "",
    };
    let cell = |practice: &Practice| match (get(practice), parameter.kind) {
        (Value::Number(share), Kind::Share { .. }) => Cell::number(share * 100.0, digits),
        (Value::Number(number), _) => Cell::number(shown.map_or(number, |(_, unit)| unit.from_si(number)), digits),
        (Value::Word(word), _) => Cell::text(word.replace('_', " ")),
        (Value::Words(words), _) => {
            Cell::text(words.iter().map(|word| word.replace('_', " ")).collect::<Vec<_>>().join(", "))
        }
        (Value::Unset, Kind::Choice(_)) => Cell::text(default),
        (Value::Unset | Value::HoldRule(_), _) => Cell::empty(),
    };
    let mut row = vec![Cell::text(parameter.title), Cell::text(symbol)];
    row.extend(practices.iter().map(cell));
    Some(row)
}

fn overrides(matter: &Matter<'_>, sheet: &mut Sheet) {
    let overrides = &matter.plan.campaign.overrides;
    if overrides.is_empty() {
        return;
    }
    sheet.gap();
    sheet.push([OVERRIDES, "", "these settings apply"].map(Cell::head).to_vec());
    for rule in overrides {
        let settings = rule.settings.iter().map(|setting| format!("{}: {}", setting.key, setting.label));
        sheet.push(vec![
            Cell::text(&rule.condition),
            Cell::empty(),
            Cell::text(settings.collect::<Vec<_>>().join("; ")),
        ]);
    }
}

fn missing(matter: &Matter<'_>, sheet: &mut Sheet) {
    let campaign = matter.plan.campaign;
    sheet.gap();
    let assumptions = &campaign.rules.assumptions;
    let drawn = &campaign.rules.drawn;
    if assumptions.is_empty() && drawn.is_empty() {
        sheet.note("Nothing is assumed for missing depths, diameters or levels: such rows are held back.");
        return;
    }
    sheet.push(["Assumed where the list gives no value", "Unit", "Low", "Mid", "High"].map(Cell::head).to_vec());
    for (well_type, field) in drawn {
        sheet.push(vec![
            Cell::text(format!("{}: {}", well_type.name(), field.name()).replace('_', " ")),
            Cell::empty(),
            Cell::text(
                "estimated from the list's own wells of this type: 10th, 50th and 90th percentile (the findings say which)",
            ),
        ]);
    }
    for ((well_type, field), assumption) in assumptions {
        let unit = field.quantity().and_then(|quantity| quantity.unit_in(Some(campaign.system)));
        let symbol = unit.map_or("", |unit| unit.symbol);
        let value = |si: f64| Cell::number(unit.map_or(si, |unit| unit.from_si(si)), 1);
        sheet.push(vec![
            Cell::text(format!("{}: {}", well_type.name(), field.name()).replace('_', " ")),
            Cell::text(symbol),
            value(assumption.low),
            value(assumption.mid),
            value(assumption.high),
        ]);
    }
}

fn products(matter: &Matter<'_>, sheet: &mut Sheet) {
    sheet.gap();
    let heads = [PRODUCT, "Chemical", "Label", "Basis", "The same liquid on every basis", "Source of the figures"];
    sheet.push(heads.map(Cell::head).to_vec());
    let campaign = matter.plan.campaign;
    for (index, product) in campaign.products.iter().enumerate() {
        if !matter.plan.cases.iter().any(|case| case.scenario.product == index) {
            continue;
        }
        sheet.push(vec![
            Cell::text(&product.name),
            Cell::text(product.chemical.name().replace('_', " ")),
            Cell::text(number(product.label.number, 4)),
            Cell::text(product.label.basis.name().replace('_', " ")),
            Cell::text(readings(product)),
            Cell::text(product.source.as_deref().unwrap_or("not stated")),
        ]);
    }
}

/// What a liquid's strength would be called on each basis; empty for a dry product, which has one.
fn readings(product: &Product) -> String {
    let label = strength::liquid_strength(product.label.number, product.label.basis, product.caustic_percent);
    let Some(label) = label.filter(|_| product.chemical.is_liquid()) else { return String::new() };
    let same = strength::liquid_readings(label, product.caustic_percent);
    format!(
        "{} % trade, {} % NaOCl by weight, {} % chlorine by weight, {} g/L, {} lb per US gal",
        number(same.trade_percent, 3),
        number(same.weight_naocl_percent, 3),
        number(same.weight_available_chlorine_percent, 3),
        number(same.grams_per_liter, 3),
        number(same.pounds_per_us_gallon, 3)
    )
}
