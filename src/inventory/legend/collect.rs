//! From the sheets of a file to its lists of codes: where they may stand, and which column each belongs to.

use std::collections::{BTreeMap, BTreeSet};

use super::super::choices;
use super::super::rows::Rows;
use super::definitions::{self, Line};
use super::{Explained, Legend, Page, code_key};
use crate::field::squash;

/// Words over a column of codes, and over that of their meanings.
const CODE: [&str; 12] = [
    "code",
    "codes",
    "key",
    "abbreviation",
    "abbrev",
    "symbol",
    "value",
    "codigo",
    "clave",
    "abreviatura",
    "sigle",
    "sigla",
];
const MEANING: [&str; 15] = [
    "meaning",
    "means",
    "description",
    "explanation",
    "definition",
    "text",
    "label",
    "stands for",
    "significado",
    "descripcion",
    "signification",
    "libelle",
    "descricao",
    "explicacao",
    "what it means",
];
const FIELD: [&str; 15] = [
    "field",
    "column",
    "variable",
    "heading",
    "item",
    "list",
    "list name",
    "domain",
    "campo",
    "columna",
    "champ",
    "colonne",
    "coluna",
    "lista",
    "liste",
];

/// Words over what is said of a field in a table that names fields without codes of their own.
const SAYS: [&str; 12] = [
    "how to fill it",
    "how to fill",
    "how to fill in",
    "instructions",
    "notes",
    "note",
    "remarks",
    "comment",
    "comments",
    "details",
    "remarques",
    "observaciones",
];

/// Titles that name no column.
const TITLES: [&str; 14] = [
    "key",
    "keys",
    "code",
    "codes",
    "legend",
    "abbreviations",
    "notes",
    "note",
    "lookup",
    "clave",
    "leyenda",
    "legende",
    "legenda",
    "explanation",
];

/// Headings of a column beside the table that holds codes.
const BESIDE: [&str; 9] = ["key", "keys", "code", "codes", "legend", "abbreviations", "clave", "leyenda", "legende"];

/// Letters of a code that stands in a cell of its own, with no sign after it.
const SHORT: usize = 4;

/// Different values of a column that may be codes; a column with more is measured or named.
const MOST_VALUES: usize = 60;

/// Cells of a row that may hold codes below or above a table; a well has more.
const MOST_CELLS: usize = 3;

/// One code list before it is known whose it is.
#[derive(Debug, Default)]
struct Found {
    page: usize,
    row: u32,
    title: String,
    codes: Vec<(String, String)>,
    /// Whether signs or a heading mark it as a list of codes; else the codes must be in use.
    marked: bool,
    rows: BTreeSet<u32>,
}

/// A column of a table: its heading, its sheet, and how often each value stands in it.
struct Column {
    heading: String,
    page: usize,
    values: BTreeMap<String, usize>,
}

/// Words of a text without accents, joined; what the tables of words above are compared with.
fn folded(text: &str) -> String {
    let phrase = choices::plain_words(text);
    phrase.join(" ")
}

fn filled(rows: &Rows, row: usize) -> Vec<(usize, &str)> {
    (0..rows.width(row)).map(|at| (at, rows.cell(row, at).trim())).filter(|(_, text)| !text.is_empty()).collect()
}

fn columns(pages: &[Page<'_>]) -> Vec<Column> {
    let mut found: Vec<Column> = Vec::new();
    for (number, page) in pages.iter().enumerate() {
        let Some(heading_row) = page.heading_row else { continue };
        for (at, heading) in filled(page.rows, heading_row) {
            let mut values = BTreeMap::new();
            for row in heading_row + 1..page.rows.len() {
                let text = page.rows.cell(row, at).trim();
                if !text.is_empty() && values.len() <= MOST_VALUES * 4 {
                    *values.entry(code_key(text)).or_default() += 1;
                }
            }
            found.push(Column { heading: heading.to_owned(), page: number, values });
        }
    }
    found
}

/// The headings that a title names: by the whole heading, by each of its words, or by a shortened one.
fn named(title: &str, columns: &[&Column]) -> Vec<String> {
    let wanted = squash(title);
    if wanted.is_empty() || TITLES.contains(&folded(title).as_str()) {
        return Vec::new();
    }
    // Sheets may have the same heading.
    let mut headings: Vec<(String, &str)> = Vec::new();
    for column in columns {
        let plain = squash(&column.heading);
        if !headings.iter().any(|(known, _)| *known == plain) {
            headings.push((plain, &column.heading));
        }
    }
    let pick = |fits: &dyn Fn(&str) -> bool| -> Vec<String> {
        headings.iter().filter(|(plain, _)| fits(plain)).map(|(_, heading)| (*heading).to_owned()).collect()
    };
    let exact = pick(&|heading| heading == wanted);
    if !exact.is_empty() {
        return exact;
    }
    // `LAT LON` of a table of fields names two.
    let words: Vec<String> = title.split([' ', ',', '/', '&']).map(squash).filter(|word| word.len() > 1).collect();
    let each = pick(&|heading| words.iter().any(|word| word == heading));
    if words.len() > 1 && each.len() == words.len() {
        return each;
    }
    if wanted.chars().count() < 3 {
        return Vec::new();
    }
    let near = pick(&|heading| heading.chars().count() >= 3 && (heading.contains(&wanted) || wanted.contains(heading)));
    if near.len() == 1 { near } else { Vec::new() }
}

/// The column whose cells are these codes: by how many different ones stand in it, then by how many cells they are.
fn used_in(codes: &[(String, String)], columns: &[&Column]) -> Option<String> {
    let keys: BTreeSet<String> = codes.iter().map(|(code, _)| code_key(code)).collect();
    let score = |column: &&Column| {
        let used: Vec<&usize> = keys.iter().filter_map(|key| column.values.get(key)).collect();
        let cells: usize = column.values.values().sum();
        // Codes are most of what stands in their column: a 1 among many depths is a depth.
        let most = used.iter().copied().sum::<usize>() * 2 >= cells;
        (used.len().min(if most { usize::MAX } else { 0 }), used.into_iter().sum::<usize>())
    };
    let best = (0..columns.len())
        .filter(|at| columns[*at].values.len() <= MOST_VALUES)
        .max_by_key(|at| (score(&columns[*at]), std::cmp::Reverse(*at)))?;
    let (different, _) = score(&columns[best]);
    (different >= 2 || different == keys.len() && different > 0).then(|| columns[best].heading.clone())
}

/// Whether every code of a line without a sure sign stands as a whole cell in some column of few, repeated values.
fn in_use(line: &Line, columns: &[&Column]) -> bool {
    let coded =
        |column: &&&Column| column.values.len() <= MOST_VALUES && column.values.values().any(|count| *count > 1);
    let used = |code: &str| columns.iter().filter(coded).any(|column| column.values.contains_key(&code_key(code)));
    // Codes that nobody used may stand among those that are.
    let many = line.codes.iter().filter(|(code, _)| used(code)).count();
    many * 2 >= line.codes.len() && many > 0
}

/// The places of the columns of a table of codes, from its row of headings.
#[derive(Debug, Clone, Copy)]
struct TableOfCodes {
    field: Option<usize>,
    /// Where the codes stand; nothing in a table of fields, whose codes stand among the words about each.
    code: Option<usize>,
    meaning: usize,
}

impl TableOfCodes {
    fn at(cells: &[(usize, &str)]) -> Option<Self> {
        let find =
            |words: &[&str]| cells.iter().find(|(_, text)| words.contains(&folded(text).as_str())).map(|(at, _)| *at);
        let field = find(&FIELD);
        if let (Some(code), Some(meaning)) = (find(&CODE), find(&MEANING)) {
            return Some(Self { field, code: Some(code), meaning });
        }
        let meaning = find(&SAYS).or_else(|| find(&MEANING)).filter(|_| field.is_some() && cells.len() >= 3)?;
        Some(Self { field, code: None, meaning })
    }
}

struct Collector<'a> {
    pages: Vec<Page<'a>>,
    columns: Vec<Column>,
    lists: Vec<Found>,
}

impl Collector<'_> {
    /// The columns that a list on this sheet may explain: those of the table it stands beside, else all.
    fn columns_for(&self, page: usize) -> Vec<&Column> {
        let beside = self.pages[page].heading_row.is_some();
        self.columns.iter().filter(|column| !beside || column.page == page).collect()
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
        let most = heading_row.map_or(usize::MAX, |row| filled(rows, row).len().saturating_sub(1).min(MOST_CELLS));
        // What stands below the last well is the foot.
        let last = (0..rows.len()).rev().find(|row| filled(rows, *row).len() > most);
        // What names the column, and where it stands.
        let mut title = (String::new(), 0);
        let mut table: Option<TableOfCodes> = None;
        let mut before = 0;
        for row in 0..rows.len() {
            let number = rows.number(row);
            let cells = filled(rows, row);
            // A blank row ends what went before it.
            if before + 1 != number {
                title.0.clear();
            }
            before = number;
            if Some(row) == heading_row || cells.len() > most {
                self.beside(page, row, &cells);
                table = None;
                title.0.clear();
                continue;
            }
            if let Some(found) = TableOfCodes::at(&cells) {
                table = Some(found);
                continue;
            }
            let outside = heading_row.is_none_or(|heading_row| row < heading_row) || last.is_none_or(|last| row > last);
            self.row(page, number, &cells, &mut title, table, outside);
        }
    }

    /// Codes that a line of words outside the table tells of one of its columns, which it names.
    fn told(&mut self, page: usize) {
        const MOST_CODES: usize = 8;
        let Page { rows, heading_row, .. } = self.pages[page];
        let Some(heading_row) = heading_row else { return };
        let mut found = Vec::new();
        for row in (0..rows.len()).filter(|row| *row != heading_row) {
            let cells = filled(rows, row);
            let notes = cells.iter().filter(|(_, text)| cells.len() <= 2 && text.len() >= 12 && text.contains(' '));
            for (_, text) in notes {
                let few = |column: &&Column| {
                    let codes = column.values.keys().filter(|value| value.len() <= SHORT).count();
                    column.page == page && (2..=MOST_CODES).contains(&codes) && column.values.len() <= MOST_CODES
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

    /// Gives every list its column.
    fn finish(self) -> Legend {
        let mut legend = Legend::default();
        for found in &self.lists {
            let Page { sheet, rows, heading_row } = self.pages[found.page];
            let columns = self.columns_for(found.page);
            let mut targets = named(&found.title, &columns);
            let (nothing, meant): (Vec<_>, Vec<_>) =
                found.codes.iter().cloned().partition(|(_, meaning)| choices::says_nothing(meaning));
            // `Level: G = from the ground, R = from the rim`: codes that stand in another column than the one they speak of.
            let held = |(code, _): &&(String, String)| {
                let in_target = |column: &&&Column| targets.contains(&column.heading);
                columns.iter().filter(in_target).any(|column| column.values.contains_key(&code_key(code)))
            };
            let strange: Vec<(String, String)> = meant.iter().filter(|code| !held(code)).cloned().collect();
            let most = strange.len() > 1 && 2 * strange.len() >= meant.len();
            let elsewhere = used_in(&strange, &columns).filter(|_| !targets.is_empty() && most);
            if let Some(heading) = elsewhere.filter(|heading| !targets.contains(heading)) {
                targets = vec![heading];
            }
            let mut common = Vec::new();
            if targets.is_empty() {
                targets.extend(used_in(&meant, &columns));
                if !found.marked && targets.is_empty() {
                    continue; // Two cells beside each other, and no column has such codes.
                }
                common = nothing;
            } else if !found.marked {
                // `Kind: DR drilled, DG dug; 998 = not measured`: a code that its column never holds is one of the others.
                let held = |code: &str| {
                    let in_target = |column: &&&Column| targets.contains(&column.heading);
                    columns.iter().filter(in_target).any(|column| column.values.contains_key(&code_key(code)))
                };
                common = nothing.into_iter().filter(|(code, _)| !held(code)).collect();
            }
            // Wells with a code beside them stay wells.
            let alone = |number: &&u32| {
                let row = (0..rows.len()).find(|row| rows.number(*row) == **number);
                heading_row.is_none() || row.is_some_and(|row| filled(rows, row).len() <= MOST_CELLS)
            };
            legend.rows.extend(found.rows.iter().filter(alone).map(|row| (sheet.to_owned(), *row)));
            let scope = heading_row.map(|_| sheet.to_owned());
            let own: Vec<(String, String)> =
                found.codes.iter().filter(|code| !common.contains(code)).cloned().collect();
            for heading in targets.iter().filter(|_| !own.is_empty()) {
                let codes = legend.columns.entry((scope.clone(), squash(heading))).or_default();
                for (code, meaning) in &own {
                    codes.entry(code_key(code)).or_insert_with(|| meaning.clone());
                }
                legend.say(sheet, found.row, Some(heading), own.clone());
            }
            if !common.is_empty() {
                let codes = legend.everywhere.entry(scope).or_default();
                for (code, meaning) in &common {
                    codes.entry(code_key(code)).or_insert_with(|| meaning.clone());
                }
                legend.say(sheet, found.row, None, common);
            }
        }
        let pages = &self.pages;
        for page in pages.iter().filter(|page| !page.rows.is_empty()) {
            let on = legend.rows.iter().filter(|(sheet, _)| sheet == page.sheet).count();
            // A title, a row of headings and a few lines of words may stand among the codes.
            if on >= 2 && on * 2 >= page.rows.len() && !page.sheet.is_empty() {
                legend.sheets.insert(page.sheet.to_owned());
            }
        }
        legend
    }
}

impl Legend {
    fn say(&mut self, sheet: &str, row: u32, heading: Option<&str>, codes: Vec<(String, String)>) {
        let heading = heading.map(str::to_owned);
        let same = |said: &&mut Explained| said.sheet == sheet && said.heading == heading;
        match self.explained.iter_mut().find(same) {
            Some(said) => said.codes.extend(codes),
            None => self.explained.push(Explained { sheet: sheet.to_owned(), row, heading, codes }),
        }
    }
}

/// Whether the heading over a meaning is blank, or says that it is one.
fn is_meaning(heading: &str) -> bool {
    let heading = folded(heading);
    heading.is_empty() || MEANING.contains(&heading.as_str())
}

/// The column of codes of a sheet that lists codes and meanings under headings of its own, and the row of these.
pub fn codes_of_table(rows: &Rows) -> Option<(usize, usize)> {
    (0..rows.len().min(10)).find_map(|row| Some((row, TableOfCodes::at(&filled(rows, row))?.code?)))
}

pub(super) fn collect(pages: &[Page<'_>]) -> Legend {
    let pages: Vec<Page<'_>> = pages
        .iter()
        .map(|page| {
            // A sheet of codes has headings too, but they head no wells.
            let wells = |row: &usize| {
                let cells = filled(page.rows, *row);
                // Below the head of a list of codes, `TYPE 01 rotary` is no row of headings either.
                cells.len() > 2 && (0..=*row).all(|above| TableOfCodes::at(&filled(page.rows, above)).is_none())
            };
            Page { heading_row: page.heading_row.filter(wells), ..*page }
        })
        .collect();
    let mut collector = Collector { columns: columns(&pages), pages, lists: Vec::new() };
    for page in 0..collector.pages.len() {
        collector.page(page);
        collector.told(page);
    }
    collector.finish()
}
