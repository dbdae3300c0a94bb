//! What depots have already, and what that counts as on the day of use: product that has lost strength covers less.
//!
//! Read from the scenario file, used by the engine, the roll-up and the crew's cards. Knows nothing of wells.

use chrono::NaiveDate;

use super::Scenario;
use super::product::{Age, MeasuredStrength, Product, Storage};
use super::section::{Section, near};
use super::stated::Spot;
use super::stock::{StockOnTheDay, stock_on_the_day};
use super::supply::StockItem;
use crate::error::{Error, Result};
use crate::field::names::is_same;
use crate::kernel::requirement::Stock;
use crate::quantity::unit::Gallon;

/// Stock of a product at a depot.
#[derive(Debug, Clone, PartialEq)]
pub struct StockLine {
    /// The depot, as it is written in the list.
    pub depot: String,
    /// Name of the product or of the neutralizing agent.
    pub item: String,
    /// What is there already, in liters or kilograms.
    pub on_hand: f64,
    /// Ordered already, in the same unit.
    pub on_order: f64,
    /// How old what is there is, where the line says so.
    pub age: Option<Age>,
    /// How it was stored, where the line says so.
    pub storage: Option<Storage>,
    /// What a test of it found.
    pub measured: Option<MeasuredStrength>,
    /// Where its product is written.
    pub spot: Spot,
}

impl StockLine {
    /// Whether the line says anything of the strength of what is there; else that counts as the scenario's product does.
    pub const fn has_own_strength(&self) -> bool {
        self.age.is_some() || self.storage.is_some() || self.measured.is_some()
    }
}

/// Stock with a strength of its own under one scenario.
#[derive(Debug, Clone)]
pub struct OwnStock<'a> {
    /// What is stated of it.
    pub line: &'a StockLine,
    /// What it is on the day of use.
    pub today: StockOnTheDay,
    /// How much of the scenario's product brings the chlorine of one unit of it.
    pub counts: f64,
}

impl<'a> OwnStock<'a> {
    /// What a line of stock is among those with a strength of their own; nothing where it counts as what the scenario pours.
    pub fn of<'o>(own: &'o [Self], line: &StockLine) -> Option<&'o Self> {
        own.iter().find(|own| std::ptr::eq(own.line, line))
    }
}

/// Reads `[[stock]]`; `items` are the products and agents there are. Nothing is said of an item that was refused itself.
pub(super) fn read_stock(
    file: &Section<'_>,
    items: &[StockItem<'_>],
    is_refused: impl Fn(&str) -> bool,
    gallon: Option<Gallon>,
) -> Vec<StockLine> {
    let read = |line: &Section<'_>| {
        line.finish();
        let (depot, item) = (line.needed_text("depot"), line.needed_text("product"));
        let item = item?;
        let exact = items.iter().find(|known| known.name == item);
        let found = exact.or_else(|| items.iter().find(|known| is_same(known.name, &item)));
        if found.is_none() && !is_refused(&item) {
            let known: Vec<&str> = items.iter().map(|known| known.name).collect();
            let reason = format!("no product {item:?}{}; known: {}", near(&item, &known), known.join(", "));
            line.fault_of("product", reason);
        }
        let found = found?;
        let by = found.bought_by();
        let amount = |key| by.amount(line.quantity_as(key, by.dimension(), gallon).unwrap_or(0.0));
        let (on_hand, on_order) = (amount("on_hand"), amount("on_order"));
        let (age, storage) = (Age::read(line), Storage::read(line));
        let measured = MeasuredStrength::read(line, found.chemical);
        let own = ["age_days", "label_date", "storage", "measured_strength"].into_iter().find(|key| line.has(key));
        if let (None, Some(key)) = (found.chemical, own) {
            line.fault_of(key, format!("`{key}` is for products; a neutralizer counts as it is"));
        }
        Some(StockLine {
            depot: depot?,
            item: found.name.to_owned(),
            on_hand,
            on_order,
            age,
            storage,
            measured,
            spot: line.spot_of("product"),
        })
    };
    file.sections("stock").iter().filter_map(read).collect()
}

/// Stock of a scenario's product that has a strength of its own, with what it counts as beside the product as it is poured.
///
/// # Errors
/// With the places of all lines whose strength cannot be told: an age without a temperature, or a date without a day to plan for.
pub fn with_own_strength<'a>(
    lines: &'a [StockLine],
    product: &Product,
    scenario: &Scenario,
    poured: &StockOnTheDay,
    date: Option<NaiveDate>,
) -> Result<Vec<OwnStock<'a>>> {
    let mut own = Vec::new();
    let of_product = lines.iter().filter(|line| line.item == product.name && line.has_own_strength());
    Error::all_told(of_product.map(|line| {
        let today = today(product, scenario, line, date)?;
        let counts = strength(&today) / strength(poured);
        own.push(OwnStock { line, today, counts });
        Ok(())
    }))?;
    Ok(own)
}

/// What a line of stock is on the day of use: as it says itself, else as the scenario and the product say.
fn today(product: &Product, scenario: &Scenario, line: &StockLine, date: Option<NaiveDate>) -> Result<StockOnTheDay> {
    let mut own = product.clone();
    // An age of its own counts from the label, a test of the product is of something else.
    own.measured = match (&line.measured, &line.age) {
        (Some(test), _) => Some(test.clone()),
        (None, Some(_)) => None,
        (None, None) => product.measured.clone(),
    };
    let age = line.age.as_ref().or(scenario.age.as_ref());
    let storage = line.storage.as_ref().or(scenario.storage.as_ref());
    stock_on_the_day(&own, age, storage, date)
}

/// Chlorine in a unit of a product as it is poured: g/L of a liquid, a share of the weight of a dry one.
fn strength(stock: &StockOnTheDay) -> f64 {
    match stock.prepared.stock {
        Stock::Liquid { used, .. } => used.grams_per_liter(),
        Stock::Dry { used, .. } => used.ratio(),
    }
}

/// What is said of stock of products that no scenario pours: nothing counts on it.
pub fn not_poured(lines: &[StockLine], products: &[Product], scenarios: &[Scenario]) -> Vec<String> {
    let is_poured = |name: &str| scenarios.iter().any(|scenario| products[scenario.product].name == name);
    let is_product = |name: &str| products.iter().any(|product| product.name == name);
    let lost = lines.iter().filter(|line| is_product(&line.item) && !is_poured(&line.item));
    lost.map(|line| {
        format!(
            "{}: stock of {:?} at depot {:?} is of a product that no scenario pours (if it is an older lot of one that is poured, name \
             that one and give the age of this lot)",
            line.spot.words(),
            line.item,
            line.depot
        )
    })
    .collect()
}
