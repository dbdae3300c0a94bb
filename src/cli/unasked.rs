//! Without a command: the next sensible thing with the files that were handed over, and what to open then.
//!
//! Lists give a campaign book beside them; a book is checked and planned into a folder beside it. Whoever drops files on the
//! program has no terminal to read long answers in: the last lines say what was written.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::args::{Language, Plan, Table};
use super::new_book::free;
use super::{Stop, plan, start};
use crate::book;
use crate::error::Error;
use crate::scenario::section::near;

/// What an answer to a refused drop is called behind the name of the file, and what stands around the reasons in it.
const MISSING: &str = "what is missing";
const BEGINS: &str = " could not be used. Nothing else was written.\n\n";
const ENDS: &str = "\n\nCorrect this, save the file, and drop it on the program again.\n";

/// The commands, for those who mistype one.
const COMMANDS: [&str; 9] =
    ["start", "plan", "check", "well", "explain", "columns", "template", "products", "completions"];

pub(super) fn run(files: &[PathBuf], out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    if let Some(missing) = files.iter().find(|file| !file.exists()) {
        let name = missing.display().to_string();
        let near = near(&name, &COMMANDS);
        return Err(Error::request(format!(
            "there is no command and no file {name:?}{near}; --help lists the commands"
        ))
        .into());
    }
    let books = files.iter().filter(|file| book::is_book(file) || book::is_edited(file)).count();
    let done = match (books, files) {
        (1, [book]) => planned(book, out),
        (0, [first, ..]) => begun(first, files, out),
        _ => Err(Error::request("hand over either one campaign book or lists").into()),
    };
    let (Err(Stop::Failed(error)), Some(first)) = (&done, files.first()) else { return done };
    // A window that closes takes what was said with it.
    let said = free(first, MISSING, ".txt")?;
    let text = format!("{}{BEGINS}{error}{ENDS}", first.display());
    let mut file = std::fs::File::options().write(true).create_new(true).open(&said);
    if let Ok(file) = &mut file
        && file.write_all(text.as_bytes()).is_ok()
    {
        writeln!(out, "What is missing stands in {}. Open it.", said.display())?;
    }
    done
}

/// Takes away the answers of earlier, refused drops of a file: what they say is missing no longer is. A file in which anything
/// else stands than the program wrote stays.
fn take_away_answers(dropped: &Path, out: &mut dyn Write) -> std::io::Result<()> {
    let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = dropped.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let begins = format!("{stem}, {MISSING}");
    let folder = dropped.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let Ok(beside) = std::fs::read_dir(folder) else { return Ok(()) };
    let mut answers: Vec<PathBuf> = beside.flatten().map(|entry| entry.path()).collect();
    answers.sort();
    for answer in answers {
        let called = name(&answer);
        let number = called.strip_prefix(&begins).and_then(|rest| rest.strip_suffix(".txt"));
        let is_numbered = number.is_some_and(|number| number.is_empty() || number.trim().parse::<u32>().is_ok());
        let is_ours = || {
            let text = std::fs::read_to_string(&answer).unwrap_or_default();
            let about = text.split_once(BEGINS).filter(|_| text.ends_with(ENDS)).map(|(about, _)| PathBuf::from(about));
            about.is_some_and(|about| name(&about) == name(dropped))
        };
        if is_numbered && is_ours() && std::fs::remove_file(&answer).is_ok() {
            writeln!(out, "Taken away, because it no longer holds: {}", answer.display())?;
        }
    }
    Ok(())
}

/// Begins a book of lists, beside the first of them.
fn begun(first: &Path, files: &[PathBuf], out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let to = free(first, "campaign book", ".xlsx")?;
    let (stated, read) = start::new_book(files, &to, None, true)?;
    start::say_how_it_stands(&stated, &read, out)?;
    take_away_answers(first, out)?;
    writeln!(out, "Written: the campaign book of your lists.")?;
    writeln!(
        out,
        "Open {}: begin with the sheet Start here, fill it in, save it, and drop it on the program again.",
        to.display()
    )?;
    Ok(super::DONE)
}

/// The plan of the same book that was the newest before: names are counted up.
fn older_plans(book: &Path, newest: &Path) -> Option<String> {
    let stem = book.file_stem()?.to_string_lossy().into_owned();
    let name = newest.file_name()?.to_string_lossy().into_owned();
    let number: usize = name.strip_prefix(&format!("{stem}, plan "))?.parse().ok()?;
    Some(if number == 2 { format!("{stem}, plan") } else { format!("{stem}, plan {}", number - 1) })
}

/// Plans a book into a folder beside it.
fn planned(book: &Path, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let folder = free(book, "plan", "")?;
    let options = Plan {
        inventory: vec![book.to_owned()],
        demo: false,
        scenarios: None,
        out: Some(folder.clone()),
        table: Table::Csv,
        columns: Vec::new(),
        corrections: None,
        only: Vec::new(),
        date: None,
        threads: None,
        language: Language::En,
        replace: false,
        json: false,
    };
    let code = plan::run(&options, out)?;
    take_away_answers(book, out)?;
    if book::is_book(book)
        && let Some(next) = start::continued(book)?
    {
        writeln!(out, "Written: {}, a first plan; campaign.xlsx in it shows what came of it.", folder.display())?;
        writeln!(
            out,
            "Now that the units are stated, more is asked of the lists. The book to go on with is {}: it replaces {}, which stays \
             as it is. Open the new one, answer what it asks, save it, and drop it on the program.",
            next.display(),
            super::plan::file_name(book)
        )?;
        return Ok(code);
    }
    if let Some(older) = older_plans(book, &folder) {
        writeln!(out, "Of the plans of this book the new one counts; it replaces {older}.")?;
    }
    writeln!(out, "Written: {}. Open campaign.xlsx in it.", folder.display())?;
    Ok(code)
}
