//! Several tables one below the other on a sheet, each with headings of its own: lists that were pasted together.
//!
//! Each becomes a table by itself, with the titles above it as its notes. Headings that are only repeated are left to the
//! rows.

use std::collections::BTreeSet;

use super::heading;
use super::layout;
use super::rows::{CellKind, Rows};
use super::table::{Opened, Payload, RowSource};
use crate::error::Result;
use crate::field::rules::ReadingRules;
use crate::finding::{Code, Finding, catalogue};
use crate::place::Place;
use crate::quantity::parse::plain;

/// Headings have so many cells at least, and look so much like headings.
const FEWEST_HEADINGS: usize = 4;
const LEAST_LIKENESS: f64 = 3.0;
/// A row with more cells than that is no title.
const TITLE: usize = 2;
/// A table has so many rows at least.
const FEWEST_ROWS: usize = 3;

/// What is said of where headings stand, anew for each table.
const LAYOUT: [Code; 3] = [catalogue::ROWS_ABOVE_HEADING, catalogue::UNIT_ROW, catalogue::GROUPED_HEADINGS];

/// Where a table stands in the sample.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Block {
    /// Its first line of words above the headings.
    titles: usize,
    /// The row of its headings.
    heading: usize,
}

/// The tables of a sheet; the one that was opened where there are no others.
///
/// # Errors
/// Where the file breaks off before the last of them begins.
pub fn apart(mut table: Opened, rules: &ReadingRules) -> Result<Vec<Opened>> {
    let blocks = blocks(&table, rules);
    let Some(last) = blocks.last().filter(|_| blocks.len() > 1) else { return Ok(vec![table]) };
    let Some(mut source) = table.source.take() else { return Ok(vec![table]) };
    // Rows up to the last table are few: they are read at once, the rest as it comes.
    let begins = table.sample.number(last.titles);
    let mut read = Vec::new();
    while let Some(payload) = source.next(4096)? {
        let rows = match payload {
            Payload::Chunk(chunk) => chunk.cells(),
            Payload::Rows(rows) => rows,
        };
        let reaches = (0..rows.len()).any(|row| rows.number(row) >= begins);
        read.push(rows);
        if reaches {
            break;
        }
    }
    let mut source = Some(source);
    let mut tables = Vec::new();
    for (at, block) in blocks.iter().enumerate() {
        let end = blocks.get(at + 1).map_or(table.sample.len(), |next| next.titles);
        let from = if at == 0 { 0 } else { block.titles };
        let sample = table.sample.part(from..end);
        let Some(layout) = layout::find(&sample, rules, Some(block.heading - from)) else { continue };
        let above = sample.number(layout.first_row - 1);
        let upto = blocks.get(at + 1).map_or(u32::MAX, |next| table.sample.number(next.titles));
        // What stands above the headings that the file was opened by comes with the sample alone.
        let of_sample = std::iter::once(&table.sample).filter(|_| block.heading < table.layout.heading_row);
        let rows = of_sample.chain(&read).map(|rows| {
            let inside: Vec<usize> =
                (0..rows.len()).filter(|row| (above + 1..upto).contains(&rows.number(*row))).collect();
            rows.part(inside.first().map_or(0..0, |first| *first..first + inside.len()))
        });
        let rest = if at + 1 == blocks.len() { source.take() } else { None };
        let mut notes = layout.findings(&sample, &table.origin);
        if at == 0 {
            // What is said of the file, not of where its headings stand.
            let of_file = std::mem::take(&mut table.notes).into_iter();
            notes.extend(of_file.filter(|note| !LAYOUT.contains(&note.code)));
        } else {
            notes.retain(|note| note.code != catalogue::ROWS_ABOVE_HEADING);
            let says = format!(
                "another table begins with the headings of row {}; it is read by itself",
                sample.number(layout.heading_row)
            );
            let help = "no action needed if correct; otherwise put the tables on sheets of their own";
            notes.push(Finding::new(catalogue::TABLE_BELOW, Place::whole(&table.origin), says, help));
        }
        tables.push(Opened {
            origin: table.origin.clone(),
            headings: layout.headings.clone(),
            heading_row: sample.number(layout.heading_row),
            first_row: layout.first_row,
            legend: table.legend.clone(),
            described: None,
            comma: table.comma,
            short_rows: true,
            notes,
            source: Some(Box::new(Pieces { read: rows.collect::<Vec<_>>().into_iter(), rest })),
            layout,
            sample,
        });
    }
    Ok(tables)
}

/// Rows that were read already, then the rest of their file.
struct Pieces {
    read: std::vec::IntoIter<Rows>,
    rest: Option<Box<dyn RowSource>>,
}

impl RowSource for Pieces {
    fn next(&mut self, rows: usize) -> Result<Option<Payload>> {
        if let Some(read) = self.read.find(|read| !read.is_empty()) {
            return Ok(Some(Payload::Rows(read)));
        }
        self.rest.as_mut().map_or(Ok(None), |rest| rest.next(rows))
    }
}

/// The tables of a sample, from the top down; one or none where their headings are the same.
fn blocks(table: &Opened, rules: &ReadingRules) -> Vec<Block> {
    let sample = &table.sample;
    let first = table.layout.heading_row;
    let mut found: Vec<Block> = Vec::new();
    for row in 0..sample.len() {
        if row == first || looks_like_headings(sample, row, rules) {
            let block = Block { titles: titles_above(sample, row), heading: row };
            // Two rows of headings are those of one table.
            let rows = |from: usize| (from..row).filter(|at| cells(sample, *at).len() > TITLE).count();
            match found.last_mut() {
                Some(last) if rows(last.heading + 1) < FEWEST_ROWS => {
                    if row == first {
                        last.heading = row;
                    }
                }
                _ => found.push(block),
            }
        }
    }
    let headings = |block: &Block| -> BTreeSet<String> {
        cells(sample, block.heading).iter().map(|(_, cell)| heading::squash(cell)).collect()
    };
    let mut known: Vec<BTreeSet<String>> = Vec::new();
    found.retain(|block| {
        let own = headings(block);
        let again = known.iter().any(|other| own.intersection(other).count() * 10 >= own.len() * 7);
        known.push(own);
        !again
    });
    let enough =
        |block: &Block| (block.heading + 1..sample.len()).filter(|at| cells(sample, *at).len() > TITLE).count();
    found.retain(|block| block.heading == first || enough(block) >= FEWEST_ROWS);
    found
}

/// The cells of a row that hold anything.
fn cells(rows: &Rows, row: usize) -> Vec<(usize, &str)> {
    rows.filled(row).collect()
}

/// Whether a row stands apart from what is above it, is of words that name things of wells, and has hardly a cell that
/// stands in its column again.
fn looks_like_headings(rows: &Rows, row: usize, rules: &ReadingRules) -> bool {
    let own = cells(rows, row);
    let apart = row == 0 || rows.number(row - 1) + 1 < rows.number(row) || cells(rows, row - 1).len() <= TITLE;
    let in_words = own.iter().all(|(column, cell)| rows.kind(row, *column) == CellKind::Text && plain(cell).is_none());
    if own.len() < FEWEST_HEADINGS || !apart || !in_words {
        return false;
    }
    let again = |(column, cell): &&(usize, &str)| {
        (0..rows.len()).any(|other| other != row && rows.cell(other, *column).trim().eq_ignore_ascii_case(cell))
    };
    own.iter().filter(again).count() <= 1 && layout::likeness(rows, row, rules) >= LEAST_LIKENESS
}

/// The first of the lines of words right above a row of headings; a blank line may stand between.
fn titles_above(rows: &Rows, heading: usize) -> usize {
    let mut first = heading;
    while first > 0 && cells(rows, first - 1).len() <= TITLE {
        let gap = rows.number(first - 1) + 1 < rows.number(first);
        if gap && first < heading {
            break;
        }
        first -= 1;
    }
    first
}
