//! What each column may be: by the words of its heading, by the group above it, by what its cells hold.

use super::fit::fit;
use super::patterns::{self, is_of_something_else};
use super::plain_heading::{without_brackets, without_condition, without_date};
use crate::field::{FIELDS, Field, Kind};
use crate::inventory::heading::{self, HeadingUnit, Named};
use crate::inventory::layout::Layout;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::inventory::notes;
use crate::inventory::profile::Profile;
use crate::quantity::unit::{self, Dimension, Gallon, Unit};

/// From this score on a reading is used without a word.
pub const SURE: f64 = 0.85;
/// From this score on a reading is used and said.
pub const LIKELY: f64 = 0.55;
/// From this score on a reading is asked for.
pub const OPEN: f64 = 0.3;

/// What a group's words are worth less than the heading's own.
const GROUP_DISCOUNT: f64 = 0.03;
/// What a heading above nothing but blank cells loses.
const EMPTY_COLUMN: f64 = 0.6;
/// So many cells make their witness count in full.
const ENOUGH_CELLS: f64 = 8.0;

/// What a group of columns says where it only tells whose they are.
const ORIGIN: [Concept; 6] =
    [Concept::Region, Concept::Site, Concept::Name, Concept::Notes, Concept::Find, Concept::Date];

/// A way to read a column.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The column.
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
    /// The column.
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
        let question = without_condition(self.heading);
        let outer = without_date(&without_brackets(question), self.layout.language);
        let words = lexicon::tokens(&outer);
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
        let exact = exact.filter(|named| !self.is_explained_otherwise(named.field));
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
                    raise(field, score - GROUP_DISCOUNT, false);
                }
            }
        }
        // `Well dept (ft)`: a slip of the pen in a name, if the cells are what the name says.
        if exact.is_none()
            && !alone.unknown.is_empty()
            && let Some((field, _)) = heading::near(self.heading, self.gallon)
            && field.quantity().is_some_and(|quantity| quantity.dimension == Dimension::Length)
        {
            raise(field, 0.5, false);
        }
        // A column of `drilled`, `dug`, `driven` is a type whatever it is called.
        // Names of places that have wells in them are not types.
        let few_texts = self.profile.distinct * 10 <= self.profile.filled * 4 || self.profile.distinct <= 8;
        if self.profile.share(self.profile.types) >= 0.7 && self.profile.filled >= 5 && few_texts {
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

    /// Whether the column is counted down from the ground or the rim, by its heading, the row of units or the file's own words.
    pub fn is_counted_down(&self) -> bool {
        // `Water at`: where it stands, and not how much of it.
        let words = lexicon::tokens(&without_brackets(self.heading));
        // `Water down`: so far down.
        let said = |last: &str| words.ends_with(&["water".to_owned(), last.to_owned()]);
        if said("at") || said("down") {
            return true;
        }
        let units = self.layout.units.get(self.column).map_or("", String::as_str);
        let words = lexicon::tokens(&format!("{} {units} {}", self.heading, self.explained()));
        let datum = notes::datum(&words, &lexicon::meaning(&words, self.layout.language));
        let down =
            |datum: Option<heading::Datum>| matches!(datum, Some(heading::Datum::Ground | heading::Datum::TopOfCasing));
        down(datum) || self.notes_name_it().any(|datum| down(Some(datum)))
    }

    /// What notes say that this column is counted from, where they name it by its heading: `fundo e água medidos desde a boca`.
    fn notes_name_it(&self) -> impl Iterator<Item = heading::Datum> + '_ {
        let own = lexicon::tokens(&without_brackets(self.heading));
        let clauses = self.layout.notes.iter().flat_map(|note| note.split(['.', ';']));
        clauses.filter_map(move |clause| {
            let words = lexicon::tokens(clause);
            let named = !own.is_empty() && own.iter().all(|word| words.contains(word));
            let measured = words
                .iter()
                .any(|word| ["medid", "mesur", "measur", "taped", "midio"].iter().any(|start| word.starts_with(start)));
            (named && measured).then(|| notes::datum(&words, &lexicon::meaning(&words, self.layout.language)))?
        })
    }

    /// A depth to water or a height of water: the words do not tell.
    pub fn is_water_depth(&self) -> bool {
        let meaning = self.meaning();
        let only =
            |concept: &Concept| matches!(concept, Concept::Water | Concept::Depth | Concept::Well | Concept::Below);
        let measured = self.profile.filled > 0 && self.profile.share(self.profile.measures()) >= 0.4;
        meaning.has(Concept::Water)
            && meaning.unknown.is_empty()
            && (meaning.has(Concept::Depth) || meaning.concepts.len() == 1 && measured)
            && meaning.concepts.iter().all(only)
            || heading::is_water_depth(self.heading, self.gallon)
    }

    /// The unit that the heading, a row of units or the group gives this column for a field.
    pub fn named(&self, field: Field, meaning: &Meaning) -> Named {
        let mut named = Named::told(field);
        let Some(quantity) = field.quantity() else { return named };
        let (unit, datum, bare_in) = heading::unit_for(self.heading, field, self.gallon);
        // Of two units in two brackets neither is that of the column.
        let two = heading::narrow_and_wide(self.heading).is_some();
        named.unit = if two { HeadingUnit::None } else { unit };
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
    fn stated(&self, dimension: Dimension) -> Option<&'static Unit> {
        let units = |text: &str| -> Vec<&'static Unit> {
            notes::stated(text, self.layout.language, self.gallon, &[])
                .into_iter()
                .filter(|stated| stated.types.is_empty())
                .filter_map(|stated| stated.unit.filter(|unit| unit.dimension == dimension))
                .collect()
        };
        units(self.heading).first().copied().or_else(|| match units(self.explained()).as_slice() {
            // `inches for A, C, D` goes on for others.
            [only] if ![" for ", " pour ", " para "].iter().any(|word| self.explained().contains(word)) => Some(*only),
            _ => None,
        })
    }

    /// What the file says of the heading elsewhere.
    fn explained(&self) -> &str {
        self.layout.explained.get(self.column).map_or("", String::as_str)
    }

    /// What a depth or level is counted from by what the file says of its heading elsewhere.
    fn explained_datum(&self, field: Field) -> Option<heading::Datum> {
        let words = lexicon::tokens(self.explained());
        is_counted(field).then(|| notes::datum(&words, &lexicon::meaning(&words, self.layout.language))).flatten()
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

    /// What the unit of the heading and the cells say for or against a field; nothing where it cannot be.
    fn support(&self, field: Field, named: &Named, exact: bool) -> Option<f64> {
        let profile = self.profile;
        let mut support = 0.0;
        if let Some(quantity) = field.quantity() {
            let unit = self.unit_below(field).or(match &named.unit {
                HeadingUnit::Unit(unit) => Some(*unit),
                _ => None,
            });
            let foreign = [Dimension::Length, Dimension::Volume, Dimension::Flow, Dimension::Concentration]
                .into_iter()
                .filter(|dimension| *dimension != quantity.dimension)
                .any(|dimension| self.has_unit_of(dimension));
            match unit {
                Some(unit) if unit.dimension == quantity.dimension => {
                    support += if quantity.dimension == Dimension::Length { 0.05 } else { 0.25 };
                }
                // A field by its own name with a unit of something else is said to be that.
                Some(_) if !exact => return None,
                None if foreign && !exact => return None,
                Some(_) | None => {}
            }
        }
        if profile.filled == 0 && self.rows > ENOUGH_CELLS as usize {
            // A heading of the vocabulary means its field whatever stands below it.
            return Some(if exact { support } else { support - EMPTY_COLUMN });
        }
        let weight = (profile.filled as f64 / ENOUGH_CELLS).min(1.0);
        Some(support + weight * self.witness(field, named))
    }

    fn unit_below(&self, field: Field) -> Option<&'static Unit> {
        let cell = self.layout.units.get(self.column).filter(|cell| !cell.is_empty())?;
        match heading::unit_below(cell, field, self.gallon).0 {
            HeadingUnit::Unit(unit) => Some(unit),
            _ => notes::unit_of(&lexicon::tokens(cell), self.gallon),
        }
    }

    fn has_unit_of(&self, dimension: Dimension) -> bool {
        let below = self.layout.units.get(self.column).map(|cell| lexicon::tokens(cell));
        let gallon = self.gallon.or(Some(Gallon::Us));
        let of = |unit: Option<&'static Unit>| unit.is_some_and(|unit| unit.dimension == dimension);
        let in_heading =
            notes::stated(self.heading, self.layout.language, gallon, &[]).iter().any(|stated| of(stated.unit));
        in_heading || below.is_some_and(|words| of(notes::unit_of(&words, gallon)))
    }

    /// What the cells say for or against a field, from -1 to 0.3.
    fn witness(&self, field: Field, named: &Named) -> f64 {
        let profile = self.profile;
        if profile.filled == 0 {
            return 0.0;
        }
        let share = |count: usize| profile.share(count);
        let distinct = profile.distinct as f64 / profile.filled as f64;
        match FIELDS[field as usize].kind {
            Kind::Quantity(quantity) if quantity.dimension == Dimension::Length => {
                if share(profile.dates) > 0.5 || share(profile.other_quantities) > 0.5 {
                    return -0.9;
                }
                let measures = share(profile.measures());
                if measures < 0.2 {
                    return -0.8;
                }
                // What some cells write is not yet the unit of the bare ones.
                let unit = match &named.unit {
                    HeadingUnit::Unit(unit) => Some(*unit),
                    _ => None,
                };
                let fit = fit(field, profile, unit);
                let counting = if profile.counts_up { -0.5 } else { 0.0 };
                counting + if measures < 0.5 { -0.3 } else { 0.0 } + if fit < 0.4 { -0.45 } else { 0.1 * fit }
            }
            Kind::Quantity(quantity) => {
                let numbers = share(profile.numbers.len() + profile.lengths.len() + profile.other_quantities);
                if numbers < 0.2 || share(profile.dates) > 0.5 {
                    return -0.8;
                }
                let unit = unit::by_symbol(quantity.unit);
                let inside = unit.map_or(1.0, |unit| {
                    let si = |value: f64| unit.to_si(value);
                    profile.within(unit, (si(quantity.possible.0), si(quantity.possible.1)))
                });
                let angle = quantity.dimension == Dimension::Angle && share(profile.decimals) < 0.3;
                if angle
                    || inside < 0.5 && quantity.dimension != Dimension::Flow && quantity.dimension != Dimension::Volume
                {
                    -0.5
                } else {
                    0.05
                }
            }
            // A few short codes: what they mean is asked, or explained elsewhere in the file.
            Kind::Choice(_) if profile.distinct <= 15 && profile.words_a_cell() <= 1.5 && distinct < 0.5 => {
                choice(share(if field == Field::WellType { profile.types } else { profile.routes })).max(-0.05)
            }
            Kind::Choice(_) if field == Field::WellType => choice(share(profile.types)),
            Kind::Choice(_) => choice(share(profile.routes)),
            Kind::Flag => {
                if share(profile.flags) >= 0.5 {
                    0.1
                } else if share(profile.flags) >= 0.2 {
                    0.0
                } else {
                    -0.3
                }
            }
            // A column of ticks answers a question; it names nothing.
            Kind::Text
                if named.rank == usize::MAX
                    && profile.filled >= 5
                    && profile.distinct <= 3
                    && share(profile.flags) >= 0.9 =>
            {
                -0.6
            }
            Kind::Text => match field {
                Field::WellId => {
                    let words = profile.words_a_cell();
                    let mut witness = if distinct >= 0.9 {
                        0.15
                    } else if distinct < 0.3 {
                        -0.45
                    } else {
                        0.0
                    };
                    witness += if words > 4.0 { -0.4 } else { 0.0 };
                    // `_id`, `_index`: the number of a form sent in, not of a well.
                    witness += if self.heading.starts_with('_') { -0.3 } else { 0.0 };
                    witness + if share(profile.dates) > 0.5 || share(profile.types) > 0.5 { -0.6 } else { 0.0 }
                }
                Field::CasingMaterial if share(profile.measures()) > 0.5 => -0.8,
                // `District well no.`: an area has many wells.
                Field::Region | Field::Depot if distinct > 0.95 && profile.filled >= 12 => -0.45,
                Field::Region | Field::Depot if share(profile.numbers.len()) > 0.9 && profile.decimals > 0 => -0.6,
                Field::Notes if share(profile.numbers.len()) > 0.6 => -0.5,
                Field::Notes if profile.words_a_cell() >= 2.5 => 0.1,
                Field::Status if share(profile.numbers.len()) > 0.8 && (profile.decimals > 0 || distinct > 0.5) => -0.5,
                _ => 0.0,
            },
        }
    }
}

fn choice(share: f64) -> f64 {
    if share >= 0.7 {
        0.25
    } else if share >= 0.4 {
        0.1
    } else if share >= 0.15 {
        -0.2
    } else {
        -0.6
    }
}

/// Whether a field is counted from somewhere: the ground, the rim, the sea.
const fn is_counted(field: Field) -> bool {
    matches!(field, Field::TotalDepth | Field::StaticWaterLevel)
}
