//! What makes a well one well in a table: its id alone, or its id under a system, a township, a section, a sheet.
//!
//! Decided once, from the beginning of each table (the sample that headings are found by), before any row is read: so it
//! holds for every row alike, on any number of threads. In a list that is longer than the sample and repeats its ids only
//! behind it, they are taken as repeated visits and held back with a finding, never planned twice.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use super::ditto::section_name;
use super::draft::{Draft, Table, drafts};
use super::fate::Role;
use super::lexicon::{self, Concept, Language};
use super::naming::{Naming, Part, groups_rows};
use super::phrases::{Class, Phrases, tokens};
use super::pointed::{self, Entry};
use super::row_kind::RowKind;
use super::rows::Rows;
use crate::field::Field;
use crate::finding::{Finding, catalogue};
use crate::place::Place;

/// A table with its beginning.
pub struct Beginning {
    /// The table that the ids stand in.
    pub table: Arc<Table>,
    /// Its first rows, headings included.
    pub sample: Rows,
    /// Which of them is the first below the headings.
    pub first_row: usize,
}

/// Fewer repeated ids than this may be slips.
const FEWEST: usize = 2;

/// One row of a beginning.
struct Seen {
    id: String,
    visit: String,
    /// Depth, level and diameter to a tenth of a millimetre.
    measures: [Option<i64>; 3],
    section: String,
    /// Cells of the columns that may stand before the id.
    cells: Vec<String>,
}

/// Decides for every table, and says what was decided.
pub fn decide(beginnings: Vec<Beginning>) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut decided: Vec<(Arc<Table>, Naming, Vec<Seen>)> = Vec::new();
    for Beginning { table, sample, first_row } in beginnings {
        let mut columns = name_columns(&table);
        // What a well serves tells two of one farm apart, and is no name that counts for the rows below it.
        let names = columns.len();
        columns.extend(serving_columns(&table, &columns));
        let sample = Arc::new(sample);
        let rows: Vec<Draft> = drafts(&table, &sample).into_iter().skip(first_row).collect();
        let replaced = pointed::replaced(&entries(&table, &rows));
        let mut seen = look(rows.into_iter(), &columns);
        let mut naming = Naming { ids_are_numbers: true, replaced, ..Naming::default() };
        let with_figures = seen.iter().filter(|row| row.id.contains(|c: char| c.is_ascii_digit())).count();
        naming.ids_are_numbers = 2 * with_figures >= seen.len();
        for (at, column) in columns.iter().enumerate().take(names) {
            if is_written_once(&seen, at) {
                naming.down.push(*column);
                let mut held = String::new();
                for row in &mut seen {
                    if row.cells[at].is_empty() {
                        row.cells[at].clone_from(&held)
                    } else {
                        held.clone_from(&row.cells[at])
                    }
                }
                findings.push(say_down(&table, *column));
            }
        }
        naming.part = part(&seen, &columns);
        if let Some(part) = naming.part {
            findings.push(say_part(&table, part, &seen, &columns));
            // From here on the id is the pair.
            for row in &mut seen {
                let name = match part {
                    Part::Section => row.section.clone(),
                    Part::Column(column) => {
                        columns.iter().position(|at| *at == column).map_or_else(String::new, |at| row.cells[at].clone())
                    }
                };
                row.id = format!("{name} / {}", row.id);
            }
        }
        decided.push((table, naming, seen));
    }
    for one in 0..decided.len() {
        for other in one + 1..decided.len() {
            if are_two_lists(&decided[one], &decided[other]) {
                decided[one].1.by_sheet = true;
                decided[other].1.by_sheet = true;
            }
        }
    }
    for (table, naming, _) in decided {
        if naming.by_sheet {
            let name = table.origin.sheet.as_deref().unwrap_or(&table.origin.file);
            let says = format!(
                "the ids of this list are those of other wells in another one; its name stands before them, as in \"{name} / 1\""
            );
            findings.push(Finding::new(catalogue::ID_WITH_GROUP, Place::whole(&table.origin), says, HELP));
        }
        let _ = table.naming.set(naming); // Each table comes once.
    }
    findings
}

const HELP: &str =
    "no action needed if these are different wells; if they are the same ones, take the repeated rows out";

fn heading(table: &Table, column: usize) -> String {
    table.plan.columns.get(column).map_or_else(String::new, |column| column.heading.to_string())
}

fn say_down(table: &Table, column: usize) -> Finding {
    let says =
        format!("\"{}\" is filled only where it changes; it counts for the rows below too", heading(table, column));
    Finding::new(
        catalogue::FILLED_DOWN,
        Place::whole(&table.origin),
        says,
        "no action needed if correct; otherwise fill in the cells",
    )
}

fn say_part(table: &Table, part: Part, seen: &[Seen], columns: &[usize]) -> Finding {
    let (what, name) = match part {
        Part::Section => ("section".to_owned(), seen.last().map_or("", |row| &row.section)),
        Part::Column(column) => {
            let at = columns.iter().position(|at| *at == column).unwrap_or_default();
            (format!("\"{}\"", heading(table, column)), seen.last().map_or("", |row| &row.cells[at]))
        }
    };
    let id = seen.last().map_or("", |row| &row.id);
    let says = format!("ids repeat from one {what} to the next; a well is known by both, as in \"{name} / {id}\"");
    Finding::new(catalogue::ID_WITH_GROUP, Place::whole(&table.origin), says, HELP)
}

/// The columns whose names may stand before an id: region, and what is called system, township, section and the like.
fn name_columns(table: &Table) -> Vec<usize> {
    let phrases = Phrases::all();
    let region = table.plan.feeds.get(Field::Region as usize).and_then(Option::as_ref).filter(|feed| !feed.barred);
    let mut columns: Vec<usize> = region.map(|feed| feed.column).into_iter().collect();
    for (column, heading) in &table.plan.carried {
        let words = tokens(heading);
        // A second column that names wells: the number within a system.
        let is_id = super::heading::name(heading, None).is_some_and(|named| named.field == Field::WellId);
        let is_name = is_id || words.len() <= 4 && words.iter().any(|word| phrases.is(word, Class::Band));
        if is_name && !columns.contains(column) {
            columns.push(*column);
        }
    }
    columns
}

/// The columns that say which of several wells of one place a row is about: its number as a source of a system, what it serves, where
/// on the place it stands.
fn serving_columns(table: &Table, names: &[usize]) -> Vec<usize> {
    const WORDS: [&str; 44] = [
        "src",
        "source",
        "facility",
        "bore",
        "fuente",
        "captacion",
        "captacao",
        "captage",
        "ouvrage",
        "forage",
        "serves",
        "serving",
        "served",
        "supplies",
        "supply",
        "use",
        "used",
        "usage",
        "purpose",
        "uso",
        "sirve",
        "serve",
        "dessert",
        "utilisation",
        "which",
        "location",
        "loc",
        "located",
        "building",
        "bldg",
        "structure",
        "place",
        "where",
        "position",
        "spot",
        "ubicacion",
        "edificio",
        "lugar",
        "batiment",
        "emplacement",
        "lieu",
        "predio",
        "local",
        "cual",
    ];
    let is_one = |heading: &str| {
        let words = lexicon::tokens(heading);
        words.len() <= 4 && words.iter().any(|word| WORDS.contains(&word.as_str()))
    };
    let carried = table.plan.carried.iter().filter(|(column, heading)| !names.contains(column) && is_one(heading));
    carried.map(|(column, _)| *column).collect()
}

/// The rows of a beginning as entries that may point to one another.
fn entries(table: &Table, drafts: &[Draft]) -> Vec<Entry> {
    let of = |concept: Concept| {
        let says = |(_, heading): &&(usize, String)| {
            let words = lexicon::tokens(heading);
            Language::ALL.into_iter().any(|language| lexicon::meaning(&words, language).has(concept))
        };
        table.plan.carried.iter().find(says).map(|(column, _)| *column)
    };
    let person = [of(Concept::Name), of(Concept::Address)];
    let notes: Vec<usize> =
        table.worded.iter().filter(|(_, role)| *role == Role::Notes).map(|(column, _)| *column).collect();
    // `WO-044`, `2024-0117`: one word with figures, and letters or many of them.
    let is_number = |text: &str| {
        let figures = text.bytes().filter(u8::is_ascii_digit).count();
        let joined = text.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
        (4..=16).contains(&text.len()) && joined && (figures >= 4 || figures >= 1 && figures < text.len())
    };
    let numbers = |draft: &Draft| {
        let cells = table.plan.carried.iter().map(|(column, _)| draft.cell(*column));
        cells.filter(|text| is_number(text)).map(str::to_owned).collect()
    };
    let entry = |draft: &Draft| Entry {
        row: draft.row(),
        numbers: numbers(draft),
        id: draft.cell_of(Field::WellId).to_owned(),
        person: person.map(|column| column.map_or_else(String::new, |column| lexicon::fold(draft.cell(column)))),
        told: notes.iter().map(|column| draft.cell(*column)).filter(|text| text.len() > 3).map(str::to_owned).collect(),
        measures: measures(draft),
    };
    drafts.iter().filter(|draft| draft.no_well().is_none()).map(entry).collect()
}

/// Depth, level and diameter to a tenth of a millimetre.
fn measures(draft: &Draft) -> [Option<i64>; 3] {
    let tenth = |field| draft.number(field).map(|si| (si * 1e4).round() as i64);
    [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter].map(tenth)
}

fn look(drafts: impl Iterator<Item = Draft>, columns: &[usize]) -> Vec<Seen> {
    let mut seen: Vec<Seen> = Vec::new();
    let mut section = String::new();
    for draft in drafts {
        if let Some(no_well) = draft.no_well() {
            if no_well.kind == RowKind::Section {
                section = section_name(&no_well.seen).to_owned();
            }
            continue;
        }
        let id = draft.cell_of(Field::WellId);
        if id.is_empty() {
            continue;
        }
        let above = seen.last();
        let cells = columns.iter().enumerate().map(|(at, column)| match draft.cell(*column) {
            mark if super::ditto::is_ditto(mark) => above.map_or_else(String::new, |above| above.cells[at].clone()),
            text => text.to_owned(),
        });
        seen.push(Seen {
            id: id.to_owned(),
            visit: draft.visit().to_owned(),
            measures: measures(&draft),
            section: section.clone(),
            cells: cells.collect(),
        });
    }
    seen
}

/// Whether a column is filled only where its name changes: mostly blank, the first row filled, no name twice, and nothing but
/// names in it.
fn is_written_once(seen: &[Seen], at: usize) -> bool {
    let filled: Vec<&str> = seen.iter().map(|row| row.cells[at].as_str()).filter(|text| !text.is_empty()).collect();
    let distinct: HashSet<&&str> = filled.iter().collect();
    seen.len() >= 6
        && seen.first().is_some_and(|row| !row.cells[at].is_empty())
        && filled.len() >= 2
        && distinct.len() == filled.len()
        && filled.iter().all(|text| groups_rows(text))
        && 5 * filled.len() <= 3 * seen.len()
}

/// What tells wells with one id apart; nothing where ids do not repeat, or nothing tells them apart.
fn part(seen: &[Seen], columns: &[usize]) -> Option<Part> {
    let mut first: HashMap<(&str, &str), usize> = HashMap::new();
    let (mut repeated, mut other) = (0, 0);
    for (at, row) in seen.iter().enumerate() {
        match first.entry((&row.id, &row.visit)) {
            std::collections::hash_map::Entry::Vacant(free) => {
                free.insert(at);
            }
            std::collections::hash_map::Entry::Occupied(taken) => {
                repeated += 1;
                other += usize::from(seen[*taken.get()].measures != row.measures);
            }
        }
    }
    // Rows that agree in their measures are one well read twice, whatever stands beside them.
    if repeated < FEWEST || 5 * other < 4 * repeated {
        return None;
    }
    let tells_apart = |name: &dyn Fn(&Seen) -> String| {
        let mut pairs = HashSet::new();
        let alike = seen.iter().filter(|row| {
            let name = name(row);
            let lower = name.to_lowercase();
            name.is_empty() || !pairs.insert((lower, row.id.as_str(), row.visit.as_str()))
        });
        // One well that is listed twice all the same is found as such later.
        10 * alike.count() <= repeated
    };
    if seen.iter().any(|row| !row.section.is_empty()) && tells_apart(&|row| row.section.clone()) {
        return Some(Part::Section);
    }
    let at = (0..columns.len()).find(|at| tells_apart(&|row| row.cells[*at].clone()))?;
    Some(Part::Column(columns[at]))
}

/// Whether two tables count different wells by the same ids: sheets of one file, or lists that both simply count.
fn are_two_lists(one: &(Arc<Table>, Naming, Vec<Seen>), other: &(Arc<Table>, Naming, Vec<Seen>)) -> bool {
    let sheets = one.0.origin.file == other.0.origin.file && one.0.origin != other.0.origin;
    let counted =
        |seen: &[Seen]| seen.iter().all(|row| row.id.len() <= 4 && row.id.bytes().all(|byte| byte.is_ascii_digit()));
    if !sheets && (one.0.origin == other.0.origin || !counted(&one.2) || !counted(&other.2)) {
        return false;
    }
    let first: HashMap<(&str, &str), &Seen> =
        one.2.iter().map(|row| ((row.id.as_str(), row.visit.as_str()), row)).collect();
    let shared: Vec<bool> = other
        .2
        .iter()
        .filter_map(|row| first.get(&(row.id.as_str(), row.visit.as_str())).map(|first| first.measures != row.measures))
        .collect();
    let fewest = FEWEST.max(one.2.len().min(other.2.len()) / 2);
    let different = shared.iter().filter(|different| **different).count();
    shared.len() >= fewest && 5 * different >= 4 * shared.len()
}
