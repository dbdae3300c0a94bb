//! What a remark says of depth, level and diameter: `deepened 1994 to 240 ft`, `sanded in 5 ft`, `4 in liner set`.
//!
//! Each statement begins with an anchor, a word that tells what happened; its number is looked for near it, and must be
//! tied to it by a small word (`to`, `at`, `now`) or by a unit of length. Years, dates, telephone numbers, rates, the setting
//! of a pump and the stretch of a screen are other numbers. Words of French, Spanish and Portuguese stand beside the English
//! ones; they are from memory, the English ones common practice of the trade, no source.

mod at_rest;
mod basin;
mod below;
mod depth;
mod inner;
mod left_open;
mod lengths;
mod level;
mod liner;
mod newer;
mod right;
mod statement;
mod told;
mod units;
pub mod words;

use super::phrases::{Class, Token, tokens};
use crate::field::Field;
pub use at_rest::{full_for_now, level_not_measured, not_at_rest};
pub use basin::{BOXES, basin};
pub use below::narrower;
pub use left_open::{
    doubts_measures, has_gallery, is_of_width, leaves_open, names_several_wells, several_wells, tells_unit,
    wide_and_narrow,
};
use lengths::Reader;
pub use lengths::Written;
pub use liner::{lined_to_the_bottom, liner_ends};
pub use newer::with_the_change_alone;
pub use right::{corrected, right_number, set_against};
pub use statement::{Change, Statement};
pub use told::{height_now, one_length, rim_height, told_height, told_level};
pub use units::{is_length_unit, is_numbering, is_other_unit, is_year, length_unit};
use words::{GOES_DOWN, MEASUREMENT, MEASURES, NOW, RINGS, RUNNING, SOUNDING, Way, anchor};
pub use words::{SAYS, VERIFY};

/// What else is lowered.
const LOWERED: [&str; 10] = ["pump", "water", "level", "swl", "static", "intake", "screen", "pipe", "cable", "foot"];

/// Reads a remark, statement by statement; what it does not understand it leaves out.
pub fn statements(text: &str) -> Vec<Statement> {
    of_tokens(&tokens(text))
}

/// Reads a remark that is cut into tokens.
pub fn of_tokens(tokens: &[Token]) -> Vec<Statement> {
    let reader = Reader::of(tokens);
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

/// Words by which something was measured once more. Other languages than English are read as later remarks.
const TAPED: [&str; 9] =
    ["taped", "retaped", "re-taped", "sounded", "resounded", "re-sounded", "remeasured", "re-measured", "plumbed"];

/// Words by which a cell is wrong, or a bore is another one now.
const CHANGED: [&str; 14] = [
    "wrong",
    "incorrect",
    "mistake",
    "equivocado",
    "erroneo",
    "faux",
    "errado",
    "reamed",
    "recased",
    "re-cased",
    "relined",
    "re-lined",
    "sleeved",
    "reentubado",
];

/// Whether a remark may change the measures of the well, whatever it says: a length beside a word of depth, water or casing,
/// two lengths, or a pump that runs.
pub fn may_measure(tokens: &[Token]) -> bool {
    if told::is_address(tokens) {
        return false;
    }
    let reader = Reader::of(tokens);
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
    let taped = number && says(&TAPED);
    // `ahora tiene 16,20 m`; `1,30 hasta los 3,50 m, de allí para abajo 0,90`.
    let part = |written: &&Written| written.unit.is_none() && written.value.fract() != 0.0;
    // `tile is 30, I measured`, `checked 4/30: 9.5`
    let taped = taped || number && reader.dated() && says(&["checked", "measured", "read"]);
    let taped = taped || number && says(&["measured", "medi", "mesure"]) && says(&RINGS);
    let sizes = with_unit > 1 || with_unit == 1 && (says(NOW) || lengths.iter().any(|one| part(&one)));
    // `width is 4, card wrong`; `reamed and cased 6 in 2018`, where the unit may be a word.
    let changed = number && says(&CHANGED);
    named && (!lengths.is_empty() || unit) || sizes || running || not_round || taped || changed
}

impl Reader<'_> {
    /// Words that tell something only together: `drilled on down to 240`, `weight stopped at 7 m`.
    fn anchor_of_several(&self, at: usize) -> Option<Way> {
        let before = |words: &[&str], within: usize| self.has(words, at.saturating_sub(within), at);
        match self.word(at) {
            "read" if before(&["should", "shd", "shld"], 3) && before(&["depth", "deep"], 6) => Some(Way::Clean),
            "drilled" | "dug" if at >= 2 && self.word(at - 1) == "-" && self.word(at - 2) == "re" => Some(Way::Deeper),
            "rest" if before(&["after"], 1) => Some(Way::Level),
            // `at 310 feet since 2018`
            "since" | "depuis" | "desde"
                if self.tokens.get(at + 1).and_then(|token| token.number).is_some_and(is_year) =>
            {
                Some(Way::Depth)
            }
            // `lowered to 415 in 2015`: no pump and no water.
            "lowered" if self.word(at + 1) == "to" && !self.has(&LOWERED, 0, self.tokens.len()) => Some(Way::Deeper),
            // `driller went to 225 in '08`
            "went" | "gone" | "drilled" if self.word(at + 1) == "to" && self.length(at + 2).is_some() => {
                const DRILLS: [&str; 6] = ["driller", "drillers", "rig", "bit", "hole", "well"];
                (before(&DRILLS, 3) && !self.has(&LOWERED, 0, at)).then_some(Way::Deeper)
            }
            _ if self.new_well(at) => Some(Way::Depth),
            _ if self.begins_inner(at) && self.inner(at, self.sentence(at)).is_some() => Some(Way::Liner),
            // `nova medição a 12/02: 22 m`
            word if MEASUREMENT.contains(&word)
                && before(&["nova", "nueva", "nouvelle", "nouveau", "outra", "otra"], 1) =>
            {
                Some(Way::Level)
            }
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
            Way::Depth if matches!(self.word(at), "since" | "depuis" | "desde") => self.depth_since(at, first)?,
            Way::Depth if self.new_well(at) => self.new_depth(at)?,
            // `liner 0-TD`: how far down something else reaches.
            Way::Depth if at >= 2 && self.word(at - 1) == "-" && self.tokens[at - 2].number.is_some() => return None,
            Way::Depth => self.depth(at, (first, last))?,
            Way::Sound => self.sound(at)?,
            Way::Level => self.level(at, (first, last))?,
            Way::Liner if self.begins_inner(at) => self.inner(at, (first, last))?,
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
}
