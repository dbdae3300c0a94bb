//! The Crew sheet: what a crew takes along, for the first scenario: one row a visit, with room to write down what was done.
//!
//! Amounts are said as people measure them, routes, agents and cautions in whole words; the tables keep numbers and codes.

use uom::si::f64::Volume;
use uom::si::volume::cubic_meter;

use super::Matter;
use super::show::Shown;
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::engine::{Case, KeptCell};
use crate::field::rules::UnitSystem;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::kernel::measure::{measure_dilution, weigh};
use crate::kernel::neutralizer::Agent;
use crate::kernel::requirement::Stock;
use crate::ledger::COLUMNS;
use crate::quantity::format::number;
use crate::quantity::kitchen;
use crate::scenario::product::Product;

/// What a crew needs, each with its width.
const HEADS: [(&str, f64); 23] = [
    ("Depot", 13.0),
    ("Well", 12.0),
    ("Visit", 7.0),
    ("Type", 10.0),
    ("Water treated", 10.0),
    ("Measure out", 26.0),
    ("Measured for", 9.0),
    ("Resulting dose (mg/L as Cl2)", 9.0),
    ("Lowest dose (mg/L as Cl2)", 9.0),
    ("Dilute in", 12.0),
    ("Brush the walls with", 26.0),
    ("Feed to the spring", 20.0),
    ("Contact time (h)", 8.0),
    ("Times to empty", 7.0),
    ("Flush (approx.)", 11.0),
    ("Flush to", 20.0),
    ("Neutralizer", 28.0),
    ("Cautions", 90.0),
    ("Crew flags", 18.0),
    ("Users", 7.0),
    ("Flooded", 8.0),
    ("Notes", 36.0),
    ("Not understood", 20.0),
];

/// Columns of the ledger that tell a crew of a visit for which nothing is computed.
const HELD_BACK_TAKEN: [(&str, &str); 10] = [
    ("depot", "Depot"),
    ("well_id", "Well"),
    ("visit", "Visit"),
    ("well_type", "Type"),
    ("reasons", "Held back by"),
    ("crew_flags", "Crew flags"),
    ("users_served", "Users"),
    ("flooded", "Flooded"),
    ("notes", "Notes"),
    ("not_understood", "Not understood"),
];

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Crew");
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    sheet.title(format!("Crew sheet: {scenario}"));
    sheet.note(
        "Goggles, gloves, apron. Pump off and locked out. Never mix with acid, ammonia or another product. Never enter a dug \
         well, well pit or spring box. Add product to water, never water to product.",
    );
    sheet.note(
        "Flush until a test shows the required residual, not by the clock. Do not drink until a sample taken after flushing \
         is free of coliform bacteria. Local code and licensed practice come first.",
    );
    sheet.note(
        "Times to empty: brush the walls from above first; after the contact time pump the well empty, let it refill, wait \
         and measure; repeat until below the limit. Feed: this much product each hour of the contact time while the spring \
         runs.",
    );
    for says in super::defaults::of_run(matter) {
        sheet.wide(says, Role::Flagged);
    }
    super::site::lines(matter, &mut sheet);
    let others = matter.plan.cases.len().saturating_sub(1);
    if others > 0 {
        sheet.note(format!(
            "For this scenario only; {others} others are on the Wells sheet. Run again with --only and its name for sheets of \
             another."
        ));
    }
    if let Some(rest) = matter.rest() {
        sheet.wide(rest, Role::Flagged);
    }
    let gone = |case: &Case<'_>| case.stock.prepared.share_left < STOCK_NEARLY_GONE.value;
    if matter.plan.cases.first().is_some_and(gone) {
        sheet.wide(
            "DO NOT TREAT BY THIS SHEET: by its age the product has lost most of its strength. Test it, or buy fresh.",
            Role::Flagged,
        );
    }
    let system = matter.plan.campaign.system;
    if let Some(case) = matter.plan.cases.first() {
        sheet.note(product_note(case, &matter.plan.campaign.products[case.scenario.product]));
        sheet.note(
            "Amounts are rounded up to the measure, by an eighth at most. Measured for typical: with more water or weaker product \
             than was planned with, a well gets less than the target (see Lowest dose). Measured for high: the target is met even \
             then.",
        );
    }
    let by_hand = [
        "Chlorine added (date, time)",
        "Flushed (date, time)",
        "Residual measured (mg/L)",
        "Sample (date)",
        "Initials",
    ];
    sheet.heads(HEADS.iter().map(|(head, _)| *head).chain(by_hand).map(str::to_owned));

    let mut rows: Vec<&Vec<KeptCell>> = matter
        .rows()
        .iter()
        .filter(|row| text(row, "scenario") == scenario && text(row, "outcome") == "planned")
        .collect();
    // Crews leave from a depot: their rows stand together, in the order of the lists.
    rows.sort_by(|a, b| text(a, "depot").cmp(text(b, "depot")));
    for row in rows {
        let blanks = std::iter::repeat_n(Cell::empty().with_role(Role::Blank), by_hand.len());
        sheet.push(cells(row, system).into_iter().chain(blanks).collect());
    }
    held_back(matter, scenario, &mut sheet);
    sheet.layout.widths = HEADS.iter().map(|(_, width)| *width).chain([13.0, 13.0, 10.0, 10.0, 8.0]).collect();
    sheet.layout.frozen_columns = 2;
    sheet.layout.landscape = true;
    sheet
}

/// Visits without an amount: a crew that is there anyway knows who drinks there, what to look out for and what to measure.
fn held_back(matter: &Matter<'_>, scenario: &str, sheet: &mut Sheet) {
    let is_held = |row: &&Vec<KeptCell>| text(row, "scenario") == scenario && text(row, "outcome") == "held_back";
    let mut rows = matter.rows().iter().filter(is_held).peekable();
    if rows.peek().is_none() {
        return;
    }
    sheet.gap();
    sheet.wide(
        "Held back: no amount is computed, do not treat. The Findings sheet says what to measure.",
        Role::Flagged,
    );
    sheet.push(HELD_BACK_TAKEN.map(|(_, title)| Cell::head(title)).to_vec());
    let places = HELD_BACK_TAKEN.map(|(id, _)| COLUMNS.iter().position(|column| column.id == id));
    for row in rows {
        let cells = places.iter().map(|place| match place.and_then(|at| row.get(at)) {
            Some(KeptCell::Text(text)) => Cell::text(&**text).with_role(Role::Flagged),
            Some(KeptCell::Number(value)) => Cell::number(*value, 0),
            None => Cell::empty(),
        });
        sheet.push(cells.collect());
    }
}

/// One visit, in words.
fn cells(row: &[KeptCell], system: UnitSystem) -> [Cell; 23] {
    let say = |id: &str| Cell::text(text(row, id).replace('_', " "));
    let water = |id: &str| shown(row, id, "L", system);
    let measured = kitchen::words(value(row, "measured_amount"), text(row, "measured_unit"));
    let flush = match value(row, "flush_h") {
        hours if hours.is_nan() => "time not known".to_owned(),
        hours => format!("about {} h", number(hours, 2)),
    };
    [
        Cell::text(text(row, "depot")),
        Cell::text(text(row, "well_id")),
        Cell::text(text(row, "visit")),
        say("well_type"),
        Cell::text(water("treated_volume_l")),
        Cell::text(format!("{measured} of {}", text(row, "product"))),
        Cell::text(text(row, "measured_for")),
        Cell::number(value(row, "measured_dose_mg_per_l"), 0),
        Cell::number(value(row, "least_dose_mg_per_l"), 0),
        Cell::text(dilution(row, system)),
        Cell::text(wash(row, system)),
        Cell::text(feed(row, system)),
        Cell::text(hold(row)),
        Cell::number(value(row, "emptyings"), 0),
        Cell::text(format!("{}, {flush}", water("flush_volume_l"))),
        Cell::text(match text(row, "discharge_route") {
            "" => "not on record: check before flushing".to_owned(),
            "septic" => "open ground or hauled away, NOT the septic system".to_owned(),
            route => route.replace('_', " "),
        }),
        Cell::text(neutralizer(row, system)),
        Cell::text(caution::sentences(text(row, "cautions"))),
        Cell::text(text(row, "crew_flags")),
        Cell::number(value(row, "users_served"), 0),
        Cell::text(text(row, "flooded")),
        Cell::text(text(row, "notes")),
        Cell::text(text(row, "not_understood")),
    ]
}

fn dilution(row: &[KeptCell], system: UnitSystem) -> String {
    let volume = |id| Volume::new::<cubic_meter>(value(row, id) / 1000.0);
    match measure_dilution(volume("predilution_l"), volume("treated_volume_l"), system) {
        Some(water) => kitchen::bucket(water.amount, water.unit),
        None => "not diluted".to_owned(),
    }
}

fn wash(row: &[KeptCell], system: UnitSystem) -> String {
    if value(row, "wall_wash_l") > 0.0 {
        let amount = kitchen::words(value(row, "wall_wash_amount"), text(row, "wall_wash_unit"));
        format!("{amount} in {}", shown(row, "wall_wash_l", "L", system))
    } else {
        String::new()
    }
}

fn feed(row: &[KeptCell], system: UnitSystem) -> String {
    if value(row, "feed_l_per_h") > 0.0 {
        format!("{} each hour of the contact time", shown(row, "feed_l_per_h", "L", system))
    } else if value(row, "feed_kg_per_h") > 0.0 {
        format!("{} each hour of the contact time", shown(row, "feed_kg_per_h", "kg", system))
    } else {
        String::new()
    }
}

/// A number with the unit that people of this system read.
fn shown(row: &[KeptCell], id: &str, symbol: &'static str, system: UnitSystem) -> String {
    let shown = Shown::of(symbol, system);
    format!("{} {}", number(shown.value(value(row, id)), 3), shown.symbol)
}

fn hold(row: &[KeptCell]) -> String {
    let hours = |id| number(value(row, id), 3);
    if value(row, "hold_required_h").is_nan() {
        hours("hold_h")
    } else {
        format!("{}; the rule requires {}", hours("hold_h"), hours("hold_required_h"))
    }
}

/// Agent and amount, never a weight of nothing.
fn neutralizer(row: &[KeptCell], system: UnitSystem) -> String {
    let amount = |agent: Agent, kilograms: f64| {
        weigh(kilograms, system)
            .map(|weight| format!("{} of {}", kitchen::words(weight.amount, weight.unit), agent.plain_name()))
    };
    let Some(agent) = Agent::by_name(text(row, "neutralizer")) else {
        return "None included; keep flush water away from streams, ditches and drains.".to_owned();
    };
    let Some(said) = amount(agent, value(row, "neutralizer_kg")) else {
        return "None needed: the chlorine left is below the limit. Test it.".to_owned();
    };
    let other = Agent::by_name(text(row, "neutralizer_instead"));
    match other.and_then(|other| amount(other, value(row, "neutralizer_instead_kg"))) {
        Some(other) => format!("{said}. It leaves this water too acidic: better {other}."),
        None => said,
    }
}

/// The product, its strength as it is counted, and its age.
fn product_note(case: &Case<'_>, product: &Product) -> String {
    let stock = &case.stock;
    let left = number(stock.prepared.stock.share_of_label() * 100.0, 2);
    let label = format!("{} % {}", product.label.number, product.label.basis.name().replace('_', " "));
    let counted = match stock.prepared.stock {
        Stock::Liquid { used, .. } => {
            let grams = used.mid.grams_per_liter();
            format!("{} g/L as Cl2 ({} % trade)", number(grams, 3), number(grams / 10.0, 3))
        }
        Stock::Dry { used, .. } => format!("{} % available chlorine by weight", number(used.mid.ratio() * 100.0, 3)),
    };
    let days = number(stock.age.value / 86_400.0, 3);
    let stated = case.scenario.age.is_some() || product.age.is_some() || stock.age.value > 0.0;
    let age = match (stock.from_test, stated) {
        (true, _) => format!("{days} days since its strength was tested"),
        (false, true) => format!("{days} days old"),
        (false, false) => "taken as fresh, because no age is stated".to_owned(),
    };
    format!(
        "Product: {}, label {label}, {age}; strength used {counted}, {left} % of the label. If yours is another product, strength or \
         age, these amounts are wrong: ask for another sheet.",
        product.name
    )
}

fn text<'a>(row: &'a [KeptCell], id: &str) -> &'a str {
    match at(row, id) {
        Some(KeptCell::Text(text)) => text,
        _ => "",
    }
}

/// A number of the row; NaN where there is none.
fn value(row: &[KeptCell], id: &str) -> f64 {
    match at(row, id) {
        Some(KeptCell::Number(value)) => *value,
        _ => f64::NAN,
    }
}

fn at<'a>(row: &'a [KeptCell], id: &str) -> Option<&'a KeptCell> {
    COLUMNS.iter().position(|column| column.id == id).and_then(|at| row.get(at))
}
