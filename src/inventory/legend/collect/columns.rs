//! The column that a list of codes belongs to: by its heading, or by the codes that stand in it.

use std::collections::{BTreeMap, BTreeSet};

use super::super::definitions::Line;
use super::super::{Page, code_key};
use super::code_table::folded;
use crate::field::squash;

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

/// Different values of a column that may be codes; a column with more is measured or named.
const MOST_VALUES: usize = 60;

/// A column of a table: its heading, its sheet, and how often each value stands in it.
pub(super) struct Column {
    pub(super) heading: String,
    pub(super) page: usize,
    pub(super) values: BTreeMap<String, usize>,
}

/// The columns of every table of a file.
pub(super) fn of_pages(pages: &[Page<'_>]) -> Vec<Column> {
    let mut found: Vec<Column> = Vec::new();
    for (number, page) in pages.iter().enumerate() {
        let Some(heading_row) = page.heading_row else { continue };
        for (at, heading) in page.rows.filled(heading_row) {
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
pub(super) fn named(title: &str, columns: &[&Column]) -> Vec<String> {
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
pub(super) fn used_in(codes: &[(String, String)], columns: &[&Column]) -> Option<String> {
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
pub(super) fn in_use(line: &Line, columns: &[&Column]) -> bool {
    let coded =
        |column: &&&Column| column.values.len() <= MOST_VALUES && column.values.values().any(|count| *count > 1);
    let used = |code: &str| columns.iter().filter(coded).any(|column| column.values.contains_key(&code_key(code)));
    // Codes that nobody used may stand among those that are.
    let many = line.codes.iter().filter(|(code, _)| used(code)).count();
    many * 2 >= line.codes.len() && many > 0
}

/// The columns that a list on this sheet may explain: those of the table it stands beside, else all.
pub(super) fn columns_for<'a>(pages: &[Page<'_>], columns: &'a [Column], page: usize) -> Vec<&'a Column> {
    let beside = pages[page].heading_row.is_some();
    columns.iter().filter(|column| !beside || column.page == page).collect()
}
