//! Units and references as people put them in words: in a heading's bracket, in a group above the headings, in a note
//! above the table.
//!
//! `(ft, diameters in.)`, `pipes in inches, hand-dug in feet`, `Depths from the ground. Water measured from the rim`. A
//! text falls into clauses; each gives a unit, and says what it is the unit of, where it says.

mod clauses;
mod datum;
mod heights;
mod hole;
mod one_type;
mod own_units;
mod sizes;
mod subject;
mod unit;
mod well_types;

use super::heading::Datum;
use super::lexicon::{self, Language};
use crate::field::WellType;
use crate::quantity::unit::{Gallon, Unit};
use clauses::{dashed, measures, sentences};
pub use datum::{datum, datum_by_place};
pub use heights::height_of_all;
pub use hole::hole_is_as_casing;
pub use one_type::type_of_all;
pub use own_units::{OwnUnit, own_units};
pub use sizes::sizes_unless_noted;
use subject::about;
pub use subject::{About, concerns};
pub use unit::unit_of;
use well_types::{JOINING, types_of};

/// Words by which a mark stands beside a number, folded.
pub const BESIDE: [&str; 12] =
    ["by", "beside", "behind", "after", "before", "with", "against", "junto", "despues", "tras", "apres", "depois"];

/// A unit, and what it is the unit of.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// The unit; nothing where the clause gives a reference alone.
    pub unit: Option<&'static Unit>,
    /// What it is the unit of.
    pub about: About,
    /// The types of well it is said of; none for all.
    pub types: Vec<WellType>,
    /// What depths are counted from, where the clause says.
    pub datum: Option<Datum>,
    /// The words of the clause.
    pub words: Vec<String>,
}

/// Where the words end before `or pipe`: `from the curb or the pipe` is said of wells with either.
fn or_pipe(words: &[String]) -> usize {
    const OR: [&str; 4] = ["or", "ou", "o", "and"];
    const PIPES: [&str; 5] = ["pipe", "tubo", "tuyau", "cano", "tube"];
    let pipe = words.iter().position(|word| PIPES.contains(&word.as_str())).unwrap_or(words.len());
    let or = words[..pipe].iter().rposition(|word| OR.contains(&word.as_str()));
    or.filter(|or| pipe < words.len() && pipe - or <= 4).unwrap_or(words.len())
}

/// The words of a clause without the pipes that only say whose rim is meant: `del borde del tubo al agua`.
fn without_rims(words: &[String]) -> Vec<String> {
    const RIMS: [&str; 15] = [
        "borde", "boca", "tope", "top", "rim", "lip", "edge", "haut", "sommet", "dessus", "bord", "topo", "borda",
        "arriba", "beira",
    ];
    const JOINS: [&str; 12] = ["of", "the", "de", "del", "du", "do", "da", "la", "el", "le", "l", "well"];
    const PIPES: [&str; 6] = ["pipe", "tubo", "tuyau", "cano", "tube", "bore"];
    let of_rim = |at: usize| {
        PIPES.contains(&words[at].as_str())
            && words[..at]
                .iter()
                .rev()
                .find(|word| !JOINS.contains(&word.as_str()))
                .is_some_and(|word| RIMS.contains(&word.as_str()))
    };
    words.iter().enumerate().filter(|(at, _)| !of_rim(*at)).map(|(_, word)| word.clone()).collect()
}

/// Whether a clause speaks of depths by the word down alone.
fn only_says_down(words: &[String], language: Language) -> bool {
    const DOWN: [&str; 4] = ["down", "dn", "abajo", "abaixo"];
    let rest: Vec<String> = words.iter().filter(|word| !DOWN.contains(&word.as_str())).cloned().collect();
    rest.len() < words.len() && about(&rest, &lexicon::meaning(&rest, language)) == About::All
}

/// The words of a clause without the list's own codes for types of well, written as codes are: `PI pointe enfoncée` explains a
/// code, and speaks of no feet.
fn without_codes(words: &[String], clause: &str, codes: &[(String, WellType)]) -> Vec<String> {
    let shouted = !clause.chars().any(char::is_lowercase);
    let written: Vec<&str> = clause.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let is_code = |at: usize, word: &String| {
        let known = codes.iter().any(|(code, _)| code == word);
        let capitals = |written: &&&str| lexicon::fold(written) == **word && !written.chars().any(char::is_lowercase);
        known && written.iter().any(|written| capitals(&written)) && (!shouted || at == 0)
    };
    words.iter().enumerate().filter(|(at, word)| !is_code(*at, word)).map(|(_, word)| word.clone()).collect()
}

/// What a text states, clause by clause.
///
/// `codes` are the list's own words for types of well: `en pulgadas en los PT y HN`.
pub fn stated(text: &str, language: Language, gallon: Option<Gallon>, codes: &[(String, WellType)]) -> Vec<Stated> {
    let mut found: Vec<Stated> = Vec::new();
    // A sentence's subject holds for the clauses after it: `Across: dug wells are feet, drilled wells inches`.
    for sentence in sentences(text) {
        let mut subject: Option<About> = None;
        // `forages : mm`: the wells stand before their unit.
        let mut waiting: Vec<WellType> = Vec::new();
        let mut wells_first = false;
        let clauses = sentence.split([',', ';', ':', '(', ')', '[', ']']).flat_map(|clause| dashed(clause, gallon));
        for clause in clauses.flat_map(|clause| measures(clause, language, gallon)) {
            let mut words = lexicon::tokens(clause);
            // `from the ground unless TOC`: what follows is the exception, not the rule.
            if let Some(at) =
                words.iter().position(|word| ["unless", "except", "salvo", "sauf", "exceto"].contains(&word.as_str()))
            {
                words.truncate(at);
            }
            // `Tubos cortados a 30 cm do solo` is how far they stand up, and not what is counted from there.
            if words.is_empty() || height_of_all(clause, language).is_some() {
                continue;
            }
            let meaning = lexicon::meaning(&words, language);
            let about = about(&words, &meaning);
            let unit = unit_of(&without_codes(&words, clause, codes), gallon);
            let datum = datum(&words, &meaning);
            let from_any = datum == Some(Datum::TopOfCasing) && unit.is_none();
            let told = without_rims(&words[..if from_any { or_pipe(&words) } else { words.len() }]);
            let mut types = types_of(&told, clause, codes);
            // `inches for A, C, D`: codes alone go on with what was said before them.
            if unit.is_none()
                && !wells_first
                && !types.is_empty()
                && types.len() >= words.iter().filter(|word| !JOINING.contains(&word.as_str())).count()
                && let Some(last) = found.last_mut().filter(|last| !last.types.is_empty() && waiting.is_empty())
                && last.unit.is_some()
            {
                last.types.extend(types);
                continue;
            }
            if unit.is_none() && datum.is_some() && types.is_empty() {
                // `Dug wells: bottom and water from the rim`
                types.clone_from(&waiting);
            } else if unit.is_none() {
                waiting.clone_from(&types);
            } else if types.is_empty() {
                types = std::mem::take(&mut waiting);
                wells_first |= !types.is_empty();
            }
            // `Stood at = static, down from the MP`: which way the level is counted, and no other depth.
            let about = if about == About::Depths && subject == Some(About::Levels) && only_says_down(&words, language)
            {
                About::All
            } else {
                about
            };
            // `Height of casing in millimetres, everything else in metres`
            const REST: [&str; 10] =
                ["else", "rest", "others", "other", "demas", "resto", "restante", "reste", "autres", "outros"];
            if about == About::All && words.iter().any(|word| REST.contains(&word.as_str())) {
                subject = None;
            }
            if about != About::All {
                subject = Some(about);
            }
            let about = if about == About::All { subject.unwrap_or(About::All) } else { about };
            if unit.is_some() || datum.is_some() {
                found.push(Stated { unit, about, types, datum, words });
            }
        }
    }
    found
}
