//! What can be bought: packages, neutralizers, supplies that go with a visit.
//!
//! Read from the scenario file, used by the roll-up. Knows nothing of wells.

use super::section::Section;
use crate::kernel::neutralizer::Agent;
use crate::kernel::strength::Chemical;
use crate::parameter::NO_SUPPLIER;
use crate::quantity::unit::{Dimension, Gallon};

/// Whether something is bought by volume or by mass; amounts are liters or kilograms accordingly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum BoughtBy {
    /// A liquid product: its amounts are in liters.
    Volume,
    /// A dry product or a neutralizing agent: its amounts are in kilograms.
    Mass,
}

impl BoughtBy {
    /// How something with this in it is bought; a neutralizing agent has none.
    pub fn of(chemical: Option<Chemical>) -> Self {
        if chemical.is_some_and(Chemical::is_liquid) { Self::Volume } else { Self::Mass }
    }

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

    /// SI value (m³ or kg) of an amount (L or kg).
    pub const fn si(self, amount: f64) -> f64 {
        match self {
            Self::Volume => amount / 1000.0,
            Self::Mass => amount,
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

/// A package as it is sold: orders are for whole ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Package {
    /// The size as written: `5 US gal`.
    pub text: String,
    /// Liters or kilograms of product in it.
    pub amount: f64,
    /// Price of one, in the campaign's currency.
    pub price: Option<f64>,
    /// How many can be had in all, over every depot.
    pub available: Option<u32>,
    /// Who sells it; nothing where the campaign does not say.
    pub supplier: Option<String>,
}

impl Package {
    /// Who sells it, or that this is not stated.
    pub fn sold_by(&self) -> &str {
        sold_by(self.supplier.as_deref())
    }
}

/// A supplier, or that it is not stated.
pub fn sold_by(supplier: Option<&str>) -> &str {
    supplier.unwrap_or(NO_SUPPLIER)
}

/// Something that stock may be of.
#[derive(Debug, Clone, Copy)]
pub(super) struct StockItem<'a> {
    pub(super) name: &'a str,
    /// What is in a product; nothing of a neutralizing agent.
    pub(super) chemical: Option<Chemical>,
}

impl StockItem<'_> {
    pub(super) fn bought_by(&self) -> BoughtBy {
        BoughtBy::of(self.chemical)
    }
}

/// Packages of a neutralizing agent.
#[derive(Debug, Clone, PartialEq)]
pub struct NeutralizerSupply {
    /// The agent that is in these packages.
    pub agent: Agent,
    /// The packages that it is sold in, sized by weight.
    pub packages: Vec<Package>,
}

/// Something counted that goes with each visit: test strips, sample bottles, gloves.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyLine {
    /// What people call it; no two supplies of a campaign have the same name.
    pub name: String,
    /// How many pieces each visit takes.
    pub per_visit: f64,
    /// How many pieces a package holds.
    pub package_of: f64,
    /// Price of a package.
    pub price: Option<f64>,
    /// Who sells it; nothing where the campaign does not say.
    pub supplier: Option<String>,
}

impl SupplyLine {
    /// The package that it comes in.
    pub fn package(&self) -> Package {
        Package {
            text: format!("package of {}", self.package_of),
            amount: self.package_of,
            price: self.price,
            available: None,
            supplier: self.supplier.clone(),
        }
    }
}

/// Reads `packages = [{ size, price, available }]`.
pub fn read_packages(section: &Section<'_>, by: BoughtBy, gallon: Option<Gallon>) -> Vec<Package> {
    let mut known: Vec<(String, Option<String>)> = Vec::new();
    let mut read = |package: &Section<'_>| {
        package.finish();
        let supplier = supplier(package);
        let text = package.needed_text("size");
        if let Some(text) = &text {
            let kind = (text.clone(), supplier.clone());
            if known.contains(&kind) {
                package.fault_of("size", format!("a second package of {text} from the same supplier"));
            }
            known.push(kind);
        }
        let size = text.as_ref().and_then(|_| package.quantity_as("size", by.dimension(), gallon));
        let (price, available) = (package.number("price"), package.number("available"));
        let available = available.map(|count| count as u32);
        Some(Package { text: text?, amount: by.amount(size?), price, available, supplier })
    };
    section.sections("packages").iter().filter_map(&mut read).collect()
}

fn supplier(section: &Section<'_>) -> Option<String> {
    section.text("supplier").map(|name| name.trim().to_owned()).filter(|name| !name.is_empty() && name != NO_SUPPLIER)
}

/// Reads `[[neutralizer]]`; the sizes of its packages are weights.
pub fn read_neutralizers(file: &Section<'_>, gallon: Option<Gallon>) -> Vec<NeutralizerSupply> {
    let read = |line: &Section<'_>| {
        line.finish();
        let agent = line.needed_text("agent").and_then(|_| line.word("agent")).and_then(Agent::by_name);
        let packages = read_packages(line, BoughtBy::Mass, gallon);
        Some(NeutralizerSupply { agent: agent?, packages })
    };
    file.sections("neutralizer").iter().filter_map(read).collect()
}

/// Reads `[[supply]]`; where counts are left out, a visit takes one piece and a package holds one.
pub fn read_supplies(file: &Section<'_>) -> Vec<SupplyLine> {
    let mut names: Vec<String> = Vec::new();
    let read = |line: &Section<'_>| {
        line.finish();
        let name = line.own_name("supply", &mut names);
        let per_visit = line.number("per_visit").unwrap_or(1.0);
        let package_of = line.number("package_of").unwrap_or(1.0);
        let (price, supplier) = (line.number("price"), supplier(line));
        Some(SupplyLine { name: name?, per_visit, package_of, price, supplier })
    };
    file.sections("supply").iter().filter_map(read).collect()
}
