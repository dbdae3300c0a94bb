//! A depth that a remark gives anew: deepened, filled from the bottom, sanded in, fallen in, sounded.

use super::lengths::{Near, Reader, Tie};
use super::statement::{Change, Said};
use super::words::{self, CAVED, LEFT, NOW, Way, anchor};
use crate::field::Field;
use crate::inventory::phrases::Class;
use crate::quantity::unit::Unit;

impl Reader<'_> {
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
