//! What can be bought and what is there already: packages, stock, neutralizers, supplies that go with a visit.
//!
//! Read from the scenario file, used by the roll-up. Knows nothing of wells.

use super::practice::agent_named;
use super::written::{Section, near};
use crate::error::Result;
use crate::field::names::is_same;
use crate::kernel::neutralizer::Agent;
use crate::quantity::unit::{Dimension, Gallon};

/// Whether something is bought by volume or by mass; amounts are litres or kilograms accordingly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum BoughtBy {
    /// Litres.
    Volume,
    /// Kilograms.
    Mass,
}

impl BoughtBy {
    /// Dimension of a package size.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Volume => Dimension::Volume,
            Self::Mass => Dimension::Mass,
        }
    }

    /// Unit symbol of amounts.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Volume => "L",
            Self::Mass => "kg",
        }
    }

    /// Amount (L or kg) of an SI value (m³ or kg).
    pub const fn amount(self, si: f64) -> f64 {
        match self {
            Self::Volume => si * 1000.0,
            Self::Mass => si,
        }
    }
}

/// A whole package.
#[derive(Debug, Clone, PartialEq)]
pub struct Package {
    /// The size as written: `5 US gal`.
    pub text: String,
    /// Litres or kilograms of product in it.
    pub amount: f64,
    /// Price of one, in the campaign's currency.
    pub price: Option<f64>,
    /// How many can be had in all, over every depot.
    pub available: Option<u32>,
}

/// Stock of a product at a depot.
#[derive(Debug, Clone, PartialEq)]
pub struct StockLine {
    /// The depot, as it is written in the list.
    pub depot: String,
    /// Name of the product or of the neutralizing agent.
    pub item: String,
    /// There already: litres or kilograms.
    pub on_hand: f64,
    /// Ordered already.
    pub on_order: f64,
}

/// Packages of a neutralizing agent.
#[derive(Debug, Clone, PartialEq)]
pub struct NeutralizerSupply {
    /// The agent.
    pub agent: Agent,
    /// Its packages.
    pub packages: Vec<Package>,
}

/// Something counted that goes with each visit: test strips, sample bottles, gloves.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyLine {
    /// What it is.
    pub name: String,
    /// How many a visit.
    pub per_visit: f64,
    /// How many in a package.
    pub package_of: f64,
    /// Price of a package.
    pub price: Option<f64>,
}

/// Reads `packages = [{ size, price, available }]`.
///
/// # Errors
/// A size that is no quantity of the right dimension, or not more than zero.
pub fn read_packages(section: &Section<'_>, by: BoughtBy, gallon: Option<Gallon>) -> Result<Vec<Package>> {
    section
        .sections("packages")?
        .iter()
        .map(|package| {
            let text = package.required_text("size")?;
            let si = package.quantity("size", by.dimension(), gallon)?.unwrap_or_default();
            if si <= 0.0 {
                return Err(package.error_at(&package.span_of("size"), "a package size must be more than zero"));
            }
            let price = package.number_within("price", (0.0, f64::INFINITY))?;
            let available = package.number_within("available", (0.0, 1e9))?;
            if available.is_some_and(|count| count.fract() != 0.0) {
                let reason = "`available` counts whole packages";
                return Err(package.error_at(&package.span_of("available"), reason));
            }
            package.finish()?;
            Ok(Package { text, amount: by.amount(si), price, available: available.map(|count| count as u32) })
        })
        .collect()
}

/// Reads `[[stock]]`; `items` are the products and agents there are, with how each is bought.
///
/// # Errors
/// An unknown product, or an amount of the wrong dimension.
pub fn read_stock(file: &Section<'_>, items: &[(String, BoughtBy)], gallon: Option<Gallon>) -> Result<Vec<StockLine>> {
    file.sections("stock")?
        .iter()
        .map(|line| {
            let depot = line.required_text("depot")?;
            let item = line.required_text("product")?;
            let exact = items.iter().find(|(name, _)| *name == item);
            let Some((item, by)) = exact.or_else(|| items.iter().find(|(name, _)| is_same(name, &item))) else {
                let known: Vec<&str> = items.iter().map(|(name, _)| name.as_str()).collect();
                let reason = format!("no product {item:?}{}; known: {}", near(&item, &known), known.join(", "));
                return Err(line.error_at(&line.span_of("product"), reason));
            };
            let amount = |key| -> Result<f64> {
                let si = line.quantity(key, by.dimension(), gallon)?.unwrap_or(0.0);
                if si < 0.0 {
                    return Err(line.error_at(&line.span_of(key), "a stock must not be negative"));
                }
                Ok(by.amount(si))
            };
            let (on_hand, on_order) = (amount("on_hand")?, amount("on_order")?);
            line.finish()?;
            Ok(StockLine { depot, item: item.clone(), on_hand, on_order })
        })
        .collect()
}

/// Reads `[[neutralizer]]`.
///
/// # Errors
/// An unknown agent or a bad package.
pub fn read_neutralizers(file: &Section<'_>, gallon: Option<Gallon>) -> Result<Vec<NeutralizerSupply>> {
    file.sections("neutralizer")?
        .iter()
        .map(|line| {
            let name = line.required_text("agent")?;
            let agent = agent_named(line, "agent", &name)?;
            let packages = read_packages(line, BoughtBy::Mass, gallon)?;
            line.finish()?;
            Ok(NeutralizerSupply { agent, packages })
        })
        .collect()
}

/// Reads `[[supply]]`.
///
/// # Errors
/// A missing name, or a count that makes no sense.
pub fn read_supplies(file: &Section<'_>) -> Result<Vec<SupplyLine>> {
    let mut names: Vec<String> = Vec::new();
    file.sections("supply")?
        .iter()
        .map(|line| {
            let name = line.required_text("name")?;
            if names.iter().any(|other| is_same(other, &name)) {
                return Err(line.error_at(&line.span_of("name"), format!("a second supply named {name:?}")));
            }
            names.push(name.clone());
            let per_visit = line.number_within("per_visit", (0.0, 1e4))?.unwrap_or(1.0);
            let package_of = line.number_within("package_of", (1.0, 1e6))?.unwrap_or(1.0);
            let price = line.number_within("price", (0.0, f64::INFINITY))?;
            line.finish()?;
            Ok(SupplyLine { name, per_visit, package_of, price })
        })
        .collect()
}
