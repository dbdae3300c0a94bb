//! What a remark says of depth, level and diameter: `deepened 1994 to 240 ft`, `sanded in 5 ft`, `4 in liner set`.
//!
//! Each statement begins with an anchor, a word that tells what happened; its number is looked for near it, and must be
//! tied to it by a small word (`to`, `at`, `now`) or by a unit of length. Years, dates, telephone numbers, rates, the setting
//! of a pump and the stretch of a screen are other numbers. Words of French, Spanish and Portuguese stand beside the English
//! ones; they are from memory, the English ones common practice of the trade, no source.

mod basin;
mod below;
mod level;
mod liner;
mod told;
pub mod words;

use super::phrases::{Class, Phrases, Token, tokens};
use crate::field::Field;
use crate::quantity::unit::{self, Unit};
pub use basin::basin;
pub use below::narrower;
pub use liner::lined_to_the_bottom;
pub use told::{
    corrected, doubts_measures, has_gallery, height_now, leaves_open, names_several_wells, not_at_rest, one_length,
    rim_height, several_wells, tells_unit, told_height, told_level, wide_and_narrow,
};
use words::{ABOUT, BY, CAVED, COUNTED_FROM, GOES_DOWN, LEFT, MEASURES, NOW, OTHER_UNITS, RUNNING};
use words::{ANCHORS, SOUNDING, STOPS, TO, Way};
pub use words::{SAYS, VERIFY};

/// A length as a remark writes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// The number: in metres where it has a unit, else as written.
    pub value: f64,
    /// Its unit; nothing where the remark has none.
    pub unit: Option<&'static Unit>,
}

/// How a measure changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// It is so much now.
    To(Written),
    /// It is so much more (deepened) or less (sanded in).
    By(Written),
    /// It changed, and nobody says how much.
    Unknown,
}

/// One statement of a remark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statement {
    /// Depth, level or casing diameter.
    pub field: Field,
    /// What happened.
    pub way: Way,
    /// By how much.
    pub change: Change,
    /// Whether the words leave no doubt.
    pub sure: bool,
    /// First byte of the words.
    pub from: usize,
    /// The byte behind the last.
    pub to: usize,
}

/// Reads a remark.
pub fn statements(text: &str) -> Vec<Statement> {
    of_tokens(&tokens(text))
}

/// Reads a remark that is cut into tokens.
pub fn of_tokens(tokens: &[Token]) -> Vec<Statement> {
    let reader = Reader { phrases: Phrases::all(), tokens };
    let mut found: Vec<Statement> = Vec::new();
    for (at, token) in tokens.iter().enumerate() {
        let Some(way) = anchor(&token.word).or_else(|| reader.anchor_of_several(at)) else { continue };
        let Some(statement) = reader.statement(at, way) else { continue };
        // `deepened to a depth of 240` is one statement, told by its first word.
        let told = found.iter_mut().find(|told| told.field == statement.field && told.to > statement.from);
        match told {
            Some(told) if told.change == Change::Unknown => {
                *told = Statement {
                    sure: told.sure && statement.sure || statement.way == Way::Sound,
                    from: told.from,
                    ..statement
                }
            }
            Some(_) => {}
            None => found.push(statement),
        }
    }
    found
}

/// Whether a remark may change the measures of the well, whatever it says: a length beside a word of depth, water or casing,
/// two lengths, or a pump that runs.
pub fn may_measure(tokens: &[Token]) -> bool {
    if told::is_address(tokens) {
        return false;
    }
    let reader = Reader { phrases: Phrases::all(), tokens };
    let lengths: Vec<Written> = (0..tokens.len()).filter_map(|at| Some(reader.length(at)?.0)).collect();
    let with_unit = lengths.iter().filter(|written| written.unit.is_some()).count();
    let named = tokens.iter().any(|token| MEASURES.iter().any(|word| token.word.starts_with(word)));
    // `dead rat in the water` has no unit.
    let unit = tokens.iter().any(|token| token.word.len() > 2 && is_length_unit(Some(token)));
    let running = tokens.iter().any(|token| RUNNING.contains(&token.word.as_str()));
    // `square, laid stone`; `I taped it last week 28-6 down`.
    let says = |known: &[&str]| tokens.iter().any(|token| known.contains(&token.word.as_str()));
    let not_round = says(&["square", "rectangular", "cuadrado", "cuadrada", "carre", "carree", "quadrado", "quadrada"]);
    let number = tokens.iter().any(|token| token.word.starts_with(|c: char| c.is_ascii_digit()));
    let taped = number && says(&["taped", "sounded", "remeasured", "re-measured", "plumbed"]);
    // `ahora tiene 16,20 m`; `1,30 hasta los 3,50 m, de allí para abajo 0,90`.
    let part = |written: &&Written| written.unit.is_none() && written.value.fract() != 0.0;
    let sizes = with_unit > 1 || with_unit == 1 && (says(NOW) || lengths.iter().any(|one| part(&one)));
    named && (!lengths.is_empty() || unit) || sizes || running || not_round || taped
}

fn anchor(word: &str) -> Option<Way> {
    ANCHORS.iter().find(|(words, _)| words.contains(&word)).map(|(_, way)| *way)
}

/// A whole number of our days without a unit is a year.
pub fn is_year(number: f64) -> bool {
    (1900.0..=2050.0).contains(&number) && number.fract() == 0.0
}

/// The unit of length that a word is.
pub fn length_unit(word: &str) -> Option<&'static Unit> {
    let symbol = match word {
        "ft" | "feet" | "foot" | "'" | "pies" | "pie" | "pieds" | "pied" | "pes" => "ft",
        "m" | "mts" | "mt" | "meter" | "meters" | "metre" | "metres" | "metro" | "metros" => "m",
        "in" | "inch" | "inches" | "\"" | "po" | "pouce" | "pouces" | "pulg" | "pulgada" | "pulgadas" | "pol"
        | "polegada" | "polegadas" => "in",
        "cm" | "centimeters" | "centimetres" | "centimetros" => "cm",
        "mm" | "millimeters" | "millimetres" | "milimetros" => "mm",
        _ => return None,
    };
    unit::by_symbol(symbol)
}

/// Whether a word or a sign before a number makes it a price or a number of something: `$ 20`, `no 12`.
pub fn is_numbering(word: &str) -> bool {
    matches!(word, "$" | "#" | "no" | "nr")
}

/// Whether a word is a unit of something that is no length, as in `6 gpm`.
pub fn is_other_unit(word: &str) -> bool {
    OTHER_UNITS.contains(&word)
}

/// Whether a token is a unit of length.
pub fn is_length_unit(token: Option<&Token>) -> bool {
    token.is_some_and(|token| length_unit(&token.word).is_some())
}

struct Reader<'a> {
    phrases: &'static Phrases,
    tokens: &'a [Token],
}

/// A number found near an anchor.
#[derive(Debug, Clone, Copy)]
struct Near {
    written: Written,
    tie: Tie,
    end: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tie {
    To,
    By,
    Unit,
    None,
}

impl Reader<'_> {
    /// Words that tell something only together: `drilled on down to 240`, `weight stopped at 7 m`.
    fn anchor_of_several(&self, at: usize) -> Option<Way> {
        let before = |words: &[&str], within: usize| self.has(words, at.saturating_sub(within), at);
        match self.word(at) {
            "read" if before(&["should", "shd", "shld"], 3) && before(&["depth", "deep"], 6) => Some(Way::Clean),
            "drilled" | "dug" if at >= 2 && self.word(at - 1) == "-" && self.word(at - 2) == "re" => Some(Way::Deeper),
            "rest" if before(&["after"], 1) => Some(Way::Level),
            // `re-measured May 12: 5.2 m below ground`
            "measured" | "taped" | "dipped" if at >= 2 && self.word(at - 1) == "-" && self.word(at - 2) == "re" => {
                Some(Way::Level)
            }
            // `put the pump down to 220`
            "down" if before(&["pump", "pipe", "line", "liner", "screen", "drop", "casing"], 4) => None,
            "down" if before(GOES_DOWN, 4) && ["to", "another"].contains(&self.word(at + 1)) => Some(Way::Deeper),
            "stops" | "stopped" | "hits" | "hit" if before(SOUNDING, 4) => Some(Way::Sound),
            _ => None,
        }
    }

    fn word(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| token.word.as_str())
    }

    /// First token of the sentence, and the one behind its last.
    fn sentence(&self, at: usize) -> (usize, usize) {
        let ends = |at: &usize| self.tokens[*at].ends;
        let first = (0..at).rev().find(ends).map_or(0, |at| at + 1);
        let last = (at..self.tokens.len()).find(ends).unwrap_or(self.tokens.len());
        (first, last)
    }

    fn has(&self, words: &[&str], from: usize, to: usize) -> bool {
        (from..to).any(|at| words.contains(&self.word(at)))
    }

    fn class_within(&self, class: Class, from: usize, to: usize) -> bool {
        (from..to).any(|at| self.phrases.class_at(&self.tokens[..to], at, class).is_some())
    }

    /// Every length of the remark, each with where it begins and ends; nothing where there is a number of something else.
    fn lengths(&self) -> Option<Vec<(Written, usize, usize)>> {
        let mut found = Vec::new();
        let mut at = 0;
        while at < self.tokens.len() {
            match self.length(at) {
                Some((written, end)) => {
                    found.push((written, at, end));
                    at = end.max(at + 1);
                }
                None if self.tokens[at].number.is_some() => return None,
                None => at += 1,
            }
        }
        Some(found)
    }

    /// A length that begins at a token, and the token behind it; nothing where the number counts something else.
    fn length(&self, at: usize) -> Option<(Written, usize)> {
        let number = self.tokens.get(at)?.number?;
        let glued = |at: usize| at > 0 && self.tokens[at - 1].end == self.tokens[at].start;
        let before = at.checked_sub(1).map_or("", |at| self.word(at));
        if is_numbering(before) || before == "/" && glued(at) || self.word(at + 1) == "/" && glued(at + 1) {
            return None;
        }
        // `555-0147`, `100-120`: a telephone number, a stretch.
        let ranged = |at: usize| at < self.tokens.len() && matches!(self.word(at), "-" | "–");
        if ranged(at + 1) && self.tokens.get(at + 2).is_some_and(|token| token.number.is_some())
            || at >= 2 && ranged(at - 1) && self.tokens[at - 2].number.is_some()
        {
            return None;
        }
        let mut next = at + 1;
        if matches!(self.word(next), "." | "-") && is_length_unit(self.tokens.get(next + 1)) {
            next += 1;
        }
        let Some(unit) = length_unit(self.word(next)) else {
            if OTHER_UNITS.contains(&self.word(next)) || is_year(number) {
                return None;
            }
            return Some((Written { value: number, unit: None }, at + 1));
        };
        // `in` behind a number is an inch only where it does not begin `in 1994`, `in the`.
        if self.word(next) == "in"
            && (self.tokens.get(next + 1).is_some_and(|token| token.number.is_some())
                || self.word(next + 1) == "'" && self.tokens.get(next + 2).is_some_and(|token| token.number.is_some())
                // Nobody tells a depth of so many inches: `131 in June`, `265 in fall of 2009`.
                || number >= 48.0 && self.tokens.get(next + 1).is_some_and(Token::is_word)
                || ["the", "a", "depth", "bottom", "well"].contains(&self.word(next + 1)))
        {
            return Some((Written { value: number, unit: None }, next));
        }
        let mut end = next + 1;
        if self.word(end) == "." {
            end += 1;
        }
        let mut value = unit.to_si(number);
        if unit.symbol == "ft"
            && let Some(inches) = self.tokens.get(end).and_then(|token| token.number).filter(|inches| *inches < 12.0)
            && let Some(inch) = length_unit(self.word(end + 1)).filter(|unit| unit.symbol == "in")
        {
            value += inch.to_si(inches);
            end += 2;
        }
        Some((Written { value, unit: Some(unit) }, end))
    }

    /// The word that ties a number to what happened.
    fn tie(&self, at: usize, written: &Written) -> Tie {
        let mut before = at;
        while before > 0
            && ABOUT.contains(&self.word(before - 1))
            && !(TO.contains(&self.word(before - 1)) && before == at)
        {
            before -= 1;
        }
        let word = before.checked_sub(1).map_or("", |at| self.word(at));
        let near = at.checked_sub(1).map_or("", |at| self.word(at));
        if TO.contains(&word) || TO.contains(&near) {
            Tie::To
        } else if BY.contains(&word) || BY.contains(&near) {
            Tie::By
        } else if written.unit.is_some() {
            Tie::Unit
        } else {
            Tie::None
        }
    }

    /// The numbers behind an anchor, up to the end of the sentence or to a word about something else.
    fn behind(&self, at: usize) -> Vec<Near> {
        let (_, last) = self.sentence(at);
        let mut found = Vec::new();
        let mut next = at + 1;
        while next < last.min(at + 14) {
            if STOPS.contains(&self.word(next)) {
                break;
            }
            match self.length(next) {
                Some((written, end)) => {
                    // `from 120 to 240`
                    // `ahora columna de 4,5 m` is how high the water stands.
                    let height = self.has(&["columna", "coluna", "colonne", "column"], next.saturating_sub(2), next);
                    if height {
                        next = end.max(next + 1);
                        continue;
                    }
                    if !["from", "desde", "originally", "was", "before", "antes", "avant"]
                        .contains(&self.word(next - 1))
                    {
                        let tie = match self.tie(next, &written) {
                            // `29.5 BLS`
                            Tie::None if COUNTED_FROM.contains(&self.word(end)) => Tie::Unit,
                            tie => tie,
                        };
                        found.push(Near { written, tie, end });
                    }
                    next = end.max(next + 1);
                }
                None => next += 1,
            }
        }
        found
    }

    /// The length right before a token: `143 ft deep`, `5 ft of sand`.
    fn before(&self, at: usize) -> Option<(Written, usize)> {
        let (first, _) = self.sentence(at);
        let mut end = at;
        while end > first && ["of", "de", "d'"].contains(&self.word(end - 1)) {
            end -= 1;
        }
        (first.max(end.saturating_sub(5))..end).find_map(|from| {
            let (written, stop) = self.length(from)?;
            (stop == end).then_some((written, from))
        })
    }

    fn statement(&self, at: usize, way: Way) -> Option<Statement> {
        let (first, last) = self.sentence(at);
        let comma = (first..at).rev().find(|at| self.word(*at) == ",").map_or(first, |at| at + 1);
        let near = comma.max(at.saturating_sub(3));
        // `se ahondó` asks for no condition.
        let before = if at > comma && self.word(at - 1) == "se" { at - 1 } else { at };
        if self.class_within(Class::Negation, near, at)
            || self.class_within(Class::Intent, comma.max(at.saturating_sub(6)).min(before), before)
        {
            return None;
        }
        // Of another well; `now deeper` is none.
        if (comma..at).any(|other| {
            self.phrases.is(&self.tokens[other], Class::Other)
                && (other + 1..(other + 4).min(last)).any(|well| self.phrases.is(&self.tokens[well], Class::Well))
        }) {
            return None;
        }
        let hedged = self.class_within(Class::Hedge, first, last) || self.word(last) == "?";
        let (field, change, sure, from, to) = match way {
            Way::Deeper => self.deeper(at)?,
            Way::Back => self.back(at)?,
            Way::Silt => self.silt(at)?,
            Way::Cave => self.cave(at)?,
            Way::Clean => self.to(at, Field::TotalDepth)?,
            Way::Depth => self.depth(at, (first, last))?,
            Way::Sound => self.sound(at)?,
            Way::Level => self.level(at, (first, last))?,
            Way::Liner => self.liner(at, (first, last))?,
        };
        let to = to.max(at + 1).min(self.tokens.len());
        Some(Statement {
            field,
            way,
            change,
            sure: sure && !hedged,
            from: self.tokens[from.min(at)].start,
            to: self.tokens[to - 1].end,
        })
    }

    fn deeper(&self, at: usize) -> Option<Said> {
        let numbers = self.behind(at);
        let field = Field::TotalDepth;
        // `DEEPENING OF 119445` names another record.
        if self.word(at) == "deepening"
            && self.word(at + 1) == "of"
            && numbers.first().is_none_or(|first| first.written.unit.is_none())
        {
            return None;
        }
        // `DEEPENED 04/2022 NEW TD 407 FT`
        let is_depth = |found: &&Near| {
            let length = if found.written.unit.is_some() { 2 } else { 1 };
            // `log says TD 210` is somebody's word.
            !self.has(words::SAYS, at, found.end)
                && ["td", "depth", "total"].contains(&self.word((found.end - length).saturating_sub(1)))
        };
        if let Some(found) = numbers.iter().find(is_depth) {
            return Some((field, Change::To(found.written), true, at, found.end));
        }
        if let Some(found) = numbers.iter().find(|found| found.tie == Tie::To || LEFT.contains(&self.word(found.end))) {
            return Some((field, Change::To(found.written), true, at, found.end));
        }
        if let Some(found) = numbers.iter().find(|found| matches!(found.tie, Tie::By | Tie::Unit)) {
            return Some((field, Change::By(found.written), true, at, found.end));
        }
        if let Some(found) = numbers.first() {
            return Some((field, Change::To(found.written), false, at, found.end));
        }
        // `40 ft deeper`; and `deeper` alone may be said of anything.
        if let Some((written, from)) = self.before(at) {
            return Some((field, Change::By(written), true, from, at + 1));
        }
        (self.word(at) != "deeper" || at > 0 && ["drilled", "dug", "went", "bored"].contains(&self.word(at - 1)))
            .then_some((field, Change::Unknown, true, at, at + 1))
    }

    /// A depth tied by a small word, and nothing else.
    fn to(&self, at: usize, field: Field) -> Option<Said> {
        let found = self.behind(at).into_iter().find(|found| found.tie == Tie::To)?;
        Some((field, Change::To(found.written), true, at, found.end))
    }

    fn back(&self, at: usize) -> Option<Said> {
        let subject = at.checked_sub(1).map(|at| &self.tokens[at]);
        if subject.is_some_and(|subject| self.phrases.is(subject, Class::Part)) {
            return None; // `annulus filled to 20 ft`
        }
        self.to(at, Field::TotalDepth)
    }

    fn silt(&self, at: usize) -> Option<Said> {
        let field = Field::TotalDepth;
        let is_noun = !matches!(
            self.word(at),
            "sanded"
                | "silted"
                | "ensable"
                | "ensablee"
                | "envase"
                | "azolvado"
                | "arenado"
                | "enarenado"
                | "assoreado"
                | "assoreada"
        );
        if is_noun {
            // `5 ft of sand in the bottom`; sand and mud elsewhere are the driller's log.
            let (written, from) = self.before(at)?;
            let (_, last) = self.sentence(at);
            let bottom = ["bottom", "hole", "fond", "fondo", "fundo", "inside", "well", "pozo", "poco", "puits"];
            let there = (at + 1..last.min(at + 6)).any(|at| bottom.contains(&self.word(at)));
            return there.then_some((field, Change::By(written), true, from, last.min(at + 5)));
        }
        let numbers = self.behind(at);
        // `silted, plumbed 31 m`: what was sounded is what is left.
        let sounded = |found: &&Near| {
            let taped = |word: &str| ["taped", "plumbed", "measured", "tapes"].contains(&word);
            (at + 1..found.end)
                .any(|between| anchor(self.word(between)) == Some(Way::Sound) || taped(self.word(between)))
        };
        if let Some(found) = numbers.iter().find(|found| found.tie == Tie::To || sounded(found)) {
            return Some((field, Change::To(found.written), true, at, found.end));
        }
        match numbers.iter().find(|found| found.tie != Tie::None) {
            Some(found) => Some((field, Change::By(found.written), true, at, found.end)),
            None => Some((field, Change::Unknown, true, at, at + 1)),
        }
    }

    fn cave(&self, at: usize) -> Option<Said> {
        if at.checked_sub(1).is_some_and(|at| self.phrases.is(&self.tokens[at], Class::Part)) {
            return None;
        }
        // `caved, put 4 in pvc liner top to bottom`: the liner stands in what is left, and the size is its own.
        let (_, last) = self.sentence(at);
        if self.lined_all_the_way(at, last) {
            return None;
        }
        let short = |found: &Near| found.written.unit.is_some_and(|unit| matches!(unit.symbol, "in" | "mm" | "cm"));
        let numbers: Vec<Near> = self.behind(at).into_iter().filter(|found| !short(found)).collect();
        // `caved, 17 now`
        let left = |found: &&Near| matches!(found.tie, Tie::To | Tie::Unit) || LEFT.contains(&self.word(found.end));
        if let Some(found) = numbers.iter().find(left) {
            return Some((Field::TotalDepth, Change::To(found.written), true, at, found.end));
        }
        CAVED.contains(&self.word(at)).then_some((Field::TotalDepth, Change::Unknown, true, at, at + 1))
    }

    fn depth(&self, at: usize, (first, last): (usize, usize)) -> Option<Said> {
        let of_others = [
            "casing", "pump", "screen", "liner", "intake", "grout", "seal", "frost", "pipe", "cable", "cased", "set",
            "rock", "bedrock", "pompe", "bomba", "tubage", "ademe", "snow", "footing",
        ];
        if self.has(&of_others, at.saturating_sub(2).max(first), at) || self.has(&of_others, at + 1, last.min(at + 4)) {
            return None;
        }
        let water = ["water", "eau", "agua", "l'eau"];
        let to_water =
            self.has(&water, at + 1, last.min(at + 4)) || self.has(&water, at.saturating_sub(1).max(first), at);
        let now = self.has(NOW, first, last);
        if to_water && !now {
            return None;
        }
        let field = if to_water { Field::StaticWaterLevel } else { Field::TotalDepth };
        let of_the_well = self.has(
            &["total", "well", "td", "hole", "totale", "pozo", "poco", "puits", "forage"],
            first.max(at.saturating_sub(4)),
            at + 1,
        );
        if !now && !of_the_well {
            return None;
        }
        if let Some((written, from)) = self.before(at) {
            return Some((field, Change::To(written), now, from, at + 1));
        }
        let found = self.behind(at).into_iter().find(|found| {
            let told = self.word(at) != "bottom" || LEFT.contains(&self.word(found.end));
            matches!(found.tie, Tie::To | Tie::Unit) || now && told || self.word(at) == "td"
        })?;
        Some((field, Change::To(found.written), now, at.saturating_sub(1).max(first), found.end))
    }

    fn sound(&self, at: usize) -> Option<Said> {
        let numbers = self.behind(at);
        let tied = ["at", "bottom", "depth", "to", "@", "a", "fondo"];
        let (_, last) = self.sentence(at);
        let ties = self.has(&tied, at + 1, last.min(at + 5));
        let found = numbers.iter().find(|found| found.written.unit.is_some() || ties && found.tie != Tie::By)?;
        Some((Field::TotalDepth, Change::To(found.written), true, at, found.end))
    }
}

/// Field, change, whether it is sure, first token, and the one behind the last.
type Said = (Field, Change, bool, usize, usize);
