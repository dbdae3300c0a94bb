//! Text for a person at a prompt: wrapped paragraphs, tables that fit the width, blocks. Color carries no meaning, so there is
//! none.

use crate::document::plain::plain;

/// Narrowest first column of a table: names in fewer letters cannot be read.
const NARROWEST: usize = 16;

/// Wraps a text at a width, each line after the first behind `indent` blanks; letters that act without being seen are shown by
/// number.
pub fn wrap(text: &str, width: usize, indent: usize) -> String {
    let mut wrapped = String::with_capacity(text.len() + text.len() / 8);
    for (number, paragraph) in text.lines().enumerate() {
        if number > 0 {
            wrapped.push('\n');
            wrapped.push_str(&" ".repeat(indent));
        }
        let mut column = indent;
        for (place, word) in paragraph.split_whitespace().enumerate() {
            let word = &*plain(word);
            let length = word.chars().count();
            if place > 0 {
                if column + 1 + length > width {
                    wrapped.push('\n');
                    wrapped.push_str(&" ".repeat(indent));
                    column = indent;
                } else {
                    wrapped.push(' ');
                    column += 1;
                }
            }
            wrapped.push_str(word);
            column += length;
        }
    }
    wrapped
}

/// Lines of a table: columns aligned, texts left, and those whose head starts with a blank right.
///
/// Where it is wider than the terminal, heads and the first column are wrapped; where that is not enough the table is
/// turned: a block a row, a line a column.
pub fn table(heads: &[&str], rows: &[Vec<String>], width: usize) -> String {
    let names: Vec<&str> = heads.iter().map(|head| head.trim_start()).collect();
    let longest = |column: usize| {
        rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let gaps = 2 * heads.len().saturating_sub(1);
    let whole: Vec<usize> =
        names.iter().enumerate().map(|(column, name)| longest(column).max(name.chars().count())).collect();
    if whole.iter().sum::<usize>() + gaps <= width {
        return lines(heads, &names, rows, &whole);
    }
    let longest_word = |name: &str| name.split_whitespace().map(|word| word.chars().count()).max().unwrap_or(0);
    let mut narrow: Vec<usize> =
        names.iter().enumerate().map(|(column, name)| longest(column).max(longest_word(name))).collect();
    let others: usize = narrow.iter().skip(1).sum::<usize>() + gaps;
    match narrow.first_mut() {
        Some(first) if others + NARROWEST.min(*first) <= width => *first = (*first).min(width - others),
        _ => return turned(&names, rows, width),
    }
    lines(heads, &names, rows, &narrow)
}

/// Blanks before the lines that go on a name in the first column, so that it does not look like two.
const GOES_ON: usize = 2;

/// A table whose columns have these widths; what is longer is wrapped within its column.
fn lines(heads: &[&str], names: &[&str], rows: &[Vec<String>], widths: &[usize]) -> String {
    let mut text = String::new();
    let mut push = |cells: &mut dyn Iterator<Item = &str>, at_bottom: bool| {
        let in_column = |(column, (cell, width)): (usize, (&str, &usize))| {
            let indent = if column == 0 && cell.chars().count() > *width { GOES_ON } else { 0 };
            wrap(cell, *width, indent).lines().map(str::to_owned).collect()
        };
        let wrapped: Vec<Vec<String>> = cells.zip(widths).enumerate().map(in_column).collect();
        let height = wrapped.iter().map(Vec::len).max().unwrap_or(0).max(1);
        for line in 0..height {
            let mut whole = String::new();
            for (column, parts) in wrapped.iter().enumerate() {
                // Heads stand on the line below them, cells begin at the top.
                let skipped = if at_bottom { height - parts.len() } else { 0 };
                let part = line.checked_sub(skipped).and_then(|at| parts.get(at)).map_or("", String::as_str);
                let padding = " ".repeat(widths[column].saturating_sub(part.chars().count()));
                if column > 0 {
                    whole.push_str("  ");
                }
                let (before, after) =
                    if heads[column].starts_with(' ') { (padding, String::new()) } else { (String::new(), padding) };
                whole.push_str(&before);
                whole.push_str(part);
                whole.push_str(&after);
            }
            text.push_str(whole.trim_end());
            text.push('\n');
        }
    };
    push(&mut names.iter().copied(), true);
    let rules: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
    push(&mut rules.iter().map(String::as_str), false);
    for row in rows {
        push(&mut row.iter().map(String::as_str), false);
    }
    text
}

/// A block a row: its first cell, then a line for each of the others.
fn turned(names: &[&str], rows: &[Vec<String>], width: usize) -> String {
    let longest = names.iter().skip(1).map(|name| name.chars().count()).max().unwrap_or(0).min(width / 2);
    let mut text = String::new();
    for row in rows {
        let mut cells = row.iter().zip(names);
        if let Some((first, _)) = cells.next() {
            text.push_str(&wrap(first, width, 2 * GOES_ON));
            text.push('\n');
        }
        for (cell, name) in cells.filter(|(cell, _)| !cell.is_empty()) {
            let line = format!("  {name:<longest$}  {cell}");
            text.push_str(&if line.chars().count() <= width {
                line
            } else {
                format!("  {}", wrap(line.trim_start(), width, 2 * GOES_ON))
            });
            text.push('\n');
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows() -> Vec<Vec<String>> {
        [["liquid 12.5, 150 mg/L, 60 left after contact", "194", "US gal"], ["granules", "1,281", "lb"]]
            .map(|row| row.map(str::to_owned).to_vec())
            .to_vec()
    }

    const HEADS: [&str; 3] = ["Scenario", " First round", "Unit"];

    #[test]
    fn a_table_is_wrapped_and_then_turned_to_fit() {
        for width in [100, 60, 40, 20] {
            let text = table(&HEADS, &rows(), width);
            for line in text.lines() {
                assert!(line.chars().count() <= width, "{width}: {line:?}");
            }
            for word in ["150", "contact", "granules", "1,281", "First", "gal"] {
                assert!(text.contains(word), "{width}: {word} is gone from\n{text}");
            }
        }
        assert_eq!(table(&HEADS, &rows(), 100).lines().count(), 4);
        assert!(table(&HEADS, &rows(), 40).lines().count() > 5);
        // What goes on in the next line is told from what begins there.
        assert!(table(&HEADS, &rows(), 40).contains("\n  60 left after contact\ngranules"));
        assert!(table(&HEADS, &rows(), 20).starts_with("liquid 12.5, 150\n    mg/L, 60 left\n    after contact\n"));
    }

    #[test]
    fn words_are_never_split() {
        assert_eq!(wrap("a licensed contractor's judgment", 12, 2), "a licensed\n  contractor's\n  judgment");
    }
}
