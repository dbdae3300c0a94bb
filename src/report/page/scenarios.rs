//! The scenarios compared: amounts, cost, and which can be chosen.

use super::choice::{self, Offer};
use super::{AS_IF_TOGETHER, Pages, amount, costs};
use crate::caution::Caution;
use crate::document::block::{Column, Section, Table};
use crate::document::cell::{Cell, Role};
use crate::engine::raised;
use crate::kernel::constants::SLOW_PH;
use crate::report::compare::{cost_of_chlorine, figures};

/// Rows of a table; beyond them the plain tables serve better.
const ROWS: usize = 400;
/// Bars of the chart.
const BARS: usize = 24;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("scenarios", "The scenarios compared");
    section.say(
        "A scenario can be chosen where it aims at no less chlorine than the campaign's own practice, its stock is neither \
         spent nor younger than its product states, all that it needs can be had, and all of it has a price.",
    );
    if pages.offers.len() > ROWS {
        section.flag(format!("The first {ROWS} of {} scenarios are here; totals.csv has all.", pages.offers.len()));
    }
    section.push(amounts(pages));
    section.push(consequences(pages));
    section.remark(AS_IF_TOGETHER);
    match costs::drawn(pages, BARS) {
        Some(chart) => section.push(chart),
        None => section.say(costs::unpriced(pages)),
    }
    section
}

fn amounts(pages: &Pages<'_>) -> Table {
    let matter = pages.matter;
    let columns = vec![
        Column::new("Scenario"),
        Column::new("Product"),
        Column::of("Target", "mg/L"),
        Column::of("Strength remaining", "% of label"),
        Column::new("Unit"),
        Column::new("First round"),
        Column::new("Low"),
        Column::new("High"),
        Column::new("With repeats and losses"),
        Column::of("Chlorine, as Cl2", pages.mass.symbol),
        Column::of("To haul, first round", pages.mass.symbol),
    ];
    let mut table = Table::new("Amounts by scenario", columns);
    for offer in pages.offers.iter().take(ROWS) {
        let case = &matter.plan.cases[offer.scenario];
        let sums = matter.run.totals.overall(offer.scenario);
        let shown = pages.bought_by(offer.scenario);
        let mut row = vec![
            Cell::text(&case.scenario.name),
            Cell::text(&matter.plan.campaign.products[case.scenario.product].name),
            Cell::number(choice::target(matter, case), 0),
            Cell::number(case.stock.prepared.stock.share_of_label() * 100.0, 0),
        ];
        if sums.planned == 0 {
            row.push(Cell::text("nothing planned").with_role(Role::Flagged));
        } else {
            row.push(Cell::text(shown.symbol));
            row.push(amount(shown, sums.product).with_role(Role::Total));
            row.extend([sums.product_low, sums.product_high].map(|value| amount(shown, value)));
            row.push(amount(shown, sums.product_in_all()).with_role(Role::Total));
            row.extend([sums.chlorine_g / 1000.0, sums.product_kg].map(|value| amount(pages.mass, value)));
        }
        table.rows.push(row);
    }
    table
}

fn consequences(pages: &Pages<'_>) -> Table {
    let matter = pages.matter;
    let currency = pages.currency();
    let columns = vec![
        Column::new("Scenario"),
        Column::of("Everything on the order", currency),
        Column::of("Low", currency),
        Column::of("High", currency),
        Column::of("Priced so far", currency),
        Column::of(format!("Per {} of chlorine bought", pages.mass.symbol), currency),
        Column::of("Neutralizer, first round", pages.mass.symbol),
        Column::of("Flush water", pages.volume.symbol),
        Column::new(format!("Visits above pH {}", SLOW_PH.value)),
        Column::new("Can it be chosen?"),
    ];
    let mut table = Table::new("Cost and consequences by scenario", columns);
    let cheapest = choice::cheapest(&pages.offers).map(|offer| offer.scenario);
    let cost = |cost: Option<f64>| Cell::number(cost.unwrap_or(f64::NAN), 0);
    for offer in pages.offers.iter().take(ROWS) {
        let Offer { scenario, .. } = *offer;
        let case = &matter.plan.cases[scenario];
        let sums = matter.run.totals.overall(scenario);
        let figures = figures(matter, scenario);
        let chlorine = cost_of_chlorine(&figures, &case.stock.prepared.stock) / pages.mass.value(1.0);
        let so_far = figures.order;
        let verdict = match offer.why_not {
            None if cheapest == Some(scenario) => Cell::text("yes, the cheapest").with_role(Role::Total),
            None => Cell::text("yes"),
            Some(why) => Cell::text(why.words()).with_role(Role::Flagged),
        };
        table.rows.push(vec![
            Cell::text(&case.scenario.name),
            cost(offer.cost).with_role(Role::Total),
            cost(offer.cost_low),
            cost(offer.cost_high),
            if so_far.is_all() {
                Cell::text("all")
            } else {
                let priced = super::figure::number(so_far.cost, 0);
                Cell::text(format!("{priced}, {}", so_far.share())).with_role(Role::Flagged)
            },
            Cell::number(chlorine, 2),
            amount(pages.mass, sums.neutralizer_first_kg()),
            amount(pages.volume, sums.flush_volume_l),
            Cell::count(raised(matter.run, scenario, Caution::PhAboveEight)),
            verdict,
        ]);
    }
    table
}
