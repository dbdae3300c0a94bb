//! SI values to text, for people: the one place where a number meets its unit in words.
//!
//! Findings, the terminal and the field sheets use it. Rounding here is for reading only; files keep full precision.

use super::unit::Unit;

/// `180 ft`, `1,250 L`, `0.35 mg/L`: the SI value in this unit, to so many significant digits, without exponent.
pub fn quantity(si: f64, unit: &Unit, digits: u32) -> String {
    let value = number(unit.from_si(si), digits);
    match unit.symbol {
        "" => value,
        "%" | "°" => format!("{value}{}", unit.symbol),
        symbol => format!("{value} {symbol}"),
    }
}

/// A number to so many significant digits, with thousands separators and without exponent or trailing zeros.
pub fn number(value: f64, digits: u32) -> String {
    if !value.is_finite() {
        return if value.is_nan() { "not a number".to_owned() } else { "infinite".to_owned() };
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let digits = digits.max(1) as usize;
    if let Some(text) = quick(value, digits as i32) {
        return text;
    }
    // Let the standard library round to significant digits, then lay the digits out without exponent.
    let scientific = format!("{:.*e}", digits - 1, value.abs());
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    let figures: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    let point = exponent + 1;
    let (whole, decimals) = if point <= 0 {
        ("0".to_owned(), "0".repeat(point.unsigned_abs() as usize) + &figures)
    } else {
        let point = point as usize;
        let padded = format!("{figures:0<point$}");
        (padded[..point].to_owned(), padded[point..].to_owned())
    };
    let decimals = decimals.trim_end_matches('0');
    let sign = if value < 0.0 { "-" } else { "" };
    let whole = grouped(&whole);
    if decimals.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{decimals}") }
}

/// The common case by whole-number arithmetic, several times quicker: findings write millions of numbers.
fn quick(value: f64, digits: i32) -> Option<String> {
    let magnitude = value.abs();
    if !(1e-3..1e9).contains(&magnitude) || digits > 9 {
        return None;
    }
    let decimals = digits - 1 - magnitude.log10().floor() as i32;
    let scale = 10_f64.powi(decimals.abs());
    let rounded = if decimals >= 0 { (magnitude * scale).round() } else { (magnitude / scale).round() * scale };
    let decimals = decimals.max(0) as usize;
    let figures = format!("{:0>width$}", rounded as u64, width = decimals + 1);
    let (whole, decimals) = figures.split_at(figures.len() - decimals);
    let decimals = decimals.trim_end_matches('0');
    let sign = if value < 0.0 { "-" } else { "" };
    let whole = grouped(whole);
    Some(if decimals.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{decimals}") })
}

/// Digits in groups of three.
pub fn grouped(digits: &str) -> String {
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
