//! The lists of codes on the sheets of a file, found row by row: where they may stand, and under which title.

mod assignment;
mod code_table;
mod columns;

use super::definitions::{self, Line};
use super::{Legend, Page, code_key};
use assignment::{Found, MOST_CELLS, assigned};
pub use code_table::codes_of_table;
use code_table::{TableOfCodes, folded, is_meaning};
use columns::{Column, columns_for, in_use, named};

/// Headings of a column beside the table that holds codes.
const BESIDE: [&str; 9] = ["key", "keys", "code", "codes", "legend", "abbreviations", "clave", "leyenda", "legende"];

/// Letters of a code that stands in a cell of its own, with no sign after it.
const SHORT: usize = 4;

struct Collector<'a> {
    pages: Vec<Page<'a>>,
    columns: Vec<Column>,
    lists: Vec<Found>,
}

impl Collector<'_> {
    fn columns_for(&self, page: usize) -> Vec<&Column> {
        columns_for(&self.pages, &self.columns, page)
    }

    /// Adds codes to the list of this title on this page, or begins one.
    fn add(&mut self, page: usize, row: u32, title: &str, line: Line) {
        let same = |found: &&mut Found| found.page == page && found.title == title && found.marked == line.marked;
        if let Some(found) = self.lists.last_mut().filter(same) {
            found.codes.extend(line.codes);
            found.rows.insert(row);
            return;
        }
        self.lists.push(Found {
            page,
            row,
            title: title.to_owned(),
            codes: line.codes,
            marked: line.marked,
            rows: [row].into(),
        });
    }

    fn page(&mut self, page: usize) {
        let Page { rows, heading_row, .. } = self.pages[page];
        let most = heading_row.map_or(usize::MAX, |row| rows.filled(row).count().saturating_sub(1).min(MOST_CELLS));
        // What stands below the last well is the foot.
        let last = (0..rows.len()).rev().find(|row| rows.filled(*row).count() > most);
        // What names the column, and where it stands.
        let mut title = (String::new(), 0);
        let mut table: Option<TableOfCodes> = None;
        let mut before = 0;
        for row in 0..rows.len() {
            let number = rows.number(row);
            let cells: Vec<(usize, &str)> = rows.filled(row).collect();
            // A blank row ends what went before it.
            if before + 1 != number {
                title.0.clear();
            }
            before = number;
            if Some(row) == heading_row {
                self.in_headings(page, number, &cells);
            }
            if Some(row) == heading_row || cells.len() > most {
                self.beside(page, row, &cells);
                table = None;
                title.0.clear();
                continue;
            }
            if let Some(found) = TableOfCodes::below(rows, row) {
                table = Some(found);
                continue;
            }
            let outside = heading_row.is_none_or(|heading_row| row < heading_row) || last.is_none_or(|last| row > last);
            self.row(page, number, &cells, &mut title, table, outside);
        }
    }

    /// Codes that a heading explains itself: `Type (R=drilled, D=dug)`, `Well: 1 = drilled, 2 = dug`.
    fn in_headings(&mut self, page: usize, number: u32, headings: &[(usize, &str)]) {
        const LEAST: usize = 2;
        for (_, heading) in headings {
            let bracket = heading.split_once(['(', '[']).map(|(_, inner)| inner.trim_end_matches([')', ']']));
            let said = [bracket, Some(*heading)].into_iter().flatten().find_map(definitions::line);
            let Some(line) = said.filter(|line| line.marked && line.codes.len() >= LEAST) else { continue };
            let own = |column: &&Column| column.page == page && column.heading == *heading;
            if in_use(&line, &self.columns.iter().filter(own).collect::<Vec<_>>()) {
                let title = (*heading).to_owned();
                self.lists.push(Found {
                    page,
                    row: number,
                    title,
                    codes: line.codes,
                    marked: true,
                    ..Found::default()
                });
            }
        }
    }

    /// Codes that a line of words outside the table tells of one of its columns, which it names.
    fn told(&mut self, page: usize) {
        const MOST_CODES: usize = 8;
        let Page { rows, heading_row, .. } = self.pages[page];
        let Some(heading_row) = heading_row else { return };
        let mut found = Vec::new();
        for row in (0..rows.len()).filter(|row| *row != heading_row) {
            let cells: Vec<(usize, &str)> = rows.filled(row).collect();
            let notes = cells.iter().filter(|(_, text)| cells.len() <= 2 && text.len() >= 12 && text.contains(' '));
            for (_, text) in notes {
                let few = |column: &&Column| {
                    let codes = column.values.keys().filter(|value| value.len() <= SHORT).count();
                    column.page == page && (1..=MOST_CODES).contains(&codes) && column.values.len() <= MOST_CODES
                };
                for column in self.columns.iter().filter(few) {
                    let is_used = |code: &str| column.values.contains_key(&code_key(code));
                    found.extend(
                        definitions::told_of(&column.heading, text, is_used)
                            .map(|line| (rows.number(row), column.heading.clone(), line)),
                    );
                }
            }
        }
        for (row, heading, line) in found {
            let known = |list: &Found| {
                line.codes.iter().all(|(code, _)| list.codes.iter().any(|(other, _)| code_key(other) == code_key(code)))
            };
            if !self.lists.iter().any(|list| list.page == page && known(list)) {
                self.add(page, row, &heading, line);
            }
        }
    }

    /// One row that is not a well: a title, codes, or both.
    fn row(
        &mut self,
        page: usize,
        number: u32,
        cells: &[(usize, &str)],
        (title, titled_at): &mut (String, usize),
        table: Option<TableOfCodes>,
        outside: bool,
    ) {
        let cell = |at: usize| cells.iter().find(|(column, _)| *column == at).map(|(_, text)| *text);
        if let Some(table) = table
            && let Some(meaning) = cell(table.meaning)
        {
            if let Some(field) = table.field.and_then(cell) {
                field.clone_into(title);
            }
            let code = table.code.and_then(cell).filter(|code| definitions::is_code(code));
            if let Some(code) = code {
                let line = Line { codes: vec![(code.to_owned(), meaning.to_owned())], marked: true, ..Line::default() };
                let title = title.clone();
                self.add(page, number, &title, line);
            } else if let Some(line) =
                table.code.and_then(cell).and_then(|codes| definitions::side_by_side(codes, meaning))
            {
                let title = title.clone();
                self.add(page, number, &title, line);
            } else if let Some(line) = definitions::among_words(meaning) {
                let title = title.clone();
                self.add(page, number, &title, line);
            }
            return;
        }
        // Codes where the title stood belong to it no longer.
        if cells.first().is_some_and(|(at, text)| at == titled_at && definitions::line(text).is_some()) {
            title.clear();
        }
        // A cell that only names a column: `Kind:`.
        let mut rest = cells;
        if let [(at, first), after @ ..] = cells
            && (first.ends_with(':')
                || !named(first, &self.columns_for(page)).is_empty() && definitions::line(first).is_none())
        {
            first.trim_end_matches(':').trim().clone_into(title);
            *titled_at = *at;
            rest = after;
        }
        for text in rest.iter().flat_map(|(_, text)| definitions::lists(text)) {
            let Some(line) = definitions::line(text) else { continue };
            // Without a sure sign these could be any words: only outside the table, and only codes that somebody used.
            if line.marked || outside && in_use(&line, &self.columns_for(page)) {
                let title = if line.title.is_empty() { title.clone() } else { line.title.clone() };
                self.add(page, number, &title, line);
            }
        }
        // A code and its meaning in two cells, without any sign.
        if let [(_, code), (_, meaning)] = rest
            && outside
            && definitions::is_code(code)
            && definitions::line(meaning).is_none_or(|line| !line.marked)
            && meaning.starts_with(char::is_alphabetic)
        {
            let line = Line { codes: vec![((*code).to_owned(), (*meaning).to_owned())], ..Line::default() };
            if in_use(&line, &self.columns_for(page)) || self.pages[page].heading_row.is_none() {
                let title = title.clone();
                self.add(page, number, &title, line);
            }
        }
    }

    /// Codes beside the rows of the table: in columns without a heading, or under one that says so.
    fn beside(&mut self, page: usize, row: usize, cells: &[(usize, &str)]) {
        let Page { rows, heading_row, .. } = self.pages[page];
        let Some(heading_row) = heading_row.filter(|heading_row| row > *heading_row) else { return };
        for (at, text) in cells {
            let heading = folded(rows.cell(heading_row, *at));
            let is_key = BESIDE.contains(&heading.as_str());
            if !heading.is_empty() && !is_key {
                continue;
            }
            if let Some(line) = definitions::line(text).filter(|line| line.marked) {
                let title = line.title.clone();
                self.add(page, rows.number(row), &title, line);
            } else if is_key
                && definitions::is_code(text)
                && text.chars().count() <= SHORT
                && let Some((_, meaning)) = cells.iter().find(|(other, _)| *other == at + 1)
                && is_meaning(rows.cell(heading_row, at + 1))
            {
                let line =
                    Line { codes: vec![((*text).to_owned(), (*meaning).to_owned())], marked: true, ..Line::default() };
                self.add(page, rows.number(row), "", line);
            }
        }
    }
}

/// The lists of codes of a file, from the sheets of it.
pub(super) fn collect(pages: &[Page<'_>]) -> Legend {
    let pages: Vec<Page<'_>> = pages
        .iter()
        .map(|page| {
            // A sheet of codes has headings too, but they head no wells.
            let wells = |row: &usize| {
                // Below the head of a list of codes, `TYPE 01 rotary` is no row of headings either.
                page.rows.filled(*row).count() > 2
                    && (0..=*row).all(|above| TableOfCodes::below(page.rows, above).is_none())
            };
            Page { heading_row: page.heading_row.filter(wells), ..*page }
        })
        .collect();
    let mut collector = Collector { columns: columns::of_pages(&pages), pages, lists: Vec::new() };
    for page in 0..collector.pages.len() {
        collector.page(page);
        collector.told(page);
    }
    assigned(&collector.pages, &collector.columns, &collector.lists)
}
