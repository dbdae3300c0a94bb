//! A table of a campaign by its vocabulary: values are pulled out of it as their parameters say, and whatever cannot be
//! followed is noted with its place and what would be right, so that all faults are told at once.
//!
//! A value that cannot be followed is read as if it were not there; the campaign as a whole is then refused.

use chrono::NaiveDate;

use super::stated::{At, Document, Spot, Stated, Table, Written};
use crate::field::names::is_same;
use crate::parameter::{Choice, Kind, Measured, Parameter, Vocabulary, Within};
use crate::quantity::parse::{self, Nature};
use crate::quantity::unit::{self, Dimension, Gallon};

/// Name of the outermost table.
pub const WHOLE: &str = "the file";

/// A table of the campaign, with a name for messages.
pub struct Section<'a> {
    document: &'a Document<'a>,
    vocabulary: &'static Vocabulary,
    name: String,
    at: At,
    table: &'a Table,
}

impl<'a> Section<'a> {
    /// Opens a table whose keys are those of a vocabulary; `name` is what faults call it.
    pub fn new(
        document: &'a Document<'a>,
        vocabulary: &'static Vocabulary,
        name: impl Into<String>,
        at: At,
        table: &'a Table,
    ) -> Self {
        Self { document, vocabulary, name: name.into(), at, table }
    }

    /// A table of a single key, as if it stood alone.
    pub fn alone<'b>(&'b self, name: &str, at: At, table: &'b Table) -> Section<'b> {
        Section { document: self.document, vocabulary: self.vocabulary, name: name.to_owned(), at, table }
    }

    /// Notes a fault of this whole table.
    pub fn fault(&self, reason: impl Into<String>) {
        self.document.fault(&self.at, reason);
    }

    /// Notes a fault at a place.
    pub fn fault_at(&self, at: &At, reason: impl Into<String>) {
        self.document.fault(at, reason);
    }

    /// Notes a fault of the value under a key, or of the table where it has none.
    pub fn fault_of(&self, key: &str, reason: impl Into<String>) {
        self.document.fault(self.at_of(key), reason);
    }

    /// Whether the key is written.
    pub fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// Where a key's value stands, or else the table.
    pub fn at_of(&self, key: &str) -> &At {
        self.table.get(key).map_or(&self.at, |stated| &stated.at)
    }

    /// Where a key's value stands, or else the table; kept for errors that are found later.
    pub fn spot_of(&self, key: &str) -> Spot {
        self.document.spot(self.at_of(key))
    }

    /// Where a place is, for errors that are found later.
    pub fn spot(&self, at: &At) -> Spot {
        self.document.spot(at)
    }

    /// The value under a key as it is written.
    pub fn value(&self, key: &str) -> Option<&'a Stated> {
        self.table.get(key)
    }

    /// The vocabulary of its keys.
    pub fn vocabulary(&self) -> &'static Vocabulary {
        self.vocabulary
    }

    /// Notes that a value is of another kind than is wanted.
    pub fn wrong_kind(&self, key: &str, stated: &Stated, wanted: &str) {
        let place = if self.name == WHOLE { String::new() } else { format!(" in {}", self.name) };
        self.fault_at(&stated.at, format!("`{key}`{place} must be {wanted}, not {}", stated.value.kind()));
    }

    /// The text under a key; `None` where the key is absent, and, with a fault noted, where it is no text.
    pub fn text(&self, key: &str) -> Option<String> {
        let stated = self.value(key)?;
        let text = stated.value.text().map(str::to_owned);
        if text.is_none() {
            self.wrong_kind(key, stated, "a text in quotes");
        }
        text
    }

    /// A text that must be there and not be blank.
    pub fn needed_text(&self, key: &str) -> Option<String> {
        if !self.has(key) {
            self.fault(format!("{} needs `{key}`", self.name));
            return None;
        }
        let text = self.text(key)?;
        if text.trim().is_empty() {
            self.fault_of(key, format!("`{key}` in {} must not be blank", self.name));
            return None;
        }
        Some(text)
    }

    /// A needed name, of a crew or a supply, that no section before it has; `names` are theirs.
    pub fn own_name(&self, of: &str, names: &mut Vec<String>) -> Option<String> {
        let name = self.needed_text("name")?;
        if names.iter().any(|other| is_same(other, &name)) {
            self.fault_of("name", format!("a second {of} named {name:?}"));
        }
        names.push(name.clone());
        Some(name)
    }

    /// The `true` or `false` under a key; `None` where the key is absent, and, with a fault noted, where it is neither.
    pub fn flag(&self, key: &str) -> Option<bool> {
        let stated = self.value(key)?;
        match stated.value {
            Written::Flag(flag) => Some(flag),
            _ => {
                self.wrong_kind(key, stated, "true or false");
                None
            }
        }
    }

    /// A number within the bounds of its parameter.
    pub fn number(&self, key: &str) -> Option<f64> {
        let stated = self.value(key)?;
        let Written::Number(number) = stated.value else {
            self.wrong_kind(key, stated, "a number");
            return None;
        };
        if !number.is_finite() {
            self.wrong_kind(key, stated, "a number");
            return None;
        }
        let kind = self.vocabulary.get(key).map(|parameter| parameter.kind);
        let (bounds, whole) = match kind {
            Some(Kind::Number { bounds, .. } | Kind::Share { bounds }) => (bounds, false),
            Some(Kind::Count { bounds }) => (bounds, true),
            _ => ((f64::NEG_INFINITY, f64::INFINITY), false),
        };
        if !(bounds.0..=bounds.1).contains(&number) {
            let (low, high) = bounds;
            let rule = if high.is_infinite() { format!("at least {low}") } else { format!("from {low} to {high}") };
            self.fault_of(key, format!("`{key}` must be {rule}, not {number}"));
            return None;
        }
        if whole && number.fract() != 0.0 {
            self.fault_of(key, format!("`{key}` counts whole things"));
            return None;
        }
        Some(number)
    }

    /// A quantity within the bounds of its parameter, written as text with its unit; in SI.
    pub fn quantity(&self, key: &str, gallon: Option<Gallon>) -> Option<f64> {
        let measured = self.vocabulary.get(key).and_then(Parameter::measured)?;
        self.measured(key, measured.dimension, measured, gallon)
    }

    /// The same, of another dimension than its parameter's where the product decides.
    pub fn quantity_as(&self, key: &str, dimension: Dimension, gallon: Option<Gallon>) -> Option<f64> {
        let measured = self.vocabulary.get(key).and_then(Parameter::measured)?;
        self.measured(key, dimension, measured, gallon)
    }

    fn measured(&self, key: &str, dimension: Dimension, measured: &Measured, gallon: Option<Gallon>) -> Option<f64> {
        let si = self.quantity_of(key, self.value(key)?, dimension, gallon)?;
        let refused = match measured.within {
            Within::NotNegative if si < 0.0 => "must not be negative".to_owned(),
            Within::Positive if si <= 0.0 => "must be more than zero".to_owned(),
            Within::Between(low, high) => {
                let unit = unit::by_symbol(measured.unit)?;
                if (unit.to_si(low)..=unit.to_si(high)).contains(&si) {
                    return Some(si);
                }
                format!("must lie from {low} to {high} {}", unit.symbol)
            }
            Within::NotNegative | Within::Positive => return Some(si),
        };
        self.fault_of(key, format!("`{key}` {refused}"));
        None
    }

    /// Reads one value as a quantity, in SI.
    pub fn quantity_of(&self, key: &str, stated: &Stated, dimension: Dimension, gallon: Option<Gallon>) -> Option<f64> {
        let example = dimension.example();
        let Some(text) = stated.value.text() else {
            self.wrong_kind(key, stated, &format!("a text with its unit, such as {example:?}"));
            return None;
        };
        match parse::quantity(text, dimension, None, gallon) {
            Ok(reading) if reading.nature == Nature::Exact => return Some(reading.si),
            Ok(_) => self.fault_at(&stated.at, format!("`{key}` must be one value, such as {example:?}")),
            Err(trouble) => self.fault_at(
                &stated.at,
                format!("`{key}` is not a {}: {trouble}; write it like {example:?}", dimension.name()),
            ),
        }
        None
    }

    /// One of the words of its parameter.
    pub fn word(&self, key: &str) -> Option<&'static str> {
        let choice = match self.vocabulary.get(key)?.kind {
            Kind::Choice(choice) | Kind::ChoiceOrTable(choice, _) => choice,
            _ => return None,
        };
        let text = self.text(key)?;
        let word = (choice.words)().into_iter().find(|word| *word == text);
        if word.is_none() {
            self.no_such_word(key, self.at_of(key), choice, &text);
        }
        word
    }

    /// Several of the words of its parameter.
    pub fn words(&self, key: &str) -> Option<Vec<&'static str>> {
        let Kind::Choices(choice) = self.vocabulary.get(key)?.kind else { return None };
        let known = (choice.words)();
        let mut words = Vec::new();
        for (text, at) in self.texts(key)? {
            match known.iter().find(|word| **word == text) {
                Some(word) => words.push(*word),
                None => self.no_such_word(key, &at, choice, &text),
            }
        }
        Some(words)
    }

    fn no_such_word(&self, key: &str, at: &At, choice: Choice, text: &str) {
        let words = (choice.words)();
        let reason = if choice.noun.is_empty() {
            let mut quoted: Vec<String> = words.iter().map(|word| format!("{word:?}")).collect();
            let last = quoted.pop().unwrap_or_default();
            format!("`{key}` must be {} or {last}, not {text:?}", quoted.join(", "))
        } else {
            format!("no {} {text:?}{}; known: {}", choice.noun, near(text, &words), words.join(", "))
        };
        self.fault_at(at, reason);
    }

    /// A day, as a date or as a text.
    pub fn date(&self, key: &str) -> Option<NaiveDate> {
        let stated = self.value(key)?;
        let written = match &stated.value {
            Written::Text(text) | Written::Date(text) => text.as_str(),
            _ => "",
        };
        let date = written.parse().ok();
        if date.is_none() {
            self.fault_at(&stated.at, format!("`{key}` must be a date such as 2026-05-31"));
        }
        date
    }

    /// A list of texts; a lone text counts as a list of one.
    pub fn texts(&self, key: &str) -> Option<Vec<(String, At)>> {
        let stated = self.value(key)?;
        if let Some(text) = stated.value.text() {
            return Some(vec![(text.to_owned(), stated.at.clone())]);
        }
        let Some(list) = stated.value.list() else {
            self.wrong_kind(key, stated, "a list of texts");
            return None;
        };
        let mut texts = Vec::new();
        for element in list {
            match element.value.text() {
                Some(text) => texts.push((text.to_owned(), element.at.clone())),
                None => self.wrong_kind(key, element, "a list of texts"),
            }
        }
        Some(texts)
    }

    /// A list of numbers.
    pub fn numbers(&self, key: &str) -> Option<Vec<f64>> {
        let stated = self.value(key)?;
        let Some(list) = stated.value.list() else {
            self.wrong_kind(key, stated, "a list of numbers");
            return None;
        };
        let mut numbers = Vec::new();
        for element in list {
            match element.value {
                Written::Number(number) => numbers.push(number),
                _ => {
                    self.wrong_kind(key, element, "a number");
                    return None;
                }
            }
        }
        Some(numbers)
    }

    /// The keys that tables under a key have.
    fn keys_under(&self, key: &str) -> &'static Vocabulary {
        self.vocabulary.get(key).and_then(Parameter::keys).unwrap_or(&FREE)
    }

    /// A table inside this one.
    pub fn section(&self, key: &str) -> Option<Section<'a>> {
        self.open(key, self.value(key)?, self.keys_under(key))
    }

    /// Opens a value as a table named after this one.
    pub fn open(&self, key: &str, stated: &'a Stated, keys: &'static Vocabulary) -> Option<Section<'a>> {
        let Some(table) = stated.value.table() else {
            self.wrong_kind(key, stated, "a table");
            return None;
        };
        let name = match self.name.as_str() {
            WHOLE => format!("[{key}]"),
            outer => format!("{outer} {key}"),
        };
        Some(Section::new(self.document, keys, name, stated.at.clone(), table))
    }

    /// A list of tables (`[[key]]`, or an inline list of tables); those that are none are noted and left out.
    pub fn sections(&self, key: &str) -> Vec<Section<'a>> {
        let Some(stated) = self.value(key) else { return Vec::new() };
        let Some(list) = stated.value.list() else {
            self.wrong_kind(key, stated, "a list of tables");
            return Vec::new();
        };
        let mut sections = Vec::new();
        for element in list {
            match element.value.table() {
                Some(table) => {
                    let keys = self.keys_under(key);
                    sections.push(Section::new(self.document, keys, format!("[[{key}]]"), element.at.clone(), table));
                }
                None => self.wrong_kind(key, element, "a list of tables"),
            }
        }
        sections
    }

    /// Keys and values as they are written, in order.
    pub fn entries(&self) -> impl Iterator<Item = (&'a str, &'a At, &'a Stated)> {
        self.table.entries.iter().map(|entry| (entry.key.as_str(), &entry.key_at, &entry.stated))
    }

    /// Notes every key that the vocabulary does not know.
    pub fn finish(&self) {
        for (key, at, _) in self.entries() {
            if self.vocabulary.get(key).is_none() {
                let mut known: Vec<&str> = self.vocabulary.all().map(|parameter| parameter.key).collect();
                known.sort_unstable();
                let near = near(key, &known);
                self.fault_at(at, format!("unknown key `{key}` in {}{near}; known: {}", self.name, known.join(", ")));
            }
        }
    }
}

/// A table whose keys are names of the user's own.
pub static FREE: Vocabulary = Vocabulary::free();

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
