//! Amounts in the words of people who measure them out: `1 3/4 cups`, `2 gallons 1 quart`, `3 lb 6 oz`, `350 mL`.
//!
//! The amount was rounded up to a graduation before (`kernel::measure`); here it is only said, exactly. An amount that no
//! measure gives is said with its number and unit. Tables keep the number.

use super::format::number;

/// Grams in an ounce: international yard and pound agreement, 1959.
const OUNCE_G: f64 = super::unit::POUND_KG * 1000.0 / 16.0;

/// An amount of a unit of the unit table, in words.
pub fn words(amount: f64, unit: &str) -> String {
    match unit {
        "US tsp" => {
            let spoons = (amount / 3.0 + 1e-9).floor();
            joined(&[counted(spoons, "tablespoon"), fraction(amount - 3.0 * spoons, "teaspoon")])
        }
        "US tbsp" => {
            let quarters = (amount / 4.0 + 1e-9).floor();
            joined(&[fraction(quarters / 4.0, "cup"), fraction(amount - 4.0 * quarters, "tablespoon")])
        }
        "US cup" => {
            let quarters = (amount * 4.0 + 1e-9).floor() / 4.0;
            joined(&[fraction(quarters, "cup"), fraction(16.0 * (amount - quarters), "tablespoon")])
        }
        "US qt" => split(amount, "quart", 4.0, "cup"),
        "US gal" => split(amount, "gallon", 4.0, "quart"),
        "imp fl oz" => fraction(amount, "fluid ounce"),
        "imp pt" => fraction(amount, "pint"),
        "imp gal" => split(amount, "imperial gallon", 8.0, "pint"),
        "lb" => {
            let pounds = (amount + 1e-9).floor();
            let ounces = 16.0 * (amount - pounds);
            match (pounds > 0.0, ounces > 1e-6) {
                (true, true) => format!("{} lb {} oz", number(pounds, 9), mixed(ounces)),
                (true, false) => format!("{} lb", number(pounds, 9)),
                (false, _) => format!("{} oz", mixed(ounces)),
            }
        }
        "oz" if amount < 2.0 => {
            // A pocket scale reads grams; rounded up, like the ounces before it.
            let grams = (amount * OUNCE_G * 10.0 - 1e-6).ceil() / 10.0;
            format!("{} oz ({} g)", number(amount, 3), number(grams, 3))
        }
        "oz" => format!("{} oz", mixed(amount)),
        "kg" if amount < 2.0 => format!("{} g", number(amount * 1000.0, 6)),
        _ => format!("{} {unit}", number(amount, 6)),
    }
}

/// Water by the bucket: `1/2 gallon`, `2 1/2 gallons`, `0.5 L`.
pub fn bucket(amount: f64, unit: &str) -> String {
    match unit {
        "US gal" => fraction(amount, "gallon"),
        "imp gal" => fraction(amount, "imperial gallon"),
        _ => words(amount, unit),
    }
}

/// Whole units, and the rest in the next smaller one.
fn split(amount: f64, unit: &str, rest_per_unit: f64, rest_unit: &str) -> String {
    let whole = (amount + 1e-9).floor();
    joined(&[counted(whole, unit), fraction(rest_per_unit * (amount - whole), rest_unit)])
}

fn joined(parts: &[String]) -> String {
    parts.iter().filter(|part| !part.is_empty()).map(String::as_str).collect::<Vec<_>>().join(" ")
}

/// `2 quarts`; nothing for none.
fn counted(whole: f64, unit: &str) -> String {
    match whole {
        whole if whole < 0.5 => String::new(),
        whole if whole < 1.5 => format!("1 {unit}"),
        whole => format!("{} {unit}s", number(whole, 9)),
    }
}

/// `1 3/4 cups`, `1/2 cup`; nothing for none.
fn fraction(amount: f64, unit: &str) -> String {
    if amount < 1e-6 {
        return String::new();
    }
    let plural = if amount > 1.0 + 1e-6 { "s" } else { "" };
    format!("{} {unit}{plural}", mixed(amount))
}

/// `1 3/4`, `1/8`, `12`; what is no eighth keeps its decimals.
fn mixed(amount: f64) -> String {
    let eighths = (amount * 8.0).round();
    if (amount * 8.0 - eighths).abs() > 1e-6 {
        return number(amount, 6);
    }
    let (whole, part) = ((eighths / 8.0).floor(), eighths % 8.0);
    let part = match part as u8 {
        0 => return number(whole, 9),
        1 => "1/8",
        2 => "1/4",
        3 => "3/8",
        4 => "1/2",
        5 => "5/8",
        6 => "3/4",
        _ => "7/8",
    };
    if whole < 0.5 { part.to_owned() } else { format!("{} {part}", number(whole, 9)) }
}
