//! The Field sheet: what a crew takes along, for the first scenario: one row a visit, with room to write down what was done.

use super::Matter;
use super::cell::{Cell, Role, Sheet};
use super::show::Shown;
use crate::engine::KeptCell;
use crate::field::rules::UnitSystem;
use crate::ledger::COLUMNS;
use crate::quantity::format::number as figure;

/// Columns of the ledger that a crew needs, with the digits it can use.
///
/// Names that begin with `=` are put together here.
const COLUMNS_TAKEN: [(&str, &str, usize); 23] = [
    ("depot", "Depot", 0),
    ("well_id", "Well", 0),
    ("visit", "Visit", 0),
    ("well_type", "Type", 0),
    ("treated_volume_l", "Water treated", 0),
    ("measured_amount", "Measure out", 3),
    ("measured_unit", "of", 0),
    ("measured_dose_mg_per_l", "Gives, as Cl2", 0),
    ("predilution_l", "Dilute in", 1),
    ("=wash", "Brush the walls with", 0),
    ("=feed", "Feed to the spring", 0),
    ("hold_h", "Hold", 0),
    ("emptyings", "Empty, times", 0),
    ("flush_volume_l", "Flush about", 0),
    ("flush_h", "Takes about", 1),
    ("=route", "Flush to", 0),
    ("neutralizer_kg", "Neutralizer", 2),
    ("cautions", "Cautions", 0),
    ("crew_flags", "Crew flags", 0),
    ("users_served", "Users", 0),
    ("flooded", "Flooded", 0),
    ("notes", "Notes", 0),
    ("not_understood", "Not understood", 0),
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
    let mut sheet = Sheet::new("Field");
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    sheet.title(format!("Field sheet: {scenario}"));
    sheet.note(
        "Goggles, gloves, apron. Pump off and locked out. Never mix with acid, ammonia or another product. Nobody enters a \
         dug well. Product into water, not water onto product.",
    );
    sheet.note(
        "Flush until a test shows the residual, not until the clock does. No drinking before a clean sample. Local code and \
         licensed practice come first.",
    );
    sheet.note(
        "Empty, times: brush the walls from above first; after the hold pump the well empty, let it refill, wait, measure, and \
         again until below the limit. Feed: as much product each hour, all through the hold, while the spring runs.",
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
    let system = matter.plan.campaign.system;
    let places: Vec<Option<usize>> =
        COLUMNS_TAKEN.iter().map(|(id, ..)| COLUMNS.iter().position(|column| column.id == *id)).collect();
    let shown: Vec<Shown> =
        places.iter().map(|place| Shown::of(place.map_or("", |at| COLUMNS[at].unit), system)).collect();
    let own = COLUMNS_TAKEN.iter().zip(&shown).map(|((_, title, _), shown)| shown.heading(title));
    let by_hand = ["Poured (date, time)", "Flushed (date, time)", "Residual found (mg/L)", "Sample (date)", "Initials"];
    sheet.heads(own.chain(by_hand.map(str::to_owned)));

    let mut rows: Vec<&Vec<KeptCell>> = matter
        .rows()
        .iter()
        .filter(|row| text(row, "scenario") == scenario && text(row, "outcome") == "planned")
        .collect();
    // Crews leave from a depot: their rows stand together, in the order of the lists.
    rows.sort_by(|a, b| text(a, "depot").cmp(text(b, "depot")));
    for row in rows {
        let cells = COLUMNS_TAKEN.iter().zip(&places).zip(&shown).map(|(((id, _, digits), place), shown)| match place
            .and_then(|at| row.get(at))
        {
            _ if id.starts_with('=') => Cell::text(put_together(id, row, system)),
            Some(KeptCell::Text(text)) => Cell::text(&**text),
            Some(KeptCell::Number(value)) => Cell::number(shown.value(*value), *digits),
            None => Cell::empty(),
        });
        let blanks = std::iter::repeat_n(Cell::empty().with_role(Role::Blank), by_hand.len());
        sheet.push(cells.chain(blanks).collect());
    }
    held_back(matter, scenario, &mut sheet);
    sheet.layout.widths = vec![
        13.0, 12.0, 7.0, 10.0, 10.0, 9.0, 10.0, 8.0, 8.0, 20.0, 16.0, 6.0, 7.0, 9.0, 8.0, 20.0, 11.0, 44.0, 18.0, 7.0,
        8.0, 36.0, 20.0, 13.0, 13.0, 10.0, 10.0, 8.0,
    ];
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

/// What a crew reads in one cell although the tables hold it in several.
fn put_together(id: &str, row: &[KeptCell], system: UnitSystem) -> String {
    let show = |symbol: &'static str, value: f64| {
        let shown = Shown::of(symbol, system);
        format!("{} {}", figure(shown.value(value), 3), shown.symbol)
    };
    match id {
        "=wash" if number(row, "wall_wash_l") > 0.0 => format!(
            "{} {} in {}",
            figure(number(row, "wall_wash_amount"), 6),
            text(row, "wall_wash_unit"),
            show("L", number(row, "wall_wash_l"))
        ),
        "=feed" if number(row, "feed_l_per_h") > 0.0 => {
            format!("{} each hour of the hold", show("L", number(row, "feed_l_per_h")))
        }
        "=feed" if number(row, "feed_kg_per_h") > 0.0 => {
            format!("{} each hour of the hold", show("kg", number(row, "feed_kg_per_h")))
        }
        "=route" => match text(row, "discharge_route") {
            "septic" => "open ground or hauled away, NOT the septic system".to_owned(),
            "" => "not known: look first".to_owned(),
            route => route.replace('_', " "),
        },
        _ => String::new(),
    }
}

fn number(row: &[KeptCell], id: &str) -> f64 {
    let at = COLUMNS.iter().position(|column| column.id == id);
    match at.and_then(|at| row.get(at)) {
        Some(KeptCell::Number(value)) => *value,
        _ => f64::NAN,
    }
}

fn text<'a>(row: &'a [KeptCell], id: &str) -> &'a str {
    let at = COLUMNS.iter().position(|column| column.id == id);
    match at.and_then(|at| row.get(at)) {
        Some(KeptCell::Text(text)) => text,
        _ => "",
    }
}
