//! Practice keys about water that moves: springs that flow, wells that are emptied, and the least that is poured.
//!
//! Each is read once for [`Setting`](super::practice::Setting). Refuses to know which well it will be applied to.

use uom::si::f64::{Length, Mass, Time, Volume};
use uom::si::length::millimeter;
use uom::si::mass::kilogram;
use uom::si::time::hour;
use uom::si::volume::cubic_meter;

use super::written::Section;
use crate::error::Result;
use crate::kernel::emptying::{Emptying, FlushMethod};
use crate::kernel::moving::LeastProduct;
use crate::kernel::requirement::Practice;
use crate::kernel::spring::FlowingSpring;
use crate::quantity::unit::{Dimension, Gallon};
use crate::quantity::{ChlorineConcentration, ProductMass, ProductVolume};

/// What an `emptying` table changes; what it does not name stays as it was.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EmptyingChange {
    until: Option<ChlorineConcentration>,
    carry_over: Option<f64>,
    wait: Option<Time>,
    wash: Option<ChlorineConcentration>,
    wash_film: Option<Length>,
}

impl EmptyingChange {
    /// Changes how wells are emptied.
    pub fn apply(&self, emptying: &mut Emptying) {
        emptying.until = self.until.unwrap_or(emptying.until);
        emptying.carry_over = self.carry_over.unwrap_or(emptying.carry_over);
        emptying.wait = self.wait.unwrap_or(emptying.wait);
        emptying.wash = self.wash.unwrap_or(emptying.wash);
        emptying.wash_film = self.wash_film.unwrap_or(emptying.wash_film);
    }
}

/// `emptying = { until_mg_per_l, carry_over, wait_hours, wall_wash_mg_per_l, liters_per_square_meter }`, with a few words.
///
/// # Errors
/// A value out of its range, or an empty table.
pub fn read_emptying(section: &Section<'_>) -> Result<Option<(EmptyingChange, String)>> {
    let Some(table) = section.section("emptying")? else { return Ok(None) };
    let concentration = ChlorineConcentration::from_milligrams_per_liter;
    let until = table.number_within("until_mg_per_l", (0.001, 100.0))?;
    let carry_over = table.number_within("carry_over", (0.001, 0.9))?;
    let wait = table.number_within("wait_hours", (0.0, 48.0))?;
    let wash = table.number_within("wall_wash_mg_per_l", (0.0, 20_000.0))?;
    let film = table.number_within("liters_per_square_meter", (0.0, 50.0))?;
    table.finish()?;
    let mut words = Vec::new();
    words.extend(until.map(|value| format!("empty to {value} mg/L")));
    words.extend(carry_over.map(|value| format!("{value} carried over")));
    words.extend(wait.map(|value| format!("wait {value} h")));
    words.extend(wash.map(|value| format!("walls {value} mg/L")));
    words.extend(film.map(|value| format!("walls {value} L/m2")));
    if words.is_empty() {
        let keys = "`until_mg_per_l`, `carry_over`, `wait_hours`, `wall_wash_mg_per_l` or `liters_per_square_meter`";
        return Err(table.error(format!("`emptying` needs one of {keys}")));
    }
    let change = EmptyingChange {
        until: until.map(concentration),
        carry_over,
        wait: wait.map(Time::new::<hour>),
        wash: wash.map(concentration),
        wash_film: film.map(Length::new::<millimeter>),
    };
    Ok(Some((change, words.join(", "))))
}

/// What `flush` changes: the method, or how far a mixed tank is flushed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlushChange {
    method: Option<FlushMethod>,
    /// Residual and volumes, which replace both that stood there.
    mixed: Option<(Option<ChlorineConcentration>, Option<f64>)>,
}

impl FlushChange {
    /// Changes the practice.
    pub fn apply(&self, practice: &mut Practice) {
        practice.flush_method = self.method.or(practice.flush_method);
        if let Some((until, volumes)) = self.mixed {
            practice.flush_until = until;
            practice.flush_volumes = volumes;
        }
    }
}

/// `flush = "empty_and_refill"`, `"mixed_tank"`, or `{ until_mg_per_l, volumes, method }`, with a few words.
///
/// # Errors
/// Another word, a value out of its range, or an empty table.
pub fn read_flush(section: &Section<'_>) -> Result<Option<(FlushChange, String)>> {
    let Some(written) = section.value("flush") else { return Ok(None) };
    if written.get_ref().as_str().is_some() {
        let method = read_method(section, "flush")?;
        let label = method.map_or("", FlushMethod::name).replace('_', " ");
        return Ok(Some((FlushChange { method, mixed: None }, label)));
    }
    let Some(table) = section.section("flush")? else { return Ok(None) };
    let method = read_method(&table, "method")?;
    let until = table.number_within("until_mg_per_l", (0.001, 100.0))?;
    let volumes = table.number_within("volumes", (0.0, 1000.0))?;
    table.finish()?;
    let label = match (until, volumes, method) {
        (Some(until), ..) => format!("flush to {until} mg/L"),
        (None, Some(volumes), _) => format!("flush {volumes} volumes"),
        (None, None, Some(method)) => method.name().replace('_', " "),
        (None, None, None) => {
            return Err(table.error("`flush` needs `until_mg_per_l`, `volumes` or both, or `method`"));
        }
    };
    let mixed = (until.is_some() || volumes.is_some())
        .then(|| (until.map(ChlorineConcentration::from_milligrams_per_liter), volumes));
    Ok(Some((FlushChange { method, mixed }, label)))
}

fn read_method(section: &Section<'_>, key: &'static str) -> Result<Option<FlushMethod>> {
    let Some(word) = section.text(key)? else { return Ok(None) };
    let Some(method) = FlushMethod::by_name(&word) else {
        let reason = format!("`{key}` must be \"empty_and_refill\" or \"mixed_tank\", not {word:?}");
        return Err(section.error_at(&section.span_of(key), reason));
    };
    Ok(Some(method))
}

/// `flowing_spring = "isolated"`, `"feed"` or `"hold_back"`.
///
/// # Errors
/// Another word.
pub fn read_flowing_spring(section: &Section<'_>) -> Result<Option<FlowingSpring>> {
    let Some(word) = section.text("flowing_spring")? else { return Ok(None) };
    let Some(choice) = FlowingSpring::by_name(&word) else {
        let reason = format!("`flowing_spring` must be \"isolated\", \"feed\" or \"hold_back\", not {word:?}");
        return Err(section.error_at(&section.span_of("flowing_spring"), reason));
    };
    Ok(Some(choice))
}

/// `least_product = { liquid = "1 qt", dry = "4 oz" }`, with a few words.
///
/// # Errors
/// An amount that cannot be read or is negative, or an empty table.
pub fn read_least_product(section: &Section<'_>, gallon: Option<Gallon>) -> Result<Option<(LeastProduct, String)>> {
    let Some(table) = section.section("least_product")? else { return Ok(None) };
    let read = |key: &'static str, dimension| -> Result<Option<(f64, String)>> {
        let Some(si) = table.quantity(key, dimension, gallon)? else { return Ok(None) };
        if si < 0.0 {
            return Err(table.error_at(&table.span_of(key), format!("`{key}` must not be negative")));
        }
        Ok(Some((si, table.text(key)?.unwrap_or_default())))
    };
    let liquid = read("liquid", Dimension::Volume)?;
    let dry = read("dry", Dimension::Mass)?;
    table.finish()?;
    if liquid.is_none() && dry.is_none() {
        return Err(table.error("`least_product` needs `liquid`, `dry` or both"));
    }
    let words: Vec<&str> = [&liquid, &dry].into_iter().flatten().map(|(_, text)| text.as_str()).collect();
    let label = format!("at least {} of product", words.join(" or "));
    let least = LeastProduct {
        liquid: liquid.map(|(si, _)| ProductVolume::new(Volume::new::<cubic_meter>(si))),
        dry: dry.map(|(si, _)| ProductMass::new(Mass::new::<kilogram>(si))),
    };
    Ok(Some((least, label)))
}
