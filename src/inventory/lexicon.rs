//! Words of the trade, as headings use them: which concept each word stands for, in the languages that lists come in.
//!
//! The words are data (`words/headings.*.toml`); this file reads them once and finds them in a text. It knows no fields:
//! what a set of concepts makes of a column is the business of `columns`.

use std::collections::HashMap;
use std::sync::OnceLock;

use foldhash::fast::FixedState;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

macro_rules! concepts {
    ($($(#[$doc:meta])* $name:ident = $word:literal,)*) => {
        /// What a word of a heading stands for.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Concept {
            $($(#[$doc])* $name,)*
        }

        impl Concept {
            /// Every concept, with its name in the files of words.
            const ALL: &'static [(&'static str, Self)] = &[$(($word, Self::$name),)*];
        }
    };
}

concepts! {
    /// How deep something is.
    Depth = "depth",
    /// The whole of it.
    Total = "total",
    /// Total depth in one word: `TD`.
    TotalDepth = "total_depth",
    /// The lower end.
    Bottom = "bottom",
    /// Water.
    Water = "water",
    /// Where something is found or reached: `to`, `reached at`.
    Find = "find",
    /// A level or surface.
    Level = "level",
    /// At rest, not pumped.
    Static = "static",
    /// Static water level in one word: `SWL`.
    StaticWaterLevel = "static_water_level",
    /// While pumping.
    Pumping = "pumping",
    /// At another time than now: in the dry season, when it was drilled, as somebody declared.
    OtherTime = "other_time",
    /// How high something is.
    Height = "height",
    /// A column of water.
    Column = "column",
    /// Across.
    Diameter = "diameter",
    /// A size.
    Size = "size",
    /// Measured around.
    Around = "around",
    /// From the middle outward.
    Radius = "radius",
    /// Casing, lining, tile, rings.
    Casing = "casing",
    /// The hole below the casing.
    Hole = "hole",
    /// The lower part of a well.
    Lower = "lower",
    /// The bore as a whole.
    Bore = "bore",
    /// Outside.
    Outside = "outside",
    /// Inside.
    Inside = "inside",
    /// `ID`: an identity or an inside diameter.
    IdentityOrInside = "identity_or_inside",
    /// The wall of a pipe.
    Wall = "wall",
    /// How thick.
    Thickness = "thickness",
    /// Above the ground.
    StickUp = "stick_up",
    /// Top of casing, rim.
    Rim = "rim",
    /// The ground.
    Ground = "ground",
    /// Above sea level.
    Elevation = "elevation",
    /// How long.
    Length = "length",
    /// A volume.
    Volume = "volume",
    /// What the well gives.
    Yield = "yield",
    /// A rate.
    Rate = "rate",
    /// The pump.
    Pump = "pump",
    /// Where something hangs.
    Set = "set",
    /// The well itself.
    Well = "well",
    /// A spring.
    Spring = "spring",
    /// A kind.
    Kind = "kind",
    /// How it was made.
    Built = "built",
    /// What it is made of.
    Material = "material",
    /// A name that tells wells apart.
    Identity = "identity",
    /// A number of something.
    Number = "number",
    /// A site.
    Site = "site",
    /// A person's or a place's name.
    Name = "name",
    /// A visit.
    Visit = "visit",
    /// An area.
    Region = "region",
    /// A depot.
    Depot = "depot",
    /// Latitude.
    Latitude = "latitude",
    /// Longitude.
    Longitude = "longitude",
    /// Flushed water.
    Discharge = "discharge",
    /// Where something goes.
    Goes = "goes",
    /// Flooded.
    Flooded = "flooded",
    /// People who drink.
    Users = "users",
    /// Sea water.
    Salt = "salt",
    /// The state of the well.
    State = "state",
    /// Remarks.
    Notes = "notes",
    /// Temperature.
    Temperature = "temperature",
    /// pH.
    Ph = "ph",
    /// Alkalinity.
    Alkalinity = "alkalinity",
    /// Iron.
    Iron = "iron",
    /// Manganese.
    Manganese = "manganese",
    /// Sulfide.
    Sulfide = "sulfide",
    /// Ammonia.
    Ammonia = "ammonia",
    /// Nitrite.
    Nitrite = "nitrite",
    /// Organic carbon.
    Carbon = "carbon",
    /// Pipes and tanks of the house.
    Plumbing = "plumbing",
    /// Well screen.
    Screen = "screen",
    /// Grout or seal.
    Grout = "grout",
    /// Rock and soil.
    Rock = "rock",
    /// Frost, mud and the like.
    Frost = "frost",
    /// Sewage.
    Sewage = "sewage",
    /// A date or time.
    Date = "date",
    /// An address.
    Address = "address",
    /// How to reach somebody.
    Contact = "contact",
    /// A test of the water.
    Testing = "testing",
    /// A tank or a filter.
    Tank = "tank",
    /// A distance.
    Distance = "distance",
    /// Money, people, hours.
    Cost = "cost",
    /// Pump data and fittings.
    Power = "power",
    /// What the water is used for.
    Use = "use",
    /// How well a position is known.
    Accuracy = "accuracy",
    /// A rank.
    Priority = "priority",
    /// Below something.
    Below = "below",
    /// A word that asks or joins.
    Filler = "filler",
}

/// A language that headings come in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish.
    Spanish,
    /// French.
    French,
    /// Portuguese.
    Portuguese,
}

impl Language {
    /// Every language, English first.
    pub const ALL: [Self; 4] = [Self::English, Self::Spanish, Self::French, Self::Portuguese];

    /// Its name in messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Spanish",
            Self::French => "French",
            Self::Portuguese => "Portuguese",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::English => include_str!("words/headings.en.toml"),
            Self::Spanish => include_str!("words/headings.es.toml"),
            Self::French => include_str!("words/headings.fr.toml"),
            Self::Portuguese => include_str!("words/headings.pt.toml"),
        }
    }
}

/// The words of one language.
#[derive(Debug, Default)]
struct Dictionary {
    /// Words and phrases, their parts joined by single blanks.
    exact: HashMap<String, Concept, FixedState>,
    /// Beginnings of words.
    beginnings: HashMap<String, Concept, FixedState>,
    /// The most parts that a phrase has.
    longest: usize,
}

impl Dictionary {
    /// The concept of a phrase.
    fn concept(&self, phrase: &str) -> Option<Concept> {
        self.exact.get(phrase).copied().or_else(|| {
            // An open ending belongs to the last word: `level*` does not swallow `level date`. The longest beginning counts.
            let last = phrase.rfind(' ').map_or(0, |blank| blank + 1);
            let ends = (last + 1..=phrase.len()).rev();
            ends.filter_map(|end| self.beginnings.get(phrase.get(..end)?)).next().copied()
        })
    }
}

fn dictionary(language: Language) -> &'static Dictionary {
    static ALL: OnceLock<Vec<Dictionary>> = OnceLock::new();
    let all = ALL.get_or_init(|| Language::ALL.into_iter().map(read).collect());
    &all[language as usize]
}

/// Reads a file of words. A word that the file gives to two concepts keeps the first: a test refuses such files.
fn read(language: Language) -> Dictionary {
    let mut dictionary = Dictionary::default();
    for (name, words) in entries(language) {
        let Some((_, concept)) = Concept::ALL.iter().find(|(known, _)| *known == name) else { continue };
        for word in words {
            let parts = tokens(&word);
            let phrase = parts.join(" ");
            dictionary.longest = dictionary.longest.max(parts.len());
            if word.ends_with('*') {
                dictionary.beginnings.entry(phrase).or_insert(*concept);
            } else {
                dictionary.exact.entry(phrase).or_insert(*concept);
            }
        }
    }
    dictionary
}

/// The entries of a language's file of words, by concept.
fn entries(language: Language) -> Vec<(String, Vec<String>)> {
    let table: toml::Table = language.words().parse().unwrap_or_default();
    let list = |value: &toml::Value| {
        value.as_array().into_iter().flatten().filter_map(|word| word.as_str().map(str::to_owned)).collect()
    };
    table.iter().map(|(name, words)| (name.clone(), list(words))).collect()
}

/// A text in lower case and without accents: `Nível Estático` is `nivel estatico`.
pub fn fold(text: &str) -> String {
    if text.is_ascii() {
        return text.to_ascii_lowercase();
    }
    text.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase).collect()
}

/// A small letter of the languages that are read, without its accent; anything else as it is. For cells, of which there are
/// many, letter by letter.
pub fn unaccented(letter: char) -> char {
    match letter {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' => 'a',
        'ç' => 'c',
        'è' | 'é' | 'ê' | 'ë' => 'e',
        'ì' | 'í' | 'î' | 'ï' => 'i',
        'ñ' => 'n',
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' => 'o',
        'ù' | 'ú' | 'û' | 'ü' => 'u',
        other => other,
    }
}

/// The words of a text, folded: cut at anything but letters and figures, and where a capital follows a small letter.
pub fn tokens(text: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut before = ' ';
    for c in text.chars() {
        if c.is_alphanumeric() {
            if c.is_uppercase() && before.is_lowercase() {
                words.push(String::new());
            }
            if let Some(word) = words.last_mut() {
                word.push(c);
            }
        } else if matches!(c, '#' | '№' | 'ø' | 'Ø' | '⌀' | '°' | 'º') {
            words.extend([c.to_string(), String::new()]);
        } else {
            words.push(String::new());
        }
        before = c;
    }
    words.retain(|word| !word.is_empty());
    words.iter().map(|word| fold(word)).collect()
}

/// `FINDPTHFT` as `fin dpth ft`: a run of letters that falls into known abbreviations and a unit, and into nothing else.
pub fn spaced(heading: &str) -> Option<String> {
    const UNITS: [&str; 10] = ["ft", "in", "mm", "cm", "m", "gpm", "lpm", "lps", "mgl", "gal"];
    const REFERENCES: [&str; 4] = ["bls", "bgs", "bgl", "btoc"];
    const LONGEST: usize = 24;
    const MOST_PARTS: usize = 4;
    let run = heading.trim().to_ascii_lowercase();
    if !(5..=LONGEST).contains(&run.len()) || !run.bytes().all(|byte| byte.is_ascii_lowercase()) {
        return None;
    }
    let english = dictionary(Language::English);
    let known = |part: &str, last: bool| {
        part.len() >= 2 && (english.exact.contains_key(part) || english.beginnings.contains_key(part))
            || REFERENCES.contains(&part)
            || last && UNITS.contains(&part)
    };
    // The fewest parts that reach each place, and where the last of them begins.
    let mut best: Vec<Option<(usize, usize)>> = vec![None; run.len() + 1];
    best[0] = Some((0, 0));
    for end in 1..=run.len() {
        best[end] = (0..end)
            .filter(|start| known(&run[*start..end], end == run.len()))
            .filter_map(|start| best[start].map(|(parts, _)| (parts + 1, start)))
            .min();
    }
    let (parts, _) = best[run.len()].filter(|(parts, _)| (2..=MOST_PARTS).contains(parts))?;
    let mut words = Vec::with_capacity(parts);
    let mut end = run.len();
    while let Some((_, start)) = best[end].filter(|_| end > 0) {
        words.push(&run[start..end]);
        end = start;
    }
    words.reverse();
    Some(words.join(" "))
}

/// What the words of a text stand for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Meaning {
    /// Concepts, in order, each once; fillers are left out.
    pub concepts: Vec<Concept>,
    /// Words that no dictionary knows.
    pub unknown: Vec<String>,
}

impl Meaning {
    /// Whether a word stood for this.
    pub fn has(&self, concept: Concept) -> bool {
        self.concepts.contains(&concept)
    }
}

/// What the words stand for, in the language of a list and in English; in another language where that knows every word.
pub fn meaning(words: &[String], language: Language) -> Meaning {
    let own = read_in(words, &[language, Language::English]);
    if !own.concepts.is_empty() || own.unknown.is_empty() {
        return own;
    }
    // `Profondeur totale` in an English list: all of its words in one language, or none.
    let others = Language::ALL.into_iter().filter(|other| *other != language && *other != Language::English);
    let whole = others.map(|other| read_in(words, &[other])).find(|meaning| meaning.unknown.is_empty());
    whole.unwrap_or(own)
}

/// `diam2` as the second of several: the word and its number, which has one figure; `h2s` has none.
pub fn numbered(word: &str) -> (&str, Option<u32>) {
    const SHORTEST: usize = 3;
    let name = word.trim_end_matches(|c: char| c.is_ascii_digit());
    match word[name.len()..].parse() {
        Ok(number @ 1..=9) if name.chars().count() >= SHORTEST => (name, Some(number)),
        _ => (word, None),
    }
}

fn read_in(words: &[String], order: &[Language]) -> Meaning {
    let mut meaning = Meaning::default();
    let mut at = 0;
    'words: while at < words.len() {
        for language in order {
            if let Some((concept, parts)) = longest(dictionary(*language), &words[at..]) {
                if concept != Concept::Filler && !meaning.concepts.contains(&concept) {
                    meaning.concepts.push(concept);
                }
                at += parts;
                continue 'words;
            }
        }
        // `csg1` is a casing, the first of several.
        let (name, number) = numbered(&words[at]);
        let concept = number.and_then(|_| order.iter().find_map(|language| dictionary(*language).concept(name)));
        if let Some(concept) = concept {
            if !meaning.concepts.contains(&concept) {
                meaning.concepts.push(concept);
            }
        } else if words[at].chars().any(char::is_alphabetic) && words[at].chars().count() > 1 {
            meaning.unknown.push(words[at].clone());
        }
        at += 1;
    }
    meaning
}

/// The longest phrase of a dictionary at the beginning of these words.
fn longest(dictionary: &Dictionary, words: &[String]) -> Option<(Concept, usize)> {
    (1..=dictionary.longest.min(words.len())).rev().find_map(|parts| {
        let phrase = if parts == 1 { words[0].clone() } else { words[..parts].join(" ") };
        dictionary.concept(&phrase).map(|concept| (concept, parts))
    })
}

/// The language that knows most of these words; English where none knows more than it.
pub fn language(words: &[String]) -> Language {
    let known = |language: Language| {
        let mut count = 0;
        let mut at = 0;
        while at < words.len() {
            let parts = longest(dictionary(language), &words[at..]).map_or(0, |(_, parts)| parts);
            count += parts;
            at += parts.max(1);
        }
        count
    };
    Language::ALL.into_iter().rev().max_by_key(|language| known(*language)).unwrap_or(Language::English)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A concept that is misspelled would be passed over, and of two concepts the alphabet would choose.
    #[test]
    fn every_word_of_the_files_has_one_concept() {
        for language in Language::ALL {
            let mut seen: HashMap<String, String> = HashMap::new();
            let entries = entries(language);
            assert!(entries.len() > 40, "{}", language.name());
            for (name, words) in entries {
                assert!(Concept::ALL.iter().any(|(known, _)| *known == name), "{}: {name}", language.name());
                for word in words {
                    let open = if word.ends_with('*') { "*" } else { "" };
                    let phrase = tokens(&word).join(" ") + open;
                    let of = seen.entry(phrase).or_insert_with(|| name.clone());
                    assert_eq!(*of, name, "{}: {word}", language.name());
                }
            }
        }
    }
}
