//! Columns of one measure on several dates: `DTW 4/22`, `DTW 4/23`; `SWL 2019`, `SWL Oct 2023`. The latest counts.

use super::evidence::{OPEN, Reading};
use super::feed::is_deciding;
use super::{Planner, map_line};
use crate::finding::catalogue;
use crate::inventory::lexicon;
use crate::quantity::unit::Dimension;

/// Months, short and in full, in the languages of the lists.
const MONTHS: [&[&str]; 12] = [
    &["jan", "january", "ene", "enero", "janv", "janvier", "janeiro"],
    &["feb", "february", "febrero", "fev", "fevr", "fevrier", "fevereiro"],
    &["mar", "march", "marzo", "mars", "marco"],
    &["apr", "april", "abr", "abril", "avr", "avril"],
    &["may", "mayo", "mai", "maio"],
    &["jun", "june", "junio", "juin", "junho"],
    &["jul", "july", "julio", "juil", "juillet", "julho"],
    &["aug", "august", "ago", "agosto", "aout"],
    &["sep", "sept", "september", "septiembre", "septembre", "set", "setembro"],
    &["oct", "october", "octubre", "octobre", "outubro"],
    &["nov", "november", "noviembre", "novembre", "novembro"],
    &["dec", "december", "dic", "diciembre", "decembre", "dez", "dezembro"],
];

/// A heading without its date, and the date both ways that two numbers can be read: month and year, month and day.
struct Dated {
    rest: Vec<String>,
    keys: [(u32, u32, u32); 2],
}

/// The date in a heading that measures something else as well.
fn dated(heading: &str) -> Option<Dated> {
    let (mut rest, mut numbers, mut month, mut year) = (Vec::new(), Vec::new(), None, None);
    for word in lexicon::tokens(heading) {
        let month_named = MONTHS.iter().position(|names| names.contains(&lexicon::fold(&word).as_str()));
        match word.parse::<u32>() {
            Ok(number @ 1900..=2099) => year = Some(number),
            Ok(number @ 1..=99) => numbers.push(number),
            Ok(_) => return None,
            Err(_) if month_named.is_some() => month = month_named.map(|at| at as u32 + 1),
            Err(_) => rest.push(word),
        }
    }
    // `Casing 10-20`: from so deep to so deep.
    if year.is_none() && month.is_none() && !heading.contains('/') {
        return None;
    }
    let keys = match (year, month, numbers.as_slice()) {
        (Some(year), Some(month), []) => [(year, month, 0); 2],
        (Some(year), Some(month), [day]) => [(year, month, *day); 2],
        (Some(year), None, []) => [(year, 0, 0); 2],
        (Some(year), None, [month]) => [(year, *month, 0); 2],
        (Some(year), None, [one, other]) => [(year, *one, *other), (year, *other, *one)],
        (None, Some(month), [number]) => [(*number, month, 0), (0, month, *number)],
        (None, None, [one, other]) => [(*other, *one, 0), (0, *one, *other)],
        (None, None, [one, other, year]) => [(*year, *one, *other), (*year, *other, *one)],
        _ => return None,
    };
    (!rest.is_empty()).then_some(Dated { rest, keys })
}

impl Planner<'_> {
    /// Keeps the latest of several dates of one measure, however the dates are read; where that changes which is the latest, all
    /// are left to be told apart.
    pub(super) fn latest_of_series(&mut self, readings: &mut Vec<Reading>) {
        let of_length = |reading: &&Reading| {
            let field = reading.named.field;
            let is_length = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
            is_length && is_deciding(field) && reading.score >= OPEN && !reading.by_hand
        };
        let candidates: Vec<(usize, Dated)> = readings
            .iter()
            .filter(of_length)
            .filter_map(|reading| Some((reading.column, dated(&self.table.headings[reading.column])?)))
            .collect();
        let mut earlier: Vec<(usize, usize)> = Vec::new();
        for (column, date) in &candidates {
            let series = || candidates.iter().filter(|(_, other)| other.rest == date.rest);
            let latest = |way: usize| series().max_by_key(|(_, other)| other.keys[way]).map(|(column, _)| *column);
            let (Some(one), Some(other)) = (latest(0), latest(1)) else { continue };
            let apart = series().filter(|(_, other)| other.keys == date.keys).all(|(other, _)| other == column);
            if one == other && one != *column && apart && !earlier.contains(&(*column, one)) {
                earlier.push((*column, one));
            }
        }
        for (column, latest) in earlier {
            readings.retain(|reading| reading.column != column || reading.by_hand);
            let (of, heading) = (&self.table.headings[column], &self.table.headings[latest]);
            let says = format!("\"{heading}\" is the later one of the same measure and is read; this one is not");
            let help = format!("no action needed if correct; else {}", map_line(of, "field"));
            self.say(catalogue::EARLIER_READINGS, Some(column), says, help);
        }
    }
}
