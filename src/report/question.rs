//! A question that one line of the scenario file answers, and which findings it belongs to.

use std::collections::BTreeSet;

use crate::field::Field;
use crate::finding::{Code, Finding, Severity, catalogue};

/// Most questions that are looked at together.
pub const MOST_TOGETHER: usize = 6;

/// Which question a finding belongs to: one answer settles all that share it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// The units of a list, where no system is declared.
    Units(usize),
    /// Which columns of a list are what.
    Columns(usize),
    /// What the words in a column of a list mean.
    Words(usize, u32),
    /// What to take where a column's cells are blank.
    Blank(usize, u32, &'static str),
    /// What repeated rows are.
    Repeats,
    /// Whatever else one line settles, by list, column and code.
    Line(usize, u32, &'static str),
}

/// A question, and what its answer sets free.
#[derive(Debug, Clone)]
pub struct Question {
    /// What it asks of which list; findings with the same key share its answer.
    pub key: Key,
    /// The causes it settles, by their place in [`Causes::all`].
    pub causes: Vec<usize>,
    /// Wells that are free once it alone is answered.
    pub alone: u64,
    /// Wells that wait for it, alone or with others.
    pub needed: u64,
}

impl Question {
    pub(super) fn new(key: Key) -> Self {
        Self { key, causes: Vec::new(), alone: 0, needed: 0 }
    }
}

/// The question that a finding belongs to; nothing where each cell must be looked at.
pub(super) fn key(finding: &Finding, list: usize, undeclared: bool) -> Option<Key> {
    let code = finding.code;
    let column = finding.place.column.as_ref().map_or(0, |column| column.number);
    const GALLONS: [Code; 2] = [catalogue::GALLON_UNDECLARED, catalogue::HEADING_GALLON_UNDECLARED];
    const NO_COLUMNS: [Code; 2] = [catalogue::NO_COLUMN, catalogue::NO_KNOWN_HEADING];
    const REPEATS: [Code; 2] = [catalogue::REPEATED_VISIT, catalogue::CONFLICTING_VISIT];
    if NO_COLUMNS.contains(&code) || lacks_column(finding).is_some() {
        return Some(Key::Columns(list));
    }
    if code.severity() != Severity::Error {
        return None;
    }
    if undeclared && (code == catalogue::NO_UNIT || GALLONS.contains(&code)) {
        return Some(Key::Units(list));
    }
    if is_about_words(finding) {
        return Some(Key::Words(list, column));
    }
    if missing_field(code).is_some() {
        return Some(Key::Blank(list, column, code.id()));
    }
    if REPEATS.contains(&code) {
        return Some(Key::Repeats);
    }
    let help = finding.help.to_string();
    let answered = ["[inventory", "[campaign]", "[[list]]", "[missing"].iter().any(|table| help.contains(table));
    answered.then(|| Key::Line(list, column, code.id()))
}

/// The field that a finding says is missing.
pub fn missing_field(code: Code) -> Option<Field> {
    const MISSING: [(Code, Field); 5] = [
        (catalogue::WELL_TYPE_MISSING, Field::WellType),
        (catalogue::DEPTH_MISSING, Field::TotalDepth),
        (catalogue::LEVEL_MISSING, Field::StaticWaterLevel),
        (catalogue::DIAMETER_MISSING, Field::CasingDiameter),
        (catalogue::SPRING_BOX_VOLUME_MISSING, Field::WaterVolume),
    ];
    MISSING.iter().find(|(missing, _)| *missing == code).map(|(_, field)| *field)
}

/// Whether the words of a cell, and not its number, are what was not understood.
pub fn is_about_words(finding: &Finding) -> bool {
    const WORDS: [Code; 4] = [
        catalogue::UNKNOWN_WELL_TYPE,
        catalogue::UNKNOWN_CHOICE,
        catalogue::FLAG_NOT_UNDERSTOOD,
        catalogue::CHOICE_FROM_PHRASE,
    ];
    // A type that is missing although something is written: a word whose meaning is asked.
    WORDS.contains(&finding.code) || finding.code == catalogue::WELL_TYPE_MISSING && !finding.seen.is_empty()
}

/// The field whose column a row lacks, where the finding says that a value is missing and there is no cell to write it in.
pub fn lacks_column(finding: &Finding) -> Option<&'static str> {
    missing_field(finding.code)
        .filter(|_| finding.place.row.is_some() && finding.place.column.is_none())
        .map(Field::name)
}

/// Fields that have no column because of what is said about a file or a heading.
pub(super) fn fields_without_column(finding: &Finding) -> Vec<&'static str> {
    const RESTS_ON: [Field; 5] =
        [Field::WellType, Field::TotalDepth, Field::StaticWaterLevel, Field::CasingDiameter, Field::WaterVolume];
    if finding.code == catalogue::NO_KNOWN_HEADING {
        return RESTS_ON.map(Field::name).to_vec();
    }
    if finding.code == catalogue::AMBIGUOUS_WATER_DEPTH {
        return vec![Field::StaticWaterLevel.name()];
    }
    if finding.code != catalogue::NO_COLUMN && finding.code.severity() != Severity::Error {
        return Vec::new();
    }
    // A heading that holds rows back names its field in the line that mends it.
    let text = format!("{} {}", finding.says, finding.help);
    let words: BTreeSet<&str> = text.split(|letter: char| !(letter.is_alphanumeric() || letter == '_')).collect();
    RESTS_ON.map(Field::name).into_iter().filter(|name| words.contains(name)).collect()
}
