//! Written quantities to SI values: `120 ft`, `12' 6 1/2"`, `6-8 in`, `>300`, `1.234,5 m`.
//!
//! The inventory, the scenario file and the command line all read quantities here. What cannot be understood comes back
//! as a [`Trouble`] that says which characters; nothing is guessed. Refuses to know about columns and fields.

mod angle;
mod characters;
mod items;
mod misspelling;
mod number;
mod numerals;
mod rings;
mod scan;
mod shape;
mod size;
mod standing;
mod strings;
mod trouble;
mod width;

pub(crate) use misspelling::edits;
pub use number::{Comma, plain, plain_or_comma};
pub use numerals::written_out;
pub use rings::{Rings, rings};
pub use shape::{Pipe, Wall};
pub use size::{Reference, Size, Sort, nominal_bore, second, size, unit_is_written};
pub use standing::{FULL_WORDS, names_ground, water_in_words};
pub use strings::Piece;
pub use trouble::Trouble;
pub use width::{Width, width_in_words};

use std::borrow::Cow;

use super::unit::{self, Dimension, Gallon, Meaning, Unit};

/// How exact the written value was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Nature {
    /// A single number, with no bound and no second number; `about` may still say that it is rough.
    Exact,
    /// From one value to another; the reading is the middle.
    Range {
        /// The smaller end, in the SI unit of the dimension.
        low_si: f64,
        /// The greater end, in the SI unit of the dimension.
        high_si: f64,
    },
    /// The value or more: `>300`, `30 m+`.
    AtLeast,
    /// The value or less: `<5`.
    AtMost,
}

/// A written quantity, understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The SI value; the middle of a range.
    pub si: f64,
    /// The unit it was read in.
    pub unit: &'static Unit,
    /// Whether that unit stood in the text, or was the default.
    pub unit_was_written: bool,
    /// How exact it was.
    pub nature: Nature,
    /// What else was written or decided: a remark after the number, a comma read as the decimal mark.
    pub note: Option<Cow<'static, str>>,
    /// Whether the writer said that it is not exact: `~150`, `220 +/-`, `about 40`, `90 or so`.
    pub about: bool,
}

impl Reading {
    fn plain(value: f64, unit: &'static Unit, unit_was_written: bool) -> Self {
        Self { si: unit.to_si(value), unit, unit_was_written, nature: Nature::Exact, note: None, about: false }
    }
}

/// Reads a quantity; commas are judged one by one (see [`quantity_with`]).
///
/// # Errors
/// A [`Trouble`] that says what was not understood.
pub fn quantity(
    text: &str,
    dimension: Dimension,
    default: Option<&'static Unit>,
    gallon: Option<Gallon>,
) -> Result<Reading, Trouble> {
    quantity_with(text, dimension, default, gallon, Comma::ByForm)
}

/// Reads a quantity, told what a lone comma before three digits means.
///
/// # Errors
/// A [`Trouble`] that says what was not understood.
pub fn quantity_with(
    text: &str,
    dimension: Dimension,
    default: Option<&'static Unit>,
    gallon: Option<Gallon>,
    comma: Comma,
) -> Result<Reading, Trouble> {
    let text = text.trim();
    if let Some(value) = plain(text) {
        let unit = default.ok_or(Trouble::NoUnit { dimension })?;
        return Ok(Reading::plain(value, unit, false));
    }
    if dimension == Dimension::Angle {
        return angle::read(text);
    }
    if let Some(reading) = number_and_unit(text, dimension, gallon).or_else(|| feet_and_inches(text, dimension)) {
        return Ok(reading);
    }
    scan::read(text, dimension, default, gallon, comma)
}

/// `12 ft 6 in`, `12'6"`, `6 1/4"` in plain ASCII, without building any text; what it does not know, [`scan`] does.
fn feet_and_inches(text: &str, dimension: Dimension) -> Option<Reading> {
    if dimension != Dimension::Length {
        return None;
    }
    let (first, rest) = cut(text)?;
    let (word, rest) = word(rest);
    match word {
        "ft" | "'" | "feet" => {
            let (inches, rest) = whole_and_fraction(rest)?;
            let inches = inches.filter(|inches| *inches < 12.0)?;
            matches!(rest, "in" | "\"" | "inches" | "in.").then(|| feet(first + inches / 12.0)).flatten()
        }
        "" => {
            let (inches, rest) = whole_and_fraction(text)?;
            let inches = inches?;
            matches!(rest, "in" | "\"" | "inches").then(|| inch(inches)).flatten()
        }
        _ => None,
    }
}

fn feet(value: f64) -> Option<Reading> {
    unit::by_symbol("ft").map(|unit| Reading::plain(value, unit, true))
}

fn inch(value: f64) -> Option<Reading> {
    unit::by_symbol("in").map(|unit| Reading::plain(value, unit, true))
}

/// An unsigned plain number at the start, and what follows it without blanks.
fn cut(text: &str) -> Option<(f64, &str)> {
    let end = text.bytes().position(|byte| !matches!(byte, b'0'..=b'9' | b'.')).unwrap_or(text.len());
    Some((plain(&text[..end])?, text[end..].trim_start()))
}

/// The letters, or the one mark, at the start, and what follows without blanks.
fn word(text: &str) -> (&str, &str) {
    let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let end = if letters == 0 { usize::from(text.starts_with(['\'', '"'])) } else { letters };
    (&text[..end], text[end..].trim_start())
}

/// `6`, `6 1/4`, and what follows; the inner option is `None` where the fraction is not one.
fn whole_and_fraction(text: &str) -> Option<(Option<f64>, &str)> {
    let (whole, rest) = cut(text)?;
    if !rest.starts_with(|c: char| c.is_ascii_digit()) {
        return Some((Some(whole), rest));
    }
    let (numerator, rest) = cut(rest)?;
    let (denominator, rest) = cut(rest.strip_prefix('/')?)?;
    let sound = whole.fract() == 0.0 && numerator.fract() == 0.0 && numerator < denominator;
    let denominators = [2.0, 4.0, 8.0, 16.0, 32.0];
    Some(((sound && denominators.contains(&denominator)).then(|| whole + numerator / denominator), rest))
}

/// The most common written form, a plain number and a known unit, without building any text.
fn number_and_unit(text: &str, dimension: Dimension, gallon: Option<Gallon>) -> Option<Reading> {
    let end = text.bytes().position(|byte| !matches!(byte, b'0'..=b'9' | b'.' | b'-'))?;
    let (number, rest) = text.split_at(end);
    let value = plain(number)?;
    match unit::look_up(rest.trim_start(), gallon)? {
        Meaning::Unit(unit) if unit.dimension == dimension => Some(Reading::plain(value, unit, true)),
        _ => None,
    }
}
