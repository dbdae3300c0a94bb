//! The plan of a table: how the column of each field is read, and what the other columns are for.

use std::sync::Arc;

use super::RowUnits;
use super::basin::Basin;
use super::rival_widths::RivalWidth;
use super::sides::Sides;
use super::storage::Storage;
use super::strings::NextString;
use crate::field::species::Species;
use crate::field::{Field, WellType};
use crate::inventory::description::Described;
use crate::inventory::heading::Datum;
use crate::inventory::lexicon::Language;
use crate::inventory::multiple_choice::Question;
use crate::inventory::notes::OwnUnit;
use crate::place::Column;
use crate::quantity::unit::{INCH_M, Unit};

/// How a field's column is read.
#[derive(Debug, Clone)]
pub struct Feed {
    /// Index of the column.
    pub column: usize,
    /// Unit of a number without one; `None`: nobody has said.
    pub unit: Option<&'static Unit>,
    /// Whether the heading or the scenario file states that unit; else it is the campaign's usual one.
    pub unit_stated: bool,
    /// Whether the heading itself carries it.
    pub unit_in_heading: bool,
    /// Whether a number without a unit needs a word of its own, because nothing was said about the column.
    pub unit_unsaid: bool,
    /// Units of bare numbers for some types of well: `pipes in inches, hand-dug in feet`.
    pub unit_of_type: Vec<(WellType, &'static Unit)>,
    /// A hyphen between two numbers joins feet and inches: `62-0`, `24-6`.
    pub feet_hyphen_inches: bool,
    /// The column of what is left over in the smaller unit, where the length has a column for each: `ft | in`.
    pub left_over: Option<usize>,
    /// Sizes that a note gives for cells that say nothing: `drilled are 6 in. unless noted`.
    pub unless_noted: Vec<(WellType, f64)>,
    /// The middle of the bare numbers of a metric column, by type of well: one that is far smaller may be inches.
    pub middle_of_type: Vec<(WellType, f64)>,
    /// What a note gives for every cell that says nothing, in SI: `12 where the card is blank`.
    pub if_blank: Option<f64>,
    /// What was measured of a width: straight across, around, or something to compute it from.
    pub shape: Shape,
    /// Columns that say for each row in which units it measures.
    pub unit_of_row: Option<Arc<RowUnits>>,
    /// Most cells have a letter behind their number that is no unit: `6S`, `36T`.
    pub lettered: bool,
    /// What only a column of levels has.
    pub level: LevelFeed,
    /// Another column that gives the same where this one is blank.
    pub also: Option<Box<Feed>>,
    /// When that column counts.
    pub also_when: AlsoWhen,
    /// Index of the column beside it that holds the unit.
    pub unit_column: Option<usize>,
    /// The units that this column beside it writes, for a row that leaves it blank.
    pub units_beside: Vec<&'static Unit>,
    /// Index of the column beside it that holds a sign or a word before the value.
    pub qualifier_column: Option<usize>,
    /// What the mg/L of a bare number are counted as, where anybody has said.
    pub species: Option<&'static Species>,
    /// What a depth is counted from, where the heading says.
    pub datum: Option<Datum>,
    /// The same for some types of well, where notes say.
    pub datum_of_type: Vec<(WellType, Datum)>,
    /// The column is not read at all: its heading carries a unit that cannot be used.
    pub barred: bool,
}

/// What is known of a column of levels, beside what any column has.
#[derive(Debug, Clone, Default)]
pub struct LevelFeed {
    /// What a level is counted from by what another column says, where notes tell that: the column, and each of its words.
    pub datum_by_place: Option<(usize, Vec<(String, Datum)>)>,
    /// Words in a cell that say what its level is counted from, by a note: `where it says d/b, from the rim`.
    pub marks: Vec<(String, Datum)>,
    /// Short words behind a level that was not taken at rest, by a note: `P = pumping, R = recently pumped`.
    pub pumped: Vec<String>,
    /// Short words for a level that stands at the ground or would rise above it, by a note: `F = flowing`.
    pub flowing: Vec<String>,
    /// A note says that a plus sign before a level means above: `+ is above grade`.
    pub plus_is_above: bool,
    /// A minus sign before a level means below; a number without one would stand above.
    pub minus_is_below: bool,
    /// A height of the rim that is blank means that levels are counted from the ground, as the list says.
    pub blank_height_is_ground: bool,
    /// Index of the column beside it that says what a level is, or what it is counted from.
    pub reference_column: Option<usize>,
    /// Whether that column names the ground for some levels and the top for others.
    pub both_references: bool,
    /// Index of a second column that says what a level is: `S`, `P` beside `LS`, `MP`.
    pub state_column: Option<usize>,
    /// Index of the column that answers whether the pump had been off before the level was taken.
    pub pump_off: Option<usize>,
}

impl Feed {
    /// A column without anything beside it, in this unit.
    pub fn of(column: usize, unit: Option<&'static Unit>) -> Self {
        Self {
            column,
            unit,
            unit_stated: true,
            unit_in_heading: false,
            unit_unsaid: false,
            unit_of_type: Vec::new(),
            feet_hyphen_inches: false,
            left_over: None,
            unless_noted: Vec::new(),
            middle_of_type: Vec::new(),
            if_blank: None,
            shape: Shape::Straight,
            unit_of_row: None,
            lettered: false,
            level: LevelFeed::default(),
            also: None,
            also_when: AlsoWhen::Blank,
            unit_column: None,
            units_beside: Vec::new(),
            qualifier_column: None,
            species: None,
            datum: None,
            datum_of_type: Vec::new(),
            barred: false,
        }
    }
}

impl Feed {
    /// The column that counts where this one and so many after it do not.
    pub fn further(&self, steps: u8) -> &Self {
        (0..steps).fold(self, |feed, _| feed.also.as_deref().unwrap_or(feed))
    }

    /// This column and those behind it.
    pub fn columns(&self) -> impl Iterator<Item = usize> {
        std::iter::successors(Some(self), |feed| feed.also.as_deref()).map(|feed| feed.column)
    }

    /// How many columns stand behind this one.
    pub fn depth(&self) -> u8 {
        self.also.as_deref().map_or(0, |also| also.depth().saturating_add(1))
    }
}

/// When the second column of a field counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum AlsoWhen {
    /// The first says nothing.
    #[default]
    Blank,
    /// The first says `other`.
    Other,
    /// The first, of a later date, has no level at rest.
    NotAtRest,
    /// The first has no number: of several dates the last one that has counts, as the list says.
    NoNumber,
    /// The first says nothing, and neither does this column, the width of the string that the first is the end of.
    NoString(usize),
}

/// What was measured of a round thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Shape {
    /// Straight, as the field says.
    #[default]
    Straight,
    /// Around the outside: a circumference.
    Around,
    /// From the middle outward.
    Radius,
    /// What a length of it holds; the number is written as inches are.
    Storage(Storage),
}

impl Shape {
    /// The diameter of what was measured, in the unit it was measured in.
    pub fn diameter(self, measured: f64) -> f64 {
        match self {
            Self::Straight => measured,
            Self::Around => measured / std::f64::consts::PI,
            Self::Radius => 2.0 * measured,
            Self::Storage(storage) => storage.diameter(measured / INCH_M),
        }
    }
}

/// Whether a field is measured across.
pub const fn is_diameter(field: Field) -> bool {
    matches!(
        field,
        Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter | Field::WallThickness
    )
}

/// The plan of one table.
#[derive(Debug, Clone, Default)]
pub struct Plan {
    /// The columns as the list has them, from the left.
    pub columns: Vec<Column>,
    /// One for each field.
    pub feeds: Vec<Option<Feed>>,
    /// Questions whose answers are columns of ticks.
    pub questions: Vec<Question>,
    /// Columns that may be what a dose rests on, and are not read until that is confirmed.
    pub open: Vec<(usize, Field)>,
    /// Those of them that may hold another width than the one that is read.
    pub rival_widths: Vec<RivalWidth>,
    /// Columns of sentences whose heading does not say what they are about.
    pub wordy: Vec<usize>,
    /// The column that says in words how the width changes further down.
    pub changes: Option<usize>,
    /// The column that describes whole wells, where there is one.
    pub described: Option<Described>,
    /// The column that says how each well ends below its casing.
    pub finish: Option<usize>,
    /// Whether the width of the casing is that of the screen too, by the list's own words.
    pub screen_as_casing: bool,
    /// Whether the column of the open hole may be that of the hole drilled for the casing: its heading does not say open.
    pub hole_is_drilled: bool,
    /// A note says that the hole below a casing is as wide as the casing.
    pub hole_as_casing: bool,
    /// The end of the casing is told by the length of the lower pipe, which reaches from there to the bottom.
    pub lower_length: bool,
    /// Whether the list writes a zero where nothing was measured: it has wells that are none deep, or none wide.
    pub zeros_are_blanks: bool,
    /// A negative number that stands for nothing in this list: depths or widths have it, which nothing can be.
    pub negative_blank: Option<f64>,
    /// The language of its headings.
    pub language: Language,
    /// The column that says how wide the screen below the casing is.
    pub screens: Option<usize>,
    /// The sides of wells that are not round, where they have columns.
    pub sides: Option<Sides>,
    /// The box of a spring, where its measures have columns.
    pub basin: Option<Basin>,
    /// The casing strings below the first one, where they have columns of their own.
    pub strings: Vec<NextString>,
    /// How far every rim stands above the ground by a note, in SI, and the unit it is written in.
    pub rim_height: Option<(f64, &'static Unit)>,
    /// Units that its notes define: `1 anel = 0,50 m`.
    pub own_units: Vec<OwnUnit>,
    /// Columns that are carried: index of the column, and the heading it is carried under.
    pub carried: Vec<(usize, String)>,
}

impl Plan {
    /// Whether a column describes whole wells.
    pub fn describes(&self, column: usize) -> bool {
        self.described.is_some_and(|described| described.column == column)
    }
}
