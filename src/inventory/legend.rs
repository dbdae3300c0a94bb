//! Lists of codes that a file explains itself: on a sheet of their own, at the foot, above the table or beside it.
//!
//! Found once, in the opened samples of all sheets of one file: so a list of codes far below a sample is not seen. What a
//! code means is then read like a cell. A code that is explained nowhere is asked. Refuses to know what a meaning means.

mod collect;
mod defined;
mod definitions;

use std::collections::{BTreeMap, BTreeSet};

pub use collect::codes_of_table;

use super::levels::FLOWING;
use super::rows::Rows;
use super::{choices, lexicon};
use crate::field::{Field, Kind, squash};

/// A sheet of a file, as far as it was opened.
#[derive(Debug, Clone, Copy)]
pub struct Page<'a> {
    /// Its name; empty in a text file.
    pub sheet: &'a str,
    /// The rows that it opens with: codes further down are not seen.
    pub rows: &'a Rows,
    /// Which of them holds the headings, where it is a table.
    pub heading_row: Option<usize>,
}

/// Where and what was read, once a list: to be said once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Explained {
    /// The sheet the list stands on.
    pub sheet: String,
    /// Its first row, as a person sees it.
    pub row: u32,
    /// The heading of the column whose codes it explains; nothing where they are those of every column.
    pub heading: Option<String>,
    /// Codes and meanings, as written.
    pub codes: Vec<(String, String)>,
}

impl Explained {
    /// `codes of column TYP are explained on sheet CODES: DR drilled, DG dug`.
    pub fn says(&self) -> String {
        const SHOWN: usize = 12;
        let list: Vec<String> =
            self.codes.iter().take(SHOWN).map(|(code, meaning)| format!("{code} {meaning}")).collect();
        let more = self.codes.len().saturating_sub(SHOWN);
        let more = if more == 0 { String::new() } else { format!(" and {more} more") };
        let of = self.heading.as_ref().map_or("every column".to_owned(), |heading| format!("column {heading}"));
        let sheet = if self.sheet.is_empty() { String::new() } else { format!(" on sheet {}", self.sheet) };
        format!("codes of {of} are explained{sheet} from row {}: {}{more}", self.row, list.join(", "))
    }
}

/// What a coded cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coded<'a> {
    /// That nothing is known, or that there is none.
    Missing,
    /// Water stands at the ground or runs over it.
    Flowing,
    /// The casing goes to the bottom.
    ToBottom,
    /// The same as this text.
    Text(&'a str),
}

/// The sheet on which a list of codes counts: that of the table it stands beside; nothing where it stands on a sheet of its
/// own and counts for the whole file.
type Scope = Option<String>;

/// Codes of one column.
type Codes = BTreeMap<String, String>;

/// What the codes of one file mean.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Legend {
    /// By where they count, then by heading, squashed.
    columns: BTreeMap<(Scope, String), Codes>,
    /// Codes for nothing known, of every column.
    everywhere: BTreeMap<Scope, Codes>,
    /// Words that a note defines, of one column: `Aljibe = pozo excavado a mano`.
    words: BTreeMap<(Scope, String), Codes>,
    /// Rows that explain codes, by sheet.
    rows: BTreeSet<(String, u32)>,
    /// Sheets that hold nothing but explanations.
    sheets: BTreeSet<String>,
    explained: Vec<Explained>,
}

/// What is said of a level that stands at the ground, beside the words that are known everywhere.
const AT_GROUND: [&str; 2] = ["runs over", "at surface"];

/// Words of a casing that leaves no open hole.
const TO_BOTTOM: [&str; 6] =
    ["total depth", "to bottom", "to the bottom", "all the way", "full depth", "bottom of well"];

fn has(meaning: &str, words: &[&str]) -> bool {
    let meaning = meaning.to_lowercase();
    words.iter().any(|word| meaning.contains(word))
}

/// A code as it is compared: a number without leading zeros, letters in lower case.
pub(super) fn code_key(text: &str) -> String {
    let text = text.trim().trim_end_matches('.');
    let digits = text.trim_start_matches('-');
    if !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        let sign = if text.starts_with('-') { "-" } else { "" };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let (whole, part) = (whole.trim_start_matches('0'), part.trim_end_matches('0'));
        let whole = if whole.is_empty() { "0" } else { whole };
        return if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") };
    }
    text.to_lowercase()
}

/// Beginnings of words that name one question: the kind of well, where its water goes, whether it was flooded.
const ONE_QUESTION: [&[&str]; 3] = [
    &["type", "kind", "sort", "class", "clase", "classe", "tipo", "categ", "genre", "meth"],
    &[
        "route",
        "discharge",
        "drain",
        "dump",
        "desfogue",
        "salida",
        "saida",
        "descarga",
        "desague",
        "rejet",
        "vidange",
        "destino",
        "va",
    ],
    &["flood", "inund", "inond", "submer", "crue", "enchente", "cheia"],
];

/// Whether the title of a list of codes and a heading mean the same: one begins with the other, or both ask one question.
fn means_the_same(title: &str, heading: &str) -> bool {
    let Some(asked) = lexicon::tokens(heading).into_iter().next() else { return false };
    let least = if heading.trim_end().ends_with('.') { 2 } else { 3 };
    title.split(['/', ',', ';']).any(|part| {
        let Some(first) = lexicon::tokens(part).into_iter().next() else { return false };
        let begins = first.len().min(asked.len()) >= least && (first.starts_with(&asked) || asked.starts_with(&first));
        let of = |words: &&[&str], word: &str| words.iter().any(|beginning| word.starts_with(beginning));
        begins || ONE_QUESTION.iter().any(|words| of(words, &first) && of(words, &asked))
    })
}

impl Legend {
    /// Reads the lists of codes of one file.
    pub fn find(pages: &[Page<'_>]) -> Self {
        let mut legend = collect::collect(pages);
        for page in pages {
            for (heading, word, meaning) in defined::words(page) {
                let codes = legend.words.entry((Some(page.sheet.to_owned()), squash(&heading))).or_default();
                codes.entry(word).or_insert(meaning);
            }
        }
        legend
    }

    /// Whether nothing is explained.
    pub fn is_empty(&self) -> bool {
        self.columns.is_empty() && self.everywhere.is_empty() && self.words.is_empty()
    }

    /// The heading under which the codes of a column are explained: its own, or the one title of a list that means the same,
    /// as `clase de pozo` does for a column `Tipo`.
    fn title_of(&self, sheet: &str, heading: &str) -> String {
        let own = squash(heading);
        let known = |title: &String| {
            [Some(sheet.to_owned()), None].into_iter().any(|scope| self.columns.contains_key(&(scope, title.clone())))
        };
        if known(&own) {
            return own;
        }
        let titles = self.explained.iter().filter_map(|explained| explained.heading.as_deref());
        let mut alike = titles.filter(|title| means_the_same(title, heading)).map(squash).filter(known);
        match (alike.next(), alike.next()) {
            (Some(title), None) => title,
            _ => own,
        }
    }

    fn own(&self, sheet: &str, heading: &str, key: &str) -> Option<&String> {
        let heading = self.title_of(sheet, heading);
        let of = |scope: Scope| self.columns.get(&(scope, heading.clone())).and_then(|codes| codes.get(key));
        of(Some(sheet.to_owned())).or_else(|| of(None))
    }

    fn common(&self, sheet: &str, key: &str) -> Option<&String> {
        let of = |scope: Scope| self.everywhere.get(&scope).and_then(|codes| codes.get(key));
        of(Some(sheet.to_owned())).or_else(|| of(None))
    }

    /// What a code means in the column of this heading, as written.
    pub fn meaning(&self, sheet: &str, heading: &str, code: &str) -> Option<&str> {
        let key = code_key(code);
        let known = self.own(sheet, heading, &key).or_else(|| self.common(sheet, &key)).map(String::as_str);
        known.or_else(|| self.defined(sheet, heading, code))
    }

    /// What the first word of a text means, where a note defines it: `aljibe anillado`.
    pub fn defined(&self, sheet: &str, heading: &str, text: &str) -> Option<&str> {
        let words = self.words.get(&(Some(sheet.to_owned()), squash(heading))).filter(|_| !self.words.is_empty())?;
        words.get(&code_key(defined::first_word(text))).map(String::as_str)
    }

    /// Whether the codes of this column are explained: a code that is not among them is a slip or a new one.
    pub fn explains(&self, sheet: &str, heading: &str) -> bool {
        let heading = self.title_of(sheet, heading);
        [Some(sheet.to_owned()), None].into_iter().any(|scope| self.columns.contains_key(&(scope, heading.clone())))
    }

    /// Whether the list of codes under a title is that of this column.
    pub fn is_of(&self, sheet: &str, heading: &str, title: &str) -> bool {
        self.title_of(sheet, heading) == squash(title)
    }

    /// Whether any code is explained for this column of this sheet: nearly always none is, and no cell need be looked up.
    pub fn concerns(&self, sheet: &str, heading: &str) -> bool {
        let common = || [Some(sheet.to_owned()), None].into_iter().any(|scope| self.everywhere.contains_key(&scope));
        let defined = || self.words.contains_key(&(Some(sheet.to_owned()), squash(heading)));
        !self.is_empty() && (self.explains(sheet, heading) || common() || defined())
    }

    /// What a cell of this column says as a field, where it holds a code that is explained.
    pub fn cell(&self, sheet: &str, field: Field, heading: &str, text: &str) -> Option<Coded<'_>> {
        const LONGEST: usize = 12;
        if self.is_empty() {
            return None;
        }
        let kind = field.definition().kind;
        if let Some(meaning) = self.defined(sheet, heading, text).filter(|_| matches!(kind, Kind::Choice(_))) {
            return Some(Coded::Text(meaning));
        }
        if text.len() > LONGEST {
            return None;
        }
        let key = code_key(text);
        // `0 = no reading` is said of measurements: a column of 0 and 1 answers a question.
        let common = || self.common(sheet, &key).filter(|_| !matches!(kind, Kind::Flag | Kind::Text));
        let meaning = self.own(sheet, heading, &key).or_else(common)?;
        if choices::says_nothing(meaning) {
            return Some(Coded::Missing);
        }
        match kind {
            Kind::Text => None,
            // `0 = none`: no open hole, no stick-up.
            Kind::Quantity(_) if matches!(meaning.to_lowercase().as_str(), "none" | "no" | "nil") => {
                Some(Coded::Missing)
            }
            Kind::Quantity(_)
                if field == Field::StaticWaterLevel && (has(meaning, &FLOWING) || has(meaning, &AT_GROUND)) =>
            {
                Some(Coded::Flowing)
            }
            Kind::Quantity(_) if field == Field::CasingDepth && has(meaning, &TO_BOTTOM) => Some(Coded::ToBottom),
            Kind::Quantity(_) | Kind::Choice(_) | Kind::Flag => Some(Coded::Text(meaning)),
        }
    }

    /// Whether this row explains codes and is not a well.
    pub fn is_legend_row(&self, sheet: &str, row: u32) -> bool {
        !self.rows.is_empty() && self.rows.contains(&(sheet.to_owned(), row))
    }

    /// Whether this sheet holds nothing but explanations.
    pub fn is_legend_sheet(&self, sheet: &str) -> bool {
        self.sheets.contains(sheet)
    }

    /// Every list that was read, to be said once each.
    pub fn explained(&self) -> &[Explained] {
        &self.explained
    }
}
