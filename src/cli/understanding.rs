//! What lists say, as far as it is understood, and what people are asked of them: for the book that is made of them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::lacking::lacking;
use super::rows_again::{Again, Row};
use crate::book::{Alike, Column, UNITS_OPEN, Understood, Unread};
use crate::engine::{self, Listener};
use crate::error::Result;
use crate::field::Field;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Code, Finding, Severity, catalogue};
use crate::inventory::heading::mapped;
use crate::inventory::{Inventory, SourceInfo, list_names};
use crate::place::Origin;
use crate::report::causes::Causes;
use crate::report::corrections::Worklist;
use crate::report::flooded;
use crate::report::question::{Key, missing_field};
use crate::scenario::Campaign;

/// What the lists say, as far as it was understood.
#[derive(Default)]
pub(super) struct Reading {
    /// For the sheets of the book.
    pub understood: Understood,
    /// Lists of which no heading is understood.
    pub strange: Vec<String>,
    pub repairs: Option<(Worklist, Vec<SourceInfo>)>,
    /// Standing water in liters of the rows that can be planned.
    water: BTreeMap<(Origin, u32), f64>,
    /// Rows that are asked about, in words.
    pub rows: BTreeMap<Row, String>,
    pub planned: u64,
    pub wells: u64,
}

/// Gathers what people are asked.
struct Gatherer {
    causes: Causes,
    worklist: Worklist,
    names: Vec<Finding>,
    /// Spellings of names that are counted as others.
    folded: Vec<Finding>,
    headings: Vec<Finding>,
    /// Tables of which no heading is known.
    unknown: Vec<Origin>,
    begun: bool,
    /// Fields for want of which rows are held back.
    lacks: BTreeMap<Row, Vec<Field>>,
}

impl Listener for Gatherer {
    fn findings(&mut self, findings: &[Finding]) -> Result<()> {
        if self.begun {
            self.causes.take_rows(findings);
        } else {
            self.causes.take_files(findings);
            let unknown = findings.iter().filter(|finding| finding.code == catalogue::NO_KNOWN_HEADING);
            self.unknown.extend(unknown.map(|finding| finding.place.origin.clone()));
            self.headings.extend(findings.iter().filter(|finding| finding.place.column.is_some()).cloned());
            self.begun = true;
        }
        self.worklist.take(findings);
        for finding in findings.iter().filter(|finding| finding.code.severity() == Severity::Error) {
            if let (Some(field), Some(row)) = (missing_field(finding.code), finding.place.row) {
                self.lacks.entry((finding.place.origin.clone(), row)).or_default().push(field);
            }
        }
        let of = |code: Code| findings.iter().filter(move |finding| finding.code == code).cloned();
        self.names.extend(of(catalogue::NAMES_NEARLY_ALIKE));
        self.folded.extend(of(catalogue::NAMES_FOLDED));
        Ok(())
    }

    fn progress(&mut self, _: u64, _: f64) {}
}

impl Reading {
    pub fn of(lists: &[PathBuf], names: &[String], rules: &ReadingRules, campaign: Option<&Campaign>) -> Result<Self> {
        let mut inventory = Inventory::open(lists, rules)?;
        let overrides = campaign.map_or(&[][..], |campaign| &campaign.overrides);
        let overrides = engine::Rules::prepare(overrides, inventory.carried_columns(), rules)?;
        let system = rules.system.unwrap_or(UnitSystem::Us);
        let practices = |mask| match campaign {
            Some(campaign) => campaign.scenarios.iter().map(|scenario| campaign.practice_of(scenario, mask)).collect(),
            None => vec![crate::parameter::default_practice(system)],
        };
        let mut gatherer = Gatherer {
            causes: Causes::new(rules.system.is_none()),
            worklist: Worklist::default(),
            names: Vec::new(),
            folded: Vec::new(),
            headings: Vec::new(),
            unknown: Vec::new(),
            begun: false,
            lacks: BTreeMap::new(),
        };
        let mut water = BTreeMap::new();
        let mut told = |origin: &Origin, row, liters| {
            water.insert((origin.clone(), row), liters);
        };
        let checked =
            engine::check_with_water(&mut inventory, rules, &overrides, &practices, &mut gatherer, Some(&mut told))?;
        let is_planned = |row: &Row| water.contains_key(row);
        let again = Again::look(lists, rules, &gatherer.worklist.rows_asked(), &gatherer.lacks, &is_planned)?;
        let sources = inventory.sources();
        let mut understood =
            Understood { columns: columns(&sources, &gatherer.headings, rules), ..Understood::default() };
        let mut rows: BTreeMap<&Path, u64> = BTreeMap::new();
        for source in &sources {
            *rows.entry(&source.path).or_default() += source.rows;
        }
        for (list, name) in lists.iter().zip(names) {
            understood.lists.push((name.clone(), rows.get(list.as_path()).copied().unwrap_or_default()));
        }
        understood.called = list_names(lists);
        understood.unread = unread(&gatherer.causes, &sources);
        // Without units what a list has cannot be told.
        if rules.system.is_some() {
            understood.lacking = lacking(&again, &checked.quality);
        }
        understood.names = gatherer.names.iter().map(|finding| alike(finding, &sources)).collect();
        understood.folded = gatherer.folded.iter().map(|finding| alike(finding, &sources)).collect();
        let is_strange = |file: &&String| {
            let mut tables = sources.iter().filter(|source| *source.origin.file == ***file).peekable();
            tables.peek().is_some() && tables.all(|source| gatherer.unknown.contains(&source.origin))
        };
        let strange = understood.called.iter().filter(is_strange).cloned().collect();
        let wells = checked.admitted + checked.held_back;
        let flood = flooded::counted(checked.flood, checked.admitted);
        understood.status = status(&understood, &gatherer.worklist, rules.system, (checked.admitted, wells));
        // Exceptions are what leaves dry wells out.
        understood.status.extend(flood.map(|counted| {
            let how = if checked.flood.dry == 0 {
                ""
            } else {
                "; to leave the dry ones out: Flooded no, Leave out yes, a Reason"
            };
            ("Exceptions".to_owned(), format!("{counted}{how}"))
        }));
        Ok(Self {
            understood,
            strange,
            repairs: Some((gatherer.worklist, sources)),
            water,
            rows: again.words,
            planned: checked.admitted,
            wells,
        })
    }
}

/// How much water findings are about, in liters.
pub(super) struct Water<'a> {
    read: &'a Reading,
    sources: &'a [SourceInfo],
    /// The middle of the wells that can be planned.
    middle: f64,
}

impl<'a> Water<'a> {
    pub fn of(read: &'a Reading, sources: &'a [SourceInfo]) -> Self {
        let mut all: Vec<f64> = read.water.values().copied().collect();
        all.sort_by(f64::total_cmp);
        let middle = all.get(all.len() / 2).copied().unwrap_or(1.0);
        Self { read, sources, middle }
    }

    /// That of its well; of one whose water is not known the middle; of a whole column that of all its wells.
    pub fn about(&self, finding: &Finding) -> f64 {
        let place = &finding.place;
        if finding.well.is_none() {
            let source = self.sources.iter().find(|source| source.origin == place.origin);
            return self.middle * source.map_or(1, |source| source.rows) as f64;
        }
        let known = place.row.and_then(|row| self.read.water.get(&(place.origin.clone(), row)));
        known.copied().unwrap_or(self.middle)
    }
}

/// Each column: what it was read as, how sure that is, and why.
fn columns(sources: &[SourceInfo], headings: &[Finding], rules: &ReadingRules) -> Vec<Column> {
    let mut columns = Vec::new();
    for source in sources {
        let sheet = source.origin.sheet.as_deref().map(str::to_owned);
        let stated = rules.of(&source.origin);
        for (heading, examples) in &source.examples {
            let read = source.fields.iter().find(|(name, ..)| name == heading);
            let of_column = |finding: &&Finding| {
                finding.place.origin == source.origin
                    && finding.place.column.as_ref().is_some_and(|column| *column.heading == **heading)
            };
            let said = headings.iter().filter(of_column).min_by_key(|finding| finding.code.severity());
            let beside = source.beside.iter().find(|(name, _)| name == heading).map(|(_, what)| what.as_str());
            let answer = mapped(heading, &stated).map(|(_, field)| field);
            let unit_stated = read.is_some_and(|(_, field, _)| stated.units.contains_key(field));
            let how_sure = match (said.map(|finding| finding.code.severity()), read, beside) {
                (Some(Severity::Error), ..) => "open",
                (Some(_), Some(_), _) | (_, None, Some(_)) => "likely",
                (None, Some(_), _) => "sure",
                (_, None, None) => "carried along",
            };
            let why = match (said, read, beside) {
                (Some(finding), ..) => {
                    crate::scenario::keys_as_words(&crate::report::fitted::one_line(&finding.says.to_string()))
                }
                (None, Some(_), _) if answer.is_some() => "you said so in the column Read as".to_owned(),
                (None, None, _) if answer == Some(None) => "not read: you said so in the column Read as".to_owned(),
                (None, Some(_), _) if unit_stated => "its heading says so; you said the unit".to_owned(),
                (None, Some(_), _) => "its heading says so".to_owned(),
                (None, None, Some(what)) => format!("no field of its own: it {what}"),
                (None, None, None) => "no field is called so".to_owned(),
            };
            if heading.is_empty() && read.is_none() {
                continue;
            }
            columns.push(Column {
                file: source.origin.file.to_string(),
                sheet: sheet.clone(),
                heading: heading.clone(),
                examples: examples.clone(),
                field: read.map(|(_, field, _)| field.name()),
                unit: read.and_then(|(.., unit)| unit.clone()),
                how_sure,
                why,
            });
        }
    }
    columns
}

/// Words that wait for a meaning, also of rows that are planned all the same.
fn unread(causes: &Causes, sources: &[SourceInfo]) -> Vec<Unread> {
    let mut unread: Vec<Unread> = Vec::new();
    for cause in causes.all() {
        let question = cause.question.and_then(|at| causes.questions().get(at));
        let is_asked = question.is_some_and(|question| matches!(question.key, Key::Words(..)));
        if !(is_asked || NOT_UNDERSTOOD.contains(&cause.code)) || cause.typed.is_empty() {
            continue;
        }
        let Some(origin) = cause.list.and_then(|list| causes.lists().get(list)) else { continue };
        let heading = cause.column.as_ref().map_or("", |column| &column.heading);
        let source = sources.iter().find(|source| source.origin == *origin);
        let field = source.and_then(|source| source.fields.iter().find(|(name, ..)| name == heading));
        let Some(field) = field.map_or(Some(Field::WellType), |(_, field, _)| Some(*field)) else { continue };
        let spots: Vec<String> = cause.examples.iter().map(crate::report::fitted::spot).collect();
        let (file, sheet) = (origin.file.to_string(), origin.sheet.as_deref().map(str::to_owned));
        let word = cause.typed.to_string();
        let count = cause.wells.max(cause.times());
        // One text may be found twice: as a word, and as what holds its well back.
        let is_same = |other: &&mut Unread| {
            other.file == file && other.sheet == sheet && other.field == field.name() && other.word == word
        };
        match unread.iter_mut().find(is_same) {
            Some(known) => known.count = known.count.max(count),
            None => {
                unread.push(Unread { file, sheet, field: field.name(), word, count, place: spots.join(", ") });
            }
        }
    }
    unread.sort_by(|a, b| b.count.cmp(&a.count).then_with(|| a.word.cmp(&b.word)));
    unread
}

/// Findings about a text whose meaning a sheet of words can say.
const NOT_UNDERSTOOD: [Code; 3] =
    [catalogue::UNKNOWN_WELL_TYPE, catalogue::UNKNOWN_CHOICE, catalogue::FLAG_NOT_UNDERSTOOD];

/// The field that a finding's column is read as.
pub(super) fn field_of(finding: &Finding, sources: &[SourceInfo]) -> Option<Field> {
    let heading = &finding.place.column.as_ref()?.heading;
    let source = sources.iter().find(|source| source.origin == finding.place.origin)?;
    source.fields.iter().find(|(name, ..)| *name == **heading).map(|(_, field, _)| *field)
}

fn alike(finding: &Finding, sources: &[SourceInfo]) -> Alike {
    Alike {
        field: field_of(finding, sources).map_or("", Field::name),
        name: finding.seen.to_string(),
        other: finding.suggested.as_deref().unwrap_or_default().to_owned(),
        says: finding.says.to_string(),
        place: finding.place.to_string(),
    }
}

/// What is done and what is open, by sheet, as the book and its lists have it.
fn status(
    understood: &Understood,
    worklist: &Worklist,
    system: Option<UnitSystem>,
    (planned, wells): (u64, u64),
) -> Vec<(String, String)> {
    let sure = |word: &str| understood.columns.iter().filter(|column| column.how_sure == word).count();
    let campaign = match system {
        Some(system) => format!("units: {}; {planned} of {wells} wells can be planned now", system.name()),
        None => format!(
            "{UNITS_OPEN}; {planned} of {wells} wells can be planned without. State them first: more is asked then"
        ),
    };
    let open = match sure("open") {
        0 => String::new(),
        count => format!("{count} open, "),
    };
    let columns =
        format!("{open}{} sure, {} likely, {} carried along", sure("sure"), sure("likely"), sure("carried along"));
    let words = match understood.unread.len() {
        0 => "all understood".to_owned(),
        count => format!("{count} open"),
    };
    let folded = match understood.folded.len() {
        0 => String::new(),
        1 => "1 spelling is counted as another name".to_owned(),
        count => format!("{count} spellings are counted as another name"),
    };
    let names = match (understood.names.len(), folded.as_str()) {
        (0, "") => "none look alike".to_owned(),
        (0, _) => folded,
        (count, "") => format!("{count} open"),
        (count, _) => format!("{count} open; {folded}"),
    };
    let repairs = match worklist.open() {
        (0, _) => "nothing to repair".to_owned(),
        (all, 0) => format!("{all} cells and rows to look at; what stays blank is read as it is"),
        (all, held_back) => {
            let rows = worklist.rows_open();
            let rows = if rows == 1 { "1 row".to_owned() } else { format!("{rows} rows") };
            format!("{held_back} open that hold back {rows}, {all} lines in all; what stays blank is read as it is")
        }
    };
    [("Campaign", campaign), ("Columns", columns), ("Words", words), ("Names", names), ("Repairs", repairs)]
        .map(|(sheet, status)| (sheet.to_owned(), status))
        .to_vec()
}
