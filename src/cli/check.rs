//! `check`: what is wrong with the lists, by cause or cell by cell; nothing is computed.

mod full;
mod lines;
mod next;
mod short;

use std::io::Write;
use std::path::Path;

use serde::Serialize;

use super::args::{Check as Options, Units};
use super::plan::{FORMAT, FindingMessage};
use super::progress::Progress;
use super::quality;
use super::sources::{Sources, book_of};
use super::{DONE, HELD_BACK, Stop, date_of_plan, say, say_corrections};
use crate::engine::{self, Checked, Listener};
use crate::error::{Error, Result};
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::Finding;
use crate::inventory::{Inventory, corrections};
use crate::report;
use crate::report::causes::Causes;
use crate::report::corrections::Worklist;
use crate::scenario::Campaign;
use crate::scenario::depot_stock::not_poured;
use crate::scenario::practice::default_practice;
use crate::write::{json, xlsx};
use next::Next;
use short::Screen;

impl Units {
    /// The system these words mean.
    pub(super) const fn system(self) -> UnitSystem {
        match self {
            Self::Us => UnitSystem::Us,
            Self::Metric => UnitSystem::Metric,
            Self::Imperial => UnitSystem::Imperial,
        }
    }
}

/// Findings printed one by one, where no other number is asked for.
const LIMIT: u64 = 1000;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let book = book_of(&options.inventory, options.scenarios.as_ref())
        .map(|book| {
            Sources::of_book(&book, |campaign| engine::prove_stock(campaign, date_of_plan(None, Some(campaign))?))
        })
        .transpose()?;
    let is_of_book = book.is_some();
    let (campaign, lists) = match book {
        Some(sources) => (Some(sources.campaign), sources.lists),
        None => (options.scenarios.as_deref().map(campaign_of_file).transpose()?, options.inventory.clone()),
    };
    let mut rules = campaign.as_ref().map_or_else(ReadingRules::default, |campaign| campaign.rules.clone());
    // What is asked for here counts over what the file says of all lists.
    rules.system = options.units.map(Units::system).or(rules.system);
    if let Some(file) = &options.corrections {
        rules.corrections = corrections::read(file)?.0;
    }
    if let Some(path) = options.corrections_out.as_deref() {
        super::new_book::new_workbook(path)?;
    }
    let all = options.all || options.limit.is_some();
    let mut inventory = Inventory::open(&lists, &rules)?;
    let overrides = campaign.as_ref().map_or(&[][..], |campaign| &campaign.overrides);
    let overrides = engine::Rules::prepare(overrides, inventory.carried_columns(), &rules)?;
    let practices = |mask| match &campaign {
        Some(campaign) => campaign.scenarios.iter().map(|scenario| campaign.practice_of(scenario, mask)).collect(),
        None => vec![default_practice(rules.system.unwrap_or(UnitSystem::Us))],
    };
    let mut printer = Printer {
        out: &mut *out,
        style: match (options.json, all) {
            (true, _) => Style::Json,
            (false, true) => Style::Cells(full::Cells::new(options.limit.unwrap_or(LIMIT), is_of_book)),
            (false, false) => Style::Causes,
        },
        causes: Causes::new(rules.system.is_none()),
        begun: false,
        worklist: options.corrections_out.is_some().then(Worklist::default),
        progress: Progress::new(),
        reader_gone: false,
    };
    let checked = engine::check(&mut inventory, &rules, &overrides, &practices, &mut printer);
    if printer.reader_gone {
        return Err(Stop::ReaderGone);
    }
    let checked = checked?;
    let applied = inventory.applied_corrections().len();
    say_corrections(options.corrections.as_deref(), rules.corrections.len(), applied);
    let worklist = printer.worklist.take();
    let causes = std::mem::take(&mut printer.causes);
    let hidden = match &printer.style {
        Style::Cells(cells) => cells.hidden(),
        Style::Json | Style::Causes => 0,
    };
    drop(printer);
    let tally = Tally::of(&checked);
    let units = report::quality::Units::of(rules.system, &checked.quality);
    if options.json {
        quality::messages(&checked.quality, units, out)?;
        json::write_line(out, &CheckFinished::of(&tally))?;
    } else {
        if all {
            full::columns(&inventory, hidden, out)?;
            quality::print(&checked.quality, units, out)?;
        }
        let next = Next { options };
        let sources = inventory.sources();
        let screen = Screen {
            causes: &causes,
            sources: sources.len(),
            checked: &checked,
            tally: &tally,
            next: &next,
            is_of_book,
            all,
        };
        screen.lines().iter().try_for_each(|line| writeln!(out, "{line}"))?;
    }
    for remark in campaign.iter().flat_map(|stated| not_poured(&stated.stock, &stated.products, &stated.scenarios)) {
        say(&format!("{remark}; it is not used"));
    }
    if let (Some(path), Some(worklist)) = (&options.corrections_out, worklist) {
        let sources = inventory.sources();
        let field_of = |finding: &Finding| {
            let heading = &finding.place.column.as_ref()?.heading;
            let source = sources.iter().find(|source| source.origin == finding.place.origin)?;
            source.fields.iter().find(|(name, ..)| *name == **heading).map(|(_, field, _)| *field)
        };
        xlsx::write_new_book(path, &worklist.book(&field_of))?;
        let (path, count) = (path.display(), worklist.len());
        say(&format!("{path}: {count} cells and rows; fill in Right value and give it back with --corrections"));
    }
    super::prove_usable(&inventory)?;
    Ok(if tally.held_back > 0 { HELD_BACK } else { DONE })
}

/// A scenario file of which a plan can be made; the day to plan for may still be named when planning.
fn campaign_of_file(file: &Path) -> Result<Campaign> {
    let campaign = super::campaign(file)?;
    let date = date_of_plan(None, Some(&campaign))?.or_else(|| campaign.dates_of_stock().max());
    engine::prove_stock(&campaign, date)?;
    Ok(campaign)
}

/// What became of the rows; one place, so that words, messages and exit code agree.
struct Tally {
    read: u64,
    planned: u64,
    held_back: u64,
    excluded: u64,
    not_wells: u64,
    assumed: u64,
}

impl Tally {
    const fn of(checked: &Checked) -> Self {
        Self {
            read: checked.read,
            planned: checked.admitted,
            held_back: checked.held_back,
            excluded: checked.excluded,
            not_wells: checked.other_rows.count(),
            assumed: checked.assumed,
        }
    }

    /// Wells: what can be planned, and what is held back.
    const fn wells(&self) -> u64 {
        self.planned + self.held_back
    }
}

/// `check_finished`, of `check`: what became of the rows, once all are read.
#[derive(Serialize)]
struct CheckFinished {
    /// Which message this is.
    message: &'static str,
    /// Version of the messages; a change that a reader must know of raises it.
    format: u32,
    /// Rows that were read, of every kind.
    rows_read: u64,
    /// Visits that can be planned.
    visits_admitted: u64,
    /// Visits that are held back, for which nothing is computed.
    visits_held_back: u64,
    /// Visits that a rule of the campaign leaves out.
    visits_excluded: u64,
    /// Rows that are no wells.
    rows_not_wells: u64,
    /// Planned visits with a value that was assumed.
    visits_resting_on_assumptions: u64,
}

impl CheckFinished {
    fn of(tally: &Tally) -> Self {
        Self {
            message: "check_finished",
            format: FORMAT,
            rows_read: tally.read,
            visits_admitted: tally.planned,
            visits_held_back: tally.held_back,
            visits_excluded: tally.excluded,
            rows_not_wells: tally.not_wells,
            visits_resting_on_assumptions: tally.assumed,
        }
    }
}

/// How findings are printed as they come.
enum Style {
    Json,
    /// A paragraph each, as many as `--limit` allows.
    Cells(full::Cells),
    /// Not at all: their causes are, at the end.
    Causes,
}

struct Printer<'a> {
    out: &'a mut dyn Write,
    style: Style,
    causes: Causes,
    /// Whether the findings about files, which come first, have come.
    begun: bool,
    worklist: Option<Worklist>,
    progress: Progress,
    /// The stdout pipe was closed; an error of ours cannot say so, and only `cli` needs to know.
    reader_gone: bool,
}

impl Listener for Printer<'_> {
    fn findings(&mut self, findings: &[Finding]) -> Result<()> {
        if self.begun {
            self.causes.take_rows(findings);
        } else {
            self.causes.take_files(findings);
            self.begun = true;
        }
        self.worklist.iter_mut().for_each(|worklist| worklist.take(findings));
        let written = match &mut self.style {
            Style::Json => {
                findings.iter().try_for_each(|finding| json::write_line(self.out, &FindingMessage::of(finding)))
            }
            Style::Cells(cells) => cells.print(findings, self.out),
            Style::Causes => Ok(()),
        };
        written.map_err(|error| {
            self.reader_gone = error.kind() == std::io::ErrorKind::BrokenPipe;
            Error::output(Path::new("standard output"), error)
        })
    }

    fn progress(&mut self, rows: u64, share: f64) {
        self.progress.rows(rows, share);
    }
}
