//! The whole scenario file as a [`Campaign`]: practice, products, scenarios, overrides, supplies and reading rules.

use std::path::Path;

use chrono::NaiveDate;

use super::buy::{self, BuyLine, Sold};
use super::crew::{self, CrewLine};
use super::depot_stock::{self, StockLine};
use super::file_text;
use super::grid::{self, Scenario};
use super::practice::{Setting, default_practice};
use super::product::{Age, Product, Products, built_in_products};
use super::rules::{self, FixedSpot};
use super::section::{Section, WHOLE};
use super::stated::{At, Document, Spot, Stated};
use super::supply::{self, NeutralizerSupply, SupplyLine};
use crate::error::{Error, Result};
use crate::field::names::is_same;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::kernel::requirement::Practice;
use crate::parameter::{CAMPAIGN, FILE, Taken};

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
    /// What `[practice]` states, in the order of the vocabulary; what it leaves out keeps its default.
    pub practice: Vec<Setting>,
    /// Products: the file's own, then built-in ones that a scenario names.
    pub products: Vec<Product>,
    /// Every scenario of the full definition, in order; its number never depends on what is run.
    pub scenarios: Vec<Scenario>,
    /// `[[override]]`, in order; later ones win.
    pub overrides: Vec<Override>,
    /// What depots have or have ordered, of products and of neutralizing agents.
    pub stock: Vec<StockLine>,
    /// In which packages agents are sold; of an agent without a line here none can be ordered.
    pub neutralizers: Vec<NeutralizerSupply>,
    /// Supplies that go with each visit.
    pub supplies: Vec<SupplyLine>,
    /// Counts of packages that somebody settled on.
    pub buy: Vec<BuyLine>,
    /// Crews that go out, in order.
    pub crews: Vec<CrewLine>,
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

/// What is said of a book whose units are not stated yet.
pub const UNITS_OPEN: &str = "\"Units\" must be \"us\", \"metric\" or \"imperial\", not nothing";
/// How many overrides a file may have: each well carries a bit for each.
pub const MAX_OVERRIDES: usize = 64;
impl Campaign {
    /// Reads a scenario file.
    ///
    /// # Errors
    /// [`Error::Input`] when the file cannot be read, [`Error::Scenario`] for everything in it that cannot be followed.
    pub fn read(path: &Path) -> Result<Self> {
        Self::parse_bytes(path, &std::fs::read(path).map_err(|error| Error::unread(path, error))?)
    }

    /// Understands the bytes of a scenario file; `path` is its name in errors.
    ///
    /// # Errors
    /// [`Error::Scenario`] for everything in it that cannot be followed.
    pub fn parse_bytes(path: &Path, bytes: &[u8]) -> Result<Self> {
        match std::str::from_utf8(bytes) {
            Ok(content) => Self::parse(path, content),
            Err(error) => {
                let readable = String::from_utf8_lossy(bytes);
                let start = error.valid_up_to();
                let spot = Document::new(path, &readable).spot(&At::Bytes(start..start));
                Err(spot.error("the file is not UTF-8 from here on: save it as UTF-8"))
            }
        }
    }

    /// Understands the text of a scenario file; `path` is its name in errors.
    ///
    /// # Errors
    /// [`Error::Scenario`] for everything in it that cannot be followed.
    pub fn parse(path: &Path, content: &str) -> Result<Self> {
        let document = Document::new(path, content);
        let campaign = file_text::read(&document).and_then(|stated| Self::of(&document, &stated));
        document.refusal().map_or_else(|| campaign.ok_or_else(|| nothing(path)), Err)
    }

    /// Understands what is stated, wherever it was written; faults are left with the document.
    pub fn of(document: &Document<'_>, stated: &Stated) -> Option<Self> {
        let table = stated.value.table()?;
        let file = Section::new(document, &FILE, WHOLE, stated.at.clone(), table);
        file.finish();
        let head = read_head(&file);
        let gallon = head.system.gallon();
        let lists = rules::read(&file, head.system, head.bounding_box);
        let practice = file.section("practice").map_or_else(Vec::new, |section| {
            section.finish();
            Setting::read_all(&section, head.system)
        });
        let mut products = Products::new(built_in_products().ok()?);
        for section in file.sections("product") {
            products.read(&section, head.system);
        }
        let scenarios = grid::expand(&file, head.system, &mut products);
        let overrides = read_overrides(&file, head.system);
        let neutralizers = supply::read_neutralizers(&file, gallon);
        let stock = depot_stock::read_stock(&file, &products.items(), |name| products.is_refused(name), gallon);
        let supplies = supply::read_supplies(&file);
        let listed = &products.listed;
        let sold = Sold {
            scenarios: scenarios.iter().map(|scenario| (scenario.name.as_str(), scenario.product)).collect(),
            products: listed,
            neutralizers: &neutralizers,
            supplies: &supplies,
        };
        let buy = buy::read_buy(&file, &sold);
        let crews = crew::read_crews(&file);
        Some(Self {
            spot: document.spot(&stated.at),
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
            products: products.listed,
            scenarios,
            overrides,
            stock,
            neutralizers,
            supplies,
            buy,
            crews,
        })
    }

    /// The practice of a scenario for wells on which the overrides in `mask` (bit i = override i) hold.
    ///
    /// Order: defaults, `[practice]`, the scenario, then the overrides as they are written.
    pub fn practice_of(&self, scenario: &Scenario, mask: u64) -> Practice {
        let mut practice = default_practice(self.system);
        self.settings(Some(scenario), mask).for_each(|setting| setting.apply(&mut practice));
        practice.held_by_rule()
    }

    /// Keys of the practice that are stated for such wells, in the same order.
    pub fn stated(&self, scenario: &Scenario, mask: u64) -> Vec<&'static str> {
        self.settings(Some(scenario), mask).map(|setting| setting.key).collect()
    }

    /// What is stated for such wells, in the same order; without a scenario, what holds whatever it is.
    pub fn settings<'a>(&'a self, scenario: Option<&'a Scenario>, mask: u64) -> impl Iterator<Item = &'a Setting> {
        let holds = move |(at, rule): (usize, &'a Override)| (mask >> at & 1 == 1).then_some(&rule.settings);
        let overrides = self.overrides.iter().enumerate().filter_map(holds).flatten();
        self.practice.iter().chain(scenario.into_iter().flat_map(|scenario| &scenario.settings)).chain(overrides)
    }

    /// What the practice states and no scenario follows, because every one of them states the same other value; with that.
    pub fn overruled<'a>(&'a self, scenarios: &[&'a Scenario]) -> Vec<(&'a Setting, &'a Setting)> {
        let overruled = self.practice.iter().filter_map(|of_all| {
            let mut own = scenarios.iter().map(|scenario| scenario.settings.iter().find(|own| own.key == of_all.key));
            let first = own.next()??;
            (first != of_all && own.all(|other| other == Some(first))).then_some((of_all, first))
        });
        overruled.collect()
    }

    /// The days that ages of products and of stock count from.
    pub fn dates_of_stock(&self) -> impl Iterator<Item = NaiveDate> {
        let of_products = self.products.iter().map(|product| (&product.age, &product.measured));
        let of_stock = self.stock.iter().map(|line| (&line.age, &line.measured));
        let made = self.scenarios.iter().filter_map(|scenario| scenario.age.as_ref()?.made_on());
        let both = of_products.chain(of_stock);
        both.flat_map(|(age, test)| [age.as_ref().and_then(Age::made_on), test.as_ref().and_then(|test| test.date)])
            .flatten()
            .chain(made)
    }

    /// The depots that stock, counts of packages or a crew are stated for, each as it is first spelled.
    pub fn stated_depots(&self) -> Vec<String> {
        let mut depots: Vec<String> = Vec::new();
        let of_stock = self.stock.iter().map(|line| &line.depot);
        let of_counts = self.buy.iter().map(|line| &line.depot).filter(|depot| !depot.is_empty());
        for stated in of_stock.chain(of_counts).chain(self.crews.iter().filter_map(|crew| crew.depot.as_ref())) {
            if !depots.iter().any(|depot| is_same(depot, stated)) {
                depots.push(stated.clone());
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
                    super::section::near(wanted, &known),
                    known.join(" | ")
                )));
            }
        }
        let asked = |scenario: &&Scenario| only.is_empty() || only.iter().any(|wanted| scenario.answers_to(wanted));
        Ok(self.scenarios.iter().filter(asked).collect())
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

/// What is taken for a text of the campaign that is not stated.
fn taken(key: &str) -> String {
    match CAMPAIGN.get(key).map(|parameter| parameter.default) {
        Some(Taken::Word(word) | Taken::Words(word)) => word.to_owned(),
        _ => String::new(),
    }
}

fn nothing(path: &Path) -> Error {
    Error::input(path, "it states no campaign")
}

fn read_head(file: &Section<'_>) -> Head {
    let mut head = Head {
        title: taken("title"),
        // Only until the refusal is told, where no system can be read.
        system: UnitSystem::Us,
        group_by: Vec::new(),
        group_by_spot: None,
        currency: taken("currency"),
        outsized: OutsizedRule::default(),
        bounding_box: None,
    };
    let Some(section) = file.section("campaign") else {
        if !file.has("campaign") {
            file.fault("the file needs a [campaign] with `units = \"us\"`, \"metric\" or \"imperial\"");
        }
        return head;
    };
    section.finish();
    head.title = section.text("title").unwrap_or(head.title);
    if section.has("units") {
        head.system = rules::system_stated(&section, "units").unwrap_or(head.system);
    } else {
        section.fault(UNITS_OPEN.replace("\"Units\"", "`units`"));
    }
    head.group_by = section.texts("group_by").unwrap_or_default().into_iter().map(|(column, _)| column).collect();
    head.group_by_spot = Some(section.spot_of("group_by"));
    head.currency = section.text("currency").unwrap_or(head.currency);
    if let Some(numbers) = section.numbers("bounding_box") {
        head.bounding_box = match <[f64; 4]>::try_from(numbers) {
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
                section.fault_of("bounding_box", reason);
                None
            }
        };
    }
    if let Some(table) = section.section("outsized") {
        table.finish();
        head.outsized.share_of_depot = table.number("share_of_depot").unwrap_or(head.outsized.share_of_depot);
        head.outsized.times_median = table.number("times_median").unwrap_or(head.outsized.times_median);
    }
    head
}

fn read_exclude(section: &Section<'_>) -> Option<Exclude> {
    let exclude = section.flag("exclude");
    let reason = section.text("reason").map(|reason| reason.trim().to_owned());
    match (exclude, reason) {
        (Some(true), Some(reason)) if !reason.is_empty() => Some(Exclude::Out(reason.into())),
        (Some(true), _) => {
            section.fault("`exclude = true` needs `reason = \"…\"`: it stands beside each visit left out");
            None
        }
        (_, Some(_)) => {
            section.fault_of("reason", "`reason` stands only beside `exclude = true`");
            None
        }
        (Some(false), None) => Some(Exclude::In),
        (None, None) => None,
    }
}

fn read_overrides(file: &Section<'_>, system: UnitSystem) -> Vec<Override> {
    let sections = file.sections("override");
    if let Some(beyond) = sections.get(MAX_OVERRIDES) {
        beyond.fault(format!("a file may have at most {MAX_OVERRIDES} overrides"));
    }
    sections.iter().filter_map(|section| read_override(section, system)).collect()
}

fn read_override(section: &Section<'_>, system: UnitSystem) -> Option<Override> {
    section.finish();
    let condition = section.needed_text("where");
    let spot = section.spot_of("where");
    let exclude = read_exclude(section);
    if !section.has("set") && !section.has("exclude") && !section.has("reason") {
        section.fault("an [[override]] needs `set = { … }` with practice keys, or `exclude = true` with `reason`");
    }
    let mut settings = Vec::new();
    if let Some(set) = section.section("set") {
        set.finish();
        settings = Setting::read_all(&set, system);
        if set.entries().next().is_none() {
            set.fault("`set` changes nothing");
        }
    }
    Some(Override { condition: condition?, spot, settings, exclude })
}
