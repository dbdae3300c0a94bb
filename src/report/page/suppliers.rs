//! What is ordered from each supplier, and for which depot.

use super::depots::name;
use super::{Pages, order_cost};
use crate::document::block::{Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::parameter::NO_SUPPLIER;
use crate::rollup::orders::{Bought, OrderLine};

/// The table of the scenario that is shown; a sentence where no supplier is stated.
pub(super) fn add(pages: &Pages<'_>, section: &mut Section) {
    let lines: Vec<&OrderLine> = pages.matter.orders.lines.iter().filter(|line| line.scenario == pages.shown).collect();
    let mut suppliers: Vec<&str> = lines.iter().flat_map(|line| &line.bought).map(Bought::sold_by).collect();
    suppliers.sort_by_key(|supplier| (*supplier == NO_SUPPLIER, *supplier));
    suppliers.dedup();
    if suppliers.iter().all(|supplier| *supplier == NO_SUPPLIER) {
        section.remark("Supplier not stated: where the campaign says who sells each package, the order is added up by supplier here.");
        return;
    }
    let columns = vec![
        Column::new("Supplier"),
        Column::new("Depot"),
        Column::new("Packages"),
        Column::of("Cost", pages.currency()),
    ];
    let title =
        format!("By supplier and depot: {}, {} in all", pages.name(pages.shown), order_cost(pages, pages.shown));
    let mut table = Table::new(title, columns);
    for supplier in suppliers {
        let of = |depot: Option<&str>| -> Vec<(&OrderLine, &Bought)> {
            let here = lines.iter().filter(|line| depot.is_none_or(|depot| line.depot == depot));
            let bought = here.flat_map(|line| line.bought.iter().map(move |bought| (*line, bought)));
            bought.filter(|(_, bought)| bought.sold_by() == supplier).collect()
        };
        let mut depots: Vec<&str> = lines.iter().map(|line| line.depot.as_str()).collect();
        depots.sort_unstable();
        depots.dedup();
        let own: Vec<&str> = depots.into_iter().filter(|depot| !of(Some(depot)).is_empty()).collect();
        for depot in &own {
            let bought = of(Some(depot));
            let named: Vec<String> = bought
                .iter()
                .map(|(line, bought)| format!("{} x {} of {}", bought.count, bought.package, line.item_name()))
                .collect();
            table.rows.push(vec![
                Cell::text(supplier),
                Cell::text(name(depot)),
                Cell::text(named.join("; ")),
                cost(bought.iter().map(|(_, bought)| *bought)),
            ]);
        }
        let all = of(None);
        let count: u64 = all.iter().map(|(_, bought)| bought.count).sum();
        let row = [
            Cell::text(supplier),
            Cell::text("all depots"),
            Cell::text(format!("{count} {}", if count == 1 { "package" } else { "packages" })),
            cost(all.iter().map(|(_, bought)| *bought)),
        ];
        table
            .rows
            .push(row.map(|cell| if cell.role == Role::Flagged { cell } else { cell.with_role(Role::Total) }).to_vec());
    }
    section.push(table);
}

/// Their cost; flagged where one of them has no price.
fn cost<'a>(bought: impl Iterator<Item = &'a Bought>) -> Cell {
    match bought.map(Bought::cost).sum::<Option<f64>>() {
        Some(cost) => Cell::number(cost, 2),
        None => Cell::text("not all priced").with_role(Role::Flagged),
    }
}
