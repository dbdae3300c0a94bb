//! `columns` and `products`: what lists may be headed, and what the built-in products are.

use std::io::Write;

use serde::Serialize;

use super::args::Listing;
use super::{DONE, Stop, width};
use crate::field::{FIELDS, Kind};
use crate::kernel::strength;
use crate::quantity::format::number;
use crate::report::{SHELF_SHARE, SHELF_TEMPERATURES};
use crate::scenario::product::{Product, built_in_products};
use crate::write::{json, terminal};

/// `column`, of `columns`: a field of a list.
#[derive(Serialize)]
struct ColumnMessage {
    /// Which message this is.
    message: &'static str,
    /// Name of the field.
    name: &'static str,
    /// Headings that are understood outright.
    headings: &'static [&'static str],
    /// The words that it may hold; none where it holds numbers or text.
    choices: Vec<&'static str>,
    /// Unit taken in a campaign in US units where the list states none; nothing for texts.
    unit_us: Option<&'static str>,
    /// The same in a metric campaign.
    unit_metric: Option<&'static str>,
    /// The same in an imperial campaign.
    unit_imperial: Option<&'static str>,
    /// What the field means, as a person filling in a list reads it.
    help: &'static str,
}

pub(super) fn columns(options: &Listing, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    if !options.json {
        let intro = "Headings are matched without regard to case, blanks and punctuation. A unit may stand in the heading, \
                     `Depth (ft)`, in a column beside it, or in the cell, `120 ft`; without any, the campaign's own system \
                     decides, as shown. Other columns are carried along.";
        writeln!(out, "{}\n", terminal::wrap(intro, width(), 0))?;
    }
    for definition in &FIELDS {
        let units = match definition.kind {
            Kind::Quantity(quantity) => quantity.default_units.or(Some([quantity.unit; 3])),
            _ => None,
        };
        let choices: Vec<&'static str> = match definition.kind {
            Kind::Choice(choices) => choices.iter().map(|(name, _)| *name).collect(),
            Kind::Flag => vec!["yes", "no"],
            _ => Vec::new(),
        };
        if options.json {
            let message = ColumnMessage {
                message: "column",
                name: definition.name,
                headings: definition.headings,
                choices,
                unit_us: units.map(|units| units[0]),
                unit_metric: units.map(|units| units[1]),
                unit_imperial: units.map(|units| units[2]),
                help: definition.help,
            };
            json::write_line(out, &message)?;
            continue;
        }
        let unit = match units {
            Some([us, metric, imperial]) if us == metric && metric == imperial => us.to_owned(),
            Some([us, metric, imperial]) => format!("us {us}, metric {metric}, imperial {imperial}"),
            None => choices.join(", "),
        };
        let unit = if unit.is_empty() { String::new() } else { format!("  [{unit}]") };
        writeln!(out, "{}{unit}", definition.name)?;
        writeln!(out, "    {}", terminal::wrap(definition.help, width(), 4))?;
        if !definition.headings.is_empty() {
            let also = format!("also: {}", definition.headings.join(", "));
            writeln!(out, "    {}", terminal::wrap(&also, width(), 4))?;
        }
    }
    Ok(DONE)
}

/// `product`, of `products`: a built-in product.
#[derive(Serialize)]
struct ProductMessage {
    /// Which message this is.
    message: &'static str,
    /// Name by which a scenario or `well --product` asks for it.
    name: String,
    /// What is in it.
    chemical: &'static str,
    /// Number of the label.
    percent: f64,
    /// What the number counts.
    basis: &'static str,
    /// Available chlorine of a liquid, in grams as Cl2 per liter.
    strength_g_per_l: Option<f64>,
    /// Available chlorine of a dry product, in grams as Cl2 per kilogram.
    strength_g_per_kg: Option<f64>,
    /// Density of a liquid, in kilograms per liter.
    density_kg_per_l: Option<f64>,
    /// Sizes of the packages it is sold in, each with its unit: `5 US gal`.
    packages: Vec<String>,
    /// How long it keeps four fifths of its label, at several temperatures; none for dry products.
    days_until_80_percent: Vec<Keeps>,
    /// What to look for on a label.
    label: Option<String>,
    /// Where the figures come from.
    source: Option<String>,
}

/// How long a product keeps four fifths of its label at one temperature, in days.
#[derive(Serialize)]
struct Keeps {
    /// Temperature of the store, in degrees Celsius.
    stored_c: f64,
    /// Days at the typical pace.
    typical: f64,
    /// Days at the fast pace.
    fast: f64,
    /// Days at the slow pace.
    slow: f64,
}

pub(super) fn products(options: &Listing, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    if !options.json {
        let intro = "Generic products, no brands, no prices. The same percent means different strengths on different bases: \
                     read your own label, and write it into a [[product]] of the scenario file.";
        writeln!(out, "{}\n", terminal::wrap(intro, width(), 0))?;
    }
    for product in built_in_products()? {
        let message = message(product);
        if options.json {
            json::write_line(out, &message)?;
            continue;
        }
        let strength = match (message.strength_g_per_l, message.strength_g_per_kg) {
            (Some(liquid), _) => format!(
                "{} g/L available chlorine, {} kg/L",
                number(liquid, 4),
                number(message.density_kg_per_l.unwrap_or(f64::NAN), 4)
            ),
            (None, dry) => format!("{} g/kg available chlorine", number(dry.unwrap_or(f64::NAN), 4)),
        };
        writeln!(out, "{}", message.name)?;
        writeln!(out, "    {} % {}: {strength}", number(message.percent, 4), message.basis.replace('_', " "))?;
        if let Some(label) = &message.label {
            writeln!(out, "    {}", terminal::wrap(label, width(), 4))?;
        }
        writeln!(out, "    packages: {}", message.packages.join(", "))?;
        if !message.days_until_80_percent.is_empty() {
            let days = message.days_until_80_percent.iter().map(|keeps| {
                format!(
                    "{} C: {} ({} to {})",
                    keeps.stored_c,
                    number(keeps.typical, 2),
                    number(keeps.fast, 2),
                    number(keeps.slow, 2)
                )
            });
            let text = format!(
                "days until 80 % of the label is left, typical (fast to slow), stored at {}",
                days.collect::<Vec<_>>().join("; ")
            );
            writeln!(out, "    {}", terminal::wrap(&text, width(), 4))?;
        }
        if let Some(source) = &message.source {
            writeln!(out, "    source: {}", terminal::wrap(source, width(), 4))?;
        }
    }
    Ok(DONE)
}

fn message(product: Product) -> ProductMessage {
    let liquid = product
        .chemical
        .is_liquid()
        .then(|| strength::liquid_strength(product.label.number, product.label.basis, product.caustic_percent))
        .flatten();
    let keeps = |stored_c: f64| {
        let days = product.days_until(SHELF_SHARE, stored_c)?;
        Some(Keeps { stored_c, typical: days.mid, fast: days.high, slow: days.low })
    };
    ProductMessage {
        message: "product",
        days_until_80_percent: SHELF_TEMPERATURES.into_iter().filter_map(keeps).collect(),
        chemical: product.chemical.name(),
        percent: product.label.number,
        basis: product.label.basis.name(),
        strength_g_per_l: liquid.map(|strength| strength.grams_per_liter()),
        strength_g_per_kg: (!product.chemical.is_liquid()).then_some(product.label.number * 10.0),
        density_kg_per_l: liquid.map(|liquid| strength::liquid_density(liquid, product.caustic_percent).value / 1000.0),
        packages: product.packages.into_iter().map(|package| package.text).collect(),
        label: product.label_text,
        source: product.source,
        name: product.name,
    }
}
