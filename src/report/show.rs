//! Units for people: a result column's unit in the system that the campaign measures in.

use crate::document::cell::Paper;
use crate::field::rules::UnitSystem;
use crate::quantity::unit::{self, Unit};

/// The unit shown for a unit of the tables, and the factor between them; `None` for units that stay as they are.
fn shown(symbol: &str, system: UnitSystem) -> Option<&'static str> {
    match (symbol, system) {
        ("m", UnitSystem::Us | UnitSystem::Imperial) => Some("ft"),
        ("mm", UnitSystem::Us | UnitSystem::Imperial) => Some("in"),
        ("L", UnitSystem::Us) => Some("US gal"),
        ("L", UnitSystem::Imperial) => Some("imp gal"),
        ("L/min", UnitSystem::Us) => Some("US gpm"),
        ("L/min", UnitSystem::Imperial) => Some("imp gpm"),
        ("kg" | "g", UnitSystem::Us | UnitSystem::Imperial) => Some("lb"),
        ("g", UnitSystem::Metric) => Some("kg"),
        _ => None,
    }
}

/// The paper that people of a system print on.
pub const fn paper(system: UnitSystem) -> Paper {
    match system {
        UnitSystem::Us => Paper::Letter,
        UnitSystem::Metric | UnitSystem::Imperial => Paper::A4,
    }
}

/// A unit of the tables as people of a campaign read it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// Symbol to print; empty for pure numbers.
    pub symbol: &'static str,
    from: Option<(&'static Unit, &'static Unit)>,
}

impl Shown {
    /// How `symbol` is shown in a system.
    pub fn of(symbol: &'static str, system: UnitSystem) -> Self {
        if let Some(amount) = symbol.strip_suffix("/h") {
            // An amount each hour: the hour stays, the amount changes as any other.
            let base = Self::of(amount, system);
            let symbol = match base.symbol {
                "US gal" => "US gal/h",
                "imp gal" => "imp gal/h",
                "lb" => "lb/h",
                _ => symbol,
            };
            return Self { symbol, from: base.from };
        }
        match shown(symbol, system).and_then(|to| Some((unit::by_symbol(symbol)?, unit::by_symbol(to)?))) {
            Some((from, to)) => Self { symbol: to.symbol, from: Some((from, to)) },
            None => Self { symbol, from: None },
        }
    }

    /// A value of the tables in the unit shown.
    pub fn value(self, value: f64) -> f64 {
        match self.from {
            Some((from, to)) => to.from_si(from.to_si(value)),
            None => value,
        }
    }

    /// Decimals in the unit shown, of a value that has so many in the unit of the tables: more decimals when the unit is larger, to keep precision.
    pub fn digits(self, digits: usize) -> usize {
        let steps = self.from.map_or(0.0, |(from, to)| (to.factor / from.factor).log10().ceil());
        digits + steps.max(0.0) as usize
    }

    /// `Treated volume (US gal)`.
    pub fn heading(self, title: &str) -> String {
        if self.symbol.is_empty() { title.to_owned() } else { format!("{title} ({})", self.symbol) }
    }
}
