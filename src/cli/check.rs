//! `check`: what is wrong with the lists, cell by cell; nothing is computed.

use std::io::Write;
use std::path::Path;

use serde::Serialize;

use super::args::{Check as Options, Units};
use super::plan::{FORMAT, FindingMessage};
use super::progress::Progress;
use super::quality;
use super::{DONE, HELD_BACK, Stop, say, say_corrections, width};
use crate::engine::{self, Checked, Listener};
use crate::error::{Error, Result};
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::finding::{Code, Finding, catalogue};
use crate::inventory::{Inventory, corrections};
use crate::report;
use crate::report::corrections::Worklist;
use crate::write::{json, terminal, xlsx};

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

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let (mut rules, overrides) = match &options.scenarios {
        Some(file) => {
            let campaign = super::campaign(file)?;
            (campaign.rules, campaign.overrides)
        }
        None => (ReadingRules { system: options.units.map(Units::system), ..ReadingRules::default() }, Vec::new()),
    };
    if let Some(file) = &options.corrections {
        rules.corrections = corrections::read(file)?;
    }
    if let Some(path) = options.corrections_out.as_deref() {
        super::template::new_workbook(path)?;
    }
    let mut inventory = Inventory::open(&options.inventory, &rules)?;
    let overrides = engine::Rules::prepare(&overrides, inventory.carried_columns(), &rules)?;
    let mut printer = Printer {
        out: &mut *out,
        json: options.json,
        left: options.limit,
        hidden: 0,
        worklist: options.corrections_out.is_some().then(Worklist::default),
        progress: Progress::new(),
        reader_gone: false,
    };
    let checked = engine::check(&mut inventory, &rules, &overrides, &mut printer);
    if printer.reader_gone {
        return Err(Stop::ReaderGone);
    }
    let checked = checked?;
    let applied = inventory.applied_corrections().len();
    say_corrections(options.corrections.as_deref(), rules.corrections.len(), applied);
    let hidden = printer.hidden;
    let worklist = printer.worklist.take();
    drop(printer);
    if options.json {
        let units = report::quality::Units::of(rules.system, &checked.quality);
        quality::messages(&checked.quality, units, out)?;
        let message = CheckFinished {
            message: "check_finished",
            format: FORMAT,
            rows_read: checked.read,
            visits_admitted: checked.admitted,
            visits_held_back: checked.held_back,
            visits_excluded: checked.excluded,
            rows_not_wells: checked.other_rows.count(),
            visits_resting_on_assumptions: checked.assumed,
        };
        json::write_line(out, &message)?;
    } else {
        summary(&inventory, &checked, hidden, rules.system, out)?;
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
    Ok(if checked.held_back > 0 { HELD_BACK } else { DONE })
}

#[derive(Serialize)]
struct CheckFinished {
    message: &'static str,
    format: u32,
    rows_read: u64,
    visits_admitted: u64,
    visits_held_back: u64,
    visits_excluded: u64,
    rows_not_wells: u64,
    visits_resting_on_assumptions: u64,
}

struct Printer<'a> {
    out: &'a mut dyn Write,
    json: bool,
    left: u64,
    hidden: u64,
    worklist: Option<Worklist>,
    progress: Progress,
    /// Whoever read standard output went away; an error of ours cannot say so, and only `cli` needs to know.
    reader_gone: bool,
}

impl Listener for Printer<'_> {
    fn findings(&mut self, findings: &[Finding]) -> Result<()> {
        self.worklist.iter_mut().for_each(|worklist| worklist.take(findings));
        for finding in findings {
            if self.left == 0 && !self.json {
                self.hidden += 1;
                continue;
            }
            self.left = self.left.saturating_sub(1);
            let written = if self.json {
                json::write_line(self.out, &FindingMessage::of(finding))
            } else {
                print_finding(self.out, finding)
            };
            written.map_err(|error| {
                self.reader_gone = error.kind() == std::io::ErrorKind::BrokenPipe;
                Error::output(Path::new("standard output"), error)
            })?;
        }
        Ok(())
    }

    fn progress(&mut self, rows: u64, share: f64) {
        self.progress.rows(rows, share);
    }
}

fn print_finding(out: &mut dyn Write, finding: &Finding) -> std::io::Result<()> {
    let code = finding.code;
    writeln!(out, "{}[{}] {}", code.severity().name(), code.id(), code.name().replace('-', " "))?;
    let heading =
        finding.place.column.as_ref().map_or(String::new(), |column| format!("  column \"{}\"", column.heading));
    let well = finding.well.as_deref().map_or(String::new(), |well| format!("  well {well}"));
    writeln!(out, "  {}{heading}{well}", finding.place)?;
    if !finding.seen.is_empty() {
        writeln!(out, "      {}", finding.seen)?;
    }
    writeln!(out, "  {}", terminal::wrap(&finding.says.to_string(), width(), 2))?;
    for (place, phrase) in &finding.related {
        writeln!(out, "  compare {place}  {phrase}")?;
    }
    if !finding.help.is_empty() {
        writeln!(out, "  help: {}", terminal::wrap(&finding.help.to_string(), width(), 8))?;
    }
    writeln!(out)
}

/// Findings that a declared system of units would settle.
const NO_SYSTEM: [Code; 3] = [catalogue::NO_UNIT, catalogue::GALLON_UNDECLARED, catalogue::HEADING_GALLON_UNDECLARED];

fn summary(
    inventory: &Inventory,
    checked: &Checked,
    hidden: u64,
    declared: Option<UnitSystem>,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if hidden > 0 {
        writeln!(out, "{hidden} further findings are not printed; --limit shows more.\n")?;
    }
    for source in inventory.sources() {
        let sheet = source.origin.sheet.as_deref().map(|sheet| format!("!{sheet}")).unwrap_or_default();
        writeln!(out, "{}{sheet}: {} rows", source.origin.file, source.rows)?;
        for (heading, field, unit) in &source.fields {
            let unit = unit.as_ref().filter(|unit| !unit.is_empty()).map_or(String::new(), |unit| format!(" ({unit})"));
            writeln!(out, "  {heading:<40} {}{unit}", field.name())?;
        }
        if !source.carried.is_empty() {
            let carried = format!("carried along: {}", source.carried.join(", "));
            writeln!(out, "  {}", terminal::wrap(&carried, width(), 4))?;
        }
    }
    writeln!(out)?;
    let mut counts: Vec<_> = checked.finding_counts.iter().collect();
    counts.sort_by_key(|(code, count)| (code.severity(), std::cmp::Reverse(**count), **code));
    let rows: Vec<Vec<String>> = counts
        .iter()
        .map(|(code, count)| {
            vec![
                count.to_string(),
                code.severity().name().to_owned(),
                code.id().to_owned(),
                code.name().replace('-', " "),
            ]
        })
        .collect();
    if !rows.is_empty() {
        writeln!(out, "{}", terminal::table(&[" times", "severity", "code", "what"], &rows))?;
    }
    quality::print(&checked.quality, report::quality::Units::of(declared, &checked.quality), out)?;
    let unit_missing = |code: Code| checked.finding_counts.contains_key(&code);
    if declared.is_none() && NO_SYSTEM.into_iter().any(unit_missing) {
        writeln!(
            out,
            "Nothing says how numbers without a unit are read: --units us, metric or imperial does, and so does a scenario file."
        )?;
    }
    if checked.without_route > 0 {
        let count = checked.without_route;
        writeln!(
            out,
            "{count} of those that can be planned give no discharge route: assumed is a stream, with neutralizer."
        )?;
    }
    writeln!(
        out,
        "{} rows read: {} can be planned + {} held back + {} excluded + {} not wells",
        checked.read,
        checked.admitted,
        checked.held_back,
        checked.excluded,
        checked.other_rows.count()
    )?;
    writeln!(
        out,
        "{} of {} well visits can be planned ({} of them with an assumption), {} would be held back",
        checked.admitted,
        checked.admitted + checked.held_back,
        checked.assumed,
        checked.held_back
    )
}
