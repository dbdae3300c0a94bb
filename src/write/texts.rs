//! The texts of a workbook: each stands once in the file, and cells name it by its number.

use std::borrow::Cow;
use std::collections::HashMap;

use foldhash::fast::FixedState;

/// Longest text a cell can hold.
const LONGEST: usize = 32_767;

/// Every text, in the order of first use.
#[derive(Default)]
pub(super) struct Texts<'a> {
    numbers: HashMap<Cow<'a, str>, u32, FixedState>,
    made: String,
    uses: usize,
}

impl<'a> Texts<'a> {
    /// The number of a text.
    pub fn number(&mut self, text: &'a str) -> u32 {
        self.uses += 1;
        let text = shortened(text);
        if let Some(number) = self.numbers.get(&text) {
            return *number;
        }
        let number = self.numbers.len() as u32;
        let blank = [' ', '\t', '\n'];
        let kept = if text.starts_with(blank) || text.ends_with(blank) { " xml:space=\"preserve\"" } else { "" };
        self.made.extend(["<si><t", kept, ">"]);
        push_escaped(&mut self.made, &without_escapes(&text));
        self.made.push_str("</t></si>");
        self.numbers.insert(text, number);
        number
    }

    /// The part of the file that holds them.
    pub fn part(&self) -> String {
        format!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n\
             <sst xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" count=\"{}\" uniqueCount=\"{}\">{}</sst>",
            self.uses,
            self.numbers.len(),
            self.made
        )
    }
}

/// A text no longer than a cell can hold.
pub(super) fn shortened(text: &str) -> Cow<'_, str> {
    if text.len() < LONGEST {
        return text.into();
    }
    match text.char_indices().nth(LONGEST - 1) {
        None => text.into(),
        Some((end, _)) => format!("{}…", &text[..end]).into(),
    }
}

/// Writes a text into a file part; letters that such a file cannot hold by their number, as in `_x0007_`.
pub(super) fn push_escaped(made: &mut String, text: &str) {
    let mut rest = text;
    let is_special = |c: char| matches!(c, '&' | '<' | '>' | '\0'..='\x08' | '\x0b'..='\x1f' | '\u{fffe}' | '\u{ffff}');
    while let Some(at) = rest.find(is_special) {
        made.push_str(&rest[..at]);
        let mut letters = rest[at..].chars();
        match letters.next() {
            Some('&') => made.push_str("&amp;"),
            Some('<') => made.push_str("&lt;"),
            Some('>') => made.push_str("&gt;"),
            Some(letter) => made.push_str(&format!("_x{:04X}_", u32::from(letter))),
            None => {}
        }
        rest = letters.as_str();
    }
    made.push_str(rest);
}

/// What only looks like a letter by its number is taken as it stands: its mark is written by number.
fn without_escapes(text: &str) -> Cow<'_, str> {
    if !text.contains("_x") {
        return text.into();
    }
    let looks_so = |rest: &[u8]| rest.get(6) == Some(&b'_') && rest[2..6].iter().all(u8::is_ascii_hexdigit);
    let mut made = String::with_capacity(text.len() + 8);
    for (at, letter) in text.char_indices() {
        let rest = &text.as_bytes()[at..];
        if rest.starts_with(b"_x") && looks_so(rest) {
            made.push_str("_x005F");
        }
        made.push(letter);
    }
    made.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_that_the_file_cannot_hold_are_written_by_number() {
        let mut texts = Texts::default();
        assert_eq!(texts.number("a & <b>\u{7}"), 0);
        assert_eq!(texts.number(" _x0007_"), 1);
        assert_eq!(texts.number("a & <b>\u{7}"), 0);
        let part = texts.part();
        assert!(part.contains("count=\"3\" uniqueCount=\"2\">"), "{part}");
        assert!(part.contains("<si><t>a &amp; &lt;b&gt;_x0007_</t></si>"), "{part}");
        assert!(part.contains("<si><t xml:space=\"preserve\"> _x005F_x0007_</t></si>"), "{part}");
    }
}
