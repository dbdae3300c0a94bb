//! `template`: a blank inventory workbook.

use std::io::Write;

use super::args::Template as Options;
use super::{DONE, Stop};
use crate::error::Error;
use crate::report::template;
use crate::write::xlsx;

pub(super) fn run(options: &Options, out: &mut dyn Write) -> std::result::Result<u8, Stop> {
    let path = &options.out;
    if !path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx")) {
        return Err(Error::output(path, "a template is a workbook: give it a name that ends in .xlsx").into());
    }
    xlsx::write_new_book(path, &template::book(options.units.system()))?;
    writeln!(out, "{}: fill in the sheet Wells; the sheet Help says how.", path.display())?;
    Ok(DONE)
}
