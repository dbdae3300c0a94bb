//! Widths of columns: as the sheet asks for, and wider where a heading's word would be cut in two and the page has room.

use super::heights;
use super::page::{PLAIN_WIDTH, Page};
use crate::document::cell::{Paper, Role, Sheet};

/// Rows in which headings are looked for.
const ROWS: usize = 60;

/// The widths that a sheet is written with; no page more for them, and none turned.
pub(super) fn of(sheet: &Sheet, columns: u16, paper: Paper) -> Vec<f64> {
    let mut layout = sheet.layout.clone();
    let pages = Page::of(&layout, columns, paper);
    for column in 0..usize::from(layout.printed_columns.unwrap_or(columns)) {
        let heads =
            sheet.rows.iter().take(ROWS).filter_map(|row| row.get(column)).filter(|cell| cell.role == Role::Head);
        let words = heads.filter_map(|cell| cell.value.as_text()).flat_map(str::split_whitespace);
        let needed = words.map(heights::of_word).fold(0.0, f64::max);
        if layout.widths.len() <= column {
            layout.widths.resize(column + 1, PLAIN_WIDTH);
        }
        let asked = std::mem::replace(&mut layout.widths[column], needed);
        if needed <= asked || !Page::of(&layout, columns, paper).is_laid_as(pages) {
            layout.widths[column] = asked;
        }
    }
    layout.widths
}
