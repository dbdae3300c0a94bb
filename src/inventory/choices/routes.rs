//! Where the flushed water goes, by the words that describe the place.
//!
//! Of several places the one that needs the most care is used, and the row says so: what runs over a lawn to a creek is a
//! stream.

use std::sync::LazyLock;

use super::Meaning;
use super::lexicon::{Hit, Lexicon};
use super::phrase::Phrase;
use crate::field::DischargeRoute;

/// What a word does in a description of a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Class {
    /// Names where the water ends up.
    Is(DischargeRoute),
    /// Names a water after a name with a capital: `Otter Run`.
    AfterName(DischargeRoute),
    /// A ditch in a language whose word may be a road ditch or a water course.
    Ditch,
    /// A road: a ditch beside it is a road ditch.
    Road,
    /// Left open where nothing else is said.
    Open,
    /// Left open whatever else is said.
    Ask,
    /// Says that nothing is known.
    Nothing,
    /// Denies what follows, or keeps away from it.
    Not,
    /// Leaves what is said open: `probably the ditch`.
    Unsure,
    /// Passed over: keeps its words from being read alone.
    Aside,
}

fn class(section: &str, key: &str) -> Option<Class> {
    if let Some(route) = DischargeRoute::by_name(section) {
        return match key {
            "is" => Some(Class::Is(route)),
            "after_name" => Some(Class::AfterName(route)),
            _ => None,
        };
    }
    match (section, key) {
        ("says", "ditch") => Some(Class::Ditch),
        ("says", "road") => Some(Class::Road),
        ("says", "open") => Some(Class::Open),
        ("says", "ask") => Some(Class::Ask),
        ("says", "nothing") => Some(Class::Nothing),
        ("says", "not") => Some(Class::Not),
        ("says", "unsure") => Some(Class::Unsure),
        ("says", "aside") => Some(Class::Aside),
        _ => None,
    }
}

static LEXICON: LazyLock<Lexicon<Class>> = LazyLock::new(|| Lexicon::load(&in_all_languages!("routes"), class));

pub(super) fn faults() -> Vec<String> {
    LEXICON.faults.clone()
}

pub(super) fn unread(phrase: &Phrase) -> Vec<String> {
    LEXICON.unread(phrase)
}

/// Routes that lead over open ground, from the one that needs the most care down: only these may stand together.
const OVER_GROUND: [DischargeRoute; 3] = [DischargeRoute::Stream, DischargeRoute::StormDrain, DischargeRoute::Land];

/// Of several routes of one well the one that needs the most care; nothing where they cannot be weighed.
pub fn most_careful(routes: &[DischargeRoute]) -> Option<DischargeRoute> {
    match routes {
        [] => None,
        [route, rest @ ..] if rest.iter().all(|other| other == route) => Some(*route),
        // To water is to water, whatever else may be done with the rest of it.
        _ if routes.contains(&DischargeRoute::Stream) => Some(DischargeRoute::Stream),
        _ if routes.contains(&DischargeRoute::StormDrain) => Some(DischargeRoute::StormDrain),
        _ => None,
    }
}

/// Whether a hit is a water's name: `Otter Run`, and no `run to` or `will run`.
fn is_name(phrase: &Phrase, hit: &Hit<Class>) -> bool {
    let before = hit.at.checked_sub(1).and_then(|at| phrase.words.get(at));
    let same_part = |word: &&super::phrase::Word| word.part == hit.part;
    let named = before.filter(same_part).is_some_and(|word| word.capital && word.text.len() > 2);
    let capital = phrase.words.get(hit.at).is_some_and(|word| word.capital);
    let last = phrase.words.get(hit.at + hit.words).is_none_or(|word| word.part != hit.part || !word.capital);
    named && capital && last
}

/// The discharge route that a text means.
pub fn route(text: &str) -> Meaning<DischargeRoute> {
    let phrase = Phrase::of(text);
    if phrase.is_bare_question() {
        return Meaning::Missing;
    }
    let hits = LEXICON.hits(&phrase);
    let mut routes: Vec<DischargeRoute> = Vec::new();
    let (mut ditch, mut road, mut open, mut ask, mut nothing, mut denied) = (false, false, false, false, false, false);
    let mut doubted = phrase.questioned;
    let mut not_in = None;
    for hit in &hits {
        match hit.class {
            Class::Not => not_in = Some(hit.part),
            Class::Is(_) | Class::AfterName(_) | Class::Ditch if not_in == Some(hit.part) => denied = true,
            Class::Is(route) => routes.push(route),
            // `run`, and nothing else.
            Class::AfterName(route) if is_name(&phrase, hit) || hit.words == phrase.words.len() => routes.push(route),
            Class::AfterName(_) | Class::Aside => {}
            Class::Ditch => ditch = true,
            Class::Road => road = true,
            Class::Open => open = true,
            Class::Ask => ask = true,
            Class::Nothing => nothing = true,
            Class::Unsure => doubted = true,
        }
    }
    if ditch && road {
        routes.push(DischargeRoute::StormDrain);
    }
    let why = |why: &str| Meaning::Ask(why.to_owned());
    if routes.is_empty() && nothing && !ask && !ditch {
        return Meaning::Missing;
    }
    // Nothing needs more care than a stream, so what else is named beside it changes nothing.
    if ask && !routes.contains(&DischargeRoute::Stream) {
        return why("this may lead to more than one kind of place");
    }
    // Water said with doubt is water; anything else said with doubt is asked.
    if doubted && !routes.is_empty() && !(routes.len() > 1 && routes.contains(&DischargeRoute::Stream)) {
        return why("whoever wrote it was not sure");
    }
    let Some(first) = routes.first().copied() else {
        return match () {
            () if ditch => why("a ditch beside a road is a storm drain, one that carries water is a stream"),
            () if denied => why("this says where it does not go"),
            () if open => why("this does not say where the water ends up"),
            () => why("this is not a place that is known"),
        };
    };
    if routes.iter().all(|route| *route == first) {
        let bare = hits.len() == 1 && hits.iter().all(|hit| hit.words == phrase.words.len());
        return if bare { Meaning::Is(first) } else { Meaning::Read(first, String::new()) };
    }
    match most_careful(&routes) {
        Some(route) => {
            let rest = OVER_GROUND.iter().chain(&DischargeRoute::ALL).filter(|other| **other != route);
            let rest = rest.copied().find(|other| routes.contains(other)).unwrap_or(route);
            let rest = rest.name().replace('_', " ");
            Meaning::Read(route, format!("it names {rest} as well; the one that needs more care is used"))
        }
        None => why("this names more than one place"),
    }
}
