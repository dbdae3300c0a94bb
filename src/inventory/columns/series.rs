//! Columns of one measure on several dates: `DTW 4/22`, `DTW 4/23`; `SWL 2019`, `SWL Oct 2023`; `DTW Fall 24`, `DTW Spr 25`.
//! The latest counts; a level that it lacks is taken from the one before.

use super::evidence::{OPEN, Reading};
use super::feed::is_deciding;
use super::{Planner, map_line};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::dated_heading::{Dated, dated};
use crate::inventory::lexicon;
use crate::quantity::unit::Dimension;

impl Planner<'_> {
    /// Keeps the latest of several dates of one measure, however the dates are read; where that changes which is the latest, all
    /// are left to be told apart. Gives the levels before the latest, the later first, each with the column of that.
    pub(super) fn latest_of_series(&mut self, readings: &mut Vec<Reading>) -> Vec<(usize, Reading)> {
        let of_length = |reading: &&Reading| {
            let field = reading.named.field;
            let is_length = field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length);
            is_length && is_deciding(field) && reading.score >= OPEN && !reading.by_hand
        };
        // `11/12`, `2/20`, `4/3` below `Depth to water`: the group says what is measured.
        let dated_of = |column: usize| {
            let heading = &self.table.headings[column];
            let group = self.table.layout.groups.get(column).filter(|group| !group.is_empty());
            dated(heading).or_else(|| dated(&format!("{} {heading}", group?)))
        };
        let mut candidates: Vec<(usize, Dated)> = Vec::new();
        for reading in readings.iter().filter(of_length) {
            if !candidates.iter().any(|(column, _)| *column == reading.column) {
                candidates.extend(dated_of(reading.column).map(|dated| (reading.column, dated)));
            }
        }
        over_new_year(&mut candidates);
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
        let key = |column: usize| candidates.iter().find(|(of, _)| *of == column).map(|(_, date)| date.keys);
        // Levels of one series, the later first.
        earlier.sort_by_key(|(column, latest)| (*latest, std::cmp::Reverse(key(*column))));
        let mut before: Vec<(usize, Reading)> = Vec::new();
        for (column, latest) in &earlier {
            let is_level = |reading: &&Reading| {
                reading.column == *column && reading.named.field == Field::StaticWaterLevel && !reading.by_hand
            };
            let level = readings.iter().find(is_level);
            let (of, heading) = (&self.table.headings[*column], &self.table.headings[*latest]);
            let use_of_it =
                if level.is_some() { "this one only where that has no level at rest" } else { "this one is not" };
            let says = format!("\"{heading}\" is the later one of the same measure and is read; {use_of_it}");
            let help = format!("no action needed if correct; else {}", map_line(of, "field"));
            before.extend(level.map(|level| (*latest, level.clone())));
            self.say(catalogue::EARLIER_READINGS, Some(*column), says, help);
        }
        readings.retain(|reading| reading.by_hand || earlier.iter().all(|(column, _)| *column != reading.column));
        before
    }

    /// Whether a note says that of several dates the last one with a number counts: `go by the last round that has a number`.
    pub(super) fn last_number_counts(&self) -> bool {
        const LAST: [&str; 13] = [
            "last", "latest", "newest", "recent", "ultimo", "ultima", "dernier", "derniere", "recente", "recent",
            "reciente", "freshest", "lastest",
        ];
        const NUMBER: [&str; 30] = [
            "number",
            "numbers",
            "reading",
            "readings",
            "level",
            "levels",
            "figure",
            "value",
            "measurement",
            "measure",
            "round",
            "rounds",
            "date",
            "visit",
            "entry",
            "column",
            "nivel",
            "lectura",
            "medida",
            "medicion",
            "ronda",
            "fecha",
            "niveau",
            "mesure",
            "releve",
            "leitura",
            "medicao",
            "valor",
            "rodada",
            "data",
        ];
        const COUNTS: [&str; 22] = [
            "go", "goes", "use", "used", "take", "taken", "counts", "count", "valid", "applies", "holds", "usar",
            "use", "tomar", "tome", "vale", "cuenta", "prendre", "utiliser", "compte", "usa", "conta",
        ];
        // `use last year's levels` names a date.
        const OF_TIME: [&str; 8] = ["year", "years", "week", "weeks", "month", "summer", "winter", "season"];
        let sentences = self.table.layout.notes.iter().flat_map(|note| note.split(['.', ';', '\n']));
        sentences.into_iter().any(|sentence| {
            let words = lexicon::tokens(sentence);
            let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
            has(&LAST) && has(&NUMBER) && has(&COUNTS) && !has(&OF_TIME)
        })
    }
}

/// Puts the dates of a series without years in the order of their columns, where they stand from the first to the last or from the
/// last to the first, also over the end of a year: `11/12`, `2/20`, `4/3` begin in the year before.
fn over_new_year(candidates: &mut [(usize, Dated)]) {
    /// Of two dates alone nobody knows which way they stand.
    const FEWEST: usize = 3;
    let mut series: Vec<Vec<String>> = candidates.iter().map(|(_, date)| date.rest.clone()).collect();
    series.sort();
    series.dedup();
    for rest in series {
        let mut of_it: Vec<&mut (usize, Dated)> = candidates.iter_mut().filter(|(_, date)| date.rest == rest).collect();
        of_it.sort_by_key(|(column, _)| *column);
        let pairs: Option<Vec<(u32, u32)>> = of_it.iter().map(|(_, date)| date.two_numbers()).collect();
        let Some(pairs) = pairs.filter(|pairs| pairs.len() >= FEWEST) else { continue };
        let rises: Vec<bool> = ways(&pairs).iter().filter_map(|(keys, over)| rises(keys, *over)).collect();
        let Some(rising) = rises.first().filter(|first| rises.iter().all(|other| other == *first)) else { continue };
        let count = of_it.len() as u32;
        for (at, (_, date)) in (0_u32..).zip(of_it) {
            date.keys = [(if *rising { at } else { count - at }, 0, 0); 2];
        }
    }
}

/// Pairs of numbers as month and day, day and month, month and year, as far as all can be read so; and whether they may go over the
/// end of a year.
fn ways(pairs: &[(u32, u32)]) -> Vec<(Vec<(u32, u32)>, bool)> {
    let month = |number: u32| (1..=12).contains(&number);
    let day = |number: u32| (1..=31).contains(&number);
    let turned = || pairs.iter().map(|(one, other)| (*other, *one)).collect();
    let mut found = Vec::new();
    if pairs.iter().all(|(one, other)| month(*one) && day(*other)) {
        found.push((pairs.to_vec(), true));
    }
    if pairs.iter().all(|(one, other)| day(*one) && month(*other)) {
        found.push((turned(), true));
    }
    if pairs.iter().all(|(one, _)| month(*one)) {
        found.push((turned(), false));
    }
    found
}

/// Whether dates come one after the other, or one before the other; nothing where they do neither.
fn rises(keys: &[(u32, u32)], over_new_year: bool) -> Option<bool> {
    let turns =
        |turns: &dyn Fn((u32, u32), (u32, u32)) -> bool| keys.windows(2).filter(|pair| turns(pair[0], pair[1])).count();
    let (first, last) = (keys.first()?, keys.last()?);
    match (turns(&|one, other| other <= one), turns(&|one, other| other >= one)) {
        (0, _) => Some(true),
        (_, 0) => Some(false),
        (1, _) if over_new_year && last < first => Some(true),
        (_, 1) if over_new_year && last > first => Some(false),
        _ => None,
    }
}
