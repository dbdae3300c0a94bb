//! One cell, read as the field it feeds: a number in SI, a choice, a flag, a text, or missing in one of many disguises.

mod choice;
mod kept;
mod known;
mod missing;
mod said;
mod second;

use std::collections::HashSet;

use foldhash::fast::FixedState;

use choice::{Choices, OwnWords, choice, flag, meant};
use kept::KeptNames;
pub use known::Known;
use missing::{ERRORS, MISSING, is_sentinel};
pub use said::{Form, Said};

use super::choices::Meaning;
use super::dates;
use super::rows::CellKind;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::field::{Field, Kind, Quantity};
use crate::finding::{Code, Words, catalogue};
use crate::quantity::parse::{self, Comma, Nature, Trouble, plain};
use crate::quantity::unit::{Dimension, Gallon, Unit};

/// What a cell holds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Datum {
    /// Nothing, or a word for nothing.
    #[default]
    Missing,
    /// Something that could not be read; a finding says so.
    Unread,
    /// A quantity in SI, or a pure number.
    Number(f64),
    /// Text; what was typed.
    Text,
    /// Yes or no.
    Flag(bool),
    /// A choice, by its place in the field's list.
    Choice(u8),
}

/// A datum with what else there is to say about it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Understood {
    /// The datum.
    pub datum: Datum,
    /// Whether the cell says its own unit.
    pub unit_written: bool,
    /// The unit it was read in, where it is not simply that of its column.
    pub unit: Option<&'static Unit>,
    /// Lowest and highest SI value, where a range or an estimate was written.
    pub spread: Option<(f64, f64)>,
    /// What a cell of a size says beside its number, or instead of it.
    pub said: Option<Box<Said>>,
    /// What there is to remark.
    pub remarks: Vec<Remark>,
}

/// A finding about a cell, before it has a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Entry of the catalogue.
    pub code: Code,
    /// The instance.
    pub says: Words,
    /// What to do.
    pub help: Words,
    /// What was probably meant.
    pub suggested: Option<String>,
}

impl Understood {
    fn of(datum: Datum) -> Self {
        Self { datum, ..Self::default() }
    }

    fn say(self, code: Code, says: impl Into<Words>, help: impl Into<Words>) -> Self {
        self.remark(Remark { code, says: says.into(), help: help.into(), suggested: None })
    }

    fn remark(mut self, remark: Remark) -> Self {
        // Nearly always the only one.
        self.remarks.reserve_exact(1);
        self.remarks.push(remark);
        self
    }
}

/// What [`parse`] notes where it took a comma for the decimal mark.
const DECIMAL_MARK: &str = "the comma read as the decimal mark";

/// The unit of a bare number in a column.
#[derive(Debug, Clone, Copy, Default)]
pub struct ColumnUnit {
    /// The unit; nothing where nobody has said it.
    pub unit: Option<&'static Unit>,
    /// Whether the column itself states it, so that another one in a cell is worth a remark.
    pub stated: bool,
}

/// A plain number that is nothing but itself, in SI: the nine cells in ten that need no thought.
pub fn quick_number(field: Field, text: &str, unit: &Unit) -> Option<f64> {
    let value = plain(text).filter(|value| *value != 0.0 && !is_sentinel(*value, field))?;
    if matches!(field, Field::StaticWaterLevel | Field::TotalDepth) && text.as_bytes()[0] == b'+' {
        return None; // A plus sign is a question: above or below, so much or more.
    }
    (unit.dimension != Dimension::Angle || value.abs() <= 180.0).then(|| unit.to_si(value))
}

/// Degrees, minutes and seconds packed into one number, as in 443053.32: only what cannot be decimal degrees.
fn packed(text: &str, value: f64, limit: f64) -> Option<f64> {
    let whole = text.trim_start_matches(['-', '+']).split('.').next().unwrap_or_default();
    if value.abs() <= limit || !(6..=7).contains(&whole.len()) {
        return None;
    }
    let magnitude = value.abs();
    let degrees = (magnitude / 10_000.0).floor();
    let minutes = ((magnitude - degrees * 10_000.0) / 100.0).floor();
    let seconds = magnitude - degrees * 10_000.0 - minutes * 100.0;
    let sound = degrees <= limit && minutes < 60.0 && seconds < 60.0;
    sound.then(|| (degrees + minutes / 60.0 + seconds / 3600.0).copysign(value))
}

/// What every cell of a campaign is read by.
#[derive(Debug, Default)]
pub struct CellRules {
    missing: HashSet<String, FixedState>,
    /// By first byte in lower case: which lengths occur, as bits. Nearly every cell is settled by it.
    lengths: Vec<u64>,
    well_types: Choices,
    routes: Choices,
    words: OwnWords,
    names: KeptNames,
    gallon: Option<Gallon>,
}

impl CellRules {
    /// From the campaign's rules.
    pub fn new(rules: &ReadingRules) -> Self {
        let own = rules.missing_texts.iter().map(|text| text.trim().to_lowercase());
        let missing: HashSet<String, FixedState> = MISSING.iter().map(|text| (*text).to_owned()).chain(own).collect();
        let mut lengths = vec![0_u64; 256];
        for text in &missing {
            if let Some(first) = text.bytes().next() {
                lengths[usize::from(first)] |= 1 << text.len().min(63);
            }
        }
        Self {
            missing,
            lengths,
            well_types: Choices::of(Field::WellType),
            routes: Choices::of(Field::DischargeRoute),
            words: OwnWords::new(&rules.words),
            names: KeptNames::new(&rules.words),
            gallon: rules.system.and_then(UnitSystem::gallon),
        }
    }

    /// The name that is kept in place of this one, where the campaign says so.
    pub fn kept_name(&self, field: Field, name: &str) -> Option<&str> {
        self.names.of(field, name)
    }

    /// Whether this text means "not known".
    pub fn is_missing(&self, text: &str) -> bool {
        // The longest of the list is short; prose is not looked up.
        let first = text.bytes().next().unwrap_or(0).to_ascii_lowercase();
        let possible =
            self.lengths.get(usize::from(first)).is_some_and(|lengths| lengths & 1 << text.len().min(63) != 0);
        // A letter that is not ASCII may change its length with its case.
        if text.len() > 40 || !possible && text.is_ascii() {
            return false;
        }
        let mut buffer = [0_u8; 40];
        if text.is_ascii() {
            let lower = &mut buffer[..text.len()];
            lower.copy_from_slice(text.as_bytes());
            lower.make_ascii_lowercase();
            return std::str::from_utf8(lower).is_ok_and(|lower| self.missing.contains(lower));
        }
        self.missing.contains(&text.to_lowercase())
    }

    /// Whether this text is nothing but itself, as nearly all ids and names are: it need not be read further.
    pub fn is_plain_text(&self, text: &str, kind: CellKind) -> bool {
        kind != CellKind::Error && !text.starts_with('#') && self.words.are_none() && !self.is_missing(text)
    }

    /// Whether this text, or this number, means "not known" in a field.
    pub fn says_nothing(&self, field: Field, text: &str) -> bool {
        plain(text).map_or_else(|| self.is_missing(text), |value| is_sentinel(value, field) || self.is_missing(text))
    }

    /// Reads one cell, which has no outer blanks, as `field`. `unit` is that of a bare number.
    pub fn read(&self, field: Field, text: &str, kind: CellKind, unit: ColumnUnit, comma: Comma) -> Understood {
        if text.is_empty() {
            return Understood::default();
        }
        if kind == CellKind::Error
            || text.starts_with('#') && ERRORS.iter().any(|error| error.eq_ignore_ascii_case(text))
        {
            return Understood::default().say(
                catalogue::SPREADSHEET_ERROR,
                "the workbook holds an error here; read as missing",
                "fix the formula, or type the value",
            );
        }
        // The campaign's own words come first: `J` may mean yes, and `-` no.
        if let Some(understood) = self.words.read(field, text) {
            return understood;
        }
        match field.definition().kind {
            Kind::Quantity(quantity) => self.quantity(field, &quantity, text, kind, unit, comma),
            // A cross in a column of yes and no is a tick; anywhere else it says nothing.
            Kind::Flag if text.eq_ignore_ascii_case("x") => flag(field, text),
            _ if self.is_missing(text) => Understood::default(),
            Kind::Text => Understood::of(Datum::Text),
            Kind::Choice(choices) => {
                let known = if field == Field::WellType { &self.well_types } else { &self.routes };
                choice(field, choices, known, text)
            }
            Kind::Flag => flag(field, text),
        }
    }

    /// A choice by what its words mean; `text` is empty where there are no words that could be given another meaning.
    pub fn meant(&self, field: Field, meaning: Meaning<&'static str>, text: &str) -> Understood {
        match field.definition().kind {
            Kind::Choice(words) => meant(field, words, meaning, text),
            Kind::Text | Kind::Flag | Kind::Quantity(_) => Understood::default(),
        }
    }

    fn quantity(
        &self,
        field: Field,
        quantity: &Quantity,
        text: &str,
        kind: CellKind,
        column: ColumnUnit,
        comma: Comma,
    ) -> Understood {
        let unit = column.unit;
        // `+80` of a depth is eighty or more.
        let bound = field == Field::TotalDepth && text.starts_with('+');
        if let (Some(value), Some(unit)) = (plain(text), unit)
            && kind != CellKind::Date
            && !bound
        {
            if value == 0.0 && !quantity.zero_possible {
                return zero_for_missing(field);
            }
            if is_sentinel(value, field) {
                return Understood::default().say(
                    catalogue::SENTINEL,
                    format!("{text} stands for \"not known\"; read as missing"),
                    "leave the cell blank where the value is not known",
                );
            }
            if quantity.dimension == Dimension::Angle
                && let Some(degrees) = packed(text, value, quantity.possible.1)
            {
                let says = format!("degrees, minutes and seconds in one number: read as {degrees:.6}");
                return Understood::of(Datum::Number(degrees)).say(catalogue::PACKED_DEGREES, says, IF_RIGHT);
            }
            if field == Field::StaticWaterLevel && text.starts_with('+') {
                return self.trouble(field, quantity, text, &Trouble::PlusLevel);
            }
            return Understood::of(Datum::Number(unit.to_si(value)));
        }
        if self.is_missing(text) {
            return Understood::default();
        }
        if kind == CellKind::Date {
            return unread(field, catalogue::DATE_FOR_NUMBER, "the workbook holds a date here".into(), DATE_HELP);
        }
        said::read(field, text, quantity.dimension, column, self.gallon, comma)
            .unwrap_or_else(|trouble| self.trouble(field, quantity, text, &trouble))
    }

    fn trouble(&self, field: Field, quantity: &Quantity, text: &str, trouble: &Trouble) -> Understood {
        let example = quantity.dimension.example();
        let (code, help) = match trouble {
            Trouble::NoUnit { .. } if plain(text).is_some_and(|value| is_sentinel(value, field)) => {
                return Understood::default();
            }
            Trouble::NoUnit { .. } => (
                catalogue::NO_UNIT,
                format!(
                    "write the unit, or [inventory.units] {} = \"{}\" (or the correct unit)",
                    field.name(),
                    quantity.unit
                ),
            ),
            Trouble::GallonUndeclared { .. } => (
                catalogue::GALLON_UNDECLARED,
                "[campaign] units = \"us\" or \"imperial\", or write US gal or imp gal".to_owned(),
            ),
            Trouble::WrongDimension { .. } => {
                (catalogue::UNIT_OF_OTHER_DIMENSION, format!("write it as in \"{example}\""))
            }
            _ if dates::looks_like_date(text) => {
                return unread(field, catalogue::DATE_FOR_NUMBER, "this looks like a date".into(), DATE_HELP);
            }
            Trouble::TwoValues { .. } if matches!(field, Field::CasingDiameter) => (
                catalogue::TWO_READINGS,
                "write how deep each reaches, as in \"8 in to 60 ft, 6 in below\", or the one that counts".to_owned(),
            ),
            Trouble::TwoValues { .. } => (catalogue::TWO_READINGS, "write the one that counts".to_owned()),
            Trouble::FeetOrRange { .. } => (
                catalogue::TWO_READINGS,
                "write feet and inches as in 8' 11\", or the one value that counts".to_owned(),
            ),
            Trouble::PlusLevel => (
                catalogue::TWO_READINGS,
                "write it as in \"3 ft above ground\" where the water stands above the ground, else take the sign out"
                    .to_owned(),
            ),
            Trouble::Dry => {
                (catalogue::NOT_AT_REST, "leave a dry well out; write the level if there is water".to_owned())
            }
            Trouble::Pumping => (catalogue::NOT_AT_REST, "write the level at rest, before pumping".to_owned()),
            _ => (catalogue::NUMBER_NOT_UNDERSTOOD, format!("write it as in \"{example}\", or leave the cell blank")),
        };
        let mut understood = unread(field, code, trouble.to_string(), help);
        if let Trouble::NotUnderstood { part, near: Some(near), .. } = trouble
            && let Some(remark) = understood.remarks.first_mut()
        {
            remark.suggested = text.strip_suffix(part.as_str()).map(|number| format!("{number}{near}"));
        }
        understood
    }
}

const DATE_HELP: &str =
    "a spreadsheet may have turned a range such as 6-8 into a date: format the cell as text and type it again";

const IF_RIGHT: &str = "no action needed if correct";

fn zero_for_missing(field: Field) -> Understood {
    Understood::default().say(
        catalogue::ZERO_FOR_MISSING,
        format!("{} cannot be zero; read as missing", field.name()),
        "leave the cell blank where the value is not known",
    )
}

/// What is unread holds the well back, unless the field has no part in the dose: then only a warning.
fn unread(field: Field, code: Code, says: String, help: impl Into<Words>) -> Understood {
    if is_aside(field) {
        let says = format!("{says}; {} is left blank", field.name());
        return Understood::default().say(catalogue::ASIDE_NOT_UNDERSTOOD, says, help);
    }
    Understood::of(Datum::Unread).say(code, says, help)
}

/// Fields that have no part in the amount of product.
pub fn is_aside(field: Field) -> bool {
    matches!(
        field,
        Field::Latitude
            | Field::Longitude
            | Field::UsersServed
            | Field::PumpRate
            | Field::WellYield
            | Field::WaterTemperature
            | Field::Ph
    )
}

fn written(field: Field, text: &str, reading: &parse::Reading, column: ColumnUnit, comma: Comma) -> Understood {
    let quantity = field.quantity();
    let zero = reading.si == reading.unit.to_si(0.0);
    if zero && quantity.is_some_and(|quantity| !quantity.zero_possible) {
        return zero_for_missing(field);
    }
    let value = |before, after: &str| Words::value(before, reading.si, reading.unit, after);
    let mut understood = Understood::of(Datum::Number(reading.si));
    understood.unit_written = reading.unit_was_written;
    understood.unit = Some(reading.unit);
    match reading.nature {
        Nature::Exact => {}
        Nature::Range { low_si, high_si } => {
            understood.spread = Some((low_si, high_si));
            let says = value("a range; its middle, ", ", is used");
            understood = understood.say(catalogue::RANGE, says, "give one value if you know it");
        }
        Nature::AtLeast => {
            let says = value("", " or more; it is read as this value");
            understood = understood.say(catalogue::BOUND, says, "give the value if you know it");
        }
        Nature::AtMost => {
            let says = value("", " or less; it is read as this value");
            understood = understood.say(catalogue::BOUND, says, "give the value if you know it");
        }
    }
    // Where the whole list writes decimals with a comma, that is said once, about the list.
    let expected = comma == Comma::Decimal && reading.note.as_deref() == Some(DECIMAL_MARK);
    if let Some(note) = reading.note.as_ref().filter(|_| !expected) {
        if note.contains("comma") && ambiguous_comma(text) {
            if field == Field::UsersServed {
                return understood; // People come in whole numbers.
            }
            let says = value("read as ", &format!(" ({note})"));
            let help = "write the number without separators, with a point for decimals";
            understood = understood.say(catalogue::AMBIGUOUS_COMMA, says, help);
        } else if reading.nature == Nature::Exact || !note.contains("read as") {
            let says = value("read as ", &format!(" ({note})"));
            understood = understood.say(catalogue::REMARK_AFTER_NUMBER, says, IF_RIGHT);
        }
    }
    if reading.unit_was_written
        && column.stated
        && let Some(column) = column.unit
        && column.symbol != reading.unit.symbol
        && column.dimension == reading.unit.dimension
        && !same_family(column, reading.unit)
    {
        understood = understood.say(
            catalogue::UNIT_DIFFERS_FROM_COLUMN,
            format!("the cell says {}, the column {}; the cell counts", reading.unit.symbol, column.symbol),
            IF_RIGHT,
        );
    }
    understood
}

/// Feet and inches in a feet column, centimetres in a metre column: nothing to remark.
pub fn same_family(a: &Unit, b: &Unit) -> bool {
    let family = |unit: &Unit| match unit.symbol {
        "ft" | "in" | "yd" => 1,
        "m" | "cm" | "mm" => 2,
        _ => 0,
    };
    // Inches in a millimetre column are a change of system worth a remark; in a feet column they are plain English.
    family(a) != 0 && family(a) == family(b)
}

fn ambiguous_comma(text: &str) -> bool {
    let mut parts = text.split(',');
    let before = parts.next().unwrap_or_default();
    let after = parts.next().unwrap_or_default();
    let digits = after.chars().take_while(char::is_ascii_digit).count();
    parts.next().is_none()
        && digits == 3
        && !before.trim_start_matches(['-', '+']).starts_with('0')
        && !text.contains('.')
}
