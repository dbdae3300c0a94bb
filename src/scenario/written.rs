//! The scenario file as text: a TOML table that remembers where every key stands and which keys were asked for.
//!
//! The readers of this room pull values out of [`Section`]s; whatever nobody asked for is an unknown key. Every refusal
//! shows the line and says what would be right. Refuses to know what the keys mean.

use std::cell::RefCell;
use std::ops::Range;
use std::path::{Path, PathBuf};

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::error::{Error, Result};
use crate::quantity::parse::{self, Nature};
use crate::quantity::unit::{Dimension, Gallon};

/// Where something stands in the text, in bytes.
pub type Span = Range<usize>;

/// A place in a scenario file, kept for errors that are found later (a condition on a column that no list has).
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    path: PathBuf,
    position: (usize, usize),
    line: String,
}

impl Spot {
    /// An error at this place.
    pub fn error(&self, reason: impl Into<String>) -> Error {
        Error::Scenario {
            path: self.path.clone(),
            position: Some(self.position),
            line: Some(self.line.clone()),
            reason: reason.into(),
        }
    }
}

/// A refusal, with the line of the scenario file where there is one: what a command line asks for has none.
pub fn refusal(spot: Option<&Spot>, reason: impl Into<String>) -> Error {
    match spot {
        Some(spot) => spot.error(reason),
        None => Error::request(reason),
    }
}

/// The text of a scenario file and its name.
#[derive(Debug, Clone, Copy)]
pub struct Text<'a> {
    /// The file, for messages.
    pub path: &'a Path,
    /// Its content.
    pub content: &'a str,
}

impl<'a> Text<'a> {
    /// A place in the text, with its line.
    pub fn spot(&self, span: &Span) -> Spot {
        let start = span.start.min(self.content.len());
        let before = &self.content[..start];
        let row = before.matches('\n').count() + 1;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = self.content[line_start..].lines().next().unwrap_or_default();
        let position = (row, before[line_start..].chars().count() + 1);
        Spot { path: self.path.to_owned(), position, line: line.to_owned() }
    }

    /// An error at a place in the text.
    pub fn error(&self, span: &Span, reason: impl Into<String>) -> Error {
        self.spot(span).error(reason)
    }

    /// Parses the whole text.
    ///
    /// # Errors
    /// [`Error::Scenario`] with the line that is not TOML.
    pub fn parse(&self) -> Result<Spanned<DeTable<'a>>> {
        DeTable::parse(self.content).map_err(|error| {
            let span = error.span().unwrap_or(0..0);
            self.error(&span, format!("this is not valid TOML: {}", error.message()))
        })
    }
}

/// A table of the file, with a name for messages.
pub struct Section<'a> {
    text: Text<'a>,
    name: String,
    span: Span,
    table: &'a DeTable<'a>,
    asked: RefCell<Vec<&'static str>>,
}

impl<'a> Section<'a> {
    /// Opens a table.
    pub fn new(text: Text<'a>, name: impl Into<String>, span: Span, table: &'a DeTable<'a>) -> Self {
        Self { text, name: name.into(), span, table, asked: RefCell::default() }
    }

    /// An error about this whole section.
    pub fn error(&self, reason: impl Into<String>) -> Error {
        self.text.error(&self.span, reason)
    }

    /// An error about a place in the text.
    pub fn error_at(&self, span: &Span, reason: impl Into<String>) -> Error {
        self.text.error(span, reason)
    }

    /// Whether the key is written; asks for it.
    pub fn has(&self, key: &'static str) -> bool {
        self.value(key).is_some()
    }

    /// Where a key's value stands, or else the section; kept for errors that are found later.
    pub fn spot_of(&self, key: &str) -> Spot {
        self.text.spot(&self.span_of(key))
    }

    /// Where a key's value stands, or else the section.
    pub fn span_of(&self, key: &str) -> Span {
        self.table.get(key).map_or_else(|| self.span.clone(), Spanned::span)
    }

    /// The raw value under a key.
    pub fn value(&self, key: &'static str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.asked.borrow_mut().push(key);
        self.table.get(key)
    }

    fn wrong_kind(&self, key: &str, value: &Spanned<DeValue<'a>>, wanted: &str) -> Error {
        let found = kind_of(value.get_ref());
        let place = if self.name == "the file" { String::new() } else { format!(" in {}", self.name) };
        self.error_at(&value.span(), format!("`{key}`{place} must be {wanted}, not {found}"))
    }

    /// A text.
    ///
    /// # Errors
    /// When the value is not a text.
    pub fn text(&self, key: &'static str) -> Result<Option<String>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        match value.get_ref().as_str() {
            Some(text) => Ok(Some(text.to_owned())),
            None => Err(self.wrong_kind(key, value, "a text in quotes")),
        }
    }

    /// A text that must be there and not be blank.
    ///
    /// # Errors
    /// When it is missing, blank or no text.
    pub fn required_text(&self, key: &'static str) -> Result<String> {
        match self.text(key)? {
            Some(text) if !text.trim().is_empty() => Ok(text),
            Some(_) => Err(self.error_at(&self.span_of(key), format!("`{key}` in {} must not be blank", self.name))),
            None => Err(self.error(format!("{} needs `{key}`", self.name))),
        }
    }

    /// `true` or `false`.
    ///
    /// # Errors
    /// When the value is neither.
    pub fn flag(&self, key: &'static str) -> Result<Option<bool>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        match value.get_ref().as_bool() {
            Some(flag) => Ok(Some(flag)),
            None => Err(self.wrong_kind(key, value, "true or false")),
        }
    }

    /// A finite number.
    ///
    /// # Errors
    /// When the value is not a number.
    pub fn number(&self, key: &'static str) -> Result<Option<f64>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        number_of(value.get_ref())
            .filter(|number| number.is_finite())
            .map(Some)
            .ok_or_else(|| self.wrong_kind(key, value, "a number"))
    }

    /// A number within bounds.
    ///
    /// # Errors
    /// When the value is not a number or lies outside.
    pub fn number_within(&self, key: &'static str, bounds: (f64, f64)) -> Result<Option<f64>> {
        let number = self.number(key)?;
        if let Some(number) = number
            && !(bounds.0..=bounds.1).contains(&number)
        {
            let (low, high) = bounds;
            let rule = if high.is_infinite() { format!("at least {low}") } else { format!("from {low} to {high}") };
            return Err(self.error_at(&self.span_of(key), format!("`{key}` must be {rule}, not {number}")));
        }
        Ok(number)
    }

    /// A quantity written as text with its unit, in SI.
    ///
    /// # Errors
    /// When the text is no quantity of that dimension, or a bare gallon is not settled.
    pub fn quantity(&self, key: &'static str, dimension: Dimension, gallon: Option<Gallon>) -> Result<Option<f64>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        self.quantity_of(key, value, dimension, gallon).map(Some)
    }

    /// Reads one value as a quantity; see [`Section::quantity`].
    ///
    /// # Errors
    /// As [`Section::quantity`].
    pub fn quantity_of(
        &self,
        key: &str,
        value: &Spanned<DeValue<'a>>,
        dimension: Dimension,
        gallon: Option<Gallon>,
    ) -> Result<f64> {
        let example = dimension.example();
        let Some(text) = value.get_ref().as_str() else {
            return Err(self.wrong_kind(key, value, &format!("a text with its unit, such as {example:?}")));
        };
        match parse::quantity(text, dimension, None, gallon) {
            Ok(reading) if reading.nature == Nature::Exact => Ok(reading.si),
            Ok(_) => Err(self.error_at(&value.span(), format!("`{key}` must be one value, such as {example:?}"))),
            Err(trouble) => Err(self.error_at(
                &value.span(),
                format!("`{key}` is not a {}: {trouble}; write it like {example:?}", dimension.name()),
            )),
        }
    }

    /// A list of texts; a lone text counts as a list of one.
    ///
    /// # Errors
    /// When an element is not a text.
    pub fn texts(&self, key: &'static str) -> Result<Option<Vec<(String, Span)>>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        if let Some(text) = value.get_ref().as_str() {
            return Ok(Some(vec![(text.to_owned(), value.span())]));
        }
        let Some(array) = value.get_ref().as_array() else {
            return Err(self.wrong_kind(key, value, "a list of texts"));
        };
        array
            .iter()
            .map(|element| match element.get_ref().as_str() {
                Some(text) => Ok((text.to_owned(), element.span())),
                None => Err(self.wrong_kind(key, element, "a list of texts")),
            })
            .collect::<Result<_>>()
            .map(Some)
    }

    /// A list of numbers.
    ///
    /// # Errors
    /// When an element is not a number.
    pub fn numbers(&self, key: &'static str) -> Result<Option<Vec<f64>>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        let Some(array) = value.get_ref().as_array() else {
            return Err(self.wrong_kind(key, value, "a list of numbers"));
        };
        array
            .iter()
            .map(|element| number_of(element.get_ref()).ok_or_else(|| self.wrong_kind(key, element, "a number")))
            .collect::<Result<_>>()
            .map(Some)
    }

    /// A table inside this one.
    ///
    /// # Errors
    /// When the value is no table.
    pub fn section(&self, key: &'static str) -> Result<Option<Section<'a>>> {
        let Some(value) = self.value(key) else { return Ok(None) };
        self.open(key, value).map(Some)
    }

    /// Opens a value as a table named after this one.
    ///
    /// # Errors
    /// When the value is no table.
    pub fn open(&self, key: &str, value: &'a Spanned<DeValue<'a>>) -> Result<Section<'a>> {
        match value.get_ref().as_table() {
            Some(table) => {
                let name = match self.name.as_str() {
                    "the file" => format!("[{key}]"),
                    outer => format!("{} {key}", outer),
                };
                Ok(Section::new(self.text, name, value.span(), table))
            }
            None => Err(self.wrong_kind(key, value, "a table")),
        }
    }

    /// A list of tables (`[[key]]`, or an inline list of tables).
    ///
    /// # Errors
    /// When the value is no list of tables.
    pub fn sections(&self, key: &'static str) -> Result<Vec<Section<'a>>> {
        let Some(value) = self.value(key) else { return Ok(Vec::new()) };
        let Some(array) = value.get_ref().as_array() else {
            return Err(self.wrong_kind(key, value, "a list of tables"));
        };
        array
            .iter()
            .map(|element| {
                let table =
                    element.get_ref().as_table().ok_or_else(|| self.wrong_kind(key, element, "a list of tables"))?;
                Ok(Section::new(self.text, format!("[[{key}]]"), element.span(), table))
            })
            .collect()
    }

    /// Keys and values as they are written, in order of the text; for tables whose keys are names of the user's own.
    pub fn entries(&self) -> Vec<(&'a str, Span, &'a Spanned<DeValue<'a>>)> {
        let mut entries: Vec<_> =
            self.table.iter().map(|(key, value)| (key.get_ref().as_ref(), key.span(), value)).collect();
        entries.sort_by_key(|(_, span, _)| span.start);
        entries
    }

    /// The text this section stands in.
    pub fn source(&self) -> Text<'a> {
        self.text
    }

    /// Refuses a key that nobody asked for.
    ///
    /// # Errors
    /// The first unknown key, with the nearest known one and the list of all.
    pub fn finish(&self) -> Result<()> {
        let asked = self.asked.borrow();
        for (key, span, _) in self.entries() {
            if !asked.contains(&key) {
                let mut known: Vec<&str> = asked.to_vec();
                known.sort_unstable();
                known.dedup();
                return Err(self.error_at(
                    &span,
                    format!("unknown key `{key}` in {}{}; known: {}", self.name, near(key, &known), known.join(", ")),
                ));
            }
        }
        Ok(())
    }
}

/// `; did you mean …?` for a name that is nearly right or part of a right one, else nothing.
pub fn near(written: &str, known: &[&str]) -> String {
    let lower = written.to_lowercase();
    let distance = |candidate: &str| strsim::damerau_levenshtein(&lower, &candidate.to_lowercase());
    let nearest = known.iter().map(|candidate| (distance(candidate), *candidate)).min();
    // `depth` is a part of `total_depth` rather than a misspelt `depot`.
    let wanted = words_of(&lower);
    let holds = |candidate: &str| words_of(candidate).windows(wanted.len().max(1)).any(|part| part == wanted);
    let parts: Vec<&str> = known.iter().copied().filter(|candidate| lower.len() >= 4 && holds(candidate)).collect();
    match nearest {
        Some((0 | 1, candidate)) => format!("; did you mean `{candidate}`?"),
        _ if (1..=3).contains(&parts.len()) => format!("; did you mean `{}`?", parts.join("` or `")),
        Some((steps, candidate)) if steps <= 2.max(written.len() / 4) => format!("; did you mean `{candidate}`?"),
        _ => String::new(),
    }
}

/// The words of a name, in small letters.
fn words_of(name: &str) -> Vec<String> {
    name.split(['_', ' ', '-', ',']).filter(|word| !word.is_empty()).map(str::to_lowercase).collect()
}

/// What kind of value stands there, in words.
fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) => "a number",
        DeValue::Float(_) if number_of(value).is_none_or(|number| !number.is_finite()) => "one without end",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

/// A TOML number; `None` for anything else.
pub fn number_of(value: &DeValue<'_>) -> Option<f64> {
    if let Some(integer) = value.as_integer() {
        return i64::from_str_radix(&integer.as_str().replace('_', ""), integer.radix()).ok().map(|value| value as f64);
    }
    value.as_float().and_then(|float| float.as_str().replace('_', "").parse().ok())
}
