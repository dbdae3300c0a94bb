//! What the words of a cell say of the well itself: that it is no more, that it never was, that this is not a well at all.
//!
//! A word alone says little: `sealed cap`, `abandoned house`, `sealed 20 ft of casing` and `was to be decommissioned` say
//! nothing of the kind. So each word is read with what it is said of, with what takes its force, and with the column it
//! stands in. What stays doubtful is asked.

use super::phrases::{Class, Found, Phrases, Token};
use super::remarks::{is_length_unit, is_year};
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
    /// Remarks.
    Notes,
    /// Something else.
    Other,
}

/// What was understood.
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
    /// It fell in: whether it is still a well is to be asked.
    Fallen,
    /// Another well than this one is said to be no more.
    OtherWell,
}

/// What was understood, and from which part of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// What.
    pub fate: Fate,
    /// First byte of the words.
    pub from: usize,
    /// The byte behind the last.
    pub to: usize,
}

/// Words that end what a word is said of, beside the marks that do.
const TURNS: [&str; 8] = ["but", "mais", "pero", "mas", "while", "whereas", "although", "however"];

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
            && best.is_none_or(|best| weight(fate) > weight(best.fate))
        {
            let (first, last) = said.clause();
            best = Some(Told { fate, from: tokens[first].start, to: tokens[last - 1].end });
        }
        at = found.end.max(at + 1);
    }
    best
}

const fn weight(fate: Fate) -> u8 {
    match fate {
        Fate::No(_) => 5,
        Fate::Doubt | Fate::Fallen => 4,
        Fate::Thing(_) => 3,
        Fate::Water => 2,
        Fate::Idle | Fate::OtherWell => 1,
    }
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
            | Class::Source
            | Class::Water
            | Class::Hole
            | Class::Watched
            | Class::WatchedCode
            | Class::Idle
    )
}

/// A telling phrase with its surroundings.
struct Said<'a> {
    phrases: &'a Phrases,
    tokens: &'a [Token],
    found: Found,
    role: Role,
}

impl Said<'_> {
    fn is(&self, at: usize, class: Class) -> bool {
        self.phrases.is(&self.tokens[at], class)
    }

    fn breaks(&self, at: usize) -> bool {
        let token = &self.tokens[at];
        let apart = || {
            let gap = |one: Option<&Token>, other: Option<&Token>| {
                one.zip(other).is_none_or(|(one, other)| one.end < other.start)
            };
            let before = at.checked_sub(1).and_then(|at| self.tokens.get(at));
            gap(before, Some(token)) && gap(Some(token), self.tokens.get(at + 1))
        };
        token.ends
            || token.word == "-" && apart()
            || matches!(token.word.as_str(), "," | ":" | "–" | "—")
            || TURNS.contains(&token.word.as_str())
    }

    /// First token of the clause, and the one behind its last.
    fn clause(&self) -> (usize, usize) {
        let first = (0..self.found.at).rev().find(|at| self.breaks(*at)).map_or(0, |at| at + 1);
        let last = (self.found.end..self.tokens.len()).find(|at| self.breaks(*at)).unwrap_or(self.tokens.len());
        (first, last)
    }

    fn has_before(&self, class: Class, within: usize) -> bool {
        let (first, _) = self.clause();
        let from = first.max(self.found.at.saturating_sub(within));
        (from..self.found.at).any(|at| self.phrases.class_at(&self.tokens[..self.found.at], at, class).is_some())
    }

    /// Whether somebody only thinks so.
    fn hedged(&self) -> bool {
        let (_, last) = self.clause();
        self.has_before(Class::Hedge, usize::MAX)
            || self.tokens.get(last).is_some_and(|token| token.word == "?")
            || (self.found.end..last).any(|at| self.is(at, Class::Hedge))
    }

    /// What the word is said of: the nearest thing before it, or the one right behind it.
    fn subject(&self) -> Subject {
        let (first, last) = self.clause();
        let mut behind = self.found.end;
        while behind < last
            && (self.tokens[behind].word == "-" || matches!(self.tokens[behind].word.as_str(), "the" | "a" | "an"))
        {
            behind += 1;
        }
        if behind < last {
            if self.is(behind, Class::Other) && (behind + 1..last.min(behind + 4)).any(|at| self.is(at, Class::Well)) {
                return Subject::OtherWell;
            }
            // `replaced pressure switch`: what was replaced may have a word of its own before it.
            let named =
                self.found.class == Class::ReplacedState && behind + 1 < last && self.is(behind + 1, Class::Part);
            if self.is(behind, Class::Part) || named {
                return Subject::Part;
            }
            if self.is(behind, Class::Well) {
                let part = behind + 1 < last && self.is(behind + 1, Class::Part);
                return if part { Subject::Part } else { Subject::Well };
            }
        }
        for at in (first..self.found.at).rev() {
            if self.is(at, Class::Part) {
                return Subject::Part;
            }
            if self.is(at, Class::Well) {
                let other = (first..at).rev().take(3).any(|before| self.is(before, Class::Other));
                return if other { Subject::OtherWell } else { Subject::Well };
            }
        }
        let bare = (first..self.found.at).all(|at| self.is(at, Class::Filler) || !self.tokens[at].is_word());
        // `cap cracked - replaced 6/19`: what was cracked was replaced.
        if bare && self.found.class == Class::ReplacedState && self.part_before(first) {
            return Subject::Part;
        }
        // `4" liner full length, sealed`: the liner was.
        if bare && self.found.class == Class::GoneState && self.liner_before(first) {
            return Subject::Part;
        }
        if bare { Subject::None } else { Subject::Unclear }
    }

    /// Whether the text says that the water comes from a public supply now.
    fn other_supply(&self) -> bool {
        const WHOSE: [&str; 9] =
            ["rural", "city", "town", "public", "district", "county", "municipal", "village", "township"];
        let supply = |pair: &[Token]| {
            WHOSE.contains(&pair[0].word.as_str()) && ["water", "supply", "main"].contains(&pair[1].word.as_str())
        };
        self.tokens.windows(2).any(supply) && !self.tokens.iter().any(|token| token.word == "new")
    }

    /// Whether the clause before this one speaks of a pipe that was set into the well.
    fn liner_before(&self, first: usize) -> bool {
        const LINERS: [&str; 6] = ["liner", "lined", "relined", "sleeve", "sleeved", "forro"];
        let Some(end) = first.checked_sub(1) else { return false };
        let begins = (0..end).rev().find(|at| self.breaks(*at)).map_or(0, |at| at + 1);
        self.tokens[begins..end].iter().any(|token| LINERS.contains(&token.word.as_str()))
    }

    /// Whether the clause before this one speaks of a part and of no well.
    fn part_before(&self, first: usize) -> bool {
        let Some(end) = first.checked_sub(1) else { return false };
        let begins = (0..end).rev().find(|at| self.breaks(*at)).map_or(0, |at| at + 1);
        let named = |at: &usize| self.is(*at, Class::Part) || self.is(*at, Class::Well);
        (begins..end).rev().find(named).is_some_and(|at| self.is(at, Class::Part))
    }

    /// Whether it is said of something with a number: `#3 never drilled` in the row of another.
    fn of_a_number(&self) -> bool {
        let word = |at: usize| self.tokens.get(at).map_or("", |token| token.word.as_str());
        self.found.at >= 2 && word(self.found.at - 2) == "#" && self.tokens[self.found.at - 1].number.is_some()
    }

    /// Whether a length follows: `sealed 20 ft of casing`, `filled to 60`; then the word is about a part of the hole.
    fn with_length(&self) -> bool {
        let (_, last) = self.clause();
        let last = last.min(self.found.end + 7);
        (self.found.end..last).any(|at| {
            let token = &self.tokens[at];
            let Some(number) = token.number else { return false };
            let bags =
                ["bags", "sacks", "bag", "sack"].contains(&self.tokens.get(at + 1).map_or("", |token| &token.word));
            if bags || is_length_unit(self.tokens.get(at + 1)) {
                return true;
            }
            let before = self.tokens[at - 1].word.as_str();
            !is_year(number)
                && matches!(
                    before,
                    "to" | "back" | "from" | "at" | "hasta" | "ate" | "a" | "jusqu'a" | "para" | "top" | "-" | "of"
                )
        })
    }

    /// Whether the cell says this and nothing else: the rest are years, numbers, and words that change nothing.
    fn whole(&self) -> bool {
        self.alone_in(0, self.tokens.len())
    }

    /// The same of the tokens from `first` to before `last`.
    fn alone_in(&self, first: usize, last: usize) -> bool {
        (first..last).all(|at| {
            (self.found.at..self.found.end).contains(&at) || !self.tokens[at].is_word() || self.is(at, Class::Filler)
        })
    }

    /// Whether the clause says that the row itself is it: `MONITORING WELL.`, `monitor well for the landfill`, `this is a
    /// monitoring well of the fuel station`; `monitoring well next door` is another.
    fn is_the_row(&self) -> bool {
        let (first, last) = self.clause();
        let word = |at: usize| self.tokens.get(at).map_or("", |token| token.word.as_str());
        let belongs = ["for", "of", "only", "de", "du", "des", "del", "da", "do"].contains(&word(self.found.end));
        let said = |at: usize| {
            ["this", "it", "well", "row", "point", "hole"].contains(&word(at)) && ["is", "was"].contains(&word(at + 1))
        };
        self.alone_in(first, last)
            || self.found.at == first && belongs
            || (first..self.found.at).any(said) && !self.has_before(Class::Negation, usize::MAX)
    }

    /// Whether it happened to a part of the well alone: `filled in some`, `partly filled`.
    fn in_part(&self) -> bool {
        const PARTLY: [&str; 12] = [
            "some",
            "somewhat",
            "partly",
            "partially",
            "bit",
            "little",
            "part",
            "partway",
            "half",
            "halfway",
            "peu",
            "partiellement",
        ];
        let (first, last) = self.clause();
        let near = first.max(self.found.at.saturating_sub(2))..last.min(self.found.end + 2);
        near.into_iter().any(|at| PARTLY.contains(&self.tokens[at].word.as_str()))
    }

    /// Whether the clause before it is about another well, and this one says nothing but what became of that: `replaces old
    /// dug well, filled`.
    fn goes_on_with_another(&self) -> bool {
        const OTHERS: [&str; 4] = ["replaces", "remplace", "reemplaza", "substitui"];
        let (first, last) = self.clause();
        let comma = first.checked_sub(1).filter(|at| self.tokens[*at].word == ",");
        let before = comma.map_or(0..0, |comma| {
            let begins = (0..comma).rev().find(|at| self.breaks(*at)).map_or(0, |at| at + 1);
            begins..comma
        });
        let replaces = before.clone().any(|at| OTHERS.contains(&self.tokens[at].word.as_str()));
        replaces && before.into_iter().any(|at| self.is(at, Class::Well)) && self.alone_in(first, last)
    }

    fn year_behind(&self) -> bool {
        let (_, last) = self.clause();
        (self.found.end..last.min(self.found.end + 5)).any(|at| {
            self.tokens[at].number.is_some_and(is_year) || matches!(self.tokens[at].word.as_str(), "by" | "par" | "por")
        })
    }

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
            Class::WatchedCode => return None,
            Class::Fallen => return self.fallen(),
            Class::Watched | Class::Idle => {
                return (self.subject() != Subject::Part && self.role != Role::Other).then_some(Fate::Idle);
            }
            _ => {}
        }
        // `after I filled this out`: a form.
        let form = self.tokens[self.found.end..].iter().take(3).any(|token| token.word == "out");
        if class == Class::GoneState && form || self.goes_on_with_another() {
            return None;
        }
        // `filled in some, weight hit bottom at 68`: what is left is a well.
        if matches!(class, Class::Gone | Class::GoneState) && self.in_part() {
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

    /// `replaced by well 14`, `by new drilled well`, `by W-12`.
    fn by_a_well(&self) -> bool {
        let (_, last) = self.clause();
        (self.found.end..last.min(self.found.end + 6)).any(|at| {
            self.is(at, Class::Well)
                || self.tokens[at].number.is_some_and(|number| !is_year(number))
                || self.tokens[at].word == "new"
        }) || self.phrases.is(&self.tokens[self.found.end - 1], Class::Well)
            || self.tokens[self.found.end - 1].word == "drilled"
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

    /// Whether nothing but numbers and empty words follow.
    fn ends_text(&self) -> bool {
        (self.found.end..self.tokens.len())
            .all(|at| !self.tokens[at].is_word() || self.tokens[at].word.len() == 1 || self.is(at, Class::Filler))
    }

    /// Whether the text begins with it, and what follows changes nothing.
    fn starts_text(&self) -> bool {
        self.found.at == 0
            && (self.found.end..self.tokens.len()).all(|at| {
                !self.tokens[at].is_word()
                    || self.tokens[at].word.len() == 1
                    || self.is(at, Class::Filler)
                    || self.is(at, Class::Band)
            })
    }
}

/// What a word is said of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Subject {
    Well,
    OtherWell,
    Part,
    /// Nothing is named: the row itself.
    None,
    /// Something that is not known.
    Unclear,
}
