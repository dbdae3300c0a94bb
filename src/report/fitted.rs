//! Texts fitted to the line that they are shown on: on one line, shortened, quoted; and places as people find them.

use crate::place::{Origin, Place};

/// A list's name: `wells.xlsx, sheet North`.
pub fn list_name(origin: &Origin) -> String {
    match &origin.sheet {
        Some(sheet) => one_line(&format!("{}, sheet {sheet}", origin.file)),
        None => one_line(&origin.file),
    }
}

/// A place within its list, as a spreadsheet program shows it: `F14`, `row 14`, `column F`.
pub fn spot(place: &Place) -> String {
    match (&place.column, place.row) {
        (Some(column), Some(row)) => format!("{}{row}", column.letters()),
        (Some(column), None) => format!("column {}", column.letters()),
        (None, Some(row)) => format!("row {row}"),
        (None, None) => String::new(),
    }
}

/// A place with its list: `wells.xlsx, sheet North, F14`; a list alone where the place is the whole of it.
pub fn whole_place(place: &Place) -> String {
    match spot(place) {
        spot if spot.is_empty() => list_name(&place.origin),
        spot => format!("{}, {spot}", list_name(&place.origin)),
    }
}

/// In quotation marks, on one line.
pub(super) fn quoted(text: &str) -> String {
    format!("\"{}\"", one_line(text))
}

/// Runs of blanks and line ends as single blanks, and nothing that a terminal would obey.
pub fn one_line(text: &str) -> String {
    let tame: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    tame.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The beginning of a text, with an ellipsis where something is left off.
pub fn shortened(text: &str, letters: usize) -> String {
    let text = one_line(text);
    if text.chars().count() <= letters {
        return text;
    }
    let kept: String = text.chars().take(letters.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

/// Beginning and end of a name, with an ellipsis between: files and sheets differ at either.
pub fn shortened_within(name: &str, letters: usize) -> String {
    let name = one_line(name);
    let count = name.chars().count();
    if count <= letters {
        return name;
    }
    let begins = letters.saturating_sub(1) / 3;
    let ends = letters.saturating_sub(1 + begins);
    let (begin, end): (String, String) =
        (name.chars().take(begins).collect(), name.chars().skip(count - ends).collect());
    format!("{begin}…{end}")
}
