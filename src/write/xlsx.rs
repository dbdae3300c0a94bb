//! Sheets of typed cells as an XLSX workbook.
//!
//! Text is always written as text, whatever it starts with, so no cell of a list can become a formula. The file's date is
//! the plan's date or a fixed day, never the clock: the same run gives the same bytes.

use std::collections::HashMap;
use std::io::Write;
use std::path::Path;

use chrono::NaiveTime;
use foldhash::fast::FixedState;
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, FilterCondition, Format, FormatAlign, FormatBorder, Workbook, Worksheet, XlsxError,
};

use super::page::{self, Page};
use super::shared::{self, Groups};
use super::{formulas, heights};
use crate::document::cell::{Book, Cell, Paper, Role, Sheet, Value};
use crate::document::formula::Outcome;
use crate::error::{Error, Result};

/// Day written into a workbook of a plan without a date; the first that a workbook's file parts can carry.
const NO_DATE: (u16, u8, u8) = (1980, 1, 1);

/// Rows of a sheet that is long.
const LONG: usize = 1_000;

/// Longest text a cell can hold.
const LONGEST_TEXT: usize = 32_767;

/// Writes a workbook.
///
/// # Errors
/// When the file cannot be written.
pub fn write_book(path: &Path, book: &Book) -> Result<()> {
    let bytes = bytes(book).map_err(|error| Error::output(path, error))?;
    std::fs::write(path, bytes).map_err(|error| Error::output(path, error))
}

/// Writes a workbook to a place where nothing is yet.
///
/// # Errors
/// When something is there already, or the file cannot be written.
pub fn write_new_book(path: &Path, book: &Book) -> Result<()> {
    let bytes = bytes(book).map_err(|error| Error::output(path, error))?;
    super::new_file::write(path, &bytes)
}

/// Writes a workbook in place of an earlier one: whole, or not at all.
///
/// # Errors
/// When the file cannot be written.
pub fn replace_book(path: &Path, book: &Book) -> Result<()> {
    let bytes = bytes(book).map_err(|error| Error::output(path, error))?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|error| Error::output(path, error))?;
    file.write_all(&bytes).map_err(|error| Error::output(path, error))?;
    file.persist(path).map(drop).map_err(|error| Error::output(path, error))
}

/// The whole file.
fn bytes(book: &Book) -> std::result::Result<Vec<u8>, XlsxError> {
    shared::resolved(build(book)?.save_to_buffer()?)
}

fn build(book: &Book) -> std::result::Result<Workbook, XlsxError> {
    let mut workbook = Workbook::new();
    // What is made here is packed once more when its marks are resolved.
    workbook.set_zip_compression_level(1);
    // Columns are measured in digits of the default font: one that is there on most machines, or of the same widths.
    workbook.set_default_format(&plain(), heights::DEFAULT_ROW, DEFAULT_COLUMN)?;
    let created = match book.date {
        Some(date) => ExcelDateTime::from_timestamp(date.and_time(NaiveTime::MIN).and_utc().timestamp())?,
        None => ExcelDateTime::from_ymd(NO_DATE.0, NO_DATE.1, NO_DATE.2)?,
    };
    workbook.set_properties(&DocProperties::new().set_title(&book.title).set_creation_datetime(&created));
    let mut formats = Formats::default();
    for sheet in &book.sheets {
        let worksheet = workbook.add_worksheet();
        write_sheet(worksheet, sheet, &book.title, book.paper, &mut formats)?;
    }
    for name in &book.names {
        workbook.define_name(&name.name, &formulas::range(name))?;
    }
    Ok(workbook)
}

fn write_sheet(
    worksheet: &mut Worksheet,
    sheet: &Sheet,
    title: &str,
    paper: Paper,
    formats: &mut Formats,
) -> std::result::Result<(), XlsxError> {
    worksheet.set_name(sheet.name)?;
    // A formula without a value is stored as an empty text, not as zero.
    worksheet.set_formula_result_default("");
    for (column, width) in sheet.layout.widths.iter().enumerate() {
        worksheet.set_column_width(column as u16, *width)?;
    }
    let layout = &sheet.layout;
    let usual = Usual::of(sheet);
    for (column, look) in usual.columns() {
        worksheet.set_column_format(column, formats.of(look))?;
    }
    let copies = Groups::of(sheet);
    let columns = sheet.rows.iter().map(Vec::len).max().unwrap_or(1) as u16;
    let page = Page::of(layout, columns, paper);
    let across = page.across.min(columns);
    let printed = usize::from(layout.printed_columns.unwrap_or(columns));
    let width: f64 =
        (0..across).map(|column| layout.widths.get(usize::from(column)).copied().unwrap_or(page::PLAIN_WIDTH)).sum();
    for (row, cells) in sheet.rows.iter().enumerate() {
        let wide = layout.wide_rows.contains(&(row as u32));
        let row = row as u32;
        let height = match (wide, &cells[..]) {
            (true, [only]) => {
                if across > 1 {
                    // The line wraps over the columns of a page, and its ground runs with it.
                    let look = Look { role: only.role, digits: None, wide: true };
                    worksheet.merge_range(row, 0, row, across - 1, "", formats.of(look))?;
                }
                heights::of_wide(only, width)
            }
            // What is not printed does not make a row taller on paper.
            _ => {
                // Where columns are left out of print, programs would fit the row to those too.
                let is_set = sheet.rows.len() > LONG || cells.len() > printed;
                heights::of_row(&cells[..cells.len().min(printed)], &layout.widths, is_set)
            }
        };
        if let Some(height) = height {
            worksheet.set_row_height(row, height)?;
        }
        for (column, cell) in cells.iter().enumerate() {
            let place = (row, column as u16);
            let look = Look::of(cell, wide);
            if usual.has(place.1, look) {
                write_cell(worksheet, place, cell, &copies)?;
            } else {
                write_in_format(worksheet, place, cell, &copies, formats.of(look))?;
            }
        }
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
    page::set_up(worksheet, sheet, columns, (page, paper), title)
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

/// Writes a cell in the format of its column.
fn write_cell(
    worksheet: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &Cell,
    copies: &Groups,
) -> std::result::Result<(), XlsxError> {
    match &cell.value {
        Value::Empty => Ok(()),
        Value::Text(text) => worksheet.write_string(row, column, shortened(text)).map(|_| ()),
        Value::Number { value, .. } => worksheet.write_number(row, column, *value).map(|_| ()),
        Value::Count(count) => worksheet.write_number(row, column, *count as f64).map(|_| ()),
        Value::Formula(formula) => {
            worksheet.write_formula(row, column, formulas::written(formula, (row, column), copies)).map(|_| ())
        }
    }
}

/// Writes a cell in a format of its own.
fn write_in_format(
    worksheet: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &Cell,
    copies: &Groups,
    format: &Format,
) -> std::result::Result<(), XlsxError> {
    match &cell.value {
        Value::Empty if cell.role == Role::Body => Ok(()),
        Value::Empty => worksheet.write_blank(row, column, format).map(|_| ()),
        Value::Text(text) => worksheet.write_string_with_format(row, column, shortened(text), format).map(|_| ()),
        Value::Number { value, .. } => worksheet.write_number_with_format(row, column, *value, format).map(|_| ()),
        Value::Count(count) => worksheet.write_number_with_format(row, column, *count as f64, format).map(|_| ()),
        Value::Formula(formula) => worksheet
            .write_formula_with_format(row, column, formulas::written(formula, (row, column), copies), format)
            .map(|_| ()),
    }
}

/// A text no longer than a cell can hold.
fn shortened(text: &str) -> String {
    if text.len() < LONGEST_TEXT {
        return text.to_owned();
    }
    match text.char_indices().nth(LONGEST_TEXT - 1) {
        None => text.to_owned(),
        Some((end, _)) => format!("{}…", &text[..end]),
    }
}

/// What a cell looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Look {
    role: Role,
    digits: Option<usize>,
    wide: bool,
}

impl Look {
    fn of(cell: &Cell, wide: bool) -> Self {
        let digits = match &cell.value {
            Value::Number { digits, .. } => Some(*digits),
            Value::Formula(formula) => Some(formula.digits).filter(|_| matches!(formula.outcome, Outcome::Number(_))),
            Value::Count(_) => Some(0),
            Value::Empty | Value::Text(_) => None,
        };
        Self { role: cell.role, digits, wide }
    }
}

/// How the plain cells of each column of a long sheet mostly look: the column has that format, and they need not name it.
struct Usual(Vec<Option<Look>>);

impl Usual {
    fn of(sheet: &Sheet) -> Self {
        if sheet.rows.len() <= LONG {
            return Self(Vec::new());
        }
        let mut counts: Vec<HashMap<Look, usize, FixedState>> = Vec::new();
        for cells in &sheet.rows {
            counts.resize_with(counts.len().max(cells.len()), HashMap::default);
            let plain = cells.iter().zip(&mut counts);
            for (cell, counts) in plain.filter(|(cell, _)| cell.role == Role::Body && cell.value != Value::Empty) {
                *counts.entry(Look::of(cell, false)).or_default() += 1;
            }
        }
        let most = |counts: HashMap<Look, usize, FixedState>| {
            let (look, count) = counts.into_iter().max_by_key(|(look, count)| (*count, look.digits))?;
            (count > sheet.rows.len() / 2).then_some(look)
        };
        Self(counts.into_iter().map(most).collect())
    }

    fn columns(&self) -> impl Iterator<Item = (u16, Look)> {
        self.0.iter().enumerate().filter_map(|(column, look)| Some((column as u16, (*look)?)))
    }

    fn has(&self, column: u16, look: Look) -> bool {
        self.0.get(usize::from(column)).is_some_and(|usual| *usual == Some(look))
    }
}

/// Formats by the look of cells, each made once.
#[derive(Default)]
struct Formats(HashMap<Look, Format, FixedState>);

impl Formats {
    fn of(&mut self, look: Look) -> &Format {
        self.0.entry(look).or_insert_with(|| make(look))
    }
}

/// Inks and grounds of the workbook, pale because they are printed: slate for structure, amber where a person must look.
const SLATE: u32 = 0x2F_4858;
const PALE_SLATE: u32 = 0xE6_ECEF;
const PALE_AMBER: u32 = 0xFB_EBCB;
const RULE: u32 = 0x9F_B0B9;
const PALE_INPUT: u32 = 0xFF_FBE0;

/// Width of a column without one of its own, in pixels.
const DEFAULT_COLUMN: u32 = 64;

fn plain() -> Format {
    Format::new().set_font_name("Arial").set_font_size(10)
}

fn make(Look { role, digits, wide }: Look) -> Format {
    let base = plain().set_align(FormatAlign::Top);
    let base = match digits {
        None if wide => base.set_text_wrap(),
        // A blank's width before a text keeps it off the number to its left.
        None => base.set_text_wrap().set_align(FormatAlign::Left).set_indent(1),
        Some(0) => base.set_num_format("#,##0"),
        Some(digits) => base.set_num_format(format!("#,##0.{}", shown_digits(digits))),
    };
    match role {
        Role::Title => base.set_font_size(14).set_bold().set_font_color(SLATE),
        Role::Note => base.set_italic().set_font_color(SLATE),
        Role::Head => base
            .set_bold()
            .set_font_color(SLATE)
            .set_background_color(PALE_SLATE)
            .set_text_wrap()
            .set_align(FormatAlign::Bottom)
            .set_border_bottom(FormatBorder::Medium)
            .set_border_bottom_color(SLATE),
        Role::Body => base,
        Role::Total => base.set_bold().set_background_color(PALE_SLATE),
        Role::Flagged => base.set_background_color(PALE_AMBER),
        Role::Caution => base.set_bold().set_background_color(PALE_AMBER),
        // A frame and a tint; the frame survives a printer without color.
        Role::Input => base.set_background_color(PALE_INPUT).set_border(FormatBorder::Thin).set_border_color(SLATE),
        // As text, so that what is typed stays as typed: a range such as 6-8 would become a date.
        Role::Figure => base.set_border(FormatBorder::Thin).set_border_color(RULE),
        Role::Blank => base.set_num_format("@").set_border(FormatBorder::Thin).set_border_color(RULE),
    }
}

/// Up to two digits are always shown; further ones only where they are not zero.
fn shown_digits(digits: usize) -> String {
    if digits <= 2 { "0".repeat(digits) } else { format!("0{}", "#".repeat(digits - 1)) }
}
