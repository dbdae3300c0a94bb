//! The type of a well by the words that describe it.
//!
//! How it was made decides; who made it and what it is called decide where no method is named; linings only support.

use std::sync::LazyLock;

use super::lexicon::{Hit, Lexicon};
use super::phrase::Phrase;
use super::{Meaning, NotAWell};
use crate::field::WellType;
use crate::quantity::parse::edits;

/// What a word does in a description of a well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Class {
    /// Says how the well was made: decides.
    Method(WellType),
    /// A name or a tool of one type: decides where no method stands.
    Maker(WellType),
    /// A lining or a size that is usual for one type: supports.
    Lining(WellType),
    /// Is never a well, whatever else is said of it.
    Never(NotAWell),
    /// Is no well, unless it only stands beside one.
    Other(NotAWell),
    /// `well` and its like: says that it is one, not which.
    Well,
    /// Left open whatever else is said.
    Ask,
    /// Says that nothing is known.
    Nothing,
    /// Turns what follows into its opposite: `not drilled`.
    Not,
    /// Leaves what is said open: `looks drilled`.
    Unsure,
    /// Tells of a change.
    Then,
    /// What follows is beside the well, not the well.
    Beside,
    /// Passed over: keeps its words from being read alone.
    Aside,
}

fn class(section: &str, key: &str) -> Option<Class> {
    if let Some(kind) = WellType::by_name(section) {
        return match key {
            "method" => Some(Class::Method(kind)),
            "maker" => Some(Class::Maker(kind)),
            "lining" => Some(Class::Lining(kind)),
            _ => None,
        };
    }
    if let Some(kind) = NotAWell::by_section(section) {
        return match key {
            "never" => Some(Class::Never(kind)),
            "is" => Some(Class::Other(kind)),
            _ => None,
        };
    }
    match (section, key) {
        ("says", "well") => Some(Class::Well),
        ("says", "ask") => Some(Class::Ask),
        ("says", "nothing") => Some(Class::Nothing),
        ("says", "not") => Some(Class::Not),
        ("says", "unsure") => Some(Class::Unsure),
        ("says", "then") => Some(Class::Then),
        ("says", "beside") => Some(Class::Beside),
        ("says", "aside") => Some(Class::Aside),
        _ => None,
    }
}

static LEXICON: LazyLock<Lexicon<Class>> = LazyLock::new(|| Lexicon::load(&in_all_languages!("types"), class));

pub(super) fn faults() -> Vec<String> {
    LEXICON.faults.clone()
}

pub(super) fn unread(phrase: &Phrase) -> Vec<String> {
    LEXICON.unread(phrase)
}

/// What the words of a phrase come to.
#[derive(Default)]
struct Evidence {
    /// By type: whether a method, whether a name or tool, how many linings.
    scores: [(bool, bool, u32); WellType::ALL.len()],
    never: Option<NotAWell>,
    /// With the part it stands in.
    other: Option<(NotAWell, usize)>,
    /// The first part in which a method or a name stands.
    decided_in: Option<usize>,
    well: bool,
    denied: bool,
    doubted: bool,
    changed: bool,
    ask: bool,
    nothing: Option<usize>,
}

impl Evidence {
    fn of(phrase: &Phrase, hits: &[Hit<Class>]) -> Self {
        let mut found = Self { doubted: phrase.questioned, ..Self::default() };
        // A denial and a `near` reach to the end of their part of the phrase.
        let mut not_in = None;
        let mut beside_in = None;
        for hit in hits {
            let here = Some(hit.part);
            let number_follows = phrase
                .words
                .get(hit.at + hit.words)
                .is_some_and(|word| word.text.starts_with(|c: char| c.is_ascii_digit()));
            match hit.class {
                Class::Not if number_follows => {} // `no 3`
                Class::Not => not_in = here,
                Class::Beside => beside_in = here,
                Class::Method(_) | Class::Maker(_) | Class::Lining(_) if not_in == here => found.denied = true,
                Class::Method(kind) | Class::Maker(kind) => {
                    let score = &mut found.scores[kind as usize];
                    score.0 |= matches!(hit.class, Class::Method(_));
                    score.1 |= matches!(hit.class, Class::Maker(_));
                    found.decided_in.get_or_insert(hit.part);
                }
                Class::Lining(kind) => found.scores[kind as usize].2 += 1,
                Class::Never(_) | Class::Other(_) if not_in == here || beside_in == here => {}
                Class::Never(kind) => found.never = found.never.or(Some(kind)),
                Class::Other(kind) => found.other = found.other.or(Some((kind, hit.part))),
                Class::Well => found.well |= not_in != here,
                Class::Ask => found.ask = true,
                Class::Nothing => found.nothing = found.nothing.or(here),
                Class::Unsure => found.doubted = true,
                Class::Then => found.changed = true,
                Class::Aside => {}
            }
        }
        found
    }

    fn score(&self, kind: WellType) -> u32 {
        let (method, maker, linings) = self.scores[kind as usize];
        4 * u32::from(method) + 2 * u32::from(maker) + linings.min(2)
    }
}

fn shown(kind: WellType) -> String {
    kind.name().replace('_', " ")
}

/// Whether a text says no more than that nothing is known: `not measured`.
pub fn says_nothing(text: &str) -> bool {
    let phrase = Phrase::of(text);
    let hits = LEXICON.hits(&phrase);
    hits.iter().any(|hit| hit.class == Class::Nothing)
        && hits
            .iter()
            .all(|hit| matches!(hit.class, Class::Nothing | Class::Not | Class::Well | Class::Aside | Class::Beside))
}

/// The type of well that a text means.
pub fn well_type(text: &str) -> Meaning<WellType> {
    let phrase = Phrase::of(text);
    if phrase.is_bare_question() {
        return Meaning::Missing;
    }
    let hits = LEXICON.hits(&phrase);
    let found = Evidence::of(&phrase, &hits);
    if let Some(kind) = found.never {
        return Meaning::NotAWell(kind);
    }
    let ask = |why: &str| Meaning::Ask(why.to_owned());
    let mut by_score = WellType::ALL.map(|kind| (found.score(kind), kind));
    by_score.sort_by_key(|(score, kind)| (std::cmp::Reverse(*score), *kind));
    let [(best, kind), (second, other), ..] = by_score;
    let decided = best >= 2;
    match (found.other, found.nothing) {
        (Some((other, _)), _) if !decided && !found.well && !found.doubted => return Meaning::NotAWell(other),
        (Some((other, _)), _) if !decided => {
            return Meaning::Ask(format!("this could be {}, or a well beside one", other.phrase()));
        }
        (Some((other, part)), _) if found.decided_in.is_none_or(|decided| decided >= part) => {
            return Meaning::Ask(format!("this names a well of the type {} and {}", shown(kind), other.phrase()));
        }
        (_, Some(_)) if !decided && !found.ask => return Meaning::Missing,
        (_, Some(part)) if found.decided_in == Some(part) || part == 0 => return ask("this says that it is not known"),
        _ => {}
    }
    if found.ask {
        return ask("this is none of the types, or more than one");
    }
    if found.doubted && best > 0 {
        return ask("whoever wrote it was not sure");
    }
    if !decided {
        return match (best, found.denied) {
            (_, true) => ask("this says what it is not"),
            (0, _) => ask("this is not a type of well that is known"),
            _ => ask("a lining or a size alone does not say how the well was made"),
        };
    }
    let method = |kind: WellType| found.scores[kind as usize].0;
    if method(kind) && method(other) || best == second {
        return Meaning::Ask(format!("this names two types, {} and {}", shown(kind), shown(other)));
    }
    if found.changed {
        return ask("this tells of a later change; the hole may have two parts");
    }
    let bare = hits.len() == 1 && hits.iter().all(|hit| hit.words == phrase.words.len());
    // A star takes slips too: `drillde` is said, `drilling` is a word.
    let word = phrase.words.first().map_or("", |word| word.text.as_str());
    let slip = phrase.words.len() == 1
        && word.len() >= 5
        && (1..=2).contains(&edits(word, kind.name()))
        && !kind.name().starts_with(word)
        && !["ing", "er", "ers", "s"].iter().any(|end| word.ends_with(end));
    if bare && method(kind) && slip {
        return Meaning::Read(kind, format!("a spelling near \"{}\"", kind.name()));
    }
    if bare && method(kind) { Meaning::Is(kind) } else { Meaning::Read(kind, String::new()) }
}
