//! Headings that name a thing and not a measure of it, told by the unit: `Well (ft)` is how deep, `ID (in.)` how wide.

use super::Asked;
use crate::field::Field;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::inventory::notes;
use crate::quantity::unit::{Dimension, Unit};

/// How sure a thing with the unit of its measure is.
const BY_UNIT: f64 = 0.62;
/// How sure an elevation of the bottom or of the water is.
const ELEVATION: f64 = 0.85;
/// How sure a column of wells is that of their types, where its cells are few words that come again.
const KIND: f64 = 0.6;
/// How sure the mouth of a well is its width.
const MOUTH: f64 = 0.7;

impl Asked<'_> {
    /// What a heading measures by its unit, and whether that makes it no name of a well.
    pub(super) fn by_unit(&self, meaning: &Meaning) -> (Vec<(Field, f64)>, bool) {
        let mut found = Vec::new();
        let mut is_no_name = false;
        let only = |known: &[Concept]| {
            !meaning.concepts.is_empty() && meaning.concepts.iter().all(|concept| known.contains(concept))
        };
        let unit = self.unit_of_length();
        let long = unit.is_some_and(|unit| matches!(unit.symbol, "ft" | "m"));
        let narrow = unit.is_some_and(|unit| matches!(unit.symbol, "in" | "cm" | "mm"));
        // `Well (ft)`, `Drilled (ft)`, `Perforado (m)`.
        if long && only(&[Concept::Well, Concept::Bore, Concept::Hole, Concept::Built]) {
            found.push((Field::TotalDepth, BY_UNIT));
            is_no_name = true;
        }
        // `Well (in)`, `Furo (cm)`; `ID (in.)` is an inside diameter and no name.
        if narrow && only(&[Concept::Well, Concept::Bore]) {
            found.push((Field::CasingDiameter, BY_UNIT));
            is_no_name = true;
        }
        // `Pipe (ft)` far deeper than any pipe is wide, `Rock (in)`.
        if long && only(&[Concept::Casing]) && self.is_deep(unit) {
            found.push((Field::CasingDepth, BY_UNIT));
        }
        if narrow && meaning.has(Concept::Rock) && only(&[Concept::Rock, Concept::Hole]) {
            found.push((Field::OpenHoleDiameter, BY_UNIT));
        }
        let repeats = self.profile.filled >= 8 && self.profile.distinct * 10 < self.profile.filled * 3;
        let numbers =
            self.profile.share(self.profile.measures()) >= 0.9 && self.profile.decimals * 2 < self.profile.filled;
        let inside = only(&[Concept::IdentityOrInside]);
        let notes = || self.layout.notes.iter().map(|note| lexicon::fold(note));
        let noted = only(&[Concept::IdentityOrInside, Concept::Inside])
            && self.column > 0
            && notes().any(|note| note.contains("inside dia"));
        let narrow_inside = narrow || noted && numbers;
        is_no_name |= narrow && only(&[Concept::Inside]);
        if noted && numbers || inside && (narrow_inside || repeats && numbers && !self.profile.counts_up) {
            found.push((Field::CasingDiameter, if narrow_inside { ELEVATION } else { BY_UNIT }));
            is_no_name |= narrow_inside;
        }
        // `Stock well ID (in)`.
        let of_well = [Concept::IdentityOrInside, Concept::Well, Concept::Casing, Concept::Bore];
        if narrow && meaning.has(Concept::IdentityOrInside) && only(&of_well) && numbers && !self.profile.counts_up {
            found.push((Field::CasingDiameter, ELEVATION));
            is_no_name = true;
        }
        // `D (in)`.
        let letter = lexicon::tokens(&super::without_brackets(self.heading));
        if narrow && letter.first().is_some_and(|first| first == "d") && letter.len() == 1 {
            found.push((Field::CasingDiameter, BY_UNIT));
        }
        // `Pipe DN`, `ND mm`: the trade's nominal size.
        let nominal = letter.iter().any(|word| matches!(word.as_str(), "dn" | "nd"));
        let of_pipe = [Concept::Casing, Concept::Depth, Concept::Pumping, Concept::Well, Concept::Bore];
        if self.is_nominal() || nominal && narrow && meaning.concepts.iter().all(|concept| of_pipe.contains(concept)) {
            found.push((Field::CasingDiameter, ELEVATION));
        }
        if self.is_top_of_casing() && only(&[Concept::Rim]) {
            found.push((Field::StickUp, MOUTH));
        }
        // `Agua en el pozo (galones)`, `Standing water, litres`.
        let in_well = [
            Concept::Water,
            Concept::Static,
            Concept::Well,
            Concept::Height,
            Concept::Column,
            Concept::Depth,
            Concept::Volume,
            Concept::Bore,
            Concept::Casing,
        ];
        if (meaning.has(Concept::Water) && only(&in_well) || self.stands_in_well(meaning, &in_well))
            && self.has_unit_of(Dimension::Volume)
        {
            found.push((Field::WaterVolume, ELEVATION));
        }
        if only(&[Concept::Rim, Concept::Well]) && self.is_mouth() {
            found.push((Field::CasingDiameter, MOUTH));
        }
        // `Well: dug, drilled, "`: few words that come again name no well.
        let few =
            self.profile.distinct <= 15 && self.profile.distinct * 2 < self.profile.filled && self.profile.filled >= 8;
        let words =
            self.profile.numbers.len() * 10 < self.profile.filled && self.profile.share(self.profile.flags) < 0.5;
        let are_types = || self.profile.share(self.profile.types) >= 0.25 || self.lists_types();
        if only(&[Concept::Well]) && few && words && are_types() {
            found.push((Field::WellType, KIND));
            is_no_name = true;
        }
        found.extend(self.elevation(meaning).map(|field| (field, ELEVATION)));
        (found, is_no_name)
    }

    /// Whether a heading says that something stands in the well, without a word for what: `Litres in bore at rest`, `Gal. sitting in it`.
    fn stands_in_well(&self, meaning: &Meaning, in_well: &[Concept]) -> bool {
        const STILL: [&str; 5] = ["standing", "sitting", "rest", "resting", "still"];
        let words = lexicon::tokens(self.heading);
        let is_still = words.iter().any(|word| STILL.contains(&word.as_str()));
        is_still && meaning.concepts.iter().all(|concept| in_well.contains(concept))
    }

    /// Whether a bracket lists how wells are made: `Well (dr = drilled, du = dug)`.
    fn lists_types(&self) -> bool {
        let behind = self.heading.split_once('(').map_or("", |(_, behind)| behind);
        let is_make =
            |word: &&String| lexicon::meaning(std::slice::from_ref(*word), self.layout.language).has(Concept::Built);
        lexicon::tokens(behind).iter().filter(is_make).count() >= 2
    }

    /// Whether the heading is the top of the casing and no organic carbon: `TOC (ft ags)`, by its unit of length.
    pub(super) fn is_top_of_casing(&self) -> bool {
        let words = lexicon::tokens(&super::without_brackets(self.heading));
        words.iter().any(|word| word == "toc") && self.has_unit_of(Dimension::Length)
    }

    /// Whether the cells are nominal sizes of pipes, which the trade takes for the width: `DN 100`, or by the heading: `O.D./nominal`.
    pub(super) fn is_nominal(&self) -> bool {
        const FEWEST: usize = 3;
        const NOMINAL: [&str; 3] = ["nominal", "nom", "nominale"];
        let words = lexicon::tokens(self.heading);
        let says_both = lexicon::meaning(&words, self.layout.language).has(Concept::Outside)
            && words.iter().any(|word| NOMINAL.contains(&word.as_str()))
            && self.profile.share(self.profile.measures()) >= 0.7;
        says_both || self.profile.nominal >= FEWEST && self.profile.nominal * 10 >= self.profile.filled * 7
    }

    /// Whether most numbers of a column in this unit are deeper than any well is wide.
    fn is_deep(&self, unit: Option<&'static Unit>) -> bool {
        /// In metres. Common practice, no source.
        const WIDEST: f64 = 4.0;
        const FEWEST: usize = 5;
        /// Where a pipe begins, or a pipe within the casing.
        const OTHER: [&str; 6] = ["from", "top", "start", "liner", "liners", "lnr"];
        if lexicon::tokens(self.heading).iter().any(|word| OTHER.contains(&word.as_str())) {
            return false;
        }
        let deep = |value: &&f64| unit.is_some_and(|unit| unit.to_si(**value) > WIDEST);
        self.profile.numbers.iter().filter(deep).count() * 10 >= self.profile.numbers.len() * 7
            && self.profile.numbers.len() >= FEWEST
    }

    /// `Bottom el.`, `Water elev.`: what is counted from the sea or from a datum.
    fn elevation(&self, meaning: &Meaning) -> Option<Field> {
        let any = |known: &[Concept]| known.iter().any(|concept| meaning.has(*concept));
        let other = [
            Concept::Rim,
            Concept::Ground,
            Concept::Casing,
            Concept::Screen,
            Concept::Pump,
            Concept::Set,
            Concept::Pumping,
            Concept::OtherTime,
            Concept::Flooded,
            Concept::Rock,
            Concept::Tank,
            Concept::Date,
            Concept::StickUp,
        ];
        if !meaning.has(Concept::Elevation) || any(&other) {
            return None;
        }
        let of_water = any(&[Concept::Water, Concept::Level, Concept::Static, Concept::StaticWaterLevel]);
        match (meaning.has(Concept::Bottom), of_water) {
            (true, false) => Some(Field::TotalDepth),
            (false, true) => Some(Field::StaticWaterLevel),
            _ => None,
        }
    }

    /// Whether the heading is the word for the mouth of a well, which is measured across: `Boca (cm)`.
    fn is_mouth(&self) -> bool {
        const MOUTHS: [&str; 4] = ["boca", "bocas", "bouche", "mouth"];
        const JOINS: [&str; 26] = [
            "quantos", "cuantos", "cuantas", "combien", "how", "many", "poco", "pozo", "puits", "furo", "cacimba",
            "noria", "du", "well", "de", "da", "do", "la", "del", "a", "medida", "quanto", "cuanto", "mede", "mide",
            "tiene",
        ];
        let words = lexicon::tokens(&super::without_brackets(self.heading));
        let words: Vec<&str> = words.iter().map(String::as_str).filter(|word| !JOINS.contains(word)).collect();
        let unit = |word: &str| notes::unit_of(&[word.to_owned()], None).is_some() || matches!(word, "m" | "in");
        matches!(words.as_slice(), [mouth] if MOUTHS.contains(mouth))
            || matches!(words.as_slice(), [mouth, symbol] | [symbol, mouth] if MOUTHS.contains(mouth) && unit(symbol))
    }

    /// The unit of length that the heading or the row below it states, or that nearly every cell writes.
    fn unit_of_length(&self) -> Option<&'static Unit> {
        let of_length = |unit: Option<&'static Unit>| unit.filter(|unit| unit.dimension == Dimension::Length);
        let written = || {
            let (unit, cells) = self.profile.written_unit()?;
            (cells >= 4 && cells * 10 >= self.profile.filled * 7).then_some(unit)
        };
        let (own, ..) = crate::inventory::heading::unit_for(self.heading, Field::TotalDepth, self.gallon);
        let said = || self.stated(Dimension::Length);
        of_length(own.known())
            .or_else(said)
            .or_else(|| of_length(self.unit_below(Field::TotalDepth)))
            .or_else(|| of_length(written()))
    }
}
