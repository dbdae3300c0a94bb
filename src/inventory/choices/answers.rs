//! Yes or no, as people answer whether flood water stood over a well.

use std::sync::LazyLock;

use super::Meaning;
use super::lexicon::Lexicon;
use super::phrase::Phrase;
use crate::field::Field;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Class {
    /// The word yes, alone or at the beginning.
    Yes,
    /// The word no, alone or at the beginning.
    No,
    /// Water stood over the well, or at it.
    Covered,
    /// Water did not reach the well.
    Clear,
    /// Water reached a part of it: asked, because a dose may rest on it.
    Partly,
    /// The water that came was of the sea.
    Salt,
    /// The water that came was of a river or of rain.
    Fresh,
    /// Turns what follows into its opposite: `was not under`.
    Not,
    /// Says that nothing is known.
    Nothing,
    /// Leaves what is said open: `maybe`, `I think`.
    Unsure,
    /// Passed over: keeps its words from being read alone.
    Aside,
}

fn class(section: &str, key: &str) -> Option<Class> {
    match (section, key) {
        ("answer", "yes") => Some(Class::Yes),
        ("answer", "no") => Some(Class::No),
        ("flooded", "yes") => Some(Class::Covered),
        ("flooded", "no") => Some(Class::Clear),
        ("flooded", "partly") => Some(Class::Partly),
        ("seawater", "yes") => Some(Class::Salt),
        ("seawater", "no") => Some(Class::Fresh),
        ("says", "not") => Some(Class::Not),
        ("says", "nothing") => Some(Class::Nothing),
        ("says", "unsure") => Some(Class::Unsure),
        ("says", "aside") => Some(Class::Aside),
        _ => None,
    }
}

static LEXICON: LazyLock<Lexicon<Class>> = LazyLock::new(|| Lexicon::load(&in_all_languages!("flags"), class));

pub(super) fn faults() -> Vec<String> {
    LEXICON.faults.clone()
}

pub(super) fn unread(phrase: &Phrase) -> Vec<String> {
    LEXICON.unread(phrase)
}

/// Signs that are a tick, and those that are none.
const TICKS: &[&str] = &["✓", "✔", "☑", "☒", "x", "X", "×", "1"];
const CROSSES: &[&str] = &["☐", "✗", "✘", "0"];

/// The answer that a text means for this field of yes or no.
pub fn flag(field: Field, text: &str) -> Meaning<bool> {
    let text = text.trim();
    if TICKS.contains(&text) {
        return Meaning::Is(true);
    }
    if CROSSES.contains(&text) {
        return Meaning::Is(false);
    }
    let phrase = Phrase::of(text);
    if phrase.is_bare_question() {
        return Meaning::Missing;
    }
    let hits = LEXICON.hits(&phrase);
    let is = |answer: bool| Meaning::Read(answer, String::new());
    let ask = |why: &str| Meaning::Ask(why.to_owned());
    let has = |class: Class| hits.iter().any(|hit| hit.class == class);
    let doubted = phrase.questioned || has(Class::Unsure);
    if let Some(first) = hits.first().filter(|hit| hit.at == 0)
        && matches!(first.class, Class::Yes | Class::No)
    {
        if doubted {
            return ask("whoever wrote it was not sure");
        }
        let answer = first.class == Class::Yes;
        return if phrase.words.len() == 1 { Meaning::Is(answer) } else { is(answer) };
    }
    if has(Class::Nothing) {
        return Meaning::Missing;
    }
    let (mut yes, mut no, mut partly) = (false, false, false);
    let mut not_in = None;
    for hit in &hits {
        let denied = not_in == Some(hit.part);
        match (hit.class, field) {
            (Class::Not, _) => not_in = Some(hit.part),
            // `not` and the short words alone say nothing without what they answer.
            (Class::Covered, Field::Flooded) | (Class::Salt, Field::Seawater) if denied => no = true,
            (Class::Covered, Field::Flooded) | (Class::Salt, Field::Seawater) => yes = true,
            (Class::Clear, Field::Flooded) | (Class::Fresh, Field::Seawater) => no = true,
            (Class::Partly, Field::Flooded) => partly = true,
            _ => {}
        }
    }
    match (yes, no) {
        _ if doubted && (yes || no || partly) => ask("whoever wrote it was not sure"),
        (true, true) => ask("this says both yes and no"),
        (true, false) => is(true),
        (false, true) => is(false),
        // A dose may rest on it: whether that counts as flooded is not ours to say.
        (false, false) if partly => ask("water reached a part of the well"),
        (false, false) => ask("neither yes nor no"),
    }
}
