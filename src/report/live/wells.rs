//! The Wells sheet: a row for each visit and scenario; what has a relation is a formula, what a formula counts with stands in the
//! columns at its end.

use super::super::Matter;
use super::super::field_words::SAID;
use super::super::show::Shown;
use super::crew::DIGITS;
use super::formula::{GRADUATION, MEASURE, MEASURED_DEMAND, Stands, formula};
use super::model::{Model, Row, indexed, named};
use super::well_columns::{ADDED, BESIDE, Beside, LIVE, MARKED, SETTLED};
use super::{numbers, scenarios};
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Copied, Pieces};
use crate::field::rules::UnitSystem;
use crate::ledger::{COLUMNS, CaseLabel, Column, Datum};
use crate::quantity::Reading;
use crate::relation::parameter::PARAMETERS;
use crate::relation::{Expression, Given, Operand, Operands, describe, entry, varies};
use crate::visit::Visit;

pub(super) const SHEET: &str = "Wells";

/// One column of the sheet.
struct Of {
    title: String,
    shown: Shown,
    factor: Option<String>,
    digits: usize,
    filled: Filled,
    /// Whether every, some or no planned row has a value; whether all have the same.
    known: (bool, bool),
    same: Option<f64>,
}

enum Filled {
    Table(&'static Column),
    Beside(Beside),
}

impl Of {
    fn operand(&self) -> Option<Operand> {
        match self.filled {
            Filled::Table(column) => Some(Operand { id: column.id, reading: Reading::Mid }),
            Filled::Beside(Beside::Value(operand) | Beside::Live(operand)) => Some(operand),
            Filled::Beside(Beside::MeasuredDemand) => Some(MEASURED_DEMAND),
            Filled::Beside(_) => None,
        }
    }
}

/// What is measured of the demand: the sum in the relation.
fn measured_demand() -> Expression {
    match entry("demand_mg_per_l").and_then(|entry| entry.relation()) {
        Some(Expression::FirstKnown(parts)) => parts.into_iter().next().unwrap_or(Expression::Unknown),
        _ => Expression::Unknown,
    }
}

/// What the words of a row rest on, added up as it was planned.
const AS_PLANNED: (&str, &str) = ("Amounts as planned, added up", "Wells_as_planned");

/// The sheet; `told`: with the words of each visit, for the Crew sheet to follow.
pub(super) fn sheet(model: &mut Model<'_>, told: bool) -> Sheet {
    let matter = model.matter;
    if told {
        let title = "Digits of an amount that is said in words after a change";
        model.number(DIGITS.0, title, "", DIGITS.1, "no measure has finer parts");
    }
    for id in numbers::IDS {
        numbers::use_constant(model, id);
    }
    let mut columns = columns(model);
    let measured = measured_demand();
    survey(model, &mut columns, &measured);
    let mut sheet = head(matter, &columns, told);
    let own = COLUMNS.len();
    let carried = matter.plan.carried.len();
    let place = |at: usize| (if at < own { at } else { at + carried }) as u16;
    let parameters: Vec<(&str, String, bool, bool)> = PARAMETERS
        .iter()
        .map(|parameter| {
            let known = model.practices.iter().filter(|each| !(parameter.get)(&each.practice).is_nan()).count();
            (parameter.id, named(parameter.title), known == model.practices.len(), known > 0)
        })
        .collect();
    let key = |title: &str| columns.iter().position(|column| column.title == title).map_or(0, place);
    let (scenario, practice, measure) = (key("Scenario no."), key("Practice no."), key("Measure no."));
    let stands = |operand: Operand| -> Stands {
        if operand == GRADUATION || operand == MEASURE {
            let name = if operand == MEASURE { "Measure_size" } else { "Measure_graduation" };
            return Stands::Always(indexed(name, Pieces::here(measure)));
        }
        if let Some(name) = scenarios::name_of(operand) {
            let cell = indexed(name, Pieces::here(scenario));
            let always = !name.starts_with("Strength") && !name.starts_with("Label") && name != "Density";
            return if always { Stands::Always(cell) } else { Stands::Perhaps(cell.clone(), cell) };
        }
        if let Some((_, name, all, some)) = parameters.iter().find(|parameter| parameter.0 == operand.id) {
            let cell = indexed(name, Pieces::here(practice));
            return match (all, some) {
                (true, _) => Stands::Always(cell),
                (_, true) => Stands::Perhaps(cell.clone(), cell),
                _ => Stands::Never,
            };
        }
        if operand.id.starts_with("constant.") {
            return Stands::Always(Pieces::text(numbers::name_of(operand.id)));
        }
        let Some(at) = columns.iter().position(|column| column.operand() == Some(operand)) else {
            return Stands::Inline;
        };
        let column = &columns[at];
        let cell = Pieces::here(place(at));
        let counted = match &column.factor {
            Some(name) => Pieces::text("(").and(cell.clone()).then(format!("*{name})")),
            None => cell.clone(),
        };
        match (column.known, column.same) {
            (_, Some(value)) if operand.id.starts_with("flag.") => Stands::Same(value == 1.0),
            ((true, _), _) => Stands::Always(counted),
            ((_, true), _) => Stands::Perhaps(cell, counted),
            _ => Stands::Never,
        }
    };
    let formulas: Vec<Option<Copied>> =
        columns.iter().map(|column| made(column, &stands, scenario, practice).map(Pieces::copied)).collect();
    // Once a column, because there are thousands of rows.
    let settled: Vec<bool> =
        columns.iter().map(|of| of.operand().is_some_and(|operand| SETTLED.contains(&operand.id))).collect();
    let marks: Vec<Option<Operand>> = columns.iter().map(|column| mark_of(column.operand()?)).collect();
    let measured_unit = indexed("Measure_unit", Pieces::here(measure)).copied();
    let labels: Vec<CaseLabel<'_>> = matter.plan.labels().collect();
    let first = sheet.rows.len() as u32;
    for row in &model.rows {
        let role = match row.visit {
            Visit::Planned { .. } => Role::Body,
            Visit::HeldBack { .. } => Role::Flagged,
            Visit::Excluded { .. } => Role::Note,
        };
        let given = model.given(row);
        let need = row.treated.map(|treated| treated.1);
        let mut cells: Vec<Cell> = Vec::with_capacity(columns.len() + carried);
        for (at, column) in columns.iter().enumerate() {
            if at == own {
                cells.extend((0..carried).map(|at| {
                    let text = row.visit.carried().get(at).map(|text| &**text).unwrap_or_default();
                    Cell::text(text).with_role(role)
                }));
            }
            let number = match column.filled {
                Filled::Table(table) => match table.datum(&labels[row.case], row.visit, need) {
                    Datum::Text(text) if table.id == "measured_unit" && given.is_some() => {
                        cells.push(Cell::formula(measured_unit.saying(text)));
                        continue;
                    }
                    Datum::Text(text) => {
                        let text = super::super::wells::in_words(table.id, row.visit, text);
                        cells.push(Cell::text(text).with_role(role));
                        continue;
                    }
                    Datum::Number(number) => number,
                },
                Filled::Beside(beside) => of_row(beside, row, (given.as_ref(), &measured), model),
            };
            let number = super::inputs::tidy(column.shown.value(number));
            // A quantity is nothing in a row that lacks the mark that it goes with.
            let is_unmarked = |given: &Given<'_>| marks[at].is_some_and(|mark| given.value(mark, None) == 0.0);
            cells.push(match (&formulas[at], &given) {
                _ if number.is_nan() && settled[at] => Cell::empty(),
                (Some(_), Some(given)) if is_unmarked(given) => Cell::number(0.0, column.digits),
                (Some(copied), Some(_)) => Cell::formula(copied.giving(number, column.digits)),
                _ => Cell::number(number, column.digits),
            });
        }
        if let (true, Some(need)) = (told, need) {
            cells.extend(SAID.iter().map(|(_, _, says)| Cell::text(says(row.visit, need, model.system))));
            cells.push(Cell::number(given.as_ref().map_or(f64::NAN, |given| as_planned(given, model.system)), 3));
        }
        sheet.push(cells);
    }
    super::super::wells::shown_for_one(matter, &mut sheet);
    let rows = (first, sheet.rows.len() as u32 - 1);
    for (at, column) in columns.iter().enumerate() {
        let name = match column.filled {
            Filled::Table(table) => ADDED.iter().find(|added| added.0 == table.id).map(|added| added.1),
            Filled::Beside(_) => {
                BESIDE.iter().find(|beside| beside.0 == plain_title(&column.title)).map(|beside| beside.1)
            }
        };
        if let Some(name) = name.filter(|name| !name.is_empty()) {
            model.name(name, SHEET, place(at), rows);
        }
    }
    if told {
        let names = SAID.iter().map(|said| said.1).chain([AS_PLANNED.1]);
        for (at, name) in names.enumerate() {
            model.name(name, SHEET, place(columns.len()) + at as u16, rows);
        }
    }
    sheet
}

/// The mark that a quantity goes with, if it goes with one.
fn mark_of(operand: Operand) -> Option<Operand> {
    let (_, mark) = MARKED.iter().find(|(id, _)| *id == operand.id)?;
    Some(Operand { id: mark, reading: Reading::Mid })
}

/// The figures of a row that its words rest on, in the units that they are shown in, added up: a change of one shows in the sum.
fn as_planned(given: &Given<'_>, system: UnitSystem) -> f64 {
    let figures = [
        ("measured_amount", ""),
        ("chlorine_g", "g"),
        ("predilution_l", "L"),
        ("neutralizer_kg", "kg"),
        ("practice.hold_hours", ""),
    ];
    let value = |id| given.value(Operand { id, reading: Reading::Mid }, None);
    let shown = |(id, unit): (&'static str, &'static str)| Shown::of(unit, system).value(value(id));
    figures.into_iter().map(shown).filter(|figure| !figure.is_nan()).sum()
}

/// The heading without its unit.
fn plain_title(title: &str) -> &str {
    title.split(" (").next().unwrap_or(title)
}

fn columns(model: &mut Model<'_>) -> Vec<Of> {
    let table = COLUMNS.iter().map(|column| (column.title, column.unit, column.digits, Filled::Table(column)));
    let beside = BESIDE.iter().map(|(title, _, beside)| {
        let unit = match beside {
            Beside::Value(operand) | Beside::Live(operand) => {
                describe(operand.id).map_or("", |described| described.unit)
            }
            Beside::MeasuredDemand => "mg/L",
            _ => "",
        };
        (*title, unit, if unit.is_empty() { 3 } else { 2 }, Filled::Beside(*beside))
    });
    table
        .chain(beside)
        .map(|(title, unit, digits, filled)| {
            let (shown, factor) = model.shown(unit);
            let digits = shown.digits(digits);
            Of { title: shown.heading(title), shown, factor, digits, filled, known: (true, false), same: None }
        })
        .collect()
}

/// Finds which columns have a value in every planned row, in some, or always the same.
fn survey(model: &Model<'_>, columns: &mut [Of], measured: &Expression) {
    for column in columns {
        let Some(operand) = column.operand() else { continue };
        let mut values = model.rows.iter().filter_map(|row| model.given(row)).map(|given| match operand {
            MEASURED_DEMAND => measured.evaluate(&given),
            operand => given.value(operand, None),
        });
        let first = values.next().unwrap_or(f64::NAN);
        let (mut all, mut some, mut same) = (!first.is_nan(), !first.is_nan(), true);
        for value in values {
            all &= !value.is_nan();
            some |= !value.is_nan();
            same &= value == first;
        }
        column.known = (all, some);
        column.same = same.then_some(first);
    }
}

fn of_row(
    beside: Beside,
    row: &Row<'_>,
    (given, measured): (Option<&Given<'_>>, &Expression),
    model: &Model<'_>,
) -> f64 {
    match (beside, given) {
        (Beside::Key(key), _) => key(row, model),
        (_, None) => f64::NAN,
        (Beside::Value(operand) | Beside::Live(operand), Some(given)) => given.value(operand, None),
        (Beside::MeasuredDemand, Some(given)) => measured.evaluate(given),
        (Beside::Repeats, Some(given)) => given.practice.repeat_share,
        (Beside::Measure, Some(given)) => measure_number(given, row.case, model),
    }
}

/// Place of the measure that is used on the Measures sheet, from 1.
fn measure_number(given: &Given<'_>, case: usize, model: &Model<'_>) -> f64 {
    let amount = |id| given.value(Operand { id, reading: Reading::Mid }, None);
    let amount = if given.product.chemical.is_liquid() { amount("to_measure_l") } else { amount("to_measure_kg") };
    let rung = given.rungs().iter().position(|rung| amount < rung.size * rung.below).unwrap_or(0);
    (model.first_measure[case] + rung) as f64 + 1.0
}

fn made(column: &Of, stands: &dyn Fn(Operand) -> Stands, scenario: u16, practice: u16) -> Option<Pieces> {
    let operand = match column.filled {
        Filled::Table(table) if LIVE.contains(&table.id) => Operand { id: table.id, reading: Reading::Mid },
        Filled::Beside(Beside::Live(operand)) => operand,
        Filled::Beside(Beside::Repeats) => {
            return Some(indexed(&named("Wells re-treated"), Pieces::here(practice)));
        }
        Filled::Beside(Beside::Measure) => {
            let to_measure = |id| match stands(Operand { id, reading: Reading::Mid }) {
                Stands::Always(cell) | Stands::Perhaps(_, cell) => cell,
                _ => Pieces::text("0"),
            };
            let by = || Pieces::here(scenario);
            let amount = Pieces::call(
                "IF",
                [indexed("Liquid", by()).then("=1"), to_measure("to_measure_l"), to_measure("to_measure_kg")],
            );
            let below = Pieces::text("SUMPRODUCT((Measure_ladder=").and(indexed("Ladder", by()));
            let below = below.then(")*(Measure_ends<=").and(amount).then("))");
            return Some(indexed("First_measure", by()).then("+").and(below));
        }
        _ => return None,
    };
    let strength = scenarios::name_of(operand);
    if let Some(name) = strength {
        let cell = indexed(name, Pieces::here(scenario));
        return Some(Pieces::call("IF", [Pieces::call("ISNUMBER", [cell.clone()]), cell, Pieces::text("\"\"")]));
    }
    let relation = entry(operand.id)?.relation()?;
    let relation = match operand.reading {
        Reading::Mid => relation,
        reading => relation.at(reading, &varies),
    };
    formula(&relation, stands, column.factor.as_deref())
}

fn head(matter: &Matter<'_>, columns: &[Of], told: bool) -> Sheet {
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Wells: what each visit needs under each scenario");
    sheet.note(format!(
        "{}. Chlorine and doses are as Cl2. Amounts to measure out are rounded up to the measure. Figures follow the Inputs sheet; pH, \
         cautions and whatever is said in words are those of the plan.",
        matter.coverage()
    ));
    if matter.plan.cases.len() > 1 {
        sheet.note(super::super::wells::FILTERED);
    }
    let own = COLUMNS.len();
    let titles = columns.iter().map(|column| column.title.clone());
    let mut heads: Vec<String> =
        titles.clone().take(own).chain(matter.plan.carried.iter().cloned()).chain(titles.skip(own)).collect();
    if told {
        heads.extend(SAID.iter().map(|said| said.0).chain([AS_PLANNED.0]).map(str::to_owned));
    }
    sheet.heads(heads);
    sheet.layout.widths = COLUMNS.iter().map(|column| super::super::wells::width(column.id)).collect();
    sheet
}
