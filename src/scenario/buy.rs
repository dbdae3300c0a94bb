//! Counts of packages that somebody settled on, in place of those that cover a need at least cost.
//!
//! Read from `[[buy]]` against what is sold; the roll-up orders by it. Refuses to know what is needed.

use super::product::Product;
use super::section::{Section, near};
use super::supply::{NeutralizerSupply, Package, SupplyLine};
use crate::field::names::is_same;
use crate::kernel::neutralizer::Agent;

/// So many packages of one kind for one item of one depot's order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BuyLine {
    /// Number of the scenario in the full definition, from 1.
    pub scenario: usize,
    /// The depot, as it is written in the list; blank for visits without one.
    pub depot: String,
    /// Name of the product, the neutralizing agent or the supply.
    pub item: String,
    /// Place of the kind among the item's packages.
    pub kind: usize,
    /// How many are bought.
    pub count: u32,
}

/// What is sold, and under which scenario.
pub(super) struct Sold<'a> {
    /// Name and place of the product of each.
    pub(super) scenarios: Vec<(&'a str, usize)>,
    pub(super) products: &'a [Product],
    pub(super) neutralizers: &'a [NeutralizerSupply],
    pub(super) supplies: &'a [SupplyLine],
}

impl Sold<'_> {
    /// The items of a scenario's order with their kinds of package.
    fn items(&self, product: usize) -> Vec<(String, Vec<Package>)> {
        let product = self.products.get(product);
        let mut items: Vec<(String, Vec<Package>)> =
            product.map(|product| (product.name.clone(), product.packages.clone())).into_iter().collect();
        items.extend(self.neutralizers.iter().map(|line| (line.agent.name().to_owned(), line.packages.clone())));
        items.extend(self.supplies.iter().map(|supply| (supply.name.clone(), vec![supply.package()])));
        items
    }
}

/// Reads `[[buy]]`; a package counted twice for a depot, or more than can be had, is a fault.
pub(super) fn read_buy(file: &Section<'_>, sold: &Sold<'_>) -> Vec<BuyLine> {
    let mut lines: Vec<BuyLine> = Vec::new();
    for section in file.sections("buy") {
        let Some(line) = read_line(&section, sold) else { continue };
        let is_it =
            |known: &&BuyLine| (known.scenario, &known.item, known.kind) == (line.scenario, &line.item, line.kind);
        if lines.iter().filter(is_it).any(|known| is_same(&known.depot, &line.depot)) {
            section.fault("a second count of the same package for the same depot and scenario");
        }
        let available = sold.scenarios.get(line.scenario - 1).and_then(|(_, product)| {
            let (_, packages) = sold.items(*product).into_iter().find(|(name, _)| *name == line.item)?;
            packages.get(line.kind)?.available
        });
        let in_all = lines.iter().filter(is_it).fold(line.count, |sum, known| sum.saturating_add(known.count));
        if let Some(available) = available.filter(|available| in_all > *available) {
            section.fault_of("count", format!("{in_all} are to be bought in all, and {available} can be had"));
        }
        lines.push(line);
    }
    lines
}

fn read_line(section: &Section<'_>, sold: &Sold<'_>) -> Option<BuyLine> {
    section.finish();
    let (of, item) = (section.needed_text("scenario"), section.needed_text("item"));
    let depot = section.text("depot").unwrap_or_default().trim().to_owned();
    if !section.has("count") {
        section.fault("[[buy]] needs `count`");
    }
    let count = section.number("count");
    let of = of?;
    let Some(place) = sold.scenarios.iter().position(|(name, _)| *name == of) else {
        let known: Vec<&str> = sold.scenarios.iter().map(|(name, _)| *name).collect();
        section.fault_of("scenario", format!("no scenario {of:?}{}; known: {}", near(&of, &known), known.join(", ")));
        return None;
    };
    let item = item?;
    let items = sold.items(sold.scenarios[place].1);
    let is_it = |name: &str| {
        is_same(name, &item) || Agent::by_name(name).is_some_and(|agent| is_same(agent.plain_name(), &item))
    };
    let Some((name, packages)) = items.iter().find(|(name, _)| is_it(name)) else {
        let known: Vec<&str> = items.iter().map(|(name, _)| name.as_str()).collect();
        let why =
            format!("the order of {of:?} holds no {item:?}{}; it holds: {}", near(&item, &known), known.join(", "));
        section.fault_of("item", why);
        return None;
    };
    let kind = kind_of(section, name, packages)?;
    Some(BuyLine { scenario: place + 1, depot, item: name.clone(), kind, count: count? as u32 })
}

/// The kind of package that is meant: by its size, with its supplier where several sell the same size.
fn kind_of(section: &Section<'_>, item: &str, packages: &[Package]) -> Option<usize> {
    let names = names_of(packages);
    let written = section.text("package");
    let found: Vec<usize> = match &written {
        None => (0..packages.len()).collect(),
        Some(text) => {
            let text = text.trim();
            let fits = |at: &usize| packages[*at].text == text || names[*at] == text;
            (0..packages.len()).filter(fits).collect()
        }
    };
    if let [only] = found[..] {
        return Some(only);
    }
    let known: Vec<&str> = names.iter().map(String::as_str).collect();
    let at = if written.is_some() { "package" } else { "item" };
    section.fault_of(at, format!("say which package of {item}: {}", known.join(" | ")));
    None
}

/// What each kind of package is called beside the others: its size, with its supplier where the size is sold by several.
pub fn names_of(packages: &[Package]) -> Vec<String> {
    let is_alone = |package: &Package| packages.iter().filter(|other| other.text == package.text).count() == 1;
    let name = |package: &Package| match is_alone(package) {
        true => package.text.clone(),
        false => format!("{}, {}", package.text, package.sold_by()),
    };
    packages.iter().map(name).collect()
}
