//! What the words of a cell say of the well itself: that it is no more, that it never was, that this is not a well at all.
//!
//! A word alone says little: `sealed cap`, `abandoned house`, `sealed 20 ft of casing` and `was to be decommissioned` say
//! nothing of the kind. So each word is read with what it is said of, with what takes its force, and with the column it
//! stands in. What stays doubtful is asked.

mod said;

use said::{Said, Subject};

use super::phrases::{Class, Phrases, Token};
use super::row_kind::RowKind;

/// What a column of words is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The state of the well.
    State,
    /// The kind of source.
    Kind,
    /// What the well is used for.
    Use,
    /// The name of the well, or its place.
    Name,
    /// Free remarks, which may be about the house or the road as well.
    Notes,
    /// Something else: less is taken from its words.
    Other,
}

/// What the words say of the well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// No well to be treated.
    No(RowKind),
    /// A thing that is not a well, if the row is about it: a tank, a tap, a test hole.
    Thing(RowKind),
    /// Open water, which is also the name of places.
    Water,
    /// It may be no more: to be asked.
    Doubt,
    /// Not in use, or in use for something else.
    Idle,
    /// It waters animals alone, and the house has its water from elsewhere.
    NotOfHouse,
    /// It fell in: whether it is still a well is to be asked.
    Fallen,
    /// Another well than this one is said to be no more.
    OtherWell,
}

impl Fate {
    /// Which of several things that a row says counts: the gravest.
    pub const fn weight(self) -> u8 {
        match self {
            Self::No(_) => 5,
            Self::Doubt | Self::Fallen | Self::NotOfHouse => 4,
            Self::Thing(_) => 3,
            Self::Water => 2,
            Self::Idle | Self::OtherWell => 1,
        }
    }
}

/// What was understood, and from which part of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// What it means for the well.
    pub fate: Fate,
    /// First byte of the words.
    pub from: usize,
    /// The byte behind the last.
    pub to: usize,
}

/// Words that make a part of a whole.
const PARTLY: [&str; 8] =
    ["partly", "partially", "half", "partial", "partiellement", "parcialmente", "almost", "nearly"];

/// Words that follow the name of a water in the name of a street or place.
const PLACES: [&str; 16] = [
    "road", "rd", "street", "st", "lane", "ln", "avenue", "ave", "drive", "dr", "hill", "hwy", "highway", "court",
    "trail", "farm",
];

/// What a cell says of the well; the gravest where it says several things.
pub fn fate(tokens: &[Token], role: Role) -> Option<Told> {
    let phrases = Phrases::all();
    let mut best: Option<Told> = None;
    let mut at = 0;
    while at < tokens.len() {
        let found = phrases.find_at(tokens, at).find(|found| is_telling(found.class));
        let Some(found) = found else {
            at += 1;
            continue;
        };
        let said = Said { phrases, tokens, found, role };
        if let Some(fate) = said.fate()
            && best.is_none_or(|best| fate.weight() > best.fate.weight())
        {
            let (first, last) = said.clause();
            best = Some(Told { fate, from: tokens[first].start, to: tokens[last - 1].end });
        }
        at = found.end.max(at + 1);
    }
    best
}

const fn is_telling(class: Class) -> bool {
    matches!(
        class,
        Class::Gone
            | Class::GoneState
            | Class::Fallen
            | Class::Never
            | Class::NeverState
            | Class::Replaced
            | Class::ReplacedState
            | Class::Duplicate
            | Class::DuplicateState
            | Class::NoWell
            | Class::NoWellState
            | Class::Source
            | Class::Water
            | Class::Hole
            | Class::Watched
            | Class::WatchedCode
            | Class::Idle
    )
}

impl Said<'_> {
    fn fate(&self) -> Option<Fate> {
        let class = self.found.class;
        if self.role == Role::Use {
            // A well whose use is to be watched gives no drinking water; what else it is used for changes nothing.
            let hole = match class {
                Class::Hole => self.whole() || self.starts_text(),
                Class::Watched => true,
                Class::WatchedCode => self.whole(),
                _ => false,
            };
            return hole.then_some(Fate::No(RowKind::OtherHole));
        }
        match class {
            Class::Source | Class::Water | Class::Hole => return self.thing(),
            // `MONITORING WELL.` as a remark of its own is what the row is.
            Class::Watched if self.role == Role::Notes && self.is_the_row() => {
                return Some(Fate::Thing(RowKind::OtherHole));
            }
            // `OBS` as the state of the well, or what a list of codes says of it.
            Class::Watched | Class::WatchedCode if self.role == Role::State && self.whole() && self.is_observed() => {
                return Some(Fate::Thing(RowKind::OtherHole));
            }
            Class::WatchedCode => return None,
            Class::Fallen => return self.fallen(),
            Class::Idle if self.role == Role::Notes && self.waters_animals() && self.house_has_other_water() => {
                return Some(Fate::NotOfHouse);
            }
            Class::Watched | Class::Idle => {
                return (self.subject() != Subject::Part && self.role != Role::Other).then_some(Fate::Idle);
            }
            _ => {}
        }
        // `TEST 2` as an id, `training, delete` as a remark; a remark that says `test` may ask for one.
        if class == Class::NoWellState {
            const TO_GO: [&str; 5] = ["delete", "dummy", "supprimer", "borrar", "apagar"];
            let whole = match self.role {
                Role::Notes => TO_GO.contains(&self.tokens[self.found.at].word.as_str()) && self.is_a_clause(),
                Role::Name => self.whole(),
                Role::State | Role::Kind | Role::Use | Role::Other => false,
            };
            return whole.then_some(Fate::No(RowKind::OtherSource));
        }
        // `2nd call, same well as 26-0013, use this line`: the other line is the second one.
        if matches!(class, Class::Duplicate | Class::DuplicateState) && super::pointed::counts(self.tokens) {
            return None;
        }
        // `nivel repetido el 26/03: 3,40`: what was repeated is a measure, and no row.
        const MEASURES: [&str; 10] =
            ["nivel", "medida", "medicion", "medicao", "lectura", "leitura", "sondeo", "toma", "analisis", "analise"];
        let repeats = || ["repetido", "repetida"].contains(&self.tokens[self.found.at].word.as_str());
        let of_measure = || self.found.at > 0 && MEASURES.contains(&self.tokens[self.found.at - 1].word.as_str());
        if class == Class::Duplicate && repeats() && of_measure() {
            return None;
        }
        // `point replaced, same depth`: the well stands where it stood.
        const POINTS: [&str; 6] = ["point", "points", "pt", "sandpoint", "wellpoint", "punta"];
        let is_point = |at: usize| self.tokens.get(at).is_some_and(|token| POINTS.contains(&token.word.as_str()));
        let of_point = is_point(self.found.end) || self.found.at > 0 && is_point(self.found.at - 1);
        if matches!(class, Class::Replaced | Class::ReplacedState) && of_point {
            return None;
        }
        // `after I filled this out`: a form.
        let form = self.tokens[self.found.end..].iter().take(3).any(|token| token.word == "out");
        if class == Class::GoneState && form || self.goes_on_with_another() {
            return None;
        }
        // `filled in some, weight hit bottom at 68`: what is left is a well.
        if matches!(class, Class::Gone | Class::GoneState) && (self.in_part() || self.leaves_some()) {
            return None;
        }
        let says_no = matches!(class, Class::Never | Class::NoWell);
        if !says_no && self.has_before(Class::Negation, 3) || self.has_before(Class::Intent, 6) {
            return None;
        }
        let kind = match class {
            Class::Never | Class::NeverState => RowKind::NeverMade,
            Class::Replaced | Class::ReplacedState => RowKind::Replaced,
            Class::Duplicate | Class::DuplicateState => RowKind::Duplicate,
            Class::NoWell => RowKind::OtherSource,
            _ => RowKind::Gone,
        };
        if class == Class::Never && self.of_a_number() {
            return Some(Fate::OtherWell);
        }
        let subject = self.subject();
        // `dup of line 11`: a line of the list, not of the water.
        let row = ["line", "row", "entry", "no", "master", "log", "card", "ticket", "job", "record", "#"]
            .contains(&self.tokens.get(self.found.end).map_or("", |token| &token.word));
        if subject == Subject::Part && !(row && kind == RowKind::Duplicate) {
            return None;
        }
        if subject == Subject::OtherWell {
            // `old well filled 2016, rural water hookup`: no other well is left to be meant.
            if kind == RowKind::Gone && self.other_supply() {
                return Some(Fate::Doubt);
            }
            // `replaced old well in 1998` is about the new one.
            return (kind != RowKind::Replaced && kind != RowKind::Duplicate).then_some(Fate::OtherWell);
        }
        if kind == RowKind::Gone && self.with_length() {
            return None;
        }
        if self.hedged() || (self.clause().0..self.found.at).any(|at| PARTLY.contains(&self.tokens[at].word.as_str())) {
            return Some(Fate::Doubt);
        }
        if class == Class::Replaced {
            return Some(if self.by_a_well() || self.role == Role::State { Fate::No(kind) } else { Fate::Doubt });
        }
        let is_state = self.role == Role::State || self.role == Role::Kind;
        let of_the_well = subject == Subject::Well;
        match class {
            Class::NeverState => is_state.then_some(Fate::No(kind)),
            Class::DuplicateState if is_state || self.whole() => Some(Fate::No(kind)),
            Class::ReplacedState if is_state || of_the_well => Some(Fate::No(kind)),
            Class::GoneState if is_state || of_the_well => Some(Fate::No(kind)),
            Class::GoneState if subject == Subject::None && self.year_behind() && self.role == Role::Notes => {
                Some(Fate::No(kind))
            }
            Class::GoneState | Class::ReplacedState | Class::DuplicateState => {
                (self.role == Role::Notes).then_some(Fate::Doubt)
            }
            _ => Some(Fate::No(kind)),
        }
    }

    /// Whether the words name a well that is there to be watched, and not what is being done at one: `observation`, not `monitor`.
    fn is_observed(&self) -> bool {
        ["obs", "piez"].iter().any(|start| self.tokens[self.found.at].word.starts_with(start))
    }

    /// `collapsed`, `well is collapsed`; of a part, or with the depth at which it fell in, the words are read elsewhere.
    fn fallen(&self) -> Option<Fate> {
        let of_the_well = match self.role {
            Role::State | Role::Kind => self.subject() != Subject::Part,
            // Of a hole that caved in a remark tells how much is left; that is asked elsewhere.
            Role::Notes if self.tokens[self.found.at].word == "caved" => false,
            Role::Notes => self.whole() || self.subject() == Subject::Well,
            Role::Use | Role::Name | Role::Other => false,
        };
        let denied = self.has_before(Class::Negation, 3) || self.has_before(Class::Intent, 6);
        (of_the_well && !denied && !self.with_length() && !self.in_part()).then_some(Fate::Fallen)
    }

    fn thing(&self) -> Option<Fate> {
        let class = self.found.class;
        let kind = if class == Class::Hole { RowKind::OtherHole } else { RowKind::OtherSource };
        if self.has_before(Class::Negation, 3) || self.has_before(Class::Intent, 6) {
            return None;
        }
        let fate = if class == Class::Water { Fate::Water } else { Fate::Thing(kind) };
        let outside = |at: &usize| !(self.found.at..self.found.end).contains(at);
        let names_a_well = (0..self.tokens.len()).filter(outside).any(|at| self.is(at, Class::Well));
        match self.role {
            Role::Kind => (!names_a_well && (self.whole() || self.ends_text() || self.starts_text())).then_some(fate),
            Role::Name => {
                let near = ["near", "by", "behind", "beside", "above", "below", "at", "next", "off"];
                let beside = (0..self.found.at).any(|at| near.contains(&self.tokens[at].word.as_str()));
                let place = self.tokens.get(self.found.end).is_some_and(|token| PLACES.contains(&token.word.as_str()));
                let told = self.ends_text() || class != Class::Water && self.starts_text();
                (!names_a_well && !beside && !place && told).then_some(fate)
            }
            Role::State | Role::Notes => {
                let (first, last) = self.clause();
                let tells = match class {
                    Class::Hole => self.alone_in(first, last),
                    _ => self.whole() && class != Class::Water,
                };
                (tells && !names_a_well).then_some(fate)
            }
            Role::Use | Role::Other => None,
        }
    }
}
