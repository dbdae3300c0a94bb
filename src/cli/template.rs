//! `template`: a blank inventory workbook.

use std::io::Write;

use super::args::Template as Options;
use super::new_book::{blank_campaign, new_workbook};
use super::{DONE, Stop};
use crate::book::{self, Contents, Understood};
use crate::report::template;
use crate::write::xlsx;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let path = &options.out;
    new_workbook(path)?;
    let system = options.units.system();
    let stated = blank_campaign(Some(system))?;
    let lists = Understood::default();
    let contents =
        Contents { stated: &stated, lists: &lists, repairs: None, wells: None, system: Some(system), replaces: None };
    // The wells first: most who ask for a template want a list to fill in.
    let mut book = template::book(system);
    book.sheets.extend(book::book(contents).sheets);
    xlsx::write_new_book(path, &book)?;
    writeln!(
        out,
        "{}: fill in the sheet Wells, the sheet Help says how; the other sheets hold what the campaign states.",
        path.display()
    )?;
    Ok(DONE)
}
