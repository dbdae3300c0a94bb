//! Questions that one line of the scenario file answers, and the words in which causes and questions are put to people.

use std::collections::BTreeSet;

use super::causes::{Cause, Causes, lacks_column};
use crate::field::{Field, Kind};
use crate::finding::{Code, Finding, Severity, catalogue};
use crate::place::{Origin, Place};

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
    /// What is asked.
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

    fn causes<'a>(&'a self, all: &'a Causes) -> impl Iterator<Item = &'a Cause> {
        self.causes.iter().filter_map(|at| all.all().get(*at)).filter(|cause| cause.wells > 0)
    }

    /// What is asked: `unit of "Depth" in county-b.csv`.
    pub fn asks(&self, all: &Causes) -> String {
        let first = self.causes(all).next();
        let of_list = match first.and_then(|cause| cause.list).and_then(|list| all.lists().get(list)) {
            Some(list) => format!(" in {}", list_name(&list.origin)),
            None => String::new(),
        };
        let headings: BTreeSet<(u32, String)> = self
            .causes(all)
            .filter_map(|cause| cause.column.as_ref())
            .map(|column| (column.number, quoted(&column.heading)))
            .collect();
        let named = headings.iter().map(|(_, heading)| heading.as_str()).collect::<Vec<_>>().join(", ");
        match self.key {
            Key::Units(_) if headings.len() == 1 => format!("unit of {named}{of_list}"),
            Key::Units(_) => format!("units of {named}{of_list}"),
            Key::Columns(_) => format!("column for {}{of_list}", plain(&self.lacking(all))),
            Key::Words(..) => format!("meaning of {} in {named}{of_list}", self.words(all)),
            Key::Blank(..) => format!("what to take where {named} is blank{of_list}"),
            Key::Repeats => "are repeated rows visits of their own".to_owned(),
            Key::Line(..) => {
                let what = first.map_or("", |cause| cause.code.name()).replace('-', " ");
                if named.is_empty() { format!("{what}{of_list}") } else { format!("{what}: {named}{of_list}") }
            }
        }
    }

    /// How to answer, in one line: `[inventory.units] total_depth = "ft" (or whatever it is)`.
    pub fn answer(&self, all: &Causes) -> String {
        let Some(first) = self.causes(all).next() else { return String::new() };
        match self.key {
            Key::Units(_) => {
                let help = one_line(&first.help.to_string());
                let own = help.split(", or [campaign]").next().unwrap_or_default().trim();
                match own.find("[inventory.units]") {
                    Some(at) => format!("--units us (or metric, imperial), or {}", &own[at..]),
                    None => "--units us (or metric, imperial)".to_owned(),
                }
            }
            Key::Columns(_) => {
                let lacking = self.lacking(all);
                let kind = Field::WellType.name();
                match lacking.iter().find(|field| **field != kind) {
                    Some(field) => format!("[inventory.columns] \"heading as written\" = \"{field}\""),
                    None => format!("[inventory.columns] \"heading\" = \"{kind}\", or [inventory.fixed] {kind} = \"drilled\""),
                }
            }
            Key::Words(..) => {
                let meanings = first.column.as_ref().map_or(String::new(), |_| meanings(first.code));
                format!("[inventory.words.{}] {} = {meanings}", word_field(first.code), quoted(&first.typed))
            }
            Key::Blank(.., code) if code == catalogue::WELL_TYPE_MISSING.id() => {
                format!("[inventory.fixed] {} = \"drilled\"", Field::WellType.name())
            }
            Key::Blank(..) => {
                let field = missing_field(first.code).map_or("", Field::name);
                format!("[missing.drilled] {field} = {{ low = …, mid = …, high = … }}, and so for each type")
            }
            Key::Repeats => "[inventory] repeats = \"separate_visits\", or \"latest\"".to_owned(),
            Key::Line(..) => one_line(&first.help.to_string()),
        }
    }

    /// Fields without a column, in the order of the vocabulary.
    fn lacking(&self, all: &Causes) -> Vec<&'static str> {
        let mut fields: Vec<&'static str> = Vec::new();
        for cause in self.causes(all) {
            fields.extend(cause.lacking.iter().copied().filter(|field| !fields.contains(field)).collect::<Vec<_>>());
        }
        fields.sort_by_key(|name| Field::by_name(name).map(|field| field as usize));
        fields
    }

    /// The words that wait for a meaning, most frequent first.
    fn words(&self, all: &Causes) -> String {
        let mut words: Vec<(&str, u64)> = self.causes(all).map(|cause| (&*cause.typed, cause.wells)).collect();
        words.sort_by_key(|(_, wells)| std::cmp::Reverse(*wells));
        listed(&words)
    }
}

/// `"D" 21, "bord" 14 and 35 more`.
fn listed(words: &[(&str, u64)]) -> String {
    const NAMED: usize = 2;
    let named: Vec<String> =
        words.iter().take(NAMED).map(|(word, count)| format!("{} {count}", quoted(&shortened(word, 20)))).collect();
    match words.len().saturating_sub(NAMED) {
        0 => named.join(", "),
        more => format!("{} and {more} more", named.join(", ")),
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
    if is_about_words(code) {
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
pub(super) fn is_about_words(code: Code) -> bool {
    const WORDS: [Code; 4] = [
        catalogue::UNKNOWN_WELL_TYPE,
        catalogue::UNKNOWN_CHOICE,
        catalogue::FLAG_NOT_UNDERSTOOD,
        catalogue::CHOICE_FROM_PHRASE,
    ];
    WORDS.contains(&code)
}

/// The field that a word not understood would mean something in.
fn word_field(code: Code) -> &'static str {
    if code == catalogue::UNKNOWN_CHOICE { Field::DischargeRoute.name() } else { Field::WellType.name() }
}

/// What a word may mean: `"drilled", "driven", …`.
fn meanings(code: Code) -> String {
    let field = if code == catalogue::UNKNOWN_CHOICE { Field::DischargeRoute } else { Field::WellType };
    match field.definition().kind {
        Kind::Choice(choices) => {
            choices.iter().map(|(name, _)| format!("\"{name}\"")).collect::<Vec<_>>().join(" or ")
        }
        Kind::Text | Kind::Flag | Kind::Quantity(_) => String::new(),
    }
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

/// What a cause is, in words: `no unit: "Depth"`.
pub fn what(cause: &Cause) -> String {
    let name = cause.code.name().replace('-', " ");
    if !cause.lacking.is_empty() && cause.column.is_none() {
        let fields: Vec<&str> = cause.lacking.iter().copied().collect();
        return format!("no column for {}", plain(&fields));
    }
    let column = cause.column.as_ref().map_or(String::new(), |column| format!(": {}", quoted(&column.heading)));
    let typed = if cause.typed.is_empty() { String::new() } else { format!(", {}", quoted(&cause.typed)) };
    format!("{name}{column}{typed}")
}

/// Causes of one code, list and column in one line: `unknown well type: "Kind": "D" 21, "bord" 14 and 35 more`.
pub fn what_of_all(causes: &[&Cause]) -> String {
    match causes {
        [] => String::new(),
        [one] => what(one),
        [first, ..] => {
            let count = |cause: &Cause| if cause.wells > 0 { cause.wells } else { cause.times() };
            let mut words: Vec<(&str, u64)> = causes.iter().map(|cause| (&*cause.typed, count(cause))).collect();
            words.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
            let bare = Cause { typed: "".into(), ..(*first).clone() };
            format!("{}, {}", what(&bare), listed(&words))
        }
    }
}

/// What to do about a cause: the line that answers its question, else what the finding says.
pub fn what_to_do(cause: &Cause, all: &Causes) -> String {
    match cause.question.and_then(|at| all.questions().get(at)) {
        Some(Question { key: Key::Words(..), .. }) => {
            format!("[inventory.words.{}] {} = {}", word_field(cause.code), quoted(&cause.typed), meanings(cause.code))
        }
        Some(question) if cause.wells > 0 => question.answer(all),
        _ => one_line(&cause.help.to_string()),
    }
}

/// Names of fields as people say them: `total depth, static water level`.
fn plain(fields: &[&str]) -> String {
    fields.iter().map(|field| field.replace('_', " ")).collect::<Vec<_>>().join(", ")
}

/// A list's name: `wells.xlsx, sheet North`.
pub fn list_name(origin: &Origin) -> String {
    match &origin.sheet {
        Some(sheet) => one_line(&format!("{}, sheet {sheet}", origin.file)),
        None => one_line(&origin.file),
    }
}

/// A place within its list, as a spreadsheet program shows it: `F14`, `row 14`, `column F`.
pub fn spot(place: &Place) -> String {
    match (&place.column, place.row) {
        (Some(column), Some(row)) => format!("{}{row}", column.letters()),
        (Some(column), None) => format!("column {}", column.letters()),
        (None, Some(row)) => format!("row {row}"),
        (None, None) => String::new(),
    }
}

/// In quotation marks, on one line.
fn quoted(text: &str) -> String {
    format!("\"{}\"", one_line(text))
}

/// Runs of blanks and line ends as single blanks, and nothing that a terminal would obey.
pub fn one_line(text: &str) -> String {
    let tame: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    tame.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The beginning of a text, with an ellipsis where something is left off.
pub fn shortened(text: &str, letters: usize) -> String {
    let text = one_line(text);
    if text.chars().count() <= letters {
        return text;
    }
    let kept: String = text.chars().take(letters.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}
