//! Reading a text for hazards: whole words and phrases, and what is denied is not reported.
//!
//! Nearly every cell holds none of the words, and one pass over it with all of them at once says so. What is left is read
//! word by word. Where it is not clear whether a word is denied it is reported: a false alarm costs a phone call.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::Hazard;
use super::needles::NEEDLES;
use super::states::{LINKS, vocabularies};
use super::words::{BETWEEN, DENIALS, DENIED_BY, IN_WATER, MAY_FLOW, NAMES, NOT_WHAT, SPILT, TITLES, Vocabulary};

/// A hazard found in a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hit {
    /// What the words report.
    pub hazard: Hazard,
    /// The words that say so, in lower case.
    pub words: String,
}

impl Hit {
    /// Whether a level below the ground takes it back: an artesian well need not flow over.
    pub fn is_undone_by_level(&self) -> bool {
        MAY_FLOW.contains(&self.words.as_str())
    }
}

/// What stands before a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Break {
    /// Blanks, hyphens, slashes: the sentence goes on.
    None,
    /// A colon or a question mark, after which an answer may come.
    Soft,
    /// The end of a clause.
    Hard,
}

struct Token {
    word: String,
    before: Break,
}

struct Phrase {
    of: &'static Vocabulary,
    words: Vec<&'static str>,
    /// What must follow for it to count, where something must: states behind a thing, things behind a state.
    then: Option<&'static [&'static str]>,
}

impl Phrase {
    /// Whether one word says it all.
    fn is_one_word(&self) -> bool {
        self.words.len() == 1 && self.then.is_none()
    }
}

/// Every phrase, cut into words, by the first letter.
static PHRASES: LazyLock<HashMap<char, Vec<Phrase>>> = LazyLock::new(|| {
    let mut phrases: HashMap<char, Vec<Phrase>> = HashMap::new();
    let mut add = |of, phrase: &'static str, then| {
        if let Some(first) = phrase.chars().next() {
            let words = phrase.split(' ').collect();
            phrases.entry(first).or_default().push(Phrase { of, words, then });
        }
    };
    for of in vocabularies() {
        of.phrases.iter().for_each(|phrase| add(of, phrase, of.states.map(|states| states.behind)));
        let before = of.states.map_or(&[][..], |states| states.before);
        before.iter().for_each(|state| add(of, state, Some(of.phrases)));
    }
    phrases
});

/// The hazards that a text reports, in order of the text; each phrase once, the longer one where two overlap.
pub fn find(text: &str) -> Vec<Hit> {
    // Capitals beyond ASCII are rare: only a text that has such letters is copied.
    let lower = (!text.is_ascii()).then(|| text.to_lowercase());
    let searched = lower.as_deref().unwrap_or(text);
    if NEEDLES.as_ref().is_some_and(|needles| !needles.are_in(searched)) {
        return Vec::new();
    }
    let tokens = tokens(searched);
    let mut found: Vec<(usize, usize, &Phrase)> = Vec::new();
    for at in 0..tokens.len() {
        let first = tokens[at].word.chars().next();
        let phrases = first.and_then(|first| PHRASES.get(&first)).map_or(&[][..], Vec::as_slice);
        let standing = phrases.iter().filter_map(|phrase| Some((ends_at(phrase, &tokens, at)?, phrase)));
        if let Some((end, phrase)) = standing.max_by_key(|(end, _)| *end)
            && found.last().is_none_or(|(_, before, _)| *before < end)
        {
            found.push((at, end, phrase));
        }
    }
    found.retain(|(from, to, phrase)| !is_harmless(&tokens, *to, phrase) && !is_named(&tokens, *from, phrase));
    let inside = |at: usize| found.iter().any(|(from, to, _)| (*from..*to).contains(&at));
    let reported = found.iter().filter(|(from, to, phrase)| {
        !is_denied_before(&tokens, *from, &inside) && !is_denied_after(&tokens, *to, phrase.of.hazard)
    });
    reported
        .map(|(from, to, phrase)| Hit {
            hazard: phrase.of.hazard,
            words: tokens[*from..*to].iter().map(|token| token.word.as_str()).collect::<Vec<_>>().join(" "),
        })
        .collect()
}

/// The hazards that a name reports, of a well, a depot or a region: `1 (dialysis, gate locked)`, `North - wires down`.
///
/// A name is made of any words, as in Dog Hill or Oil Depot, so that one word counts only behind the name.
pub fn find_in_name(text: &str) -> Vec<Hit> {
    let mut hits = find(text);
    if hits.is_empty() {
        return hits;
    }
    let behind = text.find(['(', '[', ',', ';', ':', '–', '—']).into_iter().chain(text.find(" - ")).min();
    let told = behind.map_or_else(Vec::new, |at| find(&text[at..]));
    let of_people = |hit: &Hit| matches!(hit.hazard, Hazard::Infant | Hazard::Patient) && hit.words != "baby";
    hits.retain(|hit| hit.words.contains(' ') || of_people(hit) || told.contains(hit));
    hits
}

/// Whether a cell says yes, for columns whose heading names a hazard: `Dog? | yes`.
pub fn is_yes(text: &str) -> bool {
    const YES: [&str; 9] = ["yes", "y", "x", "true", "sí", "si", "oui", "sim", "ja"];
    text.len() <= 4 && YES.contains(&&*text.to_lowercase())
}

fn tokens(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut word = String::new();
    let mut before = Break::None;
    let mut last = ' ';
    for letter in text.chars().chain(std::iter::once(' ')) {
        if letter.is_alphanumeric() {
            word.extend(letter.to_lowercase());
        } else {
            if !word.is_empty() {
                tokens.push(Token { word: std::mem::take(&mut word), before });
                before = Break::None;
            }
            before = before.max(match letter {
                '.' | ',' | ';' | '!' | '(' | ')' | '\n' | '–' | '—' => Break::Hard,
                ':' | '?' | '=' => Break::Soft,
                '-' if last == ' ' => Break::Hard,
                _ => Break::None,
            });
        }
        last = letter;
    }
    undo_contractions(&mut tokens);
    tokens
}

/// `can't` and `isn't` as `can not` and `is not`.
fn undo_contractions(tokens: &mut [Token]) {
    for at in 1..tokens.len() {
        if tokens[at].word == "t" && tokens[at].before == Break::None && tokens[at - 1].word.ends_with('n') {
            tokens[at].word = "not".to_owned();
            // `can` keeps its own n.
            if tokens[at - 1].word != "can" {
                tokens[at - 1].word.pop();
            }
        }
    }
}

fn is(token: &Token, words: &[&str]) -> bool {
    words.contains(&token.word.as_str())
}

/// Where a phrase that begins at a word ends, with what must follow it; nothing where it does not stand there.
fn ends_at(phrase: &Phrase, tokens: &[Token], at: usize) -> Option<usize> {
    let end = stands_at(phrase.words.iter().copied(), tokens, at)?;
    let Some(then) = phrase.then else { return Some(end) };
    // `Panel: wet` says it as well.
    let goes_on = |token: &&Token| token.before < Break::Hard;
    let links = tokens.get(end..)?.iter().take_while(|token| goes_on(token) && is(token, LINKS)).count();
    tokens.get(end + links).filter(goes_on)?;
    then.iter().filter_map(|words| stands_at(words.split(' '), tokens, end + links)).max()
}

/// Where words end that stand here, one behind the other.
fn stands_at<'a>(words: impl Iterator<Item = &'a str>, tokens: &[Token], at: usize) -> Option<usize> {
    let mut end = at;
    for wanted in words {
        let token = tokens.get(end).filter(|token| end == at || token.before == Break::None)?;
        let fits = match wanted.strip_suffix('*') {
            Some(beginning) => token.word.starts_with(beginning),
            None => token.word == wanted,
        };
        end = fits.then_some(end + 1)?;
    }
    Some(end)
}

/// `no fuel`, `no sign of fuel or oil`; never beyond the clause, and never by a word of another hazard (`no cap or dog`).
fn is_denied_before(tokens: &[Token], from: usize, inside: &impl Fn(usize) -> bool) -> bool {
    let mut at = from;
    while at > 0 && tokens[at].before == Break::None {
        at -= 1;
        let token = &tokens[at];
        // Free of oil, but free oil on the water.
        let free_of = token.word == "free" && tokens.get(at + 1).is_some_and(|next| is(next, &["of", "from"]));
        if (is(token, DENIALS) || free_of) && !inside(at) {
            return true;
        }
        if !is(token, BETWEEN) && !inside(at) {
            return false;
        }
    }
    false
}

/// `fuel: none`, `dog? no`, `oil not seen`.
fn is_denied_after(tokens: &[Token], to: usize, hazard: Hazard) -> bool {
    let mut at = to;
    while tokens.get(at).is_some_and(|token| token.before < Break::Hard && is(token, BETWEEN)) {
        at += 1;
    }
    let Some(token) = tokens.get(at).filter(|token| token.before < Break::Hard) else { return false };
    let next = tokens.get(at + 1).filter(|next| next.before == Break::None);
    match token.word.as_str() {
        "no" | "non" | "nein" | "não" => next.is_none(),
        "not" => hazard != Hazard::NotFound && next.is_some_and(|next| is(next, NOT_WHAT)),
        _ => is(token, DENIED_BY),
    }
}

/// An electric *pump*, *Oil City*, open hole *60 to 200 ft*.
fn is_harmless(tokens: &[Token], to: usize, phrase: &Phrase) -> bool {
    let of = phrase.of;
    let Some(next) = tokens.get(to).filter(|next| next.before == Break::None) else { return false };
    // An electric panel is no danger, one under water is.
    let clause = tokens[to..].iter().enumerate().take_while(|(at, token)| *at == 0 || token.before < Break::Hard);
    let in_water = of.hazard == Hazard::Electric && clause.clone().any(|(_, token)| is(token, IN_WATER));
    let machine = is(next, of.harmless_before) && !in_water && !tokens.iter().any(|token| is(token, SPILT));
    let number = of.harmless_before_number && next.word.starts_with(|c: char| c.is_ascii_digit());
    machine || number || phrase.is_one_word() && is(next, NAMES)
}

/// *Mr* Baby, *gravel* pit; and `not found` that is said of something before it: sheen not found.
fn is_named(tokens: &[Token], from: usize, phrase: &Phrase) -> bool {
    let before = from.checked_sub(1).map(|at| &tokens[at]);
    let titled = before.is_some_and(|before| is(before, TITLES));
    let goes_on = from > 0 && tokens[from].before == Break::None;
    let of_another = goes_on && before.is_some_and(|before| is(before, phrase.of.harmless_after));
    (titled || of_another) && phrase.is_one_word() || goes_on && phrase.words == ["not", "found"]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: &str) -> String {
        find(text).iter().map(|hit| hit.hazard.entry().word).collect::<Vec<_>>().join(" ")
    }

    /// Every phrase as a text, with each state that it counts in.
    fn texts(of: &Vocabulary) -> Vec<String> {
        let Some(states) = of.states else { return of.phrases.iter().map(|phrase| phrase.replace('*', "")).collect() };
        let each = of.phrases.iter().flat_map(|phrase| {
            let behind = states.behind.iter().map(move |state| format!("{phrase} {state}"));
            behind.chain(states.before.iter().map(move |state| format!("{state} {phrase}")))
        });
        each.map(|text| text.replace('*', "")).collect()
    }

    #[test]
    fn every_phrase_is_found_by_itself() {
        for vocabulary in vocabularies() {
            for text in texts(vocabulary) {
                for text in [text.clone(), text.to_uppercase()] {
                    let found = find(&text);
                    let [hit] = &found[..] else { panic!("{text}: {found:?}") };
                    // A longer phrase of another hazard may hold a shorter one: poison ivy.
                    assert_eq!(hit.words, text.to_lowercase(), "{text}");
                }
            }
        }
    }

    #[test]
    fn the_quick_look_passes_over_no_phrase() {
        let starts = &NEEDLES.as_ref().expect("an automaton").starts;
        for phrase in vocabularies().flat_map(Vocabulary::sought) {
            for before in ["", "12 ", "(", "–", "sí; "] {
                let text = format!("{before}{}", phrase.replace('*', ""));
                assert!(starts.may_begin_in(&text) && starts.may_begin_in(&text.to_ascii_uppercase()), "{text}");
            }
        }
        assert!(!starts.may_begin_in("W00000017") && !starts.may_begin_in("Northeast-12"));
    }

    #[test]
    fn phrases_are_what_texts_are_cut_into() {
        for text in vocabularies().flat_map(texts) {
            let cut: Vec<String> = tokens(&text).into_iter().map(|token| token.word).collect();
            assert_eq!(cut.join(" "), text);
        }
    }

    #[test]
    fn no_state_begins_with_a_word_that_is_passed_over() {
        for states in vocabularies().filter_map(|of| of.states) {
            for state in states.behind {
                assert!(!LINKS.contains(&state.split(' ').next().unwrap_or_default()), "{state}");
            }
        }
    }

    #[test]
    fn a_word_is_a_whole_word() {
        for text in ["dogwood", "boiling", "Fuelling", "caveat", "snaked"] {
            assert_eq!(words(text), "", "{text}");
        }
        assert_eq!(words("dogs-and gate_code"), "dog locked");
    }
}
