//! `start`: the campaign book of some lists; what is new in them, every answer kept; and books from scenario files and back.

use std::io::Write;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};

use super::args::{Start as Options, Units};
use super::book_faults::beside_lists;
use super::new_book::{blank_campaign, free, new_workbook};
use super::sources::read_book;
use super::understanding::{Reading, Water, field_of};
use super::{DONE, Stop, quoted};
use crate::book::{self, Contents};
use crate::document::cell::Sheet;
use crate::error::{Error, Result, describe};
use crate::field::rules::{Correction, ReadingRules, UnitSystem};
use crate::finding::Finding;
use crate::scenario::stated::{Document, Table};
use crate::scenario::{Campaign, UNITS_OPEN, file_text, toml_text};
use crate::write::xlsx;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    match (&options.from, &options.out, &options.inventory[..]) {
        (Some(from), Some(to), lists) => turn(from, to, lists, out),
        (None, None, [book]) if options.update => update(book, out),
        (None, Some(to), lists) if !lists.is_empty() && !options.update => {
            let (stated, read) = new_book(lists, to, options.units, false)?;
            say_written(to, &stated, &read, out)
        }
        _ => Err(Error::request(
            "name lists and a book to write (start LISTS --out book.xlsx), a book to bring up to date (start book.xlsx --update), \
             or a campaign and what to make of it (start --from campaign.toml --out book.xlsx)",
        )
        .into()),
    }
}

/// A new book of some lists, with what it states and what was understood of them.
pub(super) fn new_book(
    lists: &[PathBuf],
    to: &Path,
    units: Option<Units>,
    is_dropped: bool,
) -> Result<(Table, Reading)> {
    new_workbook(to)?;
    let system = units.map(Units::system);
    let stated = blank_campaign(system)?;
    let rules = ReadingRules { system, ..ReadingRules::default() };
    let read = Reading::of(lists, &names_from(lists, to), &rules, None)?;
    // Whoever names the lists in a command may know better; what is dropped on the program may be anything.
    if let Some(strange) = read.strange.first().filter(|_| is_dropped) {
        return Err(Error::request(format!(
            "{strange}: no heading of it is understood, so it may be no list of wells at all. A list has a row of headings such as \
             Well ID, Type, Depth (ft), Water level (ft), Casing diameter (in); the blank book of the command template has them ready"
        )));
    }
    xlsx::write_new_book(to, &laid_out(&stated, &read, system, None, None))?;
    Ok((stated, read))
}

/// A book as it is, and as it is laid out anew with what its lists say now; every answer stays.
struct Updated {
    book: book::Book,
    stated: Table,
    read: Reading,
    laid_out: crate::document::cell::Book,
}

/// A book as people find it: its name, and the day on which it was last saved.
fn older(path: &Path) -> String {
    let saved = std::fs::metadata(path).and_then(|about| about.modified()).ok();
    let saved = saved.map(|time| format!(" of {}", DateTime::<Utc>::from(time).date_naive()));
    format!("{}{}", super::plan::file_name(path), saved.unwrap_or_default())
}

/// What a book becomes when it is brought up to date, in its own place or `as_new` book beside it.
fn updated(path: &Path, as_new: bool) -> std::result::Result<Updated, Stop> {
    let document = Document::new(path, "");
    let book = book::read(path, &document)?;
    let stated = book.stated.value.table().cloned().unwrap_or_default();
    let system = units_stated(&stated);
    // Units may still be open in a book that is being filled in; everything else must be right before it is laid out anew.
    let campaign = Campaign::of(&document, &book.stated);
    let mut faults = match &campaign {
        Some(campaign) => beside_lists(&book, campaign, &document)?,
        None => Vec::new(),
    };
    if let Some(refusal) = document.refusal() {
        match refusal {
            Error::Scenario(more) => faults.extend(more),
            other => return Err(other.into()),
        }
    }
    faults.retain(|fault| system.is_some() || fault.reason != UNITS_OPEN);
    if !faults.is_empty() {
        return Err(Error::Scenario(faults).into());
    }
    let mut rules = campaign.as_ref().map_or_else(ReadingRules::default, |campaign| campaign.rules.clone());
    rules.system = system;
    let answered = book.corrections();
    rules.corrections = answered.clone();
    if book.lists.iter().any(|list| list == path) {
        let reason = "its wells stand in it: there is nothing to bring up to date; check it as it is";
        return Err(Error::input(path, reason).into());
    }
    let read = Reading::of(&book.lists, &book.list_names, &rules, campaign.as_ref())?;
    let older = as_new.then(|| older(path)).or(book.replaces.clone());
    let laid_out = laid_out(&stated, &read, system, Some(&answered), older.as_deref());
    Ok(Updated { book, stated, read, laid_out })
}

/// A book whose units were open when it was written, brought up to date under a name of its own now that they are stated: only now
/// is it known what its lists lack. Nothing for any other.
pub(super) fn continued(path: &Path) -> std::result::Result<Option<PathBuf>, Stop> {
    let document = Document::new(path, "");
    if !book::read(path, &document)?.were_units_open {
        return Ok(None);
    }
    let to = free(path, "brought up to date", ".xlsx")?;
    xlsx::write_new_book(&to, &updated(path, true)?.laid_out)?;
    Ok(Some(to))
}

/// Brings a book up to date with its lists; every answer stays.
fn update(path: &Path, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let is_workbook_of_ours = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx"));
    let Updated { book, stated, read, laid_out } = updated(path, !is_workbook_of_ours)?;
    if !is_workbook_of_ours {
        // Other formats are read and not written: the book goes on under a name of its own.
        let to = free(path, "brought up to date", ".xlsx")?;
        xlsx::write_new_book(&to, &laid_out)?;
        writeln!(out, "{} stays as it is: books are written as .xlsx. Go on with the new one.", path.display())?;
        say_lost(&book, path, out)?;
        return say_written(&to, &stated, &read, out);
    }
    let kept = free(path, "before update", ".xlsx")?;
    if xlsx::replace_book(path, &kept, &laid_out)? {
        writeln!(out, "The book as it was: {}", kept.display())?;
        say_lost(&book, &kept, out)?;
    } else {
        writeln!(out, "Nothing is new in it.")?;
    }
    say_written(path, &stated, &read, out)
}

/// What a book that is laid out anew does not have any more, and where it stands still.
fn say_lost(book: &book::Book, kept: &Path, out: &mut dyn Write) -> std::io::Result<()> {
    let names: Vec<String> = book.foreign_sheets.iter().map(|name| format!("{name:?}")).collect();
    let sheets = match &names[..] {
        [] => String::new(),
        [one] => format!("the sheet {one}, "),
        several => format!("the sheets {}, ", several.join(", ")),
    };
    writeln!(
        out,
        "Not carried over: {sheets}comments on cells, notes beside the tables, colors and widths of your own. They stand in {}.",
        kept.display()
    )
}

/// A book of a scenario file, or a scenario file of a book.
fn turn(from: &Path, to: &Path, lists: &[PathBuf], out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let stated = if book::is_book(from) {
        let (book, _) = read_book(from, |_| Ok(()))?;
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
    xlsx::write_new_book(to, &laid_out(&stated, &read, system, None, None))?;
    say_written(to, &stated, &read, out)
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

fn laid_out(
    stated: &Table,
    read: &Reading,
    system: Option<UnitSystem>,
    answered: Option<&[Correction]>,
    replaces: Option<&str>,
) -> crate::document::cell::Book {
    let repairs = read.repairs.as_ref().map(|(worklist, sources)| {
        let field_of = |finding: &Finding| field_of(finding, sources);
        let water = Water::of(read, sources);
        let sheet: Sheet =
            worklist.repairs(&field_of, &|finding| water.about(finding), &read.rows, answered.unwrap_or_default());
        sheet
    });
    let contents = Contents { stated, lists: &read.understood, repairs, wells: None, system, replaces };
    book::book(contents)
}

fn say_written(path: &Path, stated: &Table, read: &Reading, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    say_how_it_stands(stated, read, out)?;
    let (path, named) = (path.display(), quoted(path));
    writeln!(
        out,
        "Written: {path}\nOpen it, begin with the sheet Start here, save it, and plan it:\n  aftercrest plan {named} --out campaign"
    )?;
    Ok(DONE)
}

/// What can be planned and what is open, by sheet.
pub(super) fn say_how_it_stands(stated: &Table, read: &Reading, out: &mut dyn Write) -> std::io::Result<()> {
    if read.wells > 0 {
        writeln!(out, "{} of {} wells can be planned now.", read.planned, read.wells)?;
        for (sheet, status) in &read.understood.status {
            writeln!(out, "  {sheet}: {status}")?;
        }
        writeln!(out, "Open points: {}.", book::open_points(stated, &read.understood))?;
    }
    Ok(())
}
