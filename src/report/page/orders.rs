//! What to buy at each depot; of the scenario that is shown in full, of the others folded away.

use super::depots::name;
use super::{Pages, amount, order_cost};
use crate::document::block::{Block, Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::report::show::Shown;
use crate::report::tables::package_list;
use crate::report::{agents, measured_out, on_hand, outsized, rounding, settled, unpriced};
use crate::rollup::orders::{ItemKind, OrderLine};

/// Lines that are shown, folded ones included; the plain table has all.
const LINES: usize = 2_000;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("orders", "Orders");
    let matter = pages.matter;
    section.say(format!(
        "For \"{}\": {} in total. Each line covers the first round, the repeat round and the handling loss, less what is on hand \
         and on order, in whole packages. Nothing is ordered for visits that are held back.",
        pages.name(pages.shown),
        order_cost(pages, pages.shown)
    ));
    for remark in &matter.orders.remarks {
        section.flag(format!("Check: {remark}; it was not used."));
    }
    for text in settled::text(matter).into_iter().chain(unpriced::text(matter)) {
        section.flag(text);
    }
    for text in outsized::texts(matter) {
        section.flag(text);
    }
    for text in on_hand::texts(matter).into_iter().chain(rounding::text(matter, pages.shown)) {
        section.flag(text);
    }
    for text in measured_out::in_brief(matter) {
        section.flag(text);
    }
    if let Some(text) = agents::text(matter, pages.shown) {
        section.flag(text);
    }
    let of = |scenario: usize| matter.orders.lines.iter().filter(move |line| line.scenario == scenario);
    section.push(table(pages, pages.shown, of(pages.shown).take(LINES)));
    if of(pages.shown).count() > LINES {
        section.flag(format!("The first {LINES} lines are here; orders.csv has all."));
    }
    super::suppliers::add(pages, &mut section);
    let mut room = LINES;
    for scenario in (0..matter.plan.cases.len()).filter(|scenario| *scenario != pages.shown) {
        let count = of(scenario).count();
        if count > room {
            section.remark("orders.csv has the orders of the other scenarios.");
            break;
        }
        room -= count;
        let summary = format!("Orders of \"{}\": {}", pages.name(scenario), order_cost(pages, scenario));
        section.push(Block::Folded(summary, vec![table(pages, scenario, of(scenario)).into()]));
    }
    section
}

fn table<'a>(pages: &Pages<'_>, scenario: usize, lines: impl Iterator<Item = &'a OrderLine>) -> Table {
    let columns = vec![
        Column::new("Depot"),
        Column::new("Item"),
        Column::new("Unit"),
        Column::new("First round"),
        Column::new("Repeat round"),
        Column::new("Losses"),
        Column::new("On hand and on order"),
        Column::new("To buy"),
        Column::new("Packages"),
        Column::new("Shortfall"),
        Column::of("Cost", pages.currency()),
    ];
    let mut table = Table::new(format!("Orders: {}", pages.name(scenario)), columns);
    for line in lines {
        let shown = Shown::of(line.unit, pages.matter.plan.campaign.system);
        let cell = |value: f64| match line.kind {
            ItemKind::Supply => Cell::number(value, 0),
            _ => amount(shown, value),
        };
        let packages = match (line.bought.is_empty(), line.gap > 0.0) {
            (true, true) if line.short > 0.0 => Cell::text("not to be had").with_role(Role::Flagged),
            (true, true) => Cell::text("no package stated").with_role(Role::Flagged),
            (true, false) => Cell::text("none needed"),
            (false, _) => Cell::text(package_list(line)),
        };
        table.rows.push(vec![
            Cell::text(name(&line.depot)),
            Cell::text(line.item_name()),
            Cell::text(shown.symbol),
            cell(line.first_round),
            cell(line.repeat_round),
            cell(line.handling_loss),
            cell(line.on_hand_counts + line.on_order),
            cell(line.gap).with_role(Role::Total),
            packages,
            if line.short > 0.0 { cell(line.short).with_role(Role::Flagged) } else { Cell::empty() },
            line.cost.map_or_else(|| Cell::text("not priced").with_role(Role::Flagged), |cost| Cell::number(cost, 2)),
        ]);
    }
    table
}
