//! One value of a campaign as one cell, and back: what people type in a spreadsheet program is taken as they mean it.
//!
//! Only the form is settled here (`20 %`, `$5.60`, a decimal comma, a date): whether the value can be followed is left to the
//! readers of the scenario room.

use super::dates;
use super::figures::{self, BareShare, number};
use crate::document::cell::{Cell, Role, Value};
use crate::inventory::CellKind;
use crate::parameter::{Kind, Parameter, Within};
use crate::scenario::stated::{At, Stated, Written};
use crate::scenario::toml_text::inline;
use crate::scenario::{file_text, plain_word};

/// A cell to be filled in, with what is stated already.
pub(super) fn shown(parameter: &Parameter, stated: Option<&Stated>) -> Cell {
    let value = stated.map_or(Value::Empty, |stated| value(parameter, &stated.value));
    let figure = matches!(parameter.kind, Kind::Number { .. } | Kind::Count { .. });
    Cell::new(value, if figure { Role::Figure } else { Role::Blank })
}

fn value(parameter: &Parameter, written: &Written) -> Value {
    match (written, parameter.kind) {
        (Written::Number(share), Kind::Share { .. }) => Value::text(format!("{} %", shown_percent(*share))),
        (Written::Number(number), _) => Value::number(*number, decimals(*number)),
        (Written::Text(text), Kind::Choice(_) | Kind::ChoiceOrTable(..)) => Value::text(plain_word(text)),
        (Written::Text(text), _) => Value::text(text.clone()),
        (Written::Date(date), _) => Value::text(date.clone()),
        (Written::Flag(flag), _) => Value::text(if *flag { "yes" } else { "no" }),
        (Written::List(list), Kind::Texts | Kind::Choices(_)) => {
            let texts: Option<Vec<&str>> = list.iter().map(|stated| stated.value.text()).collect();
            match texts {
                Some(texts) if texts.iter().all(|text| is_plain_part(text)) => {
                    let is_of_words = matches!(parameter.kind, Kind::Choices(_));
                    let part = |text: &&str| if is_of_words { plain_word(text) } else { (*text).to_owned() };
                    Value::text(texts.iter().map(part).collect::<Vec<_>>().join("; "))
                }
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

/// The same as a text that can be read in one way alone: three decimals may be thousands.
fn shown_percent(share: f64) -> String {
    let percent = percent(share);
    if decimals(percent) == 3 { format!("{percent:.4}") } else { percent.to_string() }
}

/// Digits after the point that show the whole number.
fn decimals(number: f64) -> usize {
    number.to_string().split_once('.').map_or(0, |(_, digits)| digits.len()).min(9)
}

/// A cell as it was typed, with what its sheet says of it.
pub(super) struct Typed<'a> {
    pub text: &'a str,
    pub kind: CellKind,
    /// The unit that its line or its heading names; empty where they name none.
    pub unit: &'a str,
    /// How a bare number is meant, where it is a share.
    pub bare: BareShare,
    /// The currency that the campaign states.
    pub currency: Option<&'a str>,
}

/// A cell that was filled in, as the value it states; nothing where it says that it is not known.
///
/// # Errors
/// What would be right.
pub(super) fn stated(parameter: &Parameter, typed: &Typed<'_>, at: &At) -> Result<Option<Written>, String> {
    // Names and titles keep the marks that they are written with; a condition and a figure do not.
    let is_name = matches!(parameter.kind, Kind::Text) && parameter.key != "where";
    let text = if is_name { typed.text.trim().to_owned() } else { tidy(typed.text) };
    match typed.kind {
        CellKind::Error => return Err(format!("the cell holds an error of the spreadsheet, {text}")),
        CellKind::Unsolved => return Err(UNSOLVED.to_owned()),
        _ => {}
    }
    if text.starts_with(['[', '{'])
        && !matches!(parameter.kind, Kind::Text)
        && let Some(value) = file_text::value(&text, at)
    {
        return Ok(Some(value));
    }
    Ok(Some(match parameter.kind {
        Kind::Flag => Written::Flag(flag(&text)?),
        Kind::Date => Written::Date(dates::day(&text)?),
        Kind::Number { .. } if parameter.key == "price" => match price(&text, typed)? {
            Some(price) => Written::Number(price),
            None => return Ok(None),
        },
        Kind::Share { .. } => Written::Number(match typed.number(&text) {
            Some(part) if typed.kind == CellKind::Percent => part,
            Some(number) => figures::share(&number.to_string(), typed.bare)?,
            None => figures::share(&text, typed.bare)?,
        }),
        Kind::Number { unit, .. } => Written::Number(number_in(parameter, &text, typed, unit)?),
        Kind::Count { .. } => Written::Number(typed.number(&text).map_or_else(|| figures::in_unit(&text, ""), Ok)?),
        Kind::Quantity(_) | Kind::QuantityOrTables(..) => Written::Text(with_unit(parameter, &text, typed)?),
        Kind::Choice(_) | Kind::ChoiceOrTable(..) => Written::Text(word(parameter, &text)),
        Kind::Choices(_) | Kind::Texts => {
            let parts = text.split(';').map(str::trim).filter(|part| !part.is_empty());
            let parts = parts.map(|part| Stated { value: Written::Text(word(parameter, part)), at: at.clone() });
            Written::List(parts.collect())
        }
        Kind::Corners => {
            // Degrees with three decimals are no thousands.
            let corner = |part: &str| part.trim().parse().map_or_else(|_| number(part), Ok);
            let corners: Result<Vec<f64>, String> = text.split(';').map(corner).collect();
            let corners = corners?.into_iter().map(|corner| Stated { value: Written::Number(corner), at: at.clone() });
            Written::List(corners.collect())
        }
        Kind::Text | Kind::Table(_) | Kind::Tables(_) | Kind::Names => Written::Text(text),
    }))
}

/// What is said of a formula whose result nobody has worked out.
pub(super) const UNSOLVED: &str = "the cell holds a formula without a result: open the book in your spreadsheet program and save it there, or \
     write the value itself";

impl Typed<'_> {
    /// The number that the spreadsheet program keeps.
    fn number(&self, text: &str) -> Option<f64> {
        matches!(self.kind, CellKind::Number | CellKind::Percent).then(|| text.parse().ok()).flatten()
    }
}

/// A price; what is typed as a number is one.
fn price(text: &str, typed: &Typed<'_>) -> Result<Option<f64>, String> {
    // A heading that somebody gave another currency counts for the whole column.
    if !typed.unit.is_empty() {
        figures::price(&format!("1 {}", typed.unit), typed.currency)?;
    }
    match typed.number(text) {
        Some(number) if typed.kind == CellKind::Number => Ok(Some(number)),
        Some(_) => Err("the cell is shown as a percentage; this is a price".to_owned()),
        None => figures::price(text, typed.currency),
    }
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
    let is_it = |word: &&str| fold(word) == fold(text) || fold(&plain_word(word)) == fold(text);
    let words = parameter.words().unwrap_or_default();
    words.into_iter().find(is_it).map_or_else(|| text.to_owned(), str::to_owned)
}

/// A bare number of a quantity is in the unit of its row.
fn with_unit(parameter: &Parameter, text: &str, typed: &Typed<'_>) -> Result<String, String> {
    let unit = if typed.unit.is_empty() && parameter.measured().is_some_and(|of| of.units[0] == of.units[1]) {
        parameter.measured().map_or("", |of| of.unit)
    } else {
        typed.unit
    };
    if typed.kind == CellKind::Percent {
        return Err("the cell is shown as a percentage; this is none".to_owned());
    }
    // Whatever is more than a number is read with its unit by the room that knows them.
    let is_bare = !text.chars().any(|letter| !(letter.is_ascii_digit() || " .,-+".contains(letter)));
    if unit.is_empty() || !is_bare && typed.kind != CellKind::Number {
        return Ok(text.to_owned());
    }
    let number = typed.number(text).map_or_else(|| number(text), Ok)?;
    Ok(format!("{number} {unit}"))
}

/// A number in the unit of its parameter.
fn number_in(parameter: &Parameter, text: &str, typed: &Typed<'_>, own: &str) -> Result<f64, String> {
    let is_percent = own == "%";
    let Some(number) = typed.number(text) else {
        let read = figures::in_unit(text, own)?;
        // A bare number is in the unit that its line or its heading names.
        return match number(text) {
            Ok(bare) => figures::converted(bare, typed.unit, own),
            Err(_) => Ok(read),
        };
    };
    match typed.kind {
        // Seven percent are 0.07 for the spreadsheet program, whatever it shows.
        CellKind::Percent if is_percent => Ok(figures::tidy(number * 100.0)),
        CellKind::Percent if !(own.is_empty() || own == "x") => {
            Err(format!("the cell is shown as a percentage, {} %; this is in {own}", percent(number)))
        }
        CellKind::Percent => Ok(number),
        _ if parameter.key == "percent" && number < 1.0 => {
            let meant = percent(number);
            Err(format!("{number} may be {meant} % or {number} %: write it with its sign, as the text '{meant} %"))
        }
        _ => figures::converted(number, typed.unit, own),
    }
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
            let words = parameter.words().unwrap_or_default();
            words.into_iter().map(plain_word).collect::<Vec<_>>().join(", ")
        }
        Kind::Flag => "yes, no".to_owned(),
        Kind::Date => "a day, as 2026-05-31".to_owned(),
        Kind::Texts => "separated by semicolons".to_owned(),
        Kind::Corners => "four numbers, separated by semicolons".to_owned(),
        Kind::Text | Kind::Table(_) | Kind::Tables(_) | Kind::Names => String::new(),
    }
}
