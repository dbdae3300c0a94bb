//! Heights of rows. Spreadsheet programs do not agree on whether to fit the height of wrapped text when they open a file, so it
//! is set.

use super::page::PLAIN_WIDTH;
use crate::document::cell::{Cell, Role};

/// Height of a row without one of its own, in pixels.
pub(super) const DEFAULT_ROW: u32 = 17;
/// Heights in points: a line of text, the title, the tallest row there can be.
const LINE: f64 = 12.75;
const TITLE_LINE: f64 = 19.0;
const MOST: f64 = 409.0;
/// The indent and a little slack for wide letters leave less than the nominal width.
const SLACK: f64 = 1.5;
/// How much wider than plain letters bold ones are, and those of a title.
const BOLD: f64 = 1.1;
const TITLE: f64 = 1.55;

/// Height of a row, where it is not that of one line; of a long sheet always, because programs fit what is not said, row by row.
pub(super) fn of_row(cells: &[Cell], widths: &[f64], is_long: bool) -> Option<f64> {
    let lines = |(column, cell): (usize, &Cell)| {
        let width = widths.get(column).copied().unwrap_or(PLAIN_WIDTH) - SLACK;
        lines(shown(cell), width / if is_bold(cell.role) { BOLD } else { 1.0 })
    };
    let most = cells.iter().enumerate().map(lines).max().unwrap_or(1);
    (most > 1 || is_long).then_some((most as f64 * LINE + 2.0).min(MOST))
}

/// Height of a line that runs over columns of so many characters together.
pub(super) fn of_wide(cell: &Cell, width: f64) -> Option<f64> {
    if cell.role == Role::Title {
        return Some(lines(shown(cell), width / TITLE) as f64 * TITLE_LINE + 2.0);
    }
    let lines = lines(shown(cell), (width - 1.0) / if is_bold(cell.role) { BOLD } else { 1.0 });
    (lines > 1).then_some((lines as f64 * LINE + 2.0).min(MOST))
}

fn is_bold(role: Role) -> bool {
    matches!(role, Role::Head | Role::Total | Role::Caution)
}

/// The text of a cell; numbers are never wrapped.
fn shown(cell: &Cell) -> &str {
    cell.value.as_text().unwrap_or_default()
}

/// Width of a column in which a word of a heading stays whole.
pub(super) fn of_word(word: &str) -> f64 {
    word.chars().map(letter).sum::<f64>() * BOLD + SLACK
}

/// Width of a letter in digits, roughly, as in most types without serifs.
fn letter(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | 't' | 'f' | 'I' | ' ' | '.' | ',' | ';' | ':' | '\'' | '|' | '!' | '/' | '[' | ']' => 0.5,
        'r' | '(' | ')' | '-' | '"' => 0.65,
        'm' | 'w' | 'M' | 'W' | '%' | '@' => 1.55,
        'A'..='Z' | '&' => 1.25,
        '\u{80}'.. => 1.2,
        _ => 1.0,
    }
}

/// Lines of a text in a column of so many digits, words kept whole where they fit.
fn lines(text: &str, width: f64) -> usize {
    let width = width.max(3.0);
    let of_paragraph = |paragraph: &str| {
        let (mut lines, mut filled) = (1, 0.0);
        for word in paragraph.split(' ') {
            let wide: f64 = word.chars().map(letter).sum();
            let gap = if filled > 0.0 { letter(' ') } else { 0.0 };
            if filled + gap + wide <= width {
                filled += gap + wide;
            } else {
                lines += usize::from(filled > 0.0) + ((wide / width).ceil() as usize).saturating_sub(1);
                let rest = wide % width;
                filled = if rest == 0.0 && wide > 0.0 { width } else { rest };
            }
        }
        lines
    };
    text.lines().map(of_paragraph).sum::<usize>().max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_whole_and_long_ones_are_cut() {
        assert_eq!(lines("", 10.0), 1);
        assert_eq!(lines("one two three", 8.0), 2);
        assert_eq!(lines("0123456789012345", 8.0), 2);
        assert_eq!(lines("0 0123456789012345 0", 8.0), 4);
        assert_eq!(lines("a\nb", 8.0), 2);
    }
}
