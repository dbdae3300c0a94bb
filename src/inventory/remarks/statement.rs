//! What a statement of a remark holds: which measure of the well changed, and how.

use super::lengths::Written;
use super::words::Way;
use crate::field::Field;

/// How a measure changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// It is so much now.
    To(Written),
    /// It is so much more (deepened) or less (sanded in).
    By(Written),
    /// It changed, and nobody says how much.
    Unknown,
}

/// One statement of a remark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statement {
    /// Depth, level or casing diameter.
    pub field: Field,
    /// What happened to the well, by the word that the statement begins with.
    pub way: Way,
    /// What the measure is now, or by how much it changed.
    pub change: Change,
    /// Whether the words leave no doubt.
    pub sure: bool,
    /// First byte of the words.
    pub from: usize,
    /// The byte behind the last.
    pub to: usize,
}

/// Field, change, whether it is sure, first token, and the one behind the last.
pub(super) type Said = (Field, Change, bool, usize, usize);
