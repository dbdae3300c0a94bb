//! Who goes out when: what is said of the crews, and the sheet with a row for each day of a crew.

use chrono::NaiveDate;

use super::Matter;
use super::crew;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::figure;
use crate::schedule::{Schedule, Spare};

/// Said where people read days.
const ONE_VISIT: &str = "A visit is counted once: the return to flush after the contact time, emptying again and the visits for \
                         samples are not; leave room for them.";

/// What is said of the crews, each with whether something is to be done about it; nothing where none are stated.
pub fn told(matter: &Matter<'_>) -> Vec<(String, bool)> {
    let Some(schedule) = &matter.plan.schedule else { return Vec::new() };
    let flushing = flushing(matter, 0).map_or_else(String::new, |hours| format!(" Flushing takes {hours}."));
    let mut told = vec![(format!("{}. {ONE_VISIT}{flushing}", days_out(schedule)), false)];
    let left = schedule.left();
    if left > 0 {
        let named = |(depot, count): (&String, &u64)| format!("{} {count}", super::page::depot_name(depot));
        let depots: Vec<String> = schedule.without_day.iter().map(named).collect();
        let planned = schedule.planned;
        told.push((
            format!("{left} of {planned} visits have no day; add crews or days. By depot: {}.", depots.join(", ")),
            true,
        ));
    }
    for Spare { crew, depot, days } in &schedule.spare {
        let stays = match days {
            Some(1) => "has 1 day left".to_owned(),
            Some(days) => format!("has {days} days left"),
            None => "has days left".to_owned(),
        };
        told.push((
            format!(
                "Crew {crew:?} {stays} and loads at {depot} alone: with its Depot left blank (sheet Crews) it takes visits of \
                 the other depots as well."
            ),
            true,
        ));
    }
    for (name, depot) in &schedule.idle {
        let known = |depot: &String| schedule.days.iter().any(|day| day.depot == *depot);
        let why = match depot {
            Some(depot) if !known(depot) && !schedule.without_day.contains_key(depot) => {
                format!("no visit that is planned has the depot {depot:?}")
            }
            _ => "no visit is left for it".to_owned(),
        };
        told.push((format!("Crew {name:?} goes out on no day: {why}."), true));
    }
    told
}

/// `about 1,076 hours in all, without 12 visits whose rate is not known`; nothing where no hours are known.
fn flushing(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let sums = matter.run.totals.overall(scenario);
    let unknown = match sums.flush_unknown {
        0 => String::new(),
        1 => ", without 1 visit whose rate is not known".to_owned(),
        unknown => format!(", without {} visits whose rate is not known", figure::number(unknown as f64, 0)),
    };
    (sums.flush_h > 0.0).then(|| format!("about {} hours in all{unknown}", figure::number(sums.flush_h, 0)))
}

/// What is to be decided about people and days, with the hours that flushing takes; nothing where no hours are known.
pub fn to_decide(matter: &Matter<'_>, scenario: usize) -> Option<String> {
    let hours = flushing(matter, scenario)?;
    let days = matter.plan.schedule.as_ref().map(|schedule| (schedule.crews_out(), schedule.days.len()));
    Some(match days {
        Some((crews, days)) => format!(
            "How many people and days: {crews} {} {days} {} of work, each visit counted once; flushing takes {hours}.",
            if crews == 1 { "crew has" } else { "crews have" },
            if days == 1 { "day" } else { "days" }
        ),
        None => format!("How many people and days: flushing alone takes {hours}."),
    })
}

/// The first and the last date on which a crew goes out.
pub(super) fn dates(matter: &Matter<'_>) -> Option<(NaiveDate, NaiveDate)> {
    first_and_last(matter.plan.schedule.as_ref()?)
}

fn first_and_last(schedule: &Schedule) -> Option<(NaiveDate, NaiveDate)> {
    let dates = || schedule.days.iter().filter_map(|day| day.date);
    dates().min().zip(dates().max())
}

/// `Plan for 2026-05-01`; without a day of the plan the days of the crews, where they have dates.
pub(super) fn day_of_plan(matter: &Matter<'_>) -> String {
    match (matter.date, dates(matter)) {
        (Some(date), _) => format!("Plan for {date}"),
        (None, Some((first, last))) if first == last => {
            format!("Crews go out on {first}; no day of the plan is stated for the age of products")
        }
        (None, Some((first, last))) => {
            format!("Crews go out from {first} to {last}; no day of the plan is stated for the age of products")
        }
        (None, None) => "Plan for no stated day".to_owned(),
    }
}

/// `Crews: 2 go out, 34 days of work in total, from 2026-04-13 to 2026-04-30`.
fn days_out(schedule: &Schedule) -> String {
    let days = match schedule.days.len() {
        1 => "1 day of work".to_owned(),
        days => format!("{days} days of work"),
    };
    let mut text = format!("Crews: {} go out, {days} in total", schedule.crews_out());
    if let Some((first, last)) = first_and_last(schedule) {
        text.push_str(&format!(", from {first} to {last}"));
    }
    if let Some(last) = schedule.days.iter().filter(|day| day.date.is_none()).map(|day| day.number).max() {
        text.push_str(&format!(", those without a date until day {last}"));
    }
    text
}

/// One row a crew and day; nothing where no crews are stated.
pub(super) fn sheet(matter: &Matter<'_>) -> Option<Sheet> {
    let schedule = matter.plan.schedule.as_ref()?;
    let scenario = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let mut sheet = Sheet::new("Crew days");
    sheet.title(format!("Crew days: {scenario}"));
    super::live::warn(matter, &mut sheet);
    for (text, is_open) in told(matter) {
        sheet.wide(text, if is_open { Role::Flagged } else { Role::Total });
    }
    for (text, is_open) in super::measured_out::texts(matter) {
        sheet.wide(text, if is_open { Role::Flagged } else { Role::Note });
    }
    sheet.note(
        "Visits of a depot follow one another along a curve from neighbor to neighbor, where the lists give positions, else in the \
         order of the lists; each day takes the next of them. As planned, for this scenario only; amounts are sums of the cards.",
    );
    for text in crew::counted_for(matter).into_iter().chain(super::on_hand::texts(matter)) {
        sheet.note(text);
    }
    if let Some(text) = crew::on_containers(matter) {
        sheet.note(text);
    }
    sheet.heads([
        "Crew",
        "Day",
        "Depot",
        "Visits",
        "Product, as the cards pour it",
        "With topping up, out of the depot's containers",
        "Neutralizer",
        "Water to mix with",
        "Wells, in the order of the stops",
    ]);
    let mut loads = crew::loads(matter).into_iter().peekable();
    for day in &schedule.days {
        let mut row = vec![
            Cell::text(&day.crew),
            Cell::text(&day.day),
            Cell::text(super::page::depot_name(&day.depot)),
            Cell::count(u64::from(day.stops)),
        ];
        match loads.next_if(|load| load.day.place == day.place) {
            Some(load) => {
                row.extend([load.product, load.containers, load.agents, load.water, load.wells].map(Cell::text));
            }
            None => row.push(Cell::text("not all of its visits stand in this workbook").with_role(Role::Note)),
        }
        sheet.push(row);
    }
    sheet.layout.widths = vec![11.0, 11.0, 12.0, 6.0, 16.0, 28.0, 22.0, 11.0, 90.0];
    // The stops stand on the load lists.
    sheet.layout.printed_columns = Some(8);
    Some(sheet)
}
