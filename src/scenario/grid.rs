//! From `[[scenario]]` and `[grid]` to the ordered list of scenarios.
//!
//! The listed scenarios come first, in order, then the grid's crossing with the last axis turning fastest. With neither,
//! each product of the file is a scenario; without any there is none, which is enough for checking lists. Numbers count through the full definition.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::campaign::{MAX_SCENARIOS, Scenario};
use super::practice::{KEYS, Setting};
use super::product::{Age, Product, Storage};
use super::written::{Section, near};
use crate::error::Result;
use crate::field::names::is_same;
use crate::field::rules::UnitSystem;

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
///
/// # Errors
/// An unknown product, an unknown key, or two scenarios of one name.
pub(super) fn expand(
    file: &Section<'_>,
    system: UnitSystem,
    products: &mut Vec<Product>,
    built_in: Vec<Product>,
) -> Result<Vec<Scenario>> {
    let mut scenarios: Vec<Scenario> = Vec::new();
    for section in file.sections("scenario")? {
        let name = section.required_text("name")?;
        let wanted = section.required_text("product")?;
        let product = product_named(&section, &section.span_of("product"), &wanted, products, &built_in)?;
        let age = Age::read(&section)?;
        let storage = Storage::read(&section)?;
        let settings = Setting::read_all(&section, system)?;
        section.finish()?;
        if scenarios.iter().any(|other| other.name == name) {
            return Err(section.error_at(&section.span_of("name"), format!("a second scenario named {name:?}")));
        }
        scenarios.push(Scenario { number: scenarios.len() + 1, name, product, age, storage, settings });
    }
    if let Some(section) = file.section("grid")? {
        cross(&section, system, products, &built_in, &mut scenarios)?;
    }
    if scenarios.is_empty() {
        scenarios = products
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
    Ok(scenarios)
}

fn product_named(
    section: &Section<'_>,
    span: &std::ops::Range<usize>,
    name: &str,
    products: &mut Vec<Product>,
    built_in: &[Product],
) -> Result<usize> {
    let named = |wanted: fn(&str, &str) -> bool| products.iter().position(|product| wanted(&product.name, name));
    if let Some(index) = named(|one, other| one == other).or_else(|| named(is_same)) {
        return Ok(index);
    }
    if let Some(product) = built_in.iter().find(|product| product.name == name) {
        products.push(product.clone());
        return Ok(products.len() - 1);
    }
    let known: Vec<&str> = products.iter().chain(built_in).map(|product| product.name.as_str()).collect();
    Err(section.error_at(span, format!("no product {name:?}{}; known: {}", near(name, &known), known.join(", "))))
}

fn cross(
    section: &Section<'_>,
    system: UnitSystem,
    products: &mut Vec<Product>,
    built_in: &[Product],
    scenarios: &mut Vec<Scenario>,
) -> Result<()> {
    let mut axes: Vec<Vec<Step>> = Vec::new();
    for (key, span, value) in section.entries() {
        let Some(elements) = value.get_ref().as_array() else {
            return Err(section.error_at(&value.span(), format!("`{key}` in [grid] must be a list of values")));
        };
        if elements.is_empty() {
            return Err(section.error_at(&value.span(), format!("`{key}` in [grid] is an empty list")));
        }
        let steps = elements.iter().map(|element| step(section, system, products, built_in, key, &span, element));
        axes.push(steps.collect::<Result<_>>()?);
    }
    if !section.entries().iter().any(|(key, ..)| *key == "product") {
        // Without a product axis the grid is crossed with every product of the file.
        let steps = products.iter().enumerate().map(|(index, product)| Step {
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
        return Err(section.error(format!("the grid makes {count} scenarios; at most {MAX_SCENARIOS} can be planned")));
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
            return Err(section.error(format!("the grid makes a second scenario named {name:?}")));
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
    Ok(())
}

fn step(
    section: &Section<'_>,
    system: UnitSystem,
    products: &mut Vec<Product>,
    built_in: &[Product],
    key: &str,
    span: &std::ops::Range<usize>,
    element: &Spanned<DeValue<'_>>,
) -> Result<Step> {
    let mut step = Step { label: String::new(), product: None, age: None, storage: None, settings: Vec::new() };
    // An element is read as if it stood alone under its key, so that an axis means what the key means anywhere else.
    let mut table = DeTable::new();
    table.insert(Spanned::new(span.clone(), key.into()), element.clone());
    let alone = Section::new(section.source(), "[grid]", element.span(), &table);
    match key {
        "product" => {
            let name = alone.required_text("product")?;
            step.product = Some(product_named(&alone, &element.span(), &name, products, built_in)?);
            step.label = name;
        }
        "age_days" => {
            step.age = Age::read(&alone)?;
            step.label = format!("{} days old", alone.number("age_days")?.unwrap_or_default());
        }
        "storage" => {
            step.storage = Storage::read(&alone)?;
            step.label = match alone.value("storage").and_then(|value| value.get_ref().as_str().map(str::to_owned)) {
                Some(text) => format!("at {text}"),
                None => "stored by a temperature history".to_owned(),
            };
        }
        key if KEYS.contains(&key) => {
            step.settings = Setting::read_all(&alone, system)?;
            step.label = step.settings.iter().map(|setting| setting.label.as_str()).collect::<Vec<_>>().join(", ");
        }
        other => {
            let known: Vec<&str> = ["product", "age_days", "storage"].into_iter().chain(KEYS).collect();
            let reason = format!("unknown axis `{other}` in [grid]{}; axes: {}", near(other, &known), known.join(", "));
            return Err(section.error_at(span, reason));
        }
    }
    Ok(step)
}
