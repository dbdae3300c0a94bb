//! One file, opened by what it is and not by what it is called.

use std::path::Path;
use std::sync::Arc;

use super::bytes::{self, Tally};
use super::rows::Rows;
use super::stamp::{Stamp, Watched, can_be_read_again};
use super::table::{Opened, RowSource};
use super::{parquet, text, workbook};
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::place::Origin;

/// Every sheet of a workbook as it stands; nothing where the file is no workbook.
///
/// # Errors
/// [`Error::Input`] where it cannot be read.
pub fn sheets_of(path: &Path, most_rows: usize) -> Result<Option<Vec<(String, Rows)>>> {
    let mut file = std::fs::File::open(path).map_err(|error| Error::unread(path, error))?;
    let head = bytes::head(&mut file, 4096).map_err(|error| Error::unread(path, error))?;
    workbook::kind(path, &head).map(|kind| workbook::whole(path, kind, most_rows)).transpose()
}

/// Opens one file by what it is, not by what it is called.
///
/// Its rows end in an error where the file is not what it was when it was stamped.
pub(super) fn open_file(
    path: &Path,
    name: &str,
    rules: &ReadingRules,
    tally: &Arc<Tally>,
    stamp: Option<&Stamp>,
) -> Result<Vec<Opened>> {
    let mut tables = open_kind(path, name, rules, tally)?;
    if let Some(stamp) = stamp {
        stamp.check(path)?;
        for table in &mut tables {
            table.source =
                table.source.take().map(|rows| Box::new(Watched::new(rows, path, stamp)) as Box<dyn RowSource>);
        }
    }
    Ok(tables)
}

fn open_kind(path: &Path, name: &str, rules: &ReadingRules, tally: &Arc<Tally>) -> Result<Vec<Opened>> {
    // A pipe gives its bytes once: it is not looked into before it is read.
    if can_be_read_again(path) {
        let mut file = std::fs::File::open(path).map_err(|error| Error::unread(path, error))?;
        let head = bytes::head(&mut file, 4096).map_err(|error| Error::unread(path, error))?;
        if head.starts_with(parquet::MARK) {
            return Ok(vec![parquet::open(path, Origin::file(name), tally)?]);
        }
        if let Some(kind) = workbook::kind(path, &head) {
            return workbook::open(path, name, kind, rules, tally);
        }
    }
    let origin = Origin::file(name);
    let rules = rules.of(&origin);
    Ok(vec![text::open(path, origin, &rules, tally)?])
}
