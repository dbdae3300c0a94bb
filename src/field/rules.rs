//! What the scenario file says about reading the list: headings, units, gallon, missing values, repeats.
//!
//! Plain data, filled by the scenario room (or by the command line) and obeyed by the inventory and checks rooms.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::species::Species;
use super::{Field, WellType, same_column};
use crate::place::Origin;
use crate::quantity::Band;
use crate::quantity::unit::{Gallon, Unit};

/// How people of this campaign measure: decides bare gallons and headings without a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum UnitSystem {
    /// Feet, inches, US gallons.
    Us,
    /// Meters, millimeters, liters; a bare gallon is asked about.
    Metric,
    /// Feet, inches, imperial gallons.
    Imperial,
}

impl UnitSystem {
    /// Place of this system in [`super::Quantity::default_units`].
    pub const fn index(self) -> usize {
        match self {
            Self::Us => 0,
            Self::Metric => 1,
            Self::Imperial => 2,
        }
    }

    /// The word of the scenario file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// What a bare gallon means; nothing in a metric campaign.
    pub const fn gallon(self) -> Option<Gallon> {
        match self {
            Self::Us => Some(Gallon::Us),
            Self::Metric => None,
            Self::Imperial => Some(Gallon::Imperial),
        }
    }
}

/// What to do with several rows of one well and one visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RepeatPolicy {
    /// The first row is planned, each later one is held back with a finding.
    #[default]
    HoldBack,
    /// Each row is a visit of its own, numbered in reading order.
    SeparateVisits,
    /// Of each well only the latest visit is planned; the others are held back with a finding.
    Latest,
}

/// What a column may say of the one beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beside {
    /// The unit of its values.
    Unit,
    /// A sign or word before its values: `<`, `>`, `estimated`.
    Qualifier,
}

impl Beside {
    /// The word of the scenario file, which goes on with `of` and a field.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Qualifier => "qualifier",
        }
    }
}

/// Headings of a table of corrections: findings as they go out for mending, and come back with right values filled in.
pub const CORRECTION_HEADINGS: [&str; 14] = [
    "Severity",
    "File",
    "Sheet",
    "Row",
    "Column",
    "Well",
    "Field",
    "Heading",
    "As typed",
    "What is wrong",
    "What to do",
    "Suggested value",
    "Right value",
    "Who and when",
];

/// The severity of a row of that table which a person added, once the program writes it anew.
pub const ADDED: &str = "added";

/// A cell of a list that is read as if something else were typed in it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Correction {
    /// The list's file name.
    pub file: String,
    /// The sheet, where the file has sheets.
    pub sheet: Option<String>,
    /// The cell, as findings show it.
    pub place: String,
    /// Row as shown to a person; 0 where none is given.
    pub row: u32,
    /// Column from 1; 0 where none is given.
    pub column: u32,
    /// Its heading, for people.
    pub heading: String,
    /// What was typed there when the correction was written.
    pub typed: String,
    /// Whether it counts whatever stands there: a person added it, and wrote nothing of what is typed.
    pub is_for_any: bool,
    /// What is read instead.
    pub corrected: String,
    /// Who corrected it, and when.
    pub who: String,
    /// Where the correction itself is written.
    pub written_in: String,
}

/// Rules of one list: of a file, or of one sheet of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ListRules {
    /// The list's file name, without its folder or with so much of it as tells it from another of the same name.
    pub file: String,
    /// The sheet, where only one is meant.
    pub sheet: Option<String>,
    /// What is said of it; whatever concerns cells and headings, nothing else.
    pub rules: ReadingRules,
}

impl ListRules {
    /// The table that is meant.
    pub fn origin(&self) -> Origin {
        match &self.sheet {
            Some(sheet) => Origin::sheet(&self.file, sheet),
            None => Origin::file(&self.file),
        }
    }

    /// Whether a table is meant.
    pub fn concerns(&self, origin: &Origin) -> bool {
        is_named(&self.file, &origin.file)
            && self.sheet.as_deref().is_none_or(|sheet| origin.sheet.as_deref() == Some(sheet))
    }
}

/// Whether a list is meant by a name: its own, or one that ends in it or in which it ends, folder by folder.
pub fn is_named(name: &str, list: &str) -> bool {
    let ends = |long: &str, short: &str| long.strip_suffix(short).is_some_and(|folder| folder.ends_with('/'));
    name == list || !list.is_empty() && !name.is_empty() && (ends(name, list) || ends(list, name))
}

/// Everything the campaign says about reading its lists.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ReadingRules {
    /// The declared system, if one was declared: the campaign's, or the list's own.
    pub system: Option<UnitSystem>,
    /// Whether that system was declared for this list alone.
    pub system_of_list: bool,
    /// Headings mapped by hand: heading as written → field; `None` leaves the column out of the fields.
    pub columns: BTreeMap<String, Option<Field>>,
    /// Headings mapped by hand to the column of a field, as its unit or as the sign before its values.
    pub beside: BTreeMap<String, (Beside, Field)>,
    /// What the mg/L of a field are counted as, where its heading does not say.
    pub species: BTreeMap<Field, &'static Species>,
    /// Units imposed on a field, whatever the heading says nothing about.
    pub units: BTreeMap<Field, &'static Unit>,
    /// Further texts that mean "not known", beside the built-in ones.
    pub missing_texts: Vec<String>,
    /// What the words of a list mean in a field of choices, or of yes and no: field, word as written, meaning as a list would
    /// have it. A word may also stand for [`NOT_KNOWN`], and among the types of wells for [`NO_WELL`].
    pub words: BTreeMap<Field, BTreeMap<String, String>>,
    /// Assumed values for missing fields, by well type.
    pub assumptions: BTreeMap<(WellType, Field), Band<f64>>,
    /// Missing fields whose value is drawn from the list's own wells of the same type and region, before
    /// [`Self::assumptions`] is asked.
    pub drawn: BTreeSet<(WellType, Field)>,
    /// Values used for a whole field where its cell is blank, as text to be read like a cell (`well_type = "drilled"`).
    pub fixed: BTreeMap<Field, String>,
    /// Cells that are read as if something else were typed in them.
    pub corrections: Vec<Correction>,
    /// What becomes of several rows of one well and one visit.
    pub repeats: RepeatPolicy,
    /// The campaign's box: south, west, north, east, in degrees.
    pub bounding_box: Option<[f64; 4]>,
    /// What is said of single lists; see [`Self::of`].
    pub lists: Vec<ListRules>,
}

/// Meaning of a word that says nothing.
pub const NOT_KNOWN: &str = "unknown";
/// Meaning of a word, in the column of types, for what is not a well that is treated; as the right value of any cell it leaves the
/// whole row out.
pub const NO_WELL: &str = "not a well";

impl ReadingRules {
    /// The field that a column of this name feeds: by its heading mapped by hand, for all lists or for one, else by one it is
    /// known under.
    pub fn fed_by(&self, heading: &str) -> Option<Field> {
        let all = std::iter::once(self).chain(self.lists.iter().map(|list| &list.rules));
        let mut mapped = all.flat_map(|rules| &rules.columns).filter(|(written, _)| same_column(written, heading));
        mapped.next().map_or_else(|| Field::by_heading(heading), |(_, field)| *field)
    }

    /// Whose declared system it is, in words.
    pub const fn whose_system(&self) -> &'static str {
        if self.system_of_list { "list" } else { "campaign" }
    }
}

impl ReadingRules {
    /// The rules that a table is read by: what is said of its sheet, over what is said of its file, over what is said of all
    /// lists. What is set for one list does not touch another's.
    pub fn of(&self, origin: &Origin) -> Cow<'_, Self> {
        let concerned = || self.lists.iter().filter(|list| list.concerns(origin));
        if concerned().next().is_none() {
            return Cow::Borrowed(self);
        }
        let mut rules = self.clone();
        rules.lists.clear();
        let whole_files = concerned().filter(|list| list.sheet.is_none());
        whole_files.chain(concerned().filter(|list| list.sheet.is_some())).for_each(|list| rules.lay_over(&list.rules));
        Cow::Owned(rules)
    }

    fn lay_over(&mut self, list: &Self) {
        if list.system.is_some() {
            self.system = list.system;
            self.system_of_list = true;
        }
        let same = |one: &str, other: &str| tidy(one) == tidy(other);
        for heading in list.columns.keys().chain(list.beside.keys()) {
            self.columns.retain(|written, _| !same(written, heading));
            self.beside.retain(|written, _| !same(written, heading));
        }
        self.columns.extend(list.columns.iter().map(|(heading, field)| (heading.clone(), *field)));
        self.beside.extend(list.beside.iter().map(|(heading, target)| (heading.clone(), *target)));
        for (field, unit) in &list.units {
            self.units.insert(*field, *unit);
            self.species.remove(field);
        }
        self.species.extend(list.species.iter().map(|(field, species)| (*field, *species)));
        self.missing_texts.extend(list.missing_texts.iter().cloned());
        self.fixed.extend(list.fixed.iter().map(|(field, text)| (*field, text.clone())));
        for (field, words) in &list.words {
            let mine = self.words.entry(*field).or_default();
            for (word, meaning) in words {
                mine.retain(|written, _| !same(written, word));
                mine.insert(word.clone(), meaning.clone());
            }
        }
    }
}

/// In small letters, blanks single and none outside: how headings of the scenario file are compared with those of lists.
fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}
