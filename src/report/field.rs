//! The Crew sheet: a depot's list, one row a visit, for the scenario that is picked where the workbook can follow it, else for the
//! first. What is printed fits a page's width; the rest, and room to write down what was done, stand beside it. Crews take the cards
//! along.
//!
//! Amounts are said as people measure them, routes, agents and cautions in whole words; the tables keep numbers and codes.

use super::Matter;
use super::crew::whereabouts;
use super::field_words as words;
use super::live::{Crew, Follows, Now, tidy};
use super::show::Shown;
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::figure;
use crate::document::formula::{Copied, Pieces};
use crate::field::DischargeRoute;
use crate::field::rules::UnitSystem;
use crate::quantity::liters;
use crate::visit::{Need, TreatedVisit, Visit};

/// A column: heading, width, and how it follows the scenario that is picked.
type Column = (&'static str, f64, Now);

/// What is printed of a visit, each with its width; the units of the water stand in the headings.
const PRINTED: [Column; 11] = [
    ("Well", 9.0, Now::Stays),
    ("Visit", 5.0, Now::Stays),
    ("Type", 9.0, Now::Stays),
    ("Measure out", 24.5, Now::Measure),
    ("Dilute in", 12.5, Now::Dilution),
    ("Resulting dose (mg/L as Cl2)", 9.5, Now::Figure("Wells_dose")),
    ("Contact time (h)", 8.0, Now::Hold),
    ("Flush water", 9.0, Now::Figure("Wells_flush")),
    ("Flush time (h, approx.)", 9.0, Now::FigureOr("Wells_hours", NOT_KNOWN)),
    ("Neutralizer", 27.5, Now::Neutralizer),
    ("Also on its card", 13.5, Now::Said("Said_card")),
];

/// Whose well it is and where, behind its number, where the lists tell.
const WHERE: Column = ("Owner, place", 14.0, Now::Stays);
/// Where that stands among the columns.
const WHERE_AT: usize = 2;
/// What the others give up of their widths for it: they wrap, and the page is not scaled below what can be read.
const WHERE_GIVES: [(&str, f64); 4] =
    [("Measure out", 4.5), ("Dilute in", 2.0), ("Neutralizer", 7.0), ("Also on its card", 1.5)];

const NOT_KNOWN: &str = "not known";

/// What stands before that: whose list it is. Crews leave from one depot a day, so theirs stands beside what is printed.
const DEPOT: Column = ("Depot", 12.0, Now::Stays);
const TURN: Column = ("Crew, day", 18.5, Now::Stays);

/// What stands beside that on the screen; a crew has it on its cards.
const BESIDE: [Column; 14] = [
    ("Neutralizer, in full", 40.0, Now::Said("Said_in_full")),
    (TREATED, 10.0, Now::Figure("Wells_treated")),
    ("Measured for", 9.0, Now::Word("Wells_measured_for")),
    ("Lowest dose (mg/L as Cl2)", 9.0, Now::Figure("Wells_least_dose")),
    ("Brush the walls with", 36.0, Now::Said("Said_brush")),
    ("Feed to the spring", 20.0, Now::Said("Said_feed")),
    ("Times to empty", 7.0, Now::Figure("Wells_emptyings")),
    ("Flush to", 20.0, Now::Stays),
    ("Cautions", 120.0, Now::Said("Said_cautions")),
    ("Crew flags", 18.0, Now::Stays),
    ("Users", 7.0, Now::Stays),
    ("Flooded", 8.0, Now::Stays),
    ("Notes", 60.0, Now::Stays),
    ("Not understood", 20.0, Now::Stays),
];

const FLUSHED: &str = "Flush water";
const TREATED: &str = "Water treated";

/// What the formulas of a row count with.
const KEYS: [Column; 3] = [
    ("Rows before it on Wells", 9.0, Now::Stays),
    ("Its row on Wells", 9.0, Now::Stays),
    ("Inputs changed: 1", 9.0, Now::Stays),
];

/// Visits of a depot that do not begin a page.
const FEW: u32 = 12;

/// What is written in by hand.
const BY_HAND: [Column; 5] = [
    ("Chlorine added (date, time)", 13.0, Now::Stays),
    ("Flushed (date, time)", 13.0, Now::Stays),
    ("Residual measured (mg/L)", 10.0, Now::Stays),
    ("Sample (date)", 10.0, Now::Stays),
    ("Initials", 8.0, Now::Stays),
];

pub(super) fn sheet(matter: &Matter<'_>, follows: Option<&Follows>) -> Sheet {
    let mut sheet = Sheet::new("Crew");
    let follows = follows.and_then(|follows| follows.crew);
    let by_day = matter.plan.schedule.is_some();
    head(matter, &mut sheet, follows.is_some());
    let whose = if by_day { TURN } else { DEPOT };
    let depot_beside = by_day.then_some(&DEPOT);
    let keys = KEYS.iter().filter(|_| follows.is_some());
    let mut columns: Vec<&Column> = std::iter::once(&whose)
        .chain(&PRINTED)
        .chain(depot_beside)
        .chain(&BESIDE)
        .chain(&BY_HAND)
        .chain(keys)
        .collect();
    let carried = &matter.plan.carried;
    let visits = matter.visits();
    let tells_where = visits.iter().any(|treated| !whereabouts(&treated.visit, carried).is_empty());
    if tells_where {
        columns.insert(WHERE_AT, &WHERE);
    }
    let with_where = |cells: &mut Vec<Cell>, visit: &Visit| {
        if tells_where {
            cells.insert(WHERE_AT, Cell::text(whereabouts(visit, carried)));
        }
    };
    let system = matter.plan.campaign.system;
    let volume = Shown::of("L", system);
    sheet.heads(columns.iter().map(|(head, ..)| match *head {
        FLUSHED | TREATED => volume.heading(head),
        head => head.to_owned(),
    }));
    let first_key = (columns.len() - KEYS.len()) as u16;
    let (row_on_wells, changed) = (first_key + 1, first_key + 2);
    let formulas: Vec<Option<Copied>> =
        columns.iter().map(|column| follows.and_then(|crew| crew.made(column.2, row_on_wells, changed))).collect();
    let key_formulas = (Crew::row(first_key), Crew::changed(row_on_wells));
    // Crews leave from a depot: their rows stand together, in the order of the lists.
    let mut rows: Vec<(usize, &Need)> =
        visits.iter().enumerate().filter_map(|(at, treated)| Some((at, treated.need(0)?))).collect();
    let place = |visit: &Visit| visit.turn().map_or((usize::MAX, 0), |turn| (turn.of.place, turn.stop));
    // A crew takes its days along as one list; without a crew, a depot.
    let group = |visit: &Visit| match visit.turn() {
        Some(turn) => (turn.of.crew.clone(), String::new()),
        None => (String::new(), visit.depot().to_owned()),
    };
    let order = |at: usize| (place(&visits[at].visit), visits[at].visit.depot());
    rows.sort_by(|(a, _), (b, _)| order(*a).cmp(&order(*b)));
    let mut begun = sheet.rows.len() as u32;
    let mut current = rows.first().map(|(at, _)| group(&visits[*at].visit));
    for (at, need) in rows {
        let (treated, visit) = (&visits[at], &visits[at].visit);
        if current != Some(group(visit)) {
            current = Some(group(visit));
            // A handful of visits is no reason for a page of its own.
            let row = sheet.rows.len() as u32;
            if row - begun >= FEW {
                sheet.layout.breaks.push(row);
                begun = row;
            }
        }
        let depot = Cell::text(visit.depot());
        let (whose, depot) = match visit.turn() {
            Some(turn) => (Cell::text(format!("{}, {}", turn.of.crew, turn.of.day)), Some(depot)),
            None if by_day => (Cell::text("no day").with_role(Role::Flagged), Some(depot)),
            None => (depot, None),
        };
        let blanks = std::iter::repeat_n(Cell::empty().with_role(Role::Blank), BY_HAND.len());
        let row_of = |need: &Need| {
            let row = std::iter::once(whose.clone()).chain(printed(visit, need, system)).chain(depot.clone());
            let mut row: Vec<Cell> = row.chain(beside(visit, need, system)).chain(blanks.clone()).collect();
            with_where(&mut row, visit);
            row
        };
        let row = row_of(need);
        let of_stock = super::crew::of_older_stock(matter, treated);
        // What is poured decides the whole row: dose, dilution and neutralizer too.
        let row_of_stock = of_stock.as_ref().and_then(|said| said.need.as_ref()).map(row_of);
        let differs =
            |at: usize| row_of_stock.as_ref().filter(|own| own[at].value != row[at].value).map(|own| &own[at]);
        let other: Vec<Option<Cell>> = (0..row.len()).map(|at| differs(at).cloned()).collect();
        let mut cells: Vec<Cell> =
            row.into_iter().zip(&formulas).map(|(cell, formula)| living(cell, formula.as_ref())).collect();
        if let Some(said) = &of_stock {
            for ((cell, (_, _, now)), other) in cells.iter_mut().zip(&columns).zip(&other) {
                let text = match (now, other) {
                    (Now::Measure, _) => said.measure.clone(),
                    (Now::Said("Said_brush"), _) => said.brush.clone(),
                    (Now::Said("Said_feed"), _) => said.feed.clone(),
                    (_, Some(other)) => in_words(other),
                    _ => continue,
                };
                let formula =
                    follows.map(|_| Cell::formula(Crew::of_first(&text, changed))).filter(|_| !text.is_empty());
                *cell = formula.unwrap_or_else(|| Cell::text(text)).with_role(cell.role);
            }
        }
        if follows.is_some() {
            let before = at * matter.plan.cases.len();
            cells.push(Cell::count(before as u64));
            cells.push(Cell::formula(key_formulas.0.giving(before as f64 + 1.0, 0)));
            cells.push(Cell::formula(key_formulas.1.giving(0.0, 0)));
            let mut longest = room(treated, system);
            with_where(&mut longest, visit);
            let measured = columns.iter().position(|column| matches!(column.2, Now::Measure));
            if let (Some(said), Some(cell)) = (&of_stock, measured.and_then(|at| longest.get_mut(at))) {
                *cell = Cell::text(&said.measure);
            }
            sheet.layout.room.push((sheet.rows.len() as u32, longest));
        }
        sheet.push(cells);
    }
    let given_up = |head: &str| WHERE_GIVES.iter().find(|(of, _)| tells_where && *of == head).map_or(0.0, |of| of.1);
    sheet.layout.widths = columns.iter().map(|(head, width, _)| width - given_up(head)).collect();
    sheet.layout.printed_columns = Some(PRINTED.len() as u16 + 1 + u16::from(tells_where));
    sheet.layout.frozen_columns = 2;
    sheet
}

/// What stands above the rows.
fn head(matter: &Matter<'_>, sheet: &mut Sheet, follows: bool) {
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let title = format!("Crew list by {}: ", if matter.plan.schedule.is_some() { "crew and day" } else { "depot" });
    let said = format!("{title}{scenario}");
    if follows {
        let pieces = Pieces::quoted(&title).then("&Picked_scenario");
        wide(sheet, Cell::formula(pieces.saying(said)).with_role(Role::Title));
    } else {
        sheet.title(said);
    }
    sheet.wide(
        "A list for the depot. Each crew takes the cards of crew-sheets.html along: they say where to flush, what to \
         brush, feed and empty, the cautions, the notes, and have room to write. Here those stand to the right on the screen.",
        Role::Total,
    );
    let of_first = words::of_scenario(matter, 0);
    let gone = matter.plan.cases.first().is_some_and(words::is_gone);
    let role = if gone { Role::Flagged } else { Role::Total };
    if follows {
        let first = Pieces::text("IF(Picked=1,")
            .and(Pieces::quoted("The cards in crew-sheets.html are those of this scenario."))
            .then(",")
            .and(Pieces::quoted(&format!(
                "DO NOT TAKE THE CARDS ALONG: those in crew-sheets.html are for another scenario. For the cards of this one {}.",
                matter.cards_of_another()
            )))
            .then(")");
        let cards = first.saying("The cards in crew-sheets.html are those of this scenario.");
        wide(sheet, Cell::formula(cards).with_role(Role::Total));
        let said = Pieces::text("INDEX(Said_to_crews,Picked)&\"\"").saying(&of_first);
        wide(sheet, Cell::formula(said).with_role(role));
        let longest = (0..matter.plan.cases.len()).map(|at| words::of_scenario(matter, at));
        if let Some(longest) = longest.max_by_key(|said| said.chars().count()) {
            sheet.layout.room.push((sheet.rows.len() as u32 - 1, vec![Cell::text(longest).with_role(role)]));
        }
    } else {
        let others = matter.plan.cases.len().saturating_sub(1);
        if others > 0 {
            sheet.wide(
                format!(
                    "For this scenario only, whichever is picked on Summary; {others} others are on the Wells sheet. For a list and \
                     cards of another {}.",
                    matter.cards_of_another()
                ),
                Role::Flagged,
            );
        }
        sheet.wide(of_first, role);
    }
    if matter.plan.cases.first().is_some_and(|case| !case.own_stock.is_empty()) {
        sheet.note(
            "Where an amount names the stock and its strength, its whole row is for that strength, as its card is.",
        );
    }
    sheet.note(
        "Goggles, gloves, apron. Pump off and locked out. Never mix with acid, ammonia or another product. Never enter a dug \
         well, well pit or spring box. Add product to water, never water to product.",
    );
    sheet.note(
        "Flush until a test shows the required residual, not by the clock, and with an aged product not before all of the flush \
         water has run. Do not drink until a sample taken after flushing \
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
    sheet.note(
        "Amounts are rounded up to the measure, by an eighth at most; less than a teaspoon to the next eighth of one and 10 to 40 mL to \
         the next 5 mL, which can be half as much again or more.",
    );
    for says in super::defaults::of_run(matter) {
        sheet.wide(says, Role::Flagged);
    }
    for (told, _) in super::crew_days::told(matter) {
        sheet.note(told);
    }
    super::site::lines(matter, sheet);
    if let Some(rest) = matter.rest() {
        sheet.wide(rest, Role::Flagged);
    }
}

/// What a cell shows, as text.
fn in_words(cell: &Cell) -> String {
    match &cell.value {
        Value::Number { value, digits } => figure::number(*value, *digits),
        Value::Count(count) => count.to_string(),
        value => value.as_text().unwrap_or_default().to_owned(),
    }
}

/// A line that runs over the columns, of a cell that is a formula.
fn wide(sheet: &mut Sheet, cell: Cell) {
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![cell]);
}

/// A cell of the first scenario as the formula that gives it.
fn living(cell: Cell, formula: Option<&Copied>) -> Cell {
    let Some(formula) = formula else { return cell };
    let made = match &cell.value {
        Value::Number { value, digits } => formula.giving(tidy(*value), *digits),
        Value::Count(count) => formula.giving(*count as f64, 0),
        value => formula.saying(value.as_text().unwrap_or_default()),
    };
    Cell::formula(made).with_role(cell.role)
}

/// The longest that the printed columns of a visit may come to say, in any scenario: its row is as tall as that needs.
fn room(treated: &TreatedVisit, system: UnitSystem) -> Vec<Cell> {
    let mut longest: Vec<Cell> = Vec::new();
    let mut case = 0;
    while let Some(need) = treated.need(case) {
        let cells = printed(&treated.visit, need, system);
        longest.resize(cells.len() + 1, Cell::empty());
        let letters = |cell: &Cell| cell.value.as_text().map_or(0, |text| text.chars().count());
        for (known, cell) in longest.iter_mut().skip(1).zip(cells) {
            if letters(&cell) > letters(known) {
                *known = cell;
            }
        }
        case += 1;
    }
    longest
}

/// One visit as it is printed.
fn printed(visit: &Visit, need: &Need, system: UnitSystem) -> [Cell; 11] {
    let volume = Shown::of("L", system);
    let time = need.flush_time.map_or_else(|| Cell::text(NOT_KNOWN), |time| Cell::number(words::hours(time), 1));
    [
        Cell::text(visit.id()),
        Cell::text(visit.visit()),
        Cell::text(visit.well_type().replace('_', " ")),
        Cell::text(words::measure(need)),
        Cell::text(words::dilution(need, system)),
        Cell::number(need.measured_dose.milligrams_per_liter(), 0),
        Cell::text(words::hold(need)),
        Cell::number(volume.value(liters(need.flush_volume)), 0),
        time,
        Cell::text(words::agent(need, system)),
        Cell::text(words::on_the_card(visit, need)),
    ]
}

/// The same visit, the rest of it.
fn beside(visit: &Visit, need: &Need, system: UnitSystem) -> [Cell; 14] {
    let volume = Shown::of("L", system);
    [
        Cell::text(words::neutralizer(need, system)),
        Cell::number(volume.value(liters(need.treated_volume)), 0),
        Cell::text(need.measure_for.name()),
        Cell::number(need.least_dose.milligrams_per_liter(), 0),
        Cell::text(words::wash(need, system)),
        Cell::text(words::feed(need, system)),
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
