//! Cells of a workbook, one after another, into rows: blank cells laid out, merged ones filled in, dates as ISO text.

use std::collections::BTreeMap;

use calamine::{Data, DataRef, Dimensions, ExcelDateTime};

use super::super::rows::{BATCH_BYTES, CellKind, Damage, Rows, is_too_long};

/// More merged cells than this are somebody's joke.
const MOST_MERGED: usize = 2000;

/// A cell beyond this column is not read: no inventory is so wide, and a hostile file may claim it is.
pub(super) const MOST_COLUMNS: u32 = 4096;

/// A run of merged cells: column, first row, last row, counted as the library does.
pub(super) type Tall = (u32, u32, u32);

/// The merged regions that are more than one row high; their value counts for each row.
pub(super) fn tall(regions: Vec<Dimensions>) -> Vec<Tall> {
    regions
        .into_iter()
        .filter(|region| region.end.0 > region.start.0)
        .take(MOST_MERGED)
        .map(|region| (region.start.1, region.start.0, region.end.0))
        .collect()
}

/// One cell's content, whatever the library calls it.
#[derive(Clone)]
pub(super) enum Content<'a> {
    Empty,
    Text(&'a str),
    Number(f64),
    /// A number that is shown as a percentage.
    Percent(f64),
    Flag(bool),
    Date(ExcelDateTime),
    Iso(&'a str),
    Error(String),
    /// A formula without a stored result.
    Unsolved(&'a str),
}

impl<'a> From<&'a DataRef<'_>> for Content<'a> {
    fn from(data: &'a DataRef<'_>) -> Self {
        match data {
            DataRef::Int(value) => Self::Number(*value as f64),
            DataRef::Float(value) => Self::Number(*value),
            DataRef::String(text) => Self::Text(text),
            DataRef::SharedString(text) => Self::Text(text),
            DataRef::Bool(value) => Self::Flag(*value),
            DataRef::DateTime(value) => Self::Date(*value),
            DataRef::DateTimeIso(text) | DataRef::DurationIso(text) => Self::Iso(text),
            DataRef::Error(error) => Self::Error(error.to_string()),
            DataRef::Empty => Self::Empty,
        }
    }
}

impl<'a> From<&'a Data> for Content<'a> {
    fn from(data: &'a Data) -> Self {
        match data {
            Data::Int(value) => Self::Number(*value as f64),
            Data::Float(value) => Self::Number(*value),
            Data::String(text) => Self::Text(text),
            Data::Bool(value) => Self::Flag(*value),
            Data::DateTime(value) => Self::Date(*value),
            Data::DateTimeIso(text) | Data::DurationIso(text) => Self::Iso(text),
            Data::Error(error) => Self::Error(error.to_string()),
            Data::Empty => Self::Empty,
        }
    }
}

/// Takes cells in row order; says whether it wants more.
pub(super) trait Cells {
    fn take(&mut self, row: u32, column: u32, content: Content<'_>) -> bool;

    /// Tells of merged cells before the first cell comes.
    fn merged(&mut self, _regions: Vec<Tall>) {}
}

/// Column, first and last row number, and the value once it has come.
type Merged = (usize, u32, u32, Option<(String, CellKind)>);

/// Builds runs of rows from cells.
pub(super) struct Builder<F: FnMut(Rows) -> bool> {
    /// Rows up to this number are left out.
    after: u32,
    limit: usize,
    rows: Rows,
    current: Option<u32>,
    width: usize,
    emit: F,
    done: bool,
    /// Merged cells below the heading.
    merged: Vec<Merged>,
    /// First rows of all merged cells.
    pub(super) all_merged: Vec<u32>,
    /// The cells of the current row, where there are merged cells to be filled in between them.
    pending: BTreeMap<usize, (String, CellKind)>,
}

impl<F: FnMut(Rows) -> bool> Builder<F> {
    pub(super) fn new(after: u32, limit: usize, emit: F) -> Self {
        Self {
            after,
            limit,
            rows: Rows::default(),
            current: None,
            width: 0,
            emit,
            done: false,
            merged: Vec::new(),
            all_merged: Vec::new(),
            pending: BTreeMap::new(),
        }
    }

    /// Lays out a row that waited for merged cells.
    fn lay_out(&mut self, number: u32) {
        let mut cells = std::mem::take(&mut self.pending);
        for (column, first, last, value) in &mut self.merged {
            if *first == number {
                *value = cells.get(column).cloned();
            } else if (*first..=*last).contains(&number)
                && let Some(value) = value
            {
                cells.entry(*column).or_insert_with(|| value.clone());
            }
        }
        for (column, (text, kind)) in cells {
            while self.width < column {
                self.rows.push_typed("", CellKind::Text);
                self.width += 1;
            }
            self.rows.push_typed(&text, kind);
            self.width += 1;
        }
    }

    fn end_row(&mut self) {
        if let Some(number) = self.current.take() {
            if !self.merged.is_empty() {
                self.lay_out(number);
            }
            self.rows.drop_blank_row(None);
            if self.rows.len() >= self.limit || self.rows.bytes() >= BATCH_BYTES {
                let rows = std::mem::take(&mut self.rows);
                self.done = !(self.emit)(rows);
            }
        }
    }

    pub(super) fn finish(&mut self) {
        self.end_row();
        if !self.done && !self.rows.is_empty() {
            let rows = std::mem::take(&mut self.rows);
            self.done = !(self.emit)(rows);
        }
    }
}

impl<F: FnMut(Rows) -> bool> Cells for Builder<F> {
    fn take(&mut self, row: u32, column: u32, content: Content<'_>) -> bool {
        let number = row.saturating_add(1);
        if self.current != Some(number) {
            self.end_row();
            if self.done {
                return false;
            }
        }
        if number <= self.after || matches!(content, Content::Empty) || column >= MOST_COLUMNS {
            return true;
        }
        let column = column as usize;
        if self.current.is_none() {
            self.rows.begin_row(number);
            self.current = Some(number);
            self.width = 0;
        }
        let made;
        let (text, kind) = match &content {
            Content::Empty => return true,
            Content::Text(text) => (*text, CellKind::Text),
            Content::Number(value) => {
                made = value.to_string();
                (made.as_str(), CellKind::Number)
            }
            Content::Percent(value) => {
                made = value.to_string();
                (made.as_str(), CellKind::Percent)
            }
            Content::Unsolved(formula) => {
                made = format!("={formula}");
                (made.as_str(), CellKind::Unsolved)
            }
            Content::Flag(value) => (if *value { "yes" } else { "no" }, CellKind::Text),
            Content::Date(value) => {
                made = iso(*value);
                (made.as_str(), CellKind::Date)
            }
            Content::Iso(text) => (*text, CellKind::Date),
            Content::Error(text) => (text.as_str(), CellKind::Error),
        };
        if !self.merged.is_empty() {
            let long = is_too_long(text);
            if long {
                self.rows.damage(Damage::TooLong);
            }
            let text = if long { "" } else { text };
            self.pending.entry(column).or_insert_with(|| (text.to_owned(), kind));
            return true;
        }
        if column < self.width {
            return true; // The same cell twice: the first counts.
        }
        while self.width < column {
            self.rows.push_typed("", CellKind::Text);
            self.width += 1;
        }
        self.rows.push_typed(text, kind);
        self.width += 1;
        true
    }

    fn merged(&mut self, regions: Vec<Tall>) {
        self.all_merged = regions.iter().map(|(_, first, _)| first + 1).collect();
        if self.after > 0 {
            let below = regions.into_iter().filter(|(_, first, _)| *first >= self.after);
            self.merged = below.map(|(column, first, last)| (column as usize, first + 1, last + 1, None)).collect();
        }
    }
}

/// A spreadsheet's date as ISO text, without the time at midnight.
fn iso(value: ExcelDateTime) -> String {
    if value.is_duration() || !(0.0..3_000_000.0).contains(&value.as_f64()) {
        return value.as_f64().to_string();
    }
    let (year, month, day, hour, minute, second, _) = value.to_ymd_hms_milli();
    if (hour, minute, second) == (0, 0, 0) {
        format!("{year:04}-{month:02}-{day:02}")
    } else {
        format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}:{second:02}")
    }
}
