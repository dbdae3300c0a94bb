//! The careful reader: qualifiers, compound units, ranges, bounds and remarks.

use std::borrow::Cow;

use super::super::unit::{self, Dimension, Gallon, Meaning, Unit};
use super::number::{self, Comma};
use super::{Nature, Reading, Trouble};

/// Longest text that may be a quantity; anything longer is prose.
const LONGEST: usize = 200;

/// Longest written unit, in bytes.
const LONGEST_UNIT: usize = 32;

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
    "maybe",
    "perhaps",
    "probably",
    "quizas",
    "quizá",
    "talvez",
    "peut-être",
    "circa",
    "ca.",
    "ca",
    "c.",
    "estimated",
    "est.",
    "est",
    "abt",
    "say",
    "aproximadamente",
    "aprox.",
    "aprox",
    "alrededor de",
    "cerca de",
    "unos",
    "unas",
    "casi",
    "como",
    "más o menos",
    "mas o menos",
    "uns",
    "umas",
    "por volta de",
    "quase",
    "approximativement",
    "environ",
    "env.",
    "env",
    "vers",
    "près de",
    "à peu près",
    "presque",
    "nearly",
    "almost",
    "+/-",
    "±",
    "ph",
    "average",
    "avg.",
    "avg",
    "av.",
    "regular",
    "ordinary",
];
/// What says the same after the number.
const OR_SO: &[&str] = &[
    "environ",
    "más o menos",
    "mas o menos",
    "mais ou menos",
    "aproximadamente",
    "or so",
    "-ish",
    "ish",
    "more or less",
    "give or take",
];
const OR_MORE: &[&str] = &["+", "or more", "or over", "or deeper", "and over", "plus", "min"];
const OR_LESS: &[&str] = &["or less", "or under", "max"];

/// Words that may follow a number without a unit; any other word there could be a unit we do not know.
const REMARKS: &[&str] = &[
    "approx",
    "approximately",
    "aprox",
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
    "tc",
    "tn",
    "curb",
    "boca",
    "da",
    "pretil",
    "brocal",
    "margelle",
    "del",
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
    "avg",
    "average",
    "mean",
    "see",
    "total",
    "below",
    "above",
    "down",
    "agl",
    "ags",
    "tile",
    "tiles",
    "ring",
    "rings",
    "concrete",
    "brick",
    "stone",
    "casing",
    "pvc",
    "upvc",
    "do",
    "terreno",
    "solo",
    "steel",
    "galv",
    "galvanized",
    "galvanised",
    "conc",
    "plastic",
    "clay",
    "stl",
    "round",
];

/// The text with one character for each quote, dash, blank and fraction there is.
struct Scanner<'a> {
    text: Cow<'a, str>,
    /// The same in lower case as far as ASCII goes, so byte for byte in step with `text`.
    lower: String,
    /// For each byte, which character of the written text it came from; empty where they are the same.
    origins: Vec<usize>,
}

impl<'a> Scanner<'a> {
    fn new(written: &'a str) -> Self {
        let bytes = written.as_bytes();
        let as_it_stands = bytes.iter().all(|byte| byte.is_ascii_graphic() && *byte != b'`' || *byte == b' ')
            && !bytes.windows(2).any(|pair| matches!(pair, b"  " | b"''"))
            && mark_before_part(written).is_none()
            && points_to_leave_out(written).is_empty();
        let mut scanner = Self { text: Cow::Borrowed(written), lower: String::new(), origins: Vec::new() };
        if !as_it_stands {
            let (text, origins) = normalise(written);
            scanner.text = Cow::Owned(text);
            scanner.origins = origins;
        }
        scanner.lower = scanner.text.to_ascii_lowercase();
        scanner
    }

    /// The byte at a place; zero at the end.
    fn byte(&self, at: usize) -> u8 {
        self.lower.as_bytes().get(at).copied().unwrap_or(0)
    }

    /// The character of the written text that stands at a place, from 1.
    fn position(&self, at: usize) -> usize {
        if self.origins.is_empty() { at + 1 } else { self.origins.get(at).map_or(1, |origin| origin + 1) }
    }
}

/// Where the points stand in the short words for what a depth is counted from: `68 T.C.` is one counted from the top of the
/// casing, not tons. From the last one on.
fn points_to_leave_out(text: &str) -> Vec<usize> {
    const DOTTED: [&str; 6] = ["t.c.", "t.o.c.", "b.t.o.c.", "b.g.l.", "b.g.s.", "b.l.s."];
    if text.bytes().filter(|byte| *byte == b'.').count() < 2 {
        return Vec::new();
    }
    let lower = text.to_ascii_lowercase();
    let mut points = Vec::new();
    for short in DOTTED {
        for (at, _) in lower.match_indices(short) {
            if !lower[..at].ends_with(|c: char| c.is_alphabetic() || c == '.') {
                points.extend((at..at + short.len()).filter(|at| lower.as_bytes()[*at] == b'.'));
            }
        }
    }
    points.reverse();
    points
}

pub(super) fn normalise(written: &str) -> (String, Vec<usize>) {
    let mut text = String::with_capacity(written.len());
    let mut origins = Vec::with_capacity(written.len());
    for (at, c) in written.chars().enumerate() {
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
            if !text.is_empty() && !text.ends_with(' ') {
                text.push(' ');
            }
            text.push_str(fraction);
        } else if plain == '\'' && text.ends_with('\'') {
            text.pop();
            origins.pop();
            text.push('"'); // Two apostrophes are an inch mark.
        } else if plain != ' ' || !text.is_empty() && !text.ends_with(' ') {
            text.push(plain);
        }
        origins.resize(text.len(), at);
    }
    for at in points_to_leave_out(&text) {
        text.remove(at);
        origins.remove(at);
    }
    if let Some((mark, end)) = mark_before_part(&text) {
        text.replace_range(mark..=mark, " ");
        text.insert(end, '"');
        origins.insert(end, origins[mark]);
    }
    (text, origins)
}

/// `4"1/2` for four inches and a half: where the mark stands, and where the part of an inch behind it ends.
fn mark_before_part(text: &str) -> Option<(usize, usize)> {
    text.match_indices('"').find_map(|(mark, _)| {
        let digits = |from: usize| text[from..].bytes().take_while(u8::is_ascii_digit).count();
        let top = digits(mark + 1);
        let slash = mark + 1 + top;
        let whole = text[..mark].ends_with(|c: char| c.is_ascii_digit());
        if !whole || top == 0 || !text[slash..].starts_with('/') {
            return None;
        }
        let end = slash + 1 + digits(slash + 1);
        let ruler = ["2", "4", "8", "16", "32"].contains(&&text[slash + 1..end]);
        (ruler && !text[end..].starts_with(['"', '/', '.'])).then_some((mark, end))
    })
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
    scanner: &'a Scanner<'a>,
    at: usize,
    dimension: Dimension,
    gallon: Option<Gallon>,
    comma: Comma,
    note: Option<Cow<'static, str>>,
    about: bool,
}

/// Whether a text is too long to be a quantity.
pub(super) fn is_prose(text: &str) -> bool {
    text.len() > LONGEST && text.chars().nth(LONGEST).is_some()
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
    if is_prose(text) {
        let part = text.chars().take(40).collect::<String>() + "…";
        return Err(Trouble::NotUnderstood { part, position: 1, near: None });
    }
    let scanner = Scanner::new(text);
    Reader { scanner: &scanner, at: 0, dimension, gallon, comma, note: None, about: false }.whole(text, default)
}

impl Reader<'_> {
    fn whole(mut self, text: &str, default: Option<&'static Unit>) -> Result<Reading, Trouble> {
        let mut nature = Nature::Exact;
        loop {
            self.blanks();
            if self.scanner.byte(self.at).is_ascii_digit() {
                break;
            }
            if self.word(AT_LEAST).is_some() {
                nature = Nature::AtLeast;
            } else if self.word(AT_MOST).is_some() {
                nature = Nature::AtMost;
            } else if let Some(word) = self.word(ABOUT) {
                if word != "ph" {
                    self.remark(word);
                    self.about = true;
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
                } else {
                    self.about = true;
                    self.remark("+/-");
                }
            }
            self.blanks();
            if let Some(word) = self.word(OR_SO) {
                self.about = true;
                self.remark(word);
                if unit.is_none() {
                    unit = self.unit()?;
                }
                self.blanks();
            }
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
        Ok(Reading { si, unit, unit_was_written: written, nature, note: self.note, about: self.about })
    }

    /// Keeps a remark, after those that are there.
    fn remark(&mut self, text: impl Into<Cow<'static, str>>) {
        self.note = Some(match self.note.take() {
            Some(note) => format!("{note}; {}", text.into()).into(),
            None => text.into(),
        });
    }

    fn blanks(&mut self) {
        while self.scanner.byte(self.at) == b' ' {
            self.at += 1;
        }
    }

    /// Consumes the first of these words that stands here; a word of letters must end here too.
    fn word(&mut self, words: &[&'static str]) -> Option<&'static str> {
        let rest = &self.scanner.lower[self.at..];
        let first = *rest.as_bytes().first()?;
        let found = words.iter().find(|word| {
            word.as_bytes()[0] == first
                && rest.starts_with(**word)
                && !(word.ends_with(|c: char| c.is_ascii_lowercase())
                    && rest[word.len()..].starts_with(char::is_alphabetic))
        })?;
        self.at += found.len();
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
                    let Some(inch) = unit::by_symbol("in").filter(|_| !self.scanner.text[before..].contains('-'))
                    else {
                        self.at = before;
                        break;
                    };
                    self.remark("the number after the feet read as inches");
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
        self.scanner.text[self.at..].bytes().all(|byte| byte == b' ')
    }

    fn number(&mut self) -> Option<f64> {
        let found = number::at(&self.scanner.text, self.at, self.comma)?;
        self.at = found.end;
        if let Some(note) = found.note {
            self.remark(note);
        }
        Some(found.value)
    }

    /// The longest written unit that stands here.
    fn unit(&mut self) -> Result<Option<&'static Unit>, Trouble> {
        let start = self.at;
        self.blanks();
        let rest = &self.scanner.lower[self.at..];
        if !rest.starts_with(|c: char| c.is_alphabetic() || matches!(c, '\'' | '"' | '°' | '%')) {
            self.at = start;
            return Ok(None);
        }
        let mut trouble = None;
        let mut ends = [0; LONGEST_UNIT];
        let count = unit_ends(rest, &mut ends);
        for end in ends[..count].iter().rev() {
            let written = &rest[..*end];
            match unit::look_up(written, self.gallon) {
                Some(Meaning::Unit(unit)) if unit.dimension == self.dimension => {
                    self.at += end + usize::from(rest.as_bytes().get(*end) == Some(&b'.'));
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
        let rest = &self.scanner.text[self.at..];
        let trimmed = rest.trim_matches([' ', '.', ',', ';', '?']);
        if trimmed.is_empty() {
            if rest.contains('?') {
                self.remark("?");
            }
            return Ok(());
        }
        let after_blank = self.at > 0 && self.scanner.byte(self.at - 1) == b' ';
        let separated = after_blank || rest.starts_with(['(', '[', ',', ';', '*', '?', '.']);
        let aside = trimmed.starts_with(['(', '[', '*']);
        let remark = separated
            && (aside
                || unit_was_written && !trimmed.starts_with(|c: char| c.is_ascii_digit() || c == '/' || c == '-')
                || is_remark(trimmed));
        if remark {
            self.about |= begins_with_one_of(trimmed, ABOUT_AFTER);
            self.remark(trimmed.to_owned());
            return Ok(());
        }
        Err(Trouble::NotUnderstood {
            part: trimmed.to_owned(),
            position: self.scanner.position(self.at),
            near: self.near(trimmed),
        })
    }

    fn no_number(&self, text: &str) -> Trouble {
        Trouble::NoNumber { part: text.chars().take(60).collect() }
    }

    /// A unit of the right dimension whose spelling differs by one letter.
    fn near(&self, written: &str) -> Option<&'static str> {
        let written: String = written.to_lowercase().split([' ', '(']).next().unwrap_or_default().to_owned();
        // What differs by one letter is about as long.
        let letters = written.chars().count();
        let as_long = |name: &str| name.len() > 1 && name.chars().count().abs_diff(letters) <= 1;
        if letters < 2 {
            return None;
        }
        unit::all()
            .filter(|unit| unit.dimension == self.dimension)
            .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.spellings).map(move |name| (unit, *name)))
            .find(|(_, name)| as_long(name) && edits(&written, &name.to_lowercase()) == 1)
            .map(|(_, name)| name)
    }
}

/// Whether the text begins with a word that may follow a number without a unit.
fn is_remark(text: &str) -> bool {
    begins_with_one_of(text, REMARKS)
}

/// Words of a remark that make the number before it an estimate.
const ABOUT_AFTER: &[&str] = &["approx", "approximately", "aprox", "about", "est", "estimated", "environ"];

fn begins_with_one_of(text: &str, words: &[&str]) -> bool {
    let text = text.trim_start_matches(['(', '[', '*']);
    let end = text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len());
    words.iter().any(|word| word.eq_ignore_ascii_case(&text[..end]))
}

/// Where a unit may end: not inside a word or a number, not after a blank. Gives how many ends there are.
fn unit_ends(text: &str, ends: &mut [usize; LONGEST_UNIT]) -> usize {
    let class = |c: char| if c.is_alphabetic() { 1 } else { 2 * u8::from(c.is_ascii_digit()) };
    let mut count = 0;
    for (at, c) in text.char_indices().take_while(|(at, c)| at + c.len_utf8() <= LONGEST_UNIT) {
        let end = at + c.len_utf8();
        let next = text[end..].chars().next();
        let inside = class(c) != 0 && next.is_some_and(|next| class(next) == class(c));
        if !inside && c != ' ' {
            ends[count] = end;
            count += 1;
        }
    }
    count
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
