//! Sheets of typed cells as an XLSX workbook.
//!
//! Text is always written as text, whatever it starts with, so no cell of a list can become a formula. The file's date is
//! the plan's date or a fixed day, never the clock: the same run gives the same bytes.

use std::collections::HashMap;
use std::io::Write;
use std::path::Path;

use chrono::NaiveTime;
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, Worksheet, XlsxError,
};

use super::formulas;
use crate::document::cell::{Book, Cell, Role, Sheet, Value};
use crate::document::formula::Outcome;
use crate::error::{Error, Result};

/// Day written into a workbook of a plan without a date; the first that a workbook's file parts can carry.
const NO_DATE: (u16, u8, u8) = (1980, 1, 1);

/// Heights in points: a line of text, a row of headings, the title.
const LINE_HEIGHT: f64 = 13.0;
const HEAD_HEIGHT: f64 = 40.0;
const TITLE_HEIGHT: f64 = 21.0;
/// Width of a column without one of its own, in characters.
const PLAIN_WIDTH: f64 = 8.43;

/// Longest text a cell can hold.
const LONGEST_TEXT: usize = 32_767;

/// Writes a workbook.
///
/// # Errors
/// When the file cannot be written.
pub fn write_book(path: &Path, book: &Book) -> Result<()> {
    build(book).and_then(|mut workbook| workbook.save(path)).map_err(|error| Error::output(path, error))
}

/// Writes a workbook to a place where nothing is yet.
///
/// # Errors
/// When something is there already, or the file cannot be written.
pub fn write_new_book(path: &Path, book: &Book) -> Result<()> {
    let bytes =
        build(book).and_then(|mut workbook| workbook.save_to_buffer()).map_err(|error| Error::output(path, error))?;
    super::new_file::write(path, &bytes)
}

/// Writes a workbook in place of an earlier one: whole, or not at all.
///
/// # Errors
/// When the file cannot be written.
pub fn replace_book(path: &Path, book: &Book) -> Result<()> {
    let bytes =
        build(book).and_then(|mut workbook| workbook.save_to_buffer()).map_err(|error| Error::output(path, error))?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|error| Error::output(path, error))?;
    file.write_all(&bytes).map_err(|error| Error::output(path, error))?;
    file.persist(path).map(drop).map_err(|error| Error::output(path, error))
}

fn build(book: &Book) -> std::result::Result<Workbook, XlsxError> {
    let mut workbook = Workbook::new();
    let created = match book.date {
        Some(date) => ExcelDateTime::from_timestamp(date.and_time(NaiveTime::MIN).and_utc().timestamp())?,
        None => ExcelDateTime::from_ymd(NO_DATE.0, NO_DATE.1, NO_DATE.2)?,
    };
    workbook.set_properties(&DocProperties::new().set_title(&book.title).set_creation_datetime(&created));
    let mut formats = Formats::default();
    for sheet in &book.sheets {
        let worksheet = workbook.add_worksheet();
        write_sheet(worksheet, sheet, &book.title, &mut formats)?;
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
    formats: &mut Formats,
) -> std::result::Result<(), XlsxError> {
    worksheet.set_name(sheet.name)?;
    // A formula without a value is stored as an empty text, not as zero.
    worksheet.set_formula_result_default("");
    for (column, width) in sheet.layout.widths.iter().enumerate() {
        worksheet.set_column_width(column as u16, *width)?;
    }
    let columns = sheet.rows.iter().map(Vec::len).max().unwrap_or(1);
    for (row, cells) in sheet.rows.iter().enumerate() {
        let wide = sheet.layout.wide_rows.contains(&(row as u32));
        if let (true, [only]) = (wide, &cells[..]) {
            // The ground of a line that runs over the others runs with it.
            for column in 1..columns {
                worksheet.write_blank(row as u32, column as u16, formats.of(only.role, None, wide))?;
            }
        }
        if let Some(height) = row_height(cells, wide, &sheet.layout.widths) {
            worksheet.set_row_height(row as u32, height)?;
        }
        for (column, cell) in cells.iter().enumerate() {
            write_cell(worksheet, row as u32, column as u16, cell, wide, formats)?;
        }
    }
    let layout = &sheet.layout;
    super::entries::write(worksheet, layout)?;
    worksheet.set_freeze_panes(layout.frozen_rows, layout.frozen_columns)?;
    if let Some(row) = layout.filter_row {
        let columns = sheet.rows.get(row as usize).map_or(1, Vec::len).max(1) as u16;
        let last = (sheet.rows.len() as u32).saturating_sub(1).max(row);
        worksheet.autofilter(row, 0, last, columns - 1)?;
        worksheet.set_repeat_rows(row, row)?;
    }
    if let Some(row) = layout.repeat_rows {
        worksheet.set_repeat_rows(row, row)?;
    }
    if layout.repeat_columns > 0 {
        worksheet.set_repeat_columns(0, layout.repeat_columns - 1)?;
    }
    if !layout.breaks.is_empty() {
        worksheet.set_page_breaks(&layout.breaks)?;
    }
    if layout.printed_columns.is_some() || layout.printed_rows.is_some() {
        let last = layout.printed_rows.unwrap_or(u32::MAX).min(sheet.rows.len() as u32).saturating_sub(1);
        let width = layout.printed_columns.unwrap_or(columns as u16);
        worksheet.set_print_area(0, 0, last, width.saturating_sub(1))?;
    }
    if layout.landscape {
        worksheet.set_landscape();
    }
    worksheet.set_paper_size(9);
    worksheet.set_print_fit_to_pages(layout.pages_wide, 0);
    worksheet.set_margins(0.4, 0.4, 0.6, 0.6, 0.3, 0.3);
    // An ampersand in the title would be read as a print code.
    let title = title.replace('&', "&&");
    worksheet.set_header(format!("&L{title}&R{}", sheet.name));
    worksheet.set_footer("&LPlanning figures: local code and licensed practice come first&RPage &P of &N");
    Ok(())
}

/// Height of a row, where it is not that of one line. Spreadsheet programs do not agree on whether to fit the height of
/// wrapped text when they open a file, so it is set.
fn row_height(cells: &[Cell], wide: bool, widths: &[f64]) -> Option<f64> {
    if cells.iter().any(|cell| cell.role == Role::Title) {
        return Some(TITLE_HEIGHT);
    }
    if wide {
        return None;
    }
    if cells.iter().any(|cell| cell.role == Role::Head) {
        return Some(HEAD_HEIGHT);
    }
    let lines = |(column, cell): (usize, &Cell)| {
        let text = match &cell.value {
            Value::Text(text) => text,
            Value::Formula(formula) => match &formula.outcome {
                Outcome::Text(text) => text,
                Outcome::Number(_) => return 1.0,
            },
            _ => return 1.0,
        };
        // The indent and a little slack for wide letters leave less than the nominal width.
        let width = (widths.get(column).copied().unwrap_or(PLAIN_WIDTH) - 1.5).max(4.0);
        text.lines().map(|line| (line.chars().count() as f64 / width).ceil().max(1.0)).sum::<f64>().max(1.0)
    };
    let most = cells.iter().enumerate().map(lines).fold(1.0, f64::max);
    (most > 1.0).then_some((most * LINE_HEIGHT + 2.0).min(MOST_HEIGHT))
}

/// The greatest height a row can have.
const MOST_HEIGHT: f64 = 409.0;

fn write_cell(
    worksheet: &mut Worksheet,
    row: u32,
    column: u16,
    cell: &Cell,
    wide: bool,
    formats: &mut Formats,
) -> std::result::Result<(), XlsxError> {
    let digits = match &cell.value {
        Value::Number { digits, .. } => Some(*digits),
        Value::Formula(formula) => Some(formula.digits).filter(|_| matches!(formula.outcome, Outcome::Number(_))),
        Value::Count(_) => Some(0),
        Value::Empty | Value::Text(_) => None,
    };
    let format = formats.of(cell.role, digits, wide);
    match &cell.value {
        Value::Empty if cell.role == Role::Body => Ok(()),
        Value::Empty => worksheet.write_blank(row, column, format).map(|_| ()),
        Value::Text(text) => worksheet.write_string_with_format(row, column, shortened(text), format).map(|_| ()),
        Value::Number { value, .. } => worksheet.write_number_with_format(row, column, *value, format).map(|_| ()),
        Value::Count(count) => worksheet.write_number_with_format(row, column, *count as f64, format).map(|_| ()),
        Value::Formula(formula) => {
            worksheet.write_formula_with_format(row, column, formulas::written(formula, row), format).map(|_| ())
        }
    }
}

/// A text no longer than a cell can hold.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(LONGEST_TEXT - 1) {
        None => text.to_owned(),
        Some((end, _)) => format!("{}…", &text[..end]),
    }
}

/// Formats by role, digits and width, each made once.
#[derive(Default)]
struct Formats(HashMap<(Role, Option<usize>, bool), Format>);

impl Formats {
    fn of(&mut self, role: Role, digits: Option<usize>, wide: bool) -> &Format {
        self.0.entry((role, digits, wide)).or_insert_with(|| make(role, digits, wide))
    }
}

/// Inks and grounds of the workbook, from one calm palette: slate for structure, amber where a person must look.
const SLATE: u32 = 0x2F_4858;
const PALE_SLATE: u32 = 0xE6_ECEF;
const PALE_AMBER: u32 = 0xFB_EBCB;
const RULE: u32 = 0x9F_B0B9;
const PALE_INPUT: u32 = 0xFF_FBE0;

fn make(role: Role, digits: Option<usize>, wide: bool) -> Format {
    let base = Format::new().set_font_name("Arial").set_font_size(10).set_align(FormatAlign::Top);
    let base = match digits {
        None if wide => base,
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
            .set_font_color(0xFF_FFFF)
            .set_background_color(SLATE)
            .set_text_wrap()
            .set_align(FormatAlign::VerticalCenter)
            .set_border_bottom(FormatBorder::Thin),
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
