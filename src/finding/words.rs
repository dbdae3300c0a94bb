//! The words of a finding, written out when somebody reads them: a list may raise millions.

use std::fmt;
use std::sync::Arc;

use compact_str::CompactString;

use crate::quantity::format;
use crate::quantity::unit::Unit;

/// A phrase that is fixed, already written, or a value set into a sentence. Small, and cheap to clone: cells that read alike
/// share it.
#[derive(Debug, Clone, PartialEq)]
pub enum Words {
    /// The same for every finding of its kind.
    Fixed(&'static str),
    /// Written for this one.
    Written(Arc<str>),
    /// A value in its unit between two phrases: `read as ` 120 ft ` (approx)`.
    Value(Arc<Value>),
}

/// A value in a sentence.
#[derive(Debug, PartialEq)]
pub struct Value {
    before: &'static str,
    si: f64,
    unit: &'static Unit,
    after: CompactString,
}

/// Significant digits of a value in a sentence.
const DIGITS: u32 = 6;

impl Words {
    /// A value in its unit between two phrases.
    pub fn value(before: &'static str, si: f64, unit: &'static Unit, after: impl Into<CompactString>) -> Self {
        Self::Value(Arc::new(Value { before, si, unit, after: after.into() }))
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        match self {
            Self::Fixed(text) => text.is_empty(),
            Self::Written(text) => text.is_empty(),
            Self::Value(_) => false,
        }
    }
}

impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Fixed(text) => f.write_str(text),
            Self::Written(text) => f.write_str(text),
            Self::Value(value) => {
                write!(f, "{}{}{}", value.before, format::quantity(value.si, value.unit, DIGITS), value.after)
            }
        }
    }
}

impl From<&'static str> for Words {
    fn from(text: &'static str) -> Self {
        Self::Fixed(text)
    }
}

impl From<String> for Words {
    fn from(text: String) -> Self {
        Self::Written(text.into())
    }
}
