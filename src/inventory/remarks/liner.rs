//! A narrower pipe that was set into a well: `4 in liner set`, `sleeved with 100 right down`, `forrado con anillos de 0,80`.

use super::lengths::{Reader, Tie, Written};
use super::statement::{Change, Said};
use super::units::{is_length_unit, length_unit};
use crate::field::Field;
use crate::inventory::phrases::Token;
use crate::quantity::unit::Unit;

/// Whether a remark tells of a liner that reaches to the bottom: `4 in PVC liner top to bottom`.
pub fn lined_to_the_bottom(tokens: &[Token]) -> bool {
    Reader::of(tokens).lined_all_the_way(0, tokens.len())
}

/// How far down a liner reaches from the top, where a remark says: `4 in liner, 0-260`, `liner to 60 ft`.
pub fn liner_ends(tokens: &[Token]) -> Option<Written> {
    let reader = Reader::of(tokens);
    let number = |at: usize| tokens.get(at).and_then(|token| token.number);
    (0..tokens.len()).find_map(|at| {
        let from_top = number(at) == Some(0.0) && matches!(reader.word(at + 1), "-" | "–" | "to");
        let end = number(at + 2).filter(|_| from_top)?;
        // `0-200 in 2020` is no length in inches.
        let unit = length_unit(reader.word(at + 3)).filter(|unit| unit.is_of_depths());
        Some(Written { value: unit.map_or(end, |unit| unit.to_si(end)), unit })
    })
}

impl Reader<'_> {
    /// Whether a lining reaches to the bottom: `right down`, `hasta el fondo`.
    pub(super) fn all_the_way(&self, from: usize, to: usize) -> bool {
        let ends = |at: &usize| ["bottom", "btm", "td", "fondo", "fond", "fundo"].contains(&self.word(*at));
        let reaches = ["to", "hasta", "al", "au", "ao", "ate", "jusqu'au"];
        let down = |at: usize| {
            ["right", "all", "full", "entire", "whole"].contains(&self.word(at))
                && ["down", "depth", "length", "way", "the"].contains(&self.word(at + 1))
                || ["toute", "todo", "toda", "sur"].contains(&self.word(at))
                    && [
                        "hauteur",
                        "profondeur",
                        "longueur",
                        "largo",
                        "profundidad",
                        "profundidade",
                        "comprimento",
                        "altura",
                    ]
                    .iter()
                    .any(|word| self.has(&[word], at + 1, at + 4))
        };
        // `4 in liner 0-TD`
        // `de arriba a abajo`, `top to bottom`, `de haut en bas`
        const WAYS: [(&str, &[&str], &str); 5] = [
            ("arriba", &["a", "hasta", "para"], "abajo"),
            ("haut", &["en"], "bas"),
            ("cima", &["a", "ate"], "baixo"),
            ("cima", &["a", "ate"], "abaixo"),
            ("alto", &["a"], "bajo"),
        ];
        let whole = |at: usize| {
            let down = |(top, joint, end): &(&str, &[&str], &str)| {
                self.word(at) == *top && joint.contains(&self.word(at + 1)) && self.word(at + 2) == *end
            };
            WAYS.iter().any(down)
        };
        let from_top = |at: usize| at >= 2 && self.word(at - 1) == "-" && self.tokens[at - 2].number == Some(0.0);
        (from..to).any(down)
            || (from..to).any(whole)
            || (from..to).filter(ends).any(|at| from_top(at) || self.has(&reaches, at.saturating_sub(2).max(from), at))
    }

    /// Whether a liner is told of that reaches to the bottom.
    pub(super) fn lined_all_the_way(&self, from: usize, to: usize) -> bool {
        self.has(&["liner", "lnr", "lined", "relined", "sleeve", "sleeved"], from, to) && self.all_the_way(from, to)
    }

    pub(super) fn liner(&self, at: usize, (first, last): (usize, usize)) -> Option<Said> {
        let field = Field::CasingDiameter;
        let word = self.word(at);
        let lining = ["stone", "stones", "brick", "bricks", "rock", "tile", "concrete", "wood", "block", "blocks"];
        if self.has(&lining, first.max(at.saturating_sub(2)), last.min(at + 6)) {
            return None;
        }
        // `4 in. liner pulled 2014`: it stands there no more.
        if self.has(&["pulled", "removed", "retire", "retiree", "retirado", "retirada"], at + 1, last.min(at + 4)) {
            return None;
        }
        // `sleeved with 100`: in the unit of the column.
        let of_pipe =
            |at: usize| at > 0 && ["with", "con", "avec", "com", "de", "en", "em"].contains(&self.word(at - 1));
        // `PVC 0,10 jusqu'au fond`, `4 PVC to bottom`: beside what the pipe is made of.
        let beside_material = |at: usize, end: usize| {
            const MADE_OF: [&str; 7] = ["pvc", "hdpe", "pead", "steel", "acier", "acero", "aco"];
            let beside = |at: usize| MADE_OF.contains(&self.word(at));
            (at > 0 && beside(at - 1) || beside(end)) && self.all_the_way(first, last)
        };
        let is_size = |written: &Written, at: usize, end: usize| {
            written.unit.map_or(written.value <= 12.0 || of_pipe(at) || beside_material(at, end), Unit::is_of_widths)
        };
        let mut sizes = (first.max(at.saturating_sub(6))..last.min(at + 8)).filter_map(|at| {
            let (written, end) = self.length(at)?;
            // `3 liners`, `12 ft of liner`
            let tied =
                written.unit.is_some() || self.tie(at, &written) == Tie::To || of_pipe(at) || beside_material(at, end);
            (is_size(&written, at, end) && tied).then_some((written, at, end))
        });
        // `0-260` is from the top; how far that is shows beside the depth.
        let stretch = (at..last)
            .any(|at| self.tokens[at].number.is_some_and(|top| top > 0.0) && matches!(self.word(at + 1), "-" | "–"));
        let somewhere = ["from", "below", "above", "between", "desde", "de", "bottom", "top"];
        let partial = stretch || self.has(&somewhere, at + 1, last) && !self.all_the_way(at + 1, last);
        match sizes.next() {
            Some((written, from, end)) => {
                // `40 ft of 4 in`
                let of_length = from >= 2
                    && ["of", "de"].contains(&self.word(from - 1))
                    && is_length_unit(self.tokens.get(from - 2));
                Some((field, Change::To(written), !partial && !of_length, from.min(at), end.max(at + 1)))
            }
            None if matches!(word, "liner" | "lnr" | "relined" | "sleeve" | "sleeved" | "recased") => {
                Some((field, Change::Unknown, true, at, at + 1))
            }
            None => None,
        }
    }
}
