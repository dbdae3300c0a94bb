//! A size of a well as people write it: depth, level, height, diameter.
//!
//! What is one number is read by [`super::quantity_with`]; this file tells the other forms apart first (strings of casing,
//! sides, the way around, a pipe by its outside, a height of water, a well that flows) and refuses two numbers where one
//! is wanted. The words are the trade's, from memory: English, and the plainest Spanish, French and Portuguese.

mod depth;
mod diameter;
mod naming;
mod reference;

use super::super::format;
use super::super::unit::{Dimension, Unit};
use super::characters::small_letters;
use super::items::{Amount, Item, compounds, items, lengths};
use super::number::Comma;
use super::numerals;
use super::scan;
use super::shape::Pipe;
use super::strings::Piece;
use super::{Nature, Reading, Trouble, feet_and_inches, number_and_unit, quantity_with};
use naming::named;
pub use reference::Reference;
use reference::{above, is_above, reference};

/// What a length is of, which decides what its words mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// Depth of the bottom, of the casing.
    Depth,
    /// Depth of the water.
    Level,
    /// Height of the water, of the ground.
    Height,
    /// Height of the casing or rim above the ground.
    Rim,
    /// Width of a casing, an open hole or a dug well.
    Diameter,
}

/// A written size, understood.
#[derive(Debug, Clone, PartialEq)]
pub enum Size {
    /// One value; a level above what it is counted from is negative.
    One {
        /// In meters; of a depth or a level, downward.
        reading: Reading,
        /// What it is counted from, where it is said.
        from: Option<Reference>,
    },
    /// The height of the standing water, where a depth or a level was asked.
    Water(Reading),
    /// The depth of the water, where its height was asked.
    Level {
        /// How far down the water stands, in meters.
        reading: Reading,
        /// What it is counted from, where it is said.
        from: Option<Reference>,
    },
    /// The water stands at the ground.
    Full {
        /// Or would rise above it.
        flowing: bool,
    },
    /// Strings of casing, one below another.
    Strings(Vec<Piece>),
    /// A pipe by its outside or its nominal size.
    Pipe(Pipe),
}

impl Size {
    const fn one(reading: Reading) -> Self {
        Self::One { reading, from: None }
    }
}

/// `DN 100`, `ND 32`: the nominal bore of a pipe, whose number is close to its inside in millimeters (ISO 6708).
pub fn nominal_bore(text: &str) -> Option<u32> {
    let text = text.trim();
    let letters = text.get(..2).filter(|letters| ["dn", "nd"].contains(&letters.to_ascii_lowercase().as_str()))?;
    let number = text[letters.len()..].trim();
    let figures = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    number.parse().ok().filter(|bore| figures && (10..=3000).contains(bore))
}

/// Reads a size; `default` is the unit of a bare number.
///
/// # Errors
/// A [`Trouble`] that says what was not understood, or between what the reader cannot choose.
pub fn size(text: &str, sort: Sort, default: Option<&'static Unit>, comma: Comma) -> Result<Size, Trouble> {
    let text = text.trim();
    if let Some((level, date)) = dated(text).filter(|_| sort == Sort::Level) {
        let mut size = size(level, sort, default, comma)?;
        if let Size::One { reading, .. } = &mut size {
            let note = reading.note.take().map(|note| format!("; {note}")).unwrap_or_default();
            reading.note = Some(format!("\"{date}\" beside it is taken for its date{note}").into());
        }
        return Ok(size);
    }
    if let Some(bore) = nominal_bore(text).filter(|_| sort == Sort::Diameter) {
        return size(&format!("{bore} mm"), sort, default, comma);
    }
    if !matches!(sort, Sort::Level | Sort::Depth) || !text.starts_with('+') {
        let quick = number_and_unit(text, Dimension::Length, None).or_else(|| feet_and_inches(text, Dimension::Length));
        if let Some(reading) = quick {
            return Ok(Size::one(reading));
        }
    }
    if scan::is_prose(text) {
        return quantity_with(text, Dimension::Length, default, None, comma).map(Size::one);
    }
    // `+80` of a depth: eighty or more.
    let more = sort == Sort::Depth && text.starts_with('+');
    let lower = small_letters(text);
    let spelled = if matches!(sort, Sort::Depth | Sort::Level) { spelled_out(&lower, sort) } else { None };
    let lower = spelled.as_ref().unwrap_or(&lower);
    let joined = unjoined(lower);
    let lower = joined.as_ref().unwrap_or(lower);
    let figures = numerals::written_out(lower);
    let half = numerals::with_half(figures.as_ref().unwrap_or(lower));
    let figures = half.or(figures);
    let words = figures.as_ref().unwrap_or(lower).as_str();
    let raw = items(words, comma);
    let whole = compounds(&raw, true);
    let special = match sort {
        Sort::Diameter => diameter::across_or_unit(&raw, &whole, default)?,
        Sort::Depth | Sort::Level | Sort::Height | Sort::Rim => depth::depth(words, &whole, sort, default, comma)?,
    };
    if let Some(special) = special {
        return Ok(special);
    }
    // Words before the number that only name what it is.
    let start = named(&whole).map_or(0, |amount| amount.start);
    let metric = meters_and_centimeters(&whole);
    let as_typed = joined.is_none() && figures.is_none() && spelled.is_none() && start == 0;
    let to_read = if as_typed { text } else { &words[start..] };
    let read = match metric {
        Some(reading) => Ok(reading),
        None => quantity_with(to_read, Dimension::Length, default, None, comma),
    };
    let mut reading = match read {
        Ok(reading) => reading,
        Err(trouble) => return Err(two_of(words, &whole).unwrap_or(trouble)),
    };
    if more && reading.nature == Nature::Exact {
        reading.nature = Nature::AtLeast;
    }
    if let Some(second) = second(&reading) {
        return Err(second);
    }
    if let (Sort::Diameter, Nature::Range { low_si, high_si }) = (sort, reading.nature)
        && high_si > low_si * WIDEST_RANGE
    {
        return Err(two_of(words, &whole).unwrap_or(Trouble::BackwardRange)); // A diameter to a depth.
    }
    let from = if matches!(sort, Sort::Depth | Sort::Level) { reference(&whole) } else { None };
    if sort == Sort::Level && from != Some(Reference::SeaLevel) {
        if is_above(&whole) {
            reading = above(reading);
        } else if to_read.trim_start().starts_with('+') {
            return Err(Trouble::PlusLevel);
        }
    }
    if figures.is_some() {
        let note = reading.note.take().map(|note| format!("; {note}")).unwrap_or_default();
        reading.note = Some(format!("written in words{note}").into());
    }
    Ok(Size::One { reading, from })
}

/// A level with the month it was measured in: `18' (7-84)`, `40 4/84`, `12 ft 11/1987`. Nothing where the second part may be
/// a fraction of an inch.
fn dated(text: &str) -> Option<(&str, &str)> {
    const RULER: [u32; 6] = [2, 4, 8, 16, 32, 64];
    let (level, last) = text.rsplit_once(' ')?;
    let (level, last) = (level.trim_end(), last.trim());
    let inner = last.strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    let (month, year) = inner.unwrap_or(last).split_once(['/', '-'])?;
    let digits =
        |part: &str, lengths: &[usize]| lengths.contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    let sound = digits(month, &[1, 2])
        && (1..=12).contains(&month.parse::<u32>().ok()?)
        && (digits(year, &[2]) || digits(year, &[4]) && (1850..2100).contains(&year.parse::<u32>().ok()?));
    let fraction = inner.is_none() && !year.starts_with('0') && RULER.contains(&year.parse().ok()?);
    let measured = level.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '~' | '+'));
    (sound && !fraction && measured).then_some((level, last))
}

/// `2 m 40`, which the reader of quantities takes for two numbers.
fn meters_and_centimeters(items: &[Item<'_>]) -> Option<Reading> {
    let [Item::Amount(amount)] = items else { return None };
    let unit = amount.unit.filter(|unit| unit.symbol == "m")?;
    let mut reading = Reading::plain(amount.value, unit, true);
    reading.note = Some("meters and centimeters".into());
    (amount.compound).then_some(reading)
}

/// Whether a unit of length stands in a text.
pub fn unit_is_written(text: &str) -> bool {
    let lower = small_letters(text);
    items(&lower, Comma::ByForm).iter().filter_map(Item::amount).any(|amount| amount.unit.is_some())
}

/// A diameter's range does not span more than so many times its lower end. Common practice, no source.
const WIDEST_RANGE: f64 = 5.0;

/// `32 fr top of pipe` and `7,40 /sol` as people say it.
fn spelled_out(text: &str, sort: Sort) -> Option<String> {
    const SHORT: [(&str, &str); 9] = [
        (" down to water", " down"),
        (" to water", " down"),
        (" fr. ", " from "),
        (" fr ", " from "),
        (" frm ", " from "),
        (" off ", " from "),
        (" /sol", " bgl"),
        (" /ground", " ground"),
        (" /top", " from top"),
    ];
    // A depth is not what it is to the water.
    let of_level = |(short, _): &(&str, &str)| sort == Sort::Level || !short.ends_with("water");
    let (short, long) = SHORT.into_iter().filter(of_level).find(|(short, _)| text.contains(short))?;
    Some(text.replace(short, long))
}

/// `6-inch` as `6 inch`: a hyphen between a number and a word joins; nothing where there is none.
fn unjoined(text: &str) -> Option<String> {
    let bytes = text.as_bytes();
    let joins = |at: usize| {
        bytes[at] == b'-'
            && at > 0
            && bytes[at - 1].is_ascii_digit()
            && bytes.get(at + 1).is_some_and(u8::is_ascii_lowercase)
    };
    let first = (0..bytes.len()).find(|at| joins(*at))?;
    let mut whole = text[..first].to_owned();
    for (at, c) in text[first..].char_indices() {
        whole.push(if joins(first + at) { ' ' } else { c });
    }
    Some(whole)
}

/// A second number in the remark beside a value: a doubt.
pub fn second(reading: &Reading) -> Option<Trouble> {
    let note = reading.note.as_deref().filter(|note| note.bytes().any(|byte| byte.is_ascii_digit()))?;
    let lower = small_letters(note);
    let all = items(&lower, Comma::ByForm);
    let second = lengths(&all).next()?;
    let first = format!("{} {}", format::number(reading.unit.from_si(reading.si), 6), reading.unit.symbol);
    Some(Trouble::TwoValues { first, second: lower[second.start..second.end].to_owned() })
}

/// Two lengths in a text that was not understood.
fn two_of(words: &str, items: &[Item<'_>]) -> Option<Trouble> {
    let mut all = lengths(items);
    let (first, second) = (all.next()?, all.next()?);
    let text = |amount: Amount| words[amount.start..amount.end].to_owned();
    Some(Trouble::TwoValues { first: text(first), second: text(second) })
}
