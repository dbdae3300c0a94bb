//! Which field a heading names, as people write it.
//!
//! `Depth (ft)`, `depth_ft`, `WELL_DEPTH_FT`, `static_water_level_ft-btoc`, `well_yield_(m^3/hr)`, `DepthFt`. Knows the
//! vocabulary of [`crate::field`]; refuses to decide between columns, which is the work of `columns`.

mod mapped;
mod unit;
mod vocabulary;
mod words;

pub use mapped::{mapped, mapped_beside};
pub use unit::{
    Datum, HeadingUnit, ends_in_preposition, goes_down, is_feet_and_inches, narrow_and_wide, stem, unit_below, unit_for,
};
use unit::{Suffix, bracket_unit, suffix, unit_before, unit_of_mark};
use vocabulary::vocabulary;
pub use vocabulary::{is_water_depth, near};
use words::{brackets, words};
pub use words::{cells, tidy};

use super::lexicon;
use crate::field::species::{self, Species};
pub use crate::field::squash;
use crate::field::{Field, Kind};
use crate::quantity::unit::Gallon;

/// What a heading says.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// What the cells below it are.
    pub field: Field,
    /// How good the name is: 0 is the canonical name, then the place in the list of other names.
    pub rank: usize,
    /// That of the bare numbers below it.
    pub unit: HeadingUnit,
    /// Depth is counted from here, where the heading says so (`btoc`).
    pub datum: Option<Datum>,
    /// The unit is a bare suffix `_in`, which may also mean "inner".
    pub bare_in: bool,
    /// What its mg/L are counted as, where the heading says so (`as NO2`).
    pub species: Option<&'static Species>,
}

impl Named {
    /// A field that other words than its names tell, without a unit.
    pub const fn told(field: Field) -> Self {
        Self { field, rank: usize::MAX, unit: HeadingUnit::None, datum: None, bare_in: false, species: None }
    }

    /// A field that the symbol of what is counted tells.
    fn symbol(species: &'static Species) -> Self {
        Self { species: Some(species), ..Self::told(species.field) }
    }

    /// Whether this is plain `nitrite` or `ammonia`, which laboratories count as nitrogen or as what they are.
    pub fn leaves_nitrogen_open(&self) -> bool {
        let name = self.rank.checked_sub(1).and_then(|at| self.field.definition().headings.get(at));
        self.species.is_none() && name.is_some_and(|name| ["nitrite", "ammonia"].contains(name))
    }
}

/// What the heading says, if it names a field.
pub fn name(heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    if let Some((rest, written)) = species::out_of(heading)
        && let Some(named) = name_and_unit(&rest, gallon)
        && let Some(species) = species::named(named.field, written)
    {
        return Some(Named { species: Some(species), ..named });
    }
    name_and_unit(heading, gallon).or_else(|| {
        // `Alkalinity mg/L CaCO3`
        species::endings(heading).find_map(|(rest, species)| {
            let named = name_and_unit(rest, gallon).filter(|named| named.field == species.field)?;
            Some(Named { species: Some(species), ..named })
        })
    })
}

fn name_and_unit(heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    let (outer, inner) = brackets(heading);
    let found = vocabulary().get(&squash(outer)).copied();
    let whole = found.map(|(field, rank)| Named { rank, ..Named::told(field) }).or_else(|| {
        // After every name in words: `NO2-N` stands beside `NO2` in the same table.
        species::alone(outer.trim()).map(Named::symbol)
    });
    match (whole, inner) {
        (Some(named), Some(inner)) => {
            let (inner, species) = species::at_end(named.field, inner);
            let (unit, datum) = bracket_unit(inner, named.field, gallon);
            Some(Named { unit, datum, species: species.or(named.species), ..named })
        }
        (Some(named), None) => Some(named),
        // `Depth ft (bgl)`: what is in brackets is a remark, the unit stands before it.
        (None, inner) => by_suffix(outer, gallon).map(|named| {
            let datum = inner.and_then(|inner| bracket_unit(inner, named.field, gallon).1);
            Named { datum: datum.or(named.datum), ..named }
        }),
    }
}

/// What the heading names before a unit at its end.
fn by_suffix(outer: &str, gallon: Option<Gallon>) -> Option<Named> {
    let words = words(outer);
    for suffix in suffix(&words, gallon) {
        if let Some((field, rank)) = vocabulary().get(&words[..suffix.stem].concat()).copied()
            && matches!(field.definition().kind, Kind::Quantity(_))
        {
            let Suffix { unit, datum, bare_in, .. } = suffix;
            return Some(Named { rank, unit, datum, bare_in, ..Named::told(field) });
        }
        // `no2_mg_l`; the word for word, because `No. 2` is a number of something.
        if let [word] = &words[..suffix.stem]
            && let Some(species) = species::alone(word)
        {
            return Some(Named { unit: suffix.unit, ..Named::symbol(species) });
        }
    }
    None
}

/// What a heading names with its group before it: `Level` below `Static`.
pub fn named_together(group: &str, heading: &str, gallon: Option<Gallon>) -> Option<Named> {
    let sound = !group.is_empty() && group.len() <= 60 && !heading.is_empty();
    if sound { name(&format!("{group} {heading}"), gallon) } else { None }
}

/// What the mg/L of a column are counted as by its heading, for a field it was mapped to by hand.
pub fn species_for(heading: &str, field: Field) -> Option<&'static Species> {
    let in_words = || {
        let words = words(heading);
        // A single letter could be anything but nitrogen, which is written so: `NO2-N`.
        let symbol = |word: &&String| word.len() > 1 || word.as_str() == "n";
        // More words first: `CaCO3` falls into `ca` and `co3`, `CaCO 3` into three, and none is meant.
        (0..words.len()).rev().find_map(|at| {
            let joined = |before: usize| {
                at.checked_sub(before).and_then(|from| species::named(field, &words[from..=at].concat()))
            };
            joined(2)
                .or_else(|| joined(1))
                .or_else(|| Some(&words[at]).filter(symbol).and_then(|word| species::named(field, word)))
        })
    };
    species::out_of(heading).and_then(|(_, written)| species::named(field, written)).or_else(in_words)
}

/// `Bottom el.` as `Bottom elev`: the abbreviation behind what it is of. Elsewhere `el` is an article.
fn with_elevation(heading: &str) -> Option<String> {
    let lower = heading.to_ascii_lowercase();
    let at = lower.find(" el").filter(|at| *at > 0)?;
    let rest = &heading[at + " el".len()..];
    let ends = rest.is_empty() || rest.starts_with(['.', ',']) || rest.starts_with(" (");
    ends.then(|| format!("{} elev{}", &heading[..at], rest.trim_start_matches('.')))
}

/// A heading in the way that others write it: `Csg "` with its unit in brackets, one run of letters with blanks between its
/// words; nothing where it is known as it stands.
pub fn spaced(heading: &str, gallon: Option<Gallon>) -> Option<String> {
    if let Some(marked) = unit_of_mark(heading) {
        return Some(marked);
    }
    if let Some(written) = unit_before(heading) {
        return Some(written);
    }
    if let Some(written) = with_elevation(heading) {
        return Some(written);
    }
    if heading.contains('@') {
        return Some(tidy(&heading.replace('@', " at ")));
    }
    let words = lexicon::tokens(heading);
    // `WELLSIZE` begins as `well` does.
    let joined = |word: &String| word.len() > 6 && word.starts_with("well");
    let is_known = |words: &[String]| {
        !words.first().is_some_and(joined) && !lexicon::meaning(words, lexicon::Language::English).concepts.is_empty()
    };
    if name(heading, gallon).is_some() {
        return None;
    }
    if let [_] = words.as_slice() {
        return if is_known(&words) { None } else { lexicon::spaced(heading) };
    }
    // `WTRCOL_FT`, `CASDIA IN`: the run of capitals is cut, what goes with it stays.
    let capitals = !heading.contains(char::is_lowercase);
    let cut = |word: &String| if is_known(std::slice::from_ref(word)) { None } else { lexicon::spaced(word) };
    let parts: Vec<Option<String>> = words.iter().map(|word| cut(word).filter(|_| capitals)).collect();
    let written = words.iter().zip(&parts).map(|(word, cut)| cut.clone().unwrap_or_else(|| word.clone()));
    parts.iter().any(Option::is_some).then(|| written.collect::<Vec<_>>().join(" "))
}
