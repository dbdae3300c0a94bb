//! The careful reader: qualifiers, compound units, ranges, bounds and remarks.

use super::super::unit::{self, Dimension, Gallon, Meaning, Unit};
use super::number::{self, Comma};
use super::{Nature, Reading, Trouble};

/// Longest text that may be a quantity; anything longer is prose.
const LONGEST: usize = 200;

/// Longest written unit, in characters.
const LONGEST_UNIT: usize = 30;

const AT_LEAST: &[&str] = &[">=", "=>", "≥", ">", "at least", "more than", "greater than", "over", "minimum", "min."];
const AT_MOST: &[&str] = &["<=", "=<", "≤", "<", "at most", "less than", "up to", "under", "below", "maximum", "max."];
const ABOUT: &[&str] = &[
    "~",
    "≈",
    "approximately",
    "approx.",
    "approx",
    "about",
    "around",
    "roughly",
    "circa",
    "ca.",
    "ca",
    "c.",
    "estimated",
    "est.",
    "est",
    "abt",
    "+/-",
    "±",
    "ph",
];
const OR_MORE: &[&str] = &["+", "or more", "or over", "or deeper", "and over", "plus", "min"];
const OR_LESS: &[&str] = &["or less", "or under", "max"];

/// Words that may follow a number without a unit; any other word there could be a unit we do not know.
const REMARKS: &[&str] = &[
    "approx",
    "approximately",
    "about",
    "est",
    "estimated",
    "reported",
    "rep",
    "measured",
    "meas",
    "bgl",
    "bgs",
    "bls",
    "btoc",
    "btc",
    "toc",
    "deep",
    "depth",
    "dia",
    "diam",
    "diameter",
    "id",
    "od",
    "nominal",
    "nom",
    "new",
    "old",
    "from",
    "per",
    "by",
    "driller",
    "owner",
    "unknown",
    "dry",
    "flowing",
    "artesian",
    "as",
    "at",
    "on",
    "in winter",
    "in summer",
    "avg",
    "average",
    "mean",
    "see",
    "total",
];

/// The text with one character for each quote, dash, blank and fraction there is, and where each one came from.
struct Scanner {
    chars: Vec<char>,
    origins: Vec<usize>,
}

fn normalise(text: &str) -> Scanner {
    let mut scanner = Scanner { chars: Vec::with_capacity(text.len()), origins: Vec::with_capacity(text.len()) };
    for (at, c) in text.chars().enumerate() {
        let plain = match c {
            '\u{2019}' | '\u{2018}' | '\u{2032}' | '\u{02b9}' | '\u{00b4}' | '`' => '\'',
            '\u{201d}' | '\u{201c}' | '\u{2033}' | '\u{02ba}' | '\u{201e}' => '"',
            '\u{2212}' | '\u{2013}' | '\u{2014}' | '\u{2010}' | '\u{2011}' => '-',
            '\u{00b5}' | '\u{03bc}' => '\u{00b5}',
            '\u{ff0e}' => '.',
            '\u{ff0c}' => ',',
            '\u{ff10}'..='\u{ff19}' => char::from(b'0' + (c as u32 - 0xff10) as u8),
            c if c.is_whitespace() => ' ',
            c => c,
        };
        if let Some(fraction) = vulgar(c) {
            if scanner.chars.last().is_some_and(|last| *last != ' ') {
                scanner.push(' ', at);
            }
            for part in fraction.chars() {
                scanner.push(part, at);
            }
        } else if plain == '\'' && scanner.chars.last() == Some(&'\'') {
            scanner.chars.pop();
            scanner.origins.pop();
            scanner.push('"', at); // Two apostrophes are an inch mark.
        } else if !(plain == ' ' && scanner.chars.last().is_none_or(|last| *last == ' ')) {
            scanner.push(plain, at);
        }
    }
    scanner
}

const fn vulgar(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

/// One number and its unit, or feet and inches, in SI of the unit (without offset when compound).
struct Amount {
    value: f64,
    unit: Option<&'static Unit>,
}

impl Amount {
    fn si(&self, unit: &'static Unit) -> f64 {
        self.unit.unwrap_or(unit).to_si(self.value)
    }
}

struct Reader<'a> {
    scanner: &'a Scanner,
    at: usize,
    dimension: Dimension,
    gallon: Option<Gallon>,
    comma: Comma,
    notes: Vec<String>,
}

/// Reads `text`, which the fast ways did not understand.
pub(super) fn read(
    text: &str,
    dimension: Dimension,
    default: Option<&'static Unit>,
    gallon: Option<Gallon>,
    comma: Comma,
) -> Result<Reading, Trouble> {
    if text.is_empty() {
        return Err(Trouble::Empty);
    }
    if text.chars().nth(LONGEST).is_some() {
        let part = text.chars().take(40).collect::<String>() + "…";
        return Err(Trouble::NotUnderstood { part, position: 1, near: None });
    }
    let scanner = normalise(text);
    Reader { scanner: &scanner, at: 0, dimension, gallon, comma, notes: Vec::new() }.whole(text, default)
}

impl Scanner {
    fn push(&mut self, c: char, origin: usize) {
        self.chars.push(c);
        self.origins.push(origin);
    }
}

impl Reader<'_> {
    fn whole(mut self, text: &str, default: Option<&'static Unit>) -> Result<Reading, Trouble> {
        let mut nature = Nature::Exact;
        loop {
            self.blanks();
            if self.word(AT_LEAST).is_some() {
                nature = Nature::AtLeast;
            } else if self.word(AT_MOST).is_some() {
                nature = Nature::AtMost;
            } else if let Some(word) = self.word(ABOUT) {
                if word != "ph" {
                    self.notes.push(word.to_owned());
                }
            } else {
                break;
            }
        }
        let between = self.word(&["between", "from"]).is_some();
        self.blanks();
        let first = self.amount()?.ok_or_else(|| self.no_number(text))?;
        let mut unit = first.unit;
        let mut second = None;
        let before_range = self.at;
        self.blanks();
        if self.word(if between { &["and", "to", "-"] } else { &["-", "to ", ".."] }).is_some() {
            self.blanks();
            second = self.amount()?;
            match &second {
                Some(amount) => unit = amount.unit.or(unit),
                None => self.at = before_range,
            }
        }
        let mut spread = None;
        if second.is_none() {
            self.blanks();
            if self.word(&["±", "+/-", "+-"]).is_some() {
                self.blanks();
                spread = self.amount()?;
                if let Some(amount) = &spread {
                    unit = unit.or(amount.unit);
                }
            }
            self.blanks();
            if self.word(OR_MORE).is_some() {
                nature = Nature::AtLeast;
            } else if self.word(OR_LESS).is_some() {
                nature = Nature::AtMost;
            }
        }
        self.rest(unit.is_some())?;
        let written = unit.is_some();
        let unit = unit.or(default).ok_or(Trouble::NoUnit { dimension: self.dimension })?;
        let mut si = first.si(unit);
        if let Some(second) = second {
            let (low_si, high_si) = (si, second.si(unit));
            if high_si < low_si {
                return Err(Trouble::BackwardRange);
            }
            si = f64::midpoint(low_si, high_si);
            nature = Nature::Range { low_si, high_si };
        } else if let Some(spread) = spread {
            let half = spread.value * spread.unit.unwrap_or(unit).factor;
            nature = Nature::Range { low_si: si - half, high_si: si + half };
        }
        let note = (!self.notes.is_empty()).then(|| self.notes.join("; "));
        Ok(Reading { si, unit, unit_was_written: written, nature, note })
    }

    fn blanks(&mut self) {
        while self.scanner.chars.get(self.at) == Some(&' ') {
            self.at += 1;
        }
    }

    /// Consumes the first of these words that stands here; a word of letters must end here too.
    fn word(&mut self, words: &[&'static str]) -> Option<&'static str> {
        let rest = &self.scanner.chars[self.at..];
        let first = rest.first()?.to_ascii_lowercase();
        let found = words.iter().find(|word| {
            if !word.starts_with(first) {
                return false;
            }
            let mut length = 0;
            let same = word.chars().all(|c| {
                length += 1;
                rest.get(length - 1).is_some_and(|other| other.to_lowercase().eq(std::iter::once(c)))
            });
            let ends = !word.ends_with(char::is_alphabetic) || !rest.get(length).is_some_and(|c| c.is_alphabetic());
            same && ends
        })?;
        self.at += found.chars().count();
        Some(found)
    }

    /// A number with its unit, and smaller units after it: `12 ft 6 in`, `12'-6"`, `3 m 20 cm`.
    fn amount(&mut self) -> Result<Option<Amount>, Trouble> {
        let start = self.at;
        let sign = self.word(&["-", "+"]);
        self.blanks();
        let Some(mut value) = self.number() else {
            self.at = start;
            return Ok(None);
        };
        let Some(unit) = self.unit()? else {
            return Ok(Some(Amount { value: if sign == Some("-") { -value } else { value }, unit: None }));
        };
        let mut smallest = unit;
        loop {
            let before = self.at;
            self.blanks();
            self.word(if unit.symbol == "ft" { &["-", ",", "and", "&"] } else { &["and", "&"] });
            self.blanks();
            let part = self.number();
            let next = if part.is_some() { self.unit()? } else { None };
            let (part, next) = match (part, next) {
                (Some(part), Some(next)) if next.factor < smallest.factor && next.dimension == unit.dimension => {
                    (part, next)
                }
                (Some(part), None) if unit.symbol == "ft" && self.at_end() && smallest.symbol == "ft" => {
                    // `12'6`: what follows feet and has no unit is inches.
                    let Some(inch) = unit::by_symbol("in").filter(|_| !self.scanner.chars[before..].contains(&'-'))
                    else {
                        self.at = before;
                        break;
                    };
                    self.notes.push("the number after the feet read as inches".to_owned());
                    (part, inch)
                }
                _ => {
                    self.at = before;
                    break;
                }
            };
            if part * next.factor >= smallest.factor || unit.offset != 0.0 {
                return Err(Trouble::Overflow);
            }
            value += part * next.factor / unit.factor;
            smallest = next;
        }
        Ok(Some(Amount { value: if sign == Some("-") { -value } else { value }, unit: Some(unit) }))
    }

    fn at_end(&self) -> bool {
        self.scanner.chars[self.at..].iter().all(|c| *c == ' ')
    }

    fn number(&mut self) -> Option<f64> {
        let found = number::at(&self.scanner.chars, self.at, self.comma)?;
        self.at = found.end;
        if let Some(note) = found.note {
            self.notes.push(note.to_owned());
        }
        Some(found.value)
    }

    /// The longest written unit that stands here.
    fn unit(&mut self) -> Result<Option<&'static Unit>, Trouble> {
        let start = self.at;
        self.blanks();
        let from = self.at;
        let chars = &self.scanner.chars;
        if !chars.get(from).is_some_and(|c| c.is_alphabetic() || matches!(c, '\'' | '"' | '°' | '%')) {
            self.at = start;
            return Ok(None);
        }
        let mut trouble = None;
        let folded: String =
            chars[from..chars.len().min(from + LONGEST_UNIT)].iter().map(char::to_ascii_lowercase).collect();
        let ends: Vec<usize> = folded.char_indices().map(|(at, c)| at + c.len_utf8()).collect();
        let class = |c: char| {
            if c.is_alphabetic() {
                1
            } else if c.is_ascii_digit() {
                2
            } else {
                0
            }
        };
        for end in (from + 1..=chars.len().min(from + LONGEST_UNIT)).rev() {
            let inside = chars.get(end).is_some_and(|next| class(*next) != 0 && class(*next) == class(chars[end - 1]));
            if inside || chars[end - 1] == ' ' {
                continue;
            }
            let written = &folded[..ends[end - from - 1]];
            match unit::look_up(written, self.gallon) {
                Some(Meaning::Unit(unit)) if unit.dimension == self.dimension => {
                    self.at = end + usize::from(chars.get(end) == Some(&'.'));
                    return Ok(Some(unit));
                }
                Some(Meaning::Unit(unit)) if trouble.is_none() => {
                    trouble = Some(Trouble::WrongDimension { unit, expected: self.dimension });
                }
                Some(Meaning::EitherGallon)
                    if trouble.is_none() && matches!(self.dimension, Dimension::Volume | Dimension::Flow) =>
                {
                    trouble = Some(Trouble::GallonUndeclared { written: written.to_owned() });
                }
                _ => {}
            }
        }
        self.at = start;
        trouble.map_or(Ok(None), Err)
    }

    /// What follows the quantity: nothing, or a remark that goes into the notes.
    fn rest(&mut self, unit_was_written: bool) -> Result<(), Trouble> {
        self.blanks();
        let rest: String = self.scanner.chars[self.at..].iter().collect();
        let trimmed = rest.trim_matches(|c: char| c == ' ' || c == '.' || c == ',' || c == ';' || c == '?');
        if trimmed.is_empty() {
            if rest.contains('?') {
                self.notes.push("?".to_owned());
            }
            return Ok(());
        }
        let mut first: String =
            trimmed.chars().take_while(|c| c.is_alphabetic()).flat_map(char::to_lowercase).collect();
        if trimmed.starts_with('(') || trimmed.starts_with('[') || trimmed.starts_with('*') {
            first.clear();
        }
        let after_blank = self.at > 0 && self.scanner.chars.get(self.at.wrapping_sub(1)) == Some(&' ');
        let separated = after_blank || rest.starts_with(['(', '[', ',', ';', '*', '?', '.']);
        let remark = separated
            && (unit_was_written && trimmed.starts_with(|c: char| !c.is_ascii_digit() && c != '/' && c != '-')
                || trimmed.starts_with(['(', '[', '*'])
                || REMARKS.contains(&first.as_str()));
        if remark {
            self.notes.push(trimmed.to_owned());
            return Ok(());
        }
        Err(Trouble::NotUnderstood {
            part: trimmed.to_owned(),
            position: self.scanner.origins.get(self.at).map_or(1, |origin| origin + 1),
            near: self.near(trimmed),
        })
    }

    fn no_number(&self, text: &str) -> Trouble {
        Trouble::NoNumber { part: text.chars().take(60).collect() }
    }

    /// A unit of the right dimension whose spelling differs by one letter.
    fn near(&self, written: &str) -> Option<&'static str> {
        let written: String = written.to_lowercase().split([' ', '(']).next().unwrap_or_default().to_owned();
        if written.chars().count() < 2 {
            return None;
        }
        unit::all()
            .filter(|unit| unit.dimension == self.dimension)
            .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.spellings).map(move |name| (unit, *name)))
            .find(|(_, name)| name.len() > 1 && edits(&written, &name.to_lowercase()) == 1)
            .map(|(_, name)| name)
    }
}

/// Letters to insert, delete, replace or exchange with their neighbour to make one word of the other.
pub(crate) fn edits(a: &str, b: &str) -> usize {
    let a: Vec<char> = a.chars().collect();
    let b: Vec<char> = b.chars().collect();
    let mut rows = vec![(0..=b.len()).collect::<Vec<_>>()];
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let replace = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut best = replace.min(rows[i - 1][j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                best = best.min(rows[i - 2][j - 2] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
}
