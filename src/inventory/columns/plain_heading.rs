//! A heading without what changes nothing: brackets, a date beside what is measured, the answer that a question follows on.

use super::follow_up::IF;
use crate::inventory::lexicon::{self, Concept};

/// Papers and people that a measure comes from.
#[rustfmt::skip]
const SOURCES: [&str; 34] = [
    "log", "logs", "report", "reports", "card", "cards", "driller", "drillers", "owner", "owners", "permit",
    "permits", "file", "files", "record", "records", "register", "registry", "county", "state", "contractor", "tag",
    "plate", "label", "deed", "sticker", "inspector", "completion", "certificate", "tenant", "database", "book",
    "paper", "papers",
];

/// What a heading measures of a well beside what is counted down.
const ACROSS: [Concept; 3] = [Concept::Casing, Concept::Diameter, Concept::Size];

/// People that tell a measure, in other languages.
#[rustfmt::skip]
const TELLERS: [&str; 14] = [
    "dueno", "duena", "propietario", "vecino", "perforista", "perforador", "pocero", "proprietaire", "foreur", "puisatier",
    "proprietario", "dono", "morador", "perfurador",
];

/// A question without the answer that it follows on: `Q8e. If no: static level on the report` is `static level on the report`.
pub fn without_condition(heading: &str) -> &str {
    const MOST_WORDS: usize = 4;
    let Some((condition, question)) = heading.split_once(':') else { return without_rest(heading) };
    let words = lexicon::tokens(condition);
    // `Q8e.` is the number of the question.
    let numbered = words.first().is_some_and(|word| word.chars().any(|letter| letter.is_ascii_digit()));
    let rest = &words[usize::from(numbered)..];
    let follows = rest.first().is_some_and(|word| IF.contains(&word.as_str())) && rest.len() <= MOST_WORDS;
    if follows && !question.trim().is_empty() { question.trim() } else { heading }
}

/// A question without the rest that the water has had: `8. When nobody has run water for a while, how many feet down is the
/// water?`. A clause that speaks of a running pump, or of another time, stays.
fn without_rest(heading: &str) -> &str {
    const WHEN: [&str; 8] = ["when", "after", "if", "cuando", "si", "quand", "quando", "se"];
    const NOT: [&str; 10] = ["nobody", "no", "not", "none", "nothing", "nadie", "personne", "ninguem", "nao", "before"];
    const ASKS: [&str; 8] = ["how", "what", "at", "a", "cuantos", "combien", "quantos", "cuanto"];
    let Some((clause, question)) = heading.split_once(", ") else { return heading };
    let words = lexicon::tokens(clause);
    let numbered = words.first().is_some_and(|word| word.chars().any(|letter| letter.is_ascii_digit()));
    let said = &words[usize::from(numbered)..];
    let when = said.first().is_some_and(|word| WHEN.contains(&word.as_str()));
    let at_rest = said.iter().any(|word| NOT.contains(&word.as_str()));
    let asks = lexicon::tokens(question).first().is_some_and(|word| ASKS.contains(&word.as_str()));
    let meaning = lexicon::meaning(said, lexicon::Language::English);
    let running = [Concept::Pumping, Concept::OtherTime, Concept::Flooded].iter().any(|concept| meaning.has(*concept));
    if when && at_rest && asks && !running { question.trim() } else { heading }
}

/// A question without the advice behind it: `How far down is the water? (feet) Check your well log or ask your driller.`
pub fn without_advice(heading: &str) -> &str {
    const FEWEST_WORDS: usize = 3;
    let Some((question, rest)) = heading.split_once('?') else { return heading };
    let brackets = rest.trim_start().starts_with(['(', '[']).then(|| rest.find([')', ']'])).flatten();
    let behind = brackets.map_or(rest, |end| &rest[end + 1..]);
    let advice = !behind.contains('?') && lexicon::tokens(behind).len() >= FEWEST_WORDS;
    if advice && lexicon::tokens(question).len() >= FEWEST_WORDS {
        &heading[..heading.len() - behind.len()]
    } else {
        heading
    }
}

/// A measure without the paper or the person that it comes from: `Depth per driller's log`, `Profundidad según perforista`.
pub fn without_source(heading: &str, language: lexicon::Language) -> &str {
    const BEFORE_A_PAPER: [&str; 8] = [" per ", " as per ", " according to ", " from ", " off ", " on ", " by ", ", "];
    const ALONE: [&str; 8] =
        [" segun ", " según ", " selon ", " d'après ", " d’après ", " d'apres ", " segundo ", " conforme "];
    const JOINS: [&str; 10] = ["the", "a", "an", "our", "your", "his", "her", "their", "well", "s"];
    let lower = heading.to_lowercase();
    let measures = |text: &str| {
        let meaning = lexicon::meaning(&lexicon::tokens(&without_brackets(text)), language);
        meaning.unknown.is_empty()
            && meaning.concepts.iter().any(|concept| concept.is_counted_down() || ACROSS.contains(concept))
    };
    // Letters whose small form is longer would move the places.
    if lower.len() != heading.len() {
        return heading;
    }
    // `Report depth`, `Log water`: the paper stands before what it says.
    let first = lower.split(' ').next().unwrap_or_default();
    let (heading, lower) =
        match SOURCES.contains(&first) && lower.len() > first.len() + 1 && measures(&heading[first.len() + 1..]) {
            true => (&heading[first.len() + 1..], lower[first.len() + 1..].to_owned()),
            false => (heading, lower),
        };
    let told = told_by(&lower).filter(|at| heading.is_char_boundary(*at) && measures(&heading[*at..]));
    let (heading, lower) = told.map_or((heading, lower.as_str()), |at| (&heading[at..], &lower[at..]));
    let alone = ALONE.iter().filter_map(|word| lower.find(word));
    let papers = BEFORE_A_PAPER.iter().filter_map(|word| {
        let at = lower.find(word)?;
        let names = lexicon::tokens(&without_brackets(&lower[at + word.len()..]));
        let mut source = names.iter().map(String::as_str).skip_while(|word| JOINS.contains(word));
        source.next().is_some_and(|word| SOURCES.contains(&word)).then_some(at)
    });
    alone
        .chain(papers)
        .filter(|at| heading.is_char_boundary(*at) && measures(&heading[..*at]))
        .min()
        .map_or(heading, |at| &heading[..at])
}

/// Where a measure begins behind the person who told it: `Owner says deep`, `Driller's depth`, `El dueño dice profundidad`.
fn told_by(lower: &str) -> Option<usize> {
    const SAYS: [&str; 22] = [
        " says ",
        " say ",
        " said ",
        " told us ",
        " tells ",
        " reports ",
        " reported ",
        " claims ",
        " thinks ",
        " gave ",
        " gives ",
        " stated ",
        " remembers ",
        " dice ",
        " dijo ",
        " declara ",
        " dit ",
        " declare ",
        " diz ",
        " disse ",
        "'s ",
        "’s ",
    ];
    const JOINS: [&str; 12] = ["the", "our", "well", "el", "la", "le", "o", "a", "l", "du", "del", "do"];
    SAYS.iter().find_map(|says| {
        let at = lower.find(says)?;
        let words = lexicon::tokens(&lower[..at]);
        let who = |word: &String| SOURCES.contains(&word.as_str()) || TELLERS.contains(&word.as_str());
        let only = words.iter().all(|word| who(word) || JOINS.contains(&word.as_str()));
        (words.iter().any(who) && only).then_some(at + says.len())
    })
}

/// `SWL / when`, `Level & date`: what is measured, without the day.
pub fn without_date(heading: &str, language: lexicon::Language) -> String {
    let parted = [" / ", "/", " & ", ", ", " and ", " + "].into_iter().find_map(|mark| heading.rsplit_once(mark));
    let Some((measured, day)) = parted else { return heading.to_owned() };
    let of = |text: &str| lexicon::meaning(&lexicon::tokens(text), language);
    let (measured_is, day_is) = (of(measured), of(day));
    let only_a_day = day_is.concepts == [Concept::Date] && day_is.unknown.is_empty();
    let measures = !measured_is.concepts.is_empty() && !measured_is.has(Concept::Date);
    if only_a_day && measures { measured.to_owned() } else { heading.to_owned() }
}

/// A heading without what stands in brackets.
pub fn without_brackets(heading: &str) -> String {
    let mut depth = 0_usize;
    let mut outer = String::with_capacity(heading.len());
    for c in heading.chars() {
        match c {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth = depth.saturating_sub(1),
            c if depth == 0 => outer.push(c),
            _ => {}
        }
    }
    outer
}
