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
    let may_be = matches!(
        text.as_bytes(),
        [b'"' | b'\'' | b'-' | b',' | 0xc3 | 0xe2 | 0xe3, ..]
            | [b'd' | b'D', b'o' | b'O' | b'i' | b'I', ..]
            | [b'i' | b'I', b'd' | b'D', ..]
            | [b's' | b'S', b'a' | b'A', ..]
            | [b'a' | b'A', b's' | b'S', ..]
    );
    may_be && text.len() <= 13 && DITTO.iter().any(|mark| mark.eq_ignore_ascii_case(text))
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
