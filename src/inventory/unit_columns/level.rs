//! A column that says of each row what stands in the column of levels: what it is counted from, that it is a height of water,
//! that the well flows, that the pump ran.
//!
//! `WLS` with F, P and N that the file explains; `que_midio` with `desde_brocal` and `altura_de_agua`.

use std::collections::BTreeSet;

use super::super::choices;
use super::super::levels::{ABOVE, FLOWING};
use super::super::lexicon::{self, Concept, Language};
use super::super::notes;
use super::super::table::Opened;
use super::reference;
use crate::inventory::heading::Datum;
use crate::quantity::parse::Reference;

/// What such a cell says of the level beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LevelSays {
    /// It is counted from here.
    From(Reference),
    /// It is the height of the water.
    Height,
    /// It was taken at rest.
    AtRest,
    /// The water stands at the ground, or would rise above it.
    Flowing,
    /// The pump ran, or the water had not come back.
    Pumped,
    /// It is how far the water would rise above the ground.
    Above,
    /// No level was taken: the hole was dry, or nobody measured.
    Nothing,
    /// Nothing is known of it.
    Unsaid,
}

/// Beginnings of words; of those for flowing what is not known everywhere.
const RISES: [&str; 2] = ["artesien", "brota"];
const PUMPED: [&str; 5] = ["pump", "recover", "bombe", "pompage", "drawdown"];
const MEASURED: [&str; 5] = ["measured", "taken", "medido", "mesure", "mesuree"];
const REPORTED: [&str; 9] =
    ["reported", "estimated", "declared", "recorded", "reportado", "estimado", "declarado", "rapporte", "estime"];
const SOBRE: &str = "sobre";
const DRY: [&str; 5] = ["dry", "seco", "seca", "sec", "seche"];

/// Longer texts are remarks.
const MOST_WORDS: usize = 8;

/// What a text says of a level; nothing where it says something else.
pub fn says(text: &str) -> Option<LevelSays> {
    if text.trim().is_empty() {
        return None;
    }
    if let Some(from) = reference(text) {
        return Some(LevelSays::From(from));
    }
    let words = lexicon::tokens(text);
    let is = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    let not = is(&["not", "no", "non", "pas", "nao"]);
    if is(&DRY) && words.len() <= 3 || not && (is(&MEASURED) || is(&REPORTED)) {
        return Some(LevelSays::Nothing);
    }
    if choices::says_nothing(text) {
        return Some(LevelSays::Unsaid);
    }
    if words.len() > MOST_WORDS || not {
        return None;
    }
    let begins = |known: &[&str]| words.iter().any(|word| known.iter().any(|beginning| word.starts_with(beginning)));
    let flows = begins(&FLOWING) || begins(&RISES);
    if flows && (is(&ABOVE) || is(&[SOBRE])) {
        return Some(LevelSays::Above);
    }
    if begins(&PUMPED) {
        return Some(LevelSays::Pumped);
    }
    if flows {
        return Some(LevelSays::Flowing);
    }
    let in_words = Language::ALL.into_iter().find_map(|language| in_language(&words, language));
    // `Measured`, `Reported by driller`: who took it, and nothing of how.
    in_words.or_else(|| (is(&MEASURED) || is(&REPORTED)).then_some(LevelSays::Unsaid))
}

fn in_language(words: &[String], language: Language) -> Option<LevelSays> {
    let meaning = lexicon::meaning(words, language);
    let has = |concept: Concept| meaning.has(concept);
    let solid = has(Concept::Rim) || has(Concept::Ground) || has(Concept::Casing);
    if (has(Concept::Height) || has(Concept::Column)) && has(Concept::Water) && !solid {
        return Some(LevelSays::Height);
    }
    if let Some(datum) = notes::datum(words, &meaning) {
        return Some(LevelSays::From(datum.reference()));
    }
    // `brocal`, `nivel del suelo`: where it is counted from and nothing else.
    let only = |concept: Concept| {
        let beside = [Concept::Water, Concept::Level, Concept::Depth, Concept::Below];
        has(concept)
            && meaning.unknown.is_empty()
            && meaning.concepts.iter().all(|other| *other == concept || beside.contains(other))
    };
    if only(Concept::Rim) {
        return Some(LevelSays::From(Datum::TopOfCasing.reference()));
    }
    if only(Concept::Ground) {
        return Some(LevelSays::From(Datum::Ground.reference()));
    }
    (has(Concept::Static) && !has(Concept::Pumping)).then_some(LevelSays::AtRest)
}

/// What a cell says by what the file explains of it, else by itself.
pub fn says_by(meaning: Option<&str>, cell: &str) -> Option<LevelSays> {
    meaning.and_then(says).or_else(|| says(cell))
}

/// The column whose cells, or their codes by the file's own words, say it; they must say more than one thing, and not only
/// that levels are at rest or counted from the ground.
pub fn column(table: &Opened, is_taken: impl Fn(usize) -> bool) -> Option<usize> {
    const FEWEST: usize = 4;
    let sheet = table.origin.sheet.as_deref().unwrap_or_default();
    let of_other = [Concept::Discharge, Concept::Goes, Concept::Flooded, Concept::Kind, Concept::Use, Concept::Notes];
    (0..table.headings.len()).filter(|at| !is_taken(*at)).find(|at| {
        let heading = &table.headings[*at];
        let meaning = lexicon::meaning(&lexicon::tokens(heading), table.layout.language);
        if heading.is_empty() || of_other.iter().any(|concept| meaning.has(*concept)) {
            return false;
        }
        let Some(answers) = few_answers(table, *at) else { return false };
        let meant = |cell: &str| says_by(table.legend.meaning(sheet, heading, cell), cell);
        let said: Vec<(&str, LevelSays)> =
            answers.iter().filter_map(|answer| Some((*answer, meant(answer)?))).collect();
        let known = table.filled(*at).filter(|cell| said.iter().any(|(answer, _)| answer == cell)).count();
        let telling = |says: &LevelSays| {
            !matches!(
                says,
                LevelSays::AtRest | LevelSays::Nothing | LevelSays::Unsaid | LevelSays::From(Reference::Ground)
            )
        };
        // `Qual: P pumping, R recently pumped`, above the table: where nothing stands, the level was taken at rest.
        let explained = || {
            let mut lists = table.legend.explained().iter().filter(|list| list.heading.as_deref() == Some(heading));
            lists.any(|list| list.codes.iter().any(|(_, meaning)| says(meaning) == Some(LevelSays::Pumped)))
        };
        known > 0 && known == table.filled(*at).count() && explained()
            || known >= FEWEST
                && known * 10 >= table.filled(*at).count() * 8
                && said.iter().any(|(_, says)| telling(says))
                && said.iter().any(|(_, says)| *says != said[0].1)
    })
}

/// Whether a column names the ground for some levels and the top for others.
pub fn names_both(table: &Opened, column: usize) -> bool {
    let sheet = table.origin.sheet.as_deref().unwrap_or_default();
    let answers = few_answers(table, column).unwrap_or_default();
    let from = |cell: &&str| says_by(table.legend.meaning(sheet, &table.headings[column], cell), cell);
    let said: Vec<LevelSays> = answers.iter().filter_map(from).collect();
    [Reference::Ground, Reference::Top].into_iter().all(|wanted| said.contains(&LevelSays::From(wanted)))
}

/// The different cells of a column, where they are few.
pub fn few_answers(table: &Opened, column: usize) -> Option<BTreeSet<&str>> {
    const MOST_ANSWERS: usize = 8;
    let mut answers: BTreeSet<&str> = BTreeSet::new();
    for cell in table.filled(column) {
        answers.insert(cell);
        if answers.len() > MOST_ANSWERS {
            return None;
        }
    }
    Some(answers)
}
