//! A second number beside a rate, a temperature or a constituent: `5 gpm and 2 gpm`, `7.2 maybe 8`, `3 (5 in spring)`.
//!
//! Years, dates, numberings and what another unit counts are no second values: `7.2 (2019)`, `5 gpm after 4 h`.

use crate::field::Field;
use crate::inventory::phrases::{Token, tokens};
use crate::inventory::remarks::{is_numbering, is_other_unit, is_year, length_unit};
use crate::quantity::format::number;
use crate::quantity::parse::{Reading, Trouble};
use crate::quantity::unit::{self, Dimension, Meaning};

/// Words before a number that counts something else: `lab 4`, `test 2`, `at 120` for a depth, `method 8`.
const OF_SOMETHING_ELSE: [&str; 16] = [
    "lab", "test", "sample", "method", "ref", "page", "well", "line", "row", "card", "zone", "kit", "at", "@", "set",
    "phone",
];

/// A second value is no further from the first than by this factor. Common practice, no source.
const FURTHEST: f64 = 20.0;

/// Fields of which two values may be written where one is wanted: flow, temperature and what is measured in the water.
const fn may_have_two(field: Field) -> bool {
    matches!(
        field,
        Field::PumpRate
            | Field::WellYield
            | Field::WaterTemperature
            | Field::Ph
            | Field::Alkalinity
            | Field::Iron
            | Field::Manganese
            | Field::Sulfide
            | Field::AmmoniaN
            | Field::NitriteN
            | Field::OrganicCarbon
    )
}

/// The doubt that a second value in the remark beside a value makes.
pub(super) fn value(field: Field, reading: &Reading) -> Option<Trouble> {
    let note = reading.note.as_deref().filter(|note| note.bytes().any(|byte| byte.is_ascii_digit()))?;
    if !may_have_two(field) {
        return None;
    }
    let words = tokens(note);
    let first = reading.unit.from_si(reading.si);
    let (at, second) = (0..words.len()).find_map(|at| Some((at, another(&words, at, reading.unit.dimension)?)))?;
    let ratio = (second / first).abs();
    if second != 0.0 && first != 0.0 && !(1.0 / FURTHEST..=FURTHEST).contains(&ratio) {
        return None;
    }
    let end = words[at + 1..].iter().take_while(|token| token.is_word()).take(1).last().unwrap_or(&words[at]).end;
    let shown = if reading.unit.dimension == Dimension::Number { "" } else { reading.unit.symbol };
    let first = format!("{} {shown}", number(first, 6)).trim_end().to_owned();
    Some(Trouble::TwoValues { first, second: note[words[at].start..end].to_owned() })
}

/// The number at a token, where it may be a value of this dimension.
fn another(words: &[Token], at: usize, dimension: Dimension) -> Option<f64> {
    let number = words[at].number?;
    let word = |at: usize| words.get(at).map_or("", |token| token.word.as_str());
    let before = at.checked_sub(1).map_or("", word);
    let joins = |at: usize| {
        matches!(word(at), "/" | "-" | ":") && words.get(at + 1).is_some_and(|token| token.number.is_some())
    };
    // `6/12/19`, `555-0147`, `#12`: a date, a telephone number, a number of something.
    let dated = joins(at + 1) || at >= 2 && joins(at - 1) && words[at - 2].number.is_some();
    if is_year(number) || dated || is_numbering(before) || OF_SOMETHING_ELSE.contains(&before) {
        return None;
    }
    // A unit of one or two words, with its stroke: `gpm`, `mg/L`.
    let written = (at + 1..=(at + 3).min(words.len().saturating_sub(1))).rev().find_map(|last| {
        let text: String = words[at + 1..=last].iter().map(|token| token.word.as_str()).collect();
        match unit::look_up(&text, None)? {
            Meaning::Unit(unit) => Some(unit.dimension),
            Meaning::EitherGallon => Some(Dimension::Flow),
        }
    });
    let next = words.get(at + 1).filter(|next| words[at].end == next.start || next.is_word());
    match written {
        Some(own) if own == dimension => Some(number),
        // `5 in spring` is no length.
        Some(Dimension::Length) if word(at + 1) == "in" && words.get(at + 2).is_some_and(Token::is_word) => {
            Some(number)
        }
        Some(_) => None,
        None => {
            next.is_none_or(|next| !is_other_unit(&next.word) && length_unit(&next.word).is_none()).then_some(number)
        }
    }
}
