//! The careful reader: qualifiers, compound units, ranges, bounds and remarks.

mod words;

use std::borrow::Cow;

use super::super::unit::{self, Dimension, Gallon, Meaning, Unit};
use super::characters::Characters;
use super::misspelling;
use super::number::{self, Comma};
use super::{Nature, Reading, Trouble};
use words::{ABOUT, ABOUT_AFTER, AT_LEAST, AT_MOST, OR_LESS, OR_MORE, OR_SO, REMARKS, SOMETHING};

/// Longest text that may be a quantity; anything longer is prose.
const LONGEST: usize = 200;

/// Longest written unit, in bytes.
const LONGEST_UNIT: usize = 32;

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
    characters: &'a Characters<'a>,
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
    let characters = Characters::new(text);
    Reader { characters: &characters, at: 0, dimension, gallon, comma, note: None, about: false }.whole(text, default)
}

impl Reader<'_> {
    fn whole(mut self, text: &str, default: Option<&'static Unit>) -> Result<Reading, Trouble> {
        let mut nature = Nature::Exact;
        loop {
            self.blanks();
            if self.characters.byte(self.at).is_ascii_digit() {
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
            // `40 something`: somewhere in the forties.
            let tens = first.value >= 10.0 && first.value % 10.0 == 0.0;
            if tens && self.word(SOMETHING).is_some() {
                self.about = true;
                if unit.is_none() {
                    self.blanks();
                    unit = self.unit()?;
                }
                second = Some(Amount { value: first.value + 9.0, unit: first.unit });
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
        while self.characters.byte(self.at) == b' ' {
            self.at += 1;
        }
    }

    /// Consumes the first of these words that stands here; a word of letters must end here too.
    fn word(&mut self, words: &[&'static str]) -> Option<&'static str> {
        let rest = &self.characters.lower[self.at..];
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
                    let Some(inch) = unit::by_symbol("in").filter(|_| !self.characters.text[before..].contains('-'))
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
        self.characters.text[self.at..].bytes().all(|byte| byte == b' ')
    }

    fn number(&mut self) -> Option<f64> {
        let found = number::at(&self.characters.text, self.at, self.comma)?;
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
        let rest = &self.characters.lower[self.at..];
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
        let rest = &self.characters.text[self.at..];
        let trimmed = rest.trim_matches([' ', '.', ',', ';', '?']);
        if trimmed.is_empty() {
            if rest.contains('?') {
                self.remark("?");
            }
            return Ok(());
        }
        let after_blank = self.at > 0 && self.characters.byte(self.at - 1) == b' ';
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
            position: self.characters.position(self.at),
            near: misspelling::near(trimmed, self.dimension),
        })
    }

    fn no_number(&self, text: &str) -> Trouble {
        Trouble::NoNumber { part: text.chars().take(60).collect() }
    }
}

/// Whether the text begins with a word that may follow a number without a unit.
fn is_remark(text: &str) -> bool {
    begins_with_one_of(text, REMARKS)
}

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
