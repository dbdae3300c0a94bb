//! The rows of a workbook's sheets, as the file has them.
//!
//! The workbook library lays out everything around them. It is given a sketch of each sheet: the ends of every row, so that it knows how far
//! they reach, and a cell of every look, so that it numbers the looks. Here the rows of its file are filled with all cells, each written
//! once; to the library a sheet of many thousands of rows is a short one.

use std::collections::HashMap;
use std::io::{Cursor, Read, Write};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};

use foldhash::fast::FixedState;
use memchr::memmem::Finder;
use rust_xlsxwriter::XlsxError;
use rust_xlsxwriter::utility::{column_number_to_name, row_col_to_cell};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

use super::formulas::text_of;
use super::looks::{Look, Usual};
use super::page::Page;
use super::shared::Groups;
use super::texts::{Texts, push_escaped};
use crate::document::cell::{Cell, Role, Sheet, Value};
use crate::document::formula::{Formula, Outcome};

/// How hard a workbook is packed, 1 to 9: a third of the time of the usual 6, for a third more bytes.
const PACKED: i64 = 2;

/// Bytes of a sheet that are handed on at once: a whole one would be tens of megabytes.
const AT_ONCE: usize = 1 << 16;

/// A sheet of which the library has a sketch.
pub(super) struct Sketched<'a> {
    pub sheet: &'a Sheet,
    pub usual: Usual,
    /// How it is laid on paper, and so which columns a line of one cell runs over.
    pub page: Page,
    /// Where looks are met first, in the order of the rows.
    pub looks: Vec<(u32, u16, Look)>,
}

/// The column in which the first cell of a row stands: a line of one cell begins where it runs from.
pub(super) fn first_column(page: &Page, sheet: &Sheet, wide: bool, cells: &[Cell]) -> u16 {
    match (wide, cells) {
        (true, [only]) => page.line(&sheet.layout, only.role).0,
        _ => 0,
    }
}

/// Whether anything is written of a cell; `usual`: it looks as its column does.
pub(super) fn is_written(cell: &Cell, usual: bool) -> bool {
    match &cell.value {
        Value::Empty => !usual && cell.role != Role::Body,
        Value::Text(text) => !usual || !text.is_empty(),
        Value::Number { .. } | Value::Count(_) | Value::Formula(_) => true,
    }
}

/// What cells of each look say of it: ` s="6"`.
type Styles = HashMap<Look, String, FixedState>;

/// A piece of a workbook on its way to be packed.
enum Piece {
    /// A part of the file begins, under this name.
    Part(String),
    /// What stands next in it.
    Text(String),
}

/// Pieces that wait to be packed: more would only fill the memory.
const WAITING: usize = 16;

/// Fills the sketched rows of a finished workbook. While rows are filled, those before them are packed.
pub(super) fn filled(workbook: Vec<u8>, sheets: &[Sketched<'_>]) -> Result<Vec<u8>, XlsxError> {
    std::thread::scope(|scope| {
        let (pieces, waiting) = sync_channel(WAITING);
        let packing = scope.spawn(move || packed(&waiting));
        let filled = fill_parts(workbook, sheets, &pieces);
        drop(pieces);
        // Where packing failed, filling could not go on: its own error says why.
        let packed = packing.join().map_err(|_| XlsxError::CustomError("packing broke off".to_owned()))??;
        filled.map(|()| packed)
    })
}

/// Packs the parts of a workbook as their pieces come.
fn packed(pieces: &Receiver<Piece>) -> Result<Vec<u8>, XlsxError> {
    let mut made = ZipWriter::new(Cursor::new(Vec::new()));
    // Never the clock.
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(PACKED))
        .last_modified_time(DateTime::default());
    for piece in pieces {
        match piece {
            Piece::Part(name) => made.start_file(name, options)?,
            Piece::Text(text) => made.write_all(text.as_bytes())?,
        }
    }
    Ok(made.finish()?.into_inner())
}

fn hand_on(pieces: &SyncSender<Piece>, piece: Piece) -> Result<(), XlsxError> {
    pieces.send(piece).map_err(|_| XlsxError::CustomError("packing broke off".to_owned()))
}

fn fill_parts(workbook: Vec<u8>, sheets: &[Sketched<'_>], pieces: &SyncSender<Piece>) -> Result<(), XlsxError> {
    let mut parts = ZipArchive::new(Cursor::new(workbook))?;
    let (mut styles, mut texts) = (Styles::default(), Texts::default());
    // The sheets stand in the file in their order, and the texts of all behind them.
    let charts = sheets.iter().flat_map(|sheet| &sheet.sheet.layout.charts);
    let mut sheets = sheets.iter();
    for at in 0..parts.len() {
        let mut packed = parts.by_index(at)?;
        let name = packed.name()?.into_owned();
        let mut text = String::new();
        packed.read_to_string(&mut text)?;
        hand_on(pieces, Piece::Part(name.clone()))?;
        if name.starts_with("xl/worksheets/sheet") {
            let sheet = sheets.next().ok_or_else(|| XlsxError::CustomError(format!("{name} was not sketched")))?;
            sheet.fill_in(&text, &mut styles, &mut texts, pieces)?;
            continue;
        } else if name.starts_with("xl/drawings/drawing") {
            text = super::charts::with_texts(text, charts.clone());
        } else if name == "xl/sharedStrings.xml" {
            text = texts.part();
        }
        hand_on(pieces, Piece::Text(text))?;
    }
    Ok(())
}

impl<'a> Sketched<'a> {
    /// Hands the part of the file with all cells on, some rows at a time.
    ///
    /// # Errors
    /// Where it is not what was sketched, or cannot be packed.
    fn fill_in(
        &self,
        sketch: &str,
        styles: &mut Styles,
        texts: &mut Texts<'a>,
        pieces: &SyncSender<Piece>,
    ) -> Result<(), XlsxError> {
        let amiss = || XlsxError::CustomError(format!("the sheet {:?} is not as it was sketched", self.sheet.name));
        let columns = self.sheet.rows.iter().map(Vec::len).max().unwrap_or(0).max(self.page.across.into());
        let names: Vec<String> = (0..columns).map(|column| column_number_to_name(column as u16)).collect();
        let copies = Groups::of(self.sheet);
        let mut looks = self.looks.iter().peekable();
        let mut made = String::with_capacity(2 * AT_ONCE);
        let mut rest = sketch;
        let (begins, ends) = (Finder::new("<row r=\""), Finder::new("</row>"));
        while let Some(at) = begins.find(rest.as_bytes()) {
            let (tag, after) = tag_at(rest, at).ok_or_else(amiss)?;
            made.push_str(&rest[..rest.len() - after.len()]);
            rest = after;
            if tag.ends_with("/>") {
                continue;
            }
            let row = row_of(tag).ok_or_else(amiss)?;
            let (sketched, after) = rest.split_at(ends.find(rest.as_bytes()).ok_or_else(amiss)?);
            while let Some((_, column, look)) = looks.next_if(|(at, ..)| *at == row) {
                styles.insert(*look, style(sketched, row, *column).ok_or_else(amiss)?);
            }
            self.fill(row, (&names, &copies), styles, texts, &mut made).ok_or_else(amiss)?;
            if made.len() >= AT_ONCE {
                let full = std::mem::replace(&mut made, String::with_capacity(2 * AT_ONCE));
                hand_on(pieces, Piece::Text(full))?;
            }
            rest = after;
        }
        made.push_str(rest);
        hand_on(pieces, Piece::Text(made))?;
        looks.next().map_or(Ok(()), |_| Err(amiss()))
    }

    fn fill(
        &self,
        row: u32,
        (names, copies): (&[String], &Groups),
        styles: &Styles,
        texts: &mut Texts<'a>,
        made: &mut String,
    ) -> Option<()> {
        let cells = self.sheet.rows.get(row as usize)?;
        let wide = self.sheet.layout.wide_rows.contains(&row);
        let line = (row + 1).to_string();
        let begin = |made: &mut String, column: usize, style: &str| {
            made.extend(["<c r=\"", &names[column], &line, "\"", style]);
        };
        let begins = usize::from(first_column(&self.page, self.sheet, wide, cells));
        for (column, cell) in (begins..).zip(cells) {
            let look = Look::of(cell, wide);
            if !is_written(cell, self.usual.has(column as u16, look)) {
                continue;
            }
            begin(made, column, styles.get(&look)?);
            match &cell.value {
                Value::Text(text) if !text.is_empty() => {
                    made.extend([" t=\"s\"><v>", &texts.number(text).to_string(), "</v></c>"]);
                }
                Value::Empty | Value::Text(_) => made.push_str("/>"),
                Value::Number { value, .. } => push_number(made, *value),
                Value::Count(count) => push_number(made, *count as f64),
                Value::Formula(formula) => push_formula(made, formula, (row, column as u16), copies),
            }
        }
        // The ground of a line that runs over the columns of a page.
        if let (true, [only]) = (wide, &cells[..]) {
            let (from, below) = self.page.line(&self.sheet.layout, only.role);
            for column in usize::from(from) + 1..usize::from(below) {
                begin(made, column, styles.get(&Look::of_line(only))?);
                made.push_str("/>");
            }
        }
        Some(())
    }
}

fn push_number(made: &mut String, number: f64) {
    // As many digits as a number has: what is stored is what the program computed.
    let mut shortest = ryu::Buffer::new();
    let shortest = shortest.format(number);
    made.push_str("><v>");
    // Very large and very small ones are written out.
    if shortest.contains('e') {
        made.push_str(&number.to_string());
    } else {
        made.push_str(shortest.strip_suffix(".0").unwrap_or(shortest));
    }
    made.push_str("</v></c>");
}

fn push_formula(made: &mut String, formula: &Formula, (row, column): (u32, u16), copies: &Groups) {
    made.push_str(if matches!(formula.outcome, Outcome::Text(_)) { " t=\"str\"><f" } else { "><f" });
    match copies.group(formula, column) {
        Some(group) if group.first != row => {
            made.extend([" t=\"shared\" si=\"", &group.number.to_string(), "\"/"]);
        }
        group => {
            if let Some(group) = group {
                let area = [group.first, group.last].map(|row| row_col_to_cell(row, column)).join(":");
                made.extend([" t=\"shared\" ref=\"", &area, "\" si=\"", &group.number.to_string(), "\""]);
            }
            made.push('>');
            push_escaped(made, &text_of(formula, row));
            made.push_str("</f");
        }
    }
    match &formula.outcome {
        Outcome::Number(number) => push_number(made, *number),
        Outcome::Text(text) => {
            made.push_str("><v>");
            push_escaped(made, text);
            made.push_str("</v></c>");
        }
    }
}

/// The tag of a sheet's part that begins at a place, and what stands behind it.
fn tag_at(part: &str, at: usize) -> Option<(&str, &str)> {
    let end = at + part[at..].find('>')? + 1;
    Some((&part[at..end], &part[end..]))
}

/// The row of a tag, counted from 0.
fn row_of(tag: &str) -> Option<u32> {
    tag.split('"').nth(1)?.parse::<u32>().ok()?.checked_sub(1)
}

/// What a sketched cell says of its look.
fn style(sketched: &str, row: u32, column: u16) -> Option<String> {
    let (_, cell) = sketched.split_once(&format!("<c r=\"{}\"", row_col_to_cell(row, column)))?;
    let number = cell.strip_prefix(" s=\"").and_then(|number| number.split('"').next());
    Some(number.map_or_else(String::new, |number| format!(" s=\"{number}\"")))
}
