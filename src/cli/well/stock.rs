//! Product and agent of the prompt: by a name as people type it, or by a strength alone.

use uom::si::f64::{ThermodynamicTemperature, Time};
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::day;

use super::quantity;
use crate::cli::args::Well as Options;
use crate::error::{Error, Result};
use crate::field::names::is_same;
use crate::field::rules::UnitSystem;
use crate::kernel::neutralizer::Agent;
use crate::kernel::strength::{Chemical, StrengthBasis, USUAL_CAUSTIC_PERCENT};
use crate::quantity::format::number;
use crate::quantity::unit::Dimension;
use crate::scenario::Campaign;
use crate::scenario::product::{Age, Counted, LabelStrength, Product, Storage, StorageLeg, built_in_products};
use crate::scenario::section::near;

/// The agent of a name: of a scenario file, or as it is printed; what several are called is asked.
pub(super) fn agent(typed: &str) -> Result<Agent> {
    let words = |text: &str| {
        text.replace(['_', ',', '(', ')'], " ").split_whitespace().map(str::to_lowercase).collect::<Vec<_>>()
    };
    let wanted = words(typed);
    let names = |agent: Agent| {
        let plain = agent.plain_name();
        // `ascorbic acid (vitamin C)` is called by either.
        let (first, second) = plain.split_once('(').unwrap_or((plain, plain));
        [words(agent.name()), words(plain), words(first), words(second)]
    };
    let mut same = Agent::ALL.into_iter().filter(|agent| names(*agent).contains(&wanted));
    if let (Some(agent), None) = (same.next(), same.next()) {
        return Ok(agent);
    }
    let begins = |agent: &Agent| {
        names(*agent).iter().any(|name| !wanted.is_empty() && name.windows(wanted.len()).any(|part| part == wanted))
    };
    let known: Vec<&str> = Agent::ALL.iter().map(|agent| agent.name()).collect();
    match Agent::ALL.into_iter().filter(begins).collect::<Vec<_>>().as_slice() {
        [agent] => Ok(*agent),
        [] => {
            Err(Error::request(format!("no neutralizer {typed:?}{}; known: {}", near(typed, &known), known.join(", "))))
        }
        several => {
            let several: Vec<String> =
                several.iter().map(|agent| format!("{} ({})", agent.name(), agent.plain_name())).collect();
            Err(Error::request(format!("--neutralizer {typed:?} may be {}: say which", several.join(" or "))))
        }
    }
}

/// The product that is meant, with the age and storage that were typed.
pub(super) fn product(options: &Options, campaign: Option<&Campaign>) -> Result<Product> {
    let mut product = match (&options.product, options.strength, &options.basis) {
        (Some(name), ..) => {
            let known: Vec<Product> = campaign
                .map(|campaign| campaign.products.clone())
                .unwrap_or_default()
                .into_iter()
                .chain(built_in_products()?)
                .collect();
            // Spelled as it is, or as people type it.
            let exact = known.iter().find(|product| product.name == *name);
            match exact.or_else(|| known.iter().find(|product| is_same(&product.name, name))) {
                Some(product) => product.clone(),
                None => {
                    let names: Vec<&str> = known.iter().map(|product| product.name.as_str()).collect();
                    return Err(Error::request(format!(
                        "no product {name:?}{}; products: {}",
                        near(name, &names),
                        names.join(", ")
                    )));
                }
            }
        }
        (None, Some(strength), Some(basis)) => labelled(strength, basis)?,
        _ => {
            return Err(Error::request(
                "name a product with --product (see `aftercrest products`), or give --strength and --basis",
            ));
        }
    };
    if let (Some(days), Some(_)) = (options.age_days, &options.storage) {
        if !(0.0..=36_525.0).contains(&days) {
            return Err(Error::request(format!("--age-days must lie from 0 to 36525, not {days}")));
        }
        product.age = Some(Age { counted: Counted::Time(Time::new::<day>(days)), spot: None });
    }
    if let Some(si) = quantity("storage", options.storage.as_deref(), Dimension::Temperature, UnitSystem::Metric)? {
        if !(243.15..=343.15).contains(&si) {
            return Err(Error::request("--storage must lie from -30 C to 70 C"));
        }
        let temperature = ThermodynamicTemperature::new::<kelvin>(si);
        product.storage = Some(Storage { legs: vec![StorageLeg { time: None, temperature }] });
    }
    Ok(product)
}

/// The basis of a name as people write it: `available chlorine`, `weight NaOCl`; nothing where several end so.
fn basis_called(typed: &str) -> Option<StrengthBasis> {
    let wanted = typed.trim().to_lowercase().replace([' ', '-'], "_");
    let mut ending = StrengthBasis::ALL.into_iter().filter(|basis| basis.name().ends_with(&format!("_{wanted}")));
    let only = ending.next().filter(|_| ending.next().is_none() && !wanted.is_empty());
    StrengthBasis::by_name(&wanted).or(only)
}

/// A product known by its strength alone.
fn labelled(percent: f64, basis: &str) -> Result<Product> {
    let (chemical, basis) = match (basis, basis_called(basis)) {
        ("dry", _) => (Chemical::CalciumHypochlorite, StrengthBasis::WeightAvailableChlorine),
        (_, Some(basis)) => (Chemical::SodiumHypochlorite, basis),
        (other, None) => {
            let known: Vec<&str> =
                StrengthBasis::ALL.iter().map(|basis| basis.name()).chain(std::iter::once("dry")).collect();
            return Err(Error::request(format!(
                "no basis {other:?}{}; known: {}",
                near(other, &known),
                known.join(", ")
            )));
        }
    };
    let label = LabelStrength::possible(percent, basis, chemical)
        .map_err(|rule| Error::request(format!("--strength must {rule}")))?;
    Ok(Product {
        name: match basis {
            StrengthBasis::GramsPerLiter => format!("product of {percent} g/L"),
            _ => format!("product of {percent} % {}", basis.name().replace('_', " ")),
        },
        chemical,
        label,
        caustic_percent: USUAL_CAUSTIC_PERCENT,
        bulk_density: None,
        age: None,
        storage: None,
        measured: None,
        packages: Vec::new(),
        label_text: None,
        source: None,
    })
}

/// What the same number on a liquid's label would mean on each basis, because labels do not say.
pub(super) fn readings(product: &Product) -> Option<(String, String)> {
    if !product.chemical.is_liquid() || product.label.basis == StrengthBasis::GramsPerLiter {
        return None;
    }
    let meanings = crate::kernel::strength::other_meanings(product.label.number, product.caustic_percent);
    let texts = StrengthBasis::ALL
        .iter()
        .zip(meanings)
        .filter(|(basis, _)| **basis != StrengthBasis::GramsPerLiter)
        .filter_map(|(basis, strength)| {
            Some(format!("{} g/L if {}", number(strength?.grams_per_liter(), 3), meaning(*basis)))
        });
    let texts = format!("{} % means {}.", product.label.number, texts.collect::<Vec<_>>().join(", "));
    Some((texts, format!("taken as {} % {}", product.label.number, meaning(product.label.basis))))
}

/// What a percent on a label counts.
const fn meaning(basis: StrengthBasis) -> &'static str {
    match basis {
        StrengthBasis::Trade => "trade (weight by volume)",
        StrengthBasis::WeightNaocl => "NaOCl by weight",
        StrengthBasis::WeightAvailableChlorine => "available chlorine by weight",
        StrengthBasis::GramsPerLiter => "g/L",
    }
}
