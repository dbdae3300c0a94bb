//! The point that depths are counted from, where words say it: the ground, the top of the casing, the sea.

use crate::inventory::heading::Datum;
use crate::inventory::lexicon::{self, Concept, Language, Meaning};

/// What is measured from, where the words say.
pub fn datum(words: &[String], meaning: &Meaning) -> Option<Datum> {
    let not_from = |concept: &str| {
        words.windows(4).any(|part| part[0] == "not" && part[1] == "from" && part[3].starts_with(concept))
    };
    // `Below T.O.C.`
    let spelled = |list: &[&str]| {
        let letters = |part: &[String]| part.iter().all(|word| word.len() == 1);
        (3..=4).any(|count| words.windows(count).any(|part| letters(part) && list.contains(&part.concat().as_str())))
    };
    let has = |list: &[&str]| words.iter().any(|word| list.contains(&word.as_str())) || spelled(list);
    let from = has(&[
        "from",
        "below",
        "under",
        "da",
        "btoc",
        "toc",
        "bgl",
        "bgs",
        "mbgl",
        "fbgs",
        "de",
        "del",
        "du",
        "do",
        "desde",
        "depuis",
        "sous",
        "bajo",
        "abaixo",
        "down",
        "off",
        "ref",
        "referencia",
    ]);
    // `pris à la margelle`
    let from = from || words.windows(2).any(|pair| pair[0] == "a" && pair[1] == "la");
    // `TOP OF PIPE to water`, `ground to bottom`
    let reaches = |start: &[&str]| {
        words.iter().position(|word| start.contains(&word.as_str())).is_some_and(|at| {
            let to = words[at..].iter().position(|word| word == "to").map(|to| at + to);
            to.is_some_and(|to| words[to..].iter().any(|word| ["water", "bottom", "level"].contains(&word.as_str())))
        })
    };
    // `casing to water`, side by side: `casing carries on to bottom` is another thing.
    let from_pipe = words.windows(3).any(|part| {
        ["casing", "pipe", "collar", "tubo", "cano", "tube"].contains(&part[0].as_str())
            && ["to", "a", "al"].contains(&part[1].as_str())
            && ["water", "bottom", "level", "agua", "l"].contains(&part[2].as_str())
    });
    // `level below casing`; a hole below the casing has a width and no level.
    let from_pipe = from_pipe
        || has(&["level", "static", "water"])
            && words.windows(2).any(|pair| {
                ["below", "under", "from"].contains(&pair[0].as_str()) && ["casing", "pipe"].contains(&pair[1].as_str())
            });
    if (reaches(&["top", "rim", "cap", "curb", "toc"]) || from_pipe) && !meaning.has(Concept::Ground) {
        return Some(Datum::TopOfCasing);
    }
    if reaches(&["ground", "grade"]) && !meaning.has(Concept::Rim) {
        return Some(Datum::Ground);
    }
    // `Tube haut jusqu'à la cote donnée, tube bas de cette cote jusqu'au fond`: a mark on the way down.
    const MARKS: [&str; 11] =
        ["jusqu", "jusque", "hasta", "ate", "cette", "esta", "esa", "dicha", "essa", "dita", "dado"];
    let is_mark = words.iter().enumerate().any(|(at, word)| {
        ["cote", "cota"].contains(&word.as_str())
            && words[at.saturating_sub(3)..at].iter().any(|before| MARKS.contains(&before.as_str()))
    });
    if meaning.has(Concept::Elevation) && !is_mark {
        return Some(Datum::SeaLevel);
    }
    if has(&["bgl", "bgs", "mbgl", "fbgs", "bls", "bg"]) {
        return Some(Datum::Ground);
    }
    // `below land surface (MP height already taken off)`
    if meaning.has(Concept::Ground) && has(&["deducted", "subtracted", "removed", "descontado", "deduit"])
        || meaning.has(Concept::Ground) && words.windows(2).any(|pair| pair[0] == "taken" && pair[1] == "off")
    {
        return Some(Datum::Ground);
    }
    if has(&["btoc", "toc", "btc", "bmp", "bmpt"]) || from && (meaning.has(Concept::Rim) || has(&["cap"])) {
        return Some(Datum::TopOfCasing);
    }
    (from && meaning.has(Concept::Ground) && !not_from("g")).then_some(Datum::Ground)
}

/// The sentences of a note, each by itself.
fn sentences(note: &str) -> Vec<String> {
    note.split(['.', ';', '\n']).map(str::to_owned).collect()
}

/// What levels are counted from where that differs by place: `Mill Hollow ran the tape from the ground. Packwood from the cap`.
///
/// `places` are the names of a column, folded; a short code among them counts only behind the column's heading: `Ref. M = from
/// the rim`. Nothing where no note tells two references.
pub fn datum_by_place(notes: &[String], heading: &str, places: &[String], language: Language) -> Vec<(String, Datum)> {
    const LONGEST_CODE: usize = 2;
    let heading_words = lexicon::tokens(heading).join(" ");
    // The point of an abbreviated heading ends no sentence.
    let undotted = |note: &String| match heading.strip_suffix('.').filter(|start| !start.is_empty()) {
        Some(start) => note.replace(heading, start),
        None => note.clone(),
    };
    let mut found: Vec<(String, Datum)> = Vec::new();
    for sentence in notes.iter().map(undotted).flat_map(|note| sentences(&note)) {
        let sentence = sentence.as_str();
        let words = lexicon::tokens(sentence);
        let joined = format!(" {} ", words.join(" "));
        let Some(datum) = datum(&words, &lexicon::meaning(&words, language)) else { continue };
        for place in places {
            let name = lexicon::tokens(place).join(" ");
            let name = if name.len() <= LONGEST_CODE { format!("{heading_words} {name}") } else { name };
            if !name.is_empty()
                && joined.contains(&format!(" {name} "))
                && found.iter().all(|(known, _)| known != place)
            {
                found.push((place.clone(), datum));
            }
        }
    }
    let several = found.windows(2).any(|pair| pair[0].1 != pair[1].1);
    if several { found } else { Vec::new() }
}
