//! How a column is measured by the file's own words: in which unit, and from where down.

use super::super::plain_heading::{without_brackets, without_source};
use super::Asked;
use crate::field::Field;
use crate::inventory::heading::{self, HeadingUnit, Named};
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::inventory::notes;
use crate::quantity::unit::{Dimension, Gallon, Unit};

/// Units that a heading may say before what it measures: `Water, ft down`.
pub(super) const UNITS: [&str; 8] = ["ft", "feet", "foot", "m", "meters", "metres", "mts", "metros"];

/// Words behind water that say that it is so far down.
pub(super) const DOWN: [&str; 3] = ["at", "down", "dn"];

impl Asked<'_> {
    /// The unit that the heading, a row of units or the group gives this column for a field.
    pub fn named(&self, field: Field, meaning: &Meaning) -> Named {
        let mut named = Named::told(field);
        let Some(quantity) = field.quantity() else { return named };
        let (unit, datum, bare_in) = heading::unit_for(self.heading, field, self.gallon);
        // Of two units in two brackets neither is that of the column.
        let two = heading::narrow_and_wide(self.heading).is_some();
        // `ft ags`: a unit with a word behind it that the words of the heading tell.
        let told = |unit: HeadingUnit| match unit {
            HeadingUnit::Unknown(_) if self.stated(quantity.dimension).is_some() => HeadingUnit::None,
            unit => unit,
        };
        named.unit = if two { HeadingUnit::None } else { told(unit) };
        named.datum = datum;
        named.bare_in = bare_in && !without_brackets(self.heading).trim_end().ends_with('.');
        named.species = heading::species_for(self.heading, field);
        if named.unit == HeadingUnit::None
            && !two
            && let Some(stated) = self.stated(quantity.dimension)
        {
            named.unit = HeadingUnit::Unit(stated);
        }
        named.datum = named.datum.or_else(|| self.datum(field, meaning));
        named
    }

    /// The first unit of a dimension that the heading states in words; of what the file says elsewhere only where it is one.
    pub(super) fn stated(&self, dimension: Dimension) -> Option<&'static Unit> {
        let units = |text: &str| -> Vec<&'static Unit> {
            let said = notes::stated(text, self.layout.language, self.gallon, &[]);
            // `Tubo (pol.)`: the pipe is what is measured, and no kind of well.
            let only = text == self.heading && said.iter().filter(|stated| stated.unit.is_some()).count() == 1;
            said.into_iter()
                .filter(|stated| only || stated.types.is_empty())
                .filter_map(|stated| stated.unit.filter(|unit| unit.dimension == dimension))
                .collect()
        };
        units(self.heading).first().copied().or_else(|| match units(self.explained()).as_slice() {
            // `inches for A, C, D` goes on for others.
            [only] if ![" for ", " pour ", " para "].iter().any(|word| self.explained().contains(word)) => Some(*only),
            _ => None,
        })
    }

    pub(super) fn unit_below(&self, field: Field) -> Option<&'static Unit> {
        let cell = self.layout.units.get(self.column).filter(|cell| !cell.is_empty())?;
        let known = heading::unit_below(cell, field, self.gallon).0.known();
        known.or_else(|| notes::unit_of(&lexicon::tokens(cell), self.gallon))
    }

    pub(super) fn has_unit_of(&self, dimension: Dimension) -> bool {
        let below = self.layout.units.get(self.column).map(|cell| lexicon::tokens(cell));
        let gallon = self.gallon.or(Some(Gallon::Us));
        let of = |unit: Option<&'static Unit>| unit.is_some_and(|unit| unit.dimension == dimension);
        let in_heading =
            notes::stated(self.heading, self.layout.language, gallon, &[]).iter().any(|stated| of(stated.unit));
        in_heading || below.is_some_and(|words| of(notes::unit_of(&words, gallon)))
    }

    /// What a depth or level is counted from by the words of its heading or its group.
    fn datum(&self, field: Field, meaning: &Meaning) -> Option<heading::Datum> {
        if !is_counted(field) {
            return None;
        }
        let words = lexicon::tokens(&format!("{} {}", self.heading, self.explained()));
        let whole = lexicon::meaning(&words, self.layout.language);
        notes::datum(&words, &whole).or_else(|| {
            // `Eau / margelle`, `Prof. /marg.`: what stands beside a rim is counted from it.
            let rim = meaning.has(Concept::Rim) || whole.has(Concept::Rim);
            rim.then_some(heading::Datum::TopOfCasing)
        })
    }

    /// What a depth or level is counted from by what the file says of its heading elsewhere.
    pub(super) fn explained_datum(&self, field: Field) -> Option<heading::Datum> {
        let words = lexicon::tokens(self.explained());
        is_counted(field).then(|| notes::datum(&words, &lexicon::meaning(&words, self.layout.language))).flatten()
    }

    /// Whether the column is counted down from the ground or the rim, by its heading, the row of units or the file's own words.
    pub fn is_counted_down(&self) -> bool {
        // `Water at`: where it stands, and not how much of it.
        // `Water down`, `Wtr dn`, `Water, ft down`: so far down.
        let words = lexicon::tokens(&self.heading.replace('@', " at "));
        let silent = |word: &str| UNITS.contains(&word) || ["is", "was", "stands", "stood", "sits"].contains(&word);
        let words: Vec<String> = words.into_iter().filter(|word| !silent(word)).collect();
        let is_water = |word: &String| {
            lexicon::meaning(std::slice::from_ref(word), self.layout.language).concepts == [Concept::Water]
        };
        if let [.., water, last] = words.as_slice()
            && is_water(water)
            && DOWN.contains(&last.as_str())
        {
            return true;
        }
        // `How many feet down is the water?`
        let only_water = |concept: &Concept| matches!(concept, Concept::Water | Concept::Depth | Concept::Well);
        if words.first().is_some_and(|word| word == "how")
            && words.iter().any(|word| word == "down")
            && self.meaning().has(Concept::Water)
            && self.meaning().concepts.iter().all(only_water)
        {
            return true;
        }
        let units = self.layout.units.get(self.column).map_or("", String::as_str);
        let of = |text: &str| {
            let words = lexicon::tokens(text);
            notes::datum(&words, &lexicon::meaning(&words, self.layout.language))
        };
        let down =
            |datum: Option<heading::Datum>| matches!(datum, Some(heading::Datum::Ground | heading::Datum::TopOfCasing));
        // `from top of casing, ft.` above `bottom` and `water`.
        self.unit_counts_down()
            || down(of(&format!("{} {units} {}", self.heading, self.explained())))
            || down(of(self.group()))
            || self.notes_name_it().any(|datum| down(Some(datum)))
            || self.notes_count_all_down()
    }

    /// Whether `Depth from surface` is that of the well: the surface is the ground's where another column has the water and none
    /// another depth.
    pub(super) fn is_depth_from_surface(&self, words: &[String]) -> bool {
        let said =
            |heading: &String| lexicon::meaning(&lexicon::tokens(&without_brackets(heading)), self.layout.language);
        let bottoms = [Concept::Depth, Concept::TotalDepth, Concept::Bottom];
        let other = |concept: Concept| {
            self.layout.headings.iter().enumerate().any(|(at, heading)| {
                let meaning = said(heading);
                at != self.column && meaning.has(concept) && !meaning.has(Concept::Casing)
            })
        };
        let from = |word: &String| ["from", "below", "under"].contains(&word.as_str());
        matches!(words, [depth, way, surface] if depth == "depth" && from(way) && surface == "surface")
            && other(Concept::Water)
            && !bottoms.into_iter().any(other)
    }

    /// Whether a note says that whatever is measured up and down is counted from the ground or the rim: `All vertical measures feet
    /// below ground`, `All feet are below the ground`.
    fn notes_count_all_down(&self) -> bool {
        const MOST_WORDS: usize = 6;
        const ALL: [&str; 8] = ["all", "every", "todas", "todos", "toutes", "tous", "everything", "todo"];
        const MEASURES: [&str; 16] = [
            "vertical",
            "verticals",
            "measures",
            "measurements",
            "depths",
            "levels",
            "feet",
            "meters",
            "metres",
            "footages",
            "medidas",
            "profundidades",
            "niveles",
            "niveis",
            "mesures",
            "profondeurs",
        ];
        let clauses = self.layout.notes.iter().flat_map(|note| note.split(['.', ';', ',']));
        clauses.into_iter().any(|clause| {
            let words = lexicon::tokens(clause);
            let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
            let meaning = lexicon::meaning(&words, self.layout.language);
            let datum = notes::datum(&words, &meaning);
            // `Depuis le sol`, `Mètres sous le sol`: said of nothing else, it is said of all.
            let of_place = |concept: &Concept| matches!(concept, Concept::Ground | Concept::Rim | Concept::Below);
            let is_length = |word: &String| {
                UNITS.contains(&word.as_str()) || notes::unit_of(std::slice::from_ref(word), None).is_some()
            };
            let alone = words.len() <= MOST_WORDS
                && meaning.concepts.iter().all(of_place)
                && meaning.unknown.iter().all(|word| is_length(word) || MEASURES.contains(&word.as_str()));
            (has(&ALL) && has(&MEASURES) || alone)
                && matches!(datum, Some(heading::Datum::Ground | heading::Datum::TopOfCasing))
        })
    }

    /// What notes say that this column is counted from, where they name it by its heading: `fundo e água medidos desde a boca`,
    /// `Deep and Water are feet from the ground`.
    fn notes_name_it(&self) -> impl Iterator<Item = heading::Datum> + '_ {
        // `Depth and water in feet below the slab` names `Water stands`.
        const VERBS: [&str; 8] = ["stands", "stood", "stand", "sits", "sat", "is", "was", "at"];
        let outer = without_brackets(self.heading);
        let mut own = lexicon::tokens(without_source(&outer, self.layout.language));
        own.retain(|word| !VERBS.contains(&word.as_str()));
        let clauses = self.layout.notes.iter().flat_map(|note| note.split(['.', ';']));
        clauses.filter_map(move |clause| {
            let words = lexicon::tokens(clause);
            let named = !own.is_empty() && own.iter().all(|word| words.contains(word));
            let measured = words
                .iter()
                .any(|word| ["medid", "mesur", "measur", "taped", "midio"].iter().any(|start| word.starts_with(start)));
            // `Bottom and water both down from ground`
            let measured =
                measured || words.iter().any(|word| ["both", "down", "counted", "contados"].contains(&word.as_str()));
            let measured =
                measured || notes::unit_of(&words, self.gallon).is_some_and(|unit| unit.dimension == Dimension::Length);
            (named && measured).then(|| notes::datum(&words, &lexicon::meaning(&words, self.layout.language)))?
        })
    }
}

/// Whether a field is counted from somewhere: the ground, the rim, the sea.
pub const fn is_counted(field: Field) -> bool {
    matches!(field, Field::TotalDepth | Field::StaticWaterLevel)
}
