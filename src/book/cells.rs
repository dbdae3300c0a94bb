//! One value of a campaign as one cell, and back: what people type in a spreadsheet program is taken as they mean it.
//!
//! Only the form is settled here (`20 %`, `$5.60`, a decimal comma, a date): whether the value can be followed is left to the
//! readers of the scenario room.

use super::dates;
use crate::document::cell::{Cell, Role, Value};
use crate::inventory::CellKind;
use crate::parameter::{Kind, Parameter, Within};
use crate::scenario::file_text;
use crate::scenario::stated::{At, Stated, Written};
use crate::scenario::toml_text::inline;

/// A cell to be filled in, with what is stated already.
pub(super) fn shown(parameter: &Parameter, stated: Option<&Stated>) -> Cell {
    let value = stated.map_or(Value::Empty, |stated| value(parameter, &stated.value));
    let figure = matches!(parameter.kind, Kind::Number { .. } | Kind::Count { .. });
    Cell::new(value, if figure { Role::Figure } else { Role::Blank })
}

fn value(parameter: &Parameter, written: &Written) -> Value {
    match (written, parameter.kind) {
        (Written::Number(share), Kind::Share { .. }) => Value::text(format!("{} %", percent(*share))),
        (Written::Number(number), _) => Value::number(*number, decimals(*number)),
        (Written::Text(text), _) => Value::text(text.clone()),
        (Written::Date(date), _) => Value::text(date.clone()),
        (Written::Flag(flag), _) => Value::text(if *flag { "yes" } else { "no" }),
        (Written::List(list), Kind::Texts | Kind::Choices(_)) => {
            let texts: Option<Vec<&str>> = list.iter().map(|stated| stated.value.text()).collect();
            match texts {
                Some(texts) if texts.iter().all(|text| is_plain_part(text)) => Value::text(texts.join("; ")),
                _ => Value::text(inline(written, None)),
            }
        }
        (Written::List(list), Kind::Corners) => {
            let parts: Vec<String> = list.iter().map(|stated| inline(&stated.value, None)).collect();
            Value::text(parts.join("; "))
        }
        _ => Value::text(inline(written, parameter.keys())),
    }
}

/// Whether a text can stand between semicolons and be found again.
fn is_plain_part(text: &str) -> bool {
    !text.is_empty() && text.trim() == text && !text.contains(';') && !text.starts_with(['[', '{'])
}

/// A share as percent, in its own digits: 0.07 is 7.
fn percent(share: f64) -> f64 {
    (share * 1e12).round() / 1e10
}

/// Digits after the point that show the whole number.
fn decimals(number: f64) -> usize {
    number.to_string().split_once('.').map_or(0, |(_, digits)| digits.len()).min(9)
}

/// A cell that was filled in, as the value it states.
///
/// # Errors
/// What would be right.
pub(super) fn stated(
    parameter: &Parameter,
    typed: &str,
    kind: CellKind,
    unit: &str,
    at: &At,
) -> Result<Written, String> {
    // Names and titles keep the marks that they are written with; a condition and a figure do not.
    let is_name = matches!(parameter.kind, Kind::Text) && parameter.key != "where";
    let text = if is_name { typed.trim().to_owned() } else { tidy(typed) };
    if kind == CellKind::Error {
        return Err(format!("the cell holds an error of the spreadsheet, {text}"));
    }
    if text.starts_with(['[', '{'])
        && !matches!(parameter.kind, Kind::Text)
        && let Some(value) = file_text::value(&text, at)
    {
        return Ok(value);
    }
    let numeric = kind == CellKind::Number;
    Ok(match parameter.kind {
        Kind::Flag => Written::Flag(flag(&text)?),
        Kind::Date => Written::Date(dates::day(&text)?),
        Kind::Share { .. } => Written::Number(share(&text, numeric)?),
        Kind::Number { unit, .. } => Written::Number(number_in(parameter, &text, numeric, unit)?),
        Kind::Count { .. } => Written::Number(number(&text)?),
        Kind::Quantity(_) | Kind::QuantityOrTables(..) => Written::Text(with_unit(parameter, &text, unit)),
        Kind::Choice(_) | Kind::ChoiceOrTable(..) => Written::Text(word(parameter, &text)),
        Kind::Choices(_) | Kind::Texts => {
            let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
            let parts = parts.map(|part| Stated { value: Written::Text(word(parameter, part)), at: at.clone() });
            Written::List(parts.collect())
        }
        Kind::Corners => {
            let corners: Result<Vec<f64>, String> = text.split(';').map(number).collect();
            let corners = corners?.into_iter().map(|corner| Stated { value: Written::Number(corner), at: at.clone() });
            Written::List(corners.collect())
        }
        Kind::Text | Kind::Table(_) | Kind::Tables(_) | Kind::Names => Written::Text(text),
    })
}

/// Without blanks around it, and with the marks that spreadsheet programs put in on their own taken back.
pub(super) fn tidy(typed: &str) -> String {
    let straight = |letter: char| match letter {
        '\u{2018}' | '\u{2019}' | '\u{201A}' => '\'',
        '\u{201C}' | '\u{201D}' | '\u{201E}' => '"',
        '\u{00A0}' | '\u{202F}' | '\u{2007}' => ' ',
        letter => letter,
    };
    typed.chars().map(straight).collect::<String>().trim().to_owned()
}

fn flag(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "yes" | "y" | "true" | "x" | "1" => Ok(true),
        "no" | "n" | "false" | "0" => Ok(false),
        _ => Err(format!("{text:?} is neither yes nor no")),
    }
}

/// One of the parameter's words, however it is written: `Ascorbic acid` is `ascorbic_acid`.
pub(super) fn word(parameter: &Parameter, text: &str) -> String {
    let fold = |word: &str| word.trim().to_lowercase().replace([' ', '-'], "_");
    let words = parameter.words().unwrap_or_default();
    words.into_iter().find(|word| fold(word) == fold(text)).map_or_else(|| text.to_owned(), str::to_owned)
}

/// A bare number of a quantity is in the unit of its row.
fn with_unit(parameter: &Parameter, text: &str, unit: &str) -> String {
    let unit = if unit.is_empty() && parameter.measured().is_some_and(|of| of.units[0] == of.units[1]) {
        parameter.measured().map_or("", |of| of.unit)
    } else {
        unit
    };
    let is_bare = !text.chars().any(char::is_alphabetic);
    match number(text) {
        Ok(number) if is_bare && !unit.is_empty() => format!("{number} {unit}"),
        _ => text.to_owned(),
    }
}

fn number_in(parameter: &Parameter, text: &str, numeric: bool, unit: &str) -> Result<f64, String> {
    let bare = if unit.is_empty() { text } else { text.strip_suffix(unit).unwrap_or(text).trim() };
    let read = number(bare)?;
    // A spreadsheet program keeps 12.5 % as 0.125.
    if parameter.key == "percent" && numeric && read < 1.0 {
        let meant = percent(read);
        return Err(format!("{read} may be {meant} % or {read} %: write it with its sign, as the text '{meant} %"));
    }
    Ok(read)
}

/// A part of a whole: 20 %, or a cell that the spreadsheet program shows as a percentage.
fn share(text: &str, numeric: bool) -> Result<f64, String> {
    if let Some(percent) = text.strip_suffix('%') {
        let digits = number(percent)?.to_string();
        return format!("{digits}e-2").parse().map_err(|_| format!("{text:?} is no percentage"));
    }
    let read = number(text)?;
    if read >= 1.0 {
        return Err(format!("write it with its sign: {read} %"));
    }
    if !numeric && read != 0.0 {
        return Err(format!("write it with its sign: {} %", percent(read)));
    }
    Ok(read)
}

/// A number, with a currency's sign, a decimal comma or thousands set apart.
pub(super) fn number(text: &str) -> Result<f64, String> {
    let wanted = || format!("{text:?} is no number; write it like 5.60");
    let letters = |letter: char| letter.is_alphabetic() || "$€£¥ ".contains(letter);
    let bare: String = text.trim_matches(letters).chars().filter(|letter| *letter != ' ').collect();
    let (points, commas) = (bare.matches('.').count(), bare.matches(',').count());
    let plain = match (points, commas) {
        (0 | 1, 0) => bare.clone(),
        (0, 1) => {
            let (before, after) = bare.split_once(',').unwrap_or_default();
            if after.len() == 3 && before.trim_start_matches('-').len() <= 3 && before.trim_start_matches('-') != "0" {
                return Err(format!("{text:?} may be {before}{after} or {before}.{after}: write the one you mean so"));
            }
            format!("{before}.{after}")
        }
        (1, _) if bare.rfind(',') < bare.rfind('.') => bare.replace(',', ""),
        (_, 1) if bare.rfind('.') < bare.rfind(',') => bare.replace('.', "").replace(',', "."),
        (0, _) => bare.replace(',', ""),
        _ => return Err(wanted()),
    };
    if !plain.chars().all(|letter| letter.is_ascii_digit() || ".-+eE".contains(letter)) {
        return Err(wanted());
    }
    plain.parse().ok().filter(|number: &f64| number.is_finite()).ok_or_else(wanted)
}

/// What may be written in a cell, in a few words, and what is taken else: for headings, notes and grey columns.
pub(super) fn allowed(parameter: &Parameter) -> String {
    let between = |(low, high): (f64, f64)| match (low.is_finite(), high.is_finite()) {
        (true, true) => format!("{low} to {high}"),
        (true, false) => format!("{low} or more"),
        _ => String::new(),
    };
    match parameter.kind {
        Kind::Number { bounds, .. } | Kind::Count { bounds } => between(bounds),
        Kind::Share { bounds: (low, high) } => format!("{} to {} %", percent(low), percent(high)),
        Kind::Quantity(of) | Kind::QuantityOrTables(of, _) => match of.within {
            Within::Between(low, high) => format!("{low} to {high} {}", of.unit),
            Within::Positive => "more than 0".to_owned(),
            Within::NotNegative => "0 or more".to_owned(),
        },
        Kind::Choice(_) | Kind::Choices(_) | Kind::ChoiceOrTable(..) => {
            parameter.words().unwrap_or_default().join(", ")
        }
        Kind::Flag => "yes, no".to_owned(),
        Kind::Date => "a day, as 2026-05-31".to_owned(),
        Kind::Texts => "separated by semicolons".to_owned(),
        Kind::Corners => "four numbers, separated by semicolons".to_owned(),
        Kind::Text | Kind::Table(_) | Kind::Tables(_) | Kind::Names => String::new(),
    }
}
