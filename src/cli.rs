//! The command: the only room that prints, reads the environment and returns exit codes.
//!
//! Standard output carries what was asked for; standard error carries commentary and progress. Each command has a file.

mod args;
mod book_faults;
mod causes;
mod check;
mod demo;
mod explain;
mod harmless;
mod lacking;
mod listing;
mod moving;
mod new_book;
mod plan;
mod progress;
mod quality;
mod repair_faults;
mod rows_again;
mod sources;
mod start;
mod tables;
mod template;
mod unasked;
mod understanding;
mod well;

use std::io::{self, IsTerminal, Write};
use std::path::Path;
use std::process::ExitCode;

use chrono::{DateTime, NaiveDate};
use clap::{CommandFactory, Parser};
use sha2::{Digest, Sha256};

use crate::engine;
use crate::error::{Error, Result};
use crate::inventory::Inventory;
use crate::report::crew::Language;
use crate::scenario::Campaign;
use args::{Arguments, Command};

/// Everything is planned, or sound, or printed.
const DONE: u8 = 0;
/// Some rows are held back; outputs are written.
const HELD_BACK: u8 = 1;
/// It could not be done.
const FAILED: u8 = 2;

/// Runs the command line and returns its exit code.
pub fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are answers; everything else is a wrong call.
            let code = if error.use_stderr() { FAILED } else { DONE };
            let _ = error.print();
            return ExitCode::from(code);
        }
    };
    let mut out = io::BufWriter::new(harmless::Harmless(io::stdout().lock()));
    let result = run(arguments, &mut out).and_then(|code| match out.flush() {
        // The work is done; what came of it is in the exit code, whoever listens.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(code),
        flushed => flushed.map(|()| code).map_err(print_failed),
    });
    match result {
        Ok(code) => ExitCode::from(code),
        // The reader has seen enough: `aftercrest columns | head` is not a failure.
        Err(Stop::ReaderGone) => ExitCode::from(DONE),
        Err(Stop::Failed(error)) => {
            let _ = out.flush();
            let _ = writeln!(io::stderr(), "error: {error}");
            ExitCode::from(FAILED)
        }
    }
}

/// Why a command ends early.
#[derive(Debug)]
enum Stop {
    /// The stdout pipe was closed.
    ReaderGone,
    /// It could not be done.
    Failed(Error),
}

impl From<Error> for Stop {
    fn from(error: Error) -> Self {
        Self::Failed(error)
    }
}

/// A write to standard output that failed.
fn print_failed(error: io::Error) -> Stop {
    if error.kind() == io::ErrorKind::BrokenPipe {
        Stop::ReaderGone
    } else {
        Stop::Failed(Error::output(Path::new("standard output"), error))
    }
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Self {
        print_failed(error)
    }
}

fn run(arguments: Arguments, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let Some(command) = arguments.command else { return unasked::run(&arguments.files, out) };
    match command {
        Command::Start(options) => start::run(&options, out),
        Command::Plan(options) => plan::run(&options, out),
        Command::Check(options) => check::run(&options, out),
        Command::Well(options) => well::run(&options, out),
        Command::Explain(options) => explain::run(&options, out),
        Command::Columns(options) => listing::columns(&options, out),
        Command::Template(options) => template::run(&options, out),
        Command::Products(options) => listing::products(&options, out),
        Command::Completions { shell } => {
            // Into memory first: the generator stops the program where its writer fails.
            let mut script = Vec::new();
            clap_complete::generate(shell, &mut Arguments::command(), "aftercrest", &mut script);
            out.write_all(&script)?;
            Ok(DONE)
        }
        Command::Man => {
            clap_mangen::Man::new(Arguments::command()).render(&mut WriteAll(out))?;
            Ok(DONE)
        }
    }
}

/// A writer by reference, for libraries that take one by value.
struct WriteAll<'a>(&'a mut dyn Write);

impl Write for WriteAll<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.write(bytes)
    }
    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

/// Reads a scenario file; whatever is refused in it is refused with its line.
fn campaign(file: &Path) -> Result<Campaign> {
    Ok(campaign_and_digest(file)?.0)
}

/// As [`campaign`], with the SHA-256 of the bytes that were understood.
fn campaign_and_digest(file: &Path) -> Result<(Campaign, String)> {
    let bytes = std::fs::read(file).map_err(|error| Error::unread(file, error))?;
    let campaign = Campaign::parse_bytes(file, &bytes)?;
    engine::prove_fixed(&campaign)?;
    engine::prove_conditions(&campaign)?;
    Ok((campaign, sha256(&bytes)))
}

/// SHA-256 of a file's bytes.
fn digest_of(file: &Path) -> Result<String> {
    Ok(sha256(&std::fs::read(file).map_err(|error| Error::unread(file, error))?))
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Refuses lists that are empty or of which nothing is known: a plan without them would look like a whole one.
fn prove_usable(inventory: &Inventory) -> Result<()> {
    let unusable = inventory.unusable();
    let Some(first) = unusable.first() else { return Ok(()) };
    let more = match unusable.len() - 1 {
        0 => String::new(),
        more => format!(" (and {more} more cannot either)"),
    };
    let (place, says) = (&first.place, &first.says);
    Err(Error::request(format!("{place} cannot be planned with: {says}; {}{more}", first.help)))
}

/// The day to plan for: the option, else `SOURCE_DATE_EPOCH`, else the lists' own day; never the clock or a file's time,
/// which would make each run differ.
fn date_of_plan(option: Option<NaiveDate>, campaign: Option<&Campaign>) -> Result<Option<NaiveDate>> {
    if option.is_some() {
        return Ok(option);
    }
    match std::env::var("SOURCE_DATE_EPOCH") {
        Err(_) => Ok(campaign.and_then(|campaign| campaign.date)),
        Ok(seconds) => seconds
            .trim()
            .parse::<i64>()
            .ok()
            .and_then(|seconds| DateTime::from_timestamp(seconds, 0))
            .map(|moment| Some(moment.date_naive()))
            .ok_or_else(|| Error::request(format!("SOURCE_DATE_EPOCH must be a count of seconds, not {seconds:?}"))),
    }
}

/// Width for wrapping: what `COLUMNS` says, be it of a terminal or of a pipe; else that of the terminal; else a fixed width, so
/// that piped text is always the same.
fn width() -> usize {
    /// Where the text goes to a pipe or a file.
    const PIPED: usize = 100;
    /// Where a terminal does not say how wide it is.
    const USUAL: usize = 80;
    let stated: Option<usize> = std::env::var("COLUMNS").ok().and_then(|columns| columns.trim().parse().ok());
    let (measured, otherwise) = if io::stdout().is_terminal() {
        (terminal_size::terminal_size().map(|(width, _)| usize::from(width.0)), USUAL)
    } else {
        (None, PIPED)
    };
    stated.or(measured).filter(|width| *width > 0).unwrap_or(otherwise).clamp(40, 140)
}

/// The language that was asked for.
const fn language(option: args::Language) -> Language {
    match option {
        args::Language::En => Language::English,
        args::Language::Es => Language::Spanish,
    }
}

/// Says how many of the corrections given were applied; why the others were not is among the findings.
fn say_corrections(file: Option<&Path>, given: usize, applied: usize) {
    let Some(file) = file.map(Path::display) else { return };
    say(&match given {
        0 => format!("{file}: no Right value is filled in, and nothing is corrected"),
        given => format!("{file}: {applied} of {given} corrections applied"),
    });
}

/// Says something on standard error; nobody listening is not a failure.
fn say(text: &str) {
    let _ = writeln!(io::stderr(), "{text}");
}

/// A path as a shell takes it.
fn quoted(path: impl AsRef<Path>) -> String {
    let text = path.as_ref().display().to_string();
    let plain = |letter: char| letter.is_alphanumeric() || "-_./,:+@%".contains(letter);
    if !text.is_empty() && text.chars().all(plain) { text } else { format!("'{}'", text.replace('\'', "'\\''")) }
}
