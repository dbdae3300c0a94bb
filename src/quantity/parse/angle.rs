//! Degrees of arc: decimal, or degrees, minutes and seconds with their marks and a hemisphere letter.

use super::super::unit;
use super::{Nature, Reading, Trouble};

/// Reads an angle; south and west letters make it negative.
pub(super) fn read(text: &str) -> Result<Reading, Trouble> {
    let unit = unit::by_symbol("°").ok_or(Trouble::Empty)?;
    let not_understood = || Trouble::NotUnderstood { part: text.to_owned(), position: 1, near: None };
    let mut negative = false;
    let mut parts: Vec<f64> = Vec::new();
    let mut number = String::new();
    for c in text.chars().chain(std::iter::once(' ')) {
        if c.is_ascii_digit() || c == '.' {
            number.push(c);
            continue;
        }
        if !number.is_empty() {
            parts.push(number.parse().map_err(|_| not_understood())?);
            number.clear();
        }
        match c {
            '-' | '\u{2212}' | '\u{2013}' if parts.is_empty() => negative = true,
            'S' | 's' | 'W' | 'w' => negative = true,
            'N' | 'n' | 'E' | 'e' | '+' | ' ' | '\u{a0}' | ':' | '°' | 'º' | '\'' | '"' | '′' | '″' | '’' | '”' =>
                {}
            ',' => return Err(not_understood()),
            'd' | 'D' | 'g' | 'G' => {}
            _ => return Err(not_understood()),
        }
    }
    let value = match parts.as_slice() {
        [degrees] => *degrees,
        [degrees, minutes] if *minutes < 60.0 && degrees.fract() == 0.0 => degrees + minutes / 60.0,
        [degrees, minutes, seconds]
            if *minutes < 60.0 && *seconds < 60.0 && degrees.fract() == 0.0 && minutes.fract() == 0.0 =>
        {
            degrees + minutes / 60.0 + seconds / 3600.0
        }
        _ => return Err(not_understood()),
    };
    let si = if negative { -value } else { value };
    Ok(Reading { si, unit, unit_was_written: true, nature: Nature::Exact, note: None, about: false })
}
