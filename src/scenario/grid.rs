//! From `[[scenario]]` and `[grid]` to the ordered list of scenarios.
//!
//! The listed scenarios come first, in order, then the grid's crossing with the last axis turning fastest. With neither,
//! each product of the file is a scenario; without any there is none, which is enough for checking lists. Numbers count through the full definition.

use super::practice::Setting;
use super::product::{Age, Products, Storage};
use super::section::{Section, near};
use super::stated::{Entry, Stated, Table};
use crate::field::rules::UnitSystem;

/// How many scenarios a file may define.
pub const MAX_SCENARIOS: usize = 10_000;

/// One scenario: a product, an age, and changes to the practice.
#[derive(Debug, Clone)]
pub struct Scenario {
    /// Number in the full definition, from 1.
    pub number: usize,
    /// Its name; no two are the same.
    pub name: String,
    /// Index into the products of the campaign.
    pub product: usize,
    /// Age of the stock, where the scenario sets it.
    pub age: Option<Age>,
    /// Storage, where the scenario sets it.
    pub storage: Option<Storage>,
    /// Changes to the practice.
    pub settings: Vec<Setting>,
}

impl Scenario {
    /// Whether this is the scenario a person means: by name, or by number as `S3`.
    pub(super) fn answers_to(&self, wanted: &str) -> bool {
        self.name == wanted || wanted.strip_prefix('S').is_some_and(|number| number == self.number.to_string())
    }
}

/// One step of an axis: a few words and what it changes.
#[derive(Clone)]
struct Step {
    label: String,
    product: Option<usize>,
    age: Option<Age>,
    storage: Option<Storage>,
    settings: Vec<Setting>,
}

/// Every scenario of the file; built-in products that are named join `products`.
pub(super) fn expand(file: &Section<'_>, system: UnitSystem, products: &mut Products) -> Vec<Scenario> {
    let mut scenarios: Vec<Scenario> = Vec::new();
    for section in file.sections("scenario") {
        section.finish();
        let name = section.needed_text("name");
        let product = section.needed_text("product").and_then(|wanted| products.named(&section, "product", &wanted));
        let age = Age::read(&section);
        let storage = Storage::read(&section);
        let settings = Setting::read_all(&section, system);
        let Some(name) = name else { continue };
        if scenarios.iter().any(|other| other.name == name) {
            section.fault_of("name", format!("a second scenario named {name:?}"));
        }
        let Some(product) = product else { continue };
        scenarios.push(Scenario { number: scenarios.len() + 1, name, product, age, storage, settings });
    }
    if let Some(section) = file.section("grid") {
        cross(&section, system, products, &mut scenarios);
    }
    if scenarios.is_empty() {
        scenarios = products
            .listed
            .iter()
            .enumerate()
            .map(|(index, product)| Scenario {
                number: index + 1,
                name: product.name.clone(),
                product: index,
                age: None,
                storage: None,
                settings: Vec::new(),
            })
            .collect();
    }
    scenarios
}

fn cross(section: &Section<'_>, system: UnitSystem, products: &mut Products, scenarios: &mut Vec<Scenario>) {
    let mut axes: Vec<Vec<Step>> = Vec::new();
    let mut is_whole = true;
    for (key, key_at, stated) in section.entries() {
        if section.vocabulary().get(key).is_none() {
            let known: Vec<&str> = section.vocabulary().all().map(|parameter| parameter.key).collect();
            let reason = format!("unknown axis `{key}` in [grid]{}; axes: {}", near(key, &known), known.join(", "));
            section.fault_at(key_at, reason);
            continue;
        }
        let Some(elements) = stated.value.list() else {
            section.fault_at(&stated.at, format!("`{key}` in [grid] must be a list of values"));
            continue;
        };
        if elements.is_empty() {
            section.fault_at(&stated.at, format!("`{key}` in [grid] is an empty list"));
        }
        let steps: Vec<Option<Step>> =
            elements.iter().map(|element| step(section, system, products, key, element)).collect();
        is_whole &= steps.iter().all(Option::is_some);
        axes.push(steps.into_iter().flatten().collect());
    }
    if !section.has("product") {
        // Without a product axis the grid is crossed with every product of the file.
        let steps = products.listed.iter().enumerate().map(|(index, product)| Step {
            label: product.name.clone(),
            product: Some(index),
            age: None,
            storage: None,
            settings: Vec::new(),
        });
        axes.insert(0, steps.collect());
    }
    let count = axes.iter().try_fold(1_usize, |count, axis| count.checked_mul(axis.len())).unwrap_or(usize::MAX);
    if count.saturating_add(scenarios.len()) > MAX_SCENARIOS {
        section.fault(format!("the grid makes {count} scenarios; at most {MAX_SCENARIOS} can be planned"));
        return;
    }
    if !is_whole {
        return; // Names of what is left would be told as repeated.
    }
    for mut rank in 0..count {
        let mut chosen: Vec<&Step> = Vec::with_capacity(axes.len());
        for axis in axes.iter().rev() {
            chosen.push(&axis[rank % axis.len()]);
            rank /= axis.len();
        }
        chosen.reverse();
        let name = chosen.iter().map(|step| step.label.as_str()).collect::<Vec<_>>().join(", ");
        if scenarios.iter().any(|other| other.name == name) {
            section.fault(format!("the grid makes a second scenario named {name:?}"));
            return;
        }
        scenarios.push(Scenario {
            number: scenarios.len() + 1,
            name,
            product: chosen.iter().find_map(|step| step.product).unwrap_or_default(),
            age: chosen.iter().find_map(|step| step.age.clone()),
            storage: chosen.iter().find_map(|step| step.storage.clone()),
            settings: chosen.iter().flat_map(|step| step.settings.clone()).collect(),
        });
    }
}

fn step(
    section: &Section<'_>,
    system: UnitSystem,
    products: &mut Products,
    key: &str,
    element: &Stated,
) -> Option<Step> {
    let mut step = Step { label: String::new(), product: None, age: None, storage: None, settings: Vec::new() };
    // An element is read as if it stood alone under its key, so that an axis means what the key means anywhere else.
    let entry = Entry { key: key.to_owned(), key_at: element.at.clone(), stated: element.clone() };
    let table = Table { entries: vec![entry] };
    let alone = section.alone("[grid]", element.at.clone(), &table);
    match key {
        "product" => {
            let name = alone.needed_text("product")?;
            step.product = Some(products.named(&alone, "product", &name)?);
            step.label = name;
        }
        "age_days" => {
            step.age = Some(Age::read(&alone)?);
            step.label = format!("{} days old", alone.number("age_days").unwrap_or_default());
        }
        "storage" => {
            step.storage = Some(Storage::read(&alone)?);
            step.label = match element.value.text() {
                Some(text) => format!("at {text}"),
                None => "stored by a temperature history".to_owned(),
            };
        }
        _ => {
            step.settings = Setting::read_all(&alone, system);
            let labels: Vec<&str> = step.settings.iter().map(|setting| setting.label.as_str()).collect();
            step.label = labels.join(", ");
            step.settings.first()?;
        }
    }
    Some(step)
}
