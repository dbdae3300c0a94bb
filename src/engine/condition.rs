//! Override conditions: SQL over the inventory fields, parsed once, evaluated by polars on each batch of wells.
//!
//! A measured field is named with its unit (`total_depth_ft`, `total_depth_m`): a bare `total_depth > 50` could mean either
//! and is refused. Fields with one unit everywhere (pH, mg/L) may be named bare. A condition on a field that a well does
//! not have is not met.

mod rowwise;

use std::collections::BTreeMap;

use polars::prelude::{
    BooleanChunked, DataFrame, DataType, Expr, Float64Chunked, IntoColumn, IntoLazy, IntoSeries, NewChunkedArray,
    StringChunked,
};
use polars::sql::sql_expr;

use crate::error::{Error, Result};
use crate::field::names::fold;
use crate::field::rules::ReadingRules;
use crate::field::{FIELDS, Field, Kind, same_column};
use crate::quantity::unit::{self, Dimension, Unit};
use crate::scenario::Override;
use crate::scenario::section::near;
use crate::scenario::stated::Spot;
use crate::visit::{Asked, Visit};

/// Every override's condition, ready to be asked of a batch.
#[derive(Debug, Default)]
pub struct Conditions {
    expressions: Vec<Expr>,
    /// Where each is written.
    spots: Vec<Spot>,
    columns: Vec<ConditionColumn>,
    /// Depots and regions as conditions spell them, by what names are compared by.
    names: BTreeMap<String, Vec<String>>,
}

/// A column that some condition names.
#[derive(Debug, Clone)]
struct ConditionColumn {
    name: String,
    content: Content,
}

#[derive(Debug, Clone, Copy)]
enum Content {
    Quantity(Field, &'static Unit),
    Text(Field),
    Flag(Field),
    Carried(usize),
}

/// Units by which a measured field may be named in a condition, with the ending each has.
const ENDINGS: [(&str, &str); 15] = [
    ("_m", "m"),
    ("_ft", "ft"),
    ("_mm", "mm"),
    ("_in", "in"),
    ("_l", "L"),
    ("_m3", "m3"),
    ("_us_gal", "US gal"),
    ("_imp_gal", "imp gal"),
    ("_l_per_min", "L/min"),
    ("_us_gpm", "US gpm"),
    ("_imp_gpm", "imp gpm"),
    ("_m3_per_h", "m3/h"),
    ("_c", "C"),
    ("_f", "F"),
    ("_mg_per_l", "mg/L"),
];

/// Takes a condition apart; what cannot be answered from one well alone is refused.
///
/// # Errors
/// [`Error::Scenario`] with the line.
pub fn expression(rule: &Override) -> Result<Expr> {
    rowwise::prove_short(&rule.condition).map_err(|reason| rule.spot.error(reason))?;
    let expression = sql_expr(&rule.condition)
        .map_err(|error| rule.spot.error(format!("this condition is not SQL: {}", first_line(&error.to_string()))))?;
    rowwise::prove(&expression).map_err(|reason| rule.spot.error(reason))?;
    Ok(expression)
}

impl Conditions {
    /// Parses every condition; `carried` are the columns of the lists that are not fields, `rules` how the others are read.
    ///
    /// # Errors
    /// [`Error::Scenario`] with the line of each: no SQL, no such field, a unit left open, or not a yes-or-no condition.
    pub fn parse(overrides: &[Override], carried: &[String], rules: &ReadingRules) -> Result<Self> {
        let mut conditions = Self::default();
        Error::all_told(overrides.iter().map(|rule| conditions.take(rule, carried, rules)))?;
        conditions.prove(overrides)?;
        Ok(conditions)
    }

    /// Takes a condition in; a name that is known already is not looked up again.
    fn take(&mut self, rule: &Override, carried: &[String], rules: &ReadingRules) -> Result<()> {
        let expression = expression(rule)?;
        let names = expression.clone().meta().root_names();
        Error::all_told(names.iter().map(|name| {
            let name = name.as_str();
            if self.columns.iter().all(|column| column.name != name) {
                let content = content_named(name, carried, rules).map_err(|reason| rule.spot.error(reason))?;
                self.columns.push(ConditionColumn { name: name.to_owned(), content });
            }
            Ok(())
        }))?;
        for text in rowwise::texts(&expression) {
            let alike = self.names.entry(fold(&text)).or_default();
            if !alike.contains(&text) {
                alike.push(text);
            }
        }
        self.expressions.push(expression);
        self.spots.push(rule.spot.clone());
        Ok(())
    }

    /// Tries every condition on an empty batch, so that a wrong type is found before any well is read.
    fn prove(&self, overrides: &[Override]) -> Result<()> {
        Error::all_told(overrides.iter().enumerate().map(|(index, rule)| {
            let frame = self.frame::<Visit>(&[])?;
            let answer = frame.lazy().select([self.expressions[index].clone()]).collect();
            let column = answer.map_err(|error| {
                rule.spot.error(format!("this condition cannot be evaluated: {}", first_line(&error.to_string())))
            })?;
            let is_condition = column.columns().first().is_some_and(|column| column.dtype() == &DataType::Boolean);
            if !is_condition {
                return Err(rule
                    .spot
                    .error("this must be a condition that is true or false, such as \"well_type = 'dug'\""));
            }
            Ok(())
        }))
    }

    /// For each well or visit a bit per override: bit i is set where condition i holds.
    ///
    /// # Errors
    /// [`Error::Scenario`] with the line, where a value of some well does not fit the condition (a text made a number).
    pub fn masks<T: Asked>(&self, wells: &[&T]) -> Result<Vec<u64>> {
        let mut masks = vec![0; wells.len()];
        if self.expressions.is_empty() || wells.is_empty() {
            return Ok(masks);
        }
        let failed = |error: polars::prelude::PolarsError| self.refused(wells, &error.to_string());
        let named: Vec<Expr> = self
            .expressions
            .iter()
            .enumerate()
            .map(|(index, expression)| expression.clone().alias(format!("condition {index}").as_str()))
            .collect();
        // `with_columns`, not `select`: a condition on no column at all (`TRUE`) must still answer for every well.
        let answers = self.frame(wells)?.lazy().with_columns(named).collect().map_err(failed)?;
        for index in 0..self.expressions.len() {
            let column = answers.column(&format!("condition {index}")).map_err(failed)?;
            for (mask, holds) in masks.iter_mut().zip(column.bool().map_err(failed)?.iter()) {
                if holds == Some(true) {
                    *mask |= 1 << index;
                }
            }
        }
        Ok(masks)
    }

    /// A depot or a region as the conditions spell it, where they name it.
    fn spelled<'t>(&'t self, field: Field, text: &'t str) -> &'t str {
        if !matches!(field, Field::Depot | Field::Region) || self.names.is_empty() {
            return text;
        }
        let alike = self.names.get(&fold(text)).map_or(&[][..], Vec::as_slice);
        if alike.iter().any(|name| name == text) { text } else { alike.first().map_or(text, String::as_str) }
    }

    /// Which condition it was that could not be evaluated.
    fn refused<T: Asked>(&self, wells: &[&T], error: &str) -> Error {
        for (expression, spot) in self.expressions.iter().zip(&self.spots) {
            let Ok(frame) = self.frame(wells) else { break };
            if let Err(error) = frame.lazy().with_columns([expression.clone().alias("condition")]).collect() {
                let why = first_line(&error.to_string()).to_owned();
                return spot.error(format!("this condition cannot be evaluated for some well: {why}"));
            }
        }
        Error::Internal(format!("an override condition: {error}"))
    }

    fn frame<T: Asked>(&self, wells: &[&T]) -> Result<DataFrame> {
        let columns = self.columns.iter().map(|column| {
            let name = column.name.as_str().into();
            match column.content {
                Content::Quantity(field, unit) => Float64Chunked::from_iter_options(
                    name,
                    wells.iter().map(|well| well.si_value(field).map(|si| unit.from_si(si))),
                )
                .into_series(),
                Content::Text(field) => {
                    let spelled = wells.iter().map(|well| well.text(field).map(|text| self.spelled(field, text)));
                    StringChunked::from_iter_options(name, spelled).into_series()
                }
                Content::Flag(field) => {
                    BooleanChunked::from_iter_options(name, wells.iter().map(|well| well.flag(field))).into_series()
                }
                Content::Carried(index) => StringChunked::from_iter_options(
                    name,
                    wells
                        .iter()
                        .map(|well| well.carried().get(index).map(|text| &**text).filter(|text| !text.is_empty())),
                )
                .into_series(),
            }
            .into_column()
        });
        let mut columns: Vec<_> = columns.collect();
        if columns.is_empty() {
            columns.push(
                Float64Chunked::from_iter_options("no column".into(), wells.iter().map(|_| None))
                    .into_series()
                    .into_column(),
            );
        }
        DataFrame::new(wells.len(), columns)
            .map_err(|error| Error::Internal(format!("the frame of a condition: {error}")))
    }
}

/// What a name in a condition stands for, or why it stands for nothing.
fn content_named(name: &str, carried: &[String], rules: &ReadingRules) -> std::result::Result<Content, String> {
    let column = carried.iter().position(|column| same_column(column, name));
    let field = Field::by_name(name).or_else(|| if column.is_none() { rules.fed_by(name) } else { None });
    if let Some(field) = field {
        return match field.definition().kind {
            Kind::Text | Kind::Choice(_) => Ok(Content::Text(field)),
            Kind::Flag => Ok(Content::Flag(field)),
            Kind::Quantity(quantity) => match unit::by_symbol(quantity.unit) {
                Some(unit) if quantity.default_units.is_none() => Ok(Content::Quantity(field, unit)),
                _ => Err(format!(
                    "`{name}` needs its unit, because a bare number could be read two ways: {}",
                    names_of(field, quantity.dimension).join(" or ")
                )),
            },
        };
    }
    for (ending, symbol) in ENDINGS {
        if let Some(field) = name.strip_suffix(ending).and_then(Field::by_name)
            && let Some(quantity) = field.quantity()
            && let Some(unit) = unit::by_symbol(symbol).filter(|unit| unit.dimension == quantity.dimension)
        {
            return Ok(Content::Quantity(field, unit));
        }
    }
    if let Some(index) = column {
        return Ok(Content::Carried(index));
    }
    let known: Vec<&str> = FIELDS.iter().map(|field| field.name).chain(carried.iter().map(String::as_str)).collect();
    Err(format!("no field or column {name:?}{}; known: {}", near(name, &known), known.join(", ")))
}

fn names_of(field: Field, dimension: Dimension) -> Vec<String> {
    ENDINGS
        .iter()
        .filter(|(_, symbol)| unit::by_symbol(symbol).is_some_and(|unit| unit.dimension == dimension))
        .map(|(ending, _)| format!("`{}{ending}`", field.name()))
        .collect()
}

fn first_line(text: &str) -> &str {
    text.lines().next().unwrap_or_default()
}
