//! What each column may be: by the words of its heading, by the group above it, by what its cells hold.

mod by_unit;
mod stated;
mod water;
mod witness;

pub use stated::is_counted;

use super::patterns::{self, is_of_something_else};
use super::plain_heading::{without_advice, without_brackets, without_condition, without_date, without_source};
use crate::field::Field;
use crate::inventory::heading::{self, Named};
use crate::inventory::layout::Layout;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::inventory::profile::Profile;
use crate::quantity::unit::{Dimension, Gallon};

/// From this score on a reading is used without a word.
pub const SURE: f64 = 0.85;
/// From this score on a reading is used and said.
pub const LIKELY: f64 = 0.55;
/// From this score on a reading is asked for.
pub const OPEN: f64 = 0.3;

/// What a group's words are worth less than the heading's own.
const GROUP_DISCOUNT: f64 = 0.03;

/// What a group of columns says where it only tells whose they are.
const ORIGIN: [Concept; 6] =
    [Concept::Region, Concept::Site, Concept::Name, Concept::Notes, Concept::Find, Concept::Date];

/// A height by its name, and of what it is one of water.
const HEIGHTS: [&str; 6] = ["height", "ht", "hgt", "altura", "hauteur", "alto"];
const OF_WATER: [Concept; 6] =
    [Concept::Water, Concept::Column, Concept::Static, Concept::Well, Concept::Bore, Concept::Level];

/// A way to read a column.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Its place in the table.
    pub column: usize,
    /// What it would feed, and in which unit by its heading.
    pub named: Named,
    /// How well words and cells support it, 0 to about 1.3.
    pub score: f64,
    /// Whether the heading is one of the vocabulary, letter by letter.
    pub exact: bool,
    /// Whether the scenario file says so.
    pub by_hand: bool,
}

/// What a heading says in a table.
pub struct Asked<'a> {
    /// The place of its column in the table.
    pub column: usize,
    /// The heading as written.
    pub heading: &'a str,
    /// What the cells hold.
    pub profile: &'a Profile,
    /// Where the table stands.
    pub layout: &'a Layout,
    /// What a bare gallon means.
    pub gallon: Option<Gallon>,
    /// Rows of the sample.
    pub rows: usize,
}

impl Asked<'_> {
    fn group(&self) -> &str {
        self.layout.groups.get(self.column).map_or("", String::as_str)
    }

    /// Whether the heading is one of the vocabulary together with the group above it: `Level` below `Static`.
    pub fn is_named_with_group(&self) -> bool {
        self.with_group().is_some()
    }

    /// What the heading names together with the group above it.
    fn with_group(&self) -> Option<Named> {
        heading::named_together(without_brackets(self.group()).trim(), self.heading, self.gallon)
    }

    /// What the heading's words stand for, without what is in brackets unless nothing else is said, and without a date that
    /// goes with what is measured: `SWL / when`.
    pub fn meaning(&self) -> Meaning {
        let question = without_advice(without_condition(self.heading));
        let question = without_source(question, self.layout.language);
        let outer = without_date(&without_brackets(question), self.layout.language);
        let mut words = lexicon::phrased(&lexicon::tokens(&outer));
        if self.is_top_of_casing() {
            words.iter_mut().filter(|word| *word == "toc").for_each(|word| "rim".clone_into(word));
        }
        if self.is_depth_from_surface(&words) {
            words = vec!["depth".to_owned(), "ground".to_owned()];
        }
        let meaning = lexicon::meaning(&words, self.layout.language);
        if meaning.concepts.is_empty() {
            return lexicon::meaning(&lexicon::tokens(self.heading), self.layout.language);
        }
        meaning
    }

    /// Whether the file's own words for the heading speak of something that is measured in another way: `T.O.C. = inches casing
    /// stands above ground` is no organic carbon.
    fn is_explained_otherwise(&self, field: Field) -> bool {
        let dimension = |field: Field| field.quantity().map(|quantity| quantity.dimension);
        let says = self.layout.explained.get(self.column).map_or("", String::as_str);
        let says = says.split([',', ';', '.', '(']).next().unwrap_or_default();
        let meant = patterns::scores(&lexicon::meaning(&lexicon::tokens(says), self.layout.language));
        let other = |(of, score): &(Field, f64)| *score >= LIKELY && dimension(*of) != dimension(field);
        meant.first().is_some_and(other) && meant.iter().all(|(of, _)| *of != field)
    }

    /// Every way to read this column, the best first.
    pub fn readings(&self) -> Vec<Reading> {
        let alone = self.meaning();
        // `CONSTRUCTION (driller's return or site visit)`: what is in brackets says where it comes from.
        let group = without_brackets(self.group());
        let group = group.trim();
        // `Captação` over depth and level: a group is of wells, and no kind of them.
        let no_kind = |mut meaning: Meaning| {
            meaning.concepts.retain(|concept| *concept != Concept::Kind || alone.has(Concept::Kind));
            meaning
        };
        let group_meaning = no_kind(lexicon::meaning(&lexicon::tokens(group), self.layout.language));
        // `from the town cards`, `Packwood added`: where the columns come from says nothing of what they are.
        let of_origin = |concept: &Concept| ORIGIN.contains(concept);
        let (group, group_meaning) = if group_meaning.concepts.iter().all(of_origin) {
            ("", Meaning::default())
        } else {
            (group, group_meaning)
        };
        let together = {
            let words = lexicon::tokens(&format!("{group} {}", without_brackets(self.heading)));
            no_kind(lexicon::meaning(&words, self.layout.language))
        };
        let mut scores: Vec<(Field, f64, bool)> = Vec::new();
        let mut raise = |field: Field, score: f64, exact: bool| match scores.iter_mut().find(|(of, ..)| *of == field) {
            Some(known) if score > known.1 => *known = (field, score, exact),
            Some(_) => {}
            None => scores.push((field, score, exact)),
        };
        let with_group = self.with_group();
        let exact = with_group.clone().or_else(|| heading::name(self.heading, self.gallon));
        let exact = exact.filter(|named| !self.is_explained_otherwise(named.field) && !self.is_top_of_casing());
        if let Some(named) = &exact {
            // `dia.` under `Rock hole` is not the casing's.
            let against =
                !group.is_empty() && with_group.is_none() && patterns::speaks_against(&group_meaning, named.field);
            raise(named.field, if against { 0.5 } else { 1.0 }, !against);
        }
        for (field, score) in patterns::scores(&alone) {
            let against = !group.is_empty() && patterns::speaks_against(&group_meaning, field);
            raise(field, if against { score * 0.5 } else { score }, false);
        }
        if !group.is_empty() {
            // `Ø of the lower rings` under `Inside diameters`: the group makes it no casing.
            let own = |(field, _): &(Field, f64)| !patterns::speaks_against(&alone, *field);
            for (field, score) in patterns::scores(&together).into_iter().filter(own) {
                raise(field, score - GROUP_DISCOUNT, false);
            }
        }
        // `Dip = from the measuring point down`: the file's own words for the heading, alone and together with it.
        if let Some(says) = self.layout.explained.get(self.column).filter(|says| !says.is_empty()) {
            let of = |text: &str| lexicon::meaning(&lexicon::tokens(&without_brackets(text)), self.layout.language);
            let whole = [says.clone(), format!("{} {says}", without_brackets(self.heading))];
            // `Inside diam of casing, and of screen, in. Blank = open hole`: what begins it says what it is, where it is told in full.
            let first = [says.split(". ").next(), says.split([',', ';', '(', '.']).next()];
            let full = first.into_iter().flatten().map(of).filter(|meaning| meaning.concepts.len() > 1);
            for meaning in whole.iter().map(|text| of(text)).chain(full) {
                for (field, score) in patterns::scores(&meaning) {
                    if !self.cannot_be(&alone, &meaning, field) {
                        raise(field, score - GROUP_DISCOUNT, false);
                    }
                }
            }
        }
        let (by_unit, is_no_name) = self.by_unit(&alone);
        for (field, score) in by_unit {
            raise(field, score, false);
        }
        // `Well dept (ft)`: a slip of the pen in a name, if the cells are what the name says.
        if exact.is_none()
            && !alone.unknown.is_empty()
            && let Some((field, _)) = heading::near(self.heading, self.gallon)
            && field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length)
            // `CASING_NOM` is two letters from `casing od`.
            && (field != Field::CasingOutsideDiameter || alone.has(Concept::Outside))
        {
            raise(field, 0.5, false);
        }
        // A column of `drilled`, `dug`, `driven` is a type whatever it is called.
        // Names of places that have wells in them are not types.
        let few_texts = self.profile.distinct * 10 <= self.profile.filled * 4 || self.profile.distinct <= 8;
        // A jet or a hammer is a kind of pump where the heading is.
        let of_pump = alone.has(Concept::Pump) && !alone.has(Concept::Well) && !alone.has(Concept::Kind);
        if self.profile.share(self.profile.types) >= 0.7 && self.profile.filled >= 5 && few_texts && !of_pump {
            raise(Field::WellType, 0.62, false);
        }
        // What stands first in every row and never twice is what the office calls the well by.
        let cells = self.profile.filled;
        if self.column == 0
            && cells >= 8
            && cells * 10 >= self.rows * 7
            && self.profile.distinct * 20 >= cells * 19
            && self.profile.words_a_cell() <= 2.0
            && self.profile.dates == 0
            && self.profile.decimals == 0
            && !is_of_something_else(&alone)
        {
            raise(Field::WellId, 0.45, false);
        }
        // `6 in. to 58 ft, open to 180`: how a well is cased, whatever the column is called.
        if self.profile.share(self.profile.strings) >= 0.5 && self.profile.strings >= 4 {
            raise(Field::CasingDiameter, 0.62, false);
        }
        // A few words say where water goes; more describe where the well lies.
        let routes = self.profile.share(self.profile.routes) >= 0.7
            && self.profile.filled >= 5
            && self.profile.words_a_cell() <= 3.0;
        if routes && !alone.has(Concept::Sewage) && !is_of_something_else(&alone) {
            raise(Field::DischargeRoute, 0.5, false);
        }
        // A hole that is grouted around the casing holds no water, by the file's own words.
        if lexicon::meaning(&lexicon::tokens(self.explained()), self.layout.language).has(Concept::Grout) {
            scores.retain(|(field, ..)| *field != Field::OpenHoleDiameter);
        }
        if self.stands_as_state() {
            scores.retain(|(field, ..)| *field != Field::StaticWaterLevel);
            scores.push((Field::Status, LIKELY, false));
        }
        if self.is_told_as_height() {
            let waters = [Field::StaticWaterLevel, Field::WaterColumn, Field::WaterVolume];
            let known = scores.iter().position(|(field, ..)| waters.contains(field));
            if known.is_some() || self.bracket_says_height() {
                scores.retain(|(field, ..)| !waters.contains(field));
                scores.push((Field::WaterColumn, SURE, false));
            }
        }
        // `Pump plinth height (cm)` is the height of something that is not known.
        let names_height = || lexicon::tokens(self.heading).iter().any(|word| HEIGHTS.contains(&word.as_str()));
        if alone.has(Concept::Height)
            && alone.unknown.iter().any(|word| !stated::UNITS.contains(&word.as_str()))
            && !OF_WATER.iter().any(|concept| alone.has(*concept))
            && names_height()
            && let Some((_, score, _)) = scores.iter_mut().find(|(field, ..)| *field == Field::WaterColumn)
        {
            *score = score.min(OPEN);
        }
        // `Lâmina d'água a (m abaixo do solo)`: so far down, and no height.
        if self.bracket_counts_down()
            && let Some(at) = scores.iter().position(|(field, ..)| *field == Field::WaterColumn)
            && !scores.iter().any(|(field, ..)| *field == Field::StaticWaterLevel)
        {
            scores[at] = (Field::StaticWaterLevel, SURE, false);
        }
        // `Sl.`, the serial number of a list from India: what stands first and is never written twice is no level.
        let serial = matches!(lexicon::tokens(self.heading).as_slice(), [only] if only == "sl");
        if serial && self.column == 0 && self.profile.decimals == 0 && self.profile.distinct == cells {
            scores = vec![(Field::WellId, LIKELY, false)];
        }
        if self.is_nominal() {
            scores.retain(|(field, ..)| *field == Field::CasingDiameter);
        }
        if is_no_name {
            scores.retain(|(field, ..)| *field != Field::WellId);
        }
        let mut found: Vec<Reading> = scores
            .into_iter()
            .filter_map(|(field, score, is_exact)| {
                let named = match &exact {
                    Some(named) if named.field == field => {
                        Named { datum: named.datum.or_else(|| self.explained_datum(field)), ..named.clone() }
                    }
                    _ => self.named(field, &alone),
                };
                let support = self.support(field, &named, is_exact)?;
                Some(Reading { column: self.column, named, score: score + support, exact: is_exact, by_hand: false })
            })
            .collect();
        found.sort_by(|a, b| b.score.total_cmp(&a.score).then(a.named.field.cmp(&b.named.field)));
        found
    }

    /// Whether a heading's own words keep it from what other words of the file would make of it: a width is no depth, and a
    /// column of water no level, unless it is said to be counted down.
    fn cannot_be(&self, alone: &Meaning, said: &Meaning, field: Field) -> bool {
        const DEPTHS: [Field; 4] = [Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDepth, Field::WaterColumn];
        let down = [Concept::Depth, Concept::Ground, Concept::Rim, Concept::Below, Concept::Find];
        let is_down = down.iter().any(|concept| said.has(*concept));
        let high = alone.has(Concept::Column) || alone.has(Concept::Height);
        alone.has(Concept::Diameter) && DEPTHS.contains(&field) || high && !is_down && field == Field::StaticWaterLevel
    }

    /// A depth to water or a height of water: the words do not tell.
    pub fn is_water_depth(&self) -> bool {
        if self.has_unit_of(Dimension::Volume) {
            return false;
        }
        let mut meaning = self.meaning();
        // `Water at ft`, `Water, ft down`; `Ft wtr` is how much of it.
        if self.bracket_says_height()
            || lexicon::tokens(self.heading).iter().any(|word| stated::DOWN.contains(&word.as_str()))
        {
            meaning.unknown.retain(|word| !stated::UNITS.contains(&word.as_str()));
        }
        let only =
            |concept: &Concept| matches!(concept, Concept::Water | Concept::Depth | Concept::Well | Concept::Below);
        let measured = self.profile.filled > 0 && self.profile.share(self.profile.measures()) >= 0.4;
        meaning.has(Concept::Water)
            && meaning.unknown.is_empty()
            && (meaning.has(Concept::Depth) || meaning.concepts.len() == 1 && measured)
            && meaning.concepts.iter().all(only)
            || heading::is_water_depth(self.heading, self.gallon)
            || self.only_stands()
    }

    /// What the file says of the heading elsewhere.
    fn explained(&self) -> &str {
        self.layout.explained.get(self.column).map_or("", String::as_str)
    }
}
