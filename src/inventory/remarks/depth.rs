//! A depth that a remark gives anew: deepened, filled from the bottom, sanded in, fallen in, sounded.

use super::lengths::{Near, Reader, Tie};
use super::statement::{Change, Said};
use super::words::{self, CAVED, LEFT, NOW, Way, anchor};
use crate::field::Field;
use crate::inventory::phrases::Class;
use crate::quantity::unit::Unit;

/// Words right before a number that is the depth: `deepened with caisson, bottom 12.0`.
const DEPTHS: [&str; 15] = [
    "td",
    "depth",
    "total",
    "bottom",
    "now",
    "fond",
    "fondo",
    "fundo",
    "profondeur",
    "profundidad",
    "profundidade",
    "hondo",
    "ahora",
    "agora",
    "maintenant",
];

/// Words before a depth that holds since a year.
const UP_TO: [&str; 14] =
    ["at", "to", "down", "deep", "is", "now", "drilled", "deepened", "a", "hasta", "de", "em", "en", "ate"];

impl Reader<'_> {
    /// `we have it at 310 feet since 2018`: a depth, where nothing before it names something else.
    pub(super) fn depth_since(&self, at: usize, first: usize) -> Option<Said> {
        const OTHER: [&str; 26] = [
            "water", "level", "swl", "static", "pump", "casing", "cased", "screen", "liner", "agua", "eau", "nivel",
            "niveau", "bomba", "pompe", "from", "away", "road", "house", "creek", "river", "fence", "yield", "tank",
            "dropped", "fell",
        ];
        let (written, from) = self.before(at)?;
        let long = written.unit.is_some_and(Unit::is_of_depths);
        let tied = from > first && UP_TO.contains(&self.word(from - 1));
        (long && tied && !self.has(&OTHER, first, from)).then_some((
            Field::TotalDepth,
            Change::To(written),
            true,
            from,
            at + 2,
        ))
    }

    /// The depth of a well that was drilled in place of the one of the row; it counts where the remark has its level too.
    pub(super) fn new_depth(&self, at: usize) -> Option<Said> {
        const LEVEL: [&str; 9] = ["water", "swl", "static", "level", "agua", "eau", "nivel", "niveau", "dtw"];
        let found = self
            .behind(at)
            .into_iter()
            .find(|found| found.tie == Tie::To || found.written.unit.is_some_and(Unit::is_of_depths))?;
        let level = (0..self.tokens.len())
            .any(|at| LEVEL.contains(&self.word(at)) && (at + 1..at + 3).any(|number| self.length(number).is_some()));
        Some((Field::TotalDepth, Change::To(found.written), level, at, found.end))
    }

    pub(super) fn deeper(&self, at: usize) -> Option<Said> {
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
            !self.has(words::SAYS, at, found.end) && DEPTHS.contains(&self.word((found.end - length).saturating_sub(1)))
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
        // `drilled deeper 2017. 190 now`: the next sentence tells how deep.
        let (_, last) = self.sentence(at);
        if let Some((written, end)) = self.length(last + 1).filter(|(_, end)| LEFT.contains(&self.word(*end))) {
            return Some((field, Change::To(written), true, at, end + 1));
        }
        // `40 ft deeper`; and `deeper` alone may be said of anything.
        if let Some((written, from)) = self.before(at) {
            return Some((field, Change::By(written), true, from, at + 1));
        }
        (self.word(at) != "deeper" || at > 0 && ["drilled", "dug", "went", "bored"].contains(&self.word(at - 1)))
            .then_some((field, Change::Unknown, true, at, at + 1))
    }

    /// A depth tied by a small word, and nothing else.
    pub(super) fn to(&self, at: usize, field: Field) -> Option<Said> {
        let found = self.behind(at).into_iter().find(|found| found.tie == Tie::To)?;
        Some((field, Change::To(found.written), true, at, found.end))
    }

    pub(super) fn back(&self, at: usize) -> Option<Said> {
        let subject = at.checked_sub(1).map(|at| &self.tokens[at]);
        if subject.is_some_and(|subject| self.phrases.is(subject, Class::Part)) {
            return None; // `annulus filled to 20 ft`
        }
        self.to(at, Field::TotalDepth)
    }

    pub(super) fn silt(&self, at: usize) -> Option<Said> {
        let field = Field::TotalDepth;
        const NOUNS: [&str; 14] = [
            "silt", "sand", "sediment", "mud", "fill", "debris", "sable", "vase", "azolvo", "azolve", "lodo", "arena",
            "areia", "lama",
        ];
        if NOUNS.contains(&self.word(at)) {
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
        // `assoreado, hoje só 6,2 m`, `silted, only 14 ft now`: what is left today.
        let today = |found: &&Near| {
            const LEFT_NOW: [&str; 11] =
                ["hoje", "agora", "hoy", "ahora", "aujourd'hui", "today", "so", "solo", "only", "apenas", "seulement"];
            // `3,60 de hondo` is a depth, `40 cm de arena` what fills it.
            let of_depth = ["hondo", "profundidad", "fondo", "profondeur", "fond", "fundo", "profundidade"]
                .contains(&self.word(found.end + 1));
            self.has(&LEFT_NOW, at + 1, found.end) && (of_depth || !["of", "de"].contains(&self.word(found.end)))
        };
        if let Some(found) = numbers.iter().find(|found| found.tie == Tie::To || sounded(found) || today(found)) {
            return Some((field, Change::To(found.written), true, at, found.end));
        }
        match numbers.iter().find(|found| found.tie != Tie::None) {
            Some(found) => Some((field, Change::By(found.written), true, at, found.end)),
            None => Some((field, Change::Unknown, true, at, at + 1)),
        }
    }

    pub(super) fn cave(&self, at: usize) -> Option<Said> {
        if at.checked_sub(1).is_some_and(|at| self.phrases.is(&self.tokens[at], Class::Part)) {
            return None;
        }
        // `caved, put 4 in pvc liner top to bottom`: the liner stands in what is left, and the size is its own.
        let (_, last) = self.sentence(at);
        if self.lined_all_the_way(at, last) {
            return None;
        }
        let short = |found: &Near| found.written.unit.is_some_and(Unit::is_of_widths);
        let numbers: Vec<Near> = self.behind(at).into_iter().filter(|found| !short(found)).collect();
        // `caved, 17 now`
        let left = |found: &&Near| matches!(found.tie, Tie::To | Tie::Unit) || LEFT.contains(&self.word(found.end));
        if let Some(found) = numbers.iter().find(left) {
            return Some((Field::TotalDepth, Change::To(found.written), true, at, found.end));
        }
        CAVED.contains(&self.word(at)).then_some((Field::TotalDepth, Change::Unknown, true, at, at + 1))
    }

    pub(super) fn depth(&self, at: usize, (first, last): (usize, usize)) -> Option<Said> {
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
        // `contractor: bottom is 250`: said outright, by whom and when is not; asked where the cell says otherwise.
        let is = ["is", "=", "est", "es", "e"].contains(&self.word(at + 1));
        let told = self.has(words::SAYS, 0, self.tokens.len());
        if is
            && !told
            && !now
            && !to_water
            && let Some((written, end)) = self.length(at + 2)
        {
            return Some((field, Change::To(written), false, at, end));
        }
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

    pub(super) fn sound(&self, at: usize) -> Option<Said> {
        let numbers = self.behind(at);
        let tied = ["at", "bottom", "depth", "to", "@", "a", "fondo"];
        let (_, last) = self.sentence(at);
        let ties = self.has(&tied, at + 1, last.min(at + 5));
        let found = numbers.iter().find(|found| found.written.unit.is_some() || ties && found.tie != Tie::By)?;
        Some((Field::TotalDepth, Change::To(found.written), true, at, found.end))
    }
}
