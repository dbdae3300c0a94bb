//! What the words beside a number of a description say that it is of.

use super::lengths::{Group, Length};
use super::reader::Reader;
use super::words::{
    AFTER, AFTER_TOGETHER, ARTICLES, BEFORE, DRIVEN, FROM_BELOW, HIGH, LINING, Label, PUMPS, RIMS, STANDS, TAPED,
    WATER, in_table,
};

impl Reader<'_> {
    /// Whether a lone `W`, `W/L` or `W.L.` stands before a number.
    pub(super) fn stands_for_water(&self, from: usize, at: usize) -> bool {
        let mut before = (from..at).rev().map(|at| self.word(at)).filter(|word| !matches!(*word, "." | "/"));
        match before.next() {
            Some("w") => true,
            Some("l") => before.next() == Some("w"),
            _ => false,
        }
    }

    /// What the nearest word before a number says; `pumping level` is none of the well at rest.
    pub(super) fn label_before(&self, from: usize, to: usize) -> Option<Label> {
        // `curb stands 2 ft high`: of the curb, where no water is spoken of.
        let high = self.has(&HIGH, to, to + 4);
        let stands = |word: &str| STANDS.contains(&word) || high && word == "is";
        let rim_stands = |at: usize| RIMS.contains(&self.word(at)) && stands(self.word(at + 1));
        if (from.saturating_sub(1)..to.saturating_sub(1)).any(rim_stands) && !self.has(&WATER, from, to) {
            return Some(Label::Rim);
        }
        let from = from.max(to.saturating_sub(4));
        let said = |at: usize| in_table(&BEFORE, self.word(at));
        let label = (from..to).rev().find_map(said)?;
        let also = |other: Label| (from..to).any(|at| said(at) == Some(other));
        Some(match label {
            Label::Level if also(Label::Aside) => Label::Aside,
            // `water comes up to 90 ft`
            Label::Rim if also(Label::Level) => Label::Level,
            label => label,
        })
    }

    /// What a word behind a number says.
    pub(super) fn label_after(&self, at: usize, to: usize) -> Option<Label> {
        let second = (at + 1..to).map(|at| self.word(at)).find(|word| !ARTICLES.contains(word)).unwrap_or_default();
        together(self.word(at), second).or_else(|| in_table(&AFTER, self.word(at)))
    }

    pub(super) fn label(&self, group: &Group, before: Option<Label>, (from, to): (usize, usize)) -> Option<Label> {
        let near = to.min(from + 4);
        let after = (from..near).find_map(|at| self.label_after(at, to));
        let small = |most: f64| group.first().unit.is_none() && group.first().value <= most;
        let across = group.lengths.iter().any(Length::is_across);
        let below = self.has(&FROM_BELOW, from, to);
        let first = group.first().at;
        // `taped 9 ft down from the curb`
        if self.has(&TAPED, first.saturating_sub(3), first)
            && self.has(&["down"], from, near)
            && !below
            && !across
            && after != Some(Label::Depth)
        {
            return Some(Label::Level);
        }
        // `hand pump on 2 in pipe driven 30 ft`: a point is its own pipe.
        let on = first.checked_sub(1).filter(|at| self.word(*at) == "on");
        if across
            && on.is_some_and(|on| self.has(&PUMPS, on.saturating_sub(1), on))
            && self.has(&DRIVEN, 0, self.tokens.len())
        {
            return Some(Label::Width);
        }
        match (before, after) {
            (Some(Label::Rim), _) | (None | Some(Label::Casing), Some(Label::Rim)) => Some(Label::Rim),
            (Some(Label::Aside), _) | (None | Some(Label::Made), Some(Label::Aside)) => Some(Label::Aside),
            (_, Some(Label::Height)) if self.has(&["over", "above"], from, to) => None,
            (Some(Label::Height), _) | (_, Some(Label::Height)) => Some(Label::Height),
            (Some(Label::Level), _) if below => None,
            (Some(label @ (Label::Level | Label::Depth | Label::Width)), _) => Some(label),
            (Some(Label::Casing), _) => Some(if across || small(24.0) { Label::Width } else { Label::Casing }),
            (_, Some(Label::Depth)) if across => below.then_some(Label::Width),
            (_, Some(label @ (Label::Depth | Label::Level))) => Some(label),
            (_, Some(Label::Bore)) if across => Some(Label::Bore),
            _ if across => Some(Label::Width),
            // `42 ft of casing` is its depth, `4 1/2 pvc` its width.
            (_, Some(Label::Width)) if small(48.0) || !self.has(&LINING, from, near) => Some(Label::Width),
            (_, Some(Label::Made)) if small(12.0) => Some(Label::Width),
            _ => None,
        }
    }
}

/// What two words behind a number say together.
pub(super) fn together(one: &str, other: &str) -> Option<Label> {
    let found = AFTER_TOGETHER.iter().find(|(first, then, _)| first.contains(&one) && then.contains(&other));
    found.map(|(.., label)| *label)
}
