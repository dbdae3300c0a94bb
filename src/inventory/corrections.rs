//! Corrections: cells that are read as if something else were typed in them; the lists themselves are never touched.
//!
//! A workbook of findings comes back with right values filled in. A correction names its cell by file, sheet, row and
//! column, and says what was typed there; where the cell holds something else by now, the correction is not applied and
//! a finding says so. A row that a person added without what was typed counts whatever stands there. Knows cells, not fields.

use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

use super::bytes::Tally;
use super::file::open_file;
use super::heading;
use super::list_names::file_name;
use super::rows::Rows;
use super::stamp::Stamp;
use super::table::{Opened, Payload};
use crate::error::{Error, Result};
use crate::field::rules::{ADDED, CORRECTION_HEADINGS, Correction, NO_WELL, ReadingRules};
use crate::finding::{Finding, catalogue};
use crate::place::{Column, Origin, Place};
use crate::quantity::parse::plain;

/// Reads a table of corrections: its rows with a right value, and the SHA-256 of its bytes.
///
/// # Errors
/// When the file cannot be read, or is no table of corrections.
pub fn read(path: &Path) -> Result<(Vec<Correction>, String)> {
    // With every heading mapped away the heading row is found by these and not by the names of fields.
    let columns = CORRECTION_HEADINGS.iter().map(|heading| ((*heading).to_owned(), None)).collect();
    let rules = ReadingRules { columns, ..ReadingRules::default() };
    let name = file_name(path);
    let tally = Arc::<Tally>::default();
    let mut corrections = Vec::new();
    let mut found = false;
    for mut table in open_file(path, &name, &rules, &tally, Stamp::of(path).as_ref())? {
        let column =
            |title: &str| table.headings.iter().position(|heading| heading::squash(heading) == heading::squash(title));
        let (Some(file), Some(row), Some(cell_column), Some(typed), Some(right)) =
            (column("File"), column("Row"), column("Column"), column("As typed"), column("Right value"))
        else {
            continue;
        };
        found = true;
        let (sheet, head, who) = (column("Sheet"), column("Heading"), column("Who and when"));
        let severity = column("Severity");
        let origin = table.origin.sheet.as_deref().map_or_else(|| name.clone(), |sheet| format!("{name}!{sheet}"));
        let Some(source) = &mut table.source else { continue };
        while let Some(payload) = source.next(4096)? {
            let rows = match payload {
                Payload::Chunk(chunk) => chunk.cells(),
                Payload::Rows(rows) => rows,
            };
            for at in 0..rows.len() {
                let cell = |column: usize| rows.cell(at, column).trim();
                let optional = |column: Option<usize>| column.map_or("", cell);
                if cell(right).is_empty() {
                    continue;
                }
                let mut correction = Correction {
                    place: String::new(),
                    file: cell(file).to_owned(),
                    sheet: Some(optional(sheet).to_owned()).filter(|sheet| !sheet.is_empty()),
                    row: cell(row).parse().unwrap_or(0),
                    column: column_number(cell(cell_column)),
                    heading: optional(head).to_owned(),
                    typed: cell(typed).to_owned(),
                    is_for_any: is_for_any(optional(severity), cell(typed)),
                    corrected: cell(right).to_owned(),
                    who: optional(who).to_owned(),
                    written_in: format!("{origin} row {}", rows.number(at)),
                };
                correction.place = place_of(&correction);
                corrections.push(correction);
            }
        }
    }
    if found {
        return Ok((corrections, tally.sha256()));
    }
    let wanted = "File, Row, Column, As typed and Right value";
    Err(Error::input(path, format!("it is not a table of corrections: it needs the headings {wanted}")))
}

/// Where a correction's cell stands, in words.
pub fn place_of(correction: &Correction) -> String {
    place(origin(correction), correction).to_string()
}

/// Whether a row of the table counts whatever its cell holds: the program gives each row that it writes a severity.
pub fn is_for_any(severity: &str, typed: &str) -> bool {
    typed.is_empty() && (severity.is_empty() || severity.eq_ignore_ascii_case(ADDED))
}

/// Whether a right value says that the whole row is no well, in whichever of its cells.
pub fn is_no_well(right: &str) -> bool {
    right.trim().eq_ignore_ascii_case(NO_WELL)
}

/// The number of a column given by letters, as a spreadsheet shows it, or as a number; 0 where it is neither.
pub fn column_number(written: &str) -> u32 {
    if let Ok(number) = written.parse() {
        return number;
    }
    if written.is_empty() || written.len() > 4 {
        return 0;
    }
    written
        .bytes()
        .try_fold(0_u32, |number, letter| {
            letter.is_ascii_alphabetic().then(|| number * 26 + u32::from(letter.to_ascii_uppercase() - b'A') + 1)
        })
        .unwrap_or(0)
}

/// What became of a correction.
#[derive(Debug, Clone, PartialEq)]
enum State {
    /// Its cell was not met.
    Unmet,
    /// It was read in the place of this, which its cell holds.
    Applied(Box<str>),
    /// Its cell holds the right value already: another correction says the same, or the list itself was mended.
    Settled,
    /// Its cell holds this instead.
    Different(Box<str>),
}

/// Why a correction came to nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unapplied {
    /// Its cell holds this, which is not what was typed when it was written.
    Different(Box<str>),
    /// Another one gives the cell another value.
    Second,
    /// No such list or sheet is read.
    NoList,
    /// It names no row or no column.
    NoCell,
    /// Its list has columns up to this one.
    NoColumn(u32),
    /// Nothing stands in its row.
    NoRow,
}

/// All corrections of a run, and what became of them.
#[derive(Debug, Default)]
pub(super) struct Corrections {
    all: Vec<Correction>,
    /// By list, then by row: places in `all`.
    places: HashMap<Origin, BTreeMap<u32, Vec<usize>>>,
    /// Corrections of a cell that an earlier one corrects already.
    second: Vec<usize>,
    /// How many columns the lists have that corrections are given for.
    widths: Mutex<HashMap<Origin, u32>>,
    states: Mutex<Vec<State>>,
}

impl Corrections {
    pub(super) fn new(all: &[Correction]) -> Self {
        let mut corrections =
            Self { all: all.to_vec(), states: Mutex::new(vec![State::Unmet; all.len()]), ..Self::default() };
        for (at, correction) in all.iter().enumerate() {
            let places = corrections.places.entry(origin(correction)).or_default().entry(correction.row).or_default();
            match places.iter().find(|other| all[**other].column == correction.column) {
                Some(first) if all[*first].corrected != correction.corrected => corrections.second.push(at),
                Some(_) | None => places.push(at),
            }
        }
        corrections
    }

    /// Whether there are any for this list.
    pub(super) fn concern(&self, origin: &Origin) -> bool {
        self.places.contains_key(origin)
    }

    /// Corrects the headings of a table, and what was read of it for judging.
    pub(super) fn prepare(&self, table: &mut Opened) {
        let Some(rows) = self.places.get(&table.origin) else { return };
        let width = table.headings.len() as u32;
        self.widths.lock().unwrap_or_else(PoisonError::into_inner).insert(table.origin.clone(), width);
        for at in rows.get(&table.heading_row).into_iter().flatten() {
            let correction = &self.all[*at];
            let Some(heading) = (correction.column as usize).checked_sub(1).and_then(|at| table.headings.get_mut(at))
            else {
                continue;
            };
            if is_same(heading, &heading::tidy(&correction.corrected)) {
                self.note(*at, State::Settled);
            } else if correction.is_for_any || is_same(heading, &heading::tidy(&correction.typed)) {
                let typed = std::mem::replace(heading, heading::tidy(&correction.corrected));
                self.note(*at, State::Applied(typed.into()));
            } else {
                self.note(*at, State::Different(heading.as_str().into()));
            }
        }
        let first_row = table.first_row;
        self.each(&table.origin, &mut table.sample, first_row, |_, _| {});
    }

    /// Corrects the cells of a run of rows.
    pub(super) fn apply(&self, origin: &Origin, rows: &mut Rows) {
        self.each(origin, rows, 0, |at, state| self.note(at, state));
    }

    fn each(&self, origin: &Origin, rows: &mut Rows, from: usize, note: impl Fn(usize, State)) {
        let (Some(places), true) = (self.places.get(origin), rows.len() > from) else { return };
        let width = self.width(origin).unwrap_or(u32::MAX);
        // Row by row, because a sheet need not hold its rows in order.
        for row in from..rows.len() {
            for at in places.get(&rows.number(row)).into_iter().flatten() {
                let correction = &self.all[*at];
                let Some(column) = (correction.column as usize).checked_sub(1) else { continue };
                // Nobody has said what would stand in a column that the list does not have.
                if correction.is_for_any && correction.column > width {
                    continue;
                }
                let cell = rows.cell(row, column).trim();
                let is_right = is_same(cell, &correction.corrected);
                if is_same(cell, &correction.typed) || correction.is_for_any && !is_right {
                    let typed = cell.into();
                    if is_no_well(&correction.corrected) {
                        rows.mark_no_well(row);
                    } else {
                        rows.replace(row, column, &correction.corrected);
                        rows.mark_repaired(row, column);
                    }
                    note(*at, State::Applied(typed));
                } else if is_right {
                    rows.mark_repaired(row, column);
                    note(*at, State::Settled);
                } else {
                    note(*at, State::Different(cell.into()));
                }
            }
        }
    }

    fn note(&self, at: usize, state: State) {
        let mut states = self.states.lock().unwrap_or_else(PoisonError::into_inner);
        // One of two lists of the same name may hold the cell that is meant.
        if !matches!(states[at], State::Applied(_) | State::Settled) {
            states[at] = state;
        }
    }

    fn width(&self, origin: &Origin) -> Option<u32> {
        self.widths.lock().unwrap_or_else(PoisonError::into_inner).get(origin).copied()
    }

    /// The corrections that were applied, in the order in which they were given; each with what it was read in the place of.
    pub(super) fn applied(&self) -> Vec<Correction> {
        let states = self.states.lock().unwrap_or_else(PoisonError::into_inner);
        let applied = self.all.iter().zip(states.iter()).filter_map(|(correction, state)| match state {
            State::Applied(typed) if correction.is_for_any => {
                Some(Correction { typed: typed.to_string(), ..correction.clone() })
            }
            State::Applied(_) => Some(correction.clone()),
            _ => None,
        });
        applied.collect()
    }

    /// The corrections that came to nothing, in the order in which they were given, when everything is read; `lists` are those
    /// that were read.
    pub(super) fn unapplied(&self, lists: &[&Origin]) -> Vec<(&Correction, Unapplied)> {
        let states = self.states.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let mut unapplied = Vec::new();
        for (at, (correction, state)) in self.all.iter().zip(states).enumerate() {
            let origin = origin(correction);
            let width = self.width(&origin).filter(|width| correction.is_for_any && correction.column > *width);
            let why = match state {
                State::Applied(_) | State::Settled => continue,
                State::Different(found) => Unapplied::Different(found),
                State::Unmet if self.second.contains(&at) => Unapplied::Second,
                State::Unmet if !lists.contains(&&origin) => Unapplied::NoList,
                State::Unmet if correction.row == 0 || correction.column == 0 => Unapplied::NoCell,
                State::Unmet => width.map_or(Unapplied::NoRow, Unapplied::NoColumn),
            };
            unapplied.push((correction, why));
        }
        unapplied
    }

    /// What there is to say about the others, when everything is read; `lists` are those that were read.
    pub(super) fn findings(&self, lists: &[&Origin]) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (correction, why) in self.unapplied(lists) {
            let written_in = &correction.written_in;
            let place = place(origin(correction), correction);
            let unmatched = |why: String| {
                let says = format!("the correction in {written_in} is not applied: {why}");
                (catalogue::CORRECTION_UNMATCHED, says, "check file, sheet, row and column of the correction")
            };
            let (code, says, help) = match why {
                Unapplied::Different(found) => (
                    catalogue::CORRECTION_OUTDATED,
                    format!(
                        "the correction in {written_in} expects \"{}\" here, and the cell holds \"{found}\"; it is not applied",
                        correction.typed
                    ),
                    "look at the cell again, and take the correction out or write what is typed now",
                ),
                Unapplied::Second => unmatched("another one gives this cell another value".to_owned()),
                Unapplied::NoList => unmatched("no such list or sheet is read".to_owned()),
                Unapplied::NoCell => unmatched("it names no cell".to_owned()),
                Unapplied::NoColumn(last) => unmatched(format!("the list has {last} columns")),
                Unapplied::NoRow => unmatched(format!("the list has no cells in row {}", correction.row)),
            };
            findings.push(Finding::new(code, place, says, help).seen(&correction.corrected));
        }
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        findings
    }
}

fn origin(correction: &Correction) -> Origin {
    match &correction.sheet {
        Some(sheet) => Origin::sheet(&correction.file, sheet),
        None => Origin::file(&correction.file),
    }
}

/// The cell that a correction is about.
fn place(origin: Origin, correction: &Correction) -> Place {
    if correction.row == 0 {
        return Place::whole(&origin);
    }
    if correction.column == 0 {
        return Place::row(&origin, correction.row);
    }
    let column = Column { number: correction.column, heading: correction.heading.as_str().into() };
    Place::cell(&origin, correction.row, &column)
}

/// Whether a cell holds what was typed: the same text, or the same plain number however a spreadsheet wrote it; a text
/// that looks like a formula has an apostrophe before it in a CSV.
fn is_same(cell: &str, typed: &str) -> bool {
    let typed = typed.trim();
    if cell == typed || typed.strip_prefix('\'') == Some(cell) {
        return true;
    }
    // "007" is another id than "7".
    let number = |text: &str| plain(text).filter(|_| !text.starts_with('0') || text.starts_with("0."));
    matches!((number(cell), number(typed)), (Some(a), Some(b)) if a == b)
}
