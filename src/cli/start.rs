//! `start`: the campaign book of some lists; what is new in them, every answer kept; and books from scenario files and back.

use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};

use super::args::{Start as Options, Units};
use super::new_book::{blank_campaign, new_workbook};
use super::sources::read_book;
use super::{DONE, Stop, quoted};
use crate::book::{self, Alike, Column, Contents, Understood, Unread};
use crate::document::cell::Sheet;
use crate::engine::{self, Listener};
use crate::error::{Error, Result, describe};
use crate::field::Field;
use crate::field::rules::{Correction, ReadingRules, UnitSystem};
use crate::finding::{Finding, Severity, catalogue};
use crate::inventory::{Inventory, SourceInfo, corrections};
use crate::place::Origin;
use crate::report::causes::Causes;
use crate::report::corrections::Worklist;
use crate::report::questions::Key;
use crate::scenario::stated::{Document, Table};
use crate::scenario::{Campaign, file_text, toml_text};
use crate::write::xlsx;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    match (&options.from, &options.out, &options.inventory[..]) {
        (Some(from), Some(to), lists) => turn(from, to, lists, out),
        (None, None, [book]) if options.update => update(book, out),
        (None, Some(to), lists) if !lists.is_empty() && !options.update => new_book(lists, to, options.units, out),
        _ => Err(Error::request(
            "name lists and a book to write (start LISTS --out book.xlsx), a book to bring up to date (start book.xlsx --update), \
             or a campaign and what to make of it (start --from campaign.toml --out book.xlsx)",
        )
        .into()),
    }
}

/// A new book of some lists.
pub(super) fn new_book(
    lists: &[PathBuf],
    to: &Path,
    units: Option<Units>,
    out: &mut dyn Write,
) -> std::result::Result<u8, Stop> {
    new_workbook(to)?;
    let system = units.map(Units::system);
    let stated = blank_campaign(system)?;
    let rules = ReadingRules { system, ..ReadingRules::default() };
    let read = Reading::of(lists, &names_from(lists, to), &rules, None)?;
    write(to, &stated, &read, system, None, false)?;
    say_written(to, &read, out)
}

/// Brings a book up to date with its lists; every answer stays.
fn update(path: &Path, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let document = Document::new(path, "");
    let book = book::read(path, &document)?;
    let stated = book.stated.value.table().cloned().unwrap_or_default();
    let system = units_stated(&stated);
    // Units may still be open in a book that is being filled in; everything else must be right before it is laid out anew.
    let campaign = Campaign::of(&document, &book.stated);
    if let (Some(refusal), true) = (document.refusal(), system.is_some()) {
        return Err(refusal.into());
    }
    let mut rules = campaign.as_ref().map_or_else(ReadingRules::default, |campaign| campaign.rules.clone());
    rules.system = system;
    let answered = if book.has_repairs { corrections::read(path)?.0 } else { Vec::new() };
    rules.corrections = answered.clone();
    if book.lists.iter().any(|list| list == path) {
        let reason = "its wells stand in it: there is nothing to bring up to date; check it as it is";
        return Err(Error::input(path, reason).into());
    }
    let read = Reading::of(&book.lists, &book.list_names, &rules, campaign.as_ref())?;
    write(path, &stated, &read, system, Some(&answered), true)?;
    say_written(path, &read, out)
}

/// A book of a scenario file, or a scenario file of a book.
fn turn(from: &Path, to: &Path, lists: &[PathBuf], out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let stated = if book::is_book(from) {
        let (book, _) = read_book(from)?;
        book.stated.value.table().cloned().unwrap_or_default()
    } else {
        let content = std::fs::read_to_string(from).map_err(|error| Error::unread(from, error))?;
        Campaign::parse(from, &content)?;
        let document = Document::new(from, &content);
        file_text::read(&document).and_then(|stated| stated.value.table().cloned()).unwrap_or_default()
    };
    if to.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml")) {
        let text = format!(
            "# Made from {}. Local code and licensed practice come first.\n\n{}",
            super::plan::file_name(from),
            toml_text::text_of(&stated)
        );
        let mut file = std::fs::File::options().write(true).create_new(true).open(to).map_err(|error| {
            let there = error.kind() == std::io::ErrorKind::AlreadyExists;
            let reason = "the file already exists and is not overwritten; name another file";
            if there { Error::output(to, reason) } else { Error::output(to, describe(&error)) }
        })?;
        file.write_all(text.as_bytes()).map_err(|error| Error::output(to, describe(&error)))?;
        writeln!(out, "{}: the campaign as a scenario file.", to.display())?;
        return Ok(DONE);
    }
    new_workbook(to)?;
    let system = units_stated(&stated);
    let campaign = Campaign::parse(from, &toml_text::text_of(&stated))?;
    let read = if lists.is_empty() {
        Reading::default()
    } else {
        Reading::of(lists, &names_from(lists, to), &campaign.rules, Some(&campaign))?
    };
    write(to, &stated, &read, system, None, false)?;
    say_written(to, &read, out)
}

fn units_stated(stated: &Table) -> Option<UnitSystem> {
    let word = stated.get("campaign")?.value.table()?.get("units")?.value.text()?;
    [UnitSystem::Us, UnitSystem::Metric, UnitSystem::Imperial].into_iter().find(|system| system.name() == word)
}

/// The lists as the book names them: from its own folder where they lie in or below it.
fn names_from(lists: &[PathBuf], book: &Path) -> Vec<String> {
    let folder = book.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let folder = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
    let name = |list: &PathBuf| {
        let whole = list.canonicalize().unwrap_or_else(|_| list.clone());
        let name = match whole.strip_prefix(&folder) {
            Ok(below) => below.to_owned(),
            Err(_) => above(&whole, &folder).unwrap_or(whole),
        };
        name.display().to_string().replace('\\', "/")
    };
    lists.iter().map(name).collect()
}

/// A path by way of the folders that both have in common.
fn above(path: &Path, folder: &Path) -> Option<PathBuf> {
    let mut up = PathBuf::new();
    for common in folder.ancestors() {
        if let Ok(rest) = path.strip_prefix(common) {
            return (common.parent().is_some()).then(|| up.join(rest));
        }
        up.push("..");
    }
    None
}

/// What the lists say, as far as it was understood.
#[derive(Default)]
struct Reading {
    understood: Understood,
    repairs: Option<(Worklist, Vec<SourceInfo>)>,
    /// Standing water in liters of the rows that can be planned.
    water: BTreeMap<(Origin, u32), f64>,
    planned: u64,
    wells: u64,
}

/// Gathers what people are asked.
struct Gatherer {
    causes: Causes,
    worklist: Worklist,
    names: Vec<Finding>,
    headings: Vec<Finding>,
    begun: bool,
}

impl Listener for Gatherer {
    fn findings(&mut self, findings: &[Finding]) -> Result<()> {
        if self.begun {
            self.causes.take_rows(findings);
        } else {
            self.causes.take_files(findings);
            self.headings.extend(findings.iter().filter(|finding| finding.place.column.is_some()).cloned());
            self.begun = true;
        }
        self.worklist.take(findings);
        self.names.extend(findings.iter().filter(|finding| finding.code == catalogue::NAMES_NEARLY_ALIKE).cloned());
        Ok(())
    }

    fn progress(&mut self, _: u64, _: f64) {}
}

impl Reading {
    fn of(lists: &[PathBuf], names: &[String], rules: &ReadingRules, campaign: Option<&Campaign>) -> Result<Self> {
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
            headings: Vec::new(),
            begun: false,
        };
        let mut water = BTreeMap::new();
        let mut told = |origin: &Origin, row, liters| {
            water.insert((origin.clone(), row), liters);
        };
        let checked =
            engine::check_with_water(&mut inventory, rules, &overrides, &practices, &mut gatherer, Some(&mut told))?;
        let sources = inventory.sources();
        let mut understood = Understood { columns: columns(&sources, &gatherer.headings), ..Understood::default() };
        let mut rows: BTreeMap<String, u64> = BTreeMap::new();
        for source in &sources {
            *rows.entry(super::plan::file_name(&source.path)).or_default() += source.rows;
        }
        for (list, name) in lists.iter().zip(names) {
            let count = rows.get(&super::plan::file_name(list)).copied().unwrap_or_default();
            understood.lists.push((name.clone(), count));
        }
        understood.unread = unread(&gatherer.causes, &sources);
        understood.names = gatherer.names.iter().map(|finding| alike(finding, &sources)).collect();
        let wells = checked.admitted + checked.held_back;
        understood.status = status(&understood, &gatherer.worklist, rules.system, checked.admitted, wells);
        Ok(Self { understood, repairs: Some((gatherer.worklist, sources)), water, planned: checked.admitted, wells })
    }
}

/// How much water findings are about, in liters.
struct Water<'a> {
    read: &'a Reading,
    sources: &'a [SourceInfo],
    /// The middle of the wells that can be planned.
    middle: f64,
}

impl<'a> Water<'a> {
    fn of(read: &'a Reading, sources: &'a [SourceInfo]) -> Self {
        let mut all: Vec<f64> = read.water.values().copied().collect();
        all.sort_by(f64::total_cmp);
        let middle = all.get(all.len() / 2).copied().unwrap_or(1.0);
        Self { read, sources, middle }
    }

    /// That of its well; of one whose water is not known the middle; of a whole column that of all its wells.
    fn about(&self, finding: &Finding) -> f64 {
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
fn columns(sources: &[SourceInfo], headings: &[Finding]) -> Vec<Column> {
    let mut columns = Vec::new();
    for source in sources {
        let sheet = source.origin.sheet.as_deref().map(str::to_owned);
        for (heading, examples) in &source.examples {
            let read = source.fields.iter().find(|(name, ..)| name == heading);
            let of_column = |finding: &&Finding| {
                finding.place.origin == source.origin
                    && finding.place.column.as_ref().is_some_and(|column| *column.heading == **heading)
            };
            let said = headings.iter().filter(of_column).min_by_key(|finding| finding.code.severity());
            let how_sure = match (said.map(|finding| finding.code.severity()), read) {
                (Some(Severity::Error), _) => "open",
                (Some(_), Some(_)) => "likely",
                (None, Some(_)) => "sure",
                (_, None) => "carried along",
            };
            let why = match (said, read) {
                (Some(finding), _) => crate::report::questions::one_line(&finding.says.to_string()),
                (None, Some(_)) => "its heading says so".to_owned(),
                (None, None) => "no field is called so".to_owned(),
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

/// Words that wait for a meaning.
fn unread(causes: &Causes, sources: &[SourceInfo]) -> Vec<Unread> {
    let mut unread: Vec<Unread> = Vec::new();
    for cause in causes.all() {
        let question = cause.question.and_then(|at| causes.questions().get(at));
        if !question.is_some_and(|question| matches!(question.key, Key::Words(..))) || cause.typed.is_empty() {
            continue;
        }
        let Some(origin) = cause.list.and_then(|list| causes.lists().get(list)) else { continue };
        let heading = cause.column.as_ref().map_or("", |column| &column.heading);
        let source = sources.iter().find(|source| source.origin == *origin);
        let field = source.and_then(|source| source.fields.iter().find(|(name, ..)| name == heading));
        let Some(field) = field.map_or(Some(Field::WellType), |(_, field, _)| Some(*field)) else { continue };
        unread.push(Unread {
            file: origin.file.to_string(),
            sheet: origin.sheet.as_deref().map(str::to_owned),
            field: field.name(),
            word: cause.typed.to_string(),
            count: cause.wells.max(cause.times()),
            place: cause.examples.first().map(crate::report::questions::spot).unwrap_or_default(),
        });
    }
    unread.sort_by(|a, b| b.count.cmp(&a.count).then_with(|| a.word.cmp(&b.word)));
    unread
}

/// The field that a finding's column is read as.
fn field_of(finding: &Finding, sources: &[SourceInfo]) -> Option<Field> {
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

/// What is done and what is open, by sheet.
fn status(
    understood: &Understood,
    worklist: &Worklist,
    system: Option<UnitSystem>,
    planned: u64,
    wells: u64,
) -> Vec<(String, String)> {
    let sure = |word: &str| understood.columns.iter().filter(|column| column.how_sure == word).count();
    let campaign = match system {
        Some(system) => format!("units: {}; {planned} of {wells} wells can be planned now", system.name()),
        None => format!("Units must be stated; {planned} of {wells} wells can be planned without"),
    };
    let columns = format!(
        "{} sure, {} likely, {} open, {} carried along",
        sure("sure"),
        sure("likely"),
        sure("open"),
        sure("carried along")
    );
    let columns = if sure("open") == 0 { columns.replace(" 0 open,", "") } else { columns };
    let words = match understood.unread.len() {
        0 => "all understood".to_owned(),
        count => format!("{count} open"),
    };
    let names = match understood.names.len() {
        0 => "none look alike".to_owned(),
        count => format!("{count} open"),
    };
    let repairs = match worklist.len() {
        0 => "nothing to repair".to_owned(),
        count => format!("{count} cells and rows open; what stays blank is read as it is"),
    };
    [
        ("Campaign", campaign),
        ("Columns", columns),
        ("Words", words),
        ("Names", names),
        ("Repairs", repairs),
        ("Packages and prices", "prices are open".to_owned()),
    ]
    .map(|(sheet, status)| (sheet.to_owned(), status))
    .to_vec()
}

/// Writes the book.
fn write(
    to: &Path,
    stated: &Table,
    read: &Reading,
    system: Option<UnitSystem>,
    answered: Option<&[Correction]>,
    replace: bool,
) -> Result<()> {
    let repairs = read.repairs.as_ref().map(|(worklist, sources)| {
        let field_of = |finding: &Finding| field_of(finding, sources);
        let water = Water::of(read, sources);
        let sheet: Sheet = worklist.repairs(&field_of, &|finding| water.about(finding), answered.unwrap_or_default());
        sheet
    });
    let contents = Contents { stated, lists: &read.understood, repairs, wells: None, system };
    let book = book::book(contents);
    if replace { xlsx::replace_book(to, &book) } else { xlsx::write_new_book(to, &book) }
}

fn say_written(path: &Path, read: &Reading, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let (path, named) = (path.display(), quoted(path));
    if read.wells > 0 {
        writeln!(out, "{} of {} wells can be planned now.", read.planned, read.wells)?;
        for (sheet, status) in &read.understood.status {
            writeln!(out, "  {sheet}: {status}")?;
        }
    }
    writeln!(
        out,
        "Written: {path}\nOpen it, begin with the sheet Start here, save it, and plan it:\n  aftercrest plan {named} --out campaign"
    )?;
    Ok(DONE)
}
