//! A phrase cut into words that can be compared: lower case, without accents, with the places where a new thought begins.

use crate::inventory::lexicon::unaccented;

/// One word of a phrase.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    /// In lower case and without accents.
    pub text: String,
    /// Which part of the phrase it stands in, counted from 0: parts end at commas, brackets, slashes and dashes.
    pub part: usize,
    /// Whether it is written with a capital and small letters after it, as names are.
    pub capital: bool,
}

/// A phrase in words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Phrase {
    /// Its words, in order.
    pub words: Vec<Word>,
    /// Whether a question mark stands in it.
    pub questioned: bool,
}

/// A letter without its accent, in lower case; a few become two letters.
fn plain(letter: char, into: &mut String) {
    for lower in letter.to_lowercase() {
        match lower {
            'ÿ' => into.push('y'),
            'œ' => into.push_str("oe"),
            // An accent that was written as a character of its own.
            '\u{300}'..='\u{36f}' => {}
            other => into.push(unaccented(other)),
        }
    }
}

/// Whether a word goes on behind an apostrophe: `don't`, `dr'ld`, but not `d'eau`.
fn goes_on(before: &str) -> bool {
    before.chars().count() > 1 && before != "qu" && before.chars().all(char::is_alphabetic)
}

/// Whether one letter follows and ends its word.
fn is_last_letter(letters: &std::iter::Peekable<std::str::Chars<'_>>) -> bool {
    let mut ahead = letters.clone();
    ahead.next().is_some_and(char::is_alphabetic) && !ahead.next().is_some_and(char::is_alphanumeric)
}

impl Phrase {
    /// Whether it says no more than a question mark, or `other` and a question mark.
    pub fn is_bare_question(&self) -> bool {
        const OTHER: &[&str] = &["other", "otro", "autre", "outro"];
        self.questioned && self.words.iter().all(|word| OTHER.contains(&word.text.as_str()))
    }

    /// Cuts a text. A star is kept as a letter, because patterns are cut in the same way.
    pub fn of(text: &str) -> Self {
        let mut phrase = Self::default();
        let mut part = 0;
        let mut word = String::new();
        let mut capital = Capital::default();
        let mut letters = text.chars().peekable();
        let mut before = ' ';
        while let Some(letter) = letters.next() {
            let next = letters.peek().copied().unwrap_or(' ');
            if letter.is_alphanumeric() || letter == '*' || ('\u{300}'..='\u{36f}').contains(&letter) {
                capital.see(letter, word.is_empty());
                plain(letter, &mut word);
                before = letter;
                continue;
            }
            if matches!(letter, '\'' | '’' | '`') && next.is_alphabetic() && goes_on(&word) {
                continue;
            }
            // `n/d`, `s/d`: one word.
            if letter == '/' && word.chars().count() == 1 && word != "w" && is_last_letter(&letters) {
                word.push('/');
                continue;
            }
            // `w/ pump`, `c/ bomba`: with. `w/o`, `s/`: without.
            if letter == '/' && matches!(word.as_str(), "w" | "c" | "s") {
                let without = word == "w" && matches!(next, 'o' | 'O') || word == "s" && !next.is_alphabetic();
                if without && word == "w" {
                    letters.next();
                }
                if word != "s" || without {
                    word = if without { "without" } else { "with" }.to_owned();
                    phrase.push(&mut word, part, &mut capital);
                }
                before = ' ';
                continue;
            }
            phrase.push(&mut word, part, &mut capital);
            match letter {
                ',' | ';' | '(' | ')' | '[' | ']' | '/' | ':' | '\n' | '–' | '—' | '|' => part += 1,
                '-' if before == ' ' && next == ' ' => part += 1,
                // The end of a sentence, not of an abbreviation.
                '.' if next == ' ' && phrase.words.last().is_some_and(|word| word.text.len() > 4) => part += 1,
                '&' | '+' => {
                    "and".clone_into(&mut word);
                    phrase.push(&mut word, part, &mut capital);
                }
                '?' | '¿' => phrase.questioned = true,
                _ => {}
            }
            before = letter;
        }
        phrase.push(&mut word, part, &mut capital);
        phrase
    }

    fn push(&mut self, word: &mut String, part: usize, capital: &mut Capital) {
        if !word.is_empty() {
            self.words.push(Word { text: std::mem::take(word), part, capital: capital.is_name() });
        }
        *capital = Capital::default();
    }
}

/// How the letters of a word are written.
#[derive(Debug, Clone, Copy, Default)]
struct Capital {
    first: bool,
    small: bool,
}

impl Capital {
    fn see(&mut self, letter: char, first: bool) {
        self.first |= first && letter.is_uppercase();
        self.small |= letter.is_lowercase();
    }

    fn is_name(self) -> bool {
        self.first && self.small
    }
}
