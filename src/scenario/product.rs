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

use super::file_text;
use super::section::{Section, WHOLE, near};
use super::stated::{Document, Spot};
use super::supply::{BoughtBy, Package, StockItem, read_packages};
use crate::error::{Error, Result};
use crate::field::names::is_same;
use crate::field::rules::UnitSystem;
use crate::kernel::neutralizer::Agent;
use crate::kernel::strength::{self, Chemical, StrengthBasis};
use crate::parameter::FILE;
use crate::quantity::unit::DAY_S;

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
    /// The number as printed or found; what it counts is the basis.
    pub number: f64,
    /// Whether it counts trade percent, grams per liter, or one of the percents by weight.
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
    /// Temperature of the product all through the stretch.
    pub temperature: ThermodynamicTemperature,
}

/// A strength found by a test.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredStrength {
    /// Number and basis that the test found, read like those of a label.
    pub strength: LabelStrength,
    /// When; aging goes on from there. Without a date it is taken for the day of use.
    pub date: Option<NaiveDate>,
    /// Where the date is written.
    pub spot: Spot,
}

impl MeasuredStrength {
    /// Reads `measured_strength = { percent = 9.5, basis = "trade", date = 2026-05-01 }`.
    pub fn read(section: &Section<'_>, chemical: Option<Chemical>) -> Option<Self> {
        let test = section.section("measured_strength")?;
        test.finish();
        let strength = read_strength(&test, chemical);
        let date = test.date("date");
        Some(Self { strength: strength?, date, spot: test.spot_of("date") })
    }
}

impl Product {
    /// How it is bought and measured.
    pub fn bought_by(&self) -> BoughtBy {
        BoughtBy::of(Some(self.chemical))
    }

    /// Reads one `[[product]]`; what is missing, unknown, or not true of such a product is noted.
    pub fn read(section: &Section<'_>, system: UnitSystem) -> Option<Self> {
        let gallon = system.gallon();
        section.finish();
        let name = section.needed_text("name");
        let chemical = match section.has("chemical") {
            true => section.word("chemical").and_then(Chemical::by_name),
            false => {
                section.needed_text("chemical");
                None
            }
        };
        let label = section.section("strength").and_then(|strength| {
            strength.finish();
            read_strength(&strength, chemical)
        });
        if !section.has("strength") {
            let name = name.as_deref().unwrap_or_default();
            section.fault(format!("product {name:?} needs `strength = {{ percent = …, basis = \"…\" }}`"));
        }
        let caustic = section.number("caustic_percent");
        let bulk_density = section.quantity("bulk_density", gallon);
        let measured = MeasuredStrength::read(section, chemical);
        let (age, storage) = (Age::read(section), Storage::read(section));
        let (label_text, source) = (section.text("label"), section.text("source"));
        // What follows depends on what is in it.
        let chemical = chemical?;
        if caustic.is_some() && !chemical.is_liquid() {
            section.fault_of("caustic_percent", "`caustic_percent` is for liquids");
        }
        if bulk_density.is_some() && chemical.is_liquid() {
            section.fault_of("bulk_density", "`bulk_density` is for dry products");
        }
        let by = if chemical.is_liquid() { BoughtBy::Volume } else { BoughtBy::Mass };
        let packages = read_packages(section, by, gallon);
        Some(Self {
            name: name?,
            chemical,
            label: label?,
            caustic_percent: caustic.unwrap_or(strength::USUAL_CAUSTIC_PERCENT),
            bulk_density: bulk_density.map(MassDensity::new::<kilogram_per_cubic_meter>),
            age,
            storage,
            measured,
            packages,
            label_text,
            source,
        })
    }
}

fn read_strength(section: &Section<'_>, chemical: Option<Chemical>) -> Option<LabelStrength> {
    let liquid = chemical.is_none_or(Chemical::is_liquid);
    let bases = if liquid { &StrengthBasis::ALL[..] } else { &[StrengthBasis::WeightAvailableChlorine] };
    let known: Vec<&str> = bases.iter().map(|basis| basis.name()).collect();
    if !section.has("basis") {
        section.fault(format!(
            "a strength needs its basis, because the same percent differs by a fifth between them: {}",
            known.join(", ")
        ));
    }
    let word = section.text("basis");
    let basis = word.as_deref().and_then(|word| bases.iter().copied().find(|basis| basis.name() == word));
    if let (Some(word), None) = (&word, basis) {
        let of = chemical.map_or(String::new(), |chemical| format!(" for {}", chemical.name()));
        section.fault_of("basis", format!("no basis {word:?}{of}{}; known: {}", near(word, &known), known.join(", ")));
    }
    let key = if section.has("percent") { "percent" } else { "value" };
    if !section.has(key) {
        section.fault("a strength needs `percent` (or `value` for grams_per_liter)");
    }
    let number = section.number(key)?;
    match LabelStrength::possible(number, basis?, chemical?) {
        Ok(label) => Some(label),
        Err(rule) => {
            section.fault_of(key, format!("`{key}` must {rule}"));
            None
        }
    }
}

/// The products of a campaign: its own, then built-in ones that are named.
pub(super) struct Products {
    /// Those that can be planned with.
    pub(super) listed: Vec<Product>,
    built_in: Vec<Product>,
    /// Names of those that are refused for their own faults: whoever names them is not at fault.
    refused: Vec<String>,
}

impl Products {
    pub(super) fn new(built_in: Vec<Product>) -> Self {
        Self { listed: Vec::new(), built_in, refused: Vec::new() }
    }

    /// Reads one `[[product]]`; a second product of the same name is a fault.
    pub(super) fn read(&mut self, section: &Section<'_>, system: UnitSystem) {
        let Some(product) = Product::read(section, system) else {
            self.refused.extend(section.text("name"));
            return;
        };
        if self.listed.iter().any(|other| is_same(&other.name, &product.name)) {
            section.fault_of("name", format!("a second product named {:?}", product.name));
        }
        self.listed.push(product);
    }

    /// What stock may be of: products and neutralizing agents.
    pub(super) fn items(&self) -> Vec<StockItem<'_>> {
        let agents = Agent::ALL.iter().map(|agent| StockItem { name: agent.name(), chemical: None });
        let products = self.listed.iter();
        let products = products.map(|product| StockItem { name: &product.name, chemical: Some(product.chemical) });
        products.chain(agents).collect()
    }

    /// Whether a name is that of a product that was refused itself.
    pub(super) fn is_refused(&self, name: &str) -> bool {
        self.refused.iter().any(|refused| is_same(refused, name))
    }

    /// The place of the product that a key names.
    pub(super) fn named(&mut self, section: &Section<'_>, key: &str, name: &str) -> Option<usize> {
        let named = |wanted: fn(&str, &str) -> bool| self.listed.iter().position(|product| wanted(&product.name, name));
        if let Some(index) = named(|one, other| one == other).or_else(|| named(is_same)) {
            return Some(index);
        }
        if self.is_refused(name) {
            return None;
        }
        if let Some(product) = self.built_in.iter().find(|product| product.name == name) {
            self.listed.push(product.clone());
            return Some(self.listed.len() - 1);
        }
        let products = self.listed.iter().chain(&self.built_in);
        let known: Vec<&str> = products.map(|product| product.name.as_str()).collect();
        section.fault_of(key, format!("no product {name:?}{}; known: {}", near(name, &known), known.join(", ")));
        None
    }
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

impl Age {
    /// The day that it counts from, where it is one.
    pub const fn made_on(&self) -> Option<NaiveDate> {
        match self.counted {
            Counted::MadeOn(date) => Some(date),
            Counted::Time(_) => None,
        }
    }

    /// Reads `age_days` or `label_date`.
    pub fn read(section: &Section<'_>) -> Option<Self> {
        let days = section.number("age_days");
        let date = section.date("label_date");
        if section.has("age_days") && section.has("label_date") {
            section.fault_of("label_date", "give `age_days` or `label_date`, not both");
        }
        match (days, date) {
            (Some(days), _) => {
                let counted = Counted::Time(Time::new::<second>(days * DAY_S));
                Some(Self { counted, spot: Some(section.spot_of("age_days")) })
            }
            (None, Some(date)) => {
                Some(Self { counted: Counted::MadeOn(date), spot: Some(section.spot_of("label_date")) })
            }
            (None, None) => None,
        }
    }
}

impl Storage {
    /// Reads `storage = "20 C"` or `storage = [{ days = 20, at = "30 C" }, { at = "15 C" }]`.
    pub fn read(section: &Section<'_>) -> Option<Self> {
        let stated = section.value("storage")?;
        let in_kelvin = |si: f64| ThermodynamicTemperature::new::<kelvin>(si);
        if stated.value.list().is_none() {
            let temperature = in_kelvin(section.quantity("storage", None)?);
            return Some(Self { legs: vec![StorageLeg { time: None, temperature }] });
        }
        let sections = section.sections("storage");
        let mut legs = Vec::with_capacity(sections.len());
        for (place, leg) in sections.iter().enumerate() {
            leg.finish();
            let time = leg.number("days").map(|days| Time::new::<second>(days * DAY_S));
            if !leg.has("at") {
                leg.fault("a leg of storage needs `at = \"20 C\"`");
            }
            if !leg.has("days") && place + 1 < sections.len() {
                section.fault_at(&stated.at, "only the last leg of `storage` may leave out `days`");
            }
            let Some(temperature) = leg.quantity("at", None).map(in_kelvin) else { continue };
            legs.push(StorageLeg { time, temperature });
        }
        if sections.is_empty() {
            section.fault_at(&stated.at, "`storage` is an empty list");
        }
        (!legs.is_empty()).then_some(Self { legs })
    }
}

/// The built-in generic products, in the grammar of a scenario file.
pub const BUILT_IN: &str = include_str!("../../scenarios/products.toml");

/// Reads the built-in products.
///
/// # Errors
/// None in a released program: a test reads them.
pub fn built_in_products() -> Result<Vec<Product>> {
    let path = Path::new("built-in products");
    let document = Document::new(path, BUILT_IN);
    let stated = file_text::read(&document);
    let mut products = Vec::new();
    if let Some((stated, table)) = stated.as_ref().and_then(|stated| Some((stated, stated.value.table()?))) {
        let file = Section::new(&document, &FILE, WHOLE, stated.at.clone(), table);
        products.extend(file.sections("product").iter().filter_map(|section| Product::read(section, UnitSystem::Us)));
    }
    match document.refusal() {
        Some(error) => Err(error),
        None if products.is_empty() => Err(Error::Internal("there are no built-in products".to_owned())),
        None => Ok(products),
    }
}
