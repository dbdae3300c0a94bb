//! What a condition of the scenario file may ask of a well or a visit.

use compact_str::CompactString;

use super::Visit;
use crate::checks::Known;
use crate::field::Field;
use crate::well::Well;

/// Whoever a condition is asked of.
pub trait Asked {
    /// The SI value of a measured field; `None` where there is none.
    fn si_value(&self, field: Field) -> Option<f64>;
    /// The text of a text or choice field; `None` where there is none.
    fn text(&self, field: Field) -> Option<&str>;
    /// The answer of a yes-or-no field; `None` where there is none.
    fn flag(&self, field: Field) -> Option<bool>;
    /// Cells of the columns that are not fields.
    fn carried(&self) -> &[CompactString];
}

impl Asked for Well {
    fn si_value(&self, field: Field) -> Option<f64> {
        self.si_value(field)
    }
    fn text(&self, field: Field) -> Option<&str> {
        self.text(field)
    }
    fn flag(&self, field: Field) -> Option<bool> {
        self.flag(field)
    }
    fn carried(&self) -> &[CompactString] {
        &self.carried
    }
}

impl Asked for Visit {
    fn si_value(&self, field: Field) -> Option<f64> {
        match self {
            Self::Planned { well, .. } => well.si_value(field),
            Self::HeldBack { row, .. } => match row.facts.known(field) {
                Some(Known::Number(si)) => Some(*si),
                _ => None,
            },
            Self::Excluded { visit, .. } => visit.si_value(field),
        }
    }

    fn text(&self, field: Field) -> Option<&str> {
        match self {
            Self::Planned { well, .. } => well.text(field),
            Self::HeldBack { row, .. } => match field {
                Field::WellId => Some(&row.id),
                Field::Visit => Some(&row.visit),
                _ => match row.facts.known(field) {
                    Some(Known::Text(text)) => Some(text),
                    _ => None,
                },
            },
            Self::Excluded { visit, .. } => visit.text(field),
        }
    }

    fn flag(&self, field: Field) -> Option<bool> {
        match self {
            Self::Planned { well, .. } => well.flag(field),
            Self::HeldBack { row, .. } => match row.facts.known(field) {
                Some(Known::Flag(flag)) => Some(*flag),
                _ => None,
            },
            Self::Excluded { visit, .. } => visit.flag(field),
        }
    }

    fn carried(&self) -> &[CompactString] {
        self.carried()
    }
}
