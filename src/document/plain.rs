//! Text that cannot do harm where a person reads it. What a format escapes is its own business; what is left are letters that are
//! not seen but act: marks that turn the direction of what follows them, and control characters. They are shown by their number,
//! the same on pages, cards, sheets and in tables; what a program compares with a list keeps them as they were typed.

use std::borrow::Cow;

/// The text with every letter that acts shown by its number: `[U+202E]`.
pub fn plain(text: &str) -> Cow<'_, str> {
    // Nearly every text of a list is told by its bytes.
    if !text.bytes().any(|byte| !(b' '..0x7F).contains(&byte)) || !text.chars().any(acts) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 16);
    for letter in text.chars() {
        if acts(letter) {
            shown.push_str(&format!("[U+{:04X}]", u32::from(letter)));
        } else {
            shown.push(letter);
        }
    }
    Cow::Owned(shown)
}

/// Direction marks (Unicode Standard Annex 9: embeddings, overrides, isolates) and controls, except the ends of lines and tabs.
fn acts(letter: char) -> bool {
    matches!(letter, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{200E}' | '\u{200F}' | '\u{061C}')
        || (letter.is_control() && !matches!(letter, '\n' | '\t' | '\r'))
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn what_acts_is_shown_and_nothing_else_is_touched() {
        assert_eq!(plain("a\u{202E}b"), "a[U+202E]b");
        assert_eq!(plain("\u{0}\u{1b}[2J"), "[U+0000][U+001B][2J");
        assert_eq!(plain("שלום, Ärger & <b>\n"), "שלום, Ärger & <b>\n");
    }
}
