//! The date in a heading that measures something: `DTW 4/22`, `SWL Oct 2023`, `DTW Spr 25`.

use super::lexicon;

/// Months, short and in full, in the languages of the lists.
const MONTHS: [&[&str]; 12] = [
    &["jan", "january", "ene", "enero", "janv", "janvier", "janeiro"],
    &["feb", "february", "febrero", "fev", "fevr", "fevrier", "fevereiro"],
    &["mar", "march", "marzo", "mars", "marco"],
    &["apr", "april", "abr", "abril", "avr", "avril"],
    &["may", "mayo", "mai", "maio"],
    &["jun", "june", "junio", "juin", "junho"],
    &["jul", "july", "julio", "juil", "juillet", "julho"],
    &["aug", "august", "ago", "agosto", "aout"],
    &["sep", "sept", "september", "septiembre", "septembre", "set", "setembro"],
    &["oct", "october", "octubre", "octobre", "outubro"],
    &["nov", "november", "noviembre", "novembre", "novembro"],
    &["dec", "december", "dic", "diciembre", "decembre", "dez", "dezembro"],
];

/// Seasons, short and in full, with the month that each lies about both ways that it can be meant: north and south of the
/// equator, or a winter that begins a year and one that ends it. `Fall` is said in the north alone.
const SEASONS: [(&[&str], [u32; 2]); 5] = [
    (&["spr", "spring", "primavera", "printemps"], [4, 10]),
    (&["sum", "summer", "verano", "ete", "verao"], [7, 1]),
    (&["fall"], [10, 11]),
    (&["aut", "autumn", "otono", "automne", "outono"], [10, 4]),
    (&["win", "winter", "invierno", "hiver", "inverno"], [1, 12]),
];

/// A heading without its date, and the date both ways that two numbers can be read: month and year, month and day.
pub struct Dated {
    /// The words of what is measured.
    pub rest: Vec<String>,
    /// Year, month and day.
    pub keys: [(u32, u32, u32); 2],
}

impl Dated {
    /// The two numbers of a date without a year, as they stand: `4/22`.
    pub fn two_numbers(&self) -> Option<(u32, u32)> {
        let [by_year, (year, one, other)] = self.keys;
        (year == 0 && other > 0 && by_year == (other, one, 0)).then_some((one, other))
    }
}

/// The date in a heading that measures something else as well.
pub fn dated(heading: &str) -> Option<Dated> {
    read(heading).filter(|dated| !dated.rest.is_empty())
}

/// Whether a heading is a date and nothing else.
pub fn is_date(heading: &str) -> bool {
    read(heading).is_some_and(|dated| dated.rest.is_empty())
}

/// Words for a time at which all wells were measured: `Round 2`, `Level 1st visit`.
const ROUNDS: [&str; 22] = [
    "round",
    "rnd",
    "visit",
    "reading",
    "measurement",
    "survey",
    "trip",
    "event",
    "ronda",
    "visita",
    "lectura",
    "medicion",
    "jornada",
    "tournee",
    "visite",
    "releve",
    "mesure",
    "passage",
    "rodada",
    "leitura",
    "medicao",
    "campanha",
];

/// Places in an order.
const ORDINALS: [&[&str]; 4] = [
    &["1st", "first", "primera", "primer", "1ra", "1er", "1ere", "premier", "premiere", "primeira"],
    &["2nd", "second", "segunda", "2da", "2do", "2e", "deuxieme"],
    &["3rd", "third", "tercera", "tercer", "3ra", "3e", "troisieme", "terceira"],
    &["4th", "fourth", "cuarta", "4ta", "4e", "quatrieme", "quarta"],
];

/// Words for a time as it is told without a date, the earlier first.
const TIMES: [&[&str]; 3] = [
    &["before", "prior", "pre", "preflood", "antes", "avant"],
    &["after", "post", "since", "postflood", "despues", "apres", "depois"],
    &[
        "now",
        "today",
        "current",
        "currently",
        "present",
        "ahora",
        "hoy",
        "actual",
        "actuel",
        "aujourd'hui",
        "agora",
        "hoje",
        "atual",
    ],
];

/// What such a time is told of.
const FLOODS: [&str; 8] = ["flood", "flooding", "storm", "the", "crue", "inundacion", "enchente", "cheia"];

/// A round, or a time that is told by the flood: what else the heading says, and its place in the order.
fn in_order(heading: &str) -> Option<Dated> {
    let words = lexicon::tokens(heading);
    let place = |of: &[&[&str]], word: &str| of.iter().position(|names| names.contains(&word)).map(|at| at as u32 + 1);
    let is_round = |word: &String| ROUNDS.contains(&word.as_str());
    let number =
        |word: &String| place(&ORDINALS, word).or_else(|| word.parse().ok().filter(|number| (1..=9).contains(number)));
    let dated = |rest: Vec<String>, place: u32| Dated { rest, keys: [(0, 0, place); 2] };
    if words.iter().filter(|word| is_round(word)).count() == 1
        && let [place] = words.iter().filter_map(number).collect::<Vec<u32>>().as_slice()
    {
        let rest = words.iter().filter(|word| !is_round(word) && number(word).is_none()).cloned().collect();
        return Some(dated(rest, *place));
    }
    let times: Vec<u32> = words.iter().filter_map(|word| place(&TIMES, word)).collect();
    let [time] = times.as_slice() else { return None };
    let told = |word: &&String| place(&TIMES, word).is_none() && !FLOODS.contains(&word.as_str());
    let rest: Vec<String> = words.iter().filter(told).cloned().collect();
    (rest.len() <= 3).then(|| dated(rest, *time))
}

/// The date in a heading, and what else it says.
fn read(heading: &str) -> Option<Dated> {
    if let Some(dated) = in_order(heading) {
        return Some(dated);
    }
    let (mut rest, mut numbers, mut month, mut year) = (Vec::new(), Vec::new(), None, None);
    let mut season = None;
    for word in lexicon::tokens(heading) {
        let folded = lexicon::fold(&word);
        let month_named = MONTHS.iter().position(|names| names.contains(&folded.as_str()));
        let season_named = SEASONS.iter().find(|(names, _)| names.contains(&folded.as_str()));
        match word.parse::<u32>() {
            Ok(number @ 1900..=2099) => year = Some(number),
            Ok(number @ 1..=99) => numbers.push(number),
            Ok(_) => return None,
            Err(_) if month_named.is_some() => month = month_named.map(|at| at as u32 + 1),
            Err(_) if season_named.is_some() => season = season_named.map(|(_, months)| *months),
            Err(_) => rest.push(word),
        }
    }
    // `Casing 10-20`: from so deep to so deep.
    if year.is_none() && month.is_none() && season.is_none() && !heading.contains('/') {
        return None;
    }
    if let Some([one, other]) = season {
        // `Spr 25`: of a year.
        let year = match (year, month, numbers.as_slice()) {
            (Some(year), None, []) => year,
            (None, None, [year]) => *year,
            _ => return None,
        };
        return Some(Dated { rest, keys: [(year, one, 0), (year, other, 0)] });
    }
    let keys = match (year, month, numbers.as_slice()) {
        (Some(year), Some(month), []) => [(year, month, 0); 2],
        (Some(year), Some(month), [day]) => [(year, month, *day); 2],
        (Some(year), None, []) => [(year, 0, 0); 2],
        (Some(year), None, [month]) => [(year, *month, 0); 2],
        (Some(year), None, [one, other]) => [(year, *one, *other), (year, *other, *one)],
        (None, Some(month), [number]) => [(*number, month, 0), (0, month, *number)],
        (None, None, [one, other]) => [(*other, *one, 0), (0, *one, *other)],
        (None, None, [one, other, year]) => [(*year, *one, *other), (*year, *other, *one)],
        _ => return None,
    };
    Some(Dated { rest, keys })
}

/// A heading without the date of its measure, where it has one: `DTW` of `DTW Spr 25`.
pub fn without_date(heading: &str) -> Option<String> {
    dated(heading).map(|dated| dated.rest.join(" "))
}
