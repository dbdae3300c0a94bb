//! Wells of two widths in three columns: how wide above, down to where, and how wide below. `Upper dia | Upper to | Lower dia`,
//! `Diámetro mayor | hasta | menor`, `Dia | Down to` below a band and `Dia` below the next.
//!
//! Words say which of the two widths is which, and the cells bear them out: the lower width stands only where the change does, and is
//! the smaller one. Where either is missing nothing is read here, and two widths are asked. Words from memory.

use super::banded_strings::ENDS;
use super::evidence::{Asked, LIKELY, OPEN, Reading, SURE};
use super::other_widths::in_order;
use super::plain_heading::without_brackets;
use super::{Feed, Planner};
use crate::field::Field;
use crate::finding::catalogue;
use crate::inventory::lexicon::{self, Concept, Meaning};
use crate::inventory::notes;
use crate::quantity::parse::plain_or_comma;
use crate::quantity::unit;

/// Words for the upper part of a well, which is the wider one.
#[rustfmt::skip]
const UPPER: [&str; 31] = [
    "upper", "uppr", "upr", "top", "first", "1st", "large", "larger", "big", "bigger", "wide", "wider", "superior", "arriba",
    "alto", "alta", "mayor", "primer", "primero", "superieur", "superieure", "haut", "haute", "dessus", "grand", "premier", "cima",
    "maior", "primeiro", "sup", "gros",
];
/// Words for the lower part.
#[rustfmt::skip]
const LOWER: [&str; 33] = [
    "lower", "lwr", "low", "bottom", "btm", "second", "2nd", "small", "smaller", "narrow", "narrower", "reduced", "inferior", "abajo",
    "bajo", "baja", "menor", "segundo", "inferieur", "inferieure", "bas", "basse", "dessous", "petit", "deuxieme", "baixo", "baixa",
    "below", "inf", "debajo", "under", "abaixo", "beneath",
];
/// Words for a width that became smaller.
const REDUCED: [&str; 6] = ["reduced", "reduces", "reducido", "reducida", "reduit", "reduzido"];
/// Words for the place where the width changes.
#[rustfmt::skip]
const CHANGE: [&str; 24] = [
    "change", "changes", "step", "reduction", "reduces", "reducer", "narrows", "telescopes", "cambio", "cambia", "reduccion", "reduce",
    "changement", "mudanca", "muda", "reducao", "reduz", "retrecissement", "estrecha", "transicion", "joint", "junta", "union", "raccord",
];
/// Words for how far the upper part reaches, beside those of [`ENDS`].
const REACHES: [&str; 10] = ["fim", "pied", "pie", "pe", "jusqu", "jusque", "a", "until", "through", "fin"];
/// Words of ends that say which part is meant where they stand with a width: `Bottom dia`.
const PARTS: [&str; 9] = ["bottom", "bot", "btm", "base", "fond", "fondo", "fundo", "top", "depth"];
/// Pipes of their own, which may hang from the ground, and what is around a pipe.
#[rustfmt::skip]
const OTHER: [&str; 18] = [
    "liner", "liners", "lnr", "screen", "screens", "scr", "crepine", "filtro", "rejilla", "inner", "outer", "conductor", "production",
    "surface", "protective", "od", "pump", "drop",
];

/// Fewer wells of two widths prove nothing.
const FEWEST: usize = 3;

/// The two widths of a well, and the depth at which the one gives way to the other.
#[derive(Debug, Clone, Copy)]
struct Telescoped {
    upper: usize,
    change: usize,
    lower: usize,
}

/// Which part a heading speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Upper,
    Lower,
}

/// Whether words say down to what a width reaches: `Dia. to collar end`; with a unit alone behind it they say how deep that is.
fn reaches_something(words: &[String]) -> bool {
    const TO: [&str; 5] = ["to", "hasta", "ate", "jusqu", "until"];
    let behind = words.iter().position(|word| TO.contains(&word.as_str())).map_or(&[][..], |at| &words[at + 1..]);
    behind.iter().filter(|word| word.len() > 2).any(|word| unit::look_up(word, None).is_none())
}

impl Planner<'_> {
    /// Reads two widths and the depth between them as the casing, its end, and the hole below it.
    pub(super) fn telescoped<'a>(&mut self, readings: &mut Vec<Reading>, asked: impl Fn(usize) -> Asked<'a>) {
        let Some(found) = self.two_widths_and_change() else { return };
        let fields = [
            (found.upper, Field::CasingDiameter),
            (found.change, Field::CasingDepth),
            (found.lower, Field::OpenHoleDiameter),
        ];
        let by_hand = |one: &Reading| {
            one.by_hand && fields.iter().any(|(column, field)| one.column == *column || one.named.field == *field)
        };
        // A third width or another end of the casing, by its name, is asked as ever.
        let elsewhere = |one: &Reading| {
            one.exact
                && one.score >= LIKELY
                && fields.iter().any(|(_, field)| one.named.field == *field)
                && fields.iter().all(|(column, _)| one.column != *column)
        };
        // Without a bottom of its own, that of the lower string is the well's: `strings_below_bands` sees to it.
        let band = |column: usize| self.table.layout.groups.get(column).map_or("", String::as_str);
        let has_depth = readings.iter().any(|one| {
            one.named.field == Field::TotalDepth
                && (band(one.column).is_empty() || band(one.column) != band(found.lower))
                && (one.by_hand || one.score >= OPEN)
                && fields.iter().all(|(column, _)| one.column != *column)
        });
        if !has_depth || readings.iter().any(|one| by_hand(one) || elsewhere(one)) {
            return;
        }
        readings.retain(|one| fields.iter().all(|(column, _)| one.column != *column));
        for (column, field) in fields {
            let named = asked(column).named(field, &Meaning::default());
            readings.push(Reading { column, named, score: (LIKELY + SURE) / 2.0, exact: false, by_hand: false });
        }
        self.first_width = Some(found.upper);
    }

    fn two_widths_and_change(&self) -> Option<Telescoped> {
        let numbers = |column: &usize| {
            let profile = &self.profiles[*column];
            profile.measures() >= FEWEST && profile.share(profile.measures()) >= 0.8
        };
        let columns: Vec<usize> = (0..self.columns.len()).filter(numbers).collect();
        let widths: Vec<usize> = columns.iter().copied().filter(|column| self.goes_across(*column)).collect();
        // A third width is another pipe, or the hole that was drilled for them.
        let few = |column: &usize| self.profiles[*column].measures() > 0 && self.goes_across(*column);
        if widths.len() != 2 || (0..self.columns.len()).filter(few).count() != 2 {
            return None;
        }
        let changes: Vec<usize> = columns
            .iter()
            .copied()
            .filter(|column| !widths.contains(column) && self.says_where_it_changes(*column))
            .collect();
        let mut found = Vec::new();
        for upper in &widths {
            for lower in widths.iter().filter(|lower| self.are_told_apart(*upper, **lower)) {
                for change in &changes {
                    let one = Telescoped { upper: *upper, change: *change, lower: *lower };
                    if self.is_change_of(one) && self.cells_bear_out(one) {
                        found.push(one);
                    }
                }
            }
        }
        if let [only] = found.as_slice() { Some(*only) } else { None }
    }

    /// Whether a note says that the hole below a casing is as wide as the casing, which is said once.
    pub(super) fn hole_as_casing(&mut self, feeds: &[Option<Feed>]) -> bool {
        let layout = &self.table.layout;
        let said = layout.notes.iter().find(|note| notes::hole_is_as_casing(note, layout.language)).cloned();
        let ends = feeds[Field::CasingDepth as usize].as_ref().is_some_and(|feed| !feed.barred);
        let Some(note) = said.filter(|_| ends) else { return false };
        let says = "the hole below a casing is taken as wide as the casing, as the note beside the table says";
        let finding = self.finding(catalogue::SIZE_FROM_NOTE, None, says, "no action needed if correct");
        self.findings.push(finding.seen(&note));
        true
    }

    /// Whether the column of the casing's end gives the length of the lower pipe instead: `Lower pipe length, ft`; it is said.
    pub(super) fn lower_length(&mut self, feeds: &[Option<Feed>]) -> bool {
        let fed = |field: Field| feeds[field as usize].as_ref().filter(|feed| !feed.barred);
        let (Some(feed), Some(_)) = (fed(Field::CasingDepth), fed(Field::TotalDepth)) else { return false };
        let words = self.banded_words(feed.column);
        let is_lower = words.iter().any(|word| LOWER.contains(&word.as_str()));
        if !is_lower || !self.meaning(feed.column).has(Concept::Length) {
            return false;
        }
        let says = "read as the length of the lower pipe: the upper one ends so far above the bottom";
        let help = "no action needed if correct; else leave the column out: [inventory.columns] \"heading\" = \"\"";
        self.say(catalogue::COLUMN_BY_EVIDENCE, Some(feed.column), says, help);
        true
    }

    /// The words of a heading and of the band above it.
    fn banded_words(&self, column: usize) -> Vec<String> {
        let band = self.table.layout.groups.get(column).map_or("", String::as_str);
        self.without_ground(&format!("{band} {}", without_brackets(&self.table.headings[column])))
    }

    /// The words of a text without what only says from where something is counted: `m below ground`.
    fn without_ground(&self, text: &str) -> Vec<String> {
        const FROM: [&str; 9] = ["below", "under", "beneath", "abaixo", "debajo", "bajo", "sous", "sur", "sobre"];
        let words = lexicon::tokens(text);
        let ground = |word: &String| {
            lexicon::meaning(std::slice::from_ref(word), self.table.layout.language).has(Concept::Ground)
        };
        let is_from = |at: usize| FROM.contains(&words[at].as_str()) && words[at + 1..].iter().take(3).any(ground);
        (0..words.len()).filter(|at| !is_from(*at)).map(|at| words[at].clone()).collect()
    }

    fn banded_meaning(&self, column: usize) -> Meaning {
        lexicon::meaning(&self.banded_words(column), self.table.layout.language)
    }

    /// Whether a column holds widths in which water stands.
    fn goes_across(&self, column: usize) -> bool {
        const ACROSS: [Concept; 7] = [
            Concept::Well,
            Concept::Diameter,
            Concept::Size,
            Concept::Bore,
            Concept::Hole,
            Concept::Casing,
            Concept::IdentityOrInside,
        ];
        const NO_WIDTH: [Concept; 13] = [
            Concept::Outside,
            Concept::Wall,
            Concept::Thickness,
            Concept::StickUp,
            Concept::Water,
            Concept::Level,
            Concept::Kind,
            Concept::Material,
            Concept::Grout,
            Concept::Number,
            Concept::Pump,
            Concept::Screen,
            Concept::Tank,
        ];
        let words = self.banded_words(column);
        let own = self.meaning(column);
        let all = self.banded_meaning(column);
        let unit = self.table.length_unit(column, Field::CasingDiameter).map(|unit| unit.symbol);
        let narrow = unit.is_some_and(|unit| matches!(unit, "in" | "mm" | "cm"));
        // `A dia.` is labeled, and reaches nothing.
        let own_words = in_order(&self.table.headings[column]).0;
        // `ND mm`: the nominal diameter.
        let nominal = narrow && own_words.iter().any(|word| matches!(word.as_str(), "nd" | "dn"));
        let ends = own_words.iter().any(|word| self.is_end(word));
        let by_name = own.has(Concept::Diameter) || own.has(Concept::Size);
        let across = by_name || nominal || narrow && ACROSS.iter().any(|concept| all.has(*concept));
        let wide = unit.is_some_and(|unit| matches!(unit, "ft" | "m"));
        let only_parts = own_words.iter().filter(|word| self.is_end(word)).all(|word| PARTS.contains(&word.as_str()));
        // `Diamètre haut` is the upper one, and no height.
        let high = own.has(Concept::Height) && !by_name && !self.has_lower_twin(&own_words);
        let reduced = narrow && own_words.iter().any(|word| REDUCED.contains(&word.as_str()));
        (across || reduced)
            && !high
            && !self.is_end_of_numbered(column)
            && (narrow || !ends || by_name && (only_parts || reaches_something(&own_words)))
            && (!wide || by_name && !ends)
            && !NO_WIDTH.iter().any(|concept| own.has(*concept))
            && !words.iter().any(|word| OTHER.contains(&word.as_str()) && !all.has(Concept::Hole))
    }

    /// Whether another heading is the same of the lower part: `Tube haut` beside `Tube bas`.
    fn has_lower_twin(&self, words: &[String]) -> bool {
        const TWINS: [(&str, &str); 5] =
            [("haut", "bas"), ("haute", "basse"), ("alto", "bajo"), ("alto", "baixo"), ("alta", "baixa")];
        TWINS.iter().any(|(upper, lower)| {
            let twin: Vec<&str> = words.iter().map(|word| if word == upper { lower } else { word.as_str() }).collect();
            twin.contains(lower) && self.table.headings.iter().any(|heading| lexicon::tokens(heading) == twin)
        })
    }

    /// Whether a heading is a numbered one with the word for an end behind it: `DIAM1_BOT` beside `DIAM1`.
    fn is_end_of_numbered(&self, column: usize) -> bool {
        let (mut words, number) = in_order(&self.table.headings[column]);
        let all = words.len();
        words.retain(|word| !self.is_end(word));
        number.is_some()
            && words.len() < all
            && self.table.headings.iter().any(|heading| in_order(heading) == (words.clone(), number))
    }

    fn is_end(&self, word: &str) -> bool {
        ENDS.contains(&word) || REACHES.contains(&word) || CHANGE.contains(&word)
    }

    /// Whether a heading says how far something reaches, or where it changes, and is not measured across.
    fn says_where_it_changes(&self, column: usize) -> bool {
        let words = lexicon::tokens(&self.table.headings[column]);
        let unit = self.table.length_unit(column, Field::CasingDepth).map(|unit| unit.symbol);
        let water =
            [Concept::Water, Concept::Level, Concept::Static, Concept::Pump, Concept::StickUp, Concept::Discharge];
        let meaning = self.meaning(column);
        words.iter().any(|word| self.is_end(word))
            && !unit.is_some_and(|unit| matches!(unit, "in" | "mm"))
            && !water.iter().any(|concept| meaning.has(*concept))
    }

    /// Which part of the well words speak of: `to change` comes before `change to`.
    fn part(&self, column: usize) -> Option<Part> {
        let words = self.banded_words(column);
        let says = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
        let to = |word: Option<&String>| word.is_some_and(|word| ENDS.contains(&word.as_str()));
        if let Some(at) = words.iter().position(|word| CHANGE.contains(&word.as_str())) {
            let (before, behind) = (to(at.checked_sub(1).and_then(|at| words.get(at))), to(words.get(at + 1)));
            if before != behind {
                return Some(if before { Part::Upper } else { Part::Lower });
            }
        }
        match (says(&UPPER), says(&LOWER)) {
            (false, false) if reaches_something(&words) => Some(Part::Upper),
            (true, false) => Some(Part::Upper),
            (false, true) => Some(Part::Lower),
            _ => None,
        }
    }

    /// Whether words or numbers say of two widths which is the upper one.
    fn are_told_apart(&self, upper: usize, lower: usize) -> bool {
        let numbered = |column: usize| {
            let band = self.table.layout.groups.get(column).map_or("", String::as_str);
            in_order(&format!("{band} {}", self.table.headings[column]))
        };
        let ((one, first), (other, second)) = (numbered(upper), numbered(lower));
        let by_number = one == other && first.unwrap_or(1) == 1 && second == Some(2);
        let by_words = self.part(upper) == Some(Part::Upper) && self.part(lower) == Some(Part::Lower);
        // A hole that is narrower than the casing in every row was not drilled for it: it goes on below.
        let is_casing = |column: usize| self.banded_meaning(column).has(Concept::Casing);
        let hole = [Concept::Bore, Concept::Hole, Concept::Well];
        let is_hole = |column: usize| hole.iter().any(|concept| self.banded_meaning(column).has(*concept));
        let by_kind = is_casing(upper) && is_hole(lower) && !is_casing(lower);
        // `Casing in. | Casing ends ft | Reduced to in.`
        let is_reduced =
            lexicon::tokens(&self.table.headings[lower]).iter().any(|word| REDUCED.contains(&word.as_str()));
        let by_reduction = is_reduced && is_casing(upper) && self.part(upper) != Some(Part::Lower);
        upper != lower && (by_words || by_number || by_kind || by_reduction)
    }

    /// Whether a depth is where the upper of two widths ends: by what it is called, or because it stands below the same band or
    /// between the two.
    fn is_change_of(&self, one: Telescoped) -> bool {
        let band = |column: usize| self.table.layout.groups.get(column).map_or("", String::as_str);
        let words = self.without_ground(&without_brackets(&self.table.headings[one.change]));
        let changes = words.iter().any(|word| CHANGE.contains(&word.as_str()));
        let beside = one.upper < one.change && one.change < one.lower && band(one.change) == band(one.upper);
        let same_band = !band(one.change).is_empty() && band(one.change) == band(one.upper);
        let first = in_order(&self.table.headings[one.change]).1;
        let of_casing =
            self.meaning(one.change).has(Concept::Casing) && self.banded_meaning(one.upper).has(Concept::Casing);
        let of_upper = of_casing || self.part(one.change) == Some(Part::Upper) || first == Some(1);
        let of_lower = first.is_some_and(|number| number > 1)
            || words.iter().any(|word| LOWER.contains(&word.as_str()) && !PARTS.contains(&word.as_str()));
        (changes || same_band || beside || of_upper) && !of_lower
    }

    /// Whether the lower width stands only where the change does, is the smaller one, and not in every row of a list that leaves
    /// either blank.
    fn cells_bear_out(&self, one: Telescoped) -> bool {
        let sample = &self.table.sample;
        let number = |row: usize, column: usize| plain_or_comma(sample.cell(row, column).trim());
        let (mut both, mut sound) = (0, 0);
        for row in self.table.first_row..sample.len() {
            let Some(lower) = number(row, one.lower) else { continue };
            both += 1;
            let smaller = number(row, one.upper).is_some_and(|upper| lower < upper);
            sound += usize::from(smaller && number(row, one.change).is_some_and(|change| change > 0.0));
        }
        let lower = &self.profiles[one.lower];
        both >= FEWEST && both == sound && both == lower.measures()
    }
}
