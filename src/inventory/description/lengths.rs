//! The lengths of a description: a number with its unit, or numbers of one measure together.

use super::words::Label;

/// A number with its unit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Length {
    /// The token of the number itself.
    pub(super) at: usize,
    /// The token behind its last.
    pub(super) end: usize,
    pub(super) value: f64,
    pub(super) unit: Option<&'static str>,
}

impl Length {
    pub(super) fn is_across(&self) -> bool {
        matches!(self.unit, Some("in" | "mm" | "cm"))
    }
}

/// Numbers of one measure, with what they are of.
#[derive(Debug, Clone)]
pub(super) struct Group {
    pub(super) lengths: Vec<Length>,
    /// How deep a width reaches.
    pub(super) until: Option<Length>,
    pub(super) label: Option<Label>,
    /// The token behind the words that belong to it.
    pub(super) end: usize,
    /// Whether its clause has a word of casing.
    pub(super) cased: bool,
    /// Whether its clause has other words.
    pub(super) in_words: bool,
    /// Whether a lone `W` stands before it: water, where the width is told otherwise.
    pub(super) after_w: bool,
}

impl Group {
    pub(super) fn first(&self) -> &Length {
        &self.lengths[0]
    }

    /// Takes one number more of the same measure.
    pub(super) fn join(&mut self, length: Length) {
        self.lengths.push(length);
        self.end = length.end;
    }

    /// Is a width that reaches so deep.
    pub(super) fn reach(&mut self, length: Length) {
        self.until = Some(length);
        self.label = Some(Label::Width);
        self.end = length.end;
    }

    /// The token behind its last number.
    pub(super) fn behind(&self) -> usize {
        self.lengths.last().map_or(0, |length| length.end)
    }

    /// Whether it is one number with feet or meters.
    pub(super) fn is_long(&self) -> bool {
        self.lengths.len() == 1 && matches!(self.first().unit, Some("ft" | "m"))
    }

    /// Whether no unit is written.
    pub(super) fn is_bare(&self) -> bool {
        self.lengths.iter().all(|length| length.unit.is_none())
    }
}

/// Whether `6" x 142'` is a width and a depth, and not two sides.
pub(super) fn is_across_and_down(first: &Length, second: &Length) -> bool {
    match (first.unit, second.unit) {
        (Some("in" | "mm" | "cm"), Some("ft" | "m")) => true,
        (one, other) if one == other || other.is_none() => second.value > 8.0 * first.value,
        _ => false,
    }
}
