//! Units and references as people put them in words: in a heading's bracket, in a group above the headings, in a note
//! above the table.
//!
//! `(ft, diameters in.)`, `pipes in inches, hand-dug in feet`, `Depths from the ground. Water measured from the rim`. A
//! text falls into clauses; each gives a unit, and says what it is the unit of, where it says.

use super::heading::Datum;
use super::lexicon::{self, Concept, Language, Meaning};
use super::phrases;
use crate::field::{Field, WellType};
use crate::quantity::unit::{self, Dimension, Gallon, Unit};

/// Words by which a mark stands beside a number, folded.
pub const BESIDE: [&str; 12] =
    ["by", "beside", "behind", "after", "before", "with", "against", "junto", "despues", "tras", "apres", "depois"];

/// What a clause is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// Whatever is not spoken of elsewhere.
    All,
    /// Depths, levels, heights.
    Depths,
    /// Water levels alone.
    Levels,
    /// Diameters.
    Diameters,
}

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
    ("noria", &[WellType::Dug, WellType::SpringBox]),
    ("nora", &[WellType::Dug, WellType::SpringBox]),
    ("cacimba", &[WellType::Dug, WellType::SpringBox]),
    ("stone", &[WellType::Dug, WellType::SpringBox]),
    ("pit", &[WellType::Dug, WellType::SpringBox]),
    ("spring", &[WellType::SpringBox]),
];

/// What a text states, clause by clause.
///
/// `codes` are the list's own words for types of well: `en pulgadas en los PT y HN`.
pub fn stated(text: &str, language: Language, gallon: Option<Gallon>, codes: &[(String, WellType)]) -> Vec<Stated> {
    let mut found: Vec<Stated> = Vec::new();
    // A sentence's subject holds for the clauses after it: `Across: dug wells are feet, drilled wells inches`.
    for sentence in text.split_inclusive(['.', '!', '\n']).collect::<Joined>().0 {
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
            if words.is_empty() {
                continue;
            }
            let meaning = lexicon::meaning(&words, language);
            let about = about(&words, &meaning);
            let unit = unit_of(&words, gallon);
            let mut types = types_of(&words, clause, codes);
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
            let datum = datum(&words, &meaning);
            if unit.is_none() && datum.is_some() && types.is_empty() {
                // `Dug wells: bottom and water from the rim`
                types.clone_from(&waiting);
            } else if unit.is_none() {
                waiting.clone_from(&types);
            } else if types.is_empty() {
                types = std::mem::take(&mut waiting);
                wells_first |= !types.is_empty();
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

/// A clause in its parts where a dash stands between two units, as a comma would: `FEET BELOW GROUND - DIAM INCHES`.
fn dashed(clause: &str, gallon: Option<Gallon>) -> Vec<&str> {
    const DASH: &str = " - ";
    let has_unit = |text: &str| unit_of(&lexicon::tokens(text), gallon).is_some();
    let between = |(at, _): &(usize, &str)| has_unit(&clause[..*at]) && has_unit(&clause[at + DASH.len()..]);
    match clause.match_indices(DASH).find(between) {
        Some((at, _)) => vec![&clause[..at], &clause[at + DASH.len()..]],
        None => vec![clause],
    }
}

/// A clause in its parts where it speaks of several measures, each with its own unit: `depths are metres and casing is mm`.
fn measures(clause: &str, language: Language, gallon: Option<Gallon>) -> Vec<&str> {
    const AND: [&str; 5] = [" and ", " & ", " y ", " et ", " e "];
    let is_measure = |text: &str| {
        let words = lexicon::tokens(text);
        unit_of(&words, gallon).is_some() && about(&words, &lexicon::meaning(&words, language)) != About::All
    };
    let mut parts = Vec::new();
    let mut rest = clause;
    while let Some((left, right)) = AND
        .iter()
        .flat_map(|and| rest.match_indices(and).map(|(at, _)| (&rest[..at], &rest[at + and.len()..])))
        .filter(|(left, right)| is_measure(left) && is_measure(right))
        .min_by_key(|(left, _)| left.len())
    {
        parts.push(left);
        rest = right;
    }
    parts.push(rest);
    parts
}

/// Sizes that hold where a cell says nothing: `Drilled are 6 in. unless noted`, `Sand points (SP) are 1 1/4 in. unless a size is
/// given`. In SI, by type of well.
pub fn sizes_unless_noted(text: &str, codes: &[(String, WellType)]) -> Vec<(WellType, f64)> {
    const UNLESS: [&str; 6] = ["unless", "otherwise", "noted", "marked", "salvo", "sauf"];
    let mut found = Vec::new();
    for sentence in text.split_inclusive(['.', '!', '\n']).collect::<Joined>().0 {
        for clause in without_codes(&sentence).split([',', ';', ':', '(', ')']) {
            let words = lexicon::tokens(clause);
            if !words.iter().any(|word| UNLESS.contains(&word.as_str())) {
                continue;
            }
            let sizes: Vec<f64> = phrases::tokens(clause)
                .windows(2)
                .filter_map(|pair| Some((pair[0].number?, unit_of(&[pair[1].word.clone()], None)?)))
                .filter(|(_, unit)| unit.dimension == Dimension::Length)
                .map(|(value, unit)| unit.to_si(value))
                .collect();
            if let [size] = sizes.as_slice() {
                found.extend(types_of(&words, clause, codes).into_iter().map(|well_type| (well_type, *size)));
            }
        }
    }
    found
}

/// A sentence without the codes that stand in brackets behind their words: `Sand points (SP)`.
fn without_codes(sentence: &str) -> String {
    const LONGEST: usize = 4;
    let is_code = |inner: &str| (1..=LONGEST).contains(&inner.len()) && inner.chars().all(char::is_uppercase);
    let mut parts = sentence.split('(');
    let mut kept = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        match part.split_once(')').filter(|(inner, _)| is_code(inner)) {
            Some((_, rest)) => kept.push_str(rest),
            None => {
                kept.push('(');
                kept.push_str(part);
            }
        }
    }
    kept
}

/// Sentences, where a point after an abbreviation such as `in.` or `dia.` ends none.
struct Joined(Vec<String>);

impl<'a> FromIterator<&'a str> for Joined {
    fn from_iter<I: IntoIterator<Item = &'a str>>(parts: I) -> Self {
        let mut sentences: Vec<String> = Vec::new();
        let mut open = false;
        for part in parts {
            // `depth and water are ft. pipe is inches`: each has a unit of its own.
            let length = |text: &str| unit_of(&lexicon::tokens(text), None).is_some();
            let ends_in_unit = |text: &str| {
                lexicon::tokens(text).last().is_some_and(|last| unit_of(std::slice::from_ref(last), None).is_some())
            };
            let apart =
                sentences.last().is_some_and(|last| ends_in_unit(last)) && length(part) && part.starts_with(' ');
            // `in cm. HE = height of the water`: a word with its meaning begins anew.
            let defines = part.split_once('=').is_some_and(|(name, _)| name.split_whitespace().count() == 1);
            match sentences.last_mut().filter(|_| open && !apart && !defines) {
                Some(last) => last.push_str(part),
                None => sentences.push(part.to_owned()),
            }
            let last_word =
                lexicon::fold(part.trim_end_matches(['.', ' ']).rsplit([' ', '(', '.']).next().unwrap_or_default());
            open = part.ends_with('.') && ABBREVIATIONS.contains(&last_word.as_str());
        }
        Self(sentences)
    }
}

const ABBREVIATIONS: &[&str] = &[
    "in", "ft", "m", "cm", "mm", "dia", "diam", "no", "approx", "est", "i", "d", "o", "cas", "csg", "max", "min", "ca",
    "prof", "tot", "gal", "pulg", "int", "ext", "pol",
];

fn about(words: &[String], meaning: &Meaning) -> About {
    // `Norias: boca en metros`: the mouth of a well is measured across, unless something is counted from it.
    const MOUTH: [&str; 6] = ["boca", "bocas", "mouth", "mouths", "opening", "ouverture"];
    let mouth = words.iter().any(|word| MOUTH.contains(&word.as_str()));
    if mouth && datum(words, meaning).is_none() && !meaning.has(Concept::Depth) {
        return About::Diameters;
    }
    // `SWL is from top of csg`: the casing is what the level is counted from.
    let is_level = [Concept::Water, Concept::Level, Concept::StaticWaterLevel].iter().any(|of| meaning.has(*of));
    let counted = is_level && datum(words, meaning).is_some();
    let widths = [Concept::Diameter, Concept::Outside, Concept::Casing, Concept::Size, Concept::Bore];
    if widths[..if counted { 2 } else { widths.len() }].iter().any(|concept| meaning.has(*concept)) {
        About::Diameters
    } else if [Concept::Water, Concept::Level, Concept::Static, Concept::StaticWaterLevel]
        .iter()
        .any(|concept| meaning.has(*concept))
        && !meaning.has(Concept::Depth)
        && !meaning.has(Concept::TotalDepth)
    {
        About::Levels
    } else if [
        Concept::Depth,
        Concept::TotalDepth,
        Concept::Bottom,
        Concept::Water,
        Concept::Level,
        Concept::Height,
        Concept::StaticWaterLevel,
    ]
    .iter()
    .any(|concept| meaning.has(*concept))
    {
        About::Depths
    } else {
        About::All
    }
}

/// Words between codes.
const JOINING: [&str; 8] = ["and", "or", "et", "ou", "y", "o", "e", "for"];

/// The types of well that a clause names. A code of one letter counts only as it is written, in capitals, and where no other
/// word follows it: `feet for B and S`, not `A tape in feet`.
fn types_of(words: &[String], clause: &str, codes: &[(String, WellType)]) -> Vec<WellType> {
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

/// The unit of length, volume or flow among these words; `in` only where it is not a preposition.
pub fn unit_of(words: &[String], gallon: Option<Gallon>) -> Option<&'static Unit> {
    let known = |written: &str| match unit::look_up(written, gallon) {
        Some(unit::Meaning::Unit(unit))
            if matches!(unit.dimension, Dimension::Length | Dimension::Volume | Dimension::Flow) =>
        {
            Some(unit)
        }
        _ => None,
    };
    let count = words.len();
    for (at, word) in words.iter().enumerate() {
        let last = at + 1 == count;
        // `drilled are 6 in. unless noted` states a size, and `24-6 is 24 ft 6 in` shows how sizes are written.
        if at > 0 && words[at - 1].starts_with(|c: char| c.is_ascii_digit()) {
            continue;
        }
        let found = match word.as_str() {
            // `ft in` is feet with inches; `diameters in.` ends with it; `in ft` does not.
            "in" if !last && known(&words[at + 1]).is_some() => None,
            "in" if at > 0 || last => known("in").filter(|_| last || count - at <= 3 && is_reference(&words[at + 1..])),
            "in" => known("in").filter(|_| is_reference(&words[1..])),
            // One letter is a unit only where little else is said.
            "m" => known("m").filter(|_| last || at == 0),
            word if word.chars().count() == 1 => None,
            // A level's `foot valve`, the `foot of the sheet`.
            "foot" => known("ft").filter(|_| last && (at == 0 || words[at - 1] != "the")),
            // Words of the trade that are also units: a point of a driven well, a column of a table, a dry day.
            "pol" | "pulg" if count == 1 => known(word),
            "pt" | "pol" | "po" | "col" | "a" | "day" | "days" | "ins" | "mt" => None,
            word => known(word),
        };
        if found.is_some() {
            return found;
        }
    }
    None
}

/// Whether these words only say what a length is measured of or from.
fn is_reference(words: &[String]) -> bool {
    words.iter().all(|word| {
        [
            "i", "d", "id", "o", "od", "nominal", "inside", "below", "above", "from", "rim", "toc", "top", "of",
            "casing", "ground",
        ]
        .contains(&word.as_str())
    })
}

/// What is measured from, where the words say.
pub fn datum(words: &[String], meaning: &Meaning) -> Option<Datum> {
    let not_from = |concept: &str| {
        words.windows(4).any(|part| part[0] == "not" && part[1] == "from" && part[3].starts_with(concept))
    };
    let has = |list: &[&str]| words.iter().any(|word| list.contains(&word.as_str()));
    let from = has(&[
        "from", "below", "under", "da", "btoc", "toc", "bgl", "bgs", "mbgl", "fbgs", "de", "del", "du", "do", "desde",
        "depuis", "sous", "bajo", "abaixo", "down", "off",
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
    if reaches(&["top", "rim", "cap", "curb", "toc"]) && !meaning.has(Concept::Ground) {
        return Some(Datum::TopOfCasing);
    }
    if reaches(&["ground", "grade"]) && !meaning.has(Concept::Rim) {
        return Some(Datum::Ground);
    }
    if meaning.has(Concept::Elevation) {
        return Some(Datum::SeaLevel);
    }
    if has(&["bgl", "bgs", "mbgl", "fbgs", "bls"]) {
        return Some(Datum::Ground);
    }
    // `below land surface (MP height already taken off)`
    if meaning.has(Concept::Ground) && has(&["deducted", "subtracted", "removed", "descontado", "deduit"])
        || meaning.has(Concept::Ground) && words.windows(2).any(|pair| pair[0] == "taken" && pair[1] == "off")
    {
        return Some(Datum::Ground);
    }
    if has(&["btoc", "toc", "btc", "btoc"]) || from && (meaning.has(Concept::Rim) || has(&["cap"])) {
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

/// Whether a statement about this kind of thing holds for a field.
pub fn concerns(about: About, field: Field) -> bool {
    let level = matches!(field, Field::StaticWaterLevel);
    let depth = matches!(field, Field::TotalDepth | Field::WaterColumn | Field::CasingDepth);
    let height = matches!(field, Field::StickUp | Field::GroundElevation);
    let diameter = matches!(field, Field::CasingDiameter | Field::CasingOutsideDiameter | Field::OpenHoleDiameter);
    match about {
        About::All => level || depth || diameter || height,
        About::Depths => level || depth,
        About::Levels => level,
        About::Diameters => diameter,
    }
}
