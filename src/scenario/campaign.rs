//! The whole scenario file as a [`Campaign`]: practice, products, scenarios, overrides, supplies and reading rules.

use std::path::Path;

use chrono::NaiveDate;

use super::grid;
use super::practice::{Setting, default_practice};
use super::product::{Age, Product, Storage, built_in_products};
use super::rules::{self, FixedSpot};
use super::supply::{self, NeutralizerSupply, StockLine, SupplyLine};
use super::written::{Section, Spot, Text};
use crate::error::{Error, Result, describe};
use crate::field::names::is_same;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::kernel::requirement::Practice;

/// Everything the scenario file says, understood.
#[derive(Debug, Clone)]
pub struct Campaign {
    /// Title of the campaign.
    pub title: String,
    /// How its people measure.
    pub system: UnitSystem,
    /// Columns the totals are grouped by; field names or carried columns.
    pub group_by: Vec<String>,
    /// Where `group_by` is written, for errors.
    pub group_by_spot: Option<Spot>,
    /// Currency of every price.
    pub currency: String,
    /// When one visit takes an outsized part of an order.
    pub outsized: OutsizedRule,
    /// How the lists are read.
    pub rules: ReadingRules,
    /// Where `[inventory.fixed]` is written, for errors.
    pub fixed_spots: Vec<FixedSpot>,
    /// The day that the lists are of, where `[inventory]` says so: the day of the plan unless another is asked for.
    pub date: Option<NaiveDate>,
    /// `[practice]`, in order.
    pub practice: Vec<Setting>,
    /// Products: the file's own, then built-in ones that a scenario names.
    pub products: Vec<Product>,
    /// Every scenario of the full definition, in order; its number never depends on what is run.
    pub scenarios: Vec<Scenario>,
    /// `[[override]]`, in order; later ones win.
    pub overrides: Vec<Override>,
    /// Stock per depot.
    pub stock: Vec<StockLine>,
    /// Packages of neutralizers.
    pub neutralizers: Vec<NeutralizerSupply>,
    /// Supplies that go with each visit.
    pub supplies: Vec<SupplyLine>,
    /// Where the file begins, for what is missing in all of it.
    spot: Spot,
}

/// When one visit takes an outsized part of an order and is named: one wrong diameter can swallow a depot's stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutsizedRule {
    /// More than this share of its depot's product.
    pub share_of_depot: f64,
    /// More than so many times the median of its type.
    pub times_median: f64,
}

impl Default for OutsizedRule {
    /// A tenth of a depot, twenty times the median: common practice, no source.
    fn default() -> Self {
        Self { share_of_depot: 0.10, times_median: 20.0 }
    }
}

/// One scenario: a product, an age, and changes to the practice.
#[derive(Debug, Clone)]
pub struct Scenario {
    /// Number in the full definition, from 1.
    pub number: usize,
    /// Its name; no two are the same.
    pub name: String,
    /// Index into [`Campaign::products`].
    pub product: usize,
    /// Age of the stock, where the scenario sets it.
    pub age: Option<Age>,
    /// Storage, where the scenario sets it.
    pub storage: Option<Storage>,
    /// Changes to the practice.
    pub settings: Vec<Setting>,
}

/// A condition on wells and what it changes.
#[derive(Debug, Clone)]
pub struct Override {
    /// SQL over the inventory fields.
    pub condition: String,
    /// Where it is written.
    pub spot: Spot,
    /// Changes to the practice.
    pub settings: Vec<Setting>,
    /// Whether visits on which it holds are planned at all; nothing where the rule does not say.
    pub exclude: Option<Exclude>,
}

/// What a rule says of being planned at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Exclude {
    /// Left out, for this reason.
    Out(Box<str>),
    /// Planned after all, whatever an earlier rule says.
    In,
}

/// How many overrides a file may have: each well carries a bit for each.
pub const MAX_OVERRIDES: usize = 64;
/// How many scenarios a file may define.
pub const MAX_SCENARIOS: usize = 10_000;

impl Campaign {
    /// Reads a scenario file.
    ///
    /// # Errors
    /// [`Error::Input`] when the file cannot be read, [`Error::Scenario`] for the first thing in it that cannot be followed.
    pub fn read(path: &Path) -> Result<Self> {
        Self::parse_bytes(path, &std::fs::read(path).map_err(|error| Error::input(path, describe(&error)))?)
    }

    /// Understands the bytes of a scenario file; `path` is its name in errors.
    ///
    /// # Errors
    /// [`Error::Scenario`] for the first thing in it that cannot be followed.
    pub fn parse_bytes(path: &Path, bytes: &[u8]) -> Result<Self> {
        match std::str::from_utf8(bytes) {
            Ok(content) => Self::parse(path, content),
            Err(error) => {
                let readable = String::from_utf8_lossy(bytes);
                let text = Text { path, content: &readable };
                let start = error.valid_up_to();
                Err(text.error(&(start..start), "the file is not UTF-8 from here on: save it as UTF-8"))
            }
        }
    }

    /// Understands the text of a scenario file; `path` is its name in errors.
    ///
    /// # Errors
    /// [`Error::Scenario`] for the first thing in it that cannot be followed.
    pub fn parse(path: &Path, content: &str) -> Result<Self> {
        let text = Text { path, content };
        let table = text.parse()?;
        let file = Section::new(text, "the file", table.span(), table.get_ref());

        let head = read_head(&file)?;
        let gallon = head.system.gallon();
        let lists = rules::read(&file, head.system, head.bounding_box)?;
        let practice = match file.section("practice")? {
            Some(section) => {
                let settings = Setting::read_all(&section, head.system)?;
                section.finish()?;
                settings
            }
            None => Vec::new(),
        };
        let mut products = Vec::new();
        for section in file.sections("product")? {
            let product = Product::read(&section, head.system)?;
            if products.iter().any(|other: &Product| is_same(&other.name, &product.name)) {
                let reason = format!("a second product named {:?}", product.name);
                return Err(section.error_at(&section.span_of("name"), reason));
            }
            products.push(product);
        }
        let scenarios = grid::expand(&file, head.system, &mut products, built_in_products()?)?;
        let overrides = read_overrides(&file, head.system)?;
        let neutralizers = supply::read_neutralizers(&file, gallon)?;
        let items: Vec<_> = products
            .iter()
            .map(|product| (product.name.clone(), product.bought_by()))
            .chain(
                crate::kernel::neutralizer::Agent::ALL
                    .iter()
                    .map(|agent| (agent.name().to_owned(), supply::BoughtBy::Mass)),
            )
            .collect();
        let stock = supply::read_stock(&file, &items, gallon)?;
        let supplies = supply::read_supplies(&file)?;
        file.finish()?;
        let spot = text.spot(&(0..0));
        Ok(Self {
            spot,
            title: head.title,
            system: head.system,
            group_by: head.group_by,
            group_by_spot: head.group_by_spot,
            currency: head.currency,
            outsized: head.outsized,
            rules: lists.rules,
            date: lists.date,
            fixed_spots: lists.fixed_spots,
            practice,
            products,
            scenarios,
            overrides,
            stock,
            neutralizers,
            supplies,
        })
    }

    /// The practice of a scenario for wells on which the overrides in `mask` (bit i = override i) hold.
    ///
    /// Order: defaults, `[practice]`, the scenario, then the overrides as they are written.
    pub fn practice_of(&self, scenario: &Scenario, mask: u64) -> Practice {
        let mut practice = default_practice(self.system);
        let overrides = self.overrides.iter().enumerate().filter(|(i, _)| mask >> i & 1 == 1).map(|(_, rule)| rule);
        self.practice
            .iter()
            .chain(&scenario.settings)
            .chain(overrides.flat_map(|rule| &rule.settings))
            .for_each(|setting| setting.apply(&mut practice));
        practice
    }

    /// The depots that stock is stated for, each as it is first spelled.
    pub fn stated_depots(&self) -> Vec<String> {
        let mut depots: Vec<String> = Vec::new();
        for line in &self.stock {
            if !depots.iter().any(|depot| is_same(depot, &line.depot)) {
                depots.push(line.depot.clone());
            }
        }
        depots
    }

    /// The scenarios with these names or numbers, in the order of the full definition; all of them for an empty list.
    ///
    /// # Errors
    /// A name that no scenario has, or a file without any product: enough to check lists by, but nothing to plan with.
    pub fn select(&self, only: &[String]) -> Result<Vec<&Scenario>> {
        if self.scenarios.is_empty() {
            let reason = "the file names no product: add a [[product]], or a [[scenario]] with a built-in one";
            return Err(self.spot.error(reason));
        }
        for wanted in only {
            if !self.scenarios.iter().any(|scenario| scenario.answers_to(wanted)) {
                let known: Vec<&str> = self.scenarios.iter().map(|scenario| scenario.name.as_str()).collect();
                return Err(Error::Request(format!(
                    "no scenario {wanted:?}{}; scenarios: {}",
                    super::written::near(wanted, &known),
                    known.join(" | ")
                )));
            }
        }
        let asked = |scenario: &&Scenario| only.is_empty() || only.iter().any(|wanted| scenario.answers_to(wanted));
        Ok(self.scenarios.iter().filter(asked).collect())
    }
}

impl Scenario {
    /// Whether this is the scenario a person means: by name, or by number as `S3`.
    fn answers_to(&self, wanted: &str) -> bool {
        self.name == wanted || wanted.strip_prefix('S').is_some_and(|number| number == self.number.to_string())
    }
}

struct Head {
    title: String,
    system: UnitSystem,
    group_by: Vec<String>,
    group_by_spot: Option<Spot>,
    currency: String,
    outsized: OutsizedRule,
    bounding_box: Option<[f64; 4]>,
}

fn read_head(file: &Section<'_>) -> Result<Head> {
    let Some(section) = file.section("campaign")? else {
        return Err(file.error("the file needs a [campaign] with `units = \"us\"`, \"metric\" or \"imperial\""));
    };
    let title = section.text("title")?.unwrap_or_else(|| "Shock chlorination campaign".to_owned());
    let system = rules::system_named(&section, "units", section.text("units")?.as_deref())?;
    let group_by: Vec<String> =
        section.texts("group_by")?.unwrap_or_default().into_iter().map(|(column, _)| column).collect();
    let group_by_spot = Some(section.spot_of("group_by"));
    let currency = section.text("currency")?.unwrap_or_else(|| "currency not stated".to_owned());
    let bounding_box = match section.numbers("bounding_box")? {
        None => None,
        Some(numbers) => match <[f64; 4]>::try_from(numbers) {
            Ok(corners @ [south, west, north, east])
                if south < north
                    && west < east
                    && (-90.0..=90.0).contains(&south)
                    && (-90.0..=90.0).contains(&north)
                    && (-180.0..=180.0).contains(&west)
                    && (-180.0..=180.0).contains(&east) =>
            {
                Some(corners)
            }
            _ => {
                let reason = "`bounding_box` must be [south, west, north, east] in degrees, east and north positive";
                return Err(section.error_at(&section.span_of("bounding_box"), reason));
            }
        },
    };
    let mut outsized = OutsizedRule::default();
    if let Some(table) = section.section("outsized")? {
        outsized.share_of_depot =
            table.number_within("share_of_depot", (0.01, 1.0))?.unwrap_or(outsized.share_of_depot);
        outsized.times_median = table.number_within("times_median", (1.0, 1e6))?.unwrap_or(outsized.times_median);
        table.finish()?;
    }
    section.finish()?;
    Ok(Head { title, system, group_by, group_by_spot, currency, outsized, bounding_box })
}

fn read_exclude(section: &Section<'_>) -> Result<Option<Exclude>> {
    let exclude = section.flag("exclude")?;
    let reason = section.text("reason")?.map(|reason| reason.trim().to_owned());
    match (exclude, reason) {
        (Some(true), Some(reason)) if !reason.is_empty() => Ok(Some(Exclude::Out(reason.into()))),
        (Some(true), _) => {
            Err(section.error("`exclude = true` needs `reason = \"…\"`: it stands beside each visit left out"))
        }
        (_, Some(_)) => {
            Err(section.error_at(&section.span_of("reason"), "`reason` stands only beside `exclude = true`"))
        }
        (Some(false), None) => Ok(Some(Exclude::In)),
        (None, None) => Ok(None),
    }
}

fn read_overrides(file: &Section<'_>, system: UnitSystem) -> Result<Vec<Override>> {
    let sections = file.sections("override")?;
    if let Some(beyond) = sections.get(MAX_OVERRIDES) {
        return Err(beyond.error(format!("a file may have at most {MAX_OVERRIDES} overrides")));
    }
    sections
        .iter()
        .map(|section| {
            let condition = section.required_text("where")?;
            let spot = section.spot_of("where");
            let exclude = read_exclude(section)?;
            let set = section.section("set")?;
            if set.is_none() && exclude.is_none() {
                let reason =
                    "an [[override]] needs `set = { … }` with practice keys, or `exclude = true` with `reason`";
                return Err(section.error(reason));
            }
            let mut settings = Vec::new();
            if let Some(set) = &set {
                settings = Setting::read_all(set, system)?;
                set.finish()?;
            }
            section.finish()?;
            match &set {
                Some(set) if settings.is_empty() => Err(set.error("`set` changes nothing")),
                _ => Ok(Override { condition, spot, settings, exclude }),
            }
        })
        .collect()
}
