//! The phrases that tell what a row is, found in a text that is cut into words.
//!
//! The phrases stand in `words/rows.txt`. Refuses to know what a phrase means for a row.

mod class;
mod tokens;

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;

pub use class::Class;
use class::{CLASSES, TELLING};
pub use tokens::{Token, tokens};

/// The longest text that is read by its words; what is longer is a letter, not a cell.
pub const LONGEST: usize = 2000;

/// The phrases of all languages, found by how they begin.
pub struct Phrases {
    /// By the first three letters of the first word.
    by_start: HashMap<[u8; 3], Vec<Phrase>, FixedState>,
    /// Starts of words that may tell what a row is.
    telling: Starts,
    /// Starts of words that may tell of its measures.
    measuring: Starts,
}

/// Three letters that words begin with, a bit each.
struct Starts([u64; 17_576_usize.div_ceil(64)]);

impl Starts {
    const NONE: Self = Self([0; 17_576_usize.div_ceil(64)]);

    fn add(&mut self, word: &str) {
        let place = place(start(word));
        self.0[place / 64] |= 1 << (place % 64);
    }

    fn have(&self, start: [u8; 3]) -> bool {
        let place = place(start);
        self.0[place / 64] >> (place % 64) & 1 == 1
    }
}

struct Phrase {
    class: Class,
    words: Vec<Pattern>,
}

struct Pattern {
    text: String,
    open: bool,
}

impl Pattern {
    fn fits(&self, word: &str) -> bool {
        if self.open { word.starts_with(&self.text) } else { word == self.text }
    }
}

fn start(word: &str) -> [u8; 3] {
    let bytes = word.as_bytes();
    [0, 1, 2].map(|at| bytes.get(at).copied().unwrap_or(0))
}

/// The place of three letters among all; a shorter word counts as ended by `z`.
fn place(start: [u8; 3]) -> usize {
    start.iter().fold(0, |place, byte| place * 26 + usize::from(byte.to_ascii_lowercase().wrapping_sub(b'a').min(25)))
}

/// A phrase found in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found {
    /// The token that it begins with.
    pub at: usize,
    /// The token behind its last.
    pub end: usize,
    /// The kind of phrase that it is one of.
    pub class: Class,
}

impl Phrases {
    /// All of them, read once.
    pub fn all() -> &'static Self {
        static ALL: OnceLock<Phrases> = OnceLock::new();
        ALL.get_or_init(|| {
            let mut all = Self { by_start: HashMap::default(), telling: Starts::NONE, measuring: Starts::NONE };
            for line in include_str!("words/rows.txt").lines().filter(|line| !line.starts_with('#')) {
                let mut parts = line.splitn(4, ';').map(str::trim);
                let (Some(class), Some(_), Some(_), Some(phrases)) =
                    (parts.next(), parts.next(), parts.next(), parts.next())
                else {
                    continue;
                };
                let Some((_, class)) = CLASSES.iter().find(|(name, _)| *name == class) else { continue };
                for phrase in phrases.split('|') {
                    all.add(*class, phrase);
                }
            }
            for word in super::remarks::words::ANCHORS.iter().flat_map(|(words, _)| *words) {
                all.measuring.add(word);
            }
            let pipes = super::remarks::words::PIPES.iter().flat_map(|words| *words);
            for word in pipes.chain(&[
                "down", "stops", "hits", "read", "re", "rest", "since", "desde", "depuis", "lowered", "new", "nuevo",
                "nouveau", "novo",
            ]) {
                all.measuring.add(word);
            }
            for phrases in all.by_start.values_mut() {
                // The longest first.
                phrases.sort_by_key(|phrase| std::cmp::Reverse(phrase.words.len()));
            }
            all
        })
    }

    fn add(&mut self, class: Class, phrase: &str) {
        let words: Vec<Pattern> = tokens(&phrase.replace('*', " "))
            .into_iter()
            .map(|token| {
                let open = phrase[token.end..].starts_with('*');
                Pattern { text: token.word, open }
            })
            .collect();
        let Some(first) = words.first() else { return };
        let key = start(&first.text);
        if TELLING.contains(&class) {
            self.telling.add(&first.text);
        }
        self.by_start.entry(key).or_default().push(Phrase { class, words });
    }

    /// Whether a text has a word that may make its row something else than an ordinary well, or, in a column where remarks
    /// stand, one that may change its measures. Quick: it is asked of every text cell.
    pub fn may_tell(&self, text: &str, in_remarks: bool) -> bool {
        let bytes = text.as_bytes();
        let mut before = b' ';
        for (at, byte) in bytes.iter().enumerate() {
            if byte.is_ascii_alphabetic() && !before.is_ascii_alphabetic() {
                let mut first = [0; 3];
                for (letter, byte) in first.iter_mut().zip(&bytes[at..]) {
                    if *byte >= 0x80 {
                        return true; // A letter with an accent: look closer.
                    }
                    if !byte.is_ascii_alphabetic() {
                        break;
                    }
                    *letter = byte.to_ascii_lowercase();
                }
                if in_remarks && self.measuring.have(first)
                    || self.telling.have(first) && self.begins(first, &bytes[at..])
                {
                    return true;
                }
            } else if *byte >= 0x80 && !before.is_ascii_alphabetic() && before < 0x80 {
                return true;
            }
            before = *byte;
        }
        false
    }

    /// Whether a phrase that tells what a row is may begin with the first word here.
    fn begins(&self, first: [u8; 3], text: &[u8]) -> bool {
        let end = text.iter().position(|byte| !byte.is_ascii_alphabetic()).unwrap_or(text.len());
        // What is joined by an apostrophe, or has an accent, is cut with more care than this.
        if text.get(end).is_some_and(|byte| *byte == b'\'' || *byte >= 0x80) {
            return true;
        }
        let fits = |pattern: &Pattern| {
            let beginning = &text[..if pattern.open { end.min(pattern.text.len()) } else { end }];
            beginning.eq_ignore_ascii_case(pattern.text.as_bytes())
        };
        let phrases = self.by_start.get(&first).into_iter().flatten();
        phrases.filter(|phrase| TELLING.contains(&phrase.class)).any(|phrase| phrase.words.first().is_some_and(fits))
    }

    /// The phrases that begin at a token, the longest first.
    pub fn find_at<'a>(&'a self, tokens: &'a [Token], at: usize) -> impl Iterator<Item = Found> + 'a {
        let phrases = tokens.get(at).and_then(|token| self.by_start.get(&start(&token.word)));
        phrases.into_iter().flatten().filter_map(move |phrase| {
            let end = phrase.end_at(tokens, at)?;
            Some(Found { at, end, class: phrase.class })
        })
    }

    /// Whether a phrase of this class begins at a token, and where it ends; the longest of several.
    pub fn class_at(&self, tokens: &[Token], at: usize, class: Class) -> Option<usize> {
        self.find_at(tokens, at).find(|found| found.class == class).map(|found| found.end)
    }

    /// Whether a token is a word of this class by itself.
    pub fn is(&self, token: &Token, class: Class) -> bool {
        self.class_at(std::slice::from_ref(token), 0, class).is_some()
    }
}

impl Phrase {
    fn end_at(&self, tokens: &[Token], at: usize) -> Option<usize> {
        let mut next = at;
        for (index, pattern) in self.words.iter().enumerate() {
            // A hyphen between the words of a phrase changes nothing: `sous-total`; nor does `&`.
            while index > 0 && tokens.get(next).is_some_and(|token| token.word == "-") {
                next += 1;
            }
            let token = tokens.get(next)?;
            let word = if token.word == "&" || token.word == "+" { "and" } else { &token.word };
            if !pattern.fits(word) {
                return None;
            }
            next += 1;
        }
        Some(next)
    }
}
