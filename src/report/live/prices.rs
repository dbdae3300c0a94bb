//! What may be had: packages with their prices.

use super::super::show::Shown;
use super::inputs::tidy;
use super::model::{BETWEEN, Back, Model};
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::entry::{Allowed, Entry};
use crate::document::formula::Place;
use crate::rollup::orders::ItemKind;
use crate::scenario::buy::names_of;
use crate::scenario::supply::Package;

const PRICES: &str = "Prices";

/// A package with the cells that say what it holds and costs.
pub(super) struct Priced {
    pub text: String,
    pub size: Place,
    pub price: Place,
    pub value: Option<f64>,
    pub amount: f64,
    /// Whether only so many can be had.
    pub is_limited: bool,
    /// Who sells it, or that this is not stated.
    pub supplier: String,
}

/// Packages by kind and name of what they hold.
pub(super) type PricedItems = Vec<(ItemKind, String, Priced)>;

/// How many of a supply go with each visit: its name and the cell.
pub(super) type Visits = Vec<(String, Place)>;

/// The Prices sheet, with the cells that packages and supplies stand in.
pub(super) fn prices(model: &mut Model<'_>, wells: bool) -> (Sheet, PricedItems, Visits) {
    let matter = model.matter;
    let (campaign, system) = (matter.plan.campaign, model.system);
    let mut back = Vec::new();
    let mut sheet = Sheet::new(PRICES);
    sheet.title(format!("Prices in {}: change a framed cell", campaign.currency));
    sheet.note("What a package holds, what one costs, and of what goes with each visit how many are taken.");
    sheet.heads([
        "Item",
        "Package",
        "Holds",
        "Unit",
        "Price of one",
        "To be had",
        "For each visit",
        "Supplier",
        "Note",
    ]);
    sheet.layout.filter_row = None;
    let mut priced = Vec::new();
    let mut visits = Vec::new();
    let mut push = |kind: ItemKind,
                    item: &str,
                    name: &str,
                    unit: &'static str,
                    package: &Package,
                    (at, called): (usize, &str),
                    each: Option<f64>| {
        let shown = Shown::of(unit, system);
        let row = sheet.rows.len() as u32;
        let price = Cell::number(package.price.unwrap_or(f64::NAN), 2).with_role(Role::Input);
        let role = if each.is_some() { Role::Input } else { Role::Body };
        sheet.push(vec![
            Cell::text(name),
            Cell::text(called),
            Cell::number(tidy(shown.value(package.amount)), 3).with_role(role),
            Cell::text(shown.symbol),
            price,
            package.available.map_or_else(Cell::empty, |count| Cell::count(count.into())),
            each.map_or_else(Cell::empty, |each| {
                Cell::number(each, 2).with_role(if wells { Role::Input } else { Role::Body })
            }),
            Cell::text(package.sold_by()),
            Cell::text(format!("price in {}, 0 or more; empty where it is not known", campaign.currency)),
        ]);
        let place = |column| Place { sheet: PRICES, row, column };
        // Several packages of a size may be sold by several suppliers: they are told apart by their number.
        let number = (at + 1).to_string();
        let mut taken_back = |column: u16, planned: f64, key: &str| {
            let whose = match kind {
                ItemKind::Product => ["product", item, "packages", &number].join(BETWEEN),
                ItemKind::Neutralizer => ["neutralizer", item, "packages", &number].join(BETWEEN),
                ItemKind::Supply => ["supply", item].join(BETWEEN),
            };
            let label = format!("{name}: {called}");
            back.push(Back {
                place: place(column),
                label,
                planned,
                states: [whose.as_str(), key].join(BETWEEN),
                unit: "",
            });
        };
        taken_back(4, package.price.unwrap_or(f64::NAN), "price");
        if let Some(each) = each {
            taken_back(2, package.amount, "package_of");
            taken_back(6, each, "per_visit");
        }
        if each.is_some() {
            visits.push((item.to_owned(), place(6)));
        }
        let own = Priced {
            text: called.to_owned(),
            size: place(2),
            price: place(4),
            value: package.price,
            amount: package.amount,
            is_limited: package.available.is_some(),
            supplier: package.sold_by().to_owned(),
        };
        priced.push((kind, item.to_owned(), own));
    };
    for (at, product) in campaign.products.iter().enumerate() {
        if matter.plan.cases.iter().any(|case| case.scenario.product == at) {
            let unit = product.bought_by().unit();
            for (place, (package, called)) in product.packages.iter().zip(names_of(&product.packages)).enumerate() {
                push(ItemKind::Product, &product.name, &product.name, unit, package, (place, &called), None);
            }
        }
    }
    let agents = &model.agents;
    for line in campaign.neutralizers.iter().filter(|line| agents.contains(&line.agent)) {
        let agent = line.agent;
        for (place, (package, called)) in line.packages.iter().zip(names_of(&line.packages)).enumerate() {
            push(ItemKind::Neutralizer, agent.name(), agent.plain_name(), "kg", package, (place, &called), None);
        }
    }
    for supply in &campaign.supplies {
        let package = supply.package();
        push(
            ItemKind::Supply,
            &supply.name,
            &supply.name,
            "pieces",
            &package,
            (0, &package.text),
            Some(supply.per_visit),
        );
    }
    model.back.extend(back);
    let last = sheet.rows.len() as u32 - 1;
    let first = sheet.layout.frozen_rows;
    if last >= first {
        for (column, title, help) in [
            (2, "Holds", "What one package holds, in the unit beside it; more than 0."),
            (4, "Price of one", "Price of one package, 0 or more."),
            (6, "For each visit", "Pieces for each visit, 0 or more."),
        ] {
            sheet.layout.entries.push(from_zero(column, (first, last), title, help, help));
        }
    }
    sheet.layout.widths = vec![27.0, 14.0, 8.0, 7.0, 8.0, 7.0, 8.0, 20.0, 30.0];
    (sheet, priced, visits)
}

/// A number from 0 that people fill in.
pub(super) fn from_zero(column: u16, rows: (u32, u32), title: &str, help: &str, refusal: &str) -> Entry {
    Entry {
        column,
        first_row: rows.0,
        last_row: rows.1,
        allowed: Allowed::Between(0.0, 1e6),
        title: title.to_owned(),
        help: help.to_owned(),
        refusal: refusal.to_owned(),
    }
}
