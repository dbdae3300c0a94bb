//! Letters and words of a text, without capitals and accents.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A text in lower case and without accents: `Nível Estático` is `nivel estatico`.
pub fn fold(text: &str) -> String {
    if text.is_ascii() {
        return text.to_ascii_lowercase();
    }
    text.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase).collect()
}

/// A small letter of the languages that are read, without its accent; anything else as it is. For cells, of which there are
/// many, letter by letter.
pub fn unaccented(letter: char) -> char {
    match letter {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => 'a',
        'ç' => 'c',
        'è' | 'é' | 'ê' | 'ë' => 'e',
        'ì' | 'í' | 'î' | 'ï' => 'i',
        'ñ' => 'n',
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' => 'o',
        'ù' | 'ú' | 'û' | 'ü' => 'u',
        other => other,
    }
}

/// The words of a text, folded: cut at anything but letters and figures, and where a capital follows a small letter.
pub fn tokens(text: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut before = ' ';
    for c in text.chars() {
        if c.is_alphanumeric() {
            if c.is_uppercase() && before.is_lowercase() {
                words.push(String::new());
            }
            if let Some(word) = words.last_mut() {
                word.push(c);
            }
        } else if matches!(c, '#' | '№' | 'ø' | 'Ø' | '⌀' | '°' | 'º') {
            words.extend([c.to_string(), String::new()]);
        } else {
            words.push(String::new());
        }
        before = c;
    }
    words.retain(|word| !word.is_empty());
    words.iter().map(|word| fold(word)).collect()
}
