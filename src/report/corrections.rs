//! Findings as work for people: the table of corrections that goes out blank and comes back filled in, and the book's sheet of
//! repairs.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::by_sheet::in_words_of_the_book;
use super::question::is_about_words;
use crate::document::cell::{Book, Cell, Paper, Role, Sheet, Value};
use crate::document::entry::{Allowed, Entry, Remark};
use crate::field::rules::{ADDED, CORRECTION_HEADINGS, Correction, NO_WELL};
use crate::field::{BOOK_TITLE, Field, Kind};
use crate::finding::{Finding, Severity, Words, catalogue};
use crate::place::{Column, Origin};
use crate::scenario::keys_as_words;

/// Place of the column that is filled in.
const RIGHT_VALUE: u16 = 12;
/// The column of the field.
const FIELD: usize = 6;

/// The column of what is typed.
const AS_TYPED: u16 = 8;
/// Columns that a person fills in in a row of their own: file, sheet, row, column, heading, what is typed, the right value, and who.
const OWN_COLUMNS: [usize; 8] = [1, 2, 3, 4, 7, 8, 12, 13];
/// Blank rows of a book's sheet, for cells that are not listed.
const SPARE_ROWS: usize = 12;

/// Rows of the table; a list with more to mend is mended in several rounds.
pub const MOST_ROWS: usize = 50_000;

/// Gathers findings, one row a cell, up to what a workbook can hold.
#[derive(Debug, Default)]
pub struct Worklist {
    rows: Vec<Vec<Finding>>,
    /// Cells with findings that found no room.
    left_out: u64,
}

impl Worklist {
    /// Takes findings in reading order. Notes are not work, but for what is assumed: a measured value is better.
    pub fn take(&mut self, findings: &[Finding]) {
        for finding in findings {
            // What a list reports of a site is not a mistake in the list.
            if finding.code.id().starts_with('S') {
                continue;
            }
            let assumed = [catalogue::ASSUMED, catalogue::DRAWN_FROM_LIST].contains(&finding.code);
            if finding.code.severity() == Severity::Note && !assumed {
                continue;
            }
            let room = self.rows.len() < MOST_ROWS;
            match self.rows.last_mut() {
                Some(row) if row.first().is_some_and(|first| first.place == finding.place) => row.push(finding.clone()),
                _ if room => self.rows.push(vec![finding.clone()]),
                _ => self.left_out += 1,
            }
        }
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// How many rows of the lists the lines of a book hold back, and how many lines there are.
    pub fn rows_open(&self) -> usize {
        let holds = |row: &&Vec<Finding>| row.iter().any(|finding| finding.code.severity() == Severity::Error);
        let rows = self.rows_of_book().into_iter().map(|(row, _)| row).filter(holds);
        rows.filter_map(|row| row.first().and_then(place_of_row)).collect::<BTreeSet<_>>().len()
    }

    /// How many rows there are on the sheet of a book, and how many of them hold a well back.
    pub fn open(&self) -> (usize, usize) {
        self.rows_of_book().iter().fold((0, 0), |(all, held_back), (row, _)| {
            let holds = row.iter().any(|finding| finding.code.severity() == Severity::Error);
            (all + 1, held_back + usize::from(holds))
        })
    }

    /// The rows of the lists that a book asks about.
    pub fn rows_asked(&self) -> BTreeSet<(Origin, u32)> {
        let first = |(row, _): (&Vec<Finding>, u64)| row.first().and_then(place_of_row);
        self.rows_of_book().into_iter().filter_map(first).collect()
    }

    /// The rows that a book asks about, each with how many more like it one answer settles: those are not asked one by one.
    fn rows_of_book(&self) -> Vec<(&Vec<Finding>, u64)> {
        let mut rows: Vec<(&Vec<Finding>, u64)> = Vec::new();
        let mut known: HashMap<(&Origin, u32, &str, &str), usize> = HashMap::new();
        for row in self.rows.iter().filter(|row| !row.iter().any(is_asked_elsewhere)) {
            let key = row.first().filter(|first| row.len() == 1 && is_settled_at_once(first)).map(|first| {
                let column = first.place.column.as_ref().map_or(0, |column| column.number);
                // One word has one meaning, whatever else is in its column.
                let word = if is_settled_by_column(first) { "" } else { first.seen.as_str() };
                (&first.place.origin, column, first.code.id(), word)
            });
            match key.and_then(|key| known.get(&key).copied()) {
                Some(at) => rows[at].1 += 1,
                None => {
                    known.extend(key.map(|key| (key, rows.len())));
                    rows.push((row, 0));
                }
            }
        }
        rows
    }

    /// Whether there is nothing to mend.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The table as a sheet of a campaign book: by problem, that of most water first, as `liters_of` says how much water a
    /// finding is about, and what is asked of one row together; what was answered before stands on top. `in_words` says what
    /// stands in a row.
    pub fn repairs(
        &self,
        field_of: &dyn Fn(&Finding) -> Option<Field>,
        liters_of: &dyn Fn(&Finding) -> f64,
        in_words: &BTreeMap<(Origin, u32), String>,
        answered: &[Correction],
    ) -> Sheet {
        let code = |row: &[Finding]| row.first().map_or("", |first| first.code.id());
        let severity = |row: &[Finding]| row.iter().map(|finding| finding.code.severity()).min();
        let liters = |row: &[Finding]| row.first().map_or(0.0, liters_of);
        let mut sums: BTreeMap<&str, f64> = BTreeMap::new();
        let rows = self.rows_of_book().into_iter();
        let mut order: Vec<(f64, &Vec<Finding>, u64)> = rows.map(|(row, more)| (liters(row), row, more)).collect();
        for (liters, row, _) in &order {
            *sums.entry(code(row)).or_default() += liters;
        }
        let of_problem = |row: &[Finding]| sums.get(code(row)).copied().unwrap_or_default();
        order.sort_by(|(one, a, _), (other, b, _)| {
            let problem = severity(a).cmp(&severity(b)).then(of_problem(b).total_cmp(&of_problem(a)));
            problem.then(code(a).cmp(code(b))).then(other.total_cmp(one))
        });
        let together = together(&order);
        let order = together.into_iter().map(|(row, more, lines)| {
            let mut row: Vec<Finding> = row.iter().map(in_words_of_the_book).collect();
            if let Some(first) = row.first_mut() {
                let said = place_of_row(first).and_then(|place| in_words.get(&place));
                if let Some(said) = said {
                    first.well = Some(said.as_str().into());
                }
                if lines > 1 {
                    let all = format!("{}; or {NO_WELL}, which settles all {lines} lines of this row", first.help);
                    first.help = all.into();
                }
            }
            if let (Some(first), 1..) = (row.first_mut(), more) {
                first.says = format!("{}; {more} more like it, which one answer settles", first.says).into();
            }
            row
        });
        let sorted = Self { rows: order.collect(), left_out: self.left_out };
        let mut book = sorted.book(field_of);
        let mut sheet = book.sheets.swap_remove(0);
        for row in sheet.rows.iter_mut().skip(sheet.layout.frozen_rows as usize) {
            if let Some(Cell { value: Value::Text(field), .. }) = row.get_mut(FIELD) {
                *field = keys_as_words(field);
            }
        }
        sheet.name = "Repairs";
        // Who keeps the list knows a well by more than its number.
        sheet.layout.widths = vec![8.0, 11.0, 7.0, 5.0, 7.5, 19.0, 9.0, 10.0, 10.0, 20.0, 19.0, 9.0, 11.0, 8.0];
        if let Some(cell) = sheet.rows.first_mut().and_then(|row| row.first_mut()) {
            cell.value = Value::text(format!("{BOOK_TITLE}repairs of single cells"));
        }
        if let Some(cell) = sheet.rows.get_mut(2).and_then(|row| row.first_mut()) {
            cell.value = Value::text(
                "The lists themselves stay as they are; by problem, that of most water first, and within it the wells of most \
                 water. A well whose water is not known counts as one of the middle, a whole column as all its wells. What is asked \
                 of one row stands together. A row that is no well at all (a total, a tank, a second entry): write not a well as the \
                 right value of any of its lines, and the row is left out.",
            );
        }
        if let Some(Cell { value: Value::Text(text), .. }) = sheet.rows.get_mut(1).and_then(|row| row.first_mut()) {
            *text += " For a cell that is not listed fill in a blank row at the end: File, Sheet, Row, Column and Right value.";
        }
        let at = sheet.layout.frozen_rows as usize;
        sheet.layout.remarks.push(Remark {
            row: sheet.layout.frozen_rows.saturating_sub(1),
            column: AS_TYPED,
            text: "What stood in the cell when this line was written: once the cell holds something else, the line is asked about. \
                   In a row of your own leave it blank, and the right value counts whatever stands there."
                .to_owned(),
        });
        for (place, correction) in answered.iter().enumerate() {
            sheet.rows.insert(at + place, answered_row(correction));
        }
        let moved = answered.len() as u32;
        sheet.layout.entries.iter_mut().for_each(|entry| {
            entry.first_row += moved;
            entry.last_row += moved;
        });
        for _ in 0..SPARE_ROWS {
            let role = |at: usize| if OWN_COLUMNS.contains(&at) { Role::Blank } else { Role::Body };
            sheet.push((0..CORRECTION_HEADINGS.len()).map(|at| Cell::new(Value::Empty, role(at))).collect());
        }
        sheet
    }

    /// The table to be filled in. `field_of` says which field a cell's column is read as.
    pub fn book(&self, field_of: &dyn Fn(&Finding) -> Option<Field>) -> Book {
        let mut sheet = Sheet::new("Corrections");
        sheet.title("Corrections: what is wrong with the lists, to be filled in");
        sheet.note(
            "Write the right value, as it should stand in the cell, into the column Right value, and leave blank what is \
             right as it is; (blank) empties a cell.",
        );
        sheet.note("Then give this file back with --corrections. The lists themselves stay as they are.");
        if self.left_out > 0 {
            sheet.wide(
                format!("{} further findings are not here: correct these first, and ask again.", self.left_out),
                Role::Flagged,
            );
        }
        sheet.heads(CORRECTION_HEADINGS);
        let first_row = sheet.layout.frozen_rows;
        for findings in &self.rows {
            let number = sheet.rows.len() as u32;
            if let Some(row) = row(findings, field_of) {
                let field = findings.first().and_then(field_of);
                if let Some(words) = field.and_then(words)
                    && findings.first().is_some_and(is_below_heading)
                {
                    sheet.layout.entries.push(entry(number, number, Allowed::Among(words)));
                }
                sheet.push(row);
            }
        }
        let text = "As it should stand in the cell; with its unit, if that is another than the column's.";
        sheet.layout.remarks.push(Remark {
            row: first_row.saturating_sub(1),
            column: RIGHT_VALUE,
            text: text.to_owned(),
        });
        // As wide as a page: what is printed beside it would have neither row nor well.
        sheet.layout.widths = vec![8.0, 12.0, 7.5, 5.0, 7.5, 7.5, 9.0, 13.0, 11.0, 23.0, 21.0, 9.5, 11.5, 8.0];
        Book {
            title: "Corrections".to_owned(),
            date: None,
            sheets: vec![sheet],
            names: Vec::new(),
            paper: Paper::default(),
        }
    }
}

/// The row that a finding is about.
fn place_of_row(finding: &Finding) -> Option<(Origin, u32)> {
    Some((finding.place.origin.clone(), finding.place.row?))
}

/// Lines with those of the same row behind the first of them. The first that can be filled in brings how many hold the row back,
/// the others nought: one answer may settle them all.
fn together<'a>(order: &[(f64, &'a Vec<Finding>, u64)]) -> Vec<(&'a Vec<Finding>, u64, usize)> {
    let row_of =
        |row: &[Finding]| row.first().filter(|first| first.well.is_some() || has_cell(first)).and_then(place_of_row);
    let mut groups: Vec<Vec<(&Vec<Finding>, u64)>> = Vec::new();
    let mut known: HashMap<(Origin, u32), usize> = HashMap::new();
    for (_, row, more) in order {
        let at = row_of(row).map(|place| *known.entry(place).or_insert(groups.len()));
        match at.and_then(|at| groups.get_mut(at)) {
            Some(group) => group.push((row, *more)),
            None => groups.push(vec![(row, *more)]),
        }
    }
    let is_open = |row: &[Finding]| row.iter().any(|finding| finding.code.severity() == Severity::Error);
    let counted = groups.into_iter().flat_map(|group| {
        let open = group.iter().filter(|(row, _)| is_open(row)).count();
        let first = group.iter().position(|(row, _)| row.first().is_some_and(has_cell));
        let lines = move |at: usize| if Some(at) == first { open } else { 0 };
        group.into_iter().enumerate().map(move |(at, (row, more))| (row, more, lines(at)))
    });
    counted.collect()
}

/// Whether a finding is about a cell, which a right value can be written for.
fn has_cell(finding: &Finding) -> bool {
    finding.place.row.is_some() && finding.place.column.is_some()
}

/// Whether other sheets of a book ask it: Columns of headings, Words of words, Names of names.
fn is_asked_elsewhere(finding: &Finding) -> bool {
    let of_heading = finding.place.row.is_none() && finding.well.is_none() && finding.place.column.is_some();
    of_heading
        || is_about_words(finding)
        || finding.well.is_none() && finding.code.id().starts_with('H') && is_settled_by_column(finding)
        || [catalogue::NAMES_NEARLY_ALIKE, catalogue::OPEN_COLUMN_FILLED].contains(&finding.code)
}

/// Whether one answer on the sheet Columns settles it for all cells of its column.
fn is_settled_by_column(finding: &Finding) -> bool {
    let help = finding.help.to_string();
    finding.place.column.is_some()
        && ["[inventory.columns]", "[inventory.units]"].iter().any(|table| help.contains(table))
}

/// Whether one answer on the sheets Columns or Words settles it wherever it is found.
fn is_settled_at_once(finding: &Finding) -> bool {
    is_settled_by_column(finding) || finding.help.to_string().contains("[inventory.words")
}

fn answered_row(correction: &Correction) -> Vec<Cell> {
    let column = Column { number: correction.column, heading: "".into() };
    let row = if correction.row == 0 { String::new() } else { correction.row.to_string() };
    let texts = [
        if correction.is_for_any { ADDED } else { "answered" },
        &correction.file,
        correction.sheet.as_deref().unwrap_or_default(),
        &row,
        &column.letters(),
        "",
        "",
        &correction.heading,
        &correction.typed,
        "",
        "",
        "",
        &correction.corrected,
        &correction.who,
    ];
    let role = |at: usize| if at >= usize::from(RIGHT_VALUE) { Role::Blank } else { Role::Body };
    texts.iter().enumerate().map(|(at, text)| Cell::new(Value::text(*text), role(at))).collect()
}

/// Findings about headings stand in rows that are not wells: they have no well.
fn is_below_heading(finding: &Finding) -> bool {
    finding.well.is_some()
}

fn words(field: Field) -> Option<Vec<String>> {
    match field.definition().kind {
        Kind::Choice(choices) => {
            Some(choices.iter().map(|(word, _)| keys_as_words(word)).chain([NO_WELL.to_owned()]).collect())
        }
        Kind::Flag => Some(["yes", "no", NO_WELL].map(str::to_owned).to_vec()),
        Kind::Text | Kind::Quantity(_) => None,
    }
}

fn entry(first_row: u32, last_row: u32, allowed: Allowed) -> Entry {
    Entry {
        column: RIGHT_VALUE,
        first_row,
        last_row,
        allowed,
        title: "Right value".to_owned(),
        help: "As it should stand in the cell.".to_owned(),
        refusal: "This is none of the list. Keep it if the row was moved here, or if it is to be (blank).".to_owned(),
    }
}

fn row(findings: &[Finding], field_of: &dyn Fn(&Finding) -> Option<Field>) -> Option<Vec<Cell>> {
    let first = findings.first()?;
    let place = &first.place;
    let worst = findings.iter().map(|finding| finding.code.severity()).min()?;
    let joined = |part: fn(&Finding) -> &Words| {
        let mut parts: Vec<String> =
            findings.iter().map(part).filter(|part| !part.is_empty()).map(Words::to_string).collect();
        parts.dedup();
        parts.join("; ")
    };
    let fillable = place.row.is_some() && place.column.is_some();
    let blank = || Cell::new(Value::Empty, if fillable { Role::Blank } else { Role::Body });
    Some(vec![
        Cell::text(worst.word()).with_role(if worst == Severity::Error { Role::Flagged } else { Role::Body }),
        Cell::text(&*place.origin.file),
        Cell::text(place.origin.sheet.as_deref().unwrap_or_default()),
        place.row.map_or(Cell::empty(), |row| Cell::text(row.to_string())),
        Cell::text(place.column.as_ref().map(|column| column.letters()).unwrap_or_default()),
        Cell::text(first.well.as_deref().unwrap_or_default()),
        Cell::text(field_of(first).map_or("", Field::name)),
        Cell::text(place.column.as_ref().map_or("", |column| &column.heading)),
        Cell::text(first.seen.as_str()),
        Cell::text(joined(|finding| &finding.says)),
        Cell::text(joined(|finding| &finding.help)),
        Cell::text(findings.iter().find_map(|finding| finding.suggested.as_deref()).unwrap_or_default()),
        blank(),
        blank(),
    ])
}
