//! Questions that one line of the scenario file answers, and the words in which causes and questions are put to people.

use std::collections::BTreeSet;

use super::causes::{Cause, Causes, lacks_column};
use crate::field::Field;
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

    /// The list it is about, where it is about one.
    pub fn list<'a>(&self, all: &'a Causes) -> Option<&'a Origin> {
        let list = self.causes(all).next().filter(|_| self.key != Key::Repeats)?.list?;
        all.lists().get(list)
    }

    /// What is asked: `unit of "Depth"`.
    pub fn asks(&self, all: &Causes) -> String {
        let first = self.causes(all).next();
        let headings: BTreeSet<(u32, String)> = self
            .causes(all)
            .filter_map(|cause| cause.column.as_ref())
            .map(|column| (column.number, quoted(&shortened(&column.heading, 30))))
            .collect();
        let named = headings.iter().map(|(_, heading)| heading.as_str()).collect::<Vec<_>>().join(", ");
        match self.key {
            Key::Units(_) if headings.len() == 1 => format!("unit of {named}"),
            Key::Units(_) => format!("units of {named}"),
            Key::Columns(_) => format!("column for {}", plain(self.lacking(all))),
            Key::Words(..) => {
                let words = self.words(all);
                let words: Vec<(&str, u64)> = words.iter().map(|cause| (&*cause.typed, cause.wells)).collect();
                format!("meaning of {} in {named}", listed(&words))
            }
            Key::Blank(..) => format!("what to take where {named} is blank"),
            Key::Repeats => "are repeated rows visits of their own?".to_owned(),
            Key::Line(..) => {
                let what = first.map_or("", |cause| cause.code.name()).replace('-', " ");
                if named.is_empty() { what } else { format!("{what}: {named}") }
            }
        }
    }

    /// How to answer, in one line: `[inventory.units] total_depth = "UNIT"`. What must be chosen stands in capitals: an
    /// example would be copied, and be wrong.
    pub fn answer(&self, all: &Causes) -> String {
        let Some(first) = self.causes(all).next() else { return String::new() };
        match self.key {
            Key::Units(_) => {
                let help = one_line(&first.help.to_string());
                let own = help.split(" (or the correct unit").next().unwrap_or_default().trim();
                match own.find("[inventory.units]").and_then(|at| own[at..].split(" = ").next()) {
                    Some(line) => format!("--units UNITS, or {line} = \"UNIT\""),
                    None => "--units UNITS (us, metric or imperial)".to_owned(),
                }
            }
            Key::Columns(_) => {
                let kind = Field::WellType.name();
                let field = self.lacking(all).into_iter().find(|field| *field != kind).unwrap_or(kind);
                format!("[inventory.columns] \"heading\" = \"{field}\"")
            }
            Key::Words(..) => self.words(all).first().map_or(String::new(), |cause| meaning_line(cause)),
            Key::Blank(.., code) if code == catalogue::WELL_TYPE_MISSING.id() => {
                format!("[inventory.fixed] {} = \"TYPE\"", Field::WellType.name())
            }
            Key::Blank(..) => {
                let field = missing_field(first.code).map_or("", Field::name);
                let of_type = if first.code == catalogue::SPRING_BOX_VOLUME_MISSING { "spring_box" } else { "TYPE" };
                format!("[missing.{of_type}] {field} = \"from_list\"")
            }
            Key::Repeats => "[inventory] repeats = \"separate_visits\", or \"latest\"".to_owned(),
            Key::Line(..) => one_line(&first.help.to_string()),
        }
    }

    /// Fields without a column.
    fn lacking(&self, all: &Causes) -> Vec<&'static str> {
        let fields: BTreeSet<&'static str> = self.causes(all).flat_map(|cause| cause.lacking.iter().copied()).collect();
        in_order(fields)
    }

    /// The words that wait for a meaning, most frequent first.
    fn words<'a>(&'a self, all: &'a Causes) -> Vec<&'a Cause> {
        let mut words: Vec<&Cause> = self.causes(all).collect();
        words.sort_by_key(|cause| std::cmp::Reverse(cause.wells));
        words
    }
}

/// `"D" (21), "bord" (14) and 35 more`.
fn listed(words: &[(&str, u64)]) -> String {
    const NAMED: usize = 2;
    let named: Vec<String> =
        words.iter().take(NAMED).map(|(word, count)| format!("{} ({count})", quoted(&shortened(word, 20)))).collect();
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

/// The line that gives a word its meaning.
fn meaning_line(cause: &Cause) -> String {
    let word = quoted(&shortened(&cause.typed, 20));
    format!("[inventory.words.{}] {word} = \"TYPE\"", Field::WellType.name())
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
    if cause.code == catalogue::NOT_A_WELL {
        return one_line(&cause.says.to_string());
    }
    let name = cause.code.name().replace('-', " ");
    if !cause.lacking.is_empty() && cause.column.is_none() {
        return format!("no column for {}", plain(cause.lacking.iter().copied()));
    }
    let column = cause.column.as_ref().map_or(String::new(), |column| format!(": {}", quoted(&column.heading)));
    let typed = if cause.typed.is_empty() { String::new() } else { format!(", {}", quoted(&cause.typed)) };
    format!("{name}{column}{typed}")
}

/// Causes of one code and list in one line: `unknown well type: "Kind", "D" (21), "bord" (14) and 35 more` where they share a
/// column, `range: "Depth" (3), "Dia." (2)` where they do not.
pub fn what_of_all(causes: &[&Cause]) -> String {
    let [first, rest @ ..] = causes else { return String::new() };
    if rest.is_empty() {
        return what(first);
    }
    let count = |cause: &Cause| if cause.wells > 0 { cause.wells } else { cause.times() };
    let mut named: Vec<(&str, u64)> = Vec::new();
    let one_column = rest.iter().all(|cause| cause.column == first.column);
    for cause in causes {
        let heading = cause.column.as_ref().map_or("", |column| &column.heading);
        let word = if one_column { &*cause.typed } else { heading };
        match named.iter_mut().find(|(known, _)| *known == word) {
            Some((_, known)) => *known += count(cause),
            None => named.push((word, count(cause))),
        }
    }
    named.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    if !one_column {
        return format!("{}: {}", first.code.name().replace('-', " "), listed(&named));
    }
    let bare = Cause { typed: "".into(), ..(*first).clone() };
    format!("{}, {}", what(&bare), listed(&named))
}

/// What to do about a cause: the line that answers its question, else what the finding says.
pub fn what_to_do(cause: &Cause, all: &Causes) -> String {
    match cause.question.and_then(|at| all.questions().get(at)) {
        Some(Question { key: Key::Words(..), .. }) => meaning_line(cause),
        Some(question) if cause.wells > 0 => question.answer(all),
        _ => one_line(&cause.help.to_string()),
    }
}

/// Names of fields in the order of the vocabulary.
fn in_order(fields: impl IntoIterator<Item = &'static str>) -> Vec<&'static str> {
    let mut fields: Vec<&str> = fields.into_iter().collect();
    fields.sort_by_key(|name| Field::by_name(name).map(|field| field as usize));
    fields
}

/// Names of fields as people say them: `type, depth, water level`.
fn plain(fields: impl IntoIterator<Item = &'static str>) -> String {
    let word = |name: &str| match Field::by_name(name) {
        Some(Field::WellType) => "type".to_owned(),
        Some(Field::TotalDepth) => "depth".to_owned(),
        Some(Field::StaticWaterLevel) => "water level".to_owned(),
        Some(Field::CasingDiameter) => "diameter".to_owned(),
        Some(Field::WaterVolume) => "volume of water".to_owned(),
        _ => name.replace('_', " "),
    };
    in_order(fields).into_iter().map(word).collect::<Vec<_>>().join(", ")
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

/// Beginning and end of a name, with an ellipsis between: files and sheets differ at either.
pub fn shortened_within(name: &str, letters: usize) -> String {
    let name = one_line(name);
    let count = name.chars().count();
    if count <= letters {
        return name;
    }
    let begins = letters.saturating_sub(1) / 3;
    let ends = letters.saturating_sub(1 + begins);
    let (begin, end): (String, String) =
        (name.chars().take(begins).collect(), name.chars().skip(count - ends).collect());
    format!("{begin}…{end}")
}
