//! Types of well, discharge routes and yes/no by what people write, not by how they spell it.
//!
//! Reads a phrase by its words in English, Spanish, French and Portuguese (`words/*.toml`): which words decide, which only
//! support, what is denied, doubted or left open. Whatever a careful person would ask is [`Meaning::Ask`], never guessed.
//! The same functions serve the lists and the prompt. Refuses to know columns.

/// The files of words of one subject.
macro_rules! in_all_languages {
    ($subject:literal) => {
        [
            include_str!(concat!("../words/", $subject, ".en.toml")),
            include_str!(concat!("../words/", $subject, ".es.toml")),
            include_str!(concat!("../words/", $subject, ".fr.toml")),
            include_str!(concat!("../words/", $subject, ".pt.toml")),
        ]
    };
}

mod answers;
mod lexicon;
mod phrase;
mod routes;
mod types;

pub use answers::flag;
pub use routes::{most_careful, route};
pub use types::{says_nothing, well_type};

use crate::field::Field;
use phrase::Phrase;

/// What a text means where one of a few things is asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Meaning<T> {
    /// This: nothing but a word for it.
    Is(T),
    /// This, by a phrase, of which a person may want to know how it was read; the text says why, or is empty.
    Read(T, String),
    /// It says that nothing is known.
    Missing,
    /// It names something that is not a well.
    NotAWell(NotAWell),
    /// A careful person would ask; the text says why.
    Ask(String),
}

/// What stands in lists of wells and is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum NotAWell {
    /// A cistern for rain or hauled water.
    Cistern,
    /// A storage or pressure tank.
    Tank,
    /// A tap, standpipe or hydrant.
    Tap,
    /// Water from somebody else's pipes.
    PublicSupply,
    /// An intake at a river or lake.
    Intake,
    /// A pond, lake or stream.
    OpenWater,
    /// A test hole, a monitoring well or another hole that nobody drinks from.
    TestHole,
}

impl NotAWell {
    /// Every kind, as the files of words call them.
    pub const ALL: [Self; 7] =
        [Self::Cistern, Self::Tank, Self::Tap, Self::PublicSupply, Self::Intake, Self::OpenWater, Self::TestHole];

    /// The words people read.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cistern => "cistern",
            Self::Tank => "tank",
            Self::Tap => "tap",
            Self::PublicSupply => "public supply",
            Self::Intake => "intake",
            Self::OpenWater => "open water",
            Self::TestHole => "test hole",
        }
    }

    /// The same with its article, for a sentence.
    pub const fn phrase(self) -> &'static str {
        match self {
            Self::Cistern => "a cistern",
            Self::Tank => "a tank",
            Self::Tap => "a tap",
            Self::PublicSupply => "a public supply",
            Self::Intake => "an intake from open water",
            Self::OpenWater => "open water",
            Self::TestHole => "a test or monitoring hole",
        }
    }

    /// The one of this section of a data file.
    fn by_section(section: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name().replace(' ', "_") == section)
    }
}

impl<T> Meaning<T> {
    /// The same of another type.
    pub fn map<U>(self, of: impl FnOnce(T) -> U) -> Meaning<U> {
        match self {
            Self::Is(value) => Meaning::Is(of(value)),
            Self::Read(value, why) => Meaning::Read(of(value), why),
            Self::Missing => Meaning::Missing,
            Self::NotAWell(kind) => Meaning::NotAWell(kind),
            Self::Ask(why) => Meaning::Ask(why),
        }
    }

    /// The value, if the text means one.
    pub fn value(&self) -> Option<&T> {
        match self {
            Self::Is(value) | Self::Read(value, _) => Some(value),
            _ => None,
        }
    }
}

/// What the data files of these three subjects hold that cannot be read: nothing.
pub fn faults() -> Vec<String> {
    [types::faults(), routes::faults(), answers::faults()].concat()
}

/// Words of a text, as [`plain_words`] cuts it, that mean nothing where a type, a route or an answer is asked for.
pub fn unread(field: Field, text: &str) -> Vec<String> {
    let phrase = Phrase::of(text);
    match field {
        Field::WellType => types::unread(&phrase),
        Field::DischargeRoute => routes::unread(&phrase),
        _ => answers::unread(&phrase),
    }
}

/// The words of a text in lower case and without accents.
pub fn plain_words(text: &str) -> Vec<String> {
    Phrase::of(text).words.into_iter().map(|word| word.text).collect()
}
