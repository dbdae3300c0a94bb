//! Text for a person at a prompt: wrapped paragraphs and small tables. Colour carries no meaning, so there is none.

/// Wraps a text at a width, each line after the first behind `indent` blanks.
pub fn wrap(text: &str, width: usize, indent: usize) -> String {
    let mut wrapped = String::with_capacity(text.len() + text.len() / 8);
    for (number, paragraph) in text.lines().enumerate() {
        if number > 0 {
            wrapped.push('\n');
            wrapped.push_str(&" ".repeat(indent));
        }
        let mut column = indent;
        for (place, word) in paragraph.split_whitespace().enumerate() {
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
pub fn table(heads: &[&str], rows: &[Vec<String>]) -> String {
    let widths: Vec<usize> = heads
        .iter()
        .enumerate()
        .map(|(column, head)| {
            let longest = rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max();
            longest.unwrap_or(0).max(head.trim_start().chars().count())
        })
        .collect();
    let mut lines = String::new();
    let mut push = |cells: &mut dyn Iterator<Item = &str>| {
        let mut line = String::new();
        for (column, cell) in cells.enumerate() {
            let padding = " ".repeat(widths[column].saturating_sub(cell.chars().count()));
            if column > 0 {
                line.push_str("  ");
            }
            if heads[column].starts_with(' ') {
                line.push_str(&padding);
                line.push_str(cell);
            } else {
                line.push_str(cell);
                line.push_str(&padding);
            }
        }
        lines.push_str(line.trim_end());
        lines.push('\n');
    };
    push(&mut heads.iter().map(|head| head.trim_start()));
    push(&mut widths.iter().map(|width| &DASHES[..(*width).min(DASHES.len())]));
    for row in rows {
        push(&mut row.iter().map(String::as_str));
    }
    lines
}

const DASHES: &str = "--------------------------------------------------------------------------------";
