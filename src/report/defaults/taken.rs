//! What was taken by default for one well, as figures: each with an example of what it would change, computed by the kernel.
//!
//! The prompt and the cards say the same list, each in its own words. Nothing is computed a second way.

use std::ops::Deref;

use crate::field::rules::UnitSystem;
use crate::kernel::requirement::{Practice, Requirement};
use crate::kernel::{demand, dose};
use crate::quantity::basis::{celsius, celsius_of, days_of};
use crate::quantity::format::number;
use crate::quantity::unit;
use crate::quantity::{ChlorineConcentration, ThermodynamicTemperature, Volume, kitchen};
use crate::relation::Given;
use crate::scenario::product::{Age, Counted, Product, Storage, StorageLeg};
use crate::scenario::stock::{StockOnTheDay, stock_on_the_day};
use crate::visit::Need;
use crate::well::Well;

/// More than so many times as much is said in times: a percent says less there.
const SAID_IN_TIMES: f64 = 5.0;

/// Examples to judge a default by; not advice.
pub struct Example {
    /// Age of a product.
    pub age_days: f64,
    /// Its storage, in the unit that people read.
    storage: (f64, &'static str),
    /// Plumbing of a house with a pressure tank.
    plumbing: (f64, &'static str),
    /// Iron in the water, mg/L.
    pub iron_mg_per_l: f64,
    /// Treated ÷ standing volume: twice the casing's, as Alberta Agriculture, Water Wells, Agdex 716 A10, p. 50, asks.
    pub allowance: f64,
    /// Cold groundwater, in the unit that people read.
    water: (f64, &'static str),
}

impl Example {
    /// What people of a system can picture.
    pub const fn of(system: UnitSystem) -> Self {
        let (storage, plumbing, water) = match system {
            UnitSystem::Us => ((75.0, "F"), (80.0, "US gal"), (40.0, "F")),
            UnitSystem::Imperial => ((25.0, "C"), (65.0, "imp gal"), (5.0, "C")),
            UnitSystem::Metric => ((25.0, "C"), (300.0, "L"), (5.0, "C")),
        };
        Self { age_days: 60.0, storage, plumbing, iron_mg_per_l: 5.0, allowance: 2.0, water }
    }

    /// How warm the product of the example is stored.
    pub fn stored_at(&self) -> ThermodynamicTemperature {
        let mut temperature = celsius_of(0.0);
        temperature.value = si(self.storage);
        temperature
    }

    /// Its storage in words: `75 °F`.
    pub fn storage_words(&self) -> String {
        words(self.storage)
    }

    /// How much the plumbing of the example holds.
    pub fn plumbing(&self) -> Volume {
        Volume { value: si(self.plumbing), ..Volume::default() }
    }

    /// Its plumbing in words: `80 US gal`.
    pub fn plumbing_words(&self) -> String {
        words(self.plumbing)
    }

    /// Its cold water in words: `40 °F`.
    pub fn water_words(&self) -> String {
        words(self.water)
    }
}

fn si((value, symbol): (f64, &'static str)) -> f64 {
    unit::by_symbol(symbol).map_or(f64::NAN, |unit| unit.to_si(value))
}

fn words((value, symbol): (f64, &'static str)) -> String {
    match symbol {
        "F" | "C" => format!("{} °{symbol}", number(value, 3)),
        _ => format!("{} {symbol}", number(value, 3)),
    }
}

/// A share in percent.
pub fn percent(share: f64) -> String {
    number(share * 100.0, 2)
}

/// The practice's water temperature as people read it.
pub fn water_words(practice: &Practice) -> String {
    let degrees = celsius(practice.water_temperature);
    let symbol = if practice.system == UnitSystem::Us { "F" } else { "C" };
    let shown = unit::by_symbol(symbol).zip(unit::by_symbol("C")).map(|(to, from)| to.from_si(from.to_si(degrees)));
    words((shown.unwrap_or(degrees), symbol))
}

/// How much more would be poured.
#[derive(Debug, Clone, Copy)]
pub struct More {
    /// Over what is poured now.
    times: f64,
    /// What would be measured out, where that is another amount.
    pub instead: Option<(f64, &'static str)>,
}

/// How an amount is compared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Grown {
    /// `20`: so many percent more.
    Percent(String),
    /// `5.1`: so many times as much.
    Times(String),
}

impl More {
    /// In the words that say most.
    pub fn grown(&self) -> Grown {
        match self.times > SAID_IN_TIMES {
            true => Grown::Times(number(self.times, 2)),
            false => Grown::Percent(percent(self.times - 1.0)),
        }
    }
}

/// What a product without an age would have lost after the example's days.
#[derive(Debug, Clone, Copy)]
pub struct Lost {
    /// Share of its strength that would be left.
    pub left: f64,
    /// What would be poured of it.
    pub more: More,
}

/// Something that nobody gave for a well.
#[derive(Debug, Clone, Copy)]
pub enum Taken {
    /// The age of the product; nothing is known of its loss where no law of aging holds.
    Age(Option<Lost>),
    /// The plumbing that is treated with the well.
    Plumbing {
        /// What this amount gives once it circulates through the example's plumbing.
        thin: ChlorineConcentration,
        /// What including it would take.
        more: More,
    },
    /// What uses up chlorine.
    Demand(More),
    /// What is treated beyond the standing water.
    Allowance(More),
    /// The temperature of the water.
    Temperature {
        /// pH after dosing at the temperature that is taken.
        ph: f64,
        /// pH after dosing in the example's cold water.
        cold: f64,
    },
}

/// The same product so many days old, stored at one temperature; `None` where no law of aging holds.
pub fn aged(product: &Product, days: f64, temperature: ThermodynamicTemperature) -> Option<StockOnTheDay> {
    let age = Age { counted: Counted::Time(days_of(days)), spot: None };
    let storage = Storage { legs: vec![StorageLeg { time: None, temperature }] };
    stock_on_the_day(product, Some(&age), Some(&storage), None).ok()
}

/// Whether a product's strength is that of its label because nobody gave an age.
pub fn is_ageless(product: &Product, stock: &StockOnTheDay, age_stated: bool) -> bool {
    product.age.is_none() && product.measured.is_none() && !age_stated && stock.age.value <= 0.0
}

/// The example's old product, and the share of the strength that is left in it; `None` where it loses nothing by any rule.
pub fn if_old(product: &Product, stock: &StockOnTheDay, example: &Example) -> Option<(StockOnTheDay, f64)> {
    let old = aged(product, example.age_days, example.stored_at())?;
    let left = old.prepared.stock.strength_used() / stock.prepared.stock.strength_used();
    (left < 1.0).then_some((old, left))
}

/// A well's treatment, whose defaults are asked for.
#[derive(Debug, Clone, Copy)]
pub struct Treated<'a> {
    /// The well, how it is treated, with what, and what it needs.
    pub given: Given<'a>,
    /// Whether the scenario or the prompt states the product's age, beside the product.
    pub age_stated: bool,
}

impl<'a> Deref for Treated<'a> {
    type Target = Given<'a>;

    fn deref(&self) -> &Given<'a> {
        &self.given
    }
}

impl Treated<'_> {
    /// What it would need under another practice.
    fn under(&self, change: impl FnOnce(&mut Practice)) -> Option<Need> {
        let mut practice = self.practice.clone();
        change(&mut practice);
        Need::of(self.well, &practice, self.stock.readings())
    }

    /// The amount of another requirement, where it is another one to whoever measures it.
    fn instead(&self, other: &Requirement) -> Option<(f64, &'static str)> {
        let amount = |need: &Requirement| kitchen::words(need.measured_amount, need.measured_unit);
        (amount(other) != amount(self.need)).then_some((other.measured_amount, other.measured_unit))
    }

    /// How much more chlorine the water would take: of what is measured out for it, as the amounts beside it are.
    fn more(&self, other: &Requirement) -> More {
        let in_water = |need: &Requirement| dose::chlorine(need.dose, need.treated_volume).grams();
        More { times: in_water(other) / in_water(self.need), instead: self.instead(other) }
    }

    /// What was taken by default; `stated` says whether anybody has given a key of the practice.
    pub fn by_default(&self, stated: &dyn Fn(&str) -> bool) -> Vec<Taken> {
        let example = Example::of(self.practice.system);
        let taken = [
            is_ageless(self.product, self.stock, self.age_stated).then(|| self.age(&example)),
            (self.well.plumbing_volume.is_none() && !stated("plumbing_volume"))
                .then(|| self.plumbing(&example))
                .flatten(),
            (demand::least_demand(&self.well.water).is_none() && !stated("demand_mg_per_l"))
                .then(|| self.demand(&example))
                .flatten(),
            (!stated("volume_allowance")).then(|| self.allowance(&example)).flatten(),
            (self.well.water.temperature.is_none() && !stated("water_temperature"))
                .then(|| self.temperature(&example))
                .flatten(),
        ];
        taken.into_iter().flatten().collect()
    }

    fn age(&self, example: &Example) -> Taken {
        let lost = if_old(self.product, self.stock, example).map(|(old, left)| {
            let other = Need::of(self.well, self.practice, old.readings());
            let instead = other.as_ref().and_then(|other| self.instead(other));
            Lost { left, more: More { times: 1.0 / left, instead } }
        });
        Taken::Age(lost)
    }

    fn plumbing(&self, example: &Example) -> Option<Taken> {
        let other = self.under(|practice| practice.plumbing_volume = example.plumbing())?;
        let poured = dose::chlorine(self.need.measured_dose, self.need.treated_volume);
        Some(Taken::Plumbing { thin: dose::dose_given(poured, other.treated_volume), more: self.more(&other) })
    }

    fn demand(&self, example: &Example) -> Option<Taken> {
        let mut record = (**self.well).clone();
        record.water.iron_mg_per_l = Some(example.iron_mg_per_l);
        let iron = Well::prove(record).ok()?;
        Need::of(&iron, self.practice, self.stock.readings()).map(|other| Taken::Demand(self.more(&other)))
    }

    fn allowance(&self, example: &Example) -> Option<Taken> {
        let other = self.under(|practice| practice.volume_allowance = example.allowance)?;
        Some(Taken::Allowance(self.more(&other)))
    }

    /// Where the pH after dosing rests on it.
    fn temperature(&self, example: &Example) -> Option<Taken> {
        let ph = self.need.ph_after?;
        let cold = self.under(|practice| practice.water_temperature.value = si(example.water))?.ph_after?;
        Some(Taken::Temperature { ph, cold })
    }
}
