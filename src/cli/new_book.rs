//! Books that are begun: the workbook that is not there yet, and the campaign in it.

use std::path::{Path, PathBuf};

use crate::error::{Error, Result};
use crate::field::rules::UnitSystem;
use crate::scenario::file_text;
use crate::scenario::product::BUILT_IN;
use crate::scenario::stated::{Document, Table};

/// Asks of a workbook that is to be written that it has a fitting name and is not there yet.
pub(super) fn new_workbook(path: &Path) -> Result<()> {
    if !path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx")) {
        return Err(Error::output(path, "it is to be a workbook: give it a name that ends in .xlsx"));
    }
    if path.exists() {
        return Err(Error::output(path, "the file already exists and is not overwritten; name another file"));
    }
    Ok(())
}

/// The campaign of a new book: the built-in products and a first scenario, in which the practice holds as it is stated for all;
/// prices are for people to fill in.
pub(super) fn blank_campaign(system: Option<UnitSystem>) -> Result<Table> {
    let units = system.map_or(String::new(), |system| format!("units = \"{}\"\n", system.name()));
    let text = format!(
        "[campaign]\ntitle = \"Shock chlorination campaign\"\n{units}{BUILT_IN}\n\
         [[scenario]]\nname = \"liquid 12.5\"\nproduct = \"liquid 12.5\"\n\
         [[neutralizer]]\nagent = \"ascorbic_acid\"\npackages = [{{ size = \"5 lb\" }}]\n\
         [[supply]]\nname = \"chlorine test strips\"\nper_visit = 3\npackage_of = 50\n\
         [[supply]]\nname = \"sample bottles, sterile, with thiosulfate\"\nper_visit = 2\npackage_of = 24\n"
    );
    let document = Document::new(Path::new("new campaign"), &text);
    let stated = file_text::read(&document);
    match document.refusal() {
        Some(error) => Err(error),
        None => Ok(stated.and_then(|stated| stated.value.table().cloned()).unwrap_or_default()),
    }
}

/// A name beside a file that nothing has yet: `wells, campaign book.xlsx`, `wells, campaign book 2.xlsx`.
pub(super) fn free(beside: &Path, what: &str, ending: &str) -> Result<PathBuf> {
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
