//! The types of well that a clause of a note names.

use crate::field::WellType;
use crate::inventory::lexicon;

/// Words for wells that are pipes, and for wells that a person could stand in.
const TYPES: &[(&str, &[WellType])] = &[
    ("pipe", &[WellType::Drilled, WellType::Driven]),
    ("puntilla", &[WellType::Driven]),
    ("hincad", &[WellType::Driven]),
    ("ponteira", &[WellType::Driven]),
    ("tubo", &[WellType::Drilled, WellType::Driven]),
    ("tuyau", &[WellType::Drilled, WellType::Driven]),
    ("cano", &[WellType::Drilled, WellType::Driven]),
    ("drill", &[WellType::Drilled]),
    ("bore", &[WellType::Drilled]),
    ("forage", &[WellType::Drilled]),
    ("perforad", &[WellType::Drilled]),
    ("perforaci", &[WellType::Drilled]),
    ("barrenad", &[WellType::Bored]),
    ("calzad", &[WellType::Dug, WellType::SpringBox]),
    ("furo", &[WellType::Drilled]),
    ("tubular", &[WellType::Drilled]),
    ("sondeo", &[WellType::Drilled]),
    ("tubewell", &[WellType::Drilled]),
    ("driven", &[WellType::Driven]),
    ("drove", &[WellType::Driven]),
    ("point", &[WellType::Driven]),
    ("bored", &[WellType::Bored]),
    ("auger", &[WellType::Bored]),
    ("tile", &[WellType::Bored]),
    ("dug", &[WellType::Dug, WellType::SpringBox]),
    ("excavad", &[WellType::Dug, WellType::SpringBox]),
    ("escavad", &[WellType::Dug, WellType::SpringBox]),
    ("creus", &[WellType::Dug, WellType::SpringBox]),
    ("puits", &[WellType::Dug, WellType::SpringBox]),
    ("balde", &[WellType::Dug, WellType::SpringBox]),
    ("cavad", &[WellType::Dug, WellType::SpringBox]),
    ("noria", &[WellType::Dug, WellType::SpringBox]),
    ("nora", &[WellType::Dug, WellType::SpringBox]),
    ("cacimba", &[WellType::Dug, WellType::SpringBox]),
    ("stone", &[WellType::Dug, WellType::SpringBox]),
    ("pit", &[WellType::Dug, WellType::SpringBox]),
    ("spring", &[WellType::SpringBox]),
];

/// What stands between the codes of a clause: `feet for B and S`.
pub(super) const JOINING: [&str; 8] = ["and", "or", "et", "ou", "y", "o", "e", "for"];

/// The types of well that a clause names. A code of one letter counts only as it is written, in capitals, and where no other
/// word follows it: `feet for B and S`, not `A tape in feet`.
pub(super) fn types_of(words: &[String], clause: &str, codes: &[(String, WellType)]) -> Vec<WellType> {
    let mut types: Vec<WellType> = Vec::new();
    let written: Vec<&str> = clause.split_whitespace().map(|word| word.trim_matches(['.', ')', '('])).collect();
    let alone = |code: &str| {
        written.iter().enumerate().any(|(at, word)| {
            let next = written.get(at + 1).map(|next| lexicon::fold(next));
            word.chars().all(char::is_uppercase)
                && lexicon::fold(word) == code
                && next.is_none_or(|next| JOINING.contains(&next.as_str()) || next == "&")
        })
    };
    for (at, word) in words.iter().enumerate() {
        // A point that is measured from is no well.
        let of_tape = ["measuring", "reference", "survey", "sampling", "collection", "water"];
        if word.starts_with("point") && at > 0 && of_tape.contains(&words[at - 1].as_str()) {
            continue;
        }
        // `m (bores mm)` speaks of every `bore` of the list.
        let plural = |code: &str| code.chars().count() > 2 && word.strip_suffix('s') == Some(code);
        if let Some((_, well_type)) = codes.iter().find(|(code, _)| code == word || plural(code))
            && (word.chars().count() > 1 || alone(word))
        {
            types.push(*well_type);
            continue;
        }
        // The bore is what is measured, and a driller a person: no kinds of well.
        if word == "bore" || word == "bores" || word.starts_with("driller") {
            continue;
        }
        // `bored` before `bore`.
        let found =
            TYPES.iter().filter(|(beginning, _)| word.starts_with(beginning)).max_by_key(|(word, _)| word.len());
        for well_type in found.iter().flat_map(|(_, types)| types.iter()) {
            if !types.contains(well_type) {
                types.push(*well_type);
            }
        }
    }
    types
}
