//! Every operand by its id: what it is called, what it is in, and its value for one visit.

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;

use super::constant::CONSTANTS;
use super::expression::{Operand, Operands};
use super::given::Given;
use super::intermediate::INTERMEDIATE;
use super::observed::OBSERVED;
use super::parameter::PARAMETERS;
use super::rung::Rung;
use crate::kernel::measure;
use crate::kernel::requirement::{Practice, Stock};
use crate::ledger::{self, Get};
use crate::quantity::Reading;
use crate::scenario::stock::StockOnTheDay;
use crate::well::{Interval, StandingWater};

/// Where the value of an operand comes from.
#[derive(Debug, Clone, Copy)]
enum From {
    Constant(f64),
    Parameter(fn(&Practice) -> f64),
    Seen(fn(&Given<'_>, Reading) -> f64),
    Interval(fn(&Interval) -> f64),
    Column(Get),
}

/// What an operand is called, what it is in, and where it comes from.
#[derive(Debug, Clone, Copy)]
pub struct Described {
    /// What people read in its place in a working or a formula.
    pub title: &'static str,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
    from: From,
}

/// Id, name and value of a figure of a stretch.
type OfInterval = (&'static str, &'static str, fn(&Interval) -> f64);

/// The stretches of a bore.
const INTERVAL: [OfInterval; 3] = [
    ("interval.top", "Top of the stretch", |interval| interval.top.value),
    ("interval.bottom", "Bottom of the stretch", |interval| interval.bottom.value),
    ("interval.diameter", "Diameter of the stretch", |interval| interval.diameter.value),
];

/// Every operand by its id.
fn described() -> &'static HashMap<&'static str, Described, FixedState> {
    static ALL: OnceLock<HashMap<&'static str, Described, FixedState>> = OnceLock::new();
    ALL.get_or_init(|| {
        let constants = CONSTANTS.iter().map(|named| {
            (named.id, Described { title: named.title, unit: named.unit, from: From::Constant(named.value) })
        });
        let parameters = PARAMETERS.iter().map(|parameter| {
            (
                parameter.id,
                Described { title: parameter.title, unit: parameter.unit, from: From::Parameter(parameter.get) },
            )
        });
        let seen = OBSERVED
            .iter()
            .chain(INTERMEDIATE)
            .map(|seen| (seen.id, Described { title: seen.title, unit: seen.unit, from: From::Seen(seen.get) }));
        let stretches =
            INTERVAL.iter().map(|(id, title, get)| (*id, Described { title, unit: "m", from: From::Interval(*get) }));
        let columns = ledger::COLUMNS
            .iter()
            .filter(|column| matches!(column.get, Get::NeedNumber(_) | Get::CaseNumber(_)))
            .map(|column| {
                (column.id, Described { title: column.title, unit: column.unit, from: From::Column(column.get) })
            });
        // What the kernel answers in three readings stands before the ledger's column of the same id.
        columns.chain(constants).chain(parameters).chain(seen).chain(stretches).collect()
    })
}

/// What is known of an operand; `None` for an id that there is not.
pub fn describe(id: &str) -> Option<Described> {
    described().get(id).copied()
}

impl Operands for Given<'_> {
    fn value(&self, operand: Operand, interval: Option<usize>) -> f64 {
        match describe(operand.id).map(|described| described.from) {
            Some(From::Constant(value)) => value,
            Some(From::Parameter(get)) => get(self.practice),
            Some(From::Seen(get)) => get(self, operand.reading),
            Some(From::Interval(get)) => self.interval(operand.reading, interval).map_or(f64::NAN, get),
            Some(From::Column(get)) => self.column(get),
            None => f64::NAN,
        }
    }

    fn intervals(&self, reading: Reading) -> usize {
        match self.water(reading) {
            StandingWater::Bore { intervals, .. } => intervals.len(),
            _ => 0,
        }
    }

    fn rungs(&self) -> Vec<Rung> {
        rungs(self.stock, self.practice.system)
    }
}

/// The measures of a product, smallest first, in liters of a liquid or kilograms of a dry product.
pub fn rungs(stock: &StockOnTheDay, system: crate::field::rules::UnitSystem) -> Vec<Rung> {
    let rung = |rung: &measure::Rung, per_si: f64| Rung {
        unit: rung.unit,
        size: rung.si * per_si,
        below: rung.below,
        units: rung.step.units.into(),
        parts: rung.step.parts.into(),
    };
    let mut all: Vec<Rung> = match stock.prepared.stock {
        Stock::Liquid { .. } => measure::liquid_rungs(system).map(|each| rung(each, 1000.0)).collect(),
        Stock::Dry { bulk_density, .. } => {
            let (spoons, weights) = measure::dry_rungs(system);
            let spoons =
                bulk_density.into_iter().flat_map(|density| spoons.iter().map(move |each| rung(each, density.value)));
            spoons.chain(weights.iter().map(|each| rung(each, 1.0))).collect()
        }
    };
    // A weight that ends where spoons and cups still reach is never taken.
    let mut reached = 0.0;
    all.retain(|rung| {
        let ends = rung.size * rung.below;
        let is_used = ends > reached;
        reached = ends.max(reached);
        is_used
    });
    all
}
