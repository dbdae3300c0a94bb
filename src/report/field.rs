//! The Crew sheet: a depot's list for the first scenario, one row a visit. What is printed fits a page's width; the rest, and room
//! to write down what was done, stand beside it. Crews take the cards along.
//!
//! Amounts are said as people measure them, routes, agents and cautions in whole words; the tables keep numbers and codes.

use super::Matter;
use super::show::Shown;
use crate::caution::Caution;
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::engine::Case;
use crate::field::DischargeRoute;
use crate::field::rules::UnitSystem;
use crate::kernel::constants::STOCK_NEARLY_GONE;
use crate::kernel::measure::{measure_dilution, weigh};
use crate::kernel::neutralizer::Agent;
use crate::kernel::requirement::{Amount, Requirement, Stock};
use crate::quantity::format::number;
use crate::quantity::{AgentMass, Time, kitchen, liters};
use crate::scenario::product::Product;
use crate::visit::Visit;

/// What is printed of a visit, each with its width; the units of the water stand in the headings.
const PRINTED: [(&str, f64); 11] = [
    ("Well", 10.0),
    ("Visit", 5.0),
    ("Type", 10.0),
    ("Measure out", 21.0),
    ("Dilute in", 12.5),
    ("Resulting dose (mg/L as Cl2)", 9.5),
    ("Contact time (h)", 8.5),
    ("Flush water", 9.0),
    ("Flush time (h, approx.)", 9.0),
    ("Neutralizer", 24.0),
    ("Also on its card", 17.0),
];

/// What stands before that: whose list it is. Crews leave from one depot a day, so theirs stands beside what is printed.
const DEPOT: (&str, f64) = ("Depot", 12.0);
const TURN: (&str, f64) = ("Crew, day", 19.5);

/// What stands beside that on the screen; a crew has it on its cards.
const BESIDE: [(&str, f64); 14] = [
    ("Neutralizer, in full", 40.0),
    ("Water treated", 10.0),
    ("Measured for", 9.0),
    ("Lowest dose (mg/L as Cl2)", 9.0),
    ("Brush the walls with", 36.0),
    ("Feed to the spring", 20.0),
    ("Times to empty", 7.0),
    ("Flush to", 20.0),
    ("Cautions", 120.0),
    ("Crew flags", 18.0),
    ("Users", 7.0),
    ("Flooded", 8.0),
    ("Notes", 60.0),
    ("Not understood", 20.0),
];

/// Visits of a depot that do not begin a page.
const FEW: u32 = 12;

/// What is written in by hand.
const BY_HAND: [(&str, f64); 5] = [
    ("Chlorine added (date, time)", 13.0),
    ("Flushed (date, time)", 13.0),
    ("Residual measured (mg/L)", 10.0),
    ("Sample (date)", 10.0),
    ("Initials", 8.0),
];

/// What a crew is told of a visit for which nothing is computed; empty where a wider column is wanted.
const HELD_BACK_HEADS: [&str; 12] = [
    "Depot",
    "Well",
    "Visit",
    "Type",
    "Held back by",
    "Crew flags",
    "Users",
    "Flooded",
    "",
    "",
    "Notes",
    "Not understood",
];

pub(super) fn sheet(matter: &Matter<'_>) -> Sheet {
    let mut sheet = Sheet::new("Crew");
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let by_day = matter.plan.schedule.is_some();
    sheet.title(format!("Crew list by {}: {scenario}", if by_day { "crew and day" } else { "depot" }));
    sheet.wide(
        "A list for the depot, as planned. Each crew takes the cards of crew-sheets.html along: they say where to flush, what to \
         brush, feed and empty, the cautions, the notes, and have room to write. Here those stand to the right on the screen.",
        Role::Total,
    );
    sheet.note(
        "Goggles, gloves, apron. Pump off and locked out. Never mix with acid, ammonia or another product. Never enter a dug \
         well, well pit or spring box. Add product to water, never water to product.",
    );
    sheet.note(
        "Flush until a test shows the required residual, not by the clock. Do not drink until a sample taken after flushing \
         is free of coliform bacteria. Local code and licensed practice come first.",
    );
    sheet.note(
        "Also on its card: brush the walls, feed the spring, empty the well, a better agent, no discharge point on record \
         (where?), flags, notes.",
    );
    sheet.note("Neutralizer none: none is included; keep flush water away from streams, ditches and drains.");
    sheet.note(
        "Times to empty: brush the walls from above first; after the contact time pump the well empty, let it refill, wait \
         and measure; repeat until below the limit. Feed: this much product each hour of the contact time while the spring \
         runs.",
    );
    for says in super::defaults::of_run(matter) {
        sheet.wide(says, Role::Flagged);
    }
    for (told, _) in super::crew_days::told(matter) {
        sheet.note(told);
    }
    super::site::lines(matter, &mut sheet);
    let others = matter.plan.cases.len().saturating_sub(1);
    if others > 0 {
        sheet.note(format!(
            "For this scenario only, whichever is picked on Summary; {others} others are on the Wells sheet. Run again with --only \
             and its name for a list and cards of another."
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
            "Amounts are rounded up to the measure, by an eighth at most (from 10 to 40 mL to the next 5 mL). Measured for typical: with \
             more water or weaker product than was planned with, a well gets less than the target (see Lowest dose). Measured for \
             high: the target is met even then.",
        );
    }
    let whose = if by_day { TURN } else { DEPOT };
    let depot_beside = by_day.then_some(&DEPOT);
    let columns = || std::iter::once(&whose).chain(&PRINTED).chain(depot_beside).chain(&BESIDE).chain(&BY_HAND);
    let volume = Shown::of("L", system);
    sheet.heads(
        columns().map(|(head, _)| if *head == "Flush water" { volume.heading(head) } else { (*head).to_owned() }),
    );
    // Crews leave from a depot: their rows stand together, in the order of the lists.
    let mut rows: Vec<(&Visit, &Requirement)> =
        matter.visits().iter().filter_map(|treated| Some((&treated.visit, treated.need(0)?))).collect();
    let place = |visit: &Visit| visit.turn().map_or((usize::MAX, 0), |turn| (turn.of.place, turn.stop));
    // A crew takes its days along as one list; without a crew, a depot.
    let group = |visit: &&Visit| match visit.turn() {
        Some(turn) => (turn.of.crew.clone(), String::new()),
        None => (String::new(), visit.depot().to_owned()),
    };
    rows.sort_by(|(a, _), (b, _)| (place(a), a.depot()).cmp(&(place(b), b.depot())));
    let mut begun = sheet.rows.len() as u32;
    let mut current = rows.first().map(|(visit, _)| group(visit));
    for (visit, need) in rows {
        if current != Some(group(&visit)) {
            current = Some(group(&visit));
            // A handful of visits is no reason for a page of its own.
            let row = sheet.rows.len() as u32;
            if row - begun >= FEW {
                sheet.layout.breaks.push(row);
                begun = row;
            }
        }
        let blanks = std::iter::repeat_n(Cell::empty().with_role(Role::Blank), BY_HAND.len());
        let depot = Cell::text(visit.depot());
        let (whose, depot) = match visit.turn() {
            Some(turn) => (Cell::text(format!("{}, {}", turn.of.crew, turn.of.day)), Some(depot)),
            None if by_day => (Cell::text("no day").with_role(Role::Flagged), Some(depot)),
            None => (depot, None),
        };
        let row = std::iter::once(whose).chain(printed(visit, need, system)).chain(depot);
        sheet.push(row.chain(beside(visit, need, system)).chain(blanks).collect());
    }
    held_back(matter, &mut sheet);
    sheet.layout.widths = columns().map(|(_, width)| *width).collect();
    sheet.layout.printed_columns = Some(PRINTED.len() as u16 + 1);
    sheet.layout.frozen_columns = 2;
    sheet
}

/// Visits without an amount: a crew that is there anyway knows who drinks there, what to look out for and what to measure.
fn held_back(matter: &Matter<'_>, sheet: &mut Sheet) {
    let visits = matter.visits().iter().map(|treated| &treated.visit);
    let mut rows = visits.filter(|visit| matches!(visit, Visit::HeldBack { .. })).peekable();
    if rows.peek().is_none() {
        return;
    }
    sheet.gap();
    sheet.wide(
        "Held back: no amount is computed, do not treat. The Findings sheet says what to measure.",
        Role::Flagged,
    );
    // Below the columns of the visits with amounts.
    sheet.push(HELD_BACK_HEADS.map(Cell::head).into());
    let flagged = |text: &str| Cell::text(text).with_role(Role::Flagged);
    for visit in rows {
        sheet.push(vec![
            flagged(visit.depot()),
            flagged(visit.id()),
            flagged(visit.visit()),
            flagged(visit.well_type()),
            flagged(visit.reasons()),
            flagged(visit.crew_flags()),
            Cell::number(visit.users_served(), 0),
            flagged(visit.flooded()),
            Cell::empty(),
            Cell::empty(),
            flagged(visit.notes()),
            flagged(visit.not_understood()),
        ]);
    }
}

/// One visit as it is printed.
fn printed(visit: &Visit, need: &Requirement, system: UnitSystem) -> [Cell; 11] {
    let volume = Shown::of("L", system);
    let time = need.flush_time.map_or_else(|| Cell::text("not known"), |time| Cell::number(hours(time), 1));
    [
        Cell::text(visit.id()),
        Cell::text(visit.visit()),
        Cell::text(visit.well_type().replace('_', " ")),
        Cell::text(kitchen::words(need.measured_amount, need.measured_unit)),
        Cell::text(dilution(need, system)),
        Cell::number(need.measured_dose.milligrams_per_liter(), 0),
        Cell::text(hold(need)),
        Cell::number(volume.value(liters(need.flush_volume)), 0),
        time,
        Cell::text(agent(need, system)),
        Cell::text(on_the_card(visit, need)),
    ]
}

/// What else its card says, in a few words.
fn on_the_card(visit: &Visit, need: &Requirement) -> String {
    let has_wash = need.wash.is_some_and(|wash| wash.solution.value > 0.0);
    let named = [
        (has_wash, "brush"),
        (need.feed.is_some(), "feed"),
        (need.emptyings.is_some(), "empty"),
        (need.neutralizer_instead.is_some(), "agent"),
        (need.route.is_none(), "where?"),
        (!visit.crew_flags().is_empty(), "flags"),
        (!visit.notes().is_empty() || !visit.not_understood().is_empty(), "notes"),
    ];
    named.iter().filter(|(is_so, _)| *is_so).map(|(_, word)| *word).collect::<Vec<_>>().join(", ")
}

/// The same visit, the rest of it.
fn beside(visit: &Visit, need: &Requirement, system: UnitSystem) -> [Cell; 14] {
    [
        Cell::text(neutralizer(need, system)),
        Cell::text(shown(liters(need.treated_volume), "L", system)),
        Cell::text(need.measure_for.name()),
        Cell::number(need.least_dose.milligrams_per_liter(), 0),
        Cell::text(wash(need, system)),
        Cell::text(feed(need, system)),
        Cell::new(Value::optional(need.emptyings, 0), Role::Body),
        Cell::text(match need.route {
            None => "not on record: check before flushing".to_owned(),
            Some(DischargeRoute::Septic) => "open ground or hauled away, NOT the septic system".to_owned(),
            Some(route) => route.name().replace('_', " "),
        }),
        Cell::text(need.cautions.sentences()),
        Cell::text(visit.crew_flags()),
        Cell::number(visit.users_served(), 0),
        Cell::text(visit.flooded()),
        Cell::text(visit.notes()),
        Cell::text(visit.not_understood()),
    ]
}

fn dilution(need: &Requirement, system: UnitSystem) -> String {
    match measure_dilution(need.predilution, need.treated_volume, system) {
        Some(water) => kitchen::bucket(water.amount, water.unit),
        None => "not diluted".to_owned(),
    }
}

fn wash(need: &Requirement, system: UnitSystem) -> String {
    match need.wash {
        Some(wash) if wash.solution.value > 0.0 => {
            let amount = kitchen::words(wash.amount, wash.unit);
            format!("{amount} in {}", shown(liters(wash.solution), "L", system))
        }
        _ => String::new(),
    }
}

fn feed(need: &Requirement, system: UnitSystem) -> String {
    let amount = match need.feed.map(|feed| feed.per_hour) {
        Some(Amount::Liquid { volume, .. }) => shown(volume.liters(), "L", system),
        Some(Amount::Dry(mass)) => shown(mass.kilograms(), "kg", system),
        None => return String::new(),
    };
    format!("{amount} each hour of the contact time")
}

/// A number of a unit of the tables, in the unit that people of this system read.
fn shown(value: f64, symbol: &'static str, system: UnitSystem) -> String {
    let shown = Shown::of(symbol, system);
    format!("{} {}", number(shown.value(value), 3), shown.symbol)
}

fn hours(time: Time) -> f64 {
    time.value / 3600.0
}

fn hold(need: &Requirement) -> String {
    let said = number(hours(need.hold), 3);
    match need.hold_required {
        Some(required) if need.cautions.has(Caution::HoldTooShort) => {
            format!("{said}; a shorter time was stated, the rule requires {}", number(hours(required), 3))
        }
        Some(required) => format!("{said}; the rule requires {}", number(hours(required), 3)),
        None => said,
    }
}

/// Agent and amount in a few words.
fn agent(need: &Requirement, system: UnitSystem) -> String {
    match need.neutralizer {
        None => "none".to_owned(),
        Some(agent) => weigh(need.neutralizer_mass.kilograms(), system).map_or("none needed".to_owned(), |weight| {
            let amount = kitchen::words(weight.amount, weight.unit);
            format!("{amount} of {}", agent.name().replace('_', " "))
        }),
    }
}

fn weighed(agent: Agent, mass: AgentMass, system: UnitSystem) -> Option<String> {
    weigh(mass.kilograms(), system)
        .map(|weight| format!("{} of {}", kitchen::words(weight.amount, weight.unit), agent.plain_name()))
}

/// Agent and amount, never a weight of nothing.
fn neutralizer(need: &Requirement, system: UnitSystem) -> String {
    let amount = |agent, mass| weighed(agent, mass, system);
    let Some(agent) = need.neutralizer else {
        return "None included; keep flush water away from streams, ditches and drains.".to_owned();
    };
    let Some(said) = amount(agent, need.neutralizer_mass) else {
        return "None needed: the chlorine left is below the limit. Test it.".to_owned();
    };
    let other = need.neutralizer_instead.zip(need.neutralizer_instead_mass);
    match other.and_then(|(other, mass)| amount(other, mass)) {
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
