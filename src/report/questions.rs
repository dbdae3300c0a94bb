//! The words in which causes and questions are put to people.

use std::collections::BTreeSet;

use super::causes::{Cause, Causes};
use super::fitted::{one_line, quoted, shortened};
use super::question::{Key, Question, missing_field};
use crate::field::Field;
use crate::finding::catalogue;
use crate::place::Origin;

impl Question {
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

/// The line that gives a word its meaning.
fn meaning_line(cause: &Cause) -> String {
    let word = quoted(&shortened(&cause.typed, 20));
    format!("[inventory.words.{}] {word} = \"TYPE\"", Field::WellType.name())
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
