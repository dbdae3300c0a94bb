//! The campaign's vocabulary: everything that a campaign states, each once, with its kind, bounds, default, source and meaning.
//!
//! The scenario room reads scenario files and campaign books by it, grids and overrides take their keys from it, and the
//! Assumptions sheet, the campaign book and the reference table print it. Refuses to know about files and wells.

mod campaign;
mod practice;
mod product;
mod removal;
mod value;

use crate::kernel::requirement::Practice;
use crate::quantity::unit::Dimension;

pub use campaign::{
    ASSUMED, BUY, CAMPAIGN, CREW, FILE, GRID, INVENTORY, LIST, MISSING, NEUTRALIZER, NO_CURRENCY, OVERRIDE, STOCK,
    SUPPLY,
};
pub use practice::{PRACTICE, default_practice, of_practice};
pub use product::{NO_SUPPLIER, PACKAGES, PRODUCT, SCENARIO, STORAGE_LEG, STRENGTH};
pub use value::Value;

/// One thing that a campaign states.
#[derive(Debug, Clone, Copy)]
pub struct Parameter {
    /// Its key in scenario files.
    pub key: &'static str,
    /// What it is called where people read it.
    pub title: &'static str,
    /// What is written for it, in which unit and within which bounds.
    pub kind: Kind,
    /// What is taken where nothing is stated.
    pub default: Taken,
    /// Where the default comes from.
    pub source: &'static str,
    /// What it means and does.
    pub meaning: &'static str,
    /// Whether its table makes no sense without it.
    pub is_needed: bool,
    /// What it changes at a well; nothing where it is no matter of practice.
    pub effect: Option<Effect>,
}

/// What is taken where nothing is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken {
    /// What these words say.
    Words(&'static str),
    /// A number in the parameter's own unit.
    Number(f64),
    /// One of its words.
    Word(&'static str),
    /// Several of its words.
    Several(&'static [&'static str]),
}

/// What may be written.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// Text that is not chosen from given words: a name, a title, a condition.
    Text,
    /// `true` or `false` in a scenario file, yes or no in a book.
    Flag,
    /// A day of the calendar, such as 2026-05-31.
    Date,
    /// A number in a unit that the key names.
    Number {
        /// The unit; empty for a pure number.
        unit: &'static str,
        /// Least and greatest number that is accepted, in that unit.
        bounds: (f64, f64),
    },
    /// A count of whole things.
    Count {
        /// Least and greatest count that is accepted.
        bounds: (f64, f64),
    },
    /// A part of a whole, written as 0.2 and read by people as 20 %.
    Share {
        /// Least and greatest part that is accepted, as 0.2.
        bounds: (f64, f64),
    },
    /// A text with its unit.
    Quantity(Measured),
    /// One of some words.
    Choice(Choice),
    /// Several of some words.
    Choices(Choice),
    /// One text or several, none of them from given words.
    Texts,
    /// South, west, north and east, in degrees.
    Corners,
    /// A table of these keys.
    Table(&'static Vocabulary),
    /// A list of such tables.
    Tables(&'static Vocabulary),
    /// One of some words, or a table.
    ChoiceOrTable(Choice, &'static Vocabulary),
    /// A text with its unit, or a list of tables.
    QuantityOrTables(Measured, &'static Vocabulary),
    /// Names of the user's own with a text each, or with a table of such names.
    Names,
}

/// A quantity that is written with its unit.
#[derive(Debug, Clone, Copy)]
pub struct Measured {
    /// What it measures; volume also for a package or a stock, where a dry product takes a mass instead.
    pub dimension: Dimension,
    /// Units that people read, by system of the campaign: us, metric, imperial.
    pub units: [&'static str; 3],
    /// Unit of the bounds and of the default.
    pub unit: &'static str,
    /// What it may be.
    pub within: Within,
}

/// Bounds of a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Within {
    /// Zero is accepted: there may be none of it.
    NotNegative,
    /// Zero is refused too, as for the size of a package.
    Positive,
    /// Between two values, both included.
    Between(f64, f64),
}

/// A list of words.
#[derive(Debug, Clone, Copy)]
pub struct Choice {
    /// What one of them is, for messages: `route`.
    pub noun: &'static str,
    /// Makes the list of all words that are accepted, in the order in which people see them.
    pub words: fn() -> Vec<&'static str>,
}

/// What a parameter does to the practice.
#[derive(Debug, Clone, Copy)]
pub enum Effect {
    /// It sets one value.
    Sets {
        /// A few words for names of scenarios, with the value in place of `{}`.
        label: &'static str,
        /// Puts a value into a practice.
        set: fn(&mut Practice, &Value),
        /// The value that stands in a practice.
        get: fn(&Practice) -> Value,
        /// Decimals that people read.
        digits: usize,
    },
    /// It is a table of such values.
    Group {
        /// A few words for all that is stated of the group.
        label: fn(&[Stated]) -> String,
        /// Makes room before the values that are stated are set: for those that are only good together.
        clear: fn(&mut Practice, &[Stated]),
    },
}

/// A value that is stated of a group, with its few words.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// The key within the group.
    pub key: &'static str,
    /// What is stated, typed as the key's parameter asks; a quantity is in SI.
    pub value: Value,
    /// Its few words, with the value as it was written: part of a scenario's name.
    pub label: String,
}

/// The keys of one table.
#[derive(Debug)]
pub struct Vocabulary {
    /// Keys of its own.
    pub own: &'static [Parameter],
    /// Whether every practice key may stand in it too.
    pub takes_practice: bool,
    /// Whether its keys are names of the user's own.
    pub is_free: bool,
}

impl Vocabulary {
    /// A table of these keys.
    pub const fn of(own: &'static [Parameter]) -> Self {
        Self { own, takes_practice: false, is_free: false }
    }

    /// A table of these keys and all of the practice.
    pub const fn with_practice(own: &'static [Parameter]) -> Self {
        Self { own, takes_practice: true, is_free: false }
    }

    /// A table whose keys are names of the user's own.
    pub const fn free() -> Self {
        Self { own: &[], takes_practice: false, is_free: true }
    }

    /// Every key that may stand in the table: its own, then those of the practice where it takes them.
    pub fn all(&self) -> impl Iterator<Item = &'static Parameter> {
        let practice: &'static [Parameter] = if self.takes_practice { PRACTICE.own } else { &[] };
        self.own.iter().chain(practice)
    }

    /// The parameter of a key.
    pub fn get(&self, key: &str) -> Option<&'static Parameter> {
        self.all().find(|parameter| parameter.key == key)
    }
}

impl Parameter {
    const fn new(key: &'static str, title: &'static str, kind: Kind) -> Self {
        let default = Taken::Words("");
        Self { key, title, kind, default, source: "", meaning: "", is_needed: false, effect: None }
    }

    const fn text(key: &'static str, title: &'static str) -> Self {
        Self::new(key, title, Kind::Text)
    }

    const fn number(key: &'static str, title: &'static str, unit: &'static str, bounds: (f64, f64)) -> Self {
        Self::new(key, title, Kind::Number { unit, bounds })
    }

    const fn share(key: &'static str, title: &'static str, bounds: (f64, f64)) -> Self {
        Self::new(key, title, Kind::Share { bounds })
    }

    const fn choice(
        key: &'static str,
        title: &'static str,
        noun: &'static str,
        words: fn() -> Vec<&'static str>,
    ) -> Self {
        Self::new(key, title, Kind::Choice(Choice { noun, words }))
    }

    const fn table(key: &'static str, title: &'static str, keys: &'static Vocabulary) -> Self {
        Self::new(key, title, Kind::Table(keys))
    }

    const fn tables(key: &'static str, title: &'static str, keys: &'static Vocabulary) -> Self {
        Self::new(key, title, Kind::Tables(keys))
    }

    const fn needed(mut self) -> Self {
        self.is_needed = true;
        self
    }

    const fn means(mut self, meaning: &'static str) -> Self {
        self.meaning = meaning;
        self
    }

    const fn else_words(mut self, words: &'static str) -> Self {
        self.default = Taken::Words(words);
        self
    }

    const fn else_number(mut self, number: f64) -> Self {
        self.default = Taken::Number(number);
        self
    }

    const fn else_word(mut self, word: &'static str) -> Self {
        self.default = Taken::Word(word);
        self
    }

    const fn after(mut self, source: &'static str) -> Self {
        self.source = source;
        self
    }

    const fn sets(
        mut self,
        label: &'static str,
        digits: usize,
        set: fn(&mut Practice, &Value),
        get: fn(&Practice) -> Value,
    ) -> Self {
        self.effect = Some(Effect::Sets { label, set, get, digits });
        self
    }

    const fn groups(mut self, label: fn(&[Stated]) -> String, clear: fn(&mut Practice, &[Stated])) -> Self {
        self.effect = Some(Effect::Group { label, clear });
        self
    }

    /// The quantity it is, where it is written with a unit.
    pub fn measured(&self) -> Option<&Measured> {
        match &self.kind {
            Kind::Quantity(measured) | Kind::QuantityOrTables(measured, _) => Some(measured),
            _ => None,
        }
    }

    /// The words it may be, where it is one of some or several of them.
    pub fn words(&self) -> Option<Vec<&'static str>> {
        match &self.kind {
            Kind::Choice(choice) | Kind::Choices(choice) | Kind::ChoiceOrTable(choice, _) => Some((choice.words)()),
            _ => None,
        }
    }

    /// The keys of its tables, where it is one or a list of them.
    pub fn keys(&self) -> Option<&'static Vocabulary> {
        match self.kind {
            Kind::Table(keys) | Kind::Tables(keys) | Kind::ChoiceOrTable(_, keys) | Kind::QuantityOrTables(_, keys) => {
                Some(keys)
            }
            _ => None,
        }
    }
}

const VOLUMES: [&str; 3] = ["US gal", "L", "imp gal"];
const FLOWS: [&str; 3] = ["US gpm", "L/min", "imp gpm"];
const MASSES: [&str; 3] = ["lb", "kg", "lb"];
const TEMPERATURES: [&str; 3] = ["F", "C", "C"];

const fn volume(within: Within) -> Kind {
    Kind::Quantity(Measured { dimension: Dimension::Volume, units: VOLUMES, unit: "L", within })
}

const fn flow(within: Within) -> Kind {
    Kind::Quantity(Measured { dimension: Dimension::Flow, units: FLOWS, unit: "L/min", within })
}

const fn mass(within: Within) -> Kind {
    Kind::Quantity(Measured { dimension: Dimension::Mass, units: MASSES, unit: "kg", within })
}

const fn temperature(within: Within) -> Measured {
    Measured { dimension: Dimension::Temperature, units: TEMPERATURES, unit: "C", within }
}
