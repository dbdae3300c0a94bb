//! Sheets of typed cells as an XLSX workbook.
//!
//! Text is always written as text, whatever it starts with, so no cell of a list can become a formula. The file's date is
//! the plan's date or a fixed day, never the clock: the same run gives the same bytes.

use std::collections::HashSet;
use std::io::Write;
use std::path::Path;

use chrono::NaiveTime;
use foldhash::fast::FixedState;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, FilterCondition, Format, Url, Workbook, Worksheet, XlsxError};

use super::looks::{Formats, LONG, Look, Usual, plain};
use super::page::{self, Page};
use super::rows::{self, Sketched, first_column, is_written};
use super::texts::shortened;
use super::{formulas, heights, widths};
use crate::document::cell::{Book, Cell, Layout, Sheet, Value};
use crate::document::cell_chart::Cells;
use crate::error::{Error, Result};

/// Day written into a workbook of a plan without a date; the first that a workbook's file parts can carry.
const NO_DATE: (u16, u8, u8) = (1980, 1, 1);

/// Width of a column without one of its own, in pixels.
const DEFAULT_COLUMN: u32 = 64;

/// Writes a workbook.
///
/// # Errors
/// When the file cannot be written.
pub fn write_book(path: &Path, book: &Book) -> Result<()> {
    let bytes = bytes(book).map_err(|error| Error::unwritten(path, error))?;
    std::fs::write(path, bytes).map_err(|error| Error::unwritten(path, error))
}

/// Writes a workbook to a place where nothing is yet.
///
/// # Errors
/// When something is there already, or the file cannot be written.
pub fn write_new_book(path: &Path, book: &Book) -> Result<()> {
    let bytes = bytes(book).map_err(|error| Error::unwritten(path, error))?;
    super::new_file::write(path, &bytes)
}

/// Writes a workbook in place of an earlier one: whole, or not at all; the earlier one is kept under a new name. Says whether
/// the two differ: where they do not, nothing is written.
///
/// # Errors
/// When a file cannot be written, or something has the new name already.
pub fn replace_book(path: &Path, kept: &Path, book: &Book) -> Result<bool> {
    let bytes = bytes(book).map_err(|error| Error::unwritten(path, error))?;
    let earlier = std::fs::read(path).map_err(|error| Error::unread(path, error))?;
    if earlier == bytes {
        return Ok(false);
    }
    super::new_file::write(kept, &earlier)?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|error| Error::unwritten(path, error))?;
    file.write_all(&bytes).map_err(|error| Error::unwritten(path, error))?;
    file.persist(path).map(|_| true).map_err(|error| Error::unwritten(path, error))
}

/// Lays out every sheet and packs the workbook, in memory.
fn bytes(book: &Book) -> std::result::Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    // What the library packs is only a sketch of the sheets.
    workbook.set_zip_compression_level(1);
    // Columns are measured in digits of the default font: one that is there on most machines, or of the same widths.
    workbook.set_default_format(&plain(), heights::DEFAULT_ROW, DEFAULT_COLUMN)?;
    let created = match book.date {
        Some(date) => ExcelDateTime::from_timestamp(date.and_time(NaiveTime::MIN).and_utc().timestamp())?,
        None => ExcelDateTime::from_ymd(NO_DATE.0, NO_DATE.1, NO_DATE.2)?,
    };
    workbook.set_properties(&DocProperties::new().set_title(&book.title).set_creation_datetime(&created));
    let mut sketch = Sketch { book, formats: Formats::default(), met: HashSet::default(), drawn: drawn(book) };
    let mut sheets = Vec::with_capacity(book.sheets.len());
    for sheet in &book.sheets {
        sheets.push(sketch.sheet(workbook.add_worksheet(), sheet)?);
    }
    for name in &book.names {
        workbook.define_name(&name.name, &formulas::range(name))?;
    }
    rows::filled(workbook.save_to_buffer()?, &sheets)
}

/// The cells that charts draw: the library keeps a copy of what stands in them.
fn drawn(book: &Book) -> Vec<Cells> {
    let charts = book.sheets.iter().flat_map(|sheet| &sheet.layout.charts);
    let series = charts.clone().flat_map(|chart| &chart.series);
    let ranges = series.clone().filter_map(|series| series.range).flat_map(|(below, above)| [below, above]);
    charts.map(|chart| chart.names).chain(series.map(|series| series.values)).chain(ranges).collect()
}

/// What the workbook library is told of the sheets.
struct Sketch<'a> {
    book: &'a Book,
    formats: Formats,
    /// Looks that some cell was sketched with.
    met: HashSet<Look, FixedState>,
    drawn: Vec<Cells>,
}

impl<'a> Sketch<'a> {
    fn sheet(&mut self, worksheet: &mut Worksheet, sheet: &'a Sheet) -> std::result::Result<Sketched<'a>, XlsxError> {
        worksheet.set_name(sheet.name)?;
        if let Some(class) = sheet.layout.class {
            worksheet.set_tab_color(super::looks::tab(class));
        }
        let columns = sheet.rows.iter().map(Vec::len).max().unwrap_or(1) as u16;
        let layout = &Layout { widths: widths::of(sheet, columns, self.book.paper), ..sheet.layout.clone() };
        for (column, width) in layout.widths.iter().enumerate() {
            worksheet.set_column_width(column as u16, *width)?;
        }
        let usual = Usual::of(sheet);
        for (column, look) in usual.columns() {
            worksheet.set_column_format(column, self.formats.of(look))?;
        }
        let page = Page::of(layout, columns, self.book.paper);
        let printed = usize::from(layout.printed_columns.unwrap_or(columns));
        let width = |(from, below): (u16, u16)| -> f64 {
            let of = |column: u16| layout.widths.get(usize::from(column)).copied().unwrap_or(page::PLAIN_WIDTH);
            (from..below).map(of).sum()
        };
        let mut sketched = Sketched { sheet, usual, page, looks: Vec::new() };
        let mut rooms = layout.room.iter().peekable();
        for (row, cells) in sheet.rows.iter().enumerate() {
            let wide = layout.wide_rows.contains(&(row as u32));
            let row = row as u32;
            let room = rooms.next_if(|(at, _)| *at == row).map(|(_, cells)| &cells[..]);
            let height = match (wide, &cells[..]) {
                (true, [only]) => {
                    let (from, below) = page.line(layout, only.role);
                    if below - from > 1 {
                        // The line wraps over the columns of a page, and its ground runs with it.
                        let line = Look::of_line(only);
                        worksheet.merge_range(row, from, row, below - 1, "", self.formats.of(line))?;
                        self.meet(&mut sketched.looks, (row, below - 1), line);
                    }
                    let of = |cell: &Cell| heights::of_wide(cell, width((from, below)));
                    taller(of(only), room.and_then(|room| room.first()).and_then(of))
                }
                // What is not printed does not make a row taller on paper.
                _ => {
                    // Where columns are left out of print, programs would fit the row to those too.
                    let is_set = sheet.rows.len() > LONG || cells.len() > printed;
                    let of =
                        |cells: &[Cell]| heights::of_row(&cells[..cells.len().min(printed)], &layout.widths, is_set);
                    taller(of(cells), room.and_then(of))
                }
            };
            if let Some(height) = height {
                worksheet.set_row_height(row, height)?;
            }
            self.row(worksheet, &mut sketched, row, wide)?;
        }
        for (row, column, to) in &layout.links {
            let cell = sheet.rows.get(*row as usize).and_then(|cells| cells.get(usize::from(*column)));
            let Some(cell) = cell else { continue };
            let Value::Text(text) = &cell.value else { continue };
            let link = Url::new(format!("internal:'{to}'!A1")).set_text(text);
            worksheet.write_url_with_format(*row, *column, link, self.formats.of(Look::of(cell, false)))?;
        }
        super::entries::write(worksheet, layout)?;
        super::charts::write(worksheet, layout)?;
        worksheet.set_freeze_panes(layout.frozen_rows, layout.frozen_columns)?;
        if let Some(row) = layout.filter_row {
            let columns = sheet.rows.get(row as usize).map_or(1, Vec::len).max(1) as u16;
            let last = (sheet.rows.len() as u32).saturating_sub(1).max(row);
            worksheet.autofilter(row, 0, last, columns - 1)?;
            if let Some((column, wanted)) = &layout.filtered {
                filter(worksheet, sheet, row, *column, wanted)?;
            }
        }
        page::set_up(worksheet, sheet, columns, (page, self.book.paper), &self.book.title)?;
        Ok(sketched)
    }

    fn meet(&mut self, looks: &mut Vec<(u32, u16, Look)>, (row, column): (u32, u16), look: Look) {
        if self.met.insert(look) {
            looks.push((row, column, look));
        }
    }

    /// Tells the library of a row where it begins and ends, which looks are met in it first, and what charts draw of it.
    fn row(
        &mut self,
        worksheet: &mut Worksheet,
        sketched: &mut Sketched<'a>,
        row: u32,
        wide: bool,
    ) -> std::result::Result<(), XlsxError> {
        let Sketched { sheet, usual, page, looks } = sketched;
        let cells = &sheet.rows[row as usize];
        let in_row = |cells: &Cells| (cells.first.0..=cells.last.0).contains(&row) && cells.sheet == sheet.name;
        let drawn: Vec<Cells> = self.drawn.iter().copied().filter(in_row).collect();
        let is_drawn = |column: u16| drawn.iter().any(|cells| (cells.first.1..=cells.last.1).contains(&column));
        let begins = first_column(page, sheet, wide, cells);
        let written = |(at, cell): (usize, &Cell)| {
            is_written(cell, usual.has(begins + at as u16, Look::of(cell, wide))).then_some(at)
        };
        let first = cells.iter().enumerate().find_map(written);
        let last = cells.iter().enumerate().rev().find_map(written);
        for (at, cell) in cells.iter().enumerate() {
            let (look, column) = (Look::of(cell, wide), begins + at as u16);
            let is_end = first == Some(at) || last == Some(at);
            let is_told = is_end || !self.met.contains(&look) || is_drawn(column);
            if is_told && written((at, cell)).is_some() {
                self.meet(looks, (row, column), look);
                write_cell(worksheet, (row, column), cell, self.formats.of(look))?;
            }
        }
        Ok(())
    }
}

/// The greater of two heights, where there are any.
fn taller(one: Option<f64>, other: Option<f64>) -> Option<f64> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.max(other)),
        (one, other) => one.or(other),
    }
}

/// Shows of a table only the rows with a text in a column, until another is chosen.
fn filter(
    worksheet: &mut Worksheet,
    sheet: &Sheet,
    heads: u32,
    column: u16,
    wanted: &str,
) -> std::result::Result<(), XlsxError> {
    worksheet.filter_column(column, &FilterCondition::new().add_list_filter(wanted))?;
    for (row, cells) in sheet.rows.iter().enumerate().skip(heads as usize + 1) {
        let value = cells.get(usize::from(column)).map(|cell| &cell.value);
        if !matches!(value, Some(Value::Text(text)) if text == wanted) {
            worksheet.set_row_hidden(row as u32)?;
        }
    }
    Ok(())
}

/// Writes a cell into the sketch; of a formula only that something stands there.
fn write_cell(
    worksheet: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &Cell,
    format: &Format,
) -> std::result::Result<(), XlsxError> {
    match &cell.value {
        Value::Text(text) => worksheet.write_string_with_format(row, column, shortened(text), format),
        Value::Number { value, .. } => worksheet.write_number_with_format(row, column, *value, format),
        Value::Count(count) => worksheet.write_number_with_format(row, column, *count as f64, format),
        Value::Empty | Value::Formula(_) => worksheet.write_blank(row, column, format),
    }
    .map(drop)
}
