//! Text as words and numbers, and the phrases that the words of rows are told by.
//!
//! The phrases stand in `words/rows.txt`. Refuses to know what a phrase means for a row.

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;

use super::lexicon::unaccented;

/// The longest text that is read by its words; what is longer is a letter, not a cell.
pub const LONGEST: usize = 2000;

/// What kind of phrase.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // Each is described in the file of phrases.
pub enum Class {
    Gone,
    GoneState,
    Fallen,
    Never,
    NeverState,
    Replaced,
    ReplacedState,
    Duplicate,
    DuplicateState,
    NoWell,
    Source,
    Water,
    Hole,
    Watched,
    WatchedCode,
    Idle,
    Part,
    Well,
    Other,
    Negation,
    Intent,
    Hedge,
    Filler,
    Total,
    TotalWeak,
    TotalRest,
    Footer,
    Legend,
    Remark,
    Band,
    Meaning,
}

const CLASSES: [(&str, Class); 31] = [
    ("gone", Class::Gone),
    ("gone_state", Class::GoneState),
    ("fallen", Class::Fallen),
    ("never", Class::Never),
    ("never_state", Class::NeverState),
    ("replaced", Class::Replaced),
    ("replaced_state", Class::ReplacedState),
    ("duplicate", Class::Duplicate),
    ("duplicate_state", Class::DuplicateState),
    ("none", Class::NoWell),
    ("source", Class::Source),
    ("water", Class::Water),
    ("hole", Class::Hole),
    ("watched", Class::Watched),
    ("watched_code", Class::WatchedCode),
    ("idle", Class::Idle),
    ("part", Class::Part),
    ("well", Class::Well),
    ("other", Class::Other),
    ("negation", Class::Negation),
    ("intent", Class::Intent),
    ("hedge", Class::Hedge),
    ("filler", Class::Filler),
    ("total", Class::Total),
    ("total_weak", Class::TotalWeak),
    ("total_rest", Class::TotalRest),
    ("footer", Class::Footer),
    ("legend", Class::Legend),
    ("remark", Class::Remark),
    ("band", Class::Band),
    ("meaning", Class::Meaning),
];

/// Classes whose words make a cell worth reading.
const TELLING: [Class; 16] = [
    Class::Gone,
    Class::GoneState,
    Class::Fallen,
    Class::Never,
    Class::NeverState,
    Class::Replaced,
    Class::ReplacedState,
    Class::Duplicate,
    Class::DuplicateState,
    Class::NoWell,
    Class::Source,
    Class::Water,
    Class::Hole,
    Class::Watched,
    Class::WatchedCode,
    Class::Idle,
];

/// A word, a number or a mark of a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// The word in lower case without accents; the digits of a number as they stand; the mark.
    pub word: String,
    /// The number, where it is one.
    pub number: Option<f64>,
    /// Where it begins in the text.
    pub start: usize,
    /// Where it ends.
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
const ABBREVIATED: [&str; 22] = [
    "ft", "in", "approx", "no", "abt", "ca", "est", "dia", "diam", "po", "pol", "pulg", "m", "prof", "nr", "gal",
    "elev", "st", "rd", "mt", "cu", "min",
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

/// `1,200` and `12,5`: a comma before three digits groups them.
fn number(digits: &str) -> Option<f64> {
    let parts: Vec<&str> = digits.split(',').collect();
    let groups = parts.len() > 1
        && parts[0].len() <= 3
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

/// Every phrase.
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
    /// Its first token.
    pub at: usize,
    /// The token behind its last.
    pub end: usize,
    /// What it is.
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
            for word in ["down", "stops", "hits", "read", "re", "rest"] {
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
