//! Columns that say how much a foot or a meter of casing holds, in the place of its width: `Gal/ft`, `L/m`.

use std::f64::consts::PI;

use super::{Feed, Planner, Shape};
use crate::field::Field;
use crate::field::rules::UnitSystem;
use crate::finding::catalogue;
use crate::inventory::heading::{HeadingUnit, Named};
use crate::inventory::lexicon;
use crate::inventory::profile::Profile;
use crate::quantity::unit::{self, Gallon, INCH_M};

/// What a length of casing holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Storage {
    /// US gallons in a foot.
    UsGallonsAFoot,
    /// Imperial gallons in a foot.
    ImperialGallonsAFoot,
    /// Liters in a meter.
    LitersAMeter,
}

impl Storage {
    /// The inside diameter, in metres, of a casing that holds so much: V = pi/4 d^2 for each length.
    pub fn diameter(self, held: f64) -> f64 {
        let per = |volume: &str, length: &str| {
            let si = |symbol: &str| unit::by_symbol(symbol).map_or(f64::NAN, |unit| unit.to_si(1.0));
            si(volume) / si(length)
        };
        let area = held
            * match self {
                Self::UsGallonsAFoot => per("US gal", "ft"),
                Self::ImperialGallonsAFoot => per("imp gal", "ft"),
                Self::LitersAMeter => per("L", "m"),
            };
        (4.0 * area / PI).sqrt()
    }

    /// As findings call it.
    const fn words(self) -> &'static str {
        match self {
            Self::UsGallonsAFoot => "US gallons that a foot of casing holds",
            Self::ImperialGallonsAFoot => "imperial gallons that a foot of casing holds",
            Self::LitersAMeter => "liters that a meter of casing holds",
        }
    }
}

/// Words for gallons, of either kind.
pub(super) const GALLONS: [&str; 6] = ["gal", "gals", "gallon", "gallons", "galones", "galoes"];

/// Whether a heading is a volume for each foot or meter, and not of time or people: gallons and feet, or liters and meters.
fn is_storage(heading: &str) -> Option<bool> {
    const LITERS: [&str; 9] = ["l", "lt", "lts", "liter", "liters", "litre", "litres", "litro", "litros"];
    const FEET: [&str; 5] = ["ft", "foot", "feet", "lf", "pie"];
    const METERS: [&str; 6] = ["meter", "metre", "metro", "ml", "metros", "meters"];
    /// Beside a bare `m`, which is a minute as well.
    const HOLDING: [&str; 8] = ["casing", "pipe", "storage", "tubo", "tubage", "tube", "holds", "contenido"];
    const PER: [&str; 4] = ["per", "a", "por", "par"];
    const JOINS: [&str; 11] =
        ["of", "in", "each", "de", "well", "volume", "us", "imp", "imperial", "water", "standing"];
    let all = lexicon::tokens(heading);
    let any = |known: &[&str]| all.iter().any(|word| known.contains(&word.as_str()));
    let joins = |word: &&str| JOINS.contains(word) || PER.contains(word) || HOLDING.contains(word);
    let words: Vec<&str> = all.iter().map(String::as_str).filter(|word| !joins(word)).collect();
    let joined = heading.contains('/') || any(&PER);
    let of_liters = |length: &str| METERS.contains(&length) || length == "m" && any(&HOLDING);
    match words.as_slice() {
        ["gpf"] => Some(true),
        [volume, length] if joined && (GALLONS.contains(volume) || *volume == "gpf") && FEET.contains(length) => {
            Some(true)
        }
        [volume, length] if joined && LITERS.contains(volume) && of_liters(length) => Some(false),
        _ => None,
    }
}

/// What the cells of such a column hold; nothing where the heading is none, or a gallon could be either.
fn storage(heading: &str, profile: &Profile, gallon: Option<Gallon>) -> Option<Option<Storage>> {
    if !is_storage(heading)? {
        return Some(Some(Storage::LitersAMeter));
    }
    let lower = heading.to_lowercase();
    let said = gallon.or_else(|| {
        let words = lexicon::tokens(&lower);
        let has = |word: &str| words.iter().any(|own| own == word);
        if has("us") {
            Some(Gallon::Us)
        } else if has("imp") || has("imperial") {
            Some(Gallon::Imperial)
        } else {
            None
        }
    });
    Some(match said {
        Some(Gallon::Us) => Some(Storage::UsGallonsAFoot),
        Some(Gallon::Imperial) => Some(Storage::ImperialGallonsAFoot),
        None => by_sizes(profile),
    })
}

/// The gallon by which the casings are whole inches: 1.47 in a foot are 6 in by the US gallon and 6.6 by the other.
fn by_sizes(profile: &Profile) -> Option<Storage> {
    const FEWEST: usize = 4;
    /// Wider wells are near to a whole inch by either.
    const WIDEST_IN: f64 = 16.0;
    const NEAR: f64 = 0.01;
    let whole = |storage: Storage| {
        let sizes =
            profile.numbers.iter().map(|held| storage.diameter(*held) / INCH_M).filter(|size| *size < WIDEST_IN);
        let (near, all) = sizes.fold((0, 0), |(near, all), size| {
            (near + usize::from((size - size.round()).abs() <= NEAR * size), all + 1)
        });
        (all >= FEWEST).then(|| near as f64 / all as f64)
    };
    let (us, imperial) = (whole(Storage::UsGallonsAFoot)?, whole(Storage::ImperialGallonsAFoot)?);
    if us >= 0.8 && imperial <= 0.3 {
        Some(Storage::UsGallonsAFoot)
    } else if imperial >= 0.8 && us <= 0.3 {
        Some(Storage::ImperialGallonsAFoot)
    } else {
        None
    }
}

impl Planner<'_> {
    fn storage_of(&self, column: usize) -> Option<Option<Storage>> {
        let gallon = self.rules.system.and_then(UnitSystem::gallon);
        let profile = &self.profiles[column];
        storage(&self.table.headings[column], profile, gallon).filter(|_| profile.share(profile.numbers.len()) >= 0.7)
    }

    /// The width as which such a column is read.
    pub(super) fn width_of_storage(&self, column: usize) -> Option<Named> {
        self.storage_of(column)?;
        let unit = unit::by_symbol("in").map_or(HeadingUnit::None, HeadingUnit::Unit);
        Some(Named { unit, ..Named::told(Field::CasingDiameter) })
    }

    /// Makes a feed of widths one of such a column; where a gallon could be either it is not read.
    pub(super) fn by_storage(&mut self, feed: &mut Feed) {
        match self.storage_of(feed.column) {
            Some(Some(storage)) => {
                feed.unit = unit::by_symbol("in");
                feed.unit_stated = true;
                feed.shape = Shape::Storage(storage);
                let says = format!("read as {}, from which its width is worked out", storage.words());
                let help = "no action needed if correct; else [inventory.columns] this heading = \"\"";
                self.say(catalogue::UNIT_BY_EVIDENCE, Some(feed.column), says, help);
            }
            Some(None) => {
                let says = "the gallon is a US or an imperial measure, and nothing says which; the column is not read";
                let help = "[campaign] units = \"us\" or \"imperial\"";
                self.say(catalogue::HEADING_GALLON_UNDECLARED, Some(feed.column), says, help);
                feed.barred = true;
            }
            None => {}
        }
    }
}
