//! What a card says of well and place, as the list gives it.

use super::amounts::Amounts;
use super::phrases::Phrase;
use super::words::{Terms, Words};
use crate::document::card::Fact;
use crate::field::rules::UnitSystem;
use crate::field::{Field, names};
use crate::hazard::Hazards;
use crate::quantity::format::number;
use crate::quantity::{Volume, meters};
use crate::visit::{Asked, Visit};

/// Words of headings that say where a well is and whom to ask, in lower case.
const PLACE_WORDS: [&str; 34] = [
    "name",
    "owner",
    "address",
    "street",
    "road",
    "place",
    "village",
    "town",
    "city",
    "phone",
    "tel",
    "contact",
    "site",
    "location",
    "directions",
    "access",
    "landmark",
    "parcel",
    "house",
    "farm",
    "nombre",
    "dueño",
    "dirección",
    "direccion",
    "calle",
    "camino",
    "lugar",
    "pueblo",
    "teléfono",
    "telefono",
    "contacto",
    "sitio",
    "acceso",
    "finca",
];

/// Other columns of the list that a card has room for.
const OTHER_COLUMNS: usize = 4;

/// Where a place is written down that the list does not give.
const BLANK: &str = "________________";

/// Levels nearer to the ground than this are at the ground, in meters.
const LEVEL_AT_GROUND_M: f64 = 0.01;

/// Digits after the point of a coordinate: a meter.
const COORDINATE_DIGITS: usize = 5;

/// A visit whose facts are told, with the headings of its carried cells.
#[derive(Clone, Copy)]
pub(super) struct Told<'a> {
    pub(super) visit: &'a dyn Asked,
    pub(super) carried: &'a [String],
    pub(super) not_understood: &'a str,
    /// Whether it is known to flow over.
    pub(super) flows: bool,
    pub(super) words: &'a Words,
    pub(super) system: UnitSystem,
}

impl<'a> Told<'a> {
    /// The facts of a visit of a list.
    pub(super) fn of(visit: &'a Visit, carried: &'a [String], words: &'a Words, system: UnitSystem) -> Self {
        Self { visit, carried, not_understood: visit.not_understood(), flows: false, words, system }
    }

    /// Size, place, people and remarks.
    pub(super) fn facts(&self) -> Vec<Fact> {
        let words = self.words;
        let mut facts = Vec::new();
        let mut fact = |label: &str, text: String| {
            if !text.is_empty() {
                facts.push(Fact { label: label.to_owned(), text });
            }
        };
        fact(&words.say(Phrase::CardSize), self.size());
        let text = |field| self.visit.text(field).unwrap_or_default().to_owned();
        fact(&first_upper(words.term(Terms::Field, Field::Region.name())), text(Field::Region));
        let (near, other): (Vec<_>, Vec<_>) = self.cells().partition(|(heading, _)| is_place(heading));
        let more = other.len().saturating_sub(OTHER_COLUMNS);
        for (heading, cell) in near.into_iter().chain(other.into_iter().take(OTHER_COLUMNS)) {
            fact(heading, cell.to_owned());
        }
        if let (Some(latitude), Some(longitude)) =
            (self.visit.si_value(Field::Latitude), self.visit.si_value(Field::Longitude))
        {
            let place = format!("{latitude:.COORDINATE_DIGITS$}, {longitude:.COORDINATE_DIGITS$}");
            fact(&words.say(Phrase::CardPlace), place);
        } else {
            // Room for a pen: who finds the well saves the next one the search.
            fact(&words.say(Phrase::CardPlace), BLANK.to_owned());
        }
        if let Some(users) = self.visit.si_value(Field::UsersServed) {
            fact(&words.say(Phrase::CardUsers), number(users, 6));
        }
        if let Some(flooded) = self.visit.flag(Field::Flooded) {
            fact(&words.say(Phrase::CardFlooded), words.say(if flooded { Phrase::CardYes } else { Phrase::CardNo }));
        }
        if self.visit.flag(Field::Seawater) == Some(true) {
            fact(&first_upper(words.term(Terms::Field, Field::Seawater.name())), words.say(Phrase::CardYes));
        }
        fact(&words.say(Phrase::CardStatus), text(Field::Status));
        fact(&words.say(Phrase::CardRemark), text(Field::Notes));
        fact(&words.say(Phrase::CardUnclear), self.not_understood.to_owned());
        if more > 0 {
            fact("…", words.with(Phrase::CardMore, &[("count", &more.to_string())]));
        }
        facts
    }

    /// Cells of columns that are not fields, with their headings; none that is empty.
    fn cells(&self) -> impl Iterator<Item = (&'a str, &'a str)> {
        let cells = self.visit.carried().iter().map(|cell| cell.trim());
        self.carried.iter().map(String::as_str).zip(cells).filter(|(_, cell)| !cell.is_empty())
    }

    /// How a crew knows that it is the right well, and that the sizes are right.
    fn size(&self) -> String {
        let (words, amounts) = (self.words, Amounts { words: self.words, system: self.system });
        let value = |field| self.visit.si_value(field);
        let said = |phrase, text: String| words.with(phrase, &[("value", &text)]);
        let mut sizes = Vec::new();
        if let Some(depth) = value(Field::TotalDepth) {
            sizes.push(said(Phrase::CardSizeDepth, amounts.depth(meters(depth))));
        }
        if let Some(level) = value(Field::StaticWaterLevel) {
            let phrase = match level {
                above if above < 0.0 => Phrase::CardSizeLevelAbove,
                // A depth of nothing is no depth to name.
                level if self.flows && level < LEVEL_AT_GROUND_M => Phrase::CardSizeFlowsFull,
                _ if self.flows => Phrase::CardSizeFlows,
                _ => Phrase::CardSizeLevel,
            };
            sizes.push(said(phrase, amounts.depth(meters(level.abs()))));
        }
        if let Some(across) = value(Field::CasingDiameter) {
            sizes.push(said(Phrase::CardSizeAcross, amounts.across(meters(across))));
        }
        if let Some(volume) = value(Field::WaterVolume) {
            let volume = Volume { value: volume, ..Volume::default() };
            sizes.push(said(Phrase::CardSizeVolume, amounts.volume(volume)));
        }
        if let Some(casing) = self.visit.text(Field::CasingMaterial) {
            sizes.push(words.casing(casing));
        }
        sizes.join(", ")
    }
}

/// What is reported of a site, in the words of a crew.
pub(super) fn flags(hazards: Hazards, words: &Words) -> Vec<String> {
    hazards.iter().map(|entry| words.term(Terms::Hazard, entry.word).to_owned()).collect()
}

/// Whose well it is and where, by the first columns of the list that tell of it.
pub(in crate::report) fn whereabouts(visit: &Visit, carried: &[String]) -> String {
    const MOST: usize = 3;
    let cells = visit.carried().iter().map(|cell| cell.trim());
    let says = |heading: &str| is_place(heading) && !names::is_way(heading);
    let named = carried.iter().zip(cells).filter(|(heading, cell)| !cell.is_empty() && says(heading));
    let cells: Vec<&str> = named.map(|(_, cell)| cell).take(MOST).collect();
    cells.join(", ")
}

fn is_place(heading: &str) -> bool {
    has_word(heading, &PLACE_WORDS)
}

fn has_word(heading: &str, known: &[&str]) -> bool {
    let heading = heading.to_lowercase();
    heading.split(|letter: char| !letter.is_alphanumeric()).any(|word| known.contains(&word))
}

/// A label begins with a capital letter.
pub(super) fn first_upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
