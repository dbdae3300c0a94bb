//! The table of scenarios: what each states, what it came to, and every figure by which they are compared; one row each.
//!
//! In the units of the other tables and at full precision. The treatments table names its scenario; this one says the rest.

use super::Matter;
use super::compare::{Figures, cost_of_chlorine, figures};
use crate::caution::Caution;
use crate::document::cell::{Grid, Value};
use crate::engine::{Case, raised};
use crate::kernel::requirement::{Practice, Stock};
use crate::parameter::{self, Effect, Kind, Parameter, of_practice};
use crate::quantity::unit;
use crate::rollup::Sums;

/// One scenario of a run.
struct Row<'a> {
    matter: &'a Matter<'a>,
    place: usize,
    case: &'a Case<'a>,
    figures: Figures,
}

/// A column of the table.
pub struct Column {
    /// Heading; ends in the unit where there is one.
    pub id: &'static str,
    /// What the column holds, in the sentence that the sheet Method prints.
    pub meaning: &'static str,
    get: fn(&Row<'_>) -> Value,
}

fn text(text: &str) -> Value {
    Value::text(text)
}

/// Digits are for people; tables carry full precision.
fn exact(value: f64) -> Value {
    Value::number(value, 6)
}

/// A figure of a liquid, or of a dry product.
fn of(row: &Row<'_>, liquid: bool, get: impl Fn(&Row<'_>) -> f64) -> Value {
    let is_liquid = matches!(row.case.stock.prepared.stock, Stock::Liquid { .. });
    if is_liquid == liquid { exact(get(row)) } else { Value::Empty }
}

/// A sum over all visits, of a liquid or a dry product.
fn sum(row: &Row<'_>, liquid: bool, get: fn(&Sums) -> f64) -> Value {
    of(row, liquid, |row| get(&row.figures.sums))
}

fn label(stock: &Stock) -> f64 {
    match stock {
        Stock::Liquid { label, .. } => label.grams_per_liter(),
        Stock::Dry { label, .. } => label.ratio() * 1000.0,
    }
}

fn warned(row: &Row<'_>, caution: Caution) -> Value {
    Value::Count(raised(row.matter.run, row.place, caution))
}

const fn column(id: &'static str, meaning: &'static str, get: fn(&Row<'_>) -> Value) -> Column {
    Column { id, meaning, get }
}

/// The columns before those of the practice.
pub static WHAT: &[Column] = &[
    column("scenario", "Name of the scenario; `treatments` and `totals` name it.", |row| text(&row.case.scenario.name)),
    column("number", "Its number in the full definition; S1 is number 1.", |row| {
        Value::Count(row.case.scenario.number as u64)
    }),
    column("product", "Name of the product.", |row| {
        text(&row.matter.plan.campaign.products[row.case.scenario.product].name)
    }),
    column("chemical", "What is in it.", |row| text(row.case.stock.prepared.chemical.name())),
    column("age_d", "Age of the stock.", |row| exact(row.case.stock.age.value / unit::DAY_S)),
    column("strength_label_g_per_l", "Liquids: available chlorine per liter when made.", |row| {
        of(row, true, |row| label(&row.case.stock.prepared.stock))
    }),
    column("strength_used_g_per_l", "Liquids: available chlorine per liter on the day of use.", |row| {
        of(row, true, |row| row.case.stock.prepared.stock.strength_used())
    }),
    column("strength_label_g_per_kg", "Dry products: available chlorine per kilogram when made.", |row| {
        of(row, false, |row| label(&row.case.stock.prepared.stock))
    }),
    column("strength_used_g_per_kg", "Dry products: available chlorine per kilogram on the day of use.", |row| {
        of(row, false, |row| row.case.stock.prepared.stock.strength_used())
    }),
    column("strength_left", "Share left of the label's strength, 0 to 1.", |row| {
        exact(row.case.stock.prepared.stock.share_of_label())
    }),
];

/// The columns behind those of the practice.
pub static CAME_TO: &[Column] = &[
    column("visits", "Visits in the lists.", |row| Value::Count(row.figures.sums.rows())),
    column("visits_planned", "Visits planned.", |row| Value::Count(row.figures.sums.planned)),
    column("visits_held_back", "Visits held back.", |row| Value::Count(row.figures.sums.held_back)),
    column("visits_excluded", "Visits that a rule leaves out.", |row| Value::Count(row.figures.sums.excluded)),
    column("visits_assumed", "Planned visits that use assumed values.", |row| Value::Count(row.figures.sums.assumed)),
    column("treated_volume_l", "Water treated.", |row| exact(row.figures.sums.treated_volume_l)),
    column("assumed_volume_l", "The part of it that rests on assumed values.", |row| {
        exact(row.figures.sums.assumed_volume_l)
    }),
    column("chlorine_g", "Available chlorine, as Cl2.", |row| exact(row.figures.sums.chlorine_g)),
    column("product_l", "Liquid product, first round.", |row| sum(row, true, |sums| sums.product)),
    column("product_low_l", "The same with every visit at its lowest.", |row| sum(row, true, |sums| sums.product_low)),
    column("product_high_l", "The same with every visit at its highest.", |row| {
        sum(row, true, |sums| sums.product_high)
    }),
    column("product_repeat_l", "Liquid product for the repeat round.", |row| sum(row, true, |sums| sums.repeat)),
    column("product_loss_l", "Liquid product lost in handling.", |row| sum(row, true, |sums| sums.loss)),
    column("product_in_all_l", "Liquid product with repeats and losses.", |row| sum(row, true, Sums::product_in_all)),
    column("product_kg", "Dry product, first round.", |row| sum(row, false, |sums| sums.product)),
    column("product_low_kg", "The same with every visit at its lowest.", |row| {
        sum(row, false, |sums| sums.product_low)
    }),
    column("product_high_kg", "The same with every visit at its highest.", |row| {
        sum(row, false, |sums| sums.product_high)
    }),
    column("product_repeat_kg", "Dry product for the repeat round.", |row| sum(row, false, |sums| sums.repeat)),
    column("product_loss_kg", "Dry product lost in handling.", |row| sum(row, false, |sums| sums.loss)),
    column("product_in_all_kg", "Dry product with repeats and losses.", |row| sum(row, false, Sums::product_in_all)),
    column("product_weight_kg", "Weight of product to haul, first round, of a liquid too.", |row| {
        exact(row.figures.sums.product_kg)
    }),
    column("product_cost", "Cost of the product packages, in the campaign's currency.", |row| {
        Value::optional(row.figures.product_cost, 2)
    }),
    column("chlorine_cost_per_kg", "Cost of the packages per kilogram of available chlorine that they bring.", |row| {
        exact(cost_of_chlorine(&row.figures, &row.case.stock.prepared.stock))
    }),
    column("order_cost", "Cost of everything on the order; empty where something has no price.", |row| {
        Value::optional(row.figures.order.of_all(), 2)
    }),
    column(
        "order_priced_so_far",
        "Cost of the lines of the order that are priced: not that of the order where some are not.",
        |row| exact(row.figures.order.cost),
    ),
    column("order_lines", "Lines of the order: an item at a depot is one.", |row| {
        Value::Count(row.figures.order.lines as u64)
    }),
    column("order_lines_priced", "Lines that are priced.", |row| Value::Count(row.figures.order.priced as u64)),
    column("order_not_priced", "Items that are not priced, by their names.", |row| {
        text(&row.figures.order.not_priced.join(", "))
    }),
    column("neutralizer_kg", "Neutralizer, all agents, first round.", |row| {
        exact(row.figures.sums.neutralizer_first_kg())
    }),
    column("neutralizer_repeat_kg", "Neutralizer for the repeat round.", |row| {
        exact(row.figures.sums.neutralizer_repeat_kg.iter().sum())
    }),
    column("neutralizer_loss_kg", "Neutralizer lost in handling.", |row| {
        exact(row.figures.sums.neutralizer_loss_kg.iter().sum())
    }),
    column("flush_volume_l", "Flush water.", |row| exact(row.figures.sums.flush_volume_l)),
    column("flush_h", "Hours of flushing, where a rate is known.", |row| exact(row.figures.sums.flush_h)),
    column("visits_without_flush_h", "Planned visits without a flush time.", |row| {
        Value::Count(row.figures.sums.flush_unknown)
    }),
    column("visits_ph_above_8_5", "Visits with a pH above 8.5 after dosing.", |row| warned(row, Caution::PhAboveEight)),
    column("visits_ph_unknown", "Visits where that pH is not known.", |row| warned(row, Caution::PhUnknown)),
    column("visits_above_500_mg_per_l", "Visits dosed above 500 mg/L.", |row| warned(row, Caution::AboveFiveHundred)),
];

/// A column of the practice: its heading, and the parameter.
pub fn of_the_practice() -> impl Iterator<Item = (String, &'static Parameter)> {
    of_practice().filter(|(_, parameter)| matches!(parameter.effect, Some(Effect::Sets { .. }))).map(
        |(group, parameter)| {
            let key =
                group.map_or_else(|| parameter.key.to_owned(), |group| format!("{}_{}", group.key, parameter.key));
            let ending = parameter.measured().map_or("", |measured| metric(measured.units).0);
            (format!("{key}{ending}"), parameter)
        },
    )
}

/// Ending and symbol of the unit in which the tables give a quantity.
fn metric(units: [&'static str; 3]) -> (&'static str, &'static str) {
    match units[1] {
        "m" => ("_m", "m"),
        "mm" => ("_mm", "mm"),
        "L" => ("_l", "L"),
        "L/min" => ("_l_per_min", "L/min"),
        "kg" => ("_kg", "kg"),
        "C" => ("_c", "C"),
        "h" => ("_h", "h"),
        "d" => ("_d", "d"),
        "mg/L" => ("_mg_per_l", "mg/L"),
        other => ("", other),
    }
}

fn stated(parameter: &Parameter, practice: &Practice) -> Value {
    let Some(Effect::Sets { get, .. }) = parameter.effect else { return Value::Empty };
    match (get(practice), parameter.kind) {
        (parameter::Value::Number(number), Kind::Quantity(measured) | Kind::QuantityOrTables(measured, _)) => {
            let unit = unit::by_symbol(metric(measured.units).1);
            exact(unit.map_or(number, |unit| unit.from_si(number)))
        }
        (parameter::Value::Number(number), _) => exact(number),
        (parameter::Value::Word(word), _) => text(word),
        (parameter::Value::Words(words), _) => text(&words.join(" ")),
        (parameter::Value::Unset | parameter::Value::HoldRule(_), _) => Value::Empty,
    }
}

/// The table: a row for each scenario of the run.
pub fn scenarios(matter: &Matter<'_>) -> Grid {
    let practice_columns: Vec<(String, &Parameter)> = of_the_practice().collect();
    let rows = matter.plan.cases.iter().enumerate().map(|(place, case)| {
        let row = Row { matter, place, case, figures: figures(matter, place) };
        // Overrides may change it for some visits.
        let practice = matter.plan.campaign.practice_of(case.scenario, 0);
        let stated = practice_columns.iter().map(|(_, parameter)| stated(parameter, &practice));
        let cell = |column: &Column| (column.get)(&row);
        WHAT.iter().map(cell).chain(stated).chain(CAME_TO.iter().map(cell)).collect()
    });
    let head = |column: &Column| column.id.to_owned();
    let of_practice = practice_columns.iter().map(|(id, _)| id.clone());
    Grid {
        heads: WHAT.iter().map(head).chain(of_practice).chain(CAME_TO.iter().map(head)).collect(),
        rows: rows.collect(),
    }
}
