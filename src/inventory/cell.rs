//! One cell, read as the field it feeds: a number in SI, a choice, a flag, a text, or missing in one of many disguises.

mod choice;
mod kept;
mod known;
mod missing;
mod number;
mod quantity;
mod second;
mod size;
mod understood;

use std::collections::HashSet;

use foldhash::fast::FixedState;

pub use choice::says_no_well;
use choice::{Choices, OwnWords, choice, flag, meant};
use kept::KeptNames;
pub use known::Known;
use missing::{ERRORS, MISSING, is_sentinel};
pub use number::same_family;
pub use quantity::quick_number;
pub use understood::{Datum, Form, Remark, Said, Understood, is_aside};

use super::choices::Meaning;
use super::rows::CellKind;
use crate::field::rules::{ReadingRules, UnitSystem};
use crate::field::{Field, Kind};
use crate::finding::catalogue;
use crate::quantity::parse::{Comma, plain};
use crate::quantity::unit::{Gallon, Unit};

/// The unit of a bare number in a column.
#[derive(Debug, Clone, Copy, Default)]
pub struct ColumnUnit {
    /// Nothing where nobody has said it.
    pub unit: Option<&'static Unit>,
    /// Whether the column itself states it, so that another one in a cell is worth a remark.
    pub stated: bool,
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
}
