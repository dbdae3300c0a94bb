//! Which gallon a list means: by its own words, by its language, or because it plainly is from the United States.
//!
//! The imperial gallon is a fifth more, and feet and inches are written in Canada as well: a county alone proves nothing. What does is
//! an address with a state and a ZIP code, the name of a state, or an office that no other country has, in a list without any
//! metric unit and without a word of Canada or Britain. Common practice, no source.

use super::Planner;
use super::storage::GALLONS;
use crate::inventory::lexicon::{self, Language};
use crate::quantity::unit::{self, Dimension, Gallon, Meaning};

/// Words by which a gallon is the imperial one.
const IMPERIAL: [&str; 8] = ["imp", "imperial", "uk", "british", "imperiales", "ingleses", "imperiais", "imperiaux"];

/// Offices and codes that only the United States have.
const OFFICES: [&str; 9] = [
    "zip",
    "zip code",
    "zipcode",
    "fema",
    "county extension",
    "cooperative extension",
    "usda",
    "nrcs",
    "soil and water conservation district",
];

/// States whose name is no other place's; and their letters, as addresses have them.
#[rustfmt::skip]
const STATES: [&str; 41] = [
    "alabama", "alaska", "arizona", "arkansas", "california", "colorado", "connecticut", "delaware", "florida", "hawaii", "idaho",
    "illinois", "indiana", "iowa", "kansas", "kentucky", "louisiana", "maine", "maryland", "massachusetts", "michigan", "minnesota",
    "mississippi", "missouri", "montana", "nebraska", "nevada", "ohio", "oklahoma", "oregon", "pennsylvania", "tennessee", "texas",
    "utah", "vermont", "wisconsin", "wyoming", "new hampshire", "new jersey", "north carolina", "south dakota",
];
#[rustfmt::skip]
const LETTERS: [&str; 50] = [
    "AL", "AK", "AZ", "AR", "CA", "CO", "CT", "DE", "FL", "GA", "HI", "ID", "IL", "IN", "IA", "KS", "KY", "LA", "ME", "MD", "MA",
    "MI", "MN", "MS", "MO", "MT", "NE", "NV", "NH", "NJ", "NM", "NY", "NC", "ND", "OH", "OK", "OR", "PA", "RI", "SC", "SD", "TN",
    "TX", "UT", "VT", "VA", "WA", "WV", "WI", "WY",
];

/// Words of Canada, Britain and Ireland.
#[rustfmt::skip]
const ELSEWHERE: [&str; 34] = [
    "canada", "canadian", "province", "provincial", "ontario", "alberta", "manitoba", "saskatchewan", "quebec", "british", "columbia",
    "nova", "scotia", "brunswick", "newfoundland", "yukon", "rm", "rural municipality", "municipality", "concession", "council",
    "borough", "shire", "postcode", "postal", "uk", "england", "wales", "scotland", "ireland", "imperial", "imp", "igpm", "jamaica",
];

impl Planner<'_> {
    /// Which gallon the file means, where its words name one kind of them and not the other, and the words.
    pub(super) fn gallon_said(&self, column: usize) -> Option<(Gallon, String)> {
        let layout = &self.table.layout;
        let beside = [&layout.units, &layout.groups, &layout.explained];
        let near = beside.into_iter().filter_map(|texts| texts.get(column));
        let texts = std::iter::once(&self.table.headings[column]).chain(near).chain(&layout.notes);
        let mut said: Option<(Gallon, String)> = None;
        for text in texts {
            // `U.S. gallons` has a word of each letter.
            let mut one_word = text.clone();
            for letters in ["U.S.", "u.s.", "EE. UU.", "EE.UU.", "EE UU", "EEUU", "E.U.A."] {
                one_word = one_word.replace(letters, "US");
            }
            let words = lexicon::tokens(&one_word);
            // `US gallons`, `galones (EE. UU.)`.
            let beside = words.windows(2).flat_map(|pair| [[&pair[0], &pair[1]], [&pair[1], &pair[0]]]);
            for pair in beside.filter(|pair| pair[1].starts_with("gal")) {
                let gallon = match pair[0].as_str() {
                    "us" => Gallon::Us,
                    word if IMPERIAL.contains(&word) => Gallon::Imperial,
                    _ => continue,
                };
                match &said {
                    Some((known, _)) if *known != gallon => return None,
                    Some(_) => {}
                    None => said = Some((gallon, text.clone())),
                }
            }
        }
        said.or_else(|| self.is_american().map(|why| (Gallon::Us, why)))
    }

    /// Whether the heading of a volume, or a note beside the table, speaks of gallons.
    pub(super) fn speaks_of_gallons(&self, column: usize) -> bool {
        let notes = self.table.layout.notes.iter();
        let said = std::iter::once(&self.table.headings[column]).chain(notes);
        said.flat_map(|text| lexicon::tokens(text)).any(|word| GALLONS.contains(&word.as_str()))
    }

    /// What shows that a list is from the United States.
    fn is_american(&self) -> Option<String> {
        const FEWEST_ADDRESSES: usize = 3;
        let table = self.table;
        if table.layout.language != Language::English {
            return None;
        }
        let texts =
            || table.headings.iter().chain(&table.layout.notes).chain(&table.layout.groups).chain(&table.layout.units);
        let metric = |word: &String| {
            // One letter is anything.
            word.len() > 1
                && matches!(unit::look_up(word, None), Some(Meaning::Unit(unit))
                    if matches!(unit.dimension, Dimension::Length | Dimension::Volume)
                        && ["m", "cm", "mm", "L", "mL", "m3"].contains(&unit.symbol))
        };
        let bare_meter = |text: &&String| text.ends_with("(m)") || text.ends_with(" m");
        let words: Vec<Vec<String>> = texts().map(|text| lexicon::tokens(text)).collect();
        let says = |known: &[&str], words: &[String]| {
            let joined = format!(" {} ", words.join(" "));
            known.iter().any(|name| joined.contains(&format!(" {name} ")))
        };
        let elsewhere = words.iter().any(|words| says(&ELSEWHERE, words));
        if elsewhere || words.iter().flatten().any(metric) || texts().any(|text| bare_meter(&text)) {
            return None;
        }
        let named = texts().zip(&words).find(|(_, words)| says(&OFFICES, words) || says(&STATES, words));
        if let Some((text, _)) = named {
            return Some(text.clone());
        }
        // `12 Mill Rd, Harrow, OH 44012`
        let is_address = |cell: &&str| {
            let mut parts = cell.rsplit(' ');
            let zip = parts.next().unwrap_or_default();
            let figures = zip.len() == 5 && zip.bytes().all(|byte| byte.is_ascii_digit());
            figures && parts.next().is_some_and(|state| LETTERS.contains(&state))
        };
        (0..table.headings.len()).find_map(|column| {
            let mut addresses = table.filled(column).filter(is_address);
            addresses.nth(FEWEST_ADDRESSES - 1).map(str::to_owned)
        })
    }
}
