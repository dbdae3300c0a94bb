//! Figures as people type them: with their unit, as a percentage, as an amount of money. A letter that is not a part of one of
//! these is never passed over: `24 days` are not 24 hours, and `5.60 CAD` is not a price in US dollars.

use crate::quantity::unit::{self, Meaning, Unit};

/// A figure and what is written behind it.
struct Figure<'a> {
    number: f64,
    rest: &'a str,
}

/// A bare number: a decimal point or comma, and thousands set apart.
///
/// # Errors
/// What would be right; also where one mark may be that of decimals or of thousands.
pub(super) fn number(text: &str) -> Result<f64, String> {
    let text = text.trim();
    let wanted = || format!("{text:?} is no number; write it like 5.60");
    let bare: String = text.chars().filter(|letter| !letter.is_whitespace()).collect();
    let (points, commas) = (bare.matches('.').count(), bare.matches(',').count());
    let plain = match (points, commas) {
        (0, 0) => bare.clone(),
        (1, 0) | (0, 1) => {
            let (before, after) = bare.split_once(['.', ',']).unwrap_or_default();
            let digits = before.trim_start_matches(['-', '+']);
            if after.len() == 3 && (1..=3).contains(&digits.len()) && digits != "0" {
                // With a zero behind it, or without the mark, it can be read in one way alone.
                return Err(format!("{text:?} may be {before}{after} or {before}.{after}0: write the one you mean so"));
            }
            format!("{before}.{after}")
        }
        (1, _) if bare.rfind(',') < bare.rfind('.') => bare.replace(',', ""),
        (_, 1) if bare.rfind('.') < bare.rfind(',') => bare.replace('.', "").replace(',', "."),
        (0, _) => bare.replace(',', ""),
        (_, 0) => bare.replace('.', ""),
        _ => return Err(wanted()),
    };
    if !plain.chars().all(|letter| letter.is_ascii_digit() || ".-+eE".contains(letter)) {
        return Err(wanted());
    }
    plain.parse().ok().filter(|number: &f64| number.is_finite()).ok_or_else(wanted)
}

/// The figure at the beginning of a text, and what follows it.
fn figure(text: &str) -> Result<Figure<'_>, String> {
    let text = text.trim();
    let is_of_figure = |letter: char| letter.is_ascii_digit() || letter.is_whitespace() || "+-.,".contains(letter);
    let end = text.find(|letter: char| !is_of_figure(letter)).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    if !digits.contains(|letter: char| letter.is_ascii_digit()) {
        return Err(match text.contains(|letter: char| letter.is_ascii_digit()) {
            true => format!("{text:?} is more than a number: write the number alone"),
            false => format!("{text:?} is no number; write it like 5.60"),
        });
    }
    Ok(Figure { number: number(digits)?, rest: rest.trim() })
}

/// A number in its own unit; one that is written in another unit of the same kind is converted.
///
/// # Errors
/// What would be right, where something else than such a unit stands behind the number.
pub(super) fn in_unit(text: &str, own: &str) -> Result<f64, String> {
    // An exponent is a part of the number.
    if let Ok(number) = number(text) {
        return Ok(number);
    }
    let Figure { number, rest } = figure(text)?;
    converted(number, rest, own)
}

/// A number that is written in one unit, in another.
///
/// # Errors
/// Where they are not of one kind.
pub(super) fn converted(number: f64, written: &str, own: &str) -> Result<f64, String> {
    let is_own = own.split(" or ").any(|own| own.eq_ignore_ascii_case(written));
    if written.is_empty() || written == own || is_own {
        return Ok(number);
    }
    match (known(written), known(own)) {
        (Some(from), Some(to)) if from.symbol == to.symbol => Ok(number),
        (Some(from), Some(to)) if from.dimension == to.dimension => Ok(tidy(to.from_si(from.to_si(number)))),
        _ if own.is_empty() => Err(format!("write the number alone, without {written:?}: it has no unit")),
        (Some(from), Some(to)) => Err(format!(
            "{written:?} is a unit of {}; this is a {}: write it in {own}",
            from.dimension.name(),
            to.dimension.name()
        )),
        _ => Err(format!("{written:?} is no unit of this: write it in {own}")),
    }
}

fn known(written: &str) -> Option<&'static Unit> {
    match unit::look_up(written, None)? {
        Meaning::Unit(unit) => Some(unit),
        Meaning::EitherGallon => None,
    }
}

/// Without what a conversion leaves in the sixteenth digit.
pub(super) fn tidy(number: f64) -> f64 {
    format!("{number:.12e}").parse().unwrap_or(number)
}

/// How a bare number of a share is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum BareShare {
    /// Its column or line says %.
    Percent,
    /// It is shown as a part of one.
    Part,
}

/// A part of a whole, of 1: `20 %`, or a bare number where it can be only one thing.
///
/// # Errors
/// What would be right.
pub(super) fn share(text: &str, bare: BareShare) -> Result<f64, String> {
    let Figure { number, rest } = match number(text) {
        Ok(number) => Figure { number, rest: "" },
        Err(_) => figure(text)?,
    };
    match (rest, bare) {
        ("", BareShare::Part) => Ok(number),
        // A spreadsheet program may keep 20 % as 0.2.
        ("", BareShare::Percent) if number > 0.0 && number <= 1.0 => {
            let (one, other) = (number, tidy(number * 100.0));
            Err(format!("{number} may be {one} % or {other} %: write the one you mean with its sign"))
        }
        ("", BareShare::Percent) => Ok(tidy(number / 100.0)),
        (rest, _) if known(rest).is_some_and(|unit| unit.symbol == "%") => Ok(tidy(number / 100.0)),
        (rest, _) => Err(format!("{rest:?} is no unit of this: write it in %")),
    }
}

/// What people write for a price that they do not know yet.
const NO_PRICE: [&str; 14] =
    ["n/a", "na", "n.a.", "tbd", "t.b.d.", "tba", "-", "--", "–", "—", "?", "none", "unknown", "not known"];

/// A sign and the code of its currency where the sign is that of no other; dollars are many.
const SIGNS: [(&str, &str); 6] = [("€", "EUR"), ("£", "GBP"), ("₹", "INR"), ("₱", "PHP"), ("₦", "NGN"), ("R$", "BRL")];
/// Currencies whose sign is that of dollars.
const DOLLARS: [(&str, &[&str]); 5] = [
    ("USD", &["$", "US$"]),
    ("CAD", &["$", "CA$", "C$", "CAD$"]),
    ("AUD", &["$", "A$", "AU$"]),
    ("NZD", &["$", "NZ$"]),
    ("MXN", &["$", "MX$"]),
];

/// A price in the currency of the campaign; nothing where the cell says that it is not known.
///
/// # Errors
/// What would be right: also where a price stands in another currency, or in one where the campaign states none.
pub(super) fn price(text: &str, currency: Option<&str>) -> Result<Option<f64>, String> {
    let text = text.trim();
    if NO_PRICE.contains(&text.to_lowercase().as_str()) {
        return Ok(None);
    }
    let starts = |letter: char| letter.is_ascii_digit() || "+-.,".contains(letter);
    let before = text.find(starts).map_or(text, |at| &text[..at]);
    let Figure { number, rest } = figure(&text[before.len()..]).map_err(|_| {
        format!("{text:?} is no price; write it like 5.60, or leave the cell blank where it is not known")
    })?;
    for mark in [before.trim(), rest].into_iter().filter(|mark| !mark.is_empty()) {
        match currency.map(str::trim).filter(|currency| !currency.is_empty()) {
            Some(currency) if is_of(mark, currency) => {}
            Some(currency) => {
                return Err(format!(
                    "{mark:?} is not the currency of the campaign, {currency}: write the price of one package in {currency}"
                ));
            }
            None => {
                return Err(format!(
                    "{mark:?} stands at this price, but no currency is stated: write it on the line Currency of the sheet Campaign"
                ));
            }
        }
    }
    Ok(Some(number))
}

/// Whether a mark at a price is the sign or the code of a currency.
fn is_of(mark: &str, currency: &str) -> bool {
    let same = |one: &str, other: &str| one.eq_ignore_ascii_case(other);
    let dollars = DOLLARS.iter().find(|(code, _)| same(code, currency));
    same(mark, currency)
        || SIGNS.iter().any(|(sign, code)| {
            [sign, code].iter().any(|word| same(word, currency)) && [sign, code].iter().any(|word| same(word, mark))
        })
        || dollars.is_some_and(|(_, signs)| signs.iter().any(|sign| same(sign, mark)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SI Brochure, 9th edition: 24 d = 576 h; 3 µg/L = 0.003 mg/L; ppb and ppm hold for dilute water.
    #[test]
    fn a_unit_is_taken_or_converted_or_refused() {
        assert_eq!(in_unit("24 days", "h"), Ok(576.0));
        assert_eq!(in_unit("12 hours", "h"), Ok(12.0));
        assert_eq!(in_unit("3 ppb", "mg/L"), Ok(0.003));
        assert_eq!(in_unit("150 mg/L", "mg/L"), Ok(150.0));
        assert_eq!(in_unit("1e2", "mg/L"), Ok(100.0));
        assert_eq!(in_unit("10 L/kg", "L/L or L/kg"), Ok(10.0));
        for (text, own) in [("about 7", "mg/L"), ("7 or so", "mg/L"), ("24 mg/L", "h"), ("3 %", "mg/L"), ("5 x", "")] {
            assert!(in_unit(text, own).is_err(), "{text} {own}");
        }
    }

    /// ISO 4217 for the codes; the signs are common practice, no source.
    #[test]
    fn a_price_is_in_the_stated_currency_or_refused() {
        assert_eq!(price("$5.60", Some("USD")), Ok(Some(5.6)));
        assert_eq!(price("5,60 €", Some("EUR")), Ok(Some(5.6)));
        assert_eq!(price("EUR 18", Some("€")), Ok(Some(18.0)));
        assert_eq!(price("1 204,50", Some("$")), Ok(Some(1204.5)));
        for text in ["tbd", "n/a", "-"] {
            assert_eq!(price(text, None), Ok(None));
        }
        for text in ["5.60 CAD", "EUR 18", "about 7", "5.60/gal", "€18", "5.60 $ CAD", "cheap"] {
            assert!(price(text, Some("$")).is_err(), "{text}");
        }
        assert!(price("$5.60", None).is_err());
    }

    #[test]
    fn what_may_be_two_numbers_is_asked() {
        for text in ["1.200", "1,200", "12.500"] {
            assert!(number(text).is_err(), "{text}");
        }
        assert_eq!(number("1,200.5"), Ok(1200.5));
        assert_eq!(number("1.200.000"), Ok(1_200_000.0));
        assert_eq!(number("0.125"), Ok(0.125));
        assert_eq!(number("1.2000"), Ok(1.2));
        assert_eq!(share("20", BareShare::Percent), Ok(0.2));
        assert_eq!(share("20 percent", BareShare::Part), Ok(0.2));
        assert!(share("0.2", BareShare::Percent).is_err());
    }
}
