//! `plan`: lists and a scenario file in; a folder with workbook, tables, orders and findings out.

mod counts;
mod crews;
mod messages;
mod record;
mod summary;

use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

pub(super) use messages::{FORMAT, FindingMessage};
use record::{CorrectionsRecord, FileRecord, Record};

use super::args::Plan as Options;
use super::progress::Progress;
use super::sources::{Sources, book_of};
use super::tables as streams;
use super::{DONE, HELD_BACK, Stop, date_of_plan, demo, language, say, say_corrections};
use crate::engine::{self, Listener, Plan, Run};
use crate::error::{Error, Result};
use crate::finding::Finding;
use crate::inventory::{Inventory, corrections};
use crate::report::causes::Causes;
use crate::report::crew;
use crate::report::{self, Matter, tables};
use crate::rollup::orders::{self, Orders};
use crate::write::csv;
use crate::write::earlier;
use crate::write::folder::{Ours, OutputFolder};
use crate::write::{cards, html, json, xlsx};

const WORKBOOK: &str = "campaign.xlsx";
const CREW_SHEETS: &str = "crew-sheets.html";
const NOTICES: &str = "notices.html";
const TOTALS: &str = "totals.csv";
const ORDERS: &str = "orders.csv";
const FINDINGS: &str = "findings.csv";
const REPORT: &str = "report.html";
const RECORD: &str = "run.json";
/// Every name that a run may write, beside those of the tables; one of them left by an earlier run is cleared away.
const NAMES: [&str; 8] = [WORKBOOK, REPORT, CREW_SHEETS, NOTICES, TOTALS, ORDERS, FINDINGS, RECORD];

/// Rows of the treatments table that the workbook holds; more make it slow to open and no easier to read.
const WORKBOOK_ROWS: usize = 20_000;
/// Findings that the workbook holds.
const WORKBOOK_FINDINGS: usize = 5_000;
/// Folder of the demo where none is named.
const DEMO_FOLDER: &str = "campaign";

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    if let Some(threads) = options.threads {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads.into())
            .build_global()
            .map_err(|error| Error::request(format!("{threads} threads cannot be started: {error}")))?;
    }
    let demo = if options.demo { Some(demo::unpack()?) } else { None };
    let sources = match (&demo, &options.scenarios) {
        (Some(demo), _) => Sources::of_files(&demo.inventory, &demo.scenarios)?,
        (None, Some(file)) => Sources::of_files(&options.inventory, file)?,
        (None, None) => match book_of(&options.inventory, None) {
            Some(book) => Sources::of_book(&book, |campaign| {
                engine::prove_stock(campaign, date_of_plan(options.date, Some(campaign))?)
            })?,
            None => {
                let reason = "name a scenario file with --scenarios FILE, or make a campaign book of the lists: aftercrest start";
                return Err(Error::request(reason).into());
            }
        },
    };
    let Sources { lists, names: list_names, mut campaign, text, stated_in: scenario_file, digest: scenario_digest } =
        sources;
    let is_of_book = options.scenarios.is_none() && !options.demo;
    let folder = options.out.clone().unwrap_or_else(|| PathBuf::from(DEMO_FOLDER));
    let date = date_of_plan(options.date, Some(&campaign))?;
    let mut corrections_digest = None;
    if let Some(file) = &options.corrections {
        let (corrections, digest) = corrections::read(file)?;
        campaign.rules.corrections = corrections;
        corrections_digest = Some(FileRecord { file: file_name(file), sha256: digest });
    }
    let scenarios = campaign.select(&options.only)?;
    let mut inventory = Inventory::open(&lists, &campaign.rules)?;
    super::prove_usable(&inventory)?;
    let mut plan = Plan::prepare(&campaign, scenarios, date, inventory.carried_columns())?;
    let read_ahead = if campaign.crews.is_empty() { None } else { Some(crews::send(&mut plan, &lists)?) };
    let mut inputs: Vec<PathBuf> = inventory.sources().into_iter().map(|source| source.path).collect();
    inputs.push(scenario_file.clone());
    inputs.extend(options.corrections.clone());
    let ours = if options.replace { Ours::Everything } else { Ours::Written(earlier::written(&folder.join(RECORD))) };
    let names: Vec<&str> = NAMES.into_iter().chain(streams::NAMES).collect();
    let staged = OutputFolder::prepare(&folder, &inputs, &names, ours)?;

    let causes = Causes::new(campaign.rules.system.is_none());
    let mut watcher = Watcher::new(&staged.path(FINDINGS), causes, options.json.then_some(&mut *out))?;
    let table_file = streams::treatments(options.table);
    let (run, streamed) = streams::run(options, &plan, &mut inventory, &staged, WORKBOOK_ROWS, &mut watcher)?;
    let (findings, causes) = watcher.finish()?;
    read_ahead.map_or(Ok(()), |before| before.prove(&inventory))?;

    let orders = orders::orders(&campaign, &plan.poured(), &run.totals);
    csv::write_grid(&staged.path(TOTALS), &tables::totals(&plan, &run))?;
    csv::write_grid(&staged.path(ORDERS), &tables::orders(&plan, &orders))?;
    let corrected = inventory.applied_corrections();
    let matter = Matter {
        plan: &plan,
        run: &run,
        orders: &orders,
        findings: &findings,
        causes: &causes,
        corrections: &corrected,
        date,
        lists: &list_names,
        stated: &text,
        is_of_book,
        table_file,
        of_book: demo.is_none() && options.scenarios.is_none(),
    };
    let of_scenarios = streams::write_scenarios(options.table, &staged, &matter)?;
    let streamed: Vec<&str> = streamed.into_iter().chain(of_scenarios).collect();
    let (book, pages) = rayon::join(
        || -> Result<_> {
            xlsx::write_book(&staged.path(WORKBOOK), &report::book(&matter)?)?;
            earlier::digests(&staged, &[WORKBOOK])
        },
        || -> Result<_> {
            html::write_page(&staged.path(REPORT), &report::page::document(&matter))?;
            let cards = write_cards(&staged, &plan, &run, &orders, language(options.language))?;
            let names = [&[REPORT, TOTALS, ORDERS, FINDINGS], &cards[..], &streamed].concat();
            Ok((cards, earlier::digests(&staged, &names)?))
        },
    );
    let (mut digests, (cards, more)) = (book?, pages?);
    digests.extend(more);
    digests.sort_unstable();
    let written = [&[WORKBOOK, REPORT, TOTALS, ORDERS, FINDINGS], &cards[..], &streamed].concat();
    let mut written: Vec<String> = written.into_iter().map(str::to_owned).collect();
    let mut record = Record::of(&inventory, date, &plan, &run, table_file);
    record.scenario_file = FileRecord { file: file_name(&scenario_file), sha256: scenario_digest };
    record.outputs = digests.into_iter().map(|(file, sha256)| FileRecord { file, sha256 }).collect();
    record.corrections = corrections_digest.map(|file| CorrectionsRecord::of(file, &inventory));
    json::write_document(&staged.path(RECORD), &record)?;
    written.push(RECORD.to_owned());
    staged.publish(&written, &names)?;
    say_corrections(options.corrections.as_deref(), campaign.rules.corrections.len(), corrected.len());
    for remark in &orders.remarks {
        say(&format!("{remark}; it was not used"));
    }

    let said = if options.json {
        messages::write_totals(&matter, out)
    } else {
        summary::write(&matter, &folder, &written.join(", "), out)
    };
    match said {
        // The pipe was closed; the outputs are written, and the exit code says what they are.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => {}
        said => said?,
    }
    Ok(if run.held_back > 0 { HELD_BACK } else { DONE })
}

/// What crews take along, for the first scenario; the names of the files.
fn write_cards(
    staged: &OutputFolder,
    plan: &Plan<'_>,
    run: &Run,
    orders: &Orders,
    language: crew::Language,
) -> Result<Vec<&'static str>> {
    let counts = crew::Counts { planned: run.planned, held_back: run.held_back, excluded: run.excluded };
    let Some(papers) = crew::of_run(plan, &run.kept, orders, counts, language)? else { return Ok(Vec::new()) };
    cards::write_sheets(&staged.path(CREW_SHEETS), &papers.sheets)?;
    cards::write_notices(&staged.path(NOTICES), &papers.notices)?;
    Ok(vec![CREW_SHEETS, NOTICES])
}

pub(super) fn file_name(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// Writes every finding to the findings table, keeps the first for the workbook, and shows progress.
struct Watcher<'a> {
    path: PathBuf,
    file: BufWriter<File>,
    kept: Vec<Finding>,
    causes: Causes,
    /// Whether the findings about files, which come first, have come.
    begun: bool,
    progress: Progress,
    json: Option<&'a mut dyn Write>,
}

impl<'a> Watcher<'a> {
    fn new(path: &Path, causes: Causes, json: Option<&'a mut dyn Write>) -> Result<Self> {
        let file = File::create(path).map_err(|error| Error::unwritten(path, error))?;
        let mut watcher = Self {
            path: path.to_owned(),
            file: BufWriter::new(file),
            kept: Vec::new(),
            causes,
            begun: false,
            progress: Progress::new(),
            json,
        };
        watcher.line(&csv::line(tables::FINDING_HEADS, tables::AS_TYPED)?)?;
        Ok(watcher)
    }

    fn line(&mut self, line: &[u8]) -> Result<()> {
        self.file.write_all(line).map_err(|error| Error::unwritten(&self.path, error))
    }

    fn finish(mut self) -> Result<(Vec<Finding>, Causes)> {
        self.file.flush().map_err(|error| Error::unwritten(&self.path, error))?;
        Ok((self.kept, self.causes))
    }
}

impl Listener for Watcher<'_> {
    fn findings(&mut self, findings: &[Finding]) -> Result<()> {
        if self.begun {
            self.causes.take_rows(findings);
        } else {
            self.causes.take_files(findings);
            self.begun = true;
        }
        for finding in findings {
            let row = tables::finding_row(finding);
            self.line(&csv::line(row.iter().map(String::as_str), tables::AS_TYPED)?)?;
            if self.kept.len() < WORKBOOK_FINDINGS {
                self.kept.push(finding.clone());
            }
            if let Some(out) = &mut self.json {
                match json::write_line(out, &FindingMessage::of(finding)) {
                    // The pipe was closed; the folder is still wanted.
                    Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => self.json = None,
                    written => written.map_err(|error| Error::unwritten(Path::new("standard output"), error))?,
                }
            }
        }
        Ok(())
    }

    fn progress(&mut self, rows: u64, share: f64) {
        self.progress.rows(rows, share);
    }
}
