//! Tables as CSV: RFC 4180, UTF-8 without byte-order mark, `\n`, numbers at full precision, `.` as the decimal point.
//!
//! A text that a spreadsheet would take for a formula (it starts with `=`, `+`, `-`, `@`, a tab or a line end) is written
//! with an apostrophe before it, so that it stays text; headings are texts of the lists as well. So is one in which such a
//! mark comes after a semicolon or a tab, where a spreadsheet of another country may cut it. Letters that act without being seen are
//! shown by number, but where a finding says what was typed. Numbers are never touched, negative ones least of all;
//! a text that is a number by itself, such as `-5`, stays as it is, because it cannot do harm.

use std::borrow::Cow;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use crate::document::formula::Outcome;
use crate::document::{
    self,
    cell::{Grid, Value},
};
use crate::error::{Error, Result};
use crate::table::{ColumnCells, ColumnHead, TableBatch, TableSink, Varies};

/// A CSV file being written.
pub struct CsvTable {
    path: PathBuf,
    file: Mutex<BufWriter<File>>,
}

impl CsvTable {
    /// Opens a file and writes its headings.
    ///
    /// # Errors
    /// When the file cannot be made.
    pub fn create(path: &Path, heads: &[ColumnHead]) -> Result<Self> {
        let file = File::create(path).map_err(|error| Error::unwritten(path, error))?;
        let table = Self { path: path.to_owned(), file: Mutex::new(BufWriter::with_capacity(1 << 20, file)) };
        let mut line = Vec::new();
        write_record(&mut line, heads.iter().map(|head| harmless(&head.name)))
            .map_err(|error| Error::unwritten(path, error))?;
        table.write(line)?;
        Ok(table)
    }

    /// Ends the file.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn finish(self) -> Result<()> {
        let mut file = self.file.into_inner().unwrap_or_else(PoisonError::into_inner);
        file.flush().map_err(|error| Error::unwritten(&self.path, error))
    }
}

impl TableSink for CsvTable {
    type Encoded = Vec<u8>;

    fn encode(&self, batch: TableBatch<'_>) -> Result<Vec<u8>> {
        let failed = |error: csv::Error| Error::Internal(format!("a table row could not be made into CSV: {error}"));
        let rows = batch.rows();
        let mut lines = Vec::with_capacity(rows * 256);
        let mut writer = csv::Writer::from_writer(&mut lines);
        let mut number = ryu::Buffer::new();
        let mut record = csv::ByteRecord::new();
        // What many rows show is made once.
        let shared: Vec<Option<Vec<Cow<'_, str>>>> = batch
            .columns
            .iter()
            .map(|column| match &column.cells {
                _ if column.varies == Varies::Row => None,
                ColumnCells::Text(texts) => Some(texts.iter().map(|text| harmless(text)).collect()),
                ColumnCells::Number(numbers) => {
                    Some(numbers.iter().map(|value| shown(*value, &mut number).to_owned().into()).collect())
                }
            })
            .collect();
        for row in 0..rows {
            record.clear();
            for (column, shared) in batch.columns.iter().zip(&shared) {
                let cell = batch.cell_of(column.varies, row);
                match (shared, &column.cells) {
                    (Some(fields), _) => record.push_field(fields[cell].as_bytes()),
                    (None, ColumnCells::Text(texts)) => record.push_field(harmless(texts[cell]).as_bytes()),
                    (None, ColumnCells::Number(numbers)) => {
                        record.push_field(shown(numbers[cell], &mut number).as_bytes());
                    }
                }
            }
            writer.write_byte_record(&record).map_err(failed)?;
        }
        writer.flush().map_err(|error| Error::Internal(error.to_string()))?;
        drop(writer);
        Ok(lines)
    }

    fn write(&self, lines: Vec<u8>) -> Result<()> {
        let mut file = self.file.lock().unwrap_or_else(PoisonError::into_inner);
        file.write_all(&lines).map_err(|error| Error::unwritten(&self.path, error))
    }
}

/// Writes a plain table.
///
/// # Errors
/// When the file cannot be written.
pub fn write_grid(path: &Path, grid: &Grid) -> Result<()> {
    let mut lines = Vec::new();
    let failed = |error: csv::Error| Error::output(path, error);
    write_record(&mut lines, grid.heads.iter().map(|head| harmless(head))).map_err(failed)?;
    let mut number = ryu::Buffer::new();
    for row in &grid.rows {
        let cells: Vec<String> = row
            .iter()
            .map(|value| match value {
                Value::Empty => String::new(),
                Value::Text(text) => harmless(text).into_owned(),
                Value::Number { value, .. } => plain(number.format(*value)).to_owned(),
                Value::Count(count) => count.to_string(),
                Value::Formula(formula) => match &formula.outcome {
                    Outcome::Number(value) => plain(number.format(*value)).to_owned(),
                    Outcome::Text(text) => harmless(text).into_owned(),
                },
            })
            .collect();
        write_record(&mut lines, cells.into_iter().map(Cow::Owned)).map_err(failed)?;
    }
    std::fs::write(path, lines).map_err(|error| Error::unwritten(path, error))
}

/// One line of texts, harmless to a spreadsheet; the text at one place keeps every letter, for who compares it with the list.
///
/// # Errors
/// When the record cannot be encoded.
pub fn line<'a>(texts: impl IntoIterator<Item = &'a str>, kept: usize) -> Result<Vec<u8>> {
    let mut line = Vec::new();
    let texts = texts.into_iter().enumerate();
    write_record(&mut line, texts.map(|(at, text)| if at == kept { no_formula(text.into()) } else { harmless(text) }))
        .map_err(|error| Error::Internal(format!("a row could not be made into CSV: {error}")))?;
    Ok(line)
}

/// The text as a person may open it in a spreadsheet: no letter that acts without being seen, and no formula.
fn harmless(text: &str) -> Cow<'_, str> {
    no_formula(document::plain::plain(text))
}

/// An apostrophe before what a spreadsheet would take for a formula.
fn no_formula(mut text: Cow<'_, str>) -> Cow<'_, str> {
    if text.contains('\0') {
        text = Cow::Owned(text.replace('\0', ""));
    }
    if text.contains([';', '\t']) {
        text = cut_elsewhere(text);
    }
    if is_formula_like(&text) { Cow::Owned(format!("'{text}")) } else { text }
}

/// Where semicolons or tabs separate cells, what stands behind one begins a cell.
fn cut_elsewhere(text: Cow<'_, str>) -> Cow<'_, str> {
    let pieces = text.split_inclusive([';', '\t']);
    // A line end is no harm by itself: what comes after it is.
    let harmful =
        |piece: &str| is_formula_like(piece.trim_start_matches([' ', '"', '\r', '\n']).trim_end_matches([';', '\t']));
    if !pieces.clone().skip(1).any(harmful) {
        return text;
    }
    let mend =
        |(at, piece): (usize, &str)| if at > 0 && harmful(piece) { format!("'{piece}") } else { piece.to_owned() };
    Cow::Owned(pieces.enumerate().map(mend).collect())
}

/// `100.0` as `100`: a whole number needs no decimals in a table.
fn plain(shortest: &str) -> &str {
    shortest.strip_suffix(".0").unwrap_or(shortest)
}

/// A number, or nothing where there is none.
fn shown(value: f64, number: &mut ryu::Buffer) -> &str {
    if value.is_nan() { "" } else { plain(number.format(value)) }
}

/// A row of texts that were made harmless.
fn write_record<'a>(into: &mut Vec<u8>, fields: impl Iterator<Item = Cow<'a, str>>) -> csv::Result<()> {
    let mut writer = csv::Writer::from_writer(into);
    for field in fields {
        writer.write_field(field.as_bytes())?;
    }
    writer.write_record(None::<&[u8]>)?;
    writer.flush().map_err(csv::Error::from)
}

/// Whether a spreadsheet would take this text for a formula.
pub fn is_formula_like(text: &str) -> bool {
    text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) && text.trim().parse::<f64>().is_err() && text != "-"
}
