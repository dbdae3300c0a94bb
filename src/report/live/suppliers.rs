//! The end of the Order sheet: what is ordered from each supplier, and for which depot, under the scenario that is picked.

use super::model::Model;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Pieces;
use crate::parameter::NO_SUPPLIER;
use crate::rollup::orders::Bought;

/// Columns of the Order sheet that stay empty here: between name and count, count and cost, cost and alert.
const BEHIND_NAME: usize = 1;
const BEHIND_COUNT: usize = 3;
const BEHIND_COST: usize = 2;
/// Where a row's numbers stand.
const DEPOT: u16 = 12;
const SUPPLIER: u16 = 13;

/// Lines that the block takes.
pub(super) fn lines(model: &Model<'_>) -> usize {
    if is_stated(model) { 1 + model.suppliers.len() * (1 + model.depots.len()) } else { 1 }
}

/// Whether any supplier is stated.
pub(super) fn is_stated(model: &Model<'_>) -> bool {
    model.suppliers.iter().any(|supplier| supplier != NO_SUPPLIER)
}

/// A line for each supplier and below it one for each depot; a sentence where no supplier is stated.
pub(super) fn add(sheet: &mut Sheet, model: &Model<'_>) {
    if !is_stated(model) {
        sheet.wide(
            "Supplier not stated: where the campaign says who sells each package, the order is added up by supplier here.",
            Role::Note,
        );
        return;
    }
    let heads = ["By supplier", "", "Count", "", "", "", "Cost", "", "", "Alert"];
    sheet.push(
        heads.map(|head| if head.is_empty() { Cell::empty().with_role(Role::Head) } else { Cell::head(head) }).to_vec(),
    );
    for supplier in 0..model.suppliers.len() {
        line(sheet, model, supplier, None);
        for depot in (0..model.depots.len()).filter(|depot| model.is_ordered_for(&model.depots[*depot])) {
            line(sheet, model, supplier, Some(depot));
        }
    }
}

/// Packages and their cost of a supplier, for all depots or for one.
fn line(sheet: &mut Sheet, model: &Model<'_>, supplier: usize, depot: Option<usize>) {
    let name = &model.suppliers[supplier];
    let here = Pieces::here;
    let of = |column: &str| {
        let sum =
            Pieces::text(format!("SUMIFS({column},Packages_scenario,Picked,Packages_supplier_no,")).and(here(SUPPLIER));
        match depot {
            Some(_) => sum.then(",Packages_depot,").and(here(DEPOT)).then(")"),
            None => sum.then(")"),
        }
    };
    let is_here = |of: &String| depot.is_none_or(|depot| *of == model.depots[depot]);
    let orders = model.matter.orders.lines.iter().filter(|line| line.scenario == 0 && is_here(&line.depot));
    let bought: Vec<&Bought> =
        orders.flat_map(|line| &line.bought).filter(|bought| bought.sold_by() == name.as_str()).collect();
    let count = bought.iter().map(|bought| bought.count).sum::<u64>() as f64;
    let cost = bought.iter().filter_map(|bought| bought.cost()).fold(0.0, |sum, cost| sum + cost);
    let is_any_priced = bought.iter().any(|bought| bought.price.is_some());
    let is_priced = bought.iter().all(|bought| bought.price.is_some());
    let role = if depot.is_none() { Role::Total } else { Role::Body };
    let alert = Pieces::call("IF", [of("Packages_unpriced").then(">0"), Pieces::quoted(UNPRICED), Pieces::quoted("")]);
    let title = match depot {
        None => name.clone(),
        Some(depot) if model.depots[depot].is_empty() => "   (no depot)".to_owned(),
        Some(depot) => format!("   {}", model.depots[depot]),
    };
    // Of whom nothing is bought nothing is said.
    let shown = |column: &str, value: f64, digits: usize| {
        let nothing = of("Packages_count").then("=0");
        let cell = Pieces::call("IF", [nothing, Pieces::quoted(""), of(column)]);
        Cell::formula(cell.giving(if count > 0.0 { value } else { f64::NAN }, digits)).with_role(role)
    };
    let blank = |count: usize| (0..count).map(move |_| Cell::empty().with_role(role));
    let mut row = vec![Cell::text(title).with_role(role)];
    row.extend(blank(BEHIND_NAME));
    row.push(shown("Packages_count", count, 0));
    row.extend(blank(BEHIND_COUNT));
    // A cost that nobody knows is not nothing.
    let unknown = Pieces::call(
        "IF",
        [
            Pieces::call("AND", [of("Packages_cost").then("=0"), of("Packages_unpriced").then(">0")]),
            Pieces::quoted(""),
            of("Packages_cost"),
        ],
    );
    let nothing = of("Packages_count").then("=0");
    let cell = Pieces::call("IF", [nothing, Pieces::quoted(""), unknown]);
    row.push(Cell::formula(cell.giving(if is_any_priced { cost } else { f64::NAN }, 2)).with_role(role));
    row.extend(blank(BEHIND_COST));
    row.push(Cell::formula(alert.saying(if is_priced { "" } else { UNPRICED })).with_role(role));
    row.extend([Cell::empty(), Cell::empty()]);
    row.push(depot.map_or_else(Cell::empty, |depot| Cell::count(depot as u64 + 1)));
    row.push(Cell::count(supplier as u64 + 1));
    sheet.push(row);
}

const UNPRICED: &str = "no price";
