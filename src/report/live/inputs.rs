//! The Inputs sheet: one line for each value that may be changed, with its unit, its bounds and where it holds.

use std::collections::HashMap;

use super::super::show::Shown;
use super::model::{BETWEEN, Back, Model};
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::entry::{Allowed, Entry};
use crate::document::formula::Place;
use crate::parameter::{self, Kind, PRACTICE, Within};
use crate::relation::parameter::{PARAMETERS, Parameter};
use crate::scenario::Scenario;
use crate::scenario::practice::Setting;

pub(super) const SHEET: &str = "Inputs";
const VALUE: u16 = 2;

/// Whom a value holds for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Holds {
    Everywhere,
    Scenario(usize),
    Exception(usize),
}

/// The sheet, and where each value stands.
pub(super) struct Inputs {
    pub sheet: Sheet,
    stated: HashMap<(Holds, &'static str), (Place, f64)>,
    labels: HashMap<usize, Place>,
    /// Cells that are taken back.
    pub back: Vec<Back>,
}

impl Inputs {
    pub fn of(model: &Model<'_>) -> Self {
        let campaign = model.matter.plan.campaign;
        let mut sheet = Sheet::new(SHEET);
        sheet.title("Inputs: change a value in a framed cell, and everything follows");
        for text in [
            "Wells, needs, order and cost are formulas. Counts of packages stand on Packages, prices on Prices, stock on Stock.",
            "Values of the plan, which do not follow: pH, aging and what rests on them, cautions, the demand that was measured,",
            "the measure for brushing walls, and whether a well is emptied or pumped. For another age, storage, agent or way of",
            "flushing, run the plan again.",
        ] {
            sheet.note(text);
        }
        sheet.heads(["Holds for", "What", "Value", "Unit", "Least", "Most", "Note"]);
        sheet.layout.filter_row = None;
        sheet.layout.widths = vec![22.0, 26.0, 8.5, 8.0, 7.0, 10.0, 32.0];
        sheet.layout.repeat_rows = sheet.layout.frozen_rows.checked_sub(1);
        let mut inputs = Self { sheet, stated: HashMap::new(), labels: HashMap::new(), back: Vec::new() };
        for (at, product) in campaign.products.iter().enumerate() {
            if !model.matter.plan.cases.iter().any(|case| case.scenario.product == at) {
                continue;
            }
            let basis = product.label.basis.name().replace('_', " ");
            let unit = if basis == "grams per liter" { "g/L" } else { "%" };
            let note = format!("on the label, by {basis}; what aging leaves of it is a value of the plan");
            let place = inputs.line(&product.name, "Strength", product.label.number, unit, (0.05, 100.0), &note);
            inputs.labels.insert(at, place);
            let key = if unit == "%" { "percent" } else { "grams_per_liter" };
            let states = ["product", &product.name, "strength", key].join(BETWEEN);
            inputs.taken_back(place, product.label.number, states, "");
        }
        let common = |at: usize| {
            let scenario = Scenario { settings: Vec::new(), ..model.matter.plan.cases[at].scenario.clone() };
            campaign.practice_of(&scenario, 0)
        };
        let base = common(0);
        let everywhere: Vec<(&'static Parameter, f64)> = PARAMETERS
            .iter()
            .filter(|parameter| is_used(parameter, model))
            .map(|parameter| (parameter, (parameter.get)(&base)))
            .collect();
        for (parameter, value) in &everywhere {
            inputs.parameter(model, Holds::Everywhere, "all, unless stated below", parameter, *value);
        }
        for (at, case) in model.matter.plan.cases.iter().enumerate() {
            let practice = campaign.practice_of(case.scenario, 0);
            for (parameter, value) in &everywhere {
                let own = (parameter.get)(&practice);
                if sets(&case.scenario.settings, parameter, *value, own) {
                    inputs.parameter(model, Holds::Scenario(at), &case.scenario.name, parameter, own);
                }
            }
        }
        for (at, rule) in campaign.overrides.iter().enumerate() {
            if !model.practices.iter().any(|each| each.mask >> at & 1 == 1) {
                continue;
            }
            let practice = campaign.practice_of(model.matter.plan.cases[0].scenario, 1 << at);
            let without = campaign.practice_of(model.matter.plan.cases[0].scenario, 0);
            for (parameter, _) in &everywhere {
                let own = (parameter.get)(&practice);
                if sets(&rule.settings, parameter, (parameter.get)(&without), own) {
                    let said = format!("exception {}: {}", at + 1, plain(&rule.condition));
                    inputs.parameter(model, Holds::Exception(at), &said, parameter, own);
                }
            }
        }
        inputs
    }

    fn parameter(&mut self, model: &Model<'_>, holds: Holds, whom: &str, parameter: &Parameter, value: f64) {
        let shown = Shown::of(parameter.unit, model.system);
        let (unit, (least, most), note) = described(parameter);
        let unit = if shown.symbol.is_empty() { unit } else { shown.symbol };
        let bounds = (shown.value(least), shown.value(most));
        let place = self.line(whom, parameter.title, shown.value(value), unit, bounds, note);
        self.stated.insert((holds, parameter.id), (place, value));
        let Some(written_in) = written_in(parameter, shown.symbol) else { return };
        let keys = parameter.id.trim_start_matches("practice.").replace('.', BETWEEN);
        let whose = match holds {
            Holds::Everywhere => "practice".to_owned(),
            Holds::Scenario(at) => ["scenario", &model.matter.plan.cases[at].scenario.name].join(BETWEEN),
            Holds::Exception(at) => ["override", &(at + 1).to_string()].join(BETWEEN),
        };
        self.taken_back(place, tidy(shown.value(value)), [whose, keys].join(BETWEEN), written_in);
    }

    fn taken_back(&mut self, place: Place, planned: f64, states: String, unit: &'static str) {
        let text = |column: usize| self.sheet.rows[place.row as usize][column].value.shown();
        let label = format!("{}: {}", text(0), text(1));
        self.back.push(Back { place, label, planned, states, unit });
    }

    fn line(&mut self, whom: &str, title: &str, value: f64, unit: &str, bounds: (f64, f64), note: &str) -> Place {
        let row = self.sheet.rows.len() as u32;
        let value = Cell::number(tidy(value), 4).with_role(Role::Input);
        self.sheet.push(vec![
            Cell::text(whom),
            Cell::text(title),
            value,
            Cell::text(unit),
            Cell::number(tidy(bounds.0), 2),
            Cell::number(tidy(bounds.1), 2),
            Cell::text(note),
        ]);
        self.sheet.layout.entries.push(Entry {
            column: VALUE,
            first_row: row,
            last_row: row,
            allowed: Allowed::Between(bounds.0, bounds.1),
            title: title.to_owned(),
            help: format!("{unit}; {} to {}. {note}", tidy(bounds.0), tidy(bounds.1)),
            refusal: format!("{title} lies from {} to {} {unit}.", tidy(bounds.0), tidy(bounds.1)),
        });
        Place { sheet: SHEET, row, column: VALUE }
    }

    /// The cell that decides a parameter for a scenario with exceptions, and its value in the unit of relations.
    pub fn decides(&self, case: usize, mask: u64, parameter: &Parameter) -> Option<(Place, f64)> {
        let exceptions = (0..64).rev().filter(|at| mask >> at & 1 == 1).map(Holds::Exception);
        let order = exceptions.chain([Holds::Scenario(case), Holds::Everywhere]);
        order.filter_map(|holds| self.stated.get(&(holds, parameter.id))).next().copied()
    }

    /// The cell of a product's strength.
    pub fn label(&self, product: usize) -> Option<Place> {
        self.labels.get(&product).copied()
    }
}

/// Whether a formula counts with it and some practice states it.
pub(super) fn is_used(parameter: &Parameter, model: &Model<'_>) -> bool {
    let stated = model.practices.iter().any(|each| !(parameter.get)(&each.practice).is_nan());
    stated && !parameter.id.starts_with("practice.factor.")
}

/// The greatest value that is let through where the vocabulary sets no bound.
const NO_BOUND: f64 = 1e6;

/// The unit that a parameter is stated with, empty for a bare number; nothing where it is stated otherwise.
fn written_in(parameter: &Parameter, shown: &'static str) -> Option<&'static str> {
    match stated(parameter)?.kind {
        Kind::Number { .. } | Kind::Count { .. } | Kind::Share { .. } => Some(""),
        Kind::Quantity(_) | Kind::QuantityOrTables(..) => Some(shown),
        _ => None,
    }
}

/// The entry of the vocabulary that states a parameter.
fn stated(parameter: &Parameter) -> Option<&'static parameter::Parameter> {
    let mut path = parameter.id.trim_start_matches("practice.").split('.');
    let whole = path.next().and_then(|key| PRACTICE.get(key))?;
    match path.next() {
        Some(key) => whole.keys()?.get(key),
        None => Some(whole),
    }
}

/// What a pure number counts, the bounds in the unit of relations, and what the parameter means, by the vocabulary.
fn described(parameter: &Parameter) -> (&'static str, (f64, f64), &'static str) {
    let Some(stated) = stated(parameter) else { return ("ratio", (0.0, NO_BOUND), "as the practice states it") };
    let (unit, bounds) = match &stated.kind {
        Kind::Number { bounds, .. } | Kind::Count { bounds } => ("ratio", *bounds),
        Kind::Share { bounds } => ("share", *bounds),
        Kind::Quantity(measured) | Kind::QuantityOrTables(measured, _) => match measured.within {
            Within::Between(least, most) => ("", (least, most)),
            Within::NotNegative | Within::Positive => ("", (0.0, NO_BOUND)),
        },
        _ => ("ratio", (0.0, NO_BOUND)),
    };
    (unit, bounds, stated.meaning)
}

/// Whether settings decide a parameter: those of a table of several values only where they change it.
fn sets(settings: &[Setting], parameter: &Parameter, before: f64, after: f64) -> bool {
    let changed = before != after && !(before.is_nan() && after.is_nan());
    settings.iter().any(|setting| setting.key == parameter.key()) && (changed || parameter.id.matches('.').count() < 2)
}

/// A number as a person would have typed it: 70, not 70.00000000000001.
pub(in crate::report) fn tidy(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    // Both the figures and the power of ten are whole numbers that a float holds exactly, so their quotient is the float
    // nearest to what would be typed. Beyond those powers the number goes by way of a text.
    let rounded: f64 = match 12.0 - value.abs().log10().floor() {
        places @ 0.0..=22.0 => {
            let power = 10_f64.powi(places as i32);
            (value * power).round() / power
        }
        _ => format!("{value:.12e}").parse().unwrap_or(value),
    };
    if (rounded - value).abs() <= 4.0 * f64::EPSILON * value.abs() { rounded } else { value }
}

/// A condition in words that a reader of no query language follows.
fn plain(condition: &str) -> String {
    condition
        .replace('_', " ")
        .replace("'", "")
        .replace(" = ", " is ")
        .replace(" AND ", " and ")
        .replace(" IN ", " in ")
        .replace(" OR ", " or ")
}
