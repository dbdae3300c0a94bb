//! A product on the day of use: its label strength, its age, and what aging leaves of it.
//!
//! Called once per scenario. It puts together what the product, the scenario and the date say about age and storage, and
//! leaves the law of aging to the kernel.

use chrono::NaiveDate;
use uom::si::f64::Time;
use uom::si::time::second;

use super::product::{Age, Counted, LabelStrength, Product, Storage};
use super::stated::{Spot, refusal};
use crate::error::{Error, Result};
use crate::kernel::aging::{self, AgingDoubts, AgingPace, Composition};
use crate::kernel::requirement::{Practice, Prepared, Stock};
use crate::kernel::strength;
use crate::quantity::basis::{celsius_of, days};
use crate::quantity::unit::DAY_S;
use crate::quantity::{Band, ChlorinePerDry, ChlorinePerLiquid, Draw};

/// A product as it is on the day of use, with what was reckoned on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct StockOnTheDay {
    /// What the kernel needs, as it is planned with.
    pub prepared: Prepared,
    /// The same if it aged slowly, and fast.
    range: (Prepared, Prepared),
    /// Age used: since it was made, or since its strength was measured.
    pub age: Time,
    /// Whether the strength starts from a test rather than from the label.
    pub from_test: bool,
    /// What makes the aging doubtful.
    pub doubts: AgingDoubts,
}

/// The product on the day of use.
///
/// # Errors
/// When an age counts from a date and the plan has none, when a stock has an age but no storage temperature, or when the
/// label's number is not a strength that exists.
pub fn stock_on_the_day(
    product: &Product,
    age: Option<&Age>,
    storage: Option<&Storage>,
    date: Option<NaiveDate>,
) -> Result<StockOnTheDay> {
    let storage = storage.or(product.storage.as_ref());
    let from_test = product.measured.is_some();
    let (age, spot) = match (&product.measured, age.or(product.age.as_ref())) {
        (Some(test), _) => (since(product, test.date, date, Some(&test.spot))?, Some(&test.spot)),
        (None, Some(Age { counted, spot })) => match counted {
            Counted::Time(time) => (*time, spot.as_ref()),
            Counted::MadeOn(made) => (since(product, Some(*made), date, spot.as_ref())?, spot.as_ref()),
        },
        (None, None) => (storage.map_or_else(zero_time, length_of), None),
    };
    let history = history(product, storage, age, from_test, spot)?;
    let starts = product.measured.as_ref().map_or(product.label, |test| test.strength);
    let chemical = product.chemical;
    if chemical.is_liquid() {
        let label = liquid(product, product.label)?;
        let start = liquid(product, starts)?;
        // The density is the label's: aging turns hypochlorite into chloride and chlorate and loses next to no weight.
        let density = strength::liquid_density(label, product.caustic_percent);
        let hydroxide = strength::hydroxide_per_chlorine(label, product.caustic_percent);
        let aged = |pace| aging::liquid_share_left(start, Composition::default(), &history, pace);
        let stock = |share_left| Stock::Liquid { label, used: start * share_left, density };
        Ok(StockOnTheDay::of(age, from_test, (chemical, Some(hydroxide)), aged, stock))
    } else {
        let label = dry(product, product.label)?;
        let start = dry(product, starts)?;
        let aged = |pace| match chemical {
            strength::Chemical::ChlorinatedLime if from_test => {
                aging::Aged { share_left: 1.0, doubts: AgingDoubts::default() }
            }
            strength::Chemical::ChlorinatedLime => aging::chlorinated_lime_share_left(),
            _ => aging::dry_share_left(&history, pace),
        };
        let stock = |share_left| Stock::Dry { label, used: start * share_left, bulk_density: product.bulk_density };
        Ok(StockOnTheDay::of(age, from_test, (chemical, chemical.usual_hydroxide_per_chlorine()), aged, stock))
    }
}

impl StockOnTheDay {
    /// What is left at each pace of aging, and the product with so much of its strength.
    fn of(
        age: Time,
        from_test: bool,
        (chemical, hydroxide_per_chlorine): (strength::Chemical, Option<f64>),
        aged: impl Fn(AgingPace) -> aging::Aged,
        stock: impl Fn(f64) -> Stock,
    ) -> Self {
        let at = |pace| {
            let aging::Aged { share_left, doubts } = aged(pace);
            let age_in_doubt = doubts.any();
            Prepared { chemical, hydroxide_per_chlorine, age_in_doubt, share_left, stock: stock(share_left) }
        };
        let range = (at(AgingPace::Slow), at(AgingPace::Fast));
        Self { prepared: at(AgingPace::Typical), range, age, from_test, doubts: aged(AgingPace::Typical).doubts }
    }

    /// The product as it is planned with, between how it is if it aged slowly, which needs least of it, and fast.
    pub const fn readings(&self) -> Band<&Prepared> {
        Band { low: &self.range.0, mid: &self.prepared, high: &self.range.1 }
    }

    /// The product at the strength that a practice has it measured out for.
    pub fn measured_for(&self, practice: &Practice) -> &Prepared {
        practice.measure_for.reading().of(self.readings())
    }

    /// The product by chance, between slow and fast aging. A lot ages as one, whoever pours of it: `lot` names it, and all wells
    /// have the same draw of it.
    pub fn drawn(&self, lot: &str, draw: Draw) -> Prepared {
        let readings = self.readings();
        let drawn = draw.of("strength", lot, readings.map(|prepared| prepared.stock.strength_used()));
        let other = drawn.toward.of(readings);
        let between = |mid: f64, other: f64| mid + (other - mid) * drawn.share;
        Prepared {
            share_left: between(self.prepared.share_left, other.share_left),
            stock: self.prepared.stock.toward(&other.stock, drawn.share),
            ..self.prepared
        }
    }
}

impl Product {
    /// Days until a share of the label strength is left, stored at one temperature (C): at the slow, typical and fast pace of
    /// aging; `None` where no law holds (chlorinated lime) or the share is not between 0 and 1.
    pub fn days_until(&self, share: f64, celsius: f64) -> Option<Band<f64>> {
        let temperature = celsius_of(celsius);
        let label = strength::liquid_strength(self.label.number, self.label.basis, self.caustic_percent);
        let time = |pace| match self.chemical {
            strength::Chemical::SodiumHypochlorite => {
                aging::liquid_shelf_life(label?, Composition::default(), temperature, share, pace)
            }
            strength::Chemical::CalciumHypochlorite => aging::dry_shelf_life(share, pace),
            strength::Chemical::ChlorinatedLime => None,
        };
        Some(Band {
            low: days(time(AgingPace::Slow)?),
            mid: days(time(AgingPace::Typical)?),
            high: days(time(AgingPace::Fast)?),
        })
    }
}

fn zero_time() -> Time {
    Time::new::<second>(0.0)
}

fn liquid(product: &Product, label: LabelStrength) -> Result<ChlorinePerLiquid> {
    strength::liquid_strength(label.number, label.basis, product.caustic_percent)
        .ok_or_else(|| no_such_strength(product, label))
}

fn dry(product: &Product, label: LabelStrength) -> Result<ChlorinePerDry> {
    strength::dry_strength(label.number).ok_or_else(|| no_such_strength(product, label))
}

fn no_such_strength(product: &Product, label: LabelStrength) -> Error {
    let LabelStrength { number, basis } = label;
    Error::request(format!("product {:?}: nothing has a strength of {number} {}", product.name, basis.name()))
}

/// Time from a day to the date of the plan; none where a test has no date of its own.
fn since(product: &Product, from: Option<NaiveDate>, date: Option<NaiveDate>, spot: Option<&Spot>) -> Result<Time> {
    let Some(from) = from else { return Ok(zero_time()) };
    let Some(date) = date else {
        let reason = format!(
            "product {:?} counts its age from {from}: say for which day to plan, with --date YYYY-MM-DD or `date` in [inventory]",
            product.name
        );
        return Err(refusal(spot, reason));
    };
    let days = (date - from).num_days();
    if days < 0 {
        let reason = format!("product {:?} is dated {from}, after the day of the plan, {date}", product.name);
        return Err(refusal(spot, reason));
    }
    Ok(Time::new::<second>(days as f64 * DAY_S))
}

/// How long all closed legs last.
fn length_of(storage: &Storage) -> Time {
    storage.legs.iter().filter_map(|leg| leg.time).fold(zero_time(), |sum, time| sum + time)
}

/// The stretches of storage up to `age`: legs in order, cut at the age; the last one lasts as long as is left.
fn history(
    product: &Product,
    storage: Option<&Storage>,
    age: Time,
    from_test: bool,
    spot: Option<&Spot>,
) -> Result<Vec<aging::Storage>> {
    if age <= zero_time() {
        return Ok(Vec::new());
    }
    let Some(storage) = storage else {
        let reason = format!(
            "product {:?} has an age but no `storage` temperature; aging depends on it more than on anything else",
            product.name
        );
        return Err(refusal(spot, reason));
    };
    // A test starts the clock anew: what came before it is in the strength found, and only the last leg is still ahead.
    let legs = if from_test { &storage.legs[storage.legs.len() - 1..] } else { &storage.legs[..] };
    let mut left = age;
    let mut history = Vec::with_capacity(legs.len());
    for (place, leg) in legs.iter().enumerate() {
        let last = place + 1 == legs.len();
        let duration = match leg.time {
            Some(time) if !last && time < left => time,
            _ => left,
        };
        history.push(aging::Storage { duration, temperature: leg.temperature });
        left -= duration;
        if left <= zero_time() {
            break;
        }
    }
    Ok(history)
}
