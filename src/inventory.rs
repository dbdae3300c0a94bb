//! From files to located, unproven rows.
//!
//! [`Inventory::open`] judges every file (format, encoding, headings) and makes the plan of its tables; the rows are then
//! streamed: [`Inventory::next_batch`] is sequential and cheap, [`Batch::drafts`] does the work and runs on all cores.
//! The checks room turns drafts into wells. Refuses to know what a value means for a well.

mod bytes;
pub mod cell;
pub mod choices;
mod columns;
pub mod corrections;
mod dated_heading;
mod dates;
pub mod description;
mod ditto;
mod draft;
mod fate;
pub mod fill_down;
mod guard;
pub mod heading;
mod id_groups;
mod identity;
mod intervals;
mod layout;
mod legend;
mod levels;
pub mod lexicon;
mod list_names;
mod list_rules;
mod multiple_choice;
mod naming;
mod notes;
mod one_cell;
mod other_sheets;
mod parquet;
mod paths;
mod phrases;
mod pointed;
mod profile;
mod prompt;
pub mod remarks;
mod row_kind;
mod rows;
mod split;
mod stacked;
mod stamp;
mod survey;
mod suspicion;
mod table;
mod text;
mod unit_columns;
mod workbook;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

pub use cell::{Datum, Form, is_aside};
pub use draft::Draft;
pub use identity::identity;
pub use intervals::ListedInterval;
pub use list_names::list_names;
pub use one_cell::{cell_value, fixed_value};
pub use prompt::typed;
pub use row_kind::{NoWell, RowKind};
pub use rows::{CellKind, Rows};
pub use survey::{Drawn, FEWEST_WELLS};
pub use table::{Opened, Payload, RowSource};

use bytes::Tally;
use corrections::Corrections;
use draft::{Fixed, Table};
use fill_down::FillDown;
use id_groups::Beginning;
use intervals::Intervals;
use list_rules::{Reading, said_of, unused};
pub use stamp::can_be_read_again;
use stamp::{Stamp, Watched};
use survey::Survey;

use crate::error::{Error, Result};
use crate::field::rules::{Correction, ReadingRules, RepeatPolicy};
use crate::field::{FIELDS, Field, WellType, same_column};
use crate::finding::{Finding, Severity, catalogue};
use crate::place::{Origin, Place};

/// A table that was read, as far as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct SourceInfo {
    /// File and sheet.
    pub origin: Origin,
    /// The file as named.
    pub path: PathBuf,
    /// Rows read so far, blank ones not counted.
    pub rows: u64,
    /// SHA-256 of the file's bytes; of what was read so far, until the file is read to its end.
    pub sha256: String,
    /// Columns that are read as fields: heading as written, field, unit of a bare number.
    pub fields: Vec<(String, Field, Option<String>)>,
    /// Headings of the columns that are not fields.
    pub carried: Vec<String>,
    /// Headings in their order, each with the first cells below it that hold anything.
    pub examples: Vec<(String, Vec<String>)>,
}

/// Every sheet of a workbook as it stands; nothing where the file is no workbook.
///
/// # Errors
/// [`Error::Input`] where it cannot be read.
pub fn sheets_of(path: &Path, most_rows: usize) -> Result<Option<Vec<(String, Rows)>>> {
    let mut file = std::fs::File::open(path).map_err(|error| Error::unread(path, error))?;
    let head = bytes::head(&mut file, 4096).map_err(|error| Error::unread(path, error))?;
    workbook::kind(path, &head).map(|kind| workbook::whole(path, kind, most_rows)).transpose()
}

/// The first cells of each column that hold anything.
fn examples(table: &Opened) -> Vec<(String, Vec<String>)> {
    const SHOWN: usize = 3;
    let filled = |column: usize| table.filled(column).take(SHOWN).map(str::to_owned).collect();
    table.headings.iter().enumerate().map(|(column, heading)| (heading.clone(), filled(column))).collect()
}

struct Source {
    path: PathBuf,
    tally: Arc<Tally>,
    table: Arc<Table>,
    rows_from: Option<Box<dyn RowSource>>,
    rows: u64,
    examples: Vec<(String, Vec<String>)>,
}

/// A table of casing intervals, read to its end at opening.
struct Beside {
    path: PathBuf,
    tally: Arc<Tally>,
    origin: Origin,
    rows: u64,
}

/// The campaign's lists, open for reading.
pub struct Inventory {
    sources: Vec<Source>,
    beside: Vec<Beside>,
    intervals: Arc<Intervals>,
    current: usize,
    carried: Vec<String>,
    findings: Vec<Finding>,
    corrections: Arc<Corrections>,
    total_bytes: u64,
}

/// Rows on their way from a file to the checks.
pub struct Batch {
    table: Arc<Table>,
    corrections: Option<Arc<Corrections>>,
    content: Content,
    rows: usize,
}

enum Content {
    Chunk(split::Chunk),
    Rows(Arc<Rows>),
}

impl Batch {
    /// Reads every cell. Pure: the same batch gives the same drafts, on any thread.
    pub fn drafts(&self) -> Vec<Draft> {
        let rows = match &self.content {
            Content::Chunk(chunk) => {
                let mut rows = chunk.cells();
                if let Some(corrections) = &self.corrections {
                    corrections.apply(&self.table.origin, &mut rows);
                }
                self.table.cut_descriptions(&mut rows);
                Arc::new(rows)
            }
            Content::Rows(rows) => Arc::clone(rows),
        };
        draft::drafts(&self.table, &rows)
    }

    /// How many rows it holds.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// How many bytes it holds.
    pub fn bytes(&self) -> usize {
        match &self.content {
            Content::Chunk(chunk) => chunk.bytes(),
            Content::Rows(rows) => rows.bytes(),
        }
    }
}

impl Inventory {
    /// Opens every file and makes the plan of its tables.
    ///
    /// # Errors
    /// [`Error::Input`] where a file cannot be read at all, [`Error::Request`] where the rules cannot be followed.
    pub fn open(paths: &[PathBuf], rules: &ReadingRules) -> Result<Self> {
        let files = paths::expand(paths)?;
        let names = list_names(&files);
        // Before anything is read, so that the list that is judged is the one whose rows are taken.
        let stamps: Vec<Option<Stamp>> = files.iter().map(|file| Stamp::of(file)).collect();
        let survey = Arc::new(if survey::is_needed(rules) { first_reading(&files, rules)? } else { Survey::default() });
        let mut findings = Vec::new();
        let all_lists = Reading::new(Cow::Borrowed(rules))?;
        let reading_of = |origin: &Origin| match rules.of(origin) {
            Cow::Borrowed(_) => Ok(all_lists.clone()),
            own @ Cow::Owned(_) => Reading::new(own),
        };
        let mut inventory = Self {
            sources: Vec::new(),
            beside: Vec::new(),
            intervals: Arc::default(),
            current: 0,
            carried: Vec::new(),
            findings: Vec::new(),
            corrections: Arc::new(Corrections::new(&rules.corrections)),
            total_bytes: 0,
        };
        let mut seen: BTreeMap<PathBuf, usize> = BTreeMap::new();
        let mut used: Vec<(Option<usize>, &str)> = Vec::new();
        let mut tables = Vec::new();
        let mut beside = Vec::new();
        let mut intervals = Intervals::default();
        for (at, path) in files.iter().enumerate() {
            let name = names[at].clone();
            let tally = Arc::<Tally>::default();
            let opened = open_file(path, &name, rules, &tally, stamps[at].as_ref())?;
            if let Ok(whole) = path.canonicalize()
                && let Some(first) = seen.insert(whole, at)
            {
                findings.push(Finding::new(
                    catalogue::SAME_FILE_TWICE,
                    Place::whole(&Origin::file(&name)),
                    format!("this file is named twice, as {} and as {}", files[first].display(), path.display()),
                    "name it once; its wells would be counted twice",
                ));
            }
            inventory.total_bytes += path.metadata().map_or(0, |metadata| metadata.len());
            let mut apart = Vec::new();
            for table in opened {
                let rules = rules.of(&table.origin);
                apart.extend(stacked::apart(table, &rules)?);
            }
            let opened = apart;
            let others_have_rows = opened.iter().any(|table| table.first_row < table.sample.len());
            for mut table in opened {
                inventory.corrections.prepare(&mut table);
                findings.append(&mut table.notes);
                for (list, rules) in said_of(rules, &table.origin) {
                    for heading in &table.headings {
                        used.extend(heading::mapped(heading, rules).map(|(written, _)| (list, written)));
                        used.extend(heading::mapped_beside(heading, rules).map(|(written, ..)| (list, written)));
                    }
                }
                let Reading { rules, cells, .. } = &reading_of(&table.origin)?;
                if intervals::is_intervals(&table, rules) {
                    let correct = |origin: &Origin, rows: &mut Rows| inventory.corrections.apply(origin, rows);
                    let rows = intervals::read(&mut table, rules, cells, correct, &mut intervals, &mut findings)?;
                    beside.push(Beside { path: path.clone(), tally: Arc::clone(&tally), origin: table.origin, rows });
                    continue;
                }
                table.describe(rules);
                if table.source.is_some() && table.first_row >= table.sample.len() {
                    findings.push(no_rows(&table.origin, others_have_rows));
                }
                tables.push((path.clone(), Arc::clone(&tally), table));
            }
        }
        let mut plans = Vec::new();
        for (path, tally, table) in tables {
            let reading = reading_of(&table.origin)?;
            let plan = columns::plan(&table, &reading.rules, &reading.cells, &intervals, &mut findings);
            suspicion::units(&table, &plan, &reading.cells, &reading.fixed, &mut findings);
            plans.push((path, tally, reading, table, plan));
        }
        inventory.intervals = Arc::new(intervals);
        inventory.carried = union(plans.iter().map(|(.., table, plan)| (table, plan)), &mut findings);
        let origins: Vec<&Origin> = plans
            .iter()
            .map(|(.., table, _)| &table.origin)
            .chain(beside.iter().map(|beside| &beside.origin))
            .collect();
        unused(rules, &used, &origins, &mut findings);
        let tables: Vec<_> = plans.iter().map(|(path, _, _, table, plan)| (path, table, plan)).collect();
        let without_wells = other_sheets::find(&tables, &mut findings);
        let mut beginnings = Vec::new();
        for ((path, tally, reading, table, plan), lists_no_wells) in plans.into_iter().zip(without_wells) {
            let carried = inventory
                .carried
                .iter()
                .map(|name| {
                    plan.carried.iter().find(|(_, heading)| same_column(heading, name)).map(|(column, _)| *column)
                })
                .collect();
            let slots = draft::slots(&plan, &reading.fixed);
            let coded = draft::coded(&table, &plan, &mut findings);
            let worded = draft::worded(&plan);
            let no_wells_by_name = draft::no_wells_by_name(&table.origin, &plan, &reading.cells);
            let order =
                FIELDS.iter().filter_map(|definition| Some((definition.field, slots[definition.field as usize]?)));
            let examples = examples(&table);
            let (sample, first_row) = (table.sample, table.first_row);
            inventory.sources.push(Source {
                path,
                examples,
                tally,
                table: Arc::new(Table {
                    origin: table.origin,
                    order: order.collect(),
                    slots,
                    plan,
                    carried,
                    coded,
                    legend: table.legend,
                    comma: table.comma,
                    short_rows: table.short_rows,
                    cells: reading.cells,
                    fixed: reading.fixed,
                    system: reading.rules.system,
                    system_of: reading.rules.whose_system(),
                    worded,
                    no_wells_by_name,
                    lists_no_wells,
                    naming: OnceLock::new(),
                    intervals: Arc::clone(&inventory.intervals),
                    survey: Arc::clone(&survey),
                }),
                rows_from: table.source,
                rows: 0,
            });
            if let Some(source) = inventory.sources.last() {
                beginnings.push(Beginning { table: Arc::clone(&source.table), sample, first_row });
            }
        }
        findings.extend(id_groups::decide(beginnings));
        inventory.beside = beside;
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        inventory.findings = findings;
        Ok(inventory)
    }

    /// The next rows, about so many, all of one table; nothing when everything is read.
    ///
    /// # Errors
    /// [`Error::Input`] where a file breaks off or turns out to be damaged.
    pub fn next_batch(&mut self, rows: usize) -> Result<Option<Batch>> {
        while let Some(source) = self.sources.get_mut(self.current) {
            if let Some(rows_from) = &mut source.rows_from {
                if let Some(payload) = rows_from.next(rows)? {
                    let rows = payload.rows();
                    source.rows += rows as u64;
                    let origin = &source.table.origin;
                    let corrections = self.corrections.concern(origin).then(|| Arc::clone(&self.corrections));
                    let content = match payload {
                        Payload::Chunk(chunk) => Content::Chunk(chunk),
                        Payload::Rows(mut rows) => {
                            self.corrections.apply(origin, &mut rows);
                            source.table.cut_descriptions(&mut rows);
                            Content::Rows(Arc::new(rows))
                        }
                    };
                    return Ok(Some(Batch { table: Arc::clone(&source.table), corrections, content, rows }));
                }
                source.rows_from = None; // Closes the file.
            }
            self.current += 1;
        }
        Ok(None)
    }

    /// Findings that make a whole file or sheet useless: nothing is planned with such a list, and the rest of it is not either.
    pub fn unusable(&self) -> Vec<&Finding> {
        let whole = |finding: &&Finding| finding.place.row.is_none() && finding.place.column.is_none();
        self.findings.iter().filter(whole).filter(|finding| finding.code.severity() == Severity::Error).collect()
    }

    /// Findings about files and headings, in canonical order; known as soon as the inventory is open.
    pub fn file_findings(&self) -> &[Finding] {
        &self.findings
    }

    /// Findings that can only be made when everything is read, in canonical order: corrections that came to nothing, casing
    /// intervals that belong to no well.
    pub fn closing_findings(&self) -> Vec<Finding> {
        let beside = self.beside.iter().map(|beside| &beside.origin);
        let lists: Vec<&Origin> = self.sources.iter().map(|source| &source.table.origin).chain(beside).collect();
        let mut findings = self.corrections.findings(&lists);
        findings.extend(self.intervals.without_well());
        findings.sort_by(|a, b| a.sort_key().cmp(&b.sort_key()));
        findings
    }

    /// The corrections that were applied to what was read so far.
    pub fn applied_corrections(&self) -> Vec<Correction> {
        self.corrections.applied()
    }

    /// Headings of the columns that are not fields, over all tables, in order of appearance.
    pub fn carried_columns(&self) -> &[String] {
        &self.carried
    }

    /// Every table, with what was read of it so far; tables of casing intervals last.
    pub fn sources(&self) -> Vec<SourceInfo> {
        self.sources
            .iter()
            .map(|source| SourceInfo {
                origin: source.table.origin.clone(),
                path: source.path.clone(),
                rows: source.rows,
                sha256: source.tally.sha256(),
                fields: fields(&source.table),
                carried: source.table.plan.carried.iter().map(|(_, heading)| heading.clone()).collect(),
                examples: source.examples.clone(),
            })
            .chain(self.beside.iter().map(|beside| SourceInfo {
                origin: beside.origin.clone(),
                path: beside.path.clone(),
                rows: beside.rows,
                sha256: beside.tally.sha256(),
                fields: Vec::new(),
                carried: Vec::new(),
                examples: Vec::new(),
            }))
            .collect()
    }

    /// Rows of wells read so far; casing intervals are not counted.
    pub fn rows_read(&self) -> u64 {
        self.sources.iter().map(|source| source.rows).sum()
    }

    /// Bytes read and bytes in all, for progress; the total does not count standard input.
    pub fn rows_hint(&self) -> (u64, u64) {
        let mut read = 0;
        let mut last: Option<&Arc<Tally>> = None;
        for source in self.sources.iter().take(self.current + 1) {
            // The sheets of one workbook share a tally.
            if !last.is_some_and(|last| Arc::ptr_eq(last, &source.tally)) {
                read += source.tally.bytes();
            }
            last = Some(&source.tally);
        }
        (read, self.total_bytes)
    }
}

fn fields(table: &Table) -> Vec<(String, Field, Option<String>)> {
    let mut fields: Vec<(usize, Field, Option<String>)> = FIELDS
        .iter()
        .filter_map(|definition| {
            let feed = table.plan.feeds.get(definition.field as usize)?.as_ref().filter(|feed| !feed.barred)?;
            let counted_as = feed.species.map_or(String::new(), |species| format!(" as {}", species.symbol));
            let unit = feed.unit.filter(|unit| !unit.symbol.is_empty());
            let unit = unit.map(|unit| format!("{}{counted_as}", unit.symbol));
            Some((feed.column, definition.field, unit))
        })
        .collect();
    fields.sort_unstable_by_key(|(column, ..)| *column);
    fields
        .into_iter()
        .map(|(column, field, unit)| (table.plan.columns[column].heading.as_ref().to_owned(), field, unit))
        .collect()
}

/// The file name without its folder, so that reports do not depend on where the files lie.
fn file_name(path: &Path) -> String {
    if path.as_os_str() == "-" {
        return "standard input".to_owned();
    }
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// Opens one file by what it is, not by what it is called.
///
/// Its rows end in an error where the file is not what it was when it was stamped.
fn open_file(
    path: &Path,
    name: &str,
    rules: &ReadingRules,
    tally: &Arc<Tally>,
    stamp: Option<&Stamp>,
) -> Result<Vec<Opened>> {
    let mut tables = open_kind(path, name, rules, tally)?;
    if let Some(stamp) = stamp {
        stamp.check(path)?;
        for table in &mut tables {
            table.source =
                table.source.take().map(|rows| Box::new(Watched::new(rows, path, stamp)) as Box<dyn RowSource>);
        }
    }
    Ok(tables)
}

fn open_kind(path: &Path, name: &str, rules: &ReadingRules, tally: &Arc<Tally>) -> Result<Vec<Opened>> {
    // A pipe gives its bytes once: it is not looked into before it is read.
    if can_be_read_again(path) {
        let mut file = std::fs::File::open(path).map_err(|error| Error::unread(path, error))?;
        let head = bytes::head(&mut file, 4096).map_err(|error| Error::unread(path, error))?;
        if head.starts_with(parquet::MARK) {
            return Ok(vec![parquet::open(path, Origin::file(name), tally)?]);
        }
        if let Some(kind) = workbook::kind(path, &head) {
            return workbook::open(path, name, kind, rules, tally);
        }
    }
    let origin = Origin::file(name);
    let rules = rules.of(&origin);
    Ok(vec![text::open(path, origin, &rules, tally)?])
}

/// Carried headings of all tables, each once as it is first spelled, in order of appearance.
fn union<'a>(plans: impl Iterator<Item = (&'a Opened, &'a columns::Plan)>, findings: &mut Vec<Finding>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (table, plan) in plans {
        for (column, name) in &plan.carried {
            let Some(first) = names.iter().find(|first| same_column(first, name)) else {
                names.push(name.clone());
                continue;
            };
            if let Some(column) = plan.columns.get(*column).filter(|_| first != name) {
                let place = Place::cell(&table.origin, table.heading_row, column);
                let says = format!("carried along as \"{first}\", as an earlier list spells it");
                let help = "no action needed if they are the same; otherwise give one of them another heading";
                findings.push(Finding::new(catalogue::SPELLED_DIFFERENTLY, place, says, help).seen(&column.heading));
            }
        }
    }
    names
}

/// Reads everything once for what cannot be known row by row.
fn first_reading(files: &[PathBuf], rules: &ReadingRules) -> Result<Survey> {
    if !files.iter().all(|file| can_be_read_again(file)) {
        return Err(Error::request(
            "the latest visit, or values estimated from the list, need the list to be read twice; standard input and pipes cannot be",
        ));
    }
    let mut plain = rules.clone();
    plain.repeats = RepeatPolicy::HoldBack;
    plain.drawn.clear();
    let mut inventory = Inventory::open(files, &plain)?;
    let mut survey = Survey::default();
    let mut above = FillDown::default();
    while let Some(batch) = inventory.next_batch(4096)? {
        let mut drafts = batch.drafts();
        above.apply(&mut drafts);
        drafts.iter().for_each(|draft| survey_row(&mut survey, draft, rules));
    }
    survey.finish();
    Ok(survey)
}

/// Takes a row into a first reading, as far as the rules ask for it.
fn survey_row(survey: &mut Survey, draft: &Draft, rules: &ReadingRules) {
    if draft.no_well().is_some() {
        return;
    }
    if rules.repeats == RepeatPolicy::Latest
        && let Some(id) = draft.id()
    {
        survey.visit(id, draft.visit(), Place::row(draft.origin(), draft.row()));
    }
    let Some(well_type) = draft.choice(Field::WellType).and_then(WellType::by_name) else { return };
    for (_, field) in rules.drawn.iter().filter(|(of, _)| *of == well_type) {
        if let Some(value) = draft.number(*field) {
            survey.value(well_type, *field, value, draft.text(Field::Region));
        }
    }
}

fn no_rows(origin: &Origin, others_have_rows: bool) -> Finding {
    Finding::new(
        if others_have_rows { catalogue::EMPTY_SHEET } else { catalogue::EMPTY_FILE },
        Place::whole(origin),
        "there are headings and no rows below them",
        "check that the export was complete",
    )
}

/// The values for blank cells, read like cells.
fn fixed(rules: &ReadingRules) -> Result<Fixed> {
    let value = |field| fixed_value(rules, field).map_err(Error::request);
    FIELDS.iter().map(|definition| value(definition.field)).collect()
}
