//! Products: the label as written, its age and storage, packages; and the [`Stock`] it is on the day of use.
//!
//! A strength never comes without its basis. The built-in generic products are written in the same grammar, in
//! `scenarios/products.toml`, and read by the same reader.

use std::path::Path;

use chrono::NaiveDate;
use uom::si::f64::{MassDensity, ThermodynamicTemperature, Time};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;

use super::supply::{BoughtBy, Package, read_packages};
use super::written::{Section, Spot, Text, near};
use crate::error::Result;
use crate::field::rules::UnitSystem;
use crate::kernel::strength::{self, Chemical, StrengthBasis};
use crate::quantity::unit::{DAY_S, Dimension};

/// A product as the scenario file describes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Product {
    /// Its name in scenarios and results.
    pub name: String,
    /// What is in it.
    pub chemical: Chemical,
    /// Number on the label and what it counts.
    pub label: LabelStrength,
    /// Excess sodium hydroxide, % by weight; liquids only.
    pub caustic_percent: f64,
    /// Mass per volume as poured; dry products only.
    pub bulk_density: Option<MassDensity>,
    /// How old it is, where stated.
    pub age: Option<Age>,
    /// How it was stored, where stated.
    pub storage: Option<Storage>,
    /// Strength found by a test, where there was one.
    pub measured: Option<MeasuredStrength>,
    /// What can be bought.
    pub packages: Vec<Package>,
    /// The label in words.
    pub label_text: Option<String>,
    /// Where the figures come from.
    pub source: Option<String>,
}

/// A number on a label and what it counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelStrength {
    /// The number.
    pub number: f64,
    /// What it counts.
    pub basis: StrengthBasis,
}

/// Age of a stock, and where it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct Age {
    /// From when it counts.
    pub counted: Counted,
    /// Its line; none for what was asked at the prompt.
    pub spot: Option<Spot>,
}

/// How an age is counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Counted {
    /// So long after it was made.
    Time(Time),
    /// Made on this day; the age counts to the date of the plan.
    MadeOn(NaiveDate),
}

/// How a stock was kept: legs in order; the last one lasts to the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Storage {
    /// Legs; the time of the last may be open.
    pub legs: Vec<StorageLeg>,
}

/// A stretch of storage at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StorageLeg {
    /// How long; `None`: to the end.
    pub time: Option<Time>,
    /// At what temperature.
    pub temperature: ThermodynamicTemperature,
}

/// A strength found by a test.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredStrength {
    /// What was found.
    pub strength: LabelStrength,
    /// When; ageing goes on from there. Without a date it is taken for the day of use.
    pub date: Option<NaiveDate>,
    /// Where the date is written.
    pub spot: Spot,
}

impl Product {
    /// How it is bought and measured.
    pub fn bought_by(&self) -> BoughtBy {
        if self.chemical.is_liquid() { BoughtBy::Volume } else { BoughtBy::Mass }
    }

    /// Reads one `[[product]]`.
    ///
    /// # Errors
    /// Anything missing, unknown, or not true of such a product, with its line.
    pub fn read(section: &Section<'_>, system: UnitSystem) -> Result<Self> {
        let gallon = system.gallon();
        let name = section.required_text("name")?;
        let word = section.required_text("chemical")?;
        let Some(chemical) = Chemical::by_name(&word) else {
            let known: Vec<&str> = Chemical::ALL.iter().map(|chemical| chemical.name()).collect();
            let reason = format!("no chemical {word:?}{}; known: {}", near(&word, &known), known.join(", "));
            return Err(section.error_at(&section.span_of("chemical"), reason));
        };
        let Some(strength) = section.section("strength")? else {
            let reason = format!("product {name:?} needs `strength = {{ percent = …, basis = \"…\" }}`");
            return Err(section.error(reason));
        };
        let label = read_strength(&strength, chemical)?;
        strength.finish()?;
        let caustic = section.number_within("caustic_percent", (0.0, 5.0))?;
        if caustic.is_some() && !chemical.is_liquid() {
            let reason = "`caustic_percent` is for liquids";
            return Err(section.error_at(&section.span_of("caustic_percent"), reason));
        }
        let bulk_density = section.quantity("bulk_density", Dimension::Density, gallon)?;
        if let Some(density) = bulk_density {
            let span = section.span_of("bulk_density");
            if chemical.is_liquid() {
                return Err(section.error_at(&span, "`bulk_density` is for dry products"));
            }
            if !(200.0..=2500.0).contains(&density) {
                return Err(section.error_at(&span, "`bulk_density` must lie from 0.2 to 2.5 kg/L"));
            }
        }
        let measured = match section.section("measured_strength")? {
            None => None,
            Some(test) => {
                let strength = read_strength(&test, chemical)?;
                let date = read_date(&test, "date")?;
                test.finish()?;
                Some(MeasuredStrength { strength, date, spot: test.spot_of("date") })
            }
        };
        let by = if chemical.is_liquid() { BoughtBy::Volume } else { BoughtBy::Mass };
        let product = Self {
            name,
            chemical,
            label,
            caustic_percent: caustic.unwrap_or(strength::USUAL_CAUSTIC_PERCENT),
            bulk_density: bulk_density.map(MassDensity::new::<kilogram_per_cubic_meter>),
            age: Age::read(section)?,
            storage: Storage::read(section)?,
            measured,
            packages: read_packages(section, by, gallon)?,
            label_text: section.text("label")?,
            source: section.text("source")?,
        };
        section.finish()?;
        Ok(product)
    }
}

fn read_strength(section: &Section<'_>, chemical: Chemical) -> Result<LabelStrength> {
    let bases = if chemical.is_liquid() { &StrengthBasis::ALL[..] } else { &[StrengthBasis::WeightAvailableChlorine] };
    let known: Vec<&str> = bases.iter().map(|basis| basis.name()).collect();
    let Some(word) = section.text("basis")? else {
        return Err(section.error(format!(
            "a strength needs its basis, because the same percent differs by a fifth between them: {}",
            known.join(", ")
        )));
    };
    let Some(basis) = bases.iter().copied().find(|basis| basis.name() == word) else {
        let reason =
            format!("no basis {word:?} for {}{}; known: {}", chemical.name(), near(&word, &known), known.join(", "));
        return Err(section.error_at(&section.span_of("basis"), reason));
    };
    let key = if section.has("percent") { "percent" } else { "value" };
    let Some(number) = section.number(key)? else {
        return Err(section.error("a strength needs `percent` (or `value` for grams_per_liter)"));
    };
    LabelStrength::possible(number, basis, chemical)
        .map_err(|rule| section.error_at(&section.span_of(key), format!("`{key}` must {rule}")))
}

impl LabelStrength {
    /// A number that can stand on a label: from 0.05 to 25 % or 250 g/L on a liquid, and on a dry product to what the pure
    /// salt holds.
    ///
    /// # Errors
    /// The rule in words: `lie from 0.05 to 25 on this basis, not 30`.
    pub fn possible(number: f64, basis: StrengthBasis, chemical: Chemical) -> std::result::Result<Self, String> {
        let (fits, most, why) = match basis {
            _ if !chemical.is_liquid() => {
                let most = strength::pure_calcium_hypochlorite().ratio() * 100.0;
                let why = format!(": pure calcium hypochlorite holds {most:.3} % available chlorine; 99.2 is rounded");
                (strength::dry_strength(number).is_some(), format!("{most:.2}"), why)
            }
            StrengthBasis::GramsPerLiter => (number <= 250.0, "250".to_owned(), String::new()),
            _ => (number <= 25.0, "25".to_owned(), String::new()),
        };
        if number >= 0.05 && fits {
            return Ok(Self { number, basis });
        }
        let why = if fits { "" } else { why.as_str() };
        Err(format!("lie from 0.05 to {most} on this basis, not {number}{why}"))
    }
}

/// Reads a day, as a TOML date or as a text.
///
/// # Errors
/// When the value is no date.
pub(super) fn read_date(section: &Section<'_>, key: &'static str) -> Result<Option<NaiveDate>> {
    let Some(value) = section.value(key) else { return Ok(None) };
    let written = match (value.get_ref().as_str(), value.get_ref().as_datetime()) {
        (Some(text), _) => text.to_owned(),
        (None, Some(date)) => date.to_string(),
        (None, None) => String::new(),
    };
    match written.parse::<NaiveDate>() {
        Ok(date) => Ok(Some(date)),
        Err(_) => Err(section.error_at(&value.span(), format!("`{key}` must be a date such as 2026-05-31"))),
    }
}

impl Age {
    /// Reads `age_days` or `label_date`.
    ///
    /// # Errors
    /// Both at once, a negative age, or no date.
    pub fn read(section: &Section<'_>) -> Result<Option<Self>> {
        let days = section.number_within("age_days", (0.0, 36_525.0))?;
        let date = read_date(section, "label_date")?;
        match (days, date) {
            (Some(_), Some(_)) => {
                let reason = "give `age_days` or `label_date`, not both";
                Err(section.error_at(&section.span_of("label_date"), reason))
            }
            (Some(days), None) => {
                let counted = Counted::Time(Time::new::<second>(days * DAY_S));
                Ok(Some(Self { counted, spot: Some(section.spot_of("age_days")) }))
            }
            (None, Some(date)) => {
                Ok(Some(Self { counted: Counted::MadeOn(date), spot: Some(section.spot_of("label_date")) }))
            }
            (None, None) => Ok(None),
        }
    }
}

impl Storage {
    /// Reads `storage = "20 C"` or `storage = [{ days = 20, at = "30 C" }, { at = "15 C" }]`.
    ///
    /// # Errors
    /// A temperature that no store has, or an open leg before the last.
    pub fn read(section: &Section<'_>) -> Result<Option<Self>> {
        let Some(value) = section.value("storage") else { return Ok(None) };
        let temperature = |section: &Section<'_>, key: &'static str| -> Result<ThermodynamicTemperature> {
            let Some(si) = section.quantity(key, Dimension::Temperature, None)? else {
                return Err(section.error("a leg of storage needs `at = \"20 C\"`"));
            };
            if !(243.15..=343.15).contains(&si) {
                let reason = "a storage temperature must lie from -30 C to 70 C";
                return Err(section.error_at(&section.span_of(key), reason));
            }
            Ok(ThermodynamicTemperature::new::<kelvin>(si))
        };
        if value.get_ref().as_array().is_none() {
            let temperature = temperature(section, "storage")?;
            return Ok(Some(Self { legs: vec![StorageLeg { time: None, temperature }] }));
        }
        let sections = section.sections("storage")?;
        let mut legs = Vec::with_capacity(sections.len());
        for leg in &sections {
            let days = leg.number_within("days", (0.0, 36_525.0))?;
            let time = days.map(|days| Time::new::<second>(days * DAY_S));
            legs.push(StorageLeg { time, temperature: temperature(leg, "at")? });
            leg.finish()?;
        }
        if legs.is_empty() {
            return Err(section.error_at(&value.span(), "`storage` is an empty list"));
        }
        if legs[..legs.len() - 1].iter().any(|leg| leg.time.is_none()) {
            return Err(section.error_at(&value.span(), "only the last leg of `storage` may leave out `days`"));
        }
        Ok(Some(Self { legs }))
    }
}

/// The built-in generic products, in the grammar of a scenario file.
pub const BUILT_IN: &str = include_str!("../../scenarios/products.toml");

/// Reads the built-in products.
///
/// # Errors
/// None in a released program: a test reads them.
pub fn built_in_products() -> Result<Vec<Product>> {
    let text = Text { path: Path::new("built-in products"), content: BUILT_IN };
    let table = text.parse()?;
    let file = Section::new(text, "the file", table.span(), table.get_ref());
    let products = file
        .sections("product")?
        .iter()
        .map(|section| Product::read(section, UnitSystem::Us))
        .collect::<Result<_>>()?;
    file.finish()?;
    Ok(products)
}
