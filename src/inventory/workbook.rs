//! Workbooks: XLSX, XLSB and ODS streamed cell by cell, XLS sheet by sheet.
//!
//! Rows come from a thread of their own through a short queue, because the library's cell reader borrows its workbook;
//! it also means that a workbook that makes the library panic ends as an error of that file and no more. Dates become
//! ISO text, error cells stay errors, numbers keep every digit.

mod cells;
mod kind;
mod marked;
mod opendocument;
mod stream;

use std::fs::File;
use std::io::BufReader;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;

use calamine::{Data, Range, Reader, SheetType, SheetVisible, Xls, Xlsb, Xlsx, open_workbook};

use cells::{Builder, Cells, tall};
pub use kind::{WorkbookKind, kind};
use stream::SheetSource;

use super::bytes::{self, Tally};
use super::guard;
use super::layout;
use super::legend::{Legend, Page};
use super::rows::Rows;
use super::table::Opened;
use crate::error::{Error, Result};
use crate::field::rules::ReadingRules;
use crate::field::{BOOK_TITLE, HELP_SHEET_TITLE};
use crate::finding::{Finding, catalogue};
use crate::place::{Origin, Place};
use crate::quantity::parse::Comma;

/// Rows looked at for the heading and the plan.
const SAMPLE_ROWS: usize = 200;

/// Merged cells are looked for in workbooks up to this size: it means reading each sheet once more.
const SMALL_BYTES: u64 = 4 << 20;

/// The heading under which a table of corrections is filled in.
const RIGHT_VALUE: &str = crate::field::rules::CORRECTION_HEADINGS[12];

/// Opens a workbook: every sheet that looks like a table.
pub fn open(
    path: &Path,
    file: &str,
    kind: WorkbookKind,
    rules: &ReadingRules,
    tally: &Arc<Tally>,
) -> Result<Vec<Opened>> {
    if kind == WorkbookKind::Xls {
        guard::check_compound(path)?;
    } else {
        guard::check_archive(path)?;
    }
    bytes::digest(path, tally)?;
    let sheets = in_thread(path, {
        let path = path.to_owned();
        move || samples(&path, kind)
    })?;
    // A sheet of a campaign book explains nothing of the list that stands beside it.
    let explains = || sheets.iter().map(|sheet| Some(&sheet.sample).filter(|_| !sheet.is_of_book()));
    let pages: Vec<Page<'_>> = sheets
        .iter()
        .filter(|sheet| !sheet.is_of_book())
        .map(|sheet| {
            let heading_row = layout::find_row_of_any(&sheet.sample, rules);
            Page { sheet: &sheet.name, rows: &sheet.sample, heading_row }
        })
        .collect();
    let legend = Arc::new(Legend::find(&pages));
    let units_of_sheets: Vec<Vec<(String, String)>> =
        explains().map(|rows| rows.map_or_else(Vec::new, layout::units_by_name)).collect();
    let words_of_sheets: Vec<Vec<(String, String)>> =
        explains().map(|rows| rows.map_or_else(Vec::new, layout::words_by_name)).collect();
    let mut tables = Vec::new();
    let mut skipped = Vec::new();
    for (at, sheet) in sheets.into_iter().enumerate() {
        let origin = Origin::sheet(file, &sheet.name);
        let rules = &*rules.of(&origin);
        let best =
            (0..sheet.sample.len().min(40)).map(|row| layout::likeness(&sheet.sample, row, rules)).fold(0.0, f64::max);
        // The table of corrections is asked for by its own headings.
        let is_asked = rules.columns.contains_key(RIGHT_VALUE);
        if sheet.is_of_book() && (sheet.title() == HELP_SHEET_TITLE || !is_asked) {
            continue; // Our own help in a list made from the template, or a sheet of a campaign book.
        }
        if sheet.hidden {
            skipped.push((origin, "the sheet is hidden; it was not read", at, sheet.sample));
        } else if legend.is_legend_sheet(&sheet.name) {
            skipped.push((origin, "the sheet explains codes; it holds no wells", at, sheet.sample));
        } else if best < 1.5 && !sheet.sample.is_empty() {
            skipped.push((origin, "no row of this sheet looks like headings; it was not read", at, sheet.sample));
        } else if !sheet.sample.is_empty() {
            let mut table = table(path, origin, at, kind, sheet.sample, rules);
            let words =
                words_of_sheets.iter().enumerate().filter(|(other, _)| *other != at).flat_map(|(_, words)| words);
            table.layout.take_words(words);
            let others =
                units_of_sheets.iter().enumerate().filter(|(other, _)| *other != at).flat_map(|(_, units)| units);
            table.layout.take_units(others);
            if sheet.merged.iter().any(|row| *row > table.heading_row) {
                table.notes.push(Finding::new(
                    catalogue::MERGED_CELLS,
                    Place::whole(&table.origin),
                    "cells are merged over several rows; their value counts for each of these rows",
                    "no action needed if correct",
                ));
            }
            tables.push(table);
        }
    }
    if tables.is_empty()
        && let Some(at) = skipped.iter().position(|(_, why, ..)| why.starts_with("no row"))
    {
        let (origin, _, index, sample) = skipped.remove(at);
        let rules = rules.of(&origin);
        tables.push(table(path, origin, index, kind, sample, &rules));
    }
    let mut notes: Vec<Finding> = skipped
        .into_iter()
        .map(|(origin, says, ..)| {
            Finding::new(catalogue::SHEET_SKIPPED, Place::whole(&origin), says, "no action needed if it holds no wells")
        })
        .collect();
    if tables.is_empty() {
        let origin = Origin::file(file);
        notes.push(Finding::new(
            catalogue::EMPTY_FILE,
            Place::whole(&origin),
            "the workbook holds no rows",
            "check that the export was complete",
        ));
        return Ok(vec![Opened::empty(origin, notes)]);
    }
    for table in &mut tables {
        table.legend = Arc::clone(&legend);
    }
    if let Some(first) = tables.first_mut() {
        notes.append(&mut first.notes);
        first.notes = notes;
    }
    Ok(tables)
}

fn table(path: &Path, origin: Origin, sheet: usize, kind: WorkbookKind, sample: Rows, rules: &ReadingRules) -> Opened {
    let layout = layout::find(&sample, rules, None).unwrap_or_default();
    let notes = layout.findings(&sample, &origin);
    let after = sample.number(layout.first_row.saturating_sub(1));
    let number = sample.number(layout.heading_row);
    Opened {
        headings: layout.headings.clone(),
        legend: Arc::default(),
        heading_row: number,
        first_row: layout.first_row,
        layout,
        sample,
        described: None,
        comma: Comma::ByForm,
        short_rows: true,
        notes,
        source: Some(Box::new(SheetSource::new(path.to_owned(), kind, sheet, after))),
        origin,
    }
}

struct Sheet {
    name: String,
    hidden: bool,
    sample: Rows,
    /// First rows of merged cells that are more than one row high.
    merged: Vec<u32>,
}

impl Sheet {
    /// What stands in the first cell.
    fn title(&self) -> &str {
        if self.sample.is_empty() { "" } else { self.sample.cell(0, 0) }
    }

    /// Whether it is a sheet of a campaign book, or the help of a list that was made from the template.
    fn is_of_book(&self) -> bool {
        self.title() == HELP_SHEET_TITLE || self.title().starts_with(BOOK_TITLE)
    }
}

/// The library's errors, in a form that can leave its thread.
type Told<T> = std::result::Result<T, String>;

fn told(error: impl std::fmt::Display) -> String {
    format!("the workbook is damaged or not of the kind its name says ({error})")
}

/// Runs the library where a panic of its own harms nobody.
fn in_thread<T: Send + 'static>(path: &Path, work: impl FnOnce() -> Told<T> + Send + 'static) -> Result<T> {
    let thread = std::thread::Builder::new()
        .name("workbook".to_owned())
        .spawn(move || quietly(work))
        .map_err(|error| Error::unreadable(path, error))?;
    join(path, thread)?.map_err(|reason| Error::input(path, reason))
}

fn join<T>(path: &Path, thread: JoinHandle<T>) -> Result<T> {
    thread.join().map_err(|_| Error::input(path, "the workbook is damaged"))
}

/// A panic of the library becomes an error.
fn quietly<T>(work: impl FnOnce() -> Told<T>) -> Told<T> {
    std::panic::catch_unwind(std::panic::AssertUnwindSafe(work))
        .unwrap_or_else(|_| Err("the workbook is damaged: its reader gave up".to_owned()))
}

fn samples(path: &Path, kind: WorkbookKind) -> Told<Vec<Sheet>> {
    let mut sheets = Vec::new();
    each_sheet(path, kind, |name, visible, read| {
        let sample = Mutex::new(Rows::default());
        let mut builder = Builder::new(0, SAMPLE_ROWS, |rows| {
            if let Ok(mut sample) = sample.lock()
                && sample.is_empty()
            {
                *sample = rows;
            }
            false // One run is enough.
        });
        read(&mut builder)?;
        builder.finish();
        let merged = std::mem::take(&mut builder.all_merged);
        drop(builder);
        let sample = sample.into_inner().map_err(|_| "the sheet could not be read".to_owned())?;
        sheets.push(Sheet { name: name.to_owned(), hidden: !visible, sample, merged });
        Ok(())
    })?;
    Ok(sheets)
}

/// Rows that hold no more than the title of a sheet: whoever looks at these alone asks what kind of workbook it is.
const TITLE_ROWS: usize = 2;

/// Every sheet of a workbook as it stands, up to so many rows each: for workbooks that are no lists.
///
/// # Errors
/// [`Error::Input`] where it cannot be read.
pub fn whole(path: &Path, kind: WorkbookKind, most_rows: usize) -> Result<Vec<(String, Rows)>> {
    if kind == WorkbookKind::Xls {
        guard::check_compound(path)?;
    } else {
        guard::check_archive(path)?;
    }
    in_thread(path, {
        let path = path.to_owned();
        move || {
            let mut sheets = Vec::new();
            let marks = match kind {
                WorkbookKind::Xlsx if most_rows > TITLE_ROWS => marked::marks(&path, most_rows)?,
                _ => marked::Marks::default(),
            };
            each_sheet(&path, kind, |name, _, read| {
                let kept = Mutex::new(Rows::default());
                let mut builder = Builder::new(0, most_rows, |rows| {
                    if let Ok(mut kept) = kept.lock() {
                        *kept = rows;
                    }
                    false
                });
                read(&mut marks.over(name, &mut builder))?;
                builder.finish();
                drop(builder);
                sheets
                    .push((name.to_owned(), kept.into_inner().map_err(|_| "the sheet could not be read".to_owned())?));
                Ok(())
            })?;
            Ok(sheets)
        }
    })
}

type ReadSheet<'a> = dyn FnMut(&mut dyn Cells) -> Told<()> + 'a;

/// Goes through the worksheets in order.
fn each_sheet(
    path: &Path,
    kind: WorkbookKind,
    mut visit: impl FnMut(&str, bool, &mut ReadSheet<'_>) -> Told<()>,
) -> Told<()> {
    match kind {
        WorkbookKind::Xlsx => {
            let mut workbook: Xlsx<BufReader<File>> = open_workbook(path).map_err(told)?;
            let small = path.metadata().is_ok_and(|metadata| metadata.len() < SMALL_BYTES);
            for (name, visible) in worksheets(workbook.sheets_metadata()) {
                visit(&name, visible, &mut |cells| {
                    if small {
                        cells.merged(tall(workbook.merge_cells_by_sheet_name(&name).unwrap_or_default()));
                    }
                    let mut reader = workbook.worksheet_cells_reader(&name).map_err(told)?;
                    while let Some(cell) = reader.next_cell().map_err(told)? {
                        let (row, column) = cell.get_position();
                        if !cells.take(row, column, cell.get_value().into()) {
                            break;
                        }
                    }
                    Ok(())
                })?;
            }
        }
        WorkbookKind::Xlsb => {
            let mut workbook: Xlsb<BufReader<File>> = open_workbook(path).map_err(told)?;
            for (name, visible) in worksheets(workbook.sheets_metadata()) {
                visit(&name, visible, &mut |cells| {
                    let mut reader = workbook.worksheet_cells_reader(&name).map_err(told)?;
                    while let Some(cell) = reader.next_cell().map_err(told)? {
                        let (row, column) = cell.get_position();
                        if !cells.take(row, column, cell.get_value().into()) {
                            break;
                        }
                    }
                    Ok(())
                })?;
            }
        }
        WorkbookKind::Xls => {
            let mut workbook: Xls<BufReader<File>> = open_workbook(path).map_err(told)?;
            for (name, visible) in worksheets(workbook.sheets_metadata()) {
                visit(&name, visible, &mut |cells| hand_over(&workbook.worksheet_range(&name).map_err(told)?, cells))?;
            }
        }
        WorkbookKind::Ods => {
            let mut spreadsheet = opendocument::open(path)?;
            while let Some((name, visible)) = spreadsheet.next_table()? {
                visit(&name, visible, &mut |cells| spreadsheet.read(cells))?;
            }
        }
    }
    Ok(())
}

fn worksheets(sheets: &[calamine::Sheet]) -> Vec<(String, bool)> {
    sheets
        .iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet)
        .map(|sheet| (sheet.name.clone(), sheet.visible == SheetVisible::Visible))
        .collect()
}

fn hand_over(range: &Range<Data>, cells: &mut dyn Cells) -> Told<()> {
    let (top, left) = range.start().unwrap_or_default();
    for (row, column, value) in range.used_cells() {
        if !cells.take(row as u32 + top, column as u32 + left, value.into()) {
            break;
        }
    }
    Ok(())
}
