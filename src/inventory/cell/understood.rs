//! What is understood of a cell: a datum, with what there is to say of it.

use crate::field::Field;
use crate::finding::{Code, Words, catalogue};
use crate::quantity::parse::{Piece, Pipe, Reference, Rings};
use crate::quantity::unit::Unit;

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
    /// An answer: true for yes.
    Flag(bool),
    /// A choice, by its place in the field's list.
    Choice(u8),
}

/// A datum with what else there is to say about it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Understood {
    /// What feeds the field.
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

impl Understood {
    pub(super) fn of(datum: Datum) -> Self {
        Self { datum, ..Self::default() }
    }

    pub(super) fn say(self, code: Code, says: impl Into<Words>, help: impl Into<Words>) -> Self {
        self.remark(Remark { code, says: says.into(), help: help.into(), suggested: None })
    }

    pub(super) fn remark(mut self, remark: Remark) -> Self {
        // Nearly always the only one.
        self.remarks.reserve_exact(1);
        self.remarks.push(remark);
        self
    }
}

/// What a cell says beside its number, or instead of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Said {
    /// What a depth is counted from.
    pub from: Option<Reference>,
    /// Whether a range was written, of which the middle was taken.
    pub range: bool,
    /// What stands there instead of a number.
    pub form: Option<Form>,
}

/// What a cell says instead of one number.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// Strings of casing, one below another.
    Strings(Vec<Piece>),
    /// A pipe by its outside or its nominal size.
    Pipe(Pipe),
    /// The height of the standing water, in metres.
    Water(f64),
    /// Narrower rings at the bottom.
    Rings(Rings),
    /// The depth of the water, in metres, where its height was asked.
    Level(f64),
    /// The water stands at the ground, where its height was asked.
    Full,
    /// The water stands at the ground, and would rise above it.
    Flowing,
}

/// A finding about a cell, before it has a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Entry of the catalogue.
    pub code: Code,
    /// What is wrong with this cell.
    pub says: Words,
    /// What a person does about it.
    pub help: Words,
    /// What was probably meant.
    pub suggested: Option<String>,
}

/// What is unread holds the well back, unless the field has no part in the dose: then only a warning.
pub(super) fn unread(field: Field, code: Code, says: String, help: impl Into<Words>) -> Understood {
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
