//! Rows that are not wells: counted, and said once for each list.

use std::collections::BTreeMap;

use crate::finding::{Finding, catalogue};
use crate::hazard::Hazards;
use crate::inventory::RowKind;
use crate::place::{Origin, Place};

/// Rows of one kind whose numbers are named; a finding must stay readable.
const MOST_NAMED: usize = 40;

/// Rows of one kind whose words are quoted.
const MOST_QUOTED: usize = 12;

/// A row that is not a well.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherRow {
    /// File, sheet and row that it was read from.
    pub place: Place,
    /// What it is instead: a heading, a total, a remark, a well that is gone.
    pub kind: RowKind,
    /// The words that say so, as typed.
    pub seen: Box<str>,
    /// Whether its words tell of people who must not be forgotten: infants, patients.
    pub people: Hazards,
}

/// The rows that are not wells, by list and kind.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OtherRows {
    lists: BTreeMap<Origin, BTreeMap<RowKind, Rows>>,
    /// For each list, how many rows tell of infants or patients, and the first of them with its words.
    people: BTreeMap<Origin, (usize, Vec<(u32, String)>)>,
    count: u64,
}

#[derive(Debug, Clone, Default, PartialEq)]
struct Rows {
    count: usize,
    /// Runs of row numbers, first and last.
    runs: Vec<(u32, u32)>,
    words: Vec<(u32, Box<str>)>,
}

impl OtherRows {
    /// Takes a row into account; rows must come in reading order.
    pub fn take(&mut self, row: OtherRow) {
        self.count += 1;
        if !row.people.is_empty() {
            let (count, named) = self.people.entry(row.place.origin.clone()).or_default();
            *count += 1;
            if named.len() < MOST_QUOTED {
                let told: Vec<&str> = row.people.iter().map(|entry| entry.what).collect();
                named.push((row.place.row.unwrap_or_default(), told.join("; ")));
            }
        }
        let rows = self.lists.entry(row.place.origin.clone()).or_default().entry(row.kind).or_default();
        rows.count += 1;
        let number = row.place.row.unwrap_or_default();
        let runs = rows.runs.len();
        match rows.runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ if runs < MOST_NAMED => rows.runs.push((number, number)),
            _ => {}
        }
        if row.kind.is_thing() && rows.words.len() < MOST_QUOTED {
            rows.words.push((number, row.seen));
        }
    }

    /// How many rows of all lists are not wells.
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// How many rows of each kind, over all lists.
    pub fn by_kind(&self) -> BTreeMap<RowKind, u64> {
        let mut kinds = BTreeMap::new();
        for (kind, rows) in self.lists.values().flatten() {
            *kinds.entry(*kind).or_default() += rows.count as u64;
        }
        kinds
    }

    /// One finding for each list, in order of the lists' names, and one where such rows tell of people.
    pub fn findings(&self) -> Vec<Finding> {
        let rows = self.lists.iter().map(|(origin, kinds)| finding(origin, kinds));
        rows.chain(self.people.iter().map(|(origin, (count, named))| of_people(origin, *count, named))).collect()
    }
}

fn of_people(origin: &Origin, count: usize, named: &[(u32, String)]) -> Finding {
    let rows =
        if count == 1 { "row that is not taken for a well tells" } else { "rows that are not taken for wells tell" };
    let mut each: Vec<String> = named.iter().map(|(row, what)| format!("row {row}: {what}")).collect();
    if named.len() < count {
        each.push(format!("and {} more", count - named.len()));
    }
    let says = format!("{count} {rows} of people whom bad water harms first: {}", each.join("; "));
    let help = "read these rows: if one is a well that people drink from, correct the words that say otherwise; if not, find \
                out where these people get their water, and see that they have safe water until then";
    Finding::new(catalogue::PEOPLE_WITHOUT_WELL, Place::whole(origin), says, help)
}

fn finding(origin: &Origin, kinds: &BTreeMap<RowKind, Rows>) -> Finding {
    let all: usize = kinds.values().map(|rows| rows.count).sum();
    let are = if all == 1 { "row is not a well" } else { "rows are not wells" };
    let each: Vec<String> = kinds
        .iter()
        .map(|(kind, rows)| format!("{} {} ({})", rows.count, kind.words(rows.count), rows.named()))
        .collect();
    let help = if kinds.keys().any(|kind| kind.is_thing()) {
        "read the words that are quoted: where one of these is a well to be treated, correct them"
    } else {
        "no action needed if correct"
    };
    Finding::new(catalogue::NOT_A_WELL, Place::whole(origin), format!("{all} {are}: {}", each.join("; ")), help)
}

impl Rows {
    /// `rows 14, 30 to 33`; where words are quoted, `row 14 "filled in 1998"`.
    fn named(&self) -> String {
        let word = if self.count == 1 { "row" } else { "rows" };
        let mut named: Vec<String> = if self.words.is_empty() {
            let run = |(first, last): &(u32, u32)| match last - first {
                0 => first.to_string(),
                1 => format!("{first}, {last}"),
                _ => format!("{first} to {last}"),
            };
            self.runs.iter().map(run).collect()
        } else {
            self.words.iter().map(|(row, words)| format!("{row} \"{words}\"")).collect()
        };
        let shown: usize = match self.words.len() {
            0 => self.runs.iter().map(|(first, last)| (last - first) as usize + 1).sum(),
            quoted => quoted,
        };
        if shown < self.count {
            named.push(format!("and {} more", self.count - shown));
        }
        format!("{word} {}", named.join(", "))
    }
}
