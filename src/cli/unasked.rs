//! Without a command: the next sensible thing with the files that were handed over, and what to open then.
//!
//! Lists give a campaign book beside them; a book is checked and planned into a folder beside it. Whoever drops files on the
//! program has no terminal to read long answers in: the last lines say what was written.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::args::{Language, Plan, Table};
use super::{Stop, plan, start};
use crate::book;
use crate::error::{Error, Result};
use crate::scenario::written::near;

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
    match (books, files) {
        (1, [book]) => planned(book, out),
        (0, [first, ..]) => {
            let to = free(first, "campaign book", ".xlsx")?;
            start::new_book(files, &to, None, out)
        }
        _ => Err(Error::request("hand over either one campaign book or lists").into()),
    }
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
    writeln!(out, "Written: {}. Open campaign.xlsx in it.", folder.display())?;
    Ok(code)
}

/// A name beside a file that nothing has yet: `wells, campaign book.xlsx`, `wells, campaign book 2.xlsx`.
fn free(beside: &Path, what: &str, ending: &str) -> Result<PathBuf> {
    const MOST: usize = 1000;
    let stem = beside.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let name = |number: usize| match number {
        1 => format!("{stem}, {what}{ending}"),
        number => format!("{stem}, {what} {number}{ending}"),
    };
    let paths = (1..=MOST).map(|number| beside.with_file_name(name(number)));
    let mut free = paths.filter(|path| !path.exists());
    free.next().ok_or_else(|| Error::output(beside, "too many books or plans lie beside it already"))
}
