//! Marks that stand for the cell above, and the names of sections that rows stand under.

/// What stands for the cell above, in lower case.
const DITTO: &[&str] = &[
    "\"",
    "\"\"",
    "''",
    "〃",
    "″",
    "”",
    "“",
    "do",
    "do.",
    "-do-",
    "ditto",
    "dito",
    "idem",
    "ídem",
    "id.",
    "same",
    "same as above",
    "as above",
    ",,",
    "„",
];

/// Whether a cell is a ditto mark; quick, for it is asked of every cell that is not a plain number.
pub fn is_ditto(text: &str) -> bool {
    let Some(first) = text.as_bytes().first() else { return false };
    if text.len() > 13
        || !matches!(
            first,
            b'"' | b'\'' | b'-' | b',' | b'd' | b'D' | b'i' | b'I' | b's' | b'S' | b'a' | b'A' | 0xc3 | 0xe2 | 0xe3
        )
    {
        return false;
    }
    DITTO.iter().any(|mark| mark.len() == text.len() && mark.eq_ignore_ascii_case(text))
}

/// The name of a section, without what is only of the page.
pub fn section_name(text: &str) -> &str {
    let name = text.trim().trim_end_matches([':', '-', ' ']);
    let lower = name.to_lowercase();
    for ending in
        ["(continued)", "(cont'd)", "(cont.)", "(contd)", "continued", "(suite)", "(continuación)", "(continuação)"]
    {
        if lower.ends_with(ending) && lower.len() == name.len() {
            return name[..name.len() - ending.len()].trim().trim_end_matches([':', '-', ',', ' ']);
        }
    }
    name
}
