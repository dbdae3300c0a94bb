//! A depth to the water or a height of water: told by how the values go with the depths of the wells.
//!
//! Wells of one country are drilled to very different depths, and the water stands in them at much the same: so a level
//! varies little from well to well, and a height of water varies as the depth does.

use super::{Feed, Planner};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::heading::Datum;
use crate::inventory::levels::{ABOVE, FLOWING};
use crate::inventory::lexicon::{self, Concept, Language};
use crate::inventory::notes;
use crate::quantity::parse::plain;

/// Fewer pairs prove nothing.
const FEWEST: usize = 12;
/// One spread must be this much smaller than the other.
const PLAINLY: f64 = 0.5;

/// Words of notes, beside those that are known everywhere.
const RUNS: &str = "runs";
const ARRIBA: &str = "arriba";

/// The short words that notes explain as flowing: `F = flowing`.
pub(super) fn flowing(notes: &[String]) -> Vec<String> {
    codes(notes, |says| FLOWING.iter().chain(&[RUNS]).any(|word| says.starts_with(word)))
}

/// The short words that notes explain as a level not at rest: `P = pumping, R = recently pumped`.
pub(super) fn pumped(notes: &[String]) -> Vec<String> {
    /// Words before the one that tells.
    const BEFORE: [&str; 9] = ["recently", "just", "nearby", "was", "being", "well", "pump", "level", "while"];
    const TELLS: [&str; 6] = ["pumping", "pumped", "running", "recovering", "bombeando", "pompage"];
    codes(notes, |says| {
        let words = lexicon::tokens(says.split([',', ';', '.', '=']).next().unwrap_or_default());
        words.iter().find(|word| !BEFORE.contains(&word.as_str())).is_some_and(|word| TELLS.contains(&word.as_str()))
    })
}

/// The short words before a sign of equality whose meaning tells.
fn codes(notes: &[String], tells: impl Fn(&str) -> bool) -> Vec<String> {
    let mut found = Vec::new();
    for note in notes {
        for (sign, _) in note.match_indices('=') {
            let code = note[..sign].trim_end().rsplit([' ', ',', ';', '(', '.']).next().unwrap_or_default();
            let says = lexicon::fold(note[sign + 1..].trim_start());
            let short = (1..=4).contains(&code.chars().count()) && code.chars().all(char::is_alphabetic);
            if short && tells(&says) {
                found.push(lexicon::fold(code));
            }
        }
    }
    found
}

/// Words in a cell that a note explains as what its level is counted from: `donde dice d/b se midió desde el borde`.
pub(super) fn marks(notes: &[String], language: Language) -> Vec<(String, Datum)> {
    const SAYS: [&str; 6] =
        ["donde dice ", "where it says ", "if it says ", "marked ", "onde diz ", "où il est écrit "];
    let mut found = Vec::new();
    for sentence in notes.iter().flat_map(|note| note.split(['.', ';'])) {
        found.extend(mark_beside(sentence, language));
        found.extend(short_mark(sentence, language));
        // `"bg" = already below grade`: quoted, it is a word of the cells and no heading.
        if let Some((quoted, means)) = sentence.split_once('=')
            && let Some(mark) = quoted.trim().strip_prefix('"').and_then(|quoted| quoted.strip_suffix('"'))
            && (1..=6).contains(&mark.chars().count())
        {
            let words = lexicon::tokens(means);
            let datum = notes::datum(&words, &lexicon::meaning(&words, language));
            found.extend(datum.map(|datum| (mark.to_lowercase(), datum)));
        }
    }
    for sentence in notes.iter().flat_map(|note| note.split(". ")) {
        let lower = sentence.to_lowercase();
        for says in SAYS {
            let Some(at) = lower.find(says) else { continue };
            let rest = &lower[at + says.len()..];
            let mark = rest.split([' ', ',', ':']).next().unwrap_or_default().trim_matches(['"', '\'', '(', ')', '.']);
            let words = lexicon::tokens(&rest[mark.len()..]);
            let datum = notes::datum(&words, &lexicon::meaning(&words, language));
            let short = (1..=6).contains(&mark.chars().count());
            found.extend(datum.filter(|_| short).map(|datum| (mark.to_owned(), datum)));
        }
    }
    found
}

/// `except TP = from top of pipe`: capitals before a sign, explained as what a level is counted from.
fn short_mark(sentence: &str, language: Language) -> Option<(String, Datum)> {
    let (left, means) = sentence.split_once('=')?;
    let mark = left.trim().rsplit([' ', ',', '(']).next()?;
    let capitals = (2..=4).contains(&mark.len()) && mark.chars().all(|letter| letter.is_ascii_uppercase());
    let words = lexicon::tokens(means.split([',', ';']).next().unwrap_or_default());
    let from =
        words.first().is_some_and(|word| ["from", "below", "taped", "off", "desde", "depuis"].contains(&word.as_str()));
    let datum = notes::datum(&words, &lexicon::meaning(&words, language))?;
    (capitals && from).then(|| (mark.to_lowercase(), datum))
}

/// `TC by the static = taped off top of casing`: a mark, what it stands beside, and what it means.
fn mark_beside(sentence: &str, language: Language) -> Option<(String, Datum)> {
    const FIGURES: [&str; 5] = ["number", "figure", "reading", "measurement", "value"];
    let (left, means) = sentence.split_once(['=', ':'])?;
    let (mark, place) = left.trim().split_once(' ')?;
    let mark = mark.trim_matches(['"', '\'', '(', ')']);
    let place = lexicon::tokens(place);
    let meaning = lexicon::meaning(&place, language);
    let of_level = [Concept::Static, Concept::Level, Concept::StaticWaterLevel, Concept::Water, Concept::Depth];
    let beside = place.first().is_some_and(|word| notes::BESIDE.contains(&word.as_str()))
        && (of_level.iter().any(|concept| meaning.has(*concept))
            || place.iter().any(|word| FIGURES.contains(&word.as_str())));
    let means = lexicon::tokens(means.split(',').next().unwrap_or_default());
    let datum = notes::datum(&means, &lexicon::meaning(&means, language))?;
    (beside && (1..=6).contains(&mark.chars().count())).then(|| (mark.to_lowercase(), datum))
}

/// Whether notes say that a plus sign before a level means above: `+ is above it`, `A + before a level = above ground`.
pub(super) fn plus_is_above<'a>(mut texts: impl Iterator<Item = &'a str>) -> bool {
    texts.any(|text| {
        let parts = text.split_inclusive(['.', ';', ',', '\n']);
        parts.into_iter().any(|part| {
            let plus = part.to_ascii_lowercase().find("plus =").filter(|at| part.is_char_boundary(*at));
            let Some(sign) = part.find('+').or(plus) else { return false };
            let behind = lexicon::tokens(&part[sign..]);
            // `+3 above` is one well's water, not what the sign means.
            let number = part[sign + 1..].trim_start().starts_with(|c: char| c.is_ascii_digit());
            !number && behind.iter().take(7).any(|word| is_above(word))
        })
    })
}

fn is_above(word: &str) -> bool {
    word == ARRIBA || ABOVE.contains(&word)
}

const BELOW: [&str; 10] = ["below", "under", "down", "beneath", "bns", "bgl", "debajo", "bajo", "abaixo", "sous"];

/// What a minus sign before a level means, where notes say: `minus = below the ground`, `negative levels are above grade`.
fn said_of_minus<'a>(mut texts: impl Iterator<Item = &'a str>) -> Option<bool> {
    const MINUS: [&str; 6] = ["minus", "negative", "negativo", "negativa", "menos", "moins"];
    texts.find_map(|text| {
        text.split_inclusive(['.', ';', ',', '\n']).find_map(|part| {
            // `(- below NS)`, `- = below`; the dash of `SWL - below ground` ends no bracket and has no sign behind it.
            let sign = ["(-", "(\u{2212}", "- =", "-=", "\u{2212} ="].iter().find_map(|sign| part.find(sign));
            let said = part.to_lowercase();
            let word = MINUS.iter().find_map(|word| said.find(word));
            let words =
                lexicon::tokens(&part[sign.into_iter().chain(word.filter(|at| part.is_char_boundary(*at))).min()?..]);
            words.iter().take(7).find_map(|word| match word.as_str() {
                word if BELOW.contains(&word) => Some(true),
                word if is_above(word) => Some(false),
                _ => None,
            })
        })
    })
}

/// Words for a cell that holds nothing.
const BLANK: [&str; 9] = ["blank", "empty", "missing", "vacio", "vacia", "blanco", "vide", "vazio", "branco"];

/// The number that a text gives for cells that are left blank: `12 where the card is blank`.
fn number_if_blank(text: &str) -> Option<f64> {
    text.split(['.', ';', '\n', '(', ')', ',']).find_map(|part| {
        let words = lexicon::tokens(part);
        let blank = words.iter().any(|word| BLANK.contains(&word.as_str()));
        let mut numbers = words.iter().filter_map(|word| plain(word));
        let number = numbers.next().filter(|_| blank && words.len() <= 8)?;
        numbers.next().is_none().then_some(number).filter(|number| *number > 0.0)
    })
}

/// Whether a text says that a height that is left blank means that levels are counted from the ground: `Blank = WL is from
/// land surface`, `vacío = desde el suelo`.
fn blank_is_ground(text: &str, language: Language) -> bool {
    const GROUND: [&str; 6] = ["flush", "zero", "cero", "0", "ras", "rez"];
    text.split(['.', ';', '\n', '(', ')']).any(|part| {
        let words = lexicon::tokens(part);
        let Some(at) = words.iter().position(|word| BLANK.contains(&word.as_str())) else { return false };
        let rest = &words[at + 1..];
        let told = notes::datum(rest, &lexicon::meaning(rest, language));
        told == Some(Datum::Ground) || told.is_none() && rest.iter().any(|word| GROUND.contains(&word.as_str()))
    })
}

impl Planner<'_> {
    /// How levels are written in this list: what flows, what was pumped, what a sign or a mark means.
    pub(super) fn ways_of_levels(&mut self, feed: &mut Feed, column: usize) {
        let layout = &self.table.layout;
        feed.level.flowing = flowing(&layout.notes);
        feed.level.pumped = pumped(&layout.notes);
        let explained = layout.explained.get(column).into_iter();
        let said = layout.notes.iter().chain(explained).chain(std::iter::once(&self.table.headings[column]));
        let said: Vec<&str> = said.chain(layout.units.get(column)).map(String::as_str).collect();
        feed.level.plus_is_above = plus_is_above(said.iter().copied());
        feed.level.minus_is_below = self.minus_is_below(column, said.into_iter());
        feed.level.plus_is_above |= feed.level.minus_is_below;
        feed.level.marks = marks(&layout.notes, layout.language);
        feed.level.datum_by_place = self.datum_by_place();
        if feed.level.datum_by_place.is_some() {
            feed.datum = None;
        }
    }

    /// Whether levels below the ground have a minus sign in this column: most of its numbers have one, for a whole country does
    /// not flow, and no note says otherwise.
    pub(super) fn minus_is_below<'a>(&mut self, column: usize, said: impl Iterator<Item = &'a str>) -> bool {
        /// Fewer minus signs may be slips.
        const FEWEST: usize = 5;
        let profile = &self.profiles[column];
        let (negative, all) = (profile.negative(), profile.numbers.len());
        let said = said_of_minus(said);
        if !profile.is_mostly_negative() || said == Some(false) || said.is_none() && negative < FEWEST {
            return false;
        }
        let says = if said.is_some() {
            format!("{negative} of {all} levels have a minus sign, which stands for below, as a note says")
        } else {
            format!("{negative} of {all} levels have a minus sign: it is read as below, not as above")
        };
        let help = "no action needed if correct; if these wells flow, write the levels without signs and \"flows\" beside them";
        self.say(catalogue::MINUS_IS_BELOW, Some(column), says, help);
        true
    }

    /// Whether the list says what a blank height of the rim means for its levels.
    pub(super) fn blank_heights(&self, feeds: &mut [Option<Feed>]) {
        let layout = &self.table.layout;
        let Some(height) = feeds[Field::StickUp as usize].as_ref().map(|feed| feed.column) else { return };
        let heading = &self.table.headings[height];
        let names_height = |note: &&String| {
            let meaning = lexicon::meaning(&lexicon::tokens(note), layout.language);
            meaning.has(Concept::StickUp) || meaning.has(Concept::Rim) || note.contains(heading)
        };
        let own = layout.explained.get(height).into_iter().chain(layout.units.get(height));
        let said: Vec<&String> = own.chain(layout.notes.iter().filter(names_height)).collect();
        let is_ground = said.iter().chain([&heading]).any(|text| blank_is_ground(text, layout.language));
        let number = said.iter().find_map(|text| number_if_blank(text));
        if let (Some(number), Some(feed)) = (number, &mut feeds[Field::StickUp as usize]) {
            feed.if_blank = feed.unit.map(|unit| unit.to_si(number));
        }
        if let Some(level) = &mut feeds[Field::StaticWaterLevel as usize] {
            level.level.blank_height_is_ground = is_ground;
        }
    }

    /// What a column of water measures beside a column of depths; nothing where it cannot be told.
    ///
    /// Of several columns of depths the one that most rows fill counts.
    pub(super) fn level_or_height(&self, water: usize, depths: &[usize]) -> Option<Field> {
        let pairs = depths.iter().map(|depth| self.pairs(water, *depth)).max_by_key(Vec::len)?;
        let sound: Vec<(f64, f64)> = pairs.iter().copied().filter(|(water, depth)| water < depth).collect();
        if sound.len() < FEWEST || sound.len() * 10 < pairs.len() * 9 {
            return None;
        }
        let as_read = spread(sound.iter().map(|(water, _)| *water).collect());
        let rest = spread(sound.iter().map(|(water, depth)| depth - water).collect());
        if as_read < PLAINLY * rest {
            Some(Field::StaticWaterLevel)
        } else if rest < PLAINLY * as_read {
            Some(Field::WaterColumn)
        } else {
            None
        }
    }

    /// Whether the one column is hardly ever as much as the other, in so many rows at least.
    pub(super) fn lies_within(&self, inner: usize, outer: usize, fewest: usize) -> bool {
        let pairs = self.pairs(inner, outer);
        let within = pairs.iter().filter(|(inner, outer)| inner < outer).count();
        pairs.len() >= fewest && within * 20 >= pairs.len() * 19
    }

    /// Whether two columns say nearly the same wherever both say anything: what one leaves blank the other may give.
    pub(super) fn agree(&self, one: usize, other: usize) -> bool {
        const NEARLY: f64 = 0.1;
        let pairs = self.pairs(one, other);
        let alike = pairs.iter().filter(|(one, other)| (one - other).abs() <= NEARLY * one.abs()).count();
        pairs.len() >= FEWEST && alike * 10 >= pairs.len() * 9
    }

    /// The bare numbers of two columns, row by row.
    pub(super) fn pairs(&self, one: usize, other: usize) -> Vec<(f64, f64)> {
        let sample = &self.table.sample;
        let number = |row: usize, column: usize| plain(sample.cell(row, column).trim());
        (self.table.first_row..sample.len()).filter_map(|row| Some((number(row, one)?, number(row, other)?))).collect()
    }
}

/// From the first to the ninth tenth.
fn spread(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = |share: usize| values[(values.len() * share / 10).min(values.len() - 1)];
    at(9) - at(1)
}
