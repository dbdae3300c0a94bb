//! Practice keys as they are stated: each read once into a [`Setting`], which any later table (`[[scenario]]`, `[grid]`,
//! `[[override]]`) may repeat to change the practice. What the keys are, mean and do stands in the vocabulary.
//!
//! Refuses to know which well a setting will be applied to.

use uom::si::f64::Time;
use uom::si::time::hour;

use super::section::Section;
use crate::field::rules::UnitSystem;
use crate::kernel::contact::{HoldPair, HoldRule, LeastHold};
use crate::kernel::requirement::Practice;
use crate::parameter::{Effect, Kind, PRACTICE, Parameter, Stated, Value};
use crate::quantity::ChlorineConcentration;
use crate::quantity::unit::Gallon;

pub use crate::parameter::default_practice;

/// One practice key with its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The key as written.
    pub key: &'static str,
    /// The value in a few words, for scenario names: `50 mg/L`.
    pub label: String,
    /// The values that are stated under it: one, or those of its table.
    stated: Vec<Stated>,
}

impl Setting {
    /// Reads every practice key that stands in a table, in the order of the vocabulary.
    pub fn read_all(section: &Section<'_>, system: UnitSystem) -> Vec<Self> {
        PRACTICE.own.iter().filter_map(|parameter| Self::read(section, parameter, system.gallon())).collect()
    }

    fn read(section: &Section<'_>, parameter: &'static Parameter, gallon: Option<Gallon>) -> Option<Self> {
        let key = parameter.key;
        let written = section.value(key)?;
        let Some(Effect::Group { label, .. }) = parameter.effect else {
            let stated = value_of(section, parameter, gallon)?;
            return Some(Self { key, label: stated.label.clone(), stated: vec![stated] });
        };
        let keys = parameter.keys()?;
        let stated = if matches!(parameter.kind, Kind::ChoiceOrTable(..)) && written.value.text().is_some() {
            // A lone word is the group's first key.
            let first = keys.own.first()?;
            let word = section.word(key)?;
            vec![stated_as(first, Value::Word(word), &word.replace('_', " "))?]
        } else {
            let table = section.section(key)?;
            let stated = keys.own.iter().filter_map(|part| value_of(&table, part, gallon)).collect();
            table.finish();
            if !keys.own.iter().any(|part| table.has(part.key)) {
                let names: Vec<String> = keys.own.iter().map(|part| format!("`{}`", part.key)).collect();
                table.fault(format!("`{key}` needs one of {}", names.join(", ")));
                return None;
            }
            if table.has("rule") && table.has("limit_mg_per_l") {
                table.fault_of("rule", "give `rule` or `limit_mg_per_l`, not both");
            }
            stated
        };
        Some(Self { key, label: label(&stated), stated })
    }

    /// Puts what it states into a practice; a group is cleared first, everything else stays.
    pub fn apply(&self, practice: &mut Practice) {
        let Some(parameter) = PRACTICE.get(self.key) else { return };
        if let Some(Effect::Group { clear, .. }) = parameter.effect {
            clear(practice, &self.stated);
        }
        for stated in &self.stated {
            let part = match parameter.effect {
                Some(Effect::Group { .. }) => parameter.keys().and_then(|keys| keys.get(stated.key)),
                _ => Some(parameter),
            };
            if let Some(Effect::Sets { set, .. }) = part.and_then(|part| part.effect) {
                set(practice, &stated.value);
            }
        }
    }
}

fn stated_as(parameter: &'static Parameter, value: Value, shown: &str) -> Option<Stated> {
    let Some(Effect::Sets { label, .. }) = parameter.effect else { return None };
    Some(Stated { key: parameter.key, value, label: label.replacen("{}", shown, 1) })
}

/// The value of a key, as its parameter says.
fn value_of(section: &Section<'_>, parameter: &'static Parameter, gallon: Option<Gallon>) -> Option<Stated> {
    let key = parameter.key;
    let (value, shown) = match parameter.kind {
        Kind::Number { .. } | Kind::Count { .. } => {
            let number = section.number(key)?;
            (Value::Number(number), number.to_string())
        }
        Kind::Share { .. } => {
            let share = section.number(key)?;
            (Value::Number(share), percent(share).to_string())
        }
        Kind::Quantity(_) => (Value::Number(section.quantity(key, gallon)?), section.text(key)?),
        Kind::Choice(_) => {
            let word = section.word(key)?;
            (Value::Word(word), word.replace('_', " "))
        }
        Kind::Choices(_) => {
            let words = section.words(key)?;
            let shown = words.join(", ");
            (Value::Words(words), shown)
        }
        Kind::Table(_) => {
            let (rule, shown) = read_hold_rule(&section.section(key)?)?;
            (Value::HoldRule(rule), shown)
        }
        _ => return None,
    };
    stated_as(parameter, value, &shown)
}

/// `{ at_least_hours = 24 }`, or `{ table = [{ mg_per_l = 100, hours = 10 }, ...] }`, either with a residual; and its name.
fn read_hold_rule(rule: &Section<'_>) -> Option<(HoldRule, String)> {
    let concentration = ChlorineConcentration::from_milligrams_per_liter;
    rule.finish();
    let residual = rule.number("residual_at_least_mg_per_l");
    let (least_hold, label) = match (rule.has("at_least_hours"), rule.has("table")) {
        (true, false) => {
            let hours = rule.number("at_least_hours")?;
            (LeastHold::Always(Time::new::<hour>(hours)), format!("{hours} h"))
        }
        (false, true) => {
            let pairs = read_hold_pairs(rule)?;
            let label = format!("{} pairs", pairs.len());
            (LeastHold::ByConcentration(pairs), label)
        }
        _ => {
            rule.fault(
                "`hold_rule` needs `at_least_hours`, or a `table` of concentrations and hours such as \
                 [{ mg_per_l = 100, hours = 10 }, { mg_per_l = 250, hours = 4 }]",
            );
            return None;
        }
    };
    Some((HoldRule { least_hold, least_residual: residual.map(concentration) }, label))
}

/// The rows of a code's table: the stronger, the shorter.
fn read_hold_pairs(rule: &Section<'_>) -> Option<Vec<HoldPair>> {
    let mut pairs: Vec<HoldPair> = Vec::new();
    let rows = rule.sections("table");
    for row in &rows {
        row.finish();
        let (from, hours) = (row.number("mg_per_l"), row.number("hours"));
        if !(row.has("mg_per_l") && row.has("hours")) {
            row.fault("a row of the table needs `mg_per_l` and `hours`");
        }
        let (Some(from), Some(hours)) = (from, hours) else { continue };
        let pair =
            HoldPair { from: ChlorineConcentration::from_milligrams_per_liter(from), hold: Time::new::<hour>(hours) };
        if pairs.last().is_some_and(|before| pair.from <= before.from || pair.hold > before.hold) {
            row.fault("the rows must go from weak to strong, and a stronger one must not ask for more hours");
        }
        pairs.push(pair);
    }
    if rows.is_empty() {
        rule.fault_of("table", "`table` is an empty list");
        return None;
    }
    Some(pairs)
}

/// A share as percent, free of binary dust: 0.07 is 7, not 7.000000000000001.
fn percent(share: f64) -> f64 {
    (share * 1e8).round() / 1e6
}
