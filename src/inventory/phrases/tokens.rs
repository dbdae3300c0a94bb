//! A text cut into words, numbers and marks.

use crate::inventory::lexicon::unaccented;

/// A word, a number or a mark of a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// The word in lower case without accents; the digits of a number as they stand; the mark.
    pub word: String,
    /// The number, where it is one.
    pub number: Option<f64>,
    /// Its first byte in the text.
    pub start: usize,
    /// The byte behind its last.
    pub end: usize,
    /// Whether a clause ends behind it.
    pub ends: bool,
}

impl Token {
    /// Whether it is a word.
    pub fn is_word(&self) -> bool {
        self.number.is_none() && self.word.starts_with(|c: char| c.is_alphabetic())
    }
}

/// A letter without its accent, and a quotation mark or prime in its plain form.
fn plain(c: char) -> char {
    match c {
        '’' | '′' | '‘' => '\'',
        '″' | '“' | '”' => '"',
        other => unaccented(other),
    }
}

/// Words after which a point ends no clause.
const ABBREVIATED: [&str; 31] = [
    "ft", "in", "approx", "no", "abt", "ca", "est", "dia", "diam", "po", "pol", "pulg", "m", "prof", "nr", "gal",
    "elev", "st", "rd", "mt", "cu", "min", "mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sun",
];

/// Cuts a text into words, numbers and marks.
pub fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut chars = text.char_indices().peekable();
    while let Some((start, c)) = chars.next() {
        if tokens.len() >= 400 {
            break;
        }
        if c.is_alphabetic() {
            let mut word: String = c.to_lowercase().map(plain).collect();
            let mut end = start + c.len_utf8();
            while let Some((at, next)) = chars.peek().copied() {
                // `cont'd`, `d'eau`: an apostrophe between letters belongs to the word.
                let joins =
                    matches!(plain(next), '\'') && text[at + next.len_utf8()..].starts_with(char::is_alphabetic);
                if !next.is_alphabetic() && !joins {
                    break;
                }
                word.extend(next.to_lowercase().map(plain));
                end = at + next.len_utf8();
                chars.next();
            }
            tokens.push(Token { word, number: None, start, end, ends: false });
        } else if c.is_ascii_digit() {
            let mut end = start + 1;
            while let Some((at, next)) = chars.peek().copied() {
                let within = matches!(next, '.' | ',') && text[at + 1..].starts_with(|c: char| c.is_ascii_digit());
                if !next.is_ascii_digit() && !within {
                    break;
                }
                end = at + 1;
                chars.next();
            }
            let word = text[start..end].to_owned();
            let number = number(&word);
            tokens.push(Token { word, number, start, end, ends: false });
        } else if let Some(half) = fraction(c) {
            let end = start + c.len_utf8();
            match tokens.last_mut() {
                Some(Token { number: Some(whole), end: last, .. }) if start - *last <= 1 => {
                    *whole += half;
                    *last = end;
                }
                _ => tokens.push(Token { word: c.to_string(), number: Some(half), start, end, ends: false }),
            }
        } else if !c.is_whitespace() || c == '\n' {
            let end = start + c.len_utf8();
            let ends = match c {
                ';' | '!' | '?' | '\n' | '(' | ')' | '[' | ']' => true,
                '.' => {
                    let before = tokens.last();
                    !before.is_some_and(|token| {
                        token.end == start && (ABBREVIATED.contains(&token.word.as_str()) || token.word.len() == 1)
                    })
                }
                _ => false,
            };
            tokens.push(Token { word: plain(c).to_string(), number: None, start, end, ends });
        }
    }
    fractions(&mut tokens);
    tokens
}

/// `1,200`, `12,5` and `0,836`: a comma before three digits groups them, unless nothing is grouped with them.
fn number(digits: &str) -> Option<f64> {
    let parts: Vec<&str> = digits.split(',').collect();
    let groups = parts.len() > 1
        && parts[0].len() <= 3
        && parts[0] != "0"
        && parts[1..].iter().all(|part| part.split('.').next().is_some_and(|digits| digits.len() == 3));
    if groups { digits.replace(',', "").parse().ok() } else { digits.replace(',', ".").parse().ok() }
}

const fn fraction(c: char) -> Option<f64> {
    match c {
        '½' => Some(0.5),
        '¼' => Some(0.25),
        '¾' => Some(0.75),
        '⅛' => Some(0.125),
        '⅜' => Some(0.375),
        '⅝' => Some(0.625),
        '⅞' => Some(0.875),
        _ => None,
    }
}

/// `4 1/2`, `5-5/8`, `5/8`: three or five tokens are one number.
fn fractions(tokens: &mut Vec<Token>) {
    let mut at = 0;
    while at + 2 < tokens.len() {
        let (over, under) = (tokens[at].number, tokens[at + 2].number);
        let glued = tokens[at].end == tokens[at + 1].start && tokens[at + 1].end == tokens[at + 2].start;
        if let (Some(over), Some(under), "/", true) = (over, under, tokens[at + 1].word.as_str(), glued)
            && [2.0, 4.0, 8.0, 16.0].contains(&under)
            && over < under
        {
            let part = over / under;
            let end = tokens[at + 2].end;
            tokens.drain(at + 1..at + 3);
            tokens[at].number = Some(part);
            tokens[at].end = end;
            let hyphen = at >= 2 && tokens[at - 1].word == "-" && tokens[at - 1].end == tokens[at].start;
            let whole = at.checked_sub(if hyphen { 2 } else { 1 });
            if let Some(whole) = whole.filter(|whole| tokens[*whole].number.is_some_and(|whole| whole.fract() == 0.0)) {
                tokens[whole].number = tokens[whole].number.map(|number| number + part);
                tokens[whole].end = end;
                tokens.drain(whole + 1..=at);
                at = whole;
            }
        }
        at += 1;
    }
}
